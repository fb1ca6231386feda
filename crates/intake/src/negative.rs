//! Negative concentrations: a net value below its blank. With its uncertainty it says how little there can be; without
//! one it says neither that something was found nor that it was not.
//!
//! In: analyte, value, unit. Out: whether the value is a concentration that lies below nothing. A temperature, a redox
//! potential, an isotope delta or an alkalinity may be negative and mean it. Checked in the tests below.

use quantity::Unit;

/// Concentrations that may lie below nothing because of how they are defined: a balance of acid and base.
const BALANCES: [&str; 4] = ["alkalinity", "acidity", "acid neutralising capacity", "net charge"];

/// Units of what cannot be less than nothing.
const CONCENTRATIONS: [&str; 4] = ["mg/L", "mmol/L", "Bq/L", "mg/kg"];

/// Whether a value without uncertainty says nothing because it is a concentration below zero.
pub fn says_nothing(analyte: &str, value: f64, unit: &str) -> bool {
    if value >= 0.0 || BALANCES.iter().any(|b| analyte.starts_with(b)) {
        return false;
    }
    let Ok(unit) = Unit::parse(unit) else { return false };
    // mg/kg has no dimension, as pH and percent have none: only where the unit says mass over mass.
    let of = |c: &str| Unit::known(c).dimension() == unit.dimension() && (c != "mg/kg" || unit.ucum().contains("g/"));
    CONCENTRATIONS.iter().any(|c| of(c))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_concentration_below_zero_says_nothing_and_what_may_be_negative_does() {
        for (analyte, value, unit, expected) in [
            ("Pb", -0.3, "ng/L", true),
            ("Ca", -0.1, "mmol/L", true),
            ("U", -0.001, "ug/kg", true),
            ("Ra-226", -2.0, "mBq/L", true),
            ("Pb", 0.0, "ng/L", false),
            ("Pb", 0.3, "ng/L", false),
            ("temperature", -0.5, "Cel", false),
            ("Eh", -120.0, "mV", false),
            ("alkalinity", -3.0, "mg/L", false),
            ("pH", -0.5, "[pH]", false),
            ("charge balance", -2.0, "%", false),
        ] {
            assert_eq!(says_nothing(analyte, value, unit), expected, "{analyte} {value} {unit}");
        }
    }
}
