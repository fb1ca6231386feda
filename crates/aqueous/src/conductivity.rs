//! Electrical conductivity from composition, ion by ion.
//!
//! In: molalities and charges of a solved water, temperature. Out: µS/cm at any temperature.
//! Method: limiting law with finite ion size for each ion, Λ = Λ0 − (relaxation·Λ0 +
//! electrophoresis)·√I/(1 + B·å·√I), coefficients of Onsager's equation as in Robinson & Stokes
//! 1959 eq. 7.36 (from memory), with the mean charge of the counter-ions in a mixture. Λ0 goes
//! with temperature as a power of viscosity fitted between 0 and 25 °C
//! (`reference/ion_conductivity.csv`). Within 1 % of KCl 0.01 mol/kg, 10 to 25 °C; common
//! practice grants 10 % for natural waters. Ions without a row are given 45 S cm²/eq.
//! Checked in `tests/validation_conductivity.rs`.

use crate::equilibrium::Equilibrium;
use crate::water::{ZERO_CELSIUS_K, debye_hueckel, density_kg_l, permittivity, viscosity_mpa_s};
use libm::{log, pow, sqrt};
use std::sync::OnceLock;

struct Ion {
    name: String,
    lambda25: f64,
    exponent: f64,
    a_angstrom: f64,
}

/// Equivalent conductivity of an ion without a row of its own, S cm²/eq, at 25 °C.
// Common practice: large complex ions lie between 30 and 60.
const OTHER_LAMBDA25: f64 = 45.0;
/// Ion size that goes with it, Å.
const OTHER_SIZE: f64 = 4.5;

fn ions() -> &'static [Ion] {
    static IONS: OnceLock<Vec<Ion>> = OnceLock::new();
    IONS.get_or_init(|| {
        let table = include_str!("../../../reference/ion_conductivity.csv");
        let fall = log(viscosity_mpa_s(25.0) / viscosity_mpa_s(0.0));
        csv::Reader::from_reader(table.as_bytes())
            .records()
            .map(|r| {
                let r = r.expect("the table of ion conductivities is well-formed CSV");
                let x = |i: usize| r[i].parse::<f64>().expect("conductivities are numbers");
                Ion { name: r[0].to_string(), lambda25: x(1), exponent: log(x(2) / x(1)) / fall, a_angstrom: x(3) }
            })
            .collect()
    })
}

/// Conductivity of a water, µS/cm, as if its species stayed as they are and it had `t_c`.
pub fn conductivity_us_cm(e: &Equilibrium, t_c: f64) -> f64 {
    let s = &e.system;
    let rho = density_kg_l(t_c);
    let et = permittivity(t_c) * (t_c + ZERO_CELSIUS_K);
    let eta = viscosity_mpa_s(t_c);
    let dh = debye_hueckel(t_c);
    let root = sqrt(e.solution.ionic_strength);
    // Robinson & Stokes 1959 eq. 7.36, q = 1/2 (from memory); viscosity in poise.
    let relaxation = 2.801e6 * 0.5 / (pow(et, 1.5) * (1.0 + sqrt(0.5)));
    let electrophoresis = 41.25 / (eta * 0.01 * sqrt(et));
    let mean = |sign: f64| {
        let (mut top, mut below) = (0.0, 0.0);
        for (z, m) in s.charges().iter().zip(&e.solution.molality) {
            if z * sign > 0.0 {
                top += z * z * m;
                below += z.abs() * m;
            }
        }
        if below > 0.0 { top / below } else { 1.0 }
    };
    let (cations, anions) = (mean(1.0), mean(-1.0));
    let warmer = viscosity_mpa_s(25.0) / eta;
    let mut sum = 0.0;
    for (k, entity) in s.species.iter().enumerate() {
        let z = f64::from(entity.charge);
        if z == 0.0 {
            continue;
        }
        let (lambda, a) = ions()
            .iter()
            .find(|i| i.name == entity.name)
            .map_or((OTHER_LAMBDA25 * pow(warmer, 0.9), OTHER_SIZE), |i| {
                (i.lambda25 * pow(warmer, i.exponent), i.a_angstrom)
            });
        let counter = if z > 0.0 { anions } else { cations };
        let less =
            (relaxation * z.abs() * counter * lambda + electrophoresis * z.abs()) * root / (1.0 + dh.b * a * root);
        sum += z.abs() * e.solution.molality[k] * rho * (lambda - less).max(0.0);
    }
    sum * 1e3
}
