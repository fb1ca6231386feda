//! Every well × element of a table of real groundwater records with at least 8 values gets a
//! summary and a trend, or a reason why not. Data: US Geological Survey, public domain,
//! doi 10.5066/P9UWRYR4, extract in `tests/data`.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use series::survey::{self, Request, Row};
use series::{Error, Observation, Reading, rows};

/// Rows as the release writes them; what is left out is counted by its reason.
fn rows() -> (Vec<Row>, usize) {
    let text = include_str!("data/groundwater_trace_extract.csv");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let mut left_out = 0;
    let mut rows = Vec::new();
    for r in reader.records().map(Result::unwrap) {
        let reading = match (&r[4], r[5].parse::<f64>()) {
            ("" | "E", Ok(v)) => Reading::Known(v),
            ("<" | "U", Ok(v)) => Reading::Below(v),
            // An empty value, or one above the range.
            _ => {
                left_out += 1;
                continue;
            }
        };
        rows.push(Row {
            group: format!("{} {} {}", &r[0], &r[2], &r[3]),
            observation: Observation {
                time_years: rows::decimal_year(r[1].parse().unwrap()),
                reading,
                method: r[6].to_string(),
            },
        });
    }
    (rows, left_out)
}

#[test]
fn every_series_has_an_answer_or_a_reason() {
    let (rows, left_out) = rows();
    assert_eq!(left_out, 4);
    let entries = survey::survey(&rows, &Request::default());
    let total: usize = entries.iter().map(|e| e.n).sum();
    assert_eq!(total, rows.len());
    let mut with_trend = 0;
    for e in &entries {
        match (&e.summary, &e.trend) {
            (Err(Error::TooFew { found, .. }), Err(Error::TooFew { .. })) => {
                assert!(*found < 8, "{}", e.group);
            }
            (Err(Error::AllCensored { share_above_upper_95, .. }), Err(Error::AllCensored { .. })) => {
                assert_eq!(e.non_detects, e.n);
                // 1 − 0.05^(1/n): what can still be said.
                let want = 1.0 - 0.05_f64.powf(1.0 / e.n as f64);
                assert!((share_above_upper_95 - want).abs() < 1e-12);
            }
            (Ok(s), Ok(t)) => {
                with_trend += 1;
                assert_eq!(s.n, e.n);
                assert!((0.0..=1.0).contains(&t.test.p), "{}", e.group);
                if let Some(slope) = t.slope {
                    let (low, high) = slope.interval;
                    assert!(low <= slope.per_year && slope.per_year <= high, "{}", e.group);
                }
            }
            (Ok(_), Err(Error::NoSpread { .. } | Error::OneDate { .. })) => {}
            other => panic!("{}: {other:?}", e.group),
        }
    }
    // Counted with pandas 3.1.1 (groupby well, element, unit): 142 series, 58 of at least 8
    // values, 7 of those all non-detects.
    assert_eq!(entries.len(), 142);
    assert_eq!(entries.iter().filter(|e| e.n >= 8).count(), 58);
    assert_eq!(with_trend, 51);
    let all_censored = |e: &&survey::Entry| matches!(e.summary, Err(Error::AllCensored { .. }));
    assert_eq!(entries.iter().filter(all_censored).count(), 7);
}

#[test]
fn the_answers_do_not_depend_on_the_order_of_the_rows() {
    let (mut rows, _) = rows();
    let request = Request::default();
    let once = survey::survey(&rows, &request);
    // A stable turn-round of groups: the rows of one date keep their order.
    rows.sort_by(|a, b| b.group.cmp(&a.group));
    let again = survey::survey(&rows, &request);
    assert_eq!(format!("{once:?}"), format!("{again:?}"));
}

/// The first with the fifteen p values worked through in Benjamini & Hochberg (1995) (values from
/// memory; the paper keeps four), the second with `scipy.stats.false_discovery_control` 1.17:
/// `(f(p) <= 0.05).sum()` and at 0.2.
#[test]
fn false_alarms_among_many_tests() {
    let paper = [
        0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590,
        1.0,
    ];
    assert_eq!(series::survey::beyond_chance(&paper, 0.05), 4);
    let drawn = [
        0.085649, 0.236811, 0.801274, 0.582162, 0.094129, 0.433127, 0.479051, 0.159739, 0.734577, 0.113672, 0.391228,
        0.51674, 0.430628, 0.586799, 0.737838, 0.956267, 0.284201, 0.648547, 0.696216, 0.292721, 0.00149, 0.97346,
        0.298401, 0.313986, 0.891711, 0.585163, 0.47131, 0.773277, 0.030346, 0.706965, 0.002747, 1e-06, 0.08303,
        0.653125, 7.9e-05, 0.062577, 0.000703, 0.166559, 0.141846, 0.000109, 0.326673, 0.080905, 0.101334, 0.304175,
        0.006197,
    ];
    assert_eq!(series::survey::beyond_chance(&drawn, 0.05), 7);
    assert_eq!(series::survey::beyond_chance(&drawn, 0.2), 8);
    assert_eq!(series::survey::beyond_chance(&[], 0.05), 0);
}
