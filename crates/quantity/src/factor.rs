//! Factors between two units of the trade, as plain numbers.
//!
//! For places where both units stand in the names of plain numbers (`depth_m`, `flow_l_min`): a value
//! in the one unit times the factor is the value in the other. Where a unit is known only at run time,
//! [`Unit::conversion`](crate::Unit::conversion) does it. All are exact by definition (SI Brochure,
//! 9th edition, tables 7 and 8; a year is the Julian one of 365.25 days, as UCUM's `a_j`). Checked in
//! `tests/units.rs` against the table of units.
//!
//! ```
//! use quantity::factor::{L_MIN_PER_M3_S, MM_PER_M};
//! // A casing of 0.051 m radius is 102 mm wide; a flow of 0.25 L/s is 15 L/min.
//! assert_eq!(2.0 * MM_PER_M * 0.051, 102.0);
//! assert_eq!(L_MIN_PER_M3_S * 0.25e-3, 15.0);
//! ```

/// Seconds in a minute.
pub const S_PER_MIN: f64 = 60.0;
/// Seconds in an hour.
pub const S_PER_H: f64 = 3600.0;
/// Seconds in a day; m²/s to m²/d.
pub const S_PER_D: f64 = 86_400.0;
/// Seconds in a year of 365.25 days.
pub const S_PER_YEAR: f64 = 31_557_600.0;
/// Minutes in an hour.
pub const MIN_PER_H: f64 = 60.0;
/// Minutes in a year of 365.25 days.
pub const MIN_PER_YEAR: f64 = 525_960.0;
/// Millimetres in a metre.
pub const MM_PER_M: f64 = 1000.0;
/// Metres in a kilometre.
pub const M_PER_KM: f64 = 1000.0;
/// Litres in a cubic metre.
pub const L_PER_M3: f64 = 1000.0;
/// Litres a minute in a cubic metre a second.
pub const L_MIN_PER_M3_S: f64 = 60_000.0;
/// Nanograms in a microgram.
pub const NG_PER_UG: f64 = 1000.0;
