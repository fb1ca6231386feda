//! One science function as the command line offers it: JSON in, JSON out. Each science crate
//! lists its own in a constant `CALCULATIONS`; the interfaces only look names up and pass text on.
//! Every output carries `method`, `sources` and `warnings` (command-line contract).

use serde_json::Value;

/// A science function with its example and schema.
#[derive(Clone, Copy)]
pub struct Calculation {
    /// Name on the command line.
    pub name: &'static str,
    /// What it answers, in one line.
    pub about: &'static str,
    /// A complete input that runs.
    pub example: &'static str,
    /// JSON Schema (2020-12) of the input.
    pub schema: &'static str,
    /// The function.
    pub run: fn(&Value) -> Result<Value, CalcError>,
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CalcError {
    /// The input cannot be worked with: exit status 1.
    #[error("{field}: found {found}, expected {expected}")]
    Refused {
        /// JSON path of the offending field: `blanks[3]`.
        field: String,
        /// What was there, with unit.
        found: String,
        /// What is needed, with unit and range.
        expected: String,
    },
    /// A solver did not reach its tolerance: exit status 4.
    #[error("{what} did not converge after {iterations} iterations (residual {residual:e})")]
    NotConverged {
        /// Which equation or search.
        what: String,
        /// Iterations made.
        iterations: usize,
        /// What was left.
        residual: f64,
    },
}

impl CalcError {
    /// A refusal.
    #[allow(clippy::needless_pass_by_value)] // callers pass numbers and texts alike
    pub fn refused(field: impl Into<String>, found: impl ToString, expected: impl Into<String>) -> Self {
        Self::Refused {
            field: field.into(),
            found: Some(found.to_string()).filter(|f| !f.is_empty()).unwrap_or_else(|| "nothing".into()),
            expected: expected.into(),
        }
    }
}

impl From<serde_json::Error> for CalcError {
    fn from(e: serde_json::Error) -> Self {
        Self::refused("input", e, "JSON as `--schema` describes it")
    }
}
