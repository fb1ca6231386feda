//! Table "Lead isotope ratios" of a run, with the known sources that a bottle's lead could be of.

use super::Run;
use assessment::lead::sources::{self, Source};
use assessment::lead::{self, LeadRatios};
use document::content::{Block, Cell, Column, Table};
use measurement::line::Estimate;
use measurement::run::Role;
use message::{Message, Spoken, lead as said, word as common};
use quantity::{Amount, Unit};
use record::model::LeadSource;

/// The tables; empty where 206, 207 and 208 were not measured. Of the waters of the run those that are told of.
pub fn blocks(run: &Run, recorded: &[LeadSource], is_told: &dyn Fn(&str) -> bool) -> Vec<Block> {
    let all = lead::ratios(&run.prepared);
    let Some(ratios) = ratios(&all, is_told) else { return vec![] };
    let mut out = vec![Block::Table(ratios)];
    let (known, mut findings) = sources::sources(recorded);
    if let Some(table) = (!known.is_empty() && all.bias.is_some()).then(|| of_sources(&all, &known)) {
        out.push(Block::Table(table));
    }
    findings.extend(all.findings);
    if !findings.is_empty() {
        out.push(Block::Findings(findings));
    }
    out
}

fn amount(e: Estimate) -> Cell {
    Cell::Amount { amount: Amount::measured(e.value, e.u, Unit::one()), k: 2.0 }
}

/// A factor with its u, to the digits that u supports.
fn with_u(e: Estimate) -> Message {
    Amount::measured(e.value, e.u, Unit::one()).with_expanded()
}

fn ratios(all: &LeadRatios, is_told: &dyn Fn(&str) -> bool) -> Option<Table> {
    let corrected = |e: &[Estimate; 2]| all.bias.as_ref().map_or(*e, |b| b.apply(e));
    let mut rows: Vec<Vec<Cell>> = all
        .vials
        .iter()
        .filter(|v| matches!(v.role, Role::Sample | Role::Duplicate) && is_told(&v.name))
        .map(|v| {
            let lean = v.lean.map_or_else(|| said::NoFieldBlanks.into(), |(lean, _)| lean.said());
            let [first, second] = corrected(&v.ratios);
            vec![Cell::Text(v.name.clone()), amount(first), amount(second), Cell::Text(lean.text())]
        })
        .collect();
    if rows.is_empty() {
        return None;
    }
    if let Some([first, second]) = all.field_blanks.map(|b| corrected(&b)) {
        rows.push(vec![
            Cell::Text(said::FieldBlanksTogether.text()),
            amount(first),
            amount(second),
            Cell::Text(String::new()),
        ]);
    }
    let bias = match &all.bias {
        None => said::MassBiasNotCorrected.text(),
        Some(b) => {
            let [first, second] = b.factors.map(with_u);
            let (vials, source) = (b.vials.join(", ").into(), b.source.as_str().into());
            said::MassBiasCorrected { vials, source, first, second }.text()
        }
    };
    Some(Table {
        caption: said::Ratios.text(),
        columns: vec![
            Column::words(common::Bottle.text()),
            Column::numbers("206/207", ""),
            Column::numbers("208/206", ""),
            Column::words(said::MakeUp.text()),
        ],
        rows,
        notes: vec![format!("{} {bias}", said::OfAll.text()), said::Comparison.text()],
    })
}

fn of_sources(all: &LeadRatios, known: &[Source]) -> Table {
    let mut rows: Vec<Vec<Cell>> = known
        .iter()
        .map(|s| {
            vec![Cell::Text(s.name.clone()), amount(s.ratios[0]), amount(s.ratios[1]), Cell::Text(s.origin.clone())]
        })
        .collect();
    for v in all.vials.iter().filter(|v| matches!(v.role, Role::Sample | Role::Duplicate)) {
        let Some(found) = v.corrected else { continue };
        let fits = sources::fits(&found, known).says().text();
        rows.push(vec![Cell::Text(v.name.clone()), amount(found[0]), amount(found[1]), Cell::Text(fits)]);
    }
    Table {
        caption: said::KnownSources.text(),
        columns: vec![
            Column::words(said::SourceOrBottle.text()),
            Column::numbers("206/207", ""),
            Column::numbers("208/206", ""),
            Column::words(said::WhereFrom.text()),
        ],
        rows,
        notes: vec![said::SourcesExplained.text()],
    }
}
