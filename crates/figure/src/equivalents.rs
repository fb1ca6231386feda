//! What ions make up the water: cations and anions as two stacked columns side by side.
//!
//! In: layers from the bottom up, meq/L. Out: a [`Figure`]: two columns on one scale, so that a
//! difference in height is the charge that the analysis leaves open. Every layer has its name and
//! number beside it; neighbours differ in lightness. Layers under a hundredth of their column are
//! drawn as one, `others`.
//! What it does not do: no balance, no judgement; they stand in the findings.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Plot};
use super::scale::Scale;
use super::{Anchor, Area, Canvas, Figure, Head, Style, ink, is_narrow};
use crate::text;
use message::{Shown, Spoken, chemistry};

/// One layer: name and meq/L.
pub type Layer = (String, f64);

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EquivalentsPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Cations from the bottom up.
    pub cations: Vec<Layer>,
    /// Anions from the bottom up.
    pub anions: Vec<Layer>,
}

/// Layers below this share of their column are drawn as one.
const THIN: f64 = 0.01;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &EquivalentsPicture, width: f64) -> Figure {
    let narrow = is_narrow(width);
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let (height, column, middle) = if narrow { (250.0, 44.0, 156.0) } else { (280.0, 110.0, 360.0) };
    let (top, bottom) = (y + 46.0, y + 46.0 + height);
    let sum = |layers: &[Layer]| layers.iter().map(|l| l.1).filter(|v| *v > 0.0 && v.is_finite()).sum::<f64>();
    let scale = Scale::linear([0.0, sum(&p.cations), sum(&p.anions)], (bottom, top));
    let numbers = scale.ticks().iter().map(|t| text::width(&t.label, 12.0, text::Weight::Regular)).fold(0.0, f64::max);
    let plot = Plot { left: (numbers + 14.0).max(if narrow { 30.0 } else { 70.0 }), right: width - 10.0, top, bottom };
    axis::vertical(&mut c, &scale, plot);
    c.text(10.0, plot.top - 26.0, "meq/L", Style::muted());
    let sides = [(&p.cations, chemistry::Cations.text(), true), (&p.anions, chemistry::Anions.text(), false)];
    for (layers, name, left) in sides {
        let x = if left { (middle - 3.0 - column, middle - 3.0) } else { (middle + 3.0, middle + 3.0 + column) };
        let top = stack(&mut c, &gathered(layers), &scale, x);
        let centre = 0.5 * (x.0 + x.1);
        let room = if left { (plot.left + 4.0, x.0 - 10.0) } else { (x.1 + 10.0, width - 8.0) };
        names(&mut c, &gathered(layers), (&scale, plot), (x, room, left));
        c.text(centre, top - 18.0, &name, Style::strong().hung(Anchor::Middle).rimmed());
        c.text(centre, top - 5.0, &number(sum(layers)), Style::text().hung(Anchor::Middle).rimmed());
    }
    axis::foot(&mut c, plot);
    c.finish(p.head.at_width(width), width, plot.bottom + 14.0)
}

fn number(meq_l: f64) -> String {
    Shown::significant(meq_l, 3, "").text()
}

/// The layers with the thin ones as one on top.
fn gathered(layers: &[Layer]) -> Vec<Layer> {
    let finite = |l: &&Layer| l.1 > 0.0 && l.1.is_finite();
    let sum: f64 = layers.iter().filter(finite).map(|l| l.1).sum();
    let (thick, thin): (Vec<Layer>, Vec<Layer>) =
        layers.iter().filter(finite).cloned().partition(|l| l.1 >= THIN * sum);
    let rest: f64 = thin.iter().map(|l| l.1).sum();
    let name = match thin.as_slice() {
        [one] => one.0.clone(),
        _ => chemistry::Others.text(),
    };
    thick.into_iter().chain((rest > 0.0).then_some((name, rest))).collect()
}

/// Fills that alternate in lightness, so that neighbours stay apart in grey.
const FILLS: [&str; 4] = [ink::WATER_PALE, ink::FORECAST, "#a9c9c9", "#f4efe2"];

fn stack(c: &mut Canvas, layers: &[Layer], scale: &Scale, (x0, x1): (f64, f64)) -> f64 {
    let mut low = 0.0;
    for (i, (_, meq)) in layers.iter().enumerate() {
        let (a, b) = (scale.at(low), scale.at(low + meq));
        let fill = FILLS[i % FILLS.len()];
        c.rect((x0, b), (x1, a), &format!("fill=\"{fill}\" stroke=\"{}\" stroke-width=\"0.8\"", ink::LINE));
        low += meq;
    }
    let top = scale.at(low);
    c.keep_clear(Area { x0, y0: top, x1, y1: scale.at(0.0) });
    top
}

/// Names beside the layers, spread so that none covers another, each with a line to its layer.
fn names(
    c: &mut Canvas,
    layers: &[Layer],
    (scale, plot): (&Scale, Plot),
    (column, room, left): ((f64, f64), (f64, f64), bool),
) {
    let style = Style::text();
    let mut low = 0.0;
    let mut wanted = vec![];
    for (name, meq) in layers {
        let words = format!("{name}\u{A0}\u{A0}{}", number(*meq)).replace(' ', "\u{A0}");
        let lines = if text::width(&words, style.size, style.weight) <= room.1 - room.0 {
            vec![words]
        } else {
            vec![super::saturation::cut(name, room.1 - room.0), number(*meq)]
        };
        wanted.push((scale.at(low + 0.5 * meq), lines));
        low += meq;
    }
    let heights: Vec<f64> = wanted.iter().map(|(_, l)| l.len() as f64 * style.leading()).collect();
    let places = spread(&wanted.iter().map(|w| w.0).collect::<Vec<_>>(), &heights, plot.bottom + 4.0);
    for ((at, lines), (place, height)) in wanted.iter().zip(places.iter().zip(&heights)) {
        let (edge, end) = if left { (column.0, room.1 + 2.0) } else { (column.1, room.0 - 2.0) };
        c.line((edge, *at), (end, *place), ink::LINE, "stroke-width=\"0.8\"");
        let mut y = place - height / 2.0 + 11.0;
        for line in lines {
            let (x, anchor) = if left { (room.1, Anchor::End) } else { (room.0, Anchor::Start) };
            c.text(x, y, line, style.hung(anchor).rimmed());
            y += style.leading();
        }
    }
}

/// Middles (px, falling) moved apart to hold labels of these heights, none below `floor`.
pub(super) fn spread(middles: &[f64], heights: &[f64], floor: f64) -> Vec<f64> {
    let mut out = vec![];
    let mut bottom = floor;
    for (m, h) in middles.iter().zip(heights) {
        let at = m.min(bottom - h / 2.0);
        bottom = at - h / 2.0;
        out.push(at);
    }
    out
}
