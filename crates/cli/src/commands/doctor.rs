//! `limpid doctor`: what is missing or unsafe, each with what to do. Changes nothing.

use super::now;
use crate::failure::Failure;
use crate::out::say;
use message::{Lang, Message};
use programme::doctor::{self, Weight};
use serde_json::{Value, json};

/// Runs `limpid doctor`. Exit status 0 whatever is found: what it tells is no refusal.
pub fn run(address: Option<&str>, as_json: bool, language: Lang) -> Result<(), Failure> {
    let found = doctor::look(address, &now())?;
    let said = |m: &Message| m.said(language).unwrap_or_default();
    if as_json {
        let list: Vec<Value> =
            found.iter().map(|t| json!({ "weight": t.weight.code(), "says": said(&t.message) })).collect();
        say!("{}", json!({ "found": list, "looked_at": said(&doctor::looked_at(address)) }));
        return Ok(());
    }
    for told in &found {
        say!("{}: {}", said(&told.weight.message()), said(&told.message));
    }
    if found.iter().all(|t| t.weight == Weight::Known) {
        say!("{}", said(&message::doctor::NothingFound.into()));
    }
    say!("{}", said(&doctor::looked_at(address)));
    Ok(())
}
