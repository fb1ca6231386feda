//! What the import tests share: an empty programme, a file from text, an import.
#![allow(dead_code, missing_docs, clippy::missing_errors_doc, reason = "each test file uses a part")]

use intake::import::{ImportError, Imported, Input, Mapping, import, preview};
use record::store::Store;
use std::path::{Path, PathBuf};

pub struct Desk {
    pub folder: tempfile::TempDir,
    pub store: Store,
}

impl Default for Desk {
    fn default() -> Self {
        Self::new()
    }
}

impl Desk {
    pub fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::create(folder.path().join("programme.limpid")).unwrap();
        Self { folder, store }
    }

    pub fn file(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    }

    pub fn take(&mut self, path: &Path, mapping: &str) -> Result<Imported, ImportError> {
        let mapping = if mapping.contains('\n') { Mapping::parse(mapping) } else { Mapping::shipped(mapping) };
        let input = Input { path: path.to_path_buf(), mapping: mapping.unwrap() };
        import(&mut self.store, &[input], "test", "2026-07-20T10:00:00Z")
    }

    pub fn look(&mut self, path: &Path, mapping: &str) -> Imported {
        let mapping = if mapping.contains('\n') { Mapping::parse(mapping) } else { Mapping::shipped(mapping) };
        let input = Input { path: path.to_path_buf(), mapping: mapping.unwrap() };
        preview(&mut self.store, &[input], "2026-07-20T10:00:00Z").unwrap()
    }

    /// Takes text under a name; panics with the refusal.
    pub fn text(&mut self, name: &str, mapping: &str, text: &str) -> Imported {
        let path = self.file(name, text);
        self.take(&path, mapping).unwrap_or_else(|e| panic!("{e}"))
    }

    /// The message with which a file is refused; the store must be as it was.
    pub fn refusal(&mut self, name: &str, mapping: &str, bytes: impl AsRef<[u8]>) -> String {
        let path = self.file(name, bytes);
        let head = self.store.head().unwrap();
        let message = match self.take(&path, mapping) {
            Err(ImportError::Refused(f)) => ImportError::Refused(f).to_string(),
            Err(other) => panic!("{other}"),
            Ok(taken) => panic!("it was taken: {:?}", taken.files),
        };
        assert_eq!(self.store.head().unwrap(), head);
        assert!(self.store.verify(None).unwrap().differences.is_empty());
        message
    }
}

/// Every row of every table as text, for comparing stores; raw files and times left out.
pub fn content(store: &Store) -> Vec<String> {
    let mut out = vec![];
    for table in record::schema::TABLES {
        if matches!(table.name, "raw_file" | "raw_part" | "mapping") {
            continue;
        }
        let mut rows = vec![];
        store
            .dump(table.name, |_, _, cells| {
                let shown: Vec<String> = table
                    .columns
                    .iter()
                    .zip(cells)
                    .filter(|(c, _)| !matches!(c.name, "file_row" | "raw_file"))
                    .map(|(_, c)| format!("{c:?}"))
                    .collect();
                rows.push(format!("{} {}", table.name, shown.join(" ")));
                Ok(())
            })
            .unwrap();
        rows.sort();
        out.extend(rows);
    }
    out
}
