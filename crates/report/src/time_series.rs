//! Section "The record": what decades of results say, series by series.
//!
//! In: the series of the programme, surveyed. Out: how many rise, fall or cannot tell; a table of
//! every series with enough values, strongest change first, and of those without a trend with the
//! reason; one picture of them all, sheets of small ones, large ones of the most changed; blanks
//! over the years. It chooses and words; the numbers come from the crate `series`.

use super::time_series_blanks;
use super::words::capital;
use super::{section, time_series_tables as tables};
use assessment::results::Listed;
use assessment::series_of::{self, LeftOut, Record, Series};
use document::content::{Annex, Block, Content, Illustration, Method};
use figure::time_series::{Change, Dated, OnLine, Seen, TimeSeriesPicture};
use figure::time_series_panels::{self, Course, Small, TimeSeriesPanels};
use figure::{self, Head, PHONE, WIDE, slug};
use message::{Arg, Date, Digits, Message, Name, Shown, Spoken, count, time_series as said};
use quantity::Finding;
use record::Error;
use record::model::VerdictWord;
use record::store::Store;
use series::rows::date_of;
use series::smooth::level_of_percent_line;
use series::survey::{self, Entry, Request};
use series::trend::{LEVEL, Trend};
use series::{Observation, Reading, words};

/// p under which a change is called one.
pub(super) const P: f64 = LEVEL;
/// False alarms among the changes named: one in twenty, as the level of one test.
const FALSE_ALARMS: f64 = 0.05;
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
        self.trend().map_or(f64::INFINITY, Trend::deciding_p)
    }

    pub fn changes(&self) -> bool {
        self.p() < P
    }

    pub fn rises(&self) -> bool {
        self.trend().is_some_and(|t| t.s() > 0)
    }

    /// Still so with the steps at method changes taken out.
    pub fn stays(&self) -> bool {
        let with = self.trend().and_then(|t| t.with_steps.as_ref().map(|w| (w.answer(), t.answer())));
        with.is_none_or(|(within, across)| within == across)
    }

    /// A change that may be a false alarm among so many tests.
    pub fn one_of_many(&self) -> bool {
        self.changes() && self.entry.q.is_some_and(|q| q > FALSE_ALARMS)
    }

    pub fn course(&self) -> Course {
        let Some(t) = self.trend() else { return Course::NoAnswer };
        if !self.changes() {
            return Course::NoneSeen;
        }
        let percent_per_year = t.fit_slope().and_then(|s| s.percent_per_year).map(|p| p.per_year);
        Course::Changes { up: self.rises(), percent_per_year, stays: self.stays() }
    }

    pub fn analyte(&self) -> String {
        capital(analyte(self.series).text())
    }
}

/// The word for a substance or a condition of the water, or its name where no catalogue has one.
fn what(analyte: &str) -> Vec<Arg> {
    let word = ["substance", "word"].into_iter().find_map(|room| Message::named(room, analyte));
    vec![word.map_or_else(|| Name::from(analyte).into(), Arg::from)]
}

/// Which bottles a series is of.
fn fraction(s: &Series) -> Message {
    said::Fraction { fraction: s.fraction.as_str().into() }.into()
}

/// Substance and fraction of a series.
pub(super) fn analyte(s: &Series) -> Message {
    said::Analyte { what: what(&s.analyte), fraction: fraction(s) }.into()
}

/// Under which a change is called one.
fn p_of_a_change() -> Shown {
    Shown::as_given(P, "")
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
    let mut blocks = vec![Block::Text(what_entered(&record, &told, short, count(request.at_least)))];
    if !told.is_empty() {
        let counts = counts(&told);
        out.found.push(counts.clone());
        blocks.push(Block::Text(counts));
        blocks.push(Block::Text(said::Choice.text()));
        blocks.extend(overview(&told));
        blocks.push(Block::Table(tables::summaries(&told)));
        blocks.extend(tables::with_trend(&told).map(Block::Table));
        blocks.extend(tables::without_trend(&told).map(Block::Table));
        blocks.extend(large(&record, &told));
        out.methods.push(method());
    }
    blocks.extend(time_series_blanks::blocks(&charts));
    out.sections.push(section(said::Section, blocks).within(Annex::Results));
    Ok(())
}

/// Each series of these results by itself, with its picture whether it changes or not; of the years between
/// `span` only, where that is given.
pub fn singly(store: &Store, results: &[Listed], span: Option<(f64, f64)>) -> Result<Vec<Block>, Error> {
    let mut record = series_of::of(store, results)?;
    // Before the survey, so that the trend is of these years alone.
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
            let short = said::Short { results: count(series.rows.len()), least: count(request.at_least) };
            blocks.push(Block::Text(short.text()));
        } else {
            blocks.push(Block::Text(tables::sentence(&t)));
            blocks.push(Block::Table(tables::summaries(std::slice::from_ref(&t))));
            let findings = findings(&t);
            if !findings.is_empty() {
                blocks.push(Block::Findings(findings));
            }
        }
        if series.left_out.total() > 0 {
            blocks.push(Block::Text(said::LeftOut { reasons: reasons(series.left_out) }.text()));
        }
    }
    blocks.extend(time_series_blanks::blocks(&charts));
    Ok(blocks)
}

fn differ(a: &Observation, b: &Observation) -> bool {
    a.time_years < b.time_years
}

fn reasons(left: LeftOut) -> Vec<Arg> {
    left.reasons().into_iter().map(Arg::from).collect()
}

fn method() -> Method {
    Method {
        name: said::MethodName.text(),
        text: said::Method.text(),
        sources: vec![
            "Akritas, Murphy, LaValley (1995) J. Am. Stat. Assoc. 90, 170: slope with non-detects".into(),
            "Hirsch, Slack, Smith (1982) Water Resour. Res. 18, 107: trend tests for water quality".into(),
            "Hirsch, Stedinger (1987) Water Resour. Res. 23, 715: plotting positions with non-detects".into(),
            "Benjamini, Hochberg (1995) J. R. Stat. Soc. B 57, 289: many tests at once".into(),
        ],
    }
}

fn what_entered(record: &Record, told: &[Told], short: usize, least: i64) -> String {
    let rows: usize = record.wells.iter().map(|s| s.rows.len()).sum();
    let left = record.wells.iter().fold(LeftOut::default(), |sum, s| sum.plus(s.left_out));
    let mut out = vec![
        said::Entered { results: count(rows), series: count(record.wells.len()) }.text(),
        said::Told { told: count(told.len()), least, short: count(short) }.text(),
    ];
    if left.total() > 0 {
        out.push(said::NotEntered { results: count(left.total()), reasons: reasons(left) }.text());
    }
    let rejected = told.iter().filter(|t| t.series.with_verdict(VerdictWord::Rejected) > 0).count();
    if rejected > 0 {
        out.push(said::WithRejected { series: count(rejected) }.text());
    }
    out.join(" ")
}

fn counts(told: &[Told]) -> String {
    let p: Vec<f64> = told.iter().filter_map(|t| t.trend().map(Trend::deciding_p)).collect();
    let of = |f: &dyn Fn(&&Told) -> bool| told.iter().filter(f).count();
    let (up, down) = (of(&|t| t.changes() && t.rises()), of(&|t| t.changes() && !t.rises()));
    let vanish = of(&|t| t.changes() && !t.stays());
    let mut out = vec![
        said::Counts {
            series: count(told.len()),
            least: count(Request::default().at_least),
            tested: count(p.len()),
            up: count(up),
            down: count(down),
            p: p_of_a_change(),
            level: count(p.len() - up - down),
            untested: count(told.len() - p.len()),
        }
        .text(),
    ];
    if vanish > 0 {
        out.push(said::Vanish { vanish: count(vanish), changed: count(up + down) }.text());
    }
    if p.len() >= 2 && up + down > 0 {
        let by_chance = said::ByChance {
            tests: count(p.len()),
            p: p_of_a_change(),
            changed: count(up + down),
            left: count(survey::beyond_chance(&p, FALSE_ALARMS)),
        };
        out.push(by_chance.text());
    }
    out.join(" ")
}

fn dated(p: &series_of::Point) -> Dated {
    let seen = match p.observation.reading {
        Reading::Known(v) => Seen::Value(v),
        Reading::Below(l) => Seen::Below(l),
    };
    let rejected = p.verdict == Some(VerdictWord::Rejected);
    Dated { time_years: p.observation.time_years, seen, rejected, expanded: p.expanded }
}

pub(super) fn points(s: &Series) -> Vec<Dated> {
    s.rows.iter().map(dated).collect()
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
            let symbol = || vec![Name::from(s.analyte.as_str()).into()];
            let with_fraction = || said::Analyte { what: symbol(), fraction: fraction(s) }.text();
            Small {
                well: s.of.clone(),
                analyte: if fractions { with_fraction() } else { s.analyte.clone() },
                points: points(s),
                changes: method_changes(s).map(|(_, b)| b.time_years).collect(),
                course: t.course(),
            }
        })
        .collect();
    let head =
        |id: &str, title: String| Head { id: id.into(), desc: format!("{title}. {}", said::TableBelow.text()), title };
    let mut out = vec![];
    // Of one well or one analyte the table would be a single row or column: the sheets show as much.
    if several(|s| &s.of) && (several(|s| &s.analyte) || fractions) {
        let picture = TimeSeriesPanels {
            head: head("record-table", said::TableTitle { series: count(told.len()) }.text()),
            under: said::TableUnder { least: count(Request::default().at_least), p: p_of_a_change() }.text(),
            series: series.clone(),
        };
        out.push(both(&picture, time_series_panels::table, said::TableCaption.text()));
    }
    let sheets = series.len().div_ceil(ON_A_SHEET);
    for (i, part) in series.chunks(ON_A_SHEET).enumerate() {
        let before = ON_A_SHEET * i;
        let (first, last, all) = (count(before + 1), count(before + part.len()), count(series.len()));
        let (title, caption) = if sheets > 1 {
            let title = said::SheetTitlePart { first, last, all }.text();
            (title, said::SheetCaptionPart { first, last, all }.text())
        } else {
            (said::SheetTitle.text(), said::SheetCaption.text())
        };
        let (from, to) = span(part);
        let picture = TimeSeriesPanels {
            head: head(&format!("record-sheet-{}", i + 1), title),
            under: said::SheetUnder { from, to }.text(),
            series: part.to_vec(),
        };
        out.push(both(&picture, time_series_panels::sheet, caption));
    }
    out
}

/// First and last year.
fn span(series: &[Small]) -> (Date, Date) {
    let times = || series.iter().flat_map(|s| &s.points).map(|d| d.time_years);
    let (from, to) = (times().fold(f64::INFINITY, f64::min), times().fold(f64::NEG_INFINITY, f64::max));
    (year(from), year(to))
}

/// The year of a decimal year.
pub(super) fn year(time_years: f64) -> Date {
    Date::from(format!("{:.0}", time_years.floor()))
}

/// The most changed, one picture each with what to beware of.
fn large(record: &Record, told: &[Told]) -> Vec<Block> {
    let chosen: Vec<&Told> = told.iter().filter(|t| t.changes()).take(LARGE).collect();
    if chosen.is_empty() {
        return vec![];
    }
    let mut out = vec![Block::Heading(said::Strongest { series: count(chosen.len()) }.text())];
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
        let sentence = f.as_sentence();
        if !out.iter().any(|o| o.sentence == sentence) {
            out.push(Finding { sentence, message: None, ..f.clone() });
        }
    }
    out
}

fn picture(record: &Record, t: &Told) -> Illustration {
    let s = t.series;
    let blanks: Vec<&Series> = record.blanks_of(&s.analyte, &s.fraction).filter(|b| !b.rows.is_empty()).collect();
    let kinds: Vec<String> = blanks.iter().map(|b| time_series_blanks::of_kind(b).text()).collect();
    let title = said::Title { what: what(&s.analyte), well: s.of.as_str().into(), fraction: fraction(s) };
    let title = capital(title.text());
    let caption = said::Caption { what: what(&s.analyte), well: s.of.as_str().into() };
    let p = TimeSeriesPicture {
        head: Head {
            id: slug(&format!("record-{}-{}-{}", s.of, s.analyte, s.fraction)),
            desc: format!("{title}: {}", tables::sentence(t)),
            title,
        },
        under: if blanks.is_empty() { said::NoBlanks.text() } else { String::new() },
        unit: s.unit.to_string(),
        points: points(s),
        changes: method_changes(s)
            .map(|(a, b)| Change {
                time_years: b.time_years,
                words: said::Practice {
                    date: date_of(b.time_years).to_string().into(),
                    from: practice(&a.method),
                    to: practice(&b.method),
                }
                .text(),
            })
            .collect(),
        // What the test does not tell is not drawn.
        trend: t.trend().filter(|trend| t.changes() && trend.slope_is_fit()).map(|t| line(s, t)).unwrap_or_default(),
        trend_words: said::Band.text(),
        blanks: blanks.iter().flat_map(|b| points(b)).collect(),
        blanks_words: capital(kinds.join(", ")),
    };
    Illustration {
        wide: figure::time_series::draw(&p, WIDE),
        phone: Some(figure::time_series::draw(&p, PHONE)),
        caption: capital(caption.text()),
    }
}

/// Its name, or that none is stated.
fn practice(method: &str) -> Vec<Arg> {
    if method.is_empty() {
        return vec![Message::from(said::PracticeNotStated).into()];
    }
    vec![Name::from(method).into()]
}

/// The line with the band of its slopes turned about the middle of the years: a fixed percentage
/// a year where all values are above zero, else a fixed amount.
fn line(s: &Series, t: &Trend) -> Vec<OnLine> {
    let Some(slope) = t.fit_slope() else { return vec![] };
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
        let (low, high) = bounded(p.deciding_interval(), p.per_year);
        let at = |percent: f64, time: f64| at_middle * grown(percent, time - middle);
        return times.map(|x| on(x, at(p.per_year, x), at(low, x), at(high, x))).collect();
    }
    let Some(Reading::Known(level)) = t.level_at_first else { return vec![] };
    let at_middle = level + slope.per_year * (middle - from);
    let (low, high) = bounded(slope.deciding_interval(), slope.per_year);
    let at = |b: f64, time: f64| at_middle + b * (time - middle);
    times.map(|x| on(x, at(slope.per_year, x), at(low, x), at(high, x))).collect()
}

/// Digits of a number of the record, in tables and sentences.
pub(super) const DIGITS: Digits = Digits::Trimmed(3);

/// A number of the record.
pub(super) fn number(x: f64) -> Message {
    words::figure(x, DIGITS)
}
