//! What each printed paper must hold whatever is in it: the checks M1 to M16 of the design that a machine can make. The
//! words and their boxes come out of the PDF by `pdftotext -bbox` and `pdftohtml -xml` (poppler), fonts by `pdffonts`.
//! Counts of pages and white space warn, for a record decides them; everything else fails.

use crate::desk::{Desk, demo};
use message::{Lang, Spoken, chapter, document_words, leaflet, paper};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

/// A word of a page: left, top, right, bottom in points from the upper left corner.
struct Word {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
    text: String,
}

/// A4, points (ISO 216: 210 by 297 mm).
const PAGE: (f64, f64) = (595.28, 841.89);
/// What lies lower is the foot of the page, points.
const FOOT: f64 = 792.0;

pub(crate) fn ran(tool: &str, args: &[&str], file: &Path) -> String {
    let out =
        Command::new(tool).args(args).arg(file).args(["-"].iter().take(usize::from(tool == "pdftotext"))).output();
    let out = out.unwrap_or_else(|e| panic!("{tool}: {e}"));
    assert!(out.status.success(), "{tool}: {}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8_lossy(&out.stdout).into_owned()
}

/// The words of each page with their boxes.
fn pages(pdf: &Path) -> Vec<Vec<Word>> {
    let text = ran("pdftotext", &["-bbox"], pdf);
    let word = |line: &str| {
        let value = |name: &str| -> f64 {
            let at = line.split_once(&format!("{name}=\"")).expect("a box").1;
            at.split('"').next().unwrap().parse().unwrap()
        };
        let text = line.split_once('>')?.1.strip_suffix("</word>")?;
        let text = text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&");
        // WORD JOINER: it holds a number to its line and is not seen.
        let text = text.replace('\u{2060}', "");
        Some(Word { left: value("xMin"), top: value("yMin"), right: value("xMax"), bottom: value("yMax"), text })
    };
    let of_page =
        |page: &str| page.lines().map(str::trim).filter(|l| l.starts_with("<word")).filter_map(word).collect();
    text.split("<page ").skip(1).map(of_page).collect()
}

fn text_of(page: &[Word]) -> String {
    page.iter().map(|w| w.text.as_str()).collect::<Vec<_>>().join(" ")
}

fn in_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The lowest line of a page above its foot.
fn last_line(page: &[Word]) -> String {
    let body = || page.iter().filter(|w| w.bottom < FOOT);
    let lowest = body().map(|w| w.bottom).fold(0.0, f64::max);
    // Letters of one line differ in height by less than half a line of 8 pt.
    body().filter(|w| lowest - w.bottom < 3.0).map(|w| w.text.as_str()).collect::<Vec<_>>().join(" ")
}

/// Every paper of a programme in both languages: its name and where it lies.
pub(crate) fn papers(desk: &Desk) -> Vec<(String, Lang, PathBuf)> {
    let mut out = vec![];
    for lang in [Lang::En, Lang::De] {
        let suffix = if lang == Lang::En { "" } else { "-de" };
        for (kind, file) in [("full", "report"), ("leaflet", "leaflet"), ("authority", "authority")] {
            desk.run(&["report", "p.sqlite", "--out", "papers", "--kind", kind, "--lang", lang.code()]).done();
            out.push((kind.to_string(), lang, desk.path(&format!("papers/{file}{suffix}.pdf"))));
        }
    }
    out
}

/// No word leaves the page's margins and no two lie on each other (M7).
#[track_caller]
fn nothing_overlaps(of: &str, pages: &[Vec<Word>]) {
    for (n, page) in pages.iter().enumerate() {
        for (i, a) in page.iter().enumerate() {
            // The margins are 17 mm at least (48 pt); a mark may hang out by a few.
            let inside = a.left > 44.0 && a.right < PAGE.0 - 44.0 && a.top > 28.0 && a.bottom < PAGE.1 - 18.0;
            assert!(inside, "{of}, page {}: {:?} leaves the page", n + 1, a.text);
            for b in &page[i + 1..] {
                let across = a.right.min(b.right) - a.left.max(b.left);
                let down = a.bottom.min(b.bottom) - a.top.max(b.top);
                // Boxes hold the room for accents and descenders: lines that only touch are not on each other.
                let meet = across > 1.5 && down > 0.45 * (a.bottom - a.top).min(b.bottom - b.top);
                assert!(!meet, "{of}, page {}: {:?} lies on {:?}", n + 1, a.text, b.text);
            }
        }
    }
}

/// Fonts are in the file, the document is tagged (M16).
#[track_caller]
fn opens_everywhere(of: &str, pdf: &Path) {
    let fonts = ran("pdffonts", &[], pdf);
    for line in fonts.lines().skip(2) {
        let columns: Vec<&str> = line.split_whitespace().rev().collect();
        // From the right: object and generation, uni, sub, emb.
        assert_eq!(columns[4], "yes", "{of}: {line}");
    }
    let info = ran("pdfinfo", &[], pdf);
    assert!(info.lines().any(|l| l.starts_with("Tagged:") && l.ends_with("yes")), "{of}: {info}");
}

/// Headings of a web page: the same as those of the paper.
fn headings(html: &Path) -> Vec<String> {
    let page = std::fs::read_to_string(html).unwrap();
    let mut out = vec![];
    for level in ["<h2", "<h3", "<h4"] {
        for piece in page.split(level).skip(1) {
            let text = piece.split_once('>').and_then(|(_, t)| t.split_once("</h")).map_or("", |t| t.0);
            if !text.contains('<') && !text.is_empty() {
                out.push(in_one_line(text));
            }
        }
    }
    out
}

fn check_a_paper(kind: &str, lang: Lang, pdf: &Path) {
    let of = format!("{kind} {lang:?}");
    let pages = pages(pdf);
    nothing_overlaps(&of, &pages);
    opens_everywhere(&of, pdf);
    let (most, full) = if kind == "full" { (36, 0.8) } else { (1, 0.0) };
    if pages.len() > most {
        println!("warning: {of} has {} pages, the design wants {most}", pages.len());
    }
    let headings = headings(&pdf.with_extension("html"));
    for (n, page) in pages.iter().enumerate() {
        let last = last_line(page);
        assert!(!headings.contains(&last), "{of}: the heading {last:?} is the last line of page {}", n + 1);
        let lowest = page.iter().map(|w| w.bottom).filter(|y| *y < FOOT).fold(0.0, f64::max);
        if kind == "full" && lowest < full * FOOT {
            println!("warning: {of}: page {} ends at {:.0} % of its height", n + 1, 100.0 * lowest / PAGE.1);
        }
    }
}

#[test]
fn no_line_of_the_demo_s_papers_lies_on_another() {
    let desk = Desk::with_programme();
    for (kind, lang, pdf) in papers(&desk) {
        check_a_paper(&kind, lang, &pdf);
    }
}

/// The same for programmes that are not the demo; each report within a minute (M9).
#[test]
fn papers_of_other_programmes_hold_too() {
    for fixture in ::fixtures::all() {
        let desk = Desk::new();
        fixture.write(&desk.path("files")).unwrap();
        desk.run(&["new", "p.sqlite"]).done();
        desk.run(&["import", "p.sqlite", "files/bundle.toml"]).done();
        let began = Instant::now();
        for (kind, lang, pdf) in papers(&desk) {
            check_a_paper(&format!("{}: {kind}", fixture.name), lang, &pdf);
        }
        // Six papers; the design allows a minute for one report.
        assert!(began.elapsed().as_secs() < 120, "{}: {:?}", fixture.name, began.elapsed());
    }
}

/// Page one ends with text between 88 and 96 % of its height (M3), in both languages.
#[test]
fn page_one_is_full() {
    let desk = Desk::with_programme();
    desk.run(&["report", "p.sqlite", "--out", "de", "--lang", "de"]).done();
    for pdf in [demo().join("report/report.pdf"), desk.path("de/report-de.pdf")] {
        let first = &pages(&pdf)[0];
        let lowest = first.iter().map(|w| w.bottom).filter(|y| *y < PAGE.1 - 48.0).fold(0.0, f64::max);
        let share = lowest / PAGE.1;
        assert!((0.88..=0.96).contains(&share), "{}: {share:.3}", pdf.display());
    }
}

/// Contents and bookmarks name the same headings on the same pages (M16).
#[test]
fn contents_and_bookmarks_agree() {
    let pdf = demo().join("report/report.pdf");
    let xml = ran("pdftohtml", &["-xml", "-i", "-stdout"], &pdf);
    let marks = xml.split_once("<outline>").expect("bookmarks").1;
    let marks: Vec<(String, String)> = marks
        .split("<item page=\"")
        .skip(1)
        .filter_map(|item| {
            let (page, rest) = item.split_once("\">")?;
            let heading = rest.split_once("</item>")?.0.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
            Some((page.to_string(), in_one_line(&heading)))
        })
        .collect();
    assert!(marks.len() > 20, "{marks:?}");
    let pages = pages(&pdf);
    let title = document_words::Contents.in_language(Lang::En);
    let contents = (1..pages.len()).find(|n| text_of(&pages[*n]).contains(&title)).expect("contents");
    let mut sent = 0;
    for (page, heading) in &marks {
        let at: usize = page.parse().unwrap();
        assert!(text_of(&pages[at - 1]).contains(heading), "{heading} is not on page {page}");
        // Depth three stands in the bookmarks alone, and a heading of several lines has its number on the last.
        let words: Vec<&str> = heading.split(' ').collect();
        let list = &pages[contents];
        let starts = (0..list.len()).filter(|i| {
            list.get(*i..i + words.len()).is_some_and(|of| of.iter().map(|w| w.text.as_str()).eq(words.iter().copied()))
        });
        let numbers: Vec<&str> = starts
            .filter_map(|i| {
                let last = &list[i + words.len() - 1];
                let beside = list.iter().filter(|w| (w.bottom - last.bottom).abs() < 2.0 && w.left >= last.right);
                // Where a word stands next, it is another heading that begins alike.
                beside.min_by(|a, b| a.left.total_cmp(&b.left)).map(|w| w.text.as_str())
            })
            .filter(|t| t.parse::<u32>().is_ok())
            .collect();
        sent += usize::from(numbers.contains(&page.as_str()));
        // A heading of a chapter can stand in an annex again, deeper than the contents go.
        let alike: Vec<&str> = marks.iter().filter(|(_, h)| h == heading).map(|(page, _)| page.as_str()).collect();
        assert!(numbers.iter().all(|n| alike.contains(n)), "{heading}: {numbers:?}, not {alike:?}");
    }
    assert!(sent > 15, "{sent} headings of the contents were found");
}

/// The leaflet names whom to ask or says that it is a draft; every column of values bears its day; a stream is no well
/// (M12).
#[test]
fn a_leaflet_has_a_contact_and_its_days() {
    let desk = Desk::with_programme();
    desk.run(&["report", "p.sqlite", "--out", "draft", "--kind", "leaflet"]).done();
    let draft = text_of(&pages(&desk.path("draft/leaflet.pdf"))[0]);
    assert!(draft.contains(&in_one_line(&leaflet::Draft.in_language(Lang::En))), "{draft}");
    let whom = "Marit Osk, 00 00 00 (invented)";
    desk.run(&["report", "p.sqlite", "--out", "x", "--kind", "leaflet", "--contact", whom]).done();
    let text = text_of(&pages(&desk.path("x/leaflet.pdf"))[0]);
    assert!(text.contains(whom) && !text.contains(&in_one_line(&leaflet::Draft.in_language(Lang::En))), "{text}");
    let (_, table) = text.split_once("SL-1 SL-2 SL-3").unwrap_or_else(|| panic!("{text}"));
    assert_eq!(table.match_indices("14 July 2026").take(3).count(), 3, "{table}");
    assert!(!text.contains("Heron Drain"), "a stream stands on the authority's sheet");
    // The well stands beside the words, a person to the same scale.
    assert!(text.contains(&paper::Person.in_language(Lang::En)));
    // A goal of zero alone is no exceedance that alarms a neighbour.
    assert!(!text.contains(" 0 (US EPA)"), "{text}");
}

/// Above comes first, then what cannot be told, then the question; the counts are those of the results (M15); who
/// sampled and who measured stands there.
#[test]
fn the_sheet_begins_with_what_lies_above() {
    let desk = Desk::with_programme();
    desk.run(&["report", "p.sqlite", "--out", "x", "--kind", "authority"]).done();
    let text = text_of(&pages(&desk.path("x/authority.pdf"))[0]);
    let at = |what: String| text.find(&in_one_line(&what)).unwrap_or_else(|| panic!("{what:?} is not in {text}"));
    let above = at(chapter::Above.in_language(Lang::En));
    let open = at(chapter::CannotTell.in_language(Lang::En));
    let asked = at(message::authority::Asked { element: "Lead".into() }.in_language(Lang::En));
    assert!(above < open && open < asked, "{text}");
    assert!(text.contains("3 wells, 1 stream"), "{text}");
    at(paper::WhoAndHow.in_language(Lang::En));
    for name in ["Marit Osk", "Lowmere Water Laboratory", "Sallow Levels laboratory"] {
        assert!(text.contains(name), "{name}");
    }
}

/// One share: the case, page one, the path and the table of the annex give the same part of a hundred (M11).
#[test]
fn one_share_stands_on_every_page() {
    let desk = Desk::with_programme();
    let case = desk.run(&["case", "p.sqlite", crate::desk::LEAD, "--json"]).json();
    let share = case["water_share"]["share"].as_f64().unwrap();
    let hundred = format!("{:.0}", 100.0 * share);
    let pages = pages(&demo().join("report/report.pdf"));
    for n in [0, 1] {
        assert!(pages[n].iter().any(|w| w.text == hundred), "page {}: {hundred}", n + 1);
    }
    // The numbers of the strip sum to a hundred; a part under a half counts as none.
    let strip = std::fs::read_to_string(demo().join("report/figures/strip-sl2-26-07-a-pb.svg")).unwrap();
    let numbers = strip.split("</text>").filter_map(|piece| piece.rsplit_once('>').map(|p| p.1.trim().to_string()));
    let sum: u32 = numbers.filter_map(|n| n.parse::<u32>().ok()).sum();
    assert_eq!(sum, 100, "{strip}");
}

/// No table has one row, and each figure of a document says what it shows (M6, M14).
#[test]
fn tables_have_rows_and_figures_words() {
    let page = std::fs::read_to_string(demo().join("report/report.html")).unwrap();
    for figure in page.split("<svg").skip(1).map(|s| s.split("</svg>").next().unwrap()) {
        let said = |tag: &str| {
            let text = figure.split_once(&format!("<{tag}")).and_then(|t| t.1.split_once('>')).map_or("", |t| t.1);
            !text.split('<').next().unwrap_or_default().trim().is_empty()
        };
        assert!(said("title") && said("desc"), "{}", figure.chars().take(300).collect::<String>());
    }
    // The leaflet's and the sheet's are tables of substances: one row is a sentence there.
    let desk = Desk::with_programme();
    desk.run(&["report", "p.sqlite", "--out", "x", "--kind", "authority"]).done();
    let sheet = std::fs::read_to_string(desk.path("x/authority.html")).unwrap();
    for body in sheet.split("<tbody").skip(1).map(|b| b.split("</tbody>").next().unwrap()) {
        assert!(body.matches("<tr").count() > 1, "{body}");
    }
}

/// Words that German papers never use, of the glossary; those that mean nothing else.
const NEVER: [&str; 16] = [
    "Leerprobe",
    "leerprobe",
    "Reiseblank",
    "Kontrollwasser",
    "Kopf-Hash",
    "Phiole",
    "Nichtfund",
    "akzeptiert",
    "provisorisch",
    "Sorgerecht",
    "Ladungsbalance",
    "Führungswert",
    "kritischer Wert",
    "Boden der Sonde",
    "Ablesung",
    "litre",
];

#[test]
fn german_papers_keep_to_the_glossary() {
    let desk = Desk::with_programme();
    for (kind, lang, pdf) in papers(&desk) {
        if lang != Lang::De {
            continue;
        }
        let text = pages(&pdf).iter().map(|p| text_of(p)).collect::<Vec<_>>().join(" ");
        for never in NEVER {
            let around = text.find(never).map(|at| text[..at].chars().rev().take(60).collect::<Vec<_>>());
            let around = around.map(|c| c.into_iter().rev().collect::<String>());
            assert_eq!(around, None, "{kind}: {never}");
        }
        // "Lauf" alone stands for no run: it is a Messlauf.
        assert!(!text.split(' ').any(|w| w.trim_matches(|c: char| !c.is_alphabetic()) == "Lauf"), "{kind}");
    }
}
