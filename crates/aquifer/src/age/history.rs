//! What fell from the sky, or stood in the air: the history of a tracer, as the user brings it with region and source.
//!
//! In: years (decimal), values (3H TU, gases ppt of dry air, 14C F14C) with u, and the natural background before the
//! first year. Out: the input of the models as a function of the time τ before sampling, in pieces between the years:
//! linear, for tritium linear in its logarithm. After the last year the last value is held with doubled u, and that is
//! said; before the first the background holds. No history is shipped. Checked in `tests/age_inputs.rs`.

use super::measured::{Tracer, WithU};
use crate::Reason;
use message::{Message, Shown, age as said, aquifer as part};
use quantity::{Check, Finding, Outcome};

/// A year of a history.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Decimal year.
    pub year: f64,
    /// Value.
    pub value: f64,
    /// Its standard uncertainty; that of all years errs together.
    pub u: f64,
}

/// The history of a tracer at the place of recharge.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    /// Of which.
    pub tracer: Tracer,
    /// `northern hemisphere`, a station's name.
    pub region: String,
    /// Where the numbers are from.
    pub source: String,
    /// By rising year.
    pub points: Vec<Point>,
    /// Before the first year.
    pub background: Option<WithU>,
}

/// Longest time between two points that is no gap, years.
// The programme's own choice: annual means, one of them missing.
const LONGEST_STEP_YEARS: f64 = 2.1;

impl History {
    /// What of it is asked: its name in messages.
    fn named(&self) -> Message {
        said::HistoryOf { tracer: self.tracer.sign().into() }.into()
    }

    /// Unit of its values.
    pub fn unit(&self) -> &'static str {
        if self.tracer.is_gas() { "ppt" } else { self.tracer.unit() }
    }

    /// Whether the numbers can be a history.
    ///
    /// # Errors
    /// [`Reason`]: fewer than two years, years that do not rise, values or u that cannot be, no source, no background
    /// before the first year.
    pub fn check(&self) -> Result<(), Reason> {
        if self.points.len() < 2 {
            let (what, hint) = (self.named(), said::GiveHistory.into());
            return Err(Reason::TooFew { what, have: self.points.len(), need: 2, hint });
        }
        if self.source.trim().is_empty() || self.region.trim().is_empty() {
            return Err(Reason::unlike(self.named(), said::NoSource, said::SourceAndRegion));
        }
        if let Some(w) = self.points.windows(2).find(|w| w[1].year <= w[0].year) {
            let found = said::YearAfter { year: year(w[1].year), before: year(w[0].year) };
            return Err(Reason::unlike(self.named(), found, said::RisingYears));
        }
        let positive = self.tracer == Tracer::Tritium;
        let can_be =
            |v: f64, u: f64| v.is_finite() && u >= 0.0 && u.is_finite() && (v > 0.0 || (!positive && v == 0.0));
        if let Some(p) = self.points.iter().find(|p| !(p.year.is_finite() && can_be(p.value, p.u))) {
            let found = said::ValueOfYear { value: Shown::as_given(p.value, self.unit()), year: year(p.year) };
            return Err(Reason::unlike(self.named(), found, said::HistoryValue));
        }
        match self.background {
            Some(b) if can_be(b.value, b.u) => Ok(()),
            Some(b) => {
                let nought = Shown::as_given(0.0, self.unit());
                let found = Shown::as_given(b.value, self.unit());
                Err(Reason::out_of_range(self.before(), found, part::MoreThanNought { nought }))
            }
            None => Err(Reason::unlike(self.before(), said::NotGiven, said::NaturalBackground)),
        }
    }

    fn before(&self) -> Message {
        said::BackgroundBefore { tracer: self.tracer.sign().into(), year: year(self.points[0].year) }.into()
    }

    /// Faults that an answer can stand with: it ends before the sample, it has gaps.
    pub fn findings(&self, sampled_year: f64) -> Vec<Finding> {
        let tracer = || message::Name::from(self.tracer.sign());
        let mut out = vec![];
        let last = self.points.last().map_or(sampled_year, |p| p.year);
        // An annual mean stands at the middle of its year: a sample within the year has all there is.
        if last + 0.5 < sampled_year {
            let says = said::HistoryEnds { tracer: tracer(), last: year(last), sampled: year(sampled_year) };
            out.push(Finding::new(Check::AquiferAge, Outcome::NotMet, says));
        }
        for w in self.points.windows(2).filter(|w| w[1].year - w[0].year > LONGEST_STEP_YEARS) {
            let says = said::HistoryGap { tracer: tracer(), from: year(w[0].year), to: year(w[1].year) };
            out.push(Finding::new(Check::AquiferAge, Outcome::NotMet, says));
        }
        out
    }

    /// Value of a year, by the rules of the module.
    pub fn at(&self, when: f64) -> f64 {
        let p = &self.points;
        let k = p.partition_point(|q| q.year <= when);
        match k {
            0 => self.background.map_or(p[0].value, |b| b.value),
            k if k == p.len() => p[k - 1].value,
            k => {
                let s = (when - p[k - 1].year) / (p[k].year - p[k - 1].year);
                between(self.tracer, p[k - 1].value, p[k].value, s)
            }
        }
    }

    /// The input of the models at a sampling year: values, and their u as an input of its own (one factor for all years).
    pub fn input(&self, sampled_year: f64) -> Input {
        let ln = self.tracer == Tracer::Tritium;
        Input { value: self.pieces(sampled_year, ln, |p| p.value), u: self.pieces(sampled_year, false, |p| p.u) }
    }

    fn pieces(&self, sampled: f64, ln: bool, of: impl Fn(&Point) -> f64) -> Pieces {
        let as_point = |w: WithU| Point { year: f64::NAN, value: w.value, u: w.u };
        let background = self.background.map_or(as_point(WithU { value: 0.0, u: 0.0 }), as_point);
        let mut pieces = vec![];
        let last = self.points[self.points.len() - 1];
        if sampled > last.year {
            // Beyond the end of the record the last value is held, with doubled u.
            let held = of(&Point { u: 2.0 * last.u, ..last });
            pieces.push(Piece { from: 0.0, to: sampled - last.year, start: held, end: held, ln: false });
        }
        for w in self.points.windows(2).rev() {
            let (old, new) = (&w[0], &w[1]);
            if old.year >= sampled {
                continue;
            }
            let (mut from, mut start) = (sampled - new.year, of(new));
            let end = of(old);
            if from < 0.0 {
                let s = (sampled - old.year) / (new.year - old.year);
                start = if ln { between(self.tracer, end, start, s) } else { end + (start - end) * s };
                from = 0.0;
            }
            pieces.push(Piece { from, to: sampled - old.year, start, end, ln });
        }
        let before = of(&background);
        let from = pieces.last().map_or(0.0, |p| p.to);
        pieces.push(Piece { from, to: f64::INFINITY, start: before, end: before, ln: false });
        Pieces(pieces)
    }
}

/// Between two points: straight, for tritium in the logarithm.
fn between(tracer: Tracer, from: f64, to: f64, s: f64) -> f64 {
    if tracer == Tracer::Tritium { from * libm::exp(s * libm::log(to / from)) } else { from + s * (to - from) }
}

/// A year as messages show it.
pub(super) fn year(y: f64) -> Shown {
    Shown::decimals(y, 0, "")
}

/// A stretch of the input between two times before sampling, years.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Nearer to the sample.
    pub from: f64,
    /// Farther; infinite for the background.
    pub to: f64,
    /// Value at `from`.
    pub start: f64,
    /// Value at `to`.
    pub end: f64,
    /// Linear in the logarithm?
    pub ln: bool,
}

impl Piece {
    /// Value at a time within it.
    pub fn at(&self, tau: f64) -> f64 {
        if self.start == self.end || self.to.is_infinite() {
            return self.start;
        }
        let s = (tau - self.from) / (self.to - self.from);
        if self.ln {
            self.start * libm::exp(s * libm::log(self.end / self.start))
        } else {
            self.start + s * (self.end - self.start)
        }
    }
}

/// The whole past, from the sample backwards without a hole.
#[derive(Debug, Clone, PartialEq)]
pub struct Pieces(pub Vec<Piece>);

impl Pieces {
    /// The same value always.
    pub fn constant(value: f64) -> Self {
        Self(vec![Piece { from: 0.0, to: f64::INFINITY, start: value, end: value, ln: false }])
    }

    /// Value at a time before sampling.
    pub fn at(&self, tau: f64) -> f64 {
        let k = self.0.partition_point(|p| p.to < tau).min(self.0.len() - 1);
        self.0[k].at(tau)
    }
}

/// Input of the models, with its u.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Values.
    pub value: Pieces,
    /// u: that of all years errs together, so that it passes through a model as values do.
    pub u: Pieces,
}
