//! `limpid plan`: what to take on the next trip, and a trip made from a design.

use super::attribution::runs;
use super::{now, open, report};
use crate::args::Plan;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out};
use anyhow::{Context as _, anyhow};
use assessment::attribution::RunPair;
use programme::plan::{self, Answer, Asked, FromRecord, NewTrip, Wells};
use quantity::format::significant_trimmed;
use record::by::By;
use record::store::Store;
use report_room::packing::{self, Packing};
use serde_json::json;
use std::io::Read as _;
use std::path::Path;

use ::report as report_room;

/// Runs `limpid plan`.
pub fn run(args: &Plan) -> Result<(), Failure> {
    if args.example {
        say!("{}", plan::EXAMPLE.trim_end());
        return Ok(());
    }
    let address = args.store.as_deref().unwrap_or("-");
    let store = if address == "-" { None } else { Some(open(address)?) };
    let question = question(args, store.is_none())?;
    let words = plan::in_words(&question);
    let (asked, wells, from_record) = if let Some(store) = &store {
        let runs = runs(store)?;
        let pairs: Vec<RunPair> = runs.iter().map(|(p, r)| (p, r)).collect();
        let done = plan::complete(store, &pairs, question)?;
        (done.asked, done.wells, done.from_record)
    } else {
        let wells = if let Some(Wells::Named(names)) = &question.wells { names.clone() } else { vec![] };
        (question, wells, vec![])
    };
    let answer = asked.answer()?;
    let chosen = chosen(args, &answer)?;
    if args.json {
        json_of(&answer, &from_record)?;
    } else {
        told(&answer, &from_record, chosen, &words);
    }
    let design = answer.designs[chosen].ranked.design;
    let name = args.make_trip.as_deref().unwrap_or("NEXT");
    let trip = NewTrip { name, starts: &args.starts, question: &words, wells: &wells, design };
    if let Some(file) = &args.print {
        let list = Listing { answer: &answer, from_record: &from_record, chosen, question: words.clone(), trip: &trip };
        print(store.as_ref(), address, file, &list)?;
        eprintln!("packing list {}", record::store::shown(file));
    }
    if args.make_trip.is_some() {
        let Some(mut store) = store else {
            return Err(Failure::Usage("--make-trip needs a programme in place of -".into()));
        };
        make(&mut store, args, &trip)?;
    }
    Ok(())
}

fn json_of(answer: &Answer, from_record: &[FromRecord]) -> Result<(), Failure> {
    let mut document = serde_json::to_value(answer).context("writing the answer as JSON")?;
    if !from_record.is_empty() {
        document["from_record"] = json!(from_record.iter().map(ToString::to_string).collect::<Vec<_>>());
    }
    say!("{}", serde_json::to_string_pretty(&document).context("writing the answer as JSON")?);
    Ok(())
}

/// The question of the file, of standard input, or the example's with all wells.
fn question(args: &Plan, from_stdin: bool) -> Result<Asked, Failure> {
    let text = match &args.question {
        Some(path) if path.as_os_str() != "-" => {
            std::fs::read_to_string(path).with_context(|| format!("reading {}", path.display()))?
        }
        None if !from_stdin => {
            eprintln!("no --question given: that of `limpid plan --example` is asked, for all wells");
            return Ok(Asked { wells: None, ..plan::example() });
        }
        _ => {
            let mut text = String::new();
            std::io::stdin().read_to_string(&mut text).context("reading standard input")?;
            text
        }
    };
    Ok(plan::read(&text)?)
}

/// The design asked for; else the cheapest that decides with a chance of 80 %, else the best.
fn chosen(args: &Plan, answer: &Answer) -> Result<usize, Failure> {
    let designs = answer.designs.len();
    match args.design {
        Some(n) if n >= 1 && n <= designs => Ok(n - 1),
        Some(n) => Err(Failure::Refused(format!("design: found {n}, expected 1 to {designs}"))),
        None => Ok(plan::first_choice(answer)),
    }
}

fn told(answer: &Answer, from_record: &[FromRecord], chosen: usize, question: &str) {
    say!("{question}\n");
    let table = packing::table(answer);
    let rows: Vec<Vec<String>> =
        table.shown().into_iter().map(|row| row.into_iter().map(|c| c.words).collect()).collect();
    let headings: Vec<(&str, Side)> = table.columns.iter().map(|c| (c.heading.as_str(), Side::Right)).collect();
    crate::out::write(format_args!("{}", lay_out(&headings, &rows)));
    for (i, d) in answer.designs.iter().enumerate() {
        say!("{:>6}  {}", i + 1, d.ranked.buys);
    }
    let list = |title: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            say!("\n{title}\n  {}", lines.join("\n  "));
        }
    };
    let design = &answer.designs[chosen];
    let price = significant_trimmed(design.ranked.price, 4);
    list(&format!("To pack, design {} ({price})", chosen + 1), design.pack.iter().map(ToString::to_string).collect());
    list("Every design contains", answer.requires.iter().map(ToString::to_string).collect());
    list("From the record", from_record.iter().map(ToString::to_string).collect());
    list("To keep in mind", answer.warnings.iter().map(ToString::to_string).collect());
}

fn make(store: &mut Store, args: &Plan, trip: &NewTrip) -> Result<(), Failure> {
    args.hand.may_act(store)?;
    let at = now();
    let entered = plan::make_trip(store, trip, By { person: args.hand.name(), at: &at }).map_err(|e| match e {
        intake::entry::EntryError::Store(e) => Failure::from(e),
        other => Failure::Refused(other.to_string()),
    })?;
    args.hand.keep(store)?;
    let bottles = entered.added.get("bottle").copied().unwrap_or(0);
    eprintln!("trip {} with {bottles} bottles is in the record", trip.name);
    Ok(())
}

/// What is printed.
struct Listing<'a> {
    answer: &'a Answer,
    from_record: &'a [FromRecord],
    chosen: usize,
    question: String,
    trip: &'a NewTrip<'a>,
}

fn print(store: Option<&Store>, address: &str, file: &Path, list: &Listing) -> Result<(), Failure> {
    let bottles: Vec<(String, String)> =
        plan::bottles(list.trip).into_iter().map(|(label, kind, ..)| (label, kind.word().replace('-', " "))).collect();
    let head = match store {
        Some(s) => s.head()?.map_or_else(String::new, |h| h.to_string()),
        None => String::new(),
    };
    let invented = match store {
        Some(s) => s.sites()?.iter().any(|s| s.invented == Some(true)),
        None => false,
    };
    let name = if address == "-" { "a plan without a programme".into() } else { record::store::short_name(address) };
    let content = packing::content(&Packing {
        programme: &name,
        head,
        invented,
        question: list.question.clone(),
        answer: list.answer,
        chosen: list.chosen,
        from_record: list.from_record,
        bottles: &bottles,
    });
    let bytes = if file.extension().is_some_and(|e| e == "html") {
        document::html::to_html(&content).into_bytes()
    } else {
        report::pdf(&content)?
    };
    std::fs::write(file, bytes)
        .with_context(|| format!("writing {}", file.display()))
        .map_err(|e| Failure::Outside(anyhow!(e)))
}
