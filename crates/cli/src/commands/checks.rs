//! `limpid checks`: the programme's table of checks beside the one of this version, and taking rules in.

use super::{now, open, upkeep};
use crate::args::Checks;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use anyhow::Context as _;
use message::{Spoken, count, method as said};
use programme::checks::{self, Entry, Rule, Stand, Wanted};
use quantity::format::significant_trimmed;
use record::by::By;
use serde_json::json;
use std::path::Path;

/// Runs `limpid checks`.
pub fn run(args: &Checks) -> Result<(), Failure> {
    if let Some(file) = &args.csv {
        let table = checks::table(&open(&args.store)?)?;
        std::fs::write(file, table).with_context(|| format!("writing {}", file.display()))?;
        say!("{}: edit it, then --keep", file.display());
        return Ok(());
    }
    if let Some(file) = &args.keep {
        return keep(args, file);
    }
    let wanted = match (args.all_new, args.take.as_slice()) {
        (true, _) => Wanted::Untaken,
        (false, []) => return list(args),
        (false, names) => Wanted::Named(names),
    };
    let (mut store, at, person) = (open(&args.store)?, now(), args.hand.name());
    args.hand.may_act(&store)?;
    let why = args.why.as_deref().unwrap_or_default();
    let (taken, done) = checks::take(&mut store, wanted, why, By { person, at: &at })?;
    args.hand.keep(&mut store)?;
    say!("taken into the table of checks: {} ({person}: {why})", taken.join(", "));
    upkeep::say(&done);
    upkeep::derived(done)
}

/// Keeps an edited table.
fn keep(args: &Checks, file: &Path) -> Result<(), Failure> {
    let sheet = std::fs::read_to_string(file).with_context(|| format!("reading {}", file.display()))?;
    let (mut store, at, person) = (open(&args.store)?, now(), args.hand.name());
    args.hand.may_act(&store)?;
    let why = args.why.as_deref().unwrap_or_default();
    let (changed, done) = checks::keep_table(&mut store, &sheet, why, By { person, at: &at })?;
    args.hand.keep(&mut store)?;
    say!("changed in the table of checks: {} ({person}: {why})", changed.join(", "));
    upkeep::say(&done);
    upkeep::derived(done)
}

fn list(args: &Checks) -> Result<(), Failure> {
    let entries = checks::beside(&open(&args.store)?)?;
    let untaken = entries.iter().filter(|e| e.stand == Stand::Untaken).count();
    if args.json {
        let document = json!({
            "checks": entries,
            "not_in_the_table": untaken,
            "method": "the newest revision of each rule of the programme beside the table that this version starts a programme with",
            "sources": [],
            "warnings": untold(untaken),
        });
        say!("{document}");
        return Ok(());
    }
    let rows: Vec<Vec<String>> = entries.iter().map(row).collect();
    let headings = [
        ("check", Side::Left),
        ("this programme", Side::Left),
        ("limit", Side::Right),
        ("this version", Side::Left),
        ("limit", Side::Right),
        ("", Side::Left),
    ];
    crate::out::write(format_args!("{}", lay_out(&headings, &rows)));
    for line in untold(untaken) {
        say!("{line}");
    }
    Ok(())
}

/// That checks are notes because the table does not name them.
fn untold(untaken: usize) -> Vec<String> {
    if untaken == 0 { vec![] } else { vec![said::Untaken { checks: count(untaken) }.text()] }
}

/// A limit with its unit, or a line.
pub(super) fn limit_in_words(value: Option<f64>, unit: Option<&str>) -> String {
    let unit = unit.map_or_else(String::new, |u| format!(" {u}"));
    value.map_or_else(|| "–".into(), |l| significant_trimmed(l, 4) + &unit)
}

fn row(e: &Entry) -> Vec<String> {
    let weight = |r: &Option<Rule>| r.as_ref().map_or_else(|| "–".into(), |r| r.weight.word().to_string());
    let limit =
        |r: &Option<Rule>| r.as_ref().map_or_else(|| "–".into(), |r| limit_in_words(r.limit, r.unit.as_deref()));
    let stand = match e.stand {
        Stand::Same => "",
        Stand::Untaken => "not in the table: a note",
        Stand::Differs => "differs",
        Stand::Unknown => "no check of this version: decides nothing",
    };
    vec![
        e.check.clone(),
        weight(&e.programme),
        limit(&e.programme),
        weight(&e.default),
        limit(&e.default),
        stand.into(),
    ]
}
