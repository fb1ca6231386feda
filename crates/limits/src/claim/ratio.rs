//! "a holds so many times as much as b": the one sentence of a factor that a language has. What the data bear is said
//! as a share of a, rounded up ("b holds at most 44 % of the lead in a").

use super::core::{Core, core};
use super::words::{Word, amount, at_least, at_most, named, plain, probability, range, said, substance};
use super::{Answer, Found, Relation, Sentences, once, positive, sound, sound_covariance, to_unit, within};
use message::{Digits, Message, Share, Shown, claim};
use quantity::{Amount, CalcError};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};

/// "a holds so many times as much as b", as fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ratio<A = Amount> {
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
    /// At least (where left out), about, at most.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub relation: Option<String>,
    /// How many times; 1 where left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub factor: Option<f64>,
    /// The factor that "about" may be off.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub within: Option<f64>,
    /// What a and b share, in the square of the unit of a.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub covariance: Option<f64>,
}

pub(super) fn check(f: &Ratio) -> Result<Found, CalcError> {
    let relation = Relation::parse(f.relation.as_deref(), Relation::AtLeast)?;
    let factor = positive("factor", f.factor.unwrap_or(1.0))?;
    let within = within(f.within)?;
    sound("a", &f.a)?;
    sound("b", &f.b)?;
    let analyte = f.analyte.as_deref();
    let b = to_unit("b", &f.b, f.a.unit(), analyte, 1.0)?;
    let covariance = f.covariance.unwrap_or(0.0);
    sound_covariance("covariance", covariance, &f.a, &b)?;
    let told = Told {
        what: analyte.unwrap_or_default(),
        a: named(f.a_name.as_deref().unwrap_or("a")),
        b: named(f.b_name.as_deref().unwrap_or("b")),
        core: core(&f.a, &b, covariance),
        relation,
        factor,
        within,
    };
    Ok(told.found("ratio", (&f.a, &b)))
}

/// A ratio with all that its sentences need. Shared with comparison with a reference.
pub(super) struct Told<'a> {
    /// Symbol or name of the substance; may be empty.
    pub what: &'a str,
    pub a: Word,
    pub b: Word,
    pub core: Core,
    pub relation: Relation,
    pub factor: f64,
    pub within: f64,
}

impl Told<'_> {
    pub fn found(&self, kind: &'static str, amounts: (&Amount, &Amount)) -> Found {
        let answer = self.relation.answer(&self.core, self.factor, self.within);
        let p = self.core.probability(self.factor);
        let mut warnings = self.core.in_the_way(&self.a, &self.b);
        if self.relation == Relation::About {
            warnings.push(claim::AboutWithin { share: Share::new(self.within - 1.0, Digits::Trimmed(3)) }.into());
        }
        let mut figures = Map::new();
        if let Some(point) = self.core.point {
            figures.insert("ratio".into(), json!(point));
        }
        figures.insert("at_least_95".into(), json!(self.core.at_least));
        figures.insert("at_most_95".into(), json!(self.core.at_most));
        figures.insert("a".into(), json!(amounts.0));
        figures.insert("b".into(), json!(amounts.1));
        Found {
            kind,
            answer,
            interval: self.core.interval,
            // The probability is that of at least the factor; to the other relations it is no answer.
            probability: p.filter(|_| self.relation == Relation::AtLeast),
            sources: vec!["Fieller 1954, J. R. Stat. Soc. B 16:175".into()],
            figures,
            sentences: Sentences {
                asked: self.asked(),
                interval_of: said(claim::Quotient { a: self.a.clone(), b: self.b.clone() }),
                plain: self.plain(answer),
                scientific: self.scientific(amounts, p),
                warnings,
            },
        }
    }

    /// The two waters and the substance.
    fn who(&self) -> (Word, Word, Word) {
        (self.a.clone(), self.b.clone(), substance(self.what))
    }

    fn at_least(&self, factor: Shown) -> Message {
        let (a, b, what) = self.who();
        claim::RatioAtLeast { a, b, what, factor }.into()
    }

    fn less(&self) -> Message {
        let (a, b, what) = self.who();
        claim::RatioLess { a, b, what }.into()
    }

    fn asked(&self) -> Message {
        let (a, b, what) = self.who();
        let factor = plain(self.factor, 3);
        // "At least once as much less" is said as less.
        let once = once(self.factor);
        match self.relation {
            Relation::AtLeast if once => self.less(),
            Relation::AtLeast => self.at_least(factor),
            Relation::About if once => claim::RatioAsMuch { a, b, what }.into(),
            Relation::About => claim::RatioAbout { a, b, what, factor }.into(),
            Relation::AtMost => claim::RatioAtMost { a, b, what, factor }.into(),
        }
    }

    /// The nearest sentence that the data do support.
    fn plain(&self, answer: Answer) -> Message {
        if answer == Answer::Supported && self.relation != Relation::AtLeast {
            return self.asked();
        }
        let (a, b, what) = self.who();
        if let (Relation::About, Some(low), Some(high)) = (self.relation, self.core.at_least, self.core.at_most)
            && low > 1.0
        {
            return claim::RatioBetween { a, b, what, factor: at_least(low, ""), high: at_most(high, "") }.into();
        }
        match (self.core.at_least, self.core.at_most) {
            (Some(low), _) if low >= 1.1 => claim::RatioShare { a, b, what, share: at_most(100.0 / low, "%") }.into(),
            (Some(low), _) if low > 1.0 => self.less(),
            (_, Some(high)) if high > 0.0 && 1.0 / high >= 1.1 => {
                claim::RatioMoreAtLeast { a, b, what, factor: at_least(1.0 / high, "") }.into()
            }
            (_, Some(high)) if high < 1.0 => claim::RatioMore { a, b, what }.into(),
            _ => claim::RatioCannotTell { a, b, what }.into(),
        }
    }

    fn scientific(&self, amounts: (&Amount, &Amount), p: Option<f64>) -> Message {
        let (a, b, what) = self.who();
        let (xa, xb) = (amount(amounts.0), amount(amounts.1));
        let interval = range(self.core.interval);
        let bounded: Message = match (self.core.point, p) {
            (Some(r), Some(_)) => claim::RatioScientific { a, b, xa, xb, ratio: plain(r, 3), interval }.into(),
            _ => claim::RatioScientificBounds { a, b, xa, xb, interval }.into(),
        };
        let ratio = match p {
            Some(p) => {
                let factor = plain(self.factor, 3);
                claim::RatioProbability { ratio: bounded, factor, p: probability(p) }.into()
            }
            None => bounded,
        };
        if self.what.is_empty() { claim::RatioAlone { ratio }.into() } else { claim::RatioOf { what, ratio }.into() }
    }
}
