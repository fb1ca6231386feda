//! How a command can end other than well, and the exit status of each.

use std::process::ExitCode;

/// Why a command did not do what was asked.
#[derive(Debug)]
pub enum Failure {
    /// The input was refused: exit status 1.
    Refused(String),
    /// The words of the command do not fit: exit status 2.
    Usage(String),
    /// `verify` found a difference: exit status 3. The findings are on stdout already.
    Differs,
    /// Something outside failed, or a solver did not converge: exit status 4.
    Outside(anyhow::Error),
}

impl Failure {
    /// Prints the reason to stderr and gives the exit status.
    pub fn report(&self) -> ExitCode {
        match self {
            Self::Refused(why) => {
                eprintln!("refused: {why}");
                ExitCode::from(1)
            }
            Self::Usage(why) => {
                eprintln!("{why}");
                ExitCode::from(2)
            }
            Self::Differs => ExitCode::from(3),
            Self::Outside(e) => {
                eprintln!("{e:#}");
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
