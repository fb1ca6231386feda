//! What can go wrong with a survey, by whose matter it is.

use std::path::{Path, PathBuf};

/// Why a survey did not come about.
#[derive(Debug, thiserror::Error)]
pub enum Error {
    /// The input is not what was asked for.
    #[error("{place}: found {found}, expected {expected}")]
    Input {
        /// File, and column where there is one.
        place: String,
        /// What stands there.
        found: String,
        /// What was expected.
        expected: String,
    },
    /// A query that cannot be planned or run.
    #[error("the query: {0}")]
    Query(String),
    /// A file or folder of this machine.
    #[error("{}: {source}", path.display())]
    File {
        /// Which.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// The cluster.
    #[error("the cluster {address}: {message}")]
    Cluster {
        /// Address of its scheduler.
        address: String,
        /// What went wrong.
        message: String,
    },
    /// The engine failed on rows that were sound.
    #[error("the query engine: {0}")]
    Engine(String),
}

impl Error {
    /// A fault of the input.
    pub fn input(place: impl Into<String>, found: impl Into<String>, expected: impl Into<String>) -> Self {
        Self::Input { place: place.into(), found: found.into(), expected: expected.into() }
    }

    /// A failure of a file.
    pub fn file(path: &Path) -> impl FnOnce(std::io::Error) -> Self {
        let path = path.to_path_buf();
        move |source| Self::File { path, source }
    }

    /// Exit status: 1 the input was refused, 4 something outside failed.
    pub fn status(&self) -> u8 {
        match self {
            Self::Input { .. } | Self::Query(_) => 1,
            Self::File { .. } | Self::Cluster { .. } | Self::Engine(_) => 4,
        }
    }
}

impl From<datafusion::error::DataFusionError> for Error {
    fn from(e: datafusion::error::DataFusionError) -> Self {
        use datafusion::error::DataFusionError as E;
        match e.find_root() {
            E::SQL(..) | E::Plan(_) | E::SchemaError(..) => Self::Query(e.find_root().to_string()),
            E::Execution(text) => Self::Query(text.clone()),
            E::ResourcesExhausted(text) => Self::Engine(format!("not enough memory: {text}")),
            root => Self::Engine(root.to_string()),
        }
    }
}

impl From<datafusion::arrow::error::ArrowError> for Error {
    fn from(e: datafusion::arrow::error::ArrowError) -> Self {
        Self::Engine(e.to_string())
    }
}

impl From<datafusion::parquet::errors::ParquetError> for Error {
    fn from(e: datafusion::parquet::errors::ParquetError) -> Self {
        Self::Engine(e.to_string())
    }
}
