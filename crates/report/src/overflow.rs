//! What the overflow does for the stream that takes it: shares, and each value above, of the wells,
//! and below.

use super::section;
use super::words::capital;
use aquifer::mixing::{End, Mixed, Mixture};
use assessment::overflow::{self, Overflow};
use assessment::results::Listed;
use document::content::{Annex, Block, Cell, Column, Section, Table};
use message::{Arg, Message, Name, Shown, Spoken, overflow as said, word};
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
    Ok(vec![section(said::Section, found.iter().flat_map(blocks).collect()).within(Annex::Wells)])
}

/// The same in a sentence a stream, for the chapter on wells.
pub fn sentences(store: &Store, all: &[Listed]) -> Result<Vec<Block>, Error> {
    let told = |o: &Overflow| match (&o.above, o.wells_share()) {
        (Some(above), Some(share)) => Some(Block::Text(sentence(o, above, &share).text())),
        _ => None,
    };
    Ok(overflow::overflows(store, all)?.iter().filter_map(told).collect())
}

fn blocks(o: &Overflow) -> Vec<Block> {
    let heading = said::OnTrip { stream: Name::from(&o.stream), trip: Name::from(&o.trip) };
    let mut out = vec![Block::Heading(heading.text())];
    if let (Some(above), Some(below), Some(share)) = (&o.above, &o.below, o.wells_share()) {
        out.push(Block::Text(sentence(o, above, &share).text()));
        out.push(Block::Table(flows(o, below)));
        out.push(Block::Table(values(o, below)));
    }
    out.extend(o.lacking.iter().map(|l| Block::Text(l.text())));
    out
}

/// "4.2 ± 0.9 % of the water of Heron Drain below is overflow of SL-1."
fn sentence(o: &Overflow, above: &End, share: &Amount) -> Message {
    let (stream, flow) = (Name::from(&o.stream), above.flow.with_expanded());
    let wells = o.wells.iter().map(|w| Arg::from(Name::from(&w.name))).collect();
    let number = |unit: &str| Shown::significant(100.0 * share.value().unwrap_or(f64::NAN), 2, unit);
    match share.u() {
        Some(u) => {
            let u = Shown::significant(100.0 * K * u, 1, "%");
            said::Share { share: number(""), u, stream, wells, flow }.into()
        }
        None => said::ShareWithoutU { share: number("%"), stream, wells, flow }.into(),
    }
}

/// A share in per cent, with its expanded u where it has one.
fn percent_of(share: &Amount) -> String {
    let percent = |x: f64, digits| Shown::significant(100.0 * x, digits, "").text();
    match (share.value(), share.u()) {
        (Some(v), Some(u)) => format!("{} ± {}", percent(v, 2), percent(K * u, 1)),
        (Some(v), None) => percent(v, 2),
        _ => "–".into(),
    }
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
        Cell::Text(said::Below { stream: Name::from(&o.stream) }.text()),
        amount(&below.flow),
        Cell::Text("100".into()),
    ]);
    Table {
        caption: said::Waters { stream: Name::from(&o.stream) }.text(),
        columns: vec![
            Column::words(word::Water.text()),
            Column::numbers(word::Flow.text(), ""),
            Column::numbers(word::Share.text(), "%"),
        ],
        rows,
        notes: vec![],
    }
}

/// A value of a mixture: a number, a range where a water is below its limit, or why not.
fn mixed(m: &Mixed) -> Cell {
    match m {
        Mixed::Value(a) => amount(a),
        Mixed::Between(low, high, unit) => {
            let shown = |x: f64, unit: String| Shown::trimmed(x, 3, unit);
            let (one, other) = (shown(*low, unit.to_string()), shown(*high, unit.to_string()));
            // A range narrower than three digits show is one number.
            Cell::Text(if one.text() == other.text() {
                one.text()
            } else {
                said::Between { low: shown(*low, String::new()), high: other }.text()
            })
        }
        Mixed::Missing(names) => {
            let waters = names.iter().map(|n| Arg::from(Name::from(n))).collect();
            Cell::Missing(said::NotKnownOf { waters }.text())
        }
    }
}

/// What is mixed, as a cell begins with it.
fn what(name: &str) -> String {
    let says: Message = match name.split_once(", ") {
        Some((analyte, fraction)) => said::ValueOf { analyte: analyte.into(), fraction: fraction.into() }.into(),
        None => said::Value { analyte: name.into() }.into(),
    };
    capital(says.text())
}

fn values(o: &Overflow, below: &Mixture) -> Table {
    let of = |end: &End, name: &str| end.values.iter().find(|(n, _)| n == name).map(|(_, a)| amount(a));
    let missing = || Cell::Missing("–".into());
    let rows = below
        .values
        .iter()
        // A value that one of the waters lacks has no mass balance, and so no row.
        .filter(|(_, m)| !matches!(m, Mixed::Missing(_)))
        .map(|(name, value)| {
            let wells = match &o.together {
                Some(t) => t.values.iter().find(|(n, _)| n == name).map(|(_, m)| mixed(m)),
                None => o.wells.first().and_then(|w| of(w, name)),
            };
            let change = below.change_percent.iter().find(|(n, _)| n == name).map(|(_, a)| of_percent(a));
            let mark = if overflow::changes_in_air(name) { " (a)" } else { "" };
            vec![
                Cell::Text(what(name) + mark),
                o.above.as_ref().and_then(|a| of(a, name)).unwrap_or_else(missing),
                wells.unwrap_or_else(missing),
                mixed(value),
                change.unwrap_or_else(missing),
            ]
        })
        .collect();
    Table {
        caption: said::Change { stream: Name::from(&o.stream) }.text(),
        columns: vec![
            Column::words(word::What.text()),
            Column::numbers(word::Above.text(), ""),
            Column::numbers(said::WellsTogether.text(), ""),
            Column::numbers(said::BelowComputed.text(), ""),
            Column::numbers(word::Change.text(), "%"),
        ],
        rows,
        notes: vec![said::MassBalance.text(), said::NotConserved.text()],
    }
}

fn of_percent(a: &Amount) -> Cell {
    match (a.value(), a.u()) {
        (Some(v), Some(u)) => amount(&Amount::measured(v, u, Unit::known("%"))),
        (Some(v), None) => Cell::Text(Shown::significant(v, 2, "").text().replace('-', "−")),
        _ => Cell::Missing("–".into()),
    }
}
