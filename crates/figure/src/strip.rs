//! Of 100 parts of the metal in a bottle: one linear bar, and the small parts once more, enlarged by a whole factor.
//!
//! In: the parts of the accounting with whole numbers that sum to 100, their names and amounts in words. Out: a
//! [`Figure`], or the bar as the head of another drawing ([`band`]). A part is told by its fill, which a grey print keeps:
//! water solid, pipe upright bars, what is not told apart dotted, air pale, bottle diagonal, journey grey, laboratory white.
//! Parts of bottles that disagree are pale: they stand by a model alone.
//! What it does not do: no number is computed here. Checked in `tests/figures_strip.rs`.

use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow, px};
use crate::text::{self, Weight};
use message::{Shown, Spoken, strip as said};

/// What tells a part from the others, also in grey.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fill {
    /// The water: solid.
    Water,
    /// The pipe: upright bars.
    Pipe,
    /// Water and what nothing tells from it: dotted.
    NotToldApart,
    /// Air and hands: pale.
    Air,
    /// Bottle and acid: diagonal lines.
    Bottle,
    /// The journey: grey.
    Journey,
    /// The laboratory: white.
    Laboratory,
}

/// Mid grey, apart from the pale of the air by 12 in lightness.
const GREY: &str = "#b4bdbf";

/// One part.
#[derive(Debug, Clone, PartialEq)]
pub struct StripPart {
    /// Its fill.
    pub fill: Fill,
    /// Its share of the metal in the bottle, 0 to 1.
    pub share: f64,
    /// The same of a hundred, in whole parts: "91", "<1".
    pub number: String,
    /// Its name.
    pub name: String,
    /// Its interval or amount; may be empty.
    pub amount: String,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StripPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Which bottle, and how much metal is in it.
    pub bottle: String,
    /// The parts in the order of the way.
    pub parts: Vec<StripPart>,
    /// The parts stand by a model alone: the bottles of this water disagree.
    pub by_model: bool,
}

/// Parts under this share are enlarged.
const SMALL: f64 = 0.10;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &StripPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let margin = if is_narrow(width) { 8.0 } else { 1.0 };
    let title = Style::strong().sized(14.5);
    let y = c.wrapped((margin, 16.0), &p.head.title, title, width - 2.0 * margin);
    let right = Style::muted().hung(Anchor::End);
    let beside =
        text::width(&p.head.title, 14.5, Weight::SemiBold) + text::width(&p.bottle, 12.0, Weight::Regular) + 20.0;
    let y = if beside < width - 2.0 * margin {
        c.text(width - margin, 16.0, &p.bottle, right);
        y
    } else {
        c.wrapped((margin, y), &p.bottle, Style::muted(), width - 2.0 * margin)
    };
    let y = band(&mut c, p, (margin, width - margin), y - 8.0);
    c.finish(p.head.at_width(width), width, y + 4.0)
}

/// Draws the bar between two edges from `top` down; answers where it ends.
pub fn band(c: &mut Canvas, p: &StripPicture, (left, right): (f64, f64), top: f64) -> f64 {
    const HEIGHT: f64 = 34.0;
    let whole: f64 = p.parts.iter().map(|part| part.share).sum();
    if whole <= 0.0 {
        return top;
    }
    let room = right - left;
    let mut listed: Vec<&StripPart> = vec![];
    let mut x = left;
    for part in &p.parts {
        let w = room * part.share / whole;
        fill(c, part.fill, (x, top), (x + w, top + HEIGHT), p.by_model);
        if !labelled(c, part, (x, x + w), (top, HEIGHT), p.by_model) {
            listed.push(part);
        }
        x += w;
    }
    let small: Vec<&StripPart> = p.parts.iter().filter(|part| part.share / whole < SMALL).collect();
    let mut y = top + HEIGHT;
    if small.len() > 1 || (small.len() == 1 && small[0].share / whole < 0.5 * SMALL) {
        y = enlarged(c, &small, whole, (left, right), y, p.by_model);
    }
    list(c, &listed, (left, right), y + 20.0, p.by_model)
}

/// Writes a part's name into it where there is room.
fn labelled(c: &mut Canvas, part: &StripPart, (x0, x1): (f64, f64), (top, height): (f64, f64), by_model: bool) -> bool {
    let number = Style::strong().sized(17.0);
    let name = Style::text().sized(13.0);
    let of_number = text::width(&part.number, 17.0, Weight::SemiBold);
    let of_name = text::width(&part.name, 13.0, Weight::Regular);
    let of_amount = text::width(&part.amount, 12.0, Weight::Regular);
    let together = of_number + of_name + 24.0;
    if together + 6.0 > x1 - x0 {
        return false;
    }
    let y = top + height / 2.0 + 5.0;
    let solid = part.fill == Fill::Water && !by_model;
    let ground = |c: &mut Canvas, a: f64, b: f64| {
        if !solid {
            c.rect((a, top + 4.0), (b, top + height - 4.0), &format!("fill=\"{}\"", ink::PAPER));
        }
    };
    let coloured = |s: Style| if solid { s.coloured(ink::PAPER) } else { s };
    ground(c, x0 + 5.0, x0 + together);
    c.text(x0 + 10.0, y, &part.number, coloured(number));
    c.text(x0 + 18.0 + of_number, y, &part.name, coloured(name));
    if together + of_amount + 26.0 < x1 - x0 {
        ground(c, x1 - of_amount - 14.0, x1 - 5.0);
        c.text(x1 - 9.0, y, &part.amount, coloured(Style::text()).hung(Anchor::End));
    }
    true
}

/// The small parts once more, a whole number of times as wide.
fn enlarged(
    c: &mut Canvas,
    small: &[&StripPart],
    whole: f64,
    (left, right): (f64, f64),
    y: f64,
    by_model: bool,
) -> f64 {
    let share: f64 = small.iter().map(|part| part.share).sum::<f64>() / whole;
    let factor = (0.8 / share.max(1e-9)).floor().clamp(2.0, 1e6);
    let room = right - left;
    let begin = right - room * share * factor;
    let top = y + 20.0;
    // From the end of the bar, where the small parts stand; those within it are gathered here too.
    c.line((right - room * share, y), (begin, top), ink::LINE, "");
    c.line((right, y), (right, top), ink::LINE, "");
    let mut x = begin;
    for part in small {
        let w = room * factor * part.share / whole;
        fill(c, part.fill, (x, top), (x + w, top + 22.0), by_model);
        x += w;
    }
    let words = said::TimesAsWide { factor: Shown::decimals(factor, 0, "").typeset() }.text();
    let style = Style::muted();
    if begin - left > text::width(&words, 12.0, Weight::Regular) + 10.0 {
        c.text(left, top + 16.0, &words, style);
        return top + 22.0;
    }
    c.text(left, top + 37.0, &words, style);
    top + 42.0
}

/// The parts that have no name in the bar, each with its fill.
fn list(c: &mut Canvas, parts: &[&StripPart], (left, right): (f64, f64), y: f64, by_model: bool) -> f64 {
    if parts.is_empty() {
        return y - 16.0;
    }
    let (mut x, mut y) = (left, y);
    for part in parts {
        let of_number = text::width(&part.number, 13.0, Weight::SemiBold);
        let name = part.name.as_str();
        let of_name = text::width(name, 12.0, Weight::Regular);
        let of_amount =
            if part.amount.is_empty() { 0.0 } else { text::width(&part.amount, 12.0, Weight::Regular) + 6.0 };
        let wide = 20.0 + of_number + 6.0 + of_name + of_amount;
        if x > left && x + wide > right {
            x = left;
            y += 19.0;
        }
        fill(c, part.fill, (x, y - 9.0), (x + 14.0, y + 2.0), by_model);
        c.text(x + 20.0, y, &part.number, Style::strong().sized(13.0));
        let at = x + 26.0 + of_number;
        if at + of_name + of_amount <= right {
            c.text(at, y, name, Style::text());
            c.text(at + of_name + 6.0, y, &part.amount, Style::muted());
        } else {
            // A name longer than the picture is broken, its amount stands beneath.
            let end = c.wrapped((at, y), name, Style::text(), right - at);
            y = c.wrapped((at, end), &part.amount, Style::muted(), right - at) - Style::muted().leading();
        }
        x += wide + 18.0;
    }
    y + 8.0
}

/// A part's area with its fill.
fn fill(c: &mut Canvas, fill: Fill, (x0, y0): (f64, f64), (x1, y1): (f64, f64), by_model: bool) {
    if x1 - x0 <= 0.0 {
        return;
    }
    let ground = match fill {
        Fill::Water if by_model => ink::WATER_PALE,
        Fill::Water => ink::WATER,
        Fill::NotToldApart => ink::WATER_PALE,
        Fill::Air => ink::FORECAST,
        Fill::Journey => GREY,
        Fill::Pipe | Fill::Bottle | Fill::Laboratory => "#ffffff",
    };
    c.rect((x0, y0), (x1, y1), &format!("fill=\"{ground}\""));
    match fill {
        Fill::Pipe => bars(c, (x0, y0), (x1, y1), if by_model { ink::LINE } else { ink::TEXT }),
        Fill::NotToldApart => dots(c, (x0, y0), (x1, y1)),
        Fill::Bottle => diagonals(c, (x0, y0), (x1, y1)),
        Fill::Water | Fill::Air | Fill::Journey | Fill::Laboratory => {}
    }
    c.rect((x0, y0), (x1, y1), &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.1\"", ink::TEXT));
}

fn bars(c: &mut Canvas, (x0, y0): (f64, f64), (x1, y1): (f64, f64), colour: &str) {
    let mut d = String::new();
    let mut x = x0 + 3.0;
    while x < x1 - 1.0 {
        d += &format!("M{} {}L{} {}", px(x), px(y0), px(x), px(y1));
        x += 7.0;
    }
    if !d.is_empty() {
        c.shape(&d, &format!("stroke=\"{colour}\" stroke-width=\"3\" fill=\"none\""));
    }
}

fn dots(c: &mut Canvas, (x0, y0): (f64, f64), (x1, y1): (f64, f64)) {
    let mut d = String::new();
    let mut y = y0 + 5.0;
    let mut odd = false;
    while y < y1 - 1.0 {
        let mut x = x0 + if odd { 9.0 } else { 4.0 };
        while x < x1 - 1.0 {
            d += &format!("M{} {}h0", px(x), px(y));
            x += 10.0;
        }
        y += 7.0;
        odd = !odd;
    }
    if !d.is_empty() {
        let look = format!("stroke=\"{}\" stroke-width=\"2.4\" stroke-linecap=\"round\" fill=\"none\"", ink::WATER);
        c.shape(&d, &look);
    }
}

fn diagonals(c: &mut Canvas, (x0, y0): (f64, f64), (x1, y1): (f64, f64)) {
    let height = y1 - y0;
    let mut d = String::new();
    let mut at = x0 - height + 4.0;
    while at < x1 {
        // From the foot at `at` up to the right, cut at the sides.
        let (from, to) = (at.max(x0), (at + height).min(x1));
        if to > from {
            d += &format!("M{} {}L{} {}", px(from), px(y1 - (from - at)), px(to), px(y1 - (to - at)));
        }
        at += 7.0;
    }
    if !d.is_empty() {
        c.shape(&d, &format!("stroke=\"{}\" stroke-width=\"1.2\" fill=\"none\"", ink::MUTED));
    }
}
