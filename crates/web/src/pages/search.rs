//! Search over bottle, well, trip, run, element and page, by a form that works without script; what is nearest to an
//! address that leads nowhere; and the list of keys.
//!
//! Names are compared without case, spaces and hyphens (`record::near`). One name met exactly leads there at once.
//! Checked in `crates/web/tests/desk.rs`.

use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::Query;
use crate::http_error::HttpError;
use crate::page::{self, Place, decoded, encoded, places};
use axum::extract::{Query as FromQuery, State};
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use message::number::capital;
use message::{Lang, Message, Spoken, web_frame as says};
use record::near::{apart, folded};
use record::store::Store;

/// Hits of a kind that are shown; more ask for more of the name.
const SHOWN: usize = 20;

/// Names told as nearest.
const NEAREST: usize = 3;

/// Letters of a name in which another may differ to be called near, for each letter that it has.
// The programme's own choice: one in three, as a slip of the finger or two in a label.
const NEAR: f64 = 0.34;

/// A name that leads somewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Known {
    /// Under which heading it stands.
    kind: Kind,
    /// As it is shown.
    name: String,
    /// What it is found by beside its name: a symbol, its names in other languages.
    also: Vec<String>,
    /// Where it leads.
    to: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Page,
    Well,
    Trip,
    Run,
    Element,
    Bottle,
}

impl Kind {
    const ALL: [Self; 6] = [Self::Well, Self::Trip, Self::Run, Self::Element, Self::Bottle, Self::Page];

    fn heading(self) -> String {
        match self {
            Self::Page => says::Pages.text(),
            Self::Well => says::Wells.text(),
            Self::Trip => says::Trips.text(),
            Self::Run => says::Runs.text(),
            Self::Element => says::Elements.text(),
            Self::Bottle => says::Bottles.text(),
        }
    }
}

/// Everything that has a name.
fn known(store: &Store, app: &App) -> Result<Vec<Known>, HttpError> {
    let plain = |kind, name: &str, to: String| Known { kind, name: name.into(), also: vec![], to };
    let mut out: Vec<Known> = places().into_iter().map(|(to, name)| plain(Kind::Page, &name, to.into())).collect();
    for (to, name) in [("/plan", says::Plan.text()), ("/runs/bring-in", says::BringIn.text())] {
        out.push(plain(Kind::Page, &name, to.into()));
    }
    for w in store.wells()? {
        out.push(plain(Kind::Well, &w.name, format!("/wells/{}", encoded(&w.name))));
    }
    for t in store.trips()? {
        out.push(plain(Kind::Trip, &t.name, format!("/trips/{}", encoded(&t.name))));
    }
    for r in store.runs()? {
        out.push(plain(Kind::Run, &r.name, format!("/runs/{}", encoded(&r.name))));
    }
    app.record.index(store, |i| {
        out.extend(i.analytes().into_iter().map(element));
        out.extend(i.bottles.iter().map(|b| {
            let of = if b.kind.is_water() { "" } else { "&of=evidence" };
            plain(Kind::Bottle, &b.label, format!("/results?bottle={}{of}", encoded(&b.label)))
        }));
    })?;
    Ok(out)
}

/// An element or quantity, found by its symbol and by its name in every language.
fn element(symbol: &str) -> Known {
    let named = ["substance", "condition"].into_iter().find_map(|room| Message::named(room, symbol));
    let mut also = vec![symbol.to_string()];
    also.extend(Lang::ALL.into_iter().filter_map(|l| named.as_ref()?.said(l)));
    let name = capital(&::report::pages::element(symbol));
    Known { kind: Kind::Element, name, also, to: format!("/results?analyte={}", encoded(symbol)) }
}

impl Known {
    fn names(&self) -> impl Iterator<Item = String> + '_ {
        std::iter::once(&self.name).chain(&self.also).map(|n| folded(n.as_str()))
    }

    fn is(&self, folded: &str) -> bool {
        self.names().any(|n| n == folded)
    }

    /// A symbol of an element is short: what only contains it is not meant.
    fn fits(&self, folded: &str) -> bool {
        self.names().any(|n| n.contains(folded) && (self.kind != Kind::Element || n.starts_with(folded)))
    }

    /// Letters by which the nearest of its names differs.
    fn away(&self, folded: &str) -> usize {
        self.names().map(|n| apart(&n, folded)).min().unwrap_or(usize::MAX)
    }
}

/// The nearest names, the nearest first; none where nothing is near.
fn near<'k>(all: &'k [Known], asked: &str) -> Vec<&'k Known> {
    let asked = folded(asked);
    let most = (NEAR * asked.chars().count() as f64).ceil() as usize;
    let mut out: Vec<(usize, &Known)> = all.iter().map(|k| (k.away(&asked), k)).filter(|(d, _)| *d <= most).collect();
    out.sort_by_key(|(d, _)| *d);
    out.into_iter().take(NEAREST).map(|(_, k)| k).collect()
}

/// The page of a search.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = q.get("q").map(|a| a.trim().to_string()).unwrap_or_default();
    let all = page::read(&app, |store, app| known(store, app)).await?;
    let text = folded(&asked);
    let exact: Vec<&Known> = all.iter().filter(|k| !text.is_empty() && k.is(&text)).collect();
    if let [one] = exact[..] {
        return Ok(Redirect::to(&one.to).into_response());
    }
    let hits: Vec<&Known> = all.iter().filter(|k| !text.is_empty() && k.fits(&text)).collect();
    let body = html! {
        h1 { (says::SearchTitle.text()) }
        form.filters method="get" action="/search" {
            div.field { label for="q" { (says::SearchLabel.text()) } input #q name="q" type="search" value=(asked); }
            button type="submit" { (says::Search.text()) }
        }
        @if text.is_empty() { p.quiet { (says::SearchEmpty.text()) } }
        @else if hits.is_empty() {
            p { (says::SearchNothing { what: asked.as_str().into() }.text()) }
            (nearest_list(&near(&all, &asked)))
        } @else {
            h2 { (says::SearchFor { what: asked.as_str().into() }.text()) }
            @for kind in Kind::ALL {
                @let here = of_kind(&hits, kind);
                @if !here.is_empty() {
                    h3 { (kind.heading()) }
                    ul.plain { @for k in here.iter().take(SHOWN) { li { a href=(k.to) { (k.name) } } } }
                    @if here.len() > SHOWN { p.quiet { (says::SearchMore { n: message::count(here.len() - SHOWN) }.text()) } }
                }
            }
        }
    };
    let title = says::SearchTitle.text();
    Ok(page::page(&app, &who, Place::of("", &title), &body).into_response())
}

fn of_kind<'k>(hits: &[&'k Known], kind: Kind) -> Vec<&'k Known> {
    hits.iter().copied().filter(|k| k.kind == kind).collect()
}

fn nearest_list(near: &[&Known]) -> Markup {
    html! {
        @if !near.is_empty() {
            p.near { (says::Nearest.text()) ": " @for (n, k) in near.iter().enumerate() { @if n > 0 { " · " } a href=(k.to) { (k.name) } } }
        }
    }
}

/// What an address that leads nowhere looked for, and what is nearest to it.
pub(crate) async fn nearest(app: &Shared, who: &Who) -> Option<Markup> {
    let path = who.here.split('?').next().unwrap_or_default().to_string();
    let asked = path.rsplit('/').find(|part| !part.is_empty()).and_then(decoded).unwrap_or_default();
    if asked.is_empty() {
        return None;
    }
    let all = page::read(app, |store, app| known(store, app)).await.ok()?;
    Some(html! {
        p { (says::LookedFor { what: asked.as_str().into() }.text()) }
        (nearest_list(&near(&all, &asked)))
    })
}

/// The letters behind `g`, and where they lead.
const GO: [(&str, &str); 9] = [
    ("d", "/"),
    ("w", "/wells"),
    ("t", "/trips"),
    ("l", "/lots"),
    ("r", "/runs"),
    ("e", "/results"),
    ("s", "/statements"),
    ("o", "/time"),
    ("p", "/report"),
];

/// The keys, as a page; the script shows the same list over the page at hand.
pub(crate) async fn keys(State(app): State<Shared>, who: Who) -> Response {
    let names = places();
    let place = |to: &str| names.iter().find(|(path, _)| *path == to).map_or("", |(_, name)| name.as_str());
    let key = |keys: &[&str], does: String| {
        html! { tr { th scope="row" { @for k in keys { kbd { (k) } " " } } td { (does) } } }
    };
    let body = html! {
        h1 { (says::KeysTitle.text()) }
        p { (says::KeysWhere.text()) }
        table.keys {
            tbody {
                (key(&["/"], says::KeysSearch.text()))
                (key(&["g"], says::KeysGo.text()))
                @for (letter, to) in GO { tr data-go=(letter) data-to=(to) { th scope="row" { kbd { "g" } " " kbd { (letter) } } td { a href=(to) { (place(to)) } } } }
                (key(&["j", "k"], says::KeysRows.text()))
                (key(&["[", "]"], says::KeysSet.text()))
                (key(&["c"], says::KeysCopy.text()))
                (key(&["?"], says::KeysList.text()))
                (key(&["Esc"], says::KeysClose.text()))
            }
        }
        p.acts { button.second #keys-switch type="button" hidden data-off=(says::KeysOff.text()) data-on=(says::KeysOn.text()) {}
            button.second #keys-close type="button" hidden { (says::KeysCloseList.text()) } }
    };
    let title = says::KeysTitle.text();
    page::page(&app, &who, Place::of("", &title), &body).into_response()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(name: &str) -> Known {
        Known { kind: Kind::Well, name: name.into(), also: vec![], to: String::new() }
    }

    #[test]
    fn an_element_is_found_by_symbol_and_by_its_name_in_every_language() {
        let lead = element("Pb");
        for name in ["Pb", "pb", "lead", "Blei", "LEAD"] {
            assert!(lead.is(&folded(name)), "{name}");
        }
        assert!(lead.fits("bl") && !lead.fits("ea"), "an element is found by its beginning alone");
    }

    #[test]
    fn the_nearest_name_comes_first_and_a_far_one_not_at_all() {
        let all = [named("SL-1"), named("SL-22"), named("Heron Drain")];
        let found: Vec<&str> = near(&all, "sl 2").into_iter().map(|k| k.name.as_str()).collect();
        assert_eq!(found, ["SL-1", "SL-22"]);
        assert!(near(&all, "zzzzzz").is_empty());
    }
}
