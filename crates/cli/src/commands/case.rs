//! `limpid case`: one result back to the raw counts.

use super::open;
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;

/// Runs `limpid case`.
pub fn run(address: &str, identity: &str, json: bool) -> Result<(), Failure> {
    let store = open(address)?;
    let case = programme::case::case(&store, identity)?;
    if json {
        say!("{}", serde_json::to_string(&case).context("writing the case as JSON")?);
    } else {
        crate::out::write(format_args!("{}", case.in_words()));
    }
    Ok(())
}
