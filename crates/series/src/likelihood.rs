//! Maximum likelihood with non-detects under a lognormal or a gamma shape: a value counts with
//! its density, a non-detect with the share below its limit. In: positive readings in one unit;
//! out: mean, sd, percentiles in that unit with profile-likelihood intervals.
//!
//! An interval of a quantity holds the figures whose best log-likelihood lies within t²/2 of the
//! overall best, t from Student's distribution at (known values − 1): with the normal figure in
//! place of t, intervals of short series are too narrow.
//!
//! Values enter through their sums alone and limits through their counts, so the cost grows with
//! the number of different limits, not of values. Sources: Cohen (1959) Technometrics 1:217;
//! Helsel (2005) ch. 5; profile likelihood: Venzon & Moolgavkar (1988) Appl. Statist. 37:87 (from
//! memory). At least 3 known values, 2 of them different. Trusted where
//! `docs/validation/series_coverage.csv` says so. Checked in `tests/handbook.rs` and in
//! `bench/series` against scipy's fit of censored data.

use crate::{Error, Reading, rows};
use statistics::{gamma, normal, t};

/// The shape assumed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Logarithms are normal: parameters μ, σ of ln(value).
    Lognormal,
    /// Gamma with shape k and the mean.
    Gamma,
}

/// What a fit answers for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Target {
    /// The mean.
    Mean,
    /// The percentile of a share.
    Percentile(f64),
}

/// Sums that the likelihood needs.
#[derive(Debug, Clone)]
struct Sums {
    n: f64,
    values: f64,
    logs: f64,
    log_squares: f64,
    /// Different limits with their counts: limit, ln(limit), count.
    limits: Vec<(f64, f64, f64)>,
}

/// A fit.
#[derive(Debug, Clone)]
pub struct Fit {
    family: Family,
    sums: Sums,
    /// ln of the mean (gamma) or μ (lognormal), and ln of the shape (gamma) or of σ (lognormal).
    best: [f64; 2],
    /// Log-likelihood at the best.
    pub log_likelihood: f64,
    known: usize,
}

fn sums(readings: &[Reading]) -> Sums {
    let mut s = Sums { n: 0.0, values: 0.0, logs: 0.0, log_squares: 0.0, limits: Vec::new() };
    let mut limits = Vec::new();
    for r in readings {
        match *r {
            Reading::Known(v) => {
                let ln = libm::log(v);
                s.n += 1.0;
                s.values += v;
                s.logs += ln;
                s.log_squares += ln * ln;
            }
            Reading::Below(l) => limits.push(l),
        }
    }
    limits.sort_unstable_by(f64::total_cmp);
    for run in limits.chunk_by(|a, b| a == b) {
        s.limits.push((run[0], libm::log(run[0]), run.len() as f64));
    }
    s
}

/// Most Newton steps of a fit.
const MOST_STEPS: usize = 200;
/// Most steps to an end of an interval.
const MOST_EDGE_STEPS: usize = 60;
/// An end farther than this from the best, in ln, counts as not bounded by the data.
const FARTHEST: f64 = 60.0;

/// Fits a shape to positive readings.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::AllCensored`], [`Error::TooFew`] under 3 known values,
/// [`Error::NoSpread`], [`Error::NotConverged`].
///
/// ```
/// use series::Reading::Below;
/// use series::likelihood::{Family, fit};
/// // Nothing known but limits: no shape can be fitted, and the refusal says what is still known.
/// let none = fit(&[Below(1.0), Below(2.0), Below(2.0)], Family::Lognormal);
/// assert!(matches!(none, Err(series::Error::AllCensored { highest_limit: 2.0, .. })));
/// ```
pub fn fit(readings: &[Reading], family: Family) -> Result<Fit, Error> {
    rows::check_finite(readings)?;
    rows::check_some_known(readings)?;
    let what = match family {
        Family::Lognormal => "a lognormal likelihood",
        Family::Gamma => "a gamma likelihood",
    };
    rows::check_positive(readings, what)?;
    let sums = sums(readings);
    let known = sums.n as usize;
    if known < 3 {
        return Err(Error::TooFew { what, found: known, needed: 3 });
    }
    let spread = sums.log_squares / sums.n - (sums.logs / sums.n) * (sums.logs / sums.n);
    let mean_ln = sums.logs / sums.n;
    if spread <= 1e-13 * mean_ln.abs().max(1e-3) {
        return Err(Error::NoSpread { what, value: libm::exp(mean_ln), n: known });
    }
    let share_known = sums.n / readings.len() as f64;
    let start = match family {
        Family::Lognormal => [mean_ln - (1.0 - share_known), 0.5 * libm::log(spread) + 0.5 * (1.0 - share_known)],
        Family::Gamma => [
            libm::log(sums.values / sums.n) + libm::log(share_known.max(0.2)),
            libm::log((1.0 / spread).clamp(0.05, 1e4)),
        ],
    };
    let mut fit = Fit { family, sums, best: start, log_likelihood: 0.0, known };
    fit.climb(what)?;
    Ok(fit)
}

impl Fit {
    fn log_likelihood_at(&self, p: [f64; 2]) -> f64 {
        match self.family {
            Family::Lognormal => lognormal(&self.sums, p[0], p[1]),
            Family::Gamma => gamma(&self.sums, p[0], p[1]),
        }
    }

    /// Newton with differences for the derivatives, step halved while it does not climb.
    fn climb(&mut self, what: &'static str) -> Result<(), Error> {
        let mut at = self.best;
        let mut value = self.log_likelihood_at(at);
        let mut size = f64::INFINITY;
        for step in 0..MOST_STEPS {
            let (g, h) = self.derivatives(at, value);
            let det = h[0] * h[2] - h[1] * h[1];
            // Downhill curvature in both directions, or else the plain gradient.
            let mut d = if det > 0.0 && h[0] < 0.0 {
                [-(h[2] * g[0] - h[1] * g[1]) / det, -(h[0] * g[1] - h[1] * g[0]) / det]
            } else {
                let scale = (h[0].abs() + h[2].abs()).max(1.0);
                [g[0] / scale, g[1] / scale]
            };
            let length = d[0].abs().max(d[1].abs());
            if length > 1.0 {
                d = [d[0] / length, d[1] / length];
            }
            size = d[0].abs().max(d[1].abs());
            let mut moved = false;
            for _ in 0..40 {
                let next = [at[0] + d[0], at[1] + d[1]];
                let v = self.log_likelihood_at(next);
                if v > value {
                    (at, value, moved) = (next, v, true);
                    break;
                }
                d = [0.5 * d[0], 0.5 * d[1]];
            }
            if !moved || size < 1e-9 {
                // No step climbs: at the top to rounding when the proposed step is small.
                if size < 1e-4 {
                    self.best = at;
                    self.log_likelihood = value;
                    return Ok(());
                }
                return Err(Error::NotConverged { what, iterations: step, residual: size });
            }
        }
        Err(Error::NotConverged { what, iterations: MOST_STEPS, residual: size })
    }

    /// Gradient and second derivatives (00, 01, 11) by central differences.
    fn derivatives(&self, at: [f64; 2], value: f64) -> ([f64; 2], [f64; 3]) {
        let h = 1e-4;
        let f = |a: f64, b: f64| self.log_likelihood_at([at[0] + a * h, at[1] + b * h]);
        let (r, l, u, d) = (f(1.0, 0.0), f(-1.0, 0.0), f(0.0, 1.0), f(0.0, -1.0));
        let cross = f(1.0, 1.0) - f(1.0, -1.0) - f(-1.0, 1.0) + f(-1.0, -1.0);
        (
            [(r - l) / (2.0 * h), (u - d) / (2.0 * h)],
            [(r - 2.0 * value + l) / (h * h), cross / (4.0 * h * h), (u - 2.0 * value + d) / (h * h)],
        )
    }

    /// Shape parameters: (μ, σ) of ln(value), or (mean, k) of the gamma.
    pub fn parameters(&self) -> (f64, f64) {
        match self.family {
            Family::Lognormal => (self.best[0], libm::exp(self.best[1])),
            Family::Gamma => (libm::exp(self.best[0]), libm::exp(self.best[1])),
        }
    }

    /// The mean of the fitted shape.
    pub fn mean(&self) -> f64 {
        libm::exp(self.ln_target(Target::Mean, self.best))
    }

    /// The standard deviation of the fitted shape.
    pub fn sd(&self) -> f64 {
        match self.family {
            Family::Lognormal => {
                let sigma = libm::exp(self.best[1]);
                self.mean() * libm::sqrt(libm::expm1(sigma * sigma))
            }
            Family::Gamma => self.mean() / libm::sqrt(libm::exp(self.best[1])),
        }
    }

    /// A percentile of the fitted shape.
    pub fn percentile(&self, p: f64) -> f64 {
        libm::exp(self.ln_target(Target::Percentile(p), self.best))
    }

    /// ln of the target = first parameter + something of the second.
    fn ln_target(&self, target: Target, p: [f64; 2]) -> f64 {
        p[0] + offset(self.family, target, p[1])
    }

    /// Profile-likelihood interval; an end that the data do not bound is 0 or infinite.
    pub fn interval(&self, target: Target, confidence: f64) -> (f64, f64) {
        let t = t::quantile(0.5 * (1.0 + confidence), self.known as f64 - 1.0);
        let best = self.ln_target(target, self.best);
        let side = |direction: f64| self.edge(target, best, direction, t);
        (side(-1.0), side(1.0))
    }

    /// Where the square root of twice the loss of log-likelihood reaches `t` on one side of the
    /// best. That root is nearly a straight line, so a few steps of linear interpolation do.
    fn edge(&self, target: Target, best: f64, direction: f64, t: f64) -> f64 {
        let mut second = self.best[1];
        let mut loss = |distance: f64| {
            let l = self.profile(target, best + direction * distance, &mut second);
            libm::sqrt((2.0 * (self.log_likelihood - l)).max(0.0))
        };
        // (distance, loss) on either side of t.
        let (mut inside, mut outside) = ((0.0, 0.0), None);
        let mut distance = 0.1;
        for _ in 0..MOST_EDGE_STEPS {
            let here = loss(distance);
            // A ten-thousandth of t is far under what the interval can mean.
            if (here - t).abs() < 1e-4 * t {
                return libm::exp(best + direction * distance);
            }
            if here < t {
                inside = (distance, here);
            } else {
                outside = Some((distance, here));
            }
            distance = match outside {
                None if distance > FARTHEST => break,
                None => distance * (1.1 * t / here.max(1e-9)).clamp(1.5, 6.0),
                Some(out) if out.1.is_finite() && out.0 - inside.0 > 1e-9 => {
                    let share = (t - inside.1) / (out.1 - inside.1);
                    inside.0 + (out.0 - inside.0) * share.clamp(0.05, 0.95)
                }
                Some(out) if out.0 - inside.0 > 1e-9 => 0.5 * (inside.0 + out.0),
                Some(out) => return libm::exp(best + direction * out.0),
            };
        }
        match outside {
            Some(out) => libm::exp(best + direction * out.0),
            None if direction < 0.0 => 0.0,
            None => f64::INFINITY,
        }
    }

    /// Best log-likelihood with the target held; `second` is the start and becomes the place.
    fn profile(&self, target: Target, ln_target: f64, second: &mut f64) -> f64 {
        let f = |s: f64| self.log_likelihood_at([ln_target - offset(self.family, target, s), s]);
        let mut s = *second;
        let mut value = f(s);
        for _ in 0..60 {
            let h = 1e-3;
            let (up, down) = (f(s + h), f(s - h));
            let gradient = (up - down) / (2.0 * h);
            let bend = (up - 2.0 * value + down) / (h * h);
            let mut d = if bend < 0.0 { -gradient / bend } else { gradient.signum() * 0.5 };
            d = d.clamp(-0.7, 0.7);
            let mut moved = false;
            for _ in 0..30 {
                let v = f(s + d);
                if v > value {
                    (s, value, moved) = (s + d, v, true);
                    break;
                }
                d *= 0.5;
            }
            // The loss is flat here: 1e-4 off in place is 1e-8 off in value.
            if !moved || d.abs() < 1e-4 {
                break;
            }
        }
        *second = s;
        value
    }
}

fn offset(family: Family, target: Target, second: f64) -> f64 {
    match (family, target) {
        (Family::Lognormal, Target::Mean) => 0.5 * libm::exp(2.0 * second),
        (Family::Lognormal, Target::Percentile(p)) => libm::exp(second) * normal::quantile(p),
        (Family::Gamma, Target::Mean) => 0.0,
        (Family::Gamma, Target::Percentile(p)) => {
            let k = libm::exp(second);
            libm::log(gamma::quantile(p, k) / k)
        }
    }
}

/// Σ ln density of the values + Σ ln share below the limits, lognormal.
fn lognormal(s: &Sums, mu: f64, ln_sigma: f64) -> f64 {
    let sigma = libm::exp(ln_sigma);
    let squares = s.log_squares - 2.0 * mu * s.logs + s.n * mu * mu;
    let values =
        -s.n * (ln_sigma + 0.5 * libm::log(2.0 * std::f64::consts::PI)) - s.logs - squares / (2.0 * sigma * sigma);
    let limits: f64 = s.limits.iter().map(|(_, ln, count)| count * normal::log_cdf((ln - mu) / sigma)).sum();
    values + limits
}

/// The same for the gamma with mean and shape k.
fn gamma(s: &Sums, ln_mean: f64, ln_k: f64) -> f64 {
    let k = libm::exp(ln_k);
    if !(1e-6..1e8).contains(&k) {
        return f64::NEG_INFINITY;
    }
    let ln_scale = ln_mean - ln_k;
    let scale = libm::exp(ln_scale);
    let values = (k - 1.0) * s.logs - s.values / scale - s.n * (libm::lgamma(k) + k * ln_scale);
    let limits: f64 = s
        .limits
        .iter()
        .map(|(limit, ln, count)| {
            let p = gamma::tails(limit / scale, k).lower;
            // Where the share underflows: P(k, x) ≈ x^k / Γ(k + 1) (DLMF 8.7.1).
            let ln_p = if p > 1e-290 { libm::log(p) } else { k * (ln - ln_scale) - libm::lgamma(k + 1.0) };
            count * ln_p
        })
        .sum();
    values + limits
}
