//! `plan`: what to take on the next trip. The one place where the JSON of a plan is read.

use super::read::{join, needed, ng_l, number, whole};
use crate::asked::{Asked, AskedPrices, Figure, Kind, MOST_WELLS, Source, Wanted, Wells};
use crate::plan::Choices;
use quantity::{CalcError, Calculation, Check};
use serde::de::DeserializeOwned;
use serde_json::Value;

pub(super) const PLAN: Calculation = Calculation {
    name: "plan",
    about: "designs of the next trip that nothing beats in price and chance to decide",
    example: r#"{"question":{"kind":"detect","level":{"value":0.05,"unit":"ng/L"}},"sources":[{"name":"acid_mL","per_unit_pg":3,"exposure":1},{"name":"openings","per_unit_pg":2.5,"exposure":2},{"name":"open_air_min","per_unit_pg":0.8}],"between_bottles_pg":2,"between_bottles_share":0.2,"laboratory_pg":1.5,"relative_sd":0.03,"prices":{"bottle":40,"spike":60,"trip":300},"wells":["SL-1","SL-2"]}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["question"],"properties":{"question":{"type":"object","required":["kind"],"description":"detect: level; limit: level, limit; lower: a, b; trend: level, percent_per_year, years, visits_per_year, natural_share; detection-limit: target, level. Concentrations as numbers of ng/L or with unit"},"sources":{"type":"array","items":{"type":"object","description":"name, per_unit_pg, exposure (1 when left out); a source named open_air_min or cabinet_min counts by the minutes of the design; u_pg, its scatter between bottles"}},"past_blanks_pg":{"type":"array","items":{"type":"number"}},"between_bottles_pg":{"type":"number"},"between_bottles_share":{"type":"number"},"laboratory_pg":{"type":"number"},"relative_sd":{"type":"number"},"past_dof":{"type":"number"},"spike_sd":{"type":"number"},"recovery_u":{"type":"number"},"prices":{"type":"object","description":"bottle, spike, trip, minute_saved, litre, vial"},"choices":{"type":"object","description":"samples, field_blanks, trip_blanks, bottle_blanks, spikes, volume_ml, minutes: lists; reference_materials, drift_checks, second_sources: vials of the run, one number each"},"required":{"type":"array","items":{"type":"string"},"description":"names of the checks that decide whether a bottle is accepted: number.recovery, number.duplicates, run.blank-count; a design without what answers them is not offered"},"warned":{"type":"array","items":{"type":"string"},"description":"names of checks that warn: vials of the run that answer them are in every design"},"least_recovery":{"type":"number"},"wells":{"description":"names, or how many"}}}"#,
    run,
};

/// A plan as JSON asks for it.
///
/// # Errors
/// [`CalcError::Refused`] naming the field, what was found and what is needed.
pub fn read(input: &Value) -> Result<Asked, CalcError> {
    if !input.is_object() {
        return Err(CalcError::refused("input", input, "an object with a question"));
    }
    let plain = |key: &str| number(input, key, "");
    Ok(Asked {
        analyte: input.get("analyte").and_then(Value::as_str).map(String::from),
        question: wanted(input.get("question").unwrap_or(&Value::Null))?,
        sources: sources(input)?,
        past_blanks_pg: input.get("past_blanks_pg").map(|v| items(v, "past_blanks_pg", "a list of pg")).transpose()?,
        between_bottles_pg: plain("between_bottles_pg")?,
        between_bottles_share: plain("between_bottles_share")?,
        laboratory_pg: plain("laboratory_pg")?,
        relative_sd: plain("relative_sd")?,
        past_dof: plain("past_dof")?,
        spike_sd: plain("spike_sd")?,
        recovery_u: plain("recovery_u")?,
        prices: prices(input)?,
        choices: choices(input)?,
        wells: wells(input)?,
        required: checks(input, "required")?,
        warned: checks(input, "warned")?,
        least_recovery: plain("least_recovery")?,
    })
}

/// The object under a key; none where it is left out.
fn part<'a>(input: &'a Value, key: &str) -> Result<Option<&'a Value>, CalcError> {
    match input.get(key) {
        None | Some(Value::Null) => Ok(None),
        Some(v) if v.is_object() => Ok(Some(v)),
        Some(v) => Err(CalcError::refused(key, v, "an object")),
    }
}

fn items<T: DeserializeOwned>(v: &Value, place: &str, expected: &str) -> Result<Vec<T>, CalcError> {
    serde_json::from_value(v.clone()).map_err(|e| CalcError::refused(place, e, expected))
}

fn wanted(v: &Value) -> Result<Wanted, CalcError> {
    let level = |key: &str| -> Result<Option<Figure>, CalcError> {
        match v.get(key) {
            None => Ok(None),
            Some(x) => {
                let written = match x {
                    Value::Object(o) => format!(
                        "{} {}",
                        o.get("value").map(Value::to_string).unwrap_or_default(),
                        o.get("unit").and_then(Value::as_str).unwrap_or("ng/L")
                    ),
                    plain => format!("{plain} ng/L"),
                };
                Ok(Some(Figure { value: ng_l(x, &join("question", key))?, written }))
            }
        }
    };
    let plain = |key: &str| -> Result<Option<Figure>, CalcError> {
        let written = || v.get(key).map(Value::to_string).unwrap_or_default();
        Ok(number(v, key, "question")?.map(|value| Figure { value, written: written() }))
    };
    let kind = match v.get("kind") {
        None | Some(Value::Null) => None,
        Some(Value::String(word)) => Some(Kind::parse(word)?),
        Some(other) => Some(Kind::parse(&other.to_string())?),
    };
    // What the kind does not ask for may be anything, as keys that nobody knows.
    let asks = |kinds: &[Kind]| kind.is_some_and(|k| kinds.contains(&k));
    let of = |kinds: &[Kind], key: &str| if asks(kinds) { level(key) } else { Ok(None) };
    let trend = asks(&[Kind::Trend]);
    Ok(Wanted {
        kind,
        level: of(&[Kind::Detect, Kind::Limit, Kind::Trend, Kind::DetectionLimit], "level")?,
        limit: of(&[Kind::Limit], "limit")?,
        a: of(&[Kind::Lower], "a")?,
        b: of(&[Kind::Lower], "b")?,
        target: of(&[Kind::DetectionLimit], "target")?,
        percent_per_year: if trend { plain("percent_per_year")? } else { None },
        years: if trend { plain("years")? } else { None },
        visits_per_year: if trend { number(v, "visits_per_year", "question")? } else { None },
        natural_share: if trend { number(v, "natural_share", "question")? } else { None },
    })
}

fn sources(input: &Value) -> Result<Option<Vec<Source>>, CalcError> {
    let list = match input.get("sources") {
        None | Some(Value::Null) => return Ok(None),
        Some(Value::Array(list)) => list,
        Some(other) => return Err(CalcError::refused("sources", other, "a list")),
    };
    let one = |(i, s): (usize, &Value)| -> Result<Source, CalcError> {
        let place = format!("sources[{i}]");
        let first = |keys: [&str; 2]| -> Result<Option<f64>, CalcError> {
            Ok(number(s, keys[0], &place)?.or(number(s, keys[1], &place)?))
        };
        Ok(Source {
            name: s.get("name").and_then(Value::as_str).unwrap_or_default().to_string(),
            per_unit_pg: match number(s, "per_unit_pg", &place)? {
                Some(p) => p,
                None => needed(s, "pg", &place)?,
            },
            exposure: number(s, "exposure", &place)?,
            u_pg: first(["u_pg", "u"])?,
        })
    };
    list.iter().enumerate().map(one).collect::<Result<_, _>>().map(Some)
}

fn prices(input: &Value) -> Result<AskedPrices, CalcError> {
    let Some(p) = part(input, "prices")? else { return Ok(AskedPrices::default()) };
    let get = |key: &str| number(p, key, "prices");
    Ok(AskedPrices {
        bottle: get("bottle")?,
        spike: get("spike")?,
        minute_saved: get("minute_saved")?,
        litre: get("litre")?,
        trip: get("trip")?,
        vial: get("vial")?,
    })
}

fn choices(input: &Value) -> Result<Choices, CalcError> {
    let mut all = Choices::default();
    for (key, v) in part(input, "choices")?.and_then(Value::as_object).into_iter().flatten() {
        let place = join("choices", key);
        let whole = |v: &Value| items::<u32>(v, &place, "a list of whole numbers of 0 or more");
        let plain = |v: &Value| items::<f64>(v, &place, "a list of numbers");
        match key.as_str() {
            "samples" => all.samples = whole(v)?,
            "field_blanks" => all.field_blanks = whole(v)?,
            "trip_blanks" => all.trip_blanks = whole(v)?,
            "bottle_blanks" => all.bottle_blanks = whole(v)?,
            "spikes" => all.spikes = whole(v)?,
            "volume_ml" => all.volume_ml = plain(v)?,
            "minutes" => all.minutes = plain(v)?,
            "reference_materials" => all.laboratory.reference_materials = vials(v, &place)?,
            "drift_checks" => all.laboratory.drift_checks = vials(v, &place)?,
            "second_sources" => all.laboratory.second_sources = vials(v, &place)?,
            _ => {
                return Err(CalcError::refused(
                    place,
                    "an unknown choice",
                    "samples, field_blanks, trip_blanks, bottle_blanks, spikes, volume_ml, minutes, reference_materials, drift_checks, second_sources",
                ));
            }
        }
    }
    Ok(all)
}

fn vials(v: &Value, place: &str) -> Result<u32, CalcError> {
    let expected = "a whole number of 0 or more: vials of the run are the same for every design";
    serde_json::from_value(v.clone()).map_err(|e| CalcError::refused(place, e, expected))
}

/// Checks by their names in the table of checks.
fn checks(input: &Value, key: &str) -> Result<Vec<Check>, CalcError> {
    let Some(names) = input.get(key).filter(|v| !v.is_null()) else { return Ok(vec![]) };
    let names: Vec<String> = items(names, key, "a list of names of checks")?;
    let one = |name: &String| {
        let known = Check::from_text(name).filter(|c| c.is_weighed());
        known.ok_or_else(|| CalcError::refused(key, name, format!("a check: {} …", Check::like(name).join(", "))))
    };
    names.iter().map(one).collect()
}

fn wells(input: &Value) -> Result<Option<Wells>, CalcError> {
    match input.get("wells") {
        None | Some(Value::Null) => Ok(None),
        Some(Value::Array(names)) => {
            let one = |(i, n): (usize, &Value)| {
                let name = n.as_str().map(String::from);
                name.ok_or_else(|| CalcError::refused(format!("wells[{i}]"), n, "the name of a well"))
            };
            names.iter().enumerate().map(one).collect::<Result<_, _>>().map(|n| Some(Wells::Named(n)))
        }
        Some(_) => match whole(input, "wells", 1)? {
            n if n > MOST_WELLS => Err(CalcError::refused("wells", n, format!("at most {MOST_WELLS}"))),
            n => Ok(Some(Wells::Count(n))),
        },
    }
}

fn run(input: &Value) -> Result<Value, CalcError> {
    Ok(serde_json::to_value(read(input)?.answer()?)?)
}
