//! House rules that a machine can check.

pub mod audit;
pub mod change;
pub mod circles;
pub mod numbers;
pub mod package;
pub mod tidy;
