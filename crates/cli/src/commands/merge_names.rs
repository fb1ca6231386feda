//! `limpid merge-names`: two names on record that are one; what bears the old one reads as the new one, and follows.

use super::{now, of_entry, open, upkeep};
use crate::args::MergeNames;
use crate::failure::Failure;
use crate::out::{progress, say};
use intake::one_name::merge;
use programme::work;
use record::by::By;

/// Runs `limpid merge-names`.
pub fn run(args: &MergeNames) -> Result<(), Failure> {
    let (mut store, at) = (open(&args.store)?, now());
    args.hand.may_act(&store)?;
    let by = By { person: args.hand.name(), at: &at };
    let merged = merge(&mut store, by, &args.why, &args.table, (&args.old, &args.new)).map_err(of_entry)?;
    args.hand.keep(&mut store)?;
    let (rows, noun) = (merged.corrected, if merged.corrected == 1 { "row reads" } else { "rows read" });
    say!(
        "{} {} is {} from now on; {rows} {noun} so: {} ({})",
        args.table,
        args.old,
        args.new,
        args.why,
        args.hand.name()
    );
    let done = work::follow(&mut store, by, &progress())?;
    upkeep::say(&done);
    upkeep::derived(done)
}
