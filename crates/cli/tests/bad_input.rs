//! Input that is refused, at the command line: file, row, column, found, expected on standard
//! error, exit status 1, and the programme as it was. The importer's own tests have more cases.

use crate::desk::{Desk, Ran};
use std::fs;
use std::io::Write as _;

/// A mapping of a laboratory's table that makes its bottles.
const OWN: &str = r#"
name = "own"
target = "results"

[columns.bottle]
label = "sample"
kind = { constant = "sample" }

[columns.result]
analyte = "analyte"
fraction = { constant = "unfiltered" }
value = "value"
unit = "unit"

[words]
"<" = "below"
"" = "missing"
"#;

/// One laboratory file into an empty programme.
fn own(desk: &Desk, file: &str, mapping: &str) -> Ran {
    desk.file("own.toml", mapping);
    desk.run(&["new", "p.sqlite"]).done();
    desk.run(&["import", "p.sqlite", file, "--mapping", "own.toml"])
}

/// The demo's raw files, one of them changed: refused, and nothing was taken.
#[track_caller]
fn refused(file: &str, change: impl Fn(&str) -> String, parts: &[&str]) -> String {
    let desk = Desk::with_raw();
    desk.run(&["new", "p.sqlite"]).done();
    let head = desk.head("p.sqlite");
    desk.edit(&format!("raw/{file}"), change);
    let ran = desk.run(&["import", "p.sqlite", "raw/bundle.toml"]);
    assert_eq!(ran.out, "");
    assert_eq!(desk.head("p.sqlite"), head);
    ran.fails(1, &[&["nothing was taken", file][..], parts].concat())
}

fn change(old: &'static str, new: &'static str) -> impl Fn(&str) -> String {
    move |text| text.replacen(old, new, 1)
}

#[test]
fn a_missing_column() {
    let found = ["bottles.csv, row 1", "found the columns \"label\", \"sort\"", "expected a column \"kind\""];
    refused("bottles.csv", change("label,kind", "label,sort"), &found);
}

#[test]
fn a_doubled_vial() {
    let parts = ["run-sequence.csv, row 3, column \"name\"", "vial \"cal blank 1\" at position 2", "a name of its own"];
    let whole = refused("run-sequence.csv", change(",cal blank 2,", ",cal blank 1,"), &parts);
    insta::assert_snapshot!(whole);
}

#[test]
fn units_that_do_not_fit() {
    let of_standard = change("Pb,0.4,0.0016,ng/L", "Pb,0.4,0.0016,mV");
    refused("run-sequence.csv", of_standard, &["row 5, column \"unit\"", "found mV for Pb", "ng/L"]);
    refused("major-ions.csv", change("mg/L", "ppt"), &["row 2, column \"unit\"", "found \"ppt\"", "ambiguous"]);
}

#[test]
fn a_standard_without_value() {
    let parts = ["row 5, column \"value\"", "found nothing", "assigned.value is needed"];
    refused("run-sequence.csv", change("Pb,0.4,0.0016,ng/L", "Pb,,,ng/L"), &parts);
}

#[test]
fn a_negative_dilution() {
    let parts = ["row 2, column \"dilution\"", "found \"-1\"", "expected a dilution above zero"];
    refused("run-sequence.csv", change(",4,1,0.001", ",4,-1,0.001"), &parts);
}

#[test]
fn a_file_cut_off() {
    let cut = |text: &str| text[..text.len() * 2 / 3].to_string();
    refused("run-counts.csv", cut, &["found 17 cells", "expected 19"]);
}

#[test]
fn a_mapping_that_names_an_absent_column() {
    let desk = Desk::new();
    desk.file("lab.csv", "sample,analyte,value,unit\nA,Pb,1,ng/L\n");
    own(&desk, "lab.csv", &OWN.replace("value = \"value\"", "value = \"Conc\""))
        .fails(1, &["lab.csv, row 1", "expected a column \"Conc\"", "result.value"]);
    desk.run(&["import", "p.sqlite", "lab.csv", "--mapping", "nobodys"])
        .fails(1, &["no mapping \"nobodys\"", "bottles"]);
}

#[test]
fn a_workbook_that_is_a_renamed_pdf() {
    let desk = Desk::new();
    desk.file("lab.xlsx", "%PDF-1.7\n");
    own(&desk, "lab.xlsx", OWN).fails(1, &["lab.xlsx", "a PDF document under the name of an XLSX workbook"]);
}

#[test]
fn a_line_of_two_hundred_megabytes() {
    let desk = Desk::new();
    desk.file("long.csv", "sample,analyte,value,unit\nA,Pb,1,ng/L\n");
    let mut file = fs::OpenOptions::new().append(true).open(desk.path("long.csv")).unwrap();
    let piece = vec![b'x'; 1 << 20];
    for _ in 0..200 {
        file.write_all(&piece).unwrap();
    }
    drop(file);
    own(&desk, "long.csv", OWN).fails(1, &["long.csv, row 3", "a line longer than 1024 kB"]);
}

/// The demo's raw files, changed so that they are well formed and yet give no line or no limit:
/// they are kept, the run gives no results and says why, and the rest of the record is not held up.
#[track_caller]
fn without_results(file: &str, change: impl Fn(&str) -> String, parts: &[&str]) -> Desk {
    let desk = Desk::with_raw();
    desk.edit(&format!("raw/{file}"), change);
    let ran = desk.run(&["import", "p.sqlite", "raw/bundle.toml", "--new"]);
    assert!(ran.out.contains("run-counts.csv: "), "{}", ran.out);
    ran.fails(5, &[&["kept in the record, but without results", "run SL-R-2607: "][..], parts].concat());
    desk.run(&["verify", "p.sqlite"]).done();
    let results = desk.run(&["results", "p.sqlite"]).done();
    assert!(results.contains("SL1-26-07-M:Ca  ") && results.contains("provisional"), "{results}");
    assert!(!results.contains(":Pb"), "{results}");
    desk
}

/// The lines of a text that hold all, or not all, of some words.
fn without(words: &'static [&'static str], except: &'static str) -> impl Fn(&str) -> String {
    move |text| {
        let keep = |l: &&str| !words.iter().all(|w| l.contains(w)) || l.contains(except);
        text.split_inclusive('\n').filter(keep).collect()
    }
}

#[test]
fn fewer_than_two_standards() {
    let few = without(&[",standard,", ",Pb,"], ",standard 1,");
    without_results("run-sequence.csv", few, &["Pb 206+207+208@low", "1 usable standard", "needs at least 2"]);
}

#[test]
fn counts_beyond_the_dead_time_model() {
    let high = change("2,75;3,50;4,75", "45000000,0;3,50;4,75");
    let parts = ["Pb206@low at position 1 (cal blank 1)", "45000000 counts/s", "25 ns", "exclude the reading"];
    let desk = without_results("run-counts.csv", high, &parts);
    // What the message says to do helps.
    desk.run(&["exclude", "p.sqlite", "SL-R-2607/1", "--as", "Ines Varga", "--why", "the detector was flooded"]).done();
    assert!(desk.run(&["results", "p.sqlite"]).done().contains(":Pb"));
}

#[test]
fn fewer_than_two_blanks() {
    // Blanks taken out one by one until a single one is left to know their spread by.
    let desk = Desk::with_programme();
    let bottles = fs::read_to_string(crate::desk::demo().join("raw/bottles.csv")).unwrap();
    let labels = bottles.lines().filter(|l| l.contains(",field-blank,")).map(|l| l.split(',').next().unwrap());
    let mut statuses = vec![];
    let mut last = String::new();
    for label in labels.skip(1) {
        let ran = desk.run(&["exclude", "p.sqlite", label, "--as", "Marit Osk", "--why", "a gust"]);
        statuses.push(ran.status);
        last = ran.err;
    }
    let (end, before) = statuses.split_last().unwrap();
    assert!(*end == 5 && before.iter().all(|s| *s == 0), "{statuses:?}");
    for part in ["kept in the record, but without results", "the run has 1 usable; at least 2 are needed"] {
        assert!(last.contains(part), "{last}");
    }
    // Results that no longer follow from what is in the evidence are rejected; that is honest work, and no difference.
    let words = desk.run(&["case", "p.sqlite", crate::desk::LEAD]).done();
    assert!(words.contains("verdict: rejected: number.excluded"), "{words}");
    let told = desk.run(&["verify", "p.sqlite"]).done();
    assert!(told.contains("the run has 1 usable; at least 2 are needed"), "{told}");
    // The report is made all the same, and says so.
    desk.run(&["report", "p.sqlite", "--out", "report"]).done();
    let page = fs::read_to_string(desk.path("report/report.html")).unwrap();
    assert!(page.contains("cannot be reduced as the record stands now"), "the caution is missing");
}
