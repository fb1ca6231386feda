//! `limits`, `claim` and `absence` on the command line: results against limits, sentences against
//! results, and long lists of nothing found.

use crate::absence::{Compound, ListLimit, ListLimits, judge};
use crate::compare::{Answer, BelowIs, Comparison, Guard, Known, Options, compare};
use crate::compound_limits;
use crate::local::{LocalRow, coming, coming_in_words, for_health, holding, strictest};
use crate::table::{Limit, analyte, authorities, authority, is_day};
use message::{Arg, absence as said, limit};
use quantity::format::probability;
use quantity::{Amount, CalcError, Calculation, Lang, Spoken, Unit};
use serde::Deserialize;
use serde_json::{Value, json};

/// The calculations of this crate.
pub const CALCULATIONS: &[Calculation] = &[LIMITS, super::claim::CLAIM, ABSENCE];

const LIMITS: Calculation = Calculation {
    name: "limits",
    about: "results against published limits: below, above, or cannot tell",
    example: r#"{"results":[{"analyte":"Pb","value":0.0011,"u":0.0001,"unit":"ug/L"},{"analyte":"Mn","value":52,"u":3,"unit":"ug/L"},{"analyte":"NO3","below":0.05,"below_is":"detection limit","unit":"mg/L as N"}],"authorities":["WHO","EU"],"on":"2026-07-14"}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["results"],"properties":{"results":{"type":"array","items":{"type":"object","required":["analyte","unit"],"properties":{"analyte":{"type":"string"},"value":{"type":"number"},"u":{"type":"number","minimum":0},"dof":{"type":"number","exclusiveMinimum":0},"below":{"type":"number"},"above":{"type":"number"},"unit":{"type":"string","description":"with its basis: mg/L as N"},"below_is":{"enum":["bound","detection limit","quantification limit","reporting limit","critical value"],"description":"what the figure of below is; nobody says where left out"},"detection_limit":{"type":"number","exclusiveMinimum":0},"quantification_limit":{"type":"number","exclusiveMinimum":0},"at_degC":{"enum":[20,25],"description":"temperature of a conductivity; 25 where left out"},"undissociated_share":{"type":"number","minimum":0,"maximum":1,"description":"H2S over total sulfide, as calc speciation gives it"}}}},"authorities":{"type":"array","items":{"type":"string"},"description":"all when left out"},"guard":{"type":"string","description":"rule (each limit's own, also when left out), none, a probability such as 95 %, or a band such as 1 U (U = 2u)"},"local":{"type":"array","description":"a person's own limits: columns of reference/drinking_water_limits.csv, and concern (health, taste, operation) and rule (simple acceptance, guarded acceptance, guarded rejection)","items":{"type":"object","required":["analyte","unit","authority","limit_high"]}},"on":{"type":"string","format":"date","description":"the day of the sample, YYYY-MM-DD; no limit decides before its first day or after its last. Without it no limit that has a first day decides"},"date":{"type":"string","format":"date","description":"the same as on"}}}"#,
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
            CalcError::refused("guard", text, "rule, none, a probability from 50 to below 100 %, or a band such as 1 U")
        })?,
    };
    let on = day(input)?;
    let mut found: Vec<(Comparison, bool)> = vec![];
    let mut warnings = vec![];
    let (mut strictest_rows, mut health_rows, mut coming_rows) = (vec![], vec![], vec![]);
    // By place in memory, not by content: a person's own limit may read like a published one.
    let is_own = |l: &Limit| own.iter().any(|o| std::ptr::eq(o, l));
    for (i, r) in results.iter().enumerate() {
        let (name, amount, known) = result(i, r)?;
        let options = Options { guard, known };
        let asked = |l: &&Limit| l.analyte == name && (wanted.contains(&l.authority.as_str()) || is_own(l));
        let of_analyte = || holding(&own, on).filter(asked);
        for l in coming(&own, on).filter(asked) {
            let mut shown = of_limit(l);
            shown["sentence"] = json!(coming_in_words(l).in_english());
            if !coming_rows.contains(&shown) {
                coming_rows.push(shown);
            }
        }
        found.extend(of_analyte().map(|l| (compare(&amount, l, &options), is_own(l))));
        strictest_rows.extend(strictest(of_analyte()).map(|l| row(&compare(&amount, l, &options))));
        health_rows.extend(strictest(of_analyte().filter(for_health)).map(|l| row(&compare(&amount, l, &options))));
        if of_analyte().next().is_none() {
            warnings.push(format!("{name}: no limit of {} in the table", wanted.join(", ")));
        }
    }
    let share = |c: &Comparison| c.share_of_limit();
    found.sort_by(|(a, _), (b, _)| a.urgency().cmp(&b.urgency()).then_with(|| share(b).total_cmp(&share(a))));
    let shown = |(c, own): &(Comparison, bool)| {
        let mut shown = row(c);
        if *own {
            shown["local"] = json!(true);
        }
        shown
    };
    if on.is_none() && !coming_rows.is_empty() {
        warnings
            .push("no day is given (on): limits that have a first day are named as coming and do not decide".into());
    }
    if found.iter().any(|(c, _)| c.limit.provenance == "recalled") {
        warnings.push(limit::RecalledYet.text());
    }
    warnings.push("what was not tested, microbes first, is not spoken of here".into());
    warnings.push(
        "a comparison with published limits; what water may be used for is for the local health authority to say"
            .into(),
    );
    Ok(json!({
        "rows": found.iter().map(shown).collect::<Vec<_>>(),
        "exceedances": found.iter().filter(|(c, _)| c.answer == Answer::Above && !c.limit.is_goal_of_zero()).count(),
        "strictest": strictest_rows,
        "nearest_health": health_rows,
        "coming": coming_rows,
        "on": on,
        "guard": guard.in_words(),
        "method": "the decision rule of each limit; then the probability that the true value lies under the limit, normal or Student's t about the result",
        "sources": ["JCGM 106:2012, 7.2 to 7.4, 8.2, 8.3"],
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

fn result(i: usize, r: &Value) -> Result<(String, Amount, Known), CalcError> {
    let mut fields = r
        .as_object()
        .cloned()
        .ok_or_else(|| CalcError::refused(format!("results[{i}]"), r, "an object with analyte, value, unit"))?;
    let name = fields
        .remove("analyte")
        .and_then(|n| n.as_str().map(analyte))
        .ok_or_else(|| CalcError::refused(format!("results[{i}].analyte"), "none", "the name of the analyte"))?;
    let known = known(i, &mut fields)?;
    let amount = serde_json::from_value(Value::Object(fields))
        .map_err(|e| CalcError::refused(format!("results[{i}]"), e, "value with u, below or above, and a unit"))?;
    Ok((name, amount, known))
}

/// What is known of a result beside its amount; taken out of its fields.
fn known(i: usize, fields: &mut serde_json::Map<String, Value>) -> Result<Known, CalcError> {
    let place = |key: &str| format!("results[{i}].{key}");
    let below_is = match fields.remove("below_is") {
        None | Some(Value::Null) => BelowIs::NotStated,
        Some(v) => v.as_str().and_then(BelowIs::parse).ok_or_else(|| {
            let kinds = "bound, detection limit, quantification limit, reporting limit or critical value";
            CalcError::refused(place("below_is"), v, kinds)
        })?,
    };
    let mut number = |key: &str, fits: fn(f64) -> bool, expected: &str| match fields.remove(key) {
        None | Some(Value::Null) => Ok(None),
        Some(v) => match v.as_f64().filter(|x| fits(*x)) {
            Some(x) => Ok(Some(x)),
            None => Err(CalcError::refused(place(key), v, expected)),
        },
    };
    let over_zero = |x: f64| x > 0.0;
    Ok(Known {
        below_is,
        detection_limit: number("detection_limit", over_zero, "a number over zero")?,
        quantification_limit: number("quantification_limit", over_zero, "a number over zero")?,
        conductivity_at_degc: number("at_degC", |t| t == 20.0 || t == 25.0, "20 or 25")?,
        undissociated: number("undissociated_share", |x| (0.0..=1.0).contains(&x), "a share from 0 to 1")?,
    })
}

fn row(c: &Comparison) -> Value {
    let mut row = of_limit(&c.limit);
    row["result"] = json!(c.amount);
    row["answer"] = json!(c.answer);
    row["probability_under"] = json!(c.probability_under);
    row["within_uncertainty"] = json!(c.within_uncertainty);
    row["sentence"] = json!(c.sentence);
    if let Some(p) = c.probability_under {
        row["probability_in_words"] = json!(probability(p));
    }
    if let Some(method) = &c.method {
        row["method_meets_demand"] = json!(method);
    }
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
        "concern": l.terms.concern,
        "concern_source": l.terms.concern_source,
        "rule": l.terms.rule,
        "rule_source": l.terms.rule_source,
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
    if let Some(at) = l.terms.at_degc {
        map.insert("at_degC".into(), json!(at));
    }
    row
}

const ABSENCE: Calculation = Calculation {
    name: "absence",
    about: "a long list of compounds: what was found, bounds of the rest, sums of groups, what it cannot answer",
    example: r#"{"unit":"ug/L","compounds":[{"name":"atrazine","cas":"1912-24-9","below":0.01,"detection_limit":0.004},{"name":"simazine","cas":"122-34-9","value":0.0012,"u":0.0015,"detection_limit":0.005},{"name":"dieldrin","cas":"60-57-1","below":0.05,"detection_limit":0.04},{"name":"gamma-HCH","cas":"58-89-9","below":0.01},{"name":"lindane","cas":"58-89-9","below":0.02}],"authority":"EU"}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["compounds"],"properties":{"unit":{"type":"string","description":"of compounds that name none"},"compounds":{"type":"array","minItems":1,"items":{"type":"object","required":["name"],"properties":{"name":{"type":"string"},"cas":{"type":"string"},"sample":{"type":"string","description":"one sample where left out"},"value":{"type":"number","description":"net value, negative ones too"},"u":{"type":"number","minimum":0},"dof":{"type":"number","exclusiveMinimum":0},"below":{"type":"number","description":"not found; the reporting limit"},"unit":{"type":"string"},"critical_value":{"type":"number"},"detection_limit":{"type":"number"},"reporting_limit":{"type":"number"},"limit":{"type":"number","description":"the limit it is held against"},"laboratory":{"type":"string"}}}},"authority":{"type":"string","description":"whose limits of single compounds and of groups are taken; all that have some where left out, none for none"},"single_limit":{"type":"number","description":"for each compound that names none, in place of the tables"},"sum_limit":{"type":"number","description":"for the sum of the whole list"},"on":{"type":"string","format":"date","description":"the day, YYYY-MM-DD; without it no limit that has a first day decides"},"samples":{"type":"integer","minimum":1,"description":"samples with the same outcome, where the list stands for several"},"lang":{"enum":["en","de"]}}}"#,
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
    on: Option<String>,
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
    laboratory: Option<String>,
}

/// Whose limits of compounds are taken.
fn compound_limits_of(authority_asked: Option<&str>) -> Result<ListLimits, CalcError> {
    let Some(name) = authority_asked else { return Ok(ListLimits::of_all()) };
    if name == "none" {
        return Ok(ListLimits::default());
    }
    let of_compounds = || compound_limits::authorities().into_iter().find(|a| a.eq_ignore_ascii_case(name.trim()));
    let known = authority(name).or_else(of_compounds).ok_or_else(|| {
        let mut all = authorities();
        all.extend(compound_limits::authorities().into_iter().filter(|a| !authorities().contains(a)));
        CalcError::refused("authority", name, format!("one of {}, or none", all.join(", ")))
    })?;
    Ok(ListLimits { authorities: vec![known.into()], ..ListLimits::default() })
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
    if let Some(day) = list.on.as_ref().filter(|d| !is_day(d)) {
        return Err(CalcError::refused("on", day, "a day, YYYY-MM-DD"));
    }
    let compounds: Vec<Compound> = compounds.into_iter().map(|c| Compound { on: list.on.clone(), ..c }).collect();
    let mut limits = compound_limits_of(list.authority.as_deref())?;
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
        "upper bounds max(net, 0) + 2u, never under the critical value (without u: max(net, 0) + critical value), or reporting limit; sums of groups from what was found to that with the bounds of the rest, within a sample; frequency under 1 - 0.05^(1/n)"
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
        laboratory: c.laboratory.clone(),
        on: None,
        rejected: false,
    })
}
