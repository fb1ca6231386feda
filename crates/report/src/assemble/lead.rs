//! Table "Lead isotope ratios" of a run.

use super::Run;
use crate::content::{Block, Cell, Column, Table};
use measurement::line::Estimate;
use measurement::run::Role;
use programme::lead;
use quantity::{Amount, Unit};

/// The table; empty where 206, 207 and 208 were not measured.
pub fn blocks(run: &Run) -> Vec<Block> {
    let all = lead::ratios(&run.prepared);
    let amount = |e: Estimate| Cell::Amount { amount: Amount::measured(e.value, e.u, Unit::one()), k: 2.0 };
    let mut rows: Vec<Vec<Cell>> = all
        .vials
        .iter()
        .filter(|v| matches!(v.role, Role::Sample | Role::Duplicate))
        .map(|v| {
            let lean = v.lean.map_or("no field blanks to hold it against", |(lean, _)| lean.word());
            vec![Cell::Text(v.name.clone()), amount(v.ratios[0]), amount(v.ratios[1]), Cell::Text(lean.into())]
        })
        .collect();
    if rows.is_empty() {
        return vec![];
    }
    if let Some(blanks) = all.field_blanks {
        rows.push(vec![
            Cell::Text("field blanks together".into()),
            amount(blanks[0]),
            amount(blanks[1]),
            Cell::Text(String::new()),
        ]);
    }
    vec![Block::Table(Table {
        caption: "Lead isotope ratios".into(),
        columns: vec![
            Column::words("bottle"),
            Column::numbers("206/207", ""),
            Column::numbers("208/206", ""),
            Column::words("make-up"),
        ],
        rows,
        notes: vec![
            "Of all lead in the bottle, over the calibration blanks. Mass bias is not corrected: bottles of this run compare, published ratios do not.".into(),
            "The comparison is a χ² test over both ratios at 5 %. Like the blanks is not from the blanks: sources that nobody measured may look the same.".into(),
        ],
    })]
}
