//! Invented histories and samples that the tests of ages share. None of it is for dating anything.

use aquifer::age::{
    History, Kind, Level, Measured, Observation, Point, Recharge, Sample, Setting, Side, Tables, Tracer, WithU,
};

pub const SAMPLED: f64 = 2026.5;

fn history(tracer: Tracer, points: Vec<Point>, background: WithU) -> History {
    let (region, source) = ("invented".to_string(), "invented for the tests".to_string());
    History { tracer, region, source, points, background: Some(background) }
}

/// The curve of `data/age_tritium_invented.csv`, with a relative u.
pub fn tritium(relative_u: f64) -> History {
    let points = include_str!("data/age_tritium_invented.csv")
        .lines()
        .filter(|l| l.starts_with(|c: char| c.is_ascii_digit()))
        .map(|l| {
            let (y, v) = l.split_once(',').unwrap();
            let value: f64 = v.parse().unwrap();
            Point { year: y.parse().unwrap(), value, u: relative_u * value }
        })
        .collect();
    history(Tracer::Tritium, points, WithU { value: 12.0, u: relative_u * 12.0 })
}

/// A gas that grows as a parabola from a year on, as in `data/age_convolution.py`, times a factor.
pub fn gas(tracer: Tracer, factor: f64, relative_u: f64) -> History {
    let points = (0..34)
        .map(|k| {
            let year = 1960.5 + 2.0 * f64::from(k);
            let value = factor * (0.05 + 0.002 * (year - 1960.5).powi(2));
            Point { year, value, u: relative_u * value }
        })
        .collect();
    history(tracer, points, WithU { value: 0.05 * factor, u: relative_u * 0.05 * factor })
}

/// A gas that turns over: up to 1995.5, then slowly down.
pub fn turning(tracer: Tracer, most: f64, from: f64, relative_u: f64) -> History {
    let mut points = vec![Point { year: 1940.5, value: 0.0, u: 0.0 }, Point { year: from, value: 0.0, u: 0.0 }];
    let mut year = from + 2.0;
    while year <= 2026.5 {
        let value = if year < 1995.5 {
            most * ((year - from) / (1995.5 - from)).powi(2)
        } else {
            most * (1.0 - 0.006 * (year - 1995.5))
        };
        points.push(Point { year, value, u: relative_u * value });
        year += 1.0;
    }
    history(tracer, points, WithU { value: 0.0, u: 0.0 })
}

pub fn setting(kinds: Vec<Kind>) -> Setting {
    Setting {
        sampled_year: SAMPLED,
        histories: vec![
            tritium(0.05),
            gas(Tracer::Sf6, 1.3, 0.02),
            turning(Tracer::Cfc12, 540.0, 1944.5, 0.02),
            turning(Tracer::Cfc113, 84.0, 1958.5, 0.02),
        ],
        screen: None,
        kinds,
    }
}

pub fn tables(kinds: Vec<Kind>) -> Tables {
    Tables::new(&setting(kinds)).unwrap()
}

pub fn recharge() -> Recharge {
    Recharge {
        temperature_c: WithU { value: 9.0, u: 0.5 },
        height_m: WithU { value: 120.0, u: 30.0 },
        excess_air_cm3_kg: Some(WithU { value: 2.0, u: 0.3 }),
    }
}

pub fn measured(tracer: Tracer, value: f64, u: f64) -> Measured {
    Measured::new(tracer, Level::Value { value, u }, tracer.unit(), Some(SAMPLED)).unwrap()
}

pub fn observed(tracer: Tracer, value: f64, u: f64) -> Observation {
    Observation { measured: measured(tracer, value, u), side: Side::Both }
}

pub fn sample(observations: Vec<Observation>, draws: usize, seed: u64) -> Sample {
    Sample { observations, recharge: Some(recharge()), a0: Some((0.55, 0.85)), draws, seed }
}
