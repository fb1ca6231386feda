//! The water's share: against a grid search of the same likelihood, and its coverage by
//! simulation inside the range and at both ends.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::share::{GrossAndBlank, Held, water_share, water_share_blank_below};
use quantity::{Measured, Unit};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};

fn pair(g: f64, ug: f64, b: f64, ub: f64, covariance: f64) -> GrossAndBlank {
    let m = |v, u| Measured::new(v, u, Unit::known("pg"));
    GrossAndBlank { gross: m(g, ug), blank: m(b, ub), covariance }
}

/// A normal deviate by Box & Muller 1958.
fn normal(rng: &mut ChaCha8Rng) -> f64 {
    let (a, b): (f64, f64) = (1.0 - rng.random::<f64>(), rng.random());
    (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
}

#[test]
fn fieller_by_hand() {
    // Computed with the printed formula of Fieller's limits (form from memory) in the check notes:
    // a 0.15, b 0.25, v_a 0.002, v_b 0.005, cov 0.0001, z 1.96: ratio 0.2306 to 1.4840.
    // Here the ratio is blank/gross, so the share runs from 1 − 1.4840 (cut to 0) to 1 − 0.2306.
    let s = water_share(&pair(0.25, 0.005f64.sqrt(), 0.15, 0.002f64.sqrt(), 0.0001), 0.95).unwrap();
    assert_eq!(s.interval.0, 0.0);
    assert!((s.interval.1 - (1.0 - 0.2306)).abs() < 5e-5, "{:?}", s.interval);
    // gross 25 ± 2, blank 5 ± 1 (ratio 5/25): from the same notes 25/5 lies in 3.44 … 8.38.
    let s = water_share(&pair(25.0, 2.0, 5.0, 1.0, 0.0), 0.95).unwrap();
    assert!((s.interval.0 - (1.0 - 1.0 / 3.44)).abs() < 5e-4, "{:?}", s.interval);
    assert!((s.interval.1 - (1.0 - 1.0 / 8.38)).abs() < 5e-4);
    assert_eq!(s.value, Some(0.8));
}

#[test]
fn the_interval_is_the_likelihood_region_on_a_grid() {
    for (g, ug, b, ub, c) in [
        (250.0, 8.0, 25.0, 6.0, 10.0),
        (20.0, 3.0, 24.0, 4.0, 0.0),
        (20.0, 3.0, -4.0, 2.0, 1.0),
        (5.0, 4.0, 3.0, 1.0, 0.0),
        (250.0, 8.0, 25.0, 6.0, -20.0),
    ] {
        let s = water_share(&pair(g, ug, b, ub, c), 0.95).unwrap();
        let q = |share: f64| {
            let r = 1.0 - share;
            (b - r * g).powi(2) / (ub * ub + r * r * ug * ug - 2.0 * r * c)
        };
        let grid: Vec<f64> = (0..=100_000).map(|i| f64::from(i) * 1e-5).collect();
        let least = grid.iter().map(|x| q(*x)).fold(f64::INFINITY, f64::min);
        let inside: Vec<f64> = grid.into_iter().filter(|x| q(*x) <= least + 1.959964f64.powi(2)).collect();
        let (low, high) = (inside[0], *inside.last().unwrap());
        // The grid's step.
        assert!((s.interval.0 - low).abs() < 2e-5, "{:?} {low}", s.interval);
        assert!((s.interval.1 - high).abs() < 2e-5, "{:?} {high}", s.interval);
    }
}

#[test]
fn coverage_holds_inside_and_at_both_ends() {
    // 20 000 trips each: the standard error of a coverage of 0.95 is 0.0015.
    for (true_share, least) in [(0.9, 0.945), (0.5, 0.945), (0.0, 0.945), (1.0, 0.945)] {
        let mut rng = ChaCha8Rng::seed_from_u64(11);
        let (gross, ug, ub) = (250.0, 12.0, 15.0);
        let blank = gross * (1.0 - true_share);
        let mut covered = 0;
        for _ in 0..20_000 {
            let s = water_share(&pair(gross + ug * normal(&mut rng), ug, blank + ub * normal(&mut rng), ub, 0.0), 0.95)
                .unwrap();
            covered += i32::from(s.interval.0 <= true_share && true_share <= s.interval.1);
        }
        let coverage = f64::from(covered) / 20_000.0;
        assert!(coverage >= least, "share {true_share}: coverage {coverage}");
    }
}

#[test]
fn few_degrees_of_freedom_widen_the_interval() {
    let mut input = pair(250.0, 2.0, 25.0, 6.0, 0.0);
    let wide = |i: &GrossAndBlank| {
        let s = water_share(i, 0.95).unwrap();
        s.interval.1 - s.interval.0
    };
    let known = wide(&input);
    input.blank.dof = 3.0;
    // t(0.975, about 3) = 3.18 against 1.96: the ratio 1.62, cut a little by the other part.
    let few = wide(&input);
    assert!(few / known > 1.5 && few / known < 1.63, "{}", few / known);
}

#[test]
fn nothing_is_clipped_silently() {
    let s = water_share(&pair(20.0, 3.0, 24.0, 4.0, 0.0), 0.95).unwrap();
    assert_eq!((s.held, s.value), (Held::AtZero, Some(0.0)));
    assert!((s.raw.unwrap() + 0.2).abs() < 1e-12);
    let s = water_share(&pair(20.0, 3.0, -1.0, 4.0, 0.0), 0.95).unwrap();
    assert_eq!((s.held, s.value), (Held::AtOne, Some(1.0)));
    assert!(s.raw.unwrap() > 1.0 && s.interval.1 == 1.0);
    let s = water_share(&pair(-2.0, 3.0, 1.0, 4.0, 0.0), 0.95).unwrap();
    assert_eq!((s.held, s.value, s.interval), (Held::NoGross, None, (0.0, 1.0)));
}

#[test]
fn a_blank_below_its_limit_bounds_the_share_from_below() {
    let gross = Measured::new(250.0, 8.0, Unit::known("pg"));
    let s = water_share_blank_below(&gross, 20.0, 0.95).unwrap();
    // One-sided 95 %: ρ with 20 = ρ·(250 − 1.645·8).
    let rho = 20.0 / (250.0 - 1.6448536 * 8.0);
    assert!((s.interval.0 - (1.0 - rho)).abs() < 1e-6);
    assert_eq!((s.interval.1, s.value), (1.0, None));
}

#[test]
fn units_are_joined_and_faults_named() {
    let mut input = pair(250.0, 8.0, 0.025, 0.006, 0.0);
    input.blank.unit = Unit::known("ng");
    let s = water_share(&input, 0.95).unwrap();
    assert!((s.value.unwrap() - 0.9).abs() < 1e-12);
    assert!(s.in_words().starts_with("0.90"), "{}", s.in_words());
    assert_eq!(s.derivation.nodes.len(), 3);
    input.blank.unit = Unit::known("ng/L");
    assert!(water_share(&input, 0.95).unwrap_err().to_string().contains("cannot be turned into"));
    let check = |i: GrossAndBlank, part: &str| {
        let message = water_share(&i, 0.95).unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    check(pair(1.0, -1.0, 1.0, 1.0, 0.0), "u of at least 0");
    check(pair(1.0, 0.0, 1.0, 0.0, 0.0), "one of them above 0");
    check(pair(1.0, 0.1, 1.0, 0.1, 0.02), "at most u·u");
    assert!(water_share(&pair(1.0, 0.1, 1.0, 0.1, 0.0), 1.0).is_err());
}
