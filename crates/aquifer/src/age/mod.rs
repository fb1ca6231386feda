//! How old is this water: what environmental tracers say of the time since recharge.
//!
//! In: tracers with unit, u and day of sampling ([`measured`]), histories of rain and air ([`history`], the user's own),
//! and what is known of the recharge. Out: classes, roots, bands and verdicts, each with its reasons; "cannot tell" where
//! tracers do not decide. Times in years, calendar times as decimal years.
//!
//! * [`measured`] — a tracer as a laboratory measured it, in the unit of the models.
//! * [`constants`] — the table of constants, with source and whether that was seen.
//!
//! An age never stands without its model, history, half-life and u; it proves neither purity nor safety to drink.

pub mod constants;
pub mod measured;

pub use measured::{Carbon14, Level, Measured, Recharge, Tracer, WithU};
