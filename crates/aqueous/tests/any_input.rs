//! Whatever is put in, there is an answer with a small residual or a refusal with its field:
//! never a panic, never a number that is none.

use aqueous::CALCULATIONS;
use proptest::prelude::*;
use quantity::CalcError;
use serde_json::{Value, json};

fn numbers() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        Just(-1.0),
        Just(1e300),
        Just(1e-300),
        (-12.0f64..6.0).prop_map(|x| 10f64.powf(x)),
        -50.0f64..1500.0,
    ]
}

fn run(name: &str, v: &Value) -> Result<Value, CalcError> {
    (CALCULATIONS.iter().find(|c| c.name == name).unwrap().run)(v)
}

fn example(name: &str) -> Value {
    serde_json::from_str(CALCULATIONS.iter().find(|c| c.name == name).unwrap().example).unwrap()
}

fn sound(answer: Result<Value, CalcError>) {
    match answer {
        Ok(v) => {
            if let Some(r) = v.get("residual") {
                assert!(r.as_f64().unwrap() <= 1e-12, "{r}");
                let ph = v["pH"].as_f64().unwrap();
                assert!((0.0..=14.0).contains(&ph), "{ph}");
            } else {
                assert!(v["alkalinity_mmol_L"].as_f64().unwrap().is_finite());
            }
        }
        Err(CalcError::Refused { field, expected, .. }) => assert!(!field.is_empty() && !expected.is_empty()),
        Err(CalcError::NotConverged { what, .. }) => assert!(!what.is_empty()),
        Err(e) => panic!("{e}"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn speciation(which in 0usize..13, x in numbers(), t in numbers(), ph in 0.0f64..14.5, change_t in any::<bool>(), hold in 0usize..4) {
        let mut v = example("speciation");
        let key = if v["analytes"][which].get("value").is_some() { "value" } else { "below" };
        v["analytes"][which][key] = json!(x);
        v["pH"] = json!(ph);
        if change_t {
            v["temperature_C"] = json!(t);
        }
        if hold > 0 {
            let phases = [json!({"solid": "calcite"}), json!({"gas": "CO2", "log10_p_atm": -3.4}), json!({"solid": "galena", "available_mol_kg": 0})];
            v["hold"] = json!(phases[..hold]);
        }
        sound(run("speciation", &v));
    }

    #[test]
    fn titration(which in 0usize..15, x in numbers(), volume in any::<bool>(), sample in numbers()) {
        let mut v = example("titration");
        v["points"][which][if volume { "acid_mL" } else { "pH" }] = json!(x);
        if which == 0 {
            v["sample_mL"] = json!(sample);
        }
        sound(run("titration", &v));
    }
}

#[test]
fn anything_but_an_object_is_refused() {
    for v in [
        json!(null),
        json!([1]),
        json!("water"),
        json!({}),
        json!({"rows": 3}),
        json!({"analytes": 3, "pH": 7, "temperature_C": 9}),
    ] {
        assert!(matches!(run("speciation", &v), Err(CalcError::Refused { .. })), "{v}");
        assert!(matches!(run("titration", &v), Err(CalcError::Refused { .. })), "{v}");
    }
}
