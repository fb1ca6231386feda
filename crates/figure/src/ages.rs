//! How old by which model, and the measured tritium on the curve of the rain.
//!
//! In: a row a model with the likelihood of each age (years, share of the likeliest), the rain of each year as it would be
//! today (TU), the measured value or its limit, the travel time by Darcy. Out: a [`Figure`]: strips over one axis of ages
//! on a logarithm, models that the tracers reject hollow and dashed; under them, over the same ages, the decayed rain with
//! the measured value as a band across. Ages where the band meets the curve are those that tritium alone allows a water of
//! one age. Checked in `crates/figure/tests/figures_ages.rs`.

use super::axis::{self, Entry, Plot};
use super::scale::Scale;
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow, px};
use message::{Spoken, well_age as said};
use std::fmt::Write as _;

/// A model's ages.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ModelStrip {
    /// Its name, with its share of the evidence or that it is rejected.
    pub name: String,
    /// Whether the tracers reject it.
    pub rejected: bool,
    /// Years, and how likely as a share of the likeliest.
    pub density: Vec<(f64, f64)>,
}

/// The rain beside the water.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RainCurve {
    /// Years before the sample, TU decayed to its day.
    pub curve: Vec<(f64, f64)>,
    /// Lower and upper end of the measured value, TU; of a non-detect nought and the limit.
    pub measured: (f64, f64),
    /// In words: "measured: 0.07 ± 0.03 TU".
    pub words: String,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AgesPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// The models.
    pub models: Vec<ModelStrip>,
    /// Where tritium and a history are there.
    pub rain: Option<RainCurve>,
    /// Travel time by Darcy, years, from and to.
    pub darcy: Option<(f64, f64)>,
}

/// Height of a model's row and of the strip in it, px.
const ROW: f64 = 32.0;
const STRIP: f64 = 13.0;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &AgesPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let mut entries = vec![Entry::line(ink::WATER, "stroke-width=\"4\"", said::LegendFits.text())];
    if p.models.iter().any(|m| m.rejected) {
        entries.push(Entry::line(ink::LINE, "stroke-dasharray=\"3 2\"", said::LegendRejected.text()));
    }
    if p.darcy.is_some() {
        entries.push(Entry::line(ink::FORECAST_EDGE, "stroke-width=\"6\"", said::LegendDarcy.text()));
    }
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let left = if is_narrow(width) { 44.0 } else { 60.0 };
    let top = y + 10.0;
    let plot = Plot { left, right: width - 20.0, top, bottom: top + ROW * p.models.len().max(1) as f64 };
    let bottom = strips(&mut c, p, plot);
    let bottom = match &p.rain {
        Some(r) => rain(&mut c, r, Plot { top: bottom + 22.0, bottom: bottom + 162.0, ..plot }, width),
        None => bottom,
    };
    c.finish(p.head.at_width(width), width, bottom + 12.0)
}

/// Ages of the axis, years: what the models are tried over.
const AGES: [f64; 2] = [1.0, 50_000.0];

fn strips(c: &mut Canvas, p: &AgesPicture, plot: Plot) -> f64 {
    let x = Scale::log(AGES, (plot.left, plot.right));
    if let Some((low, high)) = p.darcy {
        let colour = format!("fill=\"{}\" fill-opacity=\"0.6\"", ink::FORECAST);
        c.rect((x.at(low), plot.top), (x.at(high), plot.bottom), &colour);
    }
    axis::horizontal(c, &x, plot);
    axis::foot(c, plot);
    for (k, m) in p.models.iter().enumerate() {
        let foot = plot.top + ROW * (k as f64 + 1.0) - 3.0;
        strip(c, m, &x, foot);
        c.text(plot.left + 4.0, foot - STRIP - 3.0, &m.name, Style::muted().rimmed());
    }
    let y = plot.bottom + 34.0;
    c.text(plot.right, y, &said::AgeAxis.text(), Style::muted().hung(Anchor::End));
    y + 4.0
}

fn strip(c: &mut Canvas, m: &ModelStrip, x: &Scale, foot: f64) {
    let sound = |(t, s): &&(f64, f64)| t.is_finite() && *t > 0.0 && s.is_finite();
    let points: Vec<&(f64, f64)> = m.density.iter().filter(sound).collect();
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return };
    let mut d = format!("M{} {}", px(x.at(first.0)), px(foot));
    for (t, share) in &points {
        let _ = write!(d, "L{} {}", px(x.at(*t)), px(foot - STRIP * share.clamp(0.0, 1.0)));
    }
    let _ = write!(d, "L{} {}Z", px(x.at(last.0)), px(foot));
    let look = if m.rejected {
        format!("fill=\"none\" stroke=\"{}\" stroke-dasharray=\"3 2\"", ink::LINE)
    } else {
        format!("fill=\"{}\" stroke=\"{}\"", ink::WATER_PALE, ink::WATER)
    };
    c.shape(&d, &look);
}

/// Tritium that is drawn, TU: below, nothing is measured and the curve runs along the foot; above lies no rain of any
/// year and place.
const TU: (f64, f64) = (0.01, 1e5);

fn rain(c: &mut Canvas, r: &RainCurve, plot: Plot, width: f64) -> f64 {
    let y = c.wrapped((10.0, plot.top), &said::RainTitle.text(), Style::strong(), width - 20.0);
    let entries = [
        Entry::line(ink::TEXT, "stroke-width=\"1.8\"", said::LegendRain.text()),
        Entry::line(ink::NOT_KNOWN, "stroke-width=\"6\" stroke-opacity=\"0.5\"", &r.words),
    ];
    let top = axis::legend(c, &entries, y + 4.0, width) + 4.0;
    let plot = Plot { top, bottom: top + 120.0, ..plot };
    let x = Scale::log(AGES, (plot.left, plot.right));
    let drawn = |tu: f64| tu.max(TU.0).min(TU.1);
    let finite = r.curve.iter().filter(|q| q.0.is_finite() && q.1.is_finite());
    let values = finite.clone().map(|q| drawn(q.1)).chain([drawn(r.measured.1), 0.1]);
    let scale = Scale::log(values, (plot.bottom, plot.top));
    axis::vertical(c, &scale, plot);
    axis::horizontal(c, &x, plot);
    axis::foot(c, plot);
    let band = [r.measured.0, r.measured.1].map(|v| scale.at(v.max(scale.domain().0)));
    // A band thinner than a line would not be seen.
    let (low, high) = if band[0] - band[1] < 2.0 { (band[0] + 1.0, band[1] - 1.0) } else { (band[0], band[1]) };
    let look = format!("fill=\"{}\" fill-opacity=\"0.5\"", ink::NOT_KNOWN);
    c.rect((plot.left, high), (plot.right, low.min(plot.bottom)), &look);
    let points: Vec<(f64, f64)> = finite.map(|q| (x.at(q.0), scale.at(drawn(q.1)))).collect();
    c.polyline(&points, ink::TEXT, "stroke-width=\"1.8\"");
    c.text_up(14.0, f64::midpoint(plot.top, plot.bottom), &said::RainAxis.text(), Style::muted());
    c.text(plot.right, plot.bottom + 34.0, &said::AgeAxis.text(), Style::muted().hung(Anchor::End));
    plot.bottom + 38.0
}
