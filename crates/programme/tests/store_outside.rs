//! What comes from outside: a process killed at any moment, a full disk, a read-only folder, a
//! file that is something else, an older and a newer schema. The child is the example
//! `store_child`.
//!
//! `LIMPID_KILLS` sets the number of kills (25 here, 10 on a server; the bench takes 200).

use crate::store_common;

use record::store::{EventHash, Store, restore};
use std::io::Read;
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;
use std::time::{Duration, Instant};
use store_common::{another, fill, folder, is_on_server};

/// The example program, beside this test's own program; built here, because cargo builds
/// examples only when all tests are asked for.
pub fn child() -> PathBuf {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    let build = || {
        let own = std::env::current_exe().unwrap();
        let profile = own.parent().unwrap().parent().unwrap();
        let mut cargo = Command::new(env!("CARGO"));
        // The whole workspace, as `xtask` chooses it: the features of what comes from outside follow from the choice, and
        // with another one half of it would be built again.
        cargo.args(["build", "--quiet", "--offline", "--workspace", "--exclude", "survey", "--example", "store_child"]);
        cargo.arg("--manifest-path").arg(concat!(env!("CARGO_MANIFEST_DIR"), "/../../Cargo.toml"));
        cargo.arg("--target-dir").arg(profile.parent().unwrap());
        if profile.ends_with("release") {
            cargo.arg("--release");
        }
        assert!(cargo.status().unwrap().success());
        profile.join("examples/store_child")
    };
    BUILT.get_or_init(build).clone()
}

crate::on_both!(a_process_killed_at_any_moment_leaves_all_of_a_file_or_nothing);

const ROWS: u64 = 3000;

/// A little generator of numbers, so that moments are random and the same in each run
/// (splitmix64, Steele, Lea and Flood 2014; from memory).
struct Draw(u64);

impl Draw {
    fn below_one(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }
}

fn start(path: &Path, kind: &str, files: u32) -> std::process::Child {
    Command::new(child())
        .args([kind, path.to_str().unwrap(), &ROWS.to_string(), &files.to_string()])
        .stdout(Stdio::piped())
        .spawn()
        .unwrap()
}

/// Every file is there whole or not at all, and everything is what was written.
fn whole(path: &Path, acknowledged: &[EventHash]) -> u64 {
    let store = Store::open(path).unwrap();
    let verified = store.verify(acknowledged.last().copied()).unwrap();
    assert_eq!(verified.differences, []);
    let hashes: Vec<_> = store.events().unwrap().into_iter().map(|e| e.hash).collect();
    assert!(acknowledged.iter().all(|h| hashes.contains(h)), "an act that was told as kept is gone");
    let mut results = 0;
    store
        .dump("result", |_, _, _| {
            results += 1;
            Ok(())
        })
        .unwrap();
    let files = store.raw_files().unwrap().len() as u64;
    assert_eq!(results, files * ROWS);
    assert_eq!(hashes.len() as u64, files);
    files
}

fn a_process_killed_at_any_moment_leaves_all_of_a_file_or_nothing() {
    let usual = if is_on_server() { 10 } else { 25 };
    let kills: u32 = std::env::var("LIMPID_KILLS").map_or(usual, |n| n.parse().unwrap());
    let (folder, mut path) = folder();
    Store::create(&path).unwrap();
    child();
    let begin = Instant::now();
    assert!(start(&path, "import", 2).wait().unwrap().success());
    let span = begin.elapsed();
    let mut draw = Draw(20_261_125);
    let (mut acknowledged, mut cut_short) = (vec![], 0);
    for kill in 0..kills {
        if kill % 25 == 0 {
            // A fresh file now and then keeps the checks short.
            path = another(&folder, &format!("{kill}"));
            Store::create(&path).unwrap();
            acknowledged.clear();
        }
        // Every other one writes with the journal of a large act.
        let kind = if kill % 2 == 0 { "import" } else { "large" };
        let mut running = start(&path, kind, 2);
        std::thread::sleep(span.mul_f64(draw.below_one()));
        running.kill().unwrap();
        running.wait().unwrap();
        let mut told = String::new();
        running.stdout.take().unwrap().read_to_string(&mut told).unwrap();
        let kept: Vec<EventHash> = told.lines().map(|l| l.strip_prefix("kept ").unwrap().parse().unwrap()).collect();
        cut_short += u32::from(kept.len() < 2);
        acknowledged.extend(kept);
        let files = whole(&path, &acknowledged);
        assert!(files >= acknowledged.len() as u64);
        assert!(files <= acknowledged.len() as u64 + u64::from(kill % 25) + 1);
    }
    assert!(cut_short >= kills / 3, "only {cut_short} of {kills} were killed while importing");
}

#[test]
fn a_new_programme_killed_in_the_making_is_whole_or_not_there() {
    let (folder, _) = folder();
    let mut draw = Draw(7);
    let new = |name: &str| {
        let path = folder.path().join(name);
        let mut command = Command::new(child());
        command.arg("new").arg(&path);
        (path, command)
    };
    child();
    let begin = Instant::now();
    assert!(new("timed").1.status().unwrap().success());
    let span = begin.elapsed();
    for n in 0..10 {
        let (path, mut command) = new(&format!("{n}"));
        let mut running = command.spawn().unwrap();
        std::thread::sleep(span.mul_f64(draw.below_one()));
        running.kill().unwrap();
        running.wait().unwrap();
        let store = if path.exists() { Store::open(&path) } else { Store::create(&path) };
        assert_eq!(store.unwrap().verify(None).unwrap().differences, []);
    }
}

fn text(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

#[test]
fn a_full_disk_is_told_and_nothing_of_the_act_is_kept() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    fill(&mut store);
    let head = store.head().unwrap();
    drop(store);
    let size = path.metadata().unwrap().len();
    for (kind, room) in
        [("import", 1000), ("import", 100_000), ("import", 300_000), ("large", 1000), ("large", 300_000)]
    {
        // The signal of the limit is ignored, so that writing fails as on a full disk.
        let output = Command::new("sh")
            .args(["-c", "trap '' XFSZ; exec prlimit --fsize=\"$1\" \"$2\" \"$4\" \"$3\" 20000 1", "sh"])
            .args([&(size + room).to_string(), child().to_str().unwrap(), path.to_str().unwrap(), kind])
            .output()
            .unwrap();
        let message = text(&output);
        assert_eq!(output.status.code(), Some(1), "{message}");
        assert!(message.contains("the disk is full or a file-size limit was reached"), "{message}");
        assert!(message.contains("nothing of this act was kept"), "{message}");
        let store = Store::open(&path).unwrap();
        assert_eq!(store.verify(head).unwrap().differences, []);
        assert_eq!(store.head().unwrap(), head);
    }
    let output = Command::new(child()).args(["import", path.to_str().unwrap(), "10", "1"]).output().unwrap();
    assert!(output.status.success(), "with room again it goes on: {}", text(&output));
}

/// The child as a user whom permissions bind: this one, or where this is root, nobody.
fn unprivileged(program: &Path) -> Command {
    if program.metadata().unwrap().uid() != 0 {
        return Command::new(program);
    }
    let mut command = Command::new("setpriv");
    command.args(["--reuid=65534", "--regid=65534", "--clear-groups"]).arg(program);
    command
}

fn allow(path: &Path, mode: u32) {
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
}

#[test]
fn a_read_only_folder_is_told_and_can_be_read() {
    let (folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    fill(&mut store);
    drop(store);
    let program = folder.path().join("store_child");
    std::fs::copy(child(), &program).unwrap();
    let before = std::fs::read(&path).unwrap();
    allow(&program, 0o555);
    allow(&path, 0o444);
    allow(folder.path(), 0o555);
    let run = |arguments: &[&str]| unprivileged(&program).args(arguments).output().unwrap();
    let refused = "cannot be written: the file or its folder is read-only for this user; nothing was changed";
    let new = folder.path().join("new.limpid");
    let made = run(&["new", new.to_str().unwrap()]);
    // No file to import: the programme is opened and read.
    let read = run(&["import", path.to_str().unwrap(), "1", "0"]);
    let written = run(&["import", path.to_str().unwrap(), "1", "1"]);
    allow(folder.path(), 0o755);
    assert_eq!(made.status.code(), Some(1));
    assert_eq!(text(&made).trim(), format!("{} {refused}", new.display()));
    assert_eq!(read.status.code(), Some(0), "{}", text(&read));
    assert_eq!(written.status.code(), Some(1));
    assert_eq!(text(&written).trim(), format!("{} {refused}", path.display()));
    assert_eq!(std::fs::read(&path).unwrap(), before);
}

#[test]
fn what_is_not_a_programme_is_told() {
    let (folder, path) = folder();
    let refused = |path: &Path| Store::open(path).map(|_| ()).unwrap_err().to_string();
    let at = path.display().to_string();
    assert_eq!(refused(&path), format!("{at} does not exist; `limpid new` makes an empty programme"));
    assert_eq!(
        refused(folder.path()),
        format!("{} is not a programme of Limpid (it is a folder)", folder.path().display())
    );
    std::fs::write(&path, "").unwrap();
    assert_eq!(refused(&path), format!("{at} is not a programme of Limpid (it is empty)"));
    std::fs::write(&path, "sample,Pb\n".repeat(1000)).unwrap();
    assert!(refused(&path).starts_with(&format!("{at} is not a programme of Limpid (")));
    assert!(restore(&path, &folder.path().join("to")).is_err());
    std::fs::remove_file(&path).unwrap();
    rusqlite::Connection::open(&path).unwrap().execute_batch("CREATE TABLE t (x)").unwrap();
    assert_eq!(refused(&path), format!("{at} is not a programme of Limpid (another program's database)"));
    let nowhere = folder.path().join("none").join("new.limpid");
    assert_eq!(
        Store::create(&nowhere).map(|_| ()).unwrap_err().to_string(),
        format!(
            "{} cannot be made: the folder {} does not exist",
            nowhere.display(),
            nowhere.parent().unwrap().display()
        )
    );
    let exists = Store::create(&path).map(|_| ()).unwrap_err().to_string();
    assert_eq!(exists, format!("{at} exists already and is left as it is"));
}

#[test]
fn a_store_of_a_newer_version_is_refused_by_its_number() {
    let (_folder, path) = folder();
    drop(Store::create(&path).unwrap());
    let connection = rusqlite::Connection::open(&path).unwrap();
    connection.pragma_update(None, "user_version", 99).unwrap();
    drop(connection);
    let known = record::store::VERSIONS.last().unwrap().0;
    assert_eq!(
        Store::open(&path).map(|_| ()).unwrap_err().to_string(),
        format!(
            "{} has schema version 99; this program knows versions up to {known}: use a newer Limpid",
            path.display()
        )
    );
}

#[test]
fn a_truncated_file_is_told() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    fill(&mut store);
    drop(store);
    let bytes = std::fs::read(&path).unwrap();
    // The end of the last page may hold nothing, and nothing is lost with it: the last byte that says something goes.
    let last = bytes.iter().rposition(|b| *b != 0).unwrap();
    for part in [10, 100, 5000, bytes.len() / 2, last] {
        std::fs::write(&path, &bytes[..part]).unwrap();
        match Store::open(&path).and_then(|s| s.verify(None)) {
            Ok(verified) => assert_ne!(verified.differences, [], "cut to {part} bytes"),
            Err(error) => {
                let error = error.to_string();
                let told = ["is damaged", "is not a programme"].iter().any(|w| error.contains(w));
                assert!(told, "{part}: {error}");
            }
        }
    }
}

#[test]
fn a_writer_that_waits_in_vain_is_told() {
    let (_folder, path) = folder();
    drop(Store::create(&path).unwrap());
    let other = rusqlite::Connection::open(&path).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let mut store = Store::open(&path).unwrap();
    store.set_patience(Duration::from_millis(50)).unwrap();
    let refused = store.act(&store_common::info("entry"), |_| Ok::<_, record::store::StoreError>(()));
    assert_eq!(
        refused.unwrap_err().to_string(),
        format!("{} is being written by another process; try again when it is done", path.display())
    );
}
