//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod store_acts;
mod store_common;
mod store_copies;
mod store_server;
mod store_tls;
mod store_undo;
mod store_verify;
