//! The way in: on an empty programme the step that is next, each time, and the way there; and empty files to fill, as CSV
//! and as workbooks, with a sheet of what their headings mean. In English and German.
//!
//! Steps and files are those of the command line (`programme::first_steps`, `programme::templates`).
//! Checked in `crates/web/tests/first_year.rs`.

use super::results::attachment;
use crate::app::Shared;
use crate::auth::who::Who;
use crate::blocks::{Listing, Query, Td, link, respond, td};
use crate::http_error::HttpError;
use crate::page::{Place, said};
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use exchange::sheet::Sheet;
use maud::{Markup, html};
use message::{Lang, start as says};
use programme::first_steps::{Step, Todo};
use programme::templates::{self, TEMPLATES};

/// The sheet of words, beside the templates.
const WORDS: &str = "words";

/// All steps, each done or not; the first that is not stands out and leads on. Nothing once results are there and somebody
/// stands for one.
pub(crate) fn steps(who: &Who, all: &[Step]) -> Markup {
    let next = all.iter().find(|s| !s.done).map(|s| s.todo);
    let counts = matches!(next, Some(Todo::Recipe | Todo::Sequence | Todo::Counts));
    html! {
        section lang=(who.language.code()) aria-labelledby="first-steps" {
            h2 #first-steps { (said(who, says::Title)) }
            p.acts { a href="/templates" { (said(who, says::Templates)) } }
            ol.start { @for s in all { (step(who, *s, next == Some(s.todo))) } }
            @if counts { p { (said(who, says::OrResults)) " " a href="/runs/bring-in" { (said(who, says::BringIn)) } } }
        }
    }
}

fn step(who: &Who, s: Step, is_next: bool) -> Markup {
    let words = said(who, s.todo.message());
    html! {
        li aria-current=[is_next.then_some("step")] {
            @if s.done { span.state.met { span aria-hidden="true" { "✓ " } (said(who, says::Done)) } " " }
            @if is_next { strong { (said(who, says::Now)) ": " (words) } } @else { (words) }
            @if !s.done { " " (ways(who, s.todo)) }
        }
    }
}

/// How a step is taken: a form, a file, questions.
fn ways(who: &Who, todo: Todo) -> Markup {
    let form = match todo {
        Todo::People => Some("/enter/person?to=%2F"),
        Todo::Wells => Some("/enter/well?to=%2F"),
        Todo::Trips => Some("/enter/trip?to=%2F"),
        Todo::Bottles => Some("/enter/bottle?to=%2F"),
        Todo::Readings => Some("/enter/field_reading?to=%2F"),
        Todo::Fills => Some("/enter/fill?to=%2F"),
        Todo::Custody => Some("/enter/custody?to=%2F"),
        Todo::Recipe | Todo::Sequence | Todo::Counts | Todo::Results | Todo::Sign => None,
    };
    html! {
        @if let Some(to) = form { a href=(to) { (said(who, says::ByForm)) } " " }
        @if todo == Todo::Recipe { a href="/recipes/questions" { (said(who, says::ByQuestions)) } " " }
        @if todo == Todo::Sign { a href="/results" { (said(who, says::StepSign)) } }
        @else if todo != Todo::People { a href="/runs/bring-in" { (said(who, says::ByFile)) } }
        @if let Some(t) = todo.template() { " (" a href=(format!("/templates/{}.csv", t.file)) download { "CSV" } ", " a href=(format!("/templates/{}.xlsx", t.file)) download { "XLSX" } ")" }
    }
}

/// The list of empty files.
pub(crate) async fn templates(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let row = |file: &str, holds: Td| {
        let to = |ending: &str| format!("/templates/{file}.{ending}");
        vec![td(file), link(&to("csv"), "CSV"), link(&to("xlsx"), "XLSX"), holds]
    };
    let headings = |all: String| Td { shown: html! { code { (all) } }, words: all, number: false };
    let rows = TEMPLATES.iter().map(|t| row(t.file, headings(t.headings().join(", "))));
    let words = row(WORDS, td(said(&who, says::SheetOfWords)));
    let title = said(&who, says::Templates);
    let listing = Listing {
        caption: title.clone(),
        headings: vec![said(&who, says::HeadingFile), "CSV".into(), "XLSX".into(), said(&who, says::HeadingColumn)],
        rows: rows.chain([words]).collect(),
        ..Listing::default()
    };
    let head = html! {
        h1 { (title) }
        p.acts { a.go href="/runs/bring-in" { (said(&who, says::BringIn)) } }
        p { (said(&who, says::TemplatesWhat)) }
    };
    respond(&app, &who, Place::of("/", &title).spoken(&who), &q, &[head.into(), listing.into()])
}

/// One of them.
pub(crate) async fn file(who: Who, Path(file): Path<String>) -> Result<Response, HttpError> {
    let (name, ending) = file.rsplit_once('.').unwrap_or((&file, ""));
    let sheet = sheet(name, who.language).ok_or_else(|| HttpError::absent("There is no such template."))?;
    let bytes = match ending {
        "csv" => sheet.csv()?,
        "xlsx" => sheet.workbook()?,
        _ => return Err(HttpError::absent("A template is there as csv and as xlsx.")),
    };
    Ok(attachment(sheet.name, ending, bytes))
}

fn sheet(name: &str, language: Lang) -> Option<Sheet> {
    if name == WORDS {
        let (headings, rows) = (templates::word_headings(language), templates::words(language));
        return Some(Sheet { name: WORDS, headings, rows, ..Sheet::default() });
    }
    let t = templates::of(name)?;
    Some(Sheet { name: t.file, headings: t.headings(), rows: vec![t.example(language)], ..Sheet::default() })
}
