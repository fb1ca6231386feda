//! The path picture for a telephone: the line runs down the page, each stage is a block with its
//! words and a strip of the common axis.

use super::axis;
use super::marks::{self, Along};
use super::path::{Mark, PathPicture, PathStage, draw_mark, forecast, in_words, is_known, water_said};
use super::scale::Scale;
use super::strip as strip_of_parts;
use super::{Anchor, Area, Canvas, Figure, PHONE, Style, ink};
use crate::text;
use message::{Spoken, path as said};

const LINE_X: f64 = 18.0;
const LEFT: f64 = 40.0;
const RIGHT: f64 = PHONE - 16.0;
const STRIP: f64 = 30.0;

pub(super) fn draw(p: &PathPicture) -> Figure {
    let mut c = Canvas::new();
    let under = said::UnderNarrow { bottle: p.bottle() }.text();
    let y = axis::heading(&mut c, &p.title, &under, PHONE);
    let y = p.strip.as_ref().map_or(y, |s| strip_of_parts::band(&mut c, s, (10.0, PHONE - 10.0), y + 2.0) + 10.0);
    let mut y = axis::legend(&mut c, &p.legend(), y + 18.0, PHONE) + 4.0;
    if let Some(w) = p.water {
        y = c.wrapped((10.0, y), &water_said(w, p.left).text(), Style::strong().coloured(ink::WATER), PHONE - 20.0);
    }
    let scale = p.scale((LEFT, RIGHT));
    y = numbers(&mut c, &scale, y + 6.0);
    let (first, mut last) = (y + 10.0, y + 10.0);
    let n = p.stages.len();
    let mut stations = vec![];
    for (i, s) in p.stages.iter().enumerate() {
        last = y + 10.0;
        stations.push((last, s.finding.as_ref().map(|f| f.0)));
        let found = p.found.filter(|_| i + 1 == n);
        y = stage(&mut c, &scale, s, (found, p.water), y + 14.0) + 12.0;
    }
    if n > 1 {
        c.line((LINE_X, first), (LINE_X, last), ink::LINE, "stroke-width=\"2\"");
    }
    for (y, o) in stations {
        marks::outcome(&mut c, (LINE_X, y), 7.5, o);
    }
    y = numbers(&mut c, &scale, y + 4.0);
    let y = c.wrapped((10.0, y + 8.0), &p.caption, Style::muted(), PHONE - 20.0);
    c.finish(p.head("-phone"), PHONE, y)
}

/// The axis numbers in a row; returns the y below.
fn numbers(c: &mut Canvas, scale: &Scale, y: f64) -> f64 {
    let mut free_from = 0.0;
    for t in scale.ticks() {
        let x = scale.at(t.value);
        let half = text::width(&t.label, 11.0, text::Weight::Regular) / 2.0;
        if x - half > free_from && x + half < PHONE - 2.0 {
            c.text(x, y + 8.0, &t.label, Style::muted().sized(11.0).hung(Anchor::Middle));
            free_from = x + half + 6.0;
        }
    }
    y + 14.0
}

fn stage(c: &mut Canvas, scale: &Scale, s: &PathStage, (found, water): (Option<Mark>, Option<Mark>), y: f64) -> f64 {
    let room = RIGHT - LEFT;
    let mut y = c.wrapped((LEFT, y), &s.name, Style::strong().sized(13.0), room);
    y = c.wrapped((LEFT, y), &s.detail, Style::muted(), room);
    if let Some((o, words)) = &s.finding {
        let style = Style::text();
        let state = format!("{}:", o.said().text());
        let lead = text::width(&state, 12.0, text::Weight::SemiBold) + 5.0;
        c.text(LEFT, y, &state, Style::strong().coloured(marks::colour_of(Some(*o))));
        y = c.wrapped((LEFT + lead, y), words, style, room - lead);
    }
    if s.not_here {
        marks::not_here(c, (LEFT + 7.0, y - 4.0));
        y = c.wrapped((LEFT + 20.0, y), &said::NotMeasuredHere.text(), Style::text(), room - 20.0);
    }
    if s.forecast_shown().is_some() || s.measured.is_some() {
        y = strip(c, scale, (s.forecast_shown(), s.measured, water), y - 4.0);
    }
    if let Some(f) = found {
        y = strip(c, scale, (None, Some(f), water), y - 4.0);
    }
    y
}

/// A strip of the axis with forecast, mark and number; returns the next baseline.
fn strip(
    c: &mut Canvas,
    scale: &Scale,
    (pale, mark, water): (Option<(f64, f64)>, Option<Mark>, Option<Mark>),
    y: f64,
) -> f64 {
    let middle = y + STRIP / 2.0;
    c.rect((LEFT, y), (RIGHT, y + STRIP), &format!("fill=\"none\" stroke=\"{}\"", ink::HAIR));
    for t in scale.ticks() {
        c.line((scale.at(t.value), y), (scale.at(t.value), y + STRIP), ink::HAIR, "");
    }
    match water {
        Some(Mark::Value { pg, lo, hi }) => {
            c.rect((scale.at(lo), y), (scale.at(hi), y + STRIP), &format!("fill=\"{}\"", ink::WATER_PALE));
            if pg >= scale.domain().0 {
                c.line((scale.at(pg), y), (scale.at(pg), y + STRIP), ink::WATER, "stroke-width=\"1.8\"");
            }
        }
        Some(Mark::Upper { pg } | Mark::AtMost { pg }) => {
            c.line(
                (scale.at(pg), y),
                (scale.at(pg), y + STRIP),
                ink::WATER,
                "stroke-width=\"1.8\" stroke-dasharray=\"5 3\"",
            );
        }
        None => {}
    }
    // The numbers step aside for the water's line: it is what every stage is compared with.
    if let Some(w) = water.filter(|w| is_known(*w)) {
        let x = scale.at(match w {
            Mark::Value { pg, .. } | Mark::Upper { pg } | Mark::AtMost { pg } => pg,
        });
        c.keep_clear(Area { x0: x - 1.0, y0: y, x1: x + 1.0, y1: y + STRIP });
    }
    if let Some((lo, hi)) = pale {
        let (a, b) = (scale.at(lo), scale.at(hi));
        forecast(c, (a - 0.5, y + 5.0), (b.max(a + 2.0), y + STRIP - 5.0));
    }
    if let Some(m) = mark {
        draw_mark(c, Along::X, middle, scale, m);
        number(c, scale, m, (middle, y));
    }
    y + STRIP + 16.0
}

fn number(c: &mut Canvas, scale: &Scale, m: Mark, (middle, top): (f64, f64)) {
    let (from, to) = match m {
        Mark::Upper { pg } | Mark::AtMost { pg } => (LEFT, scale.at(pg)),
        Mark::Value { lo, hi, .. } => (scale.at(lo), scale.at(hi)),
    };
    let words = format!("{} pg", in_words(m));
    let places = [
        (to + 7.0, middle + 4.0, Anchor::Start),
        (from - 7.0, middle + 4.0, Anchor::End),
        (f64::midpoint(from, to), top - 3.0, Anchor::Middle),
        (RIGHT - 3.0, middle + 4.0, Anchor::End),
        (LEFT + 3.0, middle + 4.0, Anchor::Start),
        (RIGHT - 3.0, top + STRIP + 9.0, Anchor::End),
    ];
    let within = Area { x0: LEFT + 1.0, y0: top - 15.0, x1: RIGHT - 1.0, y1: top + STRIP + 14.0 };
    if !c.text_where_free(&places, &words, Style::text().rimmed(), within) {
        c.text(RIGHT - 3.0, top + STRIP + 9.0, &words, Style::text().rimmed().hung(Anchor::End));
    }
}
