//! Rows of a workbook (XLSX, ODS, old XLS), as the same records that a text file gives.
//!
//! In: a file and the name of a sheet (or none where the workbook holds one). Out: records of
//! cells as text. A number becomes its shortest decimal form with the mapping's decimal sign, a
//! date becomes ISO 8601, so that one mapping reads a table in either form to the same rows.
//! Rows of XLSX are handed over as they are read, its table of shared strings is held in memory; ODS and XLS are held whole.
//!
//! All of it is done in a process of its own ([`super::apart`]), which first counts what the file unpacks to (`guard`).
//!
//! Hidden rows and columns are looked for and asked about, since a table without them looks otherwise than it reads; in an
//! old XLS they cannot be seen, which is told. A formula without a stored result is a fault of its cell: it is evaluated
//! nowhere here. A cell that holds an error (`#REF!`) is passed on as that text and refused where it is used.

use super::apart;
use super::cell::Decimal;
use super::fault::{Collector, fault};
use super::mapping::{FileForm, Hidden};
use super::text::{Record, TextFault};
use calamine::{Data, DataRef, ExcelDateTime, Ods, Reader, Xls, Xlsx, XlsxError};
use memchr::memmem;
use message::{Message, count, expected, found, intake as said};
use quantity::Check;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::fs::File;
use std::io::{BufReader, Read as _};
use std::ops::RangeInclusive;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, sync_channel};

/// Records in one message between the reading thread and the caller.
const BATCH: usize = 256;

/// Widest sheet there is, columns (ECMA-376 workbooks end at XFD).
const WIDEST: u32 = 16_384;

/// What is asked of a workbook.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Ask {
    /// The names of its sheets.
    Names { file: PathBuf },
    /// The rows of a sheet.
    Rows { file: PathBuf, form: SheetForm },
}

/// What of a file's form the reader of a sheet needs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct SheetForm {
    sheet: Option<String>,
    /// Numbers are written with a comma.
    comma: bool,
    hidden: Option<Hidden>,
}

/// What comes of a workbook, in this order: names and the end; or what it is, its rows, and the end; or a fault, and
/// nothing after it.
#[derive(Debug, Clone)]
pub(crate) enum Sent {
    Names(Vec<String>),
    Head(Head),
    Rows(Vec<Record>),
    Fault(TextFault),
    End,
}

/// What a workbook is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Head {
    book: Book,
    veiled: Veiled,
}

/// Takes what is read as it comes; false where nobody wants more.
type HandOver<'h> = &'h mut dyn FnMut(Sent) -> bool;

/// Reads what is asked, wherever that is done ([`super::apart`]).
pub(crate) fn answer(ask: &Ask, hand_over: HandOver) {
    let done = match ask {
        Ask::Names { file } => {
            hand_over(Sent::Names(names_in(file)));
            Ok(())
        }
        Ask::Rows { file, form } => rows_in(file, form, hand_over),
    };
    let _ = match done {
        Ok(()) => hand_over(Sent::End),
        // The caller may have stopped listening; then nobody needs the message.
        Err(fault) => hand_over(Sent::Fault(fault)),
    };
}

/// Records as bytes: row, number of cells, where each ends, length and bytes of all, length and text of the fault.
pub(crate) fn packed(records: &[Record]) -> Result<Vec<u8>, serde_json::Error> {
    let mut out = vec![];
    for record in records {
        let (bytes, ends) = record.parts();
        let fault = record.text_fault.as_ref().map(serde_json::to_vec).transpose()?.unwrap_or_default();
        out.extend(record.row.to_le_bytes());
        for number in std::iter::once(ends.len()).chain(ends.iter().copied()).chain([fault.len()]) {
            out.extend((number as u32).to_le_bytes());
        }
        out.extend_from_slice(bytes);
        out.extend(fault);
    }
    Ok(out)
}

/// Records from such bytes; none where they are not whole.
pub(crate) fn unpacked(mut from: &[u8]) -> Option<Vec<Record>> {
    let mut out = vec![];
    while !from.is_empty() {
        let row = u64::from_le_bytes(*from.split_off(..8)?.first_chunk()?);
        let mut number = || Some(u32::from_le_bytes(*from.split_off(..4)?.first_chunk()?) as usize);
        let cells = number().filter(|n| *n <= WIDEST as usize)?;
        let ends: Vec<usize> = (0..cells).map(|_| number()).collect::<Option<_>>()?;
        let fault = number()?;
        let bytes = from.split_off(..ends.last().copied().unwrap_or(0))?;
        let fault = from.split_off(..fault)?;
        let mut record = Record::of_parts(bytes, &ends)?;
        record.row = row;
        record.text_fault = if fault.is_empty() { None } else { Some(serde_json::from_slice(fault).ok()?) };
        out.push(record);
    }
    Some(out)
}

/// Which of the three a file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Book {
    Xlsx,
    Ods,
    Xls,
}

/// Rows and columns that a sheet hides, with something in them.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Veiled {
    /// As a spreadsheet counts them.
    rows: BTreeSet<u64>,
    /// From 0.
    columns: Vec<RangeInclusive<usize>>,
}

impl Veiled {
    fn is_empty(&self) -> bool {
        self.rows.is_empty() && self.columns.is_empty()
    }

    fn column_count(&self) -> usize {
        self.columns.iter().map(|c| c.end() + 1 - c.start()).sum()
    }

    fn hides(&self, column: usize) -> bool {
        self.columns.iter().any(|c| c.contains(&column))
    }
}

/// Reads one sheet.
#[derive(Debug)]
pub struct SheetReader {
    from: Receiver<Sent>,
    /// Nothing comes any more.
    ended: bool,
    waiting: std::vec::IntoIter<Record>,
    file: PathBuf,
    book: Book,
    veiled: Veiled,
    hidden: Option<Hidden>,
}

fn damaged(file: &Path, found: impl FnOnce(Message) -> Message) -> TextFault {
    let ending = |e: &std::ffi::OsStr| found::FileEnding { ending: e.to_string_lossy().into() }.into();
    let file = file.extension().map_or_else(|| found::File.into(), ending);
    TextFault::of_file(Check::FileNotWorkbook, fault(found(file), expected::WholeWorkbook))
}

fn unread(path: &Path, e: &dyn std::fmt::Display) -> TextFault {
    damaged(path, |file| found::WorkbookUnread { file, why: e.to_string().into() }.into())
}

fn book_of(path: &Path) -> Book {
    let mut head = [0u8; 4];
    let old = File::open(path).and_then(|mut f| f.read_exact(&mut head)).is_ok() && head == [0xD0, 0xCF, 0x11, 0xE0];
    if old {
        Book::Xls
    } else if part(path, "mimetype").is_some_and(|m| m.starts_with(b"application/vnd.oasis.opendocument.spreadsheet")) {
        Book::Ods
    } else {
        Book::Xlsx
    }
}

/// A part of a packed workbook, unpacked; its size was looked at before (`guard`).
fn part(path: &Path, name: &str) -> Option<Vec<u8>> {
    let mut archive = zip::ZipArchive::new(BufReader::new(File::open(path).ok()?)).ok()?;
    let mut bytes = vec![];
    archive.by_name(name).ok()?.read_to_end(&mut bytes).ok()?;
    Some(bytes)
}

/// Names of the sheets; none where they cannot be read.
pub(super) fn names(path: &Path) -> Vec<String> {
    let mut found = vec![];
    apart::read(&Ask::Names { file: path.to_path_buf() }, &mut |sent| {
        if let Sent::Names(names) = sent {
            found = names;
        }
        true
    });
    found
}

fn names_in(path: &Path) -> Vec<String> {
    let Ok(file) = File::open(path) else { return vec![] };
    let file = BufReader::new(file);
    match book_of(path) {
        // From its list alone: opening a large one reads every text in it.
        Book::Xlsx => part(path, "xl/workbook.xml").map_or_else(Vec::new, |book| {
            let name = |t: &&[u8]| attribute(t, "name").map(unescaped);
            tags(&book, "<sheet ").iter().filter_map(name).collect()
        }),
        Book::Ods => Ods::new(file).map(|b: Ods<_>| b.sheet_names()).unwrap_or_default(),
        Book::Xls => Xls::new(file).map(|b: Xls<_>| b.sheet_names()).unwrap_or_default(),
    }
}

impl SheetReader {
    /// Starts reading a sheet.
    ///
    /// # Errors
    /// A [`TextFault`] where it hides rows or columns and the form does not say what becomes of them.
    pub fn open(file: &Path, form: &FileForm) -> Result<Self, TextFault> {
        let (to, from) = sync_channel(4);
        let (path, hidden) = (file.to_path_buf(), form.hidden);
        let wanted = SheetForm { sheet: form.sheet.clone(), comma: form.decimal == Decimal::Comma, hidden };
        let ask = Ask::Rows { file: path.clone(), form: wanted };
        std::thread::spawn(move || apart::read(&ask, &mut |sent| to.send(sent).is_ok()));
        match from.recv() {
            Ok(Sent::Head(Head { book, veiled })) => {
                Ok(Self { from, ended: false, waiting: vec![].into_iter(), file: path, book, veiled, hidden })
            }
            Ok(Sent::Fault(fault)) => Err(fault),
            _ => Err(broken_off(file)),
        }
    }

    /// Tells what a person should know of the sheet.
    pub fn tell(&self, out: &mut Collector) {
        if self.book == Book::Xls {
            out.tell(Check::FileForm, None, None, said::HiddenUnseen);
        }
        let (rows, columns) = (count(self.veiled.rows.len()), count(self.veiled.column_count()));
        match self.hidden.filter(|_| !self.veiled.is_empty()) {
            Some(Hidden::Take) => out.tell(Check::FileForm, None, None, said::HiddenTaken { rows, columns }),
            Some(Hidden::Leave) => out.tell(Check::FileForm, None, None, said::HiddenLeft { rows, columns }),
            None => {}
        }
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
            if self.ended {
                return Ok(false);
            }
            match self.from.recv() {
                Ok(Sent::Rows(batch)) => self.waiting = batch.into_iter(),
                Ok(Sent::End) => self.ended = true,
                Ok(Sent::Fault(t)) => return Err(t),
                // It ended without its last message: it met something it could not digest, or took too much.
                _ => return Err(broken_off(&self.file)),
            }
        }
    }
}

fn broken_off(file: &Path) -> TextFault {
    damaged(file, |file| found::WorkbookBrokenOff { file }.into())
}

/// Reads the rows of a sheet.
///
/// # Errors
/// A [`TextFault`] where it unpacks to too much, is damaged, is not in the workbook, or hides rows or columns and the form
/// does not say what becomes of them.
fn rows_in(file: &Path, form: &SheetForm, hand_over: HandOver) -> Result<(), TextFault> {
    super::guard::check(file).map_err(|e| unread(file, &e))??;
    let book = book_of(file);
    let veiled = match book {
        Book::Xlsx => veiled_xlsx(file, form.sheet.as_deref()),
        Book::Ods => veiled_ods(file),
        Book::Xls => Veiled::default(),
    };
    if !veiled.is_empty() {
        let found = found::Hidden { rows: count(veiled.rows.len()), columns: count(veiled.column_count()) };
        match (form.hidden, book) {
            (None, _) => return Err(TextFault::of_file(Check::FileForm, fault(found, expected::HiddenSaid))),
            // Its rows come without their numbers where several are alike: which is hidden cannot be told.
            (Some(Hidden::Leave), Book::Ods) => {
                return Err(TextFault::of_file(Check::FileForm, fault(found, expected::HiddenInXlsx)));
            }
            (Some(_), _) => {}
        }
    }
    let left = if form.hidden == Some(Hidden::Leave) { veiled.clone() } else { Veiled::default() };
    if !hand_over(Sent::Head(Head { book, veiled })) {
        return Ok(());
    }
    let decimal = if form.comma { Decimal::Comma } else { Decimal::Point };
    let sheet = form.sheet.as_deref();
    match book {
        Book::Xlsx => send(file, sheet, decimal, &left, hand_over),
        Book::Ods | Book::Xls => send_whole(file, book, sheet, decimal, hand_over),
    }
}

/// Of several sheets none is taken by its place: the mapping names it.
fn chosen(wanted: Option<&str>, all: &[String]) -> Result<String, TextFault> {
    match (wanted, all) {
        (Some(s), all) if all.iter().any(|n| n == s) => Ok(s.to_string()),
        (None, [only]) => Ok(only.clone()),
        (wanted, all) => {
            let found = found::Sheets { sheets: all.join(", ").into() };
            let says = match wanted {
                None => fault(found, expected::OneSheet),
                Some(sheet) => fault(found, expected::Sheet { sheet: sheet.into() }),
            };
            Err(TextFault::of_file(Check::FileSheet, says))
        }
    }
}

/// Records on their way to the caller.
struct Sender<'s> {
    to: HandOver<'s>,
    batch: Vec<Record>,
    record: Record,
}

impl<'s> Sender<'s> {
    fn new(to: HandOver<'s>) -> Self {
        let mut record = Record::default();
        record.clear(0);
        Self { to, batch: Vec::with_capacity(BATCH), record }
    }

    /// Begins a row; `false` where nobody listens any more.
    fn row(&mut self, row: u64) -> bool {
        let mut listening = true;
        if self.record.row != 0 {
            self.batch.push(std::mem::take(&mut self.record));
            if self.batch.len() == BATCH {
                let full = std::mem::replace(&mut self.batch, Vec::with_capacity(BATCH));
                listening = (self.to)(Sent::Rows(full));
            }
        }
        self.record.clear(row);
        listening
    }

    fn end(mut self) {
        if self.record.row != 0 {
            self.batch.push(self.record);
        }
        if !self.batch.is_empty() {
            (self.to)(Sent::Rows(self.batch));
        }
    }
}

fn send(path: &Path, sheet: Option<&str>, decimal: Decimal, left: &Veiled, to: HandOver) -> Result<(), TextFault> {
    let file = File::open(path).map_err(|e| unread(path, &e))?;
    let mut book: Xlsx<_> = Xlsx::new(BufReader::new(file)).map_err(|e: XlsxError| unread(path, &e))?;
    let name = chosen(sheet, &book.sheet_names())?;
    let mut cells = book.worksheet_cells_reader(&name).map_err(|e| unread(path, &e))?;
    let mut sender = Sender::new(to);
    // Columns that are left out are not there at all: what stands behind them moves up, in every row alike.
    let mut moved = 0;
    while let Some(cell) = cells.next_cell_with_formula_metadata().map_err(|e| unread(path, &e))? {
        let (row, column) = cell.pos;
        let row = u64::from(row) + 1;
        if column >= WIDEST {
            return Err(damaged(path, |file| found::WorkbookWide { file }.into()));
        }
        let column = column as usize;
        if left.rows.contains(&row) || left.hides(column) {
            continue;
        }
        if row != sender.record.row && !sender.row(row) {
            return Ok(());
        }
        if !left.columns.is_empty() {
            moved = left.columns.iter().filter(|c| *c.end() < column).map(|c| c.end() + 1 - c.start()).sum();
        }
        // Workbooks leave empty cells out: without these a value would move under its neighbour's heading.
        while sender.record.len() < column - moved {
            sender.record.push(b"");
        }
        if cell.formula.is_some() && matches!(cell.value, DataRef::Empty) && sender.record.text_fault.is_none() {
            sender.record.text_fault = Some(TextFault {
                check: Check::FileValue,
                row: Some(row),
                column: Some(column - moved + 1),
                says: Box::new(fault(found::FormulaWithoutResult, expected::StoredResult)),
            });
        }
        sender.record.push(text(&cell.value, decimal).as_bytes());
    }
    sender.end();
    Ok(())
}

/// A workbook that its reader holds whole.
fn send_whole(path: &Path, book: Book, sheet: Option<&str>, decimal: Decimal, to: HandOver) -> Result<(), TextFault> {
    let bad = |e: &dyn std::fmt::Display| {
        let mut t = unread(path, e);
        t.says.expected = expected::SavedAgain.into();
        t
    };
    let file = BufReader::new(File::open(path).map_err(|e| bad(&e))?);
    let range = if book == Book::Ods {
        let mut book: Ods<_> = Ods::new(file).map_err(|e| bad(&e))?;
        let name = chosen(sheet, &book.sheet_names())?;
        book.worksheet_range(&name).map_err(|e| bad(&e))?
    } else {
        let mut book: Xls<_> = Xls::new(file).map_err(|e| bad(&e))?;
        let name = chosen(sheet, &book.sheet_names())?;
        book.worksheet_range(&name).map_err(|e| bad(&e))?
    };
    let mut sender = Sender::new(to);
    let (top, left) = range.start().unwrap_or((0, 0));
    for (n, row) in range.rows().enumerate() {
        let filled = row.iter().rposition(|c| *c != Data::Empty).map_or(0, |k| k + 1);
        if filled == 0 {
            continue;
        }
        if !sender.row(u64::from(top) + n as u64 + 1) {
            return Ok(());
        }
        for _ in 0..left {
            sender.record.push(b"");
        }
        for cell in &row[..filled] {
            sender.record.push(text(&borrowed(cell), decimal).as_bytes());
        }
    }
    sender.end();
    Ok(())
}

fn borrowed(cell: &Data) -> DataRef<'_> {
    match cell {
        Data::Int(i) => DataRef::Int(*i),
        Data::Float(x) => DataRef::Float(*x),
        Data::String(s) => DataRef::SharedString(s),
        Data::Bool(b) => DataRef::Bool(*b),
        Data::DateTime(t) => DataRef::DateTime(*t),
        Data::DateTimeIso(s) => DataRef::DateTimeIso(s.clone()),
        Data::DurationIso(s) => DataRef::DurationIso(s.clone()),
        Data::Error(e) => DataRef::Error(e.clone()),
        Data::Empty => DataRef::Empty,
    }
}

/// The value of an attribute of a tag.
fn attribute<'t>(tag: &'t [u8], name: &str) -> Option<&'t str> {
    let key = format!(" {name}=\"");
    let from = memmem::find(tag, key.as_bytes())? + key.len();
    let end = from + memchr::memchr(b'"', &tag[from..])?;
    std::str::from_utf8(&tag[from..end]).ok()
}

/// A text of XML without its escapes.
fn unescaped(text: &str) -> String {
    let mut out = text.to_string();
    for (escape, sign) in [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&apos;", "'"), ("&amp;", "&")] {
        out = out.replace(escape, sign);
    }
    out
}

/// Every tag that begins so, with its attributes.
fn tags<'x>(xml: &'x [u8], start: &str) -> Vec<&'x [u8]> {
    memmem::find_iter(xml, start.as_bytes())
        .map(|at| &xml[at..memchr::memchr(b'>', &xml[at..]).map_or(xml.len(), |k| at + k)])
        .collect()
}

/// The part of a workbook that holds a sheet; of one sheet its name is not asked.
fn sheet_part(path: &Path, sheet: Option<&str>) -> Option<Vec<u8>> {
    let book = part(path, "xl/workbook.xml")?;
    let sheets = tags(&book, "<sheet ");
    let tag = match sheet {
        Some(name) => *sheets.iter().find(|t| attribute(t, "name").is_some_and(|n| unescaped(n) == name))?,
        None => *sheets.first()?,
    };
    let id = attribute(tag, "r:id")?;
    let relations = part(path, "xl/_rels/workbook.xml.rels")?;
    let target = tags(&relations, "<Relationship ").into_iter().find(|t| attribute(t, "Id") == Some(id))?;
    let target = attribute(target, "Target")?;
    part(path, &target.strip_prefix('/').map_or_else(|| format!("xl/{target}"), str::to_string))
}

fn is_set(tag: &[u8]) -> bool {
    matches!(attribute(tag, "hidden"), Some("1" | "true"))
}

fn veiled_xlsx(path: &Path, sheet: Option<&str>) -> Veiled {
    let mut out = Veiled::default();
    let Some(xml) = sheet_part(path, sheet) else { return out };
    if memmem::find(&xml, b" hidden=\"").is_none() {
        return out;
    }
    // Columns far beyond the table are hidden to show where it ends: they hold nothing.
    let last = tags(&xml, "<dimension ").first().and_then(|t| attribute(t, "ref")).and_then(last_column).unwrap_or(0);
    for tag in tags(&xml, "<col ").into_iter().filter(|t| is_set(t)) {
        let number = |name| attribute(tag, name).and_then(|n| n.parse::<usize>().ok());
        if let (Some(from), Some(to)) = (number("min"), number("max"))
            && from >= 1
            && from <= last
        {
            out.columns.push(from - 1..=to.min(last).max(from) - 1);
        }
    }
    for tag in tags(&xml, "<row ").into_iter().filter(|t| is_set(t)) {
        // A row without cells closes itself.
        if !tag.ends_with(b"/")
            && let Some(row) = attribute(tag, "r").and_then(|n| n.parse().ok())
        {
            out.rows.insert(row);
        }
    }
    out
}

/// The number of the last column of "A1:H20".
fn last_column(range: &str) -> Option<usize> {
    let last = range.rsplit(':').next()?;
    let letters = last.chars().take_while(char::is_ascii_uppercase);
    Some(letters.fold(0, |n, c| n * 26 + (c as usize - 'A' as usize + 1)))
}

/// Repetitions from which on a row of ODS is the rest of the sheet, not a part of its table. Our own choice.
const REST_OF_SHEET: usize = 1000;

fn veiled_ods(path: &Path) -> Veiled {
    let mut out = Veiled::default();
    let Some(xml) = part(path, "content.xml") else { return out };
    let veiled = |t: &&[u8]| matches!(attribute(t, "table:visibility"), Some("collapse" | "filter"));
    let times = |t: &[u8], name: &str| attribute(t, name).and_then(|n| n.parse().ok()).unwrap_or(1_usize);
    for (n, tag) in tags(&xml, "<table:table-row ").into_iter().filter(veiled).enumerate() {
        if times(tag, "table:number-rows-repeated") < REST_OF_SHEET {
            out.rows.insert(n as u64 + 1);
        }
    }
    for (n, tag) in tags(&xml, "<table:table-column ").into_iter().filter(veiled).enumerate() {
        let times = times(tag, "table:number-columns-repeated");
        if times < REST_OF_SHEET {
            out.columns.push(n * REST_OF_SHEET..=n * REST_OF_SHEET + times - 1);
        }
    }
    out
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
        Decimal::Point | Decimal::Asked => plain,
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
