//! "It holds less than 5 ng/L", "it holds more than 5 ng/L".
//!
//! In: an amount, a level in a unit that it converts to, a relation. Out: supported where the one-sided 95 % bound of the
//! amount reaches the level: "below" by the upper bound max(net, 0) + t·u, never under the critical value where one is
//! given, "above" by the lower bound; contradicted where the other bound does. A value without u bears neither. Holding a
//! result against a published limit, with its guard band, is another question ([`mod@crate::compare`]).
//! Source: JCGM 106:2012, 8.3. Checked in `tests/claim_cases.rs`.

use super::core::bounds_above;
use super::words::{Word, amount, at_least, at_most, named_or, none, printed, probability, range, said, substance};
use super::{Answer, Found, Sentences, positive, sound, to_unit};
use message::{Message, Shown, claim};
use quantity::{Amount, CalcError};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};
use statistics::t;

/// "It holds less than", "it holds more than", as fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Threshold<A = Amount> {
    /// The amount.
    pub value: A,
    /// Below, above.
    pub relation: String,
    /// The level: a figure with its unit.
    pub level: A,
    /// Critical value of `value`, in its unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub critical_value: Option<f64>,
    /// Symbol or name of the substance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub analyte: Option<String>,
    /// The water the sentence speaks of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
}

impl<A> Threshold<A> {
    /// The same with other amounts, by their places in the order of their names.
    pub(super) fn with_amounts<B, E>(self, mut put: impl FnMut(&str, A) -> Result<B, E>) -> Result<Threshold<B>, E> {
        let level = put("level", self.level)?;
        Ok(Threshold {
            value: put("value", self.value)?,
            relation: self.relation,
            level,
            critical_value: self.critical_value,
            analyte: self.analyte,
            name: self.name,
        })
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Side {
    Below,
    Above,
}

pub(super) fn check(f: &Threshold) -> Result<Found, CalcError> {
    let side = match f.relation.trim() {
        "below" => Side::Below,
        "above" => Side::Above,
        other => return Err(CalcError::refused("relation", other, "below or above")),
    };
    sound("value", &f.value)?;
    if let Some(c) = f.critical_value.filter(|c| !(c.is_finite() && *c >= 0.0)) {
        return Err(CalcError::refused("critical_value", c, "a finite number, not negative"));
    }
    let Amount::Stated(stated) = &f.level else {
        return Err(CalcError::refused("level", f.level.in_words(), "a figure with its unit and without u"));
    };
    positive("level", stated.value)?;
    let in_unit = to_unit("level", &f.level, f.value.unit(), f.analyte.as_deref(), 1.0)?;
    let level = in_unit.value().unwrap_or(f64::NAN);
    let told = Told { f, side, level, bounds: bounds_above(&f.value, f.critical_value) };
    Ok(told.found())
}

struct Told<'a> {
    f: &'a Threshold,
    side: Side,
    /// In the unit of the amount.
    level: f64,
    bounds: (Option<f64>, Option<f64>),
}

impl Told<'_> {
    fn found(&self) -> Found {
        let answer = self.answer();
        let (low, high) = self.bounds;
        let mut figures = Map::new();
        figures.insert("at_least_95".into(), json!(low));
        figures.insert("at_most_95".into(), json!(high));
        let p = self.probability_below();
        let scientific = claim::ThresholdScientific {
            name: self.name(),
            x: amount(&self.f.value),
            interval: range(self.interval()),
            unit: printed(self.f.value.unit()).into(),
        };
        let scientific: Message = match p {
            Some(p) => {
                let threshold = scientific.into();
                claim::ThresholdProbability { threshold, level: self.shown(), p: probability(p) }.into()
            }
            None => scientific.into(),
        };
        let what = self.what();
        Found {
            kind: "threshold",
            answer,
            interval: self.interval(),
            probability: p.map(|p| if self.side == Side::Below { p } else { 1.0 - p }),
            sources: vec!["JCGM 106:2012, 8.3".into()],
            figures,
            sentences: Sentences {
                asked: self.asked(),
                interval_of: if what == none() { said(claim::Value) } else { what.clone() },
                plain: if answer == Answer::Supported { self.asked() } else { self.nearest(answer) },
                scientific: if what == none() {
                    claim::RatioAlone { ratio: scientific }.into()
                } else {
                    claim::RatioOf { what, ratio: scientific }.into()
                },
                warnings: self.in_the_way(),
            },
        }
    }

    /// Contradicted comes first: a value that is known exactly and stands at the level lies neither below nor above.
    fn answer(&self) -> Answer {
        let (low, high) = self.bounds;
        let at_or_over = low.is_some_and(|x| x >= self.level);
        let at_or_under = high.is_some_and(|x| x <= self.level);
        let (supported, contradicted) = match self.side {
            Side::Below => (at_or_under, at_or_over),
            Side::Above => (at_or_over, at_or_under),
        };
        match (contradicted, supported) {
            (true, _) => Answer::Contradicted,
            (_, true) => Answer::Supported,
            _ => Answer::CannotTell,
        }
    }

    /// Probability that the value lies under the level; none where a bound takes the place of a number.
    fn probability_below(&self) -> Option<f64> {
        let Amount::Measured(m) = &self.f.value else { return None };
        (m.value > 0.0 && m.u > 0.0).then(|| t::cdf((self.level - m.value) / m.u, m.dof))
    }

    /// A lower end at zero bounds nothing.
    fn interval(&self) -> [Option<f64>; 2] {
        [self.bounds.0.filter(|x| *x > 0.0), self.bounds.1]
    }

    fn what(&self) -> Word {
        substance(self.f.analyte.as_deref().unwrap_or_default())
    }

    fn name(&self) -> Word {
        named_or(self.f.name.as_deref(), claim::ThisWater)
    }

    fn shown(&self) -> Shown {
        Shown::as_given(self.f.level.value().unwrap_or(f64::NAN), printed(self.f.level.unit()))
    }

    fn asked(&self) -> Message {
        let (name, what, level) = (self.name(), self.what(), self.shown());
        match self.side {
            Side::Below => claim::HoldsLess { name, what, level }.into(),
            Side::Above => claim::HoldsMore { name, what, level }.into(),
        }
    }

    /// The bound that decides, as a sentence: what was asked from below is answered from above, unless that is shown false.
    fn nearest(&self, answer: Answer) -> Message {
        let (name, what, unit) = (self.name(), self.what(), printed(self.f.value.unit()));
        let [low, high] = self.interval();
        let from_above = (self.side == Side::Below) != (answer == Answer::Contradicted);
        let (first, second) = if from_above { (high, low) } else { (low, high) };
        let said_from_above = if first.is_some() { from_above } else { !from_above };
        match first.or(second) {
            Some(x) if said_from_above => {
                claim::Holds { name, what, x: said(claim::AtMost { n: at_most(x, unit) }) }.into()
            }
            Some(x) => claim::Holds { name, what, x: said(claim::AtLeast { n: at_least(x, unit) }) }.into(),
            None => claim::HoldsUnbounded { name, what }.into(),
        }
    }

    fn in_the_way(&self) -> Vec<Message> {
        let name = self.name();
        match (&self.f.value, self.interval()) {
            (Amount::Stated(_), _) => vec![claim::NoU { name }.into()],
            (Amount::Above(_), _) => vec![claim::OverRange { name }.into()],
            (_, [None, Some(_)]) => vec![claim::UpperBoundOnly { name }.into()],
            (_, [Some(_), None]) => vec![claim::LowerBoundOnly { name }.into()],
            _ => vec![],
        }
    }
}
