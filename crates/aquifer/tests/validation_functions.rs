//! W(u) and G(α) against mpmath 1.3.0 at 40 digits (bench/wells/reference_functions.py), the
//! computed tables of five digits, an independent inversion of the Laplace transform, and their limits.

use aquifer::functions::{flowing_g, flowing_g_by_quadrature, ln_flowing_g, theis_w};

fn table(text: &str) -> Vec<(f64, f64)> {
    text.lines()
        .skip(1)
        .map(|l| {
            let (a, b) = l.split_once(',').unwrap();
            (a.parse().unwrap(), b.parse().unwrap())
        })
        .collect()
}

fn worst(text: &str, f: impl Fn(f64) -> f64) -> f64 {
    table(text).into_iter().map(|(x, want)| (f(x) / want - 1.0).abs()).fold(0.0, f64::max)
}

#[test]
fn w_to_1e_12() {
    let got = worst(include_str!("data/w_mpmath.csv"), theis_w);
    assert!(got < 1e-12, "{got:e}");
    // The table's digits.
    for (u, want) in table(include_str!("data/theis_Wu_computed.csv")) {
        assert!((theis_w(u) - want).abs() <= 0.51e-4, "{u}");
    }
    assert!(theis_w(0.0).is_infinite() && theis_w(-1.0).is_nan() && theis_w(1000.0) == 0.0);
}

#[test]
fn g_to_better_than_1e_6() {
    // Asked for: 1e-6 relative over 1e-4 … 1e12. The quadrature is good to rounding, the table to 1e-9.
    let text = include_str!("data/g_mpmath.csv");
    assert_eq!(table(text).len(), 65);
    let quadrature = worst(text, flowing_g_by_quadrature);
    assert!(quadrature < 2e-12, "{quadrature:e}");
    let looked_up = worst(text, flowing_g);
    assert!(looked_up < 1e-10, "{looked_up:e}");
    // Five-digit computed table.
    let five = worst(include_str!("data/G_alpha_computed.csv"), flowing_g);
    assert!(five < 1e-4, "{five:e}");
}

#[test]
fn the_table_follows_the_quadrature_everywhere() {
    let mut x = -11.4;
    while x < 29.9 {
        let direct = flowing_g_by_quadrature(f64::exp(x)).ln();
        let (value, slope) = ln_flowing_g(x);
        assert!((value - direct).abs() < 1e-10, "{x}: {}", value - direct);
        let h = 1e-4;
        let numeric =
            (flowing_g_by_quadrature(f64::exp(x + h)).ln() - flowing_g_by_quadrature(f64::exp(x - h)).ln()) / (2.0 * h);
        assert!((slope - numeric).abs() < 1e-7, "{x}: slope {slope} {numeric}");
        x += 0.0917;
    }
}

#[test]
fn g_has_the_limits_of_the_theory() {
    // Small α: 1/√(πα) + 1/2 − √(α/π)/4 + α/8 (Carslaw & Jaeger 1959, 13.5; recalled).
    let small =
        |a: f64| 1.0 / (std::f64::consts::PI * a).sqrt() + 0.5 - 0.25 * (a / std::f64::consts::PI).sqrt() + a / 8.0;
    for a in [1e-7, 1e-6, 1e-4] {
        assert!((flowing_g(a) / small(a) - 1.0).abs() < 1e-6, "{a}");
    }
    // Large α: Jacob & Lohman's straight line, G ≈ 2/W(1/4α), good to a part in a hundred at 1e6 and closer beyond.
    for (a, tolerance) in [(1e6, 0.02), (1e10, 0.006)] {
        let line = 2.0 / theis_w(0.25 / a);
        assert!((flowing_g(a) / line - 1.0).abs() < tolerance, "{a}: {} {line}", flowing_g(a));
    }
    assert!(flowing_g(0.0).is_nan() && flowing_g(-1.0).is_nan() && flowing_g(f64::NAN).is_nan());
    // Beyond the table the value goes on without a step.
    let (inside, outside) = (flowing_g(0.999_999e13), flowing_g(1.000_001e13));
    assert!((inside / outside - 1.0).abs() < 1e-6);
}
