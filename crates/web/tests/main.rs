//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod accessibility;
mod acting;
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
mod own_account;
mod requests;
mod results_cards;
mod serving;
mod tls;
mod visit;
mod words;
mod words_of_forms;
mod workshop;
