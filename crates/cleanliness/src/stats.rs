//! The mean of a function over an estimated standard deviation.
//!
//! In and out: plain numbers, in the caller's units. Method: Gauss–Legendre panels over the density
//! of the root of a chi-square over its degrees of freedom. Means of values, probabilities and
//! quantiles come from `distribution`. Checked in `tests/validation_plan.rs` through the chance that a plan decides.

/// Nodes and weights of Gauss and Legendre, 10 points, positive half.
// Abramowitz & Stegun 1964, table 25.4; recomputed with numpy 2.4.6, numpy.polynomial.legendre.leggauss(10).
const GAUSS: [(f64, f64); 5] = [
    (0.14887433898163122, 0.2955242247147528),
    (0.4333953941292472, 0.2692667193099965),
    (0.6794095682990244, 0.219086362515982),
    (0.8650633666889845, 0.1494513491505804),
    (0.9739065285171717, 0.06667134430868814),
];

/// Mean of a function over s, an estimated standard deviation over the true one: the root of a chi-square
/// over its degrees of freedom. Gauss–Legendre, ten points a panel; twelve panels give ten digits of a smooth
/// function, four give six.
pub fn mean_over_spread(dof: f64, panels: u32, f: impl Fn(f64) -> f64) -> f64 {
    if dof > 1e6 {
        return f(1.0);
    }
    let ln_density = |s: f64| (dof - 1.0) * libm::log(s) - 0.5 * dof * s * s;
    let ln_norm = std::f64::consts::LN_2 + 0.5 * dof * libm::log(0.5 * dof) - libm::lgamma(0.5 * dof);
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
