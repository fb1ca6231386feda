//! Units in which laboratories report what tells age and origin, by the sign of the isotope or gas.
//!
//! In: a sign of the record. Out: the units that can be read; none for a sign that is not known. "pMC" alone is not among
//! them, because it has two meanings; a δ names its scale. Checked in `tests/age_inputs.rs`.

use super::measured::Tracer;
use super::noble::Gas;

/// Percent of the standard's activity in 1950, decayed to the year of measurement.
pub const PMC_ABSOLUTE: &str = "pMC (absolute)";
/// ‰ on the scale of water.
pub const PERMIL_WATER: &str = "‰ VSMOW";
/// ‰ on the scale of carbon.
pub const PERMIL_CARBON: &str = "‰ VPDB";
/// A ratio of two isotopes.
pub const RATIO: &str = "ratio";

/// Units of a sign: isotopes and gases that date water, noble gases, δ values.
///
/// ```
/// use aquifer::age::reported::units;
/// // "pMC" alone would be a guess between two numbers that lie 1 % apart.
/// assert!(units("14C").contains(&"pMC (absolute)") && !units("14C").contains(&"pMC"));
/// assert!(units("gold").is_empty());
/// ```
pub fn units(sign: &str) -> Vec<&'static str> {
    match sign {
        "14C" => Tracer::Carbon14.units().into_iter().map(|(u, _)| u).chain([PMC_ABSOLUTE]).collect(),
        "d13C" => vec![PERMIL_CARBON],
        "d18O" | "d2H" => vec![PERMIL_WATER],
        "3He/4He" => vec![RATIO],
        gas if Gas::ALL.iter().any(|g| g.symbol() == gas) => GAS_UNITS.iter().map(|(u, _)| *u).collect(),
        other => Tracer::by_sign(other).map_or_else(Vec::new, |t| t.units().into_iter().map(|(u, _)| u).collect()),
    }
}

/// Units of a noble gas with their factor to mol/kg; the volume of a gas needs the gas ([`mol_per_kg`]).
const GAS_UNITS: [(&str, f64); 4] = [("cm3STP/g", f64::NAN), ("mol/kg", 1.0), ("umol/kg", 1e-6), ("nmol/kg", 1e-9)];

/// mol/kg for one of a unit of a noble gas; none for another unit.
pub fn mol_per_kg(gas: Gas, unit: &str) -> Option<f64> {
    let (_, factor) = GAS_UNITS.iter().find(|(u, _)| *u == unit)?;
    Some(if factor.is_nan() { gas.mol_per_kg(1.0) } else { *factor })
}

/// Unit of the history of a tracer: what fell or stood in the air; none for what has no history.
pub fn history_unit(sign: &str) -> Option<&'static str> {
    let tracer = Tracer::by_sign(sign)?;
    Some(if tracer.is_gas() { "ppt" } else { tracer.unit() }).filter(|_| tracer != Tracer::Helium3)
}
