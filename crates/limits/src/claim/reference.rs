//! "Lower than so-and-so water": comparison with a named reference that has its own u and source.
//!
//! A reference of the table, or one given with its figures. With a range the sentence must hold against
//! the whole range; without u and range the answer is "cannot tell", and the nearest sentence speaks of
//! the published figure alone (`"as_published": true` asks for no more than that). "Old ice" or "rain"
//! alone name no water and are refused with the names there are.

use super::core::core;
use super::ratio::Told;
use super::words::{amount_in_words, plain};
use super::{Answer, Checked, Relation, positive, sound, to_unit, within};
use crate::waters::{names, water, waters};
use quantity::{Amount, CalcError, Lang, Unit};
use serde::Deserialize;
use serde_json::json;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Fields {
    value: Amount,
    name: Option<String>,
    analyte: Option<String>,
    reference: Reference,
    relation: Option<String>,
    factor: Option<f64>,
    within: Option<f64>,
    #[serde(default)]
    as_published: bool,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Reference {
    Named(String),
    Given(Given),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    name: String,
    value: f64,
    u: Option<f64>,
    low: Option<f64>,
    high: Option<f64>,
    unit: Unit,
    source: Option<String>,
}

/// The reference with what is known of it.
struct Figure {
    name: String,
    amount: Amount,
    range: Option<(f64, f64)>,
    density: f64,
    source: String,
    notes: Vec<String>,
}

pub(super) fn check(f: Fields, lang: Lang) -> Result<Checked, CalcError> {
    sound("value", &f.value)?;
    let relation = Relation::parse(f.relation.as_deref(), Relation::AtLeast)?;
    let factor = positive("factor", f.factor.unwrap_or(1.0))?;
    let within = within(f.within)?;
    let analyte = f.analyte.as_deref().unwrap_or_default();
    let figure = figure(f.reference, analyte, lang)?;
    sound("reference", &figure.amount)?;
    let unit = f.value.unit();
    let density = figure.density;
    let convert = |a: &Amount| to_unit("reference", a, unit, f.analyte.as_deref(), density);
    let reference = convert(&figure.amount)?;
    let name = f.name.clone().unwrap_or_else(|| lang.say("reference.this_water", &[]));
    let mut warnings = figure.notes.clone();
    let scale = reference.value().unwrap_or(f64::NAN) / figure.amount.value().unwrap_or(f64::NAN);
    let in_range = |x: f64| Amount::measured(x * scale, 0.0, unit.clone());
    let exact = reference.value().map(|v| Amount::measured(v, 0.0, unit.clone()));
    let (mut told_core, mut limited) = (core(&reference, &f.value, 0.0), None);
    if let Some((low, high)) = figure.range {
        let (against_low, against_high) = (core(&in_range(low), &f.value, 0.0), core(&in_range(high), &f.value, 0.0));
        told_core = against_low.up_to(&against_high, told_core.point);
        let unit_name = figure.amount.unit().to_string();
        let n = |x: f64| lang.number(&plain(x, 3));
        let gaps = [("name", figure.name.as_str()), ("low", &n(low)), ("high", &n(high)), ("unit", &unit_name)];
        warnings.push(lang.say("trouble.reference_range", &gaps));
    } else if figure.amount.u().is_none() {
        let as_figure = core(exact.as_ref().unwrap_or(&reference), &f.value, 0.0);
        if f.as_published {
            told_core = as_figure;
            warnings.push(lang.say("note.as_published", &[("name", &figure.name)]));
        } else {
            limited = Some(as_figure);
        }
    }
    let published = lang.say(
        "reference.figure",
        &[("name", &figure.name), ("x", &amount_in_words(lang, &figure.amount)), ("source", &figure.source)],
    );
    let told = |core, a: &str, relation, factor| {
        Told { what: lang.substance(analyte), a, b: &name, core, relation, factor, within }.checked(
            lang,
            "reference",
            (&reference, &f.value),
        )
    };
    let mut out = told(told_core, &figure.name, relation, factor);
    if let Some(core) = limited {
        out.warnings.insert(0, lang.say("trouble.reference_without_u", &[("name", &figure.name)]));
        out.answer = Answer::CannotTell;
        let nearest = told(core, &published, Relation::AtLeast, 1.0);
        out.plain = nearest.plain;
        out.figures
            .insert("ratio_to_published_figure".into(), nearest.figures.get("ratio").cloned().unwrap_or_default());
    }
    out.warnings.extend(warnings);
    out.sources.push(figure.source.clone());
    out.figures.insert(
        "reference".into(),
        json!({"name": figure.name, "figure": figure.amount, "range": figure.range, "source": figure.source}),
    );
    Ok(out)
}

fn figure(r: Reference, analyte: &str, lang: Lang) -> Result<Figure, CalcError> {
    match r {
        Reference::Given(g) => {
            let amount = match g.u {
                Some(u) => Amount::measured(g.value, u, g.unit),
                None => Amount::stated(g.value, g.unit),
            };
            let mut notes = vec![];
            let source = g.source.unwrap_or_default();
            if source.trim().is_empty() {
                notes.push(lang.say("trouble.reference_without_source", &[("name", &g.name)]));
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
            Ok(Figure { name: g.name, amount, range: g.low.zip(g.high), density: 1.0, source, notes })
        }
        Reference::Named(name) => {
            let Some(w) = water(&name, analyte) else { return Err(unknown(&name, analyte)) };
            let mut notes = vec![];
            if w.provenance != "seen" {
                notes.push(lang.say("trouble.reference_recalled", &[("name", &w.water)]));
            }
            if w.kind == "crust" {
                return Err(CalcError::refused(
                    "reference",
                    &name,
                    "a water: the crust holds metal by mass of rock, not by volume of water",
                ));
            }
            if !w.note.is_empty() {
                notes.push(format!("{}: {}", w.water, w.note));
            }
            Ok(Figure {
                name: w.water.clone(),
                amount: w.amount(),
                range: w.range.filter(|_| w.u.is_none()),
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
