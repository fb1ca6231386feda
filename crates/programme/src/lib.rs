//! The record of one team: wells, trips, bottles, runs, results; the store that keeps it, the
//! import that fills it, and the case for each number. This room alone knows the store.

pub mod import;
pub mod model;
pub mod schema;
pub mod store;
