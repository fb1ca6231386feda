//! `trial`: a design for handling steps, its power, its evaluation.

use super::read::{list, number, whole};
use crate::screening_design::{Assumed, Design, Mass, design, evaluate, power};
use quantity::{Amount, CalcError, Calculation, Unit};
use serde_json::{Value, json};

pub(super) const TRIAL: Calculation = Calculation {
    name: "trial",
    about: "which of many handling steps adds metal: the design, its power, the evaluation",
    example: r#"{"steps":["long gloves","double rinse","outer bag","cabinet off","new tubing","second person","field acid"],"foldover":false,"culprits":2,"adds_sd":3,"censored":0.25,"risk":0.05,"trials":500}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["steps"],"properties":{"steps":{"type":"array","minItems":3,"maxItems":47,"items":{"type":"string"}},"foldover":{"type":"boolean"},"risk":{"type":"number","description":"per step, 0.05 when left out"},"masses_pg":{"type":"array","description":"one a bottle of the design: a number, value with u, or {below}; evaluates the trial"},"culprits":{"type":"integer"},"adds_sd":{"type":"number","description":"what a culprit adds, in standard deviations between bottles"},"censored":{"type":"number","description":"share of the bottles expected below the limit"},"trials":{"type":"integer"},"seed":{"type":"integer"}}}"#,
    run,
};

fn mass(v: &Value, i: usize) -> Result<Mass, CalcError> {
    if let Some(x) = v.as_f64() {
        return Ok(Mass::Value(x));
    }
    let place = format!("masses_pg[{i}]");
    let mut v = v.clone();
    if let Some(o) = v.as_object_mut() {
        o.entry("unit").or_insert_with(|| json!("pg"));
    }
    let a: Amount = serde_json::from_value(v)
        .map_err(|e| CalcError::refused(&place, e, "a number of pg, value with u, or below"))?;
    match a.convert(&Unit::known("pg"), None, None).map_err(|e| CalcError::refused(&place, e, "a mass"))? {
        Amount::Measured(m) => Ok(Mass::Value(m.value)),
        Amount::Stated(s) => Ok(Mass::Value(s.value)),
        Amount::Below(b) => Ok(Mass::Below(b.limit)),
        Amount::Above(_) => Err(CalcError::refused(place, "above a range", "a value: dilute and measure again")),
    }
}

fn expected(input: &Value, d: &Design, risk: f64) -> Result<Value, CalcError> {
    let a = Assumed {
        culprits: whole(input, "culprits", 1.max(d.steps.len() / 6))?,
        adds_sd: number(input, "adds_sd", "")?.unwrap_or(3.0),
        censored: 0.0,
        risk,
        trials: whole(input, "trials", 1000)?,
        seed: whole(input, "seed", 1)? as u64,
    };
    let censored = number(input, "censored", "")?.unwrap_or(0.5);
    Ok(json!({
        "culprits": a.culprits,
        "adds_sd": a.adds_sd,
        "nothing_censored": power(d, &a)?,
        "censored_share": censored,
        "with_censored": power(d, &Assumed { censored, ..a })?,
    }))
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let steps: Vec<String> = list(input, "steps")?
        .iter()
        .enumerate()
        .map(|(i, s)| {
            s.as_str().map(String::from).ok_or_else(|| CalcError::refused(format!("steps[{i}]"), s, "a name"))
        })
        .collect::<Result<_, _>>()?;
    let d = design(&steps, input.get("foldover").and_then(Value::as_bool).unwrap_or(false))?;
    let risk = number(input, "risk", "")?.unwrap_or(0.05);
    let mut warnings = d.warnings.clone();
    let mut out = json!({
        "bottles": d.bottles.iter().map(|r| r.iter().map(|x| if *x { "with" } else { "without" }).collect::<Vec<_>>()).collect::<Vec<_>>(),
        "steps": d.steps,
        "dof": d.dof,
        "pack": d.packing_list(),
        "power": expected(input, &d, risk)?,
        "method": "two-level screening from a Hadamard matrix; effects judged by Student's t, or by Lenth's pseudo standard error where no column is left; non-detects by scores",
        "sources": ["Plackett & Burman 1946, Biometrika 33:305", "Lenth 1989, Technometrics 31:469", "Gehan 1965, Biometrika 52:203"],
    });
    if input.get("masses_pg").is_some() {
        let masses =
            list(input, "masses_pg")?.iter().enumerate().map(|(i, v)| mass(v, i)).collect::<Result<Vec<_>, _>>()?;
        let e = evaluate(&d, &masses, risk)?;
        warnings.clone_from(&e.warnings);
        out["evaluation"] = json!(e);
    }
    out["warnings"] = json!(warnings);
    Ok(out)
}
