//! One series over the years: values, non-detects, method changes, trend, blanks of the same years.
//!
//! In: readings with decimal years in one unit, dates at which the method changed, the trend line
//! with its band already computed, blanks in the same unit. Out: a [`Figure`]. The value axis is
//! logarithmic where any reading is above zero. A non-detect is an open bar from the foot to its
//! limit, never a dot on the limit; a value at or below zero is a triangle at the foot. Blanks stand
//! in a strip of their own over the same years. Changes are dashed lines with a number, told below.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{self, Along, Point, point};
use super::scale::{Scale, days_from_civil};
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow, px};
use message::{Digits, Message, Spoken, count, time_series as said, word};
use quantity::factor::S_PER_D;
use series::{Reading, rows, words};
use std::fmt::Write as _;

/// What one reading says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Seen {
    /// A number; a raw net value may be negative.
    Value(f64),
    /// Somewhere below the limit.
    Below(f64),
}

impl Seen {
    /// The number or the limit.
    pub fn bound(self) -> f64 {
        match self {
            Self::Value(v) | Self::Below(v) => v,
        }
    }

    fn reading(self) -> Reading {
        match self {
            Self::Value(v) => Reading::Known(v),
            Self::Below(limit) => Reading::Below(limit),
        }
    }
}

/// A reading with its date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dated {
    /// Decimal year.
    pub time_years: f64,
    /// What it says, in the figure's unit.
    pub seen: Seen,
    /// The verdict on it is "rejected".
    pub rejected: bool,
    /// U, 95 %, in the figure's unit, where it is known: the bar through the point.
    pub expanded: Option<f64>,
}

/// A change of method, laboratory or place.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Decimal year from which the new one holds.
    pub time_years: f64,
    /// What changed, with its date.
    pub words: String,
}

/// The trend at one date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnLine {
    /// Decimal year.
    pub time_years: f64,
    /// Lower edge of the band.
    pub low: f64,
    /// The line.
    pub value: f64,
    /// Upper edge of the band.
    pub high: f64,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TimeSeriesPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Unit of everything.
    pub unit: String,
    /// The readings.
    pub points: Vec<Dated>,
    /// Changes in order of time.
    pub changes: Vec<Change>,
    /// The trend, in order of time; empty where there is none.
    pub trend: Vec<OnLine>,
    /// Words of the legend for the trend.
    pub trend_words: String,
    /// Blanks of the same analyte.
    pub blanks: Vec<Dated>,
    /// What the blanks are: "field blanks".
    pub blanks_words: String,
}

/// Seconds since 1970 of a decimal year.
pub(super) fn seconds(time_years: f64) -> f64 {
    let year = time_years.floor().clamp(-9999.0, 9999.0) as i32;
    let (from, to) = (days_from_civil(year, 1, 1) as f64, days_from_civil(year + 1, 1, 1) as f64);
    S_PER_D * (from + (time_years - f64::from(year)) * (to - from))
}

/// Changes that are told in words; more are drawn and counted.
const TOLD: usize = 8;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &TimeSeriesPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let top = y + if p.changes.is_empty() { 10.0 } else { 26.0 };
    let plot = Plot { left: 62.0, right: width - 14.0, top, bottom: top + 230.0 };
    // One axis of time for both, since a rising blank looks like a rising metal.
    let all = p.points.iter().chain(&p.blanks).map(|d| seconds(d.time_years));
    let x = Scale::time(all, (plot.left + 8.0, plot.right - 8.0));
    let value = value_scale(&p.points, &p.trend, (plot.bottom, plot.top));
    years(&mut c, &x, plot, p.blanks.is_empty());
    ticks(&mut c, &value, plot);
    c.text(10.0, plot.top - 8.0, &p.unit, Style::muted());
    band(&mut c, &p.trend, &x, &value);
    change_lines(&mut c, p, &x, plot);
    readings(&mut c, &p.points, &x, &value);
    for d in &p.points {
        let at = (x.at(seconds(d.time_years)), value.at(d.seen.bound()));
        c.note(at, d.time_years, mark(d, &p.unit).text());
    }
    axis::foot(&mut c, plot);
    let mut y = plot.bottom + 22.0;
    if !p.blanks.is_empty() {
        let words = format!("{}, {} (n = {})", p.blanks_words, p.unit, p.blanks.len());
        let top = c.wrapped((plot.left, plot.bottom + 18.0), &words, Style::muted(), plot.right - plot.left) - 6.0;
        let strip = Plot { top, bottom: top + 84.0, ..plot };
        let value = value_scale(&p.blanks, &[], (strip.bottom, strip.top));
        years(&mut c, &x, strip, true);
        ticks(&mut c, &value, strip);
        readings(&mut c, &p.blanks, &x, &value);
        axis::foot(&mut c, strip);
        y = strip.bottom + 22.0;
    }
    y = told(&mut c, p, &x, (y + 14.0, width));
    c.finish(p.head.at_width(width), width, y)
}

/// What the mark of a reading stands for.
fn mark(d: &Dated, unit: &str) -> Message {
    let date = rows::date_of(d.time_years).to_string().into();
    let (reading, unit) = (words::reading(d.seen.reading(), Digits::Trimmed(3)), unit.into());
    if d.rejected {
        said::MarkRejected { date, reading, unit }.into()
    } else {
        said::Mark { date, reading, unit }.into()
    }
}

fn legend(p: &TimeSeriesPicture) -> Vec<Entry<'static>> {
    let any = |f: fn(&Dated) -> bool| p.points.iter().chain(&p.blanks).any(f);
    let mut out = vec![];
    if any(|d| matches!(d.seen, Seen::Value(_))) {
        out.push(Entry::point(Point::Disc, ink::TEXT, word::Value.text()));
    }
    if any(|d| matches!(d.seen, Seen::Below(_))) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::nothing_found(c, Along::Y, x, (y + 7.0, y - 6.0), 2.5)),
            width: 12.0,
            words: said::NotDetected.text(),
        });
    }
    if any(|d| matches!(d.seen, Seen::Value(v) if v <= 0.0)) {
        out.push(Entry {
            sample: Box::new(|c, x, y| triangle(c, (x, y + 4.0))),
            width: 10.0,
            words: said::AtOrBelowZero.text(),
        });
    }
    if any(|d| d.rejected) {
        out.push(Entry::point(Point::Cross, ink::NOT_MET, word::Rejected.text()));
    }
    if !p.trend.is_empty() {
        out.push(Entry {
            sample: Box::new(|c, x, y| {
                c.rect((x - 12.0, y - 6.0), (x + 12.0, y + 6.0), &format!("fill=\"{}\"", ink::WATER_PALE));
                c.line((x - 12.0, y), (x + 12.0, y), ink::WATER, "stroke-width=\"2\"");
            }),
            width: 24.0,
            words: p.trend_words.clone(),
        });
    }
    if !p.changes.is_empty() {
        out.push(Entry::line(ink::NOT_KNOWN, CHANGE, said::MethodChanges.text()));
    }
    out
}

const CHANGE: &str = "stroke-width=\"1.4\" stroke-dasharray=\"5 3\"";

/// Logarithmic where anything is above zero; the lowest limit keeps a bar that can be seen.
pub(super) fn value_scale(points: &[Dated], trend: &[OnLine], px: (f64, f64)) -> Scale {
    let bounds = || points.iter().map(|d| d.seen.bound());
    if bounds().any(|v| v > 0.0) {
        let lowest = bounds().filter(|v| *v > 0.0).fold(f64::INFINITY, f64::min);
        let highest = bounds().fold(0.0, f64::max);
        // A band that runs away must not press the readings together.
        let line = trend.iter().map(|t| t.value).filter(move |v| *v > lowest / 3.0 && *v < 3.0 * highest);
        // The upper ends of the intervals stand inside.
        let ends =
            points.iter().filter_map(|d| Some(d.seen.bound() + d.expanded?)).filter(|_| points.len() <= WITH_INTERVALS);
        Scale::log(bounds().chain(line).chain(ends).chain([lowest / 2.0]), px)
    } else {
        Scale::linear(bounds().chain([0.0]), px)
    }
}

/// Lines at whole years through a plot; numbers under it where asked.
pub(super) fn years(c: &mut Canvas, x: &Scale, plot: Plot, numbers: bool) {
    if numbers {
        axis::horizontal(c, x, plot);
    } else {
        for t in x.ticks() {
            c.line((x.at(t.value), plot.top), (x.at(t.value), plot.bottom), ink::HAIR, "");
        }
    }
}

/// Lines and numbers of the value axis; numbers that would touch are left out.
pub(super) fn ticks(c: &mut Canvas, scale: &Scale, p: Plot) {
    let mut last = f64::INFINITY;
    for t in scale.ticks() {
        let y = scale.at(t.value);
        c.line((p.left, y), (p.right, y), ink::HAIR, "");
        if last - y >= 15.0 {
            c.text(p.left - 7.0, y + 4.0, &t.label, Style::muted().hung(Anchor::End));
            last = y;
        }
    }
}

fn band(c: &mut Canvas, trend: &[OnLine], x: &Scale, value: &Scale) {
    if trend.is_empty() {
        return;
    }
    let (foot, top) = value.domain();
    let mut d = String::new();
    let edge = trend.iter().map(|t| (t.time_years, t.high)).chain(trend.iter().rev().map(|t| (t.time_years, t.low)));
    for (i, (t, v)) in edge.enumerate() {
        let _ = write!(d, "{}{} {}", if i == 0 { 'M' } else { 'L' }, px(x.at(seconds(t))), px(value.at(v)));
    }
    c.shape(&format!("{d}Z"), &format!("fill=\"{}\" fill-opacity=\"0.75\"", ink::WATER_PALE));
    let line: Vec<(f64, f64)> = trend
        .iter()
        .filter(|t| t.value > foot && t.value <= top)
        .map(|t| (x.at(seconds(t.time_years)), value.at(t.value)))
        .collect();
    c.polyline(&line, ink::WATER, "stroke-width=\"2\"");
}

fn readings(c: &mut Canvas, points: &[Dated], x: &Scale, value: &Scale) {
    let foot = value.at(value.domain().0);
    if points.len() > WITH_INTERVALS {
        return crowd(c, points, x, value);
    }
    let half = 2.5;
    // Bars first: a dot must not hide under one.
    for d in points {
        if let Seen::Below(limit) = d.seen {
            marks::nothing_found(c, Along::Y, x.at(seconds(d.time_years)), (foot, value.at(limit)), half);
        }
    }
    for d in points {
        interval(c, d, (x, value), points.len());
    }
    for d in points {
        let at = x.at(seconds(d.time_years));
        match d.seen {
            Seen::Value(v) if v > value.domain().0 => point(c, (at, value.at(v)), Point::Disc, ink::TEXT),
            Seen::Value(_) => triangle(c, (at, foot)),
            Seen::Below(_) => {}
        }
        if d.rejected {
            point(c, (at, value.at(d.seen.bound())), Point::Cross, ink::NOT_MET);
        }
    }
}

/// Many readings: all marks of a kind in one shape, so that a picture of decades stays a page that a telephone loads.
/// The marks are those of [`readings`], without intervals.
fn crowd(c: &mut Canvas, points: &[Dated], x: &Scale, value: &Scale) {
    const HALF: f64 = 1.6;
    let lowest = value.domain().0;
    let foot = value.at(lowest);
    let (mut bars, mut ends, mut dots, mut below, mut crosses): (String, String, String, String, String) =
        Default::default();
    let add = |d: &mut String, piece: String| d.push_str(&piece);
    for d in points {
        let (at, y) = (x.at(seconds(d.time_years)), value.at(d.seen.bound()));
        match d.seen {
            Seen::Below(_) => {
                add(&mut bars, format!("M{} {}V{}h{}V{}", px(at - HALF), px(foot), px(y), px(2.0 * HALF), px(foot)));
                add(&mut ends, format!("M{} {}h{}", px(at - HALF - 4.0), px(y), px(2.0 * HALF + 8.0)));
            }
            Seen::Value(v) if v > lowest => add(&mut dots, format!("M{} {}h0", px(at), px(y))),
            Seen::Value(_) => add(&mut below, format!("M{} {}l-4.5 -8h9z", px(at), px(foot))),
        }
        if d.rejected {
            add(&mut crosses, format!("M{} {}l6.4 6.4m0 -6.4l-6.4 6.4", px(at - 3.2), px(y - 3.2)));
        }
        c.keep_clear(super::Area { x0: at - 4.0, y0: y - 4.0, x1: at + 4.0, y1: y + 4.0 });
    }
    let ink = |more: &str| format!("stroke=\"{}\" {more}", ink::TEXT);
    let open = format!("fill=\"{}\"", ink::PAPER);
    let round = "fill=\"none\" stroke-linecap=\"round\"";
    let rim = format!("stroke=\"{}\" stroke-width=\"8\" {round}", ink::PAPER);
    let cross = format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.8\"", ink::NOT_MET);
    for (d, look) in [
        (&bars, ink(&format!("{open} fill-opacity=\"0.6\" stroke-dasharray=\"3 2.5\""))),
        (&ends, ink("stroke-width=\"2.4\" fill=\"none\"")),
        (&dots, rim),
        (&dots, ink(&format!("stroke-width=\"6.8\" {round}"))),
        (&below, ink(&format!("{open} stroke-width=\"1.3\""))),
        (&crosses, cross),
    ] {
        let d: &String = d;
        if !d.is_empty() {
            c.shape(d, &look);
        }
    }
}

/// Readings of which each has its interval drawn, at most: of more the bars would be one band.
const WITH_INTERVALS: usize = 80;

/// The interval of a value as a bar, down to the foot of the picture where it reaches below.
fn interval(c: &mut Canvas, d: &Dated, (x, value): (&Scale, &Scale), n: usize) {
    let (Seen::Value(v), Some(u)) = (d.seen, d.expanded.filter(|u| *u > 0.0 && n <= WITH_INTERVALS)) else { return };
    let (foot, top) = value.domain();
    let [low, high] = [v - u, v + u].map(|end| value.at(end.clamp(foot, top)));
    let at = x.at(seconds(d.time_years));
    if v > foot && (low - high).abs() > 1.0 {
        c.line((at, low), (at, high), ink::TEXT, "stroke-width=\"1.4\"");
    }
}

/// At or below zero: an open triangle that points out of the picture.
fn triangle(c: &mut Canvas, (x, y): (f64, f64)) {
    c.shape(
        &format!("M{} {}L{} {}L{} {}Z", px(x), px(y), px(x - 4.5), px(y - 8.0), px(x + 4.5), px(y - 8.0)),
        &format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.3\"", ink::PAPER, ink::TEXT),
    );
}

/// Changes that stand so close that they share a number.
fn numbered<'a>(changes: &'a [Change], x: &Scale) -> Vec<Vec<&'a Change>> {
    let mut groups: Vec<Vec<&Change>> = vec![];
    for change in changes {
        let at = |ch: &Change| x.at(seconds(ch.time_years));
        match groups.last_mut() {
            Some(g) if at(change) - at(g[0]) < 18.0 => g.push(change),
            _ => groups.push(vec![change]),
        }
    }
    groups
}

fn change_lines(c: &mut Canvas, p: &TimeSeriesPicture, x: &Scale, plot: Plot) {
    for (i, group) in numbered(&p.changes, x).iter().enumerate() {
        for change in group {
            let at = x.at(seconds(change.time_years));
            c.line((at, plot.top), (at, plot.bottom), ink::NOT_KNOWN, CHANGE);
        }
        let at = x.at(seconds(group[0].time_years));
        let number = (i + 1).to_string();
        c.text(at, plot.top - 5.0, &number, Style::text().coloured(ink::NOT_KNOWN).hung(Anchor::Middle).sized(11.0));
    }
}

/// What changed, number by number, under the plot; returns the height reached.
fn told(c: &mut Canvas, p: &TimeSeriesPicture, x: &Scale, (mut y, width): (f64, f64)) -> f64 {
    let style = Style::muted().sized(if is_narrow(width) { 11.0 } else { 12.0 });
    let mut room = TOLD;
    for (i, group) in numbered(&p.changes, x).iter().enumerate() {
        if room == 0 {
            break;
        }
        let said: Vec<&str> = group.iter().take(room).map(|ch| ch.words.as_str()).collect();
        room -= said.len();
        y = c.wrapped((10.0, y), &format!("{}  {}", i + 1, said.join("; ")), style, width - 20.0);
    }
    if p.changes.len() > TOLD {
        let more = said::MoreChanges { changes: count(p.changes.len() - TOLD) };
        y = c.wrapped((10.0, y), &more.text(), style, width - 20.0);
    }
    y
}
