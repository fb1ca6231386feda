//! Chapter "Every metal, well by well": one row a substance and well, the bottles beside each other.

use super::words::capital;
use super::{substance, verdict_cell};
use assessment::results::Listed;
use document::content::{Block, Cell, Column, Table};
use figure::number::Printed;
use message::{Shown, Spoken, chapter as said, count, front, word};
use std::collections::{BTreeMap, BTreeSet};

/// Bottles of a well beside each other, at most.
const BOTTLES: usize = 3;
/// Rows of the chapter, at most: what the report speaks of first comes first, the annex has all.
const ROWS: usize = 46;
/// What makes up the water, and what is no metal: these stand with the waters.
const NO_METAL: [&str; 25] = [
    "Ca",
    "Mg",
    "Na",
    "K",
    "Cl",
    "SO4",
    "NO3",
    "NO2",
    "NH4",
    "PO4",
    "F",
    "Br",
    "SiO2",
    "Si",
    "S",
    "P",
    "C",
    "sulfide",
    "H2S",
    "S(-II)",
    "TDS",
    "hardness",
    "alkalinity",
    "HCO3",
    "CO3",
];

/// Isotopes and resolution of a result.
type Isotopes<'a> = (&'a str, &'a str);

/// The table; none where nothing was measured. `first`: substances that come before the others.
pub fn blocks(results: &[&Listed], first: &[String]) -> Vec<Block> {
    let mut of: BTreeMap<(&str, &str), Vec<&Listed>> = BTreeMap::new();
    let is_metal =
        |r: &&Listed| !NO_METAL.contains(&r.analyte.as_str()) && !super::words::CONDITIONS.contains(&&*r.analyte);
    let judged = |r: &&Listed| r.verdict.is_some() && r.kind.is_water() && r.amount.is_some();
    for r in results.iter().copied().filter(judged).filter(is_metal) {
        of.entry((r.analyte.as_str(), r.well.as_deref().unwrap_or(&r.bottle))).or_default().push(r);
    }
    if of.is_empty() {
        return vec![];
    }
    let reporting = reporting_isotopes(results);
    for rows in of.values_mut() {
        rows.retain(|r| {
            reporting.get(r.analyte.as_str()).is_none_or(|i| *i == (r.isotopes.as_str(), r.resolution.as_str()))
        });
        rows.sort_by(|a, b| (&a.filled_at, &a.bottle).cmp(&(&b.filled_at, &b.bottle)));
    }
    of.retain(|_, rows| !rows.is_empty());
    let rank = |analyte: &str| first.iter().position(|f| f == analyte).unwrap_or(first.len());
    let mut rows: Vec<_> = of.into_iter().collect();
    rows.sort_by(|a, b| (rank(a.0.0), a.0).cmp(&(rank(b.0.0), b.0)));
    let more = rows.len().saturating_sub(ROWS);
    rows.truncate(ROWS);
    let widest = rows.iter().map(|(_, of)| of.len()).max().unwrap_or(1).min(BOTTLES);
    let unit = commonest_unit(rows.iter().flat_map(|(_, of)| of.iter().copied()));
    let with_limit = rows.iter().any(|(_, of)| of.iter().any(|r| r.detection_limit.is_some()));
    let with_blank = rows.iter().any(|(_, of)| of.iter().any(|r| r.blank.is_some()));
    let mut before = "";
    let mut out = vec![];
    for ((analyte, well), of) in &rows {
        let name = if *analyte == before { String::new() } else { capital(substance(analyte)) };
        before = analyte;
        let mut cells = vec![Cell::Text(name), Cell::Text((*well).to_string())];
        cells.extend(
            (0..widest).map(|k| of.get(k).map_or(Cell::Missing("–".into()), |r| value(r, &unit).of(&r.result))),
        );
        if with_blank {
            let blank = of.iter().find_map(|r| r.blank.as_ref()?.value());
            cells.push(blank.map_or(Cell::Missing("–".into()), |b| Cell::Text(Shown::significant(b, 2, "").text())));
        }
        if with_limit {
            let limit = of.iter().filter_map(|r| r.detection_limit).reduce(f64::max);
            cells.push(limit.map_or(Cell::Missing("–".into()), |l| Cell::Text(Shown::bound(l, "").text())));
        }
        cells.push(verdict_cell(of.iter().filter_map(|r| r.verdict).max()));
        out.push(cells);
    }
    let mut columns = vec![Column::words(word::Analyte.text()), Column::words(word::Well.text())];
    for k in 0..widest {
        let letter = char::from(b'A' + u8::try_from(k).unwrap_or(0)).to_string();
        columns.push(Column::numbers(front::BottleLetter { letter: letter.into() }.text(), &unit));
    }
    if with_blank {
        columns.push(Column::numbers(said::Blank.text(), &unit));
    }
    if with_limit {
        columns.push(Column::numbers(message::paper::DetectionLimit.text(), &unit));
    }
    columns.push(Column::words(word::Verdict.text()));
    let mut notes = vec![said::WideNote.text()];
    if more > 0 {
        notes.push(said::InAnnex { n: count(more) }.text());
    }
    vec![Block::Table(Table { caption: said::WideCaption.text(), columns, rows: out, notes })]
}

/// Of each substance the isotopes that stand for it: a sum over isotopes, else what most bottles were measured by, else
/// the first.
fn reporting_isotopes<'a>(results: &[&'a Listed]) -> BTreeMap<&'a str, Isotopes<'a>> {
    let mut of: BTreeMap<&str, BTreeMap<Isotopes, usize>> = BTreeMap::new();
    for r in results.iter().filter(|r| r.verdict.is_some()) {
        *of.entry(&r.analyte).or_default().entry((r.isotopes.as_str(), r.resolution.as_str())).or_default() += 1;
    }
    let best = |counts: BTreeMap<Isotopes<'a>, usize>| {
        let mut all: Vec<_> = counts.into_iter().collect();
        all.sort_by(|a, b| (b.0.0.contains('+'), b.1).cmp(&(a.0.0.contains('+'), a.1)).then(a.0.cmp(&b.0)));
        all.first().map_or(("", ""), |x| x.0)
    };
    // Reported values without isotopes stand beside those of a run.
    of.into_iter().map(|(analyte, counts)| (analyte, best(counts))).collect()
}

fn commonest_unit<'a>(results: impl Iterator<Item = &'a Listed>) -> String {
    let mut n: BTreeMap<String, usize> = BTreeMap::new();
    for r in results {
        if let Some(a) = &r.amount {
            *n.entry(a.unit().to_string()).or_default() += 1;
        }
    }
    n.into_iter().max_by_key(|(_, n)| *n).map_or_else(String::new, |(unit, _)| unit)
}

/// A value with U to the digits that U supports; a bound in its own words.
fn value(r: &Listed, unit: &str) -> Cell {
    if let Some((bound, _)) = r.bound() {
        return Cell::Text(bound);
    }
    let Some(amount) = &r.amount else { return Cell::Missing("–".into()) };
    let printed = Printed::of(amount, r.coverage_k.unwrap_or(2.0));
    let same = amount.unit().to_string() == unit;
    Cell::Text(if same { printed.number() } else { printed.in_line() })
}

/// The substances that lie above a limit or cannot be told, the key one before them.
pub fn first(key: &str, against: &programme::limits_of::Against) -> Vec<String> {
    let mut out = vec![key.to_string()];
    let mut seen: BTreeSet<&str> = BTreeSet::from([key]);
    for r in against.rows.iter().filter(|r| r.comparison.answer != limits::Answer::Below) {
        if seen.insert(&r.analyte) {
            out.push(r.analyte.clone());
        }
    }
    out
}
