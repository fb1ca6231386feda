//! `limpid results --csv` and `--xlsx`: results as files for spreadsheets. No text in them runs as a formula.

use super::results::Line;
use super::results_wide::{self, Grid};
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, XlsxError};
use std::fs::File;
use std::path::Path;

/// What a file holds.
pub struct Sheet {
    headings: Vec<String>,
    rows: Vec<Vec<String>>,
    /// Under the table of a workbook, on a sheet of its own.
    legend: Vec<String>,
    /// Columns from this one on hold numbers where they read as such.
    numbers: Numbers,
}

/// Which columns hold numbers.
enum Numbers {
    /// From this column on.
    From(usize),
    /// These.
    At(&'static [usize]),
}

impl Numbers {
    fn holds(&self, column: usize) -> bool {
        match self {
            Self::From(first) => column >= *first,
            Self::At(columns) => columns.contains(&column),
        }
    }
}

/// Headings of the long form; a reader of tables finds each thing in a column of its own.
const LONG: &[&str] = &[
    "well",
    "trip",
    "day",
    "bottle",
    "analyte",
    "isotopes",
    "fraction",
    "sign",
    "value",
    "expanded_uncertainty_95",
    "unit",
    "state",
    "verdict",
    "because",
    "result",
];

/// Places of value and uncertainty among them.
const LONG_NUMBERS: &[usize] = &[8, 9];

/// What the sign in the long form means.
const LONG_SIGN: &str = "sign: < below, > above the number in the column value, which is then a limit or bound";

/// The wide form.
pub fn wide(grid: Grid) -> Sheet {
    let legend = results_wide::SIGNS.iter().map(ToString::to_string).collect();
    Sheet { headings: grid.headings, rows: grid.rows, legend, numbers: Numbers::From(2) }
}

/// The long form.
pub fn long(lines: Vec<Line>) -> Sheet {
    Sheet {
        headings: LONG.iter().map(ToString::to_string).collect(),
        rows: lines.into_iter().map(long_row).collect(),
        legend: vec![LONG_SIGN.to_string()],
        numbers: Numbers::At(LONG_NUMBERS),
    }
}

fn long_row(l: Line) -> Vec<String> {
    let n = l.number;
    vec![
        l.well,
        l.trip,
        l.day,
        l.bottle,
        l.analyte,
        l.isotopes,
        l.fraction,
        n.sign.to_string(),
        n.value,
        n.expanded,
        l.unit,
        l.state,
        l.judged,
        l.because,
        l.name,
    ]
}

fn told(file: &Path, rows: usize) {
    say!("{}: {rows} rows", file.display());
}

/// A CSV file in the making.
struct CsvFile {
    out: csv::Writer<File>,
    numbers: Numbers,
    rows: usize,
}

impl CsvFile {
    fn begin(file: &Path, headings: &[String], numbers: Numbers) -> Result<Self, Failure> {
        let out = csv::Writer::from_path(file).with_context(|| format!("writing {}", file.display()))?;
        let mut made = Self { out, numbers, rows: 0 };
        made.row(headings).with_context(|| format!("writing {}", file.display()))?;
        made.rows = 0;
        Ok(made)
    }

    fn row(&mut self, row: &[String]) -> csv::Result<()> {
        self.rows += 1;
        self.out.write_record(row.iter().enumerate().map(|(column, cell)| {
            let number = self.numbers.holds(column) && cell.parse::<f64>().is_ok();
            if number || cell.is_empty() { cell.clone() } else { exchange::cell::defused(cell) }
        }))
    }

    fn end(mut self, file: &Path) -> Result<(), Failure> {
        self.out.flush().with_context(|| format!("writing {}", file.display()))?;
        told(file, self.rows);
        Ok(())
    }
}

/// As CSV; what its signs mean is said, because a table of data has no place for it.
pub fn csv(file: &Path, sheet: Sheet) -> Result<(), Failure> {
    let mut out = CsvFile::begin(file, &sheet.headings, sheet.numbers)?;
    for row in &sheet.rows {
        out.row(row).with_context(|| format!("writing {}", file.display()))?;
    }
    out.end(file)?;
    sheet.legend.iter().for_each(|line| say!("{line}"));
    Ok(())
}

/// The long form as CSV, row by row as `each` reads them.
pub fn long_csv(file: &Path, each: impl FnOnce(&mut dyn FnMut(Line)) -> Result<(), Failure>) -> Result<(), Failure> {
    let headings: Vec<String> = LONG.iter().map(ToString::to_string).collect();
    let mut out = CsvFile::begin(file, &headings, Numbers::At(LONG_NUMBERS))?;
    let mut fault = Ok(());
    each(&mut |l| {
        if fault.is_ok() {
            fault = out.row(&long_row(l));
        }
    })?;
    fault.with_context(|| format!("writing {}", file.display()))?;
    out.end(file)?;
    say!("{LONG_SIGN}");
    Ok(())
}

/// As a workbook, the signs on a sheet of their own.
pub fn workbook(file: &Path, sheet: &Sheet) -> Result<(), Failure> {
    let doing = || format!("writing {}", file.display());
    let mut book = filled(sheet).with_context(doing)?;
    book.save(file).with_context(doing)?;
    told(file, sheet.rows.len());
    Ok(())
}

fn filled(sheet: &Sheet) -> Result<Workbook, XlsxError> {
    let mut book = Workbook::new();
    // The same rows, the same bytes: a day of making would differ each time.
    book.set_properties(&DocProperties::new().set_creation_datetime(&ExcelDateTime::from_ymd(2000, 1, 1)?));
    let page = book.add_worksheet().set_name("results")?;
    let bold = Format::new().set_bold();
    for (column, heading) in (0u16..).zip(&sheet.headings) {
        page.write_string_with_format(0, column, heading, &bold)?;
    }
    for (n, row) in (1u32..).zip(&sheet.rows) {
        for (place, cell) in row.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
            let column = u16::try_from(place).unwrap_or(u16::MAX);
            match cell.parse::<f64>() {
                Ok(number) if sheet.numbers.holds(place) => page.write_number(n, column, number)?,
                _ => page.write_string(n, column, cell)?,
            };
        }
    }
    page.set_freeze_panes(1, 0)?;
    let signs = book.add_worksheet().set_name("signs")?;
    for (n, line) in (0u32..).zip(&sheet.legend) {
        signs.write_string(n, 0, line)?;
    }
    Ok(book)
}
