//! The air over the bottles: cabinet against open air, size by size, beside the limits of the classes.
//!
//! In: particles per m³ with exact bounds, by place and size; limits of the classes at that size. Out: a [`Figure`]:
//! one panel a size, one row a place, logarithmic axis; nothing counted stands as an open bar up to its bound.
//! No class is computed here. Checked in `tests/figures_attribution.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{self, Along};
use super::scale::Scale;
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow};
use crate::text;
use message::{Shown, Spoken, air as said};

/// One count.
#[derive(Debug, Clone, PartialEq)]
pub struct AirRow {
    /// "SL-2, cabinet".
    pub name: String,
    /// "2 min, 10 bottles": how long bottles stood open in it; may be empty.
    pub detail: String,
    /// Particles per m³.
    pub per_m3: f64,
    /// Lower and upper bound, per m³.
    pub bounds: (f64, f64),
}

/// One size.
#[derive(Debug, Clone, PartialEq)]
pub struct AirPanel {
    /// µm.
    pub size_um: f64,
    /// Rows.
    pub rows: Vec<AirRow>,
    /// Class and its limit, per m³.
    pub limits: Vec<(u8, f64)>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AirPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Panels by size.
    pub panels: Vec<AirPanel>,
    /// A closing sentence.
    pub caption: String,
}

const ROW: f64 = 40.0;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &AirPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let mut y = axis::legend(&mut c, &legend(p), y + 18.0, width) + 8.0;
    let rows = || p.panels.iter().flat_map(|q| &q.rows);
    let limits = p.panels.iter().flat_map(|q| q.limits.iter().map(|l| l.1));
    let values = rows().flat_map(|r| [r.per_m3, r.bounds.1, r.bounds.1 / 5.0]).chain(limits);
    let left = if is_narrow(width) { 112.0 } else { 178.0 };
    let x = Scale::log(values.filter(|v| v.is_finite()), (left, width - 24.0));
    for panel in &p.panels {
        y = one(&mut c, panel, &x, y + 14.0);
    }
    c.text(width - 24.0, y + 14.0, &said::Axis.text(), Style::muted().hung(Anchor::End));
    let y = c.wrapped((10.0, y + 36.0), &p.caption, Style::muted(), width - 20.0);
    c.finish(p.head.at_width(width), width, y)
}

fn legend(p: &AirPicture) -> Vec<Entry<'static>> {
    let any = |zero: bool| p.panels.iter().flat_map(|q| &q.rows).any(|r| (r.per_m3 > 0.0) != zero);
    let mut out = vec![];
    if any(false) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::measured(c, Along::X, y, (x - 11.0, x, x + 11.0))),
            width: 24.0,
            words: said::Counted.text(),
        });
    }
    if any(true) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::nothing_found(c, Along::X, y, (x - 10.0, x + 9.0), 4.0)),
            width: 20.0,
            words: said::NoneCounted.text(),
        });
    }
    out.push(Entry::line(ink::NOT_KNOWN, "stroke-dasharray=\"4 3\"", said::ClassLimit.text()));
    out
}

/// Room for the words of a row.
fn row_height(r: &AirRow, room: f64) -> f64 {
    let lines = |t: &str, size: f64| text::wrap(t, size, text::Weight::Regular, room).len() as f64;
    (16.0 * lines(&r.name, 12.0) + 15.0 * lines(&r.detail, 11.0) + 10.0).max(ROW)
}

fn one(c: &mut Canvas, panel: &AirPanel, x: &Scale, y: f64) -> f64 {
    let (left, right) = x.range();
    let size = Shown::trimmed(panel.size_um, 3, "µm");
    c.text(10.0, y + 4.0, &said::AndLarger { size }.text(), Style::strong());
    let heights: Vec<f64> = panel.rows.iter().map(|r| row_height(r, left - 22.0)).collect();
    let plot = Plot { left, right, top: y + 30.0, bottom: y + 30.0 + heights.iter().sum::<f64>() };
    axis::horizontal(c, x, plot);
    axis::foot(c, plot);
    // Every limit keeps its line; a number that would touch the one before it is left out.
    let mut free = f64::NEG_INFINITY;
    for (class, limit) in &panel.limits {
        let at = x.at(*limit);
        if *limit < x.domain().0 || *limit > x.domain().1 {
            continue;
        }
        c.line((at, plot.top), (at, plot.bottom), ink::NOT_KNOWN, "stroke-dasharray=\"4 3\"");
        let words = format!("{class}");
        let half = text::width(&words, 11.0, text::Weight::Regular) / 2.0;
        if at - half > free && at + half < right {
            let style = Style::text().coloured(ink::NOT_KNOWN).sized(11.0).hung(Anchor::Middle);
            c.text(at, plot.top - 4.0, &words, style);
            free = at + half + 4.0;
        }
    }
    c.text(
        left - 10.0,
        plot.top - 4.0,
        &said::Class.text(),
        Style::text().coloured(ink::NOT_KNOWN).sized(11.0).hung(Anchor::End),
    );
    let mut top = plot.top;
    for (r, height) in panel.rows.iter().zip(heights) {
        let middle = top + 0.5 * height;
        let end = c.wrapped((10.0, top + 16.0), &r.name, Style::text(), left - 22.0);
        top += height;
        c.wrapped((10.0, end - 1.0), &r.detail, Style::muted().sized(11.0), left - 22.0);
        // Zero counted is not zero: the bar reaches up to the exact bound.
        if r.per_m3 > 0.0 {
            marks::measured(c, Along::X, middle, (x.at(r.bounds.0), x.at(r.per_m3), x.at(r.bounds.1)));
        } else {
            marks::nothing_found(c, Along::X, middle, (left, x.at(r.bounds.1)), 6.0);
        }
    }
    plot.bottom + 22.0
}
