//! A well test: what was measured, the fitted curve, and under it what is left over.
//!
//! In: times in min, flow in L/min or drawdown in m as measured and as fitted, residuals over their own
//! standard deviation. Out: a [`Figure`], time on a log axis. A point whose removal moves the answer by
//! more than the answer's own u carries a ring of its own. Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{Point, point};
use super::scale::Scale;
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow};
use message::{Spoken, well as said, word};

/// A reading of the test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestPoint {
    /// Time since the test began, min.
    pub minutes: f64,
    /// As measured.
    pub observed: f64,
    /// By the fitted curve.
    pub fitted: f64,
    /// Residual over its own standard deviation.
    pub residual: f64,
    /// Without this point the answer moves by more than its u.
    pub moves_the_answer: bool,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq)]
pub struct FlowTestPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title: the answer and whether the model holds.
    pub under: String,
    /// Name and unit of the reading: "flow, L/min".
    pub y_name: String,
    /// The readings.
    pub points: Vec<TestPoint>,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &FlowTestPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let mut entries = vec![
        Entry::point(Point::Disc, ink::TEXT, word::Measured.text()),
        Entry::line(ink::WATER, "stroke-width=\"1.8\"", said::FittedCurve.text()),
    ];
    if p.points.iter().any(|t| t.moves_the_answer) {
        entries.push(Entry::point(Point::Diamond, ink::NOT_MET, said::MovesTheAnswer.text()));
    }
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let left = if is_narrow(width) { 56.0 } else { 70.0 };
    let upper = Plot { left, right: width - 20.0, top: y + 12.0, bottom: y + 202.0 };
    let x = Scale::log(p.points.iter().map(|t| t.minutes), (upper.left, upper.right));
    readings(&mut c, p, &x, upper);
    let lower = Plot { top: upper.bottom + 44.0, bottom: upper.bottom + 124.0, ..upper };
    left_over(&mut c, p, &x, lower);
    c.text(lower.right, lower.bottom + 33.0, &said::MinutesSince.text(), Style::muted().hung(Anchor::End));
    c.finish(p.head.at_width(width), width, lower.bottom + 46.0)
}

fn mark(c: &mut Canvas, t: &TestPoint, at: (f64, f64)) {
    if t.moves_the_answer {
        point(c, at, Point::Diamond, ink::NOT_MET);
    } else {
        point(c, at, Point::Disc, ink::TEXT);
    }
}

fn usable(p: &FlowTestPicture) -> impl Iterator<Item = &TestPoint> {
    p.points.iter().filter(|t| t.minutes > 0.0 && t.observed.is_finite() && t.fitted.is_finite())
}

fn readings(c: &mut Canvas, p: &FlowTestPicture, x: &Scale, plot: Plot) {
    let y = Scale::linear(usable(p).flat_map(|t| [t.observed, t.fitted]), (plot.bottom, plot.top));
    axis::vertical(c, &y, plot);
    axis::horizontal(c, x, plot);
    axis::foot(c, plot);
    c.text_up(14.0, f64::midpoint(plot.top, plot.bottom), &p.y_name, Style::muted());
    let mut curve: Vec<(f64, f64)> = usable(p).map(|t| (x.at(t.minutes), y.at(t.fitted))).collect();
    curve.sort_by(|a, b| a.0.total_cmp(&b.0));
    c.polyline(&curve, ink::WATER, "stroke-width=\"1.8\"");
    for t in usable(p) {
        mark(c, t, (x.at(t.minutes), y.at(t.observed)));
    }
}

fn left_over(c: &mut Canvas, p: &FlowTestPicture, x: &Scale, plot: Plot) {
    let residuals = usable(p).map(|t| t.residual).filter(|r| r.is_finite());
    let y = Scale::linear(residuals.chain([-2.0, 2.0]), (plot.bottom, plot.top));
    let words = if is_narrow(plot.right) { said::LeftOver.text() } else { said::LeftOverPale.text() };
    c.text(plot.left, plot.top - 8.0, &words, Style::muted());
    c.rect((plot.left, y.at(-2.0)), (plot.right, y.at(2.0)), &format!("fill=\"{}\"", ink::FORECAST));
    axis::vertical(c, &y, plot);
    axis::horizontal(c, x, plot);
    c.line((plot.left, y.at(0.0)), (plot.right, y.at(0.0)), ink::LINE, "stroke-width=\"1.4\"");
    for t in usable(p).filter(|t| t.residual.is_finite()) {
        let at = (x.at(t.minutes), y.at(t.residual));
        c.line((at.0, y.at(0.0)), at, ink::TEXT, "stroke-width=\"1.4\"");
        mark(c, t, at);
    }
}
