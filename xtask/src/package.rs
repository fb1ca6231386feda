//! `cargo xtask package DIR`: what a machine without Rust installs.
//!
//! Two forms of the same program: a Debian package (`.deb`) and an archive (`.tar.gz`) whose program needs no library of
//! the system. Both carry manual pages, completions for three shells, a service file, the guide, the licences of
//! everything that is built in ([`licences`]) and the bill of materials in CycloneDX ([`bill`]). `SHA256SUMS` stands
//! beside them. Each is then installed into an empty folder and run there ([`try_out`]).
//!
//! Dates inside are the date of the last commit, owners root, names sorted: the same commit packs to the same bytes.

pub mod bill;
pub mod forms;
pub mod licences;
pub mod try_out;

use anyhow::{Context as _, Result, bail};
use serde_json::Value;
use sha2::{Digest as _, Sha256};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The only processor that is packed for. A choice: what the founders can test.
const TARGET: &str = "x86_64-unknown-linux-gnu";

/// Largest package and largest installed program, in bytes: the goals of the first edition.
const LARGEST_PACKED: u64 = 30_000_000;
const LARGEST_INSTALLED: u64 = 95_000_000;

/// Builds both forms into `out`, tries them, writes the sums.
///
/// # Errors
/// A program that is not there, a build that ends with a fault, a licence that is not allowed, or a package that does not
/// run where it was installed.
pub fn run(root: &Path, out: &Path) -> Result<()> {
    std::fs::create_dir_all(out).with_context(|| format!("making {}", out.display()))?;
    let out = &out.canonicalize()?;
    let graph = metadata(root)?;
    let program = build(root, "program", &[], &root.join("target"))?;
    // A target of its own: another way to link builds everything anew.
    let alone = build(
        root,
        "program that needs no library",
        &[("RUSTFLAGS", "-C target-feature=+crt-static -C relocation-model=static")],
        &root.join("target/alone"),
    )?;
    let scratch = out.join("unfinished");
    if scratch.exists() {
        std::fs::remove_dir_all(&scratch)?;
    }
    let version = forms::version(&graph)?;
    let mut made = Vec::new();
    for (form, program) in [(forms::Form::Debian, &program), (forms::Form::Archive, &alone)] {
        let tree = scratch.join(form.name());
        forms::lay_out(root, &graph, form, program, &tree)?;
        let installed = size_of(&tree)?;
        let file = forms::pack(form, &version, &tree, out, forms::date(root)?)?;
        let packed = std::fs::metadata(&file)?.len();
        println!("{}: {:.1} MB packed, {:.1} MB installed", name_of(&file), megabytes(packed), megabytes(installed));
        // Goals, no reason to have no package: what was measured is told.
        if packed > LARGEST_PACKED || installed > LARGEST_INSTALLED {
            println!(
                "{} is over its goal: at most {:.0} MB packed, {:.0} MB installed",
                name_of(&file),
                megabytes(LARGEST_PACKED),
                megabytes(LARGEST_INSTALLED)
            );
        }
        made.push(file);
    }
    let bill = out.join(format!("limpid-{version}.cdx.json"));
    std::fs::write(&bill, bill::of(&graph, &lock(root)?)?)?;
    made.push(bill);
    std::fs::remove_dir_all(&scratch)?;
    std::fs::write(out.join("SHA256SUMS"), sums(&made)?)?;
    for (form, file) in [forms::Form::Debian, forms::Form::Archive].into_iter().zip(&made) {
        try_out::run(form, file)?;
    }
    Ok(())
}

/// The dependencies of every crate as cargo resolved them, for the processor that is packed for.
///
/// # Errors
/// cargo cannot say.
pub fn metadata(root: &Path) -> Result<Value> {
    let told = Command::new("cargo")
        .args(["metadata", "--format-version", "1", "--locked", "--filter-platform", TARGET])
        .current_dir(root)
        .output()
        .context("starting cargo")?;
    if !told.status.success() {
        bail!("cargo metadata: {}", String::from_utf8_lossy(&told.stderr));
    }
    Ok(serde_json::from_slice(&told.stdout)?)
}

/// The lock file, which holds the sum of each crate from outside.
fn lock(root: &Path) -> Result<toml::Table> {
    Ok(std::fs::read_to_string(root.join("Cargo.lock"))?.parse()?)
}

/// Builds the program without its symbols. Every number it gives is that of the checked build, which tests compare.
fn build(root: &Path, name: &str, env: &[(&str, &str)], target: &Path) -> Result<PathBuf> {
    println!("== {name}");
    let status = Command::new("cargo")
        .args(["build", "--release", "--locked", "-p", "limpid", "--target", TARGET])
        .envs(env.iter().copied())
        .env("CARGO_TARGET_DIR", target)
        .env("CARGO_PROFILE_RELEASE_STRIP", "symbols")
        .current_dir(root)
        .status()
        .context("starting cargo")?;
    if !status.success() {
        bail!("{name}: cargo ended with {status}");
    }
    Ok(target.join(TARGET).join("release/limpid"))
}

/// Runs a program to its end; its words are shown when it fails.
///
/// # Errors
/// It is not there, or ended with a fault.
pub fn tool(program: &str, args: &[&str], dir: &Path) -> Result<()> {
    let told = Command::new(program)
        .args(args)
        .current_dir(dir)
        .output()
        .with_context(|| format!("starting {program}, which packing needs"))?;
    if !told.status.success() {
        bail!("{program} {}: {}", args.join(" "), String::from_utf8_lossy(&told.stderr));
    }
    Ok(())
}

/// Bytes of all files under a folder.
fn size_of(dir: &Path) -> Result<u64> {
    let mut sum = 0;
    for entry in std::fs::read_dir(dir)? {
        let (path, kind) = entry.map(|e| (e.path(), e.file_type()))?;
        sum += if kind?.is_dir() { size_of(&path)? } else { std::fs::symlink_metadata(&path)?.len() };
    }
    Ok(sum)
}

/// A line for each file, as `sha256sum --check` reads it.
fn sums(files: &[PathBuf]) -> Result<String> {
    let mut lines = String::new();
    for file in files {
        for byte in Sha256::digest(std::fs::read(file)?) {
            write!(lines, "{byte:02x}")?;
        }
        writeln!(lines, "  {}", name_of(file))?;
    }
    Ok(lines)
}

fn name_of(file: &Path) -> String {
    file.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

#[expect(clippy::cast_precision_loss, reason = "a size for people, to a tenth of a megabyte")]
fn megabytes(bytes: u64) -> f64 {
    bytes as f64 / 1e6
}
