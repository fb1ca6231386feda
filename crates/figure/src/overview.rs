//! One analyte over wells and trips: values with intervals, non-detects as what they are.
//!
//! In: results as [`Amount`]s in one unit, coverage factor, verdict. Out: a [`Figure`] with a row for
//! each result: a point with its interval, or an open bar from zero (from the foot of a log axis) to
//! the limit; the verdict as shape and word at the end of the row. Rows keep the order given.
//! The axis is logarithmic when the results span more than a factor of thirty and all are positive.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{self, Along, Point, point};
use super::scale::Scale;
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow};
use crate::number::Printed;
use crate::text;
use crate::verdict::Word;
use message::{Spoken, figure as label};
use quantity::Amount;

/// One result.
#[derive(Debug, Clone, PartialEq)]
pub struct OverviewRow {
    /// Group: the well. A heading stands over the first row of a group.
    pub group: String,
    /// The row: bottle, date.
    pub name: String,
    /// The result, in the figure's unit.
    pub amount: Amount,
    /// Coverage factor of the interval.
    pub k: f64,
    /// What stands for the number, where the amount bounds something that was found: "at most 2.75".
    pub bound: Option<String>,
    /// Verdict.
    pub word: Option<Word>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OverviewPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Unit of all results.
    pub unit: String,
    /// Results.
    pub rows: Vec<OverviewRow>,
    /// A published limit to show: its value and words.
    pub limit: Option<(f64, String)>,
}

/// Where things stand in a row: names and numbers beside the bar, or above it on a telephone.
struct Layout {
    width: f64,
    left: f64,
    right: f64,
    row: f64,
}

impl Layout {
    fn of(width: f64) -> Self {
        if is_narrow(width) {
            Self { width, left: 14.0, right: width - 14.0, row: 42.0 }
        } else {
            Self { width, left: 160.0, right: width - 216.0, row: 22.0 }
        }
    }
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &OverviewPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let l = Layout::of(width);
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let groups = p.rows.iter().enumerate().filter(|(i, r)| *i == 0 || p.rows[i - 1].group != r.group).count();
    let top = y + if p.limit.is_some() { 30.0 } else { 14.0 };
    let height = l.row * p.rows.len().max(1) as f64 + 20.0 * groups as f64 + 6.0;
    let plot = Plot { left: l.left, right: l.right, top, bottom: top + height };
    let x = scale(p, plot);
    axis::horizontal(&mut c, &x, plot);
    axis::foot(&mut c, plot);
    if let Some((v, words)) = &p.limit {
        let at = x.at(*v);
        c.line((at, plot.top), (at, plot.bottom), ink::NOT_MET, "stroke-dasharray=\"7 4\" stroke-width=\"1.4\"");
        let half = text::width(words, 12.0, text::Weight::Regular) / 2.0;
        let middle = at.clamp(10.0 + half, (width - 10.0 - half).max(10.0 + half));
        c.text(middle, plot.top - 6.0, words, Style::text().coloured(ink::NOT_MET).hung(Anchor::Middle));
    }
    let mut y = plot.top;
    for (i, r) in p.rows.iter().enumerate() {
        if i == 0 || p.rows[i - 1].group != r.group {
            y += 20.0;
            let room = if is_narrow(width) { width - 20.0 } else { l.left - 20.0 };
            c.text(10.0, y - 4.0, &shortened(&r.group, room), Style::strong());
            c.line((10.0, y - 17.0), (width - 10.0, y - 17.0), ink::HAIR, "");
        }
        y += l.row;
        row(&mut c, r, &x, (&l, y - 8.0));
    }
    c.text(plot.right, plot.bottom + 33.0, &p.unit, Style::muted().hung(Anchor::End));
    c.finish(p.head.at_width(width), width, plot.bottom + 42.0)
}

fn legend(p: &OverviewPicture) -> Vec<Entry<'static>> {
    let has = |f: fn(&Amount) -> bool| p.rows.iter().any(|r| f(&r.amount));
    let mut out = vec![];
    if has(|a| matches!(a, Amount::Measured(_))) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::measured(c, Along::X, y, (x - 11.0, x, x + 11.0))),
            width: 24.0,
            words: label::ValueWithU.text(),
        });
    }
    if has(|a| matches!(a, Amount::Stated(_))) {
        out.push(Entry::point(Point::Diamond, ink::TEXT, label::ValueWithoutU.text()));
    }
    if has(|a| matches!(a, Amount::Below(_))) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::nothing_found(c, Along::X, y, (x - 10.0, x + 9.0), 4.0)),
            width: 20.0,
            words: label::UpToBound.text(),
        });
    }
    out
}

fn span(r: &OverviewRow) -> (f64, f64) {
    match &r.amount {
        Amount::Measured(m) => (m.value - r.k * m.u, m.value + r.k * m.u),
        Amount::Stated(s) => (s.value, s.value),
        Amount::Below(b) | Amount::Above(b) => (b.limit, b.limit),
    }
}

fn scale(p: &OverviewPicture, plot: Plot) -> Scale {
    let px = (plot.left, plot.right);
    let limit = p.limit.as_ref().map(|l| l.0);
    let ends: Vec<f64> = p.rows.iter().flat_map(|r| [span(r).0, span(r).1]).chain(limit).collect();
    let values: Vec<f64> = p.rows.iter().map(|r| r.amount.value().unwrap_or(span(r).1)).chain(limit).collect();
    let hi = values.iter().copied().fold(0.0, f64::max);
    let lo = values.iter().copied().fold(hi, f64::min);
    if lo > 0.0 && hi / lo > 30.0 {
        // Intervals that reach zero run to the foot, half a decade under the smallest value.
        Scale::log(ends.iter().copied().filter(|v| *v >= lo / 4.0).chain([lo / 3.0]), px)
    } else {
        Scale::linear(ends.into_iter().chain([0.0]), px)
    }
}

fn row(c: &mut Canvas, r: &OverviewRow, x: &Scale, (l, y): (&Layout, f64)) {
    words(c, r, l, y);
    let foot = x.at(if x.domain().0 <= 0.0 { 0.0 } else { x.domain().0 });
    match &r.amount {
        Amount::Measured(m) => {
            let (lo, hi) = span(r);
            marks::measured(c, Along::X, y, (x.at(lo), x.at(m.value), x.at(hi)));
        }
        Amount::Stated(s) => point(c, (x.at(s.value), y), Point::Diamond, ink::TEXT),
        Amount::Below(b) => marks::nothing_found(c, Along::X, y, (foot, x.at(b.limit)), 4.5),
        Amount::Above(b) => marks::nothing_found(c, Along::X, y, (x.range().1, x.at(b.limit)), 4.5),
    }
}

fn words(c: &mut Canvas, r: &OverviewRow, l: &Layout, y: f64) {
    let number = r.bound.clone().unwrap_or_else(|| Printed::of(&r.amount, r.k).number());
    if !is_narrow(l.width) {
        c.text(l.left - 12.0, y + 4.0, &shortened(&r.name, l.left - 24.0), Style::text().hung(Anchor::End));
        c.text(l.right + 14.0, y + 4.0, &number, Style::text());
        if let Some(w) = r.word {
            let style = Style::strong().coloured(w.colour());
            c.text(l.right + 122.0, y + 4.0, w.sign(), style);
            c.text(l.right + 138.0, y + 4.0, &w.said().text(), style);
        }
        return;
    }
    let y = y - 14.0;
    let mut end = l.right;
    if let Some(w) = r.word {
        let state = format!("{} {}", w.sign(), w.said().text());
        c.text(end, y, &state, Style::strong().coloured(w.colour()).hung(Anchor::End).rimmed());
        end -= text::width(&state, 12.0, text::Weight::SemiBold) + 10.0;
    }
    c.text(end, y, &number, Style::text().hung(Anchor::End).rimmed());
    end -= text::width(&number, 12.0, text::Weight::Regular) + 10.0;
    c.text(l.left, y, &shortened(&r.name, (end - l.left).max(20.0)), Style::text().rimmed());
}

/// A name cut to its room with an ellipsis: the full name stands in the table.
fn shortened(name: &str, room: f64) -> String {
    let fits = |s: &str| text::width(s, 12.0, text::Weight::SemiBold) <= room;
    if fits(name) {
        return name.into();
    }
    let mut letters: Vec<char> = name.chars().collect();
    while letters.pop().is_some() {
        let cut: String = letters.iter().collect::<String>() + "…";
        if fits(&cut) {
            return cut;
        }
    }
    "…".into()
}
