//! The long record: decades with non-detects.

pub mod error;
pub mod kendall;
pub mod population;
pub mod record;
pub mod slope;
pub mod special;

pub use error::Error;
pub use record::{Observation, Reading};
