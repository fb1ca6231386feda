//! Looking at results: filters against the whole list, a table of a terminal's width, the wide form, files for
//! spreadsheets (read back with other readers), names as short as they can be.

use crate::desk::{Desk, LEAD};
use calamine::{Data, Reader as _, open_workbook_auto};
use serde_json::Value;
use std::collections::BTreeMap;

fn results(desk: &Desk, filters: &[&str]) -> Vec<Value> {
    let document = desk.run(&[&["results", "p.sqlite", "--json"], filters].concat()).json();
    document["results"].as_array().unwrap().clone()
}

#[test]
fn filters_leave_what_a_person_would_pick_from_the_whole_list() {
    let desk = Desk::with_programme();
    let all = results(&desk, &[]);
    let text = |r: &Value, key: &str| r[key].as_str().unwrap_or("none").to_string();
    let day = |r: &Value| text(r, "filled_at").chars().take(10).collect::<String>();
    let check = |filters: &[&str], picked: &dyn Fn(&Value) -> bool| {
        let expected: Vec<&Value> = all.iter().filter(|r| picked(r)).collect();
        assert!(!expected.is_empty() && expected.len() < all.len(), "{filters:?} picks nothing or all");
        assert_eq!(results(&desk, filters).iter().collect::<Vec<_>>(), expected, "{filters:?}");
    };
    check(&["--well", "SL-2"], &|r| r["well"] == "SL-2");
    check(&["--well", "SL-2", "--well", "SL-3"], &|r| r["well"] == "SL-2" || r["well"] == "SL-3");
    check(&["--analyte", "Pb", "--well", "SL-1"], &|r| r["analyte"] == "Pb" && r["well"] == "SL-1");
    check(&["--verdict", "provisional"], &|r| r["verdict"] == "provisional");
    check(&["--verdict", "none"], &|r| r["verdict"].is_null());
    let days: std::collections::BTreeSet<String> = all.iter().map(day).filter(|d| d != "none").collect();
    let last = days.last().unwrap();
    check(&["--from", last], &|r| day(r) != "none" && day(r) >= *last);
    check(&["--to", last], &|r| day(r) != "none" && day(r) <= *last);
}

#[test]
fn a_filter_that_nothing_can_meet_is_refused() {
    let desk = Desk::with_programme();
    for (filter, parts) in [
        (["--well", "SL-7"], ["no well \"SL-7\"", "SL-1"]),
        (["--analyte", "Lead"], ["no analyte \"Lead\"", "and "]),
        (["--trip", "x"], ["no trip \"x\"", "SL-2026-07"]),
        (["--fraction", "wet"], ["no fraction \"wet\"", "unfiltered"]),
        (["--verdict", "good"], ["\"good\"", "accepted"]),
        (["--from", "May"], ["\"May\"", "2026-07-14"]),
    ] {
        let ran = desk.run(&[&["results", "p.sqlite"][..], &filter].concat());
        assert_eq!(ran.out, "", "{filter:?}");
        ran.fails(1, &parts);
    }
}

#[test]
fn tables_fit_a_terminal_and_their_names_lead_to_their_cases() {
    let desk = Desk::with_programme();
    let table = desk.run(&["results", "p.sqlite", "--well", "SL-2", "--analyte", "Pb"]).done();
    assert!(table.lines().any(|l| l.starts_with("SL2-26-07-A:Pb ")), "{table}");
    let all = desk.run(&["results", "p.sqlite"]).done();
    let body: Vec<&str> = all.lines().skip(1).take_while(|l| !l.is_empty()).collect();
    assert!(body.len() > 300);
    assert!(body.iter().all(|l| l.chars().count() <= 80), "{:?}", body.iter().max_by_key(|l| l.chars().count()));
    let wide = desk.run(&["results", "p.sqlite", "--wide"]).done();
    assert!(wide.lines().take_while(|l| !l.starts_with('<')).all(|l| l.chars().count() <= 80), "{wide}");
    // Every tenth of them.
    for name in body.iter().filter(|l| !l.starts_with(' ')).step_by(10) {
        let name = name.split("  ").next().unwrap();
        let case = desk.run(&["case", "p.sqlite", name, "--json"]).json();
        assert!(case["result"].as_str().unwrap().starts_with(name), "{name}");
    }
}

#[test]
fn the_beginning_of_a_name_is_enough_where_one_result_alone_has_it() {
    let desk = Desk::with_programme();
    let short = desk.run(&["case", "p.sqlite", "SL2-26-07-A:Pb"]).done();
    assert_eq!(short, desk.run(&["case", "p.sqlite", LEAD]).done());
    // A beginning ends where a part of the name does.
    desk.run(&["case", "p.sqlite", "SL2-26-07-A:P"]).fails(1, &["no result \"SL2-26-07-A:P\""]);
    let err = desk.run(&["case", "p.sqlite", "SL2-26-07-A"]).fails(1, &["begin so", LEAD]);
    assert!(err.matches("SL2-26-07-A:").count() > 2, "{err}");
}

#[test]
fn the_wide_form_holds_each_result_of_a_well_once() {
    let desk = Desk::with_programme();
    desk.run(&["results", "p.sqlite", "--wide", "--csv", "wide.csv"]).done();
    let mut reader = csv::Reader::from_path(desk.path("wide.csv")).unwrap();
    let headings = reader.headers().unwrap().clone();
    let mut cells: BTreeMap<(String, String), usize> = BTreeMap::new();
    for row in reader.records() {
        let row = row.unwrap();
        for (heading, cell) in headings.iter().zip(&row).skip(2).filter(|(_, c)| !c.is_empty()) {
            let analyte = heading.split(" (").next().unwrap().to_string();
            *cells.entry((row[0].to_string(), analyte)).or_default() += cell.split("; ").count();
        }
    }
    let of_waters = results(&desk, &[]).into_iter().filter(|r| r["verdict"].is_string() && r["well"].is_string());
    assert_eq!(cells.values().sum::<usize>(), of_waters.count());
    let lead = results(&desk, &["--well", "SL-2", "--analyte", "Pb"]);
    let judged = lead.iter().filter(|r| r["verdict"].is_string()).count();
    let told: usize = cells.iter().filter(|((w, a), _)| w == "SL-2" && a.starts_with("Pb")).map(|(_, n)| n).sum();
    assert_eq!(told, judged);
}

#[test]
fn files_for_spreadsheets_hold_the_same_rows_and_numbers_as_numbers() {
    let desk = Desk::with_programme();
    let filters = ["results", "p.sqlite", "--well", "SL-2"];
    desk.run(&[&filters[..], &["--csv", "r.csv", "--xlsx", "r.xlsx"]].concat()).done();
    desk.run(&[&filters[..], &["--xlsx", "again.xlsx"]].concat()).done();
    let bytes = |name: &str| std::fs::read(desk.path(name)).unwrap();
    assert!(bytes("r.xlsx") == bytes("again.xlsx"), "the same rows are the same bytes");
    let mut reader = csv::Reader::from_path(desk.path("r.csv")).unwrap();
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let expected = results(&desk, &["--well", "SL-2"]);
    assert_eq!(rows.len(), expected.len());
    let place = |name: &str| reader.headers().unwrap().iter().position(|h| h == name).unwrap();
    let [value, sign, unit, name] = ["value", "sign", "unit", "result"].map(place);
    let mut book = open_workbook_auto(desk.path("r.xlsx")).unwrap();
    let range = book.worksheet_range("results").unwrap();
    for (n, (row, r)) in rows.iter().zip(&expected).enumerate() {
        assert_eq!(&row[name], r["result"].as_str().unwrap());
        let a = &r["amount"];
        let (found, number) = match (a["value"].as_f64(), a["below"].as_f64()) {
            (Some(v), _) => ("", v),
            (None, Some(b)) => ("<", b),
            (None, None) => continue,
        };
        let shown: f64 = row[value].parse().unwrap();
        // Two digits of U decide how many are shown, so a value may differ by half a last place: at most a twentieth of U.
        let half = a["u"].as_f64().map_or(0.0, |u| r["coverage_k"].as_f64().unwrap() * u / 20.0);
        assert!((shown - number).abs() <= half.max(1e-12 * number.abs()), "{row:?} {a}");
        assert_eq!((&row[sign], &row[unit]), (found, a["unit"].as_str().unwrap()));
        let cell = range.get_value((u32::try_from(n + 1).unwrap(), u32::try_from(value).unwrap()));
        assert_eq!(cell, Some(&Data::Float(shown)), "{row:?}");
    }
}
