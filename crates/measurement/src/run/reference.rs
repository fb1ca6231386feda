//! Is the method in control? All vials of one reference material of a run, taken together.
//!
//! A material measured n times is held against its assigned value once: mean found − assigned,
//! with u from the covariances of the n results (they share line, blank and drift) and the
//! certificate's u, as E_n = d / √(U_found² + U_assigned²) (ISO 13528; |E_n| ≤ 1 agrees). Judging
//! each vial alone would turn away a method in control one time in twenty for each vial, and even
//! so one material in twenty fails by chance: beyond 1 warns, beyond 1.5 (three standard
//! uncertainties) the method is out of control (two and three of ISO 7870-2, from memory).
//! Vials of one analyte with the same assigned value count as one material.

use super::{Analyte, ReducedRun, ReferenceCheck, Role};
use message::{Digits, Message, Name, Share, Shown, measurement as say};
use quantity::{Amount, Check, Finding, Measured, Outcome};

/// |E_n| beyond which a material is out of control: three standard uncertainties over two.
// ISO 7870-2: action at three, warning at two standard deviations (from memory).
const ACTION_E_N: f64 = 1.5;

impl ReducedRun {
    /// The findings on the reference materials of an analyte: `run.reference-material`, and
    /// `run.reference-warning` where it misses its value by more than its uncertainty explains but
    /// not by enough to act.
    pub fn reference_findings(&self, analyte: &Analyte) -> Vec<Finding> {
        let main = self.reference_finding(analyte);
        let mut out = vec![main];
        if out[0].message.as_ref().is_some_and(Message::is::<say::ControlWarns>) {
            out.push(Finding { check: Check::RunReferenceWarning, outcome: Outcome::NotMet, ..out[0].clone() });
        }
        out
    }

    /// The finding `run.reference-material` of an analyte: not met where any material misses its
    /// value, not known where none with a value was measured.
    pub fn reference_finding(&self, analyte: &Analyte) -> Finding {
        let name = Check::RunReferenceMaterial;
        let checks: Vec<&ReferenceCheck> =
            self.references.iter().filter(|c| c.analyte == *analyte && self.is_reference(c.position)).collect();
        let mut findings: Vec<Finding> = Vec::new();
        for same in materials(checks) {
            findings.extend(self.material(name, analyte, &same));
        }
        let worst = findings.iter().position(|f| f.outcome == Outcome::NotMet).unwrap_or(0);
        if findings.is_empty() {
            let says = say::NoControlWater { element: Name::from(&*analyte.element) };
            return Finding::new(name, Outcome::NotKnown, says);
        }
        findings.swap_remove(worst)
    }

    /// Mean of what was found of one material, in the recipe's unit, with u from the covariances of its vials; none
    /// without a vial.
    pub(super) fn mean_found(&self, analyte: &Analyte, checks: &[&ReferenceCheck]) -> Option<Measured> {
        let indices: Vec<usize> = checks.iter().filter_map(|c| self.find(c.position, analyte)).collect();
        let n = indices.len() as f64;
        let mean = indices.iter().map(|i| self.results[*i].net.value).sum::<f64>() / n;
        let variance =
            indices.iter().flat_map(|i| indices.iter().map(|j| self.covariance(*i, *j))).sum::<f64>() / (n * n);
        // The results share line, blank and drift, but Welch–Satterthwaite asks for independent parts: the fewest
        // degrees of freedom are on the careful side.
        let dof = indices.iter().map(|i| self.results[*i].net.dof).fold(f64::INFINITY, f64::min);
        (n > 0.0).then(|| Measured::with_dof(mean, variance.sqrt(), dof, self.recipe.unit.clone()))
    }

    fn is_reference(&self, position: u32) -> bool {
        self.results.iter().any(|r| r.position == position && r.role == Role::ReferenceMaterial)
    }

    fn material(&self, name: Check, analyte: &Analyte, checks: &[&ReferenceCheck]) -> Option<Finding> {
        let found = self.mean_found(analyte, checks)?;
        let assigned = &checks.first()?.assigned;
        let tail = (1.0 - self.recipe.coverage) / 2.0;
        let expanded = statistics::t::upper_quantile(tail, found.dof) * found.u;
        let e_n = (found.value - assigned.value)
            / expanded.hypot(statistics::t::upper_quantile(tail, assigned.dof) * assigned.u);
        let met = e_n.abs() <= ACTION_E_N;
        let recovery = Share::new(found.value / assigned.value, Digits::Significant(3));
        let (element, vials) = (Name::from(&*analyte.element), message::count(checks.len()));
        let en = Shown::significant(e_n, 2, "").typeset();
        let says: Message = if e_n.abs() <= 1.0 {
            say::InControl { recovery, element, vials, en }.into()
        } else if met {
            say::ControlWarns { recovery, element, vials, en }.into()
        } else {
            say::OutOfControl { recovery, element, vials, en }.into()
        };
        let outcome = if met { Outcome::Met } else { Outcome::NotMet };
        Some(
            Finding::new(name, outcome, says)
                .comparing(message::compared::Found, Amount::Measured(found))
                .comparing(message::compared::Assigned, Amount::Measured(assigned.clone())),
        )
    }
}

/// Vials of one assigned value together, in the order of their first: they count as one material.
pub(super) fn materials(checks: Vec<&ReferenceCheck>) -> Vec<Vec<&ReferenceCheck>> {
    let mut materials = Vec::new();
    let mut left = checks;
    while let Some(first) = left.first().copied() {
        let (same, rest): (Vec<_>, Vec<_>) = left.into_iter().partition(|c| c.assigned == first.assigned);
        materials.push(same);
        left = rest;
    }
    materials
}
