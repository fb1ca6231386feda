//! Units of the trade as run-time values: a printed form, a UCUM code, a dimension vector and a
//! factor to SI, plus the basis a chemist states ("as N", "as CaCO3"). Laboratories bring units
//! at run time, so they are data here, not types. "ppt" is refused: it means parts per trillion
//! to one reader and parts per thousand to another.
//!
//! Source of the codes: the Unified Code for Units of Measure (UCUM), case-sensitive form.
//! Checked in `tests/units.rs`.

use crate::Substance;
use message::{Message, refusal as says};
use serde::{Deserialize, Serialize};
use std::fmt::{self, Write as _};
use std::sync::Arc;

/// Exponents of length, mass, time, temperature, current, amount of substance, charge number
/// (equivalents), counts and plane angle (a base unit of its own in UCUM: a latitude is no share).
pub type Dimension = [i8; 9];

// Axes that conversion looks at.
const L: usize = 0;
const M: usize = 1;
const N: usize = 5;
const EQ: usize = 6;

/// What goes wrong with units.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum UnitError {
    /// The text is no unit we know.
    Unknown {
        /// As found.
        text: String,
        /// What to try, or empty.
        hint: String,
    },
    /// The text means different things to different readers.
    Ambiguous {
        /// As found.
        text: String,
        /// What to write instead.
        hint: String,
    },
    /// The two units measure different things.
    Different {
        /// From.
        from: String,
        /// To.
        to: String,
        /// What is missing or differs.
        why: String,
    },
    /// A formula that cannot be read.
    UnknownSubstance {
        /// As found.
        formula: String,
    },
}

impl UnitError {
    /// What it says.
    pub fn message(&self) -> Message {
        match self {
            Self::Unknown { text, hint } if hint.is_empty() => says::UnitUnknown { text: text.into() }.into(),
            Self::Unknown { text, hint } => says::UnitUnknownHint { text: text.into(), hint: hint.into() }.into(),
            Self::Ambiguous { text, hint } => says::UnitAmbiguous { text: text.into(), hint: hint.into() }.into(),
            Self::Different { from, to, why } => {
                says::UnitDifferent { from: from.into(), to: to.into(), why: why.into() }.into()
            }
            Self::UnknownSubstance { formula } => says::Formula { formula: formula.into() }.into(),
        }
    }
}

impl std::fmt::Display for UnitError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message().in_english())
    }
}

impl std::error::Error for UnitError {}

#[derive(Debug, PartialEq)]
struct Def {
    print: String,
    ucum: String,
    dim: Dimension,
    factor: f64,
    offset: f64,
    basis: Option<Substance>,
}

/// A unit. Cheap to clone.
#[derive(Debug, Clone, PartialEq)]
pub struct Unit(Arc<Def>);

/// A linear map between two units: `to = from·factor + offset`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conversion {
    /// Factor.
    pub factor: f64,
    /// Offset, other than zero for temperatures only.
    pub offset: f64,
}

impl Conversion {
    /// Converts a value.
    pub fn apply(self, x: f64) -> f64 {
        x * self.factor + self.offset
    }

    /// Converts a difference (an uncertainty, a width).
    pub fn apply_difference(self, x: f64) -> f64 {
        x * self.factor
    }
}

struct Atom {
    names: &'static [&'static str],
    ucum: &'static str,
    dim: Dimension,
    factor: f64,
    offset: f64,
    prefixed: bool,
}

#[allow(clippy::too_many_arguments)] // one argument an axis, in the order of `Dimension`; of angles there is one unit
const fn d(l: i8, m: i8, t: i8, th: i8, i: i8, n: i8, eq: i8, c: i8) -> Dimension {
    [l, m, t, th, i, n, eq, c, 0]
}

/// The units we know, without prefixes. Factors to SI base units (m, kg, s, K, A, mol).
// UCUM table of units; exact by definition unless said.
const ATOMS: &[Atom] = &[
    Atom { names: &["1", ""], ucum: "1", dim: d(0, 0, 0, 0, 0, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: false },
    Atom {
        names: &["%", "percent"],
        ucum: "%",
        dim: d(0, 0, 0, 0, 0, 0, 0, 0),
        factor: 0.01,
        offset: 0.0,
        prefixed: false,
    },
    Atom { names: &["m"], ucum: "m", dim: d(1, 0, 0, 0, 0, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: true },
    // International foot and inch, 1959.
    Atom {
        names: &["ft"],
        ucum: "[ft_i]",
        dim: d(1, 0, 0, 0, 0, 0, 0, 0),
        factor: 0.3048,
        offset: 0.0,
        prefixed: false,
    },
    Atom {
        names: &["in"],
        ucum: "[in_i]",
        dim: d(1, 0, 0, 0, 0, 0, 0, 0),
        factor: 0.0254,
        offset: 0.0,
        prefixed: false,
    },
    Atom { names: &["g"], ucum: "g", dim: d(0, 1, 0, 0, 0, 0, 0, 0), factor: 1e-3, offset: 0.0, prefixed: true },
    Atom { names: &["t"], ucum: "t", dim: d(0, 1, 0, 0, 0, 0, 0, 0), factor: 1e3, offset: 0.0, prefixed: false },
    Atom { names: &["s", "sec"], ucum: "s", dim: d(0, 0, 1, 0, 0, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: true },
    Atom { names: &["min"], ucum: "min", dim: d(0, 0, 1, 0, 0, 0, 0, 0), factor: 60.0, offset: 0.0, prefixed: false },
    Atom {
        names: &["h", "hr"],
        ucum: "h",
        dim: d(0, 0, 1, 0, 0, 0, 0, 0),
        factor: 3600.0,
        offset: 0.0,
        prefixed: false,
    },
    Atom {
        names: &["d", "day"],
        ucum: "d",
        dim: d(0, 0, 1, 0, 0, 0, 0, 0),
        factor: 86_400.0,
        offset: 0.0,
        prefixed: false,
    },
    // UCUM: mean Julian year.
    Atom {
        names: &["a", "yr", "year"],
        ucum: "a_j",
        dim: d(0, 0, 1, 0, 0, 0, 0, 0),
        factor: 31_557_600.0,
        offset: 0.0,
        prefixed: false,
    },
    Atom { names: &["K"], ucum: "K", dim: d(0, 0, 0, 1, 0, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: false },
    Atom {
        names: &["°C", "degC", "deg C", "C", "Cel"],
        ucum: "Cel",
        dim: d(0, 0, 0, 1, 0, 0, 0, 0),
        factor: 1.0,
        offset: 273.15,
        prefixed: false,
    },
    Atom { names: &["L", "l"], ucum: "L", dim: d(3, 0, 0, 0, 0, 0, 0, 0), factor: 1e-3, offset: 0.0, prefixed: true },
    // US gallon 231 in³; imperial gallon 4.54609 L.
    Atom {
        names: &["US gal", "gal", "gal_us"],
        ucum: "[gal_us]",
        dim: d(3, 0, 0, 0, 0, 0, 0, 0),
        factor: 3.785_411_784e-3,
        offset: 0.0,
        prefixed: false,
    },
    Atom {
        names: &["imp gal", "gal_br"],
        ucum: "[gal_br]",
        dim: d(3, 0, 0, 0, 0, 0, 0, 0),
        factor: 4.546_09e-3,
        offset: 0.0,
        prefixed: false,
    },
    Atom { names: &["mol"], ucum: "mol", dim: d(0, 0, 0, 0, 0, 1, 0, 0), factor: 1.0, offset: 0.0, prefixed: true },
    Atom { names: &["M"], ucum: "mol/L", dim: d(-3, 0, 0, 0, 0, 1, 0, 0), factor: 1e3, offset: 0.0, prefixed: true },
    Atom { names: &["eq"], ucum: "eq", dim: d(0, 0, 0, 0, 0, 0, 1, 0), factor: 1.0, offset: 0.0, prefixed: true },
    Atom { names: &["Pa"], ucum: "Pa", dim: d(-1, 1, -2, 0, 0, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: true },
    Atom { names: &["bar"], ucum: "bar", dim: d(-1, 1, -2, 0, 0, 0, 0, 0), factor: 1e5, offset: 0.0, prefixed: true },
    Atom {
        names: &["atm"],
        ucum: "atm",
        dim: d(-1, 1, -2, 0, 0, 0, 0, 0),
        factor: 101_325.0,
        offset: 0.0,
        prefixed: false,
    },
    // Avoirdupois pound-force over a square inch: 0.45359237 · 9.80665 / 0.0254².
    Atom {
        names: &["psi"],
        ucum: "[psi]",
        dim: d(-1, 1, -2, 0, 0, 0, 0, 0),
        factor: 6_894.757_293_168_361,
        offset: 0.0,
        prefixed: false,
    },
    Atom { names: &["V"], ucum: "V", dim: d(2, 1, -3, 0, -1, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: true },
    Atom { names: &["S"], ucum: "S", dim: d(-2, -1, 3, 0, 2, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: true },
    // Becquerel: one decay a second. Curie: 3.7e10 Bq exactly, BIPM SI Brochure 8th ed. table 8
    // (from memory); UCUM "Ci".
    Atom { names: &["Bq"], ucum: "Bq", dim: d(0, 0, -1, 0, 0, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: true },
    Atom { names: &["Ci"], ucum: "Ci", dim: d(0, 0, -1, 0, 0, 0, 0, 0), factor: 3.7e10, offset: 0.0, prefixed: true },
    Atom {
        names: &["counts", "count", "cts"],
        ucum: "{counts}",
        dim: d(0, 0, 0, 0, 0, 0, 0, 1),
        factor: 1.0,
        offset: 0.0,
        prefixed: false,
    },
    // A full angle is 360 degrees and 2π radians.
    Atom {
        names: &["°", "deg"],
        ucum: "deg",
        dim: [0, 0, 0, 0, 0, 0, 0, 0, 1],
        factor: std::f64::consts::PI / 180.0,
        offset: 0.0,
        prefixed: false,
    },
    // Hardness, as amount of alkaline earths a litre. German degree: 10 mg/L CaO of 56.077 g/mol, DIN 38409-6 (from
    // memory: 1 °dH = 0.1783 mmol/L). UCUM has none; its own form for such units is a word in square brackets.
    Atom {
        names: &["°dH", "dH"],
        ucum: "[dH]",
        dim: d(-3, 0, 0, 0, 0, 1, 0, 0),
        factor: 10.0 / 56.077,
        offset: 0.0,
        prefixed: false,
    },
    // French degree: 10 mg/L CaCO3 of 100.087 g/mol (from memory).
    Atom {
        names: &["°fH", "fH"],
        ucum: "[fH]",
        dim: d(-3, 0, 0, 0, 0, 1, 0, 0),
        factor: 10.0 / 100.087,
        offset: 0.0,
        prefixed: false,
    },
    // Dimensionless in UCUM: pH is the negative decadic logarithm of an activity.
    Atom { names: &["pH"], ucum: "[pH]", dim: d(0, 0, 0, 0, 0, 0, 0, 0), factor: 1.0, offset: 0.0, prefixed: false },
];

const PREFIXES: &[(&str, &str, i32)] = &[
    ("k", "k", 3),
    ("h", "h", 2),
    ("d", "d", -1),
    ("c", "c", -2),
    ("m", "m", -3),
    ("µ", "u", -6),
    ("μ", "u", -6),
    ("u", "u", -6),
    ("n", "n", -9),
    ("p", "p", -12),
    ("f", "f", -15),
    ("M", "M", 6),
];

const MICRO: char = 'µ';

impl Unit {
    /// Reads a unit as a laboratory writes it or as a UCUM code: `ng/L`, `µg/l`, `ug/L as Cr`, `mg/L as CaCO3`,
    /// `nmol kg-1` is not understood, `nmol/kg` is.
    ///
    /// # Errors
    /// [`UnitError::Unknown`] for a text that is no unit, [`UnitError::Ambiguous`] for `ppt`, `ppm`, `ppb`.
    ///
    /// ```
    /// use quantity::{Unit, UnitError};
    /// // Parts per trillion to one reader, per thousand to another: refused.
    /// assert!(matches!(Unit::parse("ppt"), Err(UnitError::Ambiguous { .. })));
    /// // Nitrate as nitrogen and as itself differ by 4.4, so the basis is a part of the unit.
    /// assert_ne!(Unit::parse("mg/L as N")?, Unit::parse("mg/L as NO3")?);
    /// # Ok::<(), UnitError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Self, UnitError> {
        let text = text.trim();
        ambiguous(text)?;
        let annotated = || text.strip_suffix('}')?.split_once("{as ");
        let (body, basis) = match text.split_once(" as ").or_else(annotated) {
            Some((body, formula)) => (body.trim(), Some(Substance::parse(formula.trim())?)),
            None => (text, None),
        };
        let unknown = || UnitError::Unknown { text: text.to_string(), hint: hint(text) };
        let mut print = String::new();
        let mut ucum = String::new();
        let mut dim = [0i8; 9];
        let mut factor = 1.0;
        let mut offset = 0.0;
        let parts: Vec<&str> = split_atoms(body);
        let single = parts.len() == 1;
        for part in &parts {
            let (atom_text, sign) = match part.strip_prefix('/') {
                Some(rest) => (rest, -1i8),
                None => (part.trim_start_matches(['.', '·', '*']), 1i8),
            };
            let (name, power) = split_power(atom_text.trim());
            let a = atom(name).ok_or_else(unknown)?;
            let p = sign * power;
            for (x, y) in dim.iter_mut().zip(a.dim) {
                *x += y * p;
            }
            factor *= a.factor.powi(i32::from(p));
            // The zero of a scale (°C) matters to a unit alone; in a product or quotient a degree is a difference.
            if single && power == 1 && sign == 1 {
                offset = a.offset;
            }
            let first = print.is_empty();
            let joint = if sign < 0 {
                "/"
            } else if first {
                ""
            } else {
                "·"
            };
            // A one that multiplies says nothing: without it "1./L" is shown as it reads back.
            let skip = a.print == "1" && sign > 0 && parts.len() > 1;
            if !skip {
                let _ = write!(print, "{joint}{}{}", a.print, superscript(power));
            }
            let joint = if sign < 0 {
                "/"
            } else if first {
                ""
            } else {
                "."
            };
            if !skip {
                let _ = write!(ucum, "{joint}{}", a.ucum);
                if power != 1 {
                    let _ = write!(ucum, "{power}");
                }
            }
        }
        if print.is_empty() {
            print.push('1');
            ucum.push('1');
        }
        if let Some(s) = &basis {
            let _ = write!(print, " as {}", s.formula);
            let _ = write!(ucum, "{{as {}}}", s.formula);
        }
        Ok(Self(Arc::new(Def { print, ucum, dim, factor, offset, basis })))
    }

    /// A unit known to the program itself.
    ///
    /// # Panics
    /// When the text is no unit: a mistake in the program, found by its first test.
    pub fn known(text: &str) -> Self {
        Self::parse(text).expect("a unit written in the program is one we know")
    }

    /// The unit one.
    pub fn one() -> Self {
        Self::known("1")
    }

    /// The UCUM code, basis as an annotation: `mg/L{as N}`.
    pub fn ucum(&self) -> &str {
        &self.0.ucum
    }

    /// The dimension.
    pub fn dimension(&self) -> Dimension {
        self.0.dim
    }

    /// The factor to SI base units.
    pub fn si_factor(&self) -> f64 {
        self.0.factor
    }

    /// The stated basis ("as N").
    pub fn basis(&self) -> Option<&Substance> {
        self.0.basis.as_ref()
    }

    /// The map to another unit.
    ///
    /// Mass, moles and equivalents are joined through `substance`; a stated basis ("as N", "as SiO2")
    /// counts the atoms of its element; "as CaCO3" counts equivalents, two to the formula unit.
    ///
    /// # Errors
    /// [`UnitError::Different`] where the units do not measure the same thing and neither the
    /// substance nor the density given joins them.
    pub fn conversion(
        &self,
        to: &Self,
        substance: Option<&Substance>,
        density_kg_l: Option<f64>,
    ) -> Result<Conversion, UnitError> {
        let different =
            |why: &str| UnitError::Different { from: self.to_string(), to: to.to_string(), why: why.to_string() };
        let same_basis = self.basis() == to.basis();
        let same_kind = self.0.dim[N] == to.0.dim[N] && self.0.dim[EQ] == to.0.dim[EQ];
        if same_basis && same_kind {
            return plain(self, to, density_kg_l).ok_or_else(|| different("they do not measure the same thing"));
        }
        let charge = [self, to].iter().any(|u| u.0.dim[EQ] != 0 || counts_charge(u));
        // Two stated bases and no substance ("as NO3" to "as N"): the target's own formula will do.
        let substance = substance.or(if charge { None } else { self.basis().and(to.basis()) });
        let a = chemical(self, substance, charge).map_err(different)?;
        let b = chemical(to, substance, charge).map_err(different)?;
        let factor = joined_by_density(a.0, a.1, b.1, density_kg_l)
            .ok_or_else(|| different("they do not measure the same thing"))?;
        Ok(Conversion { factor: factor / b.0, offset: 0.0 })
    }
}

/// Units of one kind: a factor, and an offset between temperatures.
fn plain(from: &Unit, to: &Unit, density_kg_l: Option<f64>) -> Option<Conversion> {
    if from.0.offset != 0.0 || to.0.offset != 0.0 {
        return (from.0.dim == to.0.dim).then(|| Conversion {
            factor: from.0.factor / to.0.factor,
            offset: (from.0.offset - to.0.offset) / to.0.factor,
        });
    }
    let factor = joined_by_density(from.0.factor, from.0.dim, to.0.dim, density_kg_l)?;
    Some(Conversion { factor: factor / to.0.factor, offset: 0.0 })
}

fn counts_charge(u: &Unit) -> bool {
    u.basis().is_some_and(|s| s.formula == "CaCO3")
}

/// A unit's factor and dimension with its solute counted in moles of the substance, or in moles of
/// charge where `charge` asks for it.
fn chemical(unit: &Unit, substance: Option<&Substance>, charge: bool) -> Result<(f64, Dimension), &'static str> {
    let needed = || substance.ok_or("the substance is not given");
    let valence = || match needed()?.charge {
        0 => Err("a charge number is needed and the substance has none"),
        z => Ok(f64::from(z.abs())),
    };
    let (mut factor, mut dim) = (unit.0.factor, unit.0.dim);
    if dim[EQ] != 0 {
        dim[N] += dim[EQ];
        dim[EQ] = 0;
        return Ok((factor, dim));
    }
    if dim[N] == 0 {
        // A mass of solute; in a mass per mass it is the one above the stroke.
        dim[M] -= 1;
        dim[N] += 1;
        factor *= match unit.basis() {
            Some(b) if counts_charge(unit) => {
                return Ok((factor * 2.0e3 / b.molar_mass_g_mol, dim));
            }
            Some(b) => {
                1e3 / b.molar_mass_g_mol
                    * b.atoms_shared_with(needed()?).ok_or("the basis and the substance share no element")?
            }
            None => 1e3 / needed()?.molar_mass_g_mol,
        };
    }
    if charge {
        factor *= valence()?;
    }
    Ok((factor, dim))
}

/// Joins per litre and per kilogram of water by density where it is given.
fn joined_by_density(factor: f64, mut dim: Dimension, to: Dimension, density_kg_l: Option<f64>) -> Option<f64> {
    if dim == to {
        return Some(factor);
    }
    let rho_kg_m3 = density_kg_l? * 1e3;
    let (joined, sign) = if dim[L] < to[L] { (factor / rho_kg_m3, 1) } else { (factor * rho_kg_m3, -1) };
    dim[L] += 3 * sign;
    dim[M] -= sign;
    (dim == to).then_some(joined)
}

fn ambiguous(text: &str) -> Result<(), UnitError> {
    let lower = text.to_ascii_lowercase();
    let head = lower.split([' ', '(']).next().unwrap_or("");
    let hint = match head {
        "ppt" => "parts per trillion to some, per thousand to others; write ng/L or ng/kg (or g/kg for salt)",
        "ppb" => "per mass or per volume? write µg/L or µg/kg",
        "ppm" => "per mass or per volume? write mg/L or mg/kg",
        _ => return Ok(()),
    };
    Err(UnitError::Ambiguous { text: text.to_string(), hint: hint.to_string() })
}

fn hint(text: &str) -> String {
    if text.contains("-1") || text.contains('⁻') {
        "; write the divisor with a slash, for instance ng/L".into()
    } else {
        String::new()
    }
}

struct Parsed {
    print: String,
    ucum: String,
    dim: Dimension,
    factor: f64,
    offset: f64,
}

fn atom(name: &str) -> Option<Parsed> {
    for a in ATOMS {
        if a.names.contains(&name) || a.ucum == name {
            return Some(Parsed {
                print: a.names[0].to_string(),
                ucum: a.ucum.to_string(),
                dim: a.dim,
                factor: a.factor,
                offset: a.offset,
            });
        }
    }
    for (p, p_ucum, exp) in PREFIXES {
        if let Some(rest) = name.strip_prefix(p) {
            for a in ATOMS.iter().filter(|a| a.prefixed) {
                if a.names.contains(&rest) || a.ucum == rest {
                    let shown = if *exp == -6 { MICRO.to_string() } else { (*p).to_string() };
                    return Some(Parsed {
                        print: format!("{shown}{}", a.names[0]),
                        ucum: format!("{p_ucum}{}", a.ucum),
                        dim: a.dim,
                        factor: a.factor * 10f64.powi(*exp),
                        offset: 0.0,
                    });
                }
            }
        }
    }
    None
}

/// Splits `a.b/c` into `a`, `.b`, `/c`.
fn split_atoms(body: &str) -> Vec<&str> {
    let mut cuts = vec![0];
    for (i, c) in body.char_indices() {
        if i > 0 && matches!(c, '/' | '.' | '·' | '*') {
            cuts.push(i);
        }
    }
    cuts.push(body.len());
    cuts.windows(2).map(|w| &body[w[0]..w[1]]).collect()
}

fn split_power(text: &str) -> (&str, i8) {
    let (name, power) = match text.char_indices().last() {
        Some((i, '²')) => (&text[..i], 2),
        Some((i, '³')) => (&text[..i], 3),
        Some((i, c)) if i > 0 && matches!(c, '2' | '3') && !text.contains('[') => {
            (text[..i].trim_end_matches('^'), c as i8 - 48)
        }
        _ => (text, 1),
    };
    (name, power)
}

fn superscript(power: i8) -> &'static str {
    match power {
        2 => "²",
        3 => "³",
        _ => "",
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0.print)
    }
}

impl Serialize for Unit {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.serialize_str(&self.0.print)
    }
}

impl<'de> Deserialize<'de> for Unit {
    fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let text = String::deserialize(d)?;
        Self::parse(&text).map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_read_back_with_its_basis() {
        for text in ["ug/L as Cr", "mg/L as CaCO3", "mg/L as N", "pCi/L", "uS/cm", "ng/L"] {
            let unit = Unit::parse(text).unwrap();
            assert_eq!(Unit::parse(unit.ucum()).unwrap(), unit, "{text}");
        }
    }

    #[test]
    fn activities() {
        // 1 pCi = 0.037 Bq.
        let c = Unit::known("pCi/L").conversion(&Unit::known("Bq/L"), None, None).unwrap();
        assert!((c.factor - 0.037).abs() < 1e-15, "{}", c.factor);
    }
}
