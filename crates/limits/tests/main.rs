//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod absence;
mod claim;
mod claim_age;
mod claim_cases;
mod compound_limits;
mod limits;
