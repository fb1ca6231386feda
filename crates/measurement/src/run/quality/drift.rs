//! Drift: how much there was, where no check tells of it, and whether a second control sees what the checks miss.

use super::super::analyte_reduction;
use super::super::input::Role;
use super::super::net::Net;
use super::super::recipe::Drift;
use super::super::result::RunResult;
use super::super::spike::difference;
use super::super::table::When;
use super::{Findings, ReducedRun, finding, judged, name, part, plain, unknown};
use message::{Message, Name, Shown, count, measurement as say};
use quantity::Check;
use statistics::sample::Moments;
use statistics::welch::effective_dof;

// US EPA method 200.8: a calibration check within 15 % (from memory).
const DRIFT_LIMIT: f64 = 0.15;

pub(super) fn drift(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    let analyte = &reduction.plan.analyte;
    if reduction.drift_not_seen {
        f.add(None, unknown(Check::RunDrift, say::DriftNotSeen { analyte: name(analyte) }));
    }
    let summary = &run.analytes[c];
    if reduction.drift.is_some() {
        let met = summary.drift.abs() <= DRIFT_LIMIT;
        f.add(
            None,
            finding(
                Check::RunDrift,
                met,
                say::Drift { analyte: name(analyte), change: part(summary.drift), limit: part(DRIFT_LIMIT) },
            ),
        );
    } else if run.recipe.drift == Drift::None {
        f.add(None, unknown(Check::RunDrift, say::DriftNotCorrected { analyte: name(analyte) }));
    }
    if reduction.between_vials.is_none() {
        f.add(None, unknown(Check::RunBetweenVials, say::BetweenVialsUnknown { analyte: name(analyte) }));
    }
}

/// Part of a result's u from the drift of vials beyond the checks at which it is told of a result between them, whose
/// standards stand beyond: the programme's own choice.
const OPEN_PART: f64 = 0.5;

/// Results that stand before the first or after the last drift check, or on standards that do.
pub(super) fn open(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    if reduction.drift.is_none() {
        return;
    }
    let analyte = || name(&reduction.plan.analyte);
    let mut closed = true;
    for (r, net) in judged(run, c) {
        let u = reduction.open.part_of(&net.row);
        let share = part(if r.net.u > 0.0 { (u / r.net.u).powi(2) } else { 0.0 });
        let vial = name(&r.vial);
        let says: Message = match reduction.open.beyond(When::of(&run.table.vials[net.vial])) {
            Some((minutes, after)) => say::DriftOpen {
                analyte: analyte(),
                vial,
                minutes: Shown::trimmed(minutes, 3, "min"),
                side: Name::from(if after { "after" } else { "before" }),
                share,
            }
            .into(),
            None if u > OPEN_PART * r.net.u => say::DriftOpenStandards { analyte: analyte(), vial, share }.into(),
            None => continue,
        };
        closed = false;
        f.add(Some(r.position), unknown(Check::RunDriftOpen, says));
    }
    if closed {
        f.add(None, finding(Check::RunDriftOpen, true, say::DriftClosed { analyte: analyte() }));
    }
}

/// Chance, over all solutions of one analyte, that good data raise it: the programme's own choice.
const FAST_CHANCE: f64 = 0.01;

type Measurement<'a> = (&'a RunResult, &'a Net);

/// Solutions measured several times in the run: a reference material by its assigned value, a water by its bottle.
/// What moves between the drift checks makes them scatter by more than their u: F = s²/V, V the mean variance that
/// their own parts and their different places in the drift predict.
pub(super) fn fast(run: &ReducedRun, c: usize, f: &mut Findings) {
    let analyte = || name(&run.reductions[c].plan.analyte);
    let solutions = repeated_solutions(run, c);
    let mut agree = true;
    for of in &solutions {
        let (found, expected, dof) = scatter(run, c, of);
        let level = FAST_CHANCE / solutions.len() as f64;
        let ratio = statistics::f::upper_quantile(level, of.len() as f64 - 1.0, dof);
        if found <= expected * ratio {
            continue;
        }
        agree = false;
        let says = say::FastDrift {
            analyte: analyte(),
            vial: name(&of[0].0.vial),
            times: count(of.len()),
            scatter: Shown::trimmed(found.sqrt(), 3, run.recipe.unit.to_string()),
            expected: plain(expected.sqrt()),
        };
        f.add(None, finding(Check::RunFastDrift, false, says));
    }
    if agree && !solutions.is_empty() {
        let says = say::NoFastDrift { analyte: analyte(), solutions: count(solutions.len()) };
        f.add(None, finding(Check::RunFastDrift, true, says));
    }
}

/// Variance found between measurements of one solution, the one predicted, and the degrees of freedom of that.
fn scatter(run: &ReducedRun, c: usize, of: &[Measurement]) -> (f64, f64, f64) {
    let reduction = &run.reductions[c];
    let values: Vec<f64> = of.iter().map(|x| x.0.net.value).collect();
    let found = Moments::of(&values).and_then(|m| m.variance()).unwrap_or(0.0);
    let (mut sum, mut pairs) = (0.0, 0.0);
    for (i, a) in of.iter().enumerate() {
        for b in &of[i + 1..] {
            let (_, row, mut tally) = difference(a.1, b.1, reduction, true);
            tally.add_row(&reduction.sources, &row);
            // A difference has the variance of two.
            sum += tally.variance / 2.0;
            pairs += 1.0;
        }
    }
    let expected = sum / pairs;
    let n = of.len() as f64;
    let mut parts: Vec<(f64, f64)> =
        of.iter().map(|x| (x.1.own.replicates.powi(2) / n, x.1.own.replicates_dof)).collect();
    let between: f64 = of.iter().map(|x| x.1.own.between_vials.powi(2) / n).sum();
    parts.push((between, reduction.vials_dof()));
    let rest = expected - parts.iter().map(|p| p.0).sum::<f64>();
    parts.push((rest.max(0.0), f64::INFINITY));
    (found, expected, effective_dof(&parts).unwrap_or(f64::INFINITY))
}

/// The measurements of each solution that was measured more than once, in order of position.
fn repeated_solutions(run: &ReducedRun, c: usize) -> Vec<Vec<Measurement<'_>>> {
    let mut solutions: Vec<Vec<Measurement>> = Vec::new();
    for x in judged(run, c) {
        match solutions.iter_mut().find(|of| same_solution(run, c, of[0], x)) {
            Some(of) => of.push(x),
            None => solutions.push(vec![x]),
        }
    }
    solutions.retain(|of| of.len() > 1);
    solutions
}

fn same_solution(run: &ReducedRun, c: usize, (a, net_a): Measurement, (b, net_b): Measurement) -> bool {
    let element = &run.reductions[c].plan.analyte.element;
    let value = |v: usize| {
        analyte_reduction::assigned_in_bottle(&run.table.vials[v], element, &run.recipe).ok().flatten().map(|x| x.value)
    };
    match (a.role, b.role) {
        (Role::ReferenceMaterial, Role::ReferenceMaterial) => {
            matches!((value(net_a.vial), value(net_b.vial)), (Some(x), Some(y)) if x.total_cmp(&y).is_eq())
        }
        (Role::Sample | Role::Duplicate, Role::Sample | Role::Duplicate) => a.bottle.is_some() && a.bottle == b.bottle,
        _ => false,
    }
}

/// Whether any solution is measured more than once beside the drift checks.
pub(in super::super) fn has_second_control(run: &ReducedRun, c: usize) -> bool {
    !repeated_solutions(run, c).is_empty()
}
