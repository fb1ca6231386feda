//! Does it change, and how fast? Mann–Kendall test, Theil–Sen slope (Akritas form with
//! non-detects), serial correlation, steps, and the trend with and without them. In: rows of one
//! series in one unit with decimal years; out: S, tau-b, p, slope in units per year.
//!
//! What is given beside the plain test, because a record of decades needs it:
//! * the same test with everything re-censored at the highest limit: it cannot be moved by a
//!   limit that changed with the years;
//! * the test of the limits themselves against time, which says whether that matters;
//! * serial correlation of the residuals; p and intervals assume there is none;
//! * steps at method changes and at dates given, and at the date the data choose (Pettitt), and
//!   the trend within the stretches between them.
//!
//! Sources: Mann (1945), Kendall (1938), Sen (1968), Hirsch, Slack & Smith (1982) Water Resources
//! Research 18:107, Hirsch & Slack (1984) WRR 20:727, Pettitt (1979) Appl. Statist. 28:126,
//! Helsel & Hirsch, Statistical Methods in Water Resources (2002) ch. 12 (from memory). An
//! interval holds the slopes that the test does not reject. Not done: trends that turn around.
//! Checked in `tests/handbook.rs`, `tests/brute_force.rs`, `docs/validation/series.md`.

use crate::kendall::{self, Codes, Kendall, NullDistribution, PChoice, PFrom};
use crate::seasonal::{self, Season, Seasonal};
use crate::slope::{PairSlopes, Point};
use crate::step::{self, ChangePoint, GivenStep};
use crate::{Error, Observation, Reading, fitness, rows, words};
use message::{Date, Message, Shown, series as said};
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

/// A slope with its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slope {
    /// Units per year.
    pub per_year: f64,
    /// Units per year; an end that the data do not bound is infinite.
    pub interval: (f64, f64),
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
    /// Interval, percent per year.
    pub interval: (f64, f64),
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
    /// Common slope of the stretches; `None` where it cannot be told.
    pub slope: Option<Slope>,
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
    // Seasons of one year go together: the interval then stands on the variance with their covariance.
    let slope = match &seasonal {
        None => slope_of(&[&rows], None, request.confidence),
        Some(s) => {
            let strata: Vec<&[Observation]> = s.strata.iter().map(Vec::as_slice).collect();
            slope_of(&strata, Some(s.variance), request.confidence)
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

fn points(rows: &[Observation], f: impl Fn(f64) -> f64) -> Vec<Point> {
    rows.iter().map(|r| Point { x: r.time_years, y: f(r.reading.bound()), known: r.reading.is_known() }).collect()
}

/// Common slope of strata with its interval; `variance` of S where the strata depend on each
/// other.
pub(crate) fn slope_of(strata: &[&[Observation]], variance: Option<f64>, confidence: f64) -> Option<Slope> {
    let (per_year, interval, zero_interval) = one_slope(strata, variance, confidence, |y| y)?;
    let positive = strata.iter().all(|rows| rows.iter().all(|r| r.reading.bound() > 0.0));
    let percent_per_year =
        positive.then(|| one_slope(strata, variance, confidence, libm::log)).flatten().map(|(b, (low, high), _)| {
            let percent = |x: f64| 100.0 * libm::expm1(x);
            Percent { per_year: percent(b), interval: (percent(low), percent(high)) }
        });
    Some(Slope { per_year, interval, zero_interval, percent_per_year })
}

type SlopeParts = (f64, (f64, f64), (f64, f64));

fn one_slope(
    strata: &[&[Observation]],
    variance: Option<f64>,
    confidence: f64,
    f: impl Fn(f64) -> f64 + Copy,
) -> Option<SlopeParts> {
    let mut pairs = PairSlopes::new(strata.iter().map(|rows| points(rows, f)).collect());
    let zero = pairs.zero_interval()?;
    let b = 0.5 * (zero.0 + zero.1);
    let c = critical(strata, b, variance, confidence, f);
    Some((b, pairs.interval(c), zero))
}

/// Largest |S| of the residuals that is not rejected: exact where it can be counted, else normal
/// with the continuity correction of the test.
fn critical(
    strata: &[&[Observation]],
    slope: f64,
    variance: Option<f64>,
    confidence: f64,
    f: impl Fn(f64) -> f64,
) -> u64 {
    let mut total = 0.0;
    let mut exact = None;
    for rows in strata {
        let times: Vec<f64> = rows.iter().map(|r| r.time_years).collect();
        let a = Codes::of_values(&times);
        // Residuals at the estimate tie by construction: apart by a hair they do not.
        let b = if rows.iter().all(|r| r.reading.is_known()) {
            untied(rows.len())
        } else {
            let r: Vec<Reading> = rows.iter().map(|r| r.reading.map(|y| f(y) - slope * r.time_years)).collect();
            Codes::of(&r)
        };
        if strata.len() == 1 && variance.is_none() {
            exact = kendall::exact_distribution(&a, &b);
        }
        total += kendall::s_variance(&a, &b);
    }
    if let Some(d) = exact {
        return d.critical(1.0 - confidence) as u64;
    }
    let z = normal::quantile(0.5 * (1.0 + confidence));
    (z * libm::sqrt(variance.unwrap_or(total)) + 1.0) as u64
}

fn untied(n: usize) -> Codes {
    let ranks: Vec<f64> = (0..n).map(|i| i as f64).collect();
    Codes::of_values(&ranks)
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
    let (mut s, mut variance) = (0, 0.0);
    let mut exact = Some(Vec::new());
    for part in &strata {
        let times: Vec<f64> = part.iter().map(|r| r.time_years).collect();
        let readings: Vec<Reading> = part.iter().map(|r| r.reading).collect();
        let (a, b) = (Codes::of_values(&times), Codes::of(&readings));
        s += kendall::s_statistic(&a, &b);
        variance += kendall::s_variance(&a, &b);
        if let Some(list) = &mut exact {
            match kendall::exact_distribution(&a, &b) {
                Some(d) => list.push(d),
                None => exact = None,
            }
        }
    }
    let exact = exact.and_then(|list: Vec<NullDistribution>| {
        list.iter().try_fold(NullDistribution::certain_zero(), |sum, d| sum.plus(d))
    });
    let (p, p_from) = match exact {
        Some(d) => (d.two_sided(s), PFrom::Exact),
        None => (kendall::normal_p(s as f64, variance), PFrom::Normal),
    };
    let slices: Vec<&[Observation]> = strata.iter().map(Vec::as_slice).collect();
    Some(WithSteps { stretches: strata.len(), s, p, p_from, slope: slope_of(&slices, None, request.confidence) })
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

fn warnings(t: &Trend) -> Vec<Finding> {
    let mut found = Vec::new();
    // Only likeness of neighbours: it makes p and intervals too small, the opposite makes them too large.
    if let Some(s) = t.serial.filter(|s| s.p < 0.05 && s.tau > 0.0) {
        found.push(caution(
            Check::TrendSerialCorrelation,
            said::Neighbours {
                tau: words::tau_said(s.tau),
                p: words::p_said(s.p),
                spacing: Shown::decimals(s.spacing_years, 2, ""),
            },
        ));
    }
    if let Some(k) = t.limits_in_time.filter(|k| k.p < 0.05) {
        found.push(caution(Check::TrendLimitsMoved, limits_moved(&k, t.at_highest_limit)));
    }
    match t.slope {
        None => {
            found.push(caution(Check::TrendSlopeOpen, said::SlopeOpen));
        }
        Some(s) if !(s.interval.0.is_finite() && s.interval.1.is_finite()) => {
            found.push(caution(Check::TrendSlopeUnbounded, said::SlopeUnbounded));
        }
        Some(_) => {}
    }
    for g in t.given_steps.iter().filter(|g| g.p < 0.05) {
        found.push(caution(
            Check::TrendStep,
            said::Step {
                date: Date::from(rows::date_of(g.time_years).to_string()),
                what: g.what.clone(),
                p: words::p_said(g.p),
            },
        ));
    }
    found.extend(fitness::slope_warning(t.n, t.non_detects));
    found
}
