//! Which crates a change touches, and which lean on those: what `cargo xtask quick` lints and tests.
//!
//! In: paths that git names (relative to the workspace) and the manifests of `crates/`. Out: crate names. A file outside of
//! the crates (a table of `reference/`, a recipe, a mapping) belongs to the crates whose sources name it, since those read
//! it at compile time. What touches every crate (`Cargo.toml`, `Cargo.lock`, `.cargo/`) means all.
//! Checked in `xtask/tests/change.rs`.

use anyhow::{Context as _, Result, bail};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::process::Command;

/// A crate of the workspace.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Member {
    /// Its name, as in `cargo -p`.
    pub name: String,
    /// Its folder, relative to the workspace, as `crates/cli`.
    pub dir: String,
    /// Every dependency, those of tests among them.
    pub uses: BTreeSet<String>,
}

/// All crates of the workspace, by their manifests.
///
/// # Errors
/// When a manifest cannot be read.
pub fn members(root: &Path) -> Result<Vec<Member>> {
    let mut dirs = vec!["xtask".to_string()];
    for entry in fs::read_dir(root.join("crates")).context("reading crates")? {
        dirs.push(format!("crates/{}", entry?.file_name().to_string_lossy()));
    }
    dirs.sort();
    let mut found = Vec::new();
    for dir in dirs {
        let manifest = root.join(&dir).join("Cargo.toml");
        let text = fs::read_to_string(&manifest).with_context(|| format!("reading {}", manifest.display()))?;
        let doc: toml::Table = text.parse().with_context(|| format!("reading {}", manifest.display()))?;
        let Some(name) = doc["package"].get("name").and_then(toml::Value::as_str) else {
            bail!("{}: a package without a name", manifest.display());
        };
        let uses = ["dependencies", "dev-dependencies"]
            .iter()
            .filter_map(|kind| doc.get(*kind).and_then(toml::Value::as_table))
            .flat_map(|table| table.keys().cloned())
            .collect();
        found.push(Member { name: name.to_string(), dir, uses });
    }
    Ok(found)
}

/// The paths that differ from the last commit; where none do, those of the last commit itself.
///
/// # Errors
/// When git does not answer.
pub fn changed_paths(root: &Path) -> Result<Vec<String>> {
    let now = git(root, &["status", "--porcelain", "--no-renames", "--untracked-files=all"])?;
    let paths: Vec<String> = now.lines().filter_map(|l| l.get(3..)).map(str::to_string).collect();
    if !paths.is_empty() {
        return Ok(paths);
    }
    Ok(git(root, &["show", "--name-only", "--no-renames", "--format=", "HEAD"])?.lines().map(str::to_string).collect())
}

fn git(root: &Path, args: &[&str]) -> Result<String> {
    let out = Command::new("git").args(args).current_dir(root).output().context("starting git")?;
    if !out.status.success() {
        bail!("git {} ended with {}: {}", args.join(" "), out.status, String::from_utf8_lossy(&out.stderr).trim());
    }
    Ok(String::from_utf8_lossy(&out.stdout).into_owned())
}

/// The crates that a change of these paths touches, before those that lean on them are added.
///
/// # Errors
/// When a source file cannot be read.
pub fn touched(root: &Path, members: &[Member], paths: &[String]) -> Result<BTreeSet<String>> {
    let mut found = BTreeSet::new();
    for path in paths {
        if ["Cargo.toml", "Cargo.lock", "rustfmt.toml"].contains(&path.as_str()) || path.starts_with(".cargo/") {
            return Ok(members.iter().map(|m| m.name.clone()).collect());
        }
        if let Some(member) = members.iter().find(|m| path.starts_with(&format!("{}/", m.dir))) {
            found.insert(member.name.clone());
            continue;
        }
        for member in members {
            if names_file(&root.join(&member.dir), path)? {
                found.insert(member.name.clone());
            }
        }
    }
    Ok(found)
}

/// Whether a source of the folder reads the file at compile time or by name: it holds the path's last two parts.
fn names_file(dir: &Path, path: &str) -> Result<bool> {
    let tail: Vec<&str> = path.rsplit('/').take(2).collect();
    if tail.len() < 2 {
        return Ok(false);
    }
    let wanted = format!("{}/{}", tail[1], tail[0]);
    let mut files = Vec::new();
    crate::tidy::walk(dir, &mut files)?;
    for file in files {
        if fs::read_to_string(&file).with_context(|| format!("reading {}", file.display()))?.contains(&wanted) {
            return Ok(true);
        }
    }
    Ok(false)
}

/// These crates and all that lean on them, however far.
pub fn with_dependants(members: &[Member], from: &BTreeSet<String>) -> BTreeSet<String> {
    let mut users: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for member in members {
        for used in &member.uses {
            users.entry(used).or_default().push(&member.name);
        }
    }
    let mut found = from.clone();
    let mut open: Vec<String> = from.iter().cloned().collect();
    while let Some(name) = open.pop() {
        for user in users.get(name.as_str()).into_iter().flatten() {
            if found.insert((*user).to_string()) {
                open.push((*user).to_string());
            }
        }
    }
    found
}
