//! Lines and least squares against the NIST reference datasets and worked examples.
//!
//! NIST StRD (public domain): data and values in `tests/data/nist_strd_*.csv`. The certified
//! values were recomputed in exact rational arithmetic from the data and agree with every printed
//! digit of those that could be seen; the data came through public test collections that quote
//! NIST, the certified pages themselves were not read.

#![allow(clippy::float_cmp)] // whole numbers come out whole

use measurement::error::Error;
use measurement::least_squares::{fit_columns, fit_polynomial};
use measurement::line::{Intercept, Line, Options, Points, Scale};
use proptest::prelude::*;

fn data(set: &str) -> (Vec<f64>, Vec<f64>) {
    let mut t =
        csv::ReaderBuilder::new().flexible(true).from_path("tests/data/nist_strd_linear.csv").expect("the data");
    let rows = t.records().map(|r| r.expect("a row"));
    rows.filter(|r| &r[0] == set)
        .map(|r| {
            let n = |i: usize| r[i].parse::<f64>().expect("a number");
            (n(3), n(2))
        })
        .unzip()
}

/// (estimate, its standard deviation or NaN)
fn certified(set: &str, parameter: &str) -> (f64, f64) {
    let mut t = csv::Reader::from_path("tests/data/nist_strd_linear_certified.csv").expect("the values");
    let r = t.records().map(|r| r.expect("a row")).find(|r| &r[0] == set && &r[2] == parameter).expect("the parameter");
    (r[3].parse().expect("a number"), r[4].parse().unwrap_or(f64::NAN))
}

/// Twelve digits are asked for: nine are needed, f64 has sixteen.
fn digits(got: f64, want: f64) {
    let error = if want == 0.0 { got.abs() } else { ((got - want) / want).abs() };
    assert!(error < 1e-12, "{got:e} against {want:e}: {error:e}");
}

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

#[test]
fn norris_to_twelve_digits() {
    let (x, y) = data("norris");
    let p = Points { x: &x, y: &y, u_y: None };
    let line = Line::fit(&p, &Options::default()).expect("a line");
    digits(line.intercept, certified("norris", "B0").0);
    digits(line.u_intercept, certified("norris", "B0").1);
    digits(line.slope, certified("norris", "B1").0);
    digits(line.u_slope, certified("norris", "B1").1);
    digits(line.residual_sd.expect("sd"), certified("norris", "residual_sd").0);
    digits(line.r2, certified("norris", "R2").0);
}

#[test]
fn no_intercept_to_twelve_digits() {
    let (x, y) = data("noint1");
    let p = Points { x: &x, y: &y, u_y: None };
    let options = Options { intercept: Intercept::Zero, ..Options::default() };
    let line = Line::fit(&p, &options).expect("a line");
    digits(line.slope, certified("noint1", "B1").0);
    digits(line.u_slope, certified("noint1", "B1").1);
    digits(line.residual_sd.expect("sd"), certified("noint1", "residual_sd").0);
    digits(line.r2, certified("noint1", "R2").0);
    let by_columns = fit_columns(&[x], &y, false).expect("a fit");
    digits(by_columns.coefficients[0], line.slope);
    digits(by_columns.u[0], line.u_slope);
    digits(by_columns.r2, line.r2);
}

#[test]
fn wampler_polynomials_to_twelve_digits() {
    for set in ["wampler1", "wampler2", "wampler3"] {
        let (x, y) = data(set);
        let fit = fit_polynomial(&x, &y, 5).expect("a fit");
        for k in 0..=5 {
            let (b, u) = certified(set, &format!("B{k}"));
            digits(fit.coefficients[k], b);
            if u > 0.0 {
                digits(fit.u[k], u);
            } else {
                // y of wampler2 is rounded to f64: its residuals are some 1e-16, not 0.
                assert!(fit.u[k] < 1e-12, "u = {}", fit.u[k]);
            }
        }
        digits(fit.r2, certified(set, "R2").0);
    }
}

/// Longley-like trouble: two columns that differ by one part in 1e12 are still separated; equal
/// ones are refused.
#[test]
fn dependent_columns_are_refused() {
    let x = vec![1.0, 2.0, 3.0, 4.0, 5.0];
    let y = vec![1.0, 3.0, 2.0, 5.0, 4.0];
    assert!(matches!(fit_columns(&[x.clone(), x.clone()], &y, true), Err(Error::Singular { column: 2 })));
    let mut near_x = x.clone();
    near_x[0] += 1e-12;
    assert!(fit_columns(&[x, near_x], &y, true).is_ok());
}

/// JCGM 100 H.3 (thermometer; data and results as quoted by a public library's documentation).
#[test]
fn gum_h3_thermometer() {
    let t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
    let b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
    let x: Vec<f64> = t.iter().map(|t| t - 20.0).collect();
    let p = Points { x: &x, y: &b, u_y: None };
    let line = Line::fit(&p, &Options::default()).expect("a line");
    // Half a unit of the last printed digit.
    near(line.intercept, -0.1712, 5e-5);
    near(line.u_intercept, 0.0029, 5e-5);
    near(line.slope, 0.00218, 5e-6);
    near(line.u_slope, 0.00067, 5e-6);
    near(line.correlation(), -0.930, 5e-4);
    near(line.chi2, 0.000_110_096_583_109, 5e-16);
    let at30 = line.at(10.0);
    near(at30.value, -0.1494, 5e-5);
    near(at30.u, 0.0041, 5e-5);
    assert_eq!(line.dof, 9.0);
}

/// Eurachem/CITAC guide, example A5 (cadmium; quoted by a public library's documentation).
#[test]
fn eurachem_a5_calibration() {
    let x = [0.1, 0.1, 0.1, 0.3, 0.3, 0.3, 0.5, 0.5, 0.5, 0.7, 0.7, 0.7, 0.9, 0.9, 0.9];
    let y = [0.028, 0.029, 0.029, 0.084, 0.083, 0.081, 0.135, 0.131, 0.133, 0.180, 0.181, 0.183, 0.215, 0.230, 0.216];
    let p = Points { x: &x, y: &y, u_y: None };
    let line = Line::fit(&p, &Options::default()).expect("a line");
    near(line.intercept, 0.0087, 5e-5);
    near(line.u_intercept, 0.0029, 5e-5);
    near(line.slope, 0.2410, 5e-5);
    near(line.u_slope, 0.0050, 5e-5);
    // Printed cut off, not rounded: one unit of the last digit.
    near(line.correlation(), -0.87038, 1e-5);
    let c0 = line.read_mean(f64::midpoint(0.0712, 0.0716), 2).expect("a reading");
    near(c0.value, 0.260, 5e-4);
    near(c0.u, 0.018, 5e-4);
    let fit = line.lack_of_fit(&p).expect("replicates at each level");
    assert_eq!((fit.dof_fit, fit.dof_error), (3, 10));
    // scipy 1.17.1: F and stats.f.sf of the same sums.
    near(fit.f, 4.885154061625, 1e-9);
    near(fit.p, 0.024153056347, 1e-9);
}

/// Miller & Miller, fluorescein (from memory, recomputed): reading with 95 % limits.
#[test]
fn miller_unweighted_line() {
    let x = [0.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0];
    let y = [2.1, 5.0, 9.0, 12.6, 17.3, 21.0, 24.7];
    let p = Points { x: &x, y: &y, u_y: None };
    let line = Line::fit(&p, &Options::default()).expect("a line");
    near(line.slope, 1.93, 5e-3);
    near(line.intercept, 1.52, 5e-3);
    near(line.r2.sqrt(), 0.9989, 5e-5);
    // The book works with rounded sums: one unit of the last digit.
    near(line.residual_sd.expect("sd"), 0.4329, 1e-4);
    near(line.u_slope, 0.0409, 5e-5);
    near(line.u_intercept, 0.2949, 5e-5);
    let t = statistics::t::quantile(0.975, 5.0);
    for (y0, x0, limit) in [(2.9, 0.72, 0.68), (13.5, 6.21, 0.62), (23.0, 11.13, 0.68)] {
        let r = line.read_mean(y0, 1).expect("a reading");
        near(r.value, x0, 5e-3);
        near(t * r.u, limit, 6e-3);
    }
}

/// Miller & Miller, weighted (from memory, recomputed).
#[test]
fn miller_weighted_line() {
    let x = [0.0, 2.0, 4.0, 6.0, 8.0, 10.0];
    let y = [0.009, 0.158, 0.301, 0.472, 0.577, 0.739];
    let sd = [0.001, 0.004, 0.010, 0.013, 0.017, 0.022];
    let p = Points { x: &x, y: &y, u_y: Some(&sd) };
    let line = Line::fit(&p, &Options::default()).expect("a line");
    near(line.slope, 0.0738, 5e-5);
    near(line.intercept, 0.0091, 5e-5);
    near(line.read(0.1, 0.0).expect("a reading").value, 1.23, 5e-3);
    near(line.read(0.6, 0.0).expect("a reading").value, 8.01, 6e-3);
    // Scaled by the scatter instead: same line, u multiplied by the residual sd.
    let scaled = Line::fit(&p, &Options { scale: Scale::Residuals, ..Options::default() }).expect("a line");
    let s = line.residual_sd.expect("sd");
    near(scaled.u_slope / line.u_slope, s, 1e-12);
    assert!(line.dof.is_infinite());
    assert_eq!(scaled.dof, 4.0);
}

/// The covariance of two readings of one line, by numerical propagation.
#[test]
fn readings_of_one_line_are_correlated() {
    let p = Points {
        x: &[0.0, 1.0, 2.0, 5.0, 10.0],
        y: &[3.0, 104.0, 198.0, 507.0, 1002.0],
        u_y: Some(&[2.0, 3.0, 4.0, 6.0, 9.0]),
    };
    let line = Line::fit(&p, &Options::default()).expect("a line");
    let (r1, r2) = (line.read(50.0, 0.0).expect("a reading"), line.read(700.0, 0.0).expect("a reading"));
    let direct = r1.d_intercept * r2.d_intercept * line.u_intercept.powi(2)
        + r1.d_slope * r2.d_slope * line.u_slope.powi(2)
        + (r1.d_intercept * r2.d_slope + r1.d_slope * r2.d_intercept) * line.covariance;
    near(line.shared_covariance(r1.value, r2.value), direct, 1e-15);
    near(line.shared_covariance(r1.value, r1.value).sqrt(), r1.u_line, 1e-15);
}

#[test]
fn lines_that_cannot_be_are_refused_by_name() {
    let fit = |x: &[f64], y: &[f64], u: Option<&[f64]>| {
        Line::fit(&Points { x, y, u_y: u }, &Options::default()).map(|l| l.slope)
    };
    assert_eq!(fit(&[5.0, 5.0, 5.0], &[1.0, 2.0, 3.0], None), Err(Error::OneLevel { x: 5.0, n: 3 }));
    assert!(matches!(fit(&[5.0], &[1.0], Some(&[0.1])), Err(Error::TooFew { needed: 2, .. })));
    assert!(matches!(fit(&[1.0, 2.0], &[1.0, 2.0], None), Err(Error::TooFew { needed: 3, .. })));
    assert!(matches!(fit(&[1.0, f64::NAN, 3.0], &[1.0, 2.0, 3.0], None), Err(Error::NotFinite { index: 1, .. })));
    assert!(matches!(fit(&[1.0, 2.0], &[1.0, 2.0], Some(&[0.1, 0.0])), Err(Error::OutOfRange { .. })));
    assert!(matches!(fit(&[1.0, 2.0, 3.0], &[1.0, 2.0], None), Err(Error::Length { .. })));
    let flat = Line::fit(&Points { x: &[1.0, 2.0, 3.0], y: &[4.0, 4.0, 4.0], u_y: None }, &Options::default())
        .expect("a flat line is a line");
    assert!(matches!(flat.read(4.0, 0.1), Err(Error::FlatLine { .. })));
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * (a.abs() + b.abs()) + 1e-12
}

proptest! {
    /// The order of the points does not matter; other units change the line as they should; a
    /// constant on all signals moves the intercept alone.
    #[test]
    fn a_line_keeps_its_laws(
        points in prop::collection::vec((0.0..100.0_f64, -50.0..50.0_f64, 0.1..5.0_f64), 4..12),
        kx in 0.01..100.0_f64,
        ky in 0.01..100.0_f64,
        shift in -100.0..100.0_f64,
    ) {
        let fit = |map: &dyn Fn((f64, f64, f64)) -> (f64, f64, f64), reverse: bool| {
            let mut p: Vec<_> = points.iter().map(|p| map(*p)).collect();
            if reverse {
                p.reverse();
            }
            let (x, (y, u)): (Vec<f64>, (Vec<f64>, Vec<f64>)) = p.into_iter().map(|(x, y, u)| (x, (y, u))).unzip();
            Line::fit(&Points { x: &x, y: &y, u_y: Some(&u) }, &Options::default()).expect("a line")
        };
        let base = fit(&|p| p, false);
        let reversed = fit(&|p| p, true);
        prop_assert!(close(base.slope, reversed.slope) && close(base.covariance, reversed.covariance));
        let scaled = fit(&|(x, y, u)| (kx * x, ky * y, ky * u), false);
        prop_assert!(close(scaled.slope, base.slope * ky / kx));
        prop_assert!(close(scaled.u_slope, base.u_slope * ky / kx));
        prop_assert!(close(scaled.u_intercept, base.u_intercept * ky));
        prop_assert!(close(scaled.r2, base.r2));
        let moved = fit(&|(x, y, u)| (x, y + shift, u), false);
        prop_assert!((moved.slope - base.slope).abs() < 1e-9 * (1.0 + base.slope.abs()));
        prop_assert!((moved.intercept - base.intercept - shift).abs() < 1e-7);
        prop_assert!(close(moved.u_intercept, base.u_intercept));
        // Reading a point of the line back gives its x.
        if base.slope.abs() > 1e-3 {
            let y = base.at(42.0).value;
            prop_assert!((base.read(y, 0.0).expect("a reading").value - 42.0).abs() < 1e-7);
        }
    }

    /// Any numbers give a finite line or a refusal.
    #[test]
    fn no_numbers_give_a_line_of_nothing(
        x in prop::collection::vec(prop::num::f64::ANY, 3..6),
        y in prop::collection::vec(prop::num::f64::ANY, 3..6),
    ) {
        let n = x.len().min(y.len());
        let p = Points { x: &x[..n], y: &y[..n], u_y: None };
        if let Ok(l) = Line::fit(&p, &Options::default()) {
            prop_assert!(l.slope.is_finite() && l.intercept.is_finite());
        }
    }
}

/// Points on a line to the last bit have no scatter: u of 0 means that nothing is known of the noise, and is said.
#[test]
fn exact_points_say_that_the_noise_is_not_known() {
    let line = measurement::CALCULATIONS.iter().find(|c| c.name == "line").expect("listed");
    let warned = |input: serde_json::Value| {
        let answer = (line.run)(&input).expect("an answer");
        answer["warnings"].to_string().contains("the noise is not known")
    };
    assert!(warned(serde_json::json!({ "x": [0, 1, 2, 3], "y": [1, 3, 5, 7], "new_y": [4] })));
    // 0.1·x is no binary number: the residuals are rounding alone.
    assert!(warned(serde_json::json!({ "x": [1, 2, 3, 7], "y": [0.1, 0.2, 0.3, 0.7] })));
    assert!(!warned(serde_json::json!({ "x": [0, 1, 2, 3], "y": [1, 3, 5, 7.001] })));
    assert!(!warned(serde_json::json!({ "x": [0, 1, 2, 3], "y": [1, 3, 5, 7], "u_y": [0.1, 0.1, 0.1, 0.1] })));
}
