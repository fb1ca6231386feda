//! The table of limits, `reference/drinking_water_limits.csv`, read at compile time.
//!
//! One row a limit: analyte, unit with basis ("mg/L as N"), authority, document, edition, kind,
//! lower and upper end, the days it is valid between, `seen` or `recalled`, the date it was read.
//! Limits change: a row marked recalled has still to be compared with print, and every comparison
//! shows the mark. What a limit is set for and how a result is held to it: [`crate::terms`]. A row of
//! `maximum contaminant level goal` may be a zero. Checked in `tests/limits.rs`.

use crate::terms::Terms;
use quantity::Unit;
use serde::Serialize;
use std::sync::LazyLock;

/// One published limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Limit {
    /// Analyte as this project writes it: `Pb`, `NO3`, `pH`.
    pub analyte: String,
    /// Unit of the limit, with its basis where it has one.
    pub unit: Unit,
    /// Who set it.
    pub authority: String,
    /// Where it stands.
    pub document: String,
    /// Which edition.
    pub edition: String,
    /// `as N`, `as NO3`; empty where there is no choice.
    pub basis: String,
    /// What kind of limit: guideline value, aesthetic objective, action level …
    pub kind: String,
    /// Lower end of a range; none for an upper limit.
    pub low: Option<f64>,
    /// Upper end.
    pub high: f64,
    /// First day it is valid, `YYYY-MM-DD`; empty where it is valid already.
    pub valid_from: String,
    /// Last day it is valid; empty where no end is set.
    pub valid_until: String,
    /// `seen` in a document that was opened, or `recalled`.
    pub provenance: String,
    /// When it was read: a date, `not recorded`, or `not read`.
    pub date_read: String,
    /// What else its source says.
    pub note: String,
    /// What it is set for, its decision rule, what it demands of the method.
    #[serde(flatten)]
    pub terms: Terms,
}

/// A limit that had ended by this day decides about no sample whose day nobody knows.
// The day that the table was last gone through.
const GONE_THROUGH: &str = "2026-01-01";

impl Limit {
    /// Is it a goal of zero, which no measurement can show and nobody is held to?
    pub fn is_goal_of_zero(&self) -> bool {
        self.high == 0.0 && self.low.is_none()
    }

    /// Does the limit decide on a day (`YYYY-MM-DD`)? Where nobody says which day, a limit that has a first day does not:
    /// it may be still to come; nor one that had ended when the table was last gone through.
    pub fn decides_on(&self, date: Option<&str>) -> bool {
        let stands = || self.valid_from.is_empty() && self.holds_on(GONE_THROUGH);
        date.map_or_else(stands, |d| self.holds_on(d))
    }

    /// Does the limit hold on a day (`YYYY-MM-DD`)?
    pub fn holds_on(&self, date: &str) -> bool {
        (self.valid_from.is_empty() || self.valid_from.as_str() <= date)
            && (self.valid_until.is_empty() || date <= self.valid_until.as_str())
    }
}

/// Is it a day as limits and questions write it, `YYYY-MM-DD`? Days of this form alone are in order as texts.
pub fn is_day(text: &str) -> bool {
    text.len() == 10 && text.parse::<jiff::civil::Date>().is_ok()
}

static LIMITS: LazyLock<Vec<Limit>> = LazyLock::new(|| {
    let text = include_str!("../../../reference/drinking_water_limits.csv");
    csv::Reader::from_reader(text.as_bytes())
        .records()
        .map(|r| {
            let r = r.expect("the table of limits is well-formed");
            let s = |i: usize| r[i].to_string();
            Limit {
                analyte: s(0),
                unit: Unit::known(&r[1]),
                authority: s(2),
                document: s(3),
                edition: s(4),
                basis: s(5),
                kind: s(6),
                low: r[7].parse().ok(),
                high: r[8].parse().expect("a limit is a number"),
                valid_from: s(9),
                valid_until: s(10),
                provenance: s(11),
                date_read: s(12),
                note: s(13),
                terms: Terms::of(&r[2], &r[6], &r[0]),
            }
        })
        .collect()
});

/// All limits of the table, in its order.
pub fn limits() -> &'static [Limit] {
    &LIMITS
}

/// The authorities of the table, each once.
pub fn authorities() -> Vec<&'static str> {
    let mut out: Vec<&str> = vec![];
    for l in limits() {
        if !out.contains(&l.authority.as_str()) {
            out.push(&l.authority);
        }
    }
    out
}

/// An authority by its name, or by the short forms people write; none when it is not in the table.
pub fn authority(name: &str) -> Option<&'static str> {
    let wanted = match name.trim().to_ascii_lowercase().as_str() {
        "canada" | "ca" | "gcdwq" => "health canada".to_string(),
        "us" | "usa" | "epa" => "us epa".to_string(),
        other => other.to_string(),
    };
    authorities().into_iter().find(|a| a.to_ascii_lowercase() == wanted)
}

/// English names of what the table holds, as laboratories write them.
const NAMES: &[(&str, &str)] = &[
    ("lead", "Pb"),
    ("cadmium", "Cd"),
    ("copper", "Cu"),
    ("arsenic", "As"),
    ("antimony", "Sb"),
    ("barium", "Ba"),
    ("boron", "B"),
    ("chromium", "Cr"),
    ("iron", "Fe"),
    ("manganese", "Mn"),
    ("mercury", "Hg"),
    ("nickel", "Ni"),
    ("selenium", "Se"),
    ("uranium", "U"),
    ("zinc", "Zn"),
    ("aluminium", "Al"),
    ("aluminum", "Al"),
    ("thallium", "Tl"),
    ("silver", "Ag"),
    ("sodium", "Na"),
    ("chloride", "Cl"),
    ("sulfate", "SO4"),
    ("sulphate", "SO4"),
    ("fluoride", "F"),
    ("nitrate", "NO3"),
    ("nitrite", "NO2"),
    ("ammonium", "NH4"),
    ("sulfide", "S(-II)"),
    ("sulphide", "S(-II)"),
    ("beryllium", "Be"),
    ("strontium", "Sr"),
    ("electrical conductivity", "conductivity"),
    // The name for conductivity at 25 °C.
    ("specific conductance", "conductivity"),
];

/// The analyte as the table writes it: "lead" is `Pb`, `SO4^2-` and `SO4--` are `SO4`.
pub fn analyte(name: &str) -> String {
    let trimmed = name.trim();
    let lower = trimmed.to_lowercase();
    if let Some((_, symbol)) = NAMES.iter().find(|(n, _)| *n == lower) {
        return (*symbol).to_string();
    }
    let bare = quantity::formula::parted(trimmed).0;
    match limits().iter().find(|l| l.analyte.eq_ignore_ascii_case(bare)) {
        // "CO" is no cobalt: symbols keep their case, words do not.
        Some(l) if l.analyte == bare || bare.len() > 3 => l.analyte.clone(),
        _ => bare.to_string(),
    }
}
