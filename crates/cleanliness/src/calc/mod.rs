//! The calculations of this crate on the command line: `air`, `contamination`, `attribution`, `plan`, `trial`.
//!
//! JSON in, JSON out; the unit stands in the key or beside the value. Checked in `tests/calc.rs`.

mod air;
mod attribution;
mod contamination;
mod plan;
mod read;
mod screening_design;

pub use plan::read as read_plan;
use quantity::Calculation;

/// The calculations of this crate.
pub const CALCULATIONS: &[Calculation] =
    &[air::AIR, contamination::CONTAMINATION, attribution::ATTRIBUTION, plan::PLAN, screening_design::TRIAL];
