//! Location and scatter: mean and sd without loss of digits, the robust pair of ISO 13528
//! (algorithm A), and the analysis of variance of a balanced nested design.
//!
//! In: values of one kind in any unit; out: in the same unit. Algorithm A (ISO 13528:2015 annex C;
//! Huber's proposal 2 with k = 1.5) starts from median and scaled median deviation, pulls values
//! in to ±1.5 s and iterates to a fixed point; its u is 1.25·s/√p. It holds for up to about 20 % of
//! outlying values; where more than half of the values are the same there is no robust scatter,
//! and it is refused. The analysis of variance is that of JCGM 100 H.5.
//! Checked in `tests/robust.rs`.

use crate::dd::Dd;
use crate::error::{Error, all_finite};
use serde::Serialize;
use statistics::{f, sample};

/// Mean and standard deviation (n − 1), carried in double-double arithmetic: for control and outlier
/// tests, where values of eight digits differ in the last. Elsewhere [`sample::mean_sd`] in plain f64.
///
/// # Errors
/// [`Error::TooFew`] under two values, [`Error::NotFinite`].
pub fn mean_sd(values: &[f64]) -> Result<(f64, f64), Error> {
    let (mean, squares) = moments(values)?;
    let sd = (squares / Dd::from(values.len() as f64 - 1.0)).sqrt();
    // Numbers near the end of the range of f64 overflow here.
    all_finite("mean and sd", &[mean.value(), sd.value()])?;
    Ok((mean.value(), sd.value()))
}

/// Correlation of each value with the next: Σ(y_i − ȳ)(y_{i−1} − ȳ)/Σ(y_i − ȳ)².
///
/// # Errors
/// As [`mean_sd`]; [`Error::ZeroDenominator`] where all values are the same.
pub fn lag_one_autocorrelation(values: &[f64]) -> Result<f64, Error> {
    let (mean, squares) = moments(values)?;
    if squares.value() <= 0.0 {
        return Err(Error::ZeroDenominator { what: "the scatter of the values".into() });
    }
    let d = |v: f64| Dd::from(v) - mean;
    let cross: Dd = values.windows(2).map(|w| d(w[0]) * d(w[1])).sum();
    Ok((cross / squares).value())
}

fn moments(values: &[f64]) -> Result<(Dd, Dd), Error> {
    all_finite("values", values)?;
    if values.len() < 2 {
        return Err(Error::TooFew { what: "values", found: values.len(), needed: 2 });
    }
    let n = Dd::from(values.len() as f64);
    let mean = values.iter().map(|v| Dd::from(*v)).sum::<Dd>() / n;
    let squares = values.iter().map(|v| (Dd::from(*v) - mean) * (Dd::from(*v) - mean)).sum();
    Ok((mean, squares))
}

/// Median.
///
/// # Errors
/// [`Error::TooFew`] without values, [`Error::NotFinite`].
pub fn median(values: &[f64]) -> Result<f64, Error> {
    all_finite("values", values)?;
    sample::median(values).ok_or(Error::TooFew { what: "values", found: 0, needed: 1 })
}

/// Robust mean and standard deviation.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Robust {
    /// Robust mean x*.
    pub mean: f64,
    /// Robust standard deviation s*.
    pub sd: f64,
    /// u(x*) = 1.25·s*/√p.
    pub u_mean: f64,
    /// Values pulled in at the fixed point.
    pub pulled_in: usize,
    /// Iterations made.
    pub iterations: usize,
}

/// ISO 13528 annex C: values further out than this many s are pulled in.
const PULL: f64 = 1.5;
/// ISO 13528 annex C: makes s* right for normal values pulled in at 1.5 s.
const SD_FACTOR: f64 = 1.134;
/// ISO 13528 annex C: scaled median of absolute deviations.
const MAD_FACTOR: f64 = 1.483;
/// ISO 13528 7.7.3: efficiency of the robust mean.
const U_FACTOR: f64 = 1.25;
/// Iterations allowed; the process converges linearly and needs 20 to 60.
const MAX_ITERATIONS: usize = 2000;

/// ISO 13528 algorithm A.
///
/// # Errors
/// [`Error::TooFew`] under three values; [`Error::OutOfRange`] where half of the values or more
/// are the same number; [`Error::NotConverged`].
///
/// ```
/// use measurement::robust::algorithm_a;
/// // One spike among seven moves the middle little, however far out it lies.
/// let spiked = algorithm_a(&[4.5, 4.9, 5.6, 4.2, 6.2, 5.2, 9900.0])?;
/// assert!((spiked.mean - 5.39).abs() < 0.01 && spiked.pulled_in == 1);
/// // Where half of the values are one number there is no robust scatter, and none is made up.
/// assert!(algorithm_a(&[1.0, 1.0, 1.0, 5.0]).is_err());
/// # Ok::<(), measurement::error::Error>(())
/// ```
pub fn algorithm_a(values: &[f64]) -> Result<Robust, Error> {
    let p = values.len();
    if p < 3 {
        return Err(Error::TooFew { what: "values", found: p, needed: 3 });
    }
    let mut mean = median(values)?;
    let deviations: Vec<f64> = values.iter().map(|v| (v - mean).abs()).collect();
    let mut sd = MAD_FACTOR * median(&deviations)?;
    // From s = 0 every value is pulled onto the median and s stays 0: a fixed point that says nothing of scatter.
    if sd <= 0.0 {
        return Err(Error::OutOfRange {
            what: "median deviation of the values".into(),
            value: sd,
            range: "more than 0: half of the values or more are the same number",
        });
    }
    let n = p as f64;
    let mut change = f64::INFINITY;
    for iterations in 1..=MAX_ITERATIONS {
        let (low, high) = (mean - PULL * sd, mean + PULL * sd);
        let pulled = |v: &f64| v.clamp(low, high);
        let next = values.iter().map(pulled).sum::<f64>() / n;
        let squares: f64 = values.iter().map(|v| (pulled(v) - next).powi(2)).sum();
        let next_sd = SD_FACTOR * (squares / (n - 1.0)).sqrt();
        change = ((next - mean).abs() + (next_sd - sd).abs()) / next_sd;
        (mean, sd) = (next, next_sd);
        if change < 1e-12 {
            return Ok(Robust {
                mean,
                sd,
                u_mean: U_FACTOR * sd / n.sqrt(),
                pulled_in: values.iter().filter(|v| **v < low || **v > high).count(),
                iterations,
            });
        }
    }
    Err(Error::NotConverged { what: "algorithm A", iterations: MAX_ITERATIONS, residual: change })
}

/// Within and between groups of equal size.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Nested {
    /// Mean of all.
    pub mean: f64,
    /// sd within a group, from all groups.
    pub sd_within: f64,
    /// J·(K − 1).
    pub dof_within: usize,
    /// sd of one group's mean: scatter of the group means.
    pub sd_group_means: f64,
    /// J − 1.
    pub dof_between: usize,
    /// K·s²(means)/s²(within).
    pub f: f64,
    /// P(F ≥ f) without an effect of the groups.
    pub p: f64,
    /// sd of the effect of the groups themselves; 0 where the scatter of the means is no more
    /// than that within explains.
    pub sd_between: f64,
    /// u of the mean of all with the groups as the units: s(means)/√J.
    pub u_mean: f64,
}

/// Analysis of variance from the means and sds of J groups of K values (JCGM 100 H.5).
///
/// # Errors
/// [`Error::TooFew`] under two groups or two values each, [`Error::Length`], [`Error::NotFinite`],
/// [`Error::ZeroDenominator`] where nothing scatters within.
pub fn nested(means: &[f64], sds: &[f64], k: usize) -> Result<Nested, Error> {
    crate::error::same_length("sds", sds.len(), means.len())?;
    all_finite("sds", sds)?;
    if k < 2 {
        return Err(Error::TooFew { what: "values of a group", found: k, needed: 2 });
    }
    let j = means.len();
    let (mean, sd_means) = mean_sd(means)?;
    let within = sds.iter().map(|s| s * s).sum::<f64>() / j as f64;
    if within <= 0.0 {
        return Err(Error::ZeroDenominator { what: "the scatter within the groups".into() });
    }
    let between = sd_means * sd_means;
    let ratio = k as f64 * between / within;
    let (d1, d2) = (j - 1, j * (k - 1));
    Ok(Nested {
        mean,
        sd_within: within.sqrt(),
        dof_within: d2,
        sd_group_means: sd_means,
        dof_between: d1,
        f: ratio,
        p: f::sf(ratio, d1 as f64, d2 as f64),
        sd_between: (between - within / k as f64).max(0.0).sqrt(),
        u_mean: sd_means / (j as f64).sqrt(),
    })
}
