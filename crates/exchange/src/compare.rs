//! A package against the one that its own record makes: tables for people, Parquet, descriptions, documents, programs
//! and the lists of sums, byte for byte.
//!
//! The chain covers the record. What is made from the record no chain covers, and it is what people read: so the
//! package is made again beside the programme that was read back, and what differs is named by file, and in a table by
//! row and column. Licence, publisher and identifiers of persons are not of the record: they are taken as the package
//! states them, in all places alike; against a change of these in all places only its seal helps, noted elsewhere.
//! A package of another form or version of the program may differ by right: then nothing is refused, and what differs
//! is told. Checked in `tests/damage.rs`.

use crate::folder::{BLAKE3SUMS, Folder, SHA256SUMS};
use crate::write::make;
use crate::{Error, Options, describe};
use record::store::Store;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// What a package says of itself that its record does not.
pub(crate) struct Stated<'a> {
    pub folder: &'a Path,
    /// Sum of each file.
    pub sums: &'a BTreeMap<String, String>,
    /// Licence, publisher, identifiers of persons.
    pub options: &'a Options,
}

/// The first file that the record makes otherwise, or all of them.
pub(crate) fn differing(store: &Store, beside: &Path, stated: &Stated, all: bool) -> Result<Vec<Error>, Error> {
    let folder = Folder::begin(beside)?;
    make(store, &folder, stated.options)?;
    let (made, mut out) = (folder.entries(), vec![]);
    let mut known: BTreeMap<&str, &str> = made.iter().map(|e| (e.path.as_str(), e.blake3.as_str())).collect();
    // What tells most comes first: a changed value is also another sum in every description.
    let rank = |path: &str| match path {
        describe::DATA_PACKAGE => 3,
        describe::RO_CRATE => 2,
        _ => u8::from(!is_table(path)),
    };
    let mut paths: Vec<&String> = stated.sums.keys().collect();
    paths.sort_by_key(|p| (rank(p), (*p).clone()));
    for path in paths {
        match known.remove(path.as_str()) {
            None => out.push(Error::Shape { file: path.clone(), what: "the record makes no such file".into() }),
            Some(sum) if stated.sums[path] == sum => {}
            Some(_) => {
                let [is, made] = [stated.folder, &folder.place("")].map(|at| fs::read(at.join(path)));
                let read = |r: std::io::Result<Vec<u8>>| r.map_err(Error::io("reading", stated.folder.join(path)));
                out.push(first_difference(path, &read(is)?, &read(made)?));
            }
        }
        if !all && !out.is_empty() {
            return Ok(out);
        }
    }
    out.extend(known.into_keys().map(|path| Error::Missing { file: path.into() }));
    for name in [SHA256SUMS, BLAKE3SUMS] {
        let is = fs::read(stated.folder.join(name)).map_err(|_| Error::Missing { file: name.into() })?;
        let made = folder.list_of_sums(name).into_bytes();
        if is != made {
            out.push(first_difference(name, &is, &made));
        }
    }
    Ok(out)
}

/// A table, by the end of its name as a package writes it.
pub(crate) fn is_table(file: &str) -> bool {
    file.rsplit_once('.').is_some_and(|(_, end)| end == "csv")
}

/// Where two texts differ first: in a table by row and column, else by line.
fn first_difference(file: &str, is: &[u8], made: &[u8]) -> Error {
    if is_table(file)
        && let Some(cell) = first_cell(file, is, made)
    {
        return cell;
    }
    let same = is.iter().zip(made).take_while(|(a, b)| a == b).count();
    if std::str::from_utf8(made).is_err() {
        return Error::Shape { file: file.into(), what: format!("byte {same} is not what the record makes") };
    }
    let line = 1 + is[..same].split(|b| *b == b'\n').count() - 1;
    let how = if is.starts_with(b"\xef\xbb\xbf") {
        ": it begins with a byte order mark, saved by another program"
    } else if is_table(file) && !is.windows(2).any(|w| w == b"\r\n") {
        ": its line ends are not CR LF"
    } else {
        ""
    };
    Error::Shape { file: file.into(), what: format!("line {line} is not what the record makes{how}") }
}

fn first_cell(file: &str, is: &[u8], made: &[u8]) -> Option<Error> {
    let rows =
        |bytes| csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes).into_byte_records();
    let mut made = rows(made);
    let mut headings: Option<csv::ByteRecord> = None;
    for (n, is) in (0_u64..).zip(rows(is)) {
        let (is, made) = (is.ok()?, made.next().transpose().ok()?.unwrap_or_default());
        if is != made {
            let place = is.iter().zip(&made).position(|(a, b)| a != b).unwrap_or(is.len().min(made.len()));
            let text = |b: Option<&[u8]>| {
                let text = b.map(|b| String::from_utf8_lossy(b).chars().take(80).collect::<String>());
                text.map_or_else(|| "nothing".into(), |t| format!("{t:?}"))
            };
            let column = headings.as_ref().and_then(|h| h.get(place)).map(|h| String::from_utf8_lossy(h).into_owned());
            return Some(Error::Cell {
                file: file.into(),
                row: n,
                column: column.unwrap_or_else(|| format!("{}", place + 1)),
                found: text(is.get(place)),
                expected: format!("{} as the record has it", text(made.get(place))),
            });
        }
        headings.get_or_insert(is);
    }
    made.next()
        .map(|_| Error::Shape { file: file.into(), what: "rows that the record has are missing at its end".into() })
}
