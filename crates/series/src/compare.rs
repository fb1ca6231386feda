//! Do two or more groups (wells, laboratories, years) differ, with non-detects? In: readings of each
//! group in one unit; out: score test with p, and for each pair of groups the shift (second − first) with an
//! interval, in that unit. Paired by date where asked.
//!
//! The tests look at the values from the highest down; at each known value the share of each
//! group found there is held against its share of the readings at or below. The weight says
//! where differences count most:
//! * Gehan: readings at or below the value; without non-detects this is Wilcoxon's rank sum.
//! * Peto–Peto: product limit of all groups together; hardly moved by unlike limits.
//! * log-rank: all the same; low values (of concentrations) count more.
//!
//! Sources: Gehan (1965) Biometrika 52:203; Peto & Peto (1972) JRSS A 135:185; Harrington &
//! Fleming (1982) Biometrika 69:553 (weights S(t−)^ρ, ρ = 1); Hodges & Lehmann (1963) Ann. Math.
//! Statist. 34:598 (from memory). Two groups under Gehan's weight: exact permutation p where it
//! can be counted. Checked in `tests/handbook.rs`.

use crate::correlation::Correlation;
use crate::kendall::{self, PFrom};
use crate::step::{self, Shift};
use crate::{Error, Observation, Reading, rows, trend};
use message::{Message, count, series as said};
use statistics::sample::between_ranks;
use statistics::{binomial, chi2, normal};

/// What differences count most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// Readings at or below the value.
    Gehan,
    /// Product limit of all groups together.
    PetoPeto,
    /// All the same.
    LogRank,
}

impl Weight {
    /// Name as the command line takes it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Gehan => "gehan",
            Self::PetoPeto => "peto-peto",
            Self::LogRank => "log-rank",
        }
    }

    /// By its name.
    pub fn of(name: &str) -> Option<Self> {
        [Self::Gehan, Self::PetoPeto, Self::LogRank].into_iter().find(|w| w.name() == name)
    }
}

/// The shift between two groups.
#[derive(Debug, Clone, PartialEq)]
pub struct PairShift {
    /// Index of the first group.
    pub first: usize,
    /// Index of the second group.
    pub second: usize,
    /// Second less first; `None` where the non-detects leave it open.
    pub shift: Option<Shift>,
}

/// The answer for independent groups.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// The weight used.
    pub weight: Weight,
    /// χ² of the scores with (groups − 1) degrees of freedom, hypergeometric variance; `None` for two
    /// groups under Gehan's weight, where p is that of `s`.
    pub chi_squared: Option<f64>,
    /// Two groups under Gehan's weight: pairs where the second is surely above less pairs where
    /// it is surely below; otherwise `None`.
    pub s: Option<i64>,
    /// s over its permutation standard deviation (no continuity correction).
    pub z: Option<f64>,
    /// Two-sided p.
    pub p: f64,
    /// Where p comes from.
    pub p_from: Message,
    /// Observed less expected known values of each group, weighted.
    pub scores: Vec<f64>,
    /// Shifts of all pairs of groups.
    pub shifts: Vec<PairShift>,
}

/// Compares groups.
///
/// # Errors
/// [`Error::TooFew`] under two groups or for an empty one, [`Error::NotFinite`],
/// [`Error::AllCensored`] where no group has a known value, [`Error::NoSpread`] where every
/// reading is the same.
///
/// ```
/// use series::Reading::{Below, Known};
/// use series::compare::{Weight, compare};
/// // "< 5" is not above 1: a high limit hides an order, it makes none.
/// let hidden = compare(&[vec![Known(1.0), Known(1.2)], vec![Below(5.0), Below(5.0)]], Weight::Gehan, 0.95)?;
/// assert_eq!(hidden.s, Some(0));
/// # Ok::<(), series::Error>(())
/// ```
pub fn compare(groups: &[Vec<Reading>], weight: Weight, confidence: f64) -> Result<Comparison, Error> {
    trend::check_confidence(confidence)?;
    check(groups)?;
    let (scores, covariance) = scores(groups, weight);
    let (chi_squared, s, z, p, p_from) = if groups.len() == 2 && weight == Weight::Gehan {
        let (_, _, k) = step::two_groups(&groups[0], &groups[1]);
        let from = if k.p_from == PFrom::Normal { said::PPermutationVariance.into() } else { k.p_from.said() };
        (None, Some(k.s), Some(k.s as f64 / libm::sqrt(k.variance)), k.p, from)
    } else {
        let chi_squared = quadratic_form(&scores, &covariance);
        let p = chi2::sf(chi_squared, groups.len() as f64 - 1.0);
        (Some(chi_squared), None, None, p, said::PChiSquared { freedom: count(groups.len() - 1) }.into())
    };
    // Groups stand in no order of time.
    let apart = Correlation::untold();
    let mut shifts = Vec::new();
    for first in 0..groups.len() {
        for second in first + 1..groups.len() {
            shifts.push(PairShift {
                first,
                second,
                shift: step::shift(&groups[first], &groups[second], confidence, &apart),
            });
        }
    }
    Ok(Comparison { weight, chi_squared, s, z, p, p_from, scores, shifts })
}

fn check(groups: &[Vec<Reading>]) -> Result<(), Error> {
    if groups.len() < 2 {
        return Err(Error::TooFew { what: "a comparison (groups)", found: groups.len(), needed: 2 });
    }
    for g in groups {
        rows::check_finite(g)?;
        if g.is_empty() {
            return Err(Error::TooFew { what: "a group", found: 0, needed: 1 });
        }
    }
    let all: Vec<Reading> = groups.iter().flatten().copied().collect();
    rows::check_some_known(&all)?;
    if all.iter().all(|r| *r == all[0]) {
        return Err(Error::NoSpread { what: "a comparison", value: all[0].bound(), n: all.len() });
    }
    Ok(())
}

/// Weighted observed less expected of each group, and its covariance matrix.
fn scores(groups: &[Vec<Reading>], weight: Weight) -> (Vec<f64>, Vec<Vec<f64>>) {
    let k = groups.len();
    let mut all: Vec<(Reading, usize)> =
        groups.iter().enumerate().flat_map(|(g, list)| list.iter().map(move |r| (*r, g))).collect();
    // At one number the known value first: "< 5" lies below 5, and is still counted there.
    all.sort_unstable_by(|(a, _), (b, _)| b.bound().total_cmp(&a.bound()).then(b.is_known().cmp(&a.is_known())));
    let mut at_risk: Vec<f64> = groups.iter().map(|g| g.len() as f64).collect();
    let mut score = vec![0.0; k];
    let mut covariance = vec![vec![0.0; k]; k];
    let mut share = 1.0;
    let mut i = 0;
    while i < all.len() {
        let (reading, _) = all[i];
        let same = all[i..].iter().take_while(|(r, _)| *r == reading).count();
        let mut here = vec![0.0; k];
        for (_, g) in &all[i..i + same] {
            here[*g] += 1.0;
        }
        if reading.is_known() {
            let r: f64 = at_risk.iter().sum();
            let d = same as f64;
            let w = match weight {
                Weight::Gehan => r,
                Weight::PetoPeto => share,
                Weight::LogRank => 1.0,
            };
            for g in 0..k {
                score[g] += w * (here[g] - d * at_risk[g] / r);
                for h in 0..k {
                    let same = if g == h { 1.0 } else { 0.0 };
                    // A single reading that is left can be of one group only: no variance.
                    if r > 1.0 {
                        covariance[g][h] += w * w * d * (r - d) / (r - 1.0) * at_risk[g] / r * (same - at_risk[h] / r);
                    }
                }
            }
            // After its use: the weight is the product limit just before the value (Harrington & Fleming 1982).
            share *= 1.0 - d / r;
        }
        for g in 0..k {
            at_risk[g] -= here[g];
        }
        i += same;
    }
    (score, covariance)
}

/// Score' · covariance⁻¹ · score without the last group, which the others determine.
fn quadratic_form(score: &[f64], covariance: &[Vec<f64>]) -> f64 {
    let m = score.len() - 1;
    let v = nalgebra::DMatrix::from_fn(m, m, |g, h| covariance[g][h]);
    let u = nalgebra::DVector::from_fn(m, |g, _| score[g]);
    // A group without any weight makes the matrix singular: the pseudo-inverse leaves it out.
    match v.clone().cholesky() {
        Some(c) => u.dot(&c.solve(&u)),
        None => v.pseudo_inverse(1e-12).map_or(0.0, |inverse| u.dot(&(inverse * &u))),
    }
}

/// The answer for pairs.
#[derive(Debug, Clone, PartialEq)]
pub struct Paired {
    /// Pairs with one date.
    pub pairs: usize,
    /// Pairs where the second is surely above.
    pub second_above: usize,
    /// Pairs where the second is surely below.
    pub second_below: usize,
    /// Pairs without a sure order: equal, or hidden by a non-detect.
    pub open: usize,
    /// Two-sided p of the sign test, exact binomial, open pairs left out.
    pub sign_p: f64,
    /// Wilcoxon's signed-rank test where all pairs are known: sum of the ranks of the pairs with
    /// the second above, and two-sided p.
    pub signed_rank: Option<(f64, f64)>,
    /// Median of the pair means of the differences (Hodges–Lehmann) with its interval, second
    /// less first, where all pairs are known.
    pub shift: Option<Shift>,
}

/// Compares two series where their dates match (to the day).
///
/// # Errors
/// [`Error::NotFinite`]; [`Error::TooFew`] where no date matches.
pub fn paired(first: &[Observation], second: &[Observation], confidence: f64) -> Result<Paired, Error> {
    trend::check_confidence(confidence)?;
    let pairs = matched(first, second);
    let flat: Vec<Reading> = pairs.iter().flat_map(|(a, b)| [*a, *b]).collect();
    rows::check_finite(&flat)?;
    if pairs.is_empty() {
        return Err(Error::TooFew { what: "a paired comparison (dates in both)", found: 0, needed: 1 });
    }
    let codes = kendall::Codes::of(&flat);
    let signs: Vec<i64> = (0..pairs.len()).map(|i| codes.sign(2 * i + 1, 2 * i)).collect();
    let second_above = signs.iter().filter(|s| **s > 0).count();
    let second_below = signs.iter().filter(|s| **s < 0).count();
    let all_known = flat.iter().all(|r| r.is_known());
    let differences: Vec<f64> = pairs.iter().map(|(a, b)| b.bound() - a.bound()).collect();
    let (signed_rank, shift) =
        if all_known { (signed_rank(&differences), Some(walsh(&differences, confidence))) } else { (None, None) };
    Ok(Paired {
        pairs: pairs.len(),
        second_above,
        second_below,
        open: pairs.len() - second_above - second_below,
        sign_p: sign_p(second_above, second_below),
        signed_rank,
        shift,
    })
}

/// Readings of one date, in order; several of one date are matched in their order.
fn matched(first: &[Observation], second: &[Observation]) -> Vec<(Reading, Reading)> {
    let day = |r: &Observation| rows::date_of(r.time_years);
    let mut used = vec![false; second.len()];
    first
        .iter()
        .filter_map(|a| {
            let j = (0..second.len()).find(|j| !used[*j] && day(&second[*j]) == day(a))?;
            used[j] = true;
            Some((a.reading, second[j].reading))
        })
        .collect()
}

fn sign_p(above: usize, below: usize) -> f64 {
    let n = (above + below) as u64;
    if n == 0 {
        return 1.0;
    }
    (2.0 * binomial::cdf(above.min(below) as u64, n, 0.5)).min(1.0)
}

/// Up to this n the signed-rank distribution is counted exactly.
const EXACT_PAIRS: usize = 60;

fn signed_rank(differences: &[f64]) -> Option<(f64, f64)> {
    let mut d: Vec<f64> = differences.iter().copied().filter(|d| *d != 0.0).collect();
    d.sort_unstable_by(|a, b| a.abs().total_cmp(&b.abs()));
    let n = d.len();
    if n == 0 {
        return None;
    }
    // Twice the mid-rank, so that ties stay whole numbers.
    let mut ranks = Vec::with_capacity(n);
    for run in d.chunk_by(|a, b| a.abs() == b.abs()) {
        let from = ranks.len();
        ranks.extend(std::iter::repeat_n(2 * from + run.len() + 1, run.len()));
    }
    let w: usize = d.iter().zip(&ranks).filter(|(d, _)| **d > 0.0).map(|(_, r)| r).sum();
    let total: usize = ranks.iter().sum();
    let gap = (2 * w).abs_diff(total);
    let p = if n <= EXACT_PAIRS {
        let chance = signed_rank_distribution(&ranks);
        chance.iter().enumerate().filter(|(k, _)| (2 * k).abs_diff(total) >= gap).map(|(_, p)| p).sum::<f64>().min(1.0)
    } else {
        let variance: f64 = ranks.iter().map(|r| (*r as f64) * (*r as f64)).sum();
        let z = (gap as f64 - 1.0).max(0.0) / libm::sqrt(variance);
        2.0 * normal::cdf(-z)
    };
    Some((0.5 * w as f64, p))
}

/// Chance of each sum of the ranks when every sign is a coin.
fn signed_rank_distribution(ranks: &[usize]) -> Vec<f64> {
    let total: usize = ranks.iter().sum();
    let mut chance = vec![0.0; total + 1];
    chance[0] = 1.0;
    let mut reach = 0;
    for r in ranks {
        for k in (0..=reach).rev() {
            let half = 0.5 * chance[k];
            chance[k] = half;
            chance[k + r] += half;
        }
        reach += r;
    }
    chance
}

/// Median of the means of all pairs of differences, with the interval that inverts the
/// signed-rank test.
fn walsh(d: &[f64], confidence: f64) -> Shift {
    let n = d.len();
    let mut means = Vec::with_capacity(n * (n + 1) / 2);
    for i in 0..n {
        for j in i..n {
            means.push(0.5 * (d[i] + d[j]));
        }
    }
    means.sort_unstable_by(f64::total_cmp);
    let tail = 0.5 * (1.0 - confidence);
    let count = means.len();
    // Number of means left out on each side: the largest k with P(W ≤ k − 1) ≤ tail.
    let k = if n <= EXACT_PAIRS {
        let ranks: Vec<usize> = (1..=n).collect();
        let mut sum = 0.0;
        signed_rank_distribution(&ranks)
            .iter()
            .take_while(|p| {
                sum += **p;
                sum <= tail
            })
            .count()
    } else {
        let n = n as f64;
        let z = normal::upper_quantile(tail);
        let sd = libm::sqrt(n * (n + 1.0) * (2.0 * n + 1.0) / 24.0);
        (n * (n + 1.0) / 4.0 - z * sd).max(0.0) as usize
    };
    let (low, high) = if k == 0 { (f64::NEG_INFINITY, f64::INFINITY) } else { (means[k - 1], means[count - k]) };
    Shift { estimate: between_ranks(&means, 0.5), interval: (low, high) }
}
