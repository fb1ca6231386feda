//! The lots of bottles: may each go out? Its blanks against the targets metal by metal, and what its bottles met.

use super::check_words::of_isotopes;
use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Fold, Listing, Piece, Query, Td, link, marked, number, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, case_address, encoded};
use ::report::pages;
use assessment::lots::{self, LotSheet};
use assessment::results::{self, Listed};
use assessment::verdict::Rules;
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use message::{Arg, Spoken, count, language, web_places as says};
use programme::index::Wanted;
use quantity::format::{at_decimals, decimals_for, significant};
use quantity::{Check, Outcome};
use record::model::{BottleKind, Weight};
use record::store::{Filter, Store};
use std::collections::BTreeSet;

/// Blanks of one metal told, at most.
const BLANKS: usize = 400;

/// All lots with the results of their blanks.
pub(crate) fn sheets(store: &Store, app: &crate::app::App) -> Result<(Vec<LotSheet>, Vec<Listed>), HttpError> {
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
    let (sheets, listed, weight) = page::read(&app, |store, app| {
        let rules = Rules::new(store.check_rules()?);
        let (sheets, listed) = sheets(store, app)?;
        Ok((sheets, listed, rules.weight(Check::BottleLot)))
    })
    .await?;
    let mut pieces: Vec<Piece> = vec![head(&who).into(), overview(&sheets)];
    if !sheets.is_empty() {
        pieces.push(html! { p.under { (does(weight)) } }.into());
    }
    for s in &sheets {
        let name = || s.lot.name.as_str().into();
        let corrected = format!("/correct/lot/{}?to=%2Flots", s.lot.id);
        let bottle = format!("/enter/bottle?lot={}&to=%2Flots", encoded(&s.lot.name));
        pieces.push(
            html! {
                h2 #(anchor(&s.lot.name)) { (says::LotTitle { lot: name() }.text()) }
                p { (word(s.outcome)) " " (why(s)) }
                @if who.may(Role::Sampler) { p.acts { a href=(corrected) { (says::CorrectLot.text()) } " " a href=(bottle) { (says::BottleOfLot.text()) } } }
            }
            .into(),
        );
        let mut inside: Vec<Piece> = pages::lot(s).into_iter().map(Piece::from).collect();
        inside.push(blanks(s, &listed).or(says::WhyNoBlank.text()));
        let line = says::LotsFold { lot: name() }.text();
        pieces.push(Piece::Fold(Fold { line, id: format!("in-{}", anchor(&s.lot.name)), pieces: inside, open: false }));
    }
    respond(&app, &who, Place::of("/lots", &says::LotsTitle.text()), &q, &pieces)
}

fn head(who: &Who) -> Markup {
    html! {
        h1 { (says::LotsTitle.text()) }
        p { (says::LotsHow.text()) }
        @if who.may(Role::Sampler) { p.acts { a.go href="/enter/lot?to=%2Flots" { (says::EnterLot.text()) } } }
        p.caution { (says::LotsAcid.text()) }
    }
}

/// Where a lot stands on the page.
pub(crate) fn anchor(lot: &str) -> String {
    format!("lot-{}", ::figure::slug(lot))
}

/// Whether a lot may go out, in one word, the same everywhere.
fn decision(o: Outcome) -> String {
    match o {
        Outcome::Met => says::Released.text(),
        Outcome::NotMet => says::Held.text(),
        Outcome::NotKnown => says::NotDecided.text(),
    }
}

/// The same as shape and word.
fn word(o: Outcome) -> Markup {
    marked(o, &decision(o))
}

/// What the decision does to a result, by this programme's table of checks.
fn does(weight: Weight) -> String {
    match weight {
        Weight::Decisive => says::DoesDecisive.text(),
        Weight::Warning => says::DoesWarning.text(),
        Weight::Note => says::DoesNote.text(),
    }
}

/// What decided, in words.
fn why(s: &LotSheet) -> String {
    let held: Vec<&lots::LotMetal> = s.metals.iter().filter(|m| m.target_pg.is_some()).collect();
    if s.metals.is_empty() {
        return says::WhyNoBlank.text();
    }
    if held.is_empty() {
        return says::WhyNoTarget.text();
    }
    let of = |o: Outcome| -> Vec<Arg> {
        let named = |m: &&&lots::LotMetal| Arg::Name(of_isotopes(&m.analyte, &m.isotopes).into());
        held.iter().filter(|m| m.outcome == o).map(|m| named(&m)).collect()
    };
    let (over, open) = (of(Outcome::NotMet), of(Outcome::NotKnown));
    if over.is_empty() && open.is_empty() {
        return says::WhyAll.text();
    }
    let decided = says::WhyDecided { n: count(held.len() - open.len()), found: count(held.len()) }.text();
    let mut parts = vec![decided];
    if !over.is_empty() {
        parts.push(says::WhyOver { what: over }.text());
    }
    if !open.is_empty() {
        parts.push(says::WhyOpen { what: open }.text());
    }
    parts.join(" ")
}

fn overview(sheets: &[LotSheet]) -> Piece {
    let row = |s: &LotSheet| {
        let mut came = td(decision(s.outcome));
        came.shown = word(s.outcome);
        let bottles: usize = s.bottles.values().sum();
        let blanks = s.metals.iter().map(|m| m.blanks.len() + m.left_out).max().unwrap_or(0);
        vec![
            link(&format!("#{}", anchor(&s.lot.name)), s.lot.name.clone()),
            came,
            td(page::day(s.lot.cleaned_on.as_deref().unwrap_or_default())),
            number(bottles.to_string()),
            number(blanks.to_string()),
            number(s.metals.iter().filter(|m| m.target_pg.is_some()).count().to_string()),
        ]
    };
    Listing {
        caption: says::LotsCaption.text(),
        headings: vec![
            says::Lot.text(),
            says::Decision.text(),
            says::CleanedOn.text(),
            says::Bottles.text(),
            says::BlanksMeasured.text(),
            says::WithTarget.text(),
        ],
        rows: sheets.iter().map(row).collect(),
        ..Listing::default()
    }
    .or(says::LotsNone.text())
}

/// The blanks of a lot, a column a bottle, each value with its case.
fn blanks(s: &LotSheet, listed: &[Listed]) -> Listing {
    let labels: BTreeSet<&str> = s.metals.iter().flat_map(|m| &m.blanks).map(|b| b.bottle.as_str()).collect();
    let cell = |m: &lots::LotMetal, label: &str| {
        let Some(blank) = m.blanks.iter().find(|b| b.bottle == label) else { return number("–") };
        let own = |r: &&Listed| {
            r.bottle == label && r.analyte == m.analyte && r.isotopes == m.isotopes && r.resolution == m.resolution
        };
        let own_result = listed.iter().find(own);
        let k = own_result.and_then(|r| r.coverage_k).unwrap_or(2.0);
        let shown = blank.u_pg.filter(|u| *u > 0.0).map_or_else(
            || format!("{} {}", language().number(&significant(blank.pg, 2)), says::NoU.text()),
            |u| {
                let expanded = k * u;
                let places = decimals_for(expanded, 2);
                language().number(&format!("{} ± {}", at_decimals(blank.pg, places), at_decimals(expanded, places)))
            },
        );
        match own_result {
            Some(r) => Td { number: true, ..link(&case_address(&r.result), shown) },
            None => number(shown),
        }
    };
    let row = |m: &lots::LotMetal| {
        let mut row = vec![td(of_isotopes(&m.analyte, &m.isotopes))];
        row.extend(labels.iter().map(|label| cell(m, label)));
        row.push(number(m.target_pg.map_or_else(|| says::NoneSet.text(), |t| language().number(&significant(t, 2)))));
        row
    };
    let mut headings = vec![says::Metal.text()];
    headings.extend(labels.iter().map(ToString::to_string));
    headings.push(says::Target.text());
    Listing {
        caption: says::LotBlanks { lot: s.lot.name.as_str().into() }.text(),
        headings,
        rows: s.metals.iter().map(row).collect(),
        foot: Some(html! { (says::OpensCase.text()) }),
        ..Listing::default()
    }
}
