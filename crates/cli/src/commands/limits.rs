//! `limpid limits`: the results of a programme against published limits and a person's own.

use super::{now, open};
use crate::args::Limits;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Rows, Side};
use anyhow::Context as _;
use limits::Guard;
use limits::local::coming_in_words;
use limits::table::{authorities, authority, is_day};
use message::Spoken;
use message::limit::ComingAll;
use programme::limits_of::{Asked, InOrder, in_order};
use serde_json::json;

/// Runs `limpid limits`.
pub fn run(args: &Limits) -> Result<(), Failure> {
    let guard = match args.guard.as_deref() {
        None => Guard::default(),
        Some(text) => Guard::parse(text).ok_or_else(|| {
            Failure::Usage(format!(
                "--guard {text}: rule, none, a probability from 50 to below 100 %, or a band such as 1 U"
            ))
        })?,
    };
    let known = |name: &String| {
        authority(name)
            .map(String::from)
            .ok_or_else(|| Failure::Usage(format!("--authority {name}: there are {}", authorities().join(", "))))
    };
    let wanted = args.authority.iter().map(known).collect::<Result<Vec<_>, _>>()?;
    if let Some(day) = args.date.as_ref().filter(|d| !is_day(d)) {
        return Err(Failure::Usage(format!("--date {day}: a day, YYYY-MM-DD")));
    }
    let store = open(&args.store)?;
    let today = now()[..10].to_string();
    // Limits change with the years: unless a day is given, each bottle is compared with those of its own day, and
    // with those of today only where it has none.
    let asked = Asked { authorities: wanted, guard, date: args.date.clone(), otherwise: Some(today.clone()) };
    let ordered = in_order(&store, &asked)?;
    let found = &ordered.rest;
    if args.json {
        let mut warnings = found.warnings.clone();
        warnings.push(format!("not tested: {}", found.not_tested.join(", ")));
        let document = json!({
                "rows": [], "coming": found.coming, "not_tested": found.not_tested, "without_limit": found.without_limit,
                "guard": guard.in_words(), "on": args.date, "on_without_a_day": today, "head": store.head()?.map(|h| h.to_string()),
                "method": "the decision rule of each limit; then the probability that the true value lies under the limit, normal or Student's t about the result",
                "sources": ["JCGM 106:2012, 7.2 to 7.4, 8.2, 8.3"], "warnings": warnings,
        });
        return with_rows(&document.to_string(), &ordered);
    }
    table(&ordered, args.all);
    say!("\n* recalled: still to be compared with its document. Asked for: {}.", guard.in_words());
    match &args.date {
        Some(day) => say!("Limits of {day}."),
        None => say!(
            "Limits of the day of each bottle, of {today} where it has none; a limit still to come does not decide."
        ),
    }
    if !found.coming.is_empty() {
        let limits = found.coming.iter().map(|l| coming_in_words(l).into()).collect();
        say!("{}", ComingAll { limits }.text());
    }
    say!("Not tested: {}.", found.not_tested.join(", "));
    for w in &found.warnings {
        say!("{w}");
    }
    Ok(())
}

/// Writes the document, each of its rows as it is made: all at once they would be memory many times the file's.
fn with_rows(document: &str, ordered: &InOrder) -> Result<(), Failure> {
    // Quotes within a text are escaped, so that this stands once.
    let (before, after) = document.split_once(ROWS).expect("the document has rows");
    crate::out::write(format_args!("{before}\"rows\":["));
    for (n, row) in ordered.rows(true).enumerate() {
        let row = serde_json::to_value(row).context("writing a row as JSON")?;
        crate::out::write(format_args!("{}{row}", if n > 0 { "," } else { "" }));
    }
    say!("]{after}");
    Ok(())
}

/// Where the rows go in the document.
const ROWS: &str = "\"rows\":[]";

fn table(ordered: &InOrder, all: bool) {
    let mut rows = Rows::<10>::default();
    for r in ordered.rows(all) {
        let c = &r.comparison;
        let marks = [(r.strictest, "strictest"), (r.nearest_health, "nearest for health"), (r.local, "local")];
        let marks: Vec<&str> = marks.iter().filter(|m| m.0).map(|m| m.1).collect();
        let range = c.limit.low.map_or_else(String::new, |l| format!("{l} to "));
        let cells = [
            r.result.to_string(),
            c.amount.in_words(),
            format!("{range}{} {}", c.limit.high, c.limit.unit),
            r.on.clone().unwrap_or_default(),
            format!(
                "{}, {}{}",
                c.limit.authority,
                c.limit.kind,
                if c.limit.provenance == "recalled" { " *" } else { "" }
            ),
            c.limit.terms.concern.message().in_english(),
            marks.join(", "),
            c.answer_message().in_english(),
            c.probability_under.map_or_else(String::new, quantity::format::probability),
            r.verdict.map_or_else(String::new, |v| assessment::verdict::said_by(v, r.profile.as_deref()).in_english()),
        ];
        rows.push(cells.each_ref().map(String::as_str), "");
    }
    let headings = [
        ("result", Side::Left),
        ("value", Side::Left),
        ("limit", Side::Left),
        ("as of", Side::Left),
        ("whose, kind", Side::Left),
        ("set for", Side::Left),
        ("", Side::Left),
        ("answer", Side::Left),
        ("P(under)", Side::Right),
        ("verdict", Side::Left),
    ];
    rows.each_line(&headings, |name| name, 0, |line| crate::out::write(format_args!("{line}")));
}
