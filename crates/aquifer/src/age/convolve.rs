//! What a model makes of the past: C(ts) = ∫0..∞ Cin(ts − τ)·g(τ)·exp(−λτ) dτ.
//!
//! In: the input in pieces ([`Pieces`]), a model, λ in 1/years. Out: the concentration at sampling in the unit of the
//! input. Piston, exponential, exponential-piston and partial-exponential models are integrated exactly over each piece
//! (linear, or linear in the logarithm); dispersion by adaptive quadrature in ln τ (15-point Gauss–Kronrod; Piessens et
//! al. 1983, QUADPACK; nodes from memory, checked by integrating polynomials), and ∫g over the same nodes has to be 1
//! within 1e-6. What lies beyond a tail of 1e-9 of g is left out. Checked in `tests/age_models.rs` against scipy.

use super::history::Pieces;
use super::models::{Kernel, Model};
use crate::Reason;
use message::age as said;

/// ln of the weight that is left out in the tail, 1e-9.
const TAIL: f64 = 20.723_265_836_946_41;
/// Largest part that the integral of g may differ from 1.
const WEIGHT: f64 = 1e-6;
/// Absolute error asked of a stretch, as a part of the largest input.
const TOLERANCE: f64 = 1e-10;
/// Halvings of a stretch before it is given up: 2^-30 of a stretch is beyond any input's detail.
const HALVINGS: usize = 30;

/// C at sampling.
///
/// # Errors
/// [`Reason`]: a parameter that cannot be, or a quadrature that did not reach its tolerance.
///
/// ```
/// use aquifer::age::{Model, Pieces, convolve};
/// // Half the water dead: half the tracer is left, whatever the age of the rest.
/// let young = Model::Exponential { mean: 25.0 };
/// let mixed = Model::Mixture { share: 0.5, first: young.clone().into(), second: None };
/// let rain = Pieces::constant(8.0);
/// let (all, half) = (convolve(&rain, &young, 0.0563).unwrap(), convolve(&rain, &mixed, 0.0563).unwrap());
/// assert!((half - 0.5 * all).abs() < 1e-12);
/// ```
pub fn convolve(input: &Pieces, model: &Model, lambda: f64) -> Result<f64, Reason> {
    model.check()?;
    match model {
        Model::Piston { mean } => Ok(input.at(*mean) * libm::exp(-lambda * mean)),
        Model::Dispersion { mean, d } => dispersion(input, *mean, *d, lambda),
        Model::Mixture { share, first, second } => {
            let of = |m: &Model| convolve(input, m, lambda);
            let old = second.as_ref().map_or(Ok(0.0), |s| of(s))?;
            Ok(share * of(first)? + (1.0 - share) * old)
        }
        other => Ok(other.kernel().map_or(0.0, |k| exponential(input, &k, lambda))),
    }
}

/// Exactly, over each piece that meets the kernel.
fn exponential(input: &Pieces, k: &Kernel, lambda: f64) -> f64 {
    let rate = 1.0 / k.scale + lambda;
    let until = k.to.min(k.from + TAIL * k.scale);
    let first = input.0.partition_point(|p| p.to <= k.from);
    let mut sum = 0.0;
    for p in &input.0[first..] {
        let (a, b) = (p.from.max(k.from), p.to.min(until));
        if a >= b {
            break;
        }
        let h = b - a;
        let weight = libm::exp(-(a - k.from) / k.scale - lambda * a);
        let part = if p.ln {
            let growth = libm::log(p.end / p.start) / (p.to - p.from);
            p.at(a) * h * mean_of_exponential((rate - growth) * h)
        } else {
            let slope = if p.to.is_finite() { (p.end - p.start) / (p.to - p.from) } else { 0.0 };
            p.at(a) * h * mean_of_exponential(rate * h) + slope * h * h * moment_of_exponential(rate * h)
        };
        sum += weight * part;
    }
    k.weight / k.scale * sum
}

/// ∫0..1 exp(−z·x) dx.
fn mean_of_exponential(z: f64) -> f64 {
    if z.abs() < 1e-8 { 1.0 - 0.5 * z } else { -libm::expm1(-z) / z }
}

/// ∫0..1 x·exp(−z·x) dx; a series where the closed form would lose its digits.
fn moment_of_exponential(z: f64) -> f64 {
    if z.abs() < 0.02 {
        0.5 - z / 3.0 + z * z / 8.0 - z.powi(3) / 30.0 + z.powi(4) / 144.0 - z.powi(5) / 840.0
    } else {
        (1.0 - (1.0 + z) * libm::exp(-z)) / (z * z)
    }
}

/// By quadrature over the pieces that meet the body of g.
fn dispersion(input: &Pieces, mean: f64, d: f64, lambda: f64) -> Result<f64, Reason> {
    let largest = input.0.iter().map(|p| p.start.abs().max(p.end.abs())).fold(f64::MIN_POSITIVE, f64::max);
    let factors = |k: usize, tau: f64| [input.0[k].at(tau) * libm::exp(-lambda * tau), 1.0];
    Ok(weighted(input, mean, d, [TOLERANCE * largest, TOLERANCE], &factors)?[0])
}

/// ∫ g·f for several functions f of (piece, τ), all with the joints of one input; the last of them has to be 1.
pub(super) fn weighted<const N: usize>(
    input: &Pieces,
    mean: f64,
    d: f64,
    allowed: [f64; N],
    factors: &impl Fn(usize, f64) -> [f64; N],
) -> Result<[f64; N], Reason> {
    // Where the exponent of g is 30, g is below 1e-13 of its peak: (1 − x)² = 120·D·x.
    let middle = 1.0 + 60.0 * d;
    let high = middle + (middle * middle - 1.0).sqrt();
    let (from, to) = (mean / high, mean * high);
    let model = Model::Dispersion { mean, d };
    let mut sums = [0.0; N];
    for (k, p) in input.0.iter().enumerate() {
        let (a, b) = (p.from.max(from), p.to.min(to));
        if a >= b {
            continue;
        }
        let f = |v: f64| {
            let tau = libm::exp(v);
            let g = tau * model.density(tau).unwrap_or(0.0);
            factors(k, tau).map(|x| g * x)
        };
        let part = adaptive(&f, libm::log(a), libm::log(b), allowed, HALVINGS)?;
        (0..N).for_each(|i| sums[i] += part[i]);
    }
    let off = sums[N - 1] - 1.0;
    if off.abs() > WEIGHT { Err(not_converged(off)) } else { Ok(sums) }
}

fn not_converged(residual: f64) -> Reason {
    Reason::NotConverged { what: said::WeightingFunction.into(), iterations: HALVINGS, residual }
}

// Nodes and weights of the 15-point Kronrod rule and of the 7-point Gauss rule within it (QUADPACK qk15; from memory,
// checked in the tests by polynomials of degree 22 and 13).
const NODES: [f64; 8] = [
    0.991_455_371_120_812_6,
    0.949_107_912_342_758_5,
    0.864_864_423_359_769_1,
    0.741_531_185_599_394_4,
    0.586_087_235_467_691_1,
    0.405_845_151_377_397_2,
    0.207_784_955_007_898_5,
    0.0,
];
const KRONROD: [f64; 8] = [
    0.022_935_322_010_529_22,
    0.063_092_092_629_978_55,
    0.104_790_010_322_250_2,
    0.140_653_259_715_525_9,
    0.169_004_726_639_267_9,
    0.190_350_578_064_785_4,
    0.204_432_940_075_298_9,
    0.209_482_141_084_727_8,
];
const GAUSS: [f64; 4] =
    [0.129_484_966_168_869_7, 0.279_705_391_489_276_7, 0.381_830_050_505_118_9, 0.417_959_183_673_469_4];

/// Integrals of several functions over one stretch, halved until both rules agree on each.
fn adaptive<const N: usize>(
    f: &impl Fn(f64) -> [f64; N],
    a: f64,
    b: f64,
    allowed: [f64; N],
    halvings: usize,
) -> Result<[f64; N], Reason> {
    let (middle, half) = (0.5 * (a + b), 0.5 * (b - a));
    let (mut kronrod, mut gauss) = ([0.0; N], [0.0; N]);
    for (k, x) in NODES.iter().enumerate() {
        let right = f(middle + half * x);
        let left = if *x == 0.0 { [0.0; N] } else { f(middle - half * x) };
        for i in 0..N {
            kronrod[i] += half * KRONROD[k] * (right[i] + left[i]);
            if k % 2 == 1 {
                gauss[i] += half * GAUSS[k / 2] * (right[i] + left[i]);
            }
        }
    }
    if (0..N).all(|i| (kronrod[i] - gauss[i]).abs() <= allowed[i]) {
        return Ok(kronrod);
    }
    if halvings == 0 {
        return Err(not_converged(kronrod[N - 1] - gauss[N - 1]));
    }
    let allowed = allowed.map(|x| 0.5 * x);
    let left = adaptive(f, a, middle, allowed, halvings - 1)?;
    let mut both = adaptive(f, middle, b, allowed, halvings - 1)?;
    (0..N).for_each(|i| both[i] += left[i]);
    Ok(both)
}
