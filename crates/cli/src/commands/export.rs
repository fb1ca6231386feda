//! `limpid export`: the open data package of a programme; `limpid new --from`: the way back.

use super::verify::witnesses_for_programs;
use super::{now, open};
use crate::args::Export;
use crate::failure::Failure;
use crate::out::say;
use assessment::witnesses::Asked;
use exchange::{Options, ReadBack, Written};
use message::Message;
use record::store::EventHash;
use std::path::Path;

/// Runs `limpid export`.
pub fn run(args: &Export) -> Result<(), Failure> {
    let store = open(&args.store)?;
    let written = exchange::write(&store, &args.out, &options(args))?;
    for file in &written.files {
        say!("{}", args.out.join(&file.path).display());
    }
    say(&args.out, &written);
    Ok(())
}

/// What the person says of the package.
pub fn options(args: &Export) -> Options {
    Options { licence: args.licence.clone(), publisher: args.publisher.clone(), identifiers: args.identifiers.clone() }
}

/// What a package holds, in a line.
pub fn say(out: &Path, written: &Written) {
    let bytes: u64 = written.files.iter().map(|f| f.bytes).sum();
    say!(
        "{}: {} files, {:.1} MB, {} results, {} rows of the record; seal {}; head {}",
        out.display(),
        written.files.len(),
        bytes as f64 / 1e6,
        written.results,
        written.rows,
        written.seal,
        written.head.map_or_else(|| "none".into(), |h| h.to_string())
    );
}

/// Whether an address is the folder of a package.
pub fn is_package(address: &str) -> bool {
    Path::new(address).join(exchange::describe::DATA_PACKAGE).is_file()
}

/// Runs `limpid verify` on a package.
pub fn verify(package: &str, noted: Option<EventHash>, json: bool) -> Result<(), Failure> {
    let now = now();
    let asked = Asked { noted, now: Some(&now), ..Asked::default() };
    let found = match exchange::verify(Path::new(package), &asked) {
        Err(e) if e.is_outside() => return Err(e.into()),
        found => found,
    };
    // Signatures that are none, as for a programme: the record is not what they stand for.
    let faults = found.as_ref().map_or(&[][..], |(_, witnesses)| &witnesses.faults);
    let intact = found.is_ok() && faults.is_empty();
    if json {
        let back = found.as_ref().ok().map(|(back, _)| back);
        let mut differences = found.as_ref().map_or_else(|e| vec![e.to_string()], |(back, _)| back.otherwise.clone());
        differences.extend(faults.iter().map(Message::in_english));
        let mut document = serde_json::json!({
            "answer": if intact { "intact" } else { "altered" },
            "differences": differences,
            "written_by": back.and_then(|b| b.written_by.clone()),
            "events": back.map(|b| b.events),
            "rows": back.map(|b| b.rows),
            "head": back.map(|b| b.head.clone()),
            "seal": back.map(|b| b.seal.clone()),
        });
        let said = witnesses_for_programs(found.as_ref().ok().map(|(_, witnesses)| witnesses));
        for (name, value) in said {
            document[name] = value;
        }
        say!("{document}");
    } else {
        match &found {
            Err(e) => say!("{e}"),
            Ok((back, witnesses)) => {
                told(package, back);
                for said in faults.iter().chain(&witnesses.messages()) {
                    say!("{}", said.in_english());
                }
            }
        }
    }
    if intact { Ok(()) } else { Err(Failure::Differs) }
}

/// What came back of a package.
fn told(address: &str, back: &ReadBack) {
    let compared = match &back.written_by {
        None => "; every other file is what the record makes",
        Some(_) => "",
    };
    say!(
        "{address}: {} events, {} rows, {} raw files, each what its event says{compared}; seal {}; head {}",
        back.events,
        back.rows,
        back.files,
        back.seal,
        back.head
    );
    if let Some(by) = &back.written_by {
        say!("The package was written by another version ({by}); this one makes of the record otherwise:");
        for difference in &back.otherwise {
            say!("  {difference}");
        }
        if back.otherwise.is_empty() {
            say!("  nothing");
        }
    }
}

/// Runs `limpid new --from`.
pub fn read_back(address: &str, package: &Path) -> Result<(), Failure> {
    let back = exchange::read(package, address)?;
    told(address, &back);
    Ok(())
}
