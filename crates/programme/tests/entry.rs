//! What a person types goes into the record as an import would, or is refused at the field.

use intake::entry::{Correction, EntryError, EntryFault, TypedRow, correct, enter};
use record::by::By;
use record::store::{Filter, Store};

const BY: By = By { person: "Marit Osk", at: "2026-07-15T10:00:00Z" };

fn empty() -> (tempfile::TempDir, Store) {
    let dir = tempfile::tempdir().unwrap();
    let store = programme::start::start(dir.path().join("a.sqlite"), "test", "2026-07-01").unwrap();
    (dir, store)
}

fn faults(e: EntryError) -> Vec<EntryFault> {
    match e {
        EntryError::Faults(f) => f,
        other => panic!("{other}"),
    }
}

fn trip() -> Vec<TypedRow> {
    vec![
        TypedRow::of("person").with("name", "Marit Osk"),
        TypedRow::of("well").with("name", "SL-2").with("medium", "groundwater").with("elevation_m", "3.2"),
        TypedRow::of("trip").with("name", "SL-2026-07").with("starts", "2026-07-15 09:00"),
        TypedRow::of("bottle").with("label", "D").with("kind", "duplicate").with("parent", "A"),
        TypedRow::of("bottle")
            .with("label", "A")
            .with("kind", "sample")
            .with("well", "SL-2")
            .with("trip", "SL-2026-07"),
        TypedRow::of("field_reading")
            .with("trip", "SL-2026-07")
            .with("well", "SL-2")
            .with("at", "2026-07-15 09:30")
            .with("quantity", "temperature")
            .with("value", "9.4")
            .with("unit", "°C"),
    ]
}

#[test]
fn rows_of_several_tables_are_one_act_with_its_author() {
    let (_dir, mut store) = empty();
    let before = store.events().unwrap().len();
    let done = enter(&mut store, BY, "field book", &trip()).unwrap();
    assert_eq!(done.added.values().sum::<u64>(), 6);
    let events = store.events().unwrap();
    assert_eq!(events.len(), before + 1);
    let last = events.last().unwrap();
    assert_eq!((last.kind.as_str(), last.author.as_str()), ("entry", "Marit Osk"));
    assert_eq!(last.json["body"]["why"], "field book");
    let bottles = store.bottles(&Filter::all()).unwrap();
    // A duplicate may stand before the sample that it belongs to.
    assert_eq!(bottles.iter().find(|b| b.label == "D").unwrap().parent.as_deref(), Some("A"));
    assert_eq!(store.field_readings(&Filter::all()).unwrap()[0].at, "2026-07-15T09:30");
    assert!(store.verify(None).unwrap().differences.is_empty());
}

#[test]
fn every_fault_stands_at_its_field_and_nothing_is_written() {
    let (_dir, mut store) = empty();
    let head = store.head().unwrap();
    let mut rows = trip();
    rows[1] = TypedRow::of("well").with("name", "SL-2").with("medium", "milk").with("latitude_deg", "95");
    rows.push(TypedRow::of("bottle").with("label", "").with("kind", "sample").with("well", "SL-9"));
    rows.push(TypedRow::of("bottle").with("label", "E").with("kind", "sample").with("volume", "3"));
    rows.push(TypedRow::of("fill").with("well", "SL-2").with("volume_L", "10,5").with("seconds", "0"));
    let found = faults(enter(&mut store, BY, "", &rows).unwrap_err());
    let at = |row: usize, column: &str| found.iter().find(|f| f.row == row && f.column.as_deref() == Some(column));
    for (row, column, expected) in [
        (1, "medium", "one of groundwater, surface-water"),
        (1, "latitude_deg", "a latitude from -90 to 90 °"),
        (7, "volume", "a column of the record"),
        (8, "volume_L", "a number with a decimal point and no thousands sign"),
        (8, "seconds", "a number above zero"),
    ] {
        let fault = at(row, column).unwrap_or_else(|| panic!("row {row} {column}: {found:#?}"));
        assert_eq!(fault.expected(), expected);
    }
    assert_eq!(store.head().unwrap(), head);
    assert!(store.wells().unwrap().is_empty());
}

#[test]
fn typing_and_importing_refuse_in_the_same_words() {
    let (dir, mut store) = empty();
    let path = dir.path().join("wells.csv");
    std::fs::write(&path, "name,medium\nSL-2,milk\n").unwrap();
    let inputs = intake::import::inputs(&store, std::slice::from_ref(&path), "wells");
    let seen = intake::import::preview(&mut store, &inputs.unwrap(), BY.at).unwrap();
    let row = TypedRow::of("well").with("name", "SL-2").with("medium", "milk");
    let typed = faults(enter(&mut store, BY, "", &[row]).unwrap_err());
    assert_eq!(seen.faults.shown[0].sentence, format!("found {}, expected {}", typed[0].found(), typed[0].expected()));
}

#[test]
fn a_named_row_is_kept_once_and_another_of_its_name_is_refused() {
    let (_dir, mut store) = empty();
    let well = TypedRow::of("well").with("name", "SL-2").with("medium", "groundwater");
    enter(&mut store, BY, "", std::slice::from_ref(&well)).unwrap();
    let again = enter(&mut store, BY, "", &[well]).unwrap();
    assert_eq!((again.already, again.head), (1, None));
    let other = TypedRow::of("well").with("name", "SL-2").with("medium", "surface-water");
    let fault = faults(enter(&mut store, BY, "", &[other]).unwrap_err()).remove(0);
    assert_eq!(fault.column.as_deref(), Some("medium"));
    assert!(fault.expected().contains("amendment"), "{}", fault.expected());
}

#[test]
fn names_with_markup_and_quotes_are_kept_as_typed_and_line_breaks_are_refused() {
    let (_dir, mut store) = empty();
    let name = "<b>\"SL\", 'two'</b> & more; ✓";
    assert!(enter(&mut store, BY, "", &[TypedRow::of("well").with("name", "SL\ntwo")]).is_err());
    assert!(store.wells().unwrap().is_empty());
    enter(
        &mut store,
        BY,
        "",
        &[
            TypedRow::of("well").with("name", name),
            TypedRow::of("layer").with("well", name).with("from_m", "0").with("to_m", "2").with("material", "clay"),
        ],
    )
    .unwrap();
    assert_eq!(store.wells().unwrap()[0].name, name);
    assert_eq!(store.layers(1).unwrap()[0].well, name);
}

#[test]
fn a_correction_keeps_the_row_and_says_who_and_why() {
    let (_dir, mut store) = empty();
    enter(&mut store, BY, "", &trip()).unwrap();
    let bottle = store.bottles(&Filter::all()).unwrap().into_iter().find(|b| b.label == "A").unwrap();
    let change = |seen, new| Correction { column: "volume_mL", seen, new };
    let mut fix = |why, c| correct(&mut store, BY, why, ("bottle", bottle.id), &[c]);
    assert!(matches!(fix(" ", change(None, "500")), Err(EntryError::Programme(_))));
    assert!(fix("weighed", change(Some(""), "500")).unwrap().is_some());
    // Another tab saw nothing there.
    let stale = faults(fix("weighed again", change(Some(""), "510")).unwrap_err());
    assert!(stale[0].expected().contains("500"), "{stale:?}");
    assert!(fix("the same", change(Some("500"), "500")).unwrap().is_none());
    let wrong = faults(fix("a slip", change(None, "-1")).unwrap_err());
    assert_eq!(wrong[0].expected(), "a number above zero");
    let parent = Correction { column: "well", seen: None, new: "SL-7" };
    assert_eq!(faults(fix("the other well", parent).unwrap_err())[0].found(), "well \"SL-7\"");
    assert_eq!(store.bottles(&Filter::all().is("label", "A")).unwrap()[0].volume_mL, Some(500.0));
    let kept = store.amendments().unwrap();
    assert_eq!((kept.len(), kept[0].person.as_deref(), kept[0].why.as_str()), (1, Some("Marit Osk"), "weighed"));
    assert!(store.verify(None).unwrap().differences.is_empty());
}

#[test]
fn a_rule_of_a_check_that_nobody_makes_is_refused_with_the_names_that_are_near() {
    let (_dir, mut store) = empty();
    let rule = |name: &str| {
        TypedRow::of("check_rule").with("check_name", name).with("revision", "2").with("weight", "decisive")
    };
    for name in ["number.water-shore", "file.value"] {
        let fault = faults(enter(&mut store, BY, "", &[rule(name)]).unwrap_err()).remove(0);
        assert_eq!((fault.column.as_deref(), fault.found()), (Some("check_name"), format!("{name:?}")));
        assert!(fault.expected().contains(if name.starts_with("file") { "field." } else { "number.water-share" }));
    }
    enter(&mut store, BY, "", &[rule("number.water-share")]).unwrap();
    assert!(programme::work::recompute(&mut store, None, BY).unwrap().unknown_checks.is_empty());
}

#[test]
fn a_rule_that_the_record_already_holds_under_no_known_name_is_told() {
    use record::store::{ActInfo, Cell, StoreError};
    let (_dir, mut store) = empty();
    let info = ActInfo { kind: "entry".into(), author: "test".into(), at: BY.at.into(), body: serde_json::json!({}) };
    // Written past the importer, as an earlier version took it.
    let written = store.act::<_, StoreError>(&info, |act| {
        let cells = [Cell::Text("number.above-blanks"), 1.into(), "warning".into(), Cell::Null, Cell::Null, Cell::Null];
        act.insert("check_rule", &cells).map(|_| ())
    });
    written.unwrap();
    let done = programme::work::recompute(&mut store, None, BY).unwrap();
    assert_eq!(done.unknown_checks, ["number.above-blanks"]);
}
