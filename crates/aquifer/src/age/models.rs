//! Lumped-parameter models: how the ages of the water that a well gives are spread.
//!
//! In: parameters, times in years. Out: weighting function g(τ) in 1/years (∫g = 1), share younger than a time, mean,
//! median, and what is left of a constant input. Steady flow is assumed: a river, or pumping that changed the flow,
//! breaks it. Source: Maloszewski & Zuber 1982, J. Hydrol. 57:207, and 1996 (formulas from memory, each integrated and
//! checked); the dispersion model is the inverse Gaussian distribution. A screen over part of the depth with no lower
//! end is the exponential-piston model: the two are never two confirmations. Checked in `tests/age_models.rs`.

use crate::Reason;
use message::{Message, Name, Shown, age as said, aquifer as part};
use serde::Serialize;
use statistics::normal;
use std::f64::consts::{LN_2, PI};

/// A spread of ages.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "model", rename_all = "kebab-case")]
pub enum Model {
    /// All water of one age: δ(τ − T).
    Piston {
        /// T, years.
        mean: f64,
    },
    /// (1/T)·exp(−τ/T): unconfined, screened over the whole depth.
    Exponential {
        /// T, years.
        mean: f64,
    },
    /// (η/T)·exp(−ητ/T + η − 1) from τ = T(1 − 1/η): recharge area, then confined.
    ExponentialPiston {
        /// T, years.
        mean: f64,
        /// η ≥ 1; 1 is exponential.
        eta: f64,
    },
    /// exp(−(1 − τ/T)²/(4Dτ/T)) / (τ·√(4πDτ/T)): confined, spread by heterogeneity.
    Dispersion {
        /// T, years.
        mean: f64,
        /// D = 1/Pe; variance 2·D·T².
        d: f64,
    },
    /// exp(−τ/Ta)/Ta between two times, normalised: screen over part of the depth.
    PartialExponential {
        /// Ta, years.
        scale: f64,
        /// Youngest water, years.
        from: f64,
        /// Oldest water, years; infinite for a screen to the bottom.
        to: f64,
    },
    /// f·first + (1 − f)·second: two horizons, a leak along the casing.
    Mixture {
        /// f, share of the first.
        share: f64,
        /// One water.
        first: Box<Self>,
        /// The other; none for dead water, which has no tracer and no known age.
        second: Option<Box<Self>>,
    },
}

/// A part of a model as an exponential from a time on: weight·(1/scale)·exp(−(τ − from)/scale) until `to`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Kernel {
    pub weight: f64,
    pub from: f64,
    pub to: f64,
    pub scale: f64,
}

impl Model {
    /// Youngest and oldest water of a screen between two depths below the water table, thickness H of the aquifer:
    /// t = Ta·ln(H/(H − z)).
    ///
    /// # Errors
    /// [`Reason`]: depths that are not 0 ≤ top < bottom ≤ H.
    pub fn of_screen(scale: f64, thickness_m: f64, top_m: f64, bottom_m: f64) -> Result<Self, Reason> {
        if !(top_m >= 0.0 && bottom_m > top_m && bottom_m <= thickness_m && thickness_m.is_finite()) {
            let (low, high) = (Shown::as_given(top_m, ""), Shown::as_given(bottom_m, "m"));
            let most = part::AtMost { most: Shown::as_given(thickness_m, "m") };
            return Err(Reason::unlike(parameter("screen"), part::Between { low, high }, most));
        }
        let at =
            |z: f64| if z < thickness_m { scale * libm::log(thickness_m / (thickness_m - z)) } else { f64::INFINITY };
        let model = Self::PartialExponential { scale, from: at(top_m), to: at(bottom_m) };
        model.check()?;
        Ok(model)
    }

    /// Whether the parameters can be.
    ///
    /// # Errors
    /// [`Reason`] naming the parameter.
    pub fn check(&self) -> Result<(), Reason> {
        let years = |name, x: f64| crate::reason::above_nought(parameter(name), x, "a");
        match self {
            Self::Piston { mean } | Self::Exponential { mean } => years("mean age", *mean),
            Self::ExponentialPiston { mean, eta } => {
                years("mean age", *mean)?;
                if *eta >= 1.0 && eta.is_finite() { Ok(()) } else { Err(unfit("eta", *eta, said::OneOrMore)) }
            }
            Self::Dispersion { mean, d } => {
                years("mean age", *mean)?;
                crate::reason::above_nought(parameter("dispersion"), *d, "")
            }
            Self::PartialExponential { scale, from, to } => {
                years("scale", *scale)?;
                if *from >= 0.0 && to > from && from.is_finite() {
                    Ok(())
                } else {
                    let (low, high) = (Shown::as_given(*from, ""), Shown::as_given(*to, "a"));
                    Err(Reason::unlike(parameter("screen"), part::Between { low, high }, said::YoungestBeforeOldest))
                }
            }
            Self::Mixture { share, first, second } => {
                if !(0.0..=1.0).contains(share) {
                    return Err(unfit("share", *share, part::ShareNotPercent));
                }
                first.check()?;
                second.as_ref().map_or(Ok(()), |s| s.check())
            }
        }
    }

    /// The exponential that it is; none for piston, dispersion and mixtures.
    pub(super) fn kernel(&self) -> Option<Kernel> {
        Some(match *self {
            Self::Exponential { mean } => Kernel { weight: 1.0, from: 0.0, to: f64::INFINITY, scale: mean },
            Self::ExponentialPiston { mean, eta } => {
                Kernel { weight: 1.0, from: mean * (1.0 - 1.0 / eta), to: f64::INFINITY, scale: mean / eta }
            }
            Self::PartialExponential { scale, from, to } => {
                Kernel { weight: -1.0 / libm::expm1(-(to - from) / scale), from, to, scale }
            }
            _ => return None,
        })
    }

    /// g(τ), 1/years; none for a piston, and for a mixture with one or with dead water, whose weight is not spread.
    pub fn density(&self, tau: f64) -> Option<f64> {
        match self {
            Self::Piston { .. } | Self::Mixture { second: None, .. } => None,
            Self::Dispersion { mean, d } => {
                let x = tau / mean;
                Some(if x > 0.0 {
                    libm::exp(-(1.0 - x).powi(2) / (4.0 * d * x)) / (tau * (4.0 * PI * d * x).sqrt())
                } else {
                    0.0
                })
            }
            Self::Mixture { share, first, second: Some(second) } => {
                Some(share * first.density(tau)? + (1.0 - share) * second.density(tau)?)
            }
            _ => self.kernel().map(|k| {
                let within = tau >= k.from && tau <= k.to;
                if within { k.weight / k.scale * libm::exp(-(tau - k.from) / k.scale) } else { 0.0 }
            }),
        }
    }

    /// Share younger than a time, 0 to 1.
    ///
    /// ```
    /// use aquifer::age::Model;
    /// // Mean age 200 years, and yet a third of the water fell within the last 74 years.
    /// let share = Model::Exponential { mean: 200.0 }.younger_than(74.0);
    /// assert!((share - 0.309266).abs() < 1e-6);
    /// ```
    pub fn younger_than(&self, years: f64) -> f64 {
        if years <= 0.0 {
            return 0.0;
        }
        match self {
            Self::Piston { mean } => f64::from(u8::from(*mean <= years)),
            Self::Dispersion { mean, d } => {
                // Inverse Gaussian; the second term as one exponential, since exp(1/D) alone overflows.
                let root = (mean / (2.0 * d * years)).sqrt();
                let x = years / mean;
                normal::cdf(root * (x - 1.0)) + libm::exp(1.0 / d + normal::log_cdf(-root * (x + 1.0)))
            }
            Self::Mixture { share, first, second } => {
                share * first.younger_than(years)
                    + second.as_ref().map_or(0.0, |s| (1.0 - share) * s.younger_than(years))
            }
            _ => self.kernel().map_or(0.0, |k| {
                let until = years.min(k.to);
                if until <= k.from { 0.0 } else { -k.weight * libm::expm1(-(until - k.from) / k.scale) }
            }),
        }
    }

    /// Mean age, years; none with dead water, whose age is not known.
    pub fn mean(&self) -> Option<f64> {
        match self {
            Self::Piston { mean }
            | Self::Exponential { mean }
            | Self::ExponentialPiston { mean, .. }
            | Self::Dispersion { mean, .. } => Some(*mean),
            Self::PartialExponential { scale, from, to } => {
                let span = to - from;
                let cut = if span.is_finite() { span / libm::expm1(span / scale) } else { 0.0 };
                Some(from + scale - cut)
            }
            Self::Mixture { share, first, second } => {
                Some(share * first.mean()? + (1.0 - share) * second.as_ref()?.mean()?)
            }
        }
    }

    /// Age that half of the water is younger than, years; none where that half is dead.
    pub fn median(&self) -> Option<f64> {
        match self {
            Self::Piston { mean } => Some(*mean),
            Self::Dispersion { .. } | Self::Mixture { .. } => self.median_by_search(),
            _ => self.kernel().map(|k| k.from - k.scale * libm::log1p(-0.5 / k.weight)),
        }
    }

    fn median_by_search(&self) -> Option<f64> {
        // From a day to a thousand million years: 200 halvings leave nothing between in double precision.
        let (mut low, mut high) = (libm::log(1.0 / 365.25), libm::log(1e9));
        if self.younger_than(1e9) < 0.5 {
            return None;
        }
        for _ in 0..60 {
            let mid = 0.5 * (low + high);
            if self.younger_than(libm::exp(mid)) < 0.5 { low = mid } else { high = mid }
        }
        Some(libm::exp(0.5 * (low + high)))
    }

    /// Cout/Cin of a constant input with decay constant λ (1/years): ∫g·exp(−λτ)dτ.
    pub fn transmitted(&self, lambda: f64) -> f64 {
        match self {
            Self::Piston { mean } => libm::exp(-lambda * mean),
            Self::Dispersion { mean, d } => libm::exp((1.0 - (1.0 + 4.0 * d * lambda * mean).sqrt()) / (2.0 * d)),
            Self::Mixture { share, first, second } => {
                share * first.transmitted(lambda)
                    + second.as_ref().map_or(0.0, |s| (1.0 - share) * s.transmitted(lambda))
            }
            _ => self.kernel().map_or(0.0, |k| {
                let rate = 1.0 / k.scale + lambda;
                -k.weight / (k.scale * rate) * libm::exp(-lambda * k.from) * libm::expm1(-rate * (k.to - k.from))
            }),
        }
    }

    /// Its name for messages.
    pub fn name(&self) -> Name {
        match self {
            Self::Piston { .. } => "piston",
            Self::Exponential { .. } => "exponential",
            Self::ExponentialPiston { .. } => "exponential-piston",
            Self::Dispersion { .. } => "dispersion",
            Self::PartialExponential { .. } => "partial-exponential",
            Self::Mixture { second: None, .. } => "mixture-dead",
            Self::Mixture { .. } => "mixture",
        }
        .into()
    }
}

/// ln 2 over a half-life, 1/years.
pub fn decay_constant(half_life_years: f64) -> f64 {
    LN_2 / half_life_years
}

fn parameter(name: &str) -> said::Parameter {
    said::Parameter { parameter: crate::reason::key(name) }
}

fn unfit(name: &str, x: f64, expected: impl Into<Message>) -> Reason {
    Reason::out_of_range(parameter(name), Shown::as_given(x, ""), expected)
}
