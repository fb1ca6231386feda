//! `limpid-survey`: what `limpid survey` and `limpid survey-worker` hand over to. Apart from `limpid` because the query
//! engine takes minutes to build.
//!
//! Exit status: 0 done · 1 the input was refused · 2 usage · 4 something outside failed.

use clap::{Args, Parser, Subcommand};
use datafusion::arrow::csv::WriterBuilder;
use datafusion::arrow::json::ArrayWriter;
use datafusion::prelude::{DataFrame, SessionContext};
use serde_json::json;
use std::collections::BTreeMap;
use std::io::Write as _;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::process::ExitCode;
use survey::cluster::{self, Cluster, Executor};
use survey::columns::Reading;
use survey::run::{BUCKET_BYTES, Done, Question, Survey, session};
use survey::table::Table;
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
    /// Bytes of input in one bucket
    #[arg(long, default_value_t = BUCKET_BYTES, hide = true)]
    bucket_bytes: u64,
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

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let runtime = match tokio::runtime::Builder::new_multi_thread().enable_all().build() {
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
        ..Reading::default()
    }
    .with_columns(&ask.columns)?;
    if ask.tables.is_empty() {
        return Err(Error::input("the tables", "none", "files or folders of CSV or Parquet"));
    }
    let table = Table::open(&ask.tables)?;
    let threads = ask.threads.unwrap_or_else(processors).max(1);
    if let Some(sql) = &ask.sql {
        let (session, view) = match cluster_of(&ask, threads) {
            Some(c) => c.rows(&table, &reading).await?,
            None => {
                let session = session(threads)?;
                let rows = table.rows(&session, &table.parts).await?;
                let view = reading.view(&session, &table, rows).await?;
                (session, view)
            }
        };
        session.register_table("results", view.into_view())?;
        return tell(&session, sql, ask.json).await;
    }
    let Some(out) = ask.out.clone() else {
        return Err(Error::input("--out", "nothing", "a folder for the answer (or --sql for a query)"));
    };
    std::fs::create_dir_all(&out).map_err(Error::file(&out))?;
    let question = if ask.waters { Question::Waters } else { Question::Series };
    let work = Survey { question, reading: reading.clone(), out, threads, bucket_bytes: ask.bucket_bytes };
    let begun = std::time::Instant::now();
    let say = |text: String| eprintln!("{:7.1} s  {text}", begun.elapsed().as_secs_f64());
    let done = match cluster_of(&ask, threads) {
        None => work.run(&table, &say).await?,
        Some(c) => spread(&work, &c, &table, &reading).await.map_err(|e| match e {
            Error::Engine(m) | Error::Query(m) => c.failed(&m),
            other => other,
        })?,
    };
    report(&done, question, ask.json);
    Ok(())
}

fn cluster_of(ask: &Ask, threads: usize) -> Option<Cluster> {
    ask.cluster.clone().map(|address| Cluster { address, partitions: (4 * threads).max(16) })
}

/// The survey by a cluster: one query, its answer put in order here.
async fn spread(work: &Survey, c: &Cluster, table: &Table, reading: &Reading) -> Result<Done, Error> {
    let (session, view) = c.rows(table, reading).await?;
    session.register_table("results", view.into_view())?;
    let dated = if work.question == Question::Series { "coalesce(fault, date_fault)" } else { "fault" };
    let counted = session.sql(&format!("SELECT {dated} AS why, count(*) AS n FROM results GROUP BY {dated}")).await?;
    let (mut rows, mut left_out) = (0, BTreeMap::new());
    for batch in counted.collect().await? {
        use datafusion::arrow::array::{Array as _, AsArray as _};
        let (why, n) = (batch.column(0).as_string::<i32>(), batch.column(1));
        let n = n.as_primitive::<datafusion::arrow::datatypes::Int64Type>();
        for i in 0..batch.num_rows() {
            let count = n.value(i).unsigned_abs();
            rows += count;
            if why.is_valid(i) {
                *left_out.entry(why.value(i).to_string()).or_default() += count;
            }
        }
    }
    let sound = session.sql(&format!("SELECT * FROM results WHERE {dated} IS NULL")).await?;
    session.register_table("rows", sound.into_view())?;
    let answers = session.sql(&work.question.sql("rows")).await?;
    // The answer is small: it comes here whole and is put in order and written by this process alone.
    let schema = std::sync::Arc::new(answers.schema().as_arrow().clone());
    let batches = answers.collect().await?;
    let here = survey::run::session(1)?;
    let batches =
        batches.into_iter().map(|b| b.with_schema(std::sync::Arc::clone(&schema))).collect::<Result<Vec<_>, _>>()?;
    let provider = datafusion::datasource::MemTable::try_new(schema, vec![batches])?;
    let answers: DataFrame = here.read_table(std::sync::Arc::new(provider))?;
    work.finish(&here, answers, rows, left_out).await
}

async fn tell(session: &SessionContext, sql: &str, as_json: bool) -> Result<(), Error> {
    let batches = session.sql(sql).await?.collect().await?;
    let mut out = vec![];
    if as_json {
        let mut writer = ArrayWriter::new(&mut out);
        writer.write_batches(&batches.iter().collect::<Vec<_>>())?;
        writer.finish()?;
        out.push(b'\n');
    } else {
        let mut writer = WriterBuilder::new().with_header(true).build(&mut out);
        for batch in &batches {
            writer.write(batch)?;
        }
        drop(writer);
    }
    print(&String::from_utf8_lossy(&out));
    Ok(())
}

fn report(done: &Done, question: Question, as_json: bool) {
    if as_json {
        let document = json!({
            "question": question, "done": done,
            "method": "the sciences of `limpid calc summary`, `trend`, `speciation` and `limits` over every group; intervals without bootstrap",
            "sources": ["docs/validation/survey.md"],
            "warnings": done.left_out.iter().map(|(why, n)| format!("{n} rows left out: {why}")).collect::<Vec<_>>(),
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
    for (why, n) in &done.left_out {
        text += &format!("left out  {n}: {why}\n");
    }
    text += &format!("answer    {}\nblake3    {}\n", done.file.display(), done.blake3);
    print(&text);
}
