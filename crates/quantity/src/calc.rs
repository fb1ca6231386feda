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

/// Largest magnitude of a number in an input, and the inverse of the smallest beside nought.
// The programme's own choice: no quantity of nature comes near it in any unit, and fourth powers (Welch–Satterthwaite)
// stay far within double precision, which ends at 1.8e308 (IEEE 754).
const MOST: f64 = 1e60;

impl Calculation {
    /// The answer to an input whose numbers can be: none beyond what a calculation can carry, no uncertainty below
    /// nought, no degrees of freedom below one. What each calculation asks beyond that it refuses itself.
    ///
    /// # Errors
    /// [`CalcError`], with the place of the number in the input.
    ///
    /// ```
    /// use quantity::{Calculation, calc::CalcError};
    /// let double = Calculation {
    ///     name: "double", about: "twice a number", example: "", schema: "",
    ///     run: |v| Ok(serde_json::json!({ "twice": 2.0 * v["x"].as_f64().unwrap_or(0.0) })),
    /// };
    /// assert_eq!(double.answer(&serde_json::json!({ "x": 21.0 })).unwrap()["twice"], 42.0);
    /// let e = double.answer(&serde_json::json!({ "x": 1e300 })).unwrap_err().to_string();
    /// assert_eq!(e, "x: found 1e+300, expected 0, or a number from 1e-60 to 1e60 in size");
    /// let e = double.answer(&serde_json::json!({ "x": { "u": [0.1, -0.1] } })).unwrap_err().to_string();
    /// assert_eq!(e, "x.u[1]: found -0.1, expected an uncertainty of 0 or more");
    /// ```
    pub fn answer(&self, input: &Value) -> Result<Value, CalcError> {
        can_be(input, "", "")?;
        (self.run)(input)
    }
}

/// Refuses a number that cannot be, by its place; `key` is the name that it or its list stands under.
fn can_be(value: &Value, place: &str, key: &str) -> Result<(), CalcError> {
    match value {
        Value::Object(map) => map.iter().try_for_each(|(k, v)| {
            let place = if place.is_empty() { k.clone() } else { format!("{place}.{k}") };
            can_be(v, &place, k)
        }),
        Value::Array(items) => items.iter().enumerate().try_for_each(|(i, v)| can_be(v, &format!("{place}[{i}]"), key)),
        Value::Number(n) => {
            let x = n.as_f64().unwrap_or(f64::NAN);
            let expected = if x != 0.0 && !(1.0 / MOST..=MOST).contains(&x.abs()) {
                "0, or a number from 1e-60 to 1e60 in size"
            } else if x < 0.0 && (key == "u" || key == "relative_u" || key.starts_with("u_")) {
                "an uncertainty of 0 or more"
            } else if x < 1.0 && key == "dof" {
                "degrees of freedom of 1 or more"
            } else {
                return Ok(());
            };
            Err(CalcError::refused(place, n, expected))
        }
        Value::Null | Value::Bool(_) | Value::String(_) => Ok(()),
    }
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
