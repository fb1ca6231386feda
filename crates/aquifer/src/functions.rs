//! The two functions that well tests rest on.
//!
//! * [`theis_w`] — W(u) = ∫_u^∞ e^(−x)/x dx, the exponential integral: drawdown about a well pumped at a
//!   constant rate (Theis 1935, Trans. Am. Geophys. Union 16:519).
//! * [`flowing_g`] — G(α): flow of a well held at a constant drawdown, Q = 2π·T·s·G(α), α = T·t/(S·r²)
//!   (Jacob & Lohman 1952, Trans. Am. Geophys. Union 33:559).
//!
//! In and out: plain numbers without dimension. W by its power series up to 2 and its continued
//! fraction above, to 1e-13. G as the integral (4/π²)·∫ exp(−α·x²) / (x·(J0²(x) + Y0²(x))) dx over x from 0
//! to ∞ (Smith 1937, J. Appl. Phys. 8:441; the form that is positive everywhere): in v = ln x the
//! integrand is smooth, Gauss–Legendre panels take its body and an arc tangent its slow tail at −∞,
//! where Bessel's functions are their first terms. From that a table of Chebyshev pieces of ln G over
//! ln α is made once; a look-up is an order of magnitude faster than the integral.
//!
//! Valid: W for u > 0; G for 1e-5 ≤ α ≤ 1e13 from the table (error below 1e-9), any positive α directly.
//! Checked in `tests/validation_functions.rs` against mpmath's inversion of the Laplace transform.

use std::f64::consts::{FRAC_PI_2, PI};
use std::sync::LazyLock;

// Euler's constant.
const EULER: f64 = 0.577_215_664_901_532_9;

/// The well function W(u) of Theis, the exponential integral E1(u); infinite at 0, NaN below.
///
/// Formula: −γ − ln u + Σ (−1)^(k+1)·u^k/(k·k!) (Abramowitz & Stegun 1964, 5.1.11) up to 2; above, the
/// continued fraction 5.1.22 in its even form.
pub fn theis_w(u: f64) -> f64 {
    if u.is_nan() || u < 0.0 {
        return f64::NAN;
    }
    if u <= 2.0 { w_series(u) } else { w_fraction(u) }
}

fn w_series(u: f64) -> f64 {
    let mut sum = -EULER - libm::log(u);
    let mut power = -1.0;
    for k in 1..60 {
        let k = f64::from(k);
        power *= -u / k;
        let term = power / k;
        sum += term;
        if term.abs() <= 1e-17 * sum.abs() {
            break;
        }
    }
    sum
}

/// Lentz's evaluation of the even part of the continued fraction of E1.
fn w_fraction(u: f64) -> f64 {
    let mut b = u + 1.0;
    let mut c = 1e300;
    let mut d = 1.0 / b;
    let mut h = d;
    for i in 1..200 {
        let i = f64::from(i);
        let a = -i * i;
        b += 2.0;
        d = 1.0 / (a * d + b);
        c = b + a / c;
        let step = c * d;
        h *= step;
        if (step - 1.0).abs() < 1e-16 {
            break;
        }
    }
    h * libm::exp(-u)
}

/// G(α) from the table where it reaches, by quadrature elsewhere; NaN for α that is not positive.
pub fn flowing_g(alpha: f64) -> f64 {
    if alpha.is_nan() || alpha <= 0.0 {
        return f64::NAN;
    }
    let x = libm::log(alpha);
    if TABLE.holds(x) { libm::exp(TABLE.value(x)) } else { flowing_g_by_quadrature(alpha) }
}

/// ln G and its slope d ln G / d ln α at ln α; what the fits use.
///
/// Outside the table the small-time and large-time limits carry on: slope −1/2 below, ln G by
/// quadrature above.
pub fn ln_flowing_g(ln_alpha: f64) -> (f64, f64) {
    if TABLE.holds(ln_alpha) {
        return TABLE.value_and_slope(ln_alpha);
    }
    let h = 1e-3;
    let at = |x: f64| libm::log(flowing_g_by_quadrature(libm::exp(x)));
    (at(ln_alpha), (at(ln_alpha + h) - at(ln_alpha - h)) / (2.0 * h))
}

/// Nodes and weights of Gauss and Legendre, 16 points, positive half.
// Abramowitz & Stegun 1964, table 25.4; recomputed with numpy 2.4.6, numpy.polynomial.legendre.leggauss(16).
const GAUSS: [(f64, f64); 8] = [
    (0.09501250983763744, 0.18945061045506864),
    (0.2816035507792589, 0.18260341504492364),
    (0.45801677765722737, 0.16915651939500265),
    (0.6178762444026438, 0.1495959888165767),
    (0.755404408355003, 0.12462897125553407),
    (0.8656312023878318, 0.0951585116824926),
    (0.9445750230732326, 0.062253523938647456),
    (0.9894009349916499, 0.027152459411754176),
];

/// Half the width of a panel in ln x: the integrand's features are about one wide.
const HALF_PANEL: f64 = 0.5;

/// G(α) by quadrature, relative error about 1e-13; NaN for α that is not positive.
pub fn flowing_g_by_quadrature(alpha: f64) -> f64 {
    if alpha.is_nan() || alpha <= 0.0 {
        return f64::NAN;
    }
    let half_ln = 0.5 * libm::log(alpha);
    // Below x = 1e-8 (and α·x² = 1e-16) the integrand is 1/(J0² + Y0²) with first terms, to rounding.
    let low = (-18.5f64).min(-half_ln - 18.5);
    // At α·x² = 42 the exponential is below 1e-18.
    let high = 0.5 * libm::log(42.0) - half_ln;
    let panels = ((high - low) / (2.0 * HALF_PANEL)).ceil();
    let width = 0.5 * (high - low) / panels;
    let mut sum = 0.0;
    for p in 0..panels as usize {
        let middle = low + width * (2.0 * p as f64 + 1.0);
        for (node, weight) in GAUSS {
            let d = width * node;
            sum += weight * (integrand(alpha, middle - d) + integrand(alpha, middle + d));
        }
    }
    // ∫_−∞^low dv / (1 + (2/π)²·(v + γ − ln 2)²) = (π/2)·(π/2 + atan((2/π)·(low + γ − ln 2)))
    let tail = FRAC_PI_2 * atan_tail((low + EULER - std::f64::consts::LN_2) / FRAC_PI_2);
    4.0 / (PI * PI) * (sum * width + tail)
}

/// π/2 + atan(z) for negative z, without cancellation.
fn atan_tail(z: f64) -> f64 {
    libm::atan(-1.0 / z)
}

/// exp(−α·x²)/(J0² + Y0²) at v = ln x.
fn integrand(alpha: f64, v: f64) -> f64 {
    let x = libm::exp(v);
    let (j, y) = if x < 1e-4 {
        // First two terms of the series (Abramowitz & Stegun 1964, 9.1.12, 9.1.13).
        let q = 0.25 * x * x;
        let ln = (v + EULER - std::f64::consts::LN_2) / FRAC_PI_2;
        (1.0 - q, ln * (1.0 - q) + q / FRAC_PI_2)
    } else {
        (libm::j0(x), libm::y0(x))
    };
    libm::exp(-alpha * x * x) / (j * j + y * y)
}

/// Ends of the table in log10 α.
const TABLE_FROM: f64 = -5.0;
const TABLE_TO: f64 = 13.0;
/// Pieces of the table: each 1.04 wide in ln α.
const PIECES: usize = 40;
/// Coefficients a piece: the error falls by about six each; 16 leave less than 1e-11.
const DEGREE: usize = 16;

struct Table {
    start: f64,
    width: f64,
    pieces: Vec<[f64; DEGREE]>,
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let start = TABLE_FROM * std::f64::consts::LN_10;
    let width = (TABLE_TO - TABLE_FROM) * std::f64::consts::LN_10 / PIECES as f64;
    let pieces = (0..PIECES).map(|p| chebyshev(start + width * p as f64, width)).collect();
    Table { start, width, pieces }
});

/// Chebyshev coefficients of ln G on one piece, from its values at Chebyshev's points.
fn chebyshev(from: f64, width: f64) -> [f64; DEGREE] {
    let n = DEGREE as f64;
    let angle = |k: usize| PI * (k as f64 + 0.5) / n;
    let mut values = [0.0; DEGREE];
    for (k, v) in values.iter_mut().enumerate() {
        let x = from + 0.5 * width * (1.0 + libm::cos(angle(k)));
        *v = libm::log(flowing_g_by_quadrature(libm::exp(x)));
    }
    let mut c = [0.0; DEGREE];
    for (j, c) in c.iter_mut().enumerate() {
        let sum: f64 = (0..DEGREE).map(|k| values[k] * libm::cos(j as f64 * angle(k))).sum();
        *c = sum * 2.0 / n;
    }
    c[0] *= 0.5;
    c
}

impl Table {
    fn holds(&self, ln_alpha: f64) -> bool {
        let x = (ln_alpha - self.start) / self.width;
        x >= 0.0 && x < PIECES as f64
    }

    fn place(&self, ln_alpha: f64) -> (&[f64; DEGREE], f64) {
        let x = (ln_alpha - self.start) / self.width;
        let piece = x as usize;
        (&self.pieces[piece], 2.0 * (x - piece as f64) - 1.0)
    }

    /// Clenshaw's recurrence.
    fn value(&self, ln_alpha: f64) -> f64 {
        let (c, x) = self.place(ln_alpha);
        let (mut a, mut b) = (0.0, 0.0);
        for k in (1..DEGREE).rev() {
            (a, b) = (c[k] + 2.0 * x * a - b, a);
        }
        c[0] + x * a - b
    }

    /// Value and slope: T_k' = k·U_(k−1), summed by the same recurrence for Chebyshev's second kind.
    fn value_and_slope(&self, ln_alpha: f64) -> (f64, f64) {
        let (c, x) = self.place(ln_alpha);
        let (mut a, mut b) = (0.0, 0.0);
        let (mut da, mut db) = (0.0, 0.0);
        for k in (1..DEGREE).rev() {
            (da, db) = (k as f64 * c[k] + 2.0 * x * da - db, da);
            (a, b) = (c[k] + 2.0 * x * a - b, a);
        }
        (c[0] + x * a - b, da * 2.0 / self.width)
    }
}
