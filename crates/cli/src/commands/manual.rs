//! `limpid completions` and `limpid manual`: made from the arguments, so that they never say another thing than `--help`.

use crate::args::Args;
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use clap::CommandFactory as _;
use clap_complete::Shell;
use std::path::Path;

/// Completions on standard output.
pub fn completions(shell: Shell) -> Result<(), Failure> {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Args::command(), "limpid", &mut text);
    say!("{}", String::from_utf8_lossy(&text).trim_end());
    Ok(())
}

/// A page for the program and one for each of its commands.
pub fn pages(dir: &Path) -> Result<(), Failure> {
    std::fs::create_dir_all(dir).with_context(|| format!("making the folder {}", dir.display()))?;
    clap_mangen::generate_to(Args::command(), dir).with_context(|| format!("writing pages into {}", dir.display()))?;
    Ok(())
}
