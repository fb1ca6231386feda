//! The blanks of a run, kind by kind, against what they decide.
//!
//! In: net results of blanks in one unit, grouped (bottle, trip, field …), the critical value L_C
//! and the detection limit L_D on the same scale. Out: a [`Figure`]. The axis is linear near zero
//! and logarithmic beyond when a rare spike would press the rest together; the figure says so.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{Point, point};
use super::scale::{Scale, extent, short};
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow};
use crate::text;
use message::{Shown, Spoken, figure as label, word};

/// One blank.
#[derive(Debug, Clone, PartialEq)]
pub struct Blank {
    /// Name of the bottle or vial.
    pub name: String,
    /// Net result, in the figure's unit; may be negative.
    pub value: f64,
    /// A person took it out.
    pub excluded: bool,
    /// To be named in the figure: the bad one.
    pub noted: bool,
}

/// Blanks of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct BlankKind {
    /// "field blank".
    pub name: String,
    /// The blanks.
    pub blanks: Vec<Blank>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BlanksPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Unit of all values.
    pub unit: String,
    /// Kinds, innermost first.
    pub kinds: Vec<BlankKind>,
    /// Critical value.
    pub critical: Option<f64>,
    /// Detection limit.
    pub detection: Option<f64>,
}

const ROW: f64 = 46.0;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &BlanksPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let values = || {
        p.kinds.iter().flat_map(|k| k.blanks.iter().map(|b| b.value)).chain(p.critical).chain(p.detection).chain([0.0])
    };
    let (lo, hi) = extent(values()).unwrap_or((0.0, 1.0));
    // Linear as far as L_D, where the blanks decide; bent only where a spike eight times as far out would press the
    // rest together.
    let near = p.detection.or(p.critical).unwrap_or(hi / 3.0).abs();
    let bent = hi > 8.0 * near || lo < -8.0 * near;
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let top = y + 30.0;
    let plot = Plot {
        left: if is_narrow(width) { 100.0 } else { 150.0 },
        right: width - 24.0,
        top,
        bottom: top + ROW * p.kinds.len().max(1) as f64,
    };
    let x = if bent {
        Scale::bent(values(), near, (plot.left, plot.right))
    } else {
        Scale::linear(values(), (plot.left, plot.right))
    };
    axis::horizontal(&mut c, &x, plot);
    axis::foot(&mut c, plot);
    c.line((x.at(0.0), plot.top), (x.at(0.0), plot.bottom), ink::LINE, "");
    limit_lines(&mut c, p, &x, plot);
    for (i, k) in p.kinds.iter().enumerate() {
        row(&mut c, k, &x, plot.top + ROW * (i as f64 + 0.5));
    }
    let unit = if bent { label::BentAxis { unit: p.unit.as_str().into() }.text() } else { p.unit.clone() };
    c.text(plot.right, plot.bottom + 33.0, &unit, Style::muted().hung(Anchor::End));
    c.finish(p.head.at_width(width), width, plot.bottom + 42.0)
}

fn legend(p: &BlanksPicture) -> Vec<Entry<'static>> {
    let mut out = vec![
        Entry::point(Point::Disc, ink::TEXT, word::OneBlank.text()),
        Entry { sample: Box::new(mean_tick), width: 8.0, words: label::MeanOfKind.text() },
    ];
    if p.kinds.iter().flat_map(|k| &k.blanks).any(|b| b.excluded) {
        out.push(Entry::point(Point::Cross, ink::NOT_MET, label::TakenOut.text()));
    }
    out
}

fn mean_tick(c: &mut Canvas, x: f64, y: f64) {
    c.line((x, y - 9.0), (x, y + 9.0), ink::WATER, "stroke-width=\"2.4\"");
}

fn limit_lines(c: &mut Canvas, p: &BlanksPicture, x: &Scale, plot: Plot) {
    let mut end_of_last = f64::NEG_INFINITY;
    let shown = |v: f64| Shown::trimmed(v, 2, "");
    let critical = p.critical.map(|v| (v, label::CriticalValue { value: shown(v) }.text(), "stroke-width=\"1.6\""));
    let detection = p.detection.map(|v| {
        (v, label::DetectionLimit { value: shown(v) }.text(), "stroke-width=\"1.6\" stroke-dasharray=\"6 4\"")
    });
    for (v, words, dash) in critical.into_iter().chain(detection) {
        let px = x.at(v);
        c.line((px, plot.top), (px, plot.bottom), ink::NOT_KNOWN, dash);
        let half = text::width(&words, 12.0, text::Weight::Regular) / 2.0;
        let mut middle = px.clamp(plot.left + half, plot.right - half);
        let mut y = plot.top - 6.0;
        if middle - half < end_of_last + 10.0 {
            middle = (px + half).min(plot.right - half);
            y = if middle - half < end_of_last + 10.0 { plot.top - 20.0 } else { y };
        }
        c.text(middle, y, &words, Style::text().coloured(ink::NOT_KNOWN).hung(Anchor::Middle));
        end_of_last = middle + half;
    }
}

fn row(c: &mut Canvas, k: &BlankKind, x: &Scale, y: f64) {
    let lines = text::wrap(&k.name, 12.0, text::Weight::SemiBold, x.range().0 - 24.0);
    let mut at = y + 4.0 - 7.0 * lines.len() as f64;
    for l in &lines {
        c.text(x.range().0 - 14.0, at + 2.0, l, Style::strong().hung(Anchor::End));
        at += 14.0;
    }
    c.text(
        x.range().0 - 14.0,
        at + 1.0,
        &label::BlanksOfKind { blanks: message::count(k.blanks.len()) }.text(),
        Style::muted().sized(11.0).hung(Anchor::End),
    );
    // What a person took out is drawn, but does not count in the mean of its kind.
    let used: Vec<f64> = k.blanks.iter().filter(|b| !b.excluded).map(|b| b.value).collect();
    for (px, dy, b) in spread(&k.blanks, x) {
        let (kind, colour) = if b.excluded { (Point::Cross, ink::NOT_MET) } else { (Point::Disc, ink::TEXT) };
        point(c, (px, y + dy), kind, colour);
    }
    if used.len() > 1 {
        mean_tick(c, x.at(used.iter().sum::<f64>() / used.len() as f64), y);
    }
    let (left, right) = x.range();
    for b in k.blanks.iter().filter(|b| b.noted) {
        let words =
            format!("{}: {}", b.name, short(quantity::format::significant(b.value, 2).parse().unwrap_or(b.value)));
        let px = x.at(b.value);
        let places = [
            (px - 9.0, y + 4.0, Anchor::End),
            (px + 9.0, y + 4.0, Anchor::Start),
            (px, y - 10.0, Anchor::Middle),
            (px, y + 18.0, Anchor::Middle),
        ];
        let within = super::Area { x0: left, y0: y - ROW / 2.0, x1: right, y1: y + ROW / 2.0 };
        c.text_where_free(&places, &words, Style::text().sized(11.0).rimmed(), within);
    }
}

/// Points that would hide each other step aside, in a fixed order.
fn spread<'a>(blanks: &'a [Blank], x: &Scale) -> Vec<(f64, f64, &'a Blank)> {
    let mut order: Vec<&Blank> = blanks.iter().collect();
    order.sort_by(|a, b| a.value.total_cmp(&b.value).then_with(|| a.name.cmp(&b.name)));
    let mut out: Vec<(f64, f64, &Blank)> = vec![];
    for b in order {
        let px = x.at(b.value);
        let dy = [0.0, 7.0, -7.0, 14.0, -14.0]
            .into_iter()
            .find(|dy| out.iter().all(|(ox, ody, _)| (ox - px).abs() > 7.0 || (ody - dy).abs() > 3.0))
            .unwrap_or(0.0);
        out.push((px, dy, b));
    }
    out
}
