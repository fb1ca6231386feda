//! A programme on a server: the same bits as in a file, moved there and back; what is refused is
//! named; a connection cut at any byte leaves all of an act or nothing; many writers and readers
//! while the server is stopped as by a power cut. The server is the system's own PostgreSQL, the
//! wire a small proxy of the tests.
//!
//! `LIMPID_HAMMER_S` sets the seconds of the last (20 here).

use crate::store_common;

use record::model;
use record::schema::{Kind, TABLES};
use record::store::{
    Act, AmendmentIn, Cell, Difference, EventHash, Filter, Pool, ServerError, Store, StoreError, Verification,
    move_programme, restore,
};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};
use store_common::cluster::{Cluster, schema_of};
use store_common::proxy::{Cut, Proxy};
use store_common::{fill, folder, info, keep};

const NONE: Cell = Cell::Null;

fn person(act: &mut Act, name: &str) -> Result<i64, StoreError> {
    act.insert("person", &[name.into(), NONE])
}

fn address() -> PathBuf {
    Cluster::shared().address()
}

fn whole(store: &Store, noted: Option<EventHash>) -> Verification {
    let verified = store.verify(noted).unwrap();
    assert_eq!(verified.differences, []);
    verified
}

/// All rows of all tables, as their canonical text.
fn rows(store: &Store) -> Vec<String> {
    let mut out = vec![];
    for table in TABLES {
        store
            .dump(table.name, |id, event, cells| {
                out.push(format!("{} {id} {event} {cells:?}", table.name));
                Ok(())
            })
            .unwrap();
    }
    out
}

#[test]
fn the_same_acts_make_the_same_rows_and_the_same_head_on_both() {
    let (_folder, path) = folder();
    let both = [path, address()].map(|place| {
        let mut store = Store::create(&place).unwrap();
        fill(&mut store);
        store.act(&info("import"), |act| keep(act, "second.csv", b"more\n", 1)).unwrap();
        let head = store.head().unwrap();
        drop(store);
        let store = Store::open(&place).unwrap();
        whole(&store, head);
        (head, rows(&store), store.schema_version().unwrap(), store.events().unwrap())
    });
    assert_eq!(both[0], both[1]);
    assert!(both[0].1.len() > 70);
}

/// Numbers, texts and bytes at the edges of what can be kept.
fn hard_values(act: &mut Act) -> Result<(), StoreError> {
    let numbers = [5e-324, 2.225_073_858_507_201e-308, f64::MAX, f64::MIN, 0.1 + 0.2, 1.0 / 3.0, -1e-300, 1e23];
    for (n, x) in (0..).zip(numbers) {
        let name = format!("site {n}");
        act.insert("site", &[(&name).into(), NONE, x.into(), (-x).into(), Cell::Integer(i64::MAX - n)])?;
    }
    let texts = ["", " ", "\u{1}\u{7f}", "Ω\u{301}\u{202e}𝄞", "'\"\\\n\r\t", "\\N", "\u{feff}x", &"ü".repeat(1000)];
    for text in texts {
        act.insert("person", &[text.into(), text.into()])?;
    }
    act.keep_text("mapping", "m", "")?;
    keep(act, "bytes", &(0..=255).cycle().take(5_000_000).collect::<Vec<u8>>(), 1)
}

#[test]
fn a_programme_goes_to_a_server_and_back_and_both_hold_the_same() {
    let (folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    fill(&mut store);
    store.act(&info("import"), |act| keep(act, "more.csv", b"x", 1)).unwrap();
    drop(store);
    let (_other, second) = store_common::folder();
    let mut store = Store::create(&second).unwrap();
    store.act(&info("entry"), hard_values).unwrap();
    drop(store);
    for path in [path, second] {
        let (at, back) = (address(), folder.path().join(format!("{}.limpid", schema_of(&address()))));
        let there = move_programme(&path, &at).unwrap();
        let store = Store::open(&at).unwrap();
        assert_eq!(store.head().unwrap(), there.head);
        assert_eq!(there.rows, whole(&store, there.head).rows);
        let returned = move_programme(&at, &back).unwrap();
        assert_eq!(returned, there);
        let (first, last) = (Store::open(&path).unwrap(), Store::open(&back).unwrap());
        assert_eq!(rows(&first), rows(&last));
        assert_eq!(rows(&first), rows(&store));
        // And to another place on the server; then nothing is written over.
        let elsewhere = address();
        assert_eq!(move_programme(&at, &elsewhere).unwrap(), there);
        let refused = move_programme(&path, &elsewhere).unwrap_err().to_string();
        assert!(refused.contains("is not empty (a programme) and is left as it is"), "{refused}");
        assert!(matches!(move_programme(&at, &path), Err(StoreError::Exists { .. })));
    }
}

#[test]
fn an_altered_programme_is_not_moved_and_leaves_nothing() {
    let at = address();
    let mut store = Store::create(&at).unwrap();
    fill(&mut store);
    Cluster::shared().raw(&schema_of(&at)).batch_execute("UPDATE person SET role = 'spy' WHERE id = 2").unwrap();
    let (folder, _) = folder();
    let to = folder.path().join("to.limpid");
    let refused = move_programme(&at, &to).unwrap_err().to_string();
    assert!(refused.contains("person, row 2 of event 1: altered"), "{refused}");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
    // Nor does a backup leave the house.
    let refused = store.backup(&to).unwrap_err().to_string();
    assert!(refused.contains("person, row 2 of event 1: altered"), "{refused}");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
}

#[test]
fn an_older_file_is_restored_to_a_server_and_brought_up_to_date() {
    let (_folder, path) = folder();
    drop(Store::create(&path).unwrap());
    let connection = rusqlite::Connection::open(&path).unwrap();
    // Views stand on columns that the older file has not.
    let views: Vec<String> = connection
        .prepare("SELECT name FROM sqlite_master WHERE type = 'view'")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    for view in views {
        connection.execute_batch(&format!("DROP VIEW \"{view}\"")).unwrap();
    }
    connection.execute_batch("DROP TABLE lead_source; PRAGMA user_version = 1").unwrap();
    let late: Vec<_> = TABLES
        .iter()
        .flat_map(|t| t.columns.iter().filter(|c| c.since > t.since()).map(|c| (t.name, c.name)))
        .collect();
    for (table, column) in late {
        connection.execute_batch(&format!("ALTER TABLE \"{table}\" DROP COLUMN \"{column}\"")).unwrap();
    }
    for table in TABLES.iter().filter(|t| t.since() > 1) {
        connection.execute_batch(&format!("DROP TABLE IF EXISTS \"{}\"", table.name)).unwrap();
    }
    drop(connection);
    let at = address();
    restore(&path, &at).unwrap();
    let store = Store::open(&at).unwrap();
    assert_eq!(store.schema_version().unwrap(), record::store::VERSIONS.last().unwrap().0);
    whole(&store, None);
}

fn count<T>(rows: &[T]) -> i64 {
    i64::try_from(rows.len()).unwrap()
}

#[test]
fn long_tables_are_read_page_by_page_also_within_a_read_and_within_an_act() {
    const MANY: i64 = 45_000;
    let at = address();
    let mut store = Store::create(&at).unwrap();
    store
        .act(&info("entry"), |act| {
            for n in 0..MANY {
                person(act, &format!("person {n}"))?;
            }
            assert_eq!(count(&act.list::<model::Person>(&Filter::all())?), MANY);
            assert_eq!(act.find("person", &["person 44999".into()])?, Some(MANY));
            Ok::<_, StoreError>(())
        })
        .unwrap();
    let (mut seen, mut inner) = (0, 0);
    store
        .each::<model::Person>(&Filter::all(), |p| {
            seen += 1;
            assert_eq!(p.id, seen);
            if seen % 15_000 == 0 {
                inner += count(&store.list::<model::Person>(&Filter::all()).unwrap());
            }
            Ok(())
        })
        .unwrap();
    assert_eq!((seen, inner), (MANY, 3 * MANY));
    // Names that stand on the server are found, one by one and, after many questions, at once.
    store
        .act(&info("entry"), |act| {
            for n in (0..MANY).step_by(10) {
                assert_eq!(act.ensure("person", &[(&format!("person {n}")).into(), NONE])?, n + 1);
            }
            assert_eq!(act.find("person", &["nobody".into()])?, None);
            person(act, "nobody")?;
            assert_eq!(act.find("person", &["nobody".into()])?, Some(MANY + 1));
            Ok::<_, StoreError>(())
        })
        .unwrap();
    whole(&store, store.head().unwrap());
}

#[test]
fn a_name_that_is_there_already_is_named_from_the_middle_of_many() {
    let at = address();
    let mut store = Store::create(&at).unwrap();
    store.act(&info("entry"), |act| person(act, "Ann")).unwrap();
    let refused = store.act(&info("entry"), |act| {
        (0..50).try_for_each(|n| person(act, &format!("{n}")).map(|_| ()))?;
        person(act, "Ann")?;
        (50..99).try_for_each(|n| person(act, &format!("{n}")).map(|_| ()))
    });
    assert_eq!(refused.unwrap_err().to_string(), "person \"Ann\" is there already");
    // Letters without a pattern, which the server cannot pack.
    let long: String = (0..100u8).map(|n| blake3::hash(&[n]).to_hex().to_string()).collect();
    let refused = store.act(&info("entry"), |act| person(act, &long)).unwrap_err();
    assert!(matches!(refused, StoreError::Server(ServerError::LongName { .. })), "{refused}");
    assert_eq!(store.persons().unwrap().len(), 1);
    whole(&store, None);
}

#[test]
fn corrected_numbers_are_read_to_the_same_bit_on_both() {
    let (_folder, path) = folder();
    let read = [path, address()].map(|place| {
        let mut store = Store::create(&place).unwrap();
        fill(&mut store);
        let mut bits = 0x9E37_79B9_7F4A_7C15_u64;
        let mut read = vec![];
        for _ in 0..60 {
            bits = bits.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            // Numbers of the sizes that are measured, with all their digits.
            let x = (bits >> 11) as f64 / 1e12;
            let text = x.to_string();
            let new =
                AmendmentIn { table: "bottle", row: 1, column: "volume_mL", new: Some(&text), why: "t", person: None };
            store.act(&info("amendment"), |act| act.amend(&new)).unwrap();
            let got = store.bottles(&Filter::all().is("id", 1)).unwrap()[0].volume_mL.unwrap();
            assert_eq!(got.to_bits(), x.to_bits(), "{text}");
            read.push(got.to_bits());
        }
        read
    });
    assert_eq!(read[0], read[1]);
}

fn refusal<T>(done: Result<T, StoreError>) -> String {
    done.map(|_| ()).expect_err("it was not refused").to_string()
}

#[test]
fn what_is_refused_is_named() {
    let cluster = Cluster::shared();
    let at = address();
    let schema = schema_of(&at);
    let plain = at.to_string_lossy().split('?').next().unwrap().to_owned();
    assert_eq!(
        refusal(Store::open(&at)),
        format!("{}: schema {schema} holds no programme; `limpid new` makes an empty one", at.display())
    );
    let mut store = Store::create(&at).unwrap();
    assert!(refusal(Store::create(&at)).ends_with("is not empty (a programme) and is left as it is"));
    cluster.raw("").batch_execute("CREATE SCHEMA other; CREATE TABLE other.things (x int)").unwrap();
    assert!(refusal(Store::create(cluster.address_of("other"))).contains("is not empty (things)"));
    let nobody = plain.replace("limpid@", "nobody_here@");
    assert!(refusal(Store::open(&nobody)).contains("does not let this role in: role \"nobody_here\" does not exist"));
    let no_database = plain.replace("/postgres", "/not_there");
    assert!(
        refusal(Store::open(no_database.replace("not_there:", "postgres:")))
            .contains("\"not_there\" does not exist; whoever")
    );
    // A role that may only look.
    cluster
        .raw(&schema)
        .batch_execute(&format!(
            "CREATE ROLE onlooker LOGIN; GRANT USAGE ON SCHEMA {schema} TO onlooker;
             GRANT SELECT ON ALL TABLES IN SCHEMA {schema} TO onlooker; CREATE ROLE outsider LOGIN"
        ))
        .unwrap();
    store.act(&info("entry"), |act| person(act, "Ann")).unwrap();
    let role = |name: &str| PathBuf::from(at.to_string_lossy().replace("limpid@", &format!("{name}@")));
    let mut onlooker = Store::open(role("onlooker")).unwrap();
    assert_eq!(onlooker.persons().unwrap().len(), 1);
    whole(&onlooker, store.head().unwrap());
    let refused = refusal(onlooker.act(&info("entry"), |act| person(act, "Eve")));
    assert!(refused.contains("the role may not do this: permission denied for table"), "{refused}");
    let refused = refusal(Store::open(role("outsider")));
    assert!(refused.contains("permission denied for schema"), "{refused}");
    let unmade = role("onlooker").to_string_lossy().replace(&schema, "of_their_own");
    assert!(refusal(Store::create(unmade)).contains("permission denied for database"));
    // A newer version.
    cluster.raw(&schema).batch_execute("UPDATE store_version SET version = 99").unwrap();
    assert!(refusal(Store::open(&at)).contains("has schema version 99"));
    // Texts that the database cannot hold.
    cluster.raw("").batch_execute("CREATE DATABASE latin ENCODING 'LATIN1' TEMPLATE template0").unwrap();
    assert!(refusal(Store::create(plain.replace("/postgres", "/latin"))).contains("keeps texts as LATIN1"), "{plain}");
    for (address, told) in
        [("postgres://localhost/x", "names no role"), ("postgres://ann@db.example/x?sslmode=never", "verify-full")]
    {
        assert!(refusal(Store::open(address)).contains(told), "{address}");
    }
}

#[test]
fn a_server_of_another_version_is_named() {
    let cluster = Cluster::shared();
    let number: i32 =
        cluster.raw("").query_one("SELECT current_setting('server_version_num')::int", &[]).unwrap().get(0);
    let proxy = Proxy::before(cluster.port);
    proxy.exchange(&number.to_be_bytes(), &120_009_i32.to_be_bytes());
    let refused = refusal(Store::create(through(&proxy, &address())));
    assert!(refused.contains("; 13 and newer will do"), "{refused}");
}

fn through(proxy: &Proxy, at: &Path) -> PathBuf {
    at.to_string_lossy().replace(&format!(":{}/", Cluster::shared().port), &format!(":{}/", proxy.port)).into()
}

#[test]
fn a_writer_that_waits_in_vain_is_told_and_so_is_silence() {
    let at = address();
    let mut store = Store::create(&at).unwrap();
    let mut other = Store::open(&at).unwrap();
    store.set_patience(Duration::from_millis(50)).unwrap();
    other
        .act(&info("entry"), |act| {
            let refused = store.act(&info("entry"), |_| Ok::<_, StoreError>(())).unwrap_err();
            assert!(matches!(refused, StoreError::Busy { .. }), "{refused}");
            // Reading goes on.
            assert_eq!(store.persons()?.len(), 0);
            person(act, "Ann")
        })
        .unwrap();
    store.act(&info("entry"), |act| person(act, "Bea")).unwrap();
    let own = Cluster::start();
    let mut store = Store::create(own.address()).unwrap();
    store.set_patience(Duration::from_millis(300)).unwrap();
    own.stop();
    let refused = refusal(store.persons());
    assert!(refused.starts_with("no server answered at postgres://limpid@127.0.0.1"), "{refused}");
    own.start_again();
    assert_eq!(store.persons().unwrap().len(), 0);
}

/// One act of some size: a raw file, then rows that need several sendings.
fn imports(act: &mut Act, number: u64) -> Result<(), StoreError> {
    act.keep_text("mapping", "m", "")?;
    keep(act, &format!("file {number}"), &vec![7; 300_000], 1)?;
    for n in 0..2000 {
        person(act, &format!("{number}-{n}"))?;
    }
    assert_eq!(act.find("person", &[(&format!("{number}-7")).into()])?.map(|i| i > 0), Some(true));
    Ok(())
}

#[test]
fn a_connection_cut_anywhere_leaves_all_of_an_act_or_nothing() {
    let at = address();
    let mut direct = Store::create(&at).unwrap();
    direct.act(&info("import"), |act| imports(act, 0)).unwrap();
    let proxy = Proxy::before(Cluster::shared().port);
    let mut store = Store::open(through(&proxy, &at)).unwrap();
    proxy.arm(None);
    store.act(&info("import"), |act| imports(act, 1)).unwrap();
    let (up, down) = proxy.counted();
    let (mut lost, mut kept) = (0, 0);
    let ups = (0..24).map(|n| Cut::Up(up * n / 24)).chain([Cut::Up(up - 5), Cut::AtCommit]);
    // The last bytes from the server are its word that the act is kept.
    let downs = (0..16).map(|n| Cut::Down(down * n / 16)).chain((1..30).step_by(6).map(|n| Cut::Down(down - n)));
    for (number, cut) in (2..).zip(ups.chain(downs)) {
        let before = direct.head().unwrap();
        proxy.arm(Some(cut));
        let outcome = store.act(&info("import"), |act| imports(act, number));
        proxy.arm(None);
        match outcome {
            Ok(((), head)) => {
                kept += 1;
                assert_eq!(direct.head().unwrap(), Some(head), "{cut:?}");
            }
            Err(StoreError::Server(ServerError::Lost { .. })) => {
                lost += 1;
                assert_eq!(direct.head().unwrap(), before, "{cut:?}");
            }
            Err(other) => panic!("{cut:?}: {other}"),
        }
        assert_ne!((cut, before), (Cut::AtCommit, direct.head().unwrap()), "the server was told to commit");
    }
    assert!(lost >= 20 && kept >= 3, "{lost} lost, {kept} kept");
    let files = direct.raw_files().unwrap().len();
    assert_eq!(files, direct.events().unwrap().len());
    assert_eq!(direct.persons().unwrap().len(), files * 2000);
    whole(&direct, None);
}

#[test]
fn where_nobody_can_know_whether_an_act_was_kept_that_is_said() {
    let at = address();
    let direct = Store::create(&at).unwrap();
    let proxy = Proxy::before(Cluster::shared().port);
    let mut store = Store::open(through(&proxy, &at)).unwrap();
    store.set_patience(Duration::from_millis(200)).unwrap();
    proxy.close_after_cut();
    proxy.arm(Some(Cut::AtCommit));
    let told = refusal(store.act(&info("entry"), |act| person(act, "Ann")));
    let head = told.split("--head ").nth(1).and_then(|t| t.split('`').next()).unwrap_or_else(|| panic!("{told}"));
    // What it says to do answers the question.
    whole(&direct, Some(head.parse().unwrap()));
    proxy.open_again();
    assert_eq!(store.persons().unwrap().len(), 1);
}

#[test]
fn an_altered_schema_is_named() {
    let at = address();
    let mut store = Store::create(&at).unwrap();
    fill(&mut store);
    let mut raw = Cluster::shared().raw(&schema_of(&at));
    for (alter, back, object) in [
        ("ALTER TABLE well ADD COLUMN secret TEXT", "ALTER TABLE well DROP COLUMN secret", "well"),
        ("CREATE TABLE aside (x int)", "DROP TABLE aside", "aside"),
        ("ALTER INDEX result_name RENAME TO other", "ALTER INDEX other RENAME TO result_name", "result_name"),
        ("ALTER TABLE person ALTER COLUMN name DROP NOT NULL", "ALTER TABLE person ALTER COLUMN name SET NOT NULL", "person"),
        ("ALTER TABLE layer ENABLE ROW LEVEL SECURITY", "ALTER TABLE layer DISABLE ROW LEVEL SECURITY", "row security of layer"),
        ("CREATE RULE r AS ON DELETE TO well DO INSTEAD NOTHING", "DROP RULE r ON well", "r"),
        ("ALTER TABLE well ADD CONSTRAINT k CHECK (id > 0)", "ALTER TABLE well DROP CONSTRAINT k", "k"),
        ("ALTER VIEW findings_readable RENAME TO aside", "ALTER VIEW aside RENAME TO findings_readable", "findings_readable"),
        (
            "CREATE OR REPLACE VIEW findings_readable AS SELECT f.id, s.key AS subject, f.revision, f.stage, f.check_name,
             f.outcome, f.sentence FROM finding f JOIN subject s ON s.id = f.subject WHERE f.id > 1",
            "CREATE OR REPLACE VIEW findings_readable AS SELECT f.id, s.key AS subject, f.revision, f.stage, f.check_name,
             f.outcome, f.sentence FROM finding f JOIN subject s ON s.id = f.subject",
            "findings_readable",
        ),
        (
            "CREATE TRIGGER t BEFORE UPDATE ON well FOR EACH ROW EXECUTE FUNCTION suppress_redundant_updates_trigger()",
            "DROP TRIGGER t ON well",
            "t",
        ),
    ] {
        raw.batch_execute(alter).unwrap();
        let found = store.verify(None).unwrap().differences;
        assert!(
            found.iter().any(|d| matches!(d, Difference::Schema { object: o, .. } if o == object)),
            "{alter}: {found:?}"
        );
        raw.batch_execute(back).unwrap();
        assert_eq!(store.verify(None).unwrap().differences, [], "{back}");
    }
    raw.batch_execute("UPDATE layer SET well = 77 WHERE id = 1").unwrap();
    let found = store.verify(None).unwrap().differences;
    let dangling = Difference::Dangling { table: "layer".into(), row: 1, refers_to: "well".into() };
    assert!(found.contains(&dangling), "{found:?}");
    raw.batch_execute("ALTER TABLE person RENAME COLUMN role TO task").unwrap();
    let refused = refusal(store.persons());
    assert!(refused.contains("the schema was altered: `limpid verify` names where"), "{refused}");
}

/// What makes another value of the same type, as little different as can be.
fn other(column: &str, kind: Kind) -> String {
    match kind {
        Kind::Integer | Kind::Row(_) => format!("\"{column}\" + 10"),
        Kind::Real => format!("\"{column}\" * (1 + 2.3e-16::float8)"),
        Kind::Blob => format!("set_byte(\"{column}\", 0, 255 - get_byte(\"{column}\", 0))"),
        _ => format!("\"{column}\" || ' '"),
    }
}

#[test]
fn every_single_altered_value_is_found() {
    let (at, twin) = (address(), address());
    let mut store = Store::create(&at).unwrap();
    fill(&mut store);
    move_programme(&at, &twin).unwrap();
    let mut raw = Cluster::shared().raw(&schema_of(&at));
    let mut cases = 0;
    for table in TABLES {
        let own = table.columns.iter().map(|c| (c.name, c.kind));
        for (column, kind) in [("id", Kind::Integer), ("event", Kind::Integer)].into_iter().chain(own) {
            let name = table.name;
            let alter = format!("UPDATE \"{name}\" SET \"{column}\" = {} WHERE id = 2", other(column, kind));
            assert_eq!(raw.execute(&alter, &[]).unwrap(), 1);
            let found = store.verify(None).unwrap().differences;
            let told = found.iter().any(|d| matches!(d, Difference::Rows { table: t, event: 1, .. } if *t == name));
            assert!(told, "{name}.{column}: {found:?}");
            let back = format!(
                "DELETE FROM \"{name}\" WHERE id > 1; INSERT INTO \"{name}\" SELECT * FROM {}.\"{name}\" WHERE id > 1",
                schema_of(&twin)
            );
            raw.batch_execute(&back).unwrap();
            cases += 1;
        }
    }
    assert!(cases > 250, "{cases}");
    whole(&store, None);
}

#[test]
fn many_writers_and_readers_lose_nothing_when_the_server_is_stopped_as_by_a_power_cut() {
    let seconds: u64 = std::env::var("LIMPID_HAMMER_S").map_or(20, |n| n.parse().unwrap());
    let cluster = Cluster::start();
    let at = cluster.address();
    drop(Store::create(&at).unwrap());
    // 120 who want a connection, 40 connections; the server has its default of 100 places.
    let pool = Pool::new(&at, 40);
    let (acknowledged, over) = (Mutex::new(vec![]), AtomicBool::new(false));
    let (reads, hindered) = (AtomicU64::new(0), AtomicU64::new(0));
    let passing = |e: &StoreError| {
        matches!(
            e,
            StoreError::Server(ServerError::Lost { .. } | ServerError::Silent { .. } | ServerError::Unknown { .. })
        )
    };
    let begin = Instant::now();
    std::thread::scope(|scope| {
        for writer in 0..20 {
            let (pool, acknowledged, over, hindered) = (&pool, &acknowledged, &over, &hindered);
            scope.spawn(move || {
                for n in 0.. {
                    if over.load(Ordering::Relaxed) {
                        return;
                    }
                    let name = format!("{writer}-{n}");
                    let done = pool.take().and_then(|mut s| s.act(&info("entry"), |act| person(act, &name)));
                    match done {
                        Ok((_, head)) => acknowledged.lock().unwrap().push((name, head)),
                        Err(e) if passing(&e) => _ = hindered.fetch_add(1, Ordering::Relaxed),
                        Err(e) => panic!("{e}"),
                    }
                }
            });
        }
        for _ in 0..100 {
            let (pool, over, reads, hindered) = (&pool, &over, &reads, &hindered);
            scope.spawn(move || {
                let mut most = 0;
                while !over.load(Ordering::Relaxed) {
                    match pool.take().and_then(|s| s.list::<model::Person>(&Filter::all().after(most))) {
                        Ok(new) => {
                            // Numbers without gaps, in the order in which they were kept.
                            for p in new {
                                most += 1;
                                assert_eq!(p.id, most);
                            }
                            reads.fetch_add(1, Ordering::Relaxed);
                        }
                        Err(e) if passing(&e) => _ = hindered.fetch_add(1, Ordering::Relaxed),
                        Err(e) => panic!("{e}"),
                    }
                    std::thread::sleep(Duration::from_millis(20));
                }
            });
        }
        std::thread::sleep(Duration::from_millis(seconds * 500));
        cluster.crash_and_restart();
        let before = acknowledged.lock().unwrap().len();
        let left = Duration::from_secs(seconds).saturating_sub(begin.elapsed()).max(Duration::from_secs(2));
        std::thread::sleep(left);
        over.store(true, Ordering::Relaxed);
        assert!(acknowledged.lock().unwrap().len() > before, "nobody wrote after the restart");
    });
    let acknowledged = acknowledged.into_inner().unwrap();
    let store = Store::open(&at).unwrap();
    let verified = whole(&store, acknowledged.last().map(|a| a.1));
    let chain: std::collections::HashSet<_> = store.events().unwrap().iter().map(|e| e.hash).collect();
    assert_eq!(chain.len() as u64, verified.events);
    let names: std::collections::HashSet<_> = store.persons().unwrap().into_iter().map(|p| p.name).collect();
    assert_eq!(names.len(), chain.len());
    for (name, head) in &acknowledged {
        assert!(chain.contains(head) && names.contains(name), "{name} was told as kept and is gone");
    }
    println!(
        "{} acts acknowledged, {} kept, {} reads, {} hindered",
        acknowledged.len(),
        chain.len(),
        reads.into_inner(),
        hindered.into_inner()
    );
}
