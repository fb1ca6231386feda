//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod age_coverage;
mod age_curves;
mod age_data;
mod age_fit;
mod age_gases;
mod age_helium;
mod age_inputs;
mod age_models;
mod age_next;
mod age_tritium;
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
