//! The statistics that several sciences share, each once: distributions (normal, t, non-central t, chi-squared, F,
//! gamma, beta, binomial, Poisson; each with its probability in both tails and its quantiles), mean, standard
//! deviation and median of values ([`sample`]), effective degrees of freedom ([`welch`]), the interval of a ratio
//! ([`fieller`]), the upper bound of what was not detected ([`bound`]).
//!
//! In and out are dimensionless. `lower` and `upper` probabilities are separate functions because
//! 1 − p loses the digits of a small tail. `quantile(p, …)` has P(X ≤ x) = p,
//! `upper_quantile(q, …)` has P(X > x) = q. Incomplete gamma and beta functions are our own
//! (module [`special`]); the complementary error function is libm's, so that there is one
//! implementation on every machine. Quantiles are polished on our own probabilities.
//! Relative error against scipy 1.17.1: below 1e-10 (mostly 1e-13) over the committed table,
//! areas 1e-10 to 1 − 1e-10, degrees of freedom 0.5 to 1e6. Outside a function's domain
//! (negative degrees of freedom, a probability over 1) the answer is NaN, as in a mathematical
//! library. Checked in `tests/dist.rs` against tables made by scipy.

// Comparisons are written so that NaN fails them, and ends of a domain are exact numbers.
#![allow(clippy::float_cmp, clippy::neg_cmp_op_on_partial_ord)]

pub mod bound;
pub mod fieller;
pub mod many;
pub mod noncentral;
mod root;
pub mod sample;
pub mod special;
pub mod welch;
mod wichura;

pub use root::brent;
use root::{Area, positive_quantile};
use special::{Tails, beta_inc, binomial_term, gamma_inc, poisson_term};

/// Is it a probability strictly between 0 and 1?
fn proper(p: f64) -> bool {
    p > 0.0 && p < 1.0
}

/// The standard normal distribution.
pub mod normal {
    use super::wichura;
    use std::f64::consts::{PI, SQRT_2};

    /// z with P(Z > z) = 5 %: a one-sided bound that holds with 95 %.
    // scipy 1.17.1: stats.norm.ppf(.95)
    pub const ONE_SIDED_95: f64 = 1.644_853_626_951_472_2;

    /// z with P(|Z| > z) = 5 %: a two-sided 95 % interval is ±z·u.
    // scipy 1.17.1: stats.norm.ppf(.975)
    pub const TWO_SIDED_95: f64 = 1.959_963_984_540_054;

    /// φ(z).
    pub fn pdf(z: f64) -> f64 {
        libm::exp(-0.5 * z * z) / (2.0 * PI).sqrt()
    }

    /// Φ(z) = P(Z ≤ z).
    pub fn cdf(z: f64) -> f64 {
        0.5 * libm::erfc(-z / SQRT_2)
    }

    /// P(Z > z).
    pub fn sf(z: f64) -> f64 {
        cdf(-z)
    }

    /// ln Φ(z), without underflow far in the lower tail.
    pub fn log_cdf(z: f64) -> f64 {
        if z > -30.0 {
            libm::log(cdf(z))
        } else {
            -0.5 * z * z - libm::log(-z * (2.0 * PI).sqrt()) + libm::log1p(tail_series(z) - 1.0)
        }
    }

    /// φ(z)/Φ(z), without underflow far in the lower tail.
    pub fn inverse_mills(z: f64) -> f64 {
        if z > -30.0 { pdf(z) / cdf(z) } else { -z / tail_series(z) }
    }

    /// Asymptotic series of Φ(z)·(−z)/φ(z), z < −30 (Abramowitz & Stegun 26.2.12).
    fn tail_series(z: f64) -> f64 {
        let w = 1.0 / (z * z);
        1.0 - w * (1.0 - 3.0 * w * (1.0 - 5.0 * w * (1.0 - 7.0 * w)))
    }

    /// z with Φ(z) = p; −∞ at 0, +∞ at 1.
    pub fn quantile(p: f64) -> f64 {
        if p > 0.5 {
            return -quantile(1.0 - p);
        }
        if !(p >= 0.0) {
            return f64::NAN;
        }
        if p == 0.0 {
            return f64::NEG_INFINITY;
        }
        let mut z = wichura::normal_quantile(p);
        // One Halley step on our own Φ.
        let e = (cdf(z) - p) / pdf(z);
        if e.is_finite() {
            z -= e / (1.0 + 0.5 * z * e);
        }
        z
    }

    /// z with P(Z > z) = q.
    pub fn upper_quantile(q: f64) -> f64 {
        -quantile(q)
    }

    /// The quantile as Wichura's AS 241 gives it, about 1e-15 relative, without the last step of
    /// [`quantile`]: for loops that ask for many. Not a number outside 0 < p < 1.
    pub fn quick_quantile(p: f64) -> f64 {
        if !(p > 0.0 && p < 1.0) {
            return f64::NAN;
        }
        if p > 0.5 { -wichura::normal_quantile(1.0 - p) } else { wichura::normal_quantile(p) }
    }
}

/// Student's t distribution; infinite degrees of freedom give the normal one.
pub mod t {
    use super::{Area, beta_inc, normal, positive_quantile, proper, special};
    use std::f64::consts::PI;

    /// Density.
    pub fn pdf(t: f64, nu: f64) -> f64 {
        if nu.is_infinite() {
            return normal::pdf(t);
        }
        let m = 0.5 * nu;
        // Γ(m + 1/2)/(Γ(m)√(2πm)) through the Stirling errors of m − 1/2 and m − 1 would lose
        // small m; lgamma is enough here: the density only steers Newton's method.
        let c = libm::lgamma(m + 0.5) - libm::lgamma(m) - 0.5 * libm::log(PI * nu);
        libm::exp(c - (m + 0.5) * libm::log1p(t * t / nu))
    }

    /// P(T ≤ t).
    pub fn cdf(t: f64, nu: f64) -> f64 {
        sf(-t, nu)
    }

    /// P(T > t).
    pub fn sf(t: f64, nu: f64) -> f64 {
        if !(nu > 0.0) || t.is_nan() {
            return f64::NAN;
        }
        if nu.is_infinite() || nu > 1e15 {
            return normal::sf(t);
        }
        if t == 0.0 {
            return 0.5;
        }
        let half = 0.5 * two_tails(t.abs(), nu).lower;
        if t > 0.0 { half } else { 1.0 - half }
    }

    /// P(|T| > |t|).
    pub fn two_sided_p(t: f64, nu: f64) -> f64 {
        2.0 * sf(t.abs(), nu)
    }

    /// (P(|T| > t), P(|T| ≤ t)) as lower and upper of a beta function, t > 0.
    fn two_tails(t: f64, nu: f64) -> special::Tails {
        if t > 1e150 {
            // ν/(ν + t²) underflows as a quotient of squares.
            let r = nu.sqrt() / t;
            return beta_inc(0.5 * nu, 0.5, r * r, 1.0);
        }
        let s = nu + t * t;
        beta_inc(0.5 * nu, 0.5, nu / s, t * t / s)
    }

    /// t with P(T ≤ t) = p.
    pub fn quantile(p: f64, nu: f64) -> f64 {
        if !proper(p) || !(nu > 0.0) {
            return f64::NAN;
        }
        if p < 0.5 {
            return -upper_quantile(p, nu);
        }
        upper_quantile(1.0 - p, nu)
    }

    /// t with P(T > t) = q.
    pub fn upper_quantile(q: f64, nu: f64) -> f64 {
        if !proper(q) || !(nu > 0.0) {
            return f64::NAN;
        }
        if q > 0.5 {
            return -upper_quantile(1.0 - q, nu);
        }
        if nu.is_infinite() || nu > 1e15 {
            return normal::upper_quantile(q);
        }
        if (q - 0.5).abs() < f64::EPSILON {
            return 0.0;
        }
        // Small t: the tail is flat, so the area between −t and t is the one to solve for.
        let area = if q > 0.25 { Area::Lower(1.0 - 2.0 * q) } else { Area::Upper(2.0 * q) };
        positive_quantile(area, start(q, nu), |t| two_tails(t, nu).swapped(), |t| 2.0 * pdf(t, nu))
    }

    /// Cornish–Fisher expansion (A&S 26.7.5) where it holds, the power tail elsewhere.
    fn start(q: f64, nu: f64) -> f64 {
        let z = normal::upper_quantile(q);
        let z2 = z * z;
        let x = z * (1.0 + (z2 + 1.0) / (4.0 * nu) + ((5.0 * z2 + 16.0) * z2 + 3.0) / (96.0 * nu * nu));
        if nu >= 3.0 && z2 < 4.0 * nu {
            return x;
        }
        // P(T > t) ≈ c·ν^((ν−1)/2)·t^−ν for large t.
        let c = pdf(0.0, nu) * libm::pow(nu, 0.5 * (nu - 1.0));
        libm::pow(c / q, 1.0 / nu).max(x.min(1.0))
    }
}

/// The gamma distribution with scale 1.
pub mod gamma {
    use super::{Area, Tails, gamma_inc, normal, poisson_term, positive_quantile, proper};

    /// Both tails at x.
    pub fn tails(x: f64, shape: f64) -> Tails {
        if x <= 0.0 && shape > 0.0 {
            return Tails::BEFORE;
        }
        gamma_inc(shape, x)
    }

    /// Density.
    pub fn pdf(x: f64, shape: f64) -> f64 {
        poisson_term(shape, x) * shape / x
    }

    /// x with P(X ≤ x) = p.
    pub fn quantile(p: f64, shape: f64) -> f64 {
        solve(Area::Lower(p), p, shape)
    }

    /// x with P(X > x) = q.
    pub fn upper_quantile(q: f64, shape: f64) -> f64 {
        solve(Area::Upper(q), 1.0 - q, shape)
    }

    fn solve(area: Area, p: f64, shape: f64) -> f64 {
        let (Area::Lower(given) | Area::Upper(given)) = area;
        if !proper(given) || !(shape > 0.0) {
            return f64::NAN;
        }
        // Wilson–Hilferty (A&S 26.4.17), the power law of the lower tail where that fails.
        let z = match area {
            Area::Lower(p) => normal::quantile(p),
            Area::Upper(q) => normal::upper_quantile(q),
        };
        let c = 1.0 / (9.0 * shape);
        let base = 1.0 - c + z * c.sqrt();
        let mut start = shape * base * base * base;
        if base < 0.3 || !(start > 0.0) {
            let p = p.max(1e-300);
            start = libm::exp((libm::log(p) + libm::lgamma(shape + 1.0)) / shape);
        }
        positive_quantile(area, start, |x| tails(x, shape), |x| pdf(x, shape))
    }
}

/// The chi-squared distribution.
pub mod chi2 {
    use super::{Tails, gamma};

    /// P(X ≤ x).
    pub fn cdf(x: f64, nu: f64) -> f64 {
        gamma::tails(0.5 * x, 0.5 * nu).lower
    }

    /// P(X > x).
    pub fn sf(x: f64, nu: f64) -> f64 {
        gamma::tails(0.5 * x, 0.5 * nu).upper
    }

    /// Both tails.
    pub fn tails(x: f64, nu: f64) -> Tails {
        gamma::tails(0.5 * x, 0.5 * nu)
    }

    /// x with P(X ≤ x) = p.
    pub fn quantile(p: f64, nu: f64) -> f64 {
        2.0 * gamma::quantile(p, 0.5 * nu)
    }

    /// x with P(X > x) = q.
    pub fn upper_quantile(q: f64, nu: f64) -> f64 {
        2.0 * gamma::upper_quantile(q, 0.5 * nu)
    }
}

/// The beta distribution.
pub mod beta {
    use super::{Area, Tails, beta_inc, f, proper};

    /// Both tails at x.
    pub fn tails(x: f64, a: f64, b: f64) -> Tails {
        let x = x.clamp(0.0, 1.0);
        beta_inc(a, b, x, 1.0 - x)
    }

    /// x with P(X ≤ x) = p. The odds x/(1 − x) are what is solved for, so both ends keep digits.
    pub fn quantile(p: f64, a: f64, b: f64) -> f64 {
        solve(Area::Lower(p), a, b)
    }

    /// x with P(X > x) = q.
    pub fn upper_quantile(q: f64, a: f64, b: f64) -> f64 {
        solve(Area::Upper(q), a, b)
    }

    fn solve(area: Area, a: f64, b: f64) -> f64 {
        let (Area::Lower(given) | Area::Upper(given)) = area;
        if !(proper(given) && a > 0.0 && b > 0.0) {
            return f64::NAN;
        }
        let odds = f::odds(area, a, b);
        odds / (1.0 + odds)
    }
}

/// Fisher's F distribution.
pub mod f {
    use super::{Area, Tails, beta_inc, binomial_term, positive_quantile, proper};

    /// Both tails at x for the degrees of freedom of numerator and denominator.
    pub fn tails(x: f64, nu1: f64, nu2: f64) -> Tails {
        if x <= 0.0 {
            return Tails::BEFORE;
        }
        odds_tails(x * nu1 / nu2, 0.5 * nu1, 0.5 * nu2)
    }

    /// P(X ≤ x).
    pub fn cdf(x: f64, nu1: f64, nu2: f64) -> f64 {
        tails(x, nu1, nu2).lower
    }

    /// P(X > x).
    pub fn sf(x: f64, nu1: f64, nu2: f64) -> f64 {
        tails(x, nu1, nu2).upper
    }

    /// x with P(X ≤ x) = p.
    pub fn quantile(p: f64, nu1: f64, nu2: f64) -> f64 {
        solve(Area::Lower(p), nu1, nu2)
    }

    /// x with P(X > x) = q.
    pub fn upper_quantile(q: f64, nu1: f64, nu2: f64) -> f64 {
        solve(Area::Upper(q), nu1, nu2)
    }

    fn solve(area: Area, nu1: f64, nu2: f64) -> f64 {
        let (Area::Lower(given) | Area::Upper(given)) = area;
        if !(proper(given) && nu1 > 0.0 && nu2 > 0.0) {
            return f64::NAN;
        }
        odds(area, 0.5 * nu1, 0.5 * nu2) * nu2 / nu1
    }

    fn odds_tails(w: f64, a: f64, b: f64) -> Tails {
        if w.is_infinite() {
            return Tails::AFTER;
        }
        beta_inc(a, b, w / (1.0 + w), 1.0 / (1.0 + w))
    }

    /// Odds x/(1 − x) of the beta quantile.
    pub(super) fn odds(area: Area, a: f64, b: f64) -> f64 {
        let density = |w: f64| {
            let (x, y) = (w / (1.0 + w), 1.0 / (1.0 + w));
            binomial_term(a, a + b, x, y) * (a * b / (a + b)) / w
        };
        positive_quantile(area, a / b, |w| odds_tails(w, a, b), density)
    }
}

/// The binomial distribution.
pub mod binomial {
    use super::{Tails, beta, beta_inc, binomial_term};

    /// P(X = k) of n trials with probability p.
    pub fn pmf(k: u64, n: u64, p: f64) -> f64 {
        if k > n {
            return 0.0;
        }
        binomial_term(k as f64, n as f64, p, 1.0 - p)
    }

    /// P(X ≤ k) and P(X > k).
    pub fn tails(k: u64, n: u64, p: f64) -> Tails {
        if !(0.0..=1.0).contains(&p) {
            return Tails::NAN;
        }
        if k >= n {
            return Tails::AFTER;
        }
        beta_inc((k + 1) as f64, (n - k) as f64, p, 1.0 - p).swapped()
    }

    /// P(X ≤ k).
    pub fn cdf(k: u64, n: u64, p: f64) -> f64 {
        tails(k, n, p).lower
    }

    /// P(X < k).
    pub fn below(k: u64, n: u64, p: f64) -> f64 {
        if k == 0 { 0.0 } else { cdf(k - 1, n, p) }
    }

    /// The probability p for which k or fewer of n have probability `alpha`: the exact upper
    /// confidence limit (Clopper & Pearson 1934, Biometrika 26:404); 1 where all of n succeed.
    pub fn upper_limit(k: u64, n: u64, alpha: f64) -> f64 {
        if k >= n { 1.0 } else { beta::upper_quantile(alpha, (k + 1) as f64, (n - k) as f64) }
    }

    /// The probability p for which k or more of n have probability `alpha`: the exact lower
    /// confidence limit; 0 where none succeed.
    pub fn lower_limit(k: u64, n: u64, alpha: f64) -> f64 {
        if k == 0 || k > n { 0.0 } else { beta::quantile(alpha, k as f64, (n - k + 1) as f64) }
    }
}

/// The Poisson distribution.
pub mod poisson {
    use super::{Tails, gamma, gamma_inc, poisson_term};

    /// P(N = k) for the expectation m.
    pub fn pmf(k: u64, m: f64) -> f64 {
        poisson_term(k as f64, m)
    }

    /// P(N ≤ k) and P(N > k).
    pub fn tails(k: u64, m: f64) -> Tails {
        gamma_inc(k as f64 + 1.0, m).swapped()
    }

    /// P(N ≤ k).
    pub fn cdf(k: u64, m: f64) -> f64 {
        tails(k, m).lower
    }

    /// The expectation for which k or fewer counts have probability `alpha`: the exact upper
    /// confidence limit (Garwood 1936). At zero counts and 5 % it is 2.9957.
    pub fn upper_limit(k: u64, alpha: f64) -> f64 {
        gamma::upper_quantile(alpha, k as f64 + 1.0)
    }

    /// The expectation for which k or more counts have probability `alpha`: the exact lower
    /// confidence limit; 0 at zero counts.
    pub fn lower_limit(k: u64, alpha: f64) -> f64 {
        if k == 0 { 0.0 } else { gamma::quantile(alpha, k as f64) }
    }

    /// The smallest k with P(N ≤ k) ≥ p.
    pub fn quantile(p: f64, m: f64) -> u64 {
        let mut k = (m + super::normal::quantile(p) * m.sqrt()).max(0.0) as u64;
        while cdf(k, m) < p {
            k += 1;
        }
        while k > 0 && cdf(k - 1, m) >= p {
            k -= 1;
        }
        k
    }
}
