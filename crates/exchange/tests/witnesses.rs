//! Keys and signatures travel in a package with the rows that hold them, and are checked there as in a programme. Good
//! ones: `crates/cli/tests/proofs.rs`, with keys of stock `ssh-keygen`; here one that proves nothing.

use crate::common::folder;
use assessment::verify::{self, Answer};
use assessment::witnesses::Asked;
use exchange::{Options, write};
use programme::start;
use record::store::{ActInfo, Cell, NamedCells, Store, StoreError};

const INES: &str = "Ines Varga";
const AT: &str = "2026-07-23T14:20:00Z";

fn key_without_proof(store: &mut Store) {
    let info = ActInfo { kind: "key".into(), author: INES.into(), at: AT.into(), body: serde_json::Value::Null };
    store
        .act::<_, StoreError>(&info, |act| {
            let person = act.ensure("person", &[Cell::Text(INES), Cell::Null])?;
            let mut cells = NamedCells::new("person_key");
            cells.text("fingerprint", "SHA256:nobody's").integer("person", person);
            cells.text("public_key", "ssh-ed25519 none").text("proof", "none").insert(act)
        })
        .unwrap();
}

#[test]
fn a_package_and_its_programme_say_the_same_of_keys_and_signatures() {
    for unproved in [false, true] {
        let (_guard, at) = folder();
        let mut store = start::start(at.join("p.sqlite"), INES, AT).unwrap();
        if unproved {
            key_without_proof(&mut store);
        }
        write(&store, &at.join("package"), &Options::default()).unwrap();
        let (_, of_package) = exchange::verify(&at.join("package"), &Asked::default()).unwrap();
        let of_store = verify::verify(&store, None).unwrap();
        assert_eq!(of_package.faults, of_store.witnesses.faults);
        assert_eq!(of_package.messages(), of_store.witnesses.messages());
        assert_eq!(of_store.answer() == Answer::Altered, unproved);
        assert_eq!(of_package.faults.len(), usize::from(unproved), "{:?}", of_package.faults);
    }
}
