//! Least squares with several columns: polynomials, or any table of regressors.
//!
//! The columns are orthogonalised by the modified Gram–Schmidt process in double-double
//! arithmetic (module `dd`), so that a condition number of 1e15 still leaves all digits of an
//! f64. In: y and the columns; out: coefficients, their standard uncertainties from the residual
//! scatter, residual standard deviation, R². Weights and covariances are the business of
//! [`crate::line`]. Checked by the NIST reference datasets in `tests/line.rs`.

use crate::dd::Dd;
use crate::error::{Error, all_finite, same_length};
use serde::Serialize;

/// A column whose part independent of the earlier ones is smaller than this counts as dependent:
/// far under f64 rounding of the data (1e-16), far over the rounding of the arithmetic (1e-31).
const DEPENDENT: f64 = 1e-22;

/// A fit with p columns to n values.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fit {
    /// Coefficients, p.
    pub coefficients: Vec<f64>,
    /// Their standard uncertainties, p, with n − p degrees of freedom.
    pub u: Vec<f64>,
    /// √(Σr²/(n − p)).
    pub residual_sd: f64,
    /// n − p.
    pub dof: usize,
    /// 1 − Σr²/Σ(y − ȳ)², or about zero where no column is constant.
    pub r2: f64,
}

/// Fits y = c0 + c1·x + … + cd·x^d.
///
/// # Errors
/// As [`fit_columns`].
pub fn fit_polynomial(x: &[f64], y: &[f64], degree: usize) -> Result<Fit, Error> {
    all_finite("x", x)?;
    same_length("y", y.len(), x.len())?;
    let mut columns = vec![vec![Dd::ONE; x.len()]];
    for d in 0..degree {
        let next = columns[d].iter().zip(x).map(|(c, x)| *c * Dd::from(*x)).collect();
        columns.push(next);
    }
    solve(columns, y, true)
}

/// Fits y by the columns given (each of y's length), with a constant before them if `constant`.
///
/// # Errors
/// [`Error::TooFew`] unless n > p, [`Error::Singular`] where a column depends on earlier ones,
/// [`Error::NotFinite`], [`Error::Length`].
pub fn fit_columns(columns: &[Vec<f64>], y: &[f64], constant: bool) -> Result<Fit, Error> {
    let mut all = Vec::with_capacity(columns.len() + 1);
    if constant {
        all.push(vec![Dd::ONE; y.len()]);
    }
    for c in columns {
        same_length("columns", c.len(), y.len())?;
        all_finite("columns", c)?;
        all.push(c.iter().map(|v| Dd::from(*v)).collect());
    }
    solve(all, y, constant)
}

fn dot(a: &[Dd], b: &[Dd]) -> Dd {
    a.iter().zip(b).map(|(x, y)| *x * *y).sum()
}

fn solve(mut q: Vec<Vec<Dd>>, y: &[f64], constant: bool) -> Result<Fit, Error> {
    all_finite("y", y)?;
    let (n, p) = (y.len(), q.len());
    if p == 0 || n <= p {
        return Err(Error::TooFew { what: "points of the fit", found: n, needed: p + 1 });
    }
    let mut r = vec![vec![Dd::ZERO; p]; p];
    let mut rest: Vec<Dd> = y.iter().map(|v| Dd::from(*v)).collect();
    let mut z = vec![Dd::ZERO; p];
    for k in 0..p {
        let before = dot(&q[k], &q[k]).sqrt().value();
        // Twice is enough (Giraud 2005): the second pass takes out what rounding left.
        for _ in 0..2 {
            for j in 0..k {
                let c = dot(&q[j], &q[k]);
                r[j][k] = r[j][k] + c;
                let (done, open) = q.split_at_mut(k);
                for (v, qj) in open[0].iter_mut().zip(&done[j]) {
                    *v = *v - c * *qj;
                }
            }
        }
        let norm = dot(&q[k], &q[k]).sqrt();
        if norm.value() <= DEPENDENT * before || before == 0.0 {
            return Err(Error::Singular { column: k });
        }
        r[k][k] = norm;
        for v in &mut q[k] {
            *v = *v / norm;
        }
        z[k] = dot(&q[k], &rest);
        for (v, qk) in rest.iter_mut().zip(&q[k]) {
            *v = *v - z[k] * *qk;
        }
    }
    let sse = dot(&rest, &rest);
    let dof = n - p;
    let s2 = sse / Dd::from(dof as f64);
    let inverse = invert_upper(&r);
    let along = |k: usize, f: &dyn Fn(usize) -> Dd| -> Dd { (k..p).map(|j| inverse[k][j] * f(j)).sum() };
    let total = if constant {
        let mean = y.iter().map(|v| Dd::from(*v)).sum::<Dd>() / Dd::from(n as f64);
        y.iter().map(|v| (Dd::from(*v) - mean) * (Dd::from(*v) - mean)).sum::<Dd>()
    } else {
        y.iter().map(|v| Dd::from(*v) * Dd::from(*v)).sum::<Dd>()
    };
    Ok(Fit {
        coefficients: (0..p).map(|k| along(k, &|j| z[j]).value()).collect(),
        u: (0..p).map(|k| (s2 * along(k, &|j| inverse[k][j])).sqrt().value()).collect(),
        residual_sd: s2.sqrt().value(),
        dof,
        r2: (Dd::ONE - sse / total).value(),
    })
}

/// Inverse of an upper triangle.
fn invert_upper(r: &[Vec<Dd>]) -> Vec<Vec<Dd>> {
    let p = r.len();
    let mut inv = vec![vec![Dd::ZERO; p]; p];
    for k in (0..p).rev() {
        inv[k][k] = Dd::ONE / r[k][k];
        let row: Vec<Dd> = (k + 1..p).map(|j| (k + 1..=j).map(|m| r[k][m] * inv[m][j]).sum::<Dd>()).collect();
        for (entry, s) in inv[k][k + 1..].iter_mut().zip(row) {
            *entry = -(s / r[k][k]);
        }
    }
    inv
}
