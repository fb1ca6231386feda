//! Inputs of a model and what is known of them as distributions (JCGM 101:2008, clause 6.4).
//!
//! `value` is the best estimate and `u` the standard uncertainty in the input's own unit, for
//! each distribution; half-widths follow from u (JCGM 100, 4.3). For t, u is the scale (s/√n) and
//! the standard deviation of the draws is u·√(ν/(ν−2)), as JCGM 101 6.4.9 has it. For lognormal,
//! value and u are mean and standard deviation of the quantity itself, not of its logarithm.

use super::Correlation;
use crate::error::{Error, all_finite};
use nalgebra::DMatrix;
use serde::{Deserialize, Serialize};

/// Eigenvalues down to this are rounding of the coefficients (three printed digits of exactly
/// dependent quantities reach −1e-3 at most; those are refused: give more digits).
const EIGENVALUE_ROUNDING: f64 = -1e-9;

/// The shape of what is known.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Distribution {
    /// Normal.
    Normal,
    /// t with the input's degrees of freedom, shifted and scaled.
    T,
    /// Rectangular, half-width √3·u.
    Rectangular,
    /// Symmetric triangular, half-width √6·u.
    Triangular,
    /// Arcsine (a cycle seen at any time), half-width √2·u.
    Arcsine,
    /// Rectangular whose ends are known to ± `end` only, half-width `half_width` (JCGM 101 6.4.3).
    RoundedRectangular {
        /// Half of the width between the middle of the ends.
        half_width: f64,
        /// Each end lies within ± this.
        end: f64,
    },
    /// Counts: a Poisson number with expectation `value`; u is √value.
    Poisson,
    /// The expectation behind q observed counts, gamma(q + 1): `value` is q + 1, u is √(q + 1)
    /// (JCGM 101 6.4.11).
    Counts,
    /// Lognormal.
    Lognormal,
}

/// One input quantity.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Name, as the model and the budget have it.
    pub name: String,
    /// Best estimate.
    pub value: f64,
    /// Standard uncertainty; 0 for a constant.
    pub u: f64,
    /// Degrees of freedom of u; infinite where it is taken as known.
    pub dof: f64,
    /// Shape.
    pub distribution: Distribution,
}

impl Input {
    fn with(name: &str, value: f64, u: f64, distribution: Distribution) -> Self {
        Self { name: name.to_string(), value, u, dof: f64::INFINITY, distribution }
    }

    /// Normal with u.
    pub fn normal(name: &str, value: f64, u: f64) -> Self {
        Self::with(name, value, u, Distribution::Normal)
    }

    /// t with scale u and degrees of freedom.
    pub fn t(name: &str, value: f64, u: f64, dof: f64) -> Self {
        Self { dof, ..Self::with(name, value, u, Distribution::T) }
    }

    /// Rectangular between value ± half-width.
    pub fn rectangular(name: &str, value: f64, half_width: f64) -> Self {
        Self::with(name, value, half_width / 3.0_f64.sqrt(), Distribution::Rectangular)
    }

    /// Symmetric triangular between value ± half-width.
    pub fn triangular(name: &str, value: f64, half_width: f64) -> Self {
        Self::with(name, value, half_width / 6.0_f64.sqrt(), Distribution::Triangular)
    }

    /// Arcsine between value ± half-width.
    pub fn arcsine(name: &str, value: f64, half_width: f64) -> Self {
        Self::with(name, value, half_width / std::f64::consts::SQRT_2, Distribution::Arcsine)
    }

    /// Rectangular with ends known to ± `end` (JCGM 101 6.4.3: u² = a²/3 + end²/9).
    pub fn rounded_rectangular(name: &str, value: f64, half_width: f64, end: f64) -> Self {
        let u = (half_width * half_width / 3.0 + end * end / 9.0).sqrt();
        Self::with(name, value, u, Distribution::RoundedRectangular { half_width, end })
    }

    /// A Poisson number with the expectation given.
    pub fn poisson(name: &str, expectation: f64) -> Self {
        Self::with(name, expectation, expectation.max(0.0).sqrt(), Distribution::Poisson)
    }

    /// The expectation behind q observed counts.
    pub fn counts(name: &str, q: f64) -> Self {
        Self::with(name, q + 1.0, (q + 1.0).max(0.0).sqrt(), Distribution::Counts)
    }

    /// Lognormal with mean and standard deviation.
    pub fn lognormal(name: &str, value: f64, u: f64) -> Self {
        Self::with(name, value, u, Distribution::Lognormal)
    }

    /// The same with degrees of freedom of u.
    #[must_use]
    pub fn with_dof(mut self, dof: f64) -> Self {
        self.dof = dof;
        self
    }

    pub(super) fn check(&self) -> Result<(), Error> {
        all_finite(&self.name, &[self.value, self.u])?;
        let refuse = |what: &str, value: f64, range: &'static str| {
            Err(Error::OutOfRange { what: format!("{} of {}", what, self.name), value, range })
        };
        if self.u < 0.0 {
            return refuse("u", self.u, "0 or more");
        }
        if self.dof.is_nan() || self.dof <= 0.0 {
            return refuse("dof", self.dof, "more than 0");
        }
        match self.distribution {
            Distribution::Poisson if self.value < 0.0 => refuse("value", self.value, "0 counts or more"),
            Distribution::Counts if self.value < 1.0 => refuse("value", self.value, "1 or more (q + 1 of q counts)"),
            Distribution::Lognormal if self.value <= 0.0 => refuse("value", self.value, "more than 0 for a lognormal"),
            Distribution::RoundedRectangular { half_width, end }
                if !(end >= 0.0 && half_width >= end && half_width.is_finite()) =>
            {
                refuse("end", end, "between 0 and the half-width")
            }
            _ => Ok(()),
        }
    }
}

/// The full correlation matrix, checked.
pub(super) fn correlation_matrix(inputs: &[Input], correlations: &[Correlation]) -> Result<Vec<f64>, Error> {
    let n = inputs.len();
    let mut m = vec![0.0; n * n];
    for i in 0..n {
        m[i * n + i] = 1.0;
    }
    let mut largest = (0.0, String::new());
    for c in correlations {
        let pair = format!("{}–{}", inputs[c.a].name, inputs[c.b].name);
        if c.r.is_nan() || c.r.abs() > 1.0 || c.a == c.b {
            return Err(Error::OutOfRange {
                what: format!("correlation {pair}"),
                value: c.r,
                range: "-1 to 1, between two different inputs",
            });
        }
        m[c.a * n + c.b] = c.r;
        m[c.b * n + c.a] = c.r;
        if c.r.abs() > largest.0 {
            largest = (c.r.abs(), pair);
        }
    }
    let eigen = DMatrix::from_row_slice(n, n, &m).symmetric_eigen();
    let smallest = eigen.eigenvalues.min();
    if smallest < EIGENVALUE_ROUNDING {
        return Err(Error::NotSemidefinite { smallest, pair: largest.1 });
    }
    Ok(m)
}

/// A matrix L with L·Lᵀ = the correlations among `group`, row-major.
pub(super) fn correlation_root(n: usize, all: &[f64], group: &[usize]) -> Vec<f64> {
    let k = group.len();
    let part = DMatrix::from_fn(k, k, |i, j| all[group[i] * n + group[j]]);
    let eigen = part.symmetric_eigen();
    let mut root = vec![0.0; k * k];
    for i in 0..k {
        for j in 0..k {
            root[i * k + j] = eigen.eigenvectors[(i, j)] * eigen.eigenvalues[j].max(0.0).sqrt();
        }
    }
    root
}
