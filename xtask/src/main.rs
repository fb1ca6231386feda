//! The checks that stand between a change and main.
//!
//! `cargo xtask test` sets up what is missing and runs, in this order: format, tidy rules (see
//! [`tidy`]), lints as errors, all tests, documentation build. It stops at the first that fails.
//! `cargo xtask survey` runs the tests of the survey, whose query engine takes long to build.
//! `cargo xtask tidy` runs the tidy rules alone.

use anyhow::{Context as _, Result, bail};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use xtask::tidy;

fn main() -> Result<()> {
    let root = root();
    match std::env::args().nth(1).as_deref() {
        Some("test") => test(&root),
        Some("tidy") => tidy::check(&root),
        Some("survey") => {
            step(&root, "tests of the survey", "cargo", &["test", "--release", "-p", APART, "--locked"], &[])
        }
        _ => bail!("usage: cargo xtask test | survey | tidy"),
    }
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("xtask stands in the workspace").to_path_buf()
}

fn test(root: &Path) -> Result<()> {
    setup()?;
    step(root, "format", "cargo", &["fmt", "--all", "--check"], &[])?;
    println!("== tidy rules");
    tidy::check(root)?;
    step(
        root,
        "lints",
        "cargo",
        &["clippy", "--release", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"],
        &[],
    )?;
    step(
        root,
        "tests",
        "cargo",
        &["test", "--release", "--workspace", "--exclude", APART, "--locked", "--no-fail-fast"],
        &[],
    )?;
    step(
        root,
        "documentation",
        "cargo",
        &["doc", "--release", "--workspace", "--no-deps", "--locked"],
        &[("RUSTDOCFLAGS", "-D warnings")],
    )?;
    println!("all checks passed");
    Ok(())
}

/// Linted with everything, its tests run apart (`cargo xtask survey`): to build its query engine takes a quarter of an
/// hour on two cores.
const APART: &str = "survey";

/// Programs that tests start, with the Debian package that brings each.
const NEEDED: &[(&str, &str)] = &[
    ("prlimit", "util-linux"),
    ("setpriv", "util-linux"),
    ("pdfinfo", "poppler-utils"),
    ("pdftoppm", "poppler-utils"),
    ("chromium", "chromium"),
    ("dmtxread", "dmtx-utils"),
];

fn setup() -> Result<()> {
    let mut missing: Vec<&str> =
        NEEDED.iter().filter(|(program, _)| which(program).is_none()).map(|(_, package)| *package).collect();
    // Debian keeps a server's programs in a folder of its version, off the PATH.
    let debian = std::fs::read_dir("/usr/lib/postgresql").into_iter().flatten().flatten();
    if which("initdb").is_none() && !debian.map(|e| e.path().join("bin/initdb")).any(|p| p.is_file()) {
        missing.push("postgresql");
    }
    if missing.is_empty() {
        return Ok(());
    }
    println!("== installing {}", missing.join(" "));
    let quiet = [("DEBIAN_FRONTEND", "noninteractive")];
    step(Path::new("/"), "package lists", "apt-get", &["update", "-q"], &quiet)?;
    let mut args = vec!["install", "-y", "-q", "--no-install-recommends"];
    args.extend(missing);
    step(Path::new("/"), "packages", "apt-get", &args, &quiet)
}

fn which(program: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path).map(|dir| dir.join(program)).find(|p| p.is_file())
}

fn step(dir: &Path, name: &str, program: &str, args: &[&str], env: &[(&str, &str)]) -> Result<()> {
    println!("== {name}");
    let start = Instant::now();
    let status = Command::new(program)
        .args(args)
        .current_dir(dir)
        .envs(env.iter().copied())
        .status()
        .with_context(|| format!("starting {program}"))?;
    if !status.success() {
        bail!("{name}: {program} {} ended with {status}", args.join(" "));
    }
    println!("== {name}: {:.0} s", start.elapsed().as_secs_f64());
    Ok(())
}
