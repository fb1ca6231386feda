//! Reading of the JSON input; each refusal names the field, what was there and what is needed.

use crate::{Observation, Reading, rows};
use jiff::civil::Date;
use quantity::{CalcError, Unit};
use serde_json::{Map, Value};

pub(super) fn object<'a>(v: &'a Value, field: &str) -> Result<&'a Map<String, Value>, CalcError> {
    v.as_object().ok_or_else(|| CalcError::refused(field, v, "an object"))
}

/// Refuses keys that mean nothing here: a misspelt key must not be passed over.
pub(super) fn only_keys(map: &Map<String, Value>, field: &str, allowed: &[&str]) -> Result<(), CalcError> {
    match map.keys().find(|k| !allowed.contains(&k.as_str())) {
        None => Ok(()),
        Some(key) => Err(CalcError::refused(
            join(field, key),
            "a key that is not known",
            format!("one of {}", allowed.join(", ")),
        )),
    }
}

fn join(field: &str, key: &str) -> String {
    if field.is_empty() || field == "input" { key.to_string() } else { format!("{field}.{key}") }
}

pub(super) fn number(v: &Value, field: &str) -> Result<f64, CalcError> {
    v.as_f64().ok_or_else(|| CalcError::refused(field, v, "a number"))
}

pub(super) fn optional_number(map: &Map<String, Value>, key: &str, default: f64) -> Result<f64, CalcError> {
    map.get(key).map_or(Ok(default), |v| number(v, key))
}

pub(super) fn whole(map: &Map<String, Value>, key: &str, default: u64, most: u64) -> Result<u64, CalcError> {
    let Some(v) = map.get(key) else {
        return Ok(default);
    };
    v.as_u64()
        .filter(|n| *n <= most)
        .ok_or_else(|| CalcError::refused(key, v, format!("a whole number from 0 to {most}")))
}

pub(super) fn text<'a>(v: &'a Value, field: &str) -> Result<&'a str, CalcError> {
    v.as_str().ok_or_else(|| CalcError::refused(field, v, "a text"))
}

pub(super) fn list<'a>(v: Option<&'a Value>, field: &str) -> Result<&'a [Value], CalcError> {
    match v {
        Some(Value::Array(a)) => Ok(a),
        Some(other) => Err(CalcError::refused(field, other, "a list")),
        None => Err(CalcError::refused(field, "nothing", "a list")),
    }
}

/// The unit of the whole input: printed form, or empty where none was given.
pub(super) fn unit(map: &Map<String, Value>) -> Result<String, CalcError> {
    let Some(v) = map.get("unit") else {
        return Ok(String::new());
    };
    let name = text(v, "unit")?;
    let unit: Unit = serde_json::from_value(v.clone()).map_err(|e| CalcError::refused("unit", name, e.to_string()))?;
    Ok(unit.to_string())
}

/// `{"value": x}` or `{"below": x}`; other keys are the caller's.
pub(super) fn reading(map: &Map<String, Value>, field: &str) -> Result<Reading, CalcError> {
    match (map.get("value"), map.get("below")) {
        (Some(v), None) => Ok(Reading::Known(number(v, &join(field, "value"))?)),
        (None, Some(v)) => Ok(Reading::Below(number(v, &join(field, "below"))?)),
        (Some(_), Some(_)) => {
            Err(CalcError::refused(field, "both value and below", "one of the two: a limit is not a value"))
        }
        (None, None) => Err(CalcError::refused(field, "neither value nor below", "a value, or below with the limit")),
    }
}

fn date(v: &Value, field: &str) -> Result<f64, CalcError> {
    let t = text(v, field)?;
    let date: Date = t.parse().map_err(|_| CalcError::refused(field, t, "a calendar date that exists, YYYY-MM-DD"))?;
    Ok(rows::decimal_year(date))
}

/// A date as text or a decimal year as number.
pub(super) fn time(v: &Value, field: &str) -> Result<f64, CalcError> {
    match v {
        Value::Number(_) => number(v, field),
        _ => date(v, field),
    }
}

/// One dated row.
pub(super) fn observation(v: &Value, field: &str) -> Result<Observation, CalcError> {
    let map = object(v, field)?;
    only_keys(map, field, &["date", "year", "value", "below", "method"])?;
    let time_years = match (map.get("date"), map.get("year")) {
        (Some(d), None) => date(d, &join(field, "date"))?,
        (None, Some(y)) => number(y, &join(field, "year"))?,
        _ => {
            return Err(CalcError::refused(field, "no single date", "date (YYYY-MM-DD) or year (decimal)"));
        }
    };
    Ok(Observation {
        time_years,
        reading: reading(map, field)?,
        method: match map.get("method") {
            None => String::new(),
            Some(m) => text(m, &join(field, "method"))?.to_string(),
        },
    })
}
