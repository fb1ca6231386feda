//! The effective degrees of freedom of a variance that is a sum of estimated ones.
//!
//! ```text
//! ν_eff = u_c⁴ / Σ (u_i⁴/ν_i)        u_c² = Σ u_i²
//! ```
//!
//! In: the parts u_i² of a variance (of one unit, squared), each the squared uncertainty that one
//! input brings (c_i²·u²(x_i)), with its degrees of freedom ν_i; ∞ for a part that is known exactly.
//! Out: ν_eff. Source: JCGM 100:2008, G.4.1, formula G.2b (Welch 1947, Biometrika 34:28; Satterthwaite
//! 1946, Biometrics 2:110). It holds for independent parts; members of a correlated group count as one
//! part, which the caller makes. Checked in `tests/welch.rs` against the guide's H.1 and scipy.

/// u_i⁴/ν_i: what one part adds to the doubt about the variance. A part of nothing adds none, one with
/// infinite degrees of freedom neither; not a number for a negative variance or for ν not above 0.
pub fn welch_term(variance: f64, dof: f64) -> f64 {
    if variance == 0.0 {
        return 0.0;
    }
    if !(variance > 0.0 && dof > 0.0) {
        return f64::NAN;
    }
    variance * variance / dof
}

/// u_c⁴ over the doubts of all parts: the effective degrees of freedom of a variance whose parts were
/// gathered one by one with [`welch_term`]. `None` where there is no variance, ∞ where nothing of it is in
/// doubt.
pub fn dof_of(variance: f64, doubt: f64) -> Option<f64> {
    if variance == 0.0 {
        return None;
    }
    Some(if doubt == 0.0 { f64::INFINITY } else { variance * variance / doubt })
}

/// The effective degrees of freedom of a sum of parts (u_i², ν_i); `None` where the parts add up to
/// nothing, ∞ where all that count are known exactly.
///
/// ```
/// use statistics::welch::effective_dof;
/// // Four readings and a certificate that is taken as exact: more than the three of the readings.
/// let dof = effective_dof(&[(4.0, 3.0), (1.0, f64::INFINITY)]).unwrap();
/// assert!((dof - 4.6875).abs() < 1e-12);
/// // Equal readings brought nothing: the certificate alone speaks.
/// assert_eq!(effective_dof(&[(0.0, 3.0), (1.0, f64::INFINITY)]), Some(f64::INFINITY));
/// assert_eq!(effective_dof(&[(0.0, 3.0)]), None);
/// ```
pub fn effective_dof(parts: &[(f64, f64)]) -> Option<f64> {
    let variance = parts.iter().map(|p| p.0).sum();
    dof_of(variance, parts.iter().map(|p| welch_term(p.0, p.1)).sum())
}
