//! Water's own properties against `reference/water_properties.csv`.

use aqueous::water::{
    debye_hueckel, density_kg_l, oxygen_saturation_mg_l, permittivity, solution_density_kg_l, viscosity_mpa_s,
};

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

#[test]
fn viscosity_and_density_when_warm() {
    // IAPWS R12-08 and IAPWS-95 at 101.325 kPa through the general-purpose Python library iapws. 1e-4: the formula at
    // 0.1 MPa is a fit of that standard; 0.005 kg/m³: Kell's formula.
    for (t, viscosity, density) in
        [(30.0, 0.797_22, 995.649), (40.0, 0.652_73, 992.216), (50.0, 0.546_52, 988.035), (60.0, 0.466_04, 983.196)]
    {
        assert!((viscosity_mpa_s(t) / viscosity - 1.0).abs() < 1e-4, "{t} °C: {}", viscosity_mpa_s(t));
        assert!((density_kg_l(t) * 1e3 - density).abs() < 5e-3, "{t} °C: {}", density_kg_l(t) * 1e3);
    }
}

#[test]
fn density_at_the_ionic_strength() {
    // Check values of the equation of state of sea water (UNESCO 44, 1983, from memory): 1023.343 kg/m³ at S 35, 25 °C,
    // 1027.675 at 5 °C; S 35 is 0.7226 mol/kg (Millero 1982, from memory). 0.01: pure water by another formula.
    let i = 19.924 * 35.0 / (1000.0 - 1.005 * 35.0);
    for (t, want) in [(25.0, 1023.343), (5.0, 1027.675)] {
        let got = solution_density_kg_l(t, i) * 1e3;
        assert!((got - want).abs() < 0.01, "{t} °C: {got}");
    }
    // NaCl 0.1 mol/kg at 25 °C: 1001.17 (handbook, from memory); another salt than that of the sea: 0.5 kg/m³.
    assert!((solution_density_kg_l(25.0, 0.1) * 1e3 - 1001.17).abs() < 0.5);
    assert_eq!(solution_density_kg_l(9.0, 0.0).to_bits(), density_kg_l(9.0).to_bits());
}
