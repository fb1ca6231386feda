//! Versions of the schema. Each table and column says in `schema` which version brought it; a
//! new file takes all versions in order, an older file takes those it lacks, in one transaction.
//! A migration only adds to tables (indexes it may make anew), so every row keeps its digest.

use super::backend::UNDO;
use super::sql::{self, Dialect};
use super::verify::Difference;
use crate::schema::Table;
use rusqlite::Connection;

/// What each version brought; the last is the present one.
pub const VERSIONS: &[(u32, &str)] = &[
    (1, "the record and its event chain"),
    (2, "views for people: results_readable, findings_readable"),
    (3, "isotope ratios of known sources of lead, where a well overflows to"),
    (4, "field sheets: field_sheet, field_entry"),
    (5, "what is known of sources of metal; bottles that tell of them; attribution"),
    (6, "statements, local limits, compounds"),
    (7, "what a finding says, as identity and arguments beside its sentence"),
    (8, "what a number bears: stocks, sides of assigned values, the accounting of a bottle, bounds"),
    (
        UNDO,
        "profiles of checks, a laboratory's own quality, requests with blind labels; names that a person said to be one; \
         acts that were taken back, and a name whose row counts no longer may be given again",
    ),
    (VERSION_OF_FILE_VIEWS, "views of a file for people: results_current, exclusions_readable, dictionary"),
    (11, "keys of persons, signatures, anchors: heads of the record that others keep"),
    (12, "tracers of age and origin, histories of rain and air, what is known of the recharge"),
];

/// The version that adds the views of a file.
const VERSION_OF_FILE_VIEWS: u32 = 10;

/// The version that adds the views.
pub(crate) const VERSION_OF_VIEWS: u32 = 2;

/// The version that this program writes.
pub(crate) fn current_version() -> u32 {
    VERSIONS.last().map_or(0, |v| v.0)
}

/// The sentences of one version.
pub fn sentences(tables: &[Table], version: u32, dialect: Dialect) -> Vec<String> {
    let mut out = vec![];
    if version == 1 {
        out.push(sql::create_event(dialect));
    }
    for table in tables {
        if table.since() == version {
            out.extend(sql::create_table(table, version, dialect));
        } else if table.since() < version {
            let new = table.columns.iter().filter(|c| c.since == version);
            out.extend(new.map(|c| sql::add_column(table, c, dialect)));
            if version == UNDO {
                out.extend(sql::name_index_anew(table, version));
            }
        }
    }
    if version == VERSION_OF_VIEWS {
        out.extend(sql::VIEWS.iter().map(|v| (*v).to_owned()));
    }
    if version == VERSION_OF_FILE_VIEWS && dialect == Dialect::Sqlite {
        out.extend(sql::file_views());
    }
    out
}

/// Brings a file to `version`, all or nothing.
pub(crate) fn migrate(connection: &mut Connection, tables: &[Table], version: u32) -> rusqlite::Result<()> {
    let transaction = connection.transaction_with_behavior(rusqlite::TransactionBehavior::Immediate)?;
    // Read inside the transaction: another process may have been first.
    let found: u32 = transaction.pragma_query_value(None, "user_version", |row| row.get(0))?;
    for step in found + 1..=version {
        for sentence in sentences(tables, step, Dialect::Sqlite) {
            transaction.execute_batch(&sentence)?;
        }
    }
    if found < version {
        transaction.pragma_update(None, "user_version", version)?;
    }
    transaction.commit()
}

type SchemaObject = (String, String, Option<String>);

fn objects(connection: &Connection) -> rusqlite::Result<Vec<SchemaObject>> {
    connection
        .prepare("SELECT type, name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%' ORDER BY type, name")?
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
        .collect()
}

/// Compares the file's schema with what its version should have, and asks the database whether
/// its pages, indexes and references are whole.
pub fn check(connection: &Connection, tables: &[Table]) -> rusqlite::Result<Vec<Difference>> {
    let version: u32 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    let mut reference = Connection::open_in_memory()?;
    // Only as far as the file says it is: an older file rightly lacks what later versions add.
    migrate(&mut reference, tables, version)?;
    let (expected, found) = (objects(&reference)?, objects(connection)?);
    let mut out = vec![];
    for object in expected.iter().filter(|o| !found.contains(o)) {
        out.push(Difference::Schema { object: object.1.clone(), detail: "is missing or altered".into() });
    }
    for object in &found {
        if !expected.iter().any(|e| e.1 == object.1) {
            out.push(Difference::Schema {
                object: object.1.clone(),
                detail: format!("a {} that the record does not have", object.0),
            });
        }
    }
    let mut statement = connection.prepare("PRAGMA integrity_check")?;
    for line in statement.query_map([], |row| row.get::<_, String>(0))? {
        let line = line?;
        if line != "ok" {
            out.push(Difference::Damaged { detail: line });
        }
    }
    let mut statement = connection.prepare("PRAGMA foreign_key_check")?;
    let dangling = statement.query_map([], |row| {
        Ok(Difference::Dangling {
            table: row.get(0)?,
            row: row.get::<_, Option<i64>>(1)?.unwrap_or(0),
            refers_to: row.get(2)?,
        })
    })?;
    for difference in dangling {
        out.push(difference?);
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::super::sqlite::Sqlite;
    use super::super::{ActInfo, Cell, Store, act};
    use super::*;
    use crate::schema::{Column, Kind, TABLES};

    const fn column(name: &'static str, since: u32) -> Column {
        Column { since, ..Column::new(name, Kind::Text, since == 1, "") }
    }

    const fn table(columns: &'static [Column]) -> Table {
        let key: &[&str] = &["name"];
        Table { name: "pump", key, index: &[], from_files: true, about: "", columns }
    }

    #[test]
    fn a_file_of_the_first_schema_is_brought_up_to_date() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("old.limpid");
        let today = folder.path().join("today.limpid");
        let backend = Box::new(Sqlite::create(&today, current_version()).unwrap());
        let mut store = Store::over(backend, today.clone());
        let info = ActInfo {
            kind: "entry".into(),
            author: "Ann".into(),
            at: "2026-01-01".into(),
            body: serde_json::Value::Null,
        };
        let ann = |act: &mut act::Act| act.insert("person", &["Ann".into(), Cell::Null]);
        let (_, head) = store.act(&info, ann).unwrap();
        drop(store);
        // What an old file holds: its rows in the tables of the first version, and no others.
        drop(Sqlite::create(&path, 1).unwrap());
        let old = Connection::open(&path).unwrap();
        old.execute("ATTACH ?1 AS today", [today.to_str().unwrap()]).unwrap();
        for table in ["event", "person"] {
            old.execute(&format!("INSERT INTO {table} SELECT * FROM today.{table}"), []).unwrap();
        }
        assert_eq!(old.pragma_query_value(None, "user_version", |row| row.get::<_, u32>(0)).unwrap(), 1);
        drop(old);
        let views = |path| {
            let connection = Connection::open(path).unwrap();
            let sentence = "SELECT count(*) FROM sqlite_master WHERE type = 'view'";
            connection.query_row(sentence, [], |row| row.get::<_, u32>(0)).unwrap()
        };
        assert_eq!(views(&path), 0);
        // Where it cannot be written it stays as it is, and can be compared and copied all the same.
        let as_it_is = Store::over(Box::new(Sqlite::open_as_it_is(&path).unwrap()), path.clone());
        assert_eq!(as_it_is.verify(Some(head)).unwrap().differences, []);
        as_it_is.backup(folder.path().join("copy.limpid")).unwrap();
        drop(as_it_is);
        let new = Store::open(&path).unwrap();
        assert_eq!(new.schema_version().unwrap(), current_version());
        assert_eq!(new.verify(Some(head)).unwrap().differences, []);
        assert_eq!(new.persons().unwrap().len(), 1);
        drop(new);
        assert_eq!(views(&path), 5);
    }

    #[test]
    fn a_later_column_is_added_and_an_upgraded_file_is_as_a_new_one() {
        static FIRST: [Column; 1] = [column("name", 1)];
        static LATER: [Column; 2] = [column("name", 1), column("maker", 2)];
        // The views of version 2 speak of the record's own tables.
        let rest = || TABLES.iter().copied();
        let now: Vec<Table> = rest().chain([table(&LATER)]).collect();
        let before: Vec<Table> = rest().chain([table(&FIRST)]).collect();
        let mut upgraded = Connection::open_in_memory().unwrap();
        migrate(&mut upgraded, &before, 1).unwrap();
        upgraded.execute("INSERT INTO pump (event, name) VALUES (1, 'old')", []).unwrap();
        migrate(&mut upgraded, &now, 2).unwrap();
        let read = "SELECT maker FROM pump WHERE name = 'old'";
        let maker: Option<String> = upgraded.query_row(read, [], |row| row.get(0)).unwrap();
        assert_eq!(maker, None);
        assert_eq!(check(&upgraded, &now).unwrap(), []);
        assert_ne!(check(&upgraded, &before).unwrap(), []);
    }

    #[test]
    fn the_sentences_of_every_version_are_what_they_always_were() {
        // What makes the tables of a programme, in a file and on a server: a file of last year is as a new one. The
        // digests are of the versions to 6, as the program wrote them before columns declared their units.
        let pinned = [
            (Dialect::Sqlite, "4087e3927774f33002387cb92cf628422767f0f1f36d2a179c09f14e0f72e448"),
            (Dialect::Postgres, "6886700c49bb12f8add2f69b9cf824cd302ddff23a1828e9c8a90690ccbbcefc"),
        ];
        for (dialect, expected) in pinned {
            let mut hash = blake3::Hasher::new();
            for (version, _) in &VERSIONS[..6] {
                for sentence in sentences(TABLES, *version, dialect) {
                    hash.update(sentence.as_bytes()).update(b";\n");
                }
            }
            assert_eq!(hash.finalize().to_hex().as_str(), expected, "{dialect:?}");
        }
    }

    #[test]
    fn versions_count_up_by_one_and_every_column_belongs_to_one() {
        for (expected, (version, _)) in (1..).zip(VERSIONS) {
            assert_eq!(*version, expected);
        }
        for table in TABLES {
            for column in table.columns {
                assert!((1..=current_version()).contains(&column.since));
                assert!(!column.required || column.since == table.since(), "{}", column.name);
            }
            assert!(table.columns.len() <= act::MOST_COLUMNS);
        }
    }
}
