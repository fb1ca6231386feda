//! The tests of the checks themselves, one program.

mod change;
mod package;
mod tidy;
