//! What a laboratory says of its own quality, held against the results that a profile judges: method and reporting limit,
//! accreditation, its blanks, recoveries, duplicates and control charts; of a meter its check in a buffer or standard.
//!
//! A row of the record speaks of a result where laboratory, method and analyte are the result's (or the row leaves method
//! or analyte open) and the bottle was filled on one of its days, or is the bottle that it names. All results of one
//! verdict have to be spoken of: one that is not leaves the check not known. A row whose numbers cannot be read in the
//! unit of a result speaks of nothing, and so does a blank whose own bound lies above what would matter.
//!
//! In: the results of a verdict, the rows, the profile with its limits. Out: findings. Checked in
//! `crates/programme/tests/profiles.rs`.

use crate::profiles::Profile;
use message::{Arg, Digits, Message, Share, Shown, count, laboratory as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use record::model::{Answer, Bottle, LaboratoryQuality, ProfileBasis, QualityKind, ResultRow, State};
use std::collections::{BTreeSet, HashMap};

/// Bottles that a finding names, at most.
const NAMED: usize = 3;

/// Below so many reporting limits a duplicate is held against the reporting limit itself.
// US EPA, National Functional Guidelines for inorganic data review: below five times the limit (from memory).
const NEAR_LIMIT: f64 = 5.0;

/// What a meter may be off its standard where a share of the value says nothing: quantity, difference, unit.
// USGS National Field Manual, chapters A6.1, A6.4, A6.5 (from memory).
const METER_OFF: [(&str, f64, &str); 3] = [("pH", 0.1, "pH"), ("Eh", 10.0, "mV"), ("temperature", 0.2, "°C")];

/// One result with its bottle.
pub type Of<'a> = (&'a ResultRow, &'a Bottle);

/// All rows, by analyte: a long record asks for each verdict anew.
#[derive(Debug, Clone, Default)]
pub struct Quality {
    by_analyte: HashMap<String, Vec<LaboratoryQuality>>,
    /// Of all analytes of a method.
    open: Vec<LaboratoryQuality>,
}

impl Quality {
    /// From the rows of the record, in their order.
    pub fn of(rows: Vec<LaboratoryQuality>) -> Self {
        let mut out = Self::default();
        for q in rows {
            match &q.analyte {
                Some(analyte) => out.by_analyte.entry(analyte.clone()).or_default().push(q),
                None => out.open.push(q),
            }
        }
        out
    }

    fn of_analyte(&self, analyte: &str) -> Vec<&LaboratoryQuality> {
        let mut rows: Vec<_> = self.by_analyte.get(analyte).into_iter().flatten().chain(&self.open).collect();
        rows.sort_by_key(|q| q.id);
        rows
    }
}

/// The findings of a profile's own checks on the results of one verdict.
pub fn findings(of: &[Of], quality: &Quality, profile: &Profile) -> Vec<Finding> {
    let Some((first, _)) = of.first() else { return vec![] };
    let sheet = Sheet { of, rows: quality.of_analyte(&first.analyte), profile };
    let mut out: Vec<Finding> = sheet.negative().into_iter().collect();
    match profile.basis {
        ProfileBasis::Counts => {}
        ProfileBasis::Reported => {
            out.push(sheet.method());
            out.extend(sheet.accreditation());
            out.push(sheet.blanks());
            out.push(sheet.recoveries());
            out.push(sheet.duplicates());
            out.extend(sheet.charts());
        }
        ProfileBasis::Meter => out.push(sheet.meter()),
    }
    out
}

/// A negative value that came without uncertainty, and whose state does not say so.
pub fn is_negative_without_u(r: &ResultRow) -> bool {
    r.vial_id.is_none()
        && r.u.is_none()
        && r.value.is_some_and(|v| intake::negative::says_nothing(&r.analyte, v, &r.unit))
        && r.state != State::NotDetected
}

struct Sheet<'a> {
    of: &'a [Of<'a>],
    rows: Vec<&'a LaboratoryQuality>,
    profile: &'a Profile,
}

/// Whether a row speaks of a result.
fn speaks(q: &LaboratoryQuality, (r, b): Of) -> bool {
    let method = q.method.as_ref().is_none_or(|m| Some(m) == r.method.as_ref());
    if !method || Some(&q.laboratory) != r.laboratory.as_ref() {
        return false;
    }
    if let Some(bottle) = q.bottle_id {
        return bottle == b.id;
    }
    // What holds for years is open at its ends; a blank of no day is a blank of no result.
    let lasting = matches!(q.kind, QualityKind::Accreditation | QualityKind::ControlChart);
    let (from, until) = (q.from_day.as_deref(), q.until_day.as_deref());
    if lasting && from.is_none() && until.is_none() {
        return true;
    }
    let Some(day) = b.filled_at.as_deref().and_then(|at| at.get(..10)) else { return false };
    let after = from.map_or(lasting, |from| day >= from);
    let before = match until {
        Some(until) => day <= until,
        None => lasting || from.is_some_and(|from| day == from),
    };
    after && before
}

/// A number of a row in the unit of a result; none where the two do not measure the same thing.
fn in_unit(x: Option<f64>, q: &LaboratoryQuality, unit: &Unit) -> Option<f64> {
    let from = Unit::parse(q.unit.as_deref()?).ok()?;
    Some(from.conversion(unit, None, None).ok()?.apply(x?))
}

fn unit_of(r: &ResultRow) -> Option<Unit> {
    Unit::parse(&r.unit).ok()
}

fn percent(share: f64) -> Share {
    Share::new(share, Digits::Significant(3))
}

impl Sheet<'_> {
    /// Rows of a kind that speak of a result.
    fn of_kind(&self, kind: QualityKind, of: Of) -> impl Iterator<Item = &LaboratoryQuality> {
        self.rows.iter().copied().filter(move |q| q.kind == kind && speaks(q, of))
    }

    /// That something is not on record for some of the results.
    fn lacks(&self, check: Check, what: impl Into<Message>, without: &[Of]) -> Finding {
        let labels: BTreeSet<&str> = without.iter().map(|(_, b)| b.label.as_str()).collect();
        let mut bottles: Vec<Arg> = labels.iter().take(NAMED).map(|l| Arg::Name((*l).into())).collect();
        if labels.len() > NAMED {
            bottles.push(Arg::Name("…".into()));
        }
        let (lacking, results) = (count(without.len()), count(self.of.len()));
        Finding::new(check, Outcome::NotKnown, said::Lacks { what: what.into(), lacking, results, bottles })
    }

    fn without(&self, has: impl Fn(Of) -> bool) -> Vec<Of<'_>> {
        self.of.iter().copied().filter(|of| !has(*of)).collect()
    }

    fn negative(&self) -> Option<Finding> {
        let n = self.of.iter().filter(|(r, _)| is_negative_without_u(r)).count();
        let says = said::Negative { results: count(n) };
        (n > 0).then(|| Finding::new(Check::NumberNegative, Outcome::NotKnown, says))
    }

    fn method(&self) -> Finding {
        let told = |(r, _): Of| {
            let limits = [r.limit_value, r.reporting_limit, r.quantification_limit, r.detection_limit];
            r.method.is_some() && limits.iter().any(Option::is_some)
        };
        let without = self.without(told);
        if without.is_empty() {
            let says = said::MethodStated { results: count(self.of.len()) };
            return Finding::new(Check::LabMethod, Outcome::Met, says);
        }
        self.lacks(Check::LabMethod, said::WhatMethod, &without)
    }

    /// Whether the method is accredited; the last row that speaks of a result counts.
    fn accreditation(&self) -> Vec<Finding> {
        let answer = |of: Of| self.of_kind(QualityKind::Accreditation, of).filter_map(|q| q.answer).last();
        let without = self.without(|of| answer(of).is_some());
        let laboratories = |of: &[Of]| -> Vec<Arg> {
            let names: BTreeSet<&str> = of.iter().filter_map(|(r, _)| r.laboratory.as_deref()).collect();
            names.into_iter().map(|n| Arg::Name(n.into())).collect()
        };
        let mut out = vec![if without.is_empty() {
            let says = said::Accredited { laboratories: laboratories(self.of) };
            Finding::new(Check::LabAccreditation, Outcome::Met, says)
        } else {
            self.lacks(Check::LabAccreditation, said::WhatAccreditation, &without)
        }];
        let not = self.without(|of| answer(of) != Some(Answer::No));
        if !not.is_empty() {
            let says = said::NotAccredited { laboratories: laboratories(&not), results: count(not.len()) };
            out.push(Finding::new(Check::LabNotAccredited, Outcome::NotMet, says));
        }
        out
    }

    fn blanks(&self) -> Finding {
        let check = Check::LabBlank;
        let allowed = self.profile.limit(check, 0.1);
        let (mut without, mut seen): (Vec<Of>, BTreeSet<i64>) = (vec![], BTreeSet::new());
        for of in self.of {
            let (r, b) = *of;
            let Some(unit) = unit_of(r) else {
                without.push(*of);
                continue;
            };
            let limit = r.reporting_limit.or(r.limit_value).unwrap_or(0.0);
            // A blank only adds: of what was not found it takes nothing away, but it has to have been looked at.
            let found = r.value.filter(|_| !matches!(r.state, State::NotDetected));
            let may_hold = limit.max(allowed * found.unwrap_or(0.0).abs());
            let mut shown = false;
            for q in self.of_kind(QualityKind::Blank, *of) {
                let nothing = in_unit(q.below, q, &unit).filter(|_| q.value.is_none());
                let holds = in_unit(q.value, q, &unit);
                match (holds, nothing, found) {
                    (Some(blank), _, Some(found)) if blank > may_hold => {
                        let shown = |x: f64| Shown::significant(x, 3, unit.to_string());
                        let bottle = b.label.as_str().into();
                        let says = said::BlankHigh {
                            blank: shown(blank),
                            found: shown(found),
                            bottle,
                            share: percent(allowed),
                        };
                        return Finding::new(check, Outcome::NotMet, says)
                            .comparing(message::compared::LaboratoryBlank, Amount::stated(blank, unit));
                    }
                    (Some(_), ..) => shown = true,
                    // Nothing was found above a bound: it shows something where the bound lies below what matters.
                    (None, Some(bound), _) if bound <= may_hold => shown = true,
                    _ => continue,
                }
                seen.insert(q.id);
            }
            if !shown {
                without.push(*of);
            }
        }
        if !without.is_empty() {
            return self.lacks(check, said::WhatBlank, &without);
        }
        let says = said::BlanksLow { blanks: count(seen.len()), share: percent(allowed) };
        Finding::new(check, Outcome::Met, says)
    }

    fn recoveries(&self) -> Finding {
        let check = Check::LabRecovery;
        let low = self.profile.limit(check, 0.8);
        let high = 2.0 - low;
        let (without, all) = self.numbers(QualityKind::Recovery, |q, _| recovery(q));
        if let Some(outside) = all.iter().copied().find(|x| !(low..=high).contains(x)) {
            let says = said::RecoveryOutside { recovery: percent(outside), low: percent(low), high: percent(high) };
            return Finding::new(check, Outcome::NotMet, says)
                .comparing(message::compared::LaboratoryRecovery, Amount::stated(outside, Unit::one()));
        }
        if !without.is_empty() {
            return self.lacks(check, said::WhatRecovery, &without);
        }
        let says = said::RecoveriesWithin {
            recoveries: count(all.len()),
            lowest: percent(all.iter().copied().fold(f64::INFINITY, f64::min)),
            highest: percent(all.iter().copied().fold(f64::NEG_INFINITY, f64::max)),
            low: percent(low),
            high: percent(high),
        };
        Finding::new(check, Outcome::Met, says)
    }

    fn duplicates(&self) -> Finding {
        let check = Check::LabDuplicate;
        // The limit is in percent, as its unit in the profile says.
        let allowed = self.profile.limit(check, 20.0) / 100.0;
        let of_result = |q: &LaboratoryQuality, r: &ResultRow| difference(q, r, allowed);
        let (without, all) = self.numbers(QualityKind::Duplicate, of_result);
        let limit = percent(allowed);
        let greatest = all.iter().copied().fold(0.0, f64::max);
        if greatest > allowed {
            let says = said::DuplicateDiffers { difference: percent(greatest), limit };
            return Finding::new(check, Outcome::NotMet, says)
                .comparing(message::compared::LaboratoryDuplicate, Amount::stated(greatest, Unit::one()));
        }
        if !without.is_empty() {
            return self.lacks(check, said::WhatDuplicate, &without);
        }
        let says = said::DuplicatesAgree { duplicates: count(all.len()), greatest: percent(greatest), limit };
        Finding::new(check, Outcome::Met, says)
    }

    /// Results that no row of a kind speaks of, and the numbers of the others, a row once.
    fn numbers(
        &self,
        kind: QualityKind,
        number: impl Fn(&LaboratoryQuality, &ResultRow) -> Option<f64>,
    ) -> (Vec<Of<'_>>, Vec<f64>) {
        let (mut without, mut seen, mut all) = (vec![], BTreeSet::new(), vec![]);
        for of in self.of {
            let mut spoken = false;
            for q in self.of_kind(kind, *of) {
                let Some(x) = number(q, of.0) else { continue };
                spoken = true;
                if seen.insert(q.id) {
                    all.push(x);
                }
            }
            if !spoken {
                without.push(*of);
            }
        }
        (without, all)
    }

    /// Only where the laboratory says something: few do.
    fn charts(&self) -> Option<Finding> {
        let answers: Vec<Answer> = self
            .of
            .iter()
            .filter_map(|of| self.of_kind(QualityKind::ControlChart, *of).filter_map(|q| q.answer).last())
            .collect();
        let check = Check::LabControlChart;
        if answers.contains(&Answer::No) {
            return Some(Finding::new(check, Outcome::NotMet, Message::from(said::ChartOut)));
        }
        (!answers.is_empty()).then(|| Finding::new(check, Outcome::Met, Message::from(said::ChartInControl)))
    }

    fn meter(&self) -> Finding {
        let check = Check::FieldMeterCheck;
        let share = self.profile.limit(check, 5.0) / 100.0;
        let (mut without, mut seen): (Vec<Of>, BTreeSet<i64>) = (vec![], BTreeSet::new());
        for of in self.of {
            let mut spoken = false;
            for q in self.of_kind(QualityKind::MeterCheck, *of) {
                let Some((read, expected, allowed, unit)) = meter_check(q, &of.0.analyte, share) else { continue };
                if (read - expected).abs() > allowed {
                    let shown = |x: f64| Shown::significant(x, 4, unit.to_string());
                    let says = said::MeterOutside {
                        read: shown(read),
                        expected: shown(expected),
                        allowed: Shown::significant(allowed, 2, unit.to_string()),
                    };
                    return Finding::new(check, Outcome::NotMet, says);
                }
                spoken = true;
                seen.insert(q.id);
            }
            if !spoken {
                without.push(*of);
            }
        }
        if !without.is_empty() {
            return self.lacks(check, said::WhatMeterCheck, &without);
        }
        Finding::new(check, Outcome::Met, said::MeterWithin { checks: count(seen.len()) })
    }
}

/// What came back, as a share.
fn recovery(q: &LaboratoryQuality) -> Option<f64> {
    match q.expected {
        Some(expected) if expected > 0.0 => Some(q.value? / expected),
        Some(_) => None,
        None => in_unit(q.value, q, &Unit::one()),
    }
}

/// The difference of two results of one sample over their mean; 0 where both lie near the reporting limit and differ by
/// no more than it.
fn difference(q: &LaboratoryQuality, r: &ResultRow, allowed: f64) -> Option<f64> {
    let Some(second) = q.second else { return in_unit(q.value, q, &Unit::one()).map(f64::abs) };
    let first = q.value?;
    let (apart, mean) = ((first - second).abs(), 0.5 * (first + second));
    let share = if apart > 0.0 { apart / mean.abs() } else { 0.0 };
    let near = || {
        let unit = unit_of(r)?;
        let (apart, mean) = (in_unit(Some(apart), q, &unit)?, in_unit(Some(mean), q, &unit)?);
        let limit = r.reporting_limit?;
        Some(mean < NEAR_LIMIT * limit && apart <= limit)
    };
    if share > allowed && near() == Some(true) {
        return Some(0.0);
    }
    share.is_finite().then_some(share)
}

/// What the meter read, what it should have, by how much it may be off, in the unit of the row.
fn meter_check(q: &LaboratoryQuality, analyte: &str, share: f64) -> Option<(f64, f64, f64, Unit)> {
    let (read, expected) = (q.value?, q.expected?);
    let unit = Unit::parse(q.unit.as_deref()?).ok()?;
    let allowed = match METER_OFF.iter().find(|(quantity, ..)| *quantity == analyte) {
        Some((_, off, of)) => {
            let to = Unit::known(of).conversion(&unit, None, None).ok()?;
            to.apply_difference(*off).abs()
        }
        None => share * expected.abs(),
    };
    Some((read, expected, allowed, unit))
}

/// The state of a result as it is told: of a negative value without uncertainty it is not decided.
pub fn state(r: &ResultRow) -> State {
    let claims = matches!(r.state, State::Quantified | State::Detected);
    if claims && is_negative_without_u(r) { State::NotDecided } else { r.state }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(value: Option<f64>, second: Option<f64>, expected: Option<f64>, unit: &str) -> LaboratoryQuality {
        LaboratoryQuality {
            id: 1,
            laboratory: "L".into(),
            method: None,
            analyte: None,
            kind: QualityKind::Duplicate,
            from_day: None,
            until_day: None,
            bottle_id: None,
            answer: None,
            value,
            below: None,
            second,
            expected,
            unit: Some(unit.into()),
            note: None,
        }
    }

    /// The two of one sheet of a laboratory, worked out by hand.
    #[test]
    fn a_recovery_is_a_share_however_it_is_stated() {
        let close = |q: &LaboratoryQuality, x: f64| (recovery(q).unwrap() - x).abs() < 1e-12;
        assert!(close(&row(Some(96.0), None, None, "%"), 0.96));
        assert!(close(&row(Some(0.96), None, None, "1"), 0.96));
        assert!(close(&row(Some(48.0), None, Some(50.0), "ug/L"), 0.96));
        assert_eq!(recovery(&row(Some(48.0), None, Some(0.0), "ug/L")), None);
    }

    #[test]
    fn a_meter_is_held_against_its_standard_by_a_difference_or_by_a_share() {
        // pH 7.08 in a buffer of 7.00: 0.08 off, 0.1 allowed. 1350 in a standard of 1413 µS/cm (0.01 mol/L KCl at 25 °C):
        // 4.5 % off, 5 % allowed.
        let (read, expected, allowed, _) = meter_check(&row(Some(7.08), None, Some(7.0), "pH"), "pH", 0.05).unwrap();
        assert!(((read - expected).abs() - 0.08).abs() < 1e-9 && (allowed - 0.1).abs() < 1e-12);
        let standard = row(Some(1350.0), None, Some(1413.0), "uS/cm");
        let (_, _, allowed, _) = meter_check(&standard, "conductivity", 0.05).unwrap();
        assert!((allowed - 70.65).abs() < 1e-9);
        let redox = row(Some(0.229), None, Some(0.220), "V");
        assert!((meter_check(&redox, "Eh", 0.05).unwrap().2 - 0.010).abs() < 1e-12);
    }
}
