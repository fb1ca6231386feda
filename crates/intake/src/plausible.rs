//! Notes on what may be right and is worth a second look: a value outside what is usual, acid before water.
//!
//! In: a value, or two times, of one row. Out: the message, or nothing; whoever reads the row tells it at its place and
//! goes on. The ranges are those of [`record::usual`]; what physics forbids is a fault and none of these.
//! Checked in `crates/intake/tests/plausible.rs`.

use message::{Shown, intake};
use quantity::Unit;
use record::bounds;
use record::schema::Table;
use record::usual::{self, Scale, Usual};

/// A number of a column outside what is usual there.
pub(crate) fn number(usual: &Usual, heading: &str, x: f64) -> Option<intake::Unusual> {
    usual.is_outside(x).then(|| unusual(heading, Shown::as_given(x, &usual.unit), usual))
}

/// As [`number`], of a column by its name and a number as text.
pub(crate) fn text(table: &Table, column: &str, text: &str) -> Option<intake::Unusual> {
    let place = table.place(column)?;
    let (_, usual) = usual::columns(table).into_iter().find(|(p, _)| *p == place)?;
    number(usual, column, text.parse().ok()?)
}

/// A reading or a result outside what is usual of its quantity.
pub(crate) fn measured(scale: &Scale, quantity: &str, x: f64, unit: &Unit) -> Option<intake::Unusual> {
    // pH has no unit beside its name.
    let beside = if scale.usual.shown_unit().is_empty() { String::new() } else { unit.to_string() };
    scale.is_outside(x).then(|| unusual(quantity, Shown::as_given(x, beside), scale.usual))
}

/// Acid that was added before the bottle was filled.
pub(crate) fn acid_first(acidified: &str, filled: &str) -> Option<intake::AcidBeforeFilling> {
    bounds::is_before(acidified, filled)
        .then(|| intake::AcidBeforeFilling { acidified: acidified.into(), filled: filled.into() })
}

fn unusual(what: &str, value: Shown, usual: &Usual) -> intake::Unusual {
    let (lower, upper) = (Shown::as_given(usual.lower, ""), Shown::as_given(usual.upper, usual.shown_unit()));
    intake::Unusual { what: what.into(), value, lower, upper }
}
