//! Corrections. A row is never changed: an amendment says what one of its values is read as from
//! now on, why, and by whom; typed reads apply the newest one. A row's name cannot be amended by itself
//! (other rows, files and reports speak of it by that name: exclude it and enter it anew), nor
//! can what the program derives.

use super::act::{Act, AmendmentIn, check_value, place_of};
use super::backend::{Filter, Query};
use super::{Cell, StoreError};
use crate::schema::{Kind, TABLES, Table};

/// What stands as the column of an amendment by which a whole row is read as another.
pub(crate) const ROW: &str = "id";

pub(crate) fn amend(act: &mut Act, amendment: &AmendmentIn) -> Result<i64, StoreError> {
    let table = &TABLES[place_of(amendment.table)?];
    let place = amendable(table, amendment.column)?;
    write(act, amendment, table, place)
}

/// As [`amend`], also of a column of the row's name: where two names of one thing become one, every row of the old name
/// is read by the new one. Whoever calls sees to it that no two rows then read as the same.
pub(crate) fn rename(act: &mut Act, amendment: &AmendmentIn) -> Result<i64, StoreError> {
    let table = &TABLES[place_of(amendment.table)?];
    let unknown = || StoreError::UnknownColumn { table: table.name.into(), column: amendment.column.into() };
    let place = table.place(amendment.column).ok_or_else(unknown)?;
    write(act, amendment, table, place)
}

/// A row is read as another one of its table from now on: lists pass it over, and it stays as it was written.
pub(crate) fn read_as(act: &mut Act, amendment: &AmendmentIn, other: i64) -> Result<i64, StoreError> {
    let at = place_of(amendment.table)?;
    // The place is for a message alone, and the number of a row stands before all columns.
    act.check_row(&TABLES[at], 0, amendment.row, at)?;
    act.check_row(&TABLES[at], 0, other, at)?;
    let (old, new) = (amendment.row.to_string(), other.to_string());
    keep(act, amendment, ROW, (Some(&old), Some(&new)))
}

fn write(act: &mut Act, amendment: &AmendmentIn, table: &'static Table, place: usize) -> Result<i64, StoreError> {
    let new = parsed(table, place, amendment.new)?;
    check_value(table, place, &new)?;
    if let (Kind::Row(other), Cell::Integer(row)) = (table.columns[place].kind, new) {
        act.check_row(table, place, row, place_of(other)?)?;
    }
    let old = present(act, table, amendment)?;
    keep(act, amendment, amendment.column, (old.as_deref(), amendment.new))
}

fn keep(
    act: &mut Act,
    amendment: &AmendmentIn,
    column: &str,
    (old, new): (Option<&str>, Option<&str>),
) -> Result<i64, StoreError> {
    act.insert(
        "amendment",
        &[
            amendment.table.into(),
            amendment.row.into(),
            column.into(),
            old.into(),
            new.into(),
            amendment.why.into(),
            amendment.person.into(),
        ],
    )
}

fn amendable(table: &'static Table, column: &str) -> Result<usize, StoreError> {
    let place = table
        .place(column)
        .ok_or_else(|| StoreError::UnknownColumn { table: table.name.into(), column: column.into() })?;
    let why = if table.is_key(column) {
        "it is part of the row's name: exclude the row and enter it anew"
    } else if !table.from_files || table.name == "amendment" {
        "the program derives it: amend what it is derived from"
    } else if table.columns[place].kind == Kind::Blob {
        "bytes are kept as they came"
    } else {
        return Ok(place);
    };
    Err(StoreError::NotAmendable { table: table.name.into(), column: column.into(), why })
}

/// The new value, from text.
fn parsed<'a>(table: &'static Table, place: usize, new: Option<&'a str>) -> Result<Cell<'a>, StoreError> {
    let Some(text) = new else { return Ok(Cell::Null) };
    let column = &table.columns[place];
    let refused = |expected: &str| StoreError::Value {
        table: table.name,
        column: column.name,
        found: format!("{text:?}"),
        expected: expected.into(),
    };
    match column.kind {
        Kind::Integer | Kind::Row(_) => text.parse().map(Cell::Integer).map_err(|_| refused("a whole number")),
        Kind::Real => text.parse().map(Cell::Real).map_err(|_| refused("a number")),
        _ => Ok(Cell::Text(text)),
    }
}

/// The value as it is read now, as text.
fn present(act: &Act, table: &'static Table, amendment: &AmendmentIn) -> Result<Option<String>, StoreError> {
    let filter = Filter::all().is("id", amendment.row);
    let query = Query { table, paths: &[amendment.column], filter: &filter, amended: true };
    let mut found = None;
    act.reading().select(&query, &mut |row| {
        found = Some(match row.cell(0) {
            Cell::Text(t) => Some(t.to_owned()),
            Cell::Integer(i) => Some(i.to_string()),
            Cell::Real(x) => Some(x.to_string()),
            Cell::Null | Cell::Blob(_) => None,
        });
        Ok(())
    })?;
    found.ok_or_else(|| StoreError::NoRow { table: table.name, key: amendment.row.to_string() })
}
