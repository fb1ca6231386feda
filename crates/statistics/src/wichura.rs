//! A standard normal quantile to about 1e-16 by rational functions; [`crate::normal::quantile`]
//! polishes it on its own Φ.
//!
//! In and out are dimensionless. Source: Wichura (1988), "Algorithm AS 241: the percentage points
//! of the normal distribution", Applied Statistics 37:477, routine PPND16; its coefficients as
//! they stand in the standard library of Python 3.11 (`statistics.NormalDist.inv_cdf`).
//! Valid for 0 < p ≤ 0.5. Checked in `tests/dist.rs`.

// PPND16, |p − 1/2| ≤ 0.425; highest power first.
const MIDDLE: [f64; 8] = [
    2.509_080_928_730_122_7e3,
    3.343_057_558_358_813e4,
    6.726_577_092_700_87e4,
    4.592_195_393_154_987e4,
    1.373_169_376_550_946e4,
    1.971_590_950_306_551_3e3,
    1.331_416_678_917_843_8e2,
    3.387_132_872_796_366_5,
];
const MIDDLE_UNDER: [f64; 8] = [
    5.226_495_278_852_854e3,
    2.872_908_573_572_194_3e4,
    3.930_789_580_009_271e4,
    2.121_379_430_158_659_7e4,
    5.394_196_021_424_751e3,
    6.871_870_074_920_579e2,
    4.231_333_070_160_091e1,
    1.0,
];
// PPND16, r = √(−ln p) ≤ 5.
const TAIL: [f64; 8] = [
    7.745_450_142_783_414e-4,
    2.272_384_498_926_918_4e-2,
    2.417_807_251_774_506e-1,
    1.270_458_252_452_368_4,
    3.647_848_324_763_204_5,
    5.769_497_221_460_691,
    4.630_337_846_156_546,
    1.423_437_110_749_683_5,
];
const TAIL_UNDER: [f64; 8] = [
    1.050_750_071_644_416_9e-9,
    5.475_938_084_995_345e-4,
    1.519_866_656_361_645_7e-2,
    1.481_039_764_274_800_8e-1,
    6.897_673_349_851e-1,
    1.676_384_830_183_803_8,
    2.053_191_626_637_759,
    1.0,
];
// PPND16, r = √(−ln p) > 5.
const FAR: [f64; 8] = [
    2.010_334_399_292_288_1e-7,
    2.711_555_568_743_487_6e-5,
    1.242_660_947_388_078_4e-3,
    2.653_218_952_657_612_4e-2,
    2.965_605_718_285_048_7e-1,
    1.784_826_539_917_291_3,
    5.463_784_911_164_114,
    6.657_904_643_501_103,
];
const FAR_UNDER: [f64; 8] = [
    2.044_263_103_389_939_8e-15,
    1.421_511_758_316_446e-7,
    1.846_318_317_510_054_8e-5,
    7.868_691_311_456_133e-4,
    1.487_536_129_085_061_5e-2,
    1.369_298_809_227_358e-1,
    5.998_322_065_558_88e-1,
    1.0,
];

/// z with Φ(z) = p, 0 < p ≤ 0.5.
pub(crate) fn normal_quantile(p: f64) -> f64 {
    let ratio = |over: &[f64; 8], under: &[f64; 8], r: f64| horner(over, r) / horner(under, r);
    let q = p - 0.5;
    if q >= -0.425 {
        return q * ratio(&MIDDLE, &MIDDLE_UNDER, 0.180625 - q * q);
    }
    let r = (-libm::log(p)).sqrt();
    -(if r <= 5.0 { ratio(&TAIL, &TAIL_UNDER, r - 1.6) } else { ratio(&FAR, &FAR_UNDER, r - 5.0) })
}

fn horner(coefficients: &[f64; 8], r: f64) -> f64 {
    coefficients.iter().fold(0.0, |sum, c| sum * r + c)
}
