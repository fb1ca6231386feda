//! Weighted least squares within bounds, for the few parameters of a gas model.
//!
//! In: residuals in units of their u as a function of the parameters, a start, bounds. Out: parameters at the least sum
//! of squares, their Jacobian. Method: Levenberg 1944, Marquardt 1963, with steps cut at the bounds; derivatives by
//! central differences. A search that did not come to rest is an error with iterations and residual. Checked against
//! scipy in `tests/validation_noble.rs`.

use nalgebra::{DMatrix, DVector};

/// A least sum of squares.
pub(super) struct Least {
    pub at: Vec<f64>,
    pub sum: f64,
    /// Derivative of each residual by each parameter.
    pub jacobian: DMatrix<f64>,
}

/// Why there is none.
pub(super) struct NotConverged {
    pub iterations: usize,
    /// Largest slope left, in units of the parameter's own uncertainty.
    pub residual: f64,
}

/// Most steps of the search.
const MOST_STEPS: usize = 500;
/// Slope at rest: a step by one u of the parameter would then lower the sum by less than this.
const AT_REST: f64 = 1e-6;

/// The least sum of squares from one start.
pub(super) fn least(
    start: &[f64],
    bounds: &[(f64, f64)],
    residuals: &impl Fn(&[f64]) -> Vec<f64>,
) -> Result<Least, NotConverged> {
    let sum_at = |p: &[f64]| residuals(p).iter().map(|r| r * r).sum::<f64>();
    let (mut at, mut sum, mut damping) = (start.to_vec(), sum_at(start), 1e-3);
    let mut slope = f64::INFINITY;
    for _ in 0..MOST_STEPS {
        let jacobian = jacobian(&at, residuals);
        let r = DVector::from_vec(residuals(&at));
        let (gradient, hessian) = (jacobian.transpose() * r, jacobian.transpose() * &jacobian);
        // A parameter that stands at its bound and is pushed out stays there.
        let free: Vec<usize> = (0..at.len())
            .filter(|&k| {
                let (low, high) = bounds[k];
                hessian[(k, k)] > 0.0 && !(at[k] <= low && gradient[k] > 0.0 || at[k] >= high && gradient[k] < 0.0)
            })
            .collect();
        slope = free.iter().map(|&k| gradient[k].abs() / hessian[(k, k)].sqrt()).fold(0.0, f64::max);
        let step = |damping: f64| -> Option<Vec<f64>> {
            let n = free.len();
            let h =
                DMatrix::from_fn(n, n, |i, j| hessian[(free[i], free[j])] * if i == j { 1.0 + damping } else { 1.0 });
            let d = h.cholesky()?.solve(&DVector::from_fn(n, |i, _| -gradient[free[i]]));
            let mut next = at.clone();
            for (i, &k) in free.iter().enumerate() {
                next[k] = (next[k] + d[i]).clamp(bounds[k].0, bounds[k].1);
            }
            Some(next)
        };
        let mut moved = false;
        while !free.is_empty() && damping < 1e12 {
            match step(damping).map(|next| (sum_at(&next), next)) {
                Some((s, next)) if s < sum => {
                    (at, sum, moved, damping) = (next, s, true, (damping * 0.1).max(1e-12));
                    break;
                }
                _ => damping *= 10.0,
            }
        }
        if !moved {
            // No step lowers the sum: its least, if the slope is nought there as well.
            return if slope < AT_REST * (1.0 + sum.sqrt()) {
                Ok(Least { at, sum, jacobian })
            } else {
                break_off(slope)
            };
        }
    }
    Err(NotConverged { iterations: MOST_STEPS, residual: slope })
}

fn break_off(residual: f64) -> Result<Least, NotConverged> {
    Err(NotConverged { iterations: MOST_STEPS, residual })
}

fn jacobian(at: &[f64], residuals: &impl Fn(&[f64]) -> Vec<f64>) -> DMatrix<f64> {
    let columns: Vec<DVector<f64>> = (0..at.len())
        .map(|k| {
            // Cube root of the resolution of f64: where the error of a central difference is least.
            let h = 6e-6 * at[k].abs().max(1.0);
            let moved = |by: f64| {
                let mut p = at.to_vec();
                p[k] += by;
                DVector::from_vec(residuals(&p))
            };
            (moved(h) - moved(-h)) / (2.0 * h)
        })
        .collect();
    DMatrix::from_columns(&columns)
}
