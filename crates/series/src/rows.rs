//! The rows of a series: date, value or limit, method. In: readings in one unit, dates as
//! decimal years; out: rows in order of time with findings on what is odd about them.
//!
//! A decimal year is `year + (day of year − 1)/(days in that year)`, so 29 February has its own
//! place and a whole year is 1 in any year. A reading below its limit is a case of its own and
//! never a number. What it does not do: no unit conversion (the caller brings one unit), no
//! values above a range (the caller leaves them out and says so). Checked in `tests/bad_input.rs`.

use crate::{Error, population};
use jiff::civil::Date;
use message::{Message, Shown, series as said};
use quantity::{Check, Finding, Outcome};

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reading {
    /// A number: quantified, or raw net value (which may be negative).
    Known(f64),
    /// A non-detect: somewhere below the limit.
    Below(f64),
}

impl Reading {
    /// The number or the limit.
    pub fn bound(self) -> f64 {
        match self {
            Self::Known(v) | Self::Below(v) => v,
        }
    }

    /// Whether it is a number.
    pub fn is_known(self) -> bool {
        matches!(self, Self::Known(_))
    }

    /// The same reading with its number (or limit) mapped by a rising function.
    #[must_use]
    pub fn map(self, f: impl Fn(f64) -> f64) -> Self {
        match self {
            Self::Known(v) => Self::Known(f(v)),
            Self::Below(v) => Self::Below(f(v)),
        }
    }
}

/// One row of a series.
#[derive(Debug, Clone, PartialEq)]
pub struct Observation {
    /// Decimal year of the sampling.
    pub time_years: f64,
    /// The reading, in the unit of the series.
    pub reading: Reading,
    /// Method, laboratory, place in the well: whatever marks a change of practice; may be empty.
    pub method: String,
}

impl Observation {
    /// A row without a method.
    pub fn new(time_years: f64, reading: Reading) -> Self {
        Self { time_years, reading, method: String::new() }
    }
}

/// Decimal year of a date.
pub fn decimal_year(date: Date) -> f64 {
    f64::from(date.year()) + (f64::from(date.day_of_year()) - 1.0) / f64::from(date.days_in_year())
}

/// The date of a decimal year, to the nearest day.
pub fn date_of(time_years: f64) -> Date {
    let year = time_years.floor().clamp(-9999.0, 9998.0) as i16;
    let first = Date::constant(year, 1, 1);
    let day = ((time_years - f64::from(year)) * f64::from(first.days_in_year())).round();
    first.checked_add(jiff::Span::new().days(day.clamp(0.0, 366.0) as i64)).unwrap_or(first)
}

/// Refuses what is not a number.
///
/// # Errors
/// [`Error::NotFinite`] with the number of the value.
pub fn check_finite(readings: &[Reading]) -> Result<(), Error> {
    match readings.iter().position(|r| !r.bound().is_finite()) {
        None => Ok(()),
        Some(i) => Err(Error::NotFinite { number: i + 1, value: readings[i].bound() }),
    }
}

/// The typed answer where no value is known.
///
/// # Errors
/// [`Error::TooFew`] for an empty series, [`Error::AllCensored`] with the upper bound of the
/// share above the highest limit.
pub fn check_some_known(readings: &[Reading]) -> Result<(), Error> {
    if readings.is_empty() {
        return Err(Error::TooFew { what: "a series", found: 0, needed: 1 });
    }
    if readings.iter().any(|r| r.is_known()) {
        return Ok(());
    }
    let n = readings.len();
    Err(Error::AllCensored {
        n,
        highest_limit: readings.iter().map(|r| r.bound()).fold(f64::MIN, f64::max),
        share_above_upper_95: population::clopper_pearson_upper(0, n as u64, 0.95)?,
    })
}

/// Refuses zero and negative values and limits.
///
/// # Errors
/// [`Error::NotPositive`] with the number of the first one.
pub fn check_positive(readings: &[Reading], what: &'static str) -> Result<(), Error> {
    match readings.iter().position(|r| r.bound() <= 0.0) {
        None => Ok(()),
        Some(i) => Err(Error::NotPositive { what, number: i + 1, value: readings[i].bound() }),
    }
}

fn finding(check: Check, says: impl Into<Message>) -> Finding {
    Finding::new(check, Outcome::NotMet, says.into())
}

/// What is odd about a list of readings.
pub fn oddities(readings: &[Reading]) -> Vec<Finding> {
    let mut found = Vec::new();
    let known: Vec<f64> = readings.iter().filter(|r| r.is_known()).map(|r| r.bound()).collect();
    let top = known.iter().copied().fold(f64::MIN, f64::max);
    let over = readings.iter().filter(|r| !r.is_known() && r.bound() > top).count();
    if over > 0 && !known.is_empty() {
        let all = readings.len() - known.len() == over;
        let (values, highest) = (over as i64, Shown::as_given(top, ""));
        let says: Message = if all {
            said::AllLimitsAboveValues { values, highest }.into()
        } else {
            said::LimitsAboveValues { values, highest }.into()
        };
        found.push(finding(Check::RecordLimitAboveValues, says));
    }
    let low = readings.iter().filter(|r| r.bound() <= 0.0).count();
    if low > 0 {
        found.push(finding(Check::RecordNotPositive, said::NotPositive { values: low as i64 }));
    }
    found
}

/// Rows in order of time with findings: out of order, dates more than once, and the oddities of
/// the readings.
///
/// # Errors
/// [`Error::NotFinite`] for a date or value that is no number, [`Error::TooFew`] under `needed`
/// rows, [`Error::OneDate`], [`Error::AllCensored`].
pub fn in_order(
    rows: &[Observation],
    what: &'static str,
    needed: usize,
) -> Result<(Vec<Observation>, Vec<Finding>), Error> {
    let readings: Vec<Reading> = rows.iter().map(|r| r.reading).collect();
    check_finite(&readings)?;
    if let Some(i) = rows.iter().position(|r| !r.time_years.is_finite()) {
        return Err(Error::NotFinite { number: i + 1, value: rows[i].time_years });
    }
    if rows.len() < needed {
        return Err(Error::TooFew { what, found: rows.len(), needed });
    }
    check_some_known(&readings)?;
    let mut findings = Vec::new();
    let mut sorted = rows.to_vec();
    if rows.windows(2).any(|w| w[0].time_years > w[1].time_years) {
        findings.push(finding(Check::RecordOrder, said::Order));
        sorted.sort_by(|a, b| a.time_years.total_cmp(&b.time_years));
    }
    let (first, last) = (sorted[0].time_years, sorted[sorted.len() - 1].time_years);
    if first == last {
        return Err(Error::OneDate { time_years: first, n: rows.len() });
    }
    let repeats = sorted.windows(2).filter(|w| w[0].time_years == w[1].time_years).count();
    if repeats > 0 {
        let at = sorted.windows(2).find(|w| w[0].time_years == w[1].time_years).map_or(first, |w| w[0].time_years);
        findings.push(finding(
            Check::RecordDateRepeated,
            said::DateRepeated { rows: repeats as i64, first: message::Date::from(date_of(at).to_string()) },
        ));
    }
    findings.extend(oddities(&readings));
    Ok((sorted, findings))
}
