//! Conductivity against the primary standard.

use aqueous::conductivity::conductivity_us_cm;
use aqueous::equilibrium::{Composition, Ph, speciate};
use aqueous::network::network;
use aqueous::solver::Choices;

fn salt(t_c: f64, ions: &[(&str, f64)]) -> f64 {
    let e = speciate(&Composition {
        temperature_c: t_c,
        ph: Ph::FromCharge,
        totals: ions.iter().map(|(n, m)| (network().component(n).unwrap(), *m)).collect(),
        alkalinity: None,
        pe: None,
        choices: Choices::default(),
    })
    .unwrap();
    conductivity_us_cm(&e, t_c)
}

#[test]
fn potassium_chloride() {
    // Wu, Koch & Pratt 1991, J. Res. NIST 96:191: KCl 0.01 mol/kg. Within 1 %: what a limiting
    // law per ion reaches.
    for (t, want) in [(10.0, 1013.95), (15.0, 1141.45), (20.0, 1273.03), (25.0, 1408.23)] {
        let got = salt(t, &[("K+", 0.01), ("Cl-", 0.01)]);
        assert!((got / want - 1.0).abs() < 0.01, "{t} °C: {got:.1} µS/cm, standard {want}");
    }
    // KCl 0.001 mol/L at 25 °C: 146.9 µS/cm (handbook, from memory).
    let got = salt(25.0, &[("K+", 0.001003), ("Cl-", 0.001003)]);
    assert!((got / 146.9 - 1.0).abs() < 0.01, "{got:.2}");
}

#[test]
fn other_salts() {
    // Equivalent conductivities at 25 °C, 0.01 mol/L: NaCl 118.45, CaCl2 120.3 S cm²/eq at
    // 0.01 eq/L (Robinson & Stokes 1959 / CRC handbook, from memory): 1 % and, for the 2:1 salt,
    // where the mean charge of the counter-ion stands in for the full theory, 2 %.
    let nacl = salt(25.0, &[("Na+", 0.01003), ("Cl-", 0.01003)]);
    assert!((nacl / 1184.5 - 1.0).abs() < 0.01, "{nacl:.1}");
    let cacl2 = salt(25.0, &[("Ca^2+", 0.005015), ("Cl-", 0.01003)]);
    assert!((cacl2 / 1203.6 - 1.0).abs() < 0.02, "{cacl2:.1}");
}
