//! An import that is taken back: what was derived of it follows, the record stays what was written, the same file comes
//! in again and says the same, and what a person stands for holds it.

use crate::demo_common;
use assessment::results;
use assessment::verify::{Answer, verify};
use intake::import::{self, Input, Mapping};
use programme::{history, start::start, work};
use record::by::By;
use record::store::{Filter, Store, StoreError};
use simulator::{Purpose, Trip, files::raw_files};
use std::path::Path;

const BY: By = By { person: demo_common::BY, at: demo_common::AT };

/// The invented trip, counts in an import of their own.
fn programme(folder: &Path) -> (Store, Vec<Input>, Vec<Input>) {
    let store = start(folder.join("p.sqlite"), BY.person, BY.at).unwrap();
    let input = |f: simulator::files::RawFile| {
        let path = folder.join(f.name);
        std::fs::write(&path, f.text).unwrap();
        Input { path, mapping: Mapping::shipped(f.mapping).unwrap() }
    };
    let files = raw_files(&Trip::new(2611, Purpose::Demo)).into_iter().map(input);
    let (counts, others) = files.partition(|i| i.path.ends_with("run-counts.csv"));
    (store, others, counts)
}

fn take(store: &mut Store, inputs: &[Input]) -> i64 {
    let (taken, derived) = work::take_in(store, inputs, BY, &|_| true, |_| {}).unwrap();
    assert!(taken.head.is_some());
    derived.unwrap();
    history::acts(store).unwrap().into_iter().rfind(|d| d.act == "import").unwrap().event
}

/// What a reader sees of all results; the number of the revision aside, which is given once and never again.
fn seen(store: &Store) -> Vec<String> {
    let told = |r: &results::Listed| {
        let mut all = serde_json::to_value(r).unwrap();
        all["result"] = r.result.newest().to_string().into();
        all.to_string()
    };
    results::all(store).unwrap().iter().map(told).collect()
}

#[track_caller]
fn intact(store: &Store) {
    let found = verify(store, None).unwrap();
    assert_eq!(found.rows.differences, []);
    assert_eq!(found.answer(), Answer::Intact, "{:?}", found.in_words());
}

#[test]
fn what_was_derived_of_an_import_follows_and_the_same_file_says_the_same_again() {
    let folder = tempfile::tempdir().unwrap();
    let (mut store, others, counts) = programme(folder.path());
    let before = take(&mut store, &others);
    let none = seen(&store);
    let event = take(&mut store, &counts);
    let all = seen(&store);
    assert!(all.len() > none.len());
    intact(&store);
    // What the counts came to rest on holds its own import.
    let told = history::undo(&mut store, &before.to_string(), "the wrong trip", BY).unwrap_err();
    assert!(told.to_string().contains(&format!("event {event}, import of run-counts.csv")), "{told}");
    intact(&store);

    let done = history::undo(&mut store, &event.to_string(), "the wrong run", BY).unwrap();
    assert!(done.rows["reading"] > 0 && done.rows["result"] > 0 && done.rows["verdict"] > 0, "{:?}", done.rows);
    assert_eq!(seen(&store), none);
    intact(&store);
    let acts = history::acts(&store).unwrap();
    let act = acts.iter().find(|d| d.event == event).unwrap();
    assert_eq!(act.undone.as_ref().map(|(_, why)| why.as_str()), Some("the wrong run"));

    let again = take(&mut store, &counts);
    assert_eq!(seen(&store), all);
    intact(&store);
    // Everything, first to last; and all of it again.
    for event in [again, before] {
        history::undo(&mut store, &event.to_string(), "anew", BY).unwrap();
        intact(&store);
    }
    assert_eq!((store.bottles(&Filter::all()).unwrap(), store.wells().unwrap()), (vec![], vec![]));
    take(&mut store, &others);
    take(&mut store, &counts);
    assert_eq!(seen(&store), all);
    intact(&store);
}

#[test]
fn a_verdict_that_somebody_stands_for_holds_the_import() {
    let folder = tempfile::tempdir().unwrap();
    let (mut store, others, counts) = programme(folder.path());
    take(&mut store, &others);
    let event = take(&mut store, &counts);
    let derived = |r: &results::Listed| r.verdict.is_some() && r.gross.is_some();
    let signed = results::all(&store).unwrap().into_iter().find(derived).unwrap().result;
    work::sign(&mut store, &signed.to_string(), "seen beside the other bottles", BY).unwrap();
    let head = store.head().unwrap();
    let told = history::undo(&mut store, &event.to_string(), "the wrong run", BY).unwrap_err();
    assert!(matches!(told, record::Error::Store(StoreError::NotUndone { .. })));
    assert!(told.to_string().contains("sign-off") && told.to_string().contains(&signed.bottle), "{told}");
    assert_eq!(store.head().unwrap(), head);
}

#[test]
fn reports_of_a_laboratory_come_back_under_their_own_names() {
    // In German, from a contract laboratory, without a single count.
    for fixture in fixtures::all() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = start(folder.path().join("p.sqlite"), BY.person, BY.at).unwrap();
        let mut events = vec![];
        for file in fixture.files.iter().filter(|f| !f.mapping.is_empty()) {
            let path = folder.path().join(file.name);
            std::fs::write(&path, &file.bytes).unwrap();
            for own in fixture.files.iter().filter(|f| f.mapping.is_empty()) {
                std::fs::write(folder.path().join(own.name), &own.bytes).unwrap();
            }
            let own = folder.path().join(file.mapping);
            let mapping = if own.exists() { own.to_string_lossy().into_owned() } else { file.mapping.to_string() };
            let inputs = import::inputs(&store, &[path], &mapping).unwrap();
            if work::take_in(&mut store, &inputs, BY, &|_| true, |_| {}).unwrap().0.head.is_some() {
                let event = history::acts(&store).unwrap().into_iter().rfind(|d| d.act == "import").unwrap().event;
                events.push((event, inputs));
            }
        }
        let all = seen(&store);
        // From the last on: each stands on those before it.
        let mut back = vec![];
        for (event, inputs) in events.iter().rev() {
            match history::undo(&mut store, &event.to_string(), "anew", BY) {
                Ok(_) => back.push(inputs),
                // A file of people alone, or one whose rows a person stands for.
                Err(record::Error::Store(StoreError::NotUndone { .. })) => {}
                Err(e) => panic!("{}: event {event}: {e}", fixture.name),
            }
            assert_eq!(verify(&store, None).unwrap().rows.differences, [], "{}", fixture.name);
        }
        assert!(!back.is_empty(), "{}", fixture.name);
        for inputs in back.iter().rev() {
            work::take_in(&mut store, inputs, BY, &|_| true, |_| {}).unwrap().1.unwrap();
        }
        assert_eq!(seen(&store), all, "{}", fixture.name);
    }
}
