//! What joins mass, amount of substance and charge: a formula's molar mass and charge number.

use crate::formula::{parted, spelled};
use crate::unit::UnitError;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A substance as far as conversion needs it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Substance {
    /// Formula as files write it: `SO4^2-`, `CaCO3`, `Pb`.
    pub formula: String,
    /// Molar mass, g/mol.
    pub molar_mass_g_mol: f64,
    /// Charge number with sign; 0 for a neutral substance.
    pub charge: i32,
}

/// Standard atomic weights, g/mol.
// IUPAC abridged standard atomic weights 2021 (Prohaska et al. 2022, Pure Appl. Chem. 94:573); from memory.
const ATOMIC_WEIGHTS: &[(&str, f64)] = &[
    ("H", 1.008),
    ("Li", 6.94),
    ("B", 10.81),
    ("C", 12.011),
    ("N", 14.007),
    ("O", 15.999),
    ("F", 18.998),
    ("Na", 22.990),
    ("Mg", 24.305),
    ("Al", 26.982),
    ("Si", 28.085),
    ("P", 30.974),
    ("S", 32.06),
    ("Cl", 35.45),
    ("K", 39.098),
    ("Ca", 40.078),
    ("Ti", 47.867),
    ("V", 50.942),
    ("Cr", 51.996),
    ("Mn", 54.938),
    ("Fe", 55.845),
    ("Co", 58.933),
    ("Ni", 58.693),
    ("Cu", 63.546),
    ("Zn", 65.38),
    ("Ga", 69.723),
    ("As", 74.922),
    ("Se", 78.971),
    ("Br", 79.904),
    ("Rb", 85.468),
    ("Sr", 87.62),
    ("Mo", 95.95),
    ("Ag", 107.87),
    ("Cd", 112.41),
    ("In", 114.82),
    ("Sn", 118.71),
    ("Sb", 121.76),
    ("I", 126.90),
    ("Ba", 137.33),
    ("W", 183.84),
    ("Re", 186.21),
    ("Hg", 200.59),
    ("Tl", 204.38),
    ("Pb", 207.2),
    ("Bi", 208.98),
    ("Th", 232.04),
    ("U", 238.03),
];

impl Substance {
    /// Reads a formula: element symbols with counts and brackets, its charge in any spelling of
    /// [`crate::formula`] (`SO4^2-`, `SO4--`). A bare element is neutral; say `Ca^2+` where charge matters.
    ///
    /// # Errors
    /// [`UnitError::UnknownSubstance`] with the part that is not understood.
    ///
    /// ```
    /// use quantity::Substance;
    /// // Two H, one N more: the ammonium ion and ammonia are not one substance.
    /// let ammonium = Substance::parse("NH4+")?;
    /// assert_eq!((ammonium.charge, ammonium.molar_mass_g_mol), (1, 18.039));
    /// // "co2" names no element: what cannot be read is an error, not a mass of zero.
    /// assert!(Substance::parse("co2").is_err());
    /// # Ok::<(), quantity::UnitError>(())
    /// ```
    pub fn parse(formula: &str) -> Result<Self, UnitError> {
        let unknown = || UnitError::UnknownSubstance { formula: formula.to_string() };
        let (body, charge) = parted(formula);
        let atoms = atoms(body).ok_or_else(unknown)?;
        let molar_mass_g_mol = atoms.iter().map(|(i, n)| n * ATOMIC_WEIGHTS[*i].1).sum();
        Ok(Self { formula: spelled(formula), molar_mass_g_mol, charge })
    }

    /// Moles of `other` that hold as many atoms of this basis' own element as one mole of the basis:
    /// `NO3` against `N` gives 1, `P2O5` against `PO4` gives 2. The basis' own element is the one
    /// beside oxygen and hydrogen. `None` where the two share none.
    pub(crate) fn atoms_shared_with(&self, other: &Self) -> Option<f64> {
        let mine = atoms(parted(&self.formula).0)?;
        let theirs = atoms(parted(&other.formula).0)?;
        let (element, n) = mine.iter().find(|(i, _)| !matches!(ATOMIC_WEIGHTS[**i].0, "O" | "H"))?;
        Some(n / theirs.get(element)?)
    }
}

/// Is this a formula of elements, without a charge?
pub(crate) fn is_formula(body: &str) -> bool {
    atoms(body).is_some()
}

/// Counts of atoms by place in [`ATOMIC_WEIGHTS`]; `None` where the text is no formula.
fn atoms(body: &str) -> Option<BTreeMap<usize, f64>> {
    let chars: Vec<char> = body.chars().collect();
    let mut at = 0;
    let mut found = BTreeMap::new();
    group(&chars, &mut at, 1.0, &mut found)?;
    (at == chars.len() && !found.is_empty()).then_some(found)
}

/// Adds the atoms of a run of symbols and bracketed groups, up to the end or a closing bracket.
fn group(chars: &[char], at: &mut usize, times: f64, found: &mut BTreeMap<usize, f64>) -> Option<()> {
    while *at < chars.len() && chars[*at] != ')' {
        if chars[*at] == '(' {
            *at += 1;
            let mut inner = BTreeMap::new();
            group(chars, at, 1.0, &mut inner)?;
            if chars.get(*at) != Some(&')') {
                return None;
            }
            *at += 1;
            let n = times * count(chars, at);
            for (element, k) in inner {
                *found.entry(element).or_insert(0.0) += n * k;
            }
        } else {
            let element = symbol(chars, at)?;
            *found.entry(element).or_insert(0.0) += times * count(chars, at);
        }
    }
    Some(())
}

fn symbol(chars: &[char], at: &mut usize) -> Option<usize> {
    let mut name = String::from(*chars.get(*at).filter(|c| c.is_ascii_uppercase())?);
    *at += 1;
    if let Some(c) = chars.get(*at).filter(|c| c.is_ascii_lowercase()) {
        name.push(*c);
        *at += 1;
    }
    ATOMIC_WEIGHTS.iter().position(|(s, _)| *s == name)
}

fn count(chars: &[char], at: &mut usize) -> f64 {
    let mut n = 0.0;
    let mut any = false;
    while let Some(d) = chars.get(*at).and_then(|c| c.to_digit(10)) {
        n = n * 10.0 + f64::from(d);
        *at += 1;
        any = true;
    }
    if any { n } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn molar_masses() {
        // Handbook values to the digits of the abridged weights.
        for (formula, mass, charge) in [
            ("CaCO3", 100.086, 0),
            ("SO4--", 96.056, -2),
            ("SO4^2-", 96.056, -2),
            ("Al(OH)4-", 95.010, -1),
            ("Pb", 207.2, 0),
        ] {
            let s = Substance::parse(formula).unwrap();
            assert!((s.molar_mass_g_mol - mass).abs() < 2e-3, "{formula}: {}", s.molar_mass_g_mol);
            assert_eq!(s.charge, charge);
        }
        for bad in ["", "Xx", "Ca(", "ca", "Ca)", "4"] {
            assert!(Substance::parse(bad).is_err(), "{bad}");
        }
    }
}
