//! One column of the record: what it holds, in which unit, and what its numbers may be. Said once here, read by whoever
//! needs it: the importer (units of headings), forms, field sheets, the open data package and its dictionary.
//!
//! Units are UCUM codes that `quantity` reads. A range is a sign, and where physics or the programme says more the name
//! of a row of `reference/physical_bounds.csv`, in which the figures and their sources stand. Checked in
//! `crates/programme/tests/columns.rs` and `crates/programme/tests/bounds.rs`.

use crate::bounds;
use message::{Message, expected};
use quantity::Unit;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Text as written.
    Text,
    /// One of a few words.
    Word(&'static [&'static str]),
    /// Whole number.
    Integer,
    /// Number.
    Real,
    /// Date or date and time, ISO 8601, local time of the site unless an offset is given.
    Time,
    /// A unit, kept as its UCUM code.
    Unit,
    /// JSON text.
    Json,
    /// Bytes.
    Blob,
    /// Row of another table; people and files write its name (its `key` columns).
    Row(&'static str),
}

/// The unit that a column is kept in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FixedUnit {
    /// UCUM code.
    pub ucum: &'static str,
    /// The end of the column's name that writes it; empty where the name is a word of its own (`seconds`, `acid_days`).
    pub ending: &'static str,
    /// Of what, where the ending says so: Pb in `target_pg_Pb`.
    pub of: &'static str,
}

impl FixedUnit {
    const fn new(ucum: &'static str, ending: &'static str) -> Self {
        Self { ucum, ending, of: "" }
    }

    /// As a unit.
    ///
    /// # Panics
    /// Never: a test reads the code of every column.
    pub fn unit(self) -> Unit {
        Unit::known(self.ucum)
    }

    /// As people read it: µm, °C, pg Pb.
    pub fn in_words(self) -> String {
        if self.of.is_empty() { self.unit().to_string() } else { format!("{} {}", self.unit(), self.of) }
    }
}

pub(super) const M: FixedUnit = FixedUnit::new("m", "_m");
pub(super) const UM: FixedUnit = FixedUnit::new("um", "_um");
pub(super) const ML: FixedUnit = FixedUnit::new("mL", "_mL");
pub(super) const L: FixedUnit = FixedUnit::new("L", "_L");
pub(super) const L_MIN: FixedUnit = FixedUnit::new("L/min", "_L_min");
pub(super) const S: FixedUnit = FixedUnit::new("s", "_s");
pub(super) const SECONDS: FixedUnit = FixedUnit::new("s", "");
pub(super) const MIN: FixedUnit = FixedUnit::new("min", "_min");
pub(super) const MINUTES: FixedUnit = FixedUnit::new("min", "");
pub(super) const DAYS: FixedUnit = FixedUnit::new("d", "");
pub(super) const YEARS: FixedUnit = FixedUnit::new("a_j", "_a");
pub(super) const PG: FixedUnit = FixedUnit::new("pg", "_pg");
pub(super) const PG_PB: FixedUnit = FixedUnit { ucum: "pg", ending: "_pg_Pb", of: "Pb" };
pub(super) const CELSIUS: FixedUnit = FixedUnit::new("Cel", "_C");
pub(super) const DEG: FixedUnit = FixedUnit::new("deg", "_deg");
pub(super) const KG_L: FixedUnit = FixedUnit::new("kg/L", "_kg_L");
pub(super) const CPS: FixedUnit = FixedUnit::new("{counts}/s", "_cps");

/// Where the unit of a column stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitOf {
    /// It is always this one.
    Fixed(FixedUnit),
    /// In another column of the row.
    Column(&'static str),
    /// It has none.
    None,
}

/// What the sign of a number may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// Any.
    Any,
    /// Zero or more.
    ZeroOrMore,
    /// Above zero.
    AboveZero,
    /// Above zero: mass after dilution over mass before.
    Dilution,
}

/// What a number may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Range {
    /// Its sign.
    pub sign: Sign,
    /// Row of the table of physical bounds, in the column's own unit.
    pub bound: Option<&'static str>,
}

/// One column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Name; carries the unit where there is one.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// Whether a row may leave it out.
    pub required: bool,
    /// Its unit.
    pub unit: UnitOf,
    /// What its numbers may be.
    pub range: Range,
    /// What it means, for the data dictionary.
    pub about: &'static str,
    /// Version of the schema that brought it. Columns are only ever added, at the end of their
    /// table: a row's digest names its columns by place.
    pub since: u32,
}

impl Column {
    /// A column without unit, whose numbers may be any.
    pub const fn new(name: &'static str, kind: Kind, required: bool, about: &'static str) -> Self {
        let range = Range { sign: Sign::Any, bound: None };
        Self { name, kind, required, unit: UnitOf::None, range, about, since: 1 }
    }

    pub(super) const fn unit(self, unit: FixedUnit) -> Self {
        Self { unit: UnitOf::Fixed(unit), ..self }
    }

    pub(super) const fn unit_in(self, column: &'static str) -> Self {
        Self { unit: UnitOf::Column(column), ..self }
    }

    pub(super) const fn zero_or_more(self) -> Self {
        self.sign(Sign::ZeroOrMore)
    }

    pub(super) const fn above_zero(self) -> Self {
        self.sign(Sign::AboveZero)
    }

    pub(super) const fn dilution(self) -> Self {
        self.sign(Sign::Dilution)
    }

    const fn sign(self, sign: Sign) -> Self {
        Self { range: Range { sign, ..self.range }, ..self }
    }

    pub(super) const fn bound(self, quantity: &'static str) -> Self {
        Self { range: Range { bound: Some(quantity), ..self.range }, ..self }
    }

    /// The unit that it is always kept in.
    pub fn fixed_unit(&self) -> Option<Unit> {
        match self.unit {
            UnitOf::Fixed(unit) => Some(unit.unit()),
            UnitOf::Column(_) | UnitOf::None => None,
        }
    }

    /// May a number in the column's own unit stand in it?
    ///
    /// # Errors
    /// What was expected.
    pub fn check(&self, x: f64) -> Result<(), Message> {
        match self.range.sign {
            Sign::AboveZero if x.is_nan() || x <= 0.0 => return Err(expected::AboveZero.into()),
            Sign::Dilution if x.is_nan() || x <= 0.0 => return Err(expected::Dilution.into()),
            Sign::ZeroOrMore if x.is_nan() || x < 0.0 => return Err(expected::ZeroOrMore.into()),
            _ => {}
        }
        self.range.bound.and_then(bounds::of).map_or(Ok(()), |b| b.check(x))
    }
}
