//! Recipes as files: taken in whole, refused key by key, and changed only for a reason.

use crate::import_common::Desk;
use intake::import::{ImportError, Input, Mapping, import_because};
use intake::recipe::TEMPLATES;
use message::intake::Fault;
use message::{Message, expected, found};
use record::by::By;
use record::model::KeptRecipe;
use record::store::Filter;

const BY: By = By { person: "Ines Varga", at: "2026-07-20T10:00:00Z" };

fn take(desk: &mut Desk, text: &str, why: &str) -> Result<(), Vec<Message>> {
    let input = Input { path: desk.file("own.toml", text), mapping: Mapping::shipped("recipe").unwrap() };
    match import_because(&mut desk.store, &[input], BY, why, &|_| true) {
        Ok(_) => Ok(()),
        Err(ImportError::Refused(faults)) => Err(faults.shown.into_iter().filter_map(|f| f.message).collect()),
        Err(other) => panic!("{other}"),
    }
}

fn kept(desk: &Desk) -> Vec<(String, i64, String)> {
    let all = desk.store.list::<KeptRecipe>(&Filter::all()).unwrap();
    all.into_iter().map(|r| (r.name, r.version, r.toml)).collect()
}

fn fault(found: impl Into<Message>, expected: impl Into<Message>) -> Message {
    Fault { found: found.into(), expected: expected.into() }.into()
}

#[test]
fn another_text_of_a_name_is_its_next_version_and_wants_a_reason() {
    let mut desk = Desk::new();
    let first = TEMPLATES[0].1;
    take(&mut desk, first, "").unwrap();
    let head = desk.store.head().unwrap();
    take(&mut desk, first, "").unwrap();
    assert_eq!(desk.store.head().unwrap(), head, "the same file again changes nothing");
    let second = first.replace("\nns = 0.0", "\nns = 18.5");
    assert_ne!(first, second);
    let without = fault(found::RecipeVersion { name: "my-recipe".into(), version: 1 }, expected::WhyVersion);
    assert_eq!(take(&mut desk, &second, " "), Err(vec![without]));
    assert_eq!(desk.store.head().unwrap(), head);
    take(&mut desk, &second, "dilution series of July").unwrap();
    let name = || "my-recipe".to_string();
    assert_eq!(kept(&desk), [(name(), 1, first.to_string()), (name(), 2, second)]);
    let event = desk.store.events().unwrap().pop().unwrap();
    assert_eq!(
        (event.author.as_str(), event.json["body"]["why"].as_str()),
        (BY.person, Some("dilution series of July"))
    );
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
}

#[test]
fn a_recipe_with_faults_is_refused_with_all_of_them() {
    let mut desk = Desk::new();
    let text = TEMPLATES[0].1.replace("\nns = 0.0", "\nnanoseconds = 18.5").replace("\"ng/L\"", "\"drops\"");
    let faults = take(&mut desk, &text, "").unwrap_err();
    let value = |key: &str, text: &str| found::RecipeValue { key: key.into(), text: text.into() };
    for wanted in [
        fault(value("unit", "\"drops\""), expected::UnitOfConcentration),
        fault(found::RecipeLacks { key: "dead_time.ns".into() }, expected::RecipeEntry),
    ] {
        assert!(faults.contains(&wanted), "{faults:?}");
    }
    assert_eq!(faults.len(), 3, "{faults:?}");
    assert!(kept(&desk).is_empty() && desk.store.raw_files().unwrap().is_empty());
    // What is no text, and what is no TOML.
    for bytes in [&b"name = \"\xff\""[..], b"run,name\nR-1,a\n"] {
        assert!(desk.refusal("own.toml", "recipe", bytes).contains("TOML"));
    }
}

#[test]
fn a_run_that_names_an_unknown_recipe_is_told_how_to_make_one() {
    let mut desk = Desk::new();
    let sequence = "run,recipe,position,name,role,minutes\nR-1,my-recipe,1,a,sample,0\n";
    let input = Input { path: desk.file("s.csv", sequence), mapping: Mapping::shipped("sequence").unwrap() };
    let Err(ImportError::Refused(faults)) = import_because(&mut desk.store, &[input], BY, "", &|_| true) else {
        panic!("it was taken");
    };
    let expected = faults.shown[0].message.as_ref().unwrap().arg("expected").cloned();
    assert_eq!(expected, Some(message::Arg::from(Message::from(expected::RecipeKnown))));
    take(&mut desk, TEMPLATES[0].1, "").unwrap();
    desk.text("s.csv", "sequence", sequence);
    assert_eq!(desk.store.runs().unwrap()[0].recipe_version, Some(1));
}

#[test]
fn more_of_a_run_comes_in_after_its_recipe_has_a_newer_version() {
    let mut desk = Desk::new();
    let first = TEMPLATES[0].1;
    take(&mut desk, first, "").unwrap();
    let vial =
        |place: u32| format!("run,recipe,position,name,role,minutes\nR-1,my-recipe,{place},v{place},sample,{place}\n");
    desk.text("a.csv", "sequence", &vial(1));
    take(&mut desk, &first.replace("\nns = 0.0", "\nns = 18.5"), "dilution series").unwrap();
    desk.text("b.csv", "sequence", &vial(2));
    let run = desk.store.runs().unwrap().remove(0);
    assert_eq!((desk.store.vials(run.id).unwrap().len(), run.recipe_version), (2, Some(1)));
    // Another recipe is a contradiction.
    take(&mut desk, &first.replace("\"my-recipe\"", "\"another\""), "").unwrap();
    let other = vial(3).replace("my-recipe", "another");
    assert!(desk.refusal("c.csv", "sequence", other).contains("recipe"));
}
