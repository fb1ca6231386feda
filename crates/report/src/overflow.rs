//! What the overflow does for the stream that takes it: shares, and each value above, of the wells,
//! and below.

use super::section;
use super::words::capital;
use aquifer::mixing::{End, Mixed, Mixture};
use assessment::overflow::{self, Overflow};
use assessment::results::Listed;
use document::content::{Block, Cell, Column, Section, Table};
use language::as_written;
use quantity::format::{percent, significant, significant_trimmed};
use quantity::{Amount, Unit};
use record::Error;
use record::store::Store;

/// Coverage factor of the tables here.
const K: f64 = 2.0;

/// One section with all streams and trips; none where no well is said to overflow into one.
pub fn sections(store: &Store, all: &[Listed]) -> Result<Vec<Section>, Error> {
    let found = overflow::overflows(store, all)?;
    if found.is_empty() {
        return Ok(vec![]);
    }
    Ok(vec![section("What the overflow does for the stream", found.iter().flat_map(blocks).collect())])
}

fn blocks(o: &Overflow) -> Vec<Block> {
    let mut out = vec![Block::Heading(format!("{}, trip {}", as_written(&o.stream), as_written(&o.trip)))];
    if let Some(below) = &o.below {
        out.push(Block::Text(sentence(o)));
        out.push(Block::Table(flows(o, below)));
        out.push(Block::Table(values(o, below)));
    }
    out.extend(o.lacking.iter().map(|l| Block::Text(l.clone())));
    out
}

/// "4.2 ± 0.9 % of the water of Heron Drain below is overflow of SL-1."
fn sentence(o: &Overflow) -> String {
    let share = o.wells_share().map_or_else(String::new, |s| percent_of(&s));
    let names = o.wells.iter().map(|w| w.name.as_str()).collect::<Vec<_>>().join(", ");
    format!(
        "{share} % of the water of {} below is overflow of {names} ({} was {} above; ± with k = 2).",
        o.stream,
        o.stream,
        flow(o.above.as_ref())
    )
}

/// A share in per cent, with its expanded u where it has one.
fn percent_of(share: &Amount) -> String {
    match (share.value(), share.u()) {
        (Some(v), Some(u)) => format!("{} ± {}", percent(v, 2), percent(K * u, 1)),
        (Some(v), None) => percent(v, 2),
        _ => "–".into(),
    }
}

fn flow(above: Option<&End>) -> String {
    above.map_or_else(String::new, |a| a.flow.in_words())
}

fn amount(a: &Amount) -> Cell {
    Cell::Amount { amount: a.clone(), k: K }
}

fn flows(o: &Overflow, below: &Mixture) -> Table {
    let mut rows: Vec<Vec<Cell>> = o
        .above
        .iter()
        .chain(&o.wells)
        .zip(&below.shares)
        .map(|(end, (name, share))| vec![Cell::Text(name.clone()), amount(&end.flow), Cell::Text(percent_of(share))])
        .collect();
    rows.push(vec![
        Cell::Text(format!("{} below", as_written(&o.stream))),
        amount(&below.flow),
        Cell::Text("100".into()),
    ]);
    Table {
        caption: format!("The waters that meet in {}", as_written(&o.stream)),
        columns: vec![Column::words("water"), Column::numbers("flow", ""), Column::numbers("share", "%")],
        rows,
        notes: vec![],
    }
}

/// A value of a mixture: a number, a range where a water is below its limit, or why not.
fn mixed(m: &Mixed) -> Cell {
    match m {
        Mixed::Value(a) => amount(a),
        Mixed::Between(low, high, unit) => {
            let (low, high) = (significant_trimmed(*low, 3), significant_trimmed(*high, 3));
            // A range narrower than three digits show is one number.
            Cell::Text(if low == high { format!("{low} {unit}") } else { format!("{low} to {high} {unit}") })
        }
        Mixed::Missing(names) => Cell::Missing(format!("not known of {}", names.join(", "))),
    }
}

fn values(o: &Overflow, below: &Mixture) -> Table {
    let of = |end: &End, name: &str| end.values.iter().find(|(n, _)| n == name).map(|(_, a)| amount(a));
    let missing = || Cell::Missing("–".into());
    let rows = below
        .values
        .iter()
        .filter(|(_, m)| !matches!(m, Mixed::Missing(_)))
        .map(|(name, value)| {
            let wells = match &o.together {
                Some(t) => t.values.iter().find(|(n, _)| n == name).map(|(_, m)| mixed(m)),
                None => o.wells.first().and_then(|w| of(w, name)),
            };
            let change = below.change_percent.iter().find(|(n, _)| n == name).map(|(_, a)| of_percent(a));
            let mark = if overflow::changes_in_air(name) { " (a)" } else { "" };
            vec![
                Cell::Text(format!("{}{mark}", capital(name))),
                o.above.as_ref().and_then(|a| of(a, name)).unwrap_or_else(missing),
                wells.unwrap_or_else(missing),
                mixed(value),
                change.unwrap_or_else(missing),
            ]
        })
        .collect();
    Table {
        caption: format!("What the wells change in {}", as_written(&o.stream)),
        columns: vec![
            Column::words("what"),
            Column::numbers("above", ""),
            Column::numbers("wells together", ""),
            Column::numbers("below, computed", ""),
            Column::numbers("change", "%"),
        ],
        rows,
        notes: vec![
            "Mass balance of flows and amounts, full mixing; ± with k = 2. A water below its limit gives a range.".into(),
            "(a) Does not stay as it is when water without oxygen meets air: the figure is before it reacts or falls out.".into(),
        ],
    }
}

fn of_percent(a: &Amount) -> Cell {
    match (a.value(), a.u()) {
        (Some(v), Some(u)) => amount(&Amount::measured(v, u, Unit::known("%"))),
        (Some(v), None) => Cell::Text(significant(v, 2).replace('-', "−")),
        _ => Cell::Missing("–".into()),
    }
}
