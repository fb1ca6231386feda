//! A file in the making, beside its place and with a name of its own, so that several programs that make one name at once
//! do not write into each other's: the first that is done gets the name, the others are refused. And what such makings
//! left behind when they were broken off.

use super::StoreError;
use std::ffi::OsString;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, SystemTime};

/// Endings of files in the making: of a new programme or a copy of a file, of one made anew from a package, of one copied
/// from a server.
pub(crate) const ENDINGS: [&str; 3] = [".unfinished", ".rebuilding", ".copying"];

/// What the database lays beside a file.
const BESIDE: [&str; 4] = ["", "-wal", "-shm", "-journal"];

/// How long nothing was written to a file in the making until it counts as left over: a copy writes all the time. Where
/// the judgement is wrong, that one copy fails and says so.
const STILL: Duration = Duration::from_mins(10);

fn with_end(path: &Path, end: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(end);
    name.into()
}

/// Refuses where a new file may not be made at `path`. An empty file may stand there.
pub(crate) fn may_be_made(path: &Path) -> Result<(), StoreError> {
    if path.metadata().is_ok_and(|m| m.is_dir() || m.len() > 0) {
        return Err(StoreError::Exists { path: path.into() });
    }
    let folder = folder_of(path);
    if !folder.is_dir() {
        return Err(StoreError::NoFolder { path: path.into(), folder: folder.into() });
    }
    Ok(())
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// A file in the making with what the database lays beside it; gone when dropped.
pub(crate) struct Unfinished(pub(crate) PathBuf);

impl Unfinished {
    /// Beside `path`, named like it, with this process and `end` added.
    pub fn beside(path: &Path, end: &str) -> Self {
        static MADE: AtomicU32 = AtomicU32::new(0);
        let n = MADE.fetch_add(1, Ordering::Relaxed);
        let out = Self(with_end(path, &format!(".{}-{n}{end}", std::process::id())));
        // A process of the same number may have left one.
        out.remove();
        out
    }

    /// Gives the file its name, where nobody else has taken it meanwhile. It must be closed.
    ///
    /// # Errors
    /// [`StoreError::Exists`]; the folder cannot be written.
    pub fn take_its_place(self, path: &Path) -> Result<(), StoreError> {
        let told = |source: std::io::Error| match source.kind() {
            ErrorKind::AlreadyExists => StoreError::Exists { path: path.into() },
            _ => StoreError::Io { doing: "writing", path: path.into(), source },
        };
        fs::File::open(&self.0).and_then(|file| file.sync_all()).map_err(told)?;
        self.named(path).map_err(told)?;
        fs::File::open(folder_of(path)).and_then(|folder| folder.sync_all()).map_err(told)
    }

    /// A second name is refused where the first stands, and the old one goes with `self`.
    fn named(&self, path: &Path) -> std::io::Result<()> {
        match fs::hard_link(&self.0, path) {
            Err(e) if e.kind() == ErrorKind::AlreadyExists => {}
            Err(e) if matches!(e.kind(), ErrorKind::Unsupported | ErrorKind::PermissionDenied) => {
                // A file system where a file has one name only: the place is taken first, then filled.
                fs::File::create_new(path)?;
                return fs::rename(&self.0, path);
            }
            other => return other,
        }
        // Something stands there. An empty file may go, but only this one: it is looked at where nobody else has it.
        if path.metadata()?.len() > 0 {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let aside = with_end(&self.0, "-empty");
        fs::rename(path, &aside)?;
        if aside.metadata()?.len() > 0 {
            fs::hard_link(&aside, path)?;
            fs::remove_file(&aside)?;
            return Err(ErrorKind::AlreadyExists.into());
        }
        fs::remove_file(&aside)?;
        fs::hard_link(&self.0, path)
    }

    fn remove(&self) {
        for end in BESIDE {
            let _ = fs::remove_file(with_end(&self.0, end));
        }
    }
}

impl Drop for Unfinished {
    fn drop(&mut self) {
        self.remove();
    }
}

/// A file in the making that was found beside a programme.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOver {
    /// The file.
    pub path: PathBuf,
    /// Whether it was removed: nothing had been written to it for ten minutes. Else another program may be at it.
    pub removed: bool,
}

/// Looks for files in the making of the programme at `path`, and removes those that were left behind. What they held
/// stands elsewhere: they were copies, or had not yet begun.
pub fn left_over(path: &Path) -> Vec<LeftOver> {
    let Some(name) = path.file_name() else { return vec![] };
    let begins = |found: &OsString| found.as_encoded_bytes().starts_with(name.as_encoded_bytes());
    let in_the_making = |found: &OsString| {
        let rest = &found.as_encoded_bytes()[name.len()..];
        // Such a name goes on with a full stop: "wells.sqlite2.unfinished" is of another programme.
        rest.starts_with(b".") && ENDINGS.iter().any(|e| rest.ends_with(e.as_bytes()))
    };
    let entries = fs::read_dir(folder_of(path)).into_iter().flatten().flatten();
    let mut found: Vec<PathBuf> = entries
        .filter(|e| e.file_type().is_ok_and(|t| t.is_file()))
        .filter(|e| begins(&e.file_name()) && in_the_making(&e.file_name()))
        .map(|e| e.path())
        .collect();
    found.sort();
    let still = |p: &PathBuf| {
        let written = BESIDE.iter().filter_map(|end| with_end(p, end).metadata().ok()?.modified().ok()).max();
        written.is_some_and(|at| SystemTime::now().duration_since(at).is_ok_and(|since| since > STILL))
    };
    let cleared = |p: PathBuf| {
        let removed = still(&p) && fs::remove_file(&p).is_ok();
        if removed {
            // Its log and the like hold nothing without it.
            BESIDE[1..].iter().for_each(|end| drop(fs::remove_file(with_end(&p, end))));
        }
        LeftOver { path: p, removed }
    };
    found.into_iter().map(cleared).collect()
}
