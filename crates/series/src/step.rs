//! Did the level jump? At a known date (new laboratory, new cabinet, new method) or at the date
//! the data choose. In: rows in order of time; out: p, and the shift (after − before) in the unit
//! of the series with an interval.
//!
//! Known date: rank-sum test with non-detects (Gehan's scores, permutation variance, exact for
//! few values), shift by the median of all differences (Hodges–Lehmann; with non-detects the
//! shift at which the test statistic is zero). Unknown date: Pettitt (1979) Appl. Statist. 28:126,
//! K = max |U_t|, with p = 2·Σ(−1)^{k+1} exp(−2k²λ²), λ² = K²(n − 1)/(n·Σr²), r the row sums of
//! the pair scores; without ties and non-detects its first term is Pettitt's 2·exp(−6K²/(n³+n²)).
//! A trend looks like a step and a step like a trend: neither test can tell them apart.
//!
//! Neighbours that resemble each other make steps of chance: beside each p stands one with the
//! variance widened by the correlation of the residuals about the levels before and after
//! (`correlation`; Pettitt's λ² over the factor, its p carried over to Student's t), and the shift's
//! interval stands on the same. False rates: `docs/validation/series_correlation.md`.
//! Checked in `tests/handbook.rs` (Nile; Cobb 1978 Biometrika 65:243).

use crate::correlation::{About, Correlation};
use crate::kendall::{self, Codes, PChoice};
use crate::{Observation, Reading, inversion};
use message::{Message, Name, series as said};
use statistics::normal;

/// A change point chosen by the data.
#[derive(Debug, Clone, PartialEq)]
pub struct ChangePoint {
    /// Date of the last row before the change, decimal years.
    pub last_before_years: f64,
    /// Date of the first row after it.
    pub first_after_years: f64,
    /// max |U|.
    pub k: i64,
    /// Two-sided p if neighbours do not resemble each other.
    pub p: f64,
    /// The largest p under the correlation found or assumed; `None` where nothing can be told of it.
    pub p_serial: Option<f64>,
    /// Level after minus level before; `None` where non-detects leave it open.
    pub shift: Option<Shift>,
}

/// A shift with its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shift {
    /// In the unit of the series.
    pub estimate: f64,
    /// An end that the data do not bound is infinite.
    pub interval: (f64, f64),
}

/// A step at a known date.
#[derive(Debug, Clone, PartialEq)]
pub struct GivenStep {
    /// Decimal year of the first row of the new stretch.
    pub time_years: f64,
    /// What changed.
    pub what: Message,
    /// Rows before (back to the step before) and after (up to the next).
    pub rows: (usize, usize),
    /// Two-sided p of the rank-sum test if neighbours do not resemble each other.
    pub p: f64,
    /// The largest p under the correlation found or assumed; `None` where nothing can be told of it.
    pub p_serial: Option<f64>,
    /// Shift without a trend in the model.
    pub shift: Option<Shift>,
}

impl ChangePoint {
    /// The p that decides.
    pub fn deciding_p(&self) -> f64 {
        self.p_serial.unwrap_or(self.p)
    }
}

impl GivenStep {
    /// The p that decides.
    pub fn deciding_p(&self) -> f64 {
        self.p_serial.unwrap_or(self.p)
    }
}

/// Dates at which a new stretch begins: those given, and those where the method changes.
pub(crate) fn boundaries(rows: &[Observation], given: &[f64]) -> Vec<f64> {
    let (first, last) = (rows[0].time_years, rows[rows.len() - 1].time_years);
    let mut at: Vec<f64> = given.iter().copied().filter(|d| *d > first && *d <= last).collect();
    at.extend(
        rows.windows(2)
            .filter(|w| w[0].method != w[1].method && w[1].time_years > w[0].time_years)
            .map(|w| w[1].time_years),
    );
    at.sort_unstable_by(f64::total_cmp);
    at.dedup();
    at
}

/// The rows between boundaries.
pub(crate) fn stretches(rows: &[Observation], boundaries: &[f64]) -> Vec<Vec<Observation>> {
    let mut out = vec![Vec::new()];
    let mut next = 0;
    for row in rows {
        while next < boundaries.len() && row.time_years >= boundaries[next] {
            out.push(Vec::new());
            next += 1;
        }
        if let Some(last) = out.last_mut() {
            last.push(row.clone());
        }
    }
    out.retain(|part| !part.is_empty());
    out
}

/// Tests each boundary between neighbouring stretches of at least 3 rows.
pub(crate) fn given(rows: &[Observation], boundaries: &[f64], confidence: f64) -> Vec<GivenStep> {
    let parts = stretches(rows, boundaries);
    parts
        .windows(2)
        .filter(|w| w[0].len() >= 3 && w[1].len() >= 3)
        .map(|w| {
            let (before, after) = (&w[0], &w[1]);
            let a: Vec<Reading> = before.iter().map(|r| r.reading).collect();
            let b: Vec<Reading> = after.iter().map(|r| r.reading).collect();
            let (from, to) = (&before[before.len() - 1].method, &after[0].method);
            let test = two_groups(&a, &b).2;
            let correlation = Correlation::of(&[before, after], About::Levels);
            GivenStep {
                time_years: after[0].time_years,
                what: if from == to {
                    said::StepGiven.into()
                } else if from.is_empty() {
                    said::StepFirstStated { to: Name::from(to) }.into()
                } else {
                    said::StepMethod { from: Name::from(from), to: Name::from(to) }.into()
                },
                rows: (a.len(), b.len()),
                p: test.p,
                p_serial: correlation.p(test.p, |f| f.p(test.s as f64, test.variance)),
                shift: shift(&a, &b, confidence, &correlation),
            }
        })
        .collect()
}

/// Group marks, readings and the test of two groups.
pub(crate) fn two_groups(a: &[Reading], b: &[Reading]) -> (Codes, Codes, kendall::Kendall) {
    let marks: Vec<f64> = std::iter::repeat_n(0.0, a.len()).chain(std::iter::repeat_n(1.0, b.len())).collect();
    let both: Vec<Reading> = a.iter().chain(b).copied().collect();
    let (x, y) = (Codes::of_values(&marks), Codes::of(&both));
    let k = kendall::kendall(&x, &y, PChoice::Best);
    (x, y, k)
}

/// Shift of `b` against `a`: the median of all differences, or with non-detects the shift at
/// which the statistic is zero. Its interval holds the shifts that the rank-sum test does not
/// reject, under the correlation of the rows where something can be told of it.
pub(crate) fn shift(a: &[Reading], b: &[Reading], confidence: f64, correlation: &Correlation) -> Option<Shift> {
    let row = |x: f64| move |r: &Reading| Observation::new(x, *r);
    let rows: Vec<Observation> = a.iter().map(row(0.0)).chain(b.iter().map(row(1.0))).collect();
    let (estimate, interval) = inversion::between_marks(&rows, correlation, confidence)?;
    Some(Shift { estimate, interval })
}

/// Pettitt's change point; `None` under 8 rows or where all dates of the change coincide.
///
/// ```
/// use series::step::pettitt;
/// use series::{Observation, Reading};
/// // Seven rows are too few to look for a change in, however large it is.
/// let row = |i: u8| Observation::new(2015.0 + f64::from(i), Reading::Known(if i < 3 { 1.0 } else { 90.0 }));
/// assert!(pettitt(&(0..7).map(row).collect::<Vec<_>>(), 0.95).is_none());
/// assert!(pettitt(&(0..9).map(row).collect::<Vec<_>>(), 0.95).is_some());
/// ```
pub fn pettitt(rows: &[Observation], confidence: f64) -> Option<ChangePoint> {
    let n = rows.len();
    if n < 8 {
        return None;
    }
    let readings: Vec<Reading> = rows.iter().map(|r| r.reading).collect();
    let (sums, _) = Codes::of(&readings).row_sums();
    let (mut u, mut best, mut at) = (0_i64, 0_i64, 0);
    for i in 0..n - 1 {
        u += sums[i];
        // A change lies between dates, not within one.
        if u.abs() > best && rows[i].time_years < rows[i + 1].time_years {
            (best, at) = (u.abs(), i);
        }
    }
    if best == 0 {
        return None;
    }
    let squares: f64 = sums.iter().map(|r| (*r as f64) * (*r as f64)).sum();
    let n = n as f64;
    let lambda2 = (best as f64) * (best as f64) * (n - 1.0) / (n * squares);
    let p = bridge_tail(lambda2);
    // About the two levels: a step would else pass for correlation and hide itself.
    let correlation = Correlation::of(&[&rows[..=at], &rows[at + 1..]], About::Levels);
    Some(ChangePoint {
        last_before_years: rows[at].time_years,
        first_after_years: rows[at + 1].time_years,
        k: best,
        p,
        p_serial: correlation.p(p, |f| {
            // A bridge has no degrees of freedom: its p is carried over as that of a normal z.
            let p = bridge_tail(lambda2 / f.inflation).max(f64::MIN_POSITIVE);
            f.two_sided(normal::upper_quantile(0.5 * p))
        }),
        shift: shift(&readings[..=at], &readings[at + 1..], confidence, &correlation),
    })
}

/// P(max |Brownian bridge| ≥ λ), Kolmogorov's series.
fn bridge_tail(lambda2: f64) -> f64 {
    // Below this the series converges slowly and the probability is 1 to 1e-10.
    if lambda2 < 0.04 {
        return 1.0;
    }
    let mut sum = 0.0;
    for k in 1..=100 {
        let term = libm::exp(-2.0 * f64::from(k * k) * lambda2);
        sum += if k % 2 == 1 { term } else { -term };
        if term < 1e-17 {
            break;
        }
    }
    (2.0 * sum).clamp(0.0, 1.0)
}
