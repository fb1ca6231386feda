//! The law of propagation of uncertainty (JCGM 100:2008, equation 13) with Welch–Satterthwaite
//! (G.2b) and coverage by t. The effective degrees of freedom are cut off, not rounded, to a
//! whole number for the coverage factor, as G.4.1 says.

use super::{Model, Problem};
use crate::error::Error;
use quantity::Contribution;
use serde::Serialize;
use statistics::{t, welch};

/// A result by first-order propagation.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Propagated {
    /// The model at the estimates.
    pub value: f64,
    /// Combined standard uncertainty.
    pub u: f64,
    /// Effective degrees of freedom, not cut off; infinite where all inputs' are.
    pub dof_eff: f64,
    /// Partial derivatives, one for each input.
    pub sensitivities: Vec<f64>,
    /// The budget: each input's u in the result's unit, and its share of the variance (with its
    /// part of the correlation terms; the shares add up to 1 and one may be negative).
    pub budget: Vec<Contribution>,
    /// What a reader has to know.
    pub warnings: Vec<String>,
}

impl Propagated {
    /// Coverage factor for the coverage `p` (0.95): t at the whole part of `dof_eff`.
    pub fn coverage_factor(&self, p: f64) -> f64 {
        t::upper_quantile(0.5 * (1.0 - p), self.dof_eff.floor().max(1.0))
    }

    /// value ± k·u.
    pub fn interval(&self, p: f64) -> (f64, f64) {
        let half = self.coverage_factor(p) * self.u;
        (self.value - half, self.value + half)
    }
}

impl<M: Model> Problem<M> {
    /// Propagates to first order.
    ///
    /// # Errors
    /// [`Error::NoValue`] where the model is not finite at the estimates; [`Error::NoSlope`] where a derivative is not
    /// (√x at 0): linear propagation fails there.
    ///
    /// ```
    /// use measurement::{expression::Expression, uncertainty::{Input, Problem}};
    /// // A square about zero: to first order the result has no u at all, though the input has one.
    /// let square = Problem::new(Expression::parse("x*x", &["x"])?, vec![Input::normal("x", 0.0, 0.1)], &[])?;
    /// assert_eq!(square.propagate()?.u, 0.0);
    /// // The terms of second order say so: √2·u².
    /// assert!((square.second_order_u()? - 2f64.sqrt() * 0.01).abs() < 1e-6);
    /// # Ok::<(), measurement::error::Error>(())
    /// ```
    pub fn propagate(&self) -> Result<Propagated, Error> {
        let x: Vec<f64> = self.inputs.iter().map(|i| i.value).collect();
        let u: Vec<f64> = self.inputs.iter().map(|i| i.u).collect();
        let (value, mut gradient) = self.model.gradient(&x, &u);
        if !value.is_finite() {
            return Err(Error::NoValue {
                value,
                hint: "look for a division by zero, or a root or logarithm of a negative number".into(),
            });
        }
        for (g, input) in gradient.iter_mut().zip(&self.inputs) {
            if input.u == 0.0 {
                // A constant has no part, whatever its derivative.
                *g = if g.is_finite() { *g } else { 0.0 };
            } else if !g.is_finite() {
                return Err(Error::NoSlope { input: input.name.clone(), value: *g });
            }
        }
        let part: Vec<f64> = gradient.iter().zip(&u).map(|(c, u)| c * u).collect();
        let n = part.len();
        let with_others: Vec<f64> =
            (0..n).map(|i| part[i] * (0..n).map(|j| self.r(i, j) * part[j]).sum::<f64>()).collect();
        let variance = with_others.iter().sum::<f64>().max(0.0);
        let mut warnings = Vec::new();
        let dof_eff = self.effective_dof(&part, &with_others, variance, &mut warnings);
        let budget = (0..n)
            .map(|i| {
                let share = if variance > 0.0 { with_others[i] / variance } else { 0.0 };
                // The input's name in the model, as the model was given.
                Contribution::new(self.inputs[i].name.as_str(), part[i].abs(), share)
            })
            .collect();
        Ok(Propagated { value, u: variance.sqrt(), dof_eff, sensitivities: gradient, budget, warnings })
    }

    /// u with the terms of second order, ΣΣ [f_ij²/2 + f_i·f_ijj]·u_i²·u_j² (JCGM 100 5.1.2,
    /// note), for uncorrelated inputs with symmetric distributions. Where it differs from the
    /// first order the model bends within u. Derivatives of the gradient by central differences
    /// over ±u/10.
    ///
    /// # Errors
    /// As [`Problem::propagate`]; [`Error::Unsupported`] with correlations.
    pub fn second_order_u(&self) -> Result<f64, Error> {
        if self.correlation.is_some() {
            return Err(Error::Unsupported {
                what: "the terms of second order are known for uncorrelated inputs only; use the Monte Carlo result"
                    .into(),
            });
        }
        let first = self.propagate()?;
        let u: Vec<f64> = self.inputs.iter().map(|i| i.u).collect();
        let mut x: Vec<f64> = self.inputs.iter().map(|i| i.value).collect();
        let middle = &first.sensitivities;
        let mut variance = first.u * first.u;
        for j in 0..x.len() {
            if u[j] == 0.0 {
                continue;
            }
            let at = x[j];
            x[j] = at + 0.1 * u[j];
            let up = self.model.gradient(&x, &u).1;
            x[j] = at - 0.1 * u[j];
            let down = self.model.gradient(&x, &u).1;
            x[j] = at;
            for i in (0..x.len()).filter(|i| u[*i] > 0.0) {
                // f_ij·u_j and f_ijj·u_j², both times u_i.
                let mixed = (up[i] - down[i]) / 0.2 * u[i];
                let bend = (up[i] - 2.0 * middle[i] + down[i]) / 0.01 * u[i];
                variance += 0.5 * mixed * mixed + middle[i] * u[i] * bend;
            }
        }
        if variance.is_finite() && variance >= 0.0 {
            return Ok(variance.sqrt());
        }
        Err(Error::NoValue {
            value: variance,
            hint: "that is the variance with terms of second order: the expansion does not hold here; use the Monte Carlo result".into(),
        })
    }

    fn effective_dof(&self, part: &[f64], with_others: &[f64], variance: f64, warnings: &mut Vec<String>) -> f64 {
        let mut alone = vec![true; part.len()];
        let mut doubt = 0.0;
        for group in self.groups() {
            let v: f64 = group.iter().map(|i| with_others[*i]).sum();
            let dof = group.iter().map(|i| self.inputs[*i].dof).fold(f64::INFINITY, f64::min);
            // A quadratic form is not negative but by rounding.
            doubt += welch::welch_term(v.max(0.0), dof);
            for i in &group {
                alone[*i] = false;
            }
            if dof.is_finite() {
                let names: Vec<_> = group.iter().map(|i| self.inputs[*i].name.as_str()).collect();
                warnings.push(format!(
                    "Welch–Satterthwaite does not hold for correlated inputs: {} count as one component with {dof} degrees of freedom",
                    names.join(", ")
                ));
            }
        }
        for (i, input) in self.inputs.iter().enumerate() {
            if alone[i] {
                doubt += welch::welch_term(part[i] * part[i], input.dof);
            }
        }
        welch::dof_of(variance, doubt).unwrap_or(f64::INFINITY)
    }
}
