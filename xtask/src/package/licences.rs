//! The licences of everything that is built into the program: which are allowed, and their texts.

use super::bill::{Part, built_in};
use anyhow::{Result, bail};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;
use std::sync::LazyLock;

/// Licences under which something may be built in, by their SPDX names: the list of `deny.toml`, which `cargo deny` reads
/// too.
static ALLOWED: LazyLock<BTreeSet<String>> = LazyLock::new(|| {
    let rules: toml::Table = include_str!("../../../deny.toml").parse().expect("deny.toml is TOML");
    let names = rules["licenses"]["allow"].as_array().expect("deny.toml lists the licences");
    names.iter().filter_map(|n| n.as_str().map(String::from)).collect()
});

/// Whether an SPDX expression can be met with allowed licences alone: one of each `OR`, all of each `AND`. An exception
/// (`WITH`) only gives more.
#[must_use]
pub fn allowed(expression: &str) -> bool {
    let mut words = expression.replace('(', " ( ").replace(')', " ) ");
    words.push_str(" )");
    let mut words = words.split_whitespace();
    any(&mut words)
}

/// Alternatives up to the closing bracket; nothing at all is met by nothing.
fn any<'a>(words: &mut impl Iterator<Item = &'a str>) -> bool {
    let (mut met, mut all) = (false, None);
    while let Some(word) = words.next() {
        let this = match word {
            ")" => break,
            "OR" => {
                met |= all.take().unwrap_or(false);
                continue;
            }
            "AND" => continue,
            "WITH" => {
                words.next();
                continue;
            }
            "(" => any(words),
            name => ALLOWED.contains(name),
        };
        all = Some(all.unwrap_or(true) && this);
    }
    met || all.unwrap_or(false)
}

/// Names of files that hold a licence or what it demands to be passed on.
const FILES: &[&str] = &["license", "licence", "copying", "unlicense", "notice", "copyright"];

/// One text with every licence, each text once, with the crates under it.
///
/// # Errors
/// A crate whose licence is not allowed, or that names none; a folder that cannot be read.
pub fn texts(graph: &Value) -> Result<String> {
    let parts = built_in(graph)?;
    let mut by_text: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut list = String::new();
    for (part, _) in parts.values() {
        let name = format!("{} {}", part.name(), part.version());
        let Some(licence) = part.licence().or_else(|| part.0["license_file"].as_str().map(String::from)) else {
            bail!("{name} names no licence");
        };
        if part.licence().is_some_and(|l| !allowed(&l)) {
            bail!("{name} stands under {licence}, which is not among the licences that may be built in");
        }
        if !part.from_outside() {
            continue;
        }
        writeln!(list, "{name}: {licence}")?;
        for text in texts_of(*part)? {
            by_text.entry(text).or_default().push(name.clone());
        }
    }
    let mut all = format!(
        "Limpid stands under MIT OR Apache-2.0. Built into it are the libraries below, each under its own licence.\n\n{list}"
    );
    for (text, names) in by_text {
        write!(all, "\n{}\n{}\n\n{text}\n", "-".repeat(78), names.join(", "))?;
    }
    Ok(all)
}

/// The texts that a crate brings along. Some bring none; their licence is in the list by name.
fn texts_of(part: Part<'_>) -> Result<Vec<String>> {
    let Some(dir) = part.0["manifest_path"].as_str().and_then(|m| Path::new(m).parent()) else {
        return Ok(Vec::new());
    };
    let mut texts = Vec::new();
    for entry in std::fs::read_dir(dir)? {
        let path = entry?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().to_lowercase();
        if path.is_file() && FILES.iter().any(|f| name.starts_with(f)) {
            let text = String::from_utf8_lossy(&std::fs::read(&path)?).trim().replace("\r\n", "\n");
            if !text.is_empty() {
                texts.push(text);
            }
        }
    }
    texts.sort();
    texts.dedup();
    Ok(texts)
}
