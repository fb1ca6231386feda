//! Solids against the water: saturation indices as intervals around zero, each with its word.
//!
//! In: for each solid index, interval, word; alternative answers where constants disagree. Out: a
//! [`Figure`] with a row a solid: the interval with its value, an open dashed bar where a non-detect
//! leaves only an upper bound, an open diamond for each alternative answer, and at the end of the row the
//! word with its shape: ▲ over, ▼ under, ● at saturation, ? cannot tell. Intervals that leave the
//! axis end at its edge.
//! What it does not do: it does not decide the word. Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{self, Along, Point, point};
use super::scale::Scale;
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow};
use crate::text;
use message::{Message, Spoken, chemistry, word};

/// One solid.
#[derive(Debug, Clone, PartialEq)]
pub struct SolidRow {
    /// Name.
    pub name: String,
    /// log10(IAP/K).
    pub index: f64,
    /// 95 % interval; the lower end is −∞ where only an upper bound is known.
    pub interval: (f64, f64),
    /// over, under, at saturation, cannot tell.
    pub word: String,
    /// Answers with alternative constants.
    pub alternatives: Vec<f64>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SaturationPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Solids from top to bottom.
    pub rows: Vec<SolidRow>,
}

/// A word as it is said.
pub fn said(word: &str) -> Message {
    match word {
        "over" => word::Over.into(),
        "under" => chemistry::Under.into(),
        "at saturation" => word::AtSaturation.into(),
        _ => word::CannotTell.into(),
    }
}

/// Sign of a word.
pub fn sign(word: &str) -> &'static str {
    match word {
        "over" => "▲",
        "under" => "▼",
        "at saturation" => "●",
        _ => "?",
    }
}

fn colour(word: &str) -> &'static str {
    match word {
        "over" | "under" => ink::TEXT,
        "at saturation" => ink::MET,
        _ => ink::NOT_KNOWN,
    }
}

/// The axis never runs further out: beyond it only the side matters.
const FURTHEST: f64 = 8.0;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &SaturationPicture, width: f64) -> Figure {
    let narrow = is_narrow(width);
    let (left, right, step) = if narrow { (14.0, width - 14.0, 40.0) } else { (190.0, width - 130.0, 23.0) };
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let plot = Plot { left, right, top: y + 24.0, bottom: y + 30.0 + step * p.rows.len().max(1) as f64 };
    let ends = p
        .rows
        .iter()
        .flat_map(|r| [r.index, r.interval.0, r.interval.1])
        .chain(p.rows.iter().flat_map(|r| r.alternatives.clone()));
    let scale = Scale::linear(
        ends.filter(|v| v.is_finite()).map(|v| v.clamp(-FURTHEST, FURTHEST)).chain([-1.0, 1.0]),
        (left, right),
    );
    axis::horizontal(&mut c, &scale, plot);
    axis::foot(&mut c, plot);
    let zero = scale.at(0.0);
    c.line((zero, plot.top - 6.0), (zero, plot.bottom), ink::TEXT, "stroke-width=\"1.4\"");
    c.text(zero - 8.0, plot.top - 10.0, &chemistry::Dissolves.text(), Style::muted().hung(Anchor::End));
    c.text(zero + 8.0, plot.top - 10.0, &chemistry::MayForm.text(), Style::muted());
    for (i, r) in p.rows.iter().enumerate() {
        let y = plot.top + step * (i as f64 + 1.0) - 6.0;
        row(&mut c, r, (&scale, y));
        words(&mut c, r, (width, plot), y);
    }
    c.text(0.5 * (left + right), plot.bottom + 33.0, &chemistry::IndexAxis.text(), Style::muted().hung(Anchor::Middle));
    c.finish(p.head.at_width(width), width, plot.bottom + 42.0)
}

fn legend(p: &SaturationPicture) -> Vec<Entry<'static>> {
    let mut out = vec![];
    if p.rows.iter().any(|r| r.interval.0.is_finite()) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::measured(c, Along::X, y, (x - 11.0, x, x + 11.0))),
            width: 24.0,
            words: chemistry::IndexWithInterval.text(),
        });
    }
    if p.rows.iter().any(|r| !r.interval.0.is_finite()) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::nothing_found(c, Along::X, y, (x - 10.0, x + 9.0), 4.0)),
            width: 20.0,
            words: chemistry::BoundFromNonDetect.text(),
        });
    }
    if p.rows.iter().any(|r| !r.alternatives.is_empty()) {
        out.push(Entry::point(Point::Diamond, ink::NOT_KNOWN, chemistry::AlternativeAnswer.text()));
    }
    out
}

fn row(c: &mut Canvas, r: &SolidRow, (scale, y): (&Scale, f64)) {
    let (lo, hi) = r.interval;
    if lo.is_finite() {
        marks::measured(c, Along::X, y, (scale.at(lo), scale.at(r.index), scale.at(hi)));
    } else {
        marks::nothing_found(c, Along::X, y, (scale.range().0, scale.at(hi)), 4.5);
    }
    for v in r.alternatives.iter().filter(|v| v.is_finite()) {
        point(c, (scale.at(*v), y), Point::Diamond, ink::NOT_KNOWN);
    }
}

fn words(c: &mut Canvas, r: &SolidRow, (width, plot): (f64, Plot), y: f64) {
    let state = format!("{} {}", sign(&r.word), said(&r.word).text());
    let style = Style::strong().coloured(colour(&r.word));
    if !is_narrow(width) {
        c.text(plot.left - 12.0, y + 4.0, &cut(&r.name, plot.left - 22.0), Style::text().hung(Anchor::End));
        c.text(plot.right + 14.0, y + 4.0, &state, style);
        return;
    }
    let room = plot.right - plot.left - text::width(&state, 12.0, text::Weight::SemiBold) - 12.0;
    c.text(plot.left, y - 12.0, &cut(&r.name, room), Style::text().rimmed());
    c.text(plot.right, y - 12.0, &state, style.hung(Anchor::End).rimmed());
}

/// A name cut to its room with an ellipsis.
pub(super) fn cut(name: &str, room: f64) -> String {
    let fits = |s: &str| text::width(s, 12.0, text::Weight::SemiBold) <= room;
    if fits(name) {
        return name.into();
    }
    let mut letters: Vec<char> = name.chars().collect();
    while letters.pop().is_some() {
        let shorter = letters.iter().collect::<String>() + "…";
        if fits(&shorter) {
            return shorter;
        }
    }
    "…".into()
}
