//! The table of equilibrium constants, `reference/aqueous_constants.csv`, read once.
//!
//! In: the rows (reaction, log K at 25 °C, ΔrH and ΔrCp or a fit, sources, how each was known).
//! Out: [`Constant`] with log K at a temperature and its standard uncertainty. Order of
//! preference for the temperature: the published fit, else ΔrH with ΔrCp (van 't Hoff), else the
//! value at 25 °C, which is marked. Rows with a tag in brackets are rival values: they never
//! enter a default solution, they are what the doubt of a constant is made of. A rival without a
//! temperature term takes that of its default: it differs in log K at 25 °C, not in the reaction.
//! Rows of one `set` were measured together: their rivals are taken whole, by tag ([`sets`]).
//! A value `absent` is that of a species that a set does not know.
//! Each row carries `seen`, `memory`, `computed` or `estimate`, for log K and for the temperature
//! term apart; nothing here drops these marks.
//! Checked in `tests/validation_constants.rs`.

use crate::water::{GAS_CONSTANT, ZERO_CELSIUS_K};
use libm::log10;
use std::collections::HashMap;
use std::sync::OnceLock;

/// What a row describes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
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
    /// Estimated by a rule or an analogy that the source names.
    Estimate,
}

impl Provenance {
    /// The mark as the tables write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Seen => "seen",
            Self::Memory => "memory",
            Self::Computed => "computed",
            Self::Estimate => "estimate",
        }
    }

    fn of(word: &str) -> Self {
        match word {
            "seen" => Self::Seen,
            "computed" => Self::Computed,
            "estimate" => Self::Estimate,
            // What the table does not mark counts as recalled, the weakest of a published figure.
            _ => Self::Memory,
        }
    }
}

/// How log K depends on temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Temperature {
    /// log K = c0 + c1·T + c2/T + c3·log10 T + c4/T², T in K.
    Fit([f64; 5]),
    /// ΔrH at 25 °C and its change with temperature (0 where nobody gave one).
    Enthalpy {
        /// ΔrH at 25 °C, kJ/mol.
        dh_kj: f64,
        /// Standard uncertainty of ΔrH, kJ/mol.
        u_kj: f64,
        /// ΔrCp, J/(mol K).
        dcp_j: f64,
    },
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
    /// log10 K at 25 °C; [`ABSENT`] for a species that the set leaves out.
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
    /// Source of the temperature term where it is another than that of log K.
    pub temperature_source: String,
    /// How the temperature term is known.
    pub temperature_provenance: Provenance,
    /// Rows measured together, whose rivals are taken whole; empty where a row stands alone.
    pub set: String,
    /// Note of the table.
    pub note: String,
}

/// log10 K of a species that a set does not know: so little of it that nothing is.
pub const ABSENT: f64 = -99.0;

/// 25 °C in kelvin.
const T25: f64 = 25.0 + ZERO_CELSIUS_K;

/// Standard uncertainty assumed for an enthalpy that nobody gave, kJ/mol. Most enthalpies of
/// complexation in the table lie between 0 and 30 kJ/mol; a spread of 15 covers them.
// Chosen here from the spread of the table's own enthalpies (docs/decisions).
const U_UNKNOWN_ENTHALPY_KJ: f64 = 15.0;

/// Standard uncertainty of a published enthalpy that states none, kJ/mol: what calorimetry, energies and slopes of
/// one reaction differ by in this table (MnOH+ 4.3, FeOH+ 5.0, MnSO4 and FeSO4 6, galena 3.8).
// Chosen here from the table's own rival enthalpies (docs/decisions).
const U_UNSTATED_ENTHALPY_KJ: f64 = 4.0;

impl Constant {
    /// log10 K at a temperature in °C.
    pub fn log_k(&self, t_c: f64) -> f64 {
        let t = t_c + ZERO_CELSIUS_K;
        match self.temperature {
            _ if self.is_absent() => ABSENT,
            Temperature::Fit([c0, c1, c2, c3, c4]) => c0 + c1 * t + c2 / t + c3 * log10(t) + c4 / (t * t),
            Temperature::Enthalpy { dh_kj, dcp_j, .. } => {
                self.log_k25 + vant_hoff(dh_kj, t) + heat_capacity_part(dcp_j, t)
            }
            Temperature::Unknown => self.log_k25,
        }
    }

    /// Standard uncertainty of log10 K at a temperature: u at 25 °C and what u of the enthalpy
    /// (±15 kJ/mol where there is none) makes of it away from there.
    pub fn u_at(&self, t_c: f64) -> f64 {
        let u_kj = match self.temperature {
            // A fit went through values at many temperatures: its u is that of the values.
            Temperature::Fit(_) => 0.0,
            Temperature::Enthalpy { u_kj, .. } => u_kj,
            Temperature::Unknown => U_UNKNOWN_ENTHALPY_KJ,
        };
        libm::hypot(self.u, vant_hoff(u_kj, t_c + ZERO_CELSIUS_K))
    }

    /// ΔrH at a temperature, kJ/mol: R·ln 10·T²·d(log10 K)/dT; `None` where nothing is known.
    pub fn enthalpy_kj(&self, t_c: f64) -> Option<f64> {
        let t = t_c + ZERO_CELSIUS_K;
        match self.temperature {
            Temperature::Fit([_, c1, c2, c3, c4]) => {
                Some(R_LN10_KJ * (c1 * t * t - c2 + c3 * t / core::f64::consts::LN_10 - 2.0 * c4 / t))
            }
            Temperature::Enthalpy { dh_kj, dcp_j, .. } => Some(dh_kj + dcp_j * (t - T25) / 1000.0),
            Temperature::Unknown => None,
        }
    }

    /// ΔrCp at a temperature, J/(mol K); `None` where nothing is known or a constant ΔrH was taken.
    pub fn heat_capacity_j(&self, t_c: f64) -> Option<f64> {
        let t = t_c + ZERO_CELSIUS_K;
        match self.temperature {
            Temperature::Fit([_, c1, _, c3, c4]) => {
                Some(1000.0 * R_LN10_KJ * (2.0 * c1 * t + c3 / core::f64::consts::LN_10 + 2.0 * c4 / (t * t)))
            }
            Temperature::Enthalpy { dcp_j, .. } => (dcp_j != 0.0).then_some(dcp_j),
            Temperature::Unknown => None,
        }
    }

    /// The temperature term as a formula: a fit with its own coefficients, else van 't Hoff's.
    pub fn formula(&self) -> String {
        match self.temperature {
            Temperature::Fit(c) => {
                let forms = ["", " T", "/T", " log10 T", "/T\u{b2}"];
                let terms: Vec<String> =
                    c.iter().zip(forms).filter(|(c, _)| **c != 0.0).map(|(c, of)| format!("{c}{of}")).collect();
                format!("log10 K = {}, T in K", terms.join(" + ").replace("+ -", "\u{2212} "))
            }
            Temperature::Enthalpy { dcp_j, .. } => {
                let heat = if dcp_j == 0.0 { "" } else { " + \u{394}rCp (T0/T \u{2212} 1 + ln(T/T0))" };
                let term = "\u{394}rH (1/T0 \u{2212} 1/T)";
                format!("log10 K = log10 K(T0) + ({term}{heat})/(R ln 10), T0 = 298.15 K")
            }
            Temperature::Unknown => "log10 K = log10 K(298.15 K)".into(),
        }
    }

    /// True for a species that the row's set does not know.
    pub fn is_absent(&self) -> bool {
        self.log_k25 <= ABSENT
    }

    /// True for a row of the default set.
    pub fn is_default(&self) -> bool {
        self.tag.is_empty()
    }
}

/// R·ln 10, kJ/(mol K).
const R_LN10_KJ: f64 = core::f64::consts::LN_10 * GAS_CONSTANT / 1000.0;

fn vant_hoff(dh_kj: f64, t: f64) -> f64 {
    dh_kj / R_LN10_KJ * (1.0 / T25 - 1.0 / t)
}

/// What a constant ΔrCp adds to van 't Hoff's term (Clarke & Glew 1966, Trans. Faraday Soc. 62:539, from memory).
fn heat_capacity_part(dcp_j: f64, t: f64) -> f64 {
    dcp_j / 1000.0 / R_LN10_KJ * (T25 / t - 1.0 + libm::log(t / T25))
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
    static OF: OnceLock<HashMap<(Kind, &'static str), Vec<usize>>> = OnceLock::new();
    let of = OF.get_or_init(|| {
        let mut out: HashMap<(Kind, &'static str), Vec<usize>> = HashMap::new();
        for (k, r) in table().iter().enumerate().filter(|(_, r)| !r.tag.is_empty() && usable(r)) {
            out.entry((r.kind, filed_under(r))).or_default().push(k);
        }
        out
    });
    of.get(&(c.kind, c.name.as_str())).into_iter().flatten().map(|k| &table()[*k])
}

/// Rows that were kept as markers only: conditional constants and superseded measurements.
fn usable(r: &Constant) -> bool {
    !r.note.contains("not for use") && !r.note.contains("cross-check only") && !r.note.contains("NOT an I=0 value")
}

/// Rows that were measured together, with the rivals of each tag.
#[derive(Debug, Clone, PartialEq)]
pub struct AlternativeSet {
    /// Name: `lead carbonate`.
    pub name: String,
    /// One rival set a tag.
    pub variants: Vec<Variant>,
}

/// One rival set of values.
#[derive(Debug, Clone, PartialEq)]
pub struct Variant {
    /// The tag: `2009`.
    pub tag: String,
    /// Row of a default value and row of the rival that takes its place.
    pub rows: Vec<(usize, usize)>,
}

/// All sets, in the order of the table.
pub fn sets() -> &'static [AlternativeSet] {
    static SETS: OnceLock<Vec<AlternativeSet>> = OnceLock::new();
    SETS.get_or_init(|| {
        let rows = table();
        let mut out: Vec<AlternativeSet> = Vec::new();
        for (k, r) in rows.iter().enumerate().filter(|(_, r)| !r.set.is_empty() && !r.is_default()) {
            let default = rows.iter().position(|d| d.is_default() && d.kind == r.kind && d.name == filed_under(r));
            let default = default.expect("each rival of a set stands beside a default row");
            let at = out.iter().position(|s| s.name == r.set).unwrap_or_else(|| {
                out.push(AlternativeSet { name: r.set.clone(), variants: vec![] });
                out.len() - 1
            });
            let variants = &mut out[at].variants;
            match variants.iter_mut().find(|v| v.tag == r.tag) {
                Some(v) => v.rows.push((default, k)),
                None => variants.push(Variant { tag: r.tag.clone(), rows: vec![(default, k)] }),
            }
        }
        out
    })
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

// Columns of the table.
const KIND: usize = 0;
const NAME: usize = 1;
const REACTION: usize = 2;
const LOG_K: usize = 3;
const U_LOG_K: usize = 4;
const ENTHALPY: usize = 5;
const U_ENTHALPY: usize = 6;
const HEAT_CAPACITY: usize = 7;
const FIT: [usize; 5] = [8, 9, 10, 11, 12];
const SOURCE: usize = 13;
const MARK: usize = 14;
const TEMPERATURE_SOURCE: usize = 15;
const TEMPERATURE_MARK: usize = 16;
const SET: usize = 17;
const NOTE: usize = 19;

fn row(r: &csv::StringRecord) -> Constant {
    let text = |i: usize| r.get(i).unwrap_or("").trim();
    let number = |i: usize| text(i).parse::<f64>().ok();
    let kind = match text(KIND) {
        "aq" => Kind::Aqueous,
        "mineral" => Kind::Mineral,
        "gas" => Kind::Gas,
        _ => Kind::Redox,
    };
    let (name, tag) = match text(NAME).split_once(" [") {
        Some((n, t)) => (n, t.trim_end_matches(']')),
        None => (text(NAME), ""),
    };
    let fit = FIT.map(|i| number(i).unwrap_or(0.0));
    let temperature = if fit.iter().any(|c| *c != 0.0) {
        Temperature::Fit(fit)
    } else {
        number(ENTHALPY).map_or(Temperature::Unknown, |dh_kj| Temperature::Enthalpy {
            dh_kj,
            u_kj: number(U_ENTHALPY).unwrap_or(U_UNSTATED_ENTHALPY_KJ),
            dcp_j: number(HEAT_CAPACITY).unwrap_or(0.0),
        })
    };
    let (u, u_origin) = match number(U_LOG_K) {
        Some(u) => (u, "as the table states it"),
        None => uncertainty(kind, text(SOURCE), text(NOTE)),
    };
    let provenance = Provenance::of(text(MARK));
    Constant {
        kind,
        name: name.into(),
        tag: tag.into(),
        terms: parse_reaction(text(REACTION)),
        reaction: text(REACTION).into(),
        log_k25: match text(LOG_K) {
            "absent" => ABSENT,
            given => given.parse().expect("each row of the table of constants has log K"),
        },
        temperature,
        u,
        u_origin,
        source: text(SOURCE).into(),
        provenance,
        // A term without a source of its own came with log K.
        temperature_provenance: match text(TEMPERATURE_MARK) {
            "" => provenance,
            mark => Provenance::of(mark),
        },
        temperature_source: text(TEMPERATURE_SOURCE).into(),
        set: text(SET).into(),
        note: text(NOTE).into(),
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

/// Reads `Ca^2+ + 2 H2O = X + 2 H+` into signed terms; `(aq)` is left off names.
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
