//! One reader for text tables and workbooks: opens a file by what it is, finds the headings, and
//! gives records whose number of cells agrees with them.

use super::fault::{Collector, fault, number, quoted};
use super::mapping::FileForm;
use super::shape;
use super::sheet::{self, SheetReader};
use super::text::{Record, TextFault, TextReader, decode, magic};
use message::{Message, count, expected, found, intake as said};
use quantity::Check;
use std::collections::VecDeque;
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// Records of a file.
pub struct Rows {
    from: From,
    /// Records that were read on to see whether the table had ended.
    ahead: VecDeque<Record>,
    /// Of those, how many are known to be no footers.
    sure: usize,
    /// Whether rows below the table are looked for: of results, whose rows are never nearly empty.
    pub footers: bool,
    /// Row of the last record with something in it.
    last: u64,
    /// Method of each column, where a row of methods stands under the headings.
    pub methods: Vec<Vec<u8>>,
}

enum From {
    Text(TextReader),
    Sheet(SheetReader),
    Held(std::vec::IntoIter<Record>),
}

/// Words and signs with which notes below a table begin.
const NOTE_STARTS: [&str; 16] = [
    "*",
    "#",
    "Bemerkung",
    "Anmerkung",
    "Hinweis",
    "Legende",
    "Note",
    "Remark",
    "Comment",
    "n.n.",
    "n.b.",
    "BG",
    "NWG",
    "Seite",
    "Page",
    "Erstellt",
];

/// Opens a file: a ZIP and an old binary Office file are read as workbooks, anything else as text, whatever its name.
pub fn open(path: &Path, form: &FileForm) -> Result<Result<Rows, TextFault>, std::io::Error> {
    let mut file = File::open(path)?;
    let mut head = [0u8; 4];
    let mut n = 0;
    while n < head.len() {
        match file.read(&mut head[n..])? {
            0 => break,
            k => n += k,
        }
    }
    let head = &head[..n];
    let text_fault =
        |found: Message, expected: Message| Ok(Err(TextFault::of_file(Check::FileForm, fault(found, expected))));
    if head.is_empty() {
        return text_fault(found::EmptyFile.into(), expected::Table.into());
    }
    if head.starts_with(b"PK\x03\x04") {
        return Ok(SheetReader::open(path, form).map(|r| Rows::of(From::Sheet(r))));
    }
    let named = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("xlsx"));
    if named {
        let what = magic(head).unwrap_or_else(|| found::NoWorkbook.into());
        return text_fault(found::UnderXlsx { what }.into(), expected::Xlsx.into());
    }
    if head.starts_with(&[0xD0, 0xCF, 0x11, 0xE0]) {
        return Ok(SheetReader::open(path, form).map(|r| Rows::of(From::Sheet(r))));
    }
    let file = File::open(path)?;
    Ok(TextReader::new(Box::new(file), form.delimiter)?.map(Rows::text))
}

/// As [`open`], and the table in the shape that the form says; what a person should know of it is told.
pub fn open_shaped(
    path: &Path,
    form: &FileForm,
    out: &mut Collector,
) -> Result<Result<Rows, TextFault>, std::io::Error> {
    let mut rows = match open(path, form)? {
        Ok(rows) => rows,
        Err(t) => return Ok(Err(t)),
    };
    if let From::Sheet(sheet) = &rows.from {
        sheet.tell(out);
    }
    if !form.is_shaped() {
        return Ok(Ok(rows));
    }
    let mut all = vec![];
    let mut record = Record::default();
    loop {
        match rows.next(&mut record)? {
            Err(t) => return Ok(Err(t)),
            Ok(false) => break,
            Ok(true) => all.push(record.clone()),
        }
    }
    let shaped = shape::shape(all, form, out);
    let mut rows = Rows::of(From::Held(shaped.records.into_iter()));
    rows.methods = shaped.methods;
    Ok(Ok(rows))
}

/// Names of a workbook's sheets; none for a text.
pub(crate) fn sheets(path: &Path) -> Vec<String> {
    sheet::names(path)
}

impl Rows {
    fn of(from: From) -> Self {
        Self { from, ahead: VecDeque::new(), sure: 0, footers: false, last: 0, methods: vec![] }
    }

    /// Records of a text.
    pub fn text(reader: TextReader) -> Self {
        Self::of(From::Text(reader))
    }

    /// The next record, blank ones too.
    pub fn next(&mut self, record: &mut Record) -> Result<Result<bool, TextFault>, std::io::Error> {
        if let Some(next) = self.ahead.pop_front() {
            *record = next;
            return Ok(Ok(true));
        }
        match &mut self.from {
            From::Text(t) => t.next(record),
            From::Sheet(s) => Ok(s.next(record)),
            From::Held(all) => Ok(Ok(all.next().map(|r| *record = r).is_some())),
        }
    }

    fn is_text(&self) -> bool {
        matches!(self.from, From::Text(_))
    }

    /// The headings and their row; faults go to the collector, which then has some.
    pub fn headings(
        &mut self,
        form: &FileForm,
        out: &mut Collector,
    ) -> Result<Option<(Vec<String>, u64)>, std::io::Error> {
        let mut record = Record::default();
        loop {
            match self.next(&mut record)? {
                Err(t) => {
                    out.text_fault(&t, &[]);
                    return Ok(None);
                }
                Ok(false) => {
                    let expected = form.header_row.map_or_else(
                        || expected::Table.into(),
                        |n| Message::from(expected::HeadingsInRow { row: number(n) }),
                    );
                    out.add(Check::FileForm, None, None, || fault(found::NoHeadings, expected));
                    return Ok(None);
                }
                Ok(true) => {}
            }
            let here = match form.header_row {
                Some(n) => record.row == n,
                None => !record.is_blank(),
            };
            if here {
                break;
            }
        }
        let mut headings = Vec::with_capacity(record.len());
        let mut readable = true;
        for i in 0..record.len() {
            // A file with line ends of carriage returns alone is one line: all its rows would be taken for headings.
            if record.get(i).contains(&b'\r') {
                out.add(Check::FileForm, Some(record.row), None, || fault(found::CarriageReturns, expected::LineFeeds));
                return Ok(None);
            }
            match decode(record.get(i), form.encoding) {
                Ok(t) => headings.push(t.into_owned()),
                Err(why) => {
                    let n = (i + 1).to_string();
                    out.add(Check::FileEncoding, Some(record.row), Some(&n), || why);
                    readable = false;
                }
            }
        }
        if let Some(t) = &record.text_fault {
            out.text_fault(t, &headings);
            readable = false;
        }
        // Spreadsheets leave delimiters behind the last column; empty cells under them are no spare cells either.
        while headings.last().is_some_and(String::is_empty) {
            headings.pop();
        }
        Ok(readable.then_some((headings, record.row)))
    }

    /// The next record with data; `false` at the end or where nothing can be told apart any
    /// further. Rows with too few or too many cells, or broken quotes, are passed over with a
    /// fault.
    pub fn next_data(
        &mut self,
        record: &mut Record,
        headings: &[String],
        out: &mut Collector,
    ) -> Result<bool, std::io::Error> {
        loop {
            match self.next(record)? {
                Ok(true) => {}
                Ok(false) => return Ok(false),
                Err(t) => {
                    out.text_fault(&t, headings);
                    return Ok(false);
                }
            }
            if self.footers && self.sure == 0 {
                match self.below_the_table(record, headings, out)? {
                    Ok(Below::Row) => {}
                    Ok(Below::HeadingsAgain) => continue,
                    Ok(Below::End) => return Ok(false),
                    Err(t) => {
                        out.text_fault(&t, headings);
                        return Ok(false);
                    }
                }
            }
            self.sure = self.sure.saturating_sub(1);
            if !record.may_be_blank() || !record.is_blank() {
                self.last = record.row;
            }
            if record.len() == headings.len() && record.text_fault.is_none() && record.len() > 1 {
                if record.may_be_blank() && record.is_blank() {
                    continue;
                }
                return Ok(true);
            }
            if record.is_blank() {
                continue;
            }
            if let Some(t) = &record.text_fault {
                out.text_fault(t, headings);
                continue;
            }
            let spare = (headings.len()..record.len()).any(|i| !record.get(i).is_empty());
            // A workbook keeps no empty cells, so its rows end with the last filled one; a row of text may not.
            let short = record.len() < headings.len() && self.is_text();
            if spare || short {
                let (cells, wanted) = (count(record.len()), count(headings.len()));
                out.add(Check::FileRowLength, Some(record.row), None, || {
                    fault(found::Cells { cells }, expected::Cells { cells: wanted })
                });
                continue;
            }
            return Ok(true);
        }
    }

    /// Whether a record is the headings once more, or begins what stands below the table up to the end of the file.
    ///
    /// A row is below the table where at most a third of its cells is filled and a gap is before it, or where it is a
    /// note by its first word; and where nothing but such rows follows. A row that is nearly empty within the table is
    /// none: it goes its way, and is refused where it lacks something.
    fn below_the_table(
        &mut self,
        record: &Record,
        headings: &[String],
        out: &mut Collector,
    ) -> Result<Result<Below, TextFault>, std::io::Error> {
        if record.get(0) == headings.first().map_or(&b""[..], |h| h.as_bytes()) && same_cells(record, headings) {
            out.tell(Check::FileForm, Some(record.row), None, said::HeadingsAgain);
            return Ok(Ok(Below::HeadingsAgain));
        }
        if !self.may_be_below(record, headings) {
            return Ok(Ok(Below::Row));
        }
        let mut held = vec![record.clone()];
        let mut next = Record::default();
        loop {
            match self.next(&mut next)? {
                Err(t) => return Ok(Err(t)),
                Ok(false) => break,
                Ok(true) if next.is_blank() => {}
                Ok(true) => {
                    let below = self.may_be_below(&next, headings);
                    held.push(next.clone());
                    if !below {
                        self.sure = held.len();
                        self.ahead.extend(held.drain(1..));
                        return Ok(Ok(Below::Row));
                    }
                }
            }
        }
        for r in &held {
            let text: Vec<String> = (0..r.len())
                .map(|i| String::from_utf8_lossy(r.get(i)).into_owned())
                .filter(|t| !t.is_empty())
                .collect();
            out.tell(Check::FileForm, Some(r.row), None, said::FooterLeft { text: quoted(&text.join(" ")) });
        }
        Ok(Ok(Below::End))
    }

    fn may_be_below(&self, record: &Record, headings: &[String]) -> bool {
        let most = (headings.len() / 3).max(1);
        // No more cells are looked at than it takes to see that this is a full row, as almost every one is.
        let filled = (0..record.len()).filter(|i| !record.get(*i).is_empty()).take(most + 1).count();
        if filled == 0 || headings.len() < 3 || filled > most || record.text_fault.is_some() {
            return false;
        }
        let first = (0..record.len()).map(|i| record.get(i)).find(|c| !c.is_empty()).unwrap_or_default();
        let gap = self.last != 0 && record.row > self.last + 1;
        gap || (filled == 1 && NOTE_STARTS.iter().any(|s| first.starts_with(s.as_bytes())))
    }
}

/// What a record is to the table.
enum Below {
    Row,
    HeadingsAgain,
    End,
}

fn same_cells(record: &Record, headings: &[String]) -> bool {
    let last = (0..record.len()).rev().find(|i| !record.get(*i).is_empty()).map_or(0, |i| i + 1);
    last == headings.len() && headings.iter().enumerate().all(|(i, h)| record.get(i) == h.as_bytes())
}
