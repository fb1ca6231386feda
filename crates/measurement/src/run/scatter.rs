//! How far replicates scatter, learnt from all vials of a run together: three replicates tell their own scatter so
//! badly that the coverage factor of one vial is 4.3; all vials together tell it with dozens of degrees of freedom.
//!
//! ```text
//! u²(R) = φ·C + f²·R²/n
//! ```
//!
//! C is the variance of the mean of n replicates by counting alone, φ what the replicates show over it, f the flicker
//! of the plasma that the internal standard leaves, as a share of the signal. φ and f² (neither under zero) are fitted
//! to the observed variances, each of which is a χ² of its degrees of freedom over its expectation: gamma regression
//! with identity link (McCullagh & Nelder 1989, chapter 8, from memory). Without flicker φ is the pooled ratio of
//! observed to counting variance. Degrees of freedom of the expected variance at a vial: 2·e²/var(e) (the moments
//! behind Satterthwaite 1946).
//!
//! A vial that scatters far more than the others stands alone, with its own scatter; it is named elsewhere and never
//! taken out. Vials without integration time keep their own scatter: their counts are not known.
//! Checked in `tests/vial_scatter.rs`.

use super::decision::MANY_COUNTS;
use super::signal::Response;
use statistics::f;

/// Level at which a vial leaves the pool, divided by the number of vials: one run of good data in a hundred loses one.
// The programme's own choice.
pub(super) const APART: f64 = 0.01;

/// Level at which a single vial scatters more than the pool, for its own decision of detected or not.
// The programme's own choice: the same 5 % as a decision.
pub(super) const SUSPECT: f64 = 0.05;

/// What a response's variance is expected to be: φ·C + κ·R²/n + fixed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Noise {
    pub phi: f64,
    /// f² of the flicker.
    pub kappa: f64,
    pub fixed: f64,
}

impl Noise {
    /// Nothing is known but this variance.
    pub fn fixed(variance: f64) -> Self {
        Self { phi: 0.0, kappa: 0.0, fixed: variance }
    }

    /// Counting alone.
    pub const COUNTING: Self = Self { phi: 1.0, kappa: 0.0, fixed: 0.0 };

    /// Variance of a mean of n replicates at response R, where counting alone predicts C.
    pub fn variance(&self, counting: f64, response: f64, replicates: f64) -> f64 {
        // 0 times "not known" is no number; where φ is 0, counting has no say.
        let counted = if self.phi > 0.0 { self.phi * counting } else { 0.0 };
        counted + self.kappa * response * response / replicates + self.fixed
    }
}

/// One vial of the pool: observed over counting variance, R²/(n·C), degrees of freedom.
#[derive(Debug, Clone, Copy)]
pub(super) struct Member {
    pub vial: usize,
    pub ratio: f64,
    pub x: f64,
    pub dof: f64,
}

/// The scatter that the vials of a run have in common, and what it was learnt from.
#[derive(Debug, Clone)]
pub(super) struct Scatter {
    pub fit: Fit,
    /// Vials that it was learnt from.
    pub members: Vec<Member>,
    /// Vials that stand alone.
    pub alone: Vec<usize>,
}

/// φ and κ with their covariance.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fit {
    pub phi: f64,
    pub kappa: f64,
    pub covariance: [f64; 3],
}

impl Fit {
    /// Expected ratio of variance to counting variance, and its degrees of freedom.
    fn at(&self, x: f64) -> (f64, f64) {
        let e = self.phi + self.kappa * x;
        let [a, b, c] = self.covariance;
        let variance = a + 2.0 * b * x + c * x * x;
        (e, if variance > 0.0 { 2.0 * e * e / variance } else { f64::INFINITY })
    }
}

/// Gives every response of an analyte the u of the pool, and marks those that scatter more; none where no vial tells
/// its scatter.
pub(super) fn pool(responses: &mut [Option<Response>]) -> Option<Scatter> {
    let mut members: Vec<Member> =
        responses.iter().enumerate().filter_map(|(vial, r)| member(vial, r.as_ref()?)).collect();
    let level = APART / members.len().max(1) as f64;
    let mut alone = Vec::new();
    while let Some(k) = outlier(&members, level) {
        alone.push(members.remove(k).vial);
    }
    let fit = fit(&members)?;
    for (v, r) in responses.iter_mut().enumerate() {
        if let Some(r) = r {
            apply(r, &fit, alone.contains(&v));
        }
    }
    Some(Scatter { fit, members, alone })
}

/// A vial whose replicates and counts are known, with at least one count: of none the ratio is 0/0.
fn member(vial: usize, r: &Response) -> Option<Member> {
    let known = r.own.dof.is_finite() && r.counting.is_finite() && r.counting > 0.0 && r.counts > 0.0;
    known.then(|| Member {
        vial,
        ratio: r.own.u.powi(2) / r.counting,
        x: r.value * r.value / (r.replicates * r.counting),
        dof: r.own.dof,
    })
}

fn apply(r: &mut Response, fit: &Fit, alone: bool) {
    if !(r.counting.is_finite() && r.counting > 0.0) {
        return;
    }
    let (ratio, dof) = fit.at(r.value * r.value / (r.replicates * r.counting));
    let expected = ratio * r.counting;
    // Replicates that never differ, in the whole run: counting says how far they might.
    if expected <= 0.0 {
        return;
    }
    let own = r.own.u.powi(2);
    let replicated = r.own.dof.is_finite() && r.counts > 0.0;
    // Where few are counted chance hides a replicate that is three times too high (4, 4 and 12 counts are no rarity among
    // Poisson counts of 7): there the vial's own scatter decides whenever it is the larger.
    let limit = if r.counts < MANY_COUNTS { 1.0 } else { f::upper_quantile(SUSPECT, r.own.dof, dof) };
    if alone || (replicated && own > limit * expected) {
        r.excess = (own - expected).max(0.0);
        r.times = (own / expected).sqrt();
    }
    if alone {
        return;
    }
    r.u = expected.sqrt();
    r.dof = dof;
    r.noise = Noise { phi: fit.phi, kappa: fit.kappa, fixed: 0.0 };
}

/// The member that scatters most over the fit of the others, where it does so beyond chance.
fn outlier(members: &[Member], level: f64) -> Option<usize> {
    let all = fit(members)?;
    let over = |k: usize| {
        let (e, _) = all.at(members[k].x);
        if e > 0.0 { members[k].ratio / e } else { 0.0 }
    };
    let k = (0..members.len()).max_by(|a, b| over(*a).total_cmp(&over(*b)).then(b.cmp(a)))?;
    let mut others = members.to_vec();
    let one = others.remove(k);
    let (e, dof) = fit(&others)?.at(one.x);
    // Others that do not scatter at all: that is rounding or few counts, and no measure of a vial.
    (e > 0.0 && one.ratio / e > f::upper_quantile(level, one.dof, dof)).then_some(k)
}

/// Steps until φ and κ stand still; each brings about a digit.
const STEPS: usize = 60;

fn fit(members: &[Member]) -> Option<Fit> {
    let dof: f64 = members.iter().map(|m| m.dof).sum();
    if members.is_empty() || dof <= 0.0 {
        return None;
    }
    let pooled = members.iter().map(|m| m.dof * m.ratio).sum::<f64>() / dof;
    let mut now = (pooled, 0.0);
    // An expectation near nothing would take all weight.
    let e = |(phi, kappa): (f64, f64), x: f64| (phi + kappa * x).max(1e-6 * pooled);
    if pooled > 0.0 {
        for _ in 0..STEPS {
            let next = step(members, &|x| e(now, x));
            let still = (next.0 - now.0).abs() + (next.1 - now.1).abs() <= 1e-12 * (next.0.abs() + next.1.abs());
            now = next;
            if still {
                break;
            }
        }
    }
    let (phi, kappa) = now;
    // Information of (φ, κ): Σ d/(2e²)·(1, x)ᵀ(1, x); a parameter at its bound is not in doubt.
    let sums = moments(members, &|x| e(now, x));
    let [s0, s1, s2] = [sums.w, sums.wx, sums.wxx].map(|s| 0.5 * s);
    let determinant = s0 * s2 - s1 * s1;
    let covariance = if kappa <= 0.0 {
        [1.0 / s0, 0.0, 0.0]
    } else if phi <= 0.0 {
        [0.0, 0.0, 1.0 / s2]
    } else {
        [s2 / determinant, -s1 / determinant, s0 / determinant]
    };
    Some(Fit { phi, kappa, covariance })
}

struct Sums {
    w: f64,
    wx: f64,
    wxx: f64,
    wr: f64,
    wxr: f64,
}

fn moments(members: &[Member], e: &dyn Fn(f64) -> f64) -> Sums {
    let mut s = Sums { w: 0.0, wx: 0.0, wxx: 0.0, wr: 0.0, wxr: 0.0 };
    for m in members {
        let w = m.dof / e(m.x).powi(2);
        s.w += w;
        s.wx += w * m.x;
        s.wxx += w * m.x * m.x;
        s.wr += w * m.ratio;
        s.wxr += w * m.x * m.ratio;
    }
    s
}

/// One step of weighted least squares of the ratios on 1 and x, with neither part under zero.
fn step(members: &[Member], e: &dyn Fn(f64) -> f64) -> (f64, f64) {
    let s = moments(members, e);
    let constant = (s.wr / s.w, 0.0);
    let determinant = s.w * s.wxx - s.wx * s.wx;
    // All at one level: nothing tells flicker from counting.
    if determinant <= 1e-9 * s.w * s.wxx {
        return constant;
    }
    let phi = (s.wxx * s.wr - s.wx * s.wxr) / determinant;
    let kappa = (s.w * s.wxr - s.wx * s.wr) / determinant;
    if kappa <= 0.0 {
        constant
    } else if phi <= 0.0 {
        (0.0, s.wxr / s.wxx)
    } else {
        (phi, kappa)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// scipy 1.17.1: `optimize.fsolve` on the score of Σ d·(r/e + ln e), e = φ + κ·x; degrees of freedom 2e²/var(e) from
    /// the inverse of the information Σ d/(2e²)·(1, x)ᵀ(1, x).
    #[test]
    fn both_parts_are_those_of_the_gamma_likelihood() {
        let ratios = [0.7, 1.4, 1.1, 0.9, 2.2, 3.5, 1.8, 6.1];
        let at = [0.0, 0.1, 0.2, 1.0, 5.0, 10.0, 12.0, 40.0];
        let dof = [2.0, 2.0, 2.0, 2.0, 4.0, 4.0, 2.0, 2.0];
        let members: Vec<Member> =
            (0..8).map(|vial| Member { vial, ratio: ratios[vial], x: at[vial], dof: dof[vial] }).collect();
        let fit = fit(&members).expect("eight vials");
        // Both solve to some ten digits.
        for (got, want) in [
            (fit.phi, 1.046_542_325_012_129),
            (fit.kappa, 0.168_776_463_275_982_06),
            (fit.at(0.0).1, 7.542_367_378_935_062),
            (fit.at(10.0).1, 12.416_330_662_197_08),
            (fit.at(40.0).1, 5.549_526_953_210_626),
        ] {
            assert!((got / want - 1.0).abs() < 1e-8, "{got} against {want}");
        }
    }

    #[test]
    fn without_flicker_it_is_the_pooled_ratio_and_the_sum_of_the_degrees_of_freedom() {
        let members: Vec<Member> = [(3.0, 0.0, 2.0), (2.0, 1.0, 4.0), (1.0, 9.0, 2.0)]
            .into_iter()
            .enumerate()
            .map(|(vial, (ratio, x, dof))| Member { vial, ratio, x, dof })
            .collect();
        let fit = fit(&members).expect("three vials");
        assert_eq!(fit.kappa.total_cmp(&0.0), std::cmp::Ordering::Equal);
        // (2·3 + 4·2 + 2·1)/8, closed form.
        let (ratio, dof) = fit.at(5.0);
        assert!((ratio - 2.0).abs() < 1e-12 && (dof - 8.0).abs() < 1e-12, "{ratio} {dof}");
    }
}
