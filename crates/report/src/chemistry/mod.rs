//! Sections on chemistry: what each water is, and the waters of the record side by side.
//!
//! In: the record. Out: for up to [`PAGES`] waters a section each — what it is, its ions, what it
//! could dissolve or form, its redox couples, its smell, the open bottle, the air of a well house,
//! why the metal is low, what the table of constants does not know, findings — and one section for
//! the set; for more waters only the set with its charge balances. Everything is computed by
//! `aqueous` from the analysis that `assessment::chemistry_checks` makes of laboratory report, run and field
//! readings; doubt is a Monte Carlo with a fixed seed, so the same record gives the same bytes.
//!
//! * `water` — one water · `air` — smell, open bottle, well house · `metal` — why the number is
//!   low · `set` — many waters · `words` — names and numbers

mod air;
mod metal;
mod set;
mod water;
mod words;

use super::Caution;
use aqueous::speciation::{Request, Speciation, speciation};
use assessment::chemistry_checks::{self, Analysed, Water};
use assessment::field_checks::FieldChecks;
use assessment::verdict::Rules;
use document::content::{Annex, Block, Content, Section};
use message::{Spoken, chemistry};
use quantity::{Amount, Unit};
use record::Error;
use record::model::ResultRow;
use record::store::Store;
use std::collections::{BTreeMap, BTreeSet};

/// More waters than this are shown as a set only.
pub const PAGES: usize = 8;

/// Draws of the Monte Carlo over analysis and constants. The ends of a 95 % interval of 1000 draws
/// scatter by about a tenth of its half-width, less than one printed digit.
const DRAWS: usize = 1000;

/// Seed of the draws: the same record gives the same bytes.
const SEED: u64 = 1;

/// One water, worked out.
pub(super) struct Answered {
    /// Well, with the day where the well occurs more than once; else the bottle.
    pub name: String,
    /// What the record holds of it.
    pub known: Analysed,
    /// The chemistry, or why there is none.
    pub answer: Result<Speciation, aqueous::Error>,
    /// Flow of the well on that trip, L/min, where it was timed.
    pub flow_l_min: Option<f64>,
}

/// What the chapters say of the waters.
#[derive(Default)]
pub struct Chapters {
    /// The waters side by side.
    pub waters: Vec<Block>,
    /// What holds the key metal down.
    pub low: Vec<Block>,
    /// There is one water alone: nothing stands beside it.
    pub alone: bool,
}

/// Adds the annex, a section a water; answers what the chapters say of them.
///
/// # Errors
/// The store cannot be read.
pub fn fill(store: &Store, rows: &[ResultRow], out: &mut Content) -> Result<Chapters, Error> {
    let waters = chemistry_checks::analyses(store, rows)?;
    if waters.is_empty() {
        return Ok(Chapters::default());
    }
    out.methods.push(method());
    let names = names(&waters);
    if waters.len() > PAGES {
        return Ok(Chapters { waters: set::many(&names, &waters).blocks, ..Chapters::default() });
    }
    let answered = answered(store, waters, names)?;
    // A stream stands beside the wells in the set; a page of smell and well house is for wells.
    let wells = store.wells()?;
    let is_stream = |a: &&Answered| wells.iter().any(|w| Some(w.id) == a.known.bottle.well_id && w.is_stream());
    let mut chapters = Chapters { alone: answered.len() == 1, ..Chapters::default() };
    let of_wells: Vec<(&Answered, &Speciation)> =
        answered.iter().filter(|a| !is_stream(a)).filter_map(|a| Some((a, a.answer.as_ref().ok()?))).collect();
    let together = answered.len() > 1;
    if together {
        let (short, mut long) = set::few(&answered);
        chapters.waters = short;
        long.blocks.extend(air::side_by_side(&of_wells));
        out.sections.push(long.within(Annex::Waters));
    }
    chapters.waters.extend(of_wells.iter().filter_map(|(a, s)| air::in_short(a, s)));
    chapters.low = metal::side_by_side(&of_wells);
    let mut told = BTreeSet::new();
    for a in answered.iter().filter(|a| !is_stream(a)) {
        let section = if together { water::in_annex(a, &mut told) } else { water::section(a) };
        out.sections.push(section.within(Annex::Waters));
    }
    if answered.iter().any(|a| a.answer.as_ref().is_ok_and(|s| aqueous::odour::odour(&s.equilibrium).is_some())) {
        chapters.waters.push(Block::Text(Caution::Gas.sentence()));
        out.cautions.push(Caution::Gas.sentence());
    }
    Ok(chapters)
}

/// Each water worked out, with its name.
fn answered(store: &Store, waters: Vec<Analysed>, names: Vec<String>) -> Result<Vec<Answered>, Error> {
    let flows = flows(store, &waters)?;
    let one = |(known, name): (Analysed, String)| {
        let request = Request { analysis: known.analysis.clone(), draws: DRAWS, seed: SEED, ..Request::default() };
        Answered { name, answer: speciation(&request), flow_l_min: flows.get(&known.water).copied(), known }
    };
    Ok(waters.into_iter().zip(names).map(one).collect())
}

/// A few waters side by side without their own sections, for an interface: their numbers and shapes, and of each what the
/// nose meets and what holds its first metal down.
///
/// # Errors
/// The store cannot be read.
pub fn beside(store: &Store, waters: Vec<Analysed>) -> Result<Chapters, Error> {
    let names = names(&waters);
    let answered = answered(store, waters, names)?;
    let solved: Vec<(&Answered, &Speciation)> =
        answered.iter().filter_map(|a| Some((a, a.answer.as_ref().ok()?))).collect();
    let mut waters = set::few(&answered).0;
    waters.extend(solved.iter().filter_map(|(a, s)| air::in_short(a, s)));
    Ok(Chapters { waters, low: metal::side_by_side(&solved), alone: answered.len() == 1 })
}

/// One water of those of the record, by its place among them, with its section.
///
/// # Errors
/// The store cannot be read.
pub fn one(store: &Store, waters: Vec<Analysed>, at: usize) -> Result<Option<Section>, Error> {
    let names = names(&waters);
    let Some((known, name)) = waters.into_iter().zip(names).nth(at) else { return Ok(None) };
    Ok(answered(store, vec![known], vec![name])?.first().map(water::section))
}

/// The well where it occurs once, well and day where it occurs more often, else the bottle.
pub fn names(waters: &[Analysed]) -> Vec<String> {
    let well = |w: &Analysed| w.bottle.well.clone();
    waters
        .iter()
        .map(|w| match (well(w), w.bottle.filled_at.as_deref().and_then(|t| t.get(..10))) {
            (Some(name), Some(day)) if waters.iter().filter(|o| well(o).as_ref() == Some(&name)).count() > 1 => {
                format!("{name}, {day}")
            }
            (Some(name), _) => name,
            (None, _) => w.bottle.label.clone(),
        })
        .collect()
}

fn flows(store: &Store, waters: &[Analysed]) -> Result<BTreeMap<Water, f64>, Error> {
    let rules = Rules::new(store.check_rules()?);
    let mut trips: BTreeMap<i64, FieldChecks> = BTreeMap::new();
    let mut out = BTreeMap::new();
    for w in waters {
        let Water::Visit(trip, well) = w.water else { continue };
        if let std::collections::btree_map::Entry::Vacant(place) = trips.entry(trip) {
            place.insert(FieldChecks::of(store, trip, &rules)?);
        }
        let flow = trips[&trip].well(well).and_then(|w| w.flow.clone());
        let in_litres = flow.and_then(|f: Amount| f.convert(&Unit::known("L/min"), None, None).ok()?.value());
        out.extend(in_litres.map(|f| (w.water, f)));
    }
    Ok(out)
}

/// The methods that these sections stand on.
fn method() -> document::content::Method {
    document::content::Method {
        name: chemistry::Method.text(),
        text: chemistry::MethodText { draws: message::count(DRAWS) }.text(),
        sources: vec![chemistry::TableOfConstants.text(), chemistry::Propagation.text()],
    }
}
