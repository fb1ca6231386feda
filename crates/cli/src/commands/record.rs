//! Commands on the record as a whole: new, recompute, exclude, sign, verify, backup, restore.

use super::{now, open, whoever};
use crate::failure::Failure;
use anyhow::Context as _;
use programme::store::{self, EventHash};
use programme::work::{self, By, Recomputed};
use std::path::Path;

/// `limpid new`
pub fn new(address: &str) -> Result<(), Failure> {
    let store = programme::start::start(address, &whoever(), &now())?;
    println!("{address}: an empty programme with {} checks; head {}", store.check_rules()?.len(), head(&store)?);
    Ok(())
}

fn head(store: &store::Store) -> Result<String, Failure> {
    Ok(store.head()?.map_or_else(|| "none".into(), |h| h.to_string()))
}

/// `limpid recompute`
pub fn recompute(address: &str, run: Option<&str>) -> Result<(), Failure> {
    let (mut store, at, person) = (open(address)?, now(), whoever());
    let done = work::recompute(&mut store, run, By { person: &person, at: &at })?;
    say(&done);
    Ok(())
}

/// `limpid exclude`
pub fn exclude(address: &str, what: &str, out: bool, why: &str, person: &str) -> Result<(), Failure> {
    let (mut store, at) = (open(address)?, now());
    let done = work::exclude(&mut store, what, out, why, By { person, at: &at })?;
    println!("{what} is {} the evidence: {why} ({person})", if out { "out of" } else { "back in" });
    say(&done);
    Ok(())
}

/// `limpid sign`
pub fn sign(address: &str, result: &str, why: &str, person: &str) -> Result<(), Failure> {
    let (mut store, at) = (open(address)?, now());
    let done = work::sign(&mut store, result, why, By { person, at: &at })?;
    println!("{person} stands for {result}: {why}");
    say(&done);
    Ok(())
}

/// What deriving anew did.
pub fn say(done: &Recomputed) {
    println!("{} results written, {} as they stood; {} verdicts written", done.results, done.same, done.verdicts);
    for c in done.changes.iter().take(20) {
        println!("  {}: {} → {}", c.identity, c.old, c.new);
    }
    if done.changes.len() > 20 {
        println!("  … {} more values changed", done.changes.len() - 20);
    }
    for (subject, old, new) in &done.turned {
        println!("  {subject}: {} → {}", old.word(), new.word());
    }
}

/// `limpid verify`
pub fn verify(address: &str, noted: Option<&str>) -> Result<(), Failure> {
    let store = open(address)?;
    let noted = noted.map(str::parse::<EventHash>).transpose().map_err(Failure::Usage)?;
    let verification = store.verify(noted)?;
    for d in &verification.differences {
        println!("{d}");
    }
    let newer = if verification.differences.is_empty() { work::underivable(&store)? } else { vec![] };
    for line in &newer {
        println!("{line}");
    }
    if verification.differences.is_empty() && newer.is_empty() {
        println!(
            "{address}: {} events, every stored value and every derivation is what it was; head {}",
            verification.events,
            head(&store)?
        );
        return Ok(());
    }
    Err(Failure::Differs)
}

/// `limpid backup`
pub fn backup(address: &str, file: &Path) -> Result<(), Failure> {
    let store = open(address)?;
    store.backup(file)?;
    println!("{}: head {}", file.display(), head(&store)?);
    Ok(())
}

/// `limpid restore`
pub fn restore(file: &Path, address: &str) -> Result<(), Failure> {
    store::restore(file, Path::new(address)).map_err(programme::Error::from)?;
    let verification = open(address)?.verify(None).context("verifying the restored programme")?;
    for d in &verification.differences {
        println!("{d}");
    }
    if !verification.differences.is_empty() {
        return Err(Failure::Differs);
    }
    println!("{address}: {} events, verified", verification.events);
    Ok(())
}
