//! A package that is not what it was is named by file, row and column, and nothing of it is kept.

use crate::common;

use ::fixtures::damage::{cases, damaged, strokes};
use common::{Awkward, dumped, files_of, fill, folder};
use exchange::{Error, Options, describe, folder::BLAKE3SUMS, read, write};
use proptest::prelude::*;
use record::schema::TABLES;
use record::store::Store;
use std::fs;
use std::path::{Path, PathBuf};

/// A package of a filled programme.
fn package() -> (tempfile::TempDir, PathBuf) {
    let (guard, at) = folder();
    let mut store = Store::create(at.join("programme.limpid")).unwrap();
    fill(&mut store, &Awkward::default());
    write(&store, &at.join("package"), &Options::default()).unwrap();
    (guard, at)
}

/// Reads a package that must be refused; answers the words, after a look that nothing was left.
fn refused(at: &Path) -> String {
    let store = at.join("copy.limpid");
    let error = read(&at.join("package"), &store).unwrap_err();
    let left: Vec<_> = fs::read_dir(at)
        .unwrap()
        .map(|e| e.unwrap().file_name().into_string().unwrap())
        .filter(|n| n.starts_with("copy"))
        .collect();
    assert_eq!(left, Vec::<String>::new(), "nothing half-written is left");
    error.to_string()
}

/// Changes a file, and its sum as somebody would who wants it unseen.
fn edit(at: &Path, file: &str, change: impl FnOnce(String) -> String) {
    let path = at.join("package").join(file);
    let (old, sums) = (fs::read_to_string(&path).unwrap(), at.join("package").join(BLAKE3SUMS));
    let new = change(old.clone());
    assert_ne!(old, new, "the test changes nothing");
    fs::write(&path, &new).unwrap();
    let hash = |t: &str| blake3::hash(t.as_bytes()).to_hex().to_string();
    fs::write(&sums, fs::read_to_string(&sums).unwrap().replace(&hash(&old), &hash(&new))).unwrap();
}

#[test]
fn a_missing_file_is_named() {
    let (_guard, at) = package();
    fs::remove_file(at.join("package/record/bottle.csv")).unwrap();
    assert!(refused(&at).starts_with("record/bottle.csv: the package lists it, but it is not there"));
}

#[test]
fn one_changed_byte_of_any_file_is_named() {
    let (_guard, at) = package();
    let files = files_of(&at.join("package"));
    assert!(files.len() > 40);
    for (name, bytes) in &files {
        if name.ends_with("SUMS") || bytes.is_empty() {
            continue;
        }
        let path = at.join("package").join(name);
        let mut changed = bytes.clone();
        let middle = changed.len() / 2;
        changed[middle] ^= 1;
        fs::write(&path, &changed).unwrap();
        let words = refused(&at);
        // The description is read before the sums; what it says may be foreign before it is changed.
        assert!(words.contains(name.as_str()) || name == describe::DATA_PACKAGE, "{name}: {words}");
        fs::write(&path, bytes).unwrap();
    }
    read(&at.join("package"), at.join("whole.limpid")).unwrap();
}

#[test]
fn a_value_changed_with_its_sum_is_found_by_the_chain() {
    let (_guard, at) = package();
    // Of the second row alone: other rows hold the same number.
    let second = |(k, line): (usize, &str)| if k == 2 { line.replace("1e-7", "2e-7") } else { line.to_string() };
    edit(&at, "record/bottle.csv", |t| t.split_inclusive("\r\n").enumerate().map(second).collect());
    let words = refused(&at);
    assert!(words.contains("bottle, row 2 of event 1: altered"), "{words}");
}

#[test]
fn a_raw_file_changed_with_its_sum_is_found_by_its_hash() {
    let (_guard, at) = package();
    let raw = fs::read_dir(at.join("package/raw")).unwrap().map(|e| e.unwrap().path()).min().unwrap();
    let old = fs::read(&raw).unwrap();
    let mut new = old.clone();
    new[3] ^= 1;
    fs::write(&raw, &new).unwrap();
    let sums = at.join("package").join(BLAKE3SUMS);
    let hash = |b: &[u8]| blake3::hash(b).to_hex().to_string();
    fs::write(&sums, fs::read_to_string(&sums).unwrap().replace(&hash(&old), &hash(&new))).unwrap();
    let words = refused(&at);
    assert!(words.contains("raw_file, row 1: its content is not what its hash says"), "{words}");
}

#[test]
fn an_event_changed_with_its_sum_is_found() {
    let (_guard, at) = package();
    edit(&at, "record/event.csv", |t| t.replace("\"\"entry\"\"", "\"\"import\"\""));
    assert!(refused(&at).contains("event 1 was altered"));
}

#[test]
fn a_chain_with_another_head_than_named_is_refused() {
    let (_guard, at) = package();
    edit(&at, "record/event.csv", |t| t.lines().next().unwrap().to_owned() + "\r\n");
    assert!(refused(&at).contains("its event chain ends in"));
}

/// The description with another number under a name.
fn with_number(text: &str, name: &str, number: u64) -> String {
    let from = text.find(&format!("\"{name}\": ")).unwrap() + name.len() + 4;
    let end = from + text[from..].find(|c: char| !c.is_ascii_digit()).unwrap();
    format!("{}{number}{}", &text[..from], &text[end..])
}

#[test]
fn later_forms_and_schemas_are_named() {
    let (_guard, at) = package();
    edit(&at, "datapackage.json", |t| {
        let tail = t.find("\"limpid\": {").unwrap();
        t[..tail].to_owned() + &with_number(&t[tail..], "schema", 9999)
    });
    assert!(refused(&at).starts_with("the package has schema version 9999; this program knows schema version up to"));
    edit(&at, "datapackage.json", |t| with_number(&t, "format", 4));
    assert!(refused(&at).starts_with("the package has form 4; this program knows form up to 3"));
}

#[test]
fn an_unknown_column_and_a_missing_one_are_named() {
    let (_guard, at) = package();
    edit(&at, "record/acid.csv", |t| t.replacen("opened_on", "opened", 1));
    assert!(refused(&at).starts_with("record/acid.csv: column \"opened\" is not known"));
    edit(&at, "record/acid.csv", |t| t.replacen(",opened", "", 1));
    assert!(refused(&at).starts_with("record/acid.csv: column \"opened_on\" is missing"));
}

#[test]
fn a_cell_that_its_column_cannot_hold_is_named_by_row_and_column() {
    let (_guard, at) = package();
    edit(&at, "record/well_section.csv", |t| t.replacen("screen", "sieve", 1));
    let words = refused(&at);
    assert!(
        words.starts_with("record/well_section.csv, row 2, column kind: found \"sieve\", expected one of casing"),
        "{words}"
    );
}

#[test]
fn an_unknown_table_and_a_path_that_leads_out_are_named() {
    let (_guard, at) = package();
    let sums = at.join("package").join(BLAKE3SUMS);
    let old = fs::read_to_string(&sums).unwrap();
    let zero = "0".repeat(64);
    fs::write(&sums, format!("{old}{zero}  record/pump.csv\n")).unwrap();
    assert!(refused(&at).starts_with("record/pump.csv: the record has no such table"));
    fs::write(&sums, format!("{old}{zero}  ../outside\n")).unwrap();
    assert!(refused(&at).starts_with("../outside: a path that leads out of the package"));
}

#[test]
fn a_folder_that_is_no_package_is_named_and_a_store_is_never_overwritten() {
    let (_guard, at) = package();
    let empty = at.join("empty");
    fs::create_dir(&empty).unwrap();
    assert!(matches!(read(&empty, at.join("x.limpid")), Err(Error::NotAPackage { .. })));
    let there = read(&at.join("package"), at.join("programme.limpid")).unwrap_err().to_string();
    assert!(there.contains("exists already and is left as it is"), "{there}");
}

#[test]
fn a_folder_with_other_files_is_left_alone_and_an_earlier_package_is_replaced() {
    let (_guard, at) = package();
    let store = Store::open(at.join("programme.limpid")).unwrap();
    let package = at.join("package");
    fs::write(package.join("notes.txt"), "mine").unwrap();
    let words = write(&store, &package, &Options::default()).unwrap_err().to_string();
    assert!(words.contains("holds notes.txt, which is of no earlier package"), "{words}");
    assert_eq!(fs::read_to_string(package.join("notes.txt")).unwrap(), "mine");
    fs::remove_file(package.join("notes.txt")).unwrap();
    let before = files_of(&package);
    let licence = Some("https://creativecommons.org/licenses/by/4.0/".to_owned());
    write(&store, &package, &Options { licence, ..Options::default() }).unwrap();
    let after = files_of(&package);
    assert!(before.keys().eq(after.keys()));
    assert_ne!(before["datapackage.json"], after["datapackage.json"]);
    assert!(!at.join("package.old").exists() && !at.join("package.unfinished").exists());
}

proptest! {
    #![proptest_config(cases(60))]

    /// Any file of a package damaged, its sum made to fit or not: refused with nothing left, or the same record.
    #[test]
    fn a_damaged_package_is_refused_or_says_the_same(which in any::<prop::sample::Index>(), strokes in strokes(3), hidden: bool) {
        let (_guard, at) = package();
        let files = files_of(&at.join("package"));
        let (name, old) = which.get(&files.iter().collect::<Vec<_>>()).to_owned();
        let new = damaged(old, &strokes);
        fs::write(at.join("package").join(name), &new).unwrap();
        if hidden && name != BLAKE3SUMS {
            let sums = at.join("package").join(BLAKE3SUMS);
            let hash = |b: &[u8]| blake3::hash(b).to_hex().to_string();
            fs::write(&sums, fs::read_to_string(&sums).unwrap().replace(&hash(old), &hash(&new))).unwrap();
        }
        if let Err(e) = read(&at.join("package"), at.join("copy.limpid")) {
            prop_assert!(!e.to_string().is_empty());
            prop_assert!(!at.join("copy.limpid").exists(), "{name}: something is left");
        } else {
                let (was, is) = (Store::open(at.join("programme.limpid")).unwrap(), Store::open(at.join("copy.limpid")).unwrap());
                prop_assert_eq!(is.head().unwrap(), was.head().unwrap());
                prop_assert_eq!(is.verify(None).unwrap().differences, []);
                for table in TABLES {
                    prop_assert_eq!(dumped(&is, table.name), dumped(&was, table.name), "{}: {}", name, table.name);
                }
        }
    }
}
