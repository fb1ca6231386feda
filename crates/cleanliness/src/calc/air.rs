//! `air`: counts, classes, bounds, volumes; cabinet against ambient.

use super::read::{list, number};
use crate::air::{AirSample, Count, LITRES_PER_CUBIC_FOOT, class_limit, read, reduction};
use quantity::{CalcError, Calculation};
use serde_json::{Value, json};

pub(super) const AIR: Calculation = Calculation {
    name: "air",
    about: "particle counts: bounds per cubic metre, class stayed under, class shown, volume needed",
    example: r#"{"counts":[{"size_um":0.3,"count":2},{"size_um":0.5,"count":0}],"sampled_volume_L":28.3,"minutes":1,"wanted_class":5,"ambient":{"counts":[{"size_um":0.3,"count":512000},{"size_um":0.5,"count":98000}],"sampled_volume_ft3":1}}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["counts"],"properties":{"counts":{"type":"array","items":{"type":"object","required":["size_um","count"],"properties":{"size_um":{"type":"number"},"count":{"type":"integer","minimum":0}}},"description":"cumulative: all particles of at least the size"},"sampled_volume_L":{"type":"number"},"sampled_volume_ft3":{"type":"number"},"minutes":{"type":"number"},"wanted_class":{"type":"integer","minimum":1,"maximum":9},"ambient":{"type":"object","description":"a second sample, outside the cabinet"}}}"#,
    run,
};

fn sample(v: &Value, place: &str) -> Result<AirSample, CalcError> {
    let counts = list(v, "counts")?
        .iter()
        .enumerate()
        .map(|(i, c)| {
            serde_json::from_value::<Count>(c.clone())
                .map_err(|e| CalcError::refused(format!("{place}counts[{i}]"), e, "size_um and count, a whole number of particles; give the raw count and the volume, not a concentration"))
        })
        .collect::<Result<Vec<_>, _>>()?;
    let litres = number(v, "sampled_volume_L", place)?;
    let feet = number(v, "sampled_volume_ft3", place)?;
    let volume_l = match (litres, feet) {
        (Some(l), None) => l,
        (None, Some(f)) => f * LITRES_PER_CUBIC_FOOT,
        (Some(_), Some(_)) => {
            return Err(CalcError::refused("sampled_volume", "litres and cubic feet", "one of the two"));
        }
        (None, None) => {
            return Err(CalcError::refused(
                format!("{place}sampled_volume_L"),
                "nothing",
                "the litres of air drawn (or sampled_volume_ft3): a count without its volume has no concentration",
            ));
        }
    };
    Ok(AirSample { counts, volume_l, minutes: number(v, "minutes", place)? })
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let s = sample(input, "")?;
    let r = read(&s)?;
    let wanted = match input.get("wanted_class") {
        None | Some(Value::Null) => None,
        Some(v) => Some(
            v.as_u64()
                .filter(|c| (1..=9).contains(c))
                .ok_or_else(|| CalcError::refused("wanted_class", v, "a whole number from 1 to 9"))? as u8,
        ),
    };
    let aim = wanted.or(r.under_limit_of_class);
    let to_show = aim.and_then(|c| r.volume_to_show_l(c));
    let mut warnings =
        vec!["one place and one count is equivalent to a class limit; it classifies no cabinet".to_string()];
    if wanted.is_some() && to_show.is_none() {
        warnings.push("no volume of air at the sizes counted can show the class wanted: the standard sets no limit there; count at a smaller size".into());
    }
    let volumes: Vec<Value> = (1..=9u8)
        .filter_map(|c| r.volume_to_show_l(c).map(|(v, size)| json!({"class": c, "volume_L": v, "at_size_um": size})))
        .collect();
    let limits: Vec<Value> = r
        .readings
        .iter()
        .filter_map(|x| {
            aim.and_then(|c| class_limit(c, x.size_um).map(|l| json!({"class": c, "size_um": x.size_um, "per_m3": l})))
        })
        .collect();
    let mut out = json!({
        "readings": r.readings,
        "under_limit_of_class": r.under_limit_of_class,
        "shown_class": r.shown_class,
        "shown_at_size_um": r.shown_at_size_um,
        "bounded_class": r.bounded_class,
        "volume_to_show_L": to_show.map(|v| v.0),
        "volume_to_show_class": aim,
        "volumes_to_show": volumes,
        "limits_per_m3": limits,
        // Class 5 or cleaner for open bottles: common practice of trace-metal work, as in the table of checks.
        "findings": r.findings(aim.unwrap_or(5)),
        "method": "counts over volume; exact one-sided 95 % Poisson bounds; classes by the printed table, the formula between its sizes; smallest sample 20 over the class limit, at least 2 L and a minute",
        "sources": ["ISO 14644-1:2015, table 1 and annex A (most cells recalled)", "Garwood 1936, Biometrika 28:437"],
    });
    if let Some(a) = input.get("ambient") {
        let ambient = sample(a, "ambient.")?;
        let rows: Vec<Value> = (s.counts.iter())
            .filter_map(|c| reduction(&s, &ambient, c.size_um).ok())
            .map(|r| json!({"size_um": r.size_um, "factor": r.factor.is_finite().then_some(r.factor), "at_least": r.interval_95.0, "at_most": r.interval_95.1.is_finite().then_some(r.interval_95.1)}))
            .collect();
        out["ambient"] = json!(read(&ambient)?);
        out["reduction"] = json!(rows);
    }
    out["warnings"] = json!(warnings);
    Ok(out)
}
