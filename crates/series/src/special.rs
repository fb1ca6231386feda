//! Distribution functions of the record: normal, t, chi-squared, beta, gamma, and the one-sided
//! tolerance factor. In: probabilities and plain numbers; out: the same, no units.
//!
//! Source: NIST Digital Library of Mathematical Functions, ch. 7 and 8 (erfc, incomplete gamma
//! and beta); the functions themselves come from the general libraries libm and statrs. Where
//! statrs has weak tails (t and gamma quantiles) the quantile is found here from the
//! distribution function by a bracketed search. Checked against scipy in `tests/special.rs`.

use statrs::function::{beta::beta_reg, erf::erfc_inv, gamma};
use std::f64::consts::{PI, SQRT_2};

/// Standard normal distribution function Φ(z).
pub fn normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z / SQRT_2)
}

/// Standard normal density.
pub fn normal_pdf(z: f64) -> f64 {
    libm::exp(-0.5 * z * z) / libm::sqrt(2.0 * PI)
}

/// Standard normal quantile; p in (0, 1).
pub fn normal_quantile(p: f64) -> f64 {
    -SQRT_2 * erfc_inv(2.0 * p)
}

/// ln Φ(z), also far in the lower tail.
pub fn ln_normal_cdf(z: f64) -> f64 {
    if z > -30.0 {
        libm::log(normal_cdf(z))
    } else {
        // Mills ratio, asymptotic (DLMF 7.12.1); relative error under 1e-6 below −30.
        -0.5 * z * z - libm::log(-z) - 0.5 * libm::log(2.0 * PI) - 1.0 / (z * z)
    }
}

/// φ(z)/Φ(z), also far in the lower tail.
pub fn inverse_mills(z: f64) -> f64 {
    if z > -30.0 { normal_pdf(z) / normal_cdf(z) } else { -z - 1.0 / z }
}

/// Student t distribution function, `dof` > 0.
pub fn t_cdf(t: f64, dof: f64) -> f64 {
    if dof.is_infinite() {
        return normal_cdf(t);
    }
    let tail = 0.5 * beta_reg(0.5 * dof, 0.5, dof / (dof + t * t));
    if t > 0.0 { 1.0 - tail } else { tail }
}

/// Student t quantile; p in (0, 1).
pub fn t_quantile(p: f64, dof: f64) -> f64 {
    if dof.is_infinite() || dof > 1e7 {
        return normal_quantile(p);
    }
    if p < 0.5 {
        return -t_quantile(1.0 - p, dof);
    }
    let z = normal_quantile(p);
    // First term of the expansion in 1/dof (Abramowitz & Stegun 26.7.5) as the start.
    let mut t = z + z * (z * z + 1.0) / (4.0 * dof);
    let ln_norm = ln_gamma(0.5 * (dof + 1.0)) - ln_gamma(0.5 * dof) - 0.5 * libm::log(dof * PI);
    for _ in 0..12 {
        let density = libm::exp(ln_norm - 0.5 * (dof + 1.0) * libm::log1p(t * t / dof));
        let step = (t_cdf(t, dof) - p) / density;
        t -= step;
        if step.abs() <= 1e-13 * t.abs() {
            return t;
        }
    }
    let mut high = 2.0;
    while t_cdf(high, dof) < p && high < 1e15 {
        high *= 2.0;
    }
    root(|t| t_cdf(t, dof) - p, 0.0, high)
}

/// Upper tail of chi-squared with `dof` degrees of freedom.
pub fn chi_squared_sf(x: f64, dof: f64) -> f64 {
    if x <= 0.0 { 1.0 } else { gamma::gamma_ur(0.5 * dof, 0.5 * x) }
}

/// Regularised lower incomplete gamma P(shape, x).
pub fn gamma_p(shape: f64, x: f64) -> f64 {
    if x <= 0.0 { 0.0 } else { gamma::gamma_lr(shape, x) }
}

/// ln Γ(x).
pub fn ln_gamma(x: f64) -> f64 {
    libm::lgamma(x)
}

/// Quantile of the gamma distribution with unit scale.
pub fn gamma_quantile(p: f64, shape: f64) -> f64 {
    // Wilson & Hilferty 1931 (cube root of chi-squared is near normal) as the start.
    let w = 1.0 - 1.0 / (9.0 * shape) + normal_quantile(p) / (3.0 * libm::sqrt(shape));
    let cube = shape * w * w * w;
    // For small p, P(a, x) ≈ x^a / Γ(a + 1) (DLMF 8.7.1).
    let small = libm::exp((libm::log(p) + ln_gamma(shape + 1.0)) / shape);
    let mut x = if w > 0.3 { cube } else { small };
    let (mut low, mut high) = (0.0, f64::INFINITY);
    for _ in 0..100 {
        let f = gamma_p(shape, x) - p;
        if f > 0.0 {
            high = x;
        } else {
            low = x;
        }
        let density = libm::exp((shape - 1.0) * libm::log(x) - x - ln_gamma(shape));
        let mut next = x - f / density;
        if !(next > low && next < high) {
            next = if high.is_finite() { 0.5 * (low + high) } else { 2.0 * x };
        }
        if (next - x).abs() <= 1e-13 * x {
            return next;
        }
        x = next;
    }
    x
}

/// Beta distribution function I_x(a, b).
pub fn beta_cdf(x: f64, a: f64, b: f64) -> f64 {
    if x <= 0.0 {
        0.0
    } else if x >= 1.0 {
        1.0
    } else {
        beta_reg(a, b, x)
    }
}

/// Beta quantile; p in (0, 1).
pub fn beta_quantile(p: f64, a: f64, b: f64) -> f64 {
    root(|x| beta_cdf(x, a, b) - p, 0.0, 1.0)
}

/// Binomial distribution function P(X ≤ k) of n trials with success share p.
pub fn binomial_cdf(k: i64, n: u64, p: f64) -> f64 {
    if k < 0 {
        0.0
    } else if k as u64 >= n {
        1.0
    } else {
        1.0 - beta_cdf(p, k as f64 + 1.0, n as f64 - k as f64)
    }
}

/// One-sided normal tolerance factor: mean + k·sd covers `share` of the population with
/// `confidence`. Solves E over s of Φ(√n·(k·s − z)) = confidence, where s² is χ²(n−1)/(n−1):
/// the same number as the quantile of the noncentral t divided by √n. n ≥ 2.
pub fn tolerance_factor(n: usize, share: f64, confidence: f64) -> f64 {
    let z = normal_quantile(share);
    let root_n = libm::sqrt(n as f64);
    let grid = chi_grid(n as f64 - 1.0);
    let reached = |k: f64| grid.iter().map(|(s, w)| w * normal_cdf(root_n * (k * s - z))).sum::<f64>() - confidence;
    let (mut low, mut high) = (z - 2.0, z + 2.0);
    while reached(high) < 0.0 && high < 1e9 {
        high *= 2.0;
    }
    while reached(low) > 0.0 && low > -1e9 {
        low = 2.0 * low - 1.0;
    }
    root(reached, low, high)
}

/// Nodes s and weights of the density of √(χ²ν/ν): trapezoid in ln s, which converges
/// geometrically for an integrand that dies away at both ends.
fn chi_grid(dof: f64) -> Vec<(f64, f64)> {
    let nodes = 2000;
    // ln s spreads as 1/√(2ν); for small ν the lower tail in ln s is long (slope ν).
    let low = -(12.0 / libm::sqrt(2.0 * dof) + 40.0 / dof);
    let high = 12.0 / libm::sqrt(2.0 * dof);
    let h = (high - low) / f64::from(nodes);
    let half = 0.5 * dof;
    let norm = std::f64::consts::LN_2 + half * libm::log(half) - ln_gamma(half);
    (0..=nodes)
        .map(|i| {
            let t = low + h * f64::from(i);
            let s = libm::exp(t);
            (s, h * libm::exp(norm + dof * t - half * s * s))
        })
        .collect()
}

/// Root of a function that rises (or falls) through zero between `a` and `b`: regula falsi with
/// the Illinois rule, bisection where it stalls; 200 steps at most, to rounding.
pub fn root(mut f: impl FnMut(f64) -> f64, mut a: f64, mut b: f64) -> f64 {
    let (mut fa, mut fb) = (f(a), f(b));
    if fa == 0.0 {
        return a;
    }
    if fb == 0.0 || fa.signum() == fb.signum() {
        return b;
    }
    let mut side = 0;
    for step in 0..200 {
        let mut m = (a * fb - b * fa) / (fb - fa);
        if step % 3 == 2 || !(m > a.min(b) && m < a.max(b)) {
            m = 0.5 * (a + b);
        }
        let fm = f(m);
        if fm == 0.0 || (b - a).abs() <= 4.0 * f64::EPSILON * m.abs().max(f64::MIN_POSITIVE) {
            return m;
        }
        if fm.signum() == fb.signum() {
            b = m;
            fb = fm;
            if side == -1 {
                fa *= 0.5;
            }
            side = -1;
        } else {
            a = m;
            fa = fm;
            if side == 1 {
                fb *= 0.5;
            }
            side = 1;
        }
    }
    0.5 * (a + b)
}
