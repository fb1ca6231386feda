//! `limpid verify`: is every stored value still what it was, does what was derived follow, and is the record what others
//! know of it?

use super::{is_beside, named, now, tell_left_over};
use crate::args::Verify;
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use assessment::engine::ENGINE;
use assessment::verify::{Answer, Verified, verify_watched};
use assessment::witnesses::{Asked, Evidence, Shown, Witnesses};
use message::{Message, Name, count, trust as says};
use record::store::{self, EventHash, Store, StoreError};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use trust::{Head, stamp};

/// Runs `limpid verify`.
pub fn run(args: &Verify) -> Result<(), Failure> {
    let (address, json) = (args.store.as_str(), args.json);
    let noted = args.head.as_deref().map(str::parse::<EventHash>).transpose().map_err(Failure::Usage)?;
    if super::export::is_package(address) {
        if !args.anchor.is_empty() {
            return Err(Failure::Usage(
                "an anchor is held against a programme: `limpid new STORE --from PACKAGE`".into(),
            ));
        }
        return super::export::verify(address, noted, json);
    }
    tell_left_over(address);
    let mut shown = vec![];
    for file in &args.anchor {
        shown.extend(of_file(file, address)?);
    }
    let now = now();
    let asked = Asked { noted, shown: &shown, now: Some(&now) };
    let opened = Store::open(address).map_err(record::Error::from);
    let (found, store) = match opened.and_then(|s| Ok((verify_watched(&s, &asked, &|_| true)?, s))) {
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
        let faults = found.witnesses.faults.iter().map(Message::in_english);
        let differences: Vec<String> = found.rows.differences.iter().map(ToString::to_string).chain(faults).collect();
        say!("{}", document(answer, &differences, Some(&found)));
    } else {
        for line in found.in_words() {
            say!("{line}");
        }
        say!("{}", named(&store)?.in_english());
        if let Some(n @ 1..) = store.only_in_the_log()? {
            say!("{}", Message::from(says::InTheLog { n, file: store::shown(address).into() }).in_english());
        }
        for said in found.witnesses.messages() {
            say!("{}", said.in_english());
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

/// The anchors in a file: an authority's answer, or all lines of heads in a text.
fn of_file(path: &Path, address: &str) -> Result<Vec<Shown>, Failure> {
    let file = path.display().to_string();
    let bytes = fs::read(path).with_context(|| format!("reading {file}"))?;
    let shown = |evidence| Shown { file: file.clone(), beside: is_beside(path, address), evidence };
    Ok(match evidence(path, &bytes)? {
        Found::Stamp(stamp) => vec![shown(Evidence::Stamp(stamp))],
        Found::Heads(heads) => heads.into_iter().map(|h| shown(Evidence::Head(h))).collect(),
    })
}

/// What a file holds that others keep.
pub enum Found {
    /// An authority's answer.
    Stamp(stamp::Stamp),
    /// Lines of heads.
    Heads(Vec<Head>),
}

/// Reads what others kept.
pub fn evidence(path: &Path, bytes: &[u8]) -> Result<Found, Failure> {
    // A text begins otherwise than an answer does: with a letter, not with the sign of a sequence and a length.
    let heads = std::str::from_utf8(bytes).map_or_else(|_| vec![], Head::all_in);
    if !heads.is_empty() {
        return Ok(Found::Heads(heads));
    }
    if path.extension().is_some_and(|e| e.eq_ignore_ascii_case("tsr")) || std::str::from_utf8(bytes).is_err() {
        let read = stamp::read(bytes);
        return read.map(Found::Stamp).map_err(|e| Failure::Refused(format!("{}: {e}", path.display())));
    }
    let file = Name::from(path.display().to_string());
    Err(Failure::Refused(Message::from(says::NothingInIt { file }).in_english()))
}

/// What verifying found, for programs. `derived` lists what does not come out as it stands.
fn document(answer: Answer, differences: &[String], found: Option<&Verified>) -> Value {
    let derived: Vec<&str> = found.iter().flat_map(|f| &f.derived).map(|d| d.sentence.as_str()).collect();
    let behind = found.filter(|_| answer == Answer::NotDerived).and_then(|f| f.reach.in_words());
    let moments = found.iter().flat_map(|f| &f.witnesses.moments).map(Message::in_english);
    let mut document = json!({
        "answer": answer.word(),
        "differences": differences,
        "derived": derived,
        "runs_without_results": found.map_or(&[][..], |f| &f.stuck),
        "engine": { "this": ENGINE, "derived_by": found.and_then(|f| f.reach.engine) },
        "acts_since_derived": found.map(|f| f.reach.acts_since),
        "events": found.map(|f| f.rows.events),
        "rows": found.map(|f| f.rows.rows),
        "head": found.and_then(|f| f.rows.head).map(|h| h.to_string()),
        "method": "every row against the digests of its event, the chain of events, what others know of it, and every result, attribution and verdict derived anew",
        "sources": [],
        "warnings": behind.into_iter().chain(moments).collect::<Vec<_>>(),
    });
    for (name, value) in witnesses_for_programs(found.map(|f| &f.witnesses)) {
        document[name] = value;
    }
    document
}

/// What anchors and signatures say, for programs.
pub fn witnesses_for_programs(found: Option<&Witnesses>) -> [(&'static str, Value); 4] {
    let sign_offs = found.map(|w| {
        let [key, login, typed] = w.sign_offs.map(count);
        json!({ "signed_by_key": key, "by_login": login, "typed": typed })
    });
    let anchor = found.and_then(|w| covered(w.anchor.as_ref(), w.since[0], &w.since_anchor));
    let signature = found.and_then(|w| covered(w.signature.as_ref(), w.since[1], &w.since_signature));
    [
        ("identity", json!(found.and_then(|w| w.identity.as_deref()))),
        ("anchor", json!(anchor)),
        ("signature", json!(signature)),
        ("sign_offs", json!(sign_offs)),
    ]
}

/// What the last anchor or signature covers, and what came since.
fn covered(last: Option<&(i64, Message)>, since: i64, acts: &[Message]) -> Option<Value> {
    let (events, said) = last?;
    let acts: Vec<String> = acts.iter().map(Message::in_english).collect();
    Some(json!({ "covers_events": events, "what": said.in_english(), "events_since": since, "since": acts }))
}
