//! The constants of the tracers: `reference/tracers.csv` and, for the origin of the water, `tracers_origin.csv`,
//! each row with its source and whether that was seen or is recalled.
//!
//! In: the key of a row. Out: its number, u, unit and source.

use crate::purge::split_quoted;
use std::collections::HashMap;
use std::sync::LazyLock;

/// A row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Constant {
    /// `3H.halflife`.
    pub key: String,
    /// The number.
    pub value: f64,
    /// Standard uncertainty; none where exact or not stated.
    pub u: Option<f64>,
    /// Unit.
    pub unit: String,
    /// Where it stands.
    pub source: String,
    /// `seen`, `computed` or `from memory`.
    pub seen: String,
}

static TABLE: LazyLock<HashMap<String, Constant>> = LazyLock::new(|| {
    [include_str!("../../../../reference/tracers.csv"), include_str!("../../../../reference/tracers_origin.csv")]
        .iter()
        .flat_map(|table| table.lines().skip(1))
        .map(|line| {
            let f = split_quoted(line);
            let value = f[1].parse().expect("a constant of the table is a number");
            let (key, unit, source, seen) = (f[0].clone(), f[3].clone(), f[4].clone(), f[5].clone());
            (key.clone(), Constant { key, value, u: f[2].parse().ok(), unit, source, seen })
        })
        .collect()
});

/// A row by its key.
///
/// # Panics
/// When the table has no such row: keys stand in the code beside it, and a test asks for each.
pub fn constant(key: &str) -> &'static Constant {
    TABLE.get(key).unwrap_or_else(|| panic!("the tables of tracers have no row {key}"))
}

/// Its number.
pub fn number(key: &str) -> f64 {
    constant(key).value
}

/// All rows.
pub fn all() -> impl Iterator<Item = &'static Constant> {
    TABLE.values()
}
