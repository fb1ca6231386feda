//! The few quantiles that this crate needs: Student's t, the normal law, exact bounds of a
//! Poisson count and of a binomial share.
//!
//! In: degrees of freedom (any positive number, infinite allowed), counts. Out: plain numbers.
//! Methods: Student's t and normal by inverse incomplete beta and error function; the Poisson
//! bound solves Q(n + 1, λ) = α, the regularised incomplete gamma function (Garwood 1936,
//! Biometrika 28:437), by Newton steps. Valid for probabilities in (0, 1). Checked against
//! scipy in `tests/validation_air.rs`.

use statrs::distribution::{Beta, ContinuousCDF, Normal, StudentsT};
use statrs::function::gamma::{gamma_ur, ln_gamma};

/// Quantile of the standard normal law.
pub fn normal_quantile(p: f64) -> f64 {
    Normal::standard().inverse_cdf(p)
}

/// Probability that a standard normal value lies at or below `z`.
pub fn normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z / std::f64::consts::SQRT_2)
}

/// Quantile of Student's t with `dof` degrees of freedom; the normal law where `dof` is infinite.
///
/// # Panics
/// When `dof` is not positive or `p` not inside (0, 1).
pub fn t_quantile(p: f64, dof: f64) -> f64 {
    assert!(dof > 0.0 && p > 0.0 && p < 1.0, "dof > 0 and 0 < p < 1");
    if dof > 200.0 {
        return t_quantile_many(normal_quantile(p), dof);
    }
    StudentsT::new(0.0, 1.0, dof).expect("dof is positive").inverse_cdf(p)
}

/// Student's t from the normal quantile z by the expansion in 1/dof; error below 1e-11 above 200.
// Abramowitz & Stegun 1964, 26.7.5; coefficients from memory, checked against scipy.
fn t_quantile_many(z: f64, dof: f64) -> f64 {
    let z2 = z * z;
    let g1 = (z2 + 1.0) * z / 4.0;
    let g2 = ((5.0 * z2 + 16.0) * z2 + 3.0) * z / 96.0;
    let g3 = (((3.0 * z2 + 19.0) * z2 + 17.0) * z2 - 15.0) * z / 384.0;
    let g4 = ((((79.0 * z2 + 776.0) * z2 + 1482.0) * z2 - 1920.0) * z2 - 945.0) * z / 92160.0;
    z + (g1 + (g2 + (g3 + g4 / dof) / dof) / dof) / dof
}

/// Upper bound of a Poisson mean after `count` events: the mean at which so few or fewer events
/// come up with probability 1 − `confidence`. Exact; −ln(1 − confidence) after zero events.
pub fn poisson_upper(count: u64, confidence: f64) -> f64 {
    poisson_solve(count as f64 + 1.0, 1.0 - confidence)
}

/// Lower bound of a Poisson mean after `count` events (0 after none), one-sided.
pub fn poisson_lower(count: u64, confidence: f64) -> f64 {
    if count == 0 { 0.0 } else { poisson_solve(count as f64, confidence) }
}

/// Solves Q(a, x) = `upper_tail` for x.
fn poisson_solve(a: f64, upper_tail: f64) -> f64 {
    // Exact for one event: Q(1, x) = exp(−x).
    if a == 1.0 {
        return -libm::log(upper_tail);
    }
    // Wilson & Hilferty 1931, Proc. Natl. Acad. Sci. 17:684: the cube root of a gamma variate is nearly normal.
    let z = normal_quantile(1.0 - upper_tail);
    let h = 1.0 / (9.0 * a);
    let mut x = a * (1.0 - h + z * h.sqrt()).powi(3).max(1e-3);
    // Above this the start is right to 1e-9 and the series of Q grows long.
    if a > 1e5 {
        return x;
    }
    for _ in 0..50 {
        let density = libm::exp((a - 1.0) * libm::log(x) - x - ln_gamma(a));
        let step = (gamma_ur(a, x) - upper_tail) / density;
        let next = (x + step).max(0.5 * x);
        if (next - x).abs() <= 1e-13 * x {
            return next;
        }
        x = next;
    }
    x
}

/// Two-sided exact interval of a binomial share (Clopper & Pearson 1934, Biometrika 26:404).
pub fn binomial_interval(successes: u64, trials: u64, confidence: f64) -> (f64, f64) {
    let (k, n) = (successes as f64, trials as f64);
    let tail = 0.5 * (1.0 - confidence);
    let q = |a: f64, b: f64, p: f64| Beta::new(a, b).expect("both shapes are positive").inverse_cdf(p);
    let low = if successes == 0 { 0.0 } else { q(k, n - k + 1.0, tail) };
    let high = if successes == trials { 1.0 } else { q(k + 1.0, n - k, 1.0 - tail) };
    (low, high)
}

/// Mean and sample standard deviation (n − 1); the deviation is 0 for a single value.
pub fn mean_sd(values: &[f64]) -> (f64, f64) {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    if values.len() < 2 {
        return (mean, 0.0);
    }
    let ss: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
    (mean, (ss / (n - 1.0)).sqrt())
}

/// Nodes and weights of Gauss and Legendre, 10 points, positive half.
// Abramowitz & Stegun 1964, table 25.4; recomputed with numpy 2.4.6, numpy.polynomial.legendre.leggauss(10).
const GAUSS: [(f64, f64); 5] = [
    (0.14887433898163122, 0.2955242247147528),
    (0.4333953941292472, 0.2692667193099965),
    (0.6794095682990244, 0.219086362515982),
    (0.8650633666889845, 0.1494513491505804),
    (0.9739065285171717, 0.06667134430868814),
];

/// P(T ≤ t) of the non-central t law with `dof` degrees of freedom and non-centrality `delta`: the
/// mean of Φ(t·s − δ) over s, the root of a chi-square over its degrees of freedom, by Gauss–Legendre
/// panels; to about 1e-10.
pub fn noncentral_t_cdf(t: f64, dof: f64, delta: f64) -> f64 {
    mean_over_spread(dof, 12, |s| normal_cdf(t * s - delta)).clamp(0.0, 1.0)
}

/// Mean of a function over s, an estimated standard deviation over the true one: the root of a chi-square
/// over its degrees of freedom. Gauss–Legendre, ten points a panel; twelve panels give ten digits of a smooth
/// function, four give six.
pub fn mean_over_spread(dof: f64, panels: u32, f: impl Fn(f64) -> f64) -> f64 {
    if dof > 1e6 {
        return f(1.0);
    }
    let ln_density = |s: f64| (dof - 1.0) * libm::log(s) - 0.5 * dof * s * s;
    let ln_norm = std::f64::consts::LN_2 + 0.5 * dof * libm::log(0.5 * dof) - ln_gamma(0.5 * dof);
    // s has mean near 1 and standard deviation near 1/√(2·dof); eight of them hold all but 1e-15.
    let sd = 1.0 / (2.0 * dof).sqrt();
    let (low, high) = ((1.0 - 8.0 * sd).max(0.0), 1.0 + 9.0 * sd);
    let half = 0.5 * (high - low) / f64::from(panels);
    let mut sum = 0.0;
    for p in 0..panels {
        let middle = low + half * (2.0 * f64::from(p) + 1.0);
        for (node, weight) in GAUSS {
            for s in [middle - half * node, middle + half * node] {
                sum += weight * libm::exp(ln_density(s) + ln_norm) * f(s);
            }
        }
    }
    sum * half
}

/// One-sided tolerance factor k: mean + k·s of n normal values lies above the share `content` of all
/// with probability `confidence` (the non-central t quantile over √n; Owen 1958, SCR-13).
///
/// # Panics
/// When n is under 2 or a probability outside (0, 1).
pub fn tolerance_factor(n: usize, content: f64, confidence: f64) -> f64 {
    assert!(n >= 2 && content > 0.0 && content < 1.0 && confidence > 0.0 && confidence < 1.0);
    let root = (n as f64).sqrt();
    let (dof, delta) = (n as f64 - 1.0, normal_quantile(content) * root);
    // For n = 2 and 99/99 the factor is 185; bisection needs only a bracket.
    let (mut low, mut high) = (-1e4, 1e4);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if noncentral_t_cdf(middle, dof, delta) < confidence {
            low = middle;
        } else {
            high = middle;
        }
        if high - low < 1e-11 * high.abs().max(1.0) {
            break;
        }
    }
    0.5 * (low + high) / root
}
