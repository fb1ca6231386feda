//! House rules that a machine can check.

pub mod numbers;
pub mod tidy;
