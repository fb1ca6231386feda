//! How much does the pipe add, how slow may the well flow, and what does that cost in water?
//!
//! In: contact of the water with each material, the rate at which a metal leaves its wall. Out: the
//! concentration added at a flow, the flow at which it stays under a target, the water spent in a year.
//!
//! Method: a wall that gives off J per area and time into water passing as a plug adds J·(2/r)·t with
//! t = volume/flow; summed over sections that is J·wall/flow. Valid while J does not depend on the flow
//! and the pipe is full. A slow flow in a wide pipe is still standing water: there use
//! [`crate::purge`]. Checked in `tests/validation_purge.rs`.

use crate::Error;
use crate::well::{Construction, volume_m3};
use quantity::Measured;
use quantity::factor::{L_PER_M3, MIN_PER_YEAR};
use serde::{Deserialize, Serialize};
use statistics::normal;

/// The rate at which one metal leaves one material.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeachRate {
    /// Material as the sections name it.
    pub material: String,
    /// ng per m² of wall and minute.
    pub ng_m2_min: f64,
    /// Its standard uncertainty.
    #[serde(default)]
    pub u_ng_m2_min: f64,
}

/// What the pipe adds at one flow.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Added {
    /// Flow, L/min.
    pub flow_l_min: f64,
    /// Concentration added, ng/L.
    pub ng_l: f64,
    /// Its standard uncertainty from the leach rates, ng/L.
    pub u_ng_l: f64,
    /// Contact time, min.
    pub contact_min: f64,
    /// Water spent in a year at this flow, m³.
    pub water_m3_year: f64,
}

/// Metal given off by the whole well in a minute, ng/min, with u.
fn release(well: &Construction, rates: &[LeachRate]) -> Result<(f64, f64), Error> {
    well.check()?;
    for r in rates {
        if !(r.ng_m2_min >= 0.0 && r.ng_m2_min.is_finite() && r.u_ng_m2_min >= 0.0) {
            return Err(Error::out_of_range(
                format!("leach rate of {}", r.material),
                format!("{} with u {} ng/(m²·min)", r.ng_m2_min, r.u_ng_m2_min),
                "0 or more",
            ));
        }
        if !well.sections.iter().any(|s| s.material == r.material) {
            let known: Vec<&str> = well.sections.iter().map(|s| s.material.as_str()).collect();
            return Err(Error::out_of_range(
                "material of the leach rate",
                &r.material,
                format!("a material of the well: {}", known.join(", ")),
            ));
        }
    }
    let (mut sum, mut variance) = (0.0, 0.0);
    for r in rates {
        let wall: f64 =
            (well.sections.iter()).filter(|s| s.material == r.material).map(|s| 2.0 * volume_m3(s) / s.radius_m).sum();
        sum += r.ng_m2_min * wall;
        variance += (r.u_ng_m2_min * wall).powi(2);
    }
    Ok((sum, variance.sqrt()))
}

/// What the pipe adds at each flow of a list (L/min): the curve that shows where a faster flow stops paying.
///
/// # Errors
/// [`Error::OutOfRange`] for a flow that is not positive, a negative rate, a rate for a material that the
/// well does not have.
pub fn added(well: &Construction, rates: &[LeachRate], flows_l_min: &[f64]) -> Result<Vec<Added>, Error> {
    let (ng_min, u) = release(well, rates)?;
    let litres: f64 = L_PER_M3 * well.sections.iter().map(volume_m3).sum::<f64>();
    flows_l_min
        .iter()
        .map(|q| {
            if !(*q > 0.0 && q.is_finite()) {
                return Err(Error::out_of_range("flow", format!("{q} L/min"), "more than 0 L/min"));
            }
            Ok(Added {
                flow_l_min: *q,
                ng_l: ng_min / q,
                u_ng_l: u / q,
                contact_min: litres / q,
                water_m3_year: q * MIN_PER_YEAR / L_PER_M3,
            })
        })
        .collect()
}

/// The most that the pipe can have added to a water in which `found` was found, in its unit: all of it,
/// at the one-sided 95 % end (normal).
pub fn most_added(found: &Measured) -> f64 {
    found.value + normal::ONE_SIDED_95 * found.u
}

/// The lowest flow at which the pipe adds less than a target, with 95 % confidence of the leach rates
/// (normal, one-sided), and what it spends.
///
/// # Errors
/// As [`added`]; [`Error::OutOfRange`] for a target that is not positive or rates that are all zero.
///
/// ```
/// use aquifer::pipe::{LeachRate, lowest_flow};
/// use aquifer::well::{Construction, Section};
/// let well = Construction {
///     sections: vec![Section { from_m: 0.0, to_m: 60.0, radius_m: 0.05, material: "galvanised".into() }],
///     ..Construction::default()
/// };
/// let rate = |ng_m2_min| [LeachRate { material: "galvanised".into(), ng_m2_min, u_ng_m2_min: 0.0 }];
/// // Half the flow doubles what the pipe adds: 18.8 m² of wall at 20 ng/(m²·min) want 37.7 L/min for 10 ng/L.
/// assert!((lowest_flow(&well, &rate(20.0), 10.0)?.flow_l_min - 37.7).abs() < 0.1);
/// // A pipe that gives nothing has no lowest flow.
/// assert!(lowest_flow(&well, &rate(0.0), 10.0).is_err());
/// # Ok::<(), aquifer::Error>(())
/// ```
pub fn lowest_flow(well: &Construction, rates: &[LeachRate], target_ng_l: f64) -> Result<Added, Error> {
    if !(target_ng_l > 0.0 && target_ng_l.is_finite()) {
        return Err(Error::out_of_range("target", format!("{target_ng_l} ng/L"), "more than 0 ng/L"));
    }
    let (ng_min, u) = release(well, rates)?;
    if ng_min + u <= 0.0 {
        return Err(Error::out_of_range("leach rates", "all zero", "one above 0: without a rate any flow is enough"));
    }
    let q = (ng_min + normal::quantile(0.95) * u) / target_ng_l;
    Ok(added(well, rates, &[q])?[0])
}
