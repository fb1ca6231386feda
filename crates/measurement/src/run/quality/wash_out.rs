//! What a high vial leaves in tubes and cones for the vial after it.
//!
//! Carry-over is a part k of the level before: c_seen = c + k·c_before, both as measured (before dilution). Where
//! several blanks of this run stand after high vials, k is the slope of the blanks' levels against the level before
//! them, roles apart; where none tells, and the recipe states no most, k is not known, and a result is named where a
//! usual k would matter. Nothing is taken off: the vial after next is taken as clean.

use super::super::analyte_reduction::AnalyteReduction;
use super::super::input::Role;
use super::{Findings, ReducedRun, UNSEEN_PART, finding, in_time, judged, name, unknown};
use message::{Digits, Message, Name, Share, Shown, measurement as say};
use quantity::Check;
use std::collections::BTreeMap;

// Wash-out after a minute of rinsing, from common practice (from memory): the programme's own choice where the run does
// not tell.
const USUAL: f64 = 1e-4;
// Level of the one-sided test that blanks after high vials are higher: the programme's own choice.
const LEVEL: f64 = 0.01;
// Blanks after high vials that are needed, so that one contaminated bottle is not taken for carry-over.
const FEWEST_AFTER_HIGH: usize = 2;

/// How much of a vial's level reaches the next.
struct CarryOver {
    most: f64,
    /// `found`, `bounded`, `given` or `assumed`, as the catalogue chooses by it.
    from: &'static str,
}

/// Results that a high vial before them may have raised.
pub(super) fn wash_out(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    let order = in_time(run, reduction);
    let before: BTreeMap<usize, usize> = order
        .windows(2)
        .filter(|p| run.table.vials[p[0]].session == run.table.vials[p[1]].session)
        .map(|p| (p[1], p[0]))
        .collect();
    let carry = carry_over(run, reduction, &before);
    let analyte = || name(&reduction.plan.analyte);
    let rate = || Share::new(carry.most, Digits::Trimmed(2));
    let mut clean = true;
    for (r, net) in judged(run, c) {
        let Some(high) = before.get(&net.vial) else { continue };
        let carried = carry.most * measured(run, reduction, *high) * run.table.vials[net.vial].dilution.value;
        if carried <= UNSEEN_PART * r.net.u {
            continue;
        }
        clean = false;
        let says: Message = say::WashOut {
            analyte: analyte(),
            vial: name(&r.vial),
            before: name(&run.table.vials[*high].name),
            rate: rate(),
            from: Name::from(carry.from),
            carried: Shown::trimmed(carried, 2, run.recipe.unit.to_string()),
            u: Shown::trimmed(r.net.u, 2, ""),
        }
        .into();
        let told = match carry.from {
            "found" | "given" => finding(Check::RunWashOut, false, says),
            _ => unknown(Check::RunWashOut, says),
        };
        f.add(Some(r.position), told);
    }
    if clean {
        let says = say::WashOutSmall { analyte: analyte(), rate: rate(), from: Name::from(carry.from) };
        f.add(None, finding(Check::RunWashOut, true, says));
    }
}

/// Level of a vial as measured, before dilution; not under zero.
fn measured(run: &ReducedRun, reduction: &AnalyteReduction, v: usize) -> f64 {
    reduction.points[v].map_or(0.0, |p| (p.gross / run.table.vials[v].dilution.value).max(0.0))
}

fn carry_over(run: &ReducedRun, reduction: &AnalyteReduction, before: &BTreeMap<usize, usize>) -> CarryOver {
    let estimate = slope(run, reduction, before);
    if let Some((k, u, dof)) = estimate
        && k > statistics::t::upper_quantile(LEVEL, dof) * u
    {
        return CarryOver { most: k + statistics::t::upper_quantile(0.05, dof) * u, from: "found" };
    }
    if let Some(most) = run.recipe.carry_over {
        return CarryOver { most, from: "given" };
    }
    // One-sided 95 % bound of what the blanks leave open.
    let bound = estimate.map(|(k, u, dof)| k.max(0.0) + statistics::t::upper_quantile(0.05, dof) * u);
    match bound {
        Some(most) if most < USUAL => CarryOver { most, from: "bounded" },
        _ => CarryOver { most: USUAL, from: "assumed" },
    }
}

/// Slope of the blanks' levels against the level before them, its u and degrees of freedom; each role of blank has its
/// own middle. None where too few blanks stand after high vials.
fn slope(run: &ReducedRun, reduction: &AnalyteReduction, before: &BTreeMap<usize, usize>) -> Option<(f64, f64, f64)> {
    let mut by_role: BTreeMap<Role, Vec<(f64, f64)>> = BTreeMap::new();
    for (v, high) in before {
        let role = run.table.vials[*v].role;
        if role.is_blank() {
            let point =
                (measured(run, reduction, *high), reduction.points[*v]?.gross / run.table.vials[*v].dilution.value);
            by_role.entry(role).or_default().push(point);
        }
    }
    let points: Vec<(f64, f64)> = by_role
        .values()
        .flat_map(|of| {
            let n = of.len() as f64;
            let (x0, y0) = (of.iter().map(|p| p.0).sum::<f64>() / n, of.iter().map(|p| p.1).sum::<f64>() / n);
            of.iter().map(move |p| (p.0 - x0, p.1 - y0))
        })
        .collect();
    let dof = points.len() as f64 - by_role.len() as f64 - 1.0;
    let top = by_role.values().flatten().fold(0.0_f64, |m, p| m.max(p.0));
    let after_high = by_role.values().flatten().filter(|p| p.0 >= top / 2.0).count();
    let sxx: f64 = points.iter().map(|p| p.0 * p.0).sum();
    if dof < 2.0 || sxx <= 0.0 || after_high < FEWEST_AFTER_HIGH {
        return None;
    }
    let k = points.iter().map(|p| p.0 * p.1).sum::<f64>() / sxx;
    let left: f64 = points.iter().map(|p| (p.1 - k * p.0).powi(2)).sum();
    Some((k, (left / dof / sxx).sqrt(), dof))
}
