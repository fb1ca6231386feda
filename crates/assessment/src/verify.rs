//! Is the record what was written, and does what was derived follow from it? Three answers:
//!
//! * intact;
//! * kept and not yet derived, or derived by another engine: no damage, `work::recompute` heals it;
//! * altered: a row or an event is not what was written, the record is not what its [`witnesses`] know, or a derived value does not come out although the same engine
//!   derived it and nothing came since, so that it was altered together with its chain.
//!
//! What would be derived is asked of the same functions that derive. Derivations and findings in other words alone are
//! never told as altered. All of it is read as it stands at one moment. Checked in `crates/programme/tests/engine.rs`.

use crate::accounting;
use crate::assess;
use crate::attribution;
use crate::chemistry_checks::ChemistryChecks;
use crate::derive;
use crate::derive::{of_one_run, runs_in_order};
use crate::engine::{ENGINE, Reach, reach};
use crate::put_back::PutBack;
use crate::quality::Quality;
use crate::reported_results;
use crate::same_water::Waters;
use crate::witnesses::{self, Asked, Witnesses};
use message::Message;
use record::by::{Watch, go_on};
use record::error::Error;
use record::store::{EventHash, Store, Verification};

/// Lines on what is not yet derived.
const SHOWN: usize = 20;

/// Something derived that does not come out as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Differs {
    /// What, and how, in a sentence.
    pub sentence: String,
    /// In which way.
    pub way: Way,
}

/// How something derived differs from what stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// It was never derived.
    Missing,
    /// Another number, unit or word of a verdict.
    Value,
    /// The same in other words.
    Wording,
}

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// Everything is what it was, and everything derived follows.
    Intact,
    /// Kept and sound, not yet derived, or derived by another engine.
    NotDerived,
    /// Not what was written or derived.
    Altered,
}

impl Answer {
    /// In a word or two.
    pub fn word(self) -> &'static str {
        match self {
            Self::Intact => "intact",
            Self::NotDerived => "not yet derived",
            Self::Altered => "altered",
        }
    }
}

/// What verifying found.
#[derive(Debug, Clone)]
pub struct Verified {
    /// Rows and events against the chain.
    pub rows: Verification,
    /// What was derived against what comes out now; not asked where rows or events differ.
    pub derived: Vec<Differs>,
    /// How far the record was derived.
    pub reach: Reach,
    /// Runs that give no results as the record stands, and why. What was derived of them before is rejected.
    pub stuck: Vec<String>,
    /// What signatures, anchors and moments say.
    pub witnesses: Witnesses,
}

impl Verified {
    /// The answer.
    pub fn answer(&self) -> Answer {
        let values = self.derived.iter().any(|d| d.way == Way::Value);
        if !self.rows.differences.is_empty() || !self.witnesses.faults.is_empty() || (values && self.reach.is_current())
        {
            Answer::Altered
        } else if self.derived.is_empty() && !self.by_another_engine() {
            Answer::Intact
        } else {
            Answer::NotDerived
        }
    }

    fn by_another_engine(&self) -> bool {
        self.reach.engine.is_some_and(|e| e != ENGINE)
    }

    /// Every difference in a line (of what is not yet derived the first), then what it means.
    pub fn in_words(&self) -> Vec<String> {
        let mut out: Vec<String> = self.rows.differences.iter().map(ToString::to_string).collect();
        let shown = if self.answer() == Answer::NotDerived { SHOWN } else { self.derived.len() };
        out.extend(self.witnesses.faults.iter().map(Message::in_english));
        out.extend(self.derived.iter().take(shown).map(|d| d.sentence.clone()));
        if self.derived.len() > shown {
            out.push(format!("… and {} more", self.derived.len() - shown));
        }
        out.extend(self.stuck.iter().map(|s| format!("{s}: it gives no results as the record stands")));
        match self.answer() {
            Answer::Altered if self.rows.differences.is_empty() && self.witnesses.faults.is_empty() => {
                out.push(format!(
                    "engine {ENGINE} derived these and nothing came since: they were altered together with their chain"
                ))
            }
            Answer::NotDerived => {
                let behind = self.reach.in_words().unwrap_or_else(|| "the same in other words".into());
                out.push(if self.reach.engine.is_some_and(|e| e > ENGINE) {
                    format!("kept and sound, {behind}")
                } else {
                    format!("kept and sound, not yet derived ({behind}): run `limpid recompute`")
                });
            }
            _ => {}
        }
        out
    }
}

/// Verifies rows, events and everything derived; `noted` is a head hash noted elsewhere.
///
/// # Errors
/// The store cannot be read. What differs is not an error but the answer.
pub fn verify(store: &Store, noted: Option<EventHash>) -> Result<Verified, Error> {
    verify_watched(store, &Asked { noted, ..Asked::default() }, &|_| true)
}

/// As [`verify`], with what is shown from outside and the moment, watched.
///
/// # Errors
/// As [`verify`]; [`Error::Stopped`].
pub fn verify_watched(store: &Store, asked: &Asked, watch: Watch) -> Result<Verified, Error> {
    go_on(watch, "every stored value against its digest")?;
    store.verify_then(asked.noted, |rows| {
        let witnesses = witnesses::look(store, asked, rows.differences.is_empty())?;
        let mut out = Verified { rows, derived: vec![], reach: reach(store)?, stuck: vec![], witnesses };
        if out.rows.differences.is_empty() {
            match compare(store, watch, &mut out) {
                // Evidence that nothing can be derived from is no damage.
                Err(e) if !matches!(e, Error::Store(_) | Error::Stopped { .. }) => {
                    out.derived.push(Differs { sentence: e.to_string(), way: Way::Missing });
                }
                other => other?,
            }
        }
        Ok(out)
    })
}

/// What does not come out as it stands, in words; empty where everything follows.
///
/// # Errors
/// The store cannot be read; evidence that nothing can be derived from.
pub fn differences(store: &Store) -> Result<Vec<String>, Error> {
    let rows = Verification { head: None, events: 0, rows: 0, differences: vec![] };
    let mut out =
        Verified { rows, derived: vec![], reach: reach(store)?, stuck: vec![], witnesses: Witnesses::default() };
    compare(store, &|_| true, &mut out)?;
    Ok(out.derived.into_iter().map(|d| d.sentence).collect())
}

/// Derives everything anew, keeps nothing, and notes what differs.
fn compare(store: &Store, watch: Watch, out: &mut Verified) -> Result<(), Error> {
    let mut reduced = vec![];
    let mut cases = vec![];
    let mut earlier = derive::EarlierRuns::default();
    for run in runs_in_order(store)? {
        go_on(watch, &format!("deriving run {}", run.name))?;
        let id = run.id;
        let one = derive::prepare_after(store, run, &mut earlier)
            .and_then(|prepared| Ok((derive::reduce(&prepared)?, prepared)));
        match one {
            Ok((run, prepared)) => {
                out.derived.extend(derive::differences(store, &prepared, &run)?);
                reduced.push((prepared, run));
            }
            // A run that cannot be reduced stops none of the others; its results have findings that say so.
            Err(e) if of_one_run(&e) => {
                cases.extend(assess::of_stuck_run(store, id, e.message())?);
                out.stuck.push(e.to_string());
            }
            Err(other) => return Err(other),
        }
    }
    let pairs: Vec<attribution::RunPair> = reduced.iter().map(|(p, r)| (p, r)).collect();
    go_on(watch, "whose metal it is, by all bottles")?;
    let fits = attribution::all(store, &pairs)?;
    out.derived.extend(attribution::differences(store, &fits, &pairs)?);
    out.derived.extend(accounting::differences(store, &fits, &pairs)?);
    go_on(watch, "the verdicts")?;
    let meanings = ChemistryChecks::of(store)?;
    let quality = Quality::of(store, pairs.iter().copied())?;
    let back = PutBack::of(store, &pairs)?;
    let waters = Waters::of(store, &pairs, &back)?;
    let standing =
        assess::Standing { meanings: &meanings, quality: &quality, runs: &pairs, fits: &fits, waters: &waters };
    out.derived.extend(assess::differences(store, std::mem::take(&mut cases))?);
    out.derived.extend(reported_results::differences(store, &meanings)?);
    for (prepared, run) in &reduced {
        cases.extend(assess::cases(store, prepared, run, &standing)?);
    }
    out.derived.extend(assess::differences(store, cases)?);
    Ok(())
}
