//! Likelihoods that the joint fit integrates in closed form.
//!
//! In: residuals with the u of each and what one u of a shared input changes of them, or F14C with a band of A0. Out: χ² and
//! ln det of the covariance diag(own) + loads·loadsᵀ; ln of a likelihood with A0 flat in its band. Units are those of the
//! tracers and fall out. Checked in `tests/age_fit.rs` and `tests/age_coverage.rs`.

use super::measured::Tracer;
use statistics::normal;

/// How many inputs tracers share.
pub(super) type Loads = [f64; 6];

/// Residuals with a covariance diag(own) + loads·loadsᵀ, on the stack: the fit asks millions of times.
#[derive(Default)]
pub(super) struct Normals {
    n: usize,
    off: [f64; Tracer::ALL.len()],
    own: [f64; Tracer::ALL.len()],
    loads: [Loads; Tracer::ALL.len()],
}

impl Normals {
    pub fn push(&mut self, off: f64, own: f64, loads: Loads) {
        (self.off[self.n], self.own[self.n], self.loads[self.n]) = (off, own, loads);
        self.n += 1;
    }

    /// r'·V⁻¹·r and ln det V, by Cholesky. V has a factor: each diagonal has the u of a measurement, which is above nought.
    pub fn weighed(&self) -> (f64, f64) {
        let mut l = [[0.0; Tracer::ALL.len()]; Tracer::ALL.len()];
        let mut z = [0.0; Tracer::ALL.len()];
        let (mut chi2, mut ln_det) = (0.0, 0.0);
        for i in 0..self.n {
            for j in 0..=i {
                let common: f64 = self.loads[i].iter().zip(&self.loads[j]).map(|(a, b)| a * b).sum();
                let known: f64 = (0..j).map(|k| l[i][k] * l[j][k]).sum();
                let v = common + if i == j { self.own[i] } else { 0.0 } - known;
                l[i][j] = if i == j { v.sqrt() } else { v / l[j][j] };
            }
            let known: f64 = (0..i).map(|k| l[i][k] * z[k]).sum();
            z[i] = (self.off[i] - known) / l[i][i];
            chi2 += z[i] * z[i];
            ln_det += 2.0 * libm::log(l[i][i]);
        }
        (chi2, ln_det)
    }
}

/// ln of the likelihood of F14C with A0 flat between two ends: ∫N(value; A0·c, u)dA0 over the band.
pub(super) fn within_band(value: f64, c: f64, u: f64, (low, high): (f64, f64)) -> f64 {
    let (a, b) = ((value - high * c) / u, (value - low * c) / u);
    let width = (high - low) * c;
    if width < 1e-3 * u {
        let z = 0.5 * (a + b);
        return -0.5 * z * z - libm::log(u);
    }
    // Both on the far side: the small tail, which a difference from 1 would lose.
    let share = if a > 0.0 { normal::sf(a) - normal::sf(b) } else { normal::cdf(b) - normal::cdf(a) };
    // √(2π): the normal likelihoods above leave out the same factor.
    libm::log(share.max(1e-300)) + 0.918_938_533_204_672_7 - libm::log(width)
}
