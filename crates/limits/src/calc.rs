//! `limits`, `claim` and `absence` on the command line: results against limits, sentences against
//! results, and long lists of nothing found.

use crate::absence::{Compound, ListLimit, ListLimits, judge, pesticide_limits};
use crate::compare::{Comparison, Guard, Options, compare};
use crate::local::{LocalRow, coming, holding, strictest};
use crate::table::{Limit, analyte, authorities, authority, is_day};
use message::{Arg, absence as said, limit};
use quantity::{Amount, CalcError, Calculation, Lang, Spoken, Unit};
use serde::Deserialize;
use serde_json::{Value, json};

/// The calculations of this crate.
pub const CALCULATIONS: &[Calculation] = &[LIMITS, super::claim::CLAIM, ABSENCE];

const LIMITS: Calculation = Calculation {
    name: "limits",
    about: "results against published limits: below, above, or cannot tell",
    example: r#"{"results":[{"analyte":"Pb","value":0.0011,"u":0.0001,"unit":"ug/L"},{"analyte":"Mn","value":52,"u":3,"unit":"ug/L"},{"analyte":"NO3","below":0.05,"unit":"mg/L as N"}],"authorities":["WHO","EU"],"guard":"95 %","on":"2026-07-14"}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["results"],"properties":{"results":{"type":"array","items":{"type":"object","required":["analyte","unit"],"properties":{"analyte":{"type":"string"},"value":{"type":"number"},"u":{"type":"number","minimum":0},"dof":{"type":"number","exclusiveMinimum":0},"below":{"type":"number"},"above":{"type":"number"},"unit":{"type":"string"}}}},"authorities":{"type":"array","items":{"type":"string"},"description":"all when left out"},"guard":{"type":"string","description":"none, a probability such as 95 %, or a band such as 1 U (U = 2u)"},"local":{"type":"array","description":"a person's own limits: columns of reference/drinking_water_limits.csv","items":{"type":"object","required":["analyte","unit","authority","limit_high"]}},"on":{"type":"string","format":"date","description":"the day, YYYY-MM-DD; no limit decides before its first day or after its last. Without it no limit that has a first day decides"},"date":{"type":"string","format":"date","description":"the same as on"}}}"#,
    run,
};

fn run(input: &Value) -> Result<Value, CalcError> {
    let results = input["results"]
        .as_array()
        .ok_or_else(|| CalcError::refused("results", &input["results"], "a list of results"))?;
    let wanted = wanted_authorities(input)?;
    let own = local_limits(input)?;
    let guard = match input["guard"].as_str() {
        None => Guard::default(),
        Some(text) => Guard::parse(text).ok_or_else(|| {
            CalcError::refused("guard", text, "none, a probability from 50 to below 100 %, or a band such as 1 U")
        })?,
    };
    let on = day(input)?;
    let mut rows = vec![];
    let mut warnings = vec![];
    let mut strictest_rows = vec![];
    let mut coming_rows = vec![];
    let mut recalled = false;
    for (i, r) in results.iter().enumerate() {
        let (name, amount) = result(i, r)?;
        let before = rows.len();
        // By place in memory, not by content: a person's own limit may read like a published one.
        let asked = |l: &&Limit| {
            l.analyte == name && (wanted.contains(&l.authority.as_str()) || own.iter().any(|o| std::ptr::eq(o, *l)))
        };
        let of_analyte = || holding(&own, on).filter(asked);
        for l in coming(&own, on).filter(asked).map(of_limit) {
            if !coming_rows.contains(&l) {
                coming_rows.push(l);
            }
        }
        for l in of_analyte() {
            recalled |= l.provenance == "recalled";
            let mut shown = row(&compare(&amount, l, &Options { guard }));
            if own.iter().any(|o| std::ptr::eq(o, l)) {
                shown["local"] = json!(true);
            }
            rows.push(shown);
        }
        if let Some(l) = strictest(of_analyte()) {
            strictest_rows.push(row(&compare(&amount, l, &Options { guard })));
        }
        if rows.len() == before {
            warnings.push(format!("{name}: no limit of {} in the table", wanted.join(", ")));
        }
    }
    if on.is_none() && !coming_rows.is_empty() {
        warnings
            .push("no day is given (on): limits that have a first day are named as coming and do not decide".into());
    }
    if recalled {
        warnings.push(limit::RecalledYet.text());
    }
    warnings.push("what was not tested, microbes first, is not spoken of here".into());
    warnings.push(
        "a comparison with published limits; what water may be used for is for the local health authority to say"
            .into(),
    );
    Ok(json!({
        "rows": rows,
        "strictest": strictest_rows,
        "coming": coming_rows,
        "on": on,
        "guard": guard.in_words(),
        "method": "probability that the true value lies under the limit, normal or Student's t about the result",
        "sources": ["JCGM 106:2012, 7.2 to 7.4, 8.3"],
        "warnings": warnings,
    }))
}

/// The day that is asked for.
fn day(input: &Value) -> Result<Option<&str>, CalcError> {
    let read = |key: &str| match &input[key] {
        Value::Null => Ok(None),
        v => match v.as_str().filter(|t| is_day(t)) {
            Some(day) => Ok(Some(day)),
            None => Err(CalcError::refused(key, v, "a day, YYYY-MM-DD")),
        },
    };
    match (read("on")?, read("date")?) {
        (Some(on), Some(date)) if on != date => Err(CalcError::refused("date", date, format!("{on}, as in on"))),
        (on, date) => Ok(on.or(date)),
    }
}

fn local_limits(input: &Value) -> Result<Vec<Limit>, CalcError> {
    let Some(list) = input.get("local").and_then(Value::as_array) else { return Ok(vec![]) };
    let read = |(i, v): (usize, &Value)| {
        let place = format!("local[{i}]");
        let row: LocalRow = serde_json::from_value(v.clone())
            .map_err(|e| CalcError::refused(&place, e, "the columns of reference/drinking_water_limits.csv"))?;
        row.limit(&place)
    };
    list.iter().enumerate().map(read).collect()
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
    let mut row = of_limit(&c.limit);
    row["result"] = json!(c.amount);
    row["answer"] = json!(c.answer);
    row["probability_under"] = json!(c.probability_under);
    row["sentence"] = json!(c.sentence);
    row
}

/// A limit by itself.
fn of_limit(l: &Limit) -> Value {
    let mut row = json!({
        "analyte": l.analyte,
        "limit": l.high,
        "unit": l.unit,
        "authority": l.authority,
        "document": l.document,
        "edition": l.edition,
        "kind": l.kind,
        "provenance": l.provenance,
        "date_read": l.date_read,
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

const ABSENCE: Calculation = Calculation {
    name: "absence",
    about: "a long list of compounds, none found: bounds, highest sum, what the list cannot answer",
    example: r#"{"unit":"ug/L","compounds":[{"name":"atrazine","cas":"1912-24-9","below":0.01,"detection_limit":0.004},{"name":"simazine","cas":"122-34-9","value":0.0012,"u":0.0015,"detection_limit":0.005},{"name":"dieldrin","cas":"60-57-1","below":0.05,"detection_limit":0.04},{"name":"gamma-HCH","cas":"58-89-9","below":0.01},{"name":"lindane","cas":"58-89-9","below":0.02}],"authority":"EU"}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["compounds"],"properties":{"unit":{"type":"string","description":"of compounds that name none"},"compounds":{"type":"array","minItems":1,"items":{"type":"object","required":["name"],"properties":{"name":{"type":"string"},"cas":{"type":"string"},"sample":{"type":"string","description":"one sample where left out"},"value":{"type":"number","description":"net value, negative ones too"},"u":{"type":"number","minimum":0},"dof":{"type":"number","exclusiveMinimum":0},"below":{"type":"number","description":"not found; the reporting limit"},"unit":{"type":"string"},"critical_value":{"type":"number"},"detection_limit":{"type":"number"},"reporting_limit":{"type":"number"},"limit":{"type":"number","description":"the limit it is held against"}}}},"authority":{"type":"string","description":"whose limits for pesticides are taken where a compound names none; EU where left out, none for none"},"single_limit":{"type":"number"},"sum_limit":{"type":"number"},"samples":{"type":"integer","minimum":1,"description":"samples with the same outcome, where the list stands for several"},"lang":{"enum":["en","de"]}}}"#,
    run: run_absence,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct List {
    unit: Option<Unit>,
    compounds: Vec<Listed>,
    authority: Option<String>,
    single_limit: Option<f64>,
    sum_limit: Option<f64>,
    samples: Option<u64>,
    #[serde(default)]
    lang: Lang,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Listed {
    name: String,
    cas: Option<String>,
    sample: Option<String>,
    value: Option<f64>,
    u: Option<f64>,
    dof: Option<f64>,
    below: Option<f64>,
    unit: Option<Unit>,
    critical_value: Option<f64>,
    detection_limit: Option<f64>,
    reporting_limit: Option<f64>,
    limit: Option<f64>,
}

fn run_absence(input: &Value) -> Result<Value, CalcError> {
    let list: List = serde_json::from_value(input.clone())
        .map_err(|e| CalcError::refused("input", e, "JSON as `--schema absence` describes it"))?;
    let compounds = list
        .compounds
        .iter()
        .enumerate()
        .map(|(i, c)| compound(i, c, list.unit.as_ref()))
        .collect::<Result<Vec<_>, _>>()?;
    let Some(first) = compounds.first() else {
        return Err(CalcError::refused("compounds", "none", "one or more"));
    };
    let mut limits = match list.authority.as_deref() {
        Some("none") => ListLimits::default(),
        other => {
            let name = other.unwrap_or("EU");
            let known = authority(name).ok_or_else(|| {
                CalcError::refused("authority", name, format!("one of {}, or none", authorities().join(", ")))
            })?;
            pesticide_limits(known, &first.unit)
        }
    };
    let stated = |value: f64| Some(ListLimit::new(value, said::WhoseStated));
    if let Some(l) = list.single_limit {
        limits.single = stated(l);
    }
    if let Some(l) = list.sum_limit {
        limits.sum = stated(l);
    }
    let mut report = judge(&compounds, &limits, list.lang)?;
    // Only upwards: the samples that are listed are there, whatever number is given.
    if let Some(n) = list.samples.filter(|n| *n > report.samples as u64) {
        report.stands_for(n, list.lang);
    }
    let mut warnings = report.faults.clone();
    for names in &report.doubles {
        let names = names.iter().map(|n| Arg::Name(n.into())).collect();
        warnings.push(said::OneCompound { names }.in_language(list.lang));
    }
    if !report.open.is_empty() {
        warnings.push(said::Open { names: report.open.join(", ").into() }.in_language(list.lang));
    }
    warnings.push(said::NotSpokenOf.in_language(list.lang));
    warnings.push(said::WhoDecides.in_language(list.lang));
    let mut out = serde_json::to_value(&report).unwrap_or_default();
    out["method"] = json!(
        "upper bounds max(net, 0) + 2u, never under the critical value (without u: max(net, 0) + critical value), or reporting limit; highest possible sum within a sample; frequency under 1 - 0.05^(1/n)"
    );
    out["sources"] = json!(["Clopper & Pearson 1934, Biometrika 26:404", "JCGM 100:2008", "CAS check digit"]);
    out["warnings"] = json!(warnings);
    Ok(out)
}

fn compound(i: usize, c: &Listed, unit: Option<&Unit>) -> Result<Compound, CalcError> {
    let field = format!("compounds[{i}]");
    let unit = c.unit.as_ref().or(unit).cloned();
    let unit =
        unit.ok_or_else(|| CalcError::refused(format!("{field}.unit"), "none", "a unit, here or for the whole list"))?;
    let numbers = [c.value, c.u, c.dof, c.below, c.critical_value, c.detection_limit, c.reporting_limit, c.limit];
    if numbers.iter().flatten().any(|x| !x.is_finite()) || c.u.is_some_and(|u| u < 0.0) {
        return Err(CalcError::refused(field, &c.name, "finite numbers, u not negative"));
    }
    let amount = match (c.value, c.u, c.below) {
        (Some(_), _, Some(_)) => return Err(CalcError::refused(field, "value and below", "one of them")),
        (Some(v), Some(u), None) => {
            Some(Amount::Measured(quantity::Measured::with_dof(v, u, c.dof.unwrap_or(f64::INFINITY), unit.clone())))
        }
        (Some(v), None, None) => Some(Amount::stated(v, unit.clone())),
        (None, _, Some(l)) if l > 0.0 => Some(Amount::below(l, unit.clone())),
        (None, _, Some(l)) => return Err(CalcError::refused(format!("{field}.below"), l, "a limit over zero")),
        (None, _, None) => None,
    };
    Ok(Compound {
        name: c.name.clone(),
        cas: c.cas.clone(),
        sample: c.sample.clone().unwrap_or_default(),
        amount,
        critical_value: c.critical_value,
        detection_limit: c.detection_limit,
        reporting_limit: c.reporting_limit,
        unit,
        limit: c.limit,
    })
}
