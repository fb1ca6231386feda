//! House rules that a machine can check.

pub mod tidy;
