//! Limits of a population: how high do such values go? In: sorted values or counts; out: limits
//! in the unit of the values, or shares.
//!
//! * Clopper–Pearson limits of a share, exact Poisson limits of a count.
//! * Order-statistic limits of a percentile: no shape assumed, non-detects allowed.
//! * Tolerance limits (a stated share of all values lies below) and prediction limits (the next
//!   m values lie below) under a normal or lognormal shape.
//!
//! Sources: Clopper & Pearson (1934) Biometrika 26:404; Garwood (1936) Biometrika 28:437; Hahn &
//! Meeker, Statistical Intervals (1991) ch. 4 and 5 (from memory). Tolerance factors are the
//! exact noncentral-t ones, not an approximation. Not for trending series: a limit of a
//! population needs values that are alike. Checked in `tests/handbook.rs`.

use crate::{Error, Reading, rows};
use statistics::{binomial, noncentral, poisson, sample::mean_sd, t};

/// Refuses a probability outside (0, 1).
fn check_share(name: &'static str, value: f64) -> Result<(), Error> {
    if value > 0.0 && value < 1.0 {
        Ok(())
    } else {
        Err(Error::OutOfRange { name, value, allowed: "more than 0 and less than 1" })
    }
}

fn check_trials(k: u64, n: u64) -> Result<(), Error> {
    if n == 0 || k > n {
        return Err(Error::OutOfRange {
            name: "number found",
            value: k as f64,
            allowed: "0 to the number of trials, which is at least 1",
        });
    }
    Ok(())
}

/// Upper one-sided Clopper–Pearson limit of a share: `k` of `n`.
///
/// # Errors
/// [`Error::OutOfRange`] for k > n, n = 0, or a confidence outside (0, 1).
pub fn clopper_pearson_upper(k: u64, n: u64, confidence: f64) -> Result<f64, Error> {
    check_trials(k, n)?;
    check_share("confidence", confidence)?;
    Ok(binomial::upper_limit(k, n, 1.0 - confidence))
}

/// Lower one-sided Clopper–Pearson limit of a share.
///
/// # Errors
/// As [`clopper_pearson_upper`].
pub fn clopper_pearson_lower(k: u64, n: u64, confidence: f64) -> Result<f64, Error> {
    check_trials(k, n)?;
    check_share("confidence", confidence)?;
    Ok(binomial::lower_limit(k, n, 1.0 - confidence))
}

/// Two-sided Clopper–Pearson interval.
///
/// # Errors
/// As [`clopper_pearson_upper`].
pub fn clopper_pearson(k: u64, n: u64, confidence: f64) -> Result<(f64, f64), Error> {
    check_share("confidence", confidence)?;
    let side = 0.5 * (1.0 + confidence);
    Ok((clopper_pearson_lower(k, n, side)?, clopper_pearson_upper(k, n, side)?))
}

/// Two-sided exact limits of the mean of a Poisson count.
///
/// # Errors
/// [`Error::OutOfRange`] for a confidence outside (0, 1).
pub fn poisson_interval(count: u64, confidence: f64) -> Result<(f64, f64), Error> {
    check_share("confidence", confidence)?;
    let tail = 0.5 * (1.0 - confidence);
    Ok((poisson::lower_limit(count, tail), poisson::upper_limit(count, tail)))
}

/// How many of the ranks 1 to n, from the lowest on, meet a condition that fails for good.
fn ranks_while(n: usize, holds: impl Fn(usize) -> bool) -> usize {
    let (mut yes, mut no) = (0, n + 1);
    while no - yes > 1 {
        let middle = usize::midpoint(yes, no);
        if holds(middle) {
            yes = middle;
        } else {
            no = middle;
        }
    }
    yes
}

/// Ranks (from 1) of the two ordered values that enclose a percentile with at least the
/// confidence: the ranks of the binomial tails, each tail at most half of what is left over.
/// `None` on a side where no rank reaches it.
///
/// # Errors
/// [`Error::OutOfRange`] for a share or confidence outside (0, 1).
pub fn percentile_ranks(n: usize, share: f64, confidence: f64) -> Result<(Option<usize>, Option<usize>), Error> {
    check_share("share", share)?;
    check_share("confidence", confidence)?;
    let tail = 0.5 * (1.0 - confidence);
    let below = |k: usize| binomial::below(k as u64, n as u64, share);
    // Largest l with P(X ≤ l − 1) ≤ tail; smallest u with P(X ≤ u − 1) ≥ 1 − tail.
    let low = ranks_while(n, |k| below(k) <= tail);
    let high = ranks_while(n, |k| below(k) < 1.0 - tail) + 1;
    let (low, high) = ((low > 0).then_some(low), (high <= n).then_some(high));
    Ok((low, high))
}

/// Rank (from 1) of the ordered value that bounds a percentile from above with one-sided
/// confidence; `None` where even the highest value does not.
///
/// # Errors
/// [`Error::OutOfRange`] for a share or confidence outside (0, 1).
pub fn percentile_upper_rank(n: usize, share: f64, confidence: f64) -> Result<Option<usize>, Error> {
    check_share("share", share)?;
    check_share("confidence", confidence)?;
    let rank = 1 + ranks_while(n, |k| binomial::below(k as u64, n as u64, share) < confidence);
    Ok((rank <= n).then_some(rank))
}

/// Upper limit of a percentile from the ordered values, non-detects among them. A non-detect
/// stands at its limit in the order, and is answered as "below" it.
///
/// # Errors
/// [`Error::TooFew`] where n is too small for the confidence; see [`percentile_upper_rank`].
///
/// ```
/// use series::Reading::{Below, Known};
/// use series::population::percentile_upper;
/// // Ten values cannot bound a 95th percentile at 95 %: it takes 59.
/// let ten = [Below(0.3), Known(0.4), Known(0.5), Known(0.6), Known(0.6), Known(0.7), Known(0.8), Known(0.9),
///     Known(1.1), Known(2.0)];
/// assert!(matches!(percentile_upper(&ten, 0.95, 0.95), Err(series::Error::TooFew { needed: 59, .. })));
/// // The median they do bound.
/// assert_eq!(percentile_upper(&ten, 0.5, 0.95)?, Known(1.1));
/// # Ok::<(), series::Error>(())
/// ```
pub fn percentile_upper(readings: &[Reading], share: f64, confidence: f64) -> Result<Reading, Error> {
    rows::check_finite(readings)?;
    let mut ordered = readings.to_vec();
    ordered.sort_by(|a, b| a.bound().total_cmp(&b.bound()).then(a.is_known().cmp(&b.is_known())));
    match percentile_upper_rank(ordered.len(), share, confidence)? {
        Some(k) => Ok(ordered[k - 1]),
        None => Err(Error::TooFew {
            what: "an order-statistic limit at this confidence",
            found: ordered.len(),
            needed: libm::ceil(libm::log(1.0 - confidence) / libm::log(share)) as usize,
        }),
    }
}

/// The shape assumed for parametric limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Values themselves are normal.
    Normal,
    /// Logarithms of the values are normal.
    Lognormal,
}

fn moments(values: &[f64], shape: Shape) -> Result<(f64, f64), Error> {
    if values.len() < 2 {
        return Err(Error::TooFew { what: "a tolerance or prediction limit", found: values.len(), needed: 2 });
    }
    let readings: Vec<Reading> = values.iter().map(|v| Reading::Known(*v)).collect();
    rows::check_finite(&readings)?;
    if shape == Shape::Lognormal {
        rows::check_positive(&readings, "a lognormal limit")?;
    }
    let y: Vec<f64> = values
        .iter()
        .map(|v| match shape {
            Shape::Normal => *v,
            Shape::Lognormal => libm::log(*v),
        })
        .collect();
    Ok(mean_sd(&y).expect("two values or more"))
}

fn back(y: f64, shape: Shape) -> f64 {
    match shape {
        Shape::Normal => y,
        Shape::Lognormal => libm::exp(y),
    }
}

/// Upper tolerance limit: with `confidence`, the `share` of all values lies below it.
///
/// # Errors
/// [`Error::TooFew`] under 2 values, [`Error::NotPositive`] under a lognormal,
/// [`Error::OutOfRange`] for share or confidence.
pub fn tolerance_upper(values: &[f64], shape: Shape, share: f64, confidence: f64) -> Result<f64, Error> {
    check_share("share", share)?;
    check_share("confidence", confidence)?;
    let (mean, sd) = moments(values, shape)?;
    let k = noncentral::tolerance_factor(values.len(), share, confidence);
    Ok(back(mean + k * sd, shape))
}

/// Upper prediction limit: with `confidence`, all of the next `future` values lie below it
/// (Bonferroni over the future values, so slightly on the high side for more than one).
///
/// # Errors
/// As [`tolerance_upper`].
pub fn prediction_upper(values: &[f64], shape: Shape, future: usize, confidence: f64) -> Result<f64, Error> {
    check_share("confidence", confidence)?;
    let (mean, sd) = moments(values, shape)?;
    let n = values.len() as f64;
    let t = t::upper_quantile((1.0 - confidence) / future.max(1) as f64, n - 1.0);
    Ok(back(mean + t * sd * libm::sqrt(1.0 + 1.0 / n), shape))
}

/// Confidence that the next `future` values all lie at or under the highest of `n`, whatever the
/// shape: n/(n + future).
pub fn highest_as_prediction(n: usize, future: usize) -> f64 {
    n as f64 / (n + future) as f64
}
