//! `limpid results --wide` on a terminal: a row a well and day, a column an analyte, the signs under it.

use crate::table::{Side, lay_out};
use exchange::result_rows::{Grid, Row, SIGNS};

/// The grid in blocks of columns that fit the width, well and day before each, and the signs under it.
pub fn on_a_terminal(grid: &Grid<()>, width: usize) -> String {
    let cells: Vec<Vec<String>> = grid.rows.iter().map(Row::words).collect();
    if cells.is_empty() {
        return "no result of a well is left by these filters\n".into();
    }
    let widest = |i: usize| {
        let widths = cells.iter().map(|r| r[i].chars().count());
        widths.chain([grid.headings[i].chars().count()]).max().unwrap_or(0) + 2
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
            cells.iter().filter(told).map(|r| places.iter().map(|i| r[*i].clone()).collect()).collect();
        out += &lay_out(&headings, &rows);
        out.push('\n');
        start = end;
    }
    for line in SIGNS {
        out.extend([*line, "\n"]);
    }
    out
}
