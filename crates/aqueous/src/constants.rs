//! The table of equilibrium constants, `reference/aqueous_constants.csv`, read once.
//!
//! In: the rows (reaction, log K at 25 °C, enthalpy or fit, source, how it was known).
//! Out: [`Constant`] with log K at a temperature and its standard uncertainty. Order of
//! preference for the temperature: the published fit, else the enthalpy (van 't Hoff), else the
//! value at 25 °C, which is marked. Rows with a tag in brackets are rival values: they never
//! enter a default solution, they are what the doubt of a constant is made of.
//! Each row carries `seen`, `memory` or `computed`; nothing here drops that mark.
//! Checked in `tests/validation_constants.rs`.

use crate::water::{GAS_CONSTANT, ZERO_CELSIUS_K};
use libm::log10;
use std::sync::OnceLock;

/// What a row describes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A dissolved species.
    Aqueous,
    /// A solid.
    Mineral,
    /// A gas.
    Gas,
    /// A half reaction (or a couple written with O2).
    Redox,
}

/// How a figure is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Provenance {
    /// It stood in a document that was opened.
    Seen,
    /// Recalled; the named source is still to be compared with print.
    Memory,
    /// Computed from other figures.
    Computed,
}

impl Provenance {
    /// The mark as the tables write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Seen => "seen",
            Self::Memory => "memory",
            Self::Computed => "computed",
        }
    }
}

/// How log K depends on temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Temperature {
    /// log K = c0 + c1·T + c2/T + c3·log10 T + c4/T², T in K.
    Fit([f64; 5]),
    /// Constant enthalpy, kJ/mol.
    Enthalpy(f64),
    /// Nothing known: the value at 25 °C is used throughout.
    Unknown,
}

/// One row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Constant {
    /// What it describes.
    pub kind: Kind,
    /// Name without the tag: `CaCO3(aq)`, `calcite`.
    pub name: String,
    /// The tag of a rival row, `alt 1974`; empty in the default set.
    pub tag: String,
    /// Left side negative, right side positive; names without `(aq)`.
    pub terms: Vec<(String, f64)>,
    /// The reaction as printed.
    pub reaction: String,
    /// log10 K at 25 °C.
    pub log_k25: f64,
    /// Temperature dependence.
    pub temperature: Temperature,
    /// Standard uncertainty of log K at 25 °C.
    pub u: f64,
    /// Where `u` comes from, in words.
    pub u_origin: &'static str,
    /// Published source.
    pub source: String,
    /// How the figure is known.
    pub provenance: Provenance,
    /// Note of the table.
    pub note: String,
}

/// 25 °C in kelvin.
const T25: f64 = 25.0 + ZERO_CELSIUS_K;

/// Standard uncertainty assumed for an enthalpy that nobody gave, kJ/mol. Most enthalpies of
/// complexation in the table lie between 0 and 30 kJ/mol; a spread of 15 covers them.
// Chosen here from the spread of the table's own enthalpies (docs/decisions).
const U_UNKNOWN_ENTHALPY_KJ: f64 = 15.0;

impl Constant {
    /// log10 K at a temperature in °C.
    pub fn log_k(&self, t_c: f64) -> f64 {
        let t = t_c + ZERO_CELSIUS_K;
        match self.temperature {
            Temperature::Fit([c0, c1, c2, c3, c4]) => c0 + c1 * t + c2 / t + c3 * log10(t) + c4 / (t * t),
            Temperature::Enthalpy(dh) => self.log_k25 + vant_hoff(dh, t),
            Temperature::Unknown => self.log_k25,
        }
    }

    /// Standard uncertainty of log10 K at a temperature: u at 25 °C and, where no temperature
    /// term is known, the part of an enthalpy of ±15 kJ/mol.
    pub fn u_at(&self, t_c: f64) -> f64 {
        match self.temperature {
            Temperature::Unknown => {
                let extra = vant_hoff(U_UNKNOWN_ENTHALPY_KJ, t_c + ZERO_CELSIUS_K);
                libm::hypot(self.u, extra)
            }
            _ => self.u,
        }
    }

    /// True for a row of the default set.
    pub fn is_default(&self) -> bool {
        self.tag.is_empty()
    }
}

fn vant_hoff(dh_kj: f64, t: f64) -> f64 {
    dh_kj * 1000.0 / (core::f64::consts::LN_10 * GAS_CONSTANT) * (1.0 / T25 - 1.0 / t)
}

/// The table as it stands in `reference/`.
const TABLE: &str = include_str!("../../../reference/aqueous_constants.csv");

/// All rows, in the order of the table.
pub fn table() -> &'static [Constant] {
    static ROWS: OnceLock<Vec<Constant>> = OnceLock::new();
    ROWS.get_or_init(|| {
        csv::Reader::from_reader(TABLE.as_bytes())
            .records()
            .map(|r| row(&r.expect("the table of constants is well-formed CSV")))
            .collect()
    })
}

/// The default row of a name.
pub fn find(kind: Kind, name: &str) -> Option<&'static Constant> {
    table().iter().find(|c| c.kind == kind && c.is_default() && c.name == name)
}

/// The alternatives of a default row: same kind, same name (or the name it is filed under).
pub fn alternatives(c: &Constant) -> impl Iterator<Item = &'static Constant> {
    let kind = c.kind;
    let name = c.name.clone();
    table().iter().filter(move |r| r.kind == kind && !r.tag.is_empty() && filed_under(r) == name).filter(|r| usable(r))
}

/// Rows that were kept as markers only: conditional constants and superseded measurements.
fn usable(r: &Constant) -> bool {
    !r.note.contains("not for use") && !r.note.contains("cross-check only") && !r.note.contains("NOT an I=0 value")
}

/// The default row that a rival stands beside.
fn filed_under(r: &Constant) -> &str {
    match r.name.as_str() {
        "siderite" => "siderite crystalline",
        "gibbsite" => "gibbsite crystalline",
        "FeS" | "FeS ppt" => "mackinawite",
        other => other,
    }
}

fn row(r: &csv::StringRecord) -> Constant {
    let text = |i: usize| r.get(i).unwrap_or("").trim();
    let number = |i: usize| text(i).parse::<f64>().ok();
    let kind = match text(0) {
        "aq" => Kind::Aqueous,
        "mineral" => Kind::Mineral,
        "gas" => Kind::Gas,
        _ => Kind::Redox,
    };
    let (name, tag) = match text(1).split_once(" [") {
        Some((n, t)) => (n, t.trim_end_matches(']')),
        None => (text(1), ""),
    };
    let fit = [5, 6, 7, 8, 9].map(|i| number(i).unwrap_or(0.0));
    let temperature = if fit.iter().any(|c| *c != 0.0) {
        Temperature::Fit(fit)
    } else {
        number(4).map_or(Temperature::Unknown, Temperature::Enthalpy)
    };
    let (u, u_origin) = uncertainty(kind, text(10), text(13));
    Constant {
        kind,
        name: name.into(),
        tag: tag.into(),
        terms: parse_reaction(text(2)),
        reaction: text(2).into(),
        log_k25: number(3).expect("each row of the table of constants has log K"),
        temperature,
        u,
        u_origin,
        source: text(10).into(),
        provenance: match text(11) {
            "seen" => Provenance::Seen,
            "computed" => Provenance::Computed,
            // What the table does not mark counts as recalled, the weakest of the three.
            _ => Provenance::Memory,
        },
        note: text(13).into(),
    }
}

/// u of log K: the table's "+-" (halved where the source states 95 % intervals: IUPAC and NEA
/// reviews), else a class by the note. The classes are ours, said so in `u_origin`.
fn uncertainty(kind: Kind, source: &str, note: &str) -> (f64, &'static str) {
    let stated = note.split_once("+-").and_then(|(_, rest)| {
        let digits: String = rest.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
        digits.trim_end_matches('.').parse::<f64>().ok()
    });
    if let Some(x) = stated {
        return if source.contains("IUPAC") || source.contains("NEA") {
            (x / 2.0, "half the 95 % interval that the review states")
        } else {
            (x, "as the source states it")
        };
    }
    // Classes chosen here; see docs/decisions.
    if note.contains("very uncertain") {
        (0.7, "assumed for a constant called very uncertain")
    } else if note.contains("low confidence") {
        (0.3, "assumed for a constant of low confidence")
    } else if note.contains("3 to 5") {
        (0.6, "range 3 to 5 by ageing taken as rectangular")
    } else if note.contains("in use") {
        (0.2, "assumed from the values in use")
    } else if kind == Kind::Mineral {
        (0.1, "assumed for a solid without stated u")
    } else {
        (0.05, "assumed for a species without stated u")
    }
}

/// Reads `Ca++ + 2 H2O = X + 2 H+` into signed terms; `(aq)` is left off names.
pub fn parse_reaction(text: &str) -> Vec<(String, f64)> {
    let mut terms: Vec<(String, f64)> = Vec::new();
    for (side, sign) in text.split(" = ").zip([-1.0, 1.0]) {
        for part in side.split(" + ") {
            let part = part.trim();
            let (factor, name) = match part.split_once(' ') {
                Some((n, rest)) if n.parse::<f64>().is_ok() => (n.parse().expect("checked in the guard"), rest.trim()),
                _ => (1.0, part),
            };
            let name = bare(name);
            match terms.iter_mut().find(|(n, _)| n == name) {
                Some(t) => t.1 += sign * factor,
                None => terms.push((name.to_string(), sign * factor)),
            }
        }
    }
    terms
}

/// A species name without `(aq)`.
pub fn bare(name: &str) -> &str {
    name.strip_suffix("(aq)").unwrap_or(name)
}
