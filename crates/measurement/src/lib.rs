//! From counts to a number, and what the number is worth.
pub mod addition;
pub mod blank;
pub mod calc;
pub mod conformity;
pub mod control;
mod dd;
pub mod detection;
pub mod dilution;
pub mod dist;
pub mod error;
pub mod expression;
pub mod isotope;
pub mod lead;
pub mod least_squares;
pub mod line;
pub mod outlier;
pub mod ratio;
pub mod robust;
pub mod run;
pub mod uncertainty;

/// The calculations of this crate on the command line.
pub const CALCULATIONS: &[quantity::Calculation] = &[
    calc::LINE,
    calc::UNCERTAINTY,
    calc::ADDITION,
    calc::DILUTION,
    calc::RATIO,
    calc::CONTROL,
    calc::OUTLIERS,
    calc::CONFORMITY,
];
