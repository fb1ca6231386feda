//! A control chart: does the laboratory give the same answer run after run?
//!
//! In: one point a run (or vial) with its u, centre and sd, the rules that each point breaks in
//! words, the moving average with its limits, all already computed and in one unit. Out: a
//! [`Figure`] with two panels: the points, then the moving average. A point that keeps the rules is
//! a disc, one that breaks one an open diamond, one beyond three sd a filled triangle; the rule
//! stands beside it in words. Runs stand at equal distances in order of time, first and last named.
//! Without centre and sd the points stand alone, and the sentence says that no chart can be given.
//! Checked in `tests/chart.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{Point, point};
use super::scale::Scale;
use super::{Anchor, Area, Canvas, Figure, Head, Style, ink};
use message::{Spoken, count, time_series as said};

/// One point.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Charted {
    /// Name of the run or vial.
    pub name: String,
    /// Value.
    pub value: f64,
    /// Half-width of its 95 % interval; 0 where none is shown.
    pub half: f64,
    /// Rules that it breaks, in words; empty where it keeps all.
    pub broken: String,
    /// Is it beyond three sd?
    pub beyond: bool,
    /// Moving average with its lower and upper limit.
    pub average: Option<(f64, f64, f64)>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ChartPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Words over the first panel, with the unit.
    pub what: String,
    /// The points in order of time.
    pub points: Vec<Charted>,
    /// Centre and sd; none where no chart can be given.
    pub centre_sd: Option<(f64, f64)>,
    /// How many points, from the first, set centre and sd.
    pub baseline: usize,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &ChartPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let mut plot = Plot { left: 62.0, right: width - 14.0, top: y + 26.0, bottom: y + 206.0 };
    let last = p.points.len().saturating_sub(1).max(1) as f64;
    let at = |i: usize| plot.left + 12.0 + (plot.right - plot.left - 24.0) * i as f64 / last;
    let x: Vec<f64> = (0..p.points.len()).map(at).collect();
    values(&mut c, p, &x, plot);
    if p.points.iter().any(|d| d.average.is_some()) {
        plot.top = plot.bottom + 40.0;
        plot.bottom = plot.top + 100.0;
        averages(&mut c, p, &x, plot);
    }
    names(&mut c, p, &x, plot);
    c.finish(p.head.at_width(width), width, plot.bottom + 30.0)
}

fn kind(d: &Charted) -> (Point, &'static str) {
    match (d.beyond, d.broken.is_empty()) {
        (true, _) => (Point::Triangle, ink::NOT_MET),
        (false, false) => (Point::Diamond, ink::TEXT),
        (false, true) => (Point::Disc, ink::TEXT),
    }
}

fn legend(p: &ChartPicture) -> Vec<Entry<'static>> {
    let mut out = vec![Entry::point(Point::Disc, ink::TEXT, said::KeepsRules.text())];
    if p.points.iter().any(|d| kind(d).0 == Point::Diamond) {
        out.push(Entry::point(Point::Diamond, ink::TEXT, said::BreaksRule.text()));
    }
    if p.points.iter().any(|d| d.beyond) {
        out.push(Entry::point(Point::Triangle, ink::NOT_MET, said::BeyondThreeSd.text()));
    }
    if p.centre_sd.is_some() {
        out.push(Entry::line(ink::WATER, "stroke-width=\"1.6\"", said::Centre.text()));
        out.push(Entry::line(ink::NOT_KNOWN, "stroke-width=\"1.4\" stroke-dasharray=\"6 4\"", said::TwoSd.text()));
        out.push(Entry::line(ink::NOT_MET, "stroke-width=\"1.6\"", said::ThreeSd.text()));
        out.push(Entry {
            sample: Box::new(|c, x, y| {
                c.rect((x - 10.0, y - 6.0), (x + 10.0, y + 6.0), &format!("fill=\"{}\"", ink::FORECAST));
            }),
            width: 20.0,
            words: said::FirstPoints { points: count(p.baseline) }.text(),
        });
    }
    out
}

fn values(c: &mut Canvas, p: &ChartPicture, x: &[f64], plot: Plot) {
    let ends = p.points.iter().flat_map(|d| [d.value - d.half, d.value + d.half]);
    let lines = p.centre_sd.iter().flat_map(|(m, s)| [m - 3.2 * s, m + 3.2 * s]);
    let y = Scale::linear(ends.chain(lines), (plot.bottom, plot.top));
    if let Some(last) = p.centre_sd.and_then(|_| x.get(p.baseline.saturating_sub(1))) {
        let fill = format!("fill=\"{}\" fill-opacity=\"0.45\"", ink::FORECAST);
        c.rect((plot.left, plot.top), (last + 6.0, plot.bottom), &fill);
    }
    c.text(10.0, plot.top - 10.0, &p.what, Style::muted());
    axis::vertical(c, &y, plot);
    axis::foot(c, plot);
    if let Some((m, s)) = p.centre_sd {
        let mut rule = |v: f64, colour: &str, more: &str| {
            c.line((plot.left, y.at(v)), (plot.right, y.at(v)), colour, more);
        };
        rule(m, ink::WATER, "stroke-width=\"1.6\"");
        for side in [-1.0, 1.0] {
            rule(m + side * 2.0 * s, ink::NOT_KNOWN, "stroke-width=\"1.4\" stroke-dasharray=\"6 4\"");
            rule(m + side * 3.0 * s, ink::NOT_MET, "stroke-width=\"1.6\"");
        }
    }
    for (d, at) in p.points.iter().zip(x) {
        if d.half > 0.0 {
            c.line((*at, y.at(d.value - d.half)), (*at, y.at(d.value + d.half)), ink::MUTED, "stroke-width=\"1.2\"");
        }
        let (shape, colour) = kind(d);
        point(c, (*at, y.at(d.value)), shape, colour);
    }
    let within = Area { x0: plot.left, y0: plot.top - 4.0, x1: plot.right, y1: plot.bottom };
    for (d, at) in p.points.iter().zip(x).filter(|(d, _)| !d.broken.is_empty()) {
        let v = y.at(d.value);
        let places = [
            (*at + 8.0, v + 4.0, Anchor::Start),
            (*at - 8.0, v + 4.0, Anchor::End),
            (*at + 8.0, v - 9.0, Anchor::Start),
            (*at - 8.0, v - 9.0, Anchor::End),
            (*at - 8.0, v + 17.0, Anchor::End),
        ];
        // Where there is no room the table below the figure tells it.
        c.text_where_free(&places, &d.broken, Style::text().sized(11.0).rimmed(), within);
    }
}

fn averages(c: &mut Canvas, p: &ChartPicture, x: &[f64], plot: Plot) {
    let known: Vec<(f64, (f64, f64, f64))> =
        p.points.iter().zip(x).filter_map(|(d, x)| d.average.map(|a| (*x, a))).collect();
    let y = Scale::linear(known.iter().flat_map(|(_, (v, lo, hi))| [*v, *lo, *hi]), (plot.bottom, plot.top));
    c.text(10.0, plot.top - 10.0, &said::MovingAverage.text(), Style::muted());
    axis::vertical(c, &y, plot);
    axis::foot(c, plot);
    let track =
        |f: fn((f64, f64, f64)) -> f64| -> Vec<(f64, f64)> { known.iter().map(|(x, a)| (*x, y.at(f(*a)))).collect() };
    c.polyline(&track(|a| a.1), ink::NOT_MET, "stroke-width=\"1.6\"");
    c.polyline(&track(|a| a.2), ink::NOT_MET, "stroke-width=\"1.6\"");
    c.polyline(&track(|a| a.0), ink::WATER, "stroke-width=\"1.8\"");
    for (at, (v, lo, hi)) in &known {
        let out = v < lo || v > hi;
        let (shape, colour) = if out { (Point::Diamond, ink::TEXT) } else { (Point::Disc, ink::WATER) };
        point(c, (*at, y.at(*v)), shape, colour);
    }
}

/// The first and the last name, where both have room; the table names them all.
fn names(c: &mut Canvas, p: &ChartPicture, x: &[f64], plot: Plot) {
    let within = Area { x0: 0.0, y0: plot.bottom, x1: plot.right + 12.0, y1: plot.bottom + 28.0 };
    let (Some(first), Some(last)) = (p.points.first(), p.points.last()) else { return };
    let foot = plot.bottom + 18.0;
    c.text_where_free(&[(x[0] - 8.0, foot, Anchor::Start)], &first.name, Style::muted(), within);
    if p.points.len() > 1 {
        c.text_where_free(&[(x[x.len() - 1] + 8.0, foot, Anchor::End)], &last.name, Style::muted(), within);
    }
}
