//! The raw files of the trip.
