//! Signatures by key in the record: what is kept was checked, and what somebody put in from outside is found. Keys are made
//! and signatures checked by stock `ssh-keygen` in `crates/trust/tests` and `crates/cli/tests/proofs.rs`; here the record is
//! attacked with a key that this file holds.

use assessment::verify::{Answer, verify};
use assessment::witnesses::{ToSign, Way, to_sign, ways};
use intake::entry::{TypedRow, enter};
use message::{Arg, Declared, Message, trust as says};
use programme::{proofs, start};
use record::by::By;
use record::model::KeyEndHow;
use record::store::{ActInfo, Cell, NamedCells, Store, StoreError};
use rusqlite::Connection;
use std::path::{Path, PathBuf};
use trust::{Key, SecretKey};

const INES: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };
const MARIT: By = By { person: "Marit Osk", at: "2026-07-23T15:20:00Z" };

/// A key made for this test by `ssh-keygen -t ed25519`; nobody uses it for anything else.
fn key(which: &str) -> SecretKey {
    let path = format!("{}/tests/data/{which}.key", env!("CARGO_MANIFEST_DIR"));
    SecretKey::read(&std::fs::read_to_string(path).unwrap(), None).unwrap()
}

/// A programme in which Ines has a key, and has stood for something.
fn programme() -> (tempfile::TempDir, PathBuf, Store) {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("p.sqlite");
    let mut store = start::start(&path, INES.person, INES.at).unwrap();
    let people = [TypedRow::of("person").with("name", INES.person), TypedRow::of("person").with("name", MARIT.person)];
    enter(&mut store, INES, "", &people).unwrap();
    add(&mut store, "ines", INES).unwrap();
    let info = ActInfo {
        kind: "sign-off".into(),
        author: INES.person.into(),
        at: INES.at.into(),
        body: serde_json::json!({ "way": "login" }),
    };
    let stand = |act: &mut record::store::Act| {
        let person = act.ensure("person", &[Cell::Text(INES.person), Cell::Null])?;
        let subject = act.ensure("subject", &["A:Pb:208@low:unfiltered".into()])?;
        let mut cells = NamedCells::new("sign_off");
        cells.integer("subject", subject).integer("person", person).text("why", "seen by two").insert(act)
    };
    store.act::<_, StoreError>(&info, stand).unwrap();
    (dir, path, store)
}

fn add(store: &mut Store, which: &str, by: By) -> Result<(), record::Error> {
    let key = key(which);
    let proof = trust::sign(&key, &proofs::key_line(store, by.person, &key.public())?).unwrap();
    proofs::add_key(store, &key.public(), &proof, by).map(|_| ())
}

fn signed(store: &Store, which: &str, person: &str) -> Vec<(ToSign, String)> {
    let key = key(which);
    let sign = |s: ToSign| (trust::sign(&key, &s.line).unwrap(), s);
    to_sign(store, person).unwrap().into_iter().map(sign).map(|(signature, s)| (s, signature)).collect()
}

fn sign(store: &mut Store) {
    let all = signed(store, "ines", INES.person);
    assert_eq!(all.len(), 2, "the sign-off and the head");
    proofs::keep_signatures(store, &key("ines").public(), &all, INES.at).unwrap();
}

/// The faults that `verify` finds in the rows as they stand after `change`, chained anew so that the chain is sound.
fn after(path: &Path, change: &str) -> Vec<Message> {
    let connection = Connection::open(path).unwrap();
    assert!(connection.execute(change, []).unwrap() > 0, "{change}");
    drop(connection);
    let store = Store::open(path).unwrap();
    // The digests of the rows are not mended: what witnesses say is asked by itself.
    let asked = assessment::witnesses::Asked::default();
    assessment::witnesses::look(&store, &asked, true).unwrap().faults
}

#[track_caller]
fn because<T: Declared>(faults: &[Message]) {
    let why = |m: &Message| m.arg("why").is_some_and(|a| matches!(a, Arg::Message(why) if why.is::<T>()));
    assert!(faults.iter().any(why), "{faults:?}");
}

#[test]
fn a_sign_off_by_login_gets_its_signature_afterwards() {
    let (_dir, path, mut store) = programme();
    assert_eq!(ways(&store).unwrap().into_values().collect::<Vec<_>>(), [Way::Login]);
    sign(&mut store);
    assert_eq!(ways(&store).unwrap().into_values().collect::<Vec<_>>(), [Way::Key]);
    assert_eq!(to_sign(&store, INES.person).unwrap().len(), 1, "the new head alone");
    let found = verify(&store, None).unwrap();
    assert_ne!(found.answer(), Answer::Altered, "{:?}", found.in_words());
    assert_eq!(found.witnesses.sign_offs, [1, 0, 0]);
    // As it is read from the file again.
    drop(store);
    assert_eq!(verify(&Store::open(path).unwrap(), None).unwrap().witnesses.faults, []);
}

#[test]
fn what_is_none_is_not_kept() {
    let (_dir, _path, mut store) = programme();
    let before = store.head().unwrap();
    let mut all = signed(&store, "ines", INES.person);
    // Of another key; of another text; of a line that is not of this record.
    let other = key("marit").public();
    assert!(proofs::keep_signatures(&mut store, &other, &all, INES.at).is_err(), "a key that is not on record");
    all[0].1 = all[1].1.clone();
    assert!(proofs::keep_signatures(&mut store, &key("ines").public(), &all, INES.at).is_err());
    let mut line = all[1].0.clone();
    line.line = line.line.replace("events=", "events=1");
    let signature = trust::sign(&key("ines"), &line.line).unwrap();
    assert!(proofs::keep_signatures(&mut store, &key("ines").public(), &[(line, signature)], INES.at).is_err());
    // A key is added by who holds it, once.
    let marit = key("marit");
    let proof_of_ines = trust::sign(&key("ines"), &proofs::key_line(&store, MARIT.person, &marit.public()).unwrap());
    assert!(proofs::add_key(&mut store, &marit.public(), &proof_of_ines.unwrap(), MARIT).is_err());
    assert!(add(&mut store, "ines", MARIT).is_err());
    assert_eq!(store.head().unwrap(), before, "nothing was kept");
}

#[test]
fn a_key_that_ended_signs_no_more() {
    let (_dir, _path, mut store) = programme();
    sign(&mut store);
    let fingerprint = key("ines").public().fingerprint();
    proofs::end_key(&mut store, &fingerprint, KeyEndHow::Lost, "the laptop is gone", INES).unwrap();
    let all = signed(&store, "ines", INES.person);
    assert!(proofs::keep_signatures(&mut store, &key("ines").public(), &all, INES.at).is_err());
    assert_eq!(verify(&store, None).unwrap().witnesses.faults, [], "what it signed before stays");
}

#[test]
fn an_amended_name_does_not_make_an_old_signature_none() {
    let (_dir, _path, mut store) = programme();
    sign(&mut store);
    intake::one_name::merge(&mut store, MARIT, "married", "person", (INES.person, MARIT.person)).unwrap();
    assert_eq!(verify(&store, None).unwrap().witnesses.faults, []);
}

#[test]
fn what_was_put_in_from_outside_is_found() {
    let rewritten = |change: &str| {
        let (_dir, path, mut store) = programme();
        sign(&mut store);
        drop(store);
        after(&path, change)
    };
    because::<says::WhyLine>(&rewritten("UPDATE sign_off SET why = 'seen by three'"));
    because::<says::WhyLine>(&rewritten("UPDATE person SET name = 'Ann Onym' WHERE name = 'Ines Varga'"));
    // A head that was rewritten under its signature.
    because::<says::WhyLine>(&rewritten(
        "UPDATE event SET hash = zeroblob(32) WHERE id = (SELECT max(events) FROM signed)",
    ));
    because::<says::WhyOtherText>(&rewritten(
        "UPDATE signed SET signature = (SELECT signature FROM signed WHERE what = 'head') WHERE what = 'sign-off'",
    ));
    because::<says::WhyForm>(&rewritten("UPDATE signed SET signature = 'none'"));
    because::<says::WhyPerson>(&rewritten("UPDATE person_key SET person = 2"));
    let other = key("marit").public();
    let (line, print) = (other.line(), other.fingerprint());
    let faults = rewritten(&format!("UPDATE person_key SET public_key = '{line}', fingerprint = '{print}'"));
    because::<says::WhyOtherKey>(&faults);
    assert!(faults.iter().any(Message::is::<says::KeyUnproved>), "{faults:?}");
    let ended = "INSERT INTO key_end (id, event, person_key, how, why) VALUES (1, 1, 1, 'lost', 'x')";
    because::<says::WhyEnded>(&rewritten(ended));
    assert_eq!(Key::parse(&line).unwrap(), other);
}
