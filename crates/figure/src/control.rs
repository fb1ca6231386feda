//! Blanks over the years against the limits that their own first years set.
//!
//! In: blanks with decimal years in one unit, centre, warning and action limit, the end of the
//! baseline, all already computed. Out: a [`Figure`]. The axis is linear, and logarithmic where a
//! rare high blank would press the rest together (with negative blanks only beyond the action
//! limit); the figure says so. A
//! non-detect is an open bar from zero to its limit. Above the action limit: a filled triangle,
//! above the warning limit an open diamond, so that grey print keeps the difference.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{self, Along, Point, point};
use super::scale::{Scale, extent};
use super::time_series::{self, Dated, Seen, seconds};
use super::{Canvas, Figure, Head, Style, ink};
use message::{Shown, Spoken, figure as label, word};

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ControlPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Unit of everything.
    pub unit: String,
    /// The blanks in order of time.
    pub points: Vec<Dated>,
    /// How many of them, from the first, set the limits.
    pub baseline: usize,
    /// Median of the baseline; none where it lies below its lowest known value.
    pub centre: Option<f64>,
    /// Upper warning limit.
    pub warning: Option<f64>,
    /// Upper action limit.
    pub action: Option<f64>,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &ControlPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let top = y + 26.0;
    let plot = Plot { left: 62.0, right: width - 14.0, top, bottom: top + 200.0 };
    let values =
        || p.points.iter().map(|d| d.seen.bound()).chain(p.centre).chain(p.warning).chain(p.action).chain([0.0]);
    let (lo, hi) = extent(values()).unwrap_or((0.0, 1.0));
    let near = p.action.or(p.warning).unwrap_or(hi / 3.0).abs();
    let far = hi > 6.0 * near || lo < -6.0 * near;
    let px = (plot.bottom, plot.top);
    let unit = p.unit.as_str();
    let (value, axis_words) = if far && lo < 0.0 {
        (Scale::bent(values(), near, px), label::BentAxis { unit: unit.into() }.text())
    } else if far {
        // The lowest limit keeps a bar that can be seen.
        let lowest = values().filter(|v| *v > 0.0).fold(f64::INFINITY, f64::min);
        (Scale::log(values().chain([lowest / 2.0]), px), label::LogAxisFromZero { unit: unit.into() }.text())
    } else {
        (Scale::linear(values(), px), unit.to_string())
    };
    let x = Scale::time(p.points.iter().map(|d| seconds(d.time_years)), (plot.left + 8.0, plot.right - 8.0));
    if let Some(last) = p.baseline.checked_sub(1).and_then(|i| p.points.get(i)) {
        let end = x.at(seconds(last.time_years)) + 5.0;
        c.rect((plot.left, plot.top), (end, plot.bottom), &format!("fill=\"{}\" fill-opacity=\"0.45\"", ink::FORECAST));
    }
    time_series::years(&mut c, &x, plot, true);
    time_series::ticks(&mut c, &value, plot);
    c.text(10.0, plot.top - 10.0, &axis_words, Style::muted());
    c.line((plot.left, value.at(0.0)), (plot.right, value.at(0.0)), ink::LINE, "");
    for (v, _, colour, dash) in limits(p) {
        c.line((plot.left, value.at(v)), (plot.right, value.at(v)), colour, dash);
    }
    for d in &p.points {
        mark(&mut c, p, *d, (&x, &value));
    }
    c.finish(p.head.at_width(width), width, plot.bottom + 30.0)
}

fn legend(p: &ControlPicture) -> Vec<Entry<'static>> {
    let any = |f: &dyn Fn(Seen) -> bool| p.points.iter().any(|d| f(d.seen));
    let above = |limit: Option<f64>| move |s: Seen| matches!((s, limit), (Seen::Value(v), Some(l)) if v > l);
    let mut out = vec![Entry::point(Point::Disc, ink::TEXT, word::OneBlank.text())];
    if any(&|s| matches!(s, Seen::Below(_))) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::nothing_found(c, Along::Y, x, (y + 7.0, y - 6.0), 2.5)),
            width: 12.0,
            words: label::UpToLimit.text(),
        });
    }
    if p.warning.is_some() && any(&above(p.warning)) {
        out.push(Entry::point(Point::Diamond, ink::TEXT, label::AboveWarning.text()));
    }
    if any(&above(p.action)) {
        out.push(Entry::point(Point::Triangle, ink::NOT_MET, label::AboveAction.text()));
    }
    for (_, words, colour, dash) in limits(p) {
        out.push(Entry::line(colour, dash, &words));
    }
    out.push(Entry {
        sample: Box::new(|c, x, y| {
            c.rect((x - 10.0, y - 6.0), (x + 10.0, y + 6.0), &format!("fill=\"{}\"", ink::FORECAST));
        }),
        width: 20.0,
        words: label::Baseline { blanks: message::count(p.baseline) }.text(),
    });
    out
}

/// The limits that there are, with their words, colour and line.
fn limits(p: &ControlPicture) -> Vec<(f64, String, &'static str, &'static str)> {
    let shown = |v: f64| Shown::trimmed(v, 2, "");
    let action = |v| (v, label::ActionLimit { value: shown(v) }.text(), ink::NOT_MET, "stroke-width=\"1.6\"");
    let warning = |v| {
        let dash = "stroke-width=\"1.4\" stroke-dasharray=\"6 4\"";
        (v, label::WarningLimit { value: shown(v) }.text(), ink::NOT_KNOWN, dash)
    };
    let median = |v| {
        let dash = "stroke-width=\"1.6\" stroke-dasharray=\"2 3\"";
        (v, label::Median { value: shown(v) }.text(), ink::WATER, dash)
    };
    [p.action.map(action), p.warning.map(warning), p.centre.map(median)].into_iter().flatten().collect()
}

fn mark(c: &mut Canvas, p: &ControlPicture, d: Dated, (x, value): (&Scale, &Scale)) {
    let at = x.at(seconds(d.time_years));
    match d.seen {
        Seen::Below(limit) => marks::nothing_found(c, Along::Y, at, (value.at(0.0), value.at(limit)), 2.5),
        Seen::Value(v) => {
            let (kind, colour) = if p.action.is_some_and(|a| v > a) {
                (Point::Triangle, ink::NOT_MET)
            } else if p.warning.is_some_and(|w| v > w) {
                (Point::Diamond, ink::TEXT)
            } else {
                (Point::Disc, ink::TEXT)
            };
            point(c, (at, value.at(v)), kind, colour);
        }
    }
}
