//! Spikes: what comes back of what was added, with u, and how a result is divided by it.
//!
//! R = (spiked − unspiked)/added. The two share line, drift and blank, which cancel in part; a
//! laboratory spike shares its bottle too. Where a result is divided by a recovery in which its own
//! noise stands, both act together.

use super::ReducedRun;
use super::analyte_reduction::{self, AnalyteReduction};
use super::input::Role;
use super::net::{Net, given_recovery, relative_u_volume};
use super::recipe::Recovery;
use super::result::SpikeRecovery;
use super::sources::{Group, Pool, Tally, add_scaled};
use super::table::Table;
use quantity::{Measured, Unit};
use statistics::welch;

/// A recovery that results are divided by.
#[derive(Debug, Clone)]
pub(super) struct MeanRecovery {
    pub value: f64,
    row: Vec<f64>,
    own: Vec<OwnPart>,
    u: f64,
    dof: f64,
}

/// What one vial's own noise puts into a recovery.
#[derive(Debug, Clone, Copy)]
struct OwnPart {
    /// The vial; none for what was added or a recovery that was given.
    vial: Option<usize>,
    /// dR per unit of the vial's own error.
    coefficient: f64,
    /// Whether the bottle's contamination is in it: a laboratory spike shares its bottle.
    bottle: bool,
    /// What this part brings to the variance of R.
    variance: f64,
    /// Degrees of freedom of all but the bottle's contamination.
    dof: f64,
    /// The bottle's contamination in `variance`: known no better than the spread of the blanks, as every bottle's.
    bottle_variance: f64,
    blank_dof: f64,
}

impl OwnPart {
    /// The parts of a mean of n recoveries. Spikes of one water stand on the same unspiked vial: its error enters with
    /// the sum of its coefficients, before anything is squared.
    fn of_mean(parts: impl Iterator<Item = Self>, n: f64) -> Vec<Self> {
        let mut mean: Vec<Self> = Vec::new();
        for part in parts {
            let same = mean.iter_mut().find(|m| m.vial.is_some() && m.vial == part.vial && m.bottle == part.bottle);
            if let Some(m) = same {
                let together = m.coefficient + part.coefficient / n;
                // The variance goes with the square of the coefficient: the vial's own error is one and the same.
                let grown = (together / part.coefficient).powi(2);
                (m.variance, m.bottle_variance) = (part.variance * grown, part.bottle_variance * grown);
                m.coefficient = together;
            } else {
                let [variance, bottle_variance] = [part.variance, part.bottle_variance].map(|x| x / (n * n));
                mean.push(Self { coefficient: part.coefficient / n, variance, bottle_variance, ..part });
            }
        }
        mean
    }
}

impl MeanRecovery {
    pub fn measured(&self) -> Measured {
        Measured::with_dof(self.value, self.u, self.dof, Unit::one())
    }

    /// Divides a net value. Where the vial's own noise stands in R as well (the unspiked water of
    /// the spike), the two act together: d(c/R) = δ/R·(1 − c/R·∂R/∂δ).
    pub fn apply(&self, net: &mut Net) {
        let (mut rest, mut doubt, mut bottles) = (0.0, 0.0, 0.0);
        let (mut shared, mut shared_bottle) = (0.0, 0.0);
        for o in &self.own {
            if o.vial == Some(net.vial) {
                shared += o.coefficient;
                if o.bottle {
                    shared_bottle += o.coefficient;
                }
            } else {
                rest += o.variance;
                doubt += welch::welch_term(o.variance, o.dof);
                bottles += o.bottle_variance;
            }
        }
        let dof = welch::dof_of(rest, doubt).unwrap_or(f64::INFINITY);
        net.divide(self.value, &self.row, rest.sqrt(), dof);
        net.blank_variance += net.value.powi(2) / self.value.powi(2) * bottles;
        let act = |c: f64| (1.0 - net.value * c).abs();
        let (measured, bottle) = (act(shared), act(shared_bottle));
        net.own.replicates *= measured;
        net.own.between_vials *= measured;
        net.own.dilution *= measured;
        net.blank_variance += (bottle * bottle - 1.0) * net.bottle.powi(2);
        net.bottle *= bottle;
    }
}

/// The vial of the same water that a duplicate or spike names.
pub(super) fn parent(table: &Table, v: usize) -> Option<usize> {
    let of = table.vials[v].of.as_deref()?;
    let water = |k: &usize| *k != v && matches!(table.vials[*k].role, Role::Sample | Role::Duplicate);
    let all = || (0..table.vials.len()).filter(water);
    all().find(|k| table.vials[*k].bottle.as_deref() == Some(of)).or_else(|| all().find(|k| table.vials[*k].name == of))
}

/// A difference of two net values, with what they share taken out: (value, row, own parts).
pub(super) fn difference(a: &Net, b: &Net, reduction: &AnalyteReduction, same_bottle: bool) -> (f64, Vec<f64>, Tally) {
    let mut row = a.row.clone();
    add_scaled(&mut row, -1.0, &b.row);
    let mut own = Tally::new();
    for net in [a, b] {
        let mut net = net.clone();
        if same_bottle {
            net.bottle = 0.0;
        }
        net.own_into(&mut own, reduction);
        if net.bottle > 0.0 {
            own.add_welch_term(Pool::Blanks, net.blank_dof, net.bottle.powi(2));
        }
    }
    if a.blank_set == b.blank_set {
        // One mean taken from both cancels, but for bottles of different volume: a mass per bottle was divided by each.
        let left = (a.blank_mean - b.blank_mean).powi(2);
        if left > 0.0 {
            own.add(Group::BlankMean, Pool::Blanks, a.blank_dof, left);
        }
    } else {
        for net in [a, b] {
            own.add(Group::BlankMean, Pool::Blanks, net.blank_dof, net.blank_mean.powi(2));
        }
    }
    (a.value - b.value, row, own)
}

/// Recoveries of the spikes of an analyte.
pub(super) fn spikes(run: &mut ReducedRun, reduction: &AnalyteReduction, nets: &[Net]) {
    for s in spike_parts(run, reduction, nets) {
        run.spikes.push(s.0);
    }
}

/// A recovery, its row, and what single vials put into it.
type SpikePart = (SpikeRecovery, Vec<f64>, Vec<OwnPart>);

/// A spike beside the vial of the same water without it.
#[derive(Debug, Clone)]
pub(super) struct Pair {
    pub vial: usize,
    pub of: usize,
    /// What was added, in the recipe's unit.
    pub added: Measured,
    /// Relative u of the volume that the mass added was divided by; nothing where a concentration was given.
    pub by_volume: f64,
}

/// The spikes among vials that have a net value.
pub(super) fn pairs(run: &ReducedRun, reduction: &AnalyteReduction, vials: &[usize]) -> Vec<Pair> {
    let pair = |vial: usize| {
        let is_spike = matches!(run.table.vials[vial].role, Role::FieldSpike | Role::LabSpike);
        let of = parent(&run.table, vial).filter(|of| is_spike && vials.contains(of))?;
        let (added, by_volume) = added(run, reduction, vial)?;
        Some(Pair { vial, of, added, by_volume })
    };
    vials.iter().filter_map(|v| pair(*v)).collect()
}

fn spike_parts(run: &ReducedRun, reduction: &AnalyteReduction, nets: &[Net]) -> Vec<SpikePart> {
    let vials: Vec<usize> = nets.iter().map(|n| n.vial).collect();
    let of = |vial: usize| nets.iter().find(|n| n.vial == vial);
    let part = |p: Pair| Some(spike_part(run, reduction, of(p.vial)?, of(p.of)?, (p.added, p.by_volume)));
    pairs(run, reduction, &vials).into_iter().filter_map(part).collect()
}

fn spike_part(
    run: &ReducedRun,
    reduction: &AnalyteReduction,
    net: &Net,
    base: &Net,
    (added, by_volume): (Measured, f64),
) -> SpikePart {
    let vial = &run.table.vials[net.vial];
    let same_bottle = vial.role == Role::LabSpike;
    let (d, mut row, mut all) = difference(net, base, reduction, same_bottle);
    let r = d / added.value;
    // R = d·V/m: the volume that the mass was divided by errs as it does in d.
    if let Some(s) = reduction.bottles[net.vial].volume {
        row[s] += d * by_volume;
    }
    all.add_row(&reduction.sources, &row);
    all.add(Group::Recovery, Pool::None, added.dof, (r * added.u).powi(2));
    for x in &mut row {
        *x /= added.value;
    }
    let mut own = vec![OwnPart {
        vial: None,
        coefficient: 0.0,
        bottle: false,
        variance: (r * added.u / added.value).powi(2),
        dof: added.dof,
        bottle_variance: 0.0,
        blank_dof: f64::INFINITY,
    }];
    // Each vial's part keeps vial and sign: a result divided by R may be that very vial (`MeanRecovery::apply`).
    for (n, sign) in [(net, 1.0), (base, -1.0)] {
        let mut n = n.clone();
        if same_bottle {
            n.bottle = 0.0;
        }
        let mut t = Tally::new();
        n.own_into(&mut t, reduction);
        own.push(OwnPart {
            vial: Some(n.vial),
            coefficient: sign / added.value,
            bottle: !same_bottle,
            variance: t.variance / added.value.powi(2),
            dof: t.dof(),
            bottle_variance: (n.bottle / added.value).powi(2),
            blank_dof: n.blank_dof,
        });
    }
    let level = base.tally(reduction);
    let unit = run.recipe.unit.clone();
    let recovery = SpikeRecovery {
        position: vial.position,
        vial: vial.name.clone(),
        role: vial.role,
        of: vial.of.clone().unwrap_or_default(),
        analyte: reduction.plan.analyte.clone(),
        level: Measured::with_dof(base.value, level.u(), level.dof(), unit),
        recovery: Measured::with_dof(r, all.u() / added.value, all.dof(), Unit::one()),
        added,
    };
    (recovery, row, own)
}

/// What was added to a spike, in the recipe's unit, and the relative u of the volume that it was divided by: a mass is
/// divided by the bottle's volume, a concentration is not.
fn added(run: &ReducedRun, reduction: &AnalyteReduction, v: usize) -> Option<(Measured, f64)> {
    let vial = &run.table.vials[v];
    let element = &reduction.plan.analyte.element;
    let a = vial.spike_added.iter().find(|a| a.element == *element)?;
    let direct = analyte_reduction::in_unit(vial, &a.amount, element, &run.recipe);
    let found = match (direct, vial.bottle_volume_ml) {
        (Ok(m), _) => (m, 0.0),
        (Err(_), Some(ml)) if ml > 0.0 => {
            let ng = a.amount.unit.conversion(&Unit::known("ng"), None, None).ok()?;
            let per_l = Measured::with_dof(
                ng.apply(a.amount.value) * 1000.0 / ml,
                ng.apply(a.amount.u) * 1000.0 / ml,
                a.amount.dof,
                Unit::known("ng/L"),
            );
            let per_l = analyte_reduction::in_unit(vial, &per_l, element, &run.recipe).ok()?;
            (per_l, relative_u_volume(vial))
        }
        _ => return None,
    };
    (found.0.value > 0.0).then_some(found)
}

/// The recovery that the recipe applies to an analyte.
pub(super) fn recovery(run: &ReducedRun, reduction: &AnalyteReduction, nets: &[Net]) -> Option<MeanRecovery> {
    let wanted = match &run.recipe.recovery {
        Recovery::NotApplied => return None,
        Recovery::Given { .. } => {
            let (value, u) = given_recovery(&run.recipe, &reduction.plan.analyte.element)?;
            return Some(MeanRecovery {
                value,
                row: vec![0.0; reduction.sources.len()],
                own: vec![OwnPart {
                    vial: None,
                    coefficient: 0.0,
                    bottle: false,
                    variance: u * u,
                    dof: f64::INFINITY,
                    bottle_variance: 0.0,
                    blank_dof: f64::INFINITY,
                }],
                u,
                dof: f64::INFINITY,
            });
        }
        Recovery::FieldSpikes => Role::FieldSpike,
        Recovery::LabSpikes => Role::LabSpike,
    };
    let parts: Vec<SpikePart> = spike_parts(run, reduction, nets).into_iter().filter(|p| p.0.role == wanted).collect();
    let n = parts.len() as f64;
    if parts.is_empty() {
        return None;
    }
    let value = parts.iter().map(|p| p.0.recovery.value).sum::<f64>() / n;
    let mut row = vec![0.0; reduction.sources.len()];
    let mut all = Tally::new();
    for (_, r, _) in &parts {
        add_scaled(&mut row, 1.0 / n, r);
    }
    let own = OwnPart::of_mean(parts.iter().flat_map(|p| p.2.iter().copied()), n);
    for o in &own {
        all.add(Group::Recovery, Pool::None, o.dof, o.variance);
        if o.bottle_variance > 0.0 {
            all.add_welch_term(Pool::Blanks, o.blank_dof, o.bottle_variance);
        }
    }
    all.add_row(&reduction.sources, &row);
    Some(MeanRecovery { value, row, own, u: all.u(), dof: all.dof() })
}
