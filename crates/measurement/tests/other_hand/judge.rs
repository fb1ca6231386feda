//! What came of the runs of a cell, held against the goals.

use super::cells::Cell;
use super::design::Asked;
use super::generator::{ASKED, Made, make};
use measurement::run::{self, ReducedRun, Role, State};
use quantity::{Check, Outcome};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// One value beside its truth.
pub struct Seen {
    pub inside: bool,
    pub under_bound: bool,
    /// None for a sum or ratio.
    pub state: Option<State>,
    /// Checks beside it that are not met or not known.
    pub told: BTreeSet<Check>,
}

/// One run; none where it was refused.
pub struct RunSeen {
    /// In the order of [`ASKED`].
    pub asked: [Option<Seen>; 3],
    /// Checks beside every sample of the first metal.
    pub samples: Vec<BTreeSet<Check>>,
}

/// The runs of a cell.
pub type Runs = Vec<Result<RunSeen, String>>;

/// What a cell is held to. Shares of runs; the goals are the project's own choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Goal {
    /// 93 to 97 % of the intervals of water well over the blanks hold the truth. With a fault they may be wider, and
    /// miss where 90 % are told.
    Level,
    /// The same near the blanks.
    Near,
    /// 93 % of the bounds near the blanks lie over the truth, or are told.
    Bound,
    /// The same among those not detected.
    NonDetects,
    /// At most 7 % of water without metal is called metal, or 90 % are told.
    Nothing,
    /// 90 % are told, although intervals hold the truth (cells that ask it).
    Told,
    /// At most 10 % are told where the fault is not there.
    Quiet,
    /// Each check stands beside at most 5 % of the samples (cells without fault).
    EachCheck,
    /// Any of them stands beside at most 15 %.
    AllChecks,
}

impl Seen {
    pub fn detected(&self) -> bool {
        matches!(self.state, Some(State::Detected | State::Quantified))
    }

    pub fn not_detected(&self) -> bool {
        self.state == Some(State::NotDetected)
    }
}

impl Goal {
    pub const ALL: [Self; 9] = [
        Self::Level,
        Self::Near,
        Self::Bound,
        Self::NonDetects,
        Self::Nothing,
        Self::Told,
        Self::Quiet,
        Self::EachCheck,
        Self::AllChecks,
    ];
}

/// A share of some.
#[derive(Debug, Clone, Copy)]
pub struct Part {
    pub of: usize,
    pub n: usize,
    /// How many of them chance made one by one: samples of a run share what is said of the run.
    pub independent: usize,
}

impl Part {
    pub fn share(self) -> f64 {
        self.n as f64 / self.of as f64
    }

    /// Whether the share is no more than `most`, but for `deviations` standard deviations of chance.
    fn at_most(self, most: f64, deviations: f64) -> bool {
        self.share() <= most + deviations * (most * (1.0 - most) / self.independent as f64).sqrt()
    }

    fn at_least(self, least: f64, deviations: f64) -> bool {
        Self { n: self.of - self.n, ..self }.at_most(1.0 - least, deviations)
    }
}

/// Reduces the runs of a cell; each has a seed of its own, made from the cell's name.
pub fn runs(cell: &Cell, n: usize) -> Runs {
    // FNV-1a (from memory): a new cell changes the seeds of no other.
    let first =
        cell.name.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |h, b| (h ^ u64::from(b)).wrapping_mul(0x100_0000_01b3));
    (0..n as u64).into_par_iter().map(|k| see(cell, &make(&cell.design, cell.fault, first.wrapping_add(k)))).collect()
}

fn see(cell: &Cell, made: &Made) -> Result<RunSeen, String> {
    let run = run::reduce(&made.input, &made.recipe).map_err(|e| e.to_string())?;
    let metal = cell.design.metals[0].element;
    let samples = (0..run.results.len())
        .filter(|i| run.results[*i].analyte.element == metal && run.results[*i].role == Role::Sample)
        .map(|i| told(&run, i))
        .collect();
    let asked = [0, 1, 2].map(|k| {
        let truth = made.truth[k]?;
        let of = |element: &str| {
            let found = run.results.iter().position(|r| r.vial == ASKED[k] && r.analyte.element == element);
            found.expect("a result of the design")
        };
        let first = of(metal);
        match cell.design.asked {
            Asked::One => Some(one(&run, first, truth)),
            pair => Some(both(&run, pair, (first, of(cell.design.metals[1].element)), truth)),
        }
    });
    Ok(RunSeen { asked, samples })
}

fn told(run: &ReducedRun, result: usize) -> BTreeSet<Check> {
    run.findings_of(result).filter(|f| f.finding.outcome != Outcome::Met).map(|f| f.finding.check).collect()
}

fn one(run: &ReducedRun, i: usize, truth: f64) -> Seen {
    let r = &run.results[i];
    Seen {
        inside: r.interval[0] <= truth && truth <= r.interval[1],
        under_bound: truth <= r.upper_bound,
        state: Some(r.state),
        told: told(run, i),
    }
}

/// Sum or ratio of two metals, by JCGM 100 with the covariance that the run tells.
fn both(run: &ReducedRun, pair: Asked, (a, b): (usize, usize), truth: f64) -> Seen {
    let (x, y) = (&run.results[a].net, &run.results[b].net);
    let covariance = run.covariance(a, b);
    let (value, variance) = if pair == Asked::Sum {
        (x.value + y.value, x.u * x.u + y.u * y.u + 2.0 * covariance)
    } else {
        let q = x.value / y.value;
        let relative = (x.u / x.value).powi(2) + (y.u / y.value).powi(2) - 2.0 * covariance / (x.value * y.value);
        (q, q * q * relative)
    };
    let k = statistics::t::upper_quantile(0.025, x.dof.min(y.dof));
    let half = k * variance.max(0.0).sqrt();
    Seen { inside: (value - truth).abs() <= half, under_bound: true, state: None, told: &told(run, a) | &told(run, b) }
}

/// How many of the runs have it; runs that were refused gave no number and count in no share.
pub fn part(runs: &Runs, asked: usize, of: impl Fn(&Seen) -> bool, has: impl Fn(&Seen) -> bool) -> Option<Part> {
    let seen = runs.iter().flatten().filter_map(|r| r.asked[asked].as_ref()).filter(|s| of(s));
    let (mut all, mut n) = (0, 0);
    for s in seen {
        all += 1;
        n += usize::from(has(s));
    }
    // A share of fewer than thirty says nothing.
    (all >= 30).then_some(Part { of: all, n, independent: all })
}

pub fn always(_: &Seen) -> bool {
    true
}

/// Runs in which one of the checks stands beside the value.
pub fn told_by(runs: &Runs, asked: usize, checks: &[Check]) -> Option<Part> {
    part(runs, asked, always, |s| checks.iter().any(|c| s.told.contains(c)))
}

/// How often each check, and any, stands beside a sample; those that speak of the design left out.
pub fn beside_samples(cell: &Cell, runs: &Runs) -> (BTreeMap<Check, Part>, Part) {
    let of_design = |c: &Check| cell.of_design.contains(c);
    let others = |told: &BTreeSet<Check>| told.iter().copied().filter(|c| !of_design(c)).collect::<BTreeSet<_>>();
    let samples: Vec<_> = runs.iter().flatten().flat_map(|r| &r.samples).map(others).collect();
    let none = Part { of: samples.len(), n: 0, independent: runs.len() };
    let mut each: BTreeMap<Check, Part> = BTreeMap::new();
    for check in samples.iter().flatten() {
        each.entry(*check).or_insert(none).n += 1;
    }
    let any = Part { n: samples.iter().filter(|s| !s.is_empty()).count(), ..none };
    (each, any)
}

/// Whether a goal is met, give or take chance; none where the cell does not ask it.
pub fn met(goal: Goal, cell: &Cell, runs: &Runs, clean: &Runs, deviations: f64) -> Option<bool> {
    let is_told = |asked: usize| told_by(runs, asked, cell.told_by).is_some_and(|p| p.at_least(0.90, deviations));
    let two_sided = |asked: usize| {
        let p = part(runs, asked, always, |s| s.inside)?;
        let too_wide = cell.told_by.is_empty() && !p.at_most(0.97, deviations);
        Some((p.at_least(0.93, deviations) && !too_wide) || is_told(asked))
    };
    let one_sided = |of: fn(&Seen) -> bool| {
        let p = part(runs, 1, of, |s| s.under_bound)?;
        Some(p.at_least(0.93, deviations) || is_told(1))
    };
    match goal {
        Goal::Level => two_sided(0),
        Goal::Near => two_sided(1),
        Goal::Bound => one_sided(always),
        Goal::NonDetects => one_sided(Seen::not_detected),
        Goal::Nothing => {
            let p = part(runs, 2, always, Seen::detected)?;
            Some(p.at_most(0.07, deviations) || is_told(2))
        }
        Goal::Told => cell.must_tell.then(|| (0..3).all(is_told)),
        Goal::Quiet => {
            let asked = || (!cell.told_by.is_empty()).then(|| (0..3).filter_map(|k| told_by(clean, k, cell.told_by)));
            asked().map(|mut parts| parts.all(|p| p.at_most(0.10, deviations)))
        }
        Goal::EachCheck | Goal::AllChecks => {
            if !cell.told_by.is_empty() {
                return None;
            }
            let (each, any) = beside_samples(cell, runs);
            Some(match goal {
                Goal::EachCheck => each.values().all(|p| p.at_most(0.05, deviations)),
                _ => any.at_most(0.15, deviations),
            })
        }
    }
}
