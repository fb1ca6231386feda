//! The few quantiles and the straight line that this crate needs.
//!
//! In: degrees of freedom (any positive number, infinite allowed), points of a line. Out: plain
//! numbers. Student's t by the inverse incomplete beta function, above 200 degrees of freedom by
//! its expansion about the normal law (Abramowitz & Stegun 1964, 26.7.5). Checked against scipy in
//! `tests/validation_well.rs`.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

/// Quantile of the standard normal law.
pub fn normal_quantile(p: f64) -> f64 {
    Normal::standard().inverse_cdf(p)
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

/// Two-sided p of a t statistic.
pub fn t_two_sided_p(t: f64, dof: f64) -> f64 {
    let cdf = if dof > 1e7 {
        Normal::standard().cdf(-t.abs())
    } else {
        StudentsT::new(0.0, 1.0, dof).expect("dof is positive").cdf(-t.abs())
    };
    2.0 * cdf
}

/// A least-squares straight line, y = intercept + slope·x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Slope.
    pub slope: f64,
    /// Value at x = 0.
    pub intercept: f64,
    /// Standard uncertainty of the slope.
    pub u_slope: f64,
    /// Standard uncertainty of the intercept.
    pub u_intercept: f64,
    /// Covariance of slope and intercept.
    pub covariance: f64,
    /// Residual standard deviation; 0 for two points.
    pub residual_sd: f64,
    /// n − 2.
    pub dof: f64,
}

/// The unweighted least-squares line through at least two points with different x; None otherwise.
pub fn line(x: &[f64], y: &[f64]) -> Option<Line> {
    let n = x.len() as f64;
    if x.len() < 2 || x.len() != y.len() {
        return None;
    }
    let mx = x.iter().sum::<f64>() / n;
    let my = y.iter().sum::<f64>() / n;
    let sxx: f64 = x.iter().map(|v| (v - mx).powi(2)).sum();
    if sxx == 0.0 {
        return None;
    }
    let sxy: f64 = x.iter().zip(y).map(|(a, b)| (a - mx) * (b - my)).sum();
    let slope = sxy / sxx;
    let intercept = my - slope * mx;
    let ss: f64 = x.iter().zip(y).map(|(a, b)| (b - intercept - slope * a).powi(2)).sum();
    let dof = n - 2.0;
    let s2 = if dof > 0.0 { ss / dof } else { 0.0 };
    Some(Line {
        slope,
        intercept,
        u_slope: (s2 / sxx).sqrt(),
        u_intercept: (s2 * (1.0 / n + mx * mx / sxx)).sqrt(),
        covariance: -s2 * mx / sxx,
        residual_sd: s2.sqrt(),
        dof,
    })
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
