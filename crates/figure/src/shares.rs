//! What form a metal takes: its species against pH, with this water's pH marked.
//!
//! In: pH values and for each species its share (0 to 1) at each of them. Out: a [`Figure`]: a line
//! a species, told apart by dash and width and named both on the line, where there is room, and in
//! the legend with its share at this water's pH.
//! What it does not do: no chemistry; totals are held by who computed the shares.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::scale::Scale;
use super::{Anchor, Area, Canvas, Figure, Head, Style, ink, is_narrow};
use message::{Shown, Spoken, figure as said, share};

/// One species.
#[derive(Debug, Clone, PartialEq)]
pub struct SpeciesLine {
    /// Name.
    pub name: String,
    /// Share at each pH.
    pub shares: Vec<f64>,
    /// Share in this water.
    pub here: f64,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SharesPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// pH of the columns.
    pub ph: Vec<f64>,
    /// This water's pH.
    pub here: f64,
    /// Species, the most important first; at most eight are told apart.
    pub lines: Vec<SpeciesLine>,
}

const STYLES: [(&str, &str); 8] = [
    (ink::TEXT, "stroke-width=\"2.4\""),
    (ink::WATER, "stroke-width=\"2\" stroke-dasharray=\"8 4\""),
    (ink::NOT_MET, "stroke-width=\"2\" stroke-dasharray=\"2.5 3\""),
    (ink::NOT_KNOWN, "stroke-width=\"1.6\" stroke-dasharray=\"10 3 2 3\""),
    (ink::MUTED, "stroke-width=\"1.2\""),
    (ink::MET, "stroke-width=\"1.4\" stroke-dasharray=\"4 6\""),
    (ink::LINE, "stroke-width=\"2.6\" stroke-dasharray=\"1.5 2\""),
    (ink::TEXT, "stroke-width=\"1\" stroke-dasharray=\"12 4\""),
];

/// Whole percent, as the caption has them.
fn percent_here(share: f64) -> message::Name {
    quantity::format::percent_whole(share).into()
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &SharesPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let entries: Vec<Entry> = p
        .lines
        .iter()
        .zip(STYLES)
        .map(|(l, (colour, more))| {
            Entry::line(colour, more, said::Here { name: l.name.as_str().into(), percent: percent_here(l.here) }.text())
        })
        .collect();
    let y = axis::legend(&mut c, &entries, y + 18.0, width);
    let narrow = is_narrow(width);
    let height = if narrow { 200.0 } else { 250.0 };
    let plot = Plot {
        left: if narrow { 40.0 } else { 64.0 },
        right: width - if narrow { 14.0 } else { 40.0 },
        top: y + 24.0,
        bottom: y + 24.0 + height,
    };
    let x = Scale::linear(p.ph.iter().copied().chain([p.here]), (plot.left, plot.right));
    let up = Scale::linear([0.0, 100.0], (plot.bottom, plot.top));
    axis::vertical(&mut c, &up, plot);
    axis::horizontal(&mut c, &x, plot);
    axis::foot(&mut c, plot);
    here(&mut c, p.here, (&x, plot));
    for (l, (colour, more)) in p.lines.iter().zip(STYLES) {
        let points: Vec<(f64, f64)> =
            p.ph.iter()
                .zip(&l.shares)
                .filter(|(_, s)| s.is_finite())
                .map(|(v, s)| (x.at(*v), up.at(100.0 * s)))
                .collect();
        c.polyline(&points, colour, &format!("{more} stroke-linejoin=\"round\""));
    }
    // After all lines, which would otherwise run across the names.
    for (l, (colour, _)) in p.lines.iter().zip(STYLES) {
        name_on_line(&mut c, l, (p, &x, &up), (plot, colour));
    }
    c.text(8.0, plot.top - 9.0, "%", Style::muted());
    c.text(plot.right, plot.bottom + 33.0, "pH", Style::muted().hung(Anchor::End));
    c.finish(p.head.at_width(width), width, plot.bottom + 42.0)
}

fn here(c: &mut Canvas, ph: f64, (x, plot): (&Scale, Plot)) {
    let at = x.at(ph);
    c.line((at, plot.top - 4.0), (at, plot.bottom), ink::WATER, "stroke-width=\"1.6\" stroke-dasharray=\"6 3\"");
    let words = share::ThisWater { ph: Shown::decimals(ph, 2, "") }.text();
    let half = crate::text::width(&words, 12.0, crate::text::Weight::Regular) / 2.0;
    let low = 24.0 + half;
    let middle = at.clamp(low, (plot.right - half).max(low));
    c.text(middle, plot.top - 9.0, &words, Style::text().coloured(ink::WATER).hung(Anchor::Middle));
    c.keep_clear(Area { x0: at - 2.0, y0: plot.top, x1: at + 2.0, y1: plot.bottom });
}

/// The name beside the highest point of its line, where no other line or name stands.
fn name_on_line(
    c: &mut Canvas,
    l: &SpeciesLine,
    (p, x, up): (&SharesPicture, &Scale, &Scale),
    (plot, colour): (Plot, &'static str),
) {
    let Some((k, peak)) = l.shares.iter().enumerate().filter(|(_, s)| s.is_finite()).max_by(|a, b| a.1.total_cmp(b.1))
    else {
        return;
    };
    // Such lines lie close together at the foot; the legend names them.
    if *peak < 0.1 {
        return;
    }
    let style = Style::text().coloured(colour).rimmed();
    let within = Area { x0: plot.left + 2.0, y0: plot.top - 2.0, x1: plot.right - 2.0, y1: plot.bottom - 2.0 };
    let crossed = |area: &Area| {
        p.lines.iter().any(|other| {
            p.ph.iter().zip(&other.shares).any(|(ph, s)| {
                let (a, b) = (x.at(*ph), up.at(100.0 * s));
                a >= area.x0 - 3.0 && a <= area.x1 + 3.0 && b >= area.y0 - 2.0 && b <= area.y1 + 2.0
            })
        })
    };
    // From the peak outwards on both sides; a name that finds no place stands in the legend alone.
    for (back, on) in [(0, 0), (0, 2), (2, 0), (0, 4), (4, 0), (0, 7), (7, 0), (0, 10), (10, 0)] {
        let i = (k + on).saturating_sub(back).min(p.ph.len() - 1);
        let (a, b) = (x.at(p.ph[i]), up.at(100.0 * l.shares[i]));
        for (place, anchor) in [
            ((a, b - 7.0), Anchor::Middle),
            ((a, b + 15.0), Anchor::Middle),
            ((a + 7.0, b + 4.0), Anchor::Start),
            ((a - 7.0, b + 4.0), Anchor::End),
        ] {
            let area = Canvas::area_of(place.0, place.1, &l.name, style.hung(anchor));
            if !crossed(&area) && c.text_where_free(&[(place.0, place.1, anchor)], &l.name, style, within) {
                return;
            }
        }
    }
}
