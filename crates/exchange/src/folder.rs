//! The folder of a package: files written beside its place with their sums, renamed when all are
//! there. A folder that holds anything but an earlier package is left alone.
//!
//! The sums stand in `SHA256SUMS` and `BLAKE3SUMS`, a line a file as the usual checking programs
//! read them (`sha256sum --check SHA256SUMS`): they cover every other file of the package.

use crate::Error;
use sha2::{Digest as _, Sha256};
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};
use std::sync::Mutex;

/// Name of the list of SHA-256 sums.
pub const SHA256SUMS: &str = "SHA256SUMS";

/// Name of the list of BLAKE3 sums.
pub const BLAKE3SUMS: &str = "BLAKE3SUMS";

/// Bytes gathered before they are hashed and written.
const GATHER: usize = 1 << 18;

/// A file of a package.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Path in the package, with `/`.
    pub path: String,
    /// Bytes.
    pub bytes: u64,
    /// SHA-256, hexadecimal.
    pub sha256: String,
    /// BLAKE3, hexadecimal.
    pub blake3: String,
    /// Media type.
    pub media_type: &'static str,
    /// What it is, in a sentence.
    pub about: String,
}

/// A package in the making.
pub struct Folder {
    unfinished: PathBuf,
    entries: Mutex<Vec<Entry>>,
    done: bool,
}

impl Folder {
    /// Begins a package that will stand at `target`.
    ///
    /// # Errors
    /// [`Error::Occupied`]; the folder beside it cannot be made.
    pub fn begin(target: &Path) -> Result<Self, Error> {
        vacant(target)?;
        let unfinished = beside(target, ".unfinished");
        // What a process that was killed left there.
        let _ = fs::remove_dir_all(&unfinished);
        fs::create_dir_all(&unfinished).map_err(Error::io("making the folder", &unfinished))?;
        Ok(Self { unfinished, entries: Mutex::new(vec![]), done: false })
    }

    /// Begins a file.
    ///
    /// # Errors
    /// It cannot be made.
    pub fn file(&self, path: &str) -> Result<Sink, Error> {
        let full = self.unfinished.join(path);
        if let Some(parent) = full.parent() {
            fs::create_dir_all(parent).map_err(Error::io("making the folder", parent))?;
        }
        let file = File::create(&full).map_err(Error::io("making", &full))?;
        let to = Summing { file, sha256: Sha256::new(), blake3: blake3::Hasher::new(), bytes: 0 };
        Ok(Sink { to: BufWriter::with_capacity(GATHER, to), path: path.to_owned(), full })
    }

    /// Ends a file.
    ///
    /// # Errors
    /// Its last bytes cannot be written.
    pub fn keep(&self, sink: Sink, media_type: &'static str, about: impl Into<String>) -> Result<(), Error> {
        let Sink { to, path, full } = sink;
        let done = to.into_inner().map_err(|e| Error::io("writing", full)(e.into_error()))?;
        self.lock().push(Entry {
            path,
            bytes: done.bytes,
            sha256: hex(&done.sha256.finalize()),
            blake3: done.blake3.finalize().to_hex().to_string(),
            media_type,
            about: about.into(),
        });
        Ok(())
    }

    /// Writes a small file at once.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn put(
        &self,
        path: &str,
        bytes: &[u8],
        media_type: &'static str,
        about: impl Into<String>,
    ) -> Result<(), Error> {
        let mut sink = self.file(path)?;
        sink.all(bytes)?;
        self.keep(sink, media_type, about)
    }

    /// Where a part that is made by others has to stand.
    pub fn place(&self, part: &str) -> PathBuf {
        self.unfinished.join(part)
    }

    /// Takes a whole package, made at [`place`](Self::place), as a part of this folder.
    ///
    /// # Errors
    /// Its lists of sums cannot be read.
    pub fn adopt(&self, part: &str, files: &[Entry]) -> Result<(), Error> {
        let mut taken: Vec<Entry> =
            files.iter().map(|f| Entry { path: format!("{part}/{}", f.path), ..f.clone() }).collect();
        for name in [SHA256SUMS, BLAKE3SUMS] {
            let path = self.place(part).join(name);
            let bytes = fs::read(&path).map_err(Error::io("reading", &path))?;
            taken.push(Entry {
                path: format!("{part}/{name}"),
                bytes: bytes.len() as u64,
                sha256: hex(&Sha256::digest(&bytes)),
                blake3: blake3::hash(&bytes).to_hex().to_string(),
                media_type: "text/plain",
                about: "Sums of all files of the data package.".into(),
            });
        }
        self.lock().extend(taken);
        Ok(())
    }

    /// The files so far, by path: their order does not depend on who wrote first.
    pub fn entries(&self) -> Vec<Entry> {
        let mut out = self.lock().clone();
        out.sort_by(|a, b| a.path.cmp(&b.path));
        out
    }

    /// The list of sums of a name, of the files so far.
    pub fn list_of_sums(&self, name: &str) -> String {
        let sum = |e: &Entry| if name == SHA256SUMS { e.sha256.clone() } else { e.blake3.clone() };
        self.entries().iter().fold(String::new(), |out, e| out + &sum(e) + "  " + &e.path + "\n")
    }

    /// The sum of the list of BLAKE3 sums, of the files so far.
    pub fn seal(&self) -> String {
        seal(self.list_of_sums(BLAKE3SUMS).as_bytes())
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, Vec<Entry>> {
        self.entries.lock().expect("nobody panics while holding the list of files")
    }

    /// Writes the sums and gives the package its name; what an earlier package left there goes.
    ///
    /// # Errors
    /// A file cannot be written or renamed.
    pub fn finish(mut self, target: &Path) -> Result<Vec<Entry>, Error> {
        let entries = self.entries();
        for name in [SHA256SUMS, BLAKE3SUMS] {
            let path = self.unfinished.join(name);
            fs::write(&path, self.list_of_sums(name)).map_err(Error::io("writing", path))?;
        }
        vacant(target)?;
        let old = beside(target, ".old");
        let _ = fs::remove_dir_all(&old);
        let there = target.exists();
        if there {
            fs::rename(target, &old).map_err(Error::io("moving the earlier package", target))?;
        }
        fs::rename(&self.unfinished, target).map_err(Error::io("renaming to", target))?;
        if there {
            fs::remove_dir_all(&old).map_err(Error::io("removing the earlier package", &old))?;
        }
        self.done = true;
        Ok(entries)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        if !self.done {
            let _ = fs::remove_dir_all(&self.unfinished);
        }
    }
}

/// The folder's name with an ending, in the same parent.
fn beside(target: &Path, ending: &str) -> PathBuf {
    let mut name = target.file_name().unwrap_or_default().to_owned();
    name.push(ending);
    target.with_file_name(name)
}

/// A file being written.
pub struct Sink {
    to: BufWriter<Summing>,
    path: String,
    full: PathBuf,
}

impl Sink {
    /// Writes all of it.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn all(&mut self, bytes: &[u8]) -> Result<(), Error> {
        self.to.write_all(bytes).map_err(Error::io("writing", &self.full))
    }
}

impl Write for Sink {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.to.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.to.flush()
    }
}

/// A file that knows its sums.
struct Summing {
    file: File,
    sha256: Sha256,
    blake3: blake3::Hasher,
    bytes: u64,
}

impl Write for Summing {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let n = self.file.write(bytes)?;
        self.sha256.update(&bytes[..n]);
        self.blake3.update(&bytes[..n]);
        self.bytes += n as u64;
        Ok(n)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

/// Bytes as hexadecimal text.
pub fn hex(bytes: &[u8]) -> String {
    let mut out = vec![];
    crate::cell::push_hex(&mut out, bytes);
    String::from_utf8(out).expect("hexadecimal digits are UTF-8")
}

/// The sum of a list of sums: it stands for all files that the list names.
pub fn seal(list: &[u8]) -> String {
    blake3::hash(list).to_hex().to_string()
}

/// The sums and paths that a list names.
pub fn listed(sums: &str) -> impl Iterator<Item = (&str, &str)> {
    sums.lines().filter_map(|l| l.split_once("  "))
}

/// Whether a package may stand at `target`: nothing there, an empty folder, or an earlier package
/// and no file beside it.
fn vacant(target: &Path) -> Result<(), Error> {
    if !target.exists() {
        return Ok(());
    }
    let mut found = BTreeSet::new();
    files(target, "", &mut found).map_err(Error::io("reading the folder", target))?;
    let sums = fs::read_to_string(target.join(BLAKE3SUMS)).unwrap_or_default();
    for known in [SHA256SUMS, BLAKE3SUMS].into_iter().chain(listed(&sums).map(|l| l.1)) {
        if !sums.is_empty() {
            found.remove(known);
        }
    }
    match found.into_iter().next() {
        None => Ok(()),
        Some(what) => Err(Error::Occupied { path: target.into(), what }),
    }
}

/// Paths of all files under a folder, with `/`.
///
/// # Errors
/// It cannot be read.
pub fn paths(folder: &Path) -> io::Result<BTreeSet<String>> {
    let mut out = BTreeSet::new();
    files(folder, "", &mut out)?;
    Ok(out)
}

/// Paths of all files under a folder.
fn files(at: &Path, prefix: &str, out: &mut BTreeSet<String>) -> io::Result<()> {
    for entry in fs::read_dir(at)? {
        let entry = entry?;
        let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
        if entry.file_type()?.is_dir() {
            files(&entry.path(), &format!("{name}/"), out)?;
        } else {
            out.insert(name);
        }
    }
    Ok(())
}
