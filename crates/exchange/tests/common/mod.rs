//! A programme with rows in every table, made from the declared schema.
#![allow(dead_code, reason = "each test file uses its part")]

use proptest::prelude::*;
use record::schema::{Column, Kind, TABLES, Table};
use record::store::{Act, ActInfo, Cell, RawFileIn, Store, StoreError};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

pub fn folder() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().to_path_buf();
    (folder, path)
}

pub fn info(kind: &str) -> ActInfo {
    ActInfo {
        kind: kind.into(),
        author: "=A. Tester, \"Dr\"".into(),
        at: "2026-07-01T10:00:00+02:00".into(),
        body: serde_json::json!({"why": "'tëst\r\n", "number": 0.1}),
    }
}

/// What the rows are filled with.
#[derive(Debug, Clone)]
pub struct Awkward {
    pub texts: Vec<String>,
    pub numbers: Vec<f64>,
    pub file: Vec<u8>,
    /// Each round adds rows with other names.
    pub round: i64,
    /// Newest version of the schema whose tables and columns are filled.
    pub schema: u32,
}

impl Default for Awkward {
    fn default() -> Self {
        let texts = [
            "",
            "'",
            "''",
            "=1+1",
            "+1",
            "-1",
            "@SUM(A1)",
            "\t=x",
            "\r",
            "\n",
            "a,b",
            "\"",
            "'\"\r\n\"'",
            " lead ",
            "NULL",
            "0012",
            "1E5",
            "µg/L ≤ ½ 水",
            "\u{feff}bom",
            "＝1",
            "a\u{2028}b",
            "a\rb",
            "true",
            "NaN",
            "\\",
        ];
        let numbers =
            [0.1, -0.0, 5e-324, f64::MAX, f64::MIN_POSITIVE, -1.5, 1e21, 1e-7, 9_007_199_254_740_993.0, 1.0 / 3.0];
        Self {
            texts: texts.map(String::from).to_vec(),
            numbers: numbers.to_vec(),
            file: b"sample,Pb\nSL-2,1.04\n\0\xff".to_vec(),
            round: 0,
            schema: u32::MAX,
        }
    }
}

/// Texts that a CSV file, a spreadsheet or a careless reader gets wrong.
pub fn texts() -> impl Strategy<Value = Vec<String>> {
    prop::collection::vec("([=+@'\t\r\n\",;-]|\\PC){0,10}", 1..20)
}

/// Calls for values one after the other.
struct Source<'a> {
    from: &'a Awkward,
    n: usize,
}

impl Source<'_> {
    fn text(&mut self) -> String {
        self.n += 1;
        let texts = &self.from.texts;
        // The store keeps no zero character.
        texts[self.n % texts.len()].replace('\0', "")
    }

    fn number(&mut self) -> f64 {
        self.n += 1;
        self.from.numbers[self.n % self.from.numbers.len()]
    }
}

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

/// Rows of each table in a round.
const ROWS: i64 = 3;

/// Adds rows to every table: the first with the required columns, the others with all.
pub fn fill(store: &mut Store, with: &Awkward) {
    let mut source = Source { from: with, n: 0 };
    store
        .act(&info("entry"), |act| {
            for table in TABLES.iter().filter(|t| t.since() <= with.schema) {
                for n in 0..ROWS {
                    row(act, table, with.round * ROWS + n, &mut source)?;
                }
            }
            Ok::<_, StoreError>(())
        })
        .unwrap();
}

fn row(act: &mut Act, table: &Table, n: i64, source: &mut Source) -> Result<(), StoreError> {
    match table.name {
        "mapping" | "recipe" => {
            let (name, toml) = (format!("{n}{}", source.text()), source.text());
            act.keep_text(table.name, &name, &toml)?;
        }
        "raw_file" => {
            let name = format!("{n}{}", source.text());
            keep(act, &name, &[source.from.file.as_slice(), name.as_bytes()].concat())?;
        }
        // The bytes come with their file.
        "raw_part" => {}
        _ => {
            let cells: Vec<_> = table.columns.iter().map(|c| value(table, c, n, source)).collect();
            let cells: Vec<_> = cells.iter().map(Owned::cell).collect();
            act.insert(table.name, &cells)?;
        }
    }
    Ok(())
}

pub fn keep(act: &mut Act, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
    let hash = *blake3::hash(bytes).as_bytes();
    let file = RawFileIn { name, hash, size: bytes.len() as u64, mapping: 1, rows: Some(1) };
    act.keep_file(&file, bytes).map(|_| ())
}

fn value(table: &Table, column: &Column, n: i64, source: &mut Source) -> Owned {
    // A result says a value or a limit, or it is none.
    let always = table.name == "result" && matches!(column.name, "value" | "limit_value");
    if (n % ROWS == 0 && !column.required && !always) || column.since > source.from.schema {
        return Owned::Null;
    }
    let mut named = || if table.key.contains(&column.name) { format!("{n}{}", source.text()) } else { source.text() };
    match column.kind {
        Kind::Word(words) => Owned::Text(words[n as usize % words.len()].into()),
        Kind::Integer if column.name == "excluded" => Owned::Integer(1),
        Kind::Integer => Owned::Integer(n),
        // A row refers to an earlier row of its own table.
        Kind::Row(other) if other == table.name => Owned::Integer(n.max(1)),
        Kind::Row(_) => Owned::Integer(n + 1),
        Kind::Real => Owned::Real(source.number()),
        Kind::Json if table.name == "derivation" => {
            Owned::Text("{\"method\":\"=x\",\"sources\":[],\"nodes\":[]}".into())
        }
        Kind::Json => Owned::Text("[]".into()),
        Kind::Blob => Owned::Blob((0..32).map(|i| (n + i) as u8).collect()),
        Kind::Unit => Owned::Text("ng/L".into()),
        Kind::Text if column.name == "stage" => Owned::Text("well".into()),
        Kind::Text | Kind::Time => Owned::Text(named()),
    }
}

/// All rows of a table, exactly.
pub fn dumped(store: &Store, table: &str) -> Vec<String> {
    let mut out = vec![];
    store
        .dump(table, |id, event, cells| {
            let bits = |c: &Cell| if let Cell::Real(x) = c { format!("{:x}", x.to_bits()) } else { format!("{c:?}") };
            out.push(format!("{id} {event} {:?}", cells.iter().map(bits).collect::<Vec<_>>()));
            Ok(())
        })
        .unwrap();
    out
}

/// Paths and bytes of all files under a folder.
pub fn files_of(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut out = BTreeMap::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(at) = open.pop() {
        for entry in std::fs::read_dir(at).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_string_lossy().into_owned();
                out.insert(name, std::fs::read(path).unwrap());
            }
        }
    }
    out
}
