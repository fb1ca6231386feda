//! Tritium and helium-3: closed forms, mixtures, a water put together and taken apart, refusals.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use crate::age_data::measured;
use aquifer::age::constants::number;
use aquifer::age::helium::{HeliumSample, age_of, helium_age};
use aquifer::age::tritium::{half_life_years, lambda};
use aquifer::age::{Level, Measured, Model, Tracer, WithU};

const NONE: WithU = WithU { value: 0.0, u: 0.0 };

fn years(he: f64, h: f64) -> f64 {
    age_of(WithU { value: he, u: 0.1 }, NONE, &measured(Tracer::Tritium, h, 0.01)).unwrap().years.unwrap().value
}

#[test]
fn closed_forms() {
    // ln(1 + He/H)/λ (textbook page): equal parts are one half-life, three parts two.
    assert!((years(7.0, 7.0) - half_life_years()).abs() < 1e-9);
    assert_eq!(years(0.0, 7.0), 0.0);
    assert!((years(21.0, 7.0) - 2.0 * half_life_years()).abs() < 1e-9);
    // Exponential water with constant input, closed form ln(1 + λT)/λ, made with 12.32 y: hence 3e-5.
    for (t, want) in [(10.0, 7.9337), (25.0, 15.6090), (50.0, 23.7895), (100.0, 33.6112)] {
        let h = 9.0 * Model::Exponential { mean: t }.transmitted(lambda());
        assert!((years(9.0 - h, h) / want - 1.0).abs() < 3e-5);
        // 0, 50, 90 % of dead water change nothing.
        for young in [0.5, 0.1] {
            assert!((years(young * (9.0 - h), young * h) / years(9.0 - h, h) - 1.0).abs() < 1e-12);
        }
    }
}

/// Water put together from its parts: recharge at 9 °C and 100 m, 2 cm³ STP/kg of air, 3e-9 from rock, tritiogenic TU.
fn put_together(tri_tu: f64, terrigenic: f64) -> HeliumSample {
    let pw = (24.4543 - 67.4509 / 2.8215 - 4.8489 * 2.8215f64.ln()).exp();
    let p = (1.0 - 2.25577e-5f64 * 100.0).powf(5.25588);
    // Jenkins, Lott & Cahill 2019, mol/kg at 1 atm of moist air; 22442.57 and 22413.97 cm³/mol.
    let eq = |a: [f64; 4], volume: f64| {
        let x = 2.8215f64;
        (a[0] + a[1] / x + a[2] * x.ln() + a[3] * x).exp() * volume / 1000.0 * (p - pw) / (1.0 - pw)
    };
    let he = eq([-178.1424, 217.5991, 140.7506, -23.01954], 22442.57);
    let ne = eq([-274.1329, 352.6201, 226.9676, -37.13393], 22413.97);
    let air = 2.0e-3;
    let (he_air, ne_air) = (air * 5.24e-6, air * 18.18e-6);
    let helium = he + he_air + terrigenic;
    let three = 0.983 * 1.384e-6 * he + 1.384e-6 * he_air + 2e-8 * terrigenic + tri_tu * 2.4883e-15;
    let part = |value: f64, relative: f64| WithU { value, u: relative * value };
    HeliumSample {
        helium: part(helium, 0.005),
        neon: part(ne + ne_air, 0.005),
        ratio: part(three / helium, 0.003),
        temperature_c: WithU { value: 9.0, u: 0.5 },
        height_m: WithU { value: 100.0, u: 50.0 },
        terrigenic_ratio: None,
        bubbles: false,
        half_life_years: Some(12.32),
    }
}

#[test]
fn a_water_put_together_comes_apart() {
    let t = measured(Tracer::Tritium, 6.0, 0.2);
    let a = helium_age(&put_together(10.0, 3e-9), &t).unwrap();
    assert!((a.tritiogenic_tu.value - 10.0).abs() < 1e-3, "{a:?}");
    assert!((a.terrigenic_cm3_g.value / 3e-9 - 1.0).abs() < 1e-4);
    assert!((a.years.unwrap().value - (1.0 + 10.0 / 6.0f64).ln() / lambda()).abs() < 1e-3);
    assert!((a.initial_tu.value - 16.0).abs() < 1e-3);
    // The u of the ratio alone is 0.3 % of 3He: 6.4e-14·0.003/2.49e-15 = 0.08 TU, neon's 0.5 % brings as much again.
    assert!((0.1..2.0).contains(&a.tritiogenic_tu.u), "{a:?}");
}

#[test]
fn without_tritium_it_is_one_sided() {
    let below = Measured::new(Tracer::Tritium, Level::Below { limit: 0.1, u: 0.05 }, "TU", Some(2026.5)).unwrap();
    let a = helium_age(&put_together(10.0, 0.0), &below).unwrap();
    assert!(a.years.is_none() && a.at_least_years.is_some_and(|t| t > 50.0));
}

#[test]
fn what_cannot_be_is_refused_and_named() {
    let t = measured(Tracer::Tritium, 6.0, 0.2);
    let refused = |change: &dyn Fn(&mut HeliumSample), part: &str| {
        let mut s = put_together(10.0, 3e-9);
        change(&mut s);
        let why = helium_age(&s, &t).unwrap_err().to_string();
        assert!(why.contains(part), "{why}");
    };
    refused(&|s| s.bubbles = true, "bubbles");
    refused(&|s| s.half_life_years = None, "half-life");
    refused(&|s| s.half_life_years = Some(12.9), "half-life");
    refused(&|s| s.helium.value *= 0.5, "total helium");
    refused(&|s| s.neon.value *= 0.5, "total neon");
    refused(&|s| s.helium.value += 1e-7, "rock");
    refused(&|s| s.ratio.value *= 0.7, "helium-3 from tritium");
    // With a known ratio of the rock, much terrigenic helium is no reason to refuse.
    let mut s = put_together(10.0, 1e-7);
    s.terrigenic_ratio = Some(WithU { value: 2e-8, u: 1e-9 });
    assert!((helium_age(&s, &t).unwrap().tritiogenic_tu.value - 10.0).abs() < 1e-2);
    // 1e-8 cm³/g of mantle helium mimics 44 TU (1.1e-5 recalled).
    assert!((1e-8 * 1.1e-5 / number("3He.cm3STP_per_g_per_TU") - 44.0).abs() < 0.5);
}
