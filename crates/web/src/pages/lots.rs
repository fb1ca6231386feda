//! The lots of bottles: may each go out? Its blanks against the targets metal by metal, and what its bottles met.

use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, heads, link, number, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, case_address, encoded};
use ::report::pages;
use assessment::lots::{self, LotSheet};
use assessment::results::{self, Listed};
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use programme::index::Wanted;
use quantity::Outcome;
use quantity::format::{at_decimals, decimals_for, significant};
use record::model::BottleKind;
use record::store::{Filter, Store};
use std::collections::BTreeSet;

/// Blanks of one metal told, at most.
const BLANKS: usize = 400;

/// All lots with the results of their blanks.
fn sheets(store: &Store, app: &crate::app::App) -> Result<(Vec<LotSheet>, Vec<Listed>), HttpError> {
    if store.lots()?.is_empty() {
        return Ok((vec![], vec![]));
    }
    let blanks = store.bottles(&Filter::all().is("kind", BottleKind::BottleBlank.word()))?;
    let labels: Vec<String> = blanks.into_iter().filter(|b| b.lot_id.is_some()).map(|b| b.label).collect();
    let rows = app.record.index(store, |i| {
        let of = |label: &String| {
            let wanted = Wanted { bottle: Some(label.clone()), evidence: true, ..Wanted::default() };
            i.select(&wanted, 0, BLANKS).rows
        };
        labels.iter().flat_map(of).collect::<Vec<i64>>()
    })?;
    let listed = results::listed(store, &rows)?;
    Ok((lots::of(store, &listed)?, listed))
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let (sheets, listed) = page::read(&app, |store, app| sheets(store, app)).await?;
    let mut pieces: Vec<Piece> = vec![head(&who).into(), overview(&sheets).into()];
    for s in &sheets {
        pieces.push(html! { h2 #(anchor(s)) { "Lot " (s.lot.name) } p { (word(s.outcome)) (why(s)) } }.into());
        pieces.extend(pages::lot(s).into_iter().map(Piece::from));
        pieces.push(blanks(s, &listed).into());
        let corrected = format!("/correct/lot/{}?to=%2Flots", s.lot.id);
        pieces.push(html! { @if who.may(Role::Sampler) { p.acts { a href=(corrected) { "Correct the lot" } " " a href=(format!("/enter/bottle?lot={}&to=%2Flots", encoded(&s.lot.name))) { "Enter a bottle of it" } } } }.into());
    }
    respond(&app, &who, Place::of("/trips", "Lots of bottles"), &q, &pieces)
}

fn head(who: &Who) -> Markup {
    html! {
        h1 { "Lots of bottles" }
        p { "May a lot go out? Its bottle blanks are held against the target of each metal by a one-sided tolerance limit (Owen 1958, from memory). Blanks must be drawn at random from the lot and handled like it." }
        @if who.may(Role::Sampler) { p.acts { a.go href="/enter/lot?to=%2Flots" { "Enter a lot" } } }
        p.caution { "Acid for washing is concentrated: gloves, goggles, acid into water, local rules first." }
    }
}

fn anchor(s: &LotSheet) -> String {
    format!("lot-{}", ::figure::slug(&s.lot.name))
}

/// Whether it may go out, as shape and word.
fn word(o: Outcome) -> Markup {
    let (class, sign, words) = match o {
        Outcome::Met => ("state met", "✓", "may go out"),
        Outcome::NotMet => ("state not", "✗", "wash again"),
        Outcome::NotKnown => ("state unknown", "?", "not decided"),
    };
    html! { span class=(class) { span aria-hidden="true" { (sign) } " " (words) } }
}

/// What decided, in words.
fn why(s: &LotSheet) -> String {
    let held: Vec<&lots::LotMetal> = s.metals.iter().filter(|m| m.target_pg.is_some()).collect();
    if s.metals.is_empty() {
        return ": no bottle blank of it was measured yet.".into();
    }
    if held.is_empty() {
        return ": no target is set for any of its metals.".into();
    }
    let of = |o: Outcome| -> Vec<String> {
        held.iter().filter(|m| m.outcome == o).map(|m| format!("{} {}", m.analyte, m.isotopes)).collect()
    };
    let (over, open) = (of(Outcome::NotMet), of(Outcome::NotKnown));
    let mut parts = vec![];
    if !over.is_empty() {
        parts.push(format!("over the target: {}", over.join(", ")));
    }
    if !open.is_empty() {
        parts.push(format!("more blanks would decide: {}", open.join(", ")));
    }
    if parts.is_empty() {
        ": every metal with a target stays under it.".into()
    } else {
        format!("; {}.", parts.join("; "))
    }
}

fn overview(sheets: &[LotSheet]) -> Listing {
    let row = |s: &LotSheet| {
        let words = match s.outcome {
            Outcome::Met => "may go out",
            Outcome::NotMet => "wash again",
            Outcome::NotKnown => "not decided",
        };
        let mut came = td(words);
        came.shown = word(s.outcome);
        let bottles: usize = s.bottles.values().sum();
        let blanks = s.metals.iter().map(|m| m.blanks.len() + m.left_out).max().unwrap_or(0);
        vec![
            link(&format!("#{}", anchor(s)), s.lot.name.clone()),
            came,
            td(s.lot.cleaned_on.clone().unwrap_or_default()),
            number(bottles.to_string()),
            number(blanks.to_string()),
            number(s.metals.iter().filter(|m| m.target_pg.is_some()).count().to_string()),
        ]
    };
    Listing {
        caption: "Every lot on record".into(),
        headings: heads(&["Lot", "Decision", "Cleaned on", "Bottles", "Blanks measured", "Metals with a target"]),
        rows: sheets.iter().map(row).collect(),
        empty: "No lot of bottles is on record.",
        ..Listing::default()
    }
}

/// The blanks of a lot, a column a bottle, each value with its case.
fn blanks(s: &LotSheet, listed: &[Listed]) -> Listing {
    let labels: BTreeSet<&str> = s.metals.iter().flat_map(|m| &m.blanks).map(|b| b.bottle.as_str()).collect();
    let cell = |m: &lots::LotMetal, label: &str| {
        let Some(blank) = m.blanks.iter().find(|b| b.bottle == label) else { return number("–") };
        let own = |r: &&Listed| {
            r.bottle == label && r.analyte == m.analyte && r.isotopes == m.isotopes && r.resolution == m.resolution
        };
        let shown = blank.u_pg.filter(|u| *u > 0.0).map_or_else(
            || format!("{} (no u)", significant(blank.pg, 2)),
            |u| {
                let places = decimals_for(u, 2);
                format!("{} (u {})", at_decimals(blank.pg, places), at_decimals(u, places))
            },
        );
        match listed.iter().find(own) {
            Some(r) => Td { number: true, ..link(&case_address(&r.result), shown) },
            None => number(shown),
        }
    };
    let row = |m: &lots::LotMetal| {
        let mut row = vec![td(format!("{} {}", m.analyte, m.isotopes))];
        row.extend(labels.iter().map(|label| cell(m, label)));
        row.push(number(m.target_pg.map_or_else(|| "none set".into(), |t| significant(t, 2))));
        row
    };
    let mut headings = heads(&["Metal"]);
    headings.extend(labels.iter().map(ToString::to_string));
    headings.push("Target".into());
    Listing {
        caption: format!("Lot {}: each bottle blank, pg per bottle", s.lot.name),
        headings,
        rows: s.metals.iter().map(row).collect(),
        empty: "No bottle blank of it was measured yet.",
        foot: Some(html! { "A number opens its case." }),
        ..Listing::default()
    }
}
