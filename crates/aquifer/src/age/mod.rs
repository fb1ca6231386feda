//! How old is this water and where did it fall: what environmental tracers say.
//!
//! * [`noble`] — recharge temperature, excess air, lost gas, helium of the rock.
//! * [`carbon14`] — the band of ages over the corrections for carbon of the rock.
//! * [`isotopes`], [`seasons`] — water isotopes: evaporation, season, height, the yearly wave in the well.
//! * [`chloride`] — recharge by the balance of chloride.
//! * [`measured`] — a tracer as a laboratory measured it, in the unit of the models.
//! * [`constants`] — the tables of constants, with source and whether that was seen.
//!
//! An age never stands without its model, half-life and u; it proves neither purity nor safety to drink.

pub mod carbon14;
pub mod chloride;
pub mod constants;
mod draws;
pub mod isotopes;
mod least_squares;
pub mod measured;
pub mod noble;
pub mod seasons;

pub use draws::Spread;
pub use measured::{Carbon14, Level, Measured, Recharge, Tracer, WithU};
