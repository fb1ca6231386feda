//! How often does a 95 % interval hold the true figure? Writes the table that `series` reads to
//! warn (`docs/validation/series_coverage.csv`) to standard output:
//!
//! `cargo run --release -p series --example coverage > coverage.csv`
//!
//! Lognormal data, sd of ln 0.5, 1, 1.5, 2, and gamma data of shape 4 and 1; non-detects at three limits
//! in random order; n = 12, 40, 120; 0, 30, 60, 80 % non-detects. The slope (lognormal, sd of ln 1) is that of ln(value), 3 % a year over 12 years; the
//! row `theil-sen-limits-falling` has the three limits one after the other in time, highest first.
//! Fixed random streams: the same table on any machine.

use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;
use series::summary::{self, Method};
use series::{Observation, Reading, trend};
use statistics::sample::median_high;
use statistics::{gamma, normal};

const SERIES: u64 = 1000;
const YEARS: f64 = 12.0;

/// What one series answers: estimate, interval; `None` without a bounded answer.
type Answer = Option<(f64, f64, f64)>;

struct Case {
    n: usize,
    censored: f64,
    shape: Shape,
}

/// What the values are drawn from.
#[derive(Clone, Copy)]
enum Shape {
    /// Median 1, sd of ln.
    Lognormal(f64),
    /// Scale 1, shape.
    Gamma(f64),
}

impl Shape {
    const ALL: [Self; 6] = [
        Self::Lognormal(0.5),
        Self::Gamma(4.0),
        Self::Lognormal(1.0),
        Self::Gamma(1.0),
        Self::Lognormal(1.5),
        Self::Lognormal(2.0),
    ];

    fn name(self) -> &'static str {
        match self {
            Self::Lognormal(_) => "lognormal",
            Self::Gamma(_) => "gamma",
        }
    }

    /// sd of ln; of a gamma the root of the trigamma function of its shape: scipy 1.17.1,
    /// special.polygamma(1, [4, 1]) ** .5.
    fn sd_ln(self) -> f64 {
        match self {
            Self::Lognormal(sd) => sd,
            Self::Gamma(shape) if shape > 1.0 => 0.532_750_37,
            Self::Gamma(_) => 1.282_549_830_2,
        }
    }

    fn quantile(self, p: f64) -> f64 {
        match self {
            Self::Lognormal(sd) => (sd * normal::quantile(p)).exp(),
            Self::Gamma(shape) => gamma::quantile(p, shape),
        }
    }

    fn mean(self) -> f64 {
        match self {
            Self::Lognormal(sd) => (0.5 * sd * sd).exp(),
            Self::Gamma(shape) => shape,
        }
    }
}

fn limits(case: &Case) -> [f64; 3] {
    let apart = 0.15_f64.min(0.5 * (1.0 - case.censored));
    [case.censored + apart, case.censored, case.censored - apart].map(|p| case.shape.quantile(p.max(0.0)))
}

fn reading(value: f64, limit: f64, censored: f64) -> Reading {
    if censored > 0.0 && value < limit { Reading::Below(limit) } else { Reading::Known(value) }
}

fn rng(case: &Case, series: u64, kind: u64) -> ChaCha8Rng {
    let mut rng = ChaCha8Rng::seed_from_u64(kind);
    rng.set_stream((case.n as u64) << 40 | ((100.0 * case.censored) as u64) << 32 | series);
    rng
}

fn normal(rng: &mut ChaCha8Rng) -> f64 {
    normal::quantile(rng.random_range(1e-16..1.0))
}

fn summaries(case: &Case, series: u64) -> Vec<Answer> {
    let mut rng = rng(case, series, 1);
    let limits = limits(case);
    let data: Vec<Reading> = (0..case.n)
        .map(|_| {
            let limit = limits[rng.random_range(0..3)];
            reading(case.shape.quantile(rng.random_range(1e-16..1.0)), limit, case.censored)
        })
        .collect();
    let request = summary::Request { shares: vec![0.5, 0.9], draws: 499, ..summary::Request::default() };
    let Ok(s) = summary::summary(&data, &request) else {
        return vec![None; 12];
    };
    let mut out = Vec::new();
    for m in &s.methods {
        let Ok(f) = &m.figures else {
            out.extend([None; 3]);
            continue;
        };
        let bounded = |x: f64, low: f64, high: f64| (low.is_finite() && high.is_finite()).then_some((x, low, high));
        out.push(bounded(f.mean.high, f.mean.interval.0, f.mean.interval.1));
        for p in &f.percentiles {
            out.push(p.interval.and_then(|(low, high)| {
                let low = match low {
                    Reading::Known(v) => v,
                    Reading::Below(_) => 0.0,
                };
                bounded(p.value.bound(), low, high)
            }));
        }
    }
    out
}

fn slopes(case: &Case, series: u64, falling: bool) -> Answer {
    let mut rng = rng(case, series, if falling { 3 } else { 2 });
    let limits = limits(case);
    let slope = 0.03_f64.ln_1p();
    let data: Vec<Observation> = (0..case.n)
        .map(|i| {
            let t = YEARS * (i as f64 + 0.5) / case.n as f64;
            let limit = limits[if falling { 3 * i / case.n } else { rng.random_range(0..3) }];
            // The limits stand against the median of the middle of the record.
            let value = (slope * (t - 0.5 * YEARS) + normal(&mut rng)).exp();
            Observation::new(t, reading(value, limit, case.censored))
        })
        .collect();
    let percent = trend::trend(&data, &trend::Request::default()).ok()?.slope?.percent_per_year?;
    let (low, high) = percent.interval;
    (low > -100.0 && high.is_finite()).then_some((percent.per_year, low, high))
}

fn median(x: impl Iterator<Item = f64>) -> f64 {
    median_high(&x.collect::<Vec<f64>>()).unwrap_or(f64::NAN)
}

fn line(quantity: &str, method: &str, case: &Case, truth: f64, answers: &[Answer]) {
    let given: Vec<_> = answers.iter().flatten().collect();
    let held = given.iter().filter(|(_, low, high)| *low <= truth && truth <= *high).count();
    println!(
        "{quantity},{method},{},{:.3},{},{:.0},{:.1},{:.1},{:.3},{:.3},{}",
        case.shape.name(),
        case.shape.sd_ln(),
        case.n,
        100.0 * case.censored,
        100.0 * held as f64 / given.len().max(1) as f64,
        100.0 * (answers.len() - given.len()) as f64 / answers.len() as f64,
        median(given.iter().map(|a| a.0 / truth)),
        median(given.iter().map(|a| (a.2 - a.1) / truth)),
        answers.len()
    );
}

fn main() {
    println!(
        "quantity,method,shape,sd_ln,n,censored_percent,coverage_percent,no_answer_percent,median_estimate_over_true,median_width_over_true,series"
    );
    for shape in Shape::ALL {
        let truths = [("mean", shape.mean()), ("median", shape.quantile(0.5)), ("p90", shape.quantile(0.9))];
        for (n, censored) in cells() {
            let case = Case { n, censored, shape };
            let all: Vec<Vec<Answer>> = (0..SERIES).into_par_iter().map(|i| summaries(&case, i)).collect();
            for (m, method) in Method::ALL.into_iter().enumerate() {
                for (q, (quantity, truth)) in truths.iter().enumerate() {
                    let answers: Vec<Answer> = all.iter().map(|a| a[3 * m + q]).collect();
                    line(quantity, method.table_name(), &case, *truth, &answers);
                }
            }
        }
    }
    for (n, censored) in cells() {
        let case = Case { n, censored, shape: Shape::Lognormal(1.0) };
        for (name, falling) in [("theil-sen", false), ("theil-sen-limits-falling", true)] {
            let answers: Vec<Answer> = (0..SERIES).into_par_iter().map(|i| slopes(&case, i, falling)).collect();
            line("slope", name, &case, 3.0, &answers);
        }
    }
}

fn cells() -> impl Iterator<Item = (usize, f64)> {
    [12, 40, 120].into_iter().flat_map(|n| [0.0, 0.3, 0.6, 0.8].map(|censored| (n, censored)))
}
