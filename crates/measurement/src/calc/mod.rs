//! The calculations of this crate as the command line offers them: JSON in, JSON out.
//!
//! Each answers with `method`, `sources` and `warnings` beside its numbers (command-line
//! contract). A number with uncertainty may be written as a plain number (u = 0) or as
//! `{"value":…, "u":…, "dof":…}`; degrees of freedom that are infinite are `null`. Units are the
//! caller's: all numbers of one kind in one unit. No science happens here: the modules named in
//! each `method` do it. Checked in `tests/calc.rs`.

mod line;
mod quality;
mod ratio;
mod uncertainty;
mod ways;

pub use line::LINE;
pub use quality::{CONFORMITY, CONTROL, OUTLIERS};
pub use ratio::RATIO;
pub use uncertainty::UNCERTAINTY;
pub use ways::{ADDITION, DILUTION};

use crate::line::Estimate;
use crate::ratio::FiellerInterval;
use quantity::CalcError;
use serde::Deserialize;
use serde_json::{Value, json};

/// A number, or a value with u.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(untagged)]
pub(crate) enum Given {
    Plain(f64),
    Measured(MeasuredInput),
}

#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct MeasuredInput {
    value: f64,
    #[serde(default)]
    u: f64,
    dof: Option<f64>,
}

impl Given {
    fn estimate(self) -> Estimate {
        match self {
            Self::Plain(value) => Estimate { value, u: 0.0 },
            Self::Measured(m) => Estimate { value: m.value, u: m.u },
        }
    }

    fn dof(self) -> f64 {
        match self {
            Self::Measured(MeasuredInput { dof: Some(dof), .. }) => dof,
            _ => f64::INFINITY,
        }
    }
}

/// Reads the input, with the field that does not fit in the message.
fn read<T: for<'a> Deserialize<'a>>(input: &Value) -> Result<T, CalcError> {
    Ok(T::deserialize(input)?)
}

/// Draws of a Monte Carlo calculation, 0 for none.
// JCGM 101 7.2.2 has a million in mind; two million are the programme's own choice, under a second's work.
fn draws(count: usize) -> Result<usize, CalcError> {
    if count == 0 || (1_000..=2_000_000).contains(&count) {
        return Ok(count);
    }
    Err(CalcError::refused("draws", count, "1000 to 2000000, or 0 for none"))
}

/// A finite number, or null.
fn finite(x: f64) -> Value {
    if x.is_finite() { json!(x) } else { Value::Null }
}

fn fieller_json(i: FiellerInterval) -> Value {
    match i {
        FiellerInterval::Bounded { low, high } => json!([low, high]),
        FiellerInterval::AtLeast { below, above } => {
            json!({"at_least": finite(above), "or_at_most": finite(below)})
        }
        FiellerInterval::Unbounded => Value::Null,
    }
}
