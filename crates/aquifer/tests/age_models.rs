//! Weighting functions against their closed forms, and convolutions against scipy.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use crate::age_data::{SAMPLED, gas, tritium};
use aquifer::age::tritium::lambda;
use aquifer::age::{Model, Pieces, Tracer, convolve};

/// λ of 12.32 y, which the table of checks takes.
const L: f64 = 0.056_262;

fn check(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn pm(mean: f64) -> Model {
    Model::Piston { mean }
}
fn em(mean: f64) -> Model {
    Model::Exponential { mean }
}
fn epm(mean: f64, eta: f64) -> Model {
    Model::ExponentialPiston { mean, eta }
}
fn dm(mean: f64, d: f64) -> Model {
    Model::Dispersion { mean, d }
}

fn several() -> Vec<Model> {
    let mut out = vec![em(10.0), em(1000.0), epm(25.0, 1.5), epm(40.0, 4.0 / 3.0), dm(25.0, 0.02), dm(25.0, 0.1)];
    out.extend([dm(200.0, 0.5), dm(25.0, 2.0), Model::PartialExponential { scale: 30.0, from: 10.0, to: 60.0 }]);
    out.push(Model::Mixture { share: 0.3, first: em(20.0).into(), second: Some(dm(300.0, 0.1).into()) });
    out
}

/// What is left of a constant input, by formula and by convolution.
#[test]
fn constant_input_leaves_the_closed_forms() {
    // Closed forms of Maloszewski & Zuber (from memory), computed in plain Python with 12.32 y to six digits; λ is given
    // here to five, hence 1e-5.
    for (t, want) in
        [(10.0, [0.639951, 0.569715, 0.602871, 0.586200]), (25.0, [0.415533, 0.244987, 0.322920, 0.286436])]
            .into_iter()
            .chain([
                (50.0, [0.262254, 0.060019, 0.136165, 0.101358]),
                (100.0, [0.150916, 0.003602, 0.032267, 0.018051]),
            ])
    {
        for (model, want) in [em(t), pm(t), epm(t, 1.5), dm(t, 0.1)].into_iter().zip(want) {
            check(model.transmitted(L), want, 1.5e-4);
            check(convolve(&Pieces::constant(1.0), &model, L).unwrap(), model.transmitted(L), 1e-8);
        }
    }
    check(dm(25.0, 0.02).transmitted(L), 0.254345, 1e-5);
    check(dm(25.0, 0.5).transmitted(L), 0.385692, 1e-5);
    // One limit each: η = 1 is exponential, a large η and a small D are piston.
    check(epm(25.0, 1.0).transmitted(L), em(25.0).transmitted(L), 1e-14);
    check(epm(25.0, 1e6).transmitted(L), pm(25.0).transmitted(L), 1e-5);
    check(dm(25.0, 1e-8).transmitted(L), pm(25.0).transmitted(L), 1e-5);
}

#[test]
fn a_screen_to_the_bottom_is_the_exponential_piston_model() {
    let open = Model::PartialExponential { scale: 30.0, from: 10.0, to: f64::INFINITY };
    check(open.transmitted(L), 0.211959, 1e-5);
    check(open.transmitted(L), epm(40.0, 4.0 / 3.0).transmitted(L), 1e-12);
    let cut = Model::PartialExponential { scale: 30.0, from: 10.0, to: 60.0 };
    check(cut.transmitted(L), 0.258352, 1e-5);
    // Plain Python, closed form and quadrature.
    check(cut.mean().unwrap(), 28.3572, 1e-5);
    // Ages of a screen: t = Ta·ln(H/(H − z)).
    let of = Model::of_screen(30.0, 50.0, 10.0, 40.0).unwrap();
    assert_eq!(of, Model::PartialExponential { scale: 30.0, from: 30.0 * 1.25f64.ln(), to: 30.0 * 5f64.ln() });
    assert!(Model::of_screen(30.0, 50.0, 40.0, 60.0).is_err() && Model::of_screen(30.0, 50.0, 20.0, 20.0).is_err());
}

#[test]
fn every_weighting_function_has_weight_mean_variance_and_median() {
    for model in several() {
        // Simpson in ln τ over eight decades: an integration that shares nothing with the code.
        let n = 400_000;
        let (a, b) = (1e-3f64.ln(), 1e5f64.ln());
        let h = (b - a) / f64::from(n);
        let mut sums = [0.0; 3];
        for k in 0..=n {
            let tau = (a + h * f64::from(k)).exp();
            let w = if k == 0 || k == n {
                1.0
            } else if k % 2 == 1 {
                4.0
            } else {
                2.0
            } * h
                / 3.0;
            let g = tau * model.density(tau).unwrap() * w;
            sums[0] += g;
            sums[1] += g * tau;
            sums[2] += g * tau * tau;
        }
        // A step of g within an interval of 5e-5 in ln τ, and what lies below a thousandth of a year.
        check(sums[0], 1.0, 2e-4);
        check(sums[1], model.mean().unwrap(), 2e-4);
        if let Model::Dispersion { mean, d } = model {
            check(sums[2] - sums[1] * sums[1], 2.0 * d * mean * mean, 1e-3);
        }
        check(model.younger_than(model.median().unwrap()), 0.5, 1e-9);
        check(model.younger_than(1e9), 1.0, 1e-9);
        assert_eq!(model.younger_than(0.0), 0.0);
    }
}

#[test]
fn the_cumulative_is_the_integral_of_the_density() {
    for model in several() {
        for t in [5.0, 20.0, 30.0, 74.0, 400.0] {
            let h = 1e-4 * t;
            let slope = (model.younger_than(t + h) - model.younger_than(t - h)) / (2.0 * h);
            // The difference quotient of a smooth function; g has a step at 10 and 60 only.
            assert!((slope - model.density(t).unwrap()).abs() < 1e-7 / t + 1e-4 * slope, "{model:?} at {t}");
        }
    }
}

#[test]
fn young_share_of_an_exponential_model() {
    // Closed form 1 − exp(−t/T), plain Python.
    for (t, want) in [(30.0, 0.915133), (200.0, 0.309266), (1000.0, 0.071328)] {
        check(em(t).younger_than(74.0), want, 1e-5);
    }
}

#[test]
fn a_growing_gas_reads_too_young() {
    // A gas that grows by 6.9 % a year (USGS page on SF6): the piston age of exponential water is ln(1 + rT)/r.
    let r = 0.069;
    for (t, want) in [(10.0, 7.6048), (20.0, 12.5667), (40.0, 19.1945)] {
        // Growth backwards in time is decay.
        let c = convolve(&Pieces::constant(1.0), &em(t), r).unwrap();
        check(-c.ln() / r, want, 1e-4);
    }
}

#[test]
fn convolutions_agree_with_scipy() {
    let (rain, air) = (tritium(0.0).input(SAMPLED).value, gas(Tracer::Sf6, 1.0, 0.0).input(SAMPLED).value);
    let mut count = 0;
    // scipy 1.17.1, integrate.quad (data/age_convolution.py).
    for line in include_str!("data/age_convolution.csv").lines().skip(2) {
        let f: Vec<&str> = line.split(',').collect();
        let n = |k: usize| f[k].parse::<f64>().unwrap();
        let model = match f[1] {
            "exponential" => em(n(2)),
            "exponential-piston" => epm(n(2), n(3)),
            "dispersion" => dm(n(2), n(3)),
            _ => Model::PartialExponential { scale: n(2), from: n(3), to: n(4) },
        };
        let got = if f[0] == "tritium" { convolve(&rain, &model, lambda()) } else { convolve(&air, &model, 0.0) };
        // The tail that is left out is 1e-9 of the weight, times an input of up to 240 times the mean.
        check(got.unwrap(), n(5), 2e-8);
        count += 1;
    }
    assert_eq!(count, 24);
}

#[test]
fn parameters_that_cannot_be_are_refused() {
    let bad = [em(0.0), em(f64::NAN), pm(-3.0), epm(10.0, 0.9), dm(10.0, 0.0), dm(-1.0, 0.1)];
    for model in bad {
        assert!(convolve(&Pieces::constant(1.0), &model, L).is_err(), "{model:?}");
    }
    let share = Model::Mixture { share: 30.0, first: em(3.0).into(), second: None };
    assert!(share.check().unwrap_err().to_string().contains("share"));
}
