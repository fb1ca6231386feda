//! `limpid results --csv` and `--xlsx`: results as files for spreadsheets.

use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use exchange::result_rows::{self, Line};
use exchange::sheet::{CsvRows, Sheet};
use std::fs::File;
use std::path::Path;

fn told(file: &Path, rows: usize) {
    say!("{}: {rows} rows", file.display());
}

/// As CSV; what its signs mean is said, because a table of data has no place for it.
pub fn csv(file: &Path, sheet: &Sheet) -> Result<(), Failure> {
    let doing = || format!("writing {}", file.display());
    std::fs::write(file, sheet.csv().with_context(doing)?).with_context(doing)?;
    told(file, sheet.rows.len());
    sheet.legend.iter().for_each(|line| say!("{line}"));
    Ok(())
}

/// One row a result as CSV, row by row as `each` reads them.
pub fn long_csv(file: &Path, each: impl FnOnce(&mut dyn FnMut(Line)) -> Result<(), Failure>) -> Result<(), Failure> {
    let doing = || format!("writing {}", file.display());
    let head = result_rows::long_head();
    let mut out = CsvRows::begin(File::create(file).with_context(doing)?, &head).with_context(doing)?;
    let (mut fault, mut rows) = (Ok(()), 0);
    each(&mut |l| {
        if fault.is_ok() {
            fault = out.row(&result_rows::long_row(l));
            rows += 1;
        }
    })?;
    fault.with_context(doing)?;
    out.end().with_context(doing)?;
    told(file, rows);
    head.legend.iter().for_each(|line| say!("{line}"));
    Ok(())
}

/// As a workbook, the signs on a sheet of their own.
pub fn workbook(file: &Path, sheet: &Sheet) -> Result<(), Failure> {
    let doing = || format!("writing {}", file.display());
    std::fs::write(file, sheet.workbook().with_context(doing)?).with_context(doing)?;
    told(file, sheet.rows.len());
    Ok(())
}
