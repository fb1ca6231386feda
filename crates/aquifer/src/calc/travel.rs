//! `travel`: travel time, capture width, tracer ages.

use super::read::{CONDUCTIVITY, FLOW, LENGTH, Object, Suffixes, TRANSMISSIVITY};
use crate::travel::{
    Age, Draws, Formation, Known, Path, age_finding, capture, formations, gradient as slope, travel_time_years,
};
use quantity::{CalcError, Calculation, Finding};
use serde_json::{Map, Value, json};

pub(super) const TRAVEL: Calculation = Calculation {
    name: "travel",
    about: "travel time from the recharge area and capture width, by Monte Carlo over what is measured and what is textbook",
    example: r#"{"distance_m":6000,"u_distance_m":300,"gradient":0.004,"u_gradient":0.0008,"formation":"clean sand","conductivity_m_s":{"from":1e-5,"to":1e-4},"porosity":{"from":0.1,"to":0.3},"flow_L_min":20,"u_flow_L_min":1,"transmissivity_m2_d":60,"u_transmissivity_m2_d":10,"ages":[{"tracer":"carbon-14","years":900,"u":200},{"tracer":"tritium","older_than":60}],"draws":100000,"seed":1}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["distance_m"],"properties":{"distance_m":{"type":"number"},"gradient":{"description":"a number with u_gradient, or from and to"},"recharge_level_m":{"type":"number","description":"with head_level_m, both above one datum, in place of the gradient"},"head_level_m":{"type":"number"},"formation":{"type":"string","description":"a material of the table: its ranges stand in for what is not given"},"conductivity_m_s":{"description":"a number with u_conductivity_m_s, or from and to (uniform on the logarithm)"},"porosity":{"description":"a share: a number with u_porosity, or from and to"},"flow_L_min":{"type":"number"},"transmissivity_m2_d":{"type":"number"},"ages":{"type":"array"},"draws":{"type":"integer"},"seed":{"type":"integer"}}}"#,
    run,
};

fn run(input: &Value) -> Result<Value, CalcError> {
    let o = Object::new(input, "")?;
    let draws = Draws {
        draws: o.whole("draws")?.map_or(Draws::default().draws, |d| d as usize),
        seed: o.whole("seed")?.unwrap_or(1),
    };
    let (path, formation) = path_of(&o)?;
    let gradient = path.gradient;
    let t = travel_time_years(&path, draws)?;
    let mut out = Map::new();
    out.insert("travel_years".into(), json!(t.percentiles));
    out.insert("spread_from".into(), json!(t.parts));
    let flow = with_unit(&o, "flow", FLOW, "m3/s", Known::Range)?;
    let transmissivity = with_unit(&o, "transmissivity", TRANSMISSIVITY, "m2/s", Known::Decades)?;
    if let (Some(q), Some(tr)) = (flow, transmissivity) {
        let c = capture(q, tr, gradient, draws)?;
        out.insert("capture_width_m".into(), json!(c.width_m.percentiles));
        out.insert("stagnation_m".into(), json!(c.stagnation_m.percentiles));
    }
    let ages = o.list("ages")?.iter().map(|a| age(a, &t)).collect::<Result<Vec<Finding>, _>>()?;
    out.insert("findings".into(), json!(ages));
    let mut warnings =
        vec!["a range over decades is what such inputs can honestly give; an age by a tracer tells more".to_string()];
    if let Some(f) = formation {
        warnings.push(format!("{}: ranges of {} ({})", f.material, f.source, f.provenance));
    }
    out.insert("method".into(), json!("Darcy, v = K·i/n; Monte Carlo; capture width Q/(T·i), stagnation Q/(2π·T·i)"));
    out.insert(
        "sources".into(),
        json!(["Darcy 1856", "Todd 1980, Groundwater Hydrology, 4.6 (recalled)", "JCGM 101:2008"]),
    );
    out.insert("warnings".into(), json!(warnings));
    Ok(Value::Object(out))
}

/// The way of the water, and the formation whose ranges stand in for what is not given.
pub(super) fn path_of(o: &Object) -> Result<(Path, Option<&'static Formation>), CalcError> {
    let formation = o.text("formation").map(find_formation).transpose()?;
    let gradient = match plain(o, "gradient")? {
        Some(g) => g,
        None => by_levels(o)?,
    };
    let table = |k: &dyn Fn(&Formation) -> Option<Known>| formation.and_then(k);
    let path = Path {
        distance_m: with_unit(o, "distance", LENGTH, "m", Known::Range)?.ok_or_else(|| missing("distance_m"))?,
        gradient,
        // A range of conductivity spans decades, so that it is drawn on its logarithm; the other ranges are uniform.
        conductivity_m_s: with_unit(o, "conductivity", CONDUCTIVITY, "m/s", Known::Decades)?
            .or_else(|| table(&|f| Some(Known::Decades(f.conductivity_m_s.0, f.conductivity_m_s.1))))
            .ok_or_else(|| missing("conductivity_m_s or formation"))?,
        porosity: plain(o, "porosity")?
            .or_else(|| table(&|f| f.porosity.map(|(a, b)| Known::Range(a, b))))
            .ok_or_else(|| missing("porosity or a formation that has one"))?,
    };
    Ok((path, formation))
}

/// The gradient from head and recharge level where it is not given itself.
fn by_levels(o: &Object) -> Result<Known, CalcError> {
    let metres = |name: &str| -> Result<(f64, f64), CalcError> {
        let (v, u) = o
            .quantity(name, LENGTH)?
            .ok_or_else(|| missing("gradient, or recharge_level_m with head_level_m"))?
            .to("m")?;
        Ok((v, u.unwrap_or(0.0)))
    };
    Ok(slope(metres("recharge_level")?, metres("head_level")?, metres("distance")?)?)
}

fn missing(what: &str) -> CalcError {
    CalcError::refused(what, "nothing", "a number, or a range with from and to")
}

fn find_formation(name: &str) -> Result<&'static Formation, CalcError> {
    formations().iter().find(|f| f.material == name).ok_or_else(|| {
        let known: Vec<&str> = formations().iter().map(|f| f.material.as_str()).collect();
        CalcError::refused("formation", name, format!("one of {}", known.join(", ")))
    })
}

/// `{"from":…,"to":…}` under a key.
fn range(o: &Object, key: &str) -> Result<Option<(f64, f64)>, CalcError> {
    match o.map.get(key) {
        Some(v) if v.get("from").is_some() => {
            let r = Object::new(v, o.place(key))?;
            let end = |k| r.number(k)?.ok_or_else(|| CalcError::refused(r.place(k), "nothing", "a number"));
            Ok(Some((end("from")?, end("to")?)))
        }
        _ => Ok(None),
    }
}

/// A number without unit, with its u, or a range.
fn plain(o: &Object, key: &str) -> Result<Option<Known>, CalcError> {
    if let Some((a, b)) = range(o, key)? {
        return Ok(Some(Known::Range(a, b)));
    }
    let u = o.number(&format!("u_{key}"))?.unwrap_or(0.0);
    Ok(o.number(key)?.map(|v| Known::Measured(v, u)))
}

/// A number with a unit in its key, with its u, or a range under such a key.
fn with_unit(
    o: &Object,
    name: &str,
    suffixes: Suffixes,
    unit: &str,
    kind: fn(f64, f64) -> Known,
) -> Result<Option<Known>, CalcError> {
    for (suffix, from_unit) in suffixes {
        if let Some((a, b)) = range(o, &format!("{name}_{suffix}"))? {
            let f = |value| {
                super::read::Found { key: name.into(), unit: quantity::Unit::known(from_unit), value, u: None }.to(unit)
            };
            return Ok(Some(kind(f(a)?.0, f(b)?.0)));
        }
    }
    Ok(match o.quantity(name, suffixes)? {
        Some(found) => {
            let (v, u) = found.to(unit)?;
            Some(Known::Measured(v, u.unwrap_or(0.0)))
        }
        None => None,
    })
}

fn age(a: &Object, t: &crate::travel::Simulated) -> Result<Finding, CalcError> {
    let tracer = a.text("tracer").unwrap_or("tracer");
    let age = match (a.number("years")?, a.number("older_than")?, a.number("younger_than")?) {
        (Some(v), None, None) => Age::Measured(v, a.number("u")?.unwrap_or(0.0)),
        (None, Some(v), None) => Age::OlderThan(v),
        (None, None, Some(v)) => Age::YoungerThan(v),
        _ => {
            return Err(CalcError::refused(
                &a.path,
                "none or several",
                "one of years (with u), older_than, younger_than",
            ));
        }
    };
    Ok(age_finding(tracer, &age, t))
}
