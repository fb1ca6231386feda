//! An analysis as laboratories give it, turned into molalities of components.
//!
//! In: [`Analysis`] — temperature, pH, Eh, and a list of analytes with value (or "below"), u,
//! unit and, for a bottle's fraction, filtered or not. Out: [`Interpreted`] — one entry a
//! component in mol/kg water with u, what was assumed, what is missing or contradictory.
//! Units are any of mass, amount or equivalents per litre or per kilogram. A basis that could be
//! two things (nitrate as N or as NO3, alkalinity as CaCO3 or in meq/L, silica, sulfide,
//! phosphate) must be stated; it is asked for, never guessed. Kilograms of water in a litre are
//! taken from the density of pure water at the temperature given; at 1 g/L of salts the error is
//! under 0.1 %. A non-detect enters with its limit and is marked so through every result.
//! It does no chemistry. Checked in `tests/analysis.rs`.

use crate::balance::Rule;
use crate::error::{Error, within};
use crate::network::network;
use crate::water::density_kg_l;
use message::{Digits, Message, Share, Shown, analysis as text, water as said};
use quantity::formula::{parted, spelled};
use quantity::{Amount, Check, Finding, Outcome, Substance, Unit};
use std::sync::OnceLock;

/// Which part of the water a bottle holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fraction {
    /// Through a filter of this pore size, µm.
    FilteredUm(f64),
    /// No filter: unfiltered, acid-soluble.
    Unfiltered,
}

/// One line of a laboratory's report.
#[derive(Debug, Clone, PartialEq)]
pub struct Analyte {
    /// `Ca`, `alkalinity`, `S(-II)`, `nitrate` …
    pub name: String,
    /// Value with unit, or a limit.
    pub amount: Amount,
    /// Filtered or not, where known.
    pub fraction: Option<Fraction>,
}

/// One water as measured.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Analysis {
    /// Temperature at the well, °C.
    pub temperature_c: f64,
    /// Field pH; `None` asks for pH from the charge balance.
    pub ph: Option<f64>,
    /// Standard uncertainty of pH where known.
    pub u_ph: Option<f64>,
    /// pH measured in the laboratory.
    pub laboratory_ph: Option<f64>,
    /// Measured Eh against the standard hydrogen electrode, mV.
    pub eh_mv: Option<f64>,
    /// Measured conductivity at 25 °C, µS/cm.
    pub conductivity_us_cm: Option<f64>,
    /// Measured dissolved solids, mg/L.
    pub dissolved_solids_mg_l: Option<f64>,
    /// Oxygen that the programme's probe reads in water without any, mg/L.
    pub oxygen_floor_mg_l: Option<f64>,
    /// The rule that says what a charge balance is and how large it may be.
    pub balance_rule: Rule,
    /// The analytes.
    pub analytes: Vec<Analyte>,
}

/// How a value bounds the truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// A value.
    Value,
    /// The truth lies under the value.
    Below,
    /// The truth lies over the value.
    Above,
}

/// One component of the water.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Network component.
    pub component: usize,
    /// The name it was given under.
    pub name: String,
    /// mol/kg water.
    pub molality: f64,
    /// Standard uncertainty, mol/kg.
    pub u: f64,
    /// False where the laboratory stated no u and 5 % was assumed.
    pub u_stated: bool,
    /// Value or limit.
    pub bound: Bound,
}

/// Alkalinity, eq/kg.
#[derive(Debug, Clone, PartialEq)]
pub struct Alkalinity {
    /// eq/kg water.
    pub eq_kg: f64,
    /// Standard uncertainty, eq/kg.
    pub u: f64,
    /// False where 5 % was assumed.
    pub u_stated: bool,
    /// Value or limit.
    pub bound: Bound,
}

/// The analysis in components.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Interpreted {
    /// Components with totals.
    pub entries: Vec<Entry>,
    /// Alkalinity where given.
    pub alkalinity: Option<Alkalinity>,
    /// Free carbon dioxide where given beside a pH: it is compared, not used.
    pub carbon_dioxide: Option<Entry>,
    /// Dissolved organic carbon where given.
    pub doc: Option<Amount>,
    /// Measured, but not in the table of constants.
    pub not_in_table: Vec<String>,
    /// Measured, in the table, and without an answer in this water; why stands in the warnings.
    pub refused: Vec<String>,
    /// What was missing or contradictory.
    pub findings: Vec<Finding>,
    /// Assumptions made on the way.
    pub warnings: Vec<Message>,
}

/// Relative standard uncertainty assumed where none is stated.
// Common practice for routine major-ion analyses (about 10 % expanded); said in the warnings.
pub const ASSUMED_RELATIVE_U: f64 = 0.05;

/// Standard uncertainty of pH assumed where none is stated.
// Common practice for a field electrode after two-point calibration.
pub const ASSUMED_U_PH: f64 = 0.05;

/// pH range within which the table's species cover natural waters.
pub const PH_RANGE: (f64, f64) = (0.0, 14.0);

/// Two statements of one component agree within this relative difference.
// Chosen here: twice the assumed u of each, in quadrature.
const AGREEMENT: f64 = 0.15;

struct Name {
    text: String,
    component: usize,
    /// Formula that a mass refers to; empty where it must be stated.
    basis: String,
}

fn names() -> &'static [Name] {
    static NAMES: OnceLock<Vec<Name>> = OnceLock::new();
    NAMES.get_or_init(|| {
        let table = include_str!("../../../reference/aqueous_components.csv");
        let net = network();
        csv::Reader::from_reader(table.as_bytes())
            .records()
            .flat_map(|r| {
                let r = r.expect("the table of components is well-formed CSV");
                let component = net.component(&r[0]).expect("the network holds every row");
                r[3].split(';')
                    .map(|pair| {
                        let (name, basis) = pair.rsplit_once('=').expect("name=basis");
                        Name { text: name.to_lowercase(), component, basis: basis.trim_matches('?').to_string() }
                    })
                    .collect::<Vec<_>>()
            })
            .collect()
    })
}

/// Elements and names that laboratories report and the table holds no species of.
const NAMED_ELEMENTS: &[&str] = &[
    "thallium",
    "selenium",
    "silver",
    "tin",
    "mercury",
    "beryllium",
    "rubidium",
    "caesium",
    "cesium",
    "titanium",
    "scandium",
    "thorium",
    "bismuth",
    "tungsten",
    "gallium",
    "yttrium",
    "lanthanum",
    "cerium",
    "iodide",
    "germanium",
];

const ELEMENTS: &[&str] = &[
    "Tl", "Se", "Ag", "Sn", "Hg", "Be", "Rb", "Cs", "Ti", "Sc", "Th", "Bi", "W", "Ga", "Y", "La", "Ce", "I", "Ge",
    "Zr", "Nb", "Re", "In", "Nd", "Pr", "Sm", "Eu", "Gd", "Tb", "Dy", "Ho", "Er", "Tm", "Yb", "Lu", "Hf", "Ta", "Pd",
    "Pt", "Rh", "Ru", "Au", "Te",
];

fn number(a: &Amount) -> (f64, Bound) {
    match a {
        Amount::Below(b) => (b.limit, Bound::Below),
        Amount::Above(b) => (b.limit, Bound::Above),
        other => (other.value().unwrap_or(f64::NAN), Bound::Value),
    }
}

/// How a unit measures: mass, amount or charge, per litre or per kilogram.
struct Measure {
    /// Factor to g, mol or eq per litre (or kilogram).
    factor: f64,
    kind: MeasureKind,
    per_kg: bool,
}

#[derive(PartialEq)]
enum MeasureKind {
    Mass,
    Amount,
    Charge,
}

fn measure(name: &str, unit: &Unit) -> Result<Measure, Error> {
    let unclear = || Error::Unclear {
        quantity: name.into(),
        found: text::Unit { unit: message::Name::from(unit.to_string()) }.into(),
        expected: text::UnitsKnown.into(),
    };
    let [l, m, t, th, i, n, eq, count, angle] = unit.dimension();
    if [t, th, i, count, angle] != [0; 5] {
        return Err(unclear());
    }
    let si = unit.si_factor();
    // Per m³ to per litre 1e−3; kg to g 1e3.
    let (factor, kind, per_kg) = match (l, m, n, eq) {
        (-3, 1, 0, 0) => (si, MeasureKind::Mass, false),
        (0, 0, 0, 0) if unit.to_string().contains('/') => (si * 1e3, MeasureKind::Mass, true),
        (-3, 0, 1, 0) => (si * 1e-3, MeasureKind::Amount, false),
        (0, -1, 1, 0) => (si, MeasureKind::Amount, true),
        (-3, 0, 0, 1) => (si * 1e-3, MeasureKind::Charge, false),
        (0, -1, 0, 1) => (si, MeasureKind::Charge, true),
        _ => return Err(unclear()),
    };
    Ok(Measure { factor, kind, per_kg })
}

/// Grams of a substance's carrier per mole of component: a mass "as SiO2" is a mass of SiO2, one
/// formula of which holds one atom of what was measured.
fn molar_mass(name: &str, formula: &str) -> Result<f64, Error> {
    Substance::parse(formula).map(|s| s.molar_mass_g_mol).map_err(|e| Error::Unclear {
        quantity: name.into(),
        found: text::Basis { formula: message::Name::from(formula) }.into(),
        expected: e.to_string().into(),
    })
}

/// mol/kg water of a component from a value in some unit.
fn to_molality(a: &Analyte, entry: &Name, density: f64) -> Result<f64, Error> {
    let m = measure(&a.name, a.amount.unit())?;
    let per_litre = if m.per_kg { 1.0 } else { 1.0 / density };
    let stated = a.amount.unit().basis().map(|s| s.formula.clone());
    let moles = match m.kind {
        MeasureKind::Amount => 1.0,
        MeasureKind::Charge => {
            let z = network().components[entry.component].charge.abs();
            if z == 0 {
                return Err(Error::Unclear {
                    quantity: a.name.as_str().into(),
                    found: text::Neutral.into(),
                    expected: text::MassOrAmount.into(),
                });
            }
            1.0 / f64::from(z)
        }
        MeasureKind::Mass => {
            let formula = match (&stated, entry.basis.as_str()) {
                (Some(f), _) => f.clone(),
                (None, "") => return Err(basis_missing(a)),
                (None, f) => f.to_string(),
            };
            fits(a, &formula, entry.component)?;
            1.0 / molar_mass(&a.name, &formula)?
        }
    };
    Ok(m.factor * moles * per_litre)
}

/// A basis must hold the element it is a basis of.
fn fits(a: &Analyte, formula: &str, component: usize) -> Result<(), Error> {
    let c = &network().components[component];
    let mut letters = String::new();
    let mut elements = Vec::new();
    for ch in formula.chars() {
        if ch.is_ascii_uppercase() {
            elements.push(std::mem::take(&mut letters));
            letters.push(ch);
        } else if ch.is_ascii_lowercase() {
            letters.push(ch);
        } else {
            elements.push(std::mem::take(&mut letters));
        }
    }
    elements.push(letters);
    if elements.contains(&c.element) || (c.element == "C" && formula == "CaCO3") {
        return Ok(());
    }
    Err(Error::Unclear {
        quantity: a.name.as_str().into(),
        found: text::Basis { formula: message::Name::from(formula) }.into(),
        expected: text::BasisOf { element: message::Name::from(&c.element) }.into(),
    })
}

fn basis_missing(a: &Analyte) -> Error {
    let forms = match a.name.to_lowercase() {
        n if n.contains("nitrate") || n.starts_with("no3") => Some(["N", "NO3"]),
        n if n.contains("nitrite") || n.starts_with("no2") => Some(["N", "NO2"]),
        n if n.contains("ammon") || n.starts_with("nh4") => Some(["N", "NH4"]),
        n if n.contains("phosph") || n.starts_with("po4") => Some(["P", "PO4"]),
        n if n.contains("silica") => Some(["SiO2", "Si"]),
        n if n.contains("sulf") || n.contains("sulph") => Some(["S", "H2S"]),
        n if n.contains("arsen") => Some(["As", "AsO4"]),
        n if n.contains("borate") => Some(["B", "B(OH)3"]),
        _ => None,
    };
    let unit = message::Name::from(a.amount.unit().to_string());
    Error::Unclear {
        quantity: a.name.as_str().into(),
        found: text::WithoutBasis { amount: a.amount.with_u() }.into(),
        expected: match forms {
            Some([one, other]) => {
                text::BasisForInstance { unit, one: message::Name::from(one), other: message::Name::from(other) }.into()
            }
            None => text::BasisAsWeighed { unit }.into(),
        },
    }
}

/// eq/kg from an alkalinity.
fn alkalinity(a: &Analyte, density: f64) -> Result<f64, Error> {
    let m = measure(&a.name, a.amount.unit())?;
    let per_litre = if m.per_kg { 1.0 } else { 1.0 / density };
    let basis = a.amount.unit().basis().map(|s| parted(&s.formula).0.to_string());
    let basis = basis.or_else(|| CarbonForm::of(&a.name).map(|f| f.formula().to_string()));
    let eq_per = match (m.kind, basis.as_deref()) {
        (MeasureKind::Charge, _) | (MeasureKind::Amount, None | Some("HCO3")) => 1.0,
        (MeasureKind::Amount, Some("CaCO3" | "CO3")) => 2.0,
        (MeasureKind::Mass, Some("CaCO3")) => 2.0 / molar_mass(&a.name, "CaCO3")?,
        (MeasureKind::Mass, Some("HCO3")) => 1.0 / molar_mass(&a.name, "HCO3")?,
        (MeasureKind::Mass, Some("CO3")) => 2.0 / molar_mass(&a.name, "CO3")?,
        _ => {
            return Err(Error::Unclear {
                quantity: a.name.as_str().into(),
                found: text::AlkalinityWithoutBasis { amount: a.amount.with_u() }.into(),
                expected: text::AlkalinityBases.into(),
            });
        }
    };
    Ok(m.factor * eq_per * per_litre)
}

fn is_alkalinity(name: &str) -> bool {
    let n = name.trim().to_lowercase();
    // "Säurekapazität bis pH 4,3" (DIN 38409-7, from memory) is the same titration.
    n.starts_with("alkalinity")
        || n.starts_with("säurekapazität")
        || matches!(n.as_str(), "anc" | "acid neutralising capacity" | "ks4,3" | "ks4.3" | "ks 4,3" | "ks 4.3")
        || is_acidity(&n)
}

/// Acidity is alkalinity with the other sign.
fn is_acidity(name: &str) -> bool {
    name.trim().to_lowercase().starts_with("acidity")
}

fn is_organic_carbon(name: &str) -> bool {
    matches!(name.trim().to_lowercase().as_str(), "doc" | "dissolved organic carbon" | "npoc")
}

/// A form of inorganic carbon that laboratories report beside or instead of an alkalinity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum CarbonForm {
    Bicarbonate,
    Carbonate,
    CarbonDioxide,
}

impl CarbonForm {
    fn of(name: &str) -> Option<Self> {
        match spelled(name.trim()).to_lowercase().as_str() {
            "hco3" | "hco3-" | "bicarbonate" | "hydrogen carbonate" | "hydrogencarbonate" | "hydrogencarbonat" => {
                Some(Self::Bicarbonate)
            }
            "co3" | "co3^2-" | "co32-" | "co3-2" | "carbonate" | "carbonat" => Some(Self::Carbonate),
            "co2" | "co2(aq)" | "free co2" | "carbon dioxide" | "kohlendioxid" => Some(Self::CarbonDioxide),
            _ => None,
        }
    }

    fn formula(self) -> &'static str {
        match self {
            Self::Bicarbonate => "HCO3",
            Self::Carbonate => "CO3",
            Self::CarbonDioxide => "CO2",
        }
    }
}

/// Amount of one form as reported.
#[derive(Debug, Clone)]
struct Reported {
    /// eq/kg of bicarbonate and carbonate, mol/kg of carbon dioxide.
    value: f64,
    u: f64,
    u_stated: bool,
    bound: Bound,
    name: String,
    amount: Amount,
}

/// The forms of carbon of one report, before it is known what stands beside what.
#[derive(Debug, Default)]
struct Carbon {
    bicarbonate: Option<Reported>,
    carbonate: Option<Reported>,
    dioxide: Option<Reported>,
}

impl Carbon {
    /// Reads one form. Of two of the same form the first (field before laboratory) stays.
    fn take(&mut self, form: CarbonForm, x: &Analyte, density: f64, assumed: &mut Vec<String>) -> Result<(), Error> {
        let factor = match form {
            CarbonForm::CarbonDioxide => carbon_dioxide(x, density)?,
            _ => alkalinity(x, density)?,
        };
        let (value, bound) = number(&x.amount);
        let (u, u_stated) = u_of(x, value, factor, assumed);
        let place = match form {
            CarbonForm::Bicarbonate => &mut self.bicarbonate,
            CarbonForm::Carbonate => &mut self.carbonate,
            CarbonForm::CarbonDioxide => &mut self.dioxide,
        };
        let (name, amount) = (x.name.clone(), x.amount.clone());
        place.get_or_insert(Reported { value: value * factor, u, u_stated, bound, name, amount });
        Ok(())
    }

    /// What the forms say of the alkalinity: HCO3 + 2 CO3, compared with one that was stated, else in its place.
    fn settle(self, a: &Analysis, out: &mut Interpreted) -> Result<(), Error> {
        let sum = match (&self.bicarbonate, &self.carbonate) {
            (None, None) => None,
            (None, Some(alone)) if out.alkalinity.is_none() => {
                return Err(Error::Unclear {
                    quantity: alone.name.as_str().into(),
                    found: text::CarbonateAlone.into(),
                    expected: text::BicarbonateBeside.into(),
                });
            }
            (bicarbonate, carbonate) => Some(sum_of(bicarbonate.as_ref(), carbonate.as_ref())),
        };
        match (&out.alkalinity, sum) {
            (Some(stated), Some(sum)) => out.findings.push(beside_alkalinity(stated, &sum, &self)),
            (None, Some(sum)) => {
                if let (Some(alone), None) = (&self.bicarbonate, &self.carbonate) {
                    out.warnings.push(text::BicarbonateAlone { bicarbonate: alone.amount.with_u() }.into());
                }
                out.alkalinity = Some(sum);
            }
            (_, None) => {}
        }
        if let Some(x) = self.dioxide {
            let component = network().component("CO3^2-").expect("carbonate is a component of the table");
            let mut entry =
                Entry { component, name: x.name, molality: x.value, u: x.u, u_stated: x.u_stated, bound: x.bound };
            if a.ph.is_some() || out.entries.iter().any(|e| e.component == component) {
                out.carbon_dioxide = Some(entry);
            } else if let Some(alkalinity) = out.alkalinity.as_ref().filter(|x| x.eq_kg > 0.0) {
                // Without pH: carbon is what the alkalinity holds, one to an equivalent (two in CO3), and the free CO2.
                let twice = self.carbonate.map_or(0.0, |c| if c.bound == Bound::Value { 0.5 * c.value } else { 0.0 });
                entry.molality += alkalinity.eq_kg - twice;
                entry.u = libm::hypot(entry.u, alkalinity.u);
                out.entries.push(entry);
            }
        }
        Ok(())
    }
}

/// HCO3 + 2 CO3, eq/kg. What was not found adds nothing but its limit to u (uniform from nought: limit/√3).
fn sum_of(bicarbonate: Option<&Reported>, carbonate: Option<&Reported>) -> Alkalinity {
    let mut out = Alkalinity { eq_kg: 0.0, u: 0.0, u_stated: true, bound: Bound::Value };
    for x in bicarbonate.into_iter().chain(carbonate) {
        let alone = bicarbonate.is_none() || carbonate.is_none();
        if x.bound == Bound::Below && !alone {
            out.u = libm::hypot(out.u, x.value / libm::sqrt(3.0));
            continue;
        }
        out.eq_kg += x.value;
        out.u = libm::hypot(out.u, x.u);
        out.u_stated &= x.u_stated;
        out.bound = if x.bound == Bound::Value { out.bound } else { x.bound };
    }
    out
}

/// The parts beside the whole: both parts must add up to it, one alone must not exceed it.
fn beside_alkalinity(stated: &Alkalinity, sum: &Alkalinity, parts: &Carbon) -> Finding {
    let spread = (2.0 * libm::hypot(stated.u, sum.u)).max(AGREEMENT * stated.eq_kg.abs());
    let both = parts.bicarbonate.is_some() && parts.carbonate.is_some();
    let off = if both { (stated.eq_kg - sum.eq_kg).abs() } else { sum.eq_kg - stated.eq_kg };
    let outcome = if off > spread { Outcome::NotMet } else { Outcome::Met };
    Finding::new(Check::MeaningAlkalinityTwice, outcome, said::AlkalinityAndItsParts)
        .comparing(message::compared::First, Amount::stated(stated.eq_kg * 1e3, Unit::known("mmol/kg")))
        .comparing(message::compared::Second, Amount::stated(sum.eq_kg * 1e3, Unit::known("mmol/kg")))
}

/// mol/kg of CO2 from a mass of it or an amount.
fn carbon_dioxide(a: &Analyte, density: f64) -> Result<f64, Error> {
    let component = network().component("CO3^2-").expect("carbonate is a component of the table");
    let name = Name { text: "co2".into(), component, basis: "CO2".into() };
    to_molality(a, &name, density)
}

/// Whether a name is one that an analysis of a water's chemistry takes part in: an element or ion of the model,
/// alkalinity, and the elements that want their form to be said. A trace element without a species here, or an organic
/// compound, is not.
pub fn is_of_a_water(name: &str) -> bool {
    let n = name.trim().to_lowercase();
    is_alkalinity(&n)
        || matches!(n.as_str(), "n" | "nitrogen" | "s" | "sulfur" | "sulphur" | "c" | "carbon")
        || CarbonForm::of(&n).is_some()
        || is_organic_carbon(&n)
        || two_valences(&n).is_some()
        || valence(&n, Redox::default()).is_some()
        || names().iter().any(|k| k.text == n)
}

/// Turns an analysis into components.
///
/// # Errors
/// [`Error::Unclear`] for a name, unit or basis that cannot be read, [`Error::OutOfRange`] for
/// negative concentrations and impossible pH or temperature, [`Error::Contradiction`] for one
/// component in two forms that disagree.
pub fn interpret(a: &Analysis) -> Result<Interpreted, Error> {
    let (low, high) = crate::equilibrium::TEMPERATURE_RANGE_C;
    within(message::word::Temperature, a.temperature_c, "°C", low, high)?;
    for ph in [a.ph, a.laboratory_ph].into_iter().flatten() {
        within("pH", ph, "", PH_RANGE.0, PH_RANGE.1)?;
    }
    if let Some(eh) = a.eh_mv {
        within("Eh", eh, "mV", -1000.0, 1300.0)?;
    }
    let density = density_kg_l(a.temperature_c);
    let mut out = Interpreted::default();
    let mut carbon = Carbon::default();
    let mut assumed = Vec::new();
    let redox = Redox::of(a);
    // Totals of an element that has two valences come last: they may only fill what is left.
    let (late, early): (Vec<&Analyte>, Vec<&Analyte>) =
        a.analytes.iter().partition(|x| two_valences(&x.name).is_some());
    for x in early.into_iter().chain(late) {
        let (value, _) = number(&x.amount);
        // A titration may find less alkalinity than none: acid.
        if !((value >= 0.0 || is_alkalinity(&x.name)) && value.is_finite()) {
            return Err(Error::OutOfRange {
                quantity: x.name.as_str().into(),
                value,
                unit: x.amount.unit().to_string(),
                allowed: text::ZeroAndAbove.into(),
            });
        }
        if let Some(forms) = two_valences(&x.name)
            && out.entries.iter().any(|e| is_one_of(e, forms))
        {
            fill_total(&mut out, x, density, forms)?;
        } else if is_alkalinity(&x.name) {
            add_alkalinity(&mut out, x, density, &mut assumed)?;
        } else if let Some(form) = CarbonForm::of(&x.name) {
            carbon.take(form, x, density, &mut assumed)?;
        } else if is_organic_carbon(&x.name) {
            out.doc = Some(x.amount.clone());
        } else {
            add_entry(&mut out, x, density, redox, &mut assumed)?;
        }
    }
    carbon.settle(a, &mut out)?;
    if !a.analytes.is_empty()
        && out.entries.iter().all(|e| e.bound == Bound::Below)
        && out.alkalinity.is_none()
        && !out.entries.is_empty()
    {
        return Err(Error::Unclear {
            quantity: text::Analytes.into(),
            found: text::OnlyLimits.into(),
            expected: text::OneMeasured.into(),
        });
    }
    if !assumed.is_empty() {
        let analytes = message::Name::from(assumed.join(", "));
        out.warnings.push(text::UAssumed { analytes, u: Share::new(ASSUMED_RELATIVE_U, Digits::Trimmed(2)) }.into());
    }
    missing(a, &mut out);
    Ok(out)
}

/// What was measured beside says of the redox state. Decides the valence of an element where none is stated.
#[derive(Debug, Clone, Copy, Default)]
struct Redox {
    /// Sulfide was found.
    sulfide: bool,
    /// Sulfide was found, or Eh lies below zero.
    reducing: bool,
}

impl Redox {
    fn of(a: &Analysis) -> Self {
        let sulfide = a.analytes.iter().any(|x| {
            let n = x.name.to_lowercase();
            (n.starts_with("s(-ii)") || n == "h2s" || n == "hs-" || n.starts_with("sulfide"))
                && x.amount.value().is_some_and(|v| v > 0.0)
        });
        Self { sulfide, reducing: sulfide || a.eh_mv.is_some_and(|eh| eh < 0.0) }
    }
}

/// Why an element gets no answer in this water: its valence there is one that the table does not hold, or is not told.
fn refused(name: &str, redox: Redox) -> Option<Message> {
    match name {
        "cu" | "copper" if redox.reducing => Some(text::CopperRefused.into()),
        "sb" | "antimony" | "sb(iii)" if redox.sulfide => Some(text::AntimonyRefused.into()),
        "v" | "vanadium" if redox.reducing => Some(text::VanadiumRefused.into()),
        "cr" | "chromium" if !redox.reducing => Some(text::ChromiumRefused.into()),
        _ => None,
    }
}

/// Valence of an element that was stated without one, by the redox state: as the table names it, as it is shown.
fn valence(name: &str, redox: Redox) -> Option<(&'static str, &'static str)> {
    match name {
        "v" | "vanadium" => Some(("v(v)", "V(V)")),
        "cr" | "chromium" => Some(("cr(iii)", "Cr(III)")),
        "sb" | "antimony" if redox.reducing => Some(("sb(iii)", "Sb(III)")),
        "sb" | "antimony" => Some(("sb(v)", "Sb(V)")),
        _ => None,
    }
}

fn look_up(x: &Analyte, redox: Redox, warnings: &mut Vec<Message>) -> Result<Option<&'static Name>, Error> {
    let n = spelled(x.name.trim()).to_lowercase();
    let alias = match n.as_str() {
        other if valence(other, redox).is_some() => {
            let (known, shown) = valence(other, redox).expect("checked in the guard");
            let (analyte, valence) = (message::Name::from(&x.name), message::Name::from(shown));
            warnings.push(text::ValenceTaken { analyte, valence }.into());
            known
        }
        "fe" | "iron" => {
            warnings.push(text::IronTaken.into());
            "fe(ii)"
        }
        "as" | "arsenic" => {
            let (v, valence) = if redox.reducing { ("as(iii)", "As(III)") } else { ("as(v)", "As(V)") };
            warnings.push(text::ArsenicTaken { valence: message::Name::from(valence) }.into());
            v
        }
        "n" | "nitrogen" | "s" | "sulfur" | "sulphur" | "c" | "carbon" => {
            return Err(Error::Unclear {
                quantity: x.name.as_str().into(),
                found: text::SeveralForms.into(),
                expected: text::SayTheForm.into(),
            });
        }
        other => other,
    };
    if let Some(name) = names().iter().find(|k| k.text == alias) {
        return Ok(Some(name));
    }
    let root = x.name.trim().split(['(', '+', '-', '^']).next().unwrap_or("");
    // An element without constants here is passed on to be named in a warning; what is no element at all is refused.
    if ELEMENTS.contains(&root) || NAMED_ELEMENTS.contains(&n.as_str()) {
        return Ok(None);
    }
    Err(Error::Unclear {
        quantity: message::word::Analyte.into(),
        found: x.name.as_str().into(),
        expected: text::NamesKnown.into(),
    })
}

fn u_of(x: &Analyte, value: f64, factor: f64, assumed: &mut Vec<String>) -> (f64, bool) {
    if let Some(u) = x.amount.u() {
        return (u * factor, true);
    }
    if x.amount.value().is_some() {
        assumed.push(x.name.clone());
    }
    (value * factor * ASSUMED_RELATIVE_U, false)
}

/// The two forms of an element whose total laboratories report.
fn two_valences(name: &str) -> Option<[&'static str; 2]> {
    match name.trim().to_lowercase().as_str() {
        "fe" | "iron" => Some(["Fe^2+", "Fe^3+"]),
        "as" | "arsenic" => Some(["H2AsO4-", "H3AsO3"]),
        _ => None,
    }
}

fn is_one_of(e: &Entry, forms: [&str; 2]) -> bool {
    forms.contains(&network().components[e.component].name.as_str())
}

/// A total beside one or both of its forms: what is left goes to the form that was not measured.
fn fill_total(out: &mut Interpreted, x: &Analyte, density: f64, forms: [&str; 2]) -> Result<(), Error> {
    let name = look_up(x, Redox::default(), &mut Vec::new())?.expect("iron and arsenic are in the table");
    let factor = to_molality(x, name, density)?;
    let total = number(&x.amount).0 * factor;
    let (mut sum, mut var) = (0.0, square(x.amount.u().map_or(total * ASSUMED_RELATIVE_U, |u| u * factor)));
    for e in out.entries.iter().filter(|e| is_one_of(e, forms) && e.bound == Bound::Value) {
        sum += e.molality;
        var += square(e.u);
    }
    // Total and forms are measured apart: within 2 u the difference is their noise, beyond it a form of its own.
    let spread = 2.0 * libm::sqrt(var);
    let molality = |v: f64| Shown::significant(v, 3, "mol/kg");
    if total < sum - spread && x.amount.value().is_some() {
        return Err(Error::Contradiction {
            quantity: x.name.as_str().into(),
            first: text::InTotal { molality: molality(total) }.into(),
            second: text::InItsForms { molality: molality(sum) }.into(),
            hint: text::TotalBelowForm.into(),
        });
    }
    let absent =
        forms.iter().filter_map(|f| network().component(f)).find(|c| out.entries.iter().all(|e| e.component != *c));
    if let (Some(component), true) = (absent, total > sum + spread && x.amount.value().is_some()) {
        let form = message::Name::from(&network().components[component].label);
        out.warnings.push(text::FormFromTotal { form, total: message::Name::from(&x.name) }.into());
        out.entries.push(Entry {
            component,
            name: x.name.clone(),
            molality: total - sum,
            u: libm::sqrt(var),
            u_stated: x.amount.u().is_some(),
            bound: Bound::Value,
        });
    }
    Ok(())
}

fn square(x: f64) -> f64 {
    x * x
}

/// What is said of an element that was stated without its valence and is taken in one alone.
fn valence_taken(name: &str) -> Option<Message> {
    match spelled(name.trim()).to_lowercase().as_str() {
        "mn" | "manganese" | "mn^2+" => Some(text::ManganeseTaken.into()),
        "cu" | "copper" => Some(text::CopperTaken.into()),
        "u" | "uranium" => Some(text::UraniumTaken.into()),
        _ => None,
    }
}

fn add_entry(
    out: &mut Interpreted,
    x: &Analyte,
    density: f64,
    redox: Redox,
    assumed: &mut Vec<String>,
) -> Result<(), Error> {
    if let Some(why) = refused(&x.name.trim().to_lowercase(), redox) {
        out.warnings.push(why);
        out.refused.push(x.name.clone());
        return Ok(());
    }
    let Some(name) = look_up(x, redox, &mut out.warnings)? else {
        out.not_in_table.push(x.name.clone());
        return Ok(());
    };
    let factor = to_molality(x, name, density)?;
    let (value, bound) = number(&x.amount);
    let (u, u_stated) = u_of(x, value, factor, assumed);
    out.warnings.extend(valence_taken(&x.name));
    let entry = Entry { component: name.component, name: x.name.clone(), molality: value * factor, u, u_stated, bound };
    match out.entries.iter().position(|e| e.component == name.component) {
        None => out.entries.push(entry),
        Some(at) => twice(out, at, entry, x)?,
    }
    Ok(())
}

/// One component stated twice: filtered goes before unfiltered, else the two must agree.
fn twice(out: &mut Interpreted, at: usize, entry: Entry, x: &Analyte) -> Result<(), Error> {
    let first = &out.entries[at];
    let (a, b) = (first.molality, entry.molality);
    let values = first.bound == Bound::Value && entry.bound == Bound::Value;
    if x.fraction.is_none() && values {
        let spread = (2.0 * libm::hypot(first.u, entry.u)).max(AGREEMENT * a.max(b));
        if (a - b).abs() > spread {
            let under_name = |molality: f64, name: &str| text::UnderName {
                molality: Shown::significant(molality, 3, "mol/kg"),
                name: message::Name::from(name),
            };
            return Err(Error::Contradiction {
                quantity: network().components[entry.component].label.as_str().into(),
                first: under_name(a, &first.name).into(),
                second: under_name(b, &entry.name).into(),
                hint: text::LeaveOneOut.into(),
            });
        }
    }
    out.findings.push(Finding::new(
        Check::MeaningStatedTwice,
        Outcome::Met,
        said::StatedTwice {
            component: message::Name::from(&network().components[entry.component].label),
            first: message::Name::from(&first.name),
            second: message::Name::from(&entry.name),
        },
    ));
    // A filtered value after an unfiltered one takes its place: the equilibrium is of dissolved matter.
    let replace = matches!(x.fraction, Some(Fraction::FilteredUm(_)))
        || (first.bound != Bound::Value && entry.bound == Bound::Value);
    if replace {
        out.entries[at] = entry;
    }
    Ok(())
}

fn add_alkalinity(out: &mut Interpreted, x: &Analyte, density: f64, assumed: &mut Vec<String>) -> Result<(), Error> {
    let sign = if is_acidity(&x.name) { -1.0 } else { 1.0 };
    let factor = sign * alkalinity(x, density)?;
    let (value, bound) = number(&x.amount);
    if bound == Bound::Value && value * factor < 0.0 {
        out.warnings.push(text::Acidity { alkalinity: x.amount.with_u() }.into());
    }
    if bound != Bound::Value {
        out.warnings.push(text::AlkalinityAtLimit { alkalinity: x.amount.with_u() }.into());
    }
    let (u, u_stated) = u_of(x, value.abs(), factor.abs(), assumed);
    let eq_kg = value * factor;
    if let Some(first) = &out.alkalinity {
        let spread = (2.0 * libm::hypot(first.u, u)).max(AGREEMENT * first.eq_kg.abs());
        let outcome = if (first.eq_kg - eq_kg).abs() > spread { Outcome::NotMet } else { Outcome::Met };
        out.findings.push(
            Finding::new(Check::MeaningAlkalinityTwice, outcome, said::AlkalinityTwice)
                .comparing(message::compared::First, Amount::stated(first.eq_kg * 1e3, Unit::known("mmol/kg")))
                .comparing(message::compared::Second, Amount::stated(eq_kg * 1e3, Unit::known("mmol/kg"))),
        );
        return Ok(());
    }
    out.alkalinity = Some(Alkalinity { eq_kg, u, u_stated, bound });
    Ok(())
}

/// What the usual analysis holds and this one does not.
fn missing(a: &Analysis, out: &mut Interpreted) {
    let (lacking, carbon) = (out.major_ions_lacking(), out.has_carbon());
    let ions = message::Name::from(lacking.join(", "));
    let (outcome, says): (_, Message) = match (lacking.is_empty(), carbon) {
        (true, true) => (Outcome::Met, said::IonsAll.into()),
        (true, false) => (Outcome::NotKnown, said::AlkalinityMissing.into()),
        (false, true) => (Outcome::NotKnown, said::IonsMissing { ions }.into()),
        (false, false) => (Outcome::NotKnown, said::IonsAndAlkalinityMissing { ions }.into()),
    };
    out.findings.push(Finding::new(Check::MeaningMajorIons, outcome, says));
    if a.eh_mv.is_none() && !out.holds("O2") {
        out.findings.push(Finding::new(Check::MeaningRedoxMeasured, Outcome::NotKnown, said::RedoxMissing));
    }
}

impl Interpreted {
    /// Whether a component was looked for: a value or a limit.
    fn holds(&self, component: &str) -> bool {
        let c = network().component(component);
        self.entries.iter().any(|e| Some(e.component) == c)
    }

    /// Whether alkalinity or inorganic carbon was looked for.
    pub fn has_carbon(&self) -> bool {
        self.alkalinity.is_some() || self.holds("CO3^2-")
    }

    /// Symbols of the major ions, those of carbon apart, that nobody looked for.
    pub fn major_ions_lacking(&self) -> Vec<&'static str> {
        [("Ca^2+", "Ca"), ("Mg^2+", "Mg"), ("Na+", "Na"), ("K+", "K"), ("Cl-", "Cl"), ("SO4^2-", "SO4")]
            .into_iter()
            .filter(|(c, _)| !self.holds(c))
            .map(|(_, n)| n)
            .collect()
    }

    /// Molality of a component where it was measured (a limit counts); 0 where not.
    pub fn molality(&self, component: &str) -> f64 {
        let c = network().component(component);
        self.entries.iter().find(|e| Some(e.component) == c).map_or(0.0, |e| e.molality)
    }

    /// The entry of a component where it has a value (not a limit).
    pub fn value(&self, component: &str) -> Option<&Entry> {
        let c = network().component(component);
        self.entries.iter().find(|e| Some(e.component) == c && e.bound == Bound::Value && e.molality > 0.0)
    }

    /// True where a component stands at its detection limit.
    pub fn at_limit(&self, component: usize) -> bool {
        self.entries.iter().any(|e| e.component == component && e.bound == Bound::Below)
    }
}

/// Molar mass of the ion that a component names, g/mol, for sums in mg/L.
pub fn ion_mass(name: &str) -> f64 {
    Substance::parse(name).map_or(0.0, |s| s.molar_mass_g_mol)
}
