//! Page one of a report, handed to a reader alone: what was asked, what is the answer, may it be relied on, what is not
//! known. Text is taken out of the PDF by `pdftotext` (poppler); what is expected are messages with their arguments, and
//! numbers as `results --wells` tells them.

use crate::desk::{Desk, demo};
use message::{Lang, Spoken, document_words, front};
use std::path::Path;
use std::process::Command;

/// The words of some pages, in one line.
fn words(pdf: &Path, first: u32, last: u32) -> String {
    let pages = [first, last].map(|p| p.to_string());
    let out = Command::new("pdftotext").args(["-f", &pages[0], "-l", &pages[1]]).arg(pdf).arg("-").output().unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    in_one_line(&String::from_utf8_lossy(&out.stdout))
}

fn in_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn pages(pdf: &Path) -> u32 {
    let out = Command::new("pdfinfo").arg(pdf).output().unwrap();
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    let line = text.lines().find(|l| l.starts_with("Pages:")).unwrap_or_else(|| panic!("{text}"));
    line.rsplit(' ').next().unwrap().parse().unwrap()
}

#[track_caller]
fn holds(page: &str, what: &str) {
    assert!(page.contains(&in_one_line(what)), "{what:?} is not in:\n{page}");
}

/// Asked, answered, relied on, not known: each is quoted from the first page alone.
#[test]
fn page_one_answers_the_question_of_the_trip() {
    let page = words(&demo().join("report/report.pdf"), 1, 1);
    // What was asked: the sentence of the trip, as it was typed into the demo's sheet of trips.
    holds(&page, "Is lead at SL-2 still near 1 ng/L, and may one believe it?");
    // The answer: the common value of the well as the record has it, and no other.
    let desk = Desk::with_programme();
    let wells = desk.run(&["results", "p.sqlite", "--wells", "--json"]).json();
    let is_asked = |w: &&serde_json::Value| w["well"] == "SL-2" && w["analyte"] == "Pb";
    let value = wells["wells"].as_array().unwrap().iter().find(is_asked).expect("lead of SL-2").clone();
    let number = |v: &serde_json::Value| v.as_f64().unwrap();
    // Three decimals, as U of 0.047 ng/L gives them (two significant digits).
    let [v, low, high] = [&value["amount"]["value"], &value["interval"][0], &value["interval"][1]].map(number);
    holds(&page, &format!("{v:.3} ng/L of lead (95 %: {low:.3} to {high:.3})"));
    // May it be relied on: the verdict in words that say whose checks, never that it may be believed.
    holds(&page, &front::Accepted.in_language(Lang::En));
    assert!(!page.contains("may be believed") && !page.contains("Nothing lost"));
    // What is not known: that one trip is one point, and microbes.
    for unknown in [front::ChangeNotTold.in_language(Lang::En), front::Microbes.in_language(Lang::En)] {
        holds(&page, &unknown);
    }
    for heading in [
        document_words::DoneToBeSure.in_language(Lang::En),
        document_words::CannotBeTold.in_language(Lang::En),
        document_words::EarlierTrips.in_language(Lang::En),
        document_words::WouldDecide.in_language(Lang::En),
        front::CleanAir.in_language(Lang::En),
        front::Blanks.in_language(Lang::En),
        front::Loss.in_language(Lang::En),
        front::BottlesAgree.in_language(Lang::En),
    ] {
        holds(&page, &heading);
    }
    // Every well that day, the rejected one too, and what lies above a limit.
    for well in ["SL-1", "SL-2", "SL-3", "rejected", "provisional", "manganese", "iron"] {
        holds(&page, well);
    }
    // The parts are those of the case: 91 for the water of this bottle.
    let case = desk.run(&["case", "p.sqlite", crate::desk::LEAD, "--json"]).json();
    let share = case["water_share"]["share"].as_f64().unwrap();
    holds(&page, &format!("{:.0}", 100.0 * share));
}

/// Days and hours in words, no code of the record, on every paper in both languages.
#[test]
fn no_paper_speaks_in_codes() {
    let desk = Desk::with_programme();
    for (lang, suffix) in [("en", ""), ("de", "-de")] {
        for (kind, file) in [("full", "report"), ("leaflet", "leaflet"), ("authority", "authority")] {
            desk.run(&["report", "p.sqlite", "--out", "told", "--kind", kind, "--lang", lang]).done();
            let pdf = desk.path(&format!("told/{file}{suffix}.pdf"));
            let text = words(&pdf, 1, pages(&pdf));
            for code in ["@low", "@medium", " Cel ", "degC", "S(-II)", "L_C", "L_D", "E_n", "−0.0 ", "u not stated"] {
                assert!(!text.contains(code), "{file}{suffix}: {code}");
            }
            for check in quantity::Check::ALL {
                assert!(
                    !text.split(' ').any(|w| w.trim_matches(|c: char| !c.is_alphanumeric()) == check.text()),
                    "{check}"
                );
            }
            let exponent = text.split(' ').find(|w| is_power(w));
            assert_eq!(exponent, None, "{file}{suffix}");
            let iso = text.split(' ').find(|w| is_iso_day(w));
            assert_eq!(iso, None, "{file}{suffix}");
        }
    }
}

/// `5e-15`.
fn is_power(word: &str) -> bool {
    let number = word.trim_matches(|c: char| !c.is_alphanumeric());
    number.split_once("e-").is_some_and(|(a, b)| {
        let digits = |t: &str| !t.is_empty() && t.chars().all(|c| c.is_ascii_digit() || c == '.');
        digits(a) && digits(b)
    })
}

/// `2026-07-14`, standing free; names of files and trips hold such days.
fn is_iso_day(word: &str) -> bool {
    let day = word.trim_matches(|c: char| !c.is_alphanumeric());
    day.len() >= 10 && day.as_bytes()[4] == b'-' && day.parse::<f64>().is_err() && {
        let parts: Vec<&str> = day.splitn(3, '-').collect();
        parts.len() == 3 && parts[..2].iter().all(|p| p.chars().all(|c| c.is_ascii_digit())) && parts[2].len() == 2
    }
}

/// Chapters of a dozen pages, then the annexes behind their contents; German not longer by more than a page in twelve.
#[test]
fn the_report_is_short_and_the_annexes_follow() {
    let desk = Desk::with_programme();
    desk.run(&["report", "p.sqlite", "--out", "de", "--lang", "de"]).done();
    let chapters = |pdf: &Path, lang: Lang| -> (u32, u32) {
        let annex = document_words::Annex { letter: "A".into(), holds: document_words::AnnexResults.into() };
        let all = pages(pdf);
        // The contents on page one and before the annexes name it too: its heading is the last of these.
        let begins = (2..=all).rev().find(|p| words(pdf, *p, *p).starts_with(&annex.in_language(lang)));
        (begins.unwrap_or_else(|| panic!("annex A begins a page ({lang:?})")), all)
    };
    let (en, en_all) = chapters(&demo().join("report/report.pdf"), Lang::En);
    let (de, de_all) = chapters(&desk.path("de/report-de.pdf"), Lang::De);
    // The design wants 12 and 24; white space and counts of pages warn, what is far from them fails.
    assert!(en <= 20 && en_all <= 55, "chapters end on page {}, {en_all} pages in all", en - 1);
    assert!(de <= en + 2 && de_all <= en_all + 4, "German: chapters end on page {}, {de_all} pages in all", de - 1);
}

/// A person who asks for one well gets one well; a trip, a well, a day that are none are told.
#[test]
fn a_report_is_of_what_was_asked_for() {
    let desk = Desk::with_programme();
    desk.run(&["report", "p.sqlite", "--out", "one", "--well", "SL-1"]).done();
    let page = std::fs::read_to_string(desk.path("one/report.html")).unwrap();
    assert!(page.contains("SL1-26-07-A") && !page.contains("SL3-26-07-A"), "bottles of SL-1 alone");
    desk.run(&["report", "p.sqlite", "--out", "trip", "--trip", "SL-2026-07"]).done();
    desk.run(&["report", "p.sqlite", "--out", "newest"]).done();
    let same = ["trip", "newest"].map(|d| std::fs::read(desk.path(&format!("{d}/report.pdf"))).unwrap());
    assert!(same[0] == same[1], "the newest trip by its name and by default");
    desk.run(&["report", "p.sqlite", "--out", "x", "--trip", "SL-1999"]).fails(1, &["SL-1999", "SL-2026-07"]);
    desk.run(&["report", "p.sqlite", "--out", "x", "--well", "SL-9"]).fails(1, &["SL-9", "SL-2"]);
    desk.run(&["report", "p.sqlite", "--out", "x", "--from", "yesterday"]).fails(2, &["yesterday", "YYYY-MM-DD"]);
    desk.run(&["report", "p.sqlite", "--out", "x", "--kind", "leaflet", "--all"]).fails(2, &["--all"]);
}

/// Years of one well: by default the newest trip, the years before it as values of its time line; earlier trips by name.
#[test]
fn the_years_before_stand_beside_the_newest_trip() {
    let desk = two_years();
    let lead = |dir: &str, more: &[&str]| {
        let all = [&["report", "p.sqlite", "--out", dir], more].concat();
        desk.run(&all).done();
        words(&desk.path(&format!("{dir}/report.pdf")), 1, 1)
    };
    let newest = lead("newest", &[]);
    holds(&newest, "0.420 ± 0.020");
    holds(&newest, &front::ChangeSeen { values: 1 }.in_language(Lang::En));
    assert!(!newest.contains(&in_one_line(&front::ChangeNotTold.in_language(Lang::En))));
    let first = lead("first", &["--trip", "Y1"]);
    // u of 0.02 over many degrees of freedom: U = 1.96 u (JCGM 100:2008, table G.2).
    holds(&first, "0.610 ± 0.039");
    assert!(!first.contains("0.420 ± 0.020"), "the later trip is not of the earlier one's report");
    let whole = std::fs::read_to_string({
        lead("all", &["--all"]);
        desk.path("all/report.html")
    });
    let whole = whole.unwrap();
    assert!(whole.contains("W1-25-A") && whole.contains("W1-26-A"));
}

/// Two trips to one well, reported by a laboratory; invented.
fn two_years() -> Desk {
    let desk = Desk::new();
    desk.run(&["new", "p.sqlite"]).done();
    desk.file("sites.csv", "name,invented\nMeadow,1\n");
    desk.file("wells.csv", "name,site,medium\nW1,Meadow,groundwater\n");
    desk.file("trips.csv", "name,starts\nY1,2025-06-02 09:00\nY2,2026-06-01 09:00\n");
    desk.file(
        "bottles.csv",
        "label,kind,trip,well,fraction,filled_at\nW1-25-A,sample,Y1,W1,unfiltered,2025-06-02 10:00\n\
         W1-26-A,sample,Y2,W1,unfiltered,2026-06-01 10:00\n",
    );
    desk.file(
        "results.csv",
        "bottle,analyte,fraction,value,u,unit,reporting_limit,laboratory,method,remark\n\
         W1-25-A,Pb,unfiltered,0.61,0.02,µg/L,0.05,Lab (invented),M1,\n\
         W1-26-A,Pb,unfiltered,0.42,0.01,µg/L,0.05,Lab (invented),M1,\n",
    );
    for (file, mapping) in [
        ("sites.csv", "sites"),
        ("wells.csv", "wells"),
        ("trips.csv", "trips"),
        ("bottles.csv", "bottles"),
        ("results.csv", "laboratory-long"),
    ] {
        desk.run(&["import", "p.sqlite", file, "--mapping", mapping]).done();
    }
    desk
}
