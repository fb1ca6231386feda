//! The detector: the two models of dead time and their inverses, and its own constants found from
//! measurements: dead time, and the factor between counting and analogue mode.
//!
//! In: rates in counts/s with u, concentrations in any one unit. Out: dead time in ns with u; cross
//! factor in counts/s per unit of the analogue signal with u.
//!
//! Models of dead time (Knoll, Radiation Detection and Measurement, chapter 4, from memory): N true, n
//! observed rate, both counts/s, τ s. Non-extending: n = N/(1 + N·τ). Extending, where a pulse that falls
//! into dead time makes it start anew: n = N·exp(−N·τ), which has two N for one n; the one below the
//! maximum n = 1/(e·τ) is taken, and a rate at or over the maximum has none.
//!
//! Found from a dilution series: an observed rate is n = S·c/(1 + S·c·τ) (non-extending model), so c/n = 1/S + τ·c:
//! in a dilution series of one solution c/n is a straight line of c whose slope is τ.
//! Cross factor: the weighted mean of counting over analogue in vials read in both modes; where
//! the ratios scatter more than their u, u is widened (Birge ratio).
//! Valid while n·τ stays under about 0.1; a line that does not fit says so in `p_lack_of_fit`.
//! Checked in `tests/detector.rs`.

use crate::error::Error;
use crate::line::{Line, Options, Points};
use serde::{Deserialize, Serialize};

/// What a pulse does that falls into dead time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DeadTimeModel {
    /// Nothing: it is lost, n = N/(1 + N·τ).
    #[default]
    NonExtending,
    /// It is lost and dead time starts anew, n = N·exp(−N·τ).
    Extending,
}

/// Newton's iteration nears x·exp(−x) = y from below without a turn; under y = 0.9999/e it is at its end in 20 steps.
const MOST_STEPS: usize = 200;

impl DeadTimeModel {
    /// Observed rate n, counts/s, of a true rate N, counts/s, at a dead time τ, s.
    pub fn observed(self, rate_cps: f64, tau_s: f64) -> f64 {
        match self {
            Self::NonExtending => rate_cps / (1.0 + rate_cps * tau_s),
            Self::Extending => rate_cps * libm::exp(-rate_cps * tau_s),
        }
    }

    /// True rate N, counts/s, of an observed rate n, counts/s, at a dead time τ, s; none where no true rate gives n:
    /// from n·τ = 1 (non-extending) or n·τ = 1/e (extending).
    ///
    /// ```
    /// use measurement::detector::DeadTimeModel::{Extending, NonExtending};
    /// assert_eq!(NonExtending.true_rate(5e6, 50e-9), Some(5e6 / 0.75));
    /// // −W₀(−0.25) = 0.357402956181389 (mpmath 1.3: -lambertw(-0.25)), over 50 ns.
    /// assert!((Extending.true_rate(5e6, 50e-9).unwrap() / (0.357402956181389 / 50e-9) - 1.0).abs() < 1e-14);
    /// assert_eq!(Extending.true_rate(8e6, 50e-9), None);
    /// ```
    pub fn true_rate(self, observed_cps: f64, tau_s: f64) -> Option<f64> {
        let y = observed_cps * tau_s;
        match self {
            Self::NonExtending => (y < 1.0).then(|| observed_cps / (1.0 - y)),
            Self::Extending if tau_s == 0.0 || observed_cps <= 0.0 => Some(observed_cps),
            Self::Extending => (y < libm::exp(-1.0)).then(|| lower_branch(y) / tau_s),
        }
    }

    /// Share of pulses lost, 1 − n/N, at an observed rate; 1 where no true rate gives it. For the non-extending model
    /// it is the share of time dead, n·τ.
    pub fn lost_share(self, observed_cps: f64, tau_s: f64) -> f64 {
        match self {
            Self::NonExtending => observed_cps * tau_s,
            Self::Extending => self.true_rate(observed_cps, tau_s).map_or(1.0, |n| 1.0 - libm::exp(-n * tau_s)),
        }
    }

    /// dN/dτ at constant n, counts/s², for the true rate N.
    pub fn by_dead_time(self, rate_cps: f64, tau_s: f64) -> f64 {
        match self {
            Self::NonExtending => rate_cps * rate_cps,
            Self::Extending => rate_cps * rate_cps / (1.0 - rate_cps * tau_s),
        }
    }

    /// dN/dn at constant τ, for the true rate N.
    pub fn by_observed(self, rate_cps: f64, tau_s: f64) -> f64 {
        let x = rate_cps * tau_s;
        match self {
            Self::NonExtending => (1.0 + x).powi(2),
            Self::Extending => libm::exp(x) / (1.0 - x),
        }
    }
}

/// x < 1 with x·exp(−x) = y, for 0 < y < 1/e: minus the main branch of Lambert's W at −y.
fn lower_branch(y: f64) -> f64 {
    let mut x = y;
    for _ in 0..MOST_STEPS {
        // The function bends down, so its tangent meets y before it does: x only grows until rounding stops it.
        let next = x + (y * libm::exp(x) - x) / (1.0 - x);
        if next <= x || next >= 1.0 {
            break;
        }
        x = next;
    }
    x
}

/// One member of a dilution series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesPoint {
    /// Concentration, any one unit.
    pub concentration: f64,
    /// Its relative standard uncertainty (dilution by mass).
    pub relative_u: f64,
    /// Observed rate, counts/s, background taken off.
    pub rate_cps: f64,
    /// Its standard uncertainty.
    pub u_cps: f64,
}

/// A dead time found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeadTimeFit {
    /// τ, ns.
    pub ns: f64,
    /// u(τ), ns.
    pub u_ns: f64,
    /// S, counts/s per unit of concentration.
    pub sensitivity: f64,
    /// χ² of the line.
    pub chi_squared: f64,
    /// Degrees of freedom.
    pub dof: usize,
    /// Probability of a χ² as large by chance.
    pub p_lack_of_fit: f64,
}

/// τ from a dilution series.
///
/// # Errors
/// [`Error`] of the line: fewer than three points, one level only, numbers that are not finite or
/// not above zero.
///
/// ```
/// use measurement::detector::{SeriesPoint, fit_dead_time};
/// // A detector that is dead for 50 ns after each count, and 1e5 counts/s for each unit.
/// let point = |c: f64| {
///     let rate_cps = 1e5 * c / (1.0 + 1e5 * c * 50e-9);
///     SeriesPoint { concentration: c, relative_u: 0.001, rate_cps, u_cps: 10.0 }
/// };
/// let fit = fit_dead_time(&[1.0, 5.0, 10.0, 20.0].map(point))?;
/// assert!((fit.ns - 50.0).abs() < 1e-6 && fit.u_ns > 0.0);
/// // A blank has no rate to divide by: refused, not taken as infinite.
/// assert!(fit_dead_time(&[0.0, 5.0, 10.0].map(point)).is_err());
/// # Ok::<(), measurement::error::Error>(())
/// ```
pub fn fit_dead_time(series: &[SeriesPoint]) -> Result<DeadTimeFit, Error> {
    if series.len() < 3 {
        return Err(Error::TooFew { what: "points of the dilution series", found: series.len(), needed: 3 });
    }
    let bad = series.iter().find(|p| !(p.rate_cps > 0.0 && p.concentration > 0.0));
    if let Some(p) = bad {
        let value = p.rate_cps.min(p.concentration);
        return Err(Error::OutOfRange { what: "rate or concentration".into(), value, range: "above 0" });
    }
    let x: Vec<f64> = series.iter().map(|p| p.concentration).collect();
    let y: Vec<f64> = series.iter().map(|p| p.concentration / p.rate_cps).collect();
    let u_y: Vec<f64> = series.iter().zip(&y).map(|(p, y)| y * (p.u_cps / p.rate_cps).hypot(p.relative_u)).collect();
    let line = Line::fit(&Points { x: &x, y: &y, u_y: Some(&u_y) }, &Options::default())?;
    Ok(DeadTimeFit {
        ns: line.slope * 1e9,
        u_ns: line.u_slope * 1e9,
        sensitivity: 1.0 / line.intercept,
        chi_squared: line.chi2,
        dof: line.residual_dof,
        p_lack_of_fit: if line.residual_dof > 0 {
            statistics::chi2::sf(line.chi2, line.residual_dof as f64)
        } else {
            1.0
        },
    })
}

/// One vial read in both modes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BothModes {
    /// Rate in counting mode after dead time, counts/s.
    pub counting_cps: f64,
    /// Its standard uncertainty.
    pub u_counting: f64,
    /// Signal in analogue mode.
    pub analogue: f64,
    /// Its standard uncertainty.
    pub u_analogue: f64,
}

/// A cross factor found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrossFactor {
    /// Counts/s per unit of the analogue signal.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
    /// Vials less one.
    pub dof: usize,
    /// Birge ratio, 1 where the ratios scatter no more than their u.
    pub widened: f64,
}

/// The cross factor from vials read in both modes.
///
/// # Errors
/// [`Error::TooFew`] under two vials, [`Error::OutOfRange`] for signals or u that are not above zero.
pub fn fit_cross_factor(vials: &[BothModes]) -> Result<CrossFactor, Error> {
    if vials.len() < 2 {
        return Err(Error::TooFew { what: "vials read in both modes", found: vials.len(), needed: 2 });
    }
    let (mut sum, mut weights) = (0.0, 0.0);
    let mut ratios = Vec::with_capacity(vials.len());
    for v in vials {
        for value in [v.counting_cps, v.u_counting, v.analogue, v.u_analogue] {
            if value.is_nan() || value <= 0.0 {
                return Err(Error::OutOfRange { what: "signal or u".into(), value, range: "above 0" });
            }
        }
        let ratio = v.counting_cps / v.analogue;
        let u = ratio * (v.u_counting / v.counting_cps).hypot(v.u_analogue / v.analogue);
        let w = 1.0 / (u * u);
        sum += w * ratio;
        weights += w;
        ratios.push((ratio, w));
    }
    let value = sum / weights;
    let dof = vials.len() - 1;
    let chi2: f64 = ratios.iter().map(|(r, w)| w * (r - value).powi(2)).sum();
    let widened = (chi2 / dof as f64).sqrt().max(1.0);
    Ok(CrossFactor { value, u: widened / weights.sqrt(), dof, widened })
}
