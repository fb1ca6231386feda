//! One value altered in each file of a package in turn, every sum mended: reading it back names the file, and so does
//! the package's own `verify.py` for the tables that it looks at. Packages that a person damaged unawares (a file
//! missing, doubled, in another encoding, with other line ends, saved again by a spreadsheet) are named as well.

use crate::common;

use common::{Awkward, files_of, fill, folder};
use exchange::{Options, read, write};
use record::store::Store;
use sha2::{Digest as _, Sha256};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A package of a filled programme, its texts plain: a spreadsheet would keep them.
fn package() -> (tempfile::TempDir, PathBuf) {
    package_of(&Awkward { texts: vec!["plain".into(), "words, more".into()], ..Awkward::default() })
}

fn package_of(with: &Awkward) -> (tempfile::TempDir, PathBuf) {
    let (guard, at) = folder();
    let mut store = Store::create(at.join("programme.limpid")).unwrap();
    fill(&mut store, with);
    let options = Options { licence: Some("CC0-1.0".into()), ..Options::default() };
    write(&store, &at.join("package"), &options).unwrap();
    (guard, at)
}

fn sums(bytes: &[u8]) -> [String; 2] {
    [exchange::folder::hex(&Sha256::digest(bytes)), blake3::hash(bytes).to_hex().to_string()]
}

/// Writes a file anew and mends every sum of it, and the sums of the descriptions that name it.
fn mended(package: &Path, file: &str, new: &[u8]) {
    let old = fs::read(package.join(file)).unwrap();
    fs::write(package.join(file), new).unwrap();
    let mut changed = vec![(sums(&old), sums(new))];
    for description in ["ro-crate-metadata.json", "datapackage.json", "SHA256SUMS", "BLAKE3SUMS"] {
        if description == file {
            continue;
        }
        let path = package.join(description);
        let before = fs::read_to_string(&path).unwrap();
        let after = changed
            .iter()
            .fold(before.clone(), |text, (old, new)| text.replace(&old[0], &new[0]).replace(&old[1], &new[1]));
        fs::write(&path, &after).unwrap();
        changed.push((sums(before.as_bytes()), sums(after.as_bytes())));
    }
}

/// What `verify.py` of a package says, and whether it is content.
fn verified(package: &Path) -> (bool, String) {
    let out = Command::new("python3").arg(package.join("verify.py")).output();
    let out = out.expect("python3 is installed: the package is tried with it");
    (out.status.success(), String::from_utf8_lossy(&out.stdout).into_owned() + &String::from_utf8_lossy(&out.stderr))
}

/// A file with one letter or digit of its last lines changed for another.
fn altered(bytes: &[u8]) -> Option<Vec<u8>> {
    let at = bytes.iter().rposition(u8::is_ascii_alphanumeric)?;
    let mut out = bytes.to_vec();
    out[at] = if out[at] == b'7' { b'8' } else { b'7' };
    Some(out)
}

#[test]
fn the_package_verifies_itself_without_the_program() {
    let (_guard, at) = package();
    let (content, said) = verified(&at.join("package"));
    assert!(content, "{said}");
    read(&at.join("package"), at.join("copy.limpid")).unwrap();
}

#[test]
fn one_value_of_any_file_with_all_sums_mended_is_named() {
    let (_guard, at) = package();
    let package = at.join("package");
    let whole = files_of(&package);
    // What the chain covers is refused before by table and row, and the lists of sums are no content.
    let own = |name: &str| !name.starts_with("record/") && !name.starts_with("raw/") && !name.starts_with("bytes/");
    let mut tried = 0;
    for (name, bytes) in whole.iter().filter(|(name, _)| own(name) && !name.ends_with("SUMS")) {
        let Some(new) = altered(bytes) else { continue };
        mended(&package, name, &new);
        let copy = at.join("copy.limpid");
        let words = read(&package, &copy).map(|back| format!("{back:?}")).unwrap_err().to_string();
        // Of the description that is read first the head or the engine may be what was changed.
        assert!(words.contains(name.as_str()), "{name}: {words}");
        assert!(!copy.exists(), "{name}");
        // Words made of several rows (`superseded`) the small program does not compare; the numbers are the next test.
        if ["findings.csv", "bottles.csv", "events.csv"].contains(&name.as_str()) {
            let (content, said) = verified(&package);
            assert!(!content && said.contains(name.as_str()) && said.contains("row "), "{name}: {said}");
        }
        for (name, bytes) in &whole {
            fs::write(package.join(name), bytes).unwrap();
        }
        tried += 1;
    }
    assert!(tried >= 14, "{tried} files were tried");
}

#[test]
fn a_number_of_the_results_with_all_sums_mended_is_named_by_row_and_column() {
    let (_guard, at) = package();
    let package = at.join("package");
    let bytes = fs::read(package.join("results.csv")).unwrap();
    let mut rows = csv::ReaderBuilder::new().has_headers(false).from_reader(bytes.as_slice());
    let mut rows: Vec<Vec<String>> = rows.records().map(|r| r.unwrap().iter().map(str::to_owned).collect()).collect();
    let column = rows[0].iter().position(|c| c == "event").unwrap();
    rows[1][column] = "1000".into();
    let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(vec![]);
    for row in &rows {
        out.write_record(row).unwrap();
    }
    mended(&package, "results.csv", &out.into_inner().unwrap());
    let words = read(&package, at.join("copy.limpid")).unwrap_err().to_string();
    assert!(words.contains("results.csv, row 1, column event"), "{words}");
    let (content, said) = verified(&package);
    assert!(!content && said.contains("results.csv row 1 column event"), "{said}");
}

#[test]
fn a_value_of_any_table_of_the_record_with_all_sums_mended_is_named_by_row() {
    let (_guard, at) = package();
    let package = at.join("package");
    let whole = files_of(&package);
    for (name, bytes) in whole.iter().filter(|(name, _)| name.starts_with("record/") && !name.ends_with("event.csv")) {
        // Sums are mended by what they were: of two tables of the same bytes neither can be altered alone.
        if whole.iter().filter(|(_, other)| other == &bytes).count() > 1 {
            continue;
        }
        let table = name.trim_start_matches("record/").trim_end_matches(".csv");
        let Some(new) = altered(bytes).filter(|_| bytes.split(|b| *b == b'\n').count() > 2) else { continue };
        mended(&package, name, &new);
        let words = read(&package, at.join("copy.limpid")).unwrap_err().to_string();
        assert!(words.contains(table) && words.contains("row"), "{name}: {words}");
        let (content, said) = verified(&package);
        assert!(!content && said.contains(name.as_str()), "{name}: {said}");
        for (name, bytes) in &whole {
            fs::write(package.join(name), bytes).unwrap();
        }
    }
}

/// Refused by both, naming the file; nothing is kept.
fn refused(at: &Path, file: &str, expected: &str) {
    let words = read(&at.join("package"), at.join("copy.limpid")).unwrap_err().to_string();
    assert!(words.contains(file) && words.contains(expected), "{file}: {words}");
    assert!(!at.join("copy.limpid").exists());
    let (content, said) = verified(&at.join("package"));
    assert!(!content && said.contains(file), "{file}: {said}");
}

#[test]
fn what_a_person_damages_unawares_is_named() {
    let file = "bottles.csv";
    let text = |at: &Path| fs::read_to_string(at.join("package").join(file)).unwrap();
    let (_guard, at) = package();
    fs::copy(at.join("package/results.csv"), at.join("package/results (copy).csv")).unwrap();
    refused(&at, "results (copy).csv", "a file too many");

    let (_guard, at) = package();
    fs::remove_file(at.join("package").join(file)).unwrap();
    refused(&at, file, "not there");

    // By hand, the sums as they were.
    let (_guard, at) = package();
    fs::write(at.join("package").join(file), text(&at).replace("\r\n", "\n")).unwrap();
    refused(&at, file, "row 0 ends in a line feed");

    let (_guard, at) = package();
    let unix = text(&at).replace("\r\n", "\n");
    mended(&at.join("package"), file, unix.as_bytes());
    refused(&at, file, "");

    let (_guard, at) = package();
    let before = text(&at);
    // The headings are row 0.
    let row = before.split("plain").next().unwrap().matches("\r\n").count();
    let latin: Vec<u8> = before.replacen("plain", "pl\u{e4}in", 1).chars().map(|c| c as u8).collect();
    mended(&at.join("package"), file, &latin);
    refused(&at, file, &format!("row {row}"));

    let (_guard, at) = package();
    let spreadsheet = format!("\u{feff}{}", text(&at).replace(',', ";"));
    mended(&at.join("package"), file, spreadsheet.as_bytes());
    refused(&at, file, "");
}

/// Refused by both, naming the table and a row (of the record by its table, as `limpid verify` does); nothing is kept.
#[track_caller]
fn named(at: &Path, file: &str) {
    let words = read(&at.join("package"), at.join("copy.limpid")).unwrap_err().to_string();
    let table = file.trim_start_matches("record/").trim_end_matches(".csv");
    assert!(words.contains(table) && words.contains("row"), "{file}: {words}");
    assert!(!at.join("copy.limpid").exists());
    let (content, said) = verified(&at.join("package"));
    assert!(!content && said.contains(file), "{file}: {said}");
}

/// What a spreadsheet makes of a table when it saves it again: fifteen digits are kept of a number, and the apostrophe
/// in front of a text is its own sign. (Common practice of such programs, from memory.)
fn resaved(text: &str) -> String {
    let mut rows = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
    let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).flexible(true).from_writer(vec![]);
    for row in rows.records() {
        let cell = |c: &str| match c.parse::<f64>() {
            Ok(x) if c.contains('.') => format!("{x:.14e}").parse::<f64>().unwrap().to_string(),
            _ => c.strip_prefix('\'').unwrap_or(c).to_owned(),
        };
        out.write_record(row.unwrap().iter().map(cell)).unwrap();
    }
    String::from_utf8(out.into_inner().unwrap()).unwrap()
}

#[test]
fn a_table_that_a_spreadsheet_saved_again_is_named_by_row() {
    let numbers = Awkward { texts: vec!["plain".into()], numbers: vec![0.1 + 0.2, 1.0 / 3.0], ..Awkward::default() };
    let formulas = Awkward { texts: vec!["=1+1".into(), "-1 mL, about".into()], ..Awkward::default() };
    for with in [numbers, formulas] {
        for file in ["record/bottle.csv", "bottles.csv", "results.csv"] {
            for hidden in [false, true] {
                let (_guard, at) = package_of(&with);
                let path = at.join("package").join(file);
                let (before, after) =
                    (fs::read_to_string(&path).unwrap(), resaved(&fs::read_to_string(&path).unwrap()));
                assert_ne!(before, after);
                if hidden {
                    mended(&at.join("package"), file, after.as_bytes());
                } else {
                    fs::write(&path, &after).unwrap();
                }
                named(&at, file);
                let (_, said) = verified(&at.join("package"));
                assert!(said.contains(&format!("{file} row")), "{file}: {said}");
            }
        }
    }
}

#[test]
fn a_row_that_stands_twice_and_one_that_is_gone_are_named() {
    for file in ["record/bottle.csv", "bottles.csv", "results.csv", "findings.csv"] {
        for doubled in [true, false] {
            let (_guard, at) = package();
            let text = fs::read_to_string(at.join("package").join(file)).unwrap();
            let lines: Vec<&str> = text.split_inclusive("\r\n").collect();
            let mut new = lines.clone();
            let last = if doubled { new.last().copied() } else { None };
            if last.is_none() {
                new.pop();
            }
            new.extend(last);
            mended(&at.join("package"), file, new.concat().as_bytes());
            named(&at, file);
        }
    }
}
