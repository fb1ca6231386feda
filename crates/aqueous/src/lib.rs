//! What the water is: chemistry from one analysis.

pub mod activity;
pub mod constants;
pub mod error;
pub mod network;
mod safeguard;
pub mod solver;
pub mod trial;
pub mod water;

pub use error::Error;
