//! Which tracer next: what a further measurement is likely to tell, for its price.
//!
//! In: a fit, candidates with their u, their chance of being spoilt in this water and the person's prices (analysis, bottle,
//! trip). Out: for each the gain E[ln W before − ln W after], W the width of the 95 % range of ln T, and the gain in the
//! chance that the question is decided; ranked by gain over price, then greedily the best pair. Method: draws of today's
//! posterior; each simulated value reweights them. Candidates within the error of the simulation are "no preference".
//! Checked in `tests/age_next.rs`.

use super::fit::{Fit, Frame, Sample};
use super::measured::Tracer;
use super::tables::Tables;
use super::verdict::{Question, standing_models};
use crate::Reason;
use crate::travel::normal as gaussian;
use message::age as said;
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};

/// A tracer that could be measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Candidate {
    /// Which.
    pub tracer: Tracer,
    /// u as a part of the value.
    pub relative_u: f64,
    /// Least u, in the unit of the tracer.
    pub least_u: f64,
    /// Chance of being spoilt in this water, 0 to 1 (CFC-11 in sulfidic water: 1).
    pub spoilt: f64,
    /// Analysis, bottle and trip, in the person's currency.
    pub price: f64,
}

/// What a candidate is likely to bring.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gain {
    /// One tracer, or a pair.
    pub tracers: Vec<Tracer>,
    /// E[ln W before − ln W after].
    pub narrower: f64,
    /// Its standard error by the simulation.
    pub u_narrower: f64,
    /// Gain in the chance that the question is answered at 95 %.
    pub decided: f64,
    /// Price of all.
    pub price: f64,
    /// Gain over price.
    pub per_price: f64,
}

impl Gain {
    /// What is left of the width of the range of ages, on average, 0 to 1.
    pub fn left(&self) -> f64 {
        libm::exp(-self.narrower.max(0.0))
    }
}

/// The ranking.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ranking {
    /// Single tracers, best first.
    pub single: Vec<Gain>,
    /// The best pair that starts with the best single one, where it gains more a price than nothing.
    pub pair: Option<Gain>,
    /// Whether the first two single ones lie within the error of the simulation: no preference.
    pub no_preference: bool,
}

/// Draws of the posterior, and simulated measurements.
// The programme's own choice: the gain is then known to about 0.02.
const POSTERIOR: usize = 1500;
const SIMULATED: usize = 300;

/// A draw of today's posterior with what it gives of each candidate.
struct Drawn {
    ln_t: f64,
    yes: bool,
    predicted: Vec<f64>,
    u: Vec<f64>,
}

/// Ranks candidates.
///
/// # Errors
/// [`Reason`]: no candidate, one without history, a price that is not above nought, a chance outside 0 to 1, every model
/// rejected.
pub fn rank(
    fit: &Fit,
    tables: &Tables,
    sample: &Sample,
    candidates: &[Candidate],
    question: Question,
) -> Result<Ranking, Reason> {
    check(tables, candidates)?;
    let draws = posterior(fit, tables, sample, candidates, question)?;
    let before = width(&draws, &vec![1.0; draws.len()]);
    let decided_before = decided(&draws, &vec![1.0; draws.len()]);
    let gain = |which: &[usize]| simulate(&draws, candidates, which, before, decided_before, sample.seed);
    let mut single: Vec<(usize, Gain)> = (0..candidates.len()).map(|k| (k, gain(&[k]))).collect();
    single.sort_by(|a, b| b.1.per_price.total_cmp(&a.1.per_price));
    let first = single[0].0;
    let pair = (0..candidates.len())
        .filter(|k| *k != first)
        .map(|k| gain(&[first, k]))
        .max_by(|a, b| a.per_price.total_cmp(&b.per_price))
        .filter(|p| p.narrower > single[0].1.narrower);
    let no_preference = single.len() > 1 && {
        let (a, b) = (&single[0].1, &single[1].1);
        let u = libm::hypot(a.u_narrower / a.price, b.u_narrower / b.price);
        (a.per_price - b.per_price).abs() < 2.0 * u
    };
    Ok(Ranking { single: single.into_iter().map(|s| s.1).collect(), pair, no_preference })
}

fn check(tables: &Tables, candidates: &[Candidate]) -> Result<(), Reason> {
    if candidates.is_empty() {
        let (what, hint) = (said::CandidateTracers.into(), said::MeasureOne.into());
        return Err(Reason::TooFew { what, have: 0, need: 1, hint });
    }
    for c in candidates {
        let what = || said::OfTracer { tracer: c.tracer.sign().into() };
        crate::reason::above_nought(said::PriceOf { tracer: c.tracer.sign().into() }, c.price, "")?;
        crate::reason::above_nought(what(), c.relative_u, "")?;
        if !(0.0..=1.0).contains(&c.spoilt) {
            let found = message::Shown::as_given(c.spoilt, "");
            return Err(Reason::out_of_range(what(), found, message::aquifer::ShareNotPercent));
        }
        if !tables.has(c.tracer) {
            return Err(Reason::unlike(
                said::HistoryOf { tracer: c.tracer.sign().into() },
                said::NotGiven,
                said::GiveHistory,
            ));
        }
    }
    Ok(())
}

/// Equally weighted draws over the models that are not rejected.
fn posterior(
    fit: &Fit,
    tables: &Tables,
    sample: &Sample,
    candidates: &[Candidate],
    question: Question,
) -> Result<Vec<Drawn>, Reason> {
    let models = standing_models(fit);
    if models.is_empty() {
        return Err(Reason::unlike(said::ModelsToTry, said::AllRejected, said::FindDisturbed));
    }
    let frame = Frame::new(tables, sample)?;
    let mut rng = ChaCha8Rng::seed_from_u64(sample.seed);
    let mut out = vec![];
    for m in models {
        let n = (m.weight * POSTERIOR as f64).round() as usize;
        let total: f64 = m.draws.iter().map(|d| d.weight).sum();
        let family = tables.families.iter().find(|f| f.kind == m.kind).expect("a fitted model has its tables");
        // Systematic: one random start, equal steps through the weights.
        let start: f64 = rng.random();
        let (mut sum, mut k) = (0.0, 0);
        for i in 0..n {
            let at = (i as f64 + start) / n as f64 * total;
            while sum + m.draws[k].weight < at && k + 1 < m.draws.len() {
                sum += m.draws[k].weight;
                k += 1;
            }
            let d = &m.draws[k];
            let predicted: Vec<f64> =
                candidates.iter().map(|c| frame.middle_value(c.tracer, family.entry(&d.place, c.tracer))).collect();
            let u = (candidates.iter().zip(&predicted))
                .map(|(c, p)| {
                    let e = family.entry(&d.place, c.tracer);
                    libm::hypot(libm::hypot(c.relative_u * p, c.least_u), frame.model_u(c.tracer, e))
                })
                .collect();
            out.push(Drawn { ln_t: libm::log(d.t), yes: question.yes(d.young), predicted, u });
        }
    }
    Ok(out)
}

fn width(draws: &[Drawn], weights: &[f64]) -> f64 {
    let at = super::fit::quantiles(draws.iter().zip(weights).map(|(d, w)| (d.ln_t, *w)).collect());
    // A twentieth of the age: narrower than the tables tell.
    (at(0.975) - at(0.025)).max(0.05)
}

/// 1 where the question is answered at 95 %.
fn decided(draws: &[Drawn], weights: &[f64]) -> f64 {
    let all: f64 = weights.iter().sum();
    let yes: f64 = draws.iter().zip(weights).filter(|(d, _)| d.yes).map(|(_, w)| w).sum();
    f64::from(u8::from(yes >= 0.95 * all || yes <= 0.05 * all))
}

fn simulate(
    draws: &[Drawn],
    candidates: &[Candidate],
    which: &[usize],
    before: f64,
    decided_before: f64,
    seed: u64,
) -> Gain {
    let trials: Vec<(f64, f64)> = (0..SIMULATED)
        .into_par_iter()
        .map(|trial| {
            let mut rng = ChaCha8Rng::seed_from_u64(seed);
            rng.set_stream(1_000_000 + trial as u64);
            // Evenly through the posterior: each trial has a truth of its own.
            let truth = &draws[trial * draws.len() / SIMULATED];
            let mut ln_w = vec![0.0; draws.len()];
            for (c, candidate) in candidates.iter().enumerate() {
                // Drawn for every candidate, so that all of them meet the same luck.
                let (spoilt, z): (f64, f64) = (rng.random(), gaussian(&mut rng));
                if !which.contains(&c) || spoilt < candidate.spoilt {
                    continue;
                }
                let value = truth.predicted[c] + truth.u[c] * z;
                for (w, d) in ln_w.iter_mut().zip(draws) {
                    let u = d.u[c].max(1e-12);
                    *w += -0.5 * ((value - d.predicted[c]) / u).powi(2) - libm::log(u);
                }
            }
            let most = ln_w.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let weights: Vec<f64> = ln_w.iter().map(|w| libm::exp(w - most)).collect();
            (libm::log(before / width(draws, &weights)), decided(draws, &weights) - decided_before)
        })
        .collect();
    let narrower: Vec<f64> = trials.iter().map(|t| t.0).collect();
    let (mean, sd) = statistics::sample::mean_sd(&narrower).unwrap_or((0.0, 0.0));
    let price: f64 = which.iter().map(|k| candidates[*k].price).sum();
    Gain {
        tracers: which.iter().map(|k| candidates[*k].tracer).collect(),
        narrower: mean,
        u_narrower: sd / (SIMULATED as f64).sqrt(),
        decided: trials.iter().map(|t| t.1).sum::<f64>() / SIMULATED as f64,
        price,
        per_price: mean / price,
    }
}
