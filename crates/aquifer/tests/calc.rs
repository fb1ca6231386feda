//! The command line's calculations: every example runs, the contract's keys are there, faults are named.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use aquifer::CALCULATIONS;
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
        ("well", vec!["flow_L_min", "u", "volume_m3", "contact_min", "head_m"]),
        (
            "flow-test",
            vec!["transmissivity_m2_d", "storage_coefficient", "u_transmissivity_m2_d", "residuals", "model_holds"],
        ),
        ("mixing", vec!["flow", "share", "values"]),
        ("travel", vec!["travel_years", "capture_width_m"]),
        ("age", vec!["tritium", "models", "union", "verdicts", "findings", "histories"]),
        ("isotopes", vec!["water_isotopes", "noble_gases", "carbon_14", "chloride"]),
    ] {
        let out = run(name, &example(name)).unwrap();
        for key in keys.iter().chain(&["method", "sources", "warnings"]) {
            assert!(out.get(key).is_some_and(|v| !v.is_null()), "{name}: {key}");
        }
        let c = CALCULATIONS.iter().find(|c| c.name == name).unwrap();
        serde_json::from_str::<Value>(c.schema).unwrap();
    }
    assert_eq!(CALCULATIONS.len(), 6);
}

#[test]
fn well_numbers() {
    let out = run("well", &example("well")).unwrap();
    close(&out["flow_L_min"], 5.625586, 1e-6);
    close(&out["volume_m3"], 1.08875035, 1e-8);
    close(&out["contact_min"], 1088.75035 / 5.625586, 1e-6);
    // 0.42 bar at 9.2 °C, density 999.77 kg/m³: 4.2838 m, and the gauge 0.8 m up.
    close(&out["head_m"], 42_000.0 / (999.77 * 9.80665) + 0.8, 1e-5);
    close(&out["bottle_fill_seconds"], 0.25 / 5.625586 * 60.0, 1e-6);
    assert_eq!(out["steady"][0]["since_min"], 0.0);
    close(&out["pipe_adds_curve"][10]["ng_l"], out["pipe_adds"]["ng_l"].as_f64().unwrap(), 1e-12);
}

#[test]
fn feet_gallons_and_psi() {
    let out = run(
        "well",
        &json!({"sections":[{"from_ft":0,"to_ft":200,"diameter_in":6,"material":"steel"}],
                "fills":[{"volume_gal":1,"seconds":20},{"volume_gal":1,"seconds":20.5},{"volume_gal":1,"seconds":19.8}],
                "gauge_psi":6,"gauge_height_ft":3,"temperature_C":10}),
    )
    .unwrap();
    // 1 US gal = 3.785411784 L, in 20, 20.5, 19.8 s.
    close(&out["flow_L_min"], 3.785411784 * 20.0 * (1.0 / 20.0 + 1.0 / 20.5 + 1.0 / 19.8), 1e-12);
    close(&out["volume_m3"], std::f64::consts::PI * 0.0762f64.powi(2) * 60.96, 1e-12);
    // 6 psi = 41 368.54 Pa: 4.2197 m of water, and 0.9144 m.
    close(&out["head_m"], 41368.5438 / (999.70 * 9.80665) + 0.9144, 1e-5);
}

#[test]
fn the_flowing_well_in_its_own_units() {
    // Lohman 1972 (data from memory): T near 11.6 ft²/d = 1.078 m²/d.
    let series: Vec<Value> = include_str!("data/flowing_well_recalled.csv")
        .lines()
        .skip(1)
        .map(|l| {
            let f: Vec<f64> = l.split(',').map(|x| x.parse().unwrap()).collect();
            json!({"t_min": f[0], "Q_gpm": f[1]})
        })
        .collect();
    let out =
        run("flow-test", &json!({"kind":"flowing","drawdown_ft":92.33,"radius_ft":0.276,"series":series})).unwrap();
    close(&out["transmissivity_m2_d"], 11.6 * 0.3048 * 0.3048, 0.05);
    assert_eq!(out["dropped"].as_array().unwrap().len(), 3);
    assert!(out["straight_line"]["transmissivity_m2_d"].is_number());
}

#[test]
fn mixing_and_travel_numbers() {
    let out = run("mixing", &example("mixing")).unwrap();
    close(&out["share"]["overflow"]["value"], (40.0 / 60.0) / (90.0 + 40.0 / 60.0), 1e-12);
    assert_eq!(out["values"]["NO3"]["between"].as_array().unwrap().len(), 2);
    let out =
        run("travel", &json!({"distance_m":6000,"gradient":0.004,"conductivity_m_s":1e-5,"porosity":0.2})).unwrap();
    close(&out["travel_years"]["median"], 950.6, 1e-4);
    let out =
        run("travel", &json!({"distance_km":6,"gradient":{"from":0.002,"to":0.006},"formation":"clean sand"})).unwrap();
    assert!(out["warnings"][1].as_str().unwrap().contains("recalled"));
    let again =
        run("travel", &json!({"distance_km":6,"gradient":{"from":0.002,"to":0.006},"formation":"clean sand"})).unwrap();
    assert_eq!(out.to_string(), again.to_string());
}

#[test]
fn faults_are_named() {
    let check = |name: &str, input: Value, part: &str| {
        let message = run(name, &input).unwrap_err();
        assert!(message.contains(part), "{message}");
    };
    let section = json!({"from_m":0,"to_m":60,"radius_m":0.076,"material":"steel"});
    check("well", json!({}), "no fills, gauge or readings");
    check("well", json!({"gauge_bar":0.4}), "gauge_height_m: found nothing");
    check(
        "well",
        json!({"sections":[{"from_m":0,"to_ft":60,"radius_m":0.076}],"flow_L_min":1}),
        "mixed units: ft beside m",
    );
    check("well", json!({"sections":[{"from_m":0,"from_ft":0,"to_m":60,"radius_m":0.076}]}), "mixed units");
    check(
        "well",
        json!({"sections":[section],"depth_m":70,"screens":[{"from_m":60,"to_m":80}],"flow_L_min":1}),
        "below the bottom of the well",
    );
    check(
        "well",
        json!({"layers":[{"from_m":0,"to_m":20,"name":"clay"},{"from_m":10,"to_m":30,"name":"sand"}],"flow_L_min":1}),
        "overlaps",
    );
    check("well", json!({"fills":[{"volume_L":1,"seconds":0}]}), "time of fill 1");
    check("well", json!({"fills":[{"seconds":9}]}), "fills[0].volume: found nothing");
    check("well", json!({"fills":[{"volume_L":1,"seconds":8},{"volume_gal":1,"seconds":8}]}), "mixed units");
    check("flow-test", json!({"kind":"slug","series":[]}), "flowing, pumped or recovery");
    let two = json!([{"t_min":1,"Q_L_min":5},{"t_min":2,"Q_L_min":4}]);
    check(
        "flow-test",
        json!({"kind":"flowing","drawdown_m":28,"radius_m":0.08,"series":two}),
        "readings of flow: found 2 given",
    );
    let zero = json!([{"t_min":1,"Q_L_min":5},{"t_min":2,"Q_L_min":0},{"t_min":3,"Q_L_min":4},{"t_min":4,"Q_L_min":3}]);
    check("flow-test", json!({"kind":"flowing","drawdown_m":28,"radius_m":0.08,"series":zero}), "flow of reading 2");
    let rising =
        json!([{"t_min":1,"Q_L_min":2},{"t_min":2,"Q_L_min":3},{"t_min":3,"Q_L_min":4},{"t_min":4,"Q_L_min":5}]);
    check("flow-test", json!({"kind":"flowing","drawdown_m":28,"radius_m":0.08,"series":rising}), "does not fall");
    let mixed = json!([{"t_min":1,"Q_L_min":5},{"t_s":2,"Q_L_min":4}]);
    check("flow-test", json!({"kind":"flowing","drawdown_m":28,"radius_m":0.08,"series":mixed}), "mixed units");
    check("mixing", json!({"ends":[]}), "waters to mix");
    check("mixing", json!({"ends":[{"name":"a","flow":{"value":1,"unit":"ppt"}},{"name":"b"}]}), "ends[0].flow");
    check("travel", json!({"gradient":0.004}), "distance_m");
    check("isotopes", json!({}), "one of water");
    let water = json!({"d18O":-10,"u_d18O":0.1,"d2H":-70,"u_d2H":1});
    check("isotopes", json!({"water":water}), "scale of the δ values: found none said");
    check("isotopes", json!({"scale":"VSMOW","water":{"d18O":-10,"d2H":-70}}), "water.u_d18O: found nothing");
    check("isotopes", json!({"scale":"VSMOW","water":water,"rain":[water,water]}), "samples of rain");
    check("isotopes", json!({"carbon_14":{"pMC":40,"u_pMC":0.3}}), "percent modern without saying which");
    check("isotopes", json!({"carbon_14":{"years":9000,"u_years":40}}), "years without a half-life");
    let ne = json!({"gas":"Ne","mol_kg":11,"u_mol_kg":0.1});
    check("isotopes", json!({"noble_gases":{"height_m":0,"gases":[ne]}}), "look at the unit");
    check("isotopes", json!({"noble_gases":{"height_m":0,"bubbles":true,"gases":[]}}), "sample without bubbles");
    check("travel", json!({"distance_m":1000}), "recharge_level_m with head_level_m");
    check("travel", json!({"distance_m":1,"gradient":0.004,"formation":"cheese"}), "one of gravel");
}

#[test]
fn age_gates_gases_and_names_faults() {
    let mut input = example("age");
    let out = run("age", &input).unwrap();
    // The example's water holds sulfide: CFC-12 is one-sided and CFC-11 refused, both said.
    assert_eq!(out["gases"]["CFC-12"]["use"], "not-older-than");
    assert_eq!(out["gases"]["CFC-11"]["use"], "refused");
    assert!(
        out["models"]
            .as_array()
            .unwrap()
            .iter()
            .all(|m| m["model"].is_string() && m["p"].is_null() == (m["tested"] != "tested"))
    );
    assert!(out["comparison"]["sentence"].is_string());
    assert_eq!(out["next"]["single"].as_array().unwrap().len(), 2);
    let refuse = |input: &Value, part: &str| {
        let message = run("age", input).unwrap_err();
        assert!(message.contains(part), "{message}");
    };
    let tracer = |change: &dyn Fn(&mut Value)| {
        let mut other = input.clone();
        change(&mut other["tracers"][0]);
        other
    };
    refuse(&tracer(&|t| t["unit"] = json!("")), "without a unit");
    refuse(&tracer(&|t| t["tracer"] = json!("3X")), "3He_tri");
    refuse(&tracer(&|t| t["u"] = Value::Null), "tracers[0].u");
    refuse(&tracer(&|t| t["below"] = json!(0.1)), "one of value and below");
    input["sampled_year"] = Value::Null;
    refuse(&input, "sampled_year");
    let mut input = example("age");
    input["histories"][0]["background"] = Value::Null;
    refuse(&input, "background of 3H before");
    let mut input = example("age");
    input["A0"] = Value::Null;
    refuse(&input, "A0, carbon-14 at recharge");
}

/// Every number of the example at extremes: answered or refused, nothing breaks off, nothing is "no number".
#[test]
fn age_with_absurd_numbers_is_answered_or_refused() {
    fn places(v: &Value, place: &str, out: &mut Vec<String>) {
        match v {
            Value::Object(map) => map.iter().for_each(|(k, v)| places(v, &format!("{place}/{k}"), out)),
            Value::Array(items) => {
                items.iter().take(2).enumerate().for_each(|(i, v)| places(v, &format!("{place}/{i}"), out));
            }
            Value::Number(_) => out.push(place.into()),
            _ => {}
        }
    }
    let calculation = CALCULATIONS.iter().find(|c| c.name == "age").unwrap();
    let mut example = example("age");
    example["models"] = json!(["exponential", "piston-dead"]);
    example["draws"] = json!(1000);
    let mut all = vec![];
    places(&example, "", &mut all);
    assert!(all.len() > 40);
    for place in all {
        for x in [0.0, -1.0, 9e59, 2e-60, 1e15, 1e7] {
            let mut input = example.clone();
            *input.pointer_mut(&place).unwrap() = json!(x);
            if let Ok(out) = calculation.answer(&input) {
                let text = out.to_string();
                assert!(!text.contains("NaN") && !text.contains("null"), "{place} = {x}: {text}");
            }
        }
    }
}
