//! Corrections. A row is never changed: an amendment says what one of its values is read as from
//! now on, why, and by whom; typed reads apply the newest one. A row's name cannot be amended
//! (other rows, files and reports speak of it by that name: exclude it and enter it anew), nor
//! can what the program derives.

use super::act::{Act, AmendmentIn, check_value, place_of};
use super::backend::{Filter, Query};
use super::{Cell, StoreError};
use crate::schema::{Kind, TABLES, Table};

pub(crate) fn amend(act: &mut Act, amendment: &AmendmentIn) -> Result<i64, StoreError> {
    let table = &TABLES[place_of(amendment.table)?];
    let place = amendable(table, amendment.column)?;
    let new = parsed(table, place, amendment.new)?;
    check_value(table, place, &new)?;
    if let (Kind::Row(other), Cell::Integer(row)) = (table.columns[place].kind, new) {
        act.check_row(table, place, row, place_of(other)?)?;
    }
    let old = present(act, table, amendment)?;
    act.insert(
        "amendment",
        &[
            table.name.into(),
            amendment.row.into(),
            amendment.column.into(),
            old.as_deref().into(),
            amendment.new.into(),
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
