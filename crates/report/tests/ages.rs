//! A sentence on the age of a water is as strong as what stands behind it: decided, likely, cannot tell, no age. The
//! answers are put together by hand; what is asked for is the message with its arguments.

use aquifer::age::verdict::{Question, Standing, Union, Verdict};
use aquifer::age::{Kind, Spread};
use assessment::age::{ModelShown, WellAge};
use document::content::Block;
use message::{Digits, Share, Spoken, age as science, well_age as said};
use quantity::{Check, Finding, Outcome};

fn answer(question: Question, standing: Standing, answer: Option<bool>) -> Verdict {
    let finding = Finding::new(Check::AquiferAge, Outcome::NotKnown, question.named());
    Verdict { question, standing, answer, finding }
}

fn spread(low: f64, high: f64) -> Spread {
    Spread { low_95: low, low_68: low, median: low.midpoint(high), high_68: high, high_95: high }
}

fn well(verdicts: Vec<Verdict>, young: (f64, f64), tested: bool) -> WellAge {
    let model = ModelShown {
        kind: Kind::Piston,
        rejected: false,
        tested,
        weight: 1.0,
        ranges_years: vec![(55.0, 62.0), (900.0, 4000.0)],
        young: spread(young.0, young.1),
        density: vec![(55.0, 0.4), (900.0, 1.0)],
    };
    WellAge {
        well: "W <1>".into(),
        day: "2026-07-14".into(),
        year: 2026.5,
        seen: vec![],
        histories: vec![],
        verdicts,
        union: Some(Union { mean_age_years: vec![(55.0, 62.0), (900.0, 4000.0)], open: false, young }),
        models: vec![model],
        tritium: None,
        tritium_measured: None,
        rain: vec![],
        carbon: None,
        carbon_is_bound: false,
        origin: None,
        darcy: None,
        darcy_years: None,
        next: None,
        findings: vec![],
        refused: vec![],
    }
}

fn first_text(a: &WellAge) -> String {
    match report::pages::age(a).into_iter().next() {
        Some(Block::Text(text)) => text,
        other => panic!("{other:?}"),
    }
}

/// A lower bound is rounded down, an upper one up.
fn bounds(low: f64, high: f64) -> (Share, Share) {
    (Share::new(low, Digits::Down(2)), Share::new(high, Digits::Up(2)))
}

#[test]
fn the_sentence_is_as_strong_as_the_answer() {
    use Question::{BeforeBomb, PartYoung, WhollyYoung};
    let of = |q, s, yes| vec![answer(q, s, Some(yes))];
    let (low, high) = (|| bounds(0.123, 0.321).0, || bounds(0.123, 0.321).1);
    let at = (0.123, 0.321);
    for (verdicts, expected) in [
        (of(BeforeBomb, Standing::Decided, true), said::BeforeDecided { high: high() }.text()),
        (of(BeforeBomb, Standing::Likely, true), said::BeforeLikely { high: high() }.text()),
        (of(WhollyYoung, Standing::Decided, true), said::YoungDecided { low: low() }.text()),
        (of(WhollyYoung, Standing::Likely, true), said::YoungLikely { low: low() }.text()),
        (of(PartYoung, Standing::Decided, true), said::PartDecided { low: low(), high: high() }.text()),
        (of(PartYoung, Standing::Likely, true), said::PartLikely { low: low(), high: high() }.text()),
        // A "no" alone says nothing of the other questions.
        (of(BeforeBomb, Standing::Decided, false), said::CannotTell { low: low(), high: high() }.text()),
        (vec![], said::CannotTell { low: low(), high: high() }.text()),
    ] {
        let text = first_text(&well(verdicts, at, true));
        assert!(text.starts_with(&expected), "{text}");
    }
}

#[test]
fn untested_models_and_refusals_are_said() {
    let untested = first_text(&well(vec![], (0.0, 1.0), false));
    assert!(untested.contains(&said::NothingTested.text()));
    assert!(!first_text(&well(vec![], (0.0, 1.0), true)).contains(&said::NothingTested.text()));
    let mut none = well(vec![], (0.0, 1.0), true);
    none.union = None;
    assert!(first_text(&none).contains(&said::NoAge.text()));
    none.refused = vec![said::HalfLifeNotSaid.into()];
    assert!(first_text(&none).contains(&said::NoAgeBecause { why: said::HalfLifeNotSaid.into() }.text()));
}

#[test]
fn two_possible_ages_stay_two_and_every_age_says_what_it_does_not_prove() {
    let blocks = report::pages::age(&well(vec![], (0.0, 0.5), true));
    let text = first_text(&well(vec![], (0.0, 0.5), true));
    // Both ranges, never their middle.
    assert!(text.contains("55") && text.contains("62") && text.contains("900") && text.contains("4000"), "{text}");
    let last = blocks.iter().rev().find_map(|b| if let Block::Text(t) = b { Some(t.clone()) } else { None }).unwrap();
    let proof = said::Beside { says: science::NoProof.into() }.text();
    assert!(last.contains(&proof), "{last}");
    assert!(!blocks.iter().any(|b| matches!(b, Block::List(l) if l.is_empty())), "an empty list");
}
