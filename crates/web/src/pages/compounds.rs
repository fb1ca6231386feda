//! The organic compounds of a programme: what was found with its limit and laboratory, what was not with its bound, the
//! sums of groups, what is wrong with names and numbers; each number open to correction.

use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, findings, heads, link, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use ::report::pages;
use assessment::{organics, results};
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use limits::absence::{Report, Row};
use maud::html;
use message::Spoken as _;
use quantity::Lang;
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
        let report = match organics::report(store, &all, Lang::En) {
            Err(e @ record::Error::Science { .. }) => Err(e.to_string()),
            other => Ok(other?),
        };
        Ok((report, described))
    })
    .await?;
    let mut pieces: Vec<Piece> = vec![html! { h1 { "Organic compounds" } }.into()];
    match &report {
        Err(why) => pieces.push(html! { p.caution { (why) "." } }.into()),
        Ok(None) => pieces.push(html! { p { "No organic compound was reported yet." } }.into()),
        Ok(Some(r)) => {
            pieces.push(html! { p { (r.plain) } (findings(&pages::compounds(r))) }.into());
            let may = who.may(Role::Analyst);
            pieces.push(found(r, &described, may).into());
            pieces.push(not_found(r, &described, may).into());
        }
    }
    respond(&app, &who, Place::of("/statements", "Organic compounds"), &q, &pieces)
}

fn found(r: &Report, described: &Described, may: bool) -> Listing {
    let row = |row: &&Row| {
        vec![
            td(row.name.clone()),
            number(row, described, may),
            td(row.sample.clone()),
            td(row.amount.as_ref().map_or_else(String::new, quantity::Amount::in_words)),
            td(row.told_limit().in_english()),
            td(row.laboratory.clone().unwrap_or_default()),
        ]
    };
    Listing {
        caption: "Compounds that were found".into(),
        headings: heads(&["Compound", "CAS number", "Bottle", "Value", "Beside the limit", "Laboratory"]),
        rows: r.found_rows().iter().map(row).collect(),
        empty: "None was found.",
        ..Listing::default()
    }
}

fn not_found(r: &Report, described: &Described, may: bool) -> Listing {
    let unit = r.unit.to_string();
    let row = |row: &&Row| {
        let bound = row.upper_bound.map(|x| limits::claim::at_most(x, unit.clone()).text());
        let limit = row.limit.map(|x| message::Shown::trimmed(x, 3, unit.clone()).text());
        vec![
            td(row.name.clone()),
            number(row, described, may),
            td(row.sample.clone()),
            td(bound.unwrap_or_else(|| "no bound stands".into())),
            td(limit.unwrap_or_else(|| "none in the table".into())),
            td(row.laboratory.clone().unwrap_or_default()),
        ]
    };
    Listing {
        caption: "Compounds that were not found".into(),
        headings: heads(&["Compound", "CAS number", "Bottle", "At most", "Limit", "Laboratory"]),
        rows: r.not_found_rows().iter().map(row).collect(),
        empty: "All were found.",
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
        (true, words) => link(&to, words.unwrap_or_else(|| "none: give it".into())),
        (false, words) => td(words.unwrap_or_default()),
    }
}
