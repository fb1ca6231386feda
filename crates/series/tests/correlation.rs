//! p and factor under serial correlation: against the rule worked out with numpy 2.4.6 and scipy 1.17.1 on public
//! records, the double sum, and the variance of Hamed & Rao (1998).

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use quantity::{Check, Outcome};
use series::correlation::{ASSUMED, About, Correlation, inflation};
use series::trend::{Answer, Request, Trend, trend};
use series::{Observation, Reading};

fn record(text: &str) -> Vec<Observation> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let row = |r: csv::StringRecord| Observation::new(r[0].parse().unwrap(), Reading::Known(r[1].parse().unwrap()));
    reader.records().map(Result::unwrap).map(row).collect()
}

fn nile() -> Vec<Observation> {
    record(include_str!("data/c9_nile.csv"))
}

fn told(rows: &[Observation]) -> Trend {
    trend(rows, &Request::default()).unwrap()
}

/// r, ρ, C and p worked out beside: `docs/validation/series_correlation.py`. 1e-9: the digits printed there.
fn check(rows: &[Observation], s: i64, [r, rho, inflation, plain, serial]: [f64; 5]) {
    let t = told(rows);
    let found = t.correlation.estimated().unwrap();
    let near = |got: f64, want: f64| assert!((got / want - 1.0).abs() < 1e-9, "{got} against {want}");
    assert_eq!(t.s(), s);
    near(t.correlation.lag_one.unwrap(), r);
    near(found.rho, rho);
    near(found.inflation, inflation);
    near(t.p(), plain);
    near(t.p_serial.unwrap(), serial);
}

#[test]
fn the_nile_and_the_sunspots() {
    let of_nile = [0.347697839761, 0.390259518075, 2.2590900865, 3.65826292166e-05, 0.00744908823292];
    check(&nile(), -1387, of_nile);
    let sunspots = record(include_str!("data/c10_sunspots.csv"));
    let of_sunspots = [0.807739366093, 0.827886581684, 10.4393551762, 0.00145996742419, 0.331850107095];
    check(&sunspots, 5777, of_sunspots);
    // Neighbours alone make three hundred years of sunspots "rise".
    let t = told(&sunspots);
    assert_eq!(t.answer(), Answer::NoChangeSeen);
    let caution = t.findings.iter().find(|f| f.check == Check::TrendSerialCorrelation).unwrap();
    assert_eq!(caution.outcome, Outcome::NotMet);
}

/// Twenty years taken out: gaps of one to three years.
#[test]
fn gaps_count_as_long_as_they_are() {
    let thinned: Vec<Observation> =
        nile().into_iter().enumerate().filter(|(i, _)| ![1, 3].contains(&(i * 7 % 10))).map(|(_, r)| r).collect();
    let want = [0.308804663124, 0.360322821853, 1.84204863471, 0.000381141402215, 0.0103013451761];
    check(&thinned, -856, want);
}

#[test]
fn the_factor_is_the_double_sum() {
    let times: Vec<f64> = (0..60).map(|i| f64::from(i) + f64::from(i * 37 % 11) / 12.0).collect();
    for rho in [0.0, 0.2, 0.9] {
        let direct: f64 = times
            .iter()
            .map(|a| times.iter().map(|b| if a == b { 1.0 } else { f64::powf(rho, (a - b).abs()) }).sum::<f64>())
            .sum::<f64>()
            / 60.0;
        // Sixty sums of rounded powers.
        assert!((inflation(&times, rho, 0.0) - direct).abs() < 1e-12 * direct, "{rho}");
    }
    // Two samples of each date that are wholly alike count as one.
    let twice: Vec<f64> = (0..40).map(|i| f64::from(i / 2)).collect();
    assert_eq!(inflation(&twice, 0.0, 1.0), 2.0);
    assert_eq!(inflation(&twice, 0.0, 0.0), 1.0);
}

/// n/n* of Hamed & Rao (1998) eq. 8 (from memory), 1 + 2/(n(n−1)(n−2)) Σ (n−k)(n−k−1)(n−k−2)·ρ_S(k), ρ_S(k) the
/// correlation of ranks, 6/π·asin(ρ^k/2) for normal values: ours leaves the ends of the series as they are and takes
/// ρ^k for the ranks, so it lies above, by 2 to 11 % and less the longer the series.
#[test]
fn the_factor_lies_close_above_that_of_hamed_and_rao() {
    for (n, rho, most) in [(50, 0.3, 1.05), (50, 0.6, 1.11), (200, 0.6, 1.05), (1000, 0.3, 1.022), (1000, 0.6, 1.033)] {
        let length = f64::from(n);
        let sum: f64 = (1..n - 2)
            .map(|k| {
                let left = length - f64::from(k);
                left * (left - 1.0) * (left - 2.0) * 6.0 / std::f64::consts::PI * (0.5 * f64::powi(rho, k)).asin()
            })
            .sum();
        let theirs = 1.0 + 2.0 * sum / (length * (length - 1.0) * (length - 2.0));
        let times: Vec<f64> = (0..n).map(f64::from).collect();
        let ratio = inflation(&times, rho, 0.0) / theirs;
        assert!(ratio > 1.0 && ratio < most, "{n} {rho}: {ratio}");
    }
}

#[test]
fn few_rows_are_held_against_assumed_correlation_and_fewer_against_none() {
    let of = |n: i32| told(&nile()[10..].iter().take(n as usize).cloned().collect::<Vec<_>>());
    let caution = |t: &Trend| {
        let found = t.findings.iter().find(|f| f.check == Check::TrendSerialCorrelation).unwrap();
        (found.outcome, found.message.as_ref().unwrap().id().to_string())
    };
    let t = of(16);
    assert_eq!(t.p_assumed().iter().map(|(rho, _)| *rho).collect::<Vec<_>>(), ASSUMED);
    let largest = t.p_assumed().into_iter().map(|(_, p)| p).fold(0.0, f64::max);
    assert_eq!(t.p_serial, Some(largest));
    assert!(t.p_assumed().windows(2).all(|w| w[0].1 <= w[1].1) && t.p_assumed()[0].1 == t.p());
    assert_eq!(caution(&t), (Outcome::NotKnown, "series-correlation-too-few".to_string()));
    let t = of(11);
    assert_eq!((t.p_serial, t.deciding_p()), (None, t.p()));
    assert_eq!(caution(&t), (Outcome::NotKnown, "series-correlation-untold".to_string()));
}

/// A second sample of each date that says the same again is no second row: S of the doubled record has p near that of
/// the single one, where the plain test counts every row.
#[test]
fn a_second_sample_of_each_date_does_not_count_twice() {
    let once = nile();
    let twice: Vec<Observation> = once.iter().flat_map(|r| [r.clone(), r.clone()]).collect();
    let (one, two) = (told(&once), told(&twice));
    assert!(two.p() < 1e-6 && two.p() < 0.1 * one.p());
    let found = two.correlation.estimated().unwrap();
    assert!((found.inflation / one.correlation.estimated().unwrap().inflation - 2.0).abs() < 0.1);
    assert!(two.p_serial.unwrap() > 0.5 * one.p_serial.unwrap());
}

/// A step is not correlation: the residuals are those about the two levels.
#[test]
fn the_nile_keeps_its_step() {
    let c = told(&nile()).change_point.unwrap();
    let p = c.p_serial.unwrap();
    assert!(c.p < 1e-6 && p > c.p && p < 0.001, "{p}");
}

#[test]
fn nothing_to_tell_without_scores() {
    assert!(Correlation::of(&[], About::Line).factors.is_empty());
    let below = vec![Observation::new(1.0, Reading::Below(2.0)); 30];
    assert!(Correlation::of(&[&below], About::Levels).factors.is_empty());
}
