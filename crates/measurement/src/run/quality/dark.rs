//! What the detector counts without a sample, where neither a gas background nor a dark rate was recorded.
//!
//! A dark rate B stands on every rate alike, so blanks and calibration take most of it off; what is left in a result
//! grows with dilution and where the internal standard is lower than in the calibration:
//! ΔR = B·(m − Σ f)/I, m isotopes added, f overlap factors, I the internal standard as a share of its mean.

use super::super::input::Role;
use super::super::table::When;
use super::{Findings, ReducedRun, UNSEEN_PART, finding, judged, name, unknown};
use message::{Name, Shown, measurement as say};
use quantity::Check;

// Dark rate of a worn or warm electron multiplier, counts/s: the programme's own choice, the upper end of what is common.
const DARK_RATE: f64 = 20.0;

/// Whether a dark rate was taken off, or what it would do.
pub(super) fn detector_background(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    let plan = &reduction.plan;
    let analyte = || name(&plan.analyte);
    let rate = Shown::trimmed(DARK_RATE, 3, "counts/s");
    if reduction.signal.has_background(plan) {
        let from = if plan.members.iter().any(|i| reduction.signal.is_dark(*i)) { "recipe" } else { "gas" };
        let says = say::DetectorBackground { analyte: analyte(), from: Name::from(from) };
        f.add(None, finding(Check::RunDetectorBackground, true, says));
        return;
    }
    let mut moved = false;
    for (r, net) in judged(run, c) {
        let shift = net_shift(run, c, net);
        if shift.abs() <= UNSEEN_PART * r.net.u {
            continue;
        }
        moved = true;
        let says = say::DetectorBackgroundOpen {
            analyte: analyte(),
            vial: name(&r.vial),
            rate: rate.clone(),
            shift: Shown::trimmed(shift.abs(), 2, run.recipe.unit.to_string()),
            u: Shown::trimmed(r.net.u, 2, ""),
        };
        f.add(Some(r.position), unknown(Check::RunDetectorBackground, says));
    }
    if !moved {
        let says = say::DetectorBackgroundSmall { analyte: analyte(), rate };
        f.add(None, finding(Check::RunDetectorBackground, true, says));
    }
}

/// How far the dark rate moves a net value, in the recipe's unit.
fn net_shift(run: &ReducedRun, c: usize, net: &super::Net) -> f64 {
    let gross = |v: usize| gross_shift(run, c, v);
    let blank = run.blanks[c].get(net.blank_set).map_or(0.0, |b| {
        let sum: f64 = b.vials.iter().map(|v| gross(*v)).sum();
        // A blank as mass per bottle is brought to this bottle's volume by the same factor as its mean.
        net.blank_scale * sum / (b.n as f64 * b.as_concentration)
    });
    gross(net.vial) - blank
}

fn gross_shift(run: &ReducedRun, c: usize, v: usize) -> f64 {
    let reduction = &run.reductions[c];
    let per_rate = |v: usize| {
        let p = reduction.points[v]?;
        let when = When::of(&run.table.vials[v]);
        let isotopes = reduction.plan.members.len() as f64;
        let overlaps: f64 = reduction.signal.tracks.iter().map(|t| t.value(when)).sum();
        let g = reduction.drift.as_ref().map_or(1.0, |m| m.at(when));
        Some((isotopes - overlaps) / (p.response.standard * g))
    };
    let zero: Vec<f64> = run
        .table
        .vials
        .iter()
        .enumerate()
        .filter(|(_, x)| matches!(x.role, Role::CalibrationBlank | Role::Standard))
        .filter_map(|(v, _)| per_rate(v))
        .collect();
    let line = zero.iter().sum::<f64>() / zero.len().max(1) as f64;
    let own = per_rate(v).unwrap_or(line);
    DARK_RATE * (own - line) * run.table.vials[v].dilution.value / reduction.fitted.line.slope
}
