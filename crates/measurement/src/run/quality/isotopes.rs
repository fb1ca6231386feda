//! Isotopes of one element beside each other.

use super::super::blank_role;
use super::super::result::{RunFinding, RunResult};
use super::{ReducedRun, finding, name, plain};
use message::{Shown, count, measurement as say};
use quantity::{Amount, Check};
use statistics::many::false_discovery;
use statistics::welch::effective_dof;

/// Two isotopes of one element in one vial.
struct Pair<'a> {
    x: &'a RunResult,
    y: &'a RunResult,
    /// Two-sided p of their difference.
    p: f64,
}

/// Isotopes (or resolutions) of one element against each other, vial by vial. All tests of the run are judged together
/// (Benjamini & Hochberg 1995), so that a run of good data raises one in twenty, however many isotopes and vials it has.
pub(super) fn isotopes_agree(run: &ReducedRun, out: &mut Vec<RunFinding>) {
    let mut tests: Vec<((usize, usize), Vec<Pair>)> = vec![];
    for a in 0..run.reductions.len() {
        for b in a + 1..run.reductions.len() {
            let (pa, pb) = (&run.reductions[a].plan.analyte, &run.reductions[b].plan.analyte);
            let pairs = if pa.element == pb.element { pairs(run, a, b) } else { vec![] };
            if !pairs.is_empty() {
                tests.push(((a, b), pairs));
            }
        }
    }
    let p: Vec<f64> = tests.iter().flat_map(|(_, pairs)| pairs).map(|t| t.p).collect();
    let mut q = false_discovery(&p).into_iter();
    for ((a, b), pairs) in tests {
        let vials = pairs.len();
        let apart: Vec<Pair> = pairs
            .into_iter()
            .zip(q.by_ref())
            .filter(|(_, q)| *q <= 1.0 - run.recipe.coverage)
            .map(|(t, _)| t)
            .collect();
        if apart.is_empty() {
            out.extend([a, b].map(|c| agree(run, (a, b), c, vials)));
        }
        out.extend(apart.iter().flat_map(|t| [t.x, t.y].map(|of| disagree(run, t, of))));
    }
}

fn pairs(run: &ReducedRun, a: usize, b: usize) -> Vec<Pair<'_>> {
    let of = |c: usize| {
        run.results
            .iter()
            .zip(&run.nets)
            .filter(move |(r, n)| n.0 == c && blank_role(&run.recipe, r.role).is_some())
            .map(|(r, _)| r)
    };
    let test = |x, y| Pair { x, y, p: p_of(x, y) };
    of(a).filter_map(|x| of(b).find(|y| y.position == x.position).map(|y| test(x, y))).collect()
}

/// Taken as independent: what the two share (bottle, stock, dead time) would narrow u, so the test is careful.
fn p_of(x: &RunResult, y: &RunResult) -> f64 {
    let u = x.net.u.hypot(y.net.u);
    let dof = effective_dof(&[x, y].map(|r| (r.net.u * r.net.u, r.net.dof))).unwrap_or(f64::INFINITY);
    let d = (x.net.value - y.net.value).abs();
    if u > 0.0 {
        statistics::t::two_sided_p(d / u, dof.max(1.0))
    } else if d > 0.0 {
        0.0
    } else {
        1.0
    }
}

fn disagree(run: &ReducedRun, t: &Pair, of: &RunResult) -> RunFinding {
    let (x, y) = (t.x, t.y);
    let says = say::IsotopesDisagree {
        one: name(&x.analyte),
        other: name(&y.analyte),
        vial: name(&x.vial),
        found: plain(x.net.value),
        others: Shown::trimmed(y.net.value, 3, run.recipe.unit.to_string()),
    };
    RunFinding {
        finding: finding(Check::RunIsotopesAgree, false, says)
            .comparing_named(x.analyte.to_string(), Amount::Measured(x.net.clone()))
            .comparing_named(y.analyte.to_string(), Amount::Measured(y.net.clone())),
        analyte: Some(of.analyte.clone()),
        position: Some(of.position),
    }
}

fn agree(run: &ReducedRun, (a, b): (usize, usize), of: usize, vials: usize) -> RunFinding {
    let says = say::IsotopesAgree {
        one: name(&run.reductions[a].plan.analyte),
        other: name(&run.reductions[b].plan.analyte),
        vials: count(vials),
    };
    RunFinding {
        finding: finding(Check::RunIsotopesAgree, true, says),
        analyte: Some(run.reductions[of].plan.analyte.clone()),
        position: None,
    }
}
