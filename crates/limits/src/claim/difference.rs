//! "a holds so much more than b."
//!
//! In: two amounts, what they share, and how much more in a unit that they convert to. Out: the difference a − b with its
//! one-sided 95 % bounds, by which the sentence is supported or contradicted as a ratio is ([`super::ratio`]).
//!
//! ```text
//! low  = a − max(b, 0) − t·s        s² = u_a² + u_b² − 2·cov(a, b)
//! high = max(a, 0) − b + t·s        ν: Welch–Satterthwaite of u_a² and u_b²
//! ```
//!
//! True amounts are not negative, so each bound with its max() errs to the side that claims less. Where a bound stands in
//! place of a number the ends of both amounts are put together; each holds with 95 %, both with at least 90 %.
//! Source: JCGM 100:2008, 5.2 and G.4. Checked in `tests/claim_cases.rs`.

use super::core::bounds;
use super::words::{Word, amount, at_least, named, printed, range, said, substance};
use super::{Answer, Found, Sentences, sound, sound_covariance, to_unit};
use message::{Message, Shown, claim};
use quantity::{Amount, CalcError, Measured};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};
use statistics::bound::SIDE;
use statistics::{t, welch};

/// "a holds so much more than b", as fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Difference<A = Amount> {
    /// The higher one.
    pub a: A,
    /// The lower one.
    pub b: A,
    /// Name of the water of a.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub a_name: Option<String>,
    /// Name of the water of b.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub b_name: Option<String>,
    /// Symbol or name of the substance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub analyte: Option<String>,
    /// At least (where left out), at most.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub relation: Option<String>,
    /// How much more: a figure with its unit; more at all where left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<A>,
    /// What a and b share, in the square of the unit of a.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub covariance: Option<f64>,
}

impl<A> Difference<A> {
    /// The same with other amounts, by their places in the order of their names.
    pub(super) fn with_amounts<B, E>(self, mut put: impl FnMut(&str, A) -> Result<B, E>) -> Result<Difference<B>, E> {
        Ok(Difference {
            a: put("a", self.a)?,
            b: put("b", self.b)?,
            by: self.by.map(|a| put("by", a)).transpose()?,
            a_name: self.a_name,
            b_name: self.b_name,
            analyte: self.analyte,
            relation: self.relation,
            covariance: self.covariance,
        })
    }
}

/// What is known of a − b.
struct Known {
    low: Option<f64>,
    high: Option<f64>,
    /// 95 % of both sides; the bounds of one side each where no number bears more.
    interval: [Option<f64>; 2],
    of_both_sides: bool,
}

fn known(a: &Amount, b: &Amount, covariance: f64) -> Known {
    if let (Amount::Measured(a), Amount::Measured(b)) = (a, b) {
        let ends = |side: f64| {
            let half = half_width(a, b, covariance, side);
            (a.value - b.value.max(0.0) - half, a.value.max(0.0) - b.value + half)
        };
        let ((low, high), (lowest, highest)) = (ends(SIDE), ends(SIDE / 2.0));
        let interval = [Some(lowest), Some(highest)];
        return Known { low: Some(low), high: Some(high), interval, of_both_sides: true };
    }
    let ((low_a, high_a), (low_b, high_b)) = (bounds(a), bounds(b));
    let low = low_a.zip(high_b).map(|(a, b)| a - b);
    let high = high_a.zip(low_b).map(|(a, b)| a - b);
    Known { low, high, interval: [low, high], of_both_sides: false }
}

/// t·s of the difference.
fn half_width(a: &Measured, b: &Measured, covariance: f64, side: f64) -> f64 {
    let var = (a.u * a.u + b.u * b.u - 2.0 * covariance).max(0.0);
    // The doubt is that of each alone, of what they share too: never too many degrees of freedom.
    let doubt = welch::welch_term(a.u * a.u, a.dof) + welch::welch_term(b.u * b.u, b.dof);
    let dof = welch::dof_of(var, doubt).unwrap_or(f64::INFINITY);
    t::upper_quantile(side, dof) * var.sqrt()
}

pub(super) fn check(f: &Difference) -> Result<Found, CalcError> {
    let at_most = match f.relation.as_deref().map(str::trim) {
        None | Some("" | "at least") => false,
        Some("at most") => true,
        Some(other) => return Err(CalcError::refused("relation", other, "at least or at most")),
    };
    sound("a", &f.a)?;
    sound("b", &f.b)?;
    let analyte = f.analyte.as_deref();
    let b = to_unit("b", &f.b, f.a.unit(), analyte, 1.0)?;
    let covariance = f.covariance.unwrap_or(0.0);
    sound_covariance("covariance", covariance, &f.a, &b)?;
    let by = match &f.by {
        None if at_most => {
            return Err(CalcError::refused("by", "none", "how much more at most: a figure with its unit"));
        }
        None => 0.0,
        Some(by @ Amount::Stated(s)) if s.value.is_finite() && s.value > 0.0 => {
            to_unit("by", by, f.a.unit(), analyte, 1.0)?.value().unwrap_or(f64::NAN)
        }
        Some(other) => {
            return Err(CalcError::refused("by", other.in_words(), "a figure over zero with its unit, without u"));
        }
    };
    let known = known(&f.a, &b, covariance);
    let answer = answer(&known, at_most, by);
    let told = Told { f, b: &b, known: &known, at_most };
    let mut figures = Map::new();
    figures.insert("at_least_95".into(), json!(known.low));
    figures.insert("at_most_95".into(), json!(known.high));
    Ok(Found {
        kind: "difference",
        answer,
        interval: known.interval,
        probability: None,
        sources: vec!["JCGM 100:2008, 5.2 and G.4".into()],
        figures,
        sentences: told.sentences(answer),
    })
}

fn answer(known: &Known, at_most: bool, by: f64) -> Answer {
    let (reaches, stays) = if by > 0.0 {
        (known.low.is_some_and(|x| x >= by), known.high.is_some_and(|x| x < by))
    } else {
        // More at all: equal amounts do not bear it.
        (known.low.is_some_and(|x| x > 0.0), known.high.is_some_and(|x| x <= 0.0))
    };
    let (supported, contradicted) = if at_most {
        (known.high.is_some_and(|x| x <= by), known.low.is_some_and(|x| x > by))
    } else {
        (reaches, stays)
    };
    match (supported, contradicted) {
        (true, _) => Answer::Supported,
        (_, true) => Answer::Contradicted,
        _ => Answer::CannotTell,
    }
}

struct Told<'a> {
    f: &'a Difference,
    /// In the unit of a.
    b: &'a Amount,
    known: &'a Known,
    at_most: bool,
}

impl Told<'_> {
    fn who(&self) -> (Word, Word, Word) {
        let name = |given: &Option<String>, otherwise: &str| named(given.as_deref().unwrap_or(otherwise));
        (name(&self.f.a_name, "a"), name(&self.f.b_name, "b"), substance(self.f.analyte.as_deref().unwrap_or_default()))
    }

    fn sentences(&self, answer: Answer) -> Sentences {
        let (a, b, what) = self.who();
        let unit = || printed(self.f.a.unit());
        let (xa, xb, interval) = (amount(&self.f.a), amount(self.b), range(self.known.interval));
        let (of_a, of_b) = (a.clone(), b.clone());
        let scientific: Message = if self.known.of_both_sides {
            claim::DifferenceScientific { a, b, xa, xb, interval, unit: unit().into() }.into()
        } else {
            claim::DifferenceScientificBounds { a, b, xa, xb, interval, unit: unit().into() }.into()
        };
        Sentences {
            asked: self.asked(),
            interval_of: said(claim::Difference { a: of_a.clone(), b: of_b.clone(), unit: unit().into() }),
            plain: if answer == Answer::Supported { self.asked() } else { self.nearest() },
            scientific: if self.f.analyte.is_some() {
                claim::RatioOf { what, ratio: scientific }.into()
            } else {
                claim::RatioAlone { ratio: scientific }.into()
            },
            warnings: self.in_the_way(&of_a, &of_b),
        }
    }

    fn asked(&self) -> Message {
        let (a, b, what) = self.who();
        let Some(by) = &self.f.by else { return claim::RatioMore { a: b, b: a, what }.into() };
        let x = Shown::as_given(by.value().unwrap_or(f64::NAN), printed(by.unit()));
        if self.at_most {
            claim::DifferenceAtMost { a, b, what, x }.into()
        } else {
            claim::DifferenceAtLeast { a, b, what, x }.into()
        }
    }

    /// The nearest sentence that the data do support.
    fn nearest(&self) -> Message {
        let (a, b, what) = self.who();
        let more = |x: f64| at_least(x, printed(self.f.a.unit()));
        match (self.known.low, self.known.high) {
            (Some(low), _) if low > 0.0 => claim::DifferenceAtLeast { a, b, what, x: more(low) }.into(),
            (_, Some(high)) if high < 0.0 => claim::DifferenceAtLeast { a: b, b: a, what, x: more(-high) }.into(),
            _ => claim::DifferenceCannotTell { a, b, what }.into(),
        }
    }

    fn in_the_way(&self, a: &Word, b: &Word) -> Vec<Message> {
        let mut out: Vec<Message> = vec![];
        for (name, amount) in [(a, &self.f.a), (b, self.b)] {
            let name = name.clone();
            match amount {
                Amount::Stated(_) => out.push(claim::NoU { name }.into()),
                Amount::Above(_) => out.push(claim::OverRange { name }.into()),
                Amount::Below(_) => out.push(claim::UpperBoundOnly { name }.into()),
                Amount::Measured(m) if m.value <= 0.0 => out.push(claim::UpperBoundOnly { name }.into()),
                Amount::Measured(_) => {}
            }
        }
        if !self.known.of_both_sides && self.known.low.and(self.known.high).is_some() {
            out.push(claim::TwoBounds.into());
        }
        out
    }
}
