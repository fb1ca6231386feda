//! Reference materials, duplicates and spikes beside what is known of them.

use super::super::analyte_reduction;
use super::super::input::Role;
use super::super::result::{DuplicatePair, ReferenceCheck};
use super::super::spike::parent;
use super::{Findings, ReducedRun, finding, name, part, plain, unknown};
use message::{Message, Shown, measurement as say};
use quantity::{Amount, Check, Measured, Unit};

pub(super) fn reference_materials(run: &ReducedRun, c: usize, f: &mut Findings) -> Vec<ReferenceCheck> {
    let reduction = &run.reductions[c];
    let mut checks = Vec::new();
    for (r, (_, net)) in run.results.iter().zip(&run.nets).filter(|(_, n)| n.0 == c) {
        if !matches!(r.role, Role::ReferenceMaterial | Role::DriftCheck) {
            continue;
        }
        let vial = &run.table.vials[net.vial];
        let Ok(Some(assigned)) =
            analyte_reduction::assigned_in_bottle(vial, &reduction.plan.analyte.element, &run.recipe)
        else {
            continue;
        };
        if assigned.value <= 0.0 {
            continue;
        }
        let d = r.net.value - assigned.value;
        // ζ takes standard uncertainties, E_n expanded ones (ISO 13528), each with the k of its degrees of freedom.
        let zeta = d / r.net.u.hypot(assigned.u);
        let k_ref = statistics::t::upper_quantile((1.0 - run.recipe.coverage) / 2.0, assigned.dof);
        let e_n = d / (r.coverage_k * r.net.u).hypot(k_ref * assigned.u);
        let recovery = r.net.value / assigned.value;
        let relative = (r.net.u / assigned.value).hypot(recovery * assigned.u / assigned.value);
        if r.role == Role::ReferenceMaterial {
            let says = say::ReferenceMaterial {
                vial: name(&r.vial),
                analyte: name(&r.analyte),
                found: Shown::trimmed(r.net.value, 3, run.recipe.unit.to_string()),
                certified: plain(assigned.value),
                recovery: part(recovery),
                zeta: plain(zeta).typeset(),
                en: plain(e_n).typeset(),
            };
            f.add(
                None,
                finding(Check::RunReferenceMaterial, e_n.abs() <= 1.0, says)
                    .comparing(message::compared::Found, Amount::Measured(r.net.clone()))
                    .comparing(message::compared::Certified, Amount::Measured(assigned.clone())),
            );
        }
        checks.push(ReferenceCheck {
            position: r.position,
            vial: r.vial.clone(),
            analyte: r.analyte.clone(),
            found: r.net.clone(),
            recovery: Measured::with_dof(recovery, relative, r.net.dof, Unit::one()),
            assigned,
            zeta,
            e_n,
        });
    }
    if !checks
        .iter()
        .any(|k| run.table.vials.iter().any(|v| v.position == k.position && v.role == Role::ReferenceMaterial))
    {
        f.add(
            None,
            unknown(Check::RunReferenceMaterial, say::NoReferenceMaterial { analyte: name(&reduction.plan.analyte) }),
        );
    }
    checks
}

pub(super) fn duplicate_pairs(run: &ReducedRun, c: usize, f: &mut Findings) -> Vec<DuplicatePair> {
    let mut pairs = Vec::new();
    let of_reduction = || (0..run.results.len()).filter(move |i| run.nets[*i].0 == c);
    for i in of_reduction().filter(|i| run.results[*i].role == Role::Duplicate) {
        let Some(of) = parent(&run.table, run.nets[i].1.vial) else {
            continue;
        };
        let Some(j) = of_reduction().find(|j| run.nets[*j].1.vial == of) else {
            continue;
        };
        let (r, base) = (&run.results[i], &run.results[j]);
        let difference = run.difference(i, j);
        let k = statistics::t::upper_quantile((1.0 - run.recipe.coverage) / 2.0, difference.dof);
        let (d, allowed) = (difference.value, k * difference.u);
        let mean = f64::midpoint(r.net.value, base.net.value);
        let relative = if mean > 0.0 { 100.0 * d / mean } else { f64::NAN };
        f.add(
            Some(base.position),
            finding(
                Check::RunDuplicate,
                d.abs() <= allowed,
                say::Duplicate {
                    vial: name(&r.vial),
                    other: name(&base.vial),
                    difference: Shown::trimmed(d.abs(), 3, run.recipe.unit.to_string()),
                    analyte: name(&r.analyte),
                    allowed: plain(allowed),
                },
            ),
        );
        pairs.push(DuplicatePair {
            position: r.position,
            of_position: base.position,
            analyte: r.analyte.clone(),
            difference,
            relative_percent: relative,
            allowed,
        });
    }
    pairs
}

// US EPA method 200.8: fortified samples within 70 to 130 % (from memory).
const RECOVERY_WINDOW: [f64; 2] = [0.70, 1.30];

pub(super) fn spike_findings(run: &ReducedRun, c: usize, f: &mut Findings) {
    let analyte = &run.reductions[c].plan.analyte;
    for s in run.spikes.iter().filter(|s| s.analyte == *analyte) {
        let of = run
            .table
            .vials
            .iter()
            .position(|v| v.position == s.position)
            .and_then(|v| parent(&run.table, v))
            .map(|v| run.table.vials[v].position);
        let r = &s.recovery;
        let k = statistics::t::upper_quantile((1.0 - run.recipe.coverage) / 2.0, r.dof);
        let met = r.value + k * r.u >= RECOVERY_WINDOW[0]
            && r.value - k * r.u <= RECOVERY_WINDOW[1]
            && (RECOVERY_WINDOW[0]..=RECOVERY_WINDOW[1]).contains(&r.value);
        let check = match s.role {
            Role::FieldSpike => Check::RunFieldSpike,
            _ => Check::RunLabSpike,
        };
        let (vial, analyte, recovery) = (name(&s.vial), name(&s.analyte), part(r.value));
        let u = plain(100.0 * r.u);
        let added = Shown::trimmed(s.added.value, 3, run.recipe.unit.to_string());
        let (lowest, highest) = (plain(100.0 * RECOVERY_WINDOW[0]), part(RECOVERY_WINDOW[1]));
        let says: Message = match s.role {
            Role::FieldSpike => say::FieldSpike { vial, recovery, u, added, analyte, lowest, highest }.into(),
            _ => say::LaboratorySpike { vial, recovery, u, added, analyte, lowest, highest }.into(),
        };
        f.add(of, finding(check, met, says));
    }
}
