//! How fast should the well flow? What the pipe adds against the water it costs to have less.
//!
//! In: flows in L/min with the metal that the pipe adds (ng/L), the water spent in a year (m³), a target.
//! Out: a [`Figure`]: one curve over the flow on a log axis; under each flow stands the water that it
//! spends in a year, so that both sides of the choice are read at one place. The present flow and the
//! lowest flow that keeps the target are marked. Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{Point, point};
use super::scale::{Scale, short};
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow};
use crate::text;
use message::{Shown, Spoken, well as said};
use quantity::format::significant;

/// A flow with what it brings and what it costs.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FlowChoice {
    /// Flow, L/min.
    pub flow_l_min: f64,
    /// Metal that the pipe adds, ng/L.
    pub ng_l: f64,
    /// Water spent in a year, m³.
    pub water_m3_year: f64,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ChoicePicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title: what the curve rests on.
    pub under: String,
    /// Name and unit of the metal: "lead from the pipe at most, ng/L".
    pub y_name: String,
    /// The curve, slow to fast.
    pub curve: Vec<FlowChoice>,
    /// The target, ng/L.
    pub target_ng_l: f64,
    /// The flow as it is.
    pub now: FlowChoice,
    /// The lowest flow that keeps the target.
    pub enough: FlowChoice,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &ChoicePicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let shown = |f: &FlowChoice| {
        let of = |x: f64, unit: &str| Shown::significant(x, 2, unit);
        (of(f.flow_l_min, "L/min"), of(f.ng_l, "ng/L"), of(f.water_m3_year, "m³"))
    };
    let (flow, added, water) = shown(&p.now);
    let now = said::ChoiceNow { flow, added, water }.text();
    let (flow, added, water) = shown(&p.enough);
    let enough = said::ChoiceEnough { flow, added, water }.text();
    let target = said::ChoiceTarget { target: Shown::significant(p.target_ng_l, 2, "ng/L") }.text();
    let entries = [
        Entry::point(Point::Disc, ink::TEXT, &now),
        Entry::point(Point::Diamond, ink::WATER, &enough),
        Entry::line(ink::NOT_MET, "stroke-dasharray=\"5 3\"", &target),
    ];
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let left = if is_narrow(width) { 56.0 } else { 70.0 };
    let plot = Plot { left, right: width - 20.0, top: y + 12.0, bottom: y + 212.0 };
    curve(&mut c, p, plot);
    c.finish(p.head.at_width(width), width, plot.bottom + 82.0)
}

fn curve(c: &mut Canvas, p: &ChoicePicture, plot: Plot) {
    let all = || p.curve.iter().chain([&p.now, &p.enough]);
    let x = Scale::log(all().map(|f| f.flow_l_min), (plot.left, plot.right));
    let y = Scale::log(all().map(|f| f.ng_l).chain([p.target_ng_l]), (plot.bottom, plot.top));
    let target = y.at(p.target_ng_l);
    c.rect(
        (plot.left, target),
        (plot.right, plot.bottom),
        &format!("fill=\"{}\" fill-opacity=\"0.35\"", ink::WATER_PALE),
    );
    axis::vertical(c, &y, plot);
    axis::horizontal(c, &x, plot);
    axis::foot(c, plot);
    water(c, p, &x, plot);
    c.text_up(14.0, f64::midpoint(plot.top, plot.bottom), &p.y_name, Style::muted());
    c.line((plot.left, target), (plot.right, target), ink::NOT_MET, "stroke-width=\"1.4\" stroke-dasharray=\"5 3\"");
    let points: Vec<(f64, f64)> = p.curve.iter().map(|f| (x.at(f.flow_l_min), y.at(f.ng_l))).collect();
    c.polyline(&points, ink::TEXT, "stroke-width=\"1.8\"");
    for (f, kind, colour) in [(&p.now, Point::Disc, ink::TEXT), (&p.enough, Point::Diamond, ink::WATER)] {
        let at = (x.at(f.flow_l_min), y.at(f.ng_l));
        c.line(at, (at.0, plot.bottom), colour, "stroke-dasharray=\"2 3\"");
        point(c, at, kind, colour);
    }
}

/// Under the flows the water that each spends in a year.
fn water(c: &mut Canvas, p: &ChoicePicture, x: &Scale, plot: Plot) {
    let per_flow = if p.now.flow_l_min > 0.0 { p.now.water_m3_year / p.now.flow_l_min } else { 0.0 };
    c.text(plot.right, plot.bottom + 33.0, &said::FlowAxis.text(), Style::muted().hung(Anchor::End));
    let mut free_from = f64::NEG_INFINITY;
    for t in x.ticks() {
        let label = short(two_digits(t.value * per_flow));
        let half = text::width(&label, 12.0, text::Weight::Regular) / 2.0;
        let at = x.at(t.value);
        if at - half >= free_from && at + half <= plot.right + 18.0 {
            c.text(at, plot.bottom + 54.0, &label, Style::muted().hung(Anchor::Middle));
            free_from = at + half + 8.0;
        }
    }
    c.text(plot.right, plot.bottom + 71.0, &said::WaterAYear.text(), Style::muted().hung(Anchor::End));
}

fn two_digits(x: f64) -> f64 {
    significant(x, 2).parse().unwrap_or(x)
}
