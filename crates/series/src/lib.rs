//! The long record: decades with non-detects.
//!
//! In: readings of one unit, a number or "below its limit", with decimal years and the method of
//! each; out: summaries, trends, steps, comparisons and limits with intervals, and findings on
//! what is odd. Nothing is ever put in place of a non-detect.
//!
//! * [`summary`](mod@summary) — mean and percentiles by four methods, each with a word on fitness.
//! * [`trend`](mod@trend) — Mann–Kendall, Theil–Sen, seasons, steps; [`correlation`] — what
//!   neighbours that resemble each other leave of them.
//! * [`compare`](mod@compare) — groups and pairs; [`population`] — tolerance, prediction, percentile limits.
//! * [`control`] — blanks over the years; [`power`] — years until a change would be seen;
//!   [`smooth`] — a moving median; [`survey`](mod@survey) — every series of a long table.
//! * [`fitness`](mod@fitness) — the simulated coverage that the words and warnings come from.
//!
//! Sources and validity stand in each module; validation in `docs/validation/series.md`, theory
//! in `docs/theory/series.md`. Not here: files, units, pictures.

// Ties and repeated limits are equal numbers, exactly; counts of rows are far below 2^63.
#![allow(clippy::float_cmp, clippy::cast_possible_wrap)]

pub mod calculations;
pub mod compare;
pub mod control;
pub mod correlation;
pub mod error;
pub mod fitness;
mod inversion;
pub mod kendall;
pub mod likelihood;
pub mod order_statistics;
pub mod population;
pub mod power;
pub mod product_limit;
pub mod rows;
pub mod seasonal;
pub mod slope;
pub mod smooth;
pub mod step;
pub mod summary;
pub mod survey;
pub mod trend;
pub mod words;

pub use calculations::CALCULATIONS;
pub use error::Error;
pub use rows::{Observation, Reading};
