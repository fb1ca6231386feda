//! From counts to a number, and what the number is worth.
//!
//! Rooms inside: [`run`] reduces one instrument session to results with derivation and budget;
//! [`detection`] and [`blank`] say what counts as detected; [`isotope`] holds abundances and what
//! follows from them. [`mod@line`], [`addition`] and [`dilution`] are the ways to a concentration;
//! [`ratio`] and [`lead`] compare results. [`expression`] and [`uncertainty`] propagate any model
//! (JCGM 100, JCGM 101); [`conformity`] sets a result against a limit (JCGM 106). [`outlier`],
//! [`robust`] and [`control`] look after quality over the years. [`statistics`] and [`least_squares`]
//! are the mathematics below; [`calc`] offers all of it to the command line.
//!
//! Pure functions: no files, no clock, no database. Units are the caller's unless a name or a type
//! says them. What cannot be answered is a typed error ([`error::Error`], or that of the module);
//! what is doubtful is a warning or a finding beside the answer. Same input, same digits, on any
//! number of threads.

pub mod addition;
pub mod blank;
pub mod calc;
pub mod conformity;
pub mod control;
mod dd;
pub mod detection;
pub mod detector;
pub mod dilution;
pub mod error;
pub mod expression;
pub mod interference;
pub mod isotope;
pub mod lead;
pub mod least_squares;
pub mod line;
pub mod outlier;
pub mod ratio;
pub mod robust;
pub mod run;
pub mod same_water;
pub mod uncertainty;

/// The calculations of this crate on the command line.
pub const CALCULATIONS: &[quantity::Calculation] = &[
    detection::calc::CALCULATION,
    calc::LINE,
    calc::UNCERTAINTY,
    calc::ADDITION,
    calc::DILUTION,
    calc::RATIO,
    calc::CONTROL,
    calc::OUTLIERS,
    calc::CONFORMITY,
];
