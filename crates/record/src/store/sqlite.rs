//! The store as one SQLite file: strict tables, foreign keys on, write-ahead log, a full
//! synchronisation with each commit, so that neither `kill -9` nor a power cut leaves half an
//! act. One connection is one writer; other processes read beside it.

use super::backend::{Backend, Cells, Each, EventRow, Query, ReadAs, Reading, UNDO, Writing};
use super::sql::{self, Dialect};
use super::verify::Difference;
use super::{Cell, StoreError, migrate};
use crate::schema::{TABLES, Table};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, percent_encode};
use rusqlite::types::{ToSql, ToSqlOutput, ValueRef};
use rusqlite::{Connection, ErrorCode, OpenFlags, OptionalExtension, Row, Statement};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// "LMPD" in the file's header, so that other programs can tell what it is.
pub(crate) const APPLICATION_ID: i32 = 0x4C4D_5044;

/// How long a writer waits for another one.
const PATIENCE: Duration = Duration::from_secs(20);

/// Page cache: holds the growing ends of all indexes of a million-row import.
const CACHE_KIB: i32 = 96 * 1024;

/// SQLITE_IOERR_WRITE, _FSYNC, _TRUNCATE, _SHMSIZE (SQLite's result codes, from memory): what a
/// full disk or a size limit looks like where the system does not say that the disk is full.
const NO_ROOM: [i32; 4] = [778, 1034, 1546, 4874];

/// An open file.
pub(crate) struct Sqlite {
    connection: Connection,
    path: PathBuf,
    read_only: bool,
    /// What the system said where it is read only because there is no room for its log.
    no_room: Option<String>,
    patience: Duration,
}

/// Tells what SQLite reported in the words of the store.
pub fn told(path: &Path, doing: &'static str, error: &rusqlite::Error) -> StoreError {
    let path = path.to_path_buf();
    let detail = error.to_string();
    let rusqlite::Error::SqliteFailure(failure, _) = error else {
        return StoreError::Database { path, doing, detail };
    };
    match failure.code {
        ErrorCode::DiskFull => StoreError::Full { path, detail },
        ErrorCode::SystemIoFailure if NO_ROOM.contains(&failure.extended_code) => StoreError::Full { path, detail },
        ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied => StoreError::ReadOnly { path },
        ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => StoreError::Busy { path },
        ErrorCode::NotADatabase => StoreError::NotAStore { path, detail },
        ErrorCode::DatabaseCorrupt => StoreError::Damaged { path, detail },
        _ => StoreError::Database { path, doing, detail },
    }
}

impl ToSql for Cell<'_> {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(match *self {
            Cell::Null => ValueRef::Null,
            Cell::Integer(i) => ValueRef::Integer(i),
            Cell::Real(x) => ValueRef::Real(x),
            Cell::Text(t) => ValueRef::Text(t.as_bytes()),
            Cell::Blob(b) => ValueRef::Blob(b),
        }))
    }
}

impl Cells for Row<'_> {
    fn cell(&self, place: usize) -> Cell<'_> {
        match self.get_ref(place) {
            Ok(ValueRef::Integer(i)) => Cell::Integer(i),
            Ok(ValueRef::Real(x)) => Cell::Real(x),
            // Text that is not UTF-8 can only come from outside; as bytes it fails its digest.
            Ok(ValueRef::Text(t)) => std::str::from_utf8(t).map_or(Cell::Blob(t), Cell::Text),
            Ok(ValueRef::Blob(b)) => Cell::Blob(b),
            Ok(ValueRef::Null) | Err(_) => Cell::Null,
        }
    }
}

impl Sqlite {
    /// Makes a new file with the schema of `version`.
    pub fn create(path: &Path, version: u32) -> Result<Self, StoreError> {
        super::backup::whole_file(path, "making a new programme", |unfinished| {
            let mut connection = Connection::open(unfinished)?;
            configure(&connection)?;
            connection.pragma_update(None, "application_id", APPLICATION_ID)?;
            migrate::migrate(&mut connection, TABLES, version)?;
            connection.close().map_err(|(_, error)| error)
        })?;
        Self::open_as_it_is(path)
    }

    /// Opens a file and brings an older schema up to date.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let mut store = Self::open_as_it_is(path)?;
        let (found, known) = (store.schema_version()?, migrate::current_version());
        if found < known && !store.read_only {
            migrate::migrate(&mut store.connection, TABLES, known)
                .map_err(|e| told(path, "bringing the schema up to date", &e))?;
        }
        Ok(store)
    }

    /// Opens a file of this or an older schema and leaves it so.
    pub(crate) fn open_as_it_is(path: &Path) -> Result<Self, StoreError> {
        let metadata = path.metadata().map_err(|e| match e.kind() {
            std::io::ErrorKind::NotFound => StoreError::NotFound { path: path.into() },
            _ => StoreError::Io { doing: "opening", path: path.into(), source: e },
        })?;
        let not = |detail: &str| StoreError::NotAStore { path: path.into(), detail: detail.into() };
        if metadata.is_dir() {
            return Err(not("it is a folder"));
        }
        if metadata.len() == 0 {
            return Err(not("it is empty"));
        }
        let store = Self::connect(path)?;
        let id: i32 = store.pragma("application_id")?;
        if id != APPLICATION_ID {
            return Err(not("another program's database"));
        }
        let (found, known) = (store.schema_version()?, migrate::current_version());
        if found > known {
            return Err(StoreError::Newer { path: path.into(), found, known });
        }
        Ok(store)
    }

    /// A connection that writes, or where the folder forbids it, one that only reads.
    fn connect(path: &Path) -> Result<Self, StoreError> {
        let open = |read_only: bool| {
            let connection = if read_only {
                open_immutable(path)?
            } else {
                let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
                Connection::open_with_flags(path, flags)?
            };
            // The first read shows whether the file is a database at all.
            connection.query_row("SELECT count(*) FROM sqlite_master", [], |_| Ok(()))?;
            if connection.is_readonly(rusqlite::MAIN_DB)? != read_only {
                return Err(rusqlite::Error::InvalidQuery);
            }
            configure(&connection)?;
            Ok(connection)
        };
        let (connection, read_only, no_room) = match open(false) {
            Ok(connection) => (connection, false, None),
            Err(first) => match told(path, "opening", &first) {
                e @ (StoreError::NotAStore { .. } | StoreError::Busy { .. } | StoreError::Damaged { .. }) => {
                    return Err(e);
                }
                e => {
                    let why = no_room_for_a_log(path, e);
                    let no_room = if let StoreError::Full { detail, .. } = &why { Some(detail.clone()) } else { None };
                    (open(true).map_err(|_| why)?, true, no_room)
                }
            },
        };
        Ok(Self { connection, path: path.into(), read_only, no_room, patience: PATIENCE })
    }

    fn pragma<T: rusqlite::types::FromSql>(&self, name: &str) -> Result<T, StoreError> {
        self.connection.pragma_query_value(None, name, |row| row.get(0)).map_err(|e| self.told("reading", &e))
    }

    fn told(&self, doing: &'static str, error: &rusqlite::Error) -> StoreError {
        told(&self.path, doing, error)
    }

    fn view(&self) -> View<'_> {
        View { connection: &self.connection, path: &self.path }
    }
}

/// What of ASCII does not stand in the address of a file as it is.
const CODED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'/').remove(b'.').remove(b'-').remove(b'_');

/// A file in a folder that cannot be written has no log beside it, or none that is open: then it
/// can be read as it stands.
fn open_immutable(path: &Path) -> rusqlite::Result<Connection> {
    let mut log = path.as_os_str().to_owned();
    log.push("-wal");
    if Path::new(&log).metadata().is_ok_and(|m| m.len() > 0) {
        return Err(rusqlite::Error::InvalidPath(log.into()));
    }
    without_log(path)
}

/// Where a log cannot be opened beside a file, SQLite says no more than that, or that its index could not be opened: a
/// disk without room for one more file is told from a folder that cannot be written by trying. (The bytes that the system
/// calls free know nothing of quotas and limits.)
fn no_room_for_a_log(path: &Path, told: StoreError) -> StoreError {
    if !matches!(told, StoreError::ReadOnly { .. } | StoreError::Database { .. }) {
        return told;
    }
    let tried = super::unfinished::Unfinished::beside(path, super::unfinished::ENDINGS[0]);
    match std::fs::write(&tried.0, [0; 4096]) {
        Err(e)
            if matches!(
                e.kind(),
                std::io::ErrorKind::StorageFull | std::io::ErrorKind::QuotaExceeded | std::io::ErrorKind::FileTooLarge
            ) =>
        {
            StoreError::Full { path: path.into(), detail: e.to_string() }
        }
        _ => told,
    }
}

/// The file as it stands, as one who copied it alone has it.
fn without_log(path: &Path) -> rusqlite::Result<Connection> {
    let address = format!("file:{}?immutable=1", percent_encode(path.as_os_str().as_encoded_bytes(), CODED));
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX | OpenFlags::SQLITE_OPEN_URI;
    Connection::open_with_flags(address, flags)
}

/// Id and hash of the last event that the file alone holds.
pub(crate) fn last_event_of_file(path: &Path) -> Result<Option<(i64, Vec<u8>)>, StoreError> {
    let connection = without_log(path).map_err(|e| told(path, "reading", &e))?;
    View { connection: &connection, path }.last_event()
}

fn configure(connection: &Connection) -> rusqlite::Result<()> {
    connection.busy_timeout(PATIENCE)?;
    if !connection.is_readonly(rusqlite::MAIN_DB)? {
        connection.pragma_update(None, "page_size", 8192)?;
        connection.pragma_update_and_check(None, "journal_mode", "WAL", |_| Ok(()))?;
        connection.pragma_update(None, "synchronous", "FULL")?;
        // A log that a large import left long is cut when it has been copied.
        connection.pragma_update(None, "journal_size_limit", 1 << 26)?;
    }
    // Each reference is checked before its row is written (`act`): rows are numbered without
    // gaps and never removed, so a look at the highest number is enough, and four searches a
    // row cheaper. `verify` asks the database to check all of them.
    connection.pragma_update(None, "foreign_keys", "OFF")?;
    connection.pragma_update(None, "cache_size", -CACHE_KIB)?;
    connection.pragma_update(None, "temp_store", "MEMORY")?;
    connection.set_prepared_statement_cache_capacity(128);
    Ok(())
}

/// Reading through a connection, inside a transaction or not.
#[derive(Clone, Copy)]
struct View<'c> {
    connection: &'c Connection,
    path: &'c Path,
}

impl View<'_> {
    fn read_as(&self) -> rusqlite::Result<ReadAs> {
        let mut statement = self.connection.prepare_cached(ReadAs::AMENDED)?;
        let pairs = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
        Ok(ReadAs { amended: pairs.collect::<rusqlite::Result<_>>()?, undone: self.undone()? })
    }

    /// Tables with rows that count no longer.
    fn undone(&self) -> rusqlite::Result<BTreeSet<String>> {
        let mut statement = match self.connection.prepare_cached(ReadAs::UNDONE) {
            Ok(statement) => statement,
            // A file that cannot be written stays of an older version, in which nothing was taken back.
            Err(error) => {
                let version: u32 = self.connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
                return if version < UNDO { Ok(BTreeSet::new()) } else { Err(error) };
            }
        };
        let tables = statement.query_map([], |row| row.get(0))?;
        tables.collect()
    }

    fn told(&self, error: &rusqlite::Error) -> StoreError {
        told(self.path, "reading", error)
    }
}

impl Reading for View<'_> {
    fn select(&self, query: &Query, each: Each) -> Result<(), StoreError> {
        let read_as = if query.amended { self.read_as().map_err(|e| self.told(&e))? } else { ReadAs::default() };
        let text = sql::select(query, &read_as, Dialect::Sqlite)?;
        let mut statement = self.connection.prepare_cached(&text).map_err(|e| self.told(&e))?;
        let values = query.filter.equal.iter().map(|(_, v)| v).filter(|v| **v != Cell::Null);
        for (i, value) in values.enumerate() {
            statement.raw_bind_parameter(i + 1, value).map_err(|e| self.told(&e))?;
        }
        let mut rows = statement.raw_query();
        while let Some(row) = rows.next().map_err(|e| self.told(&e))? {
            each(row)?;
        }
        Ok(())
    }

    fn events(&self, after: i64, each: &mut dyn FnMut(EventRow) -> Result<(), StoreError>) -> Result<(), StoreError> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT id, body, hash FROM event WHERE id > ?1 ORDER BY id")
            .map_err(|e| self.told(&e))?;
        let mut rows = statement.query([after]).map_err(|e| self.told(&e))?;
        while let Some(row) = rows.next().map_err(|e| self.told(&e))? {
            let Cell::Integer(id) = row.cell(0) else { continue };
            let (body, hash) = (row.cell(1), row.cell(2));
            each(EventRow {
                id,
                body: if let Cell::Text(t) = body { t } else { "" },
                hash: if let Cell::Blob(b) = hash { b } else { &[] },
            })?;
        }
        Ok(())
    }

    fn last_event(&self) -> Result<Option<(i64, Vec<u8>)>, StoreError> {
        self.connection
            .query_row("SELECT id, hash FROM event ORDER BY id DESC LIMIT 1", [], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()
            .map_err(|e| self.told(&e))
    }
}

macro_rules! reads_through_a_view {
    ($($for:tt)+) => {
        impl Reading for $($for)+ {
            fn select(&self, query: &Query, each: Each) -> Result<(), StoreError> {
                self.view().select(query, each)
            }
            fn events(
                &self,
                after: i64,
                each: &mut dyn FnMut(EventRow) -> Result<(), StoreError>,
            ) -> Result<(), StoreError> {
                self.view().events(after, each)
            }
            fn last_event(&self) -> Result<Option<(i64, Vec<u8>)>, StoreError> {
                self.view().last_event()
            }
        }
    };
}
reads_through_a_view!(Sqlite);
reads_through_a_view!(SqliteWriting<'_>);

impl Backend for Sqlite {
    fn last_event_without_log(&self) -> Option<i64> {
        Some(last_event_of_file(&self.path).ok()?.map_or(0, |(id, _)| id))
    }

    fn writing(&mut self) -> Result<Box<dyn Writing + '_>, StoreError> {
        if self.read_only {
            let path = self.path.clone();
            return Err(match &self.no_room {
                Some(detail) => StoreError::Full { path, detail: detail.clone() },
                None => StoreError::ReadOnly { path },
            });
        }
        self.connection.execute_batch("BEGIN IMMEDIATE").map_err(|e| self.told("beginning an act", &e))?;
        Ok(Box::new(SqliteWriting {
            connection: &self.connection,
            path: &self.path,
            undone: self.view().undone().map_err(|e| self.told("reading", &e))?,
            inserts: TABLES.iter().map(|_| vec![]).collect(),
            finds: TABLES.iter().map(|_| None).collect(),
            highest: TABLES.iter().map(|_| None).collect(),
        }))
    }

    fn schema_version(&self) -> Result<u32, StoreError> {
        self.pragma("user_version")
    }

    fn check(&self) -> Result<Vec<Difference>, StoreError> {
        migrate::check(&self.connection, TABLES).map_err(|e| self.told("checking", &e))
    }

    fn set_patience(&mut self, patience: Duration) -> Result<(), StoreError> {
        self.patience = patience;
        self.connection.busy_timeout(patience).map_err(|e| self.told("setting a time-out", &e))
    }

    /// Alone, new pages go to their place at once and only the old ones that change go to a
    /// journal first; with the write-ahead log every page is written twice. Both survive a kill
    /// at any moment: the next one who opens the file rolls back and returns to the log.
    fn set_cache(&mut self, kib: u32) -> Result<(), StoreError> {
        let set = self.connection.pragma_update(None, "cache_size", -i64::from(kib));
        set.map_err(|e| self.told("setting the cache", &e))
    }

    fn alone(&mut self, alone: bool) -> Result<(), StoreError> {
        if self.read_only {
            return Ok(());
        }
        let mode = if alone { "TRUNCATE" } else { "WAL" };
        let switched = self
            .connection
            .busy_timeout(Duration::ZERO)
            .and_then(|()| self.connection.pragma_update_and_check(None, "journal_mode", mode, |_| Ok(())))
            .map_err(|e| self.told("changing the kind of journal", &e));
        self.set_patience(self.patience)?;
        match switched {
            Err(StoreError::Busy { .. }) => Ok(()),
            other => other,
        }
    }

    fn copies_its_file(&self, to: &Path) -> Result<bool, StoreError> {
        super::backup::backup(&self.connection, to).map(|()| true)
    }

    fn again(&self) -> Result<Box<dyn Backend>, StoreError> {
        Ok(Box::new(Self::open(&self.path)?))
    }

    fn standing(&self, work: &mut dyn FnMut() -> Result<(), StoreError>) -> Result<(), StoreError> {
        if !self.connection.is_autocommit() {
            return work();
        }
        self.connection.execute_batch("BEGIN").map_err(|e| self.told("reading", &e))?;
        let done = work();
        let ended = self.connection.execute_batch(if done.is_ok() { "COMMIT" } else { "ROLLBACK" });
        done.and(ended.map_err(|e| self.told("reading", &e)))
    }
}

/// One transaction with its prepared sentences.
struct SqliteWriting<'c> {
    connection: &'c Connection,
    path: &'c Path,
    /// Tables with rows that count no longer, as the act began.
    undone: BTreeSet<String>,
    /// Per table: which columns are filled, and the sentence for that.
    inserts: Vec<Vec<(u64, Statement<'c>)>>,
    finds: Vec<Option<Statement<'c>>>,
    highest: Vec<Option<Statement<'c>>>,
}

/// The sentence in `slot`, prepared when first wanted.
fn prepared<'s, 'c>(
    connection: &'c Connection,
    slot: &'s mut Option<Statement<'c>>,
    text: impl FnOnce() -> String,
) -> rusqlite::Result<&'s mut Statement<'c>> {
    if slot.is_none() {
        *slot = Some(connection.prepare(&text())?);
    }
    Ok(slot.as_mut().expect("filled above"))
}

/// The one integer that a prepared sentence answers, if any.
fn one_integer(statement: &mut Statement, cells: &[Cell]) -> rusqlite::Result<Option<i64>> {
    for (i, cell) in cells.iter().enumerate() {
        statement.raw_bind_parameter(i + 1, cell)?;
    }
    let mut rows = statement.raw_query();
    let found = match rows.next()? {
        Some(row) => row.get(0)?,
        None => None,
    };
    Ok(found)
}

/// Sentences kept for one table; rows of more shapes than this are rare.
const MOST_SHAPES: usize = 16;

impl<'c> SqliteWriting<'c> {
    fn view(&self) -> View<'c> {
        View { connection: self.connection, path: self.path }
    }

    fn add(&mut self, at: usize, id: i64, event: i64, cells: &[Cell]) -> rusqlite::Result<()> {
        let mut filled = 0u64;
        for (place, cell) in cells.iter().enumerate() {
            filled |= u64::from(!matches!(cell, Cell::Null)) << place;
        }
        let kept = &mut self.inserts[at];
        let found = if let Some(found) = kept.iter().position(|(shape, _)| *shape == filled) {
            found
        } else {
            if kept.len() == MOST_SHAPES {
                kept.clear();
            }
            let text = sql::insert(&TABLES[at], filled);
            kept.push((filled, self.connection.prepare(&text)?));
            kept.len() - 1
        };
        let statement = &mut kept[found].1;
        statement.raw_bind_parameter(1, id)?;
        statement.raw_bind_parameter(2, event)?;
        for (i, cell) in cells.iter().filter(|c| !matches!(c, Cell::Null)).enumerate() {
            statement.raw_bind_parameter(i + 3, cell)?;
        }
        statement.raw_execute()?;
        Ok(())
    }
}

/// Tells why a row was refused.
fn refused(path: &Path, table: &'static Table, cells: &[Cell], error: &rusqlite::Error) -> StoreError {
    let code = error.sqlite_error().map(|e| e.extended_code);
    if code != Some(rusqlite::ffi::SQLITE_CONSTRAINT_UNIQUE) {
        return told(path, "writing", error);
    }
    let key = table.key.iter().filter_map(|c| table.place(c)).map(|p| cells[p].describe());
    StoreError::Duplicate { table: table.name, key: key.collect::<Vec<_>>().join(", ") }
}

impl Writing for SqliteWriting<'_> {
    fn highest_id(&mut self, table: &'static Table) -> Result<i64, StoreError> {
        self.connection
            .prepare_cached(&sql::highest_id(table))
            .and_then(|mut s| s.query_row([], |row| row.get::<_, Option<i64>>(0)))
            .map(|id| id.unwrap_or(0))
            .map_err(|e| told(self.path, "reading", &e))
    }

    fn insert(&mut self, at: usize, id: i64, event: i64, cells: &[Cell]) -> Result<(), StoreError> {
        self.add(at, id, event, cells).map_err(|e| refused(self.path, &TABLES[at], cells, &e))
    }

    fn find(&mut self, at: usize, key: &[Cell]) -> Result<Option<i64>, StoreError> {
        let undone = self.undone.contains(TABLES[at].name);
        prepared(self.connection, &mut self.finds[at], || sql::find(&TABLES[at], undone, Dialect::Sqlite))
            .and_then(|statement| one_integer(statement, key))
            .map_err(|e| told(self.path, "reading", &e))
    }

    fn highest_in_key(&mut self, at: usize, key: &[Cell]) -> Result<Option<i64>, StoreError> {
        prepared(self.connection, &mut self.highest[at], || sql::highest_in_key(&TABLES[at], Dialect::Sqlite))
            .and_then(|statement| one_integer(statement, key))
            .map_err(|e| told(self.path, "reading", &e))
    }

    fn append_event(&mut self, event: &EventRow) -> Result<(), StoreError> {
        self.connection
            .execute("INSERT INTO event VALUES (?1, ?2, ?3)", (event.id, event.body, event.hash))
            .map(|_| ())
            .map_err(|e| told(self.path, "writing", &e))
    }

    fn commit(mut self: Box<Self>) -> Result<(), StoreError> {
        self.inserts.clear();
        self.finds.clear();
        self.highest.clear();
        self.connection.execute_batch("COMMIT").map_err(|e| told(self.path, "committing an act", &e))
    }
}

impl Drop for SqliteWriting<'_> {
    fn drop(&mut self) {
        if !self.connection.is_autocommit() {
            // Where rolling back fails too, the file rolls back when it is next opened.
            let _ = self.connection.execute_batch("ROLLBACK");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_with_odd_signs_in_its_name_is_read_as_it_stands() {
        let folder = tempfile::tempdir().unwrap();
        let all: String = (1..=0x7F_u8).map(char::from).filter(|c| *c != '/').collect();
        let (first, second) = all.split_at(64);
        for name in ["a b?c#d%20e%2Fü.sqlite", "immutable=0&mode=rwc", first, second] {
            let path = folder.path().join(name);
            let made = Connection::open(&path).unwrap();
            made.execute_batch("CREATE TABLE told (words TEXT); INSERT INTO told VALUES ('here')").unwrap();
            drop(made);
            let read = open_immutable(&path).unwrap();
            let told: String = read.query_row("SELECT words FROM told", [], |row| row.get(0)).unwrap();
            assert_eq!(told, "here", "{name:?}");
        }
    }
}
