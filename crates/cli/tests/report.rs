//! `limpid report`: in German, of chosen sections, on one page. Pages are counted by `pdfinfo` (poppler).

use crate::desk::Desk;
use std::path::Path;
use std::process::Command;

fn pages(pdf: &Path) -> u32 {
    let out = Command::new("pdfinfo").arg(pdf).output().unwrap();
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    let line = text.lines().find(|l| l.starts_with("Pages:")).unwrap_or_else(|| panic!("{text}"));
    line.rsplit(' ').next().unwrap().parse().unwrap()
}

#[test]
fn the_whole_report_speaks_german_and_leaves_nothing_in_english() {
    let desk = Desk::with_programme();
    let ran = desk.run(&["report", "p.sqlite", "--out", "de", "--lang", "de"]);
    ran.done();
    let page = std::fs::read_to_string(desk.path("de/report-de.html")).unwrap();
    assert!(page.contains("<html lang=\"de\"") && page.contains("Was gefunden wurde"));
    assert!(page.contains("1,050 ± 0,072") && !page.contains("1.050 ± 0.072"), "numbers have the comma");
    for english in
        ["accepted", "(provisional)", "◊ provisional", "field blanks", "What was found", "expanded uncertainty"]
    {
        assert!(!page.contains(english), "{english}");
    }
    // What people wrote stays theirs.
    // What stands in the files of the demo, and what its people say of its sentences.
    let written = crate::german::written_in(&crate::desk::demo().join("raw")) + include_str!("../src/commands/demo.rs");
    let english = crate::german::english_in(&page, &written);
    assert!(english.is_empty(), "{english:#?}");
    assert!(page.contains("Is lead at SL-2 still near 1 ng/L"));
}

/// A programme of a well "Galena", a lot "2.10" and labels with every sign, in English and in German: every name and label
/// that stands in the one stands in the other, and no name has become a word or a number of the language.
#[test]
fn names_were_put_into_german_with_the_words_around_them() {
    let desk = Desk::new();
    let hostile = ::fixtures::all().into_iter().find(|f| f.name == "hostile").unwrap();
    hostile.write(&desk.path("files")).unwrap();
    desk.run(&["new", "p.sqlite"]).done();
    desk.run(&["import", "p.sqlite", "files/bundle.toml"]).done();
    let page = |lang: &str, file: &str| {
        desk.run(&["report", "p.sqlite", "--out", "told", "--lang", lang]).done();
        let page = std::fs::read_to_string(desk.path(file)).unwrap();
        page[page.find("</style>").unwrap()..].to_string()
    };
    let (english, german) = (page("en", "told/report.html"), page("de", "told/report-de.html"));
    let escaped = |t: &str| t.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;");
    for name in hostile.wells.iter().chain(&hostile.labels).chain(&hostile.trips) {
        let name = escaped(name);
        assert_eq!(english.contains(&name), german.contains(&name), "{name}");
    }
    for lot in ["Charge 2.10", "Charge 2.1"] {
        assert!(german.contains(lot), "{lot}");
    }
    assert!(!german.contains("Charge 2,1") && !german.contains("Brunnen Bleiglanz"));
    // What stayed English is marked, and the mark explained once.
    let marked = german.contains("[en]");
    assert_eq!(german.matches("[en] steht hinter einem Text").count(), usize::from(marked));
}

#[test]
fn a_report_holds_the_sections_asked_for_and_no_other() {
    let desk = Desk::with_programme();
    desk.run(&["report", "p.sqlite", "--out", "some", "--sections", "verdicts,whose"]).done();
    let page = std::fs::read_to_string(desk.path("some/report.html")).unwrap();
    assert!(page.contains("Whose metal it is</h2>") && !page.contains("Bottles and their lots</h2>"));
    let wrong = desk.run(&["report", "p.sqlite", "--out", "none", "--sections", "the moon"]);
    assert!(wrong.err.contains("the-moon") && wrong.err.contains("whose-metal-it-is"), "{}", wrong.err);
    assert!(!desk.path("none/report.html").exists());
}

#[test]
fn what_goes_to_neighbours_and_authority_stands_on_one_page() {
    let desk = Desk::with_programme();
    for (kind, file) in [("leaflet", "leaflet"), ("authority", "authority")] {
        for (lang, suffix) in [("en", ""), ("de", "-de")] {
            desk.run(&["report", "p.sqlite", "--out", "one", "--kind", kind, "--lang", lang]).done();
            assert_eq!(pages(&desk.path(&format!("one/{file}{suffix}.pdf"))), 1, "{kind} {lang}");
        }
    }
}
