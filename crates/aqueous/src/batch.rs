//! Many waters of one kind at once: Monte Carlo draws, survey rows.
//!
//! In: a [`System`] and, for each water, pH, totals (or alkalinity), ln K. Out: ln activities,
//! ionic strength, iterations and residual of each, in order, the same on any number of threads
//! (blocks of eight are fixed, a finished lane stands still). Same equations and tolerance as
//! `solver`; Newton in eight lanes, structure of arrays. The matrix Σ ν·ν·m is symmetric and
//! sparse (metals meet through ligands only), so its LDLᵀ factors are laid out once, in an order
//! of least degree; ln I and, with alkalinity, carbonate stand in a border. A lane that does not
//! converge in 40 steps is handed to `solver`. Nothing is allocated in the iteration.
//! pH from charge and held phases are not for here. Checked in `tests/batch.rs`, timed in
//! `bench/speciation`.

#![allow(
    clippy::needless_range_loop,
    reason = "a plain loop over lanes is what compilers turn into vector instructions"
)]
#![allow(clippy::inline_always, reason = "the lane functions are a few instructions each, inside the innermost loops")]

use crate::activity::Class;
use crate::error::Error;
use crate::lanes::{self, LANES, Lane};
use crate::network::PROTON;
use crate::solver::{Balance, Equations, Solution, System, TOLERANCE};
use crate::water::DebyeHueckel;
use core::f64::consts::LN_10;
use rayon::prelude::*;

/// One water of the batch.
#[derive(Debug, Clone, PartialEq)]
pub struct Water {
    /// ln activity of H+.
    pub ln_h: f64,
    /// Totals in the order of the system (mol/kg); that of H+ is not read, that of carbonate is
    /// not read when `alkalinity` is given.
    pub totals: Vec<f64>,
    /// Alkalinity, eq/kg.
    pub alkalinity: Option<f64>,
    /// ln K of formation, one a species.
    pub ln_k: Vec<f64>,
    /// Debye–Hückel parameters.
    pub dh: DebyeHueckel,
}

/// The answer for one water.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// ln activity of each component.
    pub x: Vec<f64>,
    /// mol/kg.
    pub ionic_strength: f64,
    /// Newton iterations.
    pub iterations: usize,
    /// Largest relative residual.
    pub residual: f64,
}

/// The layout of one kind of water.
#[derive(Debug)]
pub struct Batch<'a> {
    system: &'a System,
    carbon: Option<usize>,
    /// Component at each place of the elimination order; borders are not in it.
    order: Vec<usize>,
    /// Place of a component, or `NONE`.
    place: Vec<usize>,
    /// Components in the border (carbonate with alkalinity); ln I stands after them.
    border: Vec<usize>,
    /// Repeated component indices: m = K'·Π a over these.
    factor_start: Vec<u32>,
    factors: Vec<u32>,
    /// Where each pair of a species' terms adds into the packed matrix, with ν·ν.
    pair_start: Vec<u32>,
    pairs: Vec<(u32, f64)>,
    /// Terms on border components and sums, as (component, count).
    proton: Vec<f64>,
    /// Packed lower triangle: index of (row, column), and its elimination program.
    diagonal: Vec<u32>,
    below: Vec<Vec<(u32, u32)>>,
    updates: Vec<Vec<(u32, u32, u32)>>,
    packed: usize,
    class_of: Vec<u32>,
}

const NONE: usize = usize::MAX;
const MOST_STEPS: usize = 40;
const SWEEPS: usize = 2;

impl<'a> Batch<'a> {
    /// Lays out a system. `carbon` is the position whose balance alkalinity replaces, if any.
    pub fn new(system: &'a System, carbon: Option<usize>) -> Self {
        let width = system.width();
        let species = system.species.len();
        let border: Vec<usize> = carbon.into_iter().collect();
        // pH is given here, so H+ is no unknown: `load` puts it into K'.
        let inner: Vec<usize> = (0..width).filter(|c| *c != PROTON && !border.contains(c)).collect();
        let mut joined = vec![vec![false; width]; width];
        for i in 0..species {
            let t: Vec<usize> = system.terms(i).map(|(c, _)| c).filter(|c| inner.contains(c)).collect();
            for a in &t {
                for b in &t {
                    joined[*a][*b] = true;
                }
            }
        }
        let order = least_degree(&inner, &mut joined);
        let mut place = vec![NONE; width];
        for (k, c) in order.iter().enumerate() {
            place[*c] = k;
        }
        let n = order.len();
        // Packed after the order is found: `joined` then holds the places that elimination fills as well.
        let mut index = vec![vec![u32::MAX; n]; n];
        let mut packed = 0;
        for r in 0..n {
            for c in 0..=r {
                if r == c || joined[order[r]][order[c]] {
                    index[r][c] = packed;
                    packed += 1;
                }
            }
        }
        let mut b = Self {
            system,
            carbon,
            place,
            border,
            factor_start: vec![0],
            factors: vec![],
            pair_start: vec![0],
            pairs: vec![],
            proton: vec![0.0; species],
            diagonal: (0..n).map(|k| index[k][k]).collect(),
            below: vec![],
            updates: vec![],
            packed: packed as usize,
            class_of: system.class_table().1.to_vec(),
            order,
        };
        b.program(&index);
        b.species_layout(&index);
        b
    }

    fn program(&mut self, index: &[Vec<u32>]) {
        let n = self.order.len();
        for k in 0..n {
            let rows: Vec<usize> = (k + 1..n).filter(|r| index[*r][k] != u32::MAX).collect();
            self.below.push(rows.iter().map(|r| (*r as u32, index[*r][k])).collect());
            let mut u = Vec::new();
            for (p, r) in rows.iter().enumerate() {
                for c in &rows[..=p] {
                    u.push((index[*r][*c], index[*r][k], index[*c][k]));
                }
            }
            self.updates.push(u);
        }
    }

    fn species_layout(&mut self, index: &[Vec<u32>]) {
        for i in 0..self.system.species.len() {
            let terms: Vec<(usize, f64)> = self.system.terms(i).collect();
            for (c, n) in &terms {
                if *c == PROTON {
                    self.proton[i] = *n;
                } else {
                    for _ in 0..*n as usize {
                        self.factors.push(*c as u32);
                    }
                }
            }
            self.factor_start.push(self.factors.len() as u32);
            let inner: Vec<(usize, f64)> =
                terms.iter().filter(|(c, _)| self.place[*c] != NONE).map(|(c, n)| (self.place[*c], *n)).collect();
            for (a, na) in &inner {
                for (b, nb) in inner.iter().filter(|(b, _)| b <= a) {
                    self.pairs.push((index[*a][*b], na * nb));
                }
            }
            self.pair_start.push(self.pairs.len() as u32);
        }
    }

    /// Additions, multiplications and divisions for one water: in one Newton iteration, and beside
    /// the iterations (loading and the sweeps of the first guess). For the bound that benchmarks state.
    pub fn operations(&self) -> (usize, usize) {
        let species = self.system.species.len();
        let width = self.system.width();
        let (classes, _) = self.system.class_table();
        let inner = self.order.len();
        let borders = self.border.len() + 1;
        // exp: 12 polynomial steps of 2, reduction and scaling 12; ln: 9 steps of 2 and 14.
        let (exp, ln) = (36, 32);
        let evaluate = (width + classes.len() + 1) * exp + classes.len() * 20 + species + 2 * self.factors.len();
        let border = species + self.factors.len() * (1 + 2 * borders);
        let updates: usize = self.updates.iter().map(Vec::len).sum();
        let below: usize = self.below.iter().map(Vec::len).sum();
        let solve = inner + updates * 3 + (1 + borders) * (inner + below * 5);
        let ends = inner * (ln + 6) + species * (4 + 4 * borders) + ln;
        let step = inner * borders * (2 + 2 * borders) + inner * (2 * borders + 4);
        let iteration = evaluate + 2 * self.pairs.len() + border + solve + ends + step;
        let beside = species * (exp + 2) + SWEEPS * (evaluate + inner * (ln + 3));
        (iteration, beside)
    }

    /// Solves `count` waters; `fill` states the water of an index.
    ///
    /// # Errors
    /// Each water has its own: those of [`Equations::solve`] where the batch had to hand it over.
    pub fn solve(&self, count: usize, fill: impl Fn(usize, &mut Water) + Sync) -> Vec<Result<Answer, Error>> {
        let blocks = count.div_ceil(LANES);
        let mut out: Vec<Vec<Result<Answer, Error>>> = Vec::new();
        (0..blocks)
            .into_par_iter()
            .map_init(
                || Block::new(self),
                |block, b| {
                    let first = b * LANES;
                    let lanes = LANES.min(count - first);
                    block.load(self, first, lanes, &fill);
                    block.iterate(self);
                    (0..lanes).map(|l| block.answer(self, l)).collect::<Vec<_>>()
                },
            )
            .collect_into_vec(&mut out);
        out.into_iter().flatten().collect()
    }
}

/// Order of elimination: always the component that meets fewest others; `joined` gains the fill.
fn least_degree(inner: &[usize], joined: &mut [Vec<bool>]) -> Vec<usize> {
    let mut left: Vec<usize> = inner.to_vec();
    let mut order = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let degree = |c: &usize| left.iter().filter(|d| joined[*c][**d]).count();
        let at = (0..left.len()).min_by_key(|k| (degree(&left[*k]), left[*k])).unwrap_or(0);
        let c = left.remove(at);
        let near: Vec<usize> = left.iter().copied().filter(|d| joined[c][*d]).collect();
        for a in &near {
            for b in &near {
                joined[*a][*b] = true;
            }
        }
        order.push(c);
    }
    order
}

/// Buffers of one block of eight waters.
struct Block {
    waters: Vec<Water>,
    x: Vec<Lane>,
    ln_i: Lane,
    k: Vec<Lane>,
    total: Vec<Lane>,
    activity: Vec<Lane>,
    m: Vec<Lane>,
    sum: Vec<Lane>,
    matrix: Vec<Lane>,
    inverse_gamma: Vec<Lane>,
    slope: Vec<Lane>,
    /// Right-hand sides: residual, then one a border column.
    rhs: Vec<Vec<Lane>>,
    /// Σ ν·m·(coefficient) of each component for each border row.
    rows: Vec<Vec<Lane>>,
    steps: [usize; LANES],
    worst: Lane,
    done: [bool; LANES],
}

const ZERO: Lane = [0.0; LANES];
/// Most border unknowns: carbonate and ln I.
const BORDERS: usize = 2;
type Corner = [[Lane; BORDERS]; BORDERS];

impl Block {
    fn new(b: &Batch) -> Self {
        let (s, w) = (b.system.species.len(), b.system.width());
        let classes = b.system.class_table().0.len();
        let borders = b.border.len() + 1;
        let empty = Water {
            ln_h: 0.0,
            totals: vec![0.0; w],
            alkalinity: None,
            ln_k: vec![0.0; s],
            dh: DebyeHueckel { a: 0.0, b: 0.0 },
        };
        Self {
            waters: vec![empty; LANES],
            x: vec![ZERO; w],
            ln_i: ZERO,
            k: vec![ZERO; s],
            total: vec![ZERO; w],
            activity: vec![ZERO; w],
            m: vec![ZERO; s],
            sum: vec![ZERO; w],
            matrix: vec![ZERO; b.packed],
            inverse_gamma: vec![ZERO; classes],
            slope: vec![ZERO; classes],
            rhs: vec![vec![ZERO; b.order.len()]; 1 + borders],
            rows: vec![vec![ZERO; w]; borders],
            steps: [0; LANES],
            worst: ZERO,
            done: [false; LANES],
        }
    }

    fn load(&mut self, b: &Batch, first: usize, lanes: usize, fill: &impl Fn(usize, &mut Water)) {
        for l in 0..LANES {
            // A block that is not full repeats its last water.
            fill(first + l.min(lanes - 1), &mut self.waters[l]);
            let w = &self.waters[l];
            let mut ionic = 1e-7 + 0.5 * libm::exp(w.ln_h);
            for (c, t) in w.totals.iter().enumerate() {
                let z = b.system.component_charge(c);
                self.total[c][l] = *t;
                if Some(c) == b.carbon {
                    let a = w.alkalinity.unwrap_or(*t).abs().max(1e-12);
                    self.total[c][l] = w.alkalinity.unwrap_or(*t);
                    ionic += 0.5 * a;
                    // HCO3− = alkalinity; pK2 10.33 (Plummer & Busenberg 1982).
                    self.x[c][l] = libm::log(a) - (10.33 * LN_10 + w.ln_h).max(0.0);
                } else if c != PROTON {
                    ionic += 0.5 * z * z * t;
                    self.x[c][l] = libm::log(t.max(1e-300));
                }
            }
            self.x[PROTON][l] = w.ln_h;
            self.ln_i[l] = libm::log(ionic.min(0.4));
            self.steps[l] = 0;
            self.done[l] = false;
            for (i, k) in self.k.iter_mut().enumerate() {
                k[l] = w.ln_k[i] + b.proton[i] * w.ln_h;
            }
        }
        for k in &mut self.k {
            *k = lanes::exp(k);
        }
    }

    fn gamma(&mut self, b: &Batch) {
        let ionic = lanes::exp(&self.ln_i);
        let (classes, _) = b.system.class_table();
        for (k, class) in classes.iter().enumerate() {
            let (mut g, mut d) = (ZERO, ZERO);
            for l in 0..LANES {
                let dh = self.waters[l].dh;
                let i = ionic[l];
                let s = i.sqrt();
                let (lg, slope) = match *class {
                    Class::One => (0.0, 0.0),
                    Class::Neutral => Class::Neutral.log_gamma(dh, i),
                    Class::Davies(z2) => {
                        let q = 1.0 + s;
                        (-dh.a * z2 * (s / q - 0.3 * i), -dh.a * z2 * (0.5 / (s * q * q) - 0.3))
                    }
                    Class::Extended { z2, a_angstrom, b } => {
                        let q = 1.0 + dh.b * a_angstrom * s;
                        (-dh.a * z2 * s / q + b * i, -dh.a * z2 * 0.5 / (s * q * q) + b)
                    }
                };
                g[l] = -lg * LN_10;
                d[l] = slope * LN_10 * i;
            }
            self.inverse_gamma[k] = lanes::exp(&g);
            self.slope[k] = d;
        }
    }

    /// Molalities and sums; with `full`, the matrix and the borders too.
    fn evaluate(&mut self, b: &Batch, full: bool) {
        self.gamma(b);
        for (a, x) in self.activity.iter_mut().zip(&self.x) {
            *a = lanes::exp(x);
        }
        self.sum.fill(ZERO);
        if full {
            self.matrix.fill(ZERO);
            for r in &mut self.rows {
                r.fill(ZERO);
            }
            for r in &mut self.rhs {
                r.fill(ZERO);
            }
        }
        for i in 0..self.k.len() {
            let mut m = self.k[i];
            times(&mut m, &self.inverse_gamma[b.class_of[i] as usize]);
            let factors = &b.factors[b.factor_start[i] as usize..b.factor_start[i + 1] as usize];
            // Counts are small whole numbers: products cost less than an exponential for each species.
            for f in factors {
                times(&mut m, &self.activity[*f as usize]);
            }
            self.m[i] = m;
            for f in factors {
                plus(&mut self.sum[*f as usize], &m);
            }
            if full {
                for (at, n) in &b.pairs[b.pair_start[i] as usize..b.pair_start[i + 1] as usize] {
                    plus_times(&mut self.matrix[*at as usize], &m, *n);
                }
                self.borders(b, i, &m, factors);
            }
        }
    }

    /// Columns of ln I (and carbonate) and their rows.
    fn borders(&mut self, b: &Batch, i: usize, m: &Lane, factors: &[u32]) {
        let slope = &self.slope[b.class_of[i] as usize];
        let mut by_i = ZERO;
        for l in 0..LANES {
            by_i[l] = -m[l] * slope[l];
        }
        // Rows of ln I and alkalinity differ from their columns: inside the matrix they would cost its symmetry.
        let last = b.border.len();
        let z = b.system.charges()[i];
        let half_z2 = 0.5 * z * z;
        for f in factors {
            let p = b.place[*f as usize];
            if p != NONE {
                plus(&mut self.rhs[1 + last][p], &by_i);
                if half_z2 != 0.0 {
                    plus_times(&mut self.rows[last][*f as usize], m, half_z2);
                }
            } else if half_z2 != 0.0 {
                plus_times(&mut self.rows[last][*f as usize], m, half_z2);
            }
        }
        let Some(c) = b.carbon else { return };
        let n = factors.iter().filter(|f| **f as usize == c).count() as f64;
        let alkalinity = b.system.alkalinities()[i];
        for f in factors {
            let p = b.place[*f as usize];
            if p != NONE && n != 0.0 {
                plus_times(&mut self.rhs[1][p], m, n);
            }
            if alkalinity != 0.0 {
                plus_times(&mut self.rows[0][*f as usize], m, alkalinity);
            }
        }
    }

    fn iterate(&mut self, b: &Batch) {
        for _ in 0..SWEEPS {
            self.evaluate(b, false);
            for c in 1..self.x.len() {
                if b.place[c] != NONE {
                    let f = self.log_ratio(c);
                    for l in 0..LANES {
                        self.x[c][l] -= 0.7 * f[l].clamp(-40.0, 40.0);
                    }
                }
            }
        }
        for _ in 0..MOST_STEPS {
            self.evaluate(b, true);
            let (corner, ends) = self.ends(b);
            for l in 0..LANES {
                if self.worst[l] <= TOLERANCE * 0.5 {
                    self.done[l] = true;
                }
            }
            if self.done.iter().all(|d| *d) {
                return;
            }
            self.factorise(b);
            self.step(b, &corner, &ends);
        }
    }

    fn log_ratio(&self, c: usize) -> Lane {
        let mut r = ZERO;
        for l in 0..LANES {
            r[l] = (self.sum[c][l] / self.total[c][l]).max(1e-290);
        }
        lanes::ln(&r)
    }

    /// Residuals: right-hand sides of the inner rows, and of the border rows with their corner.
    fn ends(&mut self, b: &Batch) -> (Corner, [Lane; BORDERS]) {
        self.worst = ZERO;
        for (p, c) in b.order.iter().enumerate() {
            let f = self.log_ratio(*c);
            for l in 0..LANES {
                // f = ln(Σ/T) as in `solver`; times Σ, so that the rows become Σ ν·ν·m and symmetric.
                self.rhs[0][p][l] = -f[l] * self.sum[*c][l];
                self.worst[l] = worse(self.worst[l], (self.sum[*c][l] - self.total[*c][l]).abs() / self.sum[*c][l]);
            }
        }
        let borders = b.border.len() + 1;
        let last = borders - 1;
        let mut corner = [[ZERO; BORDERS]; BORDERS];
        let mut ends = [ZERO; BORDERS];
        let mut ionic = ZERO;
        let (mut alk_sum, mut alk_size) = (ZERO, ZERO);
        for (i, m) in self.m.iter().enumerate() {
            let slope = &self.slope[b.class_of[i] as usize];
            let z = b.system.charges()[i];
            let a = b.system.alkalinities()[i];
            for l in 0..LANES {
                let part = 0.5 * z * z * m[l];
                ionic[l] += part;
                corner[last][last][l] -= part * slope[l];
                if last == 1 && a != 0.0 {
                    alk_sum[l] += a * m[l];
                    alk_size[l] += a.abs() * m[l];
                    corner[0][1][l] -= a * m[l] * slope[l];
                }
            }
        }
        let ln_ionic = lanes::ln(&ionic);
        for l in 0..LANES {
            corner[last][last][l] -= ionic[l];
            let f = ln_ionic[l] - self.ln_i[l];
            ends[last][l] = -ionic[l] * f;
            self.worst[l] = worse(self.worst[l], f.abs());
        }
        if let Some(c) = b.carbon {
            for l in 0..LANES {
                corner[0][0][l] = self.rows[0][c][l];
                corner[1][0][l] = self.rows[1][c][l];
                let r = alk_sum[l] - self.total[c][l];
                ends[0][l] = -r;
                self.worst[l] = worse(self.worst[l], r.abs() / alk_size[l]);
            }
        }
        (corner, ends)
    }

    /// LDLᵀ in place along the program of the layout, right-hand sides with it.
    fn factorise(&mut self, b: &Batch) {
        let n = b.order.len();
        for k in 0..n {
            // No pivoting: a sum of m·ν·νᵀ is positive definite, so the order can be laid out once.
            let mut d = self.matrix[b.diagonal[k] as usize];
            for v in &mut d {
                *v = 1.0 / *v;
            }
            for (to, r, c) in &b.updates[k] {
                let (x, y) = (self.matrix[*r as usize], self.matrix[*c as usize]);
                let t = &mut self.matrix[*to as usize];
                for l in 0..LANES {
                    t[l] -= x[l] * y[l] * d[l];
                }
            }
            for rhs in &mut self.rhs {
                let mut top = rhs[k];
                times(&mut top, &d);
                for (r, at) in &b.below[k] {
                    let f = &self.matrix[*at as usize];
                    let t = &mut rhs[*r as usize];
                    for l in 0..LANES {
                        t[l] -= f[l] * top[l];
                    }
                }
                rhs[k] = top;
            }
            self.matrix[b.diagonal[k] as usize] = d;
        }
        for k in (0..n).rev() {
            let d = self.matrix[b.diagonal[k] as usize];
            for rhs in &mut self.rhs {
                let mut v = rhs[k];
                for (r, at) in &b.below[k] {
                    let f = &self.matrix[*at as usize];
                    let x = &rhs[*r as usize];
                    for l in 0..LANES {
                        v[l] -= f[l] * x[l] * d[l];
                    }
                }
                rhs[k] = v;
            }
        }
    }

    /// Border unknowns by their Schur complement, then the step of all.
    fn step(&mut self, b: &Batch, corner: &Corner, ends: &[Lane; BORDERS]) {
        let borders = b.border.len() + 1;
        let mut schur = *corner;
        let mut right = *ends;
        for r in 0..borders {
            for (p, c) in b.order.iter().enumerate() {
                let row = &self.rows[r][*c];
                for l in 0..LANES {
                    right[r][l] -= row[l] * self.rhs[0][p][l];
                }
                for (k, s) in schur[r].iter_mut().enumerate().take(borders) {
                    for l in 0..LANES {
                        s[l] -= row[l] * self.rhs[1 + k][p][l];
                    }
                }
            }
        }
        let mut border = [ZERO; BORDERS];
        for l in 0..LANES {
            if borders == 1 {
                border[0][l] = right[0][l] / schur[0][0][l];
            } else {
                let det = schur[0][0][l] * schur[1][1][l] - schur[0][1][l] * schur[1][0][l];
                border[0][l] = (right[0][l] * schur[1][1][l] - schur[0][1][l] * right[1][l]) / det;
                border[1][l] = (schur[0][0][l] * right[1][l] - schur[1][0][l] * right[0][l]) / det;
            }
        }
        let mut largest = ZERO;
        for p in 0..b.order.len() {
            for l in 0..LANES {
                let mut v = self.rhs[0][p][l];
                for (k, u) in border.iter().enumerate().take(borders) {
                    v -= self.rhs[1 + k][p][l] * u[l];
                }
                self.rhs[0][p][l] = v;
                largest[l] = worse(largest[l], v.abs());
            }
        }
        let last = borders - 1;
        for l in 0..LANES {
            if self.done[l] {
                continue;
            }
            self.steps[l] += 1;
            let carbon = if last == 1 { border[0][l].abs() } else { 0.0 };
            // Steps of at most 8 in ln a and 2 in ln I: farther than that the tangent knows nothing.
            let t = 1.0_f64.min(8.0 / worse(largest[l], carbon)).min(2.0 / border[last][l].abs());
            for (p, c) in b.order.iter().enumerate() {
                self.x[*c][l] = (self.x[*c][l] + t * self.rhs[0][p][l]).clamp(-650.0, 5.0);
            }
            if let Some(c) = b.carbon {
                self.x[c][l] = (self.x[c][l] + t * border[0][l]).clamp(-650.0, 5.0);
            }
            self.ln_i[l] = (self.ln_i[l] + t * border[last][l]).min(1.1);
        }
    }

    fn answer(&self, b: &Batch, l: usize) -> Result<Answer, Error> {
        let ionic = libm::exp(self.ln_i[l]);
        if self.done[l] && ionic <= crate::activity::LARGEST_IONIC_STRENGTH {
            return Ok(Answer {
                x: self.x.iter().map(|x| x[l]).collect(),
                ionic_strength: ionic,
                iterations: self.steps[l],
                residual: self.worst[l],
            });
        }
        hand_over(b, &self.waters[l]).map(|s| Answer {
            x: s.x,
            ionic_strength: s.ionic_strength,
            iterations: MOST_STEPS + s.iterations,
            residual: s.residual,
        })
    }
}

/// The same water with the solver that never gives up so soon.
fn hand_over(b: &Batch, w: &Water) -> Result<Solution, Error> {
    let mut balance: Vec<Balance> = w.totals.iter().map(|t| Balance::Total(*t)).collect();
    balance[PROTON] = Balance::FixedLnActivity(w.ln_h);
    if let (Some(c), Some(a)) = (b.carbon, w.alkalinity) {
        balance[c] = Balance::Alkalinity(a);
    }
    Equations { system: b.system, ln_k: &w.ln_k, dh: w.dh, balance, held: vec![] }.solve()
}

/// Maximum that lets a NaN through.
#[inline(always)]
fn worse(a: f64, b: f64) -> f64 {
    if b <= a { a } else { b }
}

#[inline(always)]
fn times(a: &mut Lane, b: &Lane) {
    for l in 0..LANES {
        a[l] *= b[l];
    }
}

#[inline(always)]
fn plus(a: &mut Lane, b: &Lane) {
    for l in 0..LANES {
        a[l] += b[l];
    }
}

#[inline(always)]
fn plus_times(a: &mut Lane, b: &Lane, n: f64) {
    for l in 0..LANES {
        a[l] += n * b[l];
    }
}
