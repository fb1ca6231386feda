//! What a series cannot answer, with what can still be said. A fault of single rows (a date
//! twice, rows out of order, a limit above every value) is a [`quantity::Finding`] beside the
//! result instead; see [`crate::rows`].

use quantity::CalcError;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// Fewer values than the method needs.
    #[error("{what} needs at least {needed}, there are {found}")]
    TooFew {
        /// What was asked, in words.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many are needed.
        needed: usize,
    },
    /// No value is known: every one is a non-detect.
    #[error(
        "all {n} values are non-detects: at most {percent:.1} % of such values lie above {highest_limit} (95 % one-sided, exact binomial); nothing more can be said",
        percent = share_above_upper_95 * 100.0
    )]
    AllCensored {
        /// Number of values.
        n: usize,
        /// The highest limit, in the unit of the series.
        highest_limit: f64,
        /// Upper 95 % one-sided bound of the share of values above that limit (Clopper–Pearson).
        share_above_upper_95: f64,
    },
    /// All known values are one and the same number.
    #[error("all {n} known values are {value}: no spread, {what} cannot be computed")]
    NoSpread {
        /// What was asked.
        what: &'static str,
        /// The one value.
        value: f64,
        /// How many times.
        n: usize,
    },
    /// All values bear one date.
    #[error("all {n} values bear one date ({time_years:.4}): there is no time in which to change")]
    OneDate {
        /// The date as a decimal year.
        time_years: f64,
        /// Number of values.
        n: usize,
    },
    /// A zero or negative number where only positive ones have a meaning.
    #[error(
        "value {number} is {value}: {what} is for values above zero; the product limit and the rank methods take it as it is"
    )]
    NotPositive {
        /// The method that cannot take it.
        what: &'static str,
        /// Number of the value in the series, from 1.
        number: usize,
        /// The value or limit.
        value: f64,
    },
    /// Not a number, or infinite.
    #[error("value {number} is {value}: a finite number is needed")]
    NotFinite {
        /// Number of the value in the series, from 1.
        number: usize,
        /// As found.
        value: f64,
    },
    /// A parameter out of its range.
    #[error("{name} is {value}, allowed: {allowed}")]
    OutOfRange {
        /// The parameter.
        name: &'static str,
        /// As found.
        value: f64,
        /// The range in words.
        allowed: &'static str,
    },
    /// A search did not reach its tolerance.
    #[error("{what} did not converge after {iterations} iterations (residual {residual:e})")]
    NotConverged {
        /// Which.
        what: &'static str,
        /// Iterations made.
        iterations: usize,
        /// What was left.
        residual: f64,
    },
}

impl Error {
    /// As the command line reports it; `field` is the JSON path of the series.
    pub fn at(self, field: &str) -> CalcError {
        match self {
            Self::NotConverged { what, iterations, residual } => {
                CalcError::NotConverged { what: what.into(), iterations, residual }
            }
            other => {
                let expected = match &other {
                    Self::TooFew { needed, .. } => format!("at least {needed} values"),
                    Self::AllCensored { .. } => "at least one value above its limit".into(),
                    Self::NoSpread { .. } => "at least two different values".into(),
                    Self::OneDate { .. } => "at least two different dates".into(),
                    Self::NotPositive { .. } => "values above zero".into(),
                    Self::OutOfRange { allowed, .. } => (*allowed).to_string(),
                    _ => "finite numbers".into(),
                };
                CalcError::refused(field, other, expected)
            }
        }
    }
}
