//! From counts to a number, and what the number is worth.
pub mod dist;
pub mod run;
