//! What this crate refuses, and how it says so: every refusal names the quantity, the value
//! found with its unit and the range or form that would be accepted. A solver that does not
//! reach its tolerance names the equation that failed and never returns a number.

use message::{Message, Said, Shown, analysis as said};
use quantity::CalcError;

/// Why there is no answer. Parts of it that a report can come to are messages; names, and what only a request by hand
/// comes to, are plain text.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// A number outside what the model answers for.
    OutOfRange {
        /// What it is.
        quantity: Said,
        /// What was found.
        value: f64,
        /// Its unit.
        unit: String,
        /// The allowed range, with unit.
        allowed: Said,
    },
    /// A value that cannot be read as it stands: the basis is missing, the unit does not fit.
    Unclear {
        /// What it is.
        quantity: Said,
        /// What was found.
        found: Said,
        /// What would be understood.
        expected: Said,
    },
    /// Two statements that cannot both be true.
    Contradiction {
        /// What it is.
        quantity: Said,
        /// The first statement.
        first: Said,
        /// The second statement.
        second: Said,
        /// What to try.
        hint: Said,
    },
    /// The equations have no solution for this composition.
    NoSolution {
        /// Which equation.
        equation: Said,
        /// Why.
        why: Said,
    },
    /// The solver stopped before its tolerance.
    NotConverged {
        /// The equation with the largest residual.
        equation: Said,
        /// Iterations made.
        iterations: usize,
        /// Largest relative residual.
        residual: f64,
    },
}

impl core::fmt::Display for Error {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.message().in_english())
    }
}

impl core::error::Error for Error {}

impl Error {
    /// What it says.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange { quantity, value, unit, allowed } => said::OutOfRange {
                quantity: quantity.part(),
                value: Shown::as_given(*value, unit),
                allowed: allowed.part(),
            }
            .into(),
            Self::Unclear { quantity, found, expected } => {
                said::Unclear { quantity: quantity.part(), found: found.part(), expected: expected.part() }.into()
            }
            Self::Contradiction { quantity, first, second, hint } => said::Contradiction {
                quantity: quantity.part(),
                first: first.part(),
                second: second.part(),
                hint: hint.part(),
            }
            .into(),
            Self::NoSolution { equation, why } => {
                said::NoSolution { equation: equation.part(), why: why.part() }.into()
            }
            Self::NotConverged { equation, iterations, residual } => said::NotConverged {
                equation: equation.part(),
                iterations: message::count(*iterations),
                residual: Shown::significant(*residual, 2, ""),
            }
            .into(),
        }
    }

    /// The same error as the command line states it, for the field it speaks of.
    pub fn at(self, field: &str) -> CalcError {
        match &self {
            Self::OutOfRange { quantity, value, unit, allowed } => CalcError::refused(
                field,
                format!("{} {value} {unit}", quantity.in_english()).trim_end(),
                allowed.in_english(),
            ),
            Self::Unclear { quantity, found, expected } => CalcError::refused(
                field,
                format!("{} {}", quantity.in_english(), found.in_english()),
                expected.in_english(),
            ),
            Self::Contradiction { quantity, first, second, hint } => CalcError::refused(
                field,
                format!("{} {} and {}", quantity.in_english(), first.in_english(), second.in_english()),
                hint.in_english(),
            ),
            Self::NoSolution { equation, why } => CalcError::refused(
                field,
                format!("{}: {}", equation.in_english(), why.in_english()),
                "a composition for which the equations have a solution",
            ),
            Self::NotConverged { equation, iterations, residual } => {
                CalcError::NotConverged { what: equation.in_english(), iterations: *iterations, residual: *residual }
            }
        }
    }
}

/// Checks a number against a closed range.
///
/// # Errors
/// [`Error::OutOfRange`] outside it or for a value that is no number.
pub fn within(quantity: impl Into<Said>, value: f64, unit: &str, low: f64, high: f64) -> Result<f64, Error> {
    if value >= low && value <= high {
        return Ok(value);
    }
    let allowed = said::Range { low: Shown::as_given(low, ""), high: Shown::as_given(high, unit) };
    Err(Error::OutOfRange { quantity: quantity.into(), value, unit: unit.into(), allowed: allowed.into() })
}
