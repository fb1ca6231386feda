//! A programme's life by hand: new, import, look, take out, sign, verify, backup, restore, tell.

use crate::desk::{Desk, LEAD, demo, masked};
use std::fs;

#[test]
fn files_taken_in_by_hand_give_the_results_of_the_demo() {
    let desk = Desk::with_raw();
    let made = desk.run(&["new", "p.sqlite"]).done();
    assert!(made.contains("an empty programme"), "{made}");
    desk.run(&["import", "p.sqlite", "raw/bundle.toml", "--mapping", "bundle"]).done();
    let why = "the cap touched the sleeve";
    desk.run(&["exclude", "p.sqlite", "FB-26-07-4", "--as", "Marit Osk", "--why", why]).done();
    let mine = desk.run(&["results", "p.sqlite"]).done();
    let other = Desk::with_programme().run(&["results", "p.sqlite"]).done();
    assert_eq!(mine, other);
    assert!(mine.lines().count() > 300);
}

#[test]
fn the_same_file_twice_changes_nothing() {
    let desk = Desk::with_raw();
    desk.run(&["import", "p.sqlite", "raw/bundle.toml", "--new"]).done();
    let head = desk.head("p.sqlite");
    let again = desk.run(&["import", "p.sqlite", "raw/bundle.toml"]).done();
    assert!(again.lines().all(|l| l.contains("taken in before") && l.contains("nothing changed")), "{again}");
    desk.run(&["import", "p.sqlite", "raw/bottles.csv", "--mapping", "bottles"]).done();
    assert_eq!(desk.head("p.sqlite"), head);
}

#[test]
fn deriving_again_changes_nothing() {
    let desk = Desk::with_programme();
    let head = desk.head("p.sqlite");
    let all = desk.run(&["recompute", "p.sqlite"]).done();
    assert!(all.contains("0 written") && all.contains("verdicts written: 0"), "{all}");
    let one = desk.run(&["recompute", "p.sqlite", "SL-R-2607"]).done();
    assert!(one.contains("0 written"), "{one}");
    assert_eq!(desk.head("p.sqlite"), head);
    desk.run(&["recompute", "p.sqlite", "SL-R-1"]).fails(1, &["no run \"SL-R-1\"", "SL-R-2607"]);
}

#[test]
fn a_blank_taken_out_that_moves_no_value_is_in_the_derivations_and_verifies() {
    let desk = Desk::with_programme();
    // Each says of another blank how many stand beside it; for some of them no value changes.
    for blank in ["FB-26-07-1", "FB-26-07-2"] {
        desk.run(&["exclude", "p.sqlite", blank, "--as", "Marit Osk", "--why", "a gust"]).done();
        desk.run(&["verify", "p.sqlite"]).done();
    }
    desk.run(&["exclude", "p.sqlite", "FB-26-07-1", "--back", "--as", "Marit Osk", "--why", "no gust"]).done();
    desk.run(&["verify", "p.sqlite"]).done();
    let head = desk.head("p.sqlite");
    let again = desk.run(&["recompute", "p.sqlite"]).done();
    assert!(again.contains("0 written") && again.contains("verdicts written: 0"), "{again}");
    assert_eq!(desk.head("p.sqlite"), head);
}

/// The verdict of a result as `case` prints it.
#[track_caller]
fn verdict(desk: &Desk, result: &str) -> String {
    let words = desk.run(&["case", "p.sqlite", result]).done();
    words.lines().find_map(|l| l.strip_prefix("verdict: ")).unwrap().to_string()
}

#[test]
fn what_a_person_takes_out_is_rejected_and_comes_back() {
    let desk = Desk::with_programme();
    for what in ["SL-R-2607/36/Pb208", "SL-R-2607/36", "SL2-26-07-A", "SL2-26-07-A/Pb206"] {
        let by = ["--as", "Marit Osk", "--why", "a doubt about the cap"];
        let out = desk.run(&[&["exclude", "p.sqlite", what][..], &by].concat()).done();
        assert!(out.starts_with(&format!("{what} is out of the evidence: a doubt about the cap (Marit Osk)")), "{out}");
        assert_eq!(verdict(&desk, LEAD), "rejected: number.excluded", "{what}");
        desk.run(&[&["exclude", "p.sqlite", what, "--back"][..], &by].concat()).done();
        assert_eq!(verdict(&desk, LEAD), "accepted", "{what}");
    }
    desk.run(&["verify", "p.sqlite"]).done();
}

/// Atrazine is 1912-24-9 (from memory); the demo's laboratory wrote a last digit that cannot be.
#[test]
fn a_wrong_number_of_a_compound_is_corrected_by_a_person() {
    let desk = Desk::with_programme();
    let by = ["--as", "Ines Varga", "--why", "slip of the laboratory"];
    let wrong = desk.run(&[&["cas-number", "p.sqlite", "atrazine", "1912-24-7"][..], &by].concat());
    assert!(wrong.err.contains("check digit 9"), "{}", wrong.err);
    let done = desk.run(&[&["cas-number", "p.sqlite", "atrazine", "1912-24-9"][..], &by].concat()).done();
    assert_eq!(done, "atrazine: 1912-24-9 from now on: slip of the laboratory (Ines Varga)\n");
    desk.run(&["verify", "p.sqlite"]).done();
}

#[test]
fn the_values_of_wells_stand_in_a_table_and_a_document() {
    let desk = Desk::with_programme();
    let document = desk.run(&["results", "p.sqlite", "--wells", "--json"]).json();
    let wells = document["wells"].as_array().unwrap();
    let lead = |well: &str| wells.iter().find(|w| w["well"] == well && w["analyte"] == "Pb").unwrap();
    let two = lead("SL-2");
    assert_eq!((two["told"].as_str(), two["bottles"].as_array().map(Vec::len)), (Some("value"), Some(3)), "{two}");
    assert!(two["put_back"]["told"] == "value" && two["fraction"] == "unfiltered" && two["u_shared"].is_number());
    assert_eq!(lead("SL-3")["told"], "no-number");
    let table = desk.run(&["results", "p.sqlite", "--wells"]).done();
    let row = table.lines().find(|l| l.starts_with("SL-3") && l.contains("Pb 206")).unwrap();
    assert!(row.contains("44.2") && row.contains("64.5") && row.contains("rejected"), "{row}");
}

#[test]
fn a_bottle_that_a_laboratory_reported_is_taken_out_too() {
    let desk = Desk::with_programme();
    let of = |bottle: &str| format!("{bottle}:Ca:@:unfiltered");
    desk.run(&["exclude", "p.sqlite", "SL1-26-07-M", "--as", "Marit Osk", "--why", "cracked cap"]).done();
    assert_eq!(verdict(&desk, &of("SL1-26-07-M")), "rejected: number.excluded");
    let words = desk.run(&["case", "p.sqlite", &of("SL1-26-07-M")]).done();
    assert!(words.contains("Taken out of the evidence: cracked cap (Marit Osk)"), "{words}");
    assert!(verdict(&desk, &of("SL2-26-07-M")).starts_with("provisional"));
}

#[test]
fn taking_out_what_is_not_there_is_refused() {
    let desk = Desk::with_programme();
    let by = ["--as", "Marit Osk", "--why", "a doubt"];
    let refused = |what: &str, parts: &[&str]| {
        desk.run(&[&["exclude", "p.sqlite", what][..], &by].concat()).fails(1, parts);
    };
    let head = desk.head("p.sqlite");
    refused("SL-R-2607/36/Pb209", &["no reading \"SL-R-2607/36/Pb209\"", "Pb208"]);
    refused("SL2-26-07-A/Pb20", &["no reading", "Pb208"]);
    refused("SL2-26-07-M/Ca", &["no isotope of it was read"]);
    refused("SL-R-2607/99", &["no vial", "run/position"]);
    refused("nowhere", &["no bottle or run \"nowhere\""]);
    desk.run(&["exclude", "p.sqlite", "SL2-26-07-A", "--as", "Ines Varga", "--why", " "]).fails(1, &["the reason"]);
    assert_eq!(desk.head("p.sqlite"), head);
}

#[test]
fn a_signature_lifts_warnings_and_nothing_else() {
    let desk = Desk::with_programme();
    let sign = |result: &str| {
        desk.run(&["sign", "p.sqlite", result, "--as", "Ines Varga", "--why", "cabinet seen on the day"]).done()
    };
    let warned = "SL1-26-07-A:Pb:206+207+208@low:unfiltered";
    let before = verdict(&desk, warned);
    let out = sign(warned);
    let after = verdict(&desk, warned);
    assert!(before.contains("air.class") && !after.contains("air.class"), "{before} → {after}");
    assert!(out.contains(&format!("verdict: {after}")), "{out}");
    let rejected = "SL3-26-07-A:Pb:206+207+208@low:unfiltered";
    assert!(sign(rejected).contains("verdict: rejected: number.duplicates"));
    let case = desk.run(&["case", "p.sqlite", rejected]).done();
    assert!(case.contains("signed by Ines Varga: cabinet seen on the day"), "{case}");
    desk.run(&["sign", "p.sqlite", "FB-26-07-1:Pb:206+207+208@low:unfiltered", "--as", "Ines Varga", "--why", "x"])
        .fails(1, &["evidence that gets none"]);
}

#[test]
fn the_case_begins_with_the_number_and_ends_in_counts() {
    let desk = Desk::with_programme();
    let case = desk.run(&["case", "p.sqlite", LEAD]).done();
    let head: Vec<&str> = case.lines().take_while(|l| !l.starts_with("Uncertainty budget")).collect();
    insta::assert_snapshot!(masked(&head.join("\n")));
    for part in
        ["Uncertainty budget", "From the number down to the counts", "[run \"SL-R-2607\", position 36: replicates"]
    {
        assert!(case.contains(part), "{part}");
    }
    let slip = "SL2-26-07-A:Pb:206+207+208@lw:unfiltered";
    let near = desk.run(&["case", "p.sqlite", slip]).fails(1, &["no result", slip]);
    let named = near.split("among them ").nth(1).unwrap();
    assert!(named.starts_with(LEAD), "the nearest first: {named}");
}

#[test]
fn a_backup_is_the_programme() {
    let desk = Desk::with_programme();
    let head = desk.head("p.sqlite");
    let out = desk.run(&["backup", "p.sqlite", "copy.limpid"]).done();
    assert!(out.contains(&head));
    desk.run(&["restore", "copy.limpid", "again.sqlite"]).done();
    assert_eq!(desk.head("again.sqlite"), head);
    let results = |store: &str| desk.run(&["results", store]).done();
    assert_eq!(results("p.sqlite"), results("again.sqlite"));
    desk.run(&["backup", "p.sqlite", "copy.limpid"]).fails(1, &["exists already"]);
    desk.run(&["restore", "copy.limpid", "p.sqlite"]).fails(1, &["exists already"]);
}

#[test]
fn report_and_export_write_what_they_name() {
    let desk = Desk::new();
    // The name of the file is the title of the report.
    fs::copy(demo().join("sallow-levels.sqlite"), desk.path("sallow-levels.sqlite")).unwrap();
    let named = desk.run(&["report", "sallow-levels.sqlite", "--out", "told"]).done();
    assert!(named.lines().all(|l| desk.path(l).is_file()) && named.lines().count() > 3, "{named}");
    let pdf = |p| fs::read(p).unwrap();
    assert!(pdf(desk.path("told/report.pdf")) == pdf(demo().join("report/report.pdf")), "the demo's report, again");
    let named = desk.run(&["export", "sallow-levels.sqlite", "--out", "data"]).done();
    let (files, summary) = named.trim_end().rsplit_once('\n').unwrap();
    assert!(summary.contains(&desk.head("sallow-levels.sqlite")), "{summary}");
    assert!(files.lines().all(|l| desk.path(l).is_file()), "{files}");
    for line in files.lines().filter(|l| l.matches('/').count() == 1 && l.split('.').nth(1) == Some("csv")) {
        let mut table = csv::Reader::from_path(desk.path(line)).unwrap();
        let rows: Vec<_> = table.records().collect::<Result<_, _>>().unwrap();
        assert!(!rows.is_empty(), "{line} is empty");
    }
    let results = fs::read_to_string(desk.path("data/results.csv")).unwrap();
    assert!(results.contains("SL2-26-07-A"));
    assert!(!results.to_lowercase().contains("nan"));
    // Words, because a sign in front would be taken for a formula by a spreadsheet.
    assert!(results.contains(",not-detected,below,") && results.contains(",quantified,equal,"), "censored in words");
}

#[test]
fn real_tables_in_two_commands() {
    let desk = Desk::new();
    let bundle = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/real/bundle.toml");
    let out = desk.run(&["import", "real.sqlite", bundle, "--new"]).done();
    assert!(!out.contains("derived from counts"), "no counts came: {out}");
    desk.run(&["report", "real.sqlite", "--out", "told"]).done();
    assert!(fs::read(desk.path("told/report.pdf")).unwrap().starts_with(b"%PDF-"));
    let document = desk.run(&["results", "real.sqlite", "--json"]).json();
    let results = document["results"].as_array().unwrap();
    assert!(results.len() > 1500);
    for r in results {
        assert_eq!(r["verdict"].is_null(), r["kind"] == "field-blank", "{r}");
        assert!(r["verdict"] != "provisional" || !r["reasons"].as_array().unwrap().is_empty(), "provisional, and why");
    }
    desk.run(&["verify", "real.sqlite"]).done();
}

/// The EU's lead is 10 µg/L until 2036-01-11 and 5 from 2036-01-12 (reference/drinking_water_limits.csv).
#[test]
fn limits_are_those_of_a_day_and_the_day_is_printed() {
    let desk = Desk::with_programme();
    let ask = |more: &[&str]| {
        let document = desk.run(&[&["limits", "p.sqlite", "--authority", "EU", "--json"], more].concat()).json();
        let rows = document["rows"].as_array().unwrap().clone();
        let lead = rows.into_iter().find(|r| r["result"].as_str().unwrap().starts_with(LEAD) && r["local"] == false);
        let lead = lead.unwrap();
        (lead["on"].clone(), lead["limit"]["high"].as_f64().unwrap())
    };
    assert_eq!(ask(&[]), ("2026-07-14".into(), 10.0));
    assert_eq!(ask(&["--date", "2036-01-12"]), ("2036-01-12".into(), 5.0));
    let words = desk.run(&["limits", "p.sqlite", "--date", "2036-01-12"]).done();
    assert!(words.contains("2036-01-12"), "{words}");
    let own = desk.run(&["limits", "p.sqlite"]).done();
    assert!(own.contains("2026-07-14") && !own.contains("2036-01-12"), "{own}");
    desk.run(&["limits", "p.sqlite", "--date", "14.07.2026"]).fails(2, &["14.07.2026", "YYYY-MM-DD"]);
}

#[test]
fn the_table_of_checks_is_shown_and_rules_are_taken_in_by_an_act() {
    let desk = Desk::with_programme();
    let told = desk.run(&["checks", "p.sqlite"]).done();
    assert!(told.contains("number.recovery") && !told.contains("not in the table"), "{told}");
    let document = desk.run(&["checks", "p.sqlite", "--json"]).json();
    assert_eq!(document["not_in_the_table"], 0);
    let all = document["checks"].as_array().unwrap();
    assert!(all.iter().all(|c| c["stand"] == "same") && all.len() > 100, "{}", all.len());
    // A rule of one's own, then that of this version again.
    desk.file(
        "own.csv",
        "check_name,revision,weight,limit_value,limit_unit,why\nwell.flow,2,note,5,%,Ours are steady\n",
    );
    desk.run(&["import", "p.sqlite", "own.csv", "--mapping", "checks"]).done();
    let told = desk.run(&["checks", "p.sqlite"]).done();
    let line = told.lines().find(|l| l.starts_with("well.flow ")).unwrap();
    assert!(line.contains("5 %") && line.contains("10 %") && line.ends_with("differs"), "{line}");
    let take = |name: &str| {
        ["checks", "p.sqlite", "--take", name, "--why", "as all others", "--as", "Marit Osk"].map(String::from)
    };
    let run = |name: &str| desk.run(&take(name).each_ref().map(String::as_str));
    assert!(run("well.flow").done().contains("taken into the table of checks: well.flow (Marit Osk: as all others)"));
    run("well.flow").fails(1, &["well.flow", "as it is"]);
    run("well.flaw").fails(1, &["well.flaw", "well.flow"]);
    desk.run(&["checks", "p.sqlite", "--all-new", "--why", "w", "--as", "Marit Osk"]).fails(1, &["none"]);
    desk.run(&["checks", "p.sqlite", "--all-new"]).fails(2, &["--why"]);
    desk.run(&["verify", "p.sqlite"]).done();
}
