//! What a refusal says as a message is what it says: one English, in both.

use cleanliness::Error;
use cleanliness::attribution::{Bottle, Kind, Spikes, Survey, attribute};
use cleanliness::lines::{fills, flows, tested_line};
use cleanliness::lots::{LotRule, judge};
use cleanliness::patterns::{Excess, Signature, explain, training};

/// A bottle of 250 mL that met its bottle and some acid.
fn bottle(kind: Kind, mass_pg: f64, u_pg: f64) -> Bottle {
    Bottle {
        name: "FB-1".into(),
        kind,
        water: (kind == Kind::Sample).then(|| "SL-2".into()),
        volume_ml: 250.0,
        mass_pg,
        u_pg,
        exposures: vec![1.0, 0.5],
    }
}

fn fitted(bottles: Vec<Bottle>) -> Option<Error> {
    let sources = vec!["bottle".into(), "acid".into()];
    attribute(&Survey { sources, bottles, recovery: (1.0, 0.0), spikes: Spikes::default() }).err()
}

#[test]
fn a_refusal_and_its_message_say_the_same() {
    let blank = |u| bottle(Kind::Blank, 12.5, u);
    let sample = || bottle(Kind::Sample, 250.0, 2.0);
    let empty = Bottle { volume_ml: 0.0, ..blank(1.0) };
    let more_acid = Bottle { exposures: vec![1.0, 2.0], ..blank(1.0) };
    let rule = |target_pg| LotRule { target_pg, content: 0.9, confidence: 0.9 };
    let excess = |u| Excess { metal: "Pb".into(), value: 3.5, u };
    let pipe = Signature { name: "pipe".into(), amounts: vec![("Pb".into(), 1.0)], source: "invented".into() };
    let points = [(60.0, 12.1, 1.0), (125.0, 11.8, 1.0), (250.0, 12.3, 1.0)];
    let refused = [
        fitted(vec![]),
        fitted(vec![sample()]),
        fitted(vec![sample(), blank(1.0)]),
        fitted(vec![sample(), blank(1.0), empty]),
        fitted(vec![sample(), blank(1.0), blank(0.0)]),
        fitted(vec![sample(), blank(1.0), more_acid]),
        tested_line(&points[..2]).err(),
        tested_line(&[points[0]; 3]).err(),
        tested_line(&[points[0], points[1], (1.5, 2.5, 0.0)]).err(),
        fills(&[(-0.5, 1.0, 1.0); 4]).err(),
        flows(&[(0.0, 1.0, 1.0); 4]).err(),
        judge(&[8.0, 9.5], &rule(20.0)).err(),
        judge(&[8.0, 9.5, 10.0], &rule(-1.5)).err(),
        explain(&[excess(1.0), excess(0.0)], &[pipe]).err(),
        training("A. Reed", &[10.0], &[10.0]).err(),
    ];
    for e in refused {
        let Some(Error::Said { plain, says }) = e else { panic!("not said in every language: {e:?}") };
        assert_eq!(says.in_english(), plain.to_string());
    }
}
