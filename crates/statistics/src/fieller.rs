//! Fieller's interval of a ratio a/b of two quantities with known variances and covariance.
//!
//! ```text
//! all ρ with (a − ρ·b)² ≤ t²·(v_a − 2ρ·c + ρ²·v_b)   ⇔   A·ρ² − 2B·ρ + C ≤ 0
//! A = b² − t²·v_b     B = a·b − t²·c     C = a² − t²·v_a
//! ```
//!
//! In: a, b, their standard uncertainties (v = u²) and covariance c in units that the caller keeps, and
//! the coverage factor t, a quantile of Student's t. Out: the ratios ρ that a and b do not contradict.
//! It holds also where b is not far from zero: with g = t²·v_b/b² ≥ 1 (A ≤ 0) the ratio is bounded on
//! one side at most. Source: Fieller 1954, J. R. Stat. Soc. B 16:175. A value that is not a number excludes
//! no ratio. Checked in `measurement/tests/ratio.rs`, `limits/tests/claim.rs` and
//! `cleanliness/tests/validation_share.rs`.

/// Numerator a and denominator b.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// a.
    pub a: f64,
    /// u(a).
    pub u_a: f64,
    /// b.
    pub b: f64,
    /// u(b).
    pub u_b: f64,
    /// cov(a, b).
    pub covariance: f64,
}

impl Pair {
    /// Variance of a − ρ·b: v_a − 2ρ·c + ρ²·v_b.
    pub fn variance_at(&self, ratio: f64) -> f64 {
        self.u_a * self.u_a - 2.0 * ratio * self.covariance + (ratio * self.u_b).powi(2)
    }
}

/// What can be said of a ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Interval {
    /// Between two limits.
    Bounded {
        /// Lower limit.
        low: f64,
        /// Upper limit.
        high: f64,
    },
    /// The interval of b holds zero, that of a does not: the size of the ratio has no upper limit, only
    /// "at least". All values outside (`below`, `above`) are compatible; with a b known to be positive
    /// only the side of a's sign is left.
    AtLeast {
        /// Values up to this one (a negative denominator).
        below: f64,
        /// Values from this one on.
        above: f64,
    },
    /// Both intervals hold zero together: no value is excluded.
    Unbounded,
}

impl Interval {
    /// The interval of the ratio times a positive number.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        match self {
            Self::Bounded { low, high } => Self::Bounded { low: low * factor, high: high * factor },
            Self::AtLeast { below, above } => Self::AtLeast { below: below * factor, above: above * factor },
            Self::Unbounded => Self::Unbounded,
        }
    }
}

/// The interval with the coverage factor `t`.
///
/// ```
/// use statistics::fieller::{Interval, Pair, interval};
/// // A blank of 0.4 ± 0.3 below a result of 5: at 95 % it may be nothing, so the ratio is "at least".
/// let over_blank = Pair { a: 5.0, u_a: 0.2, b: 0.4, u_b: 0.3, covariance: 0.0 };
/// let Interval::AtLeast { above, .. } = interval(&over_blank, 1.96) else { panic!("bounded") };
/// assert!((above - 5.04).abs() < 0.01);
/// // Nothing found either: no ratio at all.
/// let nothing = Pair { a: 0.1, u_a: 0.2, ..over_blank };
/// assert_eq!(interval(&nothing, 1.96), Interval::Unbounded);
/// ```
pub fn interval(p: &Pair, t: f64) -> Interval {
    let set = Set::new(p, t * t);
    let disc = set.discriminant();
    if [set.a, set.b, set.c].iter().any(|x| x.is_nan()) {
        return Interval::Unbounded;
    }
    // The discriminant is negative only with A < 0, where the inequality holds for every ρ; with A > 0 the set
    // holds a/b itself, and what is under zero there is rounding (both u nothing).
    if set.a == 0.0 || (set.a < 0.0 && disc < 0.0) {
        return if set.a == 0.0 && set.b != 0.0 {
            one_sided(set.c / (2.0 * set.b), set.b)
        } else {
            Interval::Unbounded
        };
    }
    let [r1, r2] = set.roots();
    let (low, high) = (r1.min(r2), r1.max(r2));
    if set.a > 0.0 {
        Interval::Bounded { low, high }
    } else if set.c > 0.0 {
        Interval::AtLeast { below: low, above: high }
    } else {
        Interval::Unbounded
    }
}

/// Smallest and largest ratio of the set that lie between `from` and `to`, for a ratio that cannot lie
/// elsewhere; `t2` is t², more where the best ratio lies outside and the misfit is counted from an end.
/// An end stays where the set reaches beyond it, or where no root lies inside.
pub fn within(p: &Pair, t2: f64, from: f64, to: f64) -> (f64, f64) {
    let set = Set::new(p, t2);
    let mut inside: Vec<f64> = set.roots().into_iter().filter(|r| r.is_finite() && (from..=to).contains(r)).collect();
    inside.sort_by(f64::total_cmp);
    // At an end where the best ratio lies the form is 0 up to rounding.
    let tolerance = 1e-12 * (set.a.abs() + 2.0 * set.b.abs() + set.c.abs());
    let low = if set.at(from) <= tolerance { from } else { inside.first().copied().unwrap_or(from) };
    let high = if set.at(to) <= tolerance { to } else { inside.last().copied().unwrap_or(to) };
    (low, high)
}

/// A·ρ² − 2B·ρ + C ≤ 0.
struct Set {
    a: f64,
    b: f64,
    c: f64,
}

impl Set {
    fn new(p: &Pair, t2: f64) -> Self {
        Self { a: p.b * p.b - t2 * p.u_b * p.u_b, b: p.a * p.b - t2 * p.covariance, c: p.a * p.a - t2 * p.u_a * p.u_a }
    }

    fn at(&self, ratio: f64) -> f64 {
        self.a * ratio * ratio - 2.0 * self.b * ratio + self.c
    }

    fn discriminant(&self) -> f64 {
        self.b * self.b - self.a * self.c
    }

    /// The root that does not cancel first, the other by Vieta.
    fn roots(&self) -> [f64; 2] {
        let q = self.b + self.discriminant().max(0.0).sqrt().copysign(self.b);
        if q == 0.0 { [0.0, 0.0] } else { [q / self.a, self.c / q] }
    }
}

fn one_sided(limit: f64, slope: f64) -> Interval {
    if slope > 0.0 {
        Interval::AtLeast { below: f64::NEG_INFINITY, above: limit }
    } else {
        Interval::AtLeast { below: limit, above: f64::INFINITY }
    }
}
