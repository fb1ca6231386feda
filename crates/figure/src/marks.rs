//! The marks that all figures share, so that a shape means one thing in the whole report.
//!
//! * a disc with an interval: a measured value and its interval;
//! * an open dashed bar with a firm end: nothing found, the firm end is the upper bound;
//! * a downward open triangle at the foot: measured at or below zero;
//! * a tick, a cross, a question mark: a check met, not met, not known;
//! * a filled square, a half-filled square, a crossed square: accepted, provisional, rejected.
//!
//! In: positions in px. Out: drawn on the [`Canvas`].

use super::{Area, Canvas, ink, px};
use quantity::Outcome;

/// Direction of the value axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// Values grow to the right.
    X,
    /// Values grow upwards.
    Y,
}

/// A point at (value position, other position).
fn place(along: Along, value: f64, other: f64) -> (f64, f64) {
    match along {
        Along::X => (value, other),
        Along::Y => (other, value),
    }
}

/// A measured value with its interval (positions in px along the value axis).
pub fn measured(c: &mut Canvas, along: Along, other: f64, (lo, value, hi): (f64, f64, f64)) {
    let colour = ink::TEXT;
    c.line(place(along, lo, other), place(along, hi, other), colour, "stroke-width=\"2.4\"");
    for end in [lo, hi] {
        c.line(place(along, end, other - 4.0), place(along, end, other + 4.0), colour, "stroke-width=\"1.2\"");
    }
    c.circle(place(along, value, other), 4.2, &format!("fill=\"{colour}\" stroke=\"{}\"", ink::PAPER));
    clear(c, along, other, 6.0, (lo.min(hi), lo.max(hi)));
}

/// Nothing found: an open dashed bar from the foot of the axis to the upper bound.
pub fn nothing_found(c: &mut Canvas, along: Along, other: f64, (foot, bound): (f64, f64), half: f64) {
    c.rect(
        place(along, foot, other - half),
        place(along, bound, other + half),
        &format!("fill=\"{}\" fill-opacity=\"0.6\" stroke=\"{}\" stroke-dasharray=\"3 2.5\"", ink::PAPER, ink::TEXT),
    );
    c.line(
        place(along, bound, other - half - 4.0),
        place(along, bound, other + half + 4.0),
        ink::TEXT,
        "stroke-width=\"2.4\"",
    );
    clear(c, along, other, half + 4.0, (foot.min(bound), foot.max(bound)));
}

/// Not measured here: a hollow dashed ring, which has no height and so no value.
pub fn not_here(c: &mut Canvas, (x, y): (f64, f64)) {
    let look =
        format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.4\" stroke-dasharray=\"2.5 2\"", ink::PAPER, ink::TEXT);
    c.circle((x, y), 6.0, &look);
    c.keep_clear(super::Area { x0: x - 7.0, y0: y - 7.0, x1: x + 7.0, y1: y + 7.0 });
}

/// Measured at or below zero on an axis that ends above zero: an open triangle at the foot points
/// out of the picture, a thin line runs up to the interval's upper end.
pub fn below_axis(c: &mut Canvas, along: Along, other: f64, (foot, hi): (f64, f64)) {
    let away = if hi > foot || along == Along::Y && hi >= foot { 1.0 } else { -1.0 };
    c.line(place(along, foot, other), place(along, hi, other), ink::TEXT, "stroke-width=\"1.2\"");
    c.line(place(along, hi, other - 4.0), place(along, hi, other + 4.0), ink::TEXT, "stroke-width=\"1.2\"");
    let inward = foot + 9.0 * if along == Along::Y { -1.0 } else { away };
    let (tip, a, b) = (place(along, foot, other), place(along, inward, other - 5.0), place(along, inward, other + 5.0));
    c.shape(
        &format!("M{} {}L{} {}L{} {}Z", px(tip.0), px(tip.1), px(a.0), px(a.1), px(b.0), px(b.1)),
        &format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.4\"", ink::PAPER, ink::TEXT),
    );
    clear(c, along, other, 6.0, (foot.min(hi), foot.max(hi)));
}

fn clear(c: &mut Canvas, along: Along, other: f64, half: f64, (from, to): (f64, f64)) {
    c.keep_clear(match along {
        Along::X => Area { x0: from - 3.0, y0: other - half, x1: to + 3.0, y1: other + half },
        Along::Y => Area { x0: other - half, y0: from - 3.0, x1: other + half, y1: to + 3.0 },
    });
}

/// Sign of an outcome, drawn: tick, cross, question mark in a ring.
pub fn outcome(c: &mut Canvas, (x, y): (f64, f64), r: f64, outcome: Option<Outcome>) {
    let ground = format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.6\"", ink::PAPER, colour_of(outcome));
    let line = |d: String, c: &mut Canvas| {
        c.shape(
            &d,
            &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.8\" stroke-linecap=\"round\"", colour_of(outcome)),
        );
    };
    let at = |dx: f64, dy: f64| format!("{} {}", px(x + dx * r), px(y + dy * r));
    // Circle, square, dashed circle: the outcome is told by the shape, so that a grey print loses nothing.
    match outcome {
        None => c.circle((x, y), r * 0.62, &ground),
        Some(Outcome::Met) => {
            c.circle((x, y), r, &ground);
            line(format!("M{}L{}L{}", at(-0.45, 0.05), at(-0.1, 0.42), at(0.5, -0.38)), c);
        }
        Some(Outcome::NotMet) => {
            c.rect((x - r, y - r), (x + r, y + r), &ground);
            line(format!("M{}L{}M{}L{}", at(-0.42, -0.42), at(0.42, 0.42), at(-0.42, 0.42), at(0.42, -0.42)), c);
        }
        Some(Outcome::NotKnown) => {
            c.circle((x, y), r, &format!("{ground} stroke-dasharray=\"2.2 1.8\""));
            line(
                format!(
                    "M{}C{} {} {}L{}M{}L{}",
                    at(-0.32, -0.3),
                    at(-0.3, -0.72),
                    at(0.42, -0.7),
                    at(0.3, -0.15),
                    at(0.0, 0.16),
                    at(0.0, 0.5),
                    at(0.0, 0.52)
                ),
                c,
            );
        }
    }
}

/// Colour that repeats what an outcome's shape and word say.
pub fn colour_of(outcome: Option<Outcome>) -> &'static str {
    match outcome {
        None => ink::LINE,
        Some(Outcome::Met) => ink::MET,
        Some(Outcome::NotMet) => ink::NOT_MET,
        Some(Outcome::NotKnown) => ink::NOT_KNOWN,
    }
}

/// Shape of a point that belongs to a group; groups differ by shape, then by lightness.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Point {
    /// Filled disc.
    Disc,
    /// Open ring.
    Ring,
    /// Open square.
    Square,
    /// Filled triangle.
    Triangle,
    /// Open diamond.
    Diamond,
    /// A cross: taken out, or beyond a limit.
    Cross,
}

/// A point of a group.
pub fn point(c: &mut Canvas, (x, y): (f64, f64), kind: Point, colour: &str) {
    let open = format!("fill=\"{}\" stroke=\"{colour}\" stroke-width=\"1.4\"", ink::PAPER);
    let full = format!("fill=\"{colour}\" stroke=\"{}\" stroke-width=\"0.6\"", ink::PAPER);
    let p = |dx: f64, dy: f64| format!("{} {}", px(x + dx), px(y + dy));
    match kind {
        Point::Disc => c.circle((x, y), 3.4, &full),
        Point::Ring => c.circle((x, y), 3.2, &open),
        Point::Square => c.rect((x - 2.9, y - 2.9), (x + 2.9, y + 2.9), &open),
        Point::Triangle => c.shape(&format!("M{}L{}L{}Z", p(0.0, -4.2), p(4.0, 3.0), p(-4.0, 3.0)), &full),
        Point::Diamond => {
            c.shape(&format!("M{}L{}L{}L{}Z", p(0.0, -4.2), p(4.2, 0.0), p(0.0, 4.2), p(-4.2, 0.0)), &open);
        }
        Point::Cross => c.shape(
            &format!("M{}L{}M{}L{}", p(-3.2, -3.2), p(3.2, 3.2), p(-3.2, 3.2), p(3.2, -3.2)),
            &format!("fill=\"none\" stroke=\"{colour}\" stroke-width=\"1.8\""),
        ),
    }
    c.keep_clear(Area { x0: x - 4.0, y0: y - 4.0, x1: x + 4.0, y1: y + 4.0 });
}
