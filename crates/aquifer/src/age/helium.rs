//! Tritium and its daughter helium-3: how long ago the young part of the water left the air.
//!
//! In: total He and Ne in cm³ STP/g, 3He/4He (absolute), tritium in TU, temperature and height of recharge, the half-life
//! that the laboratory used. Out: tritiogenic 3He in TU, the age t = ln(1 + 3He/3H)/λ with its u, the tritium at recharge.
//! 3He(tri) = 3He − 3Heeq − Ra·(4He − Heeq − 4Heterr) − Rterr·4Heterr, 4Heterr = 4He − Heeq − (Ne − Neeq)·(He/Ne)air
//! (Schlosser et al. 1989, from memory). Solubility: Jenkins, Lott & Cahill 2019. Excess air is unfractionated. A dead
//! admixture leaves the age as it is: it is that of the young part, and for an exponential model ln(1 + λT)/λ. Range 0.5
//! to 50 years (from memory). Checked in `tests/age_helium.rs`.

use super::constants::{constant, number};
use super::gases::pressure_atm;
use super::measured::{Measured, WithU};
use super::noble::{Gas, in_water};
use super::tritium::lambda;
use crate::Reason;
use message::{Message, Shown, age as said};
use serde::Serialize;

/// What the copper tube gave, with what is known of it.
#[derive(Debug, Clone, PartialEq)]
pub struct HeliumSample {
    /// Total helium, cm³ STP/g.
    pub helium: WithU,
    /// Total neon, cm³ STP/g.
    pub neon: WithU,
    /// 3He/4He, absolute.
    pub ratio: WithU,
    /// Recharge temperature, °C.
    pub temperature_c: WithU,
    /// Recharge height, m.
    pub height_m: WithU,
    /// 3He/4He of terrigenic helium where it was found out; else radiogenic is assumed.
    pub terrigenic_ratio: Option<WithU>,
    /// Whether bubbles were seen while the tube was filled.
    pub bubbles: bool,
    /// Half-life with which the laboratory decayed tritium to the day of sampling, years.
    pub half_life_years: Option<f64>,
}

/// The age of the young part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeliumAge {
    /// Tritiogenic 3He, TU.
    pub tritiogenic_tu: WithU,
    /// Terrigenic 4He, cm³ STP/g.
    pub terrigenic_cm3_g: WithU,
    /// Age, years; none where tritium was not detected.
    pub years: Option<WithU>,
    /// At least so old, years (95 %), where tritium was not detected.
    pub at_least_years: Option<f64>,
    /// Tritium at recharge, 3H + 3He, TU: a point off the curve of the rain is a mixture, or lost gas.
    pub initial_tu: WithU,
}

/// Equilibrium with moist air, cm³ STP/g, of helium or neon.
fn equilibrium(gas: Gas, temperature_c: f64, height_m: f64) -> f64 {
    gas.cm3_stp_per_g(in_water(gas, temperature_c, pressure_atm(height_m)))
}

/// Parts of the helium, by the inputs in their order: helium, neon, ratio, temperature, height, terrigenic ratio, ratio of
/// the air, its change on dissolving.
fn parts(x: &[f64; 8]) -> (f64, f64) {
    let [helium, neon, ratio, t, h, terrigenic_ratio, air, dissolving] = *x;
    let (he_eq, ne_eq) = (equilibrium(Gas::He, t, h), equilibrium(Gas::Ne, t, h));
    let excess = (neon - ne_eq) * number("air.x.He") / number("air.x.Ne");
    let terrigenic = helium - he_eq - excess;
    let tri = helium * ratio - dissolving * air * he_eq - air * excess - terrigenic_ratio * terrigenic;
    (tri / number("3He.cm3STP_per_g_per_TU"), terrigenic)
}

/// The age of the young part by tritium and helium-3.
///
/// # Errors
/// [`Reason`]: bubbles; a half-life that was not said, or is another than 12.2 to 12.5 years; helium or neon below
/// solubility; terrigenic helium above that of the air with an unknown ratio; negative tritiogenic helium.
pub fn helium_age(sample: &HeliumSample, tritium: &Measured) -> Result<HeliumAge, Reason> {
    if sample.bubbles {
        return Err(Reason::unlike(said::CopperTube, said::Bubbles, said::TubeAtWellHead));
    }
    match sample.half_life_years {
        Some(t) if (12.2..=12.5).contains(&t) => {}
        Some(t) => {
            let range = message::aquifer::Between { low: Shown::as_given(12.2, ""), high: Shown::as_given(12.5, "a") };
            return Err(Reason::out_of_range(said::HalfLife, Shown::as_given(t, "a"), range));
        }
        None => return Err(Reason::unlike(said::HalfLife, said::NotGiven, said::HalfLifeOfLaboratory)),
    }
    let (t, h) = (sample.temperature_c.value, sample.height_m.value);
    for (gas, what, measured) in [(Gas::He, "helium", sample.helium), (Gas::Ne, "neon", sample.neon)] {
        let least = equilibrium(gas, t, h);
        // Three u and 2 % of solubility and temperature.
        if measured.value + 3.0 * measured.u < 0.98 * least {
            let expected = said::AtLeastSolubility { least: Shown::significant(least, 3, "cm³ STP/g") };
            let found = Shown::significant(measured.value, 3, "cm³ STP/g");
            return Err(Reason::out_of_range(said::GasOfTube { gas: what.into() }, found, expected));
        }
    }
    // The crust's usual ratio ranges from 1e-8 to 5e-8 (the table): its half-width stands in for u.
    let terrigenic_ratio = sample.terrigenic_ratio.unwrap_or(WithU { value: number("He.R_radiogenic"), u: 1.2e-8 });
    let of_table = |key: &str| WithU { value: number(key), u: constant(key).u.unwrap_or(0.0) };
    let inputs = [
        sample.helium,
        sample.neon,
        sample.ratio,
        sample.temperature_c,
        sample.height_m,
        terrigenic_ratio,
        of_table("air.3He_4He"),
        of_table("He.alpha_sol"),
    ];
    let values = inputs.map(|w| w.value);
    let (tri, terrigenic) = parts(&values);
    let mut u2 = [0.0; 2];
    for (k, w) in inputs.iter().enumerate() {
        let (mut up, mut down) = (values, values);
        up[k] += 0.5 * w.u;
        down[k] -= 0.5 * w.u;
        let (a, b) = (parts(&up), parts(&down));
        u2[0] += (a.0 - b.0).powi(2);
        u2[1] += (a.1 - b.1).powi(2);
    }
    let (tri, terrigenic) = (WithU { value: tri, u: u2[0].sqrt() }, WithU { value: terrigenic, u: u2[1].sqrt() });
    if sample.terrigenic_ratio.is_none() && terrigenic.value > equilibrium(Gas::He, t, h) {
        let expected = said::TerrigenicRatio { most: Shown::significant(equilibrium(Gas::He, t, h), 2, "cm³ STP/g") };
        let found = Shown::significant(terrigenic.value, 2, "cm³ STP/g");
        return Err(Reason::out_of_range(said::TerrigenicHelium, found, expected));
    }
    age_of(tri, terrigenic, tritium)
}

/// t = ln(1 + 3He/3H)/λ with its u, or one-sided.
///
/// # Errors
/// [`Reason`]: tritiogenic helium-3 below nought by more than three u.
pub fn age_of(tri: WithU, terrigenic: WithU, tritium: &Measured) -> Result<HeliumAge, Reason> {
    if tri.value + 3.0 * tri.u < 0.0 {
        let expected: Message = said::TritiogenicAllowed.into();
        return Err(Reason::out_of_range(said::TritiogenicHelium, Shown::significant(tri.value, 2, "TU"), expected));
    }
    let (h, u_h) = (tritium.number(), tritium.u());
    let held = tri.value.max(0.0);
    let initial_tu = WithU { value: h.max(0.0) + held, u: libm::hypot(u_h, tri.u) };
    let (years, at_least_years) = if tritium.detected() {
        let sum = h + held;
        // ∂t/∂He = 1/(λ·(H + He)), ∂t/∂H = −He/(λ·H·(H + He)).
        let u = libm::hypot(tri.u / sum, held * u_h / (h * sum)) / lambda();
        (Some(WithU { value: libm::log1p(held / h) / lambda(), u }), None)
    } else {
        let least = (tri.value - statistics::normal::ONE_SIDED_95 * tri.u).max(0.0);
        (None, Some(libm::log1p(least / tritium.at_most()) / lambda()))
    };
    Ok(HeliumAge { tritiogenic_tu: tri, terrigenic_cm3_g: terrigenic, years, at_least_years, initial_tu })
}
