//! A number with its standard uncertainty, as the tracers share it.

use serde::{Deserialize, Serialize};

/// A number with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WithU {
    /// The value.
    pub value: f64,
    /// Its standard uncertainty.
    pub u: f64,
}
