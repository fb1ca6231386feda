//! What earlier trips found: a short time line beside the newest value.
//!
//! In: values with their intervals and times in years. Out: a [`Figure`] of a third of a page's width. Where there is no
//! earlier value a dashed box says so: nothing that looks like a value stands where none was measured.
//! Checked in `tests/figures_strip.rs`.

use super::marks::{self, Along};
use super::scale::Scale;
use super::{Anchor, Canvas, Figure, Head, Style, ink};
use message::{Spoken, strip as said};

/// Width, px: letters of 12 px are then as high as the text of the page.
pub const WIDTH: f64 = 270.0;

/// A value of a trip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Then {
    /// When, decimal year.
    pub year: f64,
    /// The value; of a bound its upper end.
    pub value: f64,
    /// Ends of the 95 % interval; none for a bound.
    pub interval: Option<(f64, f64)>,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EarlierPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Unit of the values.
    pub unit: String,
    /// Values in order of time; the last is the newest.
    pub values: Vec<Then>,
    /// How the newest is printed.
    pub newest: String,
}

/// Draws the figure.
pub fn draw(p: &EarlierPicture) -> Figure {
    const TOP: f64 = 12.0;
    const FOOT: f64 = 66.0;
    let mut c = Canvas::new();
    let (left, right) = (8.0, WIDTH - 14.0);
    let foot = |c: &mut Canvas| c.line((left, FOOT), (right, FOOT), ink::LINE, "stroke-width=\"1.4\"");
    let Some(last) = p.values.last().copied().filter(|v| v.year.is_finite()) else {
        foot(&mut c);
        return c.finish(p.head.clone(), WIDTH, FOOT + 20.0);
    };
    let alone = p.values.len() == 1;
    let first = if alone { last.year - 1.2 } else { p.values[0].year };
    let span = (last.year - first).max(0.5);
    let x = Scale::linear([first - 0.06 * span, last.year + 0.12 * span], (left, right));
    let ends = p.values.iter().flat_map(|v| v.interval.map_or([v.value, v.value], |(lo, hi)| [lo, hi]));
    let y = Scale::linear(ends.chain([0.0]), (FOOT - 6.0, TOP + 6.0));
    foot(&mut c);
    if alone {
        let box_right = x.at(last.year) - 60.0;
        let look = format!("fill=\"none\" stroke=\"{}\" stroke-dasharray=\"4 3\"", ink::LINE);
        c.rect((left, TOP + 12.0), (box_right, FOOT - 8.0), &look);
        c.text(left + 8.0, f64::midpoint(TOP, FOOT) + 6.0, &said::NoneOnRecord.text(), Style::muted());
    }
    for v in &p.values {
        match v.interval {
            Some((lo, hi)) => marks::measured(&mut c, Along::Y, x.at(v.year), (y.at(lo), y.at(v.value), y.at(hi))),
            None => marks::nothing_found(&mut c, Along::Y, x.at(v.year), (FOOT, y.at(v.value)), 4.0),
        }
    }
    // Over the dashed box and beside the mark.
    let at = (x.at(last.year) - 10.0, TOP);
    c.text(at.0, at.1, &p.newest, Style::strong().hung(Anchor::End).rimmed());
    let mut years: Vec<f64> = vec![first.ceil(), last.year.floor()];
    years.dedup();
    for year in years.into_iter().filter(|t| *t >= first - 0.06 * span) {
        c.line((x.at(year), FOOT), (x.at(year), FOOT + 4.0), ink::LINE, "");
        c.text(x.at(year), FOOT + 17.0, &format!("{year:.0}"), Style::muted().hung(Anchor::Middle));
    }
    c.finish(p.head.clone(), WIDTH, FOOT + 22.0)
}
