//! Prints the figures of docs/validation/chemistry.md: case, published, ours.
use aqueous::conductivity::conductivity_us_cm;
use aqueous::constants::{Kind, find};
use aqueous::equilibrium::{Composition, Equilibrium, Hold, Ph, speciate};
use aqueous::network::network;
use aqueous::solver::Choices;

fn water(t_c: f64, totals: &[(&str, f64)]) -> Equilibrium {
    speciate(&Composition {
        temperature_c: t_c,
        ph: Ph::FromCharge,
        totals: totals.iter().map(|(n, t)| (network().component(n).expect("in the table"), *t)).collect(),
        alkalinity: None,
        pe: None,
        choices: Choices::default(),
    })
    .expect("it converges")
}

fn row(case: &str, published: f64, ours: f64, digits: usize) {
    println!("| {case} | {published:.digits$} | {ours:.digits$} | {:+.digits$} |", ours - published);
}

fn main() {
    let ca = network().component("Ca++").expect("in the table");
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
        let w = water(t, &[("K+", 0.025), ("Na+", 0.05), ("PO4---", 0.05)]);
        row(&format!("phosphate buffer, {t} °C, pH"), ph, w.ph(), 3);
    }
    for (t, k) in [(10.0, 1013.95), (15.0, 1141.45), (20.0, 1273.03), (25.0, 1408.23)] {
        row(
            &format!("KCl 0.01 mol/kg, {t} °C, µS/cm"),
            k,
            conductivity_us_cm(&water(t, &[("K+", 0.01), ("Cl-", 0.01)]), t),
            2,
        );
    }
    let air =
        water(25.0, &[]).equilibrate(&[Hold::plenty("CO2", -3.5), Hold::plenty("calcite", 0.0)]).expect("it converges");
    row("calcite under 10^-3.5 atm CO2, pH", 8.3, air.ph(), 2);
    row("calcite under 10^-3.5 atm CO2, Ca mmol/kg", 0.45, air.total(ca) * 1e3, 3);
    let closed = water(25.0, &[]).equilibrate(&[Hold::plenty("calcite", 0.0)]).expect("it converges");
    row("calcite in closed water, pH", 9.9, closed.ph(), 2);
    row("calcite in closed water, Ca mmol/kg", 0.12, closed.total(ca) * 1e3, 3);
    let rain = water(25.0, &[]).equilibrate(&[Hold::plenty("CO2", -3.5)]).expect("it converges");
    row("rain under 10^-3.5 atm CO2, pH", 5.7, rain.ph(), 2);
    for t in [15.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0] {
        let g = water(t, &[]).equilibrate(&[Hold::plenty("gypsum", 0.0)]).expect("it converges");
        println!("gypsum at {t} °C: {:.2} mmol/kg", g.total(ca) * 1e3);
    }
    for (t, pk2, pks) in
        [(5.0, 10.55, 8.39), (10.0, 10.49, 8.41), (15.0, 10.43, 8.43), (20.0, 10.38, 8.45), (25.0, 10.33, 8.48)]
    {
        row(&format!("pK2, {t} °C"), pk2, -find(Kind::Aqueous, "CO3--").expect("row").log_k(t), 3);
        row(&format!("pKs of calcite, {t} °C"), pks, -find(Kind::Mineral, "calcite").expect("row").log_k(t), 3);
    }
}
