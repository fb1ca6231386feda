//! From counts to a number, and what the number is worth.
pub mod blank;
mod dd;
pub mod detection;
pub mod dist;
pub mod error;
pub mod isotope;
pub mod expression;
pub mod least_squares;
pub mod line;
pub mod ratio;
pub mod run;
pub mod uncertainty;
