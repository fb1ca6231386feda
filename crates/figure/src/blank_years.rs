//! Every blank over the years beside the wells, on one time axis: the picture of the first day. A rising blank looks
//! like a rising metal.
//!
//! In: values of wells, blanks by kind, and for lot, person, acid and cabinet the dates at which each was in use. Out: a
//! [`Figure`]: wells above, blanks below them (both logarithmic; what is at or below zero stands at the foot), then a
//! lane for each lot, person, acid and cabinet. Checked in `tests/figures_attribution.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{Point, point};
use super::scale::Scale;
use super::time_series::{seconds, ticks, years};
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow};
use crate::text;
use message::{Spoken, blank_years as said};

/// A group of points with one shape.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// "SL-2", "field blank".
    pub name: String,
    /// Decimal year and value.
    pub points: Vec<(f64, f64)>,
}

/// What was in use when.
#[derive(Debug, Clone, PartialEq)]
pub struct Lane {
    /// "lot".
    pub what: String,
    /// "14".
    pub name: String,
    /// Decimal years of blanks with it.
    pub years: Vec<f64>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BlankYears {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Wells, in `unit`.
    pub wells: Vec<Group>,
    /// Unit of the wells.
    pub unit: String,
    /// Blanks, pg per bottle; at most five kinds have a shape of their own.
    pub blanks: Vec<Group>,
    /// Lanes.
    pub lanes: Vec<Lane>,
    /// A closing sentence.
    pub caption: String,
}

const SHAPES: [(Point, &str); 5] = [
    (Point::Disc, ink::TEXT),
    (Point::Ring, ink::WATER),
    (Point::Square, ink::NOT_KNOWN),
    (Point::Triangle, ink::MET),
    (Point::Diamond, ink::TEXT),
];
const PANEL: f64 = 130.0;
const LANE: f64 = 18.0;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &BlankYears, width: f64) -> Figure {
    let mut c = Canvas::new();
    let mut y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let left = if is_narrow(width) { 92.0 } else { 130.0 };
    // One axis of time for wells, blanks and lanes: a rising metal is read against the blanks of the same days.
    let all = p.wells.iter().chain(&p.blanks).flat_map(|g| g.points.iter().map(|q| q.0));
    let times = all.chain(p.lanes.iter().flat_map(|l| l.years.iter().copied())).filter(|t| t.is_finite());
    let x = Scale::time(times.map(seconds), (left + 8.0, width - 14.0));
    let plot = |top: f64, height: f64| Plot { left, right: width - 14.0, top, bottom: top + height };
    let wells_axis = said::WellsAxis { unit: (&p.unit).into() };
    for (groups, words) in [(&p.wells, wells_axis.text()), (&p.blanks, said::BlanksAxis.text())] {
        if groups.is_empty() {
            continue;
        }
        y = axis::legend(&mut c, &legend(groups), y + 18.0, width);
        c.text(10.0, y + 8.0, &words, Style::muted());
        let q = plot(y + 18.0, PANEL);
        panel(&mut c, groups, &x, q);
        y = q.bottom + 6.0;
    }
    let top = y + 10.0;
    let mut lanes_end = top;
    for l in &p.lanes {
        lanes_end += LANE;
        let name = cut(&format!("{} {}", l.what, l.name), left - 16.0);
        c.text(left - 8.0, lanes_end - 4.0, &name, Style::text().sized(11.0).hung(Anchor::End));
        let at: Vec<f64> = l.years.iter().filter(|t| t.is_finite()).map(|t| x.at(seconds(*t))).collect();
        let (a, b) = at.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |e, v| (e.0.min(*v), e.1.max(*v)));
        if a <= b {
            c.rect((a - 3.0, lanes_end - 13.0), (b + 3.0, lanes_end - 3.0), &format!("fill=\"{}\"", ink::FORECAST));
        }
        for v in at {
            c.line((v, lanes_end - 13.0), (v, lanes_end - 3.0), ink::TEXT, "stroke-width=\"1.4\"");
        }
    }
    let foot = Plot { left, right: width - 14.0, top, bottom: lanes_end + 4.0 };
    years(&mut c, &x, foot, true);
    axis::foot(&mut c, foot);
    let y = c.wrapped((10.0, foot.bottom + 38.0), &p.caption, Style::muted(), width - 20.0);
    c.finish(p.head.at_width(width), width, y)
}

fn legend(groups: &[Group]) -> Vec<Entry<'static>> {
    groups
        .iter()
        .enumerate()
        .map(|(i, g)| {
            let (shape, colour) = SHAPES[i % SHAPES.len()];
            Entry::point(shape, colour, &g.name)
        })
        .collect()
}

fn panel(c: &mut Canvas, groups: &[Group], x: &Scale, plot: Plot) {
    let values = || groups.iter().flat_map(|g| g.points.iter().map(|q| q.1)).filter(|v| v.is_finite());
    let value = Scale::log(values().filter(|v| *v > 0.0), (plot.bottom - 6.0, plot.top));
    years(c, x, plot, false);
    ticks(c, &value, plot);
    axis::foot(c, plot);
    for (i, g) in groups.iter().enumerate() {
        let (shape, colour) = SHAPES[i % SHAPES.len()];
        for (t, v) in g.points.iter().filter(|q| q.0.is_finite() && q.1.is_finite()) {
            let y = if *v > 0.0 { value.at(*v) } else { plot.bottom };
            point(c, (x.at(seconds(*t)), y), shape, colour);
        }
    }
}

/// A name that fits its room, cut with an ellipsis.
fn cut(name: &str, room: f64) -> String {
    let fits = |t: &str| text::width(t, 11.0, text::Weight::Regular) <= room;
    if fits(name) {
        return name.into();
    }
    let letters: Vec<char> = name.chars().collect();
    (1..letters.len())
        .rev()
        .map(|n| letters[..n].iter().collect::<String>() + "…")
        .find(|t| fits(t))
        .unwrap_or_default()
}
