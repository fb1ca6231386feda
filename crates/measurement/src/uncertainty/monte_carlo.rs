//! Propagation of distributions by Monte Carlo (JCGM 101:2008): clause 7 with a given number of
//! draws, 7.9 until the digits stand, clause 8 against the law of propagation.
//!
//! Blocks of draws run on all threads; each has its own random stream, sums are merged in block
//! order, and intervals are order statistics, so the answer has the same digits on any number of
//! threads. Draws in which the model gives no number (a division by zero, a logarithm of a
//! negative number) are counted, left out and reported: mean and u of the rest may then not exist
//! in the limit, while the interval keeps its meaning as long as the share is small.

use super::sample::{BLOCK, Plan, Stream};
use super::{Model, Problem, Propagated};
use crate::error::Error;
use crate::expression::LANES;
use rayon::prelude::*;
use serde::Serialize;

/// How many draws, and which.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draws {
    /// Number of draws, 1,000 to 1e9.
    pub count: usize,
    /// The random seed; the same seed gives the same digits.
    pub seed: u64,
    /// Coverage probability of the intervals.
    pub coverage: f64,
}

impl Default for Draws {
    fn default() -> Self {
        Self { count: 1_000_000, seed: 1, coverage: 0.95 }
    }
}

/// Two ends, unit of the result.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// A result by propagation of distributions.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MonteCarlo {
    /// Mean of the draws.
    pub value: f64,
    /// Standard deviation of the draws.
    pub u: f64,
    /// Interval with equal probabilities left out on both sides.
    pub symmetric: Interval,
    /// The shortest interval of the same probability.
    pub shortest: Interval,
    /// Coverage probability of both.
    pub coverage: f64,
    /// Number of draws that gave a number.
    pub draws: usize,
    /// Share of draws that gave none.
    pub failed_share: f64,
    /// Standard error of the ends of the symmetric interval, from the spacing of the draws.
    pub end_error: f64,
}

/// The end of the adaptive procedure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Adaptive {
    /// The result over all draws made.
    pub result: MonteCarlo,
    /// The numerical tolerance δ reached: half a unit in the last digit wanted of u.
    pub tolerance: f64,
}

/// Clause 8: do both propagations give the same interval?
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Validation {
    /// |y − U − y_low|.
    pub d_low: f64,
    /// |y + U − y_high|.
    pub d_high: f64,
    /// δ.
    pub tolerance: f64,
    /// Both differences are within δ and twice the standard error of the draws' ends.
    pub agrees: bool,
}

struct BlockSum {
    n: usize,
    mean: f64,
    squares: f64,
    failed: usize,
}

struct Worker<S> {
    stream: Stream,
    space: S,
    inputs: Vec<[f64; LANES]>,
    spare: Vec<[f64; LANES]>,
}

impl<M: Model> Problem<M> {
    fn plan(&self) -> Result<Plan, Error> {
        Plan::new(&self.inputs, self.correlation.as_deref(), self.groups())
    }

    fn worker(&self, plan: &Plan, seed: u64) -> Worker<M::Space> {
        Worker {
            stream: Stream::new(seed),
            space: self.model.space(),
            inputs: vec![[0.0; LANES]; plan.inputs()],
            spare: vec![[0.0; LANES]; plan.spares()],
        }
    }

    fn fill(&self, plan: &Plan, w: &mut Worker<M::Space>, block: usize, out: &mut [f64]) {
        w.stream.go_to(block as u64);
        for lanes in out.chunks_mut(LANES) {
            plan.draw(&mut w.stream, lanes.len(), &mut w.inputs, &mut w.spare);
            self.model.block(&w.inputs, &mut w.space, lanes);
        }
    }

    /// Propagates the distributions with a fixed number of draws.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for the number of draws or the coverage, [`Error::Unsupported`] for
    /// correlated inputs that cannot be drawn together, [`Error::NoValue`] where fewer than half
    /// of the draws give a number.
    pub fn monte_carlo(&self, draws: &Draws) -> Result<MonteCarlo, Error> {
        check(draws)?;
        let plan = self.plan()?;
        let mut values = vec![0.0; draws.count];
        let sums: Vec<BlockSum> = values
            .par_chunks_mut(BLOCK)
            .enumerate()
            .map_init(
                || self.worker(&plan, draws.seed),
                |w, (block, out)| {
                    self.fill(&plan, w, block, out);
                    sum(out)
                },
            )
            .collect();
        summarise(values, &sums, draws.coverage)
    }

    /// Draws blocks of 10,000 until value, u and both ends stand to `digits` significant digits
    /// of u (JCGM 101 7.9), at most `draws.count` draws.
    ///
    /// # Errors
    /// As [`Problem::monte_carlo`]; [`Error::NotConverged`] where the digits do not stand after
    /// `draws.count` draws; coverage over 0.99 needs larger blocks and is refused.
    pub fn adaptive(&self, draws: &Draws, digits: u32) -> Result<Adaptive, Error> {
        check(draws)?;
        if draws.coverage > 0.99 {
            return Err(Error::OutOfRange {
                what: "coverage of the adaptive procedure".into(),
                value: draws.coverage,
                range: "up to 0.99",
            });
        }
        let plan = self.plan()?;
        let limit = (draws.count / BLOCK).max(2);
        let mut values: Vec<f64> = Vec::new();
        let mut sums: Vec<BlockSum> = Vec::new();
        let mut rows: Vec<[f64; 4]> = Vec::new();
        // Blocks are made some at a time; the stopping rule looks at them one by one.
        while sums.len() < limit {
            let first = sums.len();
            let more = first.clamp(2, 16).min(limit - first);
            values.resize((first + more) * BLOCK, 0.0);
            let made: Vec<(BlockSum, [f64; 4])> = values[first * BLOCK..]
                .par_chunks_mut(BLOCK)
                .enumerate()
                .map_init(
                    || self.worker(&plan, draws.seed),
                    |w, (k, out)| {
                        self.fill(&plan, w, first + k, out);
                        let s = sum(out);
                        let one = summarise(out.to_vec(), std::slice::from_ref(&s), draws.coverage)
                            .map_or([f64::NAN; 4], |m| [m.value, m.u, m.symmetric.low, m.symmetric.high]);
                        (s, one)
                    },
                )
                .collect();
            for (s, row) in made {
                sums.push(s);
                rows.push(row);
                if let Some(tolerance) = standing(&rows, &sums, digits) {
                    values.truncate(sums.len() * BLOCK);
                    let result = summarise(values, &sums, draws.coverage)?;
                    return Ok(Adaptive { result, tolerance });
                }
            }
        }
        Err(Error::NotConverged {
            what: "the adaptive Monte Carlo procedure",
            iterations: sums.len() * BLOCK,
            residual: rows.iter().map(|r| r[1]).fold(0.0, |a: f64, b| a.max(b.abs())),
        })
    }
}

/// δ once twice the standard errors of value, u and both ends are all within it.
fn standing(rows: &[[f64; 4]], sums: &[BlockSum], digits: u32) -> Option<f64> {
    let h = rows.len() as f64;
    if rows.len() < 2 {
        return None;
    }
    let total = merge(sums);
    let tolerance = numerical_tolerance((total.squares / (total.n as f64 - 1.0)).sqrt(), digits);
    let stands = (0..4).all(|c| {
        let mean = rows.iter().map(|r| r[c]).sum::<f64>() / h;
        let squares: f64 = rows.iter().map(|r| (r[c] - mean).powi(2)).sum();
        2.0 * (squares / (h * (h - 1.0))).sqrt() <= tolerance
    });
    stands.then_some(tolerance)
}

/// δ of JCGM 101 7.9.2: half a unit in the last of `digits` significant digits of u.
pub(super) fn numerical_tolerance(u: f64, digits: u32) -> f64 {
    if u.is_nan() || u <= 0.0 {
        return 0.0;
    }
    let last = libm::floor(libm::log10(u)) as i32 - (digits.clamp(1, 15).cast_signed() - 1);
    0.5 * libm::pow(10.0, f64::from(last))
}

fn check(d: &Draws) -> Result<(), Error> {
    if !(1000..=1_000_000_000).contains(&d.count) {
        return Err(Error::OutOfRange { what: "draws".into(), value: d.count as f64, range: "1,000 to 1,000,000,000" });
    }
    if !(d.coverage >= 0.5 && d.coverage <= 0.9999) {
        return Err(Error::OutOfRange { what: "coverage".into(), value: d.coverage, range: "0.5 to 0.9999" });
    }
    Ok(())
}

/// Mean and sum of squares of one block, about its own mean; what is not finite is counted.
fn sum(block: &[f64]) -> BlockSum {
    // 0·x is NaN for what is not finite: one pass finds whether there is any.
    let clean = lanes_sum(block, |v| v * 0.0) == 0.0;
    if clean {
        let n = block.len();
        let mean = lanes_sum(block, |v| v) / n as f64;
        return BlockSum { n, mean, squares: lanes_sum(block, |v| (v - mean) * (v - mean)), failed: 0 };
    }
    let finite = || block.iter().copied().filter(|v| v.is_finite());
    let n = finite().count();
    let mean = finite().sum::<f64>() / n.max(1) as f64;
    BlockSum { n, mean, squares: finite().map(|v| (v - mean) * (v - mean)).sum(), failed: block.len() - n }
}

/// A sum in eight lanes: fixed order, and wide arithmetic.
fn lanes_sum(block: &[f64], f: impl Fn(f64) -> f64) -> f64 {
    let mut lanes = [0.0; 8];
    let (eights, rest) = block.as_chunks::<8>();
    for eight in eights {
        for (l, v) in lanes.iter_mut().zip(eight) {
            *l += f(*v);
        }
    }
    lanes.iter().sum::<f64>() + rest.iter().map(|v| f(*v)).sum::<f64>()
}

/// Merges the sums in block order (Chan, Golub & LeVeque 1983).
fn merge(sums: &[BlockSum]) -> BlockSum {
    let mut total = BlockSum { n: 0, mean: 0.0, squares: 0.0, failed: 0 };
    for s in sums {
        total.failed += s.failed;
        if s.n == 0 {
            continue;
        }
        let (a, b) = (total.n as f64, s.n as f64);
        let d = s.mean - total.mean;
        total.mean += d * b / (a + b);
        total.squares += s.squares + d * d * a * b / (a + b);
        total.n += s.n;
    }
    total
}

fn summarise(mut values: Vec<f64>, sums: &[BlockSum], p: f64) -> Result<MonteCarlo, Error> {
    let all = values.len();
    let total = merge(sums);
    if total.failed > 0 {
        values.retain(|v| v.is_finite());
    }
    let m = values.len();
    if 2 * m < all {
        return Err(Error::NoValue {
            value: f64::NAN,
            hint: format!("and in {} of {all} draws: the inputs reach where the model is not defined", all - m),
        });
    }
    // JCGM 101 7.7.2.
    let q = (p * m as f64 + 0.5).floor() as usize;
    let r = (m - q).div_ceil(2).max(1);
    let tails = Tails::new(&values, m - q + 1 + (m as f64).sqrt() as usize);
    let symmetric = Interval { low: tails.at(r - 1), high: tails.at((r + q - 1).min(m - 1)) };
    let mut shortest = symmetric;
    for k in 0..m - q {
        let (low, high) = (tails.at(k), tails.at(k + q));
        if high - low < shortest.high - shortest.low {
            shortest = Interval { low, high };
        }
    }
    // The rank of an end scatters by √(M·a·(1 − a)).
    let a = 0.5 * (1.0 - p);
    let k = ((m as f64 * a * (1.0 - a)).sqrt() as usize).clamp(1, r.max(2) - 1);
    let low_error = 0.5 * (tails.at(r - 1 + k) - tails.at((r - 1).saturating_sub(k)));
    let top = (r + q - 1).min(m - 1);
    let high_error = 0.5 * (tails.at((top + k).min(m - 1)) - tails.at(top - k));
    Ok(MonteCarlo {
        value: total.mean,
        u: (total.squares / (m as f64 - 1.0)).sqrt(),
        symmetric,
        shortest,
        coverage: p,
        draws: m,
        failed_share: total.failed as f64 / all as f64,
        end_error: low_error.max(high_error),
    })
}

/// The sorted lowest and highest values; the middle is never sorted.
struct Tails {
    low: Vec<f64>,
    high: Vec<f64>,
    m: usize,
}

impl Tails {
    /// Keeps at least `need` values on each side.
    fn new(values: &[f64], need: usize) -> Self {
        let m = values.len();
        if 3 * need < m && m > 20_000 {
            let mut sample: Vec<f64> = values.iter().step_by(m / 5000).copied().collect();
            sample.sort_unstable_by(f64::total_cmp);
            let s = sample.len();
            // One hundredth over what is needed: five standard errors of the sample's rank.
            let rank = ((need as f64 / m as f64 + 0.015) * s as f64) as usize;
            let (a, b) = (sample[rank.min(s - 1)], sample[s - 1 - rank.min(s - 1)]);
            let (low, high) =
                rayon::join(|| sorted_part(values, need, |v| v <= a), || sorted_part(values, need, |v| v >= b));
            if low.len() >= need && high.len() >= need && low.len() + high.len() <= m {
                return Self { low, high, m };
            }
        }
        let mut low = values.to_vec();
        low.par_sort_unstable_by(f64::total_cmp);
        Self { low, high: Vec::new(), m }
    }

    /// The k-th smallest value, k from 0.
    fn at(&self, k: usize) -> f64 {
        if k < self.low.len() { self.low[k] } else { self.high[k - (self.m - self.high.len())] }
    }
}

/// The values that `keep` says, sorted. `expected` is about how many they are.
fn sorted_part(values: &[f64], expected: usize, keep: impl Fn(f64) -> bool) -> Vec<f64> {
    let mut part: Vec<i64> = Vec::with_capacity(2 * expected);
    let mut buffer = [0.0; 1024];
    for chunk in values.chunks(1024) {
        let mut n = 0;
        for v in chunk {
            // Written always, counted only where wanted: no branch to be guessed wrong.
            buffer[n % 1024] = *v;
            n += usize::from(keep(*v));
        }
        part.extend(buffer[..n].iter().map(|v| ordered(*v)));
    }
    part.sort_unstable();
    part.into_iter().map(unordered).collect()
}

/// An integer that sorts as the number does.
fn ordered(v: f64) -> i64 {
    let bits = v.to_bits().cast_signed();
    bits ^ (((bits >> 63).cast_unsigned() >> 1).cast_signed())
}

fn unordered(k: i64) -> f64 {
    f64::from_bits((k ^ (((k >> 63).cast_unsigned() >> 1).cast_signed())).cast_unsigned())
}

impl MonteCarlo {
    /// Compares with first-order propagation at the same coverage (clause 8): with `digits`
    /// significant digits of u, 1 or 2.
    pub fn validates(&self, first_order: &Propagated, digits: u32) -> Validation {
        let (low, high) = first_order.interval(self.coverage);
        let tolerance = numerical_tolerance(first_order.u, digits);
        let d_low = (low - self.symmetric.low).abs();
        let d_high = (high - self.symmetric.high).abs();
        let allowed = tolerance + 2.0 * self.end_error;
        Validation {
            d_low,
            d_high,
            tolerance,
            agrees: d_low <= allowed && d_high <= allowed && self.failed_share == 0.0,
        }
    }
}
