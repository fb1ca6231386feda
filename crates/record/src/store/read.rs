//! Typed reads: from the cells of a row to a plain struct of `model`.

use super::backend::{Cells, Filter, Query, Reading};
use super::{Cell, StoreError};
use crate::schema::Table;

/// A struct that rows of a table read back as.
pub trait Typed: Sized {
    /// The table, where the struct speaks of one table only.
    const TABLE: &'static str;
    /// Paths of its fields, `"id"` first.
    const PATHS: &'static [&'static str];
    /// From the values at these paths.
    ///
    /// # Errors
    /// A value that the field cannot hold.
    fn from_row(row: &RowRead) -> Result<Self, StoreError>;
}

/// One row on its way to a struct.
pub struct RowRead<'r> {
    table: &'static Table,
    paths: &'static [&'static str],
    cells: &'r dyn Cells,
}

impl RowRead<'_> {
    /// The value of one field.
    ///
    /// # Errors
    /// A value that the field cannot hold.
    pub fn get<T: FromCell>(&self, place: usize) -> Result<T, StoreError> {
        let cell = self.cells.cell(place);
        T::from_cell(&cell).ok_or_else(|| StoreError::Stored {
            table: self.table.name,
            row: match self.cells.cell(0) {
                Cell::Integer(id) => id,
                _ => 0,
            },
            column: self.paths[place],
            found: cell.describe(),
            expected: T::EXPECTED,
        })
    }
}

/// A field's type.
pub trait FromCell: Sized {
    /// What it is, for messages.
    const EXPECTED: &'static str;
    /// From a cell, where it fits.
    fn from_cell(cell: &Cell) -> Option<Self>;
}

macro_rules! from_cell {
    ($($ty:ty, $expected:literal, $pattern:pat => $value:expr;)+) => { $(
        impl FromCell for $ty {
            const EXPECTED: &'static str = $expected;
            fn from_cell(cell: &Cell) -> Option<Self> {
                match cell { $pattern => $value, _ => None }
            }
        }
    )+ };
}
from_cell! {
    i64, "a whole number", Cell::Integer(i) => Some(*i);
    bool, "0, or 1 for yes", Cell::Integer(i) => Some(*i != 0);
    f64, "a number", Cell::Real(x) => Some(*x);
    String, "text", Cell::Text(t) => Some((*t).to_owned());
    Vec<u8>, "bytes", Cell::Blob(b) => Some(b.to_vec());
    [u8; 32], "32 bytes", Cell::Blob(b) => (*b).try_into().ok();
    serde_json::Value, "JSON", Cell::Text(t) => serde_json::from_str(t).ok();
    Vec<f64>, "JSON, an array of numbers", Cell::Text(t) => serde_json::from_str(t).ok();
    Vec<String>, "JSON, an array of texts", Cell::Text(t) => serde_json::from_str(t).ok();
    Vec<quantity::Compared>, "JSON, numbers compared", Cell::Text(t) => serde_json::from_str(t).ok();
    quantity::Outcome, "an outcome", Cell::Text(t) => word(t);
    quantity::Stage, "a stage of the path", Cell::Text(t) => word(t);
}

/// A word that serde knows.
fn word<T: serde::de::DeserializeOwned>(text: &str) -> Option<T> {
    serde_json::from_value(serde_json::Value::String(text.into())).ok()
}

impl<T: FromCell> FromCell for Option<T> {
    const EXPECTED: &'static str = T::EXPECTED;
    fn from_cell(cell: &Cell) -> Option<Self> {
        match cell {
            Cell::Null => Some(None),
            other => T::from_cell(other).map(Some),
        }
    }
}

/// Calls `each` with every row, in the order of ids, amendments applied.
pub(crate) fn each_from<T: Typed>(
    reading: &dyn Reading,
    table: &'static Table,
    filter: &Filter,
    mut each: impl FnMut(T) -> Result<(), StoreError>,
) -> Result<(), StoreError> {
    let query = Query { table, paths: T::PATHS, filter, amended: true };
    reading.select(&query, &mut |cells| each(T::from_row(&RowRead { table, paths: T::PATHS, cells })?))
}

/// All rows as structs.
pub(crate) fn list_from<T: Typed>(
    reading: &dyn Reading,
    table: &'static Table,
    filter: &Filter,
) -> Result<Vec<T>, StoreError> {
    let mut out = vec![];
    each_from(reading, table, filter, |row| {
        out.push(row);
        Ok(())
    })?;
    Ok(out)
}
