//! Outlier tests: Grubbs (one, and two on one side), Dixon, Cochran.
//!
//! In: values (or variances) of one kind in any unit; out: the statistic, the critical value at
//! the level asked for, the probability of such a value under normal scatter, and which values it
//! concerns. Nothing is ever removed here: a person excludes a value, with a reason.
//! Grubbs single: critical value by t (Grubbs 1969, Technometrics 11:1), exact where two values
//! cannot both exceed it, slightly careful beyond n ≈ 20. Grubbs double (SS without the two
//! outermost over SS; ISO 5725-2) has no closed form: its probability is simulated, 200,000 fixed
//! draws, standard error stated. Dixon's Q = gap/range: exact double integral over the normal
//! order statistics. Cochran: inclusion–exclusion to second order over the shares of variance,
//! good to 1e-4 in probability at 5 %. Checked in `tests/outlier.rs`.

// A range or a variance of exactly zero is a case of its own.
#![allow(clippy::float_cmp)]

use crate::error::{Error, all_finite};
use crate::robust::mean_sd;
use rand::rngs::ChaCha8Rng;
use rand::{Rng, SeedableRng};
use serde::{Deserialize, Serialize};
use statistics::{beta, brent, normal, t};

/// Which values may be outlying.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// The largest only.
    High,
    /// The smallest only.
    Low,
    /// Either.
    #[default]
    Both,
}

/// The answer of a test.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Test {
    /// The statistic.
    pub statistic: f64,
    /// Its critical value at `alpha`; the double Grubbs is outlying below it, the others above.
    pub critical: f64,
    /// Significance level.
    pub alpha: f64,
    /// Probability of a statistic as extreme under normal scatter.
    pub p: f64,
    /// Places (from 0) of the values that the statistic is about.
    pub places: Vec<usize>,
    /// p < alpha.
    pub outlying: bool,
}

fn checked(values: &[f64], needed: usize, alpha: f64) -> Result<(f64, f64), Error> {
    all_finite("values", values)?;
    if values.len() < needed {
        return Err(Error::TooFew { what: "values", found: values.len(), needed });
    }
    level(alpha)?;
    let (mean, sd) = mean_sd(values)?;
    if sd == 0.0 {
        return Err(Error::OutOfRange {
            what: "scatter of the values".into(),
            value: 0.0,
            range: "more than 0: all values are the same, so none is outlying",
        });
    }
    Ok((mean, sd))
}

fn level(alpha: f64) -> Result<(), Error> {
    if alpha > 0.0 && alpha < 0.5 {
        return Ok(());
    }
    Err(Error::OutOfRange { what: "alpha".into(), value: alpha, range: "between 0 and 0.5" })
}

/// The place of the value furthest out on `side`, and its side.
fn furthest(values: &[f64], centre: f64, side: Side) -> usize {
    let out = |v: f64| match side {
        Side::High => v - centre,
        Side::Low => centre - v,
        Side::Both => (v - centre).abs(),
    };
    let mut best = 0;
    for (i, v) in values.iter().enumerate() {
        if out(*v) > out(values[best]) {
            best = i;
        }
    }
    best
}

/// Critical value of Grubbs' G for n values.
pub fn grubbs_critical(n: usize, alpha: f64, side: Side) -> f64 {
    let n = n as f64;
    let sides = if side == Side::Both { 2.0 } else { 1.0 };
    let q = t::upper_quantile(alpha / (sides * n), n - 2.0);
    (n - 1.0) / n.sqrt() * (q * q / (n - 2.0 + q * q)).sqrt()
}

/// Grubbs' test for one outlying value, n ≥ 3.
///
/// # Errors
/// [`Error::TooFew`], [`Error::NotFinite`], [`Error::OutOfRange`] where all values are the same.
///
/// ```
/// use measurement::outlier::{Side, grubbs};
/// // Two high blanks hide each other: with both in, neither stands out.
/// assert!(!grubbs(&[0.1, 0.12, 0.11, 0.09, 0.9, 0.95], 0.05, Side::High)?.outlying);
/// // Equal values have no scatter to stand out of.
/// assert!(grubbs(&[0.1; 5], 0.05, Side::High).is_err());
/// # Ok::<(), measurement::error::Error>(())
/// ```
pub fn grubbs(values: &[f64], alpha: f64, side: Side) -> Result<Test, Error> {
    let (mean, sd) = checked(values, 3, alpha)?;
    let place = furthest(values, mean, side);
    let g = match side {
        Side::High => values[place] - mean,
        Side::Low => mean - values[place],
        Side::Both => (values[place] - mean).abs(),
    } / sd;
    let n = values.len() as f64;
    let sides = if side == Side::Both { 2.0 } else { 1.0 };
    let room = (n - 1.0) * (n - 1.0) - n * g * g;
    let p = if room <= 0.0 {
        0.0
    } else {
        let t2 = n * (n - 2.0) * g * g / room;
        (sides * n * t::sf(t2.sqrt().copysign(g), n - 2.0)).min(1.0)
    };
    Ok(Test {
        statistic: g,
        critical: grubbs_critical(values.len(), alpha, side),
        alpha,
        p,
        places: vec![place],
        outlying: p < alpha,
    })
}

/// Draws of the double Grubbs distribution.
const SIMULATIONS: usize = 200_000;

/// Grubbs' test for two outlying values on one side, n ≥ 4: sum of squares without them over the
/// whole sum of squares. `side` must be [`Side::High`] or [`Side::Low`]; for [`Side::Both`] the
/// smaller of the two statistics is taken and counted twice.
///
/// # Errors
/// As [`grubbs`].
pub fn grubbs_double(values: &[f64], alpha: f64, side: Side) -> Result<Test, Error> {
    checked(values, 4, alpha)?;
    let n = values.len();
    let mut order: Vec<usize> = (0..n).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    let sorted: Vec<f64> = order.iter().map(|i| values[*i]).collect();
    let high = double_ratio(&sorted[..n - 2], &sorted);
    let low = double_ratio(&sorted[2..], &sorted);
    let upper = match side {
        Side::High => true,
        Side::Low => false,
        Side::Both => high <= low,
    };
    let (statistic, places) =
        if upper { (high, vec![order[n - 1], order[n - 2]]) } else { (low, vec![order[0], order[1]]) };
    let sides = if side == Side::Both { 2.0 } else { 1.0 };
    let drawn = double_draws(n);
    let below = drawn.partition_point(|v| *v <= statistic);
    let p = (sides * (below as f64 + 0.5) / SIMULATIONS as f64).min(1.0);
    let rank = (alpha / sides * SIMULATIONS as f64) as usize;
    Ok(Test { statistic, critical: drawn[rank.min(SIMULATIONS - 1)], alpha, p, places, outlying: p < alpha })
}

fn squares(values: &[f64]) -> f64 {
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    values.iter().map(|v| (v - mean) * (v - mean)).sum()
}

fn double_ratio(without: &[f64], all: &[f64]) -> f64 {
    squares(without) / squares(all)
}

/// The statistic of n normal values, drawn with a fixed seed, sorted.
fn double_draws(n: usize) -> Vec<f64> {
    let mut rng = ChaCha8Rng::seed_from_u64(5725);
    let mut x = vec![0.0; n];
    let mut out = Vec::with_capacity(SIMULATIONS);
    for _ in 0..SIMULATIONS {
        let mut k = 0;
        while k < n {
            // Marsaglia's polar method: two normal values at a time.
            let a = unit(&mut rng);
            let b = unit(&mut rng);
            let s = a * a + b * b;
            if s >= 1.0 || s == 0.0 {
                continue;
            }
            let f = (-2.0 * libm::log(s) / s).sqrt();
            x[k] = a * f;
            if k + 1 < n {
                x[k + 1] = b * f;
            }
            k += 2;
        }
        // The two largest to the end; the rest in any order.
        x.select_nth_unstable_by(n - 2, f64::total_cmp);
        out.push(double_ratio(&x[..n - 2], &x));
    }
    out.sort_unstable_by(f64::total_cmp);
    out
}

fn unit(rng: &mut ChaCha8Rng) -> f64 {
    // −1 to 1 in steps of 2^−52.
    (rng.next_u64() >> 11) as f64 / 4_503_599_627_370_496.0 - 1.0
}

/// Dixon's Q = gap of the outermost value over the range, n = 3 to 30.
///
/// # Errors
/// As [`grubbs`]; over 30 values the test is refused: neighbours hide each other.
pub fn dixon(values: &[f64], alpha: f64, side: Side) -> Result<Test, Error> {
    checked(values, 3, alpha)?;
    let n = values.len();
    if n > 30 {
        return Err(Error::OutOfRange {
            what: "number of values for Dixon's test".into(),
            value: n as f64,
            range: "3 to 30",
        });
    }
    let mut order: Vec<usize> = (0..n).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    let at = |k: usize| values[order[k]];
    let range = at(n - 1) - at(0);
    let high = (at(n - 1) - at(n - 2)) / range;
    let low = (at(1) - at(0)) / range;
    let upper = match side {
        Side::High => true,
        Side::Low => false,
        Side::Both => high >= low,
    };
    let statistic = if upper { high } else { low };
    let place = order[if upper { n - 1 } else { 0 }];
    let p = dixon_p(statistic, n, side == Side::Both);
    Ok(Test { statistic, critical: dixon_critical(n, alpha, side), alpha, p, places: vec![place], outlying: p < alpha })
}

/// Critical value of Dixon's Q for n values, by the exact integral.
pub fn dixon_critical(n: usize, alpha: f64, side: Side) -> f64 {
    brent(|q| libm::log(dixon_p(q, n, side == Side::Both)) - libm::log(alpha), 1e-9, 1.0 - 1e-9)
}

/// P(Q > q) of n normal values: with the lowest at x and the range w, all others lie under
/// x + w(1 − q). For both sides P(high) + P(low) − P(both).
fn dixon_p(q: f64, n: usize, both: bool) -> f64 {
    let one = dixon_integral(n, 0.0, 1.0 - q);
    if !both {
        return one;
    }
    let joint = if q < 0.5 { dixon_integral(n, q, 1.0 - q) } else { 0.0 };
    2.0 * one - joint
}

/// ∫∫ n(n−1) φ(x) φ(x+w) [Φ(x + b·w) − Φ(x + a·w)]^(n−2) dw dx by the trapezoidal rule.
fn dixon_integral(n: usize, a: f64, b: f64) -> f64 {
    // 160 steps to 16 standard deviations: the integrand is smooth and dies off at both ends.
    const STEPS: i32 = 160;
    let h = 0.1;
    let power = i32::try_from(n - 2).expect("n ≤ 30");
    let mut sum = 0.0;
    for i in 1..STEPS {
        let x = -8.0 + h * f64::from(i);
        let fx = normal::pdf(x);
        let base = (a == 0.0).then(|| normal::cdf(x));
        // The inner integrand starts at 0 for n > 2, where the rule's end has no weight.
        for j in 1..STEPS {
            let w = h * f64::from(j);
            let between = normal::cdf(x + b * w) - base.unwrap_or_else(|| normal::cdf(x + a * w));
            let mut inside = 1.0;
            for _ in 0..power {
                inside *= between;
            }
            sum += fx * normal::pdf(x + w) * inside;
        }
    }
    let n = n as f64;
    // The lower end of w is not smooth (it starts as w^(n−2)); Euler–Maclaurin for n = 3.
    let correction = if power == 1 {
        let slope: f64 = (1..STEPS).map(|i| normal::pdf(-8.0 + h * f64::from(i)).powi(3)).sum::<f64>() * (b - a);
        slope * h / 12.0
    } else {
        0.0
    };
    n * (n - 1.0) * h * (h * sum + correction * h)
}

/// Cochran's test for one outlying variance among p, each of `replicates` values.
///
/// # Errors
/// [`Error::TooFew`] under two groups or two replicates; [`Error::OutOfRange`] for a negative
/// variance or where all are zero.
pub fn cochran(variances: &[f64], replicates: usize, alpha: f64) -> Result<Test, Error> {
    all_finite("variances", variances)?;
    level(alpha)?;
    for (what, found) in [("groups", variances.len()), ("replicates", replicates)] {
        if found < 2 {
            return Err(Error::TooFew { what, found, needed: 2 });
        }
    }
    let total: f64 = variances.iter().sum();
    if total <= 0.0 || variances.iter().any(|v| *v < 0.0) {
        return Err(Error::OutOfRange {
            what: "variances".into(),
            value: total,
            range: "0 or more each, and not all 0",
        });
    }
    let place = furthest(variances, 0.0, Side::High);
    let c = variances[place] / total;
    let p = cochran_p(c, variances.len(), replicates);
    Ok(Test {
        statistic: c,
        critical: cochran_critical(variances.len(), replicates, alpha),
        alpha,
        p,
        places: vec![place],
        outlying: p < alpha,
    })
}

/// Critical share of the largest variance among `groups`.
pub fn cochran_critical(groups: usize, replicates: usize, alpha: f64) -> f64 {
    // The first-order bound lies above the answer, the one for twice alpha below it.
    let p = groups as f64;
    let a = 0.5 * (replicates as f64 - 1.0);
    let bound = |alpha: f64| beta::upper_quantile(alpha / p, a, (p - 1.0) * a);
    let high = bound(alpha);
    if high >= 0.5 || groups < 3 {
        return high;
    }
    brent(|c| cochran_p(c, groups, replicates) - alpha, bound((2.0 * alpha).min(0.9)), high)
}

/// P(largest share > c): the shares are Dirichlet with ν/2 each.
fn cochran_p(c: f64, groups: usize, replicates: usize) -> f64 {
    let p = groups as f64;
    let a = 0.5 * (replicates as f64 - 1.0);
    let single = p * beta::tails(c, a, (p - 1.0) * a).upper;
    if c >= 0.5 || groups < 3 {
        return single.min(1.0);
    }
    if single > 0.5 {
        // Far from any critical value the shares count as independent.
        return 1.0 - libm::pow(1.0 - (single / p).min(1.0), p);
    }
    // Two shares over c together: one at x, the other over c/(1 − x) of the rest. The tail
    // function takes the place of the density: ∫ (−dS) P2, in 400 steps of x.
    let steps = 400;
    let width = (1.0 - 2.0 * c) / f64::from(steps);
    let upper = |x: f64| beta::tails(x, a, (p - 1.0) * a).upper;
    let mut pair = 0.0;
    let mut before = upper(c);
    for k in 0..steps {
        let (x0, x1) = (c + width * f64::from(k), c + width * f64::from(k + 1));
        let after = upper(x1);
        let other = beta::tails(c / (1.0 - 0.5 * (x0 + x1)), a, (p - 2.0) * a).upper;
        pair += (before - after) * other;
        before = after;
    }
    (single - 0.5 * p * (p - 1.0) * pair).clamp(0.0, 1.0)
}
