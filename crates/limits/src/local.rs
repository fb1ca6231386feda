//! Limits that a person adds beside the published table, and the strictest of all.
//!
//! In: CSV with the columns of `reference/drinking_water_limits.csv` (analyte, unit, authority and
//! limit_high are needed), or rows of JSON. Out: [`Limit`]s, marked `seen` or `recalled` as the person
//! says, else "local": entered by a person. `concern` and `rule` may stand beside them. The strictest limit of an
//! analyte is the one whose upper end is lowest in one unit; a taste or odour objective counts and says its kind, a goal
//! of zero does not. Checked in `tests/limits.rs`.

use crate::table::{Limit, analyte, is_day, limits};
use crate::terms::{Concern, Rule, Terms};
use message::{Message, Shown, limit as said};
use quantity::{CalcError, Substance, Unit};
use serde::Deserialize;

/// Mark of a limit of which the person did not say whether it was seen.
pub const LOCAL: &str = "local";

/// A row as people write it.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct LocalRow {
    /// Analyte.
    pub analyte: String,
    /// Unit, with its basis.
    pub unit: String,
    /// Who set it.
    pub authority: String,
    /// Where it stands.
    pub document: String,
    /// Which edition.
    pub edition: String,
    /// as N, as NO3.
    pub basis: String,
    /// Kind of limit.
    pub kind: String,
    /// Lower end of a range.
    pub limit_low: Option<f64>,
    /// Upper end.
    pub limit_high: Option<f64>,
    /// First day.
    pub valid_from: String,
    /// Last day.
    pub valid_until: String,
    /// seen or recalled.
    pub provenance: String,
    /// The day it was read.
    pub date_read: String,
    /// What else.
    pub note: String,
    /// health, taste or operation; health where left out.
    pub concern: Option<Concern>,
    /// simple acceptance, guarded acceptance or guarded rejection; the first where left out.
    pub rule: Option<Rule>,
}

impl LocalRow {
    /// As a limit.
    ///
    /// # Errors
    /// [`CalcError::Refused`] naming the column.
    pub fn limit(&self, place: &str) -> Result<Limit, CalcError> {
        let refused = |column: &str, found: &str, expected: &str| {
            CalcError::refused(format!("{place}.{column}"), found, expected)
        };
        for (column, text) in [("analyte", &self.analyte), ("authority", &self.authority)] {
            if text.trim().is_empty() {
                return Err(refused(column, "nothing", "a name"));
            }
        }
        let unit = Unit::parse(&self.unit).map_err(|e| refused("unit", &self.unit, &e.to_string()))?;
        let high =
            self.limit_high.filter(|h| h.is_finite()).ok_or_else(|| refused("limit_high", "nothing", "a number"))?;
        if let Some(low) = self.limit_low
            && low > high
        {
            return Err(refused("limit_low", &low.to_string(), "no more than limit_high"));
        }
        let name = analyte(&self.analyte);
        // As N and as NO3 differ by a factor of 4.4 that nobody may guess.
        if matches!(name.as_str(), "NO3" | "NO2" | "NH4") && unit.basis().is_none() {
            return Err(refused("unit", &self.unit, "the basis too: mg/L as N, or mg/L as NO3"));
        }
        for (column, day) in [("valid_from", &self.valid_from), ("valid_until", &self.valid_until)] {
            if !day.is_empty() && !is_day(day) {
                return Err(refused(column, day, "a day, YYYY-MM-DD, or nothing"));
            }
        }
        let provenance = match self.provenance.trim() {
            "" => LOCAL,
            known @ ("seen" | "recalled" | LOCAL) => known,
            other => return Err(refused("provenance", other, "seen, recalled or nothing")),
        };
        let or = |text: &String, otherwise: &str| if text.is_empty() { otherwise.to_string() } else { text.clone() };
        let authority = self.authority.trim();
        let mut terms = Terms::of(authority, &self.kind, &name);
        let stated = || format!("as stated with the limit of {authority}");
        if let Some(concern) = self.concern {
            (terms.concern, terms.concern_source) = (concern, stated());
        }
        if let Some(rule) = self.rule {
            (terms.rule, terms.rule_source) = (rule, stated());
        }
        Ok(Limit {
            terms,
            analyte: name,
            unit,
            authority: authority.into(),
            document: or(&self.document, "document not stated"),
            edition: or(&self.edition, "edition not stated"),
            basis: self.basis.clone(),
            kind: or(&self.kind, "limit"),
            low: self.limit_low,
            high,
            valid_from: self.valid_from.clone(),
            valid_until: self.valid_until.clone(),
            provenance: provenance.into(),
            date_read: or(&self.date_read, "not recorded"),
            note: self.note.clone(),
        })
    }
}

/// A table of CSV.
///
/// # Errors
/// [`CalcError::Refused`] with the row (the heading is row 1) and column.
pub fn read(csv: &str) -> Result<Vec<LocalRow>, CalcError> {
    let mut out = vec![];
    for (i, row) in csv::Reader::from_reader(csv.as_bytes()).deserialize::<LocalRow>().enumerate() {
        let place = format!("row {}", i + 2);
        let row =
            row.map_err(|e| CalcError::refused(&place, e, "the columns of reference/drinking_water_limits.csv"))?;
        row.limit(&place)?;
        out.push(row);
    }
    if out.is_empty() {
        return Err(CalcError::refused("row 2", "nothing", "a limit under the heading"));
    }
    Ok(out)
}

/// The strictest of these limits of an analyte, upper ends in one unit. A goal of zero is none that a result could keep.
pub fn strictest<'a>(of: impl Iterator<Item = &'a Limit>) -> Option<&'a Limit> {
    let mut best: Option<&Limit> = None;
    for l in of.filter(|l| !l.is_goal_of_zero()) {
        let Some(b) = best else {
            best = Some(l);
            continue;
        };
        let substance = Substance::parse(&l.analyte).ok();
        let high = l.unit.conversion(&b.unit, substance.as_ref(), None).map(|c| c.apply(l.high));
        if high.is_ok_and(|h| h < b.high * (1.0 - 1e-9)) {
            best = Some(l);
        }
    }
    best
}

/// Published limits and a person's own, those that decide on a day; without a day those that have no first day.
pub fn holding<'a>(own: &'a [Limit], date: Option<&'a str>) -> impl Iterator<Item = &'a Limit> {
    limits().iter().chain(own).filter(move |l| l.decides_on(date))
}

/// Limits that are still to come on a day: to be named as such, never as the answer. Without a day all that have a first
/// day.
pub fn coming<'a>(own: &'a [Limit], date: Option<&'a str>) -> impl Iterator<Item = &'a Limit> {
    let still = move |l: &&Limit| !l.valid_from.is_empty() && date.is_none_or(|d| d < l.valid_from.as_str());
    limits().iter().chain(own).filter(still)
}

/// A limit that is still to come, with the year of its first day.
pub fn coming_in_words(l: &Limit) -> Message {
    let (substance, authority) = (crate::claim::substance(&l.analyte), l.authority.as_str().into());
    let limit = Shown::as_given(l.high, l.unit.to_string());
    let year = l.valid_from.get(..4).unwrap_or(&l.valid_from).into();
    said::Coming { substance, authority, year, limit }.into()
}

/// Is a limit set for health, and one that a result could keep?
pub fn for_health(l: &&Limit) -> bool {
    l.terms.concern == Concern::Health && !l.is_goal_of_zero()
}
