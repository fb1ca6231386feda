//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod auth;
mod browser;
mod common;
mod files;
mod first_year;
mod fixtures;
mod labels;
mod requests;
mod words;
