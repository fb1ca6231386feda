//! Least squares for a curve with one scale and one shift: the core of every well-test fit.
//!
//! In: x = ln t (t in s) and y. Two forms: y = a + ln G(b + x), the logarithm of the flow of a well at
//! constant head; y = A·W(e^(b − x)), drawdown about a pumped well. Out: scale, shift, their
//! covariance, residuals, leverage.
//!
//! Method: a grid over the shift with the scale eliminated (it enters linearly), then Gauss–Newton on
//! both with step halving until the step is 1e-10 of its uncertainty scale. Equal weights on y: for the
//! flow that is an equal relative error, for the drawdown an equal absolute one. A best shift at the end
//! of the grid is no answer and is returned as an error. Checked in `tests/validation_tests.rs`.

use crate::Reason;
use crate::functions::{ln_flowing_g, theis_w};
use message::aquifer as part;

/// Which curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Curve {
    /// y = a + ln G(exp(b + x)).
    LnFlowingG,
    /// y = a·W(exp(b − x)).
    TheisW,
}

/// A fitted curve.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// Scale: a.
    pub scale: f64,
    /// Shift: b.
    pub shift: f64,
    /// Sum of squared residuals.
    pub ss: f64,
}

/// Covariance and diagnostics of a fit.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// Variance of the scale, of the shift, and their covariance.
    pub variance: [f64; 3],
    /// Residual standard deviation, n − 2 degrees of freedom.
    pub residual_sd: f64,
    /// y − fitted.
    pub residuals: Vec<f64>,
    /// Leverage of each point, 0 to 1.
    pub leverage: Vec<f64>,
    /// Derivatives of the curve by scale and shift at each point.
    pub slopes: Vec<(f64, f64)>,
}

/// Most Gauss–Newton steps.
const MOST_STEPS: usize = 100;

impl Curve {
    /// The curve's shape at x with its derivative by the shift.
    fn shape(self, shift: f64, x: f64) -> (f64, f64) {
        match self {
            Self::LnFlowingG => ln_flowing_g(shift + x),
            Self::TheisW => {
                let u = libm::exp(shift - x);
                (theis_w(u), -libm::exp(-u))
            }
        }
    }

    /// Value, derivative by scale, derivative by shift.
    fn value(self, scale: f64, shift: f64, x: f64) -> (f64, f64, f64) {
        let (f, d) = self.shape(shift, x);
        match self {
            Self::LnFlowingG => (scale + f, 1.0, d),
            Self::TheisW => (scale * f, f, scale * d),
        }
    }

    /// The fitted value at x.
    pub fn at(self, fit: &Fit, x: f64) -> f64 {
        self.value(fit.scale, fit.shift, x).0
    }

    /// Best scale for a shift, and the sum of squares it leaves.
    fn eliminate(self, shift: f64, x: &[f64], y: &[f64]) -> (f64, f64) {
        let n = x.len() as f64;
        let (mut up, mut down) = (0.0, 0.0);
        for (x, y) in x.iter().zip(y) {
            let f = self.shape(shift, *x).0;
            match self {
                Self::LnFlowingG => up += y - f,
                Self::TheisW => {
                    up += y * f;
                    down += f * f;
                }
            }
        }
        let scale = match self {
            Self::LnFlowingG => up / n,
            Self::TheisW if down > 0.0 => up / down,
            Self::TheisW => 0.0,
        };
        (scale, self.ss(scale, shift, x, y))
    }

    fn ss(self, scale: f64, shift: f64, x: &[f64], y: &[f64]) -> f64 {
        x.iter().zip(y).map(|(x, y)| (y - self.value(scale, shift, *x).0).powi(2)).sum()
    }

    /// Shifts that put the data anywhere on the curve: α from 1e-4 to 1e12, u from 1e-12 to 10.
    fn range(self, x: &[f64]) -> (f64, f64) {
        let (low, high) = x.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(*x), b.max(*x)));
        let ln10 = std::f64::consts::LN_10;
        match self {
            Self::LnFlowingG => (-4.0 * ln10 - low, 12.0 * ln10 - high),
            Self::TheisW => (-12.0 * ln10 + low, ln10 + low),
        }
    }

    /// Fits scale and shift.
    ///
    /// # Errors
    /// [`Reason::NotConverged`] where the best shift lies at the end of the curve (the data hold no
    /// information on it), or the steps do not settle.
    pub fn fit(self, x: &[f64], y: &[f64]) -> Result<Fit, Reason> {
        let (low, high) = self.range(x);
        // A third of a unit in ln t: much finer than the curve bends.
        let steps = ((high - low) * 3.0).ceil().max(3.0);
        let at = |i: f64| low + (high - low) * i / steps;
        let mut best = (0.0, f64::INFINITY);
        for i in 0..=steps as usize {
            let (_, ss) = self.eliminate(at(i as f64), x, y);
            if ss < best.1 {
                best = (i as f64, ss);
            }
        }
        if best.0 == 0.0 || best.0 == steps {
            return Err(Reason::NotConverged {
                what: part::FitOfStorage.into(),
                iterations: steps as usize,
                residual: best.1,
            });
        }
        self.refine(at(best.0), x, y)
    }

    /// Gauss–Newton from a shift near the answer.
    ///
    /// # Errors
    /// [`Reason::NotConverged`] when the steps do not settle.
    pub fn refine(self, start: f64, x: &[f64], y: &[f64]) -> Result<Fit, Reason> {
        let mut shift = start;
        let (mut scale, mut ss) = self.eliminate(shift, x, y);
        for _ in 0..MOST_STEPS {
            let (da, db) = self.step(scale, shift, x, y);
            let mut part = 1.0;
            // Halve the step until it helps; rounding noise at the minimum counts as help.
            let next = loop {
                let (a, b) = (scale + part * da, shift + part * db);
                let s = self.ss(a, b, x, y);
                if s <= ss * (1.0 + 1e-14) || part < 1e-6 {
                    break (a, b, s);
                }
                part *= 0.5;
            };
            (scale, shift, ss) = next;
            if (part * db).abs() < 1e-9 {
                return Ok(Fit { scale, shift, ss });
            }
        }
        Err(Reason::NotConverged { what: part::Fit.into(), iterations: MOST_STEPS, residual: ss })
    }

    fn step(self, scale: f64, shift: f64, x: &[f64], y: &[f64]) -> (f64, f64) {
        let mut n = [0.0; 3];
        let mut g = [0.0; 2];
        for (x, y) in x.iter().zip(y) {
            let (f, ja, jb) = self.value(scale, shift, *x);
            let r = y - f;
            n[0] += ja * ja;
            n[1] += ja * jb;
            n[2] += jb * jb;
            g[0] += ja * r;
            g[1] += jb * r;
        }
        let det = n[0] * n[2] - n[1] * n[1];
        if det <= 1e-14 * n[0] * n[2] {
            return (g[0] / n[0], 0.0);
        }
        ((n[2] * g[0] - n[1] * g[1]) / det, (n[0] * g[1] - n[1] * g[0]) / det)
    }

    /// Covariance, residuals, leverage at the fit.
    pub fn spread(self, fit: &Fit, x: &[f64], y: &[f64]) -> Spread {
        let slopes: Vec<(f64, f64)> = x
            .iter()
            .map(|x| {
                let (_, a, b) = self.value(fit.scale, fit.shift, *x);
                (a, b)
            })
            .collect();
        let sum = |f: &dyn Fn(&(f64, f64)) -> f64| slopes.iter().map(f).sum::<f64>();
        let (naa, nab, nbb) = (sum(&|s| s.0 * s.0), sum(&|s| s.0 * s.1), sum(&|s| s.1 * s.1));
        let det = naa * nbb - nab * nab;
        let s2 = fit.ss / (x.len() as f64 - 2.0);
        Spread {
            variance: [s2 * nbb / det, s2 * naa / det, -s2 * nab / det],
            residual_sd: s2.sqrt(),
            residuals: x.iter().zip(y).map(|(x, y)| y - self.at(fit, *x)).collect(),
            leverage: slopes.iter().map(|(a, b)| (a * a * nbb - 2.0 * a * b * nab + b * b * naa) / det).collect(),
            slopes,
        }
    }
}
