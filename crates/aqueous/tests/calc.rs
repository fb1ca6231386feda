//! The command-line functions: examples, keys of the contract, refusals.

use aqueous::CALCULATIONS;
use quantity::CalcError;
use serde_json::{Value, json};

fn run(name: &str, v: &Value) -> Result<Value, CalcError> {
    let c = CALCULATIONS.iter().find(|c| c.name == name).unwrap();
    (c.run)(v)
}

fn example(name: &str) -> Value {
    let c = CALCULATIONS.iter().find(|c| c.name == name).unwrap();
    serde_json::from_str(c.example).unwrap()
}

fn saturation<'v>(v: &'v Value, solid: &str) -> &'v Value {
    v["saturation"].as_array().unwrap().iter().find(|s| s["solid"] == solid).unwrap()
}

#[test]
fn examples_run_and_answer_every_key_of_the_contract() {
    let v = run("speciation", &example("speciation")).unwrap();
    for key in [
        "pH",
        "ionic_strength_mol_kg",
        "charge_balance_percent",
        "conductivity_uS_cm",
        "species",
        "saturation",
        "gases",
        "redox",
        "iterations",
        "residual",
        "method",
        "sources",
        "warnings",
    ] {
        assert!(!v[key].is_null(), "{key}");
    }
    for key in ["name", "molality", "activity", "log10_gamma", "element", "share"] {
        assert!(v["species"][1].get(key).is_some(), "{key}");
    }
    for key in ["solid", "saturation_index", "u", "log10_IAP", "log10_K", "word"] {
        assert!(v["saturation"][0].get(key).is_some(), "{key}");
    }
    assert!(v["residual"].as_f64().unwrap() <= 1e-12);
    // By hand: Ca 52.1, Mg 11.4, Na 16.8, K 2.4, Fe 0.082, Mn 0.021 against Cl 12.6, SO4 14.9 mg/L and 190 mg/L CaCO3.
    let cations = 52.1 / 20.039 + 11.4 / 12.1525 + 16.8 / 22.9898 + 2.4 / 39.0983 + 0.082 / 27.9225 + 0.021 / 27.469;
    let anions = 12.6 / 35.45 + 14.9 / 48.03 + 190.0 / 50.043;
    // 0.005: atomic weights to five digits.
    let by_hand = 100.0 * (cations - anions) / (cations + anions);
    assert!((v["charge_balance_percent"].as_f64().unwrap() - by_hand).abs() < 0.005, "{by_hand}");
    assert_eq!(v["charge_balance"]["answer"], "inside");
    // Shares of one element add up to one.
    let sum: f64 = v["species"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|s| s["element"] == "Ca")
        .map(|s| s["share"].as_f64().unwrap())
        .sum();
    assert!((sum - 1.0).abs() < 1e-11, "{sum}");
    let t = run("titration", &example("titration")).unwrap();
    for key in ["alkalinity_mmol_L", "u", "end_points", "points_used", "method", "sources", "warnings"] {
        assert!(!t[key].is_null(), "{key}");
    }
}

#[test]
fn schemas_name_every_key_of_their_example() {
    for c in CALCULATIONS {
        let schema: Value = serde_json::from_str(c.schema).unwrap();
        let example: Value = serde_json::from_str(c.example).unwrap();
        for key in example.as_object().unwrap().keys() {
            assert!(schema["properties"].get(key).is_some(), "{}: {key}", c.name);
        }
    }
}

#[test]
fn constants_stand_with_their_enthalpy() {
    let v = example("speciation");
    let out = run("speciation", &v).unwrap();
    let t = v["temperature_C"].as_f64().unwrap() + 273.15;
    let rows = out["constants"].as_array().unwrap();
    assert!(rows.len() > 30, "{}", rows.len());
    for r in rows {
        let term = r["temperature_term"].as_str().unwrap();
        assert_eq!(term == "none", r["delta_r_H_kJ_mol"].is_null(), "{r}");
        assert!(r["u"].as_f64() >= r["u_25C"].as_f64() && !r["source"].as_str().unwrap().is_empty(), "{r}");
        if term == "enthalpy" && r["delta_r_Cp_J_mol_K"].is_null() {
            // van 't Hoff by hand.
            let dh = r["delta_r_H_kJ_mol"].as_f64().unwrap() * 1000.0;
            let k = r["log10_K_25C"].as_f64().unwrap()
                + dh / (core::f64::consts::LN_10 * 8.314_462_618) * (1.0 / 298.15 - 1.0 / t);
            assert!((r["log10_K"].as_f64().unwrap() - k).abs() < 1e-9, "{r}");
        }
    }
    let of = |name: &str| rows.iter().find(|r| r["name"] == name).unwrap();
    assert_eq!(of("galena")["temperature_provenance"], "computed");
    assert_eq!(of("FeCO3(aq)")["temperature_provenance"], "estimate");
    assert!(
        of("calcite")["formula"].as_str().unwrap().contains("-171.9065")
            && of("calcite")["u_delta_r_H_kJ_mol"].is_null()
    );
}

#[test]
fn what_stands_beside_the_species() {
    let out = run("speciation", &example("speciation")).unwrap();
    assert_eq!(out["share_of"], "the inorganic part");
    let carrier = |element: &str| {
        out["carriers"]
            .as_array()
            .unwrap()
            .iter()
            .find(|c| c["element"] == element)
            .unwrap_or_else(|| panic!("{element}"))
    };
    assert_eq!((carrier("Ca")["species"].as_str(), carrier("Ca")["answer"].as_str()), (Some("Ca^2+"), Some("told")));
    // Lead beside sulfide: a bisulfide complex or, without those, a carbonate.
    assert_eq!(carrier("Pb")["answer"], "cannot be told");
    // With phases held no rival is asked.
    let mut held = example("speciation");
    held["hold"] = json!([{"solid": "calcite"}]);
    assert_eq!(run("speciation", &held).unwrap()["carriers"].as_array().unwrap().len(), 0);
    assert!(
        out["density_kg_L"].as_f64().unwrap() > aqueous::water::density_kg_l(out["temperature_C"].as_f64().unwrap())
    );
    assert!(out["electron_balance"]["sulfate_to_sulfide"]["meq_L"].as_f64().unwrap() > 0.0);
    let sets = out["rivals"].as_array().unwrap().iter().filter(|r| !r["with"].as_array().unwrap().is_empty());
    assert!(sets.count() >= 2, "{}", out["rivals"]);
}

#[test]
fn an_index_says_what_it_stands_on() {
    let r = aqueous::calc::request(&example("speciation")).unwrap();
    let s = aqueous::speciation::speciation(&r).unwrap();
    let d = s.derivation("galena").unwrap();
    let last = d.result().unwrap();
    assert_eq!(last.name, "saturation index of galena");
    assert!(d.nodes.iter().any(|n| n.name.starts_with("log10 K(25 °C)") && n.source.contains("memory")));
    // 85.0 kJ/mol by the CODATA energies: shown as ΔrH, not as a number of its own making.
    let k = d.nodes.iter().find(|n| n.name == "log10 K").unwrap();
    assert!(k.source.contains("ΔrH 85 kJ/mol") && k.step.contains("ΔrH"), "{} {}", k.source, k.step);
    assert!((d.budget.iter().map(|c| c.share).sum::<f64>() - 1.0).abs() < 1e-9);
    // Its two rival constants are the largest part of its doubt.
    assert_eq!(d.budget[0].input, "log K of galena");
    assert!(s.derivation("witherite").is_none());
}

#[test]
fn rival_constants_leave_galena_undecided() {
    // About 0.3 mg/L of sulfide and 1 ng/L of lead: what the rival constants alone do to galena
    // spans six units, and the honest word is "cannot tell".
    let mut v = example("speciation");
    v["analytes"][8] = json!({"name": "S(-II)", "value": 0.3, "u": 0.03, "unit": "mg/L"});
    v["analytes"][11] = json!({"name": "Pb", "value": 1.0, "u": 0.1, "unit": "ng/L"});
    let out = run("speciation", &v).unwrap();
    let galena = saturation(&out, "galena");
    assert_eq!(galena["word"], "cannot tell");
    let answers: Vec<f64> = out["rivals"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|r| r["moved"].as_array().unwrap())
        .filter(|m| m["solid"] == "galena")
        .map(|m| m["saturation_index"].as_f64().unwrap())
        .collect();
    let (low, high) = answers.iter().fold((f64::MAX, f64::MIN), |a, x| (a.0.min(*x), a.1.max(*x)));
    // Design page: -0.4 to +5.8. Half a unit: its pH and temperature are not stated.
    assert!((low + 0.4).abs() < 0.5 && (high - 5.8).abs() < 0.5, "{low} {high}");
}

#[test]
fn a_non_detect_gives_a_bound_and_never_more() {
    let out = run("speciation", &example("speciation")).unwrap();
    assert_eq!(saturation(&out, "cerussite")["bound"], "upper");
    assert_eq!(saturation(&out, "cerussite")["word"], "under");
    assert_eq!(saturation(&out, "calcite")["bound"], Value::Null);
    let lead = out["totals"].as_array().unwrap().iter().find(|t| t["element"] == "Pb").unwrap();
    assert_eq!(lead["bound"], "upper");
}

#[test]
fn ph_from_charge_and_held_phases() {
    let v = json!({"temperature_C": 25, "pH_from": "charge", "analytes": [], "hold": [{"solid": "calcite", "saturation_index": 0}, {"gas": "CO2", "log10_p_atm": -3.5}]});
    let out = run("speciation", &v).unwrap();
    // Textbooks (from memory): pH 8.3 ± 0.05.
    assert!((out["pH"].as_f64().unwrap() - 8.3).abs() < 0.05, "{}", out["pH"]);
    assert!(saturation(&out, "calcite")["saturation_index"].as_f64().unwrap().abs() < 1e-9);
    let mut v = example("speciation");
    v.as_object_mut().unwrap().remove("pH");
    v["pH_from"] = json!("charge");
    // Alkalinity is the charge of the strong ions: with it pH stays open.
    let e = run("speciation", &v).unwrap_err().to_string();
    assert!(e.contains("pH_from") && e.contains("DIC"), "{e}");
    v["analytes"][6] = json!({"name": "DIC", "value": 47.7, "unit": "mg/L as C"});
    let out = run("speciation", &v).unwrap();
    assert!((6.5..8.5).contains(&out["pH"].as_f64().unwrap()), "{}", out["pH"]);
    assert!(out["species_charge_percent"].as_f64().unwrap().abs() < 1e-9);
    // Lead stands in the species with its limit of 1.1 ng/L, in the balance with half of it: 3e-6 of a percent.
    assert!(out["charge_balance_percent"].as_f64().unwrap().abs() < 1e-5);
}

#[test]
fn coupled_and_apart_are_two_answers() {
    let mut v = example("speciation");
    v["couple"] = json!(["SO4^2-/HS-"]);
    let closed = run("speciation", &v).unwrap();
    let eh = |v: &Value| {
        v["redox"]
            .as_array()
            .unwrap()
            .iter()
            .find(|c| c["couple"] == "SO4^2-/HS-")
            .map(|c| c["Eh_mV"].as_f64().unwrap())
    };
    // Closed at the measured Eh: the couple is no longer a measurement of its own; sulfur is
    // shared out by the half reaction instead.
    assert!(closed["warnings"].as_array().unwrap().iter().any(|w| w.as_str().unwrap().contains("closed")));
    let share = |v: &Value, name: &str| {
        v["species"]
            .as_array()
            .unwrap()
            .iter()
            .find(|s| s["name"] == name)
            .map_or(0.0, |s| s["molality"].as_f64().unwrap())
    };
    let apart = run("speciation", &example("speciation")).unwrap();
    assert!(eh(&apart).is_some());
    let ratio = |v: &Value| libm::log10(share(v, "HS-") / share(v, "SO4^2-"));
    // Eh = -180 mV lies above the couple's own Eh, so closing it oxidises sulfide: 8 electrons at
    // 56 mV a decade.
    let expected = (eh(&apart).unwrap() + 180.0) / 56.0 * 8.0;
    assert!((ratio(&closed) - ratio(&apart) - expected).abs() < 0.3, "{} {expected}", ratio(&closed) - ratio(&apart));
    v.as_object_mut().unwrap().remove("Eh_mV");
    assert!(run("speciation", &v).unwrap_err().to_string().contains("Eh"));
}

#[test]
fn draws_are_the_same_on_every_run_and_agree_with_first_order() {
    let mut v = example("speciation");
    v["draws"] = json!(400);
    v["seed"] = json!(7);
    let a = run("speciation", &v).unwrap();
    let b = run("speciation", &v).unwrap();
    assert_eq!(a.to_string(), b.to_string());
    let c = saturation(&a, "gypsum");
    let half = 0.5 * (c["interval_95"][1].as_f64().unwrap() - c["interval_95"][0].as_f64().unwrap());
    // 400 draws know the half-width to about 10 %; 25 % allows for that and for the 2 in 2u.
    assert!((half / (2.0 * c["u"].as_f64().unwrap()) - 1.0).abs() < 0.25, "{c}");
    assert!(a["species"].as_array().unwrap().iter().any(|s| s.get("share_interval_95").is_some()));
}

#[test]
fn refusals_name_the_field() {
    let refuse = |change: &dyn Fn(&mut Value), field: &str, words: &str| {
        let mut v = example("speciation");
        change(&mut v);
        let e = run("speciation", &v).unwrap_err();
        let CalcError::Refused { field: f, .. } = &e else { panic!("{e}") };
        assert_eq!(f, field, "{e}");
        assert!(e.to_string().contains(words), "{e}");
    };
    refuse(&|v| v["pH"] = json!(15), "pH", "0 to 14");
    refuse(&|v| v["temperature_C"] = json!(80), "temperature_C", "0 to 60 °C");
    refuse(&|v| v["analytes"][6]["unit"] = json!("mg/L"), "analytes[6]", "as CaCO3");
    refuse(&|v| v["analytes"][0]["value"] = json!(-1), "analytes[0]", "0 and above");
    refuse(&|v| v["analytes"][0]["flag"] = json!("<"), "analytes[0].flag", "known");
    refuse(&|v| v["analytes"][2]["value"] = json!(60000), "input", "ionic strength");
    refuse(&|v| v["hold"] = json!([{"solid": "cheese"}]), "hold", "calcite");
    refuse(&|v| v["phh"] = json!(7), "phh", "known");
    refuse(
        &|v| {
            v.as_object_mut().unwrap().remove("pH");
        },
        "pH",
        "charge",
    );
    // Hydroxide alone holds 1.6 mmol/kg at pH 11.9 and 10 °C; no carbonate makes that 0.4.
    refuse(
        &|v| {
            v["pH"] = json!(11.9);
            v["analytes"] = json!([{"name": "alkalinity", "value": 20, "unit": "mg/L as CaCO3"}]);
        },
        "input",
        "hydroxide",
    );
    // Strong salt without a counter-ion: no pH balances it.
    let v =
        json!({"temperature_C": 25, "pH_from": "charge", "analytes": [{"name": "Na", "value": 3, "unit": "mol/kg"}]});
    let e = run("speciation", &v).unwrap_err().to_string();
    assert!(e.contains("charge balance") || e.contains("ionic strength"), "{e}");
}

#[test]
fn what_the_table_does_not_know_is_said() {
    let mut v = example("speciation");
    v["analytes"].as_array_mut().unwrap().push(json!({"name": "Tl", "value": 3, "unit": "ng/L"}));
    let out = run("speciation", &v).unwrap();
    let warnings = out["warnings"].to_string();
    assert!(warnings.contains("no species of: Tl"), "{warnings}");
    let request = aqueous::calc::request(&v).unwrap();
    let said = aqueous::speciation::speciation(&request).unwrap().warnings;
    let of = |w: &message::Message| w.arg("species").map(|a| format!("{a:?}"));
    let estimated = said.iter().find(|w| w.is::<message::analysis::TemperatureTermEstimated>()).unwrap();
    assert!(of(estimated).unwrap().contains("FeCO3(aq)"), "{estimated:?}");
    // Bisulfide complexes of lead have no enthalpy at all.
    let without = said.iter().find(|w| w.is::<message::analysis::WithoutTemperatureTerm>()).unwrap();
    assert!(of(without).unwrap().contains("Pb(HS)2(aq)"), "{without:?}");
}

#[test]
fn the_open_bottle_and_the_well_house() {
    let mut v = example("speciation");
    v["open_bottle"] = json!(true);
    v["well_house"] = json!({"flow_L_min": 60, "volume_m3": 12, "air_changes_per_h": 0.5});
    let out = run("speciation", &v).unwrap();
    let b = &out["open_bottle"];
    assert!(b["pH_after"].as_f64() > b["pH_before"].as_f64());
    assert!(b["calcite_mg_L"].as_f64().unwrap() > 0.0);
    let h = &out["well_house"];
    assert!(h["caution"].as_str().unwrap().contains("kill"));
    assert_eq!(h["limits"].as_array().unwrap().len(), 13);
    // 0.4 mg/L S as H2S is 0.425 mg/L; 60 L/min brings 25.5 mg/min.
    assert!((h["brought_mg_min"].as_f64().unwrap() - 25.5).abs() < 0.1);
}
