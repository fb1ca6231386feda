//! What a run is before anything is computed: vials in time order, readings of isotopes, and the
//! recipe that says how the one becomes the other.
//!
//! In: nothing is computed here. Rates are counts per second as the detector gave them, times are
//! minutes since the start of the run, assigned values carry their own unit, dilution is a
//! factor by mass (1 = undiluted, 10 = one part in ten).
//! All types read and write JSON and TOML; an isotope is written `Pb208@low`, and
//! `Pb208@low/analogue` when the detector ran in analogue mode.
//! The order of vials and readings in their lists means nothing; `position` and `minutes` do.
//! Checked in `tests/run_errors.rs`.

use super::result::Analyte;
use message::{Message, measurement as said};
use quantity::Measured;
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;

/// How the detector worked while it took a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mode {
    /// Single pulses; dead time applies.
    #[default]
    Counting,
    /// Current, turned into counts per second by the cross factor of the recipe.
    Analogue,
}

/// The key of a reading: isotope, mass resolution, detector mode. The same isotope at two
/// resolutions is two measurands.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Isotope {
    /// Element symbol: `Pb`.
    pub element: String,
    /// Mass number: 208.
    pub mass: u16,
    /// Mass resolution: `low`, `medium` or `high`.
    pub resolution: String,
    /// Detector mode.
    pub mode: Mode,
}

impl Isotope {
    /// An isotope in counting mode.
    ///
    /// ```
    /// let lead = measurement::run::Isotope::counting("Pb", 208, "low");
    /// assert_eq!(lead.to_string(), "Pb208@low");
    /// ```
    pub fn counting(element: &str, mass: u16, resolution: &str) -> Self {
        Self { element: element.into(), mass, resolution: resolution.into(), mode: Mode::Counting }
    }

    /// Whether both are the same isotope at the same resolution, whatever the detector mode.
    pub fn same_measurand(&self, other: &Self) -> bool {
        self.mass == other.mass && self.element == other.element && self.resolution == other.resolution
    }
}

impl fmt::Display for Isotope {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}@{}", self.element, self.mass, self.resolution)?;
        match self.mode {
            Mode::Counting => Ok(()),
            Mode::Analogue => f.write_str("/analogue"),
        }
    }
}

impl FromStr for Isotope {
    type Err = String;

    /// Reads `Pb208@low`, `Pb208` (resolution low) and `Pb208@low/analogue`.
    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = || format!("\"{text}\" is no isotope: write it like Pb208@low, Fe56@medium/analogue");
        let (body, mode) = match text.trim().split_once('/') {
            Some((body, "analogue")) => (body, Mode::Analogue),
            Some((body, "counting")) => (body, Mode::Counting),
            Some(_) => return Err(wrong()),
            None => (text.trim(), Mode::Counting),
        };
        let (nuclide, resolution) = body.split_once('@').unwrap_or((body, "low"));
        let digits = nuclide.find(|c: char| c.is_ascii_digit()).ok_or_else(wrong)?;
        let (element, mass) = nuclide.split_at(digits);
        let letters = element.chars().all(|c| c.is_ascii_alphabetic());
        if !letters || element.is_empty() || element.len() > 2 || resolution.is_empty() {
            return Err(wrong());
        }
        Ok(Self {
            element: element.into(),
            mass: mass.parse().map_err(|_| wrong())?,
            resolution: resolution.into(),
            mode,
        })
    }
}

impl TryFrom<String> for Isotope {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        text.parse()
    }
}

impl From<Isotope> for String {
    fn from(isotope: Isotope) -> Self {
        isotope.to_string()
    }
}

/// What a vial is in the run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Nothing aspirated but the plasma's own gas: the detector's background.
    GasBackground,
    /// The acid that the standards are made of; stands at zero on the calibration line.
    CalibrationBlank,
    /// A calibration standard with assigned values.
    Standard,
    /// Clean water through the laboratory's whole procedure.
    ProceduralBlank,
    /// Clean water kept in a sample bottle that stayed at home.
    BottleBlank,
    /// A filled bottle that travelled and was not opened.
    TripBlank,
    /// Clean water handled at the well as a sample is.
    FieldBlank,
    /// Clean water through the sampling equipment.
    EquipmentBlank,
    /// A material with certified values.
    ReferenceMaterial,
    /// The same solution again and again through the run.
    DriftCheck,
    /// One element alone, for the factor of its oxide or other overlap.
    InterferenceCheck,
    /// Water from a well.
    Sample,
    /// A second bottle (or aliquot) of the same water.
    Duplicate,
    /// A bottle of the water spiked at the well.
    FieldSpike,
    /// An aliquot of the water spiked in the laboratory.
    LabSpike,
}

impl Role {
    /// The nested blanks from the inside out: each outer one holds the inner ones.
    pub const NESTED_BLANKS: [Self; 6] = [
        Self::CalibrationBlank,
        Self::ProceduralBlank,
        Self::BottleBlank,
        Self::TripBlank,
        Self::FieldBlank,
        Self::EquipmentBlank,
    ];

    /// As a document says it.
    pub fn said(self) -> Message {
        match self {
            Self::GasBackground => said::RoleGasBackground.into(),
            Self::CalibrationBlank => said::RoleCalibrationBlank.into(),
            Self::Standard => said::RoleStandard.into(),
            Self::ProceduralBlank => said::RoleProceduralBlank.into(),
            Self::BottleBlank => said::RoleBottleBlank.into(),
            Self::TripBlank => said::RoleTripBlank.into(),
            Self::FieldBlank => said::RoleFieldBlank.into(),
            Self::EquipmentBlank => said::RoleEquipmentBlank.into(),
            Self::ReferenceMaterial => said::RoleReferenceMaterial.into(),
            Self::DriftCheck => said::RoleDriftCheck.into(),
            Self::InterferenceCheck => said::RoleInterferenceCheck.into(),
            Self::Sample => said::RoleSample.into(),
            Self::Duplicate => said::RoleDuplicate.into(),
            Self::FieldSpike => said::RoleFieldSpike.into(),
            Self::LabSpike => said::RoleLaboratorySpike.into(),
        }
    }

    /// Its English word, for codes and data.
    pub fn word(self) -> &'static str {
        match self {
            Self::GasBackground => "gas background",
            Self::CalibrationBlank => "calibration blank",
            Self::Standard => "standard",
            Self::ProceduralBlank => "procedural blank",
            Self::BottleBlank => "bottle blank",
            Self::TripBlank => "trip blank",
            Self::FieldBlank => "field blank",
            Self::EquipmentBlank => "equipment blank",
            Self::ReferenceMaterial => "reference material",
            Self::DriftCheck => "drift check",
            Self::InterferenceCheck => "interference check",
            Self::Sample => "sample",
            Self::Duplicate => "duplicate",
            Self::FieldSpike => "field spike",
            Self::LabSpike => "laboratory spike",
        }
    }

    /// Whether it is one of the nested blanks.
    pub fn is_blank(self) -> bool {
        Self::NESTED_BLANKS.contains(&self)
    }
}

/// A factor with its standard uncertainty; dimensionless.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Factor {
    /// The factor.
    pub value: f64,
    /// Its standard uncertainty.
    #[serde(default)]
    pub u: f64,
}

impl Factor {
    /// One, exactly.
    pub const ONE: Self = Self { value: 1.0, u: 0.0 };

    /// A factor with u.
    pub const fn new(value: f64, u: f64) -> Self {
        Self { value, u }
    }
}

impl Default for Factor {
    fn default() -> Self {
        Self::ONE
    }
}

/// On which side of a vial's dilution an assigned value stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum AssignedSide {
    /// In the bottle that the vial was diluted from.
    #[serde(rename = "in the bottle")]
    InTheBottle,
    /// In the solution as it was measured, dilution done.
    #[serde(rename = "as measured")]
    AsMeasured,
}

/// A value that the maker of a solution states for one element.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Assigned {
    /// Element symbol.
    pub element: String,
    /// The value with u and unit.
    pub amount: Measured,
    /// Name of the stock solution. Values from one stock err together, in proportion. Standards
    /// of a run that name none are taken as of one stock: what errs together is not averaged out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock: Option<String>,
    /// On which side of the vial's dilution the value stands; unsaid: taken as in the bottle, and
    /// where the vial was diluted a finding tells both readings.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<AssignedSide>,
}

impl Assigned {
    /// An assigned value whose stock and side nobody named.
    pub fn new(element: &str, amount: Measured) -> Self {
        Self { element: element.into(), amount, stock: None, side: None }
    }

    /// The same, made from a named stock.
    #[must_use]
    pub fn from_stock(mut self, stock: &str) -> Self {
        self.stock = Some(stock.into());
        self
    }
}

/// Blanks that may be taken off a vial.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BlankChoice {
    /// Their kind.
    pub role: Role,
    /// Positions of the blanks that met what the bottle met; others of the kind are not taken off it.
    pub blanks: Vec<u32>,
    /// Whether they met every stage that the bottle went through. Where not, what they leave is an upper bound.
    pub met_all: bool,
}

/// One vial as it stood in the run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vial {
    /// Place in the order of measurement; unique in a run.
    pub position: u32,
    /// Name in the laboratory.
    pub name: String,
    /// What it is.
    pub role: Role,
    /// Minutes since the start of the run (of its session, where there are several).
    pub minutes: f64,
    /// Session of a run that went over several days; 0 where there is one only.
    #[serde(default)]
    pub session: u32,
    /// Dilution factor by mass: concentration in the bottle = factor × concentration measured. Where
    /// the density of the water is recorded, volumes are reckoned from it.
    #[serde(default)]
    pub dilution: Factor,
    /// Assigned values: standards, reference materials, drift checks.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub assigned: Vec<Assigned>,
    /// The bottle that it was filled from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bottle: Option<String>,
    /// Volume of water in that bottle, mL, acid not counted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bottle_volume_ml: Option<f64>,
    /// Its standard uncertainty, mL; one error for all vials of the bottle.
    #[serde(default)]
    pub u_bottle_volume_ml: f64,
    /// Acid added to that bottle, mL; none where nobody wrote it down, 0 where it got none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub acid_ml: Option<f64>,
    /// Its standard uncertainty, mL; unsaid: a twentieth of the acid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub u_acid_ml: Option<f64>,
    /// Density of the water in that bottle, kg/L; counts where a vial was diluted by mass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub density_kg_l: Option<f64>,
    /// Its standard uncertainty, kg/L.
    #[serde(default)]
    pub u_density_kg_l: f64,
    /// For a duplicate or a spike: the bottle (or, failing that, the vial name) of the same
    /// water without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// For a spike: what was added, as concentration in the bottle (ng/L) or, with a bottle
    /// volume, as mass (pg, ng).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spike_added: Vec<Assigned>,
    /// Blanks that may be taken off it, the first choice first: the first of which two were measured is. Where there is
    /// none, nothing is taken off and the value is an upper bound. Empty: the rule of the recipe.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub blank_choices: Vec<BlankChoice>,
}

impl Vial {
    /// A vial with nothing but its place, name, role and time.
    pub fn new(position: u32, name: &str, role: Role, minutes: f64) -> Self {
        Self {
            position,
            name: name.into(),
            role,
            minutes,
            session: 0,
            dilution: Factor::ONE,
            assigned: vec![],
            bottle: None,
            bottle_volume_ml: None,
            u_bottle_volume_ml: 0.0,
            acid_ml: None,
            u_acid_ml: None,
            density_kg_l: None,
            u_density_kg_l: 0.0,
            of: None,
            spike_added: vec![],
            blank_choices: vec![],
        }
    }
}

/// Replicates that the instrument reported as mean and standard deviation only.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Summary {
    /// Mean of the replicates, counts/s.
    pub mean_cps: f64,
    /// Standard deviation of one replicate, counts/s.
    pub sd_cps: f64,
    /// Number of replicates.
    pub n: u32,
}

/// One isotope read in one vial.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// Position of the vial.
    pub position: u32,
    /// What was read.
    pub isotope: Isotope,
    /// Replicates, observed counts/s before any correction. Replicate k of all isotopes of a
    /// vial belongs to the same sweep, so ratios are formed replicate by replicate.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rates_cps: Vec<f64>,
    /// Mean, standard deviation and number, where the replicates themselves were not kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub summary: Option<Summary>,
    /// Integration time of one replicate, s; 0 where it is not known.
    #[serde(default)]
    pub integration_s: f64,
    /// Why a person took this reading out; it is kept and not used.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub excluded: Option<String>,
}

impl Reading {
    /// A reading from its replicates.
    pub fn new(position: u32, isotope: Isotope, rates_cps: Vec<f64>, integration_s: f64) -> Self {
        Self { position, isotope, rates_cps, summary: None, integration_s, excluded: None }
    }
}

/// A run: one instrument session (or several, bridged).
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunInput {
    /// Name of the run in the laboratory.
    pub name: String,
    /// The vials.
    pub vials: Vec<Vial>,
    /// The readings.
    pub readings: Vec<Reading>,
    /// What the blanks of earlier runs of the same recipe and lots scattered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub earlier_blanks: Vec<EarlierBlanks>,
}

/// The spread between the blanks of an earlier run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EarlierBlanks {
    /// Name of the run.
    pub run: String,
    /// Of what.
    pub analyte: Analyte,
    /// Which of the nested blanks.
    pub role: Role,
    /// Standard deviation between single blanks, on the scale of the recipe.
    pub sd: f64,
    /// Number of blanks.
    pub n: usize,
}
