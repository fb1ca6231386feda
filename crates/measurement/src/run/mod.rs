//! Reduction of a run: counts on the detector to concentrations in the bottle, each with its
//! uncertainty, its detection state and the way back to the counts.

mod input;
mod recipe;

pub use input::{Assigned, Factor, Isotope, Mode, Reading, Role, RunInput, Summary, Vial};
pub use recipe::{
    BlankCentre, BlankRule, BlankScale, ByMass, DeadTime, Drift, FactorSource, GivenRecovery,
    Intercept, Interference, InternalStandards, NamedInternalStandard, Quantification, Recipe,
    Recovery, Sum,
};
