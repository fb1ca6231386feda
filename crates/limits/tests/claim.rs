//! Sentences checked: ratios after Fieller, arithmetic of scale, non-detects by bounds, references.

#![allow(clippy::needless_pass_by_value, reason = "values are written where they are used")]

use limits::CALCULATIONS;
use limits::claim::{Answer, Checked, Claim};
use message::{Arg, Message, Shown};
use quantity::{CalcError, Lang};
use serde_json::{Value, json};

fn check(input: &Value) -> Result<Checked, CalcError> {
    limits::claim::check(&Claim::read(input)?)
}

#[track_caller]
fn checked(input: &Value) -> limits::claim::Checked {
    check(input).unwrap_or_else(|e| panic!("{e}"))
}

#[track_caller]
fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

fn ratio(a: Value, b: Value, factor: f64) -> limits::claim::Checked {
    checked(
        &json!({"kind": "ratio", "a": a, "b": b, "factor": factor, "a_name": "the spring", "b_name": "the well", "analyte": "Pb"}),
    )
}

fn m(value: f64, u: f64) -> Value {
    json!({"value": value, "u": u, "unit": "ng/L"})
}

/// The sentence says a share of the other water, in percent, rounded up.
#[track_caller]
fn share(plain: &Message, percent: f64) {
    assert!(plain.is::<message::claim::RatioShare>(), "{plain:?}");
    assert_eq!(plain.arg("share"), Some(&Arg::Amount(Shown::trimmed(percent, 2, "%"))));
}

/// Fieller's limits from the closed formula, z = 1.959964, computed in Python:
/// a 25, u 2; b 5, u 1: 3.44 to 8.38; u(b) = 2: 2.72 to 23.2. The point ratio of 5 bears no "five times".
#[test]
fn a_ratio_needs_more_than_its_point_value() {
    let c = ratio(m(25.0, 2.0), m(5.0, 1.0), 5.0);
    assert_eq!(c.answer, Answer::CannotTell);
    near(c.probability.unwrap(), 0.5, 1e-12);
    near(c.interval[0].unwrap(), 3.44, 5e-3);
    near(c.interval[1].unwrap(), 8.38, 5e-3);
    // One-sided 95 %, z 1.644854: (125 ± √(125² − (25 − z²)(625 − 4z²)))/(25 − z²) = 3.6351; 1/3.6351 = 27.51 %.
    share(&c.sentences.plain, 28.0);
    let wide = ratio(m(25.0, 2.0), m(5.0, 2.0), 2.0);
    near(wide.interval[0].unwrap(), 2.72, 5e-3);
    near(wide.interval[1].unwrap(), 23.2, 5e-2);
    assert_eq!(wide.answer, Answer::Supported);
}

/// The sentence and its bound are one test: just under the bound supported, just over not.
#[test]
fn a_sentence_is_supported_up_to_its_bound_and_no_further() {
    for (a, b) in [
        (m(20.0, 1.6), m(4.1, 0.3)),
        (
            json!({"value": 20, "u": 1.6, "dof": 6, "unit": "ng/L"}),
            json!({"value": 4.1, "u": 0.3, "dof": 9, "unit": "ng/L"}),
        ),
    ] {
        let bound = ratio(a.clone(), b.clone(), 2.0).figures["at_least_95"].as_f64().unwrap();
        let under = ratio(a.clone(), b.clone(), bound * (1.0 - 1e-9));
        assert_eq!(under.answer, Answer::Supported);
        near(under.probability.unwrap(), 0.95, 1e-6);
        assert_eq!(ratio(a, b, bound * (1.0 + 1e-9)).answer, Answer::CannotTell);
    }
    assert_eq!(ratio(m(20.0, 1.0), m(10.0, 0.5), 4.0).answer, Answer::Contradicted);
}

/// Two results that share a blank: its variance is the covariance and narrows the ratio's interval.
#[test]
fn a_shared_blank_counts() {
    let with =
        |c: f64| checked(&json!({"kind": "ratio", "a": m(2.0, 0.2), "b": m(1.0, 0.2), "factor": 1.5, "covariance": c}));
    let width = |c: &limits::claim::Checked| c.interval[1].unwrap() - c.interval[0].unwrap();
    assert!(width(&with(0.03)) < width(&with(0.0)));
    let refused = check(&json!({"kind": "ratio", "a": m(2.0, 0.2), "b": m(1.0, 0.2), "covariance": 0.05})).unwrap_err();
    assert!(refused.to_string().contains("covariance"));
}

/// A non-detect under the line: only "at least" can follow, and the difficulty is named.
#[test]
fn a_non_detect_in_the_denominator_gives_a_lower_bound() {
    let c = ratio(m(20.0, 1.0), json!({"below": 2.0, "unit": "ng/L"}), 5.0);
    assert_eq!(c.answer, Answer::Supported);
    // (20 − 1.644854)/2 = 9.1776
    near(c.interval[0].unwrap(), 9.177_573, 1e-5);
    assert_eq!(c.interval[1], None);
    // 1/9.1776 = 10.896 %.
    share(&c.sentences.plain, 11.0);
    assert!(
        c.warnings[0].contains("The well stands under the line, and only an upper bound of it is known"),
        "{:?}",
        c.warnings
    );
    // Never contradicted: the well may hold nothing at all.
    assert_eq!(ratio(m(20.0, 1.0), json!({"below": 2.0, "unit": "ng/L"}), 500.0).answer, Answer::CannotTell);
    // Over the line: an upper bound only.
    let over = ratio(json!({"below": 2.0, "unit": "ng/L"}), m(20.0, 1.0), 1.0);
    assert_eq!(over.answer, Answer::Contradicted);
    assert_eq!(over.plain, "The well holds at least 9.1 times as much lead as the spring.");
    let both = ratio(json!({"below": 2.0, "unit": "ng/L"}), json!({"below": 1.0, "unit": "ng/L"}), 1.0);
    assert_eq!(both.answer, Answer::CannotTell);
    assert!(both.plain.contains("cannot be told"));
}

#[test]
fn a_value_without_u_says_nothing_of_a_ratio() {
    let c = ratio(json!({"value": 20.0, "unit": "ng/L"}), m(2.0, 0.1), 2.0);
    assert_eq!(c.answer, Answer::CannotTell);
    assert!(c.warnings[0].contains("The spring: no uncertainty is stated"), "{:?}", c.warnings);
}

/// A denominator not distinct from zero has no upper limit.
#[test]
fn a_denominator_near_zero_has_no_upper_limit() {
    let c = ratio(m(25.0, 2.0), m(1.0, 1.0), 2.0);
    assert_eq!(c.interval[1], None);
    assert_eq!(c.answer, Answer::Supported);
    assert!(c.warnings.iter().any(|w| w.contains("not distinct from zero")));
}

/// A concentration is not negative: a net value at or under zero counts as zero with its u in Fieller's condition, and
/// never turns a ratio round. 20 ± 1 over 0 ± 0.3, one-sided: √(400 − z²)/(0.3 z) = 40.3932 with z = 1.644854 (mpmath 1.3.0).
#[test]
fn a_net_value_under_zero_turns_no_ratio_round() {
    let c = ratio(m(20.0, 1.0), m(-0.6, 0.3), 20.0);
    assert_eq!(c.answer, Answer::Supported);
    near(c.figures["at_least_95"].as_f64().unwrap(), 40.393_2, 1e-4);
    assert_eq!(c.figures.get("ratio"), None, "a ratio under zero is none");
    assert_eq!(c.interval[1], None);
    assert_eq!(ratio(m(20.0, 1.0), m(-0.6, 0.3), 41.0).answer, Answer::CannotTell);
    assert_eq!(ratio(m(20.0, 1.0), m(0.0, 0.3), 20.0).answer, Answer::Supported);
    // Over the line: the same the other way round.
    let over = ratio(m(-0.6, 0.3), m(20.0, 1.0), 1.0);
    assert_eq!(over.answer, Answer::Contradicted);
    near(over.figures["at_most_95"].as_f64().unwrap(), 1.0 / 40.393_2, 1e-6);
    assert_eq!(over.plain, "The well holds at least 40 times as much lead as the spring.");
    // Neither was found: nothing can be said.
    let both = ratio(m(-0.6, 0.3), m(-0.1, 0.3), 1.0);
    assert_eq!((both.answer, both.interval), (Answer::CannotTell, [None, None]));
}

#[test]
fn a_fall_under_zero_is_no_rise() {
    let change = |relation: &str, before: Value, after: Value| {
        checked(&json!({"kind": "change", "relation": relation, "before": before, "after": after}))
    };
    let fallen = change("fallen", m(5.0, 0.3), m(-0.7, 0.3));
    assert_eq!(fallen.answer, Answer::Supported);
    // √(25 − (0.3 z)²)/(0.3 z) = 10.0831 (mpmath 1.3.0).
    near(fallen.interval[0].unwrap(), 10.083_1, 1e-4);
    assert!(fallen.sentences.scientific.is::<message::claim::ChangeScientificBounds>());
    let risen = change("risen", m(5.0, 0.3), m(-0.7, 0.3));
    assert_eq!(risen.answer, Answer::Contradicted);
    assert!(risen.plain.contains("fallen by at least 90 %"), "{}", risen.plain);
    assert_eq!(change("risen", m(-0.7, 0.3), m(5.0, 0.3)).answer, Answer::Supported);
    assert_eq!(change("fallen", m(-0.7, 0.3), m(5.0, 0.3)).answer, Answer::Contradicted);
    assert_eq!(change("fallen", m(-0.1, 0.1), m(-0.9, 0.1)).answer, Answer::CannotTell);
}

#[test]
fn net_values_under_zero_are_put_in_no_order() {
    let rank = |a: Value, b: Value| {
        let items = json!([{"name": "A", "amount": a}, {"name": "B", "amount": b}]);
        checked(&json!({"kind": "ranking", "lowest": "A", "items": items}))
    };
    // Five u apart, and both nothing.
    assert_eq!(rank(m(-0.6, 0.1), m(-0.1, 0.1)).answer, Answer::CannotTell);
    assert_eq!(rank(m(-0.6, 0.1), m(5.0, 0.1)).answer, Answer::Supported);
}

#[test]
fn a_picture_of_a_net_value_under_zero_holds_no_negative_metal() {
    let c =
        analogy(&json!({"value": m(-0.6, 0.3), "body": "one cubic kilometre", "kilograms": 1, "relation": "at most"}));
    assert_eq!(c.answer, Answer::Supported);
    near(c.interval[1].unwrap(), 0.493_456, 1e-6);
    for (key, figure) in &c.figures {
        assert!(figure.as_f64().is_none_or(|x| x > 0.0), "{key}: {figure}");
    }
}

/// What was found is not gone by calling a level none.
#[test]
fn water_is_not_free_of_what_was_detected_in_it() {
    let free = |fields: Value| {
        let mut c = json!({"kind": "absence", "analyte": "Pb", "name": "the well"});
        c.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
        checked(&c)
    };
    let level = json!({"value": 1.0, "unit": "ng/L"});
    let found = free(json!({"value": m(0.5, 0.05), "means_below": level}));
    assert_eq!(found.answer, Answer::Contradicted);
    assert_eq!(found.figures["found"], json!(["Pb"]));
    // 0.5 ± 0.098 and under the level: said so, with the amount to the digits of its uncertainty.
    let plain = &found.sentences.plain;
    assert!(plain.is::<message::claim::ContainsUnder>(), "{plain:?}");
    assert_eq!(plain.arg("level"), Some(&Arg::Amount(Shown::trimmed(1.0, 3, "ng/L"))));
    assert_eq!(plain.said(Lang::En).unwrap(), "The well contains 0.500 ng/L of lead, under 1 ng/L.");
    // 1.2 ± 0.05: what was found does not lie under the level.
    let over = free(json!({"value": m(1.2, 0.05), "means_below": level}));
    assert!(over.sentences.plain.is::<message::claim::Contains>(), "{:?}", over.sentences.plain);
    // Under the level as it is, it may be the water's all the same.
    let bound = json!({"below": 0.8, "unit": "ng/L"});
    let in_bottle = free(json!({"value": bound, "found_in_bottle": true, "means_below": level}));
    assert_eq!(in_bottle.answer, Answer::CannotTell);
    assert!(in_bottle.sentences.plain.is::<message::claim::FoundInBottle>(), "{:?}", in_bottle.sentences.plain);
    // Detected by the critical value of the blanks, though 0.5 − 1.645 × 0.4 lies under zero.
    let by_blanks = free(json!({"value": m(0.5, 0.4), "critical_value": 0.45}));
    assert_eq!((by_blanks.answer, &by_blanks.figures["found"]), (Answer::Contradicted, &json!(["Pb"])));
    // Under zero and under its critical value: a bound over zero, never under that value.
    let none = free(json!({"value": m(-0.05, 0.004), "critical_value": 0.02, "means_below": level}));
    assert_eq!(none.answer, Answer::Supported);
    assert_eq!(none.figures["highest_upper_bound"], json!({"below": 0.02, "unit": "ng/L"}));
    let own = free(json!({"value": m(-0.05, 0.004)}));
    // 1.644854 × 0.004.
    near(own.interval[1].unwrap(), 0.006_579_4, 1e-7);
    let several = free(json!({"results": [
        {"analyte": "lindane", "amount": {"below": 0.02, "unit": "ug/L"}},
        {"analyte": "gamma-HCH", "amount": {"below": 0.01, "unit": "ug/L"}},
        {"analyte": "vinyl chloride", "amount": {"value": 2.4, "u": 0.3, "unit": "ug/L"}, "critical_value": 0.1}],
        "means_below": {"value": 5.0, "unit": "ug/L"}}));
    assert!(several.sentences.plain.is::<message::claim::FoundInUnder>(), "{:?}", several.sentences.plain);
    assert_eq!((several.answer, &several.figures["found"]), (Answer::Contradicted, &json!(["vinyl chloride"])));
    assert_eq!(several.figures["substances"], json!(2), "lindane has two names");
    let zero = check(&json!({"kind": "absence", "value": m(-0.1, 0.0)})).unwrap_err().to_string();
    assert!(zero.starts_with("value") || zero.starts_with("results[0]"), "{zero}");
}

fn analogy(fields: &Value) -> limits::claim::Checked {
    let mut all = json!({"kind": "analogy", "analyte": "Pb"});
    all.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
    checked(&all)
}

/// Arithmetic: 1 ng/L = 1e-9 g in 1 kg = 1 part in 1e12; 1 km³ = 1e12 L, so 1 kg in a cubic kilometre;
/// 1e12 s / 31 557 600 s = 31 688.09 Julian years; 1e12 × 0.05 mL = 5e10 mL = 5e4 m³ = 20 pools of 2500 m³.
#[test]
fn arithmetic_of_scale() {
    let one = json!({"value": 1.0, "u": 0.05, "unit": "ng/L"});
    let of = |fields: &Value, key: &str| {
        let c = analogy(fields);
        c.figures[key].as_f64().unwrap_or(f64::NAN)
    };
    let cube = json!({"value": one, "body": "one cubic kilometre", "kilograms": 1});
    near(of(&cube, "equivalent"), 1.0, 1e-12);
    near(of(&cube, "kilograms_in_body"), 1.0, 1e-12);
    assert_eq!(analogy(&cube).answer, Answer::Supported);
    let years = json!({"value": one, "seconds": 1, "years": 31_688.087_8});
    near(of(&years, "equivalent"), 1.0, 1e-8);
    let drops = json!({"value": one, "drops": 1, "drop_mL": 0.05, "pools": 20, "pool_m3": 2500});
    near(of(&drops, "equivalent"), 1.0, 1e-12);
    assert_eq!(analogy(&drops).answer, Answer::Supported);
    let pool = json!({"value": one, "drops": 1, "drop_mL": 0.05, "pools": 20, "body": "olympic pool"});
    near(of(&pool, "equivalent"), 1.0, 1e-12);
}

/// Loch Ness holds 7.45 km³ (recalled), so 1 ng/L in it is 7.45 L by mass: one litre is wrong by 7.45.
#[test]
fn a_named_lake_is_checked_with_its_own_volume() {
    let c = analogy(&json!({"value": m(1.0, 0.05), "body": "Loch Ness", "litres": 1}));
    assert_eq!(c.answer, Answer::Contradicted);
    near(c.figures["equivalent"].as_f64().unwrap(), 7.45, 1e-12);
    // 7.45 × (1 ± 1.96 × 0.05). The picture is corrected by its number; what may be said is the amount, no other picture.
    near(c.interval[0].unwrap(), 6.7199, 1e-4);
    near(c.interval[1].unwrap(), 8.1801, 1e-4);
    assert!(c.sentences.plain.is::<message::claim::Holds>(), "{:?}", c.sentences.plain);
    assert!(c.warnings.iter().any(|w| w.contains("recalled")));
    assert_eq!(analogy(&json!({"value": m(1.0, 0.05), "body": "loch ness", "litres": 7.5})).answer, Answer::Supported);
    let lied = analogy(&json!({"value": m(1.0, 0.05), "body": "Loch Ness", "volume_km3": 1.0, "litres": 1}));
    assert_eq!(lied.answer, Answer::Contradicted);
    assert!(lied.warnings[0].contains("the table has 7.45"), "{:?}", lied.warnings);
    for (bad, field) in [
        (json!({"value": m(1.0, 0.05), "body": "the pond", "litres": 1}), "body"),
        (json!({"value": m(1.0, 0.05), "drops": 1, "pools": 20, "pool_m3": 2500}), "drop_mL"),
        (json!({"value": m(1.0, 0.05), "drops": 1, "drop_mL": 0.05}), "pool_m3"),
        (json!({"value": m(1.0, 0.05), "body": "Loch Ness"}), "litres"),
    ] {
        let mut all = json!({"kind": "analogy"});
        all.as_object_mut().unwrap().extend(bad.as_object().unwrap().clone());
        let e = check(&all).unwrap_err().to_string();
        assert!(e.starts_with(field), "{e}");
    }
}

#[test]
fn free_of_is_never_shown_but_a_level_can_be() {
    let free = |amount: Value, level: Option<Value>| {
        let mut c = json!({"kind": "absence", "value": amount, "analyte": "Pb", "name": "the well"});
        if let Some(l) = level {
            c["means_below"] = l;
        }
        checked(&c)
    };
    let none = free(json!({"below": 0.15, "unit": "ng/L"}), None);
    assert_eq!(none.answer, Answer::CannotTell);
    assert_eq!(none.plain, "No lead was found in the well; if there is any, it is at most 0.15 ng/L.");
    assert_eq!(free(m(1.0, 0.05), None).answer, Answer::Contradicted);
    // 0.05 ± 0.06: not over zero with 95 %.
    assert_eq!(free(m(0.05, 0.06), None).answer, Answer::CannotTell);
    let level = || Some(json!({"value": 0.001, "unit": "ug/L"}));
    assert_eq!(free(json!({"below": 0.15, "unit": "ng/L"}), level()).answer, Answer::Supported);
    assert_eq!(free(json!({"below": 2.0, "unit": "ng/L"}), level()).answer, Answer::CannotTell);
    assert_eq!(free(m(5.0, 0.1), level()).answer, Answer::Contradicted);
    let zero = check(&json!({"kind": "absence", "value": {"value": 0, "unit": "ng/L"}})).unwrap_err();
    assert!(zero.to_string().contains("a zero says nothing"));
}

#[test]
fn a_reference_needs_its_own_u() {
    let of = |reference: Value, more: Value| {
        let mut c = json!({"kind": "reference", "value": m(1.0, 0.05), "analyte": "Pb", "name": "the well", "reference": reference});
        c.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        check(&c)
    };
    // SLRS-6: 170.1 ng/L, u 13.05: at least a hundred times more than 1.0 ± 0.05.
    let c = of(json!("SLRS-6 river water"), json!({"factor": 100})).unwrap();
    assert_eq!(c.answer, Answer::Supported);
    // A world mean without u: cannot tell, and the sentence speaks of the published figure alone.
    let mean = of(json!("rivers, world mean"), json!({})).unwrap();
    assert_eq!(mean.answer, Answer::CannotTell);
    assert!(mean.warnings[0].contains("neither") || mean.warnings[0].contains("no uncertainty"), "{:?}", mean.warnings);
    assert!(mean.plain.contains("the published figure for rivers, world mean"), "{}", mean.plain);
    let published = of(json!("rivers, world mean"), json!({"as_published": true, "factor": 50})).unwrap();
    assert_eq!(published.answer, Answer::Supported);
    // A range must hold as a whole: rural rain 0.59 to 64 µg/L, all far over 1 ng/L.
    let rain = of(json!("rain, rural"), json!({"factor": 500})).unwrap();
    assert_eq!(rain.answer, Answer::Supported);
    assert_eq!(of(json!("rain, rural"), json!({"factor": 5000})).unwrap().answer, Answer::CannotTell);
    // Antarctic ice 0.3 to 0.5 ng/kg lies under the well.
    assert_eq!(of(json!("Antarctic ice (Dome C), Holocene"), json!({})).unwrap().answer, Answer::Contradicted);
    for vague in ["old ice", "rain", "ice"] {
        let e = of(json!(vague), json!({})).unwrap_err().to_string();
        assert!(e.contains("which one"), "{e}");
    }
    let given = json!({"name": "the brook", "value": 30, "u": 3, "unit": "ng/L"});
    let brook = of(given, json!({"factor": 10})).unwrap();
    assert_eq!(brook.answer, Answer::Supported);
    assert!(brook.warnings.iter().any(|w| w.contains("names no source")));
}

/// Ocean water is given by mass: 2.7 ng/kg are 2.7 × 1.025 = 2.77 ng/L.
#[test]
fn mass_and_volume_meet_over_the_density() {
    let c = checked(
        &json!({"kind": "reference", "value": m(1.0, 0.01), "analyte": "Pb", "reference": "ocean, North Pacific", "as_published": true}),
    );
    near(c.figures["ratio"].as_f64().unwrap(), 2.767_5, 1e-9);
}

#[test]
fn a_ranking_holds_as_a_whole() {
    let items = |c: f64| json!([{"name": "SL-1", "amount": m(2.6, 0.05)}, {"name": "SL-2", "amount": m(c, 0.05)}, {"name": "SL-3", "amount": {"below": 0.5, "unit": "ng/L"}}]);
    let rank = |claim: (&str, Value), c: f64| {
        let mut v = json!({"kind": "ranking", "items": items(c), "analyte": "Pb"});
        v[claim.0] = claim.1;
        checked(&v)
    };
    assert_eq!(rank(("lowest", json!("SL-3")), 1.0).answer, Answer::Supported);
    assert_eq!(rank(("highest", json!("SL-1")), 1.0).answer, Answer::Supported);
    assert_eq!(rank(("order", json!(["SL-3", "SL-2", "SL-1"])), 1.0).answer, Answer::Supported);
    let close = rank(("highest", json!("SL-1")), 2.5);
    assert_eq!(close.answer, Answer::CannotTell);
    assert!(close.plain.contains("SL-2 and SL-1 cannot be put in order."), "{}", close.plain);
    assert_eq!(rank(("lowest", json!("SL-1")), 1.0).answer, Answer::Contradicted);
}

#[test]
fn a_change_is_told_from_the_method_and_from_nothing_found() {
    let change = |relation: &str, before: Value, after: Value, more: Value| {
        let mut c = json!({"kind": "change", "relation": relation, "before": before, "after": after, "analyte": "Pb", "name": "SL-2"});
        c.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        checked(&c)
    };
    assert_eq!(change("fallen", m(10.0, 0.5), m(5.0, 0.3), json!({})).answer, Answer::Supported);
    assert_eq!(change("risen", m(10.0, 0.5), m(5.0, 0.3), json!({})).answer, Answer::Contradicted);
    let same = change("unchanged", m(10.0, 0.5), m(10.1, 0.5), json!({}));
    assert_eq!(same.answer, Answer::CannotTell);
    assert!(same.plain.contains("is not excluded"), "{}", same.plain);
    assert_eq!(
        change("unchanged", m(10.0, 0.1), m(10.1, 0.1), json!({"within_percent": 10})).answer,
        Answer::Supported
    );
    let methods = change("fallen", m(10.0, 0.5), m(5.0, 0.3), json!({"methods": ["old", "new"]}));
    assert_eq!(methods.answer, Answer::CannotTell);
    let slope = |relation: &str, interval: [f64; 2]| {
        checked(
            &json!({"kind": "change", "relation": relation, "slope": {"per_year": -0.1, "interval_95": interval, "unit": "ng/L", "from": "2009", "to": "2026"}, "analyte": "Pb"}),
        )
    };
    assert_eq!(slope("fallen", [-0.15, -0.05]).answer, Answer::Supported);
    assert_eq!(slope("fallen", [-0.25, 0.05]).answer, Answer::CannotTell);
}

#[test]
fn german_has_its_own_words_and_decimal_sign() {
    let c = checked(
        &json!({"kind": "ratio", "lang": "de", "analyte": "Pb", "a": m(25.0, 2.0), "b": m(5.0, 1.0), "factor": 5, "a_name": "die Quelle", "b_name": "der Brunnen"}),
    );
    assert_eq!(c.plain, "Der Brunnen enthält höchstens 28 % so viel Blei wie die Quelle.");
    assert!(c.scientific.contains("3,44 bis 8,38"), "{}", c.scientific);
}

/// What is said is an identity with its numbers: 1/3.6351 of the first test, rounded up.
#[test]
fn a_sentence_is_a_message_that_is_said_in_any_language() {
    let plain = ratio(m(25.0, 2.0), m(5.0, 1.0), 5.0).sentences.plain;
    share(&plain, 28.0);
    assert_eq!(plain.said(Lang::En).unwrap(), "The well holds at most 28 % of the lead in the spring.");
    assert!(plain.said(Lang::De).unwrap().contains("höchstens 28 % so viel Blei"));
    let unnamed = checked(&json!({"kind": "ratio", "a": m(25.0, 2.0), "b": m(5.0, 1.0), "factor": 1}));
    assert_eq!(unnamed.asked, "B holds less than a.");
}

/// No sentence has an unfilled gap or a missing key, in any language; every example runs.
#[test]
fn every_kind_speaks_both_languages() {
    for lang in ["en", "de"] {
        for c in [
            json!({"kind": "ratio", "a": m(2.0, 0.1), "b": {"above": 3.0, "unit": "ng/L"}, "relation": "about", "factor": 2}),
            json!({"kind": "ratio", "a": m(9.0, 0.1), "b": m(2.0, 0.1), "relation": "about", "factor": 2}),
            json!({"kind": "ratio", "a": m(9.0, 0.1), "b": m(2.0, 0.1), "relation": "at most", "factor": 7}),
            json!({"kind": "analogy", "value": {"below": 1.0, "unit": "ng/L"}, "body": "Lake Ontario", "kilograms": 1}),
            json!({"kind": "analogy", "value": {"value": 1.0, "unit": "ng/L"}, "seconds": 1, "years": 30000}),
            json!({"kind": "absence", "results": [{"analyte": "Pb", "amount": {"below": 1.0, "unit": "ng/L"}}, {"analyte": "Cd", "amount": {"value": 2.0, "unit": "ng/L"}}]}),
            json!({"kind": "absence", "results": [{"analyte": "Pb", "amount": {"below": 1.0, "unit": "ng/L"}}, {"analyte": "Cd", "amount": {"below": 2.0, "unit": "ng/L"}}]}),
            json!({"kind": "reference", "value": m(1.0, 0.1), "analyte": "Pb", "reference": "Greenland snow, 1965"}),
            json!({"kind": "ranking", "items": [{"name": "x", "amount": m(1.0, 0.5)}, {"name": "y", "amount": m(1.1, 0.5)}], "order": ["x", "y"]}),
            json!({"kind": "change", "relation": "unchanged", "before": m(1.0, 0.5), "after": m(1.1, 0.5)}),
            json!({"kind": "change", "relation": "risen", "percent": 20, "before": m(1.0, 0.01), "after": m(1.5, 0.01)}),
            json!({"kind": "threshold", "value": m(0.812, 0.05), "relation": "below", "level": {"value": 1, "unit": "ng/L"}, "analyte": "Pb"}),
            json!({"kind": "threshold", "value": m(-0.2, 0.5), "relation": "above", "level": {"value": 1, "unit": "ng/L"}}),
            json!({"kind": "threshold", "value": {"value": 1, "unit": "ng/L"}, "relation": "below", "level": {"value": 1, "unit": "ng/L"}}),
            json!({"kind": "difference", "a": m(9.0, 0.1), "b": m(2.0, 0.1), "by": {"value": 8, "unit": "ng/L"}}),
            json!({"kind": "difference", "a": m(2.0, 0.1), "b": {"below": 3.0, "unit": "ng/L"}, "analyte": "Pb"}),
            json!({"kind": "absence", "value": m(0.812, 0.05), "means_below": {"value": 1, "unit": "ng/L"}}),
            json!({"kind": "absence", "value": {"below": 2.0, "unit": "ng/L"}, "found_in_bottle": true}),
            json!({"kind": "reference", "value": m(1.0, 0.1), "reference": {"name": "brook", "value": 9, "low": 5, "unit": "ng/L"}}),
            json!({"kind": "reference", "value": m(1.0, 0.1), "reference": {"name": "brook", "value": 9, "high": 15, "unit": "ng/L"}}),
            json!({"kind": "change", "relation": "fallen", "percent": 20, "slope": {"per_year": -1, "interval_95": [-2, -0.5], "unit": "ng/L"}}),
        ] {
            let mut c = c;
            c["lang"] = json!(lang);
            let out = serde_json::to_string(&checked(&c)).unwrap();
            assert!(!out.contains('⟨') && !out.contains("  ") && !out.contains("NaN"), "{out}");
        }
    }
    for c in CALCULATIONS {
        let out = (c.run)(&serde_json::from_str(c.example).unwrap()).unwrap();
        assert!(out["method"].is_string() && out["sources"].is_array() && out["warnings"].is_array(), "{}", c.name);
        let _: Value = serde_json::from_str(c.schema).unwrap();
    }
}

#[test]
fn what_cannot_be_met_is_refused_by_field() {
    for (bad, field) in [
        (json!({"kind": "boast"}), "kind"),
        (json!({"kind": "ratio", "a": m(1.0, 0.1), "b": m(1.0, 0.1), "factor": 0}), "factor"),
        (json!({"kind": "ratio", "a": m(1.0, 0.1), "b": {"value": 1, "u": 0.1, "unit": "m"}}), "b"),
        (
            json!({"kind": "ratio", "a": {"value": 1, "u": 0.1, "unit": "mg/L as N"}, "b": {"value": 1, "u": 0.1, "unit": "mg/L"}}),
            "b",
        ),
        (json!({"kind": "ratio", "a": m(1.0, 0.1), "b": m(1.0, 0.1), "relation": "exactly"}), "relation"),
        (json!({"kind": "ratio", "a": m(1.0, 0.1), "b": m(1.0, 0.1), "lang": "fr"}), "lang"),
        (json!({"kind": "change", "relation": "fallen"}), "before"),
        (
            json!({"kind": "threshold", "value": m(1.0, 0.1), "relation": "under", "level": {"value": 1, "unit": "ng/L"}}),
            "relation",
        ),
        (json!({"kind": "threshold", "value": m(1.0, 0.1), "relation": "below", "level": m(1.0, 0.1)}), "level"),
        (
            json!({"kind": "threshold", "value": m(1.0, 0.1), "relation": "below", "level": {"value": 1, "unit": "m"}}),
            "level",
        ),
        (json!({"kind": "difference", "a": m(1.0, 0.1), "b": m(1.0, 0.1), "relation": "at most"}), "by"),
    ] {
        let e = check(&bad).unwrap_err().to_string();
        assert!(e.starts_with(field), "{e}");
    }
}

/// Two values that share most of their doubt: 10 ± 1 and 9 ± 1, u of the difference √(2 − 2·0.95) = 0.316 (GUM 5.2.2,
/// formula), so 9 lies 3.16 u under 10; taken as independent only 0.71 u.
#[test]
fn a_ranking_takes_what_its_items_share() {
    let m = |v: f64| json!({"value": v, "u": 1.0, "unit": "ng/L"});
    let ask = |c: f64| {
        let items = json!([{"name": "A", "amount": m(10.0)}, {"name": "B", "amount": m(9.0)}]);
        check(&json!({"kind": "ranking", "lowest": "B", "items": items,
            "covariances": [{"a": "A", "b": "B", "covariance": c}]}))
    };
    assert_eq!(ask(0.95).unwrap().answer.word(), "supported");
    assert_eq!(ask(0.0).unwrap().answer.word(), "cannot tell");
    let refused = ask(1.1).unwrap_err().to_string();
    assert!(refused.contains("covariances[0].covariance") && refused.contains("product of both u"), "{refused}");
}

/// A picture that somebody else has drawn is held or not; what is proposed in its place is never another picture.
#[test]
fn no_picture_of_scale_is_proposed() {
    for value in
        [m(1.0, 0.05), m(-0.6, 0.3), json!({"below": 1.0, "unit": "ng/L"}), json!({"value": 1.0, "unit": "ng/L"})]
    {
        let c = analogy(&json!({"value": value, "body": "Loch Ness", "litres": 1}));
        assert!(c.answer != Answer::Supported && c.sentences.plain.is::<message::claim::Holds>(), "{}", c.plain);
    }
}

/// 10 ng/L ± 0.01 to 8.2 ± 0.01 is a fall by 18 % (18.0 ± 0.1): within 20, though 10/8.2 = 1.22 is over 1.2.
#[test]
fn a_change_is_measured_from_the_earlier_amount() {
    let c = checked(
        &json!({"kind": "change", "relation": "unchanged", "within_percent": 20, "before": m(10.0, 0.01), "after": m(8.2, 0.01)}),
    );
    assert_eq!(c.answer, Answer::Supported);
}

/// "Fallen by 50 %" was borne by any slope that falls.
#[test]
fn a_slope_alone_bears_no_percent() {
    let slope = |more: Value| {
        let mut slope = json!({"per_year": -0.1, "interval_95": [-0.15, -0.05], "unit": "ng/L"});
        slope.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        checked(&json!({"kind": "change", "relation": "fallen", "percent": 50, "slope": slope}))
    };
    let alone = slope(json!({}));
    assert_eq!(alone.answer, Answer::CannotTell);
    assert!(alone.sentences.warnings.iter().any(Message::is::<message::claim::PercentOfSlope>));
    assert!(alone.sentences.plain.is::<message::claim::Falling>());
    // Twenty years of at least 0.05 are 1 of a level of at most 1.96 (1.94 + 1.96 × 0.01): 51 %; of 3 only a third.
    assert_eq!(slope(json!({"start": m(1.94, 0.01), "years": 20})).answer, Answer::Supported);
    assert_eq!(slope(json!({"start": m(3.0, 0.01), "years": 20})).answer, Answer::CannotTell);
}
