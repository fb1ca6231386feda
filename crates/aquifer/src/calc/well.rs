//! `well`: flow, contact, head, steadiness, what the pipe adds.

use super::CAUTION;
use super::read::{FLOW, Found, LENGTH, Object, PRESSURE, TIME, VOLUME, one_unit};
use crate::pipe::{LeachRate, added, lowest_flow};
use crate::purge::{Readings, fit_washout, renewed, renewed_finding, stability_findings, steady};
use crate::well::{Construction, Criteria, Fill, Fills, Gauge, Layer, Screen, Section, contact, flow, head};
use quantity::{Amount, CalcError, Calculation, Finding, Unit};
use serde_json::{Map, Value, json};

pub(super) const WELL: Calculation = Calculation {
    name: "well",
    about: "flow from timed fills, contact time with each material, head, steady readings, what the pipe adds",
    example: r#"{"depth_m":66,"sections":[{"from_m":0,"to_m":60,"radius_m":0.076,"material":"steel"}],"screens":[{"from_m":60,"to_m":66}],"layers":[{"from_m":0,"to_m":52,"name":"marine clay"},{"from_m":52,"to_m":66,"name":"sandstone"}],"fills":[{"volume_L":0.75,"seconds":7.9},{"volume_L":0.75,"seconds":8.1},{"volume_L":0.75,"seconds":8.0}],"u_mark_L":0.01,"gauge_bar":0.42,"u_gauge_bar":0.02,"gauge_height_m":0.8,"temperature_C":9.2,"bottle_mL":250,"open_min":600,"leach":[{"material":"steel","ng_m2_min":2.0,"u_ng_m2_min":0.5}],"target_ng_L":5,"readings":[{"parameter":"pH","points":[[0,7.60],[3,7.64],[6,7.66],[9,7.65],[12,7.66]]}],"rule":"usgs"}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","description":"lengths in _m, _ft, _in, _cm, _mm; volumes in _L, _mL, _gal, _imp_gal, _m3; pressures in _bar, _kPa, _psi","properties":{"sections":{"type":"array","items":{"type":"object","properties":{"from_m":{"type":"number"},"to_m":{"type":"number"},"radius_m":{"type":"number"},"material":{"type":"string"}}}},"screens":{"type":"array"},"layers":{"type":"array"},"depth_m":{"type":"number"},"fills":{"type":"array","items":{"type":"object","properties":{"volume_L":{"type":"number"},"seconds":{"type":"number"}}}},"u_mark_L":{"type":"number"},"u_seconds":{"type":"number"},"flow_L_min":{"type":"number","description":"in place of fills"},"gauge_bar":{"type":"number"},"gauge_height_m":{"type":"number","description":"above ground, negative below"},"temperature_C":{"type":"number"},"ground_elevation_m":{"type":"number"},"bottle_mL":{"type":"number"},"open_min":{"type":"number","description":"minutes since the well was opened"},"leach":{"type":"array","items":{"type":"object","required":["material","ng_m2_min"]}},"target_ng_L":{"type":"number"},"readings":{"type":"array","items":{"type":"object","required":["parameter","points"]}},"rule":{"enum":["usgs","low-flow","astm"]},"washout":{"type":"array","description":"[min, value] pairs of a well that stood"},"least_volumes":{"type":"number"},"longest_contact_min":{"type":"number"},"largest_relative_u":{"type":"number"}}}"#,
    run,
};

fn run(input: &Value) -> Result<Value, CalcError> {
    let o = Object::new(input, "")?;
    let mut out = Map::new();
    let mut findings: Vec<Finding> = vec![];
    let mut warnings = vec![];
    let criteria = Criteria {
        longest_contact_min: o.number("longest_contact_min")?.unwrap_or(Criteria::default().longest_contact_min),
        largest_relative_u: o.number("largest_relative_u")?.unwrap_or(Criteria::default().largest_relative_u),
    };
    let construction = construction(&o)?;
    construction.check()?;
    findings.extend(construction.findings());
    if let Some(q) = the_flow(&o, &criteria, &mut out, &mut findings)? {
        with_flow(&o, &construction, &q, &criteria, &mut out, &mut findings)?;
    }
    the_head(&o, &construction, &mut out, &mut warnings)?;
    // After the flow: a washout needs it to turn its rate into a volume.
    steadiness(&o, &mut out, &mut findings)?;
    if out.is_empty() {
        return Err(CalcError::refused(
            "input",
            "no fills, gauge or readings",
            "at least one of fills, flow_L_min, gauge_bar, readings, washout",
        ));
    }
    warnings.push(CAUTION.to_string());
    out.insert("findings".into(), json!(findings));
    out.insert("method".into(), json!("flow: mean of volume over time; contact time: volume over flow, plug flow; head: gauge height plus pressure over density and gravity"));
    out.insert("sources".into(), json!(["JCGM 100:2008", "Tanaka et al. 2001, Metrologia 38:301"]));
    out.insert("warnings".into(), json!(warnings));
    Ok(Value::Object(out))
}

/// From, to of an interval in m, with what was found for the check of units.
fn interval(o: &Object) -> Result<(f64, f64, [Found; 2]), CalcError> {
    let (from, to) = (o.needed("from", LENGTH)?, o.needed("to", LENGTH)?);
    Ok((from.to("m")?.0, to.to("m")?.0, [from, to]))
}

fn construction(o: &Object) -> Result<Construction, CalcError> {
    let mut c = Construction::default();
    let (mut depths, mut radii) = (vec![], vec![]);
    for s in o.list("sections")? {
        let (from_m, to_m, found) = interval(&s)?;
        let radius = match s.quantity("diameter", LENGTH)? {
            Some(d) => Found { value: 0.5 * d.value, ..d },
            None => s.needed("radius", LENGTH)?,
        };
        let material = s.text("material").unwrap_or("not stated").to_string();
        c.sections.push(Section { from_m, to_m, radius_m: radius.to("m")?.0, material });
        depths.extend(found);
        radii.push(radius);
    }
    for s in o.list("screens")? {
        let (from_m, to_m, found) = interval(&s)?;
        c.screens.push(Screen { from_m, to_m });
        depths.extend(found);
    }
    for s in o.list("layers")? {
        let (from_m, to_m, found) = interval(&s)?;
        c.layers.push(Layer { from_m, to_m, name: s.text("name").unwrap_or("not named").to_string() });
        depths.extend(found);
    }
    if let Some(d) = o.quantity("depth", LENGTH)? {
        c.depth_m = Some(d.to("m")?.0);
        depths.push(d);
    }
    one_unit("depths", depths.iter())?;
    one_unit("radii", radii.iter())?;
    c.ground_elevation_m = o.quantity("ground_elevation", LENGTH)?.map(|g| g.to("m")).transpose()?.map(|g| g.0);
    Ok(c)
}

fn the_flow(
    o: &Object,
    criteria: &Criteria,
    out: &mut Map<String, Value>,
    findings: &mut Vec<Finding>,
) -> Result<Option<Amount>, CalcError> {
    let list = o.list("fills")?;
    // Taken for no fills, an empty list would let a stated flow stand in their place in silence.
    if list.is_empty() && o.map.contains_key("fills") {
        return Err(CalcError::refused("fills", "an empty list", "at least one timed fill"));
    }
    let amount = if list.is_empty() {
        let Some(q) = o.quantity("flow", FLOW)? else {
            return Ok(None);
        };
        let (v, u) = q.to("L/min")?;
        match u {
            Some(u) => Amount::measured(v, u, Unit::known("L/min")),
            None => Amount::stated(v, Unit::known("L/min")),
        }
    } else {
        let mut fills = Fills::default();
        let mut volumes = vec![];
        for f in &list {
            let volume = f.needed("volume", VOLUME)?;
            let seconds = match f.number("seconds")? {
                Some(s) => s,
                None => f.needed("time", TIME)?.to("s")?.0,
            };
            fills.fills.push(Fill { volume_l: volume.to("L")?.0, seconds });
            volumes.push(volume);
        }
        one_unit("volumes", volumes.iter())?;
        fills.u_mark_l = o.quantity("u_mark", VOLUME)?.map(|u| u.to("L")).transpose()?.map(|u| u.0);
        fills.u_seconds = o.number("u_seconds")?;
        let f = flow(&fills)?;
        findings.extend(f.findings(criteria));
        out.insert("fills".into(), json!(f.fills));
        out.insert("drift".into(), json!(f.drift));
        out.insert("derivation".into(), json!(f.derivation));
        f.amount
    };
    out.insert("flow_L_min".into(), json!(amount.value()));
    out.insert("u".into(), json!(amount.u()));
    out.insert("flow".into(), json!(amount));
    let year = amount.convert(&Unit::known("m3/a"), None, None).map_err(|e| CalcError::refused("flow", e, "a flow"))?;
    out.insert("water_m3_year".into(), json!(year.value()));
    Ok(Some(amount))
}

fn with_flow(
    o: &Object,
    c: &Construction,
    q: &Amount,
    criteria: &Criteria,
    out: &mut Map<String, Value>,
    findings: &mut Vec<Finding>,
) -> Result<(), CalcError> {
    let l_min = q.value().unwrap_or(f64::NAN);
    if let Some(b) = o.quantity("bottle", VOLUME)? {
        out.insert("bottle_fill_seconds".into(), json!(b.to("L")?.0 / l_min * 60.0));
    }
    if c.sections.is_empty() {
        return Ok(());
    }
    let k = contact(c, q)?;
    findings.push(k.finding(criteria));
    out.insert("volume_m3".into(), json!(k.volume_m3));
    out.insert("contact_min".into(), json!(k.total.value()));
    out.insert("u_contact_min".into(), json!(k.total.u()));
    out.insert("flow_for_longest_contact_L_min".into(), json!(1000.0 * k.volume_m3 / criteria.longest_contact_min));
    let by_material: Vec<Value> = k.by_material.iter().map(|(m, t)| json!({"material": m, "contact": t})).collect();
    out.insert("by_material".into(), json!(by_material));
    out.insert("sections".into(), json!(k.sections));
    if let Some(open) = o.quantity("open", TIME)? {
        let (litres, minutes) = (1000.0 * k.volume_m3, open.to("min")?.0);
        let (volumes, left) = renewed(litres, l_min, minutes)?;
        // Three volumes: common practice.
        findings.push(renewed_finding(litres, l_min, minutes, o.number("least_volumes")?.unwrap_or(3.0))?);
        out.insert("volumes_renewed".into(), json!(volumes));
        out.insert("standing_water_left_if_mixed".into(), json!(left));
    }
    let rates: Vec<LeachRate> = match o.map.get("leach") {
        None => return Ok(()),
        Some(v) => serde_json::from_value(v.clone())
            .map_err(|e| CalcError::refused("leach", e, "material, ng_m2_min and u_ng_m2_min of each"))?,
    };
    let curve: Vec<f64> = (-10..=10).map(|i| l_min * libm::pow(10.0, f64::from(i) / 10.0)).collect();
    out.insert("pipe_adds".into(), json!(added(c, &rates, &[l_min])?[0]));
    out.insert("pipe_adds_curve".into(), json!(added(c, &rates, &curve)?));
    if let Some(target) = o.number("target_ng_L")? {
        out.insert("lowest_flow".into(), json!(lowest_flow(c, &rates, target)?));
    }
    Ok(())
}

fn the_head(
    o: &Object,
    c: &Construction,
    out: &mut Map<String, Value>,
    warnings: &mut Vec<String>,
) -> Result<(), CalcError> {
    let Some(p) = o.quantity("gauge", PRESSURE)? else {
        return Ok(());
    };
    let Some(z) = o.quantity("gauge_height", LENGTH)? else {
        return Err(CalcError::refused(
            "gauge_height_m",
            "nothing",
            "the height of the gauge above ground in m, negative below: without it a pressure is no head",
        ));
    };
    let temperature_c = o.number("temperature_C")?.unwrap_or_else(|| {
        warnings.push("no water temperature given: density taken at 10 °C (0.2 % over 0 to 20 °C)".into());
        10.0
    });
    let (pressure_pa, u_pressure_pa) = p.to("Pa")?;
    let (height_m, u_height_m) = z.to("m")?;
    let h = head(&Gauge { pressure_pa, u_pressure_pa, height_m, u_height_m, temperature_c }, c.ground_elevation_m)?;
    out.insert("head_m".into(), json!(h.above_ground.value()));
    out.insert("u_head_m".into(), json!(h.above_ground.u()));
    if let Some(e) = &h.elevation {
        out.insert("head_elevation_m".into(), json!(e.value()));
    }
    out.insert("head_derivation".into(), json!(h.derivation));
    Ok(())
}

fn pairs(v: &Value, path: &str) -> Result<Vec<(f64, f64)>, CalcError> {
    serde_json::from_value(v.clone()).map_err(|e| CalcError::refused(path, e, "a list of [minutes, value] pairs"))
}

fn steadiness(o: &Object, out: &mut Map<String, Value>, findings: &mut Vec<Finding>) -> Result<(), CalcError> {
    let rule = o.text("rule").unwrap_or("usgs");
    let mut list = vec![];
    for r in o.list("readings")? {
        let points = pairs(r.map.get("points").unwrap_or(&Value::Null), &r.place("points"))?;
        list.push(Readings { parameter: r.text("parameter").unwrap_or("").to_string(), points });
    }
    if !list.is_empty() {
        findings.extend(stability_findings(&list, rule));
        let rows: Vec<Value> = list
            .iter()
            .map(|r| match steady(r, rule) {
                Ok(s) => json!(s),
                Err(e) => json!({"parameter": r.parameter, "rule": rule, "not_known": e.to_string()}),
            })
            .collect();
        out.insert("steady".into(), json!(rows));
    }
    if let Some(w) = o.map.get("washout") {
        let q = out.get("flow_L_min").and_then(Value::as_f64);
        out.insert("washout".into(), json!(fit_washout(&pairs(w, "washout")?, q)?));
    }
    Ok(())
}
