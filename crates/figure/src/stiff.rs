//! The shape of a water: six equivalents as one polygon about a middle line.
//!
//! In: for each water meq/L on the left (Na + K, Ca, Mg) and on the right (Cl, HCO3 + CO3, SO4),
//! from top to bottom. Out: a [`Figure`] with one polygon a water, all on one scale, so that size
//! is concentration and shape is kind. Layout: Stiff 1951, J. Petrol. Technol. 3:15 (from memory).
//! What it does not do: no classes. Checked in `crates/report/tests/figures.rs`.

use super::axis;
use super::scale::Scale;
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow, px};
use crate::text;
use message::{Shown, Spoken, chemistry};

/// One water.
#[derive(Debug, Clone, PartialEq)]
pub struct StiffWater {
    /// Its name.
    pub name: String,
    /// Na + K, Ca, Mg in meq/L.
    pub left: [f64; 3],
    /// Cl, HCO3 + CO3, SO4 in meq/L.
    pub right: [f64; 3],
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StiffPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// The waters from top to bottom.
    pub waters: Vec<StiffWater>,
}

const LEFT: [&str; 3] = ["Na + K", "Ca", "Mg"];
const RIGHT: [&str; 3] = ["Cl", "HCO₃ + CO₃", "SO₄"];
/// Distance of the three lines of a polygon, px.
const STEP: f64 = 27.0;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &StiffPicture, width: f64) -> Figure {
    let narrow = is_narrow(width);
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let (left, right) = if narrow { (86.0, width - 106.0) } else { (200.0, width - 200.0) };
    let finite = |v: &f64| v.is_finite().then_some(v.abs());
    let widest = p.waters.iter().flat_map(|w| w.left.iter().chain(&w.right)).filter_map(finite).fold(0.0, f64::max);
    // Without any ion the axis shows one meq/L to each side.
    let widest = if widest > 0.0 { widest } else { 1.0 };
    let scale = Scale::linear([-widest, widest], (left, right));
    let block = 2.0 * STEP + 46.0;
    let top = y + 12.0;
    let bottom = top + block * p.waters.len().max(1) as f64;
    ticks(&mut c, &scale, (top, bottom));
    for (i, w) in p.waters.iter().enumerate() {
        water(&mut c, w, &scale, top + i as f64 * block + 34.0);
    }
    c.text(0.5 * (left + right), bottom + 33.0, &chemistry::SidesAxis.text(), Style::muted().hung(Anchor::Middle));
    c.finish(p.head.at_width(width), width, bottom + 42.0)
}

fn ticks(c: &mut Canvas, scale: &Scale, (top, bottom): (f64, f64)) {
    let all = scale.ticks();
    // Every second or fourth number where they stand close.
    let step = if all.len() > 1 { (scale.at(all[1].value) - scale.at(all[0].value)).abs() } else { f64::INFINITY };
    let room = all.iter().map(|t| text::width(&t.label, 12.0, text::Weight::Regular)).fold(0.0, f64::max) + 6.0;
    let every = [1, 2, 4].into_iter().find(|k| *k as f64 * step >= room).unwrap_or(8);
    let middle = all.iter().position(|t| t.value == 0.0).unwrap_or(0);
    for (i, t) in all.iter().enumerate() {
        let x = scale.at(t.value);
        let (colour, more) = if t.value == 0.0 { (ink::LINE, "stroke-width=\"1.2\"") } else { (ink::HAIR, "") };
        c.line((x, top), (x, bottom), colour, more);
        if i.abs_diff(middle) % every == 0 {
            c.text(x, bottom + 16.0, t.label.trim_start_matches('−'), Style::muted().hung(Anchor::Middle));
        }
    }
}

fn water(c: &mut Canvas, w: &StiffWater, scale: &Scale, top: f64) {
    let value = |v: f64| if v.is_finite() { v.max(0.0) } else { 0.0 };
    let at = |i: usize, v: f64| (scale.at(v), top + i as f64 * STEP);
    let left: Vec<(f64, f64)> = (0..3).map(|i| at(i, -value(w.left[i]))).collect();
    let right: Vec<(f64, f64)> = (0..3).map(|i| at(i, value(w.right[i]))).collect();
    let path: Vec<String> =
        left.iter().chain(right.iter().rev()).map(|(x, y)| format!("{} {}", px(*x), px(*y))).collect();
    c.shape(
        &format!("M{}Z", path.join("L")),
        &format!(
            "fill=\"{}\" fill-opacity=\"0.75\" stroke=\"{}\" stroke-width=\"1.6\" stroke-linejoin=\"round\"",
            ink::WATER_PALE,
            ink::WATER
        ),
    );
    let zero = scale.at(0.0);
    c.line((zero, top), (zero, top + 2.0 * STEP), ink::LINE, "stroke-width=\"1.2\"");
    c.text(10.0, top - 16.0, &w.name, Style::strong().rimmed());
    let (from, to) = scale.range();
    for i in 0..3 {
        let y = top + i as f64 * STEP + 4.0;
        let number = |v: f64| Shown::significant(value(v), 2, "").text();
        let words = |name: &str, v: f64| format!("{name}\u{A0}{}", number(v)).replace(' ', "\u{A0}");
        c.text(from - 8.0, y, &words(LEFT[i], w.left[i]), Style::text().hung(Anchor::End));
        c.text(to + 8.0, y, &words(RIGHT[i], w.right[i]), Style::text());
    }
}
