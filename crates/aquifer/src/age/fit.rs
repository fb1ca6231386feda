//! All tracers together: which models of the water's age fit, how old, how much of it young.
//!
//! In: tables of the models ([`Tables`]), measured tracers, what is known of the recharge and of A0. Out: for each model the
//! posterior of its parameters (20,000 draws, fixed seed, the same whatever the number of threads), its test, its weight.
//!
//! Method: prior flat in ln T from 1 to 50,000 years, flat in the share of a mixture, equal on fixed values of η and D,
//! equal for each model. Draws come from an approximate posterior on the grid and are weighted by prior × likelihood over
//! it. What tracers share (recharge temperature, height, excess air, half-lives, a history's common factor) and what each has
//! of its own (solubility, measurement) enters the likelihood to first order as one normal covariance, which is integrated
//! in closed form; A0 is flat in its band. Drawing them as well was tried: few draws then carry all the weight.
//! A bound is met with Φ; never a nought. Test: χ² of the best fit, k − p degrees of freedom, at 0.05; with k = p the model
//! fits by construction, with k < p it is not determined, and neither is a test. AICc only where k > p + 1.
//! Checked in `tests/age_fit.rs`; how often the intervals hold in `tests/age_coverage.rs`.

use super::constants::{constant, number};
use super::covariance::{Loads, Normals, within_band};
use super::gases::{dissolved_per_ppt, u_solubility};
use super::measured::{Level, Measured, Recharge, Tracer};
use super::models::Model;
use super::tables::{Curve, Entry, Family, Kind, SHARES, Tables};
use super::tritium::BOMB_YEAR;
use crate::Reason;
use message::{Shown, age as said};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;
use serde::Serialize;
use statistics::{chi2, normal};

/// Which side of a measured value the truth can lie on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// Around it.
    Both,
    /// There was at least so much: some was lost on the way (a CFC in sulfidic water).
    AtLeast,
    /// There was at most so much: some came on the way (SF6 from rock).
    AtMost,
}

/// A tracer in the fit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Observation {
    /// As measured.
    pub measured: Measured,
    /// Which side it tells.
    pub side: Side,
}

/// What a fit takes beside the tables.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    /// The tracers.
    pub observations: Vec<Observation>,
    /// The recharge, needed with gases.
    pub recharge: Option<Recharge>,
    /// A0 as F14C from, to; needed with carbon-14.
    pub a0: Option<(f64, f64)>,
    /// Draws a model.
    pub draws: usize,
    /// Seed.
    pub seed: u64,
}

/// Draws a model.
pub const DRAWS: usize = 20_000;

/// One weighted draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draw {
    /// T, years: mean age, or that of the young part; scale of a screened model.
    pub t: f64,
    /// Mean age of all the water, years; infinite with a dead part.
    pub mean: f64,
    /// Share that fell since 1953.
    pub young: f64,
    /// Share of the first water, 1 where there is one.
    pub share: f64,
    /// Weight, not normalised.
    pub weight: f64,
    /// Where it stands in the tables: curve, cell, part of the cell; the same of the second water.
    pub(super) place: Place,
}

/// A place in a family's tables.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub curve: usize,
    pub cell: usize,
    pub s: f64,
    pub share: f64,
    pub second: usize,
    pub s2: f64,
}

/// How a model was tested.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tested {
    /// Fewer values than parameters.
    NotDetermined,
    /// As many: it fits by construction, nothing is tested.
    ByConstruction,
    /// χ² of the best fit with its degrees of freedom and p.
    ChiSquared {
        /// χ².
        chi2: f64,
        /// k − p.
        dof: usize,
        /// Chance of so much or more.
        p: f64,
    },
}

/// Percentiles of a weighted quantity.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Spread {
    /// 2.5 %.
    pub low_95: f64,
    /// 16 %.
    pub low_68: f64,
    /// 50 %.
    pub median: f64,
    /// 84 %.
    pub high_68: f64,
    /// 97.5 %.
    pub high_95: f64,
}

/// One kind of model.
#[derive(Debug, Clone, Serialize)]
pub struct ModelFit {
    /// Which.
    pub kind: Kind,
    /// Its test.
    pub tested: Tested,
    /// Whether it is rejected at 0.05.
    pub rejected: bool,
    /// Share of the evidence among those not rejected, 0 to 1.
    pub weight: f64,
    /// Draws that the weighted ones are worth.
    pub effective_draws: f64,
    /// T, years.
    pub t_years: Spread,
    /// The 95 % of highest density of T, as one range or several: two bumps are two ranges.
    pub ranges_years: Vec<(f64, f64)>,
    /// Share that fell since 1953.
    pub young: Spread,
    /// AICc, where k > p + 1.
    pub aicc: Option<f64>,
    /// The best of the draws.
    pub best: Model,
    /// The draws.
    #[serde(skip)]
    pub draws: Vec<Draw>,
    ln_evidence: f64,
}

/// All kinds of models.
#[derive(Debug, Clone, Serialize)]
pub struct Fit {
    /// Each kind.
    pub models: Vec<ModelFit>,
    /// Values that count (bounds test nothing).
    pub values: usize,
    /// Where all are rejected: the tracers without which one fits, with the best p of each.
    pub disturbed: Vec<(Tracer, f64)>,
}

/// Least draws that weighted ones have to be worth.
// The programme's own choice: the 2.5th percentile of 200 draws rests on five.
const LEAST_EFFECTIVE: f64 = 200.0;
/// Level of the test.
const LEVEL: f64 = 0.05;

/// A gas dissolved: per ppt, and its change with recharge.
#[derive(Debug, Clone, Copy, Default)]
struct Dissolved {
    water: f64,
    air_per_cm3: f64,
    /// Relative change of the dissolved part a °C and a m.
    per_degree: f64,
    per_metre: f64,
}

/// What the likelihood needs, worked out once.
pub(super) struct Frame<'a> {
    pub tables: &'a Tables,
    pub sample: &'a Sample,
    dissolved: [Dissolved; Tracer::ALL.len()],
    recharge: Recharge,
    a0: (f64, f64),
    /// Relative u of the decay constants of tritium and carbon-14.
    u_decay: (f64, f64),
    /// 3H and its daughter are both there: their history errs together.
    shared_tritium: bool,
}

impl<'a> Frame<'a> {
    pub fn new(tables: &'a Tables, sample: &'a Sample) -> Result<Self, Reason> {
        let has = |t: Tracer| sample.observations.iter().any(|o| o.measured.tracer == t);
        if sample.observations.is_empty() {
            return Err(Reason::TooFew {
                what: said::TracersToFit.into(),
                have: 0,
                need: 1,
                hint: said::MeasureOne.into(),
            });
        }
        for o in &sample.observations {
            let t = o.measured.tracer;
            if !tables.has(t) {
                return Err(Reason::unlike(
                    said::HistoryOf { tracer: t.sign().into() },
                    said::NotGiven,
                    said::GiveHistory,
                ));
            }
            if (o.measured.sampled_year - tables.sampled_year).abs() > 1.0 {
                let found = Shown::decimals(o.measured.sampled_year, 1, "");
                let near = said::WithinAYear { year: Shown::decimals(tables.sampled_year, 1, "") };
                return Err(Reason::out_of_range(said::YearOfSampling, found, near));
            }
        }
        if sample
            .observations
            .iter()
            .enumerate()
            .any(|(i, o)| sample.observations[..i].iter().any(|p| p.measured.tracer == o.measured.tracer))
        {
            return Err(Reason::unlike(said::TracersToFit, said::OneTwice, said::OneOfEach));
        }
        if !(1000..=1_000_000).contains(&sample.draws) {
            let number = |n: f64| Shown::as_given(n, "");
            let range = message::aquifer::Between { low: number(1e3), high: number(1e6) };
            return Err(Reason::out_of_range(message::aquifer::Draws, number(sample.draws as f64), range));
        }
        let gases = Tracer::ALL.into_iter().filter(|t| t.is_gas() && (has(*t) || tables.has(*t)));
        let nowhere = super::WithU { value: 10.0, u: 0.0 };
        let recharge = match sample.recharge {
            Some(r) => r,
            None if Tracer::ALL.into_iter().any(|t| t.is_gas() && has(t)) => {
                return Err(Reason::unlike(said::RechargeTemperature, said::NotGiven, said::TemperatureAndHeight));
            }
            None => Recharge {
                temperature_c: nowhere,
                height_m: super::WithU { value: 0.0, u: 0.0 },
                excess_air_cm3_kg: None,
            },
        };
        if has(Tracer::Sf6) && recharge.excess_air_cm3_kg.is_none() {
            return Err(Reason::unlike(said::ExcessAir, said::NotGiven, said::NeonOrArgon));
        }
        let mut dissolved = [Dissolved::default(); Tracer::ALL.len()];
        for gas in gases {
            dissolved[gas as usize] = dissolution(gas, &recharge)?;
        }
        let a0 = match sample.a0 {
            Some((low, high)) if low > 0.0 && high >= low && high <= 1.5 => (low, high),
            Some((low, high)) => {
                let found = message::aquifer::Between {
                    low: Shown::trimmed(low, 3, ""),
                    high: Shown::trimmed(high, 3, "F14C"),
                };
                return Err(Reason::unlike(said::InitialCarbon, found, said::BandOfInitialCarbon));
            }
            None if has(Tracer::Carbon14) => {
                return Err(Reason::unlike(said::InitialCarbon, said::NotGiven, said::BandOfInitialCarbon));
            }
            None => (1.0, 1.0),
        };
        let relative = |key: &str| constant(key).u.unwrap_or(0.0) / number(key);
        let u_decay = (relative("3H.halflife"), relative("14C.halflife"));
        let shared_tritium = has(Tracer::Tritium) && has(Tracer::Helium3);
        Ok(Self { tables, sample, dissolved, recharge, a0, u_decay, shared_tritium })
    }

    /// What the model gives of a tracer in the unit of the measurement (carbon-14: for an A0 of 1), and the u that no other
    /// tracer shares.
    pub(super) fn predicted(&self, tracer: Tracer, e: Entry) -> (f64, f64) {
        match tracer {
            Tracer::Tritium | Tracer::Helium3 => (e.c, if self.shared_tritium { 0.0 } else { e.u }),
            Tracer::Carbon14 => (e.c, e.u),
            gas => {
                let g = &self.dissolved[gas as usize];
                let per = g.water + g.air_per_cm3 * self.air().value;
                (per * e.c, libm::hypot(per * e.u, g.water * e.c * u_of(gas)))
            }
        }
    }

    /// Excess air; where no noble gas was measured the usual range of aquifers.
    fn air(&self) -> super::WithU {
        self.recharge.excess_air_cm3_kg.unwrap_or(USUAL_AIR)
    }

    /// What the model gives of a tracer with every input at its value; carbon-14 with the middle of A0.
    pub(super) fn middle_value(&self, tracer: Tracer, e: Entry) -> f64 {
        let a0 = if tracer == Tracer::Carbon14 { 0.5 * (self.a0.0 + self.a0.1) } else { 1.0 };
        a0 * self.predicted(tracer, e).0
    }

    /// u of a model's value by everything but the measurement; A0 by the width of its band.
    pub(super) fn model_u(&self, tracer: Tracer, e: Entry) -> f64 {
        let (value, u) = self.predicted(tracer, e);
        // A flat band has its half-width over √3 as standard uncertainty (JCGM 100:2008, 4.3.7).
        let a0 = if tracer == Tracer::Carbon14 { 0.5 * (self.a0.1 - self.a0.0) / 3f64.sqrt() * value } else { 0.0 };
        (u * u + a0 * a0 + self.shared_variance(tracer, e)).sqrt()
    }

    /// Changes of a prediction by one u of what tracers share: tritium's history, its half-life, that of carbon-14,
    /// recharge temperature, height, excess air.
    fn loads(&self, tracer: Tracer, e: Entry) -> Loads {
        match tracer {
            Tracer::Tritium | Tracer::Helium3 => {
                let history = if self.shared_tritium { e.u } else { 0.0 };
                [history, e.d * self.u_decay.0, 0.0, 0.0, 0.0, 0.0]
            }
            Tracer::Carbon14 => [0.0, 0.0, e.d * self.u_decay.1, 0.0, 0.0, 0.0],
            gas => {
                let (g, r) = (&self.dissolved[gas as usize], &self.recharge);
                let water = g.water * e.c;
                let (degrees, metres) = (g.per_degree * r.temperature_c.u, g.per_metre * r.height_m.u);
                [0.0, 0.0, 0.0, water * degrees, water * metres, g.air_per_cm3 * e.c * self.air().u]
            }
        }
    }

    /// Variance by what tracers share.
    fn shared_variance(&self, tracer: Tracer, e: Entry) -> f64 {
        self.loads(tracer, e).iter().map(|x| x * x).sum()
    }

    /// ln of the likelihood of all observations at a place of a model.
    pub(super) fn ln_likelihood(&self, row: &dyn Fn(Tracer) -> Entry) -> f64 {
        let mut normals = Normals::default();
        let mut sum = 0.0;
        for o in &self.sample.observations {
            let m = &o.measured;
            let e = row(m.tracer);
            let (truth, own) = self.predicted(m.tracer, e);
            let own = m.u().powi(2) + own * own;
            let u = || (own + self.shared_variance(m.tracer, e)).sqrt();
            sum += match (m.level, o.side) {
                (Level::Value { value, .. }, _) if m.tracer == Tracer::Carbon14 => {
                    within_band(value, truth, u(), self.a0)
                }
                (Level::Below { limit, .. }, _) if m.tracer == Tracer::Carbon14 => {
                    normal::log_cdf((limit - 0.5 * (self.a0.0 + self.a0.1) * truth) / u())
                }
                (Level::Value { value, .. }, Side::Both) => {
                    normals.push(value - truth, own, self.loads(m.tracer, e));
                    0.0
                }
                (Level::Value { value, .. }, Side::AtLeast) => normal::log_cdf((truth - value) / u()),
                (Level::Value { value, .. }, Side::AtMost) => normal::log_cdf((value - truth) / u()),
                (Level::Below { limit, .. }, _) => normal::log_cdf((limit - truth) / u()),
            };
        }
        let (chi2, ln_det) = normals.weighed();
        sum - 0.5 * (chi2 + ln_det)
    }

    /// χ² of the values, and what bounds are exceeded by.
    fn chi2(&self, row: &dyn Fn(Tracer) -> Entry, without: Option<Tracer>) -> f64 {
        let (mut normals, mut extra) = (Normals::default(), 0.0);
        for o in self.sample.observations.iter().filter(|o| Some(o.measured.tracer) != without) {
            let m = &o.measured;
            let e = row(m.tracer);
            let (truth, own) = self.predicted(m.tracer, e);
            let own = m.u().powi(2) + own * own;
            let off = if m.tracer == Tracer::Carbon14 {
                // Any A0 of the band is as good.
                m.number() - m.number().clamp(self.a0.0 * truth, self.a0.1 * truth)
            } else {
                m.number() - truth
            };
            let side = if matches!(m.level, Level::Below { .. }) { Side::AtMost } else { o.side };
            match side {
                Side::Both => normals.push(off, own, self.loads(m.tracer, e)),
                Side::AtLeast if off > 0.0 => extra += off * off / (own + self.shared_variance(m.tracer, e)),
                Side::AtMost if off < 0.0 => extra += off * off / (own + self.shared_variance(m.tracer, e)),
                _ => {}
            }
        }
        normals.weighed().0 + extra
    }
}

/// Usual excess air of aquifers, cm³ STP/kg: 0 to 6, flat (Aeschbach-Hertig et al. 2000, from memory).
const USUAL_AIR: super::WithU = super::WithU { value: 3.0, u: 1.7 };

fn u_of(gas: Tracer) -> f64 {
    use std::sync::LazyLock;
    static SF6: LazyLock<f64> = LazyLock::new(|| u_solubility(Tracer::Sf6));
    static CFC: LazyLock<f64> = LazyLock::new(|| u_solubility(Tracer::Cfc12));
    if gas == Tracer::Sf6 { *SF6 } else { *CFC }
}

fn dissolution(gas: Tracer, r: &Recharge) -> Result<Dissolved, Reason> {
    let (t, h) = (r.temperature_c.value, r.height_m.value);
    let water = |t: f64, h: f64| dissolved_per_ppt(gas, t, h, 0.0).map(|x| x.0);
    let base = water(t, h)?;
    // Half a degree towards the middle of the range of F; ten metres.
    let dt = if t > 20.0 { -0.5 } else { 0.5 };
    Ok(Dissolved {
        water: base,
        air_per_cm3: dissolved_per_ppt(gas, t, h, 1.0)?.1,
        per_degree: libm::log(water(t + dt, h)? / base) / dt,
        per_metre: libm::log(water(t, h + 10.0)? / base) / 10.0,
    })
}

/// A cell of the parameters: its lower corner, its size along T, share and second T, and the logarithm of its prior.
#[derive(Debug, Clone, Copy)]
struct Cell {
    at: Place,
    size: [f64; 3],
    ln_prior: f64,
}

impl Cell {
    /// The place at parts of its size.
    fn place(&self, [a, b, c]: [f64; 3]) -> Place {
        let p = &self.at;
        Place { s: p.s + a * self.size[0], share: p.share + b * self.size[1], s2: p.s2 + c * self.size[2], ..*p }
    }

    fn middle(&self) -> Place {
        self.place([0.5; 3])
    }
}

impl Family {
    /// Cells of the parameters.
    fn cells(&self) -> Vec<Cell> {
        let mixture = self.kind.is_mixture();
        // A whole is one cell without width.
        let shares = if mixture { &SHARES[..] } else { &[1.0, 1.0] };
        let width = |c: &Curve, i: usize| c.ln_t[i + 1] - c.ln_t[i];
        let mut out = vec![];
        for (curve, c) in self.curves.iter().enumerate() {
            for cell in 0..c.cells() {
                for edges in shares.windows(2) {
                    let (share, span) = (edges[0], edges[1] - edges[0]);
                    let prior = width(c, cell) * if mixture { span } else { 1.0 };
                    let size = [1.0, span, 1.0];
                    let at = Place { curve, cell, s: 0.0, share, second: 0, s2: 0.0 };
                    match &self.second {
                        None => out.push(Cell { at, size, ln_prior: libm::log(prior) }),
                        Some(o) => out.extend((0..o.cells()).filter(|k| o.ln_t[*k] >= c.ln_t[cell]).map(|second| {
                            Cell { at: Place { second, ..at }, size, ln_prior: libm::log(prior * width(o, second)) }
                        })),
                    }
                }
            }
        }
        // The prior of a family is one, so that families with more parameters pay for them.
        let most = out.iter().map(|c| c.ln_prior).fold(f64::NEG_INFINITY, f64::max);
        let sum: f64 = out.iter().map(|c| libm::exp(c.ln_prior - most)).sum();
        let norm = most + libm::log(sum);
        for c in &mut out {
            c.ln_prior -= norm;
        }
        out
    }

    /// A cell in halves along each of its parameters.
    fn halved(&self, c: &Cell) -> Vec<Cell> {
        let mut out = vec![*c];
        let axes = [true, self.kind.is_mixture(), self.second.is_some()];
        for axis in (0..3).filter(|k| axes[*k]) {
            out = out
                .into_iter()
                .flat_map(|c| {
                    let mut low = c;
                    low.size[axis] *= 0.5;
                    low.ln_prior -= std::f64::consts::LN_2;
                    let mut high = low;
                    match axis {
                        0 => high.at.s += low.size[0],
                        1 => high.at.share += low.size[1],
                        _ => high.at.s2 += low.size[2],
                    }
                    [low, high]
                })
                .collect();
        }
        out
    }

    /// A tracer at a place.
    pub(super) fn entry(&self, p: &Place, tracer: Tracer) -> Entry {
        let e = self.curves[p.curve].at(p.cell, p.s, tracer as usize);
        if !self.kind.is_mixture() {
            return e;
        }
        let old = self.second.as_ref().map_or(Entry::default(), |o| o.at(p.second, p.s2, tracer as usize));
        let mix = |a: f64, b: f64| p.share * a + (1.0 - p.share) * b;
        Entry { c: mix(e.c, old.c), u: mix(e.u, old.u), d: mix(e.d, old.d) }
    }

    /// The model at a place.
    pub(super) fn model(&self, p: &Place) -> Model {
        let c = &self.curves[p.curve];
        let first = c.model(c.t(p.cell, p.s));
        if !self.kind.is_mixture() {
            return first;
        }
        let second = self.second.as_ref().map(|o| Box::new(o.model(o.t(p.second, p.s2))));
        Model::Mixture { share: p.share, first: Box::new(first), second }
    }
}

impl Kind {
    /// Of two waters?
    pub fn is_mixture(self) -> bool {
        matches!(self, Self::PistonDead | Self::ExponentialDead | Self::Two)
    }
}

/// Fits every kind of model of the tables.
///
/// # Errors
/// [`Reason`]: a tracer without history, gases without recharge temperature, SF6 without excess air, carbon-14 without
/// A0, a tracer twice, a sample of another year than the tables, too few draws or too many.
pub fn fit(tables: &Tables, sample: &Sample) -> Result<Fit, Reason> {
    fitted(tables, sample, Rejects::Tested)
}

/// The same where something of the sample is only supposed (an end of the band of A0): a model that misses the values by
/// more than chance is rejected even where it has as many parameters as there are values, since no parameters of it give
/// them; χ² of the best fit with as many degrees of freedom as values, at 0.05.
///
/// # Errors
/// As [`fit`].
pub fn fit_supposed(tables: &Tables, sample: &Sample) -> Result<Fit, Reason> {
    fitted(tables, sample, Rejects::Missing)
}

/// Which models are rejected.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Rejects {
    /// Those that were tested.
    Tested,
    /// And those that miss the values.
    Missing,
}

fn fitted(tables: &Tables, sample: &Sample, rejects: Rejects) -> Result<Fit, Reason> {
    let frame = Frame::new(tables, sample)?;
    let families = tables.families.par_iter().enumerate();
    let mut models: Vec<ModelFit> =
        families.map(|(k, f)| one(&frame, f, k as u64, rejects)).collect::<Result<_, _>>()?;
    let values = sample.observations.iter().filter(|o| tests(o)).count();
    weigh(&mut models);
    let disturbed = if rejects == Rejects::Tested && models.iter().all(|m| m.rejected) {
        leave_out(&frame, values)
    } else {
        vec![]
    };
    Ok(Fit { models, values, disturbed })
}

/// Whether it is a value that a model can miss on both sides.
fn tests(o: &Observation) -> bool {
    o.side == Side::Both && matches!(o.measured.level, Level::Value { .. })
}

/// Shares of the evidence among the models that are not rejected; of all, where all are.
fn weigh(models: &mut [ModelFit]) {
    let all = models.iter().all(|m| m.rejected);
    let most = models.iter().map(|m| m.ln_evidence).fold(f64::NEG_INFINITY, f64::max);
    let of = |m: &ModelFit| if m.rejected && !all { 0.0 } else { libm::exp(m.ln_evidence - most) };
    let sum: f64 = models.iter().map(of).sum();
    for m in models {
        m.weight = of(m) / sum;
    }
}

/// Each tracer left out in turn: which removal lets a model that is still tested fit?
fn leave_out(frame: &Frame, values: usize) -> Vec<(Tracer, f64)> {
    let mut out = vec![];
    for o in &frame.sample.observations {
        let t = o.measured.tracer;
        let left = values - usize::from(tests(o));
        let p = (frame.tables.families.iter().filter(|f| left > f.kind.parameters()))
            .map(|f| {
                let places: Vec<Place> = f.cells().iter().map(Cell::middle).collect();
                let (chi2, _) = best(frame, f, &places, Some(t));
                chi2::sf(chi2, (left - f.kind.parameters()) as f64)
            })
            .fold(0.0, f64::max);
        if p > LEVEL {
            out.push((t, p));
        }
    }
    out.sort_by(|a, b| b.1.total_cmp(&a.1));
    out
}

/// Least χ² over some places, refined within and beside the best cell.
fn best(frame: &Frame, f: &Family, places: &[Place], without: Option<Tracer>) -> (f64, Place) {
    let of = |p: &Place| frame.chi2(&|t| f.entry(p, t), without);
    let mut at = *places.iter().map(|p| (of(p), p)).min_by(|a, b| a.0.total_cmp(&b.0)).expect("a family has places").1;
    let mut least = of(&at);
    // Coordinate by coordinate, ever finer: the curves are smooth within a cell.
    for round in 0..4 {
        let step = 0.5 * libm::pow(0.3, f64::from(round));
        for _ in 0..6 {
            let before = least;
            for trial in neighbours(f, &at, step) {
                let c = of(&trial);
                if c < least {
                    (least, at) = (c, trial);
                }
            }
            if least >= before {
                break;
            }
        }
    }
    (least, at)
}

/// Widest step of the share in looking for the best fit.
const SHARE_STEP: f64 = 0.05;

/// A step each way in T, in the share, in the second T.
fn neighbours(f: &Family, p: &Place, step: f64) -> Vec<Place> {
    let moved = |cells: usize, cell: usize, s: f64, by: f64| -> (usize, f64) {
        let x = (cell as f64 + s + by).clamp(0.0, cells as f64 - 1e-9);
        (x.floor() as usize, x.fract())
    };
    let mut out = vec![];
    for by in [-step, step] {
        let (cell, s) = moved(f.curves[p.curve].cells(), p.cell, p.s, by);
        out.push(Place { cell, s, ..*p });
        if f.kind.is_mixture() {
            out.push(Place { share: (p.share + by * SHARE_STEP).clamp(0.0, 1.0), ..*p });
        }
        if let Some(o) = &f.second {
            let (second, s2) = moved(o.cells(), p.second, p.s2, by);
            out.push(Place { second, s2, ..*p });
        }
    }
    out
}

/// Part of the draws that come from the prior: nothing that it allows is out of reach.
const FROM_PRIOR: f64 = 0.05;
/// The approximate posterior is drawn to this power: wider than it is.
const TEMPER: f64 = 0.8;

/// How far below the best, in ln, a cell is still halved, round by round: wide at first, since a coarse cell can hide what
/// it holds.
const HALVED: [f64; 4] = [40.0, 25.0, 12.0, 8.0];
/// Most cells: beyond them refining stops, and the effective number of draws tells whether that was enough.
const MOST_CELLS: usize = 200_000;

/// One kind of model.
fn one(frame: &Frame, f: &Family, stream: u64, rejects: Rejects) -> Result<ModelFit, Reason> {
    let score = |c: &Cell| {
        let p = c.middle();
        TEMPER * frame.ln_likelihood(&|t| f.entry(&p, t))
    };
    let mut cells: Vec<(Cell, f64)> = f.cells().into_par_iter().map(|c| (c, score(&c))).collect();
    let likeliest: Vec<Place> = {
        let mut order: Vec<usize> = (0..cells.len()).collect();
        let n = order.len().min(60);
        if n < order.len() {
            order.select_nth_unstable_by(n, |a, b| cells[*b].1.total_cmp(&cells[*a].1));
        }
        order[..n].iter().map(|k| cells[*k].0.middle()).collect()
    };
    for depth in HALVED {
        let most = cells.iter().map(|c| c.1).fold(f64::NEG_INFINITY, f64::max);
        let (hot, cold): (Vec<_>, Vec<_>) = cells.into_iter().partition(|c| c.1 > most - TEMPER * depth);
        cells = cold;
        if hot.len() * 8 + cells.len() > MOST_CELLS {
            cells.extend(hot);
            break;
        }
        cells.par_extend(hot.par_iter().flat_map_iter(|c| f.halved(&c.0)).map(|c| (c, score(&c))));
    }
    let scores: Vec<f64> = cells.iter().map(|(c, s)| c.ln_prior + s).collect();
    let most = scores.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let relative: Vec<f64> = scores.iter().map(|s| libm::exp(s - most)).collect();
    let sum: f64 = relative.iter().sum();
    let mut cumulative = 0.0;
    let proposal: Vec<Proposed> = (relative.iter().zip(&cells))
        .map(|(r, (cell, _))| {
            let q = (1.0 - FROM_PRIOR) * r / sum + FROM_PRIOR * libm::exp(cell.ln_prior);
            cumulative += q;
            Proposed { cell: *cell, cumulative, ln_weight: cell.ln_prior - libm::log(q) }
        })
        .collect();
    let (draws, ln_mean) = drawn(frame, f, &proposal, stream);
    let total: f64 = draws.iter().map(|d| d.weight).sum();
    let effective_draws = total * total / draws.iter().map(|d| d.weight * d.weight).sum::<f64>();
    let (chi2, at) = best(frame, f, &likeliest, None);
    let (k, p) = (frame.sample.observations.iter().filter(|o| tests(o)).count(), f.kind.parameters());
    let tested = match k.checked_sub(p) {
        None => Tested::NotDetermined,
        Some(0) => Tested::ByConstruction,
        Some(dof) => Tested::ChiSquared { chi2, dof, p: chi2::sf(chi2, dof as f64) },
    };
    let misses = || rejects == Rejects::Missing && k > 0 && chi2::sf(chi2, k as f64) < LEVEL;
    let rejected = matches!(tested, Tested::ChiSquared { p, .. } if p < LEVEL) || misses();
    // A model that cannot fit has few draws near the data; one that can has to have enough of them.
    let enough = effective_draws >= LEAST_EFFECTIVE.min(0.01 * draws.len() as f64);
    if !rejected && !enough {
        let what = said::DrawsOfModel { model: f.kind.name().into() }.into();
        return Err(Reason::NotConverged { what, iterations: draws.len(), residual: effective_draws });
    }
    let (kf, pf) = (k as f64, p as f64);
    Ok(ModelFit {
        kind: f.kind,
        tested,
        rejected,
        weight: 0.0,
        effective_draws,
        t_years: spread(&draws, |d| d.t),
        ranges_years: densest(&draws),
        young: spread(&draws, |d| d.young),
        aicc: (k > p + 1).then(|| chi2 + 2.0 * pf + 2.0 * pf * (pf + 1.0) / (kf - pf - 1.0)),
        best: f.model(&at),
        ln_evidence: ln_mean,
        draws,
    })
}

/// A cell with the chance that it is drawn, summed up to it, and ln of its prior over that chance.
struct Proposed {
    cell: Cell,
    cumulative: f64,
    ln_weight: f64,
}

/// Draws in blocks with random streams of their own, so that threads change nothing; with ln of the mean weight.
fn drawn(frame: &Frame, f: &Family, proposal: &[Proposed], stream: u64) -> (Vec<Draw>, f64) {
    const BLOCK: usize = 2000;
    let blocks = frame.sample.draws.div_ceil(BLOCK);
    let bomb = frame.tables.sampled_year - BOMB_YEAR;
    let top = proposal.last().map_or(1.0, |p| p.cumulative);
    let mut draws: Vec<Draw> = (0..blocks)
        .into_par_iter()
        .flat_map_iter(|block| {
            let mut rng = ChaCha8Rng::seed_from_u64(frame.sample.seed);
            rng.set_stream(stream * 10_000 + block as u64);
            let count = BLOCK.min(frame.sample.draws - block * BLOCK);
            (0..count)
                .map(|_| {
                    let x = rng.random::<f64>() * top;
                    let k = proposal.partition_point(|p| p.cumulative < x).min(proposal.len() - 1);
                    let p = proposal[k].cell.place([rng.random(), rng.random(), rng.random()]);
                    let ln_l = frame.ln_likelihood(&|t| f.entry(&p, t));
                    let model = f.model(&p);
                    let c = &f.curves[p.curve];
                    Draw {
                        t: c.t(p.cell, p.s),
                        mean: model.mean().unwrap_or(f64::INFINITY),
                        young: model.younger_than(bomb),
                        share: p.share,
                        weight: ln_l + proposal[k].ln_weight,
                        place: p,
                    }
                })
                .collect::<Vec<_>>()
        })
        .collect();
    let most = draws.iter().map(|d| d.weight).fold(f64::NEG_INFINITY, f64::max);
    for d in &mut draws {
        d.weight = libm::exp(d.weight - most);
    }
    let mean = draws.iter().map(|d| d.weight).sum::<f64>() / draws.len() as f64;
    (draws, most + libm::log(mean))
}

/// Percentiles of something of the draws.
pub fn spread(draws: &[Draw], of: impl Fn(&Draw) -> f64) -> Spread {
    let at = quantiles(draws.iter().map(|d| (of(d), d.weight)).collect());
    Spread { low_95: at(0.025), low_68: at(0.16), median: at(0.5), high_68: at(0.84), high_95: at(0.975) }
}

/// The weighted quantile function of some values.
pub(super) fn quantiles(mut values: Vec<(f64, f64)>) -> impl Fn(f64) -> f64 {
    values.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut sum = 0.0;
    let cumulative: Vec<f64> = values
        .iter()
        .map(|v| {
            sum += v.1;
            sum
        })
        .collect();
    move |p| values[cumulative.partition_point(|c| *c < p * sum).min(values.len() - 1)].0
}

/// Bins of ln T that density is counted in: a twentieth of the age.
const BIN: f64 = 0.05;

/// The densest 95 % of T, years; bins with a gap of less than two join.
fn densest(draws: &[Draw]) -> Vec<(f64, f64)> {
    let mut bins: std::collections::BTreeMap<i64, f64> = std::collections::BTreeMap::new();
    for d in draws {
        *bins.entry((libm::log(d.t) / BIN).floor() as i64).or_default() += d.weight;
    }
    let total: f64 = bins.values().sum();
    let mut order: Vec<(i64, f64)> = bins.into_iter().collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let mut kept = vec![];
    let mut sum = 0.0;
    for (bin, w) in order {
        if sum >= 0.95 * total {
            break;
        }
        sum += w;
        kept.push(bin);
    }
    kept.sort_unstable();
    let mut out: Vec<(i64, i64)> = vec![];
    for bin in kept {
        match out.last_mut() {
            Some(last) if bin - last.1 <= 2 => last.1 = bin,
            _ => out.push((bin, bin)),
        }
    }
    out.into_iter().map(|(a, b)| (libm::exp(a as f64 * BIN), libm::exp((b + 1) as f64 * BIN))).collect()
}
