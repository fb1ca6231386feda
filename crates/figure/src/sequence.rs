//! A run in time: does the instrument hold, and do the checks say so?
//!
//! In: readings with their time (seconds since 1970, clock on the wall), the internal standard in
//! percent of its first readings, the drift that the reduction removed, checks as recovery in
//! percent with interval, the programme's limits. Out: a [`Figure`] with one or two panels.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{Point, point};
use super::scale::Scale;
use super::{Anchor, Area, Canvas, Figure, Head, Style, ink, is_narrow};
use message::{Message, Spoken, figure as label, word};

/// What a vial was in the run; groups are told apart by shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum VialKind {
    /// Calibration blank or standard.
    Calibration,
    /// Any blank.
    Blank,
    /// Sample, duplicate, spike.
    Sample,
    /// Drift check or reference material.
    Check,
}

impl VialKind {
    const ALL: [Self; 4] = [Self::Calibration, Self::Blank, Self::Sample, Self::Check];

    fn look(self) -> (Point, &'static str) {
        match self {
            Self::Calibration => (Point::Square, ink::WATER),
            Self::Blank => (Point::Ring, ink::MUTED),
            Self::Sample => (Point::Disc, ink::TEXT),
            Self::Check => (Point::Triangle, ink::NOT_KNOWN),
        }
    }

    fn said(self) -> Message {
        match self {
            Self::Calibration => word::Calibration.into(),
            Self::Blank => word::Blank.into(),
            Self::Sample => word::Sample.into(),
            Self::Check => label::Check.into(),
        }
    }
}

/// One reading of the internal standard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InternalReading {
    /// Time, s.
    pub time_s: f64,
    /// Internal standard, % of its first readings.
    pub percent: f64,
    /// What the vial was.
    pub kind: VialKind,
}

/// One check: recovery with its interval.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckReading {
    /// Time, s.
    pub time_s: f64,
    /// Recovery, %.
    pub percent: f64,
    /// Lower end of the interval, %.
    pub lo: f64,
    /// Upper end of the interval, %.
    pub hi: f64,
    /// Name of the vial.
    pub name: String,
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SequencePicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Sentence under the title.
    pub under: String,
    /// Internal standard; may be empty.
    pub internal: Vec<InternalReading>,
    /// Limits of the internal standard, %.
    pub internal_limits: Option<(f64, f64)>,
    /// The drift factor that was removed, as (time, %); may be empty.
    pub drift: Vec<(f64, f64)>,
    /// Checks; may be empty.
    pub checks: Vec<CheckReading>,
    /// Limits of the checks, %.
    pub check_limits: Option<(f64, f64)>,
}

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &SequencePicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let y = axis::heading(&mut c, &p.head.title, &p.under, width);
    let y = axis::legend(&mut c, &legend(p), y + 18.0, width);
    let times = p.internal.iter().map(|r| r.time_s).chain(p.checks.iter().map(|r| r.time_s));
    let left = if is_narrow(width) { 44.0 } else { 66.0 };
    let x = Scale::time(times, (left, width - 20.0));
    let mut plot = Plot { left, right: width - 20.0, top: y + 22.0, bottom: y + 22.0 };
    if !p.internal.is_empty() {
        plot.bottom = plot.top + 130.0;
        internal_panel(&mut c, p, &x, plot);
        plot.top = plot.bottom + 44.0;
    }
    if !p.checks.is_empty() {
        plot.bottom = plot.top + 120.0;
        check_panel(&mut c, p, &x, plot);
    }
    c.text(plot.right, plot.bottom + 33.0, &label::TimeOfDay.text(), Style::muted().hung(Anchor::End));
    c.finish(p.head.at_width(width), width, plot.bottom + 42.0)
}

fn legend(p: &SequencePicture) -> Vec<Entry<'static>> {
    let mut out: Vec<Entry> = VialKind::ALL
        .into_iter()
        .filter(|k| p.internal.iter().any(|r| r.kind == *k) || (*k == VialKind::Check && !p.checks.is_empty()))
        .map(|k| {
            let (shape, colour) = k.look();
            Entry::point(shape, colour, k.said().text())
        })
        .collect();
    if !p.drift.is_empty() {
        out.push(Entry::line(ink::WATER, "stroke-width=\"1.8\"", label::DriftRemoved.text()));
    }
    if p.internal_limits.is_some() || p.check_limits.is_some() {
        out.push(Entry::line(ink::NOT_MET, "stroke-dasharray=\"6 4\"", label::ProgrammesLimits.text()));
    }
    out
}

fn limits(c: &mut Canvas, limits: Option<(f64, f64)>, y: &Scale, plot: Plot) {
    for v in limits.iter().flat_map(|(lo, hi)| [*lo, *hi]) {
        c.line((plot.left, y.at(v)), (plot.right, y.at(v)), ink::NOT_MET, "stroke-dasharray=\"6 4\"");
    }
}

fn internal_panel(c: &mut Canvas, p: &SequencePicture, x: &Scale, plot: Plot) {
    let values = p.internal.iter().map(|r| r.percent);
    let ends = p.internal_limits.iter().flat_map(|(lo, hi)| [*lo, *hi]);
    let y =
        Scale::linear(values.chain(ends).chain(p.drift.iter().map(|d| d.1)).chain([100.0]), (plot.bottom, plot.top));
    c.text(plot.left, plot.top - 8.0, &label::InternalStandard.text(), Style::muted());
    axis::vertical(c, &y, plot);
    axis::horizontal(c, x, plot);
    axis::foot(c, plot);
    limits(c, p.internal_limits, &y, plot);
    let drift: Vec<_> = p.drift.iter().map(|(t, v)| (x.at(*t), y.at(*v))).collect();
    c.polyline(&drift, ink::WATER, "stroke-width=\"1.8\"");
    for r in &p.internal {
        let (shape, colour) = r.kind.look();
        point(c, (x.at(r.time_s), y.at(r.percent)), shape, colour);
    }
}

fn check_panel(c: &mut Canvas, p: &SequencePicture, x: &Scale, plot: Plot) {
    let ends = p.check_limits.iter().flat_map(|(lo, hi)| [*lo, *hi]);
    let y =
        Scale::linear(p.checks.iter().flat_map(|r| [r.lo, r.hi]).chain(ends).chain([100.0]), (plot.bottom, plot.top));
    let words = if is_narrow(plot.right) { label::ChecksNarrow.text() } else { label::Checks.text() };
    c.text(plot.left, plot.top - 8.0, &words, Style::muted());
    axis::vertical(c, &y, plot);
    axis::horizontal(c, x, plot);
    axis::foot(c, plot);
    limits(c, p.check_limits, &y, plot);
    let (shape, colour) = VialKind::Check.look();
    for r in &p.checks {
        let at = x.at(r.time_s);
        c.line((at, y.at(r.lo)), (at, y.at(r.hi)), colour, "stroke-width=\"1.4\"");
        point(c, (at, y.at(r.percent)), shape, colour);
        c.keep_clear(Area { x0: at - 3.0, y0: y.at(r.hi), x1: at + 3.0, y1: y.at(r.lo) });
    }
    let within = Area { x0: plot.left, y0: plot.top - 2.0, x1: plot.right, y1: plot.bottom };
    for r in p.checks.iter().filter(|r| outside(r.percent, p.check_limits)) {
        let (at, v) = (x.at(r.time_s), y.at(r.percent));
        let places = [(at + 8.0, v + 4.0, Anchor::Start), (at - 8.0, v + 4.0, Anchor::End)];
        c.text_where_free(&places, &r.name, Style::text().sized(11.0).rimmed(), within);
    }
}

fn outside(v: f64, limits: Option<(f64, f64)>) -> bool {
    limits.is_some_and(|(lo, hi)| v < lo || v > hi)
}
