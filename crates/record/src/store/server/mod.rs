//! The store on a PostgreSQL server: the same tables, the same events, the same digests as in a
//! file; numbers and texts travel in their binary form, so every value reads back to the last bit.
//!
//! * One act is one transaction (`writing`). Writers come one after another: each takes an
//!   advisory lock that belongs to the schema before it looks at the record, so numbers and events
//!   are given without gaps and in the order in which they are kept. Readers never wait.
//! * Rows are sent by COPY in binary form, gathered per table.
//! * A lost connection is made again where nothing was begun; within an act the act is lost as a
//!   whole and told ([`ServerError::Lost`]). Lost while committing, the server is asked
//!   afterwards whether the event is there.
//! * A server that starts, stops or has no place free is waited for, as long as the patience goes.
//!
//! Decisions: `docs/decisions/2026-11-25-server.md`. Checked in `tests/store_server.rs`, and by the
//! store's other tests, which run on both kinds of store.

mod address;
mod check;
mod error;
mod passwords;
mod rows;
mod tls;
mod writing;

pub(crate) use address::ServerAddress;
pub use address::{is_server, readable, short_name, shown};
pub use error::ServerError;
pub use passwords::{WITHDRAWN, split as without_password};

use super::backend::{Backend, Each, EventRow, Query, ReadAs, Reading, UNDO, Writing};
use super::sql::{self, Dialect};
use super::verify::Difference;
use super::{Cell, StoreError, migrate};
use crate::schema::TABLES;
use address::in_full;
use error::{OLDEST_MAJOR, is_lost, told, will_pass};
use postgres::{Client, Statement};
use rows::{Values, column_of};
use std::cell::{Cell as Slot, RefCell};
use std::collections::{BTreeSet, HashMap};
use std::path::Path;
use std::time::{Duration, Instant};
use writing::ServerWriting;

/// How long a writer waits for another one, and everybody for a server that does not answer.
const PATIENCE: Duration = Duration::from_secs(20);

/// How long is waited at first before the next try; doubled each time up to the longest.
const FIRST_PAUSE: Duration = Duration::from_millis(20);
const LONGEST_PAUSE: Duration = Duration::from_millis(500);

/// First half of the key of the advisory lock ("LMPD"); the second is the schema's own number.
const LOCK: i32 = 0x4C4D_5044;

/// The table that tells a programme's schema from others.
pub(crate) const VERSION_TABLE: &str = "store_version";

/// One connection with its prepared sentences.
struct Link {
    client: Client,
    statements: HashMap<String, Statement>,
    /// Number of the schema, second half of the lock's key; 0 where there is no schema yet.
    schema: i32,
}

impl Link {
    fn prepared(&mut self, text: &str) -> Result<Statement, postgres::Error> {
        if let Some(statement) = self.statements.get(text) {
            return Ok(statement.clone());
        }
        let statement = self.client.prepare(text)?;
        self.statements.insert(text.to_owned(), statement.clone());
        Ok(statement)
    }
}

/// A programme on a server.
pub(crate) struct Server {
    at: ServerAddress,
    link: RefCell<Option<Link>>,
    patience: Slot<Duration>,
    /// Inside a transaction: then a lost connection cannot be made again.
    within: Slot<bool>,
    cursors: Slot<u64>,
    version: u32,
}

impl Server {
    fn at(at: ServerAddress) -> Self {
        Self {
            at,
            link: RefCell::new(None),
            patience: Slot::new(PATIENCE),
            within: Slot::new(false),
            cursors: Slot::new(0),
            version: 0,
        }
    }

    /// Makes an empty programme of schema version `version`.
    pub fn create(at: ServerAddress, version: u32) -> Result<Self, StoreError> {
        let store = Self::create_unkept(at, version)?;
        let ended = store.with("making a new programme", |link, _| link.client.batch_execute("COMMIT"));
        store.within.set(false);
        ended.map(|()| store)
    }

    /// As [`create`](Self::create), but kept only when the act that follows is: both are one
    /// transaction.
    pub(crate) fn create_unkept(at: ServerAddress, version: u32) -> Result<Self, StoreError> {
        let mut store = Self::at(at);
        store.with("making a new programme", |link, at| {
            link.client.batch_execute("BEGIN")?;
            let made = make_schema(link, at);
            if made.is_err() {
                let _ = link.client.batch_execute("ROLLBACK");
            }
            made
        })?;
        store.within.set(true);
        // Refused, the connection is dropped with the store, and with it the transaction.
        store.made(version)?;
        store.version = version;
        Ok(store)
    }

    /// Within the transaction that makes a programme: the tables, unless something is there.
    fn made(&self, version: u32) -> Result<(), StoreError> {
        let found = self.with("looking at the schema", |link, at| relations(link, &at.schema))?;
        if !found.is_empty() {
            let found = if found.iter().any(|n| n == VERSION_TABLE) {
                "a programme".to_owned()
            } else {
                found.iter().take(5).cloned().collect::<Vec<_>>().join(", ")
            };
            return Err(
                ServerError::NotEmpty { address: self.at.to_string(), schema: self.at.schema.clone(), found }.into()
            );
        }
        self.with("making a new programme", |link, _| {
            link.client.batch_execute(&format!("CREATE TABLE {VERSION_TABLE} (version BIGINT NOT NULL)"))?;
            link.client.batch_execute(&format!("INSERT INTO {VERSION_TABLE} VALUES (0)"))?;
            step_up(link, 0, version)
        })
    }

    /// Opens a programme and brings an older schema up to date.
    pub fn open(at: ServerAddress) -> Result<Self, StoreError> {
        let mut store = Self::open_as_it_is(at)?;
        let known = migrate::current_version();
        if store.version < known {
            store.with("bringing the schema up to date", |link, _| {
                link.client.batch_execute("BEGIN")?;
                let done = take_turn(link).and_then(|()| {
                    // Read inside the transaction: another process may have been first.
                    let found = version_of(link)?;
                    step_up(link, found, known)
                });
                link.client.batch_execute(if done.is_ok() { "COMMIT" } else { "ROLLBACK" })?;
                done
            })?;
            store.version = known;
        }
        Ok(store)
    }

    /// Opens a programme of this or an older schema and leaves it so.
    pub(crate) fn open_as_it_is(at: ServerAddress) -> Result<Self, StoreError> {
        let mut store = Self::at(at);
        let there = store.with("opening", |link, at| {
            let found =
                link.client.query_one("SELECT to_regclass($1)::text", &[&format!("{}.{VERSION_TABLE}", at.schema)])?;
            Ok(found.get::<_, Option<String>>(0).is_some())
        })?;
        if !there {
            return Err(ServerError::NoProgramme { address: store.at.to_string(), schema: store.at.schema }.into());
        }
        let found = store.with("opening", |link, _| version_of(link))?;
        let known = migrate::current_version();
        if found > known {
            return Err(StoreError::Newer { path: store.at.to_string().into(), found, known });
        }
        store.version = found;
        Ok(store)
    }

    fn told(&self, doing: &'static str, error: &postgres::Error) -> StoreError {
        told(&self.at, doing, error)
    }

    /// A new connection, waited for where waiting may help.
    fn connect(&self) -> Result<Link, StoreError> {
        let begin = Instant::now();
        let mut pause = FIRST_PAUSE;
        let seal = tls::Seal::of(self.at.tls.as_ref(), &self.at.to_string())?;
        loop {
            let tried = self.at.config.connect(seal.clone()).and_then(|client| self.set_up(client));
            let error = match tried {
                Ok(link) => return link,
                Err(error) => error,
            };
            if !will_pass(&error) {
                return Err(match self.told("connecting", &error) {
                    StoreError::Server(ServerError::Lost { address, detail, .. }) => {
                        ServerError::Silent { address, waited_s: begin.elapsed().as_secs(), detail }.into()
                    }
                    other => other,
                });
            }
            if begin.elapsed() + pause > self.patience.get() {
                let (address, waited_s) = (self.at.to_string(), begin.elapsed().as_secs());
                return Err(ServerError::Silent { address, waited_s, detail: in_full(&error) }.into());
            }
            std::thread::sleep(pause);
            pause = (pause * 2).min(LONGEST_PAUSE);
        }
    }

    /// A session as the store wants it: kept when told as kept, plans for all rows of a cursor.
    fn set_up(&self, mut client: Client) -> Result<Result<Link, StoreError>, postgres::Error> {
        let address = || self.at.to_string();
        client.batch_execute(&format!(
            "SET search_path TO \"{}\"; SET synchronous_commit TO on; SET cursor_tuple_fraction TO 1.0; SET jit TO off;
             SET client_min_messages TO warning; SET default_transaction_isolation TO 'read committed';
             SET statement_timeout TO 0; SET idle_in_transaction_session_timeout TO 0; SET lock_timeout TO {}",
            self.at.schema,
            lock_timeout(self.patience.get())
        ))?;
        let row = client.query_one(
            "SELECT current_setting('server_version_num')::int, current_setting('server_version'),
               current_setting('server_encoding'), (SELECT oid FROM pg_namespace WHERE nspname = $1)",
            &[&self.at.schema],
        )?;
        let number: i32 = row.get(0);
        if number < i32::try_from(OLDEST_MAJOR * 10_000).unwrap_or(i32::MAX) {
            return Ok(Err(ServerError::Version { address: address(), found: row.get(1) }.into()));
        }
        let encoding: String = row.get(2);
        if encoding != "UTF8" {
            return Ok(Err(ServerError::Encoding { address: address(), found: encoding }.into()));
        }
        let schema = row.get::<_, Option<u32>>(3).unwrap_or(0).cast_signed();
        Ok(Ok(Link { client, statements: HashMap::new(), schema }))
    }

    /// Does something with the connection. Where it is lost outside a transaction, it is made
    /// again and `work` done anew.
    fn with<T>(
        &self,
        doing: &'static str,
        mut work: impl FnMut(&mut Link, &ServerAddress) -> Result<T, postgres::Error>,
    ) -> Result<T, StoreError> {
        let begin = Instant::now();
        loop {
            let mut held = self.link.borrow_mut();
            if held.as_ref().is_some_and(|l| l.client.is_closed()) {
                *held = None;
            }
            if held.is_none() {
                // What the act wrote went with the lost session; on a new one the rest of it would be kept alone.
                if self.within.get() {
                    let detail = "the connection is closed".into();
                    return Err(ServerError::Lost { address: self.at.to_string(), doing, detail }.into());
                }
                *held = Some(self.connect()?);
            }
            let link = held.as_mut().expect("made above");
            let error = match work(link, &self.at) {
                Ok(out) => return Ok(out),
                Err(error) => error,
            };
            if !is_lost(&error) {
                return Err(self.told(doing, &error));
            }
            *held = None;
            if self.within.get() || begin.elapsed() > self.patience.get() {
                return Err(self.told(doing, &error));
            }
        }
    }

    /// Ends a transaction that only read.
    fn end_reading(&self, done: bool) -> Result<(), StoreError> {
        let ended = self.with("reading", |link, _| link.client.batch_execute(if done { "COMMIT" } else { "ROLLBACK" }));
        self.within.set(false);
        ended
    }
}

/// The lock of the schema's writers, to the end of the transaction.
fn take_turn(link: &mut Link) -> Result<(), postgres::Error> {
    let (statement, key) = (link.prepared("SELECT pg_advisory_xact_lock($1, $2)")?, link.schema);
    link.client.query_one(&statement, &[&LOCK, &key]).map(|_| ())
}

/// The patience in the server's words; 0 would be for ever.
fn lock_timeout(patience: Duration) -> u128 {
    patience.as_millis().clamp(1, i32::MAX as u128)
}

/// The schema itself, in an open transaction.
fn make_schema(link: &mut Link, at: &ServerAddress) -> Result<(), postgres::Error> {
    if link.schema == 0 {
        link.client.batch_execute(&format!("CREATE SCHEMA IF NOT EXISTS \"{}\"", at.schema))?;
        let row = link.client.query_one("SELECT oid FROM pg_namespace WHERE nspname = $1", &[&at.schema])?;
        link.schema = row.get::<_, u32>(0).cast_signed();
    }
    take_turn(link)
}

/// Names of what stands in a schema.
fn relations(link: &mut Link, schema: &str) -> Result<Vec<String>, postgres::Error> {
    let found = link.client.query(
        "SELECT relname::text FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace WHERE n.nspname = $1 ORDER BY 1",
        &[&schema],
    )?;
    Ok(found.iter().map(|row| row.get(0)).collect())
}

fn version_of(link: &mut Link) -> Result<u32, postgres::Error> {
    let row = link.client.query_one(&format!("SELECT max(version) FROM {VERSION_TABLE}"), &[])?;
    Ok(row.get::<_, Option<i64>>(0).and_then(|v| u32::try_from(v).ok()).unwrap_or(0))
}

/// The versions after `found` up to `version`, in an open transaction.
fn step_up(link: &mut Link, found: u32, version: u32) -> Result<(), postgres::Error> {
    for step in found + 1..=version {
        let sentences = migrate::sentences(TABLES, step, Dialect::Postgres);
        link.client.batch_execute(&sentences.join(";\n"))?;
    }
    if found < version {
        link.client.batch_execute(&format!("UPDATE {VERSION_TABLE} SET version = {version}"))?;
    }
    Ok(())
}

impl Reading for Server {
    fn select(&self, query: &Query, each: Each) -> Result<(), StoreError> {
        let mut read_as = ReadAs::default();
        if query.amended {
            let found = self.with("reading", |link, _| {
                let statement = link.prepared(ReadAs::AMENDED)?;
                link.client.query(&statement, &[])
            })?;
            read_as.amended.extend(found.iter().map(|row| (row.get(0), row.get(1))));
            read_as.undone = self.undone()?;
        }
        let text = sql::select(query, &read_as, Dialect::Postgres)?;
        let values: Vec<Cell> = query.filter.equal.iter().map(|(_, v)| *v).filter(|v| *v != Cell::Null).collect();
        let heavy =
            query.paths.iter().any(|p| column_of(query.table, p).is_some_and(|k| k == crate::schema::Kind::Blob));
        let ends_itself = query.filter.limit.is_some();
        self.stream(&rows::Ask { text: &text, values: &values, heavy, ends_itself }, each)
    }

    fn events(&self, after: i64, each: &mut dyn FnMut(EventRow) -> Result<(), StoreError>) -> Result<(), StoreError> {
        let values = [Cell::Integer(after)];
        let text = "SELECT id, body, hash FROM event WHERE id > $1 ORDER BY id";
        self.stream(&rows::Ask { text, values: &values, heavy: false, ends_itself: false }, &mut |row| {
            let Cell::Integer(id) = row.cell(0) else { return Ok(()) };
            let (body, hash) = (row.cell(1), row.cell(2));
            each(EventRow {
                id,
                body: if let Cell::Text(t) = body { t } else { "" },
                hash: if let Cell::Blob(b) = hash { b } else { &[] },
            })
        })
    }

    fn last_event(&self) -> Result<Option<(i64, Vec<u8>)>, StoreError> {
        self.with("reading", |link, _| {
            let statement = link.prepared("SELECT id, hash FROM event ORDER BY id DESC LIMIT 1")?;
            Ok(link.client.query_opt(&statement, &[])?.map(|row| (row.get(0), row.get(1))))
        })
    }
}

impl Backend for Server {
    fn writing(&mut self) -> Result<Box<dyn Writing + '_>, StoreError> {
        // A programme in the making is within its transaction already.
        if self.within.get() {
            return Ok(Box::new(ServerWriting::begin(self)?));
        }
        self.with("beginning an act", |link, _| {
            link.client.batch_execute("BEGIN READ WRITE")?;
            let turn = take_turn(link);
            if turn.is_err() {
                let _ = link.client.batch_execute("ROLLBACK");
            }
            turn
        })?;
        self.within.set(true);
        Ok(Box::new(ServerWriting::begin(self)?))
    }

    fn schema_version(&self) -> Result<u32, StoreError> {
        self.with("reading", |link, _| version_of(link))
    }

    fn check(&self) -> Result<Vec<Difference>, StoreError> {
        check::check(self)
    }

    fn set_patience(&mut self, patience: Duration) -> Result<(), StoreError> {
        self.patience.set(patience);
        let sentence = format!("SET lock_timeout TO {}", lock_timeout(patience));
        self.with("setting a time-out", |link, _| link.client.batch_execute(&sentence))
    }

    /// The server holds what is often read.
    fn set_cache(&mut self, _: u32) -> Result<(), StoreError> {
        Ok(())
    }

    /// Writers come one after another as they are; readers are never in the way.
    fn alone(&mut self, _: bool) -> Result<(), StoreError> {
        Ok(())
    }

    fn copies_its_file(&self, _: &Path) -> Result<bool, StoreError> {
        Ok(false)
    }

    fn again(&self) -> Result<Box<dyn Backend>, StoreError> {
        Ok(Box::new(Self::open(self.at.clone())?))
    }

    fn standing(&self, work: &mut dyn FnMut() -> Result<(), StoreError>) -> Result<(), StoreError> {
        if self.within.get() {
            return work();
        }
        self.begin_reading()?;
        let done = work();
        let ended = self.end_reading(done.is_ok());
        done.and(ended)
    }
}

impl Server {
    /// Tables with rows that count no longer.
    fn undone(&self) -> Result<BTreeSet<String>, StoreError> {
        if self.version < UNDO {
            return Ok(BTreeSet::new());
        }
        let found = self.with("reading", |link, _| {
            let statement = link.prepared(ReadAs::UNDONE)?;
            link.client.query(&statement, &[])
        })?;
        Ok(found.iter().map(|row| row.get(0)).collect())
    }

    /// One look at the record for several reads.
    fn begin_reading(&self) -> Result<(), StoreError> {
        self.with("reading", |link, _| link.client.batch_execute("BEGIN ISOLATION LEVEL REPEATABLE READ, READ ONLY"))?;
        self.within.set(true);
        Ok(())
    }

    fn stream(&self, ask: &rows::Ask, each: Each) -> Result<(), StoreError> {
        // All of a short answer at once; what a longer one brought is asked again, page by page.
        if !ask.heavy || ask.ends_itself {
            let short = self.with("reading", |link, _| {
                let statement = link.prepared(ask.text)?;
                rows::short(&mut link.client, &statement, ask.values)
            })?;
            if let Some(rows) = short {
                return rows.iter().try_for_each(|row| each(&Values(row)));
            }
        }
        let own = !self.within.get();
        if own {
            self.begin_reading()?;
        }
        let done = self.page_by_page(ask, each);
        if !own {
            return done;
        }
        let ended = self.end_reading(done.is_ok());
        done.and(ended)
    }

    fn page_by_page(&self, ask: &rows::Ask, each: Each) -> Result<(), StoreError> {
        let cursor = format!("c{}", self.cursors.replace(self.cursors.get() + 1));
        self.with("reading", |link, _| {
            let declare = link.client.prepare(&format!("DECLARE {cursor} NO SCROLL CURSOR FOR {}", ask.text))?;
            rows::execute(&mut link.client, &declare, ask.values)
        })?;
        let fetch = format!("FETCH FORWARD {} FROM {cursor}", if ask.heavy { rows::HEAVY_PAGE } else { rows::PAGE });
        loop {
            let page = self.with("reading", |link, _| link.client.query(&fetch, &[]))?;
            if page.is_empty() {
                break;
            }
            page.iter().try_for_each(|row| each(&Values(row)))?;
        }
        self.with("reading", |link, _| link.client.batch_execute(&format!("CLOSE {cursor}")))
    }
}
