//! The command-line answers: every example runs, keys of the contract are there, refusals name
//! their field.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use quantity::CalcError;
use serde_json::{Value, json};

fn run(name: &str, input: &Value) -> Result<Value, CalcError> {
    let c = series::CALCULATIONS.iter().find(|c| c.name == name).unwrap();
    (c.run)(input)
}

#[test]
fn every_example_runs_and_carries_the_keys_of_the_contract() {
    for c in series::CALCULATIONS {
        let input: Value = serde_json::from_str(c.example).unwrap();
        let schema: Value = serde_json::from_str(c.schema).unwrap();
        assert_eq!(schema["type"], "object");
        let out = (c.run)(&input).unwrap();
        let keys: &[&str] = match c.name {
            "summary" => &["product limit", "order statistics", "likelihood lognormal", "likelihood gamma"],
            "trend" => &[
                "S",
                "tau",
                "p",
                "slope_per_year",
                "interval_95",
                "intercept",
                "serial_correlation",
                "step",
                "answer",
                "p_serial",
                "correlation",
                "interval_95_serial",
            ],
            _ => &["statistic", "p", "shift", "interval_95"],
        };
        for key in keys.iter().chain(&["method", "sources", "warnings"]) {
            assert!(out.get(key).is_some(), "{}: {key}", c.name);
        }
        assert_eq!(out["unit"], "ng/L");
        assert_eq!(out, (c.run)(&input).unwrap(), "the same input, the same answer");
    }
}

#[test]
fn the_summary_says_what_is_fit() {
    let c = series::CALCULATIONS.iter().find(|c| c.name == "summary").unwrap();
    let out = (c.run)(&serde_json::from_str(c.example).unwrap()).unwrap();
    for m in ["product limit", "order statistics", "likelihood lognormal", "likelihood gamma"] {
        for key in ["mean", "sd", "median", "percentiles", "intervals", "fit_for_this"] {
            assert!(out[m].get(key).is_some(), "{m}: {key}");
        }
        let word = out[m]["fit_for_this"]["mean"]["word"].as_str().unwrap();
        assert!(["fit", "with care", "not fit"].contains(&word));
    }
}

fn check_refusal(name: &str, input: &Value, field: &str, found: &str) {
    match run(name, input) {
        Err(CalcError::Refused { field: f, found: g, .. }) => {
            assert_eq!(f, field, "{input}");
            assert!(g.contains(found), "{g}");
        }
        other => panic!("{input}: {other:?}"),
    }
}

#[test]
fn refusals_name_their_field() {
    let row = |v: Value| json!({"date": "2009-05-12", "value": v});
    let trend = |rows: Value| json!({"series": rows});
    check_refusal("trend", &trend(json!([row(json!("n.d."))])), "series[0].value", "n.d.");
    check_refusal("trend", &trend(json!([{"date": "2023-02-29", "value": 1}])), "series[0].date", "2023-02-29");
    check_refusal("trend", &trend(json!([{"date": "2024-02-29"}])), "series[0]", "neither");
    check_refusal("trend", &trend(json!([{"date": "2024-02-29", "value": 1, "below": 2}])), "series[0]", "both");
    check_refusal("trend", &json!({"series": [], "seasons": "month"}), "seasons", "not known");
    check_refusal("trend", &json!({"series": [row(json!(1))], "season": "moon"}), "season", "moon");
    check_refusal("trend", &trend(json!([row(json!(1))])), "series", "there is 1");
    check_refusal("summary", &json!({"values": [{"below": 1}, {"below": 2}]}), "values", "at most 77.6 %");
    check_refusal("summary", &json!({"values": [{"value": 1}], "unit": "ppt"}), "unit", "ppt");
    check_refusal("summary", &json!({"values": 3}), "values", "3");
    check_refusal("compare", &json!({"groups": {"a": [1]}}), "groups", "there is 1");
    check_refusal("compare", &json!({"groups": {"a": [1], "b": [2]}, "weight": "x"}), "weight", "x");
    check_refusal("compare", &json!({"groups": {"a": [{"value": "?"}], "b": [2]}}), "groups.a[0].value", "?");
}

#[test]
fn a_trend_with_everything_asked_for() {
    let series: Vec<Value> = (0..48)
        .map(|i| {
            let month = 1 + 3 * (i % 4);
            let value = 2.0 + 0.1 * f64::from(i) + f64::from((i * 5) % 7);
            if i % 6 == 1 {
                json!({"date": format!("{}-{month:02}-15", 2000 + i / 4), "below": value})
            } else {
                json!({"date": format!("{}-{month:02}-15", 2000 + i / 4), "value": value})
            }
        })
        .collect();
    let out = run(
        "trend",
        &json!({
            "series": series, "unit": "ng/L", "season": "quarter", "steps": ["2006-01-01"],
            "permutations": 500, "smooth_years": 3,
            "power": {"percent_per_year": 5, "per_year": 4, "sd_ln": 0.4}
        }),
    )
    .unwrap();
    assert_eq!(out["seasonal"]["by"], "quarter");
    assert_eq!(out["seasonal"]["seasons"].as_array().unwrap().len(), 4);
    assert!(out["smooth"].as_array().unwrap().len() > 30);
    assert_eq!(out["given_steps"][0]["date"], "2006-01-15");
    assert!(out["power"]["more_years"].is_u64());
    // With seasons p, its origin and tau are those of the seasonal test.
    assert!(out["p_from"].as_str().unwrap().contains("orders of the years"));
    assert_eq!((&out["p"], &out["tau"]), (&out["seasonal"]["p"], &out["seasonal"]["tau"]));
    assert!(out["p_serial"].as_f64().unwrap() >= out["p"].as_f64().unwrap());
    assert_eq!(out["correlation"]["told"], "estimated");
}

#[test]
fn pairs_by_date() {
    let input = json!({"paired": true, "groups": {
        "a": [{"date": "2001-05-01", "value": 1.0}, {"date": "2002-05-01", "value": 2.0}, {"date": "2003-05-01", "value": 2.0}],
        "b": [{"date": "2002-05-01", "value": 2.5}, {"date": "2001-05-01", "below": 0.4}]
    }});
    let out = run("compare", &input).unwrap();
    assert_eq!(out["pairs"], 2);
    assert_eq!((&out["second_above"], &out["second_below"]), (&json!(1), &json!(1)));
}
