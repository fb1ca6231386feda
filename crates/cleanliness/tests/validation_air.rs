//! Particle counts against ISO 14644-1:2015 (table recalled, some cells seen) and exact Poisson
//! and binomial bounds of scipy 1.17.1.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::Error;
use cleanliness::air::{self, AirSample, Count, LITRES_PER_CUBIC_FOOT};
use cleanliness::stats::{binomial_interval, poisson_lower, poisson_upper, t_quantile};
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
fn poisson_bounds_are_exact() {
    // scipy 1.17.1: stats.chi2.ppf(.95, 2*(n+1))/2. Tolerance: both solve to about 12 digits.
    for (n, want) in [
        (0, 2.9957322735539895),
        (1, 4.743864518390577),
        (3, 7.753656527932725),
        (20, 29.062018840434014),
        (283, 312.2763317700985),
        (5000, 5117.886079407686),
        (99_999, 100520.7162815659),
    ] {
        close(poisson_upper(n, 0.95), want, 1e-10);
    }
    // scipy 1.17.1: stats.chi2.ppf(.05, 2*n)/2.
    for (n, want) in [(1, 0.05129329438755053), (20, 13.254651598346555), (5000, 4884.262567833768)] {
        close(poisson_lower(n, 0.95), want, 1e-10);
    }
    // Above 1e5 the cube-root start is used as it stands.
    close(poisson_upper(200_000, 0.95), 200737.1708191615, 1e-8);
    close(poisson_lower(200_000, 0.95), 199264.96804850159, 1e-8);
    assert_eq!(poisson_lower(0, 0.95), 0.0);
    // Two-sided 95 % after zero: 3.689 (common tables).
    close(poisson_upper(0, 0.975), 3.689, 2e-4);
}

#[test]
fn quantiles_agree_with_scipy() {
    // scipy 1.17.1: stats.t.ppf(p, dof).
    for (p, dof, want) in [
        (0.975, 4.0, 2.7764451051977934),
        (0.95, 9.5, 1.8221893013186778),
        (0.975, 1.0, 12.706204736174694),
        (0.995, 2.3, 8.003745266871091),
        (0.975, 1e6, 1.959966356814107),
        (0.975, 199.0, 1.9719565442517533),
        (0.975, 201.0, 1.971836506779859),
        (0.995, 300.0, 2.5923164108477925),
        (0.95, 1000.0, 1.6463788172854643),
    ] {
        close(t_quantile(p, dof), want, 1e-8);
    }
    // scipy 1.17.1: stats.binomtest(k, n).proportion_ci(.95). 0 of 10: 0.3085 in many tables.
    for (k, n, low, high) in [
        (0, 10, 0.0, 0.30849710781876294),
        (3, 2003, 0.00030897931989722755, 0.004370773399035033),
        (10, 10, 0.6915028921812371, 1.0),
    ] {
        let got = binomial_interval(k, n, 0.95);
        close(got.0, low, 1e-8);
        close(got.1, high, 1e-8);
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
