//! Files taken in and everything derived from them in one go, as both interfaces do it.

use intake::import::{ImportError, Input, Mapping};
use programme::start::start;
use programme::work;
use record::by::By;
use record::store::Store;
use simulator::{Purpose, Trip, files::raw_files};

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };

fn programme() -> (tempfile::TempDir, Store, Vec<Input>) {
    let folder = tempfile::tempdir().unwrap();
    let store = start(folder.path().join("p.sqlite"), BY.person, BY.at).unwrap();
    let input = |f: simulator::files::RawFile| {
        let path = folder.path().join(f.name);
        std::fs::write(&path, f.text).unwrap();
        Input { path, mapping: Mapping::shipped(f.mapping).unwrap() }
    };
    let inputs = raw_files(&Trip::new(2611, Purpose::Demo)).into_iter().map(input).collect();
    (folder, store, inputs)
}

#[test]
fn what_came_in_is_derived_and_the_same_again_derives_nothing() {
    let (_folder, mut store, inputs) = programme();
    let mut told = 0;
    let (taken, derived) = work::take_in(&mut store, &inputs, BY, &|_| true, |t| told = t.files.len()).unwrap();
    let derived = derived.unwrap();
    assert_eq!(told, taken.files.len());
    assert!(taken.head.is_some() && derived.results > 0 && derived.verdicts > 0);
    let head = store.head().unwrap();
    assert_eq!(work::recompute(&mut store, None, BY).unwrap().results, 0, "everything was derived");
    let (taken, derived) = work::take_in(&mut store, &inputs, BY, &|_| true, |_| {}).unwrap();
    assert!(taken.head.is_none() && derived.unwrap() == work::Recomputed::default());
    assert_eq!(store.head().unwrap(), head);
}

#[test]
fn what_came_in_stays_in_where_deriving_it_is_stopped() {
    let (_folder, mut store, inputs) = programme();
    let before = store.head().unwrap();
    // While the files are read.
    let stopped = work::take_in(&mut store, &inputs, BY, &|_| false, |_| panic!("nothing came in"));
    assert!(matches!(stopped, Err(ImportError::Stopped { .. })));
    assert_eq!(store.head().unwrap(), before);
    // Afterwards.
    let watch = |words: &str| !words.starts_with("deriving");
    let (taken, derived) = work::take_in(&mut store, &inputs, BY, &watch, |_| {}).unwrap();
    assert!(matches!(derived, Err(record::Error::Stopped { .. })));
    assert_eq!(store.head().unwrap(), taken.head);
    assert!(work::recompute(&mut store, None, BY).unwrap().verdicts > 0);
}
