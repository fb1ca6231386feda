//! How old is this water and where did it fall: what environmental tracers say.
//!
//! In: tracers with unit, u and day of sampling ([`measured`]), histories of rain and air ([`history`], the user's own),
//! and what is known of the recharge. Out: classes, roots, bands and verdicts, each with its reasons; "cannot tell" where
//! tracers do not decide. Times in years, calendar times as decimal years.
//!
//! * [`noble`] — recharge temperature, excess air, lost gas, helium of the rock.
//! * [`carbon14`] — the band of ages over the corrections for carbon of the rock.
//! * [`isotopes`], [`seasons`] — water isotopes: evaporation, season, height, the yearly wave in the well.
//! * [`chloride`] — recharge by the balance of chloride.
//! * [`measured`] — a tracer as a laboratory measured it, in the unit of the models.
//! * [`reported`] — the units in which laboratories report all of these.
//! * [`history`], [`models`], [`convolve`] — what was put in, how ages are spread, what comes out.
//! * [`tritium`], [`helium`], [`gases`] — each tracer alone: classes, roots, refusals.
//! * [`tables`], [`mod@fit`], [`verdict`], [`next`] — all together, what that decides, what to measure next.
//! * [`curves`] — what a picture of them shows.
//! * [`constants`] — the table of constants, with source and whether that was seen.
//!
//! An age never stands without its model, history, half-life and u; it proves neither purity nor safety to drink.

pub mod carbon14;
pub mod chloride;
pub mod constants;
mod convolve;
mod covariance;
pub mod curves;
mod draws;
pub mod fit;
pub mod gases;
pub mod helium;
pub mod history;
pub mod isotopes;
mod least_squares;
pub mod measured;
pub mod models;
pub mod next;
pub mod noble;
pub mod reported;
pub mod seasons;
pub mod tables;
pub mod tritium;
pub mod verdict;

pub use convolve::convolve;
pub use fit::{Fit, Observation, Sample, Side, Spread, fit};
pub use history::{History, Input, Pieces, Point};
pub use measured::{Carbon14, Level, Measured, Recharge, Tracer, WithU};
pub use models::Model;
pub use tables::{Entry, Kind, Screen, Setting, Tables};
