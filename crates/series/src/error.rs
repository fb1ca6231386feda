//! What a series cannot answer, with what can still be said. A fault of single rows (a date
//! twice, rows out of order, a limit above every value) is a [`quantity::Finding`] beside the
//! result instead; see [`crate::rows`].

use message::{Arg, Digits, Message, Name, Share, Shown, count, no_answer as says};
use quantity::CalcError;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// Fewer values than the method needs.
    TooFew {
        /// What was asked, in words.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many are needed.
        needed: usize,
    },
    /// No value is known: every one is a non-detect.
    AllCensored {
        /// Number of values.
        n: usize,
        /// The highest limit, in the unit of the series.
        highest_limit: f64,
        /// Upper 95 % one-sided bound of the share of values above that limit (Clopper–Pearson).
        share_above_upper_95: f64,
    },
    /// All known values are one and the same number.
    NoSpread {
        /// What was asked.
        what: &'static str,
        /// The one value.
        value: f64,
        /// How many times.
        n: usize,
    },
    /// All values bear one date.
    OneDate {
        /// The date as a decimal year.
        time_years: f64,
        /// Number of values.
        n: usize,
    },
    /// A zero or negative number where only positive ones have a meaning.
    NotPositive {
        /// The method that cannot take it.
        what: &'static str,
        /// Number of the value in the series, from 1.
        number: usize,
        /// The value or limit.
        value: f64,
    },
    /// Not a number, or infinite.
    NotFinite {
        /// Number of the value in the series, from 1.
        number: usize,
        /// As found.
        value: f64,
    },
    /// A parameter out of its range.
    OutOfRange {
        /// The parameter.
        name: &'static str,
        /// As found.
        value: f64,
        /// The range in words.
        allowed: &'static str,
    },
    /// A search did not reach its tolerance.
    NotConverged {
        /// Which.
        what: &'static str,
        /// Iterations made.
        iterations: usize,
        /// What was left.
        residual: f64,
    },
}

/// What was asked, as the catalogues have it.
fn asked(what: &str) -> Vec<Arg> {
    vec![Message::named("no_answer", what).map_or_else(|| Name::from(what).into(), Arg::from)]
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
        let given = |x: f64| Shown::as_given(x, "");
        match self {
            Self::TooFew { what, found, needed } => {
                says::Few { what: asked(what), needed: count(*needed), found: count(*found) }.into()
            }
            Self::AllCensored { n, highest_limit, share_above_upper_95 } => {
                let share = Share::new(*share_above_upper_95, Digits::Decimals(1));
                says::Censored { n: count(*n), share, limit: given(*highest_limit) }.into()
            }
            Self::NoSpread { what, value, n } => {
                says::NoSpread { n: count(*n), value: given(*value), what: asked(what) }.into()
            }
            Self::OneDate { time_years, n } => {
                says::OneDate { n: count(*n), year: Shown::decimals(*time_years, 4, "") }.into()
            }
            Self::NotPositive { what, number, value } => {
                says::NotPositive { number: number.to_string().into(), value: given(*value), what: asked(what) }.into()
            }
            Self::NotFinite { number, value } => {
                says::NotFinite { number: number.to_string().into(), value: given(*value) }.into()
            }
            Self::OutOfRange { name, value, allowed } => {
                says::OutOfRange { name: (*name).into(), value: given(*value), allowed: (*allowed).into() }.into()
            }
            Self::NotConverged { what, iterations, residual } => {
                let residual = format!("{residual:e}").into();
                says::NotConverged { what: asked(what), iterations: count(*iterations), residual }.into()
            }
        }
    }

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
