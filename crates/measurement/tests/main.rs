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
mod expression;
mod interference;
mod isotope;
mod line;
mod other_hand;
mod outlier;
mod poisson_line;
mod ratio;
mod robust;
mod rough;
mod run_checks;
mod run_coverage;
mod run_errors;
mod run_invariance;
mod run_recorded;
mod same_water;
mod uncertainty;
