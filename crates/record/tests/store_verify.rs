//! Is any single value that is altered from outside found? Every column of every table is
//! changed, emptied or filled with raw SQL; rows are removed, added and exchanged; events are
//! altered and cut. The hash is BLAKE3 by its own crate; the layout of what is hashed is
//! described in `store/cell.rs` and recomputed here for one event by hand.

use crate::store_common;

use record::schema::TABLES;
use record::store::{Difference, EventHash, Store, StoreError};
use rusqlite::Connection;
use rusqlite::types::Value;
use std::path::Path;
use store_common::{fill, folder, info, keep};

fn filled(path: &Path) -> EventHash {
    let mut store = Store::create(path).unwrap();
    fill(&mut store);
    store.act(&info("import"), |act| keep(act, "second.csv", b"more\n", 1)).unwrap();
    store.head().unwrap().unwrap()
}

/// Alters a copy of the programme with raw SQL; answers what verify finds.
fn altered(base: &Path, noted: Option<EventHash>, alter: impl FnOnce(&Connection)) -> Vec<Difference> {
    let copy = base.with_file_name("altered.limpid");
    std::fs::copy(base, &copy).unwrap();
    let connection = Connection::open(&copy).unwrap();
    connection.pragma_update(None, "synchronous", "OFF").unwrap();
    connection.pragma_update(None, "foreign_keys", "OFF").unwrap();
    alter(&connection);
    drop(connection);
    let found = Store::open(&copy).unwrap().verify(noted).unwrap().differences;
    std::fs::remove_file(&copy).unwrap();
    found
}

/// Another value of the same type, as little different as can be.
fn other(value: &Value) -> Value {
    match value {
        // Beyond the other rows', for what must stay unique.
        Value::Integer(i) => Value::Integer(i + 10),
        Value::Real(x) => Value::Real(x.next_up()),
        Value::Text(t) => Value::Text(format!("{t} ")),
        Value::Blob(b) => {
            let mut b = b.clone();
            *b.last_mut().unwrap() ^= 1;
            Value::Blob(b)
        }
        Value::Null => unreachable!("asked for stored values only"),
    }
}

fn columns(table: &str) -> Vec<String> {
    if table == "event" {
        return ["id", "body", "hash"].map(String::from).into();
    }
    let declared = TABLES.iter().find(|t| t.name == table).unwrap();
    ["id", "event"].into_iter().chain(declared.columns.iter().map(|c| c.name)).map(String::from).collect()
}

#[test]
fn an_untouched_programme_has_no_differences() {
    let (_folder, path) = folder();
    let head = filled(&path);
    let verified = Store::open(&path).unwrap().verify(Some(head)).unwrap();
    assert_eq!(verified.differences, []);
    assert_eq!(verified.head, Some(head));
    assert_eq!(verified.events, 2);
    // Two rows in each table but the parts of raw files, of which there are three with the
    // second act, which brings one more file.
    assert_eq!(verified.rows, 2 * TABLES.len() as u64 + 2);
}

#[test]
fn every_single_altered_value_is_found() {
    let (_folder, path) = folder();
    filled(&path);
    let mut cases = 0;
    for table in TABLES.iter().map(|t| t.name).chain(["event"]) {
        for column in columns(table) {
            for row in [1, 2] {
                let found = altered(&path, None, |connection| {
                    let read = format!("SELECT \"{column}\" FROM \"{table}\" WHERE id = {row}");
                    let value: Value = connection.query_row(&read, [], |r| r.get(0)).unwrap();
                    let new = match value {
                        Value::Null => filling(connection, table, &column),
                        value => other(&value),
                    };
                    let write = format!("UPDATE \"{table}\" SET \"{column}\" = ?1 WHERE id = {row}");
                    assert_eq!(connection.execute(&write, [new]).unwrap(), 1);
                });
                // By the digest or the chain, whatever else is told.
                let told = found.iter().any(|d| match d {
                    Difference::Rows { table: t, event, .. } => *t == table && *event == 1,
                    Difference::EventAltered { .. } | Difference::EventMissing { .. } => table == "event",
                    _ => false,
                });
                assert!(told, "{table}.{column}, row {row}: {found:?}");
                cases += 1;
            }
        }
    }
    assert!(cases > 500, "{cases}");
}

/// A value for an empty column: the one of the second row.
fn filling(connection: &Connection, table: &str, column: &str) -> Value {
    let read = format!("SELECT \"{column}\" FROM \"{table}\" WHERE id = 2");
    connection.query_row(&read, [], |r| r.get(0)).unwrap()
}

#[test]
fn every_single_emptied_value_is_found() {
    let (_folder, path) = folder();
    filled(&path);
    for table in TABLES {
        for column in table.columns.iter().filter(|c| !c.required) {
            let found = altered(&path, None, |connection| {
                let empty = format!("UPDATE \"{}\" SET \"{}\" = NULL WHERE id = 2", table.name, column.name);
                assert_eq!(connection.execute(&empty, []).unwrap(), 1);
            });
            let told = Difference::Rows { table: table.name, event: 1, first: 2, last: 2, found: 1 };
            assert!(found.contains(&told), "{}.{}: {found:?}", table.name, column.name);
        }
    }
}

#[test]
fn rows_removed_added_and_exchanged_are_found() {
    let (_folder, path) = folder();
    filled(&path);
    for table in TABLES {
        let name = table.name;
        let removed = altered(&path, None, |c| {
            c.execute(&format!("DELETE FROM \"{name}\" WHERE id = 2"), []).unwrap();
        });
        assert!(
            removed
                .iter()
                .any(|d| matches!(d, Difference::Rows { table, first: 2, last: 2, found: 0, .. } if *table == name)),
            "{name}: {removed:?}"
        );
    }
    let added = altered(&path, None, |c| {
        c.execute("INSERT INTO person (id, event, name) VALUES (9, 2, 'nobody')", []).unwrap();
    });
    assert_eq!(added, [Difference::RowWithoutEvent { table: "person", row: 9, event: 2 }]);
    let exchanged = altered(&path, None, |c| {
        c.execute_batch(
            "UPDATE layer SET id = 99 WHERE id = 1; UPDATE layer SET id = 1 WHERE id = 2;
             UPDATE layer SET id = 2 WHERE id = 99",
        )
        .unwrap();
    });
    assert_eq!(exchanged, [Difference::Rows { table: "layer", event: 1, first: 1, last: 2, found: 2 }]);
}

#[test]
fn the_difference_names_the_row_of_a_long_act() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    store
        .act(&info("entry"), |act| {
            for n in 0..10_000 {
                act.insert("person", &[(&format!("person {n}")).into(), None::<&str>.into()])?;
            }
            Ok::<_, StoreError>(())
        })
        .unwrap();
    drop(store);
    let found = altered(&path, None, |c| {
        c.execute("UPDATE person SET role = 'spy' WHERE id = 5000", []).unwrap();
    });
    assert_eq!(found, [Difference::Rows { table: "person", event: 1, first: 5000, last: 5000, found: 1 }]);
    assert_eq!(found[0].to_string(), "person, row 5000 of event 1: altered");
    // Of several, the rows under one digest.
    let found = altered(&path, None, |c| {
        c.execute("UPDATE person SET role = 'spy' WHERE id IN (5000, 5001)", []).unwrap();
    });
    assert_eq!(found, [Difference::Rows { table: "person", event: 1, first: 4097, last: 8192, found: 4096 }]);
    let found = altered(&path, None, |c| {
        c.execute("DELETE FROM person WHERE id > 9000", []).unwrap();
    });
    assert_eq!(found, [Difference::Rows { table: "person", event: 1, first: 8193, last: 10_000, found: 808 }]);
}

#[test]
fn what_was_altered_is_not_copied_and_the_refusal_names_table_and_row() {
    let (folder, path) = folder();
    filled(&path);
    let copy = folder.path().join("copy.limpid");
    Store::open(&path).unwrap().backup(&copy).unwrap();
    assert_eq!(Store::open(&copy).unwrap().verify(None).unwrap().differences, []);
    std::fs::remove_file(&copy).unwrap();
    Connection::open(&path).unwrap().execute("UPDATE result SET value = value * 0.1 WHERE id = 2", []).unwrap();
    let refused = Store::open(&path).unwrap().backup(&copy).unwrap_err();
    let StoreError::NotAsWritten { differences } = &refused else { panic!("{refused}") };
    assert_eq!(*differences, [Difference::Rows { table: "result", event: 1, first: 2, last: 2, found: 1 }]);
    assert!(refused.to_string().contains("result, row 2 of event 1: altered"), "{refused}");
    assert!(!copy.exists());
    // A row that nobody wrote leaves neither.
    Connection::open(&path).unwrap().execute_batch("UPDATE result SET value = 1.1 WHERE id = 2").unwrap();
    Store::open(&path).unwrap().as_written().unwrap();
    Connection::open(&path).unwrap().execute("INSERT INTO person (id, event, name) VALUES (9, 1, 'x')", []).unwrap();
    assert!(Store::open(&path).unwrap().backup(&copy).unwrap_err().to_string().contains("person, row 9"));
}

#[test]
fn events_altered_removed_and_cut_are_found() {
    let (_folder, path) = folder();
    let head = filled(&path);
    let renamed = altered(&path, None, |c| {
        c.execute("UPDATE event SET body = replace(body, 'A. Tester', 'B. Other') WHERE id = 1", []).unwrap();
    });
    assert_eq!(renamed, [Difference::EventAltered { event: 1 }]);
    let first_gone = altered(&path, None, |c| {
        c.execute("DELETE FROM event WHERE id = 1", []).unwrap();
    });
    assert!(first_gone.contains(&Difference::EventMissing { event: 1 }), "{first_gone:?}");
    // The last act removed with all its rows: alone, the chain cannot show it …
    let cut = |c: &Connection| {
        c.execute_batch(
            "DELETE FROM raw_part WHERE event = 2; DELETE FROM raw_file WHERE event = 2;
             DELETE FROM event WHERE id = 2",
        )
        .unwrap();
    };
    assert_eq!(altered(&path, None, cut), []);
    // … with the head noted in a report, it shows.
    assert_eq!(altered(&path, Some(head), cut), [Difference::HeadMissing { noted: head.to_string() }]);
}

#[test]
fn an_altered_schema_is_found() {
    let (_folder, path) = folder();
    filled(&path);
    for (alter, object) in [
        ("ALTER TABLE well ADD COLUMN secret TEXT", "well"),
        ("CREATE TABLE aside (x)", "aside"),
        ("DROP INDEX result_name", "result_name"),
        ("DROP VIEW results_readable", "results_readable"),
        ("CREATE TRIGGER t AFTER INSERT ON well BEGIN SELECT 1; END", "t"),
    ] {
        let found = altered(&path, None, |c| c.execute_batch(alter).unwrap());
        assert!(
            found.iter().any(|d| matches!(d, Difference::Schema { object: o, .. } if o == object)),
            "{alter}: {found:?}"
        );
    }
}

/// Recomputes one event by hand: the bytes of one row, its digest, and the link of the chain.
#[test]
fn the_hash_of_an_event_is_as_described() {
    let (_folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    let (_, hash) =
        store.act(&info("entry"), |act| act.insert("person", &["Ann".into(), None::<&str>.into()])).unwrap();
    let mut row = vec![];
    row.extend(1i64.to_le_bytes());
    row.extend(1i64.to_le_bytes());
    row.extend([0, 3, 3, 0, 0, 0, 0, 0, 0, 0]);
    row.extend(b"Ann");
    row.push(0xFF);
    let of_row = blake3::hash(&row);
    let digest = of_row.to_hex();
    // The tag of a row modulo 2^61 − 1; of a single row, at place 1, both sums are that tag.
    let tag = u64::from_le_bytes(of_row.as_bytes()[..8].try_into().unwrap()) % ((1 << 61) - 1);
    let body = format!(
        "{{\"act\":\"entry\",\"at\":\"2026-07-01T10:00:00\",\"author\":\"A. Tester\",\
         \"body\":{{\"number\":0.1,\"why\":\"test\"}},\"engine\":\"{}\",\"number\":1,\
         \"schema\":{},\"tables\":{{\"person\":{{\"digests\":[\"{digest}\"],\"first\":1,\"rows\":1,\
         \"traces\":[\"{tag:016x}{tag:016x}\"]}}}}}}",
        env!("CARGO_PKG_VERSION"),
        store.schema_version().unwrap(),
    );
    let mut hashed = vec![0; 32];
    hashed.extend(body.as_bytes());
    assert_eq!(hash.0, *blake3::hash(&hashed).as_bytes(), "{body}");
}
