//! Sums of groups of compounds that limits name: between the sum of what was found and that with the bounds of the rest.
//!
//! In: the compounds of each sample. Out: for each limit of a sum ([`crate::compound_limits`]) the sample that comes
//! nearest to it. Checked in `tests/compound_limits.rs`.

use super::{Compound, How, Row, identity, whose, whose_short};
use crate::cas;
use crate::claim::{at_most, substance};
use crate::compare::Answer;
use crate::compound_limits::{self, Of, group_limits, in_unit, is_closed, is_member};
use crate::table::Limit;
use message::{Arg, Message, Shown, absence as said, count};
use quantity::{Amount, Unit};
use serde::Serialize;
use std::collections::BTreeMap;

/// The sum of a group in one sample, beside its limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupSum {
    /// The group, as `reference/compound_groups.csv` calls it.
    pub group: String,
    /// The sample.
    pub sample: String,
    /// Members looked for.
    pub looked_for: usize,
    /// Members of a closed list that nobody looked for.
    pub not_looked_for: usize,
    /// Members found.
    pub found: usize,
    /// Sum of what was found, in the unit of the list.
    pub lower: f64,
    /// The same with the bounds of what was not found; none where a bound is missing.
    pub upper: Option<f64>,
    /// Members that bound nothing: without a limit of detection, or found and reported without u.
    pub open: Vec<String>,
    /// Compounds of the sample that no table knows, where the sum keeps to its limit only if they are none of the group.
    pub unknown: Vec<String>,
    /// The limit of the sum.
    pub limit: f64,
    /// Whose, with document and mark, in English.
    pub authority: String,
    /// In short, to be said in any language.
    #[serde(skip)]
    pub whose: Message,
    /// The first day of a limit that is still to come on the day of the sample.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// The sum beside the limit.
    pub answer: Answer,
}

/// One compound of a sample, under whatever names.
pub(super) struct Standing {
    name: String,
    found: bool,
    /// What is there at least in the sum of what was found.
    value: f64,
    /// Its standard uncertainty; none where none is stated.
    u: Option<f64>,
    upper_bound: Option<f64>,
    /// Found without u, or rejected: it bears no answer.
    bare: bool,
}

/// The compounds of a sample.
#[derive(Default)]
pub(super) struct Sample<'a> {
    on: Option<&'a str>,
    /// By what makes two names one compound.
    pub compounds: BTreeMap<String, Standing>,
}

impl Sample<'_> {
    /// The highest possible sum of all; none where a bound is missing.
    pub fn highest(&self) -> Option<f64> {
        self.compounds.values().map(|c| c.upper_bound).sum()
    }
}

/// Samples with their compounds; a compound under two names once, with the higher value and bound.
pub(super) fn by_sample<'a>(list: &'a [Compound], rows: &[Row]) -> BTreeMap<&'a str, Sample<'a>> {
    let mut out: BTreeMap<&str, Sample> = BTreeMap::new();
    for (c, r) in list.iter().zip(rows) {
        let sample = out.entry(&c.sample).or_default();
        sample.on = sample.on.or(c.on.as_deref());
        let next = standing(r);
        sample
            .compounds
            .entry(identity(c))
            .and_modify(|same| {
                same.upper_bound = same.upper_bound.zip(next.upper_bound).map(|(a, b)| a.max(b));
                if next.value > same.value {
                    (same.value, same.u) = (next.value, next.u);
                }
                same.found |= next.found;
                same.bare |= next.bare;
            })
            .or_insert_with(|| standing(r));
    }
    out
}

/// Does no table of compounds know it, by number or name?
fn is_unknown(identity: &str) -> bool {
    cas::by_cas(identity).is_none()
}

fn standing(r: &Row) -> Standing {
    // Over the range of the instrument: at least its end, and no more is known.
    let over = if let (Some(Amount::Above(b)), false) = (&r.amount, r.rejected) { Some(b.limit) } else { None };
    Standing {
        name: r.name.clone(),
        found: r.found,
        value: r.value.or(over).filter(|_| r.found).unwrap_or(0.0),
        u: if over.is_some() { Some(0.0) } else { r.u },
        upper_bound: r.upper_bound,
        bare: r.how == Some(How::Value) || (r.rejected && r.found),
    }
}

/// Is it of a group whose sum one of these authorities limits?
pub(super) fn in_a_group(identity: &str, authorities: &[String]) -> bool {
    group_limits()
        .iter()
        .any(|l| l.of == Of::Sum && authorities.contains(&l.limit.authority) && is_member(&l.group, identity))
}

/// The sums of the groups of which anything was looked for.
pub(super) fn groups(samples: &BTreeMap<&str, Sample>, authorities: &[String], unit: &Unit) -> Vec<GroupSum> {
    let sums = group_limits().iter().filter(|l| l.of == Of::Sum && authorities.contains(&l.limit.authority));
    sums.filter_map(|l| {
        let of_samples = samples.iter().filter_map(|(name, s)| sum(name, s, &l.group, &l.limit, unit));
        of_samples.reduce(|worst, next| if rank(&next) > rank(&worst) { next } else { worst })
    })
    .collect()
}

/// Over the limit first, then what cannot be told, then the highest.
fn rank(s: &GroupSum) -> (u8, f64, f64) {
    let answer = match s.answer {
        Answer::Above => 2,
        Answer::CannotTell => 1,
        Answer::Below => 0,
    };
    (answer, s.lower, s.upper.unwrap_or(f64::INFINITY))
}

fn sum(name: &str, sample: &Sample, group: &str, limit: &Limit, unit: &Unit) -> Option<GroupSum> {
    let ended = sample.on.is_some_and(|d| !limit.valid_until.is_empty() && d > limit.valid_until.as_str());
    let figure = in_unit(limit, unit).filter(|_| !ended)?;
    let of: Vec<&Standing> = sample.compounds.iter().filter(|(i, _)| is_member(group, i)).map(|(_, c)| c).collect();
    if of.is_empty() {
        return None;
    }
    let found: Vec<&&Standing> = of.iter().filter(|c| c.found).collect();
    let bounds = of.iter().map(|c| if c.found { c.upper_bound.filter(|_| !c.bare) } else { c.upper_bound });
    let upper: Option<f64> = bounds.sum();
    let open = of.iter().filter(|c| c.upper_bound.is_none() || c.bare).map(|c| c.name.clone()).collect();
    let listed = compound_limits::members(group).map_or(0, std::collections::BTreeSet::len);
    let not_looked_for = if is_closed(group) { listed.saturating_sub(of.len()) } else { 0 };
    // Over its limit by what was found with its u alone: how far the others may be off nobody stated.
    let sure: f64 = found.iter().filter(|c| c.u.is_some()).map(|c| c.value).sum();
    let u = found.iter().filter_map(|c| c.u).map(|u| u * u).sum::<f64>().sqrt();
    // Whether what no table knows belongs to an open group, nobody can say here: only where it would fit in too is the
    // sum under its limit.
    let strangers: Vec<&Standing> =
        sample.compounds.iter().filter(|(i, _)| !is_closed(group) && is_unknown(i)).map(|(_, c)| c).collect();
    let with_strangers: Option<f64> = strangers.iter().map(|c| c.upper_bound.filter(|_| !c.bare)).chain([upper]).sum();
    let fits = |x: Option<f64>| x.is_some_and(|x| x <= figure);
    let strangers_decide = fits(upper) && !fits(with_strangers);
    let unknown: Vec<String> = strangers.iter().filter(|_| strangers_decide).map(|c| c.name.clone()).collect();
    let answer = if sure - statistics::normal::ONE_SIDED_95 * u > figure {
        Answer::Above
    } else if not_looked_for == 0 && unknown.is_empty() && fits(upper) {
        Answer::Below
    } else {
        Answer::CannotTell
    };
    let from = Some(limit.valid_from.clone()).filter(|_| !limit.decides_on(sample.on));
    Some(GroupSum {
        group: group.into(),
        sample: name.into(),
        looked_for: of.len(),
        not_looked_for,
        found: found.len(),
        lower: found.iter().map(|c| c.value).sum(),
        upper,
        open,
        unknown,
        limit: figure,
        authority: whose(limit).in_english(),
        whose: whose_short(limit),
        from,
        answer,
    })
}

impl GroupSum {
    /// The name of the group; of a group of one, its compound's.
    pub fn name(&self) -> Vec<Arg> {
        Message::named("compound_group", &self.group).map_or_else(|| substance(&self.group), |m| vec![m.into()])
    }

    /// In words: both ends, the limit and what follows.
    pub fn told(&self, unit: &Unit) -> Message {
        let (group, n, k) = (self.name(), count(self.looked_for), count(self.found));
        let amount = |x: f64| Shown::trimmed(x, 2, unit.to_string());
        let (lower, beside) = (amount(self.lower), self.told_limit(unit));
        match self.upper {
            Some(upper) => {
                let upper = at_most(upper, unit.to_string());
                said::GroupSum { group, n, k, lower, upper, beside }.into()
            }
            None => said::GroupSumOpen { group, n, k, lower, names: super::some(&self.open).into(), beside }.into(),
        }
    }

    /// The limit of the sum, and how the sum lies to it.
    fn told_limit(&self, unit: &Unit) -> Message {
        let (limit, whose) = (Shown::trimmed(self.limit, 3, unit.to_string()), self.whose.clone());
        if let Some(from) = &self.from {
            return said::SumLimitComing { limit, whose, from: from.as_str().into() }.into();
        }
        match self.answer {
            Answer::Above => said::SumLimitOver { limit, whose }.into(),
            Answer::Below => said::SumLimitUnder { limit, whose }.into(),
            Answer::CannotTell if self.not_looked_for > 0 => {
                said::SumLimitMissing { limit, whose, missing: count(self.not_looked_for) }.into()
            }
            Answer::CannotTell if !self.unknown.is_empty() => {
                said::SumLimitUnknown { limit, whose, names: super::some(&self.unknown).into() }.into()
            }
            Answer::CannotTell => said::SumLimitBeside { limit, whose }.into(),
        }
    }
}
