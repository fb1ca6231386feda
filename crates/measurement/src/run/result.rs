//! What a reduction gives back: results keyed by vial × analyte, with what they stand on.
//!
//! Concentrations are in the recipe's unit, in the bottle. A result keeps the raw net value,
//! negative ones too; the state says what may be claimed of it.

use super::input::Role;
use quantity::{Contribution, Finding, Measured};
use serde::{Deserialize, Serialize};
use std::fmt;

/// What a result is of: element, isotopes, resolution.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Analyte {
    /// Element symbol.
    pub element: String,
    /// Mass numbers joined by "+": `206+207+208`.
    pub isotopes: String,
    /// Resolution.
    pub resolution: String,
}

impl fmt::Display for Analyte {
    /// `Pb 206+207+208@low`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}@{}", self.element, self.isotopes, self.resolution)
    }
}

/// What may be claimed of a result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// At or above the quantification limit: value ± U.
    Quantified,
    /// Above the critical value, under the quantification limit: value ± U, marked.
    Detected,
    /// At or below the critical value: shown as its upper bound.
    NotDetected,
    /// Above the critical value, but the vial scatters so much that clean water might show it: value ± U, and neither
    /// detected nor not detected is claimed.
    NotDecided,
}

impl State {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Quantified => "quantified",
            Self::Detected => "detected",
            Self::NotDetected => "not detected",
            Self::NotDecided => "not decided",
        }
    }
}

/// What a net value bears.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bears {
    /// Blanks met every stage of the bottle: the value itself.
    #[default]
    Value,
    /// A stage was met by no blank: its metal is still in the value, which is an upper bound.
    AtMost,
}

/// A net value by the recipe's rule, where another blank was taken off.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ByRecipe {
    /// Kind of blank that the recipe takes off.
    pub role: Role,
    /// Number of blanks.
    pub n: usize,
    /// The net value with all of them.
    pub net: Measured,
}

/// The limits that a result is held against, on the net scale, in the result's unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Limits {
    /// L_C: detected if the net value is above it.
    pub critical_value: f64,
    /// L_D: a level that is missed with probability β only.
    pub detection_limit: f64,
    /// L_Q; none where the wanted relative uncertainty cannot be reached at any level.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub quantification_limit: Option<f64>,
    /// Standard deviation of the net result at zero.
    pub sd_at_zero: f64,
    /// Its degrees of freedom.
    pub dof: f64,
}

/// A vial whose replicates scatter more than those of the others let expect.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct VialScatter {
    /// Its standard deviation over the expected one.
    pub times: f64,
    /// The net value that it needs to be detected, in the result's unit.
    pub needed: f64,
}

/// What makes a coverage factor large, and what one more value would make it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FewOf {
    /// Few blanks.
    Blanks,
    /// Few drift checks, which tell the spread between vials.
    DriftChecks,
    /// Few replicates.
    Replicates,
    /// Few spikes.
    Spikes,
    /// Few values of something else.
    Others,
}

/// The part of an uncertainty that is known worst.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct KnownWorst {
    /// Of what there are few.
    pub few: FewOf,
    /// Its degrees of freedom.
    pub dof: f64,
    /// Coverage factor that one more of them would leave, all else alike.
    pub one_more_k: f64,
}

/// The one blank that was subtracted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BlankTaken {
    /// Which of the nested blanks.
    pub role: Role,
    /// What was subtracted, with the u of the mean.
    pub mean: Measured,
    /// Standard deviation between single blanks, with those of earlier runs where they agree.
    pub sd: f64,
    /// Number of blanks.
    pub n: usize,
    /// Earlier runs that the standard deviation was learnt from too.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub earlier: Vec<String>,
}

/// One number with everything beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RunResult {
    /// Position of the vial.
    pub position: u32,
    /// Name of the vial.
    pub vial: String,
    /// What the vial is.
    pub role: Role,
    /// The bottle it came from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bottle: Option<String>,
    /// What was measured.
    pub analyte: Analyte,
    /// Concentration in the bottle over the zero of the calibration, nothing else subtracted.
    pub gross: Measured,
    /// The blank subtracted, where one was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blank: Option<BlankTaken>,
    /// Recovery that the net value was divided by, where the recipe says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recovery: Option<Measured>,
    /// gross − blank as it was before it was divided by the recovery, where it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub net_before_recovery: Option<Measured>,
    /// The net value: gross − blank (÷ recovery), with effective degrees of freedom. Raw:
    /// negative where it came out negative.
    pub net: Measured,
    /// Two-sided interval at the recipe's coverage.
    pub interval: [f64; 2],
    /// Coverage factor of that interval.
    pub coverage_k: f64,
    /// One-sided 95 % upper bound: max(net, 0) + t·u, never under L_C.
    pub upper_bound: f64,
    /// What may be claimed.
    pub state: State,
    /// Whether it is the value or an upper bound (`upper_bound`).
    #[serde(default)]
    pub bears: Bears,
    /// The value less the blanks of the recipe's rule, where these did not meet what the bottle met.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by_recipe: Option<ByRecipe>,
    /// The vial's own scatter, where it is more than chance allows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vial_scatter: Option<VialScatter>,
    /// What makes the coverage factor larger than that of a well-known u; none where nothing is in doubt.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub known_worst: Option<KnownWorst>,
    /// The limits it was held against; none where no blanks tell.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limits: Option<Limits>,
    /// Share of the isotope's counts that was taken off as interference.
    pub interference_share: f64,
    /// The budget of the net value; shares add up to 1.
    pub budget: Vec<Contribution>,
}

/// One point of a calibration line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LinePoint {
    /// Position of the vial.
    pub position: u32,
    /// Name of the vial.
    pub vial: String,
    /// Assigned value in the recipe's unit; 0 for a calibration blank.
    pub x: f64,
    /// Response, counts/s normalised to the internal standard, drift removed.
    pub y: f64,
    /// u of the response that set its weight.
    pub u: f64,
    /// y − (a + b·x).
    pub residual: f64,
}

/// A calibration line y = a + b·x.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CalibrationLine {
    /// a, counts/s.
    pub intercept: f64,
    /// b, counts/s per unit of concentration.
    pub slope: f64,
    /// u(a).
    pub u_intercept: f64,
    /// u(b).
    pub u_slope: f64,
    /// cov(a, b).
    pub covariance: f64,
    /// Weighted sum of squared residuals.
    pub chi_squared: f64,
    /// Points less parameters.
    pub dof: usize,
    /// Probability of a χ² as large by chance.
    pub p_lack_of_fit: f64,
    /// Factor by which the points' own u was widened (Birge ratio), 1 where the line fits.
    pub widened: f64,
    /// The points.
    pub points: Vec<LinePoint>,
}

/// What holds for all results of one analyte in a run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AnalyteSummary {
    /// What was measured.
    pub analyte: Analyte,
    /// Internal standards used.
    pub internal_standards: Vec<String>,
    /// The line.
    pub line: CalibrationLine,
    /// Change of sensitivity from the first to the last vial that the internal standard left,
    /// as a fraction; 0 where no drift model is used.
    pub drift: f64,
    /// Reproducibility between vials of one solution as a fraction of the signal.
    pub between_vials: f64,
    /// Its degrees of freedom; infinite where given, 0 where not known.
    pub between_vials_dof: f64,
    /// Limits for an undiluted sample without interference, in a bottle as large as those of the
    /// blanks; none where no blanks tell.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limits: Option<Limits>,
    /// The blank taken from samples, as a concentration in a bottle of the blanks' mean volume.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blank: Option<BlankTaken>,
}

/// Recovery of one spike.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SpikeRecovery {
    /// Position of the spiked vial.
    pub position: u32,
    /// Its name.
    pub vial: String,
    /// Field or laboratory spike.
    pub role: Role,
    /// Bottle or vial of the same water without the spike.
    pub of: String,
    /// What was measured.
    pub analyte: Analyte,
    /// Level of the unspiked water.
    pub level: Measured,
    /// Added, in the recipe's unit.
    pub added: Measured,
    /// (spiked − unspiked) / added.
    pub recovery: Measured,
}

/// A reference material (or drift check with assigned value) against its value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ReferenceCheck {
    /// Position of the vial.
    pub position: u32,
    /// Its name.
    pub vial: String,
    /// What was measured.
    pub analyte: Analyte,
    /// Found.
    pub found: Measured,
    /// Assigned.
    pub assigned: Measured,
    /// found / assigned.
    pub recovery: Measured,
    /// (found − assigned) / √(u² + u²).
    pub zeta: f64,
    /// (found − assigned) / √(U² + U²), U at the recipe's coverage.
    pub e_n: f64,
}

/// Two bottles (or aliquots) of one water.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DuplicatePair {
    /// Position of the duplicate.
    pub position: u32,
    /// Position of the sample.
    pub of_position: u32,
    /// What was measured.
    pub analyte: Analyte,
    /// Duplicate − sample, with the u that both budgets predict (shared parts cancel).
    pub difference: Measured,
    /// Difference in % of the mean; not a number where the mean is not above zero.
    pub relative_percent: f64,
    /// Half-width of the interval predicted for the difference, at the recipe's coverage.
    pub allowed: f64,
}

/// A finding and what it speaks of.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RunFinding {
    /// The finding.
    pub finding: Finding,
    /// The analyte; none for all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub analyte: Option<Analyte>,
    /// The vial's position; none for all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub position: Option<u32>,
}
