//! Results as cards and as the wide table: what is counted is what is shown, an element is found under any of its names, a
//! well's common value is the store's, and both widths fit without a fault of accessibility (axe-core, WCAG rules).

use crate::common;

use assessment::results::Listed;
use assessment::well_value::{self, Told};
use common::browser::Browser;
use common::{Client, Face, coded};
use record::model::VerdictWord;
use std::collections::BTreeSet;

/// The number that a heading begins with.
fn counted(page: &str) -> usize {
    let heading = page.split("class=\"titled\"").nth(1).and_then(|h| h.split("<p").nth(1)).unwrap_or_default();
    let words = heading.split('>').nth(1).unwrap_or_default();
    let digits: String = words.chars().take_while(char::is_ascii_digit).collect();
    digits.parse().unwrap_or_else(|_| panic!("no count in {words:?}"))
}

/// Results that a page's CSV holds.
fn in_file(c: &mut Client, address: &str) -> usize {
    let join = if address.contains('?') { '&' } else { '?' };
    c.get(&format!("{address}{join}file=csv")).text().lines().count() - 1
}

fn all(face: &Face) -> Vec<Listed> {
    assessment::results::all(&face.store()).unwrap()
}

#[test]
fn every_count_leads_to_exactly_those() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let all = all(&face);
    for verdict in VerdictWord::ALL {
        let address = format!("/results?verdict={}", verdict.word());
        let page = c.get(&address).text();
        let there = all.iter().filter(|r| r.verdict == Some(*verdict)).count();
        assert_eq!((counted(&page), in_file(&mut c, &address)), (there, there), "{verdict:?}");
    }
    // What a check holds back, as the case of each says.
    let codes: BTreeSet<&String> = all.iter().flat_map(|r| &r.reasons).collect();
    assert!(codes.len() > 2, "{codes:?}");
    for code in codes {
        let held = |r: &&Listed| r.verdict == Some(VerdictWord::Provisional) && r.reasons.contains(code);
        let there = all.iter().filter(held).count();
        let address = format!("/results?verdict=provisional&held-by={code}");
        let page = c.get(&address).text();
        assert_eq!((counted(&page), in_file(&mut c, &address)), (there, there), "{code}");
        if there > 0 {
            assert!(page.contains("class=\"chips\""), "what is asked for stands there in words");
        }
    }
    assert_eq!(c.get("/results?held-by=number.nothing").status, 422);
}

#[test]
fn an_element_is_found_under_any_of_its_names() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let lead = all(&face).iter().filter(|r| r.analyte == "Pb" && r.kind.is_water()).count();
    for name in ["Pb", "lead", "Lead", "Blei", "pb"] {
        let page = c.get(&format!("/results?analyte={}", coded(name))).text();
        assert_eq!(counted(&page), lead, "{name}");
        assert!(page.contains(&format!("analyte={name}")), "kept in the address as it was typed: {name}");
    }
    let none = c.get("/results?analyte=unobtainium").text();
    assert!(none.contains("href=\"/results\""), "the way back: {none}");
}

/// The card of a well's lead holds the common value of the store with its own U, and none where bottles disagree.
#[test]
fn the_common_value_is_that_of_the_fit() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let page = c.get("/results?analyte=Pb&sort=well").text();
    let values = well_value::all(&face.store()).unwrap();
    let of = |well: &str| {
        let is = |w: &&well_value::WellValue| {
            w.water.well.as_deref() == Some(well) && w.analyte == "Pb" && w.isotopes.contains('+')
        };
        values.iter().find(is).unwrap()
    };
    let row = |well: &str| {
        let rows = page.split("<tr>").filter(|r| r.contains(&format!("href=\"/wells/{well}\"")));
        rows.collect::<Vec<_>>().join("").replace('\u{A0}', " ")
    };
    let Told::Value { amount, coverage_k, .. } = &of("SL-2").told else { panic!("SL-2 has a value") };
    let shown = amount.shown(*coverage_k).said(message::Lang::En);
    let (value, rest) = shown.split_once(" ± ").unwrap();
    let expanded = rest.split(' ').next().unwrap();
    assert!(row("SL-2").contains(&format!("<b>{value}</b>")), "{value} in {}", row("SL-2"));
    assert!(row("SL-2").contains(&format!("± {expanded}")), "{expanded}");
    assert_eq!(of("SL-3").told, Told::NoNumber);
    assert!(!row("SL-3").contains("<b>"), "no value where bottles disagree: {}", row("SL-3"));
}

/// The wide table and its file have the same columns: one a substance.
#[test]
fn the_wide_table_has_one_column_a_substance() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let file = c.get("/results?wide=1&file=csv").text();
    let head = csv::Reader::from_reader(file.as_bytes()).headers().unwrap().clone();
    let values: Vec<&str> = head.iter().skip(3).filter(|h| !h.contains("U95") && !h.contains("verdict")).collect();
    let names: BTreeSet<&str> = values.iter().map(|h| h.split(" (").next().unwrap()).collect();
    assert_eq!(values.len(), names.len(), "one column each: {values:?}");
    assert!(values.contains(&"Pb (ng/L)"), "{values:?}");
    let page = c.get("/results?wide=1&family=metals").text();
    let columns = page.split("<thead").nth(1).unwrap().split("</thead").next().unwrap().matches("<th").count() - 1;
    let metals = values.iter().filter(|h| page.contains(&format!(">{}<", h.split(" (").next().unwrap()))).count();
    assert!(columns > 5 && columns <= metals, "{columns} of {metals}");
    // Without U: fewer columns in the file, and none on the page.
    let without = c.get("/results?wide=1&u=0&file=csv").text();
    assert!(!without.lines().next().unwrap().contains("U95"));
}

/// Pages of this part at both widths, in both languages.
const PAGES: [&str; 12] = [
    "/results",
    "/results?wide=1",
    "/results?analyte=Pb&verdict=provisional",
    "/results?analyte=unobtainium",
    "/case/SL2-26-07-A:Pb:206%2B207%2B208%40low:unfiltered",
    "/case/SL3-26-07-A:Pb:206%2B207%2B208%40low:unfiltered?open=all",
    "/limits",
    "/limits?show=below&page=2",
    "/attribution",
    "/water",
    "/time?well=SL-2&analyte=Pb",
    "/runs",
];

#[test]
fn both_widths_fit_and_have_no_fault_of_accessibility() {
    let face = Face::demo(&[]);
    let axe = include_str!("fixtures/axe.min.js");
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    let mut faults = vec![];
    for path in PAGES {
        for (width, language) in [(1280, "en"), (360, "de"), (360, "en")] {
            p.size(b, width, 800);
            let join = if path.contains('?') { '&' } else { '?' };
            p.go(b, &format!("{path}{join}language={language}"));
            let over = p.eval(b, "document.documentElement.scrollWidth - document.documentElement.clientWidth");
            if over.as_i64().unwrap() > 0 {
                faults.push(format!("{path} at {width}, {language}: {over} px to the side"));
            }
            p.eval(b, &format!("{axe}; 0"));
            let found = p.eval(
                b,
                "axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations.filter((v) => ['serious', 'critical'].includes(v.impact)).map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(' | ')))",
            );
            faults.extend(found.as_array().unwrap().iter().map(|f| format!("{path} at {width}, {language}: {f}")));
        }
    }
    // Six screens of a telephone hold a list.
    p.size(b, 360, 800);
    for path in ["/results", "/limits"] {
        p.go(b, path);
        let height = p.eval(b, "document.documentElement.scrollHeight").as_i64().unwrap();
        if height > 6 * 800 {
            faults.push(format!("{path}: {height} px are more than six screens"));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}
