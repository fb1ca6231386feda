//! Whose metal is it: the air over the bottle, the bottle itself, the hands, the pipe, or the water.
//!
//! In: particle counts, blanks, masses of metal per bottle with u, what each bottle was exposed
//! to. Out: the class that a count can show, the water's share of a measured metal, the
//! strength of each source with its interval, and what the next trip should take along.
//!
//! * [`air`] — particle counts against the classes of ISO 14644-1:2015.
//! * [`accounting`] — whose metal is in a bottle: one sum of six parts.
//! * [`share`] — the water's share of the metal in a bottle, from gross and blank.
//! * [`lots`] — may this lot of bottles go out? [`forecast`] — what each stage will bring.
//! * [`attribution`] — all bottles fitted together; [`unseen`] — bottles of one kind that the fit misses; [`lines`] — fills and flows; [`screening_design`] — handling steps.
//! * [`plan`] — what to take along so that the question can be decided; [`needs`] — so that it can be accepted; [`asked`] — the question as a person asks it.
//!
//! Pure functions: no files, no clock, no printing. A fault in the data is a
//! [`quantity::Finding`]; a request that cannot be met is an [`Error`].

// Sizes, counts and zeros are compared as they were written down, not as they were computed.
#![allow(clippy::float_cmp)]

pub mod accounting;
pub mod air;
pub mod asked;
pub mod attribution;
pub mod calc;
pub mod forecast;
pub mod lines;
pub mod lots;
pub mod needs;
pub mod nested;
pub mod nnls;
pub mod patterns;
pub mod plan;
pub mod screening_design;
pub mod share;
pub mod stats;
pub mod unseen;

mod random;

pub use calc::CALCULATIONS;
pub use quantity::Refusal as Error;
