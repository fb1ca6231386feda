//! What earlier trips found at each well: the last visit's value, and the least and most that the well ever showed.
//!
//! In: readings and timed fills of the record. Out: [`Past`] a well and quantity, in the unit that the sheet asks for. The
//! sheet shows it after an entry, never beside an empty field, where it would be written again; and it asks about a value
//! far outside (`compute.js`). Nothing of the trip itself or after it counts. A reading whose unit cannot be turned is
//! left out: it would only widen the range. Checked in `tests/main.rs`.

use aquifer::well::{self, Fills};
use assessment::field_checks::WATCHED;
use assessment::wells::in_unit;
use record::Error;
use record::model::{self, FieldReading};
use record::store::{Filter, Store};
use serde::Serialize;
use std::collections::BTreeMap;

/// The key of the flow among the quantities.
pub const FLOW: &str = "flow";

/// What earlier trips found of one quantity at one well.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Past {
    /// As the record names it, or [`FLOW`].
    pub quantity: &'static str,
    /// Unit of the values, as it stands beside figures.
    pub unit: &'static str,
    /// The last value of the last day.
    pub last: f64,
    /// That day.
    pub day: String,
    /// Least ever.
    pub low: f64,
    /// Most ever.
    pub high: f64,
    /// On how many days.
    pub days: usize,
}

/// By the identity of the well; quantities in the order in which they are read, the flow first.
pub(crate) fn of(store: &Store, trip: &model::Trip) -> Result<BTreeMap<i64, Vec<Past>>, Error> {
    before(store, day(&trip.starts), Some(trip.id))
}

/// The same before a day, a trip left out.
///
/// # Errors
/// The store cannot be read.
pub fn before(store: &Store, first: &str, left_out: Option<i64>) -> Result<BTreeMap<i64, Vec<Past>>, Error> {
    let before = |day: &str, of: Option<i64>| (left_out.is_none() || of != left_out) && day < first;
    let mut readings: BTreeMap<i64, Vec<FieldReading>> = BTreeMap::new();
    for r in store.field_readings(&Filter::all())? {
        if before(day(&r.at), r.trip_id) {
            readings.entry(r.well_id).or_default().push(r);
        }
    }
    let mut out: BTreeMap<i64, Vec<Past>> = BTreeMap::new();
    for (well, flows) in flows(store, &before)? {
        out.entry(well).or_default().extend(one(FLOW, "L/min", flows));
    }
    for (well, of_well) in readings {
        for (quantity, _, unit) in WATCHED {
            let values = of_well
                .iter()
                .filter(|r| r.quantity == quantity)
                .filter_map(|r| Some((r.at.clone(), value(r, unit)?)))
                .collect();
            out.entry(well).or_default().extend(one(quantity, if unit == quantity { "" } else { unit }, values));
        }
    }
    Ok(out)
}

/// The day of a time of the record.
fn day(at: &str) -> &str {
    at.get(..10).unwrap_or(at)
}

fn value(r: &FieldReading, unit: &str) -> Option<f64> {
    // pH has no unit to turn into.
    if r.quantity == "pH" { Some(r.value) } else { in_unit(r, unit).map(|v| v.0) }
}

/// The mean flow of each day on which fills were timed, L/min.
fn flows(
    store: &Store,
    before: &dyn Fn(&str, Option<i64>) -> bool,
) -> Result<BTreeMap<i64, Vec<(String, f64)>>, Error> {
    let trips: BTreeMap<i64, String> = store.trips()?.into_iter().map(|t| (t.id, t.starts)).collect();
    let mut by_day: BTreeMap<(i64, String), Vec<well::Fill>> = BTreeMap::new();
    for f in store.fills(&Filter::all())? {
        let at = f.at.clone().or_else(|| trips.get(&f.trip_id?).cloned());
        let Some(day) = at.as_deref().map(day).filter(|d| before(d, f.trip_id)) else { continue };
        let fill = well::Fill { volume_l: f.volume_L, seconds: f.seconds };
        by_day.entry((f.well_id, day.to_string())).or_default().push(fill);
    }
    let mut out: BTreeMap<i64, Vec<(String, f64)>> = BTreeMap::new();
    for ((well, day), fills) in by_day {
        // A fill that cannot be is a finding of its own trip; here it says nothing.
        let flow = well::flow(&Fills { fills, ..Fills::default() }).ok().and_then(|f| f.amount.value());
        out.entry(well).or_default().extend(flow.map(|q| (day, q)));
    }
    Ok(out)
}

/// How far outside of all that a well ever showed a value may lie before it is asked about: the width of what it showed,
/// at least three times the widest band within which any of the criteria calls such readings steady; as the sheet asks
/// (`compute.js`). The programme's own choice: less would ask about every meter's calibration.
const BANDS: f64 = 3.0;

impl Past {
    /// Does a value, in [`Past::unit`], lie far outside of all that the well ever showed?
    pub fn is_far_outside(&self, x: f64) -> bool {
        let parameter = WATCHED.iter().find(|w| w.0 == self.quantity).map(|w| w.1);
        let size = self.low.abs().max(self.high.abs());
        let bands = aquifer::purge::criteria().iter().filter(|c| Some(c.parameter.as_str()) == parameter);
        let widest = bands
            .map(|c| c.absolute.unwrap_or(0.0).max(c.relative_percent.unwrap_or(0.0) / 100.0 * size))
            .fold(0.0, f64::max);
        let margin = (self.high - self.low).max(BANDS * widest);
        // Of a quantity without criteria one visit tells no width.
        margin > 0.0 && (x < self.low - margin || x > self.high + margin)
    }
}

fn one(quantity: &'static str, unit: &'static str, mut values: Vec<(String, f64)>) -> Option<Past> {
    values.sort_by(|a, b| a.0.cmp(&b.0));
    let (at, last) = values.last().cloned()?;
    let mut days: Vec<&str> = values.iter().map(|v| day(&v.0)).collect();
    days.dedup();
    Some(Past {
        quantity,
        unit,
        last,
        day: day(&at).to_string(),
        low: values.iter().map(|v| v.1).fold(f64::INFINITY, f64::min),
        high: values.iter().map(|v| v.1).fold(f64::NEG_INFINITY, f64::max),
        days: days.len(),
    })
}
