//! Delimited text as instruments and laboratories write it, one record at a time.
//!
//! In: bytes (UTF-8 with or without byte-order mark, Latin-1, UTF-16 with or without mark), a delimiter or
//! "auto". Out: records of cells as bytes, with the row as a spreadsheet counts it (the first
//! line is row 1; a line break inside quotes does not count). Quoting after RFC 4180: a field is
//! quoted where its first character is a quote, a doubled quote inside stands for one.
//!
//! Memory is bounded: a record longer than [`LONGEST_RECORD`] is refused by name before it is
//! read whole. What it does not do: it repairs nothing. A quote that is never closed, text after
//! a closing quote, and bytes that are not of the stated encoding are said, with their place.
//! Checked in the tests below and in `tests/import_*.rs`.

use super::fault::{Fault, fault};
use encoding_rs::{Decoder, UTF_16BE, UTF_16LE};
use memchr::{memchr, memchr_iter, memchr2};
use message::{Message, expected, found};
use quantity::Check;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::io::Read;

/// Longest record taken, bytes. A row of a laboratory's file has some hundred; the limit keeps a
/// file without line ends (or with a lost quote) from filling the memory.
pub const LONGEST_RECORD: usize = 1 << 20;

/// How bytes are to be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Encoding {
    /// UTF-8; a byte-order mark is skipped.
    #[default]
    Utf8,
    /// Latin-1 in the form the web standard gives it (windows-1252).
    Latin1,
}

/// Why reading stopped, or what is wrong with one row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(from = "Plain", into = "Plain")]
pub struct TextFault {
    /// Name of the check.
    pub check: Check,
    /// Row as a spreadsheet counts it.
    pub row: Option<u64>,
    /// Column as a number from 1, where it is known.
    pub column: Option<usize>,
    /// What was found and what was expected; boxed, because every record has room for one.
    pub says: Box<Fault>,
}

/// The same between two processes.
#[derive(Serialize, Deserialize)]
struct Plain {
    check: Check,
    row: Option<u64>,
    column: Option<usize>,
    found: Message,
    expected: Message,
}

impl From<Plain> for TextFault {
    fn from(p: Plain) -> Self {
        let says = Box::new(Fault { found: p.found, expected: p.expected });
        Self { check: p.check, row: p.row, column: p.column, says }
    }
}

impl From<TextFault> for Plain {
    fn from(t: TextFault) -> Self {
        let Fault { found, expected } = *t.says;
        Self { check: t.check, row: t.row, column: t.column, found, expected }
    }
}

impl TextFault {
    /// Of a whole file.
    pub fn of_file(check: Check, says: Fault) -> Self {
        Self { check, row: None, column: None, says: Box::new(says) }
    }
}

/// One record: cells as bytes.
#[derive(Debug, Default, Clone)]
pub struct Record {
    bytes: Vec<u8>,
    ends: Vec<usize>,
    /// Row as a spreadsheet counts it.
    pub row: u64,
    /// Something wrong with the quoting of this row.
    pub text_fault: Option<TextFault>,
}

impl Record {
    /// Number of cells.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// A cell's bytes, without blanks around it; empty beyond the last cell.
    pub fn get(&self, at: usize) -> &[u8] {
        let Some(&end) = self.ends.get(at) else {
            return b"";
        };
        let start = if at == 0 { 0 } else { self.ends[at - 1] };
        self.bytes[start..end].trim_ascii()
    }

    /// Whether nothing but blanks stands in any cell; hard blanks of UTF-8 and of Latin-1 are blanks too.
    pub fn is_blank(&self) -> bool {
        match std::str::from_utf8(&self.bytes) {
            Ok(text) => text.chars().all(char::is_whitespace),
            Err(_) => self.bytes.iter().all(|b| b.is_ascii_whitespace() || *b == 0xA0),
        }
    }

    /// Whether the first cell may be one of a blank record: told quickly, since it is asked of every record.
    pub fn may_be_blank(&self) -> bool {
        self.get(0).first().is_none_or(|b| !b.is_ascii_graphic())
    }

    /// Empties the record for the next row.
    pub fn clear(&mut self, row: u64) {
        self.bytes.clear();
        self.ends.clear();
        self.text_fault = None;
        self.row = row;
    }

    /// All bytes, and where each cell ends.
    pub(crate) fn parts(&self) -> (&[u8], &[usize]) {
        (&self.bytes, &self.ends)
    }

    /// Of all bytes, and where each cell ends; none where they do not fit each other.
    pub(crate) fn of_parts(bytes: &[u8], ends: &[usize]) -> Option<Self> {
        let whole = ends.is_sorted() && ends.last().copied().unwrap_or(0) == bytes.len();
        whole.then(|| Self { bytes: bytes.to_vec(), ends: ends.to_vec(), ..Self::default() })
    }

    /// Adds a cell.
    pub fn push(&mut self, cell: &[u8]) {
        self.bytes.extend_from_slice(cell);
        self.ends.push(self.bytes.len());
    }
}

/// A cell as text; the bytes must be of the encoding stated.
///
/// # Errors
/// What was found and what was expected, where they are not.
pub fn decode(bytes: &[u8], encoding: Encoding) -> Result<Cow<'_, str>, Fault> {
    if memchr(0, bytes).is_some() {
        return Err(fault(found::ZeroByte, expected::NoZeroByte));
    }
    if bytes.is_ascii() {
        return Ok(Cow::Borrowed(std::str::from_utf8(bytes).expect("ASCII is UTF-8")));
    }
    match encoding {
        Encoding::Utf8 => match std::str::from_utf8(bytes) {
            Ok(t) if t.contains('\u{fffd}') => Err(fault(show(bytes), expected::SoundText)),
            Ok(t) => Ok(Cow::Borrowed(t.trim_matches(|c: char| c.is_whitespace()))),
            Err(e) => {
                let byte = format!("{:02X}", bytes[e.valid_up_to()]).into();
                Err(fault(found::Byte { byte, text: show(bytes) }, expected::Utf))
            }
        },
        Encoding::Latin1 => {
            if std::str::from_utf8(bytes).is_ok() {
                return Err(fault(show(bytes), expected::Latin));
            }
            let (text, _) = encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes);
            Ok(Cow::Owned(text.trim().to_string()))
        }
    }
}

/// Bytes for a message: at most 40 characters, quoted.
pub fn show(bytes: &[u8]) -> Message {
    let text = String::from_utf8_lossy(&bytes[..bytes.len().min(160)]);
    let mut short: String = text.chars().take(40).collect();
    if short.len() < bytes.len() && text.chars().count() > 40 {
        short.push('…');
    }
    found::Quoted { text: short.escape_debug().to_string().into() }.into()
}

/// Turns UTF-16 into UTF-8 on the way in.
struct FromUtf16<R> {
    input: R,
    decoder: Decoder,
    raw: Vec<u8>,
    have: usize,
    done: bool,
}

impl<R: Read> Read for FromUtf16<R> {
    fn read(&mut self, out: &mut [u8]) -> std::io::Result<usize> {
        loop {
            if self.have == 0 && !self.done {
                self.have = self.input.read(&mut self.raw)?;
                self.done = self.have == 0;
            }
            let (_, read, written, _) = self.decoder.decode_to_utf8(&self.raw[..self.have], out, self.done);
            self.raw.copy_within(read..self.have, 0);
            self.have -= read;
            if written > 0 || self.done {
                return Ok(written);
            }
        }
    }
}

/// Reads records.
pub struct TextReader {
    input: Box<dyn Read + Send>,
    buffer: Vec<u8>,
    start: usize,
    end: usize,
    eof: bool,
    delimiter: u8,
    row: u64,
}

impl std::fmt::Debug for TextReader {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("TextReader").field("row", &self.row).finish_non_exhaustive()
    }
}

/// Where a record ends, and whether a quote opened in it.
struct End {
    at: usize,
    next: usize,
    quoted: bool,
}

impl TextReader {
    /// A reader; `delimiter` none means: the one of comma, semicolon, tab, bar that stands most
    /// often in the first line that has any.
    ///
    /// # Errors
    /// [`Outside`] where reading fails; a [`TextFault`] where the file is empty, binary or its
    /// delimiter cannot be told.
    pub fn new(
        mut input: Box<dyn Read + Send>,
        delimiter: Option<u8>,
    ) -> Result<Result<Self, TextFault>, std::io::Error> {
        let mut head = [0u8; 4];
        let mut n = 0;
        // A read may bring fewer bytes than asked for, also in the middle of a mark.
        while n < head.len() {
            match input.read(&mut head[n..])? {
                0 => break,
                k => n += k,
            }
        }
        let head = &head[..n];
        if let Some(what) = magic(head) {
            return Ok(Err(TextFault::of_file(Check::FileNotText, fault(what, expected::TextTable))));
        }
        let (utf16, mark) = wide(head);
        let kept = match head {
            [0xEF, 0xBB, 0xBF, rest @ ..] => rest.to_vec(),
            _ => head[mark..].to_vec(),
        };
        let chained = std::io::Cursor::new(kept).chain(input);
        let input: Box<dyn Read + Send> = match utf16 {
            Some(encoding) => Box::new(FromUtf16 {
                input: chained,
                decoder: encoding.new_decoder_without_bom_handling(),
                raw: vec![0; 1 << 16],
                have: 0,
                done: false,
            }),
            None => Box::new(chained),
        };
        let mut reader = Self {
            input,
            buffer: vec![0; 1 << 17],
            start: 0,
            end: 0,
            eof: false,
            delimiter: delimiter.unwrap_or(b','),
            row: 0,
        };
        if delimiter.is_none() {
            match reader.sniff()? {
                Ok(d) => reader.delimiter = d,
                Err(t) => return Ok(Err(t)),
            }
        }
        Ok(Ok(reader))
    }

    fn sniff(&mut self) -> Result<Result<u8, TextFault>, std::io::Error> {
        while self.end < self.buffer.len() && !self.eof {
            self.fill()?;
        }
        let text = &self.buffer[self.start..self.end];
        for line in text.split(|b| *b == b'\n') {
            let mut counts = [(b',', 0), (b';', 0), (b'\t', 0), (b'|', 0)];
            let mut quoted = false;
            for b in line {
                if *b == b'"' {
                    quoted = !quoted;
                } else if !quoted {
                    for c in &mut counts {
                        c.1 += usize::from(c.0 == *b);
                    }
                }
            }
            counts.sort_by_key(|c| std::cmp::Reverse(c.1));
            if counts[0].1 == 0 {
                continue;
            }
            if counts[0].1 == counts[1].1 {
                let [one, other] = [counts[0], counts[1]].map(|c| format!("{:?}", c.0 as char).into());
                let says = Box::new(fault(found::Delimiters { one, other }, expected::OneDelimiter));
                return Ok(Err(TextFault { check: Check::FileDelimiter, row: Some(1), column: None, says }));
            }
            return Ok(Ok(counts[0].0));
        }
        Ok(Ok(b','))
    }

    fn fill(&mut self) -> Result<(), std::io::Error> {
        if self.start > 0 {
            self.buffer.copy_within(self.start..self.end, 0);
            self.end -= self.start;
            self.start = 0;
        }
        if self.end == self.buffer.len() {
            let grown = (self.buffer.len() * 2).min(LONGEST_RECORD + 1);
            self.buffer.resize(grown, 0);
        }
        loop {
            match self.input.read(&mut self.buffer[self.end..]) {
                Ok(0) => self.eof = true,
                Ok(n) => self.end += n,
                Err(e) if e.kind() == std::io::ErrorKind::Interrupted => continue,
                Err(e) => return Err(e),
            }
            return Ok(());
        }
    }

    /// The next record; `false` at the end of the file.
    ///
    /// # Errors
    /// Outer: reading failed. Inner: the record is too long, or a quote is never closed; nothing
    /// after it can be told apart, so reading stops there.
    pub fn next(&mut self, record: &mut Record) -> Result<Result<bool, TextFault>, std::io::Error> {
        record.clear(self.row + 1);
        if self.start == self.end && !self.eof {
            self.fill()?;
        }
        while self.start == self.end && !self.eof {
            self.fill()?;
        }
        if self.start == self.end {
            return Ok(Ok(false));
        }
        let end = match self.find_end()? {
            Ok(end) => end,
            Err(t) => return Ok(Err(t)),
        };
        self.row += 1;
        let mut line = &self.buffer[self.start..end.at];
        if line.last() == Some(&b'\r') {
            line = &line[..line.len() - 1];
        }
        if end.quoted {
            split_quoted(line, self.delimiter, record);
        } else {
            // Most lines have no quote: delimiters alone divide them, at the speed of a search for one byte.
            record.bytes.reserve(line.len());
            let mut from = 0;
            for at in memchr_iter(self.delimiter, line) {
                record.push(&line[from..at]);
                from = at + 1;
            }
            record.push(&line[from..]);
        }
        self.start = end.next;
        Ok(Ok(true))
    }

    /// Finds the line end that closes the record, reading on as needed.
    fn find_end(&mut self) -> Result<Result<End, TextFault>, std::io::Error> {
        // Offsets from `start`, which stays where it is in the record while the buffer moves.
        let mut at = 0;
        let mut open = false;
        let mut quoted = false;
        loop {
            let line = &self.buffer[self.start..self.end];
            let mut need_more = false;
            while at < line.len() {
                if open {
                    let Some(k) = memchr(b'"', &line[at..]) else {
                        at = line.len();
                        break;
                    };
                    let q = at + k;
                    match line.get(q + 1) {
                        Some(b'"') => at = q + 2,
                        Some(_) => {
                            open = false;
                            at = q + 1;
                        }
                        None if self.eof => {
                            open = false;
                            at = q + 1;
                        }
                        None => {
                            at = q;
                            need_more = true;
                        }
                    }
                    if need_more {
                        break;
                    }
                } else {
                    let Some(k) = memchr2(b'\n', b'"', &line[at..]) else {
                        at = line.len();
                        break;
                    };
                    let p = at + k;
                    if line[p] == b'\n' {
                        return Ok(Ok(End { at: self.start + p, next: self.start + p + 1, quoted }));
                    }
                    if p == 0 || line[p - 1] == self.delimiter {
                        open = true;
                        quoted = true;
                    }
                    at = p + 1;
                }
            }
            if self.eof {
                if open {
                    let says = fault(found::QuoteOpen, expected::ClosingQuote);
                    return Ok(Err(self.text_fault(Check::FileQuote, says)));
                }
                return Ok(Ok(End { at: self.end, next: self.end, quoted }));
            }
            if self.end - self.start > LONGEST_RECORD {
                let found = found::LineLong { size: message::count(LONGEST_RECORD / 1024) };
                let says = if open { fault(found, expected::QuoteOrLineEnd) } else { fault(found, expected::LineEnd) };
                return Ok(Err(self.text_fault(Check::FileLineLength, says)));
            }
            self.fill()?;
        }
    }

    fn text_fault(&self, check: Check, says: Fault) -> TextFault {
        TextFault { check, row: Some(self.row + 1), column: None, says: Box::new(says) }
    }
}

/// UTF-16 told from its mark, or, without one, from two letters of ASCII; with the length of the mark.
pub(crate) fn wide(head: &[u8]) -> (Option<&'static encoding_rs::Encoding>, usize) {
    let letter = |b: &u8| b.is_ascii_graphic() || *b == b' ';
    match head {
        [0xFF, 0xFE, ..] => (Some(UTF_16LE), 2),
        [0xFE, 0xFF, ..] => (Some(UTF_16BE), 2),
        [a, 0, b, 0] if letter(a) && letter(b) => (Some(UTF_16LE), 0),
        [0, a, 0, b] if letter(a) && letter(b) => (Some(UTF_16BE), 0),
        _ => (None, 0),
    }
}

/// What a file is when its first bytes say that it is no text.
pub fn magic(head: &[u8]) -> Option<Message> {
    match head {
        [b'%', b'P', b'D', b'F', ..] => Some(found::Pdf.into()),
        [0xD0, 0xCF, 0x11, 0xE0, ..] => Some(found::OldOffice.into()),
        [b'P', b'K', 3, 4, ..] => Some(found::Zip.into()),
        [0x1F, 0x8B, ..] => Some(found::Gzip.into()),
        [0x89, b'P', b'N', b'G', ..] => Some(found::Png.into()),
        _ => None,
    }
}

fn split_quoted(line: &[u8], delimiter: u8, record: &mut Record) {
    let mut at = 0;
    loop {
        if line.get(at) == Some(&b'"') {
            at += 1;
            while let Some(k) = memchr(b'"', &line[at..]) {
                record.bytes.extend_from_slice(&line[at..at + k]);
                at += k + 1;
                if line.get(at) == Some(&b'"') {
                    record.bytes.push(b'"');
                    at += 1;
                } else {
                    break;
                }
            }
            let rest = memchr(delimiter, &line[at..]).map_or(line.len(), |k| at + k);
            // RFC 4180 has nothing behind a closing quote: dropped or joined on, the cell would say something else.
            if !line[at..rest].trim_ascii().is_empty() && record.text_fault.is_none() {
                let text = show(&line[at..rest]);
                record.text_fault = Some(TextFault {
                    check: Check::FileQuote,
                    row: Some(record.row),
                    column: Some(record.ends.len() + 1),
                    says: Box::new(fault(found::AfterQuote { text }, expected::Delimiter)),
                });
            }
            at = rest;
        } else {
            let rest = memchr(delimiter, &line[at..]).map_or(line.len(), |k| at + k);
            record.bytes.extend_from_slice(&line[at..rest]);
            at = rest;
        }
        record.ends.push(record.bytes.len());
        if at >= line.len() {
            return;
        }
        at += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Cursor;

    fn read(text: &[u8], delimiter: Option<u8>) -> Result<Vec<Vec<String>>, TextFault> {
        let mut r = TextReader::new(Box::new(Cursor::new(text.to_vec())), delimiter).unwrap()?;
        let mut rec = Record::default();
        let mut rows = vec![];
        while r.next(&mut rec).unwrap()? {
            if let Some(t) = rec.text_fault.clone() {
                return Err(t);
            }
            rows.push((0..rec.len()).map(|i| decode(rec.get(i), Encoding::Utf8).unwrap().into_owned()).collect());
        }
        Ok(rows)
    }

    fn check(text: &str, delimiter: Option<u8>, want: &[&[&str]]) {
        assert_eq!(read(text.as_bytes(), delimiter).unwrap(), want, "{text}");
    }

    #[test]
    fn records_as_spreadsheets_write_them() {
        check("a,b\n1,2\n", Some(b','), &[&["a", "b"], &["1", "2"]]);
        check("a;b\r\n1;2", None, &[&["a", "b"], &["1", "2"]]);
        check("\"a\",\"b \"\"x\"\"\"\n\"1\n2\",\n", None, &[&["a", "b \"x\""], &["1\n2", ""]]);
        check("5\" pipe,x\n", Some(b','), &[&["5\" pipe", "x"]]);
        check("\u{feff}a\tb\n", None, &[&["a", "b"]]);
        check("", None, &[]);
        check("\n\nx\n", None, &[&[""], &[""], &["x"]]);
    }

    #[test]
    fn utf_16_with_a_mark() {
        let mut bytes = vec![0xFF, 0xFE];
        for u in "µg;b\n1;2\n".encode_utf16() {
            bytes.extend(u.to_le_bytes());
        }
        assert_eq!(read(&bytes, None).unwrap(), [vec!["µg", "b"], vec!["1", "2"]]);
    }

    #[test]
    fn what_cannot_be_told_apart_is_said() {
        let t = read(b"a,b\n1,\"2\n3,4\n", None).unwrap_err();
        assert_eq!((t.check, t.row), (Check::FileQuote, Some(2)));
        let t = read(b"a,b\n1,\"2\"x\n", None).unwrap_err();
        assert_eq!((t.check, t.row, t.column), (Check::FileQuote, Some(2), Some(2)));
        let t = read(b"a,b;c\n", None).unwrap_err();
        assert_eq!(t.check, Check::FileDelimiter);
        let t = read(b"%PDF-1.7", None).unwrap_err();
        assert_eq!(t.says.found, found::Pdf.into());
        let mut long = b"a,b\n".to_vec();
        long.resize(3 * LONGEST_RECORD, b'x');
        let t = read(&long, None).unwrap_err();
        assert_eq!((t.check, t.row), (Check::FileLineLength, Some(2)));
    }

    #[test]
    fn encodings_are_not_guessed() {
        let latin = b"\xB5g/L";
        assert!(decode(latin, Encoding::Utf8).unwrap_err().found.in_english().contains("0xB5"));
        assert_eq!(decode(latin, Encoding::Latin1).unwrap(), "µg/L");
        assert!(decode("µg/L".as_bytes(), Encoding::Latin1).unwrap_err().expected.in_english().contains("utf-8"));
    }
}
