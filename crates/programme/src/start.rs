//! An empty programme: the table of checks that a person then changes. It stands in the record from the first event
//! on, beside the identity of the programme. Nothing else does: no recipe, no laboratory's value.

use record::error::Error;
use record::store::{ActInfo, IDENTITY, Store, StoreError, named};
use serde_json::json;
use std::path::Path;

/// Makes an empty programme whose identity follows from its author and the moment: the same again, where it is made
/// again, as the demo is.
///
/// # Errors
/// As [`Store::create`]; nobody is named as its author.
pub fn start(address: impl AsRef<Path>, author: &str, at: &str) -> Result<Store, Error> {
    start_own(address, author, at, &[])
}

/// Digits of an identity: 128 bits, which no two programmes share by chance.
const IDENTITY_DIGITS: usize = 32;

/// Makes an empty programme with an identity of its own: `drawn` are bytes that the caller drew by chance.
///
/// # Errors
/// As [`start`].
pub fn start_own(address: impl AsRef<Path>, author: &str, at: &str, drawn: &[u8]) -> Result<Store, Error> {
    // Before a file is made, which would be left without an act.
    named(author)?;
    let mut hash = blake3::Hasher::new_derive_key("limpid 2026-12-01 identity of a programme");
    for part in [author.as_bytes(), at.as_bytes(), drawn] {
        hash.update(&(part.len() as u64).to_le_bytes()).update(part);
    }
    let identity = &hash.finalize().to_hex()[..IDENTITY_DIGITS];
    let body = json!({ IDENTITY: identity });
    let info = ActInfo { kind: "new programme".into(), author: author.into(), at: at.into(), body };
    let rules = crate::checks::defaults()?;
    let mut store = Store::create(address)?;
    store.act::<_, StoreError>(&info, |act| rules.iter().try_for_each(|rule| crate::checks::keep(act, rule)))?;
    Ok(store)
}
