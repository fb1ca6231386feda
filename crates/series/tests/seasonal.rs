//! The seasonal test against its definition (sum over seasons) and its variance against
//! simulation.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use series::kendall::{self, Codes, PChoice};
use series::seasonal::{Season, seasonal};
use series::{Observation, Reading, rows};
use statistics::normal;

/// Mid-month dates of so many years.
fn monthly(years: i16, mut value: impl FnMut(usize, usize) -> Option<Reading>) -> Vec<Observation> {
    let mut rows = Vec::new();
    for y in 0..years {
        for m in 1..=12 {
            let date = jiff::civil::date(2000 + y, m, 15);
            if let Some(r) = value(y as usize, m as usize - 1) {
                rows.push(Observation::new(rows::decimal_year(date), r));
            }
        }
    }
    rows
}

#[test]
fn s_is_the_sum_over_the_seasons() {
    let mut rng = ChaCha8Rng::seed_from_u64(3);
    let rows = monthly(9, |_, m| {
        let v = f64::from(rng.random_range(0..20)) + 10.0 * m as f64;
        Some(if rng.random_bool(0.3) { Reading::Below(v) } else { Reading::Known(v) })
    });
    let got = seasonal(&rows, Season::Month, PChoice::Best).unwrap().unwrap();
    let mut s = 0;
    let mut variance = 0.0;
    for month in 0..12 {
        let readings: Vec<Reading> = rows.iter().skip(month).step_by(12).map(|r| r.reading).collect();
        let years: Vec<f64> = (0..9).map(f64::from).collect();
        let (a, b) = (Codes::of_values(&years), Codes::of(&readings));
        s += kendall::s_statistic(&a, &b);
        variance += kendall::s_variance(&a, &b);
    }
    assert_eq!(got.s, s);
    assert!((got.variance_independent - variance).abs() < 1e-9 * variance);
    assert_eq!(got.seasons.len(), 12);
}

/// Years that are good or bad as a whole: months of one year move together. The variance with
/// covariance must follow the spread of S over simulated records; the one without must fall short.
#[test]
fn covariance_between_seasons_is_taken_in() {
    let (mut s2, mut with, mut without) = (0.0, 0.0, 0.0);
    let records = 400;
    for i in 0..records {
        let mut rng = ChaCha8Rng::seed_from_u64(4);
        rng.set_stream(i);
        let mut normal = move || normal::quantile(rng.random_range(1e-16..1.0));
        let years: Vec<f64> = (0..15).map(|_| normal()).collect();
        let rows = monthly(15, |y, m| {
            // One month in seven is missing.
            ((y * 12 + m) % 7 != 3).then(|| Reading::Known(years[y] + normal()))
        });
        let t = seasonal(&rows, Season::Month, PChoice::Normal).unwrap().unwrap();
        s2 += (t.s as f64).powi(2);
        with += t.variance;
        without += t.variance_independent;
    }
    // Relative standard error of a variance from 400 draws: √(2/400) = 0.07; four times.
    assert!((with / s2 - 1.0).abs() < 0.28, "{}", with / s2);
    assert!(without / s2 < 0.5, "{}", without / s2);
}

#[test]
fn one_row_stands_for_a_season_of_a_year() {
    let mut rows = monthly(3, |y, _| Some(Reading::Known(y as f64)));
    // A second value at the start of a month, farther from its middle: left out.
    let extra = rows::decimal_year(jiff::civil::date(2001, 5, 1));
    rows.push(Observation::new(extra, Reading::Known(99.0)));
    rows.sort_by(|a, b| a.time_years.total_cmp(&b.time_years));
    let t = seasonal(&rows, Season::Month, PChoice::Best).unwrap().unwrap();
    assert_eq!(t.rows_left_out, 1);
    assert_eq!(t.s, 12 * 3);
}
