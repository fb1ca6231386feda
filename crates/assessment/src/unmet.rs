//! What met a bottle on its way, and what met which blank: the pipe, which no blank ever sees, and the air, which a
//! blank sees only where it was opened in that air at that well, or at a well whose air was shown to be alike.
//!
//! In: timed fills and sections of the well (contact = volume held over flow, in minutes, against the programme's limit
//! of `well.contact-time`), minutes of bottles in the open air, trips, wells, lots, and particle counts. Out: which
//! blanks met what a bottle met ([`Ways::met`]), and what is known of pipe and air ([`Ways::pipe`], [`Ways::air`]). The
//! accounting is [`crate::accounting`]. A well of surface water has no pipe.
//!
//! The air of two wells is alike where both have a cabinet whose counts on that trip keep the class that the programme
//! asks for (`air.class`). A blank without a well on record was opened at the only well of its trip, where there is one;
//! else nobody knows where, and it met no air. Checked in `crates/programme/tests/unmet.rs`.

use crate::verdict::Rules;
use aquifer::well::{self, Fills};
use cleanliness::accounting::{Air, Holds, Pipe};
use cleanliness::air;
use cleanliness::share::Left;
use intake::site::Place;
use measurement::run::Role;
use message::{Message, trip};
use quantity::{Check, Finding, Outcome};
use record::error::Error;
use record::model::{Bottle, BottleKind, FLOW_SERIES, Fill};
use record::store::{Filter, Store};
use record::words::AirPlace;
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

/// The check of what bottles at different flow say of the pipe; on record only where they tell it: met where nothing of
/// it is seen above zero, else not.
pub const PIPE: Check = Check::WellPipeByFlow;

/// The check whether field blanks met the open air that the bottle stood in.
pub const OPEN_AIR: Check = Check::AirOpenAirBlank;

/// Blanks of a kind that tell its level: with one alone nobody knows the scatter.
const FEWEST: usize = 2;

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
    /// Trip and well where the counts of the cabinet keep the programme's class.
    kept_class: HashSet<(i64, i64)>,
    /// The only well of a trip.
    only_well: HashMap<i64, i64>,
    /// Field blanks of the trips.
    field_blanks: Vec<Bottle>,
}

impl Ways {
    /// Reads what these bottles ask for.
    ///
    /// # Errors
    /// The store cannot be read. Fills and casings that cannot be leave the contact unknown.
    pub fn of<'a>(store: &Store, bottles: impl Iterator<Item = &'a Bottle>) -> Result<Self, Error> {
        let (mut wells, mut trips) = (BTreeSet::new(), BTreeSet::new());
        for b in bottles {
            wells.extend(b.well_id);
            trips.extend(b.trip_id);
        }
        let rules = Rules::new(store.check_rules()?);
        let mut out = Self { longest_min: rules.longest_contact_min(), ..Self::default() };
        let class = rules.limit(Check::AirClass, 5.0) as u8;
        out.without_pipe = store.wells()?.iter().filter(|w| w.is_stream()).map(|w| w.id).collect();
        // Once, not once a trip: nothing leads from a trip to its fills but all of them.
        let mut fills: BTreeMap<(i64, i64), Vec<Fill>> = BTreeMap::new();
        store.each(&Filter::all().has("trip"), |f: Fill| {
            if let Some(trip) = f.trip_id.filter(|t| trips.contains(t)) {
                fills.entry((trip, f.well_id)).or_default().push(f);
            }
            Ok(())
        })?;
        for (at, here) in fills.iter().filter(|((_, well), _)| wells.contains(well)) {
            out.flow.extend(by_fills(&here.iter().collect::<Vec<_>>()).map(|q| (*at, q)));
        }
        for trip in trips {
            out.read_air(store, trip, class)?;
        }
        for well in wells {
            let casing = intake::site::construction(&store.well_sections(well)?, &[], None);
            // The volume does not depend on the flow.
            let held = well::contact(&casing, &quantity::Amount::stated(1.0, quantity::Unit::known("L/min")));
            out.held_l.extend(held.ok().map(|h| (well, 1000.0 * h.volume_m3)));
        }
        Ok(out)
    }

    fn read_air(&mut self, store: &Store, trip: i64, class: u8) -> Result<(), Error> {
        let on_trip = Filter::all().is("trip", trip);
        let cabinet: Place = AirPlace::Cabinet.word();
        for ((well, place), sample) in crate::air::pooled(&store.air_counts(&on_trip)?) {
            let reading = sample.ok().filter(|_| place == cabinet).and_then(|s| air::read(&s).ok());
            let keeps = |f: &Finding| f.check == Check::AirClass && f.outcome == Outcome::Met;
            if reading.is_some_and(|r| r.findings(class).iter().any(keeps)) {
                self.kept_class.insert((trip, well));
            }
        }
        let bottles = store.bottles(&on_trip)?;
        let wells: BTreeSet<i64> = bottles.iter().filter(|b| b.kind.is_water()).filter_map(|b| b.well_id).collect();
        if let (1, Some(well)) = (wells.len(), wells.first()) {
            self.only_well.insert(trip, *well);
        }
        self.field_blanks.extend(bottles.into_iter().filter(|b| b.kind == BottleKind::FieldBlank));
        Ok(())
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

    /// What is known of the pipe without bottles at different flow.
    pub fn pipe(&self, b: &Bottle) -> Pipe {
        match self.contact_min(b) {
            _ if b.well_id.is_some_and(|w| self.without_pipe.contains(&w)) => Pipe::Absent,
            Some(contact_min) if contact_min > self.longest_min => {
                Pipe::Long { contact_min, longest_min: self.longest_min }
            }
            // A bottle of a flow series is taken because the pipe is in question.
            Some(_) if b.set_name.as_deref() == Some(FLOW_SERIES) => Pipe::NotKnown,
            Some(_) => Pipe::Short,
            None => Pipe::NotKnown,
        }
    }

    /// Did the bottle's water come through a pipe? Of a bottle without a well nothing is known: it may have.
    pub fn has_pipe(&self, b: &Bottle) -> bool {
        b.well_id.is_none_or(|w| !self.without_pipe.contains(&w))
    }

    /// Did a blank of this kind meet what the bottle met of it? `blank`: the bottle that it stood in; of one without,
    /// nobody knows where it was.
    pub fn met(&self, kind: Role, blank: Option<&Bottle>, bottle: &Bottle) -> bool {
        let known_and_different = |a: Option<i64>, b: Option<i64>| a.zip(b).is_some_and(|(a, b)| a != b);
        if blank.is_some_and(|x| known_and_different(x.trip_id, bottle.trip_id)) {
            return false;
        }
        match kind {
            Role::FieldBlank | Role::EquipmentBlank => self.met_its_air(blank, bottle),
            Role::BottleBlank => !blank.is_some_and(|x| known_and_different(x.lot_id, bottle.lot_id)),
            _ => true,
        }
    }

    /// Opened in the air that the bottle stood in: at the same well, or in cabinets that both kept the class.
    fn met_its_air(&self, blank: Option<&Bottle>, bottle: &Bottle) -> bool {
        if blank.map_or(outdoors(bottle), |x| outdoors(x) != outdoors(bottle)) {
            return false;
        }
        let only = |b: &Bottle| b.trip_id.and_then(|t| self.only_well.get(&t)).copied();
        let well = |b: &Bottle| b.well_id.or_else(|| only(b));
        let here = well(bottle);
        let there = blank.map_or_else(|| only(bottle), well);
        if here == there {
            return true;
        }
        let kept = |well: Option<i64>| bottle.trip_id.zip(well).is_some_and(|key| self.kept_class.contains(&key));
        !outdoors(bottle) && kept(here) && kept(there)
    }

    /// Whether two of these blanks or more met the air of the bottle.
    pub fn air<'a>(&self, bottle: &Bottle, blanks: impl Iterator<Item = &'a Bottle>) -> Air {
        if blanks.filter(|x| self.met(Role::FieldBlank, Some(x), bottle)).take(FEWEST).count() == FEWEST {
            return Air::Met;
        }
        self.air_not_met(bottle)
    }

    /// The air of a bottle that no two blanks met.
    pub fn air_not_met(&self, bottle: &Bottle) -> Air {
        // A bottle of no well stands for its own place.
        let place = bottle.well.clone().unwrap_or_else(|| bottle.label.clone());
        if outdoors(bottle) { Air::Open(place) } else { Air::Elsewhere(place) }
    }

    /// What came with the water as far as the field sheets alone say; for records without an accounting. `by_flow`: do
    /// bottles at different flow tell the pipe?
    pub fn left(&self, bottle: &Bottle, by_flow: bool) -> Left {
        let pipe = self.pipe(bottle);
        let bound = matches!(pipe, Pipe::Long { .. } | Pipe::NotKnown);
        let air = self.air(bottle, self.field_blanks.iter()) != Air::Met;
        let pipe = !by_flow && pipe != Pipe::Absent;
        Left::of(Holds { pipe, bound, air, outdoors: outdoors(bottle), way: false })
    }
}

/// Did the bottle stand in the open air?
pub fn outdoors(b: &Bottle) -> bool {
    b.open_air_min.is_some_and(|m| m > 0.0)
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
pub(crate) fn open_air_finding(b: &Bottle, air: &Air) -> Option<Finding> {
    if !outdoors(b) {
        return None;
    }
    let minutes = quantity::Amount::stated(b.open_air_min.unwrap_or_default(), quantity::Unit::known("min"));
    let (outcome, says): (_, Message) = match (air, &b.well) {
        (Air::Met, _) => (Outcome::Met, trip::OpenAirMet.into()),
        (_, Some(well)) => (Outcome::NotKnown, trip::OpenAirNotMet { place: well.as_str().into() }.into()),
        (_, None) => (Outcome::NotKnown, trip::OpenAirNotMetHere.into()),
    };
    Some(Finding::new(OPEN_AIR, outcome, says).comparing(message::compared::InOpenAir, minutes))
}
