//! The tables for people: names instead of row numbers, amendments applied, the newest revision of
//! each result. What their columns are is declared once, for the CSV, the Table Schema, the Parquet
//! file and the dictionary.

use crate::folder::{Folder, Sink};
use crate::{Error, cell};
use assessment::assess::shown;
use columns::{Kind, Value};
use record::store::{Filter, RowRead, Store, StoreError, Typed};
use record::words::VerdictWord;
use std::collections::HashMap;
use std::sync::Arc;

/// A column of a table for people.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Name.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// UCUM code of its unit; empty where it has none, or where it stands in another column.
    pub unit: &'static str,
    /// Column that holds its unit; empty where it has none.
    pub unit_from: &'static str,
    /// The words it may hold; empty: any.
    pub words: &'static [&'static str],
    /// Whether every row has it.
    pub required: bool,
    /// What it means.
    pub about: &'static str,
}

impl Field {
    const fn new(name: &'static str, kind: Kind, about: &'static str) -> Self {
        Self { name, kind, unit: "", unit_from: "", words: &[], required: false, about }
    }

    /// Text.
    pub const fn text(name: &'static str, about: &'static str) -> Self {
        Self::new(name, Kind::Text, about)
    }

    /// One of a few words.
    pub const fn word(name: &'static str, words: &'static [&'static str], about: &'static str) -> Self {
        Self { words, ..Self::new(name, Kind::Text, about) }
    }

    /// A whole number.
    pub const fn whole(name: &'static str, about: &'static str) -> Self {
        Self::new(name, Kind::Whole, about)
    }

    /// A number in a fixed unit, or of none.
    pub const fn number(name: &'static str, unit: &'static str, about: &'static str) -> Self {
        Self { unit, ..Self::new(name, Kind::Number, about) }
    }

    /// A number in the unit that stands beside it, in `unit_ucum`.
    pub const fn in_unit(name: &'static str, about: &'static str) -> Self {
        Self { unit_from: "unit_ucum", ..Self::new(name, Kind::Number, about) }
    }

    /// The same, in every row.
    #[must_use]
    pub const fn always(mut self) -> Self {
        self.required = true;
        self
    }
}

/// A table for people.
#[derive(Debug, Clone, Copy)]
pub struct Readable {
    /// Name; the file is called so.
    pub name: &'static str,
    /// Column that names a row.
    pub key: &'static str,
    /// What it holds.
    pub about: &'static str,
    /// Columns.
    pub fields: &'static [Field],
    /// Column that names a row of another such table: column, table, its column.
    pub refers: &'static [(&'static str, &'static str, &'static str)],
}

/// Findings.
pub const FINDINGS: Readable = Readable {
    name: "findings",
    key: "",
    about: "The checks behind the newest verdict of every subject, each in one plain sentence.",
    fields: &[
        Field::text("subject", "Result, or series of results, that the verdict speaks of: `results.subject`").always(),
        Field::whole("assessment", "Counts up with each assessment").always(),
        Field::word("verdict", VerdictWord::WORDS, "What the findings add up to").always(),
        Field::text("check", "As stage.what").always(),
        Field::text("stage", "Stage of the path of the bottle").always(),
        Field::word("outcome", &["met", "not met", "not known"], "What came of it").always(),
        Field::text("sentence", "In one plain sentence").always(),
        Field::text("profile", "Profile of checks that gave the verdict; nothing: the programme's table of checks"),
    ],
    refers: &[],
};

/// Bottles.
pub const BOTTLES: Readable = Readable {
    name: "bottles",
    key: "label",
    about: "Every bottle, samples and blanks alike.",
    fields: &[
        Field::text("label", "Label").always(),
        Field::text("kind", "What it is: sample, duplicate, one of the blanks, a spike, a reference material").always(),
        Field::text("trip", "Trip"),
        Field::text("well", "Well"),
        Field::text("lot", "Lot of bottles cleaned together"),
        Field::text("fraction", "unfiltered, a pore size, or filtered"),
        Field::number("filter_pore_um", "um", "Pore size of the filter lot"),
        Field::number("volume_mL", "mL", "Water in the bottle"),
        Field::number("u_volume_mL", "mL", "Its standard uncertainty"),
        Field::text("filled_at", "When filled, local time of the site unless an offset is given"),
        Field::text("sampler", "Who filled it"),
        Field::text("acid", "Acid lot"),
        Field::number("acid_mL", "mL", "Acid added"),
        Field::text("acidified_at", "When acidified"),
        Field::number("cabinet_min", "min", "Open in the cabinet"),
        Field::number("open_air_min", "min", "Open outdoors"),
        Field::text("parent", "The sample that this is a duplicate or a spike of"),
        Field::text("set_name", "Replicate set"),
        Field::text("note", "Remark of the field"),
        Field::number("u_acid_mL", "mL", "Standard uncertainty of the acid added"),
        Field::number("density_kg_L", "kg/L", "Density of the water"),
        Field::number("u_density_kg_L", "kg/L", "Its standard uncertainty"),
    ],
    refers: &[],
};

/// Events.
pub const EVENTS: Readable = Readable {
    name: "events",
    key: "number",
    about: "Every act on the record, in order; the last hash is the head of the record.",
    fields: &[
        Field::whole("number", "Counts from 1").always(),
        Field::text("at", "When").always(),
        Field::text("act", "What was done").always(),
        Field::text("author", "Who did it").always(),
        Field::text("engine", "Version of the program"),
        Field::text("hash_blake3", "BLAKE3 of the hash before and the canonical JSON of the event").always(),
    ],
    refers: &[],
};

/// What takes the values of a row one after the other.
pub trait RowOut {
    /// A value.
    ///
    /// # Errors
    /// What takes it fails.
    fn value(&mut self, value: Value) -> Result<(), Error>;

    /// The end of the row.
    ///
    /// # Errors
    /// What takes it fails.
    fn end(&mut self) -> Result<(), Error>;

    /// Text, or nothing.
    ///
    /// # Errors
    /// As [`value`](Self::value).
    fn text<'a>(&mut self, text: impl Into<Option<&'a str>>) -> Result<(), Error> {
        self.value(text.into().map_or(Value::Null, Value::Text))
    }

    /// A whole number, or nothing.
    ///
    /// # Errors
    /// As [`value`](Self::value).
    fn whole(&mut self, n: impl Into<Option<i64>>) -> Result<(), Error> {
        self.value(n.into().map_or(Value::Null, Value::Whole))
    }

    /// A number, or nothing; what is not finite is nothing.
    ///
    /// # Errors
    /// As [`value`](Self::value).
    fn number(&mut self, x: impl Into<Option<f64>>) -> Result<(), Error> {
        self.value(x.into().filter(|x| x.is_finite()).map_or(Value::Null, Value::Number))
    }
}

/// Bytes of CSV gathered before they go to the file.
const GATHER: usize = 1 << 16;

/// A table as CSV.
pub struct Csv {
    sink: Sink,
    out: Vec<u8>,
    first: bool,
}

impl Csv {
    /// Begins the file of a table.
    ///
    /// # Errors
    /// It cannot be made.
    pub fn begin(folder: &Folder, table: &Readable) -> Result<Self, Error> {
        let headings: Vec<&str> = table.fields.iter().map(|f| f.name).collect();
        let mut out = headings.join(",").into_bytes();
        out.extend(b"\r\n");
        Ok(Self { sink: folder.file(&format!("{}.csv", table.name))?, out, first: true })
    }

    /// Ends it.
    ///
    /// # Errors
    /// Its last bytes cannot be written.
    pub fn end_table(mut self, folder: &Folder, table: &Readable) -> Result<(), Error> {
        self.sink.all(&self.out)?;
        folder.keep(self.sink, "text/csv", table.about)
    }
}

impl RowOut for Csv {
    fn value(&mut self, value: Value) -> Result<(), Error> {
        if !std::mem::take(&mut self.first) {
            self.out.push(b',');
        }
        match value {
            Value::Null => {}
            Value::Text(t) => cell::push_text(&mut self.out, t),
            Value::Whole(n) => cell::push_whole(&mut self.out, n),
            Value::Number(x) => cell::push_number(&mut self.out, x),
        }
        Ok(())
    }

    fn end(&mut self) -> Result<(), Error> {
        self.first = true;
        self.out.extend(b"\r\n");
        if self.out.len() > GATHER {
            self.sink.all(&self.out)?;
            self.out.clear();
        }
        Ok(())
    }
}

/// The columns of a table, for its Parquet file.
pub fn parquet_fields(table: &Readable) -> Vec<columns::Field> {
    let field = |f: &Field| columns::Field { name: f.name.into(), kind: f.kind, unit: f.unit.into() };
    table.fields.iter().map(field).collect()
}

impl<W: std::io::Write + Send> RowOut for columns::Writer<W> {
    fn value(&mut self, value: Value) -> Result<(), Error> {
        Ok(self.push(value)?)
    }

    fn end(&mut self) -> Result<(), Error> {
        Ok(self.end_row()?)
    }
}

/// A verdict, without its reasons: subject, revision, word, profile.
struct Judged(i64, i64, VerdictWord, Option<String>);

impl Typed for Judged {
    const TABLE: &'static str = "verdict";
    const PATHS: &'static [&'static str] = &["id", "subject", "revision", "verdict", "profile"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self(row.get(1)?, row.get(2)?, row.get(3)?, row.get(4)?))
    }
}

/// The newest verdict of a subject, and the subject's key: there may be hundreds of thousands, of few profiles.
struct Newest {
    revision: i64,
    verdict: VerdictWord,
    profile: Option<Arc<str>>,
    key: Box<str>,
}

/// A finding with its words as they are stored: of a million few are different.
struct Found {
    id: i64,
    subject: i64,
    revision: i64,
    check: String,
    stage: String,
    outcome: String,
    sentence: String,
}

impl Typed for Found {
    const TABLE: &'static str = "finding";
    const PATHS: &'static [&'static str] = &["id", "subject", "revision", "check_name", "stage", "outcome", "sentence"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self {
            id: row.get(0)?,
            subject: row.get(1)?,
            revision: row.get(2)?,
            check: row.get(3)?,
            stage: row.get(4)?,
            outcome: row.get(5)?,
            sentence: row.get(6)?,
        })
    }
}

/// The key of a subject.
struct Key(i64, String);

impl Typed for Key {
    const TABLE: &'static str = "subject";
    const PATHS: &'static [&'static str] = &["id", "key"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self(row.get(0)?, row.get(1)?))
    }
}

/// Words of findings for people by those that are stored, each read once.
#[derive(Default)]
struct Words {
    stages: HashMap<String, &'static str>,
    outcomes: HashMap<String, &'static str>,
    /// Whether this program knows a check by its name.
    checks: HashMap<String, bool>,
}

impl Words {
    fn stage(&mut self, (row, stored): (i64, &str)) -> Result<&'static str, Error> {
        let read = |v| serde_json::from_value::<quantity::Stage>(v).ok().map(quantity::Stage::word);
        known(&mut self.stages, ("stage", "a stage of the path"), (row, stored), read)
    }

    fn outcome(&mut self, (row, stored): (i64, &str)) -> Result<&'static str, Error> {
        let read = |v| serde_json::from_value::<quantity::Outcome>(v).ok().map(quantity::Outcome::word);
        known(&mut self.outcomes, ("outcome", "an outcome"), (row, stored), read)
    }

    /// Whether check and sentence are shown as they are stored.
    fn as_stored(&mut self, check: &str) -> bool {
        if let Some(known) = self.checks.get(check) {
            return *known;
        }
        let known = shown(check, "").0.text() == check;
        self.checks.insert(check.to_owned(), known);
        known
    }
}

fn known(
    words: &mut HashMap<String, &'static str>,
    (column, expected): (&'static str, &'static str),
    (row, stored): (i64, &str),
    read: impl Fn(serde_json::Value) -> Option<&'static str>,
) -> Result<&'static str, Error> {
    if let Some(word) = words.get(stored) {
        return Ok(word);
    }
    let word = read(serde_json::Value::String(stored.to_owned()));
    let found = format!("{stored:?}");
    let word = word.ok_or(StoreError::Stored { table: "finding", row, column, found, expected })?;
    Ok(words.entry(stored.to_owned()).or_insert(word))
}

/// Writes findings, bottles and events.
///
/// # Errors
/// The store cannot be read, the folder not written.
pub fn write(store: &Store, folder: &Folder) -> Result<(), Error> {
    let mut out = Csv::begin(folder, &FINDINGS)?;
    let mut verdicts: HashMap<i64, Newest> = HashMap::new();
    let mut profiles: HashMap<String, Arc<str>> = HashMap::new();
    store.each(&Filter::all().latest(), |Judged(subject, revision, verdict, profile)| {
        let profile = profile.map(|name| profiles.entry(name).or_insert_with_key(|n| n.as_str().into()).clone());
        verdicts.insert(subject, Newest { revision, verdict, profile, key: Box::default() });
        Ok(())
    })?;
    store.each(&Filter::all(), |k: Key| {
        if let Some(v) = verdicts.get_mut(&k.0) {
            v.key = k.1.into_boxed_str();
        }
        Ok(())
    })?;
    // Findings were written with their verdict, one verdict after the other: in their order they stand in its.
    let (mut failed, mut words) = (None, Words::default());
    let read = store.each(&Filter::all(), |f: Found| {
        let Some(verdict) = verdicts.get(&f.subject).filter(|v| v.revision == f.revision) else {
            return Ok(());
        };
        finding(&mut out, &f, verdict, &mut words).map_err(|e| {
            failed = Some(e);
            StoreError::UnknownTable { table: "finding".into() }
        })
    });
    // What failed in here is told, not what stopped the reading.
    if let Some(e) = failed {
        return Err(e);
    }
    read?;
    out.end_table(folder, &FINDINGS)?;
    bottles(store, folder)?;
    events(store, folder)
}

fn finding(out: &mut Csv, f: &Found, v: &Newest, words: &mut Words) -> Result<(), Error> {
    out.text(&*v.key)?;
    out.whole(v.revision)?;
    out.text(v.verdict.word())?;
    let as_stored = words.as_stored(&f.check);
    let (former, told) = if as_stored { (None, None) } else { Some(shown(&f.check, &f.sentence)).unzip() };
    out.text(former.map_or(f.check.as_str(), |c| c.text()))?;
    out.text(words.stage((f.id, &f.stage))?)?;
    out.text(words.outcome((f.id, &f.outcome))?)?;
    out.text(told.as_deref().unwrap_or(&f.sentence))?;
    out.text(v.profile.as_deref())?;
    out.end()
}

fn bottles(store: &Store, folder: &Folder) -> Result<(), Error> {
    let mut out = Csv::begin(folder, &BOTTLES)?;
    for b in store.bottles(&Filter::all())? {
        out.text(b.label.as_str())?;
        out.text(b.kind.word())?;
        out.text(b.trip.as_deref())?;
        out.text(b.well.as_deref())?;
        out.text(b.lot.as_deref())?;
        out.text(b.fraction.as_deref())?;
        out.number(b.filter_pore_um)?;
        out.number(b.volume_mL)?;
        out.number(b.u_volume_mL)?;
        out.text(b.filled_at.as_deref())?;
        out.text(b.sampler.as_deref())?;
        out.text(b.acid.as_deref())?;
        out.number(b.acid_mL)?;
        out.text(b.acidified_at.as_deref())?;
        out.number(b.cabinet_min)?;
        out.number(b.open_air_min)?;
        out.text(b.parent.as_deref())?;
        out.text(b.set_name.as_deref())?;
        out.text(b.note.as_deref())?;
        out.number(b.u_acid_mL)?;
        out.number(b.density_kg_L)?;
        out.number(b.u_density_kg_L)?;
        out.end()?;
    }
    out.end_table(folder, &BOTTLES)
}

fn events(store: &Store, folder: &Folder) -> Result<(), Error> {
    let mut out = Csv::begin(folder, &EVENTS)?;
    for e in store.events()? {
        out.whole(e.number)?;
        out.text(e.at.as_str())?;
        out.text(e.kind.as_str())?;
        out.text(e.author.as_str())?;
        out.text(e.json["engine"].as_str())?;
        out.text(e.hash.to_string().as_str())?;
        out.end()?;
    }
    out.end_table(folder, &EVENTS)
}
