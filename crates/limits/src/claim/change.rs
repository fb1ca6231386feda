//! "It has fallen", "it has risen", "it has not changed".
//!
//! From two amounts, or from a slope with its 95 % interval (as `calc trend` gives it). "Not changed"
//! is supported only when the sentence says how much would count as none (`within_percent`): no
//! difference found is not no difference. Where the method changed between the two, the answer is
//! "cannot tell" unless `methods_compared` says that both were run side by side.

use super::core::core;
use super::words::{amount_in_words, at_most_text, floor_text, plain, range};
use super::{Answer, Checked, positive, sound, sound_covariance, to_unit};
use quantity::{Amount, CalcError, Lang, Unit};
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

pub(super) fn check(f: &Change, lang: Lang) -> Result<Checked, CalcError> {
    let way = match f.relation.trim() {
        "fallen" => Way::Fallen,
        "risen" => Way::Risen,
        "unchanged" => Way::Unchanged,
        other => return Err(CalcError::refused("relation", other, "fallen, risen or unchanged")),
    };
    let mut out = match (&f.slope, &f.before, &f.after) {
        (Some(s), None, None) => by_slope(f, s, way, lang)?,
        (None, Some(b), Some(a)) => by_two(f, b, a, way, lang)?,
        _ => return Err(CalcError::refused("before, after, slope", "none or all", "before and after, or slope")),
    };
    let mut methods = f.methods.clone().unwrap_or_default();
    methods.dedup();
    if methods.len() > 1 && f.methods_compared != Some(true) {
        out.answer = Answer::CannotTell;
        out.warnings.insert(0, lang.say("trouble.methods", &[("list", &methods.join(" → "))]));
        out.plain = lang.say("change.methods", &[("what", &what(f, lang)), ("name", &name(f, lang))]);
    }
    Ok(out)
}

fn what(f: &Change, lang: Lang) -> String {
    f.analyte.as_deref().map_or_else(|| lang.say("change.it", &[]), |a| lang.substance(a))
}

fn name(f: &Change, lang: Lang) -> String {
    f.name.clone().unwrap_or_else(|| lang.say("reference.this_water", &[]))
}

fn asked(f: &Change, way: Way, lang: Lang) -> String {
    let (what, name) = (what(f, lang), name(f, lang));
    let percent = f.percent.or(f.within_percent).map(|p| lang.number(&plain(p, 3)));
    let mut g = vec![("what", what.as_str()), ("name", &name)];
    if let Some(p) = &percent {
        g.push(("percent", p));
    }
    match (way, f.percent, f.within_percent) {
        (Way::Fallen, Some(_), _) => lang.say("change.fallen_by", &g),
        (Way::Risen, Some(_), _) => lang.say("change.risen_by", &g),
        (Way::Fallen, ..) => lang.say("change.fallen", &g),
        (Way::Risen, ..) => lang.say("change.risen", &g),
        (Way::Unchanged, _, Some(_)) => lang.say("change.unchanged_within", &g),
        (Way::Unchanged, ..) => lang.say("change.unchanged", &g),
    }
}

fn by_two(f: &Change, before: &Amount, after: &Amount, way: Way, lang: Lang) -> Result<Checked, CalcError> {
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
    let names = (
        f.before_name.clone().unwrap_or_else(|| lang.say("change.before", &[])),
        f.after_name.clone().unwrap_or_else(|| lang.say("change.after", &[])),
    );
    let asked = asked(f, way, lang);
    let (what, name) = (what(f, lang), name(f, lang));
    let percent = |r: f64| lang.number(&floor_text(100.0 * r));
    let nearest = match (c.at_least, c.at_most) {
        (Some(low), _) if low > 1.0 => {
            lang.say("change.fallen_by", &[("what", &what), ("name", &name), ("percent", &percent(1.0 - 1.0 / low))])
        }
        (_, Some(high)) if high < 1.0 && high > 0.0 => {
            lang.say("change.risen_by", &[("what", &what), ("name", &name), ("percent", &percent(1.0 / high - 1.0))])
        }
        (Some(low), Some(high)) if low > 0.0 => {
            let most = at_most_text(100.0 * (high - 1.0).max(1.0 / low - 1.0));
            lang.say("change.none_found_within", &[("what", &what), ("name", &name), ("percent", &lang.number(&most))])
        }
        _ => lang.say("change.none_found", &[("what", &what), ("name", &name)]),
    };
    let mut warnings = c.obstacles_in_words(lang, &names.0, &names.1);
    if way == Way::Unchanged && f.within_percent.is_none() {
        warnings.push(lang.say("trouble.unchanged", &[]));
    }
    warnings.push(lang.say("note.two_points", &[]));
    let scientific = lang.say(
        "change.scientific",
        &[
            ("what", &what),
            ("before", &names.0),
            ("after", &names.1),
            ("xb", &amount_in_words(lang, before)),
            ("xa", &amount_in_words(lang, &after)),
            ("interval", &range(lang, c.interval)),
        ],
    );
    let mut figures = Map::new();
    figures.insert("ratio".into(), json!(c.point));
    Ok(Checked {
        kind: "change".into(),
        plain: if answer == Answer::Supported { asked.clone() } else { nearest },
        asked,
        answer,
        interval: c.interval,
        interval_of: format!("{} / {}", names.0, names.1),
        probability: None,
        scientific,
        warnings,
        sources: vec!["Fieller 1954, J. R. Stat. Soc. B 16:175".into()],
        figures,
    })
}

/// "Has fallen" at all is more than a ratio of exactly 1.
fn strict(c: &super::core::Core, answer: Answer, share: f64) -> Answer {
    if share == 0.0 && answer == Answer::Supported && !c.at_least.is_some_and(|x| x > 1.0) {
        Answer::CannotTell
    } else {
        answer
    }
}

fn by_slope(f: &Change, s: &Slope, way: Way, lang: Lang) -> Result<Checked, CalcError> {
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
        _ => Answer::CannotTell,
    };
    let (what, name) = (what(f, lang), name(f, lang));
    let span = match (&s.from, &s.to) {
        (Some(a), Some(b)) => lang.say("change.span", &[("from", a), ("to", b)]),
        _ => String::new(),
    };
    let n = |x: f64| lang.number(&plain(x, 2));
    let unit = s.unit.to_string();
    let g = [("what", what.as_str()), ("name", &name), ("span", &span)];
    let nearest = if falls {
        lang.say("change.slope_falls", &g)
    } else if rises {
        lang.say("change.slope_rises", &g)
    } else {
        lang.say("change.slope_none", &g)
    };
    let mut warnings = vec![];
    if way == Way::Unchanged && answer != Answer::Contradicted {
        warnings.push(lang.say("trouble.unchanged", &[]));
    }
    let scientific = lang.say(
        "change.slope_scientific",
        &[
            ("what", &what),
            ("slope", &n(s.per_year)),
            ("low", &n(low)),
            ("high", &n(high)),
            ("unit", &unit),
            ("span", &span),
        ],
    );
    let asked = asked(f, way, lang);
    Ok(Checked {
        kind: "change".into(),
        plain: nearest,
        asked,
        answer,
        interval: [Some(low), Some(high)],
        interval_of: lang.say("change.slope", &[("unit", &unit)]),
        probability: None,
        scientific,
        warnings,
        sources: vec![
            "Sen 1968, J. Am. Stat. Assoc. 63:1379 (slope and interval, where they come from `calc trend`)".into(),
        ],
        figures: Map::new(),
    })
}
