//! `limpid`: the command line. Reads arguments, calls the rooms below, prints. It holds no science.
//!
//! Exit status: 0 done · 1 the input was refused · 2 usage · 3 `verify` found a difference ·
//! 4 something outside failed, or a solver did not converge. `--json` prints one JSON document on
//! stdout and nothing else; messages go to stderr.

mod args;
mod commands;
mod failure;
mod table;

use clap::Parser as _;
use std::process::ExitCode;

fn main() -> ExitCode {
    let args = args::Args::parse();
    match commands::run(args.command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => failure.report(),
    }
}
