//! The ratio of two measured quantities, and its interval.
//!
//! In: numerator and denominator with u and covariance (any units); out: the ratio by first-order
//! propagation and Fieller's interval (Fieller 1954, J. R. Stat. Soc. B 16:175), which holds also
//! where the denominator is not far from zero. With g = t²·v_b/b², g < 1 gives two limits; g ≥ 1
//! means that the denominator is not distinct from zero: the ratio is then bounded on one side at
//! most ("at least …"), and no two-sided interval is given. Two results that share a blank mean
//! carry its variance as covariance. Checked in `tests/ratio.rs`.

// Zero is exactly zero where a quotient is undefined.
#![allow(clippy::float_cmp)]

use crate::error::{Error, all_finite};
pub use statistics::fieller::Interval as FiellerInterval;
use statistics::fieller::{Pair, interval};

/// Numerator and denominator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quotient {
    /// a.
    pub numerator: f64,
    /// u(a).
    pub u_numerator: f64,
    /// b.
    pub denominator: f64,
    /// u(b).
    pub u_denominator: f64,
    /// cov(a, b): the variance of a shared blank mean, for instance.
    pub covariance: f64,
}

impl Quotient {
    fn pair(&self) -> Pair {
        Pair {
            a: self.numerator,
            u_a: self.u_numerator,
            b: self.denominator,
            u_b: self.u_denominator,
            covariance: self.covariance,
        }
    }

    fn check(&self) -> Result<(), Error> {
        all_finite(
            "ratio",
            &[self.numerator, self.u_numerator, self.denominator, self.u_denominator, self.covariance],
        )?;
        for (what, u) in [("u of the numerator", self.u_numerator), ("u of the denominator", self.u_denominator)] {
            if u < 0.0 {
                return Err(Error::OutOfRange { what: what.into(), value: u, range: "0 or more" });
            }
        }
        let limit = self.u_numerator * self.u_denominator;
        if self.covariance.abs() > limit * (1.0 + 1e-12) {
            return Err(Error::OutOfRange {
                what: "covariance".into(),
                value: self.covariance,
                range: "no larger than the product of both u",
            });
        }
        Ok(())
    }

    /// a/b with u by first-order propagation.
    ///
    /// # Errors
    /// [`Error::ZeroDenominator`] where b = 0; [`Error::NotFinite`], [`Error::OutOfRange`].
    pub fn first_order(&self) -> Result<crate::line::Estimate, Error> {
        self.check()?;
        if self.denominator == 0.0 {
            return Err(Error::ZeroDenominator { what: "the denominator".into() });
        }
        let r = self.numerator / self.denominator;
        let var = self.pair().variance_at(r);
        Ok(crate::line::Estimate { value: r, u: var.max(0.0).sqrt() / self.denominator.abs() })
    }

    /// g = t²·u²(b)/b²: at 1 and over, the denominator is not distinct from zero.
    pub fn g(&self, t: f64) -> f64 {
        (t * self.u_denominator / self.denominator).powi(2)
    }

    /// Fieller's interval with the coverage factor `t`: all ratios ρ for which a − ρ·b lies within
    /// t of its standard uncertainty.
    ///
    /// # Errors
    /// [`Error::NotFinite`], [`Error::OutOfRange`].
    ///
    /// ```
    /// use measurement::ratio::{FiellerInterval, Quotient};
    /// // A well of 25 ± 2 over a rain of 1 ± 1 ng/L: the rain may be nothing, so "at least", with no upper limit.
    /// let over_rain =
    ///     Quotient { numerator: 25.0, u_numerator: 2.0, denominator: 1.0, u_denominator: 1.0, covariance: 0.0 };
    /// assert!(over_rain.g(1.96) > 1.0);
    /// let FiellerInterval::AtLeast { above, .. } = over_rain.fieller(1.96)? else { panic!("bounded") };
    /// assert!((above - 8.3).abs() < 0.1);
    /// # Ok::<(), measurement::error::Error>(())
    /// ```
    pub fn fieller(&self, t: f64) -> Result<FiellerInterval, Error> {
        self.check()?;
        all_finite("t", &[t])?;
        Ok(interval(&self.pair(), t))
    }
}
