//! What a report is of: by default the newest trip, or one that is named, wells, a time, the whole record.
//!
//! In: what was asked. Out: the trips, the results of them and the blanks that belong to no trip; beside them the years
//! of the substances that the report speaks of at length. Only these rows are read: of a long record a report of one
//! trip costs what one trip holds. Checked in `crates/cli/tests/page_one.rs`.

use assessment::results::{Listed, Lists};
use record::Error;
use record::model::{Bottle, ResultRow, Trip};
use record::store::{Cell, Filter, Store};
use std::collections::{BTreeSet, HashMap};

/// What a report is asked to be of; by default the newest trip that has results.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Scope {
    /// This trip.
    pub trip: Option<String>,
    /// These wells alone; all when empty.
    pub wells: Vec<String>,
    /// All trips and bottles since this day, `YYYY-MM-DD`.
    pub from: Option<String>,
    /// Until this day, where a long record is told in parts.
    pub until: Option<String>,
    /// The whole record.
    pub all: bool,
}

/// More results than these are read as a whole; fewer by themselves.
const FEW: usize = 4000;

/// What the report is of, read.
pub(crate) struct Chosen {
    /// Its trips, oldest first.
    pub trips: Vec<Trip>,
    /// The newest revision of its results, and of what was measured beside them.
    pub rows: Vec<ResultRow>,
    /// The same as people read them.
    pub results: Vec<Listed>,
    /// Nothing was left out.
    pub whole: bool,
    /// Trips before the first of these.
    pub earlier_trips: usize,
    wells: Vec<String>,
}

impl Chosen {
    /// Reads what was asked for.
    ///
    /// # Errors
    /// A trip or a well that is not on record; the store cannot be read.
    pub fn of(store: &Store, scope: &Scope) -> Result<Self, Error> {
        let mut trips = store.trips()?;
        trips.sort_by(|a, b| (&a.starts, a.id).cmp(&(&b.starts, b.id)));
        known_wells(store, &scope.wells)?;
        let of_trip = match &scope.trip {
            Some(name) => Some(trips.iter().find(|t| t.name == *name).cloned().ok_or_else(|| absent(name, &trips))?),
            None if scope.all || scope.from.is_some() || scope.until.is_some() => None,
            None => newest(store, &trips)?,
        };
        let mut out = Self {
            trips: vec![],
            rows: vec![],
            results: vec![],
            whole: of_trip.is_none() && scope.from.is_none() && scope.until.is_none() && scope.wells.is_empty(),
            earlier_trips: 0,
            wells: scope.wells.clone(),
        };
        let between = |at: &str| {
            scope.from.as_deref().is_none_or(|from| at >= from)
                && scope.until.as_deref().is_none_or(|until| at.get(..until.len()).unwrap_or(at) <= until)
        };
        let known = if let Some(trip) = of_trip {
            out.earlier_trips = trips.iter().filter(|t| t.starts < trip.starts).count();
            let is_last = trips.iter().all(|t| t.starts <= trip.starts);
            let known = of_one_trip(store, &trip, is_last, &mut out.rows)?;
            // A trip that is the whole record leaves nothing out.
            out.whole = trips.len() == 1 && scope.wells.is_empty() && known.1;
            out.trips = vec![trip];
            known.0
        } else {
            out.trips = trips.into_iter().filter(|t| between(&t.starts)).collect();
            let mut known = HashMap::new();
            for b in store.bottles(&Filter::all())? {
                let at = b.filled_at.as_deref();
                let in_trip = || out.trips.iter().any(|t| Some(t.id) == b.trip_id);
                if out.whole || at.is_some_and(between) || (at.is_none() && (b.trip_id.is_none() || in_trip())) {
                    known.insert(b.id, b);
                }
            }
            store.each(&Filter::all().latest(), |r: ResultRow| {
                if known.contains_key(&r.bottle_id) {
                    out.rows.push(r);
                }
                Ok(())
            })?;
            known
        };
        let wanted = |b: &Bottle| {
            scope.wells.is_empty() || !b.kind.is_water() || b.well.as_ref().is_some_and(|w| scope.wells.contains(w))
        };
        out.rows.retain(|r| known.get(&r.bottle_id).is_none_or(wanted));
        out.rows.sort_by_key(|r| r.id);
        out.results = listed(store, out.rows.clone())?;
        Ok(out)
    }

    /// Is a well of the report?
    pub fn has_well(&self, name: &str) -> bool {
        self.wells.is_empty() || self.wells.iter().any(|w| w == name)
    }

    /// Runs that measured one of the results.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn runs(&self, store: &Store) -> Result<BTreeSet<i64>, Error> {
        let vials: BTreeSet<i64> = self.rows.iter().filter_map(|r| r.vial_id).collect();
        let mut out = BTreeSet::new();
        for run in store.runs()? {
            if store.vials(run.id)?.iter().any(|v| vials.contains(&v.id)) {
                out.insert(run.id);
            }
        }
        Ok(out)
    }

    /// The results of these substances over all years, at the wells of the report and of blanks.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn years(&self, store: &Store, analytes: &[String]) -> Result<Vec<Listed>, Error> {
        if self.whole {
            return Ok(self.results.clone());
        }
        let mut rows = vec![];
        for analyte in analytes {
            rows.extend(store.results(&Filter::all().is("measurand.analyte", analyte.as_str()).latest())?);
        }
        rows.sort_by_key(|r| r.id);
        let mut out = listed(store, rows)?;
        out.retain(|r| r.well.as_deref().is_none_or(|w| self.has_well(w)));
        Ok(out)
    }
}

/// The results that these rows are, as people read them.
fn listed(store: &Store, rows: Vec<ResultRow>) -> Result<Vec<Listed>, Error> {
    let lists = if rows.len() > FEW { Lists::of(store)? } else { Lists::for_rows(store, &rows)? };
    Ok(rows.into_iter().map(|r| lists.listed(r)).collect())
}

/// The newest trip that has results; none where no result is of a trip.
fn newest(store: &Store, trips: &[Trip]) -> Result<Option<Trip>, Error> {
    for t in trips.iter().rev() {
        if !store.results(&Filter::all().is("bottle.trip", t.id).limit(1))?.is_empty() {
            return Ok(Some(t.clone()));
        }
    }
    Ok(None)
}

/// Rows of a trip, of the blanks that belong to none, and, of the newest trip, of waters without a trip since it began.
/// Answers their bottles, and whether the record has no other results.
fn of_one_trip(
    store: &Store,
    trip: &Trip,
    is_last: bool,
    rows: &mut Vec<ResultRow>,
) -> Result<(HashMap<i64, Bottle>, bool), Error> {
    let mut known: HashMap<i64, Bottle> = HashMap::new();
    let mut nothing_left = true;
    let began = trip.starts.get(..10).unwrap_or(&trip.starts);
    for b in store.bottles(&Filter::all().is("trip", Cell::Null))? {
        let since = is_last && b.filled_at.as_deref().is_some_and(|at| at >= began);
        if !b.kind.is_water() || since {
            known.insert(b.id, b);
        } else {
            nothing_left = false;
        }
    }
    known.extend(store.bottles(&Filter::all().is("trip", trip.id))?.into_iter().map(|b| (b.id, b)));
    let mut take = |r: ResultRow| {
        if known.contains_key(&r.bottle_id) {
            rows.push(r);
        }
        Ok(())
    };
    store.each(&Filter::all().is("bottle.trip", trip.id).latest(), &mut take)?;
    store.each(&Filter::all().is("bottle.trip", Cell::Null).latest(), &mut take)?;
    Ok((known, nothing_left))
}

fn absent(name: &str, trips: &[Trip]) -> Error {
    let newest: Vec<&str> = trips.iter().rev().take(8).map(|t| t.name.as_str()).collect();
    let hint = if newest.is_empty() { String::new() } else { format!("; the newest are {}", newest.join(", ")) };
    Error::Absent { what: "trip", name: name.into(), hint }
}

fn known_wells(store: &Store, asked: &[String]) -> Result<(), Error> {
    let wells = store.wells()?;
    for name in asked {
        if !wells.iter().any(|w| w.name == *name) {
            let there: Vec<&str> = wells.iter().take(12).map(|w| w.name.as_str()).collect();
            let hint = if there.is_empty() { String::new() } else { format!("; there are {}", there.join(", ")) };
            return Err(Error::Absent { what: "well", name: name.clone(), hint });
        }
    }
    Ok(())
}
