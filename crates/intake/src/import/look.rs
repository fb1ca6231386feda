//! A first look at a file: which of the known mappings would read it. What a new one would say is guessed in `guess`.

use super::mapping::{Mapping, Target};
use super::{ImportError, Input, preview};
use quantity::Check;
use record::schema::TABLES;
use record::store::Store;
use std::path::Path;

/// Largest file that mappings are tried on, bytes.
const TRIED_BYTES: u64 = 4 << 20;

/// The mapping among `known` that reads a file without a fault of its form; names that are not on record yet do not
/// count, because another file may bring them. A mapping with the name of the file goes first.
///
/// # Errors
/// The store fails.
pub fn fitting(store: &mut Store, path: &Path, known: &[Mapping]) -> Result<Option<String>, ImportError> {
    let stem = path.file_stem().map_or_else(String::new, |s| s.to_string_lossy().to_lowercase());
    let mut order: Vec<&Mapping> = known.iter().collect();
    order.sort_by_key(|m| !(stem == m.name || stem.ends_with(&m.name) || m.name.starts_with(&stem)));
    if path.metadata().is_ok_and(|m| m.len() > TRIED_BYTES) {
        return Ok(order.first().filter(|m| stem == m.name).map(|m| m.name.clone()));
    }
    for mapping in order {
        let input = Input { path: path.to_path_buf(), mapping: mapping.clone() };
        match preview(store, &[input], "") {
            Ok(seen) => {
                let rows: u64 = seen.files.iter().map(|f| f.rows).sum();
                let before = seen.files.iter().all(|f| f.before);
                let only_names = seen.faults.shown.iter().all(|f| f.check == Check::FileReference);
                if before || (rows > 0 && only_names) {
                    return Ok(Some(mapping.name.clone()));
                }
            }
            Err(e @ (ImportError::Store(_) | ImportError::Io { .. })) => return Err(e),
            Err(_) => {}
        }
    }
    Ok(None)
}

impl Mapping {
    /// Place of what it reads in an order in which each refers to earlier ones only.
    pub fn place(&self) -> usize {
        let table = |name: &str| TABLES.iter().position(|t| t.name == name).unwrap_or(TABLES.len());
        match self.target {
            Target::Table(t) => table(t.name),
            Target::Sequence => table("vial"),
            Target::Counts => table("reading"),
            Target::Results | Target::ResultsWide => table("result"),
            Target::FieldSheet => table("field_entry"),
            Target::Recipe => table("recipe"),
        }
    }
}
