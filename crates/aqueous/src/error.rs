//! What this crate refuses, and how it says so: every refusal names the quantity, the value
//! found with its unit and the range or form that would be accepted. A solver that does not
//! reach its tolerance names the equation that failed and never returns a number.

use quantity::CalcError;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A number outside what the model answers for.
    #[error("{quantity} is {value} {unit}; allowed: {allowed}")]
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
    #[error("{quantity}: found {found}; expected {expected}")]
    Unclear {
        /// What it is.
        quantity: String,
        /// What was found.
        found: String,
        /// What would be understood.
        expected: String,
    },
    /// Two statements that cannot both be true.
    #[error("{quantity} is given as {first} and as {second}; {hint}")]
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
    #[error("{equation} has no solution: {why}")]
    NoSolution {
        /// Which equation.
        equation: String,
        /// Why.
        why: String,
    },
    /// The solver stopped before its tolerance.
    #[error("{equation} did not converge after {iterations} iterations (relative residual {residual:e})")]
    NotConverged {
        /// The equation with the largest residual.
        equation: String,
        /// Iterations made.
        iterations: usize,
        /// Largest relative residual.
        residual: f64,
    },
}

impl Error {
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
