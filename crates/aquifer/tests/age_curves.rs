//! Curves of a picture. A piston of one value of tritium: the likeliest age is where the decayed rain passes the value;
//! a constant rain halves each half-life, 4500 d = 12.32 years (Lucas & Unterweger 2000).

use aquifer::age::curves::{density, rain_today};
use aquifer::age::{
    History, Kind, Level, Measured, Observation, Point, Sample, Setting, Side, Tables, Tracer, WithU, fit,
};

fn steady() -> History {
    let point = |year| Point { year, value: 8.0, u: 0.08 };
    History {
        tracer: Tracer::Tritium,
        region: "an invented place".into(),
        source: "invented".into(),
        points: vec![point(1940.5), point(2026.5)],
        background: Some(WithU { value: 8.0, u: 0.08 }),
    }
}

#[test]
fn constant_rain_halves_each_half_life() {
    for (tau, tu) in rain_today(&steady(), 2026.5) {
        let expected = 8.0 * 0.5f64.powf(tau / (4500.0 / 365.25));
        // Rain is read in its logarithm, so that nothing but rounding is left.
        assert!((tu - expected).abs() < 1e-9 * expected, "{tau}: {tu}, {expected}");
    }
}

#[test]
fn the_likeliest_piston_age_is_where_the_rain_passes_the_value() {
    // 2 TU of 8: two half-lives, 24.64 years.
    let measured = Measured::new(Tracer::Tritium, Level::Value { value: 2.0, u: 0.02 }, "TU", Some(2026.5)).unwrap();
    let setting = Setting { sampled_year: 2026.5, histories: vec![steady()], screen: None, kinds: vec![Kind::Piston] };
    let tables = Tables::new(&setting).unwrap();
    let observations = vec![Observation { measured, side: Side::Both }];
    let sample = Sample { observations, recharge: None, a0: None, draws: 4000, seed: 1 };
    let fitted = fit(&tables, &sample).unwrap();
    let curve = density(&fitted.models[0]);
    let (years, most) = curve.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
    // A bin is 8 % of the age wide.
    assert!((years - 24.64).abs() < 2.0 && (most - 1.0).abs() < 1e-12, "{years} {most}");
    assert!(curve.iter().all(|(_, y)| (0.0..=1.0).contains(y)));
    assert!(curve.windows(2).all(|w| w[1].0 > w[0].0));
}
