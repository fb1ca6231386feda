//! `summary`.

use super::{input, output};
use crate::fitness::Fitness;
use crate::summary::{self, Figures, Method, MethodSummary, Percentile, Request};
use crate::{Reading, population};
use message::{Message, series as said};
use quantity::CalcError;
use serde_json::{Map, Value, json};

pub(super) fn run(v: &Value) -> Result<Value, CalcError> {
    let map = input::object(v, "input")?;
    input::only_keys(map, "input", &["values", "unit", "percentiles", "draws", "seed"])?;
    let unit = input::unit(map)?;
    let readings = readings(map)?;
    let mut request = Request {
        draws: input::whole(map, "draws", 999, 100_000)? as u32,
        seed: input::whole(map, "seed", 1, u64::MAX)?,
        ..Request::default()
    };
    if map.contains_key("percentiles") {
        request.shares = input::list(map.get("percentiles"), "percentiles")?
            .iter()
            .enumerate()
            .map(|(i, p)| Ok(input::number(p, &format!("percentiles[{i}]"))? / 100.0))
            .collect::<Result<_, CalcError>>()?;
        // The answer and its intervals name the median, whether it was asked for or not.
        if !request.shares.contains(&0.5) {
            request.shares.push(0.5);
        }
    }
    let s = summary::summary(&readings, &request).map_err(|e| e.at("values"))?;
    let mut out = Map::new();
    for m in &s.methods {
        out.insert(m.method.name().into(), method(m));
    }
    for (key, value) in [
        ("unit", json!(unit)),
        ("n", json!(s.n)),
        ("non_detects", json!(s.non_detects)),
        ("limits", s.limits.iter().map(|(l, c)| json!({"below": l, "count": c})).collect()),
        ("share_below_lowest_value", json!(s.mass_below_lowest)),
        ("lowest_value", json!(s.lowest_known)),
        ("plot_correlation", json!(s.plot_correlation)),
        ("preferred_for_mean", json!(s.preferred.map(Method::name))),
        ("upper_percentile_limit", percentile_limit(&readings)),
        ("method", json!(Message::from(said::SummaryMethod).in_english())),
        ("sources", json!(SOURCES)),
        ("warnings", output::warnings(&s.findings)),
    ] {
        out.insert(key.into(), value);
    }
    Ok(Value::Object(out))
}

const SOURCES: &[&str] = &[
    "Kaplan & Meier (1958) J. Am. Stat. Assoc. 53:457",
    "Hirsch & Stedinger (1987) Water Resources Research 23:715",
    "Helsel (2005) Nondetects and Data Analysis",
    "Cohen (1959) Technometrics 1:217",
    "Clopper & Pearson (1934) Biometrika 26:404",
    "coverage by simulation: docs/validation/series_coverage.csv",
];

fn readings(map: &Map<String, Value>) -> Result<Vec<Reading>, CalcError> {
    input::list(map.get("values"), "values")?
        .iter()
        .enumerate()
        .map(|(i, v)| {
            let field = format!("values[{i}]");
            if let Value::Number(_) = v {
                return Ok(Reading::Known(input::number(v, &field)?));
            }
            let row = input::object(v, &field)?;
            input::only_keys(row, &field, &["value", "below"])?;
            input::reading(row, &field)
        })
        .collect()
}

/// With 95 % one-sided confidence, 95 % of such values lie below: by ranks where n allows.
fn percentile_limit(readings: &[Reading]) -> Value {
    match population::percentile_upper(readings, 0.95, 0.95) {
        Ok(r) => {
            let mut v = output::reading(r);
            v["share"] = json!(0.95);
            v["confidence"] = json!(0.95);
            v
        }
        Err(e) => json!({"why_not": e.to_string()}),
    }
}

fn fitness(f: &Fitness) -> Value {
    json!({"word": f.word.said().in_english(), "why": f.why.in_english()})
}

fn method(m: &MethodSummary) -> Value {
    let fit: Map<String, Value> = m.fit.iter().map(|(q, f)| ((*q).to_string(), fitness(f))).collect();
    match &m.figures {
        Err(e) => json!({"why_not": e.to_string(), "fit_for_this": fit}),
        Ok(f) => figures(f, &fit),
    }
}

fn percentile(p: &Percentile) -> Value {
    let mut v = output::reading(p.value);
    v["percent"] = json!((1000.0 * p.share).round() / 10.0);
    v["interval_95"] = p.interval.map_or(Value::Null, |(low, high)| match low {
        Reading::Known(low) => output::interval((low, high)),
        Reading::Below(low) => json!([{"below": low}, output::end(high)]),
    });
    v
}

fn figures(f: &Figures, fit: &Map<String, Value>) -> Value {
    let mean =
        if f.mean.low < f.mean.high { json!({"from": f.mean.low, "to": f.mean.high}) } else { json!(f.mean.high) };
    let median = f.percentiles.iter().find(|p| p.share == 0.5);
    let median_value = median.map_or(Value::Null, |p| match p.value {
        Reading::Known(v) => json!(v),
        below @ Reading::Below(_) => output::reading(below),
    });
    let mean_interval = if f.mean_has_interval { output::interval(f.mean.interval) } else { Value::Null };
    json!({
        "mean": mean,
        "sd": f.sd,
        "median": median_value,
        "percentiles": f.percentiles.iter().map(percentile).collect::<Value>(),
        "intervals": {
            "mean_95": mean_interval,
            "median_95": median.map_or(Value::Null, |p| percentile(p)["interval_95"].clone()),
        },
        "fit_for_this": fit,
    })
}
