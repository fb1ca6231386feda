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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_lean_right_and_no_line_ends_in_spaces() {
        let rows = vec![vec!["SL-2".to_string(), "1.05".to_string()], vec!["SL-31".into(), "0.3".into()]];
        let text = lay_out(&[("well", Side::Left), ("ng/L", Side::Right)], &rows);
        assert_eq!(text, "well   ng/L\nSL-2   1.05\nSL-31   0.3\n");
    }
}
