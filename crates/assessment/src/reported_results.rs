//! Results that a laboratory reported as concentrations, judged by what the programme holds
//! beside them: blanks of the same analyte and fraction, replicate sets, and what the report says
//! of its own uncertainty and limits. All results of one series (analyte, fraction, state) stand
//! on the same evidence and share one verdict.
//!
//! Blanks: the limit that, with 95 % confidence, no more than 10 % of samples handled alike exceed
//! (order statistics; censored blanks count at their limit), or "cannot be given with this few".
//! Replicates: root mean square of the relative differences over √2 (of the plain ones where values
//! go through zero), sets with two or more values.
//!
//! Where a person chose a profile of checks for all results of a verdict, what their laboratory says of its own quality
//! is looked at as well ([`crate::laboratory`]), and the profile judges.

use crate::assess::{self, Assessed, Case, Written};
use crate::chemistry_checks::{ChemistryChecks, Water};
use crate::derive::Excluded;
use crate::laboratory::{self, Quality};
use crate::profiles::{self, Profile, Profiles};
use crate::results::{amount, unread};
use crate::verdict::{Judged, Rules};
use crate::verify::Differs;
use measurement::blank::{OrderLimit, percentile_limit};
use message::{Message, Shown, verdict};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use record::by::By;
use record::error::Error;
use record::identity::speaks_of_series;
use record::model::{self, Bottle, BottleKind, Censor, FindingText, ResultRow, State, VerdictText, VerdictWord};
use record::store::{Cell, Filter, Store, StoreError};
use std::collections::{BTreeMap, HashMap, HashSet, VecDeque};

/// Judges what laboratories reported, and keeps what differs from what stands.
///
/// # Errors
/// The store cannot be read or written.
pub fn keep(store: &mut Store, meanings: &ChemistryChecks, by: By) -> Result<Assessed, Error> {
    let reported = Reported::of(store, meanings)?;
    let (fresh, unchanged) = reported.fresh(store)?;
    let turned = |f: &Fresh| Some((f.key.clone(), f.old.filter(|old| *old != f.judged.word)?, f.judged.word));
    let done = Assessed { written: fresh.len(), unchanged, changed: fresh.iter().filter_map(turned).collect() };
    if !fresh.is_empty() {
        let info = assess::assessment(fresh.len(), by.person, by.at);
        store.act::<_, StoreError>(&info, |act| {
            fresh.iter().try_for_each(|f| {
                let findings = reported.findings(f.subject).map(|s| &s.written);
                assess::write_on(act, f.subject.id, findings, &f.judged)
            })
        })?;
    }
    Ok(done)
}

/// What of it does not come out as it stands.
///
/// # Errors
/// The store cannot be read.
pub fn differences(store: &Store, meanings: &ChemistryChecks) -> Result<Vec<Differs>, Error> {
    let reported = Reported::of(store, meanings)?;
    let (fresh, _) = reported.fresh(store)?;
    assess::differences(store, fresh.into_iter().map(|f| reported.case(f.key, f.subject)).collect())
}

/// The newest of every result that a laboratory reported.
fn newest() -> Filter<'static> {
    Filter::all().is("vial", Cell::Null).latest()
}

/// A finding, and the letters in which the record keeps it.
struct Said {
    finding: Finding,
    written: Written,
}

impl Said {
    fn of(findings: Vec<Finding>) -> Vec<Self> {
        findings.into_iter().map(|finding| Self { written: Written::of(&finding), finding }).collect()
    }
}

/// What the findings of one result hang on beside the evidence of its series: all that are alike say the same.
#[derive(PartialEq, Eq, Hash)]
struct Alike {
    evidence: Option<usize>,
    censor: &'static str,
    state: &'static str,
    has_u: bool,
    has_limit: bool,
    limit_kind: Option<String>,
}

/// What a verdict on reported results speaks of.
struct Subject {
    id: i64,
    /// Place of what its evidence says.
    says: usize,
    /// Place of what its water as a whole says.
    water: Option<usize>,
    /// Place of what the profile that judges it looked at.
    profile: Option<usize>,
}

/// What a profile that judges a verdict looked at.
struct ByProfile {
    profile: String,
    said: Vec<Said>,
}

/// All verdicts on reported results as they come out now. Of a long record it holds a few numbers for each subject: what
/// many results say alike is held once.
struct Reported {
    subjects: Vec<Subject>,
    said: Vec<Vec<Said>>,
    waters: Vec<Vec<Said>>,
    by_profile: Vec<ByProfile>,
    rules: Rules,
    profiles: Profiles,
    /// Subjects for which a person stands.
    signed: HashSet<i64>,
}

/// A verdict that does not stand as it comes out now.
struct Fresh<'a> {
    /// The name of its subject.
    key: String,
    subject: &'a Subject,
    judged: Judged,
    old: Option<VerdictWord>,
}

/// The newest verdict on a subject.
struct Standing {
    revision: i64,
    word: VerdictWord,
    /// Place of its reasons: there are few different ones.
    reasons: usize,
    profile: Option<String>,
}

/// How the findings of a verdict stand in the record.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stands {
    NotSeen,
    InTheseLetters,
    /// In other letters, or more or fewer of them: they are read and compared.
    Otherwise,
}

impl Reported {
    fn of(store: &Store, meanings: &ChemistryChecks) -> Result<Self, Error> {
        let bottles: HashMap<i64, Bottle> = store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)).collect();
        let excluded = Excluded::read(store)?;
        let evidence = AllEvidence::of(store, &bottles, &excluded)?;
        let rules = Rules::new(store.check_rules()?);
        let signed = store.sign_offs()?.into_iter().map(|s| s.subject_id).collect();
        let profiles = Profiles::of(store)?;
        let mut out =
            Self { subjects: vec![], said: vec![], waters: vec![], by_profile: vec![], rules, profiles, signed };
        let (mut alike, mut waters, mut seen) = (HashMap::new(), HashMap::new(), HashSet::new());
        // Of a series its first result, and how many stand on the same evidence.
        let mut series: BTreeMap<i64, (ResultRow, usize)> = BTreeMap::new();
        store.each(&newest(), |r: ResultRow| {
            let Some(b) = bottles.get(&r.bottle_id).filter(|b| b.kind.is_water()) else { return Ok(()) };
            if speaks_of_series(&r.subject) {
                series.entry(r.subject_id).or_insert((r, 0)).1 += 1;
            } else if seen.insert(r.subject_id) {
                let says = out.says(&evidence, &r, &mut alike);
                let water = *waters.entry(Water::of(b)).or_insert_with(|| {
                    out.waters.push(Said::of(meanings.findings(Water::of(b))));
                    out.waters.len() - 1
                });
                out.subjects.push(Subject { id: r.subject_id, says, water: Some(water), profile: None });
            }
            Ok(())
        })?;
        // The chemistry of one water says nothing of the other waters of a series.
        for (id, (first, n)) in series {
            out.subjects.push(Subject { id, says: out.said.len(), water: None, profile: None });
            out.said.push(Said::of(evidence.of_series(&first, n)));
        }
        out.judged_by_profiles(store, &bottles, &excluded)?;
        Ok(out)
    }

    /// Which verdicts a profile judges, and what it looked at. Nothing is read where nobody chose one.
    fn judged_by_profiles(
        &mut self,
        store: &Store,
        bottles: &HashMap<i64, Bottle>,
        excluded: &Excluded,
    ) -> Result<(), Error> {
        if self.profiles.is_empty() {
            return Ok(());
        }
        let quality = Quality::of(store.laboratory_quality()?);
        // Results of waters by the subject of their verdict, those taken out left out.
        let mut rows: HashMap<i64, Vec<ResultRow>> = HashMap::new();
        let counts = |b: &Bottle| b.kind.is_water() && excluded.bottle(b.id).is_none();
        store.each(&newest(), |r: ResultRow| {
            if bottles.get(&r.bottle_id).is_some_and(counts) {
                rows.entry(r.subject_id).or_default().push(r);
            }
            Ok(())
        })?;
        for subject in &mut self.subjects {
            let Some(rows) = rows.get(&subject.id) else { continue };
            let Some((profile, choice)) = self.profiles.of_all(rows.iter()) else { continue };
            let of: Vec<laboratory::Of> = rows.iter().map(|r| (r, &bottles[&r.bottle_id])).collect();
            let mut findings = vec![profiles::finding(profile, choice)];
            findings.extend(laboratory::findings(&of, &quality, profile));
            subject.profile = Some(self.by_profile.len());
            self.by_profile.push(ByProfile { profile: profile.name.clone(), said: Said::of(findings) });
        }
        Ok(())
    }

    /// The profile that judges a subject.
    fn profile(&self, subject: &Subject) -> Option<&Profile> {
        subject.profile.and_then(|place| self.profiles.get(&self.by_profile[place].profile))
    }

    /// Place of what is said of a result by its evidence.
    fn says(&mut self, evidence: &AllEvidence, r: &ResultRow, alike: &mut HashMap<Alike, usize>) -> usize {
        let place = self.said.len();
        // What cannot be read names its row.
        if unread(r).is_some() {
            self.said.push(Said::of(evidence.of_result(r).findings(r)));
            return place;
        }
        let key = Alike {
            evidence: evidence.by_measurand.get(&r.measurand_id).copied(),
            censor: r.censor.word(),
            state: r.state.word(),
            has_u: r.u.is_some(),
            has_limit: r.limit_value.or(r.reporting_limit).is_some(),
            limit_kind: r.reporting_limit_kind.clone(),
        };
        // A measurand without evidence of its own may be of any analyte.
        if key.evidence.is_none() {
            self.said.push(Said::of(evidence.of_result(r).findings(r)));
            return place;
        }
        *alike.entry(key).or_insert_with(|| {
            self.said.push(Said::of(evidence.of_result(r).findings(r)));
            place
        })
    }

    /// All findings of a subject, in the order of the path.
    fn findings(&self, subject: &Subject) -> impl Iterator<Item = &Said> {
        let water = subject.water.map_or(&[][..], |w| &self.waters[w]);
        let profile = subject.profile.map_or(&[][..], |p| &self.by_profile[p].said);
        let mut all: Vec<&Said> = self.said[subject.says].iter().chain(water).chain(profile).collect();
        all.sort_by_key(|s| s.finding.stage);
        all.into_iter()
    }

    fn case(&self, key: String, subject: &Subject) -> Case {
        let profile = self.profile(subject).map(|p| p.name.clone());
        Case { subject: key, findings: self.findings(subject).map(|s| s.finding.clone()).collect(), profile }
    }

    /// Verdicts that differ from what stands, by the names of their subjects; and how many stand.
    fn fresh(&self, store: &Store) -> Result<(Vec<Fresh<'_>>, usize), Error> {
        let mut reasons = Vec::new();
        let standing = Self::standing(store, &mut reasons)?;
        let letters = self.letters(store, &standing)?;
        let (mut fresh, mut unchanged) = (vec![], 0);
        for (subject, letters) in self.subjects.iter().zip(letters) {
            let found: Vec<(Check, Outcome)> =
                self.findings(subject).map(|s| (s.finding.check, s.finding.outcome)).collect();
            let judged = self.rules.judge_outcomes(self.profile(subject), &found, self.signed.contains(&subject.id));
            let old = standing.get(&subject.id);
            let stands = match old {
                Some(old) if same_verdict(old, &reasons[old.reasons], &judged) => {
                    letters == Stands::InTheseLetters || self.says_the_same(store, subject)?
                }
                _ => false,
            };
            if stands {
                unchanged += 1;
            } else {
                fresh.push(Fresh { key: String::new(), subject, judged, old: old.map(|old| old.word) });
            }
        }
        name(store, &mut fresh)?;
        Ok((fresh, unchanged))
    }

    fn standing(store: &Store, reasons: &mut Vec<String>) -> Result<HashMap<i64, Standing>, Error> {
        let mut known: HashMap<String, usize> = HashMap::new();
        let mut out = HashMap::new();
        store.each(&Filter::all().latest(), |v: VerdictText| {
            let place = known.get(&v.reasons).copied().unwrap_or_else(|| {
                known.insert(v.reasons.clone(), reasons.len());
                reasons.push(v.reasons);
                reasons.len() - 1
            });
            let (revision, word, profile) = (v.revision, v.verdict, v.profile);
            out.insert(v.subject_id, Standing { revision, word, reasons: place, profile });
            Ok(())
        })?;
        Ok(out)
    }

    /// How the findings of each subject stand. Those of one verdict were written one after the other.
    fn letters(&self, store: &Store, standing: &HashMap<i64, Standing>) -> Result<Vec<Stands>, Error> {
        let place: HashMap<i64, usize> = self.subjects.iter().enumerate().map(|(i, s)| (s.id, i)).collect();
        let mut out = vec![Stands::NotSeen; self.subjects.len()];
        let mut at: Option<Reading> = None;
        let mut close = |read: Option<Reading>| {
            if let Some(read) = read {
                let same = read.same && read.expected.is_empty() && out[read.place] == Stands::NotSeen;
                out[read.place] = if same { Stands::InTheseLetters } else { Stands::Otherwise };
            }
        };
        store.each(&Filter::all(), |f: FindingText| {
            let Some(place) = place.get(&f.subject_id).copied() else { return Ok(()) };
            if standing.get(&f.subject_id).is_none_or(|s| s.revision != f.revision) {
                return Ok(());
            }
            if at.as_ref().is_none_or(|read| read.place != place) {
                let expected = self.findings(&self.subjects[place]).map(|s| &s.written).collect();
                close(at.replace(Reading { place, expected, same: true }));
            }
            if let Some(read) = &mut at {
                read.same &= read.expected.pop_front().is_some_and(|w| w.stands_in(&f));
            }
            Ok(())
        })?;
        close(at);
        Ok(out)
    }

    /// Whether the findings that stand say what comes out now, whatever their letters.
    fn says_the_same(&self, store: &Store, subject: &Subject) -> Result<bool, Error> {
        let newest = Filter::all().is("subject", subject.id).latest();
        let Some(verdict) = store.list::<model::Verdict>(&newest)?.pop() else { return Ok(false) };
        let kept = assess::findings_of(store, &verdict)?;
        Ok(kept.iter().eq(self.findings(subject).map(|s| &s.finding)))
    }
}

/// Findings of one verdict on their way past.
struct Reading<'a> {
    place: usize,
    expected: VecDeque<&'a Written>,
    same: bool,
}

fn same_verdict(old: &Standing, reasons: &str, judged: &Judged) -> bool {
    let same = || serde_json::from_str::<Vec<String>>(reasons).is_ok_and(|r| r == judged.reasons);
    old.word == judged.word && old.profile == judged.profile && same()
}

/// Gives subjects their names, and puts them in the order of these.
fn name(store: &Store, fresh: &mut [Fresh]) -> Result<(), Error> {
    if fresh.is_empty() {
        return Ok(());
    }
    let place: HashMap<i64, usize> = fresh.iter().enumerate().map(|(i, f)| (f.subject.id, i)).collect();
    store.each(&Filter::all(), |s: model::Subject| {
        if let Some(place) = place.get(&s.id) {
            fresh[*place].key = s.key;
        }
        Ok(())
    })?;
    fresh.sort_by(|a, b| a.key.cmp(&b.key));
    Ok(())
}

type Key = (String, String);

#[derive(Default)]
struct Evidence {
    /// Blanks: value or limit, in µg/L or the series' own unit, and whether found.
    blanks: Vec<(f64, bool)>,
    /// Replicate sets: values in order of the record.
    sets: BTreeMap<String, Vec<f64>>,
    unit: Option<Unit>,
    spikes: bool,
}

/// The evidence of every analyte and fraction.
#[derive(Default)]
struct AllEvidence {
    all: Vec<Evidence>,
    /// Place by row of `measurand`; several may be of one analyte and fraction.
    by_measurand: HashMap<i64, usize>,
    none: Evidence,
}

impl AllEvidence {
    fn of(store: &Store, bottles: &HashMap<i64, Bottle>, excluded: &Excluded) -> Result<Self, Error> {
        let (mut out, mut places) = (Self::default(), HashMap::<Key, usize>::new());
        let mut named = HashMap::new();
        for m in store.list::<model::Measurand>(&Filter::all())? {
            named.insert(m.id, (m.analyte, m.fraction));
        }
        store.each(&newest(), |r: ResultRow| {
            let Some(b) = bottles.get(&r.bottle_id).filter(|b| excluded.bottle(b.id).is_none()) else { return Ok(()) };
            let known = out.by_measurand.contains_key(&r.measurand_id);
            if !known {
                let key = (r.analyte.clone(), r.fraction.clone());
                let place = *places.entry(key).or_insert_with(|| {
                    out.all.push(Evidence::default());
                    out.all.len() - 1
                });
                out.by_measurand.insert(r.measurand_id, place);
            }
            out.all[out.by_measurand[&r.measurand_id]].add(&r, b);
            Ok(())
        })?;
        // Also those of whose results none counts as evidence.
        for (id, key) in named {
            if let Some(place) = places.get(&key) {
                out.by_measurand.entry(id).or_insert(*place);
            }
        }
        Ok(out)
    }

    fn of_result(&self, r: &ResultRow) -> &Evidence {
        self.by_measurand.get(&r.measurand_id).map_or(&self.none, |place| &self.all[*place])
    }

    /// What is said of a series of so many results.
    fn of_series(&self, first: &ResultRow, n: usize) -> Vec<Finding> {
        let mut findings = self.of_result(first).findings(first);
        if let Some(f) = findings.first_mut() {
            crate::say::more(
                f,
                |finding| verdict::Series { finding, results: message::count(n) },
                |text| format!("{text} ({n} results of the series stand on this evidence.)"),
            );
        }
        findings
    }
}

impl Evidence {
    fn add(&mut self, r: &ResultRow, b: &Bottle) {
        let Some(a) = amount(r) else { return };
        let unit = self.unit.get_or_insert(a.unit().clone()).clone();
        let Ok(a) = a.convert(&unit, None, None) else { return };
        match b.kind {
            BottleKind::FieldBlank | BottleKind::TripBlank | BottleKind::EquipmentBlank | BottleKind::BottleBlank => {
                let found = r.censor == Censor::Equal && !matches!(r.state, State::NotDetected | State::NotDecided);
                let value = match &a {
                    Amount::Below(x) | Amount::Above(x) => x.limit,
                    other => other.value().unwrap_or(0.0),
                };
                self.blanks.push((value, found));
            }
            BottleKind::FieldSpike | BottleKind::LabSpike => self.spikes = true,
            _ => {
                if let (Some(set), Some(v)) = (b.set_name.as_ref().or(b.parent.as_ref()), a.value()) {
                    self.sets.entry(set.clone()).or_default().push(v);
                }
            }
        }
    }

    fn findings(&self, r: &ResultRow) -> Vec<Finding> {
        let mut out = vec![self.blank_finding(r), uncertainty(r), self.replicates(r)];
        // A spike on record is not yet a recovery: what was added and what came back must be set against
        // each other, and for reported concentrations nobody has done that here.
        let analyte = r.analyte.as_str().into();
        let says: Message = if self.spikes {
            verdict::SpikesNotWorkedOut { analyte }.into()
        } else {
            verdict::NoSpikeReported { analyte }.into()
        };
        out.push(Finding::new(Check::NumberRecovery, Outcome::NotKnown, says));
        if let Some(why) = unread(r) {
            out.push(Finding::new(Check::NumberUnread, Outcome::NotMet, verdict::ValueUntold { why }));
        }
        match r.state {
            State::Estimated => {
                out.push(Finding::new(Check::NumberEstimated, Outcome::NotMet, Message::from(verdict::Estimate)));
            }
            State::NotDetected => out.push(limit(r)),
            _ => {}
        }
        out
    }

    fn blank_finding(&self, r: &ResultRow) -> Finding {
        let name = Check::NumberBlanks;
        let (analyte, fraction) = (r.analyte.as_str().into(), r.fraction.as_str().into());
        if self.blanks.is_empty() {
            return Finding::new(name, Outcome::NotKnown, Message::from(verdict::NoBlank { analyte, fraction }));
        }
        let n = self.blanks.len();
        let found = self.blanks.iter().filter(|b| b.1).count();
        let values: Vec<f64> = self.blanks.iter().map(|b| b.0).collect();
        let unit = self.unit.clone().unwrap_or_else(Unit::one);
        let (in_blanks, blanks) = (message::count(found), message::count(n));
        let count = |n: usize| Amount::stated(n as f64, Unit::one());
        let finding = match percentile_limit(&values, 0.90, 0.95) {
            OrderLimit::Given { limit, .. } => {
                let shown = Shown::significant(limit, 2, unit.to_string());
                let says = verdict::BlanksLimit { analyte, fraction, found: in_blanks, blanks, limit: shown };
                Finding::new(name, Outcome::Met, Message::from(says))
                    .comparing(message::compared::LimitOfBlanks, Amount::below(limit, unit))
            }
            OrderLimit::TooFew { needed, .. } => {
                let needed = message::count(needed);
                let says = verdict::BlanksFew { analyte, fraction, found: in_blanks, blanks, needed };
                Finding::new(name, Outcome::NotKnown, Message::from(says))
            }
        };
        finding.comparing(message::compared::Blanks, count(n)).comparing(message::compared::FoundIn, count(found))
    }

    fn replicates(&self, r: &ResultRow) -> Finding {
        let name = Check::NumberReplicates;
        let (analyte, fraction) = (r.analyte.as_str().into(), r.fraction.as_str().into());
        let pairs: Vec<[f64; 2]> =
            self.sets.values().flat_map(|v| v.windows(2).map(|w| [w[0], w[1]]).collect::<Vec<_>>()).collect();
        if pairs.is_empty() {
            return Finding::new(name, Outcome::NotKnown, Message::from(verdict::NoReplicates { analyte, fraction }));
        }
        let n = pairs.len();
        // A difference has √2 times the spread of a single value. Net counts go through zero, where a
        // relative spread means nothing: there the spread is told in the unit itself.
        let relative = pairs.iter().all(|p| p[0] > 0.0 && p[1] > 0.0);
        let scale = |p: &[f64; 2]| if relative { 0.5 * (p[0] + p[1]) } else { 1.0 };
        let sum: f64 = pairs.iter().map(|p| ((p[0] - p[1]) / scale(p)).powi(2)).sum();
        let sd = (sum / n as f64 / 2.0).sqrt();
        let (value, unit, what): (_, _, Message) = if relative {
            (100.0 * sd, Unit::known("%"), message::compared::RelativeStandardDeviation.into())
        } else {
            (sd, self.unit.clone().unwrap_or_else(Unit::one), message::compared::StandardDeviation.into())
        };
        let (pairs, sd) = (message::count(n), Shown::significant(value, 2, unit.to_string()));
        let says: Message = if relative {
            verdict::ReplicatesRelative { pairs, sd, analyte, fraction }.into()
        } else {
            verdict::ReplicatesPlain { pairs, sd, analyte, fraction }.into()
        };
        Finding::new(name, Outcome::Met, says)
            .comparing(what, Amount::stated(value, unit))
            .comparing(message::compared::Pairs, Amount::stated(n as f64, Unit::one()))
    }
}

fn uncertainty(r: &ResultRow) -> Finding {
    let name = Check::NumberUncertainty;
    if r.u.is_some() {
        return Finding::new(name, Outcome::Met, Message::from(verdict::UncertaintyStated));
    }
    let says: Message = if r.censor == Censor::Equal {
        verdict::UncertaintyNotStated.into()
    } else {
        verdict::UncertaintyCensored.into()
    };
    Finding::new(name, Outcome::NotKnown, says)
}

fn limit(r: &ResultRow) -> Finding {
    let name = Check::NumberLimit;
    let (outcome, says): (_, Message) = match (r.limit_value.or(r.reporting_limit), &r.reporting_limit_kind) {
        (Some(_), Some(kind)) => (Outcome::Met, verdict::LimitOfKind { kind: kind.as_str().into() }.into()),
        (Some(_), None) => (Outcome::Met, verdict::LimitWithoutKind.into()),
        (None, _) => (Outcome::NotKnown, verdict::LimitNotStated.into()),
    };
    Finding::new(name, outcome, says)
}
