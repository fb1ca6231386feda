//! What was worked out from the results of this programme, kept while they stand as they stood ([`Index::state`]):
//! decades of runs and series are worked out once after a change, not once a page.

use crate::app::App;
use crate::http_error::HttpError;
use crate::lock::lock;
use ::document::content::Block;
use assessment::well_value::{self, WellValue};
use programme::index::Index;
use record::store::Store;
use std::collections::HashMap;
use std::sync::{Arc, Mutex};

/// Series kept, at most.
const SERIES: usize = 64;

/// The state of the results, and what a well was found to hold.
type OfWell = (u64, Arc<Vec<WellValue>>);

/// What is kept.
#[derive(Default)]
pub(crate) struct Worked {
    /// Of each well.
    wells: Mutex<HashMap<String, OfWell>>,
    /// Blocks of series, by state and what was asked for.
    series: Mutex<HashMap<String, Vec<Block>>>,
}

/// What a well was found to hold, worked out from the counts.
pub(crate) fn well_values(store: &Store, app: &App, well: &str) -> Result<Arc<Vec<WellValue>>, HttpError> {
    let now = app.record.index(store, Index::state)?;
    if let Some((state, known)) = lock(&app.worked.wells).get(well)
        && *state == now
    {
        return Ok(known.clone());
    }
    let values = Arc::new(well_value::of_well(store, well)?);
    lock(&app.worked.wells).insert(well.into(), (now, values.clone()));
    Ok(values)
}

/// A series; `asked` names it with its years.
pub(crate) fn series(
    store: &Store,
    app: &App,
    asked: &str,
    work: impl FnOnce() -> Result<Vec<Block>, HttpError>,
) -> Result<Vec<Block>, HttpError> {
    let key = format!("{}\n{asked}", app.record.index(store, Index::state)?);
    if let Some(known) = lock(&app.worked.series).get(&key) {
        return Ok(known.clone());
    }
    let blocks = work()?;
    let mut kept = lock(&app.worked.series);
    if kept.len() >= SERIES {
        kept.clear();
    }
    kept.insert(key, blocks.clone());
    Ok(blocks)
}
