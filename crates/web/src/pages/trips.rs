//! The trips, each with where it stands: planned, on the way, in the run, done; and one of them: the day in a paragraph, then
//! readings against their criteria, air and its class, bottles with their exposures, the journey, each behind a link that
//! works without script; lots and acids. Checked in `crates/web/tests/desk.rs`.

use super::words::{fraction, kind};
use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{
    Fold, Listing, Piece, Query, body, findings, link, number, outcome_text, outcome_word, respond, td,
};
use crate::forms::Done;
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, encoded, moment};
use crate::pages::case::Said;
use crate::pages::field;
use crate::pages::tables::{is_asked, label};
use ::figure::number::Printed;
use assessment::field_checks::{FieldChecks, WellOnTrip};
use assessment::verdict::Rules;
use axum::extract::{Path, Query as FromQuery};
use axum::response::Response;
use maud::{Markup, html};
use message::{Message, Shown, Spoken, count, web_places as says};
use quantity::{Finding, Outcome};
use record::model::{Bottle, BottleKind, Trip};
use record::schema;
use record::store::{Filter, Store};
use std::collections::HashMap;

/// Trips on the list, the newest.
const LISTED: usize = 100;

/// Trips in sight; the rest of the list is folded.
const SHOWN: usize = 20;

/// Where a trip stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    /// It lies ahead.
    Planned,
    /// Nothing was taken that is on record.
    Nothing,
    /// Bottles were taken, and nothing is measured.
    OnTheWay,
    /// Some bottles are measured, or stand in a run.
    InTheRun,
    /// Every bottle has a result.
    Done,
}

impl State {
    fn word(self) -> String {
        match self {
            Self::Planned => says::Planned.text(),
            Self::Nothing => says::NothingTaken.text(),
            Self::OnTheWay => says::OnTheWay.text(),
            Self::InTheRun => says::InTheRun.text(),
            Self::Done => says::Done.text(),
        }
    }
}

/// Whether a trip begins after a moment: it is planned, and nothing of it is late.
pub(crate) fn lies_ahead(t: &Trip, now: &str) -> bool {
    let length = t.starts.len().min(now.len());
    t.starts.as_str() > &now[..length]
}

/// Bottles of a trip: all, with a result, in a run.
#[derive(Debug, Clone, Copy, Default)]
struct Counted {
    all: usize,
    measured: usize,
    in_run: usize,
}

fn state(t: &Trip, of: Counted, now: &str) -> State {
    match of {
        _ if lies_ahead(t, now) => State::Planned,
        Counted { all: 0, .. } => State::Nothing,
        Counted { all, measured, .. } if measured == all => State::Done,
        Counted { measured: 0, in_run: 0, .. } => State::OnTheWay,
        _ => State::InTheRun,
    }
}

/// Bottles of each trip, by its name. Reference materials are of no trip's own.
fn counted(store: &Store, app: &App) -> Result<HashMap<String, Counted>, HttpError> {
    let in_run = programme::index::in_runs(store)?;
    app.record.index(store, |i| {
        let mut out: HashMap<String, Counted> = HashMap::new();
        for b in i.bottles.iter().filter(|b| b.kind != BottleKind::ReferenceMaterial) {
            let Some(trip) = b.trip.and_then(|t| i.trips.get(t as usize)) else { continue };
            let of = out.entry(trip.clone()).or_default();
            of.all += 1;
            of.measured += usize::from(b.measured);
            of.in_run += usize::from(in_run.contains(&b.row));
        }
        out
    })
}

/// All trips.
pub(crate) async fn list(
    axum::extract::State(app): axum::extract::State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let pieces = page::read(&app, |store, app| {
        let mut trips = store.trips()?;
        trips.sort_by(|a, b| b.starts.cmp(&a.starts));
        let total = trips.len();
        trips.truncate(LISTED);
        let (of, at) = (counted(store, app)?, now());
        let row = |t: &Trip| {
            let n = of.get(&t.name).copied().unwrap_or_default();
            vec![
                link(&address(&t.name), t.name.clone()),
                td(state(t, n, &at).word()),
                td(moment(&t.starts)),
                td(t.question.clone().unwrap_or_default()),
                td(t.persons.clone().unwrap_or_default()),
                link(&format!("{}?show=bottles", address(&t.name)), n.all.to_string()),
            ]
        };
        let listing = |trips: &[Trip]| Listing {
            caption: if total > LISTED {
                says::TripsNewest { n: count(LISTED), found: count(total) }.text()
            } else {
                says::TripsCaption { n: count(total) }.text()
            },
            headings: vec![
                says::Trip.text(),
                says::State.text(),
                says::Start.text(),
                says::Question.text(),
                says::Persons.text(),
                says::Bottles.text(),
            ],
            rows: trips.iter().map(row).collect(),
            ..Listing::default()
        };
        let (first, rest) = trips.split_at(trips.len().min(SHOWN));
        let mut out: Vec<Piece> = vec![listing(first).or(says::TripsNone.text())];
        if !rest.is_empty() {
            let line = says::WellsMore { n: count(rest.len()) }.text();
            out.push(Piece::Fold(Fold { line, id: "earlier".into(), pieces: vec![listing(rest).into()], open: false }));
        }
        for table in ["lot", "acid", "filter"] {
            let pieces = vec![entered(store, table, &Filter::all(), "/trips")?];
            out.push(Piece::Fold(Fold { line: lots_of(table), id: table.into(), pieces, open: false }));
        }
        Ok(out)
    })
    .await?;
    let head = html! {
        h1 { (says::Trips.text()) }
        p.acts { a.go href="/plan" { (says::Plan.text()) } }
        @if who.may(Role::Sampler) {
            p.acts {
                a href="/enter/trip" { (says::EnterTrip.text()) } " "
                a href="/enter/lot?to=%2Ftrips" { (says::EnterLot.text()) } " " a href="/enter/acid?to=%2Ftrips" { (says::EnterAcid.text()) } " "
                a href="/enter/filter?to=%2Ftrips" { (says::EnterFilter.text()) } " " a href="/enter/person?to=%2Ftrips" { (says::EnterPerson.text()) }
            }
        }
    };
    let pieces: Vec<Piece> = std::iter::once(head.into()).chain(pieces).collect();
    respond(&app, &who, Place::of("/trips", &says::Trips.text()), &q, &pieces)
}

fn lots_of(table: &str) -> String {
    match table {
        "acid" => says::Acids.text(),
        "filter" => says::Filters.text(),
        _ => says::Lots.text(),
    }
}

/// The address of a trip.
pub(crate) fn address(name: &str) -> String {
    format!("/trips/{}", encoded(name))
}

/// The parts of a trip's page, each a link that works without script.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Tab {
    Readings,
    Air,
    Bottles,
    Journey,
}

impl Tab {
    const ALL: [Self; 4] = [Self::Readings, Self::Air, Self::Bottles, Self::Journey];

    /// As the address says it.
    fn code(self) -> &'static str {
        match self {
            Self::Readings => "readings",
            Self::Air => "air",
            Self::Bottles => "bottles",
            Self::Journey => "journey",
        }
    }

    fn word(self) -> String {
        match self {
            Self::Readings => says::Readings.text(),
            Self::Air => says::Air.text(),
            Self::Bottles => says::Bottles.text(),
            Self::Journey => says::Journey.text(),
        }
    }

    /// What an address asks for.
    fn asked(q: &Query) -> Option<Self> {
        let code = q.get("show")?;
        Self::ALL.into_iter().find(|t| t.code() == code)
    }

    /// What is shown first where the address names none: the readings; the bottles as long as nothing was read.
    fn first(store: &Store, t: &Trip) -> Result<Self, HttpError> {
        let on_trip = Filter::all().is("trip", t.id).limit(1);
        let read = !store.field_readings(&on_trip)?.is_empty() || !store.fills(&on_trip)?.is_empty();
        Ok(if read { Self::Readings } else { Self::Bottles })
    }
}

/// One trip.
pub(crate) async fn show(
    axum::extract::State(app): axum::extract::State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let pieces = page_of(&app, &who, &name, Tab::asked(&q), None).await?;
    respond(&app, &who, Place::of("/trips", &title(&name)), &q, &pieces)
}

fn title(name: &str) -> String {
    says::TripTitle { trip: name.into() }.text()
}

/// The trip once more, with what was typed in one of its forms.
pub(crate) async fn again(app: &Shared, who: &Who, name: &str, said: &Said<'_>) -> Result<Done, HttpError> {
    let who = &Who { here: address(name), ..who.clone() };
    let pieces = page_of(app, who, name, None, Some(said)).await?;
    Ok(Done::Again(body(app, who, Place::of("/trips", &title(name)), &pieces)))
}

async fn page_of(
    app: &Shared,
    who: &Who,
    name: &str,
    tab: Option<Tab>,
    said: Option<&Said<'_>>,
) -> Result<Vec<Piece>, HttpError> {
    let asked = name.to_string();
    let may = who.may(Role::Sampler);
    let (mut pieces, differ) = page::read(app, move |store, app| {
        let absent = || HttpError::absent(says::NoTrip { trip: asked.as_str().into() }.text());
        let found = store.list::<Trip>(&Filter::all().is("name", asked.as_str()))?;
        let trip = found.into_iter().next().ok_or_else(absent)?;
        let tab = match tab {
            Some(tab) => tab,
            None => Tab::first(store, &trip)?,
        };
        Ok((one(store, app, &trip, tab, may)?, intake::field::conflicts(store, Some(&trip.name))?))
    })
    .await?;
    pieces.insert(1, field::links(name).into());
    if !differ.is_empty() {
        pieces.insert(2, field::conflicts(app, who, name, &differ, said).into());
    }
    Ok(pieces)
}

fn one(store: &Store, app: &App, t: &Trip, tab: Tab, may: bool) -> Result<Vec<Piece>, HttpError> {
    let on_trip = Filter::all().is("trip", t.id);
    let here = format!("{}?show={}", address(&t.name), tab.code());
    let of = counted(store, app)?.get(&t.name).copied().unwrap_or_default();
    let mut out: Vec<Piece> = vec![head(t, of, may).into(), tabs(t, tab).into()];
    let folded = |out: &mut Vec<Piece>, tables: &[&'static str]| -> Result<(), HttpError> {
        let mut pieces: Vec<Piece> = vec![];
        for table in tables.iter().copied() {
            pieces.push(entered(store, table, &on_trip, &here)?);
        }
        out.push(Piece::Fold(Fold { line: says::Entered.text(), id: "entered".into(), pieces, open: false }));
        Ok(())
    };
    match tab {
        Tab::Bottles => out.push(bottle_list(&store.bottles(&on_trip)?, &here, may).into()),
        Tab::Readings => {
            let rules = Rules::new(store.check_rules()?);
            readings(store, &FieldChecks::of(store, t.id, &rules)?, &mut out)?;
            folded(&mut out, &["field_reading", "fill"])?;
        }
        Tab::Air => {
            let rules = Rules::new(store.check_rules()?);
            let evidence = FieldChecks::of(store, t.id, &rules)?;
            out.push(html! { h2 { (says::AirTitle.text()) } }.into());
            out.push(air(&store.bottles(&on_trip)?, &evidence, &rules).into());
            folded(&mut out, &["air_count"])?;
        }
        Tab::Journey => {
            out.push(entered(store, "custody", &on_trip, &here)?);
            let trip = entered(store, "trip", &Filter::all().is("id", t.id), &here)?;
            out.push(Piece::Fold(Fold {
                line: says::Entered.text(),
                id: "entered".into(),
                pieces: vec![trip],
                open: false,
            }));
        }
    }
    Ok(out)
}

/// What was read at each well.
fn readings(store: &Store, evidence: &FieldChecks, out: &mut Vec<Piece>) -> Result<(), HttpError> {
    out.push(html! { p.caution { (says::Gas.text()) } }.into());
    let mut any = false;
    for w in store.wells()? {
        let Some(known) = evidence.well(w.id) else { continue };
        any = true;
        out.push(
            html! { h3 { a href=(format!("/wells/{}", encoded(&w.name))) { (w.name) } } p { (flow(known)) } }.into(),
        );
        let (met, open): (Vec<Finding>, Vec<Finding>) =
            known.findings.iter().cloned().partition(|f| f.outcome == Outcome::Met);
        out.push(findings(&open).into());
        // What fails is in sight; what is met is folded.
        let mut inside: Vec<Piece> = vec![];
        if known.steady.iter().any(|r| r.outcome != Outcome::Met) {
            out.push(steady(&w.name, &known.steady).into());
        } else if !known.steady.is_empty() {
            inside.push(steady(&w.name, &known.steady).into());
        }
        inside.push(findings(&met).into());
        let line = format!("{}: {} {}", w.name, met.len(), outcome_text(Outcome::Met));
        let id = format!("met-{}", ::figure::slug(&w.name));
        out.push(Piece::Fold(Fold { line, id, pieces: inside, open: false }));
    }
    if !any {
        out.push(html! { p.quiet { (says::NoReadings.text()) } }.into());
    }
    Ok(())
}

/// Flow and contact in sentences.
fn flow(known: &WellOnTrip) -> String {
    let flow = match &known.flow {
        Some(q) => says::FlowIs { found: Printed::of(q, 2.0).with_unit().into() }.text(),
        None if known.unfit.is_empty() => says::FlowUnknown { what: says::NoFlow.into() }.text(),
        None => says::FlowUnknown { what: says::FlowCannot.into() }.text(),
    };
    let contact = known.contact.iter().map(|(material, time)| {
        let found = Printed::of(time, 2.0).with_unit().into();
        let what = message::chapter::Material { material: ::figure::well::material(material) }.text().into();
        says::Contact { found, what }.text()
    });
    std::iter::once(flow).chain(contact).collect::<Vec<_>>().join(" ")
}

fn tabs(t: &Trip, now: Tab) -> Markup {
    html! {
        nav.tabs aria-label=(says::Tabs.text()) {
            @for tab in Tab::ALL {
                a href=(format!("{}?show={}", address(&t.name), tab.code())) aria-current=[(tab == now).then_some("page")] { (tab.word()) } " "
            }
        }
    }
}

/// The day in one paragraph.
fn head(t: &Trip, of: Counted, may: bool) -> Markup {
    let name = |v: &Option<String>| v.as_deref().map(|v| message::Name::from(v.trim_end_matches('.')));
    let told: Vec<String> = [
        name(&t.persons).map(|who| says::DayPersons { who }.text()),
        name(&t.weather).map(|what| says::DayWeather { what }.text()),
        name(&t.wind).map(|what| says::DayWind { what }.text()),
        name(&t.dust).map(|what| says::DayDust { what }.text()),
        name(&t.road_salt).map(|what| says::DaySalt { what }.text()),
        name(&t.engines).map(|what| says::DayEngines { what }.text()),
        Some(says::DayBottles { n: count(of.all), found: count(of.measured) }.text()),
    ]
    .into_iter()
    .flatten()
    .collect();
    let e = encoded(&t.name);
    let to = |tab: Tab| encoded(&format!("{}?show={}", address(&t.name), tab.code()));
    let at = match &t.ends {
        Some(end) => says::FromTo { day: moment(&t.starts).into(), limit: moment(end).into() }.text(),
        None => moment(&t.starts),
    };
    html! {
        h1 { (title(&t.name)) }
        p.under { (at) " · " (state(t, of, &now()).word()) }
        @if let Some(question) = &t.question { p { strong { (says::ToDecide { what: question.as_str().into() }.text()) } } }
        p { (told.join(" ")) }
        @if may {
            p.acts {
                a.go href=(format!("/enter/bottle?trip={e}&to={}", to(Tab::Bottles))) { (says::EnterBottle.text()) } " "
                a href=(format!("/enter/field_reading?trip={e}&to={}", to(Tab::Readings))) { (says::EnterReadings.text()) } " "
                a href=(format!("/enter/fill?trip={e}&to={}", to(Tab::Readings))) { (says::EnterFills.text()) } " "
                a href=(format!("/enter/air_count?trip={e}&to={}", to(Tab::Air))) { (says::EnterCounts.text()) } " "
                a href=(format!("/enter/custody?trip={e}&to={}", to(Tab::Journey))) { (says::EnterCustody.text()) } " "
                a href=(format!("/enter/spike?to={}", to(Tab::Bottles))) { (says::EnterSpikes.text()) }
            }
        }
    }
}

/// The bottles: a grid of cards on a telephone, so that what each was exposed to is in sight.
fn bottle_list(bottles: &[Bottle], here: &str, may: bool) -> Markup {
    let shown = |x: Option<f64>, unit: &str| x.map_or(String::new(), |x| Shown::trimmed(x, 3, unit).text());
    let cells = |b: &Bottle| {
        [
            (says::Kind.text(), kind(b.kind.word())),
            (says::Well.text(), b.well.clone().unwrap_or_default()),
            (says::Lot.text(), b.lot.clone().unwrap_or_default()),
            (says::Fraction.text(), fraction(b.fraction.as_deref().unwrap_or_default())),
            (says::Filled.text(), moment(b.filled_at.as_deref().unwrap_or_default())),
            (says::By.text(), b.sampler.clone().unwrap_or_default()),
            (says::Acid.text(), b.acid.as_ref().map_or(String::new(), |a| format!("{a} {}", shown(b.acid_mL, "mL")))),
            (says::Openings.text(), b.openings.map_or(String::new(), |n| n.to_string())),
            (says::InCabinet.text(), shown(b.cabinet_min, "min")),
            (says::Outdoors.text(), shown(b.open_air_min, "min")),
        ]
    };
    let of = |b: &Bottle| if b.kind.is_blank() { "&of=evidence" } else { "" };
    let card = |b: &Bottle| {
        html! {
            article.bottle {
                h3 { a href=(format!("/results?bottle={}{}", encoded(&b.label), of(b))) { (b.label) } }
                dl { @for (what, value) in cells(b).into_iter().filter(|(_, v)| !v.is_empty()) { div { dt { (what) } dd { (value) } } } }
                @if may { p { a href=(format!("/correct/bottle/{}?to={}", b.id, encoded(here))) aria-label=(format!("{} {}", says::Correct.text(), b.label)) { (says::Correct.text()) } } }
            }
        }
    };
    // Waters in sight, blanks and spikes behind them: four screens of a telephone.
    let (waters, others): (Vec<&Bottle>, Vec<&Bottle>) = bottles.iter().partition(|b| b.kind.is_water());
    let (first, rest) = if waters.is_empty() { (others, vec![]) } else { (waters, others) };
    html! {
        h2 #bottles { (says::BottlesCaption { n: count(bottles.len()) }.text()) }
        @if bottles.is_empty() { p.quiet { (says::BottlesNone.text()) } }
        div.bottle-grid { @for b in first { (card(b)) } }
        @if !rest.is_empty() {
            details.fold #blanks { summary { (says::WellsMore { n: count(rest.len()) }.text()) } div.bottle-grid { @for b in rest { (card(b)) } } }
        }
    }
}

fn steady(well: &str, readings: &[assessment::field_checks::SteadyReading]) -> Listing {
    let row = |r: &assessment::field_checks::SteadyReading| {
        let mut came = td(outcome_text(r.outcome));
        came.shown = outcome_word(r.outcome);
        vec![
            td(quantity(&r.quantity)),
            number(r.readings.to_string()),
            came,
            td(moment(r.since.as_deref().unwrap_or_default())),
            td(::document::printed::printed(&r.rule.text(), message::language())),
        ]
    };
    Listing {
        caption: says::SteadyCaption { well: well.into() }.text(),
        headings: vec![
            says::Reading.text(),
            says::HowMany.text(),
            says::Steady.text(),
            says::Since.text(),
            says::Rule.text(),
        ],
        rows: readings.iter().map(row).collect(),
        ..Listing::default()
    }
}

/// The findings on the air, one well's and place's once.
fn air(bottles: &[Bottle], evidence: &FieldChecks, rules: &Rules) -> Markup {
    let mut told: Vec<(String, quantity::Finding)> = vec![];
    for b in bottles.iter().filter(|b| b.well_id.is_some()) {
        for f in evidence.findings(b, None, rules).into_iter().filter(|f| f.stage == quantity::Stage::CleanAir) {
            let well = b.well.clone().unwrap_or_default();
            if !told.iter().any(|(w, k)| *w == well && k.sentence == f.sentence) {
                told.push((well, f));
            }
        }
    }
    html! {
        @if told.is_empty() { p.quiet { (says::NoAir.text()) } }
        @for (well, f) in &told { h3 { (well) } (findings(std::slice::from_ref(f))) }
    }
}

/// Rows of a table as they were typed, each with a way to correct it.
pub(crate) fn entered(store: &Store, table: &'static str, filter: &Filter, to: &str) -> Result<Piece, HttpError> {
    let declared = schema::table(table).ok_or_else(|| HttpError::absent(table))?;
    let rows = store.as_typed(table, filter)?;
    // Columns in which nothing stands are left out.
    let places: Vec<usize> = (0..declared.columns.len())
        .filter(|p| is_asked(table, &declared.columns[*p]) && rows.iter().any(|(_, r)| !r[*p].is_empty()))
        .collect();
    let mut headings: Vec<String> = places.iter().map(|p| heading(&declared.columns[*p])).collect();
    headings.push(String::new());
    let row = |(id, cells): &(i64, Vec<String>)| {
        let mut out: Vec<_> = places
            .iter()
            .map(|p| match declared.columns[*p].kind {
                schema::Kind::Real | schema::Kind::Integer => number(cells[*p].clone()),
                schema::Kind::Time => td(moment(&cells[*p])),
                _ => td(::document::printed::printed(&cells[*p], message::language())),
            })
            .collect();
        out.push(link(&format!("/correct/{table}/{id}?to={}", encoded(to)), says::Correct.text()));
        out
    };
    let listing = Listing {
        caption: caption_of(table).unwrap_or_else(|| declared.about.trim_end_matches('.').to_string()),
        headings,
        rows: rows.iter().map(row).collect(),
        ..Listing::default()
    };
    Ok(listing.or(empty(table)))
}

/// What a table holds, for the tables of these pages; none for others, which say it in the words of the record.
fn caption_of(table: &str) -> Option<String> {
    Some(match table {
        "well" => says::OfWell.text(),
        "well_section" => says::OfSections.text(),
        "layer" => says::OfLayers.text(),
        "field_reading" => says::OfReadings.text(),
        "fill" => says::OfFills.text(),
        "air_count" => says::OfCounts.text(),
        "custody" => says::OfCustody.text(),
        "trip" => says::OfTrip.text(),
        "lot" => says::Lots.text(),
        "acid" => says::Acids.text(),
        "filter" => says::Filters.text(),
        _ => return None,
    })
}

/// What stands in place of its rows.
fn empty(table: &str) -> String {
    match table {
        "field_reading" => says::NoneReading.text(),
        "fill" => says::NoneFill.text(),
        "air_count" => says::NoneCount.text(),
        "custody" => says::NoneCustody.text(),
        "well_section" => says::NoneSection.text(),
        "layer" => says::NoneLayer.text(),
        "lot" => says::NoneLot.text(),
        "acid" => says::NoneAcid.text(),
        "filter" => says::NoneFilter.text(),
        _ => says::Nothing.text(),
    }
}

/// What was read, in words.
fn quantity(name: &str) -> String {
    Message::named("condition", name).map_or_else(|| name.to_string(), |m| m.text())
}

/// The heading of a column, with its unit.
fn heading(c: &schema::Column) -> String {
    let (words, unit) = (super::entry_fields::column_words(c), label(c).1);
    if unit.is_empty() { words } else { format!("{words}, {unit}") }
}
