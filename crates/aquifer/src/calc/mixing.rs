//! `mixing`: what the overflow does to the river.

use super::read::Object;
use crate::mixing::{End, Mixed, mix};
use quantity::{Amount, CalcError, Calculation};
use serde_json::{Map, Value, json};

pub(super) const MIXING: Calculation = Calculation {
    name: "mixing",
    about: "flow, shares and values of a mixture of waters, with u",
    example: r#"{"ends":[{"name":"river","flow":{"value":90,"u":9,"unit":"L/s"},"values":{"Cl":{"value":20,"u":0.4,"unit":"mg/L"},"NO3":{"value":12,"u":0.5,"unit":"mg/L as NO3"}}},{"name":"overflow","flow":{"value":40,"u":1,"unit":"L/min"},"values":{"Cl":{"value":5,"u":0.1,"unit":"mg/L"},"NO3":{"below":0.2,"unit":"mg/L as NO3"}}}]}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["ends"],"properties":{"ends":{"type":"array","minItems":2,"items":{"type":"object","required":["name","flow"],"properties":{"name":{"type":"string"},"flow":{"type":"object"},"values":{"type":"object","additionalProperties":{"type":"object"}}}}}}}"#,
    run,
};

fn amount(v: &Value, path: &str) -> Result<Amount, CalcError> {
    serde_json::from_value(v.clone()).map_err(|e| CalcError::refused(path, e, "value with u, or below, and a unit"))
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let o = Object::new(input, "")?;
    let mut ends = vec![];
    for e in o.list("ends")? {
        let mut values = vec![];
        if let Some(v) = e.map.get("values") {
            for (name, v) in Object::new(v, e.place("values"))?.map {
                values.push((name.clone(), amount(v, &e.place(&format!("values.{name}")))?));
            }
        }
        ends.push(End {
            name: e.text("name").unwrap_or("not named").to_string(),
            flow: amount(e.map.get("flow").unwrap_or(&Value::Null), &e.place("flow"))?,
            values,
        });
    }
    let m = mix(&ends)?;
    let mut warnings =
        vec!["mass balance of what is conserved: not for pH, oxygen, or metals that fall out on mixing".to_string()];
    let mut values = Map::new();
    for (name, v) in &m.values {
        let shown = match v {
            Mixed::Value(a) => json!(a),
            Mixed::Between(low, high, unit) => {
                warnings.push(format!("{name}: a water is below its limit, so the mixture has a range"));
                json!({"between": [low, high], "unit": unit})
            }
            // A water whose value nobody gave is not one that holds none: there is no mixture to tell.
            Mixed::Missing(who) => {
                warnings.push(format!("{name}: not given for {}", who.join(", ")));
                continue;
            }
        };
        values.insert(name.clone(), shown);
    }
    let share: Map<String, Value> = m.shares.iter().map(|(n, a)| (n.clone(), json!(a))).collect();
    let change: Map<String, Value> = m.change_percent.iter().map(|(n, a)| (n.clone(), json!(a))).collect();
    Ok(json!({
        "flow": m.flow,
        "share": share,
        "values": values,
        "change_against_first_percent": change,
        "method": "mass balance of flow and concentration; u by partial derivatives, inputs independent",
        "sources": ["JCGM 100:2008, 5.1"],
        "warnings": warnings,
    }))
}
