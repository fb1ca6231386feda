//! What the years say: each series of a well and analyte with its trend, steps, and the blanks beside it.

use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, link, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use ::document::content::Block;
use ::report::pages;
use assessment::results::{self, Listed};
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use programme::index::{Index, Wanted};
use record::store::Store;
use std::collections::BTreeMap;

/// Results of a series taken, at most.
const MOST: usize = 5000;

/// Results told under the picture.
const POINTS: usize = 20;

/// The page: all series, or those of a well and an analyte.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let text = |name: &str| q.get(name).map(|v| v.trim().to_string()).filter(|v| !v.is_empty());
    let (well, analyte) = (text("well"), text("analyte"));
    if let (Some(well), Some(analyte)) = (&well, &analyte) {
        return one(&app, &who, &q, well.clone(), analyte.clone()).await;
    }
    let only = well.clone();
    let table = page::read(&app, move |store, app| app.record.index(store, |i| all(i, only.as_deref()))).await?;
    let head = html! {
        h1 { "Over time" }
        p { "One line an analyte, one column a well: how many samplings of the water are on record. A number opens the series." }
    };
    respond(&app, &who, Place::of("/time", "Over time"), &q, &[head.into(), table.into()])
}

/// Analytes down, wells across.
fn all(i: &Index, only: Option<&str>) -> Listing {
    let mut counts: BTreeMap<(String, u32), usize> = BTreeMap::new();
    let wanted = Wanted { well: only.map(str::to_string), ..Wanted::default() };
    for e in i.wanted(&wanted) {
        if let Some(well) = i.bottles[e.bottle as usize].well {
            *counts.entry((i.measurands[e.measurand as usize].analyte.clone(), well)).or_default() += 1;
        }
    }
    let mut wells: Vec<u32> = counts.keys().map(|(_, w)| *w).collect();
    wells.sort_unstable();
    wells.dedup();
    let mut analytes: Vec<&String> = counts.keys().map(|(a, _)| a).collect();
    analytes.dedup();
    let name = |w: u32| i.wells.get(w as usize).cloned().unwrap_or_default();
    let cell = |a: &str, w: u32| -> Td {
        match counts.get(&(a.to_string(), w)) {
            Some(n) => {
                let to = format!("/time?well={}&analyte={}", encoded(&name(w)), encoded(a));
                Td { number: true, ..link(&to, n.to_string()) }
            }
            None => td(""),
        }
    };
    let row = |a: &&String| -> Vec<Td> {
        std::iter::once(td(pages::element(a))).chain(wells.iter().map(|w| cell(a, *w))).collect()
    };
    Listing {
        caption: "Results of the water by analyte and well".into(),
        headings: std::iter::once("Analyte".to_string()).chain(wells.iter().map(|w| name(*w))).collect(),
        rows: analytes.iter().map(row).collect(),
        empty: "No result of a well is on record.",
        ..Listing::default()
    }
}

async fn one(app: &Shared, who: &Who, q: &Query, well: String, analyte: String) -> Result<Response, HttpError> {
    let year = |name: &str| q.get(name).and_then(|y| y.trim().parse::<f64>().ok()).filter(|y| y.is_finite());
    let span = match (year("from"), year("to")) {
        (None, None) => None,
        (from, to) => Some((from.unwrap_or(f64::NEG_INFINITY), to.unwrap_or(f64::INFINITY))),
    };
    let (w, a) = (well.clone(), analyte.clone());
    let (blocks, points) = page::read(app, move |store, app| {
        let blocks = series(store, app, &w, &a, span)?;
        let wanted = Wanted { well: Some(w.clone()), analyte: Some(a.clone()), ..Wanted::default() };
        let rows = app.record.index(store, |i| i.select(&wanted, 0, POINTS))?;
        Ok((blocks, (results::listed(store, &rows.rows)?, rows.total)))
    })
    .await?;
    let title = format!("{} in {well} over time", quantity::format::capital(&pages::element(&analyte)));
    let mut pieces: Vec<Piece> = vec![html! { h1 { (title) } (zoom(&well, &analyte, q)) }.into()];
    if blocks.is_empty() {
        pieces.push(html! { p.quiet { "No dated result of it is on record in these years." } }.into());
    }
    pieces.extend(blocks.into_iter().map(Piece::from));
    pieces.push(html! { h2 #points { "The newest of its results" } }.into());
    pieces.push(newest(&points.0, points.1, &well, &analyte).into());
    respond(app, who, Place::of("/time", &title), q, &pieces)
}

/// The newest results of a series, each with its case.
fn newest(points: &[Listed], total: usize, well: &str, analyte: &str) -> Listing {
    let row = |r: &Listed| {
        vec![
            td(r.filled_at.as_deref().unwrap_or_default().chars().take(10).collect::<String>()),
            super::value(r),
            super::judged(r),
            td(super::measurand(r)),
            td(r.bottle.clone()),
        ]
    };
    let all = format!("/results?well={}&analyte={}", encoded(well), encoded(analyte));
    Listing {
        caption: "Newest first".into(),
        headings: ["Filled", "Value ± U", "Verdict", "What", "Bottle"].map(String::from).to_vec(),
        rows: points.iter().map(row).collect(),
        empty: "No result of it is on record.",
        foot: Some(
            html! { "A value opens its case. " @if total > points.len() { a href=(all) { "All " (total) " results" } } },
        ),
        all: Some(format!("{all}&file=csv")),
    }
}

/// The years shown: a form that works without script; with it, a stretch of the picture can be drawn.
fn zoom(well: &str, analyte: &str, q: &Query) -> Markup {
    let value = |name: &str| q.get(name).cloned().unwrap_or_default();
    html! {
        form.filters #zoom method="get" action="/time" aria-label="Years shown" {
            input type="hidden" name="well" value=(well);
            input type="hidden" name="analyte" value=(analyte);
            div.field { label for="from" { "From year" } input #from name="from" value=(value("from")) inputmode="decimal" size="8"; }
            div.field { label for="to" { "To year" } input #to name="to" value=(value("to")) inputmode="decimal" size="8"; }
            button type="submit" { "Show these years" }
            @if q.contains_key("from") || q.contains_key("to") {
                " " a href=(format!("/time?well={}&analyte={}", encoded(well), encoded(analyte))) { "All years" }
            }
        }
    }
}

fn series(
    store: &Store,
    app: &App,
    well: &str,
    analyte: &str,
    span: Option<(f64, f64)>,
) -> Result<Vec<Block>, HttpError> {
    crate::worked::series(store, app, &format!("{well}\n{analyte}\n{span:?}"), || {
        let water = Wanted { well: Some(well.into()), analyte: Some(analyte.into()), ..Wanted::default() };
        let blanks = Wanted { well: None, evidence: true, ..water.clone() };
        let rows = app.record.index(store, |i| super::with_blanks(i, &water, &blanks, MOST))?;
        Ok(pages::series(store, &results::listed(store, &rows)?, span)?)
    })
}
