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
    near(c.accept.upper.expect("a limit"), 9.0, 1e-12);
    near(c.consumer_risk, 0.02275, 5e-6);
    assert_eq!(c.answer, Answer::Conforms);
    let c = at(9.5, Guard::Risk(0.05));
    near(c.accept.upper.expect("a limit"), 9.18, 5e-3);
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
    let r = global_risk(&population, 0.5, &upper(10.0), &upper(9.2)).expect("risks");
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
