//! Lists of nothing found, the frequency bound, CAS numbers, local limits and reference waters.

use limits::CALCULATIONS;
use limits::absence::frequency_bound;
use limits::cas::{self, Fault};
use limits::local::{read, strictest};
use limits::waters::{names, waters};
use serde_json::{Value, json};

#[track_caller]
fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

fn absence(input: &Value) -> Value {
    let c = CALCULATIONS.iter().find(|c| c.name == "absence").unwrap();
    (c.run)(input).unwrap_or_else(|e| panic!("{e}"))
}

/// scipy 1.17.1: `scipy.stats.beta.ppf(0.95, 1, n)`, the one-sided Clopper–Pearson limit of 0 of n; and
/// the rule of three, 3/n, which it nears from below.
#[test]
fn frequency_of_what_was_never_found() {
    for (n, want) in [
        (1, 0.95),
        (3, 0.631_596_850_135_961_2),
        (10, 0.258_865_550_893_052_2),
        (30, 0.095_033_852_855_304_11),
        (59, 0.049_507_609_888_226_93),
        (300, 0.009_936_081_944_457_708),
    ] {
        near(frequency_bound(n), want, 1e-14);
        near(frequency_bound(n), statistics::binomial::upper_limit(0, n, 0.05), 1e-12);
        assert!(frequency_bound(n) < 3.0 / n as f64);
    }
}

/// 107-07-3 is the worked example of the registry's page on check digits (from memory); water and
/// formaldehyde are 7732-18-5 and 50-00-0 (from memory).
#[test]
fn check_digits() {
    for good in ["107-07-3", "7732-18-5", "50-00-0", "1912-24-9"] {
        assert_eq!(cas::parse(good), Ok(good.to_string()));
    }
    assert_eq!(cas::parse("107-07-4"), Err(Fault::CheckDigit { expected: 3 }));
    for bad in ["", "107-7-3", "107073", "0107-07-3", "12345678-07-3", "abc-07-3"] {
        assert_eq!(cas::parse(bad), Err(Fault::Form), "{bad}");
    }
}

#[test]
fn the_table_of_compounds_is_sound() {
    assert!(cas::compounds().len() >= 150);
    let mut numbers: Vec<&str> = vec![];
    for c in cas::compounds() {
        assert_eq!(cas::parse(&c.cas), Ok(c.cas.clone()), "{}", c.name);
        assert_eq!(cas::by_name(&c.name).map(|k| &k.cas), Some(&c.cas));
        assert!(!numbers.contains(&c.cas.as_str()), "{} twice", c.cas);
        numbers.push(&c.cas);
    }
    assert_eq!(cas::by_name("Atrazine-Desethyl").unwrap().name, "desethylatrazine");
}

fn list() -> Value {
    json!({"unit": "ug/L", "compounds": [
        {"name": "atrazine", "cas": "1912-24-9", "below": 0.01, "detection_limit": 0.004},
        {"name": "simazine", "cas": "122-34-9", "value": -0.001, "u": 0.002},
        {"name": "diuron", "cas": "330-54-1", "value": 0.001, "u": 0.002},
        {"name": "dieldrin", "cas": "60-57-1", "below": 0.05, "detection_limit": 0.04},
        {"name": "lindane", "cas": "58-89-9", "below": 0.02},
        {"name": "gamma-HCH", "below": 0.01},
        {"name": "linuron", "cas": "330-55-3", "below": 0.01}
    ]})
}

#[test]
fn a_list_of_nothing_found() {
    let r = absence(&list());
    let bound = |name: &str| {
        r["rows"].as_array().unwrap().iter().find(|x| x["name"] == name).unwrap()["upper_bound"].as_f64().unwrap()
    };
    // max(net, 0) + 2u: −0.001 counts as 0, 0.001 as itself.
    near(bound("simazine"), 0.004, 1e-12);
    near(bound("diuron"), 0.005, 1e-12);
    near(bound("atrazine"), 0.01, 1e-12);
    // 0.01 + 0.004 + 0.005 + 0.05 + lindane once, 0.02 + 0.01.
    near(r["highest_sum"].as_f64().unwrap(), 0.099, 1e-12);
    // All of them are pesticides: their own sum is that of the list, under 0.5 (Directive (EU) 2020/2184, annex I B).
    let pesticides = &r["groups"][0];
    assert_eq!((&pesticides["group"], &pesticides["answer"]), (&json!("pesticides"), &json!("below")));
    near(pesticides["upper"].as_f64().unwrap(), 0.099, 1e-12);
    assert_eq!(pesticides["lower"], json!(0.0));
    assert_eq!(r["sum_under_limit"], Value::Null, "nobody stated a limit for the whole list");
    assert_eq!(r["compounds"], json!(6));
    assert_eq!(r["doubles"], json!([["lindane", "gamma-HCH"]]));
    // Dieldrin: held to 0.03, reached at 0.04.
    assert_eq!(r["blind"], json!(["dieldrin"]));
    near(r["frequency_upper_95"].as_f64().unwrap(), 0.95, 1e-12);
    assert!(r["faults"][0].as_str().unwrap().contains("the check digit of 330-55-3 would be 2"));
    let plain = r["plain"].as_str().unwrap();
    assert!(
        plain.starts_with(
            "Of 6 substances looked for in one sample, none was found. All together they make at most 0.099 µg/L."
        ),
        "{plain}"
    );
    assert!(!plain.contains("free") && !plain.contains("safe"));
}

#[test]
fn what_was_found_and_what_says_nothing_stand_out() {
    let mut l = list();
    l["compounds"][0] = json!({"name": "atrazine", "cas": "1912-24-9", "value": 0.03, "u": 0.003});
    l["compounds"].as_array_mut().unwrap().push(json!({"name": "bentazone"}));
    let r = absence(&l);
    assert_eq!(r["found"], json!(["atrazine"]));
    assert_eq!(r["open"], json!(["bentazone"]));
    assert_eq!(r["highest_sum"], Value::Null);
    assert_eq!(r["frequency_upper_95"], Value::Null);
    let found = r["rows"].as_array().unwrap().iter().find(|x| x["found"] == json!(true)).unwrap();
    // 0.03 ± 0.006 under the limit of a pesticide, 0.1.
    assert_eq!((&found["limit"], &found["answer"]), (&json!(0.1), &json!("below")));
    let mut zero = list();
    zero["compounds"][0] = json!({"name": "atrazine", "value": 0});
    let c = CALCULATIONS.iter().find(|c| c.name == "absence").unwrap();
    assert!((c.run)(&zero).unwrap_err().to_string().contains("a zero says nothing"));
}

/// A bound under what the blanks alone can bring would call water cleaner than anybody can see.
#[test]
fn no_bound_of_a_list_lies_under_its_critical_value() {
    let compounds = json!([
        {"name": "atrazine", "value": -0.02, "u": 0.001, "critical_value": 0.005},
        {"name": "simazine", "value": 0.003, "u": 0.002, "critical_value": 0.005},
        // t(0.95, 2) = 2.920 (printed tables): wider than the 2 of a laboratory that states no degrees of freedom.
        {"name": "diuron", "value": 0.0, "u": 0.002, "dof": 2}
    ]);
    let r = absence(&json!({"unit": "ug/L", "compounds": compounds}));
    let bounds: Vec<f64> = r["rows"].as_array().unwrap().iter().map(|x| x["upper_bound"].as_f64().unwrap()).collect();
    near(bounds[0], 0.005, 1e-15);
    near(bounds[1], 0.003 + 2.0 * 0.002, 1e-15);
    near(bounds[2], 2.920 * 0.002, 1e-6);
    assert_eq!(r["found"], json!([]));
}

/// A value without u at or under its critical value: L_C is the one-sided 95 % half width about nothing, so what is there
/// lies under max(net, 0) + L_C (Currie 1968, formula); 0.003 + 0.005. A reporting limit that reaches as far stands.
#[test]
fn a_value_without_u_under_its_critical_value_is_bounded_by_both() {
    let of = |c: Value| {
        let mut compound = json!({"name": "atrazine", "value": 0.003, "critical_value": 0.005});
        compound.as_object_mut().unwrap().extend(c.as_object().unwrap().clone());
        let r = absence(&json!({"unit": "ug/L", "compounds": [compound]}));
        assert!(!r["scientific"].as_str().unwrap().contains("  "), "{r}");
        (r["rows"][0]["upper_bound"].as_f64().unwrap(), r["rows"][0]["how"].clone(), r["found"].clone())
    };
    let (bound, how, found) = of(json!({}));
    near(bound, 0.008, 1e-15);
    assert_eq!((how, found), (json!("net + critical value"), json!([])));
    assert_eq!(of(json!({"reporting_limit": 0.01})), (0.01, json!("reporting limit"), json!([])));
    // Reported from 0.004 on, while the blanks reach 0.005.
    assert_eq!(of(json!({"reporting_limit": 0.004})).1, json!("net + critical value"));
    assert_eq!(of(json!({"value": 0.006})).2, json!(["atrazine"]));
}

/// Lindane under two names is one compound wherever it is counted.
#[test]
fn what_was_found_under_two_names_is_one_compound() {
    let found = |name: &str| json!({"name": name, "cas": "58-89-9", "value": 0.2, "u": 0.02});
    let r = absence(
        &json!({"unit": "ug/L", "compounds": [found("lindane"), found("gamma-HCH"), {"name": "diuron", "below": 0.01}]}),
    );
    assert_eq!((&r["compounds"], &r["found"]), (&json!(2), &json!(["lindane"])));
    let plain = r["plain"].as_str().unwrap();
    assert!(plain.contains("lindane") && !plain.contains("none"), "{plain}");
}

#[test]
fn several_samples_narrow_the_frequency_and_sum_apart() {
    let mut compounds = vec![];
    for s in ["A", "B", "C"] {
        for name in ["atrazine", "simazine"] {
            compounds.push(json!({"name": name, "sample": s, "below": 0.01}));
        }
    }
    let r = absence(&json!({"unit": "ug/L", "compounds": compounds, "authority": "none"}));
    near(r["highest_sum"].as_f64().unwrap(), 0.02, 1e-12);
    near(r["frequency_upper_95"].as_f64().unwrap(), 0.631_596_850_2, 1e-9);
    assert_eq!(r["doubles"], json!([]));
    assert_eq!(r["sum_limit"], Value::Null);
}

#[test]
fn a_local_limit_stands_beside_the_published_ones() {
    let rows = read("analyte,unit,authority,limit_high,kind\nlead,ug/L,District of Sallow,2,guide value\n").unwrap();
    let own = [rows[0].limit("row 2").unwrap()];
    assert_eq!(own[0].analyte, "Pb");
    let all = || limits::limits().iter().chain(&own).filter(|l| l.analyte == "Pb" && l.holds_on("2026-07-01"));
    assert_eq!(strictest(all()).unwrap().authority, "District of Sallow");
    // Nitrate: 10 mg/L as N is 44.3 as NO3, so Canada's 45 as NO3 is not the strictest.
    let nitrate = limits::limits().iter().filter(|l| l.analyte == "NO3");
    assert_eq!(strictest(nitrate).unwrap().authority, "US EPA");
    for (bad, what) in [
        ("analyte,unit,authority,limit_high\nNO3,mg/L,Us,50\n", "basis"),
        ("analyte,unit,authority,limit_high\nPb,ug/L,,2\n", "authority"),
        ("analyte,unit,authority,limit_high\nPb,ug/L,Us,\n", "limit_high"),
        ("analyte,unit,authority\n", "nothing"),
        ("analyte,unit,authority,limit_high,what\nPb,ug/L,Us,2,x\n", "columns"),
    ] {
        let e = read(bad).unwrap_err().to_string();
        assert!(e.contains(what), "{e}");
    }
    let c = CALCULATIONS.iter().find(|c| c.name == "limits").unwrap();
    let out = (c.run)(&json!({"results": [{"analyte": "Pb", "value": 0.001, "u": 0.0001, "unit": "ug/L"}], "authorities": ["WHO"], "local": [{"analyte": "Pb", "unit": "ug/L", "authority": "District of Sallow", "limit_high": 2}]})).unwrap();
    assert_eq!(out["rows"].as_array().unwrap().len(), 2);
    assert_eq!(out["strictest"][0]["authority"], "District of Sallow");
    assert_eq!(out["strictest"][0]["answer"], "below");
}

#[test]
fn every_reference_water_has_a_source_and_says_whether_it_was_seen() {
    for w in waters() {
        assert!(w.value > 0.0 && !w.source.is_empty(), "{w:?}");
        assert!(["seen", "recalled"].contains(&w.provenance.as_str()), "{w:?}");
        if let Some((low, high)) = w.range {
            assert!(low <= w.value && w.value <= high, "{w:?}");
        }
        assert!(w.u.is_some() || w.range.is_some() || w.note.contains("not recorded"), "{w:?}");
    }
    for water in ["rain, remote", "rivers, world mean", "ocean, North Pacific", "Greenland ice, 7760 years old"] {
        assert!(names("Pb").contains(&water), "{water}");
    }
}
