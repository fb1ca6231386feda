//! Gases: solubilities, SF6 with excess air, which CFC may speak.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use crate::age_data::{SAMPLED, gas, recharge, turning};
use aquifer::age::constants::number;
use aquifer::age::gases::Found::{Detected, NotDetected, NotMeasured};
use aquifer::age::gases::Use::{Age, NotOlderThan, Refused};
use aquifer::age::gases::{
    Found, Redox, admitted, dissolved_per_ppt, mixing_ratio, pressure_atm, solubility, vapour_atm, within_air, years_of,
};
use aquifer::age::{Recharge, Tracer, WithU};

fn check(got: f64, want: f64, relative: f64) {
    assert!((got / want - 1.0).abs() <= relative, "got {got}, expected {want}");
}

const GASES: [Tracer; 4] = [Tracer::Cfc11, Tracer::Cfc12, Tracer::Cfc113, Tracer::Sf6];

#[test]
fn solubility_and_vapour() {
    // Computed in plain Python from the published coefficients, 10 °C, mol/(kg·atm).
    for (g, want) in GASES.into_iter().zip([0.0208714, 0.00541723, 0.00644471, 0.000392704]) {
        check(solubility(g, 10.0).unwrap(), want, 3e-6);
    }
    check(vapour_atm(10.0), 0.0121057, 5e-6);
    // Sea water lowers it by exp(−0.000544·35); the public ocean code's own example prints 0.03065529996 at 25 °C.
    check(vapour_atm(25.0) * (-0.000544f64 * 35.0).exp(), 0.030_655_299_963, 1e-9);
    check(pressure_atm(500.0), 0.9421, 1e-4);
    check(pressure_atm(1000.0), 0.8870, 1e-4);
}

#[test]
fn two_published_fits_of_one_experiment_agree() {
    // F against K·(1 − pw), 0 to 25 °C: 0.05, 0.05, 0.07, 0.20 % (K of CFC-113 from memory; SF6 per L, so the density of
    // water, 0.99704 to 0.99997, stands between them).
    for (g, name, most) in
        [(Tracer::Cfc11, "CFC11", 5e-4), (Tracer::Cfc12, "CFC12", 5e-4), (Tracer::Cfc113, "CFC113", 7e-4)]
    {
        for t in [0.0, 5.0, 10.0, 15.0, 20.0, 25.0] {
            let x = (t + 273.15) / 100.0;
            let a = |k: u8| number(&format!("{name}.K.a{k}"));
            let k = (a(1) + a(2) / x + a(3) * f64::ln(x)).exp();
            check(solubility(g, t).unwrap(), k * (1.0 - vapour_atm(t)), most);
        }
    }
    for (t, density) in [(0.0, 0.99984), (10.0, 0.99970), (25.0, 0.99704)] {
        let x = (t + 273.15) / 100.0;
        let a = |k: u8| number(&format!("SF6.K_per_L.a{k}"));
        let k = (a(1) + a(2) / x + a(3) * f64::ln(x)).exp() / density;
        check(solubility(Tracer::Sf6, t).unwrap(), k * (1.0 - vapour_atm(t)), 2e-3);
    }
}

fn at(t: f64, h: f64, air: f64) -> Recharge {
    let known = |value| WithU { value, u: 0.0 };
    Recharge { temperature_c: known(t), height_m: known(h), excess_air_cm3_kg: Some(known(air)) }
}

#[test]
fn sf6_with_excess_air_height_and_temperature() {
    // Plain Python: 10 °C, 1 atm, no excess air, 7.470 ppt are 2.9335 fmol/kg.
    let ratio = |c: f64, r: &Recharge| mixing_ratio(Tracer::Sf6, c, 0.03, r).unwrap().0;
    check(ratio(2.9335, &at(10.0, 0.0, 0.0)), 7.470, 1e-4);
    // The same water with 3 cm³ STP/kg of air: with the correction 7.470, without 10.02 ppt.
    let (_, air) = dissolved_per_ppt(Tracer::Sf6, 10.0, 0.0, 3.0).unwrap();
    let c = 2.9335 + air * 7.470;
    check(ratio(c, &at(10.0, 0.0, 3.0)), 7.470, 1e-4);
    check(ratio(c, &at(10.0, 0.0, 0.0)), 10.02, 5e-4);
    // Fallen at 500 m, read at 0 m.
    check(ratio(0.94142 * 2.9335, &at(10.0, 0.0, 0.0)), 7.032, 2e-4);
    check(ratio(0.94142 * 2.9335, &at(10.0, 500.0, 0.0)), 7.470, 2e-4);
    // 1 °C is 4.2 %, 1 cm³ STP/kg is 11.4 % of the dissolved part, at 10 °C (computed from the coefficients).
    check(ratio(2.9335, &at(11.0, 0.0, 0.0)) / 7.470 - 1.0, 0.042, 0.03);
    let (water, air) = dissolved_per_ppt(Tracer::Sf6, 10.0, 0.0, 1.0).unwrap();
    check(air / water, 0.114, 5e-3);
}

#[test]
fn sf6_without_excess_air_and_air_that_cannot_be_are_refused() {
    let mut r = recharge();
    r.excess_air_cm3_kg = None;
    assert!(mixing_ratio(Tracer::Sf6, 2.0, 0.1, &r).unwrap_err().to_string().contains("no SF6 age"));
    assert!(mixing_ratio(Tracer::Cfc12, 2000.0, 50.0, &r).is_ok());
    assert!(mixing_ratio(Tracer::Sf6, 2.0, 0.1, &at(45.0, 0.0, 1.0)).is_err());
    assert!(mixing_ratio(Tracer::Sf6, 2.0, 0.1, &at(10.0, 9000.0, 1.0)).is_err());
    assert!(mixing_ratio(Tracer::Tritium, 2.0, 0.1, &r).is_err());
    let h = gas(Tracer::Sf6, 1.0, 0.02);
    assert!(within_air(Tracer::Sf6, (5.0, 0.2), &h).is_ok() && within_air(Tracer::Sf6, (50.0, 0.5), &h).is_err());
}

#[test]
fn air_curves_that_turn_over_have_two_years() {
    let h = turning(Tracer::Cfc12, 540.0, 1944.5, 0.02);
    let years = years_of(500.0, SAMPLED, &h);
    assert_eq!(years.len(), 2, "{years:?}");
    for y in years {
        assert!((h.at(y) - 500.0).abs() < 1e-6);
    }
    assert_eq!(years_of(300.0, SAMPLED, &h).len(), 1);
}

#[test]
fn the_cfc_gate() {
    let gate = |oxygen: Option<f64>, sulfide: Found, methane: Found| {
        let r = Redox { oxygen_mg_l: oxygen, sulfide, methane };
        [Tracer::Cfc11, Tracer::Cfc12, Tracer::Cfc113].map(|t| admitted(t, &r).0)
    };
    // USGS guideline page; the limit on oxygen is our own.
    assert_eq!(gate(Some(8.0), NotDetected, NotDetected), [Age; 3]);
    let one_sided = [Refused, NotOlderThan, Refused];
    assert_eq!(gate(Some(2.0), Detected, NotDetected), one_sided);
    assert_eq!(gate(Some(8.0), NotDetected, Detected), one_sided);
    assert_eq!(gate(Some(0.2), NotDetected, NotDetected), one_sided);
    // "None" only where all were looked at.
    assert_eq!(gate(None, NotMeasured, NotMeasured), one_sided);
    assert_eq!(gate(Some(8.0), NotMeasured, NotDetected), one_sided);
    let methane = Redox { oxygen_mg_l: Some(8.0), sulfide: NotDetected, methane: Detected };
    let why = admitted(Tracer::Cfc11, &methane).1.unwrap();
    assert!(why.message.unwrap().is::<message::age::CfcMethane>());
    assert_eq!(admitted(Tracer::Sf6, &methane).0, Age);
}
