//! Is a method fit for this many values and this share of non-detects? Read from the table of
//! simulated coverage, `docs/validation/series_coverage.csv`: how often a 95 % interval held the
//! true figure of lognormal data (sd of ln = 1) with non-detects at three limits.
//!
//! The row with the next lower n and the next higher share of non-detects answers. Words:
//! "fit" at a coverage of 90 % or more, "with care" from 85 %, else "not fit"; also "not fit"
//! where one series in five gave no answer, and outside the simulated range. The bounds 90 and 85 are
//! our own choice, not a standard. What it does not do: it does not know the true shape of the data.

use message::{Message, Name, Shown, series as said};
use quantity::{Check, Finding, Outcome};
use std::sync::OnceLock;

const TABLE: &str = include_str!("../../../docs/validation/series_coverage.csv");

/// One row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// `mean`, `median`, `p90` or `slope`.
    pub quantity: String,
    /// Method name as in the table.
    pub method: String,
    /// Values per series.
    pub n: usize,
    /// Percent of non-detects that the limits aimed at.
    pub censored_percent: f64,
    /// Percent of the answered series whose interval held the true figure.
    pub coverage_percent: f64,
    /// Percent of series without an answer (or with an unbounded one).
    pub no_answer_percent: f64,
}

/// A word with its reason.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitness {
    /// The word.
    pub word: Word,
    /// The reason with its numbers.
    pub why: Message,
}

/// How far a method can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Word {
    /// Coverage of 90 % or more.
    Fit,
    /// Coverage of 85 to 90 %.
    WithCare,
    /// Less, or outside the simulated range.
    NotFit,
}

impl Word {
    /// As a message.
    pub fn said(self) -> Message {
        match self {
            Self::Fit => said::Fit.into(),
            Self::WithCare => said::WithCare.into(),
            Self::NotFit => said::NotFit.into(),
        }
    }
}

/// The table.
pub fn table() -> &'static [Row] {
    static ROWS: OnceLock<Vec<Row>> = OnceLock::new();
    ROWS.get_or_init(|| TABLE.lines().skip(1).filter_map(row).collect())
}

fn row(line: &str) -> Option<Row> {
    let mut cells = line.split(',');
    let quantity = cells.next()?.to_string();
    let method = cells.next()?.to_string();
    let n = cells.next()?.parse().ok()?;
    let mut number = || cells.next()?.parse::<f64>().ok();
    Some(Row {
        quantity,
        method,
        n,
        censored_percent: number()?,
        coverage_percent: number()?,
        no_answer_percent: number()?,
    })
}

/// The word for a quantity and method at n values, `non_detects` of them censored.
pub fn fitness(quantity: &str, method: &str, n: usize, non_detects: usize) -> Fitness {
    let share = 100.0 * non_detects as f64 / n.max(1) as f64;
    let percent = |x| Shown::decimals(x, 0, "%");
    let rows: Vec<&Row> = table().iter().filter(|r| r.quantity == quantity && r.method == method).collect();
    let lowest = rows.iter().map(|r| r.n).min().unwrap_or(0);
    let n_row = rows.iter().map(|r| r.n).filter(|m| *m <= n).max().unwrap_or(lowest);
    // A share is a count over n: half a value of room, so that 8 of 12 is not "over 60 %" by 7 %.
    let room = 50.0 / n.max(1) as f64;
    let found = rows
        .iter()
        .filter(|r| r.n == n_row && r.censored_percent + room >= share)
        .min_by(|a, b| a.censored_percent.total_cmp(&b.censored_percent));
    let Some(r) = found else {
        return Fitness { word: Word::NotFit, why: said::FitnessNone { share: percent(share) }.into() };
    };
    let mut word = if r.coverage_percent >= 90.0 {
        Word::Fit
    } else if r.coverage_percent >= 85.0 {
        Word::WithCare
    } else {
        Word::NotFit
    };
    let mut why: Message = said::Fitness {
        figure: Name::from(quantity),
        held: Shown::decimals(r.coverage_percent, 1, "%"),
        values: r.n as i64,
        share: percent(r.censored_percent),
    }
    .into();
    if r.no_answer_percent >= 20.0 {
        word = Word::NotFit;
        why = said::FitnessUnanswered { fitness: why, share: percent(r.no_answer_percent) }.into();
    }
    if n < lowest {
        word = word.max(Word::WithCare);
        why = said::FitnessFew { fitness: why, values: n as i64 }.into();
    }
    Fitness { word, why }
}

/// A warning where the slope is not fit for this n and share of non-detects.
pub(crate) fn slope_warning(n: usize, non_detects: usize) -> Option<Finding> {
    let f = fitness("slope", "theil-sen", n, non_detects);
    (f.word != Word::Fit).then(|| {
        Finding::new(Check::TrendCoverage, Outcome::NotKnown, said::SlopeCoverage { word: f.word.said(), why: f.why })
    })
}
