//! Published cases. Sources stand beside each; "from memory" where the source page was recalled,
//! not read.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use series::compare::{self, Weight};
use series::likelihood::{self, Family};
use series::{Observation, Reading, order_statistics, population, product_limit, trend};
use statistics::noncentral;

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

/// Rows of a file in tests/data: value and non-detect mark by column.
fn readings(text: &str, group: Option<&str>) -> Vec<Reading> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let offset = usize::from(group.is_some());
    reader
        .records()
        .map(Result::unwrap)
        .filter(|r| group.is_none_or(|g| &r[0] == g))
        .map(|r| {
            let v: f64 = r[offset].parse().unwrap();
            if &r[offset + 1] == "1" { Reading::Below(v) } else { Reading::Known(v) }
        })
        .collect()
}

fn arsenic() -> Vec<Reading> {
    readings(include_str!("data/c1_arsenic_oahu.csv"), None)
}

/// Arsenic in 24 samples, 13 non-detects at three limits: Helsel, Nondetects and Data Analysis
/// (2005), from memory. Tolerance: the last digit given.
#[test]
fn arsenic_of_helsel() {
    let data = arsenic();
    let pl = product_limit::product_limit(&data).unwrap();
    near(pl.mean(0.95).high, 0.949, 5e-4);
    assert_eq!(pl.mean(0.95).low, pl.mean(0.95).high);
    assert_eq!(pl.percentile(0.5), Reading::Known(0.7));
    let ros = order_statistics::order_statistics(&data).unwrap();
    near(ros.mean, 0.972, 5e-4);
    near(ros.sd, 0.718, 5e-4);
    near(ros.percentile(0.5), 0.7, 5e-4);
    let ml = likelihood::fit(&data, Family::Lognormal).unwrap();
    near(ml.mean(), 0.945, 5e-4);
    near(ml.sd(), 0.656, 5e-4);
    near(ml.percentile(0.5), 0.777, 5e-4);
}

/// Remission times turned round (35 − t): Freireich et al. (1963), Gehan (1965). Product limit of
/// the treated group by hand from the definition in any textbook; tolerance: the digits given.
#[test]
fn remission_times_turned_round() {
    let text = include_str!("data/c3_6mp_flipped.csv");
    let a = readings(text, Some("A"));
    let pl = product_limit::product_limit(&a).unwrap();
    let want = [
        (30.0, 0.857_143),
        (29.0, 0.806_723),
        (26.0, 0.752_941),
        (23.0, 0.690_196),
        (20.0, 0.627_451),
        (14.0, 0.537_815),
        (13.0, 0.448_179),
    ];
    assert_eq!(pl.steps.len(), want.len());
    for (step, (value, share)) in pl.steps.iter().zip(want) {
        near(step.value, value, 0.0);
        near(step.share_below, share, 5e-7);
    }
    let groups = [a, readings(text, Some("B"))];
    let gehan = compare::compare(&groups, Weight::Gehan, 0.95).unwrap();
    // Gehan (1965): W = 271, Z = 3.607.
    assert_eq!(gehan.s.unwrap().abs(), 271);
    near(gehan.z.unwrap().abs(), 3.607, 5e-3);
    let log_rank = compare::compare(&groups, Weight::LogRank, 0.95).unwrap();
    near(log_rank.chi_squared.unwrap(), 16.793, 5e-4);
}

fn series_of(values: &[f64]) -> Vec<Observation> {
    values.iter().enumerate().map(|(i, v)| Observation::new(i as f64, Reading::Known(*v))).collect()
}

/// Helsel & Hirsch, Statistical Methods in Water Resources (2002), worked example of Kendall's
/// line (from memory).
#[test]
fn line_of_helsel_and_hirsch() {
    let rows = series_of(&[1.0, 2.0, 3.0, 4.0, 5.0, 16.0, 7.0]);
    let t = trend::trend(&rows, &trend::Request::default()).unwrap();
    assert_eq!(t.test.s, 19);
    near(t.test.tau_b, 0.904_762, 5e-7);
    near(t.test.p, 0.002_778, 5e-7);
    near(t.slope.unwrap().per_year, 1.0, 1e-12);
}

/// Sodium in ppm, US EPA, Statistical Analysis of Groundwater Monitoring Data (2009), from memory.
#[test]
fn sodium_of_the_unified_guidance() {
    let mut reader = csv::Reader::from_reader(include_str!("data/c4_sodium_ug17.csv").as_bytes());
    let rows: Vec<Observation> = reader
        .records()
        .map(Result::unwrap)
        .map(|r| Observation::new(r[0].parse().unwrap(), Reading::Known(r[1].parse().unwrap())))
        .collect();
    let t = trend::trend(&rows, &trend::Request::default()).unwrap();
    assert_eq!(t.test.s, 25);
    near(t.test.p, 0.0286, 5e-5);
    near(t.slope.unwrap().per_year, 1.3333, 5e-5);
}

/// Hollander & Wolfe (1973), permeability of membranes (from memory): Mann–Whitney count 35, rank
/// sum of the second group 30, one-sided p 0.1272, shift 0.305.
#[test]
fn rank_sum_of_hollander_and_wolfe() {
    let known = |v: &[f64]| v.iter().map(|x| Reading::Known(*x)).collect::<Vec<_>>();
    let groups =
        [known(&[0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]), known(&[1.15, 0.88, 0.90, 0.74, 1.21])];
    let c = compare::compare(&groups, Weight::Gehan, 0.95).unwrap();
    // S = second above less second below; 50 pairs: count of the first above = (50 − S)/2.
    assert_eq!((50 - c.s.unwrap()) / 2, 35);
    near(c.p / 2.0, 0.1272, 5e-5);
    near(c.shifts[0].shift.unwrap().estimate, -0.305, 1e-12);
    // scipy 1.17.1, mannwhitneyu(x, y, alternative="two-sided", method="exact").pvalue
    near(c.p, 0.254_412_254_412_254_45, 1e-12);
}

/// Annual flow of the Nile at Aswan: Cobb (1978) Biometrika 65:243; Pettitt's K by its
/// definition.
#[test]
fn step_of_the_nile() {
    let mut reader = csv::Reader::from_reader(include_str!("data/c9_nile.csv").as_bytes());
    let rows: Vec<Observation> = reader
        .records()
        .map(Result::unwrap)
        .map(|r| Observation::new(r[0].parse().unwrap(), Reading::Known(r[1].parse().unwrap())))
        .collect();
    let c = trend::trend(&rows, &trend::Request::default()).unwrap().change_point.unwrap();
    assert_eq!(c.k, 1617);
    near(c.last_before_years, 1898.0, 0.0);
    // 2·exp(−6K²/(n³ + n²)), Pettitt (1979); the series has ties, which our variance takes in.
    let n = rows.len() as f64;
    let pettitt = 2.0 * (-6.0 * 1617.0_f64.powi(2) / (n.powi(3) + n.powi(2))).exp();
    near(c.p / pettitt, 1.0, 0.01);
}

/// One-sided tolerance factors, 95 % of the population with 95 % confidence: published tables
/// (Hahn & Meeker 1991, from memory); n = 43 at 90/99 of the NIST/SEMATECH handbook 7.2.6.3.
#[test]
fn tolerance_factors() {
    for (n, k) in [(5, 4.2027), (8, 3.1873), (10, 2.9110), (20, 2.3960), (30, 2.2198)] {
        near(noncentral::tolerance_factor(n, 0.95, 0.95), k, 5e-5);
    }
    near(noncentral::tolerance_factor(43, 0.90, 0.99), 1.8740, 5e-5);
}

/// Clopper–Pearson 0 of 10; ranks of the median of 25 (binomial table).
#[test]
fn exact_limits_of_shares_and_ranks() {
    let (low, high) = population::clopper_pearson(0, 10, 0.95).unwrap();
    near(low, 0.0, 0.0);
    near(high, 0.3085, 5e-5);
    near(population::clopper_pearson_upper(0, 10, 0.95).unwrap(), 0.2589, 5e-5);
    assert_eq!(population::percentile_ranks(25, 0.5, 0.95).unwrap(), (Some(8), Some(18)));
    // Garwood's limits: 3.689 for a count of zero, two-sided (tables of the Poisson mean).
    near(population::poisson_interval(0, 0.95).unwrap().1, 3.689, 5e-4);
}

/// Rank of the upper confidence limit of a percentile; table computed from the binomial
/// distribution (scipy).
#[test]
fn ranks_of_upper_limits_of_percentiles() {
    let text = include_str!("data/blank_ucl_ranks.csv");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let mut rows = 0;
    for r in reader.records().map(Result::unwrap) {
        let n: usize = r[0].parse().unwrap();
        let (p, c): (f64, f64) = (r[1].parse().unwrap(), r[2].parse().unwrap());
        let got = population::percentile_upper_rank(n, p, c).unwrap();
        assert_eq!(got, r[3].parse().ok(), "{n} {p} {c}");
        rows += 1;
    }
    assert!(rows > 50);
}
