//! What the tracers of a well say to a sentence about its age, and the rows of the record that this leans on.
//!
//! In: a well and how many years back is asked. Out: for each model that the tracers do not reject the share that is younger,
//! as one-sided 95 % bounds ([`Tracers`], which `limits::claim` answers from); or the rows as they are today ([`Leans`]), by
//! which a kept sentence sees that they changed. The band of carbon-14 over its corrections counts in full: the models are
//! held against both of its ends as well, and the widest bounds count. Checked in `crates/programme/tests/statement_age.rs`.

use super::gather::Site;
use super::{begun, beside_every_age};
use aquifer::age::fit::{Fit, Tested, fit, fit_supposed};
use aquifer::age::tritium::Class;
use aquifer::age::verdict::{findings, standing_models, younger_bounds};
use aquifer::age::{Level, Sample, Side, Tables, Tracer};
use limits::claim::{AgeModel, Tracers, Tritium};
use message::{Message, age as said};
use quantity::Outcome;
use record::error::Error;
use record::store::Store;
use serde::{Deserialize, Serialize};

/// A kind of row that an age leans on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LeansOn {
    /// A tracer of the well.
    Tracer,
    /// A history of rain or air.
    History,
    /// A fact of the recharge.
    Recharge,
    /// The chemistry that admits or corrects a tracer.
    Chemistry,
}

/// Something on record that an age leans on, as it is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Leans {
    /// What it is.
    pub on: LeansOn,
    /// Sign of the tracer, name of the history, word of the fact; empty for the chemistry.
    pub name: String,
    /// Day of sampling, ISO 8601, of a tracer.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub day: String,
    /// Digest of all that it says.
    pub digest: String,
}

impl Leans {
    /// What says so much; the digest is BLAKE3 of the JSON, its first 64 bits.
    pub(super) fn new(on: LeansOn, name: &str, day: &str, says: &serde_json::Value) -> Self {
        let digest = blake3::hash(says.to_string().as_bytes()).to_hex()[..16].to_string();
        Self { on, name: name.into(), day: day.into(), digest }
    }
}

/// What an age of this well leans on today, in a fixed order; nothing where no tracer was measured.
///
/// # Errors
/// [`Error::Absent`] for a well that is not on record; the store cannot be read.
pub fn leans(store: &Store, well: &str) -> Result<Vec<Leans>, Error> {
    let site = Site::of(store)?;
    let mut out = site.leans(store, well)?;
    out.sort();
    Ok(out)
}

/// What the tracers of a well say of the share that is younger; none where no tracer was measured. `years` is given the
/// decimal year of sampling and says how far back is asked.
///
/// # Errors
/// [`Error::Absent`] for a well that is not on record; those of `years`; the store cannot be read.
pub fn of_sentence(
    store: &Store,
    well: &str,
    years: impl FnOnce(f64) -> Result<f64, Error>,
) -> Result<Option<Tracers>, Error> {
    let site = Site::of(store)?;
    site.well(well)?;
    let Some(mut known) = site.known(store, well)? else { return Ok(None) };
    let years = years(known.year)?;
    let (told, ready) = begun(&mut known, None);
    let mut out = Tracers {
        counted_from: told.year,
        day: Some(told.day.clone()),
        tritium: told.tritium.as_ref().map(|t| match t.class {
            Class::Before => Tritium::Before,
            Class::After => Tritium::After,
            Class::Between => Tritium::Between,
            Class::TooCoarse => Tritium::TooCoarse,
        }),
        tritium_younger_at_most: told.tritium.as_ref().and_then(|t| t.younger_at_most),
        carbon_years: (told.carbon.as_ref().and_then(|c| c.band))
            .map(|(low, high)| [Some(low), high.filter(|_| !told.carbon_is_bound)]),
        notes: (told.findings.iter()).filter(|f| f.outcome != Outcome::Met).filter_map(|f| f.message.clone()).collect(),
        not_used: told.refused.clone(),
        ..Tracers::default()
    };
    out.beside = (told.histories.iter())
        .map(|h| {
            let (region, source) = (h.region.as_str().into(), h.source.as_str().into());
            said::HistoryUsed { tracer: limits::claim::tracer_sign(h.tracer.sign()).into(), region, source }.into()
        })
        .chain(beside_every_age().into_iter().filter(|m| !m.is::<said::NoProof>()))
        .collect();
    let Some((setting, sample)) = ready else { return Ok(Some(out)) };
    let signs = |all: &mut dyn Iterator<Item = Tracer>| all.map(|t| t.sign().to_string()).collect();
    out.by = signs(&mut sample.observations.iter().map(|o| o.measured.tracer));
    let on_one_side = sample
        .observations
        .iter()
        .filter(|o| o.side != Side::Both || matches!(o.measured.level, Level::Below { .. }) || !o.measured.detected());
    out.one_sided = signs(&mut on_one_side.map(|o| o.measured.tracer));
    match Tables::new(&setting) {
        Ok(tables) => shares(&tables, &sample, years, &mut out),
        Err(why) => out.not_used.push(why.said()),
    }
    Ok(Some(out))
}

/// The share of each model that stands, over the band of carbon-14 and at both of its ends.
fn shares(tables: &Tables, sample: &Sample, years: f64, out: &mut Tracers) {
    let flat = match fit(tables, sample) {
        Ok(fitted) => fitted,
        Err(why) => {
            out.not_used.push(why.said());
            return;
        }
    };
    if standing_models(&flat).is_empty() {
        let says: Vec<Message> = findings(&flat).into_iter().filter_map(|f| f.message).collect();
        out.notes.extend(says);
        return;
    }
    widen(&mut out.models, &flat, tables, years);
    // A model that gives the values from no such start says nothing of it.
    for end in ends(sample) {
        match fit_supposed(tables, &Sample { a0: Some((end, end)), ..sample.clone() }) {
            Ok(fitted) => widen(&mut out.models, &fitted, tables, years),
            Err(_) => out.carbon_not_in_full = true,
        }
    }
}

/// The ends of the band of A0, F14C; none without carbon-14, and none of a band without width. Water that has lost nothing
/// has what it began with: a start below what was measured is none.
fn ends(sample: &Sample) -> Vec<f64> {
    let carbon = sample.observations.iter().find(|o| o.measured.tracer == Tracer::Carbon14);
    let Some(((low, high), carbon)) = sample.a0.zip(carbon) else { return vec![] };
    let low = match carbon.measured.level {
        Level::Value { value, .. } => low.max(value).min(high),
        Level::Below { .. } => low,
    };
    if low < high { vec![low, high] } else { vec![high] }
}

/// Takes in what each model that stands says, where it is wider.
fn widen(models: &mut Vec<AgeModel>, fitted: &Fit, tables: &Tables, years: f64) {
    for m in standing_models(fitted) {
        let (low, high) = younger_bounds(m, tables, years);
        let (model, tested) = (m.kind.name(), matches!(m.tested, Tested::ChiSquared { .. }));
        match models.iter_mut().find(|k| k.model == model) {
            Some(known) => known.younger = [known.younger[0].min(low), known.younger[1].max(high)],
            None => models.push(AgeModel { model: model.into(), younger: [low, high], tested }),
        }
    }
}
