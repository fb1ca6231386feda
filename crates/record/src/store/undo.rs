//! An act that brought rows is taken back, with a reason. Nothing is removed: two tables say which rows no longer count,
//! and every typed read leaves these out (`sql`), as it reads amended columns as amended. What is read raw (`verify`,
//! copies, the package) has all rows.
//!
//! In: the event of an import, or of rows typed in. Out: how many rows of each table no longer count. With the rows that
//! the act brought go those that only speak of them: what was derived of them, exclusions and corrections of them. Where
//! a row that a person stands for refers to one of them (another import, a sign-off, a statement), all of it is refused
//! and these acts are named. Files as they came stay, and so do names that others use (`STAYS`).
//!
//! A name whose row no longer counts is free: the same file may be taken in again, and new rows then stand in the place
//! of the old. Checked in `tests/store_undo.rs` and `crates/programme/tests/undo.rs`.

use super::act::{Act, place_of};
use super::backend::{Filter, Query};
use super::{Cell, Event, EventHash, StoreError};
use crate::schema::{Kind, TABLES, Table};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet, HashSet};

/// Acts that can be taken back: those that bring rows, in their words.
pub const UNDOABLE: [&str; 2] = ["import", "entry"];

/// Tables whose rows stay: files as they came and how they are read; names, which say nothing beside themselves or by
/// which other acts are signed.
const STAYS: [&str; 9] =
    ["mapping", "raw_file", "raw_part", "person", "measurand", "subject", "undone", "undone_rows", "person_key"];

/// Tables whose rows only speak of others and go with them.
const FOLLOWS: [&str; 7] = ["derivation", "share", "attributed", "accounting", "finding", "verdict", "exclusion"];

/// Acts that a refusal names, at most.
const NAMED: usize = 5;

/// Row ids as ranges, in order, which neither touch nor overlap.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
struct Ids(Vec<(i64, i64)>);

impl Ids {
    fn of(mut ids: Vec<(i64, i64)>) -> Self {
        ids.sort_unstable();
        let mut out: Vec<(i64, i64)> = vec![];
        for (first, last) in ids {
            match out.last_mut() {
                Some((_, before)) if first <= *before + 1 => *before = last.max(*before),
                _ => out.push((first, last)),
            }
        }
        Self(out)
    }

    fn has(&self, id: i64) -> bool {
        let at = self.0.partition_point(|(first, _)| *first <= id);
        at > 0 && self.0[at - 1].1 >= id
    }

    fn count(&self) -> u64 {
        self.0.iter().map(|(first, last)| (last - first + 1).unsigned_abs()).sum()
    }
}

/// What is being found to go.
struct Going {
    event: i64,
    /// Of each table.
    rows: Vec<Ids>,
    /// Subjects of which no result is left.
    unspoken: HashSet<i64>,
    /// Subjects of which a result goes.
    touched: HashSet<i64>,
    /// Runs of which counts go: none of their results stands on what is left, whatever vial it is of.
    runs: HashSet<i64>,
    /// Acts that stand on the rows: tables and numbers of rows.
    standing: BTreeMap<i64, BTreeMap<&'static str, u64>>,
}

/// Takes an act back; see [`Act::undo`].
pub(crate) fn undo(
    act: &mut Act,
    event: &Event,
    why: &str,
    person: i64,
) -> Result<BTreeMap<&'static str, u64>, StoreError> {
    let refused = |why: String| Err(StoreError::NotUndone { event: event.number, why });
    if !UNDOABLE.contains(&event.kind.as_str()) {
        return refused(format!(
            "it is of the kind \"{}\"; what is taken back is one of {}",
            event.kind,
            UNDOABLE.join(", ")
        ));
    }
    if let Some(before) = act.list::<crate::model::Undone>(&Filter::all().is("undone_event", event.number))?.first() {
        return refused(format!("event {} took it back already: {}", before.event, before.why));
    }
    let going = Going::of(act, event)?;
    if !going.standing.is_empty() {
        return refused(format!("later acts stand on its rows: {}", named(act, &going.standing)?));
    }
    if going.rows.iter().all(|r| r.0.is_empty()) {
        return refused("it brought no rows that could be taken back: files as they came and names stay".into());
    }
    let cells = [event.number.into(), Cell::Blob(&event.hash.0), why.into(), person.into()];
    let undone = act.insert("undone", &cells)?;
    let mut counts = BTreeMap::new();
    for (table, ids) in TABLES.iter().zip(&going.rows).filter(|(_, ids)| !ids.0.is_empty()) {
        counts.insert(table.name, ids.count());
        for (first, last) in &ids.0 {
            act.insert("undone_rows", &[undone.into(), table.name.into(), (*first).into(), (*last).into()])?;
        }
    }
    Ok(counts)
}

/// Rows that the act wrote, as its event says.
fn brought(event: &Event, table: &Table) -> Ids {
    let entry = &event.json["tables"][table.name];
    match (entry["first"].as_i64(), entry["rows"].as_i64()) {
        (Some(first), Some(rows)) if rows > 0 && !STAYS.contains(&table.name) => Ids(vec![(first, first + rows - 1)]),
        _ => Ids::default(),
    }
}

impl Going {
    fn of(act: &Act, event: &Event) -> Result<Self, StoreError> {
        let rows = TABLES.iter().map(|t| brought(event, t)).collect();
        let (unspoken, touched, runs, standing) = Default::default();
        let mut out = Self { event: event.number, rows, unspoken, touched, runs, standing };
        // In the order of the schema each table refers to earlier ones, or to itself.
        for (at, table) in TABLES.iter().enumerate().filter(|(_, t)| !STAYS.contains(&t.name)) {
            match table.name {
                "amendment" => out.corrections(act, table)?,
                _ => out.table(act, at, table)?,
            }
            match table.name {
                "reading" => out.runs_of(act, table, at)?,
                "result" => out.subjects(act, table, at)?,
                _ => {}
            }
        }
        Ok(out)
    }

    /// Whether the row that a reference names goes.
    fn goes(&self, other: usize, id: i64, sign_off: bool) -> bool {
        match TABLES[other].name {
            "subject" if sign_off => self.touched.contains(&id),
            "subject" => self.unspoken.contains(&id),
            _ => self.rows[other].has(id),
        }
    }

    /// Rows of other acts that refer to what goes: they go with it, or stand on it.
    fn table(&mut self, act: &Act, at: usize, table: &'static Table) -> Result<(), StoreError> {
        let mut refers = vec![];
        for column in table.columns {
            let Kind::Row(other) = column.kind else { continue };
            let other = place_of(other)?;
            let any =
                if TABLES[other].name == "subject" { !self.touched.is_empty() } else { !self.rows[other].0.is_empty() };
            if any {
                refers.push((column.name, other));
            }
        }
        let derived = table.name == "result";
        if refers.is_empty() && (!derived || self.runs.is_empty()) {
            return Ok(());
        }
        let mut paths = vec!["id", "event"];
        paths.extend(derived.then_some("vial.run"));
        let own = paths.len();
        paths.extend(refers.iter().map(|(name, _)| *name));
        let (mut with, mut standing) = (self.rows[at].0.clone(), BTreeMap::new());
        let all = Filter::all();
        let query = Query { table, paths: &paths, filter: &all, amended: true };
        act.reading().select(&query, &mut |row| {
            let number = |place| if let Cell::Integer(i) = row.cell(place) { Some(i) } else { None };
            let (Some(id), Some(event)) = (number(0), number(1)) else { return Ok(()) };
            let goes = |(place, (_, other)): (usize, &(&str, usize))| {
                number(own + place).is_some_and(|id| self.goes(*other, id, table.name == "sign_off"))
            };
            // A result of counts is derived, one without a vial was reported.
            let run = if derived { number(2) } else { None };
            let of_counts = run.is_some_and(|run| self.runs.contains(&run));
            if event == self.event || !(of_counts || refers.iter().enumerate().any(goes)) {
                return Ok(());
            }
            if FOLLOWS.contains(&table.name) || run.is_some() {
                with.push((id, id));
            } else {
                *standing.entry(event).or_insert(0) += 1;
            }
            Ok(())
        })?;
        self.rows[at] = Ids::of(with);
        for (event, rows) in standing {
            self.standing.entry(event).or_default().insert(table.name, rows);
        }
        Ok(())
    }

    /// The runs whose counts go.
    fn runs_of(&mut self, act: &Act, table: &'static Table, at: usize) -> Result<(), StoreError> {
        if self.rows[at].0.is_empty() {
            return Ok(());
        }
        let all = Filter::all();
        let query = Query { table, paths: &["id", "vial.run"], filter: &all, amended: true };
        act.reading().select(&query, &mut |row| {
            if let (Cell::Integer(id), Cell::Integer(run)) = (row.cell(0), row.cell(1))
                && self.rows[at].has(id)
            {
                self.runs.insert(run);
            }
            Ok(())
        })
    }

    /// What verdicts speak of: where no result is left, they go too.
    fn subjects(&mut self, act: &Act, table: &'static Table, at: usize) -> Result<(), StoreError> {
        if self.rows[at].0.is_empty() {
            return Ok(());
        }
        let mut left = HashSet::new();
        let all = Filter::all();
        let query = Query { table, paths: &["id", "subject"], filter: &all, amended: true };
        act.reading().select(&query, &mut |row| {
            if let (Cell::Integer(id), Cell::Integer(subject)) = (row.cell(0), row.cell(1)) {
                if self.rows[at].has(id) { &mut self.touched } else { &mut left }.insert(subject);
            }
            Ok(())
        })?;
        self.unspoken = self.touched.difference(&left).copied().collect();
        Ok(())
    }

    /// Corrections of rows that go.
    fn corrections(&mut self, act: &Act, table: &'static Table) -> Result<(), StoreError> {
        let at = place_of(table.name)?;
        let mut with = self.rows[at].0.clone();
        for a in act.list::<crate::model::Amendment>(&Filter::all())? {
            if self.rows[place_of(&a.table_name)?].has(a.row_id) {
                with.push((a.id, a.id));
            }
        }
        self.rows[at] = Ids::of(with);
        Ok(())
    }
}

/// Acts by what a person knows of them.
fn named(act: &Act, standing: &BTreeMap<i64, BTreeMap<&'static str, u64>>) -> Result<String, StoreError> {
    let mut out = vec![];
    for (event, tables) in standing.iter().take(NAMED) {
        let about = super::events_of(act.reading(), event - 1, Some(*event))?.pop();
        let rows: Vec<String> = tables.iter().map(|(table, n)| format!("{n} of {table}")).collect();
        let about = about.map_or_else(String::new, |e| format!(", {} by {}", in_words(&e), e.author));
        out.push(format!("event {event}{about} (rows: {})", rows.join(", ")));
    }
    if standing.len() > NAMED {
        out.push(format!("… and {} more", standing.len() - NAMED));
    }
    Ok(out.join("; "))
}

/// What an act was, with the name that stands in its event.
fn in_words(event: &Event) -> String {
    let body = &event.json["body"];
    let files = body["files"].as_array().into_iter().flatten().filter_map(|f| f["file"].as_str());
    let names = ["result", "name", "what"].iter().filter_map(|n| body[*n].as_str());
    let about: BTreeSet<&str> = files.chain(names).collect();
    let about = about.into_iter().collect::<Vec<_>>().join(", ");
    if about.is_empty() { event.kind.clone() } else { format!("{} of {about}", event.kind) }
}

/// The act that a person means by its number or by the beginning of its hash.
pub(crate) fn meant(events: &[Event], text: &str) -> Result<Event, StoreError> {
    let text = text.trim().to_lowercase();
    let by_number = text.parse::<i64>().ok().and_then(|n| events.iter().find(|e| e.number == n));
    let begins = |e: &&Event| text.len() >= LEAST_OF_A_HASH && e.hash.to_string().starts_with(&text);
    let by_hash: Vec<&Event> = events.iter().filter(begins).collect();
    match (by_number, by_hash.as_slice()) {
        (Some(event), _) => Ok(event.clone()),
        (None, [event]) => Ok((*event).clone()),
        (None, found) => Err(StoreError::NoEvent { found: text, several: found.len() }),
    }
}

/// Digits of a hash by which an act is told; fewer may be a number mistyped.
const LEAST_OF_A_HASH: usize = 6;

/// An event as it is read from its row.
pub(crate) fn event_of(id: i64, body: &str, hash: &[u8]) -> Event {
    let json: Value = serde_json::from_str(body).unwrap_or(Value::Null);
    let word = |name: &str| json[name].as_str().unwrap_or_default().to_owned();
    Event {
        number: id,
        kind: word("act"),
        author: word("author"),
        at: word("at"),
        hash: EventHash(hash.try_into().unwrap_or_default()),
        json,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_come_together_in_ranges() {
        let ids = Ids::of(vec![(7, 7), (1, 3), (4, 4), (3, 3), (9, 12), (8, 8)]);
        assert_eq!(ids.0, [(1, 4), (7, 12)]);
        assert_eq!(ids.count(), 10);
        assert_eq!((1..=13).filter(|i| !ids.has(*i)).collect::<Vec<_>>(), [5, 6, 13]);
        assert!(!ids.has(0));
    }
}
