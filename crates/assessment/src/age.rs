//! How old is the water of a well, and where did it fall: what its tracers on record say together.
//!
//! In: rows of `tracer`, `input_history` and `recharge_fact`, the chemistry of the same well, the way of the water by Darcy
//! ([`crate::wells`]). Out: a [`WellAge`] a well that has tracers: answers with their standing, ranges of ages by each
//! model, what tritium and carbon-14 say alone, three readings of one δ, agreement with Darcy, which tracer next for the
//! prices that the person gave. The sciences answer (`aquifer::age`); here is only who meets whom. What cannot be used is
//! told with its reason and the rest goes on: no row of a tracer stops a programme.
//!
//! Worked out when asked for, never kept in the record; the same record gives the same answer. Checked in
//! `crates/programme/tests/tracers.rs`.

mod gather;
mod origin;
mod sentence;

pub use gather::{Seen, UsedHistory};
pub use origin::Origin;
pub use sentence::{Leans, LeansOn, leans, of_sentence};

use crate::wells::{self, Travel};
use aquifer::Reason;
use aquifer::age::carbon14::CarbonAge;
use aquifer::age::curves;
use aquifer::age::fit::{DRAWS, Fit, ModelFit};
use aquifer::age::gases::Redox;
use aquifer::age::next::{Candidate, Ranking, rank};
use aquifer::age::tables::Setting;
use aquifer::age::tritium::{Class, Classified, classify};
use aquifer::age::verdict::{Question, Standing, Union, Verdict, against_darcy, findings, union, verdict};
use aquifer::age::{History, Kind, Level, Measured, Observation, Sample, Spread, Tables, Tracer, fit};
use aquifer::travel::{Draws, Path, travel_time_draws};
use gather::{Known, Site};
use message::{Message, Shown, age as said, well_age as told};
use quantity::{Check, Finding, Outcome};
use record::error::Error;
use record::store::Store;
use record::words::RechargeFact;

/// One model, ready to be shown: its test, its ages, how likely each is.
#[derive(Debug, Clone, PartialEq)]
pub struct ModelShown {
    /// Which.
    pub kind: Kind,
    /// Whether the tracers reject it.
    pub rejected: bool,
    /// Whether it was tested at all.
    pub tested: bool,
    /// Its share of the evidence, 0 to 1.
    pub weight: f64,
    /// The 95 % of highest density of T, years.
    pub ranges_years: Vec<(f64, f64)>,
    /// Share that fell since 1953.
    pub young: Spread,
    /// How likely each age is: years, share of the most likely one.
    pub density: Vec<(f64, f64)>,
}

/// What the tracers of a well say.
#[derive(Debug, Clone, PartialEq)]
pub struct WellAge {
    /// The well.
    pub well: String,
    /// Day of sampling, ISO 8601: the newest of its tracers.
    pub day: String,
    /// The same as a decimal year.
    pub year: f64,
    /// Tracers as they were measured.
    pub seen: Vec<Seen>,
    /// Histories that the answers rest on.
    pub histories: Vec<UsedHistory>,
    /// The answers; empty where nothing could be fitted.
    pub verdicts: Vec<Verdict>,
    /// Ranges over the models that are not rejected.
    pub union: Option<Union>,
    /// Each model.
    pub models: Vec<ModelShown>,
    /// What tritium says alone.
    pub tritium: Option<Classified>,
    /// The value of tritium that was used, TU.
    pub tritium_measured: Option<Measured>,
    /// Rain of each year as it would be today: years before the sample, TU decayed to the day of sampling.
    pub rain: Vec<(f64, f64)>,
    /// What carbon-14 says alone.
    pub carbon: Option<CarbonAge>,
    /// Whether carbon-14 was only bounded: then the band has no upper end.
    pub carbon_is_bound: bool,
    /// What stable isotopes say.
    pub origin: Option<Origin>,
    /// Beside the travel time by Darcy.
    pub darcy: Option<Finding>,
    /// That travel time, years: 2.5 % and 97.5 %.
    pub darcy_years: Option<(f64, f64)>,
    /// Which tracer next; none without prices, or where every question is decided.
    pub next: Option<Ranking>,
    /// What is to be seen beside the numbers.
    pub findings: Vec<Finding>,
    /// Why something was not used or not answered.
    pub refused: Vec<Message>,
}

impl WellAge {
    /// The answer to a question.
    pub fn answer(&self, question: Question) -> Option<&Verdict> {
        self.verdicts.iter().find(|v| v.question == question)
    }
}

/// Whether the record has a tracer of any well.
///
/// # Errors
/// The store cannot be read.
pub fn any(store: &Store) -> Result<bool, Error> {
    Ok(!store.tracers()?.is_empty())
}

/// What the tracers of one well say; none where none was measured.
///
/// # Errors
/// The store cannot be read.
pub fn of_well(store: &Store, well: &str) -> Result<Option<WellAge>, Error> {
    Ok(of_wells(store, &[well])?.pop())
}

/// The same of several wells, in their order; those without tracers are left out.
///
/// # Errors
/// The store cannot be read.
pub fn of_wells(store: &Store, wells: &[&str]) -> Result<Vec<WellAge>, Error> {
    let site = Site::of(store)?;
    let mut tables = Kept::default();
    let mut out = vec![];
    for name in wells {
        let Some(known) = site.known(store, name)? else { continue };
        let travel = wells::sheet(store, name, usize::MAX)?
            .and_then(|sheet| sheet.visits.into_iter().rev().find_map(|v| v.travel));
        out.push(answered(known, travel.as_ref(), &mut tables));
    }
    Ok(out)
}

/// Tables of models, made once for a day of sampling and its histories.
#[derive(Default)]
struct Kept(Vec<(Setting, Result<Tables, Reason>)>);

impl Kept {
    fn of(&mut self, setting: Setting) -> &Result<Tables, Reason> {
        let at = self.0.iter().position(|(s, _)| *s == setting).unwrap_or_else(|| {
            let made = Tables::new(&setting);
            self.0.push((setting, made));
            self.0.len() - 1
        });
        &self.0[at].1
    }
}

/// Everything that can be said of what is known.
fn answered(mut known: Known, travel: Option<&Travel>, tables: &mut Kept) -> WellAge {
    let (mut out, ready) = begun(&mut known, travel);
    let Some((setting, sample)) = ready else { return out };
    let fitted = tables.of(setting).as_ref().map_err(Clone::clone).and_then(|t| Ok((fit(t, &sample)?, t)));
    match fitted {
        Ok((fitted, tables)) => together(&known, &fitted, tables, &sample, travel, &mut out),
        Err(why) => out.refused.push(why.said()),
    }
    out
}

/// What each tracer says alone, and what a fit of all of them takes; no fit where nothing can be used.
fn begun(known: &mut Known, travel: Option<&Travel>) -> (WellAge, Option<(Setting, Sample)>) {
    let mut out = WellAge {
        well: known.well.clone(),
        day: known.day.clone(),
        year: known.year,
        seen: std::mem::take(&mut known.seen),
        histories: vec![],
        verdicts: vec![],
        union: None,
        models: vec![],
        tritium: None,
        tritium_measured: None,
        rain: vec![],
        carbon: None,
        carbon_is_bound: false,
        origin: None,
        darcy: None,
        darcy_years: travel.map(|t| (t.years.percentiles.low_95, t.years.percentiles.high_95)),
        next: None,
        findings: std::mem::take(&mut known.findings),
        refused: std::mem::take(&mut known.refused),
    };
    if let Some(zone) = known.fact(RechargeFact::DryZone).filter(|z| z.value > DRY_ZONE_M) {
        let thickness = Shown::significant(zone.value, 2, "m");
        out.findings.push(Finding::new(Check::AquiferAge, Outcome::NotMet, said::DryZone { thickness }));
    }
    tritium(known, &mut out);
    let a0 = carbon(known, &mut out);
    match origin::of(known) {
        Ok(origin) => out.origin = origin,
        Err(why) => out.refused.push(why.said()),
    }
    let observations = known.observations(a0, &mut out.refused);
    let used = |h: &&History| observations.iter().any(|o| o.measured.tracer == h.tracer);
    let histories: Vec<History> = known.histories.iter().filter(used).cloned().collect();
    out.histories = known.used.iter().filter(|u| histories.iter().any(|h| h.tracer == u.tracer)).cloned().collect();
    out.findings.extend(histories.iter().flat_map(|h| h.findings(known.year)));
    if observations.is_empty() {
        return (out, None);
    }
    let setting = Setting {
        sampled_year: known.year,
        // Candidates for the next measurement need their histories in the tables as well.
        histories: known.histories.clone(),
        screen: None,
        kinds: Kind::ALL.to_vec(),
    };
    let sample = Sample {
        observations,
        recharge: known.recharge,
        a0: a0.map(|a| (a.a0_low, a.a0_high)),
        draws: DRAWS,
        seed: SEED,
    };
    (out, Some((setting, sample)))
}

/// Dry zone from which on clocks differ, m (from memory).
const DRY_ZONE_M: f64 = 10.0;

/// The same draws each time.
const SEED: u64 = 1;

fn tritium(known: &Known, out: &mut WellAge) {
    let Some(m) = known.measured.iter().find(|m| m.tracer == Tracer::Tritium) else { return };
    out.tritium_measured = Some(m.clone());
    let Some(h) = known.history(Tracer::Tritium) else { return };
    match classify(m, h) {
        Ok(class) => {
            out.findings.push(class.finding.clone());
            out.tritium = Some(class);
            out.rain = curves::rain_today(h, known.year);
        }
        Err(why) => out.refused.push(why.said()),
    }
}

/// What carbon-14 says, and the band of A0 for the fit.
fn carbon(known: &Known, out: &mut WellAge) -> Option<aquifer::age::Carbon14> {
    let (carbon, bound) = match &known.carbon {
        None => return None,
        Some(Err(why)) => {
            out.refused.push(why.clone());
            return None;
        }
        Some(Ok(c)) => c,
    };
    match aquifer::age::carbon14::age(carbon) {
        Ok(age) => {
            let start = age.with_start();
            out.carbon_is_bound = *bound;
            out.carbon = Some(age);
            start
        }
        Err(why) => {
            out.refused.push(why.said());
            None
        }
    }
}

/// The fit and what follows from it.
fn together(known: &Known, fitted: &Fit, tables: &Tables, sample: &Sample, travel: Option<&Travel>, out: &mut WellAge) {
    out.findings.extend(findings(fitted));
    out.verdicts = Question::ALL.map(|q| verdict(fitted, q)).to_vec();
    needs_tritium(out);
    out.union = union(fitted);
    out.models = fitted.models.iter().map(shown).collect();
    // Where no model stands there is no answer either.
    if out.union.is_none() {
        out.verdicts.clear();
        return;
    }
    if let Some(path) = travel.and_then(path) {
        match travel_time_draws(&path, Draws::default()) {
            Ok(years) => out.darcy = Some(against_darcy(fitted, &years)),
            Err(why) => out.refused.push(why.said()),
        }
    }
    out.next = next(known, fitted, tables, sample, &out.verdicts, &mut out.refused);
}

/// "Before the bomb tests" is never said without a value of tritium that could have seen what decides.
fn needs_tritium(out: &mut WellAge) {
    let could_see = out.tritium.as_ref().is_some_and(|t| t.class != Class::TooCoarse);
    let of_bomb = out.verdicts.iter_mut().find(|v| v.question == Question::BeforeBomb && v.answer == Some(true));
    if let Some(v) = of_bomb.filter(|_| !could_see) {
        let finding = Finding::new(Check::AquiferAge, Outcome::NotKnown, told::BeforeNeedsTritium);
        (v.standing, v.answer, v.finding) = (Standing::CannotTell, None, finding.clone());
        out.findings.push(finding);
    }
}

/// The way of the water, by the inputs that the travel time rests on.
fn path(t: &Travel) -> Option<Path> {
    let [distance, gradient, conductivity, porosity] = &t.inputs[..] else { return None };
    Some(Path {
        distance_m: distance.known,
        gradient: gradient.known,
        conductivity_m_s: conductivity.known,
        porosity: porosity.known,
    })
}

fn shown(m: &ModelFit) -> ModelShown {
    ModelShown {
        kind: m.kind,
        rejected: m.rejected,
        tested: matches!(m.tested, aquifer::age::fit::Tested::ChiSquared { .. }),
        weight: m.weight,
        ranges_years: m.ranges_years.clone(),
        young: m.young,
        density: curves::density(m),
    }
}

/// Which tracer next, for the first question that is not decided (a likely answer is still open); only where the person
/// gave prices.
fn next(
    known: &Known,
    fitted: &Fit,
    tables: &Tables,
    sample: &Sample,
    verdicts: &[Verdict],
    refused: &mut Vec<Message>,
) -> Option<Ranking> {
    let open = verdicts.iter().find(|v| v.standing != Standing::Decided)?.question;
    let candidates: Vec<Candidate> =
        known.prices.iter().filter_map(|(t, price)| candidate(known, *t, *price)).collect();
    if candidates.is_empty() {
        return None;
    }
    rank(fitted, tables, sample, &candidates, open).map_err(|why| refused.push(why.said())).ok()
}

/// A tracer that could be measured, with what a good laboratory gives of it.
// u: the programme's own choice (a share of the value, and a floor in the unit of the tracer).
fn candidate(known: &Known, tracer: Tracer, price: f64) -> Option<Candidate> {
    let had = known.measured.iter().any(|m| m.tracer == tracer);
    let has_history = match tracer {
        Tracer::Helium3 => known.history(Tracer::Tritium).is_some(),
        Tracer::Carbon14 => true,
        t => known.history(t).is_some(),
    };
    let airless = tracer == Tracer::Sf6 && known.recharge.is_none_or(|r| r.excess_air_cm3_kg.is_none());
    if had || !has_history || airless || (tracer.is_gas() && known.recharge.is_none()) {
        return None;
    }
    let (relative_u, least_u) = match tracer {
        Tracer::Tritium => (0.03, 0.05),
        Tracer::Helium3 => (0.04, 0.5),
        Tracer::Sf6 => (0.05, 0.05),
        Tracer::Cfc11 | Tracer::Cfc12 | Tracer::Cfc113 => (0.03, 5.0),
        Tracer::Carbon14 => (0.005, 0.002),
    };
    let spoilt = if is_cfc(tracer) && !is_oxic(&known.redox) { 1.0 } else { 0.1 };
    Some(Candidate { tracer, relative_u, least_u, spoilt, price })
}

fn is_cfc(tracer: Tracer) -> bool {
    matches!(tracer, Tracer::Cfc11 | Tracer::Cfc12 | Tracer::Cfc113)
}

/// Whether a CFC can be read in this water.
fn is_oxic(redox: &Redox) -> bool {
    aquifer::age::gases::admitted(Tracer::Cfc11, redox).1.is_none()
}

/// Whether a finding speaks against something: what was to be looked at.
pub fn is_against(f: &Finding) -> bool {
    f.outcome == Outcome::NotMet
}

/// What stands beside every age: the prior, the half-lives, that an age proves nothing of purity.
pub fn beside_every_age() -> Vec<Message> {
    use aquifer::age::tables::{AGES, decay_of};
    let years = |x: f64| Shown::as_given(x, "a");
    let carbon = std::f64::consts::LN_2 / decay_of(Tracer::Carbon14);
    let tritium = Shown::significant(aquifer::age::tritium::half_life_years(), 5, "a");
    vec![
        said::Prior { low: years(AGES.0), high: years(AGES.1) }.into(),
        said::HalfLives { tritium, carbon: Shown::significant(carbon, 4, "a") }.into(),
        said::NoProof.into(),
    ]
}

/// A tracer in the fit: a value on both sides, or on one.
fn observed(measured: Measured, side: aquifer::age::Side) -> Observation {
    // A bound already tells one side.
    let side = if matches!(measured.level, Level::Below { .. }) { aquifer::age::Side::Both } else { side };
    Observation { measured, side }
}
