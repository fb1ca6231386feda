//! Tables of the printed papers: read back out of the PDF as rows, never divided into a few (M6), and what stands in them
//! and in sentences beside a ± (M10).
//!
//! The structure of the PDF is read by `pdfinfo -struct-text`, the pages by `pdftotext -raw` (both poppler): what a screen
//! reader and a copying hand get.

use crate::desk::Desk;
use crate::papers::{papers, ran};
use message::Lang;
use std::path::Path;

/// A table of the structure: its rows, each with the texts of its cells; heads are no rows.
struct Tagged {
    heads: usize,
    rows: Vec<Vec<String>>,
}

/// Without white space and joiners: a cell that wraps has its lines apart.
fn bare(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace() && !matches!(c, '\u{2060}' | '\u{200B}')).collect()
}

/// The tables of a PDF in their order.
fn tables(pdf: &Path) -> Vec<Tagged> {
    let text = ran("pdfinfo", &["-struct-text"], pdf);
    let mut out: Vec<Tagged> = vec![];
    let (mut table, mut in_cell, mut of_heads) = (None, false, vec![]);
    for line in text.lines() {
        let depth = line.len() - line.trim_start().len();
        let tag = line.trim();
        let is = |name: &str| {
            tag.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', ':', '(']))
        };
        if tag.starts_with('"') {
            let row = out.last_mut().filter(|_| table.is_some() && in_cell).and_then(|t| t.rows.last_mut());
            if let Some(cell) = row.and_then(|r| r.last_mut()) {
                // One piece a line: of a piece with an actual text of its own poppler gives nothing.
                cell.push('\n');
                *cell += tag.trim_matches('"');
            }
            continue;
        }
        if tag.starts_with('/') {
            continue;
        }
        if table.is_some_and(|at| depth <= at) {
            table = None;
        }
        if is("Table") {
            table = Some(depth);
            in_cell = false;
            out.push(Tagged { heads: 0, rows: vec![] });
        } else if let (Some(_), Some(t)) = (table, out.last_mut()) {
            if is("TR") {
                t.rows.push(vec![]);
                of_heads.push(true);
                in_cell = false;
            } else if is("TD") || is("TH") {
                // A row's first cell is its heading: a row of headings alone is the head of the table.
                in_cell = true;
                t.rows.last_mut().expect("a cell stands in a row").push(String::new());
                *of_heads.last_mut().expect("a cell stands in a row") &= is("TH");
            } else if is("Caption") || is("THead") || is("TBody") || is("TFoot") {
                in_cell = false;
            }
        }
    }
    let mut of_heads = of_heads.into_iter();
    for t in &mut out {
        let (heads, rows): (Vec<_>, Vec<_>) =
            std::mem::take(&mut t.rows).into_iter().partition(|_| of_heads.next() == Some(true));
        t.heads = heads.iter().map(Vec::len).sum();
        t.rows = rows.into_iter().filter(|r| r.iter().any(|c| !bare(c).is_empty())).collect();
    }
    out
}

/// How many rows of each table stand on each page: the rows are looked up one after another in the text of the pages,
/// which stands in the order of the structure.
fn rows_on_pages(pdf: &Path, tables: &[Tagged]) -> Vec<Vec<usize>> {
    let raw = ran("pdftotext", &["-raw"], pdf);
    let pages: Vec<String> = raw.split('\u{C}').map(bare).collect();
    let (mut page, mut at) = (0, 0);
    let mut out = vec![];
    for table in tables {
        let mut counts: Vec<usize> = vec![];
        let mut last = None;
        for row in &table.rows {
            let first = |c: &String| c.lines().map(bare).find(|piece| !piece.is_empty());
            let words: Vec<String> = row.iter().filter_map(first).collect();
            // The first cells name the row; of a long one its beginning does.
            let keys: Vec<String> = words.iter().take(3).map(|w| w.chars().take(24).collect()).collect();
            let found = (page..pages.len()).find_map(|n| {
                let from = if n == page { at } else { 0 };
                let mut search = from;
                loop {
                    let start = search + pages[n][search..].find(&keys[0])?;
                    let end = start + keys[0].len();
                    let near: String = pages[n][end..].chars().take(400).collect();
                    if keys[1..].iter().all(|key| near.contains(key.as_str())) {
                        return Some((n, end));
                    }
                    search = end;
                }
            });
            let (n, end) = found.unwrap_or_else(|| panic!("row {keys:?} is on no page from {} on", page + 1));
            (page, at) = (n, end);
            if last == Some(n) {
                *counts.last_mut().expect("a page was counted") += 1;
            } else {
                counts.push(1);
                last = Some(n);
            }
        }
        out.push(counts);
    }
    out
}

/// Rows that a table leaves on a page and carries over, at least (the design, section 5).
const KEPT: usize = 6;
/// Letters of a row that may need a page of its own.
const LONG_ROW: usize = 900;

/// What the PDF gives back as tables is what the web page has: as many tables, and rows in each. No part of a table has
/// fewer than six rows before or after a break; no table has one row; all have a head (M6). One test, because reading
/// the structure of a long paper takes poppler a minute.
#[test]
fn tables_come_back_out_of_the_paper_as_rows_and_none_is_divided_into_a_few() {
    let desk = Desk::with_programme();
    let mut divided = 0;
    for (kind, lang, pdf) in papers(&desk) {
        let tables = tables(&pdf);
        assert!(!tables.is_empty(), "{kind} {lang:?}");
        let page = std::fs::read_to_string(pdf.with_extension("html")).unwrap();
        let of_page: Vec<usize> = bodies(&page).map(|body| body.matches("<tr").count()).collect();
        assert_eq!(tables.iter().map(|t| t.rows.len()).collect::<Vec<_>>(), of_page, "{kind} {lang:?}");
        for (n, (table, on_pages)) in tables.iter().zip(rows_on_pages(&pdf, &tables)).enumerate() {
            let of = format!("{kind} {lang:?}, table {} of the file, {:?}", n + 1, table.rows[0]);
            assert!(table.rows.len() > 1, "{of}: one row");
            assert!(table.heads > 1, "{of}: no head");
            if table.rows.iter().any(|r| r.iter().map(String::len).sum::<usize>() > LONG_ROW) {
                continue;
            }
            divided += usize::from(on_pages.len() > 1);
            if on_pages.len() > 1 {
                assert!(on_pages.iter().all(|rows| *rows >= KEPT), "{of}: {on_pages:?} rows on its pages");
            }
        }
    }
    assert!(divided > 3, "{divided} tables run over a page: the others tell nothing");
}

/// The bodies of the tables of a web page.
fn bodies(page: &str) -> impl Iterator<Item = &str> {
    page.split("<tbody").skip(1).map(|b| b.split("</tbody>").next().unwrap_or(b))
}

/// The text of a piece of a web page.
fn text(html: &str) -> String {
    let mut out = String::new();
    for piece in html.split('<') {
        let (tag, words) = piece.split_once('>').unwrap_or(("", piece));
        if tag.starts_with("br") || tag.starts_with("/t") || tag.starts_with("/p") || tag.starts_with("/li") {
            out.push(' ');
        }
        out += words;
    }
    let out = out.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&").replace('\u{A0}', " ");
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Cells of a row or head as texts.
fn cells(row: &str) -> Vec<String> {
    row.split("<t")
        .skip(1)
        .filter(|c| ["d ", "d>", "h ", "h>"].iter().any(|cell| c.starts_with(cell)))
        .map(|c| text(&format!("<t{c}")))
        .collect()
}

/// Is this a number, as either language prints it?
fn is_number(word: &str) -> bool {
    let digits = word.trim_start_matches(['(', '−', '-', '<', '>']).trim_end_matches([')', ',', ';', '.', ':']);
    digits.starts_with(|c: char| c.is_ascii_digit())
}

/// Words that may stand where a unit does: units of the trade, and what a number of its own kind has instead.
fn is_unit(word: &str) -> bool {
    const BARE: [&str; 26] = [
        "%",
        "L",
        "mL",
        "m",
        "mm",
        "cm",
        "km",
        "min",
        "h",
        "s",
        "°C",
        "K",
        "pg",
        "ng",
        "mV",
        "µm",
        "g",
        "d",
        "a",
        "ppm",
        "pH",
        "counts/s",
        "Impulse/s",
        "‰",
        "TU",
        "pMC",
    ];
    let bare = word.trim_matches(|c: char| matches!(c, '(' | ')' | ',' | ';' | '.' | ':'));
    BARE.contains(&bare) || (bare.contains('/') && !is_number(bare)) || bare.contains(['²', '³', '⁻'])
}

/// Beside every ± stand two numbers, and a unit behind it or at the head of its column or row; what ± is, is said beneath
/// the table or beside the sentence; it is never a standard uncertainty (M10).
#[test]
fn beside_a_plus_minus_stand_its_unit_and_what_it_is() {
    let desk = Desk::with_programme();
    let mut looked_at = 0;
    for (kind, lang, pdf) in papers(&desk) {
        let page = std::fs::read_to_string(pdf.with_extension("html")).unwrap();
        let of = format!("{kind} {lang:?}");
        for bare in ["(u 0", "(u 1", "(u 2", "(u 3", "(u 4", "(u 5", "(u 6", "(u 7", "(u 8", "(u 9"] {
            let around = findings(&page).find(|f| f.contains(bare));
            assert_eq!(around, None, "{of}: a finding shows a bare u");
        }
        for (table, after) in page.split("<table").skip(1).filter_map(|t| t.split_once("</table>")) {
            let head = cells(table.split("</thead>").next().unwrap_or_default());
            let rows = bodies(table).flat_map(|b| b.split("<tr").skip(1)).map(cells);
            let mut any = false;
            for row in rows {
                for (n, cell) in row.iter().enumerate().filter(|(_, c)| c.contains('±')) {
                    any = true;
                    looked_at += 1;
                    let words: Vec<&str> = cell.split(' ').collect();
                    let at = words.iter().position(|w| *w == "±").unwrap_or_else(|| panic!("{of}: {cell:?}"));
                    let beside = at > 0 && is_number(words[at - 1]) && words.get(at + 1).is_some_and(|w| is_number(w));
                    let behind = words[at + 1..].iter().skip(1).take(2).any(|w| is_unit(w));
                    let above = head.get(n).is_some_and(|h| h.split(' ').any(is_unit) || without_a_unit(h));
                    let left = row.iter().any(|c| is_unit(c) || without_a_unit(c));
                    assert!(beside && (behind || above || left), "{of}: {cell:?} under {:?} in {row:?}", head.get(n));
                }
            }
            // The note of a table, or of the page where its tables share one.
            let note = after.split("<table").next().map(text).unwrap_or_default();
            let said = note.contains('±') || text(&page).contains(&said_once(lang));
            assert!(!any || said, "{of}: what ± is, is not said under {head:?}");
        }
    }
    assert!(looked_at > 200, "{looked_at} values with ± were looked at");
}

/// Quantities that have no unit, as heads and first cells name them.
fn without_a_unit(name: &str) -> bool {
    const NONE: [&str; 12] = [
        "pH",
        "ratio",
        "Verhältnis",
        "factor",
        "Faktor",
        "storage",
        "Speicher",
        "206/207",
        "208/206",
        "206Pb",
        "208Pb",
        "conductivity ratio",
    ];
    NONE.iter().any(|n| name.contains(n))
}

/// The sentence of a page that says for all its tables what ± is.
fn said_once(lang: Lang) -> String {
    let expanded = message::document::Expanded { k: message::Shown::significant(2.0, 2, "") };
    text(&message::Spoken::in_language(&expanded, lang))
}

/// The findings of a page as texts.
fn findings(page: &str) -> impl Iterator<Item = String> + '_ {
    page.split("<ul class=\"findings\">").skip(1).map(|f| text(f.split("</ul>").next().unwrap_or(f)))
}

/// On the pages for others every value stands under or beside its day (M10, M12).
#[test]
fn values_for_others_have_their_day() {
    let desk = Desk::with_programme();
    let months = ["July 2026", "Juli 2026"];
    for (kind, lang, pdf) in papers(&desk).into_iter().filter(|p| p.0 != "full") {
        let page = std::fs::read_to_string(pdf.with_extension("html")).unwrap();
        let mut looked_at = 0;
        for table in page.split("<table").skip(1).filter_map(|t| t.split("</table>").next()) {
            let head = cells(table.split("</thead>").next().unwrap_or_default());
            let captioned = text(table.split("</caption>").next().unwrap_or_default());
            for row in bodies(table).flat_map(|b| b.split("<tr").skip(1)).map(cells) {
                for (n, cell) in row.iter().enumerate().filter(|(_, c)| c.contains('±') || c.starts_with("< ")) {
                    looked_at += 1;
                    let dated = |t: &String| months.iter().any(|m| t.contains(m));
                    // An hour under a day.
                    let hour = head.iter().position(dated).and_then(|at| row.get(at)).is_some_and(|c| c.contains(':'));
                    let above = head.get(n).is_some_and(dated) || dated(&captioned);
                    let day = dated(cell) || above || row.iter().any(dated) || hour;
                    assert!(day, "{kind} {lang:?}: {cell:?} of {row:?} has no day");
                }
            }
        }
        assert!(looked_at > 4, "{kind} {lang:?}: {looked_at} values");
    }
}
