//! How often: one number of many waters as a histogram, with a window marked.
//!
//! In: values, unit, the ends of a window. Out: a [`Figure`]: bars over equal bins; the values
//! beyond the axis are counted in the outermost bins and said so; the window as two dashed lines.
//! What it does not do: no fit, no judgement. Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::scale::Scale;
use super::{Canvas, Figure, Head, Style, ink, is_narrow};
use message::{Spoken, figure as label};

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HistogramPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// What the axis shows, with unit.
    pub axis: String,
    /// The values; those that are no numbers are left out.
    pub values: Vec<f64>,
    /// A window and its words.
    pub window: Option<((f64, f64), String)>,
    /// Half the width of the axis about zero; values beyond fall in the outermost bins.
    pub reach: f64,
    /// Number of bins.
    pub bins: usize,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &HistogramPicture, width: f64) -> Figure {
    let narrow = is_narrow(width);
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let entries: Vec<Entry> = p
        .window
        .iter()
        .map(|(_, words)| Entry::line(ink::NOT_KNOWN, "stroke-width=\"1.6\" stroke-dasharray=\"6 3\"", words))
        .collect();
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let plot = Plot {
        left: if narrow { 40.0 } else { 64.0 },
        right: width - 24.0,
        top: y + 22.0,
        bottom: y + 22.0 + if narrow { 160.0 } else { 200.0 },
    };
    let reach = if p.reach > 0.0 && p.reach.is_finite() { p.reach } else { 1.0 };
    let x = Scale::linear([-reach, reach], (plot.left, plot.right));
    // Over the domain, not over `reach`: the axis is widened to whole ticks, and the bars fill all of it.
    let counts = counts(&p.values, x.domain(), p.bins.max(1));
    let most = counts.iter().copied().max().unwrap_or(0);
    let up = Scale::linear([0.0, most.max(1) as f64], (plot.bottom, plot.top));
    axis::vertical(&mut c, &up, plot);
    let step = (plot.right - plot.left) / counts.len() as f64;
    for (k, n) in counts.iter().enumerate().filter(|(_, n)| **n > 0) {
        let a = plot.left + step * k as f64;
        c.rect(
            (a + 0.5, up.at(*n as f64)),
            (a + step - 0.5, plot.bottom),
            &format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"0.8\"", ink::WATER_PALE, ink::WATER),
        );
    }
    axis::horizontal(&mut c, &x, plot);
    axis::foot(&mut c, plot);
    if let Some(((lo, hi), _)) = &p.window {
        for v in [lo, hi] {
            c.line(
                (x.at(*v), plot.top - 4.0),
                (x.at(*v), plot.bottom),
                ink::NOT_KNOWN,
                "stroke-width=\"1.6\" stroke-dasharray=\"6 3\"",
            );
        }
    }
    c.text(8.0, plot.top - 9.0, &label::Waters.text(), Style::muted());
    c.text(plot.right, plot.bottom + 33.0, &p.axis, Style::muted().hung(super::Anchor::End));
    c.finish(p.head.at_width(width), width, plot.bottom + 42.0)
}

fn counts(values: &[f64], (lo, hi): (f64, f64), bins: usize) -> Vec<usize> {
    let mut out = vec![0; bins];
    for v in values.iter().filter(|v| v.is_finite()) {
        let at = (v - lo) / (hi - lo) * bins as f64;
        out[(at.max(0.0) as usize).min(bins - 1)] += 1;
    }
    out
}
