//! Published limits, and whether a result lies under them.
//!
//! In: results with u, non-detects, and the authorities a programme asks about. Out: for each limit
//! "below", "above" or "cannot tell", with the probability that the true value is under it.
//!
//! * [`table`] — limits of several authorities, each with document, edition, basis, kind, the date it
//!   was read, and whether it was seen in print or recalled.
//! * [`mod@compare`] — a result against a limit by probability (JCGM 106:2012), with a guard band.
//!
//! It compares with published limits and says no more than that. Whether water may be drunk is for
//! the local health authority, and for tests that a metal analysis does not hold.

// Values are compared as they were written down, not as they were computed.
#![allow(clippy::float_cmp)]

pub mod calc;
pub mod compare;
pub mod table;

pub use calc::CALCULATIONS;
pub use compare::{Answer, Comparison, Guard, Options, compare};
pub use table::{Limit, limits};
