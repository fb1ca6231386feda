//! Lines through fills and flows: scipy's weighted fit, simulated coverage, bends both ways.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::lines::{Point, fills, flows, tested_line};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};

fn normal(rng: &mut ChaCha8Rng) -> f64 {
    let (a, b): (f64, f64) = (1.0 - rng.random::<f64>(), rng.random());
    (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
}

#[test]
fn the_weighted_line_agrees_with_numpy() {
    // numpy 2.4.6: polyfit(x, y, 1, w=1/u, cov='unscaled'); here the u explain the scatter, so none is added.
    let p = [(60.0, 68.0, 3.0), (125.0, 136.0, 4.0), (250.0, 258.0, 6.0), (250.0, 265.0, 6.0), (500.0, 511.0, 11.0)];
    let l = tested_line(&p).unwrap();
    for (got, want) in [
        (l.slope, NUMPY[0]),
        (l.intercept, NUMPY[1]),
        (l.u_slope, NUMPY[2]),
        (l.u_intercept, NUMPY[3]),
        (l.covariance, NUMPY[4]),
    ] {
        assert!((got / want - 1.0).abs() < 1e-9, "{got} {want}");
    }
    assert_eq!(l.beyond_u, 0.0);
    let (_, sentence) = fills(&p).unwrap();
    assert!(sentence.in_english().contains("the points lie on a line"), "{}", sentence.in_english());
}

/// Slope, intercept, their u, their covariance.
const NUMPY: [f64; 5] =
    [1.0116658156149634, 8.116225188416914, 0.02013673591156017, 3.4364751716023636, -0.05550443497540705];

#[test]
fn intervals_cover_with_scatter_beyond_u() {
    let mut rng = ChaCha8Rng::seed_from_u64(2);
    let (mut slope, mut intercept, mut bends) = (0, 0, 0);
    for _ in 0..4000 {
        let p: Vec<Point> = [60.0, 60.0, 125.0, 125.0, 250.0, 250.0, 500.0, 500.0]
            .into_iter()
            .map(|v: f64| {
                let u = (1.0 + (0.01 * v).powi(2)).sqrt();
                (v, v + 9.0 + u * normal(&mut rng) + 2.0 * normal(&mut rng), u)
            })
            .collect();
        let l = tested_line(&p).unwrap();
        slope += i32::from(l.slope_95.0 <= 1.0 && 1.0 <= l.slope_95.1);
        intercept += i32::from(l.intercept_95.0 <= 9.0 && 9.0 <= l.intercept_95.1);
        bends += i32::from(!l.is_a_line());
    }
    for covered in [slope, intercept] {
        let c = f64::from(covered) / 4000.0;
        assert!((0.93..=0.98).contains(&c), "{c}");
    }
    // A true line is called bent in about one of twenty; the u of a scatter estimated with five degrees of
    // freedom makes it rarer.
    let rate = f64::from(bends) / 4000.0;
    assert!((0.015..=0.065).contains(&rate), "{rate}");
}

#[test]
fn bends_both_ways_are_seen() {
    let flow = |f: &dyn Fn(f64) -> f64| -> Vec<Point> {
        [2.0, 4.0, 8.0, 16.0, 32.0].into_iter().map(|q| (q, f(q), 0.05)).collect()
    };
    let (l, sentence) = flows(&flow(&|q| 1.0 + 6.0 / q)).unwrap();
    assert!((l.intercept - 1.0).abs() < 1e-9 && (l.slope - 6.0).abs() < 1e-9 && l.is_a_line());
    assert!(sentence.in_english().contains("lie on a line"));
    // The pipe's metal levels off at long contact.
    let (l, sentence) = flows(&flow(&|q| 1.0 + 4.0 * (1.0 - (-2.0 / q).exp()))).unwrap();
    assert!(!l.is_a_line() && sentence.in_english().contains("levels off"), "{}", sentence.in_english());
    // Particles at fast flow.
    let many: Vec<Point> =
        [2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 16.0, 24.0, 32.0].map(|q| (q, 1.0 + 6.0 / q + 0.1 * q, 0.05)).to_vec();
    let (_, sentence) = flows(&many).unwrap();
    assert!(sentence.in_english().contains("particles may be carried"), "{}", sentence.in_english());
    let (_, sentence) =
        fills(&[(60.0, 60.0, 1.0), (125.0, 150.0, 1.0), (250.0, 310.0, 1.0), (500.0, 580.0, 1.0), (750.0, 700.0, 1.0)])
            .unwrap();
    assert!(sentence.in_english().contains("bend away"), "{}", sentence.in_english());
}

#[test]
fn faults_are_named() {
    assert!(fills(&[(60.0, 1.0, 1.0), (70.0, 1.0, 1.0)]).unwrap_err().to_string().contains("2 given, at least 3"));
    assert!(fills(&[(60.0, 1.0, 1.0); 4]).unwrap_err().to_string().contains("different volumes"));
    assert!(fills(&[(0.0, 1.0, 1.0); 4]).unwrap_err().to_string().contains("volume of fill 1"));
    assert!(flows(&[(1.0, 1.0, 0.0), (2.0, 1.0, 1.0), (3.0, 1.0, 1.0)]).unwrap_err().to_string().contains("point 1"));
    assert!(flows(&[(-1.0, 1.0, 1.0); 3]).unwrap_err().to_string().contains("flow of sample 1"));
}

#[test]
fn scatter_far_beyond_u_is_found() {
    // Of equal u the weighted squares are Σr²/(u² + τ²): they equal n − 2 at τ² = Σr²/(n − 2) − u². Masses that go up and
    // down by as much as they hold scatter by more than their largest square.
    let points: Vec<(f64, f64, f64)> =
        (0..8).map(|i| (f64::from(i), if i % 2 == 0 { 1.0 } else { -1.0 }, 0.01)).collect();
    let l = tested_line(&points).unwrap();
    let squares: f64 = l.residuals.iter().map(|r| r * r).sum();
    let tau2 = squares / 6.0 - 1e-4;
    assert!(tau2 > 1.0 + 1e-4, "{tau2}");
    assert!((l.beyond_u.powi(2) - tau2).abs() < 1e-9 && l.converged, "{l:?}");
}
