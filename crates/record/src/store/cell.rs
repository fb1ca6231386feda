//! One value of one column, borrowed, and the canonical bytes of a row from which its digest is
//! made.
//!
//! The bytes of a row: its `id` and `event` (8 bytes each, little-endian), then for each value
//! that is not null its column's place in the declared order (1 byte), a tag (1 integer, 2 real,
//! 3 text, 4 blob), the value (integer: 8 bytes; real: the 8 bytes of IEEE 754 binary64; text
//! and blob: length as 8 bytes, then the bytes; all little-endian), and 0xFF at the end. A null
//! writes nothing, so a column that a later schema adds leaves the digests of older rows as they
//! were.

/// A value to write, or read back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cell<'a> {
    /// Nothing.
    Null,
    /// Whole number, or the id of another row.
    Integer(i64),
    /// Number.
    Real(f64),
    /// Text, times, words, units, JSON.
    Text(&'a str),
    /// Bytes.
    Blob(&'a [u8]),
}

impl Cell<'_> {
    /// As a person would type it; for a message or a preview.
    pub fn as_typed(&self) -> String {
        match self {
            Self::Null => String::new(),
            Self::Integer(i) => i.to_string(),
            Self::Real(x) => format!("{x}"),
            Self::Text(t) => (*t).to_string(),
            Self::Blob(b) => format!("{} bytes", b.len()),
        }
    }

    /// What it is, for messages.
    pub fn describe(&self) -> String {
        match self {
            Cell::Null => "nothing".into(),
            Cell::Integer(i) => i.to_string(),
            Cell::Real(x) => format!("{x:?}"),
            Cell::Text(t) => format!("{:?}", t.chars().take(80).collect::<String>()),
            Cell::Blob(b) => format!("{} bytes", b.len()),
        }
    }
}

impl From<i64> for Cell<'_> {
    fn from(i: i64) -> Self {
        Cell::Integer(i)
    }
}

impl From<f64> for Cell<'_> {
    fn from(x: f64) -> Self {
        Cell::Real(x)
    }
}

impl<'a> From<&'a str> for Cell<'a> {
    fn from(t: &'a str) -> Self {
        Cell::Text(t)
    }
}

impl<'a> From<&'a String> for Cell<'a> {
    fn from(t: &'a String) -> Self {
        Cell::Text(t)
    }
}

impl<'a> From<&'a [u8]> for Cell<'a> {
    fn from(b: &'a [u8]) -> Self {
        Cell::Blob(b)
    }
}

impl<'a, T: Into<Cell<'a>>> From<Option<T>> for Cell<'a> {
    fn from(o: Option<T>) -> Self {
        o.map_or(Cell::Null, Into::into)
    }
}

/// Appends the canonical bytes of a row.
pub(crate) fn encode_row(out: &mut Vec<u8>, id: i64, event: i64, cells: &[Cell]) {
    out.extend_from_slice(&id.to_le_bytes());
    out.extend_from_slice(&event.to_le_bytes());
    for (place, cell) in (0u8..).zip(cells) {
        encode_cell(out, place, cell);
    }
    out.push(0xFF);
}

fn encode_cell(out: &mut Vec<u8>, place: u8, cell: &Cell) {
    let (tag, bytes): (u8, &[u8]) = match cell {
        Cell::Null => return,
        Cell::Integer(i) => return fixed(out, place, 1, i.to_le_bytes()),
        Cell::Real(x) => return fixed(out, place, 2, x.to_bits().to_le_bytes()),
        Cell::Text(t) => (3, t.as_bytes()),
        Cell::Blob(b) => (4, b),
    };
    fixed(out, place, tag, (bytes.len() as u64).to_le_bytes());
    out.extend_from_slice(bytes);
}

fn fixed(out: &mut Vec<u8>, place: u8, tag: u8, value: [u8; 8]) {
    let mut head = [place, tag, 0, 0, 0, 0, 0, 0, 0, 0];
    head[2..].copy_from_slice(&value);
    out.extend_from_slice(&head);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bytes_of_a_row_are_as_described() {
        let mut out = vec![];
        encode_row(&mut out, 1, 2, &[Cell::Text("a"), Cell::Null, Cell::Real(1.0), Cell::Integer(-1)]);
        let mut expected = vec![1, 0, 0, 0, 0, 0, 0, 0, 2, 0, 0, 0, 0, 0, 0, 0];
        expected.extend([0, 3, 1, 0, 0, 0, 0, 0, 0, 0, b'a']);
        expected.extend([2, 2, 0, 0, 0, 0, 0, 0, 0xF0, 0x3F]);
        expected.extend([3, 1, 255, 255, 255, 255, 255, 255, 255, 255, 0xFF]);
        assert_eq!(out, expected);
    }

    #[test]
    fn a_null_at_the_end_changes_nothing() {
        let (mut a, mut b) = (vec![], vec![]);
        encode_row(&mut a, 1, 1, &[Cell::Text("x")]);
        encode_row(&mut b, 1, 1, &[Cell::Text("x"), Cell::Null]);
        assert_eq!(a, b);
    }

    #[test]
    fn where_one_text_ends_and_the_next_begins_matters() {
        let (mut a, mut b) = (vec![], vec![]);
        encode_row(&mut a, 1, 1, &[Cell::Text("ab"), Cell::Text("c")]);
        encode_row(&mut b, 1, 1, &[Cell::Text("a"), Cell::Text("bc")]);
        assert_ne!(a, b);
    }
}
