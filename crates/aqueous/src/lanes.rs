//! Eight numbers at once: the arithmetic of the batch solver, in plain Rust that compilers turn
//! into vector instructions.
//!
//! exp: Cody & Waite reduction (1980, Software Manual for the Elementary Functions, ch. 6; from
//! memory) and a Taylor polynomial of degree 12 on |r| ≤ ½ ln 2, relative error below 3e−16·few.
//! ln: series of 2·artanh on [√½, √2]. Both are checked against libm in `tests/batch.rs`; the
//! solver's answer does not depend on their last bit, only on the residual it ends with.

#![allow(
    clippy::needless_range_loop,
    reason = "a plain loop over lanes is what compilers turn into vector instructions"
)]
#![allow(clippy::inline_always, reason = "the lane functions are a few instructions each, inside the innermost loops")]

/// Lanes of a block.
pub const LANES: usize = 8;

/// One number a lane.
pub type Lane = [f64; LANES];

/// ln 2 in two parts: the first has trailing zeros, so k·LN2_HIGH is exact.
// Cody & Waite 1980.
const LN2_HIGH: f64 = 6.931_471_803_691_238e-1;
const LN2_LOW: f64 = 1.908_214_929_270_587_7e-10;
/// 1.5·2^52: adding it rounds to an integer held in the low bits.
const ROUND: f64 = 6_755_399_441_055_744.0;

/// 1/n! from n = 12 down to 2.
const FACTORIALS: [f64; 11] = [
    1.0 / 479_001_600.0,
    1.0 / 39_916_800.0,
    1.0 / 3_628_800.0,
    1.0 / 362_880.0,
    1.0 / 40_320.0,
    1.0 / 5_040.0,
    1.0 / 720.0,
    1.0 / 120.0,
    1.0 / 24.0,
    1.0 / 6.0,
    0.5,
];

/// e^x in each lane; arguments are held to ±700.
#[inline(always)]
pub fn exp(x: &Lane) -> Lane {
    let mut out = [0.0; LANES];
    for l in 0..LANES {
        let v = x[l].clamp(-700.0, 700.0);
        let t = v * core::f64::consts::LOG2_E + ROUND;
        let k = t - ROUND;
        let r = (v - k * LN2_HIGH) - k * LN2_LOW;
        let mut p = FACTORIALS[0];
        for c in &FACTORIALS[1..] {
            p = p * r + c;
        }
        let e = 1.0 + (r + r * r * p);
        // 2^k through the exponent field: the low bits of t hold k.
        let scale = f64::from_bits((t.to_bits().wrapping_add(1023)) << 52);
        out[l] = e * scale;
    }
    out
}

/// ln x in each lane for normal positive numbers.
#[inline(always)]
pub fn ln(x: &Lane) -> Lane {
    // 2^52 as bits: joins a small integer to a double.
    const JOIN: u64 = 0x4330_0000_0000_0000;
    const TWO_52: f64 = 4_503_599_627_370_496.0;
    let mut out = [0.0; LANES];
    for l in 0..LANES {
        // Shifting by √½ puts the mantissa between √½ and √2.
        let bits = x[l].to_bits();
        let shifted = bits.wrapping_add(0x3ff0_0000_0000_0000 - 0x3fe6_a09e_667f_3bcd);
        let e = f64::from_bits(JOIN | (shifted >> 52)) - TWO_52 - 1023.0;
        let m = f64::from_bits((shifted & 0x000f_ffff_ffff_ffff).wrapping_add(0x3fe6_a09e_667f_3bcd));
        let s = (m - 1.0) / (m + 1.0);
        let s2 = s * s;
        let mut p = 1.0 / 21.0;
        for d in [19.0, 17.0, 15.0, 13.0, 11.0, 9.0, 7.0, 5.0, 3.0] {
            p = p * s2 + 1.0 / d;
        }
        out[l] = e * LN2_HIGH + (e * LN2_LOW + 2.0 * (s + s * s2 * p));
    }
    out
}
