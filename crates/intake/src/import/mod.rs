//! Raw files into the record: what a laboratory, an instrument or a field sheet says, by a
//! mapping that a person wrote, whole or not at all.
//!
//! In: files ([`Input`]: path and [`Mapping`]) and a store. Out: [`Imported`], what was added,
//! kept once, reported anew; or [`ImportError::Refused`] with every fault by file, row and
//! column. [`preview`] does the very same work in an act that is then dropped, so that it shows
//! what [`import`] would take and every fault that it would meet.
//!
//! * All files of one call are one act. A file already taken in (same content hash, same version
//!   of its mapping) is passed over and said so; where all are, nothing changes at all.
//! * `text`, `sheet`, `rows` read records; `cell` reads cells; `mapping`, `pattern`, `plan` say
//!   what a cell is; `results`, `counts` gather; `write`, `write_results` put rows into the record.
//! * Result tables are read on one thread and written on another; memory grows with the number of
//!   bottles, not of rows (16 bytes a row for finding doubles).
//!
//! Checked in `tests/import_*.rs`: the public tables of `examples/real`, every kind of bad input,
//! text against workbook, and random damage, after which either all is taken or nothing.

pub mod apart;
mod cell;
mod counts;
pub mod fault;
mod form;
mod guard;
pub mod guess;
pub mod look;
mod mapping;
pub mod names;
mod pattern;
mod plan;
mod results;
pub mod row_read;
mod rows;
mod shape;
pub(crate) mod sheet;
mod shipped;
mod text;
mod tracers;
pub(crate) mod typed;
pub(crate) mod units;
pub mod words;
mod write;
mod write_results;

pub use fault::{Faults, SHOWN, in_words, spoken_parts};
pub use form::Told;
pub use mapping::{Mapping, MappingError, PhoneClock, Target, k_of_level};
pub use names::Agreed;
pub use results::{RowRead, SHOWN_READ};
pub use shipped::{Bundle, SHIPPED};
pub use text::LONGEST_RECORD;

use crate::field;
use crate::recipe;
use counts::RunReader;
use fault::Collector;
use mapping::Layout;
use message::{expected, found};
use names::{Manner, Naming, TakenAs};
use plan::{Around, Plan};
use quantity::{Check, Finding};
use record::bounds::ActTime;
use record::by::{By, Watch};
use record::model::{KeptRecipe, KeptText};
use record::store::{Act, ActInfo, EventHash, Filter, RawFileIn, Store, StoreError, hash_bytes};
use results::{Batch, Read, ResultReader};
use rows::Rows;
use serde_json::json;
use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read as _;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::sync_channel;
use write::{Writer, take_table, write_runs};
use write_results::ResultWriter;

/// Rows of each table that a preview shows.
pub const SHOWN_ROWS: usize = 10;

/// Batches on their way from the reading to the writing thread.
const BATCHES: usize = 4;

/// Files together above this size are written in one large act: faster, but nobody else reads the
/// programme meanwhile. The choice of 32 MiB keeps a day's laboratory files out of it.
const LARGE_BYTES: u64 = 32 << 20;

/// One file to take in.
#[derive(Debug, Clone)]
pub struct Input {
    /// The file.
    pub path: PathBuf,
    /// How it is read.
    pub mapping: Mapping,
}

/// Why nothing was taken in.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ImportError {
    /// The files hold faults; nothing of them was taken.
    #[error("{}", refusal(.0))]
    Refused(Faults),
    /// A mapping cannot be used.
    #[error(transparent)]
    Mapping(#[from] MappingError),
    /// A file cannot be read.
    #[error("reading {}", path.display())]
    Io {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// The store refused or failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Whoever watched the work said no; nothing was taken.
    #[error("stopped while {file} was read; nothing was taken")]
    Stopped {
        /// The file at hand.
        file: String,
    },
}

fn refusal(faults: &Faults) -> String {
    let mut out = format!("nothing was taken: {} fault{}", faults.total, if faults.total == 1 { "" } else { "s" });
    for f in &faults.shown {
        out.push_str("\n  ");
        out.push_str(&in_words(f));
    }
    if faults.total > faults.shown.len() as u64 {
        out += &["\n  … the first ", &faults.shown.len().to_string(), " are shown"].concat();
    }
    out
}

/// Rows of one table for a preview.
#[derive(Debug, Clone, Default, PartialEq, Eq, serde::Serialize)]
pub struct TableRows {
    /// Column names; references stand by the names of their rows.
    pub columns: Vec<&'static str>,
    /// The first rows.
    pub rows: Vec<Vec<String>>,
}

/// What came of one file.
#[derive(Debug, Clone, Default, PartialEq, serde::Serialize)]
pub struct FileTaken {
    /// Name without folder.
    pub file: String,
    /// Mapping.
    pub mapping: String,
    /// BLAKE3 of the bytes, hexadecimal.
    pub blake3: String,
    /// Whether it was taken in before with the same mapping; then nothing else is said.
    pub before: bool,
    /// Rows with data.
    pub rows: u64,
    /// Rows added, by table.
    pub added: BTreeMap<&'static str, u64>,
    /// Rows that were in the record already, with the same content.
    pub already: u64,
    /// Results that say the same as one in the record, and were kept once.
    pub kept: u64,
    /// Results that say otherwise than one in the record, and are its next revision.
    pub revised: u64,
    /// Cells that say that there is no result.
    pub without: u64,
    /// Names that were read as others, by a person's word.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub taken_as: Vec<TakenAs>,
    /// The first rows of each table, in a preview.
    pub tables: BTreeMap<&'static str, TableRows>,
    /// Blind labels that came back, by the name of their request.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub unblinded: BTreeMap<String, u64>,
    /// The form in which it was read, and what of it the file told.
    pub form: Vec<Told>,
    /// What became of the first rows with results: as read, as kept.
    pub shown: Vec<RowRead>,
}

impl FileTaken {
    /// What of its form the file told, as the mapping would say it; empty where the mapping says all.
    pub fn form_in_words(&self) -> String {
        let told: Vec<String> =
            self.form.iter().filter(|t| t.guessed).map(|t| format!("{} = \"{}\"", t.key, t.value)).collect();
        told.join(", ")
    }

    /// What came of it, in one line.
    pub fn in_words(&self) -> String {
        if self.before {
            return format!("{}: taken in before with mapping {}; nothing changed", self.file, self.mapping);
        }
        let mut parts: Vec<String> = self.added.iter().map(|(t, n)| words::counted(*n, t)).collect();
        for (n, what) in [
            (self.already, "there already"),
            (self.kept, "results the same as before, kept once"),
            (self.revised, "results reported anew, as the next revision"),
            (self.without, "cells without a result"),
        ] {
            if n > 0 {
                parts.push(format!("{n} {what}"));
            }
        }
        for (request, labels) in &self.unblinded {
            parts.push(format!("{} of request {request} opened", words::counted(*labels, "blind label")));
        }
        format!("{}: {}; {}", self.file, words::counted(self.rows, "row"), parts.join(", "))
    }
}

/// What an import added, or a preview would add.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Imported {
    /// File by file, in the order given.
    pub files: Vec<FileTaken>,
    /// What a person should know: nothing of it stopped the import.
    pub notes: Vec<Finding>,
    /// Faults; only in a preview.
    pub faults: Faults,
    /// Hash of the event; none in a preview and where nothing changed.
    pub head: Option<EventHash>,
}

/// The files of a command: each path with the mapping, or the files of bundles
/// (`--mapping bundle`, each path a bundle).
///
/// # Errors
/// A mapping or a bundle that cannot be read or is not known.
pub fn inputs(store: &Store, paths: &[PathBuf], mapping: &str) -> Result<Vec<Input>, ImportError> {
    let mut out = vec![];
    if mapping == guess::NAME {
        for path in paths {
            let mapping = guess::guess(path, &[])?.mapping()?;
            out.push(Input { path: path.clone(), mapping });
        }
        return Ok(out);
    }
    if mapping == "bundle" {
        for path in paths {
            let text = read_text(path)?;
            let folder = path.parent().unwrap_or(Path::new(""));
            let bundle = Bundle::parse(&file_name(path), &text, folder)?;
            for (path, name) in bundle.files {
                let beside = folder.join(&name);
                let name = if has_toml_name(&beside) { beside.to_string_lossy().into_owned() } else { name };
                out.push(Input { path, mapping: find_mapping(store, &name)? });
            }
        }
        return Ok(out);
    }
    let mapping = find_mapping(store, mapping)?;
    for path in paths {
        out.push(Input { path: path.clone(), mapping: mapping.clone() });
    }
    Ok(out)
}

fn has_toml_name(path: &Path) -> bool {
    path.extension().is_some_and(|e| e.eq_ignore_ascii_case("toml"))
}

fn read_text(path: &Path) -> Result<String, ImportError> {
    std::fs::read_to_string(path).map_err(|source| ImportError::Io { path: path.to_path_buf(), source })
}

/// A mapping: the path of a TOML file, else the newest of that name saved in the programme, else
/// one that comes with the program.
///
/// # Errors
/// It cannot be read, or is not known.
pub fn find_mapping(store: &Store, name: &str) -> Result<Mapping, ImportError> {
    let path = Path::new(name);
    if has_toml_name(path) {
        return Ok(Mapping::parse(&read_text(path)?)?);
    }
    let kept: Vec<KeptText> = store.kept_texts("mapping")?;
    if let Some(k) = kept.iter().find(|k| k.name == name) {
        return Ok(Mapping::parse(&k.toml)?);
    }
    Ok(Mapping::shipped(name)?)
}

fn file_name(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |n| n.to_string_lossy().into_owned())
}

/// Takes files in: all of them or, on any fault, nothing.
///
/// # Errors
/// [`ImportError::Refused`] with the faults; a file or the store fails.
pub fn import(store: &mut Store, inputs: &[Input], author: &str, at: &str) -> Result<Imported, ImportError> {
    run(store, inputs, author, at, How { preview: false, why: "", agreed: &Agreed::default(), watch: &|_| true })
}

/// As [`import`], watched: `watch` is told the file and its row at hand, again and again, and stops all of it by
/// `false`, up to the moment in which everything is kept.
///
/// # Errors
/// As [`import`]; [`ImportError::Stopped`].
pub fn import_watched(
    store: &mut Store,
    inputs: &[Input],
    author: &str,
    at: &str,
    watch: Watch,
) -> Result<Imported, ImportError> {
    import_because(store, inputs, By { person: author, at }, "", watch)
}

/// As [`import_watched`], with the reason of a person: a recipe that changes needs one. It is kept in the event.
///
/// # Errors
/// As [`import_watched`].
pub fn import_because(
    store: &mut Store,
    inputs: &[Input],
    by: By,
    why: &str,
    watch: Watch,
) -> Result<Imported, ImportError> {
    import_agreed(store, inputs, by, (why, &Agreed::default()), watch)
}

/// As [`import_because`], with what a person agreed of names that are not on record.
///
/// # Errors
/// As [`import_watched`].
pub fn import_agreed(
    store: &mut Store,
    inputs: &[Input],
    by: By,
    (why, agreed): (&str, &Agreed),
    watch: Watch,
) -> Result<Imported, ImportError> {
    run(store, inputs, by.person, by.at, How { preview: false, why: why.trim(), agreed, watch })
}

/// What [`import`] would take at this time, and every fault; the store stays as it is.
///
/// # Errors
/// A file or the store fails. Faults of the files are no error here, they are the answer.
pub fn preview(store: &mut Store, inputs: &[Input], at: &str) -> Result<Imported, ImportError> {
    preview_because(store, inputs, at, "")
}

/// As [`preview`], of what a person gives a reason for.
///
/// # Errors
/// As [`preview`].
pub fn preview_because(store: &mut Store, inputs: &[Input], at: &str, why: &str) -> Result<Imported, ImportError> {
    preview_agreed(store, inputs, at, (why, &Agreed::default()))
}

/// As [`preview_because`], with what a person agreed of names that are not on record.
///
/// # Errors
/// As [`preview`].
pub fn preview_agreed(
    store: &mut Store,
    inputs: &[Input],
    at: &str,
    (why, agreed): (&str, &Agreed),
) -> Result<Imported, ImportError> {
    run(store, inputs, "preview", at, How { preview: true, why: why.trim(), agreed, watch: &|_| true })
}

/// Why the act was dropped.
enum Dropped {
    /// It was a preview, or nothing was left to do.
    Unchanged(Box<Imported>),
    Failed(ImportError),
}

impl From<StoreError> for Dropped {
    fn from(e: StoreError) -> Self {
        Self::Failed(e.into())
    }
}

/// Whether it is a preview, for what reason, what was agreed of names, and who watches.
#[derive(Clone, Copy)]
struct How<'a> {
    preview: bool,
    why: &'a str,
    agreed: &'a Agreed,
    watch: Watch<'a>,
}

fn run(store: &mut Store, inputs: &[Input], author: &str, at: &str, how: How) -> Result<Imported, ImportError> {
    let preview = how.preview;
    let info = ActInfo { kind: "import".into(), author: author.into(), at: at.into(), body: serde_json::Value::Null };
    let sheets = inputs.iter().any(|i| i.mapping.target == Target::FieldSheet);
    let around = if sheets { field::Around::of(store, at)? } else { field::Around::default() };
    let work = |act: &mut Act| {
        let mut imported = Imported::default();
        let mut names = Naming::new(how.agreed, Manner::File);
        for input in inputs {
            take_file(act, input, how, &around, &mut names, &mut imported).map_err(Dropped::Failed)?;
        }
        let first = inputs.first().map_or_else(String::new, |i| file_name(&i.path));
        imported.notes.extend(names.for_nothing(&Collector::new(&first, true)));
        // Files that are all there already leave no event: the chain is of what changed.
        let nothing = imported.files.iter().all(|f| f.before);
        if preview || (nothing && imported.faults.is_empty()) {
            return Err(Dropped::Unchanged(Box::new(imported)));
        }
        if !imported.faults.is_empty() {
            return Err(Dropped::Failed(ImportError::Refused(imported.faults)));
        }
        let files: Vec<_> = imported
            .files
            .iter()
            .filter(|f| !f.before)
            .map(|f| json!({"file": f.file, "blake3": f.blake3, "mapping": f.mapping, "rows": f.rows, "kept": f.kept, "revised": f.revised}))
            .collect();
        act.note("files", json!(files));
        if !how.why.is_empty() {
            act.note("why", json!(how.why));
        }
        let as_others: Vec<&TakenAs> = imported.files.iter().flat_map(|f| &f.taken_as).collect();
        if !as_others.is_empty() {
            act.note("taken_as", json!(as_others));
        }
        if !how.agreed.new.is_empty() {
            act.note("new_names", json!(how.agreed.new));
        }
        for f in &imported.files {
            Naming::keep(act, &f.mapping, &f.taken_as, (author, how.why))?;
        }
        Ok(imported)
    };
    let bytes: u64 = inputs.iter().filter_map(|i| std::fs::metadata(&i.path).ok()).map(|m| m.len()).sum();
    let outcome = if bytes > LARGE_BYTES && !preview { store.large_act(&info, work) } else { store.act(&info, work) };
    match outcome {
        Ok((mut imported, head)) => {
            imported.head = Some(head);
            Ok(imported)
        }
        Err(Dropped::Unchanged(imported)) => Ok(*imported),
        Err(Dropped::Failed(e)) => Err(e),
    }
}

impl How<'_> {
    /// Tells the file and its row; refuses where the watcher says no.
    fn go_on(&self, file: &str, row: u64) -> Result<(), ImportError> {
        let words = if row == 0 { format!("reading {file}") } else { format!("reading {file}, row {row}") };
        if (self.watch)(&words) { Ok(()) } else { Err(ImportError::Stopped { file: file.into() }) }
    }
}

fn take_file(
    act: &mut Act,
    input: &Input,
    how: How,
    around: &field::Around,
    names: &mut Naming,
    imported: &mut Imported,
) -> Result<(), ImportError> {
    let outside = |source| ImportError::Io { path: input.path.clone(), source };
    let name = file_name(&input.path);
    how.go_on(&name, 0)?;
    let mapping = &input.mapping;
    let (hash, size) = hash_bytes(File::open(&input.path).map_err(outside)?).map_err(outside)?;
    let mut taken = FileTaken {
        file: name.clone(),
        mapping: mapping.name.clone(),
        blake3: blake3::Hash::from_bytes(hash).to_hex().to_string(),
        ..FileTaken::default()
    };
    let mapping_id = act.keep_text("mapping", &mapping.name, &mapping.toml)?;
    // By content, not by name: a renamed copy brings nothing new. Another version of the mapping may read the same
    // bytes otherwise, and is taken.
    if act.has_file(&hash, mapping_id)? {
        taken.before = true;
        imported.files.push(taken);
        return Ok(());
    }
    let raw = RawFileIn { name: &name, hash, size, mapping: mapping_id, rows: None };
    let filled = form::fill(&input.path, mapping).map_err(outside)?;
    taken.form = filled.told;
    let input = &Input { path: input.path.clone(), mapping: filled.mapping };
    let mapping = &input.mapping;
    let mut file =
        OneFile { input, raw, how, around, out: Collector::new(&name, mapping.target.is_laboratory()), notes: vec![] };
    names.begin(&mapping.name);
    file.take(act, &mut taken, names)?;
    let (as_others, by_agreement) = names.told(&file.out);
    taken.taken_as = as_others;
    let unusual = file.out.take_notes();
    let told = file.out.take_told();
    let mut faults = file.out.faults;
    if taken.rows == 0 && faults.is_empty() {
        let mut out = Collector::new(&name, mapping.target.is_laboratory());
        out.add(Check::FileForm, None, None, || fault::fault(found::NoRows, expected::ARow));
        faults = out.faults;
    }
    faults.sort();
    imported.faults.merge(faults);
    // First, because only the first notes are printed: a slip of the pen weighs more than how a set was read.
    imported.notes.extend(by_agreement);
    imported.notes.extend(unusual);
    imported.notes.extend(told);
    imported.notes.extend(file.notes);
    imported.files.push(taken);
    Ok(())
}

/// A file on its way into the record.
struct OneFile<'i> {
    input: &'i Input,
    raw: RawFileIn<'i>,
    how: How<'i>,
    /// What the programme says of itself to a field sheet.
    around: &'i field::Around,
    out: Collector,
    notes: Vec<Finding>,
}

impl OneFile<'_> {
    fn outside(&self, source: std::io::Error) -> ImportError {
        ImportError::Io { path: self.input.path.clone(), source }
    }

    /// Opens the file; a fault of its form goes to the collector.
    fn open(&mut self) -> Result<Option<Rows>, ImportError> {
        let (path, form) = (&self.input.path, &self.input.mapping.file);
        let opened = rows::open_shaped(path, form, &mut self.out);
        match opened.map_err(|e| self.outside(e))? {
            Ok(rows) => Ok(Some(rows)),
            Err(t) => {
                self.out.text_fault(&t, &[]);
                Ok(None)
            }
        }
    }

    /// Keeps the raw file whole; a preview only needs its number.
    fn keep(&self, act: &mut Act) -> Result<i64, ImportError> {
        let file = File::open(&self.input.path).map_err(|e| self.outside(e))?;
        if self.how.preview {
            // The bytes are not needed for what is going to be dropped.
            let size = RawFileIn { size: 0, hash: *blake3::hash(b"").as_bytes(), ..self.raw };
            return Ok(act.keep_file(&size, std::io::empty())?);
        }
        Ok(act.keep_file(&self.raw, file)?)
    }

    /// Keeps the raw file of a table, unless its rows are refused anyway.
    fn keep_if_sound(&self, act: &mut Act) -> Result<(), ImportError> {
        if self.out.faults.is_empty() {
            self.keep(act)?;
        }
        Ok(())
    }

    fn take(&mut self, act: &mut Act, taken: &mut FileTaken, names: &mut Naming) -> Result<(), ImportError> {
        let mapping = &self.input.mapping;
        let stem = self.input.path.file_stem().map_or_else(String::new, |s| s.to_string_lossy().into_owned());
        if mapping.target == Target::FieldSheet {
            return self.field_sheet(act, taken);
        }
        if mapping.target == Target::Recipe {
            return self.recipe(act, taken);
        }
        let Some(mut rows) = self.open()? else {
            return Ok(());
        };
        let blocks = mapping.counts.as_ref().is_some_and(|c| c.layout == Layout::Blocks);
        if blocks {
            let mut reader = RunReader::new(mapping, ActTime::of(act.acted_at()), self.out.clone());
            reader.read_blocks(&mut rows, &stem).map_err(|e| self.outside(e))?;
            return self.write_runs(act, taken, names, reader);
        }
        let headings = rows.headings(&mapping.file, &mut self.out).map_err(|e| self.outside(e))?;
        let Some((headings, row)) = headings else {
            return Ok(());
        };
        let around = Around { stem: &stem, header_row: Some(row), act: ActTime::of(act.acted_at()) };
        let mut plan = Plan::bind(mapping, around, &headings, &mut self.out);
        plan.set_methods(&rows.methods, mapping);
        // With a column missing or in an unknown unit every row would be at fault: headings are mended first.
        if !self.out.faults.is_empty() {
            return Ok(());
        }
        match mapping.target {
            Target::Table(table) => {
                let mut out = self.out.clone();
                let mut writer = Writer::new(act, taken, names, self.how.preview);
                writer.remember(table)?;
                let read = take_table(&mut writer, mapping, &plan, &mut rows, table, &mut out);
                self.out = out;
                taken.rows = read.map_err(|e| self.outside(e))??;
                self.raw.rows = Some(taken.rows.cast_signed());
                self.keep_if_sound(act)
            }
            Target::Sequence | Target::Counts => {
                let mut reader = RunReader::new(mapping, ActTime::of(act.acted_at()), self.out.clone());
                reader.read_rows(&mut rows, &plan).map_err(|e| self.outside(e))?;
                self.write_runs(act, taken, names, reader)
            }
            Target::Results | Target::ResultsWide => {
                rows.footers = true;
                self.results(act, taken, names, (&plan, rows))
            }
            Target::FieldSheet | Target::Recipe => unreachable!("neither has headings to bind"),
        }
    }

    /// A field sheet: JSON, whole in memory (photographs make it some megabytes at most).
    fn field_sheet(&mut self, act: &mut Act, taken: &mut FileTaken) -> Result<(), ImportError> {
        let mut bytes = vec![];
        if self.raw.size <= field::LARGEST_FILE {
            File::open(&self.input.path).and_then(|mut f| f.read_to_end(&mut bytes)).map_err(|e| self.outside(e))?;
        }
        let Some(sheet) = field::parse(&bytes, self.raw.size, &mut self.out) else { return Ok(()) };
        taken.rows = sheet.entries.len() as u64;
        self.raw.rows = Some(taken.rows.cast_signed());
        let add_days = self.input.mapping.clock.map(|c| c.add_days);
        let Some(trip) = field::fits(act, &sheet, self.around, add_days, &mut self.out)? else { return Ok(()) };
        let raw_file = self.keep(act)?;
        let mut taking = field::Taking { act, sheet: &sheet, trip, raw_file, add_days, out: &mut self.out };
        let notes = taking.take(self.around, taken)?;
        self.notes.extend(notes);
        Ok(())
    }

    /// A recipe: kept as it was written, as the next version of its name where its text is another.
    fn recipe(&mut self, act: &mut Act, taken: &mut FileTaken) -> Result<(), ImportError> {
        let mut bytes = vec![];
        let file = File::open(&self.input.path).map_err(|e| self.outside(e))?;
        file.take(recipe::LARGEST_FILE + 1).read_to_end(&mut bytes).map_err(|e| self.outside(e))?;
        let text = match String::from_utf8(bytes) {
            Ok(text) if text.len() as u64 <= recipe::LARGEST_FILE => text,
            other => {
                let why = other.map_or_else(|e| e.to_string(), |_| format!("over {} bytes", recipe::LARGEST_FILE));
                let says = || fault::fault(found::NoToml { why: why.into() }, expected::Toml);
                self.out.add(Check::FileForm, None, None, says);
                return Ok(());
            }
        };
        let recipe = match recipe::read(&text) {
            Ok(recipe) => recipe,
            Err(faults) => {
                for f in faults {
                    self.out.add(f.check, f.line, None, || f.says);
                }
                return Ok(());
            }
        };
        taken.rows = 1;
        self.raw.rows = Some(1);
        let versions = act.list::<KeptRecipe>(&Filter::all().is("name", recipe.name.as_str()))?;
        let newest = versions.iter().max_by_key(|v| v.version);
        if newest.is_some_and(|v| v.toml == text) {
            taken.already += 1;
        } else {
            if let Some(v) = newest.filter(|_| self.how.why.is_empty()) {
                let found = found::RecipeVersion { name: recipe.name.as_str().into(), version: v.version };
                self.out.add(Check::FileValue, None, None, || fault::fault(found, expected::WhyVersion));
                return Ok(());
            }
            act.keep_text("recipe", &recipe.name, &text)?;
            *taken.added.entry("recipe").or_insert(0) += 1;
        }
        self.keep(act)?;
        Ok(())
    }

    fn write_runs(
        &mut self,
        act: &mut Act,
        taken: &mut FileTaken,
        names: &mut Naming,
        reader: RunReader,
    ) -> Result<(), ImportError> {
        let (data, mut out) = reader.finish();
        taken.rows = data.rows;
        self.raw.rows = Some(taken.rows.cast_signed());
        let raw_file = self.keep(act)?;
        let mut writer = Writer::new(act, taken, names, self.how.preview);
        write_runs(&mut writer, &self.input.mapping, &data, raw_file, &mut out)?;
        writer.keep_unblinding(raw_file)?;
        self.out = out;
        Ok(())
    }

    /// Reads on one thread, writes on this one.
    fn results(
        &mut self,
        act: &mut Act,
        taken: &mut FileTaken,
        names: &mut Naming,
        (plan, rows): (&Plan, Rows),
    ) -> Result<(), ImportError> {
        let mapping = &self.input.mapping;
        let mut reader = ResultReader::new(mapping, plan, self.out.clone()).expect("the plan has every field");
        if plan.set.is_some() {
            let Some(mut again) = self.open()? else { return Ok(()) };
            again.footers = true;
            let mut silent = Collector::new("", true);
            again.headings(&mapping.file, &mut silent).map_err(|e| self.outside(e))?;
            reader.read_sets(&mut again).map_err(|e| self.outside(e))?;
        }
        let faulty = AtomicBool::new(false);
        let mut found = Collector::new(&taken.file, true);
        let this = &*self;
        let read = std::thread::scope(|scope| {
            let (to, from) = sync_channel::<Batch>(BATCHES);
            let faulty = &faulty;
            let parser = scope.spawn(move || {
                let mut rows = rows;
                reader.read(&mut rows, faulty, |batch| to.send(batch).is_ok())
            });
            let written = this.write_batches(act, (&mut *taken, &mut *names), from.iter(), faulty, &mut found);
            // A store that failed no longer listens; the reader then stops by itself.
            drop(from);
            let read = parser.join().expect("the reader does not panic");
            written.map(|()| read)
        })?;
        let Read { collector, notes, rows, without, shown } = read.map_err(|e| self.outside(e))?;
        self.out = collector;
        self.out.faults.merge(found.faults);
        self.notes.extend(notes);
        taken.rows = rows;
        taken.without = without;
        taken.shown = shown;
        Ok(())
    }

    fn write_batches(
        &self,
        act: &mut Act,
        (taken, names): (&mut FileTaken, &mut Naming),
        batches: impl Iterator<Item = Batch>,
        faulty: &AtomicBool,
        found: &mut Collector,
    ) -> Result<(), ImportError> {
        let mut writer: Option<ResultWriter> = None;
        for batch in batches {
            self.how.go_on(&taken.file, taken.added.values().sum())?;
            // The first batch is there: the file is not hopeless, its bytes are worth keeping.
            let results = if let Some(w) = &mut writer {
                w
            } else {
                let known_bad = faulty.load(Ordering::Relaxed) && !self.how.preview;
                let id = if known_bad { 0 } else { self.keep(act)? };
                writer.insert(ResultWriter::new(&self.input.mapping, id))
            };
            let bad = faulty.load(Ordering::Relaxed) || !found.faults.is_empty();
            let mut rows = Writer::new(act, taken, names, self.how.preview);
            results.take(&mut rows, batch, self.how.preview || !bad, found)?;
        }
        if let Some(raw_file) = writer.map(|w| w.raw_file()).filter(|id| *id > 0) {
            Writer::new(act, taken, names, self.how.preview).keep_unblinding(raw_file)?;
        }
        Ok(())
    }
}
