//! Waters side by side: the trade's diagram of two triangles and a diamond.
//!
//! In: for each water its points in the two triangles and the diamond, side of a triangle 1, left
//! corner of the cation triangle at the origin, anion triangle beginning at 1 + [`GAP`]. Out: a
//! [`Figure`] with a line each 20 % and the shares named at the corners. A handful of waters have a
//! shape each and a legend; many are drawn as one cloud.
//! Layout of the diagram: Piper 1944, Trans. AGU 25:914 (from memory).
//! What it does not do: no water types, no areas with names. Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry};
use super::marks::{Point, point};
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow};
use message::{Spoken, chemistry};

/// Distance between the triangles, in sides.
pub const GAP: f64 = 0.2;

/// Points of one water.
#[derive(Debug, Clone, PartialEq)]
pub struct PiperWater {
    /// Its name.
    pub name: String,
    /// In the cation triangle.
    pub cation: (f64, f64),
    /// In the anion triangle.
    pub anion: (f64, f64),
    /// In the diamond.
    pub diamond: (f64, f64),
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PiperPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// The waters.
    pub waters: Vec<PiperWater>,
}

/// Shapes of the first waters; beyond them all are one group.
const SHAPES: [(Point, &str); 6] = [
    (Point::Disc, ink::TEXT),
    (Point::Square, ink::TEXT),
    (Point::Triangle, ink::WATER),
    (Point::Diamond, ink::NOT_MET),
    (Point::Ring, ink::TEXT),
    (Point::Cross, ink::MUTED),
];

/// From sides to px.
#[derive(Clone, Copy)]
struct Frame {
    left: f64,
    bottom: f64,
    side: f64,
}

impl Frame {
    fn at(self, (x, y): (f64, f64)) -> (f64, f64) {
        (self.left + x * self.side, self.bottom - y * self.side)
    }
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &PiperPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let few = p.waters.len() <= SHAPES.len();
    let entries: Vec<Entry> = if few {
        p.waters.iter().zip(SHAPES).map(|(w, (kind, colour))| Entry::point(kind, colour, &w.name)).collect()
    } else {
        let waters = message::count(p.waters.len());
        vec![Entry::point(Point::Ring, ink::TEXT, chemistry::Waters { waters }.text())]
    };
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let side = if is_narrow(width) { (width - 24.0) / (2.0 + GAP) } else { 216.0 };
    let height = root3() * (1.0 + GAP / 2.0) * side;
    let frame = Frame { left: (width - (2.0 + GAP) * side) / 2.0, bottom: y + 18.0 + height, side };
    triangle(&mut c, frame, 0.0);
    triangle(&mut c, frame, 1.0 + GAP);
    diamond(&mut c, frame);
    corners(&mut c, frame);
    percents(&mut c, frame);
    for (i, w) in p.waters.iter().enumerate() {
        let (kind, colour) = if few { SHAPES[i] } else { (Point::Ring, ink::TEXT) };
        for at in [w.cation, w.anion, w.diamond].into_iter().filter(|a| a.0.is_finite() && a.1.is_finite()) {
            point(&mut c, frame.at(at), kind, colour);
        }
    }
    c.finish(p.head.at_width(width), width, frame.bottom + 50.0)
}

fn root3() -> f64 {
    libm::sqrt(3.0)
}

fn outline(c: &mut Canvas, frame: Frame, corners: &[(f64, f64)]) {
    let mut points: Vec<(f64, f64)> = corners.iter().map(|p| frame.at(*p)).collect();
    points.push(points[0]);
    c.polyline(&points, ink::LINE, "stroke-width=\"1.1\" stroke-linejoin=\"round\"");
}

const STEPS: [f64; 4] = [0.2, 0.4, 0.6, 0.8];

fn triangle(c: &mut Canvas, frame: Frame, x: f64) {
    let h = root3() / 2.0;
    for s in STEPS {
        let rest = 1.0 - s;
        for (a, b) in [
            ((x + 0.5 * s, h * s), (x + 1.0 - 0.5 * s, h * s)),
            ((x + s, 0.0), (x + 0.5 + 0.5 * s, h * rest)),
            ((x + s, 0.0), (x + 0.5 * s, h * s)),
        ] {
            c.line(frame.at(a), frame.at(b), ink::HAIR, "");
        }
    }
    outline(c, frame, &[(x, 0.0), (x + 1.0, 0.0), (x + 0.5, h)]);
}

/// A point of the diamond from its shares: `r` along the cation direction, `l` along the anion one.
fn in_diamond(a: f64, b: f64) -> (f64, f64) {
    // a: share of Na + K (0 left, 1 right), b: share of HCO3 + CO3 (0 top, 1 bottom).
    let (from, to) = (a, 1.0 + GAP + (1.0 - b));
    (0.5 * (from + to), root3() * 0.5 * (to - from))
}

fn diamond(c: &mut Canvas, frame: Frame) {
    for s in STEPS {
        c.line(frame.at(in_diamond(s, 0.0)), frame.at(in_diamond(s, 1.0)), ink::HAIR, "");
        c.line(frame.at(in_diamond(0.0, s)), frame.at(in_diamond(1.0, s)), ink::HAIR, "");
    }
    outline(c, frame, &[in_diamond(0.0, 1.0), in_diamond(1.0, 1.0), in_diamond(1.0, 0.0), in_diamond(0.0, 0.0)]);
}

/// What a corner or an upper edge stands for.
fn corners(c: &mut Canvas, frame: Frame) {
    let h = root3() / 2.0;
    let style = Style::text();
    let mut say = |at: (f64, f64), (dx, dy): (f64, f64), words: &str, anchor| {
        let (x, y) = frame.at(at);
        c.text(x + dx, y + dy, words, style.hung(anchor));
    };
    let start = 1.0 + GAP;
    say((0.0, 0.0), (-4.0, 32.0), "Ca", Anchor::Start);
    say((1.0, 0.0), (-2.0, 32.0), "Na + K", Anchor::End);
    say((0.5, h), (-9.0, 2.0), "Mg", Anchor::End);
    say((start, 0.0), (-2.0, 32.0), "HCO₃ + CO₃", Anchor::Start);
    say((start + 1.0, 0.0), (4.0, 32.0), "Cl", Anchor::End);
    say((start + 0.5, h), (9.0, 2.0), "SO₄", Anchor::Start);
    say(in_diamond(0.0, 0.35), (-10.0, -2.0), "Cl + SO₄ →", Anchor::End);
    say(in_diamond(0.35, 0.0), (10.0, -2.0), "← Ca + Mg", Anchor::Start);
}

/// Percent along the three outer edges of each triangle.
fn percents(c: &mut Canvas, frame: Frame) {
    let style = Style::muted().sized(10.0);
    let h = root3() / 2.0;
    let start = 1.0 + GAP;
    for s in STEPS {
        let words = format!("{:.0}", 100.0 * s);
        for x in [0.0, start] {
            let (px, py) = frame.at((x + s, 0.0));
            c.text(px, py + 13.0, &words, style.hung(Anchor::Middle));
        }
        let (px, py) = frame.at((0.5 * s, h * s));
        c.text(px - 4.0, py + 3.0, &words, style.hung(Anchor::End));
        let (px, py) = frame.at((start + 1.0 - 0.5 * s, h * s));
        c.text(px + 4.0, py + 3.0, &words, style.hung(Anchor::Start));
    }
}
