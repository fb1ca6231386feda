//! What are the typical values of a series with non-detects? In: readings in one unit; out:
//! mean, sd, percentiles with 95 % intervals by four methods side by side, each with a word on
//! whether it is fit for this many values and non-detects.
//!
//! Methods: product limit (no shape), regression on order statistics, maximum likelihood under a
//! lognormal and a gamma shape; see their modules for sources. Nothing is put in place of a
//! non-detect. Where all values are non-detects there is still one thing to say: the upper bound
//! of the share above the highest limit ([`Error::AllCensored`]). What it does not do: it does
//! not look at time; a trend makes a summary of all years a summary of no year.
//! Checked in `tests/handbook.rs`, `tests/bad_input.rs` and by simulation
//! (`docs/validation/series_coverage.csv`).

use crate::fitness::{self, Data, Fitness, Word};
use crate::likelihood::{self, Family, Target};
use crate::product_limit::Estimate;
use crate::{Error, Reading, order_statistics, population, product_limit, rows, trend};
use message::{Digits, Message, Share, Shown, series as said};
use quantity::{Check, Finding, Outcome};

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// Percentiles wanted, as shares; the median is always given.
    pub shares: Vec<f64>,
    /// Confidence of the intervals.
    pub confidence: f64,
    /// Bootstrap draws for regression on order statistics; 0 leaves its intervals out.
    pub draws: u32,
    /// Seed of the bootstrap's random stream.
    pub seed: u64,
}

impl Default for Request {
    fn default() -> Self {
        Self { shares: vec![0.1, 0.25, 0.5, 0.75, 0.9], confidence: 0.95, draws: 999, seed: 1 }
    }
}

/// The four methods.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Product limit.
    ProductLimit,
    /// Regression on order statistics.
    OrderStatistics,
    /// Maximum likelihood, lognormal.
    Lognormal,
    /// Maximum likelihood, gamma.
    Gamma,
}

impl Method {
    /// All, in the order shown.
    pub const ALL: [Self; 4] = [Self::ProductLimit, Self::OrderStatistics, Self::Lognormal, Self::Gamma];

    /// Name as the command line answers it.
    pub fn name(self) -> &'static str {
        match self {
            Self::ProductLimit => "product limit",
            Self::OrderStatistics => "order statistics",
            Self::Lognormal => "likelihood lognormal",
            Self::Gamma => "likelihood gamma",
        }
    }

    /// By which a figure is.
    pub fn by(self) -> Message {
        match self {
            Self::ProductLimit => said::ByProductLimit.into(),
            Self::OrderStatistics => said::ByOrderStatistics.into(),
            Self::Lognormal => said::ByLognormal.into(),
            Self::Gamma => said::ByGamma.into(),
        }
    }

    /// As the coverage table names it.
    pub fn table_name(self) -> &'static str {
        match self {
            Self::ProductLimit => "product-limit",
            Self::OrderStatistics => "order-statistics",
            Self::Lognormal => "likelihood-lognormal",
            Self::Gamma => "likelihood-gamma",
        }
    }
}

/// A percentile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Percentile {
    /// The share below it.
    pub share: f64,
    /// The percentile, or that it lies below the lowest known value.
    pub value: Reading,
    /// Lower end (may be "below the lowest known value"); upper end (may be infinite).
    pub interval: Option<(Reading, f64)>,
}

/// What one method answers.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// The mean; `low` and `high` differ where mass lies below the lowest known value.
    pub mean: Estimate,
    /// Whether the mean's interval could be computed.
    pub mean_has_interval: bool,
    /// Standard deviation.
    pub sd: f64,
    /// Percentiles in the order asked for.
    pub percentiles: Vec<Percentile>,
}

/// One method with its word.
#[derive(Debug, Clone, PartialEq)]
pub struct MethodSummary {
    /// Which.
    pub method: Method,
    /// Its answer, or why there is none.
    pub figures: Result<Figures, Error>,
    /// Fitness for mean, median and 90th percentile.
    pub fit: [(&'static str, Fitness); 3],
}

/// The summary.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// Number of readings.
    pub n: usize,
    /// Non-detects among them.
    pub non_detects: usize,
    /// Different limits with their counts, rising.
    pub limits: Vec<(f64, usize)>,
    /// Share of the product limit below the lowest known value.
    pub mass_below_lowest: f64,
    /// The lowest known value.
    pub lowest_known: f64,
    /// Correlation of the lognormal probability plot.
    pub plot_correlation: Option<f64>,
    /// The methods.
    pub methods: Vec<MethodSummary>,
    /// The method to prefer for the mean: the first fit one in the order shown.
    pub preferred: Option<Method>,
    /// What is odd.
    pub findings: Vec<Finding>,
}

fn check(request: &Request) -> Result<(), Error> {
    trend::check_confidence(request.confidence)?;
    match request.shares.iter().find(|p| !(**p > 0.0 && **p < 1.0)) {
        Some(p) => {
            Err(Error::OutOfRange { name: "percentile share", value: *p, allowed: "more than 0 and less than 1" })
        }
        None => Ok(()),
    }
}

/// Summary of readings.
///
/// # Errors
/// [`Error::TooFew`] for an empty list, [`Error::NotFinite`], [`Error::AllCensored`],
/// [`Error::OutOfRange`] for a share or confidence outside (0, 1).
///
/// ```
/// use series::Reading::Below;
/// use series::summary::{Request, summary};
/// // Nothing was ever found: no mean is made up; the error bounds the share above the highest limit.
/// let never = summary(&[Below(0.2); 12], &Request::default());
/// let Err(series::Error::AllCensored { n, share_above_upper_95, .. }) = never else { panic!("a summary") };
/// assert!(n == 12 && (share_above_upper_95 - 0.22).abs() < 0.01);
/// ```
pub fn summary(readings: &[Reading], request: &Request) -> Result<Summary, Error> {
    check(request)?;
    let pl = product_limit::product_limit(readings)?;
    let ros = order_statistics::order_statistics(readings);
    let n = readings.len();
    let non_detects = readings.iter().filter(|r| !r.is_known()).count();
    let data = Data { n, non_detects, sd_ln: ros.as_ref().ok().map(|line| line.slope_ln) };
    let methods: Vec<MethodSummary> = Method::ALL
        .into_iter()
        .map(|method| MethodSummary {
            method,
            figures: match method {
                Method::ProductLimit => by_product_limit(readings, &pl, request),
                Method::OrderStatistics => ros.clone().and_then(|r| by_line(readings, &r, request)),
                Method::Lognormal => by_likelihood(readings, Family::Lognormal, request),
                Method::Gamma => by_likelihood(readings, Family::Gamma, request),
            },
            fit: ["mean", "median", "p90"].map(|q| (q, fitness::fitness(q, method.table_name(), data))),
        })
        .collect();
    let plot_correlation = ros.ok().map(|r| r.plot_correlation);
    let preferred = preferred(&methods, plot_correlation);
    let mut findings = rows::oddities(readings);
    findings.extend(warnings(&pl, non_detects, plot_correlation, preferred));
    Ok(Summary {
        n,
        non_detects,
        limits: limits(readings),
        mass_below_lowest: pl.mass_below_lowest,
        lowest_known: pl.lowest(),
        plot_correlation,
        methods,
        preferred,
        findings,
    })
}

fn limits(readings: &[Reading]) -> Vec<(f64, usize)> {
    let mut all: Vec<f64> = readings.iter().filter(|r| !r.is_known()).map(|r| r.bound()).collect();
    all.sort_unstable_by(f64::total_cmp);
    all.chunk_by(|a, b| a == b).map(|c| (c[0], c.len())).collect()
}

/// Known values above every limit: their ranks are sure, so that the exact binomial ranks of a
/// percentile can be used there.
struct Ordered {
    falling: Vec<f64>,
    n: usize,
}

impl Ordered {
    fn new(readings: &[Reading]) -> Self {
        let highest_limit =
            readings.iter().filter(|r| !r.is_known()).map(|r| r.bound()).fold(f64::NEG_INFINITY, f64::max);
        let mut falling: Vec<f64> =
            readings.iter().filter(|r| r.is_known() && r.bound() >= highest_limit).map(|r| r.bound()).collect();
        falling.sort_unstable_by(|a, b| b.total_cmp(a));
        Self { falling, n: readings.len() }
    }

    /// The value at rank `k` from below (from 1), where it is sure.
    fn sure_rank(&self, k: usize) -> Option<f64> {
        self.falling.get(self.n.checked_sub(k)?).copied()
    }
}

fn by_product_limit(
    readings: &[Reading],
    pl: &product_limit::ProductLimit,
    request: &Request,
) -> Result<Figures, Error> {
    let known: usize = pl.steps.iter().map(|s| s.here).sum();
    let ordered = Ordered::new(readings);
    let percentile = |share: f64| -> Result<Percentile, Error> {
        let (mut low, mut high) = pl.percentile_interval(share, request.confidence);
        let (l, u) = population::percentile_ranks(readings.len(), share, request.confidence)?;
        if let Some(value) = l.and_then(|k| ordered.sure_rank(k)) {
            low = Reading::Known(value);
        }
        if let Some(value) = u.and_then(|k| ordered.sure_rank(k)) {
            high = value;
        }
        Ok(Percentile { share, value: pl.percentile(share), interval: Some((low, high)) })
    };
    Ok(Figures {
        mean: pl.mean(request.confidence),
        mean_has_interval: known >= 3,
        sd: pl.sd(),
        percentiles: request.shares.iter().map(|p| percentile(*p)).collect::<Result<_, _>>()?,
    })
}

fn by_line(
    readings: &[Reading],
    line: &order_statistics::OrderStatistics,
    request: &Request,
) -> Result<Figures, Error> {
    let boot = order_statistics::bootstrap(readings, &request.shares, request.confidence, request.draws, request.seed)?;
    Ok(Figures {
        mean: Estimate {
            low: line.mean,
            high: line.mean,
            interval: boot.as_ref().map_or((f64::NAN, f64::NAN), |b| b.mean),
        },
        mean_has_interval: boot.is_some(),
        sd: line.sd,
        percentiles: request
            .shares
            .iter()
            .enumerate()
            .map(|(i, share)| Percentile {
                share: *share,
                value: Reading::Known(line.percentile(*share)),
                interval: boot.as_ref().map(|b| (Reading::Known(b.percentiles[i].0), b.percentiles[i].1)),
            })
            .collect(),
    })
}

fn by_likelihood(readings: &[Reading], family: Family, request: &Request) -> Result<Figures, Error> {
    let fit = likelihood::fit(readings, family)?;
    let mean = fit.mean();
    Ok(Figures {
        mean: Estimate { low: mean, high: mean, interval: fit.interval(Target::Mean, request.confidence) },
        mean_has_interval: true,
        sd: fit.sd(),
        percentiles: request
            .shares
            .iter()
            .map(|share| {
                let (low, high) = fit.interval(Target::Percentile(*share), request.confidence);
                Percentile {
                    share: *share,
                    value: Reading::Known(fit.percentile(*share)),
                    interval: Some((Reading::Known(low), high)),
                }
            })
            .collect(),
    })
}

/// Probability-plot correlation under which a lognormal shape is doubted: rule of thumb, common
/// practice.
const DOUBTFUL_CORRELATION: f64 = 0.95;

/// Methods for the mean, the one to prefer first.
const ORDER: [Method; 3] = [Method::ProductLimit, Method::OrderStatistics, Method::Lognormal];

/// Whether a method may be preferred for the mean before its answer is known.
fn may_be(method: Method, word: Word, correlation: Option<f64>) -> bool {
    let shaped = correlation.is_some_and(|r| r >= DOUBTFUL_CORRELATION);
    word == Word::Fit && (method == Method::ProductLimit || shaped)
}

/// Whether its answer is one: a mean that is one number, with an interval.
fn has_mean(figures: &Figures) -> bool {
    figures.mean.low == figures.mean.high && figures.mean_has_interval
}

fn preferred(methods: &[MethodSummary], correlation: Option<f64>) -> Option<Method> {
    ORDER.into_iter().find(|m| {
        methods.iter().any(|s| {
            s.method == *m && may_be(*m, s.fit[0].1.word, correlation) && s.figures.as_ref().is_ok_and(has_mean)
        })
    })
}

/// The answer of the method that [`summary`] prefers for the mean, or of the product limit where it prefers none,
/// without the work for the others.
///
/// # Errors
/// As [`summary`]; what keeps the product limit from an answer.
pub fn preferred_alone(readings: &[Reading], request: &Request) -> Result<(Method, Figures), Error> {
    check(request)?;
    let pl = product_limit::product_limit(readings)?;
    let line = order_statistics::order_statistics(readings).ok();
    let data = Data {
        n: readings.len(),
        non_detects: readings.iter().filter(|r| !r.is_known()).count(),
        sd_ln: line.as_ref().map(|l| l.slope_ln),
    };
    let word = |m: Method| fitness::fitness("mean", m.table_name(), data).word;
    let first = by_product_limit(readings, &pl, request);
    if may_be(ORDER[0], word(ORDER[0]), None) && first.as_ref().is_ok_and(has_mean) {
        return first.map(|f| (ORDER[0], f));
    }
    if let Some(line) = line {
        for method in &ORDER[1..] {
            if !may_be(*method, word(*method), Some(line.plot_correlation)) {
                continue;
            }
            let figures = match method {
                Method::OrderStatistics => by_line(readings, &line, request),
                _ => by_likelihood(readings, Family::Lognormal, request),
            };
            if let Some(f) = figures.ok().filter(has_mean) {
                return Ok((*method, f));
            }
        }
    }
    first.map(|f| (Method::ProductLimit, f))
}

fn warnings(
    pl: &product_limit::ProductLimit,
    non_detects: usize,
    correlation: Option<f64>,
    preferred: Option<Method>,
) -> Vec<Finding> {
    let mut found = Vec::new();
    if pl.mass_below_lowest > 0.0 {
        found.push(Finding::new(
            Check::SummaryMassBelowLowest,
            Outcome::NotKnown,
            said::MassBelow {
                share: Share::new(pl.mass_below_lowest, Digits::Decimals(0)),
                lowest: Shown::trimmed(pl.lowest(), 4, ""),
            },
        ));
    }
    if let Some(r) = correlation.filter(|r| *r < DOUBTFUL_CORRELATION) {
        found.push(Finding::new(
            Check::SummaryShape,
            Outcome::NotMet,
            said::ShapeDoubtful { correlation: Shown::decimals(r, 3, "") },
        ));
    }
    if preferred.is_none() && non_detects > 0 {
        found.push(Finding::new(Check::SummaryNoMethod, Outcome::NotKnown, said::NoMethod));
    }
    found
}
