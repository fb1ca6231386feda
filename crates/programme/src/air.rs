//! The air of a trip: counts pooled by well and place, what each place can show, cabinet against open air, and for
//! how long bottles stood open in either. One sample is one place and moment: all sizes counted together.
//! The science is [`cleanliness::air`]. Checked in `tests/blame.rs`.

use crate::error::Error;
use crate::model::{AirCount, Bottle};
use crate::store::{Filter, Store};
use cleanliness::air::{self, AirReading, AirSample, Count, Reduction};
use std::collections::BTreeMap;

/// Cabinet or open air; a room counts as open.
pub type Place = &'static str;

/// Pooled counts of a well and place on a trip.
///
/// # Errors
/// Counts that cannot be: no volume, repeated samples at different sizes.
pub fn pooled(counts: &[AirCount]) -> Result<BTreeMap<(i64, Place), AirSample>, Error> {
    let mut samples: BTreeMap<(i64, Place, Option<&str>), Vec<&AirCount>> = BTreeMap::new();
    for c in counts {
        let Some(well) = c.well_id else { continue };
        let place = if c.place == "cabinet" { "cabinet" } else { "open-air" };
        samples.entry((well, place, c.at.as_deref())).or_default().push(c);
    }
    let mut places: BTreeMap<(i64, Place), Vec<AirSample>> = BTreeMap::new();
    for ((well, place, _), group) in samples {
        let counts = group.iter().map(|c| Count { size_um: c.size_um, count: c.count.max(0) as u64 }).collect();
        let sample = AirSample { counts, volume_l: group[0].volume_L, minutes: None };
        places.entry((well, place)).or_default().push(sample);
    }
    places.into_iter().map(|(key, s)| Ok((key, air::pool(&s).map_err(|e| refused(key.1, &e))?))).collect()
}

pub(crate) fn refused(place: &str, e: &cleanliness::Error) -> Error {
    Error::Science { what: format!("particle counts, {place}"), message: e.to_string() }
}

/// A place at a well on a trip.
#[derive(Debug, Clone)]
pub struct PlaceAir {
    /// Well.
    pub well: String,
    /// Cabinet or open air.
    pub place: Place,
    /// What the counts say.
    pub reading: AirReading,
    /// Bottles that stood open in it, and their minutes: fewest and most.
    pub open: Option<(usize, f64, f64)>,
}

/// Air of a trip.
#[derive(Debug, Clone, Default)]
pub struct TripAir {
    /// Each place counted.
    pub places: Vec<PlaceAir>,
    /// Cabinet against open air at one well: well and reduction, at the smallest size that both counted.
    pub reductions: Vec<(String, Reduction)>,
    /// Bottles that stood open where nobody counted: well and place.
    pub uncounted: Vec<(String, Place)>,
}

/// The air of a trip.
///
/// # Errors
/// The store cannot be read; counts that cannot be.
pub fn of_trip(store: &Store, trip: i64) -> Result<TripAir, Error> {
    let on_trip = Filter::all().is("trip", trip);
    let samples = pooled(&store.air_counts(&on_trip)?)?;
    let bottles = store.bottles(&on_trip)?;
    let mut out = TripAir::default();
    for well in store.wells()? {
        for place in ["cabinet", "open-air"] {
            let open = minutes(&bottles, well.id, place);
            match samples.get(&(well.id, place)) {
                Some(s) => out.places.push(PlaceAir {
                    well: well.name.clone(),
                    place,
                    reading: air::read(s).map_err(|e| refused(place, &e))?,
                    open,
                }),
                None if open.is_some() => out.uncounted.push((well.name.clone(), place)),
                None => {}
            }
        }
        if let (Some(inside), Some(outside)) = (samples.get(&(well.id, "cabinet")), samples.get(&(well.id, "open-air")))
        {
            let size = inside
                .counts
                .iter()
                .map(|c| c.size_um)
                .find(|s| outside.counts.iter().any(|o| o.size_um.total_cmp(s).is_eq()));
            let factor = size.and_then(|s| air::reduction(inside, outside, s).ok());
            out.reductions.extend(factor.map(|r| (well.name.clone(), r)));
        }
    }
    Ok(out)
}

fn minutes(bottles: &[Bottle], well: i64, place: Place) -> Option<(usize, f64, f64)> {
    let of = |b: &Bottle| if place == "cabinet" { b.cabinet_min } else { b.open_air_min };
    // A bottle for the major ions is not held to the air of trace metals.
    let open: Vec<f64> = (bottles.iter().filter(|b| b.well_id == Some(well) && b.acid_id.is_some()))
        .filter_map(of)
        .filter(|m| *m > 0.0)
        .collect();
    let range = open.iter().fold((f64::INFINITY, 0.0_f64), |r, m| (r.0.min(*m), r.1.max(*m)));
    (!open.is_empty()).then_some((open.len(), range.0, range.1))
}
