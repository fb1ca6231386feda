//! `attribution`: whose metal is it.

use super::read::{list, needed, number};
use crate::attribution::{Attribution, Bottle, Kind, Spikes, Survey, attribute};
use crate::unseen::{BY_KIND, Grouping, LEVEL, SAMPLES, Unseen, unseen};
use message::{Arg, Digits, Message, Name, Share, Shown, attribution as said, unseen as says};
use quantity::{Amount, CalcError, Calculation, Unit};
use serde_json::{Value, json};

pub(super) const ATTRIBUTION: Calculation = Calculation {
    name: "attribution",
    about: "strength of each source of metal, concentration of each water, the water's share of each bottle",
    example: r#"{"sources":["acid_mL","days","openings"],"bottles":[{"name":"S1","kind":"sample","water":"SL-2","volume_mL":250,"mass_pg":{"value":260.1,"u":5.2},"exposures":{"acid_mL":1,"days":12,"openings":1}},{"name":"S2","kind":"sample","water":"SL-2","volume_mL":125,"mass_pg":{"value":133.0,"u":3.1},"exposures":{"acid_mL":0.5,"days":12,"openings":2}},{"name":"S3","kind":"sample","water":"SL-2","volume_mL":250,"mass_pg":{"value":255.5,"u":5.2},"exposures":{"acid_mL":1,"days":14,"openings":1}},{"name":"F1","kind":"blank","volume_mL":250,"mass_pg":{"value":10.4,"u":1.1},"exposures":{"acid_mL":1,"days":12,"openings":2}},{"name":"F2","kind":"blank","volume_mL":250,"mass_pg":{"value":9.2,"u":1.1},"exposures":{"acid_mL":1,"days":14,"openings":2}},{"name":"T1","kind":"blank","volume_mL":250,"mass_pg":{"value":5.1,"u":1.0},"exposures":{"acid_mL":1,"days":12,"openings":0}},{"name":"T2","kind":"blank","volume_mL":250,"mass_pg":{"value":8.3,"u":1.0},"exposures":{"acid_mL":1,"days":30,"openings":0}},{"name":"B1","kind":"blank","volume_mL":250,"mass_pg":{"value":9.9,"u":1.1},"exposures":{"acid_mL":3,"days":5,"openings":0}},{"name":"B2","kind":"blank","volume_mL":250,"mass_pg":{"value":3.4,"u":1.0},"exposures":{"acid_mL":1,"days":3,"openings":0}}]}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["bottles","sources"],"properties":{"sources":{"type":"array","items":{"type":"string"}},"bottles":{"type":"array","items":{"type":"object","required":["name","kind","volume_mL","mass_pg"],"properties":{"name":{"type":"string"},"kind":{"enum":["sample","blank"]},"water":{"type":"string"},"volume_mL":{"type":"number"},"mass_pg":{"type":"object","description":"net value with u, in pg unless a unit is given"},"exposures":{"type":"object","additionalProperties":{"type":"number"}},"groups":{"type":"object","additionalProperties":{"type":"string"},"description":"what tells the bottle from others: air, lot, day, person; kinds of bottles are compared in any case"}}}},"recovery":{"type":"object","properties":{"value":{"type":"number"},"u":{"type":"number"}}},"spikes":{"type":"object","properties":{"rate":{"type":"number"},"width":{"type":"number"}}}}}"#,
    run,
};

fn mass(v: &Value, place: &str) -> Result<(f64, f64), CalcError> {
    let mut v = v.clone();
    if let Some(o) = v.as_object_mut() {
        o.entry("unit").or_insert_with(|| json!("pg"));
    }
    let a: Amount = serde_json::from_value(v).map_err(|e| CalcError::refused(place, e, "value and u in pg"))?;
    let a = a.convert(&Unit::known("pg"), None, None).map_err(|e| CalcError::refused(place, e, "a mass"))?;
    match (a.value(), a.u()) {
        (Some(v), Some(u)) => Ok((v, u)),
        (None, _) => Err(CalcError::refused(
            place,
            a.in_words(),
            "the net value with its sign and u, which a non-detect has too; a limit alone cannot be fitted",
        )),
        (_, None) => Err(CalcError::refused(place, "no u", "a standard uncertainty above 0")),
    }
}

fn bottle(v: &Value, i: usize, sources: &[String]) -> Result<Bottle, CalcError> {
    let place = format!("bottles[{i}]");
    let name = v.get("name").and_then(Value::as_str).map_or_else(|| format!("{}", i + 1), String::from);
    let kind_text = v.get("kind").and_then(Value::as_str).unwrap_or("nothing");
    // Every sort of blank is a blank here: what tells them apart is their exposures.
    let kind = match kind_text {
        "sample" | "duplicate" => Kind::Sample,
        k if k.contains("blank") => Kind::Blank,
        other => return Err(CalcError::refused(format!("{place}.kind"), other, "sample or blank")),
    };
    let water = v.get("water").and_then(Value::as_str).map(String::from);
    let exposures_place = format!("{place}.exposures");
    let given = v.get("exposures").cloned().unwrap_or_else(|| json!({}));
    if let Some(unknown) = given.as_object().and_then(|o| o.keys().find(|k| !sources.contains(k))) {
        return Err(CalcError::refused(
            exposures_place,
            format!("\"{unknown}\""),
            format!("names of the sources asked about: {}", sources.join(", ")),
        ));
    }
    let exposures = sources
        .iter()
        .map(|s| Ok(number(&given, s, &exposures_place)?.unwrap_or(0.0)))
        .collect::<Result<Vec<_>, CalcError>>()?;
    let (mass_pg, u_pg) = mass(v.get("mass_pg").unwrap_or(&Value::Null), &format!("{place}.mass_pg"))?;
    Ok(Bottle { name, kind, water, volume_ml: needed(v, "volume_mL", &place)?, mass_pg, u_pg, exposures })
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let sources: Vec<String> = serde_json::from_value(input.get("sources").cloned().unwrap_or(Value::Null))
        .map_err(|e| CalcError::refused("sources", e, "a list of names"))?;
    let given = list(input, "bottles")?;
    let bottles = given.iter().enumerate().map(|(i, v)| bottle(v, i, &sources)).collect::<Result<Vec<_>, _>>()?;
    let groupings = groupings(given)?;
    let recovery = match input.get("recovery") {
        None => (1.0, 0.0),
        Some(r) => (needed(r, "value", "recovery")?, number(r, "u", "recovery")?.unwrap_or(0.0)),
    };
    let spikes = match input.get("spikes") {
        None => Spikes::default(),
        Some(s) => serde_json::from_value(s.clone()).map_err(|e| CalcError::refused("spikes", e, "rate and width"))?,
    };
    let survey = Survey { sources, bottles, recovery, spikes };
    let a = attribute(&survey)?;
    let unseen = unseen(&survey, &a, &groupings);
    let mut warnings: Vec<String> = a.cannot_separate.iter().map(|t| t.sentence.clone()).collect();
    let told = recovered(&survey, &a).into_iter().chain(a.cautions()).chain(counts_as_water(&survey, &unseen));
    warnings.extend(told.map(|m| m.in_english()));
    Ok(answer(&a, &unseen, input.get("recovery").is_some(), warnings))
}

/// Kinds as they were named, and what else bottles are told apart by.
fn groupings(bottles: &[Value]) -> Result<Vec<Grouping>, CalcError> {
    let kind = |v: &Value| {
        let word = v.get("kind").and_then(Value::as_str)?;
        Some(if word == "duplicate" { SAMPLES } else { word }.to_string())
    };
    let mut out = vec![Grouping { by: BY_KIND.into(), groups: bottles.iter().map(kind).collect() }];
    for (i, b) in bottles.iter().enumerate() {
        for (by, group) in b.get("groups").and_then(Value::as_object).into_iter().flatten() {
            let place = || format!("bottles[{i}].groups.{by}");
            let name = group.as_str().ok_or_else(|| CalcError::refused(place(), group, "a name in quotes"))?;
            if by == BY_KIND {
                return Err(CalcError::refused(place(), group, "another name: kinds are compared in any case"));
            }
            let at = out.iter().position(|g| g.by == *by).unwrap_or_else(|| {
                out.push(Grouping { by: by.clone(), groups: vec![None; bottles.len()] });
                out.len() - 1
            });
            out[at].groups[i] = Some(name.into());
        }
    }
    Ok(out)
}

/// Waters from which a recovery was divided out, before and after.
fn recovered(s: &Survey, a: &Attribution) -> Vec<Message> {
    let recovery = Share::new(s.recovery.0, Digits::Significant(3));
    let of = |w: &crate::attribution::WaterStrength| {
        let before = Shown::significant(w.before_recovery_ng_l?, 3, "ng/L");
        let value = Shown::significant(w.ng_l, 3, "ng/L");
        Some(said::RecoveryDividedOut { water: Name::from(&w.name), value, before, recovery: recovery.clone() }.into())
    };
    a.waters.iter().filter_map(of).collect()
}

/// What the groups say, and what counts as the water's because no blank met it.
fn counts_as_water(s: &Survey, unseen: &Unseen) -> Vec<Message> {
    let met_by = |kind: Kind, k: usize| s.bottles.iter().any(|b| b.kind == kind && b.exposures[k] > 0.0);
    let not_met: Vec<Arg> = (0..s.sources.len())
        .filter(|k| met_by(Kind::Sample, *k) && !met_by(Kind::Blank, *k))
        .map(|k| Name::from(&s.sources[k]).into())
        .collect();
    let group = |g: &crate::unseen::Group| says::GroupNamed { by: (&g.by).into(), group: (&g.group).into() }.into();
    vec![unseen.says(LEVEL, group), unseen.rule(not_met)]
}

fn answer(a: &Attribution, unseen: &Unseen, recovery_given: bool, mut warnings: Vec<String>) -> Value {
    let spiked: Vec<&str> = a.bottles.iter().filter(|b| b.spike_probability > 0.5).map(|b| b.name.as_str()).collect();
    if !spiked.is_empty() {
        warnings.push(format!("probably spiked, and hardly counted: {}", spiked.join(", ")));
    }
    if !recovery_given {
        warnings.push("no recovery given: taken as 1; a low number may be lost metal".into());
    }
    let confounded: Vec<&Vec<String>> = a.cannot_separate.iter().map(|t| &t.sources).collect();
    json!({
        "sources": a.sources,
        "waters": a.waters,
        "bottles": a.bottles,
        "cannot_separate": confounded,
        "between_bottles_pg": a.between_bottles_pg,
        "between_bottles_share": a.between_bottles_share,
        "dof": a.dof,
        "converged": a.converged,
        "rounds": a.rounds,
        "unseen": unseen,
        "method": "all bottles fitted together: volume times water plus exposures times sources, none negative, weighted, spikes by a two-part error law; intervals by Student's t of the fit without the bound, read on zero and up; shares by Fieller",
        "literature": ["Lawson & Hanson 1974", "Box & Tiao 1968, Biometrika 55:119", "Paule & Mandel 1982, J. Res. NBS 87:377", "Fieller 1954, J. R. Stat. Soc. B 16:175"],
        "warnings": warnings,
    })
}
