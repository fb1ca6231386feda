//! One act on a server. Rows are gathered per table in the binary form of COPY and sent when a
//! table has a megabyte of them, when somebody reads, or at the end. A full megabyte is sent by a
//! second thread while the act goes on; whoever needs the connection waits for that one. Names of rows that this act
//! adds are remembered from the first time that a table is asked for a name; after some hundred
//! questions the names that stand on the server are fetched at once.

use super::error::is_lost;
use super::rows::Values;
use super::{Link, Server, ServerError, take_turn};
use crate::schema::{TABLES, Table};
use crate::store::backend::{Cells as _, Each, EventRow, Query, Reading, Writing};
use crate::store::cell::encode_row;
use crate::store::sql::{self, Dialect, quoted};
use crate::store::{Cell, EventHash, StoreError};
use std::collections::{BTreeSet, HashMap};
use std::fmt::Write as _;
use std::io::Write as _;
use std::thread::JoinHandle;

/// Bytes of one table gathered before they are sent.
const GATHER_BYTES: usize = 1 << 20;

/// Questions about names of one table after which all its names are fetched.
const QUESTIONS: u32 = 300;

/// No more names than this are fetched (some 50 bytes each).
const MOST_NAMES: i64 = 4_000_000;

/// The head of a binary COPY: signature, no flags, no extension (PostgreSQL manual, COPY, "Binary
/// Format"; from memory).
const HEAD: &[u8] = b"PGCOPY\n\xff\r\n\0\0\0\0\0\0\0\0\0";

/// Its end: a row of −1 fields.
const END: &[u8] = &[0xff, 0xff];

/// Rows of one table on their way.
#[derive(Default)]
struct Pending {
    bytes: Vec<u8>,
    /// Where each row begins.
    rows: Vec<usize>,
}

impl Pending {
    fn begin(&mut self, fields: usize) {
        self.rows.push(self.bytes.len());
        self.bytes.extend_from_slice(&i16::try_from(fields).expect("a table has few columns").to_be_bytes());
    }

    fn field(&mut self, cell: &Cell) {
        match cell {
            Cell::Null => self.bytes.extend_from_slice(&(-1i32).to_be_bytes()),
            Cell::Integer(i) => self.value(&i.to_be_bytes()),
            Cell::Real(x) => self.value(&x.to_bits().to_be_bytes()),
            Cell::Text(t) => self.value(t.as_bytes()),
            Cell::Blob(b) => self.value(b),
        }
    }

    fn value(&mut self, value: &[u8]) {
        let length = i32::try_from(value.len()).expect("a value is shorter than 2 GiB");
        self.bytes.extend_from_slice(&length.to_be_bytes());
        self.bytes.extend_from_slice(value);
    }

    /// The bytes of one field of a gathered row; `None` where it is empty.
    fn read(&self, row: usize, place: usize) -> Option<&[u8]> {
        let mut at = self.rows.get(row)? + 2;
        for skipped in 0..=place {
            let length = i32::from_be_bytes(self.bytes.get(at..at + 4)?.try_into().ok()?);
            at += 4;
            let length = usize::try_from(length).ok();
            if skipped == place {
                return self.bytes.get(at..at + length?);
            }
            at += length.unwrap_or(0);
        }
        None
    }
}

/// A name as its digest: even names made to collide cannot.
type Name = [u8; 16];

fn name_of<'a>(scratch: &mut Vec<u8>, cells: impl Iterator<Item = Cell<'a>>) -> Option<Name> {
    scratch.clear();
    for cell in cells {
        // What is empty equals nothing, as in the database.
        if cell == Cell::Null {
            return None;
        }
        encode_row(scratch, 0, 0, &[cell]);
    }
    blake3::hash(scratch).as_bytes()[..16].try_into().ok()
}

/// What is remembered of a table's names.
#[derive(Default)]
struct Known {
    /// Somebody asked; from then on every added row is remembered.
    asked: bool,
    /// Every row of the table is remembered.
    complete: bool,
    questions: u32,
    ids: HashMap<Name, i64>,
    /// Per name without its last column, the highest value of that.
    highest: HashMap<Name, i64>,
    scratch: Vec<u8>,
}

impl Known {
    fn add(&mut self, key: &[Cell], id: i64) {
        if let Some(name) = name_of(&mut self.scratch, key.iter().copied()) {
            self.ids.insert(name, id);
        }
        if let Some((Cell::Integer(last), others)) = key.split_last()
            && let Some(name) = name_of(&mut self.scratch, others.iter().copied())
        {
            let highest = self.highest.entry(name).or_insert(*last);
            *highest = (*highest).max(*last);
        }
    }
}

/// One transaction.
pub(super) struct ServerWriting<'s> {
    server: &'s Server,
    /// Highest id of each table when the act began.
    highest: Vec<i64>,
    /// Tables with rows that count no longer, as the act began.
    undone: BTreeSet<String>,
    /// Whether rows were added.
    added: Vec<bool>,
    pending: std::cell::RefCell<Vec<Pending>>,
    known: Vec<Known>,
    /// Number and hash of the last event appended.
    event: Option<(i64, Vec<u8>)>,
    /// What a second thread is sending, and of which table.
    sending: std::cell::RefCell<Option<(usize, JoinHandle<Sent>)>>,
    done: bool,
}

/// The connection back, the rows that were sent with it, and what came of it.
type Sent = (Link, Pending, Result<(), postgres::Error>);

/// Place of the events among the pending tables, after those of the record.
fn events_place() -> usize {
    TABLES.len()
}

/// Places of a table's key columns.
fn key_places(table: &Table) -> impl Iterator<Item = usize> {
    table.key.iter().filter_map(|c| table.place(c))
}

impl<'s> ServerWriting<'s> {
    /// After the transaction was begun and the turn taken.
    pub(super) fn begin(server: &'s Server) -> Result<Self, StoreError> {
        let mut out = Self {
            server,
            highest: vec![],
            undone: server.undone()?,
            added: TABLES.iter().map(|_| false).collect(),
            pending: (0..=TABLES.len()).map(|_| Pending::default()).collect::<Vec<_>>().into(),
            known: TABLES.iter().map(|_| Known::default()).collect(),
            event: None,
            sending: None.into(),
            done: false,
        };
        // One question for all tables.
        let one = |t: &Table| {
            if t.since() <= server.version {
                format!("(SELECT coalesce(max(id), 0) FROM {})", quoted(t.name))
            } else {
                "0::bigint".into()
            }
        };
        let text = format!("SELECT {}", TABLES.iter().map(one).collect::<Vec<_>>().join(", "));
        out.highest = server.with("beginning an act", |link, _| {
            let statement = link.prepared(&text)?;
            let row = link.client.query_one(&statement, &[])?;
            Ok((0..TABLES.len()).map(|at| row.get(at)).collect())
        })?;
        Ok(out)
    }

    fn columns(&self, at: usize) -> impl Iterator<Item = &'static str> + use<> {
        let version = self.server.version;
        TABLES[at].columns.iter().filter(move |c| c.since <= version).map(|c| c.name)
    }

    /// The sentence that takes rows of one table.
    fn copy_sentence(&self, at: usize) -> String {
        if at == events_place() {
            "COPY event (id, body, hash) FROM STDIN (FORMAT binary)".into()
        } else {
            let mut columns = String::from("id, event");
            for c in self.columns(at) {
                write!(columns, ", {}", quoted(c)).expect("a string takes all");
            }
            format!("COPY {} ({columns}) FROM STDIN (FORMAT binary)", quoted(TABLES[at].name))
        }
    }

    /// Sends what was gathered for one table.
    fn send(&self, at: usize) -> Result<(), StoreError> {
        self.settle()?;
        let pending = std::mem::take(&mut self.pending.borrow_mut()[at]);
        if pending.rows.is_empty() {
            return Ok(());
        }
        let text = self.copy_sentence(at);
        let mut sent = Ok(());
        self.server.with("writing", |link, _| {
            sent = copy(link, &text, &pending.bytes);
            match &sent {
                Err(error) if is_lost(error) => std::mem::replace(&mut sent, Ok(())),
                _ => Ok(()),
            }
        })?;
        sent.map_err(|error| self.refused(at, &pending, &error))
    }

    /// Gives what was gathered for one table to a second thread.
    fn send_beside(&self, at: usize) -> Result<(), StoreError> {
        self.settle()?;
        // Without a connection, the ordinary way tells that it is lost.
        let Some(mut link) = self.server.link.borrow_mut().take() else { return self.send(at) };
        let pending = std::mem::take(&mut self.pending.borrow_mut()[at]);
        let text = self.copy_sentence(at);
        let sender = std::thread::spawn(move || {
            let sent = copy(&mut link, &text, &pending.bytes);
            (link, pending, sent)
        });
        *self.sending.borrow_mut() = Some((at, sender));
        Ok(())
    }

    /// Waits for the second thread and takes the connection back.
    fn settle(&self) -> Result<(), StoreError> {
        let Some((at, sender)) = self.sending.borrow_mut().take() else { return Ok(()) };
        let (link, pending, sent) = sender.join().expect("the driver does not panic");
        if !matches!(&sent, Err(error) if is_lost(error)) {
            *self.server.link.borrow_mut() = Some(link);
        }
        sent.map_err(|error| self.refused(at, &pending, &error))
    }

    /// Tells why rows were refused.
    fn refused(&self, at: usize, pending: &Pending, error: &postgres::Error) -> StoreError {
        match TABLES.get(at) {
            Some(table) if error.code().is_some_and(|c| c.code() == "23505") => {
                StoreError::Duplicate { table: table.name, key: refused_name(table, pending, error) }
            }
            _ => self.server.told("writing", error),
        }
    }

    fn send_all(&self) -> Result<(), StoreError> {
        self.settle()?;
        (0..=TABLES.len()).try_for_each(|at| self.send(at))
    }

    /// From now on names of this table are remembered; what was gathered before is sent, so that
    /// the server knows it.
    fn ask(&mut self, at: usize) -> Result<(), StoreError> {
        if !self.known[at].asked {
            self.send(at)?;
            self.known[at].asked = true;
            self.known[at].complete = self.highest[at] == 0 && !self.added[at];
        }
        if !self.known[at].complete {
            self.known[at].questions += 1;
            // Of names that may be given twice the server knows which row counts.
            let once = !self.undone.contains(TABLES[at].name);
            if once && self.known[at].questions == QUESTIONS && self.highest[at] <= MOST_NAMES {
                self.fetch_names(at)?;
            }
        }
        Ok(())
    }

    fn fetch_names(&mut self, at: usize) -> Result<(), StoreError> {
        // All rows of the table are on the server but those that are remembered already.
        let table = &TABLES[at];
        let paths: Vec<&str> = std::iter::once("id").chain(table.key.iter().copied()).collect();
        let query = Query { table, paths: &paths, filter: &crate::store::Filter::all(), amended: false };
        self.settle()?;
        let known = &mut self.known[at];
        self.server.select(&query, &mut |row| {
            let key: Vec<Cell> = (1..paths.len()).map(|p| row.cell(p)).collect();
            if let Cell::Integer(id) = row.cell(0) {
                known.add(&key, id);
            }
            Ok(())
        })?;
        known.complete = true;
        Ok(())
    }

    fn one_integer(&self, text: &str, key: &[Cell]) -> Result<Option<i64>, StoreError> {
        self.settle()?;
        self.server.with("reading", |link, _| {
            let statement = link.prepared(text)?;
            let rows = super::rows::short(&mut link.client, &statement, key)?.unwrap_or_default();
            Ok(rows.first().and_then(|row| match Values(row).cell(0) {
                Cell::Integer(i) => Some(i),
                _ => None,
            }))
        })
    }

    /// The connection broke on the way of the COMMIT: is the event there?
    fn look_afterwards(&self, lost: StoreError) -> Result<(), StoreError> {
        let Some((id, hash)) = &self.event else { return Err(lost) };
        let found = self.server.with("committing an act", |link, _| {
            // Behind the lost session's own transaction, should the server still be at it.
            link.client.batch_execute("BEGIN")?;
            let found = take_turn(link)
                .and_then(|()| link.client.query_opt("SELECT hash FROM event WHERE id = $1", &[id]))
                .map(|row| row.map(|r| r.get::<_, Vec<u8>>(0)));
            link.client.batch_execute("ROLLBACK")?;
            found
        });
        match found {
            Ok(Some(there)) if there == *hash => Ok(()),
            Ok(_) => Err(lost),
            Err(error) => Err(ServerError::Unknown {
                address: self.server.at.to_string(),
                head: EventHash(hash.as_slice().try_into().unwrap_or_default()).to_string(),
                detail: error.to_string(),
            }
            .into()),
        }
    }
}

/// Sends gathered rows.
fn copy(link: &mut Link, text: &str, rows: &[u8]) -> Result<(), postgres::Error> {
    let statement = link.prepared(text)?;
    let mut to = link.client.copy_in(&statement)?;
    let written = [HEAD, rows, END].iter().try_for_each(|b| to.write_all(b).and_then(|()| to.flush()));
    // What the server says comes first: it may have refused before all was sent.
    to.finish()?;
    written.map_err(driver_error)
}

/// The error of the driver within one of reading and writing.
fn driver_error(error: std::io::Error) -> postgres::Error {
    let inner = error.into_inner().map(<dyn std::error::Error + Send + Sync>::downcast::<postgres::Error>);
    match inner {
        Some(Ok(error)) => *error,
        _ => unreachable!("the driver's writer passes on its own errors only"),
    }
}

/// The name that is there already, from the line that the server names.
fn refused_name(table: &'static Table, pending: &Pending, error: &postgres::Error) -> String {
    let said = error.as_db_error();
    let line = said
        .and_then(|e| e.where_())
        .and_then(|w| w.split("line ").nth(1))
        .and_then(|n| n.split(|c: char| !c.is_ascii_digit()).next())
        .and_then(|n| n.parse::<usize>().ok());
    let by_line = line.and_then(|n| n.checked_sub(1)).map(|row| {
        let one = |place: usize| {
            let bytes = pending.read(row, place + 2);
            match (Dialect::Postgres.type_of(table.columns[place].kind), bytes) {
                (_, None) => Cell::Null.describe(),
                ("BIGINT", Some(b)) => {
                    b.try_into().map_or_else(|_| String::new(), |b| i64::from_be_bytes(b).to_string())
                }
                ("DOUBLE PRECISION", Some(b)) => {
                    b.try_into().map_or_else(|_| String::new(), |b| Cell::Real(f64::from_be_bytes(b)).describe())
                }
                ("BYTEA", Some(b)) => Cell::Blob(b).describe(),
                (_, Some(b)) => Cell::Text(&String::from_utf8_lossy(b)).describe(),
            }
        };
        key_places(table).map(one).collect::<Vec<_>>().join(", ")
    });
    by_line.unwrap_or_else(|| said.and_then(|e| e.detail()).unwrap_or_default().to_owned())
}

impl Reading for ServerWriting<'_> {
    fn select(&self, query: &Query, each: Each) -> Result<(), StoreError> {
        self.send_all()?;
        self.server.select(query, each)
    }

    fn events(&self, after: i64, each: &mut dyn FnMut(EventRow) -> Result<(), StoreError>) -> Result<(), StoreError> {
        self.send(events_place())?;
        self.server.events(after, each)
    }

    fn last_event(&self) -> Result<Option<(i64, Vec<u8>)>, StoreError> {
        if let Some(event) = &self.event {
            return Ok(Some(event.clone()));
        }
        self.settle()?;
        self.server.last_event()
    }
}

impl Writing for ServerWriting<'_> {
    fn highest_id(&mut self, table: &'static Table) -> Result<i64, StoreError> {
        let at = crate::store::act::place_of(table.name)?;
        if self.added[at] {
            self.send(at)?;
            return Ok(self.one_integer(&sql::highest_id(table), &[])?.unwrap_or(0));
        }
        Ok(self.highest[at])
    }

    fn insert(&mut self, at: usize, id: i64, event: i64, cells: &[Cell]) -> Result<(), StoreError> {
        let fields = self.columns(at).count();
        self.added[at] = true;
        if self.known[at].asked {
            let mut key = [Cell::Null; 8];
            let mut used = 0;
            for place in key_places(&TABLES[at]) {
                key[used] = cells[place];
                used += 1;
            }
            self.known[at].add(&key[..used], id);
        }
        let pending = &mut self.pending.get_mut()[at];
        pending.begin(fields + 2);
        pending.field(&Cell::Integer(id));
        pending.field(&Cell::Integer(event));
        cells[..fields].iter().for_each(|cell| pending.field(cell));
        if pending.bytes.len() >= GATHER_BYTES { self.send_beside(at) } else { Ok(()) }
    }

    fn find(&mut self, at: usize, key: &[Cell]) -> Result<Option<i64>, StoreError> {
        self.ask(at)?;
        let known = &mut self.known[at];
        let Some(name) = name_of(&mut known.scratch, key.iter().copied()) else { return Ok(None) };
        if let Some(id) = known.ids.get(&name) {
            return Ok(Some(*id));
        }
        if known.complete {
            return Ok(None);
        }
        let undone = self.undone.contains(TABLES[at].name);
        let found = self.one_integer(&sql::find(&TABLES[at], undone, Dialect::Postgres), key)?;
        if let Some(id) = found {
            self.known[at].ids.insert(name, id);
        }
        Ok(found)
    }

    fn highest_in_key(&mut self, at: usize, key: &[Cell]) -> Result<Option<i64>, StoreError> {
        self.ask(at)?;
        let known = &mut self.known[at];
        let Some(name) = name_of(&mut known.scratch, key.iter().copied()) else { return Ok(None) };
        let remembered = known.highest.get(&name).copied();
        if known.complete {
            return Ok(remembered);
        }
        let found = self.one_integer(&sql::highest_in_key(&TABLES[at], Dialect::Postgres), key)?;
        Ok(found.max(remembered))
    }

    fn append_event(&mut self, event: &EventRow) -> Result<(), StoreError> {
        self.event = Some((event.id, event.hash.to_vec()));
        let pending = &mut self.pending.get_mut()[events_place()];
        pending.begin(3);
        pending.field(&Cell::Integer(event.id));
        pending.field(&Cell::Text(event.body));
        pending.field(&Cell::Blob(event.hash));
        if pending.bytes.len() >= GATHER_BYTES { self.send(events_place()) } else { Ok(()) }
    }

    fn commit(mut self: Box<Self>) -> Result<(), StoreError> {
        self.send_all()?;
        let committed = self.server.with("committing an act", |link, _| match link.client.batch_execute("COMMIT") {
            Err(error) if !is_lost(&error) => Ok(Err(error)),
            other => other.map(Ok),
        });
        // Kept, refused or unknown: in no case is there a transaction to take back.
        self.done = true;
        self.server.within.set(false);
        match committed {
            Ok(Ok(())) => Ok(()),
            Ok(Err(error)) => Err(self.server.told("committing an act", &error)),
            Err(lost) => self.look_afterwards(lost),
        }
    }
}

impl Drop for ServerWriting<'_> {
    fn drop(&mut self) {
        if self.done {
            return;
        }
        // Whatever the second thread heard, nothing of the act is kept.
        let _ = self.settle();
        self.server.within.set(false);
        let mut held = self.server.link.borrow_mut();
        let back = held.as_mut().map(|link| link.client.batch_execute("ROLLBACK"));
        if matches!(back, Some(Err(_))) {
            // The server rolls back what a lost session began.
            *held = None;
        }
    }
}
