//! Which of many handling steps adds metal, found in little more bottles than steps.
//!
//! In: names of 3 to 47 steps; later the mass of each bottle. Out: the design (which bottle gets which handling),
//! the chance to name a culprit before anyone fills a bottle, and after it each step's effect with the steps
//! named.
//!
//! Method: two-level screening (Plackett & Burman 1946, Biometrika 33:305) from Hadamard matrices of order 4 to
//! 48, built by Paley's two constructions and doubling; a foldover adds every bottle's mirror image and parts
//! main effects from two-step interactions. An effect is the mean with the step less the mean without.
//! Judged by Student's t where columns are left over; in a saturated design (no column left) by Lenth's
//! pseudo standard error (Lenth 1989, Technometrics 31:469) with the critical value that simulation gives it.
//!
//! Bottles below their limit are never given a number: with any of them the masses are turned into scores
//! (how many other bottles are surely less, minus how many surely more; Gehan 1965, Biometrika 52:203), and the
//! effects of the scores are judged. Checked in `tests/validation_screening_design.rs`.

use crate::Error;
use crate::random::{normal, stream};
use quantity::format::percent;
use rayon::prelude::*;
use serde::Serialize;
use statistics::sample::{median, nearest_rank};
use statistics::t;

/// A design: bottles × steps, true where the bottle gets the step.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Design {
    /// Names of the steps.
    pub steps: Vec<String>,
    /// One row a bottle.
    pub bottles: Vec<Vec<bool>>,
    /// Every bottle has its mirror image.
    pub foldover: bool,
    /// Columns left over to judge by.
    pub dof: usize,
    /// What the taker must know: saturated, aliases.
    pub warnings: Vec<String>,
}

/// What a bottle showed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Mass {
    /// pg.
    Value(f64),
    /// Below this many pg.
    Below(f64),
}

/// One step's effect.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Effect {
    /// The step.
    pub step: String,
    /// Mean with it less mean without it: pg, or scores where bottles are below their limit.
    pub effect: f64,
    /// Its u on the same scale.
    pub u: f64,
    /// Effect over u.
    pub ratio: f64,
    /// Named as adding metal.
    pub named: bool,
}

/// The evaluation.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Evaluation {
    /// Effects, largest first.
    pub effects: Vec<Effect>,
    /// `pg` or `score`.
    pub scale: &'static str,
    /// Critical ratio at the risk asked for, one step at a time.
    pub critical: f64,
    /// How it was judged.
    pub method: String,
    /// In words.
    pub sentence: String,
    /// Warnings of the design and the data.
    pub warnings: Vec<String>,
}

/// Fewest and most steps.
const STEPS: std::ops::RangeInclusive<usize> = 3..=47;

/// Draws up a design for the steps: the smallest Hadamard matrix with room, twice its bottles with a foldover.
///
/// # Errors
/// [`Error::OutOfRange`] for fewer than 3 or more than 47 steps, or a name given twice.
pub fn design(steps: &[String], foldover: bool) -> Result<Design, Error> {
    if !STEPS.contains(&steps.len()) {
        return Err(Error::out_of_range("number of steps", steps.len(), "3 to 47"));
    }
    for (i, s) in steps.iter().enumerate() {
        if steps[..i].contains(s) {
            return Err(Error::out_of_range("step", s, "each step once"));
        }
    }
    let k = steps.len();
    // One column is the mean's, and Hadamard matrices have orders in fours (Plackett & Burman 1946).
    let n = (k + 1).div_ceil(4) * 4;
    let h = hadamard(n);
    let mut bottles: Vec<Vec<bool>> = h.iter().map(|r| r[1..=k].to_vec()).collect();
    if foldover {
        let mirror: Vec<Vec<bool>> = bottles.iter().map(|r| r.iter().map(|x| !x).collect()).collect();
        bottles.extend(mirror);
    }
    let dof = bottles.len() - 1 - k;
    let mut warnings = vec![];
    if dof == 0 {
        warnings.push(format!(
            "saturated: {k} steps in {n} bottles leave no degrees of freedom; effects are judged against each other, which works while only a few steps matter"
        ));
    }
    if !foldover {
        warnings.push(
            "each effect is mixed with parts of two-step interactions; a foldover (twice the bottles) parts them"
                .into(),
        );
    }
    Ok(Design { steps: steps.to_vec(), bottles, foldover, dof, warnings })
}

/// A Hadamard matrix of order n (a multiple of 4 up to 48), true for +1, first column all +1.
fn hadamard(n: usize) -> Vec<Vec<bool>> {
    let mut h = match n {
        // n − 1 a prime of the form 4k + 3: Paley's first construction.
        4 | 8 | 12 | 20 | 24 | 32 | 44 | 48 => paley_one(n - 1),
        // n/2 − 1 a prime of the form 4k + 1: Paley's second.
        28 | 36 => paley_two(n / 2 - 1),
        // Sylvester's doubling.
        _ => doubled(&hadamard(n / 2)),
    };
    for row in &mut h {
        if !row[0] {
            for x in row.iter_mut() {
                *x = !*x;
            }
        }
    }
    h
}

/// Legendre's symbol as −1, 0, +1.
fn character(a: usize, q: usize) -> i32 {
    if a.is_multiple_of(q) {
        0
    } else if (1..q).any(|x| x * x % q == a % q) {
        1
    } else {
        -1
    }
}

fn paley_one(q: usize) -> Vec<Vec<bool>> {
    // H = I + S, S skew with a border of ones.
    (0..=q)
        .map(|i| {
            (0..=q)
                .map(|j| match (i, j) {
                    (_, 0) if i > 0 => false,
                    (0, _) => true,
                    _ if i == j => true,
                    _ => character(i + q - j, q) > 0,
                })
                .collect()
        })
        .collect()
}

fn paley_two(q: usize) -> Vec<Vec<bool>> {
    // Symmetric conference matrix C of order q + 1; 0 becomes [+ −; − −], ±1 becomes ±[+ +; + −].
    let c = |i: usize, j: usize| match (i, j) {
        (0, 0) => 0,
        (0, _) | (_, 0) => 1,
        _ => character(i + q - j, q),
    };
    (0..2 * (q + 1))
        .map(|r| {
            (0..2 * (q + 1))
                .map(|s| {
                    let inner = r % 2 == 1 && s % 2 == 1;
                    match c(r / 2, s / 2) {
                        0 => r % 2 == 0 && s % 2 == 0,
                        1 => !inner,
                        _ => inner,
                    }
                })
                .collect()
        })
        .collect()
}

fn doubled(h: &[Vec<bool>]) -> Vec<Vec<bool>> {
    let top = h.iter().map(|r| [r.clone(), r.clone()].concat());
    let bottom = h.iter().map(|r| [r.clone(), r.iter().map(|x| !x).collect()].concat());
    top.chain(bottom).collect()
}

impl Design {
    /// What to pack and do, bottle by bottle: "bottle 3: rinse twice, outer bag; without: long gloves".
    pub fn packing_list(&self) -> Vec<String> {
        let names = |row: &[bool], wanted: bool| {
            let list: Vec<&str> =
                (self.steps.iter().zip(row)).filter(|(_, x)| **x == wanted).map(|(s, _)| s.as_str()).collect();
            if list.is_empty() { "none".to_string() } else { list.join(", ") }
        };
        (self.bottles.iter().enumerate())
            .map(|(i, row)| format!("bottle {}: with {}; without {}", i + 1, names(row, true), names(row, false)))
            .collect()
    }

    fn effect(&self, y: &[f64], step: usize) -> f64 {
        let half = self.bottles.len() as f64 / 2.0;
        self.bottles.iter().zip(y).map(|(r, y)| if r[step] { *y } else { -*y }).sum::<f64>() / half
    }

    /// Standard error of an effect: from the residuals where columns are left, else Lenth's.
    fn standard_error(&self, y: &[f64], effects: &[f64]) -> f64 {
        if self.dof == 0 {
            return lenth(effects);
        }
        let n = y.len() as f64;
        let mean = y.iter().sum::<f64>() / n;
        let total: f64 = y.iter().map(|v| (v - mean).powi(2)).sum();
        let explained: f64 = effects.iter().map(|e| e * e * n / 4.0).sum();
        let s2 = ((total - explained) / self.dof as f64).max(0.0);
        2.0 * (s2 / n).sqrt()
    }
}

/// Lenth's pseudo standard error.
fn lenth(effects: &[f64]) -> f64 {
    let size: Vec<f64> = effects.iter().map(|e| e.abs()).collect();
    let first = 1.5 * median(&size).expect("a design has steps");
    let kept: Vec<f64> = size.into_iter().filter(|s| *s < 2.5 * first).collect();
    median(&kept).map_or(first, |m| 1.5 * m)
}

/// Gehan's scores: bottles surely less minus bottles surely more.
fn scores(masses: &[Mass]) -> Vec<f64> {
    let surely_less = |a: &Mass, b: &Mass| match (a, b) {
        (Mass::Value(x), Mass::Value(y)) => x < y,
        (Mass::Below(x), Mass::Value(y)) => x <= y,
        (_, Mass::Below(_)) => false,
    };
    masses
        .iter()
        .map(|m| {
            let less = masses.iter().filter(|o| surely_less(o, m)).count();
            let more = masses.iter().filter(|o| surely_less(m, o)).count();
            less as f64 - more as f64
        })
        .collect()
}

/// Draws for the critical value of Lenth's ratio.
const CRITICAL_DRAWS: usize = 4000;

/// The ratio that a step without effect exceeds with the given probability, one-sided, in this design.
fn critical(design: &Design, risk: f64) -> f64 {
    if design.dof > 0 {
        return t::quantile(1.0 - risk, design.dof as f64);
    }
    // In a saturated orthogonal design the effects of noise are independent normals: simulate those.
    let k = design.steps.len();
    let mut ratios: Vec<f64> = (0..CRITICAL_DRAWS.div_ceil(64))
        .into_par_iter()
        .map(|block| {
            let mut rng = stream(7, block);
            let mut out = Vec::with_capacity(64 * k);
            for _ in 0..64 {
                let e: Vec<f64> = (0..k).map(|_| normal(&mut rng)).collect();
                let se = lenth(&e);
                out.extend(e.iter().map(|e| e / se));
            }
            out
        })
        .collect::<Vec<_>>()
        .concat();
    ratios.sort_by(f64::total_cmp);
    nearest_rank(&ratios, 1.0 - risk)
}

/// Evaluates a trial: steps that add metal at the given risk per step (one-sided: a step that lowers the mass is
/// listed, not named).
///
/// # Errors
/// [`Error::TooFew`] when a bottle's mass is missing; [`Error::OutOfRange`] for a risk outside (0, 0.5) or masses
/// that are all below their limits.
pub fn evaluate(design: &Design, masses: &[Mass], risk: f64) -> Result<Evaluation, Error> {
    check(design, masses, risk)?;
    let limit = critical(design, risk);
    let (effects, scale) = judge(design, masses, limit);
    let censored = masses.iter().filter(|m| matches!(m, Mass::Below(_))).count();
    let mut warnings = design.warnings.clone();
    if censored > 0 {
        warnings.push(format!("{censored} of {} bottles lie below their limit: effects are of scores, and the chance to name a step is smaller", masses.len()));
    }
    let named: Vec<&str> = effects.iter().filter(|e| e.named).map(|e| e.step.as_str()).collect();
    let sentence = if named.is_empty() {
        format!("No step is named at {} % per step.", percent(risk, 2))
    } else {
        format!("Adding metal, at {} % per step: {}.", percent(risk, 2), named.join(", "))
    };
    Ok(Evaluation {
        method: if design.dof > 0 {
            format!("Student's t with {} degrees of freedom", design.dof)
        } else {
            "Lenth's pseudo standard error, critical value by simulation".into()
        },
        effects,
        scale,
        critical: limit,
        sentence,
        warnings,
    })
}

fn check(design: &Design, masses: &[Mass], risk: f64) -> Result<(), Error> {
    if masses.len() != design.bottles.len() {
        return Err(Error::TooFew {
            what: "masses of the bottles".into(),
            have: masses.len(),
            need: design.bottles.len(),
            hint: "the design stands or falls with all its bottles; give a lost one as below the largest mass only if it was measured".into(),
        });
    }
    if !(risk > 0.0 && risk < 0.5) {
        return Err(Error::out_of_range("risk per step", risk, "above 0 and under 0.5"));
    }
    let number = |m: &Mass| match m {
        Mass::Value(v) | Mass::Below(v) => *v,
    };
    if let Some(m) = masses.iter().find(|m| !number(m).is_finite()) {
        return Err(Error::out_of_range("mass of a bottle", format!("{m:?}"), "a number of pg, or below one"));
    }
    if masses.iter().all(|m| matches!(m, Mass::Below(_))) {
        return Err(Error::out_of_range(
            "masses",
            "all below their limits",
            "some above: nothing can be told from non-detects alone",
        ));
    }
    Ok(())
}

fn judge(design: &Design, masses: &[Mass], limit: f64) -> (Vec<Effect>, &'static str) {
    let plain: Option<Vec<f64>> = masses
        .iter()
        .map(|m| match m {
            Mass::Value(v) => Some(*v),
            Mass::Below(_) => None,
        })
        .collect();
    let (y, scale) = match plain {
        Some(y) => (y, "pg"),
        None => (scores(masses), "score"),
    };
    let e: Vec<f64> = (0..design.steps.len()).map(|k| design.effect(&y, k)).collect();
    let u = design.standard_error(&y, &e);
    let mut effects: Vec<Effect> = (design.steps.iter().zip(&e))
        .map(|(step, effect)| {
            let ratio = if u > 0.0 { effect / u } else { f64::INFINITY * effect.signum() };
            Effect { step: step.clone(), effect: *effect, u, ratio, named: *effect > 0.0 && ratio > limit }
        })
        .collect();
    effects.sort_by(|a, b| b.effect.total_cmp(&a.effect));
    (effects, scale)
}

/// What a design can be expected to show.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Power {
    /// Chance that all culprits are named.
    pub all_named: f64,
    /// Chance that a given culprit is named.
    pub one_named: f64,
    /// Chance that a given innocent step is named.
    pub false_name: f64,
}

/// What to assume for the power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Assumed {
    /// Number of steps that add metal.
    pub culprits: usize,
    /// What each adds, in standard deviations between bottles.
    pub adds_sd: f64,
    /// Share of the bottles below their limit.
    pub censored: f64,
    /// Risk per step.
    pub risk: f64,
    /// Trials simulated.
    pub trials: usize,
    /// Seed.
    pub seed: u64,
}

/// Most simulated trials.
// The programme's own choice: with a hundred thousand the third digit of a chance stands.
const MOST_TRIALS: usize = 100_000;

/// Simulates trials with a design: the chance to name the culprits, with bottles below the limit as expected.
/// Culprits are drawn anew in each trial; the limit lies at the stated quantile of each trial's masses.
///
/// # Errors
/// [`Error::OutOfRange`] for more culprits than steps, a share outside [0, 1) or no trials.
pub fn power(design: &Design, a: &Assumed) -> Result<Power, Error> {
    const BLOCK: usize = 32;
    let k = design.steps.len();
    if a.culprits == 0 || a.culprits >= k {
        return Err(Error::out_of_range("culprits", a.culprits, format!("1 to {}", k - 1)));
    }
    if !(1..=MOST_TRIALS).contains(&a.trials) {
        return Err(Error::out_of_range("trials", a.trials, format!("1 to {MOST_TRIALS}")));
    }
    if !((0.0..1.0).contains(&a.censored) && a.risk > 0.0 && a.risk < 0.5) {
        return Err(Error::out_of_range(
            "censored share, risk",
            format!("{}, {}", a.censored, a.risk),
            "a share from 0 to under 1, a risk above 0 and under 0.5",
        ));
    }
    let limit = critical(design, a.risk);
    let counts: Vec<[usize; 3]> = (0..a.trials.div_ceil(BLOCK))
        .into_par_iter()
        .map(|block| {
            // A stream of its own for each block: the same digits on any number of threads.
            let mut rng = stream(a.seed, block);
            let mut c = [0; 3];
            for _ in 0..BLOCK.min(a.trials - block * BLOCK) {
                let t = simulated(design, a, limit, &mut rng);
                c[0] += usize::from(t.0 == a.culprits);
                c[1] += t.0;
                c[2] += t.1;
            }
            c
        })
        .collect();
    let sum = |i: usize| counts.iter().map(|c| c[i]).sum::<usize>() as f64 / a.trials as f64;
    Ok(Power { all_named: sum(0), one_named: sum(1) / a.culprits as f64, false_name: sum(2) / (k - a.culprits) as f64 })
}

/// Culprits named and innocents named in one simulated trial.
fn simulated(design: &Design, a: &Assumed, limit: f64, rng: &mut rand::rngs::ChaCha8Rng) -> (usize, usize) {
    use rand::RngExt;
    let k = design.steps.len();
    let mut order: Vec<usize> = (0..k).collect();
    for i in 0..a.culprits {
        let j = rng.random_range(i..k);
        order.swap(i, j);
    }
    let guilty = &order[..a.culprits];
    let y: Vec<f64> = (design.bottles.iter())
        .map(|row| normal(rng) + a.adds_sd * guilty.iter().filter(|g| row[**g]).count() as f64)
        .collect();
    let below = (a.censored * y.len() as f64).round() as usize;
    let mut sorted = y.clone();
    sorted.sort_by(f64::total_cmp);
    let masses: Vec<Mass> = if below == 0 {
        y.iter().map(|v| Mass::Value(*v)).collect()
    } else {
        let limit = sorted[below.min(y.len() - 1)];
        y.iter().map(|v| if *v < limit { Mass::Below(limit) } else { Mass::Value(*v) }).collect()
    };
    let (effects, _) = judge(design, &masses, limit);
    let is_guilty = |e: &Effect| guilty.iter().any(|g| design.steps[*g] == e.step);
    (
        effects.iter().filter(|e| e.named && is_guilty(e)).count(),
        effects.iter().filter(|e| e.named && !is_guilty(e)).count(),
    )
}
