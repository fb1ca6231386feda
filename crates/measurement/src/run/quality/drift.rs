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
use quantity::{Amount, Check};

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

/// Chance, over all pairs of one analyte, that good data raise it: the programme's own choice.
const FAST_CHANCE: f64 = 0.01;

/// Solutions measured several times in the run beside themselves: a reference material by its assigned value, a water
/// by its bottle. What moves between the drift checks moves them.
pub(super) fn fast(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    let pairs = repeated_solutions(run, c);
    let mut agree = true;
    for ((r, net), (other, other_net)) in &pairs {
        let (d, row, mut tally) = difference(net, other_net, reduction, true);
        tally.add_row(&reduction.sources, &row);
        let t = statistics::t::upper_quantile(FAST_CHANCE / (2.0 * pairs.len() as f64), tally.dof());
        let allowed = t * tally.u();
        if d.abs() <= allowed {
            continue;
        }
        agree = false;
        let says = say::FastDrift {
            analyte: name(&r.analyte),
            vial: name(&r.vial),
            other: name(&other.vial),
            difference: Shown::trimmed(d.abs(), 3, run.recipe.unit.to_string()),
            allowed: plain(allowed),
        };
        f.add(
            None,
            finding(Check::RunFastDrift, false, says)
                .comparing(message::compared::First, Amount::Measured(r.net.clone()))
                .comparing(message::compared::Second, Amount::Measured(other.net.clone())),
        );
    }
    if agree && !pairs.is_empty() {
        let says = say::NoFastDrift { analyte: name(&reduction.plan.analyte), pairs: count(pairs.len()) };
        f.add(None, finding(Check::RunFastDrift, true, says));
    }
}

type Measurement<'a> = (&'a RunResult, &'a Net);

/// All pairs of measurements of one solution, in order of position.
fn repeated_solutions(run: &ReducedRun, c: usize) -> Vec<(Measurement<'_>, Measurement<'_>)> {
    let all: Vec<Measurement> = judged(run, c).collect();
    let mut pairs = Vec::new();
    for (i, a) in all.iter().enumerate() {
        pairs.extend(all[i + 1..].iter().filter(|b| same_solution(run, c, *a, **b)).map(|b| (*a, *b)));
    }
    pairs
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
