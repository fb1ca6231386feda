//! Which known source of lead a bottle could be of: the record's ratios of sources against its ratios.
//!
//! In: ratios of sources on record (206/207 and 208/206, either way up) and corrected ratios
//! of a bottle; out: the sources that it agrees with alone, the pairs of sources between which it
//! lies with the share of 206 from the first, or that no known source or pair fits. Single sources
//! by χ² over both ratios at 5 % (they share 206: p is rough), pairs by `measurement::lead::mix`.
//! A bottle that fits a pair already by one of the two alone is told as that one. Ratios lean,
//! they do not prove: a source that nobody measured is not among the answers, and the rock's own
//! lead is one of the sources. Checked in `crates/programme/tests/lead.rs`.

use measurement::lead::{Lean, mix};
use measurement::line::Estimate;
use message::{Message, Shown, lead, word};
use quantity::{Check, Finding, Outcome};
use record::model::LeadSource;
use serde::Serialize;
use statistics::chi2;
use std::collections::BTreeMap;

/// A source with both ratios.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Source {
    /// Its name.
    pub name: String,
    /// 206/207 and 208/206.
    pub ratios: [Estimate; 2],
    /// Where the figures are from.
    pub origin: String,
}

/// Known sources of lead, in order of name; those that cannot be used
/// are findings.
pub fn sources(recorded: &[LeadSource]) -> (Vec<Source>, Vec<Finding>) {
    let mut by_name: BTreeMap<&str, ([Option<Estimate>; 2], &str)> = BTreeMap::new();
    let mut findings = vec![];
    let mut odd = |says: Message| findings.push(Finding::new(Check::MeaningLeadSource, Outcome::NotKnown, says));
    for s in recorded {
        let (ratio, source) = (s.ratio.as_str().into(), s.source.as_str().into());
        // χ² divides by u: without it a ratio can neither agree nor disagree.
        let Some(u) = s.u.filter(|u| *u > 0.0) else {
            odd(lead::RatioWithoutU { ratio, source }.into());
            continue;
        };
        if s.value.is_nan() || s.value <= 0.0 {
            odd(lead::RatioNotPositive { ratio, source }.into());
            continue;
        }
        let upright = Estimate { value: s.value, u };
        let over = Estimate { value: 1.0 / s.value, u: u / (s.value * s.value) };
        let (place, value) = match s.ratio.trim() {
            "206/207" => (0, upright),
            "207/206" => (0, over),
            "208/206" => (1, upright),
            "206/208" => (1, over),
            _ => {
                odd(lead::RatioOfOthers { ratio, source }.into());
                continue;
            }
        };
        by_name.entry(&s.source).or_insert(([None, None], &s.origin)).0[place] = Some(value);
    }
    let mut out = vec![];
    for (name, (ratios, origin)) in by_name {
        if let [Some(first), Some(second)] = ratios {
            out.push(Source { name: name.into(), ratios: [first, second], origin: origin.into() });
        } else {
            findings.push(Finding::new(
                Check::MeaningLeadSource,
                Outcome::NotKnown,
                Message::from(lead::OneRatio { source: name.into() }),
            ));
        }
    }
    (out, findings)
}

/// What a bottle's ratios fit.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fits {
    /// Agrees with these sources, each alone.
    Alone(Vec<String>),
    /// Lies between two sources: the share of 206 from the first, with u.
    Between(Vec<Between>),
    /// Neither one of the known sources nor a mixture of two.
    None,
    /// Too few counts, or no sources.
    CannotTell,
}

/// A pair of sources that a bottle lies between.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Between {
    /// First source.
    pub first: String,
    /// Second source.
    pub second: String,
    /// Share of 206 from the first.
    pub share: f64,
    /// u of the share.
    pub u: f64,
    /// P of a sample on the line lying this far off.
    pub p: f64,
}

/// Holds corrected ratios against the sources.
pub fn fits(sample: &[Estimate; 2], sources: &[Source]) -> Fits {
    if sources.is_empty() || sample.iter().any(|e| e.u > super::LARGEST_RELATIVE_U * e.value) {
        return Fits::CannotTell;
    }
    let alone: Vec<String> =
        sources.iter().filter(|s| p_alone(sample, &s.ratios) >= 0.05).map(|s| s.name.clone()).collect();
    if !alone.is_empty() {
        return Fits::Alone(alone);
    }
    let mut between = vec![];
    for (i, a) in sources.iter().enumerate() {
        for b in &sources[i + 1..] {
            // Two sources of one make-up, or a fit that did not settle, say nothing about this pair.
            let [s, first, second] = [sample, &a.ratios, &b.ratios].map(over_206);
            let Ok(m) = mix(&s, &first, &second) else { continue };
            if m.lean != Lean::Neither && (0.0..=1.0).contains(&m.share) {
                let p = m.p.unwrap_or(1.0);
                between.push(Between { first: a.name.clone(), second: b.name.clone(), share: m.share, u: m.u, p });
            }
        }
    }
    if between.is_empty() { Fits::None } else { Fits::Between(between) }
}

/// 207/206 and 208/206: mixing is linear over one common isotope only.
fn over_206(ratios: &[Estimate; 2]) -> [Estimate; 2] {
    let r = ratios[0];
    [Estimate { value: 1.0 / r.value, u: r.u / (r.value * r.value) }, ratios[1]]
}

fn p_alone(sample: &[Estimate; 2], source: &[Estimate; 2]) -> f64 {
    let chi_squared: f64 =
        sample.iter().zip(source).map(|(s, x)| (s.value - x.value).powi(2) / (s.u * s.u + x.u * x.u)).sum();
    chi2::sf(chi_squared, 2.0)
}

impl Fits {
    /// As a document says it.
    pub fn says(&self) -> Message {
        match self {
            Self::Alone(names) => names
                .iter()
                .rev()
                .map(|n| lead::AsSource { source: n.as_str().into() }.into())
                .reduce(|more: Message, one| lead::Or { one, more }.into())
                .unwrap_or_else(|| lead::NoKnownSource.into()),
            Self::Between(pairs) => pairs
                .iter()
                .rev()
                .map(Between::says)
                .reduce(|more, one| lead::OrBetween { one, more }.into())
                .unwrap_or_else(|| lead::NoKnownSource.into()),
            Self::None => lead::NoKnownSource.into(),
            Self::CannotTell => word::CannotTell.into(),
        }
    }
}

impl Between {
    fn says(&self) -> Message {
        let share = Shown { expanded: Some(200.0 * self.u), ..Shown::decimals(100.0 * self.share, 0, "%") };
        let (first, second) = (self.first.as_str().into(), self.second.as_str().into());
        lead::Between { first, second, share }.into()
    }
}
