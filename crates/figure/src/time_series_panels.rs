//! Many series at a glance: a sheet of small pictures, and one table-picture of them all.
//!
//! In: series with their readings and what came of the trend, in the order in which they shall
//! stand. Out: [`sheet`], small multiples over the same years, each with a log axis of its own
//! (a non-detect is a thin bar from the foot to its limit with a cap, a value a dot); [`table`],
//! wells down, analytes across, a mark in each place. Marks: a triangle up or down for a rise or
//! fall, filled where it stays when the steps at method changes are taken out, open where it does
//! not; three sizes for the percent a year; a small ring for "no change seen"; a short dash for
//! "no trend can be given". A name that is too long is cut; the table of the report has it whole.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::scale::Scale;
use super::time_series::{Dated, Seen, seconds, value_scale};
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow, px};
use crate::text::{self, Weight};
use message::{Message, Shown, Spoken, time_series as said};
use std::fmt::Write as _;

/// What came of the trend of a series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Course {
    /// It rises or falls.
    Changes {
        /// Up or down.
        up: bool,
        /// Percent a year, where the logarithm allows it.
        percent_per_year: Option<f64>,
        /// The change is still there with the steps at method changes taken out, or there are none.
        stays: bool,
    },
    /// No change was seen.
    NoneSeen,
    /// No trend can be given.
    NoAnswer,
}

impl Course {
    /// In a few words.
    pub fn said(self) -> Message {
        match self {
            Self::Changes { up, percent_per_year: Some(p), .. } => {
                let percent = Shown::trimmed(p.abs(), if p.abs() < 10.0 { 2 } else { 3 }, "");
                if up { said::RisesBy { percent }.into() } else { said::FallsBy { percent }.into() }
            }
            Self::Changes { up: true, percent_per_year: None, .. } => said::Rises.into(),
            Self::Changes { up: false, percent_per_year: None, .. } => said::Falls.into(),
            Self::NoneSeen => said::NoChangeSeen.into(),
            Self::NoAnswer => said::NoTrend.into(),
        }
    }
}

/// One series.
#[derive(Debug, Clone, PartialEq)]
pub struct Small {
    /// Well.
    pub well: String,
    /// Analyte.
    pub analyte: String,
    /// Readings.
    pub points: Vec<Dated>,
    /// Decimal years of method changes.
    pub changes: Vec<f64>,
    /// What came of it.
    pub course: Course,
}

/// What the figures show.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TimeSeriesPanels {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// The series, strongest change first.
    pub series: Vec<Small>,
}

/// The mark of a course, centred at a point.
fn mark(c: &mut Canvas, (x, y): (f64, f64), course: Course) {
    match course {
        Course::Changes { up, percent_per_year, stays } => {
            let half = size(percent_per_year);
            let tip = if up { -half } else { half };
            let colour = if up { ink::NOT_MET } else { ink::WATER };
            let fill = if stays { colour } else { ink::PAPER };
            c.shape(
                &format!(
                    "M{} {}L{} {}L{} {}Z",
                    px(x),
                    px(y + tip),
                    px(x - half),
                    px(y - tip),
                    px(x + half),
                    px(y - tip)
                ),
                &format!("fill=\"{fill}\" stroke=\"{colour}\" stroke-width=\"1.2\""),
            );
        }
        Course::NoneSeen => {
            c.circle((x, y), 1.9, &format!("fill=\"{}\" stroke=\"{}\"", ink::PAPER, ink::LINE));
        }
        Course::NoAnswer => c.line((x - 3.0, y), (x + 3.0, y), ink::MUTED, "stroke-width=\"1.4\""),
    }
}

/// Half the side of a triangle, px: three steps that the eye tells apart.
fn size(percent_per_year: Option<f64>) -> f64 {
    match percent_per_year.map(f64::abs) {
        Some(p) if p >= 5.0 => 5.2,
        Some(p) if p >= 2.0 => 4.0,
        _ => 2.8,
    }
}

fn legend(series: &[Small]) -> Vec<Entry<'static>> {
    let any = |f: fn(Course) -> bool| series.iter().any(|s| f(s.course));
    let sample = |course: Course, words: String| Entry {
        sample: Box::new(move |c: &mut Canvas, x, y| mark(c, (x, y), course)),
        width: 11.0,
        words,
    };
    let of = |up, stays| Course::Changes { up, percent_per_year: Some(3.0), stays };
    let mut out = vec![];
    if any(|c| matches!(c, Course::Changes { up: true, .. })) {
        out.push(sample(of(true, true), said::Rises.text()));
    }
    if any(|c| matches!(c, Course::Changes { up: false, .. })) {
        out.push(sample(of(false, true), said::Falls.text()));
    }
    if any(|c| matches!(c, Course::Changes { stays: false, .. })) {
        out.push(sample(of(false, false), said::OpenMark.text()));
    }
    if any(|c| matches!(c, Course::Changes { .. })) {
        out.push(Entry {
            sample: Box::new(|c, x, y| {
                for (dx, p) in [(-13.0, 1.0), (-2.0, 3.0), (12.0, 9.0)] {
                    let course = Course::Changes { up: false, percent_per_year: Some(p), stays: true };
                    mark(c, (x + dx, y), course);
                }
            }),
            width: 36.0,
            words: said::Sizes.text(),
        });
    }
    if any(|c| c == Course::NoneSeen) {
        out.push(sample(Course::NoneSeen, said::NoChangeSeen.text()));
    }
    if any(|c| c == Course::NoAnswer) {
        out.push(sample(Course::NoAnswer, said::Dash.text()));
    }
    out
}

const CELL_HEIGHT: f64 = 74.0;

/// Small multiples: five in a row, two on a telephone.
pub fn sheet(p: &TimeSeriesPanels, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let mut entries = legend(&p.series);
    entries.push(Entry::line(ink::NOT_KNOWN, "stroke-dasharray=\"2 2\"", said::MethodChanges.text()));
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let across: usize = if is_narrow(width) { 2 } else { 5 };
    let cell = (width - 20.0) / across as f64;
    let all = p.series.iter().flat_map(|s| &s.points).map(|d| seconds(d.time_years));
    let span = super::scale::extent(all).unwrap_or((0.0, 1.0));
    for (i, s) in p.series.iter().enumerate() {
        let left = 10.0 + cell * (i % across) as f64;
        let top = y + 6.0 + CELL_HEIGHT * (i / across) as f64;
        small(&mut c, s, span, Plot { left, right: left + cell - 12.0, top, bottom: top + CELL_HEIGHT - 10.0 });
    }
    let rows = p.series.len().div_ceil(across);
    c.finish(p.head.at_width(width), width, y + 10.0 + CELL_HEIGHT * rows as f64)
}

fn small(c: &mut Canvas, s: &Small, span: (f64, f64), cell: Plot) {
    let style = Style::strong().sized(11.0);
    let room = cell.right - cell.left;
    let analyte = format!("{} ", shortened(&s.analyte, (0.6 * room, 11.0)));
    c.text(cell.left, cell.top + 10.0, &analyte, style);
    let used = text::width(&analyte, 11.0, Weight::SemiBold) + 3.0;
    c.text(cell.left + used, cell.top + 10.0, &shortened(&s.well, (room - used, 11.0)), Style::muted().sized(11.0));
    mark(c, (cell.left + 5.0, cell.top + 19.0), s.course);
    c.text(cell.left + 15.0, cell.top + 23.0, &s.course.said().text(), Style::muted().sized(11.0));
    let plot = Plot { top: cell.top + 29.0, ..cell };
    let x = Scale::time([span.0, span.1], (plot.left + 2.0, plot.right - 2.0));
    let value = value_scale(&s.points, &[], (plot.bottom, plot.top));
    c.line((plot.left, plot.bottom), (plot.right, plot.bottom), ink::LINE, "");
    for change in &s.changes {
        let at = x.at(seconds(*change));
        c.line((at, plot.top), (at, plot.bottom), ink::NOT_KNOWN, "stroke-dasharray=\"2 2\"");
    }
    // One path for all bars and one for all dots: a sheet of many series would else be an element for each reading.
    let (mut bars, mut dots) = (String::new(), String::new());
    for d in &s.points {
        let at = x.at(seconds(d.time_years));
        let y = value.at(d.seen.bound());
        match d.seen {
            Seen::Below(_) => {
                let (left, right) = (px(at - 1.8), px(at + 1.8));
                let _ = write!(
                    bars,
                    "M{} {}L{} {}M{left} {}L{right} {}",
                    px(at),
                    px(plot.bottom),
                    px(at),
                    px(y),
                    px(y),
                    px(y)
                );
            }
            Seen::Value(_) => {
                let _ = write!(dots, "M{} {}h0", px(at), px(y));
            }
        }
    }
    if !bars.is_empty() {
        c.shape(&bars, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"0.9\"", ink::LINE));
    }
    if !dots.is_empty() {
        let more = format!("fill=\"none\" stroke=\"{}\" stroke-width=\"3.2\" stroke-linecap=\"round\"", ink::TEXT);
        c.shape(&dots, &more);
    }
}

/// Where the places of the table-picture stand.
struct Grid {
    left: f64,
    step: f64,
    row: f64,
}

/// Wells down, analytes across; where the analytes do not fit side by side they follow in bands.
pub fn table(p: &TimeSeriesPanels, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let mut y = axis::legend(&mut c, &legend(&p.series), y + 18.0, width) + 8.0;
    let (wells, analytes) = (names(p, |s| &s.well), names(p, |s| &s.analyte));
    let left = if is_narrow(width) { 108.0 } else { 150.0 };
    let room = width - 10.0 - left;
    let fit = ((room / 22.0) as usize).max(1);
    let grid = Grid { left, step: (room / analytes.len().max(1) as f64).clamp(22.0, 36.0), row: 15.0 };
    for band in analytes.chunks(fit) {
        y = heads(&mut c, band, &grid, y);
        for well in &wells {
            let here: Vec<(usize, &Small)> = band
                .iter()
                .enumerate()
                .flat_map(|(j, a)| {
                    p.series.iter().filter(move |s| s.well == *well && s.analyte == *a).map(move |s| (j, s))
                })
                .collect();
            if here.is_empty() {
                continue;
            }
            y += grid.row;
            c.line((10.0, y - 3.5), (grid.left + grid.step * band.len() as f64, y - 3.5), ink::HAIR, "");
            let name = shortened(well, (grid.left - 20.0, 11.0));
            c.text(10.0, y, &name, Style::text().sized(11.0).rimmed());
            for (j, s) in here {
                mark(&mut c, (grid.left + grid.step * (j as f64 + 0.5), y - 3.5), s.course);
            }
        }
        y += 14.0;
    }
    c.finish(p.head.at_width(width), width, y + 4.0)
}

/// The analytes, turned a quarter so that long names find room; returns the y below.
fn heads(c: &mut Canvas, band: &[&str], grid: &Grid, y: f64) -> f64 {
    let style = Style::strong().sized(11.0);
    let long = band.iter().any(|a| text::width(a, 11.0, Weight::SemiBold) > grid.step - 2.0);
    if !long {
        for (j, a) in band.iter().enumerate() {
            c.text(grid.left + grid.step * (j as f64 + 0.5), y + 12.0, a, style.hung(Anchor::Middle));
        }
        return y + 16.0;
    }
    let short: Vec<String> = band.iter().map(|a| shortened(a, (110.0, 11.0))).collect();
    let high = short.iter().map(|a| text::width(a, 11.0, Weight::SemiBold)).fold(0.0, f64::max) + 8.0;
    for (j, a) in short.iter().enumerate() {
        let half = text::width(a, 11.0, Weight::SemiBold) / 2.0;
        c.text_up(grid.left + grid.step * (j as f64 + 0.5) + 4.0, y + high - half - 2.0, a, style);
    }
    y + high + 4.0
}

/// Names in order, each once.
fn names(p: &TimeSeriesPanels, of: fn(&Small) -> &String) -> Vec<&str> {
    let mut all: Vec<&str> = p.series.iter().map(|s| of(s).as_str()).collect();
    all.sort_unstable();
    all.dedup();
    all
}

/// A name cut to its room with an ellipsis.
fn shortened(name: &str, (room, size): (f64, f64)) -> String {
    let fits = |s: &str| text::width(s, size, Weight::SemiBold) <= room;
    if fits(name) {
        return name.into();
    }
    let mut letters: Vec<char> = name.chars().collect();
    while letters.pop().is_some() {
        let cut: String = letters.iter().collect::<String>() + "…";
        if fits(&cut) {
            return cut;
        }
    }
    String::new()
}
