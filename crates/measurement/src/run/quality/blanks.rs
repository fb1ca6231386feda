//! Blanks of a run: how many, whether they scatter at all, and one that lies far above the others.

use super::super::input::Role;
use super::super::net::Blanks;
use super::{Findings, ReducedRun, finding, kind, name, plain, unknown};
use crate::blank;
use message::{Shown, count, measurement as say};
use quantity::Check;

/// Fewest blanks that a run is not warned of.
// US EPA method 1631E: at least three method blanks a batch (from memory).
pub const FEWEST_BLANKS: usize = 3;

pub(super) fn blanks(run: &ReducedRun, c: usize, f: &mut Findings) {
    let analyte = &run.reductions[c].plan.analyte;
    let in_unit = |x: f64| Shown::trimmed(x, 3, run.recipe.unit.to_string());
    for b in &run.blanks[c] {
        // Blanks nested inside the subtracted one are shown only: they enter no result.
        if b.role != run.recipe.blank.samples || b.part {
            continue;
        }
        let role = || kind(b.role);
        f.add(
            None,
            finding(
                Check::RunBlankCount,
                b.n >= FEWEST_BLANKS,
                say::BlankCount {
                    role: role(),
                    count: count(b.n),
                    analyte: name(analyte),
                    mean: in_unit(b.mean * b.as_concentration),
                    sd: plain(b.sd * b.as_concentration),
                    least: count(FEWEST_BLANKS),
                },
            ),
        );
        if b.all_equal {
            f.add(
                None,
                finding(
                    Check::RunBlanksEqual,
                    false,
                    say::BlanksEqual { role: role(), count: count(b.n), analyte: name(analyte) },
                ),
            );
        }
        outlying_blanks(run, c, b, f);
    }
    if run.table.vials.iter().any(|v| v.role == Role::ReferenceMaterial)
        && !run.blanks[c].iter().any(|b| b.role == run.recipe.blank.reference)
    {
        f.add(
            None,
            unknown(
                Check::RunReferenceBlank,
                say::ReferenceBlankMissing { role: kind(run.recipe.blank.reference), analyte: name(analyte) },
            ),
        );
    }
}

/// A blank far above the others is named; nobody but a person takes it out. All results stand on it.
fn outlying_blanks(run: &ReducedRun, c: usize, b: &Blanks, f: &mut Findings) {
    let point = |v: usize| run.reductions[c].points[v];
    let gross = |v: usize| point(v).map_or(0.0, |p| p.gross);
    for &v in &b.vials {
        let others: Vec<f64> = b.vials.iter().filter(|k| **k != v).map(|k| gross(*k)).collect();
        let measurement = point(v).map_or(0.0, |p| p.own.replicates.hypot(p.own.between_vials));
        let Some(limit) = blank::outlier_limit(&others, measurement).filter(|l| gross(v) > *l) else {
            continue;
        };
        let says = say::BlankOutlier {
            role: kind(b.role),
            vial: name(&run.table.vials[v].name),
            found: Shown::trimmed(gross(v), 3, run.recipe.unit.to_string()),
            analyte: name(&run.reductions[c].plan.analyte),
            expected: plain(limit),
        };
        f.add(None, finding(Check::RunBlankOutlier, false, says));
    }
}
