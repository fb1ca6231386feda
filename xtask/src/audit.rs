//! What comes from outside, asked of those who keep lists of it: known weaknesses (`cargo audit`, the RustSec data base),
//! licences, crates that may not come in, and where crates come from (`cargo deny`, by `deny.toml`).
//!
//! Both programs are asked where they are installed. What could not be asked (a program or the data base is not there) is
//! told by name, and counts as not checked: the answer is then neither good nor bad. The licences stand in `deny.toml`
//! alone; [`licences`](crate::package::licences) reads the same list. Checked in `xtask/tests/audit.rs`.

use anyhow::{Context as _, Result};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Output, Stdio};

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// All was asked, nothing was found.
    Good,
    /// Something was found, whatever else could not be asked.
    Found,
    /// Nothing was found, and not all could be asked.
    NotAll,
}

impl Outcome {
    /// The status with which the command ends.
    #[must_use]
    pub fn status(self) -> i32 {
        match self {
            Self::Good => 0,
            Self::Found => 1,
            Self::NotAll => 3,
        }
    }

    fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::Found, _) | (_, Self::Found) => Self::Found,
            (Self::NotAll, _) | (_, Self::NotAll) => Self::NotAll,
            _ => Self::Good,
        }
    }
}

/// Asks both, says what was checked and what was not.
///
/// # Errors
/// A program that is there does not start.
pub fn run(root: &Path) -> Result<Outcome> {
    let outcome = licences(root)?.and(weaknesses(root)?);
    println!(
        "== {}",
        match outcome {
            Outcome::Good => "all was checked, nothing was found",
            Outcome::Found => "something was found",
            Outcome::NotAll => "nothing was found, and not all could be checked",
        }
    );
    Ok(outcome)
}

fn licences(root: &Path) -> Result<Outcome> {
    println!("== licences, crates that may not come in, where crates come from");
    let ask = ["--log-level", "warn", "check", "--hide-inclusion-graph", "licenses", "bans", "sources"];
    let Some(told) = ask_of(root, "deny", &ask, Stdio::inherit())? else { return Ok(Outcome::NotAll) };
    Ok(if told.status.success() { Outcome::Good } else { Outcome::Found })
}

fn weaknesses(root: &Path) -> Result<Outcome> {
    println!("== known weaknesses");
    let Some(told) = ask_of(root, "audit", &["--json"], Stdio::piped())? else { return Ok(Outcome::NotAll) };
    if let Some(answer) = Answer::read(&told.stdout) {
        return Ok(answer.tell("as it is today"));
    }
    println!("the data base of weaknesses is not to be had: {}", first_line(&told.stderr));
    let kept = ask_of(root, "audit", &["--json", "--no-fetch", "--stale"], Stdio::piped())?;
    let Some(answer) = kept.and_then(|told| Answer::read(&told.stdout)) else {
        println!("not checked: known weaknesses; no earlier copy of the data base is on this machine");
        return Ok(Outcome::NotAll);
    };
    Ok(answer.tell("as it was fetched earlier").and(Outcome::NotAll))
}

/// What a subcommand of cargo says; none, and told how to get it, where it is not installed.
fn ask_of(root: &Path, name: &str, words: &[&str], to: Stdio) -> Result<Option<Output>> {
    let program = format!("cargo-{name}");
    let installed =
        std::env::var_os("PATH").is_some_and(|p| std::env::split_paths(&p).any(|d| d.join(&program).is_file()));
    if !installed {
        println!("not checked: {program} is not installed; `cargo install {program} --locked` installs it");
        return Ok(None);
    }
    // Each its own way, as their manuals have it: `cargo deny …` is `cargo-deny …`, `cargo audit …` is `cargo-audit audit …`.
    let told = Command::new("cargo").arg(name).args(words).current_dir(root).stdout(to).stderr(Stdio::piped()).output();
    let told = told.with_context(|| format!("starting {program}"))?;
    if name == "deny" {
        eprint!("{}", String::from_utf8_lossy(&told.stderr));
    }
    Ok(Some(told))
}

fn first_line(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).lines().next().unwrap_or_default().to_string()
}

/// What `cargo audit --json` answers.
#[derive(Debug, PartialEq, Eq)]
pub struct Answer {
    /// Crates of the lock file.
    pub crates: u64,
    /// When the data base was last changed, where it says so.
    pub changed: Option<String>,
    /// Weaknesses, each as its number, the crate with its version, and what it is.
    pub found: Vec<String>,
    /// What else it has to say (crates nobody keeps any more, versions taken back), by kind: the crates.
    pub remarks: BTreeMap<String, Vec<String>>,
}

impl Answer {
    /// None where the answer is none: without its data base the program answers nothing.
    #[must_use]
    pub fn read(told: &[u8]) -> Option<Self> {
        let all: Value = serde_json::from_slice(told).ok()?;
        let named = |one: &Value| {
            let of = |name: &str| one["package"][name].as_str().unwrap_or_default().to_string();
            format!("{} {}", of("name"), of("version"))
        };
        let advisory = |one: &Value, what: &str| one["advisory"][what].as_str().unwrap_or_default().to_string();
        let list = all["vulnerabilities"]["list"].as_array()?;
        let remarks = all["warnings"].as_object()?.iter();
        Some(Self {
            crates: all["lockfile"]["dependency-count"].as_u64()?,
            changed: all["database"]["last-updated"].as_str().map(String::from),
            found: list
                .iter()
                .map(|v| format!("{}, {}: {}", advisory(v, "id"), named(v), advisory(v, "title")))
                .collect(),
            remarks: remarks
                .map(|(kind, all)| (kind.clone(), all.as_array().into_iter().flatten().map(named).collect()))
                .collect(),
        })
    }

    fn tell(&self, how: &str) -> Outcome {
        let changed = self.changed.as_ref().map_or_else(String::new, |at| format!(" (last changed {at})"));
        println!("{} crates held against the data base {how}{changed}: {} weaknesses", self.crates, self.found.len());
        for one in &self.found {
            println!("  {one}");
        }
        for (kind, crates) in &self.remarks {
            println!("  {kind}: {}", crates.join(", "));
        }
        if self.found.is_empty() { Outcome::Good } else { Outcome::Found }
    }
}
