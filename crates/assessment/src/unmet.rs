//! What no blank met on the way of a bottle: the pipe, which no blank ever sees, and the open air where every blank was
//! opened elsewhere. What the blanks leave is the water's share only where there is no such thing.
//!
//! In: timed fills and sections of the well (contact = volume held over flow, in minutes, against the programme's limit
//! of `well.contact-time`), the minutes of the bottle in the open air, the field blanks of the trip, and what bottles at
//! different flow say of the pipe ([`PIPE`]). Out: [`Unmet`] of a bottle. The words are [`cleanliness::share`]'s.
//! A well of surface water has no pipe. Checked in `crates/programme/tests/unmet.rs`.

use crate::derive::Excluded;
use crate::verdict::Rules;
use aquifer::well::{self, Fills};
use cleanliness::share::{Pipe, Unmet};
use message::{Message, trip};
use quantity::{Check, Finding, Outcome};
use record::error::Error;
use record::model::{Bottle, BottleKind, FLOW_SERIES, Fill, ResultRow};
use record::store::{Filter, Store};
use std::collections::{BTreeSet, HashMap, HashSet};

/// The check of what bottles at different flow say of the pipe; on record only where they tell it: met where nothing of
/// it is seen above zero, else not.
pub const PIPE: Check = Check::WellPipeByFlow;

/// The check whether a field blank met the open air that the bottle stood in.
pub const OPEN_AIR: Check = Check::AirOpenAirBlank;

/// Element, isotopes, resolution.
type What = (String, String, String);

/// What is read once for many bottles.
#[derive(Default)]
pub struct Ways {
    longest_min: f64,
    /// Litres held by a well's pipe.
    held_l: HashMap<i64, f64>,
    /// Flow of a well on a trip, L/min.
    flow: HashMap<(i64, i64), f64>,
    /// Places with surface water.
    without_pipe: HashSet<i64>,
    /// Trip and well of field blanks that stood in the open air there, and what was measured in them.
    met: HashSet<(i64, i64, What)>,
}

impl Ways {
    /// Reads what these bottles ask for.
    ///
    /// # Errors
    /// The store cannot be read. Fills and casings that cannot be leave the contact unknown.
    pub fn of<'a>(store: &Store, bottles: impl Iterator<Item = &'a Bottle>) -> Result<Self, Error> {
        let (mut wells, mut trips, mut open) = (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
        for b in bottles {
            wells.extend(b.well_id);
            trips.extend(b.trip_id);
            open.extend(b.trip_id.filter(|_| outdoors(b)));
        }
        let rules = Rules::new(store.check_rules()?);
        let mut out = Self { longest_min: rules.limit(Check::WellContactTime, 120.0), ..Self::default() };
        out.without_pipe = store.wells()?.iter().filter(|w| w.is_stream()).map(|w| w.id).collect();
        for trip in trips {
            let fills = store.fills(&Filter::all().is("trip", trip))?;
            for well in &wells {
                let here: Vec<&Fill> = fills.iter().filter(|f| f.well_id == *well).collect();
                out.flow.extend(by_fills(&here).map(|q| ((trip, *well), q)));
            }
        }
        for well in wells {
            let casing = intake::site::construction(&store.well_sections(well)?, &[], None);
            // The volume does not depend on the flow.
            let held = well::contact(&casing, &quantity::Amount::stated(1.0, quantity::Unit::known("L/min")));
            out.held_l.extend(held.ok().map(|h| (well, 1000.0 * h.volume_m3)));
        }
        let excluded = Excluded::read(store)?;
        for trip in open {
            for b in store.bottles(&Filter::all().is("trip", trip))? {
                let Some(well) = b.well_id else { continue };
                if b.kind != BottleKind::FieldBlank || !outdoors(&b) || excluded.bottle(b.id).is_some() {
                    continue;
                }
                let measured = store.results(&Filter::all().is("bottle", b.id).latest())?;
                out.met.extend(measured.into_iter().map(|r| (trip, well, (r.analyte, r.isotopes, r.resolution))));
            }
        }
        Ok(out)
    }

    /// Minutes of the bottle's water in the pipe, where flow and casing are known.
    pub fn contact_min(&self, b: &Bottle) -> Option<f64> {
        Some(self.held_l.get(&b.well_id?)? / self.flow_l_min(b)?)
    }

    /// Flow of the well while the bottle was filled, L/min, where it is known.
    pub fn flow_l_min(&self, b: &Bottle) -> Option<f64> {
        let of_trip = || self.flow.get(&(b.trip_id?, b.well_id?)).copied();
        b.flow_L_min.or_else(of_trip)
    }

    /// What no blank met; `by_flow`: what came of [`PIPE`], where it was asked.
    pub fn unmet(
        &self,
        b: &Bottle,
        (element, isotopes, resolution): (&str, &str, &str),
        by_flow: Option<Outcome>,
    ) -> Unmet {
        let pipe = match self.contact_min(b) {
            _ if b.well_id.is_some_and(|w| self.without_pipe.contains(&w)) => None,
            Some(contact_min) if contact_min > self.longest_min => {
                Some(Pipe::Long { contact_min, longest_min: self.longest_min })
            }
            _ if by_flow == Some(Outcome::NotMet) => Some(Pipe::Seen),
            // A bottle of a flow series is taken because the pipe is in question; it is not judged, so that what the
            // series says is not kept with it.
            _ if by_flow.is_none() && b.set_name.as_deref() == Some(FLOW_SERIES) => Some(Pipe::NotKnown),
            Some(_) => None,
            None => Some(Pipe::NotKnown),
        };
        let place = b.well.clone().unwrap_or_else(|| "the place of the bottle".into());
        Unmet { pipe, open_air: (outdoors(b) && !self.was_met(b, element, isotopes, resolution)).then_some(place) }
    }

    /// Did the bottle's water come through a pipe? Of a bottle without a well nothing is known: it may have.
    pub fn has_pipe(&self, b: &Bottle) -> bool {
        b.well_id.is_none_or(|w| !self.without_pipe.contains(&w))
    }

    /// As [`Ways::unmet`], of a result.
    pub fn unmet_of(&self, b: &Bottle, r: &ResultRow, by_flow: Option<Outcome>) -> Unmet {
        self.unmet(b, (&r.analyte, &r.isotopes, &r.resolution), by_flow)
    }

    fn was_met(&self, b: &Bottle, element: &str, isotopes: &str, resolution: &str) -> bool {
        let what = (element.into(), isotopes.into(), resolution.into());
        b.trip_id.zip(b.well_id).is_some_and(|(trip, well)| self.met.contains(&(trip, well, what)))
    }
}

/// Did the bottle stand in the open air?
pub(crate) fn outdoors(b: &Bottle) -> bool {
    b.open_air_min.is_some_and(|m| m > 0.0)
}

/// Was the blank opened in the air that the bottle stood in: outdoors at the same well, or both not outdoors?
pub fn met_its_air(blank: &Bottle, bottle: &Bottle) -> bool {
    match (outdoors(bottle), outdoors(blank)) {
        (true, true) => blank.well_id == bottle.well_id && blank.trip_id == bottle.trip_id,
        (outside, blank_outside) => outside == blank_outside,
    }
}

fn by_fills(fills: &[&Fill]) -> Option<f64> {
    let fills = Fills {
        fills: fills.iter().map(|f| well::Fill { volume_l: f.volume_L, seconds: f.seconds }).collect(),
        u_mark_l: fills.iter().find_map(|f| f.u_volume_L),
        u_seconds: None,
    };
    well::flow(&fills).ok()?.amount.value()
}

/// The finding on the open air; none for a bottle that did not stand in it.
pub(crate) fn open_air_finding(b: &Bottle, unmet: &Unmet) -> Option<Finding> {
    if !outdoors(b) {
        return None;
    }
    let minutes = quantity::Amount::stated(b.open_air_min.unwrap_or_default(), quantity::Unit::known("min"));
    let (outcome, says): (_, Message) = match (&unmet.open_air, &b.well) {
        (None, _) => (Outcome::Met, trip::OpenAirMet.into()),
        (Some(_), Some(well)) => (Outcome::NotKnown, trip::OpenAirNotMet { place: well.as_str().into() }.into()),
        (Some(_), None) => (Outcome::NotKnown, trip::OpenAirNotMetHere.into()),
    };
    Some(Finding::new(OPEN_AIR, outcome, says).comparing(message::compared::InOpenAir, minutes))
}
