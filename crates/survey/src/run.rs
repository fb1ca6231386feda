//! A survey of tables far larger than memory: rows are put into buckets by their series (or sample), then bucket after
//! bucket is asked, each small enough for memory.
//!
//! A work folder beside the answer keeps what is finished: the rows of each piece of the input in their buckets, the
//! answers of each bucket. Everything is written beside its place and renamed when whole, so an interrupted run goes on
//! where it stopped; another input, another reading or another version of this program begins anew. The answer's bytes
//! depend on the rows alone, not on threads, pieces, buckets or machines.

use crate::columns::Reading;
use crate::error::Error;
use crate::functions;
use crate::table::{self, Part, Table};
use datafusion::arrow::array::{Array, ArrayRef, AsArray, RecordBatch, UInt32Array};
use datafusion::arrow::compute::{concat_batches, take};
use datafusion::arrow::datatypes::{DataType, Field, Int64Type, Schema, SchemaRef};
use datafusion::execution::SendableRecordBatchStream;
use datafusion::execution::runtime_env::RuntimeEnvBuilder;
use datafusion::parquet::arrow::ArrowWriter;
use datafusion::parquet::basic::Compression;
use datafusion::parquet::file::properties::WriterProperties;
use datafusion::prelude::{DataFrame, ParquetReadOptions, SessionConfig, SessionContext};
use futures::StreamExt as _;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::hash::{DefaultHasher, Hasher as _};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

/// What is asked of the rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Question {
    /// Summary and trend of each well, analyte and unit.
    Series,
    /// Charge balance, saturation and limits of each sample.
    Waters,
}

impl Question {
    /// File name of the answer.
    pub fn file(self) -> &'static str {
        match self {
            Self::Series => "series.parquet",
            Self::Waters => "waters.parquet",
        }
    }

    /// Columns of the rows that it needs; the first ones are the key.
    fn columns(self) -> &'static [&'static str] {
        match self {
            Self::Series => &["well", "analyte", "unit", "date", "value", "below", "method", "fault"],
            Self::Waters => &["sample", "well", "date", "analyte", "unit", "value", "below", "u", "fault"],
        }
    }

    fn keys(self) -> usize {
        match self {
            Self::Series => 3,
            Self::Waters => 2,
        }
    }

    /// Why a row without fault takes no part, as SQL over the view: nothing, or words.
    fn own_fault(self) -> (&'static str, &'static str) {
        match self {
            Self::Series => ("CASE WHEN date IS NULL THEN 'a date that is not a day' END", "coalesce(raw_date, '')"),
            Self::Waters => ("CASE WHEN sample IS NULL OR sample = '' THEN 'no sample' END", "coalesce(raw_date, '')"),
        }
    }

    /// The view's rows with what keeps each out of this question, and of those the cell that it lies in.
    pub fn judged(self, view: &str) -> String {
        let (own, cell) = self.own_fault();
        format!(
            "SELECT * EXCEPT (fault, fault_cell), coalesce(fault, {own}) AS fault, \
             CASE WHEN fault IS NOT NULL THEN fault_cell WHEN {own} IS NOT NULL THEN {cell} END AS fault_cell FROM {view}"
        )
    }

    /// That the group of a row is known, as SQL.
    pub fn key_is_known(self) -> String {
        let key = &self.columns()[..self.keys()];
        key.iter().map(|k| format!("{k} IS NOT NULL AND {k} <> ''")).collect::<Vec<_>>().join(" AND ")
    }

    /// The answer's rows in their order.
    pub fn order(self) -> &'static str {
        match self {
            Self::Series => "well, analyte, unit",
            Self::Waters => "sample, well",
        }
    }

    /// The query over rows called `rows`.
    pub fn sql(self, rows: &str) -> String {
        match self {
            Self::Series => {
                // `judged` adds the fault of a missing day to rows that still have their values. The trend leaves
                // those without a date out by itself; the summary sees no date and has to be told.
                let fields = |of: &str, names: &[&str]| {
                    names.iter().map(|n| format!("{of}['{n}'] AS {n}")).collect::<Vec<_>>().join(", ")
                };
                let summary = [
                    "n",
                    "non_detects",
                    "mean",
                    "mean_highest",
                    "mean_low",
                    "mean_high",
                    "sd",
                    "p25",
                    "p25_below",
                    "median",
                    "median_below",
                    "median_low",
                    "median_high",
                    "p75",
                    "p75_below",
                    "p90",
                    "p90_below",
                    "p90_low",
                    "p90_high",
                ];
                let trend = [
                    "first",
                    "last",
                    "methods",
                    "s",
                    "tau_b",
                    "p",
                    "p_serial",
                    "answer",
                    "slope_per_year",
                    "slope_low",
                    "slope_high",
                    "slope_serial_low",
                    "slope_serial_high",
                    "percent_per_year",
                    "serial_correlation",
                    "rho",
                    "p_with_steps",
                    "p_serial_with_steps",
                    "slope_with_steps",
                    "slope_with_steps_low",
                    "slope_with_steps_high",
                    "change_date",
                    "change_p",
                    "change_p_serial",
                    "change_shift",
                    "cautions",
                ];
                format!(
                    "SELECT well, analyte, unit, s['method'] AS summary_by, {}, left_out, s['missing'] AS no_summary, {}, \
                     t['missing'] AS no_trend FROM (SELECT well, analyte, unit, \
                     count(*) FILTER (WHERE fault IS NOT NULL) AS left_out, \
                     censored_summary(CASE WHEN fault IS NULL THEN value END, CASE WHEN fault IS NULL THEN below END) AS s, \
                     trend(date, value, below, method) AS t FROM {rows} GROUP BY well, analyte, unit)",
                    fields("s", &summary),
                    fields("t", &trend),
                )
            }
            // Rows at fault go to `water` too, without value: a water that lacks one it needs is named, not guessed.
            Self::Waters => format!(
                "SELECT sample, well, first, results, left_out, above_a_limit, cannot_tell, w['pH'] AS \"pH\", \
                 w['charge_balance_percent'] AS charge_balance_percent, \
                 w['ionic_strength_mol_kg'] AS ionic_strength_mol_kg, \
                 w['conductivity_25C_uS_cm'] AS \"conductivity_25C_uS_cm\", w['saturation'] AS saturation, \
                 w['missing'] AS no_water FROM (SELECT sample, well, CAST(min(date) AS VARCHAR) AS first, \
                 count(*) AS results, count(*) FILTER (WHERE fault IS NOT NULL) AS left_out, \
                 count(*) FILTER (WHERE l['answer'] = 'above') AS above_a_limit, \
                 count(*) FILTER (WHERE l['answer'] = 'cannot tell') AS cannot_tell, \
                 water(analyte, value, below, unit) AS w FROM (SELECT *, \
                 against_limits_on(analyte, value, u, below, unit, date) AS l FROM {rows}) GROUP BY sample, well)"
            ),
        }
    }
}

/// What a survey is to do.
#[derive(Debug, Clone)]
pub struct Survey {
    /// Question.
    pub question: Question,
    /// How the table is read.
    pub reading: Reading,
    /// Folder of the answer.
    pub out: PathBuf,
    /// Threads.
    pub threads: usize,
    /// Rows that go into one bucket, about.
    pub bucket_rows: u64,
    /// Bytes of input that are put into buckets as one piece.
    pub piece_bytes: u64,
}

/// Rows that took no part for one reason.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LeftOut {
    /// How many.
    pub rows: u64,
    /// Of the cells that are the reason the first in the order of their bytes.
    pub for_example: String,
}

/// Rows that took no part, by reason.
pub type AllLeftOut = BTreeMap<String, LeftOut>;

/// Adds rows that were left out.
pub fn leave_out(all: &mut AllLeftOut, why: &str, rows: u64, example: &str) {
    match all.get_mut(why) {
        Some(of) => {
            of.rows += rows;
            if example < of.for_example.as_str() {
                of.for_example = example.to_string();
            }
        }
        None => _ = all.insert(why.to_string(), LeftOut { rows, for_example: example.to_string() }),
    }
}

/// What came of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Done {
    /// Rows read.
    pub rows: u64,
    /// Rows that took no part, by reason.
    pub left_out: AllLeftOut,
    /// Rows of the answer.
    pub answers: u64,
    /// Of them without summary or water.
    pub without: u64,
    /// The answer.
    pub file: PathBuf,
    /// BLAKE3 of the answer.
    pub blake3: String,
}

/// Rows that a bucket takes where nothing else is asked for.
pub const BUCKET_ROWS: u64 = 500_000;
/// Buckets at most: each is an open file while rows are put in.
const MOST_BUCKETS: u64 = 256;
/// Bytes of one piece of the input, finished as a whole, where nothing else is asked for.
pub const PIECE_BYTES: u64 = 256 << 20;
/// Rows in the open row groups of all buckets' files together.
const ROWS_IN_MEMORY: usize = 4 << 20;
/// Rows of one thread that wait for their buckets' files.
const ROWS_WAITING: usize = ROWS_IN_MEMORY / 16;
/// Bytes that sorting the answer may take before it goes on on the disk.
const SORTING_BYTES: usize = 512 << 20;

/// What a work folder was begun for.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct Begun {
    /// BLAKE3 of the program: another one may reckon otherwise.
    program: String,
    question: Question,
    reading: Reading,
    parts: Vec<Part>,
    buckets: u64,
    piece_bytes: u64,
}

/// What was read: of one piece, or of all.
#[derive(Debug, Default, Serialize, Deserialize)]
pub struct Counts {
    /// All rows.
    pub rows: u64,
    /// Of them those whose group is known: as many must be in the answer.
    pub keyed: u64,
    /// Rows that take no part, by reason.
    pub left_out: AllLeftOut,
}

impl Counts {
    fn add(&mut self, other: &Self) {
        self.rows += other.rows;
        self.keyed += other.keyed;
        for (why, of) in &other.left_out {
            leave_out(&mut self.left_out, why, of.rows, &of.for_example);
        }
    }
}

/// A session with the sciences.
///
/// # Errors
/// The engine refuses.
pub fn session(partitions: usize) -> Result<SessionContext, Error> {
    session_over(partitions, RuntimeEnvBuilder::new())
}

fn session_over(partitions: usize, runtime: RuntimeEnvBuilder) -> Result<SessionContext, Error> {
    let config = settings(SessionConfig::new(), partitions);
    let mut session = SessionContext::new_with_config_rt(config, Arc::new(runtime.build()?));
    functions::register(&mut session)?;
    Ok(session)
}

/// What every session has, here and in a cluster: one kind of text everywhere, in files and between processes; a file
/// of a megabyte is already read in parts.
pub fn settings(base: SessionConfig, partitions: usize) -> SessionConfig {
    let mut config = base.with_target_partitions(partitions);
    let options = config.options_mut();
    options.execution.parquet.schema_force_view_types = false;
    options.sql_parser.map_string_types_to_utf8view = false;
    options.optimizer.repartition_file_min_size = 1 << 20;
    config
}

/// BLAKE3 of this program.
fn program() -> Result<String, Error> {
    let path = std::env::current_exe().map_err(Error::file(Path::new("this program")))?;
    let mut hash = blake3::Hasher::new();
    std::io::copy(&mut File::open(&path).map_err(Error::file(&path))?, &mut hash).map_err(Error::file(&path))?;
    Ok(hash.finalize().to_hex().to_string())
}

/// Keeps another survey out of a folder as long as it lives. The locked file stays there: were it removed, one that waits
/// for it and one that comes anew would each hold a file of their own.
#[derive(Debug)]
pub struct Held(#[allow(dead_code, reason = "held, not read")] File);

impl Survey {
    /// Makes the folder of the answer and holds it.
    ///
    /// # Errors
    /// [`Error::Input`]: another survey is at work there; [`Error::File`].
    pub fn hold(&self) -> Result<Held, Error> {
        fs::create_dir_all(&self.out).map_err(Error::file(&self.out))?;
        let path = self.out.join(".survey");
        let lock = File::create(&path).map_err(Error::file(&path))?;
        match lock.try_lock() {
            Ok(()) => Ok(Held(lock)),
            Err(fs::TryLockError::WouldBlock) => Err(Error::input(
                format!("--out {}", self.out.display()),
                "another survey at work there",
                "a folder of its own, or to wait",
            )),
            Err(fs::TryLockError::Error(e)) => Err(Error::file(&path)(e)),
        }
    }

    fn work(&self) -> PathBuf {
        self.out.join(".work")
    }

    /// Runs it, or goes on with it.
    ///
    /// # Errors
    /// [`Error`]; nothing half-written stands where an answer belongs.
    pub async fn run(&self, table: &Table, tell: &(dyn Fn(String) + Sync)) -> Result<Done, Error> {
        let _held = self.hold()?;
        let work = self.work();
        let buckets = (table.rows_about() / self.bucket_rows.max(1) + 1).clamp(4, MOST_BUCKETS);
        let begun = Begun {
            program: program()?,
            question: self.question,
            reading: self.reading.clone(),
            parts: table.parts.clone(),
            buckets,
            piece_bytes: self.piece_bytes,
        };
        begin(&work, &begun, tell)?;
        let pieces = pieces(&table.parts, self.piece_bytes);
        let mut counts = Counts::default();
        for (k, piece) in pieces.iter().enumerate() {
            let put = self.piece(table, piece, &work.join(format!("rows-{k:05}")), buckets).await;
            counts.add(&put.map_err(|e| table.fault(piece).unwrap_or(e))?);
            tell(format!("read {} of {} pieces, {} rows", k + 1, pieces.len(), counts.rows));
        }
        self.ask(&work, pieces.len(), buckets, tell).await?;
        let paths = (0..buckets).map(|b| answer_of(&work, b)).collect::<Vec<_>>();
        let done = self.finish(&paths, counts).await?;
        fs::remove_dir_all(&work).map_err(Error::file(&work))?;
        Ok(done)
    }

    /// Keeps what a cluster answered and finishes it.
    ///
    /// # Errors
    /// [`Error::Engine`]: rows were lost or doubled on the way; [`Error`].
    pub async fn keep(&self, answers: SendableRecordBatchStream, counts: Counts) -> Result<Done, Error> {
        let work = self.work();
        if work.exists() {
            fs::remove_dir_all(&work).map_err(Error::file(&work))?;
        }
        fs::create_dir_all(&work).map_err(Error::file(&work))?;
        let path = answer_of(&work, 0);
        write_stream(&path, answers, "").await?;
        let done = self.finish(&[path], counts).await?;
        fs::remove_dir_all(&work).map_err(Error::file(&work))?;
        Ok(done)
    }

    /// Puts the rows of some files into buckets.
    async fn piece(&self, table: &Table, parts: &[Part], place: &Path, buckets: u64) -> Result<Counts, Error> {
        // The counts are written last and the folder is renamed after them: if they are there, all is.
        let note = place.join("counts.json");
        if let Some(counts) = fs::read(&note).ok().and_then(|t| serde_json::from_slice(&t).ok()) {
            return Ok(counts);
        }
        let beside = place.with_extension("half");
        if beside.exists() {
            fs::remove_dir_all(&beside).map_err(Error::file(&beside))?;
        }
        fs::create_dir_all(&beside).map_err(Error::file(&beside))?;
        let session = session(self.threads)?;
        let rows = self.reading.view(&session, table, table.rows(&session, parts).await?).await?;
        session.register_table("results", rows.into_view())?;
        let rows = session.sql(&self.question.judged("results")).await?;
        let mut wanted = self.question.columns().to_vec();
        wanted.push("fault_cell");
        let rows = rows.select_columns(&wanted)?;
        let shelf = Arc::new(Shelf::new(self.question, &beside, buckets));
        let mut streams = rows.execute_stream_partitioned().await?.into_iter();
        let mut tasks = tokio::task::JoinSet::new();
        let mut counts = Counts::default();
        loop {
            while tasks.len() < self.threads.max(1)
                && let Some(stream) = streams.next()
            {
                let shelf = Arc::clone(&shelf);
                tasks.spawn(async move { shelf.fill(stream).await });
            }
            let Some(told) = tasks.join_next().await else { break };
            counts.add(&told.map_err(|e| Error::Engine(e.to_string()))??);
        }
        shelf.close()?;
        write_whole(&beside.join("counts.json"), &serde_json::to_vec(&counts).unwrap_or_default())?;
        fs::rename(&beside, place).map_err(Error::file(place))?;
        Ok(counts)
    }

    /// Asks each bucket that has no answer yet.
    async fn ask(&self, work: &Path, pieces: usize, buckets: u64, tell: &(dyn Fn(String) + Sync)) -> Result<(), Error> {
        let left: Vec<u64> = (0..buckets).filter(|b| !answer_of(work, *b).exists()).collect();
        let mut finished = buckets - left.len() as u64;
        let mut tasks = tokio::task::JoinSet::new();
        let mut next = left.into_iter();
        loop {
            while tasks.len() < self.threads.max(1)
                && let Some(bucket) = next.next()
            {
                let (question, work) = (self.question, work.to_path_buf());
                tasks.spawn(async move { ask_one(question, &work, pieces, bucket).await });
            }
            let Some(told) = tasks.join_next().await else { return Ok(()) };
            told.map_err(|e| Error::Engine(e.to_string()))??;
            finished += 1;
            tell(format!("{finished} of {buckets} buckets answered"));
        }
    }

    /// One answer out of all in these files, in order.
    async fn finish(&self, answers: &[PathBuf], counts: Counts) -> Result<Done, Error> {
        let spilled = self.work().join("sorting");
        let runtime = RuntimeEnvBuilder::new().with_memory_limit(SORTING_BYTES, 1.0).with_temp_file_path(&spilled);
        let session = session_over(1, runtime)?;
        let all = read(&session, answers).await?;
        session.register_table("answers", all.into_view())?;
        self.all_once(&session, counts.keyed).await?;
        let sorted = session.sql(&format!("SELECT * FROM answers ORDER BY {}", self.question.order())).await?;
        let file = self.out.join(self.question.file());
        let beside = file.with_extension("half");
        let missing = match self.question {
            Question::Series => "no_summary",
            Question::Waters => "no_water",
        };
        let (answers, without) = write_stream(&beside, sorted.execute_stream().await?, missing).await?;
        fs::rename(&beside, &file).map_err(Error::file(&file))?;
        let mut hash = blake3::Hasher::new();
        std::io::copy(&mut File::open(&file).map_err(Error::file(&file))?, &mut hash).map_err(Error::file(&file))?;
        let blake3 = hash.finalize().to_hex().to_string();
        Ok(Done { rows: counts.rows, left_out: counts.left_out, answers, without, file, blake3 })
    }

    /// That every row whose group is known is in one answer: an engine that lost a machine may bring a part twice (Ballista
    /// 55.0 does) or not at all.
    async fn all_once(&self, session: &SessionContext, keyed: u64) -> Result<(), Error> {
        let taken = match self.question {
            Question::Series => "n + left_out",
            Question::Waters => "results",
        };
        let key = self.question.order();
        let counted = session
            .sql(&format!(
                "SELECT coalesce(sum({taken}), 0) AS taken, count(*) AS answers, \
                 (SELECT count(*) FROM (SELECT {key} FROM answers GROUP BY {key})) AS groups FROM answers"
            ))
            .await?
            .collect()
            .await?;
        let number = |column: usize| counted[0].column(column).as_primitive::<Int64Type>().value(0).unsigned_abs();
        let (taken, answers, groups) = (number(0), number(1), number(2));
        if (taken, answers) == (keyed, groups) {
            return Ok(());
        }
        Err(Error::Engine(format!(
            "{keyed} rows went in and {taken} came out, in {answers} answers of {groups} groups: rows were lost or doubled"
        )))
    }
}

/// Rows of Parquet files of this program's own.
async fn read(session: &SessionContext, files: &[PathBuf]) -> Result<DataFrame, Error> {
    let paths = files.iter().map(|p| table::address(p)).collect::<Result<Vec<String>, Error>>()?;
    Ok(session.read_parquet(paths, ParquetReadOptions::default()).await?)
}

/// Keeps a work folder that was begun for the same, clears any other.
fn begin(work: &Path, begun: &Begun, tell: &(dyn Fn(String) + Sync)) -> Result<(), Error> {
    let note = work.join("begun.json");
    if let Ok(text) = fs::read(&note) {
        if serde_json::from_slice::<Begun>(&text).is_ok_and(|b| b == *begun) {
            tell("going on where it stopped".into());
            return Ok(());
        }
        tell("input, reading or program differ from the interrupted run: beginning anew".into());
    }
    if work.exists() {
        fs::remove_dir_all(work).map_err(Error::file(work))?;
    }
    fs::create_dir_all(work).map_err(Error::file(work))?;
    write_whole(&note, &serde_json::to_vec_pretty(begun).unwrap_or_default())
}

/// Files in order, cut where a piece is large enough.
fn pieces(parts: &[Part], piece_bytes: u64) -> Vec<Vec<Part>> {
    let mut out: Vec<Vec<Part>> = vec![];
    let mut bytes = piece_bytes;
    for part in parts {
        if bytes >= piece_bytes {
            out.push(vec![]);
            bytes = 0;
        }
        bytes += part.bytes;
        if let Some(piece) = out.last_mut() {
            piece.push(part.clone());
        }
    }
    out
}

fn answer_of(work: &Path, bucket: u64) -> PathBuf {
    work.join(format!("answer-{bucket:05}.parquet"))
}

fn bucket_of(place: &Path, bucket: u64) -> PathBuf {
    place.join(format!("{bucket:05}.parquet"))
}

async fn ask_one(question: Question, work: &Path, pieces: usize, bucket: u64) -> Result<(), Error> {
    let session = session(1)?;
    let files: Vec<PathBuf> = (0..pieces).map(|k| bucket_of(&work.join(format!("rows-{k:05}")), bucket)).collect();
    let rows = read(&session, &files).await?;
    session.register_table("rows", rows.into_view())?;
    let answers = session.sql(&question.sql("rows")).await?;
    let place = answer_of(work, bucket);
    let beside = place.with_extension("half");
    write_stream(&beside, answers.execute_stream().await?, "").await?;
    fs::rename(&beside, &place).map_err(Error::file(&place))
}

/// Open buckets.
struct Shelf {
    question: Question,
    schema: SchemaRef,
    writers: Vec<Mutex<Option<ArrowWriter<File>>>>,
    paths: Vec<PathBuf>,
    /// Rows that wait, of each stream, before they go into a bucket's file.
    wait: usize,
}

impl Shelf {
    fn new(question: Question, place: &Path, buckets: u64) -> Self {
        let kind = |name: &str| match name {
            "date" => DataType::Date32,
            "value" | "below" | "u" => DataType::Float64,
            _ => DataType::Utf8,
        };
        let fields: Vec<Field> = question.columns().iter().map(|c| Field::new(*c, kind(c), true)).collect();
        Self {
            question,
            schema: Arc::new(Schema::new(fields)),
            writers: (0..buckets).map(|_| Mutex::new(None)).collect(),
            paths: (0..buckets).map(|b| bucket_of(place, b)).collect(),
            wait: (ROWS_WAITING / buckets as usize).clamp(256, 4096),
        }
    }

    async fn fill(&self, mut stream: SendableRecordBatchStream) -> Result<Counts, Error> {
        let mut counts = Counts::default();
        let mut waiting: Vec<(usize, Vec<RecordBatch>)> = self.writers.iter().map(|_| (0, vec![])).collect();
        while let Some(batch) = stream.next().await {
            let batch = batch?;
            counts.rows += batch.num_rows() as u64;
            for (bucket, rows) in self.sort(&batch, &mut counts)?.into_iter().enumerate() {
                if rows.is_empty() {
                    continue;
                }
                let indices = UInt32Array::from(rows);
                let columns: Vec<ArrayRef> = batch.columns()[..self.schema.fields().len()]
                    .iter()
                    .map(|c| take(c, &indices, None))
                    .collect::<Result<_, _>>()?;
                let (n, kept) = &mut waiting[bucket];
                *n += indices.len();
                kept.push(RecordBatch::try_new(Arc::clone(&self.schema), columns)?);
                // A batch has few rows for each of up to 256 buckets; each write takes the file's lock.
                if *n >= self.wait {
                    self.put(bucket, &std::mem::take(kept))?;
                    *n = 0;
                }
            }
        }
        for (bucket, (_, kept)) in waiting.into_iter().enumerate() {
            if !kept.is_empty() {
                self.put(bucket, &kept)?;
            }
        }
        Ok(counts)
    }

    /// Rows of a batch by bucket; what has a fault is counted, and goes along where its key is known: its group says how
    /// many were left out.
    fn sort(&self, batch: &RecordBatch, counts: &mut Counts) -> Result<Vec<Vec<u32>>, Error> {
        let keys: Vec<_> = (0..self.question.keys()).map(|k| batch.column(k).as_string::<i32>()).collect();
        let text = |name: &str| {
            let column = batch.column_by_name(name).ok_or_else(|| Error::Engine(format!("no column {name}")))?;
            Ok::<_, Error>(column.as_string::<i32>())
        };
        let (fault, cell) = (text("fault")?, text("fault_cell")?);
        let mut out: Vec<Vec<u32>> = self.writers.iter().map(|_| vec![]).collect();
        for row in 0..batch.num_rows() {
            if fault.is_valid(row) {
                leave_out(
                    &mut counts.left_out,
                    fault.value(row),
                    1,
                    if cell.is_valid(row) { cell.value(row) } else { "" },
                );
                // Without its key the row has no group that could say it was left out; the counts have it.
                if keys.iter().any(|k| k.is_null(row) || k.value(row).is_empty()) {
                    continue;
                }
            }
            // Fixed keys: the same bucket on every thread and after an interruption; another program begins anew
            // (`Begun`). 0xff is no byte of UTF-8, so that two keys cannot run together.
            let mut hash = DefaultHasher::new();
            for key in &keys {
                hash.write(key.value(row).as_bytes());
                hash.write_u8(0xff);
            }
            counts.keyed += 1;
            let bucket = (hash.finish() % self.writers.len() as u64) as usize;
            let row =
                u32::try_from(row).map_err(|_| Error::Engine("a batch of more than 4,294,967,295 rows".into()))?;
            out[bucket].push(row);
        }
        Ok(out)
    }

    fn put(&self, bucket: usize, rows: &[RecordBatch]) -> Result<(), Error> {
        let whole = concat_batches(&self.schema, rows)?;
        let mut slot = self.writers[bucket].lock().map_err(|e| Error::Engine(e.to_string()))?;
        let mut writer = if let Some(w) = slot.take() {
            w
        } else {
            let path = &self.paths[bucket];
            let file = File::create(path).map_err(Error::file(path))?;
            let properties = WriterProperties::builder()
                .set_compression(Compression::SNAPPY)
                .set_max_row_group_row_count(Some((ROWS_IN_MEMORY / self.writers.len()).max(1024)))
                .build();
            ArrowWriter::try_new(file, Arc::clone(&self.schema), Some(properties))?
        };
        writer.write(&whole)?;
        *slot = Some(writer);
        Ok(())
    }

    fn close(&self) -> Result<(), Error> {
        for (slot, path) in self.writers.iter().zip(&self.paths) {
            let mut slot = slot.lock().map_err(|e| Error::Engine(e.to_string()))?;
            let writer = match slot.take() {
                Some(w) => w,
                // An empty bucket is a file too: every piece has the same set.
                None => ArrowWriter::try_new(
                    File::create(path).map_err(Error::file(path))?,
                    Arc::clone(&self.schema),
                    None,
                )?,
            };
            close(writer, path)?;
        }
        Ok(())
    }
}

/// Rows of one write to the answer: pages are cut the same whatever the batches were.
const ROWS_AT_ONCE: usize = 65_536;

/// Closes a file so that it is whole after a power cut too.
fn close(writer: ArrowWriter<File>, path: &Path) -> Result<(), Error> {
    writer.into_inner()?.sync_all().map_err(Error::file(path))
}

/// Writes a stream; rows, and how many of them name why they have no answer in `missing`.
async fn write_stream(path: &Path, mut stream: SendableRecordBatchStream, missing: &str) -> Result<(u64, u64), Error> {
    // Whatever planned the query: each column by its name and type, each may be empty.
    let fields: Vec<Field> =
        stream.schema().fields().iter().map(|f| Field::new(f.name(), f.data_type().clone(), true)).collect();
    let schema = Arc::new(Schema::new(fields));
    let file = File::create(path).map_err(Error::file(path))?;
    let properties = WriterProperties::builder()
        .set_compression(Compression::SNAPPY)
        .set_created_by(format!("limpid survey {}", env!("CARGO_PKG_VERSION")))
        .build();
    let mut writer = ArrowWriter::try_new(file, Arc::clone(&schema), Some(properties))?;
    let (mut rows, mut without) = (0, 0);
    let mut waiting: Vec<RecordBatch> = vec![];
    let mut waits = 0;
    while let Some(batch) = stream.next().await {
        let batch = RecordBatch::try_new(Arc::clone(&schema), batch?.columns().to_vec())?;
        rows += batch.num_rows() as u64;
        if let Some(why) = batch.column_by_name(missing) {
            without += (why.len() - why.null_count()) as u64;
        }
        waits += batch.num_rows();
        waiting.push(batch);
        while waits >= ROWS_AT_ONCE {
            let whole = concat_batches(&schema, &waiting)?;
            writer.write(&whole.slice(0, ROWS_AT_ONCE))?;
            waits = whole.num_rows() - ROWS_AT_ONCE;
            waiting = vec![whole.slice(ROWS_AT_ONCE, waits)];
        }
    }
    if waits > 0 {
        writer.write(&concat_batches(&schema, &waiting)?)?;
    }
    close(writer, path)?;
    Ok((rows, without))
}

/// Writes beside the place and renames.
fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), Error> {
    let beside = path.with_extension("half");
    fs::write(&beside, bytes).map_err(Error::file(&beside))?;
    fs::rename(&beside, path).map_err(Error::file(path))
}
