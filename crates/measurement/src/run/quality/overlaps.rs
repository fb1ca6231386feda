//! What overlaps take from a signal.

use super::super::blank_role;
use super::{Findings, ReducedRun, finding, name, part, unknown};
use message::measurement as say;
use quantity::{Amount, Check, Unit};

pub(super) fn overlaps(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    if reduction.signal.tracks.is_empty() {
        return;
    }
    let limit = run.recipe.interference_share;
    let species: Vec<&str> = reduction.plan.overlaps.iter().map(|o| o.recipe.species.as_str()).collect();
    let species = species.join(", ");
    // A factor without u (fixed equations of a published method): what it leaves out of the results' u is not known.
    if reduction.signal.tracks.iter().flat_map(|t| &t.points).any(|p| p.u == 0.0) {
        f.add(
            None,
            unknown(
                Check::RunInterferenceFactor,
                say::OverlapFixed { species: name(&species), analyte: name(&reduction.plan.analyte) },
            ),
        );
    }
    let mut largest: f64 = 0.0;
    for (r, _) in run.results.iter().zip(&run.nets).filter(|(_, n)| n.0 == c) {
        if blank_role(&run.recipe, r.role) != Some(run.recipe.blank.samples) {
            continue;
        }
        largest = largest.max(r.interference_share);
        if r.interference_share > limit {
            f.add(
                Some(r.position),
                finding(
                    Check::RunInterference,
                    false,
                    say::OverlapLarge {
                        share: part(r.interference_share),
                        analyte: name(&r.analyte),
                        vial: name(&r.vial),
                        species: name(&species),
                    },
                )
                .comparing(message::compared::ShareOfCounts, Amount::stated(r.interference_share, Unit::one()))
                .comparing(message::compared::ShareAllowed, Amount::stated(limit, Unit::one())),
            );
        }
    }
    if largest <= limit {
        f.add(
            None,
            finding(
                Check::RunInterference,
                true,
                say::OverlapSmall {
                    species: name(&species),
                    share: part(largest),
                    analyte: name(&reduction.plan.analyte),
                },
            ),
        );
    }
}
