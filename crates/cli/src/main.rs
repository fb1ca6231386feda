//! `limpid`: the command line. Reads arguments, calls the rooms below, prints. It holds no science.
//!
//! Exit status: 0 done · 1 the input was refused · 2 usage · 3 `verify` found a difference, or what
//! was to leave the house is not what was written · 4 something outside failed, or a solver did not
//! converge · 5 kept and sound, but not yet derived, or derived by another engine. `--json` prints one
//! JSON document on stdout and nothing else; messages go to stderr.

mod args;
mod commands;
mod failure;
mod out;
mod secrets;
mod table;

use clap::Parser as _;
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut words = std::env::args_os().skip(1);
    if words.next().is_some_and(|word| word == intake::import::apart::WORD) {
        return intake::import::apart::child(words.next().and_then(|memory| memory.to_str()?.parse().ok()));
    }
    secrets::withdraw();
    // As it runs: the file may have been replaced since.
    let own = std::path::Path::new("/proc/self/exe");
    if let Some(program) = own.exists().then(|| own.to_path_buf()).or_else(|| std::env::current_exe().ok()) {
        intake::import::apart::reads_in(program);
    }
    let args = match args::Args::try_parse() {
        Ok(args) => args,
        Err(e) => return secrets::unfit(&e),
    };
    let done = commands::run(args.command);
    let unwritten = out::fault().map(|why| failure::Failure::Outside(anyhow::anyhow!(why)));
    match (done, unwritten) {
        (Err(failure), _) | (Ok(()), Some(failure)) => failure.report(),
        (Ok(()), None) => ExitCode::SUCCESS,
    }
}
