//! The file of a field sheet: is it one, is it whole, is every entry what it says?
//!
//! In: bytes. Out: [`Sheet`], or every fault in the importer's collector, the entry's number as the
//! row and its key as the column. Keys carry their unit (`volume_L`), readings name theirs.
//! What it does not do: it knows no programme; `take` compares.

use super::clock::Moment;
use crate::import::fault::{Collector, fault, number, quoted};
use message::{Message, count, expected, found, intake};
use quantity::Check;
use serde_json::{Map, Value};

/// First word of every file.
pub const EXPORT_FORMAT: &str = "limpid-field-sheet";
/// Version of the form.
pub const EXPORT_VERSION: u64 = 1;
/// Largest file, bytes: a few hundred entries and ten small photographs are some megabytes.
pub const LARGEST_FILE: u64 = 64 << 20;

/// A sheet as the phone saved it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Sheet {
    pub id: String,
    pub programme: String,
    pub programme_name: String,
    pub head: String,
    pub trip: String,
    pub device: String,
    pub exported_at: Moment,
    /// In the order of the counter.
    pub entries: Vec<Entry>,
}

/// One entry.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    pub n: i64,
    pub at: Moment,
    pub who: Option<String>,
    pub what: String,
    /// All other keys.
    pub body: Map<String, Value>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Form {
    Text,
    Number,
    Time,
    Counts,
    Sets,
}

struct Key {
    name: &'static str,
    form: Form,
    needed: bool,
}

const fn must(name: &'static str, form: Form) -> Key {
    Key { name, form, needed: true }
}

const fn may(name: &'static str, form: Form) -> Key {
    Key { name, form, needed: false }
}

use Form::{Counts, Number, Sets, Text, Time};

/// Kinds of entries and their keys.
const KINDS: &[(&str, &[Key])] = &[
    (
        "reading",
        &[must("well", Text), must("quantity", Text), must("value", Number), must("unit", Text), may("u", Number)],
    ),
    ("fill", &[must("well", Text), must("volume_L", Number), must("seconds", Number), may("u_volume_L", Number)]),
    ("air", &[must("well", Text), must("place", Text), must("volume_L", Number), must("counts", Counts)]),
    ("well", &[must("well", Text), must("state", Text), must("since", Time)]),
    ("condition", &[must("field", Text), must("value", Text)]),
    ("bottle", &[must("bottle", Text), may("step", Text), may("sets", Sets)]),
    (
        "custody",
        &[
            may("bottle", Text),
            must("step", Text),
            may("person", Text),
            may("place", Text),
            may("temperature_C", Number),
            may("seal", Text),
        ],
    ),
    ("photo", &[may("well", Text), may("bottle", Text), must("name", Text), must("type", Text), must("data", Text)]),
    ("note", &[must("text", Text), may("well", Text)]),
    ("strike", &[must("strikes", Number)]),
];

/// Conditions of a trip, as its columns are named.
pub(crate) const CONDITIONS: [&str; 6] = ["weather", "wind", "dust", "road_salt", "engines", "persons"];

/// Columns of a bottle that a sheet may bring.
pub(crate) const BOTTLE_COLUMNS: [&str; 18] = [
    "kind",
    "well",
    "lot",
    "fraction",
    "filter",
    "volume_mL",
    "u_volume_mL",
    "filled_at",
    "sampler",
    "acid",
    "acid_mL",
    "acidified_at",
    "acidified_place",
    "openings",
    "cabinet_min",
    "open_air_min",
    "parent",
    "note",
];

fn is_time(column: &str) -> bool {
    column.ends_with("_at")
}

/// Reads a file; none where it is no sheet, or any entry is at fault.
pub(crate) fn parse(bytes: &[u8], size: u64, out: &mut Collector) -> Option<Sheet> {
    let before = out.faults.total;
    if size > LARGEST_FILE {
        out.add(Check::FileSize, None, None, || {
            fault(found::Bytes { bytes: number(size) }, expected::SheetOfBytes { bytes: number(LARGEST_FILE) })
        });
        return None;
    }
    let whole: Value = match serde_json::from_slice(bytes) {
        Ok(v) => v,
        Err(e) => {
            let found: Message = if e.is_eof() {
                found::CutOff { line: count(e.line()) }.into()
            } else {
                found::NoJson { why: e.to_string().into() }.into()
            };
            out.add(Check::FileForm, None, None, || fault(found, expected::FieldSheet));
            return None;
        }
    };
    let text = |path: &[&str]| {
        let mut v = &whole;
        for p in path {
            v = v.get(p)?;
        }
        v.as_str().map(str::to_string)
    };
    // Kind and version first: of another file each key would be a fault, and none would say that the file is wrong.
    if text(&["format"]).as_deref() != Some(EXPORT_FORMAT) {
        out.add(Check::FileForm, None, Some("format"), || {
            fault(found::OtherKind, expected::Format { format: EXPORT_FORMAT.into() })
        });
        return None;
    }
    if whole.get("version").and_then(Value::as_u64) != Some(EXPORT_VERSION) {
        let expected = expected::Version { version: number(EXPORT_VERSION) };
        out.add(Check::FileForm, None, Some("version"), || match whole.get("version") {
            None => Message::from(fault(found::Nothing, expected)),
            Some(v) => intake::FaultOfValue { found: v.to_string().into(), expected: expected.into() }.into(),
        });
        return None;
    }
    let mut need = |path: &[&str]| {
        let found = text(path).filter(|t| !t.is_empty() && t.len() <= 200);
        if found.is_none() {
            out.add(Check::FileForm, None, Some(&path.join(".")), || fault(found::Nothing, expected::TextOfSheet));
        }
        found
    };
    let (sheet, programme, head) = (need(&["sheet"]), need(&["programme", "id"]), need(&["programme", "head"]));
    let (trip, device, exported) = (need(&["trip"]), need(&["device"]), need(&["exported_at"]));
    let exported_at = exported.and_then(|t| moment(&t, None, "exported_at", out));
    let entries = entries(&whole, out);
    if out.faults.total > before {
        return None;
    }
    Some(Sheet {
        id: sheet?,
        programme: programme?,
        programme_name: text(&["programme", "name"]).unwrap_or_default(),
        head: head?,
        trip: trip?,
        device: device?,
        exported_at: exported_at?,
        entries,
    })
}

fn moment(text: &str, n: Option<u64>, key: &str, out: &mut Collector) -> Option<Moment> {
    let found = Moment::parse(text);
    if found.is_none() {
        out.add(Check::FileValue, n, Some(key), || fault(quoted(text), expected::TimeWithOffset));
    }
    found
}

fn entries(whole: &Value, out: &mut Collector) -> Vec<Entry> {
    let Some(all) = whole.get("entries").and_then(Value::as_array) else {
        out.add(Check::FileForm, None, Some("entries"), || fault(found::Nothing, expected::Entries));
        return vec![];
    };
    let mut read: Vec<Entry> = all.iter().enumerate().filter_map(|(i, v)| entry(i, v, out)).collect();
    read.sort_by_key(|e| e.n);
    for w in read.windows(2) {
        if w[0].n == w[1].n {
            out.add(Check::FileRowTwice, Some(w[1].n.unsigned_abs()), Some("n"), || {
                fault(found::NumberTwice, expected::EntryNumber)
            });
        }
    }
    read
}

fn entry(place: usize, value: &Value, out: &mut Collector) -> Option<Entry> {
    let mut body = value.as_object().cloned().unwrap_or_default();
    let n = body.remove("n").as_ref().and_then(Value::as_i64).filter(|n| (1..1 << 40).contains(n));
    let Some(n) = n else {
        out.add(Check::FileForm, Some(place as u64 + 1), Some("n"), || fault(found::NoCounter, expected::Counter));
        return None;
    };
    let row = n.unsigned_abs();
    let before = out.faults.total;
    let at = match body.remove("at").as_ref().and_then(Value::as_str) {
        Some(t) => moment(t, Some(row), "at", out),
        None => moment("", Some(row), "at", out),
    };
    let who = body.remove("who").as_ref().and_then(Value::as_str).map(str::to_string);
    let what = body.remove("what").as_ref().and_then(Value::as_str).unwrap_or_default().to_string();
    let Some((_, keys)) = KINDS.iter().find(|(k, _)| *k == what) else {
        let known: Vec<&str> = KINDS.iter().map(|k| k.0).collect();
        out.add(Check::FileValue, Some(row), Some("what"), || fault(quoted(&what), one_of(&known)));
        return None;
    };
    check_keys(row, &body, keys, out);
    (out.faults.total == before).then_some(Entry { n, at: at?, who, what, body })
}

fn check_keys(row: u64, body: &Map<String, Value>, keys: &[Key], out: &mut Collector) {
    let known: Vec<&str> = keys.iter().map(|k| k.name).collect();
    for name in body.keys() {
        if !keys.iter().any(|k| k.name == name) {
            out.add(Check::FileColumnUnknown, Some(row), Some(name), || fault(found::KeyUnknown, one_of(&known)));
        }
    }
    for key in keys {
        match body.get(key.name) {
            None if key.needed => {
                out.add(Check::FileValue, Some(row), Some(key.name), || fault(found::Nothing, expected::ValueOfEntry));
            }
            None => {}
            Some(v) => check_value(row, key, v, out),
        }
    }
}

fn one_of(words: &[&str]) -> expected::OneOf {
    expected::OneOf { words: words.join(", ").into() }
}

fn check_value(row: u64, key: &Key, v: &Value, out: &mut Collector) {
    let fits = match key.form {
        Form::Text if key.name == "state" => v.as_str().is_some_and(|t| t == "open" || t == "shut"),
        Form::Text => v.as_str().is_some_and(|t| key.name == "data" || t.len() <= 4000),
        Form::Number => v.as_f64().is_some_and(f64::is_finite),
        Form::Time => v.as_str().is_some_and(|t| Moment::parse(t).is_some()),
        Form::Counts => v.as_array().is_some_and(|a| !a.is_empty() && a.len() <= 32 && a.iter().all(is_count)),
        Form::Sets => return check_sets(row, v, out),
    };
    if fits {
        return;
    }
    let expected: Message = match key.form {
        Form::Number => expected::Number.into(),
        Form::Text if key.name == "state" => expected::OpenOrShut.into(),
        Form::Time => expected::TimeWithOffset.into(),
        Form::Counts => expected::Counts.into(),
        Form::Text | Form::Sets => expected::ShortText.into(),
    };
    out.add(Check::FileValue, Some(row), Some(key.name), || fault(quoted(&v.to_string()), expected));
}

fn is_count(v: &Value) -> bool {
    v.as_object().is_some_and(|o| {
        o.len() == 2
            && o.get("size_um").is_some_and(Value::is_number)
            && o.get("count").is_some_and(|c| c.as_u64().is_some())
    })
}

fn check_sets(row: u64, v: &Value, out: &mut Collector) {
    let Some(sets) = v.as_object() else {
        out.add(Check::FileValue, Some(row), Some("sets"), || fault(quoted(&v.to_string()), expected::BottleColumns));
        return;
    };
    for (column, value) in sets {
        if !BOTTLE_COLUMNS.contains(&column.as_str()) {
            out.add(Check::FileColumnUnknown, Some(row), Some(column), || {
                fault(found::ColumnNotSet, one_of(&BOTTLE_COLUMNS))
            });
        } else if is_time(column) {
            moment(value.as_str().unwrap_or_default(), Some(row), column, out);
        } else if as_text(value).is_none() {
            out.add(Check::FileValue, Some(row), Some(column), || {
                fault(quoted(&value.to_string()), expected::TextOrNumber)
            });
        }
    }
}

/// A text or a number as the importer reads it.
pub(crate) fn as_text(v: &Value) -> Option<String> {
    match v {
        Value::String(t) if t.len() <= 4000 => Some(t.clone()),
        Value::Number(n) => Some(n.to_string()),
        _ => None,
    }
}
