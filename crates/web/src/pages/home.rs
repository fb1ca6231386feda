//! What waits: results of each well's newest sampling that lie above a limit; bottles on the way with their holding
//! times, runs to bring in, results that are provisional and why; and the last word on each well. On an empty programme:
//! the first steps, with the one that is next.

use super::{judged, measurand, value};
use crate::app::{App, Shared, now};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, heads, link, number, respond, td, verdict};
use crate::forms::token_field;
use crate::http_error::HttpError;
use crate::page::{self, Place, case_address, encoded};
use crate::worked;
use assessment::holding::{self, Clock};
use assessment::results::{self, Listed};
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use programme::first_steps::{Step, Todo};
use programme::index::{Entry, Index, Wanted};
use programme::limits_of::{Asked, Row, against_of, exceedances, may_exceed};
use record::model::{Bottle, BottleKind, VerdictWord};
use record::store::{Filter, Store};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Bottles shown; the rest is counted.
const SHOWN: usize = 12;

/// What the page shows.
struct Waiting {
    empty: Empty,
    /// The way in.
    steps: Vec<Step>,
    /// Results of each well's newest day above a limit, the most serious first.
    exceeding: Arc<Vec<Row>>,
    /// Bottles without a result, the most pressing first: bottle, where it is, its first clock.
    bottles: Vec<(Bottle, String, Option<Clock>)>,
    more: usize,
    /// Provisional results by the checks that hold them.
    provisional: Vec<(String, usize)>,
    provisional_total: usize,
    wells: Vec<(String, Vec<Listed>, [usize; 3])>,
    /// Why results may read otherwise when derived anew; none where they would not.
    stale: Option<String>,
}

/// What there is of a thing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum There {
    None,
    Some,
}

impl There {
    fn is(empty: bool) -> Self {
        if empty { Self::None } else { Self::Some }
    }
}

/// What there is nothing of yet: wells, bottles, results.
type Empty = [There; 3];

const WELLS: usize = 0;
const BOTTLES: usize = 1;
const RESULTS: usize = 2;

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let w = page::read(&app, |store, app| waiting(store, app)).await?;
    let mut pieces: Vec<Piece> = vec![html! { h1 { "What waits" } (at_work(&app)) }.into()];
    let lacks = |n: usize| w.empty[n] == There::None;
    if !lacks(WELLS) {
        pieces.push(html! { p.acts { a href="/plan" { "Plan the next trip" } " " a href="/lots" { "Lots: may each go out?" } " "
            @if w.steps.iter().any(|s| !s.done && s.todo == Todo::Sign) && !lacks(RESULTS) { a href="/results" { (page::said(&who, Todo::Sign.message())) } " " }
            @if !lacks(RESULTS) { a href="/attribution" { "Whose metal it is" } " " a href="/report" { "Make a report" } } } }.into());
    }
    if !w.exceeding.is_empty() {
        pieces.push(html! { h2 { "Above a limit" } }.into());
        pieces.push(exceeding(&w.exceeding).into());
    }
    if w.steps.iter().any(|s| !s.done && s.todo != Todo::Sign) {
        pieces.push(super::start::steps(&who, &w.steps).into());
    }
    if let (Some(words), true) = (&w.stale, who.may(Role::Analyst) && !lacks(RESULTS)) {
        pieces.push(stale(&app, &who, words).into());
    }
    if !lacks(BOTTLES) {
        pieces.push(html! { h2 { "Bottles without a result" } }.into());
        pieces.push(bottles(&w).into());
    }
    if !lacks(RESULTS) {
        pieces.push(html! { h2 { "Provisional results, and what holds them" } }.into());
        pieces.push(provisional(&w).into());
        pieces.push(html! { h2 { "The last word on each well" } }.into());
        pieces.push(wells(&w).into());
    }
    respond(&app, &who, Place::of("/", "What waits"), &q, &pieces)
}

fn waiting(store: &Store, app: &App) -> Result<Waiting, HttpError> {
    let (unmeasured, wells, newest, provisional_rows) = app.record.index(store, |i| {
        let unmeasured: Vec<i64> = i.bottles.iter().filter(|b| !b.measured).map(|b| b.row).collect();
        let open = Wanted { verdict: Some(VerdictWord::Provisional), ..Wanted::default() };
        (unmeasured, last_words(i), newest_day(i), i.select(&open, 0, 100))
    })?;
    let today = now()[..10].to_string();
    let exceeding = worked::exceeding(store, app, &today, || {
        let asked = Asked { otherwise: Some(today.clone()), ..Asked::default() };
        let against = against_of(store, &results::listed(store, &may_exceed(store, &newest)?)?, &asked)?;
        Ok(exceedances(&against.rows).into_iter().cloned().collect())
    })?;
    let mut bottles = waiting_bottles(store, &unmeasured)?;
    let more = bottles.len().saturating_sub(SHOWN);
    bottles.truncate(SHOWN);
    let mut held: BTreeMap<String, usize> = BTreeMap::new();
    for r in results::listed(store, &provisional_rows.rows)? {
        for reason in r.reasons {
            *held.entry(reason).or_default() += 1;
        }
    }
    let mut provisional: Vec<_> = held.into_iter().collect();
    provisional.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
    let mut told = vec![];
    for (name, rows, counts) in wells {
        told.push((name, results::listed(store, &rows)?, counts));
    }
    Ok(Waiting {
        steps: programme::first_steps::steps(store)?,
        empty: [
            There::is(store.wells()?.is_empty()),
            There::is(store.bottles(&Filter::all().limit(1))?.is_empty()),
            There::is(app.record.index(store, Index::is_empty)?),
        ],
        exceeding,
        bottles,
        more,
        provisional,
        provisional_total: provisional_rows.total,
        wells: told,
        stale: since_derived(store)?,
    })
}

/// What was done since results were last derived and judged to the end, or that another engine did it.
fn since_derived(store: &Store) -> Result<Option<String>, HttpError> {
    let behind = assessment::engine::reach(store)?.in_words();
    Ok(behind.map(|b| format!("{}. What stands on it may read otherwise.", quantity::format::capital(&b))))
}

/// Results looked at for what lies above a limit.
// A page is read often: some thousand rows are what it can read anew each time.
const LOOKED_AT: usize = 2000;

/// The results of each well's newest day, the newest wells first.
fn newest_day(i: &Index) -> Vec<i64> {
    let mut days: Vec<Option<&str>> = vec![None; i.wells.len()];
    let of_newest = |e: &&Entry| {
        let bottle = &i.bottles[e.bottle as usize];
        let Some(day) = bottle.well.and_then(|w| days.get_mut(w as usize)) else { return false };
        let newest = *day.get_or_insert(bottle.day.as_str()) == bottle.day;
        newest && e.verdict.is_some_and(|v| v != VerdictWord::Rejected)
    };
    i.wanted(&Wanted::default()).filter(of_newest).map(|e| e.row).take(LOOKED_AT).collect()
}

/// For each well the newest day's lead, else its first analytes, and the verdicts of that day.
fn last_words(i: &Index) -> Vec<(String, Vec<i64>, [usize; 3])> {
    let key = if i.analytes().contains(&"Pb") { Some("Pb".to_string()) } else { None };
    // One pass, newest first: of each well the entries of its newest day.
    let mut out: Vec<(String, Vec<i64>, [usize; 3])> = i.wells.iter().map(|w| (w.clone(), vec![], [0; 3])).collect();
    let mut days: Vec<Option<&str>> = vec![None; out.len()];
    for e in i.wanted(&Wanted::default()) {
        let bottle = &i.bottles[e.bottle as usize];
        let Some(well) = bottle.well.map(|w| w as usize).filter(|w| *w < out.len()) else { continue };
        if *days[well].get_or_insert(bottle.day.as_str()) != bottle.day {
            continue;
        }
        let (_, rows, counts) = &mut out[well];
        if let Some(v) = e.verdict {
            counts[v as usize] += 1;
        }
        let analyte = &i.measurands[e.measurand as usize].analyte;
        if rows.len() < 3 && key.as_ref().is_none_or(|k| k == analyte) {
            rows.push(e.row);
        }
    }
    out.into_iter().zip(days).filter(|(_, day)| day.is_some()).map(|(w, _)| w).collect()
}

/// Bottles that nothing was measured in and that stand in no run; the most pressing first.
fn waiting_bottles(store: &Store, unmeasured: &[i64]) -> Result<Vec<(Bottle, String, Option<Clock>)>, HttpError> {
    let now = now();
    let vials = programme::index::in_runs(store)?;
    let mut all = vec![];
    for row in unmeasured.iter().filter(|b| !vials.contains(b)) {
        all.extend(store.bottles(&Filter::all().is("id", *row))?);
    }
    all.retain(|b| b.kind != BottleKind::ReferenceMaterial);
    let steps = if all.is_empty() { vec![] } else { store.custody(&Filter::all())? };
    let mut out: Vec<_> = all
        .into_iter()
        .map(|b| {
            let own = |c: &&record::model::Custody| match c.bottle_id {
                Some(id) => id == b.id,
                None => c.trip_id.is_some() && c.trip_id == b.trip_id,
            };
            let last = steps.iter().filter(own).max_by(|a, c| a.at.cmp(&c.at));
            let place = last.map_or("no step of custody".to_string(), |c| {
                let at = c.place.as_ref().map_or(String::new(), |p| format!(", {p}"));
                format!("{} {}{at}", c.step, page::moment(&c.at))
            });
            let clock = holding::clocks(&b, now.trim_end_matches('Z')).into_iter().next();
            (b, place, clock)
        })
        .collect();
    let left = |c: &Option<Clock>| c.as_ref().map_or(f64::INFINITY, |c| c.hours_left);
    out.sort_by(|a, b| left(&a.2).total_cmp(&left(&b.2)));
    Ok(out)
}

fn exceeding(rows: &[Row]) -> Listing {
    let row = |r: &Row| {
        let (c, l) = (&r.comparison, &r.comparison.limit);
        let n = |x: f64| quantity::format::significant_trimmed(x, 3);
        let limit = l.low.map_or_else(|| n(l.high), |low| format!("{} – {}", n(low), n(l.high)));
        let mark = if l.provenance == "recalled" { " *" } else { "" };
        let well = r.well.clone().unwrap_or_default();
        vec![
            link(&format!("/wells/{}", encoded(&well)), well.clone()),
            td(::report::pages::element(&r.analyte)),
            link(&case_address(&r.result), c.amount.in_words()),
            td(format!("{limit} {}", l.unit)),
            td(format!("{}, {}{mark}", l.authority, l.kind)),
            td(l.terms.concern.message().in_english()),
            td(c.answer_message().in_english()),
            verdict(r.verdict.map(super::word)),
        ]
    };
    Listing {
        caption: "Results of the newest sampling of each well that lie above a limit of their day, health first".into(),
        headings: heads(&["Well", "What", "Result", "Limit", "Whose, kind", "Set for", "The result is", "Verdict"]),
        rows: rows.iter().take(SHOWN).map(row).collect(),
        foot: Some(html! {
            @if rows.len() > SHOWN { "and " (rows.len() - SHOWN) " more. " }
            "* recalled: still to be compared with its document. What it means for the use of the water the local health authority says."
        }),
        ..Listing::default()
    }
}

fn at_work(app: &App) -> Markup {
    html! { @for (id, title) in app.jobs.running() { p.caution { "At work: " a href=(format!("/jobs/{id}")) { (title) } } } }
}

fn stale(app: &App, who: &Who, words: &str) -> Markup {
    html! {
        form.caution method="post" action="/recompute" {
            (token_field(app, who))
            p { (words) " " button type="submit" { "Derive anew" } }
        }
    }
}

fn bottles(w: &Waiting) -> Listing {
    let row = |(b, place, clock): &(Bottle, String, Option<Clock>)| {
        let (of, left, from) = match clock {
            Some(c) => (c.of.analytes.clone(), c.in_words(), format!("{}, {}", c.of.longest, c.of.provenance)),
            None => ("not known".into(), "no time of filling".into(), String::new()),
        };
        let mut left_cell = td(left);
        if clock.as_ref().is_some_and(|c| c.hours_left < 0.0) {
            left_cell.shown = html! { span.state.not { span aria-hidden="true" { "✗" } " " (left_cell.words) } };
        }
        vec![
            td(b.label.clone()),
            td(b.kind.word().replace('-', " ")),
            match &b.trip {
                Some(t) => link(&format!("/trips/{}", encoded(t)), t.clone()),
                None => td(""),
            },
            td(place.clone()),
            td(of),
            left_cell,
            td(from),
        ]
    };
    Listing {
        caption: "Holding times counted from the sampling, by how each bottle was preserved".into(),
        headings: heads(&[
            "Bottle",
            "Kind",
            "Trip",
            "Where it is",
            "First clock",
            "Left",
            "Longest time (US 40 CFR 136 Table II)",
        ]),
        rows: w.bottles.iter().map(row).collect(),
        empty: "Every bottle has a result, or stands in a run.",
        foot: (w.more > 0).then(|| html! { "and " (w.more) " more bottles." }),
        ..Listing::default()
    }
}

fn provisional(w: &Waiting) -> Listing {
    Listing {
        caption: format!("{} results are provisional", w.provisional_total),
        headings: heads(&["Check that holds them", "Results held"]),
        rows: w
            .provisional
            .iter()
            .map(|(check, n)| vec![link("/results?verdict=provisional", check.clone()), number(n.to_string())])
            .collect(),
        empty: "No result is provisional.",
        foot: (w.provisional_total > 100).then(|| html! { "Reasons of the newest 100." }),
        ..Listing::default()
    }
}

fn wells(w: &Waiting) -> Listing {
    let mut rows = vec![];
    for (name, newest, [a, p, r]) in &w.wells {
        let here = format!("/wells/{}", encoded(name));
        for (n, x) in newest.iter().enumerate() {
            rows.push(vec![
                if n == 0 { link(&here, name.clone()) } else { td("") },
                td(measurand(x)),
                value(x),
                judged(x),
                td(x.bottle.clone()),
                td(x.filled_at.as_deref().unwrap_or_default().chars().take(10).collect::<String>()),
                if n == 0 { td(format!("{a} accepted, {p} provisional, {r} rejected")) } else { td("") },
            ]);
        }
    }
    Listing {
        caption: "The newest sampling of each well".into(),
        headings: heads(&["Well", "What", "Value ± U", "Verdict", "Bottle", "Filled", "All of that day"]),
        rows,
        empty: "No well has a result yet.",
        ..Listing::default()
    }
}
