//! Commands on the record as a whole: new, recompute, exclude, backup, restore, move.

use super::{named, now, of_entry, open};
use crate::args::Hand;
use crate::failure::Failure;
use crate::out::{progress, say};
use anyhow::Context as _;
use message::{Message, trust as says};
use programme::work::{self, Recomputed};
use record::by::By;
use record::store;
use std::path::Path;

/// `limpid new`
pub fn new(address: &str, hand: &Hand) -> Result<(), Failure> {
    let mut store = begin(address, hand)?;
    hand.keep(&mut store)?;
    let shown = store::shown(address);
    say!("{shown}: an empty programme with {} checks", store.check_rules()?.len());
    say!("{}", named(&store)?.in_english());
    Ok(())
}

/// An empty programme. Nobody is on record in it whom the name of its maker could mean.
pub fn begin(address: impl AsRef<Path>, hand: &Hand) -> Result<store::Store, Failure> {
    Ok(programme::start::start_own(address, hand.name(), &now(), &drawn()?)?)
}

/// Bytes drawn by chance, so that no other programme has the same identity.
pub fn drawn() -> Result<[u8; 16], Failure> {
    let mut out = [0; 16];
    getrandom::fill(&mut out).map_err(|e| anyhow::anyhow!("drawing an identity: {e}"))?;
    Ok(out)
}

/// `limpid recompute`
pub fn recompute(address: &str, run: Option<&str>, hand: &Hand) -> Result<(), Failure> {
    let (mut store, at) = (open(address)?, now());
    hand.may_act(&store)?;
    let done = work::recompute_watched(&mut store, run, By { person: hand.name(), at: &at }, &progress())?;
    hand.keep(&mut store)?;
    say(&done);
    derived(done)
}

/// `limpid exclude`
pub fn exclude(address: &str, what: &str, out: bool, why: &str, hand: &Hand) -> Result<(), Failure> {
    let (mut store, at, person) = (open(address)?, now(), hand.name());
    hand.may_act(&store)?;
    let done = work::exclude(&mut store, what, out, why, By { person, at: &at })?;
    say!("{what} is {} the evidence: {why} ({person})", if out { "out of" } else { "back in" });
    say(&done);
    derived(done)
}

/// `limpid cas-number`
pub fn cas_number(address: &str, (compound, number): (&str, &str), why: &str, hand: &Hand) -> Result<(), Failure> {
    let (mut store, at, person) = (open(address)?, now(), hand.name());
    hand.may_act(&store)?;
    match work::set_cas(&mut store, compound, number, why, By { person, at: &at }).map_err(of_entry)? {
        Some(_) => say!("{compound}: {number} from now on: {why} ({person})"),
        None => say!("{compound} has {number} already; nothing was written"),
    }
    hand.keep(&mut store)
}

/// `limpid vial-name`
pub fn vial_name(address: &str, (vial, name): (&str, &str), why: &str, hand: &Hand) -> Result<(), Failure> {
    let (mut store, at, person) = (open(address)?, now(), hand.name());
    hand.may_act(&store)?;
    let done = work::set_vial_name(&mut store, vial, name, why, By { person, at: &at }).map_err(of_entry)?;
    let Some(done) = done else {
        say!("{vial} has that name already; nothing was written");
        return Ok(());
    };
    hand.keep(&mut store)?;
    say!("{vial}: \"{name}\" from now on: {why} ({person})");
    say(&done);
    derived(done)
}

/// Whether every run gave results.
pub fn derived(done: Recomputed) -> Result<(), Failure> {
    if done.underived.is_empty() { Ok(()) } else { Err(Failure::Underived(done.underived)) }
}

/// What deriving anew did.
pub fn say(done: &Recomputed) {
    if done.results + done.same > 0 {
        say!("results derived from counts: {} written, {} as they stood", done.results, done.same);
    }
    say!("verdicts written: {}", done.verdicts);
    for c in done.changes.iter().take(20) {
        say!("  {}: {} → {}", c.identity, c.old, c.new);
    }
    if done.changes.len() > 20 {
        say!("  … {} more values changed", done.changes.len() - 20);
    }
    for (subject, old, new) in done.turned.iter().take(20) {
        say!("  {subject}: {} → {}", old.word(), new.word());
    }
    if done.turned.len() > 20 {
        say!("  … {} more verdicts turned", done.turned.len() - 20);
    }
    for name in &done.unknown_checks {
        say!("the table of checks speaks of \"{name}\", which this program does not make: that rule decides nothing");
    }
}

/// `limpid backup`
pub fn backup(address: &str, file: &Path) -> Result<(), Failure> {
    let store = open(address)?;
    store.backup(file)?;
    // Of the copy itself: others may have written since.
    let (events, head) = store::told_by_file(file)?;
    let head = head.map_or_else(|| "none".into(), |h| h.to_string());
    say!("{}: {events} events, head {head}", store::shown(file));
    say!("{}", Message::from(says::Copied { file: store::shown(file).into() }).in_english());
    Ok(())
}

/// `limpid restore`
pub fn restore(file: &Path, address: &str) -> Result<(), Failure> {
    store::restore(file, Path::new(address)).map_err(record::Error::from)?;
    let verification = open(address)?.verify(None).context("verifying the restored programme")?;
    for d in &verification.differences {
        say!("{d}");
    }
    if !verification.differences.is_empty() {
        return Err(Failure::Differs);
    }
    say!("{}: {} events, verified", store::shown(address), verification.events);
    say!("{}", named(&open(address)?)?.in_english());
    Ok(())
}

/// `limpid move`
pub fn move_programme(from: &str, to: &str) -> Result<(), Failure> {
    let copied = store::move_programme(from, to)?;
    let head = copied.head.map_or_else(|| "none".into(), |h| h.to_string());
    let (from, to) = (store::shown(from), store::shown(to));
    say!("{to}: {} events, {} rows, the same as {from}", copied.events, copied.rows);
    say!("digest of all rows and events, read from both: {}", copied.digest);
    say!("head {head}");
    say!("{from} is left as it is; write to one of them from now on");
    Ok(())
}
