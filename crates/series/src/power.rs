//! How many more years until a change of x % a year would be seen? In: dates of the record,
//! samples per year from now on, scatter of ln(value), the limit relative to the median; out:
//! the chance that Mann–Kendall's test finds the change, for each number of further years.
//!
//! By simulation: lognormal values about a median that changes by x % a year from the first date
//! of the record, everything under the limit a non-detect, test at the given alpha with the
//! normal approximation. Independent values are assumed; serial correlation makes the answer too
//! hopeful. Counter-based streams: the same numbers on any machine. Method: Hirsch, Slack & Smith
//! (1982) Water Resources Research 18:107 studied power this way (from memory). Standard error of
//! a chance near 0.8: 0.009. Checked in `tests/programme_of_years.rs` against scipy.

use crate::kendall::{self, Codes, PChoice};
use crate::{Error, Reading};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;
use statistics::normal;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Decimal years of the samples there are; may be empty.
    pub dates_years: Vec<f64>,
    /// Samples per year from now on.
    pub per_year: f64,
    /// Change to be seen, percent per year.
    pub percent_per_year: f64,
    /// Standard deviation of ln(value) about the trend.
    pub sd_ln: f64,
    /// Limit over the median at the first date; `None` where all is quantified.
    pub limit_over_median: Option<f64>,
    /// Two-sided alpha of the test.
    pub alpha: f64,
    /// Chance wanted.
    pub power: f64,
    /// Most further years looked at.
    pub most_years: u32,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Further years needed; `None` where even `most_years` do not do.
    pub more_years: Option<u32>,
    /// Chance at each number of further years that was simulated, in rising order.
    pub curve: Vec<(u32, f64)>,
}

/// Simulated series per point of the curve.
const SERIES: u64 = 2000;

/// Further years until the change would be seen.
///
/// # Errors
/// [`Error::OutOfRange`] for a parameter outside its range, [`Error::TooFew`] where there would
/// be no sample at all.
pub fn years_to_see(q: &Question) -> Result<Answer, Error> {
    check(q)?;
    let mut curve = std::collections::BTreeMap::new();
    let mut at = |years: u32| *curve.entry(years).or_insert_with(|| chance(q, years));
    let mut low = 0;
    let mut high = None;
    if at(0) >= q.power {
        high = Some(0);
    } else {
        let mut years = 1;
        while years < q.most_years && at(years) < q.power {
            low = years;
            years = (years * 2).min(q.most_years);
        }
        if at(years) >= q.power {
            high = Some(years);
        }
    }
    if let Some(h) = &mut high {
        while *h > low + 1 {
            let middle = u32::midpoint(low, *h);
            if at(middle) >= q.power {
                *h = middle;
            } else {
                low = middle;
            }
        }
    }
    Ok(Answer { more_years: high, curve: curve.into_iter().collect() })
}

fn check(q: &Question) -> Result<(), Error> {
    let range = |name, value: f64, good: bool, allowed| {
        if good { Ok(()) } else { Err(Error::OutOfRange { name, value, allowed }) }
    };
    let open = |x: f64| x > 0.0 && x < 1.0;
    range("alpha", q.alpha, open(q.alpha), "more than 0 and less than 1")?;
    range("power", q.power, open(q.power), "more than 0 and less than 1")?;
    range("scatter of ln(value)", q.sd_ln, q.sd_ln > 0.0 && q.sd_ln.is_finite(), "more than 0")?;
    range("samples per year", q.per_year, q.per_year > 0.0 && q.per_year <= 400.0, "more than 0, at most 400")?;
    range(
        "change in percent per year",
        q.percent_per_year,
        q.percent_per_year > -100.0 && q.percent_per_year.is_finite(),
        "more than −100",
    )?;
    range("most further years", f64::from(q.most_years), (1..=200).contains(&q.most_years), "1 to 200")
}

fn dates(q: &Question, more_years: u32) -> Vec<f64> {
    let mut dates = q.dates_years.clone();
    dates.sort_unstable_by(f64::total_cmp);
    let last = dates.last().copied().unwrap_or(0.0);
    let further = libm::round(f64::from(more_years) * q.per_year) as usize;
    dates.extend((1..=further).map(|i| last + i as f64 / q.per_year));
    dates
}

/// Chance that the test finds the change after so many further years.
fn chance(q: &Question, more_years: u32) -> f64 {
    let dates = dates(q, more_years);
    if dates.len() < 4 {
        return 0.0;
    }
    let slope = libm::log1p(q.percent_per_year / 100.0);
    let ln_limit = q.limit_over_median.map(libm::log);
    let codes = Codes::of_values(&dates);
    let found: u32 = (0..SERIES)
        .into_par_iter()
        .map(|series| {
            let mut rng = ChaCha8Rng::seed_from_u64(0);
            rng.set_stream((u64::from(more_years) << 32) | series);
            let readings: Vec<Reading> = dates
                .iter()
                .map(|d| {
                    let u: f64 = rng.random_range(1e-16..1.0);
                    let y = slope * (d - dates[0]) + q.sd_ln * normal::quantile(u);
                    match ln_limit {
                        Some(l) if y < l => Reading::Below(l),
                        _ => Reading::Known(y),
                    }
                })
                .collect();
            let k = kendall::kendall(&codes, &Codes::of(&readings), PChoice::Normal);
            u32::from(k.p <= q.alpha)
        })
        .sum();
    f64::from(found) / SERIES as f64
}
