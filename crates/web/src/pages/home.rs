//! The desk: the newest day of each well, what waits (each with one act), and what holds results back. On a new programme
//! the first three things to do.
//!
//! The parts are `desk_newest`, `desk_waits`, `desk_held`. Checked in `crates/web/tests/desk.rs` and `first_year.rs`.

use super::check_words::Weights;
use super::desk_held::{self, AllHeld};
use super::desk_newest::{self, Newest};
use super::desk_waits::{self, Waits};
use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::Query;
use crate::http_error::HttpError;
use crate::page::{self, Place};
use axum::extract::{Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use message::{Spoken, web_desk as says};
use programme::first_steps::Todo;
use record::store::Store;
use std::sync::Arc;

/// Wells shown with their newest day; the rest stands on the page of wells.
const WELLS: usize = 12;

/// What the page shows.
struct Desk {
    elements: Arc<Vec<String>>,
    element: String,
    newest: Vec<Newest>,
    weights: Weights,
    held: Arc<AllHeld>,
    waits: Waits,
}

fn desk(store: &Store, app: &App, asked: Option<&str>) -> Result<Desk, HttpError> {
    let elements = desk_newest::elements(store, app)?;
    let element = asked.and_then(|a| named(&elements, a)).or_else(|| elements.first().cloned()).unwrap_or_default();
    Ok(Desk {
        newest: if element.is_empty() { vec![] } else { desk_newest::of(store, app, &element)? },
        weights: Weights::of(store)?,
        held: desk_held::of(store, app)?,
        waits: desk_waits::of(store, app)?,
        elements,
        element,
    })
}

/// An element on the desk by its symbol or by its name in any language.
fn named(elements: &[String], asked: &str) -> Option<String> {
    let folded = record::near::folded(asked);
    let is = |e: &&String| {
        record::near::folded(e) == folded
            || message::Lang::ALL.into_iter().any(|l| {
                let name = message::with_language(l, || ::report::pages::element(e));
                record::near::folded(&name) == folded
            })
    };
    elements.iter().find(is).cloned()
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = q.get("element").cloned();
    let d = page::read(&app, move |store, app| desk(store, app, asked.as_deref())).await?;
    let title = says::Title.text();
    let steps = d.waits.steps();
    let first = steps.iter().any(|s| !s.done && s.todo != Todo::Sign);
    let body = html! {
        @if d.elements.is_empty() { h1 { (title) } }
        @if d.waits.is_new() { (start()) }
        div.desk {
            div.first {
                @if !d.elements.is_empty() {
                    (desk_newest::shown(&d.newest, &d.elements, &d.element, &d.weights, WELLS))
                }
                @if first { (super::start::steps(&who, steps)) }
            }
            @if !d.waits.is_new() { div.right { (desk_waits::shown(&app, &who, &d.waits, &d.held)) } }
            @if !d.elements.is_empty() { div.second { (desk_held::shown(&d.held, &d.weights)) } }
        }
    };
    Ok(page::page(&app, &who, Place::of("/", &title), &body).into_response())
}

/// A new programme: the first three things to do.
fn start() -> Markup {
    html! {
        section.start-here {
            h2 { (says::Start.text()) }
            ol.plain {
                li { (says::StartPlaces.text()) " " a.go href="/enter/well?to=%2F" { (says::StartWells.text()) } }
                li { a href="/enter/person?to=%2F" { (says::StartPeople.text()) } }
                li { a href="/enter/trip?to=%2F" { (says::StartTrip.text()) } }
            }
            p { a href="/templates" { (says::Templates.text()) } }
        }
    }
}
