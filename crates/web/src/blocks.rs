//! The report's own parts on a page: paragraphs, tables, pictures, findings; and listings of the web interface. Tables and
//! listings also as CSV, pictures as SVG: the same address with `table=N` or `figure=N`.

use crate::app::App;
use crate::auth::who::Who;
use crate::http_error::HttpError;
use crate::page::{self, Place};
use crate::style::PADS;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use document::content::{Align, Block, Cell, Illustration, Shown, Table, Word};
use document::printed::printed;
use maud::{Markup, PreEscaped, html};
use message::{Spoken, language, web_frame as says, word};
use quantity::{Finding, Outcome, Stage};
use std::collections::HashMap;

/// A cell of a listing: what is shown, and its words for the CSV.
#[derive(Debug, Clone)]
pub(crate) struct Td {
    pub shown: Markup,
    pub words: String,
    pub number: bool,
}

/// Words.
pub(crate) fn td(words: impl Into<String>) -> Td {
    let words = words.into();
    Td { shown: html! { (words) }, words, number: false }
}

/// A link.
pub(crate) fn link(to: &str, words: impl Into<String>) -> Td {
    let words = words.into();
    Td { shown: html! { a href=(to) { (words) } }, words, number: false }
}

/// A number.
pub(crate) fn number(words: impl Into<String>) -> Td {
    Td { number: true, ..td(words) }
}

/// A verdict as sign and word.
pub(crate) fn verdict(word: Option<Word>) -> Td {
    if let Some(w) = word {
        return Td { shown: verdict_word(w), words: word_of(w), number: false };
    }
    let words = says::Evidence.text();
    Td { shown: html! { span.quiet { (words) } }, words, number: false }
}

/// A table of the web interface.
#[derive(Debug, Clone, Default)]
pub(crate) struct Listing {
    pub caption: String,
    pub headings: Vec<String>,
    pub rows: Vec<Vec<Td>>,
    /// What stands in place of the rows where there are none.
    pub empty: &'static str,
    /// Under the table.
    pub foot: Option<Markup>,
    /// Address of the whole table as CSV, where the page shows a part of it.
    pub all: Option<String>,
}

impl Listing {
    /// The table, or a sentence in the language of who asks where it has no rows.
    pub fn or(self, nothing: impl Into<String>) -> Piece {
        if self.rows.is_empty() { Piece::Markup(html! { p.quiet { (nothing.into()) } }) } else { Piece::Listing(self) }
    }
}

/// A piece of a page.
pub(crate) enum Piece {
    Block(Block),
    Listing(Listing),
    Markup(Markup),
    /// Pieces behind a line that opens them.
    Fold(Fold),
}

/// Pieces that are folded away: a long page stays short, and its tables keep their numbers.
pub(crate) struct Fold {
    /// The line that opens them.
    pub line: String,
    /// Anchor.
    pub id: String,
    pub pieces: Vec<Piece>,
    /// Open from the start, where there is little to see.
    pub open: bool,
}

impl Piece {
    /// The pieces folded in it, or itself.
    fn flat(&self) -> Vec<&Self> {
        match self {
            Self::Fold(f) => f.pieces.iter().flat_map(Self::flat).collect(),
            other => vec![other],
        }
    }
}

impl From<Block> for Piece {
    fn from(b: Block) -> Self {
        Self::Block(b)
    }
}

impl From<Listing> for Piece {
    fn from(l: Listing) -> Self {
        Self::Listing(l)
    }
}

impl From<Markup> for Piece {
    fn from(m: Markup) -> Self {
        Self::Markup(m)
    }
}

/// A query: which table or picture is asked for by itself.
pub(crate) type Query = HashMap<String, String>;

/// A picture alone carries its font in a style of its own, and does nothing else.
const ALONE: &str = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; sandbox";

/// Dots of a PNG for each of the picture's own: sharp in print at the width of a column.
const PNG_SCALE: f32 = 3.0;

/// A page of pieces, or one of its tables or pictures alone.
pub(crate) fn respond(
    app: &App,
    who: &Who,
    place: Place,
    query: &Query,
    pieces: &[Piece],
) -> Result<Response, HttpError> {
    // Counted from 1, as people count; 0 wraps round to a place that no page has.
    let at = |name: &str| query.get(name).and_then(|n| n.parse::<usize>().ok());
    if let Some(n) = at("table") {
        let table = pieces.iter().flat_map(Piece::flat).filter_map(table_csv).nth(n.wrapping_sub(1));
        let csv = table.ok_or_else(|| HttpError::absent("There is no such table on the page."))??;
        return Ok(csv_file(&format!("{}-{n}", place.title), csv));
    }
    if let Some(n) = at("figure") {
        let figures = pieces.iter().flat_map(Piece::flat).filter_map(|p| match p {
            Piece::Block(Block::Figure(f)) => Some(f),
            _ => None,
        });
        let figure = figures.into_iter().nth(n.wrapping_sub(1));
        let f = figure.ok_or_else(|| HttpError::absent("There is no such picture on the page."))?;
        if query.get("as").is_some_and(|a| a == "png") {
            let bytes = typeset::png(&f.wide.for_paper(), PNG_SCALE).map_err(|e| HttpError::outside(e.to_string()))?;
            let name = format!("attachment; filename=\"{}.png\"", f.wide.id);
            let headers = [(header::CONTENT_TYPE, "image/png".to_string()), (header::CONTENT_DISPOSITION, name)];
            return Ok((headers, bytes).into_response());
        }
        let headers = [
            (header::CONTENT_TYPE, "image/svg+xml".to_string()),
            (header::CONTENT_SECURITY_POLICY, ALONE.to_string()),
            (header::CONTENT_DISPOSITION, format!("inline; filename=\"{}.svg\"", f.wide.id)),
        ];
        return Ok((headers, f.wide.alone()).into_response());
    }
    Ok(body(app, who, place, pieces).into_response())
}

/// A page of pieces.
pub(crate) fn body(app: &App, who: &Who, place: Place, pieces: &[Piece]) -> Markup {
    let mut set = Setter { here: &who.here, tables: 0, figures: 0 };
    let body = html! { @for p in pieces { (set.piece(p)) } };
    page::page(app, who, place, &body)
}

/// A CSV file.
pub(crate) fn csv_file(name: &str, text: String) -> Response {
    let name = format!("attachment; filename=\"{}.csv\"", figure::slug(name));
    ([(header::CONTENT_TYPE, "text/csv; charset=utf-8".to_string()), (header::CONTENT_DISPOSITION, name)], text)
        .into_response()
}

fn table_csv(piece: &Piece) -> Option<Result<String, HttpError>> {
    match piece {
        Piece::Block(Block::Table(t)) => {
            let unit = |u: &str| if u.is_empty() { String::new() } else { format!(" ({u})") };
            let head: Vec<String> = t.columns.iter().map(|c| format!("{}{}", c.heading, unit(&c.unit))).collect();
            let rows = t.shown().into_iter().map(|r| r.into_iter().map(|c| c.words.replace('\u{A0}', " ")).collect());
            Some(csv(&head, rows))
        }
        Piece::Listing(l) => Some(listing_csv(l)),
        _ => None,
    }
}

/// A listing as CSV.
pub(crate) fn listing_csv(l: &Listing) -> Result<String, HttpError> {
    csv(&l.headings, l.rows.iter().map(|r| r.iter().map(|c| c.words.replace('\u{A0}', " ")).collect()))
}

/// Headings and rows as CSV; no cell of it runs as a formula.
pub(crate) fn csv(head: &[String], rows: impl Iterator<Item = Vec<String>>) -> Result<String, HttpError> {
    let failed = |e: csv::Error| HttpError::outside(e.to_string());
    let mut out = csv::Writer::from_writer(vec![]);
    out.write_record(head).map_err(failed)?;
    for row in rows {
        let cells: Vec<String> = row.into_iter().map(harmless).collect();
        out.write_record(&cells).map_err(failed)?;
    }
    let bytes = out.into_inner().map_err(|e| HttpError::outside(e.to_string()))?;
    String::from_utf8(bytes).map_err(|e| HttpError::outside(e.to_string()))
}

/// A cell that a spreadsheet would take for a formula gets an apostrophe before it; numbers stay.
fn harmless(cell: String) -> String {
    if cell.starts_with(['=', '+', '@', '\t']) || (cell.starts_with('-') && cell.parse::<f64>().is_err()) {
        return format!("'{cell}");
    }
    cell
}

/// A verdict as sign and word.
pub(crate) fn verdict_word(w: Word) -> Markup {
    let class = match w {
        Word::Accepted => "accepted",
        Word::Provisional => "provisional",
        Word::Rejected => "rejected",
    };
    html! { span class=(format!("vd {class}")) { (square(w)) " " (word_of(w)) } }
}

/// The mark of a verdict, which its word stands beside: filled, half, crossed square.
pub(crate) fn square(w: Word) -> Markup {
    let class = match w {
        Word::Accepted => "mk accepted",
        Word::Provisional => "mk provisional",
        Word::Rejected => "mk rejected",
    };
    html! { i class=(class) aria-hidden="true" {} }
}

/// A verdict as a word.
pub(crate) fn word_of(w: Word) -> String {
    match w {
        Word::Accepted => word::Accepted.text(),
        Word::Provisional => word::Provisional.text(),
        Word::Rejected => word::Rejected.text(),
    }
}

/// An outcome as a word.
pub(crate) fn outcome_text(o: Outcome) -> String {
    match o {
        Outcome::Met => word::Met.text(),
        Outcome::NotMet => word::NotMet.text(),
        Outcome::NotKnown => word::NotKnown.text(),
    }
}

/// A stage of the path as a word.
fn stage(s: Stage) -> String {
    match s {
        Stage::Aquifer => word::Aquifer.text(),
        Stage::Well => word::Well.text(),
        Stage::CleanAir => word::CleanAir.text(),
        Stage::Bottle => word::Bottle.text(),
        Stage::CoolBox => word::CoolBox.text(),
        Stage::LabRun => word::LabRun.text(),
        Stage::Number => word::Number.text(),
        Stage::Meaning => message::document::Meaning.text(),
    }
}

/// The mark of what came of a check, which its word stands beside: a tick in a ring, a crossed square, a broken ring.
pub(crate) fn outcome_mark(o: Outcome) -> Markup {
    let class = match o {
        Outcome::Met => "oc met",
        Outcome::NotMet => "oc not",
        Outcome::NotKnown => "oc unknown",
    };
    html! { i class=(class) aria-hidden="true" {} }
}

/// Words with the mark of an outcome.
pub(crate) fn marked(o: Outcome, words: &str) -> Markup {
    let class = match o {
        Outcome::Met => "state met",
        Outcome::NotMet => "state not",
        Outcome::NotKnown => "state unknown",
    };
    html! { span class=(class) { (outcome_mark(o)) " " (words) } }
}

/// The outcome of a check as mark and word.
pub(crate) fn outcome_word(o: Outcome) -> Markup {
    marked(o, &outcome_text(o))
}

struct Setter<'a> {
    here: &'a str,
    tables: usize,
    figures: usize,
}

impl Setter<'_> {
    fn alone(&self, what: &str, n: usize) -> String {
        let join = if self.here.contains('?') { '&' } else { '?' };
        format!("{}{join}{what}={n}", self.here)
    }

    fn piece(&mut self, piece: &Piece) -> Markup {
        match piece {
            Piece::Markup(m) => m.clone(),
            Piece::Listing(l) => self.listing(l),
            Piece::Block(b) => self.block(b),
            Piece::Fold(f) => html! {
                details.fold #(f.id) open[f.open] { summary { (f.line) } @for p in &f.pieces { (self.piece(p)) } }
            },
        }
    }

    fn block(&mut self, block: &Block) -> Markup {
        match block {
            Block::Text(t) => html! { p { (in_print(t)) } },
            Block::Heading(t) => html! { h2 { (in_print(t)) } },
            Block::List(items) => html! { ul { @for i in items { li { (in_print(i)) } } } },
            Block::Table(t) => self.table(t),
            Block::Figure(f) => self.figure(f),
            Block::Findings(f) => findings(f),
        }
    }

    fn listing(&mut self, l: &Listing) -> Markup {
        self.tables += 1;
        let id = format!("t{}", self.tables);
        if l.rows.is_empty() {
            return html! { p.quiet { (l.empty) } };
        }
        html! {
            div.frame role="region" tabindex="0" aria-labelledby=(id) {
                table {
                    caption #(id) { span { (l.caption) } }
                    thead { tr { @for (j, h) in l.headings.iter().enumerate() {
                        th scope="col" class=[l.rows[0].get(j).is_some_and(|c| c.number).then_some("n")] { (h) }
                    } } }
                    tbody { @for row in &l.rows { tr { @for (j, c) in row.iter().enumerate() {
                        @let class = class_of(&c.words, c.number);
                        @if j == 0 { th scope="row" class=[class] { (c.shown) } } @else { td class=[class] { (c.shown) } }
                    } } } }
                }
            }
            p.under { @if let Some(f) = &l.foot { (f) " " } a href=(l.all.clone().unwrap_or_else(|| self.alone("table", self.tables))) { (says::Csv.text()) } }
        }
    }

    fn table(&mut self, t: &Table) -> Markup {
        self.tables += 1;
        let id = format!("t{}", self.tables);
        let shown = t.shown();
        html! {
            div.frame role="region" tabindex="0" aria-labelledby=(id) {
                table {
                    caption #(id) { span { (in_print(&t.caption)) } }
                    thead { tr { @for c in &t.columns {
                        th scope="col" class=[(c.align == Align::Number).then_some("n")] {
                            (in_print(&c.heading)) @if !c.unit.is_empty() { br; small { (in_print(&c.unit)) } }
                        }
                    } } }
                    tbody { @for (row, cells) in shown.iter().zip(&t.rows) { tr { @for (j, cell) in row.iter().enumerate() {
                        (cell_markup(cell, cells.get(j).map(Cell::plain), j == 0, t.columns[j].align))
                    } } } }
                }
            }
            p.under { (in_print(&t.all_notes().join(" "))) " " a href=(self.alone("table", self.tables)) { (says::Csv.text()) } }
        }
    }

    fn figure(&mut self, f: &Illustration) -> Markup {
        let drawn = |f: &::figure::Figure| PreEscaped(::document::printed::drawing(&f.inline(), message::language()));
        self.figures += 1;
        let svg = self.alone("figure", self.figures);
        let notes = f.wide.notes();
        html! {
            figure {
                @match &f.phone {
                    Some(phone) => {
                        div.wide { (drawn(&f.wide)) }
                        div.phone { (drawn(phone)) }
                    }
                    None => {
                        div.frame role="region" tabindex="0" aria-label=(f.wide.title) { (drawn(&f.wide)) }
                    }
                }
                @if !notes.is_empty() {
                    template.notes data-told=(says::Told.text()) data-zoom=(says::ToldZoom.text()) data-of=(says::ToldOf.text()) { @for n in notes {
                        i p=(format!("{:.0} {:.0} {:.2}", n.at.0, n.at.1, n.time_years)) { (n.words) }
                    } }
                }
                figcaption { (in_print(&f.caption)) " " a href=(svg) { (says::Svg.text()) } " " a href=(format!("{svg}&as=png")) download { (says::Png.text()) } }
            }
        }
    }
}

/// As it is printed: days in words, no code of the record.
fn in_print(text: &str) -> String {
    printed(text, language())
}

/// Findings in the order of the path.
pub(crate) fn findings(all: &[Finding]) -> Markup {
    html! {
        ul.findings { @for f in all {
            li {
                (outcome_word(f.outcome))
                span {
                    span.quiet { (stage(f.stage)) ": " } (in_print(&f.as_sentence()))
                    @if !f.compared.is_empty() {
                        br; small {
                            @for (n, c) in f.compared.iter().enumerate() { @if n > 0 { " · " } (in_print(&c.text())) " " (in_print(&c.amount.with_expanded().text())) }
                        }
                    }
                }
            }
        } }
    }
}

fn class_of(words: &str, number: bool) -> Option<&'static str> {
    let length = words.chars().count();
    // A label, a name or a moment is not broken at its hyphens.
    let whole = !words.contains(' ') || (length <= 19 && words.starts_with(|c: char| c.is_ascii_digit()));
    match length {
        _ if number => Some("n"),
        41.. => Some("long"),
        0..=22 if whole => Some("name"),
        _ => None,
    }
}

fn cell_markup(cell: &Shown, of: Option<&Cell>, first: bool, align: Align) -> Markup {
    let pad = ((cell.pad_em * 20.0).round() as usize).min(PADS);
    let class = class_of(&cell.words, align == Align::Number);
    let words = in_print(&cell.words);
    let inner = html! {
        @if let Some(Cell::Verdict(w)) = of { (verdict_word(*w)) }
        @else if let Some(Cell::Outcome(o)) = of { (outcome_word(*o)) }
        @else if cell.muted { span.quiet { (words) } }
        @else if pad > 0 { span class=(format!("p{pad}")) { (words) } }
        @else { (words) }
    };
    let inner = match &cell.result {
        Some(result) => html! { a href=(page::case_address(result)) { (inner) } },
        None => inner,
    };
    html! {
        @if first { th scope="row" class=[class] { (inner) } } @else { td class=[class] { (inner) } }
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn no_cell_is_a_formula() {
        let check = |cell: &str, out: &str| assert_eq!(super::harmless(cell.into()), out);
        check("=1+1", "'=1+1");
        check("@x", "'@x");
        check("-1.5", "-1.5");
        check("-x", "'-x");
        check("SL-2", "SL-2");
    }
}
