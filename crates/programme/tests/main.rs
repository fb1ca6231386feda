//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod accounting;
mod attribution;
mod bounds;
mod checks;
mod columns;
mod compounds;
mod demo_common;
mod demo_truth;
mod demo_wells;
mod dust;
mod engine;
mod entry;
mod field;
mod forecast_and_plan;
mod import_bad;
#[path = "../../intake/tests/import_common/mod.rs"]
mod import_common;
mod index;
mod kept_rows;
mod labels;
mod lead;
mod limits_in_force;
mod outside_text;
mod overflow;
mod pairs;
mod profiles;
mod quality;
mod recipes;
mod request;
mod rewritten;
mod same_water;
mod series_of;
mod shadow;
mod signed;
mod simulated_run;
mod statement;
mod statement_age;
#[path = "../../record/tests/store_common/mod.rs"]
mod store_common;
mod store_outside;
mod take_in;
mod tracers;
mod undo;
mod unmet;
mod upper_bounds;
mod workshop;
