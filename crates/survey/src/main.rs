//! `limpid-survey`: what `limpid survey` and `limpid survey-worker` hand over to. Apart from `limpid` because the query
//! engine takes minutes to build.
//!
//! Exit status: 0 done · 1 the input was refused · 2 usage · 4 something outside failed.

use clap::{Args, Parser, Subcommand};
use datafusion::arrow::array::{Array as _, AsArray as _, RecordBatch};
use datafusion::arrow::csv::WriterBuilder;
use datafusion::arrow::datatypes::Int64Type;
use datafusion::arrow::error::ArrowError;
use datafusion::arrow::json::ArrayWriter;
use datafusion::error::DataFusionError;
use datafusion::prelude::DataFrame;
use futures::StreamExt as _;
use serde_json::json;
use std::io::{ErrorKind, Write as _};
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;
use std::time::{Duration, Instant};
use survey::cluster::{self, Cluster, Executor};
use survey::columns::Reading;
use survey::run::{BUCKET_ROWS, Counts, Done, LeftOut, PIECE_BYTES, Question, Survey, leave_out, session};
use survey::table::{Format, Table};
use survey::{Error, functions, generate};

#[derive(Debug, Parser)]
#[command(name = "limpid-survey", version, disable_help_subcommand = true)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Summaries, trends, waters and limits over tables larger than memory
    Survey(Ask),
    /// One process of a cluster
    #[command(subcommand)]
    Worker(Worker),
    /// Writes an invented table with the shapes of real series, for measuring
    Generate {
        /// File to write
        file: PathBuf,
        /// Series
        #[arg(long, default_value_t = 200_000)]
        series: usize,
        /// Rows of each
        #[arg(long, default_value_t = 100)]
        each: usize,
        /// Seed of the random stream
        #[arg(long, default_value_t = 1)]
        seed: u64,
    },
}

#[derive(Debug, Args)]
struct Ask {
    /// Files and folders, CSV or Parquet, one row a result
    tables: Vec<PathBuf>,
    /// Folder for the answer and, until it is done, for the work
    #[arg(long)]
    out: Option<PathBuf>,
    /// Ask for the waters of samples instead of series
    #[arg(long)]
    waters: bool,
    /// Which column is what: well=site_no,analyte=name (roles: well, analyte, date, value, unit, below, remark, limit, u, method, sample)
    #[arg(long, default_value = "")]
    columns: String,
    /// Unit of all rows, where no column has it
    #[arg(long)]
    unit: Option<String>,
    /// What remarks mean
    #[arg(long, default_value = survey::functions::scalar::REMARKS)]
    remarks: String,
    /// Other names of units: "std units=pH;uS/cm @25C=uS/cm"
    #[arg(long, default_value = "")]
    units: String,
    /// What analytes are called here: "Calcium, wf=Ca;Arsenic, wf=As"
    #[arg(long, default_value = "")]
    names: String,
    /// A query in SQL over the view `results`, answered as CSV
    #[arg(long)]
    sql: Option<String>,
    /// Lists the functions that SQL can call
    #[arg(long)]
    functions: bool,
    /// Scheduler of a cluster, http://host:port
    #[arg(long)]
    cluster: Option<String>,
    /// Threads; all processors where nothing is said
    #[arg(long)]
    threads: Option<usize>,
    /// Seconds to wait for the first executor of a cluster
    #[arg(long, default_value_t = 60)]
    patience: u64,
    /// Rows in one bucket, about
    #[arg(long, default_value_t = BUCKET_ROWS, hide = true)]
    bucket_rows: u64,
    /// Bytes of input that are put into buckets as one piece
    #[arg(long, default_value_t = PIECE_BYTES, hide = true)]
    piece_bytes: u64,
    /// One JSON document on stdout
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Subcommand)]
enum Worker {
    /// Plans queries and hands out their tasks
    Scheduler {
        /// Address to listen on
        #[arg(long, default_value = "127.0.0.1:50050")]
        bind: SocketAddr,
        /// Seconds without a sign of life after which an executor counts as lost
        #[arg(long, default_value_t = 30)]
        executor_timeout: u64,
    },
    /// Runs tasks
    Executor {
        /// host:port of the scheduler
        #[arg(long, default_value = "127.0.0.1:50050")]
        scheduler: String,
        /// Address to listen on
        #[arg(long, default_value = "127.0.0.1:50051")]
        bind: SocketAddr,
        /// Second port
        #[arg(long, default_value_t = 50052)]
        grpc_port: u16,
        /// Tasks at once; all processors where nothing is said
        #[arg(long)]
        slots: Option<usize>,
        /// Folder for rows between stages
        #[arg(long)]
        work: PathBuf,
        /// Seconds between signs of life
        #[arg(long, default_value_t = 5)]
        heartbeat: u64,
    },
}

/// What a worker has to say goes to its standard error: warnings, and with LIMPID_WORKER_LOG=info the tasks too.
struct ToStandardError;

impl log::Log for ToStandardError {
    fn enabled(&self, about: &log::Metadata) -> bool {
        about.level() <= log::max_level()
    }

    fn log(&self, record: &log::Record) {
        if self.enabled(record.metadata()) {
            eprintln!("{} {} {}", jiff::Timestamp::now(), record.level().as_str().to_lowercase(), record.args());
        }
    }

    fn flush(&self) {}
}

/// Stack of a thread: planning goes down a query step by step, and the scheduler's view of the rows is deeper than the
/// 2 MB that a thread has otherwise (found by `tests/cluster.rs`; common practice for planners).
const STACK_BYTES: usize = 32 << 20;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    if matches!(arguments.command, Command::Worker(_)) && log::set_logger(&ToStandardError).is_ok() {
        let level = std::env::var("LIMPID_WORKER_LOG").ok().and_then(|l| l.parse().ok());
        log::set_max_level(level.unwrap_or(log::LevelFilter::Warn));
    }
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().thread_stack_size(STACK_BYTES).build();
    let runtime = match runtime {
        Ok(r) => r,
        Err(e) => {
            eprintln!("{e}");
            return ExitCode::from(4);
        }
    };
    match runtime.block_on(run(arguments.command)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("{}{e}", if e.status() == 1 { "refused: " } else { "" });
            ExitCode::from(e.status())
        }
    }
}

fn processors() -> usize {
    std::thread::available_parallelism().map_or(1, std::num::NonZero::get)
}

async fn run(command: Command) -> Result<(), Error> {
    match command {
        Command::Survey(ask) if ask.functions => {
            print(&functions::in_words());
            Ok(())
        }
        Command::Survey(ask) => answer(ask).await,
        Command::Worker(Worker::Scheduler { bind, executor_timeout }) => {
            cluster::scheduler(bind, executor_timeout).await
        }
        Command::Worker(Worker::Executor { scheduler, bind, grpc_port, slots, work, heartbeat }) => {
            let (host, port) = scheduler
                .rsplit_once(':')
                .and_then(|(h, p)| Some((h.to_string(), p.parse().ok()?)))
                .ok_or_else(|| Error::input("--scheduler", &scheduler, "host:port"))?;
            let slots = slots.unwrap_or_else(processors);
            cluster::executor(&Executor {
                scheduler: (host, port),
                bind,
                grpc_port,
                slots,
                work,
                heartbeat_s: heartbeat,
                with_functions: true,
            })
            .await
        }
        Command::Generate { file, series, each, seed } => generate::table(&file, series, each, seed),
    }
}

fn print(text: &str) {
    // A reader that went away is no fault.
    let _ = std::io::stdout().write_all(text.as_bytes());
}

async fn answer(ask: Ask) -> Result<(), Error> {
    let reading = Reading {
        unit: ask.unit.clone(),
        remarks: ask.remarks.clone(),
        units: ask.units.clone(),
        names: ask.names.clone(),
        ..Reading::default()
    }
    .with_columns(&ask.columns)?;
    if ask.tables.is_empty() {
        return Err(Error::input("the tables", "none", "files or folders of CSV or Parquet"));
    }
    let table = Table::open(&ask.tables)?;
    for path in &table.passed_over {
        eprintln!("passed over {}: no .csv or .parquet", path.display());
    }
    let threads = ask.threads.unwrap_or_else(processors).max(1);
    // A part holds as many rows as a bucket; the files between the stages are their number squared.
    let partitions = (table.rows_about() / ask.bucket_rows.max(1)).clamp(16, 1024) as usize;
    let cluster = ask.cluster.clone().map(|address| Cluster { address, partitions });
    let patience = Duration::from_secs(ask.patience);
    if let Some(sql) = &ask.sql {
        let (session, view) = if let Some(c) = &cluster {
            c.answers(patience).await?;
            c.rows(&table, &reading).await?
        } else {
            let session = session(threads)?;
            let rows = table.rows(&session, &table.parts).await?;
            let view = reading.view(&session, &table, rows).await?;
            (session, view)
        };
        session.register_table("results", view.into_view())?;
        let answer = session.sql(sql).await?;
        let told = tell(answer, ask.json).await;
        return told.map_err(|e| match (e, &cluster) {
            (Error::Engine(m) | Error::Query(m), Some(c)) => c.failed(&m),
            (e @ (Error::Engine(_) | Error::Query(_)), None) => table.fault(&table.parts).unwrap_or(e),
            (other, _) => other,
        });
    }
    let Some(out) = ask.out.clone() else {
        return Err(Error::input("--out", "nothing", "a folder for the answer (or --sql for a query)"));
    };
    let question = if ask.waters { Question::Waters } else { Question::Series };
    let (bucket_rows, piece_bytes) = (ask.bucket_rows, ask.piece_bytes);
    let work = Survey { question, reading: reading.clone(), out, threads, bucket_rows, piece_bytes };
    let begun = Instant::now();
    let say = |text: String| eprintln!("{:7.1} s  {text}", begun.elapsed().as_secs_f64());
    let done = match &cluster {
        None => work.run(&table, &say).await?,
        Some(c) => spread(&work, c, &table, patience, &say).await?,
    };
    report(&done, question, ask.json);
    Ok(())
}

/// How often a cluster is asked in all where it loses executors on the way.
const TURNS: u32 = 3;

/// The survey by a cluster, asked again where an executor was lost with rows that it alone had: the answer's bytes are
/// the same.
async fn spread(
    work: &Survey,
    c: &Cluster,
    table: &Table,
    patience: Duration,
    say: &(dyn Fn(String) + Sync),
) -> Result<Done, Error> {
    let _held = work.hold()?;
    let mut turn = 1;
    loop {
        // Nobody there at all is another matter than one lost on the way.
        c.answers(patience).await?;
        match ask_cluster(work, c, table).await {
            Err(Error::Cluster { message, .. }) if turn < TURNS && Cluster::passes(&message) => {
                turn += 1;
                say(format!("the cluster failed ({message}); asking it again, {turn} of {TURNS}"));
            }
            other => return other,
        }
    }
}

/// One query, its answer put in order here.
async fn ask_cluster(work: &Survey, c: &Cluster, table: &Table) -> Result<Done, Error> {
    let (session, view) = c.rows(table, &work.reading).await?;
    session.register_table("results", view.into_view())?;
    let judged = session.sql(&work.question.judged("results")).await?;
    session.register_table("judged", judged.into_view())?;
    // A row whose group is not known is counted and belongs to none.
    let known = format!("fault IS NULL OR ({})", work.question.key_is_known());
    let counted = session
        .sql(&format!(
            "SELECT fault, count(*) AS n, min(fault_cell) AS cell, count(*) FILTER (WHERE {known}) AS keyed FROM judged \
             GROUP BY fault"
        ))
        .await?;
    let failed = |e: DataFusionError| c.failed(&e.to_string());
    let mut counts = Counts::default();
    for batch in counted.collect().await.map_err(failed)? {
        let (why, cell) = (batch.column(0).as_string::<i32>(), batch.column(2).as_string::<i32>());
        let number = |column: usize, i: usize| batch.column(column).as_primitive::<Int64Type>().value(i).unsigned_abs();
        for i in 0..batch.num_rows() {
            counts.rows += number(1, i);
            counts.keyed += number(3, i);
            if why.is_valid(i) {
                let example = if cell.is_valid(i) { cell.value(i) } else { "" };
                leave_out(&mut counts.left_out, why.value(i), number(1, i), example);
            }
        }
    }
    if table.format == Format::Parquet && counts.rows != table.rows_about() {
        return Err(c.failed(&format!("{} rows are in the files, {} were counted", table.rows_about(), counts.rows)));
    }
    let rows = session.sql(&format!("SELECT * FROM judged WHERE {known}")).await?;
    session.register_table("rows", rows.into_view())?;
    let answers = session.sql(&work.question.sql("rows")).await?;
    let stream = answers.execute_stream().await.map_err(failed)?;
    work.keep(stream, counts).await.map_err(|e| match e {
        Error::Engine(m) | Error::Query(m) => c.failed(&m),
        other => other,
    })
}

/// Writes an answer as it comes; a reader that went away is no fault.
async fn tell(answer: DataFrame, as_json: bool) -> Result<(), Error> {
    let schema = Arc::new(answer.schema().as_arrow().clone());
    let mut stream = answer.execute_stream().await?;
    let standard = Path::new("standard output");
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    let gone =
        |e: std::io::Error| if e.kind() == ErrorKind::BrokenPipe { Ok(()) } else { Err(Error::file(standard)(e)) };
    if as_json {
        let mut writer = ArrayWriter::new(&mut out);
        let gone_within = |e: ArrowError| match e {
            ArrowError::IoError(_, e) => gone(e),
            other => Err(other.into()),
        };
        while let Some(batch) = stream.next().await {
            if let Err(e) = writer.write_batches(&[&batch?]) {
                return gone_within(e);
            }
        }
        if let Err(e) = writer.finish() {
            return gone_within(e);
        }
        return out.write_all(b"\n").and_then(|()| out.flush()).or_else(gone);
    }
    let mut text = vec![];
    let mut heading = true;
    // An answer without rows has its headings all the same.
    let mut next = Some(Ok(RecordBatch::new_empty(schema)));
    while let Some(batch) = next {
        text.clear();
        let mut writer = WriterBuilder::new().with_header(heading).build(&mut text);
        writer.write(&batch?)?;
        drop(writer);
        heading = false;
        if let Err(e) = out.write_all(&text) {
            return gone(e);
        }
        next = stream.next().await;
    }
    out.flush().or_else(gone)
}

/// What took no part, a line a reason.
fn in_words(done: &Done) -> Vec<String> {
    let line = |(why, of): (&String, &LeftOut)| match of.for_example.as_str() {
        "" => format!("{} rows: {why}", of.rows),
        example => format!("{} rows: {why}, for example \"{example}\"", of.rows),
    };
    done.left_out.iter().map(line).collect()
}

fn report(done: &Done, question: Question, as_json: bool) {
    if as_json {
        let document = json!({
            "question": question, "done": done,
            "method": "the sciences of `limpid calc summary`, `trend`, `speciation` and `limits` over every group; intervals without bootstrap",
            "sources": ["docs/validation/survey.md"],
            "warnings": in_words(done),
        });
        print(&format!("{document}\n"));
        return;
    }
    let what = match question {
        Question::Series => ("series", "summary"),
        Question::Waters => ("samples", "water"),
    };
    let mut text =
        format!("{} rows, {} {}, {} of them without {}\n", done.rows, done.answers, what.0, done.without, what.1);
    for line in in_words(done) {
        text += &format!("left out  {line}\n");
    }
    text += &format!("answer    {}\nblake3    {}\n", done.file.display(), done.blake3);
    print(&text);
}
