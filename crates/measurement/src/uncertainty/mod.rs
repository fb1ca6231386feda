//! The uncertainty of a result from the uncertainties of its inputs.
//!
//! In: a model (an [`crate::expression::Expression`] or a Rust function of the inputs), the
//! inputs with their distributions, correlations. Out: value, standard uncertainty, effective
//! degrees of freedom, coverage factor and interval by the law of propagation (JCGM 100:2008,
//! clauses 5 and 6, annex G), with the share of each input; and the Monte Carlo twin of the same
//! model (JCGM 101:2008, clause 7), the adaptive procedure (7.9) and the comparison of both
//! (clause 8). Units: all inputs in units that fit together in the model; the result is in what
//! the model makes of them. First-order propagation fails where the model bends within one u of
//! the estimates; the comparison says so, and the Monte Carlo interval is then the one to show.
//! Welch–Satterthwaite does not hold for correlated inputs; a correlated group then counts as one
//! component with its smallest degrees of freedom, and a warning says it.
//! Checked in `tests/uncertainty.rs` (JCGM 100 H.1, H.2; JCGM 101 9.2 to 9.5; Eurachem A1, A5).

mod input;
mod monte_carlo;
mod propagate;
mod sample;

pub use input::{Distribution, Input};
pub use monte_carlo::{Adaptive, Draws, Interval, MonteCarlo, Validation};
pub use propagate::Propagated;

use crate::error::Error;
use crate::expression::{Expression, LANES, Scratch};

/// A measurement model: the result as a function of the inputs.
pub trait Model: Sync {
    /// Working space of one thread.
    type Space: Send;

    /// Value at one point.
    fn value(&self, x: &[f64]) -> f64;

    /// Value and partial derivatives at one point; `u` are the standard uncertainties, the scale
    /// on which a numerical derivative may step.
    fn gradient(&self, x: &[f64], u: &[f64]) -> (f64, Vec<f64>);

    /// Makes the working space.
    fn space(&self) -> Self::Space;

    /// Values of `out.len()` ≤ [`LANES`] draws, without allocation.
    fn block(&self, inputs: &[[f64; LANES]], space: &mut Self::Space, out: &mut [f64]);
}

impl Model for Expression {
    type Space = Scratch;

    fn value(&self, x: &[f64]) -> f64 {
        Expression::value(self, x)
    }

    fn gradient(&self, x: &[f64], _u: &[f64]) -> (f64, Vec<f64>) {
        Expression::gradient(self, x)
    }

    fn space(&self) -> Scratch {
        self.scratch()
    }

    fn block(&self, inputs: &[[f64; LANES]], space: &mut Scratch, out: &mut [f64]) {
        Expression::block(self, inputs, space, out);
    }
}

/// A Rust function as a model. Its derivatives are central differences over ±u/100, improved
/// once by Richardson's extrapolation: 1e-9 relative for models that are smooth over u.
#[derive(Debug, Clone, Copy)]
pub struct Function<F>(pub F);

impl<F: Fn(&[f64]) -> f64 + Sync> Model for Function<F> {
    type Space = Vec<f64>;

    fn value(&self, x: &[f64]) -> f64 {
        (self.0)(x)
    }

    fn gradient(&self, x: &[f64], u: &[f64]) -> (f64, Vec<f64>) {
        let mut at = x.to_vec();
        let mut slope = |i: usize, h: f64| {
            at[i] = x[i] + h;
            let (up, up_x) = ((self.0)(&at), at[i]);
            at[i] = x[i] - h;
            let (down, down_x) = ((self.0)(&at), at[i]);
            at[i] = x[i];
            (up - down) / (up_x - down_x)
        };
        let g = (0..x.len())
            .map(|i| {
                // Not under the resolution of the estimate itself.
                let h = (0.01 * u[i]).max(x[i].abs() * 1e-5);
                if h == 0.0 {
                    return 0.0;
                }
                (4.0 * slope(i, 0.5 * h) - slope(i, h)) / 3.0
            })
            .collect();
        ((self.0)(x), g)
    }

    fn space(&self) -> Vec<f64> {
        Vec::new()
    }

    fn block(&self, inputs: &[[f64; LANES]], space: &mut Vec<f64>, out: &mut [f64]) {
        space.resize(inputs.len(), 0.0);
        for (k, o) in out.iter_mut().enumerate() {
            for (x, input) in space.iter_mut().zip(inputs) {
                *x = input[k];
            }
            *o = (self.0)(space);
        }
    }
}

/// A correlation coefficient between two inputs, by their places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Correlation {
    /// Place of the one input.
    pub a: usize,
    /// Place of the other.
    pub b: usize,
    /// r, −1 to 1.
    pub r: f64,
}

/// A model with its inputs: what is to be propagated.
#[derive(Debug, Clone)]
pub struct Problem<M> {
    model: M,
    inputs: Vec<Input>,
    /// Row-major correlation matrix; `None` where nothing is correlated.
    correlation: Option<Vec<f64>>,
}

impl<M: Model> Problem<M> {
    /// Puts model, inputs and correlations together.
    ///
    /// # Errors
    /// Where an input is no number or outside its distribution's range ([`Error::NotFinite`],
    /// [`Error::OutOfRange`]), a correlation is over 1 in size or names an input with itself, or
    /// the correlations cannot exist together ([`Error::NotSemidefinite`]).
    pub fn new(model: M, inputs: Vec<Input>, correlations: &[Correlation]) -> Result<Self, Error> {
        for i in &inputs {
            i.check()?;
        }
        let correlation =
            if correlations.is_empty() { None } else { Some(input::correlation_matrix(&inputs, correlations)?) };
        Ok(Self { model, inputs, correlation })
    }

    /// The model.
    pub fn model(&self) -> &M {
        &self.model
    }

    /// The inputs.
    pub fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    fn r(&self, a: usize, b: usize) -> f64 {
        match &self.correlation {
            None => f64::from(u8::from(a == b)),
            Some(m) => m[a * self.inputs.len() + b],
        }
    }

    /// Groups of inputs that are correlated with each other, larger than one.
    fn groups(&self) -> Vec<Vec<usize>> {
        let n = self.inputs.len();
        let mut group: Vec<usize> = (0..n).collect();
        for a in 0..n {
            for b in a + 1..n {
                if self.r(a, b) != 0.0 && group[a] != group[b] {
                    let (keep, drop) = (group[a].min(group[b]), group[a].max(group[b]));
                    for g in &mut group {
                        if *g == drop {
                            *g = keep;
                        }
                    }
                }
            }
        }
        (0..n).map(|k| (0..n).filter(|i| group[*i] == k).collect::<Vec<_>>()).filter(|g| g.len() > 1).collect()
    }
}
