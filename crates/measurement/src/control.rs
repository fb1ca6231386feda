//! Quality over the years: scores, recoveries, duplicates, and control charts.
//!
//! Scores: zeta = (x − X)/√(u_x² + u_X²), E_n = (x − X)/√(U_x² + U_X²), z = (x − X)/σ (ISO 13528).
//! Recovery: measured over expected with u, against a window. Duplicates: their difference against
//! what their u predict. Charts (ISO 7870-2 for the Shewhart rules; Page 1954 for the CUSUM;
//! Roberts 1959 for the EWMA): in: values in time order with centre and sd in the same unit; out:
//! the statistic at each point and every signal with its rule and place. Charts do not remove
//! points; a signal is a finding. Centre and sd come from a period that was looked through:
//! charting a series against its own mean hides shifts. Checked in `tests/control.rs`.

use crate::error::{Error, all_finite, all_positive};
use serde::{Deserialize, Serialize};
use statistics::{normal, t};

/// A value with standard uncertainty.
pub use crate::line::Estimate;

fn positive_scatter(what: &str, v: f64) -> Result<(), Error> {
    if v > 0.0 && v.is_finite() {
        return Ok(());
    }
    Err(Error::OutOfRange { what: what.into(), value: v, range: "more than 0" })
}

/// zeta = (x − X)/√(u_x² + u_X²): within ±2 as expected, beyond ±3 a contradiction.
///
/// # Errors
/// [`Error::NotFinite`]; [`Error::OutOfRange`] where both u are zero.
pub fn zeta(measured: &Estimate, assigned: &Estimate) -> Result<f64, Error> {
    all_finite("score", &[measured.value, assigned.value])?;
    let u = measured.u.hypot(assigned.u);
    positive_scatter("u of the difference", u)?;
    Ok((measured.value - assigned.value) / u)
}

/// E_n = (x − X)/√(U_x² + U_X²) with expanded uncertainties (k·u each): within ±1 as expected.
///
/// # Errors
/// As [`zeta`].
pub fn e_n(measured: &Estimate, k: f64, assigned: &Estimate, k_assigned: f64) -> Result<f64, Error> {
    all_finite("score", &[measured.value, assigned.value])?;
    let expanded = (k * measured.u).hypot(k_assigned * assigned.u);
    positive_scatter("U of the difference", expanded)?;
    Ok((measured.value - assigned.value) / expanded)
}

/// z = (x − X)/σ with the standard deviation for the assessment.
///
/// # Errors
/// As [`zeta`].
pub fn z_score(measured: f64, assigned: f64, sigma: f64) -> Result<f64, Error> {
    all_finite("score", &[measured, assigned])?;
    positive_scatter("sigma", sigma)?;
    Ok((measured - assigned) / sigma)
}

/// A recovery and whether it lies in its window.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Recovery {
    /// (spiked − unspiked)/added, or measured/assigned.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
    /// (1 − recovery)/u: beyond ±2 the loss or gain is real.
    pub bias_score: f64,
    /// Is the value within the window?
    pub in_window: bool,
}

/// Recovery of a spike, with a window such as (0.85, 1.15). `correlation` is that of the spiked
/// and the unspiked result (a shared blank and line).
///
/// # Errors
/// [`Error::ZeroDenominator`] where nothing was added, [`Error::NotFinite`].
pub fn spike_recovery(
    spiked: &Estimate,
    unspiked: &Estimate,
    added: &Estimate,
    correlation: f64,
    window: (f64, f64),
) -> Result<Recovery, Error> {
    all_finite("spike", &[spiked.value, unspiked.value, added.value, added.u])?;
    if added.value == 0.0 {
        return Err(Error::ZeroDenominator { what: "the amount added".into() });
    }
    let value = (spiked.value - unspiked.value) / added.value;
    let difference = spiked.u * spiked.u + unspiked.u * unspiked.u - 2.0 * correlation * spiked.u * unspiked.u;
    let u = (difference.max(0.0) + (value * added.u).powi(2)).sqrt() / added.value.abs();
    Ok(Recovery {
        value,
        u,
        bias_score: if u > 0.0 { (value - 1.0) / u } else { f64::INFINITY },
        in_window: value >= window.0 && value <= window.1,
    })
}

/// Two results of one water against the scatter that their u predict.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Duplicate {
    /// a − b.
    pub difference: f64,
    /// u of the difference.
    pub u: f64,
    /// |a − b| over the mean of both, per cent; `None` where the mean is zero or less.
    pub relative_percent: Option<f64>,
    /// Probability of so large a difference by the stated u alone.
    pub p: f64,
    /// |a − b| within t(0.975)·u.
    pub as_predicted: bool,
}

/// Compares duplicates. `covariance` is what both share (a blank mean, a line); `dof` that of the
/// difference.
///
/// # Errors
/// [`Error::NotFinite`]; [`Error::OutOfRange`] where the difference has no uncertainty.
///
/// ```
/// use measurement::control::{Estimate, duplicates};
/// // Net values about zero: a percentage of their mean means nothing, the probability does.
/// let e = |value, u| Estimate { value, u };
/// let d = duplicates(&e(0.02, 0.03), &e(-0.03, 0.03), 0.0, f64::INFINITY)?;
/// assert!(d.relative_percent.is_none() && d.as_predicted);
/// # Ok::<(), measurement::error::Error>(())
/// ```
pub fn duplicates(a: &Estimate, b: &Estimate, covariance: f64, dof: f64) -> Result<Duplicate, Error> {
    all_finite("duplicates", &[a.value, b.value, covariance])?;
    let u = (a.u * a.u + b.u * b.u - 2.0 * covariance).max(0.0).sqrt();
    positive_scatter("u of the difference", u)?;
    let difference = a.value - b.value;
    let mean = f64::midpoint(a.value, b.value);
    let score = difference.abs() / u;
    Ok(Duplicate {
        difference,
        u,
        relative_percent: (mean > 0.0).then(|| 100.0 * difference.abs() / mean),
        p: 2.0 * t::sf(score, dof),
        as_predicted: score <= t::upper_quantile(0.025, dof),
    })
}

/// A rule that a chart may break.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Rule {
    /// One point beyond 3 sd.
    BeyondThree,
    /// Two of three beyond 2 sd on one side.
    TwoOfThreeBeyondTwo,
    /// Four of five beyond 1 sd on one side.
    FourOfFiveBeyondOne,
    /// Eight on one side of the centre.
    EightOnOneSide,
    /// Six rising or falling throughout.
    SixInARow,
    /// The cumulative sum over its limit.
    CumulativeSum,
    /// The moving average beyond its limits.
    MovingAverage,
}

/// A rule broken at a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Signal {
    /// Which rule.
    pub rule: Rule,
    /// Place of the point that completes the pattern first, from 0.
    pub at: usize,
    /// How many points the pattern lasts, with those that led up to it.
    pub points: usize,
    /// Is it on the high side (rising)?
    pub high: bool,
}

impl Rule {
    /// How many points the pattern needs.
    fn window(self) -> usize {
        match self {
            Self::BeyondThree | Self::CumulativeSum | Self::MovingAverage => 1,
            Self::TwoOfThreeBeyondTwo => 3,
            Self::FourOfFiveBeyondOne => 5,
            Self::SixInARow => 6,
            Self::EightOnOneSide => 8,
        }
    }
}

impl Signal {
    /// From the points at which one rule is broken, each with its side, in order of place: a pattern that goes on is
    /// told once, with its length. A point beyond 3 sd is an event of its own.
    fn once(rule: Rule, broken: &[(usize, bool)]) -> Vec<Self> {
        let mut out: Vec<Self> = Vec::new();
        for &(at, high) in broken {
            let goes_on = |s: &&mut Self| s.high == high && s.last() + 1 == at && rule != Rule::BeyondThree;
            match out.iter_mut().rfind(|s| s.high == high).filter(goes_on) {
                Some(s) => s.points += 1,
                None => out.push(Self { rule, at, points: rule.window(), high }),
            }
        }
        out
    }

    /// Place of the last point of the pattern.
    fn last(&self) -> usize {
        self.at + self.points - self.rule.window()
    }

    /// Whether the pattern goes on for more points than it needs.
    pub fn goes_on(&self) -> bool {
        self.points > self.rule.window()
    }

    /// Whether the rule is broken at a point: where the pattern completes, and as long as it goes on.
    pub fn holds_at(&self, place: usize) -> bool {
        (self.at..=self.last()).contains(&place)
    }
}

/// Centre and scatter of a chart.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Chart {
    /// Centre line.
    pub centre: f64,
    /// Standard deviation of single points.
    pub sd: f64,
}

/// One point of a chart with its statistic and limits.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ChartPoint {
    /// The statistic: the value itself, the moving average, or the upper cumulative sum.
    pub statistic: f64,
    /// Lower limit; for the CUSUM the lower cumulative sum (its size).
    pub lower: f64,
    /// Upper limit.
    pub upper: f64,
}

/// A chart's answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChartResult {
    /// One entry for each value.
    pub points: Vec<ChartPoint>,
    /// Signals in order of place.
    pub signals: Vec<Signal>,
}

/// d2 of the moving range of two: 2/√π (ISO 7870-2 table 2: 1.128).
const RANGE_FACTOR: f64 = std::f64::consts::FRAC_2_SQRT_PI;

impl Chart {
    /// A chart with known centre and sd.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for an sd at or below zero, [`Error::NotFinite`].
    pub fn new(centre: f64, sd: f64) -> Result<Self, Error> {
        all_finite("centre", &[centre])?;
        positive_scatter("sd of the chart", sd)?;
        Ok(Self { centre, sd })
    }

    /// From a period in control: mean, and the mean moving range over 1.128, which a slow drift
    /// inflates little.
    ///
    /// # Errors
    /// [`Error::TooFew`] under 8 values; [`Error::OutOfRange`] where they do not scatter.
    pub fn from_period(values: &[f64]) -> Result<Self, Error> {
        all_finite("values", values)?;
        if values.len() < 8 {
            return Err(Error::TooFew { what: "values of the period in control", found: values.len(), needed: 8 });
        }
        let mean = values.iter().sum::<f64>() / values.len() as f64;
        let ranges: f64 = values.windows(2).map(|w| (w[1] - w[0]).abs()).sum();
        Self::new(mean, ranges / (values.len() as f64 - 1.0) / RANGE_FACTOR)
    }

    /// Shewhart chart with all run rules; a pattern is told once, where it completes, with its length.
    ///
    /// # Errors
    /// [`Error::NotFinite`].
    pub fn shewhart(&self, values: &[f64]) -> Result<ChartResult, Error> {
        all_finite("values", values)?;
        let z: Vec<f64> = values.iter().map(|v| (v - self.centre) / self.sd).collect();
        let mut broken: Vec<(Rule, Vec<(usize, bool)>)> = Vec::new();
        for at in 0..z.len() {
            for high in [true, false] {
                let s = if high { 1.0 } else { -1.0 };
                let count = |back: usize, limit: f64| {
                    (at + 1 >= back).then(|| z[at + 1 - back..=at].iter().filter(|v| s * **v > limit).count())
                };
                let here = |limit: f64| s * z[at] > limit;
                let trend = || at >= 5 && z[at - 5..=at].windows(2).all(|w| s * (w[1] - w[0]) > 0.0);
                for (rule, here) in [
                    (Rule::BeyondThree, here(3.0)),
                    // The newest point lies beyond too: a pattern is told where it completes, not at
                    // a later one inside.
                    (Rule::TwoOfThreeBeyondTwo, here(2.0) && count(3, 2.0) >= Some(2)),
                    (Rule::FourOfFiveBeyondOne, here(1.0) && count(5, 1.0) >= Some(4)),
                    (Rule::EightOnOneSide, count(8, 0.0) == Some(8)),
                    (Rule::SixInARow, trend()),
                ] {
                    if here {
                        match broken.iter_mut().find(|b| b.0 == rule) {
                            Some(b) => b.1.push((at, high)),
                            None => broken.push((rule, vec![(at, high)])),
                        }
                    }
                }
            }
        }
        let mut signals: Vec<Signal> = broken.iter().flat_map(|(rule, at)| Signal::once(*rule, at)).collect();
        // In order of place, at one place in the order of the rules.
        signals.sort_by_key(|s| (s.at, s.rule.window(), s.high));
        let points = values
            .iter()
            .map(|v| ChartPoint {
                statistic: *v,
                lower: self.centre - 3.0 * self.sd,
                upper: self.centre + 3.0 * self.sd,
            })
            .collect();
        Ok(ChartResult { points, signals })
    }

    /// Tabular CUSUM with reference value k and limit h, both in sd (0.5 and 5 find a shift of
    /// one sd in about 10 points, with a false alarm in about 465).
    ///
    /// # Errors
    /// [`Error::NotFinite`], [`Error::OutOfRange`] for k or h at or below 0.
    pub fn cusum(&self, values: &[f64], k: f64, h: f64) -> Result<ChartResult, Error> {
        all_finite("values", values)?;
        all_positive("k and h", &[k, h])?;
        let limit = h * self.sd;
        let (mut up, mut down) = (0.0_f64, 0.0_f64);
        let mut result = ChartResult { points: Vec::with_capacity(values.len()), signals: Vec::new() };
        let mut broken = Vec::new();
        for (at, v) in values.iter().enumerate() {
            let d = v - self.centre;
            up = (up + d - k * self.sd).max(0.0);
            down = (down - d - k * self.sd).max(0.0);
            result.points.push(ChartPoint { statistic: up, lower: down, upper: limit });
            for (sum, high) in [(up, true), (down, false)] {
                if sum > limit {
                    broken.push((at, high));
                }
            }
        }
        result.signals = Signal::once(Rule::CumulativeSum, &broken);
        Ok(result)
    }

    /// EWMA with weight λ (0 to 1) and limits at `width` sd of the average, exact from the first
    /// point on.
    ///
    /// # Errors
    /// [`Error::NotFinite`], [`Error::OutOfRange`] for λ outside (0, 1] or a width at or below 0.
    pub fn ewma(&self, values: &[f64], lambda: f64, width: f64) -> Result<ChartResult, Error> {
        all_finite("values", values)?;
        all_positive("lambda and width", &[lambda, width])?;
        if lambda > 1.0 {
            return Err(Error::OutOfRange { what: "lambda".into(), value: lambda, range: "over 0, up to 1" });
        }
        let mut average = self.centre;
        let mut rest = 1.0;
        let mut result = ChartResult { points: Vec::with_capacity(values.len()), signals: Vec::new() };
        let mut broken = Vec::new();
        for (at, v) in values.iter().enumerate() {
            average += lambda * (v - average);
            rest *= (1.0 - lambda) * (1.0 - lambda);
            let half = width * self.sd * (lambda / (2.0 - lambda) * (1.0 - rest)).sqrt();
            let (lower, upper) = (self.centre - half, self.centre + half);
            result.points.push(ChartPoint { statistic: average, lower, upper });
            if average > upper || average < lower {
                broken.push((at, average > upper));
            }
        }
        result.signals = Signal::once(Rule::MovingAverage, &broken);
        Ok(result)
    }
}

/// Average number of points to a signal of a two-sided CUSUM, for a shift of the mean in sd, by a
/// Markov chain of 200 states a side (Brook & Evans 1972); both sides are joined as independent
/// renewals, exact for h over k (Montgomery's tables).
///
/// # Errors
/// [`Error::OutOfRange`] for k or h at or below 0.
pub fn cusum_run_length(k: f64, h: f64, shift: f64) -> Result<f64, Error> {
    all_positive("k and h", &[k, h])?;
    all_finite("shift", &[shift])?;
    let (up, down) = (one_sided(k, h, shift), one_sided(k, h, -shift));
    Ok(1.0 / (1.0 / up + 1.0 / down))
}

/// The states are midpoints of m equal cells of [0, h], the first being
/// the reflecting half cell at 0; solves (I − Q)·L = 1.
fn one_sided(k: f64, h: f64, shift: f64) -> f64 {
    const STATES: usize = 200;
    let cell = 2.0 * h / (2.0 * STATES as f64 - 1.0);
    let q = nalgebra::DMatrix::from_fn(STATES, STATES, |i, j| {
        let from = i as f64 * cell;
        let upper = normal::cdf((j as f64 + 0.5) * cell - from + k - shift);
        let lower = if j == 0 { 0.0 } else { normal::cdf((j as f64 - 0.5) * cell - from + k - shift) };
        f64::from(u8::from(i == j)) - (upper - lower)
    });
    let ones = nalgebra::DVector::from_element(STATES, 1.0);
    q.lu().solve(&ones).map_or(f64::INFINITY, |l| l[0])
}
