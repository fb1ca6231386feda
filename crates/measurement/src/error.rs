//! What a statistical request of this crate may be refused for, each with the offending value and
//! what would be accepted. A fault in the data that still allows an answer is a warning or a
//! finding, not one of these.

use message::{Message, Shown, count, refusal as says};

/// A request that cannot be met.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// Two lists that belong together differ in length.
    Length {
        /// Which list.
        what: &'static str,
        /// Its length.
        found: usize,
        /// The length of the list it belongs to.
        expected: usize,
    },
    /// Not enough values for the question.
    TooFew {
        /// Of what.
        what: &'static str,
        /// How many there were.
        found: usize,
        /// How many are needed.
        needed: usize,
    },
    /// NaN or infinity among the numbers.
    NotFinite {
        /// Which list.
        what: String,
        /// Place in the list, from 0.
        index: usize,
        /// The value.
        value: f64,
    },
    /// A number outside its range.
    OutOfRange {
        /// Which number.
        what: String,
        /// The value.
        value: f64,
        /// What is accepted.
        range: &'static str,
    },
    /// All standards stand at one level: no slope can be found.
    OneLevel {
        /// The level.
        x: f64,
        /// Number of points there.
        n: usize,
    },
    /// The columns of a fit are not independent.
    Singular {
        /// Column, from 0.
        column: usize,
    },
    /// A line whose slope is zero cannot be read backwards.
    FlatLine {
        /// The slope.
        slope: f64,
    },
    /// A division by zero at the estimate itself.
    ZeroDenominator {
        /// What stands in the denominator.
        what: String,
    },
    /// Correlations that no set of quantities can have together.
    NotSemidefinite {
        /// Smallest eigenvalue of the correlation matrix.
        smallest: f64,
        /// The pair with the largest coefficient.
        pair: String,
    },
    /// A correlation of a distribution for which it has no meaning here.
    Unsupported {
        /// What, and what to do instead.
        what: String,
    },
    /// The model text does not parse.
    Model {
        /// Character position from 1.
        position: usize,
        /// What was found and what was expected.
        message: String,
    },
    /// The model has no value at the estimates.
    NoValue {
        /// NaN or an infinity.
        value: f64,
        /// What to look at.
        hint: String,
    },
    /// The model has a value at the estimates and no finite slope there.
    NoSlope {
        /// By which input.
        input: String,
        /// The slope: NaN or an infinity.
        value: f64,
    },
    /// An iteration that did not reach its tolerance.
    NotConverged {
        /// Which search.
        what: &'static str,
        /// Iterations made.
        iterations: usize,
        /// What was left.
        residual: f64,
    },
}

impl Error {
    /// What it says.
    pub fn message(&self) -> Message {
        let given = |x: f64| Shown::as_given(x, "");
        match self {
            Self::Length { what, found, expected } => {
                says::Length { what: (*what).into(), found: count(*found), expected: count(*expected) }.into()
            }
            Self::TooFew { what, found, needed } => {
                says::ValuesFew { what: (*what).into(), found: count(*found), needed: count(*needed) }.into()
            }
            Self::NotFinite { what, index, value } => {
                says::NotFinite { what: format!("{what}[{index}]").into(), value: given(*value) }.into()
            }
            Self::OutOfRange { what, value, range } => {
                says::OutOfRange { what: what.into(), found: value.to_string().into(), expected: (*range).into() }
                    .into()
            }
            Self::OneLevel { x, n } => says::OneLevel { n: count(*n), x: given(*x) }.into(),
            Self::Singular { column } => says::Singular { column: column.to_string().into() }.into(),
            Self::FlatLine { slope } => says::FlatLine { slope: given(*slope) }.into(),
            Self::ZeroDenominator { what } => says::ZeroDenominator { what: what.into() }.into(),
            Self::NotSemidefinite { smallest, pair } => {
                says::Correlations { smallest: format!("{smallest:.3e}").into(), pair: pair.into() }.into()
            }
            Self::Unsupported { what } => says::Unsupported { what: what.into() }.into(),
            Self::Model { position, message } => {
                says::Model { position: position.to_string().into(), why: message.into() }.into()
            }
            Self::NoValue { value, hint } => says::NoValue { value: given(*value), hint: hint.into() }.into(),
            Self::NoSlope { input, value } => says::NoSlope { input: input.into(), value: given(*value) }.into(),
            Self::NotConverged { what, iterations, residual } => {
                let residual = format!("{residual:e}").into();
                says::NotConverged { what: (*what).into(), iterations: count(*iterations), residual }.into()
            }
        }
    }
}

impl std::fmt::Display for Error {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message().in_english())
    }
}

impl std::error::Error for Error {}

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
            Error::NoSlope { input, value } => {
                let expected =
                    "an estimate at which the model has a finite slope: linear propagation fails at this one";
                Self::refused(format!("slope in {input}"), value, expected)
            }
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
