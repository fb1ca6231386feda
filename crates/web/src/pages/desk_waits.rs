//! What waits, each thing with one act: a new exceedance first, then work at hand, what is not derived, bottles on their
//! way, bottles that disagree, lots, the next trip; and what is done, folded.
//!
//! In: the record and the hour. Out: [`Waits`], and [`Item`]s in their order. A trip that lies ahead is planned, and its
//! bottles are not "without a result". Checked in `crates/web/tests/desk.rs`.

use super::desk_held::{self, AllHeld};
use super::lots::sheets;
use crate::app::App;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::outcome_mark;
use crate::forms::token_field;
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{case_address, encoded, moment};
use crate::worked;
use assessment::engine;
use assessment::holding::{self, Clock};
use assessment::results;
use figure::number::Printed;
use maud::{Markup, html};
use message::{Arg, Message, Shown, Spoken, count, web_desk as says};
use programme::first_steps::{Step, Todo};
use programme::index::{Entry, Index, Wanted};
use programme::limits_of::{Asked, Row, against_of, exceedances, may_exceed};
use quantity::{Check, Outcome};
use record::model::{Bottle, BottleKind, Trip, VerdictWord};
use record::store::{Filter, Store};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Wells whose exceedances are shown each by itself.
const WELLS_ABOVE: usize = 3;

/// Results above a limit named of one well.
const ABOVE_NAMED: usize = 3;

/// Bottles and elements named in one item.
const NAMED: usize = 6;

/// Trips whose bottles are told, the newest.
const TRIPS: usize = 3;

/// Items in sight; the rest is folded.
const SHOWN: usize = 6;

/// Results looked at for what lies above a limit.
// A page is read often: some thousand rows are what it can read anew each time.
const LOOKED_AT: usize = 2000;

/// Bottles of a trip without a result.
#[derive(Debug, Clone)]
struct Waiting {
    trip: Option<String>,
    bottles: Vec<String>,
    /// The clock that ends first.
    clock: Option<Clock>,
}

/// What waits.
pub(crate) struct Waits {
    above: Arc<Vec<Row>>,
    behind: engine::Reach,
    planned: Vec<(Trip, usize)>,
    waiting: Vec<Waiting>,
    clocks_over: bool,
    /// Of each well the elements whose bottles disagree, and how many results.
    disagree: Arc<Vec<(String, Vec<String>, usize)>>,
    lots: Arc<Vec<(String, Outcome)>>,
    steps: Vec<Step>,
    has_results: bool,
    wells: bool,
}

/// One thing that waits.
struct Item {
    title: String,
    body: Markup,
    act: Markup,
}

/// As the record stands.
pub(crate) fn of(store: &Store, app: &App) -> Result<Waits, HttpError> {
    let at = now();
    let today = at[..10].to_string();
    let (unmeasured, has_results, state) = app.record.index(store, |i| {
        let unmeasured: Vec<i64> = i.bottles.iter().filter(|b| !b.measured).map(|b| b.row).collect();
        (unmeasured, !i.is_empty(), i.state().to_string())
    })?;
    let above = worked::exceeding(store, app, &today, || {
        let newest = app.record.index(store, newest_day)?;
        let asked = Asked { otherwise: Some(today.clone()), ..Asked::default() };
        let against = against_of(store, &results::listed(store, &may_exceed(store, &newest)?)?, &asked)?;
        Ok(exceedances(&against.rows).into_iter().cloned().collect())
    })?;
    let bottles = without_result(store, &unmeasured)?;
    let (planned, waiting, clocks_over) = by_trip(store, bottles, &at)?;
    let lots = worked::kept(app, "lots-open", worked::head(store)?, || {
        let (sheets, _) = sheets(store, app)?;
        let open =
            sheets.iter().filter(|s| s.outcome != Outcome::Met && s.metals.iter().any(|m| m.target_pg.is_some()));
        Ok(open.map(|s| (s.lot.name.clone(), s.outcome)).collect::<Vec<_>>())
    })?;
    Ok(Waits {
        above,
        behind: engine::reach(store)?,
        planned,
        waiting,
        clocks_over,
        disagree: worked::kept(app, "disagree", state, || app.record.index(store, disagreeing))?,
        lots,
        steps: programme::first_steps::steps(store)?,
        has_results,
        wells: !store.wells()?.is_empty(),
    })
}

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

/// Wells whose bottles disagree, with the elements.
fn disagreeing(i: &Index) -> Vec<(String, Vec<String>, usize)> {
    let wanted = Wanted { held_by: Some(Check::NumberDuplicates.text().into()), ..Wanted::default() };
    let mut by: BTreeMap<u32, (Vec<String>, usize)> = BTreeMap::new();
    for e in i.wanted(&wanted).filter(|e| e.verdict == Some(VerdictWord::Rejected)) {
        let Some(well) = i.bottles.get(e.bottle as usize).and_then(|b| b.well) else { continue };
        let (elements, n) = by.entry(well).or_default();
        *n += 1;
        let analyte = &i.measurands[e.measurand as usize].analyte;
        if !elements.contains(analyte) {
            elements.push(analyte.clone());
        }
    }
    by.into_iter().filter_map(|(w, (e, n))| Some((i.wells.get(w as usize)?.clone(), e, n))).collect()
}

/// Bottles that nothing was measured in and that stand in no run.
fn without_result(store: &Store, unmeasured: &[i64]) -> Result<Vec<Bottle>, HttpError> {
    let vials = programme::index::in_runs(store)?;
    let mut all = vec![];
    for row in unmeasured.iter().filter(|b| !vials.contains(b)) {
        all.extend(store.bottles(&Filter::all().is("id", *row))?);
    }
    all.retain(|b| b.kind != BottleKind::ReferenceMaterial);
    Ok(all)
}

type ByTrip = (Vec<(Trip, usize)>, Vec<Waiting>, bool);

/// Trips that lie ahead with their bottles; bottles of the others by trip, the most pressing first; whether a clock is over.
fn by_trip(store: &Store, bottles: Vec<Bottle>, at: &str) -> Result<ByTrip, HttpError> {
    let mut planned: Vec<(Trip, usize)> =
        store.trips()?.into_iter().filter(|t| super::trips::lies_ahead(t, at)).map(|t| (t, 0)).collect();
    let mut by: BTreeMap<Option<String>, Waiting> = BTreeMap::new();
    let mut over = false;
    for b in bottles {
        if let Some((_, n)) = planned.iter_mut().find(|(t, _)| Some(t.id) == b.trip_id) {
            *n += 1;
            continue;
        }
        let clock = holding::clocks(&b, at.trim_end_matches('Z')).into_iter().next();
        over |= clock.as_ref().is_some_and(|c| c.hours_left < 0.0);
        let of = by.entry(b.trip.clone()).or_insert(Waiting { trip: b.trip.clone(), bottles: vec![], clock: None });
        of.bottles.push(b.label);
        if let Some(c) = clock
            && of.clock.as_ref().is_none_or(|known| c.hours_left < known.hours_left)
        {
            of.clock = Some(c);
        }
    }
    planned.sort_by(|a, b| a.0.starts.cmp(&b.0.starts));
    let mut waiting: Vec<Waiting> = by.into_values().collect();
    let left = |w: &Waiting| w.clock.as_ref().map_or(f64::INFINITY, |c| c.hours_left);
    waiting.sort_by(|a, b| left(a).total_cmp(&left(b)));
    Ok((planned, waiting, over))
}

/// What waits, with what is done.
pub(crate) fn shown(app: &App, who: &Who, w: &Waits, held: &AllHeld) -> Markup {
    let items = items(app, who, w, held);
    let (first, rest) = items.split_at(items.len().min(SHOWN));
    html! {
        h2 #waits { (says::Waits.text()) }
        @if items.is_empty() { p.quiet { (says::NothingWaits.text()) } }
        @for i in first { (i.shown()) }
        @if !rest.is_empty() { details.fold { summary { (says::AndMore { n: count(rest.len()) }.text()) } @for i in rest { (i.shown()) } } }
        (done(w))
    }
}

impl Item {
    fn shown(&self) -> Markup {
        html! { section.item { h3 { (self.title) } (self.body) p.act { (self.act) } } }
    }
}

fn go(to: &str, words: &str) -> Markup {
    html! { a.go href=(to) { (words) } }
}

fn items(app: &App, who: &Who, w: &Waits, held: &AllHeld) -> Vec<Item> {
    let mut out = above(&w.above);
    for (id, title) in app.jobs.running() {
        out.push(Item {
            title: says::AtWork { title: title.into() }.text(),
            body: html! {},
            act: go(&format!("/jobs/{id}"), &says::LookWork.text()),
        });
    }
    if w.has_results && who.may(Role::Analyst) {
        out.extend(behind(app, who, w.behind));
    }
    out.extend(w.waiting.iter().take(TRIPS).map(Waiting::item));
    if w.wells && w.planned.is_empty() {
        out.push(Item {
            title: says::NoTrip.text(),
            body: html! { p { (says::NoTripWhy.text()) } },
            act: go("/plan", &message::web_frame::Plan.text()),
        });
    }
    out.extend(disagreements(w, held));
    for (lot, outcome) in w.lots.iter() {
        let name = || lot.as_str().into();
        out.push(Item {
            title: match outcome {
                Outcome::NotMet => says::LotHeld { lot: name() }.text(),
                _ => says::LotOpen { lot: name() }.text(),
            },
            body: html! {},
            act: go(&format!("/lots#{}", super::lots::anchor(lot)), &says::OpenLot { lot: name() }.text()),
        });
    }
    for (t, n) in &w.planned {
        out.push(Item {
            title: says::Planned { trip: t.name.as_str().into() }.text(),
            body: html! { p { (says::PlannedDay { day: moment(&t.starts).into(), n: count(*n) }.text()) } },
            act: go(&format!("/trips/{}", encoded(&t.name)), &says::OpenTrip.text()),
        });
    }
    if w.has_results && w.steps.iter().any(|s| !s.done && s.todo == Todo::Sign) {
        out.push(Item {
            title: says::Sign.text(),
            body: html! { p { (says::SignWhy.text()) } },
            act: go("/results", &says::SignAct.text()),
        });
    }
    out
}

/// Results above a limit, a well each.
fn above(rows: &[Row]) -> Vec<Item> {
    let mut wells: Vec<(String, Vec<&Row>)> = vec![];
    for r in rows {
        let well = r.well.clone().unwrap_or_default();
        let place = wells.iter().position(|(w, _)| *w == well).unwrap_or_else(|| {
            wells.push((well.clone(), vec![]));
            wells.len() - 1
        });
        // Beside several limits a result stands once, beside the first: the most serious.
        if !wells[place].1.iter().any(|k| k.result == r.result) {
            wells[place].1.push(r);
        }
    }
    let rest: Vec<&Row> = wells.iter().skip(WELLS_ABOVE).flat_map(|(_, r)| r.iter().copied()).collect();
    let mut out: Vec<Item> = wells.iter().take(WELLS_ABOVE).map(|(well, rows)| above_at(well, rows)).collect();
    if !rest.is_empty() {
        out.push(above_at("", &rest));
    }
    // Said once, under the last of them: it holds for all.
    let recalled = rows.iter().any(|r| r.comparison.limit.provenance == "recalled");
    if let Some(last) = out.last_mut() {
        let body = std::mem::replace(&mut last.body, html! {});
        last.body =
            html! { (body) p.quiet { (says::AboveHealth.text()) @if recalled { " " (says::AboveRecalled.text()) } } };
    }
    out
}

fn above_at(well: &str, rows: &[&Row]) -> Item {
    let (first, more) = rows.split_at(rows.len().min(ABOVE_NAMED));
    let line = |r: &Row| {
        let of = r.well.as_deref().filter(|_| well.is_empty());
        html! { li { @if let Some(of) = of { (of) ": " } a href=(case_address(&r.result)) { (above_one(r)) } } }
    };
    Item {
        title: if well.is_empty() { says::AboveNoWell.text() } else { says::Above { well: well.into() }.text() },
        body: html! {
            ul { @for r in first { (line(r)) } }
            @if !more.is_empty() {
                details.fold { summary { (says::AboveMore { n: count(more.len()) }.text()) } ul { @for r in more { (line(r)) } } }
            }
        },
        act: rows.first().map_or_else(|| html! {}, |r| go(&case_address(&r.result), &says::LookCase.text())),
    }
}

fn above_one(r: &Row) -> String {
    let (c, l) = (&r.comparison, &r.comparison.limit);
    let found = Printed::of(&c.amount, 2.0);
    let found = [found.value, found.unit].into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join("\u{A0}");
    let unit = document::printed::printed(&l.unit.to_string(), message::language());
    let high = Shown::trimmed(l.high, 3, unit).text();
    let limit = l.low.map_or_else(|| high.clone(), |low| format!("{} – {high}", Shown::trimmed(low, 3, "").text()));
    let kind = Message::named("limit_kind", &l.kind).map_or_else(|| l.kind.clone(), |m| m.text());
    let mark = if l.provenance == "recalled" { " *" } else { "" };
    says::AboveOne {
        element: message::number::capital(&::report::pages::element(&r.analyte)).into(),
        found: found.into(),
        limit: limit.into(),
        who: format!("{}, {kind}{mark}", l.authority).into(),
    }
    .text()
}

/// What was kept since results were last derived and judged to the end, or that another engine did it.
fn behind(app: &App, who: &Who, reach: engine::Reach) -> Option<Item> {
    let n = count(reach.acts_since);
    let why = match reach.engine {
        _ if reach.is_current() => return None,
        Some(engine::ENGINE) => says::StaleActs { n }.text(),
        Some(_) => says::StaleEngine.text(),
        None => says::StaleNever { n }.text(),
    };
    Some(Item {
        title: says::Stale.text(),
        body: html! { p { (why) " " (says::StaleWhy.text()) } },
        act: html! {
            form.inline method="post" action="/recompute" { (token_field(app, who)) button type="submit" { (says::Derive.text()) } }
        },
    })
}

impl Waiting {
    fn item(&self) -> Item {
        let n = count(self.bottles.len());
        let title = match &self.trip {
            Some(trip) => says::OnTheWay { trip: trip.as_str().into(), n }.text(),
            None => says::OnTheWayNone { n }.text(),
        };
        let named = self.bottles.iter().take(NAMED).cloned().collect::<Vec<_>>().join(", ");
        let more = self.bottles.len().saturating_sub(NAMED);
        Item {
            title,
            body: html! {
                p { (named) @if more > 0 { " " (says::AndMore { n: count(more) }.text()) } }
                @match &self.clock {
                    Some(c) => {
                        p {
                            @if c.hours_left < 0.0 { span.state.not { (outcome_mark(Outcome::NotMet)) } " " }
                            (says::Clock { what: c.of.analytes.as_str().into(), found: c.in_words().into() }.text()) " "
                            span.quiet { (says::ClockSource { limit: c.of.longest.as_str().into() }.text()) }
                        }
                    }
                    None => { p.quiet { (says::ClockNone.text()) } }
                }
            },
            act: go("/runs/bring-in", &says::BringIn.text()),
        }
    }
}

/// Bottles that disagree, a well each.
fn disagreements(w: &Waits, held: &AllHeld) -> Vec<Item> {
    let rejected = VerdictWord::Rejected;
    let check = Check::NumberDuplicates.text();
    if !held.held.iter().any(|h| h.check == check && h.verdict == rejected) {
        return vec![];
    }
    let item = |(well, elements, n): &(String, Vec<String>, usize)| {
        let names = elements.iter().take(NAMED).map(|e| Arg::Name(::report::pages::element(e).into()));
        let mut what: Vec<Arg> = names.collect();
        if elements.len() > NAMED {
            what.push(Message::from(says::AndMore { n: count(elements.len() - NAMED) }).into());
        }
        let to = format!("{}&well={}", desk_held::address(check, rejected), encoded(well));
        Item {
            title: says::Disagree { well: well.as_str().into() }.text(),
            body: html! { p { (message::number::capital(&says::DisagreeWhat { what }.text())) } },
            act: go(&to, &says::LookResults { n: count(*n) }.text()),
        }
    };
    w.disagree.iter().map(item).collect()
}

fn done(w: &Waits) -> Markup {
    let mut all = vec![];
    if w.has_results && w.waiting.is_empty() {
        all.push(says::DoneBottles.text());
    }
    if w.has_results && w.above.is_empty() {
        all.push(says::DoneLimits.text());
    }
    if !w.waiting.is_empty() && !w.clocks_over {
        all.push(says::DoneClocks.text());
    }
    html! {
        @if !all.is_empty() {
            details.fold { summary { (says::Done.text()) }
                ul.plain { @for words in &all { li { span.state.met { (outcome_mark(Outcome::Met)) } " " (words) } } }
            }
        }
    }
}

impl Waits {
    /// The steps of the way in.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// Whether there is nothing yet: no well.
    pub fn is_new(&self) -> bool {
        !self.wells
    }
}
