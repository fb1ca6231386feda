//! Roots for quantiles: Brent's method between two bounds of different sign, and a guarded
//! Newton iteration on the logarithm of a tail. Pure; both stop at the resolution of f64.

use super::special::Tails;

/// Step in ln x whose square is far below the resolution of f64.
const LAST_STEP: f64 = 1e-10;

/// A zero of `f` between `a` and `b`, where its signs differ (Brent 1973, zeroin). Where they do
/// not differ the better end is given.
pub fn brent(f: impl Fn(f64) -> f64, a: f64, b: f64) -> f64 {
    let (mut a, mut b) = (a, b);
    let (mut fa, mut fb) = (f(a), f(b));
    let (mut c, mut fc) = (a, fa);
    let mut d = b - a;
    let mut e = d;
    for _ in 0..200 {
        if (fb > 0.0) == (fc > 0.0) {
            (c, fc) = (a, fa);
            d = b - a;
            e = d;
        }
        if fc.abs() < fb.abs() {
            (a, b, c) = (b, c, b);
            (fa, fb, fc) = (fb, fc, fb);
        }
        let tol = 2.0 * f64::EPSILON * b.abs() + f64::MIN_POSITIVE;
        let m = 0.5 * (c - b);
        if m.abs() <= tol || fb == 0.0 {
            return b;
        }
        if e.abs() >= tol && fa.abs() > fb.abs() {
            let s = fb / fa;
            let (mut p, mut q) = if a == c {
                (2.0 * m * s, 1.0 - s)
            } else {
                let (q, r) = (fa / fc, fb / fc);
                (s * (2.0 * m * q * (q - r) - (b - a) * (r - 1.0)), (q - 1.0) * (r - 1.0) * (s - 1.0))
            };
            if p > 0.0 {
                q = -q;
            }
            p = p.abs();
            // Interpolation counts only inside three quarters of the bracket and under half the step before the last;
            // else halving, so that a bad fit cannot creep (Brent 1973).
            if 2.0 * p < (3.0 * m * q - (tol * q).abs()).min((e * q).abs()) {
                e = d;
                d = p / q;
            } else {
                d = m;
                e = m;
            }
        } else {
            d = m;
            e = m;
        }
        a = b;
        fa = fb;
        // At least the tolerance: a smaller step would leave b where it stands by rounding.
        b += if d.abs() > tol { d } else { tol.copysign(m) };
        fb = f(b);
    }
    b
}

/// A tail area that a quantile is asked for.
#[derive(Clone, Copy)]
pub(crate) enum Area {
    Lower(f64),
    Upper(f64),
}

impl Area {
    /// The same request, put on the smaller tail.
    pub(crate) fn smaller(self) -> Self {
        match self {
            Self::Lower(p) if p > 0.5 => Self::Upper(1.0 - p),
            Self::Upper(q) if q > 0.5 => Self::Lower(1.0 - q),
            other => other,
        }
    }
}

/// Solves for x > 0 where the tail of `tails(x)` equals the area, by Newton's method on
/// ln(tail) over ln x with a bracket kept around it. `density` is the density at x.
pub(crate) fn positive_quantile(
    area: Area,
    start: f64,
    tails: impl Fn(f64) -> Tails,
    density: impl Fn(f64) -> f64,
) -> f64 {
    let area = area.smaller();
    // (tail, +1 if it grows with x)
    let pick = |t: Tails| match area {
        Area::Lower(_) => (t.lower, 1.0),
        Area::Upper(_) => (t.upper, -1.0),
    };
    let goal = match area {
        Area::Lower(p) | Area::Upper(p) => libm::log(p),
    };
    let (mut lo, mut hi) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut w = libm::log(start.clamp(1e-300, 1e300));
    let mut last_step = f64::INFINITY;
    for _ in 0..400 {
        let x = libm::exp(w);
        let (tail, grows) = pick(tails(x));
        let gap = libm::log(tail) - goal;
        if gap == 0.0 {
            return x;
        }
        if gap * grows > 0.0 {
            hi = w;
        } else {
            lo = w;
        }
        let slope = grows * x * density(x) / tail;
        let mut step = -gap / slope;
        if !step.is_finite() || step.abs() > 20.0 {
            step = -(gap * grows).signum() * 4.0;
        }
        let mut next = w + step;
        // The error after a Newton step is about its square: one this small is the last.
        if step.abs() <= LAST_STEP && (lo..=hi).contains(&next) {
            w = next;
            break;
        }
        if next <= lo || next >= hi || step.abs() > last_step * 0.9 && lo.is_finite() && hi.is_finite() {
            next = match (lo.is_finite(), hi.is_finite()) {
                (true, true) => 0.5 * (lo + hi),
                (true, false) => lo + 4.0,
                (false, true) => hi - 4.0,
                (false, false) => next,
            };
        }
        let moved = (next - w).abs();
        last_step = moved;
        w = next;
        if moved <= 1e-15 || !(-745.0..=709.0).contains(&w) {
            break;
        }
    }
    libm::exp(w)
}
