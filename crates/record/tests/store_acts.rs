//! Acts are whole, rows are checked, names are unique, corrections are read, copies are copies.

use crate::store_common;

use record::model::{self, BottleKind};
use record::schema::{Kind, TABLES};
use record::store::{
    self, ActInfo, AmendmentIn, Cell, Filter, RawFileIn, ServerError, Store, StoreError, Typed, hash_bytes,
};
use std::path::Path;
use store_common::{another, fill, folder, info, keep};

crate::on_both!(
    an_act_that_fails_leaves_nothing,
    the_same_acts_make_the_same_head_and_another_time_another,
    a_row_is_checked_before_it_is_written,
    whole_numbers_are_numbers_and_minus_zero_is_zero,
    rows_are_found_by_name_in_this_act_and_in_earlier_ones,
    a_text_has_a_new_version_only_when_it_changed,
    raw_files_come_back_whole_and_are_known_again,
    a_correction_is_read_and_the_row_stays,
    what_the_program_derives_cannot_be_amended,
    every_row_reads_back_as_its_struct,
    the_newest_revision_is_read_where_asked,
    two_writers_take_turns_and_no_event_is_lost,
    what_another_act_overtook_is_reckoned_anew,
    a_backup_made_while_in_use_holds_what_was_kept,
    events_say_who_did_what_and_when,
    a_large_act_beside_a_reader_is_an_act_like_any_other
);

const NONE: Cell = Cell::Null;

fn person(act: &mut store::Act, name: &str) -> Result<i64, StoreError> {
    act.insert("person", &[name.into(), NONE])
}

fn new_store(path: &Path) -> Store {
    Store::create(path).unwrap()
}

fn an_act_that_fails_leaves_nothing() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    store.act(&info("entry"), |act| person(act, "Ann")).unwrap();
    let before = store.head().unwrap();
    let refused = store.act(&info("entry"), |act| {
        person(act, "Bea")?;
        person(act, "Ann")
    });
    assert_eq!(refused.unwrap_err().to_string(), "person \"Ann\" is there already");
    assert_eq!(store.persons().unwrap().len(), 1);
    assert_eq!(store.head().unwrap(), before);
    // And the store goes on.
    store.act(&info("entry"), |act| person(act, "Bea")).unwrap();
    assert_eq!(store.verify(None).unwrap().differences, []);
}

fn the_same_acts_make_the_same_head_and_another_time_another() {
    let head = |at: &str| {
        let (_folder, path) = folder();
        let mut store = new_store(&path);
        let info = ActInfo { at: at.into(), ..info("entry") };
        store.act(&info, |act| person(act, "Ann")).unwrap().1
    };
    assert_eq!(head("2026-07-01"), head("2026-07-01"));
    assert_ne!(head("2026-07-01"), head("2026-07-02"));
}

fn a_row_is_checked_before_it_is_written() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    let mut check = |table: &str, cells: &[Cell], message: &str| {
        let refused = store.act(&info("entry"), |act| act.insert(table, cells)).unwrap_err();
        assert_eq!(refused.to_string(), message);
    };
    let no_site = [NONE, NONE, NONE, NONE];
    check("pond", &[], "the record has no table \"pond\"");
    check("person", &[NONE], "table person takes 2 values, 1 were given");
    check("person", &[NONE, NONE], "person.name: found nothing, expected text without a zero character");
    check("person", &["A\0".into(), NONE], "person.name: found \"A\\0\", expected text without a zero character");
    check(
        "site",
        &[&["x".into(), NONE, f64::NAN.into()], &no_site[..2]].concat(),
        "site.latitude_deg: found NaN, expected a finite number, or nothing",
    );
    check(
        "site",
        &["x".into(), NONE, "north".into(), NONE, NONE],
        "site.latitude_deg: found \"north\", expected a finite number, or nothing",
    );
    check(
        "check_rule",
        &["well.flow".into(), 1.into(), "heavy".into(), NONE, NONE, NONE],
        "check_rule.weight: found \"heavy\", expected one of decisive, warning, note",
    );
    check("layer", &[7.into(), 0.0.into(), 1.0.into(), "clay".into()], "layer.well: there is no row 7 of well");
    check("layer", &[0.into(), 0.0.into(), 1.0.into(), "clay".into()], "layer.well: there is no row 0 of well");
}

fn whole_numbers_are_numbers_and_minus_zero_is_zero() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    store
        .act(&info("entry"), |act| act.insert("site", &["x".into(), NONE, 52.into(), Cell::Real(-0.0), 1.into()]))
        .unwrap();
    let site = store.sites().unwrap().remove(0);
    assert_eq!(site.latitude_deg, Some(52.0));
    assert_eq!(site.longitude_deg.map(f64::to_bits), Some(0));
    assert_eq!(site.invented, Some(true));
    assert_eq!(store.verify(None).unwrap().differences, []);
}

fn rows_are_found_by_name_in_this_act_and_in_earlier_ones() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    store.act(&info("entry"), |act| person(act, "Ann")).unwrap();
    store
        .act(&info("entry"), |act| {
            assert_eq!(act.find("person", &["Ann".into()])?, Some(1));
            assert_eq!(act.find("person", &["Bea".into()])?, None);
            assert_eq!(act.ensure("person", &["Bea".into(), "samples".into()])?, 2);
            assert_eq!(act.ensure("person", &["Bea".into(), NONE])?, 2);
            assert_eq!(act.find("person", &["Bea".into()])?, Some(2));
            let measurand = ["Pb".into(), "".into(), "".into(), "unfiltered".into()];
            assert_eq!(act.ensure("measurand", &measurand)?, 1);
            let moved = ["Pb".into(), "".into(), "unfiltered".into(), "".into()];
            assert_eq!(act.find("measurand", &moved)?, None, "columns are kept apart");
            assert!(act.find("layer", &["clay".into()]).is_err(), "layers have no name");
            Ok::<_, StoreError>(())
        })
        .unwrap();
}

fn a_text_has_a_new_version_only_when_it_changed() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    let mut keep = |toml: &str| store.act(&info("entry"), |act| act.keep_text("recipe", "lead", toml)).unwrap().0;
    assert_eq!((keep("a = 1"), keep("a = 1"), keep("a = 2"), keep("a = 1")), (1, 1, 2, 3));
    let newest = store.kept_texts("recipe").unwrap();
    assert_eq!((newest.len(), newest[0].version, newest[0].toml.as_str()), (1, 3, "a = 1"));
}

fn raw_files_come_back_whole_and_are_known_again() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    // Longer than two parts of 4 MiB.
    let bytes: Vec<u8> = (0..9_000_001u32).map(|i| (i.wrapping_mul(i) >> 7) as u8).collect();
    let (hash, size) = hash_bytes(bytes.as_slice()).unwrap();
    let file = RawFileIn { name: "run.csv", hash, size, mapping: 1, rows: None };
    store
        .act(&info("import"), |act| {
            act.keep_text("mapping", "lab", "")?;
            act.keep_file(&file, bytes.as_slice())
        })
        .unwrap();
    assert!(store.has_file(&hash, 1).unwrap());
    assert!(!store.has_file(&hash, 2).unwrap());
    let mut back = vec![];
    store.write_raw_file(1, &mut back).unwrap();
    assert_eq!(back, bytes);
    assert_eq!(store.verify(None).unwrap().differences, []);
    let changed = store.act(&info("import"), |act| act.keep_file(&RawFileIn { name: "run2.csv", ..file }, &bytes[1..]));
    assert_eq!(
        changed.unwrap_err().to_string(),
        "run2.csv changed while it was read: 9000001 bytes expected, 9000000 read; nothing was taken"
    );
    assert_eq!(store.raw_files().unwrap().len(), 1);
}

fn a_correction_is_read_and_the_row_stays() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    fill(&mut store);
    let label = store.bottles(&Filter::all()).unwrap()[1].label.clone();
    let mut amend = |column: &str, new: Option<&str>| {
        store
            .act(&info("amendment"), |act| {
                let why = "misread";
                act.amend(&AmendmentIn { table: "bottle", row: 2, column, new, why, person: Some(1) })
            })
            .map_err(|e| e.to_string())
    };
    amend("volume_mL", Some("248.5")).unwrap();
    amend("volume_mL", Some("249.5")).unwrap();
    amend("kind", Some("field-blank")).unwrap();
    amend("note", None).unwrap();
    amend("well", Some("1")).unwrap();
    assert_eq!(
        amend("label", Some("other")).unwrap_err(),
        "bottle.label cannot be amended: it is part of the row's name: exclude the row and enter it anew"
    );
    assert!(amend("kind", Some("jar")).unwrap_err().contains("found \"jar\", expected one of sample"));
    assert!(amend("volume_mL", Some("much")).unwrap_err().contains("expected a number"));
    assert_eq!(amend("well", Some("77")).unwrap_err(), "bottle.well: there is no row 77 of well");
    assert!(amend("depth", Some("1")).unwrap_err().contains("has no column \"depth\""));
    let filter = Filter::all().is("label", &label).is("kind", "field-blank");
    let bottle = store.bottles(&filter).unwrap().remove(0);
    assert_eq!(bottle.volume_mL, Some(249.5));
    assert_eq!(bottle.kind, BottleKind::FieldBlank);
    assert_eq!(bottle.note, None);
    assert_eq!(bottle.well.as_deref(), Some("well.name.0"));
    let amended = store.amendments().unwrap();
    let first = amended.iter().find(|a| a.new.as_deref() == Some("249.5")).unwrap();
    assert_eq!(first.old.as_deref(), Some("248.5"));
    let mut as_written = vec![];
    store
        .dump("bottle", |id, _, cells| {
            as_written.push((id, cells[1].describe(), cells[7].describe()));
            Ok(())
        })
        .unwrap();
    assert_eq!(as_written[1], (2, "\"duplicate\"".into(), "1.1".into()));
    assert_eq!(store.verify(None).unwrap().differences, []);
}

fn what_the_program_derives_cannot_be_amended() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    fill(&mut store);
    let refused = store.act(&info("amendment"), |act| {
        act.amend(&AmendmentIn {
            table: "verdict",
            row: 1,
            column: "verdict",
            new: Some("accepted"),
            why: "wish",
            person: None,
        })
    });
    assert!(refused.unwrap_err().to_string().contains("the program derives it"));
    let missing = store.act(&info("amendment"), |act| {
        act.amend(&AmendmentIn { table: "well", row: 77, column: "description", new: None, why: "gone", person: None })
    });
    assert_eq!(missing.unwrap_err().to_string(), "well 77 is not in the programme");
}

fn reads<T: Typed + serde::Serialize>(store: &Store) {
    let rows = store.list::<T>(&Filter::all()).unwrap();
    assert_eq!(rows.len(), 2, "{}", T::TABLE);
    assert!(serde_json::to_string(&rows).unwrap().len() > 2);
}

fn every_row_reads_back_as_its_struct() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    fill(&mut store);
    macro_rules! all { ($($row:ident)+) => { $(reads::<model::$row>(&store);)+ } }
    all! {
        KeptText RawFile Person Site Well WellSection Layer Lot Acid FilterLot Trip Bottle Spike
        Aliquot FieldReading Fill AirCount Custody Run Vial Assigned Reading ResultRow
        DerivationRow DerivationText Share CheckRule FindingRow Verdict Exclusion SignOff Amendment
        PersonKey KeyEnd Signed Anchor
    }
    assert_eq!(store.vials(1).unwrap().len(), 1);
    assert_eq!(store.readings(1).unwrap().len(), 1);
    assert_eq!(store.assigned(2).unwrap().len(), 1);
    assert_eq!(store.findings(1).unwrap().len(), 1);
    assert_eq!(store.derivation(1).unwrap().unwrap().result_id, 1);
    let result = &store.results(&Filter::all().is("measurand.analyte", "measurand.analyte.1")).unwrap()[0];
    assert_eq!(
        result.identity().to_string(),
        "bottle.label.1:measurand.analyte.1:measurand.isotopes.1@measurand.resolution.1:measurand.fraction.1#1"
    );
    let nowhere = store.bottles(&Filter::all().is("trip.colour", "red")).unwrap_err();
    assert_eq!(nowhere.to_string(), "table trip has no column \"colour\"");
}

#[test]
fn the_words_of_the_structs_are_those_of_the_schema() {
    fn declared(table: &str, column: &str) -> Vec<&'static str> {
        let table = TABLES.iter().find(|t| t.name == table).unwrap();
        match table.columns[table.place(column).unwrap()].kind {
            Kind::Word(words) => words.to_vec(),
            other => panic!("{other:?}"),
        }
    }
    macro_rules! same {
        ($word:ident, $declared:expr) => {
            assert_eq!(model::$word::ALL.iter().map(|w| w.word()).collect::<Vec<_>>(), $declared);
            for word in model::$word::ALL {
                assert_eq!(model::$word::from_word(word.word()), Some(*word));
            }
        };
    }
    same!(BottleKind, declared("bottle", "kind"));
    same!(VialRole, declared("vial", "role"));
    same!(Censor, declared("result", "censor"));
    same!(State, declared("result", "state"));
    same!(VerdictWord, declared("verdict", "verdict"));
    same!(Weight, declared("check_rule", "weight"));
    same!(Resolution, declared("reading", "resolution"));
    same!(Mode, declared("reading", "mode"));
    same!(Medium, declared("well", "medium"));
    same!(SectionKind, declared("well_section", "kind"));
    same!(AirPlace, declared("air_count", "place"));
    same!(Seal, declared("custody", "seal"));
    same!(KeyEndHow, declared("key_end", "how"));
    same!(SignedWhat, declared("signed", "what"));
    same!(AnchorKind, declared("anchor", "kind"));
}

fn the_newest_revision_is_read_where_asked() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    let rule = |act: &mut store::Act, name: &str, weight: &str| {
        let revision = act.next_revision("check_rule", &[name.into()])?;
        act.insert("check_rule", &[name.into(), revision.into(), weight.into(), NONE, NONE, NONE])
    };
    store
        .act(&info("entry"), |act| {
            rule(act, "well.flow", "note")?;
            rule(act, "run.drift", "decisive")?;
            rule(act, "well.flow", "warning")
        })
        .unwrap();
    let rules: Vec<_> = store.check_rules().unwrap().into_iter().map(|r| (r.check_name, r.revision)).collect();
    assert_eq!(rules, [("run.drift".to_owned(), 1), ("well.flow".to_owned(), 2)]);
    let page = store.list::<model::CheckRule>(&Filter::all().after(1).limit(1)).unwrap();
    assert_eq!((page.len(), page[0].id), (1, 2));
}

fn two_writers_take_turns_and_no_event_is_lost() {
    let (_folder, path) = folder();
    drop(new_store(&path));
    std::thread::scope(|scope| {
        for writer in 0..3 {
            let path = &path;
            scope.spawn(move || {
                let mut store = Store::open(path).unwrap();
                for n in 0..15 {
                    let name = format!("{writer}-{n}");
                    store.act(&info("entry"), |act| person(act, &name)).unwrap();
                }
            });
        }
    });
    let store = Store::open(&path).unwrap();
    assert_eq!(store.persons().unwrap().len(), 45);
    assert_eq!(store.events().unwrap().len(), 45);
    assert_eq!(store.verify(None).unwrap().differences, []);
}

fn what_another_act_overtook_is_reckoned_anew() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    let mut other = store.again().unwrap();
    let overtaken = |e: &StoreError| matches!(e, StoreError::WriteConflict);
    let mut turns = 0;
    let seen = store.retrying(overtaken, |store| {
        turns += 1;
        let seen = store.persons()?.len();
        if turns == 1 {
            other.act(&info("entry"), |act| person(act, "Bo"))?;
        }
        // Its own first act does not overtake the second.
        store.act(&info("entry"), |act| person(act, &format!("saw {seen}")))?;
        store.act(&info("entry"), |act| person(act, "and went on"))?;
        Ok::<_, StoreError>(seen)
    });
    assert_eq!((turns, seen.unwrap()), (2, 1));
    // Outside of such work an act stands on whatever there is.
    other.act(&info("entry"), |act| person(act, "Bea")).unwrap();
    store.act(&info("entry"), |act| person(act, "Cai")).unwrap();
    let names: Vec<String> = store.persons().unwrap().into_iter().map(|p| p.name).collect();
    assert_eq!(names, ["Bo", "saw 1", "and went on", "Bea", "Cai"]);
    assert_eq!(store.events().unwrap().len(), 5);
}

fn a_backup_made_while_in_use_holds_what_was_kept() {
    let (folder, path) = folder();
    let copy = folder.path().join("copy.limpid");
    let back = another(&folder, "back");
    let mut store = new_store(&path);
    fill(&mut store);
    let head = store.head().unwrap();
    store
        .act(&info("entry"), |act| {
            person(act, "not yet kept")?;
            Store::open(&path)?.backup(&copy)
        })
        .unwrap();
    let copied = Store::open(&copy).unwrap();
    assert_eq!(copied.head().unwrap(), head);
    assert_eq!(copied.persons().unwrap().len(), 2);
    assert_eq!(copied.verify(head).unwrap().differences, []);
    drop(copied);
    assert!(matches!(store.backup(&copy), Err(StoreError::Exists { .. })));
    store::restore(&copy, &back).unwrap();
    assert_eq!(Store::open(&back).unwrap().head().unwrap(), head);
    let again = store::restore(&copy, &back).unwrap_err();
    assert!(matches!(again, StoreError::Exists { .. } | StoreError::Server(ServerError::NotEmpty { .. })), "{again}");
}

fn events_say_who_did_what_and_when() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    let ((), head) = store
        .act(&info("import"), |act| {
            act.note("rows", 3.into());
            act.keep_text("mapping", "lab", "")?;
            keep(act, "a.csv", b"x", 1)
        })
        .unwrap();
    let event = store.events().unwrap().remove(0);
    assert_eq!((event.number, event.kind.as_str(), event.author.as_str()), (1, "import", "A. Tester"));
    assert_eq!((event.at.as_str(), event.hash), ("2026-07-01T10:00:00", head));
    assert_eq!(event.json["body"]["rows"], 3);
    assert_eq!(event.json["tables"]["raw_part"]["rows"], 1);
    assert_eq!(head.to_string().parse(), Ok(head));
    assert!("12".parse::<store::EventHash>().is_err());
}

fn a_large_act_beside_a_reader_is_an_act_like_any_other() {
    let (_folder, path) = folder();
    let mut store = new_store(&path);
    let reader = Store::open(&path).unwrap();
    store
        .large_act(&info("import"), |act| {
            person(act, "Ann")?;
            assert_eq!(reader.persons()?.len(), 0);
            Ok::<_, StoreError>(())
        })
        .unwrap();
    assert_eq!(reader.persons().unwrap().len(), 1);
    drop(reader);
    store.large_act(&info("import"), |act| person(act, "Bea")).unwrap();
    assert_eq!(Store::open(&path).unwrap().verify(store.head().unwrap()).unwrap().differences, []);
    let refused = store.large_act(&info("import"), |act| person(act, "Bea"));
    assert!(matches!(refused, Err(StoreError::Duplicate { .. })));
    store.act(&info("import"), |act| person(act, "Cy")).unwrap();
    assert_eq!(store.persons().unwrap().len(), 3);
}
