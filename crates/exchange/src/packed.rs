//! A package as one file: a ZIP archive (PKWARE APPNOTE; deflate alone, so that any system opens it).
//!
//! The same record makes the same bytes: no time of making goes in. Checked in `crates/cli/tests/package.rs`.

use crate::write::{Options, Written, write};
use crate::{Error, folder};
use record::store::Store;
use std::fs::{self, File};
use std::io::{Cursor, Seek, Write};
use std::path::Path;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// How hard it is packed, 1 to 9: it is written once, and sent and kept often.
const PACKING: i64 = 9;

/// Packs every file of a folder, in the order of their names; `goes_on` is asked before each.
///
/// # Errors
/// The folder cannot be read, `to` not written; [`Error::Stopped`].
pub fn pack<W: Write + Seek>(from: &Path, to: W, goes_on: &mut dyn FnMut(&str) -> bool) -> Result<W, Error> {
    let mut archive = ZipWriter::new(to);
    for path in folder::paths(from).map_err(Error::io("reading the folder", from))? {
        if !goes_on(&path) {
            return Err(Error::Stopped);
        }
        let full = from.join(&path);
        archive.start_file(&path, SimpleFileOptions::default().compression_level(Some(PACKING)))?;
        let mut file = File::open(&full).map_err(Error::io("reading", &full))?;
        std::io::copy(&mut file, &mut archive).map_err(Error::io("packing", &full))?;
    }
    Ok(archive.finish()?)
}

/// The package of a programme as one file in memory, and what it holds.
///
/// # Errors
/// As [`write()`] and [`pack`].
pub fn packed(store: &Store, options: &Options) -> Result<(Vec<u8>, Written), Error> {
    let beside = std::env::temp_dir().join(format!("limpid-packed-{}", std::process::id()));
    let made = write(store, &beside, options)
        .and_then(|written| Ok((pack(&beside, Cursor::new(vec![]), &mut |_| true)?.into_inner(), written)));
    let _ = fs::remove_dir_all(&beside);
    made
}
