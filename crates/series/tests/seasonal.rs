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

/// Of a season of a year with several values the median stands, known or below what it could be at most.
#[test]
fn the_median_stands_for_a_season_of_a_year() {
    let mut rows = monthly(3, |y, _| Some(Reading::Known(y as f64)));
    let on = |day, reading| Observation::new(rows::decimal_year(jiff::civil::date(2001, 5, day)), reading);
    let may = |rows: &[Observation]| {
        let t = seasonal(rows, Season::Month, PChoice::Best).unwrap().unwrap();
        (t.rows_taken_together, t.strata[4][1].reading, t.s)
    };
    rows.push(on(1, Reading::Known(99.0)));
    rows.sort_by(|a, b| a.time_years.total_cmp(&b.time_years));
    // 1 and 99: their mean; 0, 50, 2 over the years have S = 1, the other eleven months 3 each.
    assert_eq!(may(&rows), (1, Reading::Known(50.0), 34));
    // 1, 99 and "< 3": the median is 1 or lies between 1 and 3, so it is below 3.
    rows.push(on(28, Reading::Below(3.0)));
    assert_eq!(may(&rows).1, Reading::Below(3.0));
    // 1, 99 and "< 0.5": 1, whatever the non-detect is.
    rows.last_mut().unwrap().reading = Reading::Below(0.5);
    rows.sort_by(|a, b| a.time_years.total_cmp(&b.time_years));
    assert_eq!(may(&rows).1, Reading::Known(1.0));
}

/// The distribution over the orders of the years against every order, each made by moving whole years; the variance
/// too, which without missing months is also that of the sum over seasons (Dietz & Killeen 1981, from memory).
#[test]
fn years_are_put_in_every_order() {
    let mut rng = ChaCha8Rng::seed_from_u64(6);
    for case in 0..12 {
        let years: usize = 3 + case % 4;
        let missing = case % 3 == 0;
        let table: Vec<Vec<Option<Reading>>> = (0..years)
            .map(|_| {
                (0..12)
                    .map(|_| {
                        let v = f64::from(rng.random_range(0..9));
                        let r = if rng.random_bool(0.3) { Reading::Below(v) } else { Reading::Known(v) };
                        (!missing || rng.random_bool(0.8)).then_some(r)
                    })
                    .collect()
            })
            .collect();
        let s_of = |order: &[usize]| {
            let rows = monthly(i16::try_from(years).unwrap(), |y, m| table[order[y]][m]);
            seasonal(&rows, Season::Month, PChoice::Best).unwrap().unwrap()
        };
        let mut orders = vec![vec![]];
        for _ in 0..years {
            orders = orders
                .iter()
                .flat_map(|o: &Vec<usize>| {
                    (0..years).filter(|y| !o.contains(y)).map(|y| [&o[..], &[y]].concat()).collect::<Vec<_>>()
                })
                .collect();
        }
        let all: Vec<i64> = orders.iter().map(|o| s_of(o).s).collect();
        let got = s_of(&orders[0]);
        let as_far = all.iter().filter(|s| s.abs() >= got.s.abs()).count() as f64 / all.len() as f64;
        // Sums of a few hundred whole numbers: 1e-9 is rounding.
        assert!((got.p - as_far).abs() < 1e-9, "case {case}: {} {as_far}", got.p);
        let variance = all.iter().map(|s| (s * s) as f64).sum::<f64>() / all.len() as f64;
        assert!((got.variance - variance).abs() < 1e-9 * variance.max(1.0), "case {case}: {} {variance}", got.variance);
    }
}

/// Six years that rise in every month have 2 of 720 orders so far out, where the normal law had 0.082.
#[test]
fn six_years_that_rise_in_every_month_are_seen() {
    let rows = monthly(6, |y, m| Some(Reading::Known(y as f64 + 10.0 * m as f64)));
    let t = seasonal(&rows, Season::Month, PChoice::Best).unwrap().unwrap();
    assert!((t.p - 2.0 / 720.0).abs() < 1e-12);
    assert_eq!(t.tau, 1.0);
    // Four years have 24 orders: whatever they do, nothing can be seen.
    let few = monthly(4, |y, m| Some(Reading::Known(y as f64 + 10.0 * m as f64)));
    assert!((seasonal(&few, Season::Month, PChoice::Best).unwrap().unwrap().p - 2.0 / 24.0).abs() < 1e-12);
}
