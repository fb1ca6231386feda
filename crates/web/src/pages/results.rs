//! All results: filters, verdicts, pages; each opens its case.

use super::{judged, measurand, value};
use crate::app::Shared;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, csv_file, heads, link, listing_csv, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use crate::worked::well_values;
use assessment::results::{self, Listed};
use assessment::well_value::WellValue;
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use programme::index::{Index, Selected, Wanted};
use record::model::VerdictWord;
use std::sync::Arc;

/// Results on a page.
const PER_PAGE: usize = 50;

/// Results in one CSV file, at most.
const IN_CSV: usize = 20_000;

/// What an address asks for.
pub(crate) fn wanted(q: &Query) -> Wanted {
    let text = |name: &str| q.get(name).map(|v| v.trim()).filter(|v| !v.is_empty()).map(str::to_string);
    Wanted {
        well: text("well"),
        trip: text("trip"),
        analyte: text("analyte"),
        fraction: text("fraction"),
        bottle: text("bottle"),
        verdict: text("verdict").and_then(|v| VerdictWord::from_word(&v)),
        evidence: q.get("of").is_some_and(|o| o == "evidence"),
    }
}

/// The address of these results.
fn address(w: &Wanted, more: &[(&str, String)]) -> String {
    let mut out = String::from("/results?");
    let own = [
        ("well", w.well.clone()),
        ("trip", w.trip.clone()),
        ("analyte", w.analyte.clone()),
        ("fraction", w.fraction.clone()),
        ("bottle", w.bottle.clone()),
        ("verdict", w.verdict.map(|v| v.word().to_string())),
        ("of", w.evidence.then(|| "evidence".to_string())),
    ];
    let own = own.into_iter().filter_map(|(n, v)| Some((n, v?)));
    for (n, v) in own.chain(more.iter().map(|(n, v)| (*n, v.clone()))) {
        if !out.ends_with('?') {
            out.push('&');
        }
        out += &format!("{n}={}", encoded(&v));
    }
    out
}

struct Choices {
    wells: Vec<String>,
    trips: Vec<String>,
    analytes: Vec<String>,
}

fn choices(index: &Index) -> Choices {
    let mut trips = index.trips.clone();
    trips.reverse();
    Choices { wells: index.wells.clone(), trips, analytes: index.analytes().into_iter().map(str::to_string).collect() }
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let wanted = wanted(&q);
    let number = q.get("page").and_then(|p| p.parse::<usize>().ok()).unwrap_or(1).max(1);
    let whole = q.contains_key("csv");
    let asked = wanted.clone();
    // Blanks have no well's value.
    let asked_well = wanted.well.clone().filter(|_| !wanted.evidence);
    let (found, choices, rows, values) = page::read(&app, move |store, app| {
        let (page, per) = if whole { (0, IN_CSV) } else { (number - 1, PER_PAGE) };
        let (found, choices) = app.record.index(store, |i| (i.select(&asked, page, per), choices(i)))?;
        let rows = results::listed(store, &found.rows)?;
        let values = match asked_well.filter(|_| !whole) {
            Some(well) => well_values(store, app, &well)?,
            None => Arc::default(),
        };
        Ok((found, choices, rows, values))
    })
    .await?;
    let listing = listing(&rows, &found, &wanted, number);
    if whole {
        return Ok(csv_file("results", listing_csv(&listing)?));
    }
    let mut pieces: Vec<Piece> =
        vec![html! { h1 { "Results" } (filters(&wanted, &choices)) (counts(&wanted, &found)) }.into()];
    if let (Some(well), false) = (&wanted.well, values.is_empty()) {
        let of_analyte = |w: &WellValue| wanted.analyte.as_ref().is_none_or(|a| *a == w.analyte);
        let values: Vec<WellValue> = values.iter().filter(|w| of_analyte(w)).cloned().collect();
        pieces.push(super::wells::values_of_well(well, &values).into());
    }
    pieces.extend([Piece::from(listing), pages(&wanted, &found, number).into()]);
    respond(&app, &who, Place::of("/results", "Results"), &q, &pieces)
}

fn filters(w: &Wanted, c: &Choices) -> Markup {
    let select = |name: &str, label: &str, all: &[String], now: Option<&str>| {
        html! {
            div.field {
                label for=(name) { (label) }
                select #(name) name=(name) {
                    option value="" { "all" }
                    @for v in all { option value=(v) selected[now == Some(v)] { (v) } }
                }
            }
        }
    };
    let verdicts: Vec<String> = VerdictWord::ALL.iter().map(|v| v.word().to_string()).collect();
    html! {
        form.filters method="get" action="/results" role="search" aria-label="Which results" {
            (select("well", "Well", &c.wells, w.well.as_deref()))
            (select("analyte", "Analyte", &c.analytes, w.analyte.as_deref()))
            @if c.trips.len() <= 60 { (select("trip", "Trip", &c.trips, w.trip.as_deref())) }
            @else { div.field { label for="trip" { "Trip" } input #trip name="trip" value=(w.trip.clone().unwrap_or_default()); } }
            (select("verdict", "Verdict", &verdicts, w.verdict.map(VerdictWord::word)))
            div.field {
                label for="of" { "Of" }
                select #of name="of" {
                    option value="" { "the water" }
                    option value="evidence" selected[w.evidence] { "blanks and other evidence" }
                }
            }
            button type="submit" { "Show" }
        }
    }
}

fn counts(w: &Wanted, found: &Selected) -> Markup {
    let [accepted, provisional, rejected] = found.verdicts;
    html! {
        @if !w.evidence {
            p { @for (n, v) in [(accepted, VerdictWord::Accepted), (provisional, VerdictWord::Provisional), (rejected, VerdictWord::Rejected)] {
                a.count href=(address(&Wanted { verdict: Some(v), ..w.clone() }, &[])) { (n) " " (crate::blocks::verdict_word(super::word(v))) } " "
            } }
        }
    }
}

fn listing(rows: &[Listed], found: &Selected, w: &Wanted, number: usize) -> Listing {
    let line = |r: &Listed| {
        vec![
            link(&page::case_address(&r.result), r.bottle.clone()),
            td(measurand(r)),
            value(r),
            judged(r),
            td(r.well.clone().unwrap_or_default()),
            td(r.filled_at.as_deref().unwrap_or_default().chars().take(10).collect::<String>()),
            td(r.fraction.clone()),
            td(r.water_share.map_or_else(String::new, |s| s.said())),
            td(r.reasons.join(", ")),
        ]
    };
    let first = (number - 1) * PER_PAGE + 1;
    let caption = if found.total == 0 {
        String::new()
    } else {
        format!("{first} to {} of {} results, newest sampling first", first + rows.len() - 1, found.total)
    };
    Listing {
        caption,
        headings: heads(&[
            "Bottle",
            "What",
            "Value ± U",
            "Verdict",
            "Well",
            "Filled",
            "Fraction",
            "Left by the blanks",
            "Because of",
        ]),
        rows: rows.iter().map(line).collect(),
        empty: "No result fits. Results come with a run or a laboratory's table: see Runs.",
        foot: Some(
            html! { "± is the expanded uncertainty (95 %); < is an upper bound, not a value; † the source states no uncertainty." },
        ),
        all: Some(address(w, &[("csv", "1".into())])),
    }
}

fn pages(w: &Wanted, found: &Selected, number: usize) -> Markup {
    let last = found.total.div_ceil(PER_PAGE).max(1);
    html! {
        @if last > 1 {
            nav.pages aria-label="Pages" {
                @if number > 1 { a rel="prev" href=(address(w, &[("page", (number - 1).to_string())])) { "Newer" } }
                span { "Page " (number) " of " (last) }
                @if number < last { a rel="next" href=(address(w, &[("page", (number + 1).to_string())])) { "Older" } }
            }
        }
    }
}
