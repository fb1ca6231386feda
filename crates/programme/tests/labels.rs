//! What a verdict speaks of stays the same row, however the name of its result was written when it came.

use crate::import_common::Desk;
use programme::work;
use record::ResultId;
use record::by::By;
use record::store::{ActInfo, Cell, Filter, Store, StoreError};
use serde_json::json;

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:21:00Z" };
const LABEL: &str = "A:1#x@y/ü 100%";

/// The demo's files, one bottle of them under a label of many signs, not yet derived.
fn desk() -> Desk {
    let mut desk = Desk::new();
    let trip = simulator::Trip::new(2611, simulator::Purpose::Demo);
    for f in simulator::files::raw_files(&trip) {
        // The end of the cell goes along: other labels begin with the same letters.
        let text = f.text.replace("SL2-26-07-A,", &format!("{LABEL},")).replace("SL2-26-07-A\n", &format!("{LABEL}\n"));
        desk.text(f.name, f.mapping, &text);
    }
    desk
}

fn lead(store: &Store) -> Vec<record::model::ResultRow> {
    let of = Filter::all().is("bottle.label", LABEL).is("measurand.analyte", "Pb");
    store.results(&of).unwrap()
}

#[test]
fn a_result_that_was_named_otherwise_keeps_what_its_verdicts_speak_of() {
    let mut desk = desk();
    let store = &mut desk.store;
    let bottle = store.bottles(&Filter::all().is("label", LABEL)).unwrap()[0].id;
    let run = store.runs().unwrap()[0].id;
    let vial = store.vials(run).unwrap().into_iter().find(|v| v.bottle_id == Some(bottle)).unwrap().id;
    // As a programme holds it from the time when a name was its parts side by side.
    let old = format!("{LABEL}:Pb:206+207+208@low:unfiltered");
    let info = ActInfo { kind: "reduction".into(), author: "test".into(), at: BY.at.into(), body: json!({}) };
    store
        .act::<_, StoreError>(&info, |act| {
            let of = ["Pb", "206+207+208", "low", "unfiltered"].map(Cell::Text);
            let measurand = act.ensure("measurand", &of)?;
            let subject = act.ensure("subject", &[Cell::Text(&old)])?;
            let table = record::schema::table("result").unwrap();
            let cells: Vec<Cell> = table
                .columns
                .iter()
                .map(|c| match c.name {
                    "bottle" => bottle.into(),
                    "measurand" => measurand.into(),
                    "revision" => 1.into(),
                    "vial" => vial.into(),
                    "censor" => "=".into(),
                    "value" => Cell::Real(1.0),
                    "u" => Cell::Real(0.5),
                    "unit" => "ng/L".into(),
                    "state" => "quantified".into(),
                    "subject" => subject.into(),
                    "engine" => "limpid 0.0.1".into(),
                    _ => Cell::Null,
                })
                .collect();
            act.insert("result", &cells).map(|_| ())
        })
        .unwrap();

    work::recompute(store, None, BY).unwrap();
    let rows = lead(store);
    assert_eq!(rows.iter().map(|r| r.revision).collect::<Vec<_>>(), [1, 2]);
    assert!(rows.iter().all(|r| r.subject == old), "{} and {}", rows[0].subject, rows[1].subject);
    let listed = assessment::results::all(store).unwrap();
    let newest = listed.iter().find(|r| r.bottle == LABEL && r.analyte == "Pb").unwrap();
    assert!(newest.verdict.is_some(), "the verdict on the old subject is the verdict of the new revision");
    // Again: nothing moves.
    let again = work::recompute(store, None, BY).unwrap();
    assert_eq!((again.results, again.verdicts), (0, 0));
}

#[test]
fn a_result_is_found_by_the_name_that_the_list_gives_it() {
    let mut desk = desk();
    work::recompute(&mut desk.store, None, BY).unwrap();
    for r in assessment::results::all(&desk.store).unwrap() {
        let text = r.result.to_string();
        assert_eq!(text.parse::<ResultId>().unwrap(), r.result);
        assert_eq!(assessment::results::find(&desk.store, &text).unwrap().id, r.row, "{text}");
        assert_eq!(assessment::results::row(&desk.store, &r.result.newest()).unwrap().id, r.row, "{text}");
    }
    assert_eq!(lead(&desk.store)[0].subject, "A%3A1#x@y/ü 100%:Pb:206+207+208@low:unfiltered");
}
