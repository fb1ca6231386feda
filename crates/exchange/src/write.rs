//! Writes a package: the parts side by side on threads of their own, then the descriptions of all files
//! and their sums. Whole or not at all.
//!
//! Results are read once, in blocks that go to each file's own thread; the record, looked at row by row whether it is
//! what was written, and the tables for people are read beside that. A programme that is written to in between has
//! another head hash in the end: then the package is made again.

use crate::describe::{self, Whole};
use crate::folder::{Entry, Folder};
use crate::observations::Observations;
use crate::provenance::Provenance;
use crate::results::{self, One, RESULTS};
use crate::standing::Standing;
use crate::tables::{self, Csv};
use crate::{Error, dictionary, documents, steps, whole_record};
use record::store::{EventHash, Store};
use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::thread;

/// Results handed over at once.
const BLOCK: usize = 256;

/// Blocks that may wait for a slower file.
const WAITING: usize = 4;

/// How much of the record is kept in memory beside what the caller keeps: a choice.
const CACHE_KIB: u32 = 2 * 1024;

/// How often a package is made again because the programme moved on.
const TRIES: u32 = 3;

/// Path of the results as Parquet.
pub const PARQUET: &str = "parquet/results.parquet";

/// What the person chooses.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// Licence of the package: a name or an address. None: it says that none is stated.
    pub licence: Option<String>,
    /// Who publishes it, by name. None: those who made the record.
    pub publisher: Option<String>,
    /// By what address persons are known beyond the record (an ORCID, say): name as on record, address.
    pub identifiers: Vec<(String, String)>,
}

/// What was written.
#[derive(Debug, Clone)]
pub struct Written {
    /// Files, by path; the lists of sums are not among them.
    pub files: Vec<Entry>,
    /// Head hash of the record.
    pub head: Option<EventHash>,
    /// BLAKE3 of the list of BLAKE3 sums: it stands for every byte of the package, the licence too.
    pub seal: String,
    /// Rows of the record.
    pub rows: u64,
    /// Results, newest revisions.
    pub results: u64,
}

/// Writes the package of a programme to `target`: a new or an empty folder, or one that holds nothing
/// but an earlier package.
///
/// # Errors
/// [`Error::Occupied`], [`Error::Moving`], [`Error::NoPerson`]; a record that is not what was written; the store cannot be read, the
/// folder not written. Nothing is left there then.
pub fn write(store: &Store, target: &Path, options: &Options) -> Result<Written, Error> {
    for _ in 0..TRIES {
        let folder = Folder::begin(target)?;
        let head = store.head()?;
        let (rows, results) = match make(store, &folder, options) {
            Ok(counted) => counted,
            // What was altered from outside may be why: that is told rather than what came of it.
            Err(e) => return Err(store.as_written().err().map_or(e, Into::into)),
        };
        if store.head()? == head {
            let seal = folder.seal();
            return Ok(Written { files: folder.finish(target)?, head, seal, rows, results });
        }
    }
    Err(Error::Moving { tries: TRIES })
}

/// Makes all files of a package but the lists of sums; answers the rows of the record and the results.
pub(crate) fn make(store: &Store, folder: &Folder, options: &Options) -> Result<(u64, u64), Error> {
    let counted = parts(store, folder)?;
    dictionary::write(folder)?;
    let whole = Whole::of(store)?;
    whole.knows(&options.identifiers)?;
    documents::write(store, folder, &whole, options)?;
    let crate_of = describe::ro_crate(&whole, &folder.entries(), options);
    let about = "Description of this package as an RO-Crate 1.2.";
    folder.put(describe::RO_CRATE, pretty(&crate_of).as_bytes(), "application/ld+json", about)?;
    let package = describe::data_package(&whole, &folder.entries(), options);
    let about = "Description of this package as a Frictionless Data Package.";
    folder.put(describe::DATA_PACKAGE, pretty(&package).as_bytes(), "application/json", about)?;
    Ok(counted)
}

fn pretty(value: &serde_json::Value) -> String {
    let mut out = serde_json::to_string_pretty(value).expect("a JSON value has a text");
    out.push('\n');
    out
}

type Block = Arc<Vec<One>>;

/// Writes all tables; answers the rows of the record and the results.
fn parts(store: &Store, folder: &Folder) -> Result<(u64, u64), Error> {
    let standing = Arc::new(Standing::of(store)?);
    let mut csv = Csv::begin(folder, &RESULTS)?;
    let mut parquet = begin_parquet(store, folder)?;
    let mut observations = Observations::begin(store, folder)?;
    let mut provenance = Provenance::begin(store, folder)?;
    thread::scope(|scope| {
        // Read from beginning to end, once: little of it is wanted again.
        let again = || {
            let mut beside = store.again()?;
            beside.set_cache(CACHE_KIB)?;
            Ok::<Store, Error>(beside)
        };
        let (whole, people, results_of) = (again()?, again()?, again()?);
        // Nothing leaves the house that was altered: every row is looked at on its way into the record's files, and no
        // file gets its name before.
        let record = scope.spawn(move || whole_record::write(&whole, folder));
        let for_people = scope.spawn(move || {
            tables::write(&people, folder)?;
            steps::write(&people, folder)
        });
        let mut senders = vec![];
        let behind = Arc::clone(&standing);
        let to_csv = scope.spawn(taking(&mut senders, move |blocks| {
            each(blocks, |one| results::row(&mut csv, one, &behind))?;
            csv.end_table(folder, &RESULTS)
        }));
        let behind = Arc::clone(&standing);
        let to_parquet = scope.spawn(taking(&mut senders, move |blocks| {
            each(blocks, |one| results::row(&mut parquet, one, &behind))?;
            folder.keep(parquet.finish()?, "application/vnd.apache.parquet", RESULTS.about)
        }));
        let to_observations = scope.spawn(taking(&mut senders, move |blocks| {
            each(blocks, |one| observations.add(one))?;
            Ok(observations)
        }));
        let to_provenance = scope.spawn(taking(&mut senders, move |blocks| {
            each(blocks, |one| provenance.add(one))?;
            Ok(provenance)
        }));
        let results = hand_out(&results_of, &senders);
        // No more blocks: the threads come to their end.
        drop(senders);
        joined(to_csv)?;
        joined(to_parquet)?;
        joined(to_observations)?.end(store, folder)?;
        joined(to_provenance)?.end(store, folder)?;
        joined(for_people)?;
        let rows = joined(record)?;
        Ok((rows, results?))
    })
}

fn begin_parquet(store: &Store, folder: &Folder) -> Result<columns::Writer<crate::folder::Sink>, Error> {
    let head = store.head()?.map_or_else(String::new, |h| h.to_string());
    let about = [("title", RESULTS.about), ("head", head.as_str())];
    Ok(columns::Writer::new(folder.file(PARQUET)?, tables::parquet_fields(&RESULTS), &about)?)
}

/// A thread's work that takes blocks; its sender joins the list.
fn taking<T, W: FnOnce(Receiver<Block>) -> Result<T, Error>>(
    senders: &mut Vec<SyncSender<Block>>,
    work: W,
) -> impl FnOnce() -> Result<T, Error> + use<T, W> {
    let (sender, receiver) = sync_channel(WAITING);
    senders.push(sender);
    move || work(receiver)
}

fn each(blocks: Receiver<Block>, mut each: impl FnMut(&One) -> Result<(), Error>) -> Result<(), Error> {
    blocks.into_iter().try_for_each(|block| block.iter().try_for_each(&mut each))
}

fn joined<T>(handle: thread::ScopedJoinHandle<Result<T, Error>>) -> Result<T, Error> {
    handle.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))
}

/// Reads the results once and hands them to every file.
fn hand_out(store: &Store, senders: &[SyncSender<Block>]) -> Result<u64, Error> {
    let (mut block, mut count) = (Vec::with_capacity(BLOCK), 0);
    let send = |block: &mut Vec<One>| {
        let full = Arc::new(std::mem::replace(block, Vec::with_capacity(BLOCK)));
        for to in senders {
            // A file whose thread has ended says itself why.
            let _ = to.send(Arc::clone(&full));
        }
    };
    results::each(store, |one| {
        count += 1;
        block.push(one);
        if block.len() == BLOCK {
            send(&mut block);
        }
        Ok(())
    })?;
    send(&mut block);
    Ok(count)
}
