//! A recipe is a person's own: a programme starts without one, a run keeps the version it came with, and a run and a
//! recipe that do not meet are told vial by vial.

use crate::demo_common::{self, AT};
use assessment::derive;
use intake::import::{Input, Mapping, import_because};
use message::{Message, refusal as says};
use programme::{recipes, start, work};
use record::by::By;
use record::error::Error;
use record::store::Store;
use simulator::files::RECIPE;
use simulator::{Purpose, Trip};
use std::path::Path;

const INES: By = By { person: "Ines Varga", at: AT };
const NAME: &str = "sector-field-water";
const RUN: &str = "SL-R-2607";

fn demo(dir: &Path, change: impl Fn(&str, String) -> Option<String>) -> Store {
    demo_common::record(dir, &Trip::new(2611, Purpose::Demo), change)
}

fn take(store: &mut Store, dir: &Path, text: &str, why: &str) {
    let path = dir.join("own.toml");
    std::fs::write(&path, text).unwrap();
    let input = Input { path, mapping: Mapping::shipped("recipe").unwrap() };
    import_because(store, &[input], INES, why, &|_| true).unwrap_or_else(|e| panic!("{e}"));
}

#[test]
fn an_empty_programme_holds_nothing_of_a_laboratory() {
    let dir = tempfile::tempdir().unwrap();
    let store = start::start(dir.path().join("p.sqlite"), INES.person, AT).unwrap();
    assert!(recipes::all(&store).unwrap().is_empty());
    assert!(matches!(recipes::newest(&store, NAME), Err(Error::Absent { what: "recipe", .. })));
}

#[test]
fn a_run_keeps_its_version_until_a_person_gives_it_the_next() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo(dir.path(), |_, text| Some(text));
    work::recompute(&mut store, None, INES).unwrap();
    let changed = RECIPE.replace("ns = 25.0", "ns = 35.0");
    assert_ne!(changed, RECIPE);
    take(&mut store, dir.path(), &changed, "dilution series of August");
    let done = work::recompute(&mut store, None, INES).unwrap();
    assert_eq!((done.results, done.changes.len()), (0, 0), "what stands was reduced by version 1");
    let all = recipes::all(&store).unwrap();
    let told: Vec<_> = all.iter().map(|r| (r.version, r.why.as_str(), r.runs.len())).collect();
    assert_eq!(told, [(1, "", 1), (2, "dilution series of August", 0)]);

    let why = "its dead time was that of version 2";
    let done = recipes::give(&mut store, NAME, RUN, why, INES).unwrap().unwrap();
    assert!(!done.changes.is_empty(), "what changed is told");
    let run = derive::find_run(&store, RUN).unwrap();
    assert_eq!((run.recipe_version, run.recipe_toml.as_deref()), (Some(2), Some(changed.as_str())));
    assert!(recipes::give(&mut store, NAME, RUN, why, INES).unwrap().is_none(), "it has that version");
    assert!(assessment::verify::verify(&store, None).unwrap().derived.is_empty());
}

#[test]
fn a_reason_must_be_said_and_a_recipe_there() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo(dir.path(), |_, text| Some(text));
    assert!(recipes::give(&mut store, "another", RUN, "x", INES).is_err());
    take(&mut store, dir.path(), &RECIPE.replace("ns = 25.0", "ns = 26.0"), "series");
    let head = store.head().unwrap();
    assert!(recipes::give(&mut store, NAME, RUN, " ", INES).is_err());
    assert!(work::set_vial_name(&mut store, "SL-R-2607/1", "x", " ", INES).is_err());
    assert!(work::set_vial_name(&mut store, "SL-R-2607/9999", "x", "mistyped", INES).is_err());
    assert_eq!(store.head().unwrap(), head);
}

#[test]
fn run_and_recipe_meet_once_a_vial_is_named_as_it_should_be() {
    let dir = tempfile::tempdir().unwrap();
    let mistyped = |name: &str, text: String| {
        Some(if name.starts_with("run-") { text.replace("Mo alone 2", "Mo alnoe 2") } else { text })
    };
    let mut store = demo(dir.path(), mistyped);
    let run = derive::find_run(&store, RUN).unwrap();
    let vials = store.vials(run.id).unwrap();
    let there = vials.iter().map(|v| v.name.as_str()).collect::<Vec<_>>().join(", ");
    let missing = |key: &str| {
        let vial = "Mo alone 2".into();
        Message::from(says::RecipeVial { key: key.into(), vial, there: there.as_str().into() })
    };
    let said = recipes::check(&store, NAME, RUN).unwrap();
    assert_eq!(said, [missing("interferences[1].factor.vials"), missing("interferences[2].factor.vials")]);
    let position = vials.iter().find(|v| v.name == "Mo alnoe 2").unwrap().position;
    let vial = format!("{RUN}/{position}");
    let done = work::set_vial_name(&mut store, &vial, "Mo alone 2", "mistyped at the instrument", INES).unwrap();
    assert!(done.unwrap().results > 0);
    assert!(recipes::check(&store, NAME, RUN).unwrap().is_empty());
    assert!(work::set_vial_name(&mut store, &vial, "Mo alone 2", "again", INES).unwrap().is_none());
}

#[test]
fn an_isotope_that_was_not_read_is_named() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo(dir.path(), |_, text| Some(text));
    let changed = RECIPE.replace("\"In115@low\", ", "\"Rh103@low\", ");
    assert_ne!(changed, RECIPE);
    take(&mut store, dir.path(), &changed, "rhodium from August on");
    let said = recipes::check(&store, NAME, RUN).unwrap();
    assert_eq!(said.len(), 1);
    assert!(said[0].is::<says::RecipeIsotope>(), "{said:?}");
}

#[test]
fn a_run_without_a_recipe_says_what_is_missing_until_it_is_given_one() {
    let dir = tempfile::tempdir().unwrap();
    let without =
        |name: &str, text: String| Some(if name == "run-sequence.csv" { text.replace(NAME, "") } else { text });
    let mut store = demo(dir.path(), without);
    let done = work::recompute(&mut store, None, INES).unwrap();
    assert_eq!((done.results, done.underived.len()), (0, 1));
    let run = derive::find_run(&store, RUN).unwrap();
    let Err(Error::Run { why, .. }) = derive::prepare(&store, run) else { panic!("it was prepared") };
    assert_eq!(why, Message::from(says::RunWithoutRecipe { there: NAME.into() }));
    let done = recipes::give(&mut store, NAME, RUN, "left out of the sequence", INES).unwrap().unwrap();
    assert!(done.results > 0 && done.underived.is_empty());
}
