//! How a value of the record is written in a CSV cell, and read back the same.
//!
//! CSV after RFC 4180: comma, CRLF, quotes where they are needed, UTF-8 without byte order mark.
//! * Nothing: an empty cell. Numbers: the shortest text that reads back to the same binary64.
//! * Bytes: hexadecimal, lower case, where there are at most 64; longer ones stand in a file of their
//!   own, whose path is written.
//! * Text: as it is, with one rule. A spreadsheet runs a cell that begins with `=` `+` `-` `@` (also
//!   full-width), tab, carriage return or line feed as a formula. Such text gets **one apostrophe in
//!   front**; so does text that begins with an apostrophe, and empty text is written as one apostrophe.
//!   Reading takes one apostrophe off the front. So the rule can be undone: every text reads back as it
//!   was, and numbers stay numbers, `-0.3` too. (The list of characters follows OWASP's page "CSV
//!   Injection", from memory.)
//!
//! Checked below by property tests.

use record::schema::Kind;
use record::store::Cell;

/// Bytes that are written in the cell; more go to a file.
pub const HEX_BYTES: usize = 64;

/// Characters that a spreadsheet may take for the beginning of a formula, and the apostrophe itself.
const DEFUSED: [char; 12] = ['=', '+', '-', '@', '\t', '\r', '\n', '\'', '＝', '＋', '－', '＠'];

/// Bytes for which a cell is put in quotes: quote, comma, line feed, carriage return.
const QUOTED: [bool; 256] = {
    let mut out = [false; 256];
    out[b'"' as usize] = true;
    out[b',' as usize] = true;
    out[b'\n' as usize] = true;
    out[b'\r' as usize] = true;
    out
};

/// Whether text gets an apostrophe in front.
fn needs_apostrophe(text: &str) -> bool {
    match text.as_bytes().first() {
        None => true,
        // Letters and digits are most of what there is, and no beginning of a formula.
        Some(b) if b.is_ascii_alphanumeric() => false,
        Some(_) => text.starts_with(DEFUSED),
    }
}

/// The text as a cell, before quoting: for descriptions that list words as they stand in cells.
pub fn defused(text: &str) -> String {
    if needs_apostrophe(text) { format!("'{text}") } else { text.to_owned() }
}

/// The text that a cell stands for; `None` for an empty cell.
pub fn undefused(cell: &str) -> Option<&str> {
    if cell.is_empty() { None } else { Some(cell.strip_prefix('\'').unwrap_or(cell)) }
}

/// Appends text, defused and quoted as needed.
pub fn push_text(out: &mut Vec<u8>, text: &str) {
    let bytes = text.as_bytes();
    let quoted = bytes.iter().any(|b| QUOTED[usize::from(*b)]);
    if quoted {
        out.push(b'"');
    }
    if needs_apostrophe(text) {
        out.push(b'\'');
    }
    if !quoted {
        out.extend_from_slice(text.as_bytes());
        return;
    }
    let mut from = 0;
    for (at, b) in bytes.iter().enumerate() {
        if *b == b'"' {
            // The quote itself goes out twice: once here, once as the beginning of what follows.
            out.extend_from_slice(&bytes[from..=at]);
            from = at;
        }
    }
    out.extend_from_slice(&bytes[from..]);
    out.push(b'"');
}

/// Appends a finite number.
pub fn push_number(out: &mut Vec<u8>, x: f64) {
    out.extend_from_slice(zmij::Buffer::new().format(x + 0.0).as_bytes());
}

/// Appends a whole number.
pub fn push_whole(out: &mut Vec<u8>, n: i64) {
    out.extend_from_slice(itoa::Buffer::new().format(n).as_bytes());
}

/// Appends bytes in hexadecimal.
pub fn push_hex(out: &mut Vec<u8>, bytes: &[u8]) {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    for b in bytes {
        out.extend([DIGITS[usize::from(b >> 4)], DIGITS[usize::from(b & 15)]]);
    }
}

/// Appends a value of the record; bytes must be few.
pub fn push(out: &mut Vec<u8>, cell: &Cell) {
    match cell {
        Cell::Null => {}
        Cell::Integer(n) => push_whole(out, *n),
        Cell::Real(x) => push_number(out, *x),
        Cell::Text(t) => push_text(out, t),
        // No bytes at all are not nothing.
        Cell::Blob([]) => out.push(b'\''),
        Cell::Blob(b) => push_hex(out, b),
    }
}

/// Bytes from hexadecimal.
pub fn hex(cell: &str) -> Option<Vec<u8>> {
    if cell == "'" {
        return Some(vec![]);
    }
    if !cell.len().is_multiple_of(2) || !cell.bytes().all(|b| b.is_ascii_hexdigit()) {
        return None;
    }
    (0..cell.len()).step_by(2).map(|i| u8::from_str_radix(&cell[i..i + 2], 16).ok()).collect()
}

/// The value that a cell stands for, where its column holds such; bytes are read by [`hex`].
pub fn parse(kind: Kind, cell: &str) -> Option<Cell<'_>> {
    if cell.is_empty() {
        return Some(Cell::Null);
    }
    match kind {
        Kind::Integer | Kind::Row(_) => cell.parse().ok().map(Cell::Integer),
        Kind::Real => cell.parse().ok().filter(|x: &f64| x.is_finite()).map(Cell::Real),
        Kind::Blob => None,
        Kind::Text | Kind::Word(_) | Kind::Time | Kind::Unit | Kind::Json => undefused(cell).map(Cell::Text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn text(t: &str) -> String {
        let mut out = vec![];
        push_text(&mut out, t);
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn text_cannot_run_as_a_formula_and_numbers_stay_numbers() {
        for (plain, cell) in [
            ("=1+1", "'=1+1"),
            ("-0.3", "'-0.3"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("\t=1", "'\t=1"),
            ("\r=1", "\"'\r=1\""),
            ("'quoted", "''quoted"),
            ("", "'"),
            ("Pb", "Pb"),
            ("a, \"b\"", "\"a, \"\"b\"\"\""),
            ("=\"x\"", "\"'=\"\"x\"\"\""),
        ] {
            assert_eq!(text(plain), cell);
        }
        let mut out = vec![];
        push(&mut out, &Cell::Real(-0.3));
        assert_eq!(out, b"-0.3");
    }

    #[test]
    fn nothing_and_empty_text_and_no_bytes_differ() {
        assert_eq!(parse(Kind::Text, ""), Some(Cell::Null));
        assert_eq!(parse(Kind::Text, "'"), Some(Cell::Text("")));
        assert_eq!(hex("'"), Some(vec![]));
        assert_eq!(hex("0aff"), Some(vec![10, 255]));
        assert_eq!(hex("0af"), None);
    }

    proptest! {
        #[test]
        fn no_text_begins_as_a_formula_and_each_reads_back(t in "([=+@'\t\r\n-]|\\PC){0,12}[\",\r\n]{0,2}") {
            let mut line = vec![];
            push_text(&mut line, &t);
            line.extend(b",1\r\n");
            let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(line.as_slice());
            let row = reader.records().next().unwrap().unwrap();
            prop_assert!(!row[0].starts_with(['=', '+', '-', '@', '\t', '\r', '\n']));
            prop_assert_eq!(parse(Kind::Text, &row[0]), Some(Cell::Text(&t)));
        }

        #[test]
        fn each_number_reads_back_to_the_same_bits(x in prop::num::f64::NORMAL | prop::num::f64::SUBNORMAL) {
            let mut out = vec![];
            push_number(&mut out, x);
            let read: f64 = std::str::from_utf8(&out).unwrap().parse().unwrap();
            prop_assert_eq!(read.to_bits(), x.to_bits());
        }
    }
}
