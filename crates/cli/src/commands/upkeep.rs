//! Commands on the record as a whole: new, recompute, exclude, sign, verify, backup, restore,
//! move.

use super::{now, of_entry, open};
use crate::args::Hand;
use crate::failure::Failure;
use crate::out::{progress, say};
use anyhow::Context as _;
use assessment::engine::ENGINE;
use assessment::verify::{self, Answer, Verified};
use programme::work::{self, Recomputed};
use record::by::By;
use record::model::VerdictWord;
use record::store::{self, EventHash, StoreError};
use serde_json::{Value, json};
use std::path::Path;

/// `limpid new`
pub fn new(address: &str, hand: &Hand) -> Result<(), Failure> {
    let mut store = begin(address, hand)?;
    hand.keep(&mut store)?;
    let shown = store::shown(address);
    say!("{shown}: an empty programme with {} checks; head {}", store.check_rules()?.len(), head(&store)?);
    Ok(())
}

/// An empty programme. Nobody is on record in it whom the name of its maker could mean.
pub fn begin(address: impl AsRef<Path>, hand: &Hand) -> Result<store::Store, Failure> {
    Ok(programme::start::start(address, hand.name(), &now())?)
}

fn head(store: &store::Store) -> Result<String, Failure> {
    Ok(store.head()?.map_or_else(|| "none".into(), |h| h.to_string()))
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

/// `limpid sign`
pub fn sign(address: &str, result: &str, why: &str, hand: &Hand) -> Result<(), Failure> {
    let Some(person) = hand.person.as_deref() else {
        return Err(Failure::Usage("a verdict is signed by somebody: --as PERSON".into()));
    };
    let (mut store, at) = (open(address)?, now());
    hand.may_act(&store)?;
    programme::hands::may_sign(&store, person)?;
    let done = work::sign(&mut store, result, why, By { person, at: &at })?;
    say!("{person} stands for {result}: {why}");
    let now = programme::case::case(&store, result)?.result;
    say!("verdict: {}", programme::case::verdict_in_words(&now));
    if now.verdict == Some(VerdictWord::Provisional) {
        say!(
            "a word answers for warnings; what is named here is decisive evidence that is missing: `limpid case` says what was not known"
        );
    }
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

/// `limpid verify`
pub fn verify(address: &str, noted: Option<&str>, json: bool) -> Result<(), Failure> {
    let noted = noted.map(str::parse::<EventHash>).transpose().map_err(Failure::Usage)?;
    if super::export::is_package(address) {
        return super::export::verify(address, noted, json);
    }
    let opened = store::Store::open(address).map_err(record::Error::from);
    let found = match opened.and_then(|s| verify::verify(&s, noted)) {
        // Not even readable: the greatest difference of all.
        Err(record::Error::Store(e @ StoreError::Damaged { .. })) => {
            if json {
                say!("{}", document(Answer::Altered, &[e.to_string()], None));
            } else {
                say!("{e}");
            }
            return Err(Failure::Differs);
        }
        other => other?,
    };
    let answer = found.answer();
    if json {
        let differences: Vec<String> = found.rows.differences.iter().map(ToString::to_string).collect();
        say!("{}", document(answer, &differences, Some(&found)));
    } else {
        for line in found.in_words() {
            say!("{line}");
        }
        if answer == Answer::Intact {
            let head = found.rows.head.map_or_else(|| "none".into(), |h| h.to_string());
            say!(
                "{}: {} events, every stored value and every derivation is what it was; head {head}",
                store::shown(address),
                found.rows.events
            );
        }
    }
    match answer {
        Answer::Intact => Ok(()),
        Answer::NotDerived => Err(Failure::Behind),
        Answer::Altered => Err(Failure::Differs),
    }
}

/// What verifying found, for programs. `derived` lists what does not come out as it stands.
fn document(answer: Answer, differences: &[String], found: Option<&Verified>) -> Value {
    let derived: Vec<&str> = found.iter().flat_map(|f| &f.derived).map(|d| d.sentence.as_str()).collect();
    json!({
        "answer": answer.word(),
        "differences": differences,
        "derived": derived,
        "runs_without_results": found.map_or(&[][..], |f| &f.stuck),
        "engine": { "this": ENGINE, "derived_by": found.and_then(|f| f.reach.engine) },
        "acts_since_derived": found.map(|f| f.reach.acts_since),
        "events": found.map(|f| f.rows.events),
        "rows": found.map(|f| f.rows.rows),
        "head": found.and_then(|f| f.rows.head).map(|h| h.to_string()),
        "method": "every row against the digests of its event, the chain of events, and every result, attribution and verdict derived anew",
        "sources": [],
        "warnings": found.filter(|_| answer == Answer::NotDerived).and_then(|f| f.reach.in_words()).into_iter().collect::<Vec<_>>(),
    })
}

/// `limpid backup`
pub fn backup(address: &str, file: &Path) -> Result<(), Failure> {
    let store = open(address)?;
    store.backup(file)?;
    say!("{}: head {}", store::shown(file), head(&store)?);
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
