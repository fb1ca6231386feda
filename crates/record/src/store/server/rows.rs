//! Values between the server and the store, in the server's binary form: whole numbers and
//! numbers of 8 bytes, texts and bytes as they are.

use crate::schema::{Kind, Table, table};
use crate::store::Cell;
use crate::store::backend::Cells;
use bytes::BytesMut;
use postgres::fallible_iterator::FallibleIterator as _;
use postgres::types::{FromSql, IsNull, ToSql, Type, to_sql_checked};
use postgres::{Client, Row, Statement};
use std::error::Error;

/// Rows fetched at a time.
pub(super) const PAGE: usize = 2000;

/// Rows fetched at a time where they hold bytes of raw files (up to 4 MiB each).
pub(super) const HEAVY_PAGE: usize = 4;

/// Answers up to so many rows are read in one go.
const SHORT: usize = 20_000;

/// A question.
pub(super) struct Ask<'a> {
    pub text: &'a str,
    pub values: &'a [Cell<'a>],
    /// Whether it asks for bytes.
    pub heavy: bool,
    /// Whether it says itself how many rows at most.
    pub ends_itself: bool,
}

impl ToSql for Cell<'_> {
    fn to_sql(&self, ty: &Type, out: &mut BytesMut) -> Result<IsNull, Box<dyn Error + Sync + Send>> {
        match (self, ty) {
            (Cell::Null, _) => Ok(IsNull::Yes),
            (Cell::Integer(i), &Type::FLOAT8) => (*i as f64).to_sql(ty, out),
            (Cell::Integer(i), &Type::TEXT) => i.to_string().to_sql(ty, out),
            (Cell::Integer(i), &Type::INT8) => i.to_sql(ty, out),
            (Cell::Real(x), &Type::FLOAT8) => x.to_sql(ty, out),
            (Cell::Text(t), &Type::TEXT) => t.to_sql(ty, out),
            (Cell::Blob(b), &Type::BYTEA) => b.to_sql(ty, out),
            (cell, _) => Err(format!("{} where a column of type {ty} is asked", cell.describe()).into()),
        }
    }

    fn accepts(_: &Type) -> bool {
        true
    }

    to_sql_checked!();
}

/// A value as it came.
struct Raw<'a>(Cell<'a>);

impl<'a> FromSql<'a> for Raw<'a> {
    fn from_sql(ty: &Type, raw: &'a [u8]) -> Result<Self, Box<dyn Error + Sync + Send>> {
        Ok(Self(match *ty {
            Type::INT8 => Cell::Integer(i64::from_sql(ty, raw)?),
            Type::INT4 => Cell::Integer(i32::from_sql(ty, raw)?.into()),
            Type::INT2 => Cell::Integer(i16::from_sql(ty, raw)?.into()),
            Type::FLOAT8 => Cell::Real(f64::from_sql(ty, raw)?),
            Type::TEXT | Type::VARCHAR => Cell::Text(<&str>::from_sql(ty, raw)?),
            // A type that the program did not make: as bytes it fails its digest.
            _ => Cell::Blob(raw),
        }))
    }

    fn accepts(_: &Type) -> bool {
        true
    }
}

/// A row that was read.
pub(super) struct Values<'r>(pub &'r Row);

impl Cells for Values<'_> {
    fn cell(&self, place: usize) -> Cell<'_> {
        match self.0.try_get::<_, Option<Raw>>(place) {
            Ok(Some(Raw(cell))) => cell,
            Ok(None) | Err(_) => Cell::Null,
        }
    }
}

/// All rows of a short answer; `None` where it goes on.
pub(super) fn short(
    client: &mut Client,
    statement: &Statement,
    values: &[Cell],
) -> Result<Option<Vec<Row>>, postgres::Error> {
    let mut coming = client.query_raw(statement, values.iter().copied())?;
    let mut rows = vec![];
    while let Some(row) = coming.next()? {
        if rows.len() == SHORT {
            return Ok(None);
        }
        rows.push(row);
    }
    Ok(Some(rows))
}

/// Does a sentence that answers nothing.
pub(super) fn execute(client: &mut Client, statement: &Statement, values: &[Cell]) -> Result<(), postgres::Error> {
    let mut none = client.query_raw(statement, values.iter().copied())?;
    while none.next()?.is_some() {}
    Ok(())
}

/// What the column at the end of a path holds.
pub(super) fn column_of(from: &Table, path: &str) -> Option<Kind> {
    let (name, rest) = path.split_once('.').map_or((path, None), |(n, r)| (n, Some(r)));
    let kind = from.columns[from.place(name)?].kind;
    match (kind, rest) {
        (Kind::Row(other), Some(rest)) => column_of(table(other)?, rest),
        _ => Some(kind),
    }
}
