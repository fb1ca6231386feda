//! Means, robust means and nested designs against NIST, ISO 13528 and JCGM 100.

use measurement::error::Error;
use measurement::robust::{algorithm_a, lag_one_autocorrelation, mean_sd, median, nested};

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

fn data(set: &str) -> Vec<f64> {
    // NumAcc2 and 3 are given by rule: a first value, then 500 pairs about it.
    if let Some(base) = match set {
        "numacc2" => Some(1.2),
        "numacc3" => Some(1_000_000.2),
        _ => None,
    } {
        let mut v = vec![base];
        for _ in 0..500 {
            v.push(base - 0.1);
            v.push(base + 0.1);
        }
        return v;
    }
    let mut t = csv::Reader::from_path("tests/data/nist_strd_univariate.csv").expect("data");
    t.records().map(|r| r.expect("a row")).filter(|r| &r[0] == set).map(|r| r[2].parse().expect("a number")).collect()
}

/// NIST StRD univariate (data as in `tests/line.rs`). The data as f64 hold what the certificate
/// means to about 1e-16 of their size; sd of NumAcc3 (0.1 on a million) keeps 9 digits of that.
#[test]
fn nist_univariate_datasets() {
    let mut t = csv::Reader::from_path("tests/data/nist_strd_univariate_certified.csv").expect("values");
    let mut sets = 0;
    for r in t.records() {
        let r = r.expect("a row");
        let n = |i: usize| r[i].parse::<f64>().expect("a number");
        let values = data(&r[0]);
        assert_eq!(values.len(), r[1].parse::<usize>().expect("n"), "{}", &r[0]);
        let (mean, sd) = mean_sd(&values).expect("a mean");
        let lag = lag_one_autocorrelation(&values).expect("a correlation");
        near(mean / n(2), 1.0, 1e-14);
        let grain = (n(2) / n(3)).abs() * f64::EPSILON;
        near(sd / n(3), 1.0, 1e-13 + grain);
        near(lag / n(4), 1.0, 1e-12 + 4.0 * grain);
        sets += 1;
    }
    assert_eq!(sets, 5);
}

/// Seven results with one far out; numpy, 200 rounds of the clauses as written: 5.386489230096 and
/// 1.145956920383.
#[test]
fn algorithm_a_reaches_its_fixed_point() {
    let values = [4.5, 4.9, 5.6, 4.2, 6.2, 5.2, 9.9];
    near(median(&values).expect("a median"), 5.2, 1e-12);
    let r = algorithm_a(&values).expect("converges");
    near(r.mean, 5.386_489_230_096, 1e-10);
    near(r.sd, 1.145_956_920_383, 1e-10);
    near(r.u_mean, 1.25 * r.sd / 7.0_f64.sqrt(), 1e-12);
    assert_eq!(r.pulled_in, 1);
    // The outlier may be as far out as it likes.
    let mut far = values;
    far[6] = 9900.0;
    near(algorithm_a(&far).expect("converges").mean, r.mean, 1e-9);
}

#[test]
fn algorithm_a_refuses_what_has_no_robust_scatter() {
    assert!(matches!(algorithm_a(&[1.0, 1.0, 1.0, 5.0]), Err(Error::OutOfRange { .. })));
    assert!(matches!(algorithm_a(&[1.0, 2.0]), Err(Error::TooFew { .. })));
    assert!(matches!(algorithm_a(&[1.0, f64::NAN, 2.0]), Err(Error::NotFinite { .. })));
    assert!(matches!(mean_sd(&[1.0]), Err(Error::TooFew { .. })));
    assert!(matches!(lag_one_autocorrelation(&[1.0, 1.0]), Err(Error::ZeroDenominator { .. })));
}

/// JCGM 100 H.5, voltage standard over ten days (from memory; table and results agree when
/// recomputed): mean 10.000 097 V, s of the day means 57 µV, s within 85 µV, F = 2.25 from the
/// rounded figures (2.26 from the table), F(0.95; 9, 40) = 2.12, s of the days 43 µV, u 18 µV.
#[test]
fn gum_h5_analysis_of_variance() {
    let means = [172.0, 116.0, 13.0, 144.0, 106.0, 31.0, 60.0, 125.0, 163.0, 41.0];
    let sds = [60.0, 77.0, 111.0, 101.0, 67.0, 93.0, 80.0, 73.0, 88.0, 86.0];
    let r = nested(&means, &sds, 5).expect("a result");
    near(r.mean, 97.0, 0.5);
    near(r.sd_group_means, 57.0, 0.5);
    near(r.sd_within, 85.0, 0.5);
    near(r.f, 2.25, 0.02);
    near(r.sd_between, 43.0, 0.5);
    near(r.u_mean, 18.0, 0.5);
    assert_eq!((r.dof_between, r.dof_within), (9, 40));
    near(statistics::f::quantile(0.95, 9.0, 40.0), 2.12, 5e-3);
    assert!(r.p < 0.05 && r.p > 0.025);
}
