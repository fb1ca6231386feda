//! Is a method fit for this many values and this share of non-detects? Read from the table of
//! simulated coverage, `docs/validation/series_coverage.csv`: how often a 95 % interval held the
//! true figure of lognormal data (sd of ln = 1) with non-detects at three limits.
//!
//! The row with the next lower n and the next higher share of non-detects answers. Words:
//! "fit" at a coverage of 90 % or more, "with care" from 85 %, else "not fit"; also "not fit"
//! where one series in five gave no answer, and outside the simulated range. The bounds 90 and 85 are
//! our own choice, not a standard. What it does not do: it does not know the true shape of the data.

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
    pub why: String,
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
    /// In words.
    pub fn text(self) -> &'static str {
        match self {
            Self::Fit => "fit",
            Self::WithCare => "with care",
            Self::NotFit => "not fit",
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
        return Fitness {
            word: Word::NotFit,
            why: format!("{share:.0} % non-detects: more than any simulated series had"),
        };
    };
    let mut word = if r.coverage_percent >= 90.0 {
        Word::Fit
    } else if r.coverage_percent >= 85.0 {
        Word::WithCare
    } else {
        Word::NotFit
    };
    let mut why = format!(
        "a 95 % interval of the {quantity} held the true one in {:.1} % of simulated lognormal series of {} values, {:.0} % non-detects",
        r.coverage_percent, r.n, r.censored_percent
    );
    if r.no_answer_percent >= 20.0 {
        word = Word::NotFit;
        why = format!("{why}; {:.0} % of them gave no bounded answer", r.no_answer_percent);
    }
    if n < lowest {
        word = word.max(Word::WithCare);
        why = format!("{why}; {n} values are fewer than any simulated series had");
    }
    Fitness { word, why }
}

/// A warning where the slope is not fit for this n and share of non-detects.
pub(crate) fn slope_warning(n: usize, non_detects: usize) -> Option<Finding> {
    let f = fitness("slope", "theil-sen", n, non_detects);
    (f.word != Word::Fit).then(|| {
        Finding::new(
            Check::TrendCoverage,
            Outcome::NotKnown,
            format!("interval of the slope: {} ({})", f.word.text(), f.why),
        )
    })
}
