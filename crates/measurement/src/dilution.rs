//! Isotope dilution: the concentration from one ratio in a blend of sample and spike.
//!
//! In: masses of sample and spike solution, the element's content of the spike, the abundances of
//! a reference and a spike isotope in both, molar masses, the ratio reference/spike isotope as
//! measured in the blend, the mass-bias factor K (true over measured ratio), the blank as a mass
//! of the element. Out: content of the sample with u, degrees of freedom, budget, derivation.
//!
//! With R = K·R_m:  c = [ c_y·m_y·(M_x/M_y)·(R·B_s − B_r)/(A_r − R·A_s) − blank ] / m_x
//!
//! A: abundances in the sample, B: in the spike, r reference and s spike isotope (single isotope
//! dilution; Heumann 1988). Units: masses in g, contents in ng/g, blank in ng give ng/g; any set
//! that fits together. Sample and spike must be equilibrated; lead abundances of the sample must
//! be measured, not taken from a table. The blank is subtracted here and nowhere else. The ratio
//! must lie between those of spike and sample. Checked in `tests/dilution.rs`.

use crate::error::{Error, all_positive};
use crate::expression::Expression;
use crate::uncertainty::{Input, Problem, Propagated};
use message::{step, step_measurement as said};
use quantity::{Amount, Derivation, Measured, Unit};

/// The model, in the words of the budget.
pub const MODEL: &str = "(spike_content*spike_mass*molar_mass/spike_molar_mass*(bias*ratio*spike_s - spike_r)/(sample_r - bias*ratio*sample_s) - blank)/sample_mass";

/// The inputs of [`MODEL`], in order.
pub const INPUTS: [&str; 12] = [
    "spike_content",
    "spike_mass",
    "molar_mass",
    "spike_molar_mass",
    "bias",
    "ratio",
    "spike_s",
    "spike_r",
    "sample_r",
    "sample_s",
    "blank",
    "sample_mass",
];

/// A value with u and degrees of freedom, dimension as in the module header.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// Value.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
    /// Degrees of freedom; infinite where well known.
    pub dof: f64,
}

impl Known {
    /// A value with well-known u.
    pub fn new(value: f64, u: f64) -> Self {
        Self { value, u, dof: f64::INFINITY }
    }
}

/// One blend.
#[derive(Debug, Clone, PartialEq)]
pub struct Blend {
    /// Mass of sample.
    pub sample_mass: Known,
    /// Mass of spike solution.
    pub spike_mass: Known,
    /// Content of the element in the spike solution.
    pub spike_content: Known,
    /// Abundance of the reference isotope in the sample.
    pub sample_r: Known,
    /// Abundance of the spike isotope in the sample.
    pub sample_s: Known,
    /// Abundance of the reference isotope in the spike.
    pub spike_r: Known,
    /// Abundance of the spike isotope in the spike.
    pub spike_s: Known,
    /// Molar mass of the element in the sample.
    pub molar_mass: Known,
    /// Molar mass of the element in the spike.
    pub spike_molar_mass: Known,
    /// Measured ratio reference/spike isotope in the blend.
    pub ratio: Known,
    /// K: true over measured ratio, from a reference of known ratio.
    pub bias: Known,
    /// Element that came in with the procedure, as a mass.
    pub blank: Known,
    /// Unit of the result.
    pub unit: Unit,
}

/// The result.
#[derive(Debug, Clone, PartialEq)]
pub struct DilutionResult {
    /// Content of the sample.
    pub content: Measured,
    /// First-order propagation with the budget.
    pub propagated: Propagated,
    /// How many times the relative u of the ratio enters the result.
    pub magnification: f64,
    /// √(R_sample·R_spike): the ratio of the blend at which the magnification is smallest.
    pub best_ratio: f64,
    /// How it came to be.
    pub derivation: Derivation,
    /// What a reader has to know.
    pub warnings: Vec<String>,
}

/// Over this the blend wastes the ratio (a choice of ours, told as a warning only).
const MAGNIFIED: f64 = 5.0;

impl Blend {
    fn inputs(&self) -> Vec<Input> {
        let all = [
            self.spike_content,
            self.spike_mass,
            self.molar_mass,
            self.spike_molar_mass,
            self.bias,
            self.ratio,
            self.spike_s,
            self.spike_r,
            self.sample_r,
            self.sample_s,
            self.blank,
            self.sample_mass,
        ];
        INPUTS
            .iter()
            .zip(all)
            .map(|(name, k)| {
                if k.dof.is_finite() { Input::t(name, k.value, k.u, k.dof) } else { Input::normal(name, k.value, k.u) }
            })
            .collect()
    }

    /// The model with its inputs, for first order or Monte Carlo.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for masses, molar masses, ratio or bias at or below zero, abundances
    /// outside 0 to 1, or a ratio that does not lie between those of spike and sample.
    pub fn problem(&self) -> Result<Problem<Expression>, Error> {
        for (what, k) in [
            ("sample_mass", &self.sample_mass),
            ("spike_mass", &self.spike_mass),
            ("spike_content", &self.spike_content),
            ("molar_mass", &self.molar_mass),
            ("spike_molar_mass", &self.spike_molar_mass),
            ("ratio", &self.ratio),
            ("bias", &self.bias),
            ("sample_r", &self.sample_r),
            ("spike_s", &self.spike_s),
        ] {
            all_positive(what, &[k.value])?;
        }
        for (what, k) in [
            ("sample_r", &self.sample_r),
            ("sample_s", &self.sample_s),
            ("spike_r", &self.spike_r),
            ("spike_s", &self.spike_s),
        ] {
            if !(0.0..=1.0).contains(&k.value) {
                return Err(Error::OutOfRange { what: what.into(), value: k.value, range: "an abundance, 0 to 1" });
            }
        }
        let ratio = self.ratio.value * self.bias.value;
        // Beyond either ratio the model's numerator or denominator changes its sign, and still gives a number.
        // Products, because the abundance in a denominator may be zero.
        let above_spike = ratio * self.spike_s.value > self.spike_r.value;
        let under_sample = ratio * self.sample_s.value < self.sample_r.value;
        if !(above_spike && under_sample) {
            return Err(Error::OutOfRange {
                what: "ratio of the blend after mass bias".into(),
                value: ratio,
                range: "between the ratio of the spike and that of the sample; check which isotope stands on top, and whether any spike went in",
            });
        }
        let model = Expression::parse(MODEL, &INPUTS)?;
        Problem::new(model, self.inputs(), &[])
    }

    /// Evaluates to first order.
    ///
    /// # Errors
    /// As [`Blend::problem`].
    pub fn evaluate(&self) -> Result<DilutionResult, Error> {
        let problem = self.problem()?;
        let p = problem.propagate()?;
        let content = Measured::with_dof(p.value, p.u, p.dof_eff, self.unit.clone());
        let place = INPUTS.iter().position(|n| *n == "ratio").expect("listed");
        let element = p.value + self.blank.value / self.sample_mass.value;
        let magnification = (p.sensitivities[place] * self.ratio.value / element).abs();
        let best_ratio = if self.sample_s.value > 0.0 {
            (self.sample_r.value / self.sample_s.value * self.spike_r.value / self.spike_s.value).sqrt()
        } else {
            f64::INFINITY
        };
        let mut warnings = p.warnings.clone();
        if !magnification.is_finite() {
            warnings.push(
                "the sample brings nothing to the blend that could be told from rounding: how far u of the ratio is magnified is not known".into(),
            );
        } else if magnification > MAGNIFIED {
            warnings.push(format!(
                "the ratio of the blend ({:.4}) is far from the best one ({best_ratio:.4}): its relative u enters {magnification:.1} times",
                self.ratio.value * self.bias.value
            ));
        }
        if self.blank.value * 3.0 > element * self.sample_mass.value {
            warnings.push("the blank is more than a third of what was found".into());
        }
        let derivation = self.derive(&content, &p);
        Ok(DilutionResult { content, propagated: p, magnification, best_ratio, derivation, warnings })
    }

    fn derive(&self, content: &Measured, p: &Propagated) -> Derivation {
        let mut d = Derivation::new(
            said::IsotopeDilution,
            &["Heumann 1988, in Adams, Gijbels & van Grieken, Inorganic Mass Spectrometry"],
        );
        let one = Unit::one;
        // The inputs go by their symbols in the model: a formula is the same in every language.
        let ids: Vec<_> = self
            .inputs()
            .iter()
            .map(|i| d.given(i.name.as_str(), Amount::measured(i.value, i.u, one()), step::Input))
            .collect();
        let (bias, ratio) = (self.bias, self.ratio);
        let corrected = bias.value * ratio.value;
        let u = (bias.value * ratio.u).hypot(ratio.value * bias.u);
        let r = d.step(said::BlendRatio, Amount::measured(corrected, u, one()), "bias · ratio", "", &[ids[4], ids[5]]);
        let mut inputs = ids;
        inputs.push(r);
        d.step(said::SampleContent, Amount::Measured(content.clone()), MODEL, "", &inputs);
        d.budget.clone_from(&p.budget);
        d
    }
}
