//! Scores and control charts.

#![allow(clippy::float_cmp)]

use measurement::control::{Chart, Estimate, Rule, cusum_run_length, duplicates, e_n, spike_recovery, z_score, zeta};
use measurement::error::Error;

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

fn e(value: f64, u: f64) -> Estimate {
    Estimate { value, u }
}

/// ISO 13528 formulas, by hand: (10.4 − 10)/√(0.3² + 0.4²) = 0.8; with k = 2 on both half of it.
#[test]
fn scores() {
    near(zeta(&e(10.4, 0.3), &e(10.0, 0.4)).expect("a score"), 0.8, 1e-12);
    near(e_n(&e(10.4, 0.3), 2.0, &e(10.0, 0.4), 2.0).expect("a score"), 0.4, 1e-12);
    near(z_score(10.4, 10.0, 0.2).expect("a score"), 2.0, 1e-12);
    assert!(matches!(zeta(&e(1.0, 0.0), &e(2.0, 0.0)), Err(Error::OutOfRange { .. })));
}

#[test]
fn recoveries_and_duplicates() {
    let r = spike_recovery(&e(5.8, 0.3), &e(1.0, 0.4), &e(5.0, 0.05), 0.0, (0.85, 1.15)).expect("a recovery");
    near(r.value, 0.96, 1e-12);
    // √(0.25 + (0.96·0.05)²)/5
    near(r.u, (0.25_f64 + 0.048_f64.powi(2)).sqrt() / 5.0, 1e-12);
    assert!(r.in_window);
    assert!(matches!(
        spike_recovery(&e(5.8, 0.3), &e(1.0, 0.4), &e(0.0, 0.0), 0.0, (0.85, 1.15)),
        Err(Error::ZeroDenominator { .. })
    ));
    let d = duplicates(&e(1.2, 0.1), &e(1.0, 0.1), 0.0, f64::INFINITY).expect("a difference");
    near(d.relative_percent.expect("a mean"), 100.0 * 0.2 / 1.1, 1e-9);
    near(d.p, 0.157_299_207, 1e-8);
    assert!(d.as_predicted);
    // A shared blank of u = 0.09 makes the same difference improbable.
    let d = duplicates(&e(1.2, 0.1), &e(1.0, 0.1), 0.0081, f64::INFINITY).expect("a difference");
    assert!(!d.as_predicted);
}

/// NIST e-Handbook 6.3.2.4, EWMA with λ = 0.3 (from memory, recomputed).
#[test]
fn ewma_of_the_nist_handbook() {
    let values = [
        52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
        53.6, 52.1,
    ];
    let published = [
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92,
        50.73, 51.23, 51.94, 51.99,
    ];
    let chart = Chart::new(50.0, 2.0539).expect("a chart");
    let r = chart.ewma(&values, 0.3, 3.0).expect("a result");
    for (p, want) in r.points.iter().zip(published) {
        near(p.statistic, want, 6e-3);
    }
    near(r.points[19].upper, 52.5884, 5e-4);
    near(r.points[19].lower, 47.4115, 5e-4);
    assert!(r.signals.is_empty());
}

/// NIST e-Handbook 6.3.2.3, CUSUM with k = 0.3175 and h = 4.1959 about 325 (from memory,
/// recomputed): the upper sum passes the limit at the fourteenth group.
#[test]
fn cusum_of_the_nist_handbook() {
    let values = [
        324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600, 324.625, 325.150,
        328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
    ];
    let chart = Chart::new(325.0, 1.0).expect("a chart");
    let r = chart.cusum(&values, 0.3175, 4.1959).expect("a result");
    near(r.points[12].statistic, 3.01, 5e-3);
    near(r.points[13].statistic, 4.94, 5e-3);
    near(r.points[14].statistic, 7.45, 5e-3);
    assert_eq!((r.signals[0].at, r.signals[0].high), (13, true));
}

/// Average run lengths of the CUSUM with k = 0.5 (Montgomery, from memory): h = 4: 168 and 8.38,
/// h = 5: 465 and 10.4 for shifts of 0 and 1 sd.
#[test]
fn cusum_run_lengths() {
    let l = |h: f64, shift: f64| cusum_run_length(0.5, h, shift).expect("a length");
    near(l(4.0, 0.0), 168.0, 1.0);
    near(l(4.0, 1.0), 8.38, 0.01);
    near(l(5.0, 0.0), 465.0, 1.5);
    near(l(5.0, 1.0), 10.4, 0.05);
}

/// Each run rule fires where its pattern completes, and not before.
#[test]
fn shewhart_rules() {
    let chart = Chart::new(0.0, 1.0).expect("a chart");
    let fires = |values: &[f64], rule: Rule| {
        let r = chart.shewhart(values).expect("a result");
        r.signals.iter().filter(|s| s.rule == rule).map(|s| (s.at, s.high)).collect::<Vec<_>>()
    };
    assert_eq!(fires(&[0.0, 3.1, 0.0], Rule::BeyondThree), [(1, true)]);
    assert_eq!(fires(&[-3.1], Rule::BeyondThree), [(0, false)]);
    assert_eq!(fires(&[2.1, 0.0, 2.2], Rule::TwoOfThreeBeyondTwo), [(2, true)]);
    assert!(fires(&[2.1, 0.0, -2.2], Rule::TwoOfThreeBeyondTwo).is_empty());
    assert_eq!(fires(&[1.1, 1.2, 0.5, 1.3, 1.4], Rule::FourOfFiveBeyondOne), [(4, true)]);
    let eight = [0.1, 0.2, 0.1, 0.3, 0.1, 0.2, 0.1, 0.4];
    assert_eq!(fires(&eight, Rule::EightOnOneSide), [(7, true)]);
    assert!(fires(&eight[..7], Rule::EightOnOneSide).is_empty());
    let falling = [0.5, 0.4, 0.2, 0.1, -0.1, -0.2];
    assert_eq!(fires(&falling, Rule::SixInARow), [(5, false)]);
    assert!(fires(&falling[..5], Rule::SixInARow).is_empty());
}

#[test]
fn charts_from_a_period() {
    let c = Chart::from_period(&[1.0, 2.0, 1.0, 2.0, 1.0, 2.0, 1.0, 2.0]).expect("a chart");
    near(c.centre, 1.5, 1e-12);
    near(c.sd, 1.0 / 1.128, 1e-3);
    assert!(matches!(Chart::from_period(&[1.0; 7]), Err(Error::TooFew { .. })));
    assert!(matches!(Chart::from_period(&[1.0; 9]), Err(Error::OutOfRange { .. })));
    assert!(matches!(c.ewma(&[1.0], 1.5, 3.0), Err(Error::OutOfRange { .. })));
    assert!(matches!(c.shewhart(&[f64::NAN]), Err(Error::NotFinite { .. })));
}

/// A pattern that goes on is told once, where it completes, with its length; a new one after a pause is told anew.
#[test]
fn a_pattern_is_told_once_with_its_length() {
    let chart = Chart::new(0.0, 1.0).expect("a chart");
    // Eleven on the high side, one low, then eight high: counted by hand.
    let values = [vec![0.5; 11], vec![-0.5], vec![0.5; 8]].concat();
    let r = chart.shewhart(&values).expect("a result");
    let told: Vec<_> = r.signals.iter().map(|s| (s.rule, s.at, s.points, s.high)).collect();
    assert_eq!(told, [(Rule::EightOnOneSide, 7, 11, true), (Rule::EightOnOneSide, 19, 8, true)]);
    let first = r.signals[0];
    assert!(first.goes_on() && !r.signals[1].goes_on());
    let held: Vec<usize> = (0..20).filter(|i| first.holds_at(*i)).collect();
    assert_eq!(held, [7, 8, 9, 10]);
    // Each point beyond 3 sd is an event of its own.
    let far = chart.shewhart(&[0.0, 3.5, 3.6]).expect("a result");
    assert_eq!(far.signals.iter().filter(|s| s.rule == Rule::BeyondThree).count(), 2);
    // C rises by 1.5 a point from 0: over 5 from the fourth point on.
    let sums = chart.cusum(&[2.0; 10], 0.5, 5.0).expect("a result");
    let told: Vec<_> = sums.signals.iter().map(|s| (s.at, s.points, s.high)).collect();
    assert_eq!(told, [(3, 7, true)]);
}
