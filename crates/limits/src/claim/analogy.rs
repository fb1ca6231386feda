//! "As little as a litre in Loch Ness", "a drop in so many pools", "a second in so many years".
//!
//! By mass, a litre of water counted as one kilogram: 1 ng/L is one part in 1e12, 1 kg in a cubic
//! kilometre. A drop and a pool have no volume of their own: it is stated. A lake's volume comes from
//! the table, whatever the sentence says; a sentence that says another is told so.

use super::core::{bounds, core};
use super::words::{amount_in_words, at_most_text, floor_text, plain, range};
use super::{Answer, Checked, Relation, positive, sound, to_unit, within};
use crate::bodies::{Body, LITRES_PER_KM3, bodies, body};
use quantity::factor::{L_PER_M3, S_PER_YEAR};
use quantity::{Amount, CalcError, Lang, Unit};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};

/// "As little as a litre in Loch Ness", as fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(non_snake_case, reason = "units keep their capitals: mL")]
pub struct Analogy<A = Amount> {
    /// The amount that is pictured.
    pub value: A,
    /// Symbol or name of the substance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub analyte: Option<String>,
    /// Body of water.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub body: Option<String>,
    /// Its volume, km³, where the table has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub volume_km3: Option<f64>,
    /// Litres of the small thing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub litres: Option<f64>,
    /// Kilograms of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kilograms: Option<f64>,
    /// Drops of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drops: Option<f64>,
    /// Volume of a drop, mL.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drop_mL: Option<f64>,
    /// How many pools.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pools: Option<f64>,
    /// Volume of a pool, m³.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pool_m3: Option<f64>,
    /// Seconds in so many years.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seconds: Option<f64>,
    /// Years.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub years: Option<f64>,
    /// About (where left out), at least, at most.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub relation: Option<String>,
    /// The factor that "about" may be off.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub within: Option<f64>,
}

impl<A> Analogy<A> {
    /// The same with another amount.
    pub(super) fn with_value<B, E>(self, put: impl FnOnce(A) -> Result<B, E>) -> Result<Analogy<B>, E> {
        Ok(Analogy {
            value: put(self.value)?,
            analyte: self.analyte,
            body: self.body,
            volume_km3: self.volume_km3,
            litres: self.litres,
            kilograms: self.kilograms,
            drops: self.drops,
            drop_mL: self.drop_mL,
            pools: self.pools,
            pool_m3: self.pool_m3,
            seconds: self.seconds,
            years: self.years,
            relation: self.relation,
            within: self.within,
        })
    }
}

/// The picture of the sentence.
struct Picture {
    /// How many units of the small thing the sentence claims.
    claimed: f64,
    /// One unit of it as a share of the large thing.
    unit_share: f64,
    /// Key of the sentence: the amount in the gap `n`.
    key: &'static str,
    /// The large thing in words.
    large: String,
    /// Volume of the large thing, km³.
    volume_km3: Option<f64>,
    sources: Vec<String>,
    warnings: Vec<String>,
    /// The sentence states a volume that the body does not have.
    wrong_volume: bool,
}

pub(super) fn check(f: &Analogy, lang: Lang) -> Result<Checked, CalcError> {
    sound("value", &f.value)?;
    let relation = Relation::parse(f.relation.as_deref(), Relation::About)?;
    let within = within(f.within)?;
    let p = picture(f, lang)?;
    let ng_l = to_unit("value", &f.value, &Unit::known("ng/L"), f.analyte.as_deref(), 1.0)?;
    // 1 ng/L = 1e-12 kg/kg, a litre of water counted as a kilogram; here in units of the small thing.
    let per_ng_l = 1e-12 / p.unit_share;
    let one = Amount::measured(1.0 / per_ng_l, 0.0, Unit::known("ng/L"));
    let core = core(&ng_l, &one, 0.0);
    let mut answer = relation.answer(&core, p.claimed, within);
    if p.wrong_volume {
        answer = Answer::Contradicted;
    }
    let what =
        f.analyte.as_deref().map(|a| lang.say("analogy.of", &[("what", &lang.substance(a))])).unwrap_or_default();
    let say = |n: &str| {
        lang.say(p.key, &[("n", n), ("large", &p.large), ("x", &amount_in_words(lang, &f.value)), ("what", &what)])
    };
    let number = |x: f64| lang.number(&plain(x, 3));
    // Two digits are all that a picture bears.
    let two = |x: f64| lang.number(&plain(x, 2));
    let asked = say(&worded(lang, relation, &number(p.claimed)));
    let mut warnings = p.warnings.clone();
    warnings.extend(core.obstacles_in_words(lang, &lang.say("analogy.value", &[]), "1"));
    warnings.push(lang.say("note.analogy", &[]));
    let nearest = match (core.point, core.interval, &f.value) {
        (Some(x), [Some(l), Some(h)], _) if l > 0.0 => {
            say(&lang.say("analogy.about", &[("n", &two(x)), ("low", &two(l)), ("high", &two(h))]))
        }
        (_, [_, Some(h)], _) => say(&lang.say("word.at_most", &[("n", &lang.number(&at_most_text(h)))])),
        (_, [Some(l), None], _) => say(&lang.say("word.at_least", &[("n", &lang.number(&floor_text(l)))])),
        _ => lang.say("analogy.cannot", &[("x", &amount_in_words(lang, &f.value))]),
    };
    // A net value at or under zero is no amount of metal.
    let value = ng_l.value().filter(|x| *x > 0.0);
    let mut figures = Map::new();
    figures.insert("equivalent".into(), json!(core.point));
    figures.insert("claimed".into(), json!(p.claimed));
    if let Some(v) = p.volume_km3 {
        figures.insert("volume_km3".into(), json!(v));
        // 1 ng/L in 1 km³ is 1 kg, exactly.
        figures.insert("kilograms_in_body".into(), json!(value.map(|x| x * v)));
    }
    let mass = match (p.volume_km3, value) {
        (Some(v), Some(x)) => lang.say(
            "analogy.mass",
            &[("kg", &number(x * v)), ("large", &p.large), ("volume", &lang.number(&plain(v, 4)))],
        ),
        _ => String::new(),
    };
    let unit_share = match (value, bounds(&ng_l)) {
        (None, (_, Some(high))) => lang.say("word.at_most", &[("n", &lang.number(&at_most_text(high)))]),
        (None, (Some(low), None)) => lang.say("word.at_least", &[("n", &lang.number(&floor_text(low)))]),
        (x, _) => number(x.unwrap_or(0.0)),
    };
    let scientific = lang.say(
        "analogy.scientific",
        &[
            ("x", &amount_in_words(lang, &f.value)),
            ("share", &unit_share),
            ("interval", &range(lang, core.interval)),
            ("picture", &say("n")),
            ("mass", &mass),
        ],
    );
    let plain = if answer == Answer::Supported { asked.clone() } else { nearest };
    Ok(Checked {
        kind: "analogy".into(),
        asked,
        answer,
        interval: core.interval,
        interval_of: lang.say("analogy.interval_of", &[("picture", &say("n"))]),
        probability: None,
        plain,
        scientific,
        warnings,
        sources: p.sources,
        figures,
    })
}

fn worded(lang: Lang, relation: Relation, n: &str) -> String {
    match relation {
        Relation::AtLeast => lang.say("word.at_least", &[("n", n)]),
        Relation::About => lang.say("word.about", &[("n", n)]),
        Relation::AtMost => lang.say("word.at_most", &[("n", n)]),
    }
}

fn picture(f: &Analogy, lang: Lang) -> Result<Picture, CalcError> {
    let amounts = [f.litres, f.kilograms, f.drops, f.seconds].iter().flatten().count();
    if amounts != 1 {
        return Err(CalcError::refused(
            "litres, kilograms, drops, seconds",
            format!("{amounts} of them"),
            "exactly one: what the sentence sets against the large thing",
        ));
    }
    if let Some(seconds) = f.seconds {
        let claimed = positive("seconds", seconds)?;
        let years = positive("years", f.years.unwrap_or(f64::NAN))?;
        let large = lang.say("analogy.years", &[("n", &lang.number(&plain(years, 5)))]);
        return Ok(simple(claimed, 1.0 / (years * S_PER_YEAR), "analogy.seconds_in", large));
    }
    if let Some(drops) = f.drops {
        let claimed = positive("drops", drops)?;
        let drop_ml = f.drop_mL.ok_or_else(|| {
            CalcError::refused(
                "drop_mL",
                "none",
                "the volume of the drop in mL: drops differ (0.05 mL is common practice)",
            )
        })?;
        let drop_l = positive("drop_mL", drop_ml)? / 1000.0;
        if f.body.is_none() {
            let pools = positive("pools", f.pools.unwrap_or(1.0))?;
            let pool_m3 = f.pool_m3.ok_or_else(|| {
                CalcError::refused("pool_m3", "none", "the volume of one pool in m³, or body with a pool of the table")
            })?;
            let pool_m3 = positive("pool_m3", pool_m3)?;
            let gaps = (lang.number(&plain(pools, 5)), lang.number(&plain(pool_m3, 5)));
            let large = lang.say("analogy.pools", &[("n", &gaps.0), ("volume", &gaps.1)]);
            let mut p = simple(claimed, drop_l / (pools * pool_m3 * L_PER_M3), "analogy.drops_in", large);
            p.volume_km3 = Some(pools * pool_m3 / 1e9);
            return Ok(p);
        }
        let mut p = in_body(f, lang, claimed, drop_l, "analogy.drops_in")?;
        if let Some(pools) = f.pools {
            let pools = positive("pools", pools)?;
            p.unit_share /= pools;
            p.volume_km3 = p.volume_km3.map(|v| v * pools);
            p.large = lang.say("analogy.times", &[("n", &lang.number(&plain(pools, 5))), ("large", &p.large)]);
        }
        return Ok(p);
    }
    match (f.litres, f.kilograms) {
        (Some(l), _) => in_body(f, lang, positive("litres", l)?, 1.0, "analogy.litres_in"),
        (_, kg) => in_body(f, lang, positive("kilograms", kg.unwrap_or(f64::NAN))?, 1.0, "analogy.kilograms_in"),
    }
}

fn simple(claimed: f64, unit_share: f64, key: &'static str, large: String) -> Picture {
    Picture {
        claimed,
        unit_share,
        key,
        large,
        volume_km3: None,
        sources: vec!["arithmetic".into()],
        warnings: vec![],
        wrong_volume: false,
    }
}

/// A picture in a named body of water; `unit_l` is one unit of the small thing in litres.
fn in_body(f: &Analogy, lang: Lang, claimed: f64, unit_l: f64, key: &'static str) -> Result<Picture, CalcError> {
    let Some(name) = f.body.as_deref() else {
        return Err(CalcError::refused("body", "none", "the name of the body of water"));
    };
    let known: Option<&Body> = body(name);
    let (volume, provenance, source) = match (known, f.volume_km3) {
        (Some(b), _) => (b.volume_km3, b.provenance.as_str(), b.source.clone()),
        (None, Some(v)) => (positive("volume_km3", v)?, "stated", lang.say("analogy.stated", &[])),
        (None, None) => {
            let names: Vec<&str> = bodies().iter().map(|b| b.name.as_str()).collect();
            return Err(CalcError::refused(
                "body",
                name,
                format!("one of {}; or another body with its volume_km3", names.join(", ")),
            ));
        }
    };
    let large = known.map_or_else(|| name.to_string(), |b| b.name.clone());
    let number = |x: f64| lang.number(&plain(x, 4));
    let mut warnings = vec![];
    let mut wrong_volume = false;
    if let (Some(b), Some(stated)) = (known, f.volume_km3)
        && (stated / b.volume_km3 - 1.0).abs() > 0.05
    {
        wrong_volume = true;
        let gaps = [("body", large.as_str()), ("stated", &number(stated)), ("volume", &number(b.volume_km3))];
        warnings.push(lang.say("trouble.volume", &gaps));
    }
    if provenance == "recalled" {
        warnings.push(lang.say("trouble.volume_recalled", &[("body", &large), ("volume", &number(volume))]));
    }
    Ok(Picture {
        claimed,
        unit_share: unit_l / (volume * LITRES_PER_KM3),
        key,
        volume_km3: Some(volume),
        sources: vec![format!("{large}: {} km³, {source}, {provenance}", plain(volume, 4))],
        large,
        warnings,
        wrong_volume,
    })
}
