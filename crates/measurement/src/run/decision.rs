//! Detected or not, where the sample's own noise has a say beside the blanks'.
//!
//! L_C tells what clean water shows where it scatters as the blanks do. A vial that scatters more than the run lets it
//! (a bubble, a crumb of something: one replicate three times too high) shows more than that without holding any metal.
//! Such a vial is decided by the spread of a net value of zero with its own excess in it:
//!
//! ```text
//! detected: net > L_C  and  net > t(1−α, ν)·√(s₀² + excess²)
//! ```
//!
//! A value over L_C that only its own vial keeps from being detected is "not decided": neither is claimed of it.
//! Currie 1968 and ISO 11843-1 decide by the spread at zero; that it is the sample's own is ours.
//! Few counts: below some hundred counts the normal L_C lets too much through. There L_C is not under that of the exact
//! test of two Poisson counts (Przyborowski & Wilenski 1940; Currie 1968 and 1995 and ISO 11929 for counts, from
//! memory). Checked in `tests/vial_scatter.rs` and `tests/run_coverage.rs`.

use super::analyte_reduction::AnalyteReduction;
use super::net::{Blanks, Net};
use super::recipe::{Quantification, Recipe};
use super::result::{Limits, State, VialScatter};
use crate::detection::{self, Counting, Risks};
use quantity::Measured;
use statistics::{f, t};

/// Counts from which on the normal limits hold 5 % (`crate::detection::counts`: Currie's formulas do not below some 100).
pub(super) const MANY_COUNTS: f64 = 100.0;

/// What U/net must keep to under the rule of ten standard deviations: ten of them are a U of 30 % with the k of 3 from
/// which on the program names few degrees of freedom.
// The programme's own choice.
const TEN_SIGMA_SHARE: f64 = 0.3;

/// Level at which a vial of unknown counting time scatters more than the blanks.
// The programme's own choice, as for vials with counts.
const SUSPECT: f64 = 0.05;

/// The state of a net value, and what its own vial's scatter asked for where that was more than L_C.
pub(super) fn decide(
    recipe: &Recipe,
    net: &Net,
    shown: &Measured,
    coverage_k: f64,
    limits: Option<&Limits>,
    blanks: Option<&Blanks>,
) -> (State, Option<VialScatter>) {
    // Without blanks the value is held against its own u, and never called quantified.
    let own_bound = || t::upper_quantile(recipe.alpha, shown.dof) * shown.u;
    let critical = limits.map_or_else(own_bound, |l| l.critical_value);
    let scatter = limits.and_then(|l| vial_scatter(recipe, net, l, blanks));
    let state = if shown.value <= critical {
        State::NotDetected
    } else if scatter.is_some_and(|s| shown.value <= s.needed) {
        State::NotDecided
    } else if quantified(recipe, shown, coverage_k, limits) {
        State::Quantified
    } else {
        State::Detected
    };
    (state, scatter)
}

fn quantified(recipe: &Recipe, shown: &Measured, coverage_k: f64, limits: Option<&Limits>) -> bool {
    let share = match recipe.quantification {
        Quantification::TenSigma => TEN_SIGMA_SHARE,
        Quantification::RelativeExpanded { share } => share,
    };
    limits.and_then(|l| l.quantification_limit).is_some_and(|q| shown.value >= q)
        && coverage_k * shown.u <= share * shown.value
}

/// The net value that a vial with an excess of scatter needs to be detected.
fn vial_scatter(recipe: &Recipe, net: &Net, limits: &Limits, blanks: Option<&Blanks>) -> Option<VialScatter> {
    let (excess, dof, times) = if net.own.excess > 0.0 {
        (net.own.excess, net.own.excess_dof, net.own.times)
    } else {
        over_the_blanks(net, blanks?)?
    };
    // With the fewer degrees of freedom of the two: how much of the excess is chance is known no better.
    let factor = t::upper_quantile(recipe.alpha, dof.min(limits.dof));
    Some(VialScatter { times, needed: factor * limits.sd_at_zero.hypot(excess) })
}

/// Where counts are not known, the vial's scatter against that of the blanks' own measurement.
fn over_the_blanks(net: &Net, b: &Blanks) -> Option<(f64, f64, f64)> {
    if net.own.pooled || !net.own.replicates_dof.is_finite() {
        return None;
    }
    let expected = b.measurement * net.blank_scale * net.blank_scale;
    let own = net.own.replicates.powi(2);
    let limit = f::upper_quantile(SUSPECT, net.own.replicates_dof, b.measurement_dof);
    (expected > 0.0 && own > limit * expected)
        .then(|| ((own - expected).sqrt(), net.own.replicates_dof, (own / expected).sqrt()))
}

/// Raises L_C and L_D to those of the exact test where counts are few: `scale` is the concentration of one count per
/// second of the response's own time, by what a recovery divides.
pub(super) fn few_counts(
    limits: &mut Limits,
    recipe: &Recipe,
    reduction: &AnalyteReduction,
    b: &Blanks,
    vial: Option<usize>,
    recovery: f64,
) {
    // An overlap is counted in the isotope and taken off by its monitor: two counts that the test does not know.
    if !reduction.signal.tracks.is_empty() {
        return;
    }
    let exposure = |v: usize| {
        let p = reduction.points[v].as_ref()?;
        let g = if p.y == 0.0 { 1.0 } else { p.response.value / p.y };
        // Counts that one unit of concentration brings, and the time on the scale of the responses.
        let time = 1.0 / p.response.counting_slope;
        Some((p.response.counts, time, reduction.fitted.line.slope * g * time / p.dilution))
    };
    let (mut counts, mut time, mut per_unit) = (0.0, 0.0, 0.0);
    for v in &b.vials {
        let Some((n, t, s)) = exposure(*v) else { return };
        (counts, time, per_unit) = (counts + n, time + t, per_unit + s);
    }
    let n = b.vials.len() as f64;
    let Some((_, own_time, own_per_unit)) = vial.map_or(Some((0.0, time / n, per_unit / n)), exposure) else { return };
    let known = [counts, time, own_time, own_per_unit].iter().all(|x| x.is_finite());
    if !known || own_per_unit <= 0.0 || counts * own_time / time >= MANY_COUNTS {
        return;
    }
    let counting = Counting {
        blank_counts: counts.round() as u64,
        blank_time_s: time,
        sample_time_s: own_time,
        blank_known: false,
    };
    let risks = Risks { alpha: recipe.alpha, beta: recipe.beta };
    let Ok(l) = detection::count_limits(counting, risks) else { return };
    // Half a count over the last that is not enough: rounding of drift and line must not decide.
    let unit = 1.0 / (own_per_unit * recovery);
    limits.critical_value = limits.critical_value.max((l.exact.critical_value + 0.5) * unit);
    limits.detection_limit = limits.detection_limit.max(l.exact.detection_limit * unit);
}
