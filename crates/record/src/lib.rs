//! What is kept: the tables of a programme, their rows and events, in a file or on a server. This room alone knows the
//! database; it knows no science.

pub mod bounds;
pub mod by;
pub mod error;
pub mod identity;
pub mod known_names;
pub mod near;
pub mod other_names;
pub mod schema;
pub mod store;
pub mod usual;
pub mod words;

pub use by::By;
pub use error::Error;
pub use identity::{ReadingId, ResultId};
pub use store::model;
