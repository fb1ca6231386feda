//! A copy of a file while it is in use, page by page. Copies between files and servers are made
//! row by row in `transfer`.

use super::StoreError;
use super::sqlite::told;
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Pages copied before other processes get their turn.
const PAGES_AT_ONCE: i32 = 4096;

/// How long to wait where another process holds a lock.
const PAUSE: Duration = Duration::from_millis(5);

/// Makes the new file `path` whole or not at all: `make` writes it beside its place, then it is
/// renamed.
pub(crate) fn whole_file(
    path: &Path,
    doing: &'static str,
    make: impl FnOnce(&Path) -> rusqlite::Result<()>,
) -> Result<(), StoreError> {
    if path.metadata().is_ok_and(|m| m.is_dir() || m.len() > 0) {
        return Err(StoreError::Exists { path: path.into() });
    }
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    if !folder.is_dir() {
        return Err(StoreError::NoFolder { path: path.into(), folder: folder.into() });
    }
    let mut unfinished = path.as_os_str().to_owned();
    unfinished.push(".unfinished");
    let unfinished = PathBuf::from(unfinished);
    // What a process that was killed left there.
    let _ = std::fs::remove_file(&unfinished);
    if let Err(error) = make(&unfinished) {
        let _ = std::fs::remove_file(&unfinished);
        return Err(told(path, doing, &error));
    }
    std::fs::File::open(&unfinished)
        .and_then(|file| file.sync_all())
        .and_then(|()| std::fs::rename(&unfinished, path))
        .and_then(|()| std::fs::File::open(folder)?.sync_all())
        .map_err(|source| StoreError::Io { doing: "writing", path: path.into(), source })
}

/// Copies the database of `connection` to the new file `to`.
pub(crate) fn backup(connection: &Connection, to: &Path) -> Result<(), StoreError> {
    whole_file(to, "copying", |unfinished| copy(connection, unfinished))
}

fn copy(connection: &Connection, to: &Path) -> rusqlite::Result<()> {
    let mut target = Connection::open(to)?;
    let backup = Backup::new(connection, &mut target)?;
    loop {
        match backup.step(PAGES_AT_ONCE)? {
            StepResult::Done => break,
            StepResult::More => {}
            _ => std::thread::sleep(PAUSE),
        }
    }
    drop(backup);
    // A copy is handed on, and read where nothing can be written: without a log of its own it opens there.
    target.pragma_update_and_check(None, "journal_mode", "DELETE", |_| Ok(()))
}
