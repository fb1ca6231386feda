//! Why what is known of a well gives no answer, in messages: what was asked for, what was found, what is allowed.
//!
//! In: the parts, as a science names them. Out: one sentence for reports ([`Reason::said`]); for calculations an
//! [`Error`] with the English of the same parts.

use crate::Error;
use message::{Digits, Lang, Message, Name, Shown, aquifer as said};
use quantity::{CalcError, UnitError};
use std::fmt;

/// A request that cannot be met.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// A number outside what can be.
    OutOfRange {
        /// Which input.
        what: Message,
        /// The value found, with its unit.
        found: Shown,
        /// What is allowed.
        expected: Message,
    },
    /// Something that is no number, or several numbers that do not go together.
    Unlike {
        /// Which input.
        what: Message,
        /// What was found.
        found: Message,
        /// What is allowed.
        expected: Message,
    },
    /// Too little was given.
    TooFew {
        /// What is missing.
        what: Message,
        /// How many were given.
        have: usize,
        /// How many are needed.
        need: usize,
        /// What to do.
        hint: Message,
    },
    /// Two amounts that do not measure the same thing.
    Unit(UnitError),
    /// A search that did not reach its tolerance.
    NotConverged {
        /// Which search.
        what: Message,
        /// Iterations made.
        iterations: usize,
        /// What was left.
        residual: f64,
    },
}

impl Reason {
    /// A number outside what can be.
    pub fn out_of_range(what: impl Into<Message>, found: Shown, expected: impl Into<Message>) -> Self {
        Self::OutOfRange { what: what.into(), found, expected: expected.into() }
    }

    /// What is no number, or several numbers that do not go together.
    pub fn unlike(what: impl Into<Message>, found: impl Into<Message>, expected: impl Into<Message>) -> Self {
        Self::Unlike { what: what.into(), found: found.into(), expected: expected.into() }
    }

    /// As a message, without a full stop.
    pub fn said(&self) -> Message {
        match self.clone() {
            Self::OutOfRange { what, found, expected } => said::OutOfRange { what, found, expected }.into(),
            Self::Unlike { what, found, expected } => said::Unlike { what, found, expected }.into(),
            Self::TooFew { what, have, need, hint } => {
                said::TooFew { what, have: message::count(have), need: message::count(need), hint }.into()
            }
            Self::Unit(UnitError::Different { from, to, .. }) => {
                said::UnitsDiffer { from: from.into(), to: to.into() }.into()
            }
            Self::Unit(_) => said::UnitNotKnown.into(),
            Self::NotConverged { what, iterations, residual } => {
                let residual = Shown::new(residual, Digits::Exponent(1), "");
                said::NotConverged { what, iterations: message::count(iterations), residual }.into()
            }
        }
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&self.said().in_english())
    }
}

impl std::error::Error for Reason {}

impl From<UnitError> for Reason {
    fn from(e: UnitError) -> Self {
        Self::Unit(e)
    }
}

impl From<Reason> for Error {
    fn from(why: Reason) -> Self {
        let part = |m: Message| m.in_english();
        match why {
            Reason::OutOfRange { what, found, expected } => {
                Self::out_of_range(part(what), found.said(Lang::En), part(expected))
            }
            Reason::Unlike { what, found, expected } => Self::out_of_range(part(what), part(found), part(expected)),
            Reason::TooFew { what, have, need, hint } => {
                Self::TooFew { what: part(what), have, need, hint: part(hint) }
            }
            Reason::Unit(e) => Self::Unit(e),
            Reason::NotConverged { what, iterations, residual } => {
                Self::NotConverged { what: part(what), iterations, residual }
            }
        }
    }
}

impl From<Reason> for CalcError {
    fn from(why: Reason) -> Self {
        Error::from(why).into()
    }
}

/// A value that has to be more than nought.
pub(crate) fn above_nought(what: impl Into<Message>, x: f64, unit: &str) -> Result<(), Reason> {
    if x > 0.0 && x.is_finite() {
        Ok(())
    } else {
        let nought = Shown::as_given(0.0, unit);
        Err(Reason::out_of_range(what, Shown::as_given(x, unit), said::MoreThanNought { nought }))
    }
}

/// A name as a message takes it, its spaces as hyphens: the key of a word that the catalogues have.
pub(crate) fn key(name: &str) -> Name {
    name.replace(' ', "-").into()
}
