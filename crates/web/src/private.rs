//! Folders for what came up and what was made: for the owner of this program alone, and gone with it.
//!
//! They stand beside the accounts in `….work`, one folder a start of the program; where that cannot be written, in the
//! system's folder for what passes. What a program that was killed left behind goes at the next start: each holds the lock
//! of a file of its own while it runs, and a folder whose lock is free is nobody's.

use std::fs::{DirBuilder, File, Permissions};
use std::io::Result;
use std::os::unix::fs::{DirBuilderExt as _, PermissionsExt as _};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// For its owner alone.
const OWN: u32 = 0o700;

/// The file that is locked while the folder is in use.
const IN_USE: &str = "in-use";

/// The folders of this start.
pub(crate) struct Private {
    folder: TempDir,
    /// Locked as long as it is open.
    _in_use: File,
}

impl Private {
    /// Beside the accounts.
    pub fn beside(accounts: &Path) -> Result<Self> {
        let mut name = accounts.as_os_str().to_owned();
        name.push(".work");
        let beside = PathBuf::from(name);
        Self::inside(&beside).or_else(|_| Self::new(own_folder(None)?))
    }

    fn inside(all: &Path) -> Result<Self> {
        if !all.is_dir() {
            DirBuilder::new().mode(OWN).create(all)?;
        }
        // Whatever it was before: a link or a file of this name is not followed.
        if !all.symlink_metadata()?.is_dir() {
            return Err(std::io::ErrorKind::NotADirectory.into());
        }
        std::fs::set_permissions(all, Permissions::from_mode(OWN))?;
        for left in std::fs::read_dir(all)?.flatten() {
            clear(&left.path());
        }
        Self::new(own_folder(Some(all))?)
    }

    fn new(folder: TempDir) -> Result<Self> {
        let in_use = File::create(folder.path().join(IN_USE))?;
        in_use.lock()?;
        Ok(Self { folder, _in_use: in_use })
    }

    /// A new folder; it goes when it is dropped.
    pub fn folder(&self) -> Result<TempDir> {
        own_folder(Some(self.folder.path()))
    }
}

fn own_folder(within: Option<&Path>) -> Result<TempDir> {
    let mut how = tempfile::Builder::new();
    how.permissions(Permissions::from_mode(OWN));
    within.map_or_else(|| how.tempdir(), |within| how.tempdir_in(within))
}

/// Takes away a folder that nobody uses. One without the file is being made or half gone: an hour old, it is left over.
fn clear(folder: &Path) {
    let old = || {
        let made = folder.symlink_metadata().and_then(|m| m.modified()).ok();
        made.and_then(|m| m.elapsed().ok()).is_some_and(|age| age.as_secs() > 3600)
    };
    let free = match File::open(folder.join(IN_USE)) {
        Ok(file) => file.try_lock().is_ok(),
        Err(_) => old(),
    };
    if free {
        // What cannot go now is tried at the next start.
        let _ = std::fs::remove_dir_all(folder);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mode(path: &Path) -> u32 {
        path.metadata().unwrap().permissions().mode() & 0o777
    }

    #[test]
    fn what_was_left_behind_goes_and_what_is_used_stays() {
        let dir = tempfile::tempdir().unwrap();
        let accounts = dir.path().join("wells.sqlite.accounts");
        let work = dir.path().join("wells.sqlite.accounts.work");
        let one = Private::beside(&accounts).unwrap();
        let upload = one.folder().unwrap();
        std::fs::write(upload.path().join("counts.csv"), "x").unwrap();
        assert_eq!([&work, one.folder.path(), upload.path()].map(mode), [OWN; 3]);
        // A program that was killed: its folder, and no lock.
        let left = work.join("left");
        std::fs::create_dir(&left).unwrap();
        std::fs::write(left.join(IN_USE), "").unwrap();
        let two = Private::beside(&accounts).unwrap();
        assert!(!left.exists(), "left behind");
        assert!(upload.path().join("counts.csv").exists(), "another program's that runs");
        assert_ne!(one.folder.path(), two.folder.path());
        drop(upload);
        drop((one, two));
        assert_eq!(std::fs::read_dir(&work).unwrap().count(), 0);
    }

    #[test]
    fn a_link_in_its_place_is_not_followed() {
        let dir = tempfile::tempdir().unwrap();
        let target = dir.path().join("target");
        std::fs::create_dir(&target).unwrap();
        std::fs::write(target.join("kept"), "x").unwrap();
        std::os::unix::fs::symlink(&target, dir.path().join("a.work")).unwrap();
        let private = Private::beside(&dir.path().join("a")).unwrap();
        assert!(!private.folder.path().starts_with(dir.path()));
        assert!(target.join("kept").exists());
        assert_eq!(mode(private.folder.path()), OWN);
    }
}
