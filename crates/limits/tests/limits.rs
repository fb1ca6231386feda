//! Comparison with limits: conformance probabilities by JCGM 106, non-detects, bases, the table itself.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use limits::{Answer, CALCULATIONS, Guard, Limit, Options, compare, limits};
use quantity::{Amount, Measured, Unit};
use serde_json::json;

fn limit(analyte: &str, authority: &str) -> Limit {
    limits().iter().find(|l| l.analyte == analyte && l.authority == authority).expect("the table holds it").clone()
}

fn answer(amount: &Amount, l: &Limit, guard: Guard) -> (Answer, Option<f64>) {
    let c = compare(amount, l, &Options { guard });
    (c.answer, c.probability_under)
}

fn ug(value: f64, u: f64) -> Amount {
    Amount::measured(value, u, Unit::known("ug/L"))
}

#[test]
fn a_guard_band_of_one_u_leaves_2_3_percent_risk() {
    // JCGM 106: r = 1 gives a consumer's risk of at most Φ(−2) = 0.02275 (recalled; computed limit 10, u 0.5:
    // accept below 9.18 at 5 % risk, below 9.00 with r = 1).
    let l = limit("Pb", "WHO");
    assert_eq!(l.high, 10.0);
    for (y, guard, want) in [
        (9.17, Guard::Probability(0.95), Answer::Below),
        (9.19, Guard::Probability(0.95), Answer::CannotTell),
        (8.99, Guard::ExpandedU(1.0), Answer::Below),
        (9.01, Guard::ExpandedU(1.0), Answer::CannotTell),
        (10.99, Guard::ExpandedU(1.0), Answer::CannotTell),
        (11.01, Guard::ExpandedU(1.0), Answer::Above),
        (10.83, Guard::Probability(0.95), Answer::Above),
        (9.9, Guard::None, Answer::Below),
        (10.1, Guard::None, Answer::Above),
    ] {
        assert_eq!(answer(&ug(y, 0.5), &l, guard).0, want, "{y} {guard:?}");
    }
    let p = answer(&ug(9.0, 0.5), &l, Guard::None).1.unwrap();
    assert!((p - (1.0 - 0.0227501319)).abs() < 1e-9, "{p}");
}

#[test]
fn few_degrees_of_freedom_use_student() {
    // scipy 1.17.1: stats.t.cdf(2, 3) = 0.930337
    let m = Amount::Measured(Measured::with_dof(9.0, 0.5, 3.0, Unit::known("ug/L")));
    let p = answer(&m, &limit("Pb", "WHO"), Guard::None).1.unwrap();
    assert!((p - 0.930337).abs() < 1e-6, "{p}");
}

#[test]
fn units_and_bases_are_joined_and_never_guessed() {
    let l = limit("Pb", "WHO");
    assert_eq!(answer(&Amount::measured(1.05, 0.06, Unit::known("ng/L")), &l, Guard::default()).0, Answer::Below);
    // 12 mg/L as N is 53 mg/L as NO3 (62.004/14.007): above 50.
    let n = limit("NO3", "WHO");
    let (a, _) = answer(&Amount::measured(12.0, 0.3, Unit::known("mg/L as N")), &n, Guard::default());
    assert_eq!(a, Answer::Above);
    let c = compare(&Amount::measured(12.0, 0.3, Unit::known("mg/L")), &n, &Options::default());
    assert_eq!(c.answer, Answer::CannotTell);
    assert!(c.sentence.contains("leaves the basis open"), "{}", c.sentence);
    // Moles need no basis: 1 mmol/L is 62 mg/L as NO3.
    let (a, _) = answer(&Amount::measured(1.0, 0.02, Unit::known("mmol/L")), &n, Guard::default());
    assert_eq!(a, Answer::Above);
    let c = compare(&Amount::stated(9.0, Unit::known("degC")), &l, &Options::default());
    assert_eq!(c.answer, Answer::CannotTell);
}

#[test]
fn non_detects_decide_only_where_they_can() {
    let l = limit("Pb", "WHO");
    let nd = |x| Amount::below(x, Unit::known("ug/L"));
    assert_eq!(answer(&nd(1.0), &l, Guard::default()), (Answer::Below, None));
    assert_eq!(answer(&nd(20.0), &l, Guard::default()), (Answer::CannotTell, None));
    assert_eq!(answer(&Amount::above(20.0, Unit::known("ug/L")), &l, Guard::default()).0, Answer::Above);
    assert_eq!(answer(&Amount::above(2.0, Unit::known("ug/L")), &l, Guard::default()).0, Answer::CannotTell);
    let c = compare(&Amount::stated(1.0, Unit::known("ug/L")), &l, &Options::default());
    assert_eq!(c.answer, Answer::CannotTell);
    // (10 − 1)/1.645 = 5.5
    assert!(c.sentence.contains("u up to 5.5"), "{}", c.sentence);
}

#[test]
fn a_range_has_two_ends() {
    let l = limit("pH", "EU");
    let ph = |x| Amount::measured(x, 0.05, Unit::known("pH"));
    assert_eq!(answer(&ph(7.6), &l, Guard::default()).0, Answer::Below);
    assert_eq!(answer(&ph(6.2), &l, Guard::default()).0, Answer::Above);
    assert_eq!(answer(&ph(9.5), &l, Guard::default()).0, Answer::CannotTell);
}

#[test]
fn every_limit_names_its_source_and_how_it_is_known() {
    assert!(limits().len() > 100);
    for l in limits() {
        assert!(["seen", "recalled"].contains(&l.provenance.as_str()), "{l:?}");
        assert!(!l.document.is_empty() && !l.edition.is_empty() && !l.kind.is_empty() && !l.date_read.is_empty());
        assert_eq!(l.date_read == "not read", l.provenance == "recalled", "{l:?}");
        assert_eq!(l.unit.basis().is_some(), !l.basis.is_empty(), "{l:?}");
        assert!(l.low.is_none_or(|low| low < l.high));
    }
    // Lead in the EU steps from 10 to 5 on a day.
    let on = |d| -> Vec<f64> {
        limits().iter().filter(|l| l.analyte == "Pb" && l.authority == "EU" && l.holds_on(d)).map(|l| l.high).collect()
    };
    assert_eq!((on("2036-01-11"), on("2036-01-12")), (vec![10.0], vec![5.0]));
}

/// Chromium in the EU: 50 until 2036-01-11, 25 from 2036-01-12 (directive 2020/2184, annex I; from memory, as the table).
#[test]
fn a_limit_of_later_years_does_not_decide() {
    let c = &CALCULATIONS[0];
    let ask = |on: serde_json::Value| {
        let mut input =
            json!({"results": [{"analyte": "Cr", "value": 30, "u": 1, "unit": "ug/L"}], "authorities": ["EU"]});
        input.as_object_mut().unwrap().extend(on.as_object().unwrap().clone());
        (c.run)(&input)
    };
    for day in [json!({"on": "2026-07-14"}), json!({"date": "2026-07-14"}), json!({})] {
        let out = ask(day.clone()).unwrap();
        let rows = out["rows"].as_array().unwrap();
        let seen: Vec<_> = rows.iter().map(|r| (r["limit"].as_f64().unwrap(), r["answer"].as_str().unwrap())).collect();
        assert_eq!(seen, [(50.0, "below")], "{day}");
        assert_eq!((&out["strictest"][0]["limit"], &out["strictest"][0]["answer"]), (&json!(50.0), &json!("below")));
        assert_eq!(out["on"], day.get("on").or(day.get("date")).cloned().unwrap_or_default());
        assert_eq!((&out["coming"][0]["limit"], &out["coming"][0]["valid_from"]), (&json!(25.0), &json!("2036-01-12")));
        assert_eq!(out["coming"][0].get("answer"), None);
    }
    let later = ask(json!({"on": "2036-01-12"})).unwrap();
    assert_eq!((&later["rows"][0]["limit"], &later["rows"][0]["answer"]), (&json!(25.0), &json!("above")));
    assert_eq!(later["coming"], json!([]));
    for (bad, part) in [
        (json!({"on": "14.07.2026"}), "on"),
        (json!({"on": 2026}), "on"),
        (json!({"on": "2026-07-14", "date": "2027-07-14"}), "date"),
        (
            json!({"local": [{"analyte": "Cr", "unit": "ug/L", "authority": "Us", "limit_high": 9, "valid_from": "12.01.2036"}]}),
            "local[0].valid_from",
        ),
    ] {
        let message = ask(bad).unwrap_err().to_string();
        assert!(message.starts_with(part), "{message}");
    }
    let own = json!({"on": "2026-07-14", "local": [{"analyte": "Cr", "unit": "ug/L", "authority": "Us", "limit_high": 9, "valid_from": "2030-01-01"}]});
    assert_eq!(ask(own).unwrap()["rows"].as_array().unwrap().len(), 1);
    // What a caller without a day takes, for as long as the program runs.
    let standing: Option<&'static Limit> = limits::local::strictest(
        limits::local::holding(&[], None).filter(|l| l.analyte == "Cr" && l.authority == "EU"),
    );
    assert_eq!(standing.map(|l| l.high), Some(50.0));
}

#[test]
fn the_command_line_answers_and_refuses() {
    let c = &CALCULATIONS[0];
    let out = (c.run)(&serde_json::from_str(c.example).unwrap()).unwrap();
    let rows = out["rows"].as_array().unwrap();
    assert_eq!(rows[0]["answer"], "below");
    assert_eq!(rows[0]["authority"], "WHO");
    assert!(out["warnings"].as_array().unwrap().iter().all(|w| !w.as_str().unwrap().contains("safe")));
    serde_json::from_str::<serde_json::Value>(c.schema).unwrap();
    let check = |input: serde_json::Value, part: &str| {
        let message = (c.run)(&input).unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    check(json!({}), "results");
    check(json!({"results":[{"analyte":"Pb","value":1,"unit":"ppt"}]}), "results[0]");
    check(json!({"results":[{"value":1,"unit":"ug/L"}]}), "results[0].analyte");
    check(json!({"results":[],"authorities":["moon"]}), "one of WHO");
    check(json!({"results":[],"guard":"maybe"}), "guard");
    let named = (c.run)(&json!({"results":[{"analyte":"Lead","value":1,"u":0.1,"unit":"ug/L"},{"analyte":"Co","value":1,"u":0.1,"unit":"ug/L"}]})).unwrap();
    // Lead: WHO, Canada, the EU until 2036, US EPA; the EU from 2036 is still to come.
    assert_eq!(named["rows"].as_array().unwrap().len(), 4);
    assert!(named["warnings"][0].as_str().unwrap().starts_with("Co: no limit"));
}
