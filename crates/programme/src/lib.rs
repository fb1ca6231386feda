//! The record of one team: wells, trips, bottles, runs, results; the store that keeps it, the
//! import that fills it, and the case for each number. This room alone knows the store.

pub mod air;
pub mod assess;
pub mod attribution;
pub mod blanks;
pub mod bounds;
pub mod case;
pub mod derive;
pub mod dust;
pub mod engine;
pub mod entry;
pub mod error;
pub mod evidence;
pub mod field;
pub mod forecast;
mod foreign;
pub mod holding;
pub mod identity;
pub mod import;
pub mod index;
pub mod lead;
pub mod limits_of;
pub mod lots;
pub mod meaning;
pub mod model;
pub mod organics;
pub mod overflow;
pub mod path;
pub mod plan;
pub mod quality;
pub mod results;
pub mod schema;
pub mod series_of;
pub mod start;
pub mod statement;
pub mod store;
pub mod unfit;
pub mod unmet;
pub mod verdict;
pub mod verify;
pub mod wells;
pub mod work;

pub use error::Error;
pub use identity::{ReadingId, ResultId};
