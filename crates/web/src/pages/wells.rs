//! The wells as cards, each with its section to scale, flow, newest key metal and next visit; a well with what was measured
//! there and what follows, its values, its newest results, and the forms at the foot. Streams stand under their own heading.
//!
//! What stands on the cards is worked out once after a change of the record. Checked in `crates/web/tests/desk.rs`.

use super::check_words::{Weights, checks, measurand, of_isotopes};
use super::desk_newest::{self, Newest};
use super::trips::{entered, lies_ahead};
use super::words::fraction;
use super::{judged, value, word};
use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Fold, Listing, Piece, Query, respond, td, verdict_word};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, day, encoded};
use crate::worked::{self, well_values};
use ::document::content::Block;
use ::figure::ink;
use ::figure::number::Printed;
use ::report::pages;
use assessment::results;
use assessment::verdict::Rules;
use assessment::well_value::WellValue;
use assessment::wells::{self, WellSheet};
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use message::{Shown, Spoken, count, web_places as says};
use programme::index::{Index, Wanted};
use quantity::Amount;
use record::model::Well;
use record::store::{Filter, Store};
use std::collections::HashMap;
use std::fmt::Write as _;
use std::sync::Arc;

/// Visits told on a well's page, the newest.
const VISITS: usize = 3;

/// Results told on a well's page, the newest.
const RESULTS: usize = 30;

/// Values of a well in sight; the rest is folded.
const VALUES: usize = 12;

/// Cards in sight; the rest is folded.
const CARDS: usize = 12;

/// Coverage factor of a flow.
const K: f64 = 2.0;

/// What stands on a card beside results.
#[derive(Debug, Clone)]
struct Card {
    well: Well,
    /// How it is built, with its newest visit; none for a name without a sheet.
    sheet: Option<WellSheet>,
    /// The start of the next trip that has a bottle for it.
    next: Option<String>,
}

impl Card {
    fn flow(&self) -> Option<&Amount> {
        self.sheet.as_ref()?.visits.last()?.known.flow.as_ref()
    }
}

fn cards(store: &Store) -> Result<Vec<Card>, HttpError> {
    let at = now();
    let mut next: HashMap<i64, String> = HashMap::new();
    let mut ahead: Vec<_> = store.trips()?.into_iter().filter(|t| lies_ahead(t, &at)).collect();
    ahead.sort_by(|a, b| a.starts.cmp(&b.starts));
    for t in &ahead {
        for b in store.bottles(&Filter::all().is("trip", t.id))? {
            if let Some(well) = b.well_id {
                next.entry(well).or_insert_with(|| t.starts.clone());
            }
        }
    }
    let mut out = vec![];
    for w in store.wells()? {
        let sheet = wells::sheet(store, &w.name, 1)?;
        out.push(Card { next: next.remove(&w.id), sheet, well: w });
    }
    // Streams after wells.
    out.sort_by_key(|c| c.well.is_stream());
    Ok(out)
}

/// What the page of all wells shows.
struct All {
    cards: Arc<Vec<Card>>,
    counts: Vec<usize>,
    element: String,
    newest: HashMap<String, Newest>,
}

fn all(store: &Store, app: &App) -> Result<All, HttpError> {
    // The day belongs to the state: a trip that lay ahead yesterday does not today.
    let state = format!("{} {}", worked::head(store)?, &now()[..10]);
    let cards = worked::kept(app, "cards", state, || cards(store))?;
    let state = app.record.index(store, Index::state)?.to_string();
    let by_well = worked::kept(app, "results-of-wells", state, || app.record.index(store, results_of_wells))?;
    let counts = cards.iter().map(|c| by_well.get(&c.well.name).copied().unwrap_or(0)).collect();
    let element = desk_newest::elements(store, app)?.first().cloned().unwrap_or_default();
    let newest = if element.is_empty() { vec![] } else { desk_newest::of(store, app, &element)? };
    let newest = newest.into_iter().map(|n| (n.well.name.clone(), n)).collect();
    Ok(All { cards, counts, element, newest })
}

/// How many results each well has.
fn results_of_wells(i: &Index) -> HashMap<String, usize> {
    let mut by = vec![0; i.wells.len()];
    let wanted = Wanted::default();
    for e in i.wanted(&wanted) {
        let well = i.bottles.get(e.bottle as usize).and_then(|b| b.well);
        if let Some(n) = well.and_then(|w| by.get_mut(w as usize)) {
            *n += 1;
        }
    }
    i.wells.iter().cloned().zip(by).collect()
}

/// All wells.
pub(crate) async fn list(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let a = page::read(&app, |store, app| all(store, app)).await?;
    let every: Vec<(&Card, usize)> = a.cards.iter().zip(a.counts.iter().copied()).collect();
    let (streams, wells): (Vec<_>, Vec<_>) = every.into_iter().partition(|(c, _)| c.well.is_stream());
    let some = |all: &[(&Card, usize)]| {
        let (first, rest) = all.split_at(all.len().min(CARDS));
        html! {
            div.of-wells { @for (c, n) in first { (card(c, *n, &a)) } }
            @if !rest.is_empty() {
                details.fold { summary { (says::WellsMore { n: count(rest.len()) }.text()) }
                    ul.plain { @for (c, _) in rest { li { a href=(address(&c.well.name)) { (c.well.name) } } } }
                }
            }
        }
    };
    let body = html! {
        h1 { (says::Wells.text()) }
        @if wells.is_empty() && streams.is_empty() { p.quiet { (says::WellsNone.text()) } }
        (some(&wells))
        @if !streams.is_empty() { h2 { (says::Streams.text()) } (some(&streams)) }
        @if who.may(Role::Lead) {
            p.acts { a.go href="/enter/well" { (says::DescribeWell.text()) } " " a href="/enter/site" { (says::DescribeSite.text()) } }
        }
    };
    respond(&app, &who, Place::of("/wells", &says::Wells.text()), &q, &[body.into()])
}

/// The address of a well.
fn address(name: &str) -> String {
    format!("/wells/{}", encoded(name))
}

fn card(c: &Card, results: usize, a: &All) -> Markup {
    let name = &c.well.name;
    let flow = c.flow().map_or_else(|| says::FlowNone.text(), |q| Printed::of(q, K).with_unit());
    let site = c.well.site.as_deref().unwrap_or_default();
    html! {
        article.card {
            @if !c.well.is_stream() { (small_section(name, c.sheet.as_ref())) }
            div {
                h3 { a href=(address(name)) { (name) } }
                p.quiet { (c.well.description.as_deref().unwrap_or_default()) @if !site.is_empty() { " " (site) "." } }
                dl {
                    @if !c.well.is_stream() { div { dt { (says::Flow.text()) } dd { (flow) } } }
                    div { dt { (says::Newest.text()) @if !a.element.is_empty() { ", " (pages::element(&a.element)) } } dd { (newest(a.newest.get(name))) } }
                    div { dt { (says::NextVisit.text()) } dd { (c.next.as_deref().map_or_else(|| says::NextNone.text(), day)) } }
                }
                @if results > 0 { p { a href=(format!("/results?well={}", encoded(name))) { (says::AllResults { n: count(results) }.text()) } } }
            }
        }
    }
}

/// The newest value with its day and verdict; where bottles disagree, each.
fn newest(n: Option<&Newest>) -> Markup {
    let Some(n) = n else { return html! { (says::NewestNone.text()) } };
    html! {
        @match n.number() {
            Some(number) => { (number) }
            None => { @for (k, r) in n.rows.iter().enumerate() { @if k > 0 { "; " } (value(r).shown) } }
        }
        " " @if let Some(v) = n.verdict() { (verdict_word(word(v))) } " "
        span.quiet { (day(&n.day)) }
    }
}

/// Width and height of a small section, px.
const SMALL: (f64, f64) = (46.0, 110.0);

/// A well in the ground, small: layers as bands, casing as walls, screens broken; depth to scale, widths not.
fn small_section(name: &str, sheet: Option<&WellSheet>) -> Markup {
    let Some(c) = sheet.map(|s| &s.construction) else { return html! { p.none.quiet { (says::SectionNone.text()) } } };
    let ends = c.sections.iter().map(|s| s.to_m).chain(c.layers.iter().map(|l| l.to_m)).filter(|m| m.is_finite());
    let Some(foot) = ends.reduce(f64::max).filter(|f| *f > 0.0) else {
        return html! { p.none.quiet { (says::SectionNone.text()) } };
    };
    let (width, height) = SMALL;
    let y = |m: f64| 8.0 + (height - 12.0) * (m / foot).clamp(0.0, 1.0);
    let mut marks = String::new();
    for (n, l) in c.layers.iter().enumerate() {
        let fill = if n % 2 == 0 { ink::FORECAST } else { ink::WATER_PALE };
        let _ = write!(
            marks,
            "<rect x=\"0\" y=\"{:.1}\" width=\"{width}\" height=\"{:.1}\" fill=\"{fill}\"/>",
            y(l.from_m),
            (y(l.to_m) - y(l.from_m)).max(0.0)
        );
    }
    let _ = write!(marks, "<path d=\"M0 {0}H{width}\" stroke=\"{1}\"/>", y(0.0), ink::LINE);
    for s in &c.sections {
        let slotted = c.screens.iter().any(|x| (x.from_m - s.from_m).abs() < 1e-9 && (x.to_m - s.to_m).abs() < 1e-9);
        let dashes = if slotted { " stroke-dasharray=\"2 3\"" } else { "" };
        for x in [19.0, 27.0] {
            let _ = write!(
                marks,
                "<path d=\"M{x} {:.1}V{:.1}\" stroke=\"{}\" stroke-width=\"2\"{dashes}/>",
                y(s.from_m),
                y(s.to_m),
                ink::TEXT
            );
        }
    }
    let title = says::SectionOf { well: name.into(), found: Shown::trimmed(foot, 3, "m") }.text();
    html! {
        div.small { (PreEscaped(format!(
            "<svg role=\"img\" aria-label=\"{}\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\">{marks}</svg>",
            ::figure::escape(&title)
        ))) }
    }
}

/// One well.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = name.clone();
    let may = (who.may(Role::Lead), who.may(Role::Sampler));
    let (pieces, stream) = page::read(&app, move |store, app| one(store, app, &asked, may)).await?;
    let title = title(&name, stream);
    respond(&app, &who, Place::of("/wells", &title), &q, &pieces)
}

fn title(name: &str, stream: bool) -> String {
    if stream { says::StreamTitle { well: name.into() }.text() } else { says::WellTitle { well: name.into() }.text() }
}

/// The pieces of a well's page, and whether it is a stream.
fn one(store: &Store, app: &App, name: &str, may: (bool, bool)) -> Result<(Vec<Piece>, bool), HttpError> {
    let absent = || HttpError::absent(says::NoWell { well: name.into() }.text());
    let sheet = wells::sheet(store, name, VISITS)?.ok_or_else(absent)?;
    let stream = sheet.well.is_stream();
    let rules = Rules::new(store.check_rules()?);
    let wanted = Wanted { well: Some(name.into()), ..Wanted::default() };
    let rows = app.record.index(store, |i| i.select(&wanted, 0, RESULTS).rows)?;
    let newest = results::listed(store, &rows)?;
    let mut blocks: Vec<Block> = pages::well(&sheet, &newest, &rules);
    // What was read at its visits is folded behind the section: a page of six screens of a telephone.
    let drawn = blocks.iter().position(|b| matches!(b, Block::Figure(_))).map_or(blocks.len().min(2), |at| at + 1);
    let visits: Vec<Piece> = blocks.split_off(drawn).into_iter().map(Piece::from).collect();
    let mut pieces: Vec<Piece> = vec![head(name, stream).into()];
    pieces.extend(blocks.into_iter().map(Piece::from));
    if !visits.is_empty() {
        pieces.push(Piece::Fold(Fold { line: says::Visits.text(), id: "visits".into(), pieces: visits, open: false }));
    }
    let values = well_values(store, app, name)?;
    if !values.is_empty() {
        pieces.push(html! { h2 #values { (says::Holds.text()) } }.into());
        pieces.push(values_in_short(name, &values, &Weights::of(store)?).into());
        pieces.push(Piece::Fold(Fold {
            line: says::HoldsCaption { well: name.into() }.text(),
            id: "all-values".into(),
            pieces: vec![values_of_well(name, &values).into()],
            open: false,
        }));
    }
    let line = says::NewestCaption { well: name.into() }.text();
    pieces.push(Piece::Fold(Fold {
        line,
        id: "newest".into(),
        pieces: vec![newest_results(name, &newest).or(says::NewestEmpty.text())],
        open: false,
    }));
    pieces.push(Piece::Fold(Fold {
        line: says::Entered.text(),
        id: "entered".into(),
        pieces: record_rows(store, sheet.well.id, name)?,
        // A new well has little else to show than what was entered.
        open: sheet.visits.is_empty(),
    }));
    pieces.push(acts(name, may).into());
    Ok((pieces, stream))
}

fn head(name: &str, stream: bool) -> Markup {
    let e = encoded(name);
    html! {
        h1 { (title(name, stream)) }
        p.acts {
            a href="#newest" { (says::ToNewest.text()) } " "
            a href=(format!("/results?well={e}")) { (says::ToAll.text()) } " "
            a href=(format!("/time?well={e}")) { (says::ToTime.text()) }
            @if !stream { " " a href=(format!("/wells/{e}/age")) { (message::well_age::HowOld.text()) } }
        }
    }
}

/// The forms, at the foot.
fn acts(name: &str, (lead, sampler): (bool, bool)) -> Markup {
    let e = encoded(name);
    let to = encoded(&address(name));
    html! {
        @if lead || sampler { h2 { (says::Acts.text()) } }
        p.acts {
            @if lead {
                a href=(format!("/enter/well_section?well={e}&to={to}")) { (says::AddSection.text()) } " "
                a href=(format!("/enter/layer?well={e}&to={to}")) { (says::AddLayer.text()) } " "
            }
            @if sampler {
                a href=(format!("/enter/field_reading?well={e}&to={to}")) { (says::AddReadings.text()) } " "
                a href=(format!("/enter/fill?well={e}&to={to}")) { (says::AddFills.text()) }
            }
        }
    }
}

/// The values as cards: element, value, verdict with its reason, day; what is longer stands in the table behind them.
fn values_in_short(name: &str, values: &[WellValue], weights: &Weights) -> Markup {
    let to = |w: &WellValue| format!("/results?well={}&analyte={}", encoded(name), encoded(&w.analyte));
    let one = |w: &WellValue| {
        html! {
            article.value {
                p { strong { (message::number::capital(&of_isotopes(&w.analyte, &w.isotopes))) } " " a href=(to(w)) { (w.number()) } }
                p { @if let Some(v) = w.verdict { (verdict_word(word(v))) " " } span.quiet { (day(&w.water.day)) } }
                @if let Some(v) = w.verdict.filter(|_| !w.reasons.is_empty()) {
                    p.quiet { (w.reasons.iter().map(|c| weights.held(c, v)).collect::<Vec<_>>().join(". ")) "." }
                }
            }
        }
    };
    let (first, rest) = values.split_at(values.len().min(VALUES));
    html! {
        div.of-substances { @for w in first { (one(w)) } }
        @if !rest.is_empty() {
            details.fold { summary { (says::WellsMore { n: count(rest.len()) }.text()) } div.of-substances { @for w in rest { (one(w)) } } }
        }
    }
}

/// One value a day, element and fraction, from the bottles that agree.
pub(crate) fn values_of_well(name: &str, values: &[WellValue]) -> Listing {
    let row = |w: &WellValue| {
        let labels = w.bottles.iter().map(|p| p.bottle.as_str()).collect::<Vec<_>>().join(", ");
        let noted = w.bottles.iter().chain(&w.left_out);
        let notes = noted.filter_map(|p| {
            let note = p.note.as_deref()?;
            Some(says::Note { what: p.bottle.as_str().into(), found: note.into() }.text())
        });
        vec![
            td(of_isotopes(&w.analyte, &w.isotopes)),
            td(w.number()),
            super::verdict(w.verdict.map(word)),
            td(day(&w.water.day)),
            td(fraction(&w.water.fraction)),
            td(labels),
            td(w.number_with_all_back().unwrap_or_default()),
            td(checks(&w.reasons)),
            td(notes.collect::<Vec<_>>().join("; ")),
        ]
    };
    Listing {
        caption: says::HoldsCaption { well: name.into() }.text(),
        headings: vec![
            says::What.text(),
            says::Value.text(),
            says::Verdict.text(),
            says::Day.text(),
            says::Fraction.text(),
            says::Bottles.text(),
            says::PutBack.text(),
            says::Because.text(),
            says::Notes.text(),
        ],
        rows: values.iter().map(row).collect(),
        foot: Some(html! { (says::HoldsFoot.text()) }),
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
            td(day(r.filled_at.as_deref().unwrap_or_default())),
            td(fraction(&r.fraction)),
        ]
    };
    Listing {
        caption: says::NewestCaption { well: name.into() }.text(),
        headings: vec![
            says::What.text(),
            says::Value.text(),
            says::Verdict.text(),
            says::Bottle.text(),
            says::Filled.text(),
            says::Fraction.text(),
        ],
        rows: newest.iter().map(row).collect(),
        ..Listing::default()
    }
}

/// What was entered of the well, each row open to correction.
fn record_rows(store: &Store, well: i64, name: &str) -> Result<Vec<Piece>, HttpError> {
    let to = address(name);
    let of = |table: &'static str, filter: Filter<'static>| entered(store, table, &filter, &to);
    Ok(vec![
        of("well", Filter::all().is("id", well))?,
        of("well_section", Filter::all().is("well", well))?,
        of("layer", Filter::all().is("well", well))?,
    ])
}
