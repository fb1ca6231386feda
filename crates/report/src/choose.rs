//! Sections of the full report, chosen by the person. Cautions and the origin always stand.

use document::content::{Content, Section};
use figure::slug;

/// A section that was asked for and that the report does not have.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the report has no section \"{asked}\"; there are: {}", known.join(", "))]
pub struct NoSection {
    /// As asked for.
    pub asked: String,
    /// Names of the sections there are.
    pub known: Vec<String>,
}

/// Name of the first page among the parts that can be chosen.
const PAGE_ONE: &str = "page-one";

/// Names of the parts that can be chosen.
pub fn names(content: &Content) -> Vec<String> {
    let mut out: Vec<String> = ["asked", "found", "verdicts", "methods"].map(String::from).to_vec();
    if content.front.is_some() {
        out.insert(0, PAGE_ONE.into());
    }
    for s in &content.sections {
        if !out.contains(&s.name) {
            out.push(s.name.clone());
        }
    }
    out
}

/// Leaves only the parts whose name begins with one of these, in the order of the report.
///
/// # Errors
/// [`NoSection`] with the names there are.
pub fn choose(content: &mut Content, wanted: &[String]) -> Result<(), NoSection> {
    let known = names(content);
    let wanted: Vec<String> = wanted.iter().map(|w| slug(w.trim())).collect();
    for w in &wanted {
        if w.is_empty() || !known.iter().any(|k| k.starts_with(w.as_str())) {
            return Err(NoSection { asked: w.clone(), known });
        }
    }
    let taken = |name: &str| wanted.iter().any(|w| name.starts_with(w.as_str()));
    let keep = |s: &Section| taken(&s.name);
    content.sections.retain(keep);
    if !taken(PAGE_ONE) {
        content.front = None;
    }
    if !taken("asked") {
        content.asked.clear();
    }
    if !taken("found") {
        content.found.clear();
    }
    if !taken("verdicts") {
        content.verdicts.clear();
    }
    if !taken("methods") {
        content.methods.clear();
    }
    Ok(())
}
