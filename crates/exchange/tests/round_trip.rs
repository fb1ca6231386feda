//! A package of a programme with rows in every table reads back into an empty programme with nothing
//! lost: the same rows, the same raw files, the same event chain; and that programme's package is the
//! same bytes. Tables are filled from the declared schema, so that a new table is tested by itself.

use crate::common;

use common::{Awkward, dumped, files_of, fill, folder, info, texts};
use exchange::folder::BLAKE3SUMS;
use exchange::{Options, read, write};
use proptest::prelude::*;
use record::schema::{TABLES, Table};
use record::store::{AmendmentIn, Cell, Store, StoreError};

/// Exports, reads back, exports again; compares all of it.
fn round_trip(store: &Store, at: &std::path::Path) {
    let (first, second, copy) = (at.join("first"), at.join("second"), at.join("copy.limpid"));
    let written = write(store, &first, &Options::default()).unwrap();
    let back = read(&first, &copy).unwrap();
    let again = Store::open(&copy).unwrap();
    assert_eq!(again.head().unwrap(), store.head().unwrap());
    assert_eq!(back.rows + back.events, written.rows);
    let verification = again.verify(store.head().unwrap()).unwrap();
    assert_eq!(verification.differences, []);
    for table in TABLES {
        assert_eq!(dumped(&again, table.name), dumped(store, table.name), "{}", table.name);
    }
    assert_eq!(again.events().unwrap(), store.events().unwrap());
    for file in store.raw_files().unwrap() {
        let (mut a, mut b) = (vec![], vec![]);
        store.write_raw_file(file.id, &mut a).unwrap();
        again.write_raw_file(file.id, &mut b).unwrap();
        assert_eq!(a, b);
    }
    write(&again, &second, &Options::default()).unwrap();
    assert_eq!(files_of(&first), files_of(&second));
}

#[test]
fn every_table_comes_back_and_the_second_package_is_the_same_bytes() {
    let (_guard, at) = folder();
    let mut store = Store::create(at.join("programme.limpid")).unwrap();
    fill(&mut store, &Awkward::default());
    fill(&mut store, &Awkward { round: 1, ..Awkward::default() });
    for table in TABLES {
        let mut rows = 0;
        store
            .dump(table.name, |_, _, _| {
                rows += 1;
                Ok(())
            })
            .unwrap();
        assert!(rows > 0, "no row of {}: the test would not see whether it is carried", table.name);
    }
    round_trip(&store, &at);
}

#[test]
fn corrections_and_files_of_many_parts_come_back() {
    let (_guard, at) = folder();
    let mut store = Store::create(at.join("programme.limpid")).unwrap();
    fill(&mut store, &Awkward::default());
    // More than one part of 4 MiB, and a file without a byte.
    let large: Vec<u8> = (0..9_000_000_u32).map(|i| (i.wrapping_mul(2_654_435_761) >> 13) as u8).collect();
    store
        .act(&info("amendment"), |act| {
            common::keep(act, "large.bin", &large)?;
            common::keep(act, "../empty = odd name?.csv", b"")?;
            let new = Some("=2+2, \"rinsed\"\r\n");
            act.amend(&AmendmentIn {
                table: "bottle",
                row: 1,
                column: "note",
                new,
                why: "'typed wrongly",
                person: Some(1),
            })
        })
        .unwrap();
    round_trip(&store, &at);
}

#[test]
fn bytes_too_many_for_a_cell_stand_in_files() {
    let (_guard, at) = folder();
    let mut store = Store::create(at.join("programme.limpid")).unwrap();
    let bytes = vec![7; 1000];
    store
        .act(&info("entry"), |act| act.insert("recipe", &["photo".into(), 1.into(), "x".into(), Cell::Blob(&bytes)]))
        .unwrap();
    let out = at.join("out");
    write(&store, &out, &Options::default()).unwrap();
    assert_eq!(std::fs::read(out.join("bytes/recipe-hash-1")).unwrap(), bytes);
    // Such a hash is none of the text, which verify sees: the package is refused for that alone.
    let refused = read(&out, at.join("copy.limpid")).unwrap_err().to_string();
    assert!(refused.contains("recipe, row 1: its content is not what its hash says"), "{refused}");
    assert!(!at.join("copy.limpid").exists());
}

/// A table without the columns that came after the first schema; none where all of it came later.
fn first_schema(table: &Table, text: &str) -> Option<String> {
    let old = |name: &str| table.columns.iter().find(|c| c.name == name).is_none_or(|c| c.since == 1);
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let kept: Vec<usize> = (0..rows[0].len()).filter(|i| old(&rows[0][*i])).collect();
    let mut out = csv::Writer::from_writer(vec![]);
    for row in &rows {
        out.write_record(kept.iter().map(|i| &row[*i])).unwrap();
    }
    (table.since() == 1).then(|| String::from_utf8(out.into_inner().unwrap()).unwrap())
}

#[test]
fn a_package_of_the_first_schema_is_read_and_what_came_later_is_empty() {
    let (_guard, at) = folder();
    let mut store = Store::create(at.join("programme.limpid")).unwrap();
    fill(&mut store, &Awkward { schema: 1, ..Awkward::default() });
    let package = at.join("package");
    write(&store, &package, &Options::default()).unwrap();
    let mut sums = std::fs::read_to_string(package.join(BLAKE3SUMS)).unwrap();
    let hash = |t: &str| blake3::hash(t.as_bytes()).to_hex().to_string();
    for table in TABLES {
        let path = exchange::whole_record::path(table.name);
        let text = std::fs::read_to_string(package.join(&path)).unwrap();
        let line = |t: &str| format!("{}  {path}\n", hash(t));
        let new = first_schema(table, &text);
        assert!(sums.contains(&line(&text)), "{path}");
        sums = sums.replace(&line(&text), &new.as_deref().map_or(String::new(), line));
        match new {
            Some(new) => std::fs::write(package.join(&path), new).unwrap(),
            None => std::fs::remove_file(package.join(&path)).unwrap(),
        }
    }
    let about = std::fs::read_to_string(package.join("datapackage.json")).unwrap();
    let version = record::store::VERSIONS.last().unwrap().0;
    let old = about.replace(&format!("\"schema\": {version}"), "\"schema\": 1");
    assert_ne!(old, about);
    sums = sums.replace(&hash(&about), &hash(&old));
    std::fs::write(package.join("datapackage.json"), old).unwrap();
    std::fs::write(package.join(BLAKE3SUMS), sums).unwrap();
    let copy = at.join("copy.limpid");
    read(&package, &copy).unwrap();
    let again = Store::open(&copy).unwrap();
    assert_eq!(again.head().unwrap(), store.head().unwrap());
    for table in TABLES {
        assert_eq!(dumped(&again, table.name), dumped(&store, table.name), "{}", table.name);
    }
}

#[test]
fn an_empty_programme_comes_back_empty() {
    let (_guard, at) = folder();
    round_trip(&Store::create(at.join("programme.limpid")).unwrap(), &at);
}

#[test]
fn a_programme_that_cannot_be_written_is_exported_all_the_same() {
    let (_guard, at) = folder();
    let path = at.join("programme.limpid");
    fill(&mut Store::create(&path).unwrap(), &Awkward::default());
    let mut rights = std::fs::metadata(&path).unwrap().permissions();
    rights.set_readonly(true);
    std::fs::set_permissions(&path, rights).unwrap();
    round_trip(&Store::open(&path).unwrap(), &at);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn awkward_text_and_numbers_come_back(
        texts in texts(),
        numbers in prop::collection::vec(prop::num::f64::NORMAL | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO, 1..20),
        file in prop::collection::vec(any::<u8>(), 0..300),
    ) {
        let (_guard, at) = folder();
        let mut store = Store::create(at.join("programme.limpid")).unwrap();
        fill(&mut store, &Awkward { texts, numbers, file, ..Awkward::default() });
        round_trip(&store, &at);
    }
}

#[test]
fn the_rows_are_checked_as_an_act_checks_them() {
    let (_guard, at) = folder();
    let path = at.join("new.limpid");
    let refused = Store::rebuild(&path, |to| {
        to.row("person", 2, 1, &["Ann".into(), Cell::Null]).map_err(|e| {
            assert!(matches!(e, StoreError::Sequence { table: "person", expected: 1, found: 2 }));
            e
        })
    });
    assert!(refused.is_err());
    assert!(std::fs::read_dir(&at).unwrap().next().is_none(), "nothing half-written is left");
}
