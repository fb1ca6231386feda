//! Mean, scatter and median against NIST's certified datasets, Python's exact fractions and numpy.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use statistics::sample::{Moments, between_ranks, mean_sd, median, median_high, nearest_rank};

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

/// Values of a NIST StRD univariate set; NumAcc2 and 3 are given by rule: a first value, then 500 pairs about it.
fn nist(set: &str) -> Vec<f64> {
    if let Some(base) = [("numacc2", 1.2), ("numacc3", 1_000_000.2)].iter().find(|s| s.0 == set).map(|s| s.1) {
        return [base].into_iter().chain((0..500).flat_map(|_| [base - 0.1, base + 0.1])).collect();
    }
    let mut t = csv::Reader::from_path("../measurement/tests/data/nist_strd_univariate.csv").expect("data");
    t.records().map(|r| r.expect("a row")).filter(|r| &r[0] == set).map(|r| r[2].parse().expect("a number")).collect()
}

/// NIST StRD univariate summary statistics, certified values. Tolerance of the mean: n roundings of the sum; of the
/// sd: what the data as f64 hold of it (an ulp of the mean over the sd), and n roundings.
#[test]
fn nist_univariate_datasets() {
    let mut t = csv::Reader::from_path("../measurement/tests/data/nist_strd_univariate_certified.csv").expect("values");
    let mut sets = 0;
    for r in t.records() {
        let r = r.expect("a row");
        let n = |i: usize| r[i].parse::<f64>().expect("a number");
        let (mean, sd) = mean_sd(&nist(&r[0])).expect("many values");
        let roundings = n(1) * f64::EPSILON;
        close(mean, n(2), roundings);
        close(sd, n(3), roundings + (n(2) / n(3)).abs() * f64::EPSILON);
        sets += 1;
    }
    assert_eq!(sets, 5);
}

#[test]
fn four_blanks_against_exact_fractions() {
    // Python 3.11.7: statistics.fmean, statistics.stdev (exact fractions, rounded once); scipy 1.17.1: stats.sem.
    let m = Moments::of(&[0.31, 0.28, 0.45, 0.30]).unwrap();
    close(m.mean, 0.335, 1e-15);
    close(m.sd().unwrap(), 0.0776745346515403, 1e-14);
    close(m.u_mean().unwrap(), 0.03883726732577014, 1e-14);
    // A large common part: the textbook's one-pass formula gives 0 or the root of a negative number here.
    // Python 3.11.7: statistics.stdev([1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16]).
    close(mean_sd(&[1e9 + 4.0, 1e9 + 7.0, 1e9 + 13.0, 1e9 + 16.0]).unwrap().1, 5.477225575051661, 1e-14);
}

#[test]
fn equal_values_have_no_spread_of_a_rounded_sum() {
    for (value, n) in [(0.1, 3), (0.7, 6), (1.1, 10), (-0.3, 7)] {
        let m = Moments::of(&vec![value; n]).unwrap();
        assert_eq!((m.mean, m.variance(), m.u_mean()), (value, Some(0.0), Some(0.0)), "{n} times {value}");
    }
}

#[test]
fn none_and_one_say_no_more_than_they_can() {
    assert_eq!(Moments::of(&[]), None);
    assert_eq!(mean_sd(&[2.0]), None);
    let one = Moments::of(&[2.0]).unwrap();
    assert_eq!((one.mean, one.variance(), one.u_mean()), (2.0, None, None));
    assert_eq!((median(&[]), median_high(&[])), (None, None));
    assert!(between_ranks(&[], 0.5).is_nan() && nearest_rank(&[], 0.5).is_nan());
    assert!(between_ranks(&[1.0], 1.5).is_nan() && nearest_rank(&[1.0], -0.1).is_nan());
}

#[test]
fn a_value_that_is_not_a_number_is_not_dropped() {
    assert!(mean_sd(&[1.0, f64::NAN, 2.0]).unwrap().0.is_nan());
    assert!(mean_sd(&[f64::NAN, f64::NAN]).unwrap().1.is_nan());
    assert!(median(&[1.0, f64::NAN, 2.0]).unwrap().is_nan());
    assert!(median_high(&[f64::NAN, 2.0, 1.0]).unwrap().is_nan());
}

#[test]
fn the_middle_of_an_even_number() {
    // Python 3.11.7: statistics.median, statistics.median_high.
    let values = [3.0, 1.0, 2.0, 10.0];
    assert_eq!((median(&values), median_high(&values)), (Some(2.5), Some(3.0)));
    assert_eq!((median(&values[..3]), median_high(&values[..3])), (Some(2.0), Some(2.0)));
}

#[test]
fn percentiles_of_members() {
    let sorted = [0.2, 0.5, 0.9, 1.4, 7.0, 11.0];
    // numpy 2.4.6: numpy.quantile(v, p), and with method="nearest" away from its ties.
    for (p, linear) in [(0.0, 0.2), (0.025, 0.23750000000000002), (0.5, 1.15), (0.9, 9.0), (1.0, 11.0)] {
        close(between_ranks(&sorted, p), linear, 1e-15);
    }
    for (p, member) in [(0.0, 0.2), (0.025, 0.2), (0.45, 0.9), (0.88, 7.0), (1.0, 11.0)] {
        assert_eq!(nearest_rank(&sorted, p), member, "{p}");
    }
}
