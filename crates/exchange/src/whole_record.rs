//! The record whole: each table of the schema as it was written, a file `record/TABLE.csv`, and the
//! event chain as `record/event.csv`. From these alone, and the raw files, [`read`](mod@crate::read)
//! makes the same programme again.
//!
//! A row has `id` and `event` (the act that wrote it), then the declared columns. A reference is the
//! `id` of a row of another table. Amendments are rows, not applied here (they are in the tables for
//! people). The bytes of raw files stand in `raw/`, not in cells: `raw_part` has their `size` instead,
//! `raw_file` a `path`. Other bytes of more than 64 stand in `bytes/`. Nodes of derivations stand once for all in
//! `record/derivation_node.csv` (`nodes`).

use crate::folder::{Folder, Sink};
use crate::nodes::Apart;
use crate::{Error, RAW, RECORD, cell};
use record::schema::{Kind, TABLES, Table};
use record::store::{Cell, Store, StoreError};
use std::fmt::Write as _;

/// Folder of bytes too many for a cell.
pub const BYTES: &str = "bytes";

/// Bytes of CSV gathered before they go to the file.
const GATHER: usize = 1 << 16;

/// Path of a table in the package.
pub fn path(table: &str) -> String {
    format!("{RECORD}/{table}.csv")
}

/// Path of a raw file in the package: its row, and what of its name any system can hold.
pub fn raw_path(id: i64, name: &str) -> String {
    let kept = |c: char| if c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_') { c } else { '_' };
    let safe: String = name.chars().take(80).map(kept).collect();
    format!("{RAW}/{id:04}-{safe}")
}

/// Path of bytes too many for a cell.
pub fn bytes_path(table: &str, column: &str, id: i64) -> String {
    format!("{BYTES}/{table}-{column}-{id}")
}

/// UCUM code of bytes, which stand in place of the bytes themselves.
pub const UNIT_OF_BYTES: &str = "By";

/// Whether a column holds the bytes of raw files, which stand in files of their own.
pub fn is_raw_bytes(table: &Table, column: usize) -> bool {
    table.name == "raw_part" && table.columns[column].name == "bytes"
}

/// Whether a column holds the bodies of derivations, whose nodes stand in a table of their own.
pub fn has_nodes(table: &Table, column: usize) -> bool {
    table.name == "derivation" && table.columns[column].name == "body"
}

/// Headings of a table's file: those of the schema up to `version`.
pub fn headings(table: &Table, version: u32) -> Vec<&'static str> {
    let mut out = vec!["id", "event"];
    for (place, column) in table.columns.iter().enumerate().filter(|(_, c)| c.since <= version) {
        out.push(if is_raw_bytes(table, place) { "size" } else { column.name });
    }
    if table.name == "raw_file" {
        out.push("path");
    }
    out
}

/// Writes every table, the event chain and the raw files; answers how many rows. Every row is looked at on its way: what
/// was altered from outside is an error, and nothing leaves the house.
///
/// # Errors
/// The store cannot be read or is not what was written; the folder cannot be written.
pub fn write(store: &Store, folder: &Folder) -> Result<u64, Error> {
    let events = events(store, folder)?;
    let nodes = Apart::begin(folder)?;
    let mut files = Files { folder, open: None, next: 0, out: vec![], rows: events, nodes };
    let mut failed = None;
    let dumped = store.dump_as_written(&mut |table, id, event, cells| {
        files.row(table, (id, event, cells)).map_err(|e| {
            failed = Some(e);
            StoreError::UnknownTable { table: table.name.into() }
        })
    });
    // What failed in here is told, not what stopped the reading.
    if let Some(e) = failed {
        return Err(e);
    }
    dumped?;
    files.upto(None)?;
    let Files { nodes, rows, .. } = files;
    nodes.end(folder)?;
    for file in store.raw_files()? {
        let mut sink = folder.file(&raw_path(file.id, &file.name))?;
        store.write_raw_file(file.id, &mut sink)?;
        let about = format!("Raw file “{}”, as it came; read by the mapping {}.", file.name, file.mapping);
        folder.keep(sink, media_type(&file.name), about)?;
    }
    Ok(rows)
}

/// The files of the tables, begun and ended in the order of the schema.
struct Files<'a> {
    folder: &'a Folder,
    open: Option<(&'static Table, Sink)>,
    /// Place of the table after the one that is open.
    next: usize,
    out: Vec<u8>,
    rows: u64,
    nodes: Apart,
}

impl Files<'_> {
    /// Ends files until that of a table is open; without one, all.
    fn upto(&mut self, table: Option<&'static Table>) -> Result<(), Error> {
        while self.open.as_ref().map(|o| o.0.name) != table.map(|t| t.name) || table.is_none() {
            if let Some((of, mut sink)) = self.open.take() {
                sink.all(&self.out)?;
                self.out.clear();
                self.folder.keep(sink, "text/csv", of.about)?;
            }
            let Some(next) = TABLES.get(self.next) else { break };
            self.next += 1;
            let version = record::store::VERSIONS.last().map_or(0, |v| v.0);
            self.out.extend(headings(next, version).join(",").into_bytes());
            self.out.extend(b"\r\n");
            self.open = Some((next, self.folder.file(&path(next.name))?));
        }
        Ok(())
    }

    fn row(&mut self, table: &'static Table, cells: (i64, i64, &[Cell])) -> Result<(), Error> {
        self.upto(Some(table))?;
        self.rows += 1;
        row(&mut self.out, (self.folder, &mut self.nodes), table, cells)?;
        if let Some((_, sink)) = self.open.as_mut().filter(|_| self.out.len() > GATHER) {
            sink.all(&self.out)?;
            self.out.clear();
        }
        Ok(())
    }
}

fn events(store: &Store, folder: &Folder) -> Result<u64, Error> {
    let mut sink = folder.file(&path("event"))?;
    let (mut out, mut rows) = (b"id,body,hash\r\n".to_vec(), 0);
    store.each_event(|id, body, hash| {
        rows += 1;
        cell::push_whole(&mut out, id);
        out.push(b',');
        cell::push_text(&mut out, body);
        out.push(b',');
        cell::push_hex(&mut out, hash);
        out.extend(b"\r\n");
        Ok(())
    })?;
    sink.all(&out)?;
    folder.keep(sink, "text/csv", "The event chain: one row an act, its canonical JSON and its BLAKE3 hash.")?;
    Ok(rows)
}

fn row(
    out: &mut Vec<u8>,
    (folder, nodes): (&Folder, &mut Apart),
    table: &'static Table,
    (id, event, cells): (i64, i64, &[Cell]),
) -> Result<(), Error> {
    cell::push_whole(out, id);
    out.push(b',');
    cell::push_whole(out, event);
    for (place, (column, value)) in table.columns.iter().zip(cells).enumerate() {
        out.push(b',');
        match (column.kind, value) {
            (_, Cell::Blob(bytes)) if is_raw_bytes(table, place) => {
                cell::push_whole(out, bytes.len().try_into().unwrap_or(i64::MAX));
            }
            (Kind::Blob, Cell::Blob(bytes)) if bytes.len() > cell::HEX_BYTES => {
                let path = bytes_path(table.name, column.name, id);
                let about = format!("Bytes of {}, row {id}, column {}.", table.name, column.name);
                folder.put(&path, bytes, "application/octet-stream", about)?;
                cell::push_text(out, &path);
            }
            // Such a cell is damaged: written as hexadecimal digits it would come back as a sound text.
            (kind, Cell::Blob(_)) if kind != Kind::Blob => {
                let (table, row, column) = (table.name, id, column.name);
                let (found, expected) = ("bytes that are no text".into(), "text");
                return Err(StoreError::Stored { table, row, column, found, expected }.into());
            }
            (_, Cell::Text(body)) if has_nodes(table, place) => cell::push_text(out, &nodes.short(body)?),
            _ => cell::push(out, value),
        }
    }
    if let ("raw_file", Some(Cell::Text(name))) = (table.name, cells.first()) {
        out.push(b',');
        cell::push_text(out, &raw_path(id, name));
    }
    out.extend(b"\r\n");
    Ok(())
}

/// Media type of a raw file, by the ending of its name.
pub fn media_type(name: &str) -> &'static str {
    let ending = name.rsplit_once('.').map_or(String::new(), |(_, e)| e.to_ascii_lowercase());
    match ending.as_str() {
        "csv" => "text/csv",
        "tsv" | "txt" => "text/plain",
        "json" => "application/json",
        "xml" => "application/xml",
        "xlsx" => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        "ods" => "application/vnd.oasis.opendocument.spreadsheet",
        "pdf" => "application/pdf",
        "jpg" | "jpeg" => "image/jpeg",
        "png" => "image/png",
        _ => "application/octet-stream",
    }
}

/// What a column holds, in words, for the dictionary.
pub fn in_words(kind: Kind) -> String {
    match kind {
        Kind::Text => "text".into(),
        Kind::Word(words) => words.join(", ").split(", ").fold(String::new(), |mut out, w| {
            let _ = write!(out, "{}`{w}`", if out.is_empty() { "" } else { ", " });
            out
        }),
        Kind::Integer => "whole number".into(),
        Kind::Real => "number".into(),
        Kind::Time => "date or time, ISO 8601".into(),
        Kind::Unit => "unit, UCUM".into(),
        Kind::Json => "JSON".into(),
        Kind::Blob => "bytes, hexadecimal".into(),
        Kind::Row(other) => format!("row of {other}"),
    }
}
