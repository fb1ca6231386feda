//! Properties of pure water that the chemistry stands on: density, permittivity, viscosity,
//! the two Debye–Hückel parameters and oxygen at saturation with air.
//!
//! In: temperature in °C. Out: SI or the unit in the name. Valid 0 to 40 °C at one atmosphere,
//! which is the stated range of the crate; the fits themselves hold further.
//! Sources: density Kell 1975 (J. Chem. Eng. Data 20:97), permittivity Malmberg & Maryott 1956
//! (J. Res. NBS 56:1), viscosity IAPWS SR6-08 (2011), oxygen Benson & Krause as in Standard Methods 4500-O; coefficients from memory and
//! checked against `reference/water_properties.csv`. Checked in `tests/validation_water.rs`.

use libm::{exp, pow, sqrt};

/// Zero of the Celsius scale, K.
// Definition of the degree Celsius (BIPM SI brochure).
pub const ZERO_CELSIUS_K: f64 = 273.15;

/// Gas constant, J/(mol K).
// CODATA 2018, exact.
pub const GAS_CONSTANT: f64 = 8.314_462_618;

/// Faraday constant, C/mol.
// CODATA 2018, exact.
pub const FARADAY: f64 = 96_485.332_12;

/// Density of pure, air-free water, kg/L.
///
/// # Example
/// Water is heaviest at 4 °C:
/// ```
/// use aqueous::water::density_kg_l;
/// assert!(density_kg_l(4.0) > density_kg_l(0.0) && density_kg_l(4.0) > density_kg_l(8.0));
/// ```
pub fn density_kg_l(t_c: f64) -> f64 {
    // Kell 1975, equation 16, g/L (from memory).
    let top = 999.83952
        + t_c
            * (16.945176 + t_c * (-7.9870401e-3 + t_c * (-46.170461e-6 + t_c * (105.56302e-9 - 280.54253e-12 * t_c))));
    top / (1.0 + 16.879850e-3 * t_c) / 1000.0
}

/// Density of a water with salts at its ionic strength, kg/L: that of sea water diluted to the same ionic strength.
/// Valid 0 to 40 °C, to 0.5 mol/kg; other salts differ by up to half of what is added (0.002 kg/L at 0.1 mol/kg).
pub fn solution_density_kg_l(t_c: f64, ionic_strength_mol_kg: f64) -> f64 {
    // Salinity of sea water of an ionic strength: I = 19.924 S/(1000 − 1.005 S) (Millero 1982, from memory).
    let i = ionic_strength_mol_kg;
    let s = 1000.0 * i / (19.924 + 1.005 * i);
    // Millero & Poisson 1981, Deep-Sea Res. 28A:625 (from memory), g/L over pure water.
    let a = 8.24493e-1 + t_c * (-4.0899e-3 + t_c * (7.6438e-5 + t_c * (-8.2467e-7 + 5.3875e-9 * t_c)));
    let b = -5.72466e-3 + t_c * (1.0227e-4 - 1.6546e-6 * t_c);
    density_kg_l(t_c) + (a * s + b * s * sqrt(s) + 4.8314e-4 * s * s) / 1000.0
}

/// Relative permittivity of water.
pub fn permittivity(t_c: f64) -> f64 {
    // Malmberg & Maryott 1956, 0 to 100 °C (from memory).
    87.740 + t_c * (-0.40008 + t_c * (9.398e-4 - 1.410e-6 * t_c))
}

/// Viscosity of water, mPa·s.
pub fn viscosity_mpa_s(t_c: f64) -> f64 {
    // IAPWS SR6-08 (2011), liquid water at 0.1 MPa, 253 to 383 K (from memory; meets IAPWS R12-08 within 3e-5 from 0 to 60 °C).
    let t = (t_c + ZERO_CELSIUS_K) / 300.0;
    let terms = [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.459_03, -40.0)];
    terms.iter().map(|(a, b)| a * pow(t, *b)).sum::<f64>() / 1000.0
}

/// Dissolved oxygen in fresh water at equilibrium with water-saturated air at 101.325 kPa, mg/L.
pub fn oxygen_saturation_mg_l(t_c: f64) -> f64 {
    let t = t_c + ZERO_CELSIUS_K;
    // Benson & Krause 1984 as in Standard Methods 4500-O (from memory).
    exp(-139.34411 + (1.575701e5 + (-6.642308e7 + (1.243800e10 - 8.621949e11 / t) / t) / t) / t)
}

/// The two parameters of the Debye–Hückel equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DebyeHueckel {
    /// A, kg^½ mol^−½ (decadic).
    pub a: f64,
    /// B, kg^½ mol^−½ Å^−1.
    pub b: f64,
}

/// A = 1.82483e6·ρ^½/(εT)^1.5 and B = 50.2916·ρ^½/(εT)^½, ρ in g/cm³, T in K.
pub fn debye_hueckel(t_c: f64) -> DebyeHueckel {
    let rho = density_kg_l(t_c);
    let et = permittivity(t_c) * (t_c + ZERO_CELSIUS_K);
    // Truesdell & Jones 1974, J. Res. USGS 2:233 (constants as stated in reference/aqueous.md).
    DebyeHueckel { a: 1.82483e6 * sqrt(rho) / pow(et, 1.5), b: 50.2916 * sqrt(rho) / sqrt(et) }
}

/// Volts per unit of pe: ln(10)·R·T/F.
pub fn volt_per_pe(t_c: f64) -> f64 {
    core::f64::consts::LN_10 * GAS_CONSTANT * (t_c + ZERO_CELSIUS_K) / FARADAY
}
