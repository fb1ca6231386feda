//! How old the water of a well is: the same parts as on paper, with every model and every reason. Worked out once for a
//! state of the record. Checked in `crates/web/tests/ages.rs`.

use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Piece, Query, respond};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use crate::worked;
use ::report::pages;
use assessment::age::{self, WellAge};
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use message::{Spoken, web_places, well_age as says};
use record::store::Store;
use std::sync::Arc;

/// The page of a well's age.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = name.clone();
    let may = (who.may(Role::Analyst), who.may(Role::Lead));
    let pieces = page::read(&app, move |store, app| one(store, app, &asked, may)).await?;
    let title = says::PageTitle { well: name.as_str().into() }.text();
    respond(&app, &who, Place::of("/wells", &title), &q, &pieces)
}

fn one(store: &Store, app: &App, name: &str, may: (bool, bool)) -> Result<Vec<Piece>, HttpError> {
    let absent = || HttpError::absent(web_places::NoWell { well: name.into() }.text());
    let well = store.wells()?.into_iter().find(|w| w.name == name).filter(|w| !w.is_stream()).ok_or_else(absent)?;
    let known = of_well(store, app, &well.name)?;
    let mut pieces: Vec<Piece> = vec![head(name).into()];
    match known.as_ref() {
        Some(a) => pieces.extend(pages::age(a).into_iter().map(Piece::from)),
        None => pieces.push(html! { p { (says::PageNone { well: name.into() }.text()) } }.into()),
    }
    pieces.push(acts(name, may).into());
    Ok(pieces)
}

/// What the tracers say, worked out once for a head of the record.
fn of_well(store: &Store, app: &App, name: &str) -> Result<Arc<Option<WellAge>>, HttpError> {
    worked::kept(app, &format!("age of {name}"), worked::head(store)?, || Ok(age::of_well(store, name)?))
}

fn head(name: &str) -> Markup {
    html! {
        h1 { (says::PageTitle { well: name.into() }.text()) }
        p.acts { a href=(format!("/wells/{}", encoded(name))) { (says::BackToWell { well: name.into() }.text()) } }
    }
}

fn acts(name: &str, (analyst, lead): (bool, bool)) -> Markup {
    let e = encoded(name);
    let to = encoded(&format!("/wells/{e}/age"));
    html! {
        p.acts {
            @if analyst { a href=(format!("/enter/tracer?well={e}&to={to}")) { (says::EnterTracers.text()) } " " }
            @if lead { a href=(format!("/enter/recharge_fact?well={e}&to={to}")) { (says::EnterFacts.text()) } }
        }
    }
}
