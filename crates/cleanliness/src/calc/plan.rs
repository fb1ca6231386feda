//! `plan`: what to take on the next trip.

use super::read::{join, needed, ng_l, number, whole};
use crate::plan::{Choices, Past, Planning, Prices, Question, packing_list, rank};
use quantity::{CalcError, Calculation};
use serde_json::{Value, json};
use statistics::sample::mean_sd;

pub(super) const PLAN: Calculation = Calculation {
    name: "plan",
    about: "designs of the next trip that nothing beats in price and chance to decide",
    example: r#"{"question":{"kind":"detect","level":{"value":0.05,"unit":"ng/L"}},"sources":[{"name":"acid_mL","per_unit_pg":3,"exposure":1},{"name":"openings","per_unit_pg":2.5,"exposure":2},{"name":"open_air_min","per_unit_pg":0.8}],"between_bottles_pg":2,"between_bottles_share":0.2,"laboratory_pg":1.5,"relative_sd":0.03,"prices":{"bottle":40,"spike":60,"trip":300},"wells":["SL-1","SL-2"]}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["question"],"properties":{"question":{"type":"object","required":["kind"],"description":"detect: level; limit: level, limit; lower: a, b; trend: level, percent_per_year, years, visits_per_year, natural_share; detection-limit: target, level. Concentrations as numbers of ng/L or with unit"},"sources":{"type":"array","items":{"type":"object","description":"name, per_unit_pg, exposure (1 when left out); a source named open_air_min or cabinet_min counts by the minutes of the design; u_pg, its scatter between bottles"}},"past_blanks_pg":{"type":"array","items":{"type":"number"}},"between_bottles_pg":{"type":"number"},"between_bottles_share":{"type":"number"},"laboratory_pg":{"type":"number"},"relative_sd":{"type":"number"},"past_dof":{"type":"number"},"spike_sd":{"type":"number"},"recovery_u":{"type":"number"},"prices":{"type":"object","description":"bottle, spike, trip, minute_saved, litre"},"choices":{"type":"object","description":"samples, field_blanks, trip_blanks, bottle_blanks, spikes, volume_ml, minutes: lists"},"wells":{"description":"names, or how many"}}}"#,
    run,
};

fn question(v: &Value) -> Result<Question, CalcError> {
    let level = |key: &str| match v.get(key) {
        Some(x) => ng_l(x, &join("question", key)),
        None => Err(CalcError::refused(join("question", key), "nothing", "a concentration")),
    };
    let plain = |key: &str| needed(v, key, "question");
    match v.get("kind").and_then(Value::as_str).unwrap_or("nothing") {
        "detect" => Ok(Question::Detect { level: level("level")? }),
        "limit" => Ok(Question::Limit { level: level("level")?, limit: level("limit")? }),
        "lower" => Ok(Question::Lower { a: level("a")?, b: level("b")? }),
        "trend" => Ok(Question::Trend {
            level: level("level")?,
            percent_per_year: plain("percent_per_year")?,
            years: plain("years")?,
            visits_per_year: number(v, "visits_per_year", "question")?.unwrap_or(1.0),
            natural_share: number(v, "natural_share", "question")?.unwrap_or(0.0),
        }),
        "detection-limit" => {
            let target = level("target")?;
            Ok(Question::DetectionLimit {
                target,
                level: v.get("level").map_or(Ok(target), |x| ng_l(x, "question.level"))?,
            })
        }
        other => Err(CalcError::refused("question.kind", other, "detect, limit, lower, trend or detection-limit")),
    }
}

/// Blank and deviations from sources and past blanks; what was assumed goes to the warnings.
fn past(input: &Value, warnings: &mut Vec<String>) -> Result<Past, CalcError> {
    let (mut blank_pg, mut pg_per_minute, mut variance) = (0.0, 0.0, 0.0);
    for (i, s) in input.get("sources").and_then(Value::as_array).into_iter().flatten().enumerate() {
        let place = format!("sources[{i}]");
        let strength = match number(s, "per_unit_pg", &place)? {
            Some(p) => p,
            None => needed(s, "pg", &place)?,
        };
        let name = s.get("name").and_then(Value::as_str).unwrap_or("");
        if name.ends_with("_min") && s.get("exposure").is_none() {
            pg_per_minute += strength;
        } else {
            blank_pg += strength * number(s, "exposure", &place)?.unwrap_or(1.0);
        }
        let scatter = match number(s, "u_pg", &place)? {
            Some(u) => Some(u),
            None => number(s, "u", &place)?,
        };
        variance += scatter.unwrap_or(0.0).powi(2);
    }
    let mut dof = number(input, "past_dof", "")?;
    let mut between_pg = number(input, "between_bottles_pg", "")?;
    if let Some(list) = input.get("past_blanks_pg") {
        let blanks: Vec<f64> = serde_json::from_value(list.clone())
            .map_err(|e| CalcError::refused("past_blanks_pg", e, "a list of pg"))?;
        let Some((mean, sd)) = mean_sd(&blanks) else {
            return Err(CalcError::refused("past_blanks_pg", format!("{} blanks", blanks.len()), "at least 2"));
        };
        if blank_pg + pg_per_minute == 0.0 {
            blank_pg = mean;
        }
        between_pg = between_pg.or(Some(sd));
        dof = dof.or(Some(blanks.len() as f64 - 1.0));
    }
    let between_share = number(input, "between_bottles_share", "")?;
    let between_pg = match (between_pg, between_share) {
        (Some(b), _) => b,
        (None, _) if variance > 0.0 => variance.sqrt(),
        (None, Some(_)) => 0.0,
        (None, None) => {
            return Err(CalcError::refused(
                "between_bottles_pg",
                "nothing",
                "how much blanks differ among themselves, in pg: or past_blanks_pg, between_bottles_share, u_pg of the sources",
            ));
        }
    };
    let mut assume = |key: &str, default: f64, what: &str| -> Result<f64, CalcError> {
        if let Some(v) = number(input, key, "")? {
            return Ok(v);
        }
        warnings.push(format!("{key} not given: {default} assumed ({what})"));
        Ok(default)
    };
    Ok(Past {
        blank_pg,
        pg_per_minute,
        between_pg,
        between_share: between_share.unwrap_or(0.0),
        laboratory_pg: assume("laboratory_pg", 1.0, "pg, one bottle in the laboratory")?,
        relative_sd: assume("relative_sd", 0.05, "scatter of a sample bottle, a share")?,
        dof: dof.unwrap_or(0.0),
        spike_sd: assume("spike_sd", 0.05, "scatter of one spike recovery, a share")?,
        recovery_u: assume("recovery_u", 0.1, "u of the recovery without a spike, a share")?,
    })
}

fn choices(input: &Value) -> Result<Choices, CalcError> {
    let mut all = serde_json::to_value(Choices::default()).unwrap_or(Value::Null);
    for (k, v) in input.get("choices").and_then(Value::as_object).into_iter().flatten() {
        if all.get(k).is_none() {
            return Err(CalcError::refused(
                format!("choices.{k}"),
                "an unknown choice",
                "samples, field_blanks, trip_blanks, bottle_blanks, spikes, volume_ml, minutes",
            ));
        }
        all[k] = v.clone();
    }
    serde_json::from_value(all).map_err(|e| CalcError::refused("choices", e, "lists of numbers"))
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let mut warnings = vec!["the chance is that of clean work: a spike of contamination is not in it".to_string()];
    let wells: Vec<String> = match input.get("wells") {
        Some(Value::Array(names)) => names.iter().map(|n| n.as_str().unwrap_or("well").to_string()).collect(),
        _ => (1..=whole(input, "wells", 1)?.max(1)).map(|i| format!("well {i}")).collect(),
    };
    let prices = {
        let p = input.get("prices").cloned().unwrap_or_else(|| json!({}));
        let get = |key: &str, default: f64| Ok::<f64, CalcError>(number(&p, key, "prices")?.unwrap_or(default));
        Prices {
            bottle: get("bottle", 1.0)?,
            spike: get("spike", get("bottle", 1.0)?)?,
            minute_saved: get("minute_saved", 0.0)?,
            litre: get("litre", 0.0)?,
            trip: get("trip", 0.0)?,
        }
    };
    let planning = Planning {
        question: question(input.get("question").unwrap_or(&Value::Null))?,
        past: past(input, &mut warnings)?,
        prices,
        choices: choices(input)?,
        wells: wells.len() as u32,
    };
    let front = rank(&planning)?;
    if front.last().is_some_and(|d| d.power < 0.8) {
        warnings.push(
            "no design on offer decides with a chance of 80 %: offer more bottles, larger fills, or fewer minutes"
                .into(),
        );
    }
    let designs: Vec<Value> = front
        .iter()
        .map(|d| {
            let mut v = json!(d);
            let blanks = d.design.field_blanks + d.design.trip_blanks + d.design.bottle_blanks;
            v["blanks"] = json!(blanks);
            v["unit"] = json!("ng/L");
            v["pack"] = json!(packing_list(&d.design, &wells));
            v
        })
        .collect();
    Ok(json!({
        "designs": designs,
        "method": "every combination of the choices; variance of the net value, critical value and detection limit by Student's t and the non-central t; chance averaged over the estimated deviation; those that none beats in price and chance",
        "sources": ["Currie 1968, Anal. Chem. 40:586", "Currie 1995, Pure Appl. Chem. 67:1699"],
        "warnings": warnings,
    }))
}
