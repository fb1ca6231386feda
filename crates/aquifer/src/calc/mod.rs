//! The calculations of this crate on the command line: `well`, `flow-test`, `mixing`, `travel`, `age`, `isotopes`.
//!
//! JSON in, JSON out. The unit stands in the key (`radius_m`, `radius_ft`, `Q_L_min`, `Q_gal_min`) or beside
//! the value; rows of one table keep to one set of units. Checked in `tests/calc.rs`.

mod age;
mod flow_test;
mod isotopes;
mod mixing;
mod read;
mod travel;
mod well;

use quantity::Calculation;

/// The calculations of this crate.
pub const CALCULATIONS: &[Calculation] =
    &[well::WELL, flow_test::FLOW_TEST, mixing::MIXING, travel::TRAVEL, age::AGE, isotopes::ISOTOPES];

/// What stands beside every answer about a flowing well.
pub(crate) const CAUTION: &str = "opening or shutting a flowing well can damage it or the ground; drilling into pressure is licensed work, and an enclosed well house can hold hydrogen sulfide: measure the air before going in, by the local code";
