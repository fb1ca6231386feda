//! Exact bounds of counts and shares, tolerance factors, and further points of the quantiles,
//! against scipy 1.17.1 (the command stands beside each list) and printed tables.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use statistics::bound::{reported_upper_bound, upper_bound};
use statistics::{beta, binomial, chi2, gamma, noncentral, normal, poisson, t};

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
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
        (200_000, 200737.1708191615),
    ] {
        close(poisson::upper_limit(n, 0.05), want, 1e-10);
    }
    // scipy 1.17.1: stats.chi2.ppf(.05, 2*n)/2.
    for (n, want) in
        [(1, 0.05129329438755053), (20, 13.254651598346555), (5000, 4884.262567833768), (200_000, 199264.96804850159)]
    {
        close(poisson::lower_limit(n, 0.05), want, 1e-10);
    }
    assert_eq!(poisson::lower_limit(0, 0.05), 0.0);
    // Two-sided 95 % after zero: 3.689 (common tables).
    close(poisson::upper_limit(0, 0.025), 3.689, 2e-4);
}

#[test]
fn binomial_bounds_are_exact() {
    // scipy 1.17.1: stats.binomtest(k, n).proportion_ci(.95), which itself holds 1e-9 or so.
    // 0 of 10: 0.3085 in many tables.
    for (k, n, low, high) in [
        (0, 10, 0.0, 0.30849710781876294),
        (3, 2003, 0.00030897931989722755, 0.004370773399035033),
        (10, 10, 0.6915028921812371, 1.0),
    ] {
        close(binomial::lower_limit(k, n, 0.025), low, 1e-8);
        close(binomial::upper_limit(k, n, 0.025), high, 1e-8);
    }
    assert_eq!(binomial::below(0, 10, 0.3), 0.0);
    // (1/2)^10, and all but one of ten.
    close(binomial::below(1, 10, 0.5), 1.0 / 1024.0, 1e-14);
    close(binomial::below(10, 10, 0.5), 1023.0 / 1024.0, 1e-14);
}

#[test]
fn t_quantiles_agree_with_scipy() {
    // scipy 1.17.1: stats.t.ppf(p, dof).
    for (p, dof, want) in [
        (0.975, 4.0, 2.7764451051977934),
        (0.95, 9.5, 1.8221893013186778),
        (0.975, 1.0, 12.706204736174694),
        (0.995, 2.3, 8.003745266871091),
        (0.975, 5.0, 2.5705818356363146),
        (0.975, 30.0, 2.0422724563012378),
        (0.9995, 3.0, 12.923978636687961),
        (0.6, 2.5, 0.2814595127485477),
        (0.9999, 100.0, 3.861599790950091),
        (0.975, 199.0, 1.9719565442517533),
        (0.975, 201.0, 1.971836506779859),
        (0.995, 300.0, 2.5923164108477925),
        (0.95, 1000.0, 1.6463788172854643),
        (0.975, 1e6, 1.959966356814107),
    ] {
        close(t::quantile(p, dof), want, 1e-10);
    }
    // The definition: both tails of one quantile.
    close(t::two_sided_p(2.7764451051977934, 4.0), 0.05, 1e-10);
    close(t::two_sided_p(-2.7764451051977934, 4.0), 0.05, 1e-10);
}

#[test]
fn gamma_and_beta_quantiles_agree_with_scipy() {
    // scipy 1.17.1: stats.gamma.ppf(p, shape).
    for (p, shape, want) in [
        (0.025, 1.0, 0.025317807984289876),
        (0.5, 0.3, 0.07313113586695198),
        (0.975, 0.1, 0.9779047994188529),
        (0.95, 20.0, 27.87923963944351),
        (0.01, 400.0, 354.9484571268853),
        (0.001, 0.2, 6.525480843457226e-16),
    ] {
        close(gamma::quantile(p, shape), want, 1e-10);
    }
    // scipy 1.17.1: stats.beta.ppf(p, a, b).
    for (p, a, b, want) in [
        (0.975, 1.0, 10.0, 0.3084971078187607),
        (0.025, 3.0, 8.0, 0.06673951117773447),
        (0.95, 44.0, 57.0, 0.5171755003428391),
    ] {
        close(beta::quantile(p, a, b), want, 1e-10);
    }
    // scipy 1.17.1: stats.chi2.sf(16.793, 1).
    close(chi2::sf(16.793, 1.0), 4.168679471886338e-05, 1e-10);
}

#[test]
fn logarithm_of_a_far_normal_tail() {
    // scipy 1.17.1: stats.norm.logcdf(z).
    for (z, want) in [
        (-40.0, -804.6084420137539),
        (-31.0, -484.8539636271794),
        (-10.0, -53.23128515051248),
        (-1.0, -1.8410216450092634),
        (2.0, -0.023012909328963476),
    ] {
        close(normal::log_cdf(z), want, 1e-12);
    }
    // d ln Φ/dz = φ/Φ, on both sides of the change of formula. Central difference: 1e-7 or so.
    for z in [-45.0, -29.0, -3.0, 0.5] {
        let slope = (normal::log_cdf(z + 1e-4) - normal::log_cdf(z - 1e-4)) / 2e-4;
        close(normal::inverse_mills(z), slope, 1e-6);
    }
}

#[test]
fn noncentral_t_agrees_with_scipy() {
    // scipy 1.17.1: stats.nct.cdf(t, dof, delta).
    for (t, dof, delta, want) in [
        (3.0, 4.0, 2.0, 0.710539476289959),
        (9.4, 4.0, 3.678, 0.9500457358213807),
        (2.5, 9.5, 0.0, 0.9837074711051979),
        (1.2, 60.0, 1.0, 0.5768481792690934),
        (-0.5, 3.0, 1.5, 0.027043003383508422),
    ] {
        close(noncentral::cdf(t, dof, delta), want, 1e-10);
        close(noncentral::quantile(want, dof, delta), t, 1e-10);
    }
    // Without non-centrality it is Student's t; far tails too.
    for p in [1e-8, 0.3, 0.999_999] {
        close(noncentral::quantile(p, 3.0, 0.0), t::quantile(p, 3.0), 1e-9);
    }
    assert!(noncentral::quantile(1.0, 3.0, 0.0).is_nan());
}

#[test]
fn tolerance_factors() {
    // scipy 1.17.1: stats.nct.ppf(confidence, n - 1, sqrt(n)*norm.ppf(share))/sqrt(n).
    for (n, share, confidence, want) in [
        (2, 0.95, 0.95, 26.25967398303447),
        (5, 0.95, 0.95, 4.202680741256176),
        (43, 0.9, 0.99, 1.8739536058511987),
        (8, 0.99, 0.9, 3.7825489618761186),
        (300, 0.95, 0.95, 1.7996419304741287),
        (10, 0.5, 0.95, 0.5796812075504559),
    ] {
        close(noncentral::tolerance_factor(n, share, confidence), want, 1e-9);
    }
    assert!(noncentral::tolerance_factor(1, 0.95, 0.95).is_nan());
}

#[test]
fn the_quick_normal_quantile_is_the_polished_one() {
    // 1e-14: ten roundings of numbers near one; the two differ by the last step of the polish only.
    for i in 1..10_000 {
        let p = f64::from(i) / 10_000.0;
        let (quick, polished) = (statistics::normal::quick_quantile(p), statistics::normal::quantile(p));
        assert!((quick - polished).abs() <= 1e-14 * polished.abs().max(1.0), "p {p}: {quick} and {polished}");
    }
    assert!(statistics::normal::quick_quantile(0.0).is_nan() && statistics::normal::quick_quantile(1.0).is_nan());
}

/// t(0.95, ν): 2.0150 at 5, 2.9200 at 2, 1.9432 at 6, 1.6449 at infinity (printed tables; scipy 1.17.1
/// `stats.t.isf(0.05, dof)` agrees to their digits).
#[test]
fn a_bound_lies_over_zero_and_never_under_the_critical_value() {
    for (net, u, dof, critical, want) in [
        (-0.0152, 0.0034, 5.0, None, 2.0150 * 0.0034),
        (-0.0152, 0.0034, 5.0, Some(0.0094), 0.0094),
        (0.005, 0.0034, 5.0, Some(0.0094), 0.005 + 2.0150 * 0.0034),
        (0.0, 0.3, f64::INFINITY, None, 1.6449 * 0.3),
        (-1e6, 0.3, f64::INFINITY, None, 1.6449 * 0.3),
    ] {
        close(upper_bound(net, u, dof, critical), want, 5e-5);
    }
    // A laboratory's u: 2 where it says nothing of degrees of freedom, and where it states many.
    for (dof, k) in [(f64::INFINITY, 2.0), (6.0, 2.0), (2.0, 2.9200)] {
        close(reported_upper_bound(-0.5, 0.1, dof, None), k * 0.1, 5e-5);
    }
    assert_eq!(reported_upper_bound(-0.02, 0.001, f64::INFINITY, Some(0.005)), 0.005);
}
