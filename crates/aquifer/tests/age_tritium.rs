//! Tritium alone: thresholds, classes, all piston ages, what infiltrates.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use crate::age_data::{SAMPLED, measured, tritium};
use aquifer::age::tritium::{Alpha, Class, Month, alpha, classify, infiltrating, lambda, piston_ages};
use aquifer::age::{History, Level, Measured, Model, Pieces, Tracer, convolve};

#[test]
fn rain_of_before_the_bomb_today() {
    // Closed form; 26.6 TU (17.1 to 42.0) in rain of Ottawa 1951–53: Brown & Grummitt, abstract.
    for (rain, want) in [(26.6, 0.4138), (17.1, 0.2660), (42.0, 0.6533)] {
        let got = rain * (-lambda() * 74.0f64).exp();
        // The table was made with 12.32 y in place of 12.3203 y.
        assert!((got - want).abs() < 3e-4 * want, "{got}");
    }
    let halved = |t: f64| convolve(&Pieces::constant(8.0), &Model::Piston { mean: t }, lambda()).unwrap();
    for (n, want) in [(1.0, 4.0), (2.0, 2.0), (3.0, 1.0)] {
        assert!((halved(n * aquifer::age::tritium::half_life_years()) - want).abs() < 1e-12);
    }
}

#[test]
fn classes_on_the_invented_curve() {
    let h = tritium(0.1);
    let of = |value: f64, u: f64| classify(&measured(Tracer::Tritium, value, u), &h).unwrap();
    let before = of(0.2, 0.03);
    // 19.6 TU of the start of 1953, 73.5 years decayed.
    assert!((before.before_tu - 0.31).abs() < 0.005, "{}", before.before_tu);
    assert_eq!(before.class, Class::Before);
    assert!(before.after_tu > before.before_tu && before.after_year > 1953.0);
    assert!(before.younger_at_most.is_some_and(|f| f > 0.0 && f < 1.0));
    assert_eq!(of(4.0, 0.2).class, Class::After);
    assert_eq!(of(0.33, 0.05).class, Class::Between);
    // A direct count that sees nothing below 4 TU decides nothing.
    let count = Measured::new(Tracer::Tritium, Level::Below { limit: 4.0, u: 1.5 }, "TU", Some(SAMPLED)).unwrap();
    assert_eq!(classify(&count, &h).unwrap().class, Class::TooCoarse);
    // A value of nought with a critical value above L, too.
    let mut coarse = measured(Tracer::Tritium, 0.0, 0.3);
    coarse.critical = Some(0.5);
    assert_eq!(classify(&coarse, &h).unwrap().class, Class::TooCoarse);
}

#[test]
fn the_lower_threshold_is_the_highest_that_old_rain_can_be() {
    // Brute force, a day at a time.
    let h = tritium(0.0);
    let c = classify(&measured(Tracer::Tritium, 1.0, 0.1), &h).unwrap();
    let decayed = |y: f64| h.at(y) * (-lambda() * (SAMPLED - y)).exp();
    let steps = |from: f64, to: f64| (0..).map(move |k| from + f64::from(k) / 365.0).take_while(move |y| *y < to);
    let highest = steps(1900.0, 1953.0).map(decayed).fold(0.0, f64::max);
    let lowest = steps(c.after_year, SAMPLED).map(decayed).fold(f64::INFINITY, f64::min);
    assert!((c.before_tu / highest - 1.0).abs() < 1e-3 && (c.after_tu / lowest - 1.0).abs() < 1e-3);
    let year_before = steps(c.after_year - 1.0, SAMPLED).map(decayed).fold(f64::INFINITY, f64::min);
    assert!(year_before <= c.before_tu * 1.001, "an earlier year would do");
}

#[test]
fn one_value_has_several_piston_ages_and_all_are_listed() {
    let h = tritium(0.0);
    let ages = piston_ages(4.0, SAMPLED, &h).unwrap();
    // Computed beside the code (plain Python) on the same curve: 20.9, 44.1, 65.9–66.0, 68.7.
    for want in [20.9, 44.1, 65.9, 68.7] {
        assert!(ages.iter().any(|a| (a - want).abs() < 0.15), "{want} is not in {ages:?}");
    }
    for a in &ages {
        let c = convolve(&h.input(SAMPLED).value, &Model::Piston { mean: *a }, lambda()).unwrap();
        assert!((c - 4.0).abs() < 1e-6);
    }
    // And no other: changes of sign a day at a time.
    let off = |tau: f64| h.at(SAMPLED - tau) * (-lambda() * tau).exp() - 4.0;
    let changes = (1..50_000).filter(|k| off(f64::from(*k) / 365.0) * off(f64::from(k - 1) / 365.0) < 0.0).count();
    assert_eq!(ages.len(), changes);
    // The other models on the same curve, from the same table of checks: EM 87.5, DM(0.1) 92.0.
    let c = |m: Model| convolve(&h.input(SAMPLED).value, &m, lambda()).unwrap();
    assert!((c(Model::Exponential { mean: 87.5 }) - 4.0).abs() < 0.01);
    assert!((c(Model::Dispersion { mean: 92.0, d: 0.1 }) - 4.0).abs() < 0.02);
    assert!(piston_ages(0.0, SAMPLED, &h).is_err());
}

#[test]
fn what_infiltrates() {
    // Winter −13 in 300 mm, summer −7 in 500 mm, groundwater −11.5: α = 0.2, and the mean comes back (mass balance).
    let months =
        [Month { rain_mm: 300.0, value: -13.0, summer: false }, Month { rain_mm: 500.0, value: -7.0, summer: true }];
    let Alpha::Known(a) = alpha(&months, -11.5).unwrap() else { panic!() };
    assert!((a - 0.2).abs() < 1e-12 && (infiltrating(&months, a).unwrap() + 11.5).abs() < 1e-12);
    // Groundwater lighter than winter rain: no share of it can be.
    assert!(matches!(alpha(&months, -14.0).unwrap(), Alpha::Open(_)));
    assert!(alpha(&months[..1], -11.5).is_err() && infiltrating(&months, 1.2).is_err());
}

#[test]
fn a_sample_of_1953_has_no_younger_water_to_compare_with() {
    let mut m = measured(Tracer::Tritium, 20.0, 1.0);
    m.sampled_year = 1953.4;
    let h = History { points: tritium(0.0).points.into_iter().filter(|p| p.year < 1954.0).collect(), ..tritium(0.0) };
    let aquifer::Reason::Unlike { found, .. } = classify(&m, &h).unwrap_err() else { panic!() };
    assert!(found.is::<message::age::NeverAbove>());
}
