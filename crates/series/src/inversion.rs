//! Which slopes does a test not reject? In: strata of rows in order of time, how S may arise by
//! chance, the serial correlation; out: Theil–Sen slope in units per year, with the interval of
//! the plain test and that of the test widened by correlation.
//!
//! An end of an interval is the slope at which the test of the residuals turns. With non-detects
//! the variance of S depends on the slope (the limits move against the values), so the end is
//! sought again with the variance found there, until it stays. At slope zero the test is the one
//! whose p is given: the interval never holds zero inside while p < 0.05, and never leaves it out
//! while p ≥ 0.05. Where ties at zero or the steps of S would have it otherwise, the end is put at
//! exactly zero: an interval that ends at zero with p < 0.05 does not hold it.
//!
//! Sources: Sen (1968) JASA 63:1379; Akritas, Murphy & LaValley (1995) JASA 90:170 (from memory).
//! Checked in `tests/inversion.rs`.

use crate::correlation::{About, Correlation};
use crate::kendall::{self, Codes, NullDistribution, PFrom};
use crate::seasonal::YearOrders;
use crate::slope::{PairSlopes, Point};
use crate::trend::{Percent, Slope};
use crate::{Observation, Reading};
use statistics::normal;

/// How the strata depend on each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Scheme {
    /// Not at all: rows of one series, or stretches between steps.
    Apart,
    /// Seasons, of which a year is one whole.
    Years,
}

/// What S may be by chance alone.
pub(crate) struct Null {
    /// Variance of the plain test.
    variance: f64,
    /// Variance with all rows independent: what correlation widens.
    variance_rows: f64,
    exact: Option<NullDistribution>,
}

impl Null {
    /// Of times and readings, stratum by stratum.
    fn of(strata: &[(Codes, Codes)]) -> Self {
        let variance = strata.iter().map(|(a, b)| kendall::s_variance(a, b)).sum();
        let exact = strata
            .iter()
            .try_fold(NullDistribution::certain_zero(), |sum, (a, b)| sum.plus(&kendall::exact_distribution(a, b)?));
        Self { variance, variance_rows: variance, exact }
    }

    fn of_rows(strata: &[Vec<Observation>], scheme: Scheme) -> Self {
        match scheme {
            Scheme::Apart => Self::of(&strata.iter().map(|rows| coded(rows)).collect::<Vec<_>>()),
            Scheme::Years => {
                let variance_rows =
                    strata.iter().map(|rows| coded(rows)).map(|(a, b)| kendall::s_variance(&a, &b)).sum();
                let (variance, exact) = YearOrders::of(strata).into_null();
                Self { variance, variance_rows, exact }
            }
        }
    }

    /// Two-sided p of S.
    fn p(&self, s: i64) -> (f64, PFrom) {
        match &self.exact {
            Some(d) => (d.two_sided(s), PFrom::Exact),
            None => (kendall::normal_p(s as f64, self.variance), PFrom::Normal),
        }
    }

    /// Largest |S| that the plain test does not reject.
    fn critical(&self, confidence: f64) -> u64 {
        match &self.exact {
            Some(d) => d.critical(1.0 - confidence) as u64,
            None => (normal::quantile(0.5 * (1.0 + confidence)) * libm::sqrt(self.variance) + 1.0) as u64,
        }
    }
}

/// A test of strata and the slope that belongs to it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Tested {
    /// Sum of S.
    pub s: i64,
    /// Two-sided p of the plain test.
    pub p: f64,
    /// Where it comes from.
    pub p_from: PFrom,
    /// The largest p under the correlation found or assumed; `None` where nothing can be told of it.
    pub p_serial: Option<f64>,
    /// What the residuals tell of their correlation.
    pub correlation: Correlation,
    /// Common slope; `None` where the non-detects leave it open.
    pub slope: Option<Slope>,
}

/// Tests strata; `plain` is their p where it was found otherwise (by random arrangements).
pub(crate) fn tested(
    strata: &[&[Observation]],
    scheme: Scheme,
    plain: Option<(f64, PFrom)>,
    confidence: f64,
) -> Tested {
    let rows: Vec<Vec<Observation>> = strata.iter().map(|rows| rows.to_vec()).collect();
    let s = strata.iter().map(|rows| s_of(rows)).sum::<i64>();
    let (p, p_from) = plain.unwrap_or_else(|| Null::of_rows(&rows, scheme).p(s));
    let variance: f64 = rows.iter().map(|rows| coded(rows)).map(|(a, b)| kendall::s_variance(&a, &b)).sum();
    let mut pairs = PairSlopes::new(strata.iter().map(|rows| points(rows, |y| y)).collect());
    let zero = pairs.zero_interval();
    let b = zero.map(|(low, high)| 0.5 * (low + high));
    let correlation = Correlation::of(strata, About::Line);
    let p_serial = correlation.p(p, |f| f.p(s as f64, variance));
    let inversion = Inversion {
        strata,
        scheme,
        correlation: &correlation,
        untied: (scheme == Scheme::Apart && all_known(strata)).then(|| untied(strata)),
        at_zero: (s, p, p_serial),
        confidence,
    };
    let slope = b.zip(zero).map(|(b, zero)| inversion.slope(pairs, b, zero));
    Tested { s, p, p_from, p_serial, correlation, slope }
}

/// Slope between marks 0 and 1 in place of time, which is the shift from one group to the other, and its
/// interval under the correlation given; `None` where the non-detects leave it open.
pub(crate) fn between_marks(rows: &[Observation], correlation: &Correlation, confidence: f64) -> Option<(f64, Ends)> {
    let strata = [rows];
    let mut pairs = PairSlopes::new(vec![points(rows, |y| y)]);
    let shift = pairs.estimate()?;
    let null = Null::of_rows(&[rows.to_vec()], Scheme::Apart);
    let s = s_of(rows);
    let (p, _) = null.p(s);
    let inversion = Inversion {
        strata: &strata,
        scheme: Scheme::Apart,
        correlation,
        untied: all_known(&strata).then(|| untied(&strata)),
        at_zero: (s, p, correlation.p(p, |f| f.p(s as f64, null.variance_rows))),
        confidence,
    };
    let (interval, serial) = inversion.intervals(&mut pairs, shift, |y| y);
    Some((shift, serial.unwrap_or(interval)))
}

fn coded(rows: &[Observation]) -> (Codes, Codes) {
    let times: Vec<f64> = rows.iter().map(|r| r.time_years).collect();
    let readings: Vec<Reading> = rows.iter().map(|r| r.reading).collect();
    (Codes::of_values(&times), Codes::of(&readings))
}

fn s_of(rows: &[Observation]) -> i64 {
    let times: Vec<f64> = rows.iter().map(|r| r.time_years).collect();
    let readings: Vec<Reading> = rows.iter().map(|r| r.reading).collect();
    kendall::s_statistic(&Codes::of_values(&times), &Codes::of(&readings))
}

fn points(rows: &[Observation], f: impl Fn(f64) -> f64) -> Vec<Point> {
    rows.iter().map(|r| Point { x: r.time_years, y: f(r.reading.bound()), known: r.reading.is_known() }).collect()
}

fn all_known(strata: &[&[Observation]]) -> bool {
    strata.iter().all(|rows| rows.iter().all(|r| r.reading.is_known()))
}

/// Residuals at a pair slope tie by construction; apart by a hair they do not, and without
/// non-detects their null is then the same at every slope.
fn untied(strata: &[&[Observation]]) -> Null {
    let apart = |rows: &&[Observation]| -> Vec<Observation> {
        rows.iter().enumerate().map(|(i, r)| Observation::new(r.time_years, Reading::Known(i as f64))).collect()
    };
    Null::of_rows(&strata.iter().map(apart).collect::<Vec<_>>(), Scheme::Apart)
}

struct Inversion<'a> {
    strata: &'a [&'a [Observation]],
    scheme: Scheme,
    correlation: &'a Correlation,
    /// The null of every slope, where it is the same.
    untied: Option<Null>,
    at_zero: (i64, f64, Option<f64>),
    confidence: f64,
}

type Ends = (f64, f64);

/// The largest |S| that is not rejected: by the plain test, and by that widened by correlation.
#[derive(Debug, Clone, Copy)]
struct Turn {
    plain: u64,
    serial: u64,
}

impl Inversion<'_> {
    fn slope(&self, mut pairs: PairSlopes, b: f64, zero_interval: Ends) -> Slope {
        let (interval, interval_serial) = self.intervals(&mut pairs, b, |y| y);
        let positive = self.strata.iter().all(|rows| rows.iter().all(|r| r.reading.bound() > 0.0));
        let percent_per_year = positive.then(|| self.percent()).flatten();
        Slope { per_year: b, interval, interval_serial, zero_interval, percent_per_year }
    }

    fn percent(&self) -> Option<Percent> {
        let mut pairs = PairSlopes::new(self.strata.iter().map(|rows| points(rows, libm::log)).collect());
        let b = pairs.estimate()?;
        let (interval, serial) = self.intervals(&mut pairs, b, libm::log);
        let percent = |x: f64| 100.0 * libm::expm1(x);
        let both = |(low, high): Ends| (percent(low), percent(high));
        Some(Percent { per_year: percent(b), interval: both(interval), interval_serial: serial.map(both) })
    }

    /// Slopes that the plain test, and the one widened by correlation, do not reject.
    fn intervals(&self, pairs: &mut PairSlopes, b: f64, f: impl Fn(f64) -> f64 + Copy) -> (Ends, Option<Ends>) {
        let (s, p, p_serial) = self.at_zero;
        // Each slope once: an exact count costs ms, and both intervals begin alike.
        let mut counted: Vec<(f64, Turn)> = Vec::new();
        let mut turn = |slope: f64| {
            if let Some((_, turn)) = counted.iter().find(|(there, _)| *there == slope) {
                return *turn;
            }
            let turn = self.turn(slope, f);
            counted.push((slope, turn));
            turn
        };
        let interval = about_zero(self.ends(pairs, b, |slope| turn(slope).plain), s, p, self.confidence);
        let serial = p_serial.map(|p| {
            let (low, high) = self.ends(pairs, b, |slope| turn(slope).serial);
            about_zero((low.min(interval.0), high.max(interval.1)), s, p, self.confidence)
        });
        (interval, serial)
    }

    /// The largest |S| of the residuals that is not rejected.
    fn turn(&self, slope: f64, f: impl Fn(f64) -> f64 + Copy) -> Turn {
        let of = |null: &Null| {
            let plain = null.critical(self.confidence);
            let serial = self.correlation.critical(plain, null.variance_rows, self.confidence);
            Turn { plain, serial: serial.unwrap_or(plain) }
        };
        self.untied.as_ref().map_or_else(|| of(&Null::of_rows(&self.residuals(slope, f), self.scheme)), of)
    }

    fn ends(&self, pairs: &mut PairSlopes, b: f64, mut critical: impl FnMut(f64) -> u64) -> Ends {
        let start = critical(b);
        if self.untied.is_some() {
            return pairs.interval(start);
        }
        (settled(pairs, start, |i| i.0, &mut critical), settled(pairs, start, |i| i.1, &mut critical))
    }

    fn residuals(&self, slope: f64, f: impl Fn(f64) -> f64 + Copy) -> Vec<Vec<Observation>> {
        let of = |r: &Observation| Observation::new(r.time_years, r.reading.map(|y| f(y) - slope * r.time_years));
        self.strata.iter().map(|rows| rows.iter().map(of).collect()).collect()
    }
}

/// Rounds until an end stays; it goes to and fro between two places at most.
const ROUNDS: usize = 8;

/// The end at which the test with the variance found there turns; where it goes to and fro, the outer one.
fn settled(
    pairs: &mut PairSlopes,
    start: u64,
    side: impl Fn(Ends) -> f64,
    critical: &mut impl FnMut(f64) -> u64,
) -> f64 {
    let mut tried = vec![start];
    for _ in 0..ROUNDS {
        let c = tried[tried.len() - 1];
        let end = side(pairs.interval(c));
        if !end.is_finite() {
            return end;
        }
        let there = critical(end);
        if there == c {
            return end;
        }
        if tried.contains(&there) {
            return side(pairs.interval(c.max(there)));
        }
        tried.push(there);
    }
    side(pairs.interval(tried.into_iter().max().unwrap_or(start)))
}

/// The interval held against the test at zero, whose S and p are given.
pub(crate) fn about_zero((low, high): Ends, s: i64, p: f64, confidence: f64) -> Ends {
    if p >= 1.0 - confidence {
        (low.min(0.0), high.max(0.0))
    } else if s > 0 {
        (low.max(0.0), high.max(0.0))
    } else {
        (low.min(0.0), high.min(0.0))
    }
}
