//! Are the blanks rising? A control chart of blanks (or of a reference material) over the years,
//! looked at before any trend of a metal: a rising blank looks like a rising metal. In: rows in
//! one unit, how many of the first make the baseline; out: limits and the place of each row.
//!
//! Warning and action limits are upper prediction limits for one more value of the baseline's
//! population, one-sided 97.7 % and 99.87 %: with a long baseline they become mean + 2 sd and
//! mean + 3 sd (common practice), with a short one they are wider, as they must be. With
//! non-detects in the baseline there is one limit, the highest known value, at confidence
//! n/(n + 1). Eight rows in a row above the baseline's median count as a run (common practice).
//! A non-detect is never above a limit; with its own limit above the action limit it shows nothing,
//! which is said. Checked in `tests/programme_of_years.rs`.

use crate::kendall::{self, Codes, Kendall, PChoice};
use crate::{Error, Observation, Reading, population, rows, words};
use message::{Date, Digits, Message, Share, series as said};
use quantity::{Check, Finding, Outcome};

/// Place of one row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// At or below the warning limit.
    Within,
    /// Above the warning limit.
    Warning,
    /// Above the action limit.
    Action,
    /// A non-detect whose own limit lies above the action limit: nothing is shown.
    CannotTell,
}

/// The chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Rows in the baseline.
    pub baseline: usize,
    /// Median of the baseline, or that it lies below its lowest known value.
    pub centre: Reading,
    /// Upper warning limit; `None` where the baseline holds non-detects.
    pub warning: Option<f64>,
    /// Upper action limit.
    pub action: f64,
    /// What the limits are.
    pub basis: Message,
    /// Place of every row, in order of time.
    pub places: Vec<(Observation, Place)>,
    /// Test of a rise or fall over all rows; `None` under 4 rows.
    pub in_time: Option<Kendall>,
    /// What stands out.
    pub findings: Vec<Finding>,
}

/// Fewest rows of a baseline.
pub const LEAST_BASELINE: usize = 5;
/// Rows in a row above the centre that count as a run: common practice.
const RUN: usize = 8;

/// Control chart of rows; the first `baseline` in time set the limits.
///
/// # Errors
/// [`Error::TooFew`] under 5 baseline rows, [`Error::OneDate`], [`Error::AllCensored`] where the
/// baseline holds non-detects alone, [`Error::NotFinite`].
pub fn control_chart(rows: &[Observation], baseline: usize) -> Result<Chart, Error> {
    let (rows, mut findings) = rows::in_order(rows, "a control chart", LEAST_BASELINE)?;
    let baseline = baseline.min(rows.len());
    if baseline < LEAST_BASELINE {
        return Err(Error::TooFew { what: "the baseline of a control chart", found: baseline, needed: LEAST_BASELINE });
    }
    let base: Vec<Reading> = rows[..baseline].iter().map(|r| r.reading).collect();
    let centre = crate::product_limit::product_limit(&base)?.percentile(0.5);
    let (warning, action, basis) = limits(&base)?;
    let places: Vec<(Observation, Place)> =
        rows.iter().map(|r| (r.clone(), place(r.reading, warning, action))).collect();
    let readings: Vec<Reading> = rows.iter().map(|r| r.reading).collect();
    let times: Vec<f64> = rows.iter().map(|r| r.time_years).collect();
    let in_time =
        (rows.len() >= 4).then(|| kendall::kendall(&Codes::of_values(&times), &Codes::of(&readings), PChoice::Best));
    findings.extend(stands_out(&places, &readings, centre, in_time));
    Ok(Chart { baseline, centre, warning, action, basis, places, in_time, findings })
}

fn limits(base: &[Reading]) -> Result<(Option<f64>, f64, Message), Error> {
    let known: Vec<f64> = base.iter().filter(|r| r.is_known()).map(|r| r.bound()).collect();
    if known.len() == base.len() {
        // Φ(2) and Φ(3).
        let upper = |confidence| population::prediction_upper(&known, population::Shape::Normal, 1, confidence);
        return Ok((Some(upper(0.977_249_868_051_820_8)?), upper(0.998_650_101_968_369_9)?, said::LimitsNormal.into()));
    }
    let highest = known.iter().copied().fold(f64::MIN, f64::max);
    let confidence = population::highest_as_prediction(base.len(), 1);
    let confidence = Share::new(confidence, Digits::Decimals(0));
    Ok((None, highest, said::LimitsHighest { confidence }.into()))
}

fn place(reading: Reading, warning: Option<f64>, action: f64) -> Place {
    match reading {
        Reading::Below(limit) if limit > action => Place::CannotTell,
        Reading::Known(v) if v > action => Place::Action,
        Reading::Known(v) if warning.is_some_and(|w| v > w) => Place::Warning,
        Reading::Below(_) | Reading::Known(_) => Place::Within,
    }
}

fn stands_out(
    places: &[(Observation, Place)],
    readings: &[Reading],
    centre: Reading,
    in_time: Option<Kendall>,
) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut add = |check: Check, outcome, says: Message| {
        found.push(Finding::new(check, outcome, says));
    };
    let count = |p: Place| places.iter().filter(|(_, q)| *q == p).count() as i64;
    let day = |row: &Observation| Date::from(rows::date_of(row.time_years).to_string());
    if let Some((row, _)) = places.iter().find(|(_, p)| *p == Place::Action) {
        add(
            Check::ControlAction,
            Outcome::NotMet,
            said::AboveAction { values: count(Place::Action), first: day(row) }.into(),
        );
    }
    if count(Place::CannotTell) > 0 {
        add(
            Check::ControlCannotTell,
            Outcome::NotKnown,
            said::ShowsNothing { values: count(Place::CannotTell) }.into(),
        );
    }
    let mut run = 0;
    for (i, r) in readings.iter().enumerate() {
        // A non-detect ends a run: it is not surely above the centre.
        let above = matches!(r, Reading::Known(v) if *v > centre.bound());
        run = if above { run + 1 } else { 0 };
        // Equal, not at least: a run is told once, however long it goes on.
        if run == RUN {
            add(Check::ControlRun, Outcome::NotMet, said::Run { values: RUN as i64, last: day(&places[i].0) }.into());
        }
    }
    if let Some(k) = in_time.filter(|k| k.p < 0.05) {
        let (tau, p) = (words::tau_said(k.tau_b), words::p_said(k.p));
        let says = if k.s > 0 { said::BlanksRise { tau, p }.into() } else { said::BlanksFall { tau, p }.into() };
        add(Check::ControlInTime, Outcome::NotMet, says);
    }
    found
}
