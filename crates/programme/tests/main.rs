//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod attribution;
mod blame;
mod demo_common;
mod demo_truth;
mod demo_wells;
mod dust;
mod entry;
mod field;
mod import_bad;
mod import_common;
mod import_demo;
mod import_forms;
mod import_hammer;
mod import_real;
mod index;
mod lead;
mod overflow;
mod quality;
mod series_of;
mod simulated_run;
mod statement;
mod store_acts;
mod store_common;
mod store_outside;
mod store_server;
mod store_verify;
