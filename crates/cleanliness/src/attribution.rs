//! Whose metal is it? All bottles of a trip or of years, blanks and samples, fitted together.
//!
//! In: for each bottle the measured mass (pg, net, with u), its volume and water, and what it was exposed to.
//! Out: the strength of each source, the concentration of each water, the water's share in each bottle, each
//! with a 95 % interval, and what this set of bottles cannot tell apart.
//!
//! Model: m_i = R·(V_i·c_w(i) + Σ_k x_ik·θ_k) + e_i with c ≥ 0, θ ≥ 0; e_i normal with variance u_i² + τ² +
//! (φ·Σ_k x_ik·θ_k)², and with a small probability a spike. Best values: non-negative least squares (Lawson &
//! Hanson 1974), weights 1/variance times the probability that the bottle is no spike, by repeated weighting
//! (a two-part normal mixture, Box & Tiao 1968, Biometrika 55:119). τ and φ take their proportion from the
//! squared residuals and their level from where the weighted squares equal their degrees of freedom (Paule &
//! Mandel 1982, J. Res. NBS 87:377).
//!
//! Intervals do not come from the non-negative fit: at θ = 0 its law is no longer normal and a bootstrap
//! fails. They are Student's intervals of the same weighted fit without the bound, read on θ ≥ 0; each variance is
//! the larger of the model's and the sandwich HC3 (MacKinnon & White 1985, J. Econometrics 29:305), since τ and φ
//! are not known. Where the plain interval lies below zero, zero itself is left. Coverage is checked by
//! simulation, at θ = 0 too, in `tests/validation_attribution.rs`: 93 to 97 % where θ > 0, 95 to 98 % at 0.
//!
//! Singular directions of the weighted design are named in words. Not for masses without u.

use crate::Error;
use crate::nnls::{Nnls, gram, project};
use crate::share::{GrossAndBlank, water_share};
use message::{Message, Shown, attribution as said, count};
use nalgebra::{DMatrix, DVector};
use quantity::{Measured, Unit};
use serde::{Deserialize, Serialize};
use statistics::sample::median_high;
use statistics::t;

/// What a bottle is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Holds water of a well.
    Sample,
    /// A blank of any sort.
    Blank,
}

/// One bottle.
#[derive(Debug, Clone, PartialEq)]
pub struct Bottle {
    /// Its label.
    pub name: String,
    /// Sample or blank.
    pub kind: Kind,
    /// The water in it: the well of a sample; the blank water of a blank, where that is to be fitted.
    pub water: Option<String>,
    /// Volume, mL.
    pub volume_ml: f64,
    /// Measured mass, pg: net of the laboratory, with its sign.
    pub mass_pg: f64,
    /// Its standard uncertainty, pg.
    pub u_pg: f64,
    /// Exposure to each source, in the order of [`Survey::sources`].
    pub exposures: Vec<f64>,
}

/// How spikes are treated.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Spikes {
    /// Probability of a spike in a bottle.
    pub rate: f64,
    /// Standard deviation of a spiked bottle over that of a clean one.
    pub width: f64,
}

impl Default for Spikes {
    /// Three in a hundred, ten times as wide: a practitioner's estimate for metal blanks, recalled.
    fn default() -> Self {
        Self { rate: 0.03, width: 10.0 }
    }
}

/// Bottles to be explained.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// Names of the sources with the unit of exposure in them: `acid_mL`, `days`, `openings`.
    pub sources: Vec<String>,
    /// The bottles.
    pub bottles: Vec<Bottle>,
    /// Recovery and its u; 1 with 0 unless spikes in water say otherwise.
    pub recovery: (f64, f64),
    /// Error law.
    pub spikes: Spikes,
}

/// The strength of a source.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SourceStrength {
    /// Its name.
    pub name: String,
    /// pg per unit of exposure, best non-negative value.
    pub per_unit_pg: f64,
    /// The plain least-squares value, negative or not; none where it cannot be told.
    pub plain_pg: Option<f64>,
    /// Its u.
    pub u_pg: Option<f64>,
    /// 95 % interval on θ ≥ 0. Where it cannot be told apart: zero to the most that the bottles allow.
    pub interval_95: (f64, f64),
    /// Can this set of bottles tell it from the others?
    pub identifiable: bool,
}

/// The concentration of a water.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WaterStrength {
    /// Which water.
    pub name: String,
    /// ng/L, best non-negative value.
    pub ng_l: f64,
    /// u of the plain value, ng/L; none where it cannot be told.
    pub u_ng_l: Option<f64>,
    /// 95 % interval, ng/L.
    pub interval_95: (f64, f64),
    /// The best value before the recovery was divided out, ng/L; none where the recovery is 1.
    pub before_recovery_ng_l: Option<f64>,
    /// Mean of (mass − mean of the blanks)/volume over its bottles, ng/L: the plain subtraction, kept
    /// beside; none without blanks.
    pub plain_subtraction_ng_l: Option<f64>,
    /// Can it be told?
    pub identifiable: bool,
}

/// What the fit says of one bottle.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BottlePart {
    /// Its label.
    pub name: String,
    /// Fitted mass, pg.
    pub fitted_pg: f64,
    /// Part of the water, pg.
    pub water_pg: f64,
    /// Part of each source, pg.
    pub sources_pg: Vec<f64>,
    /// The water's share, 0 to 1; none for a blank.
    pub water_share: Option<f64>,
    /// Its 95 % interval; none where the design does not give one.
    pub share_interval_95: Option<(f64, f64)>,
    /// Probability that the bottle is spiked.
    pub spike_probability: f64,
}

/// Sources that this set of bottles cannot tell apart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Confounded {
    /// Their names.
    pub sources: Vec<String>,
    /// Why, and which blank would tell them apart.
    pub sentence: String,
}

/// The fit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Attribution {
    /// Sources, in the order given.
    pub sources: Vec<SourceStrength>,
    /// Waters, in the order they first come up.
    pub waters: Vec<WaterStrength>,
    /// Bottles, in the order given.
    pub bottles: Vec<BottlePart>,
    /// What cannot be separated.
    pub cannot_separate: Vec<Confounded>,
    /// Standard deviation between bottles beyond their u, pg: the even part.
    pub between_bottles_pg: f64,
    /// The same as a share of what did not come with the water: the relative part.
    pub between_bottles_share: f64,
    /// Degrees of freedom of the intervals.
    pub dof: f64,
    /// Did the weights settle? Where not, intervals are good to two digits.
    pub converged: bool,
    /// Rounds of weighting that were made.
    pub rounds: usize,
}

impl Attribution {
    /// What to bear in mind about how the numbers came about: weights that did not settle.
    pub fn cautions(&self) -> Vec<Message> {
        let not_settled = || said::NotSettled { rounds: count(self.rounds) }.into();
        (!self.converged).then(not_settled).into_iter().collect()
    }
}

/// Fits a survey.
///
/// # Errors
/// [`Error::TooFew`] when there are not more bottles than unknowns, no blanks, or no bottles;
/// [`Error::OutOfRange`] for a volume, u, exposure or recovery that cannot be, a blank without any exposure, a
/// sample without water.
pub fn attribute(survey: &Survey) -> Result<Attribution, Error> {
    let waters = check(survey)?;
    let design = Design::new(survey, &waters);
    if survey.bottles.len() <= design.rank {
        let several = |n: usize, of: &str| format!("{n} {of}{}", if n == 1 { "" } else { "s" });
        return Err(Error::TooFew {
            what: "bottles".into(),
            have: survey.bottles.len(),
            need: design.rank + 1,
            hint: format!(
                "asked for are {} and {}: take more blanks, or join sources that always go together",
                several(survey.sources.len(), "source"),
                several(waters.len(), "water")
            ),
        }
        .saying(said::FewBottles {
            have: count(survey.bottles.len()),
            need: count(design.rank + 1),
            sources: count(survey.sources.len()),
            waters: count(waters.len()),
        }));
    }
    let fit = design.fit(survey, waters.len())?;
    Ok(report(survey, &waters, &design, &fit))
}

fn check(s: &Survey) -> Result<Vec<String>, Error> {
    if s.bottles.is_empty() || s.sources.is_empty() {
        return Err(Error::TooFew {
            what: "bottles and sources".into(),
            have: 0,
            need: 1,
            hint: "give the bottles of the trip and the sources asked about".into(),
        }
        .saying(said::NoBottles));
    }
    let blanks = s.bottles.iter().filter(|b| b.kind == Kind::Blank).count();
    if blanks == 0 {
        return Err(Error::TooFew {
            what: "blanks".into(),
            have: 0,
            need: 1,
            hint: "without a blank everything may be the water's".into(),
        }
        .saying(said::NoBlank));
    }
    if blanks < s.sources.len() {
        return Err(Error::TooFew {
            what: "blanks".into(),
            have: blanks,
            need: s.sources.len(),
            hint: format!(
                "{} sources are asked about: take a blank for each, or join sources that always go together",
                s.sources.len()
            ),
        }
        .saying(said::FewBlanks { have: count(blanks), need: count(s.sources.len()) }));
    }
    let (r, ur) = s.recovery;
    if !(r > 0.0 && r.is_finite() && ur >= 0.0 && ur < r) {
        return Err(Error::out_of_range("recovery", format!("{r} with u {ur}"), "above 0, with u under it"));
    }
    // From one half on, or no wider than the rest, spikes would be the ordinary law and not the exception.
    if !(s.spikes.rate >= 0.0 && s.spikes.rate < 0.5 && s.spikes.width > 1.0) {
        return Err(Error::out_of_range(
            "spikes",
            format!("rate {} width {}", s.spikes.rate, s.spikes.width),
            "a rate from 0 to under 0.5 and a width over 1",
        ));
    }
    let mut waters: Vec<String> = vec![];
    for b in &s.bottles {
        let what = |w: &str| format!("{w} of bottle {}", b.name);
        if !(b.volume_ml > 0.0 && b.volume_ml.is_finite()) {
            let volume = Shown::as_given(b.volume_ml, "mL");
            return Err(Error::out_of_range(what("volume"), format!("{} mL", b.volume_ml), "more than 0 mL")
                .saying(said::Volume { bottle: (&b.name).into(), volume }));
        }
        if !(b.mass_pg.is_finite() && b.u_pg > 0.0 && b.u_pg.is_finite()) {
            return Err(Error::out_of_range(
                what("mass"),
                format!("{} pg with u {}", b.mass_pg, b.u_pg),
                "the net mass, negative or not, with u above 0; a non-detect enters as its net value with u",
            )
            .saying(said::Mass {
                bottle: (&b.name).into(),
                mass: Shown::as_given(b.mass_pg, "pg"),
                u: Shown::as_given(b.u_pg, ""),
            }));
        }
        if b.exposures.len() != s.sources.len() {
            return Err(Error::out_of_range(
                what("exposures"),
                b.exposures.len(),
                format!("{}, one a source", s.sources.len()),
            ));
        }
        if let Some((x, name)) = b.exposures.iter().zip(&s.sources).find(|(x, _)| !x.is_finite() || **x < 0.0) {
            return Err(Error::out_of_range(what(name), x, "0 or more"));
        }
        if b.kind == Kind::Blank && b.water.is_none() && b.exposures.iter().all(|x| *x == 0.0) {
            return Err(Error::out_of_range(
                what("exposures"),
                "all 0",
                "at least one: a blank that met nothing says nothing; note its acid, days and openings",
            ));
        }
        match (&b.water, b.kind) {
            (Some(w), _) if !waters.contains(w) => waters.push(w.clone()),
            (None, Kind::Sample) => return Err(Error::out_of_range(what("water"), "none", "the name of the well")),
            _ => {}
        }
    }
    Ok(waters)
}

/// The design: columns are waters (litres), then sources (exposures), scaled to unit length.
pub(crate) struct Design {
    /// Bottles by columns.
    pub(crate) x: DMatrix<f64>,
    scale: Vec<f64>,
    /// Directions that the bottles can tell.
    pub(crate) rank: usize,
    /// Null directions in scaled units.
    null: Vec<DVector<f64>>,
}

/// A column combination under this share of the largest singular value is no direction: exposures are noted
/// to three or four digits.
const SINGULAR: f64 = 1e-6;

impl Design {
    pub(crate) fn new(s: &Survey, waters: &[String]) -> Self {
        let (n, w, k) = (s.bottles.len(), waters.len(), s.sources.len());
        let mut x = DMatrix::<f64>::zeros(n, w + k);
        for (i, b) in s.bottles.iter().enumerate() {
            if let Some(j) = waters.iter().position(|w| Some(w) == b.water.as_ref()) {
                x[(i, j)] = b.volume_ml * 1e-3;
            }
            for (j, e) in b.exposures.iter().enumerate() {
                x[(i, w + j)] = *e;
            }
        }
        let scale: Vec<f64> =
            (0..w + k).map(|j| Some(x.column(j).norm()).filter(|n| *n > 0.0).unwrap_or(1.0)).collect();
        for (j, c) in scale.iter().enumerate() {
            x.column_mut(j).scale_mut(1.0 / c);
        }
        // Eigenvectors of XᵀX: small, symmetric, the square of the singular values.
        let eigen = (x.transpose() * &x).symmetric_eigen();
        let top = eigen.eigenvalues.iter().copied().fold(0.0, f64::max);
        let small = |v: f64| v <= SINGULAR * SINGULAR * top;
        let null: Vec<DVector<f64>> = (0..w + k)
            .filter(|j| small(eigen.eigenvalues[*j]))
            .map(|j| eigen.eigenvectors.column(j).into_owned())
            .collect();
        Self { rank: w + k - null.len(), x, scale, null }
    }

    fn columns(&self) -> usize {
        self.scale.len()
    }

    /// Is a column free of every null direction? A thousandth of a unit vector is rounding and noting.
    fn identifiable(&self, j: usize) -> bool {
        self.null.iter().all(|v| v[j].abs() < 1e-3)
    }
}

/// A fit in scaled units.
struct Fitted {
    /// Non-negative best values.
    best: Vec<f64>,
    /// Plain values (least norm along null directions).
    plain: DVector<f64>,
    /// Covariance of the plain values.
    covariance: DMatrix<f64>,
    between: Between,
    dof: f64,
    spike: Vec<f64>,
    /// Final weights.
    weights: Vec<f64>,
    /// Misfit that an unidentifiable source may use up.
    ss: f64,
    /// Did weights and shape of the variance settle?
    converged: bool,
    rounds: usize,
}

/// Rounds of weighting, at most: a slow mixture then moves in the third digit, and that is told.
const ROUNDS: usize = 60;

impl Design {
    fn fit(&self, s: &Survey, waters: usize) -> Result<Fitted, Error> {
        let (n, p) = (s.bottles.len(), self.columns());
        let y: Vec<f64> = s.bottles.iter().map(|b| b.mass_pg / s.recovery.0).collect();
        let u2: Vec<f64> = s.bottles.iter().map(|b| (b.u_pg / s.recovery.0).powi(2)).collect();
        let mut clean = vec![1.0; n];
        // Variance between bottles, bottle by bottle; even at first.
        let mut between = Between { even: start_tau2(&y, &u2), share: 0.0 };
        let mut extra = vec![between.even; n];
        let mut solver = Nnls::new(p);
        let mut best = vec![0.0; p];
        let (mut settled, mut level_found, mut rounds) = (false, true, 0);
        while !settled && rounds < ROUNDS {
            rounds += 1;
            self.solve(&weights(&u2, &extra, &clean), &y, &mut solver, &mut best)?;
            let residuals = self.residuals(&y, &best);
            let other = self.other(waters, &best);
            let free = solver.free().iter().filter(|f| **f).count() as f64;
            let errors = Errors { u2: &u2, extra: &extra, clean: &clean };
            let next_between;
            (next_between, level_found) = between_bottles(&residuals, &errors, &other, free);
            extra = other.iter().map(|h| next_between.even + next_between.share * h * h).collect();
            let next = clean_probability(&residuals, &u2, &extra, s.spikes, self.rank as f64 / n as f64);
            let change = next.iter().zip(&clean).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
            let moved = (next_between.even - between.even).abs() <= 1e-6 * (between.even + u2[0])
                && (next_between.share - between.share).abs() <= 1e-6 * (between.share + 1e-3);
            (clean, between) = (next, next_between);
            settled = change < 1e-6 && moved && rounds > 1;
        }
        let weights = weights(&u2, &extra, &clean);
        self.solve(&weights, &y, &mut solver, &mut best)?;
        let (plain, covariance, ss) = self.plain(&weights, &y);
        let dof = (clean.iter().sum::<f64>() - self.rank as f64).max(1.0);
        Ok(Fitted {
            best,
            plain,
            covariance,
            between,
            dof,
            spike: clean.iter().map(|c| 1.0 - c).collect(),
            weights,
            ss,
            converged: settled && level_found,
            rounds,
        })
    }

    fn solve(&self, weights: &[f64], y: &[f64], solver: &mut Nnls, best: &mut [f64]) -> Result<(), Error> {
        let (n, p) = (y.len(), self.columns());
        let root: Vec<f64> = weights.iter().map(|w| w.sqrt()).collect();
        let mut columns = Vec::with_capacity(n * p);
        for j in 0..p {
            columns.extend(self.x.column(j).iter().zip(&root).map(|(x, w)| x * w));
        }
        let b: Vec<f64> = y.iter().zip(&root).map(|(y, w)| y * w).collect();
        let mut atb = vec![0.0; p];
        project(&columns, &b, &mut atb);
        solver.solve(&gram(&columns, p), &atb, best)
    }

    fn residuals(&self, y: &[f64], beta: &[f64]) -> Vec<f64> {
        (0..y.len()).map(|i| y[i] - (0..self.columns()).map(|j| self.x[(i, j)] * beta[j]).sum::<f64>()).collect()
    }

    /// Mass that did not come with the water, by the fit.
    fn other(&self, waters: usize, beta: &[f64]) -> Vec<f64> {
        (0..self.x.nrows()).map(|i| (waters..self.columns()).map(|j| self.x[(i, j)] * beta[j]).sum()).collect()
    }

    /// The fit without the bound: values, covariance, weighted squares. Each variance is the larger of the model's and
    /// the sandwich of the residuals over one minus leverage (HC3).
    fn plain(&self, weights: &[f64], y: &[f64]) -> (DVector<f64>, DMatrix<f64>, f64) {
        let (n, p) = (y.len(), self.columns());
        let w = DMatrix::from_fn(n, p, |i, j| weights[i].sqrt() * self.x[(i, j)]);
        let b = DVector::from_fn(n, |i, _| weights[i].sqrt() * y[i]);
        let model = pseudo_inverse(w.transpose() * &w);
        let beta = &model * (w.transpose() * &b);
        let r = b - &w * &beta;
        let hat = &w * &model;
        let mut sandwich = vec![0.0; p];
        for i in 0..n {
            // A bottle that alone decides something has no residual to speak of.
            let leverage = hat.row(i).dot(&w.row(i)).min(0.9);
            let e = r[i] / (1.0 - leverage);
            for (s, h) in sandwich.iter_mut().zip(hat.row(i).iter()) {
                *s += (h * e).powi(2);
            }
        }
        // The larger of the two variances, with the model's correlations.
        let up: Vec<f64> = (0..p).map(|j| (sandwich[j] / model[(j, j)].max(1e-300)).max(1.0).sqrt()).collect();
        let covariance = DMatrix::from_fn(p, p, |i, j| model[(i, j)] * up[i] * up[j]);
        (beta, covariance, r.dot(&r))
    }
}

/// Variance between bottles beyond their u.
#[derive(Clone, Copy)]
struct Between {
    /// The same for all, pg².
    even: f64,
    /// Relative, of the mass that did not come with the water.
    share: f64,
}

/// What is known of the errors in one round.
struct Errors<'a> {
    /// Variance of each bottle's measurement.
    u2: &'a [f64],
    /// Variance between bottles, last round.
    extra: &'a [f64],
    /// Probability that each is no spike.
    clean: &'a [f64],
}

/// Weight of a bottle: that of a clean one times the probability that it is clean; a spike tells nothing.
fn weights(u2: &[f64], extra: &[f64], clean: &[f64]) -> Vec<f64> {
    (u2.iter().zip(extra).zip(clean)).map(|((u, e), c)| c.max(1e-9) / (u + e)).collect()
}

/// Variance between bottles: its shape (even, or as the square of what did not come with the water) by
/// non-negative least squares on the squared residuals, its level where the weighted squares equal
/// their number less the rank; none where the u of the bottles explain all. The second: shape and level were found.
fn between_bottles(residuals: &[f64], e: &Errors, other: &[f64], free: f64) -> (Between, bool) {
    let (u2, clean) = (e.u2, e.clean);
    // Bottles that count as clean.
    let n = clean.iter().sum::<f64>();
    let target = (n - free).max(1.0);
    let squares: Vec<f64> = residuals.iter().zip(clean).map(|(r, c)| r * r * c).collect();
    let sum = |shape: &dyn Fn(usize) -> f64, k: f64| -> f64 {
        (0..squares.len()).map(|i| squares[i] / (u2[i] + k * shape(i))).sum()
    };
    if sum(&|_| 0.0, 0.0) <= target {
        return (Between { even: 0.0, share: 0.0 }, true);
    }
    let (shape, shape_found) = variance_shape(&squares, n / target, e, other);
    let at = |i: usize| shape.even + shape.share * other[i] * other[i];
    let (mut low, mut high) = (0.0, 1.0);
    while sum(&at, high) > target && high < 1e12 {
        high *= 4.0;
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if sum(&at, middle) > target {
            low = middle;
        } else {
            high = middle;
        }
    }
    let k = 0.5 * (low + high);
    (Between { even: k * shape.even, share: k * shape.share }, shape_found && sum(&at, high) <= target)
}

/// Non-negative fit of squared residuals (less u²) by a constant and the square of the other mass; a squared
/// normal residual has variance 2σ⁴, so σ⁻⁴ weighs it.
fn variance_shape(squares: &[f64], enlarge: f64, e: &Errors, other: &[f64]) -> (Between, bool) {
    let (mut g, mut b) = ([0.0; 3], [0.0; 2]);
    for i in 0..squares.len() {
        let w = e.clean[i] / (e.u2[i] + e.extra[i]).powi(2);
        let (h, v) = (other[i] * other[i], squares[i] * enlarge - e.u2[i]);
        g[0] += w;
        g[1] += w * h;
        g[2] += w * h * h;
        b[0] += w * v;
        b[1] += w * h * v;
    }
    let mut x = [0.0; 2];
    let fitted = Nnls::new(2).solve(&[g[0], g[1], g[1], g[2]], &b, &mut x);
    if fitted.is_err() || x[0] + x[1] <= 0.0 {
        return (Between { even: 1.0, share: 0.0 }, fitted.is_ok());
    }
    (Between { even: x[0], share: x[1] }, true)
}

/// A first τ²: the square of half the median distance from the median of all masses (robust, and too large, so the
/// higher of two medians).
fn start_tau2(y: &[f64], u2: &[f64]) -> f64 {
    let high = |v: &[f64]| median_high(v).expect("a fit has bottles");
    let m = high(y);
    let distances: Vec<f64> = y.iter().map(|v| (v - m).abs()).collect();
    let spread = high(&distances);
    (0.25 * spread * spread).max(high(u2))
}

/// Probability that each bottle is clean, by the two-part mixture; residuals are enlarged by the average
/// freedom that the fit took from them.
fn clean_probability(residuals: &[f64], u2: &[f64], extra: &[f64], spikes: Spikes, used: f64) -> Vec<f64> {
    let free = (1.0 - used).max(0.2);
    residuals
        .iter()
        .zip(u2.iter().zip(extra))
        .map(|(r, (u, e))| {
            let z2 = r * r / (u + e) / free;
            let core = (1.0 - spikes.rate) * libm::exp(-0.5 * z2);
            let wide = spikes.rate / spikes.width * libm::exp(-0.5 * z2 / (spikes.width * spikes.width));
            // So far out that both densities are nought in double precision: no clean bottle.
            if core + wide > 0.0 { core / (core + wide) } else { 0.0 }
        })
        .collect()
}

/// Inverse of a symmetric matrix on its range.
pub(crate) fn pseudo_inverse(m: DMatrix<f64>) -> DMatrix<f64> {
    let n = m.nrows();
    let eigen = m.symmetric_eigen();
    let top = eigen.eigenvalues.iter().copied().fold(0.0, f64::max);
    let mut out = DMatrix::<f64>::zeros(n, n);
    for (j, value) in eigen.eigenvalues.iter().enumerate() {
        if *value > SINGULAR * SINGULAR * top {
            let v = eigen.eigenvectors.column(j);
            out += v * v.transpose() / *value;
        }
    }
    out
}

fn report(s: &Survey, waters: &[String], d: &Design, f: &Fitted) -> Attribution {
    let w = waters.len();
    let t = t::quantile(0.975, f.dof);
    let relative_r2 = (s.recovery.1 / s.recovery.0).powi(2);
    let strength = |j: usize| -> (f64, f64, f64, (f64, f64)) {
        let (best, plain) = (f.best[j] / d.scale[j], f.plain[j] / d.scale[j]);
        let u = (f.covariance[(j, j)] / (d.scale[j] * d.scale[j]) + plain * plain * relative_r2).sqrt();
        let interval =
            if d.identifiable(j) { on_positive(plain, best, t * u) } else { (0.0, most(d, f, j, t) / d.scale[j]) };
        (best, plain, u, interval)
    };
    let sources = (s.sources.iter().enumerate())
        .map(|(k, name)| {
            let (best, plain, u, interval_95) = strength(w + k);
            let identifiable = d.identifiable(w + k);
            SourceStrength {
                name: name.clone(),
                per_unit_pg: best,
                plain_pg: identifiable.then_some(plain),
                u_pg: identifiable.then_some(u),
                interval_95,
                identifiable,
            }
        })
        .collect();
    let waters_out = (waters.iter().enumerate())
        .map(|(j, name)| {
            // pg/L to ng/L.
            let (best, _, u, i) = strength(j);
            let identifiable = d.identifiable(j);
            WaterStrength {
                name: name.clone(),
                ng_l: best * 1e-3,
                u_ng_l: identifiable.then_some(u * 1e-3),
                interval_95: (i.0 * 1e-3, i.1 * 1e-3),
                before_recovery_ng_l: (s.recovery.0 != 1.0).then_some(best * 1e-3 * s.recovery.0),
                plain_subtraction_ng_l: plain_subtraction(s, name),
                identifiable,
            }
        })
        .collect();
    Attribution {
        sources,
        waters: waters_out,
        bottles: (0..s.bottles.len()).map(|i| bottle_part(s, w, d, f, i)).collect(),
        cannot_separate: confounded(s, waters, d),
        between_bottles_pg: f.between.even.sqrt() * s.recovery.0,
        between_bottles_share: f.between.share.sqrt(),
        dof: f.dof,
        converged: f.converged,
        rounds: f.rounds,
    }
}

/// Student's interval read on values of zero and up, and never without the best allowed value.
fn on_positive(plain: f64, best: f64, reach: f64) -> (f64, f64) {
    let low = (plain - reach).max(0.0);
    let high = (plain + reach).max(best);
    (low.min(best), high.max(0.0))
}

/// The most that a source which cannot be told apart may give: the largest value at which the other sources
/// (none negative) still fit as well as Student's limit allows. Bisection on the non-negative fit.
fn most(d: &Design, f: &Fitted, j: usize, t: f64) -> f64 {
    let (n, p) = (f.weights.len(), d.columns());
    let fitted: Vec<f64> = (0..n).map(|i| (0..p).map(|k| d.x[(i, k)] * f.best[k]).sum()).collect();
    let others: Vec<usize> = (0..p).filter(|k| *k != j).collect();
    let mut solver = Nnls::new(p - 1);
    let mut beta = vec![0.0; p - 1];
    // Misfit against the fitted masses themselves: zero at the best fit.
    let mut misfit = |value: f64| -> f64 {
        let mut columns = Vec::with_capacity(n * (p - 1));
        for k in &others {
            columns.extend(d.x.column(*k).iter().zip(&f.weights).map(|(x, w)| x * w.sqrt()));
        }
        let b: Vec<f64> = (0..n).map(|i| f.weights[i].sqrt() * (fitted[i] - value * d.x[(i, j)])).collect();
        let mut atb = vec![0.0; p - 1];
        project(&columns, &b, &mut atb);
        if solver.solve(&gram(&columns, p - 1), &atb, &mut beta).is_err() {
            return f64::INFINITY;
        }
        b.iter()
            .enumerate()
            .map(|(i, b)| (b - (0..p - 1).map(|k| columns[k * n + i] * beta[k]).sum::<f64>()).powi(2))
            .sum()
    };
    let allowed = t * t;
    let mut high = f.best[j].max(f.ss.sqrt()).max(1e-12);
    for _ in 0..60 {
        if misfit(high) > allowed {
            break;
        }
        high *= 2.0;
    }
    let mut low = f.best[j];
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if misfit(middle) > allowed {
            high = middle;
        } else {
            low = middle;
        }
    }
    low
}

fn plain_subtraction(s: &Survey, water: &str) -> Option<f64> {
    let blanks: Vec<f64> = (s.bottles.iter())
        .filter(|b| b.kind == Kind::Blank && b.water.as_deref() != Some(water))
        .map(|b| b.mass_pg)
        .collect();
    let net: Vec<f64> = {
        let mean = blanks.iter().sum::<f64>() / blanks.len() as f64;
        (s.bottles.iter())
            .filter(|b| b.kind == Kind::Sample && b.water.as_deref() == Some(water))
            .map(|b| (b.mass_pg - mean) / b.volume_ml / s.recovery.0)
            .collect()
    };
    (!blanks.is_empty() && !net.is_empty()).then(|| net.iter().sum::<f64>() / net.len() as f64)
}

fn bottle_part(s: &Survey, w: usize, d: &Design, f: &Fitted, i: usize) -> BottlePart {
    let b = &s.bottles[i];
    let p = d.columns();
    let part = |j: usize| d.x[(i, j)] * f.best[j];
    let water_pg: f64 = (0..w).map(part).sum();
    let sources_pg: Vec<f64> = (w..p).map(part).collect();
    let other: f64 = sources_pg.iter().sum();
    let share = (b.kind == Kind::Sample && water_pg + other > 0.0).then(|| water_pg / (water_pg + other));
    BottlePart {
        name: b.name.clone(),
        fitted_pg: (water_pg + other) * s.recovery.0,
        water_pg,
        sources_pg,
        water_share: share,
        share_interval_95: share.and_then(|_| share_interval(w, d, f, i)),
        spike_probability: f.spike[i],
    }
}

/// Fieller's interval of the share: gross and blank part of one bottle, with their covariance in the fit.
fn share_interval(w: usize, d: &Design, f: &Fitted, i: usize) -> Option<(f64, f64)> {
    let p = d.columns();
    // A part that lies along a direction which cannot be told has no interval.
    let row = |from: usize| DVector::from_fn(p, |j, _| if j >= from { d.x[(i, j)] } else { 0.0 });
    let (all, blank) = (row(0), row(w));
    if d.null.iter().any(|v| v.dot(&blank).abs() > 1e-3 * blank.norm()) {
        return None;
    }
    let best = DVector::from_column_slice(&f.best);
    let cov = |a: &DVector<f64>, b: &DVector<f64>| (a.transpose() * &f.covariance * b)[(0, 0)];
    let measured =
        |v: &DVector<f64>| Measured::with_dof(v.dot(&best), cov(v, v).max(0.0).sqrt(), f.dof, Unit::known("pg"));
    let (gross, part) = (measured(&all), measured(&blank));
    let most = gross.u * part.u;
    let covariance = cov(&all, &blank).clamp(-most, most);
    water_share(&GrossAndBlank { gross, blank: part, covariance }, 0.95).ok().map(|s| s.interval)
}

/// The null directions in words.
fn confounded(s: &Survey, waters: &[String], d: &Design) -> Vec<Confounded> {
    let name = |j: usize| {
        if j < waters.len() { format!("the water of {}", waters[j]) } else { s.sources[j - waters.len()].clone() }
    };
    // Directions of one multiple singular value mix: reduce them to few names each.
    let mut rows = echelon(&d.null);
    rows.sort_by_key(Vec::len);
    rows.into_iter()
        .map(|members| {
            let names: Vec<String> = members.iter().map(|j| name(*j)).collect();
            let sentence = if names.len() == 1 {
                format!("No bottle was exposed to {}: nothing can be said of it; take one blank that is.", names[0])
            } else {
                format!(
                    "{} rose and fell together in every bottle and cannot be told apart: take one blank that has {} without {}.",
                    names.join(", "),
                    names[0],
                    names[1..].join(" or ")
                )
            };
            Confounded { sources: names, sentence }
        })
        .collect()
}

/// Row-reduces null vectors; gives the members of each.
fn echelon(null: &[DVector<f64>]) -> Vec<Vec<usize>> {
    let mut rows: Vec<DVector<f64>> = null.to_vec();
    let p = rows.first().map_or(0, DVector::len);
    let mut done = 0;
    for column in 0..p {
        let Some(best) = (done..rows.len()).max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))
        else {
            break;
        };
        if rows[best][column].abs() < 1e-6 {
            continue;
        }
        rows.swap(done, best);
        let pivot = rows[done].clone() / rows[done][column];
        for (i, r) in rows.iter_mut().enumerate() {
            if i != done {
                let k = r[column];
                *r -= &pivot * k;
            }
        }
        rows[done] = pivot;
        done += 1;
    }
    rows.iter().map(|r| (0..p).filter(|j| r[*j].abs() > 1e-3 * r.amax()).collect()).collect()
}
