//! The readings of one visit as a grid: well, day, person and instrument once on top, a row a time, a column a quantity;
//! a second grid of timed fills. All of it is one act, or nothing is.
//!
//! What each column holds is told while it is typed: since when it is steady and by which rule, the flow with its ±; the
//! last visit stands over it. Both are worked out where the record works them out (`assessment::field_checks`,
//! `aquifer::well`), from a look at the form that keeps nothing; without script a button asks for it. A value far from
//! what the well ever showed, or outside what is usual, is asked about before it is kept, and the answer is kept with it.
//! The page itself is `visit_page`; checked in `crates/web/tests/visit.rs`.

use super::visit_page;
use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::Query;
use crate::forms::{Done, Filled, once, same_token, strip, token_field};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, encoded};
use crate::typed::{self, say};
use aquifer::well::{Fill, Fills, flow};
use assessment::field_checks::{SteadyReading, WATCHED, quantity, steady_readings};
use axum::Form;
use axum::extract::{Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use field_sheet::past::{self, FLOW, Past};
use intake::entry::{EntryError, TypedRow, enter, look};
use maud::Markup;
use message::{Message, Shown, Spoken as _, count, web_forms as said};
use quantity::Amount;
use record::model::FieldReading;
use record::store::{Filter, Store};

/// Rows of an empty grid: five times take a quarter of an hour, and two more.
pub(super) const TIMES: usize = 7;

/// Rows of fills.
pub(super) const FILLS: usize = 5;

/// Most rows of a pasted block.
const MOST: usize = 60;

/// Factor from ±, a 95 % interval, to u where a meter states it so.
// JCGM 100:2008, 6.3.3: k = 2 for an interval of about 95 %.
const COVERAGE: f64 = 2.0;

/// What the page is made of.
pub(super) struct Ready {
    pub filled: Filled,
    pub faults: Vec<(String, String)>,
    pub questions: Vec<(String, String)>,
    pub wells: Vec<String>,
    pub people: Vec<String>,
    pub trips: Vec<String>,
    /// The last visits of the well.
    pub past: Vec<Past>,
    pub told: Looked,
}

/// What the grid says of itself.
#[derive(Default)]
pub(super) struct Looked {
    pub steady: Vec<SteadyReading>,
    pub flow: Option<Amount>,
    pub readings: usize,
    pub fills: usize,
}

/// One value of the grid as it is read.
struct Value {
    /// Its field.
    id: String,
    quantity: &'static str,
    unit: &'static str,
    at: String,
    text: String,
    number: f64,
    u: Option<f64>,
}

/// A timed fill as it is read.
struct Filling {
    id: String,
    at: Option<String>,
    litres: String,
    seconds: String,
}

/// The whole form as it is read.
#[derive(Default)]
struct Sheet {
    values: Vec<Value>,
    fills: Vec<Filling>,
    faults: Vec<(String, String)>,
}

/// The day that a form speaks of.
fn day(filled: &Filled) -> Option<String> {
    let typed = filled.get("day").trim();
    typed::moment_text(typed).or_else(|| typed.parse::<jiff::civil::Date>().ok().map(|d| d.to_string()))
}

fn sheet(filled: &Filled) -> Sheet {
    let mut out = Sheet::default();
    let mut lacking = |name: &str| out.faults.push((name.into(), say(said::Lacking)));
    if filled.get("well").trim().is_empty() {
        lacking("well");
    }
    let day = day(filled);
    if day.is_none() {
        lacking("day");
    }
    let day = day.unwrap_or_default();
    let u: Vec<Option<f64>> = (0..WATCHED.len()).map(|q| margin(filled, q, &mut out.faults)).collect();
    for n in 0..rows(filled, 't').max(rows(filled, 'c')) {
        row(filled, (n, &day), &u, &mut out);
    }
    for n in 0..rows(filled, 'f') {
        fill(filled, (n, &day), &mut out);
    }
    if out.values.is_empty() && out.fills.is_empty() && out.faults.is_empty() {
        out.faults.push(("c0.0".into(), say(said::NoReading)));
    }
    out
}

/// ± of a column as u.
fn margin(filled: &Filled, q: usize, faults: &mut Vec<(String, String)>) -> Option<f64> {
    let id = format!("u.{q}");
    match typed::number(filled.get(&id)) {
        _ if filled.get(&id).trim().is_empty() => None,
        Ok(x) if x >= 0.0 => Some(x / COVERAGE),
        Ok(_) => {
            faults.push((id, say(said::NotNegative)));
            None
        }
        Err(why) => {
            faults.push((id, say(why)));
            None
        }
    }
}

/// How many rows of a grid hold something.
pub(super) fn rows(filled: &Filled, grid: char) -> usize {
    let number = |name: &str| name.strip_prefix(grid)?.split('.').next()?.parse::<usize>().ok();
    let typed = filled.0.iter().filter(|(_, v)| !v.trim().is_empty()).filter_map(|(n, _)| number(n));
    typed.max().map_or(0, |n| (n + 1).min(MOST))
}

fn row(filled: &Filled, (n, day): (usize, &str), u: &[Option<f64>], out: &mut Sheet) {
    let time = filled.get(&format!("t{n}")).trim();
    let cells: Vec<(usize, String, String)> = (0..WATCHED.len())
        .map(|q| (q, format!("c{n}.{q}")))
        .map(|(q, id)| (q, filled.get(&id).trim().to_string(), id))
        .filter(|(_, text, _)| !text.is_empty())
        .collect();
    // A time that was offered and not used is no reading.
    if cells.is_empty() {
        return;
    }
    let Some(hour) = typed::hour_text(time) else {
        let why = if time.is_empty() { say(said::Lacking) } else { say(said::NoHour { text: time.into() }) };
        out.faults.push((format!("t{n}"), why));
        return;
    };
    for (q, text, id) in cells {
        let (quantity, _, unit) = WATCHED[q];
        match typed::number_text(&text) {
            Ok(read) => {
                let value = read.parse().unwrap_or(f64::NAN);
                out.values.push(Value {
                    id,
                    quantity,
                    unit,
                    at: format!("{day} {hour}"),
                    text: read,
                    number: value,
                    u: u[q],
                });
            }
            Err(why) => out.faults.push((id, say(why))),
        }
    }
}

fn fill(filled: &Filled, (n, day): (usize, &str), out: &mut Sheet) {
    let [time, litres, seconds] = ["t", "l", "s"].map(|c| filled.get(&format!("f{n}.{c}")).trim());
    if litres.is_empty() && seconds.is_empty() {
        return;
    }
    let mut read = |column: &str, text: &str| match typed::number_text(text) {
        Ok(read) => Some(read),
        Err(why) => {
            let why = if text.is_empty() { say(said::Lacking) } else { say(why) };
            out.faults.push((format!("f{n}.{column}"), why));
            None
        }
    };
    let (litres, seconds) = (read("l", litres), read("s", seconds));
    let hour = typed::hour_text(time);
    if hour.is_none() && !time.is_empty() {
        out.faults.push((format!("f{n}.t"), say(said::NoHour { text: time.into() })));
    }
    if let (Some(litres), Some(seconds)) = (litres, seconds) {
        let at = hour.map(|h| format!("{day} {h}"));
        out.fills.push(Filling { id: format!("f{n}"), at, litres, seconds });
    }
}

/// What the sheet says of itself; a fill that cannot be tells no flow.
fn looked(sheet: &Sheet, filled: &Filled) -> Looked {
    let readings: Vec<FieldReading> = sheet.values.iter().map(|v| as_reading(v, filled.get("well"))).collect();
    let fills: Vec<Fill> = (sheet.fills.iter())
        .filter_map(|f| Some(Fill { volume_l: f.litres.parse().ok()?, seconds: f.seconds.parse().ok()? }))
        .collect();
    Looked {
        steady: steady_readings(&readings.iter().collect::<Vec<_>>()),
        flow: flow(&Fills { fills, ..Fills::default() }).ok().map(|f| f.amount),
        readings: sheet.values.len(),
        fills: sheet.fills.len(),
    }
}

fn as_reading(v: &Value, well: &str) -> FieldReading {
    FieldReading {
        id: 0,
        trip_id: None,
        trip: None,
        well_id: 0,
        well: well.into(),
        bottle_id: None,
        bottle: None,
        at: v.at.replace(' ', "T"),
        quantity: v.quantity.into(),
        value: v.number,
        u: v.u,
        unit: v.unit.into(),
    }
}

fn as_rows(sheet: &Sheet, filled: &Filled) -> Vec<(String, TypedRow)> {
    let base = |table: &str| {
        TypedRow::of(table).with("trip", filled.get("trip").trim()).with("well", filled.get("well").trim())
    };
    let mut out = vec![];
    for v in &sheet.values {
        let row = base("field_reading").with("at", &v.at).with("quantity", v.quantity).with("value", &v.text);
        let u = v.u.map_or_else(String::new, |u| u.to_string());
        out.push((v.id.clone(), row.with("u", u).with("unit", v.unit)));
    }
    for f in &sheet.fills {
        let row = base("fill").with("at", f.at.clone().unwrap_or_default());
        out.push((format!("{}.l", f.id), row.with("volume_L", &f.litres).with("seconds", &f.seconds)));
    }
    out
}

/// What is asked about before it is kept: far from what the well showed, or there already.
fn questions(store: &Store, sheet: &Sheet, filled: &Filled, past: &[Past]) -> Result<Vec<(String, String)>, HttpError> {
    let mut out = vec![];
    for v in &sheet.values {
        if let Some(twice) = read_twice(store, filled.get("well").trim(), &v.at, v.quantity)? {
            out.push((v.id.clone(), twice));
        } else if let Some(p) = past.iter().find(|p| p.quantity == v.quantity).filter(|p| p.is_far_outside(v.number)) {
            let (value, last) = (Shown::as_given(v.number, p.unit), Shown::as_given(p.last, p.unit));
            out.push((v.id.clone(), say(said::FarFromLast { value, last, day: p.day.as_str().into() })));
        }
    }
    Ok(out)
}

/// Whether a quantity was read at this well at this time already, as a question.
pub(super) fn read_twice(store: &Store, well: &str, at: &str, quantity: &str) -> Result<Option<String>, HttpError> {
    let minute = |t: &str| t.replace(' ', "T").get(..16).map(str::to_string);
    let wanted = minute(at.trim());
    if wanted.is_none() {
        return Ok(None);
    }
    let there = store.field_readings(&Filter::all().is("well.name", well).is("quantity", quantity))?;
    Ok(there.into_iter().find(|r| minute(&r.at) == wanted).map(|r| {
        let value = Shown::as_given(r.value, if r.unit == quantity { String::new() } else { r.unit.clone() });
        say(said::ThereAlready { value, at: r.at.as_str().into() })
    }))
}

/// The lists of the page, and the well's past before the day.
fn ready(store: &Store, filled: Filled) -> Result<Ready, HttpError> {
    let first = day(&filled).unwrap_or_else(|| now()[..10].to_string());
    let wells = store.wells()?;
    let well = wells.iter().find(|w| w.name == filled.get("well").trim()).map(|w| w.id);
    let past = match well {
        Some(id) => past::before(store, &first, None)?.remove(&id).unwrap_or_default(),
        None => vec![],
    };
    Ok(Ready {
        filled,
        faults: vec![],
        questions: vec![],
        wells: wells.into_iter().map(|w| w.name).collect(),
        people: store.list::<record::model::Person>(&Filter::all())?.into_iter().map(|p| p.name).collect(),
        trips: store.trips()?.into_iter().rev().map(|t| t.name).collect(),
        past,
        told: Looked::default(),
    })
}

/// The empty grid; after an act what was entered stands over it.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Sampler)?;
    let over = q.get("readings").zip(q.get("fills")).map(|(readings, fills)| {
        let n = |text: &String| text.parse::<i64>().unwrap_or(0);
        let what = say(said::EnteredVisit { readings: n(readings), fills: n(fills) });
        let trip = q.get("trip").filter(|t| !t.is_empty()).map(|t| format!("/trips/{}", encoded(t)));
        let well = q.get("well").map(|w| format!("/wells/{}", encoded(w)));
        let open = trip.or(well).unwrap_or_else(|| "/wells".into());
        strip(&what, &[(open, say(said::OpenIt)), ("#form".into(), say(said::EnterAnother))])
    });
    let mut fields: Vec<(String, String)> = q.into_iter().filter(|(n, _)| n != "readings" && n != "fills").collect();
    let named = |fields: &[(String, String)], n: &str| fields.iter().any(|(f, v)| f == n && !v.is_empty());
    if !named(&fields, "person") && who.is_named() {
        fields.push(("person".into(), who.person.clone()));
    }
    if !named(&fields, "day") {
        fields.push(("day".into(), now()[..10].to_string()));
    }
    let ready = page::read(&app, move |store, _| ready(store, Filled(fields))).await?;
    let body = visit_page::whole(&ready, &token_field(&app, &who), over.as_ref());
    Ok(framed(&app, &who, &body).into_response())
}

fn framed(app: &crate::app::App, who: &Who, body: &Markup) -> Markup {
    page::page(app, who, Place::of("/trips", &say(said::VisitTitle)).spoken(who), body)
}

/// A look at the grid that keeps nothing: a piece of the page where the script asks, the whole page for the button.
pub(crate) async fn look_at(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Sampler)?;
    let filled = pasted(Filled(fields).with_other_names());
    let ready = page::read(&app, move |store, _| {
        let sheet = sheet(&filled);
        let told = looked(&sheet, &filled);
        let mut ready = ready(store, filled)?;
        ready.questions = questions(store, &sheet, &ready.filled, &ready.past)?;
        ready.faults = sheet.faults;
        ready.told = told;
        Ok(ready)
    })
    .await?;
    if ready.filled.get("piece") == "1" {
        return Ok(visit_page::told(&ready).into_response());
    }
    Ok(framed(&app, &who, &visit_page::whole(&ready, &same_token(&ready.filled), None)).into_response())
}

/// Keeps all of the grid, or nothing.
pub(crate) async fn take(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Sampler)?;
    let filled = pasted(Filled(fields).with_other_names());
    once(&app, &who, &filled, async {
        let (person, at, sent) = (who.clone(), now(), filled.clone());
        let outcome = page::write(&app, move |store| {
            let mut ready = ready(store, sent)?;
            let sheet = sheet(&ready.filled);
            ready.told = looked(&sheet, &ready.filled);
            let rows = as_rows(&sheet, &ready.filled);
            let typed: Vec<TypedRow> = rows.iter().map(|(_, r)| r.clone()).collect();
            let place = |row: usize| rows.get(row).map_or_else(|| "c0.0".to_string(), |(id, _)| id.clone());
            let (seen, faults) = look(store, person.by(&at), &typed).map_err(HttpError::from)?;
            ready.faults.extend(sheet.faults.clone());
            let at_field = |f: &intake::entry::EntryFault| {
                let id = match f.column.as_deref() {
                    Some("well") => "well".into(),
                    Some("trip") => "trip".into(),
                    _ => place(f.row),
                };
                (id, say(f.says.clone()))
            };
            for fault in faults.iter().map(at_field) {
                if !ready.faults.iter().any(|f| f.0 == fault.0) {
                    ready.faults.push(fault);
                }
            }
            let mut asked = questions(store, &sheet, &ready.filled, &ready.past)?;
            for note in seen.notes.iter().map(at_field) {
                if !asked.iter().any(|q| q.0 == note.0) {
                    asked.push(note);
                }
            }
            let is_answered = |(id, _): &(String, String)| {
                !ready.filled.get(id).is_empty() && ready.filled.get(&format!("ok.{id}")) == ready.filled.get(id)
            };
            let (confirmed, open): (Vec<_>, Vec<_>) = asked.into_iter().partition(is_answered);
            ready.questions = open;
            if !ready.faults.is_empty() || !ready.questions.is_empty() {
                return Ok(Err(ready));
            }
            match enter(store, person.by(&at), &why(&ready.filled, &confirmed), &typed) {
                Ok(_) => Ok(Ok((sheet.values.len(), sheet.fills.len()))),
                Err(EntryError::Faults(faults)) => {
                    ready.faults = faults.iter().map(at_field).collect();
                    Ok(Err(ready))
                }
                Err(other) => Err(HttpError::from(other)),
            }
        })
        .await??;
        match outcome {
            Ok((readings, fills)) => {
                let [well, trip] = ["well", "trip"].map(|n| encoded(filled.get(n).trim()));
                let day = encoded(filled.get("day").trim());
                let to = format!("/enter/visit?readings={readings}&fills={fills}&well={well}&trip={trip}&day={day}");
                Ok(Done::To(to))
            }
            Err(ready) => {
                let body = visit_page::whole(&ready, &same_token(&ready.filled), None);
                Ok(Done::Again(framed(&app, &who, &body)))
            }
        }
    })
    .await
}

/// What the act says of itself: who read, on what, and what was confirmed.
fn why(filled: &Filled, confirmed: &[(String, String)]) -> String {
    let mut out = vec![format!("readings of one visit to {}", filled.get("well").trim())];
    for (what, name) in [("read by", "person"), ("on", "instrument")] {
        let text = filled.get(name).trim();
        if !text.is_empty() {
            out.push(format!("{what} {text}"));
        }
    }
    out.extend(confirmed.iter().map(|(id, asks)| format!("{} confirmed: {asks}", filled.get(id))));
    out.join("; ")
}

/// A pasted block put into the grid: lines of a time and its values, between tabs or semicolons, in the order of the
/// columns; a first line of headings is passed over.
fn pasted(filled: Filled) -> Filled {
    let block = filled.get("paste").to_string();
    if block.trim().is_empty() {
        return filled;
    }
    let mut fields: Vec<(String, String)> = filled.0.into_iter().filter(|(n, _)| n != "paste").collect();
    let is_grid = |n: &str| n.starts_with(['t', 'c']) && n[1..].starts_with(|c: char| c.is_ascii_digit());
    let first = rows(&Filled(fields.iter().filter(|(n, _)| n.starts_with('c')).cloned().collect()), 'c');
    fields.retain(|(n, v)| !(is_grid(n) && v.trim().is_empty()));
    let cells = |line: &str| -> Vec<String> { line.split(['\t', ';']).map(|c| c.trim().to_string()).collect() };
    let lines = block.lines().map(cells).filter(|c| typed::hour_text(hour_of(&c[0])).is_some());
    for (n, line) in lines.take(MOST).enumerate() {
        let n = first + n;
        fields.retain(|(name, _)| *name != format!("t{n}"));
        fields.push((format!("t{n}"), hour_of(&line[0]).to_string()));
        let values = line[1..].iter().take(WATCHED.len()).enumerate();
        fields.extend(values.map(|(q, v)| (format!("c{n}.{q}"), v.clone())));
    }
    Filled(fields)
}

/// The hour within a cell that may hold the day before it.
fn hour_of(cell: &str) -> &str {
    let hour = cell.rsplit([' ', 'T']).next().unwrap_or(cell);
    // Seconds of a spreadsheet are no part of it.
    hour.get(..5).filter(|h| h.len() == 5 && hour.len() == 8).unwrap_or(hour)
}

/// The last visit of a quantity, and the rule by which it counts as steady.
pub(super) fn over_column(past: &[Past], q: usize) -> (Option<&Past>, Message) {
    (past.iter().find(|p| p.quantity == WATCHED[q].0), quantity(WATCHED[q].0))
}

/// The flow of the last visit.
pub(super) fn last_flow(past: &[Past]) -> Option<&Past> {
    past.iter().find(|p| p.quantity == FLOW)
}

/// "25 readings, 4 fills".
pub(super) fn counted(told: &Looked) -> String {
    said::CountedVisit { readings: count(told.readings), fills: count(told.fills) }.text()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pasted_block_fills_the_grid() {
        let block = "Zeit\tT\tLF\tpH\n10:40\t9,2\t412\t7,61\n2026-07-14 10:43:00\t9,2\t411\t7,62\n\n";
        let filled = pasted(Filled(vec![("paste".into(), block.into()), ("t0".into(), "09:00".into())]));
        assert_eq!((filled.get("t0"), filled.get("c0.0"), filled.get("c0.2")), ("10:40", "9,2", "7,61"));
        assert_eq!((filled.get("t1"), filled.get("c1.1"), rows(&filled, 'c')), ("10:43", "411", 2));
    }

    #[test]
    fn the_whole_form_is_read_or_every_fault_is_told() {
        let field = |n: &str, v: &str| (n.to_string(), v.to_string());
        let mut fields = vec![field("well", "SL-2"), field("day", "14.7.2026"), field("u.0", "0,2")];
        fields.extend([field("t0", "10:40"), field("c0.0", "9,2"), field("t1", "10:43"), field("f0.l", "10")]);
        fields.extend([field("f0.s", "25,1"), field("f0.t", "")]);
        let read = sheet(&Filled(fields.clone()));
        assert!(read.faults.is_empty(), "{:?}", read.faults);
        assert_eq!((read.values.len(), read.fills.len()), (1, 1), "an unused time is no reading");
        assert_eq!((read.values[0].at.as_str(), read.values[0].u), ("2026-07-14 10:40", Some(0.1)));
        fields.extend([field("c1.0", "warm"), field("c2.1", "400"), field("f1.l", "10")]);
        fields[1].1 = "some day".into();
        let faults: Vec<String> = sheet(&Filled(fields)).faults.into_iter().map(|f| f.0).collect();
        assert_eq!(faults, ["day", "c1.0", "t2", "f1.s"]);
    }
}
