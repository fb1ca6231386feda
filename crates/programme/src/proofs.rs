//! Keys of persons, signatures by key, and heads that others keep, as acts of the record.
//!
//! A private key never comes here: who signs hands over the finished signature, made where the key is. What is kept was
//! checked first, so that no honest act makes a record that `verify` finds fault with. A key that is on record stays
//! there; that it was retired or lost is another act, after which it signs nothing more.
//! Checked in `crates/cli/tests/proofs.rs`.

use assessment::witnesses::{self, ToSign};
use record::by::{By, said};
use record::error::Error;
use record::model::{AnchorKind, KeyEndHow, PersonKey, SignedWhat};
use record::store::{ActInfo, Cell, EventHash, NamedCells, Store, StoreError};
use serde_json::json;
use trust::{Head, Key, KeyHeld, Stamp};

fn info(kind: &str, by: By, body: serde_json::Value) -> ActInfo {
    ActInfo { kind: kind.into(), author: by.person.into(), at: by.at.into(), body }
}

fn unfit(what: impl Into<String>, found: impl Into<String>, expected: impl Into<String>) -> Error {
    Error::Unfit { what: what.into(), found: found.into(), expected: expected.into() }
}

/// The line that a person signs with a key to put it on record.
///
/// # Errors
/// The store cannot be read.
pub fn key_line(store: &Store, person: &str, key: &Key) -> Result<String, Error> {
    let (programme, fingerprint) = (store.identity()?, key.fingerprint());
    Ok(KeyHeld { programme: programme.as_deref(), person, fingerprint: &fingerprint }.to_string())
}

/// Puts a person's public key on record; `proof` is that key's signature of [`key_line`].
///
/// # Errors
/// A proof that is none; a key that is on record; the store.
pub fn add_key(store: &mut Store, key: &Key, proof: &str, by: By) -> Result<EventHash, Error> {
    let fingerprint = key.fingerprint();
    let line = key_line(store, by.person, key)?;
    trust::verify(key, &line, proof).map_err(|e| unfit("the key", e.to_string(), "a key that its owner holds"))?;
    if let Some(there) = store.person_keys()?.into_iter().find(|k| k.fingerprint == fingerprint) {
        return Err(unfit("the key", format!("one on record as the key of {}", there.person), "a key of its own"));
    }
    let (_, head) = store.act::<_, StoreError>(&info("key", by, json!({ "key": fingerprint })), |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let (public, mut cells) = (key.line(), NamedCells::new("person_key"));
        cells.text("fingerprint", &fingerprint).integer("person", person).text("public_key", &public);
        cells.text("proof", proof).insert(act)
    })?;
    Ok(head)
}

/// Keys on record, each with how it ended, where it did.
///
/// # Errors
/// The store cannot be read.
pub fn keys(store: &Store) -> Result<Vec<(PersonKey, Option<KeyEndHow>)>, Error> {
    let ends = store.key_ends()?;
    let end = |k: &PersonKey| ends.iter().find(|e| e.person_key_id == k.id).map(|e| e.how);
    Ok(store.person_keys()?.into_iter().map(|k| (end(&k), k)).map(|(end, k)| (k, end)).collect())
}

/// Says that a key is used no longer; `what` is its fingerprint or the beginning of it.
///
/// # Errors
/// A reason that says nothing; no such key, or several; one that ended before; the store.
pub fn end_key(store: &mut Store, what: &str, how: KeyEndHow, why: &str, by: By) -> Result<PersonKey, Error> {
    said(why)?;
    let all = keys(store)?;
    let meant: Vec<_> = all.into_iter().filter(|(k, _)| !what.is_empty() && k.fingerprint.starts_with(what)).collect();
    let [(key, end)] = meant.as_slice() else {
        let found = format!("{what}, which begins {} of those on record", meant.len());
        return Err(unfit("the key", found, "a fingerprint, or the beginning of one (`limpid keys`)"));
    };
    if let Some(end) = end {
        return Err(unfit("the key", format!("one that is {} already", end.word()), "a key in use"));
    }
    let body = json!({ "key": key.fingerprint, "how": how.word(), "why": why });
    store.act::<_, StoreError>(&info("key ended", by, body), |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let mut cells = NamedCells::new("key_end");
        cells.integer("person_key", key.id).text("how", how.word()).text("why", why).integer("person", person);
        cells.insert(act)
    })?;
    Ok(key.clone())
}

/// The key on record that may sign: in use, and of this person where one is named.
///
/// # Errors
/// [`Error::Unfit`] with what it is instead; the store.
pub fn key_in_use(store: &Store, key: &Key, person: Option<&str>) -> Result<PersonKey, Error> {
    let fingerprint = key.fingerprint();
    let Some((kept, end)) = keys(store)?.into_iter().find(|(k, _)| k.fingerprint == fingerprint) else {
        let expected = "a key on record: `limpid keys STORE --add FILE --as PERSON`";
        return Err(unfit("the key", format!("{fingerprint}, which nobody put on record"), expected));
    };
    if let Some(end) = end {
        return Err(unfit("the key", format!("{fingerprint}, which is {}", end.word()), "a key in use"));
    }
    match person {
        Some(person) if person != kept.person => {
            Err(unfit("the key", format!("the key of {}", kept.person), format!("a key of {person}")))
        }
        _ => Ok(kept),
    }
}

/// Keeps signatures, each with the line that it is of ([`witnesses::to_sign`]), in one act.
///
/// # Errors
/// A signature that is none; a key that may not sign; a record that went on meanwhile, so that a line is no longer of it;
/// the store.
pub fn keep_signatures(
    store: &mut Store,
    key: &Key,
    signed: &[(ToSign, String)],
    at: &str,
) -> Result<PersonKey, Error> {
    let kept = key_in_use(store, key, None)?;
    let waiting = witnesses::to_sign(store, &kept.person)?;
    for (to_sign, signature) in signed {
        trust::verify(key, &to_sign.line, signature)
            .map_err(|e| unfit("the signature", e.to_string(), "one of the line"))?;
        let still = match to_sign.sign_off {
            Some(_) => waiting.contains(to_sign),
            // A head of earlier is a head too.
            None => witnesses::head_after(store, to_sign.events)?.is_some_and(|h| h.to_string() == to_sign.line),
        };
        if !still {
            return Err(unfit(
                "what was signed",
                to_sign.line.clone(),
                "what stands on record and waits for a signature",
            ));
        }
    }
    let by = By { person: &kept.person, at };
    let body =
        json!({ "key": kept.fingerprint, "sign_offs": signed.iter().filter(|(s, _)| s.sign_off.is_some()).count() });
    store.act::<_, StoreError>(&info("signature", by, body), |act| {
        for (to_sign, signature) in signed {
            let what = if to_sign.sign_off.is_some() { SignedWhat::SignOff } else { SignedWhat::Head };
            let mut cells = NamedCells::new("signed");
            cells.integer("person_key", kept.id).text("what", what.word()).integer("events", to_sign.events);
            if let Some(id) = to_sign.sign_off {
                cells.integer("sign_off", id);
            }
            cells.text("line", &to_sign.line).text("signature", signature).insert(act)?;
        }
        Ok(())
    })?;
    Ok(kept)
}

/// What somebody elsewhere has: a line of a head, or an authority's stamp with its answer as it came.
#[derive(Debug, Clone, Copy)]
pub enum Receipt<'a> {
    /// A line, as it was sent back.
    Line(&'a Head),
    /// A stamp.
    Stamp(&'a Stamp, &'a [u8]),
}

/// Notes that somebody elsewhere keeps a head of this record; answers after how many events.
///
/// # Errors
/// Nobody is named who keeps it; it is of no head of this record: an older copy, or rewritten; the store.
pub fn keep_anchor(store: &mut Store, receipt: Receipt, kept_by: &str, by: By) -> Result<i64, Error> {
    if kept_by.trim().is_empty() {
        return Err(unfit(
            "who keeps it",
            "nothing",
            "a person, a house or an authority that the programme is not with",
        ));
    }
    let of_none = || {
        let found = "one of no head of this programme: it is an older copy, was rewritten, or is another programme";
        unfit("the anchor", found, "a head of this programme (`limpid verify STORE --anchor FILE` says more)")
    };
    let heads = store.heads()?;
    let head = match receipt {
        Receipt::Line(head) => {
            let here = witnesses::head_after(store, i64::try_from(head.events).unwrap_or(i64::MAX))?;
            here.filter(|here| here == head).ok_or_else(of_none)?
        }
        Receipt::Stamp(stamp, _) => {
            let programme = store.identity()?;
            let of = |(n, h): (u64, &EventHash)| Head { programme: programme.clone(), events: n, head: h.0 };
            (1..).zip(&heads).map(of).find(|h| h.imprint() == stamp.imprint).ok_or_else(of_none)?
        }
    };
    let (hash, events) = (trust::line::hex(&head.head), i64::try_from(head.events).unwrap_or(i64::MAX));
    let body = json!({ "events": events, "kept_by": kept_by });
    store.act::<_, StoreError>(&info("anchor", by, body), |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let cells = match receipt {
            Receipt::Line(_) => [AnchorKind::Line.word().into(), kept_by.into(), Cell::Null, Cell::Null],
            Receipt::Stamp(stamp, answer) => {
                [AnchorKind::TimeStamp.word().into(), kept_by.into(), stamp.at.as_str().into(), Cell::Blob(answer)]
            }
        };
        let [kind, kept_by, at, answer] = cells;
        act.insert("anchor", &[events.into(), hash.as_str().into(), kind, kept_by, at, answer, person.into()])
    })?;
    Ok(events)
}
