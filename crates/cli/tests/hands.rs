//! Whose hand is on an act: known, said to be new, or not named; who may sign; corrections from the command line as the
//! forms make them.

use crate::desk::{Desk, LEAD};

const WHY: [&str; 2] = ["--why", "looked at on the day"];

/// Authors of the acts of a programme, in order, as its package lists them.
fn authors(desk: &Desk, store: &str, out: &str) -> Vec<String> {
    desk.run(&["export", store, "--out", out]).done();
    let mut acts = csv::Reader::from_path(desk.path(out).join("events.csv")).unwrap();
    let author = acts.headers().unwrap().iter().position(|h| h == "author").unwrap();
    acts.records().map(|row| row.unwrap()[author].to_string()).collect()
}

#[test]
fn a_mistyped_name_is_refused_and_the_nearest_is_named() {
    let desk = Desk::with_programme();
    let head = desk.head("p.sqlite");
    desk.file("w.csv", "name\nSL-9\n");
    let acts: [&[&str]; 7] = [
        &["exclude", "p.sqlite", "FB-26-07-1", "--why", "x"],
        &["sign", "p.sqlite", LEAD, "--why", "x"],
        &["recompute", "p.sqlite"],
        &["import", "p.sqlite", "w.csv", "--mapping", "wells"],
        &["correct", "p.sqlite", "well", "SL-1", "description", "x", "--why", "x"],
        &["settle", "p.sqlite", "FB-26-07-1", "acid_mL", "1", "--why", "x"],
        &["checks", "p.sqlite", "--all-new", "--why", "x"],
    ];
    for act in acts {
        let err = desk.run(&[act, &["--as", "Marit Oks"]].concat()).fails(1, &["Marit Oks", "--new-person"]);
        let (marit, ines) = (err.find("Marit Osk").unwrap(), err.find("Ines Varga").unwrap());
        assert!(marit < ines, "the nearest first: {err}");
        desk.run(&[act, &["--as", " "]].concat()).fails(1, &[]);
        desk.run(&[act, &["--new-person"]].concat()).fails(2, &["--as"]);
    }
    assert_eq!(desk.head("p.sqlite"), head, "nothing was written");
}

#[test]
fn somebody_new_comes_on_record_with_the_first_act_and_needs_no_word_again() {
    let desk = Desk::with_programme();
    desk.file("w.csv", "name\nSL-9\n");
    let import = ["import", "p.sqlite", "w.csv", "--mapping", "wells", "--as", "Ada Lund"];
    desk.run(&import).fails(1, &["Ada Lund"]);
    desk.run(&[&import[..], &["--new-person"]].concat()).done();
    let told = desk.run(&["results", "p.sqlite", "--json"]).json();
    assert!(!told["warnings"].to_string().contains("not yet derived"), "{}", told["warnings"]);
    desk.run(&["exclude", "p.sqlite", "FB-26-07-1", "--as", "Ada Lund", "--why", "a gust"]).done();
    let twice = ["exclude", "p.sqlite", "FB-26-07-2", "--as", "Ada Lund", "--why", "a gust", "--new-person"];
    desk.run(&twice).fails(1, &["Ada Lund, who is on record"]);
    desk.run(&["verify", "p.sqlite"]).done();
}

#[test]
fn without_a_name_an_act_stands_as_not_named() {
    let desk = Desk::with_raw();
    desk.run(&["new", "p.sqlite"]).done();
    desk.run(&["import", "p.sqlite", "raw/people.csv", "--mapping", "people"]).done();
    desk.run(&["recompute", "p.sqlite"]).done();
    let all = authors(&desk, "p.sqlite", "out");
    assert!(all.len() >= 2 && all.iter().all(|a| a == "not named"), "{all:?}");
}

#[test]
fn who_signs_is_named_and_has_the_role() {
    let desk = Desk::with_programme();
    let sign = |who: &[&str]| desk.run(&[&["sign", "p.sqlite", LEAD][..], &WHY, who].concat());
    sign(&[]).fails(2, &["--as"]);
    // The sheet of people calls him a sampler.
    sign(&["--as", "Tobin Rell"]).fails(1, &["the role of Tobin Rell", "sampler, dirty hands", "lead or analyst"]);
    sign(&["--as", "Ada Lund", "--new-person"]).fails(1, &[]);
    assert!(!desk.run(&["case", "p.sqlite", LEAD]).done().contains("signed by"));
    let role = ["correct", "p.sqlite", "person", "Tobin Rell", "role", "analyst", "--as", "Marit Osk"];
    desk.run(&[&role[..], &WHY].concat()).done();
    sign(&["--as", "Tobin Rell"]).done();
    assert!(desk.run(&["case", "p.sqlite", LEAD]).done().contains("signed by Tobin Rell"));
    desk.run(&["verify", "p.sqlite"]).done();
}

#[test]
fn a_correction_keeps_what_stood_and_everything_follows() {
    let desk = Desk::with_programme();
    let of = |cells: &[&'static str]| [&["correct", "p.sqlite"], cells, &WHY[..], &["--as", "Marit Osk"]].concat();
    let before = desk.run(&["case", "p.sqlite", LEAD, "--json"]).json();
    // Half the acid: what it brought into the bottle was half as much, and it thinned the water less.
    let done = desk.run(&of(&["bottle", "SL2-26-07-A", "acid_mL", "0.25"])).done();
    assert!(done.contains("bottle SL2-26-07-A, acid_mL: 0.25 from now on"), "{done}");
    let after = desk.run(&["case", "p.sqlite", LEAD, "--json"]).json();
    assert_ne!(before["derivation"], after["derivation"], "the derivation reads the acid");
    let head = desk.head("p.sqlite");
    let again = desk.run(&of(&["bottle", "SL2-26-07-A", "acid_mL", "0.25"])).done();
    assert!(again.contains("reads so already"), "{again}");
    assert_eq!(desk.head("p.sqlite"), head);
    desk.run(&of(&["bottle", "SL2-26-07-A", "acid_mL", "-1"])).fails(1, &["acid_mL"]);
    desk.run(&of(&["bottle", "SL2-26-07-A", "acid", "no such lot"])).fails(1, &["acid"]);
    desk.run(&of(&["bottle", "SL2-26-07-A", "label", "X"])).fails(1, &["name"]);
    desk.run(&of(&["bottle", "SL2", "acid_mL", "1"])).fails(1, &["no row \"bottle SL2\"", "of "]);
    desk.run(&of(&["result", "1", "value", "1"])).fails(1, &["no table \"result\"", "bottle"]);
    desk.run(&of(&["fill", "1", "seconds", ""])).fails(1, &["seconds"]);
    desk.run(&of(&["fill", "1", "seconds", "8.5"])).done();
    let silent = ["correct", "p.sqlite", "fill", "1", "seconds", "8.6", "--why", " ", "--as", "Marit Osk"];
    desk.run(&silent).fails(1, &["the reason"]);
    desk.run(&["verify", "p.sqlite"]).done();
}
