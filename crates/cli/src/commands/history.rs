//! `limpid history`, what was done, act by act; `limpid undo`, taking an import back.

use super::{now, open, upkeep};
use crate::args::Hand;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use programme::history::{self, Done, SHOWN_OF_A_HASH};
use record::by::By;
use serde_json::json;

/// Files and tables that a line names, at most.
const LISTED: usize = 4;

/// Runs `limpid history`.
pub fn run(address: &str, all: bool, json: bool) -> Result<(), Failure> {
    let store = open(address)?;
    let acts: Vec<Done> = history::acts(&store)?.into_iter().filter(|d| all || !d.derived).collect();
    if json {
        say!("{}", json!({ "acts": acts, "head": store.head()?.map(|h| h.to_string()), "warnings": [] }));
        return Ok(());
    }
    crate::out::write(format_args!("{}", table(&acts)));
    say!("\nAn import is taken back by `limpid undo STORE NUMBER --why … --as …`; its rows stay on record.");
    Ok(())
}

fn table(acts: &[Done]) -> String {
    let row = |d: &Done| {
        vec![
            d.event.to_string(),
            d.hash[..SHOWN_OF_A_HASH.min(d.hash.len())].to_string(),
            d.at.clone(),
            d.act.clone(),
            d.author.clone(),
            about(d),
        ]
    };
    let headings = [
        ("number", Side::Right),
        ("hash begins", Side::Left),
        ("when", Side::Left),
        ("act", Side::Left),
        ("by", Side::Left),
        ("", Side::Left),
    ];
    lay_out(&headings, &acts.iter().map(row).collect::<Vec<_>>())
}

/// Files or tables, the reason, and whether it was taken back.
fn about(d: &Done) -> String {
    let brought: Vec<String> =
        if d.files.is_empty() { d.rows.iter().map(|(t, n)| format!("{n} {t}")).collect() } else { d.files.clone() };
    let mut out = brought.iter().take(LISTED).map(String::as_str).collect::<Vec<_>>().join(", ");
    if brought.len() > LISTED {
        out += &format!(" and {} more", brought.len() - LISTED);
    }
    if let Some(why) = d.why.as_deref().filter(|why| !why.is_empty()) {
        out += &format!("; {why}");
    }
    if let Some((event, why)) = &d.undone {
        out += &format!("; taken back by event {event}: {why}");
    }
    out
}

/// Runs `limpid undo`.
pub fn undo(address: &str, what: &str, why: &str, hand: &Hand) -> Result<(), Failure> {
    let (mut store, at, person) = (open(address)?, now(), hand.name());
    hand.may_act(&store)?;
    let done = history::undo(&mut store, what, why, By { person, at: &at })?;
    hand.keep(&mut store)?;
    let Done { event, act, .. } = &done.act;
    say!("event {event} ({act}) counts no longer: {why} ({person})");
    let rows: Vec<String> = done.rows.iter().map(|(table, n)| format!("{n} of {table}")).collect();
    say!("rows that stay on record and count no longer: {}", rows.join(", "));
    upkeep::say(&done.followed);
    upkeep::derived(done.followed)
}
