//! How much do neighbours in time resemble each other, and how much wider does that make S? In:
//! rows of one or more strata with their dates in decimal years; out: the lag-one
//! coefficient, and the factors by which the variance of a rank statistic grows. No units.
//!
//! Method, a rule found by simulation and checked there (`docs/validation/series_correlation.md`):
//! readings become normal scores of their mid-ranks (within their stratum, so that seasons and
//! stretches have no level), the Theil–Sen line of the scores is taken off and the rest scored
//! again: nothing then depends on the law of the values. r is the coefficient at the median gap,
//! from consecutive dates and their real gaps; ρ = (n·r + 2.5)/(n − 4.5), held in 0 … 0.95, takes off
//! the bias of r about a fitted line (by first order (n·r + 2)/(n − 4); scores that are fitted twice
//! lose a little more); then Var S grows by C = (1/n) Σᵢ Σⱼ ρ^(|tᵢ − tⱼ|/gap), and
//! S/√(C·Var S) is held against Student's t with n/(C − 1) degrees of freedom, because ρ is itself
//! estimated.
//!
//! From 20 rows ρ is estimated. With 12 to 19 it cannot be told: S is held against ρ = 0, 0.3 and
//! 0.6 and the largest p counts. Under 12 nothing can be told, and there is no such p.
//!
//! Sources: first-order bias of r: Kendall (1954) Biometrika 41:403, Marriott & Pope (1954) ibid.
//! 390 (from memory); variance of S under correlation: Hamed & Rao (1998) J. Hydrol. 204:182 (from
//! memory), whose factor agrees for long series (`tests/correlation.rs`). Normal scores: van der
//! Waerden (1952). Valid for correlation that falls off with time like ρ^gap; not for cycles, and
//! a correlation over many years looks like a trend to any test.

use crate::kendall::Codes;
use crate::slope::{PairSlopes, Point};
use crate::{Observation, Reading};
use statistics::sample::between_ranks;
use statistics::{brent, normal, t};

/// From so many rows on the coefficient is estimated: below, the false rate of the estimated
/// form rises over 8 % (simulated, `docs/validation/series_correlation.md`).
pub const ESTIMATED_FROM: usize = 20;
/// From so many rows on a p for assumed coefficients is given (same table).
pub const ASSUMED_FROM: usize = 12;
/// Coefficients assumed where they cannot be told: none, and up to what is common in quarterly
/// records of groundwater (our choice).
pub const ASSUMED: [f64; 3] = [0.0, 0.3, 0.6];
/// Nearer to 1 a correlation cannot be told from a trend (our choice, the same simulation).
const MOST: f64 = 0.95;

/// By how much an assumed or estimated correlation widens S.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factor {
    /// Coefficient at the median gap.
    pub rho: f64,
    /// Factor on the variance of S, at least 1.
    pub inflation: f64,
    /// Degrees of freedom; infinite where the factor is 1.
    pub freedom: f64,
}

impl Factor {
    fn new(rho: f64, inflation: f64, n: usize) -> Self {
        let freedom = if inflation > 1.0 { n as f64 / (inflation - 1.0) } else { f64::INFINITY };
        Self { rho, inflation, freedom }
    }

    /// Two-sided p of S, continuity corrected as the plain test.
    pub fn p(&self, s: f64, variance: f64) -> f64 {
        if variance <= 0.0 {
            return 1.0;
        }
        self.two_sided((s.abs() - 1.0).max(0.0) / libm::sqrt(variance * self.inflation))
    }

    /// Two-sided p of a standardised statistic.
    pub fn two_sided(&self, z: f64) -> f64 {
        t::two_sided_p(z, self.freedom).min(1.0)
    }

    /// Largest |S| that is not rejected.
    pub fn critical(&self, variance: f64, confidence: f64) -> u64 {
        let quantile = t::upper_quantile(0.5 * (1.0 - confidence), self.freedom);
        (quantile * libm::sqrt(variance * self.inflation) + 1.0) as u64
    }
}

/// What is taken off before neighbours are compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// A line common to the strata: a trend would else pass for correlation and hide itself.
    Line,
    /// The level of each stratum: the same with a step.
    Levels,
}

/// What the rows tell of their serial correlation.
#[derive(Debug, Clone, PartialEq)]
pub struct Correlation {
    /// Rows.
    pub n: usize,
    /// Median time between dates, years.
    pub gap_years: f64,
    /// Coefficient at that gap as found, not corrected for bias; `None` under 20 rows.
    pub lag_one: Option<f64>,
    /// One factor where ρ is estimated, three where it is assumed, none where nothing can be told.
    pub factors: Vec<Factor>,
}

impl Correlation {
    /// Nothing is known of it: rows without an order in time.
    pub(crate) fn untold() -> Self {
        Self { n: 0, gap_years: 0.0, lag_one: None, factors: Vec::new() }
    }

    /// Of rows in strata about a common line or about their levels.
    pub fn of(strata: &[&[Observation]], about: About) -> Self {
        let mut rows = match about {
            About::Levels => strata.iter().flat_map(|s| scores(s)).collect::<Vec<_>>(),
            About::Line => about_line(&strata.iter().map(|s| scores(s)).collect::<Vec<_>>()),
        };
        rows.sort_by(|a, b| a.0.total_cmp(&b.0));
        let n = rows.len();
        let mean = rows.iter().map(|r| r.1).sum::<f64>() / (n as f64).max(1.0);
        for r in &mut rows {
            r.1 -= mean;
        }
        let squares: f64 = rows.iter().map(|r| r.1 * r.1).sum();
        let mut gaps: Vec<f64> = rows.windows(2).map(|w| w[1].0 - w[0].0).filter(|g| *g > 0.0).collect();
        gaps.sort_unstable_by(f64::total_cmp);
        let gap_years = if gaps.is_empty() { 0.0 } else { between_ranks(&gaps, 0.5) };
        if n < ASSUMED_FROM || gaps.is_empty() || squares <= 0.0 {
            return Self { n, gap_years, lag_one: None, factors: Vec::new() };
        }
        let same_date = same_date(&rows, squares / n as f64);
        let times: Vec<f64> = rows.iter().map(|r| r.0 / gap_years).collect();
        let factor = |rho: f64| Factor::new(rho, inflation(&times, rho, same_date), n);
        if n < ESTIMATED_FROM {
            return Self { n, gap_years, lag_one: None, factors: ASSUMED.into_iter().map(factor).collect() };
        }
        let r = lag_one(&rows, gap_years, squares);
        let rho = ((n as f64 * r + 2.5) / (n as f64 - 4.5)).clamp(0.0, MOST);
        Self { n, gap_years, lag_one: Some(r), factors: vec![factor(rho)] }
    }

    /// The estimated coefficient, corrected for bias; `None` where it is assumed or cannot be told.
    pub fn estimated(&self) -> Option<Factor> {
        self.lag_one.and(self.factors.first().copied())
    }

    /// Each coefficient with its p, at least the plain one and that one itself where nothing widens it.
    pub fn each_p(&self, plain: f64, of: impl Fn(&Factor) -> f64) -> Vec<(f64, f64)> {
        let p = |f: &Factor| if f.inflation > 1.0 { of(f).max(plain) } else { plain };
        self.factors.iter().map(|f| (f.rho, p(f))).collect()
    }

    /// The largest p over the factors, at least the plain one; `None` where nothing can be told.
    pub fn p(&self, plain: f64, of: impl Fn(&Factor) -> f64) -> Option<f64> {
        self.each_p(plain, of).into_iter().map(|(_, p)| p).reduce(f64::max)
    }

    /// The largest |S| that no factor rejects, at least the plain one; `None` where nothing can be told.
    pub(crate) fn critical(&self, plain: u64, variance: f64, confidence: f64) -> Option<u64> {
        let critical = |f: &Factor| if f.inflation > 1.0 { f.critical(variance, confidence).max(plain) } else { plain };
        self.factors.iter().map(critical).max()
    }
}

/// Normal scores of the mid-ranks of one stratum, with the dates.
fn scores(stratum: &[Observation]) -> Vec<(f64, f64)> {
    let readings: Vec<Reading> = stratum.iter().map(|r| r.reading).collect();
    let (sums, _) = Codes::of(&readings).row_sums();
    let n = stratum.len() as f64;
    // A row sum is "surely below" less "surely above": the mid-rank is (n + 1 + sum)/2.
    let score = |sum: i64| normal::quantile(0.5 * (n + 1.0 + sum as f64) / (n + 1.0));
    stratum.iter().zip(sums).map(|(row, sum)| (row.time_years, score(sum))).collect()
}

/// The scores of what is left of scores when their common line is taken off.
fn about_line(strata: &[Vec<(f64, f64)>]) -> Vec<(f64, f64)> {
    let point = |(x, y): &(f64, f64)| Point { x: *x, y: *y, known: true };
    let points = strata.iter().map(|rows| rows.iter().map(point).collect()).collect();
    let slope = PairSlopes::new(points).estimate().unwrap_or(0.0);
    let rest = |(x, y): &(f64, f64)| Observation::new(*x, Reading::Known(y - slope * x));
    strata.iter().flat_map(|rows| scores(&rows.iter().map(rest).collect::<Vec<_>>())).collect()
}

/// The coefficient x at the median gap with Σ x^(gap/median) over consecutive dates equal to what
/// the scores show; at equal gaps the usual Σ zᵢzᵢ₊₁ / Σ zᵢ².
fn lag_one(rows: &[(f64, f64)], gap_years: f64, squares: f64) -> f64 {
    let (mut shown, mut gaps) = (0.0, Vec::with_capacity(rows.len()));
    for w in rows.windows(2).filter(|w| w[1].0 > w[0].0) {
        shown += w[0].1 * w[1].1;
        gaps.push((w[1].0 - w[0].0) / gap_years);
    }
    let pairs = gaps.len() as f64;
    let mean = shown / squares * (rows.len() as f64 - 1.0) / pairs;
    if mean <= 0.0 {
        return mean;
    }
    let sum = |x: f64| gaps.iter().map(|d| libm::pow(x, *d)).sum::<f64>() / pairs - mean;
    if sum(1.0) <= 0.0 { 1.0 } else { brent(sum, 0.0, 1.0) }
}

/// Mean product of the scores of one date over their variance, from 0 to 1: how far a second
/// sample of a date says the same again.
fn same_date(rows: &[(f64, f64)], variance: f64) -> f64 {
    let (mut shown, mut pairs) = (0.0, 0.0);
    for date in rows.chunk_by(|a, b| a.0 == b.0) {
        let (m, sum) = (date.len() as f64, date.iter().map(|r| r.1).sum::<f64>());
        let own: f64 = date.iter().map(|r| r.1 * r.1).sum();
        shown += 0.5 * (sum * sum - own);
        pairs += 0.5 * m * (m - 1.0);
    }
    if pairs > 0.0 { (shown / (pairs * variance)).clamp(0.0, 1.0) } else { 0.0 }
}

/// C = (1/n) Σᵢ Σⱼ ρ^|tᵢ − tⱼ|, times in median gaps and in order. The sum over all earlier rows
/// is that of the row before, one gap further away: O(n), whatever the length.
pub fn inflation(times: &[f64], rho: f64, same_date: f64) -> f64 {
    let n = times.len() as f64;
    let (mut pairs, mut earlier, mut before) = (0.0, 0.0, f64::NEG_INFINITY);
    for date in times.chunk_by(|a, b| a == b) {
        let m = date.len() as f64;
        let fade = if before.is_finite() && rho > 0.0 { libm::pow(rho, date[0] - before) } else { 0.0 };
        earlier *= fade;
        pairs += m * earlier + same_date.max(rho) * 0.5 * m * (m - 1.0);
        earlier += m;
        before = date[0];
    }
    1.0 + 2.0 * pairs / n
}
