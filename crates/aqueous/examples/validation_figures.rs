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

/// A buffer: name, what is in it (mol/kg), its pH from 0 to 40 °C.
type Buffer<'a> = (&'a str, &'a [(&'a str, f64)], [f64; 8]);

/// The cases of `tests/validation_cold.rs`: what was published or worked out beside, and ours.
fn cold() {
    let buffers: [Buffer; 2] = [
        ("borax", &[("Na+", 0.02), ("B(OH)3", 0.04)], [9.464, 9.395, 9.332, 9.276, 9.225, 9.180, 9.139, 9.068]),
        (
            "carbonate",
            &[("Na+", 0.075), ("CO3^2-", 0.05)],
            [10.317, 10.245, 10.179, 10.118, 10.062, 10.012, 9.966, 9.889],
        ),
    ];
    for (name, totals, published) in buffers {
        for (t, ph) in [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0].into_iter().zip(published) {
            row(&format!("{name} buffer, {t} °C, pH"), ph, water(t, totals).ph(), 3);
        }
    }
    for (t, ph) in [(0.0, 13.423), (10.0, 13.003), (15.0, 12.810), (20.0, 12.627), (25.0, 12.454), (30.0, 12.289)] {
        row(&format!("Ca(OH)2 0.0203 mol/kg, {t} °C, pH"), ph, water(t, &[("Ca^2+", 0.0203)]).ph(), 3);
    }
    let held = |t: f64, solid: &str| water(t, &[]).equilibrate(&[Hold::plenty(solid, 0.0)]).expect("it converges");
    let total = |e: &Equilibrium, c: &str| e.total(network().component(c).expect("in the table"));
    for (solid, ion, mass, published) in [
        ("barite", "Ba^2+", 233.39, 2.4),
        ("celestite", "Sr^2+", 183.68, 124.0),
        ("fluorite", "Ca^2+", 78.07, 15.5),
        ("amorphous silica", "H4SiO4", 60.084, 117.1),
    ] {
        row(&format!("{solid}, 25 °C, mg/kg"), published, total(&held(25.0, solid), ion) * mass * 1e3, 2);
    }
    let anglesite = {
        let c = Composition {
            temperature_c: 25.0,
            ph: Ph::Given(5.5),
            totals: vec![],
            alkalinity: None,
            pe: None,
            choices: Choices::default(),
        };
        let e = speciate(&c).expect("it converges");
        e.equilibrate(&[Hold::plenty("anglesite", 0.0)]).expect("it converges")
    };
    row("anglesite at pH 5.5, 25 °C, mg/kg", 42.5, total(&anglesite, "Pb^2+") * 303.26e3, 1);
    let shares = |c: &Composition, element: &str, species: &[&str]| {
        let e = speciate(c).expect("it converges");
        let total = total(&e, element);
        let list: Vec<String> = species.iter().map(|s| format!("{s} {:.1}", 100.0 * e.molality(s) / total)).collect();
        println!("{element} at {} °C, percent: {}", c.temperature_c, list.join(", "));
    };
    let composition = |t_c: f64, ph: f64, alkalinity: Option<f64>, totals: &[(&str, f64)]| Composition {
        temperature_c: t_c,
        ph: Ph::Given(ph),
        totals: totals.iter().map(|(n, t)| (network().component(n).expect("in the table"), *t)).collect(),
        alkalinity,
        pe: None,
        choices: Choices::default(),
    };
    for t in [9.0, 25.0] {
        let zinc = composition(t, 8.6, None, &[("Na+", 0.005), ("Cl-", 0.005), ("Zn^2+", 1e-9)]);
        shares(&zinc, "Zn^2+", &["Zn^2+", "ZnOH+", "Zn(OH)2(aq)"]);
    }
    let salts = [("Ca^2+", 1e-3), ("Cl-", 2e-4), ("SO4^2-", 1e-4), ("Pb^2+", 1e-10)];
    shares(&composition(9.0, 8.0, Some(2e-3), &salts), "Pb^2+", &["Pb^2+", "PbOH+", "PbCO3(aq)", "Pb(CO3)2^2-"]);
    let salts = [("Ca^2+", 1.2e-3), ("Na+", 1e-3), ("UO2^2+", 1e-9)];
    shares(&composition(9.0, 7.5, Some(3e-3), &salts), "UO2^2+", &["CaUO2(CO3)3^2-", "Ca2UO2(CO3)3(aq)"]);
}

fn row(case: &str, published: f64, ours: f64, digits: usize) {
    println!("| {case} | {published:.digits$} | {ours:.digits$} | {:+.digits$} |", ours - published);
}

fn main() {
    let ca = network().component("Ca^2+").expect("in the table");
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
        let w = water(t, &[("K+", 0.025), ("Na+", 0.05), ("PO4^3-", 0.05)]);
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
        row(&format!("pK2, {t} °C"), pk2, -find(Kind::Aqueous, "CO3^2-").expect("row").log_k(t), 3);
        row(&format!("pKs of calcite, {t} °C"), pks, -find(Kind::Mineral, "calcite").expect("row").log_k(t), 3);
    }
    cold();
}
