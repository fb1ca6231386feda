//! Section "The record": what decades of results say, series by series.
//!
//! In: the series of the programme, surveyed. Out: how many rise, fall or cannot tell; a table of
//! every series with enough values, strongest change first, and of those without a trend with the
//! reason; one picture of them all, sheets of small ones, large ones of the most changed; blanks
//! over the years. It chooses and words; the numbers come from the crate `series`.

use super::time_series_blanks;
use super::words::{capital, element};
use super::{section, time_series_tables as tables};
use assessment::results::Listed;
use assessment::series_of::{self, LeftOut, Record, Series};
use document::content::{Block, Content, Illustration, Method};
use figure::time_series::{Change, Dated, OnLine, Seen, TimeSeriesPicture};
use figure::time_series_panels::{self, Course, Small, TimeSeriesPanels};
use figure::{self, Head, PHONE, WIDE, slug};
use quantity::Finding;
use quantity::format::significant_trimmed;
use record::Error;
use record::model::VerdictWord;
use record::store::Store;
use series::rows::date_of;
use series::smooth::level_of_percent_line;
use series::survey::{self, Entry, Request};
use series::trend::Trend;
use series::{Observation, Reading};
use std::fmt::Write as _;

/// p under which a change is called one: common practice, as in the crate `series`.
pub(super) const P: f64 = 0.05;
/// Large pictures, at most.
const LARGE: usize = 8;
/// Small pictures on a sheet: twelve rows of five fill a page.
const ON_A_SHEET: usize = 60;

/// A series with what came of it.
pub(super) struct Told<'a> {
    pub series: &'a Series,
    pub entry: &'a Entry,
    /// Blanks of the same analyte and fraction rise.
    pub blanks_rise: bool,
}

impl Told<'_> {
    pub fn trend(&self) -> Option<&Trend> {
        self.entry.trend.as_ref().ok()
    }

    pub fn p(&self) -> f64 {
        self.trend().map_or(f64::INFINITY, |t| t.test.p)
    }

    pub fn changes(&self) -> bool {
        self.p() < P
    }

    pub fn rises(&self) -> bool {
        self.trend().is_some_and(|t| t.test.s > 0)
    }

    /// Still so with the steps at method changes taken out.
    pub fn stays(&self) -> bool {
        let with = self.trend().and_then(|t| t.with_steps.as_ref().map(|w| (w, t.test.s)));
        with.is_none_or(|(w, s)| w.p < P && (w.s > 0) == (s > 0))
    }

    pub fn course(&self) -> Course {
        let Some(t) = self.trend() else { return Course::NoAnswer };
        if !self.changes() {
            return Course::NoneSeen;
        }
        let percent_per_year = t.slope.and_then(|s| s.percent_per_year).map(|p| p.per_year);
        Course::Changes { up: self.rises(), percent_per_year, stays: self.stays() }
    }

    pub fn analyte(&self) -> String {
        format!("{}, {}", capital(element(&self.series.analyte)), self.series.fraction)
    }
}

/// Adds the section where any well has one analyte on two dates or more.
pub fn fill(store: &Store, all: &[Listed], out: &mut Content) -> Result<(), Error> {
    let record = series_of::of(store, all)?;
    let request = Request::default();
    let years =
        |s: &&Series| s.rows.first().zip(s.rows.last()).is_some_and(|(a, b)| differ(&a.observation, &b.observation));
    if !record.wells.iter().any(|s| years(&s)) {
        return Ok(());
    }
    let entries = record.survey(&request);
    let charts = time_series_blanks::charts(&record, request.at_least);
    let mut told: Vec<Told> = record
        .wells
        .iter()
        .zip(&entries)
        .filter(|(s, _)| s.rows.len() >= request.at_least)
        .map(|(series, entry)| Told { series, entry, blanks_rise: time_series_blanks::rise(&charts, series) })
        .collect();
    // The order of the record breaks ties: the sort is stable.
    told.sort_by(|a, b| a.p().total_cmp(&b.p()));
    let short = record.wells.len() - told.len();
    let mut blocks = vec![Block::Text(what_entered(&record, &told, short, request.at_least))];
    if !told.is_empty() {
        let counts = counts(&told);
        out.found.push(counts.clone());
        blocks.push(Block::Text(counts));
        blocks.push(Block::Text(CHOICE.into()));
        blocks.extend(overview(&told));
        blocks.push(Block::Table(tables::summaries(&told)));
        blocks.extend(tables::with_trend(&told).map(Block::Table));
        blocks.extend(tables::without_trend(&told).map(Block::Table));
        blocks.extend(large(&record, &told));
        out.methods.push(method());
    }
    blocks.extend(time_series_blanks::blocks(&charts));
    out.sections.push(section("The record", blocks));
    Ok(())
}

/// Each series of these results by itself, with its picture whether it changes or not; of the years between
/// `span` only, where that is given.
pub fn singly(store: &Store, results: &[Listed], span: Option<(f64, f64)>) -> Result<Vec<Block>, Error> {
    let mut record = series_of::of(store, results)?;
    if let Some((from, to)) = span {
        for s in record.wells.iter_mut().chain(&mut record.blanks) {
            s.rows.retain(|p| (from..=to).contains(&p.observation.time_years));
        }
    }
    record.wells.retain(|s| !s.rows.is_empty());
    let request = Request::default();
    let entries = record.survey(&request);
    let charts = time_series_blanks::charts(&record, request.at_least);
    let mut blocks = vec![];
    for (series, entry) in record.wells.iter().zip(&entries) {
        let t = Told { series, entry, blanks_rise: time_series_blanks::rise(&charts, series) };
        blocks.push(Block::Heading(t.analyte()));
        blocks.push(Block::Figure(picture(&record, &t)));
        if series.rows.len() < request.at_least {
            blocks.push(Block::Text(format!(
                "{} dated results: fewer than the {} from which summaries and a trend are computed.",
                series.rows.len(),
                request.at_least
            )));
        } else {
            blocks.push(Block::Text(tables::sentence(&t)));
            blocks.push(Block::Table(tables::summaries(std::slice::from_ref(&t))));
            let findings = findings(&t);
            if !findings.is_empty() {
                blocks.push(Block::Findings(findings));
            }
        }
        if series.left_out.total() > 0 {
            let reasons = series.left_out.reasons();
            let told: Vec<String> =
                reasons.iter().filter(|(n, _)| *n > 0).map(|(n, why)| format!("{n} {why}")).collect();
            blocks.push(Block::Text(format!("Left out: {}.", told.join(", "))));
        }
    }
    blocks.extend(time_series_blanks::blocks(&charts));
    Ok(blocks)
}

fn differ(a: &Observation, b: &Observation) -> bool {
    a.time_years < b.time_years
}

const CHOICE: &str = "Nothing is put in the place of a non-detect. The mean is by the first of product limit, regression \
    on order statistics and lognormal likelihood that a simulation found fit for this many values and this share of \
    non-detects (a 95 % interval that held the true mean in 90 % of simulated series or more) and whose shape the data \
    do not contradict; where none is fit, none is given. The median is by the product limit, which assumes no shape. \
    The trend is the Mann–Kendall test with non-detects and the slope of Akritas, Theil and Sen, because neither needs a \
    shape nor a value for a non-detect; p is exact for short series. Where the method or laboratory changed, the test \
    stands beside one with the steps taken out; a result that does not state its method is no change.";

fn method() -> Method {
    Method {
        name: "Series with non-detects".into(),
        text: "Summaries by product limit, regression on order statistics and likelihood; Mann–Kendall test with ties and \
               non-detects; slope at which the statistic of the residuals is zero, with the interval of slopes that the \
               test does not reject; steps at method changes by a rank-sum test; control charts of blanks by prediction \
               limits of their first years. How far each can be trusted was simulated and is said beside the numbers."
            .into(),
        sources: vec![
            "Akritas, Murphy, LaValley (1995) J. Am. Stat. Assoc. 90, 170: slope with non-detects".into(),
            "Hirsch, Slack, Smith (1982) Water Resour. Res. 18, 107: trend tests for water quality".into(),
            "Hirsch, Stedinger (1987) Water Resour. Res. 23, 715: plotting positions with non-detects".into(),
            "Benjamini, Hochberg (1995) J. R. Stat. Soc. B 57, 289: many tests at once".into(),
        ],
    }
}

fn what_entered(record: &Record, told: &[Told], short: usize, at_least: usize) -> String {
    let rows: usize = record.wells.iter().map(|s| s.rows.len()).sum();
    let left = record.wells.iter().fold(LeftOut::default(), |sum, s| sum.plus(s.left_out));
    let mut text = format!(
        "{rows} dated results make {} series of one analyte and fraction in one well. {} of them hold {at_least} values or more and are told here; {short} are shorter and are not computed.",
        record.wells.len(),
        told.len()
    );
    if left.total() > 0 {
        let reasons: Vec<String> =
            left.reasons().iter().filter(|(n, _)| *n > 0).map(|(n, why)| format!("{n} {why}")).collect();
        let _ = write!(text, " {} results could not enter: {}.", left.total(), reasons.join(", "));
    }
    let rejected = told.iter().filter(|t| t.series.with_verdict(VerdictWord::Rejected) > 0).count();
    if rejected > 0 {
        let _ = write!(
            text,
            " Verdicts stand beside the series and move nothing: {rejected} of them hold results that are rejected."
        );
    }
    text
}

fn counts(told: &[Told]) -> String {
    let p: Vec<f64> = told.iter().filter_map(|t| t.trend().map(|t| t.test.p)).collect();
    let of = |f: &dyn Fn(&&Told) -> bool| told.iter().filter(f).count();
    let (up, down) = (of(&|t| t.changes() && t.rises()), of(&|t| t.changes() && !t.rises()));
    let vanish = of(&|t| t.changes() && !t.stays());
    let mut text = format!(
        "Of {} series with {} values or more, {} have a trend test: {up} rise and {down} fall (p < {P}), in {} no change is seen; {} have no trend, each with its reason.",
        told.len(),
        Request::default().at_least,
        p.len(),
        p.len() - up - down,
        told.len() - p.len()
    );
    if vanish > 0 {
        let _ = write!(
            text,
            " In {vanish} of the {} that change, the change is not there once steps at changes of method or laboratory are taken out.",
            up + down
        );
    }
    if p.len() >= 20 {
        let _ = write!(
            text,
            " By chance alone about {} of {} tests would come out under {P}; if at most one in twenty of the changes named may be a false alarm, {} remain.",
            (P * p.len() as f64).round(),
            p.len(),
            survey::beyond_chance(&p, 0.05)
        );
    }
    text
}

pub(super) fn dated(o: &Observation, rejected: bool) -> Dated {
    let seen = match o.reading {
        Reading::Known(v) => Seen::Value(v),
        Reading::Below(l) => Seen::Below(l),
    };
    Dated { time_years: o.time_years, seen, rejected }
}

pub(super) fn points(s: &Series) -> Vec<Dated> {
    s.rows.iter().map(|p| dated(&p.observation, p.verdict == Some(VerdictWord::Rejected))).collect()
}

/// Rows at which the practice differs from the row before.
fn method_changes(s: &Series) -> impl Iterator<Item = (&Observation, &Observation)> {
    let pair = |w: &'_ [series_of::Point]| w[0].observation.method != w[1].observation.method;
    s.rows.windows(2).filter(move |w| pair(w)).map(|w| (&w[0].observation, &w[1].observation))
}

fn both(picture: &TimeSeriesPanels, draw: fn(&TimeSeriesPanels, f64) -> figure::Figure, caption: String) -> Block {
    Block::Figure(Illustration { wide: draw(picture, WIDE), phone: Some(draw(picture, PHONE)), caption })
}

/// The table-picture of all, and sheets of small pictures.
fn overview(told: &[Told]) -> Vec<Block> {
    let several = |f: fn(&Series) -> &String| told.iter().any(|t| f(t.series) != f(told[0].series));
    let fractions = several(|s| &s.fraction);
    let series: Vec<Small> = told
        .iter()
        .map(|t| {
            let s = t.series;
            let analyte = if fractions { format!("{}, {}", s.analyte, s.fraction) } else { s.analyte.clone() };
            Small {
                well: s.of.clone(),
                analyte,
                points: points(s),
                changes: method_changes(s).map(|(_, b)| b.time_years).collect(),
                course: t.course(),
            }
        })
        .collect();
    let head = |id: &str, title: String| Head {
        id: id.into(),
        desc: format!("{title}. The table below has the numbers."),
        title,
    };
    let mut out = vec![];
    if several(|s| &s.of) && (several(|s| &s.analyte) || fractions) {
        let title = format!("Change over the years in {} series", told.len());
        let picture = TimeSeriesPanels {
            head: head("record-table", title),
            under: format!(
                "Wells down, analytes across; a mark where there are {} values or more. Test at p < {P}.",
                Request::default().at_least
            ),
            series: series.clone(),
        };
        out.push(both(
            &picture,
            time_series_panels::table,
            "Every well and analyte with enough values: what came of the trend.".into(),
        ));
    }
    let sheets = series.len().div_ceil(ON_A_SHEET);
    for (i, part) in series.chunks(ON_A_SHEET).enumerate() {
        let first = ON_A_SHEET * i;
        let of = if sheets > 1 {
            format!(", {} to {} of {}", first + 1, first + part.len(), series.len())
        } else {
            String::new()
        };
        let picture = TimeSeriesPanels {
            head: head(&format!("record-sheet-{}", i + 1), format!("The series, strongest change first{of}")),
            under: format!(
                "{}; each on a log axis of its own; a dot is a value, a bar with a cap a non-detect up to its limit.",
                span(part)
            ),
            series: part.to_vec(),
        };
        out.push(both(
            &picture,
            time_series_panels::sheet,
            format!("Series in order of the strength of their change (p of the trend test){of}."),
        ));
    }
    out
}

fn span(series: &[Small]) -> String {
    let times = || series.iter().flat_map(|s| &s.points).map(|d| d.time_years);
    let (from, to) = (times().fold(f64::INFINITY, f64::min), times().fold(f64::NEG_INFINITY, f64::max));
    format!("All from {:.0} to {:.0}", from.floor(), to.floor())
}

/// The most changed, one picture each with what to beware of.
fn large(record: &Record, told: &[Told]) -> Vec<Block> {
    let chosen: Vec<&Told> = told.iter().filter(|t| t.changes()).take(LARGE).collect();
    if chosen.is_empty() {
        return vec![];
    }
    let mut out = vec![Block::Heading(format!(
        "The {} with the strongest change",
        if chosen.len() == 1 { "series".into() } else { format!("{} series", chosen.len()) }
    ))];
    for t in chosen {
        out.push(Block::Figure(picture(record, t)));
        out.push(Block::Text(tables::sentence(t)));
        let findings = findings(t);
        if !findings.is_empty() {
            out.push(Block::Findings(findings));
        }
    }
    out
}

/// What the science says to beware of, each once, in the form of a sentence.
fn findings(t: &Told) -> Vec<Finding> {
    let of_trend = t.trend().into_iter().flat_map(|t| &t.findings);
    let of_summary = t.entry.summary.iter().flat_map(|s| &s.findings);
    let mut out: Vec<Finding> = vec![];
    for f in of_trend.chain(of_summary) {
        let sentence = language::finding_as_sentence(f);
        if !out.iter().any(|o| o.sentence == sentence) {
            out.push(Finding { sentence, message: None, ..f.clone() });
        }
    }
    out
}

fn picture(record: &Record, t: &Told) -> Illustration {
    let s = t.series;
    let name = element(&s.analyte);
    let blanks: Vec<&Series> = record.blanks_of(&s.analyte, &s.fraction).filter(|b| !b.rows.is_empty()).collect();
    let kinds: Vec<String> = blanks.iter().map(|b| format!("{}s", b.of)).collect();
    let title = format!("{} in {}, {}", capital(&name), s.of, s.fraction);
    let p = TimeSeriesPicture {
        head: Head {
            id: slug(&format!("record-{}-{}-{}", s.of, s.analyte, s.fraction)),
            desc: format!("{title}: {}", tables::sentence(t)),
            title,
        },
        under: if blanks.is_empty() {
            "No blank of this analyte and fraction is on record: a rising blank would look like a rising metal.".into()
        } else {
            String::new()
        },
        unit: s.unit.to_string(),
        points: points(s),
        changes: method_changes(s)
            .map(|(a, b)| Change {
                time_years: b.time_years,
                words: format!("{}: {} to {}", date_of(b.time_years), practice(&a.method), practice(&b.method)),
            })
            .collect(),
        trend: t.trend().map(|t| line(s, t)).unwrap_or_default(),
        trend_words: "trend; band: the slopes that the test does not reject, turned about the middle".into(),
        blanks: blanks.iter().flat_map(|b| points(b)).collect(),
        blanks_words: capital(&kinds.join(", ")),
    };
    Illustration {
        wide: figure::time_series::draw(&p, WIDE),
        phone: Some(figure::time_series::draw(&p, PHONE)),
        caption: format!("{} in {} over the years.", capital(&name), s.of),
    }
}

fn practice(method: &str) -> &str {
    if method.is_empty() { "method not stated" } else { method }
}

/// The line with the band of its slopes turned about the middle of the years: a fixed percentage
/// a year where all values are above zero, else a fixed amount.
fn line(s: &Series, t: &Trend) -> Vec<OnLine> {
    let Some(slope) = t.slope else { return vec![] };
    let (from, to) = t.span;
    let middle = 0.5 * (from + to);
    // Forty steps bend smoothly on a log axis.
    let times = (0..=40).map(|i| from + (to - from) * f64::from(i) / 40.0);
    let bounded = |(low, high): (f64, f64), b: f64| {
        if low.is_finite() && high.is_finite() { (low, high) } else { (b, b) }
    };
    let on = |time_years: f64, value: f64, a: f64, b: f64| OnLine { time_years, low: a.min(b), value, high: a.max(b) };
    if let Some(p) = slope.percent_per_year {
        let Some(level) = level_of_percent_line(&s.observations(), p.per_year) else { return vec![] };
        let grown = |percent: f64, years: f64| (1.0 + percent / 100.0).powf(years);
        let at_middle = level * grown(p.per_year, middle - from);
        let (low, high) = bounded(p.interval, p.per_year);
        let at = |percent: f64, time: f64| at_middle * grown(percent, time - middle);
        return times.map(|x| on(x, at(p.per_year, x), at(low, x), at(high, x))).collect();
    }
    let Some(Reading::Known(level)) = t.level_at_first else { return vec![] };
    let at_middle = level + slope.per_year * (middle - from);
    let (low, high) = bounded(slope.interval, slope.per_year);
    let at = |b: f64, time: f64| at_middle + b * (time - middle);
    times.map(|x| on(x, at(slope.per_year, x), at(low, x), at(high, x))).collect()
}

/// A number as the record's tables show it.
pub(super) fn number(x: f64) -> String {
    if x.is_finite() { significant_trimmed(x, 3).replace('-', "−") } else { "∞".into() }
}
