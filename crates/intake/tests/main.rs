//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod import_common;
mod import_demo;
mod import_forms;
mod import_hammer;
mod import_names;
mod import_real;
mod import_recipe;
mod import_strange;
mod one_name;
mod plausible;
