//! Tables and sentences of the section "The record".

use super::time_series::{DIGITS, Told, number, year};
use document::content::{Cell, Column, Table};
use message::{Digits, Message, Spoken, count, series as series_said, time_series as said, word};
use quantity::{Check, Finding, Outcome};
use series::fitness::Word;
use series::rows::date_of;
use series::summary::{Figures, Method, Percentile, Summary};
use series::survey::Entry;
use series::trend::{Answer, Percent, Slope, Trend, WithSteps};
use series::words::{self, p_shown, p_value, tau_said};
use series::{Error, Reading};

/// What there is to beware of, in the order of the cells: of correlation first that it was found, then that it
/// could not be told.
const BEWARE: [(Check, Option<Outcome>); 7] = [
    (Check::TrendSerialCorrelation, Some(Outcome::NotMet)),
    (Check::TrendSerialCorrelation, Some(Outcome::NotKnown)),
    (Check::TrendLimitsMoved, None),
    (Check::TrendStep, None),
    (Check::TrendCoverage, None),
    (Check::TrendSlopeUnbounded, None),
    (Check::TrendSlopeOpen, None),
];

/// The short word for what to beware of, and what it means.
fn beware_of((check, outcome): (Check, Option<Outcome>)) -> Option<(Message, Message)> {
    Some(match check {
        Check::TrendSerialCorrelation if outcome == Some(Outcome::NotKnown) => {
            (said::Few.into(), said::FewMeans.into())
        }
        Check::TrendSerialCorrelation => (said::Alike.into(), said::AlikeMeans.into()),
        Check::TrendLimitsMoved => (said::LimitsMoved.into(), said::LimitsMovedMeans.into()),
        Check::TrendStep => (said::Step.into(), said::StepMeans.into()),
        Check::TrendCoverage => (said::Coverage.into(), said::CoverageMeans.into()),
        Check::TrendSlopeUnbounded => (said::Open.into(), said::OpenMeans.into()),
        Check::TrendSlopeOpen => (said::NoLine.into(), said::NoLineMeans.into()),
        _ => return None,
    })
}

fn reading(r: Reading) -> Message {
    words::reading(r, DIGITS)
}

fn interval(figure: Message, low: Message, high: Message) -> Message {
    said::Interval { figure, low, high }.into()
}

/// The figures of a method, where it has an answer.
fn figures(s: &Summary, method: Method) -> Option<&Figures> {
    s.methods.iter().find(|m| m.method == method).and_then(|m| m.figures.as_ref().ok())
}

/// Median by the product limit.
fn median_of(e: &Entry) -> Option<&Percentile> {
    let figures = figures(e.summary.as_ref().ok()?, Method::ProductLimit)?;
    figures.percentiles.iter().find(|p| (p.share - 0.5).abs() < 1e-9)
}

/// The same with its interval.
fn median(e: &Entry) -> Option<Message> {
    let p = median_of(e)?;
    Some(match p.interval {
        Some((low, high)) => interval(reading(p.value), reading(low), number(high)),
        None => reading(p.value),
    })
}

fn mean(f: &Figures) -> Message {
    let (low, high) = f.mean.interval;
    interval(number(f.mean.low), number(low), number(high))
}

/// Mean by the method preferred, with its name.
fn mean_cell(e: &Entry) -> Cell {
    let chosen = e.summary.as_ref().ok().and_then(|s| Some((s.preferred?, s)));
    match chosen.and_then(|(m, s)| Some((m, figures(s, m)?))) {
        Some((m, f)) => Cell::Text(format!("{}, {}", mean(f).text(), short(m))),
        None => Cell::Missing(said::NoMethodFit.text()),
    }
}

/// A method as the note of the table names it.
fn short(m: Method) -> &'static str {
    match m {
        Method::ProductLimit => "PL",
        Method::OrderStatistics => "OS",
        Method::Lognormal => "LL",
        Method::Gamma => "LG",
    }
}

fn percent(p: Percent) -> Message {
    let n = |x: f64| words::figure(x, Digits::Significant(2));
    let (low, high) = p.deciding_interval();
    interval(n(p.per_year), n(low), n(high))
}

/// The change in percent where it says something: bounded, and not all that there is within the year, as two
/// values of one week can make it.
fn told_percent(s: &Slope) -> Option<Percent> {
    s.percent_per_year.filter(|p| s.is_bounded() && p.per_year > ALL_WITHIN_A_YEAR)
}

/// Whether the data bound the slope on no side: the figure would say nothing.
fn is_open(s: &Slope) -> bool {
    s.deciding_interval() == (f64::NEG_INFINITY, f64::INFINITY)
}

/// Percent a year that is printed as −100 %.
const ALL_WITHIN_A_YEAR: f64 = -99.5;

fn course(t: &Told) -> Message {
    match (t.changes(), t.rises()) {
        (false, _) => said::NoChangeSeen.into(),
        (true, true) => said::Rises.into(),
        (true, false) => said::Falls.into(),
    }
}

fn has(findings: &[Finding], (check, outcome): (Check, Option<Outcome>)) -> bool {
    findings.iter().any(|f| f.check == check && outcome.is_none_or(|o| f.outcome == o))
}

fn beware(t: &Told) -> String {
    let found = t.trend().map_or(&[][..], |t| &t.findings);
    let there = BEWARE.into_iter().filter(|what| has(found, *what)).filter_map(beware_of);
    let mut words: Vec<String> = there.map(|(word, _)| word.text()).collect();
    if t.one_of_many() {
        words.push(said::Many.text());
    }
    if t.blanks_rise {
        words.push(word::Blanks.text());
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
            median(t.entry).map_or_else(|| Cell::Missing("–".into()), |m| Cell::Text(m.text())),
            mean_cell(t.entry),
        ]
    });
    Table {
        caption: said::SummariesCaption.text(),
        columns: vec![
            Column::words(word::Well.text()),
            Column::words(word::Analyte.text()),
            Column::words(word::Unit.text()),
            Column::words(said::NBelow.text()),
            Column::words(said::Years.text()),
            Column::words(said::Median.text()),
            Column::words(word::Mean.text()),
        ],
        rows: rows.collect(),
        notes: vec![said::NBelowNote.text(), said::MedianNote.text()],
    }
}

/// Every series with a trend, in the order given; none where there is none.
pub(super) fn with_trend(told: &[Told]) -> Option<Table> {
    let rows: Vec<Vec<Cell>> = told.iter().filter_map(|t| Some(row(t, t.trend()?))).collect();
    let mut notes = vec![said::TrendsNote.text()];
    notes.extend(meanings(told).map(|meanings| said::BewareOfNote { meanings }.text()));
    (!rows.is_empty()).then(|| Table {
        caption: said::TrendsCaption.text(),
        columns: vec![
            Column::words(word::Well.text()),
            Column::words(word::Analyte.text()),
            Column::words(said::ChangeColumn.text()),
            Column::words("p"),
            Column::words(said::StepsOut.text()),
            Column::words(said::BewareOf.text()),
        ],
        rows,
        notes,
    })
}

/// What the words for what to beware of mean, one after another; none where none is used.
fn meanings(told: &[Told]) -> Option<Message> {
    let used =
        |what: &(Check, Option<Outcome>)| told.iter().any(|t| t.trend().is_some_and(|t| has(&t.findings, *what)));
    let of_trends = BEWARE.into_iter().filter(used).filter_map(beware_of).map(|(_, means)| means);
    let of_many = told.iter().any(Told::one_of_many).then(|| said::ManyMeans.into());
    let of_blanks = told.iter().any(|t| t.blanks_rise).then(|| said::BlanksRiseMeans.into());
    of_trends.chain(of_many).chain(of_blanks).reduce(|before, next| said::Next { before, next }.into())
}

fn row(t: &Told, trend: &Trend) -> Vec<Cell> {
    let change = match trend.slope.filter(|s| !is_open(s)) {
        _ if !trend.slope_is_fit() => Cell::Missing(series_said::NotFit.text()),
        None => Cell::Missing(said::Open.text()),
        Some(s) if !t.changes() => Cell::Text(not_ruled_out(t, &s)),
        Some(s) => Cell::Text(told_percent(&s).map_or_else(|| in_unit(t, &s), |p| percent(p).text())),
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
        Cell::Text(format!("{sign}{}", p_value(trend.deciding_p()))),
        trend.with_steps.as_ref().map_or(Cell::Missing("–".into()), |w| Cell::Text(p_value(w.deciding_p()))),
        Cell::Text(beware(t)),
    ]
}

/// The changes a year that the test does not rule out, where it sees none.
fn not_ruled_out(t: &Told, s: &Slope) -> String {
    if let Some(p) = told_percent(s) {
        let (low, high) = p.deciding_interval();
        let n = |x: f64| words::figure(x, Digits::Significant(2));
        return said::FromTo { low: n(low), high: n(high) }.text();
    }
    let (low, high) = s.deciding_interval();
    format!("{} {}", said::FromTo { low: number(low), high: number(high) }.text(), t.series.unit)
}

fn in_unit(t: &Told, s: &Slope) -> String {
    let (low, high) = s.deciding_interval();
    format!("{} {}", interval(number(s.per_year), number(low), number(high)).text(), t.series.unit)
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
                Cell::Text(quantity::format::capital(&why.message().text())),
            ])
        })
        .collect();
    (!rows.is_empty()).then(|| Table {
        caption: said::NoTrendCaption.text(),
        columns: vec![
            Column::words(word::Well.text()),
            Column::words(word::Analyte.text()),
            Column::words(said::WhyNoTrend.text()),
        ],
        rows,
        notes: vec![],
    })
}

/// What came of a series, in words: course, slope, steps, summary and how it was chosen.
pub(super) fn sentence(t: &Told) -> String {
    let Some(trend) = t.trend() else { return said::TrendNone.text() };
    let mut out = vec![of_trend(t, trend).text()];
    out.extend(trend.with_steps.as_ref().map(|w| steps_out(trend.answer(), w).text()));
    if let Some(c) = trend.change_point.as_ref().filter(|c| c.deciding_p() < super::time_series::P) {
        let day = |time_years| date_of(time_years).to_string().into();
        let (before, after) = (day(c.last_before_years), day(c.first_after_years));
        out.push(said::ChangePoint { before, after, p: p_shown(c.deciding_p()) }.text());
    }
    out.extend(of_summary(t).map(|m| m.text() + " " + &said::AllYears.text()));
    out.join(" ")
}

/// What is left of the change, or comes to light, with the steps taken out.
pub(super) fn steps_out(across: Answer, w: &WithSteps) -> Message {
    let (stretches, p, within) = (count(w.stretches), p_shown(w.deciding_p()), w.answer());
    match (across, within) {
        (Answer::NoChangeSeen, Answer::NoChangeSeen) => said::StepsOutNone { stretches, p }.into(),
        (Answer::NoChangeSeen, _) => said::StepsOutAppears { stretches, p, course: within.said() }.into(),
        (_, Answer::NoChangeSeen) => said::StepsOutVanishes { stretches, p }.into(),
        _ if across == within => said::StepsOutStays { stretches, p }.into(),
        _ => said::StepsOutTurns { stretches, p, course: within.said() }.into(),
    }
}

/// tau and p, and how far that p may be trusted.
pub(super) fn of_test(trend: &Trend) -> Message {
    let (tau, p, plain) = (tau_said(trend.tau()), p_shown(trend.deciding_p()), p_shown(trend.p()));
    match (trend.p_serial, trend.correlation.estimated()) {
        (None, _) => said::TestUntold { tau, p }.into(),
        (Some(_), None) => said::TestAssumed { tau, p, plain }.into(),
        (Some(_), Some(found)) if found.inflation > 1.0 => said::TestSerial { tau, p, plain }.into(),
        (Some(_), Some(_)) => said::Test { tau, p }.into(),
    }
}

/// Course, test and slope.
fn of_trend(t: &Told, trend: &Trend) -> Message {
    let course = said::Course {
        values: count(trend.n),
        from: year(trend.span.0),
        to: year(trend.span.1),
        below: count(trend.non_detects),
        course: course(t),
        test: of_test(trend),
    }
    .into();
    if !trend.slope_is_fit() {
        return said::TrendNotFit { course }.into();
    }
    let Some(s) = trend.slope.filter(|s| !is_open(s)) else { return said::TrendOpen { course }.into() };
    let (low, high) = s.deciding_interval();
    let (slope, low, high) = (number(s.per_year), number(low), number(high));
    let unit = t.series.unit.to_string().into();
    // No slope where the test sees no change: the interval alone, as what may still be.
    if !t.changes() {
        return if s.is_bounded() {
            said::TrendWithin { course, unit, low, high }.into()
        } else {
            said::TrendOpen { course }.into()
        };
    }
    if s.per_year == 0.0 {
        return said::TrendFlat { course, unit, low, high }.into();
    }
    match told_percent(&s).map(percent) {
        None => said::TrendSlope { course, slope, unit, low, high }.into(),
        Some(percent) => said::TrendPercent { course, slope, unit, low, high, percent }.into(),
    }
}

fn of_summary(t: &Told) -> Option<Message> {
    let unit = t.series.unit.to_string().into();
    let s = t.entry.summary.as_ref().ok()?;
    let median = median(t.entry)?;
    let chosen = s.preferred.and_then(|m| Some((s.methods.iter().find(|x| x.method == m)?, figures(s, m)?)));
    let Some((m, f)) = chosen else { return Some(said::MedianAlone { median, unit }.into()) };
    let (mean, method) = (mean(f), m.method.by());
    let why = m.fit.iter().find(|(q, _)| *q == "mean").filter(|(_, f)| f.word == Word::Fit);
    Some(match why.map(|(_, fit)| fit.why.clone()) {
        None => said::MedianMean { median, unit, mean, method }.into(),
        Some(fitness) => said::MedianMeanBecause { median, unit, mean, method, fitness }.into(),
    })
}
