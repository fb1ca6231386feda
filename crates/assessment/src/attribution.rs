//! Whose metal is it, by the record: all bottles of a trip that one run measured, blanks and samples, are fitted
//! together by what each was exposed to, and every water gets its own concentration and its share of the metal
//! found, beside the plain subtraction of the blank, which stays what is reported.
//!
//! In: reduced runs (ng/L before any field blank, times mL: pg), and of each bottle mL of acid, days with the water
//! in it, the journey, openings, minutes in the cabinet and in the open, a filter, and minutes in the pipe times
//! litres where the flow was changed. Out: for each trip and analyte the strength of every source by the blanks, and
//! for each water ng/L and share with 95 % intervals, or why these bottles cannot tell, in words, with the bottle
//! that would. The science is [`cleanliness::attribution`] and [`cleanliness::lines`]; here is only who meets whom.
//!
//! A source is asked about only where every bottle of the fit has its exposure on record; exposures that went
//! together in every bottle are fitted as one. Bottles of one trip are fitted alone; where they cannot tell, blanks
//! of all trips measured by the same recipe stand beside them, and that is said. Each well has a fit of its own, so
//! that trouble at one well does not blur another. Checked in `crates/programme/tests/attribution.rs`.

mod exposure;
mod keep;
mod series;
pub mod unseen;

pub use exposure::and;
pub use exposure::{Asked, CannotTell, Exposure};
pub use keep::differences;
pub use keep::{Attributed, keep};
pub use series::{SeriesLine, Sort};
pub use unseen::{CHECK as UNSEEN_SOURCE, LEVEL as UNSEEN_LEVEL, NotMet, finding as unseen_finding};

use crate::derive::Prepared;
use crate::unmet::{Ways, outdoors};
use cleanliness::accounting::{Air, Holds, Pipe};
use cleanliness::attribution::{Attribution, Kind, Spikes, Survey, WaterStrength, attribute};
use cleanliness::share::Left;
use cleanliness::unseen::Unseen;
use measurement::run::{Analyte, ReducedRun, SpikeRecovery};
use message::{Digits, Message, Sentence, Share, Shown, attribution as said, count};
use quantity::Measured;
use record::error::Error;
use record::model::{Bottle, BottleKind};
use record::store::{Filter, Store};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// A run of the record with what it was reduced from.
pub type RunPair<'a> = (&'a Prepared, &'a ReducedRun);

/// A bottle with the metal found in it.
#[derive(Debug, Clone)]
pub struct Found<'a> {
    /// The bottle.
    pub bottle: &'a Bottle,
    /// Metal before any field blank was taken off, pg.
    pub mass_pg: f64,
    /// The bottle's own standard uncertainty, pg: what it shares with the other bottles of the run taken off.
    pub own_u_pg: f64,
    /// Relative standard uncertainty that all bottles of the run share: the slope of the line, the stock.
    pub shared_u: f64,
    /// Net of the run's blank, ng/L.
    pub net: Measured,
    /// Start of the run, as the record writes it.
    pub measured_at: Option<&'a str>,
    /// Minutes in the pipe, where flow and casing are known.
    pub contact_min: Option<f64>,
}

/// One fit.
#[derive(Debug, Clone, Serialize)]
pub struct Fit {
    /// The well; none for the fit of the blanks alone.
    pub well: Option<String>,
    /// Fraction of its bottles.
    pub fraction: String,
    /// Which bottles were fitted.
    pub scope: Sentence,
    /// Sources asked about, in the order of the fit.
    pub asked: Vec<Asked>,
    /// Sources that could not be asked about, and why.
    pub not_asked: Vec<Sentence>,
    /// What these bottles cannot tell apart, and the bottle that would.
    pub cannot_tell: Vec<CannotTell>,
    /// Recovery and its u.
    pub recovery: (f64, f64),
    /// Bottles of one kind against the fit.
    pub unseen: Unseen,
    /// Exposures that a sample had and no blank of the fit: their metal counts as the water's.
    pub not_met: Vec<Exposure>,
    /// The fit.
    pub fit: Attribution,
}

impl Fit {
    /// Do bottles at different flow tell the pipe from the water?
    pub fn tells_pipe(&self) -> bool {
        self.fit.sources.iter().zip(&self.asked).any(|(s, a)| s.identifiable && a.members == [Exposure::Pipe])
    }

    /// What belongs beside its numbers: a recovery that was divided out, weights that did not settle.
    pub fn beside(&self) -> Vec<Sentence> {
        let recovery = Share::new(self.recovery.0, Digits::Significant(3));
        let divided = |w: &WaterStrength| -> Option<Message> {
            let before = Shown::significant(w.before_recovery_ng_l.filter(|_| w.identifiable)?, 3, "ng/L");
            let (water, value) = (w.name.as_str().into(), Shown::significant(w.ng_l, 3, "ng/L"));
            Some(said::RecoveryDividedOut { water, value, before, recovery: recovery.clone() }.into())
        };
        let all = self.fit.waters.iter().filter_map(divided).chain(self.fit.cautions());
        all.map(Sentence::from).collect()
    }
}

/// A water that was fitted, or why not.
#[derive(Debug, Clone, Serialize)]
pub struct WaterFit {
    /// Well.
    pub well: String,
    /// Fraction.
    pub fraction: String,
    /// What the fit gives as the water: with the pipe's metal in it where the pipe may speak and no flows tell it apart.
    pub is: Left,
    /// Its bottles came through a pipe.
    pub pipe: bool,
    /// The place whose open air no blank met.
    pub open_air: Option<String>,
    /// The fit, or what was refused.
    pub fit: Result<Fit, Sentence>,
    /// Bottles of different volume or at different flow, where there are such.
    pub series: Vec<SeriesLine>,
}

/// What the bottles of one trip say of one analyte.
#[derive(Debug, Clone, Serialize)]
pub struct TripAnalyte {
    /// The run.
    pub run: String,
    /// The trip.
    pub trip: String,
    /// What was measured.
    pub analyte: Analyte,
    /// The fit of the blanks alone, or what was refused.
    pub blanks: Result<Fit, Sentence>,
    /// Each water.
    pub waters: Vec<WaterFit>,
}

/// Attribution of every trip and analyte that a run measured.
///
/// # Errors
/// The store cannot be read; evidence of a trip that cannot be.
pub fn all(store: &Store, runs: &[RunPair]) -> Result<Vec<TripAnalyte>, Error> {
    if runs.is_empty() {
        return Ok(vec![]);
    }
    let context = Context::read(store)?;
    // One order whatever the caller's, so that sums come out the same to the last bit.
    let mut runs = runs.to_vec();
    runs.sort_by_key(|r| crate::derive::in_time(&r.0.run));
    let mut out = vec![];
    for pair in &runs {
        let analytes: BTreeSet<Analyte> = pair.1.results.iter().map(|r| r.analyte.clone()).collect();
        for trip in context.trips_of(pair.1) {
            for analyte in &analytes {
                out.extend(context.trip_analyte(*pair, &runs, &trip, analyte));
            }
        }
    }
    Ok(out)
}

/// Flow of the well while a bottle was filled, L/min, where it is known.
///
/// # Errors
/// The store cannot be read; evidence of a trip that cannot be.
pub fn flow(store: &Store, bottle: &Bottle) -> Result<Option<f64>, Error> {
    Ok(Ways::of(store, std::iter::once(bottle))?.flow_l_min(bottle))
}

/// Minutes that the water of a bottle spent in the pipe, where flow and casing are known.
///
/// # Errors
/// As [`flow`].
pub fn contact_min(store: &Store, bottle: &Bottle) -> Result<Option<f64>, Error> {
    Ok(Ways::of(store, std::iter::once(bottle))?.contact_min(bottle))
}

/// What is read once for all fits.
struct Context {
    by_label: HashMap<String, Bottle>,
    /// Flow, contact, and what no blank met.
    ways: Ways,
}

impl Context {
    fn read(store: &Store) -> Result<Self, Error> {
        let by_label: HashMap<String, Bottle> =
            store.bottles(&Filter::all())?.into_iter().map(|b| (b.label.clone(), b)).collect();
        let ways = Ways::of(store, by_label.values())?;
        Ok(Self { by_label, ways })
    }

    fn trips_of(&self, run: &ReducedRun) -> BTreeSet<String> {
        let bottles = run.results.iter().filter_map(|r| self.by_label.get(r.bottle.as_ref()?));
        bottles.filter_map(|b| b.trip.clone()).collect()
    }

    /// Bottles of a run with an analyte, in the order of the run.
    fn found<'a>(&'a self, (prepared, run): RunPair<'a>, analyte: &Analyte) -> Vec<Found<'a>> {
        let at: Vec<usize> = (0..run.results.len())
            .filter(|i| run.results[*i].analyte == *analyte && run.results[*i].bottle.is_some())
            .collect();
        let (own, shared_u) = own_and_shared(run, &at);
        let of = |(k, i): (usize, &usize)| {
            let r = &run.results[*i];
            let bottle = self.by_label.get(r.bottle.as_ref()?)?;
            let volume = bottle.volume_mL.filter(|v| *v > 0.0)?;
            Some(Found {
                bottle,
                mass_pg: r.gross.value * volume,
                own_u_pg: own[k] * volume,
                shared_u,
                net: r.net.clone(),
                measured_at: prepared.run.started_at.as_deref(),
                contact_min: self.ways.contact_min(bottle),
            })
        };
        at.iter().enumerate().filter_map(of).collect()
    }

    fn trip_analyte(&self, pair: RunPair, runs: &[RunPair], trip: &str, analyte: &Analyte) -> Option<TripAnalyte> {
        let found = self.found(pair, analyte);
        let spikes: Vec<&SpikeRecovery> = pair.1.spikes.iter().filter(|s| s.analyte == *analyte).collect();
        let elsewhere: Vec<Found> = runs
            .iter()
            .filter(|other| other.0.run.recipe == pair.0.run.recipe)
            .filter(|other| other.1.name != pair.1.name)
            .flat_map(|other| self.found(*other, analyte))
            .collect();
        let mut waters = of_trip(&found, &elsewhere, trip, &spikes)?;
        for w in &mut waters.1 {
            let way = self.way(w, &found, trip);
            (w.pipe, w.open_air) = (way.has_pipe, way.open_air);
            w.is = left(w, way.holds);
        }
        Some(TripAnalyte {
            run: pair.1.name.clone(),
            trip: trip.into(),
            analyte: analyte.clone(),
            blanks: waters.0,
            waters: waters.1,
        })
    }
}

/// The way of the bottles of a water.
struct WayOfWater {
    /// What is in the part that came with the water, were the pipe not told by bottles at different flow.
    holds: Holds,
    /// One of them came through a pipe.
    has_pipe: bool,
    /// Where one of them stood in an open air that no blank met.
    open_air: Option<String>,
}

impl Context {
    fn way(&self, w: &WaterFit, found: &[Found], trip: &str) -> WayOfWater {
        let here = |f: &&Found| {
            let b = f.bottle;
            b.kind.is_water()
                && b.trip.as_deref() == Some(trip)
                && b.well.as_ref() == Some(&w.well)
                && fraction(b) == w.fraction
        };
        let holds = Holds { pipe: false, bound: false, air: false, outdoors: false, way: false };
        let mut out = WayOfWater { holds, has_pipe: false, open_air: None };
        for f in found.iter().filter(here) {
            let pipe = self.ways.pipe(f.bottle);
            out.holds.pipe |= pipe != Pipe::Absent;
            out.holds.bound |= matches!(pipe, Pipe::Long { .. } | Pipe::NotKnown);
            out.has_pipe |= self.ways.has_pipe(f.bottle);
            let blanks = found.iter().map(|x| x.bottle).filter(|b| b.kind == BottleKind::FieldBlank);
            let air = self.ways.air(f.bottle, blanks);
            out.holds.air |= air != Air::Met;
            out.holds.outdoors |= outdoors(f.bottle);
            if let Air::Open(place) = air {
                out.open_air.get_or_insert(place);
            }
        }
        out
    }
}

/// What the fit gives as the water. Where it tells the pipe, that is not in it; where it cannot tell the water, it
/// gives only the most that the water can be.
fn left(w: &WaterFit, mut holds: Holds) -> Left {
    let Ok(fit) = &w.fit else { return Left::default() };
    if fit.fit.waters.iter().any(|x| !x.identifiable) {
        return Left::default();
    }
    holds.pipe &= !fit.tells_pipe();
    Left::of(holds)
}

/// The own u of each gross value, and the relative u that they share. Two bottles of near level share nearly all that
/// either shares with any, so each is held against its neighbour in level; the two highest give the relative part.
pub fn own_and_shared(run: &ReducedRun, at: &[usize]) -> (Vec<f64>, f64) {
    let gross = |i: usize| run.results[i].gross.value;
    let mut order = at.to_vec();
    order.sort_by(|a, b| gross(*a).total_cmp(&gross(*b)).then(a.cmp(b)));
    let own = |i: &usize| {
        let place = order.iter().position(|o| o == i).expect("one of them");
        let beside = [place.checked_sub(1), Some(place + 1)].into_iter().flatten().filter_map(|p| order.get(p));
        let shared = beside.map(|j| run.gross_covariance(*i, *j)).fold(0.0, f64::max);
        let variance = run.gross_covariance(*i, *i);
        // A tenth of the variance stays at least: counting never vanishes.
        (variance - shared).max(0.1 * variance).sqrt()
    };
    let relative = match order.as_slice() {
        [.., a, b] if gross(*a) > 0.0 => (run.gross_covariance(*a, *b).max(0.0) / (gross(*a) * gross(*b))).sqrt(),
        _ => 0.0,
    };
    (at.iter().map(own).collect(), relative)
}

/// Blanks of a trip: those that travelled with it, and bottle blanks of the lots that it took along.
fn blanks_of<'a>(found: &[Found<'a>], trip: &str) -> Vec<Found<'a>> {
    let lots: BTreeSet<Option<&str>> =
        found.iter().filter(|f| f.bottle.trip.as_deref() == Some(trip)).map(|f| f.bottle.lot.as_deref()).collect();
    let belongs = |b: &Bottle| match b.trip.as_deref() {
        Some(t) => t == trip,
        None => lots.contains(&b.lot.as_deref()),
    };
    found.iter().filter(|f| f.bottle.kind.is_blank() && belongs(f.bottle)).cloned().collect()
}

type Fits = (Result<Fit, Sentence>, Vec<WaterFit>);

/// The fits of one trip; none where it has no water and no blank. `elsewhere`: bottles of other runs of the recipe.
pub fn of_trip(found: &[Found], elsewhere: &[Found], trip: &str, spikes: &[&SpikeRecovery]) -> Option<Fits> {
    let own = blanks_of(found, trip);
    let mut waters: BTreeMap<(&str, &str), Vec<Found>> = BTreeMap::new();
    for f in found.iter().filter(|f| f.bottle.kind.is_water() && f.bottle.trip.as_deref() == Some(trip)) {
        if let Some(well) = f.bottle.well.as_deref() {
            waters.entry((well, fraction(f.bottle))).or_default().push(f.clone());
        }
    }
    if own.is_empty() && waters.is_empty() {
        return None;
    }
    // A bottle of another run that was measured here too counts once.
    let known: BTreeSet<&str> = found.iter().map(|f| f.bottle.label.as_str()).collect();
    let mut pooled = own.clone();
    pooled.extend(elsewhere.iter().filter(|f| f.bottle.kind.is_blank()).cloned());
    pooled.extend(found.iter().filter(|f| f.bottle.kind.is_blank()).cloned());
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    pooled.retain(|f| {
        let label = f.bottle.label.as_str();
        let again = known.contains(label)
            && !found.iter().any(|o| o.bottle.label == label && o.mass_pg.total_cmp(&f.mass_pg).is_eq());
        !again && seen.insert(label)
    });
    let blanks = best(&own, &pooled, &[], trip, spikes);
    let waters = waters
        .into_iter()
        .map(|((well, fraction), bottles)| WaterFit {
            well: well.into(),
            fraction: fraction.into(),
            is: Left::default(),
            pipe: true,
            open_air: None,
            series: series::of(&bottles),
            fit: best(&own, &pooled, &bottles, trip, spikes),
        })
        .collect();
    Some((blanks, waters))
}

fn fraction(b: &Bottle) -> &str {
    b.fraction.as_deref().unwrap_or("unfiltered")
}

/// The trip's own blanks where they can tell, else all blanks of the recipe where these tell more.
fn best(
    own: &[Found],
    pooled: &[Found],
    waters: &[Found],
    trip: &str,
    spikes: &[&SpikeRecovery],
) -> Result<Fit, Sentence> {
    let scope = said::BlanksOfTrip { trip: trip.into(), bottles: count(own.len() + waters.len()) };
    let alone = fit(own, waters, scope.into(), spikes);
    let tells = |f: &Result<Fit, Sentence>| f.as_ref().is_ok_and(|f| f.cannot_tell.is_empty());
    if tells(&alone) || pooled.len() <= own.len() {
        return alone;
    }
    let scope = said::BlanksOfRecipe { bottles: count(pooled.len() + waters.len()) };
    let more = fit(pooled, waters, scope.into(), spikes);
    let water_told = |f: &Result<Fit, Sentence>| f.as_ref().is_ok_and(|f| f.fit.waters.iter().all(|w| w.identifiable));
    if tells(&more) || alone.is_err() || (water_told(&more) && !water_told(&alone)) { more } else { alone }
}

fn fit(blanks: &[Found], waters: &[Found], scope: Sentence, spikes: &[&SpikeRecovery]) -> Result<Fit, Sentence> {
    let all: Vec<&Found> = blanks.iter().chain(waters).collect();
    let columns = exposure::columns(&all);
    if let Some(why) = columns.impossible(&all) {
        return Err(why.into());
    }
    let recovery = recovery(&all, spikes);
    let survey = Survey {
        sources: columns.asked.iter().map(|a| a.name.clone()).collect(),
        bottles: all
            .iter()
            .enumerate()
            .map(|(i, f)| cleanliness::attribution::Bottle {
                name: f.bottle.label.clone(),
                kind: if f.bottle.kind.is_blank() { Kind::Blank } else { Kind::Sample },
                water: (!f.bottle.kind.is_blank()).then(|| f.bottle.well.clone().unwrap_or_default()),
                volume_ml: f.bottle.volume_mL.unwrap_or(f64::NAN),
                mass_pg: f.mass_pg,
                u_pg: f.own_u_pg,
                exposures: columns.values.iter().map(|c| c[i]).collect(),
            })
            .collect(),
        recovery,
        spikes: Spikes::default(),
    };
    let fit = attribute(&survey).map_err(|e| e.message())?;
    let mut cannot_tell = columns.together;
    // Two things that the water itself hides do not hide the water.
    let well = waters.first().and_then(|f| f.bottle.well.clone());
    let well_name = well.as_deref().unwrap_or_default();
    cannot_tell.extend(fit.cannot_separate.iter().map(|c| exposure::confounded(&c.sources, &columns.asked, well_name)));
    Ok(Fit {
        well,
        fraction: waters.first().map_or_else(String::new, |f| fraction(f.bottle).into()),
        unseen: unseen::compare(&all, &survey, &fit),
        not_met: unseen::not_met(&all),
        scope,
        asked: columns.asked,
        not_asked: columns.not_asked,
        cannot_tell,
        recovery,
        fit,
    })
}

/// Two standard uncertainties: what the spikes must differ from 1 by, before they are believed over it.
const SPIKES_SAY_OTHERWISE: f64 = 2.0;

/// Recovery with u: 1 unless the spikes of the run say otherwise. The u of the 1 is what all bottles share in the
/// laboratory: the slope of the line, the stock.
fn recovery(found: &[&Found], spikes: &[&SpikeRecovery]) -> (f64, f64) {
    let of: Vec<&Measured> = spikes.iter().map(|s| &s.recovery).collect();
    if let Some(m) = crate::assess::mean_recovery(&of)
        && (m.value - 1.0).abs() > SPIKES_SAY_OTHERWISE * m.u
        && m.value > m.u
    {
        return (m.value, m.u);
    }
    (1.0, found.iter().map(|f| f.shared_u).fold(0.0, f64::max).min(0.5))
}
