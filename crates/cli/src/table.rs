//! Tables on a terminal: columns as wide as their longest cell, numbers to the right, two spaces
//! between. Text that a spreadsheet or a person can read, nothing drawn.

use std::collections::HashMap;

/// Which side a column leans to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Text.
    Left,
    /// Numbers.
    Right,
}

/// Between two columns.
const GAP: &str = "  ";

/// Letters of the longest cell of each column, its heading too.
fn widths<'r>(headings: &[(&str, Side)], rows: impl Iterator<Item = &'r Vec<String>>) -> Vec<usize> {
    let mut widths: Vec<usize> = headings.iter().map(|(heading, _)| heading.chars().count()).collect();
    for row in rows {
        for (width, cell) in widths.iter_mut().zip(row) {
            *width = (*width).max(cell.chars().count());
        }
    }
    widths
}

/// Leaves the first column what the others leave of a terminal: a longer name stands above the rest of its row.
fn within(widths: &mut [usize], (heading, _): (&str, Side), width: usize) {
    let others: usize = widths.iter().skip(1).map(|w| GAP.len() + w).sum();
    let room = width.saturating_sub(others).max(heading.chars().count());
    widths[0] = widths[0].min(room);
}

/// Lays rows out under headings.
pub fn lay_out(headings: &[(&str, Side)], rows: &[Vec<String>]) -> String {
    let widths = widths(headings, rows.iter());
    let mut out = line(headings, &widths, &headings.iter().map(|h| h.0).collect::<Vec<_>>());
    for row in rows {
        out += &line(headings, &widths, &row.iter().map(String::as_str).collect::<Vec<_>>());
    }
    out
}

/// How far a note stands in under its row.
const INDENT: usize = 4;

/// As [`lay_out`], with a note under each row that has one, broken between words to fit the width: what is long does not
/// widen the table. A name in the first column that would widen it stands on a line of its own, above the rest of its row.
pub fn lay_out_with_notes(headings: &[(&str, Side)], rows: &[(Vec<String>, String)], width: usize) -> String {
    let mut widths = widths(headings, rows.iter().map(|(cells, _)| cells));
    within(&mut widths, headings[0], width);
    let mut out = line(headings, &widths, &headings.iter().map(|h| h.0).collect::<Vec<_>>());
    for (cells, note) in rows {
        let cells = cells.iter().map(String::as_str).collect();
        out += &with_note(headings, &widths, cells, note, width);
    }
    out
}

/// A row, its name above where that is too long, its note beneath.
fn with_note(headings: &[(&str, Side)], widths: &[usize], mut cells: Vec<&str>, note: &str, width: usize) -> String {
    let mut text = String::new();
    if cells[0].chars().count() > widths[0] {
        text.extend([std::mem::take(&mut cells[0]), "\n"]);
    }
    text += &line(headings, widths, &cells);
    for piece in pieces(note, width.saturating_sub(INDENT)).iter().filter(|p| !p.is_empty()) {
        text.extend([" ".repeat(INDENT).as_str(), piece, "\n"]);
    }
    text
}

/// Rows of so many cells with a note, kept in few bytes each: there may be millions.
#[derive(Debug, Default)]
pub struct Rows<const N: usize> {
    text: String,
    /// Where each cell of each row ends in the text, and the place of its note.
    ends: Vec<([usize; N], usize)>,
    /// Few notes are different ones.
    notes: Vec<String>,
    known: HashMap<String, usize>,
}

impl<const N: usize> Rows<N> {
    /// Adds a row.
    pub fn push(&mut self, cells: [&str; N], note: &str) {
        let ends = cells.map(|cell| {
            self.text.push_str(cell);
            self.text.len()
        });
        let place = self.known.get(note).copied().unwrap_or_else(|| {
            self.known.insert(note.into(), self.notes.len());
            self.notes.push(note.into());
            self.notes.len() - 1
        });
        self.ends.push((ends, place));
    }

    fn cells(&self) -> impl Iterator<Item = ([&str; N], &str)> {
        let mut from = 0;
        self.ends.iter().map(move |(ends, note)| {
            let cells = ends.map(|end| &self.text[std::mem::replace(&mut from, end)..end]);
            (cells, self.notes[*note].as_str())
        })
    }

    /// Lays the rows out as [`lay_out_with_notes`] does. `first` makes the first cell of what was kept of it.
    pub fn each_line(
        &self,
        headings: &[(&str, Side); N],
        first: impl Fn(&str) -> &str,
        width: usize,
        mut write: impl FnMut(&str),
    ) {
        let shown = |cells: [&str; N]| {
            let mut places = 0..N;
            cells.map(|cell| if places.next() == Some(0) { first(cell).to_string() } else { cell.to_string() })
        };
        let mut widths = headings.map(|(heading, _)| heading.chars().count());
        for (cells, _) in self.cells() {
            for (width, cell) in widths.iter_mut().zip(shown(cells)) {
                *width = (*width).max(cell.chars().count());
            }
        }
        within(&mut widths, headings[0], width);
        write(&line(headings, &widths, &headings.map(|h| h.0)));
        for (cells, note) in self.cells() {
            let shown = shown(cells);
            write(&with_note(headings, &widths, shown.iter().map(String::as_str).collect(), note, width));
        }
    }
}

/// One line: each cell as wide as its column.
fn line(headings: &[(&str, Side)], widths: &[usize], cells: &[&str]) -> String {
    let mut text = String::new();
    for (i, cell) in cells.iter().enumerate() {
        let space = " ".repeat(widths[i] - cell.chars().count());
        let (first, second) = match headings[i].1 {
            Side::Left => (*cell, space.as_str()),
            Side::Right => (space.as_str(), *cell),
        };
        text.extend([first, second, GAP]);
    }
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

/// A text in lines of so many letters at most; a longer word stands alone on its line.
fn pieces(text: &str, room: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let line = lines.last_mut().expect("there is always one");
        if line.is_empty() {
            line.push_str(word);
        } else if line.chars().count() + 1 + word.chars().count() <= room {
            line.push(' ');
            line.push_str(word);
        } else {
            lines.push(word.to_string());
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_lean_right_and_no_line_ends_in_spaces() {
        let rows = vec![vec!["SL-2".to_string(), "1.05".to_string()], vec!["SL-31".into(), "0.3".into()]];
        let text = lay_out(&[("well", Side::Left), ("ng/L", Side::Right)], &rows);
        assert_eq!(text, "well   ng/L\nSL-2   1.05\nSL-31   0.3\n");
    }

    #[test]
    fn a_note_stands_under_its_row_and_does_not_widen_the_table() {
        let mut rows = Rows::default();
        rows.push(["SL-2:Pb", "1.05", "", ""], "air.class, blank.level, duplicate.agree");
        rows.push(["SL-31:Pb", "0.3", "", ""], "");
        let headings = [("well", Side::Left), ("ng/L", Side::Right), ("", Side::Left), ("", Side::Left)];
        let mut text = String::new();
        rows.each_line(&headings, |name| name.trim_end_matches(":Pb"), 30, |line| text += line);
        assert_eq!(text, "well   ng/L\nSL-2   1.05\n    air.class, blank.level,\n    duplicate.agree\nSL-31   0.3\n");
        assert!(text.lines().all(|l| l.chars().count() <= 30));
    }

    #[test]
    fn a_name_too_long_for_its_column_stands_above_its_row() {
        let rows = [
            (vec!["SL-2".to_string(), "1.05".to_string()], "air.class, blank.level".to_string()),
            (vec!["SL-31".into(), "0.3".into()], String::new()),
        ];
        let text = lay_out_with_notes(&[("well", Side::Left), ("ng/L", Side::Right)], &rows, 10);
        assert_eq!(text, "well  ng/L\nSL-2  1.05\n    air.class,\n    blank.level\nSL-31\n       0.3\n");
    }
}
