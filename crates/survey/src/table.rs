//! The tables of a survey: files and folders of CSV or Parquet, one row a result, all of one shape.
//!
//! Folders named `key=value` give each row below them a column `key`. A file whose columns or types differ from the first
//! is refused by name before anything is read. CSV cells stay text until [`crate::functions::scalar::CELL`] reads them:
//! a station number keeps its zeros.

use crate::error::Error;
use datafusion::arrow::datatypes::{DataType, Field, Schema, SchemaRef};
use datafusion::parquet::arrow::arrow_reader::ParquetRecordBatchReaderBuilder;
use datafusion::prelude::{CsvReadOptions, DataFrame, ParquetReadOptions, SessionContext, lit};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{Read as _, Seek as _, SeekFrom};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::UNIX_EPOCH;
use url::Url;

/// How a file is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Format {
    /// Comma-separated, with a heading.
    Csv,
    /// Parquet.
    Parquet,
}

/// One file of a table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// Where it is.
    pub path: PathBuf,
    /// Columns that its folders name, with the value for all its rows.
    pub folders: Vec<(String, String)>,
    /// Bytes.
    pub bytes: u64,
    /// Rows, by the footer of a Parquet file; of text guessed from its bytes.
    pub rows: u64,
    /// Last change, ns since 1970.
    pub changed_ns: u64,
    /// BLAKE3 of its first and last 64 KiB: heading, or the footer with all row groups' statistics.
    pub digest: String,
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// How its files are written.
    pub format: Format,
    /// Its files, in order of their paths.
    pub parts: Vec<Part>,
    /// Columns of the files.
    pub schema: SchemaRef,
    /// Files in the folders that are no tables.
    pub passed_over: Vec<PathBuf>,
}

/// Bytes of a row of text where nothing is known of it: those of a long table of results.
const ROW_BYTES: u64 = 50;

impl Table {
    /// A table of files and folders.
    ///
    /// # Errors
    /// [`Error::Input`]: nothing there, two formats, a file of another shape than the first; [`Error::File`].
    pub fn open(paths: &[PathBuf]) -> Result<Self, Error> {
        let (mut parts, mut passed_over) = (vec![], vec![]);
        for named in paths {
            let path = fs::canonicalize(named).map_err(Error::file(named))?;
            let before = parts.len();
            collect(&path, &mut vec![], &mut parts, &mut passed_over)?;
            if parts.len() == before {
                let found = if path.is_dir() { "no table in it" } else { "another ending" };
                return Err(Error::input(named.display().to_string(), found, "files that end in .csv or .parquet"));
            }
        }
        parts.sort_by(|a: &Part, b| a.path.cmp(&b.path));
        parts.dedup_by(|a, b| a.path == b.path);
        let Some(first) = parts.first() else {
            return Err(Error::input("the tables", "none", "files or folders of CSV or Parquet"));
        };
        let format = format_of(&first.path).unwrap_or(Format::Csv);
        let (schema, _) = shape_of(&first.path, format)?;
        for part in &parts {
            if format_of(&part.path) != Some(format) {
                return Err(Error::input(
                    part.path.display().to_string(),
                    "another format",
                    format!("the one of {}", first.path.display()),
                ));
            }
            let names = |p: &Part| p.folders.iter().map(|f| f.0.clone()).collect::<Vec<_>>();
            if names(part) != names(first) {
                return Err(Error::input(
                    part.path.display().to_string(),
                    format!("folders for {}", names(part).join(", ")),
                    format!("folders for {} as at {}", names(first).join(", "), first.path.display()),
                ));
            }
            let (found, _) = shape_of(&part.path, format)?;
            same_shape(part, &found, first, &schema)?;
        }
        // A file that allows no empty cell is read as one that does: the rows of another may have some.
        let fields: Vec<Field> = schema.fields().iter().map(|f| f.as_ref().clone().with_nullable(true)).collect();
        let schema = Arc::new(Schema::new(fields));
        Ok(Self { format, parts, schema, passed_over })
    }

    /// Names of all columns, those of the folders last.
    pub fn columns(&self) -> Vec<String> {
        let folders = self.parts.iter().take(1).flat_map(|p| p.folders.iter().map(|f| f.0.clone()));
        self.schema.fields().iter().map(|f| f.name().clone()).chain(folders).collect()
    }

    /// Rows of all files.
    pub fn rows_about(&self) -> u64 {
        self.parts.iter().map(|p| p.rows).sum()
    }

    /// Rows of some of the files.
    ///
    /// # Errors
    /// The engine cannot read them.
    pub async fn rows(&self, session: &SessionContext, parts: &[Part]) -> Result<DataFrame, Error> {
        // One scan for all files of the same folders.
        let mut by_folders: BTreeMap<&[(String, String)], Vec<String>> = BTreeMap::new();
        for part in parts {
            by_folders.entry(&part.folders).or_default().push(address(&part.path)?);
        }
        let mut all: Option<DataFrame> = None;
        for (folders, files) in by_folders {
            let mut one = match self.format {
                Format::Csv => {
                    let options =
                        CsvReadOptions::new().schema(&self.schema).file_extension("").newlines_in_values(true);
                    session.read_csv(files, options).await?
                }
                Format::Parquet => {
                    let mut options = ParquetReadOptions::default().schema(&self.schema);
                    options.file_extension = "";
                    session.read_parquet(files, options).await?
                }
            };
            for (name, value) in folders {
                one = one.with_column(name, lit(value.clone()))?;
            }
            all = Some(match all {
                None => one,
                Some(before) => before.union(one)?,
            });
        }
        all.ok_or_else(|| Error::Engine("no file to read".into()))
    }

    /// What is wrong with a text file that the engine could not read, by file and line.
    pub fn fault(&self, parts: &[Part]) -> Option<Error> {
        if self.format != Format::Csv {
            return None;
        }
        parts.iter().find_map(|part| {
            let mut reader = csv::Reader::from_path(&part.path).ok()?;
            reader.records().find_map(Result::err).map(|e| {
                let place = |line: Option<u64>| match line {
                    Some(line) => format!("{}, line {line}", part.path.display()),
                    None => part.path.display().to_string(),
                };
                match e.kind() {
                    csv::ErrorKind::UnequalLengths { pos, expected_len, len } => Error::input(
                        place(pos.as_ref().map(csv::Position::line)),
                        format!("{len} cells"),
                        format!("{expected_len} as in the heading"),
                    ),
                    csv::ErrorKind::Utf8 { pos, err } => Error::input(
                        place(pos.as_ref().map(csv::Position::line)),
                        format!("bytes that are not UTF-8 in cell {}", err.field() + 1),
                        "text in UTF-8",
                    ),
                    _ => Error::input(place(None), e.to_string(), "a table in CSV"),
                }
            })
        })
    }
}

/// The address of a file for the engine; in a path, ? * and [ would be a pattern.
///
/// # Errors
/// [`Error::File`]: the path of this folder is not to be had.
pub fn address(path: &Path) -> Result<String, Error> {
    let whole = std::path::absolute(path).map_err(Error::file(path))?;
    let address = Url::from_file_path(&whole);
    address.map(String::from).map_err(|()| Error::Engine(format!("{} cannot be an address", path.display())))
}

fn extension(path: &Path) -> &str {
    path.extension().and_then(|e| e.to_str()).unwrap_or_default()
}

fn format_of(path: &Path) -> Option<Format> {
    match extension(path).to_ascii_lowercase().as_str() {
        "csv" => Some(Format::Csv),
        "parquet" => Some(Format::Parquet),
        _ => None,
    }
}

fn collect(
    path: &Path,
    folders: &mut Vec<(String, String)>,
    out: &mut Vec<Part>,
    passed_over: &mut Vec<PathBuf>,
) -> Result<(), Error> {
    let about = fs::metadata(path).map_err(Error::file(path))?;
    if about.is_file() {
        if let Some(format) = format_of(path) {
            // A link within a folder is the file that it leads to.
            let path = &fs::canonicalize(path).map_err(Error::file(path))?;
            let changed = about.modified().ok().and_then(|t| t.duration_since(UNIX_EPOCH).ok());
            out.push(Part {
                path: path.clone(),
                folders: folders.clone(),
                bytes: about.len(),
                rows: if about.len() == 0 { 0 } else { shape_of(path, format)?.1 },
                changed_ns: changed.map_or(0, |d| d.as_nanos() as u64),
                digest: digest(path, about.len())?,
            });
        } else {
            passed_over.push(path.to_path_buf());
        }
        return Ok(());
    }
    let mut entries =
        fs::read_dir(path).and_then(Iterator::collect::<std::io::Result<Vec<_>>>).map_err(Error::file(path))?;
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with(['.', '_']) {
            continue;
        }
        let named = entry.path().is_dir().then(|| name.split_once('=')).flatten();
        if let Some((key, value)) = named {
            folders.push((key.to_string(), value.to_string()));
        }
        collect(&entry.path(), folders, out, passed_over)?;
        if named.is_some() {
            folders.pop();
        }
    }
    Ok(())
}

/// The ends of a file that this many bytes long pieces cover.
const END: u64 = 64 * 1024;

fn digest(path: &Path, bytes: u64) -> Result<String, Error> {
    let mut file = File::open(path).map_err(Error::file(path))?;
    let mut hash = blake3::Hasher::new();
    let mut buffer = vec![];
    (&mut file).take(END).read_to_end(&mut buffer).map_err(Error::file(path))?;
    hash.update(&buffer);
    if bytes > END {
        file.seek(SeekFrom::Start(bytes - END.min(bytes))).map_err(Error::file(path))?;
        buffer.clear();
        file.read_to_end(&mut buffer).map_err(Error::file(path))?;
        hash.update(&buffer);
    }
    Ok(hash.finalize().to_hex().to_string())
}

/// Columns of a file, and its rows as far as they can be known without reading it.
fn shape_of(path: &Path, format: Format) -> Result<(SchemaRef, u64), Error> {
    let unreadable = |e: String, what: &str| Error::input(path.display().to_string(), e, what);
    match format {
        Format::Parquet => {
            let file = File::open(path).map_err(Error::file(path))?;
            let reader = ParquetRecordBatchReaderBuilder::try_new(file)
                .map_err(|e| unreadable(e.to_string(), "a Parquet file"))?;
            let rows = reader.metadata().file_metadata().num_rows().unsigned_abs();
            Ok((Arc::clone(reader.schema()), rows))
        }
        Format::Csv => {
            let bytes = fs::metadata(path).map_err(Error::file(path))?.len();
            let mut reader = csv::Reader::from_path(path).map_err(|e| unreadable(e.to_string(), "a table in CSV"))?;
            let heading = reader.headers().map_err(|e| unreadable(e.to_string(), "a heading in UTF-8"))?;
            if heading.is_empty() {
                return Err(unreadable("an empty file".into(), "a heading and rows"));
            }
            let name = |n: &str| n.trim_start_matches('\u{feff}').trim().to_string();
            let fields: Vec<Field> = heading.iter().map(|n| Field::new(name(n), DataType::Utf8, true)).collect();
            Ok((Arc::new(Schema::new(fields)), bytes / ROW_BYTES))
        }
    }
}

fn same_shape(part: &Part, schema: &Schema, first: &Part, wanted: &Schema) -> Result<(), Error> {
    let of = |s: &Schema| s.fields().iter().map(|f| (f.name().clone(), f.data_type().clone())).collect::<Vec<_>>();
    let (found, wanted) = (of(schema), of(wanted));
    let place = |column: &str| format!("{}, column {column}", part.path.display());
    for (k, (name, kind)) in wanted.iter().enumerate() {
        match found.get(k) {
            Some((n, t)) if n == name && t == kind => {}
            Some((n, t)) if n == name => {
                return Err(Error::input(
                    place(name),
                    format!("type {t}"),
                    format!("type {kind} as in {}", first.path.display()),
                ));
            }
            other => {
                let there = other.map_or_else(|| "nothing".to_string(), |o| format!("column {}", o.0));
                return Err(Error::input(place(name), there, format!("the columns of {}", first.path.display())));
            }
        }
    }
    match found.get(wanted.len()) {
        None => Ok(()),
        Some((extra, _)) => {
            Err(Error::input(place(extra), "one column more", format!("the columns of {}", first.path.display())))
        }
    }
}
