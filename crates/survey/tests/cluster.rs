//! The same survey on one process, on one executor, on three, and on three of which one is killed half way: the same
//! bytes. Scheduler and executors are processes of their own on loopback.

use serde_json::Value;
use std::fs;
use std::io::{BufRead as _, BufReader};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_limpid-survey"))
}

/// Ports that nobody listens on now.
fn free_ports<const N: usize>() -> [u16; N] {
    let held: Vec<TcpListener> = (0..N).map(|_| TcpListener::bind("127.0.0.1:0").unwrap()).collect();
    std::array::from_fn(|i| held[i].local_addr().unwrap().port())
}

/// A process that ends with the test.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn scheduler(port: u16) -> Running {
    let bind = format!("127.0.0.1:{port}");
    let child = program()
        .args(["worker", "scheduler", "--bind", &bind, "--executor-timeout", "6"])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let running = Running(child);
    reached(port);
    running
}

fn reached(port: u16) {
    let begun = Instant::now();
    while TcpStream::connect(("127.0.0.1", port)).is_err() {
        assert!(begun.elapsed() < Duration::from_secs(30), "nobody listens on {port}");
        std::thread::sleep(Duration::from_millis(50));
    }
}

/// An executor and the folder of its rows.
struct Executor {
    running: Running,
    work: PathBuf,
}

fn executor(scheduler: u16, work: &Path) -> Executor {
    let [port, grpc] = free_ports();
    let work = work.join(port.to_string());
    let child = program()
        .args(["worker", "executor", "--slots", "1", "--heartbeat", "1"])
        .args(["--scheduler", &format!("127.0.0.1:{scheduler}"), "--bind", &format!("127.0.0.1:{port}")])
        .args(["--grpc-port", &grpc.to_string(), "--work", work.to_str().unwrap()])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let running = Running(child);
    reached(port);
    Executor { running, work }
}

fn survey(table: &Path, out: &Path, cluster: Option<u16>) -> Command {
    let mut command = program();
    command.arg("survey").arg(table).arg("--out").arg(out).arg("--json").args(["--threads", "2"]);
    if let Some(port) = cluster {
        command.args(["--cluster", &format!("http://127.0.0.1:{port}")]);
    }
    command
}

fn blake3(mut command: Command) -> (String, Value) {
    let out = command.output().unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    let document: Value = serde_json::from_slice(&out.stdout).unwrap();
    (document["done"]["blake3"].as_str().unwrap().to_string(), document["done"]["left_out"].clone())
}

#[test]
fn one_process_one_executor_three_and_one_killed_give_the_same_bytes() {
    let dir = tempfile::tempdir().unwrap();
    let table = dir.path().join("made.parquet");
    survey::generate::table(&table, 4000, 60, 7).unwrap();
    let here = blake3(survey(&table, &dir.path().join("here"), None));
    let [port] = free_ports();
    let _scheduler = scheduler(port);
    let _first = executor(port, dir.path());
    assert_eq!(here, blake3(survey(&table, &dir.path().join("one"), Some(port))));
    let _second = executor(port, dir.path());
    let third = executor(port, dir.path());
    assert_eq!(here, blake3(survey(&table, &dir.path().join("three"), Some(port))));
    // Killed while its tasks run: half of the time that three needed.
    let begun = Instant::now();
    blake3(survey(&table, &dir.path().join("timed"), Some(port)));
    let half = begun.elapsed() / 2;
    let mut running = survey(&table, &dir.path().join("killed"), Some(port));
    let child = running.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    std::thread::sleep(half);
    drop(third.running);
    // It had a part of the rows already.
    assert!(third.work.exists() && fs::read_dir(&third.work).unwrap().count() > 0);
    let out = child.wait_with_output().unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    let document: Value = serde_json::from_slice(&out.stdout).unwrap();
    assert_eq!(document["done"]["blake3"].as_str(), Some(here.0.as_str()));
}

/// An executor of the engine that is not this program.
#[test]
fn an_executor_without_our_functions_is_named() {
    let dir = tempfile::tempdir().unwrap();
    let table = dir.path().join("made.parquet");
    survey::generate::table(&table, 50, 20, 7).unwrap();
    let [port, flight, grpc] = free_ports();
    let _scheduler = scheduler(port);
    let bare = survey::cluster::Executor {
        scheduler: ("127.0.0.1".into(), port),
        bind: ([127, 0, 0, 1], flight).into(),
        grpc_port: grpc,
        slots: 1,
        work: dir.path().join("bare"),
        heartbeat_s: 1,
        with_functions: false,
    };
    std::thread::spawn(move || {
        let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build().unwrap();
        let _ = runtime.block_on(survey::cluster::executor(&bare));
    });
    reached(flight);
    let out = survey(&table, &dir.path().join("out"), Some(port)).output().unwrap();
    let why = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(4), "{why}");
    assert!(why.contains("does not know our functions") && why.contains("limpid survey-worker"), "{why}");
    assert!(!dir.path().join("out").join("series.parquet").exists());
}

#[test]
fn a_cluster_without_executors_and_a_query_that_is_none_are_named() {
    let dir = tempfile::tempdir().unwrap();
    let table = dir.path().join("made.parquet");
    survey::generate::table(&table, 10, 10, 7).unwrap();
    let [port] = free_ports();
    let _scheduler = scheduler(port);
    let out = survey(&table, &dir.path().join("out"), Some(port)).args(["--patience", "3"]).output().unwrap();
    let why = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(4), "{why}");
    assert!(why.contains("no executor took a task within 3 s"), "{why}");
    let executor_of_its_own = executor(port, dir.path());
    let ask = |sql: &str| {
        let cluster = format!("http://127.0.0.1:{port}");
        program().arg("survey").arg(&table).args(["--sql", sql, "--cluster", &cluster]).output().unwrap()
    };
    let counted = ask("SELECT count(*) AS n FROM results WHERE value > 0 OR below > 0");
    assert_eq!(String::from_utf8_lossy(&counted.stdout), "n\n100\n");
    let none = ask("SELECT nothing FROM results");
    assert_eq!(none.status.code(), Some(1), "{}", String::from_utf8_lossy(&none.stderr));
    // Lost on the way: named with the address, by the time that a lost executor is given.
    drop(executor_of_its_own);
    let lost = ask("SELECT count(*) AS n FROM results");
    assert_eq!(lost.status.code(), Some(4), "{}", String::from_utf8_lossy(&lost.stdout));
}

#[test]
fn a_cluster_that_is_not_there_is_named() {
    let dir = tempfile::tempdir().unwrap();
    let table = dir.path().join("made.parquet");
    survey::generate::table(&table, 10, 10, 7).unwrap();
    let [port] = free_ports();
    let mut child = survey(&table, &dir.path().join("out"), Some(port));
    let mut child = child.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap();
    let lines: Vec<String> = BufReader::new(child.stderr.take().unwrap()).lines().map(Result::unwrap).collect();
    assert_eq!(child.wait().unwrap().code(), Some(4));
    assert!(lines.join("\n").contains(&format!("http://127.0.0.1:{port}")), "{lines:?}");
}
