//! The public tables of `examples/real` (US Geological Survey, doi 10.5066/P9UWRYR4, CC0), which
//! hold what real files hold: `<`, `E`, `U`, `>`, empty cells, literal zeros, many units.
//! The counts were taken from the same files with Python's csv module: distinct (place, medium,
//! date, time, parameter) over the four tables.

use crate::import_common;
use import_common::{Desk, content};
use intake::import::{Imported, import, inputs, preview};
use record::model::{BottleKind, Censor, ResultRow, State};
use record::store::Filter;
use std::path::PathBuf;

fn bundle() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/real/bundle.toml"))
}

fn taken() -> (Desk, Imported) {
    let mut desk = Desk::new();
    let files = inputs(&desk.store, &[bundle()], "bundle").unwrap();
    let taken = import(&mut desk.store, &files, "test", "2026-07-22").unwrap_or_else(|e| panic!("{e}"));
    (desk, taken)
}

fn one(results: &[ResultRow], bottle: &str, analyte: &str) -> ResultRow {
    let found: Vec<_> = results.iter().filter(|r| r.bottle == bottle && r.analyte == analyte).collect();
    assert_eq!(found.len(), 1, "{bottle} {analyte}");
    found[0].clone()
}

#[test]
fn every_row_of_four_tables_comes_in_once() {
    let (desk, taken) = taken();
    assert_eq!(taken.files.iter().map(|f| f.rows).collect::<Vec<_>>(), [895, 635, 372, 30]);
    let results = desk.store.results(&Filter::all()).unwrap();
    assert_eq!(results.len(), 2481);
    // 895 + 635 + 372 rows and 722 filled cells, less what says the same twice.
    let kept: u64 = taken.files.iter().map(|f| f.kept).sum();
    assert_eq!(2481 + kept, 895 + 635 + 372 + 722);
    assert_eq!(taken.files.iter().map(|f| f.revised).sum::<u64>(), 0);
    let bottles = desk.store.bottles(&Filter::all()).unwrap();
    assert_eq!(bottles.len(), 489);
    let kind = |k: BottleKind| bottles.iter().filter(|b| b.kind == k).count();
    assert_eq!((kind(BottleKind::FieldBlank), kind(BottleKind::Duplicate)), (90, 141));
    let duplicates = bottles.iter().filter(|b| b.kind == BottleKind::Duplicate);
    assert!(duplicates.clone().all(|b| b.parent_id.is_some()));
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
    assert_eq!(desk.store.events().unwrap().len(), 1);
}

#[test]
fn signs_of_the_laboratories_mean_what_the_mapping_says() {
    let (desk, _) = taken();
    let results = desk.store.results(&Filter::all()).unwrap();
    let of_trace = |remark: &str| {
        results.iter().filter(|r| r.remark.as_deref() == Some(remark) && r.raw_file_id == Some(2)).collect::<Vec<_>>()
    };
    // Counted in trace.csv: 349 "<", 141 "E" (two of them literal zeros or not), 3 "U", 1 ">".
    assert_eq!(of_trace("<").len(), 349);
    assert!(of_trace("<").iter().all(|r| r.censor == Censor::Below && r.value.is_none() && r.limit_value.is_some()));
    assert_eq!(of_trace("E").len(), 141);
    assert_eq!(of_trace("U").len(), 3);
    assert!(of_trace("U").iter().all(|r| r.state == State::NotDetected && r.limit_value.is_none()));
    assert_eq!(of_trace(">").len(), 1);
    assert!(of_trace(">").iter().all(|r| r.state == State::AboveRange && r.censor == Censor::Above));
    // A literal zero is not detected and carries the word.
    let zeros = of_trace("0");
    assert!(!zeros.is_empty() && zeros.iter().all(|r| r.censor == Censor::Below && r.value.is_none()));
    // Net counts of radioactivity: zero and negative values are values.
    let tritium: Vec<_> = results.iter().filter(|r| r.analyte == "tritium").collect();
    assert!(tritium.iter().any(|r| r.value == Some(0.0)) && tritium.iter().any(|r| r.value < Some(0.0)));
    assert!(tritium.iter().all(|r| r.unit == "pCi/L"));
    let chromate: Vec<_> = results.iter().filter(|r| r.analyte == "Cr(VI)").collect();
    assert!(chromate.iter().all(|r| r.unit == "ug/L{as Cr}"));
    assert!(results.iter().filter(|r| r.analyte == "pH").all(|r| r.unit == "[pH]"));
}

#[test]
fn single_cells_as_they_stand_in_the_files() {
    let (desk, _) = taken();
    let results = desk.store.results(&Filter::all()).unwrap();
    // majors.csv, row of 433036112581815 or another of the four places: read by eye from the file.
    let text = std::fs::read_to_string(bundle().with_file_name("majors.csv")).unwrap();
    let mut lines = text.lines();
    let headings: Vec<&str> = lines.next().unwrap().split(',').collect();
    let row: Vec<&str> = lines.next().unwrap().split(',').collect();
    let at = |h: &str| row[headings.iter().position(|x| *x == h).unwrap()];
    let digits = |t: &str| t.chars().filter(char::is_ascii_digit).collect::<String>();
    let label = format!("{}-{}-{}{}", at("site_no"), at("medium"), digits(at("date")), digits(at("time")));
    let calcium = one(&results, &label, "Ca");
    assert_eq!(calcium.value, Some(at("Ca_mgL").trim_start_matches('E').parse().unwrap()));
    assert_eq!((calcium.unit.as_str(), calcium.fraction.as_str()), ("mg/L", "filtered"));
    assert_eq!(one(&results, &label, "temperature").value, Some(at("temp_C").parse().unwrap()));
}

#[test]
fn a_preview_shows_and_changes_nothing() {
    let mut desk = Desk::new();
    let files = inputs(&desk.store, &[bundle()], "bundle").unwrap();
    let seen = preview(&mut desk.store, &files, "2026-07-20T10:00:00Z").unwrap();
    assert!(seen.faults.is_empty());
    assert_eq!(seen.files[1].added["result"], 635);
    assert_eq!(seen.files[1].tables["result"].rows.len(), 10);
    assert!(desk.store.events().unwrap().is_empty());
    assert!(desk.store.results(&Filter::all()).unwrap().is_empty());
}

#[test]
fn taken_twice_nothing_changes() {
    let (mut desk, first) = taken();
    let before = content(&desk.store);
    let files = inputs(&desk.store, &[bundle()], "bundle").unwrap();
    let again = import(&mut desk.store, &files, "test", "2026-07-23").unwrap();
    assert!(again.files.iter().all(|f| f.before) && again.head.is_none());
    assert_eq!(desk.store.head().unwrap(), first.head);
    assert_eq!(content(&desk.store), before);
}
