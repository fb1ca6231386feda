//! A programme from one kind of store to the other: file to server, server to file, and between
//! two of a kind. Rows and events keep their numbers, so every digest and the head hash stay what
//! they were; nothing new is written into the record.
//!
//! Proof: while the rows are read a BLAKE3 digest over all of them and all events is made; it is
//! made again from what the target then holds, before the target is committed. They differ: there
//! is no target. One look at the source serves all reads, so it may be in use meanwhile.

use super::act::{MOST_COLUMNS, place_of};
use super::backend::{Backend, EventRow, Filter, Query, Reading, Writing};
use super::cell::encode_row;
use super::server::{Server, ServerAddress, is_server};
use super::sqlite::Sqlite;
use super::unfinished::{Unfinished, may_be_made};
use super::{Cell, EventHash, StoreError, migrate, verify};
use crate::schema::{TABLES, Table};
use std::path::Path;

/// What was copied, and what both stores were shown to hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Copied {
    /// Hash of the last event.
    pub head: Option<EventHash>,
    /// Events.
    pub events: u64,
    /// Rows of all tables.
    pub rows: u64,
    /// BLAKE3 over all rows of all tables in order and all events.
    pub digest: EventHash,
}

/// A digest in the making.
struct Tally {
    copied: Copied,
    hasher: blake3::Hasher,
    gathered: Vec<u8>,
}

impl Tally {
    fn new() -> Self {
        let copied = Copied { head: None, events: 0, rows: 0, digest: EventHash([0; 32]) };
        Self { copied, hasher: blake3::Hasher::new(), gathered: vec![] }
    }

    fn table(&mut self, table: &Table) {
        self.gathered.extend_from_slice(table.name.as_bytes());
        self.gathered.push(0);
    }

    fn row(&mut self, id: i64, event: i64, cells: &[Cell]) {
        self.copied.rows += 1;
        encode_row(&mut self.gathered, id, event, cells);
        self.pass_on(1 << 16);
    }

    fn event(&mut self, event: &EventRow) {
        self.copied.events += 1;
        self.copied.head = event.hash.try_into().ok().map(EventHash);
        encode_row(&mut self.gathered, event.id, 0, &[Cell::Text(event.body), Cell::Blob(event.hash)]);
        self.pass_on(1 << 16);
    }

    fn pass_on(&mut self, from: usize) {
        if self.gathered.len() >= from {
            self.hasher.update(&self.gathered);
            self.gathered.clear();
        }
    }

    fn end(mut self) -> Copied {
        self.pass_on(0);
        self.copied.digest = EventHash(*self.hasher.finalize().as_bytes());
        self.copied
    }
}

/// Reads all rows and events of schema version `version`, and writes them where a target is given.
fn pass(from: &dyn Reading, version: u32, mut to: Option<&mut dyn Writing>) -> Result<Copied, StoreError> {
    let mut tally = Tally::new();
    for table in TABLES.iter().filter(|t| t.since() <= version) {
        let at = place_of(table.name)?;
        tally.table(table);
        let own = table.columns.iter().filter(|c| c.since <= version).map(|c| c.name);
        let paths: Vec<&str> = ["id", "event"].into_iter().chain(own).collect();
        let query = Query { table, paths: &paths, filter: &Filter::all(), amended: false };
        from.select(&query, &mut |row| {
            let mut cells = [Cell::Null; MOST_COLUMNS];
            for (place, cell) in cells.iter_mut().take(paths.len() - 2).enumerate() {
                *cell = row.cell(place + 2);
            }
            let cells = &cells[..table.columns.len()];
            let number = |cell| if let Cell::Integer(i) = cell { i } else { 0 };
            let (id, event) = (number(row.cell(0)), number(row.cell(1)));
            tally.row(id, event, cells);
            to.as_mut().map_or(Ok(()), |to| to.insert(at, id, event, cells))
        })?;
    }
    from.events(0, &mut |event| {
        tally.event(&event);
        to.as_mut().map_or(Ok(()), |to| to.append_event(&event))
    })?;
    Ok(tally.end())
}

/// Copies within one transaction of the target and proves it before it is kept.
fn proven(from: &dyn Backend, to: &mut dyn Backend) -> Result<Copied, StoreError> {
    let version = from.schema_version()?;
    let mut copied = None;
    let mut writing = to.writing()?;
    from.standing(&mut || {
        copied = Some(pass(from, version, Some(&mut *writing))?);
        Ok(())
    })?;
    let copied = copied.expect("the pass was made");
    let there = pass(&*writing, version, None)?;
    if there != copied {
        return Err(StoreError::NotTheSame {
            from: format!("{} events, {} rows, digest {}", copied.events, copied.rows, copied.digest),
            to: format!("{} events, {} rows, digest {}", there.events, there.rows, there.digest),
        });
    }
    writing.commit()?;
    Ok(copied)
}

/// Copies a store, also while it is in use, to the new file `to`: of a file the database does it, of a server we.
pub(crate) fn backup(from: &dyn Backend, to: &Path) -> Result<(), StoreError> {
    if from.copies_its_file(to)? { Ok(()) } else { to_file(from, to).map(|_| ()) }
}

/// Copies any store to the new file `to`.
pub(crate) fn to_file(from: &dyn Backend, to: &Path) -> Result<Copied, StoreError> {
    may_be_made(to)?;
    let unfinished = Unfinished::beside(to, ".copying");
    let speaking_of_it = |e| match e {
        StoreError::NoFolder { folder, .. } => StoreError::NoFolder { path: to.into(), folder },
        StoreError::ReadOnly { .. } => StoreError::ReadOnly { path: to.into() },
        StoreError::Full { detail, .. } => StoreError::Full { path: to.into(), detail },
        other => other,
    };
    let mut backend = Sqlite::create(&unfinished.0, from.schema_version()?).map_err(speaking_of_it)?;
    backend.alone(true)?;
    let copied = proven(from, &mut backend).map_err(speaking_of_it)?;
    backend.alone(false)?;
    // Closed, so that its log is in the file.
    drop(backend);
    unfinished.take_its_place(to)?;
    Ok(copied)
}

/// Copies any store to a new programme on a server.
fn to_server(from: &dyn Backend, to: ServerAddress) -> Result<Copied, StoreError> {
    let mut backend = Server::create_unkept(to, from.schema_version()?)?;
    proven(from, &mut backend)
}

/// Opens a store of either kind as it is.
fn open_as_it_is(address: &Path) -> Result<Box<dyn Backend>, StoreError> {
    Ok(if is_server(address) {
        Box::new(Server::open_as_it_is(ServerAddress::parse(address)?)?)
    } else {
        Box::new(Sqlite::open_as_it_is(address)?)
    })
}

fn copy(from: &dyn Backend, to: &Path) -> Result<Copied, StoreError> {
    if is_server(to) { to_server(from, ServerAddress::parse(to)?) } else { to_file(from, to) }
}

/// Makes the store `to` from the backup `from`, after looking whether that is a programme and what its events say.
///
/// # Errors
/// `from` is not a programme, or not what its events say ([`StoreError::NotAsWritten`]); `to` exists, the disk or the
/// server refuses. In all of these nothing is left at `to`.
pub fn restore(from: &Path, to: &Path) -> Result<(), StoreError> {
    let backend = open_as_it_is(from)?;
    // Before anything is verified at length.
    if !is_server(to) {
        may_be_made(to)?;
    }
    if is_server(to) || is_server(from) {
        // Rows and events alone go over; what the source's schema is does not.
        verify::as_written(&*backend, &mut |_, _, _, _| Ok(()))?;
        return copy(&*backend, to).map(|_| ());
    }
    let differences = verify::verify(&*backend, None)?.differences;
    if !differences.is_empty() {
        return Err(StoreError::NotAsWritten { differences });
    }
    backup(&*backend, to)
}

/// Copies the programme `from`, a file or on a server, to `to`, where none may be yet. What comes
/// back stands for both: they were read and compared row by row.
///
/// # Errors
/// `from` is not what its events say ([`StoreError::NotAsWritten`]); `to` holds something; the
/// disk or the server refuses. In all of these there is nothing at `to`.
pub fn move_programme(from: impl AsRef<Path>, to: impl AsRef<Path>) -> Result<Copied, StoreError> {
    let backend = open_as_it_is(from.as_ref())?;
    let known = migrate::current_version();
    let found = backend.schema_version()?;
    if found > known {
        return Err(StoreError::Newer { path: from.as_ref().into(), found, known });
    }
    let differences = verify::verify(&*backend, None)?.differences;
    if !differences.is_empty() {
        return Err(StoreError::NotAsWritten { differences });
    }
    copy(&*backend, to.as_ref())
}
