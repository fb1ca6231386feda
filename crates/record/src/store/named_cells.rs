//! The cells of a row that is written, set by column name.

use super::{Act, Cell, StoreError};
use crate::schema::{self, Table};

/// Cells of one row, set by column name; the rest stays empty. A table or column that the record does not have is a
/// mistake of the program: it stops.
pub struct NamedCells<'a> {
    table: &'static Table,
    cells: Vec<Cell<'a>>,
}

impl<'a> NamedCells<'a> {
    /// An empty row of a table.
    pub fn new(table: &str) -> Self {
        let table = schema::table(table).expect("a table of the record");
        Self { table, cells: vec![Cell::Null; table.columns.len()] }
    }

    /// Any cell.
    pub fn set(&mut self, column: &str, cell: Cell<'a>) -> &mut Self {
        let place = self.table.place(column).expect("a column of the table");
        self.cells[place] = cell;
        self
    }

    /// A whole number.
    pub fn integer(&mut self, column: &str, value: i64) -> &mut Self {
        self.set(column, Cell::Integer(value))
    }

    /// A number. One that is none (no limit can be given) is an empty cell, not a NaN in the record.
    pub fn real(&mut self, column: &str, value: Option<f64>) -> &mut Self {
        self.set(column, value.filter(|v| v.is_finite()).map_or(Cell::Null, Cell::Real))
    }

    /// A text.
    pub fn text(&mut self, column: &str, value: &'a str) -> &mut Self {
        self.set(column, Cell::Text(value))
    }

    /// Writes the row; its id.
    ///
    /// # Errors
    /// As [`Act::insert`].
    pub fn insert(&self, act: &mut Act) -> Result<i64, StoreError> {
        act.insert(self.table.name, &self.cells)
    }
}
