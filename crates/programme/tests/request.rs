//! Bottles go out under blind labels and come back: the order parts what belongs together, the labels are kept, a file
//! with them lands on its bottles, and that they were opened is on record.

use crate::demo_common;
use intake::import::{Input, Mapping, import};
use programme::request::{self, Asked};
use record::by::By;
use record::store::{Filter, Store};
use simulator::{Purpose, Trip};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

const BY: By = By { person: demo_common::BY, at: demo_common::AT };

fn demo(dir: &Path) -> (Store, String) {
    let store = demo_common::record(dir, &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    let trip = store.trips().unwrap().remove(0).name;
    (store, trip)
}

fn asked() -> Vec<Asked> {
    vec![Asked { analyte: "Sb".into(), unit: "ng/L".into(), down_to: Some(0.5) }]
}

#[test]
fn blind_labels_are_kept_and_part_what_belongs_together() {
    let dirs = [tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap()];
    let [(mut store, trip), (mut other, _)] = [demo(dirs[0].path()), demo(dirs[1].path())];
    let made = request::make(&mut store, &trip, Some("Labor E"), asked(), 42, BY).unwrap();
    let again = request::make(&mut other, &trip, Some("Labor E"), asked(), 42, BY).unwrap();
    assert_eq!(made, again, "the same number, the same labels");
    let bottles: BTreeMap<String, _> = store
        .bottles(&Filter::all().is("trip.name", trip.as_str()))
        .unwrap()
        .into_iter()
        .map(|b| (b.label.clone(), b))
        .collect();
    let kept: BTreeMap<String, String> =
        store.blind_labels().unwrap().into_iter().map(|l| (l.label, l.bottle)).collect();
    assert_eq!(kept.values().collect::<BTreeSet<_>>().len(), bottles.len());
    assert_eq!(made.bottles.len(), bottles.len());
    // A sample and its own duplicate or spike never stand side by side.
    let order: Vec<&str> = made.bottles.iter().map(|b| kept[&b.label].as_str()).collect();
    for pair in order.windows(2) {
        let [a, b] = [&bottles[pair[0]], &bottles[pair[1]]];
        assert!(a.parent.as_deref() != Some(pair[1]) && b.parent.as_deref() != Some(pair[0]), "{pair:?}");
    }
    // The sheets that go out name no bottle.
    for sheet in [request::sheet(&made), request::to_fill(&made), request::quality_to_fill(&made)] {
        assert!(bottles.keys().all(|label| !sheet.contains(label.as_str())), "{sheet}");
    }
    let second = request::make(&mut store, &trip, None, asked(), 43, BY).unwrap();
    assert_ne!(second.name, made.name);
    assert!(second.bottles.iter().all(|b| !kept.contains_key(&b.label)));
    assert_eq!(store.verify(None).unwrap().differences, []);
}

#[test]
fn what_comes_back_lands_on_its_bottles_and_that_it_was_opened_is_kept() {
    let dir = tempfile::tempdir().unwrap();
    let (mut store, trip) = demo(dir.path());
    let made = request::make(&mut store, &trip, Some("Labor E"), asked(), 7, BY).unwrap();
    assert!(request::all(&store).unwrap()[0].opened.is_empty());
    // As the laboratory fills the table: a number for each place.
    let mut filled = String::new();
    for (n, line) in request::to_fill(&made).lines().enumerate() {
        let line = if n == 0 { line.to_string() } else { line.replacen(",,,ng/L,", &format!(",{n}.5,0.1,ng/L,"), 1) };
        filled += &format!("{line}\n");
    }
    std::fs::write(dir.path().join("back.csv"), filled).unwrap();
    let input = Input { path: dir.path().join("back.csv"), mapping: Mapping::shipped("laboratory-long").unwrap() };
    let taken = import(&mut store, &[input], BY.person, BY.at).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(taken.files[0].unblinded, BTreeMap::from([(made.name.clone(), made.bottles.len() as u64)]));
    assert!(!taken.files[0].added.contains_key("bottle"), "no blind label became a bottle");
    let kept: BTreeMap<String, String> =
        store.blind_labels().unwrap().into_iter().map(|l| (l.label, l.bottle)).collect();
    for b in &made.bottles {
        let rows = store.results(&Filter::all().is("bottle.label", kept[&b.label].as_str())).unwrap();
        let antimony = rows.iter().find(|r| r.analyte == "Sb").unwrap();
        assert_eq!(antimony.value, Some(b.place as f64 + 0.5));
        assert!(antimony.subject.starts_with(kept[&b.label].split(':').next().unwrap()), "{}", antimony.subject);
    }
    let opened = &request::all(&store).unwrap()[0].opened;
    assert_eq!(opened.len(), 1);
    assert!(opened[0].raw_file_id.is_some() && opened[0].person.is_none());
    // A person may ask too, with a reason that is kept.
    let e = request::open(&mut store, "request 1", "x", BY).unwrap_err().to_string();
    assert!(e.contains(&made.name), "{e}");
    assert!(request::open(&mut store, &made.name, " ", BY).is_err());
    let labels = request::open(&mut store, &made.name, "the report is in", BY).unwrap();
    assert_eq!(labels.len(), made.bottles.len());
    assert!(labels.iter().zip(1..).all(|(l, place)| l.position == place && kept[&l.label] == l.bottle));
    assert_eq!(request::all(&store).unwrap()[0].opened.len(), 2);
    assert_eq!(store.verify(None).unwrap().differences, []);
}

#[test]
fn a_request_that_cannot_be_is_refused() {
    let dir = tempfile::tempdir().unwrap();
    let (mut store, trip) = demo(dir.path());
    let head = store.head().unwrap();
    let mut refused = |trip: &str, asked: Vec<Asked>, said: &str| {
        let e = request::make(&mut store, trip, None, asked, 1, BY).unwrap_err().to_string();
        assert!(e.contains(said), "{e}");
    };
    refused("nowhere", asked(), &trip);
    refused(&trip, vec![], "nothing to measure");
    refused(&trip, vec![Asked { unit: "ppt".into(), ..asked().remove(0) }], "ppt");
    assert_eq!(store.head().unwrap(), head);
}
