//! What every signal stands on: dead time and internal standards, in the vials of results and in those that results
//! stand on.

use super::super::input::Role;
use super::super::result::RunFinding;
use super::{Findings, ReducedRun, finding, kind, name, others_stand_on, part, plain};
use message::{Shown, measurement as say};
use quantity::Check;

/// Each vial in which the detector lost more pulses than the model is trusted to; where there is none, the largest loss.
pub(super) fn dead_time(run: &ReducedRun, out: &mut Vec<RunFinding>) {
    let Some((most, isotope, vial)) = run.table.most_dead else {
        return;
    };
    let limit = run.recipe.dead_time.warn_share;
    let mut tell = |share: f64, isotope: usize, vial: usize| {
        let place = &run.table.vials[vial];
        let says = say::DeadTime {
            share: part(share),
            isotope: name(&run.table.isotopes[isotope]),
            vial: name(&place.name),
            limit: part(limit),
        };
        out.push(RunFinding {
            finding: finding(Check::RunDeadTime, share < limit, says),
            analyte: None,
            position: (share >= limit).then_some(place.position),
        });
    };
    if most < limit {
        tell(most, isotope, vial);
        return;
    }
    for v in 0..run.table.vials.len() {
        if let Some((share, isotope)) = most_lost(run, 0..run.table.isotopes.len(), v).filter(|m| m.0 >= limit) {
            tell(share, isotope, v);
        }
    }
}

/// The largest share of pulses lost among isotopes in a vial, and of which.
fn most_lost(run: &ReducedRun, isotopes: impl Iterator<Item = usize>, v: usize) -> Option<(f64, usize)> {
    let lost = |i: usize| Some((run.table.lost_share(run.table.cell(i, v).ok()?, &run.recipe)?, i));
    isotopes.filter_map(lost).fold(None, |most: Option<(f64, usize)>, x| match most {
        Some(m) if m.0 >= x.0 => Some(m),
        _ => Some(x),
    })
}

/// Dead time and internal standard of the vials that all results of an analyte stand on.
pub(super) fn standards(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    let plan = &reduction.plan;
    let limit = run.recipe.dead_time.warn_share;
    let rule = &run.recipe.internal_standards;
    let mut good = true;
    for (v, vial) in run.table.vials.iter().enumerate() {
        let Some(point) = reduction.points[v].filter(|_| others_stand_on(&run.recipe, vial.role)) else {
            continue;
        };
        let involved = plan.members.iter().chain(plan.standards.iter().map(|s| &s.0)).copied();
        if let Some((share, isotope)) = most_lost(run, involved, v).filter(|m| m.0 >= limit) {
            good = false;
            let says = say::StandardDead {
                role: kind(vial.role),
                vial: name(&vial.name),
                analyte: name(&plan.analyte),
                share: part(share),
                isotope: name(&run.table.isotopes[isotope]),
                limit: part(limit),
            };
            f.add(None, finding(Check::RunStandardSignal, false, says));
        }
        let level = 100.0 * point.response.standard;
        if !plan.standards.is_empty() && !(rule.lowest_percent..=rule.highest_percent).contains(&level) {
            good = false;
            let says = say::StandardSuppressed {
                role: kind(vial.role),
                vial: name(&vial.name),
                analyte: name(&plan.analyte),
                level: Shown::trimmed(level, 3, "%"),
                lowest: Shown::trimmed(rule.lowest_percent, 6, ""),
                highest: Shown::trimmed(rule.highest_percent, 6, "%"),
            };
            f.add(None, finding(Check::RunStandardSignal, false, says));
        }
    }
    if good {
        let says = say::StandardSignalsGood { analyte: name(&plan.analyte) };
        f.add(None, finding(Check::RunStandardSignal, true, says));
    }
}

pub(super) fn internal_standards(run: &ReducedRun, out: &mut Vec<RunFinding>) {
    let rule = &run.recipe.internal_standards;
    for standard in &rule.isotopes {
        let Some(i) = run.table.find(standard) else {
            continue;
        };
        let levels: Vec<(usize, f64)> = (0..run.table.vials.len())
            // Nothing is aspirated in a gas background, so no internal standard is in it.
            .filter(|v| run.table.vials[*v].role != Role::GasBackground)
            .filter_map(|v| {
                let rates = run.table.rates(run.table.cell(i, v).ok()?);
                Some((v, rates.iter().sum::<f64>() / rates.len() as f64))
            })
            .collect();
        let calibration: Vec<f64> = levels
            .iter()
            .filter(|(v, _)| matches!(run.table.vials[*v].role, Role::Standard | Role::CalibrationBlank))
            .map(|l| l.1)
            .collect();
        let reference = calibration.iter().sum::<f64>() / calibration.len().max(1) as f64;
        if reference <= 0.0 {
            continue;
        }
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for (v, level) in levels {
            let p = 100.0 * level / reference;
            (low, high) = (low.min(p), high.max(p));
            if !(rule.lowest_percent..=rule.highest_percent).contains(&p) {
                let vial = &run.table.vials[v];
                let says = say::InternalStandardOutside {
                    standard: name(standard),
                    vial: name(&vial.name),
                    level: Shown::trimmed(p, 3, "%"),
                    lowest: Shown::trimmed(rule.lowest_percent, 6, ""),
                    highest: Shown::trimmed(rule.highest_percent, 6, "%"),
                };
                out.push(RunFinding {
                    finding: finding(Check::RunInternalStandard, false, says),
                    analyte: None,
                    position: Some(vial.position),
                });
            }
        }
        if low >= rule.lowest_percent && high <= rule.highest_percent {
            let says = say::InternalStandardSteady {
                standard: name(standard),
                low: plain(low),
                high: Shown::trimmed(high, 3, "%"),
            };
            out.push(RunFinding {
                finding: finding(Check::RunInternalStandard, true, says),
                analyte: None,
                position: None,
            });
        }
    }
}
