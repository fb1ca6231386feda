//! `age`: how old the water is, by all tracers together.

use super::read::Object;
use super::travel::path_of;
use crate::age::fit::{DRAWS, ModelFit, Tested};
use crate::age::gases::{Redox, Use, admitted, mixing_ratio, within_air, years_of};
use crate::age::helium::{HeliumAge, HeliumSample, helium_age};
use crate::age::history::{History, Point};
use crate::age::next::{Candidate, rank};
use crate::age::tables::{AGES, Screen, Setting, decay_of};
use crate::age::tritium::{classify, half_life_years, piston_ages};
use crate::age::verdict::{Question, against_darcy, findings, most_unlike, union, verdict};
use crate::age::{Fit, Kind, Level, Measured, Observation, Recharge, Sample, Side, Tables, Tracer, WithU, fit};
use crate::travel::{Draws, travel_time_draws};
use message::{Message, Shown, age as said};
use quantity::{CalcError, Calculation, Check, Finding, Outcome};
use serde_json::{Map, Value, json};

pub(super) const AGE: Calculation = Calculation {
    name: "age",
    about: "how old the water is by tritium, helium-3, SF6, CFCs and carbon-14 together: models, young share, verdicts, what to measure next",
    example: r#"{"sampled_year":2026.5,"histories":[{"tracer":"3H","region":"an invented place","source":"invented for this example","background":12,"u_background":1,"relative_u":0.1,"points":[[1950.5,12],[1953.5,20],[1958.5,550],[1961.5,220],[1963.5,2900],[1966.5,560],[1970.5,200],[1980.5,60],[1990.5,26],[2005.5,13],[2026.5,11]]},{"tracer":"CFC-12","region":"an invented air","source":"invented for this example","background":0,"u_background":0,"relative_u":0.03,"points":[[1945.5,0],[1965.5,75],[1985.5,400],[2002.5,545],[2026.5,480]]},{"tracer":"CFC-11","region":"an invented air","source":"invented for this example","background":0,"u_background":0,"relative_u":0.03,"points":[[1950.5,0],[1965.5,30],[1993.5,268],[2026.5,215]]}],"tracers":[{"tracer":"3H","value":0.9,"u":0.08,"unit":"TU","critical":0.13},{"tracer":"14C","value":0.41,"u":0.003,"unit":"F14C"},{"tracer":"CFC-12","value":90,"u":15,"unit":"fmol/kg"},{"tracer":"CFC-11","value":20,"u":15,"unit":"fmol/kg"}],"recharge":{"temperature_C":9,"u_temperature_C":0.8,"height_m":120,"u_height_m":40,"excess_air_cm3STP_kg":2,"u_excess_air_cm3STP_kg":0.5},"redox":{"oxygen_mg_l":0.1,"sulfide":"detected","methane":"not-detected"},"A0":{"from":0.55,"to":0.85},"travel":{"distance_m":6000,"gradient":{"from":0.002,"to":0.006},"formation":"clean sand","porosity":{"from":0.2,"to":0.35}},"candidates":[{"tracer":"3He_tri","relative_u":0.04,"least_u":0.5,"spoilt":0.1,"price":700},{"tracer":"3H","relative_u":0.03,"least_u":0.05,"spoilt":0,"price":300}],"question":"wholly-young","models":["piston","exponential","exponential-piston","exponential-dead"],"draws":4000,"seed":1}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["sampled_year","histories","tracers"],"properties":{"sampled_year":{"type":"number","description":"decimal year"},"histories":{"type":"array","items":{"type":"object","required":["tracer","region","source","background","points"],"properties":{"tracer":{"enum":["3H","SF6","CFC-11","CFC-12","CFC-113","14C"]},"region":{"type":"string"},"source":{"type":"string"},"background":{"type":"number","description":"before the first year: TU, ppt, F14C"},"u_background":{"type":"number"},"relative_u":{"type":"number","description":"where a point has no u of its own"},"points":{"type":"array","items":{"type":"array","description":"year, value, and u where known"}}}}},"tracers":{"type":"array","items":{"type":"object","required":["tracer","u","unit"],"properties":{"tracer":{"type":"string"},"value":{"type":"number"},"below":{"type":"number","description":"in place of value: the bound of a non-detect"},"u":{"type":"number"},"unit":{"type":"string"},"critical":{"type":"number"},"detection_limit":{"type":"number"},"sampled_year":{"type":"number"}}}},"recharge":{"type":"object","description":"temperature_C, height_m, excess_air_cm3STP_kg, each with u_"},"helium":{"type":"object","description":"He_cm3STP_g, Ne_cm3STP_g, ratio_3He_4He, each with u_; half_life_years of the laboratory; bubbles; terrigenic_ratio"},"redox":{"type":"object","description":"oxygen_mg_l; sulfide and methane: detected, not-detected, not-measured"},"A0":{"type":"object","description":"F14C at recharge, from and to"},"models":{"type":"array"},"screen":{"type":"object","description":"thickness_m, top_m, bottom_m below the water table"},"dry_zone_m":{"type":"number"},"travel":{"type":"object","description":"as in the calculation travel"},"candidates":{"type":"array"},"question":{"enum":["before-bomb","part-young","wholly-young"]},"draws":{"type":"integer"},"seed":{"type":"integer"}}}"#,
    run,
};

/// Dry zone from which on clocks differ, m (from memory).
const DRY_ZONE_M: f64 = 10.0;

fn run(input: &Value) -> Result<Value, CalcError> {
    let o = Object::new(input, "")?;
    let sampled_year = o.number("sampled_year")?.ok_or_else(|| missing("sampled_year", "decimal year of sampling"))?;
    let histories = o.list("histories")?.iter().map(history).collect::<Result<Vec<_>, _>>()?;
    let mut measured =
        o.list("tracers")?.iter().map(|t| tracer(t, sampled_year)).collect::<Result<Vec<Measured>, CalcError>>()?;
    let recharge = part(&o, "recharge")?.map(|r| recharge_of(&r)).transpose()?;
    let mut out = Map::new();
    let mut says: Vec<Finding> = histories.iter().flat_map(|h| h.findings(sampled_year)).collect();
    for h in &histories {
        h.check()?;
    }
    let of = |t: Tracer| histories.iter().find(|h| h.tracer == t);
    if let (Some(m), Some(h)) = (measured.iter().find(|m| m.tracer == Tracer::Tritium), of(Tracer::Tritium)) {
        let class = classify(m, h)?;
        says.push(class.finding.clone());
        let roots = if m.detected() { piston_ages(m.number(), sampled_year, h)? } else { vec![] };
        out.insert("tritium".into(), json!({ "class": class, "piston_ages_years": roots }));
    }
    if let Some(h) = part(&o, "helium")? {
        let age = helium(&h, &measured, recharge.as_ref())?;
        out.insert("helium".into(), json!(age));
        let (value, u) = (age.tritiogenic_tu.value, age.tritiogenic_tu.u);
        measured.push(Measured::new(Tracer::Helium3, Level::Value { value, u }, "TU", Some(sampled_year))?);
    }
    let redox: Redox = match o.map.get("redox") {
        Some(v) => serde_json::from_value(v.clone())
            .map_err(|e| CalcError::refused("redox", e, "oxygen_mg_l, sulfide and methane"))?,
        None => Redox::default(),
    };
    let (observations, gases) = gate(measured, &histories, &redox, recharge.as_ref(), &mut says)?;
    out.insert("gases".into(), json!(gases));
    if let Some(thickness) = o.number("dry_zone_m")?.filter(|z| *z > DRY_ZONE_M) {
        let thickness = Shown::as_given(thickness, "m");
        says.push(Finding::new(Check::AquiferAge, Outcome::NotMet, said::DryZone { thickness }));
    }
    let sample = Sample {
        observations,
        recharge,
        a0: part(&o, "A0")?.map(|r| Ok::<_, CalcError>((needed(&r, "from")?, needed(&r, "to")?))).transpose()?,
        draws: o.whole("draws")?.map_or(DRAWS, |d| d as usize),
        seed: o.whole("seed")?.unwrap_or(1),
    };
    let sources: Vec<String> = histories.iter().map(used).collect();
    let kinds = kinds(&o)?;
    let screen = part(&o, "screen")?
        .map(|s| {
            Ok::<_, CalcError>(Screen {
                thickness_m: needed(&s, "thickness_m")?,
                top_m: needed(&s, "top_m")?,
                bottom_m: needed(&s, "bottom_m")?,
            })
        })
        .transpose()?;
    let tables = Tables::new(&Setting { sampled_year, histories, screen, kinds })?;
    let fitted = fit(&tables, &sample)?;
    says.extend(findings(&fitted));
    together(&o, &fitted, &tables, &sample, &mut says, &mut out)?;
    out.insert("findings".into(), json!(says));
    out.insert("histories".into(), json!(sources));
    out.insert("method".into(), json!("lumped-parameter models, tracers fitted jointly; Monte Carlo, importance-weighted; union over the models that are not rejected at 0.05"));
    out.insert(
        "sources".into(),
        json!([
            "Maloszewski & Zuber 1982, 1996 (formulas recalled, each integrated)",
            "Lucas & Unterweger 2000 (half-life of tritium)",
            "Warner & Weiss 1985; Bu & Warner 1995; Bullister et al. 2002 (solubility)",
            "JCGM 101:2008"
        ]),
    );
    out.insert("warnings".into(), json!(warnings()));
    Ok(known(Value::Object(out)))
}

/// Without what is not known: an answer leaves it out.
fn known(v: Value) -> Value {
    match v {
        Value::Object(map) => {
            map.into_iter().filter(|(_, v)| !v.is_null()).map(|(k, v)| (k, known(v))).collect::<Map<_, _>>().into()
        }
        Value::Array(items) => items.into_iter().map(known).collect(),
        other => other,
    }
}

/// What stands beside every age.
fn warnings() -> Vec<String> {
    let years = |x: f64| Shown::as_given(x, "a");
    let carbon = std::f64::consts::LN_2 / decay_of(Tracer::Carbon14);
    let half_lives = said::HalfLives {
        tritium: Shown::significant(half_life_years(), 5, "a"),
        carbon: Shown::significant(carbon, 4, "a"),
    };
    let all: [Message; 3] =
        [said::Prior { low: years(AGES.0), high: years(AGES.1) }.into(), half_lives.into(), said::NoProof.into()];
    all.iter().map(Message::in_english).collect()
}

fn used(h: &History) -> String {
    let message: Message = said::HistoryUsed {
        tracer: h.tracer.sign().into(),
        region: h.region.clone().into(),
        source: h.source.clone().into(),
    }
    .into();
    message.in_english()
}

/// Models, union, verdicts, the two most unlike models, Darcy, what to measure next.
fn together(
    o: &Object,
    fitted: &Fit,
    tables: &Tables,
    sample: &Sample,
    says: &mut Vec<Finding>,
    out: &mut Map<String, Value>,
) -> Result<(), CalcError> {
    out.insert("models".into(), fitted.models.iter().map(model).collect());
    out.insert("disturbed".into(), json!(fitted.disturbed));
    out.insert("union".into(), json!(union(fitted)));
    let verdicts = Question::ALL.map(|q| verdict(fitted, q));
    says.extend(verdicts.iter().map(|v| v.finding.clone()));
    out.insert("verdicts".into(), json!(verdicts));
    if let Some(u) = most_unlike(fitted, tables, sample)? {
        let name = |k: Kind| -> Message { said::ModelName { model: k.name().into() }.into() };
        let share = |x: f64| message::Share::new(x, message::Digits::Trimmed(2));
        let message = said::MostUnlike {
            first: name(u.first),
            second: name(u.second),
            low: share(u.young.0),
            high: share(u.young.1),
            tracer: u.tracer.sign().into(),
        };
        says.push(Finding::new(Check::AquiferAge, Outcome::NotKnown, message));
        out.insert("most_unlike".into(), json!(u));
    }
    if let Some(t) = part(o, "travel")? {
        let darcy = travel_time_draws(&path_of(&t)?.0, Draws { draws: sample.draws, seed: sample.seed })?;
        out.insert("comparison".into(), json!(against_darcy(fitted, &darcy)));
    }
    // Where every model is rejected there is no posterior to rank by, and that is said already.
    let standing = fitted.models.iter().any(|m| !m.rejected);
    if let Some(list) = o.map.get("candidates").filter(|_| standing) {
        let candidates: Vec<Candidate> = serde_json::from_value(list.clone())
            .map_err(|e| CalcError::refused("candidates", e, "tracer, relative_u, least_u, spoilt, price"))?;
        let question = o.text("question").unwrap_or("part-young");
        let question = Question::ALL
            .into_iter()
            .find(|q| json!(q) == question)
            .ok_or_else(|| CalcError::refused("question", question, "before-bomb, part-young or wholly-young"))?;
        let ranking = rank(fitted, tables, sample, &candidates, question)?;
        if ranking.no_preference {
            says.push(Finding::new(Check::AquiferAge, Outcome::NotKnown, said::NoPreference));
        }
        out.insert("next".into(), json!(ranking));
    }
    Ok(())
}

/// A model as the answer has it.
fn model(m: &ModelFit) -> Value {
    let (tested, chi2, dof, p) = match m.tested {
        Tested::NotDetermined => ("not-determined", None, None, None),
        Tested::ByConstruction => ("fits-by-construction", None, None, None),
        Tested::ChiSquared { chi2, dof, p } => ("tested", Some(chi2), Some(dof), Some(p)),
    };
    json!({
        "model": m.kind.name(), "tested": tested, "chi2": chi2, "dof": dof, "p": p, "rejected": m.rejected,
        "weight": m.weight, "effective_draws": m.effective_draws, "T_years": m.t_years, "ranges_years": m.ranges_years,
        "young": m.young, "AICc": m.aicc, "best": m.best,
    })
}

/// CFCs by what the water holds, gases by what the air had; what is refused is said, never dropped in silence.
fn gate(
    measured: Vec<Measured>,
    histories: &[History],
    redox: &Redox,
    recharge: Option<&Recharge>,
    says: &mut Vec<Finding>,
) -> Result<(Vec<Observation>, Map<String, Value>), CalcError> {
    let (mut observations, mut gases) = (vec![], Map::new());
    for m in measured {
        let (use_, why) = admitted(m.tracer, redox);
        says.extend(why);
        let mut side = if use_ == Use::NotOlderThan { Side::AtLeast } else { Side::Both };
        let mut refused = use_ == Use::Refused;
        if m.tracer.is_gas() {
            let mut of = json!({ "use": use_ });
            let history = histories.iter().find(|h| h.tracer == m.tracer);
            if let (Some(r), Some(h), false) = (recharge, history, refused) {
                let (x, u) = mixing_ratio(m.tracer, m.number(), m.u(), r)?;
                if let Err(reason) = within_air(m.tracer, (x, u), h) {
                    says.push(Finding::new(Check::AquiferAge, Outcome::NotMet, reason.said()));
                    refused = true;
                    of["use"] = json!(Use::Refused);
                } else {
                    of["air_ppt"] = json!(WithU { value: x, u });
                    of["years"] = json!(years_of(x, m.sampled_year, h));
                }
            }
            // Taken apart and not seen: nothing is left that it could say.
            if use_ == Use::NotOlderThan && !m.detected() {
                refused = true;
            }
            gases.insert(m.tracer.sign().into(), of);
        }
        if matches!(m.level, Level::Below { .. }) {
            side = Side::Both;
        }
        if !refused {
            observations.push(Observation { measured: m, side });
        }
    }
    Ok((observations, gases))
}

fn kinds(o: &Object) -> Result<Vec<Kind>, CalcError> {
    match o.map.get("models") {
        None | Some(Value::Null) => Ok(Kind::ALL.to_vec()),
        Some(v) => serde_json::from_value(v.clone())
            .map_err(|e| CalcError::refused("models", e, Kind::ALL.map(Kind::name).join(", "))),
    }
}

fn missing(key: &str, what: &str) -> CalcError {
    CalcError::refused(key, "nothing", what)
}

/// An object under a key, where there is one.
fn part<'a>(o: &Object<'a>, key: &str) -> Result<Option<Object<'a>>, CalcError> {
    match o.map.get(key) {
        None | Some(Value::Null) => Ok(None),
        Some(v) => Object::new(v, o.place(key)).map(Some),
    }
}

fn needed(o: &Object, key: &str) -> Result<f64, CalcError> {
    o.number(key)?.ok_or_else(|| missing(&o.place(key), "a number"))
}

/// A number with its u beside it.
fn with_u(o: &Object, key: &str) -> Result<WithU, CalcError> {
    Ok(WithU { value: needed(o, key)?, u: needed(o, &format!("u_{key}"))? })
}

fn tracer_named(o: &Object) -> Result<Tracer, CalcError> {
    let sign = o.text("tracer").unwrap_or_default();
    Tracer::by_sign(sign).ok_or_else(|| {
        CalcError::refused(o.place("tracer"), sign, format!("one of {}", Tracer::ALL.map(Tracer::sign).join(", ")))
    })
}

fn tracer(o: &Object, sampled_year: f64) -> Result<Measured, CalcError> {
    let u = needed(o, "u")?;
    let level = match (o.number("value")?, o.number("below")?) {
        (Some(value), None) => Level::Value { value, u },
        (None, Some(limit)) => Level::Below { limit, u },
        _ => return Err(CalcError::refused(&o.path, "none or both", "one of value and below")),
    };
    let unit = o.text("unit").unwrap_or_default();
    let of = tracer_named(o)?;
    let mut m = Measured::new(of, level, unit, Some(o.number("sampled_year")?.unwrap_or(sampled_year)))?;
    // In the unit of the value, as it was given.
    let factor = of.units().into_iter().find(|(name, _)| *name == unit).map_or(1.0, |(_, f)| f);
    m.critical = o.number("critical")?.map(|x| x * factor);
    m.detection_limit = o.number("detection_limit")?.map(|x| x * factor);
    Ok(m)
}

fn history(o: &Object) -> Result<History, CalcError> {
    let relative_u = o.number("relative_u")?;
    let rows = o.map.get("points").and_then(Value::as_array).cloned().unwrap_or_default();
    let points = rows
        .iter()
        .enumerate()
        .map(|(i, row)| {
            let place = || format!("{}[{i}]", o.place("points"));
            let n = |k: usize| row.get(k).and_then(Value::as_f64);
            match (n(0), n(1), n(2).or(relative_u.and_then(|r| n(1).map(|v| r * v)))) {
                (Some(year), Some(value), Some(u)) => Ok(Point { year, value, u }),
                _ => Err(CalcError::refused(place(), row, "year, value, and u (or relative_u of the history)")),
            }
        })
        .collect::<Result<Vec<_>, CalcError>>()?;
    let background = o
        .number("background")?
        .map(|value| {
            Ok::<_, CalcError>(WithU {
                value,
                u: o.number("u_background")?.or(relative_u.map(|r| r * value)).unwrap_or(0.0),
            })
        })
        .transpose()?;
    let text = |key: &str| o.text(key).unwrap_or_default().to_string();
    Ok(History { tracer: tracer_named(o)?, region: text("region"), source: text("source"), points, background })
}

fn recharge_of(o: &Object) -> Result<Recharge, CalcError> {
    let air = "excess_air_cm3STP_kg";
    Ok(Recharge {
        temperature_c: with_u(o, "temperature_C")?,
        height_m: with_u(o, "height_m")?,
        excess_air_cm3_kg: o.number(air)?.map(|_| with_u(o, air)).transpose()?,
    })
}

fn helium(o: &Object, measured: &[Measured], recharge: Option<&Recharge>) -> Result<HeliumAge, CalcError> {
    let tritium = measured
        .iter()
        .find(|m| m.tracer == Tracer::Tritium)
        .ok_or_else(|| missing("tracers", "tritium beside helium: the age is that of both"))?;
    let recharge = recharge.ok_or_else(|| missing("recharge", "temperature_C and height_m"))?;
    let ratio = "terrigenic_ratio";
    let sample = HeliumSample {
        helium: with_u(o, "He_cm3STP_g")?,
        neon: with_u(o, "Ne_cm3STP_g")?,
        ratio: with_u(o, "ratio_3He_4He")?,
        temperature_c: recharge.temperature_c,
        height_m: recharge.height_m,
        terrigenic_ratio: o.number(ratio)?.map(|_| with_u(o, ratio)).transpose()?,
        bubbles: o.map.get("bubbles").and_then(Value::as_bool).unwrap_or(false),
        half_life_years: o.number("half_life_years")?,
    };
    Ok(helium_age(&sample, tritium)?)
}
