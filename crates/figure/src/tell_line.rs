//! Two lines that tell where metal comes from: mass against fill volume, concentration against 1/flow.
//!
//! In: points with standard uncertainty, the line with its covariance, what its value at zero means in words. Out: a
//! [`Figure`]: points, the line with its band, and on the axis of zero the value there with its interval, which is
//! the answer. Without a line the points stand alone. Checked in `tests/figures_attribution.rs`.

use super::axis::{self, Entry, Plot};
use super::line::Fitted;
use super::marks::{self, Along, Point, point};
use super::scale::{Scale, short};
use super::{Anchor, Area, Canvas, Figure, Head, Style, ink, is_narrow};
use message::{Arg, Name, Shown, Spoken, attribution as said};
use quantity::format::decimals_for;

/// What the figure shows.
#[derive(Debug, Clone, PartialEq)]
pub struct TellLine {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Name and unit of x.
    pub x_name: String,
    /// Name and unit of y.
    pub y_name: String,
    /// Bottle, x, y, u of y.
    pub points: Vec<(String, f64, f64, f64)>,
    /// The line, where one could be drawn.
    pub fitted: Option<Fitted>,
    /// What the value at zero is: "at zero: bottle and hands, pg".
    pub at_zero: String,
    /// A closing sentence.
    pub caption: String,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &TellLine, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let mut entries = vec![Entry::point(Point::Ring, ink::TEXT, said::OneBottle.text())];
    if p.fitted.is_some() {
        entries.push(Entry::line(ink::WATER, "stroke-width=\"1.8\"", said::LineWithBand.text()));
        entries.push(Entry {
            sample: Box::new(|c, x, y| marks::measured(c, Along::X, y, (x - 11.0, x, x + 11.0))),
            width: 24.0,
            words: p.at_zero.clone(),
        });
    }
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let plot = Plot {
        left: if is_narrow(width) { 58.0 } else { 76.0 },
        right: width - 20.0,
        top: y + 26.0,
        bottom: y + 226.0,
    };
    c.text(10.0, plot.top - 12.0, &p.y_name, Style::muted());
    panel(&mut c, p, plot);
    c.text(plot.right, plot.bottom + 33.0, &p.x_name, Style::muted().hung(Anchor::End));
    let y = c.wrapped((10.0, plot.bottom + 54.0), &p.caption, Style::muted(), width - 20.0);
    c.finish(p.head.at_width(width), width, y)
}

/// Half widths of the intervals drawn at the points.
const K: f64 = 2.0;

fn panel(c: &mut Canvas, p: &TellLine, plot: Plot) {
    let good = || p.points.iter().filter(|q| q.1.is_finite() && q.2.is_finite() && q.3.is_finite());
    let end = good().map(|q| q.1).fold(0.0, f64::max);
    let line = |x: f64| p.fitted.map(|f| (f.intercept + f.slope * x, half(&f, x)));
    let on_line: Vec<(f64, f64, f64)> = (0..=24)
        .filter_map(|i| {
            let x = end * f64::from(i) / 24.0;
            line(x).map(|(y, h)| (x, y, h))
        })
        .filter(|q| q.1.is_finite() && q.2.is_finite())
        .collect();
    // Room on the left of zero for the answer.
    let x = Scale::linear(good().map(|q| q.1).chain([0.0]), (plot.left + 26.0, plot.right));
    let ys =
        good().flat_map(|q| [q.2 - K * q.3, q.2 + K * q.3]).chain(on_line.iter().flat_map(|q| [q.1 - q.2, q.1 + q.2]));
    let y = Scale::linear(ys.chain([0.0]), (plot.bottom, plot.top));
    axis::vertical(c, &y, plot);
    axis::horizontal(c, &x, Plot { left: plot.left + 26.0, ..plot });
    axis::foot(c, plot);
    if y.domain().0 < 0.0 {
        c.line((plot.left, y.at(0.0)), (plot.right, y.at(0.0)), ink::LINE, "");
    }
    if on_line.len() > 1 {
        let mut band: Vec<(f64, f64)> = on_line.iter().map(|q| (x.at(q.0), y.at(q.1 + q.2))).collect();
        band.extend(on_line.iter().rev().map(|q| (x.at(q.0), y.at(q.1 - q.2))));
        c.polyline(&band, "none", &format!("fill=\"{}\"", ink::WATER_PALE));
        let (a, b) = (on_line[0], on_line[on_line.len() - 1]);
        c.line((x.at(a.0), y.at(a.1)), (x.at(b.0), y.at(b.1)), ink::WATER, "stroke-width=\"1.8\"");
    }
    for (_, px, py, u) in good() {
        let at = x.at(*px);
        c.line((at, y.at(py - K * u)), (at, y.at(py + K * u)), ink::TEXT, "stroke-width=\"1.2\"");
        point(c, (at, y.at(*py)), Point::Ring, ink::TEXT);
        c.keep_clear(Area { x0: at - 5.0, y0: y.at(py + K * u) - 2.0, x1: at + 5.0, y1: y.at(py - K * u) + 2.0 });
    }
    if let Some((value, h)) = line(0.0).filter(|z| z.0.is_finite() && z.1.is_finite()) {
        marks::measured(c, Along::Y, x.at(0.0), (y.at(value - h), y.at(value), y.at(value + h)));
        let words =
            said::ValueAtZero { value: number(value, h), low: number(value - h, h), high: number(value + h, h) }.text();
        let at = (x.at(0.0), y.at(value));
        // Away from the line: above its low end, or below its high one.
        let rises = p.fitted.is_some_and(|f| f.slope >= 0.0);
        let free = if rises { at.1 - 40.0 } else { at.1 + 44.0 };
        let spots = [
            (at.0 + 12.0, free.clamp(plot.top + 12.0, plot.bottom - 8.0), Anchor::Start),
            (at.0 + 12.0, if rises { plot.top + 12.0 } else { plot.bottom - 8.0 }, Anchor::Start),
            (plot.right - 4.0, plot.bottom - 8.0, Anchor::End),
            (plot.right - 4.0, plot.top + 12.0, Anchor::End),
        ];
        let within = Area { x0: plot.left, y0: plot.top - 4.0, x1: plot.right, y1: plot.bottom - 2.0 };
        c.text_where_free(&spots, &words, Style::text().rimmed(), within);
    }
}

/// To the digits that its interval supports; one next to zero as a power of ten.
fn number(v: f64, half: f64) -> Vec<Arg> {
    let places = decimals_for(half.abs().max(1e-12), 2);
    let next_to_zero = v != 0.0 && v.abs() < 1e-4;
    vec![if next_to_zero { Name(short(v)).into() } else { Shown::decimals(v, places, "").into() }]
}

fn half(f: &Fitted, x: f64) -> f64 {
    let variance = f.u_intercept * f.u_intercept + x * x * f.u_slope * f.u_slope + 2.0 * x * f.covariance;
    f.k * variance.max(0.0).sqrt()
}
