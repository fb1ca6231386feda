//! What can go wrong with a package. Each names the file, and in a table the row and the column.

use record::store::StoreError;
use std::path::PathBuf;

/// Why a package was not written, or not read.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// The store.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The record above the store.
    #[error(transparent)]
    Programme(#[from] record::Error),
    /// A Parquet file.
    #[error(transparent)]
    Columns(#[from] columns::Error),
    /// An archive of a package.
    #[error("packing the package")]
    Zip(#[from] zip::result::ZipError),
    /// Whoever asked for an archive wants it no longer.
    #[error("packing was stopped")]
    Stopped,
    /// A file or folder outside.
    #[error("{doing} {}", path.display())]
    Io {
        /// What was being done.
        doing: &'static str,
        /// Where.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// The folder to write to holds something that is not of an earlier package.
    #[error("{} holds {what}, which is of no earlier package: name an empty or a new folder", path.display())]
    Occupied {
        /// The folder.
        path: PathBuf,
        /// What was found in it.
        what: String,
    },
    /// An identifier is given for somebody who is not on record.
    #[error("no person {name:?} is on record; there are {}", known.join(", "))]
    NoPerson {
        /// As given.
        name: String,
        /// Persons on record.
        known: Vec<String>,
    },
    /// The record was written to all the time.
    #[error("the programme was written to while the package was made, {tries} times: try again when it is quiet")]
    Moving {
        /// Tries.
        tries: u32,
    },
    /// A folder that is no package of this program.
    #[error("{} is no data package of Limpid: {why}", path.display())]
    NotAPackage {
        /// The folder.
        path: PathBuf,
        /// What is missing or foreign.
        why: String,
    },
    /// The package speaks of a later form or schema.
    #[error("the package has {what} {found}; this program knows {what} up to {known}: use a newer Limpid")]
    Newer {
        /// "form" or "schema version".
        what: &'static str,
        /// As found.
        found: u64,
        /// Newest known.
        known: u64,
    },
    /// A file of the package is not there.
    #[error("{file}: the package lists it, but it is not there; nothing was taken")]
    Missing {
        /// Path in the package.
        file: String,
    },
    /// A file of the package is not what it was.
    #[error(
        "{file}: its bytes are not those that were written{how} (BLAKE3 {found}, listed {listed}); nothing was taken"
    )]
    Changed {
        /// Path in the package.
        file: String,
        /// What of its form tells why: encoding, line ends; empty where nothing does.
        how: String,
        /// Sum found.
        found: String,
        /// Sum listed.
        listed: String,
    },
    /// A table or column that the record does not have, or lacks one that it has.
    #[error("{file}: {what}; nothing was taken")]
    Shape {
        /// Path in the package.
        file: String,
        /// What is unknown or missing.
        what: String,
    },
    /// A cell that its column cannot hold.
    #[error("{file}, row {row}, column {column}: found {found}, expected {expected}; nothing was taken")]
    Cell {
        /// Path in the package.
        file: String,
        /// Row under the heading, from 1.
        row: u64,
        /// Column.
        column: String,
        /// As found.
        found: String,
        /// As the column holds.
        expected: String,
    },
    /// A row that the store refused.
    #[error("{file}, row {row}: {why}; nothing was taken")]
    Row {
        /// Path in the package.
        file: String,
        /// Row under the heading, from 1.
        row: u64,
        /// Why.
        why: StoreError,
    },
    /// A hash that was noted elsewhere is neither in the package's chain nor its seal.
    #[error(
        "the hash {noted} is not in the package's event chain, which ends in {found}, and is not its seal, {seal}: something was cut off or rewritten"
    )]
    Noted {
        /// As noted.
        noted: String,
        /// Head of the chain.
        found: String,
        /// The package's seal.
        seal: String,
    },
    /// The package says another head hash than its chain has.
    #[error("the package names the head hash {named}, its event chain ends in {found}; nothing was taken")]
    Head {
        /// As named.
        named: String,
        /// As found.
        found: String,
    },
}

impl Error {
    /// A failure outside at a path.
    pub fn io(doing: &'static str, path: impl Into<PathBuf>) -> impl FnOnce(std::io::Error) -> Self {
        let path = path.into();
        move |source| Self::Io { doing, path, source }
    }

    /// A changed file, with the place in it that another fault of the package tells.
    pub(crate) fn found_at(self, other: &Self) -> Self {
        let Self::Changed { file, how, found, listed } = self else { return self };
        let table = file.rsplit(['/', '.']).nth(1).unwrap_or_default();
        let place = match other {
            Self::Cell { file: of, row, column, found, expected } if *of == file => {
                format!(": row {row}, column {column}: found {found}, expected {expected}")
            }
            Self::Row { file: of, row, why } if *of == file => format!(": row {row}: {why}"),
            Self::Shape { file: of, what } if *of == file => format!(": {what}"),
            Self::Store(StoreError::NotAsChained { .. }) if other.to_string().contains(&format!("{table}, row")) => {
                format!(": {other}")
            }
            _ => String::new(),
        };
        let how = if how.is_empty() { place } else { how };
        Self::Changed { file, how, found, listed }
    }

    /// What differs, where nothing was refused for it.
    pub fn as_difference(&self) -> String {
        match self {
            Self::Cell { file, row, column, found, expected } => {
                format!("{file}, row {row}, column {column}: found {found}, expected {expected}")
            }
            Self::Shape { file, what } => format!("{file}: {what}"),
            Self::Missing { file } => format!("{file}: not there"),
            other => other.to_string(),
        }
    }

    /// Whether something outside failed, rather than the input or the request.
    pub fn is_outside(&self) -> bool {
        matches!(self, Self::Io { .. } | Self::Columns(_) | Self::Zip(_) | Self::Moving { .. })
    }
}
