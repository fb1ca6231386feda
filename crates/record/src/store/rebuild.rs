//! A programme made anew, row by row and event by event, from what an open data package carries.
//!
//! In: events and rows with the numbers they had. Out: a store with the same rows and the same
//! event chain, or nothing at all: it is made beside its place, every row is compared with the
//! digests that the events hold ([`verify`](super::verify)), and only then it gets its name.
//!
//! What it does not do: it writes no event of its own, so the head hash stays what it was.
//! Checked in the crate `exchange`, which writes and reads the package.

use super::act::{fitted, place_of};
use super::backend::{Backend, EventRow, Writing};
use super::sqlite::Sqlite;
use super::unfinished::Unfinished;
use super::{Cell, Store, StoreError, act, migrate, verify};
use crate::schema::TABLES;
use std::path::Path;

/// A programme in the making.
pub struct Rebuild<'s> {
    writing: Box<dyn Writing + 's>,
    events: i64,
    rows: Vec<i64>,
}

impl Rebuild<'_> {
    /// The next event: its canonical body and its hash.
    ///
    /// # Errors
    /// [`StoreError::Sequence`]; the store cannot be written.
    pub fn event(&mut self, id: i64, body: &str, hash: &[u8]) -> Result<(), StoreError> {
        in_sequence("event", &mut self.events, id)?;
        self.writing.append_event(&EventRow { id, body, hash })
    }

    /// The next row of a table: one cell for each declared column, in order.
    ///
    /// # Errors
    /// No such table, a row out of order, a value that the column cannot hold; the store cannot
    /// be written.
    pub fn row(&mut self, table: &str, id: i64, event: i64, cells: &[Cell]) -> Result<(), StoreError> {
        let at = place_of(table)?;
        let declared = &TABLES[at];
        if cells.len() != declared.columns.len() {
            return Err(StoreError::Width {
                table: declared.name,
                expected: declared.columns.len(),
                found: cells.len(),
            });
        }
        let mut row = [Cell::Null; act::MOST_COLUMNS];
        for (place, cell) in cells.iter().enumerate() {
            row[place] = fitted(declared, place, cell)?;
        }
        in_sequence(declared.name, &mut self.rows[at], id)?;
        self.writing.insert(at, id, event, &row[..cells.len()])
    }
}

fn in_sequence(table: &'static str, last: &mut i64, found: i64) -> Result<(), StoreError> {
    let expected = *last + 1;
    if found != expected {
        return Err(StoreError::Sequence { table, expected, found });
    }
    *last = expected;
    Ok(())
}

impl Store {
    /// Makes a programme anew at `address` from the events and rows that `work` gives. It is kept
    /// only where every row is what its event says; the answer of that check comes back.
    ///
    /// # Errors
    /// Something is there already; what `work` answers; [`StoreError::NotAsChained`]. In all of
    /// these nothing is left at `address`.
    pub fn rebuild<T, E: From<StoreError>>(
        address: impl AsRef<Path>,
        work: impl FnOnce(&mut Rebuild) -> Result<T, E>,
    ) -> Result<(T, verify::Verification), E> {
        let path = address.as_ref();
        if super::server::is_server(path) {
            let address = super::server::ServerAddress::parse(path).map_err(StoreError::from)?.to_string();
            return Err(StoreError::from(super::ServerError::FileOnly { address }).into());
        }
        if path.exists() {
            return Err(StoreError::Exists { path: path.into() }.into());
        }
        let unfinished = Unfinished::beside(path, ".rebuilding");
        let mut backend = Sqlite::create(&unfinished.0, migrate::current_version()).map_err(|e| at_path(e, path))?;
        backend.alone(true)?;
        let out = {
            let writing = backend.writing()?;
            let mut rebuild = Rebuild { writing, events: 0, rows: TABLES.iter().map(|_| 0).collect() };
            let out = work(&mut rebuild)?;
            rebuild.writing.commit()?;
            out
        };
        backend.alone(false)?;
        let verification = verify::verify(&backend, None)?;
        if !verification.differences.is_empty() {
            return Err(StoreError::NotAsChained { differences: verification.differences }.into());
        }
        // Closed, so that its log is in the file.
        drop(backend);
        unfinished.take_its_place(path)?;
        Ok((out, verification))
    }
}

/// Speaks of the place that was asked for, not of the one beside it.
fn at_path(error: StoreError, path: &Path) -> StoreError {
    match error {
        StoreError::NoFolder { folder, .. } => StoreError::NoFolder { path: path.into(), folder },
        StoreError::ReadOnly { .. } => StoreError::ReadOnly { path: path.into() },
        other => other,
    }
}
