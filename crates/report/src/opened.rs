//! How each number came to be, for the web page of a report: it opens down to the counts, or to the place in a
//! laboratory's file, without a server.

use super::scope::Chosen;
use super::substance;
use assessment::results::Listed;
use document::content::Opened;
use message::{Spoken, step};
use quantity::Derivation;
use record::Error;
use record::model::ResultRow;
use record::store::Store;
use std::collections::HashMap;

/// Numbers that a page opens, at most: of more a page would be slow to open itself.
const MOST: usize = 1000;

/// The derivations of the results of water.
///
/// # Errors
/// The store cannot be read.
pub fn of(store: &Store, chosen: &Chosen, wanted: &dyn Fn(&Listed) -> bool) -> Result<Vec<Opened>, Error> {
    let files: HashMap<i64, String> = store.raw_files()?.into_iter().map(|f| (f.id, f.name)).collect();
    let mut out = vec![];
    let told = chosen.results.iter().zip(&chosen.rows).filter(|(r, _)| r.verdict.is_some() && wanted(r));
    for (r, row) in told.take(MOST) {
        let kept = store.derivation_text(row.id)?.and_then(|d| serde_json::from_str::<Derivation>(&d).ok());
        let lines = kept.map_or_else(|| vec![(0, reported(r, row, &files))], |d| lines(&d));
        let isotopes = if r.isotopes.is_empty() { String::new() } else { format!(" {}", r.isotopes) };
        let title = format!("{}, {}{isotopes}", r.bottle, substance(&r.analyte));
        out.push(Opened { result: r.result.clone(), title, lines });
    }
    Ok(out)
}

/// A laboratory's own number: the place in its file.
fn reported(r: &Listed, row: &ResultRow, files: &HashMap<i64, String>) -> String {
    let amount = r.amount.as_ref().map_or_else(String::new, |a| a.with_u().text());
    let place = match (row.raw_file_id.and_then(|f| files.get(&f)), row.file_row) {
        (Some(file), Some(n)) => step::FileRow { file: file.into(), row: n.to_string().into() }.text(),
        (Some(file), None) => step::File { file: file.into() }.text(),
        _ => step::NoFile.text(),
    };
    format!("{amount} [{place}]")
}

/// The tree from the number down, each step once, with its depth.
fn lines(d: &Derivation) -> Vec<(usize, String)> {
    let mut out = vec![];
    let mut shown = vec![false; d.nodes.len()];
    let mut waiting: Vec<(usize, usize)> = d.nodes.len().checked_sub(1).map(|last| (last, 0)).into_iter().collect();
    while let Some((at, depth)) = waiting.pop() {
        let Some(node) = d.nodes.get(at) else { continue };
        if std::mem::replace(&mut shown[at], true) {
            continue;
        }
        let mut line = format!("{} = {}", node.name_text(), node.amount.with_u().text());
        if !node.step.is_empty() {
            line += &format!(" ← {}", node.step_text());
        }
        if !node.source.is_empty() {
            line += &format!(" [{}]", node.source_text());
        }
        out.push((depth, line));
        waiting.extend(node.inputs.iter().rev().map(|i| (i.0, depth + 1)));
    }
    out
}
