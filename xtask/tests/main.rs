//! The tests of the checks themselves, one program.

mod audit;
mod change;
mod package;
mod tidy;
