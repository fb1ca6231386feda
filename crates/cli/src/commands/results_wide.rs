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

/// A grid in the making: of each column its place, of each cell its text and no more.
#[derive(Debug, Default)]
pub struct Cells {
    columns: BTreeMap<Column, usize>,
    /// By well and day, then by the place of the column.
    rows: BTreeMap<(String, String), BTreeMap<usize, String>>,
}

impl Cells {
    /// Adds a result of a water. Evidence, and bottles of no well, have no row.
    pub fn add(&mut self, l: Line) {
        if l.verdict.is_none() || l.well.is_empty() {
            return;
        }
        let cell = cell(&l);
        let column = Column { analyte: l.analyte, isotopes: l.isotopes, fraction: l.fraction, unit: l.unit };
        let next = self.columns.len();
        let place = *self.columns.entry(column).or_insert(next);
        let text = self.rows.entry((l.well, l.day)).or_default().entry(place).or_default();
        if !text.is_empty() {
            text.push_str("; ");
        }
        text.push_str(&cell);
    }

    /// All of it, the columns in their order.
    pub fn grid(self) -> Grid {
        let named: BTreeSet<Column> = self.columns.keys().cloned().collect();
        let first = ["well".to_string(), "day".into()].into_iter();
        let headings = first.chain(named.iter().map(|c| heading(c, &named))).collect();
        let row = |((well, day), mut of): ((String, String), BTreeMap<usize, String>)| {
            let values = self.columns.values().map(|place| of.remove(place).unwrap_or_default());
            [well, day].into_iter().chain(values).collect()
        };
        Grid { headings, rows: self.rows.into_iter().map(row).collect() }
    }
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
pub fn on_a_terminal(grid: &Grid, width: usize) -> String {
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
