//! "It has fallen", "it has risen", "it has not changed".
//!
//! From two amounts, or from a slope with its 95 % interval (as `calc trend` gives it). "Not changed"
//! is supported only when the sentence says how much would count as none (`within_percent`): no
//! difference found is not no difference. A slope has no level: "by so many percent" takes the level at its beginning
//! (`start`, with its u) and the years; without them that is "cannot tell". Where the method changed between the two, the answer is
//! "cannot tell" unless `methods_compared` says that both were run side by side.

use super::core::{Core, bounds_at, core};
use super::words::{Word, amount, at_least, at_most, named_or, none, plain, range, said, substance};
use super::{Answer, Found, Sentences, positive, sound, sound_covariance, to_unit};
use message::{Message, Shown, claim};
use quantity::{Amount, CalcError, Unit};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};
use statistics::bound::SIDE;

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
    /// The level at the beginning.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub start: Option<Amount>,
    /// How many years it was followed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub years: Option<f64>,
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
        (Way::Unchanged, _, Some(within)) => claim::UnchangedWithin { what, name, percent: percent(within, 3) }.into(),
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
        (Way::Fallen, _) if share == 0.0 => c.exceeds_one(),
        (Way::Fallen, _) => c.reaches(1.0 / (1.0 - share)),
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
        (Way::Unchanged, Some(p)) => stays_within(&c, positive("within_percent", p)? / 100.0),
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
            scientific: scientific(f, &c, (before_name, amount(before)), (after_name, amount(&after))),
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
            let most = 100.0 * (1.0 - 1.0 / high).max(1.0 / low - 1.0);
            claim::NoChangeWithin { what, name, percent: at_most(most, "%") }.into()
        }
        _ => claim::NoChange { what, name }.into(),
    }
}

/// Before and after with their names.
fn scientific(f: &Change, c: &Core, before: (Word, Word), after: (Word, Word)) -> Message {
    let ((before, xb), (after, xa)) = (before, after);
    let (what, interval) = (what(f), range(c.interval));
    if c.is_of_both_sides() {
        claim::ChangeScientific { what, before, after, xb, xa, interval }.into()
    } else {
        claim::ChangeScientificBounds { what, before, after, xb, xa, interval }.into()
    }
}

/// Is the later amount within a share of the earlier one? before/after lies from 1/(1 + share) to 1/(1 − share); a fall
/// to nothing is a fall by all, so a share of one or more leaves a rise alone to be looked at.
fn stays_within(c: &Core, share: f64) -> Answer {
    let (low, high) = (1.0 / (1.0 + share), if share < 1.0 { 1.0 / (1.0 - share) } else { f64::INFINITY });
    let falls_no_further = high.is_infinite() || c.at_most.is_some_and(|x| x <= high);
    if c.at_least.is_some_and(|x| x >= low) && falls_no_further {
        Answer::Supported
    } else if c.at_most.is_some_and(|x| x < low) || c.at_least.is_some_and(|x| x > high) {
        Answer::Contradicted
    } else {
        Answer::CannotTell
    }
}

/// Lower and upper end of the fall as a share of the level at the beginning (a rise is negative); none where the slope
/// comes without a level of u or without years. The ends of the slope hold with 97.5 % each, so does that end of the
/// level which claims less: together 95 %, by Bonferroni.
fn fall_as_share(s: &Slope) -> Result<Option<[f64; 2]>, CalcError> {
    let (Some(start), Some(years)) = (&s.start, s.years) else { return Ok(None) };
    let years = positive("slope.years", years)?;
    sound("slope.start", start)?;
    let start = to_unit("slope.start", start, &s.unit, None, 1.0)?;
    let (Amount::Measured(_), (Some(least), Some(most))) = (&start, bounds_at(&start, SIDE / 2.0)) else {
        return Ok(None);
    };
    let share = |fall: f64, small: f64, large: f64| if fall > 0.0 { fall / small } else { fall / large };
    let [low, high] = s.interval_95.map(|x| x * years);
    // Over the larger level a fall is the smaller share. A level that may be zero bounds no share from above.
    let (at_least, at_most) = (share(-high, most, least), share(-low, least, most));
    Ok(Some([at_least, at_most]).filter(|ends| !ends.iter().any(|x| x.is_nan())))
}

/// Does the slope bear "by at least so many percent", or "by no more than so many"?
fn answer_by_share(way: Way, asked: f64, ends: [f64; 2]) -> Answer {
    let [low, high] = match way {
        Way::Risen => [-ends[1], -ends[0]],
        Way::Fallen | Way::Unchanged => ends,
    };
    let decide = |supported: bool, contradicted: bool| match (supported, contradicted) {
        (true, _) => Answer::Supported,
        (_, true) => Answer::Contradicted,
        _ => Answer::CannotTell,
    };
    match way {
        Way::Unchanged => decide(low >= -asked && high <= asked, low > asked || high < -asked),
        Way::Fallen | Way::Risen => decide(low >= asked, high < asked),
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
    let by = if way == Way::Unchanged { f.within_percent } else { f.percent };
    let by = by.map(|p| positive("percent", p).map(|p| p / 100.0)).transpose()?;
    let ends = fall_as_share(s)?;
    let answer = match (by, ends) {
        (None, _) => answer,
        (Some(by), Some(ends)) => answer_by_share(way, by, ends),
        // A direction that is not there has no size either.
        (Some(_), None) if answer == Answer::Contradicted && way != Way::Unchanged => answer,
        (Some(_), None) => Answer::CannotTell,
    };
    let span = match (&s.from, &s.to) {
        (Some(from), Some(to)) => said(claim::Span { from: from.as_str().into(), to: to.as_str().into() }),
        _ => none(),
    };
    let (what, name) = (what(f), name(f));
    let mut warnings: Vec<Message> = vec![];
    if by.is_some() && ends.is_none() {
        warnings.push(claim::PercentOfSlope.into());
    } else if way == Way::Unchanged && by.is_none() && answer != Answer::Contradicted {
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
            plain: if by.is_some() && answer == Answer::Supported { asked(f, way) } else { nearest },
            interval_of: said(claim::SlopeIn { unit: unit.into() }),
            scientific: scientific.into(),
            warnings,
        },
    })
}
