//! Random streams that give the same digits on any number of threads: one stream a block.

use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};

/// The stream of a block of draws.
pub(crate) fn stream(seed: u64, block: usize) -> ChaCha8Rng {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    rng.set_stream(block as u64);
    rng
}

/// A standard normal deviate (Box & Muller 1958, Ann. Math. Stat. 29:610).
pub(crate) fn normal(rng: &mut ChaCha8Rng) -> f64 {
    let (a, b) = (1.0 - rng.random::<f64>(), rng.random::<f64>());
    (-2.0 * libm::log(a)).sqrt() * libm::cos(2.0 * std::f64::consts::PI * b)
}
