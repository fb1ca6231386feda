//! `limpid lots`, `limpid attribution`, `limpid plan`: what they say of the demo, what they make, and what they refuse.

use crate::desk::Desk;
use std::fs;

#[test]
fn lots_say_which_may_go_out() {
    let desk = Desk::with_programme();
    let words = desk.run(&["lots", "p.sqlite"]).done();
    assert!(words.contains("lot 14") && words.contains("21 days in acid") && words.contains("bags 2"), "{words}");
    let document = desk.run(&["lots", "p.sqlite", "--json"]).json();
    let metals = document["lots"][0]["metals"].as_array().unwrap();
    assert!(metals.iter().any(|m| m["analyte"] == "Pb" && m["target_pg"] == 15.0), "{metals:?}");
    desk.run(&["new", "empty.sqlite"]).done();
    assert!(desk.run(&["lots", "empty.sqlite"]).done().contains("No lot"));
}

#[test]
fn attribution_names_what_cannot_be_told() {
    let desk = Desk::with_programme();
    let words = desk.run(&["attribution", "p.sqlite", "--analyte", "Pb"]).done();
    for part in [
        "bottle and acid",
        "days in the bottle: not on record",
        "a field blank opened in the open air",
        "the points lie on a line",
    ] {
        assert!(words.contains(part), "{part:?} is not in:\n{words}");
    }
    desk.run(&["attribution", "p.sqlite", "--json"]).json();
    desk.run(&["attribution", "p.sqlite", "--analyte", "Au"]).fails(1, &["Au"]);
    let results = desk.run(&["results", "p.sqlite", "--json"]).json();
    let all = results["results"].as_array().unwrap();
    let own = all.iter().find(|r| r["bottle"] == "SL2-26-07-A" && r["analyte"] == "Pb").unwrap();
    assert_eq!(own["attributed"]["identifiable"], true);
    assert!(own["attributed"]["share_interval_95"][0].as_f64().unwrap() > 0.5, "{own}");
}

#[test]
fn a_plan_is_ranked_printed_and_made_a_trip() {
    let desk = Desk::with_programme();
    let example = desk.run(&["plan", "--example"]).done();
    desk.file("q.toml", &example);
    let document = desk.run(&["plan", "p.sqlite", "--question", "q.toml", "--json"]).json();
    assert!(document["designs"].as_array().is_some_and(|d| !d.is_empty()));
    assert!(document["from_record"].as_array().is_some_and(|d| d.len() > 3), "{document}");
    let made = desk.run(&[
        "plan",
        "p.sqlite",
        "--question",
        "q.toml",
        "--design",
        "1",
        "--make-trip",
        "SL-2027-07",
        "--starts",
        "2027-07-13",
        "--as",
        "Marit Osk",
        "--print",
        "pack.pdf",
    ]);
    assert!(made.err.contains("trip SL-2027-07 with"), "{}", made.err);
    let words = made.done();
    assert!(words.contains("To pack, design 1") && words.contains("From the record"), "{words}");
    assert!(fs::read(desk.path("pack.pdf")).unwrap().starts_with(b"%PDF-"));
    desk.run(&["verify", "p.sqlite"]).done();
    let again = [
        "plan",
        "p.sqlite",
        "--question",
        "q.toml",
        "--make-trip",
        "SL-2027-07",
        "--starts",
        "2027-07-13",
        "--as",
        "Marit Osk",
    ];
    desk.run(&again).fails(1, &["SL-2027-07", "on record already"]);
}

#[test]
fn questions_that_cannot_be_are_refused_by_name() {
    let desk = Desk::with_programme();
    let ask = |text: &str| {
        desk.file("q.toml", text);
        desk.run(&["plan", "p.sqlite", "--question", "q.toml"])
    };
    ask("analyte = \"Au\"\n[question]\nkind = \"detect\"\nlevel = 1").fails(1, &["Au"]);
    ask("wells = [\"SL-9\"]\n[question]\nkind = \"detect\"\nlevel = 1").fails(1, &["SL-9", "SL-1, SL-2, SL-3"]);
    ask("[question]\nkind = \"detect\"\nlevel = -1").fails(1, &["level of the question", "more than 0"]);
    ask("[question]\nkind = \"guess\"").fails(1, &["guess", "detect, limit, lower"]);
    ask("[question\nkind =").fails(1, &["the question", "--example"]);
    ask("[question]\nkind = \"detect\"\nlevel = 1\n[choices]\nminutes = [-1]").fails(1, &["minutes open", "0 or more"]);
    ask("[question]\nkind = \"detect\"\nlevel = 1\n[choices]\nvolume_ml = [0]")
        .fails(1, &["fill volume", "more than 0"]);
    ask("[question]\nkind = \"detect\"\nlevel = 1\n[choices]\nfield_blanks = [1]").fails(1, &["field blanks"]);
    desk.file("q.toml", "[question]\nkind = \"detect\"\nlevel = 1");
    desk.run(&["plan", "p.sqlite", "--question", "q.toml", "--design", "99"]).fails(1, &["99", "expected 1 to"]);
    desk.run(&[
        "plan",
        "p.sqlite",
        "--question",
        "q.toml",
        "--make-trip",
        "X",
        "--starts",
        "tomorrow",
        "--as",
        "Marit Osk",
    ])
    .fails(1, &["tomorrow"]);
    // Who makes it is on record, or said to be new.
    let made_by = |person: &str| {
        let trip = ["--make-trip", "X", "--starts", "2027-01-01", "--as", person];
        desk.run(&[&["plan", "p.sqlite", "--question", "q.toml"][..], &trip].concat())
    };
    made_by("Marit Os").fails(1, &["Marit Os", "Marit Osk", "--new-person"]);
    made_by("").fails(1, &["a name"]);
}
