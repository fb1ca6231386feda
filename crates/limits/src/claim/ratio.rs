//! "b holds so many times less than a."

use super::core::{Core, core};
use super::words::{amount_in_words, at_most_text, floor_text, plain, probability, range};
use super::{Answer, Checked, Relation, positive, sound, sound_covariance, to_unit, within};
use quantity::{Amount, CalcError, Lang};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};

/// "b holds so many times less than a", as fields.
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

pub(super) fn check(f: &Ratio, lang: Lang) -> Result<Checked, CalcError> {
    let relation = Relation::parse(f.relation.as_deref(), Relation::AtLeast)?;
    let factor = positive("factor", f.factor.unwrap_or(1.0))?;
    let within = within(f.within)?;
    sound("a", &f.a)?;
    sound("b", &f.b)?;
    let analyte = f.analyte.as_deref();
    let b = to_unit("b", &f.b, f.a.unit(), analyte, 1.0)?;
    let covariance = f.covariance.unwrap_or(0.0);
    sound_covariance("covariance", covariance, &f.a, &b)?;
    let names = (f.a_name.as_deref().unwrap_or("a"), f.b_name.as_deref().unwrap_or("b"));
    let told = Told {
        what: lang.substance(analyte.unwrap_or_default()),
        a: names.0,
        b: names.1,
        core: core(&f.a, &b, covariance),
        relation,
        factor,
        within,
    };
    Ok(told.checked(lang, "ratio", (&f.a, &b)))
}

/// A ratio with all that its sentences need. Shared with comparison with a reference.
pub(super) struct Told<'a> {
    /// The substance; may be empty.
    pub what: String,
    pub a: &'a str,
    pub b: &'a str,
    pub core: Core,
    pub relation: Relation,
    pub factor: f64,
    pub within: f64,
}

impl Told<'_> {
    pub fn checked(&self, lang: Lang, kind: &str, amounts: (&Amount, &Amount)) -> Checked {
        let answer = self.relation.answer(&self.core, self.factor, self.within);
        let p = self.core.probability(self.factor);
        let mut warnings = self.core.obstacles_in_words(lang, self.a, self.b);
        if self.relation == Relation::About {
            let percent = plain(100.0 * (self.within - 1.0), 3);
            warnings.push(lang.say("note.about", &[("percent", &lang.number(&percent))]));
        }
        let mut figures = Map::new();
        if let Some(point) = self.core.point {
            figures.insert("ratio".into(), json!(point));
        }
        figures.insert("at_least_95".into(), json!(self.core.at_least));
        figures.insert("at_most_95".into(), json!(self.core.at_most));
        figures.insert("a".into(), json!(amounts.0));
        figures.insert("b".into(), json!(amounts.1));
        Checked {
            kind: kind.into(),
            asked: self.asked(lang),
            answer,
            interval: self.core.interval,
            interval_of: format!("{} / {}", self.a, self.b),
            probability: p.filter(|_| self.relation == Relation::AtLeast),
            plain: self.plain(lang, answer),
            scientific: self.scientific(lang, amounts, p),
            warnings,
            sources: vec!["Fieller 1954, J. R. Stat. Soc. B 16:175".into()],
            figures,
        }
    }

    fn gaps<'t>(&'t self, factor: &'t str) -> [(&'t str, &'t str); 4] {
        [("a", self.a), ("b", self.b), ("what", &self.what), ("factor", factor)]
    }

    fn asked(&self, lang: Lang) -> String {
        let text = lang.number(&plain(self.factor, 3));
        let g = self.gaps(&text);
        match self.relation {
            // "At least once as much less" is said as less.
            Relation::AtLeast if (self.factor - 1.0).abs() < 1e-12 => lang.say("ratio.less", &g),
            Relation::AtLeast => lang.say("ratio.at_least", &g),
            Relation::About if (self.factor - 1.0).abs() < 1e-12 => lang.say("ratio.as_much", &g),
            Relation::About => lang.say("ratio.about", &g),
            Relation::AtMost => lang.say("ratio.at_most", &g),
        }
    }

    /// The nearest sentence that the data do support.
    fn plain(&self, lang: Lang, answer: Answer) -> String {
        if answer == Answer::Supported && self.relation != Relation::AtLeast {
            return self.asked(lang);
        }
        let number = |t: String| lang.number(&t);
        if let (Relation::About, Some(low), Some(high)) = (self.relation, self.core.at_least, self.core.at_most)
            && low > 1.0
        {
            let (low, high) = (number(floor_text(low)), number(at_most_text(high)));
            let mut g = self.gaps(&low).to_vec();
            g.push(("high", &high));
            return lang.say("ratio.between", &g);
        }
        match (self.core.at_least, self.core.at_most) {
            (Some(low), _) if low >= 1.1 => lang.say("ratio.at_least", &self.gaps(&number(floor_text(low)))),
            (Some(low), _) if low > 1.0 => lang.say("ratio.less", &self.gaps("")),
            (_, Some(high)) if high > 0.0 && 1.0 / high >= 1.1 => {
                lang.say("ratio.more_at_least", &self.gaps(&number(floor_text(1.0 / high))))
            }
            (_, Some(high)) if high < 1.0 => lang.say("ratio.more", &self.gaps("")),
            _ => lang.say("ratio.cannot", &self.gaps("")),
        }
    }

    fn scientific(&self, lang: Lang, amounts: (&Amount, &Amount), p: Option<f64>) -> String {
        let (xa, xb) = (amount_in_words(lang, amounts.0), amount_in_words(lang, amounts.1));
        let interval = range(lang, self.core.interval);
        let what =
            if self.what.is_empty() { String::new() } else { format!("{}: ", quantity::format::capital(&self.what)) };
        let factor = lang.number(&plain(self.factor, 3));
        let mut g = vec![("a", self.a), ("b", self.b), ("xa", &xa), ("xb", &xb), ("interval", &interval)];
        let point = self.core.point.map(|r| lang.number(&plain(r, 3)));
        let head = match (&point, p) {
            (Some(r), Some(_)) => {
                g.push(("ratio", r));
                lang.say("ratio.scientific", &g)
            }
            _ => lang.say("ratio.scientific_bounds", &g),
        };
        let tail = match p {
            Some(p) => {
                let p = probability(lang, p);
                lang.say("ratio.probability", &[("factor", &factor), ("p", &p)])
            }
            None => String::new(),
        };
        format!("{what}{head}{tail}.")
    }
}
