//! A history that was rewritten: the chain of events alone cannot see it, an anchor that is kept elsewhere can. Each of the
//! rewritings is done here from outside, with the database's own tools and the same hash, so that the record by itself is
//! sound and everything derived follows.

use assessment::verify::{Answer, Verified, verify_watched};
use assessment::witnesses::{Asked, Evidence, Shown, head};
use intake::entry::{TypedRow, enter};
use message::{Declared, Message, trust as says};
use programme::{start, work};
use record::by::By;
use record::store::{Store, restore};
use rusqlite::Connection;
use std::path::{Path, PathBuf};
use trust::Head;

const MARIT: By = By { person: "Marit Osk", at: "2026-07-15T10:00:00+02:00" };
const INES: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00+02:00" };

/// A small programme: two people from a file, a site entered by hand.
fn programme(path: &Path, people: &str) -> Store {
    let mut store = start::start(path, MARIT.person, MARIT.at).unwrap();
    let file = path.with_extension("people.csv");
    std::fs::write(&file, people).unwrap();
    let inputs = intake::import::inputs(&store, &[file], "people").unwrap();
    intake::import::import(&mut store, &inputs, MARIT.person, MARIT.at).unwrap();
    enter(&mut store, INES, "the site", &[TypedRow::of("site").with("name", "Sallow Levels")]).unwrap();
    work::follow(&mut store, INES, &|_| true).unwrap();
    store
}

const PEOPLE: &str = "name,role\nMarit Osk,lead\nInes Varga,analyst\n";

fn folder() -> (tempfile::TempDir, PathBuf) {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("p.sqlite");
    (dir, path)
}

fn shown(head: &Head) -> Shown {
    Shown { file: "kept by Ben".into(), beside: false, evidence: Evidence::Head(head.clone()) }
}

fn verified(path: &Path, anchors: &[Head]) -> Verified {
    let shown: Vec<Shown> = anchors.iter().map(shown).collect();
    let store = Store::open(path).unwrap();
    verify_watched(&store, &Asked { shown: &shown, ..Asked::default() }, &|_| true).unwrap()
}

/// Alone the record is sound; held against the anchor it has this one fault.
#[track_caller]
fn found_by<T: Declared>(path: &Path, anchor: &Head) -> Message {
    assert_eq!(verified(path, &[]).answer(), Answer::Intact, "{:?}", verified(path, &[]).in_words());
    let found = verified(path, std::slice::from_ref(anchor));
    assert_eq!(found.answer(), Answer::Altered);
    let [fault] = &found.witnesses.faults[..] else { panic!("{:?}", found.witnesses.faults) };
    assert!(fault.is::<T>(), "{fault:?}");
    assert!(found.in_words().contains(&fault.in_english()));
    fault.clone()
}

/// The number of a fault's argument.
fn number(message: &Message, name: &str) -> i64 {
    match message.arg(name) {
        Some(message::Arg::Count(n)) => *n,
        other => panic!("{other:?}"),
    }
}

/// Chains all events anew from their bodies, as a forger would (BLAKE3 of the hash before and the body, `docs/guide/trust.md`).
fn chain_anew(path: &Path, change: impl Fn(&str) -> String) {
    let connection = Connection::open(path).unwrap();
    let mut read = connection.prepare("SELECT id, body FROM event ORDER BY id").unwrap();
    let rows: Vec<(i64, String)> =
        read.query_map([], |r| Ok((r.get(0)?, r.get(1)?))).unwrap().map(Result::unwrap).collect();
    let mut previous = [0; 32];
    for (id, body) in rows {
        let body = change(&body);
        let mut hash = blake3::Hasher::new();
        hash.update(&previous).update(body.as_bytes());
        previous = *hash.finalize().as_bytes();
        let set = "UPDATE event SET body = ?2, hash = ?3 WHERE id = ?1";
        connection.execute(set, (id, body, previous.as_slice())).unwrap();
    }
}

/// Takes the events after `last` away, with all rows that they wrote.
fn cut_after(path: &Path, last: i64) {
    let connection = Connection::open(path).unwrap();
    for table in record::schema::TABLES.iter().map(|t| t.name) {
        connection.execute(&format!("DELETE FROM \"{table}\" WHERE event > ?1"), [last]).unwrap();
    }
    connection.execute("DELETE FROM event WHERE id > ?1", [last]).unwrap();
}

#[test]
fn a_tail_that_was_cut_off_is_found_by_an_anchor() {
    let (_dir, path) = folder();
    let mut store = programme(&path, PEOPLE);
    let cut = store.last_event_number().unwrap();
    enter(&mut store, INES, "later", &[TypedRow::of("site").with("name", "Tamsin Heath")]).unwrap();
    let anchor = head(&store).unwrap().unwrap();
    drop(store);
    assert_eq!(verified(&path, std::slice::from_ref(&anchor)).witnesses.faults, []);
    cut_after(&path, cut);
    let fault = found_by::<says::AnchorLater>(&path, &anchor);
    assert_eq!((number(&fault, "events"), number(&fault, "here")), (anchor.events as i64, cut));
}

#[test]
fn authors_and_dates_that_were_rewritten_and_chained_anew_are_found_by_an_anchor() {
    for (old, new) in [("Ines Varga", "Marit Osk"), ("2026-07-23T14:20", "2026-07-22T14:20")] {
        let (_dir, path) = folder();
        let store = programme(&path, PEOPLE);
        let (before, anchor) = (store.events().unwrap(), head(&store).unwrap().unwrap());
        drop(store);
        chain_anew(&path, |body| body.replace(&format!("\"{old}"), &format!("\"{new}")));
        let after = Store::open(&path).unwrap().events().unwrap();
        assert!(before.iter().zip(&after).any(|(b, a)| (&b.author, &b.at) != (&a.author, &a.at)));
        let fault = found_by::<says::AnchorOther>(&path, &anchor);
        assert_eq!(number(&fault, "event"), anchor.events as i64);
    }
}

#[test]
fn a_whole_history_replayed_with_another_raw_file_is_found_by_an_anchor() {
    let (_dir, path) = folder();
    let anchor = head(&programme(&path, PEOPLE)).unwrap().unwrap();
    let (_dir, path) = folder();
    // The same identity, the same acts, the same moments; one letter of the file is another.
    let replayed = programme(&path, &PEOPLE.replace("analyst", "analysts"));
    assert_eq!(replayed.identity().unwrap(), anchor.programme);
    assert_eq!(replayed.last_event_number().unwrap(), anchor.events as i64);
    drop(replayed);
    found_by::<says::AnchorOther>(&path, &anchor);
}

#[test]
fn a_programme_restored_from_an_older_copy_is_recognised() {
    let (dir, path) = folder();
    let mut store = programme(&path, PEOPLE);
    let copy = dir.path().join("copy.sqlite");
    store.backup(&copy).unwrap();
    let old = head(&store).unwrap().unwrap();
    enter(&mut store, INES, "later", &[TypedRow::of("site").with("name", "Tamsin Heath")]).unwrap();
    let anchor = head(&store).unwrap().unwrap();
    drop(store);
    let back = dir.path().join("back.sqlite");
    restore(&copy, &back).unwrap();
    found_by::<says::AnchorLater>(&back, &anchor);
    // An anchor of before the copy is met.
    let found = verified(&back, &[old]);
    assert_eq!((found.answer(), found.witnesses.since[0]), (Answer::Intact, 0));
}

#[test]
fn a_programme_begun_anew_in_its_place_is_another() {
    let (_dir, path) = folder();
    let anchor = head(&programme(&path, PEOPLE)).unwrap().unwrap();
    let (_dir, path) = folder();
    drop(start::start_own(&path, MARIT.person, MARIT.at, b"drawn").unwrap());
    let fault = found_by::<says::AnchorOfAnother>(&path, &anchor);
    assert_ne!(fault.arg("theirs"), fault.arg("ours"));
}

#[test]
fn what_the_last_anchor_covers_is_told_and_every_event_since() {
    let (_dir, path) = folder();
    let mut store = programme(&path, PEOPLE);
    let (first, covered) = (head(&store).unwrap().unwrap(), store.last_event_number().unwrap());
    for site in ["Tamsin Heath", "North bank"] {
        enter(&mut store, INES, "", &[TypedRow::of("site").with("name", site)]).unwrap();
    }
    enter(&mut store, MARIT, "", &[TypedRow::of("site").with("name", "South bank")]).unwrap();
    work::follow(&mut store, MARIT, &|_| true).unwrap();
    let last = store.last_event_number().unwrap();
    drop(store);
    let found = verified(&path, &[first]).witnesses;
    assert_eq!(found.anchor.as_ref().map(|(n, _)| *n), Some(covered));
    assert_eq!(found.since, [last - covered, 0], "no signature: nothing is after one");
    // Two acts of one person in a row are one group.
    let group = &found.since_anchor[0];
    assert!(group.is::<says::Events>(), "{group:?}");
    assert_eq!((number(group, "first"), number(group, "last")), (covered + 1, covered + 2));
    assert_eq!(number(&found.since_anchor[1], "event"), covered + 3);
    // A clock that ran backwards is named, and no fault.
    assert!(found.moments.iter().any(|m| m.is::<says::ClockBack>() && number(m, "event") == covered + 3));
    assert_eq!(verified(&path, &[]).answer(), Answer::Intact);
}

#[test]
fn a_moment_in_the_future_is_named_and_no_fault() {
    let (_dir, path) = folder();
    drop(programme(&path, PEOPLE));
    let store = Store::open(&path).unwrap();
    let at = |now| {
        let found = verify_watched(&store, &Asked { now: Some(now), ..Asked::default() }, &|_| true).unwrap();
        assert_eq!(found.answer(), Answer::Intact);
        found.witnesses.moments.iter().filter(|m| m.is::<says::ClockAhead>()).count()
    };
    assert_eq!(at("2026-08-01T00:00:00Z"), 0);
    // The same moment by another offset.
    assert_eq!(at("2026-07-23T12:20:00Z"), 0);
    assert!(at("2026-07-20T00:00:00Z") > 0);
}

#[test]
fn an_anchor_beside_the_programme_is_none() {
    let (_dir, path) = folder();
    let anchor = head(&programme(&path, PEOPLE)).unwrap().unwrap();
    let beside = [Shown { beside: true, ..shown(&anchor) }];
    let store = Store::open(&path).unwrap();
    let found = verify_watched(&store, &Asked { shown: &beside, ..Asked::default() }, &|_| true).unwrap().witnesses;
    assert!(found.anchor.is_none() && found.set_aside[0].is::<says::AnchorBeside>(), "{found:?}");
    assert!(found.messages().iter().any(Message::is::<says::NoAnchor>));
}

#[test]
fn a_programme_of_before_identities_is_sound() {
    let (_dir, path) = folder();
    drop(programme(&path, PEOPLE));
    // As version 10 wrote its first event.
    let identity = Store::open(&path).unwrap().identity().unwrap().unwrap();
    assert_eq!(identity.len(), 32);
    chain_anew(&path, |body| body.replace(&format!("\"programme\":\"{identity}\""), ""));
    let found = verified(&path, &[]);
    assert_eq!((found.answer(), found.witnesses.identity), (Answer::Intact, None));
    let store = Store::open(&path).unwrap();
    let anchor = head(&store).unwrap().unwrap();
    assert_eq!(anchor.programme, None);
    drop(store);
    assert_eq!(verified(&path, &[anchor]).witnesses.faults, []);
}
