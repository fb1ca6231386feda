//! The mapping: a small TOML file that says which column of a laboratory's file is what.
//!
//! A mapping's version is counted by the programme: a text that differs from the one last used under
//! its name is the next version.
//!
//! In: TOML. Out: [`Mapping`], checked against the record's tables: a mapping that names a table
//! or a column that does not exist, or explains a thing in two ways, is refused before any file
//! is opened. `docs/mappings.md` is written from this page:
//!
//! * `target`: one of the record's tables whose rows come from files; or `sequence` (vials with
//!   assigned values), `counts` (readings of a run), `results` (one row a result),
//!   `results-wide` (one row a sample, analytes across).
//! * `headings = "own"`: the file's headings are the record's column names.
//! * `[columns]` (for a table) or `[columns.bottle]`, `[columns.result]` …: field = heading, a list
//!   of headings of which one must be there, or `{ heading, constant, template, file_name, before,
//!   after, values, keep, unit, optional, empty }`.
//! * `[words]` for a value's cell, `[remarks]` for the remark's cell, `negative = "value"`.
//! * `[units]`: unit as written → unit as known. `[wide]`, `[counts]`, `[pair]` as below.
//! * `ignore = [...]` or `others = "ignore"`: columns that are left; any other is refused.
//!
//! Checked in the tests below.

use super::cell::{DateOrder, Decimal, Numbers, Rules, Words};
use super::pattern::Pattern;
use super::text::Encoding;
use record::schema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What is wrong with a mapping.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum MappingError {
    /// The TOML cannot be read, or holds a key that means nothing.
    #[error("mapping {name}: {message}")]
    Toml {
        /// The mapping.
        name: String,
        /// What the reader says, with the line.
        message: String,
    },
    /// Something in it cannot be meant.
    #[error("mapping {name}: {what}: found {found}, expected {expected}")]
    Meaning {
        /// The mapping.
        name: String,
        /// Which entry.
        what: String,
        /// What stands there.
        found: String,
        /// What could.
        expected: String,
    },
    /// There is no mapping of that name.
    #[error(
        "there is no mapping \"{name}\": give the path of a TOML file, the name of one saved in the programme, or one of {shipped}"
    )]
    Unknown {
        /// The name asked for.
        name: String,
        /// The names that come with the program.
        shipped: String,
    },
}

/// What the rows of a file become.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Target {
    /// Rows of one table.
    Table(&'static schema::Table),
    /// Vials of a run, with the values assigned to standards and checks.
    Sequence,
    /// Readings of a run.
    Counts,
    /// One row a result.
    Results,
    /// One row a sample, analytes across.
    ResultsWide,
    /// A field sheet saved on a phone (JSON).
    FieldSheet,
    /// A recipe (TOML).
    Recipe,
}

/// What is known of the clock of the phone that a field sheet was kept on.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhoneClock {
    /// Days to add to its times; 0: its times are taken as they are, whatever they say.
    pub add_days: f64,
}

/// The form of a file.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FileForm {
    /// Delimiter; none: told from the first line.
    pub delimiter: Option<u8>,
    /// Decimal sign.
    pub decimal: Decimal,
    /// Encoding.
    pub encoding: Encoding,
    /// Row of the headings; none: the first that is not blank.
    pub header_row: Option<u64>,
    /// Sheet of a workbook.
    pub sheet: Option<String>,
    /// Order of day, month, year.
    pub dates: DateOrder,
    /// The sign between groups of three digits.
    pub thousands: Option<char>,
    /// Row of the units, under the headings.
    pub units_row: Option<u64>,
    /// Row of the methods, under the headings.
    pub methods_row: Option<u64>,
    /// Whether parameters stand down and samples across.
    pub transposed: bool,
    /// Whether the table comes in several blocks, each with its own headings.
    pub blocks: bool,
    /// What becomes of hidden rows and columns; none: they are asked about.
    pub hidden: Option<Hidden>,
    /// What the mapping left open: it is told from the file.
    pub open: LeftOpen,
}

/// What becomes of hidden rows and columns of a workbook.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hidden {
    /// They belong to the table.
    Take,
    /// They are left out.
    Leave,
}

/// Keys of the file's form that a mapping does not fix.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[allow(clippy::struct_excessive_bools, reason = "one a key")]
pub struct LeftOpen {
    /// No delimiter, or "auto".
    pub delimiter: bool,
    /// No decimal sign.
    pub decimal: bool,
    /// No encoding.
    pub encoding: bool,
    /// No order of dates.
    pub dates: bool,
}

impl LeftOpen {
    /// Everything.
    pub const ALL: Self = Self { delimiter: true, decimal: true, encoding: true, dates: true };

    /// Whether anything is.
    pub fn any(self) -> bool {
        self != Self::default()
    }
}

impl FileForm {
    /// How its numbers are written.
    pub fn numbers(&self) -> Numbers {
        Numbers { decimal: self.decimal, thousands: self.thousands }
    }
}

/// Where a field's text comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum From {
    /// The column with one of these headings.
    Headings(Vec<String>),
    /// The same for every row.
    Constant(String),
    /// Put together from columns of the row.
    Template(Pattern),
    /// The file's name without its ending.
    FileName,
}

/// Which part of the text counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part {
    /// All of it.
    Whole,
    /// What stands before the first of these.
    Before(String),
    /// What stands after the first of these; nothing where it is not there.
    After(String),
}

/// A unit that belongs to a column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ColumnUnit {
    /// The one the heading carries.
    Heading,
    /// This one; a heading that carries another is refused.
    Fixed(String),
}

/// How a field is filled.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// Where its text comes from.
    pub from: From,
    /// Which part of it.
    pub part: Part,
    /// Text as written → as the record has it; empty: as it stands.
    pub values: BTreeMap<String, String>,
    /// Whether a text without an entry in `values` is taken as it stands, else refused.
    pub keep: bool,
    /// Its unit, where the column carries one.
    pub unit: Option<ColumnUnit>,
    /// Whether the column may be absent.
    pub optional: bool,
    /// What an empty cell, or an optional column that is absent, stands for.
    pub empty: Option<String>,
    /// Of uncertainties: what they are divided by to be standard ones; none: the mapping does not say.
    pub coverage: Option<f64>,
}

/// Analytes across.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, Default)]
#[serde(deny_unknown_fields)]
pub struct Wide {
    /// Headings that hold an analyte: `{analyte}`, or `{isotope}` ("208Pb", whose element is the analyte), and, if they
    /// are there, `{unit}` and `{resolution}`.
    #[serde(default)]
    pub pattern: Option<String>,
    /// The unit of all that the pattern takes, where neither it nor a row of units says it.
    #[serde(default)]
    pub unit: Option<String>,
    /// Analytes as the pattern finds them → as the record has them.
    #[serde(default)]
    pub names: BTreeMap<String, String>,
    /// Headings named one by one.
    #[serde(default)]
    pub analytes: BTreeMap<String, WideColumn>,
}

/// One analyte's column.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WideColumn {
    /// The analyte.
    pub analyte: String,
    /// Its fraction, where it is not the row's.
    #[serde(default)]
    pub fraction: Option<String>,
    /// Its unit, where the heading carries none.
    #[serde(default)]
    pub unit: Option<String>,
    /// Whether the column may be absent.
    #[serde(default)]
    pub optional: bool,
}

/// Where the counts stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Layout {
    /// One row a vial and isotope; replicates in columns or one a row.
    Rows,
    /// One row a vial and replicate, isotopes across.
    Wide,
    /// One block of rows a vial: isotopes across, replicates down.
    Blocks,
}

/// How counts are laid out.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Counts {
    /// The layout.
    pub layout: Layout,
    /// Rows: headings of replicate columns start with this, then their number.
    #[serde(default)]
    pub replicate_prefix: Option<String>,
    /// Wide and blocks: how a heading names isotope, resolution, mode: `{isotope}@{resolution}`.
    #[serde(default)]
    pub heading: Option<String>,
    /// Blocks: what stands in the file.
    #[serde(default)]
    pub blocks: Option<Blocks>,
}

/// What the lines of a block mean.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Blocks {
    /// First cell of the line that opens a block.
    pub start: String,
    /// Fields in the cells after it: `["vial.position", "vial.name"]`.
    pub start_cells: Vec<String>,
    /// First cell of the line with the isotopes.
    pub across: String,
    /// Other lines: first cell → field of every isotope of the block (`reading.mode` …).
    #[serde(default)]
    pub lines: BTreeMap<String, String>,
    /// Lines before the first block, as patterns of fields.
    #[serde(default)]
    pub preamble: Vec<String>,
    /// First cells of lines that are left (means, deviations).
    #[serde(default)]
    pub ignore: Vec<String>,
}

/// How replicate bottles find each other.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pair {
    /// Column that names the set: its bottle of kind `sample` is the parent of the others.
    pub set: String,
}

/// What the results of a file stand on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Evidence {
    /// Each result has its own findings and verdict.
    #[default]
    Result,
    /// Results of one analyte, fraction and state share theirs: long reported series.
    Series,
}

/// A mapping, checked.
#[derive(Debug, Clone)]
pub struct Mapping {
    /// Name.
    pub name: String,
    /// In one sentence.
    pub about: String,
    /// The TOML as written.
    pub toml: String,
    /// What rows become.
    pub target: Target,
    /// Form of the file.
    pub file: FileForm,
    /// Fields by `table.column`.
    pub sources: BTreeMap<String, Source>,
    /// Whether the file's headings are the record's column names.
    pub own_headings: bool,
    /// Columns left out.
    pub ignore: Vec<String>,
    /// Whether every column that nothing names is left out.
    pub ignore_others: bool,
    /// How a value's cell is read.
    pub rules: Rules,
    /// Unit as written → as known.
    pub units: BTreeMap<String, String>,
    /// What results stand on.
    pub evidence: Evidence,
    /// Analytes across.
    pub wide: Wide,
    /// Layout of counts.
    pub counts: Option<Counts>,
    /// Replicate sets.
    pub pair: Option<Pair>,
    /// The clock of a field sheet's phone, where it was wrong.
    pub clock: Option<PhoneClock>,
    /// What a number behind ± is divided by to be a standard uncertainty; none: the mapping does not say.
    pub plus_minus: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    name: String,
    #[serde(default)]
    about: String,
    target: String,
    #[serde(default)]
    headings: Option<Own>,
    #[serde(default)]
    ignore: Vec<String>,
    #[serde(default)]
    others: Others,
    #[serde(default)]
    negative: Option<Negative>,
    #[serde(default)]
    evidence: Evidence,
    #[serde(default)]
    file: RawForm,
    #[serde(default)]
    columns: toml::Table,
    #[serde(default)]
    words: Words,
    #[serde(default)]
    remarks: Words,
    #[serde(default)]
    units: BTreeMap<String, String>,
    #[serde(default)]
    wide: Wide,
    #[serde(default)]
    counts: Option<Counts>,
    #[serde(default)]
    pair: Option<Pair>,
    #[serde(default)]
    clock: Option<PhoneClock>,
    #[serde(default)]
    plus_minus: Option<RawCoverage>,
}

/// What an uncertainty is: `{ k = 2 }` or `{ level = "95 %" }`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawCoverage {
    #[serde(default)]
    k: Option<f64>,
    #[serde(default)]
    level: Option<String>,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Own {
    Own,
}

#[derive(Deserialize, Default, PartialEq)]
#[serde(rename_all = "kebab-case")]
enum Others {
    #[default]
    Refuse,
    Ignore,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Negative {
    Value,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields)]
struct RawForm {
    #[serde(default)]
    delimiter: Option<String>,
    #[serde(default)]
    decimal: Option<Decimal>,
    #[serde(default)]
    thousands: Option<String>,
    #[serde(default)]
    encoding: Option<String>,
    #[serde(default)]
    header_row: Option<u64>,
    #[serde(default)]
    units_row: Option<u64>,
    #[serde(default)]
    methods_row: Option<u64>,
    #[serde(default)]
    transposed: bool,
    #[serde(default)]
    blocks: bool,
    #[serde(default)]
    hidden: Option<Hidden>,
    #[serde(default)]
    sheet: Option<String>,
    #[serde(default)]
    dates: Option<DateOrder>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSource {
    #[serde(default)]
    heading: Option<OneOrMore>,
    #[serde(default)]
    constant: Option<String>,
    #[serde(default)]
    template: Option<String>,
    #[serde(default)]
    file_name: bool,
    #[serde(default)]
    before: Option<String>,
    #[serde(default)]
    after: Option<String>,
    #[serde(default)]
    values: BTreeMap<String, String>,
    #[serde(default)]
    keep: bool,
    #[serde(default)]
    unit: Option<String>,
    #[serde(default)]
    optional: bool,
    #[serde(default)]
    empty: Option<String>,
    #[serde(default)]
    k: Option<f64>,
    #[serde(default)]
    level: Option<String>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum OneOrMore {
    One(String),
    More(Vec<String>),
}

/// Columns of `result` that a file may fill; the others are worked out.
const RESULT_FIELDS: &[&str] = &[
    "analyte",
    "isotopes",
    "resolution",
    "fraction",
    "value",
    "u",
    "dof",
    "unit",
    "critical_value",
    "detection_limit",
    "quantification_limit",
    "reporting_limit",
    "reporting_limit_kind",
    "remark",
    "laboratory",
    "method",
];

/// Fields of a reading that are no columns of the record: one replicate a row.
const REPLICATE_FIELDS: &[&str] = &["replicate", "rate_cps"];

impl Target {
    fn parse(text: &str) -> Option<Self> {
        Some(match text {
            "sequence" => Self::Sequence,
            "counts" => Self::Counts,
            "results" => Self::Results,
            "results-wide" => Self::ResultsWide,
            "field-sheet" => Self::FieldSheet,
            "recipe" => Self::Recipe,
            name => Self::Table(schema::table(name).filter(|t| t.from_files)?),
        })
    }

    /// Whether a field `table.column` can be filled.
    pub fn has(self, field: &str) -> bool {
        let Some((table, column)) = field.split_once('.') else {
            return false;
        };
        let in_table = |name: &str| {
            table == name && schema::table(name).is_some_and(|t| t.columns.iter().any(|c| c.name == column))
        };
        match self {
            Self::FieldSheet | Self::Recipe => false,
            Self::Table(t) => in_table(t.name),
            Self::Sequence => {
                in_table("run") || (in_table("vial") && column != "run") || (in_table("assigned") && column != "vial")
            }
            Self::Counts => {
                in_table("run")
                    || (in_table("vial") && column != "run")
                    || (table == "reading" && REPLICATE_FIELDS.contains(&column))
                    || (in_table("reading") && ["isotope", "resolution", "mode", "integration_s"].contains(&column))
                    || (in_table("assigned") && column != "vial")
            }
            Self::Results | Self::ResultsWide => {
                in_table("well") || in_table("bottle") || (table == "result" && RESULT_FIELDS.contains(&column))
            }
        }
    }

    /// What the stage of the path is that such a file speaks of.
    pub fn is_laboratory(self) -> bool {
        !matches!(self, Self::Table(_) | Self::FieldSheet)
    }
}

impl Mapping {
    /// Reads a mapping.
    ///
    /// # Errors
    /// [`MappingError`], naming the entry.
    pub fn parse(text: &str) -> Result<Self, MappingError> {
        // What is no TOML has no fields; its name is looked for line by line, to say which mapping it is.
        let raw: Raw = toml::from_str(text).map_err(|e| MappingError::Toml {
            name: text
                .lines()
                .find_map(|l| l.strip_prefix("name"))
                .map_or("(without a name)", |l| l.trim_matches([' ', '=', '"']))
                .to_string(),
            message: e.to_string().trim_end().to_string(),
        })?;
        let wrong = |what: &str, found: &str, expected: &str| MappingError::Meaning {
            name: raw.name.clone(),
            what: what.into(),
            found: found.into(),
            expected: expected.into(),
        };
        let target = Target::parse(&raw.target).ok_or_else(|| {
            let tables: Vec<&str> = schema::TABLES.iter().filter(|t| t.from_files).map(|t| t.name).collect();
            wrong(
                "target",
                &format!("\"{}\"", raw.target),
                &format!(
                    "sequence, counts, results, results-wide, field-sheet, recipe or a table ({})",
                    tables.join(", ")
                ),
            )
        })?;
        let mut sources = BTreeMap::new();
        for (key, value) in &raw.columns {
            match (target, value) {
                (Target::Table(t), v) => {
                    sources.insert(format!("{}.{key}", t.name), source(&raw.name, key, v)?);
                }
                (_, toml::Value::Table(fields)) => {
                    for (column, v) in fields {
                        let field = format!("{key}.{column}");
                        sources.insert(field.clone(), source(&raw.name, &field, v)?);
                    }
                }
                (_, other) => {
                    return Err(wrong(
                        &format!("columns.{key}"),
                        other.type_str(),
                        "a table of fields, as [columns.bottle]",
                    ));
                }
            }
        }
        let file = form(&raw)?;
        let plus_minus = match &raw.plus_minus {
            None => None,
            Some(c) => Some(
                coverage(c.k, c.level.as_deref())
                    .map_err(|found| wrong("plus_minus", &found, COVERAGE))?
                    .ok_or_else(|| wrong("plus_minus", "nothing", COVERAGE))?,
            ),
        };
        let mapping = Self {
            rules: Rules {
                numbers: file.numbers(),
                words: raw.words,
                remarks: raw.remarks,
                negative_is_value: raw.negative.is_some(),
            },
            file,
            plus_minus,
            own_headings: raw.headings.is_some(),
            ignore_others: raw.others == Others::Ignore,
            name: raw.name,
            about: raw.about,
            toml: text.to_string(),
            target,
            sources,
            ignore: raw.ignore,
            units: raw.units,
            evidence: raw.evidence,
            wide: raw.wide,
            counts: raw.counts,
            pair: raw.pair,
            clock: raw.clock,
        };
        mapping.check()?;
        Ok(mapping)
    }

    fn wrong(&self, what: impl Into<String>, found: impl Into<String>, expected: impl Into<String>) -> MappingError {
        MappingError::Meaning {
            name: self.name.clone(),
            what: what.into(),
            found: found.into(),
            expected: expected.into(),
        }
    }

    fn check(&self) -> Result<(), MappingError> {
        for field in self.sources.keys() {
            if !self.target.has(field) {
                return Err(self.wrong(
                    format!("columns.{field}"),
                    "a field that this target does not fill",
                    "a column of the record that a file may bring (see the data dictionary)",
                ));
            }
        }
        for (word, known) in &self.units {
            if let Err(e) = quantity::Unit::parse(known) {
                return Err(self.wrong(format!("units.\"{word}\""), e.to_string(), "a unit"));
            }
        }
        if let Some(u) = &self.wide.unit
            && let Err(e) = super::pattern::unit(u, &self.units)
        {
            return Err(self.wrong("wide.unit", e.to_string(), "a unit"));
        }
        for (field, source) in &self.sources {
            // Uncertainties in per cent are of their value.
            if let Some(ColumnUnit::Fixed(u)) = &source.unit
                && (field, u.as_str()) != (&"result.u".to_string(), "%")
                && let Err(e) = super::pattern::unit(u, &self.units)
            {
                return Err(self.wrong("unit", e.to_string(), "a unit"));
            }
        }
        let needs = |fields: &[&str]| {
            fields
                .iter()
                .find(|f| !self.sources.contains_key(**f))
                .map_or(Ok(()), |f| Err(self.wrong("columns", format!("no entry for {f}"), "one: the target needs it")))
        };
        match self.target {
            Target::Table(t) if !self.own_headings => {
                let required: Vec<String> =
                    t.columns.iter().filter(|c| c.required).map(|c| format!("{}.{}", t.name, c.name)).collect();
                needs(&required.iter().map(String::as_str).collect::<Vec<_>>())
            }
            Target::Table(_) | Target::Recipe => Ok(()),
            Target::Sequence => needs(&["run.name", "vial.position", "vial.name", "vial.role", "vial.minutes"]),
            Target::Results => {
                needs(&["bottle.label", "result.analyte", "result.value", "result.fraction"])?;
                let in_value = self.sources["result.value"].unit.is_some();
                if in_value == self.sources.contains_key("result.unit") {
                    return Err(self.wrong(
                        "columns.result.unit",
                        if in_value { "two places for the unit" } else { "no place for the unit" },
                        "a unit column, or unit = … beside the value, not both",
                    ));
                }
                Ok(())
            }
            Target::ResultsWide => {
                needs(&["bottle.label"])?;
                if self.wide.pattern.is_none() && self.wide.analytes.is_empty() {
                    return Err(self.wrong("wide", "nothing", "a pattern or a table of analytes"));
                }
                Ok(())
            }
            Target::Counts => self.check_counts(),
            Target::FieldSheet => match self.clock {
                // A phone's clock starts again at 1970 at worst.
                Some(c) if c.add_days.is_nan() || c.add_days.abs() > 40_000.0 => {
                    Err(self.wrong("clock.add_days", c.add_days.to_string(), "days from -40000 to 40000"))
                }
                _ => Ok(()),
            },
        }
    }

    fn check_counts(&self) -> Result<(), MappingError> {
        let Some(counts) = &self.counts else {
            return Err(self.wrong("counts", "no entry", "[counts] with a layout"));
        };
        let blocks = counts.blocks.as_ref();
        if (counts.layout == Layout::Blocks) != blocks.is_some() {
            return Err(self.wrong(
                "counts.blocks",
                "layout and blocks that do not agree",
                "[counts.blocks] with layout = \"blocks\", and only there",
            ));
        }
        if counts.layout != Layout::Rows && counts.heading.is_none() {
            return Err(self.wrong("counts.heading", "no entry", "a pattern as {isotope}@{resolution}"));
        }
        let one_a_row = self.sources.contains_key("reading.rate_cps");
        if counts.layout == Layout::Rows && one_a_row == counts.replicate_prefix.is_some() {
            return Err(self.wrong(
                "counts",
                "no place, or two places, for the replicates",
                "replicate_prefix, or reading.rate_cps with reading.replicate",
            ));
        }
        for p in blocks.iter().flat_map(|b| &b.preamble).chain(&counts.heading) {
            Pattern::parse(p).map_err(|e| self.wrong("counts", e, "a pattern"))?;
        }
        Ok(())
    }
}

fn form(raw: &Raw) -> Result<FileForm, MappingError> {
    let wrong = |what: &str, found: &str, expected: &str| MappingError::Meaning {
        name: raw.name.clone(),
        what: format!("file.{what}"),
        found: format!("\"{found}\""),
        expected: expected.into(),
    };
    let f = &raw.file;
    let delimiter = match f.delimiter.as_deref() {
        None => Some(b','),
        Some("auto") => None,
        Some("tab") => Some(b'\t'),
        Some(d) => match d.as_bytes() {
            // A letter, digit or quote as delimiter would cut names, numbers and quoted cells to pieces.
            [b] if b.is_ascii() && !b.is_ascii_alphanumeric() && *b != b'"' => Some(*b),
            _ => return Err(wrong("delimiter", d, "one sign, \"tab\" or \"auto\"")),
        },
    };
    let encoding = match f.encoding.as_deref() {
        None | Some("utf-8") => Encoding::Utf8,
        Some("latin-1" | "windows-1252") => Encoding::Latin1,
        Some(e) => {
            return Err(wrong("encoding", e, "utf-8, latin-1 or windows-1252; UTF-16 is told from its first bytes"));
        }
    };
    let thousands = match f.thousands.as_deref().map(|t| t.chars().collect::<Vec<_>>()) {
        None => None,
        Some(t) => match t[..] {
            [c] if !c.is_alphanumeric() && !"+-".contains(c) => Some(c),
            _ => return Err(wrong("thousands", f.thousands.as_deref().unwrap_or_default(), "one sign")),
        },
    };
    let decimal = f.decimal.unwrap_or_default();
    if matches!((decimal, thousands), (Decimal::Point, Some('.')) | (Decimal::Comma, Some(','))) {
        return Err(wrong(
            "thousands",
            f.thousands.as_deref().unwrap_or_default(),
            "another sign than the decimal one",
        ));
    }
    if f.header_row == Some(0) {
        return Err(wrong("header_row", "0", "a row counted from 1"));
    }
    Ok(FileForm {
        delimiter,
        decimal,
        encoding,
        header_row: f.header_row,
        sheet: f.sheet.clone(),
        dates: f.dates.unwrap_or_default(),
        thousands,
        units_row: f.units_row,
        methods_row: f.methods_row,
        transposed: f.transposed,
        blocks: f.blocks,
        hidden: f.hidden,
        open: LeftOpen {
            delimiter: matches!(f.delimiter.as_deref(), None | Some("auto")),
            decimal: f.decimal.is_none(),
            encoding: f.encoding.is_none(),
            dates: f.dates.is_none(),
        },
    })
}

const COVERAGE: &str = "k, a number from 1 to 5, or level, one of \"68 %\", \"90 %\", \"95 %\", \"99 %\"";

/// What half an interval of a level ("95 %") is divided by to be a standard uncertainty; none for a level that is not known.
pub fn k_of_level(level: &str) -> Option<f64> {
    coverage(None, Some(level)).ok().flatten()
}

/// What an uncertainty is divided by to be a standard one.
fn coverage(k: Option<f64>, level: Option<&str>) -> Result<Option<f64>, String> {
    match (k, level) {
        (None, None) => Ok(None),
        (Some(k), None) if (1.0..=5.0).contains(&k) => Ok(Some(k)),
        (Some(k), None) => Err(format!("k = {k}")),
        (Some(_), Some(_)) => Err("k and level".into()),
        // Half the width of the interval of a normal distribution at this level, in standard deviations: JCGM 100:2008,
        // table G.1.
        (None, Some(level)) => match level.trim_end_matches(['%', ' ']) {
            "68" | "68.27" => Ok(Some(1.0)),
            "90" => Ok(Some(1.645)),
            "95" => Ok(Some(1.960)),
            "99" => Ok(Some(2.576)),
            _ => Err(format!("\"{level}\"")),
        },
    }
}

fn source(mapping: &str, field: &str, value: &toml::Value) -> Result<Source, MappingError> {
    let wrong = |found: String, expected: &str| MappingError::Meaning {
        name: mapping.into(),
        what: format!("columns.{field}"),
        found,
        expected: expected.into(),
    };
    let plain = |headings: Vec<String>| Source {
        from: From::Headings(headings),
        part: Part::Whole,
        values: BTreeMap::new(),
        keep: false,
        unit: None,
        optional: false,
        empty: None,
        coverage: None,
    };
    let raw: RawSource = match value {
        toml::Value::String(s) => return Ok(plain(vec![s.clone()])),
        toml::Value::Array(a) => {
            let all: Option<Vec<String>> = a.iter().map(|v| v.as_str().map(str::to_string)).collect();
            return all
                .filter(|a| !a.is_empty())
                .map(plain)
                .ok_or_else(|| wrong("a list of other things".into(), "a list of headings"));
        }
        other => other
            .clone()
            .try_into()
            .map_err(|e: toml::de::Error| wrong(e.to_string(), "a heading, headings or a table"))?,
    };
    let mut places = vec![];
    if let Some(h) = raw.heading {
        places.push(From::Headings(match h {
            OneOrMore::One(s) => vec![s],
            OneOrMore::More(v) => v,
        }));
    }
    places.extend(raw.constant.map(From::Constant));
    if let Some(t) = &raw.template {
        places.push(From::Template(Pattern::parse(t).map_err(|e| wrong(e, "a template as {site} {date}"))?));
    }
    if raw.file_name {
        places.push(From::FileName);
    }
    // Of two places for one text nothing says which holds.
    let [from] = &places[..] else {
        return Err(wrong(
            format!("{} places for its text", places.len()),
            "one of heading, constant, template, file_name",
        ));
    };
    Ok(Source {
        from: from.clone(),
        part: match (raw.before, raw.after) {
            (None, None) => Part::Whole,
            (Some(b), None) => Part::Before(b),
            (None, Some(a)) => Part::After(a),
            _ => return Err(wrong("before and after".into(), "one of them")),
        },
        values: raw.values,
        keep: raw.keep,
        unit: raw.unit.map(|u| match u.as_str() {
            "heading" => ColumnUnit::Heading,
            _ => ColumnUnit::Fixed(u),
        }),
        optional: raw.optional,
        empty: raw.empty,
        coverage: match coverage(raw.k, raw.level.as_deref()) {
            Err(found) => return Err(wrong(found, COVERAGE)),
            Ok(Some(_)) if field != "result.u" => {
                return Err(wrong("a coverage".into(), "k and level beside result.u only"));
            }
            Ok(k) => k,
        },
    })
}

#[cfg(test)]
mod tests {
    use super::super::shipped::SHIPPED;
    use super::*;

    #[test]
    fn shipped_mappings_read_and_carry_their_own_name() {
        for (name, text) in SHIPPED {
            let m = Mapping::parse(text).unwrap_or_else(|e| panic!("{e}"));
            assert_eq!(m.name, *name);
            assert!(!m.about.is_empty(), "{name}");
        }
    }

    fn refused(text: &str, part: &str) {
        let e = Mapping::parse(text).unwrap_err().to_string();
        assert!(e.contains(part), "{e}");
    }

    #[test]
    fn what_a_mapping_cannot_mean_is_refused() {
        let head = "name = \"x\"\n";
        refused(&format!("{head}target = \"verdict\""), "target");
        refused(&format!("{head}target = \"person\"\ncolour = 1"), "colour");
        refused(&format!("{head}target = \"person\"\n[columns]\nname = \"N\"\nshoe = \"S\""), "person.shoe");
        refused(&format!("{head}target = \"person\"\n[columns]\nrole = \"R\""), "person.name");
        refused(
            &format!("{head}target = \"person\"\n[columns]\nname = {{ heading = \"N\", constant = \"x\" }}"),
            "2 places",
        );
        refused(&format!("{head}target = \"person\"\nheadings = \"own\"\n[file]\nencoding = \"ebcdic\""), "encoding");
        refused(&format!("{head}target = \"person\"\nheadings = \"own\"\n[file]\nthousands = \".\""), "thousands");
        let long = format!(
            "{head}target = \"results\"\n[columns.bottle]\nlabel = \"b\"\n[columns.result]\nanalyte = \"a\"\nfraction = \"f\"\nunit = \"e\"\n"
        );
        refused(&format!("{long}value = {{ heading = \"v\", k = 2 }}"), "result.u only");
        refused(&format!("{long}value = \"v\"\nu = {{ heading = \"U\", k = 0.5 }}"), "k = 0.5");
        refused(&format!("{long}value = \"v\"\nu = {{ heading = \"U\", level = \"96 %\" }}"), "96 %");
        refused(
            &format!(
                "{head}target = \"results\"\n[columns.bottle]\nlabel = \"b\"\n[columns.result]\nanalyte = \"a\"\nvalue = \"v\"\nfraction = \"f\""
            ),
            "no place for the unit",
        );
        refused(&format!("{head}target = \"counts\""), "[counts]");
        refused(&format!("{head}target = \"person\"\nheadings = \"own\"\n[units]\nx = \"ppt\""), "ambiguous");
        let e = Mapping::shipped("nothing").unwrap_err().to_string();
        assert!(e.contains("trace-long"), "{e}");
    }
}
