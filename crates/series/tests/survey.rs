//! Every well × element of a table of real groundwater records with at least 8 values gets a
//! summary and a trend, or a reason why not. Data: US Geological Survey, public domain,
//! doi 10.5066/P9UWRYR4, extract in `tests/data`.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use series::survey::{self, Request, Row};
use series::{Error, Observation, Reading, record};

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
                time_years: record::decimal_year(r[1].parse().unwrap()),
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
