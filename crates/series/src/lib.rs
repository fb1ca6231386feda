//! The long record: decades with non-detects.
