//! Isotopes of one element beside each other.

use super::super::blank_role;
use super::super::result::RunFinding;
use super::{ReducedRun, finding, name, plain};
use message::{Shown, count, measurement as say};
use quantity::{Amount, Check};
use statistics::welch::effective_dof;

/// Isotopes (or resolutions) of one element against each other, vial by vial; the level of each
/// test is divided by the number of vials, so that a run of good data raises one in twenty.
pub(super) fn isotopes_agree(run: &ReducedRun, out: &mut Vec<RunFinding>) {
    for a in 0..run.reductions.len() {
        for b in a + 1..run.reductions.len() {
            let (pa, pb) = (&run.reductions[a].plan.analyte, &run.reductions[b].plan.analyte);
            if pa.element == pb.element {
                compare_isotopes(run, a, b, out);
            }
        }
    }
}

fn compare_isotopes(run: &ReducedRun, a: usize, b: usize, out: &mut Vec<RunFinding>) {
    let of = |c: usize| {
        run.results
            .iter()
            .zip(&run.nets)
            .filter(move |(r, n)| n.0 == c && blank_role(&run.recipe, r.role).is_some())
            .map(|(r, _)| r)
    };
    let pairs: Vec<_> = of(a).filter_map(|x| of(b).find(|y| y.position == x.position).map(|y| (x, y))).collect();
    if pairs.is_empty() {
        return;
    }
    let alpha = (1.0 - run.recipe.coverage) / pairs.len() as f64;
    let mut disagree = 0;
    for (x, y) in &pairs {
        // Taken as independent: what the two share (bottle, stock, dead time) would narrow u, so the test is careful.
        let u = x.net.u.hypot(y.net.u);
        let parts = [x, y].map(|r| (r.net.u * r.net.u, r.net.dof));
        let dof = effective_dof(&parts).unwrap_or(f64::INFINITY);
        let k = statistics::t::upper_quantile(alpha / 2.0, dof.max(1.0));
        let d = x.net.value - y.net.value;
        if d.abs() <= k * u {
            continue;
        }
        disagree += 1;
        let both = [x, y].map(|r| r.analyte.clone());
        out.extend(both.map(|analyte| {
            RunFinding {
                finding: finding(
                    Check::RunIsotopesAgree,
                    false,
                    say::IsotopesDisagree {
                        one: name(&x.analyte),
                        other: name(&y.analyte),
                        vial: name(&x.vial),
                        found: plain(x.net.value),
                        others: Shown::trimmed(y.net.value, 3, run.recipe.unit.to_string()),
                    },
                )
                .comparing_named(x.analyte.to_string(), Amount::Measured(x.net.clone()))
                .comparing_named(y.analyte.to_string(), Amount::Measured(y.net.clone())),
                analyte: Some(analyte),
                position: Some(x.position),
            }
        }));
    }
    if disagree == 0 {
        let both = [a, b].map(|c| run.reductions[c].plan.analyte.clone());
        out.extend(both.map(|analyte| RunFinding {
            finding: finding(
                Check::RunIsotopesAgree,
                true,
                say::IsotopesAgree {
                    one: name(&run.reductions[a].plan.analyte),
                    other: name(&run.reductions[b].plan.analyte),
                    vials: count(pairs.len()),
                },
            ),
            analyte: Some(analyte),
            position: None,
        }));
    }
}
