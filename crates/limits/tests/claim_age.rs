//! Sentences of age: what is refused, what is said beside an answer, in both languages. Expectations follow from the rules
//! of `docs/theory/origin.md`; the shares of the models are written into each sentence.

#![allow(clippy::needless_pass_by_value, reason = "values are written where they are used")]

use limits::claim::{Answer, Checked, Claim, check};
use message::{Arg, Digits, Lang, Message, Share, Shown, Spoken, age as science, claim as said, well_age};
use quantity::CalcError;
use serde_json::{Value, json};

fn read(input: &Value) -> Result<Checked, CalcError> {
    check(&Claim::read(input)?)
}

#[track_caller]
fn checked(input: &Value) -> Checked {
    read(input).unwrap_or_else(|e| panic!("{e}"))
}

/// Two models that were tested, by tritium and carbon-14.
fn tracers() -> Value {
    json!({"counted_from": 2026.53, "day": "2026-07-14", "by": ["3H", "14C"], "tritium": "before",
        "carbon_years": [900, 4100],
        "models": [{"model": "piston", "younger": [0, 0], "tested": true},
                   {"model": "exponential", "younger": [0.002, 0.0234], "tested": true}]})
}

fn sentence(fields: &Value, tracers: Value) -> Value {
    let mut out = json!({"kind": "age", "name": "SL-2", "tracers": tracers});
    out.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
    out
}

fn warns<T: message::Declared>(c: &Checked) -> bool {
    c.sentences.warnings.iter().any(message::Message::is::<T>)
}

/// The field that is refused, and the range that is told.
#[track_caller]
fn refused(fields: &Value, field: &str, range: &str) {
    let mut input = json!({"kind": "age", "tracers": tracers()});
    input.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
    match read(&input) {
        Err(CalcError::Refused { field: at, expected, .. }) => {
            assert_eq!(at, field, "{input}");
            assert!(expected.contains(range), "{input}: {expected}");
        }
        other => panic!("{input}: {other:?}"),
    }
}

#[test]
fn what_cannot_be_asked_is_refused_with_the_range() {
    refused(&json!({"relation": "before", "year": 2031}), "year", "to 2026");
    refused(&json!({"relation": "before", "year": -60_000}), "year", "to 2026");
    refused(&json!({"relation": "older", "years": -5}), "years", "over 0, to 50000");
    refused(&json!({"relation": "older", "years": 0}), "years", "over 0, to 50000");
    refused(&json!({"relation": "older", "years": 50_001}), "years", "over 0, to 50000");
    refused(&json!({"relation": "older"}), "years", "over 0, to 50000");
    refused(&json!({"relation": "older", "year": 1900}), "year", "years alone");
    refused(&json!({"relation": "before", "years": 70}), "years", "year alone");
    refused(&json!({"relation": "at most", "years": 50, "share": 1.5}), "share", "over 0 and under 1");
    refused(&json!({"relation": "at most", "years": 50, "share": 0}), "share", "over 0 and under 1");
    refused(&json!({"relation": "at least", "years": 50}), "share", "over 0 and under 1");
    refused(&json!({"relation": "at least", "years": 50, "year": 1990, "share": 0.1}), "years", "not both");
    refused(&json!({"relation": "before", "share": 0.1}), "share", "speak of all");
    refused(&json!({"relation": "younger", "years": 50}), "relation", "before, older, at most or at least");
    let shares = json!({"counted_from": 2026.5, "by": ["3H"], "models": [{"model": "piston", "younger": [0.4, 0.2]}]});
    refused(&json!({"relation": "before", "tracers": shares}), "tracers.models[0].younger", "0 to 1");
    refused(
        &json!({"relation": "before", "tracers": {"by": [], "models": []}}),
        "tracers.counted_from",
        "1900 to 2200",
    );
    // Without a tracer there is no day of sampling: a year that no sample has lived to is refused all the same.
    let far = read(&json!({"kind": "age", "relation": "before", "year": 3000})).unwrap_err();
    assert!(far.to_string().contains("year"), "{far}");
}

#[test]
fn what_the_data_bear_is_said_with_its_bound_and_never_as_all() {
    let c = checked(&sentence(&json!({"relation": "before"}), tracers()));
    assert_eq!(c.answer, Answer::Supported);
    assert!(c.sentences.asked.is::<said::AgeBeforeBomb>());
    // 2.34 % rounded up to two digits.
    assert!(c.sentences.plain.is::<said::AgeBeforeBut>());
    assert_eq!(c.sentences.plain.arg("share"), Some(&Arg::Share(Share::new(0.0234, Digits::Up(2)))));
    assert!(c.plain.contains("2.4 %"), "{}", c.plain);
    assert_eq!(c.interval, [Some(0.0), Some(0.0234)]);
    // 14 July 2026 less 1953.
    assert!((c.figures["age_years"].as_f64().unwrap() - 73.53).abs() < 1e-9);
    assert!(warns::<said::AgeAllMeans>(&c) && warns::<said::AgeCarbonBand>(&c));
    // What tritium alone does not exclude stands beside what the models do.
    let mut data = tracers();
    data["tritium_younger_at_most"] = json!(0.517);
    let c = checked(&sentence(&json!({"relation": "before"}), data));
    let beside = c.sentences.warnings.iter().find(|w| w.is::<well_age::WithoutModel>()).expect("said");
    assert_eq!(beside.arg("younger"), Some(&Arg::Share(Share::new(0.517, Digits::Up(2)))));
    // What is asked as a share is said as it was asked.
    let c = checked(&sentence(&json!({"relation": "at most", "share": 0.1, "years": 60}), tracers()));
    assert_eq!(c.answer, Answer::Supported);
    assert_eq!(c.sentences.plain, c.sentences.asked);
}

#[test]
fn a_bound_that_is_not_shown_does_not_stand_in_the_nearest_sentence() {
    let mut data = tracers();
    data["tritium"] = json!("too-coarse");
    let c = checked(&sentence(&json!({"relation": "before"}), data));
    assert_eq!(c.answer, Answer::CannotTell);
    assert!(warns::<well_age::BeforeNeedsTritium>(&c) && warns::<said::AgeTellYoung>(&c));
    // The least that every model gives is borne; the most is not.
    assert!(c.sentences.plain.is::<said::AgeOpen>(), "{}", c.plain);
    assert!(c.plain.contains("cannot be told"), "{}", c.plain);
}

#[test]
fn the_most_unlike_models_are_named() {
    let mut data = tracers();
    data["models"] = json!([{"model": "piston", "younger": [0, 0], "tested": true},
        {"model": "two", "younger": [0.04, 0.2]}, {"model": "dispersion", "younger": [0, 0.01], "tested": true}]);
    let c = checked(&sentence(&json!({"relation": "before"}), data));
    assert_eq!(c.answer, Answer::CannotTell);
    let differ = c.sentences.warnings.iter().find(|w| w.is::<said::AgeModelsDiffer>()).expect("two differ");
    let model = |name: &str| Some(Arg::Message(Message::from(science::ModelName { model: name.into() })));
    assert_eq!((differ.arg("first").cloned(), differ.arg("second").cloned()), (model("piston"), model("two")));
    let untested = c.sentences.warnings.iter().find(|w| w.is::<said::AgeUntested>()).expect("one was not tested");
    assert_eq!(untested.arg("models"), Some(&Arg::List(model("two").into_iter().collect())));
}

/// Each tracer tells its own stretch of time: tritium since the bomb tests, argon-39 (half-life 269 years) to 1000 years,
/// carbon-14 (5730 years) to some 30 000, beyond it krypton-81.
#[test]
fn without_a_tracer_the_one_that_would_tell_is_named() {
    let of = |fields: Value| {
        let mut input = json!({"kind": "age", "name": "SL-9"});
        input.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
        let c = checked(&input);
        assert_eq!(c.answer, Answer::CannotTell, "{input}");
        assert!(warns::<said::AgeNoTracer>(&c), "{input}: {:?}", c.warnings);
        c
    };
    assert!(warns::<said::AgeTellYoung>(&of(json!({"relation": "before"}))));
    assert!(warns::<said::AgeTellYoung>(&of(json!({"relation": "at least", "share": 0.5, "years": 30}))));
    assert!(warns::<said::AgeTellMiddle>(&of(json!({"relation": "older", "years": 300}))));
    assert!(warns::<said::AgeTellOld>(&of(json!({"relation": "older", "years": 5000}))));
    assert!(warns::<said::AgeTellOldest>(&of(json!({"relation": "older", "years": 40_000}))));
}

#[test]
fn reasons_travel_with_the_sentence_and_are_said_in_its_language() {
    let mut data = tracers();
    data["models"] = json!([]);
    let methane = Message::from(science::CfcMethane { tracer: "CFC-11".into() });
    let none = Message::from(science::NoneFits);
    data["not_used"] = json!([methane]);
    data["notes"] = json!([none]);
    let mut input = sentence(&json!({"relation": "older", "years": 400}), data);
    for (lang, words) in [("en", "CFC-11 gives no age"), ("de", "CFC-11 gibt kein Alter")] {
        input["lang"] = lang.into();
        let c = checked(&input);
        assert_eq!(c.answer, Answer::CannotTell);
        assert!(c.warnings.iter().any(|w| w.contains(words)), "{lang}: {:?}", c.warnings);
        assert!(warns::<well_age::NotUsedBecause>(&c) && warns::<science::NoneFits>(&c));
    }
    // What is kept reads back as the same sentence.
    let claim = Claim::<quantity::Amount>::read(&input).unwrap();
    let again = Claim::<quantity::Amount>::read(&serde_json::to_value(&claim).unwrap()).unwrap();
    assert_eq!(claim, again);
}

#[test]
fn german_says_what_english_says_and_neither_advises_on_drinking() {
    let mut data = tracers();
    data["one_sided"] = json!(["14C"]);
    for (fields, asked) in [
        (json!({"relation": "before"}), "Das Wasser von SL-2 fiel ganz vor den Bombentests, vor 1953."),
        (json!({"relation": "older", "years": 400}), "Das Wasser von SL-2 ist ganz älter als 400 Jahre."),
        (
            json!({"relation": "at least", "share": 0.125, "year": 1990}),
            "Mindestens 12,5 % des Wassers von SL-2 sind von 1990 oder später.",
        ),
    ] {
        let mut input = sentence(&fields, data.clone());
        input["lang"] = "de".into();
        let c = checked(&input);
        assert_eq!(c.asked, asked);
        for text in [&c.plain, &c.scientific].into_iter().chain(&c.warnings) {
            assert!(!text.contains("unbedenklich") && !text.contains(" is ") && !text.contains('['), "{text}");
        }
        assert!(c.scientific.contains("³H und ¹⁴C"), "{}", c.scientific);
        // An age proves nothing of purity: said each time.
        let proof = well_age::Beside { says: science::NoProof.into() };
        assert!(c.warnings.contains(&proof.in_language(Lang::De)), "{:?}", c.warnings);
    }
    // A water without a name is this water.
    let c = checked(&json!({"kind": "age", "lang": "de", "relation": "older", "years": 90}));
    assert_eq!(c.asked, "Dieses Wasser ist ganz älter als 90 Jahre.");
    assert_eq!(c.sentences.asked.arg("years"), Some(&Arg::Amount(Shown::as_given(90.0, ""))));
}
