//! Drift of the sensitivity that the internal standard leaves, from the same solution measured
//! again and again.
//!
//! g(t) = Σ φ_k(t)·θ_k, where θ are the drift checks themselves (bracketing: φ is linear
//! interpolation in time) or the coefficients of a polynomial through them (least squares). g is
//! a ratio to the checks' mean, so it is near 1; the mean is a scale that the calibration line
//! cancels. Each session of a run over several days has a model of its own; the one scale of all
//! checks bridges them. Bracketing and linear interpolation in time: standard practice. What the
//! checks scatter beyond their replicates is the reproducibility between vials.

use super::signal::hat;
use super::table::When;
use nalgebra::DMatrix;

/// One drift check.
#[derive(Debug, Clone, Copy)]
pub(super) struct Check {
    pub vial: usize,
    pub when: When,
    pub response: f64,
    pub u: f64,
}

/// A fitted drift model.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub checks: Vec<Check>,
    shape: Shape,
    /// θ = `weights` · responses; row per θ.
    weights: Vec<Vec<f64>>,
    theta: Vec<f64>,
}

#[derive(Debug, Clone)]
enum Shape {
    Bracket,
    Polynomial { terms: usize, blocks: Vec<Block> },
}

/// The polynomial of one session; its coefficients follow those of the sessions before.
#[derive(Debug, Clone, Copy)]
struct Block {
    session: u32,
    middle: f64,
    half: f64,
}

/// Reproducibility between vials as a share of the signal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Reproducibility {
    pub relative: f64,
    pub dof: f64,
}

impl Model {
    /// Linear between neighbouring checks.
    pub fn bracket(checks: Vec<Check>) -> Self {
        let scale = mean(&checks);
        let n = checks.len();
        let weights = (0..n)
            .map(|k| {
                let mut row = vec![0.0; n];
                row[k] = 1.0 / scale;
                row
            })
            .collect();
        Self::with(checks, Shape::Bracket, weights)
    }

    /// A polynomial of a degree for each session; the caller has at least `degree + 1` checks at
    /// distinct times in each. None where the times do not determine it.
    pub fn smooth(checks: Vec<Check>, degree: u8) -> Option<Self> {
        let terms = usize::from(degree) + 1;
        let scale = mean(&checks);
        let mut blocks = Vec::new();
        let mut weights = Vec::new();
        let mut first = 0;
        for part in checks.chunk_by(|a, b| a.when.session == b.when.session) {
            let times = part.iter().map(|c| c.when.minutes);
            let low = times.clone().fold(f64::INFINITY, f64::min);
            let high = times.fold(f64::NEG_INFINITY, f64::max);
            // Time runs from −1 to 1 in a session: powers of plain minutes leave the normal matrix near singular.
            let block = Block {
                session: part[0].when.session,
                middle: f64::midpoint(low, high),
                half: ((high - low) / 2.0).max(1e-9),
            };
            let design = DMatrix::from_fn(part.len(), terms, |i, k| {
                let power = i32::try_from(k).expect("a degree is at most 3");
                ((part[i].when.minutes - block.middle) / block.half).powi(power)
            });
            let hat = (design.transpose() * &design).try_inverse()? * design.transpose();
            for k in 0..terms {
                let mut row = vec![0.0; checks.len()];
                for i in 0..part.len() {
                    row[first + i] = hat[(k, i)] / scale;
                }
                weights.push(row);
            }
            blocks.push(block);
            first += part.len();
        }
        Some(Self::with(checks, Shape::Polynomial { terms, blocks }, weights))
    }

    fn with(checks: Vec<Check>, shape: Shape, weights: Vec<Vec<f64>>) -> Self {
        let theta = weights.iter().map(|row| row.iter().zip(&checks).map(|(w, c)| w * c.response).sum()).collect();
        Self { checks, shape, weights, theta }
    }

    /// Number of θ.
    pub fn terms(&self) -> usize {
        self.theta.len()
    }

    /// Coefficients of the polynomial of a session; none for bracketing.
    pub fn polynomial_terms(&self) -> Option<usize> {
        match self.shape {
            Shape::Bracket => None,
            Shape::Polynomial { terms, .. } => Some(terms),
        }
    }

    /// Weights of the checks in θ_k.
    pub fn weights(&self, k: usize) -> &[f64] {
        &self.weights[k]
    }

    /// The non-zero φ_k(t).
    pub fn basis(&self, when: When, mut each: impl FnMut(usize, f64)) {
        match &self.shape {
            Shape::Bracket => {
                for (k, w) in hat(&self.checks, |c| c.when, when) {
                    if w != 0.0 {
                        each(k, w);
                    }
                }
            }
            Shape::Polynomial { terms, blocks } => {
                let block = blocks.iter().position(|b| b.session == when.session).unwrap_or(0);
                let b = blocks[block];
                let s = (when.minutes - b.middle) / b.half;
                let mut power = 1.0;
                for k in 0..*terms {
                    each(block * terms + k, power);
                    power *= s;
                }
            }
        }
    }

    /// g(t).
    pub fn at(&self, when: When) -> f64 {
        let mut g = 0.0;
        self.basis(when, |k, phi| g += phi * self.theta[k]);
        g
    }

    /// What a check is expected at by the shape of the model alone: g of a polynomial; 1 of the bracket, which passes
    /// through every check.
    pub fn expected(&self, when: When) -> f64 {
        match self.shape {
            Shape::Bracket => 1.0,
            Shape::Polynomial { .. } => self.at(when),
        }
    }

    /// What the checks scatter about the model beyond their own replicates.
    pub fn reproducibility(&self) -> Option<Reproducibility> {
        let (mean_square, dof) = match &self.shape {
            Shape::Polynomial { .. } => {
                let dof = self.checks.len().checked_sub(self.terms()).filter(|d| *d > 0)? as f64;
                let ss: f64 = self
                    .checks
                    .iter()
                    .map(|c| (c.response / (mean(&self.checks) * self.at(c.when)) - 1.0).powi(2))
                    .sum();
                (ss / dof, dof)
            }
            Shape::Bracket => second_differences(&self.checks)?,
        };
        let replicates = self.checks.iter().map(|c| (c.u / c.response).powi(2)).sum::<f64>() / self.checks.len() as f64;
        let between = (mean_square - replicates).max(0.0);
        // The difference is known worse than the mean square itself.
        let dof = (dof * (between / mean_square).powi(2)).max(1.0);
        Some(Reproducibility { relative: between.sqrt(), dof })
    }
}

fn mean(checks: &[Check]) -> f64 {
    checks.iter().map(|c| c.response).sum::<f64>() / checks.len() as f64
}

/// Each check against its two neighbours. Second differences of independent values are
/// correlated (−2/3 and 1/6 at lags 1 and 2), which leaves 1/1.944 of their number as degrees
/// of freedom.
fn second_differences(checks: &[Check]) -> Option<(f64, f64)> {
    let scale = mean(checks);
    let (mut sum, mut n) = (0.0, 0.0);
    for w in checks.windows(3) {
        if w[0].when.session != w[2].when.session {
            continue;
        }
        let at = |k: usize| w[k].when.minutes;
        let span = at(2) - at(0);
        let b = if span > 0.0 { (at(1) - at(0)) / span } else { 0.5 };
        let expected = (1.0 - b) * w[0].response + b * w[2].response;
        let e = (w[1].response - expected) / scale;
        sum += e * e / (1.0 + b * b + (1.0 - b) * (1.0 - b));
        n += 1.0;
    }
    (n > 0.0).then(|| (sum / n, (n / 1.944_f64).max(1.0)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(minutes: f64) -> When {
        When { session: 0, minutes }
    }

    fn checks(values: &[(f64, f64)]) -> Vec<Check> {
        values
            .iter()
            .enumerate()
            .map(|(vial, (minutes, response))| Check { vial, when: at(*minutes), response: *response, u: 0.0 })
            .collect()
    }

    #[test]
    fn between_two_checks_drift_is_linear_in_time_and_constant_outside() {
        let m = Model::bracket(checks(&[(0.0, 110.0), (60.0, 90.0)]));
        for (t, want) in [(-5.0, 1.1), (0.0, 1.1), (15.0, 1.05), (60.0, 0.9), (99.0, 0.9)] {
            assert!((m.at(at(t)) - want).abs() < 1e-12, "{t}");
        }
    }

    #[test]
    fn a_polynomial_returns_a_polynomial() {
        let curve = |t: f64| 1000.0 * (1.0 - 2e-4 * t + 1e-7 * t * t);
        let times = [0.0, 70.0, 200.0, 310.0, 480.0, 600.0];
        let points: Vec<_> = times.iter().map(|t| (*t, curve(*t))).collect();
        let scale = points.iter().map(|p| p.1).sum::<f64>() / 6.0;
        let m = Model::smooth(checks(&points), 2).unwrap();
        for t in [10.0, 333.0, 590.0] {
            // Rounding of a 3 × 3 normal matrix with scaled times.
            assert!((m.at(at(t)) * scale / curve(t) - 1.0).abs() < 1e-12);
        }
        assert!(m.reproducibility().unwrap().relative < 1e-6);
    }
}
