//! Water's own properties against `reference/water_properties.csv`.

use aqueous::water::{debye_hueckel, density_kg_l, oxygen_saturation_mg_l, permittivity, viscosity_mpa_s};

#[test]
fn density_viscosity_and_oxygen() {
    // Table of the project: density and viscosity from memory, oxygen of EN 25814 seen to one or
    // two decimals. Tolerances are the last printed digit (0.02 kg/m³: the table is of air-free
    // water on another density scale; both differ by 0.01).
    let table = include_str!("../../../reference/water_properties.csv");
    let mut rows = 0;
    for line in table.lines().skip(1) {
        let f: Vec<f64> = line.split(',').take(4).map(|x| x.parse().unwrap()).collect();
        let near = |what: &str, got: f64, want: f64, tol: f64| {
            assert!((got - want).abs() <= tol, "{what} at {} °C: {got}, table {want}", f[0]);
        };
        near("density", density_kg_l(f[0]) * 1e3, f[1], 0.02);
        near("viscosity", viscosity_mpa_s(f[0]), f[2], 0.0015);
        near("oxygen", oxygen_saturation_mg_l(f[0]), f[3], 0.01);
        rows += 1;
    }
    assert_eq!(rows, 6);
}

#[test]
fn debye_hueckel_parameters() {
    // Handbooks (Stumm & Morgan; from memory): ε 78.3 to 78.5, A 0.509 to 0.511, B 0.328 to 0.329
    // at 25 °C; A 0.4913 to 0.4918 and B 0.3247 to 0.3248 at 0 °C.
    let at25 = debye_hueckel(25.0);
    assert!((78.25..78.55).contains(&permittivity(25.0)));
    assert!((0.509..0.5115).contains(&at25.a) && (0.328..0.329).contains(&at25.b), "{at25:?}");
    let at0 = debye_hueckel(0.0);
    assert!((0.4905..0.4925).contains(&at0.a) && (0.324..0.3255).contains(&at0.b), "{at0:?}");
}
