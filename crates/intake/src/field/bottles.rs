//! What bottles met, from all phones of a trip: one value a bottle and column, or a conflict.
//!
//! In: the entries of a trip. Out: amendments of the bottles' rows, so that each value says which
//! sheet and entry brought it; conflicts, which are computed anew each time and so cannot be lost.
//!
//! Of one phone the last entry counts. Phones agree where their values are equal, times within a
//! minute (the earlier is taken), minutes of exposure within half a minute (the larger is taken).
//! The result does not depend on the order in which the files come in.

use super::clock::Moment;
use super::format::{BOTTLE_COLUMNS, Sheet, as_text};
use super::take::WHY;
use crate::entry::{self, EntryError, EntryFault, TypedRow, form};
use crate::import::Mapping;
use crate::import::fault::{Collector, Fault, fault, quoted};
use crate::import::typed;
use crate::plausible;
use message::{Message, expected, found};
use quantity::{Check, Finding, Outcome};
use record::by::{By, said};
use record::error::Error;
use record::model::{Amendment, Bottle, FieldEntry};
use record::schema::Table;
use record::store::{Act, ActInfo, AmendmentIn, Cell, EventHash, Filter, Store, StoreError};
use serde_json::{Map, Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// Seconds within which two phones' times are one.
// The programme's own choice: two people tap the same act within a minute.
const SAME_TIME_S: i64 = 60;
/// Minutes of exposure within which two phones agree.
// The programme's own choice, half the step in which people would notice.
const SAME_MINUTES: f64 = 0.5;

/// What one phone says.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Said {
    /// Which phone.
    pub device: String,
    /// Number of its entry.
    pub n: i64,
    /// The value, as the record would write it.
    pub value: String,
}

/// Values that differ: of two phones, or of a phone and the record.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Conflict {
    /// Trip.
    pub trip: String,
    /// Bottle, or well for readings.
    pub subject: String,
    /// Column of the bottle, or the quantity read.
    pub field: String,
    /// What each phone says.
    pub said: Vec<Said>,
    /// What the record says; none: nothing, neither value is taken. For readings "both".
    pub stands: Option<String>,
}

impl Conflict {
    /// In one sentence.
    pub fn in_words(&self) -> String {
        self.message().in_english()
    }

    fn message(&self) -> Message {
        let one = |s: &Said| -> Message {
            let (phone, value) = (s.device.as_str().into(), s.value.as_str().into());
            message::field::Said { phone, value, entry: s.n }.into()
        };
        let join = |more, one| message::join::Comma { one, more }.into();
        let said = self.said.iter().rev().map(one).reduce(join).expect("somebody says something");
        let (subject, field) = (self.subject.as_str().into(), self.field.as_str().into());
        match self.stands.as_deref() {
            None => message::field::Neither { subject, field, said }.into(),
            Some("both") => message::field::Both { subject, field, said }.into(),
            Some(v) => message::field::Stands { subject, field, said, value: v.into() }.into(),
        }
    }

    /// As a finding of the bottle's path.
    pub fn finding(&self) -> Finding {
        let outcome = if self.stands.as_deref() == Some("both") { Outcome::NotKnown } else { Outcome::NotMet };
        Finding::new(
            Check::BottleFieldConflict,
            outcome,
            Message::from(message::field::Differ { conflict: self.message() }),
        )
    }
}

/// The trip whose entries are looked at.
pub struct Trip<'a> {
    pub id: i64,
    pub name: &'a str,
    pub offset_min: i64,
}

/// What an entry says, without time, person and kind.
pub fn body(e: &FieldEntry) -> Map<String, Value> {
    let whole: Value = serde_json::from_str(&e.body).unwrap_or_default();
    whole.get("body").and_then(Value::as_object).cloned().unwrap_or_default()
}

/// Entries that were taken back, by sheet, phone and number.
pub(crate) fn struck(entries: &[FieldEntry]) -> BTreeSet<(&str, &str, i64)> {
    let strikes = entries.iter().filter(|e| e.what == "strike");
    strikes.filter_map(|e| Some((e.sheet.as_str(), e.device.as_str(), body(e).get("strikes")?.as_i64()?))).collect()
}

/// By bottle, column and phone: the text of its last entry.
type Told = BTreeMap<String, BTreeMap<&'static str, BTreeMap<String, Said>>>;

/// What the phones say of bottles, and the event of the newest entry of each.
fn told(entries: &[FieldEntry], offset_min: i64) -> (Told, BTreeMap<String, i64>) {
    let out_of_use = struck(entries);
    let mut told = Told::new();
    let mut newest = BTreeMap::new();
    let mut ordered: Vec<&FieldEntry> = entries.iter().filter(|e| e.what == "bottle").collect();
    ordered.sort_by_key(|e| (e.device.as_str(), e.n));
    for e in ordered {
        if out_of_use.contains(&(e.sheet.as_str(), e.device.as_str(), e.n)) {
            continue;
        }
        let body = body(e);
        let Some(label) = body.get("bottle").and_then(Value::as_str) else { continue };
        let columns = told.entry(label.trim().to_string()).or_default();
        for column in BOTTLE_COLUMNS {
            let Some(text) = body.get("sets").and_then(|s| s.get(column)).and_then(as_text) else { continue };
            let moment = if column.ends_with("_at") { Moment::parse(&text) } else { None };
            let value = moment.map_or(text, |m| m.local(offset_min, e.add_days));
            columns
                .entry(column)
                .or_default()
                .insert(e.device.clone(), Said { device: e.device.clone(), n: e.n, value });
            let event = newest.entry(label.trim().to_string()).or_insert(0);
            *event = e.event.max(*event);
        }
    }
    (told, newest)
}

/// What is to be done with a column.
#[derive(Debug, PartialEq)]
enum Action {
    Leave,
    Set(Said),
    Clear,
}

/// How a column stands in the record.
struct Standing<'a> {
    value: Option<&'a str>,
    /// A sheet brought it, or nobody did.
    by_sheet: bool,
    /// A person decided after the newest entry.
    settled: bool,
}

fn decide(column: &str, said: &BTreeMap<String, Said>, standing: &Standing) -> (Action, bool) {
    if standing.settled {
        return (Action::Leave, false);
    }
    match (agreed(column, said), standing.value) {
        (Some(v), None) => (Action::Set(v), false),
        (Some(v), Some(s)) if standing.by_sheet && s != v.value => (Action::Set(v), false),
        (Some(v), Some(s)) if standing.by_sheet || same(column, s, &v.value) => (Action::Leave, false),
        (None, Some(_)) if standing.by_sheet => (Action::Clear, true),
        _ => (Action::Leave, true),
    }
}

fn seconds(text: &str) -> Option<i64> {
    let civil: jiff::civil::DateTime = text.parse().ok()?;
    Some(jiff::tz::Offset::UTC.to_timestamp(civil).ok()?.as_second())
}

/// The value on which the phones agree.
fn agreed(column: &str, said: &BTreeMap<String, Said>) -> Option<Said> {
    let first = said.values().next()?;
    if said.values().all(|s| s.value == first.value) {
        return Some(first.clone());
    }
    if column.ends_with("_at") {
        let all: Vec<(i64, &Said)> = said.values().map(|s| Some((seconds(&s.value)?, s))).collect::<Option<_>>()?;
        let (low, high) = (all.iter().map(|a| a.0).min()?, all.iter().map(|a| a.0).max()?);
        return (high - low <= SAME_TIME_S)
            .then(|| all.into_iter().min_by_key(|a| a.0).expect("there is one").1.clone());
    }
    if column == "cabinet_min" || column == "open_air_min" {
        let all: Vec<(f64, &Said)> = said.values().map(|s| Some((s.value.parse().ok()?, s))).collect::<Option<_>>()?;
        let (low, high) = all.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), a| (l.min(a.0), h.max(a.0)));
        // Minutes are kept in tenths; half a minute in binary is not to be missed by rounding.
        return (high - low <= SAME_MINUTES + 1e-9)
            .then(|| all.into_iter().max_by(|a, b| a.0.total_cmp(&b.0)).expect("there is one").1.clone());
    }
    None
}

/// Does the record say the same? Times that were noted to the minute are compared to the minute.
fn same(column: &str, stands: &str, value: &str) -> bool {
    stands == value
        || (column.ends_with("_at")
            && stands.get(..16).zip(value.get(..16)).is_some_and(|(a, b)| a.replace(' ', "T") == b))
        || stands.parse::<f64>().ok().zip(value.parse::<f64>().ok()).is_some_and(|(a, b)| (a - b).abs() == 0.0)
}

fn is_sheets(a: &Amendment) -> bool {
    a.person.is_none() && a.why.starts_with(WHY)
}

/// Did a sheet bring what stands in a column?
pub(crate) fn by_sheet(act: &Act, table: &str, row: i64, column: &str) -> Result<bool, StoreError> {
    let filter = Filter::all().is("table_name", table).is("row_id", row).is("column_name", column);
    Ok(act.list::<Amendment>(&filter)?.last().is_some_and(is_sheets))
}

fn standing<'a>(value: &'a str, last: Option<&Amendment>, newest: i64) -> Standing<'a> {
    Standing {
        value: Some(value).filter(|v| !v.is_empty()),
        by_sheet: last.is_some_and(is_sheets),
        settled: last.is_some_and(|a| a.person.is_some() && a.event >= newest),
    }
}

/// Brings bottles up to what the phones say; conflicts, and the number of amendments.
pub fn apply(
    act: &mut Act,
    trip: &Trip,
    sheet: &Sheet,
    out: &mut Collector,
) -> Result<(Vec<Conflict>, u64), StoreError> {
    // All phones' entries of the trip, not this sheet's alone: the order of the files has no effect.
    let entries = act.list::<FieldEntry>(&Filter::all().is("trip", trip.id))?;
    let (told, newest) = told(&entries, trip.offset_min);
    let (table, mapping) = form("bottle").expect("people fill bottles");
    let mut conflicts = differing_readings(&entries, trip);
    let mut amended = 0;
    for (label, columns) in told {
        let Some(columns) = normal((&mapping, table), act.acted_at(), columns, out) else { continue };
        let Some((id, present)) = row_of(act, trip, &label, &columns, sheet, out)? else { continue };
        let filter = Filter::all().is("table_name", "bottle").is("row_id", id);
        let amendments = act.list::<Amendment>(&filter)?;
        let said_here: Vec<(&str, Said)> = columns
            .iter()
            .flat_map(|(column, said)| said.values().map(move |s| (*column, s.clone())))
            .filter(|(_, s)| s.device == sheet.device)
            .collect();
        for (column, said) in columns {
            let place = table.place(column).expect("a column of bottles");
            let last = amendments.iter().rfind(|a| a.column_name == column);
            let standing = standing(&present[place], last, newest[&label]);
            let (action, conflict) = decide(column, &said, &standing);
            let stands = if action == Action::Clear { None } else { standing.value.map(str::to_string) };
            amended += u64::from(action != Action::Leave);
            carry_out(act, (table, id), column, action, sheet, out)?;
            if conflict {
                conflicts.push(Conflict {
                    trip: trip.name.into(),
                    subject: label.clone(),
                    field: column.into(),
                    said: said.into_values().collect(),
                    stands,
                });
            }
        }
        tell_unusual(act, table, id, &said_here, out)?;
    }
    Ok((conflicts, amended))
}

/// What this sheet says of a bottle and somebody should look at once more, at its entries.
fn tell_unusual(
    act: &Act,
    table: &'static Table,
    id: i64,
    said_here: &[(&str, Said)],
    out: &mut Collector,
) -> Result<(), StoreError> {
    for (column, s) in said_here {
        if let Some(says) = plausible::text(table, column, &s.value) {
            out.note(Some(s.n.unsigned_abs()), column, says);
        }
    }
    let Some((column, s)) = said_here.iter().find(|(c, _)| ["acidified_at", "filled_at"].contains(c)) else {
        return Ok(());
    };
    // Which of the two was told by which phone is all the same: they are held together as the record now reads.
    for b in act.list::<Bottle>(&Filter::all().is("id", id))? {
        let both = b.acidified_at.as_deref().zip(b.filled_at.as_deref());
        if let Some(says) = both.and_then(|(acidified, filled)| plausible::acid_first(acidified, filled)) {
            out.note(Some(s.n.unsigned_abs()), column, says);
        }
    }
    Ok(())
}

/// Values as their columns take them; none where one is at fault.
fn normal(
    form: (&Mapping, &'static Table),
    act_at: &str,
    columns: BTreeMap<&'static str, BTreeMap<String, Said>>,
    out: &mut Collector,
) -> Option<BTreeMap<&'static str, BTreeMap<String, Said>>> {
    let mut good = true;
    let mut found: BTreeMap<&'static str, BTreeMap<String, Said>> = BTreeMap::new();
    for (column, said) in columns {
        for (device, s) in said {
            match typed::value(form, act_at, column, &s.value) {
                Ok(value) => {
                    let value = value.unwrap_or_default();
                    found.entry(column).or_default().insert(device, Said { value, ..s });
                }
                Err(why) => {
                    out.add(Check::FileValue, Some(s.n.unsigned_abs()), Some(column), || why);
                    good = false;
                }
            }
        }
    }
    good.then_some(found)
}

/// The bottle's row with its values as text; a bottle that is not there is made where the sheet
/// says what it is.
fn row_of(
    act: &mut Act,
    trip: &Trip,
    label: &str,
    columns: &BTreeMap<&'static str, BTreeMap<String, Said>>,
    sheet: &Sheet,
    out: &mut Collector,
) -> Result<Option<(i64, Vec<String>)>, StoreError> {
    let by_label = Filter::all().is("label", label);
    if let Some(found) = act.as_typed("bottle", &by_label)?.pop() {
        let place = record::schema::table("bottle").and_then(|t| t.place("trip")).expect("a bottle has a trip");
        // A label names one bottle of the whole record: taken here, the sheet would change a bottle of another trip.
        let other = found.1[place].clone();
        if other != trip.name {
            let n = first_entry(sheet, label);
            out.add(Check::FileReference, n, Some("bottle"), || {
                let (bottle, expected) = (quoted(label), expected::BottleOfTrip { trip: trip.name.into() });
                if other.is_empty() {
                    fault(found::BottleOfNoTrip { bottle }, expected)
                } else {
                    fault(found::BottleOfTrip { bottle, trip: other.into() }, expected)
                }
            });
            return Ok(None);
        }
        return Ok(Some(found));
    }
    let first =
        |column: &str| columns.get(column).and_then(|s| s.values().min_by_key(|s| (s.n, s.device.as_str()))).cloned();
    // Sample or blank decides what its results are evidence of, so a bottle of unknown kind is never made.
    let Some(kind) = first("kind") else {
        out.add(Check::FileReference, first_entry(sheet, label), Some("bottle"), || {
            fault(found::Bottle { bottle: quoted(label) }, expected::BottleOrKind)
        });
        return Ok(None);
    };
    let mut row = TypedRow::of("bottle").with("label", label).with("trip", trip.name).with("kind", kind.value.clone());
    if let Some(well) = first("well") {
        row = row.with("well", well.value);
    }
    let (_, faults) = entry::enter_in(act, &[row])?;
    if !faults.is_empty() {
        for f in faults {
            out.add(Check::FileValue, Some(kind.n.unsigned_abs()), f.column.as_deref(), || f.says);
        }
        return Ok(None);
    }
    Ok(act.as_typed("bottle", &by_label)?.pop())
}

fn first_entry(sheet: &Sheet, label: &str) -> Option<u64> {
    let of = |e: &&super::format::Entry| e.body.get("bottle").and_then(Value::as_str).map(str::trim) == Some(label);
    sheet.entries.iter().find(of).map(|e| e.n.unsigned_abs())
}

fn carry_out(
    act: &mut Act,
    (table, row): (&'static Table, i64),
    column: &'static str,
    action: Action,
    sheet: &Sheet,
    out: &mut Collector,
) -> Result<(), StoreError> {
    let (new, why) = match action {
        Action::Leave => return Ok(()),
        Action::Clear => (None, format!("{WHY}{}: phones differ", sheet.id)),
        Action::Set(s) => match typed::referred(act, table, column, &s.value)? {
            Ok(text) => (Some(text), format!("{WHY}{}: entry {} of phone {}", sheet.id, s.n, s.device)),
            Err(why) => {
                out.add(Check::FileReference, Some(s.n.unsigned_abs()), Some(column), || why);
                return Ok(());
            }
        },
    };
    act.amend(&AmendmentIn { table: table.name, row, column, new: new.as_deref(), why: &why, person: None })?;
    Ok(())
}

/// Readings of two phones at one well and moment that differ: both stand, and are shown.
fn differing_readings(entries: &[FieldEntry], trip: &Trip) -> Vec<Conflict> {
    let out_of_use = struck(entries);
    let mut by: BTreeMap<(String, String), Vec<(i64, Said)>> = BTreeMap::new();
    for e in entries
        .iter()
        .filter(|e| e.what == "reading" && !out_of_use.contains(&(e.sheet.as_str(), e.device.as_str(), e.n)))
    {
        let body = body(e);
        let text = |k: &str| body.get(k).and_then(as_text);
        let local = Moment::parse(&e.at).map(|m| m.local(trip.offset_min, e.add_days));
        if let (Some(well), Some(quantity), Some(value), Some(at)) =
            (text("well"), text("quantity"), text("value"), local.as_deref().and_then(seconds))
        {
            by.entry((well, quantity)).or_default().push((at, Said { device: e.device.clone(), n: e.n, value }));
        }
    }
    let mut out = vec![];
    for ((subject, field), mut all) in by {
        all.sort_by(|a, b| (a.0, &a.1.device, a.1.n).cmp(&(b.0, &b.1.device, b.1.n)));
        // Readings of one phone follow each other until they are steady; that they differ is what they are for. Each is
        // held against the last of every other phone within the minute, whoever read in between.
        let mut last: BTreeMap<&str, &(i64, Said)> = BTreeMap::new();
        for b in &all {
            let others = last.values().filter(|a| a.1.device != b.1.device && b.0 - a.0 <= SAME_TIME_S);
            for a in others.filter(|a| !same("value", &a.1.value, &b.1.value)) {
                out.push(Conflict {
                    trip: trip.name.into(),
                    subject: subject.clone(),
                    field: field.clone(),
                    said: vec![a.1.clone(), b.1.clone()],
                    stands: Some("both".into()),
                });
            }
            last.insert(&b.1.device, b);
        }
    }
    out
}

/// All conflicts of field sheets that nobody settled, of one trip or of all.
///
/// # Errors
/// The store cannot be read.
pub fn conflicts(store: &Store, trip: Option<&str>) -> Result<Vec<Conflict>, StoreError> {
    let sheets = store.field_sheets()?;
    let mut out = vec![];
    for t in store.trips()?.iter().filter(|t| trip.is_none_or(|name| name == t.name)) {
        let Some(offset_min) = sheets.iter().find(|s| s.trip_id == t.id).map(|s| s.utc_offset_min) else { continue };
        out.extend(of_trip(store, &Trip { id: t.id, name: &t.name, offset_min })?);
    }
    Ok(out)
}

fn of_trip(store: &Store, trip: &Trip) -> Result<Vec<Conflict>, StoreError> {
    let entries = store.field_entries(&Filter::all().is("trip", trip.id))?;
    let (told, newest) = told(&entries, trip.offset_min);
    let (table, mapping) = form("bottle").expect("people fill bottles");
    let mut out = differing_readings(&entries, trip);
    // Values at fault are told when their file comes in, and are then not kept: nobody waits for them here.
    let mut silent = Collector::new("", false);
    let amendments = store.amendments()?;
    for (label, columns) in told {
        let Some(columns) = normal((&mapping, table), "", columns, &mut silent) else { continue };
        let Some((id, present)) = store.as_typed("bottle", &Filter::all().is("label", label.as_str()))?.pop() else {
            continue;
        };
        for (column, said) in columns {
            let place = table.place(column).expect("a column of bottles");
            let last =
                amendments.iter().rfind(|a| a.table_name == "bottle" && a.row_id == id && a.column_name == column);
            let standing = standing(&present[place], last, newest[&label]);
            if decide(column, &said, &standing).1 {
                let stands = standing.value.map(str::to_string);
                out.push(Conflict {
                    trip: trip.name.into(),
                    subject: label.clone(),
                    field: column.into(),
                    said: said.into_values().collect(),
                    stands,
                });
            }
        }
    }
    Ok(out)
}

/// A person decides what a bottle's column says: an amendment with a reason. Both phones' entries
/// stay. Results follow with `work::recompute`.
///
/// # Errors
/// No such bottle or column; a value that the column does not take; an empty reason; the store.
pub fn settle(
    store: &mut Store,
    by: By,
    why: &str,
    (label, column): (&str, &str),
    value: &str,
) -> Result<EventHash, EntryError> {
    said(why)?;
    let (table, mapping) = form("bottle").expect("people fill bottles");
    let refused = |why: Fault| EntryError::Faults(vec![EntryFault::at("bottle", column, why)]);
    if !BOTTLE_COLUMNS.contains(&column) {
        let expected = expected::OneOf { words: BOTTLE_COLUMNS.join(", ").into() };
        return Err(refused(fault(quoted(column), expected)));
    }
    let Some((row, _)) = store.as_typed("bottle", &Filter::all().is("label", label))?.pop() else {
        return Err(Error::absent("bottle", label, "").into());
    };
    // The person's value need not be one of those that the phones gave: both may be wrong.
    let text = typed::value((&mapping, table), by.at, column, value.trim()).map_err(refused)?;
    let info = ActInfo {
        kind: "settlement".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "bottle": label, "column": column, "why": why }),
    };
    let ((), head) = store.act::<_, EntryError>(&info, |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let new = match &text {
            Some(t) => Some(typed::referred(act, table, column, t)?.map_err(refused)?),
            None => None,
        };
        act.amend(&AmendmentIn { table: "bottle", row, column, new: new.as_deref(), why, person: Some(person) })?;
        Ok(())
    })?;
    Ok(head)
}
