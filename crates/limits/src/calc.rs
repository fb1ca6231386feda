//! `limits` on the command line: results against the limits of the authorities asked for.

use crate::compare::{Comparison, Guard, Options, compare};
use crate::table::{analyte, authorities, authority, limits};
use quantity::{Amount, CalcError, Calculation};
use serde_json::{Value, json};

/// The calculations of this crate.
pub const CALCULATIONS: &[Calculation] = &[Calculation {
    name: "limits",
    about: "results against published limits: below, above, or cannot tell",
    example: r#"{"results":[{"analyte":"Pb","value":0.0011,"u":0.0001,"unit":"ug/L"},{"analyte":"Mn","value":52,"u":3,"unit":"ug/L"},{"analyte":"NO3","below":0.05,"unit":"mg/L as N"}],"authorities":["WHO","EU"],"guard":"95 %","date":"2026-07-01"}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["results"],"properties":{"results":{"type":"array","items":{"type":"object","required":["analyte","unit"],"properties":{"analyte":{"type":"string"},"value":{"type":"number"},"u":{"type":"number","minimum":0},"dof":{"type":"number","exclusiveMinimum":0},"below":{"type":"number"},"above":{"type":"number"},"unit":{"type":"string"}}}},"authorities":{"type":"array","items":{"type":"string"},"description":"all when left out"},"guard":{"type":"string","description":"none, a probability such as 95 %, or a band such as 1 U (U = 2u)"},"date":{"type":"string","description":"the day, YYYY-MM-DD; limits not valid then are left out. Without it all are shown with their dates"}}}"#,
    run,
}];

fn run(input: &Value) -> Result<Value, CalcError> {
    let results = input["results"]
        .as_array()
        .ok_or_else(|| CalcError::refused("results", &input["results"], "a list of results"))?;
    let wanted = wanted_authorities(input)?;
    let guard = match input["guard"].as_str() {
        None => Guard::default(),
        Some(text) => Guard::parse(text).ok_or_else(|| {
            CalcError::refused("guard", text, "none, a probability from 50 to below 100 %, or a band such as 1 U")
        })?,
    };
    let date = input["date"].as_str();
    let mut rows = vec![];
    let mut warnings = vec![];
    let mut recalled = false;
    for (i, r) in results.iter().enumerate() {
        let (name, amount) = result(i, r)?;
        let before = rows.len();
        for l in limits().iter().filter(|l| {
            l.analyte == name && wanted.contains(&l.authority.as_str()) && date.is_none_or(|d| l.holds_on(d))
        }) {
            recalled |= l.provenance != "seen";
            rows.push(row(&compare(&amount, l, &Options { guard })));
        }
        if rows.len() == before {
            warnings.push(format!("{name}: no limit of {} in the table", wanted.join(", ")));
        }
    }
    if recalled {
        warnings.push("limits marked recalled have still to be compared with their document".into());
    }
    warnings.push(
        "a comparison with published limits; what water may be used for is for the local health authority to say"
            .into(),
    );
    Ok(json!({
        "rows": rows,
        "guard": guard.in_words(),
        "method": "probability that the true value lies under the limit, normal or Student's t about the result",
        "sources": ["JCGM 106:2012, 7.2 to 7.4, 8.3"],
        "warnings": warnings,
    }))
}

fn wanted_authorities(input: &Value) -> Result<Vec<&'static str>, CalcError> {
    let Some(list) = input.get("authorities").and_then(Value::as_array) else {
        return Ok(authorities());
    };
    list.iter()
        .enumerate()
        .map(|(i, a)| {
            a.as_str().and_then(authority).ok_or_else(|| {
                CalcError::refused(format!("authorities[{i}]"), a, format!("one of {}", authorities().join(", ")))
            })
        })
        .collect()
}

fn result(i: usize, r: &Value) -> Result<(String, Amount), CalcError> {
    let mut fields = r
        .as_object()
        .cloned()
        .ok_or_else(|| CalcError::refused(format!("results[{i}]"), r, "an object with analyte, value, unit"))?;
    let name = fields
        .remove("analyte")
        .and_then(|n| n.as_str().map(analyte))
        .ok_or_else(|| CalcError::refused(format!("results[{i}].analyte"), "none", "the name of the analyte"))?;
    let amount = serde_json::from_value(Value::Object(fields))
        .map_err(|e| CalcError::refused(format!("results[{i}]"), e, "value with u, below or above, and a unit"))?;
    Ok((name, amount))
}

fn row(c: &Comparison) -> Value {
    let l = &c.limit;
    let mut row = json!({
        "analyte": l.analyte,
        "result": c.amount,
        "limit": l.high,
        "unit": l.unit,
        "authority": l.authority,
        "document": l.document,
        "edition": l.edition,
        "kind": l.kind,
        "provenance": l.provenance,
        "date_read": l.date_read,
        "answer": c.answer,
        "probability_under": c.probability_under,
        "sentence": c.sentence,
    });
    let map = row.as_object_mut().expect("an object was made");
    for (key, text) in
        [("basis", &l.basis), ("valid_from", &l.valid_from), ("valid_until", &l.valid_until), ("note", &l.note)]
    {
        if !text.is_empty() {
            map.insert(key.into(), json!(text));
        }
    }
    if let Some(low) = l.low {
        map.insert("limit_low".into(), json!(low));
    }
    row
}
