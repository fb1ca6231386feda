//! A copy of a file while it is in use, page by page. Copies between files and servers are made
//! row by row in `transfer`.

use super::StoreError;
use super::sqlite::told;
use super::unfinished::{Unfinished, may_be_made};
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use std::path::Path;
use std::time::Duration;

/// Pages copied before other processes get their turn.
const PAGES_AT_ONCE: i32 = 4096;

/// How long to wait where another process holds a lock.
const PAUSE: Duration = Duration::from_millis(5);

/// Makes the new file `path` whole or not at all: `make` writes it beside its place, then it gets its name, unless
/// another program was first.
pub(crate) fn whole_file(
    path: &Path,
    doing: &'static str,
    make: impl FnOnce(&Path) -> rusqlite::Result<()>,
) -> Result<(), StoreError> {
    may_be_made(path)?;
    let unfinished = Unfinished::beside(path, ".unfinished");
    make(&unfinished.0).map_err(|e| told(path, doing, &e))?;
    unfinished.take_its_place(path)
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
