//! What a design must contain so that its bottles can be accepted: a programme's decisive checks as numbers of bottles,
//! blanks, spikes and vials.
//!
//! In: names of checks. Out: for each that numbers can answer the least of what answers it ([`Need`]), and the choices of
//! a plan with all below it left out. A check that hangs on care and not on numbers (a broken seal) has no need; the plan
//! says which. Checked in `tests/validation_plan.rs` and against the checks themselves in `programme`.

use crate::plan::{
    Choices, Laboratory, bottle_blanks, drift_checks, field_blanks, reference_materials, sample_bottles, second_sources,
};
use message::{Message, Name, Sentence, plan as said};
use quantity::Check;
use serde::Serialize;

/// What a need is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// Sample bottles of each well.
    Samples,
    /// Field blanks.
    FieldBlanks,
    /// Bottle blanks.
    BottleBlanks,
    /// Spiked bottles of each well.
    Spikes,
    /// Vials of a reference material.
    ReferenceMaterials,
    /// Vials of the drift check.
    DriftChecks,
    /// Vials of a standard of a second source.
    SecondSources,
}

/// The least that answers a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Need {
    /// The check.
    pub check: Check,
    /// Of what.
    pub part: Part,
    /// How many; of samples and spikes at each well.
    pub least: u32,
    /// Does it decide? One that only warns asks for vials of the run, no more.
    pub decides: bool,
}

impl Need {
    /// What answers a check that decides; none where no number does.
    pub fn of(check: Check) -> Option<Self> {
        let (part, least) = match check {
            // The run's own check asks for three: US EPA method 1631E, at least three method blanks a batch (from memory).
            Check::RunBlankCount => (Part::FieldBlanks, 3),
            Check::NumberBlanks | Check::BottleBlankAgainstForecast => (Part::FieldBlanks, 1),
            Check::NumberDuplicates | Check::NumberDuplicatesSpread | Check::NumberReplicates | Check::RunDuplicate => {
                (Part::Samples, 2)
            }
            Check::NumberRecovery | Check::RunFieldSpike => (Part::Spikes, 1),
            Check::BottleLotBlank => (Part::BottleBlanks, 1),
            Check::RunReferenceMaterial | Check::RunReferenceWarning => (Part::ReferenceMaterials, 1),
            // One before the bottles and one after them: between the two drift is known.
            Check::RunDrift | Check::RunDriftOpen => (Part::DriftChecks, 2),
            // And one between, which sees what the two at the ends miss.
            Check::RunFastDrift => (Part::DriftChecks, 3),
            Check::RunSecondSource => (Part::SecondSources, 1),
            _ => return None,
        };
        Some(Self { check, part, least, decides: true })
    }

    /// What answers a check that warns: only vials of the run, whose want no bottle can make good later.
    pub fn of_warning(check: Check) -> Option<Self> {
        let vials = |n: &Self| matches!(n.part, Part::ReferenceMaterials | Part::DriftChecks | Part::SecondSources);
        Self::of(check).filter(vials).map(|n| Self { decides: false, ..n })
    }

    /// In words: "number.recovery decides: 1 spike in each water, at least".
    pub fn says(&self) -> Sentence {
        let (check, n) = (Name::from(self.check.text()), i64::from(self.least));
        let least: Message = match self.part {
            Part::Samples => said::OfEachWell { bottles: sample_bottles(self.least) }.into(),
            Part::FieldBlanks => field_blanks(self.least),
            Part::BottleBlanks => bottle_blanks(self.least),
            Part::Spikes => said::SpikesInEachWater { n }.into(),
            Part::ReferenceMaterials => reference_materials(self.least),
            Part::DriftChecks => drift_checks(self.least),
            Part::SecondSources => second_sources(self.least),
        };
        if self.decides { said::NeedDecides { check, least }.into() } else { said::NeedWarns { check, least }.into() }
    }
}

/// The choices that answer every need. Where none of the numbers offered does, the least that does stands in their place.
pub(crate) fn raised(choices: &Choices, needs: &[Need], wells: u32) -> Choices {
    let least = |part: Part| needs.iter().filter(|n| n.part == part).map(|n| n.least).max().unwrap_or(0);
    let from = |numbers: &[u32], least: u32| -> Vec<u32> {
        let kept: Vec<u32> = numbers.iter().copied().filter(|n| *n >= least).collect();
        if kept.is_empty() { vec![least] } else { kept }
    };
    let l = choices.laboratory;
    Choices {
        samples: from(&choices.samples, least(Part::Samples)),
        field_blanks: from(&choices.field_blanks, least(Part::FieldBlanks)),
        bottle_blanks: from(&choices.bottle_blanks, least(Part::BottleBlanks)),
        spikes: from(&choices.spikes, least(Part::Spikes).saturating_mul(wells)),
        laboratory: Laboratory {
            reference_materials: l.reference_materials.max(least(Part::ReferenceMaterials)),
            drift_checks: l.drift_checks.max(least(Part::DriftChecks)),
            second_sources: l.second_sources.max(least(Part::SecondSources)),
        },
        ..choices.clone()
    }
}
