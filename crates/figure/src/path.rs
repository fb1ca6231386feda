//! The path of one bottle: what each stage could have added, what was measured, and how that
//! compares with the water's own metal.
//!
//! In: picograms per bottle for each stage (forecast range, measured value with interval or upper
//! bound), what the blanks leave and what that is, what was found, the finding of each stage in words. Out: a
//! [`Figure`], wide (stages from left to right) or for a telephone (the line runs down).
//!
//! The axis is logarithmic. What is at or below zero stands at its foot as an open triangle with
//! its number in words; an interval that reaches zero runs to the foot. The axis spans at most eight
//! decades below the largest number; what is smaller stands at the foot.
//! What it does not do: no number is computed here but the share of the water on the right edge.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis::{self, Entry, Plot};
use super::marks::{self, Along};
use super::scale::{Scale, extent, short, spaced};
use super::strip::{self, StripPicture};
use super::{Anchor, Area, Canvas, Figure, Head, Style, WIDE, ink};
use crate::text;
use cleanliness::share::Left;
use message::{Digits, Message, Share, Shown, Spoken, path as said};
use quantity::Outcome;
use quantity::format::{at_decimals, decimals_for, significant_trimmed};

/// Metal in a bottle as known, pg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mark {
    /// Measured, with its interval (usually 95 %). May be negative: a net value.
    Value {
        /// Best value, pg.
        pg: f64,
        /// Lower end of the interval, pg.
        lo: f64,
        /// Upper end of the interval, pg.
        hi: f64,
    },
    /// Nothing found; the amount lies under this bound.
    Upper {
        /// Upper bound, pg.
        pg: f64,
    },
    /// Found, together with what nothing tells from it: at most this.
    AtMost {
        /// Upper bound, pg.
        pg: f64,
    },
}

/// One stage of the path.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PathStage {
    /// Name: "cool box".
    pub name: String,
    /// Which one: "lot 14", "31 h". May be empty.
    pub detail: String,
    /// The stage's check and what came of it.
    pub finding: Option<(Outcome, String)>,
    /// Forecast before the trip, pg: low and high.
    pub forecast: Option<(f64, f64)>,
    /// What was measured of this stage.
    pub measured: Option<Mark>,
    /// No blank met this stage, so that nothing of it was measured here: a hollow ring without a height.
    pub not_here: bool,
}

impl PathStage {
    /// The stage in words: "well, steel: forecast 0.02 to 0.6 pg; nothing found, < 0.5 pg; met: …".
    fn in_words(&self) -> String {
        let mut name = self.name.clone();
        if !self.detail.is_empty() {
            name += ", ";
            name += &self.detail;
        }
        let mut parts = vec![];
        if let Some((lo, hi)) = self.forecast_shown() {
            parts.push(said::ForecastRange { low: short(two(lo)).into(), high: short(two(hi)).into() }.text());
        }
        parts.extend(self.measured.map(|m| {
            let amount = with_interval(m);
            match m {
                Mark::Value { .. } => said::Measured { amount }.text(),
                Mark::Upper { .. } => said::NothingFound { amount }.text(),
                Mark::AtMost { .. } => said::Bounded { amount }.text(),
            }
        }));
        if self.not_here {
            parts.push(said::NotMeasuredHere.text());
        }
        parts.push(match &self.finding {
            Some((o, words)) => format!("{}: {words}", o.said().text()),
            None => said::NoCheck.text(),
        });
        format!("{name}: {}.", parts.join("; "))
    }

    /// The forecast, when both its ends are numbers.
    pub(super) fn forecast_shown(&self) -> Option<(f64, f64)> {
        self.forecast.filter(|(lo, hi)| lo.is_finite() && hi.is_finite())
    }
}

/// The whole picture.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PathPicture {
    /// Stable id.
    pub id: String,
    /// Title: "Lead in bottle SL2-26-07".
    pub title: String,
    /// Volume of the bottle, mL.
    pub volume_ml: f64,
    /// Stages in their order; the last one is the number.
    pub stages: Vec<PathStage>,
    /// What the blanks leave of the metal in the bottle.
    pub water: Option<Mark>,
    /// What that is: the water's own, or more than that.
    pub left: Left,
    /// All that was found in the bottle; stands at the last stage.
    pub found: Option<Mark>,
    /// A closing sentence: share, verdict, "invented data".
    pub caption: String,
    /// Of 100 parts, linear, over the stages; none where no parts are told.
    pub strip: Option<StripPicture>,
}

/// The number of a mark with its interval, to the digits that this supports: `4.1 (3.0 to 5.2)`, `< 0.5`.
fn with_interval(mark: Mark) -> Message {
    match mark {
        m if !is_known(m) => said::NotGiven.into(),
        Mark::Upper { pg } => said::UnderLimit { limit: upper_number(pg).into() }.into(),
        Mark::AtMost { pg } => said::AtMost { limit: rounded_up(pg).into() }.into(),
        Mark::Value { pg, lo, hi } => {
            let [value, low, high] = numbers(pg, lo, hi).map(Into::into);
            said::Interval { value, low, high }.into()
        }
    }
}

/// The number of a mark alone: `4.1`, `−0.3 (to 0.5)`, `< 0.5`.
pub(super) fn in_words(mark: Mark) -> String {
    match mark {
        Mark::Value { pg, lo, hi } if is_known(mark) => {
            let [value, _, high] = numbers(pg, lo, hi);
            if pg <= 0.0 { said::UpTo { value: value.into(), high: high.into() }.text() } else { value }
        }
        other => with_interval(other).text(),
    }
}

/// A value with the ends of its interval, as the picture prints them.
fn numbers(pg: f64, lo: f64, hi: f64) -> [String; 3] {
    let places = decimals_for((hi - lo).abs() / 2.0, 2);
    [pg, lo, hi].map(|x| number(x, places))
}

/// A bound to two digits, without zeros that nobody gave.
fn upper_number(pg: f64) -> String {
    if pg != 0.0 && pg.abs() < 1e-4 { short(two(pg)) } else { spaced(&significant_trimmed(pg, 2)) }
}

/// A bound to two digits, rounded up: never under what was computed.
fn rounded_up(pg: f64) -> String {
    upper_number(message::number::raised(pg, decimals_for(pg, 2)))
}

/// Below a ten-thousandth as a power of ten, else at the decimals given.
fn number(x: f64, places: i32) -> String {
    if x != 0.0 && x.abs() < 1e-4 { short(two(x)) } else { spaced(&at_decimals(x, places)) }
}

/// Are all numbers of the mark numbers?
pub(super) fn is_known(mark: Mark) -> bool {
    match mark {
        Mark::Upper { pg } | Mark::AtMost { pg } => pg.is_finite(),
        Mark::Value { pg, lo, hi } => pg.is_finite() && lo.is_finite() && hi.is_finite(),
    }
}

fn numbers_of(mark: Option<Mark>) -> Vec<f64> {
    match mark {
        None => vec![],
        // A fifth of the bound, so that the open bar has a length to show.
        Some(Mark::Upper { pg } | Mark::AtMost { pg }) => vec![pg, pg / 5.0],
        Some(Mark::Value { pg, lo, hi }) => vec![pg, lo, hi],
    }
}

/// The part that came with the water, with its number.
pub(super) fn water_said(water: Mark, left: Left) -> Message {
    let left = left.says();
    match water {
        Mark::Upper { pg } => said::LeftBound { left, limit: upper_number(pg).into() }.into(),
        Mark::AtMost { pg } => said::LeftAtMost { left, limit: rounded_up(pg).into() }.into(),
        Mark::Value { .. } if !is_known(water) => said::LeftNotGiven { left }.into(),
        Mark::Value { pg, lo, hi } => {
            let [value, low, high] = numbers(pg, lo, hi).map(Into::into);
            said::LeftValue { left, value, low, high }.into()
        }
    }
}

impl PathPicture {
    /// The axis, for a stretch of px.
    pub(super) fn scale(&self, stretch: (f64, f64)) -> Scale {
        let mut all: Vec<f64> = numbers_of(self.water);
        all.extend(numbers_of(self.found));
        for s in &self.stages {
            all.extend(numbers_of(s.measured));
            all.extend(s.forecast_shown().iter().flat_map(|(lo, hi)| [*lo, *hi]));
        }
        let top = extent(all.iter().copied().filter(|v| *v > 0.0)).map_or(10.0, |e| e.1);
        let lowest = all.iter().copied().filter(|v| *v > 0.0).fold(top, f64::min).max(top * 1e-8);
        Scale::log([lowest, top * 1.6], stretch)
    }

    /// The wide picture, stages from left to right.
    pub fn wide(&self) -> Figure {
        Wide::new(self).draw()
    }

    /// The picture for a telephone: the line runs down.
    pub fn phone(&self) -> Figure {
        super::path_down::draw(self)
    }

    fn known_volume(&self) -> Option<Shown> {
        self.volume_ml.is_finite().then(|| Shown::trimmed(self.volume_ml, 4, "mL"))
    }

    /// The bottle by its volume.
    pub(super) fn bottle(&self) -> Message {
        match self.known_volume() {
            Some(volume) => said::BottleOf { volume }.into(),
            None => said::BottleOfNoVolume.into(),
        }
    }

    pub(super) fn head(&self, suffix: &str) -> Head {
        Head { id: format!("{}{suffix}", self.id), title: self.title.clone(), desc: self.description() }
    }

    /// The picture in words, stage by stage: alternative text.
    pub fn description(&self) -> String {
        let volume = self.known_volume().map_or_else(|| said::NoVolume.text(), |v| v.text());
        let mut out = vec![format!("{}, {volume}.", self.title)];
        out.extend(self.water.map(|w| said::InTheBottle { left: water_said(w, self.left) }.text()));
        out.extend(self.found.map(|f| said::FoundInAll { amount: with_interval(f) }.text()));
        out.extend(self.stages.iter().map(PathStage::in_words));
        out.join(" ")
    }

    pub(super) fn legend(&self) -> Vec<Entry<'_>> {
        let mut out = vec![];
        if self.stages.iter().any(|s| s.forecast_shown().is_some()) {
            out.push(Entry {
                sample: Box::new(|c, x, y| forecast(c, (x - 9.0, y - 5.0), (x + 9.0, y + 5.0))),
                width: 18.0,
                words: said::ForecastBefore.text(),
            });
        }
        let marks = || self.stages.iter().filter_map(|s| s.measured).chain(self.found);
        if marks().any(|m| matches!(m, Mark::Value { .. })) {
            out.push(Entry {
                sample: Box::new(|c, x, y| marks::measured(c, Along::X, y, (x - 11.0, x, x + 11.0))),
                width: 24.0,
                words: said::MeasuredWithInterval.text(),
            });
        }
        for (is, words) in [
            (marks().any(|m| matches!(m, Mark::Upper { .. })), said::NothingFoundBound.text()),
            (marks().any(|m| matches!(m, Mark::AtMost { .. })), said::UpperBound.text()),
        ] {
            if is {
                out.push(Entry {
                    sample: Box::new(|c, x, y| marks::nothing_found(c, Along::X, y, (x - 10.0, x + 9.0), 4.0)),
                    width: 20.0,
                    words,
                });
            }
        }
        if self.stages.iter().any(|s| s.not_here) {
            out.push(Entry {
                sample: Box::new(|c, x, y| marks::not_here(c, (x, y))),
                width: 14.0,
                words: said::NotMeasuredHere.text(),
            });
        }
        if marks().any(|m| matches!(m, Mark::Value { pg, .. } if pg <= 0.0)) {
            out.push(Entry {
                sample: Box::new(|c, x, y| marks::below_axis(c, Along::Y, x, (y + 5.0, y - 6.0))),
                width: 12.0,
                words: said::AtOrBelowZero.text(),
            });
        }
        if let Some(w) = self.water {
            let (sample, words): (fn(&mut Canvas, f64, f64), _) = match (w, self.left) {
                // Only `Left::Water` is the water's own: else the pipe or the open air may be in it.
                (Mark::Value { .. }, Left::Water) => (water_sample, said::WatersOwnMetal.text()),
                (Mark::Upper { .. } | Mark::AtMost { .. }, Left::Water) => {
                    (water_bound_sample, said::WatersOwnMetalBound.text())
                }
                (Mark::Value { .. }, _) => (water_sample, said::MetalLeft.text()),
                (Mark::Upper { .. } | Mark::AtMost { .. }, _) => (water_bound_sample, said::MetalLeftBound.text()),
            };
            out.push(Entry { sample: Box::new(sample), width: 22.0, words });
        }
        out
    }
}

fn two(x: f64) -> f64 {
    quantity::format::significant(x, 2).parse().unwrap_or(x)
}

pub(super) fn forecast(c: &mut Canvas, a: (f64, f64), b: (f64, f64)) {
    c.rect(a, b, &format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"0.8\"", ink::FORECAST, ink::FORECAST_EDGE));
}

fn water_bound_sample(c: &mut Canvas, x: f64, y: f64) {
    c.line((x - 11.0, y), (x + 11.0, y), ink::WATER, "stroke-width=\"1.8\" stroke-dasharray=\"7 4\"");
}

fn water_sample(c: &mut Canvas, x: f64, y: f64) {
    c.rect((x - 11.0, y - 4.0), (x + 11.0, y + 4.0), &format!("fill=\"{}\"", ink::WATER_PALE));
    c.line((x - 11.0, y), (x + 11.0, y), ink::WATER, "stroke-width=\"1.8\"");
}

/// Draws a mark along an axis whose foot is at `foot` px.
pub(super) fn draw_mark(c: &mut Canvas, along: Along, other: f64, scale: &Scale, mark: Mark) {
    let (foot, _) = scale.range();
    let axis_lo = scale.domain().0;
    match mark {
        m if !is_known(m) => {}
        Mark::Upper { pg } | Mark::AtMost { pg } => {
            marks::nothing_found(c, along, other, (foot, scale.at(pg)), 7.0);
        }
        Mark::Value { pg, hi, .. } if pg < axis_lo => {
            marks::below_axis(c, along, other, (foot, scale.at(hi)));
        }
        Mark::Value { pg, lo, hi } => {
            marks::measured(c, along, other, (scale.at(lo), scale.at(pg), scale.at(hi)));
        }
    }
}

/// Text blocks under the plot have these styles.
const NAME: Style = Style::strong().hung(Anchor::Middle);
const DETAIL: Style = Style::muted().hung(Anchor::Middle).sized(11.0);
const FINDING: Style = Style::text().hung(Anchor::Middle).sized(11.0);
const STATE: Style = Style::strong().hung(Anchor::Middle).sized(11.0);

const PLOT_HEIGHT: f64 = 206.0;
const LEFT: f64 = 66.0;
const SHARES: f64 = 74.0;
/// Narrowest column in which a finding still reads, px.
const COLUMN: f64 = 68.0;

/// A column holds the longest word of the names, up to a point.
fn narrowest_column(p: &PathPicture) -> f64 {
    p.stages
        .iter()
        .flat_map(|s| s.name.split(' '))
        .map(|w| text::width(w, NAME.size, NAME.weight) + 8.0)
        .fold(COLUMN, f64::max)
        .min(COLUMN + 14.0)
}

struct Wide<'a> {
    picture: &'a PathPicture,
    canvas: Canvas,
    blocks: Vec<Area>,
    width: f64,
    column: f64,
    plot: Plot,
    scale: Scale,
}

impl<'a> Wide<'a> {
    fn new(picture: &'a PathPicture) -> Self {
        let n = picture.stages.len().max(1) as f64;
        let right_margin =
            if matches!(picture.water, Some(Mark::Value { pg, .. }) if pg > 0.0) { SHARES } else { 14.0 };
        let width = WIDE.max(LEFT + n * narrowest_column(picture) + right_margin);
        let mut canvas = Canvas::new();
        let under = said::Under { bottle: picture.bottle() }.text();
        let y = axis::heading(&mut canvas, &picture.title, &under, width);
        let y = picture.strip.as_ref().map_or(y, |s| strip::band(&mut canvas, s, (10.0, width - 10.0), y + 2.0) + 10.0);
        let y = axis::legend(&mut canvas, &picture.legend(), y + 18.0, width);
        let plot = Plot { left: LEFT, right: width - right_margin, top: y + 20.0, bottom: y + 20.0 + PLOT_HEIGHT };
        Self {
            picture,
            canvas,
            blocks: vec![],
            width,
            column: (plot.right - plot.left) / n,
            plot,
            scale: picture.scale((plot.bottom, plot.top)),
        }
    }

    fn centre(&self, i: usize) -> f64 {
        self.plot.left + self.column * (i as f64 + 0.5)
    }

    fn draw(mut self) -> Figure {
        axis::vertical(&mut self.canvas, &self.scale, self.plot);
        let middle = f64::midpoint(self.plot.top, self.plot.bottom);
        self.canvas.text_up(16.0, middle, &said::Axis.text(), Style::muted());
        self.water_band();
        self.forecasts();
        self.marks();
        axis::foot(&mut self.canvas, self.plot);
        self.water_label();
        self.shares();
        let y = self.stations();
        let y = self.canvas.wrapped((10.0, y + 8.0), &self.picture.caption, Style::muted(), self.width - 20.0);
        let head = self.picture.head("");
        self.canvas.finish(head, self.width, y)
    }

    fn water_band(&mut self) {
        let p = self.plot;
        match self.picture.water {
            Some(Mark::Value { pg, lo, hi }) => {
                let (a, b) = (self.scale.at(lo), self.scale.at(hi));
                self.canvas.rect((p.left, b), (p.right, a), &format!("fill=\"{}\"", ink::WATER_PALE));
                if pg >= self.scale.domain().0 {
                    self.line_across(self.scale.at(pg), "stroke-width=\"1.8\"");
                }
            }
            Some(Mark::Upper { pg } | Mark::AtMost { pg }) => {
                self.line_across(self.scale.at(pg), "stroke-width=\"1.8\" stroke-dasharray=\"7 4\"");
            }
            None => {}
        }
    }

    fn line_across(&mut self, y: f64, more: &str) {
        let p = self.plot;
        self.canvas.line((p.left, y), (p.right, y), ink::WATER, more);
        self.canvas.keep_clear(Area { x0: p.left, y0: y - 1.0, x1: p.right, y1: y + 1.0 });
    }

    fn forecasts(&mut self) {
        let half = (self.column * 0.3).min(26.0);
        for (i, s) in self.picture.stages.iter().enumerate() {
            if let Some((lo, hi)) = s.forecast_shown() {
                let x = self.centre(i);
                let (a, b) = (self.scale.at(lo), self.scale.at(hi));
                // A forecast without width is still a visible line.
                let (a, b) = if (a - b).abs() < 3.0 { (a + 1.5, b - 1.5) } else { (a, b) };
                forecast(&mut self.canvas, (x - half, a), (x + half, b));
                // No number on the edges of a block; the water's words stay off the whole block.
                for edge in [a, b] {
                    self.canvas.keep_clear(Area { x0: x - half, y0: edge - 1.0, x1: x + half, y1: edge + 1.0 });
                }
                self.blocks.push(Area { x0: x - half, y0: b, x1: x + half, y1: a });
            }
        }
    }

    /// The forecast block that a mark at `x` stands in.
    fn block_at(&self, x: f64) -> Option<Area> {
        self.blocks.iter().copied().find(|b| x > b.x0 && x < b.x1)
    }

    fn marks(&mut self) {
        let last = self.picture.stages.len().saturating_sub(1);
        let mut todo: Vec<(f64, Mark)> = vec![];
        for (i, s) in self.picture.stages.iter().enumerate() {
            if s.not_here {
                let at = (self.centre(i), self.plot.bottom - 9.0);
                marks::not_here(&mut self.canvas, at);
            }
            let found = self.picture.found.filter(|_| i == last);
            match (s.measured, found) {
                (Some(m), Some(f)) => {
                    todo.push((self.centre(i) - 11.0, m));
                    todo.push((self.centre(i) + 11.0, f));
                }
                (Some(m), None) | (None, Some(m)) => todo.push((self.centre(i), m)),
                (None, None) => {}
            }
        }
        for (x, m) in &todo {
            draw_mark(&mut self.canvas, Along::Y, *x, &self.scale, *m);
        }
        for (x, m) in todo {
            self.number(x, m);
        }
    }

    fn number(&mut self, x: f64, mark: Mark) {
        let (top, low, middle) = match mark {
            Mark::Upper { pg } | Mark::AtMost { pg } => (self.scale.at(pg), self.plot.bottom, self.scale.at(pg)),
            Mark::Value { pg, lo, hi } => (self.scale.at(hi), self.scale.at(lo), self.scale.at(pg)),
        };
        let words = in_words(mark);
        let style = Style::text().rimmed();
        let within = Area {
            x0: self.plot.left + 2.0,
            y0: self.plot.top - 18.0,
            x1: self.plot.right - 2.0,
            y1: self.plot.bottom - 2.0,
        };
        let block = self.block_at(x);
        // Above the block when its top is near, else beside it.
        let above = block.map_or(top, |b| if top - b.y0 < 34.0 { top.min(b.y0) } else { top });
        let (left, right) = block.map_or((x - 8.0, x + 8.0), |b| (b.x0, b.x1));
        let places = [
            (x, above - 8.0, Anchor::Middle),
            (right + 4.0, middle + 4.0, Anchor::Start),
            (left - 4.0, middle + 4.0, Anchor::End),
            (x, top - 8.0, Anchor::Middle),
            (x + 10.0, middle + 4.0, Anchor::Start),
            (x - 10.0, middle + 4.0, Anchor::End),
            (x, low + 17.0, Anchor::Middle),
            (x, top - 20.0, Anchor::Middle),
            (x + 10.0, middle - 12.0, Anchor::Start),
            (x + 10.0, middle + 20.0, Anchor::Start),
            (x - 10.0, middle - 12.0, Anchor::End),
            (x - 10.0, middle + 20.0, Anchor::End),
            (x, top - 34.0, Anchor::Middle),
        ];
        if self.canvas.text_where_free(&places, &words, style, within) {
            return;
        }
        // Nowhere free: a number may cross the water's line (it has a rim), but no other text.
        let half = text::width(&words, style.size, style.weight) / 2.0;
        let x = x.clamp(within.x0 + half, (within.x1 - half).max(within.x0 + half));
        let mut y = (top - 8.0).max(self.plot.top - 6.0);
        while self
            .canvas
            .texts
            .iter()
            .any(|t| t.area.overlaps(&Canvas::area_of(x, y, &words, style.hung(Anchor::Middle)), 0.0))
            && y < self.plot.bottom - 16.0
        {
            y += 14.0;
        }
        self.canvas.text(x, y, &words, style.hung(Anchor::Middle));
    }

    fn water_label(&mut self) {
        let Some(water) = self.picture.water else { return };
        let words = water_said(water, self.picture.left).text();
        let style = Style::strong().coloured(ink::WATER).rimmed();
        let (hi, lo) = match water {
            Mark::Value { lo, hi, .. } => (self.scale.at(hi), self.scale.at(lo)),
            Mark::Upper { pg } | Mark::AtMost { pg } => (self.scale.at(pg), self.scale.at(pg)),
        };
        let within =
            Area { x0: self.plot.left, y0: self.plot.top - 18.0, x1: self.plot.right, y1: self.plot.bottom - 2.0 };
        for b in self.blocks.clone() {
            self.canvas.keep_clear(b);
        }
        let mut places = vec![];
        for y in [hi - 6.0, lo + 14.0, hi - 22.0, lo + 30.0] {
            for step in 0..28 {
                places.push((self.plot.left + 5.0 + f64::from(step) * 20.0, y, Anchor::Start));
            }
        }
        if !self.canvas.text_where_free(&places, &words, style, within) {
            // Above the plot nothing else stands but numbers that were pushed there.
            let above = Area { y0: self.plot.top - 40.0, ..within };
            let rows: Vec<_> =
                (0..40).map(|s| (self.plot.left + f64::from(s) * 12.0, self.plot.top - 8.0, Anchor::Start)).collect();
            if !self.canvas.text_where_free(&rows, &words, style, above) {
                self.canvas.text(self.plot.left, self.plot.top - 22.0, &words, style);
            }
        }
    }

    fn shares(&mut self) {
        let Some(Mark::Value { pg, .. }) = self.picture.water else { return };
        if pg <= 0.0 {
            return;
        }
        let (lo, hi) = self.scale.domain();
        let right = self.plot.right;
        for share in [1.0, 0.1, 0.01, 1e-3, 1e-4, 1e-5] {
            let at = pg * share;
            if at >= lo && at <= hi {
                let y = self.scale.at(at);
                self.canvas.line((right - 5.0, y), (right + 3.0, y), ink::WATER, "stroke-width=\"1.2\"");
                let words = match (share < 1.0, self.picture.left) {
                    (true, _) => said::OfIt { share: Share::new(share, Digits::Trimmed(1)) }.text(),
                    (false, left) if !left.is_bound() => said::TheWater.text(),
                    (false, _) => said::WhatIsLeft.text(),
                };
                self.canvas.text(right + 6.0, y + 4.0, &words, Style::text().coloured(ink::WATER).sized(11.0));
            }
        }
    }

    /// The line with its stations and what stands under each; returns the y below.
    fn stations(&mut self) -> f64 {
        let y = self.plot.bottom + 22.0;
        let n = self.picture.stages.len();
        if n > 1 {
            self.canvas.line((self.centre(0), y), (self.centre(n - 1), y), ink::LINE, "stroke-width=\"2\"");
        }
        for (i, s) in self.picture.stages.iter().enumerate() {
            let x = self.centre(i);
            marks::outcome(&mut self.canvas, (x, y), 7.5, s.finding.as_ref().map(|f| f.0));
        }
        let y = self.row(y + 24.0, NAME, |s| (s.name.clone(), ink::TEXT));
        let y = self.row(y, DETAIL, |s| (s.detail.clone(), ink::MUTED));
        let y = self.row(y + 3.0, STATE, |s| match &s.finding {
            Some((o, _)) => (o.said().text(), marks::colour_of(Some(*o))),
            None => (String::new(), ink::MUTED),
        });
        self.row(y, FINDING, |s| (s.finding.as_ref().map_or(String::new(), |f| f.1.clone()), ink::TEXT))
    }

    /// One row of texts under the stations, all beginning at `y`; returns the y below the longest.
    fn row(&mut self, y: f64, style: Style, pick: impl Fn(&PathStage) -> (String, &'static str)) -> f64 {
        let room = self.column - 6.0;
        let mut below = y;
        for (i, s) in self.picture.stages.iter().enumerate() {
            let (words, colour) = pick(s);
            let end = self.canvas.wrapped((self.centre(i), y), &words, style.coloured(colour), room);
            below = below.max(end);
        }
        below
    }
}
