//! Stability of what is in a bottle: the same bottle (or a part of it) measured again, months or
//! years later.
//!
//! In: all revisions of the results, of which the last of each run counts; a later run's value
//! stands as the next revision, the earlier one stays on record and is seen here. Out: last against
//! first as a difference with u and as a recovery, and with three visits or more the slope with time.
//! The u of both runs are taken as independent: what they share (a stock of standards) would make
//! u smaller, so a change is missed rather than invented. Two standard uncertainties warn, three
//! act, as for duplicates. Two vials of a bottle in one run are no series: the later vial counts.
//! Checked in `crates/programme/tests/quality.rs`.

use crate::derive::{InTime, in_time};
use jiff::civil::DateTime;
use measurement::control::{Estimate, duplicates};
use measurement::line::{Line, Options, Points, Scale};
use measurement::run::Analyte;
use message::{Digits, Message, Share, Shown, quality};
use quantity::{Amount, Check, Finding, Measured, Outcome, Unit};
use record::error::Error;
use record::model::{ResultRow, State};
use record::store::{Filter, Store};
use serde::Serialize;
use statistics::t;
use statistics::welch::effective_dof;
use std::collections::{BTreeMap, HashMap};

/// Three standard uncertainties over two.
// ISO 7870-2: action limits at three, warning limits at two standard deviations (from memory).
const ACTION_OVER_WARNING: f64 = 1.5;
/// Relative u of the first value above which a recovery says nothing.
// The programme's own choice: beyond a third a quotient is skewed and its u no measure.
const LARGEST_RELATIVE_U: f64 = 0.33;

/// One measurement of the bottle.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Visit {
    /// Run.
    pub run: String,
    /// Start of the run, ISO 8601.
    pub started_at: Option<String>,
    /// Revision of the result on record.
    pub revision: i64,
    /// Net value.
    pub value: Measured,
    /// Above the critical value?
    pub detected: bool,
    /// Years since the first visit, where both dates are known.
    pub years: Option<f64>,
}

/// The change with time over all visits.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Slope {
    /// Change a year, in the unit of the values.
    pub per_year: f64,
    /// Standard uncertainty.
    pub u: f64,
}

/// A bottle in several runs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stability {
    /// Label.
    pub bottle: String,
    /// What was measured.
    pub analyte: Analyte,
    /// Visits in order of time; at least two, in one unit.
    pub visits: Vec<Visit>,
    /// Last − first.
    pub difference: Measured,
    /// What two standard uncertainties (95 %) allow.
    pub allowed: f64,
    /// Probability of so large a difference by the stated u alone.
    pub p: f64,
    /// Last over first; none where the first was not detected or is known too badly.
    pub recovery: Option<Measured>,
    /// With three dated visits or more.
    pub slope: Option<Slope>,
}

/// By run, in time: place of the vial, and its result.
type Visits = BTreeMap<InTime, (i64, ResultRow)>;

/// All bottles that were measured in more than one run, by label and analyte.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<Vec<Stability>, Error> {
    let mut run_of = HashMap::new();
    for run in store.runs()? {
        for vial in store.vials(run.id)? {
            run_of.insert(vial.id, (in_time(&run), vial.position));
        }
    }
    let mut groups: BTreeMap<(String, Analyte, String), Visits> = BTreeMap::new();
    for r in store.results(&Filter::all())? {
        let Some((run, position)) = r.vial_id.and_then(|v| run_of.get(&v)) else { continue };
        let analyte =
            Analyte { element: r.analyte.clone(), isotopes: r.isotopes.clone(), resolution: r.resolution.clone() };
        let visits = groups.entry((r.bottle.clone(), analyte, r.fraction.clone())).or_default();
        // A later vial of the run, or a later revision of the same vial.
        let newer = |old: &(i64, ResultRow)| (*position, r.revision) > (old.0, old.1.revision);
        if visits.get(run).is_none_or(newer) {
            visits.insert(run.clone(), (*position, r));
        }
    }
    let several = groups.into_iter().filter(|(_, visits)| visits.len() > 1);
    Ok(several.filter_map(|((bottle, analyte, _), visits)| of(bottle, analyte, visits)).collect())
}

fn of(bottle: String, analyte: Analyte, rows: Visits) -> Option<Stability> {
    let unit = rows.values().next()?.1.unit.clone();
    let unit = Unit::parse(&unit).ok()?;
    let start = rows.keys().next()?.1.clone();
    let mut visits = Vec::new();
    for ((_, started_at, run), (_, r)) in rows {
        let (Some(value), Some(u)) = (r.value, r.u) else { continue };
        if r.unit != unit.ucum() || u <= 0.0 {
            continue;
        }
        visits.push(Visit {
            years: start.as_deref().zip(started_at.as_deref()).and_then(|(a, b)| years_between(a, b)),
            run,
            started_at,
            revision: r.revision,
            value: Measured::with_dof(value, u, r.dof.unwrap_or(f64::INFINITY), unit.clone()),
            detected: !matches!(r.state, State::NotDetected | State::NotDecided),
        });
    }
    if visits.len() < 2 {
        return None;
    }
    let (first, last) = (visits.first()?.clone(), visits.last()?.clone());
    let estimate = |v: &Visit| Estimate { value: v.value.value, u: v.value.u };
    let dof = effective_dof(&[&last.value, &first.value].map(|m| (m.u * m.u, m.dof))).unwrap_or(f64::INFINITY);
    let pair = duplicates(&estimate(&last), &estimate(&first), 0.0, dof).ok()?;
    let known = first.detected && first.value.u < LARGEST_RELATIVE_U * first.value.value;
    let recovery = known.then(|| {
        let r = last.value.value / first.value.value;
        let u = last.value.u.hypot(r * first.value.u) / first.value.value;
        Measured::with_dof(r, u, dof, Unit::one())
    });
    Some(Stability {
        slope: slope(&visits),
        bottle,
        analyte,
        difference: Measured::with_dof(pair.difference, pair.u, dof, unit),
        allowed: t::upper_quantile(0.025, dof) * pair.u,
        p: pair.p,
        recovery,
        visits,
    })
}

fn years_between(from: &str, to: &str) -> Option<f64> {
    let parse =
        |t: &str| t.parse::<DateTime>().ok().or_else(|| t.parse::<jiff::civil::Date>().ok().map(|d| d.at(0, 0, 0, 0)));
    let (from, to) = (parse(from)?, parse(to)?);
    let days = (to - from).total((jiff::Unit::Day, from)).ok()?;
    // The mean Gregorian year.
    Some(days / 365.2425)
}

fn slope(visits: &[Visit]) -> Option<Slope> {
    if visits.len() < 3 {
        return None;
    }
    let x: Vec<f64> = visits.iter().map(|v| v.years).collect::<Option<_>>()?;
    let y: Vec<f64> = visits.iter().map(|v| v.value.value).collect();
    let u: Vec<f64> = visits.iter().map(|v| v.value.u).collect();
    let options = Options { scale: Scale::Larger, ..Options::default() };
    let line = Line::fit(&Points { x: &x, y: &y, u_y: Some(&u) }, &options).ok()?;
    Some(Slope { per_year: line.slope, u: line.u_slope })
}

impl Stability {
    /// Does it speak of this bottle and analyte?
    pub fn is_of(&self, bottle: &str, analyte: &Analyte) -> bool {
        self.bottle == bottle && self.analyte == *analyte
    }

    /// First visit.
    pub fn first(&self) -> &Visit {
        &self.visits[0]
    }

    /// Last visit.
    pub fn last(&self) -> &Visit {
        &self.visits[self.visits.len() - 1]
    }

    /// Within two standard uncertainties, between two and three, beyond.
    pub fn changed(&self) -> Changed {
        let d = self.difference.value.abs();
        if d <= self.allowed {
            Changed::No
        } else if d <= ACTION_OVER_WARNING * self.allowed {
            Changed::Perhaps
        } else {
            Changed::Yes
        }
    }

    /// The finding: `number.stability`, or `number.stability-spread` between two and three.
    pub fn finding(&self) -> Finding {
        let (check, outcome) = match self.changed() {
            Changed::No => (Check::NumberStability, Outcome::Met),
            Changed::Perhaps => (Check::NumberStabilitySpread, Outcome::NotMet),
            Changed::Yes => (Check::NumberStability, Outcome::NotMet),
        };
        let (first, last) = (self.first(), self.last());
        let unit = &self.difference.unit;
        let value = |v: &Visit| Shown::significant(v.value.value, 3, "");
        let u = |v: &Visit| Shown::significant(v.value.u, 2, unit.to_string());
        let back: Message = match &self.recovery {
            Some(r) => quality::CameBack {
                recovery: Share::new(r.value, Digits::Significant(3)),
                u: Share::new(r.u, Digits::Significant(2)),
            }
            .into(),
            None => quality::NoRecovery.into(),
        };
        let (bottle, element) = (self.bottle.as_str().into(), self.analyte.element.as_str().into());
        let (first_run, last_run) = (first.run.as_str().into(), last.run.as_str().into());
        let first_said = quality::Value { value: value(first), u: u(first) }.into();
        let last_said: Message = match last.years {
            Some(y) => {
                quality::ValueLater { value: value(last), u: u(last), years: Shown::significant(y, 2, "") }.into()
            }
            None => quality::Value { value: value(last), u: u(last) }.into(),
        };
        let says: Message = match (self.changed(), self.difference.value < 0.0) {
            (Changed::No, _) => {
                quality::NoChange { bottle, element, first: first_said, first_run, last: last_said, last_run, back }
                    .into()
            }
            (_, true) => {
                quality::Loss { bottle, element, first: first_said, first_run, last: last_said, last_run, back }.into()
            }
            (_, false) => {
                quality::Gain { bottle, element, first: first_said, first_run, last: last_said, last_run, back }.into()
            }
        };
        let says = match self.slope {
            Some(s) => quality::Trend {
                finding: says,
                visits: message::count(self.visits.len()),
                change: Shown::significant(s.per_year, 2, ""),
                u: Shown::significant(s.u, 2, unit.to_string()),
            }
            .into(),
            None => says,
        };
        let mut finding = Finding::new(check, outcome, says)
            .comparing(message::compared::FirstValue, Amount::Measured(first.value.clone()))
            .comparing(message::compared::LastValue, Amount::Measured(last.value.clone()));
        if let Some(r) = &self.recovery {
            finding = finding.comparing(message::compared::RecoveryOfFirstValue, Amount::Measured(r.clone()));
        }
        finding
    }
}

/// What became of the metal in a bottle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Changed {
    /// Last and first agree within two standard uncertainties.
    No,
    /// Between two and three: chance or the beginning of something.
    Perhaps,
    /// Beyond three.
    Yes,
}
