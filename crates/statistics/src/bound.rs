//! At most how much is there, where nothing was found: the upper bound of a quantity that is not negative.
//!
//! In: a net value (negative ones too), its standard uncertainty and degrees of freedom, and the critical value L_C
//! that it was held against, all in one unit. Out: max(net, 0) + k·u, and never under L_C, in that unit. Net + k·u
//! alone goes under zero for some of the samples that hold nothing, and then bears sentences that nothing supports;
//! under L_C it would call water cleaner than the blanks let anybody see. A net value of zero or less with u of zero and
//! no L_C has no bound over zero: callers refuse it. Sources: Currie 1968, Anal. Chem. 40:586 (L_C); the bound at zero
//! keeps to what a concentration can be. Checked in `tests/bounds.rs`.

use crate::t;

/// One side of 95 %.
pub const SIDE: f64 = 0.05;

/// What laboratories state as expanded uncertainty: U = 2u (common practice; JCGM 100:2008, 6.2).
const REPORTED_K: f64 = 2.0;

/// One-sided 95 % upper bound: max(net, 0) + t(0.95, ν)·u, never under the critical value.
///
/// ```
/// use statistics::bound::upper_bound;
/// // Net −0.0152 ± 0.0034 with 5 degrees of freedom: net + t·u would be "at most −0.0083".
/// assert!((upper_bound(-0.0152, 0.0034, 5.0, None) - 0.00685).abs() < 1e-5);
/// assert_eq!(upper_bound(-0.0152, 0.0034, 5.0, Some(0.0094)), 0.0094);
/// ```
pub fn upper_bound(net: f64, u: f64, dof: f64, critical_value: Option<f64>) -> f64 {
    over(net, t::upper_quantile(SIDE, dof) * u, critical_value)
}

/// The same for a net value that a laboratory reports: k = 2, because its u comes without degrees of freedom and 2u
/// holds for one side of 95 % down to six of them; Student's t where fewer are stated.
pub fn reported_upper_bound(net: f64, u: f64, dof: f64, critical_value: Option<f64>) -> f64 {
    over(net, t::upper_quantile(SIDE, dof).max(REPORTED_K) * u, critical_value)
}

fn over(net: f64, half_width: f64, critical_value: Option<f64>) -> f64 {
    (net.max(0.0) + half_width).max(critical_value.unwrap_or(0.0))
}
