//! The organic compounds of a programme: what was found with its limit and laboratory, what was not with its bound, the
//! sums of groups, what is wrong with names and numbers; each number open to correction.

use super::words;
use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, link, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use ::report::pages;
use assessment::{organics, results};
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use limits::absence::{Report, Row};
use maud::html;
use message::{Spoken, language, web_compounds as said};
use record::model::Compound;
use record::store::Filter;
use std::collections::HashMap;

/// Rows of the table of compounds by their name.
type Described = HashMap<String, i64>;

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let (report, described) = page::read(&app, |store, _| {
        let all = results::all(store)?;
        let rows = store.list::<Compound>(&Filter::all())?;
        let described: Described = rows.into_iter().map(|c| (c.name, c.id)).collect();
        // A list that cannot be summed up is told here as in the report.
        let report = match organics::report(store, &all, language()) {
            Err(e @ record::Error::Science { .. }) => Err(e.to_string()),
            other => Ok(other?),
        };
        Ok((report, described))
    })
    .await?;
    let title = said::Title.text();
    let mut pieces: Vec<Piece> = vec![html! { h1 { (title) } }.into()];
    match &report {
        Err(why) => pieces.push(html! { p.caution { (why) "." } }.into()),
        Ok(None) => pieces.push(html! { p { (said::None.text()) } }.into()),
        Ok(Some(r)) => {
            pieces.push(html! { p { (words::printed(&r.plain)) } (words::findings(&pages::compounds(r))) }.into());
            let may = who.may(Role::Analyst);
            pieces.push(words::or_else(found(r, &described, may), &said::NoneFound));
            pieces.push(words::or_else(not_found(r, &described, may), &said::AllFound));
        }
    }
    respond(&app, &who, Place::of("/statements", &title).spoken(&who), &q, &pieces)
}

fn found(r: &Report, described: &Described, may: bool) -> Listing {
    let row = |row: &&Row| {
        let value = row.amount.as_ref().map_or_else(String::new, |a| words::Parts::of(a, 2.0).line());
        vec![
            td(name(&row.name)),
            number(row, described, may),
            td(row.sample.clone()),
            td(value),
            td(words::printed(&row.told_limit().text())),
            td(row.laboratory.clone().unwrap_or_default()),
        ]
    };
    Listing {
        caption: said::Found.text(),
        headings: vec![
            said::Compound.text(),
            said::Number.text(),
            said::Bottle.text(),
            said::Value.text(),
            said::BesideLimit.text(),
            said::Laboratory.text(),
        ],
        rows: r.found_rows().iter().map(row).collect(),
        ..Listing::default()
    }
}

/// A compound as it is called in the language of the page.
fn name(compound: &str) -> String {
    ::report::pages::element(compound)
}

fn not_found(r: &Report, described: &Described, may: bool) -> Listing {
    let unit = r.unit.to_string();
    let row = |row: &&Row| {
        let bound = row.upper_bound.map(|x| limits::claim::at_most(x, unit.clone()).text());
        let limit = row.limit.map(|x| message::Shown::trimmed(x, 3, unit.clone()).text());
        vec![
            td(name(&row.name)),
            number(row, described, may),
            td(row.sample.clone()),
            td(bound.unwrap_or_else(|| said::NoBound.text())),
            td(limit.unwrap_or_else(|| said::NoLimit.text())),
            td(row.laboratory.clone().unwrap_or_default()),
        ]
    };
    Listing {
        caption: said::NotFound.text(),
        headings: vec![
            said::Compound.text(),
            said::Number.text(),
            said::Bottle.text(),
            said::AtMost.text(),
            said::Limit.text(),
            said::Laboratory.text(),
        ],
        rows: r.not_found_rows().iter().map(row).collect(),
        ..Listing::default()
    }
}

/// The number of a compound, which opens its correction; of one that nobody described yet its description.
fn number(row: &Row, described: &Described, may: bool) -> Td {
    let words = row.cas.clone().filter(|c| !c.is_empty());
    let to = match described.get(&row.name) {
        Some(id) => format!("/correct/compound/{id}?to=%2Fcompounds"),
        None => format!("/enter/compound?name={}&to=%2Fcompounds", encoded(&row.name)),
    };
    match (may, words) {
        (true, words) => link(&to, words.unwrap_or_else(|| said::GiveNumber.text())),
        (false, words) => td(words.unwrap_or_default()),
    }
}
