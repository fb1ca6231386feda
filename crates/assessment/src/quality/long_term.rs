//! u from the top down: what the years say beside what the budget adds up.
//!
//! In: the control water (recovery with the u of its assigned value) and the blanks of all runs.
//! Out: for a value c, u = √((c·r)² + s_b²·(1 + 1/n)), r² = s_R² + bias² + s_R²/m + u_ref²:
//! s_R sd of the run means of the recovery, bias its mean − 1, m runs, u_ref the relative u of the
//! control water's value; s_b sd of single blanks about the mean of their run, pooled over all
//! runs, n blanks in a run. The form is that of the Nordtest handbook TR 537 (from memory): a bias
//! that is not corrected counts in full. It stands beside the budget and replaces nothing. Control
//! water has another matrix and level than the samples. At least three runs. Checked in
//! `crates/programme/tests/quality.rs`.

use measurement::run::{Analyte, ReducedRun, Role};
use message::{Digits, Message, Share, Shown, quality};
use quantity::{Amount, Check, Finding, Measured, Outcome, Unit};
use serde::Serialize;
use statistics::sample::{Moments, mean_sd};

/// Fewest runs for a standard deviation between runs.
// With two runs one difference would stand for the years: the programme's own choice.
pub const FEWEST_RUNS: usize = 3;

/// How much larger than the budget the long-term u may be before it is said.
// The programme's own choice; sd of a few runs is itself known to about 30 %.
const RATIO: f64 = 1.5;

/// What the years say of one analyte.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LongTerm {
    /// What was measured.
    pub analyte: Analyte,
    /// Runs with a control water.
    pub runs: usize,
    /// The parts; none under [`FEWEST_RUNS`] runs.
    pub parts: Option<Parts>,
}

/// The parts of the long-term u.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Parts {
    /// Runs they stand on.
    pub runs: usize,
    /// Mean recovery of the control water − 1.
    pub bias: f64,
    /// sd of the run means of the recovery.
    pub between_runs: f64,
    /// Relative u of the control water's value.
    pub u_reference: f64,
    /// Single blanks about the mean of their run, pooled, in the unit of the results; none where
    /// no run has two.
    pub blank_sd: Option<f64>,
    /// Blanks in a run, on average.
    pub blanks_a_run: f64,
    /// Unit of the blanks.
    pub unit: Unit,
}

impl LongTerm {
    /// From reduced runs.
    pub fn of(runs: &[&ReducedRun], analyte: &Analyte) -> Self {
        let (mut means, mut u_reference) = (vec![], 0.0_f64);
        let (mut squares, mut dof, mut blanks, mut with_blanks) = (0.0, 0usize, 0usize, 0usize);
        let mut unit = Unit::one();
        for r in runs {
            // Drift checks have a recovery too, but the run's drift is taken out by them: they come out too well.
            let is_control =
                |position: u32| r.find(position, analyte).is_some_and(|i| r.results[i].role == Role::ReferenceMaterial);
            let checks: Vec<_> =
                r.references.iter().filter(|c| c.analyte == *analyte && is_control(c.position)).collect();
            if let Some(first) = checks.first() {
                // One mean a run: its vials share one line, and singly would count what they share as if found again.
                means.push(checks.iter().map(|c| c.recovery.value).sum::<f64>() / checks.len() as f64);
                u_reference = u_reference.max(first.assigned.u / first.assigned.value);
            }
            let single: Vec<f64> = r
                .results
                .iter()
                .filter(|x| x.analyte == *analyte && x.role == r.recipe.blank.samples)
                .map(|x| x.gross.value)
                .collect();
            unit = r.recipe.unit.clone();
            if let Some(m) = Moments::of(&single).filter(|m| m.n > 1) {
                squares += m.squares;
                dof += single.len() - 1;
                blanks += single.len();
                with_blanks += 1;
            }
        }
        let parts = mean_sd(&means).filter(|_| means.len() >= FEWEST_RUNS).map(|(mean, between_runs)| Parts {
            runs: means.len(),
            bias: mean - 1.0,
            between_runs,
            u_reference,
            blank_sd: (dof > 0).then(|| (squares / dof as f64).sqrt()),
            blanks_a_run: blanks as f64 / with_blanks.max(1) as f64,
            unit,
        });
        Self { analyte: analyte.clone(), runs: means.len(), parts }
    }

    /// The finding `number.long-term`: a note beside u.
    pub fn finding(&self, net: &Measured) -> Finding {
        let name = Check::NumberLongTerm;
        let Some(parts) = &self.parts else {
            let says = quality::YearsFew { runs: message::count(self.runs), needed: message::count(FEWEST_RUNS) };
            return Finding::new(name, Outcome::NotKnown, Message::from(says));
        };
        let u = parts.u(net.value);
        let met = u <= RATIO * net.u;
        let blanks: Message = match parts.blank_sd {
            Some(sd) => quality::Blanks { sd: Shown::significant(sd, 2, parts.unit.to_string()) }.into(),
            None => quality::NoBlanks.into(),
        };
        let unit = &net.unit;
        let (runs, element) = (message::count(self.runs), self.analyte.element.as_str().into());
        let [bias, between] = [parts.bias, parts.between_runs].map(|x| Share::new(x, Digits::Significant(2)));
        let [by_years, budget] = [u, net.u].map(|x| Shown::significant(x, 2, unit.to_string()));
        let (outcome, says): (_, Message) = if met {
            let says = quality::YearsHeld { runs, element, bias, between, blanks, u: by_years, budget };
            (Outcome::Met, says.into())
        } else {
            let says = quality::YearsNotHeld { runs, element, bias, between, blanks, u: by_years, budget };
            (Outcome::NotMet, says.into())
        };
        Finding::new(name, outcome, says)
            .comparing(message::compared::UFromYears, Amount::stated(u, unit.clone()))
            .comparing(message::compared::UOfBudget, Amount::stated(net.u, unit.clone()))
            .comparing(message::compared::BiasOfControlWater, Amount::stated(parts.bias, Unit::one()))
            .comparing(message::compared::BetweenRuns, Amount::stated(parts.between_runs, Unit::one()))
    }
}

impl Parts {
    /// Long-term standard uncertainty of a value, in the unit of the value.
    pub fn u(&self, value: f64) -> f64 {
        let runs = self.between_runs.powi(2);
        let relative = runs + self.bias.powi(2) + runs / self.runs as f64 + self.u_reference.powi(2);
        let blank = self.blank_sd.map_or(0.0, |s| s * s * (1.0 + 1.0 / self.blanks_a_run));
        (value * value * relative + blank).sqrt()
    }
}
