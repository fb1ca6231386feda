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
use std::fs::{self, File};
use std::io::{BufRead as _, BufReader, Read as _, Seek as _, SeekFrom};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::UNIX_EPOCH;

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
}

impl Table {
    /// A table of files and folders.
    ///
    /// # Errors
    /// [`Error::Input`]: nothing there, two formats, a file of another shape than the first; [`Error::File`].
    pub fn open(paths: &[PathBuf]) -> Result<Self, Error> {
        let mut parts = vec![];
        for path in paths {
            let path = fs::canonicalize(path).map_err(Error::file(path))?;
            collect(&path, &mut vec![], &mut parts)?;
        }
        parts.sort_by(|a: &Part, b| a.path.cmp(&b.path));
        parts.dedup();
        let Some(first) = parts.first() else {
            let place = paths.first().map_or_else(String::new, |p| p.display().to_string());
            return Err(Error::input(place, "no file that ends in .csv or .parquet", "a table"));
        };
        let format = format_of(&first.path).unwrap_or(Format::Csv);
        let schema = schema_of(&first.path, format)?;
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
            let found = schema_of(&part.path, format)?;
            same_shape(part, &found, first, &schema)?;
        }
        Ok(Self { format, parts, schema })
    }

    /// Names of all columns, those of the folders last.
    pub fn columns(&self) -> Vec<String> {
        let folders = self.parts.iter().take(1).flat_map(|p| p.folders.iter().map(|f| f.0.clone()));
        self.schema.fields().iter().map(|f| f.name().clone()).chain(folders).collect()
    }

    /// Bytes of all files.
    pub fn bytes(&self) -> u64 {
        self.parts.iter().map(|p| p.bytes).sum()
    }

    /// Rows of some of the files.
    ///
    /// # Errors
    /// The engine cannot read them.
    pub async fn rows(&self, session: &SessionContext, parts: &[Part]) -> Result<DataFrame, Error> {
        let mut all: Option<DataFrame> = None;
        for part in parts {
            let path = part.path.to_string_lossy().into_owned();
            let mut one = match self.format {
                Format::Csv => {
                    let options = CsvReadOptions::new().schema(&self.schema).file_extension(extension(&part.path));
                    session.read_csv(path, options).await?
                }
                Format::Parquet => {
                    let options = ParquetReadOptions::default().schema(&self.schema);
                    session.read_parquet(path, options).await?
                }
            };
            for (name, value) in &part.folders {
                one = one.with_column(name, lit(value.clone()))?;
            }
            all = Some(match all {
                None => one,
                Some(before) => before.union(one)?,
            });
        }
        all.ok_or_else(|| Error::Engine("no file to read".into()))
    }
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

fn collect(path: &Path, folders: &mut Vec<(String, String)>, out: &mut Vec<Part>) -> Result<(), Error> {
    let about = fs::metadata(path).map_err(Error::file(path))?;
    if about.is_file() {
        if format_of(path).is_some() {
            let changed = about.modified().ok().and_then(|t| t.duration_since(UNIX_EPOCH).ok());
            out.push(Part {
                path: path.to_path_buf(),
                folders: folders.clone(),
                bytes: about.len(),
                changed_ns: changed.map_or(0, |d| d.as_nanos() as u64),
                digest: digest(path, about.len())?,
            });
        }
        return Ok(());
    }
    for entry in fs::read_dir(path).map_err(Error::file(path))? {
        let entry = entry.map_err(Error::file(path))?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with(['.', '_']) {
            continue;
        }
        let named = entry.path().is_dir().then(|| name.split_once('=')).flatten();
        if let Some((key, value)) = named {
            folders.push((key.to_string(), value.to_string()));
        }
        collect(&entry.path(), folders, out)?;
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

fn schema_of(path: &Path, format: Format) -> Result<SchemaRef, Error> {
    let file = File::open(path).map_err(Error::file(path))?;
    match format {
        Format::Parquet => {
            let reader = ParquetRecordBatchReaderBuilder::try_new(file)
                .map_err(|e| Error::input(path.display().to_string(), e.to_string(), "a Parquet file"))?;
            Ok(Arc::clone(reader.schema()))
        }
        Format::Csv => {
            let mut heading = String::new();
            BufReader::new(file).read_line(&mut heading).map_err(Error::file(path))?;
            let heading = heading.trim_start_matches('\u{feff}').trim_end();
            let names = heading.split(',').map(|n| n.trim().trim_matches('"'));
            let fields: Vec<Field> = names.map(|n| Field::new(n, DataType::Utf8, true)).collect();
            if heading.is_empty() {
                return Err(Error::input(path.display().to_string(), "an empty file", "a heading and rows"));
            }
            Ok(Arc::new(Schema::new(fields)))
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
