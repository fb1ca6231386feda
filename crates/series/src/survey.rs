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
    /// Share of false alarms among the trends at least as strong as this one, if they are told as
    /// changes ([`false_discovery`]); `None` without a trend.
    pub q: Option<f64>,
}

pub use statistics::many::false_discovery;

/// How many of several p values stay if no more than this share of them may be false alarms.
pub fn beyond_chance(p_values: &[f64], share: f64) -> usize {
    false_discovery(p_values).into_iter().filter(|q| *q <= share).count()
}

/// Puts the share of false alarms beside every trend, by the p that decides.
pub fn among_all(entries: &mut [Entry]) {
    let with_trend: Vec<usize> = (0..entries.len()).filter(|i| entries[*i].trend.is_ok()).collect();
    let p: Vec<f64> =
        with_trend.iter().filter_map(|i| entries[*i].trend.as_ref().ok()).map(Trend::deciding_p).collect();
    for (i, q) in with_trend.into_iter().zip(false_discovery(&p)) {
        entries[i].q = Some(q);
    }
}

/// Groups rows and answers for each group.
pub fn survey(rows: &[Row], request: &Request) -> Vec<Entry> {
    let mut groups: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (i, row) in rows.iter().enumerate() {
        groups.entry(&row.group).or_default().push(i);
    }
    let groups: Vec<(&str, Vec<usize>)> = groups.into_iter().collect();
    let mut entries: Vec<Entry> = groups
        .par_iter()
        .map(|(name, members)| {
            let series: Vec<Observation> = members.iter().map(|i| rows[*i].observation.clone()).collect();
            one(name, &series, request)
        })
        .collect();
    among_all(&mut entries);
    entries
}

/// Answers for one series; among others it has no place yet, see [`among_all`].
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
        q: None,
    }
}
