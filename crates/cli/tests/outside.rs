//! What comes from outside: values changed behind the program's back, files that are missing or
//! of a newer version, folders that cannot be written, disks that are full, readers that leave.

use crate::desk::{Desk, LEAD, LIMPID, Ran};
use std::fs;
use std::io::Read as _;
use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _};
use std::path::Path;
use std::process::{Command, Stdio};

/// Replaces every occurrence of some bytes in a file; says how many there were.
fn replace_bytes(path: &Path, old: &[u8], new: &[u8]) -> usize {
    assert_eq!(old.len(), new.len());
    let mut bytes = fs::read(path).unwrap();
    let places: Vec<usize> = (0..bytes.len() - old.len()).filter(|i| &bytes[*i..*i + old.len()] == old).collect();
    for i in &places {
        bytes[*i..*i + new.len()].copy_from_slice(new);
    }
    fs::write(path, bytes).unwrap();
    places.len()
}

#[test]
fn one_value_changed_from_outside_is_found_by_table_and_row() {
    let desk = Desk::with_programme();
    let document = desk.run(&["results", "p.sqlite", "--json"]).json();
    let lead =
        document["results"].as_array().unwrap().iter().find(|r| r["bottle"] == "SL2-26-07-A" && r["analyte"] == "Pb");
    let value = lead.unwrap()["net"]["value"].as_f64().unwrap();
    // SQLite keeps a real number as eight bytes, big-endian (file format, 2.1).
    let n = replace_bytes(&desk.path("p.sqlite"), &value.to_be_bytes(), &(value * 0.5).to_be_bytes());
    assert!(n >= 1);
    let ran = desk.run(&["verify", "p.sqlite"]);
    assert_eq!(ran.status, 3, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("result") && ran.out.contains("row"), "{}", ran.out);
}

#[test]
fn nothing_leaves_the_house_with_a_value_changed_from_outside() {
    let desk = Desk::with_programme();
    // The row of the lead of SL-2 and its value, from the package of the sound programme.
    desk.run(&["export", "p.sqlite", "--out", "sound"]).done();
    let lead = desk.run(&["results", "p.sqlite", "--json"]).json();
    let lead = lead["results"].as_array().unwrap().iter().find(|r| r["result"].as_str().unwrap().starts_with(LEAD));
    let value = lead.unwrap()["net"]["value"].as_f64().unwrap();
    let table = fs::read_to_string(desk.path("sound/record/result.csv")).unwrap();
    let row = table.lines().rfind(|l| l.split(',').any(|cell| cell.parse() == Ok(value))).unwrap();
    let told = format!("result, row {} of event", row.split(',').next().unwrap());
    assert!(replace_bytes(&desk.path("p.sqlite"), &value.to_be_bytes(), &(value * 0.1).to_be_bytes()) >= 1);
    let package = ["--out", "out"];
    for command in [
        &["report", "p.sqlite"][..],
        &["report", "p.sqlite", "--kind", "leaflet"],
        &["report", "p.sqlite", "--kind", "authority", "--lang", "de"],
        &["export", "p.sqlite"],
        &["supplement", "p.sqlite"],
    ] {
        desk.run(&[command, &package].concat()).fails(3, &[&told, "nothing leaves it"]);
        assert!(!desk.path("out").exists(), "{command:?}");
    }
    desk.run(&["backup", "p.sqlite", "copy.limpid"]).fails(3, &[&told]);
    desk.run(&["move", "p.sqlite", "moved.sqlite"]).fails(3, &[&told]);
    assert!(!desk.path("copy.limpid").exists() && !desk.path("moved.sqlite").exists());
}

#[test]
fn a_word_changed_from_outside_is_found() {
    let desk = Desk::with_programme();
    assert!(replace_bytes(&desk.path("p.sqlite"), b"Marit Osk", b"Marit Ask") >= 1);
    let ran = desk.run(&["verify", "p.sqlite"]);
    assert_eq!(ran.status, 3, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("person"), "{}", ran.out);
}

#[test]
fn an_older_head_that_the_chain_does_not_hold_is_a_difference() {
    let desk = Desk::with_programme();
    let head = desk.head("p.sqlite");
    desk.run(&["verify", "p.sqlite", "--head", &head]).done();
    let ran = desk.run(&["verify", "p.sqlite", "--head", &"0".repeat(64)]);
    assert_eq!(ran.status, 3);
    assert!(ran.out.contains("events were removed or rewritten"), "{}", ran.out);
    desk.run(&["verify", "p.sqlite", "--head", "abc"]).fails(2, &["64 hexadecimal digits"]);
}

#[test]
fn a_programme_with_a_hole_is_a_difference() {
    let desk = Desk::with_programme();
    let mut bytes = fs::read(desk.path("p.sqlite")).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..middle + 400_000].fill(0);
    desk.file("p.sqlite", bytes);
    let ran = desk.run(&["verify", "p.sqlite"]);
    assert_eq!(ran.status, 3, "{}{}", ran.out, ran.err);
    assert!(!ran.out.is_empty());
}

#[test]
fn what_is_missing_is_no_fault_of_the_input() {
    let desk = Desk::with_programme();
    desk.run(&["results", "absent.sqlite"]).fails(4, &["absent.sqlite does not exist", "limpid new"]);
    desk.run(&["import", "p.sqlite", "absent.csv", "--mapping", "people"]).fails(4, &["absent.csv"]);
    desk.run(&["calc", "line", "--input", "absent.json"]).fails(4, &["reading absent.json"]);
    desk.run(&["new", "none/p.sqlite"]).fails(4, &["the folder none does not exist"]);
    desk.file("in-the-way", "");
    for command in ["report", "export"] {
        desk.run(&[command, "p.sqlite", "--out", "in-the-way/here"]).fails(4, &["making the folder in-the-way/here"]);
    }
}

#[test]
fn what_is_no_programme_is_refused() {
    let desk = Desk::new();
    desk.file("table.csv", "a,b\n".repeat(2000));
    desk.run(&["results", "table.csv"]).fails(1, &["table.csv is not a programme of Limpid"]);
}

#[test]
fn a_programme_of_a_newer_version_is_refused() {
    let desk = Desk::with_programme();
    let mut bytes = fs::read(desk.path("p.sqlite")).unwrap();
    // The user version stands at byte 60 (SQLite file format, 1.3).
    bytes[60..64].copy_from_slice(&99_u32.to_be_bytes());
    desk.file("p.sqlite", bytes);
    desk.run(&["results", "p.sqlite"]).fails(1, &["p.sqlite has schema version 99", "use a newer Limpid"]);
}

/// The binary as a user whom permissions bind: this one, or where this is root, nobody.
fn unprivileged(desk: &Desk, arguments: &[&str]) -> Ran {
    let program = desk.path("limpid");
    let root = program.metadata().unwrap().uid() == 0;
    let mut command = Command::new(if root { "setpriv".as_ref() } else { program.as_path() });
    if root {
        command.args(["--reuid=65534", "--regid=65534", "--clear-groups"]).arg(&program);
    }
    Ran::of(command.args(arguments).current_dir(desk.path("")).output().unwrap())
}

#[test]
fn a_read_only_folder_can_be_read_and_not_written() {
    let desk = Desk::with_raw();
    desk.run(&["new", "p.sqlite"]).done();
    fs::copy(LIMPID, desk.path("limpid")).unwrap();
    let allow = |name: &str, mode| fs::set_permissions(desk.path(name), fs::Permissions::from_mode(mode)).unwrap();
    for (name, mode) in [("limpid", 0o555), ("p.sqlite", 0o444), ("raw", 0o555), ("", 0o555)] {
        allow(name, mode);
    }
    let read = unprivileged(&desk, &["verify", "p.sqlite"]);
    let import = unprivileged(&desk, &["import", "p.sqlite", "raw/bundle.toml"]);
    let new = unprivileged(&desk, &["new", "q.sqlite"]);
    let report = unprivileged(&desk, &["report", "p.sqlite", "--out", "told"]);
    allow("", 0o755);
    read.done();
    import.fails(4, &["p.sqlite cannot be written", "read-only for this user", "nothing was changed"]);
    new.fails(4, &["q.sqlite cannot be written"]);
    report.fails(4, &["making the folder told"]);
}

/// A command that may not make a file larger than some bytes: writing fails as on a full disk,
/// since the signal of the limit is ignored.
fn with_room(desk: &Desk, bytes: u64, arguments: &[&str]) -> Ran {
    let mut command = Command::new("sh");
    command.args(["-c", "trap '' XFSZ; room=$1; shift; exec prlimit --fsize=\"$room\" \"$@\"", "sh"]);
    command.arg(bytes.to_string()).arg(LIMPID).args(arguments).current_dir(desk.path(""));
    Ran::of(command.output().unwrap())
}

#[test]
fn a_full_disk_is_told_and_nothing_of_the_act_is_kept() {
    let desk = Desk::with_raw();
    desk.run(&["new", "p.sqlite"]).done();
    let head = desk.head("p.sqlite");
    let size = desk.path("p.sqlite").metadata().unwrap().len();
    // The act grows a journal beside the file; half the size of an empty programme is too little for it.
    with_room(&desk, size / 2, &["import", "p.sqlite", "raw/bundle.toml"])
        .fails(4, &["the disk is full or a file-size limit was reached", "nothing of this act was kept"]);
    assert_eq!(desk.head("p.sqlite"), head);
    desk.run(&["import", "p.sqlite", "raw/bundle.toml"]).done();
    with_room(&desk, 50_000, &["report", "p.sqlite", "--out", "told"]).fails(4, &["writing told/report.pdf"]);
}

#[test]
fn a_disk_that_fills_up_between_keeping_and_deriving_leaves_an_act_that_is_kept() {
    let exclude = ["exclude", "p.sqlite", "FB-26-07-4", "--as", "Marit Osk", "--why", "a gust"];
    let mut statuses = vec![];
    // Room for the log beside the programme: none, too little for its index (32 kB by SQLite's documentation of its WAL
    // format), enough for the act, enough for what follows.
    for kilobytes in [0, 10, 40, 60, 100, 150, 250, 400, 400_000] {
        let desk = Desk::with_programme();
        // The demo has taken that blank out already.
        desk.run(&[&exclude[..], &["--back"]].concat()).done();
        let head = desk.head("p.sqlite");
        let ran = with_room(&desk, kilobytes * 1000, &exclude);
        statuses.push(ran.status);
        match ran.status {
            0 => {}
            4 => {
                ran.fails(4, &["the disk is full or a file-size limit was reached", "nothing of this act was kept"]);
                assert_eq!(desk.head("p.sqlite"), head);
                continue;
            }
            _ => {
                let why = ran.fails(5, &["kept, not yet derived: run `limpid recompute`", "the disk is full"]);
                assert!(!why.contains("nothing"), "{why}");
                let told = desk.run(&["verify", "p.sqlite"]);
                assert_eq!(told.status, 5, "{}{}", told.out, told.err);
                assert!(told.out.contains("1 act kept and not yet derived"), "{}", told.out);
                let told = desk.run(&["verify", "p.sqlite", "--json"]);
                let document: serde_json::Value = serde_json::from_str(&told.out).unwrap();
                assert_eq!((told.status, &document["answer"]), (5, &"not yet derived".into()));
                assert_eq!(document["acts_since_derived"], 1);
                assert_eq!(document["engine"]["this"], document["engine"]["derived_by"]);
                assert!(!document["derived"].as_array().unwrap().is_empty());
                let results = desk.run(&["results", "p.sqlite", "--json"]).json();
                assert!(results["warnings"].to_string().contains("1 act kept"), "{}", results["warnings"]);
            }
        }
        desk.run(&["recompute", "p.sqlite"]).done();
        assert_ne!(desk.head("p.sqlite"), head);
        let document = desk.run(&["verify", "p.sqlite", "--json"]).json();
        assert_eq!((&document["answer"], &document["derived"]), (&"intact".into(), &serde_json::json!([])));
    }
    assert!(statuses.starts_with(&[4, 4]) && statuses.contains(&5) && statuses.ends_with(&[0]), "{statuses:?}");
}

#[test]
fn an_import_killed_at_any_moment_is_sound_and_derived_later() {
    let import = |desk: &Desk| desk.command(&["import", "p.sqlite", "raw/bundle.toml"]).spawn().unwrap();
    let timed = Desk::with_raw();
    timed.run(&["new", "p.sqlite"]).done();
    let begun = std::time::Instant::now();
    assert!(import(&timed).wait().unwrap().success());
    let span = begun.elapsed();
    let expected = timed.run(&["results", "p.sqlite"]).done();
    for part in [0.3, 0.6, 0.75, 0.9] {
        let desk = Desk::with_raw();
        desk.run(&["new", "p.sqlite"]).done();
        let mut running = import(&desk);
        std::thread::sleep(span.mul_f64(part));
        running.kill().unwrap();
        running.wait().unwrap();
        let ran = desk.run(&["verify", "p.sqlite"]);
        assert!([0, 5].contains(&ran.status), "{part}: {} {}{}", ran.status, ran.out, ran.err);
        // Taken in once more it changes nothing where it was kept; either way deriving brings up the rest.
        desk.run(&["import", "p.sqlite", "raw/bundle.toml"]).done();
        desk.run(&["recompute", "p.sqlite"]).done();
        desk.head("p.sqlite");
        assert_eq!(desk.run(&["results", "p.sqlite"]).done(), expected, "{part}");
    }
}

#[test]
fn standard_output_that_is_full_is_told_once() {
    let desk = Desk::with_programme();
    let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let ran = Ran::of(desk.command(&["results", "p.sqlite"]).stdout(full).output().unwrap());
    let err = ran.fails(4, &["writing standard output"]);
    assert_eq!(err.lines().count(), 1, "{err}");
}

#[test]
fn a_reader_that_leaves_early_ends_nothing() {
    let desk = Desk::with_raw();
    desk.run(&["new", "p.sqlite"]).done();
    let mut import = desk.command(&["import", "p.sqlite", "raw/bundle.toml"]);
    let mut running = import.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(running.stdout.take());
    let mut err = String::new();
    running.stderr.take().unwrap().read_to_string(&mut err).unwrap();
    assert_eq!((running.wait().unwrap().code(), err.as_str()), (Some(0), ""));
    let recomputed = desk.run(&["recompute", "p.sqlite"]).done();
    assert!(recomputed.contains("0 written"), "everything was derived at the import: {recomputed}");
}

#[test]
fn words_that_do_not_fit_are_usage() {
    let desk = Desk::with_programme();
    for (arguments, part) in [
        (&["results"][..], "<STORE>"),
        (&["nonsense"], "nonsense"),
        (&["results", "p.sqlite", "--yaml"], "--yaml"),
        (&["exclude", "p.sqlite", "FB-26-07-4", "--as", "Marit Osk"], "--why"),
        (&["sign", "p.sqlite", LEAD, "--why", "seen"], "--as"),
        (&["import", "p.sqlite", "x.csv"], "--mapping"),
        (&["calc"], "<NAME>"),
        (&["calc", "nonsense"], "detection, line, uncertainty"),
        (&["calc", "--schema", "nonsense"], "nonsense"),
    ] {
        desk.run(arguments).fails(2, &[part]);
    }
}
