//! The command line's calculations: every example runs, the contract's keys are there, faults are named.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::CALCULATIONS;
use serde_json::{Value, json};

fn run(name: &str, input: &Value) -> Result<Value, String> {
    let c = CALCULATIONS.iter().find(|c| c.name == name).unwrap();
    (c.run)(input).map_err(|e| e.to_string())
}

fn example(name: &str) -> Value {
    serde_json::from_str(CALCULATIONS.iter().find(|c| c.name == name).unwrap().example).unwrap()
}

fn close(got: &Value, want: f64, relative: f64) {
    let got = got.as_f64().unwrap();
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

#[test]
fn examples_run_and_carry_the_contract() {
    for (name, keys) in [
        ("air", vec!["readings", "under_limit_of_class", "shown_class", "volume_to_show_L", "reduction"]),
        ("contamination", vec!["stages", "total_pg"]),
        ("attribution", vec!["sources", "waters", "bottles", "cannot_separate"]),
        ("plan", vec!["designs"]),
        ("trial", vec!["bottles", "power", "pack"]),
    ] {
        let out = run(name, &example(name)).unwrap();
        for key in keys.iter().chain(&["method", "sources", "warnings"]) {
            assert!(out.get(key).is_some_and(|v| !v.is_null()), "{name}: {key}");
        }
        let c = CALCULATIONS.iter().find(|c| c.name == name).unwrap();
        serde_json::from_str::<Value>(c.schema).unwrap();
        // The same input gives the same bytes.
        assert_eq!(out.to_string(), run(name, &example(name)).unwrap().to_string());
    }
    assert_eq!(CALCULATIONS.len(), 5);
}

#[test]
fn air_of_the_contract() {
    let out = run("air", &json!({"counts":[{"size_um":0.5,"count":0}],"sampled_volume_L":28.3})).unwrap();
    close(&out["readings"][0]["upper_95_per_m3"], 105.857, 1e-4);
    assert_eq!((out["under_limit_of_class"].clone(), out["shown_class"].clone()), (json!(3), json!(5)));
    close(&out["volume_to_show_L"], 571.43, 1e-4);
    // Class 5 at 0.5 µm needs 5.68 L.
    let out =
        run("air", &json!({"counts":[{"size_um":0.5,"count":0}],"sampled_volume_L":28.3,"wanted_class":5})).unwrap();
    close(&out["volume_to_show_L"], 5.68, 1e-3);
    // A class that no volume can show at this size.
    let out = run("air", &json!({"counts":[{"size_um":5,"count":0}],"sampled_volume_ft3":1,"wanted_class":3})).unwrap();
    assert!(out["volume_to_show_L"].is_null());
    assert!(out["warnings"][1].as_str().unwrap().contains("count at a smaller size"));
}

#[test]
fn contamination_by_hand() {
    let out = run(
        "contamination",
        &json!({"bottle_mL":250,"water":{"value":0.001,"unit":"ug/L"},"stages":[
            {"stage":"open air","metal_ng_m3":5,"deposition_m_s":0.003,"mouth_cm2":10,"minutes":2,"relative_u":0},
            {"stage":"acid","pg_per_mL":3,"mL":1,"relative_u":0}]}),
    )
    .unwrap();
    close(&out["stages"][0]["pg"], 1.8, 1e-9);
    close(&out["total_pg"], 4.8, 1e-9);
    close(&out["stages"][1]["share_of_water"], 3.0 / 250.0, 1e-9);
}

#[test]
fn attribution_answers_near_its_truth() {
    // The example was made with 3 pg/mL acid, 0.15 pg/day, 2.5 pg an opening and 1 ng/L.
    let out = run("attribution", &example("attribution")).unwrap();
    let inside = |v: &Value, truth: f64| {
        let i = v["interval_95"].as_array().unwrap();
        assert!(i[0].as_f64().unwrap() <= truth && truth <= i[1].as_f64().unwrap(), "{v}");
    };
    for (k, truth) in [3.0, 0.15, 2.5].into_iter().enumerate() {
        inside(&out["sources"][k], truth);
    }
    inside(&out["waters"][0], 1.0);
    assert!(out["bottles"][0]["water_share"].as_f64().unwrap() > 0.9);
    // What was the same in every blank is named.
    let mut same = example("attribution");
    for b in same["bottles"].as_array_mut().unwrap() {
        let days = b["exposures"]["days"].clone();
        b["exposures"]["openings"] = days;
    }
    let out = run("attribution", &same).unwrap();
    assert_eq!(out["cannot_separate"][0], json!(["days", "openings"]));
    assert_eq!(out["sources"][1]["identifiable"], false);
}

#[test]
fn a_trial_is_evaluated() {
    let mut input = example("trial");
    let design = run("trial", &input).unwrap();
    let masses: Vec<Value> = design["bottles"]
        .as_array()
        .unwrap()
        .iter()
        .enumerate()
        .map(
            |(i, r)| {
                if r[3] == "with" { json!({"value": 30.0 + i as f64 * 0.1, "u": 1.0}) } else { json!({"below": 5.0}) }
            },
        )
        .collect();
    input["masses_pg"] = json!(masses);
    let out = run("trial", &input).unwrap();
    assert_eq!(out["evaluation"]["effects"][0]["step"], "cabinet off");
    assert_eq!(out["evaluation"]["scale"], "score");
}

#[test]
fn a_plan_for_each_question() {
    let mut input = example("plan");
    for q in [
        json!({"kind":"limit","level":0.9,"limit":{"value":0.0012,"unit":"ug/L"}}),
        json!({"kind":"lower","a":0.2,"b":0.3}),
        json!({"kind":"trend","level":1,"percent_per_year":5,"years":6,"visits_per_year":2,"natural_share":0.1}),
        json!({"kind":"detection-limit","target":0.04}),
    ] {
        input["question"] = q;
        let out = run("plan", &input).unwrap();
        let d = &out["designs"][0];
        for key in ["bottles", "blanks", "detection_limit", "power", "price", "buys", "pack"] {
            assert!(!d[key].is_null(), "{key}");
        }
    }
}

#[test]
fn a_plan_holds_what_its_checks_ask_for() {
    let mut input = example("plan");
    let free = run("plan", &input).unwrap();
    assert_eq!(free["requires"], json!([]));
    input["required"] = json!(["run.blank-count", "number.duplicates", "number.recovery", "cool-box.seal"]);
    input["warned"] = json!(["run.second-source", "number.replicates"]);
    input["prices"]["vial"] = json!(25);
    let out = run("plan", &input).unwrap();
    for d in out["designs"].as_array().unwrap() {
        let n = |key: &str| d[key].as_u64().unwrap();
        assert!(n("field_blanks") >= 3 && n("samples") >= 2 && n("spikes") >= 2, "{d}");
        assert_eq!((n("second_sources"), n("drift_checks")), (1, 0));
        let pack = d["pack"].as_array().unwrap();
        assert_eq!(pack.last().unwrap(), "for the run: 1 standard of a second source");
    }
    assert_eq!(
        out["requires"],
        json!([
            "run.blank-count decides: at least 3 field blanks",
            "number.duplicates decides: at least 2 sample bottles of each well",
            "number.recovery decides: at least 1 spike in each water",
            "run.second-source warns: at least 1 standard of a second source"
        ])
    );
    let warned = |out: &Value, part: &str| {
        out["warnings"].as_array().unwrap().iter().any(|w| w.as_str().unwrap().contains(part))
    };
    assert!(warned(&out, "met by care rather than by numbers: cool-box.seal"));
    assert!(!warned(&out, "price of a vial"));
    // A spike that scatters by more than half the window decides no recovery, however many there are.
    input["spike_sd"] = json!(0.25);
    assert!(warned(&run("plan", &input).unwrap(), "no number of spikes"));
    input["required"] = json!(["number.recoverie"]);
    let message = run("plan", &input).unwrap_err();
    assert!(message.contains("required") && message.contains("number.recovery"), "{message}");
}

#[test]
fn attribution_says_what_counts_as_the_waters() {
    let has = |out: &Value, part: &str| {
        let warnings = out["warnings"].as_array().unwrap();
        assert!(warnings.iter().any(|w| w.as_str().unwrap().contains(part)), "{part}: {warnings:?}");
    };
    let mut input = example("attribution");
    let out = run("attribution", &input).unwrap();
    has(&out, "Metal that no blank met counts as the water’s");
    has(&out, "would show in the fills of different volume");
    assert_eq!(out["converged"], true);
    assert!(out["waters"][0]["before_recovery_ng_l"].is_null());
    // A filter that samples alone met, and groups of their own.
    input["sources"].as_array_mut().unwrap().push(json!("filter"));
    for (i, b) in input["bottles"].as_array_mut().unwrap().iter_mut().enumerate() {
        b["exposures"]["filter"] = json!(i32::from(i == 0));
        b["groups"] = json!({"lot": if i % 2 == 0 { "14" } else { "15" }});
    }
    let filtered = run("attribution", &input).unwrap();
    has(&filtered, "no blank met: filter");
    let groups = filtered["unseen"]["groups"].as_array().unwrap();
    assert!(groups.iter().any(|g| g["by"] == "lot" && g["group"] == "15"), "{groups:?}");
    // The value before the recovery stands beside it: 3.30 beside 3.10 at 94 %.
    let mut input = example("attribution");
    let before = out["waters"][0]["ng_l"].as_f64().unwrap();
    input["recovery"] = json!({"value": 0.94, "u": 0.01});
    let out = run("attribution", &input).unwrap();
    close(&out["waters"][0]["before_recovery_ng_l"], before, 1e-3);
    close(&out["waters"][0]["ng_l"], before / 0.94, 1e-3);
    has(&out, "is divided by a recovery of 94.0 %; before, it was");
    input["bottles"][0]["groups"] = json!({"lot": 14});
    assert!(run("attribution", &input).unwrap_err().contains("bottles[0].groups.lot"));
}

#[test]
fn faults_are_named() {
    let check = |name: &str, input: Value, part: &str| {
        let message = run(name, &input).unwrap_err();
        assert!(message.contains(part), "{message}");
    };
    check("air", json!({"counts":[{"size_um":0.5,"count":0}]}), "sampled_volume_L: found nothing");
    check("air", json!({"counts":[{"size_um":0.5,"count":0.5}],"sampled_volume_L":1}), "counts[0]");
    check("air", json!({"counts":[{"size_um":0.5,"count":0}],"sampled_volume_L":0}), "sampled volume");
    check("air", json!({"counts":[{"size_um":0.5,"count":0}],"sampled_volume_L":1,"wanted_class":12}), "1 to 9");
    check(
        "contamination",
        json!({"bottle_mL":250,"stages":[{"stage":"air","metal_ng_m3":1}]}),
        "stages[0].deposition_m_s",
    );
    check("contamination", json!({"bottle_mL":250,"stages":[{"stage":"luck"}]}), "a stage without numbers");
    let minutes = json!({"bottle_mL":250,"stages":[{"stage":"air","metal_ng_m3":1,"deposition_m_s":0.01,"mouth_cm2":5,"minutes":-1}]});
    check("contamination", minutes, "minutes open of \"air\"");
    let with = |change: &dyn Fn(&mut Value)| {
        let mut v = example("attribution");
        change(&mut v);
        v
    };
    check("attribution", with(&|v| v["bottles"][3]["exposures"] = json!({})), "a blank that met nothing");
    check("attribution", with(&|v| v["bottles"][3]["exposures"]["gloves"] = json!(1)), "\"gloves\"");
    check("attribution", with(&|v| v["bottles"][0]["mass_pg"] = json!({"below":3})), "a limit alone cannot be fitted");
    check("attribution", with(&|v| v["bottles"][0]["mass_pg"] = json!({"value":3})), "no u");
    check("attribution", with(&|v| v["bottles"][0]["volume_mL"] = json!(0)), "volume of bottle S1");
    check("attribution", with(&|v| v["bottles"][0]["kind"] = json!("jar")), "sample or blank");
    check("attribution", with(&|v| v["bottles"].as_array_mut().unwrap().truncate(5)), "blanks: found 2 given");
    check("plan", json!({"question":{"kind":"guess"}}), "question.kind");
    check("plan", json!({"question":{"kind":"detect","level":1}}), "between_bottles_pg");
    check("trial", json!({"steps":["a","b"]}), "3 to 47");
}
