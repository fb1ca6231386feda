//! Results as people read them: one line each with value, uncertainty or limit, unit, verdict.
//! A non-detect with a net value shows its upper bound, one that a laboratory censored its limit;
//! neither is ever a zero or a half.

use crate::attribution::Attributed;
use crate::derive::Excluded;
use crate::error::Error;
use crate::model::{AttributedRow, Bottle, Censor, ResultRow, Share, State, Verdict, VerdictWord};
use crate::store::{Filter, Store};
use measurement::dist;
use quantity::{Amount, Finding, Measured, Outcome, Stage, Unit};
use serde::Serialize;
use std::collections::HashMap;

/// The water's share of the measured metal, with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct WaterShare {
    /// Share, 0 to 1.
    pub share: f64,
    /// Standard uncertainty.
    pub u: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl WaterShare {
    /// `0.93 (0.89 to 0.97)`, to the digits that the interval supports.
    pub fn in_words(&self) -> String {
        let half = 0.5 * (self.high - self.low);
        let decimals = quantity::format::decimals_for(half, 1).clamp(2, 4);
        let show = |x: f64| quantity::format::at_decimals(x, decimals);
        format!("{} ({} to {})", show(self.share), show(self.low), show(self.high))
    }
}

/// One result as it is shown.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Listed {
    /// `bottle:analyte:isotope@resolution:fraction#revision`
    pub result: String,
    /// Bottle label.
    pub bottle: String,
    /// What the bottle is.
    pub kind: String,
    /// Well.
    pub well: Option<String>,
    /// Trip.
    pub trip: Option<String>,
    /// When the bottle was filled.
    pub filled_at: Option<String>,
    /// Element or quantity.
    pub analyte: String,
    /// Isotopes.
    pub isotopes: String,
    /// Mass resolution.
    pub resolution: String,
    /// Fraction.
    pub fraction: String,
    /// Detection state.
    pub state: State,
    /// What may be said of the value: measured, stated, below, above; none where the report says
    /// "not detected" without saying below what.
    pub amount: Option<Amount>,
    /// Coverage factor of the 95 % interval of a measured amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub coverage_k: Option<f64>,
    /// The net value with u, also where it was not detected; negative ones too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub net: Option<Amount>,
    /// Before the blank was subtracted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gross: Option<Amount>,
    /// The blank subtracted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub blank: Option<Amount>,
    /// L_C, net scale, in the unit of the amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub critical_value: Option<f64>,
    /// L_D, net scale.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub detection_limit: Option<f64>,
    /// L_Q.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub quantification_limit: Option<f64>,
    /// The laboratory's own reporting limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reporting_limit: Option<f64>,
    /// The laboratory's remark as written.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub remark: Option<String>,
    /// Laboratory.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub laboratory: Option<String>,
    /// Method.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub method: Option<String>,
    /// The verdict; none for blanks, spikes and other evidence.
    pub verdict: Option<VerdictWord>,
    /// Checks that decided it.
    pub reasons: Vec<String>,
    /// The water's share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub water_share: Option<WaterShare>,
    /// The water's own by all bottles fitted together: beside the result, never in its place.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub attributed: Option<Attributed>,
    /// Version of the program that derived it.
    pub engine: String,
    /// Row of the record.
    #[serde(skip)]
    pub row: i64,
    /// Subject of its verdict.
    #[serde(skip)]
    pub subject: i64,
}

/// The check that a bottle, vial or reading taken out of the evidence does not meet.
pub const TAKEN_OUT: &str = "number.excluded";

/// The finding of what was taken out of the evidence, and why.
pub fn taken_out(why: &str) -> Finding {
    let sentence = format!("Taken out of the evidence: {why}; the value is the last on record.");
    Finding::new(TAKEN_OUT, Stage::Number, Outcome::NotMet, sentence)
}

pub(crate) fn is_water(kind: &str) -> bool {
    matches!(kind, "sample" | "duplicate")
}

/// What may be said of a stored value; `None` for a non-detect whose report does not say below what, and for a row
/// that [`unread`] names.
pub fn amount(r: &ResultRow) -> Option<Amount> {
    let unit = Unit::parse(&r.unit).ok()?;
    let limit = r.limit_value.or(r.reporting_limit);
    Some(match (r.censor, r.state, r.value, r.u) {
        (Censor::Below, ..) => return limit.map(|l| Amount::below(l, unit)),
        (Censor::Above, ..) => return limit.map(|l| Amount::above(l, unit)),
        (_, State::NotDetected, _, _) if r.upper_bound.is_some() => {
            Amount::below(r.upper_bound.unwrap_or_default(), unit)
        }
        // A laboratory's net value that it did not detect: bounded as in the lists of compounds, by net + U.
        (_, State::NotDetected, Some(net), Some(u)) => Amount::below(net.max(0.0) + 2.0 * u, unit),
        (.., Some(value), Some(u)) => {
            Amount::Measured(Measured::with_dof(value, u, r.dof.unwrap_or(f64::INFINITY), unit))
        }
        (.., Some(value), None) => Amount::stated(value, unit),
        (.., None, _) => return None,
    })
}

/// Why a row says nothing that can be told: a unit that this program does not know, neither value nor limit.
pub fn unread(r: &ResultRow) -> Option<String> {
    let (found, expected) = match Unit::parse(&r.unit) {
        Err(e) => (format!("unit \"{}\"", r.unit), format!("a unit that is known: {e}")),
        Ok(_) if r.censor == Censor::Equal && r.value.is_none() && amount(r).is_none() => {
            ("no value and no limit".into(), "one of them".into())
        }
        Ok(_) => return None,
    };
    Some(format!(
        "result, row {}: found {found}, expected {expected}. Have the laboratory's file taken in again, put right",
        r.id
    ))
}

/// Two-sided 95 % coverage factor for degrees of freedom.
pub fn coverage_k(dof: f64) -> f64 {
    dist::t::upper_quantile(0.025, dof)
}

/// Everything that results are listed with.
pub struct Lists {
    bottles: HashMap<i64, Bottle>,
    verdicts: HashMap<i64, (VerdictWord, Vec<String>)>,
    shares: HashMap<i64, WaterShare>,
    attributed: HashMap<i64, Attributed>,
    excluded: Excluded,
}

impl Lists {
    /// Reads it from the record.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store) -> Result<Self, Error> {
        let reasons = |v: &serde_json::Value| -> Vec<String> { serde_json::from_value(v.clone()).unwrap_or_default() };
        Ok(Self {
            bottles: store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)).collect(),
            verdicts: store.verdicts()?.into_iter().map(|v| (v.subject_id, (v.verdict, reasons(&v.reasons)))).collect(),
            shares: store
                .shares()?
                .into_iter()
                .map(|s| (s.result_id, WaterShare { share: s.share, u: s.u, low: s.low, high: s.high }))
                .collect(),
            attributed: store.attributed()?.iter().map(|a| (a.result_id, Attributed::from_row(a))).collect(),
            excluded: Excluded::read(store)?,
        })
    }

    /// Only what these rows are listed with: for a page of few of many results.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn for_rows(store: &Store, rows: &[ResultRow]) -> Result<Self, Error> {
        let reasons = |v: &serde_json::Value| -> Vec<String> { serde_json::from_value(v.clone()).unwrap_or_default() };
        let mut out = Self {
            bottles: HashMap::new(),
            verdicts: HashMap::new(),
            shares: HashMap::new(),
            attributed: HashMap::new(),
            excluded: Excluded::read(store)?,
        };
        for r in rows {
            if !out.bottles.contains_key(&r.bottle_id) {
                let of = store.bottles(&Filter::all().is("id", r.bottle_id))?;
                out.bottles.extend(of.into_iter().map(|b| (b.id, b)));
            }
            if !out.verdicts.contains_key(&r.subject_id) {
                let of = store.list::<Verdict>(&Filter::all().is("subject", r.subject_id).latest())?;
                out.verdicts.extend(of.into_iter().map(|v| (v.subject_id, (v.verdict, reasons(&v.reasons)))));
            }
            let of = store.list::<Share>(&Filter::all().is("result", r.id))?;
            let share = |s: Share| WaterShare { share: s.share, u: s.u, low: s.low, high: s.high };
            out.shares.extend(of.into_iter().map(|s| (s.result_id, share(s))));
            let of = store.list::<AttributedRow>(&Filter::all().is("result", r.id).latest())?;
            out.attributed.extend(of.iter().map(|a| (a.result_id, Attributed::from_row(a))));
        }
        Ok(out)
    }

    /// Why the bottle of a result is out of the evidence as a whole.
    pub fn taken_out(&self, r: &ResultRow) -> Option<&str> {
        self.excluded.bottle(r.bottle_id)
    }

    /// The bottle of a result.
    pub fn bottle(&self, r: &ResultRow) -> Option<&Bottle> {
        self.bottles.get(&r.bottle_id)
    }

    /// One result.
    pub fn listed(&self, r: ResultRow) -> Listed {
        let amount = amount(&r);
        let unit = Unit::parse(&r.unit).ok();
        let of = |value: Option<f64>, u: Option<f64>| {
            let (value, unit) = (value?, unit.clone()?);
            Some(u.map_or_else(|| Amount::stated(value, unit.clone()), |u| Amount::measured(value, u, unit.clone())))
        };
        let bottle = self.bottle(&r);
        let kind = bottle.map_or("sample", |b| b.kind.word()).to_string();
        let (verdict, reasons) = match self.verdicts.get(&r.subject_id) {
            // Results of one series share a verdict; a bottle that is out stands alone.
            Some(_) if self.taken_out(&r).is_some() && is_water(&kind) => {
                (Some(VerdictWord::Rejected), vec![TAKEN_OUT.to_string()])
            }
            Some((word, reasons)) if is_water(&kind) => (Some(*word), reasons.clone()),
            _ => (None, vec![]),
        };
        Listed {
            result: r.identity(),
            kind,
            well: bottle.and_then(|b| b.well.clone()),
            trip: bottle.and_then(|b| b.trip.clone()),
            filled_at: bottle.and_then(|b| b.filled_at.clone()),
            coverage_k: matches!(amount, Some(Amount::Measured(_))).then(|| coverage_k(r.dof.unwrap_or(f64::INFINITY))),
            net: of(r.value, r.u).filter(|_| r.gross.is_some() || r.state == State::NotDetected),
            gross: of(r.gross, r.u_gross),
            blank: of(r.blank, r.u_blank),
            amount,
            verdict,
            reasons,
            water_share: self.shares.get(&r.id).copied(),
            attributed: self.attributed.get(&r.id).cloned(),
            row: r.id,
            subject: r.subject_id,
            bottle: r.bottle,
            analyte: r.analyte,
            isotopes: r.isotopes,
            resolution: r.resolution,
            fraction: r.fraction,
            state: r.state,
            critical_value: r.critical_value,
            detection_limit: r.detection_limit,
            quantification_limit: r.quantification_limit,
            reporting_limit: r.reporting_limit,
            remark: r.remark,
            laboratory: r.laboratory,
            method: r.method,
            engine: r.engine,
        }
    }
}

/// The newest revision of every result, in the order of the record.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<Vec<Listed>, Error> {
    let lists = Lists::of(store)?;
    Ok(store.results(&Filter::all().latest())?.into_iter().map(|r| lists.listed(r)).collect())
}

/// Results by their rows, in the order given; a row that is not there is passed over.
///
/// # Errors
/// The store cannot be read.
pub fn listed(store: &Store, rows: &[i64]) -> Result<Vec<Listed>, Error> {
    let mut found = vec![];
    for id in rows {
        found.extend(store.results(&Filter::all().is("id", *id))?);
    }
    let lists = Lists::for_rows(store, &found)?;
    Ok(found.into_iter().map(|r| lists.listed(r)).collect())
}

/// A result by its identity; without `#revision` the newest one.
///
/// # Errors
/// [`Error::Absent`], with the results of the same bottle where there are some.
pub fn find(store: &Store, identity: &str) -> Result<ResultRow, Error> {
    let label = identity.split(':').next().unwrap_or_default();
    let of_bottle = store.results(&Filter::all().is("bottle.label", label))?;
    let exact = of_bottle.iter().find(|r| r.identity() == identity);
    let newest = || {
        of_bottle
            .iter()
            .filter(|r| r.identity().rsplit_once('#').is_some_and(|(key, _)| key == identity))
            .max_by_key(|r| r.revision)
    };
    if let Some(r) = exact.or_else(newest) {
        return Ok(r.clone());
    }
    let mut near: Vec<String> = of_bottle.iter().map(ResultRow::identity).collect();
    near.sort_by_key(|known| std::cmp::Reverse(alike(known, identity)));
    near.truncate(5);
    let hint = if near.is_empty() {
        format!("; no result of a bottle \"{label}\" is on record (`limpid results` lists all)")
    } else {
        format!("; of this bottle there are {} results, among them {}", of_bottle.len(), near.join(", "))
    };
    Err(Error::absent("result", identity, hint))
}

/// Length of the common beginning of two identities.
fn alike(a: &str, b: &str) -> usize {
    a.bytes().zip(b.bytes()).take_while(|(x, y)| x == y).count()
}
