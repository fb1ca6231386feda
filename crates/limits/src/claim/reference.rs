//! "Lower than so-and-so water": comparison with a named reference that has its own u and source.
//!
//! A reference of the table, or one given with its figures. With a range the sentence must hold against
//! the whole range; without u and range the answer is "cannot tell", and the nearest sentence speaks of
//! the published figure alone (`"as_published": true` asks for no more than that). "Old ice" or "rain"
//! alone name no water and are refused with the names there are.

use super::core::{Core, core};
use super::ratio::Told;
use super::words::{Word, amount, named, named_or, plain, said, word};
use super::{Answer, Found, Relation, positive, sound, to_unit, within};
use crate::waters::{names, water, waters};
use message::{Message, Shown, claim};
use quantity::{Amount, CalcError, Unit};
use serde::de::value::MapAccessDeserializer;
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};
use serde_json::json;
use std::fmt;

/// "Lower than so-and-so water", as fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Comparison<A = Amount> {
    /// The amount that is compared.
    pub value: A,
    /// The water the sentence speaks of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Symbol of the substance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub analyte: Option<String>,
    /// The reference.
    pub reference: Reference,
    /// At least (where left out), about, at most.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub relation: Option<String>,
    /// How many times; 1 where left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub factor: Option<f64>,
    /// The factor that "about" may be off.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub within: Option<f64>,
    /// The sentence speaks of the published figure alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub as_published: Option<bool>,
}

/// A reference of the table, or one given with its figures.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Reference {
    /// By its name in the table.
    Named(String),
    /// With its figures.
    Given(Given),
}

impl<'de> Deserialize<'de> for Reference {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct NameOrFigures;
        impl<'de> Visitor<'de> for NameOrFigures {
            type Value = Reference;

            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                f.write_str("the name of a reference, or an object with name, value, u, unit, source")
            }

            fn visit_str<E>(self, name: &str) -> Result<Reference, E> {
                Ok(Reference::Named(name.into()))
            }

            fn visit_map<M: MapAccess<'de>>(self, map: M) -> Result<Reference, M::Error> {
                Given::deserialize(MapAccessDeserializer::new(map)).map(Reference::Given)
            }
        }
        d.deserialize_any(NameOrFigures)
    }
}

/// A reference with its figures.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Given {
    /// Its name.
    pub name: String,
    /// The figure, in `unit`.
    pub value: f64,
    /// Standard uncertainty, in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u: Option<f64>,
    /// Low end of its range, in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// High end of its range, in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub high: Option<f64>,
    /// The unit.
    pub unit: Unit,
    /// Where the figure comes from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// The reference with what is known of it.
struct Figure {
    name: String,
    amount: Amount,
    /// Its ends; an end that the source does not give bounds nothing.
    range: [Option<f64>; 2],
    density: f64,
    source: String,
    notes: Vec<Message>,
}

pub(super) fn check(f: &Comparison) -> Result<Found, CalcError> {
    sound("value", &f.value)?;
    let relation = Relation::parse(f.relation.as_deref(), Relation::AtLeast)?;
    let factor = positive("factor", f.factor.unwrap_or(1.0))?;
    let within = within(f.within)?;
    let analyte = f.analyte.as_deref().unwrap_or_default();
    let figure = figure(&f.reference, analyte)?;
    sound("reference", &figure.amount)?;
    let unit = f.value.unit();
    let density = figure.density;
    let convert = |a: &Amount| to_unit("reference", a, unit, f.analyte.as_deref(), density);
    let reference = convert(&figure.amount)?;
    let water = water_word(&figure.name);
    let mut warnings = figure.notes.clone();
    let exact = reference.value().map(|v| Amount::measured(v, 0.0, unit.clone()));
    let (mut told_core, mut limited) = (core(&reference, &f.value, 0.0), None);
    if figure.range != [None, None] {
        // Exact ends: what is not known of the reference is the range itself.
        let against = |end: Option<f64>| {
            let end = end.map(|x| convert(&Amount::measured(x, 0.0, figure.amount.unit().clone()))).transpose()?;
            Ok::<_, CalcError>(end.map_or_else(Core::open, |end| core(&end, &f.value, 0.0)))
        };
        told_core = against(figure.range[0])?.up_to(&against(figure.range[1])?, told_core.point);
        warnings.push(said_of_range(&figure, &water));
    } else if figure.amount.u().is_none() {
        let as_figure = core(exact.as_ref().unwrap_or(&reference), &f.value, 0.0);
        if f.as_published == Some(true) {
            told_core = as_figure;
            warnings.push(claim::AsPublished { name: water.clone() }.into());
        } else {
            limited = Some(as_figure);
        }
    }
    let b = named_or(f.name.as_deref(), claim::ThisWater);
    let told = |core, a, relation, factor| {
        Told { what: analyte, a, b: b.clone(), core, relation, factor, within }
            .found("reference", (&reference, &f.value))
    };
    let mut out = told(told_core, water.clone(), relation, factor);
    if let Some(core) = limited {
        out.sentences.warnings.insert(0, claim::ReferenceWithoutU { name: water.clone() }.into());
        out.answer = Answer::CannotTell;
        let (x, source) = (amount(&figure.amount), figure.source.as_str().into());
        let published = said(claim::PublishedFigure { name: water.clone(), x, source });
        let nearest = told(core, published, Relation::AtLeast, 1.0);
        out.sentences.plain = nearest.sentences.plain;
        out.figures
            .insert("ratio_to_published_figure".into(), nearest.figures.get("ratio").cloned().unwrap_or_default());
    }
    out.sentences.warnings.extend(warnings);
    out.sources.push(figure.source.as_str().into());
    let range = Some(figure.range).filter(|r| *r != [None, None]);
    out.figures.insert(
        "reference".into(),
        json!({"name": figure.name, "figure": figure.amount, "range": range, "source": figure.source}),
    );
    Ok(out)
}

/// The range that the sentence must hold against.
fn said_of_range(figure: &Figure, water: &Word) -> Message {
    let (name, unit) = (water.clone(), figure.amount.unit().to_string());
    match figure.range {
        [Some(low), Some(high)] => {
            claim::ReferenceRange { name, low: plain(low, 3), high: Shown::trimmed(high, 3, unit) }.into()
        }
        [Some(low), None] => claim::ReferenceFrom { name, low: Shown::trimmed(low, 3, unit) }.into(),
        [_, high] => claim::ReferenceUpTo { name, high: Shown::trimmed(high.unwrap_or(f64::NAN), 3, unit) }.into(),
    }
}

/// The water of a reference: by its word where the table has it.
fn water_word(name: &str) -> Word {
    Message::named("reference_water", name).map_or_else(|| named(name), word)
}

fn figure(r: &Reference, analyte: &str) -> Result<Figure, CalcError> {
    match r {
        Reference::Given(g) => {
            let amount = match g.u {
                Some(u) => Amount::measured(g.value, u, g.unit.clone()),
                None => Amount::stated(g.value, g.unit.clone()),
            };
            let mut notes = vec![];
            let source = g.source.clone().unwrap_or_default();
            if source.trim().is_empty() {
                notes.push(claim::ReferenceWithoutSource { name: water_word(&g.name) }.into());
            }
            if let (Some(l), Some(h)) = (g.low, g.high)
                && !(l > 0.0 && l <= h)
            {
                return Err(CalcError::refused(
                    "reference",
                    format!("{l} to {h}"),
                    "a range from low to high, over zero",
                ));
            }
            Ok(Figure { name: g.name.clone(), amount, range: [g.low, g.high], density: 1.0, source, notes })
        }
        Reference::Named(name) => {
            let Some(w) = water(name, analyte) else { return Err(unknown(name, analyte)) };
            let mut notes = vec![];
            if w.provenance != "seen" {
                notes.push(claim::ReferenceRecalled { name: water_word(&w.water) }.into());
            }
            if w.kind == "crust" {
                return Err(CalcError::refused(
                    "reference",
                    name,
                    "a water: the crust holds metal by mass of rock, not by volume of water",
                ));
            }
            if let Some(note) = w.noted.clone() {
                notes.push(claim::ReferenceNote { name: water_word(&w.water), note }.into());
            }
            Ok(Figure {
                name: w.water.clone(),
                amount: w.amount(),
                range: w.range.filter(|_| w.u.is_none()).map_or([None, None], |(low, high)| [Some(low), Some(high)]),
                density: w.density_kg_l,
                source: w.source.clone(),
                notes,
            })
        }
    }
}

fn unknown(name: &str, analyte: &str) -> CalcError {
    let lower = name.to_lowercase();
    let kind: Vec<&str> = waters()
        .iter()
        .filter(|w| {
            w.analyte == analyte
                && (w.kind == lower
                    || w.kind.contains(&lower)
                    || lower.contains(&w.kind)
                    || (lower.contains("ice") && w.kind == "old ice"))
        })
        .map(|w| w.water.as_str())
        .collect();
    let known = names(analyte);
    let expected = if analyte.is_empty() {
        "analyte beside a reference of the table, as the symbol: Pb".to_string()
    } else if !kind.is_empty() {
        format!("which one: {}; they lie far apart", kind.join("; "))
    } else if known.is_empty() {
        format!("a reference with its own figures: the table has no water with {analyte}")
    } else {
        format!("one of {}; or an object with name, value, u, unit, source", known.join("; "))
    };
    CalcError::refused("reference", name, expected)
}
