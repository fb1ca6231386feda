//! `limpid export`: the open data package of a programme; `limpid new --from`: the way back.

use super::open;
use crate::args::Export;
use crate::failure::Failure;
use crate::out::say;
use exchange::{Options, Written};
use std::path::Path;

/// Runs `limpid export`.
pub fn run(args: &Export) -> Result<(), Failure> {
    let store = open(&args.store)?;
    let written = exchange::write(&store, &args.out, &Options { licence: args.licence.clone() })?;
    for file in &written.files {
        say!("{}", args.out.join(&file.path).display());
    }
    say(&args.out, &written);
    Ok(())
}

/// What a package holds, in a line.
pub fn say(out: &Path, written: &Written) {
    let bytes: u64 = written.files.iter().map(|f| f.bytes).sum();
    say!(
        "{}: {} files, {:.1} MB, {} results, {} rows of the record; head {}",
        out.display(),
        written.files.len(),
        bytes as f64 / 1e6,
        written.results,
        written.rows,
        written.head.map_or_else(|| "none".into(), |h| h.to_string())
    );
}

/// Runs `limpid new --from`.
pub fn read_back(address: &str, package: &Path) -> Result<(), Failure> {
    let back = exchange::read(package, address)?;
    say!(
        "{address}: {} events, {} rows, {} raw files, each what its event says; head {}",
        back.events,
        back.rows,
        back.files,
        back.head
    );
    Ok(())
}
