//! What a run recorded of its solutions and what it left unsaid: acid in the bottles, the stock of the
//! standards, on which side of a dilution their values stand, and whether another source of the metal
//! was held against the line.
//!
//! A second source is a reference material, or a drift check of another stock, that names no stock of
//! the standards. The mean of its vials less its value, with u of both (results of a run share line
//! and blank: their covariances are in it), agrees where |d| ≤ k·u(d), k from Student's t at the
//! recipe's coverage, shared out among the second sources of the analyte (Bonferroni). That is a test
//! of the stock; `run.reference-material` asks whether the method is in control, and is milder.
//! Checked in `tests/run_recorded.rs`.

use super::bottle::{self, AcidFactor};
use super::input::{Role, Vial};
use super::result::RunFinding;
use super::{Analyte, ReducedRun, ReferenceCheck};
use message::{Message, Name, Shown, count, measurement as say};
use quantity::{Amount, Check, Finding, Outcome};
use statistics::welch::effective_dof;
use std::collections::BTreeSet;

/// All findings of a reduced run on what was recorded.
pub(super) fn findings(run: &ReducedRun) -> Vec<RunFinding> {
    let mut out = Vec::new();
    acid_told(run, &mut out);
    for reduction in &run.reductions {
        let analyte = &reduction.plan.analyte;
        let mut add = |position: Option<u32>, finding: Finding| {
            out.push(RunFinding { finding, analyte: Some(analyte.clone()), position });
        };
        add(None, stock(run, analyte));
        if let Some(finding) = side(run, analyte) {
            add(None, finding);
        }
        add(None, second_source(run, analyte));
        for (position, finding) in acid_untold(run, analyte) {
            add(Some(position), finding);
        }
    }
    out
}

/// Vials of some roles that hold a value for an element, with its stock.
fn with_value<'a>(
    run: &'a ReducedRun,
    analyte: &'a Analyte,
    roles: &'a [Role],
) -> impl Iterator<Item = (&'a Vial, &'a super::Assigned)> {
    let of = move |v: &'a Vial| v.assigned.iter().find(|a| a.element == analyte.element).map(|a| (v, a));
    run.table.vials.iter().filter(|v| roles.contains(&v.role)).filter_map(of)
}

/// Whether the standards name their stock.
fn stock(run: &ReducedRun, analyte: &Analyte) -> Finding {
    let analyte_name = Name(analyte.to_string());
    let unnamed = with_value(run, analyte, &[Role::Standard]).filter(|(_, a)| a.stock.is_none()).count();
    if unnamed > 0 {
        let says = say::StockUnnamed { count: count(unnamed), analyte: analyte_name };
        return Finding::new(Check::RunStock, Outcome::NotKnown, says);
    }
    let names: Vec<&str> = stocks(run, analyte).into_iter().collect();
    let says = say::StockNamed { stocks: Name(names.join(", ")), analyte: analyte_name };
    Finding::new(Check::RunStock, Outcome::Met, says)
}

/// The stocks that the standards of an analyte name.
fn stocks<'a>(run: &'a ReducedRun, analyte: &'a Analyte) -> BTreeSet<&'a str> {
    with_value(run, analyte, &[Role::Standard]).filter_map(|(_, a)| a.stock.as_deref()).collect()
}

/// Values of diluted vials of which nobody said on which side of the dilution they stand: one finding, told by the vial
/// that was diluted most.
fn side(run: &ReducedRun, analyte: &Analyte) -> Option<Finding> {
    let roles = [Role::Standard, Role::ReferenceMaterial, Role::DriftCheck];
    let unsaid: Vec<_> = with_value(run, analyte, &roles)
        .filter(|(v, a)| a.side.is_none() && (v.dilution.value - 1.0).abs() > 0.0)
        .collect();
    let strength = |v: &Vial| v.dilution.value.max(1.0 / v.dilution.value);
    let (vial, a) = unsaid.iter().max_by(|x, y| {
        // Of equal ones the first of the run.
        strength(x.0).total_cmp(&strength(y.0)).then(y.0.position.cmp(&x.0.position))
    })?;
    let shown = |x: f64| Shown::trimmed(x, 3, a.amount.unit.to_string());
    let says = say::AssignedSideUnsaid {
        vials: count(unsaid.len()),
        analyte: Name(analyte.to_string()),
        vial: Name::from(&vial.name),
        dilution: Shown::trimmed(vial.dilution.value, 4, ""),
        bottle: shown(a.amount.value / bottle::dilution(vial).0),
        measured: shown(a.amount.value),
    };
    Some(Finding::new(Check::RunAssignedSide, Outcome::NotKnown, says))
}

/// The line against sources of the metal other than the stock of its standards.
fn second_source(run: &ReducedRun, analyte: &Analyte) -> Finding {
    let named = stocks(run, analyte);
    let unnamed = with_value(run, analyte, &[Role::Standard]).any(|(_, a)| a.stock.is_none());
    let other = |check: &&ReferenceCheck| {
        let Some(vial) = run.table.vials.iter().find(|v| v.position == check.position) else { return false };
        let stock = vial.assigned.iter().find(|a| a.element == analyte.element).and_then(|a| a.stock.as_deref());
        match stock {
            // Where standards name no stock, a check may be of the same: only a reference material is another source.
            Some(s) => !named.contains(s) && (!unnamed || vial.role == Role::ReferenceMaterial),
            None => vial.role == Role::ReferenceMaterial,
        }
    };
    let checks: Vec<&ReferenceCheck> = run.references.iter().filter(|c| c.analyte == *analyte).filter(other).collect();
    let materials = super::reference::materials(checks);
    if materials.is_empty() {
        let says = say::NoSecondSource { analyte: Name(analyte.to_string()) };
        return Finding::new(Check::RunSecondSource, Outcome::NotKnown, says);
    }
    let tail = (1.0 - run.recipe.coverage) / (2.0 * materials.len() as f64);
    let mut worst: Option<(f64, Finding)> = None;
    for checks in &materials {
        let Some((excess, finding)) = against_line(run, analyte, checks, tail) else { continue };
        if worst.as_ref().is_none_or(|(most, _)| excess > *most) {
            worst = Some((excess, finding));
        }
    }
    worst.expect("a material has a vial with a result").1
}

/// One material against the line: |d| over what is allowed, and the finding.
fn against_line(run: &ReducedRun, analyte: &Analyte, checks: &[&ReferenceCheck], tail: f64) -> Option<(f64, Finding)> {
    let found = run.mean_found(analyte, checks)?;
    let assigned = &checks.first()?.assigned;
    let u = found.u.hypot(assigned.u);
    let dof = effective_dof(&[(found.u.powi(2), found.dof), (assigned.u.powi(2), assigned.dof)]);
    let allowed = statistics::t::upper_quantile(tail, dof.unwrap_or(f64::INFINITY).max(1.0)) * u;
    let d = found.value - assigned.value;
    let unit = run.recipe.unit.to_string();
    let (analyte, vials) = (Name(analyte.to_string()), count(checks.len()));
    let (of, difference) = (Shown::trimmed(assigned.value, 3, &*unit), Shown::trimmed(d.abs(), 2, &*unit));
    let most = Shown::trimmed(allowed, 2, unit);
    let met = d.abs() <= allowed;
    let says: Message = if met {
        say::SecondSourceAgrees { analyte, vials, of, difference, most }.into()
    } else {
        say::SecondSourceDiffers { analyte, vials, of, difference, most }.into()
    };
    let outcome = if met { Outcome::Met } else { Outcome::NotMet };
    let finding = Finding::new(Check::RunSecondSource, outcome, says)
        .comparing(message::compared::Found, Amount::Measured(found))
        .comparing(message::compared::Assigned, Amount::Measured(assigned.clone()));
    Some((d.abs() / allowed, finding))
}

/// Whether a vial of this role comes from a bottle that acid is put into.
fn takes_acid(role: Role) -> bool {
    matches!(
        role,
        Role::Sample
            | Role::Duplicate
            | Role::FieldSpike
            | Role::LabSpike
            | Role::BottleBlank
            | Role::TripBlank
            | Role::FieldBlank
            | Role::EquipmentBlank
    )
}

/// Bottles whose acid is recorded: one finding a vial, for all its analytes.
fn acid_told(run: &ReducedRun, out: &mut Vec<RunFinding>) {
    for vial in run.table.vials.iter().filter(|v| takes_acid(v.role)) {
        let (Some(bottle), Some(acid)) = (&vial.bottle, vial.acid_ml) else { continue };
        let (bottle, acid) = (Name::from(bottle), Shown::as_given(acid, "mL"));
        let finding = match vial.bottle_volume_ml {
            Some(volume) => {
                let factor = Shown::decimals(AcidFactor::of(vial).value, 4, "");
                let says = say::AcidCounted { bottle, acid, volume: Shown::as_given(volume, "mL"), factor };
                Finding::new(Check::BottleAcid, Outcome::Met, says)
            }
            None => Finding::new(Check::BottleAcid, Outcome::NotKnown, say::AcidWithoutVolume { bottle, acid }),
        };
        out.push(RunFinding { finding, analyte: None, position: Some(vial.position) });
    }
}

/// Bottles whose acid nobody wrote down: by how much it would move each value.
fn acid_untold<'a>(run: &'a ReducedRun, analyte: &'a Analyte) -> impl Iterator<Item = (u32, Finding)> + 'a {
    run.results.iter().filter(move |r| r.analyte == *analyte && takes_acid(r.role)).filter_map(|r| {
        let vial = run.table.vials.iter().find(|v| v.position == r.position)?;
        let bottle = vial.bottle.as_ref().filter(|_| vial.acid_ml.is_none())?;
        // Acid of one bottle alone moves what was found in it; its blank stays.
        let by = |share: f64| Shown::significant((share * r.gross.value).abs(), 2, r.gross.unit.to_string());
        let says = say::AcidUnrecorded {
            bottle: Name::from(bottle),
            analyte: Name(r.analyte.to_string()),
            one: by(0.01),
            two: by(0.02),
        };
        Some((r.position, Finding::new(Check::BottleAcid, Outcome::NotKnown, says)))
    })
}
