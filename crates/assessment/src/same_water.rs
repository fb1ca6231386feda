//! Which bottles hold one water, whether they agree, and what their common value is.
//!
//! One water is: one well, one trip and day, one fraction, one air (the cabinet or the open air); whoever is called the
//! duplicate of whom plays no part, but for bottles of no well, which only their sample joins. Bottles of a fill, flow or
//! training series are not compared: they differ on purpose. A bottle is seen as the newest run measured it; bottles of
//! different runs are compared as independent, so that a stock which both runs share makes u too large and a difference
//! is missed rather than invented.
//!
//! In: reduced runs, the same with everything put back ([`PutBack`]), bottles, exclusions. Out: findings
//! `number.duplicates`, `number.duplicates-spread`, `number.fractions`, and the common value with what the bottles share
//! in it once and in full (u² = wᵀ·C·w, weights by what they do not share). Where one was taken out, the scatter of all
//! stays in the u of the others. The science is [`measurement::same_water`].
//! Checked in `crates/programme/tests/same_water.rs` and `crates/measurement/tests/same_water.rs`.

use crate::attribution::RunPair;
use crate::derive::Excluded;
use crate::put_back::PutBack;
use crate::unmet::outdoors;
use measurement::run::{Analyte, Bears, ReducedRun, RunResult, State};
use measurement::same_water::{Agreement, Bottles, Compared};
use message::{Arg, Digits, Message, Share, Shown, verdict};
use quantity::{Amount, Check, Contribution, Finding, Measured, Outcome};
use record::error::Error;
use record::model::Bottle;
use record::store::{Filter, Store};
use serde::Serialize;
use statistics::welch::{dof_of, effective_dof, welch_term};
use statistics::{bound, t};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// What bottles of one water have in common.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Water {
    /// The well.
    pub well: Option<String>,
    /// Of bottles of no well: the sample that they are of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sample: Option<String>,
    /// The trip.
    pub trip: Option<String>,
    /// Day of filling, ISO 8601; empty where not known.
    pub day: String,
    /// Filtered or not.
    pub fraction: String,
    /// Whether the bottles stood in the open air.
    pub open_air: bool,
}

/// A place in the runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct At {
    /// Place of the run.
    pub run: usize,
    /// Place of the result in it.
    pub index: usize,
}

/// A bottle as the newest run measured it.
#[derive(Clone, Copy)]
pub struct Member<'a> {
    /// The bottle.
    pub bottle: &'a Bottle,
    /// Where it was measured.
    pub at: At,
    /// What came of it.
    pub result: &'a RunResult,
}

/// A bottle that a person took out.
#[derive(Debug, Clone)]
pub struct TakenOut<'a> {
    /// The bottle.
    pub bottle: &'a Bottle,
    /// The reason, and who gave it.
    pub why: String,
    /// What was found in it, where that still comes out.
    pub net: Option<Measured>,
}

/// The common value of bottles of one water.
#[derive(Debug, Clone)]
pub struct Common {
    /// The value.
    pub value: Measured,
    /// The part of its u that the bottles share.
    pub u_shared: f64,
    /// Bottles in it, by label, where they stand and their weights.
    pub terms: Vec<(String, At, f64)>,
    /// By how much the variance that they do not share was widened to their scatter.
    pub widening: f64,
    /// The budget; empty where bottles of several runs are in it, or where it was widened.
    pub budget: Vec<Contribution>,
}

/// What the bottles of one water say of it.
#[derive(Debug, Clone)]
pub enum Answer {
    /// A value.
    Value(Common),
    /// At most so much: not detected, or found with the metal of a stage that no blank met.
    AtMost {
        /// The bound, in the unit of the value.
        most: f64,
        /// The value that it stands on.
        common: Common,
        /// Whether more was found than nothing.
        found: bool,
    },
    /// The bottles disagree: no number. Label, net value and whether it was taken out.
    Apart(Vec<(String, Measured, bool)>),
}

/// What was measured of each bottle last.
struct View<'a> {
    runs: Vec<RunPair<'a>>,
    newest: BTreeMap<(&'a str, &'a Analyte), At>,
}

impl<'a> View<'a> {
    fn of(runs: Vec<RunPair<'a>>) -> Self {
        let mut newest: BTreeMap<(&str, &Analyte), At> = BTreeMap::new();
        let order = |at: At| {
            let (prepared, reduced): &RunPair = &runs[at.run];
            (prepared.run.started_at.as_deref(), prepared.run.id, reduced.results[at.index].position)
        };
        for (run, (_, reduced)) in runs.iter().enumerate() {
            for (index, r) in reduced.results.iter().enumerate() {
                let Some(label) = r.bottle.as_deref() else { continue };
                let at = At { run, index };
                if newest.get(&(label, &r.analyte)).is_none_or(|old| order(*old) < order(at)) {
                    newest.insert((label, &r.analyte), at);
                }
            }
        }
        Self { runs, newest }
    }

    fn result(&self, at: At) -> &'a RunResult {
        &self.runs[at.run].1.results[at.index]
    }
}

/// The bottles of every water.
#[allow(clippy::struct_field_names, reason = "it holds the waters")]
pub struct Waters<'a> {
    bottles: Vec<Bottle>,
    /// Places in `bottles`, by label.
    waters: BTreeMap<Water, Vec<usize>>,
    of_bottle: HashMap<String, Water>,
    excluded: Excluded,
    now: View<'a>,
    back: View<'a>,
}

impl<'a> Waters<'a> {
    /// Reads which bottles hold which water.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store, runs: &[RunPair<'a>], back: &'a PutBack) -> Result<Self, Error> {
        let mut bottles = store.bottles(&Filter::all())?;
        bottles.sort_by(|a, b| a.label.cmp(&b.label));
        let by_label: HashMap<&str, &Bottle> = bottles.iter().map(|b| (b.label.as_str(), b)).collect();
        let starts: HashMap<i64, String> = store.trips()?.into_iter().map(|t| (t.id, t.starts)).collect();
        let mut waters: BTreeMap<Water, Vec<usize>> = BTreeMap::new();
        let mut of_bottle = HashMap::new();
        for (place, b) in bottles.iter().enumerate().filter(|(_, b)| is_water(b)) {
            let parent = b.parent.as_deref().and_then(|p| by_label.get(p)).copied().filter(|p| p.well_id == b.well_id);
            let water = water_of(b, parent, &starts);
            of_bottle.insert(b.label.clone(), water.clone());
            waters.entry(water).or_default().push(place);
        }
        let put_back = runs.iter().enumerate().map(|(i, run)| back.run(i).unwrap_or(*run)).collect();
        let (now, back) = (View::of(runs.to_vec()), View::of(put_back));
        Ok(Self { bottles, waters, of_bottle, excluded: Excluded::read(store)?, now, back })
    }

    /// As the record stands.
    pub fn now(&self) -> Seen<'_, 'a> {
        Seen { waters: self, view: &self.now }
    }

    /// With everything put back that a person took out.
    pub fn with_all_back(&self) -> Seen<'_, 'a> {
        Seen { waters: self, view: &self.back }
    }

    /// A run with everything put back that a person took out of it; none where nothing was.
    pub fn put_back(&self, run: &ReducedRun) -> Option<RunPair<'a>> {
        let place = self.now.runs.iter().position(|(_, r)| std::ptr::eq(*r, run))?;
        let back = self.back.runs[place];
        (!std::ptr::eq(back.1, run)).then_some(back)
    }

    /// The water in a bottle; none for blanks, spikes and bottles of a series.
    pub fn of_bottle(&self, label: &str) -> Option<&Water> {
        self.of_bottle.get(label)
    }

    /// All waters, and what was measured in each.
    pub fn all(&self) -> Vec<(&Water, Analyte)> {
        let mut measured: HashMap<&str, BTreeSet<&Analyte>> = HashMap::new();
        for (label, analyte) in self.now.newest.keys().chain(self.back.newest.keys()) {
            measured.entry(label).or_default().insert(analyte);
        }
        let mut out = vec![];
        for (water, places) in &self.waters {
            let of_bottle = |place: &usize| measured.get(self.bottles[*place].label.as_str());
            let analytes: BTreeSet<&Analyte> = places.iter().filter_map(of_bottle).flatten().copied().collect();
            out.extend(analytes.into_iter().map(|a| (water, a.clone())));
        }
        out
    }
}

/// A bottle of water that is judged: a sample or a duplicate, of no series.
pub(crate) fn is_water(b: &Bottle) -> bool {
    b.kind.is_water() && !b.is_series()
}

/// The first ten letters of a moment: its day.
fn day(moment: &str) -> String {
    moment.chars().take(10).collect()
}

/// What a duplicate leaves open is as its sample has it.
fn water_of(b: &Bottle, parent: Option<&Bottle>, starts: &HashMap<i64, String>) -> Water {
    let told = |b: &Bottle| b.open_air_min.is_some() || b.cabinet_min.is_some();
    let filled = b.filled_at.as_deref().or_else(|| parent?.filled_at.as_deref());
    let start = || starts.get(&b.trip_id?).map(String::as_str);
    Water {
        well: b.well.clone(),
        sample: b.well.is_none().then(|| b.parent.clone().unwrap_or_else(|| b.label.clone())),
        trip: b.trip.clone(),
        day: filled.or_else(start).map(day).unwrap_or_default(),
        fraction: b.fraction.clone().unwrap_or_else(|| "unfiltered".into()),
        open_air: outdoors(if told(b) { b } else { parent.unwrap_or(b) }),
    }
}

/// The waters as the record stands, or with everything put back.
#[derive(Clone, Copy)]
pub struct Seen<'w, 'a> {
    waters: &'w Waters<'a>,
    view: &'w View<'a>,
}

/// Bottles of one water that were measured, with how they compare.
struct Group<'w> {
    members: Vec<Member<'w>>,
    bottles: Bottles,
}

impl<'w, 'a: 'w> Seen<'w, 'a> {
    /// Bottles of a water that were measured for an analyte, in the unit of the first, by label.
    pub fn members(&self, water: &Water, analyte: &Analyte) -> Vec<Member<'w>> {
        let mut out: Vec<Member<'w>> = vec![];
        for place in self.waters.waters.get(water).into_iter().flatten() {
            let bottle = &self.waters.bottles[*place];
            let Some(at) = self.view.newest.get(&(bottle.label.as_str(), analyte)).copied() else { continue };
            let result = self.view.result(at);
            if out.first().is_none_or(|m| m.result.net.unit == result.net.unit) {
                out.push(Member { bottle, at, result });
            }
        }
        out
    }

    /// Bottles of a water that a person took out.
    pub fn taken_out(&self, water: &Water, analyte: &Analyte) -> Vec<TakenOut<'w>> {
        let back = &self.waters.back;
        let mut out = vec![];
        for place in self.waters.waters.get(water).into_iter().flatten() {
            let bottle = &self.waters.bottles[*place];
            let key = (bottle.label.as_str(), analyte);
            if self.view.newest.contains_key(&key) {
                continue;
            }
            let (mut why, mut net) = (self.waters.excluded.bottle(bottle.id).map(String::from), None);
            if let Some(at) = back.newest.get(&key) {
                let (prepared, position) = (back.runs[at.run].0, back.result(*at).position);
                let vial = prepared.vials().iter().find(|v| v.position as u32 == position);
                why = vial.and_then(|v| self.waters.excluded.vial_or_bottle(v.id, bottle.id)).or(why);
                net = Some(back.result(*at).net.clone());
            }
            out.extend(why.map(|why| TakenOut { bottle, why, net }));
        }
        out
    }

    fn group(&self, members: Vec<Member<'w>>) -> Group<'w> {
        let values = members.iter().map(|m| m.result.net.value).collect();
        let bottles = Bottles::new(values, |i, j| self.difference(&members[i], &members[j]));
        Group { members, bottles }
    }

    fn difference(&self, a: &Member, b: &Member) -> Measured {
        if a.at.run == b.at.run {
            return self.view.runs[a.at.run].1.difference(a.at.index, b.at.index);
        }
        let (x, y) = (&a.result.net, &b.result.net);
        let dof = effective_dof(&[(x.u * x.u, x.dof), (y.u * y.u, y.dof)]).unwrap_or(f64::INFINITY);
        Measured::with_dof(x.value - y.value, x.u.hypot(y.u), dof, x.unit.clone())
    }

    /// Covariance of two common values, in the square of their unit; 0 between runs.
    pub fn covariance(&self, a: &Common, b: &Common) -> f64 {
        let mut sum = 0.0;
        for (_, x, w) in &a.terms {
            for (_, y, v) in b.terms.iter().filter(|(_, y, _)| y.run == x.run) {
                sum += w * v * self.view.runs[x.run].1.covariance(x.index, y.index);
            }
        }
        sum
    }

    /// The common value of a water; `take` leaves bottles out. None where nothing is left.
    pub fn common(&self, water: &Water, analyte: &Analyte, take: impl Fn(&Bottle) -> bool) -> Option<Answer> {
        let members: Vec<Member> = self.members(water, analyte).into_iter().filter(|m| take(m.bottle)).collect();
        if members.is_empty() {
            return None;
        }
        let out = self.taken_out(water, analyte);
        let group = self.group(members);
        let compared = group.bottles.compare();
        // What a person took out scatters all the same: the others keep the scatter of all.
        let with_out = (!out.is_empty()).then(|| self.with_taken_out(&group, analyte, &out));
        let of_all = with_out.as_ref().and_then(Bottles::compare);
        let apart = |c: &Option<Compared>| c.as_ref().is_some_and(|c| c.agreement == Agreement::Disagree);
        if apart(&compared) || (group.members.len() == 1 && apart(&of_all)) {
            let mut values: Vec<(String, Measured, bool)> = (group.members.iter())
                .map(|m| (m.bottle.label.clone(), m.result.net.clone(), false))
                .chain(out.iter().filter_map(|o| Some((o.bottle.label.clone(), o.net.clone()?, true))))
                .collect();
            values.sort_by(|a, b| a.0.cmp(&b.0));
            return Some(Answer::Apart(values));
        }
        let nearly = |c: &Option<Compared>| c.as_ref().is_some_and(|c| c.agreement != Agreement::Agree);
        let scatter = match &with_out {
            Some(all) if nearly(&of_all) => Some((all.widening(), group.members.len() + out.len())),
            _ => nearly(&compared).then(|| (group.bottles.widening(), group.members.len())),
        };
        let common = self.combine(&group, scatter);
        // What each bottle shows is there, however far they scatter; of some that show it and some that do not the mean
        // decides; of none it stays a bound.
        let detected = group.members.iter().filter(|m| m.result.state != State::NotDetected).count();
        let (m, one_sided) = (&common.value, t::upper_quantile(bound::SIDE, common.value.dof));
        let found = detected == group.members.len() || (detected > 0 && m.value > one_sided * m.u);
        // One bottle with the metal of a stage that no blank met, and the mean holds it too.
        let is_bound = group.members.iter().any(|m| m.result.bears == Bears::AtMost);
        if found && !is_bound {
            return Some(Answer::Value(common));
        }
        let critical = group.members.iter().filter_map(|m| Some(m.result.limits.as_ref()?.critical_value));
        let at_most = bound::upper_bound(m.value, m.u, m.dof, critical.reduce(f64::min));
        Some(Answer::AtMost { most: at_most, common, found })
    }

    /// The bottles of a group with those that were taken out beside them. All values are of the run with everything put
    /// back, so that none has another blank than the rest; the variances are those that stand, for one that is out the
    /// mean of the others: what else was taken out (a bad blank) must not hide the scatter.
    fn with_taken_out(&self, group: &Group, analyte: &Analyte, out: &[TakenOut]) -> Bottles {
        let back = &self.waters.back;
        let value = |m: &Member| {
            let at = back.newest.get(&(m.bottle.label.as_str(), analyte));
            at.map_or(m.result.net.value, |at| back.result(*at).net.value)
        };
        let own = |m: &Member| {
            let c = self.view.runs[m.at.run].1.combined(&[(m.at.index, 1.0)]);
            ((c.value.u * c.value.u - c.u_shared * c.u_shared).max(0.0), c.own_dof)
        };
        let mut parts: Vec<(f64, f64)> = group.members.iter().map(own).collect();
        let mean = parts.iter().map(|p| p.0).sum::<f64>() / parts.len() as f64;
        let least = parts.iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
        let nets: Vec<f64> = out.iter().filter_map(|o| Some(o.net.as_ref()?.value)).collect();
        parts.extend(nets.iter().map(|_| (mean, least)));
        let values: Vec<f64> = group.members.iter().map(value).chain(nets).collect();
        let unit = &group.members[0].result.net.unit;
        Bottles::new(values.clone(), |i, j| {
            if let (Some(a), Some(b)) = (group.members.get(i), group.members.get(j)) {
                self.difference(a, b)
            } else {
                let dof = effective_dof(&[parts[i], parts[j]]).unwrap_or(f64::INFINITY);
                Measured::with_dof(values[i] - values[j], (parts[i].0 + parts[j].0).sqrt(), dof, unit.clone())
            }
        })
    }

    /// The common value of the water in a bottle, of all bottles that stand; none for a bottle of no water.
    pub fn common_of(&self, bottle: &Bottle, analyte: &Analyte) -> Option<Answer> {
        self.common(self.waters.of_bottle(&bottle.label)?, analyte, |_| true)
    }

    /// Weighted mean; `scatter`: by how much the variance that the bottles do not share is too small, and of how many
    /// bottles that was seen.
    fn combine(&self, group: &Group, scatter: Option<(f64, usize)>) -> Common {
        let weights = group.bottles.weights();
        let mut by_run: BTreeMap<usize, Vec<(usize, f64)>> = BTreeMap::new();
        for (m, w) in group.members.iter().zip(&weights) {
            by_run.entry(m.at.run).or_default().push((m.at.index, *w));
        }
        let (mut value, mut shared, mut own, mut doubt, mut own_doubt) = (0.0, 0.0, 0.0, 0.0, 0.0);
        let mut budget = vec![];
        for (run, terms) in &by_run {
            let c = self.view.runs[*run].1.combined(terms);
            let of_run = (c.value.u * c.value.u - c.u_shared * c.u_shared).max(0.0);
            let own_term = welch_term(of_run, c.own_dof);
            value += c.value.value;
            shared += c.u_shared * c.u_shared;
            own += of_run;
            own_doubt += own_term;
            doubt += (welch_term(c.value.u * c.value.u, c.value.dof) - own_term).max(0.0);
            budget = c.budget;
        }
        let widening = scatter.map_or(1.0, |(w, _)| w);
        own *= widening;
        doubt += match scatter {
            Some((w, n)) if w > 1.0 => welch_term(own, n as f64 - 1.0),
            _ => own_doubt,
        };
        let variance = shared + own;
        let dof = dof_of(variance, doubt).unwrap_or(f64::INFINITY).max(1.0);
        let terms = group.members.iter().zip(&weights).map(|(m, w)| (m.bottle.label.clone(), m.at, *w)).collect();
        let unit = group.members[0].result.net.unit.clone();
        if by_run.len() > 1 || widening > 1.0 {
            budget.clear();
        }
        let value = Measured::with_dof(value, variance.sqrt(), dof, unit);
        Common { value, u_shared: shared.sqrt(), terms, widening, budget }
    }

    /// Whether the bottles of this one's water agree. `signed`: who stands for this one, and why.
    pub fn duplicates(&self, bottle: &Bottle, r: &RunResult, signed: Option<(&str, &str)>) -> Vec<Finding> {
        let Some(water) = self.waters.of_bottle(&bottle.label) else { return vec![] };
        let group = self.group(self.members(water, &r.analyte));
        let out = self.taken_out(water, &r.analyte);
        let Some(compared) = group.bottles.compare() else {
            return vec![alone(bottle, r, &out)];
        };
        let own = group.members.iter().position(|m| m.bottle.label == bottle.label);
        let mut says = self.compared(&group, &compared, r);
        if !out.is_empty() {
            says = verdict::BesideTakenOut { finding: says, taken: taken(&out) }.into();
        }
        let mut met = compared.agreement != Agreement::Disagree;
        // A person may stand for a bottle that agrees with the rest, once it is told which one does not.
        if let (false, Some(odd), Some((person, why))) = (met, compared.odd, signed)
            && own != Some(odd)
        {
            met = true;
            says = verdict::OddSigned { finding: says, person: person.into(), why: why.into() }.into();
        }
        if compared.agreement != Agreement::Agree {
            let noted = group.members.iter().map(|m| m.bottle).chain(out.iter().map(|o| o.bottle));
            says = with_notes(says, noted);
        }
        let [low, high] = compared.farthest.map(|i| &group.members[i]);
        let difference = self.difference(high, low);
        let said = |check: Check, met: bool| {
            Finding::new(check, if met { Outcome::Met } else { Outcome::NotMet }, says.clone())
                .comparing(message::compared::Difference, Amount::Measured(difference.clone()))
        };
        let mut findings = vec![said(Check::NumberDuplicates, met)];
        if compared.agreement == Agreement::Nearly {
            findings.push(said(Check::NumberDuplicatesSpread, false));
        }
        findings
    }

    fn compared(&self, group: &Group, compared: &Compared, r: &RunResult) -> Message {
        let unit = r.net.unit.to_string();
        let element = || message::Name::from(r.analyte.element.as_str());
        let labels: Vec<&str> = group.members.iter().map(|m| m.bottle.label.as_str()).collect();
        if let [first, second] = labels[..] {
            let d = self.difference(&group.members[0], &group.members[1]);
            let allowed = t::upper_quantile(0.025, d.dof) * d.u;
            let [difference, allowed] = [d.value.abs(), allowed].map(|x| Shown::significant(x, 2, unit.clone()));
            let (first, second, element) = (first.into(), second.into(), element());
            return match compared.agreement {
                Agreement::Agree => verdict::PairWithin { first, second, difference, element, allowed }.into(),
                Agreement::Nearly => verdict::PairMore { first, second, difference, element, allowed }.into(),
                Agreement::Disagree => verdict::PairFar { first, second, difference, element, allowed }.into(),
            };
        }
        let [low, high] = compared.farthest.map(|i| &group.members[i].result.net);
        let (lowest, highest) = (Shown::significant(low.value, 3, ""), Shown::significant(high.value, 3, unit));
        let bottles: Vec<Arg> = labels.iter().map(|l| Arg::Name((*l).into())).collect();
        let chance = Share::new(compared.p, Digits::Significant(2));
        let element = element();
        match (compared.agreement, compared.odd) {
            (Agreement::Agree, _) => verdict::GroupWithin { bottles, element, lowest, highest, chance }.into(),
            (Agreement::Nearly, None) => verdict::GroupMore { bottles, element, lowest, highest, chance }.into(),
            (Agreement::Nearly, Some(odd)) => {
                let odd = labels[odd].into();
                verdict::GroupMoreOdd { bottles, element, lowest, highest, chance, odd }.into()
            }
            (Agreement::Disagree, Some(odd)) => {
                let odd = labels[odd].into();
                verdict::GroupOdd { bottles, element, lowest, highest, odd }.into()
            }
            (Agreement::Disagree, None) => verdict::GroupFar { bottles, element, lowest, highest }.into(),
        }
    }

    /// Filtered beside unfiltered water of one well and day: what the particles hold.
    pub fn fractions(&self, bottle: &Bottle, r: &RunResult) -> Vec<Finding> {
        let Some(water) = self.waters.of_bottle(&bottle.label) else { return vec![] };
        let value = |water: &Water| match self.common(water, &r.analyte, |_| true) {
            Some(Answer::Value(c) | Answer::AtMost { common: c, .. }) => Some(c),
            _ => None,
        };
        let here = |w: &&Water| {
            (&w.well, &w.sample, &w.trip, &w.day) == (&water.well, &water.sample, &water.trip, &water.day)
                && w.fraction != water.fraction
                // Of two filters neither is the whole.
                && (w.fraction == UNFILTERED || water.fraction == UNFILTERED)
        };
        let mut others: Vec<&Water> = self.waters.waters.keys().filter(here).collect();
        // The same air first; of one fraction one.
        others.sort_by_key(|w| (&w.fraction, w.open_air != water.open_air));
        others.dedup_by_key(|w| &w.fraction);
        if others.is_empty() {
            return vec![];
        }
        let Some(own) = value(water) else { return vec![] };
        let of_other = |other: &Water| {
            let theirs = value(other)?;
            let (whole, filtered, fraction) = if water.fraction == UNFILTERED {
                (&own, &theirs, &other.fraction)
            } else {
                (&theirs, &own, &water.fraction)
            };
            Some(particles(whole, filtered, self.covariance(whole, filtered), fraction, &r.analyte.element))
        };
        others.into_iter().filter_map(of_other).collect()
    }
}

/// The fraction that holds everything, as the record writes it.
pub const UNFILTERED: &str = "unfiltered";

/// Unfiltered less filtered, with what both share taken out of u.
fn particles(whole: &Common, filtered: &Common, covariance: f64, fraction: &str, element: &str) -> Finding {
    let (a, b) = (&whole.value, &filtered.value);
    let variance = (a.u * a.u + b.u * b.u - 2.0 * covariance).max(0.0);
    let dof = effective_dof(&[(a.u * a.u, a.dof), (b.u * b.u, b.dof)]).unwrap_or(f64::INFINITY);
    let difference = Measured::with_dof(a.value - b.value, variance.sqrt(), dof, a.unit.clone());
    let k = t::upper_quantile(0.025, dof);
    let half = k * difference.u;
    let (unfiltered, filtered) = (a.shown(t::upper_quantile(0.025, a.dof)), b.shown(t::upper_quantile(0.025, b.dof)));
    let (element, fraction, difference_shown) = (element.into(), fraction.into(), difference.shown(k));
    let (outcome, says): (_, Message) = if difference.value > half {
        let particles = difference_shown;
        (Outcome::Met, verdict::Particles { element, unfiltered, fraction, filtered, particles }.into())
    } else if difference.value < -half {
        let less = Measured { value: -difference.value, ..difference.clone() }.shown(k);
        (Outcome::NotMet, verdict::FilteredAbove { element, unfiltered, fraction, filtered, less }.into())
    } else {
        let most = bound::upper_bound(difference.value, difference.u, dof, None);
        let most = Shown::bound(most, a.unit.to_string());
        (Outcome::Met, verdict::NoParticles { element, unfiltered, fraction, filtered, most }.into())
    };
    Finding::new(Check::NumberFractions, outcome, says)
        .comparing(message::compared::Unfiltered, Amount::Measured(a.clone()))
        .comparing(message::compared::Filtered, Amount::Measured(b.clone()))
        .comparing(message::compared::Difference, Amount::Measured(difference))
}

/// One bottle alone: none was filled beside it, or what stood beside it was taken out.
fn alone(bottle: &Bottle, r: &RunResult, out: &[TakenOut]) -> Finding {
    let label = bottle.label.as_str().into();
    let says: Message = if out.is_empty() {
        match bottle.well.as_deref() {
            Some(well) => verdict::NoSecondBottle { water: well.into(), bottle: label }.into(),
            None => verdict::NoSecondBottleHere { bottle: label }.into(),
        }
    } else {
        let value = Shown::significant(r.net.value, 3, r.net.unit.to_string());
        let says = verdict::SecondTakenOut { bottle: label, value, taken: taken(out) };
        with_notes(says.into(), std::iter::once(bottle).chain(out.iter().map(|o| o.bottle)))
    };
    Finding::new(Check::NumberDuplicates, Outcome::NotKnown, says)
}

/// Bottles that were taken out, each with its value and the person's reason.
fn taken(out: &[TakenOut]) -> Vec<Arg> {
    let one = |o: &TakenOut| -> Arg {
        let (bottle, why) = (o.bottle.label.as_str().into(), o.why.as_str().into());
        let said: Message = match &o.net {
            Some(net) => {
                let value = Shown::significant(net.value, 3, net.unit.to_string());
                verdict::OutWithValue { bottle, value, why }.into()
            }
            None => verdict::Out { bottle, why }.into(),
        };
        said.into()
    };
    out.iter().map(one).collect()
}

/// What the field said of bottles, behind a finding.
pub(crate) fn with_notes<'b>(says: Message, bottles: impl Iterator<Item = &'b Bottle>) -> Message {
    bottles.fold(says, |finding, b| match b.note.as_deref().map(str::trim).filter(|n| !n.is_empty()) {
        Some(note) => verdict::WithNote { finding, bottle: b.label.as_str().into(), note: note.into() }.into(),
        None => finding,
    })
}
