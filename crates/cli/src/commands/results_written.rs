//! `limpid results --csv` and `--xlsx`: results as files for spreadsheets.

use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use exchange::sheet::Sheet;
use std::path::Path;

/// As CSV; what its signs mean is said, because a table of data has no place for it.
pub fn csv(file: &Path, sheet: &Sheet) -> Result<(), Failure> {
    let doing = || format!("writing {}", file.display());
    std::fs::write(file, sheet.csv().with_context(doing)?).with_context(doing)?;
    say!("{}: {} rows", file.display(), sheet.rows.len());
    sheet.legend.iter().for_each(|line| say!("{line}"));
    Ok(())
}

/// As a workbook, the signs on a sheet of their own.
pub fn workbook(file: &Path, sheet: &Sheet) -> Result<(), Failure> {
    let doing = || format!("writing {}", file.display());
    std::fs::write(file, sheet.workbook().with_context(doing)?).with_context(doing)?;
    say!("{}: {} rows", file.display(), sheet.rows.len());
    Ok(())
}
