//! The recipe of a run: every choice that turns counts into a number, written down so that the
//! same counts and the same recipe give the same bytes years later.
//!
//! Units: dead time in ns, rates in counts/s, concentrations in the recipe's `unit`.
//! Each field has a default that fits a run at the ng/L level; a recipe in TOML names only what
//! differs. Checked in `tests/run_errors.rs`.

use super::error::Error;
use super::input::{Factor, Isotope, Role};
use crate::detector::DeadTimeModel;
use message::{Message, refusal as says};
use quantity::Unit;
use serde::{Deserialize, Serialize};

/// Dead time of the counting detector.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct DeadTime {
    /// Dead time, ns; 0 for none.
    pub ns: f64,
    /// Its standard uncertainty, ns.
    pub u_ns: f64,
    /// What a pulse does that falls into dead time.
    #[serde(skip_serializing_if = "is_default")]
    pub model: DeadTimeModel,
    /// Share of pulses lost, 1 − n/N (n·τ of the non-extending model), from which a finding is raised.
    pub warn_share: f64,
    /// Share of pulses lost from which the model is refused.
    pub refuse_share: f64,
}

impl DeadTime {
    /// Dead time, s.
    pub fn seconds(&self) -> f64 {
        self.ns * 1e-9
    }

    /// Share of pulses lost at an observed rate, counts/s.
    pub fn lost_share(&self, observed_cps: f64) -> f64 {
        self.model.lost_share(observed_cps, self.seconds())
    }

    /// True rate, counts/s, of an observed one; none where no true rate gives it.
    pub fn true_rate(&self, observed_cps: f64) -> Option<f64> {
        self.model.true_rate(observed_cps, self.seconds())
    }
}

fn is_default<T: Default + PartialEq>(x: &T) -> bool {
    *x == T::default()
}

/// What the counting detector counts without a sample, found once with the plasma on and nothing aspirated, or with
/// the beam shut. A gas background measured in the run takes its place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DarkRate {
    /// The isotope; left out: all that no other entry names.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub isotope: Option<Isotope>,
    /// Counts/s.
    pub cps: f64,
    /// Its standard uncertainty, counts/s.
    #[serde(default)]
    pub u_cps: f64,
}

impl Default for DeadTime {
    fn default() -> Self {
        Self {
            ns: 0.0,
            u_ns: 0.0,
            model: DeadTimeModel::NonExtending,
            // Common practice: the non-extending model is trusted to about 10 % of dead time.
            warn_share: 0.1,
            // Half the time dead: the true rate is twice the observed and u(τ) doubles again.
            refuse_share: 0.5,
        }
    }
}

/// How the internal standard is chosen for an isotope.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ByMass {
    /// The internal standard nearest in mass at the same resolution.
    #[default]
    Nearest,
    /// Between the two that stand on either side, linear in mass.
    Interpolate,
}

/// An internal standard named for an isotope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NamedInternalStandard {
    /// The isotope measured.
    pub isotope: Isotope,
    /// Its internal standard; leave out for none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub standard: Option<Isotope>,
}

/// Internal standards: added at the same level to every vial.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct InternalStandards {
    /// The isotopes that serve: `["In115@low", "Ir193@low"]`; empty for none.
    pub isotopes: Vec<Isotope>,
    /// The choice for isotopes not named below.
    pub by_mass: ByMass,
    /// Exceptions.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub named: Vec<NamedInternalStandard>,
    /// Lowest signal of an internal standard that passes, % of its mean in the calibration.
    pub lowest_percent: f64,
    /// Highest.
    pub highest_percent: f64,
}

impl Default for InternalStandards {
    fn default() -> Self {
        Self {
            isotopes: vec![],
            by_mass: ByMass::Nearest,
            named: vec![],
            // US EPA method 200.8: internal standards within 60 to 125 % (from memory).
            lowest_percent: 60.0,
            highest_percent: 125.0,
        }
    }
}

/// What is done about drift that the internal standard leaves.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "model", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Drift {
    /// Nothing.
    None,
    /// Linear in time between the drift checks before and after.
    Bracket,
    /// A polynomial in time through all drift checks.
    Smooth {
        /// Degree, 0 to 3.
        degree: u8,
    },
}

/// Where the factor of an interference comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "from", rename_all = "kebab-case", deny_unknown_fields)]
pub enum FactorSource {
    /// Measured in this run in vials that hold the interfering element alone (role
    /// `interference-check`); between two such vials the factor is taken linear in time.
    Vials {
        /// Names of the vials.
        vials: Vec<String>,
    },
    /// The ratio of natural abundances, with mass bias.
    Abundance {
        /// Exponent β of the mass bias: measured ratio = true ratio · (mass/mass)^β.
        #[serde(default)]
        mass_bias: f64,
        /// Its standard uncertainty.
        #[serde(default)]
        u_mass_bias: f64,
    },
    /// Given, with u.
    Given {
        /// counts of the target per count of the monitor.
        value: f64,
        /// Standard uncertainty.
        #[serde(default)]
        u: f64,
    },
}

/// One overlap: counts of the monitor times a factor are taken from the counts of the target.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Interference {
    /// The isotope whose counts hold the overlap: `Cd111@low`.
    pub target: Isotope,
    /// The isotope that tells how much: `Mo95@low`.
    pub monitor: Isotope,
    /// What it is, in words: "95Mo16O".
    pub species: String,
    /// Where the factor comes from.
    pub factor: FactorSource,
}

/// What stands at zero on the calibration line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Intercept {
    /// Fitted, with the calibration blanks as standards of zero.
    #[default]
    Free,
    /// Forced through the mean of the calibration blanks.
    Blank,
    /// Forced through zero counts.
    Zero,
}

/// Isotopes of one element that are added up before anything is divided.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sum {
    /// Element symbol.
    pub element: String,
    /// Mass numbers.
    pub masses: Vec<u16>,
    /// Resolution.
    pub resolution: String,
}

/// How a blank of one bottle stands for another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BlankScale {
    /// The blank is a concentration: bottles of one size.
    #[default]
    Concentration,
    /// The blank is a mass per bottle: divided by each bottle's volume.
    MassPerBottle,
}

/// Where the middle of the blanks is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BlankCentre {
    /// The mean; s from the same blanks.
    #[default]
    Mean,
    /// Huber's location and scale: rare spikes pull less.
    Robust,
}

/// Which blank is subtracted: exactly one, once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct BlankRule {
    /// From samples, duplicates, spikes: the outermost blank that holds what the bottle went
    /// through. Blanks inside it are shown, never subtracted as well.
    pub samples: Role,
    /// From reference materials and the like, which never saw the field.
    pub reference: Role,
    /// Concentration or mass per bottle.
    pub scale: BlankScale,
    /// Mean or robust.
    pub centre: BlankCentre,
}

impl Default for BlankRule {
    fn default() -> Self {
        Self {
            samples: Role::FieldBlank,
            reference: Role::ProceduralBlank,
            scale: BlankScale::Concentration,
            centre: BlankCentre::Mean,
        }
    }
}

/// A recovery given for one element.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GivenRecovery {
    /// Element symbol.
    pub element: String,
    /// Recovery as a fraction: 0.95.
    pub value: f64,
    /// Its standard uncertainty.
    pub u: f64,
}

/// Whether results are divided by a recovery.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(tag = "from", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Recovery {
    /// Shown, not applied.
    #[default]
    NotApplied,
    /// The mean of the field spikes of this run.
    FieldSpikes,
    /// The mean of the laboratory spikes of this run.
    LabSpikes,
    /// Given per element; elements not named are not corrected.
    Given {
        /// The recoveries.
        values: Vec<GivenRecovery>,
    },
}

/// Where the quantification limit stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "rule", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Quantification {
    /// Ten standard deviations of the net result at zero (IUPAC 1995).
    TenSigma,
    /// The level at which the expanded relative uncertainty falls to this share.
    RelativeExpanded {
        /// The share: 0.3 for 30 %.
        share: f64,
    },
}

/// A known ratio of two isotopes of lead.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeadRatio {
    /// Mass number above the line: 206, 207 or 208.
    pub numerator: u16,
    /// Mass number below the line.
    pub denominator: u16,
    /// The ratio of amounts.
    pub value: f64,
    /// Its standard uncertainty (a certificate's ± is mostly 2 u).
    pub u: f64,
}

/// Lead of known isotopic make-up among the vials: what the mass bias of the lead ratios is found
/// from. Concentrations do not change by it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeadReference {
    /// Names of the vials that hold it.
    pub vials: Vec<String>,
    /// Where the ratios are from: certificate with its date, or own measurement.
    pub source: String,
    /// Known ratios, at least one.
    pub ratios: Vec<LeadRatio>,
}

/// Every choice of a reduction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Recipe {
    /// Name and version of the recipe.
    pub name: String,
    /// Unit of concentrations in the bottle.
    pub unit: Unit,
    /// Probability of a false detection.
    pub alpha: f64,
    /// Probability of missing a level at the detection limit.
    pub beta: f64,
    /// Coverage of the two-sided interval.
    pub coverage: f64,
    /// Names of vials whose mean rate is the detector's background; role `gas-background` counts
    /// without being named.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gas_background: Vec<String>,
    /// Reproducibility between vials of one solution as a share of the signal (0.005 for half a
    /// percent); left out: estimated from the drift checks.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub between_vials: Option<f64>,
    /// What stands at zero on the line.
    pub intercept: Intercept,
    /// Dead time.
    pub dead_time: DeadTime,
    /// Counts/s without a sample, taken off every rate after dead time where the run measured no gas background.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub dark_rates: Vec<DarkRate>,
    /// The most of a vial's level that stays for the next vial, as a part of it; left out: estimated where blanks
    /// after high vials tell, else not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub carry_over: Option<f64>,
    /// Chance, over a whole run of good data, that a replicate is named as far from the others.
    #[serde(skip_serializing_if = "is_usual_chance")]
    pub replicate_chance: f64,
    /// Counts/s of the counting detector per unit of the analogue signal.
    pub analogue_factor: Factor,
    /// Internal standards.
    pub internal_standards: InternalStandards,
    /// Drift.
    pub drift: Drift,
    /// Which blank is subtracted.
    pub blank: BlankRule,
    /// Recovery.
    pub recovery: Recovery,
    /// Quantification limit.
    pub quantification: Quantification,
    /// Share of an isotope's counts that an interference may hold before a finding is raised.
    pub interference_share: f64,
    /// Name of a published method whose fixed equations are used for isotopes that `interferences`
    /// does not name: "EPA 200.8". They carry no u, which is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub published_equations: Option<String>,
    /// Overlaps.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub interferences: Vec<Interference>,
    /// Isotopes added up. Lead's make-up varies in nature, so 206 + 207 + 208 is the default.
    pub sums: Vec<Sum>,
    /// Isotopes that serve as monitors of an interference and give no result of their own.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub monitors_only: Vec<Isotope>,
    /// Lead of known isotopic make-up; left out: ratios of lead carry the mass bias.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lead_reference: Option<LeadReference>,
}

// The programme's own choice: one clean run in a hundred names a replicate.
const USUAL_CHANCE: f64 = 0.01;

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes fields by reference")]
fn is_usual_chance(chance: &f64) -> bool {
    chance.total_cmp(&USUAL_CHANCE).is_eq()
}

impl Default for Recipe {
    fn default() -> Self {
        Self {
            name: "default".into(),
            unit: Unit::known("ng/L"),
            alpha: 0.05,
            beta: 0.05,
            coverage: 0.95,
            gas_background: vec![],
            between_vials: None,
            intercept: Intercept::Free,
            dead_time: DeadTime::default(),
            dark_rates: vec![],
            carry_over: None,
            replicate_chance: USUAL_CHANCE,
            analogue_factor: Factor::ONE,
            internal_standards: InternalStandards::default(),
            drift: Drift::None,
            blank: BlankRule::default(),
            recovery: Recovery::NotApplied,
            quantification: Quantification::TenSigma,
            // Common practice: a tenth of the signal is where a correction starts to matter.
            interference_share: 0.1,
            published_equations: None,
            interferences: vec![],
            sums: vec![Sum { element: "Pb".into(), masses: vec![206, 207, 208], resolution: "low".into() }],
            monitors_only: vec![],
            lead_reference: None,
        }
    }
}

impl Recipe {
    /// Refuses numbers out of range.
    ///
    /// # Errors
    /// [`Error::BadRecipe`] with the key, what it holds and what it could.
    pub fn check(&self) -> Result<(), Error> {
        let probability = |field: &str, p: f64| {
            if p > 0.0 && p < 1.0 { Ok(()) } else { Err(bad(field, p, says::RecipeProbability)) }
        };
        probability("alpha", self.alpha)?;
        probability("beta", self.beta)?;
        probability("coverage", self.coverage)?;
        // At α + β = 1 the non-centrality δ is zero: there is no detection limit above zero.
        if self.alpha + self.beta >= 1.0 {
            return Err(bad("alpha + beta", self.alpha + self.beta, says::RecipeRisks));
        }
        let d = self.dead_time;
        if !(d.ns >= 0.0 && d.ns.is_finite() && d.u_ns >= 0.0) {
            return Err(bad("dead_time.ns", d.ns, says::RecipeDeadTime));
        }
        // With all pulses lost no rate is left to correct.
        if !(d.refuse_share > 0.0 && d.refuse_share < 1.0) {
            return Err(bad("dead_time.refuse_share", d.refuse_share, says::RecipeShare));
        }
        if !(self.analogue_factor.value > 0.0 && self.analogue_factor.u >= 0.0) {
            return Err(bad("analogue_factor", self.analogue_factor.value, says::RecipeAnalogue));
        }
        self.check_detector()?;
        if let Drift::Smooth { degree } = self.drift
            && degree > 3
        {
            return Err(bad("drift.degree", degree, says::RecipeDegree));
        }
        for (field, role) in [("blank.samples", self.blank.samples), ("blank.reference", self.blank.reference)] {
            if !role.is_blank() {
                return Err(bad(field, role.word(), says::RecipeBlank));
            }
        }
        let mut shares = vec![("interference_share", self.interference_share)];
        shares.extend(self.between_vials.map(|s| ("between_vials", s)));
        if let Quantification::RelativeExpanded { share } = self.quantification {
            shares.push(("quantification.share", share));
        }
        if let Some((field, share)) = shares.into_iter().find(|(_, s)| !(0.0..=1.0).contains(s)) {
            return Err(bad(field, share, says::RecipePart));
        }
        if let Recovery::Given { values } = &self.recovery
            && let Some(v) = values.iter().find(|v| v.value.is_nan() || v.value <= 0.0)
        {
            return Err(bad("recovery", v.value, says::RecipeRecovery));
        }
        self.lead_reference.as_ref().map_or(Ok(()), LeadReference::check)
    }
}

impl Recipe {
    fn check_detector(&self) -> Result<(), Error> {
        let good = |x: f64| x >= 0.0 && x.is_finite();
        for (i, d) in self.dark_rates.iter().enumerate() {
            let twice = self.dark_rates[..i].iter().any(|e| match (&e.isotope, &d.isotope) {
                (None, None) => true,
                (Some(a), Some(b)) => a.same_measurand(b),
                _ => false,
            });
            if !good(d.cps) || !good(d.u_cps) || twice {
                let of = d.isotope.as_ref().map(|i| format!("{i}: ")).unwrap_or_default();
                return Err(bad("dark_rates", format!("{of}{} with u {}", d.cps, d.u_cps), says::RecipeDarkRate));
            }
        }
        if let Some(c) = self.carry_over.filter(|c| !(0.0..1.0).contains(c)) {
            return Err(bad("carry_over", c, says::RecipeCarryOver));
        }
        if !(self.replicate_chance > 0.0 && self.replicate_chance < 1.0) {
            return Err(bad("replicate_chance", self.replicate_chance, says::RecipeProbability));
        }
        Ok(())
    }

    /// The entry of `dark_rates` for an isotope.
    pub(super) fn dark_rate(&self, isotope: &Isotope) -> Option<usize> {
        let named = |d: &DarkRate| d.isotope.as_ref().is_some_and(|i| i.same_measurand(isotope));
        let all = |d: &DarkRate| d.isotope.is_none();
        self.dark_rates.iter().position(named).or_else(|| self.dark_rates.iter().position(all))
    }
}

impl LeadReference {
    fn check(&self) -> Result<(), Error> {
        if self.vials.is_empty() {
            return Err(bad("lead_reference.vials", "none", says::RecipeLeadVials));
        }
        if self.ratios.is_empty() {
            return Err(bad("lead_reference.ratios", "none", says::RecipeLeadRatios));
        }
        for r in &self.ratios {
            let known = |m: u16| (206..=208).contains(&m);
            if !known(r.numerator) || !known(r.denominator) || r.numerator == r.denominator {
                let found = format!("{}/{}", r.numerator, r.denominator);
                return Err(bad("lead_reference.ratios", found, says::RecipeLeadDifferent));
            }
            if !(r.value > 0.0 && r.value.is_finite() && r.u >= 0.0 && r.u < r.value) {
                let found = format!("{} with u {}", r.value, r.u);
                return Err(bad("lead_reference.ratios", found, says::RecipeLeadValue));
            }
        }
        Ok(())
    }
}

fn bad(field: &str, found: impl std::fmt::Display, expected: impl Into<Message>) -> Error {
    Error::BadRecipe { field: field.into(), found: found.to_string(), expected: expected.into() }
}
