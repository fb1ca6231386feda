//! From blanks, counts or a line to the level that can be told from nothing.
//!
//! Three numbers, never mixed up: the **critical value** L_C decides ("detected if the net value is
//! above it"); the **detection limit** L_D promises ("a level here is missed with probability β
//! only"); the **quantification limit** L_Q is where the value may be quoted. All three stand on
//! the net scale (blank taken off) in the unit of the input. The method detection limits of US
//! regulation stand on the gross scale and are kept apart.
//!
//! Sources: Currie 1968 (Anal. Chem. 40:586); Currie 1995 (Pure Appl. Chem. 67:1699); ISO 11843-1
//! and -2; DIN 32645; MARLAP ch. 20 for unequal counting times; 40 CFR 136 appendix B rev. 2.
//! The formulas are from memory except where `tests/detection.rs` says otherwise.
//! Normal blanks are assumed by the t-based limits: [`normality`] says when a set does not look
//! so, and [`crate::blank`] holds the ways without that assumption. Fewer values than a rule needs
//! give a refusal, not a number.
//! Checked in `tests/detection.rs` and by simulation in `tests/run_coverage.rs`.

pub mod calc;
mod counts;
mod method;
pub mod trust;

pub use counts::{CountLimits, Counting, ExactCounts, count_limits};
pub use method::{Mdl, MdlBlanks, MdlCheck, mdl_confidence, mdl_from_blanks, mdl_from_spikes, mdl_review};

use crate::blank::{self, Centre};
use message::{Message, Name, Shown, detection as said};

/// A limit that cannot be given, with what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// Not enough values.
    #[error("{what}: found {found}, at least {needed} are needed")]
    TooFew {
        /// Which values.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many are needed.
        needed: usize,
    },
    /// A value that is not a finite number.
    #[error("{what}[{index}] is {value}, a finite number is needed")]
    NotFinite {
        /// Which values.
        what: &'static str,
        /// Index from 0.
        index: usize,
        /// The value.
        value: f64,
    },
    /// Values without spread.
    #[error(
        "all {n} {what} are {value}: their spread is not known, it is not zero. Give them with more digits and with negative values kept, or as counts with counting times"
    )]
    AllEqual {
        /// Which values.
        what: &'static str,
        /// How many.
        n: usize,
        /// The one value.
        value: f64,
    },
    /// A number out of range.
    #[error("{what} is {value}, {range} is needed")]
    OutOfRange {
        /// Which number.
        what: &'static str,
        /// The value.
        value: f64,
        /// What it may be.
        range: &'static str,
    },
    /// A line that cannot be read backwards.
    #[error("{why}: no limit can be read from this line")]
    NoLine {
        /// What is wrong.
        why: Unreadable,
    },
    /// An iteration that did not settle.
    #[error("{what} did not settle after {iterations} iterations: uncertainty grows as fast as the level")]
    NotConverged {
        /// What was sought.
        what: &'static str,
        /// Iterations made.
        iterations: usize,
    },
}

/// What is wrong with a line that cannot be read backwards.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Unreadable {
    /// No slope can be found.
    #[error("all {n} points stand at x = {x}")]
    OneLevel {
        /// How many.
        n: usize,
        /// Where.
        x: f64,
    },
    /// The line does not rise.
    #[error("the slope is {0}, not above zero")]
    NotRising(f64),
    /// The points do not scatter.
    #[error("all points lie exactly on the line, so the noise is not known")]
    NoScatter,
}

impl Error {
    /// As a document says it.
    pub fn says(&self) -> Message {
        let of = |what: &str| Name(what.replace(' ', "-"));
        match *self {
            Self::TooFew { what, found, needed } => {
                said::TooFew { what: of(what), found: message::count(found), needed: message::count(needed) }.into()
            }
            Self::NotFinite { what, index, .. } => {
                said::NotFinite { what: of(what), place: message::count(index) }.into()
            }
            Self::AllEqual { what, n, value } => {
                said::AllEqual { n: message::count(n), what: of(what), value: Shown::as_given(value, "") }.into()
            }
            Self::OutOfRange { what, value, .. } => {
                said::OutOfRange { what: of(what), value: Shown::as_given(value, "") }.into()
            }
            Self::NoLine { why: Unreadable::OneLevel { n, x } } => {
                said::OneLevel { n: message::count(n), x: Shown::as_given(x, "") }.into()
            }
            Self::NoLine { why: Unreadable::NotRising(slope) } => {
                said::NotRising { slope: Shown::trimmed(slope, 3, "") }.into()
            }
            Self::NoLine { why: Unreadable::NoScatter } => said::NoScatter.into(),
            Self::NotConverged { iterations, .. } => said::NotSettled { iterations: message::count(iterations) }.into(),
        }
    }
}

/// Probabilities of the two errors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Risks {
    /// False detection.
    pub alpha: f64,
    /// Missed detection at L_D.
    pub beta: f64,
}

impl Default for Risks {
    fn default() -> Self {
        Self { alpha: 0.05, beta: 0.05 }
    }
}

impl Risks {
    fn check(self) -> Result<Self, Error> {
        for (what, value) in [("alpha", self.alpha), ("beta", self.beta)] {
            if !(value > 0.0 && value < 0.5) {
                return Err(Error::OutOfRange { what, value, range: "a probability above 0 and below 0.5" });
            }
        }
        Ok(self)
    }
}

/// L_C, L_D, L_Q on the net scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NetLimits {
    /// L_C.
    pub critical_value: f64,
    /// L_D.
    pub detection_limit: f64,
    /// L_Q: ten standard deviations.
    pub quantification_limit: f64,
    /// Standard deviation of the net value at zero.
    pub sd_at_zero: f64,
    /// Degrees of freedom of that standard deviation; infinite where it is known.
    pub dof: f64,
}

impl NetLimits {
    fn new(sd_at_zero: f64, dof: f64, risks: Risks) -> Self {
        let (t, delta) = if dof.is_finite() {
            (
                statistics::t::upper_quantile(risks.alpha, dof),
                statistics::noncentral::detection_delta(risks.alpha, risks.beta, dof),
            )
        } else {
            let z = statistics::normal::upper_quantile;
            (z(risks.alpha), z(risks.alpha) + z(risks.beta))
        };
        Self {
            critical_value: t * sd_at_zero,
            detection_limit: delta * sd_at_zero,
            quantification_limit: 10.0 * sd_at_zero,
            sd_at_zero,
            dof,
        }
    }

    /// The interval of L_D (σ is estimated): L_D·√(ν/χ²), at a two-sided coverage. Zero width
    /// where σ is known.
    pub fn detection_interval(&self, coverage: f64) -> [f64; 2] {
        if self.dof.is_infinite() {
            return [self.detection_limit; 2];
        }
        let tail = (1.0 - coverage) / 2.0;
        let factor = |chi2: f64| (self.dof / chi2).sqrt();
        [
            self.detection_limit * factor(statistics::chi2::upper_quantile(tail, self.dof)),
            self.detection_limit * factor(statistics::chi2::quantile(tail, self.dof)),
        ]
    }
}

/// Limits where the standard deviation of the net value at zero is known (Currie 1968).
///
/// # Errors
/// [`Error::OutOfRange`] for sd ≤ 0 or risks outside (0, 0.5).
pub fn known(sd_at_zero: f64, risks: Risks) -> Result<NetLimits, Error> {
    let risks = risks.check()?;
    if !(sd_at_zero > 0.0 && sd_at_zero.is_finite()) {
        return Err(Error::OutOfRange { what: "sd", value: sd_at_zero, range: "above 0" });
    }
    Ok(NetLimits::new(sd_at_zero, f64::INFINITY, risks))
}

/// How a sample is compared with the blanks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comparison {
    /// Readings averaged for the sample.
    pub sample_readings: usize,
    /// Whether the sample has a blank of its own (paired, σ₀ = s·√2) instead of the mean of
    /// all blanks (σ₀ = s·√(1/m + 1/n)).
    pub paired: bool,
}

impl Default for Comparison {
    fn default() -> Self {
        Self { sample_readings: 1, paired: false }
    }
}

/// Blanks and the limits they set.
#[derive(Debug, Clone, PartialEq)]
pub struct BlankLimits {
    /// Mean and standard deviation.
    pub centre: Centre,
    /// Number of blanks.
    pub n: usize,
    /// The t-based limits.
    pub limits: NetLimits,
    /// The same from Huber's scale, which rare spikes pull less.
    pub robust: NetLimits,
}

/// Limits from n blanks (Currie 1995, ISO 11843-1):
/// L_C = t(1−α, ν)·s·√(1/m + 1/n), L_D = δ(α, β, ν)·s·√(1/m + 1/n), ν = n − 1.
///
/// ```
/// use measurement::detection::{from_blanks, Comparison, Risks};
/// // Negative blanks stay in: they are half of what says where zero is.
/// let blanks = [-0.02, 0.01, 0.05, -0.01, 0.02, 0.03, -0.03];
/// let l = from_blanks(&blanks, Comparison::default(), Risks::default()).unwrap().limits;
/// assert!(l.critical_value < l.detection_limit);
/// ```
///
/// # Errors
/// [`Error::TooFew`] under two blanks, [`Error::AllEqual`] where they do not differ,
/// [`Error::NotFinite`], [`Error::OutOfRange`].
pub fn from_blanks(blanks: &[f64], how: Comparison, risks: Risks) -> Result<BlankLimits, Error> {
    let risks = risks.check()?;
    spread("blanks", blanks, 2)?;
    if how.sample_readings == 0 {
        return Err(Error::OutOfRange { what: "sample_readings", value: 0.0, range: "1 or more" });
    }
    let n = blanks.len();
    let m = how.sample_readings as f64;
    let factor = if how.paired { (2.0 / m).sqrt() } else { (1.0 / m + 1.0 / n as f64).sqrt() };
    let dof = n as f64 - 1.0;
    let centre = blank::centre(blanks);
    let robust = blank::robust_centre(blanks);
    Ok(BlankLimits {
        limits: NetLimits::new(centre.sd * factor, dof, risks),
        robust: NetLimits::new(robust.sd * factor, dof, risks),
        centre,
        n,
    })
}

fn finite(what: &'static str, values: &[f64]) -> Result<(), Error> {
    match values.iter().position(|x| !x.is_finite()) {
        None => Ok(()),
        Some(index) => Err(Error::NotFinite { what, index, value: values[index] }),
    }
}

fn spread(what: &'static str, values: &[f64], needed: usize) -> Result<(), Error> {
    finite(what, values)?;
    if values.len() < needed {
        return Err(Error::TooFew { what, found: values.len(), needed });
    }
    if blank::equal(values) {
        return Err(Error::AllEqual { what, n: values.len(), value: values[0] });
    }
    Ok(())
}

/// Limits read from a calibration line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineLimits {
    /// ISO 11843-2: critical and minimum detectable value, as concentration.
    pub iso: NetLimits,
    /// ISO 11843-2: critical value of the response.
    pub critical_response: f64,
    /// DIN 32645: decision limit (equals the critical value of ISO 11843-2).
    pub din_decision: f64,
    /// DIN 32645: detection limit, twice the decision limit (α = β).
    pub din_detection: f64,
    /// DIN 32645: quantification limit, where the half-width of the two-sided interval is 1/k of
    /// the level.
    pub din_quantification: f64,
    /// Slope.
    pub slope: f64,
    /// Intercept.
    pub intercept: f64,
    /// Residual standard deviation.
    pub residual_sd: f64,
}

/// k of DIN 32645: relative half-width 1/3 at the quantification limit.
const DIN_K: f64 = 3.0;

/// Limits from an unweighted line over reference states (each preparation a point), for a sample
/// measured `sample_readings` times:
/// x_C = t(1−α, ν)·(s/b)·√(1/K + 1/N + x̄²/s_xx), x_D with δ(ν, α, β), ν = N − 2.
///
/// # Errors
/// [`Error::TooFew`] under three points, [`Error::NoLine`] where all x are equal, the slope is not
/// above zero, or all points lie on the line; [`Error::NotConverged`] where the quantification
/// limit does not exist.
pub fn from_line(x: &[f64], y: &[f64], sample_readings: usize, risks: Risks) -> Result<LineLimits, Error> {
    let risks = risks.check()?;
    finite("x", x)?;
    finite("y", y)?;
    let n = x.len();
    if y.len() != n || n < 3 || sample_readings == 0 {
        return Err(Error::TooFew { what: "points with x and y", found: n.min(y.len()), needed: 3 });
    }
    let count = n as f64;
    let mean_x = x.iter().sum::<f64>() / count;
    let mean_y = y.iter().sum::<f64>() / count;
    let sxx: f64 = x.iter().map(|v| (v - mean_x).powi(2)).sum();
    let sxy: f64 = x.iter().zip(y).map(|(a, b)| (a - mean_x) * (b - mean_y)).sum();
    let slope = sxy / sxx;
    if sxx == 0.0 || slope <= 0.0 {
        return Err(Error::NoLine {
            why: if sxx == 0.0 { Unreadable::OneLevel { n, x: x[0] } } else { Unreadable::NotRising(slope) },
        });
    }
    let intercept = mean_y - slope * mean_x;
    let dof = count - 2.0;
    let ss: f64 = x.iter().zip(y).map(|(a, b)| (b - intercept - slope * a).powi(2)).sum();
    let residual_sd = (ss / dof).sqrt();
    // Residuals at the rounding level of the responses are no measure of noise.
    if residual_sd <= 1e-14 * mean_y.abs() {
        return Err(Error::NoLine { why: Unreadable::NoScatter });
    }
    let k = sample_readings as f64;
    let s_x = residual_sd / slope;
    let at = |level: f64| (1.0 / k + 1.0 / count + (level - mean_x).powi(2) / sxx).sqrt();
    let iso = NetLimits::new(s_x * at(0.0), dof, risks);
    let two_sided = statistics::t::upper_quantile(risks.alpha / 2.0, dof);
    Ok(LineLimits {
        iso,
        critical_response: intercept + iso.critical_value * slope,
        din_decision: iso.critical_value,
        din_detection: 2.0 * iso.critical_value,
        din_quantification: din_quantification(DIN_K * s_x * two_sided, at)?,
        slope,
        intercept,
        residual_sd,
    })
}

/// x_Q = c·√(1/m + 1/n + (x_Q − x̄)²/Q_x), by repetition.
fn din_quantification(c: f64, at: impl Fn(f64) -> f64) -> Result<f64, Error> {
    const MOST: usize = 500;
    let mut x = c * at(0.0);
    for _ in 0..MOST {
        let next = c * at(x);
        if (next - x).abs() <= 1e-12 * next {
            return Ok(next);
        }
        if !next.is_finite() {
            break;
        }
        x = next;
    }
    Err(Error::NotConverged { what: "quantification limit of DIN 32645", iterations: MOST })
}

/// What a test of normality says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Normality {
    /// A² (1 + 0.75/n + 2.25/n²).
    pub statistic: f64,
    /// Critical value at 5 %.
    pub critical: f64,
    /// Whether the set may be normal.
    pub passes: bool,
}

// D'Agostino & Stephens 1986, table 4.7, mean and variance estimated, 5 % (from memory).
const ANDERSON_DARLING_5: f64 = 0.752;
/// Fewer values do not let the test see anything.
pub const FEWEST_FOR_NORMALITY: usize = 8;

/// Anderson–Darling test with mean and variance estimated; none under eight values.
pub fn normality(values: &[f64]) -> Option<Normality> {
    let n = values.len();
    if n < FEWEST_FOR_NORMALITY || spread("values", values, 2).is_err() {
        return None;
    }
    let c = blank::centre(values);
    let mut z: Vec<f64> = values.iter().map(|x| (x - c.value) / c.sd).collect();
    z.sort_by(f64::total_cmp);
    let count = n as f64;
    let sum: f64 = (0..n)
        .map(|i| {
            let weight = 2.0 * i as f64 + 1.0;
            weight * (statistics::normal::log_cdf(z[i]) + statistics::normal::log_cdf(-z[n - 1 - i]))
        })
        .sum();
    let a2 = -count - sum / count;
    let statistic = a2 * (1.0 + 0.75 / count + 2.25 / (count * count));
    Some(Normality { statistic, critical: ANDERSON_DARLING_5, passes: statistic <= ANDERSON_DARLING_5 })
}
