//! The checks that stand between a change and main.
//!
//! `cargo xtask quick [CRATE …]` is the loop of a working day: format, tidy rules, then lints and tests of what changed and
//! of what leans on it. `cargo xtask test` sets up what is missing and runs, in this order: format, tidy rules (see
//! [`xtask::tidy`]), lints as errors, all tests, examples in the documentation, documentation build; it stops at the first
//! that fails. `cargo xtask long` runs what takes minutes at full length (kills of the store, histories of the server); `test` runs a small
//! twin of each. `cargo xtask survey` lints and tests the survey, whose query engine takes long to build.
//! `cargo xtask tidy` runs the tidy rules alone.
//! `cargo xtask audit` asks what is known of what comes from outside (see [`xtask::audit`]).
//! `cargo xtask package DIR` makes what a machine without Rust installs (see [`xtask::package`]).
//! `cargo xtask fixtures DIR` writes the small programmes that every interface is tried on, for a person to look at.

use anyhow::{Context as _, Result, bail};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use xtask::{audit, change, package, tidy};

const USAGE: &str =
    "usage: cargo xtask quick [CRATE …] | test | long | survey | tidy | audit | fixtures DIR | package DIR";

fn main() -> Result<()> {
    let root = root();
    let mut args = std::env::args().skip(1);
    match args.next().as_deref() {
        Some("quick") => quick(&root, &args.collect::<Vec<_>>()),
        Some("test") => test(&root),
        Some("long") => long(&root),
        Some("survey") => survey(&root),
        Some("tidy") => tidy::check(&root),
        Some("audit") => match audit::run(&root)?.status() {
            0 => Ok(()),
            status => std::process::exit(status),
        },
        Some("fixtures") => {
            let dir = args.next().context(USAGE)?;
            step(&root, "fixtures", "cargo", &["run", "--release", "--quiet", "-p", "fixtures", "--", &dir], &[])
        }
        Some("package") => package::run(&root, Path::new(&args.next().context(USAGE)?)),
        _ => bail!(USAGE),
    }
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("xtask stands in the workspace").to_path_buf()
}

/// Linted and tested apart (`cargo xtask survey`): to build its query engine takes a quarter of an hour on two cores.
const APART: &str = "survey";

/// Overflow checks and debug assertions for our own rooms: the manifest switches them off for what comes from outside, so
/// that nothing from outside is built twice. As variables, so that a test that starts cargo builds the same.
const CHECKED: [(&str, &str); 2] =
    [("CARGO_PROFILE_RELEASE_OVERFLOW_CHECKS", "true"), ("CARGO_PROFILE_RELEASE_DEBUG_ASSERTIONS", "true")];

/// Builds of a working day keep what a small change leaves as it was. Not in a clean clone that is built once (`CI`).
fn checked() -> Vec<(&'static str, &'static str)> {
    let mut env = CHECKED.to_vec();
    if std::env::var_os("CI").is_none() {
        env.push(("CARGO_INCREMENTAL", "1"));
    }
    env
}

fn quick(root: &Path, named: &[String]) -> Result<()> {
    let members = change::members(root)?;
    let from: BTreeSet<String> = if named.is_empty() {
        change::touched(root, &members, &change::changed_paths(root)?)?
    } else {
        if let Some(wrong) = named.iter().find(|n| !members.iter().any(|m| m.name == **n)) {
            let names: Vec<&str> = members.iter().map(|m| m.name.as_str()).collect();
            bail!("no crate is named {wrong}; there are {}", names.join(", "));
        }
        named.iter().cloned().collect()
    };
    let start = Instant::now();
    step(root, "format", "cargo", &["fmt", "--all", "--check"], &[])?;
    println!("== tidy rules");
    tidy::check(root)?;
    let all: Vec<String> = change::with_dependants(&members, &from).into_iter().filter(|n| n != APART).collect();
    if all.is_empty() {
        println!("nothing to lint or test: no crate changed");
        return Ok(());
    }
    println!("== changed: {}; with what leans on it: {}", words(&from), all.join(", "));
    setup()?;
    lint(root)?;
    if which("cargo-nextest").is_some() {
        let those: Vec<String> = all.iter().map(|n| format!("package(={n})")).collect();
        nextest(root, &["-E", &those.join(" | ")])?;
    } else {
        let packages: Vec<&str> = all.iter().flat_map(|n| ["-p", n.as_str()]).collect();
        cargo_test(root, &packages)?;
    }
    println!("quick checks passed in {:.0} s", start.elapsed().as_secs_f64());
    Ok(())
}

fn words(names: &BTreeSet<String>) -> String {
    names.iter().map(String::as_str).collect::<Vec<_>>().join(", ")
}

/// All rooms but the survey. Always the same choice, since the features of what comes from outside follow from it: a
/// build of one room alone (`-p`) would build half of that anew. What did not change is not built, whatever the choice.
const MOST: [&str; 3] = ["--workspace", "--exclude", APART];

fn lint(root: &Path) -> Result<()> {
    let lints = [&["clippy", "--release", "--all-targets", "--locked"], &MOST[..], &["--", "-D", "warnings"]].concat();
    step(root, "lints", "cargo", &lints, &checked())
}

/// Tests of several programs side by side, slow ones named.
fn nextest(root: &Path, filter: &[&str]) -> Result<()> {
    let args = [&["nextest", "run", "--release", "--locked", "--no-fail-fast"], &MOST[..], filter].concat();
    step(root, "tests", "cargo", &args, &checked())
}

fn cargo_test(root: &Path, packages: &[&str]) -> Result<()> {
    let args = [&["test", "--release", "--locked", "--no-fail-fast", "--lib", "--bins", "--tests"], packages].concat();
    step(root, "tests", "cargo", &args, &checked())
}

fn test(root: &Path) -> Result<()> {
    setup()?;
    step(root, "format", "cargo", &["fmt", "--all", "--check"], &[])?;
    println!("== tidy rules");
    tidy::check(root)?;
    lint(root)?;
    cargo_test(root, &MOST)?;
    let examples = [&["test", "--doc", "--release", "--locked"], &MOST[..]].concat();
    step(root, "examples in the documentation", "cargo", &examples, &checked())?;
    let doc = [&["doc", "--release", "--no-deps", "--locked"], &MOST[..]].concat();
    step(root, "documentation", "cargo", &doc, &[("RUSTDOCFLAGS", "-D warnings")])?;
    println!("all checks passed");
    Ok(())
}

fn long(root: &Path) -> Result<()> {
    setup()?;
    let mut env = checked();
    env.extend([("LIMPID_KILLS", "200"), ("LIMPID_HAMMER_S", "300"), ("LIMPID_RUNS", "2000")]);
    let args =
        ["test", "--release", "--workspace", "--exclude", APART, "--locked", "--no-fail-fast", "--", "--nocapture"];
    step(root, "all tests, the long ones at full length", "cargo", &args, &env)
}

fn survey(root: &Path) -> Result<()> {
    let one = ["-p", APART, "--release", "--locked"];
    let lints = [&["clippy", "--all-targets"], &one[..], &["--", "-D", "warnings"]].concat();
    step(root, "lints of the survey", "cargo", &lints, &checked())?;
    step(root, "tests of the survey", "cargo", &[&["test"], &one[..]].concat(), &checked())
}

/// Programs that tests start, with the Debian package that brings each.
const NEEDED: &[(&str, &str)] = &[
    ("prlimit", "util-linux"),
    ("setpriv", "util-linux"),
    ("pdfinfo", "poppler-utils"),
    ("pdftoppm", "poppler-utils"),
    ("chromium", "chromium"),
    ("dmtxread", "dmtx-utils"),
    ("ssh-keygen", "openssh-client"),
    ("openssl", "openssl"),
    ("curl", "curl"),
    ("python3", "python3"),
];

/// Whether a Python of this machine has numpy, which the scripts of a package compute with.
fn has_numpy() -> bool {
    ["python3", "/usr/bin/python3"]
        .iter()
        .any(|python| Command::new(python).args(["-c", "import numpy"]).output().is_ok_and(|out| out.status.success()))
}

fn setup() -> Result<()> {
    let mut missing: Vec<&str> =
        NEEDED.iter().filter(|(program, _)| which(program).is_none()).map(|(_, package)| *package).collect();
    // Debian keeps a server's programs in a folder of its version, off the PATH.
    let debian = std::fs::read_dir("/usr/lib/postgresql").into_iter().flatten().flatten();
    if which("initdb").is_none() && !debian.map(|e| e.path().join("bin/initdb")).any(|p| p.is_file()) {
        missing.push("postgresql");
    }
    if !has_numpy() {
        missing.push("python3-numpy");
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
