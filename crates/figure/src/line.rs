//! The calibration line of a run: points with their intervals, the line with its band, and under it
//! what is left over, standard by standard.
//!
//! In: assigned values (any unit, named), responses (ratio or counts per second) with standard
//! uncertainty, slope and intercept with their covariance, coverage factor. Out: a [`Figure`].
//! The residuals stand in multiples of u and side by side, evenly spaced, so that the lowest
//! standards, which decide at the trace level, are seen as well as the highest.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{Point, point};
use super::scale::{Scale, short};
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow, px};
use message::{Spoken, figure as label};

/// A standard or calibration blank.
#[derive(Debug, Clone, PartialEq)]
pub struct Standard {
    /// Name of the vial.
    pub name: String,
    /// Assigned value.
    pub x: f64,
    /// Response.
    pub y: f64,
    /// Standard uncertainty of the response.
    pub u_y: f64,
    /// A person took it out of the line.
    pub excluded: bool,
}

/// A fitted line `y = intercept + slope · x`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fitted {
    /// Slope.
    pub slope: f64,
    /// Intercept.
    pub intercept: f64,
    /// Standard uncertainty of the slope.
    pub u_slope: f64,
    /// Standard uncertainty of the intercept.
    pub u_intercept: f64,
    /// Covariance of slope and intercept.
    pub covariance: f64,
    /// Coverage factor of the band and of the points' intervals.
    pub k: f64,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq)]
pub struct LinePicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Name and unit of the assigned value: "lead assigned, ng/L".
    pub x_name: String,
    /// Name and unit of the response.
    pub y_name: String,
    /// Standards.
    pub standards: Vec<Standard>,
    /// The line.
    pub fitted: Fitted,
}

impl Fitted {
    fn at(&self, x: f64) -> f64 {
        self.intercept + self.slope * x
    }

    fn half_band(&self, x: f64) -> f64 {
        let variance =
            self.u_intercept * self.u_intercept + x * x * self.u_slope * self.u_slope + 2.0 * x * self.covariance;
        self.k * variance.max(0.0).sqrt()
    }
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &LinePicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let mut entries = vec![
        Entry::point(Point::Disc, ink::TEXT, label::Standard.text()),
        Entry::line(ink::WATER, "stroke-width=\"1.8\"", label::LineWithBand.text()),
    ];
    if p.standards.iter().any(|s| s.excluded) {
        entries.push(Entry::point(Point::Cross, ink::NOT_MET, label::TakenOut.text()));
    }
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let upper = Plot {
        left: if is_narrow(width) { 62.0 } else { 76.0 },
        right: width - 20.0,
        top: y + 12.0,
        bottom: y + 202.0,
    };
    main_panel(&mut c, p, upper);
    let lower = Plot { top: upper.bottom + 64.0, bottom: upper.bottom + 144.0, ..upper };
    let y = residuals(&mut c, p, lower);
    c.finish(p.head.at_width(width), width, y + 8.0)
}

fn main_panel(c: &mut Canvas, p: &LinePicture, plot: Plot) {
    let f = &p.fitted;
    let xs = || p.standards.iter().map(|s| s.x).chain([0.0]);
    let x = Scale::linear(xs(), (plot.left, plot.right));
    let ys = p.standards.iter().flat_map(|s| [s.y - f.k * s.u_y, s.y + f.k * s.u_y]);
    let y = Scale::linear(ys.chain([0.0, f.at(x.domain().1.min(xs().fold(0.0, f64::max)))]), (plot.bottom, plot.top));
    axis::vertical(c, &y, plot);
    axis::horizontal(c, &x, plot);
    axis::foot(c, plot);
    c.text(plot.right, plot.bottom + 33.0, &p.x_name, Style::muted().hung(Anchor::End));
    c.text_up(16.0, f64::midpoint(plot.top, plot.bottom), &p.y_name, Style::muted());
    let end = xs().fold(0.0, f64::max);
    let steps: Vec<f64> = (0..=24).map(|i| end * f64::from(i) / 24.0).collect();
    let mut band: Vec<(f64, f64)> = steps.iter().map(|s| (x.at(*s), y.at(f.at(*s) + f.half_band(*s)))).collect();
    band.extend(steps.iter().rev().map(|s| (x.at(*s), y.at(f.at(*s) - f.half_band(*s)))));
    let d: Vec<String> = band.iter().map(|(a, b)| format!("{} {}", px(*a), px(*b))).collect();
    // An attribute, not a style: a page may forbid styles inside.
    c.shape(&format!("M{}Z", d.join("L")), &format!("fill=\"{}\"", ink::WATER_PALE));
    c.line((x.at(0.0), y.at(f.at(0.0))), (x.at(end), y.at(f.at(end))), ink::WATER, "stroke-width=\"1.8\"");
    for s in &p.standards {
        standard(c, s, x.at(s.x), (y.at(s.y - f.k * s.u_y), y.at(s.y), y.at(s.y + f.k * s.u_y)));
    }
}

fn standard(c: &mut Canvas, s: &Standard, x: f64, (lo, value, hi): (f64, f64, f64)) {
    let colour = if s.excluded { ink::NOT_MET } else { ink::TEXT };
    c.line((x, lo), (x, hi), colour, "stroke-width=\"1.4\"");
    for y in [lo, hi] {
        c.line((x - 3.0, y), (x + 3.0, y), colour, "");
    }
    point(c, (x, value), if s.excluded { Point::Cross } else { Point::Disc }, colour);
}

fn residuals(c: &mut Canvas, p: &LinePicture, plot: Plot) -> f64 {
    let f = &p.fitted;
    // A residual in multiples of u has no meaning without a u.
    let mut order: Vec<&Standard> = p.standards.iter().filter(|s| s.u_y > 0.0).collect();
    order.sort_by(|a, b| a.x.total_cmp(&b.x).then_with(|| a.name.cmp(&b.name)));
    let in_u = |s: &Standard| (s.y - f.at(s.x)) / s.u_y;
    let y = Scale::linear(order.iter().map(|s| in_u(s)).chain([-f.k, f.k]), (plot.bottom, plot.top));
    let words = if is_narrow(plot.right) { label::LeftOverNarrow.text() } else { label::LeftOver.text() };
    c.text(plot.left, plot.top - 8.0, &words, Style::muted());
    c.rect((plot.left, y.at(-f.k)), (plot.right, y.at(f.k)), &format!("fill=\"{}\"", ink::FORECAST));
    axis::vertical(c, &y, plot);
    c.line((plot.left, y.at(0.0)), (plot.right, y.at(0.0)), ink::LINE, "stroke-width=\"1.4\"");
    let column = (plot.right - plot.left) / order.len().max(1) as f64;
    let mut last = String::new();
    for (i, s) in order.iter().enumerate() {
        let x = plot.left + column * (i as f64 + 0.5);
        c.line((x, y.at(0.0)), (x, y.at(in_u(s))), ink::TEXT, "stroke-width=\"1.4\"");
        let kind = if s.excluded { Point::Cross } else { Point::Disc };
        point(c, (x, y.at(in_u(s))), kind, if s.excluded { ink::NOT_MET } else { ink::TEXT });
        let level = short(s.x);
        if level != last && column > 14.0 {
            c.text(x, plot.bottom + 16.0, &level, Style::muted().hung(Anchor::Middle).sized(11.0));
            last = level;
        }
    }
    c.text(
        plot.right,
        plot.bottom + 33.0,
        &label::StandardsInOrder { axis: p.x_name.as_str().into() }.text(),
        Style::muted().hung(Anchor::End),
    );
    plot.bottom + 36.0
}
