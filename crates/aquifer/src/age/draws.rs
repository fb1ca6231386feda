//! Draws of what is known with u, and the percentiles of what follows from them.
//!
//! In: a function of one random stream. Out: its percentiles in its own unit. 20 000 draws from a fixed seed (JCGM
//! 101:2008): the same input gives the same bytes. Checked with the modules that use it.

use super::fit::Spread;
use crate::travel::normal;
use rand::{SeedableRng, rngs::ChaCha8Rng};
use statistics::sample::nearest_rank;

/// Number of draws.
// The programme's own choice: the ends of a 95 % interval are then known to about 1.5 % of its width.
const DRAWS: usize = 20_000;

/// Seed of the draws.
const SEED: u64 = 1;

/// A source of draws.
pub(super) struct Dice(ChaCha8Rng);

impl Dice {
    /// Normal about a value.
    pub fn normal(&mut self, value: f64, u: f64) -> f64 {
        value + u * normal(&mut self.0)
    }

    /// Uniform from 0 to 1.
    pub fn share(&mut self) -> f64 {
        use rand::RngExt;
        self.0.random::<f64>()
    }
}

/// What follows from each draw.
pub(super) fn draws<T>(mut of: impl FnMut(&mut Dice) -> T) -> Vec<T> {
    let mut dice = Dice(ChaCha8Rng::seed_from_u64(SEED));
    (0..DRAWS).map(|_| of(&mut dice)).collect()
}

/// Percentiles of what follows from draws; draws that give none (a quotient without meaning) are left out, and where more
/// than half are, there is no spread.
pub(super) fn spread(of: impl Iterator<Item = Option<f64>>) -> Option<Spread> {
    let mut all: Vec<f64> = of.flatten().filter(|x| !x.is_nan()).collect();
    if all.len() < DRAWS / 2 {
        return None;
    }
    all.sort_by(f64::total_cmp);
    let at = |p| nearest_rank(&all, p);
    Some(Spread { low_95: at(0.025), low_68: at(0.16), median: at(0.5), high_68: at(0.84), high_95: at(0.975) })
}
