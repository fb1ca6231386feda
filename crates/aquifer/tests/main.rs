//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod calc;
mod reason;
mod scipy;
mod validation_carbon14;
mod validation_functions;
mod validation_isotopes;
mod validation_noble;
mod validation_purge;
mod validation_tests;
mod validation_travel;
mod validation_well;
