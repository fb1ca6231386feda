//! Fieller's interval of a ratio a/b of two quantities with known variances and covariance.
//!
//! In: a, b, their standard uncertainties and covariance in units that the caller keeps, and the
//! coverage factor t. Out: all ratios ρ with (a − ρ·b)² ≤ t²·(v_a − 2ρc + ρ²v_b). It holds also where
//! b is not far from zero: with g = t²·v_b/b² ≥ 1 the ratio is bounded on one side at most.
//! Source: Fieller 1954, J. R. Stat. Soc. B 16:175. Checked in `measurement/tests/ratio.rs` and
//! `limits/tests/claim.rs`.

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
    /// The interval of b holds zero, that of a does not: all values outside (`below`, `above`).
    AtLeast {
        /// Values up to this one (a negative denominator).
        below: f64,
        /// Values from this one on.
        above: f64,
    },
    /// No value is excluded.
    Unbounded,
}

/// The interval with the coverage factor `t`.
pub fn interval(p: &Pair, t: f64) -> Interval {
    // (a − ρb)² ≤ t²(v_a − 2ρc + ρ²v_b)  ⇔  A·ρ² − 2B·ρ + C ≤ 0.
    let t2 = t * t;
    let qa = p.b * p.b - t2 * p.u_b * p.u_b;
    let qb = p.a * p.b - t2 * p.covariance;
    let qc = p.a * p.a - t2 * p.u_a * p.u_a;
    let disc = qb * qb - qa * qc;
    if qa == 0.0 || disc < 0.0 {
        // disc < 0 only with A < 0: the inequality holds for every ρ.
        return if qa == 0.0 && qb != 0.0 { one_sided(qc / (2.0 * qb), qb) } else { Interval::Unbounded };
    }
    // The root that does not cancel first, the other by Vieta.
    let q = qb + disc.sqrt().copysign(qb);
    let (r1, r2) = if q == 0.0 { (0.0, 0.0) } else { (q / qa, qc / q) };
    let (low, high) = (r1.min(r2), r1.max(r2));
    if qa > 0.0 {
        Interval::Bounded { low, high }
    } else if qc > 0.0 {
        Interval::AtLeast { below: low, above: high }
    } else {
        Interval::Unbounded
    }
}

fn one_sided(limit: f64, slope: f64) -> Interval {
    if slope > 0.0 {
        Interval::AtLeast { below: f64::NEG_INFINITY, above: limit }
    } else {
        Interval::AtLeast { below: limit, above: f64::INFINITY }
    }
}
