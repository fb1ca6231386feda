//! The non-central t distribution, T' = (Z + δ)/√(χ²/ν), and what is made of it: the detection
//! limit of a decision by t, and the one-sided tolerance factor.
//!
//! P(T' ≤ t) = ∫ Φ(t·s − δ) f(s) ds over s = χ/√ν, taken by the trapezoidal rule in ln s. The
//! integrand is analytic, has one hump and dies away on both sides, so the rule converges
//! exponentially; the step is halved until two answers agree to 1e-14. All terms are positive:
//! small tails keep their relative accuracy. Valid for ν > 0 (infinite too), any t and δ while the
//! answer is above about 1e-290. Checked against scipy in `tests/dist.rs`.

use super::{normal, special::stirling_error, t};
use std::f64::consts::PI;

/// Relative change at which halving the step stops.
const TOLERANCE: f64 = 1e-14;
/// The integrand is followed until it fell by exp(−46), 1e-20 of its top.
const DEPTH: f64 = 46.0;

/// P(T'(ν, δ) ≤ t).
pub fn cdf(t: f64, nu: f64, delta: f64) -> f64 {
    if !(nu > 0.0) || t.is_nan() || delta.is_nan() {
        return f64::NAN;
    }
    if nu.is_infinite() {
        return normal::cdf(t - delta);
    }
    Integrand { t, nu, delta }.integral().min(1.0)
}

/// P(T'(ν, δ) > t), with full relative accuracy where it is small.
pub fn sf(t: f64, nu: f64, delta: f64) -> f64 {
    cdf(-t, nu, -delta)
}

/// The δ with P(T'(ν, δ) ≤ t(1 − α, ν)) = β: a quantity that lies δ standard uncertainties over
/// zero is missed with probability β by a decision of false alarm α. This is Currie's detection
/// limit in units of the standard uncertainty at zero (IUPAC 1995; ISO 11843-1).
///
/// NaN unless α, β > 0, α + β < 1 and ν > 0.
///
/// ```
/// use statistics::noncentral::detection_delta;
/// // Well-known u: 3.29 of it. From four blanks (ν = 3) it takes 4.46, and one blank (ν = 0) says nothing.
/// assert!((detection_delta(0.05, 0.05, f64::INFINITY) - 3.29).abs() < 5e-3);
/// assert!((detection_delta(0.05, 0.05, 3.0) - 4.456).abs() < 5e-4);
/// assert!(detection_delta(0.05, 0.05, 0.0).is_nan());
/// ```
pub fn detection_delta(alpha: f64, beta: f64, nu: f64) -> f64 {
    if !(alpha > 0.0 && beta > 0.0 && alpha + beta < 1.0 && nu > 0.0) {
        return f64::NAN;
    }
    let crit = t::upper_quantile(alpha, nu);
    if nu.is_infinite() {
        return crit + normal::upper_quantile(beta);
    }
    // At δ = 0 the probability is 1 − α > β; it falls as δ grows.
    let f = |delta: f64| libm::log(cdf(crit, nu, delta)) - libm::log(beta);
    let mut lo = 0.0;
    let mut hi = 2.0 * crit.abs() + 2.0;
    while f(hi) > 0.0 {
        lo = hi;
        hi *= 2.0;
    }
    super::root::brent(f, lo, hi)
}

/// t with P(T'(ν, δ) ≤ t) = p; NaN unless 0 < p < 1 and ν > 0.
pub fn quantile(p: f64, nu: f64, delta: f64) -> f64 {
    if !(p > 0.0 && p < 1.0 && nu > 0.0) || delta.is_nan() {
        return f64::NAN;
    }
    if nu.is_infinite() {
        return delta + normal::quantile(p);
    }
    // Rises with t; taken on the smaller tail.
    let f = |t: f64| if p < 0.5 { cdf(t, nu, delta) - p } else { 1.0 - p - sf(t, nu, delta) };
    let (mut lo, mut hi) = (delta - 2.0, delta + 2.0);
    let mut step = 2.0;
    while f(hi) < 0.0 && hi.is_finite() {
        lo = hi;
        step *= 2.0;
        hi += step;
    }
    while f(lo) > 0.0 && lo.is_finite() {
        hi = lo;
        step *= 2.0;
        lo -= step;
    }
    super::root::brent(f, lo, hi)
}

/// One-sided tolerance factor k: the mean plus k sample standard deviations of n normal values lies
/// above the share of all with the given confidence. It is the quantile of T'(n − 1, √n·z) over √n,
/// z the normal quantile of the share (Owen 1958, SCR-13). NaN under two values and for a share or
/// confidence outside (0, 1).
pub fn tolerance_factor(n: usize, share: f64, confidence: f64) -> f64 {
    if n < 2 {
        return f64::NAN;
    }
    let root = (n as f64).sqrt();
    quantile(confidence, n as f64 - 1.0, root * normal::quantile(share)) / root
}

struct Integrand {
    t: f64,
    nu: f64,
    delta: f64,
}

impl Integrand {
    /// ln of the integrand in v = ln s, without the constant.
    fn log(&self, v: f64) -> f64 {
        let x = self.t * libm::exp(v) - self.delta;
        0.5 * self.nu * (2.0 * v - libm::expm1(2.0 * v)) + normal::log_cdf(x)
    }

    /// Sign-carrying derivative of `log`, to find the top: ν(1 − s²) + t·s·φ/Φ.
    fn slope(&self, v: f64) -> f64 {
        let s = libm::exp(v);
        let x = self.t * s - self.delta;
        self.nu * (1.0 - s * s) + self.t * s * normal::inverse_mills(x)
    }

    fn top(&self) -> f64 {
        let (mut lo, mut hi) = (-1.0, 1.0);
        while self.slope(lo) < 0.0 && lo > -350.0 {
            lo *= 2.0;
        }
        while self.slope(hi) > 0.0 && hi < 350.0 {
            hi *= 2.0;
        }
        for _ in 0..60 {
            let mid = 0.5 * (lo + hi);
            if self.slope(mid) > 0.0 {
                lo = mid;
            } else {
                hi = mid;
            }
        }
        0.5 * (lo + hi)
    }

    fn edge(&self, top: f64, height: f64, direction: f64) -> f64 {
        let mut step = 1.0 / (2.0 * self.nu + 1.0).sqrt();
        let mut v = top;
        while self.log(v) > height - DEPTH {
            v += direction * step;
            step *= 1.5;
        }
        v
    }

    fn integral(&self) -> f64 {
        let top = self.top();
        let height = self.log(top);
        if height == f64::NEG_INFINITY {
            return 0.0;
        }
        let (a, b) = (self.edge(top, height, -1.0), self.edge(top, height, 1.0));
        let m = 0.5 * self.nu;
        // 2 m^m e^−m / Γ(m), by Stirling with its error term.
        let constant = 2.0 * (m / (2.0 * PI)).sqrt() * libm::exp(-stirling_error(m));
        let at = |v: f64| libm::exp(self.log(v) - height);
        let mut n = 32_usize;
        let mut h = (b - a) / n as f64;
        let mut sum: f64 = (1..n).map(|k| at(a + h * k as f64)).sum();
        let mut answer = sum * h;
        while n < 1 << 16 {
            sum += (0..n).map(|k| at(a + h * (k as f64 + 0.5))).sum::<f64>();
            n *= 2;
            h *= 0.5;
            let next = sum * h;
            if (next - answer).abs() <= TOLERANCE * next {
                answer = next;
                break;
            }
            answer = next;
        }
        constant * answer * libm::exp(height)
    }
}
