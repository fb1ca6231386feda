//! The air of a trip: counts pooled by well and place, what each place can show, cabinet against open air, and for
//! how long bottles stood open in either. One sample is one place and moment: all sizes counted together.
//! The science is [`cleanliness::air`]. Checked in `crates/programme/tests/forecast_and_plan.rs`.

use cleanliness::air::{self, AirReading, AirSample, Reduction};
use intake::site::{Place, place};
use intake::unfit::{self, Unfit};
use record::error::Error;
use record::model::{AirCount, Bottle};
use record::store::{Filter, Store};
use record::words::AirPlace;
use std::collections::BTreeMap;

/// Pooled counts of each well and place on a trip, or the rows because of which there is no sum.
pub fn pooled(counts: &[AirCount]) -> BTreeMap<(i64, Place), Result<AirSample, Vec<Unfit>>> {
    let mut places: BTreeMap<(i64, Place), Vec<&AirCount>> = BTreeMap::new();
    for c in counts {
        let Some(well) = c.well_id else { continue };
        places.entry((well, place(c))).or_default().push(c);
    }
    places.into_iter().map(|(key, rows)| (key, unfit::pooled(&rows))).collect()
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
    /// Places whose counts cannot be used: well, place, the rows at fault.
    pub unfit: Vec<(String, Place, Vec<Unfit>)>,
}

/// The air of a trip.
///
/// # Errors
/// The store cannot be read.
pub fn of_trip(store: &Store, trip: i64) -> Result<TripAir, Error> {
    let on_trip = Filter::all().is("trip", trip);
    let counts = store.air_counts(&on_trip)?;
    let samples = pooled(&counts);
    let bottles = store.bottles(&on_trip)?;
    let mut out = TripAir::default();
    for well in store.wells()? {
        for place in [AirPlace::Cabinet.word(), AirPlace::OpenAir.word()] {
            let open = minutes(&bottles, well.id, place);
            match samples.get(&(well.id, place)) {
                Some(Ok(s)) => out.places.extend(air::read(s).ok().map(|reading| PlaceAir {
                    well: well.name.clone(),
                    place,
                    reading,
                    open,
                })),
                Some(Err(rows)) => out.unfit.push((well.name.clone(), place, rows.clone())),
                None if open.is_some() => out.uncounted.push((well.name.clone(), place)),
                None => {}
            }
        }
        let sum = |place| samples.get(&(well.id, place)).and_then(|s| s.as_ref().ok());
        if let (Some(inside), Some(outside)) = (sum(AirPlace::Cabinet.word()), sum(AirPlace::OpenAir.word())) {
            // The smallest size that both counted: counts are cumulative, so that it holds the most particles.
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
    let of = |b: &Bottle| if place == AirPlace::Cabinet.word() { b.cabinet_min } else { b.open_air_min };
    // A bottle for the major ions is not held to the air of trace metals.
    let open: Vec<f64> = (bottles.iter().filter(|b| b.well_id == Some(well) && b.acid_id.is_some()))
        .filter_map(of)
        .filter(|m| *m > 0.0)
        .collect();
    let range = open.iter().fold((f64::INFINITY, 0.0_f64), |r, m| (r.0.min(*m), r.1.max(*m)));
    (!open.is_empty()).then_some((open.len(), range.0, range.1))
}
