//! How long has the water been under way, and from how wide a strip does the well draw it?
//!
//! In: distance to the recharge area, hydraulic gradient, conductivity, porosity; flow and transmissivity;
//! each as a measured value with u or as a textbook range. Out: percentiles of travel time in years,
//! capture width and stagnation distance in m, the part of the spread that each input brings, and whether
//! a tracer's age contradicts it.
//!
//! Method: Darcy 1856, v = K·i/n_e, t = L/v; capture width far upstream in a uniform flow field Q/(T·i), half
//! of it at the well, stagnation point Q/(2π·T·i) downstream (Todd 1980, Groundwater Hydrology, 4.6; recalled).
//! Monte Carlo with one random stream a block (JCGM 101:2008): a conductivity range is uniform on its
//! logarithm, other ranges are uniform, measured values normal, cut at zero.
//!
//! Textbook ranges of conductivity span decades: a travel time that spans decades is the honest answer.
//! No dispersion, no layers, no change of gradient in time. Checked in `tests/validation_travel.rs`.

use crate::Reason;
use crate::purge::split_quoted;
use crate::reason::{above_nought, key};
use message::{Message, Name, Shown, aquifer as part, well as said};
use quantity::factor::S_PER_YEAR;
use quantity::{Amount, Check, Finding, Outcome, Unit};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;
use serde::Serialize;
use statistics::{normal, sample::nearest_rank};
use std::f64::consts::PI;
use std::sync::LazyLock;

/// A formation as the textbook knows it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Formation {
    /// `clean sand`, `glacial till` …
    pub material: String,
    /// Hydraulic conductivity from, to, m/s.
    pub conductivity_m_s: (f64, f64),
    /// Porosity from, to; none where the table has none.
    pub porosity: Option<(f64, f64)>,
    /// `seen` or `recalled`.
    pub provenance: String,
    /// The textbook.
    pub source: String,
}

static FORMATIONS: LazyLock<Vec<Formation>> = LazyLock::new(|| {
    include_str!("../../../reference/formation_properties.csv")
        .lines()
        .skip(1)
        .map(|line| {
            let f = split_quoted(line);
            let n = |i: usize| f[i].parse::<f64>().ok();
            Formation {
                material: f[0].clone(),
                conductivity_m_s: n(1).zip(n(2)).expect("the table's conductivities are numbers"),
                porosity: n(3).zip(n(4)),
                provenance: f[5].clone(),
                source: f[6].clone(),
            }
        })
        .collect()
});

impl Formation {
    /// Its name.
    pub fn named(&self) -> Message {
        Message::named("formation", &self.material).expect("every row of the table has its message")
    }

    /// What the table adds behind its source, where it adds something.
    pub fn note(&self) -> Option<Message> {
        Message::named("formation-note", &self.material)
    }
}

/// All formations of the table.
pub fn formations() -> &'static [Formation] {
    &FORMATIONS
}

/// What is known of one input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Known {
    /// Measured: value and standard uncertainty.
    Measured(f64, f64),
    /// A textbook's range, uniform between its ends.
    Range(f64, f64),
    /// A textbook's range over orders of magnitude, uniform on the logarithm.
    Decades(f64, f64),
}

impl Known {
    /// Measured, or by textbook?
    pub fn origin(&self) -> &'static str {
        match self {
            Self::Measured(..) => "measured",
            Self::Range(..) | Self::Decades(..) => "textbook range",
        }
    }

    fn check(&self, what: &str) -> Result<(), Reason> {
        let ok = match *self {
            Self::Measured(v, u) => v > 0.0 && v.is_finite() && u >= 0.0 && u.is_finite(),
            Self::Range(a, b) | Self::Decades(a, b) => a > 0.0 && b >= a && b.is_finite(),
        };
        if ok { Ok(()) } else { Err(Reason::unlike(input(what), self.found(), part::AboveNoughtOrRange)) }
    }

    /// As it was given.
    fn found(&self) -> Message {
        let plain = |x| Shown::as_given(x, "");
        match *self {
            Self::Measured(v, u) => part::ValueWithU { value: plain(v), u: plain(u) }.into(),
            Self::Range(a, b) | Self::Decades(a, b) => part::Between { low: plain(a), high: plain(b) }.into(),
        }
    }

    /// A draw; normal ones at or under zero are drawn again.
    fn draw(&self, rng: &mut ChaCha8Rng) -> f64 {
        match *self {
            Self::Range(a, b) => a + (b - a) * rng.random::<f64>(),
            Self::Decades(a, b) => a * libm::exp(libm::log(b / a) * rng.random::<f64>()),
            Self::Measured(v, u) => loop {
                let x = v + u * normal(rng);
                if x > 0.0 {
                    return x;
                }
            },
        }
    }
}

/// An input by its name.
fn input(name: &str) -> part::Input {
    part::Input { input: key(name) }
}

/// A normal deviate (Box & Muller 1958, Ann. Math. Stat. 29:610).
pub(crate) fn normal(rng: &mut ChaCha8Rng) -> f64 {
    let (a, b) = (1.0 - rng.random::<f64>(), rng.random::<f64>());
    (-2.0 * libm::log(a)).sqrt() * libm::cos(2.0 * PI * b)
}

/// Water on its way from the recharge area.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// Distance from the recharge area, m.
    pub distance_m: Known,
    /// Hydraulic gradient, m/m.
    pub gradient: Known,
    /// Hydraulic conductivity, m/s.
    pub conductivity_m_s: Known,
    /// Effective porosity, share of the volume.
    pub porosity: Known,
}

/// Hydraulic gradient from the head at the well and the level of the recharge area, both m above one datum, and the
/// distance between, each as (value, u): i = (h_r − h_w)/L, u by partial derivatives.
///
/// # Errors
/// [`Reason`]: a distance that is not positive, a negative u, or a recharge level at or below the head: water does not
/// flow uphill, so one of the two is not what it is taken for.
///
/// ```
/// use aquifer::travel::gradient;
/// // A head above the recharge area: water does not flow uphill, so one of the two is wrong.
/// assert!(gradient((31.0, 0.5), (34.2, 0.1), (6000.0, 300.0)).is_err());
/// ```
pub fn gradient(recharge_m: (f64, f64), head_m: (f64, f64), distance_m: (f64, f64)) -> Result<Known, Reason> {
    let metres = |x| Shown::as_given(x, "m");
    for (what, (v, u)) in [("recharge level", recharge_m), ("head at the well", head_m), ("distance", distance_m)] {
        if !(v.is_finite() && u >= 0.0 && u.is_finite()) {
            let found = part::ValueWithU { value: metres(v), u: Shown::as_given(u, "") };
            return Err(Reason::unlike(input(what), found, part::MetresWithU));
        }
    }
    let (drop, length) = (recharge_m.0 - head_m.0, distance_m.0);
    above_nought(input("distance"), length, "m")?;
    if drop <= 0.0 {
        let above = part::AboveTheHead { head: metres(head_m.0) };
        return Err(Reason::out_of_range(input("recharge level"), metres(recharge_m.0), above));
    }
    let i = drop / length;
    let u2 = (recharge_m.1.powi(2) + head_m.1.powi(2)) / (length * length) + (i * distance_m.1 / length).powi(2);
    Ok(Known::Measured(i, u2.sqrt()))
}

/// Least and largest number of draws.
// The programme's own choice: a thousand give an interval at all, a million its ends to three digits.
const DRAWS: std::ops::RangeInclusive<usize> = 1000..=1_000_000;

/// Size and seed of a simulation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Draws {
    /// Number of draws, at least 1000.
    pub draws: usize,
    /// Seed.
    pub seed: u64,
}

impl Default for Draws {
    fn default() -> Self {
        Self { draws: 100_000, seed: 1 }
    }
}

/// Percentiles of a simulated quantity.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Percentiles {
    /// 2.5th percentile.
    pub low_95: f64,
    /// 25th.
    pub low_50: f64,
    /// Median.
    pub median: f64,
    /// 75th.
    pub high_50: f64,
    /// 97.5th.
    pub high_95: f64,
}

/// What one input brings to the spread.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Part {
    /// The input.
    pub input: String,
    /// `measured` or `textbook range`.
    pub origin: String,
    /// Its share of the variance of the logarithm, 0 to 1.
    pub share: f64,
}

/// A simulated answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Simulated {
    /// Percentiles of the quantity.
    pub percentiles: Percentiles,
    /// What brings the spread, largest first.
    pub parts: Vec<Part>,
}

/// Travel time in years.
///
/// # Errors
/// [`Reason`]: an input that cannot be (a porosity above 1 among them) or too few draws or too many.
pub fn travel_time_years(path: &Path, draws: Draws) -> Result<Simulated, Reason> {
    simulate(&inputs_of(path)?, 1.0 / S_PER_YEAR, draws)
}

/// The draws of the travel time themselves, years, in rising order: to compare with those of an age.
///
/// # Errors
/// As [`travel_time_years`].
pub fn travel_time_draws(path: &Path, draws: Draws) -> Result<Vec<f64>, Reason> {
    Ok(simulated(&inputs_of(path)?, 1.0 / S_PER_YEAR, draws)?.0.into_iter().map(libm::exp).collect())
}

/// The inputs of the travel time with the sign of their exponent.
fn inputs_of(path: &Path) -> Result<[(&'static str, Known, f64); 4], Reason> {
    let porosity_top = match path.porosity {
        Known::Measured(v, _) => v,
        Known::Range(_, b) | Known::Decades(_, b) => b,
    };
    if porosity_top > 1.0 {
        let found = Shown::as_given(porosity_top, "");
        return Err(Reason::out_of_range(part::Porosity, found, part::ShareNotPercent));
    }
    Ok([
        ("distance", path.distance_m, 1.0),
        ("effective porosity", path.porosity, 1.0),
        ("hydraulic conductivity", path.conductivity_m_s, -1.0),
        ("gradient", path.gradient, -1.0),
    ])
}

/// What the well draws from in a uniform flow field.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Capture {
    /// Width of the strip far upstream, m: Q/(T·i). Half of it at the well.
    pub width_m: Simulated,
    /// Distance downstream from which water still turns back to the well, m: Q/(2π·T·i).
    pub stagnation_m: Simulated,
}

/// Capture width and stagnation distance from flow (m³/s), transmissivity (m²/s) and gradient.
///
/// # Errors
/// [`Reason`]: an input that cannot be, or too few draws or too many.
pub fn capture(flow_m3_s: Known, transmissivity_m2_s: Known, gradient: Known, draws: Draws) -> Result<Capture, Reason> {
    let inputs =
        [("flow", flow_m3_s, 1.0), ("transmissivity", transmissivity_m2_s, -1.0), ("gradient", gradient, -1.0)];
    Ok(Capture { width_m: simulate(&inputs, 1.0, draws)?, stagnation_m: simulate(&inputs, 0.5 / PI, draws)? })
}

/// Simulates factor · Π x_k^(±1). Blocks of draws have random streams of their own, so that threads change
/// nothing; the variance of the logarithm is the sum of its parts exactly.
fn simulate(inputs: &[(&str, Known, f64)], factor: f64, draws: Draws) -> Result<Simulated, Reason> {
    let (all, parts) = simulated(inputs, factor, draws)?;
    let at = |p: f64| libm::exp(nearest_rank(&all, p));
    Ok(Simulated {
        percentiles: Percentiles {
            low_95: at(0.025),
            low_50: at(0.25),
            median: at(0.5),
            high_50: at(0.75),
            high_95: at(0.975),
        },
        parts,
    })
}

/// The logarithms of the draws in rising order, and what brings their spread.
fn simulated(inputs: &[(&str, Known, f64)], factor: f64, draws: Draws) -> Result<(Vec<f64>, Vec<Part>), Reason> {
    const BLOCK: usize = 4096;
    for (what, known, _) in inputs {
        known.check(what)?;
    }
    if !DRAWS.contains(&draws.draws) {
        let number = |n: usize| Shown::as_given(n as f64, "");
        let range = part::Between { low: number(*DRAWS.start()), high: number(*DRAWS.end()) };
        return Err(Reason::out_of_range(part::Draws, number(draws.draws), range));
    }
    let blocks: Vec<(Vec<f64>, Vec<[f64; 2]>)> = (0..draws.draws.div_ceil(BLOCK))
        .into_par_iter()
        .map(|block| {
            let mut rng = ChaCha8Rng::seed_from_u64(draws.seed);
            rng.set_stream(block as u64);
            let count = BLOCK.min(draws.draws - block * BLOCK);
            let mut moments = vec![[0.0; 2]; inputs.len()];
            let logs = (0..count)
                .map(|_| {
                    // As a sum of logarithms: only there do the variances of the inputs add up to parts of the whole.
                    let mut sum = libm::log(factor);
                    for ((_, known, sign), m) in inputs.iter().zip(&mut moments) {
                        let ln = libm::log(known.draw(&mut rng));
                        m[0] += ln;
                        m[1] += ln * ln;
                        sum += sign * ln;
                    }
                    sum
                })
                .collect();
            (logs, moments)
        })
        .collect();
    let n = draws.draws as f64;
    let variance = |k: usize| {
        let (s, ss) = blocks.iter().fold((0.0, 0.0), |(a, b), (_, m)| (a + m[k][0], b + m[k][1]));
        (ss / n - (s / n).powi(2)).max(0.0)
    };
    let variances: Vec<f64> = (0..inputs.len()).map(variance).collect();
    let total: f64 = variances.iter().sum();
    let mut parts: Vec<Part> = (inputs.iter().zip(&variances))
        .map(|((input, known, _), v)| Part {
            input: (*input).into(),
            origin: known.origin().into(),
            share: if total > 0.0 { v / total } else { 0.0 },
        })
        .collect();
    parts.sort_by(|a, b| b.share.total_cmp(&a.share));
    let mut all: Vec<f64> = blocks.into_iter().flat_map(|(l, _)| l).collect();
    all.sort_by(f64::total_cmp);
    Ok((all, parts))
}

/// An age by a tracer, years.
#[derive(Debug, Clone, PartialEq)]
pub enum Age {
    /// Age with standard uncertainty.
    Measured(f64, f64),
    /// Older than: no tritium, radiocarbon at its limit.
    OlderThan(f64),
    /// Younger than: tritium above the level of old water.
    YoungerThan(f64),
}

/// Does a tracer's age contradict the travel time by Darcy? The two 95 % ranges are laid beside each other.
pub fn age_finding(tracer: &str, age: &Age, travel: &Simulated) -> Finding {
    let p = &travel.percentiles;
    let (low, high) = match age {
        Age::Measured(v, u) => {
            let half = normal::TWO_SIDED_95 * u;
            ((v - half).max(0.0), v + half)
        }
        Age::OlderThan(v) => (*v, f64::INFINITY),
        Age::YoungerThan(v) => (0.0, *v),
    };
    let in_years = |v: f64| Shown::significant(v, 3, "");
    let shown: Message = match *age {
        Age::Measured(v, u) => said::AgeWithU { age: in_years(v), u: Shown::significant(u, 2, "") }.into(),
        Age::OlderThan(v) => said::AgeOver { age: in_years(v) }.into(),
        Age::YoungerThan(v) => said::AgeUnder { age: in_years(v) }.into(),
    };
    let tracer = Name::from(tracer);
    let (from, to) = (Shown::significant(p.low_95, 2, ""), Shown::significant(p.high_95, 2, ""));
    let (outcome, says): (_, Message) = if low <= p.high_95 && high >= p.low_95 {
        (Outcome::Met, said::AgeWithin { tracer, age: shown, low: from, high: to }.into())
    } else {
        (Outcome::NotMet, said::AgeContradicts { tracer, age: shown, low: from, high: to }.into())
    };
    let years = |v: f64| Amount::stated(v, Unit::known("a"));
    Finding::new(Check::AquiferAge, outcome, says)
        .comparing(message::compared::TravelTimeLow, years(p.low_95))
        .comparing(message::compared::TravelTimeHigh, years(p.high_95))
}
