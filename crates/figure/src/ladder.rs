//! The redox ladder: each couple as a mark on one Eh axis, the measured Eh beside them.
//!
//! In: for each couple its name and Eh with u (mV against the standard hydrogen electrode), and the
//! electrode's reading. Out: a [`Figure`]: couples from the most oxidised down, all on one axis; the
//! measured Eh as a line through all rows with its band. A couple with an end at its detection limit
//! is an open diamond: its Eh is a bound. The disagreement is what the picture is for.
//! What it does not do: no mean Eh. Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{self, Along, Point, point};
use super::scale::Scale;
use super::{Anchor, Area, Canvas, Figure, Head, Style, ink, is_narrow};
use message::{Shown, Spoken, chemistry};

/// One couple.
#[derive(Debug, Clone, PartialEq)]
pub struct Rung {
    /// `SO₄²⁻ / HS⁻`.
    pub name: String,
    /// Eh, mV.
    pub eh_mv: f64,
    /// Standard uncertainty, mV.
    pub u_mv: f64,
    /// An end stands at its detection limit.
    pub bound: bool,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LadderPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Couples in any order.
    pub rungs: Vec<Rung>,
    /// Measured Eh with u, mV.
    pub measured: Option<(f64, Option<f64>)>,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &LadderPicture, width: f64) -> Figure {
    let narrow = is_narrow(width);
    let (left, right, step) = if narrow { (14.0, width - 22.0, 42.0) } else { (150.0, width - 120.0, 30.0) };
    let mut rungs: Vec<&Rung> = p.rungs.iter().filter(|r| r.eh_mv.is_finite()).collect();
    rungs.sort_by(|a, b| b.eh_mv.total_cmp(&a.eh_mv));
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let plot = Plot { left, right, top: y + 26.0, bottom: y + 34.0 + step * rungs.len().max(1) as f64 };
    let values = rungs.iter().flat_map(|r| [r.eh_mv - 2.0 * r.u_mv, r.eh_mv + 2.0 * r.u_mv]);
    let scale = Scale::linear(values.chain(p.measured.map(|m| m.0)).chain([0.0]), (left, right));
    axis::horizontal(&mut c, &scale, plot);
    axis::foot(&mut c, plot);
    if let Some(m) = p.measured {
        electrode(&mut c, m, (&scale, plot));
    }
    for (i, r) in rungs.iter().enumerate() {
        let y = plot.top + step * (i as f64 + 1.0) - 6.0;
        let x = scale.at(r.eh_mv);
        if r.bound {
            point(&mut c, (x, y), Point::Diamond, ink::TEXT);
        } else {
            marks::measured(
                &mut c,
                Along::X,
                y,
                (scale.at(r.eh_mv - 2.0 * r.u_mv), x, scale.at(r.eh_mv + 2.0 * r.u_mv)),
            );
        }
        let eh = millivolt(r.eh_mv).text();
        if narrow {
            c.text(plot.left, y - 13.0, &r.name, Style::strong().rimmed());
            c.text(plot.right, y - 13.0, &eh, Style::text().hung(Anchor::End).rimmed());
        } else {
            c.text(plot.left - 14.0, y + 4.0, &r.name, Style::strong().hung(Anchor::End));
            c.text(plot.right + 16.0, y + 4.0, &eh, Style::text());
        }
    }
    c.text(0.5 * (left + right), plot.bottom + 33.0, &chemistry::EhAxis.text(), Style::muted().hung(Anchor::Middle));
    c.finish(p.head.at_width(width), width, plot.bottom + 42.0)
}

fn millivolt(eh: f64) -> Shown {
    Shown::decimals(eh, 0, "mV").typeset()
}

fn electrode(c: &mut Canvas, (eh, u): (f64, Option<f64>), (scale, plot): (&Scale, Plot)) {
    if let Some(u) = u {
        let (a, b) = (scale.at(eh - 2.0 * u), scale.at(eh + 2.0 * u));
        c.rect((a, plot.top), (b, plot.bottom), &format!("fill=\"{}\" fill-opacity=\"0.6\"", ink::WATER_PALE));
    }
    let x = scale.at(eh);
    c.line((x, plot.top - 4.0), (x, plot.bottom), ink::WATER, "stroke-width=\"1.6\" stroke-dasharray=\"6 3\"");
    let words = chemistry::EhMeasured { eh: millivolt(eh) }.text();
    let style = Style::text().coloured(ink::WATER);
    let within = Area { x0: 8.0, y0: 0.0, x1: f64::INFINITY, y1: f64::INFINITY };
    let (y, half) = (plot.top - 8.0, crate::text::width(&words, 12.0, crate::text::Weight::Regular) / 2.0);
    let middle = x.clamp(10.0 + half, (plot.right + 8.0 - half).max(10.0 + half));
    let _ = c.text_where_free(&[(middle, y, Anchor::Middle)], &words, style, within);
}

fn legend(p: &LadderPicture) -> Vec<Entry<'static>> {
    let mut out = vec![];
    if p.rungs.iter().any(|r| !r.bound) {
        out.push(Entry {
            sample: Box::new(|c, x, y| marks::measured(c, Along::X, y, (x - 11.0, x, x + 11.0))),
            width: 24.0,
            words: chemistry::CoupleWithInterval.text(),
        });
    }
    if p.rungs.iter().any(|r| r.bound) {
        out.push(Entry::point(Point::Diamond, ink::TEXT, chemistry::CoupleAtLimit.text()));
    }
    if p.measured.is_some() {
        out.push(Entry::line(ink::WATER, "stroke-width=\"1.6\" stroke-dasharray=\"6 3\"", chemistry::Electrode.text()));
    }
    out
}
