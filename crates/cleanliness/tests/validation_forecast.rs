//! Forecast: settling velocities of a handbook, hand computation, moments of the simulated law.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::forecast::{
    About, Setting, Source, Stage, blank_against_forecast, forecast, metal_in_air_ng_m3, settling_velocity_m_s,
};
use quantity::Outcome;

const SETTING: Setting = Setting { bottle_ml: 250.0, water_ng_l: Some(1.0), draws: 50_000, seed: 3 };

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn exact(v: f64) -> About {
    About::new(v, 0.0)
}

fn stage(name: &str, source: Source) -> Stage {
    Stage { name: name.into(), source }
}

#[test]
fn settling_meets_the_table() {
    // Computed table of slip-corrected Stokes velocities, unit density, 20 °C; its air constants differ in the
    // third digit from those used here: 1.5 %.
    for line in include_str!("data/settling_computed.csv").lines().skip(1) {
        let f: Vec<f64> = line.split(',').map(|x| x.parse().unwrap()).collect();
        close(settling_velocity_m_s(f[0], 1000.0).unwrap(), f[2] * 0.01, 0.015);
    }
    // 1 µm: 3.5e-5 m/s; 10 µm: 3.06e-3 m/s (Hinds 1999, table 3.1; recalled).
    close(settling_velocity_m_s(1.0, 1000.0).unwrap(), 3.5e-5, 0.015);
    close(settling_velocity_m_s(10.0, 1000.0).unwrap(), 3.06e-3, 0.015);
    assert!(settling_velocity_m_s(100.0, 1000.0).is_err());
}

#[test]
fn stages_by_hand() {
    let stages = [
        // 5 ng/m³ · 0.003 m/s · 10 cm² · 2 min = 5·0.003·1e-3·120 ng = 1.8 pg
        stage(
            "open air",
            Source::Air { metal_ng_m3: exact(5.0), deposition_m_s: exact(0.003), mouth_cm2: 10.0, minutes: exact(2.0) },
        ),
        stage("acid", Source::Acid { pg_per_ml: exact(3.0), ml: exact(1.0) }),
        stage("bottle", Source::Wall { pg_cm2_day: exact(0.001), wall_cm2: 200.0, days: exact(20.0) }),
        stage("handling", Source::Handling { pg_per_opening: exact(2.5), openings: 2.0 }),
        // 0.5 ng/(m²·min) · 2/0.05 · 10 min = 200 ng/m³ = 0.2 ng/L: 50 pg in 250 mL
        stage("pipe", Source::Pipe { ng_m2_min: exact(0.5), radius_m: 0.05, contact_min: exact(10.0) }),
    ];
    let f = forecast(&stages, &SETTING).unwrap();
    for (s, want) in f.stages.iter().zip([1.8, 3.0, 4.0, 5.0, 50.0]) {
        close(s.pg, want, 1e-9);
        assert!(s.u < 1e-9);
    }
    close(f.total.pg, 63.8, 1e-9);
    close(f.water_pg.unwrap(), 250.0, 1e-12);
    close(f.stages[4].share_of_water.unwrap(), 0.2, 1e-9);
}

#[test]
fn the_spread_is_that_of_a_product_of_lognormals() {
    let a = stage("acid", Source::Acid { pg_per_ml: About::new(3.0, 0.3), ml: About::new(1.0, 0.1) });
    let f = forecast(std::slice::from_ref(&a), &SETTING).unwrap();
    // Mean 3, relative variance 1.09·1.01 − 1 = 0.1009; 50 000 draws know the mean to 0.14 %, the sd to about 0.6 %.
    close(f.stages[0].pg, 3.0, 0.006);
    close(f.stages[0].u, 3.0 * 0.1009f64.sqrt(), 0.02);
    // Quantiles: ln 3 − v/2 ± 1.96·√v, v = ln 1.09 + ln 1.01.
    let v = 1.09f64.ln() + 1.01f64.ln();
    close(f.stages[0].range_95.1, (3.0f64.ln() - 0.5 * v + 1.96 * v.sqrt()).exp(), 0.02);
    assert_eq!(f, forecast(&[a], &SETTING).unwrap());
}

#[test]
fn past_blanks_are_enough() {
    let blanks = vec![8.0, 12.0, 10.0, 9.0, 60.0];
    let f = forecast(&[stage("past field blanks", Source::PastBlanks(blanks))], &SETTING).unwrap();
    close(f.total.pg, 19.8, 0.03);
    assert_eq!(f.total.range_95, (8.0, 60.0));
    assert_eq!(blank_against_forecast(150.0, 5.0, &f.total).outcome, Outcome::NotMet);
    assert!(blank_against_forecast(150.0, 5.0, &f.total).sentence.contains("are not the cause"));
    assert_eq!(blank_against_forecast(15.0, 5.0, &f.total).outcome, Outcome::Met);
}

#[test]
fn metal_in_air_from_counts() {
    // A million particles per m³ of 1 µm, 2000 kg/m³, 500 µg/g lead: 1e6·5.236e-19·2000·500·1e6 ng = π/6 ng.
    close(metal_in_air_ng_m3(1e6, 1.0, 2000.0, 500.0).unwrap(), std::f64::consts::FRAC_PI_6, 1e-9);
    assert!(metal_in_air_ng_m3(-1.0, 1.0, 2000.0, 500.0).is_err());
}

#[test]
fn faults_are_named() {
    let check = |s: &[Stage], part: &str| {
        let message = forecast(s, &SETTING).unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    check(&[], "stages: 0 given");
    check(&[stage("blanks", Source::PastBlanks(vec![]))], "past blanks of \"blanks\"");
    let minutes =
        Source::Air { metal_ng_m3: exact(1.0), deposition_m_s: exact(0.1), mouth_cm2: 1.0, minutes: exact(-2.0) };
    check(&[stage("air", minutes)], "minutes open of \"air\": found -2");
    let zero = Setting { bottle_ml: 0.0, ..SETTING };
    assert!(
        forecast(&[stage("b", Source::PastBlanks(vec![1.0]))], &zero)
            .unwrap_err()
            .to_string()
            .contains("volume of the bottle")
    );
}
