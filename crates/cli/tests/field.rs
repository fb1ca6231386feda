//! The field sheet: its files, a phone's file taken in, differences and their settlement.

use crate::desk::Desk;
use serde_json::{Value, json};
use std::fs;

const TRIP: &str = "SL-2026-07";

/// A phone's file for the demo's trip, with what the sheet itself says of the programme.
fn saved(desk: &Desk, device: &str, entries: &Value) -> String {
    let html = fs::read_to_string(desk.path("sheet/field-sheet.html")).unwrap();
    let from = html.find("id=\"sheet\">").unwrap() + 11;
    let carried = &html[from..from + html[from..].find("</script>").unwrap()];
    let carried: Value = serde_json::from_str(carried).unwrap();
    json!({
        "format": "limpid-field-sheet", "version": 1, "sheet": carried["sheet"], "programme": carried["programme"],
        "trip": TRIP, "device": device, "exported_at": "2026-07-14T17:00:00+02:00", "entries": entries,
    })
    .to_string()
}

fn acid(ml: f64) -> Value {
    json!([{"n": 1, "at": "2026-07-14T12:20:00+02:00", "what": "bottle", "bottle": "FS2-26-07-1", "sets": {"acid_mL": ml}},
           {"n": 2, "at": "2026-07-14T12:21:00+02:00", "what": "bottle", "bottle": "NEW-1", "sets": {"kind": "field-blank", "acid_mL": ml}}])
}

#[test]
fn a_trip_gets_its_sheet_and_what_phones_bring_home_is_merged_and_settled() {
    let desk = Desk::with_programme();
    let said = desk.run(&["field-sheet", "p.sqlite", TRIP, "--out", "sheet"]).done();
    for file in ["field-sheet.html", "field-sheet.pdf", "labels.pdf"] {
        assert!(
            said.contains(file) && fs::metadata(desk.path(&format!("sheet/{file}"))).unwrap().len() > 10_000,
            "{said}"
        );
    }
    let bytes = fs::read(desk.path("sheet/field-sheet.html")).unwrap();
    desk.run(&["field-sheet", "p.sqlite", TRIP, "--out", "again"]).done();
    assert_eq!(fs::read(desk.path("again/field-sheet.html")).unwrap(), bytes, "same input, same bytes");
    assert_eq!(fs::read(desk.path("again/labels.pdf")).unwrap(), fs::read(desk.path("sheet/labels.pdf")).unwrap());

    fs::write(desk.path("one.json"), saved(&desk, "one", &acid(0.5))).unwrap();
    fs::write(desk.path("two.json"), saved(&desk, "two", &acid(0.7))).unwrap();
    let import = ["import", "p.sqlite", "one.json", "two.json", "--mapping", "field-sheet"];
    let said = desk.run(&import).done();
    assert!(said.contains("NEW-1, acid_mL: phone one says 0.5 (entry 2), phone two says 0.7 (entry 2)"), "{said}");
    let again = desk.run(&import).done();
    assert!(again.contains("taken in before"), "{again}");

    let told = desk.run(&["conflicts", "p.sqlite", "--json"]).json();
    let found: Vec<(&str, &Value)> =
        told["conflicts"].as_array().unwrap().iter().map(|c| (c["subject"].as_str().unwrap(), &c["stands"])).collect();
    assert_eq!(found, [("FS2-26-07-1", &json!("0.5")), ("NEW-1", &Value::Null)]);
    let settle = |bottle: &str, value: &str, why: &str| {
        desk.run(&["settle", "p.sqlite", bottle, "acid_mL", value, "--as", "Marit Osk", "--why", why])
    };
    settle("NEW-1", "0.7", " ").fails(1, &["the reason"]);
    settle("NEW-1", "much", "a slip").fails(1, &["acid_mL", "much"]);
    settle("NEW-1", "0.7", "the second pipette was the right one").done();
    settle("FS2-26-07-1", "0.5", "as the first phone says").done();
    assert_eq!(desk.run(&["conflicts", "p.sqlite"]).done(), "no field sheets differ\n");
    desk.run(&["verify", "p.sqlite"]).done();
}

#[test]
fn what_cannot_be_is_refused_by_name() {
    let desk = Desk::with_programme();
    desk.run(&["field-sheet", "p.sqlite", "nowhere", "--out", "sheet"]).fails(1, &["no trip \"nowhere\"", TRIP]);
    let wide = ["field-sheet", "p.sqlite", TRIP, "--out", "sheet", "--labels", "5", "8"];
    desk.run(&wide).fails(1, &["right edge of the labels", "210 mm"]);
    assert!(!desk.path("sheet").exists(), "nothing is half written");
    desk.run(&["field-sheet", "p.sqlite", TRIP, "--out", "sheet"]).done();
    let head = desk.head("p.sqlite");
    let whole = saved(&desk, "one", &acid(0.5));
    for (text, words) in [
        (whole[..whole.len() / 2].to_string(), "ends too early"),
        (whole.replace("2026-07-14T12", "2025-07-14T12"), "365 days before the start of the trip"),
        (
            whole.replace("\"name\":\"p\"", "\"name\":\"Other\"").replace("\"id\":\"", "\"id\":\"00"),
            "a sheet of the programme \"Other\"",
        ),
    ] {
        fs::write(desk.path("s.json"), text).unwrap();
        desk.run(&["import", "p.sqlite", "s.json", "--mapping", "field-sheet"]).fails(1, &["s.json", words]);
    }
    assert_eq!(desk.head("p.sqlite"), head);
}
