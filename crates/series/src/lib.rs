//! The long record: decades with non-detects.

pub mod compare;
pub mod control;
pub mod error;
pub mod fitness;
pub mod kendall;
pub mod likelihood;
pub mod order_statistics;
pub mod population;
pub mod power;
pub mod product_limit;
pub mod record;
pub mod seasonal;
pub mod slope;
pub mod smooth;
pub mod special;
pub mod step;
pub mod summary;
pub mod survey;
pub mod trend;

pub use error::Error;
pub use record::{Observation, Reading};
