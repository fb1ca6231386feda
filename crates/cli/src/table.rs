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

/// Lays rows out under headings.
pub fn lay_out(headings: &[(&str, Side)], rows: &[Vec<String>]) -> String {
    let width =
        |i: usize| rows.iter().map(|r| r[i].chars().count()).chain([headings[i].0.chars().count()]).max().unwrap_or(0);
    let widths: Vec<usize> = (0..headings.len()).map(width).collect();
    let mut out = String::new();
    let mut line = |cells: &[&str]| {
        let mut text = String::new();
        for (i, cell) in cells.iter().enumerate() {
            let space = " ".repeat(widths[i] - cell.chars().count());
            let (first, second) = match headings[i].1 {
                Side::Left => (*cell, space.as_str()),
                Side::Right => (space.as_str(), *cell),
            };
            text.extend([first, second, "  "]);
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

/// Fewest letters that the last column is set in, however wide the others are.
const LEAST: usize = 16;

/// As [`lay_out`], within a width: the last column runs on below itself, broken between words. Wider than that are only
/// rows whose other columns leave no room for it.
pub fn lay_out_within(headings: &[(&str, Side)], rows: &[Vec<String>], width: usize) -> String {
    let Some(last) = headings.len().checked_sub(1) else { return String::new() };
    let widest =
        |i: usize| rows.iter().map(|r| r[i].chars().count()).chain([headings[i].0.chars().count()]).max().unwrap_or(0);
    let before: usize = (0..last).map(|i| widest(i) + 2).sum();
    let room = width.saturating_sub(before).max(LEAST);
    let mut broken = vec![];
    for row in rows {
        for (n, piece) in pieces(&row[last], room).into_iter().enumerate() {
            let others = row[..last].iter().map(|cell| if n == 0 { cell.clone() } else { String::new() });
            broken.push(others.chain([piece]).collect());
        }
    }
    lay_out(headings, &broken)
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
    fn the_last_column_runs_on_below_itself() {
        let rows = vec![
            vec!["SL-2".to_string(), "air.class, blank.level, duplicate.agree".to_string()],
            vec!["SL-31".into(), String::new()],
        ];
        let text = lay_out_within(&[("well", Side::Left), ("because of", Side::Left)], &rows, 30);
        assert_eq!(text, "well   because of\nSL-2   air.class, blank.level,\n       duplicate.agree\nSL-31\n");
        assert!(text.lines().all(|l| l.chars().count() <= 30));
    }
}
