//! The calibration line, and what a person took out.

use super::super::has_result;
use super::super::table::Hole;
use super::{Findings, ReducedRun, finding, name, plain, unknown};
use message::{Message, count, measurement as say};
use quantity::{Amount, Check, Unit};

pub(super) fn excluded(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    for (v, vial) in run.table.vials.iter().enumerate() {
        let taken_out = reduction.plan.members.iter().any(|i| matches!(run.table.cell(*i, v), Err(Hole::Excluded)));
        if taken_out && has_result(vial.role) {
            f.add(
                Some(vial.position),
                unknown(
                    Check::RunExcluded,
                    say::TakenOut { analyte: name(&reduction.plan.analyte), vial: name(&vial.name) },
                ),
            );
        }
    }
}

pub(super) fn line(run: &ReducedRun, c: usize, f: &mut Findings) {
    let reduction = &run.reductions[c];
    let line = &reduction.fitted.line;
    let analyte = &reduction.plan.analyte;
    for v in &reduction.standards_left_out {
        f.add(
            None,
            unknown(
                Check::RunStandards,
                say::StandardLeftOut { standard: name(&run.table.vials[*v].name), analyte: name(analyte) },
            ),
        );
    }
    // As many points as parameters always fit: nothing was tested, so nothing can be met.
    if line.dof == 0 {
        f.add(None, unknown(Check::RunCalibrationLine, say::LineUntested { analyte: name(analyte) }));
        return;
    }
    // The same 5 % at which `line::fit` widens u by the Birge ratio.
    let met = line.p_lack_of_fit >= 0.05;
    let (points, chi, dof) = (count(line.points.len()), plain(line.chi_squared), count(line.dof));
    let says: Message = if met {
        say::LineFits { analyte: name(analyte), points, chi, dof }.into()
    } else {
        say::LineScatters { analyte: name(analyte), points, chi, dof, widened: plain(line.widened) }.into()
    };
    f.add(
        None,
        finding(Check::RunCalibrationLine, met, says)
            .comparing(message::compared::ChiSquared, Amount::stated(line.chi_squared, Unit::one()))
            .comparing(message::compared::DegreesOfFreedom, Amount::stated(line.dof as f64, Unit::one())),
    );
}
