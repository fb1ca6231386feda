//! `limpid calc`: every example runs; the keys of the contract for the calculations of a
//! measurement. The numbers are checked where they are computed, in crates/measurement/tests.

use crate::desk::Desk;
use serde_json::Value;

#[track_caller]
fn has(document: &Value, keys: &[&str]) {
    for key in keys {
        assert!(document.get(key).is_some(), "no {key:?} in {document:#}");
    }
}

#[test]
fn every_calculation_has_a_schema_and_an_example_that_runs() {
    let desk = Desk::new();
    let list = desk.run(&["calc", "--list"]).done();
    let names: Vec<&str> = list.lines().map(|l| l.split_whitespace().next().unwrap()).collect();
    for wanted in ["detection", "line", "uncertainty"] {
        assert!(names.contains(&wanted), "{list}");
    }
    for name in names {
        let schema = desk.run(&["calc", "--schema", name]).json();
        assert!(schema.is_object(), "{name}");
        let example = desk.run(&["calc", "--example", name]).done();
        let answer = desk.calc(name, &example).json();
        has(&answer, &["method", "sources", "warnings"]);
        assert!(answer["method"].as_str().is_some_and(|m| !m.is_empty()), "{name}");
        assert!(answer["sources"].is_array() && answer["warnings"].is_array(), "{name}");
        let words = desk.calc(name, &example).done().to_lowercase();
        assert!(!words.contains("\"nan\"") && !words.contains("infinity"), "{name}");
    }
}

const BLANKS: &str = "[0.11, 0.20, 0.15, 0.12, 0.11, 0.17, 0.14]";

#[test]
fn detection_in_its_four_ways() {
    let desk = Desk::new();
    let ask = |input: String| desk.calc("detection", &input).json();
    let net = |answer: &Value, unit: &str| {
        has(answer, &["critical_value", "detection_limit", "quantification_limit", "dof"]);
        for key in ["critical_value", "detection_limit"] {
            assert_eq!((&answer[key]["scale"], &answer[key]["unit"]), (&"net".into(), &unit.into()), "{answer:#}");
        }
        assert!(answer["critical_value"]["value"].as_f64() < answer["detection_limit"]["value"].as_f64());
    };
    let answer = ask(format!(r#"{{"blanks":{BLANKS},"unit":"ng/L","alpha":0.05,"beta":0.05}}"#));
    net(&answer, "ng/L");
    assert_eq!(answer["mdl_blank"]["scale"], "gross");
    let answer = ask(format!(r#"{{"spiked":[1.1,1.2,1.0,0.9,1.1,1.05,0.98],"blanks":{BLANKS},"unit":"ng/L"}}"#));
    net(&answer, "ng/L");
    assert_eq!((&answer["mdl_blank"]["scale"], &answer["mdl_spiked"]["scale"]), (&"gross".into(), &"gross".into()));
    net(&ask(r#"{"x":[0,1,2,3,4,5],"y":[0.1,1.1,2.05,2.9,4.1,5.0],"unit":"ng/L"}"#.into()), "ng/L");
    net(&ask(r#"{"blank_counts":108,"blank_time_s":6000,"sample_time_s":3000}"#.into()), "counts");
}

#[test]
fn line() {
    let answer =
        Desk::new().calc("line", r#"{"x":[0,1,2,3],"y":[0.1,1.1,2.05,2.9],"u_y":[0.1,0.1,0.1,0.1],"new_y":[1.5]}"#);
    let answer = answer.json();
    has(&answer, &["slope", "intercept", "u_slope", "u_intercept", "covariance", "residual_sd", "r2", "new_x"]);
    assert!(answer["new_x"][0]["value"].is_f64() && answer["new_x"][0]["u"].is_f64());
}

#[test]
fn uncertainty_and_its_seed() {
    let desk = Desk::new();
    let ask = |seed: u64| {
        let input = format!(
            r#"{{"model":"(a/b - c)*d","inputs":{{"a":{{"value":10,"u":0.1,"dist":"normal","dof":8}},"b":{{"value":2,"u":0.01}},"c":{{"value":1,"u":0.02}},"d":{{"value":3,"u":0.03}}}},"correlations":[["a","b",0.3]],"draws":20000,"seed":{seed}}}"#
        );
        desk.calc("uncertainty", &input).json()
    };
    let answer = ask(1);
    has(&answer, &["value", "u", "dof_eff", "coverage_k", "interval_95", "contributions", "monte_carlo"]);
    has(&answer["contributions"][0], &["input", "share"]);
    has(&answer["monte_carlo"], &["value", "u", "interval_95", "agrees"]);
    assert_eq!(answer, ask(1), "same seed, same digits");
    assert_ne!(answer["monte_carlo"]["u"], ask(2)["monte_carlo"]["u"]);
    // (10/2 − 1)·3, by hand.
    assert!((answer["value"].as_f64().unwrap() - 12.0).abs() < 1e-12);
}

#[test]
fn standard_input_is_read_where_no_file_is_named() {
    use std::io::Write as _;
    use std::process::Stdio;
    let desk = Desk::new();
    let mut command = desk.command(&["calc", "line"]);
    let mut running = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    running.stdin.take().unwrap().write_all(br#"{"x":[0,1,2,3],"y":[0.1,1.1,2.05,2.9]}"#).unwrap();
    has(&crate::desk::Ran::of(running.wait_with_output().unwrap()).json(), &["slope"]);
}

#[test]
fn input_that_cannot_be_met_is_refused() {
    let desk = Desk::new();
    let refused = |name: &str, input: &str, parts: &[&str]| {
        let ran = desk.calc(name, input);
        assert_eq!(ran.out, "");
        ran.fails(1, parts);
    };
    refused("line", "{", &["input.json", "line 1 column 1"]);
    refused("line", r#"{"x":[0,1,2],"y":[1,2,NaN]}"#, &["input.json", "column"]);
    refused("line", r#"{"x":[1],"y":[2]}"#, &["found 1", "at least 3"]);
    refused("detection", r#"{"blanks":[0.1],"unit":"ng/L"}"#, &["blanks", "found 1", "at least 2"]);
    refused("detection", r#"{"blanks":[0.1,0.2,0.3],"unit":"ppt"}"#, &["ppt", "ambiguous", "ng/L"]);
}
