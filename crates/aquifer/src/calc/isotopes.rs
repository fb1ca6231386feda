//! `isotopes`: water isotopes, noble gases, carbon-14 and chloride of one well: where its water fell, and when.

use super::read::Object;
use crate::Reason;
use crate::age::WithU;
use crate::age::carbon14::{self, Carbon, Reported, percent_modern_alone, years_without_half_life};
use crate::age::chloride::{self, Balance, Runoff};
use crate::age::gases::Found;
use crate::age::isotopes::{
    Line, Rain, Slope, Todays, Water, beside_line, local_line, no_scale, readings, summer_ratio,
};
use crate::age::noble::{self, Gas, Gases, Lapse, MeasuredGas, height_line};
use crate::age::seasons::{Dated, wave, young_water};
use crate::age::tritium::Month;
use message::Message;
use quantity::{CalcError, Calculation};
use serde_json::{Map, Value, json};

pub(super) const ISOTOPES: Calculation = Calculation {
    name: "isotopes",
    about: "where and when the water of a well fell, by water isotopes, noble gases, carbon-14 and chloride",
    example: r#"{"scale":"VSMOW","water":{"d18O":-10.1,"u_d18O":0.1,"d2H":-71.2,"u_d2H":1.0},"rain":[{"d18O":-13.2,"u_d18O":0.1,"d2H":-96.0,"u_d2H":1.0,"amount_mm":60,"winter":true},{"d18O":-12.1,"u_d18O":0.1,"d2H":-87.5,"u_d2H":1.0,"amount_mm":55,"winter":true},{"d18O":-7.4,"u_d18O":0.1,"d2H":-50.3,"u_d2H":1.0,"amount_mm":80,"winter":false},{"d18O":-6.8,"u_d18O":0.1,"d2H":-45.1,"u_d2H":1.0,"amount_mm":75,"winter":false}],"winter":{"d18O":-12.6,"u_d18O":0.3},"summer":{"d18O":-7.1,"u_d18O":0.3},"slope":{"height_m":60,"d18O":-9.6,"u_d18O":0.2},"noble_gases":{"height_m":120,"bubbles":false,"gases":[{"gas":"Ne","nmol_kg":11.2,"u_nmol_kg":0.11},{"gas":"Ar","umol_kg":18.6,"u_umol_kg":0.19},{"gas":"Kr","nmol_kg":4.31,"u_nmol_kg":0.04},{"gas":"Xe","nmol_kg":0.62,"u_nmol_kg":0.006},{"gas":"He","nmol_kg":14.0,"u_nmol_kg":0.3}],"heights_m":[0,200,400],"lapse":{"height_m":60,"temperature_C":8.9,"K_per_km":-6.5}},"carbon_14":{"pMC":42.0,"u_pMC":0.3,"pMC_is":"100 F14C","d13C":-13.4,"u_d13C":0.2,"CO2_mmol_kg":0.35,"u_CO2_mmol_kg":0.03,"HCO3_mmol_kg":4.2,"u_HCO3_mmol_kg":0.05,"temperature_C":9,"u_temperature_C":1,"sulfide_mmol_kg":0.02,"u_sulfide_mmol_kg":0.002,"methane":"not-detected","tritium":"not-detected"},"chloride":{"rain_mm_a":700,"u_rain_mm_a":35,"rain_mg_L":1.0,"u_rain_mg_L":0.3,"well_mg_L":5.0,"u_well_mg_L":0.5,"other_sources_ruled_out":true}}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","properties":{"scale":{"type":"string","description":"VSMOW; needed with any δ of water"},"water":{"type":"object","description":"d18O, d2H in ‰ with u_d18O, u_d2H"},"rain":{"type":"array","description":"samples like water, each with amount_mm and winter (true or false) or none with them; without rain the global line is used"},"winter":{"type":"object","description":"mean d18O of winter rain, u_d18O"},"summer":{"type":"object","description":"mean d18O of summer rain, u_d18O"},"slope":{"type":"object","description":"height_m with the mean d18O of its rain; per_100_m_from and per_100_m_to in ‰, negative, where the local gradient is known"},"well_series":{"type":"array","description":"year (decimal), d18O, u_d18O"},"rain_series":{"type":"array","description":"year (decimal), d18O, u_d18O, amount_mm"},"noble_gases":{"type":"object","required":["height_m","gases"],"description":"height_m of recharge; bubbles; gases: gas with mol_kg, umol_kg, nmol_kg or cm3STP_g and its u_; heights_m for the line against height; lapse: height_m, temperature_C, K_per_km"},"carbon_14":{"type":"object","description":"F14C, or pMC with pMC_is (100 F14C, or absolute with year), or years with half_life 5568; each with u_; d13C, CO2_mmol_kg, HCO3_mmol_kg, DIC_at_recharge_mmol_kg, temperature_C (recharge), sulfide_mmol_kg, soil_d13C, rock_d13C with u_; methane and tritium: not-measured, not-detected, detected"},"chloride":{"type":"object","description":"rain_mm_a, rain_mg_L (with dry deposition), well_mg_L, runoff_mm_a and runoff_mg_L, each with u_; other_sources_ruled_out; thickness_m and porosity for the mean age"}}}"#,
    run,
};

fn run(input: &Value) -> Result<Value, CalcError> {
    let o = Object::new(input, "")?;
    let mut out = Map::new();
    let mut warnings = vec![];
    let part = |name: &str| o.map.get(name).map(|v| Object::new(v, name)).transpose();
    if part("water")?.is_some() || o.map.contains_key("well_series") {
        out.insert("water_isotopes".into(), water(&o, &mut warnings)?);
    }
    if let Some(gases) = part("noble_gases")? {
        out.insert("noble_gases".into(), noble_gases(&gases, &mut warnings)?);
    }
    if let Some(carbon) = part("carbon_14")? {
        out.insert("carbon_14".into(), carbon_14(&carbon, &mut warnings)?);
    }
    if let Some(balance) = part("chloride")? {
        out.insert("chloride".into(), chloride_balance(&balance, &mut warnings)?);
    }
    if out.is_empty() {
        return Err(CalcError::refused(
            "input",
            "nothing",
            "one of water, well_series, noble_gases, carbon_14, chloride",
        ));
    }
    out.insert(
        "method".into(),
        json!("line with errors in both coordinates, χ² fit of noble gases under three models of excess air, carbon-14 under every published correction that applies, chloride balance; Monte Carlo, 20 000 draws"),
    );
    out.insert(
        "sources".into(),
        json!([
            "York et al. 2004, Am. J. Phys. 72:367",
            "Kirchner 2016, Hydrol. Earth Syst. Sci. 20:279",
            "Aeschbach-Hertig et al. 2000, Nature 405:1040 (recalled)",
            "Jenkins, Lott & Cahill 2019, Mar. Chem.",
            "Mook, Bommerson & Staverman 1974",
            "JCGM 101:2008"
        ]),
    );
    out.insert("warnings".into(), json!(warnings));
    Ok(without_nulls(Value::Object(out)))
}

/// What is not known is absent: a band without an upper end has no `to`, a fit without u has none.
fn without_nulls(v: Value) -> Value {
    match v {
        Value::Object(map) => {
            map.into_iter().filter(|(_, v)| !v.is_null()).map(|(k, v)| (k, without_nulls(v))).collect()
        }
        Value::Array(items) => items.into_iter().map(without_nulls).collect(),
        other => other,
    }
}

/// A range; an end that is open is absent.
fn range(r: (f64, f64)) -> Value {
    json!({"from": r.0, "to": r.1})
}

fn open_range(r: (f64, Option<f64>)) -> Value {
    json!({"from": r.0, "to": r.1})
}

/// Findings as the warnings of the contract.
fn warn(warnings: &mut Vec<String>, findings: &[Message]) {
    warnings.extend(findings.iter().map(Message::in_english));
}

fn missing(place: String) -> CalcError {
    CalcError::refused(place, "nothing", "a number")
}

/// A number under a key with its u under `u_` and the same key.
fn with_u(o: &Object, key: &str) -> Result<Option<WithU>, CalcError> {
    let Some(value) = o.number(key)? else { return Ok(None) };
    let u_key = format!("u_{key}");
    let u = o.number(&u_key)?.ok_or_else(|| {
        CalcError::refused(o.place(&u_key), "nothing", "the standard uncertainty: ask the laboratory for it")
    })?;
    Ok(Some(WithU { value, u }))
}

fn needed(o: &Object, key: &str) -> Result<WithU, CalcError> {
    with_u(o, key)?.ok_or_else(|| missing(o.place(key)))
}

fn number(o: &Object, key: &str) -> Result<f64, CalcError> {
    o.number(key)?.ok_or_else(|| missing(o.place(key)))
}

fn yes(o: &Object, key: &str) -> Result<Option<bool>, CalcError> {
    match o.map.get(key) {
        None => Ok(None),
        Some(Value::Bool(b)) => Ok(Some(*b)),
        Some(v) => Err(CalcError::refused(o.place(key), v, "true or false")),
    }
}

fn isotopes_of(o: &Object) -> Result<Water, CalcError> {
    Ok(Water { d18o: needed(o, "d18O")?, d2h: needed(o, "d2H")? })
}

fn water(o: &Object, warnings: &mut Vec<String>) -> Result<Value, CalcError> {
    if o.text("scale").is_none_or(|s| !s.starts_with("VSMOW")) {
        return Err(no_scale().into());
    }
    let mut out = Map::new();
    let rows = o.list("rain")?;
    if let Some(sample) = o.map.get("water") {
        let sample = isotopes_of(&Object::new(sample, "water")?)?;
        let rain = rows
            .iter()
            .map(|r| Ok(Rain { water: isotopes_of(r)?, amount_mm: r.number("amount_mm")? }))
            .collect::<Result<Vec<_>, CalcError>>()?;
        let line = if rain.is_empty() { Line::global() } else { local_line(&rain)? };
        let beside = beside_line(&sample, &line)?;
        out.insert("line".into(), json!(line));
        out.insert("residual_permil".into(), json!(beside.residual));
        out.insert("position".into(), json!(beside.position));
        out.insert("deuterium_excess_permil".into(), json!(beside.deuterium_excess));
        if let Some(source) = beside.source {
            out.insert("rain_before_evaporation_permil".into(), json!(source));
        }
        warn(warnings, &beside.findings);
        let todays = todays(o, &rain)?;
        let three = readings(sample.d18o, &todays)?;
        out.insert("reading_as_season".into(), json!(three.season));
        out.insert("reading_as_height_m".into(), json!(three.height_m.map(range)));
        out.insert("reading_as_climate_permil_from_todays_rain".into(), json!(three.from_todays_rain));
        warn(warnings, &three.findings);
        if let Some(ratio) = months(&rows)? {
            let ratio = summer_ratio(&ratio, sample.d18o)?;
            out.insert("summer_ratio".into(), json!({"alpha": ratio.alpha, "range": range(ratio.range)}));
            warn(warnings, &ratio.findings);
        }
    }
    if o.map.contains_key("well_series") {
        let (rain, well) = (wave(&series(o, "rain_series")?)?, wave(&series(o, "well_series")?)?);
        let young = young_water(&rain, &well)?;
        out.insert("wave_of_rain".into(), json!(rain));
        out.insert("wave_of_well".into(), json!(well));
        out.insert("young_share".into(), json!(young.share));
        out.insert("exponential_years".into(), json!(young.exponential_years));
        out.insert("more_than_years".into(), json!(young.more_than_years));
        warn(warnings, &young.findings);
    }
    Ok(Value::Object(out))
}

fn todays(o: &Object, rain: &[Rain]) -> Result<Todays, CalcError> {
    let mean_of = |name: &str| o.map.get(name).map(|v| needed(&Object::new(v, name)?, "d18O")).transpose();
    let slope = match o.map.get("slope") {
        None => None,
        Some(v) => {
            let s = Object::new(v, "slope")?;
            let per_100_m = s.number("per_100_m_from")?.zip(s.number("per_100_m_to")?);
            Some(Slope { height_m: number(&s, "height_m")?, d18o: needed(&s, "d18O")?, per_100_m })
        }
    };
    Ok(Todays { seasons: mean_of("winter")?.zip(mean_of("summer")?), slope, mean: mean_of_rain(rain) })
}

/// Amount-weighted mean of rain with u of its measurements; none without amounts.
fn mean_of_rain(rain: &[Rain]) -> Option<WithU> {
    let amounts: Vec<f64> = rain.iter().filter_map(|r| r.amount_mm).collect();
    let total: f64 = amounts.iter().sum();
    let shares = rain.iter().zip(&amounts).map(|(r, a)| (r.water.d18o, a / total));
    (!rain.is_empty() && amounts.len() == rain.len()).then(|| {
        let (value, variance) = shares.fold((0.0, 0.0), |(v, u2), (d, s)| (v + s * d.value, u2 + (s * d.u).powi(2)));
        WithU { value, u: variance.sqrt() }
    })
}

/// Months of both half-years, where every row of rain says its own.
fn months(rows: &[Object]) -> Result<Option<Vec<Month>>, CalcError> {
    let all = rows
        .iter()
        .map(|r| {
            let parts = (r.number("d18O")?, r.number("amount_mm")?, yes(r, "winter")?);
            let (Some(value), Some(rain_mm), Some(winter)) = parts else { return Ok(None) };
            Ok(Some(Month { rain_mm, value, summer: !winter }))
        })
        .collect::<Result<Option<Vec<Month>>, CalcError>>()?;
    Ok(all.filter(|m| !m.is_empty()))
}

fn series(o: &Object, key: &str) -> Result<Vec<Dated>, CalcError> {
    o.list(key)?
        .iter()
        .map(|r| {
            let weight = r.number("amount_mm")?.unwrap_or(1.0);
            Ok(Dated { year: number(r, "year")?, d18o: needed(r, "d18O")?, weight })
        })
        .collect()
}

fn noble_gases(o: &Object, warnings: &mut Vec<String>) -> Result<Value, CalcError> {
    let measured = o.list("gases")?.iter().map(measured_gas).collect::<Result<Vec<_>, _>>()?;
    let gases = Gases { measured, bubbles: yes(o, "bubbles")?.unwrap_or(false) };
    let r = noble::recharge(&gases, number(o, "height_m")?)?;
    warn(warnings, &r.findings);
    let models: Vec<Value> = r
        .tried
        .iter()
        .map(|t| match &t.fit {
            Ok(fit) => json!(fit),
            Err(why) => json!({"model": t.model, "not_fitted": why.to_string()}),
        })
        .collect();
    let mut out = Map::new();
    out.insert("height_m".into(), json!(r.height_m));
    out.insert("temperature_band_C".into(), json!(r.band_c.map(range)));
    out.insert("shift_by_older_solubilities_K".into(), json!(r.set_shift_k));
    out.insert("models".into(), json!(models));
    let amount = |x: Option<(f64, f64)>| x.map(|(v, u)| json!({"mol_kg": v, "u_mol_kg": u}));
    out.insert("helium_of_rock".into(), json!(amount(r.helium_of_rock_mol_kg)));
    out.insert("excess_nitrogen".into(), json!(amount(r.excess_nitrogen_mol_kg)));
    let heights = numbers(o, "heights_m")?;
    let line = height_line(&gases, &heights)?;
    out.insert("line_against_height".into(), json!(line));
    if let Some(v) = o.map.get("lapse") {
        let l = Object::new(v, o.place("lapse"))?;
        let lapse = Lapse {
            height_m: number(&l, "height_m")?,
            temperature_c: number(&l, "temperature_C")?,
            k_per_km: number(&l, "K_per_km")?,
        };
        out.insert(
            "meets_lapse_at".into(),
            json!(lapse.meets(&line).map(|(h, t)| json!({"height_m": h, "temperature_C": t}))),
        );
        warn(warnings, noble::colder(&r, &lapse).as_slice());
    }
    Ok(Value::Object(out))
}

fn numbers(o: &Object, key: &str) -> Result<Vec<f64>, CalcError> {
    match o.map.get(key) {
        None => Ok(vec![]),
        Some(Value::Array(all)) => {
            all.iter().map(|v| v.as_f64().ok_or_else(|| CalcError::refused(o.place(key), v, "numbers"))).collect()
        }
        Some(v) => Err(CalcError::refused(o.place(key), v, "a list of numbers")),
    }
}

fn measured_gas(o: &Object) -> Result<MeasuredGas, CalcError> {
    let symbol = o.text("gas").unwrap_or("");
    let gas = Gas::ALL
        .into_iter()
        .find(|g| g.symbol() == symbol)
        .ok_or_else(|| CalcError::refused(o.place("gas"), symbol, "one of He, Ne, Ar, Kr, Xe, N2"))?;
    let units: [(&str, f64); 4] =
        [("mol_kg", 1.0), ("umol_kg", 1e-6), ("nmol_kg", 1e-9), ("cm3STP_g", gas.mol_per_kg(1.0))];
    let mut found = None;
    for (key, factor) in units {
        let Some(x) = with_u(o, key)? else { continue };
        if found.is_some() {
            return Err(CalcError::refused(o.place(key), "another unit as well", "one unit"));
        }
        found = Some(MeasuredGas { gas, mol_kg: x.value * factor, u_mol_kg: x.u * factor });
    }
    found.ok_or_else(|| {
        CalcError::refused(o.path.clone(), "no amount", "mol_kg, umol_kg, nmol_kg or cm3STP_g with its u")
    })
}

/// What the laboratory reported, and which of its meanings.
fn reported(o: &Object) -> Result<Reported, CalcError> {
    if let Some(x) = with_u(o, "F14C")? {
        return Ok(Reported::F14c(x));
    }
    if let Some(x) = with_u(o, "pMC")? {
        return match (o.text("pMC_is"), o.number("year")?) {
            (Some("100 F14C"), _) => Ok(Reported::PercentOfF14c(x)),
            (Some("absolute"), Some(year)) => Ok(Reported::Absolute { pmc: x, year }),
            _ => Err(percent_modern_alone().into()),
        };
    }
    match (with_u(o, "years")?, o.number("half_life")?) {
        (Some(x), Some(5568.0)) => Ok(Reported::Conventional(x)),
        (Some(_), _) => Err(years_without_half_life().into()),
        _ => {
            Err(CalcError::refused(o.path.clone(), "no carbon-14", "F14C, or pMC with pMC_is, or years with half_life"))
        }
    }
}

fn looked(o: &Object, key: &str) -> Result<Found, CalcError> {
    match o.text(key) {
        None | Some("not-measured") => Ok(Found::NotMeasured),
        Some("not-detected") => Ok(Found::NotDetected),
        Some("detected") => Ok(Found::Detected),
        Some(other) => Err(CalcError::refused(o.place(key), other, "not-measured, not-detected or detected")),
    }
}

fn carbon_14(o: &Object, warnings: &mut Vec<String>) -> Result<Value, CalcError> {
    let usual = Carbon::new(reported(o)?);
    let c = Carbon {
        d13c: with_u(o, "d13C")?,
        co2: with_u(o, "CO2_mmol_kg")?,
        hco3: with_u(o, "HCO3_mmol_kg")?,
        dic_at_recharge: with_u(o, "DIC_at_recharge_mmol_kg")?,
        temperature_c: with_u(o, "temperature_C")?,
        sulfide: with_u(o, "sulfide_mmol_kg")?,
        methane: looked(o, "methane")?,
        tritium: looked(o, "tritium")?,
        soil: with_u(o, "soil_d13C")?.unwrap_or(usual.soil),
        carbonate: with_u(o, "rock_d13C")?.unwrap_or(usual.carbonate),
        ..usual
    };
    let a = carbon14::age(&c)?;
    warn(warnings, &a.findings);
    let refused: Vec<Value> =
        a.refused.iter().map(|(c, why)| json!({"correction": c, "why": why.in_english()})).collect();
    Ok(json!({
        "F14C": a.f14c,
        "half_life_years": a.half_life,
        "band_years": a.band.map(open_range),
        "band_read_in_print_years": a.band_read_in_print.map(open_range),
        "corrections": a.dated,
        "not_applied": refused,
        "modern_share_at_most": a.modern_share_at_most,
        "share_of_carbon_with_sulfide": a.share_of_sulfide,
    }))
}

fn chloride_balance(o: &Object, warnings: &mut Vec<String>) -> Result<Value, CalcError> {
    let runoff = match (with_u(o, "runoff_mm_a")?, with_u(o, "runoff_mg_L")?) {
        (None, None) => None,
        (Some(depth_mm_a), Some(chloride_mg_l)) => Some(Runoff { depth_mm_a, chloride_mg_l }),
        _ => return Err(CalcError::refused(o.place("runoff"), "one of two", "runoff_mm_a and runoff_mg_L")),
    };
    let r = chloride::recharge(&Balance {
        rain_mm_a: needed(o, "rain_mm_a")?,
        rain_chloride_mg_l: needed(o, "rain_mg_L")?,
        well_chloride_mg_l: needed(o, "well_mg_L")?,
        runoff,
        other_sources_ruled_out: yes(o, "other_sources_ruled_out")?.unwrap_or(false),
    })?;
    warn(warnings, &r.findings);
    let age = match o.number("thickness_m")?.zip(o.number("porosity")?) {
        Some((thickness, porosity)) => {
            let of = |mm| chloride::exponential_age(thickness, porosity, mm).map_err(|e: Reason| CalcError::from(e));
            Some(json!({"years": of(r.recharge_mm_a.value)?, "from": of(r.range_mm_a.1)?, "to": of(r.range_mm_a.0)?}))
        }
        None => None,
    };
    Ok(json!({"recharge_mm_a": r.recharge_mm_a, "range_mm_a": range(r.range_mm_a), "exponential_age": age}))
}
