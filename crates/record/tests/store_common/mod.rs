//! What the store's tests share: a programme with rows in every table.
#![allow(dead_code, reason = "each test file uses its part")]

use record::schema::{Column, Kind, TABLES, Table};
use record::store::{Act, ActInfo, Cell, RawFileIn, Store, StoreError};
use std::path::PathBuf;

pub mod cluster;
pub mod proxy;

use std::cell::Cell as Slot;

thread_local! { static ON_SERVER: Slot<bool> = const { Slot::new(false) }; }

/// Makes two tests of each function: one with programmes in files, one with programmes on a
/// server. The function takes its addresses from [`folder`] and [`another`].
#[macro_export]
macro_rules! on_both {
    ($($name:ident),+ $(,)?) => {
        mod in_a_file { $( #[test] fn $name() { super::$name(); } )+ }
        mod on_a_server { $( #[test] fn $name() { $crate::store_common::on_server(super::$name); } )+ }
    };
}

/// Runs a test with programmes on a server.
pub fn on_server(test: fn()) {
    ON_SERVER.set(true);
    test();
    ON_SERVER.set(false);
}

pub fn is_on_server() -> bool {
    ON_SERVER.get()
}

/// A folder that goes away, and the address of a programme that is not there yet.
pub fn folder() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = another(&folder, "programme");
    (folder, path)
}

/// The address of one more programme that is not there yet.
pub fn another(folder: &tempfile::TempDir, name: &str) -> PathBuf {
    if is_on_server() { cluster::Cluster::shared().address() } else { folder.path().join(format!("{name}.limpid")) }
}

pub fn info(kind: &str) -> ActInfo {
    ActInfo {
        kind: kind.into(),
        author: "A. Tester".into(),
        at: "2026-07-01T10:00:00".into(),
        body: serde_json::json!({"why": "test", "number": 0.1}),
    }
}

/// A value of the kind, different for each `n`.
enum Owned {
    Null,
    Integer(i64),
    Real(f64),
    Text(String),
    Blob(Vec<u8>),
}

impl Owned {
    fn cell(&self) -> Cell<'_> {
        match self {
            Self::Null => Cell::Null,
            Self::Integer(i) => Cell::Integer(*i),
            Self::Real(x) => Cell::Real(*x),
            Self::Text(t) => Cell::Text(t),
            Self::Blob(b) => Cell::Blob(b),
        }
    }
}

fn value(table: &Table, column: &Column, n: i64) -> Owned {
    if n % 2 == 0 && !column.required {
        return Owned::Null;
    }
    match column.kind {
        Kind::Word(words) => Owned::Text(words[n as usize % words.len()].into()),
        Kind::Integer if column.name == "excluded" => Owned::Integer(1),
        Kind::Integer => Owned::Integer(n),
        // A row refers to an earlier row of its own table.
        Kind::Row(other) if other == table.name => Owned::Integer(n),
        Kind::Row(_) => Owned::Integer(n + 1),
        Kind::Real => Owned::Real(n as f64 + 0.1),
        Kind::Json => Owned::Text("[]".into()),
        Kind::Blob => Owned::Blob(vec![n as u8; 32]),
        Kind::Text if column.name == "stage" => Owned::Text("well".into()),
        Kind::Text | Kind::Time | Kind::Unit => Owned::Text(format!("{}.{}.{n}", table.name, column.name)),
    }
}

/// Two rows in every table: the first with the required columns, the second with all.
pub fn fill(store: &mut Store) {
    store
        .act(&info("entry"), |act| {
            for table in TABLES {
                for n in 0..2 {
                    row(act, table, n)?;
                }
            }
            Ok::<_, StoreError>(())
        })
        .unwrap();
}

fn row(act: &mut Act, table: &Table, n: i64) -> Result<(), StoreError> {
    let name = format!("{}-{n}", table.name);
    match table.name {
        "mapping" | "recipe" => {
            act.keep_text(table.name, &name, "unit = \"ng/L\"")?;
        }
        "raw_file" => keep(act, &name, b"sample,Pb\nSL-2,1.04\n", n + 1)?,
        // The bytes come with their file.
        "raw_part" => {}
        _ => {
            let cells: Vec<_> = table.columns.iter().map(|c| value(table, c, n)).collect();
            let cells: Vec<_> = cells.iter().map(Owned::cell).collect();
            act.insert(table.name, &cells)?;
        }
    }
    Ok(())
}

pub fn keep(act: &mut Act, name: &str, bytes: &[u8], mapping: i64) -> Result<(), StoreError> {
    let file =
        RawFileIn { name, hash: *blake3::hash(bytes).as_bytes(), size: bytes.len() as u64, mapping, rows: Some(1) };
    act.keep_file(&file, bytes).map(|_| ())
}
