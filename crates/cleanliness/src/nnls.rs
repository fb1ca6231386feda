//! Least squares with nothing negative: min ‖A·x − b‖², x ≥ 0, from AᵀA and Aᵀb.
//!
//! In: the Gram matrix (row by row, symmetric), made once for a design, and Aᵀb of each fit. Out: x, and
//! which entries are free. Method: the plain solution first; where it is not all positive, what is not
//! is dropped, and the active set of Lawson & Hanson 1974 (Solving Least Squares Problems, ch. 23) goes on from there with
//! Cholesky's factor of the free part. A variable that depends on those already free (pivot under 1e-12 of its diagonal) stays at zero.
//! No allocation after the workspace is made. Checked against scipy in `tests/validation_attribution.rs`.

use crate::Error;

/// Workspace for fits with one Gram matrix size.
#[derive(Debug, Clone)]
pub struct Nnls {
    n: usize,
    factor: Vec<f64>,
    free: Vec<usize>,
    is_free: Vec<bool>,
    solution: Vec<f64>,
    barred: Vec<bool>,
    solved: bool,
}

/// A pivot under this share of its diagonal is no new direction: about √(rounding) squared.
const LEAST_PIVOT: f64 = 1e-12;

impl Nnls {
    /// A workspace for n unknowns.
    pub fn new(n: usize) -> Self {
        Self {
            n,
            factor: vec![0.0; n * n],
            free: Vec::with_capacity(n),
            is_free: vec![false; n],
            solution: vec![0.0; n],
            barred: vec![false; n],
            solved: false,
        }
    }

    /// Which unknowns are free (above zero) after the last fit.
    pub fn free(&self) -> &[bool] {
        &self.is_free
    }

    /// Solves for x. `gram` holds n·n numbers, `atb` and `x` n.
    ///
    /// # Errors
    /// [`Error::NotConverged`] when the set of free unknowns does not settle in 10·n changes.
    ///
    /// # Panics
    /// When the lengths do not fit.
    pub fn solve(&mut self, gram: &[f64], atb: &[f64], x: &mut [f64]) -> Result<(), Error> {
        let n = self.n;
        assert!(gram.len() == n * n && atb.len() == n && x.len() == n, "lengths fit the workspace");
        self.free.clear();
        self.free.extend(0..n);
        self.is_free.fill(true);
        self.solved = self.solve_free(gram, atb);
        if self.solved && self.solution[..n].iter().all(|v| *v > 0.0) {
            x.copy_from_slice(&self.solution);
            return Ok(());
        }
        self.active_set(gram, atb, x)
    }

    fn active_set(&mut self, gram: &[f64], atb: &[f64], x: &mut [f64]) -> Result<(), Error> {
        let n = self.n;
        self.positive_start(gram, atb, x);
        let scale = atb.iter().fold(0.0f64, |a, b| a.max(b.abs()));
        self.barred.fill(false);
        for _ in 0..10 * n + 10 {
            let Some(enter) = self.steepest(gram, atb, x, scale) else {
                return Ok(());
            };
            self.free.push(enter);
            self.is_free[enter] = true;
            if !self.solve_free(gram, atb) || self.solution[self.free.len() - 1] <= 0.0 {
                // Depends on the free ones, or enters on rounding alone.
                self.free.pop();
                self.is_free[enter] = false;
                self.barred[enter] = true;
                continue;
            }
            self.barred.fill(false);
            while !self.step_inside(x) {
                if !self.solve_free(gram, atb) {
                    break;
                }
            }
        }
        Err(Error::NotConverged { what: "non-negative least squares".into(), iterations: 10 * n + 10, residual: scale })
    }

    /// A start from the plain solution: what is not positive is dropped until the rest is; nothing free where the
    /// plain solution does not exist.
    fn positive_start(&mut self, gram: &[f64], atb: &[f64], x: &mut [f64]) {
        let mut solved = self.free.len() == self.n && self.solved;
        while solved && self.solution[..self.free.len()].iter().any(|v| *v <= 0.0) {
            let solution = &self.solution;
            let mut k = 0;
            self.free.retain(|_| {
                k += 1;
                solution[k - 1] > 0.0
            });
            solved = self.solve_free(gram, atb);
        }
        if !solved {
            self.free.clear();
        }
        x.fill(0.0);
        self.is_free.fill(false);
        for (k, j) in self.free.iter().enumerate() {
            x[*j] = self.solution[k];
            self.is_free[*j] = true;
        }
    }

    /// The unknown at zero along which the misfit falls fastest.
    fn steepest(&self, gram: &[f64], atb: &[f64], x: &[f64], scale: f64) -> Option<usize> {
        let n = self.n;
        let mut best = None;
        let mut most = 1e-13 * scale;
        for j in 0..n {
            if self.is_free[j] || self.barred[j] {
                continue;
            }
            let row = &gram[j * n..(j + 1) * n];
            let w = atb[j] - self.free.iter().map(|k| row[*k] * x[*k]).sum::<f64>();
            if w > most {
                most = w;
                best = Some(j);
            }
        }
        best
    }

    /// Moves x to the solution of the free part, or as far as nothing goes negative; true when it got there.
    fn step_inside(&mut self, x: &mut [f64]) -> bool {
        let mut part = 1.0;
        for (k, j) in self.free.iter().enumerate() {
            let s = self.solution[k];
            if s <= 0.0 {
                part = f64::min(part, x[*j] / (x[*j] - s));
            }
        }
        for (k, j) in self.free.iter().enumerate() {
            x[*j] += part * (self.solution[k] - x[*j]);
        }
        if part >= 1.0 {
            return true;
        }
        let is_free = &mut self.is_free;
        self.free.retain(|j| {
            let keep = x[*j] > 1e-15;
            if !keep {
                x[*j] = 0.0;
                is_free[*j] = false;
            }
            keep
        });
        false
    }

    /// Cholesky's factor of the free part and its solution; false when a pivot vanishes.
    fn solve_free(&mut self, gram: &[f64], atb: &[f64]) -> bool {
        let (n, m) = (self.n, self.free.len());
        for a in 0..m {
            let ja = self.free[a];
            let (above, here) = self.factor.split_at_mut(a * n);
            let here = &mut here[..=a];
            for b in 0..a {
                let row = &above[b * n..=b * n + b];
                let s: f64 = here[..b].iter().zip(row).map(|(x, y)| x * y).sum();
                // The diagonal of the factor holds its inverse: a product in place of a division.
                here[b] = (gram[ja * n + self.free[b]] - s) * row[b];
            }
            let s: f64 = here[..a].iter().map(|x| x * x).sum();
            let pivot = gram[ja * n + ja] - s;
            if pivot <= LEAST_PIVOT * gram[ja * n + ja] {
                return false;
            }
            here[a] = 1.0 / pivot.sqrt();
            let s: f64 = here[..a].iter().zip(&self.solution).map(|(x, y)| x * y).sum();
            self.solution[a] = (atb[ja] - s) * here[a];
        }
        for a in (0..m).rev() {
            let v = self.solution[a] * self.factor[a * n + a];
            self.solution[a] = v;
            for c in 0..a {
                self.solution[c] -= self.factor[a * n + c] * v;
            }
        }
        true
    }
}

/// AᵀA of a matrix given column after column, `columns` of them.
pub fn gram(a: &[f64], columns: usize) -> Vec<f64> {
    let mut g = vec![0.0; columns * columns];
    let rows = a.len() / columns.max(1);
    let column = |j: usize| &a[j * rows..(j + 1) * rows];
    for i in 0..columns {
        for j in 0..=i {
            let d = dot(column(i), column(j));
            g[i * columns + j] = d;
            g[j * columns + i] = d;
        }
    }
    g
}

/// Aᵀb into `out`; the matrix column after column.
pub fn project(a: &[f64], b: &[f64], out: &mut [f64]) {
    for (o, column) in out.iter_mut().zip(a.chunks_exact(b.len())) {
        *o = dot(column, b);
    }
}

/// Sum of products in eight strands: the same order on any machine, and room for the processor to run ahead.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut s = [0.0; 8];
    let (a8, b8) = (a.chunks_exact(8), b.chunks_exact(8));
    let rest: f64 = a8.remainder().iter().zip(b8.remainder()).map(|(x, y)| x * y).sum();
    for (x, y) in a8.zip(b8) {
        for k in 0..8 {
            s[k] += x[k] * y[k];
        }
    }
    ((s[0] + s[4]) + (s[1] + s[5])) + ((s[2] + s[6]) + (s[3] + s[7])) + rest
}
