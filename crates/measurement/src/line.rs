//! The calibration line: signal against concentration, by weighted least squares.
//!
//! In: x (concentration, assigned values), y (signal), u(y) where it is known; any units, the
//! slope is in y per x. Weights are 1/u². Out: slope and intercept with their covariance,
//! residual standard deviation, R², lack of fit, prediction of y, and the reading backwards from
//! y to x with all covariances kept (JCGM 100 H.3; Miller & Miller, Statistics and Chemometrics
//! for Analytical Chemistry, ch. 5). All sums are centred and carried in double-double
//! arithmetic. u(x) is not part of it: put it into u(y) as slope·u(x), or see that it is small.
//! With no u(y), or by choice, the scatter about the line gives the scale of the uncertainties
//! with n − p degrees of freedom. A line of one level, or a flat one read backwards, is refused.
//! R² through zero is 1 − SSE/Σwy² (the convention of the NIST reference datasets).
//! Checked in `tests/line.rs`.

// Levels are equal where their assigned values are the same number; a flat line is exactly flat.
#![allow(clippy::float_cmp)]

use crate::dd::Dd;
use crate::error::{Error, all_finite, all_positive, same_length};
use crate::ratio::{FiellerInterval, Quotient};
use serde::{Deserialize, Serialize};
use statistics::f;

/// The points of a line.
#[derive(Debug, Clone, Copy)]
pub struct Points<'a> {
    /// Assigned values, n.
    pub x: &'a [f64],
    /// Signals, n.
    pub y: &'a [f64],
    /// Standard uncertainties of the signals, n, each over zero; `None` for equal weights.
    pub u_y: Option<&'a [f64]>,
}

/// Is the intercept fitted, or the line forced through zero?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Intercept {
    /// y = a + b·x.
    #[default]
    Fitted,
    /// y = b·x.
    Zero,
}

/// Where the size of the uncertainties comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Scale {
    /// From the stated u(y), taken as known.
    #[default]
    Stated,
    /// From the scatter about the line; the u(y) are relative weights only.
    Residuals,
    /// The larger of both.
    Larger,
}

/// How to fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Options {
    /// Intercept fitted or zero.
    pub intercept: Intercept,
    /// Scale of the uncertainties; without u(y) it is always the residuals.
    pub scale: Scale,
}

/// A fitted line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Line {
    /// Number of points.
    pub n: usize,
    /// Number of distinct levels of x.
    pub levels: usize,
    /// b, unit y per x.
    pub slope: f64,
    /// a, unit of y; 0 where forced.
    pub intercept: f64,
    /// u(b).
    pub u_slope: f64,
    /// u(a).
    pub u_intercept: f64,
    /// cov(a, b).
    pub covariance: f64,
    /// √(Σw·r²/(n − p)), unit of y for equal weights, unit 1 for weights 1/u²; `None` where
    /// n = p.
    pub residual_sd: Option<f64>,
    /// n − p.
    pub residual_dof: usize,
    /// Degrees of freedom of the uncertainties: n − p from residuals, infinite from stated u.
    #[serde(skip_serializing_if = "is_infinite")]
    pub dof: f64,
    /// Share of the (weighted) variance that the line takes up.
    pub r2: f64,
    /// Σw·r².
    pub chi2: f64,
    /// Weighted mean of x, where the line is known best.
    pub x_mean: f64,
    /// Weighted mean of y.
    pub y_mean: f64,
    /// Factor on the covariance: 1 for stated u, the residual variance else.
    pub variance_factor: f64,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the signature that serde asks for
fn is_infinite(x: &f64) -> bool {
    x.is_infinite()
}

/// What is said of a line with [`Line::is_exact`].
pub const EXACT: &str = "the points lie exactly on the line, so the noise is not known: u of the line holds none of it";

/// A value with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
}

/// A concentration read from the line, with what it depends on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Reading {
    /// x = (y − a)/b.
    pub value: f64,
    /// u(x): from y and the line together.
    pub u: f64,
    /// Part of u from the signal.
    pub u_signal: f64,
    /// Part of u from the line.
    pub u_line: f64,
    /// ∂x/∂y = 1/b.
    pub d_signal: f64,
    /// ∂x/∂a = −1/b.
    pub d_intercept: f64,
    /// ∂x/∂b = −x/b.
    pub d_slope: f64,
}

/// The test that the scatter of level means about the line is no larger than that of replicates.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LackOfFit {
    /// Mean square of lack of fit over mean square of pure error.
    pub f: f64,
    /// Levels − p.
    pub dof_fit: usize,
    /// Points − levels.
    pub dof_error: usize,
    /// P(F ≥ f) where the line is straight.
    pub p: f64,
}

struct Sums {
    w: Dd,
    x_mean: Dd,
    y_mean: Dd,
    xx: Dd,
    xy: Dd,
    yy: Dd,
}

impl Points<'_> {
    fn check(&self) -> Result<(), Error> {
        same_length("y", self.y.len(), self.x.len())?;
        all_finite("x", self.x)?;
        all_finite("y", self.y)?;
        if let Some(u) = self.u_y {
            same_length("u_y", u.len(), self.x.len())?;
            all_positive("u_y", u)?;
        }
        Ok(())
    }

    fn weight(&self, i: usize) -> Dd {
        match self.u_y {
            None => Dd::ONE,
            Some(u) => {
                let u = Dd::from(u[i]);
                Dd::ONE / (u * u)
            }
        }
    }

    /// Sums about the weighted means, or about zero.
    fn sums(&self, intercept: Intercept) -> Sums {
        let (mut w, mut wx, mut wy) = (Dd::ZERO, Dd::ZERO, Dd::ZERO);
        for i in 0..self.x.len() {
            let wi = self.weight(i);
            w = w + wi;
            wx = wx + wi * Dd::from(self.x[i]);
            wy = wy + wi * Dd::from(self.y[i]);
        }
        let (x_mean, y_mean) = (wx / w, wy / w);
        let (x0, y0) = match intercept {
            Intercept::Fitted => (x_mean, y_mean),
            Intercept::Zero => (Dd::ZERO, Dd::ZERO),
        };
        let (mut xx, mut xy, mut yy) = (Dd::ZERO, Dd::ZERO, Dd::ZERO);
        for i in 0..self.x.len() {
            let wi = self.weight(i);
            let dx = Dd::from(self.x[i]) - x0;
            let dy = Dd::from(self.y[i]) - y0;
            xx = xx + wi * dx * dx;
            xy = xy + wi * dx * dy;
            yy = yy + wi * dy * dy;
        }
        Sums { w, x_mean, y_mean, xx, xy, yy }
    }

    /// Number of distinct x.
    fn levels(&self) -> usize {
        let mut x = self.x.to_vec();
        x.sort_by(f64::total_cmp);
        x.dedup_by(|a, b| a == b);
        x.len()
    }
}

impl Line {
    /// Fits a line.
    ///
    /// # Errors
    /// [`Error::TooFew`] under two points (or under three where the scatter must give the
    /// uncertainty), [`Error::OneLevel`] where all x are the same, [`Error::NotFinite`],
    /// [`Error::Length`], [`Error::OutOfRange`] for u(y) at or below zero.
    ///
    /// ```
    /// use measurement::line::{Line, Options, Points};
    /// // One standard repeated: no line.
    /// let one = Points { x: &[5.0, 5.0, 5.0], y: &[1.0, 1.1, 0.9], u_y: None };
    /// assert!(Line::fit(&one, &Options::default()).unwrap_err().to_string().contains("two levels"));
    /// ```
    pub fn fit(points: &Points, options: &Options) -> Result<Self, Error> {
        points.check()?;
        let n = points.x.len();
        let p = match options.intercept {
            Intercept::Fitted => 2,
            Intercept::Zero => 1,
        };
        let scale = if points.u_y.is_none() { Scale::Residuals } else { options.scale };
        let needed = if scale == Scale::Residuals { p + 1 } else { p };
        if n < needed {
            return Err(Error::TooFew { what: "points of the line", found: n, needed });
        }
        let levels = points.levels();
        let only_zero = p == 1 && points.x.iter().all(|x| *x == 0.0);
        if (p == 2 && levels < 2) || only_zero {
            return Err(Error::OneLevel { x: points.x[0], n });
        }
        let s = points.sums(options.intercept);
        let slope = s.xy / s.xx;
        let intercept = if p == 2 { s.y_mean - slope * s.x_mean } else { Dd::ZERO };
        let chi2: Dd = (0..n)
            .map(|i| {
                let r = Dd::from(points.y[i]) - intercept - slope * Dd::from(points.x[i]);
                points.weight(i) * r * r
            })
            .sum();
        let residual_dof = n - p;
        let s2 = (residual_dof > 0).then(|| chi2 / Dd::from(residual_dof as f64));
        let from_residuals = s2.map_or(1.0, Dd::value);
        let (factor, dof) = match scale {
            Scale::Residuals => (from_residuals, residual_dof as f64),
            Scale::Larger if from_residuals > 1.0 => (from_residuals, residual_dof as f64),
            Scale::Stated | Scale::Larger => (1.0, f64::INFINITY),
        };
        // Numbers near the end of the range of f64 overflow in the sums: refused, not handed on as a line.
        all_finite("slope, intercept and scatter of the line", &[slope.value(), intercept.value(), factor])?;
        let scaled = Dd::from(factor);
        let var_slope = scaled / s.xx;
        let (var_intercept, covariance) = if p == 2 {
            (scaled * (Dd::ONE / s.w + s.x_mean * s.x_mean / s.xx), -(s.x_mean * var_slope))
        } else {
            (Dd::ZERO, Dd::ZERO)
        };
        Ok(Self {
            n,
            levels,
            slope: slope.value(),
            intercept: intercept.value(),
            u_slope: var_slope.sqrt().value(),
            u_intercept: var_intercept.sqrt().value(),
            covariance: covariance.value(),
            residual_sd: s2.map(|v| v.sqrt().value()),
            residual_dof,
            dof,
            r2: if s.yy.value() > 0.0 { (Dd::ONE - chi2 / s.yy).value() } else { 0.0 },
            chi2: chi2.value(),
            x_mean: s.x_mean.value(),
            y_mean: s.y_mean.value(),
            variance_factor: factor,
        })
    }

    /// The line's y at x, with the uncertainty of the line alone.
    pub fn at(&self, x: f64) -> Estimate {
        Estimate { value: self.intercept + self.slope * x, u: self.variance_at(x).sqrt() }
    }

    /// var(a + b·x).
    fn variance_at(&self, x: f64) -> f64 {
        let (ua, ub) = (self.u_intercept, self.u_slope);
        (ua * ua + 2.0 * x * self.covariance + x * x * ub * ub).max(0.0)
    }

    /// r(a, b).
    pub fn correlation(&self) -> f64 {
        if self.u_intercept == 0.0 || self.u_slope == 0.0 {
            0.0
        } else {
            self.covariance / (self.u_intercept * self.u_slope)
        }
    }

    /// Reads a signal y with u(y) back to a concentration.
    ///
    /// # Errors
    /// [`Error::FlatLine`] where the slope is zero, [`Error::NotFinite`].
    pub fn read(&self, y: f64, u_y: f64) -> Result<Reading, Error> {
        all_finite("new_y", &[y, u_y])?;
        if self.slope == 0.0 {
            return Err(Error::FlatLine { slope: self.slope });
        }
        let x = (y - self.intercept) / self.slope;
        let u_signal = u_y / self.slope.abs();
        let u_line = self.variance_at(x).sqrt() / self.slope.abs();
        Ok(Reading {
            value: x,
            u: u_signal.hypot(u_line),
            u_signal,
            u_line,
            d_signal: 1.0 / self.slope,
            d_intercept: -1.0 / self.slope,
            d_slope: -x / self.slope,
        })
    }

    /// Reads the mean of m signals back, whose scatter is that of the points about the line
    /// (equal weights): u(y) = s/√m.
    ///
    /// # Errors
    /// As [`Line::read`]; [`Error::TooFew`] where m = 0 or the line has no residual scatter.
    pub fn read_mean(&self, y: f64, m: usize) -> Result<Reading, Error> {
        let s = self.residual_sd.filter(|_| m > 0).ok_or(Error::TooFew {
            what: "readings of the signal",
            found: m,
            needed: 1,
        })?;
        self.read(y, s / (m as f64).sqrt())
    }

    /// Covariance of two concentrations read from this line, by the line that they share.
    pub fn shared_covariance(&self, x1: f64, x2: f64) -> f64 {
        let (ua, ub) = (self.u_intercept, self.u_slope);
        (ua * ua + (x1 + x2) * self.covariance + x1 * x2 * ub * ub) / (self.slope * self.slope)
    }

    /// The interval of a reading that holds even where the slope is poorly known (Fieller);
    /// `t` is the coverage factor.
    ///
    /// # Errors
    /// [`Error::ZeroDenominator`] for a flat line.
    pub fn read_interval(&self, y: f64, u_y: f64, t: f64) -> Result<FiellerInterval, Error> {
        Quotient {
            numerator: y - self.intercept,
            u_numerator: u_y.hypot(self.u_intercept),
            denominator: self.slope,
            u_denominator: self.u_slope,
            covariance: -self.covariance,
        }
        .fieller(t)
    }

    /// Whether the uncertainties come from the scatter about the line and there is none: residuals no larger than the
    /// rounding of the signals. u is then nought and says nothing ([`EXACT`]).
    pub fn is_exact(&self, points: &Points) -> bool {
        // Rounding of one step of arithmetic on signals of this size.
        let rounding = 4.0 * f64::EPSILON * points.y.iter().fold(0.0, |m: f64, y| m.max(y.abs()));
        points.u_y.is_none() && self.residuals(points).iter().all(|r| r.abs() <= rounding)
    }

    /// Residuals y − (a + b·x) of points, in their order, unit of y.
    pub fn residuals(&self, points: &Points) -> Vec<f64> {
        points.x.iter().zip(points.y).map(|(x, y)| y - self.intercept - self.slope * x).collect()
    }

    /// The lack-of-fit test; `None` without replicates at a level, with too few levels, or where
    /// the replicates do not scatter at all.
    pub fn lack_of_fit(&self, points: &Points) -> Option<LackOfFit> {
        let p = self.n - self.residual_dof;
        let dof_error = self.n.checked_sub(self.levels).filter(|d| *d > 0)?;
        let dof_fit = self.levels.checked_sub(p).filter(|d| *d > 0)?;
        let mut order: Vec<usize> = (0..self.n).collect();
        order.sort_by(|i, j| points.x[*i].total_cmp(&points.x[*j]));
        let mut pure = Dd::ZERO;
        for level in order.chunk_by(|i, j| points.x[*i] == points.x[*j]) {
            let w: Dd = level.iter().map(|i| points.weight(*i)).sum();
            let wy: Dd = level.iter().map(|i| points.weight(*i) * Dd::from(points.y[*i])).sum();
            let mean = wy / w;
            for i in level {
                let d = Dd::from(points.y[*i]) - mean;
                pure = pure + points.weight(*i) * d * d;
            }
        }
        let pure = pure.value();
        if pure <= 0.0 {
            return None;
        }
        let fit = (self.chi2 - pure).max(0.0);
        let ratio = (fit / dof_fit as f64) / (pure / dof_error as f64);
        Some(LackOfFit { f: ratio, dof_fit, dof_error, p: f::sf(ratio, dof_fit as f64, dof_error as f64) })
    }
}
