//! Water: the newest water of each well as a column beside the others, what could form or dissolve, what carries the metal,
//! in words; behind each its own page with ions, saturation, redox, smell, metals. Worked out once for a state of the record
//! and a language, and then kept: the doubt is a thousand draws.

use super::words;
use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, link, number, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use ::document::content::{Align, Block, Cell, Column, Section, Table};
use ::report::pages;
use assessment::results::{self, Listed};
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use message::{Spoken, count, language, web_water as said};
use programme::index::{Index, Wanted};
use record::model::ResultRow;
use record::store::{Filter, Store};
use std::collections::{BTreeMap, HashMap};
use std::sync::{LazyLock, Mutex};

/// Waters beside each other, at most: more columns are not read.
const COLUMNS: usize = 8;

/// Samples on the list.
const LISTED: usize = 40;

/// Waters kept worked out.
const KEPT: usize = 64;

/// Without these a sample is no analysis of a water (as `assessment::chemistry_checks` asks for).
const NEEDED: [&str; 4] = ["Ca", "Na", "Cl", "alkalinity"];

/// A sample with its label, well, trip, day, and how much was measured in it.
#[derive(Clone)]
struct Sample {
    label: String,
    well: String,
    trip: String,
    day: String,
    results: usize,
}

/// Samples that hold major ions, newest first.
fn samples(index: &Index) -> Vec<Sample> {
    let mut found: BTreeMap<u32, (usize, [bool; 4])> = BTreeMap::new();
    let mut order = vec![];
    for e in index.wanted(&Wanted::default()) {
        let of = found.entry(e.bottle).or_insert_with(|| {
            order.push(e.bottle);
            Default::default()
        });
        of.0 += 1;
        let analyte = &index.measurands[e.measurand as usize].analyte;
        if let Some(n) = NEEDED.iter().position(|x| x == analyte || analyte.starts_with(&format!("{x} ("))) {
            of.1[n] = true;
        }
    }
    let whole = order.into_iter().filter(|b| found[b].1 == [true; 4]);
    whole
        .filter_map(|b| {
            let bottle = index.bottles.get(b as usize)?;
            let name =
                |names: &[String], at: Option<u32>| at.and_then(|i| names.get(i as usize).cloned()).unwrap_or_default();
            Some(Sample {
                label: bottle.label.clone(),
                well: name(&index.wells, bottle.well),
                trip: name(&index.trips, bottle.trip),
                day: bottle.day.clone(),
                results: found[&b].0,
            })
        })
        .collect()
}

/// All waters.
pub(crate) async fn list(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let (all, beside) = page::read(&app, |store, app| {
        let all = app.record.index(store, samples)?;
        let beside = beside(store, app, &newest(&all))?;
        Ok((all, beside))
    })
    .await?;
    let title = said::Title.text();
    let mut pieces: Vec<Piece> = vec![html! { h1 { (title) } p { (said::What.text()) } }.into()];
    if all.is_empty() {
        pieces.push(html! { p { (said::None.text()) } p.acts { a.go href="/runs/bring-in" { (message::web_results::BringIn.text()) } } }.into());
    }
    let [waters, low] = beside;
    pieces.push(behind(&newest(&all)).into());
    pieces.extend(words::pieces(waters.into_iter().map(as_columns)));
    if !low.is_empty() {
        pieces.push(html! { h2 { (said::HeldDown.text()) } }.into());
        pieces.extend(words::pieces(low));
    }
    if !all.is_empty() {
        pieces.push(html! { h2 #samples { (said::Samples { n: count(all.len()) }.text()) } }.into());
        pieces.push(listing(&all).into());
    }
    respond(&app, &who, Place::of("/water", &title).spoken(&who), &q, &pieces)
}

/// The newest sample of each well, at most so many as stand beside each other; none where there are more wells.
fn newest(all: &[Sample]) -> Vec<&Sample> {
    let mut out: Vec<&Sample> = vec![];
    for s in all.iter().filter(|s| !s.well.is_empty()) {
        if !out.iter().any(|o| o.well == s.well) {
            out.push(s);
        }
    }
    out.sort_by(|a, b| a.well.cmp(&b.well));
    if out.len() > COLUMNS { vec![] } else { out }
}

/// The way to one well's detail.
fn behind(newest: &[&Sample]) -> Markup {
    html! {
        @if !newest.is_empty() {
            nav.elements aria-label=(said::Details.text()) { ul { @for s in newest {
                li { a href=(format!("/water/{}", encoded(&s.label))) { (said::Detail { well: s.well.as_str().into(), day: words::day(&s.day).into() }.text()) } }
            } } }
        }
    }
}

fn listing(all: &[Sample]) -> Listing {
    let row = |s: &Sample| {
        vec![
            link(&format!("/water/{}", encoded(&s.label)), s.label.clone()),
            td(s.well.clone()),
            td(words::day(&s.day)),
            number(s.results.to_string()),
        ]
    };
    let shown = all.len().min(LISTED);
    Listing {
        caption: said::SamplesCaption { shown: count(shown), all: count(all.len()) }.text(),
        headings: vec![said::Sample.text(), said::Well.text(), said::Filled.text(), said::Results.text()],
        rows: all.iter().take(LISTED).map(row).collect(),
        ..Listing::default()
    }
}

/// Two chapters on the waters beside each other.
type Beside = [Vec<Block>; 2];

/// The waters beside each other, by the head of the record and the language.
static BESIDE: LazyLock<Mutex<HashMap<String, Beside>>> = LazyLock::new(Mutex::default);

fn beside(store: &Store, app: &App, newest: &[&Sample]) -> Result<Beside, HttpError> {
    if newest.is_empty() {
        return Ok(Default::default());
    }
    let head = store.head()?.map_or_else(String::new, |h| h.to_string());
    let key = format!("{head} {:?} {}", language(), app.options.store.display());
    let mut kept = crate::lock::lock(&BESIDE);
    if let Some(known) = kept.get(&key) {
        return Ok(known.clone());
    }
    let mut rows: Vec<ResultRow> = vec![];
    for s in newest {
        // All bottles of the same well and trip are one water.
        let wanted = Wanted {
            well: Some(s.well.clone()),
            trip: Some(s.trip.clone()).filter(|t| !t.is_empty()),
            ..Wanted::default()
        };
        for row in app.record.index(store, |i| i.select(&wanted, 0, MOST).rows)? {
            rows.extend(store.results(&Filter::all().is("id", row))?);
        }
    }
    let (waters, _) = pages::waters(store, &rows)?;
    let made = if waters.is_empty() { Beside::default() } else { pages::waters_beside(store, waters)? };
    kept.retain(|key, _| key.starts_with(&head));
    kept.insert(key, made.clone());
    Ok(made)
}

/// A table of a row a water as one of a column a water; other blocks as they are.
fn as_columns(block: Block) -> Block {
    let Block::Table(t) = block else { return block };
    let names = t.rows.iter().map(|row| match row.first() {
        Some(Cell::Text(name)) => name.clone(),
        _ => String::new(),
    });
    let first = t.columns.first().map_or_else(String::new, |c| c.heading.clone());
    let columns = std::iter::once(Column::words(first))
        .chain(names.map(|n| Column { align: Align::Number, ..Column::words(n) }))
        .collect();
    let of = |(n, c): (usize, &Column)| {
        let heading = if c.unit.is_empty() { c.heading.clone() } else { format!("{}, {}", c.heading, c.unit) };
        let cells = t.rows.iter().map(|row| row.get(n).cloned().unwrap_or(Cell::Missing("–".into())));
        std::iter::once(Cell::Text(begun(&heading))).chain(cells).collect()
    };
    let rows = t.columns.iter().enumerate().skip(1).map(of).collect();
    Block::Table(Table { columns, rows, ..t })
}

/// With a large first letter; pH and Eh stay as they are.
fn begun(heading: &str) -> String {
    if heading.chars().nth(1).is_some_and(char::is_uppercase) {
        return heading.into();
    }
    message::number::capital(heading)
}

/// What was worked out, by the rows that it was worked out from.
static WORKED: LazyLock<Mutex<HashMap<blake3::Hash, Option<Section>>>> = LazyLock::new(Mutex::default);

/// Results of a water read, at most.
const MOST: usize = 5000;

/// Results told under the chemistry, the newest revision of each.
const TOLD: usize = 120;

/// What the chemistry stands on: each number with its case.
fn stands_on(of: &[Listed]) -> Listing {
    let row = |r: &Listed| {
        let what = [words::substance(&r.analyte), words::isotopes(&r.isotopes)];
        vec![
            td(what.into_iter().filter(|w| !w.is_empty()).collect::<Vec<_>>().join(", ")),
            words::value(r),
            words::verdict_cell(r.verdict, r.profile.as_deref()),
            link(&format!("/results?bottle={}", encoded(&r.bottle)), r.bottle.clone()),
            td(words::fraction(&r.fraction)),
            td(r.laboratory.clone().unwrap_or_default()),
        ]
    };
    let headings = [
        said::HeadWhat.text(),
        said::HeadValue.text(),
        said::HeadVerdict.text(),
        said::Bottle.text(),
        said::Fraction.text(),
        said::Laboratory.text(),
    ];
    Listing {
        caption: said::StandsOnCaption.text(),
        headings: headings.to_vec(),
        rows: of.iter().map(row).collect(),
        foot: Some(html! { (said::OpensCase.text()) }),
        ..Listing::default()
    }
}

/// One water.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(label): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = label.clone();
    let (section, of) = page::read(&app, move |store, app| {
        let Some((section, rows)) = worked(store, app, &asked)? else { return Ok((None, vec![])) };
        Ok((section, results::listed(store, &rows[..rows.len().min(TOLD)])?))
    })
    .await?;
    let absent = || HttpError::absent(said::NoIons { label: label.as_str().into() }.text());
    let section = section.ok_or_else(absent)?;
    let title = words::printed(&section.title);
    let mut pieces: Vec<Piece> = vec![
        html! {
            h1 { (title) }
            p.under { (said::Sample.text()) " " a href=(format!("/results?bottle={}", encoded(&label))) { (label) } " · " a href="#results" { (said::StandsOn.text()) } " · " a href="/water" { (said::AllWaters.text()) } }
        }
        .into(),
    ];
    pieces.extend(words::pieces(section.blocks));
    pieces.push(html! { h2 #results { (said::StandsOn.text()) } }.into());
    pieces.push(words::or_else(stands_on(&of), &said::NoResult));
    respond(&app, &who, Place::of("/water", &title).spoken(&who), &q, &pieces)
}

/// A water worked out, and the rows that it stands on.
type Worked = (Option<Section>, Vec<i64>);

fn worked(store: &Store, app: &App, label: &str) -> Result<Option<Worked>, HttpError> {
    let found = store.bottles(&Filter::all().is("label", label))?;
    let Some(bottle) = found.first() else { return Ok(None) };
    // All bottles of the same well and trip are one water.
    let wanted = match (&bottle.trip, &bottle.well) {
        (Some(trip), Some(well)) => Wanted { trip: Some(trip.clone()), well: Some(well.clone()), ..Wanted::default() },
        _ => Wanted { bottle: Some(label.into()), ..Wanted::default() },
    };
    let rows = app.record.index(store, |i| i.select(&wanted, 0, MOST).rows)?;
    let mut results: Vec<ResultRow> = vec![];
    for row in &rows {
        results.extend(store.results(&Filter::all().is("id", *row))?);
    }
    let readings = match (bottle.trip_id, bottle.well_id) {
        (Some(t), Some(w)) => store.field_readings(&Filter::all().is("trip", t).is("well", w))?,
        _ => vec![],
    };
    let fills = match (bottle.trip_id, bottle.well_id) {
        (Some(t), Some(w)) => store.fills(&Filter::all().is("trip", t).is("well", w))?,
        _ => vec![],
    };
    let state = format!("{:?}{results:?}{readings:?}{fills:?}{bottle:?}", language());
    let key = blake3::hash(state.as_bytes());
    if let Some(known) = crate::lock::lock(&WORKED).get(&key) {
        return Ok(Some((known.clone(), rows)));
    }
    let (waters, _) = pages::waters(store, &results)?;
    let section = if waters.is_empty() { None } else { pages::water(store, waters, 0)? };
    let mut kept = crate::lock::lock(&WORKED);
    if kept.len() >= KEPT {
        kept.clear();
    }
    kept.insert(key, section.clone());
    Ok(Some((section, rows)))
}
