//! An empty programme: the table of checks that a person then changes. It stands in the record from the first event
//! on. Nothing else does: no recipe, no laboratory's value.

use record::error::Error;
use record::store::{ActInfo, Store, StoreError, named};
use serde_json::json;
use std::path::Path;

/// Makes an empty programme.
///
/// # Errors
/// As [`Store::create`]; nobody is named as its author.
pub fn start(address: impl AsRef<Path>, author: &str, at: &str) -> Result<Store, Error> {
    // Before a file is made, which would be left without an act.
    named(author)?;
    let info = ActInfo { kind: "new programme".into(), author: author.into(), at: at.into(), body: json!({}) };
    let rules = crate::checks::defaults()?;
    let mut store = Store::create(address)?;
    store.act::<_, StoreError>(&info, |act| rules.iter().try_for_each(|rule| crate::checks::keep(act, rule)))?;
    Ok(store)
}
