//! What this crate refuses, and how it says so: every refusal names the quantity, the value
//! found with its unit and the range or form that would be accepted. A solver that does not
//! reach its tolerance names the equation that failed and never returns a number.

use message::{Message, Shown, count, refusal as says};
use quantity::CalcError;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// A number outside what the model answers for.
    OutOfRange {
        /// What it is.
        quantity: String,
        /// What was found.
        value: f64,
        /// Its unit.
        unit: String,
        /// The allowed range, with unit.
        allowed: String,
    },
    /// A value that cannot be read as it stands: the basis is missing, the unit does not fit.
    Unclear {
        /// What it is.
        quantity: String,
        /// What was found.
        found: String,
        /// What would be understood.
        expected: String,
    },
    /// Two statements that cannot both be true.
    Contradiction {
        /// What it is.
        quantity: String,
        /// The first statement.
        first: String,
        /// The second statement.
        second: String,
        /// What to try.
        hint: String,
    },
    /// The equations have no solution for this composition.
    NoSolution {
        /// Which equation.
        equation: String,
        /// Why.
        why: String,
    },
    /// The solver stopped before its tolerance.
    NotConverged {
        /// The equation with the largest residual.
        equation: String,
        /// Iterations made.
        iterations: usize,
        /// Largest relative residual.
        residual: f64,
    },
}

impl std::fmt::Display for Error {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message().in_english())
    }
}

impl std::error::Error for Error {}

impl Error {
    /// What it says.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange { quantity, value, unit, allowed } => says::BeyondModel {
                quantity: quantity.into(),
                value: Shown::as_given(*value, unit),
                allowed: allowed.into(),
            }
            .into(),
            Self::Unclear { quantity, found, expected } => {
                says::Unclear { quantity: quantity.into(), found: found.into(), expected: expected.into() }.into()
            }
            Self::Contradiction { quantity, first, second, hint } => says::Contradiction {
                quantity: quantity.into(),
                first: first.into(),
                second: second.into(),
                hint: hint.into(),
            }
            .into(),
            Self::NoSolution { equation, why } => {
                says::NoSolution { equation: equation.into(), why: why.into() }.into()
            }
            Self::NotConverged { equation, iterations, residual } => {
                let residual = format!("{residual:e}").into();
                says::Solver { equation: equation.into(), iterations: count(*iterations), residual }.into()
            }
        }
    }

    /// The same error as the command line states it, for the field it speaks of.
    pub fn at(self, field: &str) -> CalcError {
        match self {
            Self::OutOfRange { quantity, value, unit, allowed } => {
                CalcError::refused(field, format!("{quantity} {value} {unit}").trim_end(), allowed)
            }
            Self::Unclear { quantity, found, expected } => {
                CalcError::refused(field, format!("{quantity} {found}"), expected)
            }
            Self::Contradiction { quantity, first, second, hint } => {
                CalcError::refused(field, format!("{quantity} {first} and {second}"), hint)
            }
            Self::NoSolution { equation, why } => CalcError::refused(
                field,
                format!("{equation}: {why}"),
                "a composition for which the equations have a solution",
            ),
            Self::NotConverged { equation, iterations, residual } => {
                CalcError::NotConverged { what: equation, iterations, residual }
            }
        }
    }
}

/// Checks a number against a closed range.
///
/// # Errors
/// [`Error::OutOfRange`] outside it or for a value that is no number.
pub fn within(quantity: &str, value: f64, unit: &str, low: f64, high: f64) -> Result<f64, Error> {
    if value >= low && value <= high {
        return Ok(value);
    }
    Err(Error::OutOfRange {
        quantity: quantity.into(),
        value,
        unit: unit.into(),
        allowed: format!("{low} to {high} {unit}").trim_end().to_string(),
    })
}
