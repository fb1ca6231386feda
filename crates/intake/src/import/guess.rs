//! A mapping guessed from a file, for a person to correct: which column is the bottle, the analyte, the value, the unit,
//! the limits, the method, the laboratory, by headings in English and German; its form; the words beside its numbers.
//!
//! In: a file, and what a person has said of it (`key=value`, [`Guess::set`]). Out: [`Guess`]: the mapping as TOML to be
//! saved and given again, and the questions that the file does not answer. What is not certain is left out and asked:
//! the fraction, what "n.b." means, whether U is expanded, a unit that stands nowhere. A mapping that lacks an answer
//! refuses the file with that question; nothing guessed here is taken in where a column says otherwise.
//!
//! The words by which a file is known stand in `words`, what is asked in `ask`, the mapping as text in `text`. Checked in `tests/import_strange.rs` on sheets that other programs wrote.

mod ask;
mod proof;
mod text;
mod words;

pub use ask::{Question, says_in_what};

use super::ImportError;
use super::cell::Decimal;
use super::fault::Collector;
use super::form;
use super::mapping::{FileForm, Hidden, LeftOpen, Mapping, MappingError};
use super::pattern;
use super::plan::isotope;
use super::rows;
use super::shape::{self, ABSENT};
use super::text::{Encoding, Record, decode};
use message::web_columns as says;
use message::{Lang, Message, count};
use record::schema::{self, Kind};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::OnceLock;
use words::{BESIDE, CLOCKS, HEADINGS, KNOWN_WORDS, QUANTITIES, SIGNS, SUBSTANCES};

/// The name under which a mapping is guessed: `--mapping guess`.
pub const NAME: &str = "guess";

/// Records from which the shape is told.
const LOOKED_AT: usize = 300;

/// Rows among which the headings are.
const HEADING_ROWS: usize = 40;

/// Different words that are told one by one.
const WORDS: usize = 60;

/// Rows shown.
const SHOWN: usize = 5;

/// Where a field's text comes from, as it is guessed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Place {
    /// A column.
    Heading(String),
    /// The same in every row.
    Constant(String),
    /// A date and the time beside it.
    Both(String, String),
}

/// How well a name of a file is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Known {
    /// A symbol or a name of the catalogues.
    Sure,
    /// Such a name with words beside it.
    Likely,
    /// None of them.
    New,
}

/// How well a name is known, and what it is then, as the record has it.
pub fn known(written: &str) -> (Known, Option<String>) {
    let written = without_unit(written);
    if let Some(name) = across(written) {
        return (Known::Sure, Some(name));
    }
    let lower = spaced(written);
    let words = lower.split(|c: char| c == ' ' || ",;()[]".contains(c));
    let rest: Vec<&str> = words.filter(|w| !w.is_empty() && !BESIDE.contains(w)).collect();
    match analyte(&rest.join(" ")) {
        Some(name) => (Known::Likely, Some(name)),
        None => (Known::New, None),
    }
}

/// A guessed mapping.
#[derive(Debug, Clone, Default)]
pub struct Guess {
    /// Name, from the file's.
    pub name: String,
    /// Whether analytes stand across.
    pub wide: bool,
    /// Fields.
    pub columns: BTreeMap<String, Place>,
    /// Of a wide table: heading, analyte, unit where the heading carries none.
    pub analytes: Vec<(String, String, Option<String>)>,
    /// Of a wide table of isotopes.
    pub pattern: Option<String>,
    /// Of a long table: names as the file has them, and as the record has them.
    pub names: BTreeMap<String, String>,
    /// Words in a value's cell.
    pub words: BTreeMap<String, String>,
    /// Words in the remark's cell.
    pub remarks: BTreeMap<String, String>,
    /// Columns that nothing names.
    pub ignore: Vec<String>,
    /// The form of the file.
    pub form: FileForm,
    /// `k = 2` or `level = "95 %"` of the column of uncertainties.
    pub coverage: Option<String>,
    /// `%` or `value`, where a person has said whether uncertainties are in per cent of the value or in its unit.
    pub u_in: Option<String>,
    /// The same of what stands behind ±.
    pub plus_minus: Option<String>,
    /// The unit of every value, where a person has said it.
    pub value_unit: Option<String>,
    /// What the file does not answer, each with how to say it.
    pub questions: Vec<Question>,
    /// By the key of the form: what in the file speaks for it.
    pub proofs: BTreeMap<&'static str, Message>,
    /// Of a long table: every different name of an analyte, as the file has it, the first ones.
    pub written: Vec<String>,
    /// The headings, after the table was put into shape.
    pub headings: Vec<String>,
    /// The first rows under them.
    pub rows: Vec<Vec<String>>,
}

/// Guesses a mapping; `said` are the corrections of a person, `key=value`.
///
/// # Errors
/// The file cannot be read; what was said is no `key=value`, or its key means nothing.
pub fn guess(path: &Path, said: &[String]) -> Result<Guess, ImportError> {
    let outside = |source| ImportError::Io { path: path.to_path_buf(), source };
    let mut g = Guess { name: name_of(path), ..Guess::default() };
    let mut given = FileForm { open: LeftOpen::ALL, delimiter: Some(b','), ..FileForm::default() };
    for entry in said.iter().filter(|e| e.starts_with("file.")) {
        set_form(&mut given, entry, &g.name)?;
    }
    let hidden = given.hidden;
    // To look at them is no answer: without one the mapping asks.
    given.hidden = hidden.or(Some(Hidden::Take));
    let sheets = rows::sheets(path);
    if sheets.len() > 1 && given.sheet.is_none() {
        given.sheet = g.sheet(path, &given, &sheets).map_err(outside)?;
    }
    let mut records;
    if sheets.is_empty() {
        g.form = form::told_form(path, &given).map_err(outside)?;
        records = g.read(path).map_err(outside)?;
    } else {
        // A workbook is read once, unless a comma shows: its reading is what takes the time.
        g.form = FileForm { open: LeftOpen::default(), ..given.clone() };
        records = g.read(path).map_err(outside)?;
        g.form = form::told_by_records(&records, &given);
        if g.form.decimal == Decimal::Comma && given.open.decimal {
            records = g.read(path).map_err(outside)?;
        }
    }
    let rest = records.split_off(records.len().min(LOOKED_AT));
    g.shape(records, rest, said);
    g.form.hidden = hidden;
    for entry in said.iter().filter(|e| !e.starts_with("file.")) {
        g.set(entry)?;
    }
    g.ask();
    Ok(g)
}

fn name_of(path: &Path) -> String {
    let stem = path.file_stem().map_or_else(String::new, |s| s.to_string_lossy().to_lowercase());
    let name: String = stem.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let name = name.trim_matches('-').to_string();
    if name.is_empty() { "guessed".into() } else { name }
}

fn no_such(name: &str, entry: &str, expected: &str) -> ImportError {
    MappingError::Meaning {
        name: name.into(),
        what: "what was said of it".into(),
        found: format!("\"{entry}\""),
        expected: expected.into(),
    }
    .into()
}

/// One key of the form, read by the mapping's own reader.
fn set_form(form: &mut FileForm, entry: &str, name: &str) -> Result<(), ImportError> {
    let Some((key, value)) = entry.strip_prefix("file.").and_then(|e| e.split_once('=')) else {
        return Err(no_such(name, entry, "file.KEY=VALUE"));
    };
    let plain = value.parse::<u64>().is_ok() || matches!(value, "true" | "false");
    let value = if plain { value.to_string() } else { quoted(value) };
    let read = |key: &str, value: &str| {
        Mapping::parse(&format!(
            "name = {}\ntarget = \"person\"\nheadings = \"own\"\n[file]\n{key} = {value}\n",
            quoted(name)
        ))
    };
    let one = read(key, &value)?.file;
    let open = form.open;
    match key {
        "delimiter" => (form.delimiter, form.open.delimiter) = (one.delimiter, one.open.delimiter),
        "decimal" => (form.decimal, form.open.decimal) = (one.decimal, false),
        "thousands" => form.thousands = one.thousands,
        "encoding" => (form.encoding, form.open.encoding) = (one.encoding, false),
        "dates" => (form.dates, form.open.dates) = (one.dates, false),
        "header_row" => form.header_row = one.header_row,
        "units_row" => form.units_row = one.units_row,
        "methods_row" => form.methods_row = one.methods_row,
        "transposed" => form.transposed = one.transposed,
        "blocks" => form.blocks = one.blocks,
        "hidden" => form.hidden = one.hidden,
        "sheet" => form.sheet = one.sheet,
        _ => form.open = open,
    }
    Ok(())
}

fn quoted(text: &str) -> String {
    // A quoted text of JSON is one of TOML too, for what can stand in a heading.
    serde_json::to_string(text).unwrap_or_else(|_| "\"\"".into())
}

/// A heading in lower case without its unit and signs.
fn plain(heading: &str) -> String {
    let none = BTreeMap::new();
    let name = match pattern::heading_unit(heading, &none) {
        // "U (k=2)", "Bestimmungsgrenze (BG)": what stands in brackets is no unit, and no part of the name either.
        Some((name, _)) if !name.is_empty() => name,
        _ => heading,
    };
    spaced(name)
}

/// In lower case, signs between words as spaces.
fn spaced(name: &str) -> String {
    let spaced: String = name.to_lowercase().chars().map(|c| if "-_.:/".contains(c) { ' ' } else { c }).collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The field that a heading names, and how good a heading it is for it: the smaller the better.
fn field(heading: &str) -> Option<(&'static str, usize)> {
    // As it stands before it without its end: the "nm" of "parm_short_nm" is no unit.
    [spaced(heading), plain(heading)].iter().find_map(|name| {
        HEADINGS.iter().find_map(|(field, names)| Some((*field, names.iter().position(|n| n == name)?)))
    })
}

fn substances() -> &'static BTreeMap<String, String> {
    static NAMES: OnceLock<BTreeMap<String, String>> = OnceLock::new();
    NAMES.get_or_init(|| {
        let mut out = BTreeMap::new();
        for key in SUBSTANCES {
            let known = match key {
                "Cr-VI" => "Cr(VI)",
                "S--II" => "S(-II)",
                other => other,
            };
            for language in Lang::ALL {
                if let Some(name) = Message::named("substance", key).and_then(|m| m.said(language)) {
                    out.insert(name.to_lowercase(), known.to_string());
                }
            }
        }
        for (known, names) in QUANTITIES {
            for name in *names {
                out.insert((*name).to_string(), (*known).to_string());
            }
        }
        out
    })
}

/// The analyte that a text names: a symbol, a name in German or English, an isotope.
fn analyte(text: &str) -> Option<String> {
    let text = text.trim();
    if SUBSTANCES.contains(&text) || ["pH", "HCO3", "CO3", "Rb", "Cs", "Bi", "Sn", "Th", "La", "Ce"].contains(&text) {
        return Some(text.to_string());
    }
    let lower = text.to_lowercase();
    let known = substances();
    known.get(&lower).or_else(|| known.get(&plain(text))).cloned()
}

/// The name before the unit of a heading.
fn without_unit(heading: &str) -> &str {
    match pattern::heading_unit(heading, &BTreeMap::new()) {
        Some((name, Ok(_))) => name,
        _ => heading,
    }
}

fn across(heading: &str) -> Option<String> {
    let name = without_unit(heading);
    let element =
        || isotope(name.split('(').next()?.trim()).map(|i| i.chars().filter(char::is_ascii_alphabetic).collect());
    analyte(name).or_else(element)
}

fn texts(record: &Record, encoding: Encoding) -> Vec<String> {
    (0..record.len())
        .map(|i| match record.get(i) {
            ABSENT => String::new(),
            bytes => {
                decode(bytes, encoding).map_or_else(|_| String::from_utf8_lossy(bytes).into_owned(), Cow::into_owned)
            }
        })
        .collect()
}

/// How many of a row's cells are headings.
fn score(cells: &[String]) -> usize {
    let mut fields: Vec<&str> = cells.iter().filter_map(|c| field(c).map(|f| f.0)).collect();
    fields.sort_unstable();
    fields.dedup();
    let wide = cells.iter().filter(|c| across(c).is_some()).count();
    fields.len() + if wide >= 2 { wide } else { 0 }
}

impl Guess {
    /// The one sheet that holds a table of results; none where several do, which is asked.
    fn sheet(&mut self, path: &Path, form: &FileForm, sheets: &[String]) -> Result<Option<String>, std::io::Error> {
        let mut with_table = vec![];
        for sheet in sheets {
            let form = FileForm { sheet: Some(sheet.clone()), open: LeftOpen::default(), ..form.clone() };
            let Ok(mut rows) = rows::open(path, &form)? else { continue };
            let mut record = Record::default();
            let mut n = 0;
            while n < HEADING_ROWS && matches!(rows.next(&mut record)?, Ok(true)) {
                n += 1;
                if score(&texts(&record, Encoding::Utf8)) >= 3 {
                    with_table.push(sheet.clone());
                    break;
                }
            }
        }
        if with_table.len() != 1 {
            let there = sheets.iter().map(|s| quoted(s)).collect::<Vec<_>>().join(", ");
            self.questions.push(Question::new(says::AskSheet { sheets: there.into() }, "file.sheet=NAME"));
        }
        with_table.truncate(1);
        Ok(with_table.pop().or_else(|| sheets.first().cloned()))
    }

    /// All records of the file.
    fn read(&mut self, path: &Path) -> Result<Vec<Record>, std::io::Error> {
        let mut records = vec![];
        match rows::open(path, &self.form)? {
            Err(t) => self.questions.push(Question::new(*t.says, "")),
            Ok(mut from) => {
                let mut record = Record::default();
                while matches!(from.next(&mut record)?, Ok(true)) {
                    records.push(std::mem::take(&mut record));
                }
            }
        }
        Ok(records)
    }

    /// Finds headings, units, methods, side and blocks; then the columns.
    fn shape(&mut self, records: Vec<Record>, rest: Vec<Record>, said: &[String]) {
        let encoding = self.form.encoding;
        let fixed = |key: &str| said.iter().any(|e| e.starts_with(&format!("file.{key}=")));
        let cells: Vec<Vec<String>> = records.iter().map(|r| texts(r, encoding)).collect();
        self.proofs = proof::proofs(&cells, &self.form);
        if !fixed("transposed") {
            self.form.transposed = lies_on_its_side(&cells);
        }
        if self.form.transposed {
            let none = FileForm { transposed: true, ..FileForm::default() };
            let mut turned =
                shape::shape(records.iter().chain(&rest).cloned().collect(), &none, &mut Collector::new("", true));
            // Columns that hold nothing do not make rows; the first is the headings.
            turned.records.retain(|r| !r.is_blank());
            let turned_cells: Vec<Vec<String>> = turned.records.iter().map(|r| texts(r, encoding)).collect();
            self.under_headings(&turned.records, &turned_cells, 0, &fixed);
        } else {
            let best = (0..cells.len().min(HEADING_ROWS)).max_by_key(|i| (score(&cells[*i]), std::cmp::Reverse(*i)));
            let Some(best) = best.filter(|b| score(&cells[*b]) > 0) else {
                self.questions.push(Question::new(says::AskHeadings, "file.header_row=N, and the columns one by one"));
                return;
            };
            let best = match self.form.header_row {
                Some(row) => records.iter().position(|r| r.row == row).unwrap_or(best),
                None => best,
            };
            self.under_headings(&records, &cells, best, &fixed);
        }
        let shaped = shape::shape(records.into_iter().chain(rest).collect(), &self.form, &mut Collector::new("", true));
        let Some((head, rows)) = shaped.records.split_first() else { return };
        self.headings = texts(head, encoding);
        while self.headings.last().is_some_and(String::is_empty) {
            self.headings.pop();
        }
        self.rows = rows.iter().filter(|r| !r.is_blank()).take(SHOWN).map(|r| texts(r, encoding)).collect();
        self.columns(rows);
    }

    /// The rows under the headings that are none of the table, and whether blocks follow.
    fn under_headings(&mut self, records: &[Record], cells: &[Vec<String>], head: usize, fixed: &dyn Fn(&str) -> bool) {
        let Some(record) = records.get(head) else { return };
        self.form.header_row = Some(record.row);
        let filled_cells = cells[head].iter().filter(|c| !c.is_empty()).count();
        let known = cells[head].iter().filter(|c| field(c).is_some() || across(c).is_some()).count();
        let proof = says::ProofHeadings { n: count(known), of: count(filled_cells) };
        self.proofs.insert("header_row", proof.into());
        let filled = |row: &[String]| row.iter().filter(|c| !c.is_empty()).count();
        let none = BTreeMap::new();
        let mut next = head + 1;
        let own_column = cells[head].iter().any(|c| field(c).is_some_and(|f| f.0 == "result.unit"));
        if let Some(row) = cells.get(next).filter(|_| !fixed("units_row") && !own_column) {
            let bare = |c: &String| c.trim_matches(['[', ']', '(', ')']).to_string();
            let units = row.iter().filter(|c| !c.is_empty() && pattern::unit(&bare(c), &none).is_ok()).count();
            // "<0,5" is a value as well; and where a column of units stands, none stand under the headings.
            let numbers = row.iter().filter(|c| form::looks_like_number(c.trim_start_matches(['<', '>', ' ']))).count();
            if units > 0 && numbers == 0 && 2 * units >= filled(row) {
                self.form.units_row = Some(records[next].row);
                next += 1;
            }
        }
        if let Some(row) = cells.get(next).filter(|_| !fixed("methods_row")) {
            let norm = |c: &String| ["DIN", "ISO", "EN ", "EPA", "DEV", "ASTM", "SM "].iter().any(|n| c.starts_with(n));
            let norms = row.iter().filter(|c| norm(c)).count();
            if norms > 0 && 2 * norms >= filled(row) {
                self.form.methods_row = Some(records[next].row);
            }
        }
        if !fixed("blocks") && !self.form.transposed {
            let key = cells[head].iter().position(|c| !c.is_empty());
            self.form.blocks = key.is_some_and(|k| {
                cells[head + 1..].iter().any(|r| r.get(k) == cells[head].get(k) && *r != cells[head] && score(r) > 1)
            });
        }
    }

    /// Which column is what.
    fn columns(&mut self, rows: &[Record]) {
        let mut best: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
        for (at, heading) in self.headings.iter().enumerate() {
            // The sign of uranium, where other metals stand beside it.
            if heading == "U" && self.headings.iter().filter(|h| across(h).is_some()).count() > 2 {
                continue;
            }
            if let Some((field, rank)) = field(heading) {
                let here = best.entry(field).or_insert((rank, at));
                if rank < here.0 {
                    *here = (rank, at);
                }
            }
        }
        self.wide = !best.contains_key("result.value")
            && (self.form.transposed || self.headings.iter().filter(|h| across(h).is_some()).count() > 0);
        let mut used = vec![false; self.headings.len()];
        if self.form.transposed && !self.headings.is_empty() {
            // Over the samples stands "Parameter", which names the rows of the sheet.
            used[0] = true;
            self.columns.insert("bottle.label".into(), Place::Heading(self.headings[0].clone()));
        }
        for (field, (_, at)) in &best {
            let of_long = field.starts_with("result.")
                && !matches!(*field, "result.fraction" | "result.laboratory" | "result.method");
            if used[*at] || (self.wide && of_long) || self.columns.contains_key(*field) {
                continue;
            }
            if *field == "result.remark" && !self.takes_remarks(rows, *at) {
                continue;
            }
            used[*at] = true;
            self.columns.insert((*field).to_string(), Place::Heading(self.headings[*at].clone()));
        }
        let clock =
            self.headings.iter().position(|h| CLOCKS.contains(&plain(h).as_str()) && !h.contains(['{', '}', '|']));
        if let (Some(at), Some(Place::Heading(day))) = (clock, self.columns.get("bottle.filled_at").cloned())
            && !day.contains(['{', '}', '|'])
        {
            used[at] = true;
            let both = Place::Both(day, self.headings[at].clone());
            self.columns.insert("bottle.filled_at".into(), both);
        }
        let mut values: Vec<usize> = vec![];
        if self.wide {
            values = self.analytes_across(rows, &mut used);
        } else if let Some(Place::Heading(h)) = self.columns.get("result.value") {
            values.extend(self.headings.iter().position(|x| x == h));
        }
        self.words(rows, &values);
        if let Some(Place::Heading(h)) = self.columns.get("result.analyte")
            && let Some(at) = self.headings.iter().position(|x| x == h)
        {
            let mut last = String::new();
            for r in rows {
                let text = decode(r.get(at), self.form.encoding).unwrap_or_default();
                if text != last && !self.names.contains_key(text.as_ref()) {
                    if !text.trim().is_empty() && self.written.len() < WORDS && !self.written.iter().any(|w| *w == text)
                    {
                        self.written.push(text.to_string());
                    }
                    if let Some(known) = analyte(&text).filter(|k| *k != text) {
                        self.names.insert(text.to_string(), known);
                    }
                    last = text.into_owned();
                }
            }
        }
        // A column without a heading, as of row names, is named by nothing at all.
        self.ignore = self.headings.iter().zip(used).filter(|(_, u)| !u).map(|(h, _)| h.clone()).collect();
        self.ignore.dedup();
    }

    /// The columns of a wide table that hold an analyte: known by name, or with a unit over numbers.
    fn analytes_across(&mut self, rows: &[Record], used: &mut [bool]) -> Vec<usize> {
        let none = BTreeMap::new();
        let mut values = vec![];
        let isotopes =
            self.headings.iter().filter(|h| isotope(without_unit(h).split('(').next().unwrap_or("")).is_some());
        if isotopes.count() > 1 {
            let with = |sign: &str| {
                self.headings.iter().any(|h| isotope(h.split('(').next().unwrap_or("")).is_some() && h.contains(sign))
            };
            let resolved = ["(LR)", "(MR)", "(HR)", "(low)", "(medium)", "(high)"].iter().any(|r| with(r));
            let unit = self.headings.iter().any(|h| matches!(pattern::heading_unit(h, &none), Some((_, Ok(_)))));
            self.pattern = Some(match (resolved, unit) {
                (true, true) => "{isotope} ({resolution}) ({unit})".into(),
                (true, false) => "{isotope} ({resolution})".into(),
                (false, true) => "{isotope} ({unit})".into(),
                (false, false) => "{isotope}".into(),
            });
        }
        for (at, heading) in self.headings.clone().iter().enumerate() {
            if used[at] {
                continue;
            }
            let unit = matches!(pattern::heading_unit(heading, &none), Some((_, Ok(_))));
            let known = across(heading);
            let numbers = rows.iter().take(LOOKED_AT).filter(|r| {
                decode(r.get(at), self.form.encoding)
                    .is_ok_and(|t| form::looks_like_number(t.trim_start_matches(['<', '>', ' '])))
            });
            if known.is_none() && !(unit && numbers.count() > 0) {
                continue;
            }
            used[at] = true;
            // One that stands twice is refused where it is read; here it is named once.
            if self.analytes.iter().any(|(h, ..)| h == heading) {
                continue;
            }
            values.push(at);
            if self.pattern.is_some() && isotope(heading.split('(').next().unwrap_or("")).is_some() {
                continue;
            }
            let name = known.unwrap_or_else(|| without_unit(heading).to_string());
            // A pH has no unit to be said.
            let own = (!unit && name == "pH").then(|| "pH".to_string());
            self.analytes.push((heading.clone(), name, own));
        }
        values
    }

    fn takes_remarks(&mut self, rows: &[Record], at: usize) -> bool {
        const REMARKS: [(&str, &str); 7] = [
            ("", "value"),
            ("<", "below"),
            (">", "above"),
            ("E", "estimated"),
            ("J", "estimated"),
            ("U", "not-detected"),
            ("ND", "not-detected"),
        ];
        let mut seen: BTreeMap<String, String> = BTreeMap::new();
        for r in rows {
            let text = decode(r.get(at), self.form.encoding).unwrap_or_default();
            if seen.contains_key(text.as_ref()) {
                continue;
            }
            let Some((_, means)) = REMARKS.iter().find(|(w, _)| *w == text) else { return false };
            seen.insert(text.into_owned(), (*means).to_string());
        }
        self.remarks = seen;
        true
    }

    /// The words beside numbers, and what they mean where that is certain.
    fn words(&mut self, rows: &[Record], values: &[usize]) {
        let mut odd: BTreeMap<String, u64> = BTreeMap::new();
        for r in rows {
            for at in values {
                let bytes = r.get(*at);
                let plain = bytes.first().is_some_and(u8::is_ascii_digit)
                    && bytes.iter().all(|b| b.is_ascii_digit() || b",.".contains(b))
                    && bytes.iter().any(|b| (b'1'..=b'9').contains(b));
                if plain || bytes == ABSENT || r.is_blank() || odd.len() > 10 * WORDS {
                    continue;
                }
                let text = decode(bytes, self.form.encoding).unwrap_or_default();
                if !odd.contains_key(text.as_ref()) {
                    odd.insert(text.into_owned(), r.row);
                }
            }
        }
        let numbers = self.form.numbers();
        let number = |t: &str| super::cell::number(t, numbers).is_ok() || form::looks_like_number(t);
        let mut unknown = vec![];
        for (text, row) in odd {
            if text.contains('±') || text.contains("+/-") {
                self.plus_minus.get_or_insert_default();
                continue;
            }
            if form::looks_like_number(&text) && super::cell::number(&text, Decimal::Point) != Ok(0.0) {
                continue;
            }
            if let Some((means, _)) = KNOWN_WORDS.iter().find(|(_, words)| words.contains(&text.as_str())) {
                self.words.insert(text, (*means).to_string());
                continue;
            }
            let signed = SIGNS.iter().find(|(s, _)| text.strip_prefix(s).is_some_and(|rest| number(rest.trim())));
            if let Some((sign, means)) = signed {
                self.words.insert((*sign).to_string(), (*means).to_string());
                continue;
            }
            // "n.n. (0,5)", "<BG 0,5": a known word beside its limit.
            let beside = KNOWN_WORDS.iter().find_map(|(means, words)| {
                let word = words.iter().find(|w| {
                    !w.is_empty() && text.strip_prefix(*w).is_some_and(|r| number(r.trim().trim_matches(['(', ')'])))
                })?;
                Some((*word, *means))
            });
            match beside {
                Some((word, means)) => drop(self.words.insert(word.to_string(), means.to_string())),
                None => unknown.push((text, row)),
            }
        }
        self.words.entry(String::new()).or_insert_with(|| "missing".into());
        for (text, row) in unknown {
            match self.legend(rows, &text) {
                Some(means) => drop(self.words.insert(text, means)),
                // What stands below the table is in no column of values.
                None if row_is_note(rows, row) => {}
                None if self.questions.len() < WORDS => {
                    let word = if super::cell::number(&text, numbers) == Ok(0.0) { "0" } else { text.as_str() };
                    if !self.questions.iter().any(|q| q.is_of_word(word)) {
                        let says =
                            says::AskWord { word: quoted(word).into(), row: i64::try_from(row).unwrap_or(i64::MAX) };
                        let how = format!("words.{word}=below, not-detected, missing, estimated …");
                        self.questions.push(Question::new(says, how));
                    }
                }
                None => {}
            }
        }
    }

    /// What a legend in the file says of "n.b.".
    fn legend(&self, rows: &[Record], word: &str) -> Option<String> {
        if !matches!(word, "n.b." | "n. b." | "nb") {
            return None;
        }
        let says = |what: &str| {
            rows.iter().rev().take(LOOKED_AT).any(|r| {
                let line = texts(r, self.form.encoding).join(" ").to_lowercase();
                line.contains(word) && line.contains(what)
            })
        };
        match (says("nicht bestimmbar"), says("nicht bestimmt") || says("nicht beauftragt")) {
            (true, false) => Some("not-detected".into()),
            (false, true) => Some("missing".into()),
            _ => None,
        }
    }

    /// Takes one correction of a person.
    ///
    /// # Errors
    /// It is no `key=value`, or the key means nothing.
    pub fn set(&mut self, entry: &str) -> Result<(), ImportError> {
        let wrong = || {
            no_such(
                &self.name,
                entry,
                "table.column=HEADING or TEXT, words.WORD=MEANING, analyte.HEADING=NAME, result.u.k=2, result.u.unit=%, plus_minus.k=2, value.unit=UNIT, file.KEY=VALUE or name=NAME",
            )
        };
        let (key, value) = entry.split_once('=').ok_or_else(wrong)?;
        // "<=not-detected" and the like: a word may hold the sign itself.
        let (key, value) = match (key.strip_prefix("words."), value.rsplit_once('=')) {
            (Some(_), Some((more, meaning))) => (format!("{key}={more}"), meaning),
            _ => (key.to_string(), value),
        };
        if key == "name" {
            self.name = value.to_string();
        } else if key == "layout" {
            self.wide = value == "results-wide";
        } else if let Some(word) = key.strip_prefix("words.") {
            self.words.insert(word.to_string(), value.to_string());
            self.questions.retain(|q| !q.is_of_word(word));
        } else if let Some(heading) = key.strip_prefix("analyte.") {
            self.ignore.retain(|h| h != heading);
            match self.analytes.iter_mut().find(|(h, ..)| h == heading) {
                Some(known) => known.1 = value.to_string(),
                None if self.wide => self.analytes.push((heading.to_string(), value.to_string(), None)),
                None => drop(self.names.insert(heading.to_string(), value.to_string())),
            }
        } else if key == "result.u.unit" {
            self.u_in = ["%", "value"].contains(&value).then(|| value.to_string());
            if self.u_in.is_none() {
                return Err(wrong());
            }
        } else if let Some(kind) = key.strip_prefix("result.u.") {
            self.coverage = Some(coverage(kind, value).ok_or_else(wrong)?);
        } else if let Some(kind) = key.strip_prefix("plus_minus.") {
            self.plus_minus = Some(coverage(kind, value).ok_or_else(wrong)?);
        } else if key == "value.unit" {
            self.value_unit = Some(value.to_string());
            // Two places for a unit say two things.
            if let Some(Place::Heading(old)) = self.columns.remove("result.unit") {
                self.ignore.push(old);
            }
        } else if key.contains('.') && value.is_empty() {
            if let Some(Place::Heading(old)) = self.columns.remove(&key) {
                self.ignore.push(old);
            }
        } else if key.contains('.') {
            let place = if self.headings.iter().any(|h| h == value) && !is_word_of(&key, value) {
                self.ignore.retain(|h| h != value);
                Place::Heading(value.to_string())
            } else {
                Place::Constant(value.to_string())
            };
            if let Some(Place::Heading(old)) = self.columns.insert(key, place.clone())
                && place != Place::Heading(old.clone())
            {
                self.ignore.push(old);
            }
        } else {
            return Err(wrong());
        }
        Ok(())
    }
}

/// Whether a value is one of the record's words for its column: "sample" is a kind of bottle, whatever a column is headed.
fn is_word_of(field: &str, value: &str) -> bool {
    let column = field.split_once('.').and_then(|(table, column)| schema::table(table)?.column(column));
    matches!(column.map(|c| c.kind), Some(Kind::Word(words)) if words.contains(&value))
}

fn coverage(kind: &str, value: &str) -> Option<String> {
    match kind {
        "k" => value.parse::<f64>().ok().map(|k| format!("k = {k:?}")),
        "level" => Some(format!("level = {}", quoted(value))),
        _ => None,
    }
}

/// Whether parameters stand down and samples across: three known analytes in the first two columns, no column of values,
/// and numbers under headings that nothing knows.
fn lies_on_its_side(cells: &[Vec<String>]) -> bool {
    let down = (0..2).map(|c| cells.iter().filter(|r| r.get(c).is_some_and(|t| across(t).is_some())).count()).max();
    let Some(head) = cells.iter().take(HEADING_ROWS).find(|r| r.iter().filter(|c| !c.is_empty()).count() > 1) else {
        return false;
    };
    let is_value = |c: &String| field(c).is_some_and(|f| f.0 == "result.value");
    down.is_some_and(|n| n > 2)
        && !cells.iter().take(HEADING_ROWS).any(|r| r.iter().any(is_value))
        && head.iter().skip(1).any(|c| field(c).is_none() && across(c).is_none())
}

/// Whether a row is nearly empty: a note below the table.
fn row_is_note(rows: &[Record], row: u64) -> bool {
    rows.iter().find(|r| r.row == row).is_some_and(|r| {
        let filled = (0..r.len()).filter(|i| !r.get(*i).is_empty()).count();
        filled * 3 <= r.len().max(3)
    })
}
