//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod catalogues;
mod plurals;
