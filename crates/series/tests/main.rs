//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod bad_input;
mod brute_force;
mod calculations;
mod correlation;
mod false_rates;
mod handbook;
mod inversion;
mod programme_of_years;
mod seasonal;
mod survey;
