//! What a person types: rows of the record entered on a screen or brought home on a field sheet,
//! and corrections of rows that are there.
//!
//! In: rows as text by table and column ([`TypedRow`]), who, when, why. Out: [`Entered`], or every
//! fault at its field ([`EntryFault`]: row, table, column, found, expected). The rows go through
//! the importer's own reading (its mappings with `headings = "own"`): the same words, units, dates, ranges
//! and references, and the same faults. All rows are one act with one event, or nothing is written.
//!
//! * A named row that is there with the same content is kept once; with other content it is a
//!   fault that says what stands there. A correction is [`correct`]: an amendment with a reason,
//!   refused where the value changed since the person saw it.
//! * Rows without a name (readings, fills, counts) are added each time they are entered: who sends
//!   the same form twice must be stopped before.
//! * What is taken and worth a second look (a pH of 12.9) comes back beside what was entered.
//! * What no derivation could use beside the rows that are there (`unfit`) is a fault too, also of a correction.
//!
//! What it does not do: it derives nothing; `work::recompute` follows where results may change.
//! Checked in `crates/programme/tests/entry.rs`.

use crate::import::fault::{Fault, fault, halves};
use crate::import::{Mapping, typed};
use crate::unfit;
use message::{Message, expected, found};
use record::by::{By, said};
use record::error::Error;
use record::schema::{self, Table};
use record::store::{Act, ActInfo, AmendmentIn, Cell, EventHash, Filter, Store, StoreError};
use serde_json::json;
use std::collections::BTreeMap;

/// One row as it was typed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct TypedRow {
    /// Table of the record.
    pub table: String,
    /// Column and text; an empty text is nothing. A reference is the name of the row.
    pub cells: Vec<(String, String)>,
}

impl TypedRow {
    /// A row of a table.
    pub fn of(table: &str) -> Self {
        Self { table: table.into(), cells: vec![] }
    }

    /// With a value.
    #[must_use]
    pub fn with(mut self, column: &str, text: impl Into<String>) -> Self {
        self.cells.push((column.into(), text.into()));
        self
    }
}

/// A fault of a typed row, at its field.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct EntryFault {
    /// Which row, from 0, in the order given.
    pub row: usize,
    /// Table.
    pub table: String,
    /// Column, where it is one column's.
    pub column: Option<String>,
    /// What stood there, and what could.
    pub says: Message,
}

impl EntryFault {
    /// Of the first row, at one of its columns.
    pub(crate) fn at(table: &str, column: &str, says: impl Into<Message>) -> Self {
        Self { row: 0, table: table.into(), column: Some(column.into()), says: says.into() }
    }

    /// What stood there, in English.
    pub fn found(&self) -> String {
        halves(&self.says).unwrap_or_default().0
    }

    /// What could, in English.
    pub fn expected(&self) -> String {
        halves(&self.says).unwrap_or_default().1
    }

    /// `bottle, label: found nothing, expected …`.
    pub fn in_words(&self) -> String {
        let column = self.column.as_deref().map_or(String::new(), |c| format!(", {c}"));
        format!("{}{column}: {}", self.table, self.says.in_english())
    }
}

/// Why nothing was entered.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum EntryError {
    /// Faults, field by field.
    #[error("nothing was entered: {}", .0.iter().map(EntryFault::in_words).collect::<Vec<_>>().join("; "))]
    Faults(Vec<EntryFault>),
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Something asked for is not there, or is not as needed.
    #[error(transparent)]
    Programme(#[from] Error),
}

/// What was entered.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Entered {
    /// Rows added, by table.
    pub added: BTreeMap<&'static str, u64>,
    /// Named rows that were there with the same content.
    pub already: u64,
    /// What is worth a second look in the rows, at its field: it stopped nothing.
    pub notes: Vec<EntryFault>,
    /// Hash of the event; none where nothing was new.
    pub head: Option<EventHash>,
}

/// Why an act of entry was dropped.
enum Dropped {
    Unchanged(Entered),
    Failed(EntryError),
}

impl From<StoreError> for Dropped {
    fn from(e: StoreError) -> Self {
        Self::Failed(e.into())
    }
}

/// Writes rows that a person typed: all of them in one act, or, on any fault, nothing. `why` says
/// what they are ("field sheet of the trip"); it may be empty.
///
/// # Errors
/// [`EntryError::Faults`] with every fault at its field; the store fails.
pub fn enter(store: &mut Store, by: By, why: &str, rows: &[TypedRow]) -> Result<Entered, EntryError> {
    let info = ActInfo {
        kind: "entry".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: if why.is_empty() { json!({}) } else { json!({ "why": why }) },
    };
    let outcome = store.act(&info, |act| {
        let (entered, faults) = enter_in(act, rows)?;
        if !faults.is_empty() {
            return Err(Dropped::Failed(EntryError::Faults(faults)));
        }
        if entered.added.is_empty() { Err(Dropped::Unchanged(entered)) } else { Ok(entered) }
    });
    match outcome {
        Ok((mut entered, head)) => {
            entered.head = Some(head);
            Ok(entered)
        }
        Err(Dropped::Unchanged(entered)) => Ok(entered),
        Err(Dropped::Failed(e)) => Err(e),
    }
}

/// What [`enter`] would say of these rows: what is worth a second look, and every fault. Nothing is written.
///
/// # Errors
/// The store fails.
pub fn look(store: &mut Store, by: By, rows: &[TypedRow]) -> Result<(Entered, Vec<EntryFault>), EntryError> {
    enum Looked {
        Seen(Entered, Vec<EntryFault>),
        Failed(StoreError),
    }
    impl From<StoreError> for Looked {
        fn from(e: StoreError) -> Self {
            Self::Failed(e)
        }
    }
    let info = ActInfo { kind: "entry".into(), author: by.person.into(), at: by.at.into(), body: json!({}) };
    let looked = store.act(&info, |act| {
        let (entered, faults) = enter_in(act, rows)?;
        // An act that ends in an error is dropped whole.
        Err::<(), _>(Looked::Seen(entered, faults))
    });
    match looked {
        Err(Looked::Seen(entered, faults)) => Ok((entered, faults)),
        Err(Looked::Failed(e)) => Err(e.into()),
        Ok(_) => Ok((Entered::default(), vec![])),
    }
}

/// As [`enter`], within an act that writes more than these rows. Where faults come back the
/// caller drops the act.
///
/// # Errors
/// The store fails.
pub fn enter_in(act: &mut Act, rows: &[TypedRow]) -> Result<(Entered, Vec<EntryFault>), StoreError> {
    let mut entered = Entered::default();
    let mut faults = vec![];
    let mut start = 0;
    while start < rows.len() {
        let name = &rows[start].table;
        let end = rows[start..].iter().position(|r| r.table != *name).map_or(rows.len(), |n| start + n);
        let group = &rows[start..end];
        if let Some((table, mapping)) = form(name) {
            take_group(act, (table, &mapping), start, group, &mut entered, &mut faults)?;
        } else {
            let says = fault(found::Table { table: name.into() }, expected::TablePeopleFill);
            faults.push(EntryFault { row: start, table: name.clone(), column: None, says: says.into() });
        }
        start = end;
    }
    Ok((entered, faults))
}

/// The table of that name with the mapping whose headings are its columns.
pub fn form(name: &str) -> Option<(&'static Table, Mapping)> {
    let table = schema::table(name).filter(|t| t.from_files)?;
    let toml = format!("name = \"entry\"\nabout = \"typed\"\ntarget = \"{name}\"\nheadings = \"own\"\n");
    Some((table, Mapping::parse(&toml).ok()?))
}

/// Takes rows of one table, `start` being the place of the first among all.
fn take_group(
    act: &mut Act,
    (table, mapping): (&'static Table, &Mapping),
    start: usize,
    group: &[TypedRow],
    entered: &mut Entered,
    faults: &mut Vec<EntryFault>,
) -> Result<(), StoreError> {
    let known = faults.len();
    // A column that the table lacks has no place among the cells below: what was typed there would be lost unsaid.
    for (n, row) in group.iter().enumerate() {
        for (column, _) in row.cells.iter().filter(|(c, _)| table.place(c).is_none()) {
            let fault = EntryFault::at(table.name, column, no_column(column));
            faults.push(EntryFault { row: start + n, ..fault });
        }
    }
    if faults.len() > known {
        return Ok(());
    }
    let columns: Vec<&str> = table.columns.iter().map(|c| c.name).collect();
    let cells = |row: &TypedRow| -> Vec<String> {
        let of = |c: &str| row.cells.iter().rfind(|(name, _)| name == c).map_or("", |(_, text)| text.trim());
        columns.iter().map(|c| of(c).to_string()).collect()
    };
    let rows: Vec<Vec<String>> = group.iter().map(cells).collect();
    let taken = typed::take(act, mapping, table, &columns, &rows)?;
    for (name, n) in taken.added {
        *entered.added.entry(name).or_insert(0) += n;
    }
    entered.already += taken.already;
    let at_its_field = |f: typed::TypedFault| EntryFault {
        row: start + f.row,
        table: table.name.into(),
        column: f.column,
        says: f.says,
    };
    entered.notes.extend(taken.notes.into_iter().map(at_its_field));
    faults.extend(taken.faults.into_iter().map(at_its_field));
    Ok(())
}

/// A column that the record does not have.
fn no_column(column: &str) -> Fault {
    fault(found::Column { column: column.into() }, expected::ColumnOfRecord)
}

/// One value to correct.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Correction<'a> {
    /// Column; not one of the row's name.
    pub column: &'a str,
    /// How it stood when the person saw it; where it reads otherwise now, the correction is
    /// refused. None: whatever it was.
    pub seen: Option<&'a str>,
    /// How it is read from now on; empty takes the value away.
    pub new: &'a str,
}

/// Corrects values of a row: amendments with a reason, in one act. A value that already reads as
/// wanted is passed over; where all do, nothing is written and none comes back.
///
/// # Errors
/// [`EntryError::Faults`] at the columns; a reason that says nothing; the store fails.
pub fn correct(
    store: &mut Store,
    by: By,
    why: &str,
    (table, row): (&str, i64),
    corrections: &[Correction],
) -> Result<Option<EventHash>, EntryError> {
    said(why)?;
    let (declared, mapping) = form(table).ok_or_else(|| StoreError::UnknownTable { table: table.into() })?;
    let present = present(store, table, row)?;
    let mut faults = vec![];
    let mut wanted: Vec<(&str, Option<String>)> = vec![];
    for c in corrections {
        let Some(place) = declared.place(c.column) else {
            faults.push(EntryFault::at(table, c.column, no_column(c.column)));
            continue;
        };
        let stands = present[place].as_str();
        // Before `seen` is asked: a form sent twice finds its own value there, which is no change by somebody else.
        if stands == c.new.trim() {
            continue;
        }
        if c.seen.is_some_and(|seen| seen != stands) {
            let found = found::ChangedMeanwhile { text: c.new.trim().into() };
            let says = fault(found, expected::Look { text: stands.into() });
            faults.push(EntryFault::at(table, c.column, says));
            continue;
        }
        match typed::value((&mapping, declared), by.at, c.column, c.new.trim()) {
            Ok(text) => wanted.push((c.column, text)),
            Err(why) => faults.push(EntryFault::at(table, c.column, why)),
        }
    }
    if !faults.is_empty() {
        return Err(EntryError::Faults(faults));
    }
    if wanted.is_empty() {
        return Ok(None);
    }
    let info = ActInfo {
        kind: "correction".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "table": table, "row": row, "why": why }),
    };
    let ((), head) = store.act::<_, EntryError>(&info, |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        for (column, text) in &wanted {
            let new = match text {
                Some(text) => Some(name_to_row(act, declared, column, text)?),
                None => None,
            };
            act.amend(&AmendmentIn { table, row, column, new: new.as_deref(), why, person: Some(person) })?;
        }
        // Only after amending: the corrected row is looked at beside the others as all would then stand.
        let unfit = unfit::among(act, table, &[row].into())?;
        if unfit.is_empty() { Ok(()) } else { Err(EntryError::Faults(unfit.into_iter().map(at_its_column).collect())) }
    })?;
    Ok(Some(head))
}

/// A corrected row that cannot be beside the others.
fn at_its_column(u: unfit::Unfit) -> EntryFault {
    EntryFault::at(u.table, u.column, u.says)
}

/// A value as an amendment keeps it.
fn name_to_row(act: &mut Act, table: &'static Table, column: &str, text: &str) -> Result<String, EntryError> {
    typed::referred(act, table, column, text)?
        .map_err(|why| EntryError::Faults(vec![EntryFault::at(table.name, column, why)]))
}

/// The columns of a row as they read now, as a person would type them: amendments applied,
/// references by name.
///
/// # Errors
/// There is no such row; the store cannot be read.
pub fn present(store: &Store, table: &str, row: i64) -> Result<Vec<String>, StoreError> {
    let mut rows = store.as_typed(table, &Filter::all().is("id", row))?;
    let gone = || StoreError::NoRow { table: schema::table(table).map_or("row", |t| t.name), key: row.to_string() };
    rows.pop().map(|(_, cells)| cells).ok_or_else(gone)
}
