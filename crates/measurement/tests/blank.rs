//! Blanks: ranks of order-statistic limits against a computed table, robust location.

#![allow(clippy::float_cmp)] // whole numbers come out whole

use measurement::blank::{OrderLimit, centre, fewest, percentile_limit, rank_of_limit, robust_centre};

#[test]
fn ranks_of_the_table() {
    // `data/blank_ucl_ranks.csv`: computed from the binomial distribution, four decimals.
    let mut t = csv::Reader::from_path("tests/data/blank_ucl_ranks.csv").expect("the table");
    let mut rows = 0;
    for r in t.records().map(|r| r.expect("a row")) {
        let n: usize = r[0].parse().expect("n");
        let (p, c): (f64, f64) = (r[1].parse().expect("p"), r[2].parse().expect("c"));
        match rank_of_limit(n, p, c) {
            None => assert!(r[3].starts_with("none"), "{r:?}"),
            Some((rank, achieved)) => {
                assert_eq!(rank.to_string(), r[3], "{r:?}");
                let want: f64 = r[4].parse().expect("a confidence");
                assert!((achieved - want).abs() < 6e-5, "{r:?}: {achieved}");
            }
        }
        rows += 1;
    }
    assert!(rows > 50);
}

#[test]
fn fewest_blanks_for_a_percentile() {
    // n = ceil(ln(1 − C)/ln p), computed.
    for (p, ninety, ninety_five) in
        [(0.50, 4, 5), (0.75, 9, 11), (0.80, 11, 14), (0.85, 15, 19), (0.90, 22, 29), (0.95, 45, 59)]
    {
        assert_eq!((fewest(p, 0.90), fewest(p, 0.95)), (ninety, ninety_five), "{p}");
    }
}

#[test]
fn the_median_of_twenty_five_has_rank_eighteen() {
    // Two-sided 95 %: ranks 8 and 18 (textbook, from memory); the upper one is one-sided 97.5 %.
    let x: Vec<f64> = (1..=25).map(f64::from).collect();
    let OrderLimit::Given { limit, rank, .. } = percentile_limit(&x, 0.5, 0.975) else { panic!("25 are enough") };
    assert_eq!((limit, rank), (18.0, 18));
}

#[test]
fn a_robust_centre_follows_the_many() {
    let mut x = vec![1.0, 1.1, 0.9, 1.05, 0.95, 1.02, 0.98, 1.0];
    let clean = centre(&x);
    x.push(20.0);
    let (plain, robust) = (centre(&x), robust_centre(&x));
    assert!(plain.value > 3.0 && plain.sd > 6.0);
    assert!((robust.value - clean.value).abs() < 0.03, "{robust:?}");
    assert!(robust.sd < 2.0 * clean.sd, "{robust:?}");
    assert_eq!(robust.weights[8], 0.0);
    assert!((robust.weights.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    // Without outliers the two agree closely; equal members have no spread.
    let smooth: Vec<f64> = (0..9).map(|i| f64::from(i) - 4.0).collect();
    assert!(robust_centre(&smooth).value.abs() < 1e-12);
    assert_eq!(robust_centre(&[0.1; 7]).sd, 0.0);
    assert_eq!(centre(&[0.1; 7]).sd, 0.0);
}
