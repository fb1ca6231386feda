//! `limpid survey` and `limpid survey-worker`: handed over to the program `limpid-survey`, which carries the query engine
//! and is built apart, so that nobody waits for it who has no survey to make.

use crate::failure::Failure;
use anyhow::Context as _;
use std::ffi::OsString;
use std::path::PathBuf;
use std::process::Command;

/// Name of the program.
const PROGRAM: &str = "limpid-survey";

/// Beside this program, else wherever the system finds it.
fn program() -> PathBuf {
    let beside = std::env::current_exe().ok().map(|me| me.with_file_name(PROGRAM)).filter(|p| p.is_file());
    beside.unwrap_or_else(|| PROGRAM.into())
}

/// Runs it and passes on its exit status.
pub fn run(command: &str, words: &[OsString]) -> Result<(), Failure> {
    let program = program();
    let status = match Command::new(&program).arg(command).args(words).status() {
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => {
            return Err(Failure::Outside(anyhow::anyhow!(
                "{PROGRAM} is not built yet: cargo build --release -p survey (some minutes, once)"
            )));
        }
        other => other.with_context(|| format!("starting {}", program.display()))?,
    };
    match status.code() {
        Some(0) => Ok(()),
        Some(code) => std::process::exit(code),
        None => Err(Failure::Outside(anyhow::anyhow!("{PROGRAM} was stopped: {status}"))),
    }
}
