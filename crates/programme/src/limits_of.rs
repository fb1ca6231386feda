//! The results of a programme against limits: published ones and those that a person added.
//!
//! In: the record, a day, authorities, a guard. Out: for each result of water below, above or cannot
//! tell, with the strictest and the local limit marked; what the tables of limits name and nobody
//! measured, microbes first. A comparison, and no word on drinking: that is the health authority's.

use assessment::results::{self, Listed};
use limits::local::{LocalRow, holding, strictest};
use limits::{Comparison, Guard, Limit, Options, compare};
use message::{Spoken, limit};
use record::error::Error;
use record::identity::ResultId;
use record::model::LocalLimit;
use record::store::{Filter, Store};
use serde::Serialize;
use std::collections::BTreeSet;

/// What is asked.
#[derive(Debug, Clone, Default)]
pub struct Asked {
    /// Only these authorities and the person's own; all when empty.
    pub authorities: Vec<String>,
    /// How sure.
    pub guard: Guard,
    /// The day, `YYYY-MM-DD`; else that of each bottle.
    pub date: Option<String>,
    /// The day for bottles whose own is not on record, as an interface has it from its clock; without it no limit that has a
    /// first day decides about them.
    pub otherwise: Option<String>,
}

/// One result beside one limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The result.
    pub result: ResultId,
    /// Well.
    pub well: Option<String>,
    /// Analyte.
    pub analyte: String,
    /// The result's verdict.
    pub verdict: Option<record::model::VerdictWord>,
    /// The day on which the limit holds, `YYYY-MM-DD`; none where nobody knows the bottle's.
    pub on: Option<String>,
    /// The comparison.
    pub comparison: Comparison,
    /// A limit that a person added.
    pub local: bool,
    /// The strictest limit of the analyte.
    pub strictest: bool,
}

/// A programme against limits.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Against {
    /// Results beside limits, in the order of the record.
    pub rows: Vec<Row>,
    /// Analytes that the limits name and nobody measured here; "microbes" first.
    pub not_tested: Vec<String>,
    /// Analytes that were measured and have no limit here.
    pub without_limit: Vec<String>,
    /// What to bear in mind.
    pub warnings: Vec<String>,
}

#[derive(Serialize)]
struct JsonRow<'a> {
    result: &'a ResultId,
    well: Option<&'a str>,
    analyte: &'a str,
    verdict: Option<record::model::VerdictWord>,
    amount: &'a quantity::Amount,
    limit: &'a Limit,
    on: Option<&'a str>,
    answer: limits::Answer,
    probability_under: Option<f64>,
    sentence: &'a str,
    local: bool,
    strictest: bool,
}

impl Serialize for Row {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let c = &self.comparison;
        JsonRow {
            result: &self.result,
            well: self.well.as_deref(),
            analyte: &self.analyte,
            verdict: self.verdict,
            amount: &c.amount,
            limit: &c.limit,
            on: self.on.as_deref(),
            answer: c.answer,
            probability_under: c.probability_under,
            sentence: &c.sentence,
            local: self.local,
            strictest: self.strictest,
        }
        .serialize(s)
    }
}

/// Words of tests for microbes, as laboratories write them.
const MICROBES: &[&str] =
    &["coli", "coliform", "enterococ", "colony", "microb", "plate count", "clostrid", "pseudomonas"];

/// Was anything of this name a test for microbes?
fn of_microbes(analyte: &str) -> bool {
    let lower = analyte.to_lowercase();
    MICROBES.iter().any(|m| lower.contains(m))
}

/// The limits that a person added, and what is wrong with those that cannot be used.
///
/// # Errors
/// The store cannot be read.
pub fn own(store: &Store) -> Result<(Vec<Limit>, Vec<String>), Error> {
    let (mut out, mut faults) = (vec![], vec![]);
    for l in store.list::<LocalLimit>(&Filter::all())? {
        match row(&l).limit(&format!("local limit of {}", l.analyte)) {
            Ok(limit) => out.push(limit),
            Err(e) => faults.push(format!("{e}; this limit was left out")),
        }
    }
    Ok((out, faults))
}

fn row(l: &LocalLimit) -> LocalRow {
    let text = |t: &Option<String>| t.clone().unwrap_or_default();
    LocalRow {
        analyte: l.analyte.clone(),
        unit: l.unit.clone(),
        authority: l.authority.clone(),
        document: text(&l.document),
        edition: text(&l.edition),
        basis: text(&l.basis),
        kind: text(&l.kind),
        limit_low: l.limit_low,
        limit_high: Some(l.limit_high),
        valid_from: text(&l.valid_from),
        valid_until: text(&l.valid_until),
        provenance: text(&l.provenance),
        date_read: text(&l.date_read),
        note: text(&l.note),
    }
}

/// Compares all results of water.
///
/// # Errors
/// The store cannot be read.
pub fn against(store: &Store, asked: &Asked) -> Result<Against, Error> {
    against_of(store, &results::all(store)?, asked)
}

/// The same for results already listed.
///
/// # Errors
/// The store cannot be read.
pub fn against_of(store: &Store, all: &[Listed], asked: &Asked) -> Result<Against, Error> {
    let (own, mut warnings) = own(store)?;
    let options = Options { guard: asked.guard };
    let (mut rows, mut measured, mut without) = (vec![], BTreeSet::new(), BTreeSet::new());
    // A bottle without a verdict is evidence only: one of a series that tells where metal comes from.
    let water = |r: &&Listed| r.kind.is_water() && r.verdict.is_some();
    let mut microbes = false;
    for r in all.iter().filter(water) {
        let name = limits::table::analyte(&r.analyte);
        microbes |= of_microbes(&r.analyte);
        let Some(amount) = &r.amount else { continue };
        let own_day = || r.filled_at.as_deref().and_then(|d| d.get(..10)).map(String::from);
        let day = asked.date.clone().or_else(own_day).or_else(|| asked.otherwise.clone());
        let is_own = |l: &Limit| own.iter().any(|o| std::ptr::eq(o, l));
        let wanted = |l: &&Limit| {
            l.analyte == name && (asked.authorities.is_empty() || is_own(l) || asked.authorities.contains(&l.authority))
        };
        let of: Vec<&Limit> = holding(&own, day.as_deref()).filter(wanted).collect();
        if of.is_empty() {
            without.insert(name.clone());
        }
        measured.insert(name);
        let lowest = strictest(of.iter().copied());
        for l in of {
            rows.push(Row {
                result: r.result.clone(),
                well: r.well.clone(),
                analyte: r.analyte.clone(),
                verdict: r.verdict,
                on: day.clone(),
                comparison: compare(amount, l, &options),
                local: is_own(l),
                strictest: lowest.is_some_and(|s| std::ptr::eq(s, l)),
            });
        }
    }
    for f in store.field_readings(&Filter::all())? {
        measured.insert(limits::table::analyte(&f.quantity));
    }
    let mut not_tested: Vec<String> = if microbes { vec![] } else { vec!["microbes".into()] };
    for l in holding(&own, asked.date.as_deref().or(asked.otherwise.as_deref())) {
        if !measured.contains(&l.analyte) && !not_tested.contains(&l.analyte) && !l.analyte.starts_with("pesticide") {
            not_tested.push(l.analyte.clone());
        }
    }
    if rows.iter().any(|r| r.comparison.limit.provenance == "recalled") {
        warnings.push(limit::RecalledYet.text());
    }
    warnings.push(limit::Comparison.text());
    Ok(Against { rows, not_tested, without_limit: without.into_iter().collect(), warnings })
}
