//! What the trade is used to: a value outside may be right, and somebody should look at it once more.
//!
//! In: a value with its unit, of a quantity as the record names it ("pH", "Zn") or of a column ("well_section.radius_m").
//! Out: nothing, or the usual range. The ranges are the rows of `reference/usual_ranges.csv`, each with its source; import,
//! forms and field sheets ask here and go on: the answer is told as a note at its row, never as a fault. What physics
//! forbids is refused elsewhere ([`bounds`](crate::bounds)). Times: which of two columns is the earlier one.
//! Checked in `crates/intake/tests/plausible.rs`.

use crate::schema::Table;
use quantity::Unit;
use quantity::unit::Conversion;
use serde::Deserialize;
use std::sync::LazyLock;

/// The usual range of one quantity, both ends included.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Usual {
    /// A quantity or analyte as the record names it, or table and column with a point between.
    pub quantity: String,
    /// Least, in `unit`.
    pub lower: f64,
    /// Most, in `unit`.
    pub upper: f64,
    /// Unit of both.
    pub unit: String,
    /// Why there.
    pub source: String,
    /// Whether the figures are from memory (recalled) or the programme's own choice (own).
    pub provenance: String,
}

static TABLE: LazyLock<Vec<Usual>> = LazyLock::new(|| {
    csv::Reader::from_reader(include_str!("../../../reference/usual_ranges.csv").as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        .expect("the table of usual ranges is well formed")
});

/// All rows.
pub fn table() -> &'static [Usual] {
    &TABLE
}

/// What is usual of a quantity; none where the table has no row of it.
fn of(quantity: &str) -> Option<&'static Usual> {
    TABLE.iter().find(|u| u.quantity == quantity)
}

impl Usual {
    /// Does a value in the range's own unit lie outside?
    pub fn is_outside(&self, x: f64) -> bool {
        !(self.lower..=self.upper).contains(&x)
    }

    /// The unit beside the figures: pH has none.
    pub fn shown_unit(&self) -> &str {
        if self.unit == self.quantity { "" } else { &self.unit }
    }
}

/// A usual range together with the way from a unit to the range's own.
#[derive(Debug, Clone, Copy)]
pub struct Scale {
    /// The range.
    pub usual: &'static Usual,
    conversion: Conversion,
}

impl Scale {
    /// For readings of a quantity or results of an analyte in a unit; none where nothing is known of it, or where the
    /// unit is none of its own (refused elsewhere) or wants a molar mass. "pH (laboratory)" is a pH.
    pub fn of(quantity: &str, unit: &Unit) -> Option<Self> {
        let name = quantity.split_once(" (").map_or(quantity, |(name, _)| name);
        let usual = of(name)?;
        // pH has no unit to turn into.
        let conversion = if name == "pH" {
            Conversion { factor: 1.0, offset: 0.0 }
        } else {
            unit.conversion(&Unit::known(&usual.unit), None, None).ok()?
        };
        Some(Self { usual, conversion })
    }

    /// Does a value in the unit lie outside what is usual?
    pub fn is_outside(&self, x: f64) -> bool {
        self.usual.is_outside(self.conversion.apply(x))
    }
}

/// The columns of a table of which something is usual, by place.
pub fn columns(table: &Table) -> Vec<(usize, &'static Usual)> {
    let of = |u: &'static Usual| {
        let (name, column) = u.quantity.split_once('.')?;
        (name == table.name).then(|| table.place(column)).flatten().map(|place| (place, u))
    };
    TABLE.iter().filter_map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::schema;

    #[test]
    fn every_row_is_of_a_column_in_its_unit_or_of_a_quantity_whose_unit_is_read() {
        for u in table() {
            assert!(u.lower < u.upper && u.source.len() > 20, "{u:?}");
            assert!(["recalled", "own"].contains(&&*u.provenance), "{u:?}");
            if let Some((table, column)) = u.quantity.split_once('.') {
                let column = schema::table(table).and_then(|t| t.column(column)).unwrap_or_else(|| panic!("{u:?}"));
                assert_eq!(column.fixed_unit(), Some(Unit::known(&u.unit)), "{u:?}");
            } else {
                assert!(Scale::of(&u.quantity, &Unit::known(&u.unit)).is_some(), "{u:?}");
            }
        }
    }

    #[test]
    fn what_is_usual_lies_within_what_can_be() {
        for u in table() {
            let name = match u.quantity.split_once('.') {
                Some((table, column)) => {
                    schema::table(table).and_then(|t| t.column(column)).and_then(|c| c.range.bound)
                }
                None => Some(u.quantity.as_str()),
            };
            let Some(bound) = name.and_then(crate::bounds::of) else { continue };
            assert_eq!(Unit::known(&bound.unit), Unit::known(&u.unit), "{u:?}");
            assert!(bound.lower <= u.lower && u.upper <= bound.upper, "{u:?} {bound:?}");
        }
    }
}
