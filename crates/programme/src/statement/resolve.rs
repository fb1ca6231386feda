//! From the fields of a sentence as a person writes them to the fields that `limits::claim` takes.
//!
//! A result's name becomes its amount; a bottle in a sentence of absence its compounds; a series in a sentence of change
//! (`"series":{"well":"SL-2","analyte":"Pb"}`) the slope, interval, span and methods of its trend. Where a sentence holds
//! results of one analyte from one run side by side, the covariance that they share (line, drift checks, blank) goes in.

use assessment::derive::{self, find_run};
use assessment::organics::Compounds;
use assessment::results::{self, Listed, Lists};
use assessment::series_of;
use measurement::run::{Analyte, ReducedRun};
use quantity::{Amount, Unit};
use record::error::Error;
use record::store::{Filter, Store};
use serde::Deserialize;
use serde_json::{Map, Value, json};
use series::trend;
use std::collections::HashMap;

/// Fields with amounts in place of names, and what they came from.
pub(super) struct Resolved {
    /// What `limits::claim::check` takes.
    pub fields: Value,
    /// Place in the fields, and the result that stands there.
    pub uses: Vec<(String, Listed)>,
}

/// Puts amounts in place of the names of results.
///
/// # Errors
/// [`Error::Absent`] for a name that is not on record; [`Error::Unfit`] for a result or a series without a bound; the store.
pub(super) fn resolve(store: &Store, fields: &Value) -> Result<Resolved, Error> {
    let lists = Lists::of(store)?;
    let mut fields = fields.clone();
    let mut uses = vec![];
    whole_bottle(store, &lists, &mut fields, &mut uses)?;
    whole_series(store, &mut fields, &mut uses)?;
    walk(store, &lists, "", &mut fields, &mut uses)?;
    names(&mut fields, &uses);
    critical_values(&mut fields, &uses);
    shared(store, &mut fields, &uses)?;
    Ok(Resolved { fields, uses })
}

/// Absence over a bottle: every organic compound measured in it.
fn whole_bottle(
    store: &Store,
    lists: &Lists,
    fields: &mut Value,
    uses: &mut Vec<(String, Listed)>,
) -> Result<(), Error> {
    let Some(map) = fields.as_object_mut().filter(|m| m.get("kind").and_then(Value::as_str) == Some("absence")) else {
        return Ok(());
    };
    let Some(label) = map.remove("bottle") else { return Ok(()) };
    let label = label.as_str().unwrap_or_default().to_string();
    let compounds = Compounds::of(store, &results::all(store)?)?;
    let mut items = vec![];
    for row in store.results(&Filter::all().is("bottle.label", label.as_str()).latest())? {
        if compounds.holds(&row.analyte) {
            let r = lists.listed(row);
            let mut item = json!({"analyte": r.analyte, "amount": amount(&r)?});
            if let Some(cas) = compounds.cas(&r.analyte) {
                item["cas"] = json!(cas);
            }
            items.push(item);
            uses.push((format!("results[{}].amount", items.len() - 1), r));
        }
    }
    if items.is_empty() {
        return Err(Error::absent("organic compound of bottle", label, "; name a bottle with results of compounds"));
    }
    map.insert("results".into(), Value::Array(items));
    map.entry("name").or_insert_with(|| json!(place(&uses[0].1)));
    Ok(())
}

fn amount(r: &Listed) -> Result<Value, Error> {
    let known = r.amount.as_ref().and_then(|a| serde_json::to_value(a).ok());
    known.ok_or_else(|| Error::Unfit {
        what: r.result.to_string(),
        found: "not found, and not said below what".into(),
        expected: "a value or a limit".into(),
    })
}

fn walk(
    store: &Store,
    lists: &Lists,
    path: &str,
    v: &mut Value,
    uses: &mut Vec<(String, Listed)>,
) -> Result<(), Error> {
    match v {
        Value::Object(map) if map.len() == 1 && map.get("result").is_some_and(Value::is_string) => {
            let name = map["result"].as_str().unwrap_or_default().to_string();
            let r = lists.listed(results::find(store, &name)?);
            *v = amount(&r)?;
            uses.push((path.to_string(), r));
        }
        Value::Object(map) => {
            for (key, value) in map.iter_mut() {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                walk(store, lists, &path, value, uses)?;
            }
        }
        Value::Array(items) => {
            for (i, value) in items.iter_mut().enumerate() {
                walk(store, lists, &format!("{path}[{i}]"), value, uses)?;
            }
        }
        _ => {}
    }
    Ok(())
}

/// Well, or bottle where it has none.
fn place(r: &Listed) -> String {
    r.well.clone().unwrap_or_else(|| r.bottle.clone())
}

/// Names that the sentence leaves out are taken from its results.
fn names(fields: &mut Value, uses: &[(String, Listed)]) {
    let Some(map): Option<&mut Map<String, Value>> = fields.as_object_mut() else { return };
    let kind = map.get("kind").and_then(Value::as_str).unwrap_or_default().to_string();
    let of = |role: &str| uses.iter().find(|(r, _)| r == role).map(|(_, l)| l);
    let mut put = |key: &str, value: Option<String>| {
        if let Some(value) = value {
            map.entry(key).or_insert_with(|| json!(value));
        }
    };
    let analytes: Vec<&str> = uses.iter().map(|(_, r)| r.analyte.as_str()).collect();
    if analytes.windows(2).all(|w| w[0] == w[1]) {
        put("analyte", analytes.first().map(ToString::to_string).filter(|_| uses.len() == 1 || kind != "absence"));
    }
    match kind.as_str() {
        "ratio" => {
            put("a_name", of("a").map(place));
            put("b_name", of("b").map(place));
        }
        "reference" | "absence" => put("name", of("value").map(place)),
        "change" => put("name", of("after").or(of("series[0]")).map(place)),
        _ => {}
    }
}

/// Absence holds each result to the level that the record held it to.
fn critical_values(fields: &mut Value, uses: &[(String, Listed)]) {
    if fields["kind"] != "absence" {
        return;
    }
    for (role, r) in uses {
        let beside = match role.strip_prefix("results[").and_then(|rest| rest.strip_suffix("].amount")) {
            Some(place) => place.parse::<usize>().ok().and_then(|i| fields["results"].get_mut(i)),
            None if role == "value" => Some(&mut *fields),
            None => None,
        };
        // As in the list of compounds: a value without u is held to the limit that its laboratory reports by.
        let stated = matches!(r.amount, Some(Amount::Stated(_)));
        let edge = r.critical_value.or(r.reporting_limit.filter(|_| stated));
        if let (Some(map), Some(edge)) = (beside.and_then(Value::as_object_mut), edge) {
            map.entry("critical_value").or_insert_with(|| json!(edge));
        }
    }
}

/// A series of the record as a sentence names it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct SeriesName {
    well: String,
    analyte: String,
    /// Needed where the well has the analyte in several fractions.
    fraction: Option<String>,
}

/// Change over a whole series: slope by its trend, span, methods.
fn whole_series(store: &Store, fields: &mut Value, uses: &mut Vec<(String, Listed)>) -> Result<(), Error> {
    let Some(map) = fields.as_object_mut().filter(|m| m.get("kind").and_then(Value::as_str) == Some("change")) else {
        return Ok(());
    };
    let Some(named) = map.remove("series") else { return Ok(()) };
    let unfit = |what: String, found: String, expected: &str| Error::Unfit { what, found, expected: expected.into() };
    let named: SeriesName = serde_json::from_value(named).map_err(|e| {
        unfit("the series of the statement".into(), e.to_string(), "{\"well\":…,\"analyte\":…,\"fraction\":…}")
    })?;
    let of = format!("{} of {}", named.analyte, named.well);
    // Isotopes are chosen and methods carried on within the series alone, so its own results are all that it takes.
    let listed: Vec<Listed> = results::all(store)?
        .into_iter()
        .filter(|r| r.well.as_deref() == Some(named.well.as_str()) && r.analyte == named.analyte)
        .filter(|r| named.fraction.as_deref().is_none_or(|f| f == r.fraction))
        .collect();
    let record = series_of::of(store, &listed)?;
    let series = match record.wells.as_slice() {
        [] => return Err(Error::absent("series", of, "; name a well and an analyte with results of water on record")),
        [one] => one,
        many => {
            let fractions: Vec<&str> = many.iter().map(|s| s.fraction.as_str()).collect();
            return Err(unfit(
                format!("the series {of}"),
                format!("fractions {}", fractions.join(", ")),
                "\"fraction\" with one of them",
            ));
        }
    };
    let told = trend::trend(&series.observations(), &trend::Request::default())
        .map_err(|e| Error::Science { what: format!("the trend of {of}"), message: e.to_string() })?;
    let Some(slope) = told.slope.filter(|s| s.interval.0.is_finite() && s.interval.1.is_finite()) else {
        return Err(unfit(
            format!("the trend of {of}"),
            format!("a slope that {} non-detects of {} leave open", told.non_detects, told.n),
            "a slope with both ends of its interval",
        ));
    };
    let by_row: HashMap<i64, &Listed> = listed.iter().map(|r| (r.row, r)).collect();
    let mut methods: Vec<&str> = vec![];
    for (i, p) in series.rows.iter().enumerate() {
        uses.push((format!("series[{i}]"), by_row[&p.row].clone()));
        let method = p.observation.method.as_str();
        if !method.is_empty() && !methods.contains(&method) {
            methods.push(method);
        }
    }
    let day = |p: Option<&series_of::Point>| p.map(|p| p.date.to_string());
    map.insert(
        "slope".into(),
        json!({
            "per_year": slope.per_year,
            "interval_95": [slope.interval.0, slope.interval.1],
            "unit": series.unit,
            "from": day(series.rows.first()),
            "to": day(series.rows.last()),
        }),
    );
    map.entry("methods").or_insert_with(|| json!(methods));
    Ok(())
}

/// Puts in the covariance of results that one run measured with one line and one blank; what a person wrote stays.
fn shared(store: &Store, fields: &mut Value, uses: &[(String, Listed)]) -> Result<(), Error> {
    let Some(map) = fields.as_object_mut() else { return Ok(()) };
    let kind = map.get("kind").and_then(Value::as_str).unwrap_or_default();
    let of = |role: &str| uses.iter().find(|(r, _)| r == role).map(|(_, l)| l);
    let mut runs = Runs { store, reduced: HashMap::new() };
    match kind {
        "ratio" | "change" if !map.contains_key("covariance") => {
            let pair = if kind == "ratio" { ("a", "b") } else { ("before", "after") };
            if let (Some(a), Some(b)) = (of(pair.0), of(pair.1))
                && let Some(c) = runs.covariance(a, b)?
            {
                map.insert("covariance".into(), json!(c));
            }
        }
        "ranking" if !map.contains_key("covariances") => {
            let names: Vec<String> = map
                .get("items")
                .and_then(Value::as_array)
                .map(|items| items.iter().map(|i| i["name"].as_str().unwrap_or_default().to_string()).collect())
                .unwrap_or_default();
            // The sentence is worked out in the unit of its first item, whichever laboratory that came from.
            let unit = map
                .get("items")
                .and_then(|items| serde_json::from_value::<Amount>(items[0]["amount"].clone()).ok())
                .map(|a| a.unit().clone());
            let mut pairs = vec![];
            for (i, a) in names.iter().enumerate() {
                for (j, b) in names.iter().enumerate().skip(i + 1) {
                    if let (Some(x), Some(y)) = (of(&format!("items[{i}].amount")), of(&format!("items[{j}].amount")))
                        && let Some(c) = runs.covariance(x, y)?
                        && let Some(c) = squared(c, x, unit.as_ref())
                    {
                        pairs.push(json!({"a": a, "b": b, "covariance": c}));
                    }
                }
            }
            if !pairs.is_empty() {
                map.insert("covariances".into(), Value::Array(pairs));
            }
        }
        _ => {}
    }
    Ok(())
}

/// A covariance of results in another unit than theirs; none where they do not convert.
fn squared(covariance: f64, of: &Listed, unit: Option<&Unit>) -> Option<f64> {
    let per_unit = of.amount.as_ref()?.unit().conversion(unit?, None, None).ok()?.apply_difference(1.0);
    Some(covariance * per_unit * per_unit)
}

/// Runs of the record, each reduced once.
struct Runs<'a> {
    store: &'a Store,
    reduced: HashMap<i64, ReducedRun>,
}

impl Runs<'_> {
    /// Covariance of two results, in the square of their unit; none where they share no run, or where one is no longer
    /// what its run gives.
    fn covariance(&mut self, a: &Listed, b: &Listed) -> Result<Option<f64>, Error> {
        let measured = |l: &Listed| matches!(l.amount, Some(Amount::Measured(_)));
        if !measured(a) || !measured(b) {
            return Ok(None);
        }
        let (Some((run, p)), Some((other, q))) = (self.vial(a)?, self.vial(b)?) else { return Ok(None) };
        if run != other {
            return Ok(None);
        }
        if !self.reduced.contains_key(&run) {
            let Some(row) = self.store.runs()?.into_iter().find(|r| r.id == run) else { return Ok(None) };
            let prepared = derive::prepare(self.store, find_run(self.store, &row.name)?)?;
            self.reduced.insert(run, derive::reduce(&prepared)?);
        }
        let reduced = &self.reduced[&run];
        let index = |l: &Listed, position: u32| {
            let analyte =
                Analyte { element: l.analyte.clone(), isotopes: l.isotopes.clone(), resolution: l.resolution.clone() };
            reduced.find(position, &analyte).filter(|i| {
                let net = &reduced.results[*i].net;
                l.amount.as_ref().is_some_and(|a| {
                    a.value().map(f64::to_bits) == Some(net.value.to_bits())
                        && a.u().map(f64::to_bits) == Some(net.u.to_bits())
                })
            })
        };
        let pair = index(a, p).zip(index(b, q));
        Ok(pair.map(|(i, j)| reduced.covariance(i, j)))
    }

    /// Run and position of the vial that gave a result.
    fn vial(&self, l: &Listed) -> Result<Option<(i64, u32)>, Error> {
        let row = self.store.results(&Filter::all().is("id", l.row))?.pop();
        let Some(vial) = row.and_then(|r| r.vial_id) else { return Ok(None) };
        let vial = self.store.list::<record::model::Vial>(&Filter::all().is("id", vial))?.pop();
        Ok(vial.and_then(|v| Some((v.run_id, u32::try_from(v.position).ok()?))))
    }
}
