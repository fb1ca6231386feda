//! One accounting: results, case, picture, report, attribution and statements of the demo tell the same parts of the lead
//! in a bottle, and a value that is an upper bound bears no sentence that needs its lower end.

use crate::desk::{Desk, demo, demo_words};
use serde_json::Value;
use std::fs;

fn result(all: &Value, bottle: &str) -> Value {
    let of = |r: &&Value| r["bottle"] == bottle && r["analyte"] == "Pb";
    all["results"].as_array().unwrap().iter().find(of).unwrap_or_else(|| panic!("{bottle}")).clone()
}

fn part<'a>(result: &'a Value, name: &str) -> &'a Value {
    let parts = result["accounting"]["parts"].as_array().unwrap();
    parts.iter().find(|p| p["part"] == name).unwrap_or_else(|| panic!("{name} in {result:#}"))
}

/// The words of the picture of a bottle's path.
fn picture(bottle: &str) -> String {
    let name = format!("report/figures/path-{}-pb.svg", bottle.to_lowercase());
    let svg = fs::read_to_string(demo().join(name)).unwrap();
    svg[svg.find("<desc").unwrap()..svg.find("</desc>").unwrap()].replace("&#39;", "'").replace("&apos;", "'")
}

/// The first number behind a text.
fn number_after(text: &str, mark: &str) -> f64 {
    let from = text.find(mark).unwrap_or_else(|| panic!("{mark:?} is not in {text}")) + mark.len();
    let digits: String = text[from..]
        .chars()
        .skip_while(|c| !c.is_ascii_digit())
        .take_while(|c| c.is_ascii_digit() || *c == '.' || *c == '\u{202F}')
        .filter(|c| *c != '\u{202F}')
        .collect();
    digits.trim_end_matches('.').parse().unwrap_or_else(|_| panic!("{digits:?} after {mark:?} in {text}"))
}

#[test]
fn every_surface_tells_the_same_parts() {
    let desk = Desk::with_programme();
    let all = desk.run(&["results", "p.sqlite", "--json"]).json();
    let page = fs::read_to_string(demo().join("report/report.html")).unwrap().replace("&#39;", "'");
    for bottle in ["SL1-26-07-A", "SL2-26-07-A", "SL3-26-07-A"] {
        let listed = result(&all, bottle);
        let case = desk.run(&["case", "p.sqlite", &format!("{bottle}:Pb:206+207+208@low:unfiltered"), "--json"]).json();
        assert_eq!(case["accounting"], listed["accounting"], "{bottle}");
        let share = &listed["water_share"];
        assert_eq!(part(&listed, "aquifer")["share"]["share"], share["share"], "{bottle}");
        let is = &share["is"].as_str().unwrap().replace('\'', "’");
        let words = picture(bottle);
        // The picture's water is the accounting's part: its value, or its upper end, rounded up to two digits.
        let drawn = number_after(&words, &format!("{is}: "));
        let bound = part(&listed, "aquifer")["told"] == "at-most";
        let pg = &part(&listed, "aquifer")[if bound { "interval_pg" } else { "value_pg" }];
        let pg = if bound { pg[1].as_f64().unwrap() } else { pg.as_f64().unwrap() };
        assert!(drawn >= pg * 0.995 && drawn <= pg * 1.1, "{bottle}: {drawn} against {pg}");
        // A stage that no blank met is hollow.
        assert_eq!(words.contains("not measured here"), bottle != "SL2-26-07-A", "{words}");
        let said = format!("{:.2}", share["share"].as_f64().unwrap());
        assert!(page.contains(&said) && page.contains(is), "{bottle}: {said} {is}");
    }
}

#[test]
fn a_bound_bears_no_sentence_that_needs_its_lower_end() {
    let words = demo_words();
    let ratio = words.lines().find(|l| l.contains("asked:") && l.contains("SL-1")).unwrap_or_else(|| panic!("{words}"));
    assert!(ratio.contains("cannot tell"), "{ratio}");
    for line in words.lines().filter(|l| l.starts_with("SL-1")) {
        assert!(line.contains("at most"), "{line}");
    }
    let desk = Desk::with_programme();
    let words = desk.run(&["case", "p.sqlite", "SL1-26-07-A:Pb:206+207+208@low:unfiltered"]).done();
    assert!(words.contains("at most 2.7") && words.contains("2.621") && words.contains("2.68"), "{words}");
}
