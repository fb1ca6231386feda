//! A programme keeps its own table of checks: what a newer version looks at beyond it is a note, until a person takes
//! its rule in by an act.

use crate::demo_common::{self, AT, BY};
use assessment::assess;
use assessment::verdict::Rules;
use intake::import::{Input, Mapping, import};
use programme::checks::{self, Stand, Wanted};
use programme::{start, work};
use quantity::{Check, Finding};
use record::by::By;
use record::error::Error;
use record::model::{Verdict, VerdictWord, Weight};
use record::store::Store;
use simulator::{Purpose, Trip};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

const LEAD: By = By { person: BY, at: AT };
const WHY: &str = "agreed at the meeting of the programme in July";

/// The demo in a programme whose table of checks came from a file that lacks some names, as one from before they were.
fn programme_without(dir: &Path, lacking: &[&str]) -> Store {
    let mut store = Store::create(dir.join("old.sqlite")).unwrap();
    let mut table = csv::Writer::from_path(dir.join("checks.csv")).unwrap();
    table.write_record(["check_name", "revision", "weight", "limit_value", "limit_unit", "why"]).unwrap();
    for r in checks::defaults().unwrap().iter().filter(|r| !lacking.contains(&r.check_name.as_str())) {
        let limit = r.limit_value.map_or(String::new(), |l| l.to_string());
        let (unit, why) = (r.limit_unit.as_deref().unwrap_or_default(), r.why.as_deref().unwrap_or_default());
        table.write_record([&r.check_name, "1", r.weight.word(), &limit, unit, why]).unwrap();
    }
    table.flush().unwrap();
    let input = Input { path: dir.join("checks.csv"), mapping: Mapping::shipped("checks").unwrap() };
    import(&mut store, &[input], BY, AT).unwrap_or_else(|e| panic!("{e}"));
    let mut store = demo_common::record_in(store, dir, &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    work::recompute(&mut store, None, LEAD).unwrap();
    store
}

fn reasons(v: &Verdict) -> Vec<String> {
    serde_json::from_value(v.reasons.clone()).unwrap()
}

/// Word and reasons by subject, the newest.
fn verdicts(store: &Store) -> BTreeMap<i64, (VerdictWord, Vec<String>)> {
    store.verdicts().unwrap().into_iter().map(|v| (v.subject_id, (v.verdict, reasons(&v)))).collect()
}

/// Checks that decide or warn in a verdict of the demo, with how often.
fn deciding(store: &Store) -> BTreeMap<String, usize> {
    let mut out = BTreeMap::new();
    for name in verdicts(store).into_values().flat_map(|v| v.1) {
        *out.entry(name).or_default() += 1;
    }
    out
}

#[test]
fn a_check_that_the_table_does_not_name_moves_no_verdict_until_it_is_taken_in() {
    let dirs = [tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap()];
    let full = programme_without(dirs[0].path(), &[]);
    let by_reason = deciding(&full);
    let (name, _) = by_reason.iter().max_by_key(|(_, n)| **n).expect("the demo has verdicts with reasons");
    let mut old = programme_without(dirs[1].path(), &[name]);
    assert!(!deciding(&old).contains_key(name), "{name} decides although the table does not name it");
    assert_ne!(verdicts(&old), verdicts(&full));
    // The newer version derives anew: nothing moves.
    let before = (verdicts(&old), old.check_rules().unwrap().len());
    let again = work::recompute(&mut old, None, LEAD).unwrap();
    assert_eq!((again.verdicts, again.turned), (0, vec![]));
    assert_eq!((verdicts(&old), old.check_rules().unwrap().len()), before);
    let listed = checks::beside(&old).unwrap();
    let untaken: Vec<&str> = listed.iter().filter(|e| e.stand == Stand::Untaken).map(|e| e.check.as_str()).collect();
    assert_eq!(untaken, [name]);
    // Taken in by an act of a person, it decides as in a new programme.
    let (taken, done) = checks::take(&mut old, Wanted::Untaken, WHY, LEAD).unwrap();
    assert_eq!(taken, std::slice::from_ref(name));
    assert!(done.verdicts > 0, "a reason more is another verdict, if not another word");
    assert_eq!(verdicts(&old), verdicts(&full));
    let act = old.events_last(50).unwrap().into_iter().find(|e| e.kind == "checks taken in").unwrap();
    assert_eq!((act.author.as_str(), act.json["body"]["why"].as_str()), (BY, Some(WHY)));
    assert_eq!(act.json["body"]["checks"], serde_json::json!([name]));
}

/// What the table of a year ago lacked: names that came with what a number bears.
const LATER: [&str; 16] = [
    "run.replicate-outlier",
    "run.wash-out",
    "run.detector-background",
    "run.drift-open",
    "run.fast-drift",
    "run.repeated-readings",
    "run.standard-signal",
    "run.second-source",
    "run.assigned-side",
    "run.stock",
    "bottle.acid",
    "number.vial-scatter",
    "number.few-degrees",
    "number.unseen-source",
    "number.put-back",
    "number.fractions",
];

#[test]
fn verdicts_by_an_older_table_rest_on_the_checks_that_it_names() {
    let dir = tempfile::tempdir().unwrap();
    let store = programme_without(dir.path(), &LATER);
    let rules = Rules::new(store.check_rules().unwrap());
    let untaken = rules.untaken();
    assert_eq!(untaken.iter().map(|c| c.text()).collect::<BTreeSet<_>>(), LATER.into());
    let mut compared = 0;
    for v in store.verdicts().unwrap() {
        let kept = assess::findings_of(&store, &v).unwrap();
        let known: Vec<Finding> = kept.into_iter().filter(|f| !untaken.contains(&f.check)).collect();
        let judged = rules.judge(&known, false);
        assert_eq!((v.verdict, reasons(&v)), (judged.word, judged.reasons));
        compared += 1;
    }
    assert!(compared > 20, "{compared}");
}

#[test]
fn rules_are_taken_in_by_name_with_their_next_revision_or_refused() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = start::start(dir.path().join("p.sqlite"), BY, AT).unwrap();
    let refused = |store: &mut Store, names: &[&str], why: &str, said: &str| {
        let names: Vec<String> = names.iter().map(ToString::to_string).collect();
        let head = store.head().unwrap();
        let e: Error = checks::take(store, Wanted::Named(&names), why, LEAD).unwrap_err();
        assert!(e.to_string().contains(said), "{e}");
        assert_eq!(store.head().unwrap(), head);
    };
    refused(&mut store, &["well.flow"], " ", "reason");
    refused(&mut store, &["number.recovry"], WHY, "number.recovery");
    refused(&mut store, &["file.value"], WHY, "file.value");
    refused(&mut store, &["well.flow"], WHY, "as it is");
    let e = checks::take(&mut store, Wanted::Untaken, WHY, LEAD).unwrap_err();
    assert!(e.to_string().contains("none"), "{e}");
    // The programme's own limit, then the default again: revisions count up.
    std::fs::write(
        dir.path().join("own.csv"),
        "check_name,revision,weight,limit_value,limit_unit,why\nwell.flow,2,decisive,5,%,Our wells are steady\n",
    )
    .unwrap();
    let input = Input { path: dir.path().join("own.csv"), mapping: Mapping::shipped("checks").unwrap() };
    import(&mut store, &[input], BY, AT).unwrap_or_else(|e| panic!("{e}"));
    let of = |store: &Store| checks::beside(store).unwrap().into_iter().find(|e| e.check == "well.flow").unwrap();
    let own = of(&store);
    assert_eq!(
        (own.stand, own.programme.unwrap().limit, own.default.unwrap().limit),
        (Stand::Differs, Some(5.0), Some(10.0))
    );
    refused(&mut store, &["well.flow", "well.flow"], WHY, "twice");
    checks::take(&mut store, Wanted::Named(&["well.flow".into()]), WHY, LEAD).unwrap();
    assert_eq!(of(&store).stand, Stand::Same);
    let rules = store.check_rules().unwrap();
    let newest = rules.iter().find(|r| r.check_name == "well.flow").unwrap();
    assert_eq!((newest.revision, newest.weight), (3, Weight::Note));
    assert_eq!(Check::from_text(&newest.check_name), Some(Check::WellFlow));
}
