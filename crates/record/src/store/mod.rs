//! The store: where the record of one programme is kept, and the only room that knows SQL.
//!
//! In: acts. An act is a closure that adds rows; it is kept whole, with one event, or not at all.
//! Out: typed rows (`model`), amendments applied; raw files; the event chain.
//!
//! * Rows are only ever added. Each row names the event that wrote it; each event holds, for each
//!   table, how many rows it wrote and BLAKE3 digests over their canonical bytes (`cell`), and
//!   its own hash covers the hash before it (`act`). [`Store::verify`] recomputes all of it. Rows of an act that was
//!   taken back stay, and are read no longer (`undo`).
//! * One programme is one SQLite file (`sqlite`), or one schema of a PostgreSQL database
//!   (`server`); both are made from `crate::schema` through numbered versions (`migrate`) and
//!   stand behind the traits of `backend`. `transfer` copies from one to the other.
//! * No clock in here: the caller gives the time of an act, so the same acts make the same bytes.
//!
//! Checked in `tests/store_*.rs`: every single value altered from outside is found, acts are
//! whole after `kill -9`, full disks and read-only folders are told, older files are upgraded.

mod act;
mod amend;
mod backend;
mod backup;
mod canonical;
mod cell;
mod error;
mod migrate;
pub mod model;
mod named_cells;
mod names;
mod pool;
mod read;
mod rebuild;
mod said;
mod server;
mod sql;
mod sqlite;
mod trace;
mod transfer;
mod undo;
mod unfinished;
mod verify;

pub use act::{Act, AmendmentIn, RawFileIn};
pub use backend::Filter;
pub use canonical::canonical_json;
pub use cell::Cell;
pub use error::StoreError;
pub use migrate::VERSIONS;
pub use named_cells::NamedCells;
pub use pool::{Lent, Pool};
pub use read::{FromCell, RowRead, Typed};
pub use rebuild::Rebuild;
pub use said::Said;
pub use server::{ServerError, WITHDRAWN, is_server, readable, short_name, shown, without_password};
pub use transfer::{Copied, move_programme, restore};
pub use undo::UNDOABLE;
pub use unfinished::{LeftOver, left_over};
pub use verify::{Difference, Verification};

use crate::schema::{TABLES, Table};
use backend::{Backend, Query, Reading};
use serde_json::Value;
use std::fmt;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The hash of an event; of the last one, the head of the programme.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct EventHash(pub [u8; 32]);

impl fmt::Display for EventHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&blake3::Hash::from_bytes(self.0).to_hex())
    }
}

impl fmt::Debug for EventHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "EventHash({self})")
    }
}

impl std::str::FromStr for EventHash {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        blake3::Hash::from_hex(text)
            .map(|h| Self(*h.as_bytes()))
            .map_err(|e| format!("{text:?} is not a head hash of 64 hexadecimal digits: {e}"))
    }
}

/// The member of the first event's body that holds the identity of the programme.
pub const IDENTITY: &str = "programme";

/// What is said of an act.
#[derive(Debug, Clone, PartialEq)]
pub struct ActInfo {
    /// What it is: import, entry, exclusion, sign-off, recompute.
    pub kind: String,
    /// Who did it.
    pub author: String,
    /// When, ISO 8601, given by the caller.
    pub at: String,
    /// What else is worth keeping, a JSON object.
    pub body: Value,
}

/// One event of the chain.
#[derive(Debug, Clone, PartialEq)]
pub struct Event {
    /// Number, from 1.
    pub number: i64,
    /// What it was.
    pub kind: String,
    /// Who did it.
    pub author: String,
    /// When.
    pub at: String,
    /// The whole canonical body: also `body`, `engine`, `schema`, `tables`.
    pub json: Value,
    /// Its hash.
    pub hash: EventHash,
}

/// Refuses an act of nobody: a name holds a letter or a digit of some script.
///
/// # Errors
/// [`StoreError::Nobody`].
pub fn named(author: &str) -> Result<(), StoreError> {
    if author.chars().any(char::is_alphanumeric) {
        return Ok(());
    }
    Err(StoreError::Nobody { found: author.into() })
}

/// How many events the file of a programme holds by itself, and the hash of the last, without writing anything beside it:
/// of a copy that was just made.
///
/// # Errors
/// The file cannot be read.
pub fn told_by_file(path: &Path) -> Result<(i64, Option<EventHash>), StoreError> {
    let last = sqlite::last_event_of_file(path)?;
    Ok((last.as_ref().map_or(0, |(n, _)| *n), last.and_then(|(_, h)| h.try_into().ok()).map(EventHash)))
}

/// BLAKE3 and size of what a reader gives, without holding it.
///
/// # Errors
/// The reader fails.
pub fn hash_bytes(reader: impl Read) -> std::io::Result<([u8; 32], u64)> {
    let mut hasher = blake3::Hasher::new();
    hasher.update_reader(reader)?;
    Ok((*hasher.finalize().as_bytes(), hasher.count()))
}

/// An open programme.
pub struct Store {
    backend: Box<dyn Backend>,
    address: PathBuf,
    /// What acts stand on while [`Store::retrying`] works: the head that its last reading or act saw.
    stands_on: Option<[u8; 32]>,
}

/// How long [`Store::retrying`] begins anew where others write: a judgement.
const SETTLING: Duration = Duration::from_mins(3);

/// How often at least, however long one turn takes.
const TURNS: u64 = 3;

impl Store {
    fn over(backend: Box<dyn Backend>, address: PathBuf) -> Self {
        Self { backend, address, stands_on: None }
    }

    /// Makes an empty programme: a new file, or for a `postgres://` address a new schema.
    ///
    /// # Errors
    /// Something is there already, the folder or the database cannot be written.
    pub fn create(address: impl AsRef<Path>) -> Result<Self, StoreError> {
        let (path, version) = (address.as_ref(), migrate::current_version());
        if !server::is_server(path) {
            return Ok(Self::over(Box::new(sqlite::Sqlite::create(path, version)?), path.into()));
        }
        let at = server::ServerAddress::parse(path)?;
        let address = at.to_string().into();
        Ok(Self::over(Box::new(server::Server::create(at, version)?), address))
    }

    /// Opens a programme; an older schema is brought up to date. Where the folder cannot be
    /// written, the programme can be read, and an act is refused.
    ///
    /// # Errors
    /// No such file, not a programme, written by a newer version, no server answers.
    pub fn open(address: impl AsRef<Path>) -> Result<Self, StoreError> {
        let path = address.as_ref();
        if !server::is_server(path) {
            return Ok(Self::over(Box::new(sqlite::Sqlite::open(path)?), path.into()));
        }
        let at = server::ServerAddress::parse(path)?;
        let address = at.to_string().into();
        Ok(Self::over(Box::new(server::Server::open(at)?), address))
    }

    /// The same programme opened once more.
    ///
    /// # Errors
    /// As [`open`](Self::open).
    pub fn again(&self) -> Result<Self, StoreError> {
        Ok(Self::over(self.backend.again()?, self.address.clone()))
    }

    /// Where it is; of a server's address all but the password.
    pub fn address(&self) -> &Path {
        &self.address
    }

    /// Version of its schema.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn schema_version(&self) -> Result<u32, StoreError> {
        self.backend.schema_version()
    }

    /// How long an act waits for another process that is writing, and for a server that does not
    /// answer (20 s where not set).
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn set_patience(&mut self, patience: Duration) -> Result<(), StoreError> {
        self.backend.set_patience(patience)
    }

    /// How much of the file this opening of it keeps in memory (96 MiB where not set): less, where a
    /// program holds it open many times.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn set_cache(&mut self, kib: u32) -> Result<(), StoreError> {
        self.backend.set_cache(kib)
    }

    /// Does one act: one transaction, one event; all of it or, on any error, nothing.
    ///
    /// # Errors
    /// What `work` answers; nobody is named as its author; another process writes; the disk is full.
    pub fn act<T, E: From<StoreError>>(
        &mut self,
        info: &ActInfo,
        work: impl FnOnce(&mut Act) -> Result<T, E>,
    ) -> Result<(T, EventHash), E> {
        named(&info.author)?;
        let mut act = Act::begin(self.backend.writing()?, &info.at)?;
        if self.stands_on.is_some_and(|head| head != act.stands_on()) {
            return Err(StoreError::WriteConflict.into());
        }
        let out = work(&mut act)?;
        let head = act.finish(info)?;
        self.stands_on = self.stands_on.and(Some(head.0));
        Ok((out, head))
    }

    /// Work that reads, reckons and then keeps what it reckoned, in one act or several, as if nobody else wrote
    /// meanwhile: an act of it that another act has overtaken is not kept, and the work is done anew on what stands
    /// then. `overtaken` says whether an error of the work is [`StoreError::WriteConflict`].
    ///
    /// # Errors
    /// What `work` answers; [`StoreError::WriteConflict`] where others write without a pause for three minutes.
    pub fn retrying<T, E: From<StoreError>>(
        &mut self,
        overtaken: impl Fn(&E) -> bool,
        mut work: impl FnMut(&mut Self) -> Result<T, E>,
    ) -> Result<T, E> {
        let begun = std::time::Instant::now();
        let mut turn = 0;
        loop {
            turn += 1;
            self.stands_on =
                Some(self.backend.last_event()?.map_or(act::GENESIS, |(_, h)| h.try_into().unwrap_or(act::GENESIS)));
            let done = work(self);
            self.stands_on = None;
            match done {
                // Not in step with the others that were overtaken by the same act.
                Err(e) if overtaken(&e) && (turn < TURNS || begun.elapsed() < SETTLING) => {
                    std::thread::sleep(Duration::from_millis(
                        u64::from(std::process::id()) * 7 % 50 + 5 * turn.min(20),
                    ));
                }
                other => return other,
            }
        }
    }

    /// As [`act`](Self::act), for one large act, such as the import of a large file, a fifth
    /// faster: where nobody else has the programme open, it is taken for this act alone, and
    /// others who come wait (`set_patience`) until it is done.
    ///
    /// # Errors
    /// As [`act`](Self::act).
    pub fn large_act<T, E: From<StoreError>>(
        &mut self,
        info: &ActInfo,
        work: impl FnOnce(&mut Act) -> Result<T, E>,
    ) -> Result<(T, EventHash), E> {
        self.backend.alone(true)?;
        let done = self.act(info, work);
        self.backend.alone(false)?;
        done
    }

    /// Rows of the table that `T` is read from, in the order in which they were written.
    ///
    /// # Errors
    /// A filter that names no column; a value that does not read back.
    pub fn list<T: Typed>(&self, filter: &Filter) -> Result<Vec<T>, StoreError> {
        read::list_from(self.reading(), &TABLES[act::place_of(T::TABLE)?], filter)
    }

    /// As [`list`](Self::list), one row at a time.
    ///
    /// # Errors
    /// As [`list`](Self::list), and what `each` answers.
    pub fn each<T: Typed>(
        &self,
        filter: &Filter,
        each: impl FnMut(T) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        read::each_from(self.reading(), &TABLES[act::place_of(T::TABLE)?], filter, each)
    }

    /// Rows of any table as they were written (amendments not applied): id, event and the
    /// declared columns, for exports.
    ///
    /// # Errors
    /// No such table; what `each` answers.
    pub fn dump(
        &self,
        table: &str,
        mut each: impl FnMut(i64, i64, &[Cell]) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        let table = &TABLES[act::place_of(table)?];
        dump_from(self.reading(), table, &Filter::all(), &mut |id, event, cells| each(id, event, cells))
    }

    /// Rows of any table as a person would type them, amendments applied: the id, and a text for each
    /// declared column; rows referred to stand by their name where one column names them.
    ///
    /// # Errors
    /// No such table; a filter that names no column.
    pub fn as_typed(&self, table: &str, filter: &Filter) -> Result<Vec<(i64, Vec<String>)>, StoreError> {
        as_typed_from(self.reading(), table, filter)
    }

    fn reading(&self) -> &dyn Reading {
        &*self.backend
    }

    /// Compares everything in the store with its event chain, and the chain with a head hash
    /// noted elsewhere (in a report, an export).
    ///
    /// # Errors
    /// The store cannot be read at all. What differs is not an error but the answer.
    pub fn verify(&self, noted_head: Option<EventHash>) -> Result<Verification, StoreError> {
        verify::verify(&*self.backend, noted_head)
    }

    /// Refuses where an event or a row is not what was written: asked before anything leaves the house, so that no
    /// report, package or copy carries a value that was altered from outside. Some 5 µs a row; what was derived is
    /// not derived anew, and the file itself not looked at: that is [`verify`](Self::verify).
    ///
    /// # Errors
    /// [`StoreError::NotAsWritten`]; the store cannot be read.
    pub fn as_written(&self) -> Result<(), StoreError> {
        verify::as_written(&*self.backend, &mut |_, _, _, _| Ok(()))
    }

    /// As [`as_written`](Self::as_written), and calls `each` with table, id, event and the declared cells of every row as
    /// written, tables in the order of the schema and rows in the order of their ids. Nothing of it may leave the house
    /// before this came to its end.
    ///
    /// # Errors
    /// As [`as_written`](Self::as_written); what `each` answers.
    pub fn dump_as_written(&self, each: verify::EachOfAll) -> Result<(), StoreError> {
        verify::as_written(&*self.backend, each)
    }

    /// As [`verify`](Self::verify), and then `work` on the record as it stood when it was verified, whoever writes
    /// meanwhile.
    ///
    /// # Errors
    /// As [`verify`](Self::verify); what `work` answers.
    pub fn verify_then<T, E: From<StoreError>>(
        &self,
        noted: Option<EventHash>,
        work: impl FnOnce(Verification) -> Result<T, E>,
    ) -> Result<T, E> {
        let shape = self.backend.check()?;
        self.standing(|| work(verify::as_it_stands(&*self.backend, noted, shape)?))
    }

    /// Several reads of the record as it stands at one moment, whoever writes meanwhile.
    ///
    /// # Errors
    /// What `work` answers; the store cannot be read.
    pub fn standing<T, E: From<StoreError>>(&self, work: impl FnOnce() -> Result<T, E>) -> Result<T, E> {
        let (mut work, mut out) = (Some(work), None);
        self.backend.standing(&mut || {
            out = work.take().map(|work| work());
            Ok(())
        })?;
        out.expect("the store does the work it is given")
    }

    /// Copies the programme, also while it is in use, to a new file: a server's programme too
    /// becomes one that opens anywhere.
    ///
    /// # Errors
    /// As [`as_written`](Self::as_written); `to` exists or cannot be written.
    pub fn backup(&self, to: impl AsRef<Path>) -> Result<(), StoreError> {
        self.as_written()?;
        transfer::backup(&*self.backend, to.as_ref())
    }

    /// Hash of the last event; `None` where nothing was done yet.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn head(&self) -> Result<Option<EventHash>, StoreError> {
        let last = self.backend.last_event()?;
        Ok(last.and_then(|(_, hash)| hash.try_into().ok()).map(EventHash))
    }

    /// The identity that the first event gave the programme; none where it was made before version 11 of the schema, or
    /// nothing was done yet.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn identity(&self) -> Result<Option<String>, StoreError> {
        let mut out = None;
        self.backend.events(0, &mut |row| {
            if row.id == 1 {
                let body: Value = serde_json::from_str(row.body).unwrap_or(Value::Null);
                out = body["body"][IDENTITY].as_str().map(str::to_owned);
            }
            Ok(())
        })?;
        Ok(out)
    }

    /// Hashes of all events in order: the head after each.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn heads(&self) -> Result<Vec<EventHash>, StoreError> {
        let mut out = vec![];
        self.backend.events(0, &mut |row| {
            out.push(EventHash(row.hash.try_into().unwrap_or_default()));
            Ok(())
        })?;
        Ok(out)
    }

    /// Number of the last event; 0 where nothing was done yet.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn last_event_number(&self) -> Result<i64, StoreError> {
        Ok(self.backend.last_event()?.map_or(0, |(id, _)| id))
    }

    /// How many of the newest events stand only in the log beside the file, so that a plain copy of the file lacks
    /// them. None where there is no file, or the file alone cannot be read.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn only_in_the_log(&self) -> Result<Option<i64>, StoreError> {
        let all = self.last_event_number()?;
        Ok(self.backend.last_event_without_log().map(|alone| all - alone))
    }

    /// Whether the schema of this store has the table: an older file that cannot be written may lack it.
    ///
    /// # Errors
    /// No such table in this version; the store cannot be read.
    pub fn has_table(&self, table: &str) -> Result<bool, StoreError> {
        Ok(TABLES[act::place_of(table)?].since() <= self.schema_version()?)
    }

    /// All events in order.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn events(&self) -> Result<Vec<Event>, StoreError> {
        self.events_after(0)
    }

    /// The newest events, at most so many, oldest of them first.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn events_last(&self, most: usize) -> Result<Vec<Event>, StoreError> {
        let last = self.backend.last_event()?.map_or(0, |(id, _)| id);
        self.events_after(last.saturating_sub(i64::try_from(most).unwrap_or(i64::MAX)))
    }

    fn events_after(&self, after: i64) -> Result<Vec<Event>, StoreError> {
        events_of(self.reading(), after, None)
    }

    /// The act that a person means by its number, or by at least six digits of the beginning of its hash.
    ///
    /// # Errors
    /// [`StoreError::NoEvent`]; the store cannot be read.
    pub fn event_meant(&self, text: &str) -> Result<Event, StoreError> {
        undo::meant(&self.events()?, text)
    }

    /// Number, canonical body and hash of every event in order, as they stand.
    ///
    /// # Errors
    /// The store cannot be read; what `each` answers.
    pub fn each_event(
        &self,
        mut each: impl FnMut(i64, &str, &[u8]) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        self.backend.events(0, &mut |row| each(row.id, row.body, row.hash))
    }

    /// Whether a file with this hash was taken in with this version of a mapping.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn has_file(&self, hash: &[u8; 32], mapping: i64) -> Result<bool, StoreError> {
        has_file(self.reading(), hash, mapping)
    }

    /// Writes the bytes of a raw file.
    ///
    /// # Errors
    /// No such file; its bytes are not those that were hashed; the writer fails.
    pub fn write_raw_file(&self, id: i64, to: &mut dyn Write) -> Result<(), StoreError> {
        let files = self.list::<model::RawFile>(&Filter::all().is("id", id))?;
        let [file] = files.as_slice() else {
            return Err(StoreError::NoRow { table: "raw_file", key: id.to_string() });
        };
        let mut hasher = blake3::Hasher::new();
        let table = &TABLES[act::place_of("raw_part")?];
        let parts = Filter::all().is("raw_file", id);
        dump_from(self.reading(), table, &parts, &mut |_, _, cells| {
            if let Cell::Blob(bytes) = cells[2] {
                hasher.update(bytes);
                to.write_all(bytes).map_err(|source| StoreError::Io {
                    doing: "writing",
                    path: (&file.name).into(),
                    source,
                })?;
            }
            Ok(())
        })?;
        if hasher.finalize().as_bytes() == &file.hash {
            return Ok(());
        }
        Err(StoreError::FileChanged {
            name: file.name.clone(),
            detail: "its bytes in the store are not those that were taken in".into(),
        })
    }
}

/// The events after `after`, in order, up to one where it is given.
pub(crate) fn events_of(reading: &dyn Reading, after: i64, up_to: Option<i64>) -> Result<Vec<Event>, StoreError> {
    let mut out = vec![];
    reading.events(after, &mut |row| {
        if up_to.is_none_or(|last| row.id <= last) {
            out.push(undo::event_of(row.id, row.body, row.hash));
        }
        Ok(())
    })?;
    Ok(out)
}

/// Whether a file with this hash was taken in with this version of a mapping, by an act that stands.
pub(crate) fn has_file(reading: &dyn Reading, hash: &[u8; 32], mapping: i64) -> Result<bool, StoreError> {
    let same = Filter::all().is("hash", Cell::Blob(hash)).is("mapping", mapping);
    let files: Vec<model::RawFile> = read::list_from(reading, &TABLES[act::place_of("raw_file")?], &same)?;
    if files.is_empty() {
        return Ok(false);
    }
    let undone: Vec<model::Undone> = read::list_from(reading, &TABLES[act::place_of("undone")?], &Filter::all())?;
    Ok(files.iter().any(|f| !undone.iter().any(|u| u.undone_event == f.event)))
}

/// What is done with the id, the event and the declared cells of a row.
pub type EachDumped<'a> = &'a mut dyn FnMut(i64, i64, &[Cell]) -> Result<(), StoreError>;

/// Calls `each` with id, event and the declared cells of rows as written.
pub(crate) fn dump_from(
    reading: &dyn Reading,
    table: &'static Table,
    filter: &Filter,
    each: EachDumped,
) -> Result<(), StoreError> {
    dump_as_of(reading, (table, migrate::current_version()), filter, each)
}

/// As [`dump_from`], of a store whose schema is of `version`: columns that came later are empty.
pub(crate) fn dump_as_of(
    reading: &dyn Reading,
    (table, version): (&'static Table, u32),
    filter: &Filter,
    each: EachDumped,
) -> Result<(), StoreError> {
    let own = table.columns.iter().filter(|c| c.since <= version).map(|c| c.name);
    let paths: Vec<&str> = ["id", "event"].into_iter().chain(own).collect();
    let query = Query { table, paths: &paths, filter, amended: false };
    reading.select(&query, &mut |row| {
        let mut cells = [Cell::Null; act::MOST_COLUMNS];
        // Later columns stand at the end of their table.
        for (place, cell) in cells.iter_mut().take(paths.len() - 2).enumerate() {
            *cell = row.cell(place + 2);
        }
        let number = |cell| if let Cell::Integer(i) = cell { i } else { 0 };
        each(number(row.cell(0)), number(row.cell(1)), &cells[..table.columns.len()])
    })
}

/// The reads that most callers want, by their names.
macro_rules! lists {
    ($($(#[$doc:meta])* $name:ident($($arg:ident: $ty:ty),*) -> $row:ident, $filter:expr;)+) => {
        impl Store { $(
            $(#[$doc])*
            ///
            /// # Errors
            /// The store cannot be read, or a value does not read back.
            pub fn $name(&self $(, $arg: $ty)*) -> Result<Vec<model::$row>, StoreError> {
                self.list(&$filter)
            }
        )+ }
    };
}
lists! {
    /// Raw files, without their bytes.
    raw_files() -> RawFile, Filter::all();
    /// Persons.
    persons() -> Person, Filter::all();
    /// Sites.
    sites() -> Site, Filter::all();
    /// Wells.
    wells() -> Well, Filter::all();
    /// Casing and screen of a well.
    well_sections(well: i64) -> WellSection, Filter::all().is("well", well);
    /// Layer log of a well.
    layers(well: i64) -> Layer, Filter::all().is("well", well);
    /// Lots of bottles.
    lots() -> Lot, Filter::all();
    /// Acid lots.
    acids() -> Acid, Filter::all();
    /// Filter lots.
    filters() -> FilterLot, Filter::all();
    /// Trips.
    trips() -> Trip, Filter::all();
    /// Bottles.
    bottles(filter: &Filter) -> Bottle, filter.clone();
    /// Spikes.
    spikes() -> Spike, Filter::all();
    /// Aliquots.
    aliquots(filter: &Filter) -> Aliquot, filter.clone();
    /// Field readings.
    field_readings(filter: &Filter) -> FieldReading, filter.clone();
    /// Timed fills.
    fills(filter: &Filter) -> Fill, filter.clone();
    /// Particle counts.
    air_counts(filter: &Filter) -> AirCount, filter.clone();
    /// Steps of custody.
    custody(filter: &Filter) -> Custody, filter.clone();
    /// Runs.
    runs() -> Run, Filter::all();
    /// Vials of a run.
    vials(run: i64) -> Vial, Filter::all().is("run", run);
    /// Assigned values of a run's vials.
    assigned(run: i64) -> Assigned, Filter::all().is("vial.run", run);
    /// Counts of a run.
    readings(run: i64) -> Reading, Filter::all().is("vial.run", run);
    /// Results; `Filter::all().latest()` gives the newest revision of each.
    results(filter: &Filter) -> ResultRow, filter.clone();
    /// Newest verdict of each subject.
    verdicts() -> Verdict, Filter::all().latest();
    /// All verdicts of a subject, oldest first.
    verdict_history(subject: i64) -> Verdict, Filter::all().is("subject", subject);
    /// Findings of a subject, of all its assessments.
    findings(subject: i64) -> FindingRow, Filter::all().is("subject", subject);
    /// Water's share, of all results that have one.
    shares() -> Share, Filter::all();
    /// What bottles of a lot may bring.
    lot_targets() -> LotTarget, Filter::all();
    /// What is known of sources before a trip.
    source_facts() -> SourceFact, Filter::all();
    /// Tracers of age and origin.
    tracers() -> TracerRow, Filter::all();
    /// Histories of rain and air, a row a year.
    input_histories() -> HistoryRow, Filter::all();
    /// What is known of the recharge.
    recharge_facts() -> RechargeFactRow, Filter::all();
    /// Signatures of sources, a row a metal.
    signatures() -> SignatureRow, Filter::all();
    /// The water's own by attribution, newest fit of each result.
    attributed() -> AttributedRow, Filter::all().latest();
    /// Parts of the metal in bottles, the newest of each result and part.
    accounting(filter: &Filter) -> AccountingRow, filter.clone().latest();
    /// The table of checks, newest revision of each.
    check_rules() -> CheckRule, Filter::all().latest();
    /// Profiles of checks on record.
    check_profiles() -> CheckProfile, Filter::all();
    /// Rules of the profiles, newest revision of each.
    profile_rules() -> ProfileRule, Filter::all().latest();
    /// Which profile judges which results, in order; of several for the same results the last counts.
    profile_choices() -> ProfileChoice, Filter::all();
    /// What laboratories say of their own quality.
    laboratory_quality() -> LaboratoryQuality, Filter::all();
    /// Requests to laboratories.
    lab_requests() -> LabRequest, Filter::all();
    /// Blind labels.
    blind_labels() -> BlindLabel, Filter::all();
    /// When blind labels were opened.
    unblindings() -> Unblinding, Filter::all();
    /// Isotope ratios of lead in known sources.
    lead_sources() -> LeadSource, Filter::all();
    /// Exclusions in order; of several on one thing the last counts.
    exclusions() -> Exclusion, Filter::all();
    /// Sign-offs.
    sign_offs() -> SignOff, Filter::all();
    /// Keys of persons.
    person_keys() -> PersonKey, Filter::all();
    /// Keys that are used no longer.
    key_ends() -> KeyEnd, Filter::all();
    /// Signatures by key.
    signatures_by_key() -> Signed, Filter::all();
    /// Heads that others keep.
    anchors() -> Anchor, Filter::all();
    /// Corrections.
    amendments() -> Amendment, Filter::all();
    /// Field sheets brought home.
    field_sheets() -> FieldSheet, Filter::all();
    /// Entries of field sheets.
    field_entries(filter: &Filter) -> FieldEntry, filter.clone();
}

impl Store {
    /// How a result came to be, where it was derived.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn derivation(&self, result: i64) -> Result<Option<model::DerivationRow>, StoreError> {
        Ok(self.list(&Filter::all().is("result", result))?.pop())
    }

    /// The same as it stands, JSON: one who reads the graph need not have it read into values first.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn derivation_text(&self, result: i64) -> Result<Option<String>, StoreError> {
        Ok(self.list::<model::DerivationText>(&Filter::all().is("result", result))?.pop().map(|d| d.body))
    }

    /// Whether the derivation of a result is kept in just these letters: without reading what they say.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn derivation_is(&self, result: i64, text: &str) -> Result<bool, StoreError> {
        let mut same = false;
        let table = &TABLES[act::place_of("derivation")?];
        let of = Filter::all().is("result", result);
        dump_from(self.reading(), table, &of, &mut |_, _, cells: &[Cell]| {
            same = cells.iter().any(|c| matches!(c, Cell::Text(t) if *t == text));
            Ok(())
        })?;
        Ok(same)
    }

    /// Newest versions of `"mapping"` or `"recipe"`.
    ///
    /// # Errors
    /// Another table; the store cannot be read.
    pub fn kept_texts(&self, table: &str) -> Result<Vec<model::KeptText>, StoreError> {
        read::list_from(self.reading(), &TABLES[act::place_of(table)?], &Filter::all().latest())
    }
}

/// See [`Store::as_typed`].
pub(crate) fn as_typed_from(
    reading: &dyn Reading,
    table: &str,
    filter: &Filter,
) -> Result<Vec<(i64, Vec<String>)>, StoreError> {
    let table = &TABLES[act::place_of(table)?];
    let path = |c: &crate::schema::Column| match c.kind {
        crate::schema::Kind::Row(other) => match crate::schema::table(other).map(|t| t.key) {
            Some([name]) => format!("{}.{name}", c.name),
            _ => c.name.to_string(),
        },
        _ => c.name.to_string(),
    };
    let owned: Vec<String> = table.columns.iter().map(path).collect();
    let paths: Vec<&str> = std::iter::once("id").chain(owned.iter().map(String::as_str)).collect();
    let mut out = vec![];
    reading.select(&Query { table, paths: &paths, filter, amended: true }, &mut |row| {
        let id = if let Cell::Integer(i) = row.cell(0) { i } else { 0 };
        out.push((id, (1..paths.len()).map(|p| row.cell(p).as_typed()).collect()));
        Ok(())
    })?;
    Ok(out)
}
