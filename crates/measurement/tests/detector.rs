//! Dead time and cross factor found again from data made with known ones.

use crate::common;

use common::Random;
use measurement::detector::{BothModes, SeriesPoint, fit_cross_factor, fit_dead_time};
use measurement::error::Error;

#[test]
fn a_dead_time_is_found_again() {
    // n = N/(1 + N·τ); published pair computed from the same model: 1e6/s and 50 ns give
    // N = 1 052 632/s.
    let observed = |truth: f64| truth / (1.0 + truth * 50e-9);
    assert!((observed(1_052_631.6) - 1e6).abs() < 1.0);
    let mut random = Random::new(5);
    let (mut inside, runs) = (0, 500);
    for _ in 0..runs {
        let series: Vec<SeriesPoint> = [1.0, 2.0, 5.0, 10.0, 15.0, 20.0]
            .map(|c| {
                let time = 20.0;
                let n = random.poisson(observed(1e5 * c) * time) / time;
                SeriesPoint { concentration: c, relative_u: 0.0, rate_cps: n, u_cps: (n / time).sqrt() }
            })
            .to_vec();
        let fit = fit_dead_time(&series).expect("a fit");
        inside += i32::from((fit.ns - 50.0).abs() < 1.96 * fit.u_ns);
        assert!(fit.u_ns < 1.0 && (fit.sensitivity / 1e5 - 1.0).abs() < 0.01);
    }
    // 95 % with a standard deviation of 1 % in 500 runs.
    let share = f64::from(inside) / f64::from(runs);
    assert!((0.92..=0.98).contains(&share), "{share}");
    assert!(matches!(fit_dead_time(&[]), Err(Error::TooFew { .. })));
}

#[test]
fn a_cross_factor_is_the_weighted_mean_and_wider_where_ratios_scatter() {
    let vial = |ratio: f64, u: f64| BothModes {
        counting_cps: 1e6 * ratio,
        u_counting: 1e6 * ratio * u,
        analogue: 1e4,
        u_analogue: 1e-9,
    };
    let smooth = fit_cross_factor(&[vial(1.0, 0.001), vial(1.0, 0.001)]).expect("a factor");
    assert!((smooth.value - 100.0).abs() < 1e-9 && (smooth.widened - 1.0).abs() < 1e-12);
    assert!((smooth.u - 0.1 / 2.0_f64.sqrt()).abs() < 1e-9);
    let rough = fit_cross_factor(&[vial(0.99, 0.001), vial(1.01, 0.001)]).expect("a factor");
    assert!((rough.widened - 14.14).abs() < 0.2, "{}", rough.widened);
    assert!(fit_cross_factor(&[vial(1.0, 0.001)]).is_err());
    assert!(fit_cross_factor(&[vial(1.0, 0.001), vial(-1.0, 0.001)]).is_err());
}

/// N·τ = −W₀(−n·τ), W₀ the main branch of Lambert's function; values by mpmath 1.3.0, `-lambertw(-y)` at 25 digits.
#[test]
fn the_extending_model_is_inverted_on_its_lower_branch() {
    use measurement::detector::DeadTimeModel::{Extending, NonExtending};
    let tau = 40e-9;
    for (y, x) in [
        (1e-6, 1.000_001_000_001_5e-6),
        (0.01, 0.010_101_527_198_538_753),
        (0.1, 0.111_832_559_158_962_96),
        (0.2, 0.259_171_101_819_073_7),
        (0.3, 0.489_402_227_180_215),
        (0.35, 0.716_638_816_456_073_9),
        (0.367, 0.932_399_184_747_928_5),
        (0.3678, 0.979_360_714_957_828_5),
    ] {
        let got = Extending.true_rate(y / tau, tau).expect("under the most") * tau;
        // Near the maximum dN/dn grows as 1/(1 − x), and rounding of y with it.
        assert!((got / x - 1.0).abs() < 1e-14 / (1.0 - x), "{y}: {got} {x}");
        assert!((Extending.observed(got / tau, tau) * tau / y - 1.0).abs() < 1e-14);
    }
    let most = (-1.0_f64).exp() / tau;
    assert_eq!(Extending.true_rate(most * 1.0001, tau), None);
    assert_eq!(NonExtending.true_rate(1.0 / tau, tau), None);
    assert_eq!(Extending.true_rate(1e6, 0.0), Some(1e6));
    // Slopes against differences.
    for model in [Extending, NonExtending] {
        let n = 4e6;
        let rate = |n: f64, tau: f64| model.true_rate(n, tau).expect("under the most");
        let by_tau = (rate(n, tau + 1e-13) - rate(n, tau - 1e-13)) / 2e-13;
        let by_n = (rate(n + 1.0, tau) - rate(n - 1.0, tau)) / 2.0;
        let at = rate(n, tau);
        // Central differences: rounding of 4e6 over steps of one count.
        assert!((model.by_dead_time(at, tau) / by_tau - 1.0).abs() < 1e-5);
        assert!((model.by_observed(at, tau) / by_n - 1.0).abs() < 1e-6);
    }
}
