//! Why a question to a science has no answer: the offending value and what is allowed. The sciences of the
//! well and of cleanliness give it as their error.

use crate::{CalcError, UnitError};
use message::{Message, count, refusal as says};

/// A request that cannot be met, with the offending value and what is allowed.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Refusal {
    /// A number outside what can be.
    OutOfRange {
        /// Which input, as a person would name it.
        what: String,
        /// The value found, with its unit.
        found: String,
        /// The allowed range, with its unit.
        expected: String,
    },
    /// Too little was given.
    TooFew {
        /// What is missing.
        what: String,
        /// How many were given.
        have: usize,
        /// How many are needed.
        need: usize,
        /// What to do.
        hint: String,
    },
    /// Two amounts that do not measure the same thing.
    Unit(UnitError),
    /// A search that did not reach its tolerance.
    NotConverged {
        /// Which search.
        what: String,
        /// Iterations made.
        iterations: usize,
        /// What was left.
        residual: f64,
    },
    /// One of the others, with the message that says the same in every language.
    Said {
        /// The other.
        plain: Box<Self>,
        /// What it says.
        says: Message,
    },
}

impl Refusal {
    /// A number outside what can be.
    #[allow(clippy::needless_pass_by_value)] // a number or a text, whichever the caller holds
    pub fn out_of_range(what: impl Into<String>, found: impl ToString, expected: impl Into<String>) -> Self {
        Self::OutOfRange { what: what.into(), found: found.to_string(), expected: expected.into() }
    }

    /// The same with the message that says it; its English is that of the refusal.
    #[must_use]
    pub fn saying(self, says: impl Into<Message>) -> Self {
        Self::Said { plain: Box::new(self), says: says.into() }
    }

    /// What it says.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange { what, found, expected } => {
                says::OutOfRange { what: what.into(), found: found.into(), expected: expected.into() }.into()
            }
            Self::TooFew { what, have, need, hint } => {
                says::TooFew { what: what.into(), have: count(*have), need: count(*need), hint: hint.into() }.into()
            }
            Self::Unit(e) => e.message(),
            Self::Said { says, .. } => says.clone(),
            Self::NotConverged { what, iterations, residual } => {
                let residual = format!("{residual:e}").into();
                says::NotConverged { what: what.into(), iterations: count(*iterations), residual }.into()
            }
        }
    }
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message().in_english())
    }
}

impl std::error::Error for Refusal {}

impl From<UnitError> for Refusal {
    fn from(e: UnitError) -> Self {
        Self::Unit(e)
    }
}

impl From<Refusal> for CalcError {
    fn from(e: Refusal) -> Self {
        match e {
            Refusal::OutOfRange { what, found, expected } => Self::Refused { field: what, found, expected },
            Refusal::TooFew { what, have, need, hint } => {
                Self::refused(what, format!("{have} given"), format!("at least {need}; {hint}"))
            }
            Refusal::Unit(u) => Self::refused("unit", u, "units that measure the same thing"),
            Refusal::NotConverged { what, iterations, residual } => Self::NotConverged { what, iterations, residual },
            Refusal::Said { plain, .. } => Self::from(*plain),
        }
    }
}
