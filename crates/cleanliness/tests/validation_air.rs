//! Particle counts against ISO 14644-1:2015 (table recalled, some cells seen) and exact Poisson
//! and binomial bounds of scipy 1.17.1.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::Error;
use cleanliness::air::{self, AirSample, Count, LITRES_PER_CUBIC_FOOT};
use quantity::Outcome;

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn sample(counts: &[(f64, u64)], volume_l: f64) -> AirSample {
    AirSample {
        counts: counts.iter().map(|(size_um, count)| Count { size_um: *size_um, count: *count }).collect(),
        volume_l,
        minutes: None,
    }
}

#[test]
fn the_table_has_the_last_word_and_the_formula_fills_between() {
    // Printed table of ISO 14644-1:2015 (recalled).
    for (class, size, want) in [
        (1, 0.1, Some(10.0)),
        (3, 0.5, Some(35.0)),
        (5, 0.3, Some(10_200.0)),
        (5, 0.5, Some(3_520.0)),
        (5, 5.0, None),
        (6, 5.0, Some(293.0)),
        (7, 0.1, None),
        (8, 0.5, Some(3_520_000.0)),
        (9, 1.0, Some(8_320_000.0)),
        (2, 0.5, None),
    ] {
        assert_eq!(air::class_limit(class, size), want, "class {class}, {size} µm");
    }
    // The formula, rounded to three digits, meets every printed cell within one unit of the last digit
    // (the printed 35 and 24 are cut to two digits).
    for class in 1..=9u8 {
        for size in [0.1, 0.2, 0.3, 0.5, 1.0, 5.0] {
            if let Some(printed) = air::class_limit(class, size) {
                close(air::formula_limit(f64::from(class), size), printed, 0.02);
            }
        }
    }
    // Between the sizes: 10^5·(0.1/0.7)^2.08 = 1746.6, to three digits 1750.
    assert_eq!(air::class_limit(5, 0.7), Some(1750.0));
    assert_eq!(air::class_limit(5, 2.0), None);
    assert_eq!(air::class_limit(5, 10.0), None);
}

#[test]
fn class_5_needs_5_68_litres() {
    // 20/3520 m³ = 5.68 L (stated in many guides to the standard).
    close(air::volume_to_show_l(5, 0.5).unwrap(), 5.68, 1e-3);
    close(air::volume_to_show_l(3, 0.5).unwrap(), 571.4, 1e-3);
    // Never less than 2 L.
    assert_eq!(air::volume_to_show_l(9, 0.5), Some(2.0));
    assert_eq!(air::volume_to_show_l(1, 0.5), None);
}

#[test]
fn zero_in_a_cubic_foot_shows_class_5_and_bounds_class_4() {
    let r = air::read(&sample(&[(0.5, 0)], 28.3)).unwrap();
    close(r.readings[0].upper_95_per_m3, 2.9957 / 0.0283, 1e-4);
    assert_eq!(r.under_limit_of_class, Some(3));
    assert_eq!(r.shown_class, Some(5));
    assert_eq!(r.bounded_class, Some(4));
    let (volume, size) = r.volume_to_show_l(3).unwrap();
    close(volume, 571.4, 1e-3);
    assert_eq!(size, 0.5);
    let f = r.findings(5);
    assert_eq!(f[0].outcome, Outcome::Met);
    assert!(f[1].sentence.contains("fewer than 110 per m³"), "{}", f[1].sentence);
    assert_eq!(r.findings(4)[0].outcome, Outcome::NotKnown);
    assert!(r.findings(4)[0].sentence.contains("at least 56.8 L"));
}

#[test]
fn a_million_per_cubic_foot_is_ordinary_air_just_over_class_9() {
    // Common practice: a million per cubic foot = 3.53e7 per m³, about class 9 (limit 35 200 000).
    let r = air::read(&sample(&[(0.5, 1_000_000)], LITRES_PER_CUBIC_FOOT)).unwrap();
    close(r.readings[0].per_m3, 3.531466672e7, 1e-9);
    assert_eq!(r.under_limit_of_class, None);
    close(r.readings[0].equivalent_class.unwrap(), 9.0, 1e-3);
    let f = r.findings(5);
    assert_eq!(f[0].outcome, Outcome::NotMet);
    assert!(f[0].sentence.contains("exceed the limits of class 9"));
}

#[test]
fn several_sizes_are_judged_together() {
    // 0.3 µm: 300 per m³ (class 4), 0.5 µm: 100 per m³ (class 4), 5 µm: 0 (class 6 and up have a limit).
    let r = air::read(&sample(&[(5.0, 0), (0.3, 30), (0.5, 10)], 100.0)).unwrap();
    assert_eq!(r.readings[0].size_um, 0.3);
    assert_eq!(r.under_limit_of_class, Some(4));
    assert_eq!(r.shown_class, Some(4));
    assert_eq!(r.shown_at_size_um, Some(0.3));
    // A coarse size over its limit spoils the class: 30 per m³ at 5 µm with nothing else is class 6 at best.
    let r = air::read(&sample(&[(0.5, 60), (5.0, 60)], 200.0)).unwrap();
    assert_eq!(r.readings[1].under_limit_of_class, Some(7));
}

#[test]
fn sizes_outside_the_classes_keep_their_concentration() {
    let r = air::read(&sample(&[(0.5, 5), (10.0, 0)], 28.3)).unwrap();
    assert_eq!(r.readings[1].under_limit_of_class, None);
    assert_eq!(r.under_limit_of_class, Some(4));
    let r = air::read(&sample(&[(10.0, 3)], 28.3)).unwrap();
    assert_eq!(r.under_limit_of_class, None);
    assert_eq!(r.findings(5)[0].outcome, Outcome::NotKnown);
}

#[test]
fn half_a_minute_shows_nothing() {
    let mut s = sample(&[(0.5, 0)], 28.3);
    s.minutes = Some(0.5);
    let r = air::read(&s).unwrap();
    assert_eq!((r.under_limit_of_class, r.shown_class), (Some(3), None));
}

#[test]
fn repeated_samples_add_up() {
    let one = sample(&[(0.5, 1)], 28.3);
    let sum = air::pool(&[one.clone(), one.clone()]).unwrap();
    assert_eq!((sum.counts[0].count, sum.volume_l), (2, 56.6));
    assert!(air::pool(&[one, sample(&[(0.3, 1)], 28.3)]).is_err());
    assert!(air::pool(&[]).is_err());
}

#[test]
fn cabinet_against_ambient() {
    // 3 in the cabinet, 2000 outside in the same volume: p = 3/2003 with the interval of scipy above.
    let r = air::reduction(&sample(&[(0.5, 3)], 28.3), &sample(&[(0.5, 2000)], 28.3), 0.5).unwrap();
    close(r.factor, 2000.0 / 3.0, 1e-9);
    close(r.interval_95.0, 1.0 / 0.004370773399035033 - 1.0, 1e-6);
    close(r.interval_95.1, 1.0 / 0.00030897931989722755 - 1.0, 1e-6);
    let none = air::reduction(&sample(&[(0.5, 0)], 28.3), &sample(&[(0.5, 2000)], 28.3), 0.5).unwrap();
    assert!(none.factor.is_infinite() && none.interval_95.0 > 500.0);
}

#[test]
fn faults_are_named() {
    let check = |s: AirSample, part: &str| {
        let message = air::read(&s).unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    check(sample(&[(0.5, 1)], 0.0), "a count without its volume");
    check(sample(&[], 28.3), "particle counts: 0 given");
    check(sample(&[(0.5, 1), (0.5, 1)], 28.3), "0.5 µm twice");
    check(sample(&[(0.5, 1), (1.0, 2)], 28.3), "counts are cumulative");
    check(sample(&[(-0.5, 1)], 28.3), "more than 0 µm");
    assert!(matches!(
        air::reduction(&sample(&[(0.5, 0)], 1.0), &sample(&[(0.5, 0)], 1.0), 0.5),
        Err(Error::OutOfRange { .. })
    ));
}
