//! What the years say: each series of a well and substance with its trend, steps, and the blanks beside it; first the
//! sentence, then the picture. A point is a day of sampling: bottles of one day are no series.

use super::words;
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
use message::{Spoken, count, web_time as said};
use programme::index::{Index, Wanted};
use record::store::Store;
use std::collections::{BTreeMap, BTreeSet};

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
    let title = said::Title.text();
    let one_day = table.1 < 2;
    let head = html! {
        h1 { (title) }
        @if table.1 == 0 { p { (said::NoDay.text()) } }
        @else if one_day { p { (said::OneDay.text()) } p.acts { a.go href="/plan" { (said::PlanTrip.text()) } } }
        @else { p { (said::What.text()) } }
    };
    respond(
        &app,
        &who,
        Place::of("/time", &title).spoken(&who),
        &q,
        &[head.into(), words::or_else(table.0, &said::NoResult)],
    )
}

/// Substances down, wells across: on how many days each was sampled. And on how many days anything was.
fn all(i: &Index, only: Option<&str>) -> (Listing, usize) {
    let mut found: BTreeMap<(String, u32), BTreeSet<&str>> = BTreeMap::new();
    let mut days: BTreeSet<&str> = BTreeSet::new();
    let wanted = Wanted { well: only.map(str::to_string), ..Wanted::default() };
    for e in i.wanted(&wanted) {
        let bottle = &i.bottles[e.bottle as usize];
        if let Some(well) = bottle.well {
            let at = (i.measurands[e.measurand as usize].analyte.clone(), well);
            found.entry(at).or_default().insert(&bottle.day);
            days.insert(&bottle.day);
        }
    }
    let mut wells: Vec<u32> = found.keys().map(|(_, w)| *w).collect();
    wells.sort_unstable();
    wells.dedup();
    let mut analytes: Vec<&String> = found.keys().map(|(a, _)| a).collect();
    analytes.dedup();
    // Lead first, then as the record has them.
    analytes.sort_by_key(|a| *a != "Pb");
    let name = |w: u32| i.wells.get(w as usize).cloned().unwrap_or_default();
    let cell = |a: &str, w: u32| -> Td {
        match found.get(&(a.to_string(), w)) {
            Some(days) => {
                let to = format!("/time?well={}&analyte={}", encoded(&name(w)), encoded(a));
                Td { number: true, ..link(&to, days.len().to_string()) }
            }
            None => td(""),
        }
    };
    let row = |a: &&String| -> Vec<Td> {
        std::iter::once(td(words::substance(a))).chain(wells.iter().map(|w| cell(a, *w))).collect()
    };
    let listing = Listing {
        caption: said::Caption.text(),
        headings: std::iter::once(said::Substance.text()).chain(wells.iter().map(|w| name(*w))).collect(),
        rows: analytes.iter().map(row).collect(),
        foot: Some(html! { (said::Foot.text()) }),
        ..Listing::default()
    };
    (listing, days.len())
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
    let title = said::TitleOne { substance: words::substance(&analyte).into(), well: well.as_str().into() }.text();
    let mut pieces: Vec<Piece> = vec![html! { h1 { (title) } (zoom(&well, &analyte, q)) }.into()];
    if blocks.is_empty() {
        pieces.push(html! { p.quiet { (said::NoneInYears.text()) } }.into());
    }
    pieces.extend(words::pieces(sentence_first(blocks)));
    pieces.push(html! { h2 #points { (said::Newest.text()) } }.into());
    pieces.push(words::or_else(newest(&points.0, points.1, &well, &analyte), &said::NoResult));
    respond(app, who, Place::of("/time", &title).spoken(who), q, &pieces)
}

/// A sentence that stands behind a picture stands before it.
fn sentence_first(mut blocks: Vec<Block>) -> Vec<Block> {
    for n in 1..blocks.len() {
        if matches!((&blocks[n - 1], &blocks[n]), (Block::Figure(_), Block::Text(_))) {
            blocks.swap(n - 1, n);
        }
    }
    blocks
}

/// The newest results of a series, each with its case.
fn newest(points: &[Listed], total: usize, well: &str, analyte: &str) -> Listing {
    let row = |r: &Listed| {
        vec![
            td(r.filled_at.as_deref().map(words::day).unwrap_or_default()),
            words::value(r),
            words::verdict_cell(r.verdict, r.profile.as_deref()),
            td([words::isotopes(&r.isotopes), words::fraction(&r.fraction)]
                .into_iter()
                .filter(|w| !w.is_empty())
                .collect::<Vec<_>>()
                .join(", ")),
            td(r.bottle.clone()),
        ]
    };
    let all = format!("/results?well={}&analyte={}", encoded(well), encoded(analyte));
    let more = (total > points.len()).then(|| said::AllResults { n: count(total) }.text());
    Listing {
        caption: said::NewestFirst.text(),
        headings: vec![
            said::Day.text(),
            said::Value.text(),
            said::Verdict.text(),
            said::Of.text(),
            said::Bottle.text(),
        ],
        rows: points.iter().map(row).collect(),
        foot: Some(html! { (said::OpensCase.text()) " " @if let Some(words) = more { a href=(all) { (words) } } }),
        all: Some(format!("{all}&file=csv")),
        ..Listing::default()
    }
}

/// The years shown: a form that works without script; with it, a stretch of the picture can be drawn.
fn zoom(well: &str, analyte: &str, q: &Query) -> Markup {
    let value = |name: &str| q.get(name).cloned().unwrap_or_default();
    html! {
        form.filters #zoom method="get" action="/time" aria-label=(said::Years.text()) {
            input type="hidden" name="well" value=(well);
            input type="hidden" name="analyte" value=(analyte);
            div.field { label for="from" { (said::FromYear.text()) } input #from name="from" value=(value("from")) inputmode="decimal" size="8"; }
            div.field { label for="to" { (said::ToYear.text()) } input #to name="to" value=(value("to")) inputmode="decimal" size="8"; }
            button type="submit" { (said::ShowYears.text()) }
            @if q.contains_key("from") || q.contains_key("to") {
                " " a href=(format!("/time?well={}&analyte={}", encoded(well), encoded(analyte))) { (said::AllYears.text()) }
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
