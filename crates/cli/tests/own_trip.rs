//! A programme of one's own: `start`, its questions and templates, and the guide of the first own trip, run as it is
//! written.

use crate::desk::{Desk, LIMPID, Ran};
use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

const ANSWERS: [&str; 13] = [
    "start",
    "own",
    "--site",
    "Reed End",
    "--well",
    "RE-1",
    "--trip",
    "RE-2026-05",
    "--day",
    "2026-05-11",
    "--as",
    "Ina Moor",
    "--no-questions",
];

/// The lines of shell of a guide, block by block.
fn blocks(guide: &str) -> Vec<String> {
    let mut out = vec![];
    let mut open: Option<(usize, String)> = None;
    for line in guide.lines() {
        let told = line.trim_start();
        if told == "```sh" {
            open = Some((line.len() - told.len(), String::new()));
        } else if told == "```" {
            out.extend(open.take().map(|(_, text)| text));
        } else if let Some((indent, text)) = &mut open {
            text.extend([line.get(*indent..).unwrap_or_default(), "\n"]);
        }
    }
    out
}

#[test]
fn the_guide_of_the_first_own_trip_runs_as_it_is_written() {
    let guide = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/first-own-trip.md");
    let blocks = blocks(&fs::read_to_string(guide).unwrap());
    assert_eq!(blocks.len(), 7, "one block a step");
    let desk = Desk::new();
    let beside = Path::new(LIMPID).parent().unwrap();
    let path = std::env::join_paths(
        [beside.to_path_buf()].into_iter().chain(std::env::split_paths(&std::env::var_os("PATH").unwrap_or_default())),
    );
    let mut said = vec![];
    for block in &blocks {
        let mut shell = Command::new("sh");
        shell.args(["-e", "-c", block]).current_dir(desk.path("")).env("PATH", path.as_ref().unwrap());
        said.push(Ran::of(shell.output().unwrap()).done());
    }
    assert!(said[0].contains("next: ") && said[0].contains("--mapping bottles"), "{}", said[0]);
    assert!(said[1].contains("--mapping field-readings"), "what is next by then: {}", said[1]);
    assert!(said[4].contains("RE1-A:Pb") && said[4].contains("4.1"), "{}", said[4]);
    let ended = desk.run(&["start", "reed-end"]).done();
    assert!(ended.contains("limpid report"), "{ended}");
    for file in ["report/report.pdf", "report/report.html", "results.xlsx"] {
        assert!(fs::metadata(desk.path("reed-end").join(file)).is_ok_and(|m| m.len() > 1000), "{file}");
    }
}

#[test]
fn an_example_row_is_never_taken_in() {
    let desk = Desk::new();
    desk.run(&ANSWERS).done();
    let head = desk.head("own/programme.sqlite");
    for (file, mapping) in [
        ("bottles", "bottles"),
        ("field-readings", "field-readings"),
        ("fills", "fills"),
        ("results", "laboratory-long"),
    ] {
        let path = format!("own/{file}.csv");
        let act = ["import", "own/programme.sqlite", &path, "--mapping", mapping];
        desk.run(&act).fails(1, &["EXAMPLE delete this row"]);
        let words = fs::read_to_string(desk.path("own/words.csv")).unwrap();
        let headings = fs::read_to_string(desk.path(&path)).unwrap();
        for heading in headings.lines().next().unwrap().split(',') {
            assert!(words.contains(&format!("{file}.csv,{heading},")), "{heading} of {file} is explained");
        }
    }
    assert_eq!(desk.head("own/programme.sqlite"), head);
}

#[test]
fn what_is_not_given_is_asked_or_refused() {
    let desk = Desk::new();
    desk.run(&["start", "own", "--no-questions"]).fails(2, &["--site"]);
    assert!(!desk.path("own").exists());
    let mut child = desk
        .command(&["start", "own", "--well", "RE-1"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(b"Reed End\nRE-2026-05\n2026-05-11\nIna Moor\n").unwrap();
    let ran = Ran::of(child.wait_with_output().unwrap());
    assert!(ran.err.contains("Name of the site"), "{}", ran.err);
    ran.done();
    desk.run(&["recompute", "own/programme.sqlite", "--as", "Ina Moor"]).done();
    desk.run(&["recompute", "own/programme.sqlite", "--as", "Ina More"]).fails(1, &["Ina Moor"]);
}

#[test]
fn answers_that_cannot_be_taken_leave_nothing_behind() {
    let desk = Desk::new();
    let wrong = ANSWERS.map(|a| if a == "2026-05-11" { "some day" } else { a });
    desk.run(&wrong).fails(1, &["some day"]);
    desk.run(&ANSWERS).done();
    fs::create_dir(desk.path("full")).unwrap();
    desk.file("full/letter.txt", "x");
    desk.run(&ANSWERS.map(|a| if a == "own" { "full" } else { a })).fails(1, &["other files"]);
}
