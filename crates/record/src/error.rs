//! What can go wrong between the record and its results.

use crate::identity::NoName;
use crate::store::StoreError;
use message::{Message, refusal as says};

/// A request that the record cannot meet, or a failure below.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// The store.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The reduction of a run.
    #[error("run {run}: {}", why.in_english())]
    Run {
        /// Name of the run.
        run: String,
        /// What the reduction says.
        why: Message,
    },
    /// A recipe that cannot be read.
    #[error("recipe {name}: {message}")]
    Recipe {
        /// Its name.
        name: String,
        /// What the reader says, with the line.
        message: String,
    },
    /// Something asked for is not in the record.
    #[error("there is no {what} \"{name}\" in the programme{hint}")]
    Absent {
        /// Kind of thing.
        what: &'static str,
        /// As asked for.
        name: String,
        /// What there is instead, or what to do; may be empty.
        hint: String,
    },
    /// The record holds it, but not as needed.
    #[error("{what}: found {found}, expected {expected}")]
    Unfit {
        /// Where.
        what: String,
        /// As found.
        found: String,
        /// As needed.
        expected: String,
    },
    /// An act is kept, and deriving what follows from it failed.
    #[error("kept, not yet derived: run `limpid recompute` ({})", source.cause())]
    NotDerived {
        /// Why deriving failed.
        source: Box<Error>,
    },
    /// Whoever watched the work said no: what was done before stands whole, the rest was not begun.
    #[error("stopped before: {step}")]
    Stopped {
        /// What would have come next.
        step: String,
    },
    /// A science below refused.
    #[error("{what}: {message}")]
    Science {
        /// For what.
        what: String,
        /// What it says.
        message: String,
    },
}

impl Error {
    /// What it says, for a finding that stands on it.
    pub fn message(&self) -> Message {
        match self {
            Self::Run { run, why } => says::Run { run: run.into(), why: why.clone() }.into(),
            Self::Recipe { name, message } => says::RecipeUnread { name: name.into(), why: message.into() }.into(),
            Self::Absent { what, name, hint } => {
                says::Absent { what: (*what).into(), name: name.into(), hint: hint.into() }.into()
            }
            Self::Unfit { what, found, expected } => {
                says::OutOfRange { what: what.into(), found: found.into(), expected: expected.into() }.into()
            }
            Self::Science { what, message } => says::Science { what: what.into(), why: message.into() }.into(),
            Self::Stopped { step } => says::Stopped { step: step.into() }.into(),
            Self::NotDerived { source } => says::NotDerived { why: source.cause().into() }.into(),
            Self::Store(e) => says::Store { why: e.cause().into() }.into(),
        }
    }

    /// Of deriving after an act that is kept. Whoever stops it knows that.
    #[must_use]
    pub fn after_keeping(self) -> Self {
        match self {
            Self::Stopped { .. } | Self::NotDerived { .. } => self,
            other => Self::NotDerived { source: Box::new(other) },
        }
    }

    fn cause(&self) -> String {
        match self {
            Self::Store(e) => e.cause(),
            other => other.to_string(),
        }
    }

    /// Something asked for is not in the record.
    pub fn absent(what: &'static str, name: impl Into<String>, hint: impl Into<String>) -> Self {
        Self::Absent { what, name: name.into(), hint: hint.into() }
    }
}

impl From<NoName> for Error {
    fn from(NoName { what, found, expected }: NoName) -> Self {
        Self::Unfit { what, found, expected }
    }
}

/// A question or a sentence that cannot be read.
impl From<quantity::CalcError> for Error {
    fn from(e: quantity::CalcError) -> Self {
        match e {
            quantity::CalcError::Refused { field, found, expected } => Self::Unfit { what: field, found, expected },
            other => Self::Science { what: "the sentence".into(), message: other.to_string() },
        }
    }
}
