//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod analysis;
mod any_input;
mod balance;
mod batch;
mod calc;
mod carbon;
mod checks;
mod electrons;
mod enrichment;
mod groundwater;
mod network;
mod odour;
mod organic;
mod pictures;
mod properties;
mod redox;
mod solver;
mod uncertainty;
mod validation_activity;
mod validation_carbonate;
mod validation_cold;
mod validation_conductivity;
mod validation_constants;
mod validation_scipy;
mod validation_titration;
mod validation_water;
