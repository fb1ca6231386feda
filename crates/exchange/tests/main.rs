//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod common;
mod damage;
mod dictionary;
mod round_trip;
mod sealed;
mod witnesses;
