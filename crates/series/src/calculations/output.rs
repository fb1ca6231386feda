//! Writing of the JSON output: a number that is not bounded is left out or written as a word,
//! never as a made-up number.

use crate::{Reading, rows, step::Shift};
use quantity::Finding;
use serde_json::{Value, json};

/// `{"value": x}` or `{"below": x}`.
pub(super) fn reading(r: Reading) -> Value {
    match r {
        Reading::Known(v) => json!({ "value": v }),
        Reading::Below(v) => json!({ "below": v }),
    }
}

/// An end of an interval: a number, or `null` where the data do not bound it.
pub(super) fn end(x: f64) -> Value {
    if x.is_finite() { json!(x) } else { Value::Null }
}

pub(super) fn interval((low, high): (f64, f64)) -> Value {
    json!([end(low), end(high)])
}

pub(super) fn shift(s: Option<Shift>) -> (Value, Value) {
    s.map_or((Value::Null, Value::Null), |s| (json!(s.estimate), interval(s.interval)))
}

pub(super) fn warnings(findings: &[Finding]) -> Value {
    findings.iter().map(|f| json!({"check": f.check, "text": f.sentence})).collect()
}

pub(super) fn date(years: f64) -> String {
    rows::date_of(years).to_string()
}
