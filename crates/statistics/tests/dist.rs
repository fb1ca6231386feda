//! Distributions against scipy 1.17.1 and, for Poisson probabilities, mpmath 1.3.0 (the table and
//! the script that made it stand in `tests/data`).

// NaN must fail a check, and exact answers are exact.
#![allow(clippy::float_cmp, clippy::neg_cmp_op_on_partial_ord)]

use statistics::{beta, binomial, chi2, f, gamma, noncentral, normal, poisson, t};

/// Asked of us: 1e-10 relative.
const TOLERANCE: f64 = 1e-10;

fn ours(name: &str, x: f64, a: f64, b: f64) -> f64 {
    match name {
        "normal_cdf" => normal::cdf(x),
        "normal_quantile" => normal::quantile(x),
        "t_cdf" => t::cdf(x, a),
        "t_sf" => t::sf(x, a),
        "t_quantile" => t::quantile(x, a),
        "t_upper_quantile" => t::upper_quantile(x, a),
        "chi2_cdf" => chi2::cdf(x, a),
        "chi2_sf" => chi2::sf(x, a),
        "chi2_quantile" => chi2::quantile(x, a),
        "chi2_upper_quantile" => chi2::upper_quantile(x, a),
        "f_cdf" => f::cdf(x, a, b),
        "f_sf" => f::sf(x, a, b),
        "f_quantile" => f::quantile(x, a, b),
        "beta_cdf" => beta::tails(x, a, b).lower,
        "beta_quantile" => beta::quantile(x, a, b),
        "gamma_quantile" => gamma::quantile(x, a),
        "binomial_pmf" => binomial::pmf(x as u64, a as u64, b),
        "binomial_cdf" => binomial::cdf(x as u64, a as u64, b),
        "poisson_pmf" => poisson::pmf(x as u64, a),
        "poisson_cdf" => poisson::cdf(x as u64, a),
        "detection_delta" => noncentral::detection_delta(x, a, b),
        "nct_cdf" => noncentral::cdf(x, a, b),
        other => panic!("unknown function in the table: {other}"),
    }
}

#[test]
fn scipy_table_is_met() {
    let mut table = csv::Reader::from_path("tests/data/dist_scipy.csv").expect("the table");
    let mut worst: Vec<(f64, String)> = Vec::new();
    let mut rows = 0;
    for record in table.records() {
        let r = record.expect("a row");
        let n = |i: usize| r[i].parse::<f64>().expect("a number");
        let got = ours(&r[0], n(1), n(2), n(3));
        let expected = n(4);
        let error = if got == expected {
            0.0
        } else if expected == 0.0 || (r[0].contains("quantile") && expected.abs() < 1e-15) {
            // A median of zero that scipy gives as 1e-17: the scale is 1.
            (got - expected).abs()
        } else {
            ((got - expected) / expected).abs()
        };
        rows += 1;
        if !(error <= TOLERANCE) {
            worst.push((error, format!("{:?}: ours {got:e}, error {error:e}", &r)));
        }
    }
    worst.sort_by(|a, b| b.0.total_cmp(&a.0));
    let text: Vec<_> = worst.iter().map(|w| w.1.as_str()).collect();
    assert!(worst.is_empty(), "{} of {rows}:\n{}", worst.len(), text.join("\n"));
    assert!(rows > 1000, "the table was cut short");
}

/// mpmath 1.3.0, 40 digits: the cases where the general-purpose Rust library is wrong.
#[test]
fn extreme_tails_are_right() {
    let close = |got: f64, want: f64| assert!(((got - want) / want).abs() < 1e-12, "{got} {want}");
    // tan(π(1/2 − 1e-10)), exact for one degree of freedom.
    close(t::upper_quantile(1e-10, 1.0), 3_183_098_861.837_907);
    // π/2·p² to first order, next term 1e-12 relative: erfinv(1e-6)²·2.
    close(chi2::quantile(1e-6, 1.0), 1.570_796_326_795_719e-12);
    assert!(t::quantile(1.5, 3.0).is_nan());
    assert!(t::quantile(0.3, -1.0).is_nan());
    assert!(noncentral::detection_delta(0.6, 0.5, 3.0).is_nan());
    // No counts: −ln 0.05.
    close(poisson::upper_limit(0, 0.05), 2.995_732_273_553_991);
    assert_eq!(poisson::lower_limit(0, 0.05), 0.0);
    assert_eq!(poisson::quantile(0.95, 3.0), 6);
}

/// mpmath 1.3.0, 40 digits (`tests/data/tails_mpmath.py`): Student's tail by the incomplete beta function, the
/// non-central one by its integral over the normal tail; neither takes a small number as a difference of large ones.
/// The smallest is 1e-290, the largest t 1e8.
#[test]
fn tails_of_t_at_extreme_arguments() {
    let mut table = csv::Reader::from_path("tests/data/tails_mpmath.csv").expect("the table");
    let (mut rows, mut wrong) = (0, Vec::new());
    for record in table.records() {
        let r = record.expect("a row");
        let n = |i: usize| r[i].parse::<f64>().expect("a number");
        let (got, want) = match &r[0] {
            "t_sf" => (t::sf(n(1), n(2)), n(4)),
            "t_upper_quantile" => (t::upper_quantile(n(1), n(2)), n(4)),
            _ => (noncentral::sf(n(1), n(2), n(3)), n(4)),
        };
        // Under 1e-290 the non-central tail is not promised.
        if want < 1e-290 {
            continue;
        }
        rows += 1;
        if !(((got - want) / want).abs() <= TOLERANCE) {
            wrong.push(format!("{:?}: ours {got:e}", &r));
        }
    }
    assert!(wrong.is_empty(), "{} of {rows}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(rows > 200, "the table was cut short");
}
