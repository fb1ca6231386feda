//! Rows of an XLSX workbook, as the same records that a text file gives.
//!
//! In: a file and the name of a sheet (or none where the workbook holds one). Out: records of
//! cells as text. A number becomes its shortest decimal form with the mapping's decimal sign, a
//! date becomes ISO 8601, so that one mapping reads a table in either form to the same rows.
//! Rows are handed over as they are read; the table of shared strings is held in memory.
//!
//! What it does not do: it evaluates no formula (the stored value counts) and reads no old XLS.
//! A cell that holds an error (`#REF!`) is passed on as that text and refused where it is used.

use super::cell::Decimal;
use super::fault::fault;
use super::text::{Record, TextFault};
use calamine::{DataRef, ExcelDateTime, Reader, Xlsx, XlsxError};
use message::{Message, expected, found};
use quantity::Check;
use std::fs::File;
use std::io::BufReader;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};

/// Records in one message between the reading thread and the caller.
const BATCH: usize = 256;

/// Widest sheet there is, columns (ECMA-376 workbooks end at XFD).
const WIDEST: u32 = 16_384;

type Sent = Result<Vec<Record>, TextFault>;

/// Reads one sheet.
#[derive(Debug)]
pub struct SheetReader {
    from: Receiver<Sent>,
    waiting: std::vec::IntoIter<Record>,
    file: PathBuf,
}

fn damaged(file: &Path, found: impl FnOnce(Message) -> Message) -> TextFault {
    let ending = |e: &std::ffi::OsStr| found::FileEnding { ending: e.to_string_lossy().into() }.into();
    let file = file.extension().map_or_else(|| found::File.into(), ending);
    TextFault::of_file(Check::FileNotWorkbook, fault(found(file), expected::WholeWorkbook))
}

impl SheetReader {
    /// Starts reading a sheet.
    pub fn open(file: &Path, sheet: Option<&str>, decimal: Decimal) -> Self {
        let (to, from) = sync_channel(4);
        let path = file.to_path_buf();
        let sheet = sheet.map(str::to_string);
        std::thread::spawn(move || {
            if let Err(t) = send(&path, sheet.as_deref(), decimal, &to) {
                // The caller may have stopped listening; then nobody needs the message.
                let _ = to.send(Err(t));
            }
            let _ = to.send(Ok(vec![]));
        });
        Self { from, waiting: vec![].into_iter(), file: file.to_path_buf() }
    }

    /// The next record; `false` at the end.
    ///
    /// # Errors
    /// A [`TextFault`] where the workbook is damaged or the sheet is not in it.
    pub fn next(&mut self, record: &mut Record) -> Result<bool, TextFault> {
        loop {
            if let Some(r) = self.waiting.next() {
                *record = r;
                return Ok(true);
            }
            match self.from.recv() {
                Ok(Ok(batch)) if batch.is_empty() => return Ok(false),
                Ok(Ok(batch)) => self.waiting = batch.into_iter(),
                Ok(Err(t)) => return Err(t),
                // The reading thread ended without its last message: it met something it
                // could not digest.
                Err(_) => return Err(damaged(&self.file, |file| found::WorkbookBrokenOff { file }.into())),
            }
        }
    }
}

fn send(path: &Path, sheet: Option<&str>, decimal: Decimal, to: &SyncSender<Sent>) -> Result<(), TextFault> {
    let bad = |e: &dyn std::fmt::Display| {
        damaged(path, |file| found::WorkbookUnread { file, why: e.to_string().into() }.into())
    };
    let file = File::open(path).map_err(|e| bad(&e))?;
    let mut book: Xlsx<_> = Xlsx::new(BufReader::new(file)).map_err(|e: XlsxError| bad(&e))?;
    let names = book.sheet_names();
    let name = match (sheet, &names[..]) {
        (Some(s), all) if all.iter().any(|n| n == s) => s.to_string(),
        // Of several sheets none is taken by its place: the mapping names it.
        (None, [only]) => only.clone(),
        (wanted, all) => {
            let found = found::Sheets { sheets: all.join(", ").into() };
            let says = match wanted {
                None => fault(found, expected::OneSheet),
                Some(sheet) => fault(found, expected::Sheet { sheet: sheet.into() }),
            };
            return Err(TextFault::of_file(Check::FileSheet, says));
        }
    };
    let mut cells = book.worksheet_cells_reader(&name).map_err(|e| bad(&e))?;
    let mut batch = Vec::with_capacity(BATCH);
    let mut record = Record::default();
    record.clear(0);
    while let Some(cell) = cells.next_cell().map_err(|e| bad(&e))? {
        let (row, column) = cell.get_position();
        let row = u64::from(row) + 1;
        if column >= WIDEST {
            return Err(damaged(path, |file| found::WorkbookWide { file }.into()));
        }
        if row != record.row {
            if record.row != 0 {
                batch.push(std::mem::take(&mut record));
                if batch.len() == BATCH {
                    let full = std::mem::replace(&mut batch, Vec::with_capacity(BATCH));
                    if to.send(Ok(full)).is_err() {
                        return Ok(());
                    }
                }
            }
            record.clear(row);
        }
        // Workbooks leave empty cells out: without these a value would move under its neighbour's heading.
        while record.len() < column as usize {
            record.push(b"");
        }
        record.push(text(cell.get_value(), decimal).as_bytes());
    }
    if record.row != 0 {
        batch.push(record);
    }
    if !batch.is_empty() {
        let _ = to.send(Ok(batch));
    }
    Ok(())
}

fn text(value: &DataRef<'_>, decimal: Decimal) -> String {
    match value {
        DataRef::Int(i) => i.to_string(),
        DataRef::Float(x) => float(*x, decimal),
        DataRef::SharedString(s) => (*s).to_string(),
        DataRef::Bool(b) => if *b { "TRUE" } else { "FALSE" }.into(),
        DataRef::DateTime(t) => date(*t),
        DataRef::String(s) | DataRef::DateTimeIso(s) | DataRef::DurationIso(s) => s.clone(),
        DataRef::Error(e) => format!("{e:?}"),
        DataRef::Empty => String::new(),
    }
}

fn float(x: f64, decimal: Decimal) -> String {
    // Beyond these sizes the plain form would be long rows of zeros.
    let plain = if x == 0.0 || (1e-6..1e16).contains(&x.abs()) { format!("{x}") } else { format!("{x:e}") };
    match decimal {
        Decimal::Point => plain,
        Decimal::Comma => plain.replace('.', ","),
    }
}

fn date(t: ExcelDateTime) -> String {
    let (y, m, d, h, min, s, ms) = t.to_ymd_hms_milli();
    let seconds = (u32::from(h) * 3600 + u32::from(min) * 60 + u32::from(s) + u32::from(ms >= 500)).min(86_399);
    let (h, min, s) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    let clock = if s == 0 { format!("{h:02}:{min:02}") } else { format!("{h:02}:{min:02}:{s:02}") };
    if t.as_f64() < 1.0 {
        clock
    } else if seconds == 0 {
        format!("{y:04}-{m:02}-{d:02}")
    } else {
        format!("{y:04}-{m:02}-{d:02}T{clock}")
    }
}
