//! Every run from which a person took something out, once more with everything put back: what would the answer be?
//!
//! In: the reduced runs as they stand. Out: those with exclusions, reduced with none; runs without exclusions stand as
//! they are and cost nothing. A run that cannot be reduced with everything put back (a standard without a reading, say)
//! says nothing. What the answer does is judged in [`crate::assess`] and shown in [`crate::well_value`]. Nothing is kept.
//! Checked in `crates/programme/tests/same_water.rs`.

use crate::attribution::RunPair;
use crate::derive::{self, Excluded, Prepared};
use measurement::run::{Analyte, ReducedRun};
use record::error::Error;
use record::store::Store;

/// Runs with everything put back, in the order of the runs as they stand.
#[derive(Default)]
pub struct PutBack {
    runs: Vec<Option<(Prepared, ReducedRun)>>,
}

impl PutBack {
    /// Reduces what has exclusions once more.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store, runs: &[RunPair]) -> Result<Self, Error> {
        let once_more = |(prepared, _): &RunPair| {
            if prepared.input.readings.iter().all(|r| r.excluded.is_none()) {
                return Ok(None);
            }
            let all_in = derive::prepare_without(store, prepared.run.clone(), &Excluded::default());
            match all_in.and_then(|p| derive::reduce(&p).map(|reduced| (p, reduced))) {
                Ok(run) => Ok(Some(run)),
                Err(e) if derive::of_one_run(&e) => Ok(None),
                Err(e) => Err(e),
            }
        };
        Ok(Self { runs: runs.iter().map(once_more).collect::<Result<_, _>>()? })
    }

    /// The run at a place, with everything put back; none where nothing was taken out of it.
    pub fn run(&self, place: usize) -> Option<RunPair<'_>> {
        self.runs.get(place)?.as_ref().map(|(prepared, reduced)| (prepared, reduced))
    }
}

/// Names of the vials of a run from which a reading of an element was taken out; in the order of the run.
pub fn taken_out(prepared: &Prepared, analyte: &Analyte) -> Vec<String> {
    let mut positions: Vec<u32> = (prepared.input.readings.iter())
        .filter(|r| r.excluded.is_some() && r.isotope.element == analyte.element)
        .map(|r| r.position)
        .collect();
    positions.sort_unstable();
    positions.dedup();
    let named = |p: &u32| prepared.input.vials.iter().find(|v| v.position == *p).map(|v| v.name.clone());
    positions.iter().filter_map(named).collect()
}
