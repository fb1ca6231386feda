//! Does it change, and how fast? Mann–Kendall test, Theil–Sen slope (Akritas form with
//! non-detects), serial correlation, steps, and the trend with and without them. In: rows of one
//! series in one unit with decimal years; out: S, tau-b, p, slope in units per year.
//!
//! What is given beside the plain test, because a record of decades needs it:
//! * the same test with everything re-censored at the highest limit: it cannot be moved by a
//!   limit that changed with the years;
//! * the test of the limits themselves against time, which says whether that matters;
//! * serial correlation of the residuals, and p and interval that hold under it, which decide
//!   ([`crate::correlation`]); the plain ones assume there is none;
//! * steps at method changes and at dates given, and at the date the data choose (Pettitt), and
//!   the trend within the stretches between them.
//!
//! Sources: Mann (1945), Kendall (1938), Sen (1968), Hirsch, Slack & Smith (1982) Water Resources
//! Research 18:107, Hirsch & Slack (1984) WRR 20:727, Pettitt (1979) Appl. Statist. 28:126,
//! Helsel & Hirsch, Statistical Methods in Water Resources (2002) ch. 12 (from memory). An
//! interval holds the slopes that the test does not reject (`inversion`). Not done: trends
//! that turn around. Checked in `tests/handbook.rs`, `tests/brute_force.rs`, `tests/correlation.rs`,
//! `docs/validation/series.md`, `docs/validation/series_correlation.md`.

use crate::correlation::{ASSUMED, Correlation};
use crate::inversion::{self, Scheme, Tested};
use crate::kendall::{self, Codes, Kendall, PChoice, PFrom};
use crate::seasonal::{self, LEAST_YEARS, Season, Seasonal};
use crate::step::{self, ChangePoint, GivenStep};
use crate::{Error, Observation, Reading, fitness, rows, words};
use message::{Date, Message, Shown, series as said, time_series};
use quantity::{Check, Finding, Outcome};
use statistics::normal;
use statistics::sample::between_ranks;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// How the year is divided.
    pub season: Season,
    /// How p is found.
    pub p: PChoice,
    /// Dates of known changes (new laboratory, new cabinet), decimal years; method changes in
    /// the rows are added.
    pub steps: Vec<f64>,
    /// Confidence of the intervals.
    pub confidence: f64,
}

impl Default for Request {
    fn default() -> Self {
        Self { season: Season::None, p: PChoice::Best, steps: Vec::new(), confidence: 0.95 }
    }
}

/// p under which a change is called one: common practice.
pub const LEVEL: f64 = 0.05;

/// What comes of a trend.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// The deciding p is under [`LEVEL`], later values are higher.
    Rises,
    /// The deciding p is under [`LEVEL`], later values are lower.
    Falls,
    /// The deciding p is not under [`LEVEL`]; no change may be too small to be seen.
    NoChangeSeen,
}

impl Answer {
    fn of(s: i64, p: f64) -> Self {
        match (p < LEVEL, s > 0) {
            (false, _) => Self::NoChangeSeen,
            (true, true) => Self::Rises,
            (true, false) => Self::Falls,
        }
    }

    /// As a message.
    pub fn said(self) -> Message {
        match self {
            Self::Rises => time_series::Rises.into(),
            Self::Falls => time_series::Falls.into(),
            Self::NoChangeSeen => time_series::NoChangeSeen.into(),
        }
    }
}

/// A slope with its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slope {
    /// Units per year.
    pub per_year: f64,
    /// Units per year; an end that the data do not bound is infinite. It holds if neighbours do not
    /// resemble each other. An end of exactly zero with p < 0.05 is not part of it.
    pub interval: (f64, f64),
    /// The same under the correlation found or assumed; `None` where nothing can be told of it.
    pub interval_serial: Option<(f64, f64)>,
    /// Slopes between which S of the residuals is zero: wide where non-detects leave it open.
    pub zero_interval: (f64, f64),
    /// Change in percent per year from the slope of the logarithms; `None` with zero or negative
    /// values.
    pub percent_per_year: Option<Percent>,
}

/// A change in percent per year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Percent {
    /// Percent per year.
    pub per_year: f64,
    /// Interval, percent per year, if neighbours do not resemble each other.
    pub interval: (f64, f64),
    /// The same under the correlation found or assumed; `None` where nothing can be told of it.
    pub interval_serial: Option<(f64, f64)>,
}

impl Slope {
    /// The interval that belongs to the p that decides.
    pub fn deciding_interval(&self) -> (f64, f64) {
        self.interval_serial.unwrap_or(self.interval)
    }

    /// Whether the data bound that interval on both sides.
    pub fn is_bounded(&self) -> bool {
        let (low, high) = self.deciding_interval();
        low.is_finite() && high.is_finite()
    }
}

impl Percent {
    /// The interval that belongs to the p that decides.
    pub fn deciding_interval(&self) -> (f64, f64) {
        self.interval_serial.unwrap_or(self.interval)
    }
}

/// Correlation of each residual with the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Serial {
    /// Kendall's tau-b of neighbours in time.
    pub tau: f64,
    /// Two-sided p (normal approximation).
    pub p: f64,
    /// Median time between neighbours, years.
    pub spacing_years: f64,
}

/// The trend within the stretches between steps, pooled.
#[derive(Debug, Clone, PartialEq)]
pub struct WithSteps {
    /// Number of stretches.
    pub stretches: usize,
    /// Sum of S over the stretches.
    pub s: i64,
    /// Two-sided p.
    pub p: f64,
    /// Where p comes from.
    pub p_from: PFrom,
    /// The largest p under the correlation found or assumed; `None` where nothing can be told of it.
    pub p_serial: Option<f64>,
    /// Common slope of the stretches; `None` where it cannot be told.
    pub slope: Option<Slope>,
}

impl WithSteps {
    /// The p that decides.
    pub fn deciding_p(&self) -> f64 {
        self.p_serial.unwrap_or(self.p)
    }

    /// What comes of it.
    pub fn answer(&self) -> Answer {
        Answer::of(self.s, self.deciding_p())
    }
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Trend {
    /// Rows used.
    pub n: usize,
    /// Non-detects among them.
    pub non_detects: usize,
    /// First and last date, decimal years.
    pub span: (f64, f64),
    /// Test over all rows.
    pub test: Kendall,
    /// Seasonal test, where seasons were asked for.
    pub seasonal: Option<Seasonal>,
    /// What the residuals (of the seasons where asked for) tell of their correlation.
    pub correlation: Correlation,
    /// The largest p of the test (of the seasonal one where asked for) under that correlation, at
    /// least the plain one; `None` where nothing can be told of it.
    pub p_serial: Option<f64>,
    /// Slope (over seasons where asked for); `None` where the non-detects leave it open.
    pub slope: Option<Slope>,
    /// Level of the line at the first date: median (product limit) of the residuals there.
    pub level_at_first: Option<Reading>,
    /// Serial correlation of the residuals.
    pub serial: Option<Serial>,
    /// The change point that the data choose.
    pub change_point: Option<ChangePoint>,
    /// Steps at known dates.
    pub given_steps: Vec<GivenStep>,
    /// Trend with those steps taken out.
    pub with_steps: Option<WithSteps>,
    /// The test with all below the highest limit made equal.
    pub at_highest_limit: Option<Kendall>,
    /// The test of the limits against time.
    pub limits_in_time: Option<Kendall>,
    /// What is odd, and what to beware of.
    pub findings: Vec<Finding>,
}

impl Trend {
    /// The slope where a person may be told it: none where simulation found its interval not fit for this many values
    /// and non-detects. What the finding on it says stands beside the course all the same.
    pub fn fit_slope(&self) -> Option<Slope> {
        self.slope.filter(|_| self.slope_is_fit())
    }

    /// Whether intervals of a slope hold the true one in series with so many values and non-detects: else none is told.
    pub fn slope_is_fit(&self) -> bool {
        fitness::of_slope(self.n, self.non_detects).word != fitness::Word::NotFit
    }

    /// S of the test that answers: where seasons are asked for theirs, since the plain one holds
    /// summers against winters.
    pub fn s(&self) -> i64 {
        self.seasonal.as_ref().map_or(self.test.s, |x| x.s)
    }

    /// Its tau-b.
    pub fn tau(&self) -> f64 {
        self.seasonal.as_ref().map_or(self.test.tau_b, |x| x.tau)
    }

    /// Its p if neighbours do not resemble each other.
    pub fn p(&self) -> f64 {
        self.seasonal.as_ref().map_or(self.test.p, |x| x.p)
    }

    /// Where that p comes from.
    pub fn p_from(&self) -> Message {
        match &self.seasonal {
            None => self.test.p_from.said(),
            Some(x) if x.p_from == PFrom::Exact => said::PYearsCounted.into(),
            Some(_) => said::PSeasons.into(),
        }
    }

    /// Each coefficient that was assumed or found, with the p under it.
    pub fn p_assumed(&self) -> Vec<(f64, f64)> {
        let variance = self.seasonal.as_ref().map_or(self.test.variance, |x| x.variance_independent);
        self.correlation.each_p(self.p(), |f| f.p(self.s() as f64, variance))
    }

    /// The p that decides.
    pub fn deciding_p(&self) -> f64 {
        self.p_serial.unwrap_or_else(|| self.p())
    }

    /// What comes of it.
    pub fn answer(&self) -> Answer {
        Answer::of(self.s(), self.deciding_p())
    }
}

/// Rows needed for a trend.
pub const NEEDED: usize = 4;

/// Trend of a series.
///
/// # Errors
/// [`Error::TooFew`] under 4 rows, [`Error::OneDate`], [`Error::AllCensored`],
/// [`Error::NotFinite`], [`Error::NoSpread`] where every reading is the same known value,
/// [`Error::OutOfRange`] for the confidence.
///
/// ```
/// use series::trend::{Request, trend};
/// use series::{Observation, Reading};
/// // Limits that fell over the years while nothing was found: a trend of the laboratory, not of the water.
/// let rows: Vec<Observation> =
///     (0..8).map(|i| Observation::new(2015.0 + f64::from(i), Reading::Below(2.0 - 0.2 * f64::from(i)))).collect();
/// assert!(matches!(trend(&rows, &Request::default()), Err(series::Error::AllCensored { .. })));
/// ```
pub fn trend(rows: &[Observation], request: &Request) -> Result<Trend, Error> {
    check_confidence(request.confidence)?;
    let (rows, mut findings) = rows::in_order(rows, "a trend", NEEDED)?;
    let readings: Vec<Reading> = rows.iter().map(|r| r.reading).collect();
    if readings.iter().all(|r| *r == readings[0]) {
        return Err(Error::NoSpread { what: "a trend", value: readings[0].bound(), n: rows.len() });
    }
    let times: Vec<f64> = rows.iter().map(|r| r.time_years).collect();
    let codes = Codes::of_values(&times);
    let test = kendall::kendall(&codes, &Codes::of(&readings), request.p);
    let seasonal = seasonal::seasonal(&rows, request.season, request.p)?;
    let Tested { p_serial, correlation, slope, .. } = match &seasonal {
        None => inversion::tested(&[&rows], Scheme::Apart, Some((test.p, test.p_from)), request.confidence),
        Some(s) => {
            let strata: Vec<&[Observation]> = s.strata.iter().map(Vec::as_slice).collect();
            inversion::tested(&strata, Scheme::Years, Some((s.p, s.p_from)), request.confidence)
        }
    };
    let residuals = slope.map(|s| residuals(&rows, s.per_year));
    let level = residuals.as_ref().and_then(|r| level(r));
    let serial = residuals.as_ref().and_then(|r| serial(r, &times));
    let boundaries = step::boundaries(&rows, &request.steps);
    let given_steps = step::given(&rows, &boundaries, request.confidence);
    let with_steps = with_steps(&rows, &boundaries, request);
    let trend = Trend {
        n: rows.len(),
        non_detects: readings.iter().filter(|r| !r.is_known()).count(),
        span: (times[0], times[times.len() - 1]),
        test,
        seasonal,
        correlation,
        p_serial,
        slope,
        level_at_first: level,
        serial,
        change_point: step::pettitt(&rows, request.confidence),
        given_steps,
        with_steps,
        at_highest_limit: at_highest_limit(&codes, &readings),
        limits_in_time: limits_in_time(&rows),
        findings: Vec::new(),
    };
    findings.extend(warnings(&trend));
    Ok(Trend { findings, ..trend })
}

pub(crate) fn check_confidence(confidence: f64) -> Result<(), Error> {
    if confidence > 0.0 && confidence < 1.0 {
        Ok(())
    } else {
        Err(Error::OutOfRange { name: "confidence", value: confidence, allowed: "more than 0 and less than 1" })
    }
}

/// Readings less the slope, level with the first date.
fn residuals(rows: &[Observation], slope: f64) -> Vec<Reading> {
    let first = rows[0].time_years;
    rows.iter().map(|r| r.reading.map(|y| y - slope * (r.time_years - first))).collect()
}

fn level(residuals: &[Reading]) -> Option<Reading> {
    let known: Vec<f64> = residuals.iter().filter(|r| r.is_known()).map(|r| r.bound()).collect();
    if known.len() == residuals.len() {
        let mut sorted = known;
        sorted.sort_unstable_by(f64::total_cmp);
        return Some(Reading::Known(between_ranks(&sorted, 0.5)));
    }
    crate::product_limit::product_limit(residuals).ok().map(|p| p.percentile(0.5))
}

fn serial(residuals: &[Reading], times: &[f64]) -> Option<Serial> {
    let n = residuals.len();
    if n < 8 {
        return None;
    }
    let now = Codes::of(&residuals[..n - 1]);
    let next = Codes::of(&residuals[1..]);
    let k = kendall::kendall(&now, &next, PChoice::Normal);
    let mut gaps: Vec<f64> = times.windows(2).map(|w| w[1] - w[0]).collect();
    gaps.sort_unstable_by(f64::total_cmp);
    Some(Serial { tau: k.tau_b, p: k.p, spacing_years: between_ranks(&gaps, 0.5) })
}

/// Everything below the highest limit becomes one tied class, which no change of limits can move.
fn at_highest_limit(times: &Codes, readings: &[Reading]) -> Option<Kendall> {
    let highest = readings.iter().filter(|r| !r.is_known()).map(|r| r.bound()).fold(f64::MIN, f64::max);
    let several = readings.iter().any(|r| !r.is_known() && r.bound() < highest);
    if !several {
        return None;
    }
    let again: Vec<Reading> = readings
        .iter()
        .map(|r| match *r {
            Reading::Known(v) if v >= highest => Reading::Known(v),
            _ => Reading::Below(highest),
        })
        .collect();
    Some(kendall::kendall(times, &Codes::of(&again), PChoice::Best))
}

fn limits_in_time(rows: &[Observation]) -> Option<Kendall> {
    let (times, limits): (Vec<f64>, Vec<f64>) =
        rows.iter().filter(|r| !r.reading.is_known()).map(|r| (r.time_years, r.reading.bound())).unzip();
    let differ = limits.iter().any(|l| *l != limits[0]);
    (limits.len() >= 4 && differ)
        .then(|| kendall::kendall(&Codes::of_values(&times), &Codes::of_values(&limits), PChoice::Best))
}

fn with_steps(rows: &[Observation], boundaries: &[f64], request: &Request) -> Option<WithSteps> {
    let strata = step::stretches(rows, boundaries);
    if strata.len() < 2 {
        return None;
    }
    let slices: Vec<&[Observation]> = strata.iter().map(Vec::as_slice).collect();
    let t = inversion::tested(&slices, Scheme::Apart, None, request.confidence);
    Some(WithSteps { stretches: strata.len(), s: t.s, p: t.p, p_from: t.p_from, p_serial: t.p_serial, slope: t.slope })
}

fn caution(check: Check, says: impl Into<Message>) -> Finding {
    Finding::new(check, Outcome::NotMet, says.into())
}

/// Of limits that moved with the years; beside it the test with all below the highest limit made equal.
fn limits_moved(limits: &Kendall, at_highest: Option<Kendall>) -> Message {
    let tau = words::tau_said(limits.tau_b);
    match (limits.s < 0, at_highest.map(|h| words::p_said(h.p))) {
        (true, None) => said::LimitsFell { tau }.into(),
        (true, Some(p)) => said::LimitsFellTested { tau, p }.into(),
        (false, None) => said::LimitsRose { tau }.into(),
        (false, Some(p)) => said::LimitsRoseTested { tau, p }.into(),
    }
}

/// What the correlation of neighbours does to p, or that it cannot be told.
fn of_correlation(t: &Trend) -> Option<Finding> {
    let (check, rows) = (Check::TrendSerialCorrelation, message::count(t.correlation.n));
    let untold = |says: Message| Some(Finding::new(check, Outcome::NotKnown, says));
    let Some(p_serial) = t.p_serial else { return untold(said::CorrelationUntold { rows }.into()) };
    let Some(found) = t.correlation.estimated() else {
        let p: Vec<Shown> = t.p_assumed().into_iter().map(|(_, p)| words::p_shown(p)).collect();
        let [none, some, much] = p.try_into().ok()?;
        let [_, rho_some, rho_much] = ASSUMED.map(|rho| Shown::decimals(rho, 1, ""));
        return untold(said::CorrelationTooFew { rows, none, some, much, rho_some, rho_much }.into());
    };
    // Told where neighbours resemble each other beyond chance, and wherever that changes the answer. A coefficient of
    // uncorrelated rows has a standard error of 1/√n (Bartlett 1946, from memory).
    let alike = t.correlation.lag_one.is_some_and(|r| r > normal::TWO_SIDED_95 / libm::sqrt(t.n as f64));
    let turns = t.p() < LEVEL && p_serial >= LEVEL;
    (alike || turns).then(|| {
        caution(
            check,
            said::Neighbours {
                rho: Shown::decimals(found.rho, 2, ""),
                spacing: Shown::decimals(t.correlation.gap_years, 2, ""),
                plain: words::p_said(t.p()),
                serial: words::p_said(p_serial),
            },
        )
    })
}

/// That so few years cannot show a change through their seasons.
fn of_few_years(t: &Trend) -> Option<Finding> {
    let s = t.seasonal.as_ref().filter(|s| s.years < LEAST_YEARS)?;
    let says = said::FewYears { years: message::count(s.years), least: message::count(LEAST_YEARS) };
    Some(Finding::new(Check::TrendCoverage, Outcome::NotKnown, says))
}

fn warnings(t: &Trend) -> Vec<Finding> {
    let mut found: Vec<Finding> = of_correlation(t).into_iter().chain(of_few_years(t)).collect();
    if let Some(k) = t.limits_in_time.filter(|k| k.p < LEVEL) {
        found.push(caution(Check::TrendLimitsMoved, limits_moved(&k, t.at_highest_limit)));
    }
    match t.slope {
        None => {
            found.push(caution(Check::TrendSlopeOpen, said::SlopeOpen));
        }
        Some(s) if !s.is_bounded() => {
            found.push(caution(Check::TrendSlopeUnbounded, said::SlopeUnbounded));
        }
        Some(_) => {}
    }
    for g in t.given_steps.iter().filter(|g| g.deciding_p() < LEVEL) {
        found.push(caution(
            Check::TrendStep,
            said::Step {
                date: Date::from(rows::date_of(g.time_years).to_string()),
                what: g.what.clone(),
                p: words::p_said(g.deciding_p()),
            },
        ));
    }
    found.extend(fitness::slope_warning(t.n, t.non_detects));
    found
}
