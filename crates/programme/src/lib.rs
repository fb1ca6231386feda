//! The record: wells, trips, bottles, runs, results; store, import, the case for each number.
