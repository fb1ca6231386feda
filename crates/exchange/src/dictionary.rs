//! The data dictionary: every table and column of a package, from the same declarations that write it.
//! As Markdown for the guide, and as a table in the package.

use crate::folder::Folder;
use crate::tables::{Readable, RowOut as _};
use crate::{Error, describe, nodes, tables, whole_record};
use record::schema::{TABLES, UnitOf};
use std::fmt::Write as _;

/// The dictionary as a table of the package.
pub const DICTIONARY: Readable = Readable {
    name: "data-dictionary",
    key: "",
    about: "Every table and column of this package and what it means.",
    fields: &[
        tables::Field::text("file", "Path in the package").always(),
        tables::Field::text("column", "Column").always(),
        tables::Field::text("holds", "What it holds").always(),
        tables::Field::text("unit", "UCUM code, or the column that holds it in brackets"),
        tables::Field::text("required", "yes, where every row has it").always(),
        tables::Field::text("about", "What it means").always(),
    ],
    refers: &[],
};

/// One column.
struct Line {
    column: String,
    holds: String,
    unit: String,
    required: bool,
    about: String,
}

/// One file: path, what it holds, columns.
type Part = (String, &'static str, Vec<Line>);

fn parts() -> Vec<Part> {
    let readable = describe::READABLE.iter().map(|t| (format!("{}.csv", t.name), t.about, readable(t)));
    let event = ("event", "Every act: canonical JSON, chained by hash.");
    let chain = [
        ("id", "whole number", "Row"),
        ("body", "JSON", "The act"),
        ("hash", "bytes, hexadecimal", "BLAKE3 of the hash before and the body"),
    ];
    let line = |(column, holds, about): (&str, &str, &str)| Line {
        column: column.into(),
        holds: holds.into(),
        unit: String::new(),
        required: true,
        about: about.into(),
    };
    let chain = (whole_record::path(event.0), event.1, chain.map(line).into());
    let nodes = [
        ("id", "whole number", "Number that stands for it in `nodes` of `record/derivation.csv`, `body`"),
        ("node", "JSON", "Name, amount, inputs (places among the nodes of its derivation, from 0), formula"),
    ];
    let nodes = (whole_record::path(nodes::TABLE), nodes::ABOUT, nodes.map(line).into());
    let record = TABLES.iter().map(|t| (whole_record::path(t.name), t.about, of_record(t)));
    let steps =
        crate::steps::DECLARED.iter().map(|(path, about, columns)| ((*path).to_owned(), *about, of_steps(columns)));
    readable.chain(steps).chain([chain, nodes]).chain(record).collect()
}

fn of_steps(columns: &[(&str, columns::Kind, &str)]) -> Vec<Line> {
    let line = |(name, kind, about): &(&str, columns::Kind, &str)| Line {
        column: (*name).into(),
        holds: kind_in_words(*kind).into(),
        unit: String::new(),
        required: false,
        about: (*about).into(),
    };
    columns.iter().map(line).collect()
}

fn kind_in_words(kind: columns::Kind) -> &'static str {
    match kind {
        columns::Kind::Text => "text",
        columns::Kind::Whole => "whole number",
        columns::Kind::Number => "number",
    }
}

fn readable(table: &Readable) -> Vec<Line> {
    let words = |f: &tables::Field| match (f.kind, f.words) {
        (_, words @ [_, ..]) => words.iter().map(|w| format!("`{w}`")).collect::<Vec<_>>().join(", "),
        (kind, _) => kind_in_words(kind).into(),
    };
    let line = |f: &tables::Field| Line {
        column: f.name.into(),
        holds: words(f),
        unit: if f.unit_from.is_empty() { f.unit.into() } else { format!("({})", f.unit_from) },
        required: f.required,
        about: f.about.into(),
    };
    table.fields.iter().map(line).collect()
}

fn of_record(table: &'static record::schema::Table) -> Vec<Line> {
    let mut out = vec![];
    for (place, column) in table.columns.iter().enumerate() {
        let unit = match column.unit {
            UnitOf::Fixed(unit) => unit.ucum.to_owned(),
            UnitOf::Column(name) => format!("({name})"),
            UnitOf::None => String::new(),
        };
        let (name, holds, unit) = if whole_record::is_raw_bytes(table, place) {
            ("size", "whole number: the bytes stand in raw/".to_owned(), whole_record::UNIT_OF_BYTES.to_owned())
        } else {
            (column.name, whole_record::in_words(column.kind), unit)
        };
        out.push(Line { column: name.into(), holds, unit, required: column.required, about: column.about.into() });
    }
    out
}

/// The dictionary as Markdown: a heading and a table for each file.
pub fn markdown() -> String {
    let mut out = String::new();
    for (path, about, lines) in parts() {
        let _ = write!(out, "\n### `{path}`\n\n{about}\n\n| column | holds | unit | about |\n|---|---|---|---|\n");
        for l in lines {
            let name = if l.required { format!("**{}**", l.column) } else { l.column };
            let about = l.about.replace('|', "\\|");
            let _ = writeln!(out, "| {name} | {} | {} | {about} |", l.holds.replace('|', "\\|"), l.unit);
        }
    }
    out
}

/// Writes it into a package.
///
/// # Errors
/// The folder cannot be written.
pub fn write(folder: &Folder) -> Result<(), Error> {
    let mut out = tables::Csv::begin(folder, &DICTIONARY)?;
    for (path, _, lines) in parts() {
        for l in lines {
            out.text(path.as_str())?;
            out.text(l.column.as_str())?;
            out.text(l.holds.replace('`', "").as_str())?;
            out.text(Some(l.unit.as_str()).filter(|u| !u.is_empty()))?;
            out.text(if l.required { "yes" } else { "no" })?;
            out.text(l.about.as_str())?;
            out.end()?;
        }
    }
    out.end_table(folder, &DICTIONARY)
}
