//! `--json`: one document, the keys that the contract names, no number without its unit.

use crate::desk::{Desk, LEAD};
use serde_json::Value;

#[track_caller]
fn has(document: &Value, keys: &[&str]) {
    for key in keys {
        assert!(document.get(key).is_some(), "no {key:?} in {}", &document.to_string()[..200]);
    }
}

const EVERY: [&str; 3] = ["method", "sources", "warnings"];

#[test]
fn results() {
    let desk = Desk::with_programme();
    let document = desk.run(&["results", "p.sqlite", "--json"]).json();
    has(&document, &EVERY);
    assert_eq!(document["head"], desk.head("p.sqlite"));
    let results = document["results"].as_array().unwrap();
    let words = ["accepted", "provisional", "rejected"];
    let sheet = std::fs::read_to_string(crate::desk::demo().join("raw/bottles.csv")).unwrap();
    let of_series = sheet.lines().filter(|l| l.contains("fill series") || l.contains("flow series"));
    let series: Vec<String> = of_series.map(|l| l.split(',').next().unwrap().to_string()).collect();
    assert_eq!(series.len(), 8, "four fills of SL-2, four flows of SL-3");
    for r in results {
        has(r, &["result", "bottle", "analyte", "state", "amount", "verdict"]);
        // Bottles of a series tell where metal comes from: evidence, as blanks are.
        let series = series.iter().any(|label| r["bottle"] == label.as_str());
        let water = (r["kind"] == "sample" || r["kind"] == "duplicate") && !series;
        assert_eq!(r["verdict"].as_str().is_some_and(|v| words.contains(&v)), water, "{r}");
        amount(&r["amount"]);
    }
    let lead = results.iter().find(|r| r["bottle"] == "SL2-26-07-A" && r["analyte"] == "Pb").unwrap();
    assert_eq!(lead["amount"]["unit"], "ng/L");
    assert!(lead["amount"]["value"].as_f64().unwrap() > 0.0 && lead["amount"]["u"].as_f64().unwrap() > 0.0);
}

/// Value with u, or below, or above: one of them, and its unit.
#[track_caller]
fn amount(a: &Value) {
    has(a, &["unit"]);
    let words = ["value", "below", "above"].iter().filter(|w| a[**w].is_f64()).count();
    assert_eq!(words, 1, "{a}");
    assert_eq!(a.get("u").is_some(), a["u"].is_f64(), "{a}");
}

#[test]
fn not_detected_is_below_and_never_a_number_with_a_flag() {
    let desk = Desk::with_programme();
    let document = desk.run(&["results", "p.sqlite", "--json"]).json();
    let mut n = 0;
    for r in document["results"].as_array().unwrap().iter().filter(|r| r["state"] == "not-detected") {
        assert!(r["amount"]["below"].is_f64() && r["amount"].get("value").is_none(), "{r}");
        n += 1;
    }
    assert!(n >= 3, "the demo has nitrate below its limit in three waters");
}

#[test]
fn case() {
    let desk = Desk::with_programme();
    let document = desk.run(&["case", "p.sqlite", LEAD, "--json"]).json();
    has(&document, &EVERY);
    has(&document, &["result", "amount", "verdict", "findings", "derivation", "history", "sign_offs"]);
    assert!(document["result"].as_str().unwrap().starts_with(LEAD));
    let nodes = document["derivation"]["nodes"].as_array().unwrap();
    let leaf = |n: &&Value| n["source"].as_str().is_some_and(|s| s.contains("replicates"));
    assert!(nodes.iter().filter(leaf).count() > 10, "down to the counts");
}

#[test]
fn import_and_preview() {
    let desk = Desk::with_raw();
    desk.run(&["new", "p.sqlite"]).done();
    let seen = desk.run(&["import", "p.sqlite", "raw/bundle.toml", "--preview", "--json"]).json();
    has(&seen, &EVERY);
    has(&seen, &["files", "faults", "faults_total"]);
    assert_eq!(seen["faults_total"], 0);
    let taken = desk.run(&["import", "p.sqlite", "raw/bundle.toml", "--json"]).json();
    has(&taken, &EVERY);
    has(&taken, &["files", "head", "results_written", "verdicts_written", "underived"]);
    assert_eq!(taken["files"].as_array().unwrap().len(), seen["files"].as_array().unwrap().len());
}

#[test]
fn a_preview_with_faults_is_one_document_too_and_refused() {
    let desk = Desk::with_raw();
    desk.run(&["new", "p.sqlite"]).done();
    desk.edit("raw/people.csv", |t| t.replacen("name", "nom", 1));
    let ran = desk.run(&["import", "p.sqlite", "raw/people.csv", "--mapping", "people", "--preview", "--json"]);
    let document: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(document["faults_total"].as_u64().unwrap(), document["faults"].as_array().unwrap().len() as u64);
    ran.fails(1, &["people.csv, row 1", "expected a column \"name\""]);
}

#[test]
fn a_refusal_leaves_standard_output_empty() {
    let desk = Desk::with_programme();
    for arguments in [
        &["results", "absent.sqlite", "--json"][..],
        &["case", "p.sqlite", "nothing", "--json"],
        &["import", "p.sqlite", "absent.csv", "--mapping", "people", "--json"],
    ] {
        let ran = desk.run(arguments);
        assert_eq!(ran.out, "", "{arguments:?}");
        assert!(ran.status != 0 && !ran.err.is_empty(), "{arguments:?}");
    }
}
