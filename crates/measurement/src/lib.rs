//! From counts to a number, and what the number is worth.
mod dd;
pub mod dist;
pub mod error;
pub mod least_squares;
pub mod line;
pub mod ratio;
pub mod run;
