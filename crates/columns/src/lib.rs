//! Tables as Parquet files, column by column, for programs that read many rows at once.
//!
//! In: named columns of text, whole numbers or numbers, and their values row by row, where any
//! value may be missing. Out: one Parquet file (format version 1) on any writer, in groups of 65,536
//! rows, so that memory does not grow with the table. Texts go through a dictionary of their group;
//! nothing is compressed. Text carries the logical type String; a missing value is null, never an
//! empty text or a NaN. Same input, same bytes: no date and no name of a machine goes in.
//!
//! What it does not do: no nested values, no statistics, no reading. The format is Apache Parquet's
//! (parquet-format, "File Layout", "Encodings" and the Thrift definition, from memory); it is written
//! here because the general library costs a rebuild of much else. Checked in `tests/reads_back.rs` by
//! a small reader, and by pyarrow: the file `tests/data/checked.parquet` is one that it read.

mod runs;
mod thrift;

use std::collections::HashMap;
use std::io::{self, Write};
use thrift::Struct;

/// Rows of one group.
const GROUP: usize = 65_536;

/// Marks the beginning and the end of the file.
const MAGIC: &[u8] = b"PAR1";

// Numbers of parquet.thrift (from memory).
const PLAIN: i32 = 0;
const RLE: i32 = 3;
const RLE_DICTIONARY: i32 = 8;
const DATA_PAGE: i32 = 0;
const DICTIONARY_PAGE: i32 = 2;
const OPTIONAL: i32 = 1;
const UTF8: i32 = 0;
const UNCOMPRESSED: i32 = 0;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// UTF-8 text.
    Text,
    /// 64-bit whole numbers.
    Whole,
    /// IEEE 754 binary64.
    Number,
}

impl Kind {
    /// The physical type's number.
    fn physical(self) -> i32 {
        match self {
            Self::Whole => 2,
            Self::Number => 5,
            Self::Text => 6,
        }
    }
}

/// A column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Field {
    /// Name.
    pub name: String,
    /// What it holds.
    pub kind: Kind,
    /// UCUM code of its unit, kept in the file's metadata as `unit:NAME`; empty where there is none.
    pub unit: String,
}

/// One value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Value<'a> {
    /// Nothing.
    Null,
    /// Text.
    Text(&'a str),
    /// Whole number.
    Whole(i64),
    /// Number.
    Number(f64),
}

/// Why a table could not be written.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// The writer below failed.
    #[error("writing the Parquet file")]
    Io(#[from] io::Error),
    /// A row that is not as wide as the table.
    #[error("row {row} of the Parquet table has {found} values, {expected} columns were declared")]
    Ragged {
        /// Row, from 1.
        row: i64,
        /// Values given.
        found: usize,
        /// Columns.
        expected: usize,
    },
    /// A value that is not of its column's kind.
    #[error("row {row}, column {column}: not a value of the declared kind")]
    Kind {
        /// Row, from 1.
        row: i64,
        /// Column.
        column: String,
    },
    /// More bytes in one column of 65,536 rows than a page can say.
    #[error("column {column}: more than 2 GiB of text in one group of rows")]
    Large {
        /// Column.
        column: String,
    },
}

/// The texts of one column in the group that is being filled.
#[derive(Default)]
struct Texts {
    numbers: HashMap<Box<str>, u32>,
    /// The dictionary as it is written: length and bytes of each text.
    dictionary: Vec<u8>,
    indices: Vec<u32>,
    last: Option<(Box<str>, u32)>,
}

impl Texts {
    fn push(&mut self, text: &str) {
        if let Some((last, number)) = &self.last
            && **last == *text
        {
            self.indices.push(*number);
            return;
        }
        let number = if let Some(number) = self.numbers.get(text) {
            *number
        } else {
            let number = self.numbers.len() as u32;
            self.numbers.insert(text.into(), number);
            self.dictionary.extend_from_slice(&(text.len() as u32).to_le_bytes());
            self.dictionary.extend_from_slice(text.as_bytes());
            number
        };
        self.indices.push(number);
        self.last = Some((text.into(), number));
    }
}

/// The values of one column in the group that is being filled.
enum Values {
    Text(Texts),
    /// Whole numbers and numbers as they are written, eight bytes each.
    Fixed(Vec<u8>),
}

struct Column {
    values: Values,
    /// 1 where there is a value, 0 where there is none.
    there: Vec<u32>,
}

/// Where a column of a group stands.
struct Chunk {
    dictionary_at: Option<i64>,
    data_at: i64,
    bytes: i64,
}

/// A Parquet file in the making.
pub struct Writer<W: Write> {
    to: W,
    at: i64,
    fields: Vec<Field>,
    about: Vec<(String, String)>,
    columns: Vec<Column>,
    column: usize,
    rows: i64,
    groups: Vec<Struct>,
}

impl<W: Write> Writer<W> {
    /// Begins a table. `about` goes into the file's metadata.
    ///
    /// # Errors
    /// The writer fails.
    pub fn new(mut to: W, fields: Vec<Field>, about: &[(&str, &str)]) -> Result<Self, Error> {
        to.write_all(MAGIC)?;
        let columns = fields.iter().map(|f| empty(f.kind)).collect();
        let units = fields.iter().filter(|f| !f.unit.is_empty());
        let units = units.map(|f| (format!("unit:{}", f.name), f.unit.clone()));
        let about = about.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).chain(units).collect();
        Ok(Self { to, at: long(MAGIC.len()), fields, about, columns, column: 0, rows: 0, groups: vec![] })
    }

    /// The next value of the row.
    ///
    /// # Errors
    /// [`Error::Kind`], [`Error::Ragged`].
    pub fn push(&mut self, value: Value) -> Result<(), Error> {
        let Some(column) = self.columns.get_mut(self.column) else {
            return Err(Error::Ragged { row: self.rows + 1, found: self.column + 1, expected: self.columns.len() });
        };
        match (&mut column.values, self.fields[self.column].kind, value) {
            (_, _, Value::Null) => {}
            (Values::Text(texts), _, Value::Text(t)) => texts.push(t),
            (Values::Fixed(bytes), Kind::Whole, Value::Whole(n)) => bytes.extend_from_slice(&n.to_le_bytes()),
            (Values::Fixed(bytes), Kind::Number, Value::Number(x)) => bytes.extend_from_slice(&x.to_le_bytes()),
            _ => return Err(Error::Kind { row: self.rows + 1, column: self.fields[self.column].name.clone() }),
        }
        column.there.push(u32::from(value != Value::Null));
        self.column += 1;
        Ok(())
    }

    /// Ends the row.
    ///
    /// # Errors
    /// [`Error::Ragged`], [`Error::Large`]; the writer fails.
    pub fn end_row(&mut self) -> Result<(), Error> {
        self.rows += 1;
        if self.column != self.columns.len() {
            return Err(Error::Ragged { row: self.rows, found: self.column, expected: self.columns.len() });
        }
        self.column = 0;
        if self.columns.first().is_some_and(|c| c.there.len() == GROUP) { self.group() } else { Ok(()) }
    }

    /// Writes the group of rows that is there, and where it stands.
    fn group(&mut self) -> Result<(), Error> {
        let rows = long(self.columns.first().map_or(0, |c| c.there.len()));
        let (mut chunks, mut total) = (vec![], 0);
        for at in 0..self.columns.len() {
            let column = std::mem::replace(&mut self.columns[at], empty(self.fields[at].kind));
            let chunk = self.chunk(&column, at)?;
            total += chunk.bytes;
            chunks.push(about_chunk(&self.fields[at], &chunk, rows));
        }
        self.groups.push(Struct::default().structs(1, chunks).i64(2, total).i64(3, rows));
        Ok(())
    }

    fn chunk(&mut self, column: &Column, at: usize) -> Result<Chunk, Error> {
        let begin = self.at;
        let levels = {
            let mut out = vec![0; 4];
            runs::encode(&mut out, &column.there, 1);
            let bytes = (out.len() - 4) as u32;
            out[..4].copy_from_slice(&bytes.to_le_bytes());
            out
        };
        let rows = short(column.there.len());
        let data = |encoding| Struct::default().i32(1, rows).i32(2, encoding).i32(3, RLE).i32(4, RLE);
        match &column.values {
            Values::Text(texts) => {
                let distinct = texts.numbers.len();
                let about = Struct::default().i32(1, short(distinct)).i32(2, PLAIN);
                self.page(at, DICTIONARY_PAGE, (7, about), &[&texts.dictionary])?;
                let data_at = self.at;
                let width = runs::width(distinct.saturating_sub(1) as u32);
                let mut indices = vec![width as u8];
                runs::encode(&mut indices, &texts.indices, width);
                self.page(at, DATA_PAGE, (5, data(RLE_DICTIONARY)), &[&levels, &indices])?;
                Ok(Chunk { dictionary_at: Some(begin), data_at, bytes: self.at - begin })
            }
            Values::Fixed(bytes) => {
                self.page(at, DATA_PAGE, (5, data(PLAIN)), &[&levels, bytes])?;
                Ok(Chunk { dictionary_at: None, data_at: begin, bytes: self.at - begin })
            }
        }
    }

    fn page(&mut self, at: usize, kind: i32, about: (u8, Struct), parts: &[&[u8]]) -> Result<(), Error> {
        let size: usize = parts.iter().map(|p| p.len()).sum();
        let size = i32::try_from(size).map_err(|_| Error::Large { column: self.fields[at].name.clone() })?;
        let header = Struct::default().i32(1, kind).i32(2, size).i32(3, size).of(about.0, about.1).bytes();
        for part in std::iter::once(header.as_slice()).chain(parts.iter().copied()) {
            self.to.write_all(part)?;
            self.at += long(part.len());
        }
        Ok(())
    }

    /// Ends the table; answers the writer.
    ///
    /// # Errors
    /// [`Error::Large`]; the writer fails.
    pub fn finish(mut self) -> Result<W, Error> {
        if self.columns.iter().any(|c| !c.there.is_empty()) {
            self.group()?;
        }
        let root = Struct::default().text(4, "table").i32(5, short(self.fields.len()));
        let schema = std::iter::once(root).chain(self.fields.iter().map(about_field)).collect();
        let pair = |(key, value): &(String, String)| Struct::default().text(1, key).text(2, value);
        let about = self.about.iter().map(pair).collect();
        let footer = Struct::default()
            .i32(1, 1)
            .structs(2, schema)
            .i64(3, self.rows)
            .structs(4, self.groups)
            .structs(5, about)
            .text(6, "limpid")
            .bytes();
        self.to.write_all(&footer)?;
        self.to.write_all(&(footer.len() as u32).to_le_bytes())?;
        self.to.write_all(MAGIC)?;
        Ok(self.to)
    }
}

/// A length in bytes or rows.
fn long(n: usize) -> i64 {
    i64::try_from(n).expect("a length in memory is under 2^63")
}

/// A number of columns, or of rows of one group.
fn short(n: usize) -> i32 {
    i32::try_from(n).expect("a group has at most 65,536 rows, and a table fewer columns")
}

fn empty(kind: Kind) -> Column {
    let values = if kind == Kind::Text { Values::Text(Texts::default()) } else { Values::Fixed(vec![]) };
    Column { values, there: vec![] }
}

fn about_field(field: &Field) -> Struct {
    let out = Struct::default().i32(1, field.kind.physical()).i32(3, OPTIONAL).text(4, &field.name);
    match field.kind {
        // Both the older mark and the newer logical type (the first of its union).
        Kind::Text => out.i32(6, UTF8).of(10, Struct::default().of(1, Struct::default())),
        _ => out,
    }
}

fn about_chunk(field: &Field, chunk: &Chunk, rows: i64) -> Struct {
    let encodings: &[i32] = if chunk.dictionary_at.is_some() { &[PLAIN, RLE, RLE_DICTIONARY] } else { &[PLAIN, RLE] };
    let mut about = Struct::default()
        .i32(1, field.kind.physical())
        .i32s(2, encodings)
        .texts(3, &[&field.name])
        .i32(4, UNCOMPRESSED)
        .i64(5, rows)
        .i64(6, chunk.bytes)
        .i64(7, chunk.bytes)
        .i64(9, chunk.data_at);
    if let Some(at) = chunk.dictionary_at {
        about = about.i64(11, at);
    }
    Struct::default().i64(2, chunk.dictionary_at.unwrap_or(chunk.data_at)).of(3, about)
}
