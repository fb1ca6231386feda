//! What a set of blanks says: where their middle is, how far they scatter, and which limit a
//! future blank (or a clean sample) will rarely exceed.
//!
//! In and out: any one unit. Three ways stand side by side because blanks of metals are skewed
//! with rare spikes: mean and standard deviation; Huber's robust location and scale
//! (winsorising at 1.5 scale units as in ISO 13528 annex C, algorithm A, from memory); order
//! statistics, which assume no shape at all and say "cannot be given" when there are too few.
//! Order statistics: the k-th smallest of n is an upper limit of the p-th percentile with
//! confidence P(Bin(n, p) ≤ k − 1) (Conover, Practical Nonparametric Statistics; US Geological
//! Survey SIR 2011-5204 uses it for field blanks).
//! Nested blanks (calibration ⊂ procedural ⊂ bottle ⊂ trip ⊂ field): one is subtracted, see
//! [`crate::run`]. Checked in `tests/blank.rs` against a table of ranks and published minima.

use statistics::sample::{Moments, median};

/// Middle and spread of a set, with what each member weighs in the middle.
#[derive(Debug, Clone, PartialEq)]
pub struct Centre {
    /// The middle.
    pub value: f64,
    /// Spread of single members (standard deviation, or its robust stand-in).
    pub sd: f64,
    /// Standard uncertainty of the middle.
    pub u: f64,
    /// ∂ middle / ∂ member; adds up to 1.
    pub weights: Vec<f64>,
    /// Whether it is Huber's: else mean and standard deviation, asked for or instead.
    pub robust: bool,
}

/// Mean and standard deviation; sd and u are not a number for fewer than two members, the mean for none.
pub fn centre(values: &[f64]) -> Centre {
    let n = values.len() as f64;
    let m = Moments::of(values);
    let sd = m.and_then(|m| m.sd()).unwrap_or(f64::NAN);
    Centre {
        value: m.map_or(f64::NAN, |m| m.mean),
        sd,
        u: sd / n.sqrt(),
        weights: vec![1.0 / n; values.len()],
        robust: false,
    }
}

/// Chance, over a set of good normal blanks, that the normal rule of [`outlier_limit`] names one: the programme's own
/// choice, small because blanks are skewed and raise it to several times as much.
const NORMAL_CHANCE: f64 = 0.005;
/// The same of the ratio rule and lognormal blanks: the programme's own choice.
const RATIO_CHANCE: f64 = 0.01;
/// Standard deviation of ln x of a lognormal law with coefficient of variation 1: √ln 2. Blanks of metals in the clean
/// rooms of open literature scatter less (from memory); the programme's own choice of what is still no outlier.
const WIDEST_LN_SD: f64 = 0.832_554_611_157_697_8;

/// The most that a blank shows beside `others` by chance; none without another. Units: any one.
///
/// The lower of two limits (one-sided, Bonferroni over the set of n blanks):
/// * normal: m + t(1 − 0.005/n, n − 2)·s·√(1 + 1/(n − 1)), m and s those of the others. Its t is 191 for three blanks and
///   20 for four, so that it names next to nothing there;
/// * by ratio: the geometric mean of the others times exp(z(1 − 0.01/n)·σ·√(1 + 1/(n − 1))), σ = √ln 2 the spread of a
///   lognormal law with coefficient of variation 1: 16 times for three blanks, 15 for four and for six. Blanks under
///   `measurement`, the u of one blank's own measurement, stand at it, and the limit is never within what that u makes.
pub fn outlier_limit(others: &[f64], measurement: f64) -> Option<f64> {
    let n = others.len() as f64 + 1.0;
    let m = Moments::of(others)?;
    let one_more = (1.0 + 1.0 / (n - 1.0)).sqrt();
    let normal = m
        .sd()
        .map_or(f64::INFINITY, |sd| m.mean + statistics::t::upper_quantile(NORMAL_CHANCE / n, n - 2.0) * sd * one_more);
    let z = statistics::normal::upper_quantile(RATIO_CHANCE / n);
    let logs: f64 = others.iter().map(|x| libm::log(x.max(measurement))).sum();
    let ratio = libm::exp(logs / (n - 1.0) + z * WIDEST_LN_SD * one_more);
    let above_zero = others.iter().all(|x| x.max(measurement) > 0.0);
    let by_ratio = if above_zero { ratio.max(m.mean + z * measurement * one_more) } else { f64::INFINITY };
    Some(normal.min(by_ratio))
}

/// Whether all members are the same number.
pub(crate) fn equal(values: &[f64]) -> bool {
    values.windows(2).all(|w| w[0].total_cmp(&w[1]).is_eq())
}

/// Winsorising at 1.5 scale units (ISO 13528:2015, C.3.1, from memory).
pub(crate) const CUT: f64 = 1.5;
/// Makes the winsorised standard deviation consistent at the normal law (ISO 13528:2015, C.3.1,
/// from memory).
pub(crate) const CONSISTENT: f64 = 1.134;
/// 1/Φ⁻¹(0.75): median absolute deviation to standard deviation at the normal law.
const MAD_TO_SD: f64 = 1.482_602_218_505_602;
// Five members with one far out draw near by a tenth a round and take 300 (simulated, 3 to 20 members, normal,
// lognormal and with a spike).
const MOST_ITERATIONS: usize = 2000;

/// Huber's location and scale. Where more than half the members are equal the robust scale is
/// zero and tells nothing; then, and should the rounds ever not settle, mean and standard deviation are given, and
/// `robust` says so.
pub fn robust_centre(values: &[f64]) -> Centre {
    let n = values.len() as f64;
    let Some(mut x) = median(values) else { return centre(values) };
    let deviations: Vec<f64> = values.iter().map(|v| (v - x).abs()).collect();
    let mut s = MAD_TO_SD * median(&deviations).unwrap_or(0.0);
    if s == 0.0 || values.len() < 3 {
        return centre(values);
    }
    let mut settled = false;
    for _ in 0..MOST_ITERATIONS {
        let cut = |v: f64| v.clamp(x - CUT * s, x + CUT * s);
        let mean = values.iter().map(|v| cut(*v)).sum::<f64>() / n;
        let ss: f64 = values.iter().map(|v| (cut(*v) - mean).powi(2)).sum();
        let scale = CONSISTENT * (ss / (n - 1.0)).sqrt();
        let moved = (mean - x).abs() + (scale - s).abs();
        (x, s) = (mean, scale);
        settled = moved <= 1e-12 * (x.abs() + s) || s == 0.0;
        if settled {
            break;
        }
    }
    if !settled {
        return centre(values);
    }
    let inside = |v: f64| (v - x).abs() <= CUT * s;
    let m = values.iter().filter(|v| inside(**v)).count() as f64;
    // Sandwich variance of an M-estimator: Σψ²/(Σψ')², with n − 1 for the fitted middle.
    let psi2: f64 = values.iter().map(|v| (v - x).clamp(-CUT * s, CUT * s).powi(2)).sum();
    Centre {
        value: x,
        sd: s,
        u: (psi2 * n / (n - 1.0)).sqrt() / m,
        weights: values.iter().map(|v| if inside(*v) { 1.0 / m } else { 0.0 }).collect(),
        robust: true,
    }
}

/// An upper limit from order statistics.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OrderLimit {
    /// The k-th smallest member is the limit, with the confidence achieved.
    Given {
        /// The limit.
        limit: f64,
        /// Its rank from below, 1 the smallest.
        rank: usize,
        /// Confidence achieved, at least the one asked for.
        confidence: f64,
    },
    /// Even the largest member does not reach the confidence.
    TooFew {
        /// Members needed at least.
        needed: usize,
        /// Confidence that the largest member reaches.
        largest_gives: f64,
    },
}

/// The upper confidence limit of a percentile: with `confidence`, no more than a share
/// 1 − `percentile` of all such blanks lies above it.
///
/// ```
/// use measurement::blank::{percentile_limit, OrderLimit};
/// // Ten blanks cannot bound their 95th percentile at 95 %: 59 could.
/// let ten = [0.1, 0.2, 0.1, 0.3, 0.2, 0.1, 0.2, 0.1, 0.4, 9.0];
/// let answer = percentile_limit(&ten, 0.95, 0.95);
/// assert!(matches!(answer, OrderLimit::TooFew { needed: 59, .. }));
/// ```
pub fn percentile_limit(values: &[f64], percentile: f64, confidence: f64) -> OrderLimit {
    let n = values.len();
    match rank_of_limit(n, percentile, confidence) {
        Some((rank, achieved)) => {
            let mut v = values.to_vec();
            v.sort_by(f64::total_cmp);
            OrderLimit::Given { limit: v[rank - 1], rank, confidence: achieved }
        }
        None => OrderLimit::TooFew {
            needed: fewest(percentile, confidence),
            largest_gives: 1.0 - libm::pow(percentile, n as f64),
        },
    }
}

/// Smallest rank k with P(Bin(n, p) ≤ k − 1) ≥ confidence, and that probability.
pub fn rank_of_limit(n: usize, percentile: f64, confidence: f64) -> Option<(usize, f64)> {
    let achieved = |k: usize| statistics::binomial::cdf(k as u64 - 1, n as u64, percentile);
    if n == 0 || achieved(n) < confidence {
        return None;
    }
    let (mut low, mut high) = (0, n);
    while high - low > 1 {
        let middle = usize::midpoint(low, high);
        if achieved(middle) >= confidence {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some((high, achieved(high)))
}

/// Fewest members whose largest bounds a percentile: n ≥ ln(1 − C)/ln p.
pub fn fewest(percentile: f64, confidence: f64) -> usize {
    let n = libm::log(1.0 - confidence) / libm::log(percentile);
    // A whole number that rounding pushed up by its last bit is still that number.
    (n * (1.0 - 1e-12)).ceil() as usize
}
