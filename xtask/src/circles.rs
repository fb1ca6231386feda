//! Files that lean on each other in a circle across folders: who reads one has to read all.
//!
//! In: the sources of one crate by their path below `src`. Out: each file that reaches, by paths of `crate::` and
//! `super::`, a file of another folder that reaches it back. Items that a module passes on under its own name count as
//! that module's. Tests within a file are left out. Checked in `xtask/tests/tidy.rs`.

use std::collections::{BTreeMap, BTreeSet};

/// Pairs of files of different folders that lean on each other, over other files too; sorted.
pub fn circles(sources: &BTreeMap<String, String>) -> Vec<(String, String)> {
    let modules: BTreeMap<String, &str> = sources.keys().map(|path| (module(path), path.as_str())).collect();
    let leans: BTreeMap<&str, BTreeSet<&str>> =
        sources.iter().map(|(path, text)| (path.as_str(), leans_on(path, text, &modules))).collect();
    let reach: BTreeMap<&str, BTreeSet<&str>> = leans.keys().map(|path| (*path, reached(path, &leans))).collect();
    let mut out = vec![];
    for (a, reached) in &reach {
        for b in reached.iter().filter(|b| a < *b && folder(a) != folder(b)) {
            if reach[b].contains(a) {
                out.push(((*a).to_string(), (*b).to_string()));
            }
        }
    }
    out
}

fn folder(path: &str) -> &str {
    path.rsplit_once('/').map_or("", |(folder, _)| folder)
}

/// `store/mod.rs` is `store`, `store/act.rs` is `store::act`, `lib.rs` the crate itself.
fn module(path: &str) -> String {
    let stem = path.strip_suffix(".rs").unwrap_or(path);
    let stem = stem.strip_suffix("/mod").unwrap_or(stem);
    if matches!(stem, "lib" | "main") { String::new() } else { stem.replace('/', "::") }
}

fn reached<'a>(from: &str, leans: &BTreeMap<&'a str, BTreeSet<&'a str>>) -> BTreeSet<&'a str> {
    let (mut seen, mut open) = (BTreeSet::new(), vec![from]);
    while let Some(next) = open.pop() {
        for to in leans.get(next).into_iter().flatten() {
            if seen.insert(*to) {
                open.push(to);
            }
        }
    }
    seen
}

fn leans_on<'a>(path: &str, text: &str, modules: &BTreeMap<String, &'a str>) -> BTreeSet<&'a str> {
    let own = module(path);
    let own: Vec<&str> = own.split("::").filter(|p| !p.is_empty()).collect();
    let code: String = text
        .split("#[cfg(test)]")
        .next()
        .unwrap_or_default()
        .lines()
        .map(|line| line.split("//").next().unwrap_or_default().trim())
        .collect();
    let mut out = BTreeSet::new();
    for begin in ["crate::", "super::"] {
        for (at, _) in code.match_indices(begin) {
            let before = code[..at].chars().next_back();
            // Within another path, as the second `super` of two.
            if before.is_some_and(|c| c.is_alphanumeric() || c == '_' || c == ':') {
                continue;
            }
            for spelled in spelled_out(&code[at..]) {
                out.extend(named(&own, &spelled, modules).filter(|to| *to != path));
            }
        }
    }
    out
}

/// The file that a path leads to: its longest beginning that is a module.
fn named<'a>(own: &[&str], spelled: &str, modules: &BTreeMap<String, &'a str>) -> Option<&'a str> {
    let mut base: Vec<&str> = own.to_vec();
    let mut parts: Vec<&str> = spelled.split("::").filter(|p| !p.is_empty()).collect();
    if parts.first() == Some(&"crate") {
        base.clear();
        parts.remove(0);
    }
    while parts.first() == Some(&"super") {
        base.pop();
        parts.remove(0);
    }
    let least = base.len();
    base.extend(parts);
    (least..=base.len()).rev().find_map(|n| modules.get(&base[..n].join("::")).copied())
}

/// The paths at the beginning of a text, a group in braces spelled out.
fn spelled_out(text: &str) -> Vec<String> {
    let end = text.find(|c: char| !(c.is_alphanumeric() || matches!(c, '_' | ':'))).unwrap_or(text.len());
    let (head, rest) = text.split_at(end);
    if !head.ends_with("::") || !rest.starts_with('{') {
        return vec![head.to_string()];
    }
    let mut out = vec![];
    let (mut depth, mut begin) = (0, 1);
    for (i, c) in rest.char_indices() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        if (c == ',' && depth == 1) || depth == 0 {
            out.extend(spelled_out(rest[begin..i].trim()).into_iter().map(|tail| format!("{head}{tail}")));
            begin = i + 1;
        }
        if depth == 0 {
            break;
        }
    }
    out
}
