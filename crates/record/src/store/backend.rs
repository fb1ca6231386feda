//! The narrow layer between the record and a database. Everything above it speaks of tables,
//! columns, paths and cells; a second kind of store joins by implementing these two traits.

use super::verify::Difference;
use super::{Cell, StoreError};
use crate::schema::Table;
use std::collections::BTreeSet;
use std::path::Path;
use std::time::Duration;

/// Values of one row that was read, in the order in which the query names them.
pub trait Cells {
    fn cell(&self, place: usize) -> Cell<'_>;
}

/// What is done with each row.
pub type Each<'a> = &'a mut dyn FnMut(&dyn Cells) -> Result<(), StoreError>;

/// Which rows to read.
///
/// A path names a column of the table, or through a reference a column of another row:
/// `"kind"`, `"trip.name"`, `"vial.run.name"`; `"id"` and `"event"` are there everywhere.
#[derive(Debug, Clone, Default)]
pub struct Filter<'a> {
    pub(crate) equal: Vec<(&'a str, Cell<'a>)>,
    pub(crate) present: Vec<&'a str>,
    pub(crate) latest: bool,
    pub(crate) after: Option<i64>,
    pub(crate) limit: Option<u64>,
}

impl<'a> Filter<'a> {
    /// All rows.
    pub fn all() -> Self {
        Self::default()
    }

    /// Only rows whose value at `path` is `value` ([`Cell::Null`]: only rows without a value).
    #[must_use]
    pub fn is(mut self, path: &'a str, value: impl Into<Cell<'a>>) -> Self {
        self.equal.push((path, value.into()));
        self
    }

    /// Only rows with a value at `path`.
    #[must_use]
    pub fn has(mut self, path: &'a str) -> Self {
        self.present.push(path);
        self
    }

    /// Only the highest revision (or version) of each name.
    #[must_use]
    pub fn latest(mut self) -> Self {
        self.latest = true;
        self
    }

    /// Only rows with a higher id: reading on from where a page ended.
    #[must_use]
    pub fn after(mut self, id: i64) -> Self {
        self.after = Some(id);
        self
    }

    /// At most so many rows.
    #[must_use]
    pub fn limit(mut self, rows: u64) -> Self {
        self.limit = Some(rows);
        self
    }
}

/// A read: `paths` of rows of `table`, in the order of their ids.
pub(crate) struct Query<'a> {
    pub table: &'static Table,
    pub paths: &'a [&'a str],
    pub filter: &'a Filter<'a>,
    /// Whether amendments are applied and rows of undone acts left out: yes for people, no for `verify` and raw dumps.
    pub amended: bool,
}

/// One link of the event chain as it stands.
pub(crate) struct EventRow<'a> {
    pub id: i64,
    pub body: &'a str,
    pub hash: &'a [u8],
}

/// Reading.
pub(crate) trait Reading {
    fn select(&self, query: &Query, each: Each) -> Result<(), StoreError>;

    /// The events with an id above `after`, in order.
    fn events(&self, after: i64, each: &mut dyn FnMut(EventRow) -> Result<(), StoreError>) -> Result<(), StoreError>;

    /// Id and hash of the last event.
    fn last_event(&self) -> Result<Option<(i64, Vec<u8>)>, StoreError>;
}

/// One transaction. Dropped without `commit`, nothing of it is kept.
pub(crate) trait Writing: Reading {
    /// The highest id of a table, 0 where it is empty.
    fn highest_id(&mut self, table: &'static Table) -> Result<i64, StoreError>;

    /// Adds a row; `cells` are checked and in declared order.
    fn insert(&mut self, at: usize, id: i64, event: i64, cells: &[Cell]) -> Result<(), StoreError>;

    /// The row of that name, of those that count.
    fn find(&mut self, at: usize, key: &[Cell]) -> Result<Option<i64>, StoreError>;

    /// The highest value of the last key column among rows with these other key values, also among rows that count no
    /// longer: a revision is given once.
    fn highest_in_key(&mut self, at: usize, key: &[Cell]) -> Result<Option<i64>, StoreError>;

    fn append_event(&mut self, event: &EventRow) -> Result<(), StoreError>;

    fn commit(self: Box<Self>) -> Result<(), StoreError>;
}

/// A store as a whole.
pub(crate) trait Backend: Reading + Send {
    fn writing(&mut self) -> Result<Box<dyn Writing + '_>, StoreError>;

    /// Version of the schema in the file.
    fn schema_version(&self) -> Result<u32, StoreError>;

    /// Faults of the database itself: altered schema, damaged pages, dangling references.
    fn check(&self) -> Result<Vec<Difference>, StoreError>;

    /// How long a writer waits for another one.
    fn set_patience(&mut self, patience: Duration) -> Result<(), StoreError>;

    /// How much of the file is kept in memory, KiB.
    fn set_cache(&mut self, kib: u32) -> Result<(), StoreError>;

    /// Asks for the store alone, for one large act, or gives it back. Where others use the store
    /// nothing changes.
    fn alone(&mut self, alone: bool) -> Result<(), StoreError>;

    /// Copies the whole store, while in use, to a new file; false where there is no file to copy.
    fn copies_its_file(&self, to: &Path) -> Result<bool, StoreError>;

    /// Number of the last event that the file alone holds, without the log beside it; none where there is no file or it
    /// cannot be read so.
    fn last_event_without_log(&self) -> Option<i64> {
        None
    }

    /// The same store opened once more.
    fn again(&self) -> Result<Box<dyn Backend>, StoreError>;

    /// Does several reads at one and the same state of the record, whoever writes meanwhile.
    fn standing(&self, work: &mut dyn FnMut() -> Result<(), StoreError>) -> Result<(), StoreError>;
}

/// What is read otherwise than as written.
#[derive(Debug, Clone, Default)]
pub(crate) struct ReadAs {
    /// Columns that amendments speak of: (table, column).
    pub amended: BTreeSet<(String, String)>,
    /// Tables with rows that count no longer.
    pub undone: BTreeSet<String>,
}

impl ReadAs {
    /// What asks for the columns.
    pub const AMENDED: &'static str = "SELECT DISTINCT table_name, column_name FROM amendment";
    /// What asks for the tables, from the version of the schema that has [`UNDO`].
    pub const UNDONE: &'static str = "SELECT DISTINCT table_name FROM undone_rows";
}

/// The version of the schema that lets acts be taken back.
pub(crate) const UNDO: u32 = 9;
