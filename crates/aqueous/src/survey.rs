//! A whole table of analyses: rows in, rows out, each row on its own.
//!
//! In: column headings, rows of text as a file holds them, and a [`Mapping`] that names what each
//! column is and what marks mean (`<`, `E`, a literal zero). What it does not name is refused.
//! Out: one [`Row`] a sample with what was found or why there is none: one bad row never hides the
//! rest. Rows are solved on all cores and come back in order. Reading and writing files belongs to
//! who calls. Checked in `tests/groundwater.rs`.

use crate::analysis::{Analysis, Analyte, Interpreted, interpret};
use crate::balance::{Balance, balance};
use crate::checks;
use crate::conductivity::conductivity_us_cm;
use crate::equilibrium::{Composition, Constants, Equilibrium, Ph, speciate_many, system_of};
use crate::error::Error;
use crate::network::network;
use crate::speciation::{Request, composition};
use message::Message;
use quantity::{Amount, CalcError, Unit};
use rayon::prelude::*;
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::sync::Arc;

/// One analyte column.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Column {
    /// Heading of the column.
    pub column: String,
    /// Analyte name as in a single analysis.
    pub name: String,
    /// Unit, with basis where needed.
    pub unit: String,
}

/// What a mark before a number means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mark {
    /// The number is a limit: the truth lies under it.
    Below,
    /// The number is a limit: the truth lies over it.
    Above,
    /// A value, estimated by the laboratory.
    Estimated,
}

/// What a literal zero means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Zero {
    /// Refused: a measurement is never zero.
    #[default]
    Refuse,
    /// Taken as not measured.
    Missing,
}

/// What each column of a table is.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mapping {
    /// Column that names the sample.
    pub id: String,
    /// Temperature, °C.
    #[serde(rename = "temperature_C")]
    pub temperature_c: String,
    /// pH; without it from the charge balance.
    #[serde(rename = "pH", default)]
    pub ph: Option<String>,
    /// Eh, mV.
    #[serde(rename = "Eh_mV", default)]
    pub eh_mv: Option<String>,
    /// Conductivity at 25 °C, µS/cm.
    #[serde(rename = "conductivity_uS_cm", default)]
    pub conductivity_us_cm: Option<String>,
    /// The analytes. Of two columns for one analyte the first that holds a value is used.
    pub analytes: Vec<Column>,
    /// Marks before a number.
    #[serde(default)]
    pub marks: BTreeMap<String, Mark>,
    /// Literal zeros in analyte columns.
    #[serde(default)]
    pub zero: Zero,
}

/// The answer for one sample.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The sample.
    pub id: String,
    /// pH.
    pub ph: f64,
    /// mol/kg.
    pub ionic_strength_mol_kg: f64,
    /// Charge balance of the analysis.
    pub balance: Balance,
    /// Charges of the species, percent of their sum.
    pub species_charge_percent: f64,
    /// Calculated at 25 °C, µS/cm.
    pub conductivity25_us_cm: f64,
    /// Calculated over measured conductivity.
    pub conductivity_ratio: Option<f64>,
    /// mg/L as CaCO3.
    pub hardness_mg_l_as_caco3: f64,
    /// log10 of the CO2 pressure, atm.
    pub log_p_co2: Option<f64>,
    /// Solid and saturation index.
    pub saturation: Vec<(String, f64)>,
    /// Newton iterations.
    pub iterations: usize,
    /// Largest relative residual.
    pub residual: f64,
    /// Warnings.
    pub warnings: Vec<String>,
}

struct Found<'m> {
    id: usize,
    temperature: usize,
    ph: Option<usize>,
    eh: Option<usize>,
    conductivity: Option<usize>,
    analytes: Vec<(usize, &'m Column, Unit)>,
}

fn find<'m>(headings: &[String], m: &'m Mapping) -> Result<Found<'m>, Error> {
    let at = |name: &str| {
        headings.iter().position(|h| h == name).ok_or_else(|| Error::Unclear {
            quantity: "column".into(),
            found: format!("no column {name}").into(),
            expected: format!("one of {}", headings.join(", ")).into(),
        })
    };
    let maybe = |name: &Option<String>| name.as_deref().map(at).transpose();
    Ok(Found {
        id: at(&m.id)?,
        temperature: at(&m.temperature_c)?,
        ph: maybe(&m.ph)?,
        eh: maybe(&m.eh_mv)?,
        conductivity: maybe(&m.conductivity_us_cm)?,
        analytes: m
            .analytes
            .iter()
            .map(|c| {
                let unit = Unit::parse(&c.unit).map_err(|e| Error::Unclear {
                    quantity: c.name.as_str().into(),
                    found: c.unit.as_str().into(),
                    expected: e.to_string().into(),
                })?;
                Ok((at(&c.column)?, c, unit))
            })
            .collect::<Result<_, Error>>()?,
    })
}

fn plain(row: &[String], at: Option<usize>, what: &str) -> Result<Option<f64>, Error> {
    let Some(text) = at.and_then(|k| row.get(k)).map(|t| t.trim()).filter(|t| !t.is_empty()) else {
        return Ok(None);
    };
    text.parse().map(Some).map_err(|_| Error::Unclear {
        quantity: what.into(),
        found: text.into(),
        expected: "a number".into(),
    })
}

/// One cell as an amount; `None` where it is empty (or a zero that means missing).
fn cell(text: &str, c: &Column, unit: &Unit, m: &Mapping) -> Result<Option<Amount>, Error> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let unclear = |expected: &str| Error::Unclear {
        quantity: c.name.as_str().into(),
        found: format!("{text} in column {}", c.column).into(),
        expected: expected.into(),
    };
    let mark = m.marks.iter().find(|(k, _)| text.starts_with(k.as_str()));
    let digits = mark.map_or(text, |(k, _)| text[k.len()..].trim());
    let x: f64 = digits.parse().map_err(|_| unclear("a number, or a mark that the mapping names before a number"))?;
    if x == 0.0 {
        return match m.zero {
            Zero::Missing => Ok(None),
            Zero::Refuse => Err(unclear("a value above 0, or a mapping that says what a zero means")),
        };
    }
    Ok(Some(match mark.map(|(_, m)| m) {
        Some(Mark::Below) => Amount::below(x, unit.clone()),
        Some(Mark::Above) => Amount::above(x, unit.clone()),
        Some(Mark::Estimated) | None => Amount::stated(x, unit.clone()),
    }))
}

fn analysis(row: &[String], f: &Found, m: &Mapping) -> Result<Analysis, Error> {
    let temperature = plain(row, Some(f.temperature), "temperature")?.ok_or_else(|| Error::Unclear {
        quantity: "temperature".into(),
        found: "an empty cell".into(),
        expected: "a temperature in °C".into(),
    })?;
    let mut analytes: Vec<Analyte> = Vec::new();
    for (k, c, unit) in &f.analytes {
        if analytes.iter().any(|a| a.name == c.name) {
            continue;
        }
        let text = row.get(*k).map_or("", String::as_str);
        if let Some(amount) = cell(text, c, unit, m)? {
            analytes.push(Analyte { name: c.name.clone(), amount, fraction: None });
        }
    }
    Ok(Analysis {
        temperature_c: temperature,
        ph: plain(row, f.ph, "pH")?,
        eh_mv: plain(row, f.eh, "Eh")?,
        conductivity_us_cm: plain(row, f.conductivity, "conductivity")?,
        analytes,
        ..Analysis::default()
    })
}

/// A row ready to be solved.
struct Ready {
    id: String,
    analysis: Analysis,
    interpreted: Interpreted,
    composition: Composition,
    constants: Arc<Constants>,
}

fn ready(row: &[String], f: &Found, m: &Mapping) -> Result<Ready, Error> {
    let analysis = analysis(row, f, m)?;
    let interpreted = interpret(&analysis)?;
    let request = Request { analysis, ..Request::default() };
    let composition = composition(&request, &interpreted)?;
    let constants = Arc::new(Constants::at(composition.temperature_c));
    let id = row.get(f.id).cloned().unwrap_or_default();
    Ok(Ready { id, analysis: request.analysis, interpreted, composition, constants })
}

fn answer(r: &Ready, e: &Equilibrium) -> Row {
    let sums = checks::sums(e);
    let conductivity25 = conductivity_us_cm(e, 25.0);
    let net = network();
    let mut warnings: Vec<String> = r.interpreted.warnings.iter().map(Message::in_english).collect();
    if !r.interpreted.not_in_table.is_empty() {
        warnings.push(format!("the table holds no species of: {}", r.interpreted.not_in_table.join(", ")));
    }
    let limits = checks::at_limit(&r.interpreted);
    if !limits.is_empty() {
        warnings.push(format!("non-detects at their limit: {}", limits.join(", ")));
    }
    Row {
        id: r.id.clone(),
        ph: e.ph(),
        ionic_strength_mol_kg: e.solution.ionic_strength,
        balance: balance(&r.analysis, &r.interpreted, e),
        species_charge_percent: sums.species_charge_percent,
        conductivity25_us_cm: conductivity25,
        conductivity_ratio: r.analysis.conductivity_us_cm.map(|m| conductivity25 / m),
        hardness_mg_l_as_caco3: sums.hardness_mg_l_as_caco3,
        log_p_co2: net.gases.iter().find(|g| g.name == "CO2").and_then(|g| e.saturation_index(g)),
        saturation: net.solids.iter().filter_map(|s| e.saturation_index(s).map(|si| (s.name.clone(), si))).collect(),
        iterations: e.solution.iterations,
        residual: e.solution.residual,
        warnings,
    }
}

/// Solves every row; the answers stand in the order of the rows.
///
/// # Errors
/// [`Error::Unclear`] for a mapping that does not fit the headings. Faults of a row are its own.
pub fn survey(headings: &[String], rows: &[Vec<String>], m: &Mapping) -> Result<Vec<Result<Row, Error>>, Error> {
    let f = find(headings, m)?;
    let ready: Vec<Result<Ready, Error>> = rows.par_iter().map(|row| ready(row, &f, m)).collect();
    // Rows with the same components share one system and are solved eight at a time.
    let mut kinds: BTreeMap<(Vec<usize>, bool, bool), Vec<usize>> = BTreeMap::new();
    for (k, r) in ready.iter().enumerate() {
        if let Ok(r) = r {
            let c = &r.composition;
            let mut present: Vec<usize> = c.totals.iter().map(|(j, _)| *j).collect();
            present.sort_unstable();
            kinds.entry((present, c.alkalinity.is_some(), c.ph == Ph::FromCharge)).or_default().push(k);
        }
    }
    let kinds: Vec<Vec<usize>> = kinds.into_values().collect();
    let solved: Vec<Vec<(usize, Result<Row, Error>)>> = kinds
        .par_iter()
        .map(|rows| {
            let list: Vec<(usize, &Ready)> =
                rows.iter().filter_map(|k| ready[*k].as_ref().ok().map(|r| (*k, r))).collect();
            let waters: Vec<_> = list.iter().map(|(_, r)| (r.composition.clone(), Arc::clone(&r.constants))).collect();
            let system = Arc::new(system_of(&waters[0].0));
            let answers = speciate_many(&system, &waters);
            list.iter().zip(answers).map(|((k, r), a)| (*k, a.map(|e| answer(r, &e)))).collect()
        })
        .collect();
    let mut by_row: BTreeMap<usize, Result<Row, Error>> = solved.into_iter().flatten().collect();
    Ok(ready
        .into_iter()
        .enumerate()
        .map(|(k, r)| match r {
            Err(e) => Err(e),
            Ok(_) => by_row.remove(&k).expect("every row that was ready was solved"),
        })
        .collect())
}

/// The table form of `speciation`: `{"columns":[…],"rows":[[…]],"mapping":{…}}`.
///
/// # Errors
/// [`CalcError::Refused`] for a table or mapping that cannot be read.
pub fn run_table(v: &Value) -> Result<Value, CalcError> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Table {
        columns: Vec<String>,
        rows: Vec<Vec<String>>,
        mapping: Mapping,
    }
    let t: Table = serde_json::from_value(v.clone())?;
    let answers = survey(&t.columns, &t.rows, &t.mapping).map_err(|e| e.at("mapping"))?;
    let solids: Vec<&str> = network().solids.iter().map(|s| s.name.as_str()).collect();
    let mut columns: Vec<String> = [
        "id",
        "pH",
        "ionic_strength_mol_kg",
        "charge_balance_percent",
        "charge_balance_low_percent",
        "charge_balance_high_percent",
        "u_charge_balance_percent",
        "species_charge_percent",
        "conductivity_25C_uS_cm",
        "conductivity_ratio",
        "hardness_mg_L_as_CaCO3",
        "log10_p_CO2_atm",
        "iterations",
        "residual",
        "why_none",
    ]
    .map(String::from)
    .to_vec();
    let why = columns.len() - 1;
    columns.extend(solids.iter().map(|s| format!("saturation_index {s}")));
    let rows: Vec<Vec<Value>> = answers
        .iter()
        .zip(&t.rows)
        .map(|(a, raw)| match a {
            Ok(r) => {
                let (low, high) = r.balance.range_percent();
                let mut row = vec![
                    json!(r.id),
                    json!(r.ph),
                    json!(r.ionic_strength_mol_kg),
                    json!(r.balance.percent()),
                    json!(low),
                    json!(high),
                    json!(r.balance.u_percent()),
                    json!(r.species_charge_percent),
                    json!(r.conductivity25_us_cm),
                    json!(r.conductivity_ratio),
                    json!(r.hardness_mg_l_as_caco3),
                    json!(r.log_p_co2),
                    json!(r.iterations),
                    json!(r.residual),
                    Value::Null,
                ];
                row.extend(solids.iter().map(|s| json!(r.saturation.iter().find(|x| x.0 == *s).map(|x| x.1))));
                row
            }
            Err(e) => {
                let mut row = vec![Value::Null; columns.len()];
                row[0] = json!(raw.first());
                row[why] = json!(e.to_string());
                row
            }
        })
        .collect();
    Ok(json!({
        "columns": columns, "rows": rows,
        "method": "each row as one speciation",
        "sources": ["reference/aqueous_constants.csv"],
        "warnings": answers.iter().filter(|a| a.is_err()).map(|a| a.as_ref().err().map(ToString::to_string)).collect::<Vec<_>>(),
    }))
}
