//! Tables and sentences of the section "The record".

use super::time_series::{Told, number};
use document::content::{Cell, Column, Table};
use quantity::{Check, Finding};
use series::fitness::Word;
use series::rows::date_of;
use series::summary::{Figures, Method, Summary};
use series::survey::Entry;
use series::trend::{Percent, Slope, Trend};
use series::words::p_value;
use series::{Error, Reading};
use std::fmt::Write as _;

/// Short words for what to beware of, with what they mean.
const BEWARE: [(Check, &str, &str); 6] = [
    (
        Check::TrendSerialCorrelation,
        "alike",
        "alike: neighbours in time resemble each other, so p and interval are too optimistic",
    ),
    (Check::TrendLimitsMoved, "limits", "limits: the limits moved with the years, which alone can move the test"),
    (Check::TrendStep, "step", "step: the level differs across a change of method or laboratory"),
    (
        Check::TrendCoverage,
        "coverage",
        "coverage: in simulation the interval of the slope held the true one too seldom for this many values and non-detects, or gave no answer too often",
    ),
    (Check::TrendSlopeUnbounded, "open", "open: the interval of the slope has no bound on one side"),
    (Check::TrendSlopeOpen, "no line", "no line: the non-detects leave the slope open"),
];

fn reading(r: Reading) -> String {
    match r {
        Reading::Known(v) => number(v),
        Reading::Below(l) => format!("<\u{A0}{}", number(l)),
    }
}

/// The figures of a method, where it has an answer.
fn figures(s: &Summary, method: Method) -> Option<&Figures> {
    s.methods.iter().find(|m| m.method == method).and_then(|m| m.figures.as_ref().ok())
}

/// Median by the product limit with its interval.
fn median(e: &Entry, interval: bool) -> Cell {
    let found = e
        .summary
        .as_ref()
        .ok()
        .and_then(|s| figures(s, Method::ProductLimit))
        .and_then(|f| f.percentiles.iter().find(|p| (p.share - 0.5).abs() < 1e-9));
    let Some(p) = found else { return Cell::Missing("–".into()) };
    Cell::Text(match p.interval.filter(|_| interval) {
        Some((low, high)) => format!("{} ({} to {})", reading(p.value), reading(low), number(high)),
        None => reading(p.value),
    })
}

/// Mean by the method preferred, with its name.
fn mean(e: &Entry) -> Cell {
    let chosen = e.summary.as_ref().ok().and_then(|s| Some((s.preferred?, s)));
    match chosen.and_then(|(m, s)| Some((m, figures(s, m)?))) {
        Some((m, f)) => {
            let (low, high) = f.mean.interval;
            Cell::Text(format!("{} ({} to {}), {}", number(f.mean.low), number(low), number(high), short(m)))
        }
        None => Cell::Missing("no method fit".into()),
    }
}

fn short(m: Method) -> &'static str {
    match m {
        Method::ProductLimit => "PL",
        Method::OrderStatistics => "OS",
        Method::Lognormal => "LL",
        Method::Gamma => "LG",
    }
}

fn years(t: &Trend) -> String {
    format!("{:.0}–{:.0}", t.span.0.floor(), t.span.1.floor())
}

fn percent(p: Percent) -> String {
    let n = |x: f64| if x.is_finite() { quantity::format::significant(x, 2).replace('-', "−") } else { "∞".into() };
    format!("{} ({} to {})", n(p.per_year), n(p.interval.0), n(p.interval.1))
}

fn course(t: &Told) -> &'static str {
    match (t.changes(), t.rises()) {
        (false, _) => "no change seen",
        (true, true) => "rises",
        (true, false) => "falls",
    }
}

fn has(findings: &[Finding], check: Check) -> bool {
    findings.iter().any(|f| f.check == check)
}

fn beware(t: &Told) -> String {
    let found = t.trend().map_or(&[][..], |t| &t.findings);
    let mut words: Vec<&str> =
        BEWARE.iter().filter(|(check, ..)| has(found, *check)).map(|(_, word, _)| *word).collect();
    if t.blanks_rise {
        words.push("blanks");
    }
    words.join(", ")
}

/// Every series: how many values, how many of them non-detects, median and mean.
pub(super) fn summaries(told: &[Told]) -> Table {
    let mut by_name: Vec<&Told> = told.iter().collect();
    by_name.sort_by_key(|t| (&t.series.of, &t.series.analyte, &t.series.fraction));
    let rows = by_name.iter().map(|t| {
        let time = |p: Option<&assessment::series_of::Point>| p.map_or(0.0, |p| p.observation.time_years.floor());
        vec![
            Cell::Text(t.series.of.clone()),
            Cell::Text(t.analyte()),
            Cell::Text(t.series.unit.to_string()),
            Cell::Text(format!("{} ({})", t.entry.n, t.entry.non_detects)),
            Cell::Text(format!("{:.0}–{:.0}", time(t.series.rows.first()), time(t.series.rows.last()))),
            median(t.entry, true),
            mean(t.entry),
        ]
    });
    Table {
        caption: "Every series: values, median, mean".into(),
        columns: vec![
            Column::names("well"),
            Column::words("analyte"),
            Column::words("unit"),
            Column::words("n (below)"),
            Column::words("years"),
            Column::words("median"),
            Column::words("mean"),
        ],
        rows: rows.collect(),
        notes: vec![
            "n (below): values and, of them, non-detects. In brackets 95 % intervals; ∞: not bounded.".into(),
            "Median by the product limit; < means that it lies below the lowest known value. Mean by PL product limit, OS regression on order statistics, LL lognormal likelihood: the first that is fit.".into(),
        ],
    }
}

/// Every series with a trend, in the order given; none where there is none.
pub(super) fn with_trend(told: &[Told]) -> Option<Table> {
    let rows: Vec<Vec<Cell>> = told.iter().filter_map(|t| Some(row(t, t.trend()?))).collect();
    let mut notes: Vec<String> = vec![
        "Change in percent a year from the slope of the logarithms with its 95 % interval; where a value is zero or negative, in the unit a year. ▲ rises, ▼ falls at p < 0.05. Steps out: p with the steps at changes of method or laboratory taken out.".into(),
    ];
    let used = |check: Check| told.iter().any(|t| t.trend().is_some_and(|t| has(&t.findings, check)));
    let mut meant: Vec<&str> = BEWARE.iter().filter(|(c, ..)| used(*c)).map(|(.., meaning)| *meaning).collect();
    if told.iter().any(|t| t.blanks_rise) {
        meant.push("blanks: blanks of the same analyte rise with the years");
    }
    if !meant.is_empty() {
        notes.push(format!("Beware of: {}.", meant.join("; ")));
    }
    (!rows.is_empty()).then(|| Table {
        caption: "Every series with a trend, strongest change first".into(),
        columns: vec![
            Column::names("well"),
            Column::words("analyte"),
            Column::words("change, % a year"),
            Column::words("p"),
            Column::words("steps out"),
            Column::words("beware of"),
        ],
        rows,
        notes,
    })
}

fn row(t: &Told, trend: &Trend) -> Vec<Cell> {
    let change = match trend.slope {
        None => Cell::Missing("open".into()),
        Some(s) => Cell::Text(s.percent_per_year.map_or_else(|| in_unit(t, &s), percent)),
    };
    let sign = match (t.changes(), t.rises()) {
        (false, _) => "",
        (true, true) => "▲\u{A0}",
        (true, false) => "▼\u{A0}",
    };
    vec![
        Cell::Text(t.series.of.clone()),
        Cell::Text(t.analyte()),
        change,
        Cell::Text(format!("{sign}{}", p_value(trend.test.p))),
        trend.with_steps.as_ref().map_or(Cell::Missing("–".into()), |w| Cell::Text(p_value(w.p))),
        Cell::Text(beware(t)),
    ]
}

fn in_unit(t: &Told, s: &Slope) -> String {
    let (low, high) = s.interval;
    format!("{} ({} to {}) {}", number(s.per_year), number(low), number(high), t.series.unit)
}

/// Series that have no trend, each with its reason.
pub(super) fn without_trend(told: &[Told]) -> Option<Table> {
    let rows: Vec<Vec<Cell>> = told
        .iter()
        .filter_map(|t| {
            let why: &Error = t.entry.trend.as_ref().err()?;
            Some(vec![
                Cell::Text(t.series.of.clone()),
                Cell::Text(t.analyte()),
                Cell::Text(quantity::format::capital(&why.to_string())),
            ])
        })
        .collect();
    (!rows.is_empty()).then(|| Table {
        caption: "Series without a trend, and why".into(),
        columns: vec![Column::names("well"), Column::words("analyte"), Column::words("why there is no trend")],
        rows,
        notes: vec![],
    })
}

/// What came of a series, in words: course, slope, steps, summary and how it was chosen.
pub(super) fn sentence(t: &Told) -> String {
    let Some(trend) = t.trend() else { return "no trend can be given.".into() };
    let unit = t.series.unit.to_string();
    let mut out = format!(
        "{} values from {}, {} of them non-detects: {} (tau {}, p {})",
        trend.n,
        years(trend),
        trend.non_detects,
        course(t),
        quantity::format::at_decimals(trend.test.tau_b, 2).replace('-', "−"),
        p_value(trend.test.p)
    );
    if let Some(s) = trend.slope {
        let _ = write!(
            out,
            ", {} {unit} a year ({} to {})",
            number(s.per_year),
            number(s.interval.0),
            number(s.interval.1)
        );
        if let Some(p) = s.percent_per_year {
            let _ = write!(out, ", {} % a year", percent(p));
        }
    }
    out += ".";
    if let Some(w) = &trend.with_steps {
        let _ = write!(
            out,
            " With the steps between {} stretches of one method taken out p is {}: the change {}.",
            w.stretches,
            p_value(w.p),
            if t.stays() { "stays" } else { "is not seen any more, so it may be one of method" }
        );
    }
    if let Some(c) = trend.change_point.as_ref().filter(|c| c.p < super::time_series::P) {
        let _ = write!(
            out,
            " Asked for one step at a date of their own, the data put it between {} and {} (p {}; a trend looks like a step and a step like a trend).",
            date_of(c.last_before_years),
            date_of(c.first_after_years),
            p_value(c.p)
        );
    }
    out + &of_summary(t)
}

fn of_summary(t: &Told) -> String {
    let unit = t.series.unit.to_string();
    let Ok(s) = &t.entry.summary else { return String::new() };
    let Cell::Text(median) = median(t.entry, true) else { return String::new() };
    let mut out = format!(" Median {median} {unit} by the product limit");
    let chosen = s.preferred.and_then(|m| Some((s.methods.iter().find(|x| x.method == m)?, figures(s, m)?)));
    match chosen {
        Some((m, f)) => {
            let (low, high) = f.mean.interval;
            let why = m.fit.iter().find(|(q, _)| *q == "mean").filter(|(_, f)| f.word == Word::Fit);
            let _ = write!(
                out,
                "; mean {} ({} to {}) {unit} by {}",
                number(f.mean.low),
                number(low),
                number(high),
                m.method.words()
            );
            if let Some((_, fit)) = why {
                let _ = write!(out, ", chosen because {}", fit.why.in_english());
            }
        }
        None => out += "; no method for the mean is fit for this many values and non-detects",
    }
    out + ". A summary of all years is a summary of no year where the level changes."
}
