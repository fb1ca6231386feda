//! Natural isotopic compositions and atomic weights.
//!
//! In: element symbol, mass number. Out: isotope mass (u), abundance (mole fraction), standard
//! atomic weight (g/mol), each with standard uncertainty. The table is `reference/isotopes.csv`
//! (masses AME 2020, abundances CIAAW 2021, atomic weights Prohaska 2022, lead Meija 2016, taken
//! from a public-domain compilation); it holds the elements a laboratory of trace metals meets,
//! not the whole chart. Where CIAAW gives a range, the table holds a middle with half the range:
//! lead's make-up varies so much in nature that its abundances serve no correction.
//! Checked in `tests/isotope.rs` against ratios quoted with published correction equations.

use std::collections::BTreeMap;
use std::sync::OnceLock;

const TABLE: &str = include_str!("../../../reference/isotopes.csv");

/// A number with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WithU {
    /// The value.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
}

/// One nuclide as found in nature.
#[derive(Debug, Clone, PartialEq)]
pub struct Nuclide {
    /// Element symbol.
    pub element: String,
    /// Mass number.
    pub mass_number: u16,
    /// Mass, u.
    pub mass: WithU,
    /// Mole fraction in natural material.
    pub abundance: WithU,
    /// Standard atomic weight of the element, g/mol.
    pub atomic_weight: WithU,
}

type Table = BTreeMap<(String, u16), Nuclide>;

fn table() -> &'static Table {
    static PARSED: OnceLock<Table> = OnceLock::new();
    PARSED.get_or_init(|| {
        TABLE
            .lines()
            .filter(|l| !l.starts_with('#') && !l.starts_with("element"))
            .filter_map(parse)
            .map(|n| ((n.element.clone(), n.mass_number), n))
            .collect()
    })
}

fn parse(line: &str) -> Option<Nuclide> {
    let cell: Vec<&str> = line.split(',').collect();
    let number = |i: usize| cell.get(i)?.trim().parse::<f64>().ok();
    let with_u = |i: usize, scale: f64| Some(WithU { value: number(i)? * scale, u: number(i + 1)? * scale });
    Some(Nuclide {
        element: cell.first()?.trim().to_string(),
        mass_number: cell.get(1)?.trim().parse().ok()?,
        mass: with_u(2, 1.0)?,
        abundance: with_u(4, 0.01)?,
        atomic_weight: with_u(6, 1.0)?,
    })
}

/// The nuclide, where the table has it.
///
/// ```
/// let cd = measurement::isotope::nuclide("Cd", 111).unwrap();
/// assert!((cd.abundance.value - 0.12795).abs() < 1e-9);
/// assert!(measurement::isotope::nuclide("Cd", 109).is_none());
/// ```
pub fn nuclide(element: &str, mass_number: u16) -> Option<&'static Nuclide> {
    table().get(&(element.to_string(), mass_number))
}

/// All nuclides in the table, by element and mass number.
pub fn all() -> impl Iterator<Item = &'static Nuclide> {
    table().values()
}
