//! `limpid export`: the open data package, tables as CSV.

use super::open;
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use std::fs;
use std::path::Path;

/// Runs `limpid export`.
pub fn run(address: &str, out: &Path) -> Result<(), Failure> {
    let store = open(address)?;
    let files = report::assemble::export(&store).map_err(Failure::from)?;
    fs::create_dir_all(out).with_context(|| format!("making the folder {}", out.display()))?;
    for (name, bytes) in &files {
        let path = out.join(name);
        fs::write(&path, bytes).with_context(|| format!("writing {}", path.display()))?;
        say!("{}", path.display());
    }
    Ok(())
}
