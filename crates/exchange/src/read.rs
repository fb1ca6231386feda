//! Reads a package back into a programme of its own, with nothing lost: the same rows and numbers, the
//! same raw files, the same event chain and head hash.
//!
//! In order: the package's own form and schema version; every file against its BLAKE3 sum; every heading
//! against the schema; every cell against its column; every row against the digest in the chain of
//! events (`record::store::Rebuild`). The first thing that is wrong is named, and nothing is kept.
//! Tables for people, Parquet, descriptions and documents are not read: they are made again from the record that came
//! back, and compared byte for byte (module `compare`).

use crate::compare::{self, Stated};
use crate::folder::{self, BLAKE3SUMS, SHA256SUMS, listed};
use crate::{Error, FORMAT, Options, RECORD, cell, describe, nodes, whole_record};
use assessment::engine::DERIVED_BY;
use assessment::witnesses::{self, Asked, Witnesses};
use csv::StringRecord;
use record::schema::{Kind, TABLES, Table};
use record::store::{Cell, EventHash, Rebuild, Store, StoreError, VERSIONS};
use serde_json::Value;
use std::collections::{BTreeMap, HashMap};
use std::fs::{self, File};
use std::io::Read as _;
use std::path::{Component, Path};

/// What was read back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadBack {
    /// Events of the chain.
    pub events: u64,
    /// Rows of all tables.
    pub rows: u64,
    /// Raw files.
    pub files: u64,
    /// Hash of the last event.
    pub head: String,
    /// What stands for every byte of the package ([`folder::seal`]).
    pub seal: String,
    /// Where another version of the program, form or schema wrote the package: which.
    pub written_by: Option<String>,
    /// What this version makes otherwise of the record then.
    pub otherwise: Vec<String>,
}

/// Makes the programme `store` from the package in `folder`.
///
/// # Errors
/// What is wrong with the package, by file, row and column; something is at `store` already; the disk
/// refuses. Nothing is left at `store` then.
pub fn read(folder: &Path, store: impl AsRef<Path>) -> Result<ReadBack, Error> {
    let place = store.as_ref().to_path_buf();
    let package = Package::open(folder)?;
    let (sums, changed) = package.check_sums()?;
    package.no_other_files()?;
    let taken = package.take(&place, &sums);
    let Some(changed) = changed else { return taken };
    // A sum says which file; what the record says of it tells the row.
    if let Err(e) = taken {
        return Err(changed.found_at(&e));
    }
    remove(&place);
    Err(changed)
}

/// Reads a package as [`read`] does and keeps nothing of it. A hash noted elsewhere is one that its chain has to hold, or
/// its seal. Signatures, anchors and moments travel in the record: what they say is said as of a programme, and faults
/// among them are no error here.
///
/// # Errors
/// What is wrong with the package, by file, row and column; [`Error::Noted`]; the disk refuses.
pub fn verify(folder: &Path, asked: &Asked) -> Result<(ReadBack, Witnesses), Error> {
    let beside = std::env::temp_dir().join(format!("limpid-verify-{}", std::process::id()));
    fs::create_dir_all(&beside).map_err(Error::io("making the folder", &beside))?;
    let at = beside.join("programme.sqlite");
    let found = read(folder, &at).and_then(|back| {
        let store = Store::open(&at)?;
        let there = |noted: EventHash| Ok::<_, Error>(store.events()?.iter().any(|e| e.hash == noted));
        match asked.noted {
            Some(noted) if noted.to_string() != back.seal && !there(noted)? => {
                Err(Error::Noted { noted: noted.to_string(), found: back.head, seal: back.seal })
            }
            // Rows and events are what the chain says, else nothing had come back.
            _ => Ok((back, witnesses::look(&store, asked, true)?)),
        }
    });
    let _ = fs::remove_dir_all(&beside);
    found
}

/// Takes away a programme that is not to be kept, with what the database lays beside it.
fn remove(store: &Path) {
    for end in ["", "-wal", "-shm", "-journal"] {
        let mut name = store.as_os_str().to_owned();
        name.push(end);
        let _ = fs::remove_file(name);
    }
}

/// A package on disk.
struct Package<'a> {
    folder: &'a Path,
    format: u64,
    schema: u32,
    engine: String,
    stated: Options,
    head: String,
    seal: String,
    sums: Sums,
}

/// Sum of each file.
type Sums = BTreeMap<String, String>;

impl<'a> Package<'a> {
    /// Makes the programme, and compares every other file with what its record makes; nothing is left where one differs.
    fn take(&self, place: &Path, found: &Sums) -> Result<ReadBack, Error> {
        let (files, verification) = Store::rebuild(place, |to| {
            self.events(to)?;
            for table in TABLES {
                self.table(table, to)?;
            }
            Ok::<u64, Error>(self.raw_files()?.len() as u64)
        })?;
        let head = verification.head.map_or_else(String::new, |h| h.to_string());
        let written_by = self.another_version();
        let otherwise = match self.against(place, found, written_by.is_some()) {
            Ok(differences) => differences.iter().map(Error::as_difference).collect(),
            Err(e) => {
                remove(place);
                return Err(e);
            }
        };
        let (events, rows) = (verification.events, verification.rows);
        Ok(ReadBack { events, rows, files, head, seal: self.seal.clone(), written_by, otherwise })
    }

    fn open(folder: &'a Path) -> Result<Self, Error> {
        let not = |why: &str| Error::NotAPackage { path: folder.into(), why: why.into() };
        let path = folder.join(describe::DATA_PACKAGE);
        let text = fs::read_to_string(&path).map_err(|e| match e.kind() {
            std::io::ErrorKind::NotFound => not("it has no datapackage.json"),
            _ => Error::io("reading", &path)(e),
        })?;
        let about: Value =
            serde_json::from_str(&text).map_err(|e| not(&format!("datapackage.json is no JSON: {e}")))?;
        let number = |name: &str| about["limpid"][name].as_u64();
        let (Some(format), Some(schema)) = (number("format"), number("schema")) else {
            return Err(not("its datapackage.json says no form and schema version of a Limpid record"));
        };
        let known = u64::from(VERSIONS.last().map_or(0, |v| v.0));
        for (what, found, known) in [("form", format, FORMAT), ("schema version", schema, known)] {
            if found > known {
                return Err(Error::Newer { what, found, known });
            }
        }
        let path = folder.join(BLAKE3SUMS);
        let text = fs::read_to_string(&path).map_err(|_| Error::Missing { file: BLAKE3SUMS.into() })?;
        let sums = listed(&text).map(|(sum, path)| (path.to_owned(), sum.to_owned())).collect();
        let head = about["limpid"]["head"].as_str().unwrap_or_default().to_owned();
        let engine = about["limpid"]["engine"].as_str().unwrap_or_default().to_owned();
        let stated = describe::stated(&about);
        let seal = folder::seal(text.as_bytes());
        // Not above the newest known, so it fits.
        Ok(Self { folder, format, schema: schema as u32, engine, stated, head, seal, sums })
    }

    /// What wrote the package, where that was not this version of the program.
    fn another_version(&self) -> Option<String> {
        let newest = VERSIONS.last().map_or(0, |v| v.0);
        let this = self.format == FORMAT && self.schema == newest && self.engine == DERIVED_BY;
        (!this).then(|| format!("engine {:?}, form {}, schema {}", self.engine, self.format, self.schema))
    }

    /// What is derived against the record that was read back to `store`.
    fn against(&self, store: &Path, sums: &Sums, of_another: bool) -> Result<Vec<Error>, Error> {
        let mut beside = store.as_os_str().to_owned();
        beside.push(".compared");
        let stated = Stated { folder: self.folder, sums, options: &self.stated };
        let mut out = compare::differing(&Store::open(store)?, Path::new(&beside), &stated, of_another)?;
        if of_another || out.is_empty() { Ok(out) } else { Err(out.swap_remove(0)) }
    }

    /// Nothing may lie beside what the sums list: a second file of results would be taken for the first.
    fn no_other_files(&self) -> Result<(), Error> {
        let found = folder::paths(self.folder).map_err(Error::io("reading the folder", self.folder))?;
        let known = |f: &String| self.sums.contains_key(f) || [BLAKE3SUMS, SHA256SUMS].contains(&f.as_str());
        match found.into_iter().find(|f| !known(f) && !f.contains("__pycache__/")) {
            None => Ok(()),
            Some(file) => Err(Error::Shape { file, what: "no list of sums names it: a file too many".into() }),
        }
    }

    /// Every listed file against its sum; every table of the record against what the schema has. Answers the sums found
    /// and the first file that was changed.
    fn check_sums(&self) -> Result<(Sums, Option<Error>), Error> {
        let (mut buffer, mut sums, mut changed) = (vec![0; 1 << 18], Sums::new(), None);
        for (file, listed) in &self.sums {
            let shape = |what: &str| Error::Shape { file: file.clone(), what: what.into() };
            // A package may come from anybody: a path with `..` or a root would read files outside of it.
            if !Path::new(file).components().all(|c| matches!(c, Component::Normal(_))) {
                return Err(shape("a path that leads out of the package"));
            }
            if let Some(name) = file.strip_prefix(&format!("{RECORD}/")) {
                // What no table takes would be left behind unsaid, and the programme would not be the same.
                let known = |n: &str| ["event", nodes::TABLE].contains(&n) || TABLES.iter().any(|t| t.name == n);
                if !name.strip_suffix(".csv").is_some_and(known) {
                    return Err(shape("the record has no such table"));
                }
            }
            let path = self.folder.join(file);
            let mut from = File::open(&path).map_err(|e| match e.kind() {
                std::io::ErrorKind::NotFound => Error::Missing { file: file.clone() },
                _ => Error::io("reading", &path)(e),
            })?;
            let mut hasher = blake3::Hasher::new();
            loop {
                let n = from.read(&mut buffer).map_err(Error::io("reading", &path))?;
                if n == 0 {
                    break;
                }
                hasher.update(&buffer[..n]);
            }
            let found = hasher.finalize().to_hex().to_string();
            if &found != listed && changed.is_none() {
                let how = if crate::compare::is_table(file) {
                    form(&fs::read(&path).unwrap_or_default())
                } else {
                    String::new()
                };
                let found = found.clone();
                changed = Some(Error::Changed { file: file.clone(), how, found, listed: listed.clone() });
            }
            sums.insert(file.clone(), found);
        }
        Ok((sums, changed))
    }

    /// A file of the package that its list of sums names.
    fn listed_file(&self, file: &str) -> Result<File, Error> {
        if !self.sums.contains_key(file) {
            return Err(Error::Missing { file: file.into() });
        }
        let path = self.folder.join(file);
        File::open(&path).map_err(Error::io("reading", &path))
    }

    fn rows(&self, file: &str, headings: &[&str]) -> Result<csv::Reader<File>, Error> {
        let mut reader = csv::ReaderBuilder::new().buffer_capacity(1 << 18).from_reader(self.listed_file(file)?);
        let found = reader.headers().map_err(|e| unreadable(file, &e))?;
        let shape = |what: String| Err(Error::Shape { file: file.into(), what });
        if let Some(unknown) = found.iter().find(|h| !headings.contains(h)) {
            return shape(format!("column \"{unknown}\" is not known"));
        }
        if let Some(missing) = headings.iter().find(|h| !found.iter().any(|f| f == **h)) {
            return shape(format!("column \"{missing}\" is missing"));
        }
        if found != headings {
            return shape(format!("the columns stand in another order than {}", headings.join(", ")));
        }
        Ok(reader)
    }

    fn events(&self, to: &mut Rebuild) -> Result<(), Error> {
        let file = whole_record::path("event");
        let mut reader = self.rows(&file, &["id", "body", "hash"])?;
        let (mut row, mut n, mut head) = (StringRecord::new(), 0, String::new());
        while reader.read_record(&mut row).map_err(|e| unreadable(&file, &e))? {
            n += 1;
            let at = At { file: &file, row: n };
            let id = at.whole("id", &row[0])?;
            let body = cell::undefused(&row[1]).ok_or_else(|| at.cell("body", &row[1], "JSON"))?;
            let hash = cell::hex(&row[2]).ok_or_else(|| at.cell("hash", &row[2], "hexadecimal digits"))?;
            to.event(id, body, &hash).map_err(|e| at.refused(e))?;
            row[2].clone_into(&mut head);
        }
        if head == self.head {
            return Ok(());
        }
        Err(Error::Head { named: self.head.clone(), found: head })
    }

    /// The rows of a table; none where the package is older than the table.
    fn table(&self, table: &'static Table, to: &mut Rebuild) -> Result<(), Error> {
        if table.since() > self.schema {
            return Ok(());
        }
        let file = whole_record::path(table.name);
        let headings = whole_record::headings(table, self.schema);
        let mut reader = self.rows(&file, &headings)?;
        let mut raw = if table.name == "raw_part" { Some(Parts::of(self.raw_files()?)) } else { None };
        // Before form 3 every derivation stood whole.
        let apart = self.format > 2 && (0..table.columns.len()).any(|place| whole_record::has_nodes(table, place));
        let nodes = if apart { self.nodes()? } else { vec![] };
        let (mut row, mut n) = (StringRecord::new(), 0);
        while reader.read_record(&mut row).map_err(|e| unreadable(&file, &e))? {
            n += 1;
            let at = At { file: &file, row: n };
            let mut body = None;
            if apart {
                let place = 2 + table.columns.iter().position(|c| c.name == "body").unwrap_or_default();
                let text = cell::undefused(&row[place]).unwrap_or_default();
                let whole = nodes::whole(text, &nodes);
                body = Some(whole.ok_or_else(|| at.cell("body", text, "numbers of rows of derivation_node"))?);
            }
            let bytes = self.bytes_of(table, &row, at, raw.as_mut())?;
            let mut cells = vec![Cell::Null; table.columns.len()];
            for (place, column) in table.columns.iter().enumerate().filter(|(_, c)| c.since <= self.schema) {
                let found = &row[place + 2];
                cells[place] = match (bytes.iter().find(|b| b.0 == place), &body) {
                    (Some((_, bytes)), _) => Cell::Blob(bytes),
                    (None, Some(body)) if whole_record::has_nodes(table, place) => Cell::Text(body),
                    _ => cell::parse(column.kind, found)
                        .ok_or_else(|| at.cell(column.name, found, &whole_record::in_words(column.kind)))?,
                };
            }
            let (id, event) = (at.whole("id", &row[0])?, at.whole("event", &row[1])?);
            to.row(table.name, id, event, &cells).map_err(|e| at.refused(e))?;
        }
        Ok(())
    }

    /// The nodes of the derivations, in the order of their numbers.
    fn nodes(&self) -> Result<Vec<String>, Error> {
        let file = whole_record::path(nodes::TABLE);
        let mut reader = self.rows(&file, &["id", "node"])?;
        let (mut row, mut out) = (StringRecord::new(), vec![]);
        while reader.read_record(&mut row).map_err(|e| unreadable(&file, &e))? {
            let at = At { file: &file, row: out.len() as u64 + 1 };
            if usize::try_from(at.whole("id", &row[0])?) != Ok(out.len() + 1) {
                return Err(at.cell("id", &row[0], "numbers that count up from 1"));
            }
            out.push(cell::undefused(&row[1]).unwrap_or_default().to_owned());
        }
        Ok(out)
    }

    /// The bytes in a row, from its cells or from files beside it: place of the column, bytes.
    fn bytes_of(
        &self,
        table: &'static Table,
        row: &StringRecord,
        at: At,
        mut raw: Option<&mut Parts>,
    ) -> Result<Vec<(usize, Vec<u8>)>, Error> {
        let mut out = vec![];
        for (place, column) in table.columns.iter().enumerate() {
            let found = row.get(place + 2).unwrap_or_default();
            // An older package has no such column yet.
            if column.kind != Kind::Blob || column.since > self.schema || found.is_empty() {
                continue;
            }
            let bytes = match raw.as_mut() {
                Some(parts) if whole_record::is_raw_bytes(table, place) => parts.next(self, row, at)?,
                _ if found.starts_with(whole_record::BYTES) => {
                    let path = whole_record::bytes_path(table.name, column.name, at.whole("id", &row[0])?);
                    // The path follows from table, column and row; another could be of a different row.
                    if found != path {
                        return Err(at.cell(column.name, found, &path));
                    }
                    let mut bytes = vec![];
                    let mut from = self.listed_file(&path)?;
                    from.read_to_end(&mut bytes).map_err(Error::io("reading", self.folder.join(&path)))?;
                    bytes
                }
                _ => cell::hex(found).ok_or_else(|| at.cell(column.name, found, "hexadecimal digits"))?,
            };
            out.push((place, bytes));
        }
        Ok(out)
    }

    /// Path of each raw file by its row, and whether the table says the same.
    fn raw_files(&self) -> Result<HashMap<i64, String>, Error> {
        let file = whole_record::path("raw_file");
        let table = TABLES.iter().find(|t| t.name == "raw_file");
        let headings = table.map_or_else(Vec::new, |t| whole_record::headings(t, self.schema));
        let name_at = headings.iter().position(|h| *h == "name").unwrap_or_default();
        let mut reader = self.rows(&file, &headings)?;
        let (mut row, mut n, mut out) = (StringRecord::new(), 0, HashMap::new());
        while reader.read_record(&mut row).map_err(|e| unreadable(&file, &e))? {
            n += 1;
            let at = At { file: &file, row: n };
            let id = at.whole("id", &row[0])?;
            let path = whole_record::raw_path(id, cell::undefused(&row[name_at]).unwrap_or_default());
            if row[headings.len() - 1] != path {
                return Err(at.cell("path", &row[headings.len() - 1], &path));
            }
            out.insert(id, path);
        }
        Ok(out)
    }
}

/// The raw files while their parts are read in order.
struct Parts {
    paths: HashMap<i64, String>,
    open: Option<(i64, File)>,
    begun: Vec<i64>,
}

impl Parts {
    fn of(paths: HashMap<i64, String>) -> Self {
        Self { paths, open: None, begun: vec![] }
    }

    /// The bytes of the part that a row of `raw_part` describes.
    fn next(&mut self, package: &Package, row: &StringRecord, at: At) -> Result<Vec<u8>, Error> {
        let file = at.whole("raw_file", &row[2])?;
        let size = at.whole("size", &row[4])?;
        let size = u64::try_from(size).map_err(|_| at.cell("size", &row[4], "a number of bytes"))?;
        let path = self.paths.get(&file).ok_or_else(|| at.cell("raw_file", &row[2], "a row of raw_file"))?;
        if self.open.as_ref().is_none_or(|(open, _)| *open != file) {
            if self.begun.contains(&file) {
                return Err(at.cell("raw_file", &row[2], "the parts of a file one after the other"));
            }
            self.begun.push(file);
            self.open = Some((file, package.listed_file(path)?));
        }
        let (_, from) = self.open.as_mut().expect("opened above");
        let mut bytes = vec![];
        from.take(size).read_to_end(&mut bytes).map_err(Error::io("reading", package.folder.join(path)))?;
        if bytes.len() as u64 == size {
            return Ok(bytes);
        }
        Err(at.cell("size", &row[4], &format!("the {} bytes that {path} still has", bytes.len())))
    }
}

/// Where in a file.
#[derive(Clone, Copy)]
struct At<'a> {
    file: &'a str,
    row: u64,
}

impl At<'_> {
    fn cell(&self, column: &str, found: &str, expected: &str) -> Error {
        Error::Cell {
            file: self.file.into(),
            row: self.row,
            column: column.into(),
            found: format!("{:?}", found.chars().take(80).collect::<String>()),
            expected: expected.into(),
        }
    }

    fn whole(&self, column: &str, found: &str) -> Result<i64, Error> {
        found.parse().map_err(|_| self.cell(column, found, "whole number"))
    }

    fn refused(&self, why: StoreError) -> Error {
        match why {
            StoreError::Value { column, found, expected, .. } => {
                Error::Cell { file: self.file.into(), row: self.row, column: column.into(), found, expected }
            }
            // The disk or the database: no fault of the row.
            e @ (StoreError::Full { .. } | StoreError::Io { .. } | StoreError::Database { .. }) => e.into(),
            why => Error::Row { file: self.file.into(), row: self.row, why },
        }
    }
}

/// What of a table's form says that another program saved it: where, counted in rows under the heading.
fn form(bytes: &[u8]) -> String {
    let rows = |upto: usize| bytes[..upto].split(|b| *b == b'\n').count() - 1;
    if bytes.starts_with(b"\xef\xbb\xbf") {
        return ": row 0 begins with a byte order mark, another program saved it".into();
    }
    if let Err(e) = std::str::from_utf8(bytes) {
        return format!(": row {} is not UTF-8, another program saved it", rows(e.valid_up_to()));
    }
    match bytes.iter().position(|b| *b == b'\n') {
        Some(end) if end > 0 && bytes[end - 1] != b'\r' => {
            ": row 0 ends in a line feed without carriage return, another program saved it".into()
        }
        _ => String::new(),
    }
}

/// A table that is no CSV, or no UTF-8.
fn unreadable(file: &str, e: &csv::Error) -> Error {
    Error::Shape { file: file.into(), what: e.to_string() }
}
