//! What one stage of the path added, from nested blanks: a trip blank holds what a bottle blank
//! holds and the journey besides, so their difference is the journey.
//!
//! In: masses (pg per bottle, or any one unit) of the outer and of the inner blanks. Out: the
//! difference of the means with u, Welch's degrees of freedom (Welch 1947, Biometrika 34:28), its
//! two-sided 95 % interval, and the one-sided 95 % upper bound that stands where nothing was found.
//! Valid for near-normal blanks; rare spikes widen it, they do not bias it low. Differences of
//! blanks are for looking at stages: from a sample exactly one blank is subtracted, elsewhere.
//! Checked in the tests below.

use statistics::sample::Moments;
use statistics::t;
use statistics::welch::effective_dof;

/// What a stage added.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Added {
    /// Difference of the means; may be negative.
    pub value: f64,
    /// Its standard uncertainty.
    pub u: f64,
    /// Welch's degrees of freedom.
    pub dof: f64,
    /// Two-sided 95 % interval.
    pub interval: (f64, f64),
    /// One-sided 95 % upper bound.
    pub upper: f64,
}

impl Added {
    /// Whether the interval lies above zero: the stage added something that can be seen.
    pub fn is_seen(&self) -> bool {
        self.interval.0 > 0.0
    }
}

/// Outer blanks less inner blanks; `None` under two of either.
///
/// ```
/// use cleanliness::nested::added;
/// // Trip blanks no higher than bottle blanks: nothing is seen, and what stands is an upper bound, not zero.
/// let journey = added(&[5.0, 6.0, 7.0], &[5.5, 6.5, 6.0]).unwrap();
/// assert!(!journey.is_seen() && journey.upper > 1.0);
/// // A single blank has no scatter to tell a difference by.
/// assert_eq!(added(&[5.0], &[5.5, 6.5]), None);
/// ```
pub fn added(outer: &[f64], inner: &[f64]) -> Option<Added> {
    let (a, b) = (Moments::of(outer)?, Moments::of(inner)?);
    let (na, nb) = (a.n as f64, b.n as f64);
    let (pa, pb) = (a.variance()? / na, b.variance()? / nb);
    // Equal blanks throughout: the spread is not known, the fewer of the two sets speaks for both.
    let dof = effective_dof(&[(pa, na - 1.0), (pb, nb - 1.0)]).unwrap_or(na.min(nb) - 1.0);
    Some(with_dof(a.mean - b.mean, (pa + pb).sqrt(), dof))
}

fn with_dof(value: f64, u: f64, dof: f64) -> Added {
    let (two, one) = (t::quantile(0.975, dof), t::quantile(0.95, dof));
    Added { value, u, dof, interval: (value - two * u, value + two * u), upper: value + one * u }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn welch_against_scipy() {
        // scipy 1.17.1: stats.ttest_ind([14, 11, 16, 12, 15], [6, 5, 8], equal_var=False).confidence_interval(0.95)
        // dof 5.503664, interval 4.065468 to 10.467866; 1e-5: the table's digits.
        let d = added(&[14.0, 11.0, 16.0, 12.0, 15.0], &[6.0, 5.0, 8.0]).unwrap();
        assert!((d.value - 7.266_667).abs() < 1e-6);
        assert!((d.dof - 5.503_664).abs() < 1e-6, "{}", d.dof);
        assert!(
            (d.interval.0 - 4.065_468).abs() < 1e-5 && (d.interval.1 - 10.467_866).abs() < 1e-5,
            "{:?}",
            d.interval
        );
        assert!(d.is_seen());
    }

    #[test]
    fn equal_blanks_leave_the_fewer_to_speak() {
        // Three times 12.3 and ten times 5.2: in f64 their sums round, and the rounding is no scatter.
        let d = added(&[12.3; 3], &[5.2; 10]).unwrap();
        assert_eq!((d.u, d.dof), (0.0, 2.0));
    }

    #[test]
    fn too_few_say_nothing() {
        assert_eq!(added(&[1.0], &[1.0, 2.0]), None);
    }

    #[test]
    fn a_stage_that_added_nothing_keeps_its_upper_bound() {
        let d = added(&[5.0, 6.0, 7.0], &[5.5, 6.5, 6.0]).unwrap();
        assert!(!d.is_seen() && d.upper > 0.0);
    }
}
