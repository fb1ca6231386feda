//! Table "Lead isotope ratios" of a run, with the known sources that a bottle's lead could be of.

use super::Run;
use assessment::lead::sources::{self, Source};
use assessment::lead::{self, LeadRatios};
use document::content::{Block, Cell, Column, Table};
use language::as_written;
use measurement::line::Estimate;
use measurement::run::Role;
use quantity::{Amount, Unit};
use record::model::LeadSource;

/// The tables; empty where 206, 207 and 208 were not measured.
pub fn blocks(run: &Run, recorded: &[LeadSource]) -> Vec<Block> {
    let all = lead::ratios(&run.prepared);
    let Some(ratios) = ratios(&all) else { return vec![] };
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
fn in_words(e: Estimate) -> String {
    Amount::measured(e.value, e.u, Unit::one()).in_words()
}

fn ratios(all: &LeadRatios) -> Option<Table> {
    let corrected = |e: &[Estimate; 2]| all.bias.as_ref().map_or(*e, |b| b.apply(e));
    let mut rows: Vec<Vec<Cell>> = all
        .vials
        .iter()
        .filter(|v| matches!(v.role, Role::Sample | Role::Duplicate))
        .map(|v| {
            let lean = v.lean.map_or("no field blanks to hold it against", |(lean, _)| lean.word());
            let [first, second] = corrected(&v.ratios);
            vec![Cell::Text(as_written(&v.name)), amount(first), amount(second), Cell::Text(lean.into())]
        })
        .collect();
    if rows.is_empty() {
        return None;
    }
    if let Some([first, second]) = all.field_blanks.map(|b| corrected(&b)) {
        rows.push(vec![
            Cell::Text("field blanks together".into()),
            amount(first),
            amount(second),
            Cell::Text(String::new()),
        ]);
    }
    let bias = all.bias.as_ref().map_or_else(
        || "Mass bias is not corrected: bottles of this run compare, published ratios do not.".into(),
        |b| {
            format!(
                "Mass bias corrected by {} ({}): times {} and {}; their u is in every figure and common to all.",
                b.vials.join(", "),
                b.source,
                in_words(b.factors[0]),
                in_words(b.factors[1])
            )
        },
    );
    Some(Table {
        caption: "Lead isotope ratios".into(),
        columns: vec![
            Column::words("bottle"),
            Column::numbers("206/207", ""),
            Column::numbers("208/206", ""),
            Column::words("make-up"),
        ],
        rows,
        notes: vec![
            format!("Of all lead in the bottle, over the calibration blanks. {bias}"),
            "The comparison is a χ² test over both ratios at 5 %. Like the blanks is not from the blanks: sources that nobody measured may look the same.".into(),
        ],
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
        let words = sources::fits(&found, known).words();
        rows.push(vec![Cell::Text(v.name.clone()), amount(found[0]), amount(found[1]), Cell::Text(words)]);
    }
    Table {
        caption: "Known sources of lead, and which of them the water's lead could be of".into(),
        columns: vec![
            Column::words("source or bottle"),
            Column::numbers("206/207", ""),
            Column::numbers("208/206", ""),
            Column::words("where from, or what it fits"),
        ],
        rows,
        notes: vec![
            "A source alone by χ² over both ratios at 5 %; two sources by the mixing line, with the share of 206 from the first. Ratios lean, they do not prove: the rock has its own lead, and a source that nobody measured is not among the answers.".into(),
        ],
    }
}
