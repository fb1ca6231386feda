//! The run of a simulated trip as the reduction takes it, without files and store between.

use measurement::run::{Assigned, Factor, Isotope, Reading, Role, RunInput, Vial};
use quantity::{Measured, Unit};
use simulator::{Counts, Trip};

/// The run of a trip, straight from the simulator.
pub fn input(trip: &Trip) -> RunInput {
    let unit = || Unit::known("ng/L");
    let vials = trip
        .vials
        .iter()
        .map(|v| {
            let role: Role = serde_json::from_value(serde_json::json!(v.role)).unwrap();
            let bottle = if let Counts::Bottle(i) = v.counts_of { Some(&trip.bottles[i]) } else { None };
            Vial {
                dilution: Factor::new(1.0, 0.001),
                assigned: v
                    .assigned
                    .iter()
                    .map(|(e, x, u)| Assigned::new(e, Measured::new(*x, *u, unit())).from_stock("mixed"))
                    .collect(),
                bottle: bottle.map(|b| b.label.clone()),
                bottle_volume_ml: bottle.map(|b| b.volume_ml),
                acid_ml: bottle.map(|_| simulator::truth::ACID_ML),
                of: bottle.and_then(|b| b.parent.clone()),
                ..Vial::new(v.position, &v.name, role, v.minutes)
            }
        })
        .collect();
    let readings = trip
        .readings
        .iter()
        .map(|r| Reading::new(r.position, Isotope::counting(r.element, r.mass, r.resolution), r.rates_cps.clone(), 4.0))
        .collect();
    RunInput { name: "trial".into(), vials, readings, ..RunInput::default() }
}
