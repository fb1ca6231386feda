//! Redox couples, each with an Eh of its own.
//!
//! In: a solved water with couples held apart. Out: for each couple with both ends in the water,
//! pe and Eh from the half reaction. In a cold groundwater they disagree by hundreds of mV; the
//! spread is the result, not an error. A measured Eh stands beside them. Signs: oxidised +
//! n e− = reduced, Eh = pe·ln(10)·R·T/F against the standard hydrogen electrode.
//! Sources: half reactions of `reference/aqueous_constants.csv`. Checked in `tests/redox.rs`.

use crate::equilibrium::Equilibrium;
use crate::error::Error;
use crate::network::{ELECTRON, Entity, network};
use crate::water::volt_per_pe;
use core::f64::consts::LN_10;

/// One couple.
#[derive(Debug, Clone, PartialEq)]
pub struct Couple {
    /// `SO4^2-/HS-`.
    pub name: String,
    /// Electron activity, −log10.
    pub pe: f64,
    /// Against the standard hydrogen electrode, mV.
    pub eh_mv: f64,
    /// Standard uncertainty from log K and 5 % in each end, mV.
    pub u_mv: f64,
    /// An end stands at its detection limit.
    pub at_limit: bool,
    /// How the constant is known.
    pub provenance: &'static str,
}

/// All couples of the table whose ends are in the water.
pub fn ladder(e: &Equilibrium, at_limit: &dyn Fn(usize) -> bool) -> Vec<Couple> {
    network().couples.iter().filter_map(|c| couple(e, c, at_limit)).collect()
}

fn couple(e: &Equilibrium, c: &Entity, at_limit: &dyn Fn(usize) -> bool) -> Option<Couple> {
    let electrons = c.count(ELECTRON);
    let mut sum = 0.0;
    let mut ends = 0.0_f64;
    for (j, n) in c.terms.iter().filter(|(j, _)| *j != ELECTRON) {
        sum += n * e.log_activity(*j)?;
        ends += if *j == 0 { 0.0 } else { n * n };
    }
    // electrons·log a(e−) + sum = log K, pe = −log a(e−).
    let pe = -(c.log_k(&e.constants.rows) - sum) / electrons;
    let volt = volt_per_pe(e.temperature_c);
    let u_k = c.u_log_k(e.temperature_c);
    // 5 % of each end in log10 units, as `analysis` assumes where nothing is stated.
    let u_ends = 0.05 / LN_10;
    Some(Couple {
        name: c.name.clone(),
        pe,
        eh_mv: pe * volt * 1e3,
        u_mv: libm::sqrt(u_k * u_k + ends * u_ends * u_ends) / electrons.abs() * volt * 1e3,
        at_limit: c.terms.iter().any(|(j, _)| at_limit(*j)),
        provenance: c.recipe.first().map_or("computed", |(r, _)| crate::constants::table()[*r].provenance.word()),
    })
}

/// pe of an Eh in mV.
pub fn pe_of(eh_mv: f64, t_c: f64) -> f64 {
    eh_mv * 1e-3 / volt_per_pe(t_c)
}

/// Indices of the couples with these names, for closing them.
///
/// # Errors
/// [`Error::Unclear`] with the names that are known.
pub fn couples_named(names: &[String]) -> Result<Vec<usize>, Error> {
    let net = network();
    names
        .iter()
        .map(|n| {
            net.couples.iter().position(|c| c.name == quantity::formula::spelled(n)).ok_or_else(|| Error::Unclear {
                quantity: "redox couple".into(),
                found: n.as_str().into(),
                expected: format!(
                    "one of {}",
                    net.couples.iter().map(|c| c.name.as_str()).collect::<Vec<_>>().join(", ")
                )
                .into(),
            })
        })
        .collect()
}
