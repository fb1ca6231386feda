//! Shares of a whole as bars: one bar a share, its name before it and its number behind it.
//!
//! In: shares (0 to 1) with names and words, in groups under a name (a water), groups in panels under a heading (an
//! answer). Out: a [`Figure`]: panels side by side where they fit, else beneath each other. Every bar stands in a frame of
//! the whole, so that its length is read without an axis and in grey; an interval is a line with ends under the bar. What the
//! picture says is also said in words: [`BarsPicture::in_words`].
//! What it does not do: no share is computed here. Checked in `tests/figures_bars.rs`.

use super::axis;
use super::{Canvas, Figure, Head, Style, ink, is_narrow};
use crate::text::{self, Weight};

/// One share.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bar {
    /// What it is a share of the whole of.
    pub name: String,
    /// 0 to 1; what lies outside is cut.
    pub share: f64,
    /// 95 % interval, 0 to 1.
    pub interval: Option<(f64, f64)>,
    /// The share in words, with its interval.
    pub words: String,
}

/// Bars that belong together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Group {
    /// What they are of; may be empty.
    pub name: String,
    /// The bars, the longest first.
    pub bars: Vec<Bar>,
    /// What is said where there are none.
    pub instead: String,
}

/// Groups under one heading.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Panel {
    /// Its heading; may be empty.
    pub heading: String,
    /// Its groups.
    pub groups: Vec<Group>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BarsPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title; may be empty.
    pub under: String,
    /// Panels.
    pub panels: Vec<Panel>,
}

impl BarsPicture {
    /// All that is drawn, in words: what a reader who cannot see the bars hears.
    pub fn in_words(panels: &[Panel]) -> String {
        let group = |g: &Group| {
            let bars: Vec<String> = g.bars.iter().map(|b| format!("{} {}", b.name, b.words)).collect();
            let bars = if bars.is_empty() { g.instead.clone() } else { bars.join(", ") };
            if g.name.is_empty() { bars } else { format!("{}: {bars}", g.name) }
        };
        let panel = |p: &Panel| {
            let groups = p.groups.iter().map(group).collect::<Vec<_>>().join("; ");
            if p.heading.is_empty() { groups } else { format!("{}: {groups}", p.heading) }
        };
        panels.iter().map(panel).collect::<Vec<_>>().join(". ")
    }
}

/// Height of a bar, px.
const TALL: f64 = 10.0;
/// A bar shorter than this says nothing, px.
const LEAST: f64 = 90.0;
/// Between two panels, px.
const BETWEEN: f64 = 28.0;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &BarsPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let margin = 10.0;
    let y = axis::heading(&mut c, &p.head.title, &p.under, width) + 16.0;
    let across = if is_narrow(width) { 1.0 } else { p.panels.len().max(1) as f64 };
    let each = (width - 2.0 * margin - BETWEEN * (across - 1.0)) / across;
    let (mut top, mut bottom) = (y, y);
    for (n, panel) in p.panels.iter().enumerate() {
        let column = if across > 1.0 { n as f64 } else { 0.0 };
        let left = margin + column * (each + BETWEEN);
        bottom = bottom.max(drawn(&mut c, panel, (left, left + each), top));
        if across < 2.0 {
            top = bottom + 10.0;
        }
    }
    c.finish(p.head.at_width(width), width, bottom)
}

/// Draws a panel between two edges from a baseline down; answers where it ends.
fn drawn(c: &mut Canvas, panel: &Panel, (left, right): (f64, f64), y: f64) -> f64 {
    let bars = || panel.groups.iter().flat_map(|g| &g.bars);
    let widest = |of: &dyn Fn(&Bar) -> (String, Weight)| {
        bars()
            .map(|b| {
                let (t, w) = of(b);
                text::width(&t, 12.0, w)
            })
            .fold(0.0, f64::max)
    };
    let names = widest(&|b| (b.name.clone(), Weight::Regular)) + 10.0;
    let words = widest(&|b| (b.words.clone(), Weight::SemiBold)) + 10.0;
    let in_line = names + LEAST + words <= right - left;
    let mut y = c.wrapped((left, y), &panel.heading, Style::muted(), right - left);
    for group in &panel.groups {
        if !group.name.is_empty() {
            y = c.wrapped((left, y + 4.0), &group.name, Style::strong(), right - left);
        }
        if group.bars.is_empty() {
            y = c.wrapped((left, y), &group.instead, Style::muted(), right - left);
        }
        for b in &group.bars {
            y = if in_line {
                c.text(left, y, &b.name, Style::text());
                bar(c, b, (left + names, right - words), y - TALL + 1.0);
                c.text(right - words + 10.0, y, &b.words, Style::strong());
                y + 19.0
            } else {
                let room = right - left - text::width(&b.words, 12.0, Weight::SemiBold) - 10.0;
                let below = c.wrapped((left, y), &b.name, Style::text(), room.max(80.0));
                c.text(right, y, &b.words, Style::strong().hung(super::Anchor::End));
                let foot = below - Style::text().leading() + 5.0;
                bar(c, b, (left, right), foot);
                foot + TALL + 19.0
            };
        }
    }
    y
}

/// A bar in the frame of its whole.
fn bar(c: &mut Canvas, b: &Bar, (x0, x1): (f64, f64), top: f64) {
    let at = |share: f64| x0 + (x1 - x0) * if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
    c.rect((x0, top), (at(b.share), top + TALL), &format!("fill=\"{}\"", ink::WATER));
    c.rect((x0, top), (x1, top + TALL), &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1\"", ink::LINE));
    if let Some((low, high)) = b.interval {
        // Under the bar, which it would cover where it is wide.
        let (a, z, under) = (at(low), at(high), top + TALL + 3.0);
        c.line((a, under), (z, under), ink::TEXT, "stroke-width=\"1.6\"");
        for x in [a, z] {
            c.line((x, under - 2.0), (x, under + 2.0), ink::TEXT, "stroke-width=\"1.6\"");
        }
    }
}
