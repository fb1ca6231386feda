//! Chance of the second simulator: a stream of its own for each run, and laws that the reduction does not assume.

use rand::{SeedableRng, rngs::ChaCha20Rng};
use rand_distr::{Distribution, Gamma, LogNormal, Poisson, StandardNormal, Uniform};

/// One stream of chance; the same seed gives the same run.
pub struct Chance(ChaCha20Rng);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(ChaCha20Rng::seed_from_u64(seed))
    }

    /// Mean 0, standard deviation 1.
    pub fn normal(&mut self) -> f64 {
        StandardNormal.sample(&mut self.0)
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        Uniform::new(low, high).expect("low is under high").sample(&mut self.0)
    }

    /// Log-uniform.
    pub fn decade_between(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }

    /// Lognormal of a mean and a coefficient of variation.
    pub fn lognormal(&mut self, mean: f64, cv: f64) -> f64 {
        let variance = (1.0 + cv * cv).ln();
        let law = LogNormal::new(mean.ln() - variance / 2.0, variance.sqrt()).expect("a spread that is not negative");
        law.sample(&mut self.0)
    }

    /// Mean 1, of a coefficient of variation; gamma, so never negative.
    pub fn about_one(&mut self, cv: f64) -> f64 {
        if cv == 0.0 {
            return 1.0;
        }
        let shape = 1.0 / (cv * cv);
        Gamma::new(shape, 1.0 / shape).expect("a shape over zero").sample(&mut self.0)
    }

    /// Counts of a mean that itself varies by `cv` from sweep to sweep: negative binomial, variance m + (cv·m)².
    pub fn counts(&mut self, mean: f64, cv: f64) -> f64 {
        let m = mean * self.about_one(cv);
        if m > 0.0 { Poisson::new(m).expect("a mean over zero").sample(&mut self.0) } else { 0.0 }
    }
}
