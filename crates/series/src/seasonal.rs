//! The same season of each year against the same season of other years. In: rows in order of
//! time; out: S summed over seasons with its variance, covariance between seasons included, p,
//! and whether the seasons agree.
//!
//! One row stands for a season of a year: the one nearest to the middle of the season (non-detects are not
//! averaged). Covariance between seasons, so that a dry year does not count twelve times:
//! Hirsch & Slack (1984) Water Resources Research 20:727, with missing years after Dietz &
//! Killeen (1981) JASA 76:169 (from memory); it needs ten years or so to be estimated, which is
//! said. Agreement: van Belle & Hughes (1984) WRR 20:127, χ² of the seasons' z about their mean.
//! Checked in `tests/seasonal.rs` against the definition and by simulation.

use crate::kendall::{self, Codes, NullDistribution, PChoice, PFrom};
use crate::{Error, Observation, Reading, rows};
use message::{Message, series as said};
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
    /// Variance of the sum, covariance included.
    pub variance: f64,
    /// Variance of the sum if the seasons were independent.
    pub variance_independent: f64,
    /// p with the covariance.
    pub p: f64,
    /// p as if the seasons were independent.
    pub p_independent: f64,
    /// Where `p_independent` comes from.
    pub p_independent_from: PFrom,
    /// p of the test that all seasons have the same trend; `None` with one season.
    pub p_seasons_agree: Option<f64>,
    /// Number of years from first to last.
    pub years: usize,
    /// Rows left out because another of the same season and year lay nearer to its middle.
    pub rows_left_out: usize,
    /// The rows used, season by season.
    pub strata: Vec<Vec<Observation>>,
}

/// Seasonal Kendall test; `None` for [`Season::None`].
///
/// # Errors
/// [`Error::TooFew`] where no season has two years.
pub fn seasonal(rows: &[Observation], season: Season, choice: PChoice) -> Result<Option<Seasonal>, Error> {
    if season == Season::None {
        return Ok(None);
    }
    let (table, left_out) = by_season(rows, season);
    if table.is_empty() {
        return Err(Error::TooFew { what: "a seasonal test (years in one season)", found: 1, needed: 2 });
    }
    let mut seasons = Vec::new();
    let (mut s, mut independent) = (0, 0.0);
    // The exact law is that of independent seasons; beside their covariance only the normal law is left.
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
        exact = exact.and_then(|e| e.plus(&kendall::exact_distribution(&a, &b)?));
        seasons.push(one);
    }
    // The covariances are estimated and may outweigh the variances; no variance is negative.
    let variance = (independent + 2.0 * covariances(&table)).max(0.0);
    let (p_independent, p_independent_from) = match exact {
        Some(d) => (d.two_sided(s), PFrom::Exact),
        None => (kendall::normal_p(s as f64, independent), PFrom::Normal),
    };
    let first = rows[0].time_years.floor();
    let years = (rows[rows.len() - 1].time_years.floor() - first) as usize + 1;
    Ok(Some(Seasonal {
        season,
        p_seasons_agree: agreement(&seasons),
        seasons,
        s,
        variance,
        variance_independent: independent,
        p: kendall::normal_p(s as f64, variance),
        p_independent,
        p_independent_from,
        years,
        rows_left_out: left_out,
        strata: table.into_values().map(|years| years.into_values().collect()).collect(),
    }))
}

type Table = BTreeMap<usize, BTreeMap<i64, Observation>>;

/// Season → year → the row nearest to the middle of the season.
fn by_season(rows: &[Observation], season: Season) -> (Table, usize) {
    let count = season.per_year();
    let place = |row: &Observation| {
        let date = rows::date_of(row.time_years);
        let index = (date.month() as usize - 1) * count / 12;
        let middle = f64::from(date.year()) + (index as f64 + 0.5) / count as f64;
        (index, i64::from(date.year()), (row.time_years - middle).abs())
    };
    let mut table = Table::new();
    let mut left_out = 0;
    for row in rows {
        let (index, year, distance) = place(row);
        let years = table.entry(index).or_default();
        match years.get_mut(&year) {
            None => {
                years.insert(year, row.clone());
            }
            Some(there) => {
                left_out += 1;
                if distance < place(there).2 {
                    *there = row.clone();
                }
            }
        }
    }
    table.retain(|_, years| years.len() >= 2);
    (table, left_out)
}

fn codes(years: &BTreeMap<i64, Observation>) -> (Codes, Codes) {
    let times: Vec<f64> = years.keys().map(|y| *y as f64).collect();
    let readings: Vec<Reading> = years.values().map(|r| r.reading).collect();
    (Codes::of_values(&times), Codes::of(&readings))
}

/// One season over all years.
struct Column {
    at: Vec<Option<usize>>,
    codes: Codes,
    rank: Vec<f64>,
    n: f64,
}

/// Sum over pairs of seasons of (K + 4ΣRR − n(n_g + 1)(n_h + 1))/3, K the sum of products of the
/// signs over pairs of years, R the ranks with the middle rank for a missing year.
fn covariances(table: &Table) -> f64 {
    let years: Vec<i64> = {
        let mut all: Vec<i64> = table.values().flat_map(|y| y.keys().copied()).collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    let n = years.len();
    let columns: Vec<Column> = table
        .values()
        .map(|season| {
            let (_, codes) = codes(season);
            let (sums, _) = codes.row_sums();
            let at: Vec<Option<usize>> = years.iter().map(|y| season.keys().position(|k| k == y)).collect();
            let n = season.len() as f64;
            let rank = at.iter().map(|i| 0.5 * (n + 1.0 + i.map_or(0.0, |i| sums[i] as f64))).collect();
            Column { at, codes, rank, n }
        })
        .collect();
    let sign = |c: &Column, i: usize, j: usize| match (c.at[i], c.at[j]) {
        (Some(a), Some(b)) => c.codes.sign(b, a),
        _ => 0,
    };
    let mut total = 0.0;
    for (g, a) in columns.iter().enumerate() {
        for b in &columns[g + 1..] {
            let mut k = 0;
            for i in 0..n {
                for j in i + 1..n {
                    k += sign(a, i, j) * sign(b, i, j);
                }
            }
            let ranks: f64 = a.rank.iter().zip(&b.rank).map(|(x, y)| x * y).sum();
            total += (k as f64 + 4.0 * ranks - n as f64 * (a.n + 1.0) * (b.n + 1.0)) / 3.0;
        }
    }
    total
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
