//! Tables of the open data package as CSV.
//!
//! In: a table with its columns, units and cells. Out: CSV after RFC 4180: comma, CRLF, quotes where
//! they are needed, UTF-8 without byte order mark; the unit stands in the heading, `lead_ng/L`.
//! Numbers are written as Rust writes them: the shortest text that reads back to the same bits.
//!
//! A spreadsheet program runs a cell that begins with = + - @ (or tab, carriage return) as a
//! formula. Text cells that begin so get an apostrophe in front; numbers stay numbers, "-0.3" too.
//! Checked below by a property test: what is written reads back the same.

use std::fmt::Write as _;

/// A column of an exported table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ExportColumn {
    /// Name, lower case with underscores.
    pub name: String,
    /// Unit; empty where there is none.
    pub unit: String,
}

/// A cell of an exported table.
#[derive(Debug, Clone, PartialEq)]
pub enum ExportCell {
    /// Text.
    Text(String),
    /// A number.
    Number(f64),
    /// A whole number.
    Whole(i64),
    /// Nothing.
    Empty,
}

/// A table to be exported.
#[derive(Debug, Clone, PartialEq)]
pub struct ExportTable {
    /// Name; the file is called so.
    pub name: String,
    /// Columns.
    pub columns: Vec<ExportColumn>,
    /// Rows, each as long as the columns.
    pub rows: Vec<Vec<ExportCell>>,
}

/// Why a table cannot be exported.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ExportError {
    /// A row is not as long as the heading.
    #[error("table {table}, row {row}: {cells} cells under {columns} columns")]
    Ragged {
        /// Table.
        table: String,
        /// Row, from 1.
        row: usize,
        /// Cells in the row.
        cells: usize,
        /// Columns of the table.
        columns: usize,
    },
    /// A number that no reader of CSV agrees on.
    #[error("table {table}, row {row}, column {column}: {value} is not a finite number; leave the cell empty")]
    NotFinite {
        /// Table.
        table: String,
        /// Row, from 1.
        row: usize,
        /// Column name.
        column: String,
        /// The value.
        value: String,
    },
}

/// The table as CSV.
///
/// # Errors
/// [`ExportError`] where a row has another length than the heading, or a number is not finite.
pub fn csv(table: &ExportTable) -> Result<String, ExportError> {
    let mut out = String::new();
    for (j, c) in table.columns.iter().enumerate() {
        let heading = if c.unit.is_empty() { c.name.clone() } else { format!("{}_{}", c.name, c.unit) };
        separate(&mut out, j);
        quote(&mut out, &defused(&heading), table.columns.len() == 1);
    }
    out.push_str("\r\n");
    for (i, row) in table.rows.iter().enumerate() {
        if row.len() != table.columns.len() {
            return Err(ExportError::Ragged {
                table: table.name.clone(),
                row: i + 1,
                cells: row.len(),
                columns: table.columns.len(),
            });
        }
        for (j, cell) in row.iter().enumerate() {
            separate(&mut out, j);
            write_cell(&mut out, cell, row.len() == 1).map_err(|value| ExportError::NotFinite {
                table: table.name.clone(),
                row: i + 1,
                column: table.columns[j].name.clone(),
                value,
            })?;
        }
        out.push_str("\r\n");
    }
    Ok(out)
}

fn separate(out: &mut String, j: usize) {
    if j > 0 {
        out.push(',');
    }
}

fn write_cell(out: &mut String, cell: &ExportCell, alone: bool) -> Result<(), String> {
    match cell {
        ExportCell::Text(t) => quote(out, &defused(t), alone),
        ExportCell::Number(x) if !x.is_finite() => return Err(x.to_string()),
        // Adding zero turns -0 into 0.
        ExportCell::Number(x) => {
            let _ = write!(out, "{}", x + 0.0);
        }
        ExportCell::Whole(n) => {
            let _ = write!(out, "{n}");
        }
        ExportCell::Empty => quote(out, "", alone),
    }
    Ok(())
}

/// An apostrophe before text that a spreadsheet would run.
fn defused(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text.to_string() }
}

/// Quotes where RFC 4180 asks for them; an empty cell alone in its row is quoted, so that the row
/// is not an empty line.
fn quote(out: &mut String, text: &str, alone: bool) {
    if text.contains(['"', ',', '\n', '\r']) || (alone && text.is_empty()) {
        out.push('"');
        out.push_str(&text.replace('"', "\"\""));
        out.push('"');
    } else {
        out.push_str(text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn table(rows: Vec<Vec<ExportCell>>) -> ExportTable {
        let column = |name: &str, unit: &str| ExportColumn { name: name.into(), unit: unit.into() };
        ExportTable { name: "results".into(), columns: vec![column("bottle", ""), column("lead", "ng/L")], rows }
    }

    #[test]
    fn text_cannot_run_as_a_formula_and_numbers_stay_numbers() {
        let rows = vec![
            vec![ExportCell::Text("=1+1".into()), ExportCell::Number(-0.3)],
            vec![ExportCell::Text("a, \"b\"".into()), ExportCell::Empty],
        ];
        assert_eq!(csv(&table(rows)).unwrap(), "bottle,lead_ng/L\r\n'=1+1,-0.3\r\n\"a, \"\"b\"\"\",\r\n");
    }

    #[test]
    fn what_cannot_be_written_is_refused() {
        let short = csv(&table(vec![vec![ExportCell::Empty]])).unwrap_err().to_string();
        assert_eq!(short, "table results, row 1: 1 cells under 2 columns");
        let nan = csv(&table(vec![vec![ExportCell::Empty, ExportCell::Number(f64::NAN)]])).unwrap_err();
        assert!(nan.to_string().contains("row 1, column lead: NaN is not a finite number"));
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back(text in "[^=+@\t\r-]\\PC{0,12}[\",\n]?", x in proptest::num::f64::NORMAL) {
            let written = csv(&table(vec![vec![ExportCell::Text(text.clone()), ExportCell::Number(x)]])).unwrap();
            let mut reader = csv::ReaderBuilder::new().from_reader(written.as_bytes());
            let row = reader.records().next().unwrap().unwrap();
            prop_assert_eq!(&row[0], &text);
            prop_assert_eq!(row[1].parse::<f64>().unwrap().to_bits(), x.to_bits());
        }
    }
}
