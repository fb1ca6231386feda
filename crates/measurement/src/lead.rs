//! Isotope ratios of lead: mass bias by a reference, and mixing of two sources.
//!
//! In: ratios such as 207/206 and 208/206 with u, a reference of known ratio measured beside, and
//! the ratios of possible sources; out: corrected ratios, the share of a source with u, and
//! whether the sample lies on the line between two sources at all.
//! Mass bias: exponential law (Russell, Papanastassiou & Tombrello 1978),
//! R = R_m·(C/M)^p with p = ln(m_a/m_b)/ln(m_c/m_d); p = 1 for the same pair of isotopes.
//! Mixing: with a common denominator isotope R_mix = f·R_A + (1 − f)·R_B, where f is the share of
//! that isotope (not of all lead; [`Mixing::share_of_total`] converts). f by least squares with
//! the u of sample and sources (effective variance). With two ratios or more the fit is tested: a
//! sample off the line has another source. Ratios lean, they do not prove: sources that
//! nobody measured are not among the answers. Checked in `tests/ratio.rs`.

// Two equal masses are equal numbers.
#![allow(clippy::float_cmp)]

use crate::error::{Error, all_positive, same_length};
use crate::line::Estimate;
use serde::Serialize;
use statistics::{chi2, normal};

/// Atomic masses of 204, 206, 207 and 208 Pb in Da: AME2020, as in `reference/isotopes.csv`
/// (u about 1e-6 Da: of no weight in a mass bias).
pub const MASSES: [(u16, f64); 4] =
    [(204, 203.973_043_5), (206, 205.974_465_2), (207, 206.975_896_8), (208, 207.976_652)];

/// The mass of an isotope of lead, Da.
///
/// # Errors
/// [`Error::OutOfRange`] for a mass number that stable lead does not have.
pub fn mass(number: u16) -> Result<f64, Error> {
    MASSES.iter().find(|(n, _)| *n == number).map(|(_, m)| *m).ok_or(Error::OutOfRange {
        what: "mass number of lead".into(),
        value: f64::from(number),
        range: "204, 206, 207 or 208",
    })
}

/// A reference of known ratio, measured in the same run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reference {
    /// Masses of its two isotopes, Da: numerator and denominator.
    pub masses: (f64, f64),
    /// Known ratio.
    pub certified: Estimate,
    /// Measured ratio.
    pub measured: Estimate,
}

/// Corrects a ratio of isotopes with `masses` (numerator, denominator, Da).
///
/// # Errors
/// [`Error::OutOfRange`] for a ratio or mass at or below zero, or a reference of two equal masses.
///
/// ```
/// use measurement::lead::{Reference, correct, mass};
/// use measurement::line::Estimate;
/// // An isotope over itself shows no bias: refused, not taken for none.
/// let one = Estimate { value: 1.0, u: 0.001 };
/// let m206 = mass(206)?;
/// let reference = Reference { masses: (m206, m206), certified: one, measured: one };
/// assert!(correct(&one, (m206, mass(208)?), &reference).is_err());
/// # Ok::<(), measurement::error::Error>(())
/// ```
pub fn correct(measured: &Estimate, masses: (f64, f64), reference: &Reference) -> Result<Estimate, Error> {
    let (c, m) = (reference.certified, reference.measured);
    all_positive("ratios", &[measured.value, c.value, m.value])?;
    let r = reference.masses;
    all_positive("masses", &[masses.0, masses.1, r.0, r.1])?;
    let base = libm::log(r.0 / r.1);
    if base == 0.0 {
        return Err(Error::ZeroDenominator { what: "the mass difference of the reference".into() });
    }
    let p = libm::log(masses.0 / masses.1) / base;
    let value = measured.value * libm::pow(c.value / m.value, p);
    let relative = (measured.u / measured.value).hypot(p * (c.u / c.value).hypot(m.u / m.value));
    Ok(Estimate { value, u: value * relative })
}

/// A sample between two sources.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Mixing {
    /// Share of the denominator isotope that came from the first source; outside 0 to 1 where the
    /// sample lies beyond a source.
    pub share: f64,
    /// u of the share.
    pub u: f64,
    /// Distance of the sample from the mixing line, Σ(residual/u)².
    pub chi2: f64,
    /// Ratios − 1.
    pub dof: usize,
    /// P(χ² ≥ chi2) for a sample on the line; `None` with one ratio only.
    pub p: Option<f64>,
    /// What it leans to.
    pub lean: Lean,
}

/// What a sample leans to, at 95 %.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Lean {
    /// More than half from the first source.
    First,
    /// More than half from the second source.
    Second,
    /// Either may have the larger part.
    CannotTell,
    /// Not a mixture of these two.
    Neither,
}

/// Fits the share of source `a` in the sample; all three have the same ratios in the same order.
///
/// # Errors
/// [`Error::Length`], [`Error::TooFew`] without ratios, [`Error::OutOfRange`] for a ratio or u at
/// or below zero, [`Error::Unsupported`] where the sources cannot be told apart,
/// [`Error::NotConverged`].
pub fn mix(sample: &[Estimate], a: &[Estimate], b: &[Estimate]) -> Result<Mixing, Error> {
    same_length("ratios of the first source", a.len(), sample.len())?;
    same_length("ratios of the second source", b.len(), sample.len())?;
    if sample.is_empty() {
        return Err(Error::TooFew { what: "ratios", found: 0, needed: 1 });
    }
    for e in sample.iter().chain(a).chain(b) {
        all_positive("ratio", &[e.value])?;
    }
    for s in sample {
        all_positive("u of a ratio", &[s.u])?;
    }
    let apart = a.iter().zip(b).any(|(a, b)| (a.value - b.value).abs() > 2.0 * a.u.hypot(b.u));
    if !apart {
        return Err(Error::Unsupported {
            what: "the two sources have the same ratios within their u: no sample can tell them apart".into(),
        });
    }
    // u of the sources enters the weights through f itself, so weights and share are repeated until they agree.
    let mut f = 0.5;
    for _ in 0..200 {
        let (mut top, mut bottom) = (0.0, 0.0);
        for ((s, a), b) in sample.iter().zip(a).zip(b) {
            let (v, e) = (variance(s, a, b, f), a.value - b.value);
            top += (s.value - b.value) * e / v;
            bottom += e * e / v;
        }
        let next = top / bottom;
        let change = (next - f).abs();
        f = next;
        if change < 1e-13 * (1.0 + f.abs()) {
            return Ok(finish(sample, a, b, f, (1.0 / bottom).sqrt()));
        }
    }
    Err(Error::NotConverged { what: "the share of two sources", iterations: 200, residual: f })
}

fn variance(s: &Estimate, a: &Estimate, b: &Estimate, f: f64) -> f64 {
    s.u * s.u + (f * a.u).powi(2) + ((1.0 - f) * b.u).powi(2)
}

fn finish(sample: &[Estimate], a: &[Estimate], b: &[Estimate], share: f64, u: f64) -> Mixing {
    let chi2: f64 = sample
        .iter()
        .zip(a)
        .zip(b)
        .map(|((s, a), b)| {
            let r = s.value - share * a.value - (1.0 - share) * b.value;
            r * r / variance(s, a, b, share)
        })
        .sum();
    let dof = sample.len() - 1;
    let p = (dof > 0).then(|| chi2::sf(chi2, dof as f64));
    let k = normal::upper_quantile(0.025);
    let beyond = share + k * u < 0.0 || share - k * u > 1.0;
    let lean = if p.is_some_and(|p| p < 0.05) || beyond {
        Lean::Neither
    } else if share - k * u > 0.5 {
        Lean::First
    } else if share + k * u < 0.5 {
        Lean::Second
    } else {
        Lean::CannotTell
    };
    Mixing { share, u, chi2, dof, p, lean }
}

impl Mixing {
    /// Share of all lead atoms from the first source. `per_denominator` is the amount of all lead
    /// over that of the denominator isotope in each source: 1 + R(204) + R(207) + R(208).
    pub fn share_of_total(&self, per_denominator: (f64, f64)) -> f64 {
        let a = self.share * per_denominator.0;
        a / (a + (1.0 - self.share) * per_denominator.1)
    }
}
