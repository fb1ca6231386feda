//! Sentences of age against the demo's record, whose truth stands in `simulator::tracers` (invented): SL-2 is water of which
//! nothing is younger than 866 years, mean age 2600; SL-3 has 12 parts in 100 of water of 15 years; SL-1 was measured by a
//! method that sees too little. What changed under a kept one marks it, and it is answered anew.

use crate::demo_common::record;
use crate::import_common::Desk;
use limits::claim::{AgeAsked, Answer, Says};
use message::{Said, claim, statement as said, well_age};
use programme::start::start;
use programme::statement::workshop::{Draft, Kind, ask, sentences};
use programme::statement::{self, New, Sentence, Stated, Whole};
use quantity::Lang;
use record::Error;
use record::by::By;
use record::store::Store;
use serde_json::{Value, json};
use simulator::{Purpose, Trip, tracers as truth};

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };

/// The demo's record without its run.
fn demo() -> Desk {
    let folder = tempfile::tempdir().unwrap();
    let store = record(folder.path(), &Trip::new(2611, Purpose::Demo), |name, text| {
        if matches!(name, "run-counts.csv" | "run-sequence.csv") { None } else { Some(text) }
    });
    Desk { folder, store }
}

fn sentence(well: &str, fields: &Value) -> Sentence {
    let mut all = json!({"kind": "age", "well": well});
    all.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
    Sentence::read(&all).unwrap_or_else(|e| panic!("{all}: {e}"))
}

fn answer(store: &Store, well: &str, fields: &Value) -> Answer {
    let told = ask(store, &sentence(well, fields)).unwrap_or_else(|e| panic!("{well} {fields}: {e}"));
    assert!(told.uses.is_empty() && !told.leans.is_empty(), "{well}: it leans on its tracers");
    told.checked.answer
}

fn warns<T: message::Declared>(warnings: &[message::Message]) -> bool {
    warnings.iter().any(message::Message::is::<T>)
}

#[test]
fn the_truth_of_the_demo_is_never_contradicted_and_what_is_false_never_borne() {
    let desk = demo();
    let store = &desk.store;
    let before = json!({"relation": "before"});
    // SL-2: tritium of nothing, by a method that sees rain since 1953, and two tracers together.
    assert_eq!(answer(store, "SL-2", &before), Answer::Supported);
    let youngest = truth::OLD_YEARS * (1.0 - 1.0 / truth::ETA);
    let older = |years: f64| answer(store, "SL-2", &json!({"relation": "older", "years": years}));
    assert_ne!(older(youngest - 1.0), Answer::Contradicted);
    assert_ne!(older(truth::OLD_YEARS), Answer::Supported);
    let young = json!({"relation": "at least", "share": 0.5, "years": 73});
    assert_eq!(answer(store, "SL-2", &young), Answer::Contradicted);
    // SL-3: a part of it is young.
    assert_ne!(answer(store, "SL-3", &before), Answer::Supported);
    let part = |share: f64| json!({"relation": "at least", "share": share, "year": 1953});
    assert_ne!(answer(store, "SL-3", &part(0.9 * truth::YOUNG_SHARE)), Answer::Contradicted);
    // SL-1: its tritium could not have seen what decides; that is told, with the tracer that would tell.
    let told = ask(store, &sentence("SL-1", &before)).unwrap().checked;
    assert_eq!(told.answer, Answer::CannotTell);
    let w = &told.sentences.warnings;
    assert!(warns::<well_age::BeforeNeedsTritium>(w) && warns::<claim::AgeTellYoung>(w), "{:?}", told.warnings);
}

#[test]
fn the_band_of_carbon_counts_to_both_of_its_ends() {
    let desk = demo();
    let resolved = assessment::age::of_sentence(&desk.store, "SL-2", |sampled| {
        assert!((sampled - truth::SAMPLED).abs() < 0.01, "{sampled}");
        Ok(AgeAsked::Since(1953.0).years(sampled))
    });
    let tracers = resolved.unwrap().unwrap();
    assert_eq!(tracers.by, ["3H", "14C"]);
    assert!(tracers.carbon_years.is_some() && !tracers.carbon_not_in_full, "{tracers:?}");
    // The widest bounds over the band hold those of the band taken flat, as the page of the well shows them (95 % on two
    // sides there, on one here).
    let shown = assessment::age::of_well(&desk.store, "SL-2").unwrap().unwrap();
    for m in shown.models.iter().filter(|m| !m.rejected) {
        let here = tracers.models.iter().find(|k| k.model == m.kind.name()).expect("a model that stands");
        assert!(here.younger[0] <= m.young.median && m.young.median <= here.younger[1], "{here:?} {:?}", m.young);
        assert_eq!(here.tested, m.tested);
    }
    assert!(tracers.beside.iter().any(message::Message::is::<message::age::HistoryUsed>));
}

fn add(desk: &mut Desk, name: &str, s: &Sentence) -> Stated {
    statement::add(&mut desk.store, &New { name, sentence: s, despite: None }, BY).unwrap_or_else(|e| panic!("{e}"))
}

#[test]
fn a_kept_sentence_is_marked_when_a_tracer_comes_and_answered_anew() {
    let mut desk = demo();
    let kept = add(&mut desk, "old water", &sentence("SL-2", &json!({"relation": "before"})));
    assert_eq!((kept.answer.as_str(), kept.kind.as_str()), ("supported", "age"));
    assert!(kept.stands() && kept.uses.is_empty());
    assert_eq!(kept.sentence.whole, Some(Whole::Age("SL-2".into())));
    let Says::Age(age) = &kept.kept.input.says else { panic!("{:?}", kept.kept.input) };
    assert_eq!(age.name.as_deref(), Some("SL-2"));
    // In the other language from what was kept, reasons and models included.
    let german = statement::in_language(&kept, Lang::De).unwrap();
    assert_eq!(german.answer, Answer::Supported);
    assert_eq!(german.asked, "Das Wasser von SL-2 fiel ganz vor den Bombentests, vor 1953.");
    assert!(german.scientific.contains("Kolben"), "{}", german.scientific);
    // Another well's tracer changes nothing here, nor does a price.
    let head = "well,sampled_on,tracer,value,below,uncertainty,k,unit,measured_on,decayed_to,half_life_a";
    desk.text("other.csv", "tracers", &format!("{head}\nSL-3,2026-07-14,d18O,-8.1,,0.1,1,‰ VSMOW,,,\n"));
    desk.text("price.csv", "recharge-facts", "what,tracer,low,high,source\nprice,SF6,90,90,invented offer\n");
    assert!(statement::find(&desk.store, "old water").unwrap().stands());
    // A younger sample with tritium in it: marked, with what came and the answer of today.
    desk.text("later.csv", "tracers", &format!("{head}\nSL-2,2026-07-20,3H,6,,0.1,2,TU,,,12.32\n"));
    let now = statement::find(&desk.store, "old water").unwrap();
    let [Said::Message(first), ..] = &now.changes[..] else { panic!("{:?}", now.changed) };
    assert!(first.is::<said::LeansChanged>(), "{:?}", now.changed);
    assert!(now.changed[0].contains("³H") && now.changed[0].contains("2026-07-20"), "{:?}", now.changed);
    let today = now.today.as_ref().unwrap();
    assert_ne!(today.answer.as_deref(), Some("supported"), "{}", today.plain);
    assert_eq!(now.answer, "supported", "what was kept stays");
    let again = statement::again(&mut desk.store, "old water", None, BY).unwrap();
    assert!(again.stands() && again.revision == 2);
    assert_eq!(Some(again.answer.as_str()), today.answer.as_deref());
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
}

#[test]
fn a_well_without_tracers_is_told_and_marked_when_the_first_comes() {
    let folder = tempfile::tempdir().unwrap();
    let store = start(folder.path().join("programme.limpid"), BY.person, BY.at).unwrap();
    let mut desk = Desk { folder, store };
    desk.text("wells.csv", "wells", "name,medium\nA,groundwater\n");
    let kept = add(&mut desk, "unknown", &sentence("A", &json!({"relation": "older", "years": 400})));
    assert_eq!(kept.answer, "cannot tell");
    assert!(kept.warnings.iter().any(|w| w.contains("argon-39")), "{:?}", kept.warnings);
    assert!(kept.stands());
    // Nothing was sampled: a year after the last entry is refused all the same.
    let ahead = sentence("A", &json!({"relation": "before", "year": 2090}));
    assert!(matches!(ask(&desk.store, &ahead), Err(Error::Unfit { what, .. }) if what == "year"));
    let head = "well,sampled_on,tracer,value,below,uncertainty,k,unit,measured_on,decayed_to,half_life_a";
    desk.text("t.csv", "tracers", &format!("{head}\nA,2026-07-14,3H,0.6,,0.1,2,TU,,,12.32\n"));
    let now = statement::find(&desk.store, "unknown").unwrap();
    assert!(!now.stands(), "{:?}", now.changed);
    // Tritium without a history of rain: not used, and that is said.
    assert_eq!(now.today.unwrap().answer.as_deref(), Some("cannot tell"));
    // Nor is a well that nobody wrote down.
    for well in ["A", "B"] {
        let asked = ask(&desk.store, &sentence(well, &json!({"relation": "before", "year": 2090})));
        match (well, asked) {
            ("A", Err(Error::Unfit { what, expected, .. })) => {
                assert!(what == "year" && expected.contains("2026"), "{what}: {expected}");
            }
            ("B", Err(Error::Absent { what, hint, .. })) => assert!(what == "well" && hint.contains('A'), "{hint}"),
            (_, other) => panic!("{well}: {other:?}"),
        }
    }
}

#[test]
fn what_cannot_be_asked_is_refused_before_anything_is_worked_out() {
    let mut desk = demo();
    let head = desk.store.head().unwrap();
    let mut refused = |well: &str, fields: Value, field: &str, range: &str| {
        let s = sentence(well, &fields);
        match statement::add(&mut desk.store, &New { name: "x", sentence: &s, despite: None }, BY) {
            Err(Error::Unfit { what, expected, .. }) => {
                assert!(what == field && expected.contains(range), "{fields}: {what}, {expected}");
            }
            Err(Error::Absent { what, hint, .. }) => {
                assert!(what == field && hint.contains(range), "{fields}: {what}{hint}");
            }
            other => panic!("{fields}: {other:?}"),
        }
    };
    refused("SL-9", json!({"relation": "before"}), "well", "SL-1, SL-2, SL-3");
    refused("SL-2", json!({"relation": "before", "year": 2027}), "year", "to 2026");
    refused("SL-2", json!({"relation": "older", "years": -3}), "years", "over 0, to 50000");
    refused("SL-2", json!({"relation": "at most", "years": 40, "share": 1.2}), "share", "under 1");
    assert_eq!(desk.store.head().unwrap(), head, "nothing was kept");
    let read = |fields: Value| Sentence::read(&fields).unwrap_err().to_string();
    assert!(read(json!({"kind": "age", "well": 7, "relation": "before"})).contains("well"));
    assert!(read(json!({"kind": "age", "relation": "before", "year": "long ago"})).contains("year"));
    let both = json!({"kind": "age", "well": "SL-2", "relation": "before", "tracers": {"counted_from": 2026.5}});
    assert!(read(both).contains("tracers"));
}

#[test]
fn the_workshop_builds_it_from_lists() {
    let desk = demo();
    let draft = |relation: &str, number: Option<f64>, years: Option<f64>| Draft {
        kind: Kind::Age,
        well: Some("SL-2".into()),
        relation: relation.into(),
        number,
        years,
        ..Draft::default()
    };
    // Nothing said of the year: before the bomb tests.
    let all = sentences(&draft("before", None, None)).unwrap();
    let told = ask(&desk.store, &all[0]).unwrap();
    assert_eq!(told.checked.answer, Answer::Supported);
    assert!(told.checked.sentences.asked.is::<claim::AgeBeforeBomb>());
    assert_eq!(told.days(), ["2026-07-14"]);
    // A share in percent, as it is typed.
    let all = sentences(&draft("at least", Some(50.0), Some(73.0))).unwrap();
    assert_eq!(ask(&desk.store, &all[0]).unwrap().checked.answer, Answer::Contradicted);
    // Still to be chosen.
    for open in [draft("older", None, None), draft("at most", Some(5.0), None), draft("at most", None, Some(9.0))] {
        assert!(sentences(&open).unwrap().is_empty(), "{open:?}");
    }
}
