//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod ages;
mod figures;
mod messages;
mod older_text;
mod report;
mod specimen;
