//! Is a method fit for this many values, this share of non-detects and this scatter? Read from the
//! table of simulated coverage, `docs/validation/series_coverage.csv`: how often a 95 % interval held
//! the true figure of lognormal data (sd of ln 0.5, 1, 1.5, 2) and of gamma data (shape 4 and 1, sd of
//! ln 0.53 and 1.28) with non-detects at three limits.
//!
//! The row with the next lower n and the next higher share of non-detects answers, of the shapes
//! that scatter less than the data and of the next that scatters more the one with the lowest
//! coverage; where the scatter of the data is not known, of all. Words: "fit" at a coverage of 90 % or
//! more, "with care" from 85 %, else "not fit"; also "not fit" where one series in five gave no
//! answer, and outside the simulated range. The bounds 90 and 85 are our own choice, not a standard.
//! What it does not do: it does not know the true shape of the data. The slope was simulated at sd of
//! ln 1 alone: its test looks at the order of values, which scatter does not change.

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
    /// `lognormal` or `gamma`.
    pub shape: String,
    /// sd of the logarithms of the simulated values.
    pub sd_ln: f64,
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
    let shape = cells.next()?.to_string();
    let sd_ln = cells.next()?.parse().ok()?;
    let n = cells.next()?.parse().ok()?;
    let mut number = || cells.next()?.parse::<f64>().ok();
    Some(Row {
        quantity,
        method,
        shape,
        sd_ln,
        n,
        censored_percent: number()?,
        coverage_percent: number()?,
        no_answer_percent: number()?,
    })
}

/// The data that a figure is of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Data {
    /// Values and non-detects.
    pub n: usize,
    /// Non-detects among them.
    pub non_detects: usize,
    /// sd of ln of the values as a line through the probability plot has it; `None` where there is none.
    pub sd_ln: Option<f64>,
}

impl Data {
    /// The scatter with one standard error of its own, σ/√(2·known): half of all estimates are low.
    fn scatter_up_to(self) -> Option<f64> {
        let known = self.n.saturating_sub(self.non_detects).max(1) as f64;
        self.sd_ln.map(|sd| sd * (1.0 + 1.0 / libm::sqrt(2.0 * known)))
    }
}

/// The word for a quantity and method of these data.
pub fn fitness(quantity: &str, method: &str, data: Data) -> Fitness {
    let Data { n, non_detects, .. } = data;
    let share = 100.0 * non_detects as f64 / n.max(1) as f64;
    let percent = |x| Shown::decimals(x, 0, "%");
    let rows: Vec<&Row> = table().iter().filter(|r| r.quantity == quantity && r.method == method).collect();
    let most = rows.iter().map(|r| r.sd_ln).fold(0.0, f64::max);
    let scatter = data.scatter_up_to().unwrap_or(most);
    if scatter > most && quantity != "slope" {
        let (found, most) = (Shown::decimals(scatter, 1, ""), Shown::decimals(most, 1, ""));
        return Fitness { word: Word::NotFit, why: said::FitnessScatter { found, most }.into() };
    }
    let next = rows.iter().map(|r| r.sd_ln).filter(|s| *s >= scatter).fold(most, f64::min);
    let lowest = rows.iter().map(|r| r.n).min().unwrap_or(0);
    let n_row = rows.iter().map(|r| r.n).filter(|m| *m <= n).max().unwrap_or(lowest);
    // A share is a count over n: half a value of room, so that 8 of 12 is not "over 60 %" by 7 %.
    let room = 50.0 / n.max(1) as f64;
    let censored = rows.iter().map(|r| r.censored_percent).filter(|c| c + room >= share).min_by(f64::total_cmp);
    let answers = rows.iter().filter(|r| r.n == n_row && Some(r.censored_percent) == censored && r.sd_ln <= next);
    let Some(r) = answers.min_by(|a, b| {
        (a.no_answer_percent < UNANSWERED, a.coverage_percent)
            .partial_cmp(&(b.no_answer_percent < UNANSWERED, b.coverage_percent))
            .unwrap_or(std::cmp::Ordering::Equal)
    }) else {
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
        shape: Name::from(r.shape.as_str()),
        scatter: Shown::trimmed(r.sd_ln, 3, ""),
        values: r.n as i64,
        share: percent(r.censored_percent),
    }
    .into();
    if r.no_answer_percent >= UNANSWERED {
        word = Word::NotFit;
        why = said::FitnessUnanswered { fitness: why, share: percent(r.no_answer_percent) }.into();
    }
    if n < lowest {
        word = word.max(Word::WithCare);
        why = said::FitnessFew { fitness: why, values: n as i64 }.into();
    }
    Fitness { word, why }
}

/// Percent of series without an answer from which a method is not fit: one in five, our choice.
const UNANSWERED: f64 = 20.0;

/// Whether the interval of a slope is fit for this n and share of non-detects.
pub fn of_slope(n: usize, non_detects: usize) -> Fitness {
    fitness("slope", "theil-sen", Data { n, non_detects, sd_ln: None })
}

/// A warning where the slope is not fit for this n and share of non-detects.
pub(crate) fn slope_warning(n: usize, non_detects: usize) -> Option<Finding> {
    let f = of_slope(n, non_detects);
    (f.word != Word::Fit).then(|| {
        Finding::new(Check::TrendCoverage, Outcome::NotKnown, said::SlopeCoverage { word: f.word.said(), why: f.why })
    })
}
