//! The calculations as the command line offers them: each example runs and keeps the contract.

use measurement::CALCULATIONS;
use quantity::CalcError;
use serde_json::{Value, json};

fn run(name: &str, input: &Value) -> Result<Value, CalcError> {
    let c = CALCULATIONS.iter().find(|c| c.name == name).unwrap_or_else(|| panic!("{name} is listed"));
    (c.run)(input)
}

fn good(name: &str, input: &Value) -> Value {
    run(name, input).unwrap_or_else(|e| panic!("{name}: {e}"))
}

fn refused(name: &str, input: &Value) -> String {
    run(name, input).expect_err("refused").to_string()
}

fn near(v: &Value, want: f64, tolerance: f64) {
    let got = v.as_f64().unwrap_or_else(|| panic!("{v} is a number"));
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

#[test]
fn every_example_runs_and_says_method_sources_warnings() {
    let names: Vec<_> = CALCULATIONS.iter().map(|c| c.name).collect();
    for name in
        ["detection", "line", "uncertainty", "addition", "dilution", "ratio", "control", "outliers", "conformity"]
    {
        assert!(names.contains(&name), "{name} is missing");
    }
    for c in CALCULATIONS {
        let schema: Value = serde_json::from_str(c.schema).expect("the schema is JSON");
        let example: Value = serde_json::from_str(c.example).expect("the example is JSON");
        // Every key of the example stands in the schema.
        if let Some(properties) = schema["properties"].as_object() {
            for key in example.as_object().expect("an object").keys() {
                assert!(properties.contains_key(key), "{}: {key} has no schema", c.name);
            }
        }
        let out = good(c.name, &example);
        for key in ["method", "sources", "warnings"] {
            assert!(!out[key].is_null(), "{}: {key}", c.name);
        }
        assert_eq!(good(c.name, &example), out, "{}: the same again", c.name);
    }
}

/// The keys of the contract, and Miller & Miller's weighted line (from memory).
#[test]
fn line_keeps_the_contract() {
    let out = good(
        "line",
        &json!({
            "x": [0, 2, 4, 6, 8, 10],
            "y": [0.009, 0.158, 0.301, 0.472, 0.577, 0.739],
            "u_y": [0.001, 0.004, 0.010, 0.013, 0.017, 0.022],
            "new_y": [0.1, {"value": 0.6, "u": 0.02}],
        }),
    );
    near(&out["slope"], 0.0738, 5e-5);
    near(&out["intercept"], 0.0091, 5e-5);
    for key in ["u_slope", "u_intercept", "covariance", "residual_sd", "r2"] {
        assert!(out[key].is_f64(), "{key}");
    }
    near(&out["new_x"][0]["value"], 1.23, 5e-3);
    assert!(out["new_x"][1]["u"].as_f64().expect("u") > 0.02 / 0.0738);
    assert_eq!(out["new_x"][0]["interval_95"].as_array().map(Vec::len), Some(2));
    let cubic = good("line", &json!({"x": [0, 1, 2, 3, 4, 5], "y": [0, 1, 8, 27, 64, 125], "degree": 3}));
    near(&cubic["coefficients"][3], 1.0, 1e-12);
}

#[test]
fn lines_that_cannot_be_are_refused() {
    let one = json!({"x": [5, 5, 5], "y": [1, 2, 3]});
    assert!(refused("line", &one).contains("two levels"), "{}", refused("line", &one));
    let short = json!({"x": [5, 6, 7], "y": [1, 2]});
    assert!(refused("line", &short).contains('y'));
    let odd = json!({"x": [1, 2], "y": [1, 2], "colour": 1});
    assert!(refused("line", &odd).contains("colour"));
    let flat = json!({"x": [1, 2, 3], "y": [4, 4, 4], "new_y": [4]});
    assert!(refused("line", &flat).contains("flat"));
    let scattered = good("line", &json!({"x": [0, 1, 2, 3], "y": [0, 1.5, 1.6, 3.4], "u_y": [0.01, 0.01, 0.01, 0.01]}));
    assert!(scattered["warnings"][0].as_str().expect("text").contains("scatter more"));
}

#[test]
fn uncertainty_keeps_the_contract() {
    let input = json!({
        "model": "(a/b - c)*d",
        "inputs": {
            "a": {"value": 10.0, "u": 0.1, "dist": "normal", "dof": 8},
            "b": {"value": 2.0, "u": 0.01},
            "c": {"value": 1.0, "u": 0.05, "dist": "rectangular"},
            "d": {"value": 3.0, "u": 0.02, "dist": "triangular"},
        },
        "correlations": [["a", "b", 0.3]],
        "draws": 100_000,
        "seed": 1,
    });
    let out = good("uncertainty", &input);
    near(&out["value"], 12.0, 1e-12);
    // By hand: 1.5·0.1, −7.5·0.01 with r = 0.3, −3·0.05, 4·0.02.
    let v: f64 = 0.15_f64.powi(2) + 0.075_f64.powi(2) - 2.0 * 0.3 * 0.15 * 0.075 + 0.15_f64.powi(2) + 0.08_f64.powi(2);
    near(&out["u"], v.sqrt(), 1e-12);
    near(&out["monte_carlo"]["u"], v.sqrt(), 0.01 * v.sqrt());
    for key in ["dof_eff", "coverage_k"] {
        assert!(out[key].is_f64(), "{key}");
    }
    assert_eq!(out["interval_95"].as_array().map(Vec::len), Some(2));
    assert_eq!(out["contributions"].as_array().map(Vec::len), Some(4));
    assert!(out["monte_carlo"]["agrees"].is_boolean());
    assert_eq!(out["monte_carlo"]["interval_95"].as_array().map(Vec::len), Some(2));
    let other = json!({
        "model": "n", "inputs": {"n": {"value": 5, "dist": "poisson"}}, "draws": 0,
    });
    let out = good("uncertainty", &other);
    near(&out["u"], 5.0_f64.sqrt(), 1e-12);
    assert!(out["monte_carlo"].is_null());
}

#[test]
fn uncertainty_answers_bad_input_by_name() {
    let base = |model: &str, inputs: Value, correlations: Value| json!({"model": model, "inputs": inputs, "correlations": correlations, "draws": 100_000});
    let abc = json!({"a": {"value": 1, "u": 0.1}, "b": {"value": 1, "u": 0.1}, "c": {"value": 1, "u": 0.1}});
    let impossible = json!([["a", "b", -0.9], ["a", "c", -0.9], ["b", "c", -0.9]]);
    assert!(refused("uncertainty", &base("a+b+c", abc.clone(), impossible)).contains("not positive semidefinite"));
    assert!(refused("uncertainty", &base("a+x", abc.clone(), json!([]))).contains("`x` is not an input"));
    assert!(refused("uncertainty", &base("a+b+c", abc.clone(), json!([["a", "z", 0.1]]))).contains('z'));
    assert!(refused("uncertainty", &base("a/(b - c)", abc, json!([]))).contains("division by zero"));
    let no_u = json!({"a": {"value": 1}});
    assert!(refused("uncertainty", &base("a", no_u, json!([]))).contains("inputs.a.u"));
    // Zero in 0.1 % of draws: answered, with the share.
    let zero = good("uncertainty", &base("1/n", json!({"n": {"value": 6.9, "dist": "poisson"}}), json!([])));
    let share = zero["monte_carlo"]["failed_share"].as_f64().expect("a share");
    assert!(share > 0.0005 && share < 0.002, "{share}");
    let warnings = zero["warnings"].to_string();
    assert!(warnings.contains("division by zero"), "{warnings}");
    let mixed = good(
        "uncertainty",
        &base(
            "a - b",
            json!({"a": {"value": 2, "u": 0.1, "dof": 5}, "b": {"value": 1, "half_width": 0.1, "dist": "rectangular"}}),
            json!([["a", "b", 0.5]]),
        ),
    );
    assert!(mixed["u"].is_f64() && mixed["monte_carlo"].is_null());
    assert!(mixed["warnings"].to_string().contains("no Monte Carlo"));
    let unused = good(
        "uncertainty",
        &json!({"model": "a", "inputs": {"a": {"value": 1, "u": 1}, "q": {"value": 1, "u": 1}}, "draws": 0}),
    );
    assert!(unused["warnings"].to_string().contains("the input q is not in the model"));
}

#[test]
fn ratio_says_at_least() {
    let out = good("ratio", &json!({"a": {"value": 25, "u": 2}, "b": {"value": 5, "u": 1}}));
    near(&out["interval_95"][0], 3.44, 6e-3);
    near(&out["interval_95"][1], 8.38, 6e-3);
    let open = good("ratio", &json!({"a": {"value": 25, "u": 2}, "b": {"value": 1, "u": 1}}));
    assert!(open["interval_95"]["at_least"].is_f64(), "{open}");
    assert!(open["warnings"].to_string().contains("at least"));
    let none = good("ratio", &json!({"a": {"value": 1, "u": 2}, "b": {"value": 0.5, "u": 1}}));
    assert!(none["interval_95"].is_null());
    assert!(refused("ratio", &json!({"a": {"value": 1, "u": 0.1}})).contains("both"));
    assert!(refused("ratio", &json!({"a": 1, "b": 0})).contains("zero"));
}

#[test]
fn the_other_ways_and_the_tests_answer() {
    let a = good(
        "addition",
        &json!({"added": [0, 5, 10, 15, 20, 25, 30], "signal": [0.32, 0.41, 0.52, 0.60, 0.70, 0.77, 0.89], "unit": "ng/L"}),
    );
    near(&a["concentration"]["value"], 17.3, 0.05);
    assert!(refused("addition", &json!({"added": [0, 5, 10], "signal": [1, 2, 3], "unit": "ppt"})).contains("unit"));
    let o = good(
        "outliers",
        &json!({"values": [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57], "side": "high"}),
    );
    near(&o["tests"][0]["critical"], 2.032, 5e-4);
    assert_eq!(o["tests"][0]["outlying"], json!(true));
    assert!(o["warnings"][0].as_str().expect("text").contains("a person"));
    assert!(refused("outliers", &json!({})).contains("values"));
    assert!(refused("outliers", &json!({"values": [2, 2, 2, 2]})).contains("same"));
    let c = good("conformity", &json!({"value": -5.47, "u": 0.05, "upper": -5.40, "guard": "none"}));
    near(&c["probability"], 0.919, 5e-4);
    assert!(refused("conformity", &json!({"value": 1, "u": 0.1})).contains("limits"));
    let k = good("control", &json!({"chart": "shewhart", "values": [0, 3.2, 0], "centre": 0, "sd": 1}));
    assert_eq!(k["signals"][0]["rule"], json!("beyond_three"));
    assert!(refused("control", &json!({"chart": "cusum", "values": [1, 2], "period": [1, 2]})).contains("at least 8"));
}
