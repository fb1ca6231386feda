//! Tables as Parquet files, column by column, for programs that read many rows at once.
//!
//! In: named columns of text, whole numbers or numbers, and their values row by row, where any
//! value may be missing. Out: one Parquet file on any writer, in groups of 8,192 rows, so that
//! memory does not grow with the table. Texts go through a dictionary; pages are packed by gzip
//! (RFC 1952), which every reader of the format and every language's own library undoes. Text
//! carries the logical type String; a missing value is null, never an empty text or a NaN. Same
//! input, same bytes: no date and no name of a machine goes in.
//!
//! The format is Apache Parquet's; it is written by the `parquet` crate without Arrow. What this
//! room adds is the row-by-row way in, and the kinds. What it does not do: no nested values, no
//! reading. Checked in `tests/reads_back.rs` by the crate's own reader.

use parquet::basic::{Compression, GzipLevel, LogicalType, Repetition, Type as Physical};
use parquet::data_type::{ByteArray, ByteArrayType, DoubleType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::metadata::KeyValue;
use parquet::file::properties::{EnabledStatistics, WriterProperties};
use parquet::file::writer::SerializedFileWriter;
use parquet::schema::types::{ColumnPath, Type};
use std::collections::HashMap;
use std::io::Write;
use std::sync::Arc;

/// Rows of one group.
const GROUP: usize = 8192;

/// How hard pages are packed, 0 to 9: beyond this little is won for the time (on the package of the demo and of 200,000
/// results).
const PACKING: u32 = 3;

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
    /// The writer below failed, or a group is more than the format holds.
    #[error("writing the Parquet file")]
    Parquet(#[from] ParquetError),
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
}

/// The values of one column in the group that is being filled.
enum Values {
    /// With the texts of the group, each held once.
    Text(Vec<ByteArray>, HashMap<Box<str>, ByteArray>),
    Whole(Vec<i64>),
    Number(Vec<f64>),
}

struct Column {
    values: Values,
    /// 1 where there is a value, 0 where there is none.
    there: Vec<i16>,
}

impl Column {
    fn empty(kind: Kind) -> Self {
        let values = match kind {
            Kind::Text => Values::Text(vec![], HashMap::new()),
            Kind::Whole => Values::Whole(vec![]),
            Kind::Number => Values::Number(vec![]),
        };
        Self { values, there: vec![] }
    }
}

/// A Parquet file in the making.
pub struct Writer<W: Write + Send> {
    file: SerializedFileWriter<W>,
    fields: Vec<Field>,
    columns: Vec<Column>,
    column: usize,
    rows: i64,
}

impl<W: Write + Send> Writer<W> {
    /// Begins a table. `about` goes into the file's metadata.
    ///
    /// # Errors
    /// The writer fails.
    pub fn new(to: W, fields: Vec<Field>, about: &[(&str, &str)]) -> Result<Self, Error> {
        let types = fields.iter().map(schema_of).collect::<Result<Vec<_>, _>>()?;
        let schema = Type::group_type_builder("table").with_fields(types).build()?;
        let about = about.iter().map(|(k, v)| KeyValue::new((*k).to_owned(), (*v).to_owned()));
        let units = fields.iter().filter(|f| !f.unit.is_empty());
        let units = units.map(|f| KeyValue::new(format!("unit:{}", f.name), f.unit.clone()));
        // Numbers hardly repeat: a dictionary of them would only stand beside them.
        let numbers = fields.iter().filter(|f| f.kind != Kind::Text);
        let properties = numbers.fold(WriterProperties::builder(), |p, f| {
            p.set_column_dictionary_enabled(ColumnPath::from(f.name.as_str()), false)
        });
        let properties = properties
            .set_created_by("limpid".into())
            .set_compression(Compression::GZIP(GzipLevel::try_new(PACKING)?))
            .set_statistics_enabled(EnabledStatistics::None)
            .set_key_value_metadata(Some(about.chain(units).collect()))
            .build();
        let file = SerializedFileWriter::new(to, Arc::new(schema), Arc::new(properties))?;
        let columns = fields.iter().map(|f| Column::empty(f.kind)).collect();
        Ok(Self { file, fields, columns, column: 0, rows: 0 })
    }

    /// The next value of the row.
    ///
    /// # Errors
    /// [`Error::Kind`], [`Error::Ragged`].
    pub fn push(&mut self, value: Value) -> Result<(), Error> {
        let Some(column) = self.columns.get_mut(self.column) else {
            return Err(Error::Ragged { row: self.rows + 1, found: self.column + 1, expected: self.columns.len() });
        };
        match (&mut column.values, value) {
            (_, Value::Null) => {}
            (Values::Text(values, known), Value::Text(text)) => {
                // Many columns say the same row after row: that is known without asking the table.
                if let Some(same) = values.last().filter(|last| last.data() == text.as_bytes()) {
                    let same = same.clone();
                    values.push(same);
                } else if let Some(held) = known.get(text) {
                    values.push(held.clone());
                } else {
                    let held = ByteArray::from(text.as_bytes().to_vec());
                    known.insert(text.into(), held.clone());
                    values.push(held);
                }
            }
            (Values::Whole(values), Value::Whole(n)) => values.push(n),
            (Values::Number(values), Value::Number(x)) => values.push(x),
            _ => return Err(Error::Kind { row: self.rows + 1, column: self.fields[self.column].name.clone() }),
        }
        column.there.push(i16::from(value != Value::Null));
        self.column += 1;
        Ok(())
    }

    /// Ends the row.
    ///
    /// # Errors
    /// [`Error::Ragged`]; the writer fails.
    pub fn end_row(&mut self) -> Result<(), Error> {
        self.rows += 1;
        if self.column != self.columns.len() {
            return Err(Error::Ragged { row: self.rows, found: self.column, expected: self.columns.len() });
        }
        self.column = 0;
        if self.columns.first().is_some_and(|c| c.there.len() == GROUP) { self.group() } else { Ok(()) }
    }

    /// Writes the group of rows that is there.
    fn group(&mut self) -> Result<(), Error> {
        let mut group = self.file.next_row_group()?;
        for (column, field) in self.columns.iter_mut().zip(&self.fields) {
            let Column { values, there } = std::mem::replace(column, Column::empty(field.kind));
            let Some(mut to) = group.next_column()? else { break };
            let there = Some(there.as_slice());
            match values {
                Values::Text(v, _) => to.typed::<ByteArrayType>().write_batch(&v, there, None)?,
                Values::Whole(v) => to.typed::<Int64Type>().write_batch(&v, there, None)?,
                Values::Number(v) => to.typed::<DoubleType>().write_batch(&v, there, None)?,
            };
            to.close()?;
        }
        group.close()?;
        Ok(())
    }

    /// Ends the table; answers the writer.
    ///
    /// # Errors
    /// The writer fails.
    pub fn finish(mut self) -> Result<W, Error> {
        if self.columns.iter().any(|c| !c.there.is_empty()) {
            self.group()?;
        }
        Ok(self.file.into_inner()?)
    }
}

fn schema_of(field: &Field) -> Result<Arc<Type>, Error> {
    let (physical, logical) = match field.kind {
        Kind::Text => (Physical::BYTE_ARRAY, Some(LogicalType::String)),
        Kind::Whole => (Physical::INT64, None),
        Kind::Number => (Physical::DOUBLE, None),
    };
    let built = Type::primitive_type_builder(&field.name, physical)
        .with_repetition(Repetition::OPTIONAL)
        .with_logical_type(logical)
        .build()?;
    Ok(Arc::new(built))
}
