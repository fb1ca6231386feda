//! One water per group: charge balance, ionic strength, conductivity and saturation indices by the crate `aqueous`, as
//! `limpid calc speciation` gives them for the same analysis.

use super::gather::{Kind, Science};
use aqueous::speciation::{Saturation, speciation};
use aqueous::{analysis, calc};
use datafusion::arrow::array::{
    Array, ArrayRef, AsArray, BooleanBuilder, Float64Array, Float64Builder, ListArray, StringArray, StringBuilder,
    StructArray,
};
use datafusion::arrow::buffer::OffsetBuffer;
use datafusion::arrow::datatypes::{DataType, Field, Fields, Float64Type};
use datafusion::common::Result;
use quantity::Unit;
use serde_json::{Value, json};
use std::sync::Arc;

/// `water(analyte, value, below, unit)`.
pub static WATER: Science = Science {
    name: "water",
    arguments: &[
        (
            "analyte",
            Kind::Text,
            "name as `limpid calc speciation` takes it; also temperature, pH, Eh, conductivity; another (a pesticide) takes no part",
        ),
        ("value", Kind::Number, "what was measured; absent for a non-detect"),
        ("below", Kind::Number, "the limit that a non-detect lies under"),
        ("unit", Kind::Text, "unit of value and limit, with its basis: mg/L as CaCO3"),
    ],
    answer: || DataType::Struct(fields()),
    answers,
    about: "charge balance, ionic strength, conductivity and saturation indices of one sample; needs temperature and pH",
};

const NUMBERS: [&str; 4] = ["pH", "charge_balance_percent", "ionic_strength_mol_kg", "conductivity_25C_uS_cm"];

fn solid_fields() -> Fields {
    Fields::from(vec![
        Field::new("solid", DataType::Utf8, true),
        Field::new("saturation_index", DataType::Float64, true),
        Field::new("u", DataType::Float64, true),
        Field::new("upper_bound", DataType::Boolean, true),
        Field::new("word", DataType::Utf8, true),
    ])
}

fn item() -> Arc<Field> {
    Arc::new(Field::new_list_field(DataType::Struct(solid_fields()), true))
}

fn fields() -> Fields {
    let mut all: Vec<Field> = NUMBERS.iter().map(|n| Field::new(*n, DataType::Float64, true)).collect();
    all.push(Field::new("saturation", DataType::List(item()), true));
    all.push(Field::new("missing", DataType::Utf8, true));
    Fields::from(all)
}

/// What of a sample is not an analyte but a condition of its water, with the key of the calculation's input and its unit.
const CONDITIONS: [(&str, &str, &str); 4] = [
    ("temperature", "temperature_C", "degC"),
    ("pH", "pH", "pH"),
    ("Eh", "Eh_mV", "mV"),
    ("conductivity", "conductivity_uS_cm", "uS/cm"),
];

/// Whether a name is a condition of a water, whose zero is a value.
pub(super) fn is_condition(name: &str) -> bool {
    CONDITIONS.iter().any(|c| c.0 == name)
}

type Told = std::result::Result<([f64; 4], Vec<Saturation>), String>;

fn answers(arguments: &[ArrayRef], ends: &[usize]) -> Result<ArrayRef> {
    let (names, units) = (arguments[0].as_string::<i32>(), arguments[3].as_string::<i32>());
    let (values, limits) = (arguments[1].as_primitive::<Float64Type>(), arguments[2].as_primitive::<Float64Type>());
    let text = |of: &StringArray, i: usize| if of.is_valid(i) { of.value(i).to_string() } else { String::new() };
    let told: Vec<Told> = ends
        .windows(2)
        .map(|w| {
            let mut rows: Vec<Row> = (w[0]..w[1])
                .map(|i| Row {
                    name: text(names, i),
                    unit: text(units, i),
                    value: values.is_valid(i).then(|| values.value(i)),
                    below: limits.is_valid(i).then(|| limits.value(i)),
                })
                .collect();
            rows.sort_by(|a, b| {
                let number = |r: &Row| r.value.or(r.below).unwrap_or(f64::INFINITY);
                a.name.cmp(&b.name).then(a.unit.cmp(&b.unit)).then(number(a).total_cmp(&number(b)))
            });
            one(&rows)
        })
        .collect();
    columns(&told)
}

struct Row {
    name: String,
    unit: String,
    value: Option<f64>,
    below: Option<f64>,
}

/// A condition in the unit of the calculation's input.
fn in_its_unit(r: &Row, value: f64, wanted: &str) -> std::result::Result<f64, String> {
    if r.unit.is_empty() || r.unit == wanted {
        return Ok(value);
    }
    let unit = |u: &str| Unit::parse(u).map_err(|e| format!("{}: {e}", r.name));
    let to = unit(wanted)?;
    let from = unit(&r.unit)?;
    if from == to {
        return Ok(value);
    }
    from.conversion(&to, None, None).map(|c| c.apply(value)).map_err(|e| format!("{}: {e}", r.name))
}

/// The input of `limpid calc speciation` for one sample. What a water's chemistry does not know (a pesticide) takes no
/// part; what it knows and cannot be used leaves the sample without a water.
fn input(rows: &[Row]) -> std::result::Result<Value, String> {
    let mut input = json!({"draws": 0});
    let mut analytes: Vec<Value> = vec![];
    for r in rows {
        if let Some((_, key, unit)) = CONDITIONS.iter().find(|c| c.0 == r.name) {
            let value = r.value.ok_or_else(|| format!("{} cannot be used", r.name))?;
            if input.get(*key).is_some() {
                return Err(format!("{} stands twice", r.name));
            }
            input[*key] = json!(in_its_unit(r, value, unit)?);
            continue;
        }
        if !analysis::is_of_a_water(&r.name) {
            continue;
        }
        let mut a = json!({"name": r.name, "unit": r.unit});
        match (r.value, r.below) {
            (_, Some(limit)) => a["below"] = json!(limit),
            (Some(value), None) => a["value"] = json!(value),
            (None, None) => return Err(format!("{} cannot be used", r.name)),
        }
        if analytes.last().is_some_and(|last| last["name"] == a["name"]) {
            return Err(format!("{} stands twice", r.name));
        }
        analytes.push(a);
    }
    input["analytes"] = Value::Array(analytes);
    Ok(input)
}

fn one(rows: &[Row]) -> Told {
    let request = calc::request(&input(rows)?).map_err(|e| e.to_string())?;
    let s = speciation(&request).map_err(|e| e.to_string())?;
    let numbers = [
        s.equilibrium.ph(),
        // No number where a non-detect leaves a range: shown as empty.
        s.balance.and_then(|b| b.percent()).unwrap_or(f64::NAN),
        s.equilibrium.solution.ionic_strength,
        s.conductivity25_us_cm,
    ];
    Ok((numbers, s.saturation))
}

fn columns(told: &[Told]) -> Result<ArrayRef> {
    let mut arrays: Vec<ArrayRef> = (0..NUMBERS.len())
        .map(|k| {
            let of = told.iter().map(|t| t.as_ref().ok().map(|t| t.0[k]).filter(|x| x.is_finite()));
            Arc::new(of.collect::<Float64Array>()) as ArrayRef
        })
        .collect();
    let (mut solid, mut word) = (StringBuilder::new(), StringBuilder::new());
    let (mut index, mut u, mut bound) = (Float64Builder::new(), Float64Builder::new(), BooleanBuilder::new());
    let none = vec![];
    let of = |t: &Told| t.as_ref().map_or(none.clone(), |t| t.1.clone());
    let mut lengths = vec![];
    for t in told {
        let list = of(t);
        lengths.push(list.len());
        for s in list {
            solid.append_value(&s.solid);
            index.append_value(s.saturation_index);
            u.append_value(s.u);
            bound.append_value(s.upper_bound);
            word.append_value(s.word);
        }
    }
    let solids = StructArray::try_new(
        solid_fields(),
        vec![
            Arc::new(solid.finish()),
            Arc::new(index.finish()),
            Arc::new(u.finish()),
            Arc::new(bound.finish()),
            Arc::new(word.finish()),
        ],
        None,
    )?;
    let offsets = OffsetBuffer::<i32>::from_lengths(lengths);
    arrays.push(Arc::new(ListArray::try_new(item(), offsets, Arc::new(solids), None)?));
    let missing: StringArray = told.iter().map(|t| t.as_ref().err().cloned()).collect();
    arrays.push(Arc::new(missing));
    Ok(Arc::new(StructArray::try_new(fields(), arrays, None)?))
}
