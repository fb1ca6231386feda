//! Every series of a long table at once: each well × element gets a summary and a trend, or the
//! reason why not. In: rows with a group name, in one unit per group; out: one entry per group,
//! in order of the names, whatever the number of threads.
//!
//! What it does not do: no files, no units; the caller brings one unit per group and says what it left
//! out. Cost is linear in the number of series. Checked in `tests/survey.rs` on an extract of
//! groundwater records (US Geological Survey, public domain, doi 10.5066/P9UWRYR4).

use crate::summary::{self, Summary};
use crate::trend::{self, Trend};
use crate::{Error, Observation, Reading};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// One row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Well and element, or whatever makes a series.
    pub group: String,
    /// The row itself.
    pub observation: Observation,
}

/// What is asked of every series.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// Series with fewer rows are named, not computed.
    pub at_least: usize,
    /// The summary.
    pub summary: summary::Request,
    /// The trend.
    pub trend: trend::Request,
}

impl Default for Request {
    fn default() -> Self {
        Self {
            at_least: 8,
            // The 10th percentile of a series with non-detects lies under its limits nearly always.
            summary: summary::Request { shares: vec![0.25, 0.5, 0.75, 0.9], draws: 199, ..summary::Request::default() },
            trend: trend::Request::default(),
        }
    }
}

/// One series.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Its name.
    pub group: String,
    /// Rows.
    pub n: usize,
    /// Non-detects among them.
    pub non_detects: usize,
    /// Summary, or why not.
    pub summary: Result<Summary, Error>,
    /// Trend, or why not.
    pub trend: Result<Trend, Error>,
}

/// How many of several p values stay if no more than this share of them may be false alarms:
/// the largest k with p_(k) ≤ share·k/m. Benjamini & Hochberg (1995) J. R. Stat. Soc. B 57:289;
/// for tests that are independent or depend positively. With hundreds of series one in twenty
/// would "change" by chance alone.
pub fn beyond_chance(p_values: &[f64], share: f64) -> usize {
    let mut sorted = p_values.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    let m = sorted.len() as f64;
    (1..=sorted.len()).rev().find(|k| sorted[k - 1] <= share * *k as f64 / m).unwrap_or(0)
}

/// Groups rows and answers for each group.
pub fn survey(rows: &[Row], request: &Request) -> Vec<Entry> {
    let mut groups: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (i, row) in rows.iter().enumerate() {
        groups.entry(&row.group).or_default().push(i);
    }
    let groups: Vec<(&str, Vec<usize>)> = groups.into_iter().collect();
    groups
        .par_iter()
        .map(|(name, members)| {
            let series: Vec<Observation> = members.iter().map(|i| rows[*i].observation.clone()).collect();
            one(name, &series, request)
        })
        .collect()
}

/// Answers for one series.
pub fn one(name: &str, series: &[Observation], request: &Request) -> Entry {
    let readings: Vec<Reading> = series.iter().map(|o| o.reading).collect();
    let short = || Error::TooFew { what: "a series of the survey", found: series.len(), needed: request.at_least };
    let enough = series.len() >= request.at_least;
    Entry {
        group: name.to_string(),
        n: series.len(),
        non_detects: readings.iter().filter(|r| !r.is_known()).count(),
        summary: if enough { summary::summary(&readings, &request.summary) } else { Err(short()) },
        trend: if enough { trend::trend(series, &request.trend) } else { Err(short()) },
    }
}
