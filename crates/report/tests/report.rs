//! The two renderings of one report: they say the same, they need nothing from outside, nothing in
//! the data acts as markup, the cautions and the mark of invented data are always there.

use crate::specimen;

use document::content::{Block, Cell, Column, Content, Section, Table};
use document::html::to_html;
use document::paper::to_markup;
use quantity::{Amount, Unit};

#[test]
fn the_page_needs_nothing_from_outside() {
    let page = to_html(&specimen::content());
    let rest = page.replace("http://www.w3.org/2000/svg", "");
    for bad in ["http:", "https:", "<script", "src=", "@import", "<link", "url(/", "javascript:"] {
        assert!(!rest.contains(bad), "{bad}");
    }
    assert_eq!(rest.matches("url(").count(), rest.matches("url(data:font/woff2;base64,").count());
    assert_eq!(page.matches("@font-face").count(), 3, "the fonts stand in the page once");
}

#[test]
fn the_page_can_be_read_without_seeing_it() {
    let page = to_html(&specimen::content());
    assert!(page.starts_with("<!DOCTYPE html>\n<html lang=\"en-GB\">"));
    assert_eq!(page.matches("<h1>").count(), 1);
    assert_eq!(page.matches("<svg").count(), page.matches("role=\"img\" aria-labelledby=").count());
    assert_eq!(page.matches("<table").count(), page.matches("<caption").count());
    let mut ids: Vec<&str> = page.split(" id=\"").skip(1).filter_map(|t| t.split('"').next()).collect();
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "each id stands once");
    for tag in ["section", "table", "figure", "svg", "div", "ul", "dl", "span", "tr", "td", "th", "p", "text"] {
        let open = page.matches(&format!("<{tag}>")).count() + page.matches(&format!("<{tag} ")).count();
        assert_eq!(open, page.matches(&format!("</{tag}>")).count(), "{tag}");
    }
}

/// Relative luminance and contrast of WCAG 2 (definitions in the recommendation).
fn contrast(a: &str, b: &str) -> f64 {
    let luminance = |hex: &str| {
        let part = |i: usize| {
            let c = f64::from(u8::from_str_radix(&hex[i..i + 2], 16).unwrap()) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    };
    let (x, y) = (luminance(a), luminance(b));
    (x.max(y) + 0.05) / (x.min(y) + 0.05)
}

#[test]
fn text_colours_meet_wcag_aa() {
    use figure::ink::{FORECAST, LINE, MET, MUTED, NOT_KNOWN, NOT_MET, PAPER, TEXT, WATER, WATER_PALE};
    for colour in [TEXT, MUTED, WATER, MET, NOT_MET, NOT_KNOWN] {
        assert!(contrast(colour, PAPER) >= 4.5, "{colour}: {}", contrast(colour, PAPER));
    }
    assert!(contrast(LINE, PAPER) >= 3.0, "graphics: {}", contrast(LINE, PAPER));
    assert!(contrast(TEXT, FORECAST) >= 4.5 && contrast(TEXT, WATER_PALE) >= 4.5);
    // The two pale grounds stay apart in a grey print by outline, not by tone; lines do by tone.
    assert!(contrast(WATER, WATER_PALE) >= 3.0);
}

#[test]
fn cautions_and_the_mark_of_invented_data_always_stand() {
    let mut c = specimen::content();
    for (invented, times) in [(true, 2), (false, 0)] {
        c.invented = invented;
        assert_eq!(to_html(&c).matches(Content::INVENTED).count(), times, "{invented}");
        let on_paper = to_markup(&c).main;
        assert_eq!(on_paper.contains(&format!("foot-mark = \"{}\"", Content::INVENTED)), invented);
    }
    let empty = Content::default();
    for text in [to_html(&empty), to_markup(&empty).main] {
        assert!(text.contains("never tested for microbes"));
        assert!(text.contains("local health authority"));
        assert!(!text.to_lowercase().contains("safe to drink"));
    }
    let tested =
        Content { microbes: "Tested on 2026-07-14: see the laboratory’s sheet.".into(), ..Content::default() };
    assert!(!to_html(&tested).contains("never tested for microbes"));
}

fn evil_figure(name: &str) -> document::content::Illustration {
    let mut path = specimen::path_sl2();
    path.title = name.into();
    path.stages[1].name = name.into();
    document::content::Illustration { wide: path.wide(), phone: Some(path.phone()), caption: name.into() }
}

#[test]
fn nothing_in_the_data_acts_as_markup() {
    let evil = "</td><script>alert(1)</script> #eval(\"1\") $x$ *b* \\ \" & < 漢 \u{7} \u{202E} x";
    let mut c = specimen::content();
    c.title = evil.into();
    c.asked = vec![evil.into()];
    c.sections = vec![Section {
        annex: None,
        name: String::new(),
        title: evil.into(),
        blocks: vec![
            Block::Figure(evil_figure(evil)),
            Block::Table(Table {
                caption: evil.into(),
                columns: vec![Column::words(evil), Column::numbers("lead", evil)],
                rows: vec![vec![Cell::Text(evil.into())]],
                notes: vec![evil.into()],
            }),
        ],
    }];
    let page = to_html(&c);
    assert!(!page.contains("<script>"));
    let bytes = to_markup(&c).pdf().expect("any text can be set");
    assert!(bytes.starts_with(b"%PDF"));
}

#[test]
fn the_pdf_is_tagged_titled_and_the_same_each_time() {
    let c = specimen::content();
    let once = to_markup(&c).pdf().expect("the specimen can be set");
    assert!(once.starts_with(b"%PDF-1.7"));
    let holds = |text: &[u8]| once.windows(text.len()).any(|w| w == text);
    for mark in [b"/StructTreeRoot".as_slice(), b"/Outlines", b"/Lang", b"pdfuaid", b"2026-07-20"] {
        assert!(holds(mark), "{}", String::from_utf8_lossy(mark));
    }
    assert_eq!(once, to_markup(&specimen::content()).pdf().expect("again"));
}

#[test]
fn a_report_with_nothing_in_it_can_be_set() {
    let c = Content { title: "Empty".into(), ..Content::default() };
    assert!(to_markup(&c).pdf().is_ok());
}

#[test]
fn numbers_in_a_column_line_up_and_explain_themselves() {
    let ng = || Unit::known("ng/L");
    let amount = |a: Amount, k: f64| vec![Cell::Amount { amount: a, k }];
    let mut t = Table {
        caption: "x".into(),
        columns: vec![Column::numbers("lead", "ng/L")],
        rows: vec![
            amount(Amount::measured(1.05, 0.06, ng()), 2.0),
            amount(Amount::below(2.0, ng()), 2.0),
            amount(Amount::stated(3.5, ng()), 2.0),
            amount(Amount::stated(3.5, Unit::known("ug/L")), 2.0),
        ],
        notes: vec![],
    };
    let shown = t.shown();
    assert_eq!(shown[0][0].words.replace('\u{A0}', " "), "1.05 ± 0.12");
    assert!(shown[0][0].pad_em.abs() < 1e-12 && shown[1][0].pad_em > shown[2][0].pad_em);
    assert_eq!(shown[3][0].words.replace('\u{A0}', " "), "3.5 † µg/L", "another unit is never left out");
    assert_eq!(
        t.all_notes(),
        [
            "± is the expanded uncertainty, k = 2.0.",
            "< stands before an upper bound, not a value: nothing was detected, or the metal of a stage that no blank met is in it.",
            "† the source states no uncertainty."
        ]
    );
    t.rows.push(amount(Amount::measured(1.0, 0.1, ng()), 2.57));
    assert!(t.shown()[0][0].words.ends_with("(k\u{A0}2.0)"), "with several k each number carries its own");
}
