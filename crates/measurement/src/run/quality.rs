//! What a run says about itself: reference materials, duplicates, isotopes that should
//! agree, and the findings on blanks, line, drift, internal standards, overlaps, dead time.

use super::analyte_reduction;
use super::input::Role;
use super::recipe::Drift;
use super::result::{DuplicatePair, ReferenceCheck, RunFinding};
use super::spike::{difference, parent};
use super::table::Hole;
use super::{Analyte, ReducedRun, blank_role, has_result};
use message::{Digits, Message, Name, Share, Shown, count, measurement as say};
use quantity::{Amount, Check, Finding, Measured, Outcome, Unit};
use statistics::welch::effective_dof;

struct Findings<'a> {
    out: &'a mut Vec<RunFinding>,
    analyte: Option<Analyte>,
}

impl Findings<'_> {
    fn add(&mut self, position: Option<u32>, finding: Finding) {
        self.out.push(RunFinding { finding, analyte: self.analyte.clone(), position });
    }
}

fn finding(check: Check, met: bool, says: impl Into<Message>) -> Finding {
    let outcome = if met { Outcome::Met } else { Outcome::NotMet };
    Finding::new(check, outcome, says.into())
}

fn unknown(check: Check, says: impl Into<Message>) -> Finding {
    Finding::new(check, Outcome::NotKnown, says.into())
}

/// A number to three digits, without a unit of its own.
fn plain(x: f64) -> Shown {
    Shown::trimmed(x, 3, "")
}

/// A part of a whole, its percent to three digits.
fn part(x: f64) -> Share {
    Share::new(x, Digits::Trimmed(3))
}

/// A role as the catalogues choose by it: `field-blank`.
pub(super) fn kind(role: Role) -> Name {
    Name(role.word().replace(' ', "-"))
}

fn name(of: &impl ToString) -> Name {
    Name(of.to_string())
}

/// All findings of a reduced run.
pub(super) fn findings(run: &mut ReducedRun) {
    let mut out = Vec::new();
    dead_time(run, &mut out);
    internal_standards(run, &mut out);
    let mut references = Vec::new();
    let mut duplicates = Vec::new();
    for c in 0..run.reductions.len() {
        let mut f = Findings { analyte: Some(run.reductions[c].plan.analyte.clone()), out: &mut out };
        excluded(run, c, &mut f);
        line(run, c, &mut f);
        drift(run, c, &mut f);
        blanks(run, c, &mut f);
        overlaps(run, c, &mut f);
        references.extend(reference_materials(run, c, &mut f));
        duplicates.extend(duplicate_pairs(run, c, &mut f));
        spike_findings(run, c, &mut f);
    }
    isotopes_agree(run, &mut out);
    run.references = references;
    run.duplicates = duplicates;
    run.findings = out;
}

fn dead_time(run: &ReducedRun, out: &mut Vec<RunFinding>) {
    let Some((share, isotope, vial)) = run.table.most_dead else {
        return;
    };
    let limit = run.recipe.dead_time.warn_share;
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
}

fn internal_standards(run: &ReducedRun, out: &mut Vec<RunFinding>) {
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

fn excluded(run: &ReducedRun, c: usize, f: &mut Findings) {
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

fn line(run: &ReducedRun, c: usize, f: &mut Findings) {
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

// US EPA method 200.8: a calibration check within 15 % (from memory).
const DRIFT_LIMIT: f64 = 0.15;

fn drift(run: &ReducedRun, c: usize, f: &mut Findings) {
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

// US EPA method 1631E: at least three method blanks a batch (from memory).
pub(super) const FEWEST_BLANKS: usize = 3;

fn blanks(run: &ReducedRun, c: usize, f: &mut Findings) {
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

/// A blank far above the others is named; nobody but a person takes it out.
fn outlying_blanks(run: &ReducedRun, c: usize, b: &super::net::Blanks, f: &mut Findings) {
    let gross = |v: usize| run.reductions[c].points[v].map_or(0.0, |p| p.gross);
    for &v in &b.vials {
        let others: Vec<f64> = b.vials.iter().filter(|k| **k != v).map(|k| gross(*k)).collect();
        if others.len() < 2 {
            return;
        }
        let rest = crate::blank::centre(&others);
        let n = others.len() as f64;
        // One-sided 1 % for the largest of n + 1 (Bonferroni): a prediction interval of the others.
        let t = statistics::t::upper_quantile(0.01 / (n + 1.0), n - 1.0);
        let limit = rest.value + t * rest.sd * (1.0 + 1.0 / n).sqrt();
        if gross(v) > limit {
            let vial = &run.table.vials[v];
            f.add(
                Some(vial.position),
                finding(
                    Check::RunBlankOutlier,
                    false,
                    say::BlankOutlier {
                        role: kind(b.role),
                        vial: name(&vial.name),
                        found: Shown::trimmed(gross(v), 3, run.recipe.unit.to_string()),
                        analyte: name(&run.reductions[c].plan.analyte),
                        expected: plain(limit),
                    },
                ),
            );
        }
    }
}

fn overlaps(run: &ReducedRun, c: usize, f: &mut Findings) {
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

fn reference_materials(run: &ReducedRun, c: usize, f: &mut Findings) -> Vec<ReferenceCheck> {
    let reduction = &run.reductions[c];
    let mut checks = Vec::new();
    for (r, (_, net)) in run.results.iter().zip(&run.nets).filter(|(_, n)| n.0 == c) {
        if !matches!(r.role, Role::ReferenceMaterial | Role::DriftCheck) {
            continue;
        }
        let vial = &run.table.vials[net.vial];
        let Ok(Some((assigned, _))) = analyte_reduction::assigned(vial, &reduction.plan.analyte.element, &run.recipe)
        else {
            continue;
        };
        if assigned.value <= 0.0 {
            continue;
        }
        let d = r.net.value - assigned.value;
        // ζ takes standard uncertainties, E_n expanded ones (ISO 13528), each with the k of its degrees of freedom.
        let zeta = d / r.net.u.hypot(assigned.u);
        let k_ref = statistics::t::upper_quantile((1.0 - run.recipe.coverage) / 2.0, assigned.dof);
        let e_n = d / (r.coverage_k * r.net.u).hypot(k_ref * assigned.u);
        let recovery = r.net.value / assigned.value;
        let relative = (r.net.u / assigned.value).hypot(recovery * assigned.u / assigned.value);
        if r.role == Role::ReferenceMaterial {
            let says = say::ReferenceMaterial {
                vial: name(&r.vial),
                analyte: name(&r.analyte),
                found: Shown::trimmed(r.net.value, 3, run.recipe.unit.to_string()),
                certified: plain(assigned.value),
                recovery: part(recovery),
                zeta: plain(zeta),
                en: plain(e_n),
            };
            f.add(
                None,
                finding(Check::RunReferenceMaterial, e_n.abs() <= 1.0, says)
                    .comparing(message::compared::Found, Amount::Measured(r.net.clone()))
                    .comparing(message::compared::Certified, Amount::Measured(assigned.clone())),
            );
        }
        checks.push(ReferenceCheck {
            position: r.position,
            vial: r.vial.clone(),
            analyte: r.analyte.clone(),
            found: r.net.clone(),
            recovery: Measured::with_dof(recovery, relative, r.net.dof, Unit::one()),
            assigned,
            zeta,
            e_n,
        });
    }
    if !checks
        .iter()
        .any(|k| run.table.vials.iter().any(|v| v.position == k.position && v.role == Role::ReferenceMaterial))
    {
        f.add(
            None,
            unknown(Check::RunReferenceMaterial, say::NoReferenceMaterial { analyte: name(&reduction.plan.analyte) }),
        );
    }
    checks
}

fn duplicate_pairs(run: &ReducedRun, c: usize, f: &mut Findings) -> Vec<DuplicatePair> {
    let reduction = &run.reductions[c];
    let mut pairs = Vec::new();
    let of_reduction = || run.results.iter().zip(&run.nets).filter(move |(_, n)| n.0 == c);
    for (r, (_, net)) in of_reduction().filter(|(r, _)| r.role == Role::Duplicate) {
        let Some(of) = parent(&run.table, net.vial) else {
            continue;
        };
        let Some((base, (_, base_net))) = of_reduction().find(|(_, n)| n.1.vial == of) else {
            continue;
        };
        // Two aliquots of one bottle share its contamination; two bottles do not, and may differ by it.
        let same_bottle = r.bottle.is_some() && r.bottle == base.bottle;
        let (d, row, mut tally) = difference(net, base_net, reduction, same_bottle);
        tally.add_row(&reduction.sources, &row);
        let (u, dof) = (tally.u(), tally.dof());
        let allowed = statistics::t::upper_quantile((1.0 - run.recipe.coverage) / 2.0, dof) * u;
        let mean = f64::midpoint(r.net.value, base.net.value);
        let relative = if mean > 0.0 { 100.0 * d / mean } else { f64::NAN };
        f.add(
            Some(base.position),
            finding(
                Check::RunDuplicate,
                d.abs() <= allowed,
                say::Duplicate {
                    vial: name(&r.vial),
                    other: name(&base.vial),
                    difference: Shown::trimmed(d.abs(), 3, run.recipe.unit.to_string()),
                    analyte: name(&r.analyte),
                    allowed: plain(allowed),
                },
            ),
        );
        pairs.push(DuplicatePair {
            position: r.position,
            of_position: base.position,
            analyte: r.analyte.clone(),
            difference: Measured::with_dof(d, u, dof, run.recipe.unit.clone()),
            relative_percent: relative,
            allowed,
        });
    }
    pairs
}

// US EPA method 200.8: fortified samples within 70 to 130 % (from memory).
const RECOVERY_WINDOW: [f64; 2] = [0.70, 1.30];

fn spike_findings(run: &ReducedRun, c: usize, f: &mut Findings) {
    let analyte = &run.reductions[c].plan.analyte;
    for s in run.spikes.iter().filter(|s| s.analyte == *analyte) {
        let of = run
            .table
            .vials
            .iter()
            .position(|v| v.position == s.position)
            .and_then(|v| parent(&run.table, v))
            .map(|v| run.table.vials[v].position);
        let r = &s.recovery;
        let k = statistics::t::upper_quantile((1.0 - run.recipe.coverage) / 2.0, r.dof);
        let met = r.value + k * r.u >= RECOVERY_WINDOW[0]
            && r.value - k * r.u <= RECOVERY_WINDOW[1]
            && (RECOVERY_WINDOW[0]..=RECOVERY_WINDOW[1]).contains(&r.value);
        let check = match s.role {
            Role::FieldSpike => Check::RunFieldSpike,
            _ => Check::RunLabSpike,
        };
        let (vial, analyte, recovery) = (name(&s.vial), name(&s.analyte), part(r.value));
        let u = plain(100.0 * r.u);
        let added = Shown::trimmed(s.added.value, 3, run.recipe.unit.to_string());
        let (lowest, highest) = (plain(100.0 * RECOVERY_WINDOW[0]), part(RECOVERY_WINDOW[1]));
        let says: Message = match s.role {
            Role::FieldSpike => say::FieldSpike { vial, recovery, u, added, analyte, lowest, highest }.into(),
            _ => say::LaboratorySpike { vial, recovery, u, added, analyte, lowest, highest }.into(),
        };
        f.add(of, finding(check, met, says));
    }
}

/// Isotopes (or resolutions) of one element against each other, vial by vial; the level of each
/// test is divided by the number of vials, so that a run of good data raises one in twenty.
fn isotopes_agree(run: &ReducedRun, out: &mut Vec<RunFinding>) {
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
