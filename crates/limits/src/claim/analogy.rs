//! "As little as a litre in Loch Ness", "a drop in so many pools", "a second in so many years".
//!
//! By mass, a litre of water counted as one kilogram: 1 ng/L is one part in 1e12, 1 kg in a cubic
//! kilometre. A drop and a pool have no volume of their own: it is stated. A lake's volume comes from
//! the table, whatever the sentence says; a sentence that says another is told so. Pictures are other people's sentences:
//! one that the data do not bear is answered by the amount, not by a better picture.

use super::core::{Core, bounds, core};
use super::words::{Word, amount, at_least, at_most, named, named_or, plain, range, said, substance, word};
use super::{Answer, Found, Relation, Sentences, Source, positive, sound, to_unit, within};
use crate::bodies::{Body, LITRES_PER_KM3, bodies, body};
use message::{Message, Shown, claim};
use quantity::factor::{L_PER_M3, S_PER_YEAR};
use quantity::{Amount, CalcError, Unit};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};

/// "As little as a litre in Loch Ness", as fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(non_snake_case, reason = "units keep their capitals: mL")]
pub struct Analogy<A = Amount> {
    /// The amount that is pictured.
    pub value: A,
    /// The water the sentence speaks of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
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
            name: self.name,
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

/// The small thing of a picture.
#[derive(Clone, Copy)]
enum Small {
    Litres,
    Kilograms,
    Drops,
    Seconds,
}

/// The picture of the sentence.
struct Picture {
    /// How many units of the small thing the sentence claims.
    claimed: f64,
    /// One unit of it as a share of the large thing.
    unit_share: f64,
    /// What is set against the large thing.
    small: Small,
    /// The large thing.
    large: Word,
    /// Volume of the large thing, km³.
    volume_km3: Option<f64>,
    source: Source,
    warnings: Vec<Message>,
    /// The sentence states a volume that the body does not have.
    wrong_volume: bool,
}

impl Picture {
    /// With so many small things.
    fn of(&self, n: impl Into<Message>, f: &Analogy) -> Message {
        let (n, x, large) = (n.into(), amount(&f.value), self.large.clone());
        let what = substance(f.analyte.as_deref().unwrap_or_default());
        match self.small {
            Small::Litres => claim::LitresIn { x, what, n, large }.into(),
            Small::Kilograms => claim::KilogramsIn { x, what, n, large }.into(),
            Small::Drops => claim::DropsIn { x, what, n, large }.into(),
            Small::Seconds => claim::SecondsIn { x, what, n, large }.into(),
        }
    }
}

pub(super) fn check(f: &Analogy) -> Result<Found, CalcError> {
    sound("value", &f.value)?;
    let relation = Relation::parse(f.relation.as_deref(), Relation::About)?;
    let within = within(f.within)?;
    let p = picture(f)?;
    let ng_l = to_unit("value", &f.value, &Unit::known("ng/L"), f.analyte.as_deref(), 1.0)?;
    // 1 ng/L = 1e-12 kg/kg, a litre of water counted as a kilogram; here in units of the small thing.
    let per_ng_l = 1e-12 / p.unit_share;
    let one = Amount::measured(1.0 / per_ng_l, 0.0, Unit::known("ng/L"));
    let core = core(&ng_l, &one, 0.0);
    let mut answer = relation.answer(&core, p.claimed, within);
    if p.wrong_volume {
        answer = Answer::Contradicted;
    }
    let asked = p.of(claimed(relation, plain(p.claimed, 3)), f);
    let mut warnings = p.warnings.clone();
    warnings.extend(core.in_the_way(&said(claim::Value), &named("1")));
    warnings.push(claim::PictureOfSmallness.into());
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
    let with_n = p.of(claim::N, f);
    Ok(Found {
        kind: "analogy",
        answer,
        interval: core.interval,
        probability: None,
        figures,
        sentences: Sentences {
            interval_of: said(claim::NIn { picture: with_n.clone() }),
            plain: if answer == Answer::Supported { asked.clone() } else { holds(f) },
            asked,
            scientific: scientific(&p, &core, f, &ng_l, with_n),
            warnings,
        },
        sources: vec![p.source],
    })
}

/// The nearest sentence that the data do support: the amount itself.
fn holds(f: &Analogy) -> Message {
    let what = substance(f.analyte.as_deref().unwrap_or_default());
    claim::Holds { name: named_or(f.name.as_deref(), claim::ThisWater), what, x: amount(&f.value) }.into()
}

/// `with_n` is the picture with n, whose interval is said.
fn scientific(p: &Picture, core: &Core, f: &Analogy, ng_l: &Amount, with_n: Message) -> Message {
    let value = ng_l.value().filter(|x| *x > 0.0);
    let share = match (value, bounds(ng_l)) {
        (None, (_, Some(high))) => said(claim::AtMost { n: at_most(high, "") }),
        (None, (Some(low), None)) => said(claim::AtLeast { n: at_least(low, "") }),
        (x, _) => word(plain(x.unwrap_or(0.0), 3)),
    };
    let x = amount(&f.value);
    let scientific = claim::AnalogyScientific { x, share, picture: with_n, interval: range(core.interval) }.into();
    match (p.volume_km3, value) {
        (Some(v), Some(x)) => {
            let mass = Shown::trimmed(x * v, 3, "kg");
            claim::AnalogyWithMass { scientific, volume: km3(v), large: p.large.clone(), mass }.into()
        }
        _ => scientific,
    }
}

fn claimed(relation: Relation, n: Shown) -> Message {
    match relation {
        Relation::AtLeast => claim::AtLeast { n }.into(),
        Relation::About => claim::About { n }.into(),
        Relation::AtMost => claim::AtMost { n }.into(),
    }
}

fn km3(volume: f64) -> Shown {
    Shown::trimmed(volume, 4, "km³")
}

fn picture(f: &Analogy) -> Result<Picture, CalcError> {
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
        let large = said(claim::Years { n: plain(years, 5) });
        return Ok(simple(claimed, 1.0 / (years * S_PER_YEAR), Small::Seconds, large));
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
            let large = said(claim::Pools { n: plain(pools, 5), volume: Shown::trimmed(pool_m3, 5, "m³") });
            let mut p = simple(claimed, drop_l / (pools * pool_m3 * L_PER_M3), Small::Drops, large);
            p.volume_km3 = Some(pools * pool_m3 / 1e9);
            return Ok(p);
        }
        let mut p = in_body(f, claimed, drop_l, Small::Drops)?;
        if let Some(pools) = f.pools {
            let pools = positive("pools", pools)?;
            p.unit_share /= pools;
            p.volume_km3 = p.volume_km3.map(|v| v * pools);
            p.large = said(claim::Times { n: plain(pools, 5), large: p.large });
        }
        return Ok(p);
    }
    match (f.litres, f.kilograms) {
        (Some(l), _) => in_body(f, positive("litres", l)?, 1.0, Small::Litres),
        (_, kg) => in_body(f, positive("kilograms", kg.unwrap_or(f64::NAN))?, 1.0, Small::Kilograms),
    }
}

fn simple(claimed: f64, unit_share: f64, small: Small, large: Word) -> Picture {
    Picture {
        claimed,
        unit_share,
        small,
        large,
        volume_km3: None,
        source: Source::Said(claim::Arithmetic.into()),
        warnings: vec![],
        wrong_volume: false,
    }
}

/// A picture in a named body of water; `unit_l` is one unit of the small thing in litres.
fn in_body(f: &Analogy, claimed: f64, unit_l: f64, small: Small) -> Result<Picture, CalcError> {
    let Some(name) = f.body.as_deref() else {
        return Err(CalcError::refused("body", "none", "the name of the body of water"));
    };
    let known: Option<&Body> = body(name);
    let name = known.map_or(name, |b| b.name.as_str());
    let large = Message::named("body", name).map_or_else(|| named(name), word);
    let volume = match (known, f.volume_km3) {
        (Some(b), _) => b.volume_km3,
        (None, Some(v)) => positive("volume_km3", v)?,
        (None, None) => {
            let names: Vec<&str> = bodies().iter().map(|b| b.name.as_str()).collect();
            return Err(CalcError::refused(
                "body",
                name,
                format!("one of {}; or another body with its volume_km3", names.join(", ")),
            ));
        }
    };
    let mut warnings: Vec<Message> = vec![];
    let mut wrong_volume = false;
    if let (Some(b), Some(stated)) = (known, f.volume_km3)
        && (stated / b.volume_km3 - 1.0).abs() > 0.05
    {
        wrong_volume = true;
        let (stated, volume) = (km3(stated), km3(b.volume_km3));
        warnings.push(claim::VolumeDiffers { body: large.clone(), stated, volume }.into());
    }
    if known.is_some_and(|b| b.provenance == "recalled") {
        warnings.push(claim::VolumeRecalled { body: large.clone(), volume: km3(volume) }.into());
    }
    let (body, shown) = (large.clone(), km3(volume));
    let source: Message = match known {
        Some(b) => {
            let (source, provenance) = (b.source.as_str().into(), b.provenance.as_str().into());
            claim::VolumeFrom { body, volume: shown, source, provenance }.into()
        }
        None => claim::VolumeStated { body, volume: shown }.into(),
    };
    Ok(Picture {
        claimed,
        unit_share: unit_l / (volume * LITRES_PER_KM3),
        small,
        volume_km3: Some(volume),
        source: Source::Said(source),
        large,
        warnings,
        wrong_volume,
    })
}
