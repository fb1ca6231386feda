//! The same season of each year against the same season of other years. In: rows in order of
//! time; out: S summed over seasons with its variance, covariance between seasons included, p,
//! and whether the seasons agree.
//!
//! The median of its values stands for a season of a year; where non-detects leave it open it is
//! "below" what it would be with each of them at its limit.
//!
//! p by years: S over the orders of the years, each year with all its seasons, so that a dry year
//! does not count twelve times; all orders counted up to 7 years, else the normal law with the
//! variance over all orders (Daniels 1944, `kendall`), which without missing seasons is that of Dietz
//! & Killeen (1981) JASA 76:169, used by Hirsch & Slack (1984) Water Resources Research 20:727 (from
//! memory). It holds when years are exchangeable, whatever happens within one; correlation from row to
//! row over the turn of the year is for `correlation`, and the larger of the two p decides: the only
//! form that kept its false rate in simulation (`docs/validation/series_correlation.md`). Under 5 years
//! no order is rare enough for p < 0.05. Agreement: van Belle & Hughes (1984) WRR 20:127, χ² of the
//! seasons' z about their mean. Checked in `tests/seasonal.rs` against the definition, all orders and by simulation.

use crate::kendall::{self, Codes, Moments, NullDistribution, PChoice, PFrom};
use crate::{Error, Observation, Reading, rows};
use message::{Message, series as said};
use statistics::sample::between_ranks;
use std::collections::BTreeMap;

/// How the year is divided.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Season {
    /// Not at all.
    #[default]
    None,
    /// Calendar months.
    Month,
    /// Quarters from January.
    Quarter,
}

impl Season {
    fn per_year(self) -> usize {
        match self {
            Self::None => 1,
            Self::Month => 12,
            Self::Quarter => 4,
        }
    }

    /// Name as the command line takes it.
    pub fn name(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Month => "month",
            Self::Quarter => "quarter",
        }
    }

    /// The test of a trend with the year divided so.
    pub fn test(self) -> Message {
        match self {
            Self::None => said::MannKendall.into(),
            Self::Month => said::SeasonalMonth.into(),
            Self::Quarter => said::SeasonalQuarter.into(),
        }
    }
}

/// Test of one season.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneSeason {
    /// Number of the season in the year, from 1.
    pub number: usize,
    /// Years with a value.
    pub n: usize,
    /// S of this season.
    pub s: i64,
    /// Its variance.
    pub variance: f64,
}

/// The seasonal test.
#[derive(Debug, Clone, PartialEq)]
pub struct Seasonal {
    /// How the year was divided.
    pub season: Season,
    /// Each season with at least two years.
    pub seasons: Vec<OneSeason>,
    /// Sum of S.
    pub s: i64,
    /// S over what it would be if every certain pair went one way (tau-b of the pooled seasons).
    pub tau: f64,
    /// Variance of the sum over all orders of the years.
    pub variance: f64,
    /// Variance of the sum if the seasons were independent.
    pub variance_independent: f64,
    /// p over the orders of the years.
    pub p: f64,
    /// Where it comes from.
    pub p_from: PFrom,
    /// p as if the seasons were independent.
    pub p_independent: f64,
    /// Where `p_independent` comes from.
    pub p_independent_from: PFrom,
    /// p of the test that all seasons have the same trend; `None` with one season.
    pub p_seasons_agree: Option<f64>,
    /// Number of years with a value in a season that counts.
    pub years: usize,
    /// Rows beyond the first of a season of a year: its median stands for them all.
    pub rows_taken_together: usize,
    /// The rows used, season by season.
    pub strata: Vec<Vec<Observation>>,
}

/// Years under which no order of them has p < 0.05: 2/4! is 0.083.
pub const LEAST_YEARS: usize = 5;

/// Seasonal Kendall test; `None` for [`Season::None`].
///
/// # Errors
/// [`Error::TooFew`] where no season has two years.
pub fn seasonal(rows: &[Observation], season: Season, choice: PChoice) -> Result<Option<Seasonal>, Error> {
    if season == Season::None {
        return Ok(None);
    }
    let (table, taken_together) = by_season(rows, season);
    if table.is_empty() {
        return Err(Error::TooFew { what: "a seasonal test (years in one season)", found: 1, needed: 2 });
    }
    let mut seasons = Vec::new();
    let (mut s, mut independent, mut largest) = (0, 0.0, 0.0);
    let mut exact: Option<NullDistribution> = (choice == PChoice::Best).then(NullDistribution::certain_zero);
    for (number, years) in &table {
        let (a, b) = codes(years);
        let one = OneSeason {
            number: number + 1,
            n: years.len(),
            s: kendall::s_statistic(&a, &b),
            variance: kendall::s_variance(&a, &b),
        };
        s += one.s;
        independent += one.variance;
        largest += kendall::largest_s(&a, &b);
        exact = exact.and_then(|e| e.plus(&kendall::exact_distribution(&a, &b)?));
        seasons.push(one);
    }
    let (p_independent, p_independent_from) = match exact {
        Some(d) => (d.two_sided(s), PFrom::Exact),
        None => (kendall::normal_p(s as f64, independent), PFrom::Normal),
    };
    let strata: Vec<Vec<Observation>> = table.into_values().map(|years| years.into_values().collect()).collect();
    let orders = YearOrders::of(&strata);
    let (p, p_from) = orders.p();
    Ok(Some(Seasonal {
        season,
        p_seasons_agree: agreement(&seasons),
        seasons,
        s,
        tau: if largest > 0.0 { s as f64 / largest } else { 0.0 },
        variance: orders.variance,
        variance_independent: independent,
        p,
        p_from,
        p_independent,
        p_independent_from,
        years: orders.years,
        rows_taken_together: taken_together,
        strata,
    }))
}

type Table = BTreeMap<usize, BTreeMap<i64, Observation>>;

fn year_of(row: &Observation) -> i64 {
    i64::from(rows::date_of(row.time_years).year())
}

/// Season → year → the median of its rows; and how many rows stand behind another.
fn by_season(rows: &[Observation], season: Season) -> (Table, usize) {
    let mut together: BTreeMap<usize, BTreeMap<i64, Vec<&Observation>>> = BTreeMap::new();
    for row in rows {
        let month = rows::date_of(row.time_years).month() as usize;
        let index = (month - 1) * season.per_year() / 12;
        together.entry(index).or_default().entry(year_of(row)).or_default().push(row);
    }
    together.retain(|_, years| years.len() >= 2);
    let beyond = together.values().flat_map(|y| y.values()).map(|rows| rows.len() - 1).sum();
    let table = together
        .into_iter()
        .map(|(index, years)| (index, years.into_iter().map(|(year, rows)| (year, median_row(&rows))).collect()))
        .collect();
    (table, beyond)
}

/// Median of rows in order of time: its date, its reading; the method is that of the first.
fn median_row(rows: &[&Observation]) -> Observation {
    let times: Vec<f64> = rows.iter().map(|r| r.time_years).collect();
    let readings: Vec<Reading> = rows.iter().map(|r| r.reading).collect();
    Observation { time_years: between_ranks(&times, 0.5), reading: median(&readings), method: rows[0].method.clone() }
}

/// The median, known where it is the same with every non-detect at its limit and far below it.
fn median(readings: &[Reading]) -> Reading {
    let sorted = |low: f64| {
        let mut v: Vec<f64> =
            readings.iter().map(|r| if r.is_known() { r.bound() } else { r.bound().min(low) }).collect();
        v.sort_unstable_by(f64::total_cmp);
        between_ranks(&v, 0.5)
    };
    let (lowest, highest) = (sorted(f64::MIN), sorted(f64::INFINITY));
    if lowest == highest { Reading::Known(highest) } else { Reading::Below(highest) }
}

fn codes(years: &BTreeMap<i64, Observation>) -> (Codes, Codes) {
    let times: Vec<f64> = years.keys().map(|y| *y as f64).collect();
    let readings: Vec<Reading> = years.values().map(|r| r.reading).collect();
    (Codes::of_values(&times), Codes::of(&readings))
}

/// Up to this many years all orders are counted: 7! = 5,040 of them, well under a ms.
const COUNTED_YEARS: usize = 7;

/// S over all orders of the years, each with all its seasons.
pub(crate) struct YearOrders {
    s: i64,
    years: usize,
    variance: f64,
    exact: Option<NullDistribution>,
}

impl YearOrders {
    /// Of seasons, each with one row a year in order of time.
    pub(crate) fn of(strata: &[Vec<Observation>]) -> Self {
        let mut years: Vec<i64> = strata.iter().flatten().map(year_of).collect();
        years.sort_unstable();
        years.dedup();
        let n = years.len();
        // Of two years, the seasons in which the later is surely higher less those in which it is lower.
        let mut between = vec![vec![0_i64; n]; n];
        for season in strata {
            let readings: Vec<Reading> = season.iter().map(|r| r.reading).collect();
            let at: Vec<usize> = season.iter().filter_map(|r| years.binary_search(&year_of(r)).ok()).collect();
            let codes = Codes::of(&readings);
            for i in 0..at.len() {
                for j in i + 1..at.len() {
                    let sign = codes.sign(j, i);
                    between[at[i]][at[j]] += sign;
                    between[at[j]][at[i]] -= sign;
                }
            }
        }
        let s = (0..n).flat_map(|i| between[i][i + 1..].iter()).sum();
        let square = |x: i64| (x as f64) * (x as f64);
        let of_years = Moments {
            squares_of_sums: between.iter().map(|row| square(row.iter().sum())).sum(),
            certain: between.iter().flatten().map(|x| square(*x)).sum(),
        };
        let m = n as f64;
        // Scores −1, 1 of years in order: row sums m − 1, m − 3, … 1 − m.
        let of_time = Moments { squares_of_sums: m * (m * m - 1.0) / 3.0, certain: m * (m - 1.0) };
        Self {
            s,
            years: n,
            variance: kendall::variance_from(n, of_time, of_years),
            exact: (n <= COUNTED_YEARS).then(|| count_orders(&between)),
        }
    }

    fn p(&self) -> (f64, PFrom) {
        match &self.exact {
            Some(d) => (d.two_sided(self.s), PFrom::Exact),
            None => (kendall::normal_p(self.s as f64, self.variance), PFrom::Normal),
        }
    }

    /// Variance and, where counted, the distribution.
    pub(crate) fn into_null(self) -> (f64, Option<NullDistribution>) {
        (self.variance, self.exact)
    }
}

/// How often each S comes of all orders of the years.
fn count_orders(between: &[Vec<i64>]) -> NullDistribution {
    fn place(between: &[Vec<i64>], order: &mut Vec<usize>, s: i64, counts: &mut [u32]) {
        if order.len() == between.len() {
            counts[(s + counts.len() as i64 / 2) as usize] += 1;
            return;
        }
        for next in 0..between.len() {
            if !order.contains(&next) {
                let more: i64 = order.iter().map(|before| between[*before][next]).sum();
                order.push(next);
                place(between, order, s + more, counts);
                order.pop();
            }
        }
    }
    let reach = between.iter().flatten().map(|x| x.abs()).sum::<i64>() as usize / 2;
    let mut counts = vec![0; 2 * reach + 1];
    place(between, &mut Vec::new(), 0, &mut counts);
    NullDistribution::counted(reach, &counts)
}

fn agreement(seasons: &[OneSeason]) -> Option<f64> {
    let z: Vec<f64> =
        seasons.iter().filter(|s| s.variance > 0.0).map(|s| s.s as f64 / libm::sqrt(s.variance)).collect();
    if z.len() < 2 {
        return None;
    }
    let m = z.len() as f64;
    let mean = z.iter().sum::<f64>() / m;
    let chi2 = z.iter().map(|x| x * x).sum::<f64>() - m * mean * mean;
    Some(statistics::chi2::sf(chi2, m - 1.0))
}
