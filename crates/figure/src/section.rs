//! From the recharge area to the well, as a scheme: where the water falls, where it goes under cover,
//! how its head falls on the way. Not to scale, and it says so.
//!
//! In: words for what is known (level, distance, head, gradient, layers). Out: a [`Figure`]. What is not
//! known is named as not known and its line is left out: the scheme draws no head that nobody measured.
//! Long names stand under the picture, beside a sample of what they name, so that none is cut.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry};
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow, px};
use crate::text;
use message::{Name, Spoken, well as said};

/// What the figure shows; every part in words.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SectionPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// The recharge area: "recharge area, 38 m above sea level".
    pub recharge: String,
    /// The well: "SL-1, ground at 3.1 m".
    pub well: String,
    /// How far: "9.5 km"; none when not known.
    pub distance: Option<String>,
    /// The fall of the head: "head: falls 30 m over 9.5 km, gradient 0.0032"; none when not known.
    pub gradient: Option<String>,
    /// Does the water of the shut well stand above ground? None when not measured.
    pub rises_above_ground: Option<bool>,
    /// The layer that feeds the well; none when the log does not tell.
    pub aquifer: Option<String>,
    /// What lies over it.
    pub cover: Option<String>,
    /// The time under way: "way of the water: 500 to 3400 years"; none when not known.
    pub travel: Option<String>,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &SectionPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &said::Schematic.text(), width);
    let tall = if is_narrow(width) { 130.0 } else { 170.0 };
    let room = (width - 40.0) / 2.0;
    let left = c.wrapped((14.0, y + 20.0), &p.recharge, Style::strong(), room);
    let mut right = y + 20.0;
    for line in text::wrap(&p.well, 12.0, text::Weight::SemiBold, room) {
        c.text(width - 14.0, right, &line, Style::strong().hung(Anchor::End));
        right += Style::strong().leading();
    }
    let top = left.max(right) + 2.0;
    drawing(&mut c, p, (14.0, top), (width - 14.0, top + tall));
    let mut y = top + tall + 16.0;
    let far = p.distance.as_ref().map_or_else(|| said::DistanceNotOnRecord.text(), |d| format!("← {d} →"));
    c.text(width / 2.0, y, &far, Style::muted().hung(Anchor::Middle));
    y += 22.0;
    let y = axis::legend(&mut c, &entries(p), y, width);
    c.finish(p.head.at_width(width), width, y + 2.0)
}

fn swatch(fill: &'static str, words: String) -> Entry<'static> {
    Entry {
        sample: Box::new(move |c, x, y| {
            c.rect(
                (x - 9.0, y - 5.0),
                (x + 9.0, y + 5.0),
                &format!("fill=\"{fill}\" stroke=\"{}\"", ink::FORECAST_EDGE),
            );
        }),
        width: 18.0,
        words,
    }
}

fn entries(p: &SectionPicture) -> Vec<Entry<'static>> {
    let aquifer = match &p.aquifer {
        Some(layer) => said::AquiferLayer { layer: Name::from(layer) }.text(),
        None => said::AquiferNotOnRecord.text(),
    };
    let cover = match &p.cover {
        Some(layers) => said::CoverLayers { layers: Name::from(layers) }.text(),
        None => said::CoverNotOnRecord.text(),
    };
    let mut out = vec![swatch(ink::WATER_PALE, aquifer), swatch(ink::FORECAST, cover)];
    match &p.gradient {
        Some(g) => {
            out.push(Entry::line(ink::WATER, "stroke-width=\"1.8\" stroke-dasharray=\"6 3\"", g));
        }
        None => out.push(swatch("none", said::HeadNoLine.text())),
    }
    if let Some(t) = &p.travel {
        out.push(Entry::line(ink::WATER, "stroke-width=\"2.6\"", t));
    }
    out
}

/// Ground, cover, aquifer, way of the water, well and head, between two corners.
fn drawing(c: &mut Canvas, p: &SectionPicture, (x0, y0): (f64, f64), (x1, y1): (f64, f64)) {
    let at = |fx: f64, fy: f64| (x0 + fx * (x1 - x0), y0 + fy * (y1 - y0));
    let pt = |fx: f64, fy: f64| {
        let (x, y) = at(fx, fy);
        format!("{} {}", px(x), px(y))
    };
    // Shares of width and height: a heath on the left, a lowland on the right; the aquifer dips under the cover.
    let fill = |colour: &str| format!("fill=\"{colour}\" stroke=\"{}\"", ink::FORECAST_EDGE);
    c.shape(
        &format!(
            "M{}C{} {} {}L{}L{}C{} {} {}Z",
            pt(0.0, 0.16),
            pt(0.12, 0.1),
            pt(0.2, 0.2),
            pt(0.3, 0.42),
            pt(1.0, 0.74),
            pt(1.0, 0.98),
            pt(0.6, 0.96),
            pt(0.2, 0.85),
            pt(0.0, 0.62)
        ),
        &fill(ink::WATER_PALE),
    );
    c.shape(
        &format!(
            "M{}C{} {} {}L{}L{}Z",
            pt(0.3, 0.42),
            pt(0.38, 0.5),
            pt(0.5, 0.5),
            pt(0.6, 0.5),
            pt(1.0, 0.5),
            pt(1.0, 0.74)
        ),
        &fill(ink::FORECAST),
    );
    c.shape(
        &format!(
            "M{}C{} {} {}C{} {} {}L{}",
            pt(0.0, 0.16),
            pt(0.12, 0.1),
            pt(0.2, 0.2),
            pt(0.3, 0.42),
            pt(0.38, 0.5),
            pt(0.5, 0.5),
            pt(0.6, 0.5),
            pt(1.0, 0.5)
        ),
        &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.8\"", ink::TEXT),
    );
    way(c, at);
    let (wx, ground) = at(0.86, 0.5);
    let (_, foot) = at(0.86, 0.84);
    c.line((wx, ground - 6.0), (wx, foot), ink::TEXT, "stroke-width=\"4\"");
    c.line((wx, foot - 16.0), (wx, foot), ink::PAPER, "stroke-width=\"2\" stroke-dasharray=\"2 2\"");
    if p.gradient.is_some() {
        let head = at(0.86, if p.rises_above_ground == Some(false) { 0.56 } else { 0.34 });
        c.line(at(0.13, 0.2), head, ink::WATER, "stroke-width=\"1.8\" stroke-dasharray=\"6 3\"");
        c.line((head.0 - 9.0, head.1), (head.0 + 9.0, head.1), ink::WATER, "stroke-width=\"2\"");
        c.line(head, (wx, ground - 6.0), ink::WATER, "stroke-dasharray=\"2 2\"");
    }
}

/// Rain on the recharge area and the way under the cover, with an arrow's head at the well.
fn way(c: &mut Canvas, at: impl Fn(f64, f64) -> (f64, f64)) {
    for fx in [0.05, 0.11, 0.17] {
        let (x, y) = at(fx, 0.0);
        c.line((x, y), (x - 3.0, y + 10.0), ink::WATER, "stroke-width=\"1.4\"");
    }
    let p = |(x, y): (f64, f64)| format!("{} {}", px(x), px(y));
    let end = at(0.83, 0.8);
    let d = format!("M{}C{} {} {}", p(at(0.12, 0.26)), p(at(0.2, 0.6)), p(at(0.5, 0.72)), p(end));
    c.shape(&d, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"2.6\"", ink::WATER));
    let tip = format!("M{}l-9 -5.5l1 9Z", p((end.0 + 5.0, end.1 + 1.0)));
    c.shape(&tip, &format!("fill=\"{}\"", ink::WATER));
}
