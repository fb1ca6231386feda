//! `compare`.

use super::{input, output};
use crate::compare::{self, Comparison, Paired, Weight};
use crate::{Observation, Reading, rows};
use message::{Message, series as said};
use quantity::CalcError;
use serde_json::{Map, Value, json};

pub(super) fn run(v: &Value) -> Result<Value, CalcError> {
    let map = input::object(v, "input")?;
    input::only_keys(map, "input", &["groups", "unit", "weight", "paired"])?;
    let unit = input::unit(map)?;
    let groups = map.get("groups").ok_or_else(|| CalcError::refused("groups", "nothing", "an object of lists"))?;
    let groups = input::object(groups, "groups")?;
    let paired = match map.get("paired") {
        None => false,
        Some(Value::Bool(b)) => *b,
        Some(other) => return Err(CalcError::refused("paired", other, "true or false")),
    };
    if paired { by_pairs(groups, &unit) } else { by_scores(groups, weight(map, groups.len())?, &unit) }
}

/// Gehan for two groups, whose exact p and shift belong to it; Peto–Peto for more.
fn weight(map: &Map<String, Value>, groups: usize) -> Result<Weight, CalcError> {
    match map.get("weight") {
        None if groups == 2 => Ok(Weight::Gehan),
        None => Ok(Weight::PetoPeto),
        Some(v) => {
            let name = input::text(v, "weight")?;
            Weight::of(name).ok_or_else(|| CalcError::refused("weight", name, "gehan, peto-peto or log-rank"))
        }
    }
}

const SOURCES: &[&str] = &[
    "Gehan (1965) Biometrika 52:203",
    "Peto & Peto (1972) J. R. Stat. Soc. A 135:185",
    "Harrington & Fleming (1982) Biometrika 69:553",
    "Hodges & Lehmann (1963) Ann. Math. Stat. 34:598",
];

fn by_scores(groups: &Map<String, Value>, weight: Weight, unit: &str) -> Result<Value, CalcError> {
    let names: Vec<&String> = groups.keys().collect();
    let lists: Vec<Vec<Reading>> = groups.iter().map(|(name, list)| readings(name, list)).collect::<Result<_, _>>()?;
    let c = compare::compare(&lists, weight, 0.95).map_err(|e| e.at("groups"))?;
    let all: Vec<Reading> = lists.iter().flatten().copied().collect();
    let (statistic, shift, interval) = headline(&c);
    Ok(json!({
        "unit": unit,
        "weight": weight.name(),
        "statistic": statistic,
        "chi_squared": c.chi_squared,
        "z": c.z,
        "p": c.p,
        "p_from": c.p_from.in_english(),
        "shift": shift,
        "interval_95": interval,
        "groups": names.iter().zip(&lists).zip(&c.scores).map(|((name, list), score)| json!({
            "name": name,
            "n": list.len(),
            "non_detects": list.iter().filter(|r| !r.is_known()).count(),
            "score": score,
        })).collect::<Value>(),
        "shifts": c.shifts.iter().map(|s| {
            let (shift, interval) = output::shift(s.shift);
            json!({"from": names[s.first], "to": names[s.second], "shift": shift, "interval_95": interval})
        }).collect::<Value>(),
        "method": Message::from(said::CompareScores { weight: weight.name().into() }).in_english(),
        "sources": SOURCES,
        "warnings": output::warnings(&rows::oddities(&all)),
    }))
}

fn headline(c: &Comparison) -> (Value, Value, Value) {
    let statistic = c.s.map_or(json!(c.chi_squared), |s| json!(s));
    let (shift, interval) = match c.shifts.as_slice() {
        [one] => output::shift(one.shift),
        _ => (Value::Null, Value::Null),
    };
    (statistic, shift, interval)
}

fn readings(name: &str, list: &Value) -> Result<Vec<Reading>, CalcError> {
    let field = format!("groups.{name}");
    input::list(Some(list), &field)?
        .iter()
        .enumerate()
        .map(|(i, v)| {
            let field = format!("{field}[{i}]");
            if let Value::Number(_) = v {
                return Ok(Reading::Known(input::number(v, &field)?));
            }
            let row = input::object(v, &field)?;
            input::only_keys(row, &field, &["value", "below", "date", "year", "method"])?;
            input::reading(row, &field)
        })
        .collect()
}

fn by_pairs(groups: &Map<String, Value>, unit: &str) -> Result<Value, CalcError> {
    if groups.len() != 2 {
        return Err(CalcError::refused(
            "groups",
            format!("{} groups", groups.len()),
            "two groups for a paired comparison",
        ));
    }
    let lists: Vec<Vec<Observation>> = groups
        .iter()
        .map(|(name, list)| {
            let field = format!("groups.{name}");
            input::list(Some(list), &field)?
                .iter()
                .enumerate()
                .map(|(i, v)| input::observation(v, &format!("{field}[{i}]")))
                .collect()
        })
        .collect::<Result<_, CalcError>>()?;
    let c = compare::paired(&lists[0], &lists[1], 0.95).map_err(|e| e.at("groups"))?;
    Ok(pairs_answer(&c, unit))
}

fn pairs_answer(c: &Paired, unit: &str) -> Value {
    let (shift, interval) = output::shift(c.shift);
    let (statistic, p, method): (_, _, Message) = match c.signed_rank {
        Some((w, p)) => (json!(w), p, said::CompareSignedRanks.into()),
        None => (json!(c.second_above), c.sign_p, said::CompareSigns.into()),
    };
    json!({
        "unit": unit,
        "statistic": statistic,
        "p": p,
        "sign_p": c.sign_p,
        "shift": shift,
        "interval_95": interval,
        "pairs": c.pairs,
        "second_above": c.second_above,
        "second_below": c.second_below,
        "open": c.open,
        "method": method.in_english(),
        "sources": ["Wilcoxon (1945) Biometrics Bull. 1:80", "Hodges & Lehmann (1963) Ann. Math. Stat. 34:598"],
        "warnings": [],
    })
}
