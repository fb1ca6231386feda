//! The straight line that this crate needs.
//!
//! In: points of a line in any unit. Out: plain numbers in the same units. Unweighted
//! least squares; means, probabilities and quantiles come from `distribution`. Checked against scipy in
//! `tests/validation_well.rs`.

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
