//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod ages;
mod auth;
mod browser;
mod case_print;
mod common;
mod desk;
mod files;
mod first_year;
mod fixtures;
mod labels;
mod requests;
mod results_cards;
mod visit;
mod words;
mod words_of_forms;
mod workshop;
