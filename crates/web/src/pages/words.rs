//! What pages of results say, in the language of who asks: verdicts and outcomes as mark and word, checks and fractions in
//! words, days, values in parts, and blocks of the report without codes.
//!
//! A name that a person gave is never touched; what only the record calls so ([`printed`]) never reaches a page.

use crate::blocks::{Listing, Piece, Td};
use crate::page::case_address;
use ::document::content::{Block, Cell, Table};
use ::document::printed::printed as in_print;
use assessment::results::Listed;
use maud::{Markup, html};
use message::{Message, Shown, Spoken, language, run, web_results as said, word};
use quantity::{Finding, Outcome};
use record::model::VerdictWord;

/// A text without codes and ISO dates.
pub(crate) fn printed(text: &str) -> String {
    in_print(text, language())
}

/// The day of a moment: `14 July 2026`; empty for none.
pub(crate) fn day(iso: &str) -> String {
    printed(iso.get(..10).unwrap_or(iso))
}

/// A moment: `14 July 2026, 12:10`.
pub(crate) fn moment(iso: &str) -> String {
    printed(iso)
}

/// A substance, its first letter large.
pub(crate) fn substance(analyte: &str) -> String {
    let name = ::report::pages::element(analyte);
    // pH and Eh stay as they are.
    if name.chars().nth(1).is_some_and(char::is_uppercase) { name } else { message::number::capital(&name) }
}

/// The isotopes that a value stands on; empty where the source names none.
pub(crate) fn isotopes(isotopes: &str) -> String {
    match isotopes.split('+').count() {
        _ if isotopes.is_empty() => String::new(),
        1 => said::Isotope { isotope: isotopes.into() }.text(),
        n => said::IsotopesTogether { n: message::count(n), isotopes: isotopes.replace('+', ", ").into() }.text(),
    }
}

/// What was filtered; empty where nobody says.
pub(crate) fn fraction(fraction: &str) -> String {
    if fraction.is_empty() {
        return String::new();
    }
    printed(&run::Fraction { fraction: fraction.into() }.text())
}

/// What a bottle or a vial is.
pub(crate) fn kind(word: &str) -> String {
    Message::named("kind", word).map_or_else(|| word.replace('-', " "), |m| m.text())
}

/// Class and word of a verdict.
fn of_verdict(verdict: VerdictWord) -> (&'static str, Message) {
    match verdict {
        VerdictWord::Accepted => ("accepted", word::Accepted.into()),
        VerdictWord::Provisional => ("provisional", word::Provisional.into()),
        VerdictWord::Rejected => ("rejected", word::Rejected.into()),
    }
}

/// The mark of a verdict alone: filled, half, crossed square. Beside it its word stands, or is read out.
pub(crate) fn mark(verdict: VerdictWord) -> Markup {
    let (class, word) = of_verdict(verdict);
    html! { i class=(format!("mk {class}")) role="img" aria-label=(word.text()) {} }
}

/// A verdict as mark and word; for evidence that it gets none.
pub(crate) fn verdict(verdict: Option<VerdictWord>) -> Markup {
    let Some(verdict) = verdict else { return html! { span.quiet { (said::Evidence.text()) } } };
    crate::blocks::verdict_word(super::word(verdict))
}

/// A verdict as text.
pub(crate) fn verdict_text(verdict: Option<VerdictWord>) -> String {
    verdict.map_or_else(|| said::Evidence.text(), |v| of_verdict(v).1.text())
}

/// A cell with a verdict and the profile that gave it.
pub(crate) fn verdict_cell(of: Option<VerdictWord>, profile: Option<&str>) -> Td {
    let words = [verdict_text(of), profile.map(by_profile).unwrap_or_default()].join(" ").trim().to_string();
    Td { shown: html! { (verdict(of)) @if let Some(p) = profile { " " (by_profile(p)) } }, words, number: false }
}

/// The profile of checks that gave a verdict, behind its word.
pub(crate) fn by_profile(profile: &str) -> String {
    said::ByProfile { profile: profile.into() }.text()
}

/// Class and word of what came of a check.
pub(crate) fn outcome(outcome: Outcome) -> Markup {
    crate::blocks::outcome_word(outcome)
}

/// A value in parts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Parts {
    /// The number with what stands before it: `1.05`, `< 0.02`, `at most 2.75`.
    pub value: String,
    /// U, 95 %.
    pub expanded: Option<String>,
    /// The source states no uncertainty of its value.
    pub without_u: bool,
    /// As printed; empty for none.
    pub unit: String,
}

impl Parts {
    /// Of an amount, with its coverage factor.
    pub fn of(amount: &quantity::Amount, k: f64) -> Self {
        let shown = amount.shown(k).typeset();
        let expanded = shown.expanded.map(|u| bare(Shown { value: u, relation: String::new(), ..shown.clone() }));
        Self {
            unit: printed(&shown.unit),
            without_u: matches!(amount, quantity::Amount::Stated(_)),
            value: bare(shown),
            expanded,
        }
    }

    /// Of a result.
    pub fn of_result(r: &Listed) -> Self {
        let words = |value: String, unit: &str| Self { value, expanded: None, without_u: false, unit: printed(unit) };
        match (&r.amount, r.bound()) {
            (_, Some((bound, unit))) => words(bound, &unit),
            (Some(amount), _) => Self::of(amount, r.coverage_k.unwrap_or(2.0)),
            (None, _) => words(said::LimitNotStated.text(), ""),
        }
    }

    /// In one line.
    pub fn line(&self) -> String {
        let mut out = self.value.clone();
        if let Some(u) = &self.expanded {
            out += &format!("\u{A0}±\u{A0}{u}");
        }
        if !self.unit.is_empty() {
            out += &format!("\u{A0}{}", self.unit);
        }
        if self.without_u {
            out += &format!(" ({})", said::WithoutU.text());
        }
        out
    }
}

/// The number alone, held together.
fn bare(shown: Shown) -> String {
    Shown { unit: String::new(), expanded: None, ..shown }.text().replace(' ', "\u{A0}")
}

/// A result's value as a link to its case.
pub(crate) fn value(r: &Listed) -> Td {
    let words = Parts::of_result(r).line();
    Td { shown: html! { a href=(case_address(&r.result)) { (words) } }, words, number: true }
}

/// Findings, each with its outcome, stage and sentence.
pub(crate) fn findings<'f>(all: impl IntoIterator<Item = &'f Finding>) -> Markup {
    html! { ul.findings { @for f in all { li { (outcome(f.outcome)) span { (finding(f)) } } } } }
}

/// The sentence of a finding as it is printed.
pub(crate) fn finding(f: &Finding) -> String {
    printed(&message::number::sentence(&f.text()))
}

/// Blocks of the report as pieces of a page: days in words, no codes, findings in the language of the page.
pub(crate) fn pieces(blocks: impl IntoIterator<Item = Block>) -> impl Iterator<Item = Piece> {
    blocks.into_iter().map(|block| match block {
        Block::Findings(all) => findings(&all).into(),
        other => in_words(other).into(),
    })
}

/// A block with its texts as they are printed.
pub(crate) fn in_words(block: Block) -> Block {
    match block {
        Block::Text(t) => Block::Text(printed(&t)),
        Block::Heading(t) => Block::Heading(printed(&t)),
        Block::List(all) => Block::List(all.iter().map(|t| printed(t)).collect()),
        Block::Table(t) => Block::Table(table(t)),
        Block::Figure(mut f) => {
            f.caption = printed(&f.caption);
            Block::Figure(f)
        }
        Block::Findings(all) => Block::Findings(all),
    }
}

fn table(t: Table) -> Table {
    let columns = t.columns.into_iter().map(|mut c| {
        c.heading = printed(&c.heading);
        c.unit = printed(&c.unit);
        c
    });
    Table {
        caption: printed(&t.caption),
        columns: columns.collect(),
        rows: t.rows.into_iter().map(|row| row.into_iter().map(cell).collect()).collect(),
        notes: t.notes.iter().map(|n| printed(n)).collect(),
    }
}

fn cell(cell: Cell) -> Cell {
    match cell {
        Cell::Text(t) => Cell::Text(printed(&t)),
        Cell::Missing(t) => Cell::Missing(printed(&t)),
        Cell::Of { result, cell: inner } => Cell::Of { result, cell: Box::new(self::cell(*inner)) },
        other => other,
    }
}

/// A listing, or a sentence in its place where it has no rows.
pub(crate) fn or_else(listing: Listing, empty: &impl Spoken) -> Piece {
    if listing.rows.is_empty() { html! { p.quiet { (empty.text()) } }.into() } else { listing.into() }
}
