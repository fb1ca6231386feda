//! How a solution answers to small changes of what went in: totals, pH, constants.
//!
//! In: the equations and their solution. Out: for any linear combination of ln activities
//! (a saturation index is one) its derivative by each total, each ln K and each fixed activity.
//! Method: implicit differentiation. With F(x, p) = 0 at the solution, dx/dp = −J⁻¹·∂F/∂p; J is
//! inverted once and each combination costs one product. First order only; where doubt is large
//! the Monte Carlo of `doubt` says more. Checked in `tests/uncertainty.rs` against differences.

use crate::solver::{Balance, Equations, Solution, Work, solve_in_place};

/// The inverse Jacobian with what is needed beside it.
pub struct Response<'e, 'a> {
    eq: &'e Equations<'a>,
    work: Work,
    inverse: Vec<f64>,
    size: usize,
}

/// Derivatives of one combination of ln activities.
#[derive(Debug, Clone, PartialEq)]
pub struct Gradient {
    /// By the total (or alkalinity, charge) of each component, per mol/kg.
    pub by_total: Vec<f64>,
    /// By ln K of each species.
    pub by_ln_k: Vec<f64>,
    /// By the fixed ln activity of each component.
    pub by_fixed: Vec<f64>,
}

impl<'e, 'a> Response<'e, 'a> {
    /// Inverts the Jacobian at a solution; `None` when it is singular.
    pub fn at(eq: &'e Equations<'a>, s: &Solution) -> Option<Self> {
        let (work, size) = eq.jacobian_at(s);
        let mut inverse = vec![0.0; size * size];
        let mut column = vec![0.0; size];
        for k in 0..size {
            let mut a = work.jacobian.clone();
            column.fill(0.0);
            column[k] = 1.0;
            if !solve_in_place(&mut a, &mut column, size) {
                return None;
            }
            for r in 0..size {
                inverse[r * size + k] = column[r];
            }
        }
        Some(Self { eq, work, inverse, size })
    }

    /// Derivatives of Σ coefficient·ln a(component).
    pub fn gradient(&self, combination: &[(usize, f64)]) -> Gradient {
        let width = self.eq.system.width();
        let mut y = vec![0.0; self.size];
        let mut by_fixed = vec![0.0; width];
        for (c, n) in combination {
            let row = self.work.column_of[*c];
            if row == usize::MAX {
                by_fixed[*c] += n;
                continue;
            }
            for (k, y) in y.iter_mut().enumerate() {
                *y += n * self.inverse[row * self.size + k];
            }
        }
        let mut by_total = vec![0.0; width];
        for (col, j) in self.work.free.iter().enumerate() {
            // f = ln P − ln N with the total in N (or, below zero, in P).
            by_total[*j] = y[col]
                / match self.eq.balance[*j] {
                    Balance::Alkalinity(t) | Balance::Charge(t) if t < 0.0 => self.work.positive[*j],
                    _ => self.work.negative[*j],
                };
        }
        let species = self.eq.system.species.len();
        let mut by_ln_k = vec![0.0; species];
        for (i, d) in by_ln_k.iter_mut().enumerate() {
            let f = self.eq.species_column(&self.work, i, &y);
            *d = -f;
            for (c, n) in self.eq.system.terms(i) {
                if matches!(self.eq.balance[c], Balance::FixedLnActivity(_)) {
                    by_fixed[c] -= n * f;
                }
            }
        }
        Gradient { by_total, by_ln_k, by_fixed }
    }
}
