//! What a statistical request of this crate may be refused for, each with the offending value and
//! what would be accepted. A fault in the data that still allows an answer is a warning or a
//! finding, not one of these.

/// A request that cannot be met.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// Two lists that belong together differ in length.
    #[error("{what}: found {found} values, expected {expected}, one for each point")]
    Length {
        /// Which list.
        what: &'static str,
        /// Its length.
        found: usize,
        /// The length of the list it belongs to.
        expected: usize,
    },
    /// Not enough values for the question.
    #[error("{what}: found {found}, at least {needed} are needed")]
    TooFew {
        /// Of what.
        what: &'static str,
        /// How many there were.
        found: usize,
        /// How many are needed.
        needed: usize,
    },
    /// NaN or infinity among the numbers.
    #[error("{what}[{index}]: found {value}, expected a finite number")]
    NotFinite {
        /// Which list.
        what: String,
        /// Place in the list, from 0.
        index: usize,
        /// The value.
        value: f64,
    },
    /// A number outside its range.
    #[error("{what}: found {value}, expected {range}")]
    OutOfRange {
        /// Which number.
        what: String,
        /// The value.
        value: f64,
        /// What is accepted.
        range: &'static str,
    },
    /// All standards stand at one level: no slope can be found.
    #[error(
        "all {n} standards stand at x = {x}: a slope needs two levels; add a standard at another level, or force the line through zero"
    )]
    OneLevel {
        /// The level.
        x: f64,
        /// Number of points there.
        n: usize,
    },
    /// The columns of a fit are not independent.
    #[error("the line is singular: column {column} is a combination of the ones before it")]
    Singular {
        /// Column, from 0.
        column: usize,
    },
    /// A line whose slope is zero cannot be read backwards.
    #[error("the slope is {slope}: the line is flat and cannot be read from signal to concentration")]
    FlatLine {
        /// The slope.
        slope: f64,
    },
    /// A division by zero at the estimate itself.
    #[error("{what} is zero: the quotient is not defined")]
    ZeroDenominator {
        /// What stands in the denominator.
        what: String,
    },
    /// Correlations that no set of quantities can have together.
    #[error(
        "the correlations are not positive semidefinite (smallest eigenvalue {smallest:.3e}): no quantities can be correlated like this; check {pair}"
    )]
    NotSemidefinite {
        /// Smallest eigenvalue of the correlation matrix.
        smallest: f64,
        /// The pair with the largest coefficient.
        pair: String,
    },
    /// A correlation of a distribution for which it has no meaning here.
    #[error("{what}")]
    Unsupported {
        /// What, and what to do instead.
        what: String,
    },
    /// The model text does not parse.
    #[error("model, character {position}: {message}")]
    Model {
        /// Character position from 1.
        position: usize,
        /// What was found and what was expected.
        message: String,
    },
    /// The model has no value at the estimates.
    #[error("the model gives {value} at the estimates: {hint}")]
    NoValue {
        /// NaN or an infinity.
        value: f64,
        /// What to look at.
        hint: String,
    },
    /// An iteration that did not reach its tolerance.
    #[error("{what} did not converge after {iterations} iterations (residual {residual:e})")]
    NotConverged {
        /// Which search.
        what: &'static str,
        /// Iterations made.
        iterations: usize,
        /// What was left.
        residual: f64,
    },
}

impl From<Error> for quantity::CalcError {
    fn from(e: Error) -> Self {
        let text = e.to_string();
        match e {
            Error::NotConverged { what, iterations, residual } => {
                Self::NotConverged { what: what.to_string(), iterations, residual }
            }
            Error::Length { what, found, expected } => {
                Self::refused(what, found, format!("{expected} values, one for each point"))
            }
            Error::TooFew { what, found, needed } => Self::refused(what, found, format!("at least {needed}")),
            Error::NotFinite { what, index, value } => {
                Self::refused(format!("{what}[{index}]"), value, "a finite number")
            }
            Error::OutOfRange { what, value, range } => Self::refused(what, value, range),
            Error::Model { position, message } => Self::refused(
                "model",
                format!("at character {position}: {message}"),
                "an expression of the named inputs",
            ),
            _ => Self::refused("input", text, "a question that has an answer"),
        }
    }
}

/// Refuses a list with NaN or infinity in it.
pub(crate) fn all_finite(what: &str, values: &[f64]) -> Result<(), Error> {
    match values.iter().position(|v| !v.is_finite()) {
        Some(index) => Err(Error::NotFinite { what: what.to_string(), index, value: values[index] }),
        None => Ok(()),
    }
}

/// Refuses a list with a number at or below zero, NaN or infinity in it.
pub(crate) fn all_positive(what: &str, values: &[f64]) -> Result<(), Error> {
    all_finite(what, values)?;
    match values.iter().position(|v| *v <= 0.0) {
        Some(index) => {
            Err(Error::OutOfRange { what: format!("{what}[{index}]"), value: values[index], range: "more than 0" })
        }
        None => Ok(()),
    }
}

/// Refuses two lists of different length.
pub(crate) fn same_length(what: &'static str, found: usize, expected: usize) -> Result<(), Error> {
    if found == expected { Ok(()) } else { Err(Error::Length { what, found, expected }) }
}
