//! Tables on a terminal: columns as wide as their longest cell, numbers to the right, two spaces
//! between. Text that a spreadsheet or a person can read, nothing drawn.

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
fn widths(headings: &[(&str, Side)], rows: &[Vec<String>]) -> Vec<usize> {
    let letters = |i: usize| rows.iter().map(move |r| r[i].chars().count());
    (0..headings.len()).map(|i| letters(i).fold(headings[i].0.chars().count(), usize::max)).collect()
}

/// Lays rows out under headings.
pub fn lay_out(headings: &[(&str, Side)], rows: &[Vec<String>]) -> String {
    let widths = widths(headings, rows);
    let mut out = String::new();
    let mut line = |cells: &[&str]| {
        let mut text = String::new();
        for (i, cell) in cells.iter().enumerate() {
            let space = " ".repeat(widths[i] - cell.chars().count());
            let (first, second) = match headings[i].1 {
                Side::Left => (*cell, space.as_str()),
                Side::Right => (space.as_str(), *cell),
            };
            text.extend([first, second, GAP]);
        }
        out.push_str(text.trim_end());
        out.push('\n');
    };
    line(&headings.iter().map(|h| h.0).collect::<Vec<_>>());
    for row in rows {
        line(&row.iter().map(String::as_str).collect::<Vec<_>>());
    }
    out
}

/// How far a note stands in under its row.
const INDENT: usize = 4;

/// As [`lay_out`], with a note under each row that has one, broken between words to fit the width: what is long does not
/// widen the table. A name in the first column that would widen it stands on a line of its own, above the rest of its row.
pub fn lay_out_with_notes(headings: &[(&str, Side)], rows: &[(Vec<String>, String)], width: usize) -> String {
    let mut cells: Vec<Vec<String>> = rows.iter().map(|(cells, _)| cells.clone()).collect();
    let others: usize = widths(headings, &cells).iter().skip(1).map(|w| GAP.len() + w).sum();
    let room = width.saturating_sub(others);
    let apart = |row: &mut Vec<String>| {
        if row[0].chars().count() > room { std::mem::take(&mut row[0]) } else { String::new() }
    };
    let above: Vec<String> = cells.iter_mut().map(apart).collect();
    let table = lay_out(headings, &cells);
    let above = std::iter::once("").chain(above.iter().map(String::as_str));
    let notes = std::iter::once("").chain(rows.iter().map(|(_, note)| note.as_str()));
    let mut out = String::new();
    for ((line, above), note) in table.lines().zip(above).zip(notes) {
        if !above.is_empty() {
            out.extend([above, "\n"]);
        }
        out.extend([line, "\n"]);
        for piece in pieces(note, width.saturating_sub(INDENT)).iter().filter(|p| !p.is_empty()) {
            out.extend([" ".repeat(INDENT).as_str(), piece, "\n"]);
        }
    }
    out
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
        let rows = [
            (vec!["SL-2".to_string(), "1.05".to_string()], "air.class, blank.level, duplicate.agree".to_string()),
            (vec!["SL-31".into(), "0.3".into()], String::new()),
        ];
        let text = lay_out_with_notes(&[("well", Side::Left), ("ng/L", Side::Right)], &rows, 30);
        assert_eq!(text, "well   ng/L\nSL-2   1.05\n    air.class, blank.level,\n    duplicate.agree\nSL-31   0.3\n");
        assert!(text.lines().all(|l| l.chars().count() <= 30));
        let text = lay_out_with_notes(&[("well", Side::Left), ("ng/L", Side::Right)], &rows, 10);
        assert!(text.starts_with("well  ng/L\nSL-2  1.05\n"), "{text}");
        assert!(text.ends_with("SL-31\n       0.3\n"), "{text}");
    }
}
