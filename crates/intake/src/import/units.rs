//! Which units can stand beside which quantity: a temperature is no mass concentration, lead is
//! not measured in volts. Only what is certain is refused; a name we do not know passes.

use message::{Message, expected};
use quantity::unit::Dimension;
use quantity::{Substance, Unit};

/// Dimensions that an amount of a substance in water can have: mass, amount, charge or activity
/// per volume; mass or amount per mass of water.
// Axes: length, mass, time, temperature, current, amount, charge number, counts, angle.
const IN_WATER: [Dimension; 7] = [
    [-3, 1, 0, 0, 0, 0, 0, 0, 0],
    [-3, 0, 0, 0, 0, 1, 0, 0, 0],
    [-3, 0, 0, 0, 0, 0, 1, 0, 0],
    [-3, 0, -1, 0, 0, 0, 0, 0, 0],
    [0, 0, 0, 0, 0, 0, 0, 0, 0],
    [0, -1, 0, 0, 0, 1, 0, 0, 0],
    [0, -1, 0, 0, 0, 0, 1, 0, 0],
];

/// Whether a unit can stand beside a quantity.
///
/// # Errors
/// What was expected.
pub(crate) fn unit_fits(quantity: &str, unit: &Unit) -> Result<(), Message> {
    let wanted = match quantity {
        "temperature" => "°C",
        "pH" => "pH",
        "Eh" => "mV",
        "conductivity" => "µS/cm",
        "pressure" => "bar",
        "head" => "m",
        "flow" => "L/min",
        name => return in_water(name, unit),
    };
    if Unit::known(wanted).dimension() == unit.dimension() {
        Ok(())
    } else {
        Err(expected::UnitOf { quantity: quantity.into(), unit: wanted.into() }.into())
    }
}

fn in_water(name: &str, unit: &Unit) -> Result<(), Message> {
    let symbol = name.split(['(', '+', '-', '^', ' ']).next().unwrap_or("");
    let dissolved = matches!(name, "dissolved oxygen" | "tritium")
        || name.starts_with("alkalinity")
        || Substance::parse(symbol).is_ok();
    if dissolved && !IN_WATER.contains(&unit.dimension()) {
        return Err(expected::UnitOfConcentration.into());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_must_be_of_the_quantity() {
        for (name, unit, fits) in [
            ("Pb", "ng/L", true),
            ("Pb", "nmol/kg", true),
            ("Pb", "mV", false),
            ("Cr(VI)", "ug/L as Cr", true),
            ("tritium", "pCi/L", true),
            ("temperature", "°C", true),
            ("temperature", "mg/L", false),
            ("pH", "pH", true),
            ("conductivity", "uS/cm", true),
            ("a quantity of our own", "mV", true),
        ] {
            assert_eq!(unit_fits(name, &Unit::known(unit)).is_ok(), fits, "{name} {unit}");
        }
    }
}
