//! Enrichment of what fell into the field blanks, on the invented run with its blanks set to known amounts. Crust:
//! Rudnick & Gao 2003, as in `reference/ucc_and_waters.csv`: V 97, Pb 17, Zn 67, Co 17.3 mg/kg.

use crate::demo_common;

use assessment::derive;
use assessment::dust::{self, NoDust, Reads};
use demo_common::record;
use measurement::run::{ReducedRun, Role};
use simulator::{Purpose, Trip};

fn run(dir: &std::path::Path) -> ReducedRun {
    let store = record(dir, &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    let found = derive::find_run(&store, "SL-R-2607").unwrap();
    derive::reduce(&derive::prepare(&store, found).unwrap()).unwrap()
}

/// Trip blanks of 1 ng/L, field blanks with `added` more; one part in a thousand between bottles.
fn set(run: &mut ReducedRun, added: impl Fn(&str) -> f64) {
    for (i, r) in run.results.iter_mut().enumerate() {
        let wobble = if i % 2 == 0 { 1.001 } else { 0.999 };
        match r.role {
            Role::TripBlank => r.gross.value = wobble,
            Role::FieldBlank => r.gross.value = wobble + added(&r.analyte.element),
            _ => {}
        }
    }
}

#[test]
fn dust_of_the_crust_reads_one_and_a_stranger_stands_out() {
    let dir = tempfile::tempdir().unwrap();
    let mut reduced = run(dir.path());
    set(&mut reduced, |e| match e {
        "V" => 0.97,
        "Pb" => 0.17,
        "Zn" => 0.67 * 30.0,
        _ => 0.0,
    });
    let d = dust::of(&reduced).unwrap();
    assert_eq!((d.reference.0.as_str(), d.beyond), ("V", "trip blanks"));
    let factor = |e: &str| d.over.iter().find(|o| o.element == e).unwrap().factors[0].clone();
    // The wobble of the blanks moves the amounts by up to 0.2 % of 1 ng/L: 0.002/0.17.
    assert!((factor("Pb").1 - 1.0).abs() < 0.02, "{:?}", factor("Pb"));
    assert!((factor("Zn").1 - 30.0).abs() < 0.2, "{:?}", factor("Zn"));
    assert_eq!(d.over[0].element, "Zn", "the largest first");
    let reads = |e: &str| d.over.iter().find(|o| o.element == e).unwrap().reads();
    assert_eq!((reads("Zn"), reads("Pb")), (Reads::Other, Reads::Crust));
    let cobalt = d.over.iter().find(|o| o.element == "Co").unwrap();
    assert!(cobalt.relative_u.is_none() && !cobalt.added.is_seen(), "nothing of it was added: {cobalt:?}");
}

#[test]
fn without_a_reference_element_there_is_no_factor() {
    let dir = tempfile::tempdir().unwrap();
    let mut reduced = run(dir.path());
    set(&mut reduced, |e| if e == "Pb" { 1.0 } else { 0.0 });
    assert_eq!(dust::of(&reduced), Err(NoDust::NoReference { beyond: "trip blanks" }));
    reduced.results.retain(|r| r.role != Role::FieldBlank);
    assert_eq!(dust::of(&reduced), Err(NoDust::TooFewBlanks));
}
