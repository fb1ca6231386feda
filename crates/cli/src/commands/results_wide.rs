//! `limpid results --wide`: a row a well and day, a column an analyte, as people keep results in spreadsheets. What a
//! number alone would hide stands beside it as a sign, and each sign is explained under the table.

use super::results::Line;
use crate::table::{Side, lay_out};
use record::model::VerdictWord;
use std::collections::{BTreeMap, BTreeSet};

/// What the signs mean, a line each.
pub const SIGNS: &[&str] = &[
    "<  below this limit or upper bound: no value",
    ">  above this limit: no value",
    "nd not detected, and the report does not say below what",
    "p  provisional    r  rejected    no sign: accepted    a  accepted by a profile of checks (`limpid profiles`)",
    ";  between bottles of one well and day: each stands for itself",
    "   an empty cell: nothing of it is on record, which is not \"none\"",
    "Uncertainties and reasons are in `limpid results` without --wide. Blanks and spikes are left out.",
];

/// What was measured, as the heading of a column.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Column {
    analyte: String,
    isotopes: String,
    fraction: String,
    unit: String,
}

/// The grid: headings and rows, well and day first.
#[derive(Debug, Clone, Default)]
pub struct Grid {
    pub headings: Vec<String>,
    pub rows: Vec<Vec<String>>,
}

/// Sets results of waters out as a grid. Evidence, and bottles of no well, have no row.
pub fn grid(lines: &[Line]) -> Grid {
    let mut columns = BTreeSet::new();
    let mut cells: BTreeMap<(&str, &str), BTreeMap<Column, Vec<String>>> = BTreeMap::new();
    for l in lines.iter().filter(|l| l.verdict.is_some() && !l.well.is_empty()) {
        let column = Column {
            analyte: l.analyte.clone(),
            isotopes: l.isotopes.clone(),
            fraction: l.fraction.clone(),
            unit: l.unit.clone(),
        };
        columns.insert(column.clone());
        cells.entry((l.well.as_str(), l.day.as_str())).or_default().entry(column).or_default().push(cell(l));
    }
    let headings = ["well".to_string(), "day".into()].into_iter().chain(columns.iter().map(|c| heading(c, &columns)));
    let row = |((well, day), of): (&(&str, &str), &BTreeMap<Column, Vec<String>>)| {
        let values = columns.iter().map(|c| of.get(c).map_or_else(String::new, |v| v.join("; ")));
        [well.to_string(), day.to_string()].into_iter().chain(values).collect()
    };
    Grid { headings: headings.collect(), rows: cells.iter().map(row).collect() }
}

/// The analyte and its unit; isotopes and fraction only where they tell two columns apart.
fn heading(column: &Column, all: &BTreeSet<Column>) -> String {
    let same: Vec<&Column> = all.iter().filter(|c| c.analyte == column.analyte).collect();
    let mut out = column.analyte.clone();
    if same.iter().any(|c| c.isotopes != column.isotopes) && !column.isotopes.is_empty() {
        out += &format!(" {}", column.isotopes);
    }
    if same.iter().any(|c| c.fraction != column.fraction) {
        out += &format!(" {}", column.fraction);
    }
    if column.unit.is_empty() { out } else { format!("{out} ({})", column.unit) }
}

fn cell(l: &Line) -> String {
    let number = if l.number.value.is_empty() { "nd".into() } else { format!("{}{}", l.number.sign, l.number.value) };
    match l.verdict {
        Some(VerdictWord::Provisional) => format!("{number} p"),
        Some(VerdictWord::Rejected) => format!("{number} r"),
        Some(VerdictWord::Accepted) if !l.profile.is_empty() => format!("{number} a"),
        _ => number,
    }
}

/// The grid in blocks of columns that fit the width, well and day before each, and the signs under it.
pub fn on_a_terminal(lines: &[Line], width: usize) -> String {
    let grid = grid(lines);
    if grid.rows.is_empty() {
        return "no result of a well is left by these filters\n".into();
    }
    let widest = |i: usize| {
        let cells = grid.rows.iter().map(|r| r[i].chars().count());
        cells.chain([grid.headings[i].chars().count()]).max().unwrap_or(0) + 2
    };
    let (mut out, mut start) = (String::new(), 2);
    while start < grid.headings.len() {
        let (mut end, mut used) = (start, widest(0) + widest(1));
        while end < grid.headings.len() && (end == start || used + widest(end) <= width + 2) {
            used += widest(end);
            end += 1;
        }
        let places: Vec<usize> = [0, 1].into_iter().chain(start..end).collect();
        let side = |i: usize| if i < 2 { Side::Left } else { Side::Right };
        let headings: Vec<(&str, Side)> = places.iter().map(|i| (grid.headings[*i].as_str(), side(*i))).collect();
        // A block in which a well and day have nothing does not show them.
        let told = |r: &&Vec<String>| places.iter().skip(2).any(|i| !r[*i].is_empty());
        let rows: Vec<Vec<String>> =
            grid.rows.iter().filter(told).map(|r| places.iter().map(|i| r[*i].clone()).collect()).collect();
        out += &lay_out(&headings, &rows);
        out.push('\n');
        start = end;
    }
    SIGNS.iter().for_each(|line| out.extend([*line, "\n"]));
    out
}
