//! The value of a well on a day, as an interface shows it: one common value of its bottles, never one of them.
//!
//! In: what [`crate::same_water`] says of each water, the results on record with their verdicts. Out: for each well,
//! trip and day, element with isotopes and resolution, fraction and air a [`WellValue`]: the value with its interval and
//! what the bottles share of it, or an upper bound, or none where they disagree; the bottles in it with their weights;
//! those that are not and why; the same with everything put back; its derivation. A bottle that is rejected for another
//! reason than the scatter among its like (a broken seal) is not in the value; the verdict is the worst of those that
//! are. Values that a laboratory reported without counts have none: what they share is not known.
//! Checked in `crates/programme/tests/same_water.rs`.

use crate::attribution::RunPair;
use crate::derive;
use crate::put_back::PutBack;
use crate::results::{Listed, TAKEN_OUT, bound_beside, coverage_k};
use crate::same_water::{Answer, Common, Seen, Water, Waters};
use measurement::run::Analyte;
use message::{Arg, Digits, Message, Share, Shown, Spoken, well_value as said};
use quantity::{Amount, Check, Derivation, Measured};
use record::error::Error;
use record::identity::ResultId;
use record::model::{Bears, VerdictWord};
use record::store::{Filter, Store};
use serde::Serialize;
use std::collections::{BTreeSet, HashMap, HashSet};

/// A bottle that the value of a well speaks of.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Part {
    /// Its result, where one is on record.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub result: Option<ResultId>,
    /// Its label.
    pub bottle: String,
    /// What may be said of the water in it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amount: Option<Amount>,
    /// What was found in it, where that is only a bound.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub found: Option<Amount>,
    /// Its weight in the common value; none for one that is not in it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub weight: Option<f64>,
    /// The checks because of which it is not in the value.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub because: Vec<String>,
    /// What the field said of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// What a well may be said to hold.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "told")]
pub enum Told {
    /// A value.
    Value {
        /// The value, with u and degrees of freedom.
        amount: Amount,
        /// Coverage factor of its 95 % interval.
        coverage_k: f64,
        /// Ends of that interval.
        interval: [f64; 2],
    },
    /// Not detected, or found with the metal of a stage that no blank met.
    AtMost {
        /// The bound.
        amount: Amount,
        /// What was found; none where nothing was.
        #[serde(skip_serializing_if = "Option::is_none")]
        found: Option<Amount>,
    },
    /// The bottles disagree: no number.
    NoNumber,
}

/// The value of a well.
#[derive(Debug, Clone, Serialize)]
pub struct WellValue {
    /// Well, trip, day, fraction, air.
    #[serde(flatten)]
    pub water: Water,
    /// Element.
    pub analyte: String,
    /// Isotopes.
    pub isotopes: String,
    /// Mass resolution.
    pub resolution: String,
    /// What may be said.
    #[serde(flatten)]
    pub told: Told,
    /// The part of its u that the bottles share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u_shared: Option<f64>,
    /// Bottles in it; where they disagree, those that do.
    pub bottles: Vec<Part>,
    /// Bottles that are not in it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub left_out: Vec<Part>,
    /// The verdict: the worst of the bottles in it.
    pub verdict: Option<VerdictWord>,
    /// Checks that decided it.
    pub reasons: Vec<String>,
    /// A profile of checks that gave the verdict to a bottle in it; none: the programme's table alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub profile: Option<String>,
    /// The same with everything put back that a person took out; none where nothing was.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub put_back: Option<Told>,
    /// The values of bottles that disagree with everything put back.
    #[serde(skip)]
    back_values: Vec<Part>,
    /// How it came to be; empty where there is no value.
    pub derivation: Derivation,
    /// The common value itself, for what two of them share.
    #[serde(skip)]
    pub common: Option<Common>,
}

/// The values of all wells of a programme, by well, trip, day, fraction and element.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<Vec<WellValue>, Error> {
    let reduced = derive::reduce_all(store)?;
    let pairs: Vec<RunPair> = reduced.runs.iter().map(|(p, r)| (p, r)).collect();
    of_runs(store, &pairs, &measured(store, &pairs)?)
}

/// The results of bottles in runs, and no others: decades of reported results cost nothing.
///
/// # Errors
/// The store cannot be read.
pub fn measured(store: &Store, runs: &[RunPair]) -> Result<Vec<Listed>, Error> {
    let bottles: BTreeSet<i64> = runs.iter().flat_map(|(p, _)| p.vials().iter().filter_map(|v| v.bottle_id)).collect();
    let mut listed = vec![];
    crate::results::each_of(store, &bottles.into_iter().collect::<Vec<_>>(), |r| listed.push(r))?;
    Ok(listed)
}

/// The values of one well: only runs that hold bottles of it are reduced, and only results of bottles in them are read,
/// so that decades of reported results cost nothing. Runs that cannot be reduced say nothing.
///
/// # Errors
/// The store cannot be read.
pub fn of_well(store: &Store, well: &str) -> Result<Vec<WellValue>, Error> {
    let bottles = store.bottles(&Filter::all().is("well.name", well))?;
    let of_well: HashSet<i64> = bottles.iter().map(|b| b.id).collect();
    let (mut reduced, mut measured) = (vec![], BTreeSet::new());
    for run in store.runs()? {
        let vials = store.vials(run.id)?;
        let here: Vec<i64> = vials.iter().filter_map(|v| v.bottle_id).filter(|b| of_well.contains(b)).collect();
        if here.is_empty() {
            continue;
        }
        match derive::prepare(store, run).and_then(|p| derive::reduce(&p).map(|r| (p, r))) {
            Ok(run) => reduced.push(run),
            Err(e) if derive::of_one_run(&e) => continue,
            Err(e) => return Err(e),
        }
        measured.extend(here);
    }
    let mut rows = vec![];
    for bottle in measured {
        rows.extend(store.results(&Filter::all().is("bottle", bottle).latest())?.into_iter().map(|r| r.id));
    }
    let pairs: Vec<RunPair> = reduced.iter().map(|(p, r)| (p, r)).collect();
    let mut all = of_runs(store, &pairs, &crate::results::listed(store, &rows)?)?;
    all.retain(|w| w.water.well.as_deref() == Some(well));
    Ok(all)
}

/// The same from runs that were reduced already.
///
/// # Errors
/// The store cannot be read.
pub fn of_runs(store: &Store, runs: &[RunPair], listed: &[Listed]) -> Result<Vec<WellValue>, Error> {
    let back = PutBack::of(store, runs)?;
    let waters = Waters::of(store, runs, &back)?;
    Ok(of(&waters, listed))
}

/// The same from waters that are known already.
pub fn of(waters: &Waters, listed: &[Listed]) -> Vec<WellValue> {
    let results = Results::of(listed);
    let well = |(water, _): &(&Water, Analyte)| water.well.is_some();
    waters.all().into_iter().filter(well).filter_map(|(water, a)| one(waters, &results, water, &a)).collect()
}

/// The results on record, by bottle, element, isotopes and resolution.
struct Results<'a>(HashMap<(&'a str, &'a str, &'a str, &'a str), &'a Listed>);

impl<'a> Results<'a> {
    fn of(listed: &'a [Listed]) -> Self {
        let key = |r: &'a Listed| (r.bottle.as_str(), r.analyte.as_str(), r.isotopes.as_str(), r.resolution.as_str());
        Self(listed.iter().map(|r| (key(r), r)).collect())
    }

    fn get(&self, bottle: &str, a: &Analyte) -> Option<&'a Listed> {
        self.0.get(&(bottle, a.element.as_str(), a.isotopes.as_str(), a.resolution.as_str())).copied()
    }

    /// Checks because of which a bottle is rejected, but for the scatter among its like and for having been taken out:
    /// one that is out stands in no run, and put back it is looked at as any other.
    fn rejected(&self, bottle: &str, a: &Analyte) -> Vec<String> {
        let Some(r) = self.get(bottle, a).filter(|r| r.verdict == Some(VerdictWord::Rejected)) else { return vec![] };
        let other = |c: &&String| ![Check::NumberDuplicates.text(), TAKEN_OUT.text()].contains(&c.as_str());
        r.reasons.iter().filter(other).cloned().collect()
    }

    fn part(&self, bottle: &str, a: &Analyte, net: Option<&Measured>, weight: Option<f64>) -> Part {
        let r = self.get(bottle, a);
        let found = net.map(|net| Amount::Measured(net.clone()));
        // What was found with the metal of a stage that no blank met is a bound on the water, here as in its result.
        let bound = r.filter(|r| r.bears == Bears::AtMost).and_then(|r| r.amount.clone());
        Part {
            result: r.map(|r| r.result.clone()),
            bottle: bottle.into(),
            amount: bound.clone().or_else(|| found.clone()).or_else(|| r?.amount.clone()),
            found: found.filter(|_| bound.is_some()),
            weight,
            because: vec![],
            note: r.and_then(|r| r.note.clone()),
        }
    }
}

fn one(waters: &Waters, results: &Results, water: &Water, a: &Analyte) -> Option<WellValue> {
    let (now, back) = (waters.now(), waters.with_all_back());
    let take = |b: &record::model::Bottle| results.rejected(&b.label, a).is_empty();
    let out = now.taken_out(water, a);
    let left_out = || {
        let rejected = now.members(water, a).into_iter().filter(|m| !take(m.bottle)).map(|m| {
            let because = results.rejected(&m.bottle.label, a);
            Part { because, ..results.part(&m.bottle.label, a, Some(&m.result.net), None) }
        });
        let taken = out.iter().map(|o| {
            let part = results.part(&o.bottle.label, a, o.net.as_ref(), None);
            Part { because: vec![TAKEN_OUT.text().into()], note: o.bottle.note.clone(), ..part }
        });
        rejected.chain(taken).collect::<Vec<Part>>()
    };
    // Where no bottle is sound, what was found in them is told all the same, under its verdict.
    let answer = now.common(water, a, take).or_else(|| now.common(water, a, |_| true))?;
    let (told, bottles, common) = told(results, a, answer);
    let with = back.common(water, a, take).map(|answer| self::told(results, a, answer));
    let with = with.filter(|(with, ..)| *with != told);
    let in_it: Vec<&Listed> = bottles.iter().filter_map(|b| results.get(&b.bottle, a)).collect();
    let verdict = in_it.iter().filter_map(|r| r.verdict).max();
    let profile = in_it.iter().filter(|r| r.verdict == verdict).find_map(|r| r.profile.clone());
    let mut reasons: Vec<String> = vec![];
    for reason in in_it.iter().filter(|r| r.verdict == verdict).flat_map(|r| &r.reasons) {
        if !reasons.contains(reason) {
            reasons.push(reason.clone());
        }
    }
    let mut left_out = left_out();
    left_out.retain(|p| bottles.iter().all(|b| b.bottle != p.bottle));
    Some(WellValue {
        derivation: common.as_ref().map(|c| derivation(&now, c, water, a)).unwrap_or_default(),
        u_shared: common.as_ref().map(|c| c.u_shared),
        water: water.clone(),
        analyte: a.element.clone(),
        isotopes: a.isotopes.clone(),
        resolution: a.resolution.clone(),
        put_back: with.as_ref().map(|w| w.0.clone()),
        back_values: with.map(|w| w.1).unwrap_or_default(),
        told,
        bottles,
        left_out,
        verdict,
        reasons,
        profile,
        common,
    })
}

fn told(results: &Results, a: &Analyte, answer: Answer) -> (Told, Vec<Part>, Option<Common>) {
    let parts = |c: &Common| c.terms.iter().map(|(label, _, w)| results.part(label, a, None, Some(*w))).collect();
    match answer {
        Answer::Value(c) => {
            let k = coverage_k(c.value.dof);
            let interval = [c.value.value - k * c.value.u, c.value.value + k * c.value.u];
            let amount = Amount::Measured(c.value.clone());
            (Told::Value { amount, coverage_k: k, interval }, parts(&c), Some(c))
        }
        Answer::AtMost { most, common: c, found } => {
            let amount = Amount::below(most, c.value.unit.clone());
            let found = found.then(|| Amount::Measured(c.value.clone()));
            (Told::AtMost { amount, found }, parts(&c), Some(c))
        }
        Answer::Apart(values) => {
            let part = |(label, net, out): &(String, Measured, bool)| {
                let because = if *out { vec![TAKEN_OUT.text().into()] } else { vec![] };
                Part { because, ..results.part(label, a, Some(net), None) }
            };
            (Told::NoNumber, values.iter().map(part).collect(), None)
        }
    }
}

/// The bottles, what they share, and the value.
fn derivation(seen: &Seen, c: &Common, water: &Water, a: &Analyte) -> Derivation {
    let mut d = Derivation::new(said::Method, &["JCGM 100:2008, 5.2", "Birge 1932, Phys. Rev. 40:207"]);
    let mut inputs = vec![];
    for m in seen.members(water, a) {
        let Some((_, _, weight)) = c.terms.iter().find(|(label, ..)| *label == m.bottle.label) else { continue };
        let weight = Share::new(*weight, Digits::Significant(3));
        let name = said::Net { bottle: m.bottle.label.as_str().into(), weight };
        inputs.push(d.given(name, Amount::Measured(m.result.net.clone()), said::CaseOfBottle));
    }
    let shared = Amount::stated(c.u_shared, c.value.unit.clone());
    inputs.push(d.step(said::Shared, shared, said::SharedStep, "JCGM 100:2008, 5.2.2", &inputs.clone()));
    let well = water.well.as_deref().unwrap_or_default();
    let name = said::Value { element: a.element.as_str().into(), well: well.into() };
    let value = Amount::Measured(c.value.clone());
    if c.widening > 1.0 {
        let step = said::Widened { factor: Shown::significant(c.widening, 3, "") };
        d.step(name, value, step, "Birge 1932, Phys. Rev. 40:207", &inputs);
    } else {
        d.step(name, value, "Σ w·c", "JCGM 100:2008, 5.2.2", &inputs);
    }
    d.budget.clone_from(&c.budget);
    d
}

impl WellValue {
    /// What it says in one sentence; `element` as it is called.
    pub fn sentence(&self, element: &str) -> Message {
        let element = || message::Name::from(element);
        let well = || message::Name::from(self.water.well.clone().unwrap_or_default());
        let day = || message::Date::from(self.water.day.clone());
        let fraction = || Message::from(message::run::Fraction { fraction: self.water.fraction.as_str().into() });
        let labels = || self.bottles.iter().map(|b| Arg::Name(b.bottle.as_str().into())).collect::<Vec<Arg>>();
        let mut says: Message = match &self.told {
            Told::Value { amount, coverage_k, interval } => {
                let amount = amount.shown(*coverage_k);
                let [low, high] = interval.map(|x| Shown::new(x, amount.digits, ""));
                let (element, well, fraction, day) = (element(), well(), fraction(), day());
                if let [one] = &self.bottles[..] {
                    let bottle = one.bottle.as_str().into();
                    said::OneBottle { element, well, fraction, day, amount, low, high, bottle }.into()
                } else {
                    let bottles = labels();
                    said::Common { element, well, fraction, day, amount, low, high, bottles }.into()
                }
            }
            Told::AtMost { amount, found } => {
                let (element, well, fraction, day) = (element(), well(), fraction(), day());
                match bound_and_found(amount, found.as_ref()) {
                    Some(bound) => said::Bound { element, well, fraction, day, bound, bottles: labels() }.into(),
                    None => {
                        said::AtMost { element, well, fraction, day, bound: bound(amount), bottles: labels() }.into()
                    }
                }
            }
            Told::NoNumber => {
                let values = values(&self.bottles);
                let (element, well, fraction, day) = (element(), well(), fraction(), day());
                said::Apart { element, well, fraction, day, values }.into()
            }
        };
        for part in self.bottles.iter().filter(|_| self.told == Told::NoNumber).chain(&self.left_out) {
            if let Some(note) = &part.note {
                let bottle = part.bottle.as_str().into();
                says = message::verdict::WithNote { finding: says, bottle, note: note.as_str().into() }.into();
            }
        }
        if !self.left_out.is_empty() {
            let one = |p: &Part| -> Arg {
                let (bottle, checks) = (p.bottle.as_str().into(), p.because.join(", ").into());
                Message::from(said::BottleAndChecks { bottle, checks }).into()
            };
            says = said::LeftOut { found: says, bottles: self.left_out.iter().map(one).collect() }.into();
        }
        match &self.put_back {
            None => says,
            Some(Told::Value { amount, coverage_k, .. }) => {
                said::With { found: says, amount: amount.shown(*coverage_k) }.into()
            }
            Some(Told::AtMost { amount, .. }) => said::WithBound { found: says, bound: bound(amount) }.into(),
            Some(Told::NoNumber) => said::WithNoNumber { found: says, values: values(&self.back_values) }.into(),
        }
    }

    /// The number alone: `44.2 ± 1.1 ng/L`, `< 0.02 ng/L`, `at most 2.75 ng/L`, or the values of bottles that disagree.
    pub fn number(&self) -> String {
        number(&self.told, &self.bottles)
    }

    /// A bound on what was found, in words and without its unit: `at most 2.75`; none for a value and for nothing found.
    pub fn bound(&self) -> Option<String> {
        let Told::AtMost { amount, found: Some(found) } = &self.told else { return None };
        bound_in_words(amount, found)
    }

    /// The same with everything put back; none where nothing changes.
    pub fn number_with_all_back(&self) -> Option<String> {
        self.put_back.as_ref().map(|told| number(told, &self.back_values))
    }

    /// Element, isotopes and resolution.
    pub fn is_of(&self, element: &str, isotopes: &str, resolution: &str) -> bool {
        (self.analyte.as_str(), self.isotopes.as_str(), self.resolution.as_str()) == (element, isotopes, resolution)
    }
}

impl Part {
    /// A bound on what was found in it, as [`WellValue::bound`].
    pub fn bound(&self) -> Option<String> {
        bound_in_words(self.amount.as_ref()?, self.found.as_ref()?)
    }
}

fn bound_in_words(amount: &Amount, found: &Amount) -> Option<String> {
    let (bound, _) = beside(amount, found)?;
    let limit = Shown { unit: String::new(), ..bound }.text();
    Some(message::path::AtMost { limit: limit.into() }.text())
}

fn number(told: &Told, parts: &[Part]) -> String {
    match told {
        Told::Value { amount, coverage_k, .. } => amount.shown(*coverage_k).said(message::language()),
        Told::AtMost { amount, found: None } => amount.shown(2.0).said(message::language()),
        Told::AtMost { amount, found: Some(found) } => {
            let limit = beside(amount, found).map_or_else(String::new, |(bound, _)| bound.text());
            message::path::AtMost { limit: limit.into() }.text()
        }
        Told::NoNumber => Arg::from(values(parts)).in_language(message::language()),
    }
}

fn bound(amount: &Amount) -> Shown {
    let limit = if let Amount::Below(b) = amount { b.limit } else { f64::NAN };
    Shown::bound(limit, amount.unit().to_string())
}

/// `at most 2.75 ng/L (2.67 ng/L found, …)`; none where nothing was found.
fn bound_and_found(amount: &Amount, found: Option<&Amount>) -> Option<Message> {
    let (bound, value) = beside(amount, found?)?;
    Some(message::share::AtMost { bound, value }.into())
}

/// The bound and what was found.
fn beside(amount: &Amount, found: &Amount) -> Option<(Shown, Shown)> {
    let Amount::Below(b) = amount else { return None };
    Some(bound_beside(b.limit, found.value()?, &b.unit))
}

/// Values of bottles, each with its label.
fn values(parts: &[Part]) -> Vec<Arg> {
    let one = |p: &Part| -> Option<Arg> {
        let amount = p.amount.as_ref()?;
        let k = if let Amount::Measured(m) = amount { coverage_k(m.dof) } else { 2.0 };
        let (bottle, shown) = (p.bottle.as_str().into(), amount.shown(k));
        let of_bottle: Message = match p.found.as_ref().and_then(|found| beside(amount, found)) {
            Some((bound, value)) => said::BoundOfBottle { bottle, bound, value }.into(),
            None => said::OfBottle { bottle, amount: shown }.into(),
        };
        Some(of_bottle.into())
    };
    parts.iter().filter_map(one).collect()
}
