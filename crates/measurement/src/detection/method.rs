//! Method detection limits of US regulation: 40 CFR 136 appendix B, revision 2 (definition and
//! first step read; the rest from memory). Gross scale: the lowest measured value that is
//! distinguishable from method blanks with 99 % confidence. Not to be mixed up with L_C and L_D.

use super::{Error, finite, spread};
use crate::blank;

/// Confidence of the rule.
const ONE_PERCENT: f64 = 0.01;
/// Fewest spiked samples, and fewest blanks.
pub const FEWEST: usize = 7;

/// MDL from spiked samples or blanks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mdl {
    /// The limit, gross scale.
    pub value: f64,
    /// Values behind it.
    pub n: usize,
    /// Degrees of freedom.
    pub dof: f64,
    /// Student's t at 99 %, one-sided; not a number where an order statistic was taken.
    pub t: f64,
}

/// What the blanks give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MdlBlanks {
    /// All blanks are numbers: max(0, mean) + t·S.
    FromSpread(Mdl),
    /// Some are numbers: the highest.
    Highest(Mdl),
    /// Some are numbers and there are over 100: the 99th percentile, rank 0.99·n rounded.
    Percentile {
        /// The limit.
        mdl: Mdl,
        /// Its rank from below.
        rank: usize,
    },
    /// No blank is a number: the blanks give no limit.
    NotGiven,
}

impl MdlBlanks {
    /// The limit, where there is one.
    pub fn value(&self) -> Option<f64> {
        match self {
            Self::FromSpread(m) | Self::Highest(m) | Self::Percentile { mdl: m, .. } => Some(m.value),
            Self::NotGiven => None,
        }
    }
}

/// MDL_s = t(0.99, n − 1)·S.
///
/// # Errors
/// [`Error::TooFew`] under seven, [`Error::AllEqual`], [`Error::NotFinite`].
pub fn mdl_from_spikes(spiked: &[f64]) -> Result<Mdl, Error> {
    spread("spiked", spiked, FEWEST)?;
    let c = blank::centre(spiked);
    let dof = spiked.len() as f64 - 1.0;
    let t = statistics::t::upper_quantile(ONE_PERCENT, dof);
    Ok(Mdl { value: t * c.sd, n: spiked.len(), dof, t })
}

/// MDL_b from method blanks; `None` for a blank that gave no numerical result.
///
/// # Errors
/// [`Error::TooFew`] under seven, [`Error::AllEqual`] where all are the same number,
/// [`Error::NotFinite`].
pub fn mdl_from_blanks(blanks: &[Option<f64>]) -> Result<MdlBlanks, Error> {
    let n = blanks.len();
    if n < FEWEST {
        return Err(Error::TooFew { what: "blanks", found: n, needed: FEWEST });
    }
    let mut numbers: Vec<f64> = blanks.iter().flatten().copied().collect();
    finite("blanks", &numbers)?;
    if numbers.is_empty() {
        return Ok(MdlBlanks::NotGiven);
    }
    let dof = n as f64 - 1.0;
    if numbers.len() == n {
        spread("blanks", &numbers, FEWEST)?;
        let c = blank::centre(&numbers);
        let t = statistics::t::upper_quantile(ONE_PERCENT, dof);
        return Ok(MdlBlanks::FromSpread(Mdl { value: c.value.max(0.0) + t * c.sd, n, dof, t }));
    }
    numbers.sort_by(f64::total_cmp);
    let without_spread = |value: f64| Mdl { value, n, dof, t: f64::NAN };
    if n <= 100 {
        return Ok(MdlBlanks::Highest(without_spread(numbers[numbers.len() - 1])));
    }
    // Blanks without a number stand below those with one.
    let rank = (0.99 * n as f64).round() as usize;
    let missing = n - numbers.len();
    Ok(match rank.checked_sub(missing).filter(|k| *k > 0) {
        Some(k) => MdlBlanks::Percentile { mdl: without_spread(numbers[k - 1]), rank },
        None => MdlBlanks::NotGiven,
    })
}

/// Factors from an MDL to its confidence limits: √(ν/χ²) at a two-sided coverage.
pub fn mdl_confidence(dof: f64, coverage: f64) -> [f64; 2] {
    let tail = (1.0 - coverage) / 2.0;
    let factor = |chi2: f64| (dof / chi2).sqrt();
    [factor(statistics::chi2::upper_quantile(tail, dof)), factor(statistics::chi2::quantile(tail, dof))]
}

/// The yearly review.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MdlCheck {
    /// New over old.
    pub ratio: f64,
    /// Share of blanks above the old MDL.
    pub blanks_above: f64,
    /// Whether the old one may stand: ratio within 0.5 to 2.0 and fewer than 3 % of blanks above.
    pub may_stand: bool,
}

/// Whether an MDL may stand for another year, from the data since.
///
/// # Errors
/// [`Error::OutOfRange`] where a limit is not above zero.
pub fn mdl_review(old: f64, new: f64, blanks: &[f64]) -> Result<MdlCheck, Error> {
    for (what, value) in [("old MDL", old), ("new MDL", new)] {
        if !(value > 0.0 && value.is_finite()) {
            return Err(Error::OutOfRange { what, value, range: "above 0" });
        }
    }
    let above = blanks.iter().filter(|b| **b > old).count() as f64;
    let blanks_above = if blanks.is_empty() { 0.0 } else { above / blanks.len() as f64 };
    let ratio = new / old;
    Ok(MdlCheck { ratio, blanks_above, may_stand: (0.5..=2.0).contains(&ratio) && blanks_above < 0.03 })
}
