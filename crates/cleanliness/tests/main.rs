//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod calc;
mod refusals;
mod validation_accounting;
mod validation_air;
mod validation_attribution;
mod validation_forecast;
mod validation_lines;
mod validation_lots;
mod validation_patterns;
mod validation_plan;
mod validation_screening_design;
mod validation_share;
mod validation_unseen;
