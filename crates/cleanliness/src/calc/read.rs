//! Small readers of JSON with messages that name the place.

use quantity::{Amount, CalcError, Unit};
use serde_json::Value;

pub(super) fn number(v: &Value, key: &str, place: &str) -> Result<Option<f64>, CalcError> {
    match v.get(key) {
        None | Some(Value::Null) => Ok(None),
        Some(x) => x.as_f64().map(Some).ok_or_else(|| CalcError::refused(join(place, key), x, "a number")),
    }
}

pub(super) fn needed(v: &Value, key: &str, place: &str) -> Result<f64, CalcError> {
    number(v, key, place)?.ok_or_else(|| CalcError::refused(join(place, key), "nothing", "a number"))
}

pub(super) fn join(place: &str, key: &str) -> String {
    if place.is_empty() { key.to_string() } else { format!("{place}.{key}") }
}

pub(super) fn list<'a>(v: &'a Value, key: &str) -> Result<&'a [Value], CalcError> {
    v.get(key)
        .and_then(Value::as_array)
        .map(Vec::as_slice)
        .ok_or_else(|| CalcError::refused(key, v.get(key).map_or("nothing".into(), ToString::to_string), "a list"))
}

/// A concentration as ng/L: a number, or value with unit.
pub(super) fn ng_l(v: &Value, place: &str) -> Result<f64, CalcError> {
    if let Some(x) = v.as_f64() {
        return Ok(x);
    }
    let a: Amount = serde_json::from_value(v.clone())
        .map_err(|e| CalcError::refused(place, e, "a number of ng/L, or value with unit"))?;
    let a = a
        .convert(&Unit::known("ng/L"), None, None)
        .map_err(|e| CalcError::refused(place, e, "a concentration per litre"))?;
    a.value().ok_or_else(|| CalcError::refused(place, "a limit", "a value"))
}

/// A whole number of zero or more.
pub(super) fn whole(v: &Value, key: &str, default: usize) -> Result<usize, CalcError> {
    match v.get(key) {
        None | Some(Value::Null) => Ok(default),
        Some(x) => {
            x.as_u64().map(|n| n as usize).ok_or_else(|| CalcError::refused(key, x, "a whole number of 0 or more"))
        }
    }
}
