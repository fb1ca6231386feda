//! How often clean water is called detected at a stated 5 %, by the number of blanks, and what to
//! trust then.
//!
//! In: blanks in one unit; out: the simulated shares and what is to be said of them. The shares come from the
//! project's own simulation of 100,000 draws each (`docs/validation/run_coverage.md`, made by the
//! example `coverage_table`): normal blanks, and skewed ones – lognormal, 25 %, with 3 % spikes of
//! 2 to 20 times. Valid for 3 blanks and more; beyond 40 the figures of 40. Other skewness gives
//! other figures: they say which way to look, they correct nothing. Checked in `tests/detection.rs`.

use super::{Normality, normality};
use message::{Message, Shown, measurement as said};

/// Simulated shares of clean water called detected, in per cent, where 5 is meant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FalseDetections {
    /// Number of blanks.
    pub blanks: usize,
    /// Student's t, normal blanks.
    pub normal_t: f64,
    /// Student's t, skewed blanks.
    pub skewed_t: f64,
    /// Huber's robust scale, skewed blanks.
    pub skewed_robust: f64,
    /// The largest blank taken as the limit, skewed blanks.
    pub skewed_largest: f64,
}

const fn row(blanks: usize, p: [f64; 4]) -> FalseDetections {
    let [normal_t, skewed_t, skewed_robust, skewed_largest] = p;
    FalseDetections { blanks, normal_t, skewed_t, skewed_robust, skewed_largest }
}

/// The table, in rising order of the number of blanks.
// docs/validation/run_coverage.md, second table.
pub const FALSE_DETECTIONS: [FalseDetections; 7] = [
    row(3, [5.1, 9.0, 7.9, 25.2]),
    row(5, [5.0, 8.6, 8.0, 16.6]),
    row(7, [5.0, 8.3, 8.7, 12.5]),
    row(10, [5.0, 7.7, 8.9, 9.1]),
    row(14, [5.1, 6.8, 8.8, 6.5]),
    row(20, [4.9, 6.3, 8.9, 4.7]),
    row(40, [5.0, 4.5, 9.0, 2.4]),
];

/// Blanks from which the largest of them holds 5 %, whatever their distribution.
// 1/(n + 1) ≤ 0.05 for one more draw of the same distribution: n = 19, the next row of the table is 20.
pub const ENOUGH_FOR_LARGEST: usize = 20;

/// What a set of blanks lets one trust.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trust {
    /// Number of blanks.
    pub n: usize,
    /// The test of normality; none with too few blanks.
    pub normality: Option<Normality>,
    /// The row of the table at or below this number of blanks.
    pub expected: FalseDetections,
}

/// Holds a set of blanks against the table; none under three blanks.
pub fn trust(blanks: &[f64]) -> Option<Trust> {
    let expected = *FALSE_DETECTIONS.iter().rev().find(|r| r.blanks <= blanks.len())?;
    Some(Trust { n: blanks.len(), normality: normality(blanks), expected })
}

impl Trust {
    /// Whether the t-based limits may be taken as they stand.
    pub fn t_holds(&self) -> bool {
        self.normality.is_some_and(|n| n.passes)
    }

    /// What may be trusted.
    pub fn says(&self) -> Message {
        let blanks = message::count(self.n);
        match self.normality {
            Some(n) if n.passes => said::BlanksMayBeNormal { blanks }.into(),
            Some(_) => said::BlanksNotNormal { blanks, risk: self.risk(), instead: self.instead() }.into(),
            None => said::BlanksOfNoShape { blanks, risk: self.risk(), instead: self.instead() }.into(),
        }
    }

    fn risk(&self) -> Message {
        let share = Shown::decimals(self.expected.skewed_t, 0, "%");
        said::FalseDetections { share, blanks: message::count(self.expected.blanks) }.into()
    }

    fn instead(&self) -> Message {
        if self.n >= ENOUGH_FOR_LARGEST { said::LargestHolds.into() } else { said::MoreBlanks.into() }
    }
}
