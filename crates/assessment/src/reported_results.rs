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

use crate::assess::Case;
use crate::chemistry_checks::{ChemistryChecks, Water};
use crate::derive::Excluded;
use crate::laboratory::{self, Quality};
use crate::profiles::{self, Profiles};
use crate::results::{amount, unread};
use measurement::blank::{OrderLimit, percentile_limit};
use message::{Message, Shown, verdict};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use record::error::Error;
use record::identity::speaks_of_series;
use record::model::{Bottle, BottleKind, Censor, ResultRow, State};
use record::store::{Filter, Store};
use std::collections::{BTreeMap, HashMap};

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

/// Cases of all reported results.
///
/// # Errors
/// The store cannot be read.
pub fn cases(store: &Store, rows: &[ResultRow], meanings: &ChemistryChecks) -> Result<Vec<Case>, Error> {
    let bottles: HashMap<i64, Bottle> = store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)).collect();
    let mut evidence: HashMap<Key, Evidence> = HashMap::new();
    let reported: Vec<&ResultRow> = rows.iter().filter(|r| r.vial_id.is_none()).collect();
    let excluded = Excluded::read(store)?;
    for r in &reported {
        let Some(b) = bottles.get(&r.bottle_id).filter(|b| excluded.bottle(b.id).is_none()) else { continue };
        let e = evidence.entry((r.analyte.clone(), r.fraction.clone())).or_default();
        e.add(r, b);
    }
    let mut subjects: BTreeMap<&str, (usize, &ResultRow, Option<&Bottle>)> = BTreeMap::new();
    for r in &reported {
        let b = bottles.get(&r.bottle_id);
        if b.is_some_and(|b| b.kind.is_water()) {
            subjects.entry(&r.subject).or_insert((0, r, b)).0 += 1;
        }
    }
    let by_profile = ByProfile::of(store, &reported, &bottles, &excluded)?;
    let mut out = Vec::new();
    for (subject, (n, first, bottle)) in subjects {
        let none = Evidence::default();
        let e = evidence.get(&(first.analyte.clone(), first.fraction.clone())).unwrap_or(&none);
        let mut findings = e.findings(first);
        // The chemistry of one water says nothing of the other waters of a series.
        if !speaks_of_series(subject) {
            findings.extend(bottle.map(|b| meanings.findings(Water::of(b))).unwrap_or_default());
        } else if let Some(f) = findings.first_mut() {
            crate::say::more(
                f,
                |finding| verdict::Series { finding, results: message::count(n) },
                |text| format!("{text} ({n} results of the series stand on this evidence.)"),
            );
        }
        let profile = by_profile.judge(subject, &mut findings);
        findings.sort_by_key(|f| f.stage);
        out.push(Case { subject: subject.to_string(), findings, profile });
    }
    Ok(out)
}

/// What the chosen profiles look at; empty where nobody chose one.
struct ByProfile<'a> {
    profiles: Profiles,
    quality: Quality,
    /// Results of waters by the subject of their verdict, those taken out left out.
    of: HashMap<&'a str, Vec<laboratory::Of<'a>>>,
}

impl<'a> ByProfile<'a> {
    fn of(
        store: &Store,
        reported: &[&'a ResultRow],
        bottles: &'a HashMap<i64, Bottle>,
        excluded: &Excluded,
    ) -> Result<Self, Error> {
        let profiles = Profiles::of(store)?;
        let mut of: HashMap<&str, Vec<laboratory::Of>> = HashMap::new();
        if profiles.is_empty() {
            return Ok(Self { profiles, quality: Quality::default(), of });
        }
        for r in reported.iter().copied() {
            let bottle = bottles.get(&r.bottle_id).filter(|b| b.kind.is_water() && excluded.bottle(b.id).is_none());
            if let Some(bottle) = bottle {
                of.entry(&r.subject).or_default().push((r, bottle));
            }
        }
        Ok(Self { profiles, quality: Quality::of(store.laboratory_quality()?), of })
    }

    /// The profile that judges a verdict, if one does; what it looks at is added.
    fn judge(&self, subject: &str, findings: &mut Vec<Finding>) -> Option<String> {
        let of = self.of.get(subject)?;
        let (profile, choice) = self.profiles.of_all(of.iter().map(|(r, _)| *r))?;
        findings.push(profiles::finding(profile, choice));
        findings.extend(laboratory::findings(of, &self.quality, profile));
        Some(profile.name.clone())
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
