//! Rows that a person typed, read by the importer itself: they are laid out as a text table with the
//! record's own headings and go the way of every file, so that typing and importing accept and
//! refuse the same things in the same words. Called by `crate::entry`.

use super::fault::{Collector, Fault, fault, quoted};
use super::mapping::Mapping;
use super::names::{Agreed, Manner, Naming};
use super::plan::{Around, Plan, Value};
use super::rows::Rows;
use super::text::{Record, TextReader};
use super::write::{Writer, take_table};
use super::{FileTaken, StoreError};
use message::{Message, expected, found};
use quantity::Finding;
use record::bounds::ActTime;
use record::schema::{self, Kind, Table};
use record::store::Act;
use std::collections::BTreeMap;
use std::io::Cursor;

/// A fault of one typed row, or what is worth a second look in it.
pub(crate) struct TypedFault {
    /// Place of the row.
    pub row: usize,
    pub column: Option<String>,
    pub says: Message,
}

/// What came of typed rows.
#[derive(Default)]
pub struct Taken {
    pub added: BTreeMap<&'static str, u64>,
    pub already: u64,
    pub faults: Vec<TypedFault>,
    /// What is worth a second look in rows that were taken.
    pub notes: Vec<TypedFault>,
}

/// Rows as RFC 4180 text with a row of headings.
fn as_text(columns: &[&str], rows: &[Vec<String>]) -> String {
    let line = |cells: Vec<String>| cells.join(",") + "\n";
    let cell = |text: &String| format!("\"{}\"", text.replace('"', "\"\""));
    let mut out = line(columns.iter().map(|c| (*c).to_string()).collect());
    for row in rows {
        out += &line(row.iter().map(cell).collect());
    }
    out
}

/// Takes rows of one table; `columns` are all of its columns.
pub fn take(
    act: &mut Act,
    mapping: &Mapping,
    table: &'static Table,
    columns: &[&str],
    rows: &[Vec<String>],
) -> Result<Taken, StoreError> {
    let mut out = Collector::new("", false);
    let mut taken = FileTaken::default();
    let outside = |source| StoreError::Io { doing: "reading", path: "what was typed".into(), source };
    let headings: Vec<String> = columns.iter().map(|c| (*c).to_string()).collect();
    let text = as_text(columns, rows);
    match TextReader::new(Box::new(Cursor::new(text.into_bytes())), Some(b',')).map_err(outside)? {
        Err(text_fault) => out.text_fault(&text_fault, &headings),
        Ok(reader) => {
            let mut rows = Rows::text(reader);
            if let Some((headings, row)) = rows.headings(&mapping.file, &mut out).map_err(outside)? {
                let around = Around { stem: "typed", header_row: Some(row), act: ActTime::of(act.acted_at()) };
                let plan = Plan::bind(mapping, around, &headings, &mut out);
                let nothing = Agreed::default();
                let mut names = Naming::new(&nothing, Manner::Typed);
                let mut writer = Writer::new(act, &mut taken, &mut names, false);
                take_table(&mut writer, mapping, &plan, &mut rows, table, &mut out).map_err(outside)??;
            }
        }
    }
    out.faults.sort();
    let notes = out.take_notes().into_iter().map(at_its_row).collect();
    let faults = out.faults.shown.into_iter().map(at_its_row).collect();
    Ok(Taken { added: taken.added, already: taken.already, faults, notes })
}

/// A finding at the place of its row among those typed.
fn at_its_row(f: Finding) -> TypedFault {
    let place = f.place.unwrap_or_default();
    // Row 1 holds the headings.
    let row = place.row.unwrap_or(2).saturating_sub(2);
    let says = f.message.expect("a fault is said as a message");
    TypedFault { row: usize::try_from(row).unwrap_or(0), column: place.column, says }
}

/// One value as its column takes it, as text; nothing for an empty one. `act_at` is the time of the act for which it
/// is typed, where it is for one.
///
/// # Errors
/// What was found and what was expected.
pub fn value(
    (mapping, table): (&Mapping, &'static Table),
    act_at: &str,
    column: &str,
    text: &str,
) -> Result<Option<String>, Fault> {
    let headings: Vec<String> = table.columns.iter().map(|c| c.name.to_string()).collect();
    let mut out = Collector::new("", false);
    let around = Around { stem: "typed", header_row: Some(1), act: ActTime::of(act_at) };
    let plan = Plan::bind(mapping, around, &headings, &mut out);
    let mut record = Record::default();
    record.clear(2);
    for c in table.columns {
        record.push(if c.name == column { text.as_bytes() } else { b"" });
    }
    let field = plan
        .field(&format!("{}.{column}", table.name))
        .ok_or_else(|| fault(found::Column { column: column.into() }, expected::ColumnOfRecord))?;
    Ok(match field.value(&record, mapping)? {
        Value::Null => None,
        Value::Text(t) | Value::Name(t) => Some(t),
        Value::Integer(i) => Some(i.to_string()),
        Value::Real(x) => Some(x.to_string()),
    })
}

/// A value as an amendment keeps it: the number of the row where the column refers to one.
///
/// # Errors
/// The store fails. Within: what was found and expected, where nothing has that name.
pub(crate) fn referred(
    act: &mut Act,
    table: &'static Table,
    column: &str,
    text: &str,
) -> Result<Result<String, Fault>, StoreError> {
    let Some(Kind::Row(other)) = table.columns.iter().find(|c| c.name == column).map(|c| c.kind) else {
        return Ok(Ok(text.to_string()));
    };
    let other = schema::table(other).expect("the record refers to its own tables");
    let mut taken = FileTaken::default();
    let nothing = Agreed::default();
    let mut names = Naming::new(&nothing, Manner::Typed);
    let mut writer = Writer::new(act, &mut taken, &mut names, false);
    if let Some(id) = writer.referred(other, text)? {
        return Ok(Ok(id.to_string()));
    }
    let says = writer.absent(other, text)?;
    // Who types brings no files.
    let typed = || {
        fault(
            found::Row { table: other.name.into(), row: quoted(text) },
            expected::RowKnown { one: super::words::one_of(other) },
        )
    };
    Ok(Err(if says.expected.is::<expected::RowNearest>() { says } else { typed() }))
}
