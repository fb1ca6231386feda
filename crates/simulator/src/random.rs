//! Random numbers of the simulator: counter-based streams, so that what one part draws never
//! changes what another part sees. Normal draws by Box and Muller's transform (Ann. Math. Stat.
//! 29:610, 1958), Poisson by Knuth's product below 30 and by the rounded normal above.

use rand::SeedableRng;
use rand::rand_core::Rng as _;
use rand::rngs::ChaCha8Rng;

/// One stream of random numbers.
pub struct Stream(ChaCha8Rng);

impl Stream {
    /// Stream `number` of `seed`.
    pub fn new(seed: u64, number: u64) -> Self {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(number);
        Self(rng)
    }

    /// Uniform on (0, 1).
    pub fn uniform(&mut self) -> f64 {
        // 53 random bits, shifted by half a step so that 0 never comes.
        ((self.0.next_u64() >> 11) as f64 + 0.5) / 9_007_199_254_740_992.0
    }

    /// Standard normal.
    pub fn normal(&mut self) -> f64 {
        let r = libm::sqrt(-2.0 * libm::log(self.uniform()));
        r * libm::cos(2.0 * std::f64::consts::PI * self.uniform())
    }

    /// Lognormal with median 1 and relative spread `sd` (small-sd reading of sigma).
    pub fn lognormal(&mut self, sd: f64) -> f64 {
        libm::exp(sd * self.normal())
    }

    /// Poisson counts.
    pub fn poisson(&mut self, mean: f64) -> f64 {
        if mean > 30.0 {
            return (mean + libm::sqrt(mean) * self.normal()).round().max(0.0);
        }
        let stop = libm::exp(-mean);
        let (mut k, mut product) = (0.0, self.uniform());
        while product > stop {
            k += 1.0;
            product *= self.uniform();
        }
        k
    }
}
