//! Wells as they stand in the ground, all to one scale of depth, a person beside each to the same scale.
//!
//! In: depths in m below ground (negative above), inner radii in m, names, the flow and the minutes in words. Out: a
//! [`Figure`]: of one well narrow enough to stand beside a text, of several side by side. Heights are to scale; widths
//! are not, for a pipe a hand wide would be a hair. Where nothing is on record the ground stays empty.
//! What it does not do: it draws no head and no lake; a spout and an arrow stand only where a flow was measured.
//! Checked in `tests/figures_standing.rs`.

use super::axis;
use super::well::{LayerDrawn, PipeDrawn, PipeKind, texture};
use super::{Anchor, Canvas, Figure, Head, Style, ink, px};
use crate::text;
use message::{Shown, Spoken};

/// One well.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Standing {
    /// Its name; empty where the title names it.
    pub name: String,
    /// Layers, from the top; may be empty.
    pub layers: Vec<LayerDrawn>,
    /// Stretches of the well; may be empty.
    pub pipes: Vec<PipeDrawn>,
    /// Does water run over? Measured, not supposed.
    pub flows: bool,
    /// What stands beneath it, each a line: flow, minutes in the pipe.
    pub beneath: Vec<String>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StandingPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title; may be empty.
    pub under: String,
    /// The wells from left to right.
    pub wells: Vec<Standing>,
}

/// Height of a person, m.
// Common practice of drawings: an adult of 1.7 m.
const PERSON_M: f64 = 1.7;
/// Height of the drawing, px.
const TALL: f64 = 230.0;
/// Room for the numbers of the depth, px.
const AXIS: f64 = 42.0;

/// Draws the figure.
pub fn draw(p: &StandingPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let named = p.wells.iter().any(|w| !w.name.is_empty());
    let top = y + if named { 34.0 } else { 16.0 };
    let foot = p.wells.iter().flat_map(depths).fold(1.0, f64::max);
    // Air for a person and for the highest pipe.
    let above = p.wells.iter().flat_map(depths).fold(-0.06 * foot, f64::min).min(-PERSON_M - 0.5);
    let scale = Depth { above, foot, top };
    let each = (width - AXIS - 8.0) / p.wells.len().max(1) as f64;
    for metres in scale.ticks() {
        let y = scale.at(metres);
        c.line((AXIS - 5.0, y), (AXIS, y), ink::LINE, "");
        let label = Shown::trimmed(metres, 4, if metres == 0.0 { "m" } else { "" }).text();
        c.text(AXIS - 8.0, y + 4.0, &label, Style::muted().hung(Anchor::End));
    }
    let mut bottom = top + TALL + 16.0;
    for (i, w) in p.wells.iter().enumerate() {
        let left = AXIS + i as f64 * each;
        let right = left + each - if p.wells.len() > 1 { 14.0 } else { 2.0 };
        if !w.name.is_empty() {
            c.text(left, y + 16.0, &w.name, Style::strong());
        }
        ground(&mut c, w, &scale, (left, right));
        pipe(&mut c, w, &scale, (left, right));
        let mut y = top + TALL + 18.0;
        for line in &w.beneath {
            y = c.wrapped((left, y), line, Style::text(), right - left);
        }
        bottom = bottom.max(y);
    }
    c.finish(p.head.at_width(width), width, bottom)
}

/// Depth as drawn: as far as the deepest well, no farther.
struct Depth {
    above: f64,
    foot: f64,
    top: f64,
}

impl Depth {
    /// Place of a depth, px.
    fn at(&self, metres: f64) -> f64 {
        self.top + TALL * (metres - self.above) / (self.foot - self.above)
    }

    /// Round depths from the ground down, four to eight of them, m.
    fn ticks(&self) -> Vec<f64> {
        let step =
            [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0].into_iter().find(|s| self.foot / s <= 7.0);
        let step = step.unwrap_or(1000.0);
        (0..=7).map(|i| f64::from(i) * step).filter(|m| *m <= self.foot).collect()
    }
}

fn depths(w: &Standing) -> impl Iterator<Item = f64> + '_ {
    let layers = w.layers.iter().flat_map(|l| [l.from_m, l.to_m]);
    layers.chain(w.pipes.iter().flat_map(|s| [s.from_m, s.to_m])).filter(|d| d.is_finite())
}

/// Place of the pipe in its column, of the width.
const PIPE_AT: f64 = 0.28;

fn ground(c: &mut Canvas, w: &Standing, scale: &Depth, (left, right): (f64, f64)) {
    let foot = depths(w).fold(0.0, f64::max);
    let (a, b) = (scale.at(0.0), scale.at(foot));
    for (i, l) in w.layers.iter().enumerate() {
        let (y0, y1) = (scale.at(l.from_m), scale.at(l.to_m));
        let tint = if i % 2 == 0 { "#f1ece0" } else { ink::FORECAST };
        c.rect((left, y0), (right, y1), &format!("fill=\"{tint}\""));
        let marks = texture(&l.name.to_lowercase(), (left, y0), (right, y1));
        if !marks.is_empty() {
            let look = "fill=\"none\" stroke-width=\"1.1\" stroke-linecap=\"round\"";
            c.shape(&marks, &format!("{look} stroke=\"{}\"", ink::FORECAST_EDGE));
        }
        c.line((left, y1), (right, y1), ink::FORECAST_EDGE, "");
    }
    if w.layers.is_empty() {
        let frame = format!("fill=\"none\" stroke=\"{}\" stroke-dasharray=\"3 3\"", ink::LINE);
        c.rect((left, a), (right, b.max(a + 1.0)), &frame);
    }
    c.line((left - 5.0, a), (right, a), ink::TEXT, "stroke-width=\"1.8\"");
    names(c, w, scale, (left, right));
}

/// Names of the layers, where there is room for them.
fn names(c: &mut Canvas, w: &Standing, scale: &Depth, (left, right): (f64, f64)) {
    let x = left + PIPE_AT * (right - left) + 18.0;
    for l in &w.layers {
        let (y0, y1) = (scale.at(l.from_m), scale.at(l.to_m));
        let lines = text::wrap(&l.name, 12.0, text::Weight::Regular, right - x - 4.0);
        let tall = lines.len() as f64 * Style::text().leading();
        let room = right - x - 4.0;
        // A name is not divided within a word.
        let fits = l.name.split(' ').all(|word| text::width(word, 12.0, text::Weight::Regular) <= room);
        if y1 - y0 < tall + 4.0 || !fits {
            continue;
        }
        let first = f64::midpoint(y0, y1) - tall / 2.0 + 12.0;
        for (i, line) in lines.iter().enumerate() {
            c.text(x, first + i as f64 * Style::text().leading(), line, Style::text().rimmed());
        }
    }
}

fn pipe(c: &mut Canvas, w: &Standing, scale: &Depth, (left, right): (f64, f64)) {
    let x = left + PIPE_AT * (right - left);
    let ground = scale.at(0.0);
    let top = w.pipes.iter().map(|s| s.from_m).fold(f64::INFINITY, f64::min);
    for s in &w.pipes {
        let (y0, y1) = (scale.at(s.from_m), scale.at(s.to_m));
        c.rect((x - 5.0, y0), (x + 5.0, y1), &format!("fill=\"{}\"", ink::PAPER));
        let look = match s.kind {
            PipeKind::Casing => "stroke-width=\"2\"",
            PipeKind::Screen => "stroke-width=\"2\" stroke-dasharray=\"2.4 2.4\"",
            PipeKind::Open => "stroke-width=\"1\" stroke-dasharray=\"1 3\"",
        };
        for x in [x - 5.0, x + 5.0] {
            c.line((x, y0), (x, y1), ink::TEXT, look);
        }
        if s.kind == PipeKind::Screen {
            let mut y = y0 + 3.0;
            while y < y1 - 1.0 {
                c.line((x - 4.0, y), (x + 4.0, y), ink::TEXT, "");
                y += 4.0;
            }
        }
    }
    if w.flows && !w.pipes.is_empty() {
        // The spout and the arrow of the water that falls from it; the water goes up in the pipe.
        let y = scale.at(top).min(ground - 6.0) + 3.0;
        c.line((x + 5.0, y), (x + 20.0, y), ink::WATER, "stroke-width=\"3\"");
        arrow(c, (x + 20.0, ground - 1.0), y, ink::WATER);
        let foot = scale.at(w.pipes.iter().map(|s| s.to_m).fold(0.0, f64::max));
        let middle = f64::midpoint(ground, foot);
        c.line((x, middle + 34.0), (x, middle), ink::WATER, "stroke-width=\"2\"");
        let tip = format!("M{} {}l-3.6 8h7.2Z", px(x), px(middle - 6.0));
        c.shape(&tip, &format!("fill=\"{}\"", ink::WATER));
    }
    person(c, (left + 0.62 * (right - left), right), ground, scale.at(-PERSON_M));
}

/// Water that falls from `from` to a point.
fn arrow(c: &mut Canvas, (x, y): (f64, f64), from: f64, colour: &str) {
    c.line((x, from), (x, y - 5.0), colour, "stroke-width=\"2\"");
    c.shape(&format!("M{} {}l-4.5 -7h9Z", px(x), px(y)), &format!("fill=\"{colour}\""));
}

/// A person from the ground up, px, named where there is room.
fn person(c: &mut Canvas, (x, right): (f64, f64), ground: f64, top: f64) {
    let tall = ground - top;
    let head = (0.13 * tall).max(1.2);
    c.circle((x, top + head), head, &format!("fill=\"{}\"", ink::TEXT));
    c.line((x, top + 2.0 * head), (x, ground), ink::TEXT, "stroke-width=\"2.2\" stroke-linecap=\"round\"");
    let words = message::paper::Person.text();
    if x + 8.0 + text::width(&words, 12.0, text::Weight::Regular) <= right {
        c.text(x + 8.0, ground - 5.0, &words, Style::muted());
    }
}
