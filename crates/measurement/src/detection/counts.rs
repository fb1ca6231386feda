//! Limits from counts: Currie's formulas and the exact test.
//!
//! In: counts of a blank (or its known expectation), counting times in s. Out: net counts in the
//! sample's time, and the same as rates.
//!
//! ```text
//! S_C = z(1−α)·√(N_B·r·(1 + r))      r = t_S/t_B      (known blank: √B)
//! S_D = z² + 2·S_C where α = β; in general S_D = S_C + z_β²/2 + z_β·√(z_β²/4 + S_C + σ₀²)
//! ```
//!
//! The exact test (Przyborowski & Wilenski 1940): given N_S + N_B, N_S is binomial with
//! p = t_S/(t_S + t_B) where nothing but blank is there. It holds α from above at any count; the
//! formulas do not below some 100 counts.

use super::{Error, Risks};

/// What was counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counting {
    /// Counts of the blank in its time.
    pub blank_counts: u64,
    /// Counting time of the blank, s.
    pub blank_time_s: f64,
    /// Counting time of the sample, s.
    pub sample_time_s: f64,
    /// Whether the blank is known so well that its own u does not count.
    pub blank_known: bool,
}

/// The exact test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExactCounts {
    /// Detected from this gross count on.
    pub gross_needed: u64,
    /// Probability of reaching it with nothing but blank there, given the total: ≤ α.
    pub alpha_achieved: f64,
    /// L_C in net counts: one count less than needed, blank taken off.
    pub critical_value: f64,
    /// Net counts that are missed with probability β, the blank taken at its estimate.
    pub detection_limit: f64,
}

/// Limits in net counts in the sample's time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CountLimits {
    /// Expected blank counts in the sample's time.
    pub blank: f64,
    /// S_C.
    pub critical_value: f64,
    /// S_D.
    pub detection_limit: f64,
    /// S_Q: relative standard deviation 10 %.
    pub quantification_limit: f64,
    /// The exact test.
    pub exact: ExactCounts,
}

/// k_Q: relative standard deviation of one in ten at the quantification limit (Currie 1968).
const K_Q: f64 = 10.0;

/// Largest ratio of counting times, either way up.
// The programme's own choice: a microsecond beside a second; nobody plans further apart.
const MOST_RATIO: f64 = 1e6;

/// Largest number of counts.
// A double holds whole numbers exactly up to 2^53 = 9.0e15 (IEEE 754); a detector's day is 1e14 at a rate of 1e9 per s.
const MOST_COUNTS: f64 = 1e15;

/// Limits from counts.
///
/// ```
/// use measurement::detection::{count_limits, Counting, Risks};
/// // No count in the blank: Currie's formula would call a single count significant.
/// let none = Counting { blank_counts: 0, blank_time_s: 100.0, sample_time_s: 100.0, blank_known: false };
/// let l = count_limits(none, Risks::default()).unwrap();
/// assert_eq!(l.critical_value, 0.0);
/// assert_eq!(l.exact.gross_needed, 5);
/// ```
///
/// # Errors
/// [`Error::OutOfRange`] for times that are not above zero or over a million times apart, more than 1e15 counts, or risks
/// outside (0, 0.5).
pub fn count_limits(c: Counting, risks: Risks) -> Result<CountLimits, Error> {
    let risks = risks.check()?;
    for (what, value) in [("blank_time_s", c.blank_time_s), ("sample_time_s", c.sample_time_s)] {
        if !(value > 0.0 && value.is_finite()) {
            return Err(Error::OutOfRange { what, value, range: "a time above 0 s" });
        }
    }
    let r = c.sample_time_s / c.blank_time_s;
    if !(1.0 / MOST_RATIO..=MOST_RATIO).contains(&r) {
        let range = "1e-6 to 1e6: sample and blank counted for times that can be compared";
        return Err(Error::OutOfRange { what: "sample_time_s/blank_time_s", value: r, range });
    }
    let blank = c.blank_counts as f64 * r;
    for (what, value) in [("blank_counts", c.blank_counts as f64), ("blank counts in the sample's time", blank)] {
        if value > MOST_COUNTS {
            return Err(Error::OutOfRange { what, value, range: "up to 1e15 counts" });
        }
    }
    let variance = if c.blank_known { blank } else { blank * (1.0 + r) };
    let za = statistics::normal::upper_quantile(risks.alpha);
    let zb = statistics::normal::upper_quantile(risks.beta);
    let critical_value = za * variance.sqrt();
    let detection_limit = critical_value + zb * zb / 2.0 + zb * (zb * zb / 4.0 + critical_value + variance).sqrt();
    let k2 = K_Q * K_Q;
    Ok(CountLimits {
        blank,
        critical_value,
        detection_limit,
        quantification_limit: k2 / 2.0 * (1.0 + (1.0 + 4.0 * variance / k2).sqrt()),
        exact: exact(c, blank, risks),
    })
}

fn exact(c: Counting, blank: f64, risks: Risks) -> ExactCounts {
    let p = c.sample_time_s / (c.sample_time_s + c.blank_time_s);
    // Probability of k or more gross counts with nothing but blank there.
    let tail = |k: u64| {
        if k == 0 {
            1.0
        } else if c.blank_known {
            statistics::poisson::tails(k - 1, blank).upper
        } else {
            statistics::binomial::tails(k - 1, k + c.blank_counts, p).upper
        }
    };
    // The tail falls with k: double until below α, then halve.
    let (mut low, mut high) = (0, 1);
    while tail(high) > risks.alpha {
        low = high;
        high *= 2;
    }
    while high - low > 1 {
        let middle = u64::midpoint(low, high);
        if tail(middle) > risks.alpha {
            low = middle;
        } else {
            high = middle;
        }
    }
    ExactCounts {
        gross_needed: high,
        alpha_achieved: tail(high),
        critical_value: high as f64 - 1.0 - blank,
        detection_limit: statistics::poisson::upper_limit(high - 1, risks.beta) - blank,
    }
}
