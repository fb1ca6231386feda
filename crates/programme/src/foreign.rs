//! Results that a laboratory reported as concentrations, judged by what the programme holds
//! beside them: blanks of the same analyte and fraction, replicate sets, and what the report says
//! of its own uncertainty and limits. All results of one series (analyte, fraction, state) stand
//! on the same evidence and share one verdict.
//!
//! Blanks: the limit that, with 95 % confidence, no more than 10 % of samples handled alike exceed
//! (order statistics; censored blanks count at their limit), or "cannot be given with this few".
//! Replicates: root mean square of the relative differences over √2, sets with two or more values.

use crate::assess::Case;
use crate::error::Error;
use crate::meaning::{Meanings, Water};
use crate::model::{Bottle, BottleKind, Censor, ResultRow, State};
use crate::results::amount;
use crate::store::{Filter, Store};
use crate::verdict::Rules;
use measurement::blank::{OrderLimit, percentile_limit};
use quantity::format::significant;
use quantity::{Amount, Finding, Outcome, Stage, Unit};
use std::collections::{BTreeMap, HashMap};

/// Prefix of the subjects that speak of a whole series.
const SERIES: &str = "series:";

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
pub(crate) fn cases(store: &Store, rows: &[ResultRow], meanings: &Meanings, rules: &Rules) -> Result<Vec<Case>, Error> {
    let bottles: HashMap<i64, Bottle> = store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)).collect();
    let mut evidence: HashMap<Key, Evidence> = HashMap::new();
    let reported: Vec<&ResultRow> = rows.iter().filter(|r| r.vial_id.is_none()).collect();
    for r in &reported {
        let Some(b) = bottles.get(&r.bottle_id) else { continue };
        let e = evidence.entry((r.analyte.clone(), r.fraction.clone())).or_default();
        e.add(r, b)?;
    }
    let mut subjects: BTreeMap<&str, (usize, &ResultRow, Option<&Bottle>)> = BTreeMap::new();
    for r in &reported {
        let b = bottles.get(&r.bottle_id);
        if b.is_some_and(|b| matches!(b.kind, BottleKind::Sample | BottleKind::Duplicate)) {
            subjects.entry(&r.subject).or_insert((0, r, b)).0 += 1;
        }
    }
    let mut out = Vec::new();
    for (subject, (n, first, bottle)) in subjects {
        let none = Evidence::default();
        let e = evidence.get(&(first.analyte.clone(), first.fraction.clone())).unwrap_or(&none);
        let mut findings = e.findings(first, rules);
        if !subject.starts_with(SERIES) {
            findings.extend(bottle.map(|b| meanings.findings(Water::of(b))).unwrap_or_default());
        } else if let Some(f) = findings.first_mut() {
            f.sentence = format!("{} ({n} results of the series stand on this evidence.)", f.sentence);
        }
        findings.sort_by_key(|f| f.stage);
        out.push(Case { subject: subject.to_string(), findings });
    }
    Ok(out)
}

impl Evidence {
    fn add(&mut self, r: &ResultRow, b: &Bottle) -> Result<(), Error> {
        let Some(a) = amount(r)? else { return Ok(()) };
        let unit = self.unit.get_or_insert(a.unit().clone()).clone();
        let Ok(a) = a.convert(&unit, None, None) else { return Ok(()) };
        match b.kind {
            BottleKind::FieldBlank | BottleKind::TripBlank | BottleKind::EquipmentBlank | BottleKind::BottleBlank => {
                let found = r.censor == Censor::Equal && r.state != State::NotDetected;
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
        Ok(())
    }

    fn findings(&self, r: &ResultRow, rules: &Rules) -> Vec<Finding> {
        let mut out = vec![self.blank_finding(r), uncertainty(r), self.replicates(r)];
        out.push(if self.spikes {
            Finding::new(
                "number.recovery",
                Stage::Number,
                Outcome::Met,
                format!("Spikes of {} are on record.", r.analyte),
            )
        } else {
            Finding::new(
                "number.recovery",
                Stage::Number,
                Outcome::NotKnown,
                format!("No spike of {} at its level is on record; a low number may be lost metal.", r.analyte),
            )
        });
        match r.state {
            State::Estimated => out.push(Finding::new(
                "number.estimated",
                Stage::Number,
                Outcome::NotMet,
                "The laboratory itself calls the value an estimate.",
            )),
            State::NotDetected => out.push(limit(r)),
            _ => {}
        }
        let _ = rules;
        out
    }

    fn blank_finding(&self, r: &ResultRow) -> Finding {
        let name = "number.blanks";
        let of = format!("{}, {}", r.analyte, r.fraction);
        if self.blanks.is_empty() {
            return Finding::new(name, Stage::Number, Outcome::NotKnown, format!("No blank of {of} is on record."));
        }
        let n = self.blanks.len();
        let found = self.blanks.iter().filter(|b| b.1).count();
        let values: Vec<f64> = self.blanks.iter().map(|b| b.0).collect();
        let unit = self.unit.clone().unwrap_or_else(Unit::one);
        let head = format!("{of} was found in {found} of {n} blanks");
        match percentile_limit(&values, 0.90, 0.95) {
            OrderLimit::Given { limit, .. } => Finding::new(
                name,
                Stage::Number,
                Outcome::Met,
                format!("{head}; with 95 % confidence no more than a tenth of samples handled alike hold more than {} {unit} from elsewhere.", significant(limit, 2)),
            )
            .comparing("limit of the blanks", Amount::below(limit, unit)),
            OrderLimit::TooFew { needed, .. } => Finding::new(
                name,
                Stage::Number,
                Outcome::NotKnown,
                format!("{head}; a limit for nine samples in ten cannot be given with this few: it takes {needed}."),
            ),
        }
    }

    fn replicates(&self, r: &ResultRow) -> Finding {
        let name = "number.replicates";
        let mut sum = 0.0;
        let mut pairs = 0usize;
        for values in self.sets.values().filter(|v| v.len() > 1) {
            for pair in values.windows(2) {
                let mean = 0.5 * (pair[0] + pair[1]);
                if mean > 0.0 {
                    sum += ((pair[0] - pair[1]) / mean).powi(2);
                    pairs += 1;
                }
            }
        }
        if pairs == 0 {
            return Finding::new(
                name,
                Stage::Number,
                Outcome::NotKnown,
                format!("No replicate set of {}, {}, with two values is on record.", r.analyte, r.fraction),
            );
        }
        // A difference has √2 times the spread of a single value.
        let relative = (sum / pairs as f64 / 2.0).sqrt();
        Finding::new(
            name,
            Stage::Number,
            Outcome::Met,
            format!("{pairs} replicate pairs give a relative standard deviation of {} % for one value: what the report itself does not state.", significant(100.0 * relative, 2)),
        )
        .comparing("relative standard deviation from replicates", Amount::stated(100.0 * relative, Unit::known("%")))
    }
}

fn uncertainty(r: &ResultRow) -> Finding {
    let name = "number.uncertainty";
    if r.u.is_some() {
        return Finding::new(name, Stage::Number, Outcome::Met, "The laboratory states the uncertainty of its value.");
    }
    let what = if r.censor == Censor::Equal {
        "The laboratory states no uncertainty of its value."
    } else {
        "A censored value carries no uncertainty."
    };
    Finding::new(name, Stage::Number, Outcome::NotKnown, what)
}

fn limit(r: &ResultRow) -> Finding {
    let name = "number.limit";
    match (r.limit_value.or(r.reporting_limit), &r.reporting_limit_kind) {
        (Some(_), Some(kind)) => {
            Finding::new(name, Stage::Number, Outcome::Met, format!("Not detected below a limit of kind {kind}."))
        }
        (Some(_), None) => Finding::new(
            name,
            Stage::Number,
            Outcome::Met,
            "Not detected below a stated limit; of what kind the limit is, the report does not say.",
        ),
        (None, _) => Finding::new(
            name,
            Stage::Number,
            Outcome::NotKnown,
            "Not detected, but the report does not say below what.",
        ),
    }
}
