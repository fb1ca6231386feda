//! The calibration line of one analyte with every shared source kept.
//!
//! ```text
//! y = a + b·x,  weights 1/u²,  b = Σ w(x − x̄)y / Σ w(x − x̄)²,  a = ȳ − b·x̄
//! ```
//!
//! a and b are linear in the responses, so their sensitivities are exact; errors of assigned
//! values enter as −b·δx. The weights come from counting statistics at the line itself (not at what each point
//! happened to count, which pulls the line to the low ones), scaled to the replicates of the whole run.
//! Where the points scatter beyond their u (χ² test at 5 %) their own u is widened by the Birge
//! ratio √(χ²/ν). Source: weighted least squares as in JCGM 100 H.3 with weights; the Birge
//! ratio is common practice in the adjustment of constants.

use super::error::Error;
use super::recipe::Intercept;
use super::result::{Analyte, CalibrationLine, LinePoint};
use super::sources::add_scaled;

/// A point before the fit.
#[derive(Debug, Clone)]
pub(super) struct Point {
    pub vial: usize,
    pub x: f64,
    pub y: f64,
    /// Variance of y that its weight is made of.
    pub variance: f64,
    /// u(x), stock and dilution together.
    pub u_x: f64,
    /// Sources of u(x) with the part of each: the stock, which standards share, and the standard's own dilution.
    pub sources_x: [Option<(usize, f64)>; 2],
}

/// The fitted line with its rows.
#[derive(Debug, Clone)]
pub(super) struct Fitted {
    pub line: CalibrationLine,
    pub row_a: Vec<f64>,
    pub row_b: Vec<f64>,
}

/// ∂a/∂y and ∂b/∂y of each point, after a and b themselves.
struct Linear {
    a: f64,
    b: f64,
    da: Vec<f64>,
    db: Vec<f64>,
    parameters: usize,
}

/// Level of the χ² test over which the points' own u is widened.
// Common practice.
pub(super) const LACK_OF_FIT: f64 = 0.05;

/// Steps of the weights; each brings two digits or so, and counts of one or two may take more.
const STEPS: usize = 100;

/// Fits the line. `variance(point, y)` is the variance of a point where the line stands at y: with weights of counting
/// alone the steps lead to the maximum of the Poisson likelihood (iteratively reweighted least squares, McCullagh &
/// Nelder 1989, from memory). `row(vial)` gives a vial's sensitivities; `own` are the sources that belong to
/// a single point and are widened with it.
pub(super) fn fit(
    mut points: Vec<Point>,
    intercept: Intercept,
    variance: &dyn Fn(&Point, f64) -> f64,
    names: &dyn Fn(usize) -> (u32, String),
    row: &dyn Fn(usize) -> Vec<f64>,
    own: &[bool],
    analyte: &Analyte,
) -> Result<Fitted, Error> {
    refuse_singular(&points, analyte)?;
    let weights = |points: &[Point], slope: f64| -> Vec<f64> {
        points.iter().map(|p| 1.0 / (p.variance + (slope * p.u_x).powi(2))).collect()
    };
    let mut l = solve(&points, &weights(&points, 0.0), intercept);
    let mut w = weights(&points, l.b);
    for _ in 0..STEPS {
        if l.b <= 0.0 || !l.b.is_finite() {
            return Err(Error::FallingLine { analyte: analyte.to_string(), slope: l.b });
        }
        for p in &mut points {
            p.variance = variance(p, l.a + l.b * p.x);
        }
        w = weights(&points, l.b);
        let next = solve(&points, &w, intercept);
        let top = points.iter().map(|p| p.x).fold(0.0, f64::max);
        let moved = (next.a - l.a).abs() + (next.b - l.b).abs() * top;
        l = next;
        if moved <= 1e-12 * l.b.abs() * top {
            break;
        }
    }
    if l.b <= 0.0 || !l.b.is_finite() {
        return Err(Error::FallingLine { analyte: analyte.to_string(), slope: l.b });
    }
    let points = points;
    let chi_squared: f64 = points.iter().zip(&w).map(|(p, w)| w * (p.y - l.a - l.b * p.x).powi(2)).sum();
    let dof = points.len().saturating_sub(l.parameters);
    let p_value = if dof > 0 { statistics::chi2::sf(chi_squared, dof as f64) } else { 1.0 };
    let widened = if p_value < LACK_OF_FIT { (chi_squared / dof as f64).sqrt() } else { 1.0 };
    let (row_a, row_b) = rows(&points, &l, row, own, widened);
    let dot = |x: &[f64], y: &[f64]| x.iter().zip(y).map(|(a, b)| a * b).sum::<f64>();
    let line = CalibrationLine {
        intercept: l.a,
        slope: l.b,
        u_intercept: dot(&row_a, &row_a).sqrt(),
        u_slope: dot(&row_b, &row_b).sqrt(),
        covariance: dot(&row_a, &row_b),
        chi_squared,
        dof,
        p_lack_of_fit: p_value,
        widened,
        points: points
            .iter()
            .map(|p| {
                let (position, vial) = names(p.vial);
                LinePoint {
                    position,
                    vial,
                    x: p.x,
                    y: p.y,
                    u: (p.variance + (l.b * p.u_x).powi(2)).sqrt(),
                    residual: p.y - l.a - l.b * p.x,
                }
            })
            .collect(),
    };
    Ok(Fitted { line, row_a, row_b })
}

fn rows(
    points: &[Point],
    l: &Linear,
    row: &dyn Fn(usize) -> Vec<f64>,
    own: &[bool],
    widened: f64,
) -> (Vec<f64>, Vec<f64>) {
    let mut row_a = vec![0.0; own.len()];
    let mut row_b = vec![0.0; own.len()];
    for (i, p) in points.iter().enumerate() {
        let mut r = row(p.vial);
        for (s, u) in p.sources_x.iter().flatten() {
            r[*s] -= l.b * u;
        }
        add_scaled(&mut row_a, l.da[i], &r);
        add_scaled(&mut row_b, l.db[i], &r);
    }
    for (j, own) in own.iter().enumerate() {
        if *own {
            row_a[j] *= widened;
            row_b[j] *= widened;
        }
    }
    (row_a, row_b)
}

fn refuse_singular(points: &[Point], analyte: &Analyte) -> Result<(), Error> {
    let mut x: Vec<f64> = points.iter().map(|p| p.x).filter(|x| *x > 0.0).collect();
    x.sort_by(f64::total_cmp);
    let repeated = x.first() == x.last();
    if repeated {
        return Err(Error::OneLevel { analyte: analyte.to_string(), standards: x.len() });
    }
    Ok(())
}

fn solve(points: &[Point], w: &[f64], intercept: Intercept) -> Linear {
    let n = points.len();
    match intercept {
        Intercept::Free => {
            let sum_w: f64 = w.iter().sum();
            let mean_x = points.iter().zip(w).map(|(p, w)| w * p.x).sum::<f64>() / sum_w;
            let sxx: f64 = points.iter().zip(w).map(|(p, w)| w * (p.x - mean_x).powi(2)).sum();
            let db: Vec<f64> = points.iter().zip(w).map(|(p, w)| w * (p.x - mean_x) / sxx).collect();
            let da: Vec<f64> = (0..n).map(|i| w[i] / sum_w - mean_x * db[i]).collect();
            linear(points, da, db, 2)
        }
        Intercept::Zero => {
            let sxx: f64 = points.iter().zip(w).map(|(p, w)| w * p.x * p.x).sum();
            let db = points.iter().zip(w).map(|(p, w)| w * p.x / sxx).collect();
            linear(points, vec![0.0; n], db, 1)
        }
        Intercept::Blank => {
            let blanks = points.iter().filter(|p| p.x == 0.0).count() as f64;
            let da: Vec<f64> = points.iter().map(|p| if p.x == 0.0 { 1.0 / blanks } else { 0.0 }).collect();
            let sxx: f64 = points.iter().zip(w).map(|(p, w)| w * p.x * p.x).sum();
            let sx: f64 = points.iter().zip(w).map(|(p, w)| w * p.x).sum();
            let db = (0..n).map(|i| (w[i] * points[i].x - sx * da[i]) / sxx).collect();
            linear(points, da, db, 2)
        }
    }
}

fn linear(points: &[Point], da: Vec<f64>, db: Vec<f64>, parameters: usize) -> Linear {
    let dot = |d: &[f64]| points.iter().zip(d).map(|(p, d)| d * p.y).sum();
    Linear { a: dot(&da), b: dot(&db), da, db, parameters }
}
