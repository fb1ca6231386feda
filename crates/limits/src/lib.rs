//! Published limits, whether a result lies under them, and the sentences that the data support.
//!
//! In: results with u, non-detects, and the authorities a programme asks about. Out: for each limit
//! "below", "above" or "cannot tell" by its decision rule, then the probability that the true value is under it.
//!
//! * [`table`] — limits of several authorities, each with document, edition, basis, kind, the date it
//!   was read, and whether it was seen in print or recalled.
//! * [`terms`] — what a limit is set for, its decision rule, what it demands of the method.
//! * [`mod@compare`] — a result against a limit by its decision rule (JCGM 106:2012), and the probability.
//! * [`method`] — whether the method meets what the limit demands of it.
//! * [`local`] — limits that a person adds, and the strictest of all for an analyte.
//! * [`claim`] — sentences of ratio, difference, threshold, absence, reference, ranking, change, age, and other
//!   people's pictures of scale: supported or not.
//! * [`mod@absence`] — long lists of compounds, none found; [`cas`] — their names and numbers.
//! * [`waters`], [`bodies`] — reference waters and bodies of water, as data with source.
//!
//! It compares with published limits and says no more than that. Whether water may be drunk is for
//! the local health authority, and for tests that a metal analysis does not hold.

// Values are compared as they were written down, not as they were computed.
#![allow(clippy::float_cmp)]

pub mod absence;
pub mod bodies;
pub mod calc;
pub mod cas;
pub mod claim;
pub mod compare;
pub mod compound_limits;
pub mod local;
pub mod method;
pub mod table;
pub mod terms;
pub mod waters;

pub use calc::CALCULATIONS;
pub use compare::{Answer, BelowIs, Comparison, Guard, Known, Options, Urgency, compare, rank};
pub use table::{Limit, limits};
