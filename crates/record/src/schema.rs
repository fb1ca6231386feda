//! The record as tables: one declaration from which the store makes its tables, the importer
//! knows what a column may hold, `verify` knows what to digest, and the data dictionary of the
//! open data package is printed. Every table has `id` and `event` (the act that wrote the row)
//! beside what is declared here. Rows are only ever added: a correction is a new row of
//! `amendment`, an exclusion a row of `exclusion`, a newer result a higher `revision`.
//!
//! Identifiers are given by people (well `SL-2`, bottle label), never random. Each column declares its unit, or the
//! column of the row that holds it, and what its numbers may be; nobody guesses a unit from a name.

mod age;
mod column;
mod intake;
mod judged;
mod measured;
mod place;
mod proved;
mod trip;

pub use age::TRACER_SIGNS;
pub use column::{Column, FixedUnit, Kind, Range, Sign, UnitOf};

/// One table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Table {
    /// Name.
    pub name: &'static str,
    /// Columns that name a row among people: unique together among rows that count. Empty: rows have no name.
    pub key: &'static [&'static str],
    /// Columns with an index of their own.
    pub index: &'static [&'static str],
    /// Whether a raw file may bring rows of it (else the program derives them).
    pub from_files: bool,
    /// What it holds.
    pub about: &'static str,
    /// Columns.
    pub columns: &'static [Column],
}

const fn req(name: &'static str, kind: Kind, about: &'static str) -> Column {
    Column::new(name, kind, true, about)
}

const fn opt(name: &'static str, kind: Kind, about: &'static str) -> Column {
    Column::new(name, kind, false, about)
}

/// Version of the schema that brought the field sheets.
const FIELD: u32 = 4;

/// Version that brought what is known of sources, and what the bottles say of them.
const BLAME: u32 = 5;

/// What is known of a source of metal before a trip; each has its own unit.
pub const SOURCE_FACTS: &[&str] = &[
    "metal in air, ng/m3",
    "metal in dust, ug/g",
    "deposition velocity, m/s",
    "bottle mouth, cm2",
    "bottle wall, cm2",
    "metal in acid, pg/mL",
    "leach rate of bottle, pg/(cm2.d)",
    "handling, pg per opening",
    "leach rate of pipe, ng/(m2.min)",
];

/// Tables whose rows have no name, and the columns that together say what was measured, so that a file that says
/// otherwise of the same thing is told from one that brings another. Not a key of the table: repeated fills within a
/// minute are rows of their own.
pub const SAME_THING: &[(&str, &[&str])] = &[
    ("well_section", &["well", "from_m"]),
    ("layer", &["well", "from_m"]),
    ("spike", &["bottle", "analyte"]),
    ("field_reading", &["well", "bottle", "at", "quantity"]),
    ("fill", &["well", "at"]),
    ("air_count", &["well", "place", "at", "size_um"]),
    ("custody", &["bottle", "trip", "at", "step"]),
    ("source_fact", &["what", "analyte", "lot", "acid", "material", "place"]),
    ("tracer", &["bottle", "well", "sampled_on", "tracer", "laboratory"]),
    ("input_history", &["name", "tracer", "in_year", "before"]),
    ("recharge_fact", &["what", "tracer", "site", "well"]),
];

/// The version that brought messages: identity and arguments beside a sentence.
const MESSAGES: u32 = 7;

/// The version that brought names that are one.
const ONE_NAME: u32 = 9;

/// The version that brought what a number bears, and the accounting of a bottle.
const BEARS: u32 = 8;

/// The version that lets an act be taken back.
const UNDO: u32 = 9;

/// The version that brought statements, local limits and compounds.
const SAYINGS: u32 = 6;

/// The version that brought profiles of checks, a laboratory's own quality, and requests with blind labels.
const PROFILES: u32 = 9;

/// The version that brought keys, signatures and anchors.
const PROOFS: u32 = 11;

/// The version that brought tracers of age and origin.
const TRACERS: u32 = 12;

const fn since(version: u32, column: Column) -> Column {
    Column { since: version, ..column }
}

/// All tables, in an order in which each refers to earlier ones only.
pub const TABLES: &[Table] = &[
    intake::MAPPING,
    intake::RAW_FILE,
    intake::RAW_PART,
    place::PERSON,
    place::SITE,
    place::WELL,
    place::WELL_SECTION,
    place::LAYER,
    place::LOT,
    place::ACID,
    place::FILTER,
    trip::TRIP,
    trip::BOTTLE,
    trip::SPIKE,
    trip::ALIQUOT,
    trip::FIELD_READING,
    trip::FILL,
    trip::AIR_COUNT,
    trip::CUSTODY,
    intake::RECIPE,
    measured::RUN,
    measured::VIAL,
    measured::ASSIGNED,
    measured::READING,
    measured::SUBJECT,
    measured::MEASURAND,
    measured::RESULT,
    measured::DERIVATION,
    measured::SHARE,
    judged::CHECK_RULE,
    judged::FINDING,
    judged::VERDICT,
    judged::EXCLUSION,
    judged::SIGN_OFF,
    judged::AMENDMENT,
    place::LEAD_SOURCE,
    trip::FIELD_SHEET,
    trip::FIELD_ENTRY,
    place::LOT_TARGET,
    place::SOURCE_FACT,
    place::SIGNATURE,
    measured::ATTRIBUTED,
    measured::ACCOUNTING,
    judged::COMPOUND,
    judged::LOCAL_LIMIT,
    judged::STATEMENT,
    judged::STATEMENT_USE,
    measured::LABORATORY_QUALITY,
    judged::CHECK_PROFILE,
    judged::PROFILE_RULE,
    judged::PROFILE_CHOICE,
    trip::LAB_REQUEST,
    trip::BLIND_LABEL,
    trip::UNBLINDING,
    judged::UNDONE,
    judged::UNDONE_ROWS,
    judged::SAME_NAME,
    proved::PERSON_KEY,
    proved::KEY_END,
    proved::SIGNED,
    proved::ANCHOR,
    age::TRACER,
    age::INPUT_HISTORY,
    age::RECHARGE_FACT,
];

impl Table {
    /// Version of the schema that brought the table.
    pub fn since(&self) -> u32 {
        self.columns.iter().map(|c| c.since).min().unwrap_or(1)
    }

    /// A column by name.
    pub fn column(&self, name: &str) -> Option<&'static Column> {
        self.columns.iter().find(|c| c.name == name)
    }

    /// Whether a column is part of the name of a row.
    pub fn is_key(&self, column: &str) -> bool {
        self.key.contains(&column)
    }

    /// Place of a column.
    pub fn place(&self, column: &str) -> Option<usize> {
        self.columns.iter().position(|c| c.name == column)
    }
}

/// A table by name.
pub fn table(name: &str) -> Option<&'static Table> {
    TABLES.iter().find(|t| t.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_says_the_same_thing_is_told_by_columns_of_a_table_without_names() {
        for (name, columns) in SAME_THING {
            let t = table(name).unwrap();
            assert!(t.key.is_empty() && t.from_files, "{name}");
            assert!(columns.iter().all(|c| t.place(c).is_some()), "{name}");
            assert!(columns.len() < t.columns.len(), "{name}: nothing is left to differ");
        }
    }

    #[test]
    fn tables_refer_to_earlier_tables_or_themselves() {
        for (i, t) in TABLES.iter().enumerate() {
            for c in t.columns {
                if let Kind::Row(other) = c.kind {
                    assert!(TABLES[..=i].iter().any(|e| e.name == other), "{}.{} → {other}", t.name, c.name);
                }
            }
            for k in t.key.iter().chain(t.index) {
                assert!(t.columns.iter().any(|c| c.name == *k), "{}.{k}", t.name);
            }
            assert!(t.columns.is_sorted_by_key(|c| c.since), "{}: a new column stands at the end", t.name);
            assert!(t.columns.len() < 250, "{}", t.name);
        }
    }
}
