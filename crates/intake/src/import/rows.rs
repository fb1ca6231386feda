//! One reader for text tables and workbooks: opens a file by what it is, finds the headings, and
//! gives records whose number of cells agrees with them.

use super::fault::{Collector, fault, number};
use super::mapping::FileForm;
use super::sheet::SheetReader;
use super::text::{Record, TextFault, TextReader, decode, magic};
use message::{Message, count, expected, found};
use quantity::Check;
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// Records of a file.
pub enum Rows {
    Text(TextReader),
    Sheet(SheetReader),
}

/// Opens a file: a ZIP is read as a workbook, anything else as text, whatever its name.
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
        if let Err(text_fault) = super::guard::check(path)? {
            return Ok(Err(text_fault));
        }
        return Ok(Ok(Rows::Sheet(SheetReader::open(path, form.sheet.as_deref(), form.decimal))));
    }
    let named = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("xlsx"));
    if named {
        let what = magic(head).unwrap_or_else(|| found::NoWorkbook.into());
        return text_fault(found::UnderXlsx { what }.into(), expected::Xlsx.into());
    }
    let file = File::open(path)?;
    Ok(TextReader::new(Box::new(file), form.delimiter)?.map(Rows::Text))
}

impl Rows {
    /// The next record, blank ones too.
    pub fn next(&mut self, record: &mut Record) -> Result<Result<bool, TextFault>, std::io::Error> {
        match self {
            Self::Text(t) => t.next(record),
            Self::Sheet(s) => Ok(s.next(record)),
        }
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
            let short = record.len() < headings.len() && matches!(self, Self::Text(_));
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
}
