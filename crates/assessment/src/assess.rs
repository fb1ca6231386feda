//! From evidence to verdict: collects every finding that speaks of a result, along the path of
//! its bottle (well, air, bottle, cool box, run, number), judges them by the programme's table of
//! checks, and keeps findings and verdict with their history. Nothing is written where nothing
//! changed.
//!
//! Results of samples and duplicates get a verdict; blanks, spikes and reference materials are
//! evidence and get none. Results that a laboratory reported as concentrations are judged in
//! `reported_results`. Checked in `crates/programme/tests/demo_truth.rs`.

use crate::accounting::{Accounted, Books, pipe_fit};
use crate::attribution::{NotMet, RunPair, TripAnalyte, UNSEEN_LEVEL, UNSEEN_SOURCE, WaterFit, unseen_finding};
use crate::chemistry_checks::{ChemistryChecks, Water};
use crate::derive::{self, Excluded, Prepared};
use crate::engine::{DERIVED_BY, ENGINE};
use crate::field_checks::FieldChecks;
use crate::forecast::{Knowledge, Moment};
use crate::lots::LotSheet;
use crate::profiles::{self, Profiles};
use crate::put_back;
use crate::quality::Quality;
use crate::same_water::{Answer, Seen, Waters, is_water};
use crate::unmet::{self, Ways};
use crate::verdict::{Judged, Rules};
use crate::verify::{Differs, Way};
use cleanliness::accounting::Air;
use cleanliness::unseen::Unseen;
use measurement::run::{Bears, FewOf, ReducedRun, Role, RunResult, State};
use message::{Arg, Digits, Message, Share, Shown, verdict};
use quantity::{Amount, Check, Finding, Measured, Outcome, Unit};
use record::error::Error;
use record::identity::ResultId;
use record::model::{self, Bottle, BottleKind, VerdictWord};
use record::store::NamedCells;
use record::store::{Act, ActInfo, Cell, Filter, Store, StoreError};
use serde_json::json;
use statistics::sample::Moments;
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// What an assessment did to the record.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Assessed {
    /// Verdicts written.
    pub written: usize,
    /// Verdicts that stand as they stood.
    pub unchanged: usize,
    /// Verdicts whose word changed: subject, old word, new word.
    pub changed: Vec<(String, VerdictWord, VerdictWord)>,
}

/// Findings and verdict of one subject.
#[derive(Debug, Clone)]
pub struct Case {
    /// What they speak of.
    pub subject: String,
    /// The findings.
    pub findings: Vec<Finding>,
    /// The profile of checks that judges them; none: the programme's table alone.
    pub profile: Option<String>,
}

impl Case {
    /// One that the programme's table judges.
    pub fn by_table(subject: String, findings: Vec<Finding>) -> Self {
        Self { subject, findings, profile: None }
    }
}

/// What the programme as a whole says of a result.
#[derive(Clone, Copy)]
pub struct Standing<'a> {
    /// The water as a whole.
    pub meanings: &'a ChemistryChecks,
    /// Quality over all runs.
    pub quality: &'a Quality,
    /// All runs, reduced.
    pub runs: &'a [RunPair<'a>],
    /// What all bottles together say, trip by trip.
    pub fits: &'a [TripAnalyte],
    /// Which bottles hold one water.
    pub waters: &'a Waters<'a>,
}

/// Assesses the results of a reduced run that no later measurement has replaced.
///
/// # Errors
/// The store cannot be read or written; evidence that cannot be (a fill of negative time).
pub fn assess_run(
    store: &mut Store,
    prepared: &Prepared,
    reduced: &ReducedRun,
    standing: &Standing,
    author: &str,
    at: &str,
) -> Result<Assessed, Error> {
    let cases = cases(store, prepared, reduced, standing)?;
    keep(store, cases, author, at)
}

/// Findings of every result of a reduced run that gets a verdict.
///
/// # Errors
/// As [`assess_run`].
pub fn cases(
    store: &Store,
    prepared: &Prepared,
    reduced: &ReducedRun,
    standing: &Standing,
) -> Result<Vec<Case>, Error> {
    let back = match standing.waters.put_back(reduced) {
        Some((prepared, reduced)) => {
            Some(RunCases::new(store, prepared, reduced, standing, standing.waters.with_all_back())?)
        }
        None => None,
    };
    RunCases::new(store, prepared, reduced, standing, standing.waters.now())?.all(store, back.as_ref())
}

struct RunCases<'a> {
    prepared: &'a Prepared,
    reduced: &'a ReducedRun,
    standing: Standing<'a>,
    rules: Rules,
    profiles: Profiles,
    excluded: Excluded,
    trips: BTreeMap<i64, FieldChecks>,
    by_label: HashMap<String, Bottle>,
    knowledge: Knowledge,
    lots: Vec<LotSheet>,
    ways: Ways,
    /// The bottles of one water as this run sees them.
    seen: Seen<'a, 'a>,
    /// Who stands for a result, and why; by subject.
    signed: HashMap<String, (String, String)>,
}

impl<'a> RunCases<'a> {
    fn new(
        store: &Store,
        prepared: &'a Prepared,
        reduced: &'a ReducedRun,
        standing: &Standing<'a>,
        seen: Seen<'a, 'a>,
    ) -> Result<Self, Error> {
        let (rules, profiles) = (Rules::new(store.check_rules()?), Profiles::of(store)?);
        let by_label: HashMap<String, Bottle> =
            store.bottles(&Filter::all())?.into_iter().map(|b| (b.label.clone(), b)).collect();
        let names: BTreeSet<i64> = by_label.values().filter_map(|b| b.trip_id).collect();
        let mut trips = BTreeMap::new();
        for trip in names {
            trips.insert(trip, FieldChecks::of(store, trip, &rules)?);
        }
        let excluded = Excluded::read(store)?;
        let (knowledge, lots) = (Knowledge::read(store)?, crate::lots::all(store)?);
        let ways = Ways::of(store, by_label.values())?;
        let signed = store.sign_offs()?.into_iter().map(|s| (s.subject, (s.person, s.why))).collect();
        let standing = *standing;
        Ok(Self {
            prepared,
            reduced,
            standing,
            rules,
            profiles,
            excluded,
            trips,
            by_label,
            knowledge,
            lots,
            ways,
            seen,
            signed,
        })
    }

    /// `back`: the same run with everything put back.
    fn all(&self, store: &Store, back: Option<&Self>) -> Result<Vec<Case>, Error> {
        let mut cases = Vec::new();
        let vials: HashMap<u32, i64> = self.prepared.vials().iter().map(|v| (v.position as u32, v.id)).collect();
        let here: BTreeSet<i64> = self.prepared.vials().iter().filter_map(|v| v.bottle_id).collect();
        let mut newest: HashMap<ResultId, (Option<i64>, String)> = HashMap::new();
        store.each(&Filter::all().latest(), |r: model::ResultRow| {
            if here.contains(&r.bottle_id) {
                newest.insert(r.identity().newest(), (r.vial_id, r.subject));
            }
            Ok(())
        })?;
        for (index, r) in self.reduced.results.iter().enumerate() {
            let Some(bottle) = r.bottle.as_ref().and_then(|l| self.by_label.get(l)) else { continue };
            let id = derive::identity(&bottle.label, &r.analyte, bottle.fraction.as_deref().unwrap_or("unfiltered"));
            let stands = newest.get(&id);
            let replaced = stands.is_some_and(|(vial, _)| vial.as_ref() != vials.get(&r.position));
            if is_water(bottle) && !replaced {
                let subject = stands.map_or_else(|| id.to_string(), |(_, subject)| subject.clone());
                let mut findings = self.findings(index, r, bottle, &subject);
                findings.extend(back.and_then(|back| self.put_back(back, r, bottle, &subject, &findings)));
                let laboratory = self.prepared.run.laboratory.as_deref();
                let by = self.profiles.of_result(laboratory, &r.analyte.element, true);
                findings.extend(by.map(|(profile, choice)| profiles::finding(profile, choice)));
                findings.sort_by_key(|f| f.stage);
                cases.push(Case { subject, findings, profile: by.map(|(p, _)| p.name.clone()) });
            }
        }
        let out = self.taken_out(store, &cases)?;
        cases.extend(out);
        Ok(cases)
    }

    fn findings(&self, index: usize, r: &RunResult, bottle: &Bottle, subject: &str) -> Vec<Finding> {
        let started = self.prepared.run.started_at.as_deref();
        let mut out = match bottle.trip_id.and_then(|t| self.trips.get(&t)) {
            Some(trip) => trip.findings(bottle, started, &self.rules),
            None => vec![],
        };
        out.extend(self.lot_blank(r, bottle));
        out.extend(self.lot(r, bottle));
        out.extend(self.blank_against_forecast(r, bottle));
        out.extend(
            self.reduced
                .findings_of(index)
                .map(|f| f.finding.clone())
                // Said again below for the water as a whole.
                .filter(|f| {
                    !matches!(
                        f.check,
                        Check::RunDuplicate | Check::RunFieldSpike | Check::RunLabSpike | Check::RunReferenceMaterial
                    )
                }),
        );
        out.extend(self.reduced.reference_findings(&r.analyte));
        out.push(detected(r));
        out.extend(vial_scatter(r));
        out.extend(few_degrees(r, self.rules.limit(Check::NumberFewDegrees, 3.0)));
        out.push(self.recovery(r, bottle));
        let signed = self.signed.get(subject).map(|(person, why)| (person.as_str(), why.as_str()));
        out.extend(self.seen.duplicates(bottle, r, signed));
        out.extend(self.seen.fractions(bottle, r));
        out.extend(self.whose(index, r, bottle));
        out.extend(self.standing.quality.findings(&self.reduced.name, &bottle.label, &r.analyte, &r.net));
        out.extend(self.standing.meanings.findings(Water::of(bottle)));
        out.sort_by_key(|f| f.stage);
        out
    }

    /// Whose the metal is that the blanks leave: what the pipe gave, whether a blank met the open air, the share.
    fn whose(&self, index: usize, r: &RunResult, bottle: &Bottle) -> Vec<Finding> {
        let books = Books { ways: &self.ways, by_label: &self.by_label, fits: self.standing.fits };
        let by_flow = self.pipe_by_flow(r, bottle);
        let told_by_flow = by_flow.is_some();
        let mut out: Vec<Finding> = by_flow.into_iter().collect();
        let Some(accounted) = books.of(self.reduced, index) else { return out };
        out.extend(unmet::open_air_finding(bottle, &accounted.seen.stood));
        out.push(self.unseen_source(r, bottle, &accounted, told_by_flow));
        // Where no blank was measured there is no share to hold against the programme's.
        if r.blank.is_some() {
            out.push(accounted.finding(self.rules.limit(Check::NumberWaterShare, 0.5), bottle));
        }
        out
    }

    /// Whether a kind of bottle stands out of the joint fit of this water, and what counts as the water's because no
    /// blank met it.
    fn unseen_source(&self, r: &RunResult, bottle: &Bottle, accounted: &Accounted, told_by_flow: bool) -> Finding {
        let none = Unseen::default();
        let (fit, exposures) = match self.water_fit(r, bottle).map(|w| &w.fit) {
            Some(Ok(fit)) => (Ok(&fit.unseen), fit.not_met.as_slice()),
            Some(Err(why)) => (Err((**why).clone()), [].as_slice()),
            None => (Ok(&none), [].as_slice()),
        };
        let pipe = self.ways.has_pipe(bottle) && !told_by_flow;
        let open_air = match &accounted.seen.stood {
            Air::Open(place) => Some(place.as_str()),
            Air::Met | Air::Elsewhere(_) => None,
        };
        let not_met = NotMet { exposures, pipe, open_air };
        unseen_finding(fit, &not_met, self.rules.limit(UNSEEN_SOURCE, UNSEEN_LEVEL))
    }

    /// What the bottles of a water say together; none where they were not looked at.
    fn water_fit(&self, r: &RunResult, bottle: &Bottle) -> Option<&'a WaterFit> {
        let fraction = bottle.fraction.as_deref().unwrap_or("unfiltered");
        let here = |t: &&TripAnalyte| {
            t.run == self.reduced.name && Some(&t.trip) == bottle.trip.as_ref() && t.analyte == r.analyte
        };
        let mut waters = self.standing.fits.iter().filter(here).flat_map(|t| &t.waters);
        waters.find(|w| Some(&w.well) == bottle.well.as_ref() && w.fraction == fraction)
    }

    /// What bottles at different flow say of the pipe's metal in this one; none where they do not tell it.
    fn pipe_by_flow(&self, r: &RunResult, bottle: &Bottle) -> Option<Finding> {
        let (_, fit, pipe) = pipe_fit(self.standing.fits, self.reduced, r, bottle)?;
        let source = &fit.fit.sources[pipe];
        // pg a minute and litre, times minutes, over 1000 mL: pg/mL, which is ng/L.
        let ng_l = |per_unit_pg: f64, contact_min: f64| per_unit_pg * contact_min * 1e-3;
        let contact = self.ways.contact_min(bottle)?;
        let (low, high) = (ng_l(source.interval_95.0, contact), ng_l(source.interval_95.1, contact));
        let (value, element) = (ng_l(source.per_unit_pg, contact), &r.analyte.element);
        let element = element.as_str().into();
        let (outcome, says): (_, Message) = if low > 0.0 {
            let pipe = Shown::significant(value, 3, "ng/L");
            let [low, high] = [low, high].map(|x| Shown::significant(x, 3, ""));
            (Outcome::NotMet, verdict::PipeByFlow { pipe, low, high, element }.into())
        } else {
            let high = Shown::bound(high, "ng/L");
            (Outcome::Met, verdict::NoPipeByFlow { element, high }.into())
        };
        let pipe = Amount::stated(value, Unit::known("ng/L"));
        Some(Finding::new(unmet::PIPE, outcome, says).comparing(message::compared::Pipe, pipe))
    }

    /// Whether the lot may go out, by the tolerance limit of its blanks.
    fn lot(&self, r: &RunResult, bottle: &Bottle) -> Option<Finding> {
        let sheet = self.lots.iter().find(|l| Some(l.lot.id) == bottle.lot_id)?;
        sheet.finding(&r.analyte.element, &r.analyte.isotopes, &r.analyte.resolution)
    }

    /// The run's field blanks against what their stages were to bring.
    fn blank_against_forecast(&self, r: &RunResult, bottle: &Bottle) -> Option<Finding> {
        let of_trip = |b: &Bottle| b.kind == BottleKind::FieldBlank && b.trip_id == bottle.trip_id;
        let blanks: Vec<(&Bottle, f64)> = (self.reduced.results.iter())
            .filter(|b| b.role == Role::FieldBlank && b.analyte == r.analyte)
            .filter_map(|b| Some((self.by_label.get(b.bottle.as_ref()?)?, b.gross.value)))
            .filter(|(b, _)| of_trip(b))
            .collect();
        let first = blanks.first()?.0;
        let at = Moment {
            measured_at: self.prepared.run.started_at.as_deref(),
            contact_min: None,
            earlier: crate::forecast::earlier(self.standing.runs, self.prepared.run.started_at.as_deref()),
        };
        let expected = self.knowledge.of_bottle(first, &r.analyte, &at);
        let pg: Vec<f64> = blanks.iter().filter_map(|(b, c)| Some(c * b.volume_mL?)).collect();
        crate::forecast::field_blank_finding(&expected, &pg)
    }

    /// What the lot's bottle blanks hold, beside what was found.
    fn lot_blank(&self, r: &RunResult, bottle: &Bottle) -> Option<Finding> {
        let lot = bottle.lot.as_ref()?;
        let name = Check::BottleLotBlank;
        let blanks: Vec<f64> = self
            .reduced
            .results
            .iter()
            .filter(|b| b.role == Role::BottleBlank && b.analyte == r.analyte)
            .filter(|b| {
                b.bottle.as_ref().and_then(|l| self.by_label.get(l)).is_some_and(|b| b.lot.as_ref() == Some(lot))
            })
            .map(|b| b.gross.value)
            .collect();
        let (element, lot) = (r.analyte.element.as_str().into(), lot.as_str().into());
        let Some(highest) = blanks.iter().copied().reduce(f64::max) else {
            return Some(Finding::new(name, Outcome::NotKnown, Message::from(verdict::NoLotBlank { lot, element })));
        };
        let limit = self.rules.limit(name, 0.2);
        // A gross at or under zero would turn the share round: the most that can be there stands in its place.
        let found = if r.gross.value > 0.0 { r.gross.value } else { r.upper_bound };
        let share = highest / found;
        let met = share <= limit;
        let unit = &r.gross.unit;
        let says = verdict::LotBlanks {
            blanks: message::count(blanks.len()),
            lot,
            highest: Shown::bound(highest, unit.to_string()),
            element,
            share: Share::new(share, Digits::Significant(2)),
            limit: Share::new(limit, Digits::Significant(2)),
        };
        Some(
            Finding::new(name, if met { Outcome::Met } else { Outcome::NotMet }, Message::from(says))
                .comparing(message::compared::HighestBottleBlank, Amount::stated(highest, unit.clone())),
        )
    }

    /// Spikes of the same water on the same trip.
    fn recovery(&self, r: &RunResult, bottle: &Bottle) -> Finding {
        let of_water = |label: &str| {
            self.by_label.get(label).is_some_and(|b| b.well_id == bottle.well_id && b.trip_id == bottle.trip_id)
        };
        let spikes: Vec<_> = self.reduced.spikes.iter().filter(|s| s.analyte == r.analyte).collect();
        let here: Vec<&Measured> = spikes.iter().filter(|s| of_water(&s.of)).map(|s| &s.recovery).collect();
        let element = r.analyte.element.as_str().into();
        let Some(mean) = mean_recovery(&here) else {
            let says: Message = match mean_recovery(&spikes.iter().map(|s| &s.recovery).collect::<Vec<_>>()) {
                Some(m) => verdict::NoSpikeHere { element, recovery: m.in_percent().shown(2.0) }.into(),
                None => verdict::NoSpike { element }.into(),
            };
            return Finding::new(Check::NumberRecovery, Outcome::NotKnown, says);
        };
        let low = self.rules.limit(Check::NumberRecovery, 0.8);
        let high = 2.0 - low;
        let inside = (low..=high).contains(&mean.value);
        // An expanded u of more than half the window on either side decides nothing.
        let wide = 2.0 * mean.u > (high - low);
        let outcome = if wide {
            Outcome::NotKnown
        } else if inside {
            Outcome::Met
        } else {
            Outcome::NotMet
        };
        let (spikes, recovery) = (message::count(here.len()), mean.in_percent().shown(2.0));
        let low = Shown::significant(100.0 * low, 3, "");
        let high = Share::new(high, Digits::Significant(3));
        let says: Message = match outcome {
            Outcome::NotKnown => verdict::RecoveryUncertain { spikes, element, recovery, low, high }.into(),
            Outcome::Met => verdict::RecoveryWithin { spikes, element, recovery, low, high }.into(),
            Outcome::NotMet => verdict::RecoveryOutside { spikes, element, recovery, low, high }.into(),
        };
        Finding::new(Check::NumberRecovery, outcome, says)
            .comparing(message::compared::Recovery, Amount::Measured(mean))
    }

    /// The number and its verdict with everything put back that a person took out: met where the verdict and the first
    /// digit stay. What all runs together say (charts, the joint fit of a trip) is taken as it stands.
    fn put_back(
        &self,
        back: &Self,
        r: &RunResult,
        bottle: &Bottle,
        subject: &str,
        findings: &[Finding],
    ) -> Option<Finding> {
        let index = back.reduced.find(r.position, &r.analyte)?;
        let theirs = &back.reduced.results[index];
        let (now, with) = (Number::of(&self.seen, bottle, r), Number::of(&back.seen, bottle, theirs));
        if now == with {
            return None;
        }
        let mut taken = put_back::taken_out(self.prepared, &r.analyte);
        if taken.is_empty() {
            let water = self.standing.waters.of_bottle(&bottle.label)?;
            taken = self.seen.taken_out(water, &r.analyte).into_iter().map(|o| o.bottle.label.clone()).collect();
        }
        let taken: Vec<Arg> = taken.into_iter().map(|name| Arg::Name(name.into())).collect();
        let signed = self.signed.contains_key(subject);
        let word = self.rules.judge(findings, signed).word;
        let word_with = self.rules.judge(&back.findings(index, theirs, bottle, subject), signed).word;
        let said = (now.said(word), with.said(word_with));
        let (outcome, says): (_, Message) = if word == word_with && now.reads_as(&with) {
            (Outcome::Met, verdict::PutBackStands { taken, now: said.0, with: said.1 }.into())
        } else {
            (Outcome::NotMet, verdict::PutBackHangs { taken, now: said.0, with: said.1 }.into())
        };
        let finding = Finding::new(Check::NumberPutBack, outcome, says);
        Some(match (now, with) {
            (Number::Value(now), Number::Value(with)) => finding
                .comparing(message::compared::AsItStands, Amount::Measured(now))
                .comparing(message::compared::WithAllPutBack, Amount::Measured(with)),
            _ => finding,
        })
    }

    /// Results that no longer come out because a person took bottle, vial or isotope out of the
    /// evidence: what stands of them is not to be used.
    fn taken_out(&self, store: &Store, derived: &[Case]) -> Result<Vec<Case>, Error> {
        let derived: std::collections::HashSet<&str> = derived.iter().map(|c| c.subject.as_str()).collect();
        let by_row: HashMap<i64, &Bottle> = self.by_label.values().filter(|b| is_water(b)).map(|b| (b.id, b)).collect();
        let mut cases = Vec::new();
        for vial in self.prepared.vials() {
            let Some(bottle) = vial.bottle_id.and_then(|b| by_row.get(&b)) else { continue };
            let Some(why) = self.excluded.vial_or_bottle(vial.id, bottle.id) else { continue };
            for r in store.results(&Filter::all().is("bottle", bottle.id).latest())? {
                if r.vial_id != Some(vial.id) || derived.contains(r.subject.as_str()) {
                    continue;
                }
                cases.push(Case::by_table(r.subject, vec![crate::results::taken_out(&why, bottle)]));
            }
        }
        cases.sort_by(|a, b| a.subject.cmp(&b.subject));
        Ok(cases)
    }
}

/// Results of a run that can no longer be reduced: they stand as they were derived last, do not follow from the
/// evidence any more, and are not to be used.
///
/// # Errors
/// The store cannot be read.
pub fn of_stuck_run(store: &Store, run: i64, why: Message) -> Result<Vec<Case>, Error> {
    let vials: BTreeSet<i64> = store.vials(run)?.into_iter().map(|v| v.id).collect();
    let water: BTreeSet<i64> = store.bottles(&Filter::all())?.iter().filter(|b| is_water(b)).map(|b| b.id).collect();
    let rows = store.results(&Filter::all().latest().has("vial"))?.into_iter();
    let of_run = rows.filter(|r| r.vial_id.is_some_and(|v| vials.contains(&v)) && water.contains(&r.bottle_id));
    let finding = Finding::new(crate::results::TAKEN_OUT, Outcome::NotMet, verdict::Underivable { why });
    Ok(of_run.map(|r| Case::by_table(r.subject, vec![finding.clone()])).collect())
}

/// What the bottles of a water say of it, for a look at it with everything put back.
#[derive(Debug, Clone, PartialEq)]
enum Number {
    Value(Measured),
    AtMost(f64, Unit),
    /// Bottles that disagree.
    Apart(Vec<(String, Measured)>),
}

impl Number {
    /// The common value of the bottle's water; of a bottle that no other stands beside, its own.
    fn of(seen: &Seen, bottle: &Bottle, r: &RunResult) -> Self {
        match seen.common_of(bottle, &r.analyte) {
            Some(Answer::Value(c)) => Self::Value(c.value),
            Some(Answer::AtMost { most, common, .. }) => Self::AtMost(most, common.value.unit),
            Some(Answer::Apart(values)) => {
                Self::Apart(values.into_iter().filter(|v| !v.2).map(|(label, net, _)| (label, net)).collect())
            }
            None if r.state == State::NotDetected || r.bears == Bears::AtMost => {
                Self::AtMost(r.upper_bound, r.net.unit.clone())
            }
            None => Self::Value(r.net.clone()),
        }
    }

    /// The same to the first digit.
    fn reads_as(&self, other: &Self) -> bool {
        let digit = |a: f64, b: f64| quantity::format::significant(a, 1) == quantity::format::significant(b, 1);
        match (self, other) {
            (Self::Value(a), Self::Value(b)) => digit(a.value, b.value),
            (Self::AtMost(a, _), Self::AtMost(b, _)) => digit(*a, *b),
            (Self::Apart(a), Self::Apart(b)) => {
                a.len() == b.len() && a.iter().zip(b).all(|(a, b)| a.0 == b.0 && digit(a.1.value, b.1.value))
            }
            _ => false,
        }
    }

    fn said(&self, word: VerdictWord) -> Message {
        let verdict = crate::verdict::said(word);
        let shown = |m: &Measured| m.shown(crate::results::coverage_k(m.dof));
        match self {
            Self::Value(m) => verdict::NumberAndVerdict { amount: shown(m), verdict }.into(),
            Self::AtMost(bound, unit) => {
                let bound = Shown::significant(*bound, 2, unit.to_string());
                verdict::BoundAndVerdict { bound, verdict }.into()
            }
            Self::Apart(values) => {
                let values = values.iter().map(|(_, m)| Arg::Amount(shown(m))).collect();
                verdict::NoNumberAndVerdict { values, verdict }.into()
            }
        }
    }
}

fn detected(r: &RunResult) -> Finding {
    let name = Check::NumberDetected;
    let unit = &r.net.unit;
    let Some(l) = &r.limits else {
        return Finding::new(name, Outcome::NotKnown, Message::from(verdict::NoLimits));
    };
    let shown = |x: f64| Shown::significant(x, 2, unit.to_string());
    let (net, critical, detection) = (shown(r.net.value), shown(l.critical_value), shown(l.detection_limit));
    let (outcome, says): (_, Message) = match (r.state, r.vial_scatter) {
        (State::NotDetected, _) => {
            let bound = Shown::bound(r.upper_bound, unit.to_string());
            (Outcome::NotMet, verdict::NotDetected { net, critical, bound, detection }.into())
        }
        (State::NotDecided, Some(s)) => {
            (Outcome::NotKnown, verdict::NotDecided { net, critical, needed: shown(s.needed) }.into())
        }
        _ => (Outcome::Met, verdict::Detected { net, critical, detection }.into()),
    };
    Finding::new(name, outcome, says)
        .comparing(message::compared::Net, Amount::Measured(r.net.clone()))
        .comparing(message::compared::CriticalValue, Amount::stated(l.critical_value, unit.clone()))
}

/// A vial that scatters more than the others of its run, where that decides what may be claimed.
fn vial_scatter(r: &RunResult) -> Option<Finding> {
    let s = r.vial_scatter.filter(|_| r.state == State::NotDecided)?;
    let unit = &r.net.unit;
    let says = verdict::VialScatter {
        vial: r.vial.as_str().into(),
        times: Shown::significant(s.times, 2, ""),
        needed: Shown::significant(s.needed, 2, unit.to_string()),
    };
    Some(
        Finding::new(Check::NumberVialScatter, Outcome::NotMet, Message::from(says))
            .comparing(message::compared::Net, Amount::Measured(r.net.clone()))
            .comparing(message::compared::NetNeeded, Amount::stated(s.needed, unit.clone())),
    )
}

/// Few values behind an uncertainty that widen the interval beyond the programme's coverage factor.
fn few_degrees(r: &RunResult, limit: f64) -> Option<Finding> {
    let worst = r.known_worst.as_ref().filter(|_| r.coverage_k > limit)?;
    let factor = |x: f64| Shown::significant(x, 2, "");
    let (k, dof, then) = (factor(r.coverage_k), Shown::trimmed(worst.dof, 2, ""), factor(worst.one_more_k));
    let says: Message = match worst.few {
        FewOf::Blanks => verdict::FewBlanks { k, dof, then }.into(),
        FewOf::DriftChecks => verdict::FewChecks { k, dof, then }.into(),
        FewOf::Replicates => verdict::FewReplicates { k, dof, then }.into(),
        FewOf::Spikes => verdict::FewSpikes { k, dof, then }.into(),
        FewOf::Others => verdict::FewValues { k, dof, then }.into(),
    };
    Some(
        Finding::new(Check::NumberFewDegrees, Outcome::NotMet, says)
            .comparing(message::compared::CoverageFactor, Amount::stated(r.coverage_k, Unit::one()))
            .comparing(message::compared::DegreesOfFreedom, Amount::stated(r.net.dof, Unit::one())),
    )
}

/// Mean of recoveries. They share the unspiked water, so the u of the mean is taken as that of a
/// single one, or the scatter of the mean where that is larger.
pub(crate) fn mean_recovery(all: &[&Measured]) -> Option<Measured> {
    let of = |f: fn(&Measured) -> f64| -> Vec<f64> { all.iter().map(|m| f(m)).collect() };
    let values = Moments::of(&of(|m| m.value))?;
    let u = Moments::of(&of(|m| m.u))?.mean;
    let dof = all.iter().map(|m| m.dof).fold(f64::INFINITY, f64::min);
    Some(Measured::with_dof(values.mean, u.max(values.u_mean().unwrap_or(0.0)), dof, Unit::one()))
}

/// A case whose findings or verdict differ from what stands.
struct Fresh {
    case: Case,
    judged: Judged,
    /// What stands.
    old: Option<model::Verdict>,
}

/// Cases whose findings or verdict differ from what stands; and how many stand.
fn fresh(store: &Store, cases: Vec<Case>) -> Result<(Vec<Fresh>, usize), Error> {
    if cases.is_empty() {
        return Ok((vec![], 0));
    }
    let (rules, profiles) = (Rules::new(store.check_rules()?), Profiles::of(store)?);
    let signed: std::collections::HashSet<String> = store.sign_offs()?.into_iter().map(|s| s.subject).collect();
    let (mut fresh, mut unchanged) = (vec![], 0);
    for case in cases {
        let profile = case.profile.as_deref().and_then(|name| profiles.get(name));
        let judged = rules.judge_by(profile, &case.findings, signed.contains(&case.subject));
        let old = standing(store, &case.subject)?;
        let stands = match &old {
            Some(old) => same_verdict(old, &judged) && findings_of(store, old)? == case.findings,
            None => false,
        };
        if stands {
            unchanged += 1;
        } else {
            fresh.push(Fresh { case, judged, old });
        }
    }
    Ok((fresh, unchanged))
}

/// The newest verdict on a subject.
fn standing(store: &Store, subject: &str) -> Result<Option<model::Verdict>, StoreError> {
    let Some(subject) = store.list::<model::Subject>(&Filter::all().is("key", subject))?.pop() else { return Ok(None) };
    Ok(store.list(&Filter::all().is("subject", subject.id).latest())?.pop())
}

fn same_verdict(old: &model::Verdict, judged: &Judged) -> bool {
    old.verdict == judged.word && old.reasons == json!(judged.reasons) && old.profile == judged.profile
}

/// Keeps cases whose findings or verdict differ from what stands.
///
/// # Errors
/// The store cannot be read or written.
pub fn keep(store: &mut Store, cases: Vec<Case>, author: &str, at: &str) -> Result<Assessed, Error> {
    let (fresh, unchanged) = fresh(store, cases)?;
    let turned = |f: &Fresh| {
        let old = f.old.as_ref().filter(|old| old.verdict != f.judged.word)?;
        Some((f.case.subject.clone(), old.verdict, f.judged.word))
    };
    let done = Assessed { written: fresh.len(), unchanged, changed: fresh.iter().filter_map(turned).collect() };
    if !fresh.is_empty() {
        let info = assessment(fresh.len(), author, at);
        store.act(&info, |act| fresh.iter().try_for_each(|f| write(act, &f.case, &f.judged)))?;
    }
    Ok(done)
}

/// What is said of an act that judges.
pub(crate) fn assessment(subjects: usize, author: &str, at: &str) -> ActInfo {
    ActInfo {
        kind: "assessment".into(),
        author: author.into(),
        at: at.into(),
        body: json!({ "subjects": subjects, "engine": ENGINE }),
    }
}

/// Verdicts and findings that do not come out as they stand.
///
/// # Errors
/// The store cannot be read.
pub fn differences(store: &Store, cases: Vec<Case>) -> Result<Vec<Differs>, Error> {
    let (fresh, _) = fresh(store, cases)?;
    fresh.iter().map(|f| f.differs(store)).collect()
}

impl Fresh {
    fn differs(&self, store: &Store) -> Result<Differs, Error> {
        let subject = &self.case.subject;
        let Some(old) = &self.old else {
            return Ok(Differs { sentence: format!("{subject} was never judged"), way: Way::Missing });
        };
        if !same_verdict(old, &self.judged) {
            let reasons = old.reasons.as_array().into_iter().flatten().filter_map(|r| r.as_str());
            let stands = in_words(old.verdict, old.profile.as_deref(), reasons);
            let reasons = self.judged.reasons.iter().map(String::as_str);
            let now = in_words(self.judged.word, self.judged.profile.as_deref(), reasons);
            let sentence = format!("verdict on {subject}: stands as {stands}, comes out as {now}");
            return Ok(Differs { sentence, way: Way::Value });
        }
        let said = |f: &Finding| (f.check, f.outcome, f.compared.clone());
        let kept: Vec<_> = findings_of(store, old)?.iter().map(said).collect();
        let now: Vec<_> = self.case.findings.iter().map(said).collect();
        let way = if kept == now { Way::Wording } else { Way::Value };
        Ok(Differs { sentence: format!("the findings on {subject} come out differently"), way })
    }
}

/// `provisional: air.class, number.recovery`.
fn in_words<'a>(word: VerdictWord, profile: Option<&str>, reasons: impl Iterator<Item = &'a str>) -> String {
    let reasons = reasons.collect::<Vec<_>>().join(", ");
    let word = crate::verdict::said_by(word, profile).in_english();
    if reasons.is_empty() { word } else { format!("{word}: {reasons}") }
}

/// The findings that a verdict stands on.
///
/// # Errors
/// The store cannot be read.
pub fn findings_of(store: &Store, verdict: &model::Verdict) -> Result<Vec<Finding>, StoreError> {
    Ok(store.findings(verdict.subject_id)?.into_iter().filter(|f| f.revision == verdict.revision).map(kept).collect())
}

/// Check and sentence of a finding as they are shown.
pub fn shown<'f>(check_name: &str, sentence: &'f str) -> (Check, Cow<'f, str>) {
    match Check::from_text(check_name) {
        Some(check) => (check, sentence.into()),
        None => (Check::RecordFormerCheck, format!("{check_name}: {sentence}").into()),
    }
}

/// A finding as it was kept. One of a check that this program does not know (another version made it) keeps the check's
/// name in the sentence.
fn kept(f: model::FindingRow) -> Finding {
    let (check, sentence) = shown(&f.check_name, &f.sentence);
    let sentence = sentence.into_owned();
    Finding {
        check,
        stage: f.stage,
        outcome: f.outcome,
        // One that this program cannot read (another version's) leaves its English.
        message: f.message.and_then(|m| serde_json::from_value(m).ok()),
        sentence,
        language: quantity::Lang::En,
        compared: f.compared,
        place: None,
    }
}

/// A finding in the letters in which the record keeps it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Written {
    check: &'static str,
    stage: String,
    outcome: String,
    sentence: String,
    compared: String,
    message: Option<String>,
}

impl Written {
    pub(crate) fn of(f: &Finding) -> Self {
        Self {
            check: f.check.text(),
            stage: word(&f.stage),
            outcome: word(&f.outcome),
            sentence: f.sentence.clone(),
            compared: serde_json::to_string(&f.compared).expect("numbers are plain data"),
            message: f.message.as_ref().map(|m| serde_json::to_string(m).expect("arguments are plain data")),
        }
    }

    /// Whether the record holds it in just these letters. In others it may still say the same: then it is read.
    pub(crate) fn stands_in(&self, kept: &model::FindingText) -> bool {
        (self.check, self.stage.as_str(), self.outcome.as_str()) == (&kept.check_name, &kept.stage, &kept.outcome)
            && (self.sentence.as_str(), self.compared.as_str()) == (&kept.sentence, &kept.compared)
            && self.message == kept.message
    }
}

fn write(act: &mut Act, case: &Case, judged: &Judged) -> Result<(), StoreError> {
    let findings: Vec<Written> = case.findings.iter().map(Written::of).collect();
    let subject = act.ensure("subject", &[Cell::Text(&case.subject)])?;
    write_on(act, subject, findings.iter(), judged)
}

/// Writes the next verdict on a subject, with its findings.
pub(crate) fn write_on<'f>(
    act: &mut Act,
    subject: i64,
    findings: impl Iterator<Item = &'f Written>,
    judged: &Judged,
) -> Result<(), StoreError> {
    let revision = act.next_revision("verdict", &[Cell::Integer(subject)])?;
    for f in findings {
        let mut cells = NamedCells::new("finding");
        cells.integer("subject", subject).integer("revision", revision).text("check_name", f.check);
        cells.text("stage", &f.stage).text("outcome", &f.outcome);
        cells.text("sentence", &f.sentence).text("compared", &f.compared);
        if let Some(message) = &f.message {
            cells.text("message", message);
        }
        cells.insert(act)?;
    }
    let reasons = serde_json::to_string(&judged.reasons).expect("names are plain data");
    let mut cells = NamedCells::new("verdict");
    cells.integer("subject", subject).integer("revision", revision).text("verdict", judged.word.word());
    cells.text("reasons", &reasons).text("engine", DERIVED_BY);
    if let Some(profile) = &judged.profile {
        cells.text("profile", profile);
    }
    cells.insert(act)?;
    Ok(())
}

/// The word that serde writes.
fn word<T: serde::Serialize>(value: &T) -> String {
    match serde_json::to_value(value) {
        Ok(serde_json::Value::String(s)) => s,
        _ => unreachable!("stages and outcomes are written as words"),
    }
}
