//! Carbonate, sulfate and rain against textbooks and handbooks, and the phosphate buffer of the
//! pH scale. Each figure names its source and how it is known.

use aqueous::equilibrium::{Composition, Equilibrium, Hold, Ph, speciate};
use aqueous::network::network;
use aqueous::solver::Choices;

fn composition(t_c: f64, totals: &[(&str, f64)], ph: Ph) -> Composition {
    Composition {
        temperature_c: t_c,
        ph,
        totals: totals.iter().map(|(n, t)| (network().component(n).unwrap(), *t)).collect(),
        alkalinity: None,
        pe: None,
        choices: Choices::default(),
    }
}

fn water(t_c: f64, totals: &[(&str, f64)], ph: Ph) -> Equilibrium {
    speciate(&composition(t_c, totals, ph)).unwrap()
}

fn pure(t_c: f64) -> Equilibrium {
    water(t_c, &[], Ph::FromCharge)
}

fn near(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{what}: {got}, expected {want} ± {tolerance}");
}

#[test]
fn phosphate_buffer_of_the_ph_scale() {
    // 0.025 mol/kg KH2PO4 + 0.025 mol/kg Na2HPO4. Bates 1962, J. Res. NBS 66A (third decimal from
    // memory; two decimals seen in JIS Z 8802). Davies' equation is known to give +0.012 to +0.020.
    for (t, ph) in [
        (0.0, 6.984),
        (5.0, 6.951),
        (10.0, 6.923),
        (15.0, 6.900),
        (20.0, 6.881),
        (25.0, 6.865),
        (30.0, 6.853),
        (40.0, 6.838),
    ] {
        let w = water(t, &[("K+", 0.025), ("Na+", 0.05), ("PO4^3-", 0.05)], Ph::FromCharge);
        near(&format!("buffer at {t} °C"), w.ph(), ph, 0.02);
    }
}

#[test]
fn calcite_and_carbon_dioxide() {
    let open = pure(25.0).equilibrate(&[Hold::plenty("CO2", -3.5), Hold::plenty("calcite", 0.0)]).unwrap();
    // Textbooks (Stumm & Morgan; from memory): pH 8.3 and 0.4 to 0.5 mmol/kg.
    near("pH of calcite under air", open.ph(), 8.3, 0.05);
    let ca = network().component("Ca^2+").unwrap();
    near("Ca of calcite under air, mmol/kg", open.total(ca) * 1e3, 0.45, 0.05);
    // Textbooks (from memory): pH 9.9, 0.12 mmol/L; both are given to two figures.
    let closed = pure(25.0).equilibrate(&[Hold::plenty("calcite", 0.0)]).unwrap();
    near("pH of calcite in closed water", closed.ph(), 9.9, 0.05);
    near("Ca of calcite in closed water, mmol/kg", closed.total(ca) * 1e3, 0.12, 0.005);
    // Freeze & Cherry 1979, ch. 7: rain at 10^-3.5 atm CO2 has pH 5.7; one decimal.
    let rain = pure(25.0).equilibrate(&[Hold::plenty("CO2", -3.5)]).unwrap();
    near("pH of rain", rain.ph(), 5.7, 0.06);
}

#[test]
fn gypsum_in_pure_water() {
    let ca = network().component("Ca^2+").unwrap();
    let dissolved = |t: f64| pure(t).equilibrate(&[Hold::plenty("gypsum", 0.0)]).unwrap().total(ca) * 1e3;
    // Handbook solubility 15.3 mmol/kg at 25 °C (from memory), within 5 % as the activity model
    // at 0.05 mol/kg allows.
    near("gypsum, mmol/kg", dissolved(25.0), 15.3, 0.05 * 15.3);
    // The solubility has its maximum near 40 °C (handbooks, from memory).
    let (low, top, high) = (dissolved(20.0), dissolved(38.0), dissolved(58.0));
    assert!(low < top && high < top, "{low} {top} {high}");
}
