//! What a file tells of its own form: encoding, delimiter, decimal sign, sign between groups of digits, order of day
//! and month, and the row of its headings.
//!
//! In: a file and a mapping that leaves some of it open. Out: [`Filled`], the mapping with nothing left open, and what
//! was told from what ([`Told`]), for a preview. What a mapping fixes is never asked of the file.
//!
//! * Encoding: bytes that are no UTF-8 and hold none of its signs of several bytes are Windows-1252; a file with both is
//!   left as UTF-8, so that its damaged row is refused by name.
//! * Delimiter: the sign that stands equally often in most lines.
//! * Decimal sign: from cells in which it can be nothing else ("0,5", "1,25", "1.234,5"). "1.234" alone is no evidence:
//!   where nothing else stands between semicolons or tabs, the sign is asked about. Between commas it is the point.
//! * Dates: points between the parts are day first (DIN 5008); strokes only where a part over 12 tells, else it is asked.
//!
//! What it does not do: it reads no column, and a guess from the first [`SAMPLE`] bytes binds no cell after them: a cell
//! that says otherwise is refused there. Checked in the tests below and in `tests/import_strange.rs`.

use super::cell::{DateOrder, Decimal, Numbers, number};
use super::mapping::{FileForm, From, LeftOpen, Mapping, Target};
use super::rows;
use super::text::{Encoding, Record, TextReader, decode, magic, wide};
use std::fs::File;
use std::io::{Cursor, Error, Read};
use std::path::Path;

/// Bytes from which signs are told.
const SAMPLE: u64 = 4 << 20;

/// Bytes from which the encoding is told, and dates where the sample does not tell them.
const WHOLE: u64 = 64 << 20;

/// Lines from which the delimiter is told.
const LINES: usize = 200;

/// Rows among which headings are looked for.
const HEADING_ROWS: u64 = 40;

/// One thing of a file's form.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Told {
    /// The mapping's key under `[file]`.
    pub key: &'static str,
    /// As the mapping would say it.
    pub value: String,
    /// Whether the file told it, not the mapping.
    pub guessed: bool,
}

/// A mapping with nothing left open.
#[derive(Debug, Clone)]
pub(crate) struct Filled {
    pub mapping: Mapping,
    pub told: Vec<Told>,
}

/// Fills what a mapping leaves open of the form of its file.
///
/// # Errors
/// The file cannot be read.
pub(crate) fn fill(path: &Path, mapping: &Mapping) -> Result<Filled, Error> {
    let mut mapping = mapping.clone();
    if matches!(mapping.target, Target::FieldSheet | Target::Recipe) {
        return Ok(Filled { mapping, told: vec![] });
    }
    let open = mapping.file.open;
    mapping.file = told_form(path, &mapping.file)?;
    mapping.rules.numbers = mapping.file.numbers();
    let mut told = tell(&mapping.file, open);
    let laboratory = matches!(mapping.target, Target::Results | Target::ResultsWide);
    if laboratory
        && mapping.file.header_row.is_none()
        && !mapping.file.transposed
        && let Some(row) = heading_row(path, &mapping)?
    {
        mapping.file.header_row = Some(row);
        told.push(Told { key: "header_row", value: row.to_string(), guessed: true });
    }
    Ok(Filled { mapping, told })
}

fn tell(form: &FileForm, open: LeftOpen) -> Vec<Told> {
    let told = |key, value: &str, guessed| Told { key, value: value.to_string(), guessed };
    let delimiter = match form.delimiter {
        None => "auto".to_string(),
        Some(b'\t') => "tab".into(),
        Some(b) => char::from(b).to_string(),
    };
    let mut out = vec![
        told("encoding", if form.encoding == Encoding::Utf8 { "utf-8" } else { "windows-1252" }, open.encoding),
        told("delimiter", &delimiter, open.delimiter),
        told(
            "decimal",
            match form.decimal {
                Decimal::Point => ".",
                Decimal::Comma => ",",
                Decimal::Asked => "?",
            },
            open.decimal,
        ),
        told(
            "dates",
            match form.dates {
                DateOrder::Ymd => "year-month-day",
                DateOrder::Dmy => "day-month-year",
                DateOrder::Mdy => "month-day-year",
                DateOrder::Asked => "?",
            },
            open.dates,
        ),
    ];
    if let Some(sign) = form.thousands {
        out.push(told("thousands", &sign.to_string(), open.decimal));
    }
    out
}

/// The form of a file, where the given one leaves it open.
///
/// # Errors
/// The file cannot be read.
pub(crate) fn told_form(path: &Path, given: &FileForm) -> Result<FileForm, Error> {
    let mut form = given.clone();
    let open = std::mem::take(&mut form.open);
    if !open.any() {
        return Ok(form);
    }
    let mut head = vec![];
    File::open(path)?.take(SAMPLE).read_to_end(&mut head)?;
    if let Some(what) = magic(&head[..head.len().min(4)]) {
        // A workbook has cells and no delimiter; whatever else it is, its reader says.
        if what.is::<message::found::Zip>() || what.is::<message::found::OldOffice>() {
            form.open = LeftOpen { delimiter: false, encoding: false, ..open };
            sheet(path, &mut form)?;
            form.open = LeftOpen::default();
        }
        return Ok(form);
    }
    if open.encoding && wide(&head[..head.len().min(4)]).0.is_none() {
        let mut all = std::mem::take(&mut head);
        if all.len() as u64 == SAMPLE {
            File::open(path)?.take(WHOLE).read_to_end({
                all.clear();
                &mut all
            })?;
        }
        form.encoding = encoding(&all);
        head = all;
        head.truncate(usize::try_from(SAMPLE).expect("4 MiB"));
    }
    let text = as_utf8(&head);
    if open.delimiter {
        // Where no sign stands out, the reader's own rule decides, and says what it cannot tell.
        form.delimiter = delimiter(&text).or(given.delimiter);
    }
    let sign = form.delimiter.unwrap_or(b',');
    let mut seen = Evidence::default();
    seen.read(&text, sign, form.encoding)?;
    if open.dates && seen.dates_unclear() && head.len() as u64 == SAMPLE {
        let mut all = vec![];
        File::open(path)?.take(WHOLE).read_to_end(&mut all)?;
        seen = Evidence::default();
        seen.read(&as_utf8(&all), sign, form.encoding)?;
    }
    if open.decimal {
        let numbers = seen.numbers(sign == b',');
        form.decimal = numbers.decimal;
        form.thousands = form.thousands.or(numbers.thousands);
    }
    if open.dates {
        form.dates = seen.dates();
    }
    Ok(form)
}

/// The form of a workbook, from its records, which were read with a point.
pub(crate) fn told_by_records(records: &[Record], given: &FileForm) -> FileForm {
    let mut form = FileForm { open: LeftOpen::default(), ..given.clone() };
    let mut seen = Evidence::default();
    for r in records {
        seen.record(r, Encoding::Utf8);
    }
    seen.of_workbook(given.open, &mut form);
    form
}

/// A workbook's numbers have no decimal sign; texts among them, "<0,5", may have.
fn sheet(path: &Path, form: &mut FileForm) -> Result<(), Error> {
    let open = form.open;
    let plain = FileForm { open: LeftOpen::default(), hidden: Some(super::mapping::Hidden::Take), ..form.clone() };
    let Ok(mut rows) = rows::open(path, &plain)? else { return Ok(()) };
    let mut seen = Evidence::default();
    let mut record = Record::default();
    let mut n = 0;
    while n < 2000 && matches!(rows.next(&mut record)?, Ok(true)) {
        seen.record(&record, Encoding::Utf8);
        n += 1;
    }
    seen.of_workbook(open, form);
    Ok(())
}

fn encoding(bytes: &[u8]) -> Encoding {
    // The sample may end within a sign of several bytes.
    match std::str::from_utf8(bytes) {
        Ok(_) => Encoding::Utf8,
        Err(e) if e.error_len().is_none() => Encoding::Utf8,
        Err(_) => {
            let holds_utf8 = bytes.utf8_chunks().any(|c| !c.valid().is_ascii());
            if holds_utf8 { Encoding::Utf8 } else { Encoding::Latin1 }
        }
    }
}

/// UTF-16 as UTF-8; other bytes as they are.
fn as_utf8(bytes: &[u8]) -> Vec<u8> {
    match wide(&bytes[..bytes.len().min(4)]) {
        (Some(encoding), mark) => encoding.decode_without_bom_handling(&bytes[mark..]).0.into_owned().into_bytes(),
        (None, _) => bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes).to_vec(),
    }
}

/// The sign that divides most lines into equally many cells; of two that do, the one that makes more of them.
fn delimiter(text: &[u8]) -> Option<u8> {
    let lines: Vec<&[u8]> = text.split(|b| *b == b'\n').filter(|l| !l.trim_ascii().is_empty()).take(LINES).collect();
    let mut best: Vec<(usize, usize, u8)> = vec![];
    for sign in [b',', b';', b'\t', b'|'] {
        let mut times: Vec<usize> = lines.iter().map(|l| outside_quotes(l, sign)).filter(|n| *n > 0).collect();
        times.sort_unstable();
        let mut most = (0, 0);
        for run in times.chunk_by(|a, b| a == b) {
            most = most.max((run.len(), run[0]));
        }
        if most.0 > 0 {
            best.push((most.0, most.1, sign));
        }
    }
    best.sort_unstable_by(|a, b| b.cmp(a));
    match best[..] {
        [(lines, cells, _), (other_lines, other_cells, _), ..] if (lines, cells) == (other_lines, other_cells) => None,
        [(_, _, sign), ..] => Some(sign),
        [] => None,
    }
}

fn outside_quotes(line: &[u8], sign: u8) -> usize {
    let mut quoted = false;
    let mut n = 0;
    for b in line {
        if *b == b'"' {
            quoted = !quoted;
        } else if !quoted && *b == sign {
            n += 1;
        }
    }
    n
}

/// What cells tell of signs and dates.
#[derive(Debug, Default)]
pub(crate) struct Evidence {
    /// Cells in which a comma can only be the decimal sign.
    commas: u64,
    /// Cells in which a point can only be the decimal sign.
    points: u64,
    /// Cells such as "1,234" and "1.234", which may be either.
    plain_commas: u64,
    plain_points: u64,
    /// Cells whose groups of digits only this sign can part: comma, point, blank, apostrophe.
    groups: [u64; 4],
    /// Dates with points; with another sign: day over 12 in front, in the middle, and those that do not tell.
    pointed_dates: u64,
    day_first: u64,
    month_first: u64,
    unclear_dates: u64,
}

impl Evidence {
    fn read(&mut self, text: &[u8], delimiter: u8, encoding: Encoding) -> Result<(), Error> {
        let Ok(mut reader) = TextReader::new(Box::new(Cursor::new(text.to_vec())), Some(delimiter))? else {
            return Ok(());
        };
        let mut record = Record::default();
        while matches!(reader.next(&mut record)?, Ok(true)) {
            self.record(&record, encoding);
        }
        Ok(())
    }

    pub(crate) fn record(&mut self, record: &Record, encoding: Encoding) {
        for at in 0..record.len() {
            let bytes = record.get(at);
            // Words and whole numbers tell nothing, and are most of a file.
            if bytes.len() < 3 || bytes.len() > 40 || !bytes.iter().any(|b| b",./- '".contains(b) || *b >= 0x80) {
                continue;
            }
            if let Ok(text) = decode(bytes, encoding) {
                self.cell(&text);
            }
        }
    }

    fn cell(&mut self, text: &str) {
        let day = text.split(['T', ' ']).next().unwrap_or("");
        if self.date(day) {
            return;
        }
        // A word before the number, "<" or "E", is no part of it; a letter within is: "A-1.5" is a name.
        let number = text.trim_start_matches(|c: char| !c.is_ascii_digit() && !c.is_alphanumeric());
        let number = number.split(['±', '(']).next().unwrap_or("").trim_end();
        if !number.starts_with(|c: char| c.is_ascii_digit()) {
            return;
        }
        self.number(number);
    }

    /// Whether the cell is a date with the year behind.
    fn date(&mut self, text: &str) -> bool {
        let parts: Vec<&str> = text.split(['.', '/', '-']).collect();
        let [a, b, year] = parts[..] else { return false };
        let digits = |p: &str, most: usize| !p.is_empty() && p.len() <= most && p.bytes().all(|c| c.is_ascii_digit());
        if !(digits(a, 2) && digits(b, 2) && year.len() == 4 && digits(year, 4)) {
            return false;
        }
        let over = |p: &str| p.parse::<u32>().is_ok_and(|n| n > 12);
        match (over(a), over(b)) {
            (true, false) => self.day_first += 1,
            (false, true) => self.month_first += 1,
            _ if text.contains('.') => self.pointed_dates += 1,
            _ => self.unclear_dates += 1,
        }
        true
    }

    fn number(&mut self, text: &str) {
        let mantissa = text.split(['e', 'E']).next().unwrap_or("");
        let kind = |c: char| match c {
            ',' => Some(0),
            '.' => Some(1),
            ' ' | '\u{a0}' | '\u{202f}' | '\u{2009}' => Some(2),
            '\'' | '’' => Some(3),
            _ => None,
        };
        if !mantissa.chars().all(|c| c.is_ascii_digit() || kind(c).is_some()) {
            return;
        }
        let signs: Vec<usize> = mantissa.chars().filter_map(kind).collect();
        let parts: Vec<&str> = mantissa.split(|c| kind(c).is_some()).collect();
        let (Some(first), Some(last)) = (parts.first(), parts.last()) else { return };
        let groups_up_to = |n: usize| {
            !first.is_empty() && first.len() <= 3 && *first != "0" && parts[1..n].iter().all(|p| p.len() == 3)
        };
        match signs[..] {
            // One sign: three digits behind up to three may be a group; anything else is a fraction.
            [sign @ (0 | 1)] => {
                let (sure, plain) = if sign == 0 {
                    (&mut self.commas, &mut self.plain_commas)
                } else {
                    (&mut self.points, &mut self.plain_points)
                };
                *(if groups_up_to(2) && last.len() == 3 { plain } else { sure }) += 1;
            }
            [sign] if groups_up_to(2) => self.groups[sign] += 1,
            [sign, .., end] if signs[..signs.len() - 1].iter().all(|s| *s == sign) => {
                if end == sign && groups_up_to(parts.len()) {
                    self.groups[sign] += 1;
                } else if end != sign && end < 2 && groups_up_to(parts.len() - 1) {
                    self.groups[sign] += 1;
                    *(if end == 0 { &mut self.commas } else { &mut self.points }) += 1;
                }
            }
            _ => {}
        }
    }

    /// How numbers are written; between commas the decimal sign is the point unless nothing but commas shows.
    fn numbers(&self, commas_between: bool) -> Numbers {
        let decimal = if commas_between {
            Decimal::Point
        } else if self.commas > self.points {
            Decimal::Comma
        } else if self.points > 0 {
            Decimal::Point
        } else if self.groups[1] > 0 {
            Decimal::Comma
        } else if self.groups[0] > 0 {
            Decimal::Point
        } else if self.plain_commas + self.plain_points > 0 {
            Decimal::Asked
        } else {
            Decimal::Point
        };
        let own = match decimal {
            Decimal::Comma => 0,
            Decimal::Point | Decimal::Asked => 1,
        };
        let group = (0..4).filter(|k| *k != own && self.groups[*k] > 0).max_by_key(|k| self.groups[*k]);
        // A sign that is a decimal one elsewhere in the file is none between groups.
        let contradicted = |k: usize| (k == 0 && self.commas > 0) || (k == 1 && self.points > 0);
        let thousands = group.filter(|k| !contradicted(*k)).map(|k| [',', '.', ' ', '\''][k]);
        Numbers { decimal, thousands: thousands.filter(|_| decimal != Decimal::Asked) }
    }

    /// What cells of a workbook tell: its own numbers come with a point, which says nothing.
    fn of_workbook(&mut self, open: LeftOpen, form: &mut FileForm) {
        if open.decimal {
            (self.points, self.plain_points) = (0, 0);
            let point_groups = self.groups[1];
            form.decimal = if self.commas > 0 { Decimal::Comma } else { Decimal::Point };
            form.thousands = form.thousands.or((self.commas > 0 && point_groups > 0).then_some('.'));
        }
        if open.dates {
            form.dates = self.dates();
        }
    }

    fn dates_unclear(&self) -> bool {
        self.dates() == DateOrder::Asked
    }

    fn dates(&self) -> DateOrder {
        match (self.day_first > 0, self.month_first > 0) {
            (true, true) => DateOrder::Asked,
            (true, false) => DateOrder::Dmy,
            (false, true) => DateOrder::Mdy,
            (false, false) if self.unclear_dates > 0 => DateOrder::Asked,
            // DIN 5008: day, month and year with points between them stand in this order.
            (false, false) if self.pointed_dates > 0 => DateOrder::Dmy,
            (false, false) => DateOrder::Ymd,
        }
    }
}

/// The first row that holds most of the headings that the mapping names, where it is not the first row at all.
fn heading_row(path: &Path, mapping: &Mapping) -> Result<Option<u64>, Error> {
    let named: Vec<&String> = mapping
        .sources
        .values()
        .filter(|s| !s.optional)
        .filter_map(|s| match &s.from {
            From::Headings(h) => Some(h.iter()),
            _ => None,
        })
        .flatten()
        .collect();
    if named.is_empty() {
        return Ok(None);
    }
    let plain = FileForm { units_row: None, methods_row: None, blocks: false, ..mapping.file.clone() };
    let Ok(mut rows) = rows::open(path, &plain)? else { return Ok(None) };
    let mut record = Record::default();
    let mut first = None;
    while matches!(rows.next(&mut record)?, Ok(true)) && record.row <= HEADING_ROWS {
        if record.is_blank() {
            continue;
        }
        let cells: Vec<String> = (0..record.len())
            .filter_map(|i| decode(record.get(i), plain.encoding).ok().map(std::borrow::Cow::into_owned))
            .collect();
        let is_there = |h: &str| {
            cells.iter().any(|c| c == h || super::pattern::heading_unit(c, &mapping.units).is_some_and(|(n, _)| n == h))
        };
        let there = named.iter().filter(|h| is_there(h)).count();
        if 2 * there > named.len() {
            return Ok(first.map(|_: u64| record.row));
        }
        first.get_or_insert(record.row);
    }
    Ok(None)
}

/// Whether a text is a number in one of the two customary ways.
pub(crate) fn looks_like_number(text: &str) -> bool {
    number(text, Decimal::Point).is_ok() || number(text, Decimal::Comma).is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seen(cells: &[&str]) -> Evidence {
        let mut e = Evidence::default();
        for c in cells {
            e.cell(c);
        }
        e
    }

    #[test]
    fn decimal_signs_by_evidence() {
        let check = |cells: &[&str], decimal, thousands| {
            assert_eq!(seen(cells).numbers(false), Numbers { decimal, thousands }, "{cells:?}");
        };
        check(&["1,25", "<0,5", "12"], Decimal::Comma, None);
        check(&["1.25", "<0.5"], Decimal::Point, None);
        check(&["1.234,5", "0,5"], Decimal::Comma, Some('.'));
        check(&["1,234.5"], Decimal::Point, Some(','));
        check(&["1.234.567"], Decimal::Comma, Some('.'));
        check(&["1 234,5"], Decimal::Comma, Some(' '));
        check(&["1’234.5"], Decimal::Point, Some('\''));
        check(&["0,123"], Decimal::Comma, None);
        // May be one thousand two hundred and thirty-four as well: asked.
        check(&["1.234"], Decimal::Asked, None);
        check(&["1,234", "12"], Decimal::Asked, None);
        check(&["Pb", "12", "DIN EN 1.2-3"], Decimal::Point, None);
        // A decimal point elsewhere in the file contradicts a point between groups.
        check(&["1,25", "2,5", "1.5", "1.234.567"], Decimal::Comma, None);
        assert_eq!(seen(&["1,5"]).numbers(true).decimal, Decimal::Point);
    }

    #[test]
    fn day_and_month_by_evidence() {
        let check = |cells: &[&str], want| assert_eq!(seen(cells).dates(), want, "{cells:?}");
        check(&["03.04.2026 10:15"], DateOrder::Dmy);
        check(&["03/04/2026", "25/04/2026"], DateOrder::Dmy);
        check(&["03/04/2026", "04/25/2026 09:00"], DateOrder::Mdy);
        check(&["03/04/2026"], DateOrder::Asked);
        check(&["13/04/2026", "04/13/2026"], DateOrder::Asked);
        check(&["2026-04-03"], DateOrder::Ymd);
    }

    #[test]
    fn the_sign_between_cells_is_the_one_that_divides_the_lines_alike() {
        assert_eq!(delimiter(b"Probe;Parameter;Wert\nA;Pb;1,5\nB;Cd;2,5\n"), Some(b';'));
        assert_eq!(delimiter(b"a,b,c\n1,\"x;y\",3\n"), Some(b','));
        assert_eq!(delimiter(b"Report, July\n\na\tb\tc\n1\t2\t3\n4\t5\t6\n"), Some(b'\t'));
        assert_eq!(delimiter(b"a|b\n1|2\n"), Some(b'|'));
        assert_eq!(delimiter(b"a,b;c\n"), None);
        assert_eq!(delimiter(b"one\ntwo\n"), None);
    }

    #[test]
    fn bytes_that_are_no_utf8_are_windows_1252_unless_some_of_them_are() {
        assert_eq!(encoding("µg/l".as_bytes()), Encoding::Utf8);
        assert_eq!(encoding(b"\xB5g/l \x80"), Encoding::Latin1);
        assert_eq!(encoding(b"\xC2\xB5g/l \xB5g/l"), Encoding::Utf8);
        // Cut within a sign.
        assert_eq!(encoding(b"a\xC2"), Encoding::Utf8);
    }
}
