//! Is every stored value still what it was? One pass through each table, in the order of ids,
//! against the digests that the events hold, and one pass through the chain of events.
//!
//! Out: typed differences, each with the table, the rows and the event. What a row's digest covers
//! is described in `cell`; free pages of the database file are not data. Where one row under a digest
//! was altered, the sums beside the digest say which (`trace`).

use super::act::{GENESIS, ROWS_PER_DIGEST, link};
use super::backend::{Backend, Filter};
use super::cell::encode_row;
use super::trace::Sums;
use super::{Cell, EventHash, StoreError, canonical_json, dump_as_of, dump_from};
use crate::schema::{TABLES, Table};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fmt;

/// Something in the store is not what it was when it was written.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Difference {
    /// An event's body or hash was altered.
    EventAltered {
        /// Number of the event.
        event: i64,
    },
    /// An event is missing from the chain.
    EventMissing {
        /// Number of the event.
        event: i64,
    },
    /// The head hash noted elsewhere is nowhere in the chain: its tail was cut, or all of it was
    /// rewritten.
    HeadMissing {
        /// The hash looked for.
        noted: String,
    },
    /// Rows that an event wrote were altered or are missing.
    Rows {
        /// Table.
        table: &'static str,
        /// Event that wrote them.
        event: i64,
        /// The one row, or the first of those under one digest.
        first: i64,
        /// The same row, or the last of them.
        last: i64,
        /// How many of them are there.
        found: u64,
    },
    /// A row that no event wrote.
    RowWithoutEvent {
        /// Table.
        table: &'static str,
        /// Row.
        row: i64,
        /// The event that it names.
        event: i64,
    },
    /// A raw file, mapping or recipe whose content is not what its hash says.
    Content {
        /// Table.
        table: &'static str,
        /// Row.
        row: i64,
    },
    /// A reference to a row that is not there.
    Dangling {
        /// Table.
        table: String,
        /// Row.
        row: i64,
        /// Table referred to.
        refers_to: String,
    },
    /// A table, index or view that is missing, altered or of another program.
    Schema {
        /// Its name.
        object: String,
        /// What about it.
        detail: String,
    },
    /// Pages or indexes of the file are damaged.
    Damaged {
        /// What the database says.
        detail: String,
    },
}

impl fmt::Display for Difference {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::EventAltered { event } => write!(f, "event {event} was altered"),
            Self::EventMissing { event } => write!(f, "event {event} is missing"),
            Self::HeadMissing { noted } => {
                write!(f, "the head hash {noted} is not in the chain: events were removed or rewritten")
            }
            Self::Rows { table, event, first, last, found: 0 } if first == last => {
                write!(f, "{table}, row {first} of event {event}: removed")
            }
            Self::Rows { table, event, first, last, .. } if first == last => {
                write!(f, "{table}, row {first} of event {event}: altered")
            }
            Self::Rows { table, event, first, last, found } => write!(
                f,
                "{table}, rows {first} to {last} of event {event}: altered, added or removed ({found} of {} are there)",
                last - first + 1
            ),
            Self::RowWithoutEvent { table, row, event } => {
                write!(f, "{table}, row {row}: no event wrote it (it names event {event})")
            }
            Self::Content { table, row } => {
                write!(f, "{table}, row {row}: its content is not what its hash says")
            }
            Self::Dangling { table, row, refers_to } => {
                write!(f, "{table}, row {row}: refers to a row of {refers_to} that is not there")
            }
            Self::Schema { object, detail } => write!(f, "schema, {object}: {detail}"),
            Self::Damaged { detail } => write!(f, "file damaged: {detail}"),
        }
    }
}

/// The answer of `verify`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Verification {
    /// Hash of the last event as recomputed.
    pub head: Option<EventHash>,
    /// Events looked at.
    pub events: u64,
    /// Rows looked at.
    pub rows: u64,
    /// What differs; empty: everything is what it was.
    pub differences: Vec<Difference>,
}

/// Rows under one digest, as an event says.
struct Block {
    event: i64,
    first: i64,
    last: i64,
    digest: String,
    /// Sums beside the digest; acts kept by earlier programs have none.
    sums: Option<Sums>,
}

pub(crate) fn verify(backend: &dyn Backend, noted: Option<EventHash>) -> Result<Verification, StoreError> {
    let shape = backend.check()?;
    let mut out = None;
    // Others may write meanwhile: events and rows are read as they stand at one moment.
    backend.standing(&mut || {
        out = Some(as_it_stands(backend, noted, shape.clone())?);
        Ok(())
    })?;
    Ok(out.expect("the store does the work it is given"))
}

/// Events and rows, after the database's own check (`shape`), which wants a moment of its own: on a server it makes
/// views to compare with, and takes them back.
pub(crate) fn as_it_stands(
    backend: &dyn Backend,
    noted: Option<EventHash>,
    shape: Vec<Difference>,
) -> Result<Verification, StoreError> {
    let mut out = Verification { head: None, events: 0, rows: 0, differences: shape };
    rows(backend, noted, &mut out, &mut |_, _, _, _| Ok(()))?;
    check_contents(backend, &mut out)?;
    Ok(out)
}

/// Refuses where an event or a row is not what was written. What is only of the database itself (its pages, indexes,
/// schema) is left to [`verify`], and so is what a raw file holds: its parts are rows. Each row is handed out while it is
/// looked at: who carries them away need not read them twice.
pub(crate) fn as_written(backend: &dyn Backend, each: EachOfAll) -> Result<(), StoreError> {
    let mut out = Verification { head: None, events: 0, rows: 0, differences: vec![] };
    backend.standing(&mut || rows(backend, None, &mut out, each))?;
    if out.differences.is_empty() { Ok(()) } else { Err(StoreError::NotAsWritten { differences: out.differences }) }
}

/// What is done with the table, id, event and cells of each row of every table.
pub type EachOfAll<'a> = &'a mut dyn FnMut(&'static Table, i64, i64, &[Cell]) -> Result<(), StoreError>;

/// The chain, and every row of every table against it.
fn rows(
    backend: &dyn Backend,
    noted: Option<EventHash>,
    out: &mut Verification,
    each: EachOfAll,
) -> Result<(), StoreError> {
    let version = backend.schema_version()?;
    let blocks = chain(backend, noted, out)?;
    for (table, blocks) in TABLES.iter().zip(blocks) {
        check_table(backend, (table, version), &blocks, out, each)?;
    }
    Ok(())
}

/// Walks the chain; answers the blocks of each table.
fn chain(
    backend: &dyn Backend,
    noted: Option<EventHash>,
    out: &mut Verification,
) -> Result<Vec<Vec<Block>>, StoreError> {
    let mut blocks: Vec<Vec<Block>> = TABLES.iter().map(|_| vec![]).collect();
    let mut previous = GENESIS;
    let mut expected = 1;
    let mut noted_seen = noted.is_none();
    backend.events(0, &mut |row| {
        for event in expected..row.id {
            out.differences.push(Difference::EventMissing { event });
        }
        expected = row.id + 1;
        out.events += 1;
        let hash = link(&previous, row.body);
        let body: Value = serde_json::from_str(row.body).unwrap_or(Value::Null);
        let canonical = canonical_json(&body).is_ok_and(|text| text == row.body);
        if hash != *row.hash || !canonical || body["number"].as_i64() != Some(row.id) {
            out.differences.push(Difference::EventAltered { event: row.id });
        }
        // Go on from the stored hash, so that one altered event is told once.
        previous = row.hash.try_into().unwrap_or(hash);
        noted_seen |= noted == Some(EventHash(previous));
        blocks_of(&body, row.id, &mut blocks);
        Ok(())
    })?;
    out.head = (out.events > 0).then_some(EventHash(previous));
    if let (false, Some(noted)) = (noted_seen, noted) {
        out.differences.push(Difference::HeadMissing { noted: noted.to_string() });
    }
    Ok(blocks)
}

fn blocks_of(body: &Value, event: i64, blocks: &mut [Vec<Block>]) {
    for (table, blocks) in TABLES.iter().zip(blocks) {
        let entry = &body["tables"][table.name];
        let (Some(first), Some(rows)) = (entry["first"].as_i64(), entry["rows"].as_i64()) else {
            continue;
        };
        let digests = entry["digests"].as_array().map_or(&[][..], Vec::as_slice);
        let size = ROWS_PER_DIGEST.cast_signed();
        let sums = |i: i64| entry["traces"].get(usize::try_from(i).ok()?)?.as_str().and_then(Sums::read);
        for (i, digest) in (0i64..).zip(digests) {
            let from = first.saturating_add(i * size);
            blocks.push(Block {
                event,
                first: from,
                last: from.saturating_add(size).min(first.saturating_add(rows)) - 1,
                digest: digest.as_str().unwrap_or_default().to_owned(),
                sums: sums(i),
            });
        }
    }
}

/// Where the pass through a table stands.
struct Pass<'a> {
    table: &'static Table,
    blocks: &'a [Block],
    at: usize,
    found: u64,
    hasher: blake3::Hasher,
    gathered: Vec<u8>,
    /// Blocks that are not what was written, and how many of their rows are there.
    altered: Vec<(usize, u64)>,
}

impl Pass<'_> {
    /// Closes blocks that end before row `id`.
    fn close_before(&mut self, id: i64) {
        while let Some(block) = self.blocks.get(self.at).filter(|b| b.last < id) {
            self.hasher.update(&self.gathered);
            self.gathered.clear();
            if self.hasher.finalize().to_hex().as_str() != block.digest {
                self.altered.push((self.at, self.found));
            }
            self.hasher.reset();
            self.found = 0;
            self.at += 1;
        }
    }

    fn row(&mut self, id: i64, event: i64, cells: &[Cell], out: &mut Verification) {
        out.rows += 1;
        self.close_before(id);
        match self.blocks.get(self.at) {
            Some(block) if block.first <= id => {
                self.found += 1;
                encode_row(&mut self.gathered, id, event, cells);
                if self.gathered.len() > 1 << 16 {
                    self.hasher.update(&self.gathered);
                    self.gathered.clear();
                }
            }
            _ => out.differences.push(Difference::RowWithoutEvent { table: self.table.name, row: id, event }),
        }
    }
}

/// Checks the rows of a table as schema version `version` has it: an older file that cannot be written stays older.
fn check_table(
    backend: &dyn Backend,
    (table, version): (&'static Table, u32),
    blocks: &[Block],
    out: &mut Verification,
    each: EachOfAll,
) -> Result<(), StoreError> {
    let (hasher, gathered, altered) = (blake3::Hasher::new(), vec![], vec![]);
    let mut pass = Pass { table, blocks, at: 0, found: 0, hasher, gathered, altered };
    if table.since() <= version {
        dump_as_of(backend, (table, version), &Filter::all(), &mut |id, event, cells| {
            pass.row(id, event, cells, out);
            each(table, id, event, cells)
        })?;
    }
    pass.close_before(i64::MAX);
    for (at, found) in pass.altered {
        let block = &blocks[at];
        let (first, last, found) = match altered_row(backend, (table, version), block)? {
            Some((row, there)) => (row, row, there),
            None => (block.first, block.last, found),
        };
        out.differences.push(Difference::Rows { table: table.name, event: block.event, first, last, found });
    }
    Ok(())
}

/// The one row under a digest that is not what was written, and 1 where it is there, else 0.
fn altered_row(
    backend: &dyn Backend,
    (table, version): (&'static Table, u32),
    block: &Block,
) -> Result<Option<(i64, u64)>, StoreError> {
    // What an altered event says may be anything.
    let sound = (1..=block.last).contains(&block.first) && table.since() <= version;
    let Some(kept) = block.sums.filter(|_| sound) else { return Ok(None) };
    let rows = (block.last - block.first + 1).unsigned_abs();
    let (mut found, mut there, mut bytes) = (Sums::default(), BTreeSet::new(), vec![]);
    let within = Filter::all().after(block.first - 1).limit(rows);
    dump_as_of(backend, (table, version), &within, &mut |id, event, cells| {
        if let Some(place) = (block.first..=block.last).contains(&id).then(|| (id - block.first + 1).unsigned_abs()) {
            bytes.clear();
            encode_row(&mut bytes, id, event, cells);
            found.add(place, &bytes);
            there.insert(id);
        }
        Ok(())
    })?;
    let place = kept.place_of_difference(found, rows).and_then(|p| i64::try_from(p).ok());
    Ok(place.map(|p| block.first + p - 1).map(|row| (row, u64::from(there.contains(&row)))))
}

/// Raw files, mappings and recipes against the hashes in their own rows.
fn check_contents(backend: &dyn Backend, out: &mut Verification) -> Result<(), StoreError> {
    for name in ["mapping", "recipe"] {
        let table = &TABLES[super::act::place_of(name)?];
        dump_from(backend, table, &Filter::all(), &mut |row, _, cells| {
            if let [_, _, Cell::Text(text), Cell::Blob(hash)] = cells
                && blake3::hash(text.as_bytes()).as_bytes() != *hash
            {
                out.differences.push(Difference::Content { table: table.name, row });
            }
            Ok(())
        })?;
    }
    let mut files = vec![];
    let table = &TABLES[super::act::place_of("raw_file")?];
    dump_from(backend, table, &Filter::all(), &mut |row, _, cells| {
        if let Cell::Blob(hash) = cells[1] {
            files.push((row, hash.to_vec()));
        }
        Ok(())
    })?;
    let parts = &TABLES[super::act::place_of("raw_part")?];
    for (row, hash) in files {
        // Part by part: a raw file may be larger than memory. Parts come in order, by their ids.
        let mut hasher = blake3::Hasher::new();
        let of_it = Filter::all().is("raw_file", row);
        dump_from(backend, parts, &of_it, &mut |_, _, cells| {
            if let Cell::Blob(bytes) = cells[2] {
                hasher.update(bytes);
            }
            Ok(())
        })?;
        if hasher.finalize().as_bytes() != hash.as_slice() {
            out.differences.push(Difference::Content { table: "raw_file", row });
        }
    }
    Ok(())
}
