//! The first command of the README.

use crate::desk::{Desk, demo, demo_words, masked};
use std::fs;
use std::path::Path;

#[test]
fn it_says_what_it_did_and_what_to_do_next() {
    insta::assert_snapshot!(masked(demo_words()));
}

/// Names and bytes of all files of a folder, in order of name.
fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut all: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.is_file())
        .map(|p| (p.file_name().unwrap().to_string_lossy().into_owned(), fs::read(&p).unwrap()))
        .collect();
    all.sort();
    all
}

#[test]
fn the_same_demo_twice_is_the_same_bytes() {
    let desk = Desk::new();
    let words = desk.run(&["demo", "--dir", "demo"]).done();
    assert_eq!(words, demo_words(), "the head hash is in it");
    for part in ["raw", "report", "report/figures"] {
        let (one, two) = (files(&demo().join(part)), files(&desk.path("demo").join(part)));
        assert!(!one.is_empty());
        for (a, b) in one.iter().zip(&two) {
            assert_eq!(a.0, b.0);
            assert!(a.1 == b.1, "{part}/{} differs between two runs", a.0);
        }
        assert_eq!(one.len(), two.len());
    }
}

#[test]
fn the_pdf_is_a_tagged_pdf() {
    let pdf = fs::read(demo().join("report/report.pdf")).unwrap();
    assert!(pdf.starts_with(b"%PDF-"));
    // ISO 32000-1, 14.7 and 14.8: a document catalogue with a structure tree that is marked.
    for mark in [&b"/StructTreeRoot"[..], b"/Marked true", b"/Lang"] {
        assert!(pdf.windows(mark.len()).any(|w| w == mark), "{}", String::from_utf8_lossy(mark));
    }
}

#[test]
fn the_page_stands_alone() {
    let page = fs::read_to_string(demo().join("report/report.html")).unwrap();
    assert!(page.starts_with("<!DOCTYPE html>") || page.starts_with("<!doctype html>"));
    for from_elsewhere in ["src=\"http", "src='http", "href=\"http", "url(http", "@import", "<script", "<link"] {
        assert!(!page.contains(from_elsewhere), "{from_elsewhere}");
    }
    // Every fetch of the page's style is data that the page carries.
    assert_eq!(page.matches("url(").count(), page.matches("url(data:").count());
    assert!(page.contains("invented"));
}

#[test]
fn a_second_demo_in_the_folder_is_refused() {
    let desk = Desk::new();
    desk.file("sallow-levels.sqlite", "mine");
    desk.run(&["demo", "--dir", "."]).fails(1, &["exists already", "--dir"]);
    assert_eq!(fs::read(desk.path("sallow-levels.sqlite")).unwrap(), b"mine");
}

#[test]
fn the_answer_of_the_demo() {
    // What the scenario was made to show: the page on the demo. The values themselves are
    // compared with the simulator's truth in crates/programme/tests/demo_truth.rs.
    let desk = Desk::with_programme();
    let all = desk.run(&["results", "p.sqlite", "--json"]).json();
    let verdict = |bottle: &str| {
        let of = |r: &&serde_json::Value| r["bottle"] == bottle && r["analyte"] == "Pb";
        all["results"].as_array().unwrap().iter().find(of).unwrap()["verdict"].clone()
    };
    assert_eq!(verdict("SL2-26-07-A"), "accepted");
    assert_eq!(verdict("SL1-26-07-A"), "provisional");
    assert_eq!(verdict("SL3-26-07-A"), "rejected");
    assert!(verdict("FB-26-07-4").is_null(), "blanks are evidence");
}
