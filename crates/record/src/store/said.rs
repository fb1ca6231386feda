//! What the rows of a table say, apart from which rows they are: so that a row that is there already, word for word,
//! can be found where rows have no name.
//!
//! A row counts by what it said when it was written and by what it is read as after its amendments: the file as it
//! came and the file put right both find it. Each row is found once, so that equal rows stay as many as they are.

use super::act::{MOST_COLUMNS, fitted};
use super::backend::{Filter, Query, Reading};
use super::cell::encode_row;
use super::{Cell, StoreError};
use crate::model::{Amendment, Undone};
use crate::schema::Table;
use std::collections::{BTreeSet, HashMap};

/// Rows by what they say.
#[derive(Debug, Default)]
pub struct Said {
    rows: HashMap<[u8; 32], Vec<i64>>,
    found: BTreeSet<i64>,
}

impl Said {
    /// Of all rows of a table.
    pub(super) fn of(reading: &dyn Reading, table: &'static Table) -> Result<Self, StoreError> {
        let mut out = Self::default();
        out.read(reading, table, false)?;
        if !super::read::list_from::<Undone>(reading, named("undone"), &Filter::all().limit(1))?.is_empty() {
            out.keep_what_counts(reading, table)?;
        }
        let corrected = Filter::all().is("table_name", table.name).limit(1);
        if !super::read::list_from::<Amendment>(reading, named("amendment"), &corrected)?.is_empty() {
            out.read(reading, table, true)?;
        }
        Ok(out)
    }

    fn read(&mut self, reading: &dyn Reading, table: &'static Table, amended: bool) -> Result<(), StoreError> {
        let filter = Filter::all();
        let paths: Vec<&str> = std::iter::once("id").chain(table.columns.iter().map(|c| c.name)).collect();
        reading.select(&Query { table, paths: &paths, filter: &filter, amended }, &mut |row| {
            let mut cells = [Cell::Null; MOST_COLUMNS];
            for (place, cell) in cells.iter_mut().take(table.columns.len()).enumerate() {
                *cell = row.cell(place + 1);
            }
            if let Cell::Integer(id) = row.cell(0) {
                let same = self.rows.entry(digest(&cells[..table.columns.len()])).or_default();
                if same.last() != Some(&id) {
                    same.push(id);
                }
            }
            Ok(())
        })
    }

    /// What was read as written holds rows of undone acts too.
    fn keep_what_counts(&mut self, reading: &dyn Reading, table: &'static Table) -> Result<(), StoreError> {
        let (mut counting, filter) = (BTreeSet::new(), Filter::all());
        reading.select(&Query { table, paths: &["id"], filter: &filter, amended: true }, &mut |row| {
            if let Cell::Integer(id) = row.cell(0) {
                counting.insert(id);
            }
            Ok(())
        })?;
        for same in self.rows.values_mut() {
            same.retain(|id| counting.contains(id));
        }
        self.rows.retain(|_, same| !same.is_empty());
        Ok(())
    }

    /// A row that says this and was not found before.
    ///
    /// # Errors
    /// A table that the record does not have.
    pub fn take(&mut self, table: &'static Table, cells: &[Cell]) -> Result<Option<i64>, StoreError> {
        if self.rows.is_empty() {
            return Ok(None);
        }
        let kept = cells.iter().enumerate().map(|(place, c)| fitted(table, place, c)).collect::<Result<Vec<_>, _>>()?;
        let Some(same) = self.rows.get(&digest(&kept)) else { return Ok(None) };
        let free = same.iter().find(|id| !self.found.contains(id)).copied();
        self.found.extend(free);
        Ok(free)
    }

    /// Rows that nothing found: what they say stands on record alone.
    pub fn left(&self) -> BTreeSet<i64> {
        self.rows.values().flatten().filter(|id| !self.found.contains(id)).copied().collect()
    }
}

fn digest(cells: &[Cell]) -> [u8; 32] {
    let mut bytes = vec![];
    encode_row(&mut bytes, 0, 0, cells);
    *blake3::hash(&bytes).as_bytes()
}

fn named(table: &str) -> &'static Table {
    crate::schema::table(table).expect("a table of the record")
}
