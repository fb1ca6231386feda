//! Density and viscosity of the water in the pipe and the ground.
//!
//! In: temperature in °C. Out: kg/m³ and Pa·s. Density by the formula of Tanaka et al. 2001
//! (Metrologia 38:301), valid 0 to 40 °C, for pure water at one atmosphere; groundwater of 1 g/L
//! dissolved salts is about 0.07 % denser, which is beyond what a gauge sees. Viscosity by
//! interpolation (logarithm, parabola through three neighbours) in
//! `reference/water_properties.csv`, 0 to 25 °C. Checked in `tests/validation_well.rs`.

use crate::{Error, Reason};
use message::{Shown, aquifer as part};
use std::sync::LazyLock;

/// Standard acceleration of free fall, m/s².
// Third General Conference on Weights and Measures, 1901; exact by convention.
pub const STANDARD_GRAVITY: f64 = 9.80665;

/// Density of water, kg/m³.
///
/// # Errors
/// [`Reason`] outside 0 to 40 °C.
pub fn density_kg_m3(temperature_c: f64) -> Result<f64, Reason> {
    if !(0.0..=40.0).contains(&temperature_c) {
        let celsius = |t| Shown::as_given(t, "°C");
        let allowed = part::Between { low: Shown::as_given(0.0, ""), high: celsius(40.0) };
        return Err(Reason::out_of_range(part::WaterTemperature, celsius(temperature_c), allowed));
    }
    // Tanaka et al. 2001, Metrologia 38:301, table 1; from memory, met by the table of densities.
    let (a1, a2, a3, a4, a5) = (-3.983_035, 301.797, 522_528.9, 69.34881, 999.974_950);
    let t = temperature_c;
    Ok(a5 * (1.0 - (t + a1) * (t + a1) * (t + a2) / (a3 * (t + a4))))
}

static VISCOSITY: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
    include_str!("../../../reference/water_properties.csv")
        .lines()
        .skip(1)
        .map(|l| {
            let mut f = l.split(',');
            let t = f.next().and_then(|x| x.parse().ok());
            let mu: Option<f64> = f.nth(1).and_then(|x| x.parse().ok());
            (t.expect("the table's temperature is a number"), mu.expect("the table's viscosity is a number") * 1e-3)
        })
        .collect()
});

/// Dynamic viscosity of water, Pa·s.
///
/// # Errors
/// [`Error::OutOfRange`] outside 0 to 25 °C, the range of the table.
pub fn viscosity_pa_s(temperature_c: f64) -> Result<f64, Error> {
    if !(0.0..=25.0).contains(&temperature_c) {
        return Err(Error::out_of_range("water temperature", format!("{temperature_c} °C"), "0 to 25 °C"));
    }
    let t = &*VISCOSITY;
    let i = t.iter().position(|p| p.0 >= temperature_c).unwrap_or(t.len() - 1).clamp(1, t.len() - 2);
    let p = [t[i - 1], t[i], t[i + 1]];
    let ln: f64 = (0..3)
        .map(|k| {
            let (a, b) = ((k + 1) % 3, (k + 2) % 3);
            let weight = (temperature_c - p[a].0) * (temperature_c - p[b].0) / ((p[k].0 - p[a].0) * (p[k].0 - p[b].0));
            weight * libm::log(p[k].1)
        })
        .sum();
    Ok(libm::exp(ln))
}
