//! One act: all rows that a person or the program adds at once, in one transaction, closed by
//! one event. Each row is checked against the declared schema, given its id, added to the digest
//! of its table, and written; nothing is read back.

use super::backend::{EventRow, Filter, Reading, Writing};
use super::canonical::canonical_json;
use super::cell::encode_row;
use super::names::Names;
use super::read::{Typed, list_from};
use super::said::Said;
use super::trace::Sums;
use super::{ActInfo, Cell, EventHash, StoreError, migrate};
use crate::schema::{Kind, TABLES, Table};
use serde_json::{Map, Value, json};
use std::io::Read;

/// Rows under one digest: what `verify` can narrow a difference down to where more than one row was altered.
pub(crate) const ROWS_PER_DIGEST: u64 = 4096;

/// The hash before the first event.
pub(crate) const GENESIS: [u8; 32] = [0; 32];

/// Bytes of a raw file in one row.
const PART_BYTES: usize = 4 << 20;

/// Bytes gathered before they go to the hash.
const GATHER_BYTES: usize = 1 << 16;

/// More columns than any table has.
pub(crate) const MOST_COLUMNS: usize = 48;

/// What an act knows of one table.
#[derive(Default)]
struct TableState {
    /// Highest id so far.
    highest: i64,
    /// Highest id when the act began.
    begun: i64,
    first: i64,
    rows: u64,
    gathered: Vec<u8>,
    hasher: blake3::Hasher,
    digests: Vec<String>,
    sums: Sums,
    /// Sums beside each digest.
    traces: Vec<String>,
    /// Names already looked up or added, where the table's name is its own (no reference in it).
    names: Names,
    /// Whether `names` holds every row: the table was empty when the act began.
    all_known: bool,
    /// Whether its rows are named by themselves, not within another row.
    named_alone: bool,
    /// Places of its references and of the tables they refer to.
    refers: Vec<(usize, usize)>,
}

impl TableState {
    fn digest(&mut self, id: i64, event: i64, cells: &[Cell]) {
        let start = self.gathered.len();
        encode_row(&mut self.gathered, id, event, cells);
        self.sums.add(self.rows % ROWS_PER_DIGEST + 1, &self.gathered[start..]);
        self.rows += 1;
        if self.gathered.len() >= GATHER_BYTES {
            self.hasher.update(&self.gathered);
            self.gathered.clear();
        }
        if self.rows.is_multiple_of(ROWS_PER_DIGEST) {
            self.close_block();
        }
    }

    fn close_block(&mut self) {
        self.hasher.update(&self.gathered);
        self.gathered.clear();
        self.digests.push(self.hasher.finalize().to_hex().to_string());
        self.hasher.reset();
        self.traces.push(std::mem::take(&mut self.sums).in_words());
    }

    fn entry(&mut self) -> Value {
        if !self.rows.is_multiple_of(ROWS_PER_DIGEST) {
            self.close_block();
        }
        json!({"first": self.first, "rows": self.rows, "digests": self.digests, "traces": self.traces})
    }
}

/// A raw file to keep.
#[derive(Debug, Clone, Copy)]
pub struct RawFileIn<'a> {
    /// File name without folder.
    pub name: &'a str,
    /// BLAKE3 of its bytes, from [`hash_bytes`](super::hash_bytes).
    pub hash: [u8; 32],
    /// Bytes.
    pub size: u64,
    /// How it is read: id of a row of `mapping`.
    pub mapping: i64,
    /// Data rows taken, where known.
    pub rows: Option<i64>,
}

/// A correction to enter.
#[derive(Debug, Clone, Copy)]
pub struct AmendmentIn<'a> {
    /// Table.
    pub table: &'a str,
    /// Row.
    pub row: i64,
    /// Column; not one of the row's name.
    pub column: &'a str,
    /// As it is read from now on, as text; `None` takes the value away.
    pub new: Option<&'a str>,
    /// Reason.
    pub why: &'a str,
    /// Who: id of a row of `person`.
    pub person: Option<i64>,
}

/// An act in the making.
pub struct Act<'s> {
    writing: Box<dyn Writing + 's>,
    at: String,
    event: i64,
    previous: [u8; 32],
    notes: Map<String, Value>,
    tables: Vec<TableState>,
    last: usize,
}

/// The declared table of that name and its place.
pub(crate) fn place_of(name: &str) -> Result<usize, StoreError> {
    TABLES.iter().position(|t| t.name == name).ok_or_else(|| StoreError::UnknownTable { table: name.into() })
}

/// Whether a table's rows are named by themselves, not within another row.
fn names_are_its_own(table: &Table) -> bool {
    !table.key.is_empty()
        && table.columns.iter().all(|c| !matches!(c.kind, Kind::Row(_) | Kind::Blob) || !table.is_key(c.name))
}

/// Places of a table's references, and of the tables referred to.
fn references(table: &'static Table) -> Result<Vec<(usize, usize)>, StoreError> {
    let mut out = vec![];
    for (place, column) in table.columns.iter().enumerate() {
        if let Kind::Row(other) = column.kind {
            out.push((place, place_of(other)?));
        }
    }
    Ok(out)
}

/// A value as its column keeps it: whole numbers as numbers where numbers are kept, no −0.
pub fn fitted<'a>(table: &'static Table, place: usize, cell: &Cell<'a>) -> Result<Cell<'a>, StoreError> {
    let column = &table.columns[place];
    let fits = match (column.kind, cell) {
        (_, Cell::Null) => !column.required,
        (Kind::Real, Cell::Real(x)) if x.is_finite() => return Ok(Cell::Real(x + 0.0)),
        (Kind::Real, Cell::Integer(i)) if i.unsigned_abs() < 1 << 53 => {
            return Ok(Cell::Real(*i as f64));
        }
        (Kind::Integer | Kind::Row(_), Cell::Integer(_)) | (Kind::Blob, Cell::Blob(_)) => true,
        (Kind::Word(words), Cell::Text(t)) => words.contains(t),
        (Kind::Json, Cell::Text(t)) => serde_json::from_str::<serde::de::IgnoredAny>(t).is_ok(),
        (Kind::Text | Kind::Time | Kind::Unit, Cell::Text(t)) => !t.as_bytes().contains(&0),
        _ => false,
    };
    if fits {
        return Ok(*cell);
    }
    Err(StoreError::Value {
        table: table.name,
        column: column.name,
        found: cell.describe(),
        expected: expected(column.kind, column.required),
    })
}

fn expected(kind: Kind, required: bool) -> String {
    let what = match kind {
        Kind::Text | Kind::Time | Kind::Unit => "text without a zero character".into(),
        Kind::Word(words) => format!("one of {}", words.join(", ")),
        Kind::Integer => "a whole number".into(),
        Kind::Real => "a finite number".into(),
        Kind::Json => "JSON".into(),
        Kind::Blob => "bytes".into(),
        Kind::Row(other) => format!("the id of a row of {other}"),
    };
    if required { what } else { format!("{what}, or nothing") }
}

impl<'s> Act<'s> {
    pub(crate) fn begin(mut writing: Box<dyn Writing + 's>, at: &str) -> Result<Self, StoreError> {
        let (event, previous) = match writing.last_event()? {
            None => (1, GENESIS),
            Some((id, hash)) => (id + 1, hash.try_into().unwrap_or(GENESIS)),
        };
        let mut tables = vec![];
        for table in TABLES {
            let highest = writing.highest_id(table)?;
            tables.push(TableState {
                highest,
                begun: highest,
                all_known: highest == 0,
                named_alone: names_are_its_own(table),
                refers: references(table)?,
                ..TableState::default()
            });
        }
        Ok(Self { writing, at: at.into(), event, previous, notes: Map::new(), tables, last: 0 })
    }

    /// Closes the act with its event.
    ///
    /// # Errors
    /// The store cannot be written; [`StoreError::WriteConflict`].
    pub fn finish(mut self, info: &ActInfo) -> Result<EventHash, StoreError> {
        let mut written = Map::new();
        for (table, state) in TABLES.iter().zip(&mut self.tables) {
            if state.rows > 0 {
                written.insert(table.name.into(), state.entry());
            }
        }
        let mut body = match info.body.clone() {
            Value::Object(members) => members,
            Value::Null => Map::new(),
            other => Map::from_iter([("value".to_owned(), other)]),
        };
        body.append(&mut self.notes);
        let body = canonical_json(&json!({
            "act": info.kind, "author": info.author, "at": info.at, "body": body,
            "engine": env!("CARGO_PKG_VERSION"), "number": self.event,
            "schema": migrate::current_version(), "tables": written,
        }))?;
        let hash = link(&self.previous, &body);
        self.writing.append_event(&EventRow { id: self.event, body: &body, hash: &hash })?;
        self.writing.commit()?;
        Ok(EventHash(hash))
    }

    /// Hash of the event before.
    pub(crate) fn stands_on(&self) -> [u8; 32] {
        self.previous
    }

    /// The time of the act, as its caller gives it.
    pub fn acted_at(&self) -> &str {
        &self.at
    }

    /// What the rows of a table say, this act's own included.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn said(&self, table: &'static Table) -> Result<Said, StoreError> {
        Said::of(self.reading(), table)
    }

    /// Number of the event that this act will be.
    pub fn event(&self) -> i64 {
        self.event
    }

    /// Adds a member to the body of the event.
    pub fn note(&mut self, name: &str, value: Value) {
        self.notes.insert(name.into(), value);
    }

    /// Place of a table; the one asked last is at hand.
    fn at(&mut self, table: &str) -> Result<usize, StoreError> {
        if TABLES[self.last].name != table {
            self.last = place_of(table)?;
        }
        Ok(self.last)
    }

    /// Adds a row: one cell for each declared column, in order. Answers its id.
    ///
    /// # Errors
    /// No such table, a wrong number of cells, a value that the column cannot hold, a name that
    /// is taken, a reference to nothing, a full disk. The act is then lost as a whole.
    pub fn insert(&mut self, table: &str, cells: &[Cell]) -> Result<i64, StoreError> {
        let at = self.at(table)?;
        let declared = &TABLES[at];
        if cells.len() == declared.columns.len() && self.may_stand_already(at, cells) {
            let key: Vec<Cell> = key_cells(declared, cells).collect();
            if self.find_at(at, &key)?.is_some() {
                let key = key.iter().map(Cell::describe).collect::<Vec<_>>().join(", ");
                return Err(StoreError::Duplicate { table: declared.name, key });
            }
        }
        self.insert_new(at, cells)
    }

    /// Whether an earlier act may have given this row's name: not in a table that was empty, nor within a row that this
    /// act added. Two of one name in one act the database tells.
    fn may_stand_already(&self, at: usize, cells: &[Cell]) -> bool {
        let (declared, state) = (&TABLES[at], &self.tables[at]);
        let within_new = |&(place, other): &(usize, usize)| {
            let within = declared.is_key(declared.columns[place].name);
            within && matches!(cells[place], Cell::Integer(id) if id > self.tables[other].begun)
        };
        state.begun > 0 && !declared.key.is_empty() && !state.refers.iter().any(within_new)
    }

    /// Adds a row whose name nothing bears.
    fn insert_new(&mut self, at: usize, cells: &[Cell]) -> Result<i64, StoreError> {
        let declared = &TABLES[at];
        if cells.len() != declared.columns.len() {
            return Err(StoreError::Width {
                table: declared.name,
                expected: declared.columns.len(),
                found: cells.len(),
            });
        }
        let mut row = [Cell::Null; MOST_COLUMNS];
        for (place, cell) in cells.iter().enumerate() {
            row[place] = fitted(declared, place, cell)?;
        }
        let row = &row[..cells.len()];
        self.check_references(at, row)?;
        let id = self.tables[at].highest + 1;
        self.writing.insert(at, id, self.event, row)?;
        let state = &mut self.tables[at];
        state.highest = id;
        if state.rows == 0 {
            state.first = id;
        }
        state.digest(id, self.event, row);
        if state.named_alone {
            state.names.insert(key_cells(declared, row), id);
        }
        Ok(id)
    }

    /// Whether the rows referred to are there.
    fn check_references(&self, at: usize, row: &[Cell]) -> Result<(), StoreError> {
        for &(place, other) in &self.tables[at].refers {
            if let Cell::Integer(id) = row[place] {
                self.check_row(&TABLES[at], place, id, other)?;
            }
        }
        Ok(())
    }

    /// Whether row `id` of table `other` is there, to which a column refers: ids run from 1
    /// without gaps.
    pub(crate) fn check_row(
        &self,
        table: &'static Table,
        place: usize,
        id: i64,
        other: usize,
    ) -> Result<(), StoreError> {
        if (1..=self.tables[other].highest).contains(&id) {
            return Ok(());
        }
        Err(StoreError::Dangling {
            table: table.name,
            column: table.columns[place].name,
            row: id,
            refers_to: TABLES[other].name,
        })
    }

    /// The row with this name (`key` columns in declared order), this act's own rows included.
    /// Names are remembered during the act.
    ///
    /// # Errors
    /// No such table, or a table whose rows have no name; a wrong number of cells.
    pub fn find(&mut self, table: &str, key: &[Cell]) -> Result<Option<i64>, StoreError> {
        let at = self.at(table)?;
        let declared = &TABLES[at];
        expect_key(declared, key.len(), declared.key.len())?;
        self.find_at(at, key)
    }

    fn find_at(&mut self, at: usize, key: &[Cell]) -> Result<Option<i64>, StoreError> {
        let state = &mut self.tables[at];
        if !state.named_alone {
            return if state.highest == 0 { Ok(None) } else { self.writing.find(at, key) };
        }
        if let Some(id) = state.names.get(key.iter().copied()) {
            return Ok(Some(id));
        }
        if state.all_known {
            return Ok(None);
        }
        let found = self.writing.find(at, key)?;
        if let Some(id) = found {
            state.names.insert(key.iter().copied(), id);
        }
        Ok(found)
    }

    /// The row with the name in `cells` (all declared columns), added where it is not there yet.
    /// What an existing row holds beside its name is left as it is.
    ///
    /// # Errors
    /// As [`find`](Self::find) and [`insert`](Self::insert).
    pub fn ensure(&mut self, table: &str, cells: &[Cell]) -> Result<i64, StoreError> {
        let at = self.at(table)?;
        let declared = &TABLES[at];
        expect_key(declared, cells.len(), declared.columns.len())?;
        if self.tables[at].named_alone
            && let Some(id) = self.tables[at].names.get(key_cells(declared, cells))
        {
            return Ok(id);
        }
        let key: Vec<_> = key_cells(declared, cells).collect();
        match self.find_at(at, &key)? {
            Some(id) => Ok(id),
            None => self.insert_new(at, cells),
        }
    }

    /// The next value of a table's last key column (revision, version) for these other key
    /// values: 1 where there is none yet.
    ///
    /// # Errors
    /// As [`find`](Self::find); `key` leaves out the last key column.
    pub fn next_revision(&mut self, table: &str, key: &[Cell]) -> Result<i64, StoreError> {
        let at = self.at(table)?;
        let declared = &TABLES[at];
        expect_key(declared, key.len() + 1, declared.key.len())?;
        if self.tables[at].highest == 0 {
            return Ok(1);
        }
        Ok(self.writing.highest_in_key(at, key)?.unwrap_or(0) + 1)
    }

    /// Keeps a text with versions (`mapping` or `recipe`): the id of its newest version where
    /// that is the same text, else of a new version.
    ///
    /// # Errors
    /// As [`insert`](Self::insert).
    pub fn keep_text(&mut self, table: &str, name: &str, toml: &str) -> Result<i64, StoreError> {
        let version = self.next_revision(table, &[name.into()])?;
        let hash = blake3::hash(toml.as_bytes());
        if version > 1 {
            let newest = Filter::all().is("name", name).is("version", version - 1);
            for text in self.list_in::<crate::model::KeptText>(table, &newest)? {
                if &text.hash == hash.as_bytes() {
                    return Ok(text.id);
                }
            }
        }
        self.insert(table, &[name.into(), version.into(), toml.into(), Cell::Blob(hash.as_bytes())])
    }

    /// Keeps a raw file whole, in parts, and checks while reading that it is what was hashed.
    ///
    /// # Errors
    /// The file reads differently than `file` says, or cannot be read; as
    /// [`insert`](Self::insert).
    pub fn keep_file(&mut self, file: &RawFileIn, mut reader: impl Read) -> Result<i64, StoreError> {
        let size = i64::try_from(file.size).unwrap_or(i64::MAX);
        let cells = [file.name.into(), Cell::Blob(&file.hash), size.into(), file.mapping.into(), file.rows.into()];
        // A file whose act was taken back comes once more, as a row of this act: its name does not stand in the way.
        let id = if self.has_file(&file.hash, file.mapping)? {
            self.insert("raw_file", &cells)?
        } else {
            let at = self.at("raw_file")?;
            self.insert_new(at, &cells)?
        };
        let mut hasher = blake3::Hasher::new();
        let mut part = Vec::with_capacity(PART_BYTES.min(file.size as usize));
        for number in 0.. {
            part.clear();
            let read = reader.by_ref().take(PART_BYTES as u64).read_to_end(&mut part);
            let read = read.map_err(|source| StoreError::Io { doing: "reading", path: file.name.into(), source })?;
            if read == 0 {
                break;
            }
            hasher.update(&part);
            self.insert("raw_part", &[id.into(), Cell::Integer(number), Cell::Blob(&part)])?;
        }
        if hasher.count() != file.size || hasher.finalize().as_bytes() != &file.hash {
            return Err(StoreError::FileChanged {
                name: file.name.into(),
                detail: format!("{} bytes expected, {} read", file.size, hasher.count()),
            });
        }
        Ok(id)
    }

    /// Enters a correction: the row stays as it is, its reading changes from now on.
    ///
    /// # Errors
    /// A column of the row's name or one that the program derives, a value that the column
    /// cannot hold, a row that is not there.
    pub fn amend(&mut self, amendment: &AmendmentIn) -> Result<i64, StoreError> {
        super::amend::amend(self, amendment)
    }

    /// Takes an earlier act back: the rows that it brought count no longer, nor do those that only speak of them. They
    /// stay on record, as does the reason. Answers how many rows of each table that is.
    ///
    /// # Errors
    /// [`StoreError::NotUndone`] where the act brought no rows, was taken back before, or others stand on its rows.
    pub fn undo(
        &mut self,
        event: &super::Event,
        why: &str,
        person: i64,
    ) -> Result<std::collections::BTreeMap<&'static str, u64>, StoreError> {
        super::undo::undo(self, event, why, person)
    }

    /// Enters that a column, also one of the row's name, is read otherwise from now on: a name that became one with
    /// another. The caller sees to it that no two rows then read as the same.
    ///
    /// # Errors
    /// As [`amend`](Self::amend).
    pub fn rename(&mut self, amendment: &AmendmentIn) -> Result<i64, StoreError> {
        super::amend::rename(self, amendment)
    }

    /// Enters that a row is read as the row `other` of its table from now on; column and value of the amendment say
    /// nothing. Lists of the table pass it over; what refers to it must be amended beside.
    ///
    /// # Errors
    /// A row that is not there.
    pub fn read_as(&mut self, amendment: &AmendmentIn, other: i64) -> Result<i64, StoreError> {
        super::amend::read_as(self, amendment, other)
    }

    /// Rows as they stand within this act; see [`Store::list`](super::Store::list).
    ///
    /// # Errors
    /// A path that names no column, a value that does not read back.
    pub fn list<T: Typed>(&self, filter: &Filter) -> Result<Vec<T>, StoreError> {
        self.list_in(T::TABLE, filter)
    }

    fn list_in<T: Typed>(&self, table: &str, filter: &Filter) -> Result<Vec<T>, StoreError> {
        list_from(self.reading(), &TABLES[place_of(table)?], filter)
    }

    /// As [`Store::has_file`](super::Store::has_file), within the act.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn has_file(&self, hash: &[u8; 32], mapping: i64) -> Result<bool, StoreError> {
        super::has_file(self.reading(), hash, mapping)
    }

    /// As [`Store::as_typed`](super::Store::as_typed), within the act.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn as_typed(&self, table: &str, filter: &Filter) -> Result<Vec<(i64, Vec<String>)>, StoreError> {
        super::as_typed_from(self.reading(), table, filter)
    }

    /// Calls `each` with every text of a column, amendments applied; a text that stands in many rows comes as often.
    ///
    /// # Errors
    /// The store cannot be read; a column that the table does not have.
    pub fn texts(&self, table: &'static Table, column: &str, each: &mut dyn FnMut(&str)) -> Result<(), StoreError> {
        let filter = Filter::all();
        let query = super::backend::Query { table, paths: &[column], filter: &filter, amended: true };
        self.reading().select(&query, &mut |row| {
            if let Cell::Text(text) = row.cell(0) {
                each(text);
            }
            Ok(())
        })
    }

    /// Calls `each` with id, event and the declared cells of rows as written.
    ///
    /// # Errors
    /// The store cannot be read; what `each` says.
    pub fn dump(&self, table: &'static Table, filter: &Filter, each: super::EachDumped) -> Result<(), StoreError> {
        super::dump_from(self.reading(), table, filter, each)
    }

    pub(super) fn reading(&self) -> &dyn Reading {
        &*self.writing
    }
}

/// The cells of a row's name, in the order of the key.
fn key_cells<'a>(table: &'static Table, row: &[Cell<'a>]) -> impl Iterator<Item = Cell<'a>> {
    table.key.iter().filter_map(|c| table.place(c)).map(|p| row[p])
}

fn expect_key(table: &'static Table, found: usize, expected: usize) -> Result<(), StoreError> {
    if found == expected && !table.key.is_empty() {
        return Ok(());
    }
    Err(StoreError::Width { table: table.name, expected, found })
}

/// The hash of an event: BLAKE3 of the previous hash and the canonical body.
pub(crate) fn link(previous: &[u8; 32], body: &str) -> [u8; 32] {
    let mut hasher = blake3::Hasher::new();
    hasher.update(previous).update(body.as_bytes());
    *hasher.finalize().as_bytes()
}

/// A value as the schema wants it, for the amendment's check.
pub fn check_value(table: &'static Table, place: usize, cell: &Cell) -> Result<(), StoreError> {
    fitted(table, place, cell).map(|_| ())
}
