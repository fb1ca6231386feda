//! How a command can end other than well, and the exit status of each.

use crate::secrets::hidden;
use intake::import::ImportError;
use intake::import::names::{Proposal, proposals};
use record::store::StoreError;
use std::process::ExitCode;

/// Why a command did not do what was asked.
#[derive(Debug)]
pub enum Failure {
    /// The input was refused: exit status 1.
    Refused(String),
    /// The act is in the record, but runs give no results: exit status 5.
    Underived(Vec<String>),
    /// What was to be kept is kept, and deriving from it failed: exit status 5.
    NotDerived(String),
    /// `verify` found the record sound and not derived as it stands: exit status 5. It is on stdout already.
    Behind,
    /// The words of the command do not fit: exit status 2.
    Usage(String),
    /// `verify` found a difference: exit status 3. The differences are on stdout already.
    Differs,
    /// The programme is not what was written, and nothing leaves it: exit status 3.
    Altered(String),
    /// Something outside failed, or a solver did not converge: exit status 4.
    Outside(anyhow::Error),
}

impl Failure {
    /// Prints the reason to stderr and gives the exit status.
    pub fn report(&self) -> ExitCode {
        match self {
            Self::Refused(why) => {
                eprintln!("refused: {}", hidden(why));
                ExitCode::from(1)
            }
            Self::Underived(why) => {
                eprintln!("kept in the record, but without results:\n  {}", why.join("\n  "));
                ExitCode::from(5)
            }
            Self::NotDerived(why) => {
                eprintln!("{why}");
                ExitCode::from(5)
            }
            Self::Behind => ExitCode::from(5),
            Self::Usage(why) => {
                eprintln!("{}", hidden(why));
                ExitCode::from(2)
            }
            Self::Differs => ExitCode::from(3),
            Self::Altered(why) => {
                eprintln!("{why}");
                ExitCode::from(3)
            }
            Self::Outside(e) => {
                eprintln!("{}", hidden(&format!("{e:#}")));
                ExitCode::from(4)
            }
        }
    }
}

impl From<anyhow::Error> for Failure {
    fn from(e: anyhow::Error) -> Self {
        Self::Outside(e)
    }
}

impl From<quantity::CalcError> for Failure {
    fn from(e: quantity::CalcError) -> Self {
        match e {
            quantity::CalcError::NotConverged { .. } => Self::Outside(e.into()),
            _ => Self::Refused(e.to_string()),
        }
    }
}

impl From<StoreError> for Failure {
    fn from(e: StoreError) -> Self {
        match e {
            StoreError::NotAsWritten { .. } => Self::Altered(e.to_string()),
            StoreError::WriteConflict => Self::NotDerived(e.to_string()),
            e if outside(&e) => Self::Outside(e.into()),
            other => Self::Refused(other.to_string()),
        }
    }
}

impl From<record::Error> for Failure {
    fn from(e: record::Error) -> Self {
        match e {
            record::Error::Store(e) => e.into(),
            record::Error::NotDerived { .. } => Self::NotDerived(e.to_string()),
            other => Self::Refused(other.to_string()),
        }
    }
}

impl From<exchange::Error> for Failure {
    fn from(e: exchange::Error) -> Self {
        match e {
            exchange::Error::Store(e) => e.into(),
            exchange::Error::Programme(e) => e.into(),
            e if e.is_outside() => Self::Outside(e.into()),
            other => Self::Refused(other.to_string()),
        }
    }
}

impl From<ImportError> for Failure {
    fn from(e: ImportError) -> Self {
        match e {
            ImportError::Store(e) => e.into(),
            ImportError::Io { .. } => Self::Outside(e.into()),
            ImportError::Refused(ref faults) => {
                Self::Refused(format!("{e}{}", how_to_agree(&proposals(&faults.shown))))
            }
            other => Self::Refused(other.to_string()),
        }
    }
}

/// How a person says which name is meant, a line for each name that may be a slip; empty where none may.
pub fn how_to_agree(proposals: &[Proposal]) -> String {
    let line = |p: &Proposal| {
        let mut ways: Vec<String> = p.near.iter().map(|n| format!("--take \"{}={n}\"", p.written)).collect();
        if p.may_be_new {
            ways.push(format!("--new-name \"{}\"", p.written));
        }
        format!("\n  {}", ways.join("  or  "))
    };
    let lines: String = proposals.iter().map(line).collect();
    if lines.is_empty() {
        lines
    } else {
        format!("\nsay which name is meant, and it is kept for the next file of the mapping:{lines}")
    }
}

/// Whether a store's word is a failure outside rather than a request that cannot be met.
fn outside(e: &StoreError) -> bool {
    matches!(
        e,
        StoreError::NotFound { .. }
            | StoreError::NoFolder { .. }
            | StoreError::ReadOnly { .. }
            | StoreError::Io { .. }
            | StoreError::Busy { .. }
            | StoreError::Full { .. }
            | StoreError::Damaged { .. }
            | StoreError::Database { .. }
    ) || matches!(e, StoreError::Server(told) if !told.is_request())
}
