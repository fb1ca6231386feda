//! A table for a spreadsheet, as CSV or as a workbook: what the command line writes to a file and the web interface sends.
//!
//! In: headings and rows of text, and which columns hold numbers. Out: bytes. No text in them runs as a formula; a cell of
//! a number column that reads as a number is one, every other stays text. The same rows make the same bytes.
//! Checked below and in `crates/cli/tests/looking.rs`.

use crate::cell::defused;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, XlsxError};
use std::io::Write;

/// Why a table could not be written.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SheetError {
    /// As CSV.
    #[error("writing a table as CSV")]
    Csv(#[from] csv::Error),
    /// As a workbook.
    #[error("writing a workbook")]
    Workbook(#[from] XlsxError),
}

/// A table.
#[derive(Debug, Clone, Default)]
pub struct Sheet {
    /// Name of the sheet in a workbook.
    pub name: &'static str,
    /// Headings.
    pub headings: Vec<String>,
    /// Rows, each as long as the headings.
    pub rows: Vec<Vec<String>>,
    /// Which columns hold numbers.
    pub numbers: Numbers,
    /// What its signs mean: a sheet of its own in a workbook, beside a CSV it is for whoever shows it.
    pub legend: Vec<String>,
}

/// Which columns hold numbers, where their cells read as such.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Numbers {
    /// None.
    #[default]
    None,
    /// From this column on.
    From(usize),
    /// These.
    At(&'static [usize]),
}

impl Numbers {
    fn holds(self, column: usize) -> bool {
        match self {
            Self::None => false,
            Self::From(first) => column >= first,
            Self::At(columns) => columns.contains(&column),
        }
    }

    fn number(self, column: usize, cell: &str) -> Option<f64> {
        cell.parse().ok().filter(|x: &f64| self.holds(column) && x.is_finite())
    }
}

/// A table as CSV, row by row: a long one is never held as a whole.
pub struct CsvRows<W: Write> {
    out: csv::Writer<W>,
    numbers: Numbers,
}

impl<W: Write> CsvRows<W> {
    /// Writes the headings of a sheet; its rows, if it has any, are left to [`row`](Self::row).
    ///
    /// # Errors
    /// [`SheetError::Csv`], where nothing can be written.
    pub fn begin(to: W, sheet: &Sheet) -> Result<Self, SheetError> {
        let mut out = Self { out: csv::Writer::from_writer(to), numbers: sheet.numbers };
        out.row(&sheet.headings)?;
        Ok(out)
    }

    /// Writes a row.
    ///
    /// # Errors
    /// [`SheetError::Csv`], where it is not as long as the headings, or nothing can be written.
    pub fn row(&mut self, row: &[String]) -> Result<(), SheetError> {
        let cells = row.iter().enumerate().map(|(column, cell)| {
            let plain = cell.is_empty() || self.numbers.number(column, cell).is_some();
            if plain { cell.clone() } else { defused(cell) }
        });
        Ok(self.out.write_record(cells)?)
    }

    /// Ends it, and gives back what was written to.
    ///
    /// # Errors
    /// [`SheetError::Csv`], where nothing can be written.
    pub fn end(self) -> Result<W, SheetError> {
        self.out.into_inner().map_err(|e| SheetError::Csv(e.into_error().into()))
    }
}

impl Sheet {
    /// As CSV.
    ///
    /// # Errors
    /// [`SheetError::Csv`], where rows are of different lengths.
    pub fn csv(&self) -> Result<Vec<u8>, SheetError> {
        let mut out = CsvRows::begin(vec![], self)?;
        self.rows.iter().try_for_each(|row| out.row(row))?;
        out.end()
    }

    /// As a workbook: the table, and its signs on a sheet of their own where it has any.
    ///
    /// # Errors
    /// [`SheetError::Workbook`], where the table is larger than a workbook can be.
    pub fn workbook(&self) -> Result<Vec<u8>, SheetError> {
        let mut book = Workbook::new();
        // The same rows, the same bytes: a day of making would differ each time.
        book.set_properties(&DocProperties::new().set_creation_datetime(&ExcelDateTime::from_ymd(2000, 1, 1)?));
        let page = book.add_worksheet().set_name(self.name)?;
        let bold = Format::new().set_bold();
        for (column, heading) in (0u16..).zip(&self.headings) {
            page.write_string_with_format(0, column, heading, &bold)?;
        }
        for (n, row) in (1u32..).zip(&self.rows) {
            for (place, cell) in row.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
                let column = u16::try_from(place).unwrap_or(u16::MAX);
                match self.numbers.number(place, cell) {
                    Some(number) => page.write_number(n, column, number)?,
                    None => page.write_string(n, column, cell)?,
                };
            }
        }
        page.set_freeze_panes(1, 0)?;
        if !self.legend.is_empty() {
            let signs = book.add_worksheet().set_name("signs")?;
            for (n, line) in (0u32..).zip(&self.legend) {
                signs.write_string(n, 0, line)?;
            }
        }
        Ok(book.save_to_buffer()?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_stays_one_and_a_formula_is_text() {
        let rows = vec![vec!["=1+1".to_string(), "-0.3".into()], vec!["-0.3".into(), "<0.3".into()]];
        let sheet = Sheet {
            name: "t",
            headings: vec!["a".into(), "b".into()],
            rows,
            numbers: Numbers::At(&[1]),
            ..Sheet::default()
        };
        // RFC 4180 with the defusing of `cell`: a comma between, a line end after each.
        assert_eq!(String::from_utf8(sheet.csv().unwrap()).unwrap(), "a,b\n'=1+1,-0.3\n'-0.3,<0.3\n");
        // A workbook is a ZIP file (PKWARE APPNOTE 4.3.7: local file header signature).
        assert!(sheet.workbook().unwrap().starts_with(b"PK\x03\x04"));
        assert_eq!(sheet.workbook().unwrap(), sheet.workbook().unwrap(), "the same rows, the same bytes");
    }
}
