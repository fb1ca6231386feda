//! An act that is taken back: its rows stay and are read no longer, its names are free, what speaks of them goes with
//! them, and what others stand on is not taken back.

use crate::store_common;

use record::model::{self, Undone};
use record::store::{Act, AmendmentIn, Cell, Event, Filter, Store, StoreError, move_programme};
use store_common::{another, folder, info, keep};

crate::on_both!(
    rows_taken_back_stay_on_record_and_are_read_no_longer,
    a_name_taken_back_is_free_and_one_that_stands_is_not,
    what_later_acts_stand_on_is_refused_by_name,
    corrections_and_exclusions_go_with_their_rows,
    rows_without_names_are_not_there_already,
    the_newest_revision_that_counts_is_read,
    a_copy_keeps_what_was_taken_back,
    an_act_is_told_by_number_or_hash
);

const NONE: Cell = Cell::Null;

fn well(act: &mut Act, name: &str, about: &str) -> Result<i64, StoreError> {
    let mut cells = [NONE; 10];
    (cells[0], cells[2]) = (name.into(), about.into());
    act.insert("well", &cells)
}

fn reading(act: &mut Act, well: i64) -> Result<i64, StoreError> {
    let cells = [NONE, well.into(), NONE, "2026-07-01T10:00".into(), "pH".into(), 7.25.into(), NONE, "[pH]".into()];
    act.insert("field_reading", &cells)
}

fn act<T>(store: &mut Store, kind: &str, work: impl FnOnce(&mut Act) -> Result<T, StoreError>) -> Event {
    store.act(&info(kind), work).unwrap();
    store.events().unwrap().pop().unwrap()
}

fn undo(store: &mut Store, event: &Event) -> Result<Vec<(&'static str, u64)>, StoreError> {
    let (rows, _) = store.act(&info("undo"), |act| {
        let person = act.ensure("person", &["A. Tester".into(), NONE])?;
        act.undo(event, "the wrong file", person)
    })?;
    Ok(rows.into_iter().collect())
}

fn wells(store: &Store) -> Vec<(i64, String, String)> {
    store.wells().unwrap().into_iter().map(|w| (w.id, w.name, w.description.unwrap_or_default())).collect()
}

#[track_caller]
fn sound(store: &Store) {
    assert_eq!(store.verify(None).unwrap().differences, []);
}

fn rows_taken_back_stay_on_record_and_are_read_no_longer() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    act(&mut store, "entry", |act| well(act, "W-0", "stands"));
    let brought = act(&mut store, "import", |act| {
        act.keep_text("mapping", "wells", "x = 1")?;
        keep(act, "wells.csv", b"name\nW-1\n", 1)?;
        let id = well(act, "W-1", "first")?;
        well(act, "W-2", "first")?;
        reading(act, id)
    });
    sound(&store);
    assert_eq!(undo(&mut store, &brought).unwrap(), [("field_reading", 1), ("well", 2)]);
    assert_eq!(wells(&store), [(1, "W-0".into(), "stands".into())]);
    assert_eq!(store.field_readings(&Filter::all()).unwrap(), []);
    assert_eq!(store.as_typed("well", &Filter::all().is("name", "W-1")).unwrap(), []);
    // On record they are, with the reason.
    let mut kept = 0;
    store
        .dump("well", |_, _, _| {
            kept += 1;
            Ok(())
        })
        .unwrap();
    assert_eq!((kept, store.raw_files().unwrap().len()), (3, 1));
    let undone = store.list::<Undone>(&Filter::all()).unwrap();
    assert_eq!((undone[0].undone_event, undone[0].why.as_str()), (brought.number, "the wrong file"));
    assert_eq!(undone[0].hash, brought.hash.0);
    sound(&store);
    // The file is not there any more, so that it may be taken in again.
    assert!(!store.has_file(blake3::hash(b"name\nW-1\n").as_bytes(), 1).unwrap());
    // Taken back once is enough, and an act that brought no rows is none to take back.
    let told = undo(&mut store, &brought).unwrap_err();
    assert!(matches!(&told, StoreError::NotUndone { event: 2, why } if why.contains("event 3")), "{told}");
    let taking = store.events().unwrap().pop().unwrap();
    assert!(matches!(undo(&mut store, &taking), Err(StoreError::NotUndone { event: 3, .. })));
    let names = act(&mut store, "import", |act| act.insert("person", &["Bea".into(), NONE]));
    assert!(matches!(undo(&mut store, &names), Err(StoreError::NotUndone { event: 4, .. })));
    assert_eq!(store.persons().unwrap().len(), 2);
    assert_eq!(store.head().unwrap().unwrap(), names.hash);
}

fn a_name_taken_back_is_free_and_one_that_stands_is_not() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    for (round, about) in (0..3).zip(["first", "second", "third"]) {
        let brought = act(&mut store, "import", |act| {
            assert_eq!(act.find("well", &["W-1".into()])?, None);
            well(act, "W-1", about)
        });
        assert_eq!(wells(&store), [(round + 1, "W-1".into(), about.into())]);
        let twice = store.act(&info("import"), |act| well(act, "W-1", about)).unwrap_err();
        assert_eq!(twice.to_string(), "well \"W-1\" is there already");
        let found = store.act(&info("import"), |act| act.find("well", &["W-1".into()])).unwrap().0;
        assert_eq!(found, Some(round + 1));
        undo(&mut store, &brought).unwrap();
        assert_eq!(wells(&store), []);
    }
    // Within one act the database tells.
    let twice = store.act(&info("import"), |act| well(act, "W-1", "a").and_then(|_| well(act, "W-1", "b")));
    assert!(matches!(twice, Err(StoreError::Duplicate { table: "well", .. })));
    sound(&store);
}

fn what_later_acts_stand_on_is_refused_by_name() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    let first = act(&mut store, "import", |act| well(act, "W-1", ""));
    let second = act(&mut store, "import", |act| {
        act.note("files", serde_json::json!([{"file": "readings.csv"}]));
        let well = act.find("well", &["W-1".into()])?.unwrap();
        reading(act, well)
    });
    let told = undo(&mut store, &first).unwrap_err().to_string();
    assert!(["event 2", "readings.csv", "A. Tester", "field_reading"].iter().all(|word| told.contains(word)), "{told}");
    assert_eq!(store.head().unwrap().unwrap(), second.hash);
    undo(&mut store, &second).unwrap();
    undo(&mut store, &first).unwrap();
    assert_eq!(wells(&store), []);
    sound(&store);
}

fn corrections_and_exclusions_go_with_their_rows() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    let bottle = |act: &mut Act| {
        let mut cells = [NONE; 29];
        (cells[0], cells[1]) = ("B-1".into(), "sample".into());
        let id = act.insert("bottle", &cells)?;
        well(act, "W-1", "as it came").map(|_| id)
    };
    let brought = act(&mut store, "import", bottle);
    act(&mut store, "correction", |act| {
        let person = Some(act.ensure("person", &["A. Tester".into(), NONE])?);
        let (table, column) = ("well", "description");
        act.amend(&AmendmentIn { table, row: 1, column, new: Some("corrected"), why: "a slip", person })
    });
    act(&mut store, "exclusion", |act| {
        act.insert("exclusion", &[NONE, 1.into(), NONE, 1.into(), "dust".into(), 1.into()])
    });
    assert_eq!(wells(&store)[0].2, "corrected");
    assert_eq!(undo(&mut store, &brought).unwrap(), [("amendment", 1), ("bottle", 1), ("exclusion", 1), ("well", 1)]);
    assert_eq!((store.amendments().unwrap(), store.exclusions().unwrap()), (vec![], vec![]));
    act(&mut store, "import", bottle);
    assert_eq!(wells(&store), [(2, "W-1".into(), "as it came".into())]);
    sound(&store);
}

fn rows_without_names_are_not_there_already() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    act(&mut store, "entry", |act| well(act, "W-1", ""));
    let brought = act(&mut store, "import", |act| reading(act, 1));
    let table = record::schema::table("field_reading").unwrap();
    let said = |store: &mut Store| {
        let cells = [NONE, 1.into(), NONE, "2026-07-01T10:00".into(), "pH".into(), 7.25.into(), NONE, "[pH]".into()];
        store.act::<_, StoreError>(&info("look"), |act| act.said(table)?.take(table, &cells)).unwrap().0
    };
    assert_eq!(said(&mut store), Some(1));
    undo(&mut store, &brought).unwrap();
    assert_eq!(said(&mut store), None);
}

fn the_newest_revision_that_counts_is_read() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    let rule = |act: &mut Act, revision: i64, weight: &str| {
        act.insert("check_rule", &["air.class".into(), revision.into(), weight.into(), NONE, NONE, NONE])
    };
    act(&mut store, "import", |act| rule(act, 1, "warning"));
    let second = act(&mut store, "import", |act| rule(act, 2, "decisive"));
    undo(&mut store, &second).unwrap();
    let rules = store.check_rules().unwrap();
    assert_eq!(rules.iter().map(|r| (r.revision, r.weight)).collect::<Vec<_>>(), [(1, model::Weight::Warning)]);
    // A revision is given once.
    let next = store.act(&info("look"), |act| act.next_revision("check_rule", &["air.class".into()])).unwrap().0;
    assert_eq!(next, 3);
}

fn a_copy_keeps_what_was_taken_back() {
    let (folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    let brought = act(&mut store, "import", |act| well(act, "W-1", "first"));
    undo(&mut store, &brought).unwrap();
    act(&mut store, "import", |act| well(act, "W-1", "second"));
    let backup = folder.path().join("backup.limpid");
    store.backup(&backup).unwrap();
    let moved = another(&folder, "moved");
    move_programme(&path, &moved).unwrap();
    for copy in [backup, moved] {
        let copy = Store::open(copy).unwrap();
        assert_eq!(wells(&copy), [(2, "W-1".into(), "second".into())]);
        assert_eq!(copy.head().unwrap(), store.head().unwrap());
        sound(&copy);
    }
}

fn an_act_is_told_by_number_or_hash() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    act(&mut store, "entry", |act| well(act, "W-1", ""));
    let second = act(&mut store, "entry", |act| well(act, "W-2", ""));
    let hash = second.hash.to_string();
    for text in ["2", " 2 ", &hash, &hash[..6], &hash[..9].to_uppercase()] {
        assert_eq!(store.event_meant(text).unwrap(), second, "{text}");
    }
    for text in ["", "3", "-1", &hash[..5], "0000000", "two"] {
        assert!(matches!(store.event_meant(text), Err(StoreError::NoEvent { several: 0, .. })), "{text}");
    }
}
