//! Least squares with nothing negative: min ‖A·x − b‖², x ≥ 0, from AᵀA and Aᵀb.
//!
//! In: the Gram matrix (row by row, symmetric), made once for a design, and Aᵀb of each fit. Out: x, and
//! which entries are free. Method: the plain solution first; where it is not all positive, the active set
//! of Lawson & Hanson 1974 (Solving Least Squares Problems, ch. 23) with Cholesky's factor of the free
//! part. A variable that depends on those already free (pivot under 1e-12 of its diagonal) stays at zero.
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
        if self.solve_free(gram, atb) && self.solution[..n].iter().all(|v| *v > 0.0) {
            x.copy_from_slice(&self.solution);
            return Ok(());
        }
        self.active_set(gram, atb, x)
    }

    fn active_set(&mut self, gram: &[f64], atb: &[f64], x: &mut [f64]) -> Result<(), Error> {
        let n = self.n;
        self.free.clear();
        self.is_free.fill(false);
        x.fill(0.0);
        let scale = atb.iter().fold(0.0f64, |a, b| a.max(b.abs()));
        let mut barred = vec![false; n];
        for _ in 0..10 * n + 10 {
            let Some(enter) = self.steepest(gram, atb, x, scale, &barred) else {
                return Ok(());
            };
            self.free.push(enter);
            self.is_free[enter] = true;
            if !self.solve_free(gram, atb) || self.solution[self.free.len() - 1] <= 0.0 {
                // Depends on the free ones, or enters on rounding alone.
                self.free.pop();
                self.is_free[enter] = false;
                barred[enter] = true;
                continue;
            }
            barred.fill(false);
            while !self.step_inside(x) {
                if !self.solve_free(gram, atb) {
                    break;
                }
            }
        }
        Err(Error::NotConverged { what: "non-negative least squares".into(), iterations: 10 * n + 10, residual: scale })
    }

    /// The unknown at zero along which the misfit falls fastest.
    fn steepest(&self, gram: &[f64], atb: &[f64], x: &[f64], scale: f64, barred: &[bool]) -> Option<usize> {
        let n = self.n;
        let mut best = None;
        let mut most = 1e-13 * scale;
        for j in 0..n {
            if self.is_free[j] || barred[j] {
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
            for b in 0..=a {
                let mut s = gram[ja * n + self.free[b]];
                for c in 0..b {
                    s -= self.factor[a * n + c] * self.factor[b * n + c];
                }
                if a == b {
                    if s <= LEAST_PIVOT * gram[ja * n + ja] {
                        return false;
                    }
                    self.factor[a * n + a] = s.sqrt();
                } else {
                    self.factor[a * n + b] = s / self.factor[b * n + b];
                }
            }
        }
        for a in 0..m {
            let mut s = atb[self.free[a]];
            for c in 0..a {
                s -= self.factor[a * n + c] * self.solution[c];
            }
            self.solution[a] = s / self.factor[a * n + a];
        }
        for a in (0..m).rev() {
            let mut s = self.solution[a];
            for c in a + 1..m {
                s -= self.factor[c * n + a] * self.solution[c];
            }
            self.solution[a] = s / self.factor[a * n + a];
        }
        true
    }
}

/// AᵀA of a matrix given row by row, `columns` wide.
pub fn gram(rows: &[f64], columns: usize) -> Vec<f64> {
    let mut g = vec![0.0; columns * columns];
    for r in rows.chunks_exact(columns) {
        for i in 0..columns {
            for j in 0..=i {
                g[i * columns + j] += r[i] * r[j];
            }
        }
    }
    for i in 0..columns {
        for j in 0..i {
            g[j * columns + i] = g[i * columns + j];
        }
    }
    g
}

/// Aᵀb into `out`.
pub fn project(rows: &[f64], b: &[f64], out: &mut [f64]) {
    let n = out.len();
    out.fill(0.0);
    for (r, b) in rows.chunks_exact(n).zip(b) {
        for (o, r) in out.iter_mut().zip(r) {
            *o += r * b;
        }
    }
}
