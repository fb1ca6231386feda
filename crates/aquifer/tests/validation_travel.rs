//! Travel time, capture, tracer ages, mixing: hand computation, closed forms of the simulated laws.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use aquifer::mixing::{End, Mixed, measured, mix};
use aquifer::travel::{Age, Draws, Known, Path, age_finding, capture, formations, gradient, travel_time_years};
use quantity::{Amount, Outcome, Unit};

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn path() -> Path {
    Path {
        distance_m: Known::Measured(6000.0, 0.0),
        gradient: Known::Measured(0.004, 0.0),
        conductivity_m_s: Known::Measured(1e-5, 0.0),
        porosity: Known::Measured(0.2, 0.0),
    }
}

#[test]
fn darcy_by_hand() {
    // v = 1e-5·0.004/0.2 = 2e-7 m/s = 6.31 m a year; 6000 m take 950.6 years.
    let t = travel_time_years(&path(), Draws::default()).unwrap();
    close(t.percentiles.median, 6000.0 / 2e-7 / 31_557_600.0, 1e-12);
    close(t.percentiles.median, 950.6, 1e-4);
}

#[test]
fn a_range_over_decades_gives_an_answer_over_decades() {
    // K uniform on its logarithm over 1e-6 … 1e-2 alone: percentiles of the time are those of a uniform logarithm.
    let mut p = path();
    p.conductivity_m_s = Known::Decades(1e-6, 1e-2);
    let t = travel_time_years(&p, Draws { draws: 200_000, seed: 4 }).unwrap();
    let exact = |q: f64| 6000.0 * 0.2 / 0.004 / (1e-6 * 1e4f64.powf(1.0 - q)) / 31_557_600.0;
    // The standard error of a percentile of ln t here is 4·ln(10)·0.35 % at 200 000 draws at most.
    for (got, q) in [(t.percentiles.low_95, 0.025), (t.percentiles.median, 0.5), (t.percentiles.high_95, 0.975)] {
        assert!((got / exact(q)).ln().abs() < 0.05, "{got} {}", exact(q));
    }
    assert!(t.percentiles.high_95 / t.percentiles.low_95 > 5000.0);
    assert_eq!((t.parts[0].input.as_str(), t.parts[0].origin.as_str()), ("hydraulic conductivity", "textbook range"));
    close(t.parts[0].share, 1.0, 1e-9);
}

#[test]
fn parts_of_the_spread_add_up() {
    let p = Path {
        distance_m: Known::Measured(6000.0, 300.0),
        gradient: Known::Measured(0.004, 0.0008),
        conductivity_m_s: Known::Decades(1e-6, 1e-4),
        porosity: Known::Range(0.1, 0.3),
    };
    let t = travel_time_years(&p, Draws::default()).unwrap();
    close(t.parts.iter().map(|p| p.share).sum::<f64>(), 1.0, 1e-12);
    // Variances of the logarithms: K (2·ln 10)²/12 = 1.7673; porosity 0.0948 (numpy); gradient (normal,
    // 20 %) 0.0449 (numpy, 1e7 draws); distance 0.0025.
    let k = t.parts.iter().find(|p| p.input == "hydraulic conductivity").unwrap();
    close(k.share, 1.7673 / (1.7673 + 0.0948 + 0.0449 + 0.0025), 0.01);
}

#[test]
fn gradient_by_hand() {
    // (38 − 14)/6000 = 0.004; u² = (1² + 0.2²)/6000² + (0.004·300/6000)².
    let Known::Measured(i, u) = gradient((38.0, 1.0), (14.0, 0.2), (6000.0, 300.0)).unwrap() else { panic!() };
    close(i, 0.004, 1e-12);
    close(u, (1.04f64 / 3.6e7 + (0.004f64 * 0.05).powi(2)).sqrt(), 1e-12);
    assert!(gradient((10.0, 1.0), (14.0, 0.2), (6000.0, 0.0)).unwrap_err().to_string().contains("uphill"));
    assert!(gradient((38.0, 1.0), (14.0, 0.2), (0.0, 0.0)).unwrap_err().to_string().contains("distance"));
}

#[test]
fn capture_by_hand() {
    // Q 20 L/min = 3.333e-4 m³/s, T 1e-3 m²/s, i 0.004: width 83.33 m, stagnation 13.26 m.
    let q = Known::Measured(20e-3 / 60.0, 0.0);
    let c = capture(q, Known::Measured(1e-3, 0.0), Known::Measured(0.004, 0.0), Draws::default()).unwrap();
    close(c.width_m.percentiles.median, 83.3333, 1e-5);
    close(c.stagnation_m.percentiles.median, 13.2629, 1e-5);
}

#[test]
fn the_same_bytes_on_any_number_of_threads() {
    let mut p = path();
    p.porosity = Known::Range(0.1, 0.3);
    let run = |threads: usize| {
        rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap()
            .install(|| travel_time_years(&p, Draws::default()).unwrap())
    };
    assert_eq!(run(1), run(4));
}

#[test]
fn a_tracer_that_contradicts_is_a_finding() {
    let mut p = path();
    p.conductivity_m_s = Known::Decades(1e-5, 1e-4);
    let t = travel_time_years(&p, Draws::default()).unwrap();
    assert_eq!(age_finding("carbon-14", &Age::Measured(600.0, 100.0), &t).outcome, Outcome::Met);
    assert_eq!(age_finding("tritium", &Age::YoungerThan(50.0), &t).outcome, Outcome::NotMet);
    assert_eq!(age_finding("tritium", &Age::OlderThan(60.0), &t).outcome, Outcome::Met);
    let f = age_finding("carbon-14", &Age::Measured(9000.0, 300.0), &t);
    assert_eq!(f.outcome, Outcome::NotMet);
    assert!(f.sentence.contains("contradicts"));
}

#[test]
fn faults_are_named() {
    let mut p = path();
    p.porosity = Known::Measured(20.0, 1.0);
    assert!(travel_time_years(&p, Draws::default()).unwrap_err().to_string().contains("not percent"));
    let mut p = path();
    p.gradient = Known::Measured(0.0, 0.1);
    assert!(travel_time_years(&p, Draws::default()).unwrap_err().to_string().starts_with("gradient"));
    assert!(travel_time_years(&path(), Draws { draws: 10, seed: 1 }).is_err());
    assert_eq!(formations().len(), 7);
    assert!(formations().iter().all(|f| f.conductivity_m_s.0 < f.conductivity_m_s.1 && !f.source.is_empty()));
}

fn end(name: &str, flow: f64, u: f64, values: &[(&str, Amount)]) -> End {
    End {
        name: name.into(),
        flow: Amount::measured(flow, u, Unit::known("L/s")),
        values: values.iter().map(|(n, a)| ((*n).to_string(), a.clone())).collect(),
    }
}

fn mg(v: f64, u: f64) -> Amount {
    Amount::measured(v, u, Unit::known("mg/L"))
}

#[test]
fn river_and_overflow_by_hand() {
    // 90 L/s at 20 mg/L and 10 L/s at 5 mg/L: 18.5 mg/L, a tenth of it spring; the river falls by 7.5 %.
    let m = mix(&[
        end("river", 90.0, 9.0, &[("Cl", mg(20.0, 0.4))]),
        end("overflow", 10.0, 0.5, &[("Cl", Amount::measured(5000.0, 100.0, Unit::known("ug/L")))]),
    ])
    .unwrap();
    close(m.flow.value().unwrap(), 100.0, 1e-12);
    close(m.flow.u().unwrap(), (81.0f64 + 0.25).sqrt(), 1e-12);
    close(m.shares[1].1.value().unwrap(), 0.1, 1e-12);
    // u(s)² = (0.5·0.9/100)² + (9·0.1/100)²
    close(m.shares[1].1.u().unwrap(), (0.0045f64.powi(2) + 0.009f64.powi(2)).sqrt(), 1e-9);
    let cl = measured(&m.values[0].1).unwrap();
    close(cl.value, 18.5, 1e-12);
    // u² = (0.9·0.4)² + (0.1·0.1)² + (9·1.5/100)² + (0.5·13.5/100)²
    close(cl.u, (0.36f64.powi(2) + 0.01f64.powi(2) + 0.135f64.powi(2) + 0.0675f64.powi(2)).sqrt(), 1e-9);
    close(m.change_percent[0].1.value().unwrap(), -7.5, 1e-12);
    // By Monte Carlo in numpy 2.4.6 (1e7 draws, seed 1): 0.780 %; the river's 10 % is beyond linear propagation by 3 %.
    close(m.change_percent[0].1.u().unwrap(), 0.7797, 0.04);
    // With a tenth of every u the two agree: 0.07581 %.
    let m = mix(&[
        end("river", 90.0, 0.9, &[("Cl", mg(20.0, 0.04))]),
        end("overflow", 10.0, 0.05, &[("Cl", mg(5.0, 0.01))]),
    ])
    .unwrap();
    close(m.change_percent[0].1.u().unwrap(), 0.07581, 2e-3);
}

#[test]
fn a_water_below_its_limit_leaves_a_range() {
    let nd = Amount::below(1.0, Unit::known("mg/L"));
    let m = mix(&[
        end("river", 90.0, 9.0, &[("NO3", mg(10.0, 0.4)), ("Cd", nd.clone()), ("K", mg(1.0, 0.1))]),
        end("overflow", 10.0, 0.5, &[("NO3", nd.clone()), ("Cd", nd)]),
    ])
    .unwrap();
    assert_eq!(m.values[0].1, Mixed::Between(9.0, 9.1, Unit::known("mg/L")));
    assert_eq!(m.values[1].1, Mixed::Value(Amount::below(1.0, Unit::known("mg/L"))));
    assert_eq!(m.values[2].1, Mixed::Missing(vec!["overflow".into()]));
    assert!(mix(&[end("river", 1.0, 0.0, &[])]).is_err());
    assert!(mix(&[end("a", -1.0, 0.0, &[]), end("b", 2.0, 0.0, &[])]).unwrap_err().to_string().contains("flow of a"));
    assert!(mix(&[end("a", 0.0, 0.0, &[]), end("b", 0.0, 0.0, &[])]).is_err());
}

/// Each row of the table has its message, and what stands behind its source has one too.
#[test]
fn every_formation_is_named() {
    for f in formations() {
        assert_eq!(f.named().in_english(), f.material);
        let added = f.source.split_once("; ").map(|(_, note)| note.to_string());
        assert_eq!(f.note().map(|n| n.in_english()), added, "{}", f.material);
    }
}
