//! The case on paper: `?open=all` is written by the server with every step open, and a real browser prints it to a PDF that
//! holds the raw counts. The text of the PDF is read by pdftotext (poppler), a reader that has nothing to do with this
//! project.

use crate::common;

use common::Face;
use common::browser::program;
use record::store::Filter;
use std::process::{Command, Stdio};

const CASE: &str = "/case/SL2-26-07-A:Pb:206%2B207%2B208%40low:unfiltered";

#[test]
fn on_paper_every_step_stands_open() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let page = c.get(&format!("{CASE}?open=all")).text();
    let main = page.split("<main").nth(1).unwrap();
    let (all, open) = (main.matches("<details").count(), main.matches("<details").count() - closed(main));
    assert!(all > 20, "{all} steps");
    assert_eq!(open, all, "all open");
    assert!(main.contains("<div class=\"counts\""), "long sets stand in columns");
    assert!(!main.contains("<textarea"), "no form on paper");
    // On the screen most of them wait for a click.
    let screen = c.get(CASE).text();
    assert!(closed(screen.split("<main").nth(1).unwrap()) > 10);
}

/// Details that are not written open.
fn closed(main: &str) -> usize {
    main.split("<details").skip(1).filter(|d| !d.split('>').next().unwrap_or_default().contains(" open")).count()
}

#[test]
fn the_raw_counts_of_the_first_replicate_stand_in_the_printed_case() {
    let face = Face::demo(&[]);
    let store = face.store();
    let vial = store.list::<record::model::Vial>(&Filter::all().is("name", "SL2-26-07-A")).unwrap().remove(0);
    let readings = store.readings(vial.run_id).unwrap();
    // As counts a second: the derivation says beside them how long each replicate counted.
    let lead: Vec<_> = readings.into_iter().filter(|r| r.vial_id == vial.id && r.isotope.contains("Pb")).collect();
    assert!(lead.len() >= 3, "three isotopes");
    let dir = tempfile::tempdir().unwrap();
    let pdf = dir.path().join("case.pdf");
    let printed = Command::new(program())
        .args(["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-pdf-header-footer"])
        .arg(format!("--user-data-dir={}", dir.path().join("profile").display()))
        .arg(format!("--print-to-pdf={}", pdf.display()))
        .arg(format!("{}{CASE}?open=all", face.base()))
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .unwrap();
    assert!(printed.success() && pdf.exists(), "the browser prints");
    let text = Command::new("pdftotext").args(["-layout"]).arg(&pdf).arg("-").output();
    let text = text.expect("pdftotext reads the PDF (Debian: apt-get install poppler-utils)");
    let text = String::from_utf8(text.stdout).unwrap();
    // Digits alone: thousands may be grouped.
    let digits: String = text.chars().filter(|c| !matches!(c, '\u{202F}' | '\u{A0}' | '\u{2009}')).collect();
    for r in &lead {
        let first = r.rates_cps[0].to_string();
        assert!(digits.contains(&first), "{first} of {} in\n{digits}", r.isotope);
    }
}
