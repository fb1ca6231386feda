//! The first page of a report as it would print, set as a piece of a page; and what the report would lack.
//!
//! In: the report as data, what was asked for. Out: pieces. Nothing is computed here but counts of what is on record.

use super::report::Wanted;
use crate::blocks::{Piece, outcome_word, square};
use crate::http_error::HttpError;
use crate::written::spoken;
use ::document::content::{Block, Cell, Content, Front, Table, Word};
use maud::{Markup, html};
use message::{Message, Spoken as _, count, document_words as words, web_record as says, with_language};
use quantity::Lang;
use record::store::{Filter, Store};

/// What a report would lack.
pub(crate) struct Missing(Vec<Message>);

impl Missing {
    /// Looks for it.
    pub fn of(store: &Store, wanted: &Wanted) -> Result<Self, HttpError> {
        let mut out: Vec<Message> = vec![];
        if wanted.what == "leaflet" && wanted.contact.is_none() {
            out.push(says::MissingContact.into());
        }
        let on_paper = matches!(wanted.what, "full" | "leaflet" | "authority");
        if store.results(&Filter::all().limit(1))?.is_empty() {
            out.push(says::MissingResults.into());
        } else if on_paper {
            let against = programme::limits_of::against(store, &programme::limits_of::Asked::default())?;
            let mut recalled: Vec<(&str, &str)> = against
                .rows
                .iter()
                .map(|r| &r.comparison.limit)
                .filter(|l| l.provenance == "recalled")
                .map(|l| (l.analyte.as_str(), l.authority.as_str()))
                .collect();
            recalled.sort_unstable();
            recalled.dedup();
            if !recalled.is_empty() {
                out.push(says::MissingRecalled { n: count(recalled.len()) }.into());
            }
        }
        if wanted.what == "full" {
            let mut trips = store.trips()?;
            trips.retain(|t| wanted.scope.trip.as_ref().is_none_or(|name| *name == t.name));
            if trips.iter().all(|t| t.question.as_deref().is_none_or(str::is_empty)) {
                out.push(says::MissingQuestion.into());
            }
        }
        Ok(Self(out))
    }

    /// As a list.
    pub fn markup(&self) -> Markup {
        html! {
            h2 #missing { (says::Missing.text()) }
            @if self.0.is_empty() { p { (says::MissingNothing.text()) } }
            @else { ul { @for m in &self.0 { li { (m.text()) } } } }
        }
    }
}

/// The first page, in the language of the paper.
pub(crate) fn first_page(content: Option<Content>, lang: Lang) -> Vec<Piece> {
    let title = html! { h2 #page-one { (says::PageOne.text()) } };
    let none = |m: Message| vec![html! { (title) p.quiet { (m.text()) } }.into()];
    let Some(content) = content else { return none(says::NoPageOne.into()) };
    let pieces = with_language(lang, || match &content.front {
        Some(f) => front(f, &content.title, lang),
        None if content.sections.is_empty() => vec![],
        None => one_page(&content, lang),
    });
    if pieces.is_empty() {
        return none(says::NoFront.into());
    }
    std::iter::once(title.into()).chain(pieces).collect()
}

fn in_print(text: &str) -> Markup {
    html! { (spoken(text)) }
}

/// A sign and the word that it stands for.
fn verdict(w: Word, words: &str) -> Markup {
    html! { span class=(format!("vd {}", w.word())) { (square(w)) " " (words) } }
}

/// A table with its days and units in words, as paper has them.
fn table(mut t: Table) -> Table {
    t.caption = spoken(&t.caption);
    t.notes = t.notes.iter().map(|n| spoken(n)).collect();
    for column in &mut t.columns {
        column.heading = spoken(&column.heading);
        column.unit = spoken(&column.unit);
    }
    t.rows = t.rows.into_iter().map(|row| row.into_iter().map(cell).collect()).collect();
    t
}

fn cell(c: Cell) -> Cell {
    match c {
        Cell::Text(text) => Cell::Text(spoken(&text)),
        Cell::Missing(why) => Cell::Missing(spoken(&why)),
        Cell::Of { result, cell: inner } => Cell::Of { result, cell: Box::new(cell(*inner)) },
        other => other,
    }
}

fn front(f: &Front, title: &str, lang: Lang) -> Vec<Piece> {
    let code = lang.code();
    let mut out: Vec<Piece> = vec![
        html! {
            div.printed lang=(code) {
                p.quiet { (in_print(&f.over)) }
                h3.as-written { (in_print(title)) }
                @if let Some(w) = f.word { p { (verdict(w, &f.verdict)) } }
                p.answer { (in_print(&f.answer)) }
                p.quiet { (in_print(&f.method)) }
            }
        }
        .into(),
    ];
    out.extend(f.strip.clone().map(|s| Piece::from(Block::Figure(s))));
    out.push(
        html! {
            div.printed lang=(code) {
                p.quiet { (in_print(&f.strip_note)) }
                h3 { (words::DoneToBeSure.text()) }
                ul.sure { @for m in &f.marks { li { (outcome_word(m.outcome)) br; b { (in_print(&m.name)) } br; (in_print(&m.text)) } } }
            }
        }
        .into(),
    );
    out.extend(f.wells.clone().map(|t| Piece::from(Block::Table(table(t)))));
    out.push(
        html! {
            div.printed.earlier lang=(code) {
                p { strong { (in_print(&f.above)) } }
                h3 { (words::CannotBeTold.text()) }
                ul { @for line in &f.untold { li { (in_print(line)) } } }
                h3 { (words::EarlierTrips.text()) }
            }
        }
        .into(),
    );
    out.extend(f.earlier.clone().map(|s| Piece::from(Block::Figure(s))));
    out.push(
        html! {
            div.printed lang=(code) {
                p { (in_print(&f.earlier_note)) }
                @if !f.decides.is_empty() { h3 { (words::WouldDecide.text()) } p { (in_print(&f.decides.join(" "))) } }
            }
        }
        .into(),
    );
    out
}

/// A document of one page: its sections.
fn one_page(content: &Content, lang: Lang) -> Vec<Piece> {
    let code = lang.code();
    let head = html! { div.printed lang=(code) { h3 { (in_print(&content.title)) } p.quiet { (in_print(&content.subtitle)) } } };
    let mut out: Vec<Piece> = vec![head.into()];
    for section in &content.sections {
        out.push(html! { div.printed lang=(code) { h3 { (in_print(&section.title)) } } }.into());
        for block in &section.blocks {
            out.push(match block {
                Block::Text(t) => html! { p lang=(code) { (in_print(t)) } }.into(),
                Block::List(all) => html! { ul lang=(code) { @for t in all { li { (in_print(t)) } } } }.into(),
                Block::Heading(t) => html! { h4 lang=(code) { (in_print(t)) } }.into(),
                Block::Table(t) => Piece::from(Block::Table(table(t.clone()))),
                other => Piece::from(other.clone()),
            });
        }
    }
    out
}
