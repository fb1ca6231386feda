//! Time of a joint fit of six tracers with 20,000 draws a model, tables included, as one JSON line; the peer's time is
//! taken in the same run by `bench/age/run.py`. Invented histories and sample.

use aquifer::age::{
    History, Kind, Level, Measured, Observation, Point, Recharge, Sample, Setting, Side, Tables, Tracer, WithU, fit,
};
use std::time::Instant;

const SAMPLED: f64 = 2026.5;

fn history(tracer: Tracer, relative_u: f64, background: f64, values: impl Iterator<Item = (f64, f64)>) -> History {
    let points = values.map(|(year, value)| Point { year, value, u: relative_u * value }).collect();
    let background = Some(WithU { value: background, u: relative_u * background });
    History { tracer, region: "invented".into(), source: "invented".into(), points, background }
}

fn main() {
    let rain = include_str!("../tests/data/age_tritium_invented.csv").lines().filter_map(|l| {
        let (y, v) = l.split_once(',')?;
        Some((y.parse().ok()?, v.parse().ok()?))
    });
    let years = || (1941..=2026).map(|y| f64::from(y) + 0.5);
    let grown = |from: f64, by: f64| move |y: f64| (y, by * (y - from).max(0.0).powi(2));
    let histories = vec![
        history(Tracer::Tritium, 0.05, 12.0, rain),
        history(Tracer::Sf6, 0.02, 0.0, years().map(grown(1960.5, 0.0026))),
        history(Tracer::Cfc12, 0.02, 0.0, years().map(grown(1944.5, 0.08))),
        history(Tracer::Cfc113, 0.02, 0.0, years().map(grown(1958.5, 0.018))),
    ];
    let setting = Setting { sampled_year: SAMPLED, histories, screen: None, kinds: Kind::ALL.to_vec() };
    let observations = [
        (Tracer::Tritium, 5.0, 0.2),
        (Tracer::Helium3, 48.0, 2.5),
        (Tracer::Sf6, 2.1, 0.08),
        (Tracer::Cfc12, 1400.0, 50.0),
        (Tracer::Cfc113, 220.0, 9.0),
        (Tracer::Carbon14, 0.7, 0.004),
    ]
    .into_iter()
    .map(|(t, value, u)| Observation {
        measured: Measured::new(t, Level::Value { value, u }, t.unit(), Some(SAMPLED)).expect("invented values can be"),
        side: Side::Both,
    })
    .collect();
    let recharge = Recharge {
        temperature_c: WithU { value: 9.0, u: 0.5 },
        height_m: WithU { value: 120.0, u: 30.0 },
        excess_air_cm3_kg: Some(WithU { value: 2.0, u: 0.3 }),
    };
    let sample = Sample { observations, recharge: Some(recharge), a0: Some((0.55, 0.85)), draws: 20_000, seed: 1 };
    let start = Instant::now();
    let tables = Tables::new(&setting).expect("invented histories can be");
    let tables_s = start.elapsed().as_secs_f64();
    let fitted = fit(&tables, &sample).expect("the sample has an answer");
    let all_s = start.elapsed().as_secs_f64();
    let models: Vec<String> = (fitted.models.iter())
        .map(|m| {
            let t = &m.t_years;
            let effective = m.effective_draws.round();
            format!(
                r#"{{"model":"{}","T":[{:.1},{:.1},{:.1}],"rejected":{},"effective":{effective}}}"#,
                m.kind.name(),
                t.low_95,
                t.median,
                t.high_95,
                m.rejected
            )
        })
        .collect();
    println!(r#"{{"tables_s":{tables_s:.3},"all_s":{all_s:.3},"models":[{}]}}"#, models.join(","));
}
