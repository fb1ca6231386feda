//! What can go wrong with a store. A request that cannot be met names the value and what is
//! allowed; a failure outside (disk, folder, lock) is told with the path and what to try. A path is
//! told as far as it may be ([`shown`]): it may be an address with a password.

use super::shown;
use super::verify::Difference;
use std::path::{Path, PathBuf};

/// Why the store refused or failed.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// A server refused or failed.
    #[error(transparent)]
    Server(#[from] super::ServerError),
    /// What was copied does not read back as what it was.
    #[error("the copy is not the same and was not kept: {from} here, {to} there")]
    NotTheSame {
        /// Of the source.
        from: String,
        /// Of the target.
        to: String,
    },
    /// A programme that is not what its events say is not moved, copied or reported.
    #[error("the programme is not what was written: {}{}; nothing leaves it: `limpid verify` lists every difference",
        differences.first().map(ToString::to_string).unwrap_or_default(),
        if differences.len() > 1 { format!(" (and {} more)", differences.len() - 1) } else { String::new() })]
    NotAsWritten {
        /// What differs.
        differences: Vec<super::Difference>,
    },
    /// There is no such file.
    #[error("{} does not exist; `limpid new` makes an empty programme", shown(path))]
    NotFound {
        /// The path.
        path: PathBuf,
    },
    /// A new store was asked for where something is already.
    #[error("{} exists already and is left as it is", shown(path))]
    Exists {
        /// The path.
        path: PathBuf,
    },
    /// The folder of a new file is not there.
    #[error("{} cannot be made: the folder {} does not exist", shown(path), shown(folder))]
    NoFolder {
        /// The path.
        path: PathBuf,
        /// Its folder.
        folder: PathBuf,
    },
    /// The file is something else.
    #[error("{} is not a programme of Limpid ({detail})", shown(path))]
    NotAStore {
        /// The path.
        path: PathBuf,
        /// What was found.
        detail: String,
    },
    /// The file was written by a later version.
    #[error(
        "{} has schema version {found}; this program knows versions up to {known}: use a newer Limpid",
        shown(path)
    )]
    Newer {
        /// The path.
        path: PathBuf,
        /// Version of the file.
        found: u32,
        /// Newest version known here.
        known: u32,
    },
    /// The file or its folder cannot be written.
    #[error("{}; nothing was changed", read_only(path))]
    ReadOnly {
        /// The path.
        path: PathBuf,
    },
    /// No room.
    #[error("{}; nothing of this act was kept", no_room(path, detail))]
    Full {
        /// The path.
        path: PathBuf,
        /// What the system said.
        detail: String,
    },
    /// Another process is writing.
    #[error("{} is being written by another process; try again when it is done", shown(path))]
    Busy {
        /// The path.
        path: PathBuf,
    },
    /// An act whose author has no name.
    #[error(
        "found {found:?} for who does this, expected a name: the record keeps who stands for each act; nothing was done"
    )]
    Nobody {
        /// The name given.
        found: String,
    },
    /// What was reckoned stands on less than there is now.
    #[error("{OVERTAKEN}; what was entered is kept: `limpid recompute` when it is calmer")]
    WriteConflict,
    /// The file is physically damaged.
    #[error("{} is damaged: {detail}; restore it from a backup", shown(path))]
    Damaged {
        /// The path.
        path: PathBuf,
        /// What was found.
        detail: String,
    },
    /// There is no such table.
    #[error("the record has no table {table:?}")]
    UnknownTable {
        /// The name given.
        table: String,
    },
    /// There is no such column.
    #[error("table {table} has no column {column:?}")]
    UnknownColumn {
        /// Table.
        table: String,
        /// The name given.
        column: String,
    },
    /// A row with too many or too few values.
    #[error("table {table} takes {expected} values, {found} were given")]
    Width {
        /// Table.
        table: &'static str,
        /// Declared columns.
        expected: usize,
        /// Values given.
        found: usize,
    },
    /// A value that its column cannot hold.
    #[error("{table}.{column}: found {found}, expected {expected}")]
    Value {
        /// Table.
        table: &'static str,
        /// Column.
        column: &'static str,
        /// The value.
        found: String,
        /// What the column holds.
        expected: String,
    },
    /// A row of that name is there already.
    #[error("{table} {key} is there already")]
    Duplicate {
        /// Table.
        table: &'static str,
        /// Its name.
        key: String,
    },
    /// A row refers to a row that is not there.
    #[error("{table}.{column}: there is no row {row} of {refers_to}")]
    Dangling {
        /// Table.
        table: &'static str,
        /// Column.
        column: &'static str,
        /// Row referred to.
        row: i64,
        /// Table referred to.
        refers_to: &'static str,
    },
    /// There is no such row.
    #[error("{table} {key} is not in the programme")]
    NoRow {
        /// Table.
        table: &'static str,
        /// Its name or number.
        key: String,
    },
    /// An amendment that the record does not allow.
    #[error("{table}.{column} cannot be amended: {why}")]
    NotAmendable {
        /// Table.
        table: String,
        /// Column.
        column: String,
        /// Reason.
        why: &'static str,
    },
    /// Rows of a programme that is made anew do not run from 1 without gaps.
    #[error("{table}: found row {found}, expected row {expected}: rows run from 1 without gaps")]
    Sequence {
        /// Table, or `event`.
        table: &'static str,
        /// The next row.
        expected: i64,
        /// The row given.
        found: i64,
    },
    /// A programme made anew is not what its own event chain says. Nothing of it was kept.
    #[error(
        "what was to be made anew is not what its event chain says; nothing was kept:\n  {}",
        differences.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n  ")
    )]
    NotAsChained {
        /// What differs.
        differences: Vec<Difference>,
    },
    /// An act that cannot be taken back.
    #[error("event {event} is not taken back: {why}; nothing was changed")]
    NotUndone {
        /// Number of the event.
        event: i64,
        /// Reason; the acts that stand on it by name.
        why: String,
    },
    /// No act, or several, are meant by what was given.
    #[error(
        "found {found:?} for the act, expected its number or at least six digits of the beginning of its hash{}; `limpid history` lists them",
        if *several > 1 { format!(" ({several} begin so)") } else { String::new() }
    )]
    NoEvent {
        /// What was given.
        found: String,
        /// How many acts it may mean.
        several: usize,
    },
    /// A raw file changed between hashing and keeping.
    #[error("{name} changed while it was read: {detail}; nothing was taken")]
    FileChanged {
        /// File name.
        name: String,
        /// What differs.
        detail: String,
    },
    /// A stored value does not read back as what its column holds.
    #[error("{table} row {row}, {column}: found {found}, expected {expected}; run `limpid verify`")]
    Stored {
        /// Table.
        table: &'static str,
        /// Row.
        row: i64,
        /// Column, as a path.
        column: &'static str,
        /// What stands there.
        found: String,
        /// What was expected.
        expected: &'static str,
    },
    /// JSON that has no canonical form (a number that is not finite, an integer over 2^53).
    #[error("{0} has no canonical JSON form")]
    NotCanonical(String),
    /// Reading or writing a file outside the store failed.
    #[error("{doing} {}", shown(path))]
    Io {
        /// What was being done: "reading", "writing".
        doing: &'static str,
        /// The path.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// The database failed in another way.
    #[error("{} failed while {doing}: {detail}", shown(path))]
    Database {
        /// The path.
        path: PathBuf,
        /// What was being done.
        doing: &'static str,
        /// What the database said.
        detail: String,
    },
}

const OVERTAKEN: &str = "others wrote all the time while this was worked out";

fn read_only(path: &Path) -> String {
    format!("{} cannot be written: the file or its folder is read-only for this user", shown(path))
}

fn no_room(path: &Path, detail: &str) -> String {
    format!("{} could not be written: the disk is full or a file-size limit was reached ({detail})", shown(path))
}

impl StoreError {
    /// What failed, without what it means for the act at hand: told where an act before it is kept.
    pub(crate) fn cause(&self) -> String {
        match self {
            Self::ReadOnly { path } => read_only(path),
            Self::Full { path, detail } => no_room(path, detail),
            Self::WriteConflict => OVERTAKEN.into(),
            Self::Server(e) => e.cause(),
            other => other.to_string(),
        }
    }
}
