//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod addition;
mod blank;
mod calc;
mod common;
mod conformity;
mod control;
mod detection;
mod detector;
mod dilution;
mod earlier_blanks;
mod expression;
mod interference;
mod isotope;
mod line;
mod outlier;
mod ratio;
mod robust;
mod run_coverage;
mod run_errors;
mod run_invariance;
mod uncertainty;
mod vial_scatter;
