//! What was worked out from the results of this programme, kept while they stand as they stood ([`Index::state`]):
//! decades of runs and series are worked out once after a change, not once a page.

use crate::app::App;
use crate::http_error::HttpError;
use crate::lock::lock;
use ::document::content::Block;
use assessment::well_value::{self, WellValue};
use maud::Markup;
use programme::index::Index;
use programme::limits_of::Row;
use record::store::Store;
use std::any::Any;
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
    /// What lies above a limit, by the head of the record and the day.
    exceeding: Mutex<Option<(String, Arc<Vec<Row>>)>>,
    /// Blocks of series, by state and what was asked for.
    series: Mutex<HashMap<String, Vec<Block>>>,
    /// What a page worked out, by its name: the state that it stands on, and what it was.
    pages: Mutex<HashMap<String, (String, Kept)>>,
    /// What stands on pages that hold no form of an act, by the head of the record, the day, the language and the address.
    bodies: Mutex<HashMap<String, Markup>>,
}

/// What a page kept; its name says of which type.
type Kept = Arc<dyn Any + Send + Sync>;

/// What a page worked out, as long as what it stands on is as it was; `state` says what that is. One of each name is kept.
pub(crate) fn kept<T: Any + Send + Sync>(
    app: &App,
    name: &str,
    state: String,
    work: impl FnOnce() -> Result<T, HttpError>,
) -> Result<Arc<T>, HttpError> {
    let known = lock(&app.worked.pages).get(name).filter(|(of, _)| *of == state).map(|(_, kept)| kept.clone());
    if let Some(known) = known.and_then(|k| k.downcast::<T>().ok()) {
        return Ok(known);
    }
    let made = Arc::new(work()?);
    lock(&app.worked.pages).insert(name.into(), (state, made.clone()));
    Ok(made)
}

/// The head of the record as text: a state for what stands on more than results.
pub(crate) fn head(store: &Store) -> Result<String, HttpError> {
    Ok(store.head()?.map_or_else(String::new, |h| h.to_string()))
}

/// Pages kept, at most: some 60 kB each.
const BODIES: usize = 96;

/// What stands on a page, worked out once for all that it hangs on, which `key` names.
pub(crate) fn body(
    app: &App,
    key: String,
    work: impl FnOnce() -> Result<Markup, HttpError>,
) -> Result<Markup, HttpError> {
    if let Some(known) = lock(&app.worked.bodies).get(&key) {
        return Ok(known.clone());
    }
    let made = work()?;
    let mut kept = lock(&app.worked.bodies);
    if kept.len() >= BODIES {
        kept.clear();
    }
    kept.insert(key, made.clone());
    Ok(made)
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

/// What of the newest results lies above a limit on a day. Limits of a person's own and readings of the field are not in
/// the state of the results: here the head of the record tells whether anything changed.
pub(crate) fn exceeding(
    store: &Store,
    app: &App,
    day: &str,
    work: impl FnOnce() -> Result<Vec<Row>, HttpError>,
) -> Result<Arc<Vec<Row>>, HttpError> {
    let head = store.head()?.map_or_else(String::new, |h| h.to_string());
    let key = format!("{head} {day}");
    if let Some((of, known)) = lock(&app.worked.exceeding).as_ref()
        && *of == key
    {
        return Ok(known.clone());
    }
    let rows = Arc::new(work()?);
    *lock(&app.worked.exceeding) = Some((key, rows.clone()));
    Ok(rows)
}

/// A series; `asked` names it with its years.
pub(crate) fn series(
    store: &Store,
    app: &App,
    asked: &str,
    work: impl FnOnce() -> Result<Vec<Block>, HttpError>,
) -> Result<Vec<Block>, HttpError> {
    // What is said is said in a language.
    let key = format!("{}\n{:?}\n{asked}", app.record.index(store, Index::state)?, message::language());
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
