//! What the overflow does for the river: the wells that run into a stream, mixed with it.
//!
//! In: wells of the record whose `overflows_to` names a stream (a `well` row of medium
//! surface-water), the flow read in the stream above them (`field_reading` of quantity flow, with
//! its unit), timed fills at the wells, and results of both from the same trip. Out: the share of
//! each water in the stream below, and each value above, of the wells together, and below, with u.
//! Mass balance by `aquifer::mixing`: for what is conserved. Iron, manganese, sulfide, oxygen, pH
//! and metals bound to particles change when anoxic water meets air; they are marked or left out.
//! Rejected results, and bottles that are evidence only, do not take part. Checked in `crates/programme/tests/overflow.rs`.

use crate::field_checks::FieldChecks;
use crate::results::Listed;
use crate::series_of;
use crate::verdict::Rules;
use aquifer::mixing::{End, Mixture, mix};
use message::{Message, Name, overflow as said};
use quantity::{Amount, Unit};
use record::Error;
use record::model::{FieldReading, Trip, VerdictWord, Well};
use record::store::{Filter, Store};
use record::words::BottleKind;

/// What does not mix by amounts: left out.
const NOT_MIXED: [&str; 5] = ["pH", "Eh", "pe", "dissolved oxygen", "turbidity"];
/// Changes when anoxic water meets air; mixed, and marked (common knowledge of the trade).
const NOT_CONSERVED: [&str; 8] = ["Fe", "Mn", "S(-II)", "alkalinity", "NH4", "As", "Pb", "P"];

/// A stream and what runs into it on one trip.
#[derive(Debug, Clone)]
pub struct Overflow {
    /// The stream.
    pub stream: String,
    /// The trip.
    pub trip: String,
    /// The stream above the wells; none where its flow was not read.
    pub above: Option<End>,
    /// The wells that run into it and whose flow is known.
    pub wells: Vec<End>,
    /// The wells together, where there are several.
    pub together: Option<Mixture>,
    /// The stream below, change against the stream above.
    pub below: Option<Mixture>,
    /// What the record lacks, a sentence each.
    pub lacking: Vec<Message>,
}

impl Overflow {
    /// Share of the wells together in the stream below. Shares add up to one, so it is as uncertain as the stream's.
    pub fn wells_share(&self) -> Option<Amount> {
        let stream = &self.below.as_ref()?.shares.first()?.1;
        let share = 1.0 - stream.value()?;
        Some(stream.u().map_or_else(|| Amount::stated(share, Unit::one()), |u| Amount::measured(share, u, Unit::one())))
    }
}

/// Whether a value may change on mixing with air.
pub fn changes_in_air(analyte: &str) -> bool {
    NOT_CONSERVED.iter().any(|a| analyte == *a || analyte.strip_prefix(a).is_some_and(|r| r.starts_with(',')))
}

/// All streams and trips of the record.
///
/// # Errors
/// The store cannot be read.
pub fn overflows(store: &Store, all: &[Listed]) -> Result<Vec<Overflow>, Error> {
    let wells = store.wells()?;
    let readings = store.field_readings(&Filter::all())?;
    let rules = Rules::new(store.check_rules()?);
    // Bottles that tell where metal comes from do not speak for their well.
    let series = series_of::of_series(store)?;
    let all: Vec<&Listed> = all.iter().filter(|r| !series.contains(&r.bottle)).collect();
    let mut out = vec![];
    for stream in wells.iter().filter(|s| wells.iter().any(|w| w.overflows_to_id == Some(s.id))) {
        for trip in store.trips()? {
            let evidence = FieldChecks::of(store, trip.id, &rules)?;
            let there: Vec<(&Well, Amount)> = wells
                .iter()
                .filter(|w| w.overflows_to_id == Some(stream.id))
                .filter_map(|w| Some((w, evidence.well(w.id)?.flow.clone()?)))
                .collect();
            if !there.is_empty() {
                out.push(one(stream, &trip, &there, &readings, &all));
            }
        }
    }
    Ok(out)
}

fn one(stream: &Well, trip: &Trip, wells: &[(&Well, Amount)], readings: &[FieldReading], all: &[&Listed]) -> Overflow {
    let mut lacking = vec![];
    let end = |well: &Well, flow: Amount| End { name: well.name.clone(), flow, values: values(well, trip, all) };
    let above = flow_above(stream, trip, readings).map(|flow| end(stream, flow));
    if above.is_none() {
        lacking.push(said::FlowNotRead { stream: Name::from(&stream.name) }.into());
    }
    let wells: Vec<End> = wells.iter().map(|(w, flow)| end(w, flow.clone())).collect();
    for e in above.iter().chain(&wells).filter(|e| e.values.is_empty()) {
        lacking.push(said::NoResult { water: Name::from(&e.name) }.into());
    }
    let mut mixed = |ends: &[End]| match mix(ends) {
        Ok(m) => Some(m),
        Err(e) => {
            lacking.push(said::NotMixed { why: e.said() }.into());
            None
        }
    };
    let together = if wells.len() > 1 { mixed(&wells) } else { None };
    let all_ends: Option<Vec<End>> = above.clone().map(|a| std::iter::once(a).chain(wells.iter().cloned()).collect());
    let below = all_ends.and_then(|ends| mixed(&ends));
    Overflow { stream: stream.name.clone(), trip: trip.name.clone(), above, wells, together, below, lacking }
}

/// The last flow read in the stream on a trip.
fn flow_above(stream: &Well, trip: &Trip, readings: &[FieldReading]) -> Option<Amount> {
    let r = readings
        .iter()
        .filter(|r| r.well_id == stream.id && r.trip_id == Some(trip.id) && r.quantity == "flow" && r.value > 0.0)
        .max_by(|a, b| a.at.cmp(&b.at))?;
    let unit = Unit::parse(&r.unit).ok()?;
    Some(r.u.map_or_else(|| Amount::stated(r.value, unit.clone()), |u| Amount::measured(r.value, u, unit.clone())))
}

/// Values of a water on a trip by analyte and fraction: the first sample's, not rejected.
fn values(well: &Well, trip: &Trip, all: &[&Listed]) -> Vec<(String, Amount)> {
    let mut out: Vec<(String, Amount)> = vec![];
    let here = |r: &&Listed| {
        r.well.as_deref() == Some(&well.name)
            && r.trip.as_deref() == Some(&trip.name)
            && r.kind == BottleKind::Sample
            && r.verdict != Some(VerdictWord::Rejected)
            && !NOT_MIXED.contains(&r.analyte.as_str())
    };
    for r in all.iter().copied().filter(here) {
        let name = if r.fraction == "unfiltered" || r.fraction.is_empty() {
            r.analyte.clone()
        } else {
            format!("{}, {}", r.analyte, r.fraction)
        };
        if let Some(amount) = r.amount.clone().filter(|_| !out.iter().any(|(n, _)| *n == name)) {
            out.push((name, amount));
        }
    }
    out
}
