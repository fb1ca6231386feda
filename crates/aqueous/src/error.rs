//! What this crate refuses, and how it says so: every refusal names the quantity, the value
//! found with its unit and the range or form that would be accepted. A solver that does not
//! reach its tolerance names the equation that failed and never returns a number.

use message::{Arg, Message, Name, Said, Shown, analysis as said};
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

/// A part as a message takes it.
fn part(of: &Said) -> Vec<Arg> {
    vec![match of {
        Said::Message(m) => m.clone().into(),
        Said::Text(text) => Name::from(text).into(),
    }]
}

/// A part as the command line states it.
pub(crate) fn english(of: &Said) -> String {
    match of {
        Said::Message(m) => m.in_english(),
        Said::Text(text) => text.clone(),
    }
}

impl Error {
    /// What it says.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange { quantity, value, unit, allowed } => said::OutOfRange {
                quantity: part(quantity),
                value: Shown::as_given(*value, unit),
                allowed: part(allowed),
            }
            .into(),
            Self::Unclear { quantity, found, expected } => {
                said::Unclear { quantity: part(quantity), found: part(found), expected: part(expected) }.into()
            }
            Self::Contradiction { quantity, first, second, hint } => said::Contradiction {
                quantity: part(quantity),
                first: part(first),
                second: part(second),
                hint: part(hint),
            }
            .into(),
            Self::NoSolution { equation, why } => said::NoSolution { equation: part(equation), why: part(why) }.into(),
            Self::NotConverged { equation, iterations, residual } => said::NotConverged {
                equation: part(equation),
                iterations: message::count(*iterations),
                residual: Shown::significant(*residual, 2, ""),
            }
            .into(),
        }
    }

    /// The same error as the command line states it, for the field it speaks of.
    pub fn at(self, field: &str) -> CalcError {
        match &self {
            Self::OutOfRange { quantity, value, unit, allowed } => {
                CalcError::refused(field, format!("{} {value} {unit}", english(quantity)).trim_end(), english(allowed))
            }
            Self::Unclear { quantity, found, expected } => {
                CalcError::refused(field, format!("{} {}", english(quantity), english(found)), english(expected))
            }
            Self::Contradiction { quantity, first, second, hint } => CalcError::refused(
                field,
                format!("{} {} and {}", english(quantity), english(first), english(second)),
                english(hint),
            ),
            Self::NoSolution { equation, why } => CalcError::refused(
                field,
                format!("{}: {}", english(equation), english(why)),
                "a composition for which the equations have a solution",
            ),
            Self::NotConverged { equation, iterations, residual } => {
                CalcError::NotConverged { what: english(equation), iterations: *iterations, residual: *residual }
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
