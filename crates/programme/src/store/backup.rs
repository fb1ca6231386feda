//! Copies of a programme: `backup` while it is in use, `restore` to a new place.

use super::StoreError;
use super::sqlite::{Sqlite, told};
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Pages copied before other processes get their turn.
const PAGES_AT_ONCE: i32 = 4096;

/// How long to wait where another process holds a lock.
const PAUSE: Duration = Duration::from_millis(5);

/// Copies the database of `connection` to the new file `to`, whole or not at all: the copy is
/// made beside it and then renamed.
pub(crate) fn backup(connection: &Connection, from: &Path, to: &Path) -> Result<(), StoreError> {
    if to.exists() {
        return Err(StoreError::Exists { path: to.into() });
    }
    let mut unfinished = to.as_os_str().to_owned();
    unfinished.push(".unfinished");
    let unfinished = PathBuf::from(unfinished);
    let outside = |source| StoreError::Io { doing: "writing", path: to.into(), source };
    if unfinished.exists() {
        std::fs::remove_file(&unfinished).map_err(outside)?;
    }
    let copied = copy(connection, &unfinished).map_err(|e| match told(&unfinished, "copying", &e) {
        StoreError::Busy { .. } => StoreError::Busy { path: from.into() },
        other => other,
    });
    if let Err(error) = copied {
        let _ = std::fs::remove_file(&unfinished);
        return Err(error);
    }
    std::fs::File::open(&unfinished)
        .and_then(|f| f.sync_all())
        .and_then(|()| std::fs::rename(&unfinished, to))
        .map_err(outside)
}

fn copy(connection: &Connection, to: &Path) -> rusqlite::Result<()> {
    let mut target = Connection::open(to)?;
    let backup = Backup::new(connection, &mut target)?;
    loop {
        match backup.step(PAGES_AT_ONCE)? {
            StepResult::Done => return Ok(()),
            StepResult::More => {}
            _ => std::thread::sleep(PAUSE),
        }
    }
}

/// Makes the store `to` from the backup `from`, after looking whether that is a programme.
///
/// # Errors
/// `from` is not a programme, `to` exists, or the disk refuses.
pub fn restore(from: &Path, to: &Path) -> Result<(), StoreError> {
    use super::backend::Backend;
    Sqlite::open_as_it_is(from)?.backup(to)
}
