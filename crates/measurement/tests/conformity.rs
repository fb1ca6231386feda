//! Conformity with a limit (JCGM 106).

use measurement::conformity::{Answer, Guard, Limits, Population, Value, global_risk, judge};
use measurement::error::Error;

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

fn upper(h: f64) -> Limits {
    Limits { lower: None, upper: Some(h) }
}

fn value(value: f64, u: f64) -> Value {
    Value { value, u, dof: f64::INFINITY }
}

/// JCGM 106 clause 7, breakdown voltage (from memory, recomputed): −5.47 V, u = 0.05 V, upper
/// limit −5.40 V: Φ(1.40) = 0.919.
#[test]
fn probability_of_conformity() {
    let c = judge(&value(-5.47, 0.05), &upper(-5.40), Guard::None).expect("an answer");
    near(c.probability, 0.919, 5e-4);
    assert_eq!(c.answer, Answer::Conforms);
    let both = Limits { lower: Some(-1.0), upper: Some(1.0) };
    let c = judge(&value(0.0, 1.0), &both, Guard::None).expect("an answer");
    near(c.probability, 0.682_689_492, 1e-9);
}

/// Guard bands: w = U (r = 1) keeps the risk at Φ(−2) = 2.275 %; a risk of 5 % needs 1.645 u
/// (JCGM 106 8.3; limit 10, u 0.5 → 9.00 and 9.18, computed).
#[test]
fn guard_bands() {
    let at = |v: f64, guard| judge(&value(v, 0.5), &upper(10.0), guard).expect("an answer");
    let c = at(9.0, Guard::StandardUncertainties(2.0));
    near(c.accept.expect("a zone").upper.expect("a limit"), 9.0, 1e-12);
    near(c.consumer_risk, 0.02275, 5e-6);
    assert_eq!(c.answer, Answer::Conforms);
    let c = at(9.5, Guard::Risk(0.05));
    near(c.accept.expect("a zone").upper.expect("a limit"), 9.18, 5e-3);
    assert_eq!(c.answer, Answer::CannotTell);
    assert_eq!(at(10.5, Guard::Risk(0.05)).answer, Answer::CannotTell);
    assert_eq!(at(10.9, Guard::Risk(0.05)).answer, Answer::DoesNotConform);
    // Few degrees of freedom widen the band: t(0.95, 4) = 2.132.
    let few = Value { value: 9.0, u: 0.5, dof: 4.0 };
    let c = judge(&few, &upper(10.0), Guard::Risk(0.05)).expect("an answer");
    near(c.guard_band, 2.132 * 0.5, 5e-4);
}

/// Global risks against scipy 1.17.1: the probabilities of the two corners of a bivariate normal
/// (true value, measured value), `multivariate_normal.cdf`.
#[test]
fn global_risks() {
    let population = Population { mean: 8.0, sd: 1.0 };
    let r = global_risk(&population, 0.5, &upper(10.0), Some(&upper(9.2))).expect("risks");
    near(r.consumer, 0.00044346, 1e-6);
    near(r.producer, 0.11925876, 1e-6);
}

#[test]
fn what_cannot_be_judged_is_refused() {
    let none = Limits { lower: None, upper: None };
    assert!(matches!(judge(&value(1.0, 0.1), &none, Guard::None), Err(Error::TooFew { .. })));
    assert!(matches!(judge(&value(1.0, 0.0), &upper(2.0), Guard::None), Err(Error::OutOfRange { .. })));
    let crossed = Limits { lower: Some(3.0), upper: Some(2.0) };
    assert!(matches!(judge(&value(1.0, 0.1), &crossed, Guard::None), Err(Error::OutOfRange { .. })));
    assert!(matches!(judge(&value(f64::NAN, 0.1), &upper(2.0), Guard::None), Err(Error::NotFinite { .. })));
    assert!(matches!(judge(&value(1.0, 0.1), &upper(2.0), Guard::Risk(0.7)), Err(Error::OutOfRange { .. })));
}

/// Limits 2 u apart with a guard band of 1.645 u on each side: no value is accepted, which is said. Without acceptance
/// nothing wrong is accepted, and every value that conforms is rejected: P(|z| ≤ 1) of a normal population between its
/// own sd, 0.682689 (handbook tables).
#[test]
fn limits_closer_together_than_two_guard_bands_accept_nothing() {
    let limits = Limits { lower: Some(9.0), upper: Some(11.0) };
    let at = |value: f64| {
        judge(&Value { value, u: 1.0, dof: f64::INFINITY }, &limits, Guard::Risk(0.05)).expect("a judgement")
    };
    assert_eq!((at(10.0).accept, at(10.0).answer), (None, Answer::CannotTell));
    assert_eq!(at(13.0).answer, Answer::DoesNotConform);
    let population = Population { mean: 10.0, sd: 1.0 };
    let r = global_risk(&population, 1.0, &limits, None).expect("risks");
    near(r.consumer, 0.0, 1e-15);
    near(r.producer, 0.682_689, 1e-6);
    // Just far enough apart: one value is accepted, the middle.
    let just = Limits { lower: Some(8.0), upper: Some(12.0) };
    let v = Value { value: 10.0, u: 1.0, dof: f64::INFINITY };
    let c = judge(&v, &just, Guard::StandardUncertainties(2.0)).expect("a judgement");
    assert_eq!((c.accept, c.answer), (Some(Limits { lower: Some(10.0), upper: Some(10.0) }), Answer::Conforms));
    // And in words, through the calculation.
    let conformity = measurement::CALCULATIONS.iter().find(|c| c.name == "conformity").expect("listed");
    let input =
        serde_json::json!({ "value": 10, "u": 1, "lower": 9, "upper": 11, "population": { "mean": 10, "sd": 1 } });
    let answer = (conformity.run)(&input).expect("an answer");
    assert!(answer["accept"].is_null());
    assert!(answer["warnings"][0].as_str().expect("a warning").contains("no value is accepted"), "{answer:#}");
}
