//! The wells: each with its section to scale, flow, head, contact time, what follows from them, and its newest results.

use super::{judged, measurand, value};
use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, heads, link, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use crate::worked::well_values;
use ::report::pages;
use assessment::results;
use assessment::verdict::Rules;
use assessment::well_value::WellValue;
use assessment::wells;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use programme::index::Wanted;
use record::model::Well;
use record::store::{Filter, Store};

/// Visits told on a well's page, the newest.
const VISITS: usize = 3;

/// Results told on a well's page, the newest.
const RESULTS: usize = 30;

/// All wells.
pub(crate) async fn list(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let (wells, counts) = page::read(&app, |store, app| {
        let wells = store.wells()?;
        let counts = app.record.index(store, |i| {
            let of = |w: &Well| i.select(&Wanted { well: Some(w.name.clone()), ..Wanted::default() }, 0, 1);
            wells.iter().map(of).collect::<Vec<_>>()
        })?;
        Ok((wells, counts))
    })
    .await?;
    let rows = wells.iter().zip(&counts).map(|(w, c)| {
        vec![
            link(&format!("/wells/{}", encoded(&w.name)), w.name.clone()),
            td(w.site.clone().unwrap_or_default()),
            td(w.description.clone().unwrap_or_default()),
            td(w.pipe_material.clone().unwrap_or_default()),
            td(w.flow_note.clone().unwrap_or_default()),
            link(&format!("/results?well={}", encoded(&w.name)), c.total.to_string()),
        ]
    });
    let listing = Listing {
        caption: "Wells, springs, spouts and river points".into(),
        headings: heads(&["Well", "Site", "What it is", "Pipe", "Flow", "Results"]),
        rows: rows.collect(),
        empty: "No well is described yet.",
        ..Listing::default()
    };
    let head = html! {
        h1 { "Wells" }
        @if who.may(Role::Lead) { p.acts { a.go href="/enter/well" { "Describe a well" } " " a href="/enter/site" { "a site" } } }
    };
    respond(&app, &who, Place::of("/wells", "Wells"), &q, &[head.into(), listing.into()])
}

/// One well.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = name.clone();
    let mut pieces = page::read(&app, move |store, app| {
        let absent = || HttpError::absent(format!("There is no well \"{asked}\" in the programme."));
        let sheet = wells::sheet(store, &asked, VISITS)?.ok_or_else(absent)?;
        let rules = Rules::new(store.check_rules()?);
        let wanted = Wanted { well: Some(asked.clone()), ..Wanted::default() };
        let rows = app.record.index(store, |i| i.select(&wanted, 0, RESULTS).rows)?;
        let newest = results::listed(store, &rows)?;
        let mut pieces: Vec<Piece> = pages::well(&sheet, &newest, &rules).into_iter().map(Piece::from).collect();
        let values = well_values(store, app, &asked)?;
        if !values.is_empty() {
            pieces.push(html! { h2 #values { "What the well holds" } }.into());
            pieces.push(values_of_well(&asked, &values).into());
        }
        pieces.push(html! { h2 #newest { "Newest results" } }.into());
        pieces.push(newest_results(&asked, &newest).into());
        pieces.extend(record_rows(store, sheet.well.id, &asked)?);
        Ok(pieces)
    })
    .await?;
    pieces.insert(0, head(&who, &name).into());
    respond(&app, &who, Place::of("/wells", &format!("The well {name}")), &q, &pieces)
}

fn head(who: &Who, name: &str) -> Markup {
    let e = encoded(name);
    let to = encoded(&format!("/wells/{e}"));
    html! {
        h1 { "The well " (name) }
        p.acts {
            a href="#newest" { "Newest results" } " "
            a href=(format!("/results?well={e}")) { "All results" } " "
            a href=(format!("/time?well={e}")) { "Over time" } " "
            @if who.may(Role::Lead) {
                a href=(format!("/enter/well_section?well={e}&to={to}")) { "Add casing and screen" } " "
                a href=(format!("/enter/layer?well={e}&to={to}")) { "Add layers" } " "
            }
            @if who.may(Role::Sampler) {
                a href=(format!("/enter/field_reading?well={e}&to={to}")) { "Add readings" } " "
                a href=(format!("/enter/fill?well={e}&to={to}")) { "Add timed fills" }
            }
        }
    }
}

/// One value a day, element and fraction, from the bottles that agree.
pub(crate) fn values_of_well(name: &str, values: &[WellValue]) -> Listing {
    let row = |w: &WellValue| {
        let labels = w.bottles.iter().map(|p| p.bottle.as_str()).collect::<Vec<_>>().join(", ");
        let notes =
            w.bottles.iter().chain(&w.left_out).filter_map(|p| Some(format!("{}: {}", p.bottle, p.note.as_deref()?)));
        vec![
            td(format!("{} {}", w.analyte, w.isotopes)),
            td(w.number()),
            super::verdict(w.verdict.map(super::word)),
            td(w.water.day.clone()),
            td(w.water.fraction.clone()),
            td(labels),
            td(w.number_with_all_back().unwrap_or_default()),
            td(w.reasons.join(", ")),
            td(notes.collect::<Vec<_>>().join("; ")),
        ]
    };
    Listing {
        caption: format!("The value of {name} by day: the common value of the bottles that agree"),
        headings: heads(&[
            "What",
            "Value ± U",
            "Verdict",
            "Day",
            "Fraction",
            "Bottles",
            "With everything put back",
            "Because of",
            "Field notes",
        ]),
        rows: values.iter().map(row).collect(),
        empty: "No bottle of this well was measured in a run.",
        foot: Some(
            html! { "What the bottles share is in U once and in full. Where they disagree no number is given: their values stand side by side." },
        ),
        ..Listing::default()
    }
}

fn newest_results(name: &str, newest: &[results::Listed]) -> Listing {
    let row = |r: &results::Listed| {
        vec![
            td(measurand(r)),
            value(r),
            judged(r),
            td(r.bottle.clone()),
            td(r.filled_at.as_deref().unwrap_or_default().chars().take(10).collect::<String>()),
            td(r.fraction.clone()),
        ]
    };
    Listing {
        caption: format!("The newest results of {name}"),
        headings: heads(&["What", "Value ± U", "Verdict", "Bottle", "Filled", "Fraction"]),
        rows: newest.iter().map(row).collect(),
        empty: "No result of this well is on record.",
        ..Listing::default()
    }
}

/// What was entered of the well, each row open to correction.
fn record_rows(store: &Store, well: i64, name: &str) -> Result<Vec<Piece>, HttpError> {
    let mut out: Vec<Piece> = vec![html! { h2 { "As entered" } }.into()];
    let of = |table: &'static str, filter: Filter<'static>| {
        super::trips::entered(store, table, &filter, &format!("/wells/{}", encoded(name)))
    };
    out.push(of("well", Filter::all().is("id", well))?.into());
    for table in ["well_section", "layer"] {
        out.push(of(table, Filter::all().is("well", well))?.into());
    }
    Ok(out)
}
