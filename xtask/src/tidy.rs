//! Rules of the house that a machine can check: arrows between rooms point down only, SQL stands
//! in one room, every module says what it is for, nothing is left open, sciences touch neither
//! files nor clock, rooms that only show hold no quantile and no unit factor, and no line names a
//! path of somebody's machine.

use crate::circles;
use crate::numbers;
use anyhow::{Context as _, Result, bail};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The rooms from the ground up: a room may lean on rooms of lower floors only, and rooms of one
/// floor do not know each other.
pub const FLOORS: &[&[&str]] = &[
    &["message", "statistics", "trust"],
    &["quantity"],
    &["measurement", "cleanliness", "aquifer", "aqueous", "series", "limits"],
    &["record"],
    &["intake", "figure"],
    &["assessment", "document"],
    &["programme"],
    &["report", "field_sheet", "exchange"],
    &["web"],
    &["limpid"],
];

/// Crates beside the rooms: who may use them, and what they may use themselves.
/// `typeset` knows text only; `simulator` makes raw files out of nothing.
/// `fixtures` makes small programmes that tests and persons look at. `columns` knows tables only. `survey` asks the sciences over tables and is a program of its own.
const ASIDE: &[(&str, &[&str], &[&str])] = &[
    ("fixtures", &[], &[]),
    ("columns", &["limpid", "web", "exchange"], &[]),
    ("survey", &[], &["quantity", "series", "aqueous", "limits"]),
    ("typeset", &["limpid", "web", "document", "field_sheet"], &[]),
    ("simulator", &["limpid", "intake", "programme", "field_sheet", "report", "web"], &["quantity"]),
];

/// The ground floor and the sciences: pure functions.
const PURE: [&[&str]; 3] = [FLOORS[0], FLOORS[1], FLOORS[2]];

/// Rooms that show what the sciences say.
const SHOWING: [&str; 6] = [
    "crates/figure/src",
    "crates/document/src",
    "crates/field_sheet/src",
    "crates/report/src",
    "crates/web/src",
    "crates/cli/src",
];

/// Runs every rule; the error lists all that is wrong.
///
/// # Errors
/// When a rule is broken or a file cannot be read.
pub fn check(root: &Path) -> Result<()> {
    let mut faults = arrows(root)?;
    // Sources of each crate, by their path below its `src`.
    let mut rooms: BTreeMap<String, BTreeMap<String, String>> = BTreeMap::new();
    for file in sources(root)? {
        let text = fs::read_to_string(&file).with_context(|| format!("reading {}", file.display()))?;
        let name = file.strip_prefix(root).unwrap_or(&file).display().to_string();
        faults.extend(source_faults(&name, &text));
        if let Some((room, path)) = name.strip_prefix("crates/").and_then(|n| n.split_once("/src/")) {
            rooms.entry(room.into()).or_default().insert(path.into(), text);
        }
    }
    for (room, sources) in &rooms {
        let pairs = circles::circles(sources);
        faults.extend(pairs.iter().map(|(a, b)| format!("{room}: {a} and {b} lean on each other from two folders")));
    }
    let lines = rooms.iter().map(|(room, sources)| (room.as_str(), sources.values().map(|t| t.lines().count()).sum()));
    faults.extend(too_large(&lines.collect()));
    for page in ["CONTRIBUTING.md", "ARCHITECTURE.md", "docs/where.md"] {
        let text = fs::read_to_string(root.join(page)).with_context(|| format!("reading {page}"))?;
        faults.extend(missing_paths(root, page, &text));
    }
    let glossary = fs::read_to_string(root.join("docs/glossary.md")).context("reading docs/glossary.md")?;
    let former = former_words(&glossary);
    for (room, sources) in &rooms {
        for (path, text) in sources {
            faults.extend(former_names(&former, &format!("crates/{room}/src/{path}"), text));
        }
    }
    if faults.is_empty() {
        return Ok(());
    }
    bail!("tidy rules broken:\n{}", faults.join("\n"))
}

/// Paths in backticks that a page names and that are not there.
pub fn missing_paths(root: &Path, page: &str, text: &str) -> Vec<String> {
    let ours = |p: &&str| ["crates/", "reference/", "docs/", "xtask/", "mappings/"].iter().any(|d| p.starts_with(d));
    let named = text.split('`').skip(1).step_by(2).filter(ours).filter(|p| !p.contains([' ', '*']));
    named.filter(|p| !root.join(p).exists()).map(|p| format!("{page}: {p} is not there")).collect()
}

/// Words that stood for a term once: the last column of the glossary, with the term.
pub fn former_words(glossary: &str) -> Vec<(String, String)> {
    let rows = glossary.lines().filter(|l| l.starts_with('|') && !l.starts_with("|---"));
    let cells = rows.map(|l| l.trim_matches('|').split('|').map(str::trim).collect::<Vec<_>>());
    cells
        .filter(|c| c.len() == 3 && c[2] != "Not" && !c[2].is_empty())
        .flat_map(|c| c[2].split(", ").map(|word| (word.to_string(), c[0].to_string())).collect::<Vec<_>>())
        .collect()
}

/// Names that a trait from outside prescribes.
const OF_OTHERS: &[&str] = &["channel_binding"];

/// Names of files, modules, types and functions that hold a word of former times.
pub fn former_names(former: &[(String, String)], path: &str, text: &str) -> Vec<String> {
    let mut out = vec![];
    let file = path.rsplit('/').next().unwrap_or_default().trim_end_matches(".rs");
    let mut look = |name: &str| {
        for (word, term) in
            former.iter().filter(|(word, _)| parts(name).any(|part| part.strip_suffix('s').unwrap_or(&part) == word))
        {
            out.push(format!("{path}: {name} says {word}; the glossary's word is {term}"));
        }
    };
    look(file);
    for line in text.split("#[cfg(test)]").next().unwrap_or_default().lines() {
        let words: Vec<&str> = line.trim_start().split(|c: char| !(c.is_alphanumeric() || c == '_')).collect();
        let declared = words.windows(2).find(|w| ["fn", "struct", "enum", "trait", "mod", "type"].contains(&w[0]));
        if let Some(w) = declared.filter(|w| !line.trim_start().starts_with("//") && !OF_OTHERS.contains(&w[1])) {
            look(w[1]);
        }
    }
    out
}

/// `RowDoubt` and `row_doubt` are row and doubt.
fn parts(name: &str) -> impl Iterator<Item = String> {
    let mut out = vec![String::new()];
    for c in name.chars() {
        if c == '_' || c.is_uppercase() {
            out.push(String::new());
        }
        if c != '_'
            && let Some(last) = out.last_mut()
        {
            last.extend(c.to_lowercase());
        }
    }
    out.into_iter().filter(|part| !part.is_empty())
}

/// Parts of all lines that one room may hold, in percent: a room that holds more is where nobody finds anything.
const LARGEST_PERCENT: usize = 15;

/// Rooms that hold too large a part of all lines.
pub fn too_large(lines: &BTreeMap<&str, usize>) -> Vec<String> {
    let all: usize = lines.values().sum();
    let over = lines.iter().filter(|(_, own)| **own * 100 > all * LARGEST_PERCENT);
    over.map(|(room, own)| format!("{room} holds {own} of {all} lines, over {LARGEST_PERCENT} %")).collect()
}

/// Arrows that do not point down.
///
/// # Errors
/// When a manifest cannot be read.
pub fn arrows(root: &Path) -> Result<Vec<String>> {
    let mut faults = Vec::new();
    for entry in fs::read_dir(root.join("crates")).context("reading crates")? {
        let manifest = entry?.path().join("Cargo.toml");
        let text = fs::read_to_string(&manifest).with_context(|| format!("reading {}", manifest.display()))?;
        let doc: toml::Table = text.parse().with_context(|| format!("reading {}", manifest.display()))?;
        let from = doc["package"]["name"].as_str().unwrap_or_default().to_string();
        let uses: BTreeSet<String> = doc
            .get("dependencies")
            .and_then(toml::Value::as_table)
            .map(|t| t.keys().cloned().collect())
            .unwrap_or_default();
        faults.extend(
            uses.iter().filter(|to| !may_use(&from, to)).map(|to| format!("{from} → {to}: arrows point down only")),
        );
        if floor(&from).is_none() && !ASIDE.iter().any(|(n, ..)| *n == from) {
            faults.push(format!("{from} stands on no floor of xtask/src/tidy.rs"));
        }
    }
    faults.sort();
    Ok(faults)
}

fn floor(name: &str) -> Option<usize> {
    FLOORS.iter().position(|f| f.contains(&name))
}

/// Whether `from` may depend on `to`; crates from outside are always allowed.
pub fn may_use(from: &str, to: &str) -> bool {
    if let Some((_, users, _)) = ASIDE.iter().find(|(n, ..)| *n == to) {
        return users.contains(&from);
    }
    let Some(to_floor) = floor(to) else { return true };
    if let Some((.., uses)) = ASIDE.iter().find(|(n, ..)| *n == from) {
        return uses.contains(&to);
    }
    floor(from).is_some_and(|f| f > to_floor)
}

fn sources(root: &Path) -> Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    for dir in ["crates", "xtask", "bench"] {
        walk(&root.join(dir), &mut found)?;
    }
    found.sort();
    Ok(found)
}

pub(crate) fn walk(dir: &Path, found: &mut Vec<PathBuf>) -> Result<()> {
    let Ok(entries) = fs::read_dir(dir) else { return Ok(()) };
    for entry in entries {
        let path = entry?.path();
        if path.is_dir() && !path.ends_with("target") {
            walk(&path, found)?;
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
    Ok(())
}

/// What is wrong with one source file.
pub fn source_faults(name: &str, text: &str) -> Vec<String> {
    let mut faults = Vec::new();
    if !text.trim_start().starts_with("//!") && !name.ends_with("xtask/src/tidy.rs") {
        faults.push(format!("{name}: says nothing of what it is for (//! at the top)"));
    }
    let in_store = name.contains("record/src/store")
        || name.starts_with("crates/survey/src")
        || name.contains("/tests/")
        || name.contains("/examples/")
        || name.starts_with("xtask");
    let science = PURE.concat().iter().any(|s| name.starts_with(&format!("crates/{s}/src")));
    let shows = SHOWING.iter().any(|s| name.starts_with(s));
    let mut in_tests = false;
    for (i, line) in text.lines().enumerate() {
        in_tests |= line.contains("#[cfg(test)]");
        let at = format!("{name}:{}", i + 1);
        for (found, what) in line_faults(line) {
            if found {
                faults.push(format!("{at}: {what}"));
            }
        }
        if shows && !in_tests {
            faults.extend(numbers::line_faults(line).into_iter().map(|what| format!("{at}: {what}")));
        }
        if !in_store && sql(line) {
            faults.push(format!("{at}: SQL outside the store and the survey"));
        }
        if science
            && !in_tests
            && ["std::fs", "std::time", "println!", "eprintln!", "rusqlite"].iter().any(|w| line.contains(w))
        {
            faults.push(format!("{at}: a science touches neither files nor clock, and does not print"));
        }
    }
    faults
}

fn line_faults(line: &str) -> [(bool, &'static str); 2] {
    // Written in two halves so that this file does not find itself.
    let open = [concat!("#[", "ignore"), concat!("todo", "!("), concat!("unimplemented", "!("), concat!("FIX", "ME")];
    let paths = [concat!("/wo", "rk/"), concat!("/ro", "ot/"), concat!("/far", "m/")];
    [
        (open.iter().any(|w| line.contains(w)), "left open"),
        (paths.iter().any(|w| line.contains(w)), "a path of somebody's machine"),
    ]
}

fn sql(line: &str) -> bool {
    let code = line.trim_start();
    !code.starts_with("//")
        && ["SELECT ", "INSERT INTO", "CREATE TABLE", "DELETE FROM", "PRAGMA "].iter().any(|w| line.contains(w))
}
