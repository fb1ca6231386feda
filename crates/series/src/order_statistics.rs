//! Regression on order statistics: known values on a probability plot, a line through their
//! logarithms, and the non-detects drawn from that line for the summary only. In: positive
//! readings in one unit; out: mean, sd, percentiles in that unit, with bootstrap intervals.
//!
//! Plotting positions after Hirsch and Stedinger: the share above each limit is found from the
//! values that could be seen there, from the highest limit down; values and non-detects between two
//! limits are spread evenly (Weibull).
//!
//! Sources: Hirsch & Stedinger (1987) Water Resources Research 23:715; Helsel & Cohn (1988) WRR
//! 24:1997; Helsel (2005) ch. 6 (from memory). The percentile bootstrap draws whole readings,
//! counter-based streams. At least 3 known values, 2 of them different. Where it can be trusted:
//! `docs/validation/series_coverage.csv`. Checked in `tests/handbook.rs`.

use crate::{Error, Reading, rows};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use statistics::normal;
use statistics::sample::{between_ranks, mean_sd};

/// The line and what follows from it.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderStatistics {
    /// Mean of ln(value) at plotting position 1/2.
    pub intercept_ln: f64,
    /// Slope of ln(value) on the normal quantile.
    pub slope_ln: f64,
    /// Correlation of the probability plot of the known values.
    pub plot_correlation: f64,
    /// Known values and, for the non-detects, values of the line; in rising order.
    pub completed: Vec<f64>,
    /// Mean of the completed values.
    pub mean: f64,
    /// Standard deviation of the completed values.
    pub sd: f64,
}

/// Readings as counts at each number, limits and values apart: what a bootstrap draws from.
struct Tally {
    /// Distinct numbers in rising order; a non-detect comes before a value of the same number.
    slots: Vec<(f64, bool)>,
    count: Vec<u32>,
    slot_of: Vec<usize>,
}

fn tally(readings: &[Reading]) -> Tally {
    let mut order: Vec<usize> = (0..readings.len()).collect();
    order.sort_unstable_by(|a, b| {
        let (a, b) = (readings[*a], readings[*b]);
        a.bound().total_cmp(&b.bound()).then(a.is_known().cmp(&b.is_known()))
    });
    let mut t = Tally { slots: Vec::new(), count: Vec::new(), slot_of: vec![0; readings.len()] };
    for i in order {
        let key = (readings[i].bound(), readings[i].is_known());
        if t.slots.last() != Some(&key) {
            t.slots.push(key);
            t.count.push(0);
        }
        let slot = t.slots.len() - 1;
        t.slot_of[i] = slot;
        t.count[slot] += 1;
    }
    t
}

/// A stretch from one limit up to the next.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    /// Share of values at or above the limit.
    above: f64,
    /// Non-detects at this limit.
    censored: u32,
    /// Known values in the stretch.
    known: u32,
    /// Readings below the limit: known values under it, non-detects with a limit at or under it.
    below: u32,
}

/// Shares above each limit, from the counts; the first stretch lies below the lowest limit.
fn stretches(slots: &[(f64, bool)], count: &[u32], out: &mut Vec<Stretch>) {
    out.clear();
    let mut now = Stretch { above: 1.0, censored: 0, known: 0, below: 0 };
    let mut so_far = 0;
    for ((_, is_known), c) in slots.iter().zip(count).filter(|(_, c)| **c > 0) {
        so_far += c;
        if *is_known {
            now.known += c;
        } else {
            out.push(now);
            now = Stretch { above: 0.0, censored: *c, known: 0, below: so_far };
        }
    }
    out.push(now);
    let mut above = 0.0;
    for s in out.iter_mut().skip(1).rev() {
        let seen = f64::from(s.known) / f64::from(s.known + s.below);
        above += seen * (1.0 - above);
        s.above = above;
    }
}

/// Working room of one fit, used again for every bootstrap draw.
#[derive(Default)]
struct Room {
    stretches: Vec<Stretch>,
    completed: Vec<f64>,
}

struct Line {
    intercept: f64,
    slope: f64,
    correlation: f64,
}

/// Fits the line; fills `completed` with the known values and the line's values.
fn fit(t: &Tally, ln: &[f64], count: &[u32], room: &mut Room) -> Option<Line> {
    stretches(&t.slots, count, &mut room.stretches);
    let mut sums = [0.0; 6];
    let (mut j, mut rank) = (0, 0);
    for (slot, c) in count.iter().enumerate().filter(|(_, c)| **c > 0) {
        if !t.slots[slot].1 {
            j += 1;
            rank = 0;
            continue;
        }
        let s = room.stretches[j];
        let above_next = room.stretches.get(j + 1).map_or(0.0, |n| n.above);
        for _ in 0..*c {
            rank += 1;
            let p = (1.0 - s.above) + (s.above - above_next) * f64::from(rank) / f64::from(s.known + 1);
            let (q, y) = (normal::quick_quantile(p), ln[slot]);
            for (sum, x) in sums.iter_mut().zip([1.0, q, y, q * q, q * y, y * y]) {
                *sum += x;
            }
        }
    }
    let [n, q, y, qq, qy, yy] = sums;
    let (sqq, sqy, syy) = (qq - q * q / n, qy - q * y / n, yy - y * y / n);
    // A draw of the bootstrap may hold one value alone: of its spread only rounding is left, and that is no slope.
    if n < 2.0 || sqq <= 0.0 || syy <= 1e-14 * yy.abs() {
        return None;
    }
    let slope = sqy / sqq;
    let line = Line { slope, intercept: (y - slope * q) / n, correlation: sqy / libm::sqrt(sqq * syy) };
    complete(t, count, room, &line);
    Some(line)
}

fn complete(t: &Tally, count: &[u32], room: &mut Room, line: &Line) {
    room.completed.clear();
    for ((value, is_known), c) in t.slots.iter().zip(count) {
        if *is_known {
            room.completed.extend(std::iter::repeat_n(*value, *c as usize));
        }
    }
    for s in &room.stretches {
        for rank in 1..=s.censored {
            // A limit above every value leaves no share above it: p stays under 1 by the rank.
            let p = (1.0 - s.above) * f64::from(rank) / f64::from(s.censored + 1);
            let q = normal::quick_quantile(p);
            room.completed.push(libm::exp(line.intercept + line.slope * q));
        }
    }
}

/// Regression on order statistics of positive readings.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::AllCensored`], [`Error::TooFew`] under 3 known values,
/// [`Error::NoSpread`] where all known values are one number.
pub fn order_statistics(readings: &[Reading]) -> Result<OrderStatistics, Error> {
    check(readings)?;
    let t = tally(readings);
    let ln: Vec<f64> = t.slots.iter().map(|s| libm::log(s.0)).collect();
    let mut room = Room::default();
    let line = fit(&t, &ln, &t.count, &mut room).ok_or_else(|| no_spread(readings))?;
    let mut completed = room.completed;
    completed.sort_unstable_by(f64::total_cmp);
    let (mean, sd) = mean_sd(&completed).expect("three known values or more");
    Ok(OrderStatistics {
        intercept_ln: line.intercept,
        slope_ln: line.slope,
        plot_correlation: line.correlation,
        mean,
        sd,
        completed,
    })
}

fn check(readings: &[Reading]) -> Result<(), Error> {
    rows::check_finite(readings)?;
    rows::check_some_known(readings)?;
    rows::check_positive(readings, "regression on order statistics")?;
    let known = readings.iter().filter(|r| r.is_known()).count();
    if known < 3 {
        return Err(Error::TooFew { what: "regression on order statistics (known values)", found: known, needed: 3 });
    }
    Ok(())
}

fn no_spread(readings: &[Reading]) -> Error {
    let known: Vec<f64> = readings.iter().filter(|r| r.is_known()).map(|r| r.bound()).collect();
    Error::NoSpread { what: "regression on order statistics", value: known[0], n: known.len() }
}

impl OrderStatistics {
    /// Percentile of the completed values, linear between ranks.
    pub fn percentile(&self, p: f64) -> f64 {
        between_ranks(&self.completed, p)
    }
}

/// Bootstrap intervals.
#[derive(Debug, Clone, PartialEq)]
pub struct Bootstrap {
    /// Of the mean.
    pub mean: (f64, f64),
    /// Of the percentiles asked for, in that order.
    pub percentiles: Vec<(f64, f64)>,
    /// Draws that gave a line.
    pub draws: u32,
}

/// Percentile-bootstrap intervals of the mean and of `shares`; `None` with fewer than 50 usable
/// draws. The same stream for the same seed, whatever the machine.
///
/// # Errors
/// As [`order_statistics`].
pub fn bootstrap(
    readings: &[Reading],
    shares: &[f64],
    confidence: f64,
    draws: u32,
    seed: u64,
) -> Result<Option<Bootstrap>, Error> {
    check(readings)?;
    let t = tally(readings);
    let ln: Vec<f64> = t.slots.iter().map(|s| libm::log(s.0)).collect();
    let mut room = Room::default();
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut count = vec![0; t.slots.len()];
    let mut means = Vec::with_capacity(draws as usize);
    let mut percentiles = vec![Vec::with_capacity(draws as usize); shares.len()];
    for _ in 0..draws {
        count.fill(0);
        for _ in 0..readings.len() {
            count[t.slot_of[rng.random_range(0..readings.len() as u32) as usize]] += 1;
        }
        if fit(&t, &ln, &count, &mut room).is_none() {
            continue;
        }
        means.push(room.completed.iter().sum::<f64>() / readings.len() as f64);
        if !shares.is_empty() {
            // A few runs that are in order already: the stable sort merges them.
            room.completed.sort_by(f64::total_cmp);
        }
        for (list, p) in percentiles.iter_mut().zip(shares) {
            list.push(between_ranks(&room.completed, *p));
        }
    }
    if means.len() < 50 {
        return Ok(None);
    }
    let tail = 0.5 * (1.0 - confidence);
    let ends = |list: &mut Vec<f64>| {
        list.sort_unstable_by(f64::total_cmp);
        (between_ranks(list, tail), between_ranks(list, 1.0 - tail))
    };
    Ok(Some(Bootstrap {
        draws: means.len() as u32,
        mean: ends(&mut means),
        percentiles: percentiles.iter_mut().map(ends).collect(),
    }))
}
