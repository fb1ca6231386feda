//! A replicate far from the others of its vial: a particle, a bubble.
//!
//! Within three replicates alone a threefold one is found in a third of cases only, so the scatter to compare with is
//! that of the whole run: the variance of one replicate is φ·counting + (f·R)², counting by Poisson, φ ≥ 1 what low
//! vials show over it, f the flicker that high vials show (both by a median first, then a mean without the vials far
//! over it). Few counts are not normal: the count of one replicate, given the sum of all n, is binomial with 1/n
//! (divided by φ), and the larger of both probabilities decides. The level is the recipe's chance over the number of
//! replicates tested (Bonferroni), two-sided. Nothing is taken out. Checked in `tests/run_checks.rs` by simulation with
//! negative-binomial counts.

use super::super::analyte_reduction::AnalyteReduction;
use super::super::result::RunFinding;
use super::super::table::Table;
use super::{ReducedRun, finding, name, plain, reach};
use message::{Message, Shown, count, measurement as say};
use quantity::Check;
use statistics::sample::median;
use statistics::welch::effective_dof;
use statistics::{beta, chi2, t};

/// The replicates of one vial.
struct Tested {
    vial: usize,
    /// Responses, counts/s.
    values: Vec<f64>,
    mean: f64,
    /// Sum of squares about the mean over its degrees of freedom.
    variance: f64,
    /// Variance of one replicate by counting; none where the time is not known.
    counting: Option<f64>,
    /// Pulses of each replicate, all isotopes together.
    counts: Option<Vec<f64>>,
}

impl Tested {
    fn dof(&self) -> f64 {
        self.values.len() as f64 - 1.0
    }
}

/// Noise of one replicate over the run: φ and f², each with its degrees of freedom.
struct Noise {
    over_counting: f64,
    over_dof: f64,
    flicker_squared: f64,
    flicker_dof: f64,
}

/// Replicates that neither counting nor the scatter of the run explains.
pub(super) fn outliers(run: &ReducedRun, out: &mut Vec<RunFinding>) {
    let tested: Vec<Vec<Tested>> = run.reductions.iter().map(|r| tested(&run.table, r)).collect();
    let all: usize = tested.iter().flatten().map(|x| x.values.len()).sum();
    let level = run.recipe.replicate_chance / (2.0 * all.max(1) as f64);
    for (reduction, vials) in run.reductions.iter().zip(&tested) {
        let analyte = Some(reduction.plan.analyte.clone());
        let Some(noise) = noise(vials) else { continue };
        let mut alike = true;
        for x in vials {
            for k in (0..x.values.len()).filter(|k| probability(x, *k, &noise) < level) {
                alike = false;
                let finding = finding(Check::RunReplicateOutlier, false, says(run, reduction, x, k));
                out.push(RunFinding { finding, analyte: analyte.clone(), position: reach(run, x.vial) });
            }
        }
        if alike {
            let replicates = count(vials.iter().map(|x| x.values.len()).sum());
            let says = say::ReplicatesAlike { analyte: name(&reduction.plan.analyte), replicates };
            let finding = finding(Check::RunReplicateOutlier, true, says);
            out.push(RunFinding { finding, analyte, position: None });
        }
    }
}

fn says(run: &ReducedRun, reduction: &AnalyteReduction, x: &Tested, k: usize) -> Message {
    let others = others(&x.values, k);
    let (analyte, vial) = (name(&reduction.plan.analyte), name(&run.table.vials[x.vial].name));
    let (replicate, rate) = (count(k + 1), Shown::trimmed(x.values[k], 3, "counts/s"));
    if x.values[k] > others {
        say::ReplicateHigh { analyte, vial, replicate, rate, others: plain(others) }.into()
    } else {
        say::ReplicateLow { analyte, vial, replicate, rate, others: plain(others) }.into()
    }
}

/// Mean of all but one.
fn others(values: &[f64], k: usize) -> f64 {
    let sum: f64 = values.iter().enumerate().filter(|(j, _)| *j != k).map(|x| x.1).sum();
    sum / (values.len() as f64 - 1.0)
}

/// Vials with at least three replicates: of two that differ none is the odd one.
fn tested(table: &Table, reduction: &AnalyteReduction) -> Vec<Tested> {
    let one = |v: usize| {
        let point = reduction.points[v]?;
        let values = reduction.signal.replicates(table, &reduction.plan, v).filter(|r| r.len() >= 3)?;
        let n = values.len() as f64;
        let mean = values.iter().sum::<f64>() / n;
        let variance = values.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / (n - 1.0);
        let counting = Some(point.response.counting * n).filter(|c| c.is_finite() && *c > 0.0);
        Some(Tested { vial: v, mean, variance, counting, counts: pulses(table, reduction, v), values })
    };
    (0..table.vials.len()).filter_map(one).collect()
}

/// Pulses of each replicate, the isotopes of the analyte together; none in analogue mode or without time.
fn pulses(table: &Table, reduction: &AnalyteReduction, v: usize) -> Option<Vec<f64>> {
    let mut sum: Vec<f64> = Vec::new();
    for i in &reduction.plan.members {
        let cell = table.cell(*i, v).ok()?;
        if cell.integration_s <= 0.0 || cell.mode != super::super::input::Mode::Counting {
            return None;
        }
        sum.resize(cell.len, 0.0);
        for (s, n) in sum.iter_mut().zip(table.raw(cell)) {
            *s += n * cell.integration_s;
        }
    }
    Some(sum)
}

/// Part of vials that good data keep within the limit of `scale`.
const KEPT: f64 = 0.999;

/// Scale of ratios (variance over expected variance, degrees of freedom): by the median first, then the mean of those
/// that it lets expect, with what the cut takes off given back.
fn scale(ratios: &[(f64, f64)]) -> Option<f64> {
    let by_median: Vec<f64> = ratios.iter().map(|(x, nu)| x * nu / chi2::quantile(0.5, *nu)).collect();
    let first = median(&by_median)?;
    let (mut sum, mut dof) = (0.0, 0.0);
    for (x, nu) in ratios {
        let limit = chi2::quantile(KEPT, *nu);
        if x * nu <= first * limit {
            // Mean of χ²/ν under the limit: F(limit, ν + 2)/F(limit, ν), by integration in parts.
            sum += x * nu * KEPT / chi2::cdf(limit, nu + 2.0);
            dof += nu;
        }
    }
    (dof > 0.0).then(|| sum / dof)
}

fn noise(vials: &[Tested]) -> Option<Noise> {
    let dof = |of: &[(&Tested, f64)]| of.iter().map(|x| x.0.dof()).sum::<f64>();
    let mut known: Vec<(&Tested, f64)> = vials.iter().filter_map(|x| Some((x, x.counting?))).collect();
    if known.len() < vials.len() || known.is_empty() {
        let relative: Vec<(f64, f64)> =
            vials.iter().filter(|x| x.mean != 0.0).map(|x| (x.variance / (x.mean * x.mean), x.dof())).collect();
        let flicker_dof = relative.iter().map(|x| x.1).sum();
        return Some(Noise { over_counting: 0.0, over_dof: 1.0, flicker_squared: scale(&relative)?, flicker_dof });
    }
    known.sort_by(|a, b| a.0.mean.total_cmp(&b.0.mean).then(a.0.vial.cmp(&b.0.vial)));
    // Counting rules low vials, flicker high ones: the lower half tells φ, the upper third f.
    let low = &known[..known.len().div_ceil(2)];
    let high = &known[known.len() - known.len().div_ceil(3)..];
    let over: Vec<(f64, f64)> = low.iter().map(|(x, c)| (x.variance / c, x.dof())).collect();
    let over_counting = scale(&over)?.max(1.0);
    let excess = |f2: f64| {
        let ratios: Vec<(f64, f64)> =
            high.iter().map(|(x, c)| (x.variance / (over_counting * c + f2 * x.mean * x.mean), x.dof())).collect();
        scale(&ratios).unwrap_or(0.0) - 1.0
    };
    // A replicate that scatters by its own size is the most that flicker can be.
    let flicker_squared = if excess(0.0) <= 0.0 { 0.0 } else { statistics::brent(excess, 0.0, 1.0) };
    Some(Noise { over_counting, over_dof: dof(low), flicker_squared, flicker_dof: dof(high) })
}

/// One-sided probability of a replicate as far from the others.
fn probability(x: &Tested, k: usize, noise: &Noise) -> f64 {
    let n = x.values.len() as f64;
    let rest = others(&x.values, k);
    let counting = x.counting.map_or(0.0, |c| {
        // Counting grows with the level: that of the others, so that the replicate does not widen its own limit.
        let level = if x.mean > 0.0 && rest > 0.0 { (rest / x.mean).min(1.0) } else { 1.0 };
        c * level.max(1.0 / n)
    });
    let parts =
        [(noise.over_counting * counting, noise.over_dof), (noise.flicker_squared * rest * rest, noise.flicker_dof)];
    let one = parts[0].0 + parts[1].0;
    let Some(dof) = effective_dof(&parts).filter(|_| one > 0.0) else { return 1.0 };
    let z = (x.values[k] - rest) / (one * (1.0 + 1.0 / (n - 1.0))).sqrt();
    let by_scatter = t::sf(z.abs(), dof);
    let by_count = x.counts.as_ref().map_or(0.0, |counts| {
        let sum = counts.iter().sum::<f64>() / noise.over_counting;
        binomial_tail(counts[k] / noise.over_counting, sum, 1.0 / n, z > 0.0)
    });
    by_scatter.max(by_count)
}

/// P(X ≥ k) or P(X ≤ k) of a binomial whose numbers need not be whole: I_p(k, n − k + 1).
fn binomial_tail(k: f64, n: f64, p: f64, upper: bool) -> f64 {
    if upper {
        if k <= 0.0 { 1.0 } else { beta::tails(p, k, n - k + 1.0).lower }
    } else if k >= n {
        1.0
    } else {
        beta::tails(p, k + 1.0, n - k).upper
    }
}
