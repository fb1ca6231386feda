//! `speciation` and `titration` as the command line offers them: JSON in, JSON out.
//!
//! Keys are those of the command-line contract; more are welcome and named in the schema. What
//! the schema does not name is refused with its path. Numbers leave as computed: rounding to u
//! is the business of who shows them. A value that follows from a non-detect carries
//! `"bound":"upper"`. Checked in `tests/calc.rs`.

use crate::analysis::{Analysis, Analyte, Fraction};
use crate::balance::{Answer, Balance, Formula, Rule, Side};
use crate::constants::{Constant, Temperature};
use crate::electrons::electrons;
use crate::equilibrium::Hold;
use crate::network::{ELECTRON, network};
use crate::odour::{self, Reach};
use crate::organic;
use crate::speciation::{Request, Speciation, speciation};
use crate::titration::{Point, Titration, evaluate};
use crate::uncertainty::Interval;
use crate::water::{density_kg_l, solution_density_kg_l};
use message::Message;
use quantity::{Amount, CalcError, Calculation};
use serde_json::{Map, Value, json};

/// What this crate offers to the command line.
pub const CALCULATIONS: &[Calculation] = &[
    Calculation {
        name: "speciation",
        about: "What a water is: species, saturation indices, gases, redox couples, checks of the analysis",
        example: include_str!("example_speciation.json"),
        schema: include_str!("schema_speciation.json"),
        run: run_speciation,
    },
    Calculation {
        name: "titration",
        about: "Alkalinity from a titration with strong acid, by Gran's function and by the derivative",
        example: include_str!("example_titration.json"),
        schema: include_str!("schema_titration.json"),
        run: run_titration,
    },
];

type Fields = Map<String, Value>;

fn object<'v>(v: &'v Value, at: &str) -> Result<&'v Fields, CalcError> {
    v.as_object().ok_or_else(|| CalcError::refused(at, kind(v), "an object"))
}

fn kind(v: &Value) -> String {
    let text = v.to_string();
    if text.len() > 60 { format!("{}…", text.chars().take(60).collect::<String>()) } else { text }
}

fn known(o: &Fields, names: &[&str], at: &str) -> Result<(), CalcError> {
    for k in o.keys() {
        if !names.contains(&k.as_str()) {
            let path = if at.is_empty() { k.clone() } else { format!("{at}.{k}") };
            return Err(CalcError::refused(path, "a key that is not known", format!("one of {}", names.join(", "))));
        }
    }
    Ok(())
}

fn number(o: &Fields, key: &str) -> Result<Option<f64>, CalcError> {
    match o.get(key) {
        None | Some(Value::Null) => Ok(None),
        Some(v) => match v.as_f64() {
            Some(x) if x.is_finite() => Ok(Some(x)),
            _ => Err(CalcError::refused(key, kind(v), "a number")),
        },
    }
}

fn needed(o: &Fields, key: &str, unit: &str) -> Result<f64, CalcError> {
    number(o, key)?.ok_or_else(|| CalcError::refused(key, "nothing", format!("a number in {unit}")))
}

fn texts(o: &Fields, key: &str) -> Result<Vec<String>, CalcError> {
    let Some(v) = o.get(key) else { return Ok(vec![]) };
    v.as_array()
        .map(|a| a.iter().filter_map(|x| x.as_str().map(String::from)).collect())
        .ok_or_else(|| CalcError::refused(key, kind(v), "a list of texts"))
}

const SPECIATION_KEYS: &[&str] = &[
    "temperature_C",
    "pH",
    "u_pH",
    "pH_from",
    "laboratory_pH",
    "Eh_mV",
    "conductivity_uS_cm",
    "dissolved_solids_mg_L",
    "oxygen_floor_mg_L",
    "charge_balance_rule",
    "analytes",
    "hold",
    "couple",
    "draws",
    "seed",
    "metal_bisulfides",
    "well_house",
    "open_bottle",
    "sample",
];

/// Reads a request.
///
/// # Errors
/// [`CalcError::Refused`] with the path of what cannot be read.
pub fn request(v: &Value) -> Result<Request, CalcError> {
    let o = object(v, "input")?;
    known(o, SPECIATION_KEYS, "")?;
    let ph = number(o, "pH")?;
    match (o.get("pH_from").and_then(Value::as_str), ph) {
        (Some("charge"), None) | (None, Some(_)) => {}
        (Some("charge"), Some(_)) => {
            return Err(CalcError::refused("pH_from", "pH as well", "either pH or \"pH_from\":\"charge\""));
        }
        (Some(other), _) => return Err(CalcError::refused("pH_from", other, "\"charge\"")),
        (None, None) => {
            return Err(CalcError::refused("pH", "nothing", "a pH from 0 to 14, or \"pH_from\":\"charge\""));
        }
    }
    let analytes = match o.get("analytes") {
        None => vec![],
        Some(v) => v
            .as_array()
            .ok_or_else(|| CalcError::refused("analytes", kind(v), "a list"))?
            .iter()
            .enumerate()
            .map(|(k, a)| analyte(a, &format!("analytes[{k}]")))
            .collect::<Result<_, _>>()?,
    };
    let hold = match o.get("hold") {
        None => vec![],
        Some(v) => v
            .as_array()
            .ok_or_else(|| CalcError::refused("hold", kind(v), "a list"))?
            .iter()
            .enumerate()
            .map(|(k, h)| hold(h, &format!("hold[{k}]")))
            .collect::<Result<_, _>>()?,
    };
    let whole = |key: &str| -> Result<u64, CalcError> {
        let x = number(o, key)?.unwrap_or(0.0);
        // JSON numbers are f64: above 2^53, about 9e15, whole numbers are no longer exact.
        if x >= 0.0 && x.fract() == 0.0 && x < 9e15 {
            Ok(x as u64)
        } else {
            Err(CalcError::refused(key, x, "a whole number, 0 and above"))
        }
    };
    Ok(Request {
        analysis: Analysis {
            temperature_c: needed(o, "temperature_C", "°C")?,
            ph,
            u_ph: number(o, "u_pH")?,
            laboratory_ph: number(o, "laboratory_pH")?,
            eh_mv: number(o, "Eh_mV")?,
            conductivity_us_cm: number(o, "conductivity_uS_cm")?,
            dissolved_solids_mg_l: number(o, "dissolved_solids_mg_L")?,
            oxygen_floor_mg_l: number(o, "oxygen_floor_mg_L")?,
            balance_rule: balance_rule(o)?,
            analytes,
        },
        hold,
        coupled: texts(o, "couple")?,
        draws: whole("draws")? as usize,
        seed: whole("seed")?,
        without_bisulfides: o.get("metal_bisulfides").and_then(Value::as_bool) == Some(false),
    })
}

fn balance_rule(o: &Fields) -> Result<Rule, CalcError> {
    let Some(v) = o.get("charge_balance_rule") else { return Ok(Rule::default()) };
    let refused = || CalcError::refused("charge_balance_rule", kind(v), format!("one of {}", Rule::keys().join(", ")));
    v.as_str().and_then(Rule::named).ok_or_else(refused)
}

fn analyte(v: &Value, at: &str) -> Result<Analyte, CalcError> {
    let o = object(v, at)?;
    known(o, &["name", "value", "u", "dof", "below", "above", "unit", "fraction"], at)?;
    let name = o
        .get("name")
        .and_then(Value::as_str)
        .ok_or_else(|| CalcError::refused(format!("{at}.name"), "nothing", "the analyte's name"))?;
    let mut rest = o.clone();
    rest.remove("name");
    let fraction = match rest.remove("fraction") {
        None => None,
        Some(Value::String(s)) if s == "unfiltered" => Some(Fraction::Unfiltered),
        Some(Value::Number(n)) => n.as_f64().map(Fraction::FilteredUm),
        Some(other) => {
            return Err(CalcError::refused(
                format!("{at}.fraction"),
                kind(&other),
                "\"unfiltered\" or a pore size in µm",
            ));
        }
    };
    let amount: Amount = serde_json::from_value(Value::Object(rest)).map_err(|e| {
        CalcError::refused(at, e, "{\"value\":…,\"u\":…,\"unit\":\"mg/L\"} or {\"below\":…,\"unit\":…}")
    })?;
    Ok(Analyte { name: name.into(), amount, fraction })
}

fn hold(v: &Value, at: &str) -> Result<Hold, CalcError> {
    let o = object(v, at)?;
    known(o, &["solid", "saturation_index", "gas", "log10_p_atm", "available_mol_kg"], at)?;
    let text = |k: &str| o.get(k).and_then(Value::as_str);
    let available = number(o, "available_mol_kg")?.unwrap_or(f64::INFINITY);
    if available < 0.0 {
        return Err(CalcError::refused(format!("{at}.available_mol_kg"), available, "0 and above, mol/kg"));
    }
    let (name, target) = match (text("solid"), text("gas")) {
        (Some(s), None) => (s, number(o, "saturation_index")?.unwrap_or(0.0)),
        (None, Some(g)) => (
            g,
            number(o, "log10_p_atm")?.ok_or_else(|| {
                CalcError::refused(format!("{at}.log10_p_atm"), "nothing", "log10 of the pressure in atm")
            })?,
        ),
        _ => {
            return Err(CalcError::refused(
                at,
                kind(v),
                "either \"solid\" with saturation_index or \"gas\" with log10_p_atm",
            ));
        }
    };
    if !(-30.0..=3.0).contains(&target) {
        return Err(CalcError::refused(at, target, "a saturation index or log10 p between -30 and 3"));
    }
    Ok(Hold { name: name.into(), target, available_mol_kg: available })
}

/// The path of the analyte that an error speaks of.
fn located(e: crate::Error, r: &Request) -> CalcError {
    use crate::Error as E;
    let quantity = match &e {
        E::OutOfRange { quantity, .. } | E::Unclear { quantity, .. } | E::Contradiction { quantity, .. } => {
            quantity.in_english()
        }
        _ => String::new(),
    };
    let found = if let E::Unclear { found, .. } = &e { found.in_english() } else { String::new() };
    let at = r.analysis.analytes.iter().position(|a| a.name == quantity || a.name == found);
    match (at, quantity.as_str()) {
        (Some(k), _) => e.at(&format!("analytes[{k}]")),
        (None, "temperature") => e.at("temperature_C"),
        (None, "pH") => e.at("pH"),
        (None, "Eh") => e.at("Eh_mV"),
        (None, "pH from charge") => e.at("pH_from"),
        (None, "solid or gas") => e.at("hold"),
        (None, "redox couple") => e.at("couple"),
        _ => e.at("input"),
    }
}

fn run_speciation(v: &Value) -> Result<Value, CalcError> {
    let o = object(v, "input")?;
    if o.contains_key("rows") {
        return crate::survey::run_table(v);
    }
    let r = request(v)?;
    let s = speciation(&r).map_err(|e| located(e, &r))?;
    let mut out = answer(&s);
    if let Some(h) = o.get("well_house") {
        out["well_house"] = well_house(h, &s)?;
    }
    if o.get("open_bottle").and_then(Value::as_bool) == Some(true) {
        out["open_bottle"] = open_bottle(&s)?;
    }
    Ok(out)
}

/// The answer as JSON.
pub fn answer(s: &Speciation) -> Value {
    let e = &s.equilibrium;
    let mut out = json!({
        "pH": e.ph(),
        "temperature_C": e.temperature_c,
        "density_kg_L": solution_density_kg_l(e.temperature_c, e.solution.ionic_strength),
        "ionic_strength_mol_kg": e.solution.ionic_strength,
        "charge_balance_percent": s.balance.as_ref().and_then(Balance::percent),
        "charge_balance": s.balance.as_ref().map(charge_balance),
        "species_charge_percent": s.sums.species_charge_percent,
        "conductivity_uS_cm": s.conductivity_us_cm,
        "conductivity_25C_uS_cm": s.conductivity25_us_cm,
        "alkalinity_mmol_L": s.sums.alkalinity_mmol_l,
        "hardness_mg_L_as_CaCO3": s.sums.hardness_mg_l_as_caco3,
        "carbonate_hardness_mg_L_as_CaCO3": s.sums.carbonate_hardness_mg_l_as_caco3,
        "dissolved_solids_mg_L": s.sums.solids_mg_l,
        "totals": totals(s),
        "species": species(s),
        "saturation": s.saturation.iter().map(|x| json!({
            "solid": x.solid, "saturation_index": x.saturation_index, "u": x.u,
            "interval_95": [finite(x.low), finite(x.high)], "log10_IAP": x.log_iap, "log10_K": x.log_k,
            "word": x.word, "bound": if x.upper_bound { json!("upper") } else { Value::Null },
            "provenance": x.provenance, "temperature_provenance": x.temperature_provenance,
            "contributions": x.contributions.iter().take(5).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "gases": s.gases.iter().map(|(g, p, upper)| json!({
            "gas": g, "log10_p_atm": p, "bound": if *upper { json!("upper") } else { Value::Null },
        })).collect::<Vec<_>>(),
        "redox": s.redox.iter().map(|c| json!({
            "couple": c.name, "Eh_mV": c.eh_mv, "pe": c.pe, "u_mV": c.u_mv,
            "bound": if c.at_limit { json!("an end is a limit") } else { Value::Null }, "provenance": c.provenance,
        })).collect::<Vec<_>>(),
        "rivals": s.alternatives.iter().map(|r| json!({
            "constant": r.constant, "with": r.with, "which": r.which, "log10_K": finite(r.log_k), "source": r.source, "provenance": r.provenance,
            "moved": r.moved.iter().map(|(n, si)| json!({"solid": n, "saturation_index": si})).collect::<Vec<_>>(),
            "shares": r.shares.iter().map(|(n, c, x)| json!({
                "species": n, "element": network().components[*c].label, "share": x,
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "share_of": "the inorganic part",
        "carriers": s.carriers.iter().map(|c| json!({
            "element": network().components[c.component].label, "species": c.species, "share": c.share,
            "share_of_rivals": [c.low, c.high], "answer": if c.told { "told" } else { "cannot be told" },
        })).collect::<Vec<_>>(),
        "organic_binding": organic::bindings(e).iter().map(|(element, b)| json!({
            "element": element, "answer": b.word(), "sentence": b.says().in_english(),
        })).collect::<Vec<_>>(),
        "electron_balance": electron_balance(s),
        "constants": constants(s),
        "refused": s.interpreted.refused,
        "transfers": e.transfers.iter().map(|(n, m)| json!({"phase": n, "dissolved_mol_kg": m})).collect::<Vec<_>>(),
        "iterations": e.solution.iterations,
        "residual": e.solution.residual,
        "findings": s.findings,
        "method": METHOD,
        "sources": SOURCES,
        "warnings": s.warnings.iter().map(Message::in_english).collect::<Vec<_>>(),
    });
    if let Some(eh) = s.eh_measured_mv {
        out["Eh_measured_mV"] = json!(eh);
    }
    let ends = s.redox.iter().fold(None, |a: Option<(f64, f64)>, c| {
        Some(a.map_or((c.eh_mv, c.eh_mv), |(low, high)| (low.min(c.eh_mv), high.max(c.eh_mv))))
    });
    out["redox_disagreement_mV"] = ends.map_or(Value::Null, |(low, high)| json!(high - low));
    if let Some(d) = &s.draws {
        out["draws"] = json!({"made": d.made, "failed": d.failed});
    }
    if let Some(m) = odour::odour(e) {
        out["smell"] = json!({
            "sulfide_mg_L_as_S": m.sulfide_mg_l_as_s, "H2S_share": m.h2s_share, "H2S_ng_L": m.h2s_ng_l, "air_ppm": m.air_ppm,
            "thresholds": m.times.iter().map(|(t, x)| json!({
                "in": t.medium, "threshold": t.threshold, "unit": t.unit, "what": t.what, "times": x,
                "source": t.source, "provenance": t.provenance,
            })).collect::<Vec<_>>(),
            "caution": odour::CAUTION,
        });
    }
    out
}

/// Electrons of the analysis, beside its charges; no check.
fn electron_balance(s: &Speciation) -> Value {
    let e = electrons(&s.interpreted, density_kg_l(s.equilibrium.temperature_c));
    let side = |x: &Side| json!({"meq_L": x.meq_l, "u": x.u, "not_detected_up_to": finite(x.open)});
    json!({
        "oxidants": side(&e.oxidants), "sulfate_to_sulfide": side(&e.sulfate), "reductants": side(&e.reductants),
        "not_looked_for": e.not_looked_for,
        "says": "electrons that would be taken up and given away; no check: the sums need not be equal, and organic carbon is not counted",
    })
}

/// Rows of the table behind what is shown: each solid's own, and those of species that hold a hundredth of a component.
fn constants(s: &Speciation) -> Vec<Value> {
    let (e, table) = (&s.equilibrium, crate::constants::table());
    let mut rows: Vec<usize> = Vec::new();
    for (sp, m) in e.system.species.iter().zip(&e.solution.molality) {
        let holds = |(c, n): &(usize, f64)| *c > ELECTRON && n * m > 0.01 * e.total(*c);
        if sp.terms.iter().any(holds) {
            rows.extend(sp.recipe.iter().map(|(r, _)| *r));
        }
    }
    for x in &s.saturation {
        let solid = network().solids.iter().find(|p| p.name == x.solid);
        rows.extend(solid.into_iter().flat_map(|p| p.recipe.iter().map(|(r, _)| *r)));
    }
    rows.sort_unstable();
    rows.dedup();
    rows.into_iter().map(|r| constant(&table[r], e.temperature_c)).collect()
}

fn constant(c: &Constant, t_c: f64) -> Value {
    let (form, u_enthalpy) = match c.temperature {
        Temperature::Fit(_) => ("published fit", None),
        Temperature::Enthalpy { u_kj, .. } => ("enthalpy", Some(u_kj)),
        Temperature::Unknown => ("none", None),
    };
    let source = if c.temperature_source.is_empty() { &c.source } else { &c.temperature_source };
    json!({
        "name": c.name, "reaction": c.reaction, "log10_K_25C": c.log_k25, "u_25C": c.u, "source": c.source,
        "provenance": c.provenance.word(), "log10_K": c.log_k(t_c), "u": c.u_at(t_c),
        "temperature_term": form, "formula": c.formula(),
        "delta_r_H_kJ_mol": c.enthalpy_kj(25.0), "u_delta_r_H_kJ_mol": u_enthalpy, "delta_r_Cp_J_mol_K": c.heat_capacity_j(25.0),
        "temperature_source": source, "temperature_provenance": c.temperature_provenance.word(),
    })
}

fn charge_balance(b: &Balance) -> Value {
    let (low, high) = b.range_percent();
    let judged = b.judged();
    let mut missing: Vec<&str> = b.lacking.clone();
    if b.lacks_carbon {
        missing.push("alkalinity");
    }
    json!({
        "cations_meq_L": b.cations.meq_l, "anions_meq_L": b.anions.meq_l,
        "u_cations_meq_L": b.cations.u, "u_anions_meq_L": b.anions.u, "u_assumed": b.u_assumed,
        "low_percent": low, "high_percent": high, "u_percent": b.u_percent(), "missing": missing,
        "rule": b.rule.key, "source": b.rule.source,
        "formula": match b.rule.formula {
            Formula::Sum => "100 (cations - anions)/(cations + anions)",
            Formula::HalfSum => "100 (cations - anions)/(half of cations + anions)",
        },
        "gate": judged.gate.width, "gate_unit": if judged.gate.in_meq_l { "meq/L" } else { "%" },
        "answer": match judged.answer {
            Answer::Inside => "inside",
            Answer::Beyond => "beyond",
            Answer::CannotTell => "cannot tell",
        },
    })
}

const METHOD: &str = "Newton on the logarithms of component activities; extended Debye–Hückel (nine ions), Davies 0.3 (other ions), 0.1·I (neutral); redox couples apart unless closed; u to first order over analysis and constants, alternatives included";
const SOURCES: &[&str] = &[
    "reference/aqueous_constants.csv: each row names its source and whether it was seen or recalled",
    "Truesdell & Jones 1974, J. Res. USGS 2:233 (ion parameters; from memory)",
    "Davies 1962, Ion Association (from memory)",
];

fn finite(x: f64) -> Value {
    if x.is_finite() { json!(x) } else { Value::Null }
}

fn totals(s: &Speciation) -> Vec<Value> {
    let e = &s.equilibrium;
    e.system
        .components
        .iter()
        .zip(&e.totals)
        .filter(|(c, _)| **c > ELECTRON)
        .map(|(c, t)| {
            let bound = s.interpreted.at_limit(*c);
            json!({"element": network().components[*c].label, "molality": t, "bound": if bound { json!("upper") } else { Value::Null }})
        })
        .collect()
}

fn species(s: &Speciation) -> Vec<Value> {
    let e = &s.equilibrium;
    let net = network();
    let mut out = Vec::new();
    for (i, sp) in e.system.species.iter().enumerate() {
        let m = e.solution.molality[i];
        let log_gamma = e.solution.log_gamma[i];
        let one = |element: &str, share: Value, interval: Option<&Interval>| {
            let mut v = json!({
                "name": sp.name, "molality": m, "activity": m * libm::exp10(log_gamma),
                "log10_gamma": log_gamma, "element": element, "share": share,
            });
            if let Some(i) = interval {
                v["share_interval_95"] = json!([i.low, i.high]);
            }
            v
        };
        // A species stands once for each component in it, so that the shares of a component add up to 1.
        let mut any = false;
        for (c, n) in sp.terms.iter().filter(|(c, _)| *c > ELECTRON) {
            any = true;
            let interval = s
                .draws
                .as_ref()
                .and_then(|d| d.shares.get(i))
                .and_then(|v| v.iter().find(|(j, _)| j == c))
                .map(|(_, i)| i);
            out.push(one(&net.components[*c].label, finite(n * m / e.total(*c)), interval));
        }
        if !any {
            out.push(one("H", Value::Null, None));
        }
    }
    out
}

fn well_house(v: &Value, s: &Speciation) -> Result<Value, CalcError> {
    let o = object(v, "well_house")?;
    known(o, &["flow_L_min", "volume_m3", "air_changes_per_h"], "well_house")?;
    let house = odour::WellHouse {
        flow_l_min: needed(o, "flow_L_min", "L/min")?,
        volume_m3: needed(o, "volume_m3", "m³")?,
        air_changes_per_h: number(o, "air_changes_per_h")?.unwrap_or(0.0),
    };
    let doubt = s.sulfide.unwrap_or_default();
    let air = odour::house_air(&s.equilibrium, &doubt, &house).map_err(|e| e.at("well_house"))?;
    let Some(a) = air else {
        return Ok(
            json!({"not_known": "no sulfide was measured: nothing is said of the air", "caution": odour::CAUTION}),
        );
    };
    let bound = if a.upper_bound { json!("upper") } else { Value::Null };
    Ok(json!({
        "brought_mg_min": a.brought_mg_min, "u_brought_mg_min": a.u_brought_mg_min,
        "ceiling_ppm": a.ceiling_ppm, "u_ceiling_ppm": a.u_ceiling_ppm,
        "all_as_H2S_ppm": a.all_as_h2s_ppm, "warm_ppm": a.warm_ppm, "highest_ppm": a.highest_ppm,
        "at_rest_ppm": a.at_rest_ppm, "bound": bound,
        "limits": a.limits.iter().map(|l| json!({
            "body": l.body, "level": l.level, "ppm": l.ppm, "minutes": l.minutes, "provenance": l.provenance,
            "answer": match l.reach {
                Reach::Reached => "reached",
                Reach::CannotTell => "cannot tell",
                Reach::NotByThis => "not reached by this analysis",
            },
        })).collect::<Vec<_>>(),
        "assumptions": [
            "all sulfide leaves the water as H2S and mixes at once, in air at 1 atm",
            "ceiling_ppm: over the water at its own temperature and pH",
            "all_as_H2S_ppm: over the same water with all its sulfide as H2S",
            format!("warm_ppm: that water warmed to {} °C (its own temperature where higher)", odour::WARM_C),
            "highest_ppm: warm_ppm and two standard uncertainties of sulfide and constant; the water of another day may carry more",
        ],
        "caution": odour::CAUTION,
    }))
}

fn open_bottle(s: &Speciation) -> Result<Value, CalcError> {
    let b = odour::open_bottle(&s.equilibrium).map_err(|e| e.at("open_bottle"))?;
    Ok(json!({
        "pH_before": b.ph_before, "pH_after": b.ph_after,
        "calcite_saturation_index_before": b.calcite.0, "calcite_saturation_index_after": b.calcite.1,
        "calcite_mg_L": b.calcite_mg_l, "CO2_leaves_mmol_L": b.co2_leaves_mmol_l, "acid_mmol_L": b.acid_mmol_l,
        "oxygen_taken_mg_L": b.oxygen_mg_l,
        "sulfide_half_time_h": b.half_time_h.map(|(likely, short, long)| json!({"likely": likely, "shortest": short, "longest": long, "source": "Millero et al. 1987, ES&T 21:439 (from memory)"})),
    }))
}

fn run_titration(v: &Value) -> Result<Value, CalcError> {
    let o = object(v, "input")?;
    known(
        o,
        &["sample_mL", "acid_mol_L", "temperature_C", "points", "u_acid_mol_L", "u_sample_mL", "u_burette_mL"],
        "",
    )?;
    let t = titration(o)?;
    let e = evaluate(&t).map_err(|e| {
        let quantity =
            if let crate::Error::OutOfRange { quantity, .. } = &e { quantity.in_english() } else { String::new() };
        let field = match quantity.as_str() {
            "sample volume" => "sample_mL",
            "acid" => "acid_mol_L",
            "temperature" => "temperature_C",
            _ => "points",
        };
        e.at(field)
    })?;
    let mut warnings = Vec::new();
    for (key, what) in
        [("u_acid_mol_L", "acid, 0.5 %"), ("u_sample_mL", "sample volume, 0.5 %"), ("u_burette_mL", "burette, 0.02 mL")]
    {
        if !o.contains_key(key) {
            warnings.push(format!("no u stated for {what} assumed"));
        }
    }
    if let Some(d) = e.derivative_mmol_l
        && (d - e.alkalinity_mmol_l).abs() > 0.05 * e.alkalinity_mmol_l
    {
        warnings.push(format!("the derivative gives {d:.3} mmol/L, more than 5 % from Gran: too few points near the end point, or another acid-base pair"));
    }
    if !e.by_gran {
        warnings
            .push("fewer than three points past the end point: alkalinity is the derivative's, with a wider u".into());
    } else if e.points_used < 4 {
        warnings.push("only three points past the end point: u rests on one degree of freedom".into());
    }
    warnings.push("strong acid: goggles and gloves; pour acid into water".into());
    Ok(json!({
        "alkalinity_mmol_L": e.alkalinity_mmol_l,
        "u": e.u_mmol_l,
        // Half the molar mass of CaCO3 (100.086 g/mol): it takes two protons.
        "alkalinity_mg_L_as_CaCO3": e.alkalinity_mmol_l * 50.043,
        "derivative_alkalinity_mmol_L": e.derivative_mmol_l,
        "end_points": e.end_points.iter().map(|p| json!({"name": p.name, "acid_mL": p.acid_ml, "pH": p.ph})).collect::<Vec<_>>(),
        "points_used": e.points_used,
        "pH_used": [e.ph_used.0, e.ph_used.1],
        "relative_scatter": finite(e.scatter),
        "method": "Gran's function (V0 + V)·10^-pH, weighted line through the points past the end point; derivative beside it",
        "sources": ["Gran 1952, Analyst 77:661 (from memory)"],
        "warnings": warnings,
    }))
}

fn titration(o: &Fields) -> Result<Titration, CalcError> {
    let sample_ml = needed(o, "sample_mL", "mL")?;
    let acid_mol_l = needed(o, "acid_mol_L", "mol/L")?;
    // 10 °C where not stated: a cold groundwater; it enters a correction of a tenth of a percent.
    let temperature_c = number(o, "temperature_C")?.unwrap_or(10.0);
    let list = o
        .get("points")
        .and_then(Value::as_array)
        .ok_or_else(|| CalcError::refused("points", "nothing", "a list of {\"acid_mL\":…,\"pH\":…}"))?;
    let mut points = Vec::with_capacity(list.len());
    for (k, p) in list.iter().enumerate() {
        let at = format!("points[{k}]");
        let p = object(p, &at)?;
        known(p, &["acid_mL", "pH"], &at)?;
        let get =
            |key: &str| number(p, key)?.ok_or_else(|| CalcError::refused(format!("{at}.{key}"), "nothing", "a number"));
        points.push(Point { acid_ml: get("acid_mL")?, ph: get("pH")? });
    }
    // Assumed where not stated: 0.5 % acid and sample, 0.02 mL burette (common practice in the field).
    let u_acid = number(o, "u_acid_mol_L")?.map_or(0.005, |u| u / acid_mol_l);
    Ok(Titration {
        sample_ml,
        acid_mol_l,
        temperature_c,
        points,
        u_acid_relative: u_acid,
        u_sample_ml: number(o, "u_sample_mL")?.unwrap_or(0.005 * sample_ml),
        u_burette_ml: number(o, "u_burette_mL")?.unwrap_or(0.02),
    })
}
