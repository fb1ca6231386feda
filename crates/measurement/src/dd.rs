//! Double-double arithmetic: a sum of two f64 with about 31 digits.
//!
//! Sums of squares and orthogonalisation lose digits to cancellation; carried in this arithmetic
//! they lose only digits that nobody reads. Error-free sum and product by Knuth and Dekker
//! (Dekker 1971, Numer. Math. 18:224); the splitting constant 2^27 + 1 limits sizes to about
//! 1e300. No units, no errors: NaN and infinity pass through. Checked by the NIST reference
//! datasets in `tests/line.rs`.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// hi + lo, |lo| ≤ half a unit in the last place of hi.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Dd {
    hi: f64,
    lo: f64,
}

fn two_sum(a: f64, b: f64) -> Dd {
    let s = a + b;
    let bb = s - a;
    Dd { hi: s, lo: (a - (s - bb)) + (b - bb) }
}

fn quick_two_sum(a: f64, b: f64) -> Dd {
    let s = a + b;
    Dd { hi: s, lo: b - (s - a) }
}

fn two_product(a: f64, b: f64) -> Dd {
    // Dekker's splitting constant, 2^27 + 1.
    const SPLIT: f64 = 134_217_729.0;
    let p = a * b;
    let (ta, tb) = (SPLIT * a, SPLIT * b);
    let (ah, bh) = (ta - (ta - a), tb - (tb - b));
    let (al, bl) = (a - ah, b - bh);
    Dd { hi: p, lo: ((ah * bh - p) + ah * bl + al * bh) + al * bl }
}

impl Dd {
    pub(crate) const ZERO: Self = Self { hi: 0.0, lo: 0.0 };
    pub(crate) const ONE: Self = Self { hi: 1.0, lo: 0.0 };

    pub(crate) fn value(self) -> f64 {
        self.hi
    }

    pub(crate) fn sqrt(self) -> Self {
        if self.hi <= 0.0 {
            return Self::ZERO;
        }
        // One Newton step on the f64 root.
        let x = self.hi.sqrt();
        let rest = self - two_product(x, x);
        Self::from(x) + Self::from(rest.hi / (2.0 * x))
    }
}

impl From<f64> for Dd {
    fn from(x: f64) -> Self {
        Self { hi: x, lo: 0.0 }
    }
}

impl Add for Dd {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        let s = two_sum(self.hi, o.hi);
        let t = two_sum(self.lo, o.lo);
        let s = quick_two_sum(s.hi, s.lo + t.hi);
        quick_two_sum(s.hi, s.lo + t.lo)
    }
}

impl Neg for Dd {
    type Output = Self;
    fn neg(self) -> Self {
        Self { hi: -self.hi, lo: -self.lo }
    }
}

impl Sub for Dd {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        self + -o
    }
}

impl Mul for Dd {
    type Output = Self;
    fn mul(self, o: Self) -> Self {
        let p = two_product(self.hi, o.hi);
        quick_two_sum(p.hi, p.lo + (self.hi * o.lo + self.lo * o.hi))
    }
}

impl Div for Dd {
    type Output = Self;
    fn div(self, o: Self) -> Self {
        let q1 = self.hi / o.hi;
        let r = self - o * Self::from(q1);
        let q2 = r.hi / o.hi;
        let r = r - o * Self::from(q2);
        let q3 = r.hi / o.hi;
        Self::from(q1) + Self::from(q2) + Self::from(q3)
    }
}

impl std::iter::Sum for Dd {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, |a, b| a + b)
    }
}
