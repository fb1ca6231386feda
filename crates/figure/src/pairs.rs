//! Duplicates and replicates of real data: how far do two bottles of one water differ, and is that
//! what their uncertainty predicts?
//!
//! In: pairs with mean level (one unit) and relative difference in percent, the interval that u
//! predicts where it is known, and how many pairs hold a non-detect. Out: a [`Figure`]: level on a
//! log axis, difference linear (bent when a few pairs differ by far more than the rest).
//! A pair with a non-detect has no difference: it stands as a tick at the foot, at its limit, never
//! as a number. Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{Point, point};
use super::scale::{Scale, extent};
use super::{Anchor, Canvas, Figure, Head, Style, ink};
use message::{Spoken, figure as label};

/// One pair.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pair {
    /// Both detected.
    Both {
        /// Mean of the two.
        level: f64,
        /// Difference as a share of the mean, %.
        percent: f64,
        /// Half width of the interval predicted from u, %, where u is known.
        expected_percent: Option<f64>,
    },
    /// At least one not detected; stands at this level (the higher of the two limits or values).
    WithNonDetect {
        /// Level.
        level: f64,
    },
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PairsPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Unit of the level.
    pub unit: String,
    /// The pairs.
    pub pairs: Vec<Pair>,
    /// The programme's limit for the difference, %.
    pub limit_percent: Option<f64>,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &PairsPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let plot = Plot { left: 52.0, right: width - 20.0, top: y + 26.0, bottom: y + 246.0 };
    let levels = p.pairs.iter().map(|q| match q {
        Pair::Both { level, .. } | Pair::WithNonDetect { level } => *level,
    });
    let x = Scale::log(levels, (plot.left, plot.right));
    let tick_room = 16.0;
    let y = difference_scale(p, (plot.bottom - tick_room, plot.top));
    c.text(plot.left, plot.top - 10.0, &label::Difference.text(), Style::muted());
    axis::vertical(&mut c, &y, Plot { bottom: plot.bottom - tick_room, ..plot });
    axis::horizontal(&mut c, &x, plot);
    axis::foot(&mut c, plot);
    c.line((plot.left, y.at(0.0)), (plot.right, y.at(0.0)), ink::LINE, "");
    if let Some(l) = p.limit_percent {
        for v in [-l, l] {
            c.line((plot.left, y.at(v)), (plot.right, y.at(v)), ink::NOT_MET, "stroke-dasharray=\"6 4\"");
        }
    }
    for q in &p.pairs {
        pair(&mut c, q, &x, &y, plot);
    }
    let level = label::Level { unit: p.unit.as_str().into() }.text();
    c.text(plot.right, plot.bottom + 33.0, &level, Style::muted().hung(Anchor::End));
    c.finish(p.head.at_width(width), width, plot.bottom + 42.0)
}

fn legend(p: &PairsPicture) -> Vec<Entry<'static>> {
    let mut out = vec![];
    let has = |f: fn(&Pair) -> bool| p.pairs.iter().any(f);
    if has(|q| matches!(q, Pair::Both { .. })) {
        out.push(Entry::point(Point::Ring, ink::TEXT, label::Pair.text()));
    }
    if has(is_wider_than_expected) {
        out.push(Entry::point(Point::Cross, ink::NOT_MET, label::PairApart.text()));
    }
    if has(|q| matches!(q, Pair::WithNonDetect { .. })) {
        out.push(Entry {
            sample: Box::new(|c, x, y| tick(c, x, y + 5.0)),
            width: 4.0,
            words: label::PairNonDetect.text(),
        });
    }
    if p.limit_percent.is_some() {
        out.push(Entry::line(ink::NOT_MET, "stroke-dasharray=\"6 4\"", label::ProgrammesLimit.text()));
    }
    out
}

fn is_wider_than_expected(q: &Pair) -> bool {
    matches!(q, Pair::Both { percent, expected_percent: Some(e), .. } if percent.abs() > *e)
}

fn difference_scale(p: &PairsPicture, px: (f64, f64)) -> Scale {
    let mut sizes: Vec<f64> = p
        .pairs
        .iter()
        .filter_map(|q| match q {
            Pair::Both { percent, .. } if percent.is_finite() => Some(percent.abs()),
            _ => None,
        })
        .chain(p.limit_percent)
        .collect();
    sizes.sort_by(f64::total_cmp);
    let most = sizes.get(sizes.len() * 9 / 10).copied().unwrap_or(10.0).max(1.0);
    let (_, top) = extent(sizes).unwrap_or((0.0, 10.0));
    let top = top.max(1.0);
    if top > 6.0 * most { Scale::bent([-top, top], most, px) } else { Scale::linear([-top, top], px) }
}

fn pair(c: &mut Canvas, q: &Pair, x: &Scale, y: &Scale, plot: Plot) {
    match q {
        Pair::Both { level, percent, .. } => {
            let at = (x.at(*level), y.at(*percent));
            if is_wider_than_expected(q) {
                point(c, at, Point::Cross, ink::NOT_MET);
            } else {
                c.circle(at, 2.8, &format!("fill=\"none\" stroke=\"{}\" stroke-opacity=\"0.75\"", ink::TEXT));
            }
        }
        Pair::WithNonDetect { level } => tick(c, x.at(*level), plot.bottom - 1.0),
    }
}

fn tick(c: &mut Canvas, x: f64, foot: f64) {
    c.line((x, foot - 10.0), (x, foot), ink::MUTED, "stroke-width=\"1.1\"");
}
