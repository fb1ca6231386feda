//! Random draws of the inputs, the same on every machine and number of threads.
//!
//! Draws come in blocks of [`BLOCK`]; block k has the k-th stream of ChaCha8 under the seed, so a
//! block's draws depend on seed and k alone. Normal draws: the ziggurat of Marsaglia & Tsang
//! (2000, J. Stat. Softw. 5:8) with 512 layers and separate bits for layer and place (Doornik
//! 2005), 48 bits a draw: exact to a grain of 1e-11, tables by libm. Gamma (for t and counts): Marsaglia & Tsang (2000, ACM
//! TOMS 26:363). Poisson: Hörmann's transformed rejection (1993, Insur. Math. Econ. 12:39), and
//! inversion under 10. Checked in `tests/uncertainty.rs` by moments and tails.

use super::input::{Distribution, Input, correlation_root};
use crate::error::Error;
use crate::expression::LANES;
use rand::rngs::ChaCha8Rng;
use rand::{Rng, SeedableRng};
use std::sync::OnceLock;

/// Draws of one stream.
pub(super) const BLOCK: usize = 10_000;

/// Layers of the ziggurat: 0.6 % of draws need more than a table.
const LAYERS: usize = 512;
/// Bytes of one draw: 9 bits for the layer, 39 for the place in it.
const BYTES: usize = 6;
/// 2^−63: a signed place, shifted to the top of 64 bits, to [−1, 1).
const TO_SIGNED: f64 = 1.0 / 9_223_372_036_854_775_808.0;
/// 2^−53: 53-bit integers to [0, 1).
const TO_UNIT: f64 = 1.0 / 9_007_199_254_740_992.0;

struct Ziggurat {
    /// Where the tail begins.
    tail: f64,
    /// Layer widths times 2^−63.
    step: [f64; LAYERS],
    /// The next layer's width: inside it a draw is accepted at once.
    inside: [f64; LAYERS],
    /// exp(−x²/2) at the widths.
    height: [f64; LAYERS + 1],
}

fn ziggurat() -> &'static Ziggurat {
    static TABLES: OnceLock<Ziggurat> = OnceLock::new();
    TABLES.get_or_init(|| {
        let f = |x: f64| libm::exp(-0.5 * x * x);
        // The tail begins where the layers, piled up with equal areas, just reach the top.
        let (mut low, mut high) = (3.0, 5.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if widths(middle).1 > 1.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let (x, _) = widths(high);
        let mut z = Ziggurat { tail: high, step: [0.0; LAYERS], inside: [0.0; LAYERS], height: [0.0; LAYERS + 1] };
        for i in 0..LAYERS {
            z.step[i] = x[i] * TO_SIGNED;
            z.inside[i] = x[i + 1];
        }
        for (h, x) in z.height.iter_mut().zip(x) {
            *h = f(x);
        }
        z
    })
}

/// Layer widths for a tail that begins at `tail`, and the height that the pile reaches.
fn widths(tail: f64) -> ([f64; LAYERS + 1], f64) {
    let f = |x: f64| libm::exp(-0.5 * x * x);
    let two_pi = 2.0 * std::f64::consts::PI;
    // Area of each layer: that of the base with its tail.
    let area = tail * f(tail) + two_pi.sqrt() * statistics::normal::sf(tail);
    let mut x = [0.0; LAYERS + 1];
    x[0] = area / f(tail);
    x[1] = tail;
    for i in 2..LAYERS {
        let top = area / x[i - 1] + f(x[i - 1]);
        if top >= 1.0 {
            return (x, 2.0);
        }
        x[i] = (-2.0 * libm::log(top)).sqrt();
    }
    (x, area / x[LAYERS - 1] + f(x[LAYERS - 1]))
}

/// A stream of random numbers with the draws made of it.
pub(super) struct Stream {
    rng: ChaCha8Rng,
    tables: &'static Ziggurat,
    bytes: Vec<u8>,
}

impl Stream {
    pub(super) fn new(seed: u64) -> Self {
        Self { rng: ChaCha8Rng::seed_from_u64(seed), tables: ziggurat(), bytes: vec![0; 8 * LANES] }
    }

    /// To the start of a block's stream.
    pub(super) fn go_to(&mut self, block: u64) {
        self.rng.set_stream(block);
        self.rng.set_word_pos(0);
    }

    fn unit(&mut self) -> f64 {
        (self.rng.next_u64() >> 11) as f64 * TO_UNIT
    }

    /// In (0, 1]: a logarithm of it exists.
    fn positive_unit(&mut self) -> f64 {
        ((self.rng.next_u64() >> 11) + 1) as f64 * TO_UNIT
    }

    /// Uniform draws in [0, 1).
    fn uniforms(&mut self, out: &mut [f64]) {
        let bytes = &mut self.bytes[..8 * out.len()];
        self.rng.fill_bytes(bytes);
        for (o, b) in out.iter_mut().zip(bytes.as_chunks::<8>().0) {
            *o = (u64::from_le_bytes(*b) >> 11) as f64 * TO_UNIT;
        }
    }

    /// Draws m + s·z, z standard normal.
    fn normals(&mut self, m: f64, s: f64, out: &mut [f64]) {
        let n = out.len();
        let mut bytes = std::mem::take(&mut self.bytes);
        self.rng.fill_bytes(&mut bytes[..BYTES * n]);
        let tables = self.tables;
        for (o, b) in out.iter_mut().zip(bytes.as_chunks::<BYTES>().0) {
            let bits = u64::from_le_bytes([0, 0, b[0], b[1], b[2], b[3], b[4], b[5]]);
            let mut z = place(bits) * tables.step[layer(bits)];
            if z.abs() >= tables.inside[layer(bits)] {
                z = self.outside(bits);
            }
            *o = m + s * z;
        }
        self.bytes = bytes;
    }

    /// The rare part of the ziggurat: the edge of a layer, or the tail.
    #[cold]
    #[inline(never)]
    fn outside(&mut self, first: u64) -> f64 {
        let tables = self.tables;
        let mut bits = first;
        loop {
            let layer = layer(bits);
            let z = place(bits) * tables.step[layer];
            if z.abs() < tables.inside[layer] {
                return z;
            }
            if layer == 0 {
                return self.tail().copysign(z);
            }
            let (low, high) = (tables.height[layer], tables.height[layer + 1]);
            if low + (high - low) * self.unit() < libm::exp(-0.5 * z * z) {
                return z;
            }
            bits = self.rng.next_u64();
        }
    }

    /// Marsaglia's method for the tail.
    fn tail(&mut self) -> f64 {
        let start = self.tables.tail;
        loop {
            let x = -libm::log(self.positive_unit()) / start;
            let y = -libm::log(self.positive_unit());
            if 2.0 * y > x * x {
                return start + x;
            }
        }
    }

    fn normal(&mut self) -> f64 {
        let bits = self.rng.next_u64();
        self.outside(bits)
    }

    /// Gamma with shape ≥ 1 (smaller shapes through shape + 1).
    fn gamma(&mut self, shape: f64) -> f64 {
        if shape < 1.0 {
            let u = self.positive_unit();
            return self.gamma(shape + 1.0) * libm::pow(u, 1.0 / shape);
        }
        let d = shape - 1.0 / 3.0;
        let c = 1.0 / (9.0 * d).sqrt();
        loop {
            let z = self.normal();
            let v = 1.0 + c * z;
            if v <= 0.0 {
                continue;
            }
            let v = v * v * v;
            let u = self.positive_unit();
            let z2 = z * z;
            if u < 1.0 - 0.0331 * z2 * z2 || libm::log(u) < 0.5 * z2 + d * (1.0 - v + libm::log(v)) {
                return d * v;
            }
        }
    }

    fn poisson(&mut self, m: f64) -> f64 {
        if m < 10.0 {
            // Inversion: add up probabilities until the uniform is passed.
            let u = self.unit();
            let mut k = 0.0;
            let mut p = libm::exp(-m);
            let mut sum = p;
            while u >= sum && k < 200.0 {
                k += 1.0;
                p *= m / k;
                sum += p;
            }
            return k;
        }
        // Hörmann's PTRS.
        let b = 0.931 + 2.53 * m.sqrt();
        let a = -0.059 + 0.02483 * b;
        let inverse_alpha = 1.1239 + 1.1328 / (b - 3.4);
        let vr = 0.9277 - 3.6224 / (b - 2.0);
        loop {
            let u = self.unit() - 0.5;
            let v = self.positive_unit();
            let us = 0.5 - u.abs();
            let k = ((2.0 * a / us + b) * u + m + 0.43).floor();
            if us >= 0.07 && v <= vr {
                return k;
            }
            if k < 0.0 || (us < 0.013 && v > us) {
                continue;
            }
            let left = libm::log(v * inverse_alpha / (a / (us * us) + b));
            if left <= k * libm::log(m) - m - libm::lgamma(k + 1.0) {
                return k;
            }
        }
    }
}

/// The layer of a draw: nine bits below the place.
fn layer(bits: u64) -> usize {
    (bits >> 16) as usize % LAYERS
}

/// The place in the layer: the upper 39 bits, signed, in steps of 2^−63 of the width.
fn place(bits: u64) -> f64 {
    (bits.cast_signed() & !0x1ff_ffff) as f64
}

/// How one input is drawn.
#[derive(Debug, Clone, Copy)]
enum Recipe {
    Constant,
    Normal,
    /// Scale by √(ν/χ²(ν)).
    T(f64),
    Rectangular(f64),
    Triangular(f64),
    Arcsine(f64),
    Rounded(f64, f64),
    Poisson,
    Gamma,
    /// μ and σ of the logarithm.
    Lognormal(f64, f64),
    /// Drawn with its group.
    Grouped,
}

/// Correlated inputs, drawn together.
#[derive(Debug, Clone)]
struct Group {
    members: Vec<usize>,
    root: Vec<f64>,
    /// Degrees of freedom of a multivariate t; infinite for normal.
    dof: f64,
}

/// How all inputs are drawn.
#[derive(Debug, Clone)]
pub(super) struct Plan {
    recipes: Vec<(Recipe, f64, f64)>,
    groups: Vec<Group>,
    spares: usize,
}

impl Plan {
    pub(super) fn new(inputs: &[Input], correlation: Option<&[f64]>, groups: Vec<Vec<usize>>) -> Result<Self, Error> {
        let mut recipes: Vec<_> = inputs.iter().map(|i| (recipe(i), i.value, i.u)).collect();
        let mut made = Vec::new();
        for members in groups {
            for i in &members {
                recipes[*i].0 = Recipe::Grouped;
            }
            made.push(Group {
                dof: common_dof(inputs, &members)?,
                root: correlation_root(inputs.len(), correlation.expect("groups come from correlations"), &members),
                members,
            });
        }
        let spares = made.iter().map(|g| g.members.len()).max().unwrap_or(0) + 1;
        Ok(Self { recipes, groups: made, spares })
    }

    pub(super) fn inputs(&self) -> usize {
        self.recipes.len()
    }

    pub(super) fn spares(&self) -> usize {
        self.spares
    }

    /// Draws `n` ≤ [`LANES`] values of each input.
    pub(super) fn draw(&self, stream: &mut Stream, n: usize, out: &mut [[f64; LANES]], spare: &mut [[f64; LANES]]) {
        for ((recipe, m, s), lanes) in self.recipes.iter().zip(out.iter_mut()) {
            draw_one(*recipe, *m, *s, stream, &mut lanes[..n]);
        }
        for g in &self.groups {
            self.draw_group(g, stream, n, out, spare);
        }
    }

    fn draw_group(
        &self,
        g: &Group,
        stream: &mut Stream,
        n: usize,
        out: &mut [[f64; LANES]],
        spare: &mut [[f64; LANES]],
    ) {
        let k = g.members.len();
        let (z, scale) = spare.split_at_mut(k);
        for lanes in z.iter_mut() {
            stream.normals(0.0, 1.0, &mut lanes[..n]);
        }
        let scale = &mut scale[0][..n];
        // One χ² for the whole group makes it a multivariate t: hence `common_dof`.
        if g.dof.is_finite() {
            for s in scale.iter_mut() {
                *s = (0.5 * g.dof / stream.gamma(0.5 * g.dof)).sqrt();
            }
        } else {
            scale.fill(1.0);
        }
        for (row, i) in g.members.iter().enumerate() {
            let (_, m, s) = self.recipes[*i];
            for (lane, o) in out[*i][..n].iter_mut().enumerate() {
                let mut sum = 0.0;
                for (j, zj) in z.iter().enumerate() {
                    sum += g.root[row * k + j] * zj[lane];
                }
                *o = m + s * sum * scale[lane];
            }
        }
    }
}

fn recipe(i: &Input) -> Recipe {
    if i.u == 0.0 && !matches!(i.distribution, Distribution::RoundedRectangular { .. }) {
        return Recipe::Constant;
    }
    match i.distribution {
        Distribution::T if i.dof.is_finite() => Recipe::T(i.dof),
        Distribution::Normal | Distribution::T => Recipe::Normal,
        Distribution::Rectangular => Recipe::Rectangular(i.u * 3.0_f64.sqrt()),
        Distribution::Triangular => Recipe::Triangular(i.u * 6.0_f64.sqrt()),
        Distribution::Arcsine => Recipe::Arcsine(i.u * std::f64::consts::SQRT_2),
        Distribution::RoundedRectangular { half_width, end } => Recipe::Rounded(half_width, end),
        Distribution::Poisson => Recipe::Poisson,
        Distribution::Counts => Recipe::Gamma,
        Distribution::Lognormal => {
            let s2 = libm::log1p((i.u / i.value).powi(2));
            Recipe::Lognormal(libm::log(i.value) - 0.5 * s2, s2.sqrt())
        }
    }
}

fn draw_one(recipe: Recipe, m: f64, s: f64, stream: &mut Stream, out: &mut [f64]) {
    match recipe {
        Recipe::Grouped => {}
        Recipe::Constant => out.fill(m),
        Recipe::Normal => stream.normals(m, s, out),
        Recipe::T(dof) => {
            stream.normals(0.0, s, out);
            for o in out {
                *o = m + *o * (0.5 * dof / stream.gamma(0.5 * dof)).sqrt();
            }
        }
        Recipe::Rectangular(a) => {
            stream.uniforms(out);
            for o in out {
                *o = m + a * (2.0 * *o - 1.0);
            }
        }
        Recipe::Triangular(a) => {
            stream.uniforms(out);
            for o in out {
                *o = m + a * (*o + stream.unit() - 1.0);
            }
        }
        Recipe::Arcsine(a) => {
            stream.uniforms(out);
            for o in out {
                *o = m + a * libm::cos(std::f64::consts::PI * *o);
            }
        }
        Recipe::Rounded(a, d) => {
            stream.uniforms(out);
            for o in out {
                // JCGM 101 6.4.3.4, about the middle: the ends move against each other.
                let end = a + d * (1.0 - 2.0 * stream.unit());
                *o = m + end * (2.0 * *o - 1.0);
            }
        }
        Recipe::Poisson => out.iter_mut().for_each(|o| *o = stream.poisson(m)),
        Recipe::Gamma => out.iter_mut().for_each(|o| *o = stream.gamma(m)),
        Recipe::Lognormal(mu, sigma) => {
            stream.normals(mu, sigma, out);
            for o in out {
                *o = libm::exp(*o);
            }
        }
    }
}

/// Correlated inputs are drawn as multivariate normal or t; other shapes have no agreed joint
/// distribution.
fn common_dof(inputs: &[Input], members: &[usize]) -> Result<f64, Error> {
    let kind = |i: &usize| match inputs[*i].distribution {
        Distribution::Normal => Some(f64::INFINITY),
        Distribution::T => Some(inputs[*i].dof),
        _ => None,
    };
    let first = kind(&members[0]);
    if let Some(dof) = first
        && members.iter().all(|i| kind(i) == first)
    {
        return Ok(dof);
    }
    let names: Vec<_> = members.iter().map(|i| inputs[*i].name.as_str()).collect();
    Err(Error::Unsupported {
        what: format!(
            "{} are correlated: they can be drawn together only if all are normal, or all t with the same degrees of freedom; write what they share as an input of its own",
            names.join(", ")
        ),
    })
}
