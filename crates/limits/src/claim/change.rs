//! "It has fallen", "it has risen", "it has not changed".
//!
//! From two amounts, or from a slope with its 95 % interval (as `calc trend` gives it). "Not changed"
//! is supported only when the sentence says how much would count as none (`within_percent`): no
//! difference found is not no difference. Where the method changed between the two, the answer is
//! "cannot tell" unless `methods_compared` says that both were run side by side.

use super::core::{Core, core};
use super::words::{Word, amount, at_least, at_most, named_or, none, plain, range, said, substance};
use super::{Answer, Found, Sentences, positive, sound, sound_covariance, to_unit};
use message::{Message, Shown, claim};
use quantity::{Amount, CalcError, Unit};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};

/// "It has fallen", as fields: before and after, or a slope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change<A = Amount> {
    /// Fallen, risen, unchanged.
    pub relation: String,
    /// The earlier amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub before: Option<A>,
    /// The later amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub after: Option<A>,
    /// Name of the earlier one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub before_name: Option<String>,
    /// Name of the later one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub after_name: Option<String>,
    /// Symbol or name of the substance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub analyte: Option<String>,
    /// The water the sentence speaks of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// By how much, percent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub percent: Option<f64>,
    /// What counts as no change, percent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub within_percent: Option<f64>,
    /// What before and after share, in the square of the unit of before.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub covariance: Option<f64>,
    /// A slope with its interval.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slope: Option<Slope>,
    /// Methods, in their order.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub methods: Option<Vec<String>>,
    /// They were run side by side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub methods_compared: Option<bool>,
}

/// A slope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Slope {
    /// `unit` a year.
    pub per_year: f64,
    /// Its 95 % interval, the lower end first.
    pub interval_95: [f64; 2],
    /// The unit.
    pub unit: Unit,
    /// First day.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Last day.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<String>,
}

impl<A> Change<A> {
    /// The same with other amounts, by their places in the order of their names.
    pub(super) fn with_amounts<B, E>(self, mut put: impl FnMut(&str, A) -> Result<B, E>) -> Result<Change<B>, E> {
        let after = self.after.map(|a| put("after", a)).transpose()?;
        Ok(Change {
            relation: self.relation,
            before: self.before.map(|a| put("before", a)).transpose()?,
            after,
            before_name: self.before_name,
            after_name: self.after_name,
            analyte: self.analyte,
            name: self.name,
            percent: self.percent,
            within_percent: self.within_percent,
            covariance: self.covariance,
            slope: self.slope,
            methods: self.methods,
            methods_compared: self.methods_compared,
        })
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Fallen,
    Risen,
    Unchanged,
}

pub(super) fn check(f: &Change) -> Result<Found, CalcError> {
    let way = match f.relation.trim() {
        "fallen" => Way::Fallen,
        "risen" => Way::Risen,
        "unchanged" => Way::Unchanged,
        other => return Err(CalcError::refused("relation", other, "fallen, risen or unchanged")),
    };
    let mut out = match (&f.slope, &f.before, &f.after) {
        (Some(s), None, None) => by_slope(f, s, way)?,
        (None, Some(b), Some(a)) => by_two(f, b, a, way)?,
        _ => return Err(CalcError::refused("before, after, slope", "none or all", "before and after, or slope")),
    };
    let mut methods = f.methods.clone().unwrap_or_default();
    methods.dedup();
    if methods.len() > 1 && f.methods_compared != Some(true) {
        out.answer = Answer::CannotTell;
        let methods = methods.join(" → ").into();
        out.sentences.warnings.insert(0, claim::MethodsApart { methods }.into());
        out.sentences.plain = claim::MethodChanged { what: what(f), name: name(f) }.into();
    }
    Ok(out)
}

fn what(f: &Change) -> Word {
    f.analyte.as_deref().map_or_else(|| said(claim::Value), substance)
}

fn name(f: &Change) -> Word {
    named_or(f.name.as_deref(), claim::ThisWater)
}

/// Percent that a person gave or a bound stands at.
fn percent(x: f64, digits: i32) -> Shown {
    Shown::trimmed(x, digits, "%")
}

fn asked(f: &Change, way: Way) -> Message {
    let (what, name) = (what(f), name(f));
    match (way, f.percent, f.within_percent) {
        (Way::Fallen, Some(p), _) => claim::FallenBy { what, name, percent: percent(p, 3) }.into(),
        (Way::Risen, Some(p), _) => claim::RisenBy { what, name, percent: percent(p, 3) }.into(),
        (Way::Fallen, ..) => claim::Fallen { what, name }.into(),
        (Way::Risen, ..) => claim::Risen { what, name }.into(),
        (Way::Unchanged, by, Some(within)) => {
            claim::UnchangedWithin { what, name, percent: percent(by.unwrap_or(within), 3) }.into()
        }
        (Way::Unchanged, ..) => claim::Unchanged { what, name }.into(),
    }
}

fn by_two(f: &Change, before: &Amount, after: &Amount, way: Way) -> Result<Found, CalcError> {
    sound("before", before)?;
    sound("after", after)?;
    let after = to_unit("after", after, before.unit(), f.analyte.as_deref(), 1.0)?;
    let covariance = f.covariance.unwrap_or(0.0);
    sound_covariance("covariance", covariance, before, &after)?;
    let c = core(before, &after, covariance);
    let share =
        positive("percent", f.percent.unwrap_or(1.0)).map(|p| if f.percent.is_some() { p / 100.0 } else { 0.0 })?;
    if way == Way::Fallen && share >= 1.0 {
        return Err(CalcError::refused("percent", 100.0 * share, "under 100: nothing falls by all it had"));
    }
    let answer = match (way, f.within_percent) {
        // before/after: fallen by a share s means at least 1/(1 − s).
        (Way::Fallen, _) => strict(&c, c.reaches(1.0 / (1.0 - share)), share),
        (Way::Risen, _) => {
            let edge = 1.0 / (1.0 + share);
            if c.at_most.is_some_and(|x| x < edge || (x <= edge && share > 0.0)) {
                Answer::Supported
            } else if c.at_least.is_some_and(|x| x >= edge) {
                Answer::Contradicted
            } else {
                Answer::CannotTell
            }
        }
        (Way::Unchanged, Some(p)) => {
            super::Relation::About.answer(&c, 1.0, 1.0 + positive("within_percent", p)? / 100.0)
        }
        (Way::Unchanged, None) => {
            let changed = c.at_least.is_some_and(|x| x > 1.0) || c.at_most.is_some_and(|x| x < 1.0);
            if changed { Answer::Contradicted } else { Answer::CannotTell }
        }
    };
    let before_name = named_or(f.before_name.as_deref(), claim::Before);
    let after_name = named_or(f.after_name.as_deref(), claim::After);
    let asked = asked(f, way);
    let mut warnings = c.in_the_way(&before_name, &after_name);
    if way == Way::Unchanged && f.within_percent.is_none() {
        warnings.push(claim::UnchangedWithoutLevel.into());
    }
    warnings.push(claim::TwoPoints.into());
    let mut figures = Map::new();
    figures.insert("ratio".into(), json!(c.point));
    Ok(Found {
        kind: "change",
        answer,
        interval: c.interval,
        probability: None,
        sources: vec!["Fieller 1954, J. R. Stat. Soc. B 16:175".into()],
        figures,
        sentences: Sentences {
            plain: if answer == Answer::Supported { asked.clone() } else { nearest(f, &c) },
            asked,
            interval_of: said(claim::Quotient { a: before_name.clone(), b: after_name.clone() }),
            scientific: claim::ChangeScientific {
                what: what(f),
                before: before_name,
                after: after_name,
                xb: amount(before),
                xa: amount(&after),
                interval: range(c.interval),
            }
            .into(),
            warnings,
        },
    })
}

/// The nearest sentence that the data do support.
fn nearest(f: &Change, c: &Core) -> Message {
    let (what, name) = (what(f), name(f));
    let by = |share: f64| at_least(100.0 * share, "%");
    match (c.at_least, c.at_most) {
        (Some(low), _) if low > 1.0 => claim::FallenBy { what, name, percent: by(1.0 - 1.0 / low) }.into(),
        (_, Some(high)) if high < 1.0 && high > 0.0 => {
            claim::RisenBy { what, name, percent: by(1.0 / high - 1.0) }.into()
        }
        (Some(low), Some(high)) if low > 0.0 => {
            let most = 100.0 * (high - 1.0).max(1.0 / low - 1.0);
            claim::NoChangeWithin { what, name, percent: at_most(most, "%") }.into()
        }
        _ => claim::NoChange { what, name }.into(),
    }
}

/// "Has fallen" at all is more than a ratio of exactly 1.
fn strict(c: &Core, answer: Answer, share: f64) -> Answer {
    if share == 0.0 && answer == Answer::Supported && !c.at_least.is_some_and(|x| x > 1.0) {
        Answer::CannotTell
    } else {
        answer
    }
}

fn by_slope(f: &Change, s: &Slope, way: Way) -> Result<Found, CalcError> {
    let [low, high] = s.interval_95;
    if !(low <= high && low.is_finite() && high.is_finite() && s.per_year.is_finite()) {
        return Err(CalcError::refused(
            "slope.interval_95",
            format!("{low} to {high}"),
            "two finite numbers, the lower first",
        ));
    }
    let (falls, rises) = (high < 0.0, low > 0.0);
    let answer = match way {
        Way::Fallen if falls => Answer::Supported,
        Way::Risen if rises => Answer::Supported,
        Way::Fallen if rises => Answer::Contradicted,
        Way::Risen if falls => Answer::Contradicted,
        Way::Unchanged if falls || rises => Answer::Contradicted,
        // Unchanged too: an interval that holds zero finds no change, and shows none absent.
        _ => Answer::CannotTell,
    };
    let span = match (&s.from, &s.to) {
        (Some(from), Some(to)) => said(claim::Span { from: from.as_str().into(), to: to.as_str().into() }),
        _ => none(),
    };
    let (what, name) = (what(f), name(f));
    let mut warnings: Vec<Message> = vec![];
    if way == Way::Unchanged && answer != Answer::Contradicted {
        warnings.push(claim::UnchangedWithoutLevel.into());
    }
    let unit = s.unit.to_string();
    let scientific = claim::SlopeScientific {
        what: what.clone(),
        slope: Shown::trimmed(s.per_year, 2, unit.as_str()),
        low: plain(low, 2),
        high: plain(high, 2),
        span: span.clone(),
    };
    let nearest: Message = if falls {
        claim::Falling { what, name, span }.into()
    } else if rises {
        claim::Rising { what, name, span }.into()
    } else {
        claim::NoSlope { what, name, span }.into()
    };
    Ok(Found {
        kind: "change",
        answer,
        interval: [Some(low), Some(high)],
        probability: None,
        sources: vec![
            "Sen 1968, J. Am. Stat. Assoc. 63:1379 (slope and interval, where they come from `calc trend`)".into(),
        ],
        figures: Map::new(),
        sentences: Sentences {
            asked: asked(f, way),
            plain: nearest,
            interval_of: said(claim::SlopeIn { unit: unit.into() }),
            scientific: scientific.into(),
            warnings,
        },
    })
}
