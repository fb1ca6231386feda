//! Series with non-detects: summary and trend of each group by the crate `series`, as `limpid calc summary` and
//! `limpid calc trend` give them for the same rows in rising order.

use super::answer::{self, Layout, Of, Value};
use super::gather::{Kind, Science};
use datafusion::arrow::array::{Array, ArrayRef, AsArray};
use datafusion::arrow::datatypes::{Date32Type, Float64Type};
use datafusion::common::Result;
use jiff::civil::Date;
use quantity::Finding;
use series::summary::{self, Figures, Percentile};
use series::trend;
use series::{Error, Observation, Reading, rows};

const SUMMARY: Layout = &[
    ("n", Of::Count),
    ("non_detects", Of::Count),
    ("method", Of::Text),
    ("mean", Of::Number),
    ("mean_highest", Of::Number),
    ("mean_low", Of::Number),
    ("mean_high", Of::Number),
    ("sd", Of::Number),
    ("p25", Of::Number),
    ("p25_below", Of::Number),
    ("median", Of::Number),
    ("median_below", Of::Number),
    ("median_low", Of::Number),
    ("median_high", Of::Number),
    ("p75", Of::Number),
    ("p75_below", Of::Number),
    ("p90", Of::Number),
    ("p90_below", Of::Number),
    ("p90_low", Of::Number),
    ("p90_high", Of::Number),
    ("missing", Of::Text),
];

const TREND: Layout = &[
    ("n", Of::Count),
    ("non_detects", Of::Count),
    ("first", Of::Text),
    ("last", Of::Text),
    ("methods", Of::Count),
    ("s", Of::Number),
    ("tau_b", Of::Number),
    ("p", Of::Number),
    ("p_serial", Of::Number),
    ("answer", Of::Text),
    ("slope_per_year", Of::Number),
    ("slope_low", Of::Number),
    ("slope_high", Of::Number),
    ("slope_serial_low", Of::Number),
    ("slope_serial_high", Of::Number),
    ("percent_per_year", Of::Number),
    ("serial_correlation", Of::Number),
    ("rho", Of::Number),
    ("p_with_steps", Of::Number),
    ("p_serial_with_steps", Of::Number),
    ("slope_with_steps", Of::Number),
    ("slope_with_steps_low", Of::Number),
    ("slope_with_steps_high", Of::Number),
    ("change_date", Of::Text),
    ("change_p", Of::Number),
    ("change_p_serial", Of::Number),
    ("change_shift", Of::Number),
    ("cautions", Of::Text),
    ("missing", Of::Text),
];

/// `censored_summary(value, below)`.
pub static CENSORED_SUMMARY: Science = Science {
    name: "censored_summary",
    arguments: &[
        ("value", Kind::Number, "what was measured, in one unit; absent for a non-detect"),
        ("below", Kind::Number, "the limit that a non-detect lies under, in that unit"),
    ],
    answer: || answer::data_type(SUMMARY),
    answers: summaries,
    about: "mean and percentiles with 95 % intervals by the first fit of four methods; nothing is put in place of a non-detect",
};

/// `trend(date, value, below, method)`.
pub static TREND_OF: Science = Science {
    name: "trend",
    arguments: &[
        ("date", Kind::Day, "the day of the sample"),
        ("value", Kind::Number, "what was measured, in one unit; absent for a non-detect"),
        ("below", Kind::Number, "the limit that a non-detect lies under, in that unit"),
        ("method", Kind::Text, "method or laboratory; a change of it is a known step"),
    ],
    answer: || answer::data_type(TREND),
    answers: trends,
    about: "Mann–Kendall test and Theil–Sen slope per year with the interval that the test does not reject",
};

/// Series with fewer rows are named, not computed.
pub const AT_LEAST: usize = 8;

/// The shares of `censored_summary`.
pub const SHARES: [f64; 4] = [0.25, 0.5, 0.75, 0.9];

/// A value, or else its limit; none where a row has neither.
fn readings(value: &dyn Array, below: &dyn Array) -> Vec<Option<Reading>> {
    let (value, below) = (value.as_primitive::<Float64Type>(), below.as_primitive::<Float64Type>());
    value.iter().zip(below).map(|(v, b)| b.map(Reading::Below).or(v.map(Reading::Known))).collect()
}

/// Rising; at one number the value after the limit.
fn order(a: &Reading, b: &Reading) -> std::cmp::Ordering {
    a.bound().total_cmp(&b.bound()).then(a.is_known().cmp(&b.is_known()))
}

fn short(found: usize) -> Option<Error> {
    (found < AT_LEAST).then_some(Error::TooFew { what: "a series of the survey", found, needed: AT_LEAST })
}

fn counts(readings: impl Iterator<Item = Reading>) -> (usize, usize) {
    readings.fold((0, 0), |(n, nd), r| (n + 1, nd + usize::from(!r.is_known())))
}

fn summaries(arguments: &[ArrayRef], ends: &[usize]) -> Result<ArrayRef> {
    let all = readings(&arguments[0], &arguments[1]);
    let request = summary::Request { shares: SHARES.to_vec(), draws: 0, ..summary::Request::default() };
    let rows = ends
        .windows(2)
        .map(|w| {
            let mut of: Vec<Reading> = all[w[0]..w[1]].iter().flatten().copied().collect();
            of.sort_unstable_by(order);
            summary_row(&of, &request)
        })
        .collect();
    answer::array(SUMMARY, rows)
}

fn summary_row(of: &[Reading], request: &summary::Request) -> Vec<Value> {
    let (n, non_detects) = counts(of.iter().copied());
    let told = short(n).map_or_else(|| summary::preferred_alone(of, request), Err);
    let mut row: Vec<Value> = vec![n.into(), non_detects.into()];
    match told {
        Ok((method, f)) => {
            row.push(Some(method.name().to_string()).into());
            row.extend(figures(&f));
            row.push(None::<String>.into());
        }
        Err(why) => {
            row.push(None::<String>.into());
            row.extend(std::iter::repeat_n(Value::from(None::<f64>), SUMMARY.len() - 4));
            row.push(Some(why.to_string()).into());
        }
    }
    row
}

fn figures(f: &Figures) -> Vec<Value> {
    let interval = f.mean_has_interval.then_some(f.mean.interval);
    let mut out: Vec<Value> = vec![
        f.mean.low.into(),
        f.mean.high.into(),
        interval.map(|i| i.0).into(),
        interval.map(|i| i.1).into(),
        f.sd.into(),
    ];
    for (share, with_interval) in [(0.25, false), (0.5, true), (0.75, false), (0.9, true)] {
        let p = f.percentiles.iter().find(|p| (p.share - share).abs() < 1e-12);
        let (known, below) = match p.map(|p| p.value) {
            Some(Reading::Known(x)) => (Some(x), None),
            Some(Reading::Below(x)) => (None, Some(x)),
            None => (None, None),
        };
        out.extend([known.into(), below.into()]);
        if with_interval {
            let ends = p.and_then(|p: &Percentile| p.interval);
            let low = ends.and_then(|(low, _)| if let Reading::Known(x) = low { Some(x) } else { None });
            out.extend([low.into(), ends.map(|e| e.1).into()]);
        }
    }
    out
}

/// Days since 1970-01-01 as a date; none outside the calendar's years −9999 to 9999.
pub(super) fn day(days: i32) -> Option<Date> {
    Date::constant(1970, 1, 1).checked_add(jiff::Span::new().try_days(days).ok()?).ok()
}

fn trends(arguments: &[ArrayRef], ends: &[usize]) -> Result<ArrayRef> {
    let dates = arguments[0].as_primitive::<Date32Type>();
    let readings = readings(&arguments[1], &arguments[2]);
    let methods = arguments[3].as_string::<i32>();
    let request = trend::Request::default();
    let rows = ends
        .windows(2)
        .map(|w| {
            let mut of: Vec<(i32, Date, &str, Reading)> = (w[0]..w[1])
                .filter_map(|i| {
                    let days = dates.is_valid(i).then(|| dates.value(i))?;
                    let method = if methods.is_valid(i) { methods.value(i) } else { "" };
                    Some((days, day(days)?, method, readings[i]?))
                })
                .collect();
            of.sort_unstable_by(|a, b| a.0.cmp(&b.0).then(a.2.cmp(b.2)).then(order(&a.3, &b.3)));
            trend_row(&of, &request)
        })
        .collect();
    answer::array(TREND, rows)
}

/// The day of the first row at a decimal year.
fn date_at(of: &[(i32, Date, &str, Reading)], years: f64) -> Option<String> {
    of.iter().find(|r| rows::decimal_year(r.1) >= years).map(|r| r.1.to_string())
}

/// Every caution of `limpid calc trend`, check and sentence, one after another.
fn cautions(findings: &[Finding]) -> String {
    let each = findings.iter().map(|f| format!("{}: {}", f.check, f.sentence));
    each.collect::<Vec<_>>().join("; ")
}

fn trend_row(of: &[(i32, Date, &str, Reading)], request: &trend::Request) -> Vec<Value> {
    let (n, non_detects) = counts(of.iter().map(|r| r.3));
    let series: Vec<Observation> = of
        .iter()
        .map(|(_, date, method, reading)| Observation {
            time_years: rows::decimal_year(*date),
            reading: *reading,
            method: (*method).to_string(),
        })
        .collect();
    let mut methods: Vec<&str> = of.iter().map(|r| r.2).filter(|m| !m.is_empty()).collect();
    methods.sort_unstable();
    methods.dedup();
    let date = |r: Option<&(i32, Date, &str, Reading)>| Value::from(r.map(|r| r.1.to_string()));
    let mut row: Vec<Value> =
        vec![n.into(), non_detects.into(), date(of.first()), date(of.last()), methods.len().into()];
    match short(n).map_or_else(|| trend::trend(&series, request), Err) {
        Ok(t) => {
            let stepped = t.with_steps.as_ref();
            let change = t.change_point.as_ref();
            row.extend([
                (t.test.s as f64).into(),
                t.test.tau_b.into(),
                t.test.p.into(),
                t.p_serial.into(),
                Some(t.answer().said().in_english()).into(),
                t.slope.map(|s| s.per_year).into(),
                t.slope.map(|s| s.interval.0).into(),
                t.slope.map(|s| s.interval.1).into(),
                t.slope.and_then(|s| s.interval_serial).map(|i| i.0).into(),
                t.slope.and_then(|s| s.interval_serial).map(|i| i.1).into(),
                t.slope.and_then(|s| s.percent_per_year).map(|p| p.per_year).into(),
                t.serial.map(|s| s.tau).into(),
                t.correlation.estimated().map(|f| f.rho).into(),
                stepped.map(|w| w.p).into(),
                stepped.and_then(|w| w.p_serial).into(),
                stepped.and_then(|w| w.slope).map(|s| s.per_year).into(),
                stepped.and_then(|w| w.slope).map(|s| s.interval.0).into(),
                stepped.and_then(|w| w.slope).map(|s| s.interval.1).into(),
                change.and_then(|c| date_at(of, c.first_after_years)).into(),
                change.map(|c| c.p).into(),
                change.and_then(|c| c.p_serial).into(),
                change.and_then(|c| c.shift).map(|s| s.estimate).into(),
                Some(cautions(&t.findings)).filter(|c| !c.is_empty()).into(),
                None::<String>.into(),
            ]);
        }
        Err(why) => {
            row.extend(std::iter::repeat_n(Value::from(None::<f64>), TREND.len() - 6));
            row.push(Some(why.to_string()).into());
        }
    }
    row
}
