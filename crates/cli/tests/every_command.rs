//! Whole commands on the demo as a person at a terminal sees them: status, standard output, standard error. Each
//! snapshot was read by a person before it was kept; what changes in wording is seen here and read again.
//!
//! Hashes, the time of the act and the program's version stand as words. A table of many rows shows its ends; `--json`
//! shows which keys there are and what stands under them, not the numbers, which are checked where they are made.

use crate::desk::{Desk, LEAD, Ran, masked};
use serde_json::Value;
use std::fmt::Write as _;
use std::io::Write as _;
use std::process::Stdio;

/// Lines that a long output shows at its beginning and at its end.
const ENDS: (usize, usize) = (18, 8);

/// A long text by its ends.
fn ends(text: &str) -> String {
    let lines: Vec<&str> = text.lines().collect();
    let left = lines.len().saturating_sub(ENDS.0 + ENDS.1);
    if left < 8 {
        return text.into();
    }
    let (first, last) = (&lines[..ENDS.0], &lines[lines.len() - ENDS.1..]);
    format!("{}\n[{left} lines]\n{}\n", first.join("\n"), last.join("\n"))
}

/// What differs from day to day and from machine to machine, as words.
fn plain(text: &str) -> String {
    let today = jiff::Timestamp::now().strftime("%Y-%m-%d").to_string();
    let mut out = String::new();
    for word in masked(text).split_inclusive([' ', '\n', ',', '"', '(', ')']) {
        let (core, end) = word.split_at(word.trim_end_matches([' ', '\n', ',', '"', '(', ')', ';', '.']).len());
        let hexadecimal = core.trim_end_matches('…');
        let hash = hexadecimal.len() >= 12 && hexadecimal.bytes().all(|b| b.is_ascii_hexdigit());
        out += match core {
            _ if hash => "[hash]",
            _ if core.starts_with(&today) => "[now]",
            env!("CARGO_PKG_VERSION") => "[version]",
            _ => core,
        };
        out += end;
    }
    out
}

/// Status, standard output and standard error under the command.
fn screen(arguments: &[&str], ran: &Ran) -> String {
    let shown: Vec<String> =
        arguments.iter().map(|a| if a.contains([' ', '"', '{']) { format!("'{a}'") } else { (*a).into() }).collect();
    let mut out = format!("$ limpid {}\nstatus {}\n", shown.join(" "), ran.status);
    for (name, text) in [("standard output", &ran.out), ("standard error", &ran.err)] {
        if !text.is_empty() {
            let _ = write!(out, "--- {name}\n{}", plain(&ends(text)));
        }
    }
    out
}

/// What stands under which key, the first of each list for all.
fn shape(value: &Value, indent: usize, out: &mut String) {
    match value {
        Value::Object(map) => {
            for (key, inner) in map {
                let _ = write!(out, "\n{}{key}:", "  ".repeat(indent));
                shape(inner, indent + 1, out);
            }
        }
        Value::Array(items) => {
            out.push_str(if items.is_empty() { " []" } else { " list of" });
            if let Some(first) = items.first() {
                shape(first, indent, out);
            }
        }
        Value::Null => out.push_str(" null"),
        Value::Bool(_) => out.push_str(" true or false"),
        Value::Number(_) => out.push_str(" number"),
        Value::String(_) => out.push_str(" text"),
    }
}

/// Runs commands one after the other; each with what it said.
fn session(desk: &Desk, commands: &[&[&str]]) -> String {
    commands.iter().map(|c| screen(c, &desk.run(c))).collect::<Vec<_>>().join("\n")
}

const BY: [&str; 4] = ["--as", "Ines Varga", "--why", "the chart of the day was looked at"];

/// A command with a person and a reason.
fn by<'a>(command: &[&'a str]) -> Vec<&'a str> {
    [command, &BY].concat()
}

#[test]
fn a_programme_from_its_files() {
    let desk = Desk::with_raw();
    insta::assert_snapshot!(session(
        &desk,
        &[
            &["new", "p.sqlite"],
            &["import", "p.sqlite", "raw/people.csv", "--mapping", "people", "--preview"],
            &["import", "p.sqlite", "raw/bundle.toml"],
            &["import", "p.sqlite", "raw/bundle.toml"],
            &["import", "p.sqlite", "raw/people.csv"],
            &["new", "p.sqlite"],
        ],
    ));
}

#[test]
fn results_and_their_cases() {
    let desk = Desk::with_programme();
    insta::assert_snapshot!(session(
        &desk,
        &[
            &["results", "p.sqlite"],
            &["case", "p.sqlite", LEAD],
            &["case", "p.sqlite", "SL1-26-07-M:NO3:@:unfiltered"],
            &["case", "p.sqlite", "SL2-26-07-O:atrazine:@:unfiltered"],
            &["case", "p.sqlite", "nothing"],
        ],
    ));
}

#[test]
fn a_person_decides() {
    let desk = Desk::with_programme();
    insta::assert_snapshot!(session(
        &desk,
        &[
            &["recompute", "p.sqlite"],
            &["recompute", "p.sqlite", "SL-R-2607"],
            &by(&["exclude", "p.sqlite", "FB-26-07-1"]),
            &by(&["exclude", "p.sqlite", "FB-26-07-1", "--back"]),
            &by(&["sign", "p.sqlite", "SL1-26-07-A:Pb:206+207+208@low:unfiltered"]),
            &by(&["exclude", "p.sqlite", "nothing"]),
            &by(&["sign", "p.sqlite", "nothing"]),
            &["exclude", "p.sqlite", "FB-26-07-1"],
        ],
    ));
}

#[test]
fn the_trip() {
    let desk = Desk::with_programme();
    desk.file("q.toml", desk.run(&["plan", "--example"]).done());
    insta::assert_snapshot!(session(
        &desk,
        &[
            &["plan", "--example"],
            &["plan", "p.sqlite", "--question", "q.toml"],
            &[
                "plan",
                "p.sqlite",
                "--question",
                "q.toml",
                "--make-trip",
                "SL-2027-07",
                "--starts",
                "2027-07-13",
                "--as",
                "Marit Osk"
            ],
            &["field-sheet", "p.sqlite", "SL-2027-07", "--out", "sheet"],
            &["field-sheet", "p.sqlite", "nowhere", "--out", "sheet"],
            &["conflicts", "p.sqlite"],
            &by(&["settle", "p.sqlite", "SL2-26-07-A", "acid_mL", "0.5"]),
            &["lots", "p.sqlite"],
            &["attribution", "p.sqlite", "--analyte", "Pb"],
            &["attribution", "p.sqlite", "--analyte", "Au"],
        ],
    ));
}

#[test]
fn what_is_said() {
    let desk = Desk::with_programme();
    let ratio = r#"{"kind":"ratio","a":{"result":"SL3-26-07-A:Zn:66@medium:unfiltered"},"b":{"result":"SL2-26-07-A:Zn:66@medium:unfiltered"},"relation":"at least","factor":20}"#;
    let add = ["state", "p.sqlite", "add", "zinc", "--fields", ratio, "--as", "Ines Varga"];
    insta::assert_snapshot!(session(
        &desk,
        &[
            &["state", "p.sqlite"],
            &add,
            &[&add[..], &["--despite", "both were seen twice"]].concat(),
            &["state", "p.sqlite", "show", "zinc"],
            &["state", "p.sqlite", "again", "zinc", "--as", "Ines Varga"],
            &["state", "p.sqlite", "show", "lead"],
            &["limits", "p.sqlite"],
            &["limits", "p.sqlite", "--authority", "WHO", "--guard", "1 U", "--date", "2020-01-01", "--all"],
            &["limits", "p.sqlite", "--authority", "Atlantis"],
            &["limits", "p.sqlite", "--guard", "much"],
        ],
    ));
}

#[test]
fn what_is_written() {
    let desk = Desk::with_programme();
    insta::assert_snapshot!(session(
        &desk,
        &[
            &["report", "p.sqlite", "--out", "told"],
            &["report", "p.sqlite", "--out", "told", "--kind", "leaflet", "--lang", "de"],
            &["report", "p.sqlite", "--out", "told", "--kind", "authority"],
            &["report", "p.sqlite", "--out", "told", "--sections", "the moon"],
            &["report", "p.sqlite", "--out", "told", "--lang", "fr"],
            &["export", "p.sqlite", "--out", "package"],
            &["supplement", "p.sqlite", "--out", "supplement", "--licence", "CC0-1.0"],
            &["new", "copy.sqlite", "--from", "package"],
            &["new", "copy.sqlite", "--from", "told"],
        ],
    ));
}

#[test]
fn how_it_is_kept() {
    let desk = Desk::with_programme();
    desk.file("damaged.sqlite", "no database at all, but long enough to be looked at as one".repeat(20));
    insta::assert_snapshot!(session(
        &desk,
        &[
            &["verify", "p.sqlite"],
            &["verify", "p.sqlite", "--head", "abc"],
            &["verify", "damaged.sqlite"],
            &["verify", "absent.sqlite"],
            &["backup", "p.sqlite", "kept.limpid"],
            &["backup", "p.sqlite", "kept.limpid"],
            &["restore", "kept.limpid", "again.sqlite"],
            &["restore", "damaged.sqlite", "other.sqlite"],
            &["move", "p.sqlite", "moved.sqlite"],
            &["move", "p.sqlite", "moved.sqlite"],
        ],
    ));
}

#[test]
fn who_may_come_in() {
    let desk = Desk::with_programme();
    let account = |words: &[&str], password: &str| {
        let arguments = [&["account", "p.sqlite"], words].concat();
        let mut child = desk
            .command(&arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        child.stdin.take().unwrap().write_all(password.as_bytes()).unwrap();
        screen(&arguments, &Ran::of(child.wait_with_output().unwrap()))
    };
    let all = [
        account(&["list"], ""),
        account(&["add", "Ines Varga", "--role", "analyst"], "a password for tests\n"),
        account(&["add", "Ines Varga", "--role", "emperor"], "a password for tests\n"),
        account(&["add", "Marit Osk", "--role", "lead"], "short\n"),
        account(&["list"], ""),
        account(&["remove", "Ines Varga"], ""),
        account(&["remove", "Ines Varga"], ""),
        screen(&["serve", "absent.sqlite"], &desk.run(&["serve", "absent.sqlite"])),
    ];
    insta::assert_snapshot!(all.join("\n"));
}

#[test]
fn one_calculation() {
    let desk = Desk::new();
    desk.file("blanks.json", r#"{"blanks":[1.1,0.9,1.3,1.0,0.8],"unit":"ng/L"}"#);
    desk.file("wrong.json", r#"{"blanks":[1.1,"x"],"unit":"ng/L"}"#);
    insta::assert_snapshot!(session(
        &desk,
        &[
            &["calc", "--list"],
            &["calc", "--example", "titration"],
            &["calc", "--schema", "air"],
            &["calc", "detection", "--input", "blanks.json"],
            &["calc", "detection", "--input", "wrong.json"],
            &["calc", "alchemy", "--input", "blanks.json"],
            &["calc", "detection", "--input", "absent.json"],
        ],
    ));
}

#[test]
fn help_and_usage() {
    let desk = Desk::new();
    let commands = [
        "demo",
        "new",
        "import",
        "results",
        "case",
        "recompute",
        "exclude",
        "sign",
        "keys",
        "anchor",
        "field-sheet",
        "checks",
        "conflicts",
        "settle",
        "report",
        "state",
        "limits",
        "export",
        "supplement",
        "verify",
        "backup",
        "restore",
        "move",
        "lots",
        "attribution",
        "plan",
        "serve",
        "account",
        "calc",
    ];
    let help: Vec<Vec<&str>> = commands.iter().map(|c| vec![*c, "--help"]).collect();
    let mut all: Vec<&[&str]> = vec![&["--help"], &[], &["divine"], &["results"], &["import", "p.sqlite"]];
    all.extend(help.iter().map(Vec::as_slice));
    insta::assert_snapshot!(session(&desk, &all));
}

#[test]
fn documents_by_their_keys() {
    let desk = Desk::with_programme();
    let mut out = String::new();
    for command in [
        &["results", "p.sqlite", "--json"][..],
        &["case", "p.sqlite", LEAD, "--json"],
        &["limits", "p.sqlite", "--json"],
        &["lots", "p.sqlite", "--json"],
        &["attribution", "p.sqlite", "--json"],
        &["conflicts", "p.sqlite", "--json"],
        &["plan", "p.sqlite", "--json"],
        &["state", "p.sqlite", "list", "--json"],
        &["state", "p.sqlite", "show", "pesticides-sl2", "--json"],
    ] {
        let ran = desk.run(command);
        assert_eq!(ran.status, 0, "{command:?}: {}", ran.err);
        let _ = write!(out, "$ limpid {}", command.join(" "));
        shape(&serde_json::from_str(&ran.out).unwrap(), 1, &mut out);
        out.push_str("\n\n");
    }
    insta::assert_snapshot!(out);
}
