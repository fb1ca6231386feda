//! `contamination`: the forecast of a bottle.

use super::read::{list, needed, ng_l, number, whole};
use crate::forecast::{About, Setting, Source, Stage, forecast};
use quantity::{CalcError, Calculation};
use serde_json::{Value, json};

pub(super) const CONTAMINATION: Calculation = Calculation {
    name: "contamination",
    about: "picograms that each stage will bring into a bottle, against the water's own",
    example: r#"{"bottle_mL":250,"water":{"value":1,"unit":"ng/L"},"stages":[{"stage":"open air","metal_ng_m3":5,"deposition_m_s":0.003,"mouth_cm2":10,"minutes":2,"relative_u":0.5},{"stage":"acid","pg_per_mL":3,"mL":1,"relative_u":0.3},{"stage":"bottle","pg_per_cm2_day":0.001,"wall_cm2":220,"days":20,"relative_u":0.5},{"stage":"handling","pg_per_opening":2.5,"openings":2,"relative_u":0.4},{"stage":"pipe","ng_m2_min":0.02,"radius_m":0.076,"contact_min":194,"relative_u":0.3},{"stage":"past field blanks","blanks_pg":[8,12,10,9,14]}]}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["bottle_mL","stages"],"properties":{"bottle_mL":{"type":"number"},"water":{"type":"object"},"draws":{"type":"integer"},"seed":{"type":"integer"},"stages":{"type":"array","items":{"type":"object","required":["stage"],"description":"air: metal_ng_m3, deposition_m_s, mouth_cm2, minutes; acid: pg_per_mL, mL; bottle: pg_per_cm2_day, wall_cm2, days; handling: pg_per_opening, openings; pipe: ng_m2_min, radius_m, contact_min; or blanks_pg; relative_u of the strength (0.5 when left out)"}}}}"#,
    run,
};

/// Relative u where nobody gave one: a factor of about two either way.
const RELATIVE_U: f64 = 0.5;

fn stage(v: &Value, i: usize) -> Result<Stage, CalcError> {
    let place = format!("stages[{i}]");
    let name = v
        .get("stage")
        .and_then(Value::as_str)
        .ok_or_else(|| CalcError::refused(format!("{place}.stage"), "nothing", "the name of the stage"))?;
    let relative_u = number(v, "relative_u", &place)?.unwrap_or(RELATIVE_U);
    let get = |key: &str| needed(v, key, &place);
    let has = |key: &str| v.get(key).is_some();
    let source = if has("metal_ng_m3") {
        Source::Air {
            metal_ng_m3: About::new(get("metal_ng_m3")?, relative_u),
            deposition_m_s: About::new(get("deposition_m_s")?, 0.0),
            mouth_cm2: get("mouth_cm2")?,
            minutes: About::new(get("minutes")?, 0.0),
        }
    } else if has("pg_per_mL") {
        Source::Acid { pg_per_ml: About::new(get("pg_per_mL")?, relative_u), ml: About::new(get("mL")?, 0.0) }
    } else if has("pg_per_cm2_day") {
        Source::Wall {
            pg_cm2_day: About::new(get("pg_per_cm2_day")?, relative_u),
            wall_cm2: get("wall_cm2")?,
            days: About::new(get("days")?, 0.0),
        }
    } else if has("pg_per_opening") {
        Source::Handling { pg_per_opening: About::new(get("pg_per_opening")?, relative_u), openings: get("openings")? }
    } else if has("ng_m2_min") {
        Source::Pipe {
            ng_m2_min: About::new(get("ng_m2_min")?, relative_u),
            radius_m: get("radius_m")?,
            contact_min: About::new(get("contact_min")?, 0.0),
        }
    } else if has("blanks_pg") {
        let blanks = serde_json::from_value(v["blanks_pg"].clone())
            .map_err(|e| CalcError::refused(format!("{place}.blanks_pg"), e, "a list of pg"))?;
        Source::PastBlanks(blanks)
    } else {
        return Err(CalcError::refused(
            place,
            "a stage without numbers",
            "metal_ng_m3, pg_per_mL, pg_per_cm2_day, pg_per_opening, ng_m2_min or blanks_pg",
        ));
    };
    Ok(Stage { name: name.into(), source })
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let stages = list(input, "stages")?.iter().enumerate().map(|(i, v)| stage(v, i)).collect::<Result<Vec<_>, _>>()?;
    let water_ng_l = input.get("water").map(|w| ng_l(w, "water")).transpose()?;
    let setting = Setting {
        bottle_ml: needed(input, "bottle_mL", "")?,
        water_ng_l,
        draws: whole(input, "draws", 20_000)?,
        seed: whole(input, "seed", 1)? as u64,
    };
    let f = forecast(&stages, &setting)?;
    let mut warnings = vec!["settling is a floor: moving air, clothes and gloves bring more".to_string()];
    if water_ng_l.is_none() {
        warnings.push("no concentration of the water given: no shares".into());
    }
    Ok(json!({
        "stages": f.stages,
        "total_pg": f.total.pg,
        "u_total_pg": f.total.u,
        "total_range_95_pg": f.total.range_95,
        "total_share_of_water": f.total.share_of_water,
        "water_pg": f.water_pg,
        "method": "deposition, dissolution and leaching by their products, past blanks by resampling; Monte Carlo, lognormal inputs",
        "sources": ["JCGM 101:2008"],
        "warnings": warnings,
    }))
}
