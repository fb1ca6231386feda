//! SF6 and CFCs: from what is dissolved to the air at recharge, and which of them may speak at all.
//!
//! In: fmol/kg, temperature and height of recharge, excess air in cm³ STP/kg; oxygen, sulfide and methane of the water.
//! Out: mixing ratio of dry air (ppt) and the years that had it; for CFCs whether each is used, gives one side only, or
//! is refused. Ceq = F(T)·x·(P − pw)/(1 − pw), F for moist air at 1 atm, fresh water, per kg, 0 to 40 °C: Warner & Weiss
//! 1985, Bu & Warner 1995, Busenberg & Plummer 2008, as the table says; pw Weiss & Price 1980. F is never mixed with a
//! function of dry air, nor per kg with per L. Excess air is unfractionated. CFCs: USGS guideline; the limit on oxygen is
//! our own. Checked in `tests/age_gases.rs`.

use super::constants::number;
use super::history::History;
use super::measured::{Recharge, Tracer};
use super::tritium::passages;
use crate::Reason;
use message::{Message, Shown, age as said, aquifer as part};
use quantity::{Check, Finding, Outcome};
use serde::{Deserialize, Serialize};

/// K at 0 °C (definition of the degree Celsius).
const KELVIN: f64 = 273.15;
/// cm³ STP of excess air a kg to mol/kg is over the molar volume; ppt to a share.
const PPT: f64 = 1e-12;
/// mol to fmol.
const FMOL_PER_MOL: f64 = 1e15;

/// Air pressure at a height, atm (standard atmosphere).
pub fn pressure_atm(height_m: f64) -> f64 {
    libm::pow(1.0 - number("P.elevation.per_m") * height_m, number("P.elevation.power"))
}

/// Vapour pressure over fresh water, atm.
pub fn vapour_atm(temperature_c: f64) -> f64 {
    let t = (temperature_c + KELVIN) / 100.0;
    libm::exp(number("pw.a") + number("pw.b") / t + number("pw.c") * libm::log(t))
}

/// F, mol/(kg·atm), of a gas of the air.
///
/// # Errors
/// [`Reason`]: a tracer that is no gas, or a temperature outside 0 to 40 °C, where F was measured.
pub fn solubility(gas: Tracer, temperature_c: f64) -> Result<f64, Reason> {
    let key = match gas {
        Tracer::Sf6 => "SF6",
        Tracer::Cfc11 => "CFC11",
        Tracer::Cfc12 => "CFC12",
        Tracer::Cfc113 => "CFC113",
        other => {
            return Err(Reason::unlike(said::OfTracer { tracer: other.sign().into() }, said::NoGas, said::GasOfTheAir));
        }
    };
    if !(0.0..=40.0).contains(&temperature_c) {
        let range = part::Between { low: Shown::as_given(0.0, ""), high: Shown::as_given(40.0, "°C") };
        return Err(Reason::out_of_range(said::RechargeTemperature, Shown::as_given(temperature_c, "°C"), range));
    }
    let a = |k: u8| number(&format!("{key}.F.a{k}"));
    let t = (temperature_c + KELVIN) / 100.0;
    // SF6 has no term in T².
    let square = if gas == Tracer::Sf6 { 0.0 } else { a(4) * t * t };
    Ok(libm::exp(a(1) + a(2) / t + a(3) * libm::log(t) + square))
}

/// Relative standard uncertainty of F.
pub fn u_solubility(gas: Tracer) -> f64 {
    0.01 * number(if gas == Tracer::Sf6 { "SF6.u_sol" } else { "CFC11_12.u_sol" })
}

/// fmol/kg in the water for each ppt in dry air, at a temperature, height and excess air: the part that dissolves, and
/// the part that excess air brings.
///
/// # Errors
/// [`Reason`]: as [`solubility`]; a height outside −500 to 6000 m.
pub fn dissolved_per_ppt(
    gas: Tracer,
    temperature_c: f64,
    height_m: f64,
    air_cm3_kg: f64,
) -> Result<(f64, f64), Reason> {
    if !(-500.0..=6000.0).contains(&height_m) {
        let range = part::Between { low: Shown::as_given(-500.0, ""), high: Shown::as_given(6000.0, "m") };
        return Err(Reason::out_of_range(said::RechargeHeight, Shown::as_given(height_m, "m"), range));
    }
    let pw = vapour_atm(temperature_c);
    let water = solubility(gas, temperature_c)? * (pressure_atm(height_m) - pw) / (1.0 - pw);
    let air = air_cm3_kg / number("molarvol.air");
    Ok((water * PPT * FMOL_PER_MOL, air * PPT * FMOL_PER_MOL))
}

/// Mixing ratio of dry air at recharge, ppt, with its u.
///
/// # Errors
/// [`Reason`]: SF6 without excess air by a noble gas (11 % a cm³ STP/kg: no age), or as [`dissolved_per_ppt`].
pub fn mixing_ratio(gas: Tracer, fmol_kg: f64, u_fmol_kg: f64, recharge: &Recharge) -> Result<(f64, f64), Reason> {
    let air = excess_air(gas, recharge)?;
    let per = |t: f64, h: f64, a: f64| dissolved_per_ppt(gas, t, h, a).map(|(w, a)| w + a);
    let (t, h) = (recharge.temperature_c, recharge.height_m);
    let base = per(t.value, h.value, air.value)?;
    // By finite differences: the function is smooth, and one u apart is the scale that counts. Towards the middle of the
    // range of F, so that 0 °C stays within it.
    let dt = if t.value > 20.0 { -t.u } else { t.u };
    let parts = [
        per(t.value + dt, h.value, air.value)? / base - 1.0,
        per(t.value, h.value + h.u, air.value)? / base - 1.0,
        per(t.value, h.value, air.value + air.u)? / base - 1.0,
        dissolved_per_ppt(gas, t.value, h.value, 0.0)?.0 / base * u_solubility(gas),
    ];
    let x = fmol_kg / base;
    let relative: f64 = parts.iter().map(|p| p * p).sum();
    Ok((x, ((u_fmol_kg / base).powi(2) + x * x * relative).sqrt()))
}

/// Excess air of the recharge; nothing for CFCs where it is not known, with a u that covers 0 to 6 cm³ STP/kg.
fn excess_air(gas: Tracer, recharge: &Recharge) -> Result<super::WithU, Reason> {
    match recharge.excess_air_cm3_kg {
        Some(a) => Ok(a),
        None if gas == Tracer::Sf6 => Err(Reason::unlike(said::ExcessAir, said::NotGiven, said::NeonOrArgon)),
        // Usual range in aquifers (Aeschbach-Hertig et al. 2000, from memory): 0.2 % to 5 % of the CFC.
        None => Ok(super::WithU { value: 3.0, u: 1.7 }),
    }
}

/// Years whose air had a mixing ratio, latest first.
pub fn years_of(ppt: f64, sampled_year: f64, history: &History) -> Vec<f64> {
    passages(&history.input(sampled_year).value.0, ppt, 0.0).into_iter().map(|tau| sampled_year - tau).collect()
}

/// Whether something was found in the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, Default)]
#[serde(rename_all = "kebab-case")]
pub enum Found {
    /// Above its critical value.
    Detected,
    /// Looked for and not found.
    NotDetected,
    /// Not looked for.
    #[default]
    NotMeasured,
}

/// What decides whether CFCs can have survived.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Redox {
    /// Dissolved oxygen, mg/L.
    pub oxygen_mg_l: Option<f64>,
    /// Hydrogen sulfide and its ions.
    pub sulfide: Found,
    /// Methane.
    pub methane: Found,
}

/// What a CFC may say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Use {
    /// An age.
    Age,
    /// "Not older than" its apparent age, and nothing else.
    NotOlderThan,
    /// Nothing.
    Refused,
}

/// Least oxygen with which CFC-11 and CFC-113 are used, mg/L.
// Our own choice: the guideline says "high".
const OXYGEN_MG_L: f64 = 0.5;

/// Which CFC may say what in this water (USGS guideline: H2S, CFC-11 and CFC-113 altered; CH4, all three can go). What was
/// not looked at is not "none": then CFC-12 gives one side, and the others are refused. Other tracers are used.
pub fn admitted(tracer: Tracer, redox: &Redox) -> (Use, Option<Finding>) {
    if !matches!(tracer, Tracer::Cfc11 | Tracer::Cfc12 | Tracer::Cfc113) {
        return (Use::Age, None);
    }
    let oxic = redox.oxygen_mg_l.is_some_and(|o| o >= OXYGEN_MG_L);
    let name = message::Name::from(tracer.sign());
    let use_ = |twelve: Use| if tracer == Tracer::Cfc12 { twelve } else { Use::Refused };
    let (admitted, says): (Use, Message) = if redox.methane == Found::Detected {
        (use_(Use::NotOlderThan), said::CfcMethane { tracer: name }.into())
    } else if redox.sulfide == Found::Detected {
        (use_(Use::NotOlderThan), said::CfcSulfide { tracer: name }.into())
    } else if redox.oxygen_mg_l.is_some() && !oxic {
        let least = Shown::as_given(OXYGEN_MG_L, "mg/L");
        (use_(Use::NotOlderThan), said::CfcOxygen { tracer: name, least }.into())
    } else if !oxic || redox.sulfide == Found::NotMeasured {
        (use_(Use::NotOlderThan), said::CfcNotLookedAt { tracer: name }.into())
    } else {
        return (Use::Age, None);
    };
    (admitted, Some(Finding::new(Check::AquiferAge, Outcome::NotMet, says)))
}

/// Refuses a gas above what the air ever had: contamination gives no age.
///
/// # Errors
/// [`Reason`] with the value and the highest of the history.
pub fn within_air(gas: Tracer, (x, u): (f64, f64), history: &History) -> Result<(), Reason> {
    let most = history.points.iter().map(|p| p.value + 3.0 * p.u).fold(0.0, f64::max);
    if x - 3.0 * u <= most {
        return Ok(());
    }
    let expected = said::AtMostAir { most: Shown::significant(most, 3, "ppt") };
    Err(Reason::out_of_range(said::OfTracer { tracer: gas.sign().into() }, Shown::significant(x, 3, "ppt"), expected))
}
