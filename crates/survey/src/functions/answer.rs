//! Answers of many groups as one struct array, column by column.

use datafusion::arrow::array::{ArrayRef, Float64Array, Int64Array, StringArray, StructArray};
use datafusion::arrow::datatypes::{DataType, Field, Fields};
use datafusion::common::Result;
use std::sync::Arc;

/// Type of a field of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// A count.
    Count,
    /// A number, absent where there is none.
    Number,
    /// A text, absent where there is none.
    Text,
}

/// The fields of an answer.
pub type Layout = &'static [(&'static str, Of)];

/// One answer's values in the order of its layout.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A count.
    Count(Option<i64>),
    /// A number; what is not finite is absent.
    Number(Option<f64>),
    /// A text.
    Text(Option<String>),
}

impl From<usize> for Value {
    fn from(n: usize) -> Self {
        Self::Count(i64::try_from(n).ok())
    }
}

impl From<f64> for Value {
    fn from(x: f64) -> Self {
        Self::Number(Some(x).filter(|x| x.is_finite()))
    }
}

impl From<Option<f64>> for Value {
    fn from(x: Option<f64>) -> Self {
        Self::Number(x.filter(|x| x.is_finite()))
    }
}

impl From<Option<String>> for Value {
    fn from(t: Option<String>) -> Self {
        Self::Text(t)
    }
}

/// The struct type of a layout.
pub fn data_type(layout: Layout) -> DataType {
    DataType::Struct(fields(layout))
}

/// The fields of a layout.
pub fn fields(layout: Layout) -> Fields {
    layout
        .iter()
        .map(|(name, of)| {
            let t = match of {
                Of::Count => DataType::Int64,
                Of::Number => DataType::Float64,
                Of::Text => DataType::Utf8,
            };
            Field::new(*name, t, true)
        })
        .collect()
}

/// Answers, one a row, as a struct array.
///
/// # Errors
/// A row that does not follow the layout.
pub fn array(layout: Layout, rows: Vec<Vec<Value>>) -> Result<ArrayRef> {
    let mut columns: Vec<Vec<Value>> = layout.iter().map(|_| Vec::with_capacity(rows.len())).collect();
    for row in rows {
        for (column, value) in columns.iter_mut().zip(row) {
            column.push(value);
        }
    }
    let arrays = layout
        .iter()
        .zip(columns)
        .map(|((_, of), column)| -> ArrayRef {
            match of {
                Of::Count => Arc::new(
                    column.into_iter().map(|v| if let Value::Count(n) = v { n } else { None }).collect::<Int64Array>(),
                ),
                Of::Number => Arc::new(
                    column
                        .into_iter()
                        .map(|v| if let Value::Number(x) = v { x } else { None })
                        .collect::<Float64Array>(),
                ),
                Of::Text => Arc::new(
                    column.into_iter().map(|v| if let Value::Text(t) = v { t } else { None }).collect::<StringArray>(),
                ),
            }
        })
        .collect();
    Ok(Arc::new(StructArray::try_new(fields(layout), arrays, None)?))
}
