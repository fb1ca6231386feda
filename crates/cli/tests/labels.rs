//! Labels are other people's: any sign but control signs goes from the file to the package and back.

use crate::desk::Desk;
use serde_json::Value;
use std::fs;
use std::process::Command;

/// A label with all the signs that stand between the parts of a result's name, and more.
const LABEL: &str = "A:1#x@y/ü 100%";
/// As the name of a result writes it, and as that of a reading does.
const IN_RESULT: &str = "A%3A1#x@y/ü 100%";
const IN_READING: &str = "A:1#x@y%2Fü 100%";
/// A run whose name holds the sign before the position.
const RUN: &str = "R/26:07 #1";
const RUN_IN_READING: &str = "R%2F26:07 #1";

/// A text with a whole word of it changed: `SL2-26-07-A`, not the beginning of `SL2-26-07-AB`.
fn changed(text: &str, word: &str, to: &str) -> String {
    let mut out = String::new();
    let mut parts = text.split(word);
    out += parts.next().unwrap();
    for part in parts {
        let goes_on = part.starts_with(|c: char| c.is_alphanumeric() || c == '-');
        out += if goes_on { word } else { to };
        out += part;
    }
    out
}

fn desk() -> Desk {
    let desk = Desk::with_raw();
    for entry in fs::read_dir(desk.path("raw")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "csv") {
            let text = fs::read_to_string(&path).unwrap();
            fs::write(&path, changed(&changed(&text, "SL2-26-07-A", LABEL), "SL-R-2607", RUN)).unwrap();
        }
    }
    desk.run(&["import", "p.sqlite", "raw/bundle.toml", "--new"]).done();
    desk
}

fn results(desk: &Desk, store: &str) -> Vec<Value> {
    let all = desk.run(&["results", store, "--json"]).json();
    all["results"].as_array().unwrap().clone()
}

#[test]
fn a_label_of_any_signs_goes_from_file_to_package_and_back() {
    let desk = desk();
    let lead = format!("{IN_RESULT}:Pb:206+207+208@low:unfiltered");
    let found = results(&desk, "p.sqlite");
    let of_lead = found.iter().find(|r| r["bottle"] == LABEL && r["analyte"] == "Pb").unwrap();
    assert_eq!(of_lead["result"], format!("{lead}#1"));

    // Its case, and a person who stands for it.
    let case = desk.run(&["case", "p.sqlite", &format!("{lead}#1"), "--json"]).json();
    assert_eq!((&case["bottle"], &case["result"]), (&of_lead["bottle"], &of_lead["result"]));
    desk.run(&["sign", "p.sqlite", &lead, "--as", "Ines Varga", "--why", "seen on the day"]).done();
    assert!(desk.run(&["case", "p.sqlite", &lead]).done().contains("signed by Ines Varga: seen on the day"));

    // Taken out and back, by the bottle and by the place in the run.
    for what in [IN_READING.to_string(), format!("{IN_READING}/Pb208"), format!("{RUN_IN_READING}/36/Pb206")] {
        let by = ["--as", "Marit Osk", "--why", "a doubt about the cap"];
        desk.run(&[&["exclude", "p.sqlite", &what][..], &by].concat()).done();
        let verdict = |desk: &Desk| desk.run(&["case", "p.sqlite", &lead, "--json"]).json()["verdict"].clone();
        assert_eq!(verdict(&desk), "rejected", "{what}");
        desk.run(&[&["exclude", "p.sqlite", &what, "--back"][..], &by].concat()).done();
        assert_eq!(verdict(&desk), "accepted", "{what}");
    }
    let raw = desk.run(&["exclude", "p.sqlite", "a/b/c/d", "--as", "Ines Varga", "--why", "x"]);
    raw.fails(1, &["a/b/c/d", "%2F"]);

    // A sentence that stands on it, told again from its newest revision.
    let says = serde_json::json!({"kind": "analogy", "value": {"result": lead}, "body": "Loch Ness", "litres": 1});
    let add = ["state", "p.sqlite", "add", "drop", "--as", "Ines Varga", "--fields"];
    desk.run(&[&add[..], &[&says.to_string()]].concat()).done();
    let told = desk.run(&["state", "p.sqlite", "again", "drop", "--as", "Ines Varga", "--json"]).json();
    assert!(told.to_string().contains(&format!("{lead}#")), "{told}");

    // Out and back: nothing is lost, and the results are the same.
    desk.run(&["export", "p.sqlite", "--out", "package", "--licence", "CC0-1.0"]).done();
    let listed = fs::read_to_string(desk.path("package/results.csv")).unwrap();
    assert!(listed.lines().any(|l| l.starts_with(&format!("{lead}#"))), "the package names it as the programme does");
    desk.run(&["new", "copy.sqlite", "--from", "package"]).done();
    assert_eq!(results(&desk, "copy.sqlite"), results(&desk, "p.sqlite"));
    desk.run(&["verify", "copy.sqlite"]).done();
    desk.run(&["export", "copy.sqlite", "--out", "again", "--licence", "CC0-1.0"]).done();
    let same = Command::new("diff").args(["-r", "package", "again"]).current_dir(desk.path("")).output().unwrap();
    assert!(same.status.success(), "{}", String::from_utf8_lossy(&same.stdout));
}

#[test]
fn a_label_with_a_control_sign_or_without_end_is_refused_by_its_row() {
    let desk = Desk::with_raw();
    desk.run(&["import", "p.sqlite", "raw/bundle.toml", "--new"]).done();
    let head = desk.head("p.sqlite");
    for (label, found) in
        [("\"A\u{7}B\"".to_string(), "control signs"), ("x".repeat(201), "at most 200 letters, not 201")]
    {
        desk.file("bottles.csv", format!("label,kind\nfine,sample\n{label},sample\n"));
        desk.run(&["import", "p.sqlite", "bottles.csv", "--mapping", "bottles"])
            .fails(1, &["bottles.csv, row 3, column \"label\"", found]);
        assert_eq!(desk.head("p.sqlite"), head);
    }
}
