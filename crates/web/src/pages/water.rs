//! The chemistry of one sample: ions, saturation, redox, smell, metals. Worked out once for a state of the record, and
//! then kept: the doubt is a thousand draws.

use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, heads, link, number, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use ::document::content::Section;
use ::report::pages;
use assessment::results::{self, Listed};
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use maud::html;
use programme::index::{Index, Wanted};
use record::model::ResultRow;
use record::store::{Filter, Store};
use std::collections::{BTreeMap, HashMap};
use std::sync::{LazyLock, Mutex};

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
    let all = page::read(&app, |store, app| app.record.index(store, samples)).await?;
    let total = all.len();
    let row = |s: &Sample| {
        vec![
            link(&format!("/water/{}", encoded(&s.label)), s.label.clone()),
            td(s.well.clone()),
            td(s.trip.clone()),
            td(s.day.clone()),
            number(s.results.to_string()),
        ]
    };
    let listing = Listing {
        caption: if total > 200 {
            format!("The newest 200 of {total} samples with major ions")
        } else {
            "Samples with major ions, newest first".into()
        },
        headings: heads(&["Sample", "Well", "Trip", "Filled", "Results"]),
        rows: all.iter().take(200).map(row).collect(),
        empty: "No sample has calcium, sodium, chloride and alkalinity on record: without them the chemistry of a water cannot be worked out.",
        ..Listing::default()
    };
    let head = html! { h1 { "Water" } p { "What each water is: its ions, what it could dissolve or form, its redox couples, its smell, its metals." } };
    respond(&app, &who, Place::of("/water", "Water"), &q, &[head.into(), listing.into()])
}

/// What was worked out, by the rows that it was worked out from.
static WORKED: LazyLock<Mutex<HashMap<blake3::Hash, Option<Section>>>> = LazyLock::new(Mutex::default);

/// Results told under the chemistry, the newest revision of each.
const TOLD: usize = 120;

/// What the chemistry stands on: each number with its case.
fn stands_on(of: &[Listed]) -> Listing {
    let row = |r: &Listed| {
        vec![
            td(super::measurand(r)),
            super::value(r),
            super::judged(r),
            link(&format!("/results?bottle={}", encoded(&r.bottle)), r.bottle.clone()),
            td(r.fraction.clone()),
            td(r.laboratory.clone().unwrap_or_default()),
        ]
    };
    Listing {
        caption: "The results of this water".into(),
        headings: heads(&["What", "Value ± U", "Verdict", "Bottle", "Fraction", "Laboratory"]),
        rows: of.iter().map(row).collect(),
        empty: "No result is on record.",
        foot: Some(html! { "A value opens its case." }),
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
    let absent = || {
        HttpError::absent(format!(
            "Of \"{label}\" there are no major ions on record, so its chemistry cannot be worked out."
        ))
    };
    let section = section.ok_or_else(absent)?;
    let title = section.title.clone();
    let mut pieces: Vec<Piece> = vec![
        html! {
            h1 { (title) }
            p.under { "Sample " a href=(format!("/results?bottle={}", encoded(&label))) { (label) } " · " a href="#results" { "the results that it stands on" } }
        }
        .into(),
    ];
    pieces.extend(section.blocks.into_iter().map(Piece::from));
    pieces.push(html! { h2 #results { "What it stands on" } }.into());
    pieces.push(stands_on(&of).into());
    respond(&app, &who, Place::of("/water", &title), &q, &pieces)
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
    let rows = app.record.index(store, |i| i.select(&wanted, 0, 5000).rows)?;
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
    let state = format!("{results:?}{readings:?}{fills:?}{bottle:?}");
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
