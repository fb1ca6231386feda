//! Axes, grid lines and the legend in words, drawn the same way in every figure.

use super::marks::{Point, point};
use super::scale::Scale;
use super::{Anchor, Canvas, Style, ink};
use crate::text;

/// The rectangle of a plot, px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plot {
    /// Left edge.
    pub left: f64,
    /// Right edge.
    pub right: f64,
    /// Top edge.
    pub top: f64,
    /// Bottom edge.
    pub bottom: f64,
}

/// Grid lines and numbers of a vertical axis, numbers to the left of the plot.
pub fn vertical(c: &mut Canvas, scale: &Scale, p: Plot) {
    for t in scale.ticks() {
        let y = scale.at(t.value);
        c.line((p.left, y), (p.right, y), ink::HAIR, "");
        c.text(p.left - 7.0, y + 4.0, &t.label, Style::muted().hung(Anchor::End));
    }
}

/// Grid lines and numbers of a horizontal axis, numbers under the plot; labels that would touch
/// are left out.
pub fn horizontal(c: &mut Canvas, scale: &Scale, p: Plot) {
    let mut free_from = f64::NEG_INFINITY;
    for t in scale.ticks() {
        let x = scale.at(t.value);
        c.line((x, p.top), (x, p.bottom), ink::HAIR, "");
        let half = text::width(&t.label, 12.0, text::Weight::Regular) / 2.0;
        if x - half >= free_from {
            c.text(x, p.bottom + 16.0, &t.label, Style::muted().hung(Anchor::Middle));
            free_from = x + half + 8.0;
        }
    }
}

/// The line that closes a plot at its foot.
pub fn foot(c: &mut Canvas, p: Plot) {
    c.line((p.left, p.bottom), (p.right, p.bottom), ink::LINE, "");
}

/// Title of a figure in lines, and under it a muted sentence; returns the y below both.
pub fn heading(c: &mut Canvas, title: &str, under: &str, width: f64) -> f64 {
    let style = Style::strong().sized(14.0);
    let y = c.wrapped((10.0, 22.0), title, style, width - 20.0);
    let y = c.wrapped((10.0, y), under, Style::muted(), width - 20.0);
    y - 4.0
}

/// Draws the sample of a legend centred at a point.
type Sample<'a> = Box<dyn Fn(&mut Canvas, f64, f64) + 'a>;

/// One entry of a legend.
pub struct Entry<'a> {
    /// Draws the sample centred at a point.
    pub sample: Sample<'a>,
    /// Width of the sample, px.
    pub width: f64,
    /// Its words.
    pub words: String,
}

impl Entry<'_> {
    /// An entry for a point of a group.
    pub fn point(kind: Point, colour: &'static str, words: impl Into<String>) -> Self {
        Entry { sample: Box::new(move |c, x, y| point(c, (x, y), kind, colour)), width: 9.0, words: words.into() }
    }

    /// An entry for a line; `more` as for [`Canvas::line`].
    pub fn line(colour: &'static str, more: &'static str, words: impl Into<String>) -> Self {
        Entry {
            sample: Box::new(move |c, x, y| c.line((x - 10.0, y), (x + 10.0, y), colour, more)),
            width: 20.0,
            words: words.into(),
        }
    }
}

/// Entries one after the other, wrapped; `y` is the first baseline. Returns the y below.
pub fn legend(c: &mut Canvas, entries: &[Entry], y: f64, width: f64) -> f64 {
    let (left, mut x, mut y) = (10.0, 10.0, y);
    for e in entries {
        let words = text::width(&e.words, 12.0, text::Weight::Regular);
        if x > left && x + e.width + 6.0 + words > width - 10.0 {
            x = left;
            y += 18.0;
        }
        (e.sample)(c, x + e.width / 2.0, y - 4.0);
        let room = width - 10.0 - (x + e.width + 6.0);
        let next = c.wrapped((x + e.width + 6.0, y), &e.words, Style::muted(), room.max(40.0));
        if words > room {
            y = next - Style::muted().leading();
        }
        x += e.width + 6.0 + words + 18.0;
    }
    if entries.is_empty() { y } else { y + 14.0 }
}
