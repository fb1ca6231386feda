//! Doubt: what the uncertainty of an analysis and of the constants leaves of an answer.
//!
//! In: a composition with u of each total, of pH and of alkalinity; the table's u and alternatives.
//! Out: u of each saturation index to first order, and by Monte Carlo an interval for each
//! index, gas and species share. A draw moves every total (normal, cut at zero; a non-detect is
//! uniform from 0 to its limit), pH, and every row of the table: first one of the rival values
//! with equal chance (rows of a set take theirs together), then its own u. Metal bisulfides are in
//! half of the draws. Streams are counted (ChaCha8, one a draw), so the answer is the same on any
//! number of threads. JCGM 101:2008 is the pattern. Checked in `tests/uncertainty.rs`.

use crate::constants::{self, Constant, Kind, Temperature};
use crate::equilibrium::{Composition, Constants, Equilibrium, Ph, speciate_many, system_of};
use crate::error::Error;
use crate::network::{Entity, PROTON, network};
use crate::solver::is_bisulfide_complex;
use core::f64::consts::LN_10;
use message::{Said, analysis as said, step};
use quantity::Contribution;
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;
use statistics::sample::{between_ranks, mean_sd};
use std::sync::{Arc, LazyLock};

/// What is uncertain about one water.
#[derive(Debug, Clone, PartialEq)]
pub struct Uncertain {
    /// Network component, standard uncertainty of its total (mol/kg), non-detect or not.
    pub totals: Vec<(usize, f64, bool)>,
    /// Standard uncertainty of alkalinity, eq/kg.
    pub u_alkalinity: f64,
    /// Standard uncertainty of pH; 0 where it follows from charge.
    pub u_ph: f64,
}

/// u and alternatives of one row at a temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct RowUncertainty {
    /// Standard uncertainty of log K.
    pub u: f64,
    /// Alternative values of log K of a row that stands alone.
    pub alternatives: Vec<f64>,
    /// Alternative values of log K by set (its place in [`constants::sets`]) and variant, of a row that belongs to one.
    pub in_sets: Vec<(usize, usize, f64)>,
}

impl RowUncertainty {
    /// u with the spread of the alternatives about the default value; what a set moves is not in it.
    pub fn u_total(&self, value: f64) -> f64 {
        let n = self.alternatives.len() as f64 + 1.0;
        let spread: f64 = self.alternatives.iter().map(|r| (r - value) * (r - value)).sum();
        libm::sqrt(self.u * self.u + spread / n)
    }
}

/// Alternative value at a temperature: its own temperature term, else that of the default row.
pub fn alternative_log_k(rival: &Constant, default: &Constant, t_c: f64) -> f64 {
    if rival.temperature == Temperature::Unknown && !rival.is_absent() && !default.is_absent() {
        rival.log_k25 + default.log_k(t_c) - default.log_k(25.0)
    } else {
        rival.log_k(t_c)
    }
}

/// Doubt of every row of the table at a temperature.
pub fn rows(t_c: f64) -> Vec<RowUncertainty> {
    let table = constants::table();
    let mut out: Vec<RowUncertainty> = table
        .iter()
        .map(|c| RowUncertainty {
            u: c.u_at(t_c),
            alternatives: if c.is_default() && constants::alternatives(c).any(|r| r.set.is_empty()) {
                let values = constants::alternatives(c).zip(alternative_values(c, t_c));
                values.filter(|(r, _)| r.set.is_empty()).filter_map(|(_, v)| v).collect()
            } else {
                vec![]
            },
            in_sets: vec![],
        })
        .collect();
    for (k, set) in constants::sets().iter().enumerate() {
        for (v, variant) in set.variants.iter().enumerate() {
            for (default, value) in variant_values(variant, t_c) {
                out[default].in_sets.push((k, v, value));
            }
        }
    }
    out
}

/// log K that a variant of a set gives to the default rows that it changes, in their form.
pub fn variant_values(variant: &constants::Variant, t_c: f64) -> Vec<(usize, f64)> {
    let table = constants::table();
    let value = |default: usize, rival: usize| {
        let (c, r) = (&table[default], &table[rival]);
        if r.terms == c.terms || c.kind != Kind::Mineral {
            Some(alternative_log_k(r, c, t_c))
        } else {
            other_form(r, c, t_c)
        }
    };
    variant.rows.iter().filter_map(|(d, r)| value(*d, *r).map(|v| (*d, v))).collect()
}

/// log K of each rival of a default row, in the order of [`constants::alternatives`], in the default
/// row's own form; `None` where a rival cannot be brought to that form.
pub fn alternative_values(c: &Constant, t_c: f64) -> Vec<Option<f64>> {
    constants::alternatives(c)
        .map(|r| {
            if r.terms == c.terms || c.kind != Kind::Mineral {
                return Some(alternative_log_k(r, c, t_c));
            }
            other_form(r, c, t_c)
        })
        .collect()
}

/// A rival written with other species (H2S for HS−) in the form of the default row.
fn other_form(rival: &Constant, default: &Constant, t_c: f64) -> Option<f64> {
    let net = network();
    let table = constants::table();
    let row_of = |c: &Constant| table.iter().position(|r| core::ptr::eq(r, c));
    let (own, its) = (row_of(default)?, row_of(rival)?);
    let a = net.solids.iter().find(|e| e.recipe.iter().any(|(r, _)| *r == own))?;
    let b = net.alternative_solids.iter().find(|e| e.recipe.iter().any(|(r, _)| *r == its))?;
    if a.terms != b.terms {
        return None;
    }
    let mut values = crate::network::row_values(t_c);
    values[its] = alternative_log_k(rival, default, t_c);
    Some(values[own] + b.log_k(&values) - a.log_k(&values))
}

/// An interval from draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Median.
    pub median: f64,
    /// 2.5 %.
    pub low: f64,
    /// 97.5 %.
    pub high: f64,
    /// Standard deviation.
    pub u: f64,
}

impl Interval {
    fn of(values: &mut [f64]) -> Option<Self> {
        values.sort_unstable_by(f64::total_cmp);
        let q = |p: f64| between_ranks(values, p);
        Some(Self { median: q(0.5), low: q(0.025), high: q(0.975), u: mean_sd(values)?.1 })
    }
}

/// What the draws say.
#[derive(Debug, Clone, PartialEq)]
pub struct Draws {
    /// For each solid of the network: its interval, where the components are there.
    pub solids: Vec<Option<Interval>>,
    /// For each gas of the network.
    pub gases: Vec<Option<Interval>>,
    /// For each species of the system and each of its components: share of the component.
    pub shares: Vec<Vec<(usize, Interval)>>,
    /// Draws that converged.
    pub made: usize,
    /// Draws that did not (a composition no pH or alkalinity fits): left out and counted.
    pub failed: usize,
}

/// One draw's constants: alternatives first (a set takes its own whole), then each row's u.
pub fn draw_rows(values: &[f64], doubts: &[RowUncertainty], rng: &mut ChaCha8Rng) -> Vec<f64> {
    // 0 is the default set, then its variants, each with equal chance.
    let chosen_set: Vec<usize> = constants::sets()
        .iter()
        .map(|s| {
            let pick: f64 = rng.random();
            (pick * (s.variants.len() + 1) as f64) as usize
        })
        .collect();
    values
        .iter()
        .zip(doubts)
        .map(|(v, d)| {
            let pick: f64 = rng.random();
            let z = normal(rng);
            let n = d.alternatives.len();
            let k = (pick * (n + 1) as f64) as usize;
            let alone = if k == 0 { *v } else { d.alternatives[(k - 1).min(n.saturating_sub(1))] };
            let in_set = d.in_sets.iter().find(|(set, variant, _)| chosen_set[*set] == variant + 1);
            in_set.map_or(alone, |(_, _, value)| *value) + d.u * z
        })
        .collect()
}

/// A standard normal number (Box & Muller 1958; two uniforms a number keep the stream simple).
pub fn normal(rng: &mut ChaCha8Rng) -> f64 {
    let a: f64 = rng.random();
    let b: f64 = rng.random();
    libm::sqrt(-2.0 * libm::log(1.0 - a)) * libm::cos(core::f64::consts::TAU * b)
}

fn draw_composition(c: &Composition, u: &Uncertain, rng: &mut ChaCha8Rng) -> Composition {
    let mut d = c.clone();
    for ((j, t), (_, u, limit)) in d.totals.iter_mut().zip(&u.totals) {
        debug_assert!(*j > PROTON);
        let z = normal(rng);
        let x: f64 = rng.random();
        // A non-detect may be anything under its limit; never quite nothing, or it would vanish.
        *t = if *limit { *t * x.max(1e-6) } else { (*t + u * z).max(*t * 1e-3) };
    }
    let z = normal(rng);
    d.alkalinity = c.alkalinity.map(|a| a + u.u_alkalinity * z);
    let z = normal(rng);
    if let Ph::Given(ph) = c.ph {
        d.ph = Ph::Given((ph + u.u_ph * z).clamp(0.0, 14.0));
    }
    d
}

/// One draw: its water with its constants, and whether metal bisulfides are left out.
struct Draw {
    without: bool,
    water: (Composition, Arc<Constants>),
}

/// Draws held at once.
const BLOCK: usize = 4096;

fn one_draw(
    k: u64,
    centre: &Equilibrium,
    c: &Composition,
    u: &Uncertain,
    doubts: &[RowUncertainty],
    seed: u64,
) -> Draw {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    rng.set_stream(k);
    let rows = draw_rows(&centre.constants.rows, doubts, &mut rng);
    let without = rng.random_bool(0.5);
    let composition = draw_composition(c, u, &mut rng);
    Draw { without, water: (composition, Arc::new(Constants { temperature_c: c.temperature_c, rows })) }
}

/// Monte Carlo over analysis and constants.
///
/// # Errors
/// [`Error::NotConverged`] when more than one draw in ten finds no solution.
pub fn monte_carlo(
    centre: &Equilibrium,
    c: &Composition,
    u: &Uncertain,
    draws: usize,
    seed: u64,
) -> Result<Draws, Error> {
    let net = network();
    let doubts = rows(c.temperature_c);
    let mut whole = c.clone();
    whole.choices.with_rivals = true;
    let system = Arc::new(system_of(&whole));
    let bare = {
        let mut without = whole.clone();
        without.choices.without_bisulfides = true;
        Arc::new(system_of(&without))
    };
    let mut results: Vec<Option<Vec<f64>>> = Vec::with_capacity(draws);
    // Blocks bound the memory; they do not touch the numbers, each draw has its own stream.
    for first in (0..draws).step_by(BLOCK) {
        let block: Vec<Draw> = (first..draws.min(first + BLOCK))
            .into_par_iter()
            .map(|k| one_draw(k as u64, centre, c, u, &doubts, seed))
            .collect();
        let mut solved: Vec<Option<Vec<f64>>> = vec![None; block.len()];
        for (without, system) in [(false, &system), (true, &bare)] {
            let mine: Vec<usize> = (0..block.len()).filter(|k| block[*k].without == without).collect();
            let list: Vec<_> = mine.iter().map(|k| block[*k].water.clone()).collect();
            let answers = speciate_many(system, &list);
            let rows: Vec<_> = answers
                .par_iter()
                .map(|a| a.as_ref().ok().map(|e| quantities(net, e, &centre.system.species)))
                .collect();
            for (k, row) in mine.iter().zip(rows) {
                solved[*k] = row;
            }
        }
        results.extend(solved);
    }
    let made: Vec<&Vec<f64>> = results.iter().flatten().collect();
    let failed = draws - made.len();
    if failed * 10 > draws {
        return Err(Error::NotConverged {
            equation: said::Draws { failed: message::count(failed), draws: message::count(draws) }.into(),
            iterations: draws,
            residual: f64::INFINITY,
        });
    }
    Ok(collect(net, centre, &made, failed))
}

/// Everything that gets an interval, in one row; NaN where a component is absent.
fn quantities(net: &crate::network::Network, e: &Equilibrium, species: &[Entity]) -> Vec<f64> {
    let phases = net.solids.iter().chain(&net.gases);
    let mut out: Vec<f64> = phases.map(|p| e.saturation_index(p).unwrap_or(f64::NAN)).collect();
    for s in species {
        let at = e.system.species.iter().position(|x| x.name == s.name);
        for (c, n) in s.terms.iter().filter(|(c, _)| *c > PROTON) {
            let m = at.map_or(0.0, |i| e.solution.molality[i]);
            let total = e.total(*c);
            out.push(if total > 0.0 { n * m / total } else { f64::NAN });
        }
    }
    out
}

fn collect(net: &crate::network::Network, centre: &Equilibrium, made: &[&Vec<f64>], failed: usize) -> Draws {
    let mut at = 0;
    let mut next = || {
        let mut column: Vec<f64> = made.iter().map(|r| r[at]).filter(|v| !v.is_nan()).collect();
        at += 1;
        Interval::of(&mut column)
    };
    let solids = net.solids.iter().map(|_| next()).collect();
    let gases = net.gases.iter().map(|_| next()).collect();
    let shares = centre
        .system
        .species
        .iter()
        .map(|s| s.terms.iter().filter(|(c, _)| *c > PROTON).filter_map(|(c, _)| next().map(|i| (*c, i))).collect())
        .collect();
    Draws { solids, gases, shares, made: made.len(), failed }
}

/// A part of an uncertainty by its name, before its size is known.
fn named(input: impl Into<Said>) -> Contribution {
    Contribution::new(input, 0.0, 0.0)
}

/// A constant as a part, by its solid or species.
pub(crate) fn log_k_of(name: &str) -> Contribution {
    named(step::LogK { of: name.into() })
}

/// Every row of the table as a part: each water has most of them for each of its solids.
static LOG_K: LazyLock<Vec<Contribution>> =
    LazyLock::new(|| constants::table().iter().map(|c| log_k_of(&c.name)).collect());

static ALKALINITY: LazyLock<Contribution> = LazyLock::new(|| named(message::word::Alkalinity));

/// First-order variance of a saturation index (or log10 p), split by what went in: totals,
/// alkalinity, pH, and each row of the table (its own u and the spread of its alternatives). Largest first.
pub fn first_order(
    response: &crate::sensitivity::Response,
    e: &Equilibrium,
    phase: &Entity,
    u: &Uncertain,
    doubts: &[RowUncertainty],
) -> Vec<(Contribution, f64)> {
    let terms: Vec<(usize, f64)> =
        phase.terms.iter().filter_map(|(c, n)| e.system.position(*c).map(|at| (at, *n))).collect();
    let g = response.gradient(&terms);
    let net = network();
    let mut parts = Vec::new();
    for (c, u, limit) in &u.totals {
        if let Some(at) = e.system.position(*c) {
            // A non-detect's u is that of a rectangle from 0 to the limit.
            let u = if *limit { e.totals[at] / libm::sqrt(12.0) } else { *u };
            parts.push((named(net.components[*c].label.as_str()), square(g.by_total[at] * u / LN_10)));
        }
    }
    if let Some(at) = net.component("CO3^2-").and_then(|c| e.system.position(c)) {
        parts.push((ALKALINITY.clone(), square(g.by_total[at] * u.u_alkalinity / LN_10)));
    }
    // d(log10 IAP)/d(pH) is −d(ln IAP)/d(ln a(H+)), the same size.
    parts.push((named("pH"), square(g.by_fixed[0] * u.u_ph)));
    let mut by_row = vec![0.0; doubts.len()];
    for (s, d) in e.system.species.iter().zip(&g.by_ln_k) {
        for (r, n) in &s.recipe {
            by_row[*r] += n * d;
        }
    }
    for (r, n) in &phase.recipe {
        by_row[*r] -= n;
    }
    let mut variance: Vec<f64> =
        by_row.iter().enumerate().map(|(r, d)| square(d * doubts[r].u_total(e.constants.rows[r]))).collect();
    for (row, spread) in spread_of_sets(&by_row, &e.constants.rows, doubts) {
        variance[row] += spread;
    }
    parts.extend(variance.iter().enumerate().filter(|(_, v)| **v > 0.0).map(|(r, v)| (LOG_K[r].clone(), *v)));
    parts.retain(|(_, v)| *v > 0.0);
    parts.sort_by(|a, b| b.1.total_cmp(&a.1));
    parts
}

/// Mean square of what the variants of each set do to a quantity with these derivatives, its rows together; filed
/// under the row that moves it most. A species that a variant lacks or alone knows has no derivative worth the name:
/// what it does stands in the answers of the rivals.
fn spread_of_sets(by_row: &[f64], values: &[f64], doubts: &[RowUncertainty]) -> Vec<(usize, f64)> {
    constants::sets()
        .iter()
        .enumerate()
        .filter_map(|(k, set)| {
            let mut sums = vec![0.0; set.variants.len()];
            let mut largest = (0, 0.0_f64);
            for (row, d) in by_row.iter().enumerate().filter(|(_, d)| **d != 0.0) {
                for (_, v, value) in doubts[row].in_sets.iter().filter(|(set, ..)| *set == k) {
                    if *value > constants::ABSENT && values[row] > constants::ABSENT {
                        let moved = d * (value - values[row]);
                        sums[*v] += moved;
                        largest = if moved.abs() > largest.1 { (row, moved.abs()) } else { largest };
                    }
                }
            }
            let spread = sums.iter().map(|s| square(*s)).sum::<f64>() / (set.variants.len() + 1) as f64;
            (largest.1 > 0.0).then_some((largest.0, spread))
        })
        .collect()
}

fn square(x: f64) -> f64 {
    x * x
}

/// A metal-bisulfide species holds the element: rival answers are with and without it.
pub fn touches_bisulfides(e: &Equilibrium) -> bool {
    e.system.species.iter().any(|s| is_bisulfide_complex(network(), s))
}

/// The word for a saturation index from its interval.
pub fn word(low: f64, high: f64) -> &'static str {
    // Interval holds zero and is no wider than ±0.3: at saturation (common practice).
    const AT_SATURATION: f64 = 0.3;
    if low > 0.0 {
        "over"
    } else if high < 0.0 {
        "under"
    } else if high - low <= 2.0 * AT_SATURATION {
        "at saturation"
    } else {
        "cannot tell"
    }
}
